//! What the browser knows and the page must follow: sizes of elements, the theme, the pixels of the screen.

use gloo::events::EventListener;
use gloo::utils::window;
use hushwright::number;
use js_sys::Array;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, IntersectionObserver, IntersectionObserverEntry, MediaQueryList, ResizeObserver};
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

/// Whether the element under `node` is in sight, as far as is known: it is until the browser says that it is not.
#[hook]
pub fn use_in_sight(node: &NodeRef) -> bool {
    let in_sight = use_state_eq(|| true);
    let setter = in_sight.setter();
    use_effect_with(node.clone(), move |node| {
        let heard = Closure::<dyn FnMut(Array)>::new(move |entries: Array| {
            let latest = entries.pop().dyn_into::<IntersectionObserverEntry>();
            setter.set(latest.is_ok_and(|entry| entry.is_intersecting()));
        });
        let observer = IntersectionObserver::new(heard.as_ref().unchecked_ref()).ok();
        if let (Some(observer), Some(element)) = (&observer, node.cast::<Element>()) {
            observer.observe(&element);
        }
        move || {
            if let Some(observer) = observer {
                observer.disconnect();
            }
            drop(heard);
        }
    });
    *in_sight
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

/// What a page is seen on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screen {
    /// Its colours.
    pub theme: Theme,
    /// Pixels of it to a CSS pixel.
    pub scale: f64,
}

const DARK: &str = "(prefers-color-scheme: dark)";
const FORCED: &str = "(forced-colors: active)";

fn query(words: &str) -> Option<MediaQueryList> {
    window().match_media(words).ok().flatten()
}

impl Screen {
    fn now() -> Self {
        let holds = |words| query(words).is_some_and(|query| query.matches());
        let theme = match (holds(FORCED), holds(DARK)) {
            (true, _) => Theme::Forced,
            (false, true) => Theme::Dark,
            (false, false) => Theme::Light,
        };
        Self { theme, scale: window().device_pixel_ratio() }
    }
}

/// What the page is seen on, kept up to date when the system's colours change, and when the page is zoomed or moves to another
/// screen.
#[hook]
pub fn use_screen() -> Screen {
    let screen = use_state_eq(Screen::now);
    let setter = screen.setter();
    use_effect_with(screen.scale, move |scale| {
        // There is no event for the scale: a query that holds for the present one ceases to hold when it changes.
        let scale = format!("(resolution: {scale}dppx)");
        let listeners = [DARK, FORCED, &scale].map(|words| {
            let setter = setter.clone();
            query(words).map(|query| EventListener::new(&query, "change", move |_| setter.set(Screen::now())))
        });
        move || drop(listeners)
    });
    *screen
}
