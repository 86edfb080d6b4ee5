//! Lines over one-third octaves on a canvas, named at their right ends.

use std::error::Error;

use hushwright::bands::{BAND_COUNT, Spectrum};
use plotters::coord::Shift;
use plotters::element::DashedPathElement;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters_canvas::CanvasBackend;
use web_sys::HtmlCanvasElement;

use crate::components::Size;
use crate::quantity::whole;

use super::FONT;
use super::palette::{LineInk, Palette};
use super::placement::{Layout, Rect};
use super::projection::level_range;

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

/// Within what a line lies in 8 of 10 cases.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelRange {
    /// Name of the line.
    pub of: &'static str,
    /// Lower ends in dB by band.
    pub low_db: Spectrum,
    /// Upper ends in dB by band.
    pub high_db: Spectrum,
}

/// How a line stands against its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// Name of the line.
    pub level: &'static str,
    /// Name of its limit.
    pub limit: &'static str,
    /// By how many dB each octave lies below its limit, for its thirds, where octaves are judged.
    pub of_octave_db: Option<Spectrum>,
}

/// What a chart is drawn from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LineChart {
    /// The lines, the uppermost first.
    pub lines: Vec<Line>,
    /// Lowest level that the axis goes down to in dB; lines below run along the edge.
    pub floor_db: f64,
    /// From where to where in Hz the estimate is weak; hatched.
    pub weak_hz: Option<(f64, f64)>,
    /// Range of a line; shaded.
    pub range: Option<LevelRange>,
    /// The line that is judged.
    pub judged: Option<Judged>,
}

/// What a chart is drawn with.
#[derive(Clone, Copy, Debug)]
pub struct Pen {
    /// Canvas pixels to a CSS pixel.
    pub scale: f64,
    /// Colours.
    pub palette: Palette,
    /// Band under the cursor: every line is marked there, and its name carries the value.
    pub cursor: Option<usize>,
}

/// A part of a canvas.
pub type Area = DrawingArea<CanvasBackend, Shift>;

impl Pen {
    /// A point of the canvas.
    fn at(&self, (x, y): (f64, f64)) -> (i32, i32) {
        ((x * self.scale).round() as i32, (y * self.scale).round() as i32)
    }

    fn px(&self, length: f64) -> u32 {
        (length * self.scale).round().max(1.0) as u32
    }

    fn stroke(&self, color: RGBAColor, width: f64) -> ShapeStyle {
        ShapeStyle { color, filled: false, stroke_width: self.px(width) }
    }

    /// A line that is upright or level: filled, since a stroke would lie across two rows of pixels and be grey in both.
    fn rule(&self, area: &Area, from: (f64, f64), to: (f64, f64), color: RGBColor) -> Result<(), Box<dyn Error>> {
        let (from, to, width) = (self.at(from), self.at(to), self.px(1.0).cast_signed());
        let to = if from.0 == to.0 { (to.0 + width, to.1) } else { (to.0, to.1 + width) };
        area.draw(&Rectangle::new([from, to], color.filled()))?;
        Ok(())
    }

    /// A text of `text` CSS pixels, its place in its box by `h`.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn words(
        &self,
        area: &Area,
        words: &str,
        rect: &Rect,
        h: HPos,
        text: f64,
        color: RGBColor,
    ) -> Result<(), Box<dyn Error>> {
        let (middle, y) = rect.middle();
        let x = match h {
            HPos::Left => rect.left,
            HPos::Center => middle,
            HPos::Right => rect.right,
        };
        let style = (FONT, text * self.scale).into_font().color(&color).pos(Pos::new(h, VPos::Center));
        area.draw(&Text::new(words, self.at((x, y)), style))?;
        Ok(())
    }
}

/// Distance of the lines of a hatching in CSS pixels.
const HATCH: f64 = 7.0;

impl LineChart {
    /// Levels in dB at the lower and the upper end of the axis.
    pub fn level_range(&self) -> (f64, f64) {
        let lines = self.lines.iter().flat_map(|line| line.db.0.into_iter().skip(line.first_band));
        level_range(lines.chain(self.range.iter().flat_map(|range| range.high_db.0)), self.floor_db)
    }

    /// The line of this name.
    pub fn line(&self, name: &str) -> Option<&Line> {
        self.lines.iter().find(|line| line.name == name)
    }

    /// Draws the chart over the whole of `canvas`, which becomes `size` CSS pixels large.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn draw(&self, canvas: &HtmlCanvasElement, layout: &Layout, size: Size, pen: &Pen) -> Result<(), Box<dyn Error>> {
        self.draw_on(&blank(canvas, size, pen.scale)?, layout, pen)
    }

    /// Draws the chart on a part of a canvas.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn draw_on(&self, area: &Area, layout: &Layout, pen: &Pen) -> Result<(), Box<dyn Error>> {
        let (plot, palette) = (&layout.plot, pen.palette);
        self.draw_weak(area, layout, pen)?;
        for tick in &layout.bands {
            let x = plot.x(tick.at as usize);
            pen.rule(area, (x, plot.top), (x, plot.bottom), palette.grid)?;
        }
        for tick in &layout.levels {
            let y = plot.y(tick.at);
            pen.rule(area, (plot.left, y), (plot.right, y), palette.grid)?;
        }
        for tick in layout.bands.iter().chain(&layout.levels) {
            if let Some(rect) = &tick.label {
                pen.words(area, &tick.words, rect, HPos::Center, layout.text, palette.quiet)?;
            }
        }
        for (unit, rect) in &layout.units {
            pen.words(area, unit, rect, HPos::Center, layout.text, palette.quiet)?;
        }
        if let Some(range) = &self.range {
            let edge = |db: &Spectrum| (0..BAND_COUNT).map(|band| pen.at((plot.x(band), plot.y(db[band])))).collect::<Vec<_>>();
            let (high, low) = (edge(&range.high_db), edge(&range.low_db));
            let around: Vec<_> = high.iter().chain(low.iter().rev()).copied().collect();
            area.draw(&Polygon::new(around, palette.ink.mix(0.13)))?;
            for edge in [high, low] {
                area.draw(&PathElement::new(edge, pen.stroke(palette.ink.mix(0.4), 0.75)))?;
            }
        }
        for (line, name) in self.lines.iter().zip(&layout.names) {
            let color = palette.line(line.ink);
            let points: Vec<_> = layout.points(line).into_iter().map(|point| pen.at(point)).collect();
            pen.draw_line(area, points, line)?;
            let y = name.rect.middle().1;
            if let Some(end) = name.end {
                let lead = [(plot.x(BAND_COUNT - 1) + 3.0, end), (name.rect.left - 8.0, y), (name.rect.left - 3.0, y)];
                area.draw(&PathElement::new(lead.map(|point| pen.at(point)), pen.stroke(color.to_rgba(), 1.0)))?;
            } else {
                let sample = [(name.rect.left - 25.0, y), (name.rect.left - 5.0, y)];
                pen.draw_line(area, sample.map(|point| pen.at(point)).to_vec(), line)?;
            }
            let value = pen.cursor.map(|band| line.at(band).map(whole));
            let rows = name.rows.len() as f64;
            match value {
                Some(None) => pen.words(area, line.short, &name.rect, HPos::Left, layout.text, palette.ink)?,
                Some(Some(value)) => {
                    pen.words(area, &format!("{} {value}", line.short), &name.rect, HPos::Left, layout.text, palette.ink)?;
                }
                None => {
                    for (row, words) in name.rows.iter().enumerate() {
                        let down = (row as f64 - 0.5 * (rows - 1.0)) * layout.text;
                        let rect = Rect { top: name.rect.top + down, bottom: name.rect.bottom + down, ..name.rect };
                        pen.words(area, words, &rect, HPos::Left, layout.text, palette.ink)?;
                    }
                }
            }
        }
        if let Some(band) = pen.cursor {
            for line in self.lines.iter().filter(|line| line.at(band).is_some()) {
                let dot = pen.at((plot.x(band), plot.y(line.db[band])));
                area.draw(&Circle::new(dot, pen.px(3.5), palette.ground.filled()))?;
                area.draw(&Circle::new(dot, pen.px(3.5), pen.stroke(palette.line(line.ink).to_rgba(), 2.0)))?;
            }
        }
        for note in &layout.notes {
            pen.words(area, note.words, &note.rect, HPos::Center, layout.text, palette.quiet)?;
            if let Some(leader) = note.leader {
                area.draw(&PathElement::new(leader.map(|point| pen.at(point)), pen.stroke(palette.quiet.to_rgba(), 0.75)))?;
            }
        }
        area.present()?;
        Ok(())
    }

    /// Hatches where the estimate is weak.
    fn draw_weak(&self, area: &Area, layout: &Layout, pen: &Pen) -> Result<(), Box<dyn Error>> {
        let Some((from_hz, to_hz)) = self.weak_hz else { return Ok(()) };
        let plot = &layout.plot;
        let (left, right) = (plot.x_of_hz(from_hz), plot.x_of_hz(to_hz));
        let height = plot.bottom - plot.top;
        let count = ((right - left + height) / HATCH) as usize;
        for k in 1..=count {
            // From lower left to upper right, cut off at the edges.
            let foot = left - height + HATCH * k as f64;
            let (x0, x1) = (foot.max(left), (foot + height).min(right));
            let line = [(x0, plot.bottom - (x0 - foot)), (x1, plot.bottom - (x1 - foot))];
            area.draw(&PathElement::new(line.map(|point| pen.at(point)), pen.stroke(pen.palette.grid.to_rgba(), 0.75)))?;
        }
        Ok(())
    }
}

impl Pen {
    fn draw_line(&self, area: &Area, points: Vec<(i32, i32)>, line: &Line) -> Result<(), Box<dyn Error>> {
        let style = self.stroke(self.palette.line(line.ink).to_rgba(), line.width);
        match line.dash {
            None => area.draw(&PathElement::new(points, style))?,
            Some((dash, gap)) => area.draw(&DashedPathElement::new(points, self.px(dash), self.px(gap), style))?,
        }
        Ok(())
    }
}

/// Makes `canvas` `size` CSS pixels large and empty.
///
/// # Errors
/// Where the browser has no canvas to draw on.
pub fn blank(canvas: &HtmlCanvasElement, size: Size, scale: f64) -> Result<Area, Box<dyn Error>> {
    canvas.set_width((size.width * scale).round() as u32);
    canvas.set_height((size.height * scale).round() as u32);
    let backend = CanvasBackend::with_canvas_object(canvas.clone()).ok_or("the canvas has no 2d context")?;
    Ok(backend.into_drawing_area())
}
