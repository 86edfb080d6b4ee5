//! What somebody pastes to open a design: a link, an address, what follows its `#`, or the text of a file; whole, broken over lines by
//! a mail program, or in the middle of a sentence.

use hushwright::design::Design;

use crate::model::Model;
use crate::view::View;

/// What a pasted text is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pasted {
    /// Nothing.
    Nothing,
    /// The text of a file.
    File(String),
    /// A link: its design's own fragment, in the ways in which it may be meant, the likeliest first; and how many designs it holds.
    Link(Vec<String>, usize),
    /// An address without a design.
    Empty,
    /// Neither of them.
    Unknown,
}

/// What `text` is.
pub fn pasted(text: &str) -> Pasted {
    let text = text.trim().trim_start_matches('\u{feff}');
    if text.is_empty() {
        return Pasted::Nothing;
    }
    if text.starts_with(['{', '[']) {
        return Pasted::File(text.to_owned());
    }
    let fragment = match text.split_once('#') {
        Some((_, fragment)) => fragment,
        None if is_fragment(text) => text,
        None if text.contains("://") => return Pasted::Empty,
        None => return Pasted::Unknown,
    };
    // Up to where the sentence goes on, and with all lines put together again.
    let as_it_is: String = fragment.chars().take_while(|letter| is_of_links(*letter)).collect();
    let put_together: String =
        fragment.chars().filter(|letter| !letter.is_whitespace()).take_while(|letter| is_of_links(*letter)).collect();
    let designs = designs_of(&as_it_is);
    let mut ways: Vec<String> = Vec::new();
    for way in [&as_it_is, &put_together] {
        if let Some(first) = designs_of(way).first().filter(|first| !ways.contains(first)) {
            ways.push(first.clone());
        }
    }
    if ways.is_empty() { Pasted::Empty } else { Pasted::Link(ways, designs.len().max(1)) }
}

/// The design that a pasted text stands for, and how many there are in it.
///
/// # Errors
/// Says in words for the reader what is wrong with the text, and what is allowed.
pub fn open(text: &str, model: &dyn Model) -> Result<(Design, usize), String> {
    match pasted(text) {
        Pasted::File(text) => model.open_file(&text).map(|design| (design, 1)),
        Pasted::Link(ways, designs) => {
            let mut ways = ways.iter().map(|way| model.open(way));
            let first = ways.next().unwrap_or_else(|| Err(EMPTY.to_owned()));
            first.or_else(|refusal| ways.find_map(Result::ok).ok_or(refusal)).map(|design| (design, designs))
        }
        Pasted::Nothing => Err("There is nothing here to open: paste a link, or the text of a file of a design.".to_owned()),
        Pasted::Empty => Err(EMPTY.to_owned()),
        Pasted::Unknown => Err(
            "This is neither a link nor a file of a design. A link has a #, and after it v1. and the design; the text of a file begins with {."
                .to_owned(),
        ),
    }
}

const EMPTY: &str = "There is no design in this address. In a link it stands after the #; ask for the whole link.";

/// The fragments of the designs in that of a link. A link that compares has several.
fn designs_of(fragment: &str) -> Vec<String> {
    let (view, designs) = View::read(fragment);
    let designs = designs.trim_end_matches(['.', '/']);
    let parts = designs.splitn(if view == View::Compare { usize::MAX } else { 1 }, '/');
    parts.filter(|design| !design.is_empty()).map(str::to_owned).collect()
}

/// Letters that links of any version are made of: those of base64url (RFC 4648, section 5), dots, and the slash after a view.
const fn is_of_links(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_' | '.' | '/')
}

/// Whether it begins as a design's fragment does, with a version, or with a view.
fn is_fragment(text: &str) -> bool {
    let (view, design) = View::read(text);
    let version = design.strip_prefix('v').and_then(|rest| rest.split_once('.'));
    version.is_some_and(|(number, _)| !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit()))
        || (view != View::default() && design.is_empty())
}

#[cfg(test)]
mod tests {
    use hushwright::design::{examples, link};

    use super::*;
    use crate::model::Core;

    fn as_link(ways: &[&str], designs: usize) -> Pasted {
        Pasted::Link(ways.iter().map(|way| (*way).to_owned()).collect(), designs)
    }

    #[test]
    fn links_are_found_in_what_people_paste() {
        for text in [
            "https://box.example/#v1.e30.a3b4c5d6",
            "#v1.e30.a3b4c5d6",
            "v1.e30.a3b4c5d6",
            " v1.e30.a3b4c5d6\n",
            "<https://box.example/#v1.e30.a3b4c5d6>",
            "(see https://box.example/a?b#v1.e30.a3b4c5d6).",
            "https://box.example/#build/v1.e30.a3b4c5d6",
            "share/v1.e30.a3b4c5d6",
        ] {
            assert_eq!(pasted(text), as_link(&["v1.e30.a3b4c5d6"], 1), "{text}");
        }
        // A mail program breaks lines; a sentence goes on. Both are looked at.
        assert_eq!(pasted("https://box.example/#v1.e3\r\n0.a3b4c5d6"), as_link(&["v1.e3", "v1.e30.a3b4c5d6"], 1));
        assert_eq!(pasted("#v1.e30.a3b4c5d6 for you"), as_link(&["v1.e30.a3b4c5d6", "v1.e30.a3b4c5d6foryou"], 1));
        assert_eq!(pasted("#compare/v1.e30.a3b4c5d6/v1.e31.a3b4c5d7"), as_link(&["v1.e30.a3b4c5d6"], 2));
        // A newer version has a message of its own.
        assert_eq!(pasted("v9.e30"), as_link(&["v9.e30"], 1));
    }

    #[test]
    fn what_is_pasted_opens_or_says_why_not() {
        let core = Core::default();
        let design = examples().pop().expect("examples");
        let link = link::encode(&design);
        let (half, rest) = link.split_at(link.len() / 2);
        let first = link::encode(&Design::default());
        for (text, designs) in [
            (format!("https://box.example/#{link}"), 1),
            (format!("Here: https://box.example/#build/{link} for the two of you."), 1),
            (format!("https://box.example/#{half}\n  {rest}\n"), 1),
            (format!("#compare/{link}/{first}"), 2),
            (core.file(&design), 1),
        ] {
            assert_eq!(open(&text, &core), Ok((design.clone(), designs)), "{text:.80}");
        }
        for (text, says) in [
            (half, "cut short"),
            ("v99.e30.a3b4c5d6", "newer version"),
            ("", "nothing here"),
            ("https://box.example/", "no design in this address"),
            ("12 mm", "begins with {"),
            ("{\"hushwright\": 99}", "newer version"),
            ("{\"hushwright\": 1, \"inner\"", "no file of a design"),
        ] {
            let refusal = open(text, &core).expect_err(text);
            assert!(refusal.contains(says), "{text:.40}: {refusal}");
        }
    }

    #[test]
    fn files_and_what_is_no_design_are_told_apart() {
        assert_eq!(pasted("\u{feff} {\"hushwright\": 1}\n"), Pasted::File("{\"hushwright\": 1}".to_owned()));
        assert_eq!(pasted(" \n "), Pasted::Nothing);
        for text in ["https://box.example/", "https://box.example/#", "#", "https://box.example/#learn", "build", "#compare//"] {
            assert_eq!(pasted(text), Pasted::Empty, "{text}");
        }
        for text in ["hello", "v.", "vx.e30", "12 mm"] {
            assert_eq!(pasted(text), Pasted::Unknown, "{text}");
        }
    }
}
