//! What sets a design beside the present one: a copy of that, an example, a design kept on the device, a pasted link.

use std::rc::Rc;

use hushwright::design::examples;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::components::SelectField;
use crate::estimator::Estimator;
use crate::state::{Action, Beside, MOST_BESIDE, normalised};
use crate::view::View;

/// A design that can be set beside: its name, and the fragment of its link.
pub type Offered = (AttrValue, AttrValue);

/// Properties of [`Tools`].
#[derive(Clone, PartialEq, Properties)]
pub struct ToolsProps {
    /// Opens what is pasted.
    pub estimator: Estimator,
    /// The link of the present design.
    pub fragment: Rc<str>,
    /// How many designs stand beside it.
    pub count: usize,
    /// Why the last one could not be set there.
    pub refusal: Option<AttrValue>,
    /// Designs kept on the device.
    pub kept: Vec<Offered>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// The fragment in what a person has pasted: a whole address, or what follows its `#`; of a comparison that of the first design.
fn fragment_of(pasted: &str) -> &str {
    let pasted = pasted.trim();
    View::read(pasted.split_once('#').map_or(pasted, |(_, fragment)| fragment)).1
}

/// The fragment of the link as the page writes it, of a design that a link of any version carries.
fn rewritten(fragment: &str, estimator: &Estimator) -> Result<String, String> {
    let design = normalised(estimator.open(fragment)?);
    // What a link carries has passed its check.
    Ok(estimator.estimate(&design).map_or_else(|_| fragment.to_owned(), |estimate| estimate.fragment))
}

/// The controls.
#[component]
pub fn Tools(props: &ToolsProps) -> Html {
    let ToolsProps { estimator, fragment, count, refusal, kept, emit } = props;
    let is_full = *count >= MOST_BESIDE;
    let put = emit.reform(|fragment: String| Action::Beside(Beside::Put(fragment)));
    let freeze = {
        let fragment = Rc::clone(fragment);
        put.reform(move |_: MouseEvent| fragment.to_string())
    };
    let chosen = use_state_eq(|| 0_usize);
    let names =
        examples().into_iter().map(|design| AttrValue::from(design.name)).chain(kept.iter().map(|(name, _)| name.clone()));
    let options: Vec<(AttrValue, AttrValue)> = names.enumerate().map(|(k, name)| (k.to_string().into(), name)).collect();
    let choose = {
        let (setter, keys) = (chosen.setter(), options.clone());
        Callback::from(move |key: String| setter.set(keys.iter().position(|(own, _)| **own == *key).unwrap_or(0)))
    };
    let put_chosen = {
        let (chosen, kept, estimator, put) = (*chosen, kept.clone(), estimator.clone(), put.clone());
        Callback::from(move |_: MouseEvent| {
            let mut own = examples();
            let fragment = if chosen < own.len() {
                estimator.estimate(&normalised(own.swap_remove(chosen))).ok().map(|estimate| estimate.fragment)
            } else {
                kept.get(chosen - own.len()).map(|(_, fragment)| fragment.to_string())
            };
            if let Some(fragment) = fragment {
                put.emit(fragment);
            }
        })
    };
    let field = use_node_ref();
    let wrong = use_state_eq(|| None::<String>);
    let put_pasted = {
        let (field, wrong, estimator, put) = (field.clone(), wrong.setter(), estimator.clone(), put.clone());
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            let Some(field) = field.cast::<HtmlInputElement>() else { return };
            match rewritten(fragment_of(&field.value()), &estimator) {
                Ok(fragment) => {
                    wrong.set(None);
                    field.set_value("");
                    put.emit(fragment);
                }
                Err(message) => wrong.set(Some(message)),
            }
        })
    };
    html! {
        <div class="set-beside">
            <button type="button" id="compare-freeze" class="chief" onclick={freeze} disabled={is_full}>{ "Set this design beside" }</button>
            <div class="offered">
                <SelectField id="compare-which" label="Another" {options} value={chosen.to_string()} on_choose={choose} />
                <button type="button" id="compare-put" onclick={put_chosen} disabled={is_full}>{ "Set it beside" }</button>
            </div>
            <form class="offered" onsubmit={put_pasted}>
                <div class="choice">
                    <label for="compare-link">{ "Link of one" }</label>
                    <input type="text" id="compare-link" ref={field} autocomplete="off" spellcheck="false"
                        aria-invalid={wrong.is_some().then_some("true")} aria-describedby={wrong.is_some().then_some("compare-link-error")} />
                </div>
                <button type="submit" id="compare-paste" disabled={is_full}>{ "Set it beside" }<span class="unseen">{ ", by its link" }</span></button>
            </form>
            if let Some(wrong) = &*wrong { <p class="refusal" id="compare-link-error" role="alert">{ wrong }</p> }
            if let Some(refusal) = refusal { <p class="refusal" id="compare-error" role="alert">{ refusal }</p> }
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Core;
    use hushwright::design::{Design, link};

    #[test]
    fn a_pasted_address_is_read_whatever_view_it_is_of() {
        for pasted in [
            "v1.a.b",
            "#v1.a.b",
            " https://example.org/x/#v1.a.b\n",
            "https://example.org/#improve/v1.a.b",
            "http://127.0.0.1:8080/index.html#compare/v1.a.b/v1.c.d",
        ] {
            assert_eq!(fragment_of(pasted), "v1.a.b", "{pasted}");
        }
        assert_eq!(fragment_of("https://example.org/"), "https://example.org/");
        assert_eq!(fragment_of(""), "");
    }

    #[test]
    fn what_is_pasted_is_written_anew_or_told_to_be_none() {
        let estimator = Estimator::new(Core::default());
        let design = Design { name: "Pasted".to_owned(), ..Design::default() };
        assert_eq!(rewritten(&link::encode(&design), &estimator), Ok(link::encode(&normalised(design))));
        for wrong in ["", "nonsense", "v1.e30", "v99.e30.00000000", "<script>", "v1.%00.\u{0}"] {
            assert!(rewritten(wrong, &estimator).is_err_and(|message| !message.is_empty()), "{wrong}");
        }
    }
}
