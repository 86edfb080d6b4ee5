//! Lines over one-third octaves on a canvas, named at their right ends.

use std::error::Error;

use hushwright::bands::{BAND_COUNT, Spectrum};
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters_canvas::CanvasBackend;
use web_sys::HtmlCanvasElement;

use crate::components::Size;
use crate::quantity::whole;

use super::palette::{LineInk, Palette};
use super::projection::{Plot, band_label, labelled_bands, level_range, spread};

/// One line of a chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Name at its end.
    pub name: &'static str,
    /// Name beside a value, where there is less room.
    pub short: &'static str,
    /// Values in dB by band.
    pub db: Spectrum,
    /// The band at which it begins.
    pub first_band: usize,
    /// Colour.
    pub ink: LineInk,
    /// Width in CSS pixels.
    pub width: f64,
    /// Lengths of dash and gap in CSS pixels, or a whole line.
    pub dash: Option<(f64, f64)>,
}

impl Line {
    /// Its value in dB in `band`, where it has one.
    pub fn at(&self, band: usize) -> Option<f64> {
        (band >= self.first_band).then(|| self.db[band])
    }
}

/// What a chart is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct LineChart {
    /// The lines, the uppermost first.
    pub lines: Vec<Line>,
    /// Lowest level that the axis goes down to in dB; lines below run along the edge.
    pub floor_db: f64,
    /// From where to where in Hz the estimate is weak; shaded.
    pub weak_hz: Option<(f64, f64)>,
}

/// What stands in the shaded part.
const WEAK: &str = "weak";

/// Distance of the lines of names, in sizes of the text.
const NAME_GAP: f64 = 1.25;
/// Characters of a value beside a name: a space and three digits.
const VALUE_CHARACTERS: usize = 4;
/// Width of a character on average, in sizes of the text.
const CHARACTER: f64 = 0.56;

impl LineChart {
    /// The plot inside a canvas of this size in CSS pixels.
    pub fn plot(&self, size: Size) -> Plot {
        let (low_db, high_db) =
            level_range(self.lines.iter().flat_map(|line| line.db.0.into_iter().skip(line.first_band)), self.floor_db);
        // A name stands in lines of one word each.
        let widest = |name: &str| name.split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
        let characters = |line: &Line| widest(line.name).max(line.short.chars().count() + VALUE_CHARACTERS);
        let longest = self.lines.iter().map(characters).max().unwrap_or(0);
        let names = 20.0 + CHARACTER * size.text * longest as f64;
        let (left, bottom) = (9.0 + 2.1 * size.text, size.height - 9.0 - 1.1 * size.text);
        Plot { left, right: size.width - names, top: 8.0, bottom, low_db, high_db }
    }

    /// Draws the chart on `canvas` of this size, with `scale` canvas pixels to each CSS pixel. With a band under the
    /// cursor, every line is marked there and its name carries the value.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn draw(
        &self,
        canvas: &HtmlCanvasElement,
        size: Size,
        scale: f64,
        palette: Palette,
        cursor: Option<usize>,
    ) -> Result<(), Box<dyn Error>> {
        canvas.set_width((size.width * scale).round() as u32);
        canvas.set_height((size.height * scale).round() as u32);
        let backend = CanvasBackend::with_canvas_object(canvas.clone()).ok_or("the canvas has no 2d context")?;
        let root = backend.into_drawing_area();
        let plot = self.plot(size);
        let at = |x: f64, y: f64| ((x * scale).round() as i32, (y * scale).round() as i32);
        let px = |length: f64| (length * scale).round().max(1.0) as u32;
        let text = |color: RGBColor, h, v| ("sans-serif", size.text * scale).into_font().color(&color).pos(Pos::new(h, v));
        let rule = |color: RGBColor, width: f64| ShapeStyle { color: color.to_rgba(), filled: false, stroke_width: px(width) };

        if let Some((from_hz, to_hz)) = self.weak_hz {
            let (left, right) = (plot.x_of_hz(from_hz), plot.x_of_hz(to_hz));
            // A line as wide as the plot is high: the drawing has no other use for rectangles.
            let middle = 0.5 * (plot.top + plot.bottom);
            let wash = ShapeStyle { color: palette.grid.mix(0.45), filled: false, stroke_width: px(plot.bottom - plot.top) };
            root.draw(&PathElement::new([at(left, middle), at(right, middle)], wash))?;
            if right - left > CHARACTER * size.text * (WEAK.len() as f64 + 1.0) {
                let place = at(left + 4.0, plot.bottom - 3.0);
                root.draw(&Text::new(WEAK.to_owned(), place, text(palette.quiet, HPos::Left, VPos::Bottom)))?;
            }
        }
        for band in labelled_bands(plot.right - plot.left, 3.2 * size.text) {
            let x = plot.x(band);
            root.draw(&PathElement::new([at(x, plot.top), at(x, plot.bottom)], rule(palette.grid, 1.0)))?;
            let style = text(palette.quiet, HPos::Center, VPos::Top);
            root.draw(&Text::new(band_label(band), at(x, plot.bottom + 6.0), style))?;
        }
        let steps = ((plot.high_db - plot.low_db) / 20.0).floor() as i32;
        for step in 0..=steps {
            let db = plot.low_db + 20.0 * f64::from(step);
            let y = plot.y(db);
            root.draw(&PathElement::new([at(plot.left, y), at(plot.right, y)], rule(palette.grid, 1.0)))?;
            let under = step == 0 && self.lines.iter().any(|line| line.db.0[line.first_band..].iter().any(|level| *level < db));
            let label = if under { format!("≤{db:.0}") } else { format!("{db:.0}") };
            root.draw(&Text::new(label, at(plot.left - 5.0, y), text(palette.quiet, HPos::Right, VPos::Center)))?;
        }

        let ends: Vec<f64> = self.lines.iter().map(|line| plot.y(line.db[BAND_COUNT - 1])).collect();
        let rows = self.lines.iter().map(|line| line.name.split(' ').count()).max().unwrap_or(1) as f64;
        // The first and the last line of a name stay on the canvas too.
        let beyond = 0.5 * (rows - 1.0) * size.text;
        let (upper, lower) = (plot.top + 4.0 + beyond, plot.bottom - 2.0 - beyond);
        let places = spread(&ends, NAME_GAP * size.text * rows, upper, lower);
        for ((line, end), place) in self.lines.iter().zip(&ends).zip(&places) {
            let color = palette.line(line.ink);
            let style = rule(color, line.width);
            let points: Vec<_> = (line.first_band..BAND_COUNT).map(|band| at(plot.x(band), plot.y(line.db[band]))).collect();
            match line.dash {
                None => root.draw(&PathElement::new(points, style))?,
                Some((dash, gap)) => {
                    root.draw(&plotters::element::DashedPathElement::new(points, px(dash), px(gap), style))?;
                }
            }
            let from = at(plot.x(BAND_COUNT - 1) + 3.0, *end);
            let to = at(plot.right + 9.0, *place);
            root.draw(&PathElement::new([from, to, at(plot.right + 14.0, *place)], rule(color, 1.0)))?;
            let style = text(palette.ink, HPos::Left, VPos::Center);
            let name = match cursor {
                Some(band) => {
                    vec![line.at(band).map_or_else(|| line.short.to_owned(), |db| format!("{} {}", line.short, whole(db)))]
                }
                None => line.name.split(' ').map(str::to_owned).collect(),
            };
            let first = *place - 0.5 * (name.len() as f64 - 1.0) * size.text;
            for (row, words) in name.into_iter().enumerate() {
                let place = at(plot.right + 17.0, first + row as f64 * size.text);
                root.draw(&Text::new(words, place, style.clone()))?;
            }
            if let Some(band) = cursor.filter(|band| *band >= line.first_band) {
                let dot = at(plot.x(band), plot.y(line.db[band]));
                root.draw(&Circle::new(dot, px(3.5), palette.ground.filled()))?;
                root.draw(&Circle::new(dot, px(3.5), rule(color, 2.0)))?;
            }
        }
        root.present()?;
        Ok(())
    }
}
