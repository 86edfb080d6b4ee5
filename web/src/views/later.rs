//! What stands beside the drawing need not follow every step of a slider in the same frame: it follows some ten times a second.

use std::cell::RefCell;
use std::rc::Rc;

use gloo::timers::callback::Timeout;
use yew::prelude::*;

/// How long it may lag behind, in ms.
const LAG_MS: u32 = 80;

/// Makes what is shown.
type View = Box<dyn Fn() -> Html>;

#[derive(Default)]
struct Inner {
    latest: Option<View>,
    wake: Option<Callback<()>>,
    waiting: Option<Timeout>,
}

/// What is to be shown, as of the last step, for [`Later`] to fetch.
#[derive(Clone, Default)]
pub struct Slot(Rc<RefCell<Inner>>);

impl PartialEq for Slot {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Slot {
    /// Puts in what is to be shown from now on; it is, before long.
    pub fn put(&self, view: impl Fn() -> Html + 'static) {
        let mut inner = self.0.borrow_mut();
        inner.latest = Some(Box::new(view));
        if inner.waiting.is_none() {
            let slot = self.clone();
            inner.waiting = Some(Timeout::new(LAG_MS, move || {
                let wake = {
                    let mut inner = slot.0.borrow_mut();
                    inner.waiting = None;
                    inner.wake.clone()
                };
                if let Some(wake) = wake {
                    wake.emit(());
                }
            }));
        }
    }

    fn view(&self) -> Html {
        self.0.borrow().latest.as_ref().map_or_else(Html::default, |view| view())
    }
}

/// Properties of [`Later`].
#[derive(Clone, PartialEq, Properties)]
pub struct LaterProps {
    /// Where it fetches what it shows.
    pub slot: Slot,
}

/// Shows what is in its slot.
#[component]
pub fn Later(props: &LaterProps) -> Html {
    let update = use_force_update();
    let slot = props.slot.clone();
    use_effect_with((), move |()| {
        let own = slot.clone();
        own.0.borrow_mut().wake = Some(Callback::from(move |()| update.force_update()));
        move || slot.0.borrow_mut().wake = None
    });
    props.slot.view()
}
