//! Lines over one-third octaves on a canvas, named at their right ends.

use std::error::Error;

use hushwright::bands::{BAND_COUNT, Spectrum};
use plotters::prelude::*;
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::components::Size;
use crate::quantity::whole;

use super::FONT;
use super::palette::{LineInk, Palette};
use super::placement::{APART, Layout, SAMPLE};
use super::projection::level_range;
use crate::rect::Rect;

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

/// A pen on a canvas, with the colours that it has.
pub struct Pen {
    backend: CanvasBackend,
    context: CanvasRenderingContext2d,
    /// Canvas pixels to a CSS pixel.
    scale: f64,
    /// Where the part that is drawn on begins, in CSS pixels.
    pub origin: (f64, f64),
    /// Colours.
    pub palette: Palette,
}

/// Drawn, or what the canvas refuses.
pub type Drawn = Result<(), Box<dyn Error>>;

impl Pen {
    /// A pen on `canvas`, which becomes `size` CSS pixels large, with `scale` canvas pixels to each, and empty.
    ///
    /// # Errors
    /// Where the browser has no canvas to draw on.
    pub fn new(canvas: &HtmlCanvasElement, size: Size, scale: f64, palette: Palette) -> Result<Self, Box<dyn Error>> {
        canvas.set_width((size.width * scale).round() as u32);
        canvas.set_height((size.height * scale).round() as u32);
        let context = canvas.get_context("2d").ok().flatten().and_then(|context| context.dyn_into().ok());
        let parts = CanvasBackend::with_canvas_object(canvas.clone()).zip(context);
        let (backend, context) = parts.ok_or("the canvas has no 2d context")?;
        Ok(Self { backend, context, scale, origin: (0.0, 0.0), palette })
    }

    /// A point of the canvas.
    fn at(&self, (x, y): (f64, f64)) -> (i32, i32) {
        (((x + self.origin.0) * self.scale).round() as i32, ((y + self.origin.1) * self.scale).round() as i32)
    }

    fn px(&self, length: f64) -> u32 {
        (length * self.scale).round().max(1.0) as u32
    }

    fn path(&mut self, points: &[(f64, f64)], color: RGBAColor, width: f64) -> Drawn {
        let style = ShapeStyle { color, filled: false, stroke_width: self.px(width) };
        let points: Vec<_> = points.iter().map(|point| self.at(*point)).collect();
        Ok(self.backend.draw_path(points, &style)?)
    }

    fn area(&mut self, points: &[(f64, f64)], color: RGBAColor) -> Drawn {
        let points: Vec<_> = points.iter().map(|point| self.at(*point)).collect();
        Ok(self.backend.fill_polygon(points, &ShapeStyle { color, filled: true, stroke_width: 0 })?)
    }

    /// A filled rectangle; a level or upright line where both ends have a coordinate in common: a stroke would lie across two
    /// rows of pixels and be grey in both.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn bar(&mut self, from: (f64, f64), to: (f64, f64), color: RGBColor) -> Drawn {
        let (from, (x, y), width) = (self.at(from), self.at(to), self.px(1.0).cast_signed());
        let to = (x.max(from.0 + width), y.max(from.1 + width));
        Ok(self.backend.draw_rect(from, to, &color.filled(), true)?)
    }

    /// A text of `size` CSS pixels in its box: in the middle, or from the left on.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn words(&self, words: &str, rect: &Rect, is_centred: bool, size: f64, color: RGBColor) -> Drawn {
        let (middle, y) = rect.middle();
        let (x, y) = self.at((if is_centred { middle } else { rect.left }, y));
        let context = &self.context;
        context.set_font(&format!("{}px {FONT}", size * self.scale));
        context.set_text_align(if is_centred { "center" } else { "left" });
        context.set_text_baseline("middle");
        let RGBColor(red, green, blue) = color;
        context.set_fill_style_str(&format!("rgb({red},{green},{blue})"));
        context.fill_text(words, f64::from(x), f64::from(y)).map_err(|_| "the canvas takes no text".into())
    }

    /// A line with its own width, colour and dashes.
    fn line(&mut self, points: &[(f64, f64)], line: &Line) -> Drawn {
        let color = self.palette.line(line.ink).to_rgba();
        let Some((dash, gap)) = line.dash else { return self.path(points, color, line.width) };
        let (mut piece, mut is_dash, mut left) = (Vec::new(), true, dash);
        for ends in points.windows(2) {
            let [(x0, y0), (x1, y1)] = [ends[0], ends[1]];
            let length = ((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0)).sqrt();
            let mut done = 0.0;
            piece.push((x0, y0));
            while length - done > left {
                done += left;
                let at = (x0 + (x1 - x0) * done / length, y0 + (y1 - y0) * done / length);
                if is_dash {
                    piece.push(at);
                    self.path(&piece, color, line.width)?;
                }
                (piece, is_dash) = (vec![at], !is_dash);
                left = if is_dash { dash } else { gap };
            }
            left -= length - done;
        }
        if is_dash {
            piece.extend(points.last());
            self.path(&piece, color, line.width)?;
        }
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

    /// Draws the chart. With a band under the cursor, every line is marked there and its name carries the value.
    ///
    /// # Errors
    /// What the canvas refuses.
    pub fn draw(&self, layout: &Layout, pen: &mut Pen, cursor: Option<usize>) -> Drawn {
        let (plot, palette) = (&layout.plot, pen.palette);
        self.draw_weak(layout, pen)?;
        for tick in &layout.bands {
            let x = plot.x(tick.at as usize);
            pen.bar((x, plot.top), (x, plot.bottom), palette.grid)?;
        }
        for tick in &layout.levels {
            let y = plot.y(tick.at);
            pen.bar((plot.left, y), (plot.right, y), palette.grid)?;
        }
        let ticks = layout.bands.iter().chain(&layout.levels);
        let labels = ticks.filter_map(|tick| tick.label.as_ref().map(|rect| (&*tick.words, rect)));
        for (words, rect) in labels.chain(layout.units.iter().map(|(unit, rect)| (*unit, rect))) {
            pen.words(words, rect, true, layout.text, palette.quiet)?;
        }
        if let Some(range) = &self.range {
            let edge = |db: &Spectrum| (0..BAND_COUNT).map(|band| (plot.x(band), plot.y(db[band]))).collect::<Vec<_>>();
            let (high, low) = (edge(&range.high_db), edge(&range.low_db));
            let around: Vec<_> = high.iter().chain(low.iter().rev()).copied().collect();
            pen.area(&around, palette.ink.mix(0.13))?;
            for edge in [high, low] {
                pen.path(&edge, palette.ink.mix(0.4), 0.75)?;
            }
        }
        for (line, name) in self.lines.iter().zip(&layout.names) {
            pen.line(&layout.points(line), line)?;
            let (left, y) = (name.rect.left, name.rect.middle().1);
            if let Some(end) = name.end {
                let lead = [(plot.x(BAND_COUNT - 1) + 3.0, end), (left - 8.0, y), (left - 3.0, y)];
                pen.path(&lead, palette.line(line.ink).to_rgba(), 1.0)?;
            } else {
                pen.line(&[(left - SAMPLE - APART, y), (left - APART, y)], line)?;
            }
            let value = cursor.map(|band| match line.at(band) {
                Some(db) => format!("{} {}", line.short, whole(db)),
                None => line.short.to_owned(),
            });
            let rows = value.as_deref().map_or_else(|| name.rows.clone(), |value| vec![value]);
            for (row, words) in rows.iter().enumerate() {
                let down = (row as f64 - 0.5 * (rows.len() as f64 - 1.0)) * layout.text;
                let rect = Rect { top: name.rect.top + down, bottom: name.rect.bottom + down, ..name.rect };
                pen.words(words, &rect, false, layout.text, palette.ink)?;
            }
        }
        if let Some(band) = cursor {
            for line in self.lines.iter().filter(|line| line.at(band).is_some()) {
                let (dot, radius) = (pen.at((plot.x(band), plot.y(line.db[band]))), pen.px(3.5));
                let color = palette.line(line.ink).to_rgba();
                let ring = ShapeStyle { color, filled: false, stroke_width: pen.px(2.0) };
                pen.backend.draw_circle(dot, radius, &palette.ground.filled(), true)?;
                pen.backend.draw_circle(dot, radius, &ring, false)?;
            }
        }
        for note in &layout.notes {
            pen.words(note.words, &note.rect, true, layout.text, palette.quiet)?;
            if let Some(leader) = note.leader {
                pen.path(&leader, palette.quiet.to_rgba(), 0.75)?;
            }
        }
        Ok(())
    }

    /// Hatches where the estimate is weak.
    fn draw_weak(&self, layout: &Layout, pen: &mut Pen) -> Drawn {
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
            pen.path(&line, pen.palette.grid.to_rgba(), 0.75)?;
        }
        Ok(())
    }
}
