//! Reading and changing the page's markup, as far as finishing it needs: it is our own page, so this is no reader of markup at large.

use std::ops::Range;

/// An element of a page: where it stands, its opening tag, and the text within it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Element<'a> {
    /// From the opening tag to the end of the closing one, in bytes.
    pub place: Range<usize>,
    tag: &'a str,
    /// What stands between the tags; empty for an element without an end.
    pub text: &'a str,
}

impl Element<'_> {
    /// The value of an attribute, with or without quotes; empty for one without a value.
    pub fn attribute(&self, name: &str) -> Option<&str> {
        let mut rest = self.tag.trim_start_matches('<').trim_end_matches(['>', '/']);
        // The name of the element.
        rest = &rest[rest.find(char::is_whitespace)?..];
        loop {
            rest = rest.trim_start();
            let end = rest.find(|letter: char| letter == '=' || letter.is_whitespace()).unwrap_or(rest.len());
            let (found, after) = rest.split_at(end);
            if found.is_empty() {
                return None;
            }
            let (value, after) = match after.strip_prefix('=') {
                None => ("", after),
                Some(after) => match after.chars().next().filter(|letter| matches!(letter, '"' | '\'')) {
                    Some(quote) => after[1..].split_once(quote)?,
                    None => after.split_at(after.find(char::is_whitespace).unwrap_or(after.len())),
                },
            };
            if found == name {
                return Some(value);
            }
            rest = after;
        }
    }
}

/// All elements of a name in the order in which they stand. `script` and `style` reach to their closing tag, others are taken for
/// such as have none: `link`, `meta`.
pub fn elements<'a>(html: &'a str, name: &str) -> Vec<Element<'a>> {
    let (opening, closing) = (format!("<{name}"), format!("</{name}>"));
    let has_text = matches!(name, "script" | "style");
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(start) = html[from..].find(&opening).map(|offset| from + offset) {
        let after = start + opening.len();
        if !html[after..].starts_with(|letter: char| letter == '>' || letter.is_whitespace()) {
            from = after;
            continue;
        }
        let Some(tag_end) = end_of_tag(html, after) else { break };
        let (text, end) = match html[tag_end..].find(&closing) {
            Some(length) if has_text => (&html[tag_end..tag_end + length], tag_end + length + closing.len()),
            _ => ("", tag_end),
        };
        found.push(Element { place: start..end, tag: &html[start..tag_end], text });
        from = end;
    }
    found
}

/// Where a tag ends, past its `>`; one within quotes is none.
fn end_of_tag(html: &str, from: usize) -> Option<usize> {
    let mut quote = None;
    for (offset, letter) in html[from..].char_indices() {
        match (quote, letter) {
            (None, '>') => return Some(from + offset + 1),
            (None, '"' | '\'') => quote = Some(letter),
            (Some(open), _) if open == letter => quote = None,
            _ => {}
        }
    }
    None
}

/// `html` without what stands at `places`.
pub fn without(html: &str, mut places: Vec<Range<usize>>) -> String {
    places.sort_by_key(|place| place.start);
    let mut kept = String::with_capacity(html.len());
    let mut from = 0;
    for place in places {
        kept.push_str(&html[from..place.start]);
        from = place.end;
    }
    kept + &html[from..]
}

/// A value of an attribute, in double quotes.
pub fn quoted(value: &str) -> String {
    format!("\"{}\"", value.replace('&', "&amp;").replace('"', "&quot;").replace('<', "&lt;").replace('>', "&gt;"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "<!doctype html><meta charset=utf-8><link href=./a.svg rel=icon><link as=fetch crossorigin href=\"b>c\" rel='pre load'>\
        <style>a>b{}</style><script type=module>if (1 < 2) { '<link>' }</script><scripted></scripted><script src=x></script>";

    #[test]
    fn elements_are_found_with_their_text_and_attributes() {
        let scripts = elements(PAGE, "script");
        assert_eq!(scripts.len(), 2);
        assert_eq!(scripts[0].text, "if (1 < 2) { '<link>' }");
        assert_eq!((scripts[0].attribute("type"), scripts[0].attribute("src")), (Some("module"), None));
        assert_eq!((scripts[1].attribute("src"), scripts[1].text), (Some("x"), ""));
        assert_eq!(elements(PAGE, "style")[0].text, "a>b{}");
        let links = elements(PAGE, "link");
        assert_eq!((links[0].attribute("href"), links[0].attribute("rel")), (Some("./a.svg"), Some("icon")));
        assert_eq!((links[1].attribute("href"), links[1].attribute("rel")), (Some("b>c"), Some("pre load")));
        assert_eq!((links[1].attribute("crossorigin"), links[1].attribute("as")), (Some(""), Some("fetch")));
    }

    #[test]
    fn what_is_taken_out_leaves_the_rest() {
        let places = elements(PAGE, "script").into_iter().map(|script| script.place).collect();
        let rest = without(PAGE, places);
        assert!(rest.ends_with("</style><scripted></scripted>"), "{rest}");
    }

    #[test]
    fn a_value_stays_within_its_quotes() {
        assert_eq!(quoted("a\"><b>&"), "\"a&quot;&gt;&lt;b&gt;&amp;\"");
    }
}
