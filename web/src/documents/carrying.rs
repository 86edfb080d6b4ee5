//! Whether it goes through doors and round corners, whole or box by box.

use hushwright::workshop::passage::{Attitude, Passage, Through};
use maud::{Markup, html};

use super::Desk;
use super::cells::measured;
use super::words;

/// The table of what is carried through what.
pub fn carrying(desk: &Desk) -> Markup {
    let Desk { plan, units, design, .. } = *desk;
    let boxes = || plan.carrying.iter().filter_map(|load| Some((load, load.passage.as_ref()?)));
    let whole = boxes().next();
    let mm = |m: f64| measured(1000.0 * m, units);
    html! {
        @if let Some((_, passage)) = whole {
            p class={ @if passage.passes { "good" } @else { "alarm" } } { b { (verdict(passage)) } }
        }
        div class="scroll" tabindex="0" role="region" aria-label="Table of what is carried" { table {
            thead { tr {
                th scope="col" { "Carried" } th scope="col" { "Clear opening it needs" } th scope="col" { "Held" } th scope="col" { "Passes" }
            } }
            tbody { @for (load, passage) in boxes() {
                tr {
                    th scope="row" { (words::load(load.what, plan)) }
                    td { (mm(best(passage).door.needs_m[0])) " × " (mm(best(passage).door.needs_m[1])) }
                    td { (words::attitude(passage.best)) }
                    td { (verdict(passage)) }
                }
            } }
        } }
        @if let Some((_, passage)) = whole {
            @if let Some(rest) = rest(best(passage), &mm) { p { (rest) } }
        }
        p class="hint" {
            "Width × height, with " (measured(10.0, units)) " for the hands on either side, feet counted, and handles as far as they are \
             entered to stand out (" (measured(design.document.build.way.handles_mm, units)) ")"
            @if design.document.build.way.stairs_mm > 0.0 { "; on stairs " (measured(50.0, units)) ", headroom not looked at" }
            ". One way of holding it all the way."
        }
    }
}

fn best(passage: &Passage) -> &Through {
    passage.through(passage.best)
}

/// Whether it passes, and what stops it.
fn verdict(passage: &Passage) -> String {
    if passage.passes {
        return match (passage.must_be_tipped, passage.best) {
            (false, _) | (_, Attitude::Upright) => "✓ goes through upright".to_owned(),
            (true, held) => format!("✓ goes through {}", words::attitude(held)),
        };
    }
    let stops: Vec<&str> = passage.stopped_by().iter().map(|obstacle| words::obstacle(*obstacle)).collect();
    format!("✗ stopped by {}", stops.join(", "))
}

/// What corners and stairs leave or lack.
fn rest(through: &Through, mm: &dyn Fn(f64) -> String) -> Option<String> {
    let left = |name: &str, margin_m: f64| {
        if margin_m >= 0.0 { format!("{name}: {} to spare", mm(margin_m)) } else { format!("{name}: {} short", mm(-margin_m)) }
    };
    let parts: Vec<String> = [
        Some(("door", through.door.margin_m[0].min(through.door.margin_m[1]))),
        through.side_door.as_ref().map(|fit| ("turn into the door", fit.margin_m)),
        through.corner.as_ref().map(|fit| ("corner", fit.margin_m)),
        through.flight.as_ref().map(|fit| ("stairs", fit.margin_m)),
        through.landing.as_ref().map(|fit| ("landing", fit.margin_m)),
    ]
    .into_iter()
    .flatten()
    .map(|(name, margin)| left(name, margin))
    .collect();
    (!parts.is_empty()).then(|| crate::words::capital(&parts.join("; ")) + ".")
}
