//! What is said of a link that is to be sent, and the link as a code to scan.

use maud::{Markup, PreEscaped, html};

use super::code;
use crate::reach::{Reach, reach};
use crate::view::View;

/// What stands below the link of the design called `name`: who can open it, how long it is, where the design is; the code, which is
/// also there to fill the window, with what can be done with it; what is printed.
pub fn sending(link: &str, name: &str) -> String {
    let fragment = link.split_once('#').map_or("", |(_, fragment)| fragment);
    let (at_link, at_code) = warnings(reach(link));
    let warning = |id: &str, words: Option<&str>| html! { @if let Some(words) = words { p.warning id=(id) { (words) } } };
    let markup = html! {
        (warning("link-reach", at_link))
        p.on-paper { (link) }
        p.hint #link-hint {
            (link.chars().count()) " characters. The whole design is in the link itself, after the #, and that part never leaves the "
            "browser that opens it: nothing is sent to a server, nothing is stored there."
        }
        section aria-labelledby="code-title" {
            h2 #code-title { "Code to scan" }
            @match code::drawn(link, &format!("Code to scan: the link to {name}")) {
                Some(drawing) => (scan(&PreEscaped(drawing), name, &warning("code-reach", at_code))),
                None => p #code-missing {
                    "The link is too long for a code, which holds " (code::LONGEST) " characters (ISO/IEC 18004). Notes and names "
                    "are most of a long link; the link itself and the file have no such bound."
                },
            }
        }
        section aria-labelledby="paper-title" {
            h2 #paper-title { "On paper" }
            div.buttons { button #print-share type="button" data-send="print" { "Print link and code" } }
            p.hint {
                "One sheet with the name, the answer, the link and the code. The build sheet, with sizes, cut list and drawings, is "
                "printed from "
                a #share-to-build data-send="build" href=(format!("#{}", View::Build.fragment(fragment))) { "Build" }
                "."
            }
        }
    };
    markup.into_string()
}

fn scan(drawing: &Markup, name: &str, warning: &Markup) -> Markup {
    html! {
        div.scan {
            div.code #code { (drawing) }
            div {
                (warning)
                div.buttons {
                    button #code-large type="button" aria-haspopup="dialog" data-send="large" { "Fill the window" }
                    button #code-save type="button" data-send="code" { "Save the code (SVG)" }
                }
                p.hint {
                    "It can be read from about ten times its width (a rule of thumb), from nearer the more a design says: "
                    "long notes make it finer."
                }
            }
            dialog.large-code #large-code aria-labelledby="large-code-title" {
                p #large-code-title { (name) }
                button #large-code-close type="button" data-send="close" { "Close" }
                div { (drawing) }
            }
        }
    }
}

/// What is said at the link, and at the code, where not everybody can open them.
const fn warnings(reach: Reach) -> (Option<&'static str>, Option<&'static str>) {
    match reach {
        Reach::Anyone => (None, None),
        Reach::Network => (
            Some(
                "This page has an address of a local network: only devices in the same network can open the link. What stands \
                 from # on opens the same design at any other address of Hushwright; a file can be sent as well.",
            ),
            Some("It opens on devices in the same network only."),
        ),
        Reach::Device => (
            Some(
                "This page was opened from this device itself: nobody else can open the link as it stands. What stands from # on \
                 opens the same design at any other address of Hushwright; a file can be sent as well.",
            ),
            Some("A phone that scans it finds nothing: the address is this device’s own, see at the link."),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_can_open_a_link_is_said_at_link_and_code() {
        for (link, words) in [
            ("http://127.0.0.1:8080/#v1.e30.a3b4c5d6", Some("this device")),
            ("http://192.168.1.7:8080/#v1.e30.a3b4c5d6", Some("same network")),
            ("https://box.example/#v1.e30.a3b4c5d6", None),
        ] {
            let text = sending(link, "Ours");
            assert_eq!(text.matches("class=\"warning\"").count(), 2 * usize::from(words.is_some()), "{link}");
            assert_eq!(text.matches(words.unwrap_or("warning")).count(), 2 * usize::from(words.is_some()), "{link}");
            assert!(text.contains(&format!(">{} characters. ", link.len())) && text.matches("<svg").count() == 2, "{link}");
        }
    }

    #[test]
    fn a_link_too_long_for_a_code_says_so_and_nothing_in_it_becomes_markup() {
        let long = sending(&"v".repeat(code::LONGEST + 1), "Ours");
        assert!(long.contains("too long for a code") && !long.contains("<svg"));
        let hostile = sending("https://box.example/#\"><b>", "\"><i onclick=x>");
        assert!(!hostile.contains("<b>") && !hostile.contains("<i"));
    }
}
