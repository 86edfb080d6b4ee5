//! What a number field measures: its unit in either system, how it is written, read and how a refusal is worded.

use hushwright::{number, units};

use crate::words::capital;

/// The system of units that the page shows; documents are always metric.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Millimetres, metres, kilograms.
    #[default]
    Metric,
    /// Inches, feet, pounds.
    Imperial,
}

impl Units {
    /// Key in the select and in the browser's storage.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    /// The system with this key.
    pub fn from_key(key: &str) -> Option<Self> {
        [Self::Metric, Self::Imperial].into_iter().find(|units| units.key() == key)
    }

    /// A mass for people, whole units.
    pub fn mass(self, kilograms: f64) -> String {
        format!("{} {}", decimal(self.of_mass(kilograms), 0), self.mass_unit())
    }

    /// A mass as a number for people.
    pub fn of_mass(self, kilograms: f64) -> f64 {
        match self {
            Self::Metric => kilograms,
            Self::Imperial => units::kilograms_to_pounds(kilograms),
        }
    }

    /// Unit of [`Self::of_mass`].
    pub const fn mass_unit(self) -> &'static str {
        match self {
            Self::Metric => "kg",
            Self::Imperial => "lb",
        }
    }

    /// What one support carries, for people, with its unit.
    pub fn load(self, kilograms: f64) -> String {
        format!("{} {}", Quantity::Mass.write(kilograms, self), Quantity::Mass.unit(self))
    }

    /// Length, width and height for people, without the unit.
    pub fn size(self, size_m: [f64; 3]) -> String {
        size_m.map(|metres| self.length(metres)).join(" × ")
    }

    /// A length for people, without the unit: whole millimetres, or inches to a tenth.
    pub fn length(self, metres: f64) -> String {
        match self {
            Self::Metric => decimal(1000.0 * metres, 0),
            Self::Imperial => decimal(units::mm_to_inches(1000.0 * metres), 1),
        }
    }

    /// A thickness for people, without the unit.
    pub fn thickness(self, millimetres: f64) -> String {
        match self {
            Self::Metric => decimal(millimetres, 1),
            Self::Imperial => decimal(units::mm_to_inches(millimetres), 2),
        }
    }

    /// Unit of [`Self::length`].
    pub const fn length_unit(self) -> &'static str {
        match self {
            Self::Metric => "mm",
            Self::Imperial => "in",
        }
    }

    /// An area for people, with its unit.
    pub fn area(self, square_metres: f64) -> String {
        match self {
            Self::Metric => format!("{} m²", decimal(square_metres, 1)),
            Self::Imperial => format!("{} ft²", decimal(units::square_metres_to_square_feet(square_metres), 0)),
        }
    }

    /// A rise of temperature in K, for people.
    pub fn temperature_rise(self, kelvin: f64) -> String {
        match self {
            Self::Metric => format!("{} °C", decimal(kelvin, 0)),
            Self::Imperial => format!("{} °F", decimal(1.8 * kelvin, 0)),
        }
    }

    /// A flow of air in m3/s, for people.
    pub fn flow(self, cubic_metres: f64) -> String {
        match self {
            Self::Metric => format!("{} m³/h", decimal(3600.0 * cubic_metres, 0)),
            // A foot is 0.3048 m.
            Self::Imperial => format!("{} cfm", decimal(60.0 * cubic_metres / 0.3048_f64.powi(3), 0)),
        }
    }

    /// A speed of air in m/s, for people.
    pub fn speed(self, metres: f64) -> String {
        match self {
            Self::Metric => format!("{} m/s", decimal(metres, 1)),
            Self::Imperial => format!("{} ft/min", decimal(60.0 * units::metres_to_feet(metres), 0)),
        }
    }

    /// The distance at which levels are stated in the trade, for people.
    pub const fn reference_distance(self) -> &'static str {
        match self {
            Self::Metric => "1 m",
            Self::Imperial => "1 m (3.3 ft)",
        }
    }

    /// A distance for people, with its unit.
    pub fn distance(self, metres: f64) -> String {
        match self {
            Self::Metric => format!("{} m", decimal(metres, 1)),
            Self::Imperial => format!("{} ft", decimal(units::metres_to_feet(metres), 1)),
        }
    }
}

/// What the number in a field measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// An A-weighted level.
    Level,
    /// A length of the box, in mm in the document.
    Length,
    /// A thickness, in mm in the document.
    Thickness,
    /// A length in the room, in m in the document.
    Distance,
    /// An area, in m2 in the document.
    Area,
    /// A part of a whole: 0 to 1 in the document, per cent on the page.
    Share,
    /// A coefficient without unit.
    Coefficient,
    /// A whole number.
    Count,
    /// A mass, in kg in the document.
    Mass,
    /// A small mass, in g in either system: so data sheets have it.
    Grams,
    /// A power in W.
    Power,
    /// A small area, in cm2 in the document.
    SmallArea,
    /// A hardness, Shore A.
    Hardness,
    /// A power in W that may be a small part of one.
    Watts,
    /// A difference of levels, or a level without weighting, in dB.
    Decibels,
    /// Hours, or an hour of day.
    Hours,
    /// The number of a curve.
    Curve,
    /// A density, in kg/m3 in the document.
    Density,
    /// A modulus of elasticity, in Pa in the document. In gigapascals; in imperial units in 10^6 psi, as the timber trade has it.
    Modulus,
    /// A small number without unit.
    Ratio,
}

/// Kilograms per cubic metre in a pound per cubic foot, exact.
const KG_M3_PER_LB_FT3: f64 =
    units::KILOGRAMS_PER_POUND / (1728.0 * units::METRES_PER_INCH * units::METRES_PER_INCH * units::METRES_PER_INCH);
/// Pascals in 10^6 pounds-force per square inch, with the standard acceleration of 9.80665 m/s2, exact.
const PA_PER_MEGA_PSI: f64 = 9.80665e6 * units::KILOGRAMS_PER_POUND / (units::METRES_PER_INCH * units::METRES_PER_INCH);
/// Square centimetres in a square inch, exact.
const CM2_PER_IN2: f64 = 1e4 * units::METRES_PER_INCH * units::METRES_PER_INCH;

impl Quantity {
    /// Unit as the page shows it.
    pub const fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Self::Level, _) => "dBA",
            (Self::Length | Self::Thickness, units) => units.length_unit(),
            (Self::Distance, Units::Metric) => "m",
            (Self::Distance, Units::Imperial) => "ft",
            (Self::Area, Units::Metric) => "m²",
            (Self::Area, Units::Imperial) => "ft²",
            (Self::Share, _) => "%",
            (Self::Decibels, _) => "dB",
            (Self::Hours, _) => "h",
            (Self::Coefficient | Self::Count | Self::Hardness | Self::Curve | Self::Ratio, _) => "",
            (Self::Density, Units::Metric) => "kg/m³",
            (Self::Density, Units::Imperial) => "lb/ft³",
            (Self::Modulus, Units::Metric) => "GPa",
            (Self::Modulus, Units::Imperial) => "10⁶ psi",
            (Self::Mass, Units::Metric) => "kg",
            (Self::Mass, Units::Imperial) => "lb",
            (Self::Grams, _) => "g",
            (Self::Power | Self::Watts, _) => "W",
            (Self::SmallArea, Units::Metric) => "cm²",
            (Self::SmallArea, Units::Imperial) => "in²",
        }
    }

    /// Most digits after the point that the page shows.
    const fn digits(self, units: Units) -> usize {
        match (self, units) {
            (Self::Share | Self::Power | Self::Hardness, _) | (Self::Area, Units::Imperial) => 0,
            (Self::Ratio, _) => 4,
            (Self::Modulus, _) => 5,
            (Self::Density | Self::Level | Self::Decibels | Self::Mass | Self::Grams | Self::SmallArea, _)
            | (Self::Length | Self::Area, Units::Metric) => 1,
            (Self::Thickness, Units::Imperial) | (Self::Watts, _) => 3,
            _ => 2,
        }
    }

    /// How many of the last digit that is shown make a whole.
    const fn scale(self, units: Units) -> f64 {
        [1.0, 10.0, 100.0, 1000.0, 1e4, 1e5][self.digits(units)]
    }

    /// From the document to the page.
    pub fn to_shown(self, value: f64, units: Units) -> f64 {
        match (self, units) {
            (Self::Share, _) => 100.0 * value,
            (Self::Length | Self::Thickness, Units::Imperial) => units::mm_to_inches(value),
            (Self::Distance, Units::Imperial) => units::metres_to_feet(value),
            (Self::Area, Units::Imperial) => units::square_metres_to_square_feet(value),
            (Self::Mass, Units::Imperial) => units::kilograms_to_pounds(value),
            (Self::SmallArea, Units::Imperial) => value / CM2_PER_IN2,
            (Self::Density, Units::Imperial) => value / KG_M3_PER_LB_FT3,
            (Self::Modulus, Units::Metric) => value / 1e9,
            (Self::Modulus, Units::Imperial) => value / PA_PER_MEGA_PSI,
            _ => value,
        }
    }

    /// From the page to the document. Converted numbers keep six digits after the point, so that links stay short.
    pub fn to_document(self, shown: f64, units: Units) -> f64 {
        let converted = match (self, units) {
            (Self::Share, _) => shown / 100.0,
            (Self::Length | Self::Thickness, Units::Imperial) => units::inches_to_mm(shown),
            (Self::Distance, Units::Imperial) => units::feet_to_metres(shown),
            (Self::Area, Units::Imperial) => units::square_feet_to_square_metres(shown),
            (Self::Mass, Units::Imperial) => shown * units::KILOGRAMS_PER_POUND,
            (Self::SmallArea, Units::Imperial) => shown * CM2_PER_IN2,
            (Self::Density, Units::Imperial) => shown * KG_M3_PER_LB_FT3,
            // Whole pascals.
            (Self::Modulus, Units::Metric) => return (shown * 1e9).round(),
            (Self::Modulus, Units::Imperial) => return (shown * PA_PER_MEGA_PSI).round(),
            _ => return shown,
        };
        (converted * 1e6).round() / 1e6
    }

    /// A number of the document as the page writes it.
    pub fn write(self, value: f64, units: Units) -> String {
        decimal(self.to_shown(value, units), self.digits(units))
    }

    /// How people write the unit behind a number, the longest first.
    const fn signs(self, units: Units) -> &'static [&'static str] {
        match (self, units) {
            (Self::Level, _) => &["db(a)", "dba", "db"],
            (Self::Decibels, _) => &["db"],
            (Self::Hours, _) => &["hours", "hour", "h"],
            (Self::Length | Self::Thickness, Units::Metric) => &["mm"],
            (Self::Length | Self::Thickness, Units::Imperial) => &["inches", "inch", "in", "\"", "\u{2033}", "\u{201d}"],
            (Self::Distance, Units::Metric) => &["m"],
            (Self::Distance, Units::Imperial) => &["feet", "foot", "ft", "'", "\u{2032}", "\u{2019}"],
            (Self::Area, Units::Metric) => &["m²", "m2"],
            (Self::Area, Units::Imperial) => &["sq ft", "ft²", "ft2"],
            (Self::Share, _) => &["%"],
            (Self::Coefficient | Self::Count | Self::Curve | Self::Ratio, _) => &[],
            (Self::Density, Units::Metric) => &["kg/m³", "kg/m3"],
            (Self::Density, Units::Imperial) => &["lb/ft³", "lb/ft3", "pcf"],
            (Self::Modulus, Units::Metric) => &["gpa"],
            (Self::Modulus, Units::Imperial) => &["10⁶ psi", "mpsi", "msi"],
            (Self::Mass, Units::Metric) => &["kg"],
            (Self::Mass, Units::Imperial) => &["lbs", "lb"],
            (Self::Grams, _) => &["g"],
            (Self::Power | Self::Watts, _) => &["watts", "watt", "w"],
            (Self::SmallArea, Units::Metric) => &["cm²", "cm2"],
            (Self::SmallArea, Units::Imperial) => &["sq in", "in²", "in2"],
            (Self::Hardness, _) => &["shore a", "a"],
        }
    }

    /// The number that a person typed, in the document's unit. A decimal comma is as good as a point, the field's own unit
    /// may stand behind, and inches and feet may be fractions: `3/4`, `1 1/2`.
    pub fn read(self, text: &str, units: Units) -> Option<f64> {
        let text = text.trim().to_ascii_lowercase().replace('\u{2212}', "-").replace(',', ".");
        let plain = self.signs(units).iter().find_map(|sign| text.strip_suffix(sign)).map_or(text.as_str(), str::trim_end);
        let fractions = units == Units::Imperial && matches!(self, Self::Length | Self::Thickness | Self::Distance);
        let value = number::parse(plain).or_else(|| if fractions { mixed_number(plain) } else { None })?;
        let value = self.to_document(value, units);
        // No minus before a nought: it would travel in links.
        value.is_finite().then_some(value + 0.0)
    }

    /// A refusal of the core, `allowed is 100 to 3000 mm: why`, in the unit shown and as a sentence. The ends of the range
    /// are rounded inwards, so that what the sentence allows is allowed; the number shown is more than the one in the document by
    /// `beyond`.
    pub fn reword(self, message: &str, beyond: f64, units: Units) -> String {
        let reworded = range_of(message).map(|(low, high, rest)| {
            let why = rest.split_once(": ").map(|(_, why)| format!(": {why}")).unwrap_or_default();
            let scale = self.scale(units);
            let low = (self.to_shown(low + beyond, units) * scale - 1e-6).ceil() / scale;
            let high = (self.to_shown(high + beyond, units) * scale + 1e-6).floor() / scale;
            let unit = self.unit(units);
            let space = if unit.is_empty() { "" } else { " " };
            let digits = self.digits(units);
            format!("allowed is {} to {}{space}{unit}{why}", decimal(low, digits), decimal(high, digits))
        });
        sentence(&reworded.unwrap_or_else(|| in_units(message, units)))
    }
}

/// A message of the core with its millimetres and kilograms in the units shown. What is at most allowed is rounded down, so
/// that it is allowed.
pub fn in_units(message: &str, units: Units) -> String {
    let mut words: Vec<String> = message.split(' ').map(str::to_owned).collect();
    for at in 1..words.len() {
        let Some(own) = number::parse(&words[at - 1]) else { continue };
        let (quantity, unit) = match &words[at] {
            word if word.starts_with("mm") => (Quantity::Length, "mm"),
            word if word.starts_with("kg") => (Quantity::Mass, "kg"),
            _ => continue,
        };
        let scale = quantity.scale(units);
        words[at - 1] = decimal((quantity.to_shown(own, units) * scale + 1e-6).floor() / scale, 2);
        words[at] = words[at].replacen(unit, quantity.unit(units), 1);
    }
    words.join(" ")
}

/// A fraction or a whole number with one behind it, as on a tape measure: `3/4`, `1 1/2`, `1-1/2`.
fn mixed_number(text: &str) -> Option<f64> {
    let digits = |text: &str| {
        let text = text.trim();
        let whole = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
        if whole { number::parse(text) } else { None }
    };
    let (front, below) = text.split_once('/')?;
    let (before, above) = front.trim().rsplit_once([' ', '-']).unwrap_or(("0", front));
    let (before, above, below) = (digits(before)?, digits(above)?, digits(below)?);
    (below > 0.0).then(|| before + above / below)
}

/// Low end, high end and the rest of a message that begins with `allowed is LOW to HIGH`.
fn range_of(message: &str) -> Option<(f64, f64, &str)> {
    let (low, rest) = message.strip_prefix("allowed is ")?.split_once(" to ")?;
    let end = rest.find([' ', ':']).unwrap_or(rest.len());
    Some((number::parse(low)?, number::parse(&rest[..end])?, &rest[end..]))
}

/// `text` with a capital in front and a full stop behind.
pub fn sentence(text: &str) -> String {
    let mut sentence = capital(text);
    if !sentence.ends_with(['.', '!', '?']) {
        sentence.push('.');
    }
    sentence
}

/// A number with at most `digits` digits after the point, no noughts at the end and no minus before a nought.
pub fn decimal(value: f64, digits: usize) -> String {
    let text = format!("{value:.digits$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A level or a difference of levels in whole decibels.
pub fn whole(db: f64) -> String {
    // Halves away from nought, as sums of rounded levels take them; formatting alone would make them even.
    decimal(db.round(), 0).replace('-', "\u{2212}")
}

/// A level for people: whole decibels, and no number where nothing is left to hear.
pub fn level_dba(dba: f64) -> String {
    if dba.round() < 0.0 { "below 0".to_owned() } else { whole(dba) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::design::Design;

    #[test]
    fn numbers_are_read_with_point_or_comma_and_nothing_else() {
        let read = |text| Quantity::Length.read(text, Units::Metric);
        assert_eq!(read("12.5"), Some(12.5));
        assert_eq!(read(" 12,5 "), Some(12.5));
        assert_eq!(read("\u{2212}3"), Some(-3.0));
        for text in
            ["", "abc", "1e3", "nan", "inf", "1.2.3", "1.000,5", "12 in", "12 m", "mm", "1/2", "-", "9".repeat(400).as_str()]
        {
            assert_eq!(read(text), None, "{text}");
        }
    }

    #[test]
    fn inches_and_feet_are_read_as_fractions_and_with_their_unit() {
        let inches = |text| Quantity::Thickness.read(text, Units::Imperial);
        let cases = [
            ("3/4", 0.75),
            ("1 1/2", 1.5),
            ("1-1/2", 1.5),
            ("27 9/16\"", 27.5625),
            ("3/4 in", 0.75),
            ("2in", 2.0),
            ("5 inches", 5.0),
        ];
        for (text, value) in cases {
            assert_eq!(inches(text), Some(Quantity::Thickness.to_document(value, Units::Imperial)), "{text}");
        }
        for text in ["1/0", "/2", "1/", "1/2/3", "1 1 1/2", "a/b", "1.5/2", "--1/2", "3/4 mm", "-1/2", "in"] {
            assert_eq!(inches(text), None, "{text}");
        }
        assert_eq!(Quantity::Distance.read("6 1/2 ft", Units::Imperial), Some(1.9812));
        assert_eq!(Quantity::Length.read("700 mm", Units::Metric), Some(700.0));
        assert_eq!(Quantity::Area.read("12 m²", Units::Metric), Some(12.0));
        assert_eq!(Quantity::Level.read("100 dB(A)", Units::Metric), Some(100.0));
        assert_eq!(Quantity::Share.read("50 %", Units::Metric), Some(0.5));
    }

    #[test]
    fn a_nought_has_no_sign() {
        for text in ["-0", "-0.0", "\u{2212}0", "-0 %"] {
            assert!(Quantity::Share.read(text, Units::Metric).unwrap().is_sign_positive(), "{text}");
        }
    }

    #[test]
    fn what_is_written_is_read_again_within_its_digits() {
        let quantities = [
            Quantity::Level,
            Quantity::Length,
            Quantity::Thickness,
            Quantity::Distance,
            Quantity::Area,
            Quantity::Share,
            Quantity::Coefficient,
            Quantity::Count,
            Quantity::Mass,
            Quantity::Grams,
            Quantity::Power,
            Quantity::SmallArea,
            Quantity::Hardness,
        ];
        for units in [Units::Metric, Units::Imperial] {
            for quantity in quantities {
                let value = 0.71;
                let text = quantity.write(value, units);
                let back = quantity.read(&text, units).unwrap();
                let half_digit = quantity.to_document(0.51 / [1.0, 10.0, 100.0, 1000.0][quantity.digits(units)], units);
                assert!((back - value).abs() <= half_digit, "{quantity:?} {units:?}: {text} read as {back}");
            }
        }
    }

    #[test]
    fn noughts_are_cut_but_not_those_of_whole_numbers() {
        assert_eq!(decimal(700.0, 1), "700");
        assert_eq!(decimal(100.0, 0), "100");
        assert_eq!(decimal(12.50, 2), "12.5");
        assert_eq!(decimal(-0.04, 1), "0");
        assert_eq!(whole(-3.2), "\u{2212}3");
        assert_eq!([whole(38.5), whole(39.5)], ["39", "40"]);
        assert_eq!(level_dba(-3.2), "below 0");
        assert_eq!(level_dba(-0.2), "0");
    }

    #[test]
    fn refusals_of_the_core_are_reworded_for_the_unit_shown() {
        let mut design = Design::default();
        design.inner.length_mm = 5.0;
        design.room.floor_area_m2 = 1.0;
        if let Some(fill) = &mut design.gap.fill {
            fill.share = 2.0;
        }
        let errors = design.check().unwrap_err();
        let message = |path: &str| errors.iter().find(|error| error.path == path).unwrap().message.clone();
        let length = Quantity::Length.reword(&message("inner.length_mm"), 0.0, Units::Metric);
        assert!(length.starts_with("Allowed is 100 to 3000 mm: ") && length.ends_with('.'), "{length}");
        let inches = Quantity::Length.reword(&message("inner.length_mm"), 0.0, Units::Imperial);
        assert!(inches.starts_with("Allowed is 3.94 to 118.11 in: "), "{inches}");
        let feet = Quantity::Area.reword(&message("room.floor_area_m2"), 0.0, Units::Imperial);
        assert!(feet.starts_with("Allowed is 22 to 5381 ft²: "), "{feet}");
        let share = Quantity::Share.reword(&message("gap.fill.share"), 0.0, Units::Metric);
        assert!(share.starts_with("Allowed is 0 to 100 %: "), "{share}");
    }

    #[test]
    fn lengths_and_masses_within_a_message_are_in_the_units_shown() {
        let message = "allowed is at most 50 mm: the gap has room for no more";
        assert_eq!(in_units(message, Units::Metric), message);
        assert_eq!(in_units(message, Units::Imperial), "allowed is at most 1.96 in: the gap has room for no more");
        let load = in_units("each of 4 carries 75 kg and fails at 60 kg: take more", Units::Imperial);
        assert_eq!(load, "each of 4 carries 165.3 lb and fails at 132.2 lb: take more");
        assert_eq!(in_units("at most 147.00000000000003 mm", Units::Metric), "at most 147 mm");
    }

    #[test]
    fn counts_are_whole_and_other_units_are_read() {
        assert_eq!(Quantity::Count.write(2.0, Units::Metric), "2");
        assert_eq!(Quantity::Count.write(2.5, Units::Imperial), "2.5", "refused, and not another number");
        assert_eq!(Quantity::Mass.read("10 lb", Units::Imperial), Some(4.535_924));
        assert_eq!(Quantity::SmallArea.read("100 in²", Units::Imperial), Some(645.16));
        assert_eq!(Quantity::Grams.read("110 g", Units::Imperial), Some(110.0));
        assert_eq!(Quantity::Power.read("60 W", Units::Metric), Some(60.0));
        assert_eq!(Quantity::Hardness.read("45 Shore A", Units::Metric), Some(45.0));
    }

    #[test]
    fn the_reworded_ends_are_themselves_allowed() {
        for text in ["3.94", "118.11"] {
            let mut design = Design::default();
            design.inner.lining = None;
            design.inner.baffle = None;
            design.inner.length_mm = Quantity::Length.read(text, Units::Imperial).unwrap();
            assert!(design.check().is_ok(), "{text} in");
        }
    }

    #[test]
    fn other_messages_stay_as_they_are() {
        assert_eq!(
            Quantity::Length.reword("at most 8 sheets in one leaf", 0.0, Units::Imperial),
            "At most 8 sheets in one leaf."
        );
    }
}
