//! The paper that is drawn on: shapes and texts in mm, y downwards; its frame grows with what is put on it.

use maud::{Markup, PreEscaped, html};

use crate::quantity::decimal;
use crate::rect::Rect;

/// A point in mm, to the right and down.
pub type Point = (f64, f64);

/// Width of a letter as a part of the text's size: assumed, that of a wide face.
const GLYPH: f64 = 0.6;
/// Height of a row of text as a part of its size.
const ROW: f64 = 1.15;

/// Where a text begins, as seen from its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The point is its left end.
    Start,
    /// The point is its middle.
    Middle,
    /// The point is its right end.
    End,
}

/// A text in rows.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// Its rows.
    pub rows: Vec<String>,
    /// Half way up its height; across as the anchor says.
    pub at: Point,
    /// Whether it is read from the right.
    pub turned: bool,
    /// Where it begins.
    pub anchor: Anchor,
}

impl Label {
    /// One row about a point.
    pub fn row(words: impl Into<String>, at: Point) -> Self {
        Self { rows: vec![words.into()], at, turned: false, anchor: Anchor::Middle }
    }

    /// The same, read from the right.
    pub fn turned(mut self) -> Self {
        self.turned = true;
        self
    }

    /// The same with another anchor.
    pub fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// What it covers, in text of size `em`.
    pub fn rect(&self, em: f64) -> Rect {
        let width = self.rows.iter().map(|row| text_width(row, em)).fold(0.0, f64::max);
        let height = rows_height(self.rows.len(), em);
        // Along its own direction, from its point.
        let (from, to) = match self.anchor {
            Anchor::Start => (0.0, width),
            Anchor::Middle => (-0.5 * width, 0.5 * width),
            Anchor::End => (-width, 0.0),
        };
        let (x, y) = self.at;
        if self.turned {
            Rect { left: x - 0.5 * height, right: x + 0.5 * height, top: y - to, bottom: y - from }
        } else {
            Rect { left: x + from, right: x + to, top: y - 0.5 * height, bottom: y + 0.5 * height }
        }
    }
}

/// Width of a text of size `em`.
pub fn text_width(words: &str, em: f64) -> f64 {
    GLYPH * em * words.chars().count() as f64
}

/// Height of so many rows of text of size `em`.
pub fn rows_height(rows: usize, em: f64) -> f64 {
    ROW * em * rows as f64
}

/// Most letters of size `em` within `width`.
pub fn letters_in(width: f64, em: f64) -> usize {
    (width / (GLYPH * em) + 1e-9).floor().max(0.0) as usize
}

/// Words broken into rows of at most `most` letters; none if one of them is longer.
pub fn wrapped(words: &str, most: usize) -> Option<Vec<String>> {
    let mut rows: Vec<String> = Vec::new();
    for word in words.split(' ').filter(|word| !word.is_empty()) {
        if word.chars().count() > most {
            return None;
        }
        match rows.last_mut() {
            Some(row) if row.chars().count() + 1 + word.chars().count() <= most => {
                row.push(' ');
                row.push_str(word);
            }
            _ => rows.push(word.to_owned()),
        }
    }
    Some(rows)
}

/// Places in the order of `wished`, which is sorted, at least `gap` apart and moved no further than they push each other.
pub fn spread(wished: &[f64], gap: f64) -> Vec<f64> {
    // Runs of places that touch: where each begins, if its members were at equal steps, is the mean of what they wish.
    let mut runs: Vec<(f64, usize)> = Vec::new();
    for &wish in wished {
        runs.push((wish, 1));
        while let [.., (one, one_count), (two, two_count)] = runs[..]
            && one + gap * one_count as f64 > two
        {
            let count = one_count + two_count;
            let first = (one * one_count as f64 + (two - gap * one_count as f64) * two_count as f64) / count as f64;
            runs.truncate(runs.len() - 2);
            runs.push((first, count));
        }
    }
    runs.into_iter().flat_map(|(first, count)| (0..count).map(move |k| first + gap * k as f64)).collect()
}

/// What has been drawn so far.
pub struct Paper {
    /// Size of its text in mm.
    pub em: f64,
    /// What holds all of it.
    pub frame: Rect,
    shapes: Vec<Markup>,
}

/// A number with a tenth of a millimetre, or finer where that is needed.
fn mm(value: f64) -> String {
    decimal(value, 2)
}

fn path(points: &[Point]) -> String {
    let all: Vec<String> = points.iter().map(|(x, y)| format!("{} {}", mm(*x), mm(*y))).collect();
    format!("M{}", all.join("L"))
}

impl Paper {
    /// Paper with a frame to begin with, and text of size `em`.
    pub const fn new(frame: Rect, em: f64) -> Self {
        Self { em, frame, shapes: Vec::new() }
    }

    fn hold(&mut self, points: &[Point]) {
        for (x, y) in points {
            self.frame = self.frame.with(&Rect::about((*x, *y), 0.0, 0.0));
        }
    }

    /// A rectangle.
    pub fn rect(&mut self, class: &str, rect: &Rect) {
        self.frame = self.frame.with(rect);
        let [x, y, width, height] = [rect.left, rect.top, rect.width(), rect.height()].map(mm);
        self.shapes.push(html! { rect class=(class) x=(x) y=(y) width=(width) height=(height) {} });
    }

    /// A rectangle filled with a hatching of the page.
    pub fn hatched(&mut self, fill: &str, rect: &Rect) {
        self.frame = self.frame.with(rect);
        let [x, y, width, height] = [rect.left, rect.top, rect.width(), rect.height()].map(mm);
        self.shapes.push(html! { rect fill=(fill) x=(x) y=(y) width=(width) height=(height) {} });
    }

    /// A line through points.
    pub fn line(&mut self, class: &str, points: &[Point]) {
        self.hold(points);
        self.shapes.push(html! { path class=(class) d=(path(points)) {} });
    }

    /// An area between points.
    pub fn area(&mut self, class: &str, points: &[Point]) {
        self.hold(points);
        let d = path(points) + "Z";
        self.shapes.push(html! { path class=(class) d=(d) {} });
    }

    /// A circle.
    pub fn circle(&mut self, class: &str, (x, y): Point, radius: f64) {
        self.frame = self.frame.with(&Rect::about((x, y), 2.0 * radius, 2.0 * radius));
        self.shapes.push(html! { circle class=(class) cx=(mm(x)) cy=(mm(y)) r=(mm(radius)) {} });
    }

    /// A text.
    pub fn label(&mut self, class: &str, label: &Label) {
        self.frame = self.frame.with(&label.rect(self.em));
        let (x, y) = label.at;
        let turn = label.turned.then(|| format!("rotate(-90 {} {})", mm(x), mm(y)));
        let anchor = match label.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let first = -0.5 * ROW * (label.rows.len() as f64 - 1.0);
        let rows =
            label.rows.iter().enumerate().map(|(k, row)| (format!("{}em", decimal(0.35 + first + ROW * k as f64, 3)), row));
        self.shapes.push(html! {
            @for (down, row) in rows {
                text class=(class) x=(mm(x)) y=(mm(y)) dy=(down) text-anchor=(anchor) transform=[turn.as_ref()] { (row) }
            }
        });
    }

    /// A dimension along the drawing between two places, at height `y`, with its number above the line.
    pub fn dimension(&mut self, (from, to): (f64, f64), y: f64, words: &str) {
        self.line("dim", &[(from, y), (to, y)]);
        for x in [from, to] {
            self.tick((x, y));
        }
        let label = Label::row(words, (0.5 * (from + to), y - 0.7 * self.em));
        self.label("dims", &label);
    }

    /// A dimension up the drawing between two places, at `x`, with its number to the left of the line.
    pub fn dimension_up(&mut self, (from, to): (f64, f64), x: f64, words: &str) {
        self.line("dim", &[(x, from), (x, to)]);
        for y in [from, to] {
            self.tick((x, y));
        }
        let label = Label::row(words, (x - 0.7 * self.em, 0.5 * (from + to))).turned();
        self.label("dims", &label);
    }

    fn tick(&mut self, (x, y): Point) {
        let half = 0.3 * self.em;
        self.line("tick", &[(x - half, y + half), (x + half, y - half)]);
    }

    /// The drawing, with what is to be seen said in words.
    pub fn svg(self, id: &str, title: &str) -> Markup {
        let (view, em) = (self.view(), mm(self.em));
        let id = format!("drawing-{id}");
        html! {
            svg role="img" aria-labelledby=(id) viewBox=(view) font-size=(em) {
                title id=(id) { (title) }
                (self.shapes())
            }
        }
    }

    /// The drawing as a file of its own, a tenth as large, with rules for its look.
    pub fn file(self, id: &str, title: &str, style: &str) -> String {
        let (view, em) = (self.view(), mm(self.em));
        let frame = self.framed();
        let [width, height] = [frame.width(), frame.height()].map(|side| format!("{}mm", mm(0.1 * side)));
        let svg = html! {
            svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-labelledby=(id) viewBox=(view) width=(width)
                height=(height) font-size=(em) {
                title id=(id) { (title) }
                style { (PreEscaped(style)) }
                (self.shapes())
            }
        };
        svg.into_string()
    }

    /// The frame with room for the width of lines.
    fn framed(&self) -> Rect {
        self.frame.grown(0.15 * self.em)
    }

    fn view(&self) -> String {
        let frame = self.framed();
        [frame.left, frame.top, frame.width(), frame.height()].map(mm).join(" ")
    }

    fn shapes(&self) -> Markup {
        html! { @for shape in &self.shapes { (shape) } }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_break_between_words() {
        assert_eq!(wrapped("I1 left / right", 7), Some(vec!["I1 left".to_owned(), "/ right".to_owned()]));
        assert_eq!(wrapped("I1 left / right", 4), None);
    }

    #[test]
    fn what_is_spread_keeps_its_middle() {
        assert_eq!(spread(&[0.0, 10.0], 5.0), [0.0, 10.0]);
        assert_eq!(spread(&[0.0, 0.0, 0.0], 5.0), [-5.0, 0.0, 5.0]);
        assert_eq!(spread(&[0.0, 4.0, 7.0], 4.0), [-1.0 / 3.0, 11.0 / 3.0, 23.0 / 3.0]);
    }

    #[test]
    fn marks_are_escaped() {
        let mut paper = Paper::new(Rect::about((0.0, 0.0), 10.0, 10.0), 1.0);
        paper.label("dims", &Label::row("<b>&\"", (0.0, 0.0)));
        let text = paper.svg("x", "</title><script>").into_string();
        assert!(text.contains("&lt;b&gt;&amp;") && !text.contains("<script>") && !text.contains("<b>"), "{text}");
    }
}
