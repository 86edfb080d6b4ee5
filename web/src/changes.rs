//! What the last step changed, in a few signs: `−3 dB`, `+2.4 kg`, `+18`.

use hushwright::evaluate::Report;

use crate::state::State;
use crate::step_words::signed;

/// What a step changed, in the words that stand beside the numbers; what stayed the same is empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changed {
    /// Level in dB at the listener who decides, or in the room.
    pub level: String,
    /// Mass.
    pub mass: String,
    /// Cost.
    pub cost: String,
}

impl Changed {
    /// What the last step of `state` changed.
    ///
    /// What it changed in the cost of building is known a little later than the rest, and is given.
    pub fn of(state: &State, cost: f64) -> Self {
        let Some(before) = state.before() else { return Self::default() };
        let (now, units) = (state.report(), state.units());
        // Another listener who decides is another place: the numbers have nothing to do with each other.
        let comparable = before.governing == now.governing && before.listeners.len() == now.listeners.len();
        let level = if comparable { shown_level(now) - shown_level(before) } else { 0.0 };
        let mass = units.of_mass(now.bill.mass_kg) - units.of_mass(before.bill.mass_kg);
        let digits = usize::from(mass.abs() < 10.0);
        Self {
            level: change(level, 0, " dB"),
            mass: change(mass, digits, &format!(" {}", units.mass_unit())),
            cost: change(cost, 0, ""),
        }
    }

    /// In a sentence, for those who do not see the numbers; nothing where nothing changed.
    pub fn spoken(&self) -> String {
        let parts = [(&self.level, ""), (&self.mass, ""), (&self.cost, " in cost")];
        let changed: Vec<String> =
            parts.into_iter().filter(|(part, _)| !part.is_empty()).map(|(part, of)| format!("{part}{of}")).collect();
        if changed.is_empty() { String::new() } else { format!(" Changed by {}.", changed.join(", ")) }
    }
}

/// The level as the answer shows it, in whole dB.
fn shown_level(report: &Report) -> f64 {
    report.answer().dba.round().max(0.0)
}

/// `value` with its sign and `unit`; nothing where it does not show with `digits` decimals.
fn change(value: f64, digits: usize, unit: &str) -> String {
    let number = signed(value, digits);
    if number == "0" { String::new() } else { number + unit }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_show_is_no_change() {
        assert_eq!(change(0.4, 0, " dB"), "");
        assert_eq!(change(-2.6, 0, " dB"), "\u{2212}3 dB");
        assert_eq!(change(0.04, 1, " kg"), "");
        assert_eq!(change(0.06, 1, " kg"), "+0.1 kg");
    }

    #[test]
    fn spoken_is_what_is_seen() {
        assert_eq!(Changed::default().spoken(), "");
        let changed = Changed { level: "\u{2212}3 dB".to_owned(), mass: String::new(), cost: "+18".to_owned() };
        assert_eq!(changed.spoken(), " Changed by \u{2212}3 dB, +18 in cost.");
    }
}
