//! What the browser knows and the page must follow: sizes of elements, the light or dark theme.

use gloo::events::EventListener;
use gloo::utils::window;
use hushwright::number;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};
use yew::prelude::*;

/// Size of an element and of its text in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// Inner width.
    pub width: f64,
    /// Inner height.
    pub height: f64,
    /// Font size.
    pub text: f64,
}

impl Size {
    /// The size of `element`, if it is on the page.
    fn of(element: &Element) -> Option<Self> {
        let (width, height) = (f64::from(element.client_width()), f64::from(element.client_height()));
        let style = window().get_computed_style(element).ok()??;
        let text = number::parse(style.get_property_value("font-size").ok()?.trim_end_matches("px"))?;
        (width > 0.0 && height > 0.0).then_some(Self { width, height, text })
    }
}

/// Style of what is drawn to the size of the element round it. It stands in the markup, not in a style sheet: in the flow the
/// drawing would stretch the element it is measured by, and both would grow without end where the sheet is missing.
pub const OUT_OF_FLOW: &str = "position:absolute;inset:0";

/// Size of the element under `node`, kept up to date; `None` before it is on the page. An element that comes later `is_there` from then on.
#[hook]
pub fn use_size(node: &NodeRef, is_there: bool) -> Option<Size> {
    let size = use_state_eq(|| None);
    let setter = size.setter();
    use_effect_with((node.clone(), is_there), move |(node, _)| {
        let element = node.cast::<Element>();
        let measured = element.clone();
        let measure = move || {
            setter.set(measured.as_ref().and_then(Size::of));
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
