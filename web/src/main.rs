//! Starts the page, once the engine has come.

use hushwright_web::estimator::Estimator;
use hushwright_web::{App, AppProps};

fn main() {
    hushwright_web::recovery::install();
    wasm_bindgen_futures::spawn_local(async {
        match Estimator::load().await {
            Ok(estimator) => {
                if let Some(root) = gloo::utils::document().get_element_by_id("page") {
                    yew::Renderer::<App>::with_root_and_props(root, AppProps { estimator }).render();
                }
            }
            // Thrown again, it reaches the page's own message that the program could not be loaded.
            Err(error) => wasm_bindgen::throw_val(error),
        }
    });
}
