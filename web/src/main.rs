//! Starts the page.

fn main() {
    hushwright_web::recovery::install();
    if let Some(root) = gloo::utils::document().get_element_by_id("page") {
        yew::Renderer::<hushwright_web::App>::with_root(root).render();
    }
}
