//! The chart on a real canvas.
#![cfg(target_arch = "wasm32")]

use hushwright::bands::Spectrum;
use hushwright_web::charts::lines::{Line, LineChart};
use hushwright_web::charts::palette::{LineInk, Palette};
use hushwright_web::components::Size;
use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::HtmlCanvasElement;

wasm_bindgen_test_configure!(run_in_browser);

const SIZE: Size = Size { width: 400.0, height: 200.0, text: 12.0 };

fn chart(level_db: f64) -> LineChart {
    let line = |name, db, dash| {
        let db = Spectrum::constant(db);
        Line { name, short: name, db, first_band: 0, ink: LineInk::Blue, width: 2.0, dash }
    };
    LineChart { lines: vec![line("above", level_db, None), line("below", -40.0, Some((4.0, 2.0)))], floor_db: 0.0, weak_hz: None }
}

fn drawn(chart: &LineChart, dark: bool, cursor: Option<usize>) -> String {
    let canvas = gloo::utils::document().create_element("canvas").expect("a canvas");
    let canvas: HtmlCanvasElement = canvas.unchecked_into();
    chart.draw(&canvas, SIZE, 2.0, Palette::new(dark), cursor).expect("the canvas takes the drawing");
    assert_eq!((canvas.width(), canvas.height()), (800, 400), "two canvas pixels to a CSS pixel");
    canvas.to_data_url().expect("a picture")
}

#[wasm_bindgen_test]
fn the_drawing_follows_levels_theme_and_cursor() {
    let one = drawn(&chart(55.0), false, None);
    assert_eq!(one, drawn(&chart(55.0), false, None), "the same numbers give the same picture");
    assert_ne!(one, drawn(&chart(56.0), false, None), "another level");
    assert_ne!(one, drawn(&chart(55.0), true, None), "another theme");
    assert_ne!(one, drawn(&chart(55.0), false, Some(8)), "a cursor");
    let mut later = chart(55.0);
    later.lines[0].first_band = 3;
    assert_ne!(one, drawn(&later, false, None), "a line that begins later");
    assert_ne!(drawn(&later, false, Some(1)), drawn(&chart(55.0), false, Some(1)), "no value before it begins");
}
