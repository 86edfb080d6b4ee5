//! Mass by part, where its middle is, and what it asks of people, floor and feet.

use hushwright::workshop::Plan;
use hushwright::workshop::carry::{DWELLING_FLOOR_HIGH_KPA, DWELLING_FLOOR_LOW_KPA, LoadLevel, castors};
use hushwright::workshop::tipping::Caution;
use maud::{Markup, html};

use super::Desk;
use super::cells::{mass, measured};
use super::words;
use crate::quantity::{Units, decimal};

/// More people than this have no room round a box.
const MOST_PEOPLE: u32 = 5;

/// Masses, people, floor, tipping, supports.
pub fn weight(desk: &Desk) -> Markup {
    let Desk { plan, units, .. } = *desk;
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Table of masses" { table {
            thead { tr { th scope="col" { "Part" } th scope="col" { "Mass" } } }
            tbody {
                @for (of, kg) in &plan.masses { tr { th scope="row" { (words::mass(*of, plan)) } td { (mass(*kg, units)) } } }
                tr class="sum" { th scope="row" { "All" } td { (units.mass(plan.mass_kg)) } }
            }
        } }
        p class="hint" { "Screws, latches and other fittings are not in it." }
        div class="scroll" tabindex="0" role="region" aria-label="Table of what is lifted" { table {
            thead { tr { th scope="col" { "To lift" } th scope="col" { "Mass" } th scope="col" { "People" } } }
            tbody { @for load in &plan.carrying {
                tr {
                    th scope="row" { (words::load(load.what, plan)) }
                    td { (mass(load.lift.kg, units)) }
                    td { @if load.lift.people > MOST_PEOPLE { "a hoist, or in parts" } @else { (load.lift.people) } }
                }
            } }
        } }
        p { (lifting(plan, units)) }
        p { (floor(plan, units)) }
        p { (standing(plan, units)) }
    }
}

fn lifting(plan: &Plan, units: Units) -> String {
    let rolled = castors(plan.mass_kg, 4);
    format!(
        "At most {} a person. On a dolly: four castors, \
         each rated for {} (three of them carry it all on an uneven floor), better {} (it may rock on two).",
        units.mass(25.0),
        units.mass(rolled.rated_kg),
        units.mass(rolled.rocking_kg)
    )
}

fn pressure(kpa: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{} kPa", decimal(kpa, 1)),
        // 1 lb/ft2 is 0.047880 kPa, from the pound, the foot and free fall.
        Units::Imperial => format!("{} lb/ft²", decimal(kpa / 0.047_880, 0)),
    }
}

fn floor(plan: &Plan, units: Units) -> String {
    let floor = &plan.floor;
    let usual = format!("{} to {}", pressure(DWELLING_FLOOR_LOW_KPA, units), pressure(DWELLING_FLOOR_HIGH_KPA, units));
    let first =
        format!("The floor bears {} under it; dwellings are usually designed for {usual}.", pressure(floor.pressure_kpa, units));
    let then = match floor.level {
        LoadLevel::Below => " That is less, but what else stands there adds to it.".to_owned(),
        LoadLevel::Within | LoadLevel::Above => format!(
            " Ask a structural engineer, or spread it: over {} it stays at the lower of these.",
            units.area(floor.spread_m2)
        ),
    };
    first + &then
}

fn standing(plan: &Plan, units: Units) -> String {
    let [x, y, z] = plan.centre_mm;
    let side = |mm: f64, to: [&str; 2]| format!("{} {}", measured(mm.abs(), units), if mm >= 0.0 { to[0] } else { to[1] });
    let centre = format!(
        "Its centre of mass lies {}, {} and {} the middle of the inside.",
        side(x, ["in front of", "behind"]).replace(" in front of", " towards the front").replace(" behind", " towards the back"),
        side(y, ["to the right", "to the left"]),
        side(z, ["above", "below"])
    );
    let weakest = &plan.tipping.weakest;
    let tips = match plan.tipping.caution {
        Caution::Stands => format!("It stands until it is tilted by {}°.", decimal(weakest.angle_deg, 0)),
        Caution::TipsEasily => format!(
            "It tips at a tilt of {}° already, or when {} N push at its top: move the feet outwards, or tie it to a wall.",
            decimal(weakest.angle_deg, 0),
            decimal(weakest.push_n, 0)
        ),
        Caution::Falls => "It falls over on the level: the feet do not stand under its mass.".to_owned(),
    };
    format!("{centre} {tips}")
}
