//! The small picture of a box, wherever boxes are told apart by their looks.

use hushwright::design::Design;
use maud::{Markup, html};

use crate::charts::miniature::miniature;

/// The box cut open lengthwise at `scale` in px for a mm, in a picture of `size` in px; an empty place where there is none.
pub fn picture(design: Option<&Design>, scale: f64, size: (f64, f64)) -> Markup {
    let drawn = design.map(|design| miniature(design, scale, size));
    html! {
        svg class="miniature" width=(size.0) height=(size.1) viewBox={ "0 0 " (size.0) " " (size.1) } aria-hidden="true" {
            @if let Some(drawn) = drawn {
                @for (hatch, path) in &drawn.parts { path class=(hatch.key()) fill-rule="evenodd" d=(path) {} }
                path class="lid" d=(drawn.lid) {}
            }
        }
    }
}
