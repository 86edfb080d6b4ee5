//! Cells of tables: sizes, money, and numbers that can be changed in place.

use hushwright::design::OwnNumbers;
use hushwright::workshop::feet_and_inches;
use maud::{Markup, html};
use serde::{Deserialize, Serialize};

use crate::quantity::{Quantity, Units, decimal};

/// What begins the key of a measured thickness; the rest is the board.
pub const MEASURED: &str = "measured:";

/// What ends the key of a sheet's size, length and width in mm with a blank between them; the rest is the material.
pub const SIZE: &str = "/size";

/// What was typed for a number of one's own and is not in the design.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    /// Its key.
    pub key: String,
    /// The text as typed.
    pub text: String,
    /// Why it is not in the design.
    pub refusal: String,
}

/// Millimetres for a saw: tenths where there are any.
pub fn millimetres(mm: f64) -> String {
    // Never "-0".
    let tenths = (10.0 * mm).round() + 0.0;
    if tenths % 10.0 == 0.0 { decimal(tenths / 10.0, 0) } else { decimal(tenths / 10.0, 1) }
}

/// A length as it is measured in these units.
pub fn measured(mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} mm", millimetres(mm)),
        Units::Imperial => feet_and_inches(mm),
    }
}

/// Two sides as they are measured in these units.
pub fn sides(length_mm: f64, width_mm: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} × {} mm", millimetres(length_mm), millimetres(width_mm)),
        Units::Imperial => format!("{} × {}", feet_and_inches(length_mm), feet_and_inches(width_mm)),
    }
}

/// A thickness with its unit.
pub fn thickness(mm: f64, units: Units) -> String {
    format!("{} {}", units.thickness(mm), units.length_unit())
}

/// Money, to the hundredth, so that lines add up to their sum.
pub fn money(sum: f64) -> String {
    decimal(sum, 2)
}

/// A mass: tenths below ten.
pub fn mass(kilograms: f64, units: Units) -> String {
    let digits = usize::from(units.of_mass(kilograms) < 10.0);
    format!("{} {}", decimal(units.of_mass(kilograms), digits), units.mass_unit())
}

/// Hours: tenths below ten.
pub fn hours(hours: f64) -> String {
    let digits = usize::from(hours < 10.0);
    format!("{} h", decimal(hours, digits))
}

/// What a number in place is.
pub struct Cell<'a> {
    /// Its key among the numbers of one's own.
    pub key: String,
    /// Its name on the page, which only it has, and which stays when the number changes.
    pub id: String,
    /// What it is, for those who do not see its place.
    pub label: String,
    /// What it is now; `None`: nothing.
    pub value: Option<f64>,
    /// What it measures.
    pub quantity: Quantity,
    /// Whether it is one's own.
    pub is_own: bool,
    /// What was typed and refused.
    pub kept: &'a [Kept],
}

impl Cell<'_> {
    /// Whether `key` is among the numbers of one's own.
    pub fn is_own(own: &OwnNumbers, key: &str) -> bool {
        own.get(key).is_some()
    }

    /// The input. The page listens for what is typed into it.
    pub fn input(&self, units: Units) -> Markup {
        let id = format!("own-{}", self.id.replace(['/', ':', '.'], "-"));
        let error = format!("{id}-error");
        let kept = self.kept.iter().find(|kept| kept.key == self.key);
        let written = || self.value.map_or_else(String::new, |value| self.quantity.write(value, units));
        let text = kept.map_or_else(written, |kept| kept.text.clone());
        html! {
            input id=(id) class={ "own" @if self.is_own { " changed" } } data-own=(self.key) inputmode="decimal" autocomplete="off"
                value=(text) aria-label=(self.label) aria-invalid=[kept.map(|_| "true")] aria-describedby=[kept.map(|_| &error)];
            @if let Some(kept) = kept { span id=(error) class="refusal" role="alert" { (kept.refusal) } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_have_tenths_only_where_there_are_any() {
        assert_eq!(millimetres(730.0), "730");
        assert_eq!(millimetres(729.96), "730");
        assert_eq!(millimetres(729.5), "729.5");
        assert_eq!(millimetres(-0.01), "0");
        assert_eq!(sides(730.0, 529.5, Units::Metric), "730 × 529.5 mm");
        assert_eq!(sides(609.6, 304.8, Units::Imperial), "2 ft 0 in × 1 ft 0 in");
    }

    #[test]
    fn what_was_typed_is_shown_as_text() {
        let kept = [Kept { key: "latch".to_owned(), text: "<b>\"".to_owned(), refusal: "<i>".to_owned() }];
        let cell = Cell {
            key: "latch".to_owned(),
            id: "latch".to_owned(),
            label: "Price".to_owned(),
            value: Some(6.0),
            quantity: Quantity::Count,
            is_own: true,
            kept: &kept,
        };
        let shown = cell.input(Units::Metric).into_string();
        assert!(shown.contains("value=\"&lt;b&gt;&quot;\"") && shown.contains("&lt;i&gt;"), "{shown}");
        assert!(!shown.contains("<b>") && !shown.contains("<i>"), "{shown}");
    }
}
