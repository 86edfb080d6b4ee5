//! The core and the page's parts as wasm in a browser.
#![cfg(target_arch = "wasm32")]

use std::time::Duration;

use hushwright::design::{Design, examples, link, run_in_box};
use hushwright::evaluate::evaluate;
use hushwright_web::estimator::Estimator;
use hushwright_web::model::Core;
use hushwright_web::{App, AppProps};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use yew::platform::time::sleep;

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
fn a_design_survives_its_link() {
    let mut changed = Design::default();
    changed.source.level_dba = 97.25;
    changed.outer = None;
    let designs = examples().into_iter().chain([changed]);
    for design in designs {
        assert_eq!(link::decode(&link::encode(&design)), Ok(design));
    }
}

/// The file is written by the native test of the same name: a link shows the same digits wherever it is opened.
#[wasm_bindgen_test]
fn the_first_example_gives_the_same_digits() {
    let known = include_str!("../../tests/snapshots/run_in_box.txt");
    assert_eq!(evaluate(&run_in_box().check().expect("the example is sound")).digits(), known);
}

#[wasm_bindgen_test]
async fn the_page_renders_an_answer() {
    let document = gloo::utils::document();
    let place = document.create_element("div").expect("an element");
    // Not the body itself, which holds what the test runner reads.
    gloo::utils::body().append_child(&place).expect("a place for the page");
    // The core itself, without an engine between.
    let estimator = Estimator::new(Core::default());
    yew::Renderer::<App>::with_root_and_props(place, AppProps { estimator }).render();
    for _ in 0..500 {
        let answer = document.get_element_by_id("answer").and_then(|element| element.text_content());
        if answer.is_some_and(|text| text.contains("dBA")) {
            return;
        }
        sleep(Duration::from_millis(20)).await;
    }
    panic!("no answer within 10 s: {:?}", document.body().and_then(|body| body.text_content()));
}
