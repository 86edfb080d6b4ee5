//! A sheet as it is sawn: parts, what is left, and the cuts by number.

use hushwright::workshop::CutList;
use hushwright::workshop::layout::{Direction, Rectangle, SheetLayout, Stock};
use maud::{Markup, html};

use super::numbers::{Spot, place_numbers};
use super::paper::{Anchor, Label, Paper, Point, letters_in, wrapped};
use super::sheet_labels::{Key, Texts, names, texts};
use super::{bare, counted, length, sheet_words, size, slug, unit_note};
use crate::charts::cut::Hatch;
use crate::quantity::Units;
use crate::rect::Rect;

/// Size of the text as a part of the length of the sheet: 9 px where the drawing is 340 px wide, with the numbers round it.
const TEXT: f64 = 0.031;
/// Size of the text in a file, as a part of that on the page, which is read on small screens too.
const FILE_TEXT: f64 = 0.6;
/// Radius of the circle round a number, as a part of the size of its text.
const CIRCLE: f64 = 0.78;
/// The look of a drawing that stands alone: the colours of paper and the rules of the page.
const COLOURS: &str = include_str!("../../../style/section_paper.css");
const RULES: &str = include_str!("../../../style/drawings.css");

/// All that is read on the drawing of a sheet, and where.
pub(super) struct SheetTexts {
    pub em: f64,
    pub texts: Texts,
    pub numbers: Vec<Spot>,
}

/// A rectangle of the sheet as it is drawn: its corner is the lower left one.
fn on_paper(at: &Rectangle, stock: &Stock) -> Rect {
    let bottom = stock.width_mm - at.y_mm;
    Rect { left: at.x_mm, right: at.x_mm + at.length_mm, top: bottom - at.width_mm, bottom }
}

/// The cuts as they are drawn, in the middle of their kerfs, from where the saw enters.
fn cut_lines(layout: &SheetLayout, stock: &Stock) -> Vec<(Point, Point)> {
    let line = |cut: &hushwright::workshop::layout::Cut| {
        let ((from, to), at) = (cut.from_to_mm(), cut.position_mm + 0.5 * cut.kerf_mm);
        match cut.direction {
            Direction::Along => ((from, stock.width_mm - at), (to, stock.width_mm - at)),
            Direction::Across => ((at, stock.width_mm - from), (at, stock.width_mm - to)),
        }
    };
    layout.cuts.iter().map(line).collect()
}

impl SheetTexts {
    /// Texts and numbers of `layout`.
    pub fn new(layout: &SheetLayout, stock: &Stock, list: &CutList, units: Units) -> Self {
        let em = TEXT * stock.length_mm.max(0.7 * stock.width_mm);
        let texts = texts(layout, &list.lines, |at| on_paper(at, stock), em, units);
        let rects: Vec<Rect> = texts.parts.iter().chain(&texts.offcuts).flatten().map(|label| label.rect(em)).collect();
        let numbers = place_numbers(&cut_lines(layout, stock), &sheet_rect(stock), &rects, CIRCLE * em);
        Self { em, texts, numbers }
    }
}

const fn sheet_rect(stock: &Stock) -> Rect {
    Rect { left: 0.0, top: 0.0, right: stock.length_mm, bottom: stock.width_mm }
}

/// The board that a sheet is of, by its first part.
fn board<'a>(layout: &SheetLayout, list: &'a CutList) -> Option<&'a hushwright::workshop::Board> {
    let line = list.lines.get(layout.placements.first()?.part)?;
    list.boards.get(line.board)
}

fn drawn(layout: &SheetLayout, stock: &Stock, list: &CutList, units: Units) -> (Paper, SheetTexts) {
    let own = SheetTexts::new(layout, stock, list, units);
    let (em, sheet) = (own.em, sheet_rect(stock));
    let mut paper = Paper::new(sheet, em);
    paper.rect("raw", &sheet);
    let board = board(layout, list);
    let tint = format!("piece {}", board.map_or(Hatch::Plain, |board| Hatch::of_key(&board.key)).key());
    for rest in &layout.offcuts {
        paper.rect("rest", &on_paper(rest, stock));
    }
    for placement in &layout.placements {
        paper.rect(&tint, &on_paper(&placement.at, stock));
    }
    let lines = cut_lines(layout, stock);
    for (cut, (from, to)) in layout.cuts.iter().zip(&lines) {
        paper.line(if cut.stage <= 1 { "saw first" } else { "saw" }, &[*from, *to]);
    }
    for (spot, (from, _)) in own.numbers.iter().zip(&lines) {
        if let Some(end) = spot.leads_to {
            paper.line("leader", &[spot.at, end]);
        } else {
            // Where the saw enters.
            paper.circle("entry", *from, 0.12 * em);
        }
    }
    for (label, class) in
        own.texts.parts.iter().map(|label| (label, "name")).chain(own.texts.offcuts.iter().map(|label| (label, "quiet")))
    {
        if let Some(label) = label {
            paper.label(class, label);
        }
    }
    for (k, spot) in own.numbers.iter().enumerate() {
        paper.circle("number", spot.at, CIRCLE * em);
        paper.label(if k >= 99 { "count small" } else { "count" }, &Label::row((k + 1).to_string(), spot.at));
    }
    let frame = paper.frame;
    let y = frame.bottom + 1.6 * em;
    paper.dimension((sheet.left, sheet.right), y, &bare(stock.length_mm, units));
    let x = frame.left - 0.6 * em;
    paper.dimension_up((sheet.bottom, sheet.top), x, &bare(stock.width_mm, units));
    if board.is_some_and(|board| board.has_grain) {
        let (y, from, to) = (frame.top - 0.9 * em, sheet.left, sheet.left + 6.0 * em);
        paper.line("dim", &[(from, y), (to, y)]);
        for (tip, back) in [(from, 0.6 * em), (to, -0.6 * em)] {
            paper.line("dim", &[(tip + back, y - 0.3 * em), (tip, y), (tip + back, y + 0.3 * em)]);
        }
        paper.label("quiet", &Label::row("grain", (to + 0.6 * em, y)).anchored(Anchor::Start));
    }
    (paper, own)
}

/// What a part of the list is, in words: `a: I1 left / right, 812 × 400 mm, 2 here`.
fn key_words(key: &Key, list: &CutList, units: Units) -> Option<String> {
    let (letter, line) = (key.letter.as_ref()?, list.lines.get(key.line)?);
    let mut words = format!("{letter}: {}, {}", names(line), size(line.length_mm, line.width_mm, units));
    if key.count > 1 {
        words = format!("{words}, {} here", key.count);
    }
    if !key.bare_at_mm.is_empty() {
        let places: Vec<String> =
            key.bare_at_mm.iter().map(|[x, y]| format!("{} / {}", bare(*x, units), bare(*y, units))).collect();
        words = format!(
            "{words}; too small for a letter, {} from the left / lower edge of the sheet: {}",
            unit_note(units),
            places.join(", ")
        );
    }
    Some(words)
}

fn title(layout: &SheetLayout, stock: &Stock, list: &CutList, number: usize, units: Units) -> String {
    let of =
        board(layout, list).map_or(String::new(), |board| format!(" of {}, {}", board.name, length(board.nominal_mm, units)));
    format!(
        "Sheet {number}{of}, {}, drawn to scale: {}, {}, {} % used",
        size(stock.length_mm, stock.width_mm, units),
        counted(layout.placements.len(), "part"),
        counted(layout.cuts.len(), "cut"),
        crate::quantity::decimal(100.0 * layout.yield_share, 0)
    )
}

fn id(layout: &SheetLayout, list: &CutList, number: usize) -> String {
    format!(
        "sheet-{}-{number}",
        board(layout, list).map_or(String::new(), |board| slug(&format!("{}-{}", board.key, board.thickness_mm)))
    )
}

/// Sheet `number` to scale, the meaning of its letters, and the order of its cuts.
pub fn sheet(layout: &SheetLayout, stock: &Stock, list: &CutList, number: usize, units: Units) -> Markup {
    let (paper, own) = drawn(layout, stock, list, units);
    let title = title(layout, stock, list, number, units);
    let keys: Vec<String> = own.texts.keys.iter().filter_map(|key| key_words(key, list, units)).collect();
    html! {
        figure class="drawing sawn" {
            (paper.svg(&id(layout, list, number), &title))
            figcaption { (title) }
            @if !keys.is_empty() {
                ul class="letters" { @for key in &keys { li { (key) } } }
            }
            ol class="cuts" {
                @for (k, words) in sheet_words::order(layout, list, units).iter().enumerate() {
                    li { b { (k + 1) "." } " " (words) }
                }
            }
        }
    }
}

/// The same as the text of an SVG file, in scale 1:10, with letters and cuts below the drawing.
pub fn sheet_svg_file(layout: &SheetLayout, stock: &Stock, list: &CutList, number: usize, units: Units) -> String {
    let (mut paper, own) = drawn(layout, stock, list, units);
    let title = title(layout, stock, list, number, units);
    let keys = own.texts.keys.iter().filter_map(|key| key_words(key, list, units));
    let cuts = sheet_words::order(layout, list, units).into_iter().enumerate().map(|(k, words)| format!("{}. {words}", k + 1));
    paper.em = FILE_TEXT * own.em;
    let (em, left, most) = (paper.em, paper.frame.left, letters_in(paper.frame.width(), paper.em));
    for words in std::iter::once(format!("{title}. Scale 1:10.")).chain(keys).chain(cuts) {
        let y = paper.frame.bottom + 0.9 * em;
        // A word longer than the sheet is wide stays whole.
        for (k, row) in wrapped(&words, most).unwrap_or_else(|| vec![words.clone()]).into_iter().enumerate() {
            paper.label("name", &Label::row(row, (left, y + 1.2 * em * k as f64)).anchored(Anchor::Start));
        }
    }
    paper.file(&id(layout, list, number), &title, &format!("{COLOURS}{RULES}"))
}
