//! What the browser knows and the page must follow: sizes of elements, the light or dark theme.

use gloo::events::EventListener;
use gloo::utils::window;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};
use yew::prelude::*;

/// Inner width and height in CSS pixels of the element under `node`, kept up to date; `None` before it is on the page.
#[hook]
pub fn use_size(node: &NodeRef) -> Option<(f64, f64)> {
    let size = use_state_eq(|| None);
    let setter = size.setter();
    use_effect_with(node.clone(), move |node| {
        let element = node.cast::<Element>();
        let measured = element.clone();
        let measure = move || {
            let size = measured.as_ref().map(|element| (f64::from(element.client_width()), f64::from(element.client_height())));
            setter.set(size.filter(|&(width, height)| width > 0.0 && height > 0.0));
        };
        measure();
        let callback = Closure::<dyn FnMut()>::new(measure);
        let observer = ResizeObserver::new(callback.as_ref().unchecked_ref()).ok();
        if let (Some(observer), Some(element)) = (&observer, &element) {
            observer.observe(element);
        }
        move || {
            if let Some(observer) = observer {
                observer.disconnect();
            }
            drop(callback);
        }
    });
    *size
}

/// Whether the system asks for a dark page, kept up to date.
#[hook]
pub fn use_dark() -> bool {
    let query = use_memo((), |()| window().match_media("(prefers-color-scheme: dark)").ok().flatten());
    let dark = use_state_eq(|| query.as_ref().as_ref().is_some_and(web_sys::MediaQueryList::matches));
    let setter = dark.setter();
    use_effect_with((), move |()| {
        let listener = query
            .as_ref()
            .clone()
            .map(|query| EventListener::new(&query.clone(), "change", move |_| setter.set(query.matches())));
        move || drop(listener)
    });
    *dark
}
