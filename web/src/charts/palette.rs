//! Colours of the charts on a light and on a dark ground: those of Okabe & Ito (2008), one meaning each.

use plotters::style::RGBColor;

/// Colours of lines that are no data.
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
    dark: bool,
}

impl Palette {
    /// The palette for a light or a dark page; the colours of text and ground are those of the style sheet.
    pub const fn new(dark: bool) -> Self {
        if dark {
            Self {
                ground: RGBColor(0x12, 0x18, 0x1e),
                ink: RGBColor(0xe9, 0xee, 0xf2),
                quiet: RGBColor(0xa7, 0xb4, 0xc0),
                grid: RGBColor(0x2a, 0x35, 0x40),
                dark,
            }
        } else {
            Self {
                ground: RGBColor(0xff, 0xff, 0xff),
                ink: RGBColor(0x17, 0x21, 0x2b),
                quiet: RGBColor(0x4f, 0x5d, 0x6a),
                grid: RGBColor(0xe3, 0xe8, 0xec),
                dark,
            }
        }
    }

    /// Colour of a line.
    pub const fn line(self, ink: LineInk) -> RGBColor {
        match ink {
            LineInk::Black if self.dark => RGBColor(0xe9, 0xee, 0xf2),
            LineInk::Black => RGBColor(0x00, 0x00, 0x00),
            LineInk::Vermilion => RGBColor(0xd5, 0x5e, 0x00),
            LineInk::Green => RGBColor(0x00, 0x9e, 0x73),
            LineInk::Blue if self.dark => RGBColor(0x56, 0xb4, 0xe9),
            LineInk::Blue => RGBColor(0x00, 0x72, 0xb2),
            LineInk::Purple => RGBColor(0xcc, 0x79, 0xa7),
            LineInk::Quiet => self.quiet,
        }
    }
}

/// The colours that lines have; blue is the sky blue of the set on a dark ground, black the text's white.
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
