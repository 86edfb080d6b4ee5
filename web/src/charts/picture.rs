//! A chart as a picture to be kept: on white, with a title and what is shown, whatever the page looks like.

use web_sys::HtmlCanvasElement;

use super::lines::{Drawn, LineChart, Pen};
use super::palette::Palette;
use super::placement::{Layout, Measure};
use crate::components::Size;
use crate::rect::Rect;

/// Size of the picture in CSS pixels, and canvas pixels to each.
const PICTURE: Size = Size { width: 960.0, height: 600.0, text: 15.0 };
const SCALE: f64 = 2.0;
/// Edge round it.
const EDGE: f64 = 24.0;
/// Size of the text of the title.
const TITLE: f64 = 22.0;

/// Words in lines that are no wider than `width`, but for single words that are.
fn lines(words: &str, width: f64, measure: Measure) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words.split(' ') {
        let Some(last) = lines.last_mut() else { break };
        let longer = if last.is_empty() { word.to_owned() } else { format!("{last} {word}") };
        if last.is_empty() || measure(&longer) <= width {
            *last = longer;
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

/// Draws `chart` as a picture; `measure` says how wide a text is at a size in CSS pixels.
///
/// # Errors
/// What the canvas refuses.
pub fn draw(
    canvas: &HtmlCanvasElement,
    chart: &LineChart,
    title: &str,
    caption: &str,
    measure: &dyn Fn(&str, f64) -> f64,
) -> Drawn {
    let Size { width, height, text } = PICTURE;
    let mut pen = Pen::new(canvas, PICTURE, SCALE, Palette::LIGHT)?;
    let Palette { ground, ink, quiet, .. } = pen.palette;
    pen.bar((0.0, 0.0), (width, height), ground)?;
    let inner = width - 2.0 * EDGE;
    let row = |top: f64, high: f64| Rect { left: EDGE, top, right: width - EDGE, bottom: top + high };
    // A long name in smaller letters rather than cut off.
    let size = (TITLE * inner / measure(title, TITLE).max(1.0)).min(TITLE);
    pen.words(title, &row(EDGE, TITLE), false, size, ink)?;
    let caption = lines(caption, inner, &|words| measure(words, text));
    let below = 1.4 * text * caption.len() as f64;
    for (k, line) in caption.iter().enumerate() {
        let top = height - EDGE - below + 1.4 * text * k as f64;
        pen.words(line, &row(top, 1.4 * text), false, text, quiet)?;
    }
    let top = EDGE + TITLE + text;
    let size = Size { width: inner, height: height - top - EDGE - below - text, text };
    pen.origin = (EDGE, top);
    chart.draw(&Layout::new(chart, size, &|words| measure(words, text)), &mut pen, None)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn captions_are_broken_between_words() {
        let measure = |words: &str| words.chars().count() as f64;
        assert_eq!(lines("as wide as it may be", 10.0, &measure), ["as wide as", "it may be"]);
        assert_eq!(lines("unbreakable", 4.0, &measure), ["unbreakable"]);
    }
}
