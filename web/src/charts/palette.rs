//! Colours of the charts on a light and on a dark ground: those of Okabe & Ito (2008), one meaning each; or those of a system that
//! has colours of its own for those who need contrast.

use hushwright::number;
use plotters::style::RGBColor;

/// Colours of a chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    /// Ground of the chart.
    pub ground: RGBColor,
    /// Text.
    pub ink: RGBColor,
    /// Text of the axes.
    pub quiet: RGBColor,
    /// Grid.
    pub grid: RGBColor,
    /// Of lines, in the order of [`LineInk`].
    lines: [RGBColor; 5],
}

impl Palette {
    /// On paper and on a light page; the colours of text and ground are those of the style sheet.
    pub const LIGHT: Self = Self {
        ground: RGBColor(0xff, 0xff, 0xff),
        ink: RGBColor(0x17, 0x21, 0x2b),
        quiet: RGBColor(0x4f, 0x5d, 0x6a),
        grid: RGBColor(0xe3, 0xe8, 0xec),
        lines: [
            RGBColor(0x00, 0x00, 0x00),
            RGBColor(0xd5, 0x5e, 0x00),
            RGBColor(0x00, 0x9e, 0x73),
            RGBColor(0x00, 0x72, 0xb2),
            RGBColor(0xcc, 0x79, 0xa7),
        ],
    };

    /// On a dark page: blue is the sky blue of the set, black the text's white.
    pub const DARK: Self = Self {
        ground: RGBColor(0x12, 0x18, 0x1e),
        ink: RGBColor(0xe9, 0xee, 0xf2),
        quiet: RGBColor(0xa7, 0xb4, 0xc0),
        grid: RGBColor(0x2a, 0x35, 0x40),
        lines: [
            RGBColor(0xe9, 0xee, 0xf2),
            RGBColor(0xd5, 0x5e, 0x00),
            RGBColor(0x00, 0x9e, 0x73),
            RGBColor(0x56, 0xb4, 0xe9),
            RGBColor(0xcc, 0x79, 0xa7),
        ],
    };

    /// In the colours of the system: of the ground, of text, of links and of what is of less weight. Lines differ by their dashes
    /// and names.
    pub fn of_system([ground, ink, link, quiet]: [RGBColor; 4]) -> Self {
        // The grid stays behind what is drawn on it.
        let faint = |of: u8, on: u8| ((f64::from(of) + 2.0 * f64::from(on)) / 3.0) as u8;
        let grid = RGBColor(faint(quiet.0, ground.0), faint(quiet.1, ground.1), faint(quiet.2, ground.2));
        Self { ground, ink, quiet, grid, lines: [ink, ink, ink, link, link] }
    }

    /// Colour of a line.
    pub const fn line(self, ink: LineInk) -> RGBColor {
        match ink {
            LineInk::Black => self.lines[0],
            LineInk::Vermilion => self.lines[1],
            LineInk::Green => self.lines[2],
            LineInk::Blue => self.lines[3],
            LineInk::Purple => self.lines[4],
            LineInk::Quiet => self.quiet,
        }
    }
}

/// The colours that lines have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineInk {
    /// Black, or the text's white.
    Black,
    /// Vermilion.
    Vermilion,
    /// Bluish green.
    Green,
    /// Blue, or sky blue.
    Blue,
    /// Reddish purple.
    Purple,
    /// The grey of the axes.
    Quiet,
}

/// A colour as browsers tell it: `rgb(23, 33, 43)`.
pub fn parse_rgb(text: &str) -> Option<RGBColor> {
    let inside = text.strip_prefix("rgb(").or(text.strip_prefix("rgba("))?.strip_suffix(')')?;
    let mut parts = inside.split(',').map(|part| number::parse(part.trim()).map(|part| part as u8));
    Some(RGBColor(parts.next()??, parts.next()??, parts.next()??))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_of_the_system_are_read() {
        assert_eq!(parse_rgb("rgb(23, 33, 43)"), Some(RGBColor(23, 33, 43)));
        assert_eq!(parse_rgb("rgba(0, 255, 7, 0.5)"), Some(RGBColor(0, 255, 7)));
        for other in ["", "CanvasText", "rgb(1, 2)", "color(srgb 1 0 0)", "rgb(a, b, c)"] {
            assert_eq!(parse_rgb(other), None, "{other}");
        }
    }
}
