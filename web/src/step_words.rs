//! What a change of the design is called, and what it brings and costs.

use hushwright::buildup::raw::Layer;
use hushwright::design::Design;
use hushwright::improve::{Change, Measure, Of, Order, Step};
use hushwright::material;

use crate::leaf;
use crate::quantity::{Units, decimal};

/// An order's name.
pub const fn order_name(order: Order) -> &'static str {
    match order {
        Order::Gain => "what it brings",
        Order::PerMass => "dB per kg",
        Order::PerCost => "dB for the money",
        Order::PerGrowth => "dB for the size",
    }
}

/// The change in a few words; `design` is what it is made to.
pub fn change_name(change: Change, design: &Design, units: Units) -> String {
    let double = design.outer.is_some();
    let shell = |of: Of| match (of, double) {
        (Of::Inner, false) => "the box",
        (Of::Inner, true) => "the inner box",
        (Of::Outer, _) => "the outer box",
    };
    let layers = |of: Of| match of {
        Of::Inner => Some(&design.inner.layers),
        Of::Outer => design.outer.as_ref().map(|shell| &shell.layers),
    };
    let layer = |of: Of, place: usize| layers(of).and_then(|layers| layers.get(place));
    let named = |of: Of, place: usize| layer(of, place).map_or_else(String::new, leaf::sheet_name);
    let sheet = |key: &str| material::sheet(key).map_or_else(|| key.to_owned(), |sheet| sheet.name.to_owned());
    let thick = |mm: f64| format!("{}\u{a0}{}", units.thickness(mm), units.length_unit());
    match change {
        Change::Measure(measure) => match measure {
            Measure::BraceInner => format!("One more batten on the long sides of {}", shell(Of::Inner)),
            Measure::BraceOuter => "One more batten on the long sides of the outer box".to_owned(),
            Measure::FillGap => "Gap filled wholly".to_owned(),
            Measure::OneMoreSeal => "One more seal in every lid".to_owned(),
            Measure::PressedSeals => "Gaskets pressed all round in every lid".to_owned(),
            Measure::SteppedLids => "A stepped edge on every lid".to_owned(),
            Measure::SealHoles => "Holes sealed".to_owned(),
            Measure::Springs => "Springs in place of the rigid fixing".to_owned(),
            Measure::SofterSupports => "Supports that sag twice as far".to_owned(),
            Measure::LongerVents => "Vents half as long again, one more bend".to_owned(),
            Measure::LinedVents => "Vents lined".to_owned(),
        },
        Change::MoreSheet(of, key, mm) => format!("{} {} more on {}, on compound", sheet(key), thick(mm), shell(of)),
        Change::OtherSheet(of, place, key) => {
            let mm = layer(of, place).and_then(|layer| layer.thickness_mm).unwrap_or_default();
            format!("{} for the {} {} of {}", sheet(key), named(of, place), thick(mm), shell(of))
        }
        Change::Compound(of, place) => {
            let below = place.checked_sub(1).map_or_else(String::new, |below| named(of, below));
            format!("Compound between {below} and {} of {}", named(of, place + 1), shell(of))
        }
        Change::DeeperGap(mm) => format!("Gap {} deeper", thick(mm)),
        Change::ThickerLining(mm) if design.inner.lining.is_some() => format!("Lining {} thicker", thick(mm)),
        Change::ThickerLining(mm) => format!("A lining of {}", thick(mm)),
        Change::SecondBox => {
            let boards = hushwright::design::Shell::default().layers;
            let boards: Vec<String> =
                boards.iter().filter(|layer| layer.sheet.is_some()).map(|layer: &Layer| leaf::sheet_name(layer)).collect();
            format!("A second box round it ({}), gap {}", boards.join(", "), thick(design.gap.depth_mm))
        }
    }
}

/// A number with its sign: `+38`, `−2`, `0`.
pub fn signed(number: f64, decimals: usize) -> String {
    let text = decimal(number.abs(), decimals);
    if text.chars().all(|c| matches!(c, '0' | '.')) {
        "0".to_owned()
    } else {
        format!("{}{text}", if number < 0.0 { '−' } else { '+' })
    }
}

/// A change of level in dB with its sign: whole, but for what is less than 1.
fn decibels(db: f64) -> String {
    signed(db, usize::from(db.abs() < 0.95))
}

/// What a change brings: `−25 dB`: the sound falls.
pub fn gain_words(step: &Step) -> String {
    format!("{}\u{a0}dB", decibels(-step.gain_db))
}

/// The rest of what is known of it.
pub fn price_words(step: &Step, units: Units) -> String {
    let (mass, unit) = match units {
        Units::Metric => (step.mass_kg, "kg"),
        Units::Imperial => (hushwright::units::kilograms_to_pounds(step.mass_kg), "lb"),
    };
    let growth = match units {
        Units::Metric => signed(step.growth_mm, 0),
        Units::Imperial => signed(hushwright::units::mm_to_inches(step.growth_mm), 1),
    };
    // Where the limit is in dBA, both are the same.
    let apart = (step.gain_dba - step.gain_db).abs() >= 0.05;
    let dba = if apart { format!("{}\u{a0}dBA, ", decibels(-step.gain_dba)) } else { String::new() };
    format!(
        "{dba}{}\u{a0}dB in the loudest band; {}\u{a0}{unit}, cost {}, longest side {growth}\u{a0}{}",
        decibels(-step.gain_in_band_db),
        signed(mass, 0),
        signed(step.cost, 0),
        units.length_unit()
    )
}

#[cfg(test)]
mod tests {
    use hushwright::design::examples;

    use super::*;

    #[test]
    fn every_change_of_every_example_has_a_name_of_its_own() {
        for design in examples() {
            let names: Vec<String> =
                Change::all(&design).into_iter().map(|change| change_name(change, &design, Units::Metric)).collect();
            for (place, name) in names.iter().enumerate() {
                assert!(!name.is_empty() && !names[..place].contains(name), "{name}");
            }
        }
    }

    #[test]
    fn figures_have_signs() {
        let step = Step { gain_db: 2.04, gain_dba: -0.3, gain_in_band_db: 0.0, mass_kg: 10.0, cost: -3.4, growth_mm: 25.4 };
        assert_eq!(gain_words(&step), "−2\u{a0}dB");
        assert_eq!(gain_words(&Step { gain_db: -0.96, ..step }), "+1\u{a0}dB");
        assert!(
            price_words(&Step { gain_dba: 2.04, ..step }, Units::Metric)
                .starts_with("0\u{a0}dB in the loudest band; +10\u{a0}kg")
        );
        assert_eq!(
            price_words(&step, Units::Imperial),
            "+0.3\u{a0}dBA, 0\u{a0}dB in the loudest band; +22\u{a0}lb, cost −3, longest side +1\u{a0}in"
        );
    }
}
