//! What somebody pastes to open a design: a link, an address, what follows its `#`, or the text of a file; whole, broken over lines by
//! a mail program, or in the middle of a sentence.

use hushwright::design::{Design, link};

use crate::model::Model;
use crate::view::View;

const NOTHING: &str = "There is nothing here to open: paste a link, or the text of a file of a design.";
const EMPTY: &str = "There is no design in this address. In a link it stands after the #; ask for the whole link.";
const UNKNOWN: &str = "This is neither a link nor a file of a design. A link has a #, and after it v1. and the design; the text of a file begins with {.";

/// The design that a pasted text stands for, and how many there are in it: the first of a link that compares some.
///
/// # Errors
/// Says in words for the reader what is wrong with the text, and what is allowed.
pub fn open(text: &str, model: &dyn Model) -> Result<(Design, usize), String> {
    let text = text.trim().trim_start_matches('\u{feff}');
    if text.starts_with(['{', '[']) {
        return model.open_file(text).map(|design| (design, 1));
    }
    // Some programs write the two signs of an address that are not letters of links in their percent-encoding (RFC 3986, 2.1).
    let text = &text.replace("%23", "#").replace("%2F", "/").replace("%2f", "/");
    let fragment = match text.split_once('#') {
        Some((_, fragment)) => fragment,
        None if is_fragment(text) => text,
        None if text.is_empty() => return Err(NOTHING.to_owned()),
        None if text.contains("://") => return Err(EMPTY.to_owned()),
        None => return Err(UNKNOWN.to_owned()),
    };
    let mut refusal = None;
    // Up to where the sentence goes on; then with all lines put together again.
    for is_broken in [false, true] {
        let letters = fragment.chars().filter(|letter| !(is_broken && letter.is_whitespace()));
        let whole: String = letters.take_while(|letter| link::is_of_links(*letter)).collect();
        // No design has a slash in it.
        let all = View::read(&whole).1.split('/').chain(View::beside(&whole).split('/'));
        let mut designs = all.filter(|design| !design.is_empty());
        if let Some(first) = designs.next() {
            match model.open(first) {
                Ok(design) => return Ok((design, 1 + designs.count())),
                Err(reason) => refusal = refusal.or(Some(reason)),
            }
        }
    }
    Err(refusal.unwrap_or_else(|| EMPTY.to_owned()))
}

/// Whether it begins as a design's fragment does, with a version, after a view or without.
fn is_fragment(text: &str) -> bool {
    let version = View::read(text).1.strip_prefix('v').and_then(|rest| rest.split_once('.'));
    version.is_some_and(|(number, _)| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use hushwright::design::examples;

    use super::*;
    use crate::model::Core;

    #[test]
    fn links_are_found_in_what_people_paste() {
        let core = Core::default();
        let design = examples().pop().expect("examples");
        let (link, first) = (link::encode(&design), link::encode(&Design::default()));
        let (half, rest) = link.split_at(link.len() / 2);
        for (text, designs) in [
            (link.clone(), 1),
            (format!("#{link}"), 1),
            (format!(" share/{link}\n"), 1),
            (format!("https://box.example/#{link}"), 1),
            (format!("<https://box.example/#{link}>"), 1),
            (format!("(see https://box.example/a?b#{link})."), 1),
            (format!("It is https://box.example/#{link}."), 1),
            (format!("Here: https://box.example/#build/{link} for the two of you."), 1),
            (format!("https://box.example/#{half}\r\n  {rest}\n"), 1),
            (format!("#compare/{link}/{first}"), 2),
            (format!("#compare/{link}"), 1),
            (format!("https://box.example/%23{link}"), 1),
            (format!("https://box.example/%23compare%2F{link}%2f{first}%20"), 2),
            (core.file(&design), 1),
            (format!("\u{feff}{}", core.file(&design)), 1),
        ] {
            assert_eq!(open(&text, &core), Ok((design.clone(), designs)), "{text:.80}");
        }
    }

    #[test]
    fn what_is_no_design_says_why_and_what_is_allowed() {
        let core = Core::default();
        let whole = link::encode(&examples().pop().expect("examples"));
        for (text, says) in [
            (" \n ", NOTHING),
            ("https://box.example/", EMPTY),
            ("https://box.example/#", EMPTY),
            ("https://box.example/#learn", EMPTY),
            ("#compare//", EMPTY),
            ("hello", UNKNOWN),
            ("v.", UNKNOWN),
            ("vx.e30", UNKNOWN),
            (&whole[..whole.len() - 1], "cut short"),
            ("v99.e30.a3b4c5d6", "newer version"),
            ("https://box.example/#chapter", "is no design"),
            ("{\"hushwright\": 99}", "newer version"),
            ("{\"hushwright\": 1, \"inner\"", "no file of a design"),
            ("[]", "no file of a design"),
        ] {
            let refusal = open(text, &core).expect_err(text);
            assert!(refusal.contains(says), "{text:.40}: {refusal}");
        }
    }
}
