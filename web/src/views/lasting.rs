//! Browsers may clear what pages keep when the disk is full, unless they have promised not to; the page can ask for that.

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

// Storage standard, section 5 (StorageManager). Where a browser lacks it, as over plain HTTP, the call is refused.
#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(catch, js_namespace = ["navigator", "storage"])]
    async fn persisted() -> Result<JsValue, JsValue>;

    #[wasm_bindgen(catch, js_namespace = ["navigator", "storage"])]
    async fn persist() -> Result<JsValue, JsValue>;
}

/// What is known of the promise.
#[derive(Clone, Copy, PartialEq)]
enum Promise {
    /// Nothing can be asked, or nothing need be.
    Unasked,
    /// It is not given, and can be asked for.
    Open,
    Given,
    Refused,
}

/// The question, where it makes sense.
#[component]
pub fn Lasting() -> Html {
    let promise = use_state_eq(|| Promise::Unasked);
    {
        let promise = promise.setter();
        use_effect_with((), move |()| {
            spawn_local(async move {
                if persisted().await.is_ok_and(|given| given == false) {
                    promise.set(Promise::Open);
                }
            });
        });
    }
    let ask = {
        let promise = promise.setter();
        Callback::from(move |_: MouseEvent| {
            let promise = promise.clone();
            spawn_local(async move {
                let given = persist().await.is_ok_and(|given| given == true);
                promise.set(if given { Promise::Given } else { Promise::Refused });
            });
        })
    };
    html! {
        <p class="hint" role="status" id="lasting">
            if *promise == Promise::Open {
                { "A browser short of room may clear what pages keep. " }
                <button type="button" class="plain" id="lasting-ask" onclick={ask}>{ "Ask it not to" }</button>
            } else if *promise == Promise::Given {
                { "The browser has agreed not to clear it by itself." }
            } else if *promise == Promise::Refused {
                { "The browser has not agreed: keep what matters as a file as well." }
            }
        </p>
    }
}
