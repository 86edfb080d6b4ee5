//! How wide a text is, in the typefaces of what is drawn.

use std::cell::Cell;

use gloo::utils::document;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::charts::FONT;

/// Width of a letter in sizes of the text where nothing can be measured: that of wide faces.
const LETTER: f64 = 0.64;

thread_local! {
    static CONTEXT: Option<CanvasRenderingContext2d> = context();
    /// Size of the text that it measures; to set it takes longer than to measure.
    static SIZE: Cell<f64> = const { Cell::new(0.0) };
}

fn context() -> Option<CanvasRenderingContext2d> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.get_context("2d").ok()??.dyn_into().ok()
}

/// Width in CSS pixels of a text of `size` CSS pixels.
pub fn text_width(words: &str, size: f64) -> f64 {
    let measured = CONTEXT.with(|context| {
        let context = context.as_ref()?;
        if SIZE.replace(size) != size {
            context.set_font(&format!("{size}px {FONT}"));
        }
        Some(context.measure_text(words).ok()?.width())
    });
    measured.unwrap_or_else(|| LETTER * size * words.chars().count() as f64)
}
