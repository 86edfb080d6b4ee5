//! What is written on the parts and offcuts of a sheet: what fits, a letter where that does not.

use hushwright::workshop::CutLine;
use hushwright::workshop::layout::SheetLayout;

use super::bare;
use super::paper::{Anchor, Label, letters_in, rows_height, wrapped};
use crate::quantity::Units;
use crate::rect::Rect;

/// A line of the cut list on this sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Key {
    /// Its line.
    pub line: usize,
    /// How many of its parts lie here.
    pub count: usize,
    /// The letter that stands for it where its name has no room.
    pub letter: Option<String>,
    /// Corners along and across, in mm, of parts that have no room for a letter either.
    pub bare_at_mm: Vec<[f64; 2]>,
}

/// All texts within a sheet.
pub struct Texts {
    /// On parts, in the order of the placements; none where there is no room.
    pub parts: Vec<Option<Label>>,
    /// On offcuts, likewise.
    pub offcuts: Vec<Option<Label>>,
    /// The lines of the cut list that lie here.
    pub keys: Vec<Key>,
}

/// The names of a line as one: `I1 left / right`.
pub fn names(line: &CutLine) -> String {
    let prefix = line.names.first().and_then(|name| name.split_once(' ')).map_or("", |(prefix, _)| prefix);
    let mut all = String::new();
    for name in &line.names {
        let short = name.strip_prefix(prefix).map_or(name.as_str(), str::trim_start);
        if all.is_empty() {
            all.push_str(name);
        } else {
            all.push_str(" / ");
            all.push_str(short);
        }
    }
    all
}

/// `a` to `z`, then `aa` and so on.
fn letter(mut place: usize) -> String {
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'a' + (place % 26) as u8));
        if place < 26 {
            break;
        }
        place = place / 26 - 1;
    }
    letters.into_iter().rev().collect()
}

/// Texts for `layout`, whose rectangles `on_paper` gives as they are drawn, in text of size `em`.
pub fn texts(
    layout: &SheetLayout,
    lines: &[CutLine],
    on_paper: impl Fn(&hushwright::workshop::layout::Rectangle) -> Rect,
    em: f64,
    units: Units,
) -> Texts {
    let mut keys: Vec<Key> = Vec::new();
    let mut parts: Vec<Option<Label>> = Vec::new();
    let place_of = |keys: &[Key], line: usize| keys.iter().position(|key| key.line == line);
    for placement in &layout.placements {
        let line = placement.part;
        match place_of(&keys, line) {
            Some(k) => keys[k].count += 1,
            None => keys.push(Key { line, count: 1, letter: None, bare_at_mm: Vec::new() }),
        }
        let label = lines.get(line).and_then(|own| {
            let words = [names(own), sizes(own.length_mm, own.width_mm, units)];
            fitted(&words, &on_paper(&placement.at), em)
        });
        parts.push(label);
    }
    // A line has its letter where one of its parts needs it.
    let mut letters = 0;
    for key in &mut keys {
        let of_line = || layout.placements.iter().zip(&parts).filter(|(placement, _)| placement.part == key.line);
        if of_line().any(|(_, label)| label.is_none()) {
            key.letter = Some(letter(letters));
            letters += 1;
        }
    }
    for (placement, label) in layout.placements.iter().zip(&mut parts) {
        if label.is_none()
            && let Some(key) = keys.iter_mut().find(|key| key.line == placement.part)
        {
            let words = [key.letter.clone().unwrap_or_default()];
            *label = fitted(&words, &on_paper(&placement.at), em);
            if label.is_none() {
                key.bare_at_mm.push([placement.at.x_mm, placement.at.y_mm]);
            }
        }
    }
    let left = |rest: &hushwright::workshop::layout::Rectangle| {
        let at = on_paper(rest);
        let size = sizes(rest.length_mm, rest.width_mm, units);
        fitted(&["left over".to_owned(), size], &at, em).or_else(|| fitted(&["left over".to_owned()], &at, em))
    };
    Texts { parts, offcuts: layout.offcuts.iter().map(left).collect(), keys }
}

/// Two sides as they are written on a part: a length with its fraction stays in one row.
fn sizes(length_mm: f64, width_mm: f64, units: Units) -> String {
    [length_mm, width_mm].map(|mm| bare(mm, units).replace(' ', "\u{a0}")).join("\u{a0}× ")
}

/// Words one below the other within `rect`, broken where they have to be, read from below or from the right.
fn fitted(words: &[String], rect: &Rect, em: f64) -> Option<Label> {
    let pad = 0.3 * em;
    [false, true].into_iter().find_map(|turned| {
        let (wide, high) = if turned { (rect.height(), rect.width()) } else { (rect.width(), rect.height()) };
        let most = letters_in(wide - 2.0 * pad, em);
        let rows: Vec<String> = words.iter().map(|words| wrapped(words, most)).collect::<Option<Vec<_>>>()?.concat();
        let fits = rows_height(rows.len(), em) <= high - 0.5 * pad && !rows.is_empty();
        fits.then(|| Label { rows, at: rect.middle(), turned, anchor: Anchor::Middle })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_z() {
        assert_eq!([0, 25, 26, 51, 52, 701, 702].map(letter), ["a", "z", "aa", "az", "ba", "zz", "aaa"]);
    }
}
