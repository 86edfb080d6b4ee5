//! What the browser knows and the page must follow: sizes of elements, the theme, the pixels of the screen.

use gloo::events::EventListener;
use gloo::utils::window;
use hushwright::number;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, MediaQueryList, ResizeObserver};
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

/// What the system asks of a page's colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// A light ground.
    Light,
    /// A dark one.
    Dark,
    /// Its own colours and no others.
    Forced,
}

/// What the system asks of the colours, kept up to date.
#[hook]
pub fn use_theme() -> Theme {
    let (dark, forced) = (use_media("(prefers-color-scheme: dark)"), use_media("(forced-colors: active)"));
    match (forced, dark) {
        (true, _) => Theme::Forced,
        (false, true) => Theme::Dark,
        (false, false) => Theme::Light,
    }
}

/// Whether a media query holds, kept up to date.
#[hook]
fn use_media(words: &'static str) -> bool {
    let query = use_memo((), |()| window().match_media(words).ok().flatten());
    let holds = use_state_eq(|| query.as_ref().as_ref().is_some_and(MediaQueryList::matches));
    let setter = holds.setter();
    use_effect_with((), move |()| {
        let listener = query
            .as_ref()
            .clone()
            .map(|query| EventListener::new(&query.clone(), "change", move |_| setter.set(query.matches())));
        move || drop(listener)
    });
    *holds
}

/// Pixels of the screen to a CSS pixel, kept up to date when the page is zoomed or moves to another screen.
#[hook]
pub fn use_scale() -> f64 {
    let scale = use_state_eq(|| window().device_pixel_ratio());
    let setter = scale.setter();
    use_effect_with(*scale, move |scale| {
        // There is no event for it: a query that holds for the present ratio ceases to hold when it changes.
        let query = window().match_media(&format!("(resolution: {scale}dppx)")).ok().flatten();
        let listener =
            query.map(|query| EventListener::new(&query, "change", move |_| setter.set(window().device_pixel_ratio())));
        move || drop(listener)
    });
    *scale
}
