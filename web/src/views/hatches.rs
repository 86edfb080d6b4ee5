//! The patterns by which materials are told apart, after the manner of ISO 128-3, each in two directions; once for the whole page.

use yew::prelude::*;

use crate::charts::cut::Hatch;

/// What fills an area with this hatching; neighbours are turned against each other.
pub fn fill(hatch: Hatch, turned: bool) -> String {
    match hatch {
        Hatch::Air => "none".to_owned(),
        _ => format!("url(#hatch-{}-{})", hatch.key(), u8::from(turned)),
    }
}

/// A drawing without size that holds the patterns.
pub fn hatches() -> Html {
    html! { <svg class="patterns" width="0" height="0" aria-hidden="true" ~style="position:absolute">{ patterns() }</svg> }
}

/// The patterns themselves.
pub fn patterns() -> Html {
    html! { <defs>{ for Hatch::ALL.into_iter().map(both) }</defs> }
}

/// The pattern of a hatching in both directions.
fn both(hatch: Hatch) -> Html {
    let stroke = |d: &'static str| html! { <path {d} /> };
    let (size, marks) = match hatch {
        Hatch::Veneer => (6, stroke("M-1 1L1 -1M0 6L6 0M5 7L7 5")),
        Hatch::Chips => (9, stroke("M1 2L4 1M6 4L8 6M2 7L4 6M5 8L6.5 7.6M6.5 1.5L8 1")),
        Hatch::Mineral => {
            let dots = [("1.5", "2", ".75"), ("5", "5.4", ".75"), ("5.4", "1.4", ".45"), ("2", "5.6", ".45")];
            (7, html! { <>{ for dots.map(|(cx, cy, r)| html! { <circle {cx} {cy} {r} /> }) }</> })
        }
        Hatch::Metal => (4, stroke("M-1 1L1 -1M0 4L4 0M3 5L5 3M-1 2.4L2.4 -1M1.4 5L5 1.4")),
        Hatch::Clear => (12, stroke("M2 7L7 2M4 8L8 4")),
        Hatch::Limp => (4, stroke("M0 0L4 4M0 4L4 0")),
        Hatch::Porous => (14, stroke("M0 4Q3.5 -1 7 4T14 4M0 11Q3.5 6 7 11T14 11")),
        Hatch::Plain => (10, stroke("M-1 1L1 -1M0 10L10 0M9 11L11 9")),
        Hatch::Air => return html! {},
    };
    let size = AttrValue::from(size.to_string());
    let pattern = |turned: u8| {
        html! {
            <pattern id={format!("hatch-{}-{turned}", hatch.key())} patternUnits="userSpaceOnUse" width={&size} height={&size}
                patternTransform={format!("rotate({})", 90 * turned)} class={classes!("hatch", hatch.key())}>
                <rect class="tint" width={&size} height={&size} />
                { marks.clone() }
            </pattern>
        }
    };
    html! { <>{ pattern(0) }{ pattern(1) }</> }
}
