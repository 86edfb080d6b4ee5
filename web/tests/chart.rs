//! The chart on a real canvas.
#![cfg(target_arch = "wasm32")]

use hushwright::bands::Spectrum;
use hushwright_web::charts::lines::{LevelRange, Line, LineChart, Pen};
use hushwright_web::charts::palette::{LineInk, Palette};
use hushwright_web::charts::picture;
use hushwright_web::charts::placement::Layout;
use hushwright_web::components::{Size, text_width};
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
    LineChart { lines: vec![line("above", level_db, None), line("below", -40.0, Some((4.0, 2.0)))], ..LineChart::default() }
}

fn canvas() -> HtmlCanvasElement {
    gloo::utils::document().create_element("canvas").expect("a canvas").unchecked_into()
}

fn drawn(chart: &LineChart, dark: bool, cursor: Option<usize>) -> String {
    let canvas = canvas();
    let layout = Layout::new(chart, SIZE, &|words| text_width(words, SIZE.text));
    let palette = if dark { Palette::DARK } else { Palette::LIGHT };
    let mut pen = Pen::new(&canvas, SIZE, 2.0, palette).expect("a canvas can be drawn on");
    chart.draw(&layout, &mut pen, cursor).expect("the canvas takes the drawing");
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

#[wasm_bindgen_test]
fn range_and_weak_part_are_drawn() {
    let plain = drawn(&chart(55.0), false, None);
    let range =
        |by: f64| LevelRange { of: "above", low_db: Spectrum::constant(55.0 - by), high_db: Spectrum::constant(55.0 + by) };
    let ranged = LineChart { range: Some(range(10.0)), ..chart(55.0) };
    assert_ne!(plain, drawn(&ranged, false, None), "a range");
    assert_ne!(
        drawn(&ranged, false, None),
        drawn(&LineChart { range: Some(range(20.0)), ..chart(55.0) }, false, None),
        "a wider one"
    );
    assert_ne!(plain, drawn(&LineChart { weak_hz: Some((200.0, 400.0)), ..chart(55.0) }, false, None), "a weak part");
}

#[wasm_bindgen_test]
fn letters_are_measured_and_a_picture_has_its_words() {
    assert!(text_width("mm", 12.0) > text_width("ll", 12.0) && text_width("mm", 12.0) > 8.0);
    assert!((text_width("level", 24.0) / text_width("level", 12.0) - 2.0).abs() < 0.2);
    let picture = |title: &str, caption: &str| {
        let canvas = canvas();
        picture::draw(&canvas, &chart(55.0), title, caption, &text_width).expect("the canvas takes the drawing");
        canvas.to_data_url().expect("a picture")
    };
    let one = picture("A box", "Levels.");
    assert_ne!(one, picture("Another box", "Levels."), "another title");
    assert_ne!(one, picture("A box", "Levels and more."), "another caption");
}
