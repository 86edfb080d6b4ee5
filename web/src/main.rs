//! Starts the page.

fn main() {
    yew::Renderer::<hushwright_web::App>::new().render();
}
