//! A choice among named things.

use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// Properties of [`SelectField`].
#[derive(Clone, PartialEq, Properties)]
pub struct SelectFieldProps {
    /// Id of the select.
    pub id: AttrValue,
    /// What it is called.
    pub label: AttrValue,
    /// What it belongs to, where the label alone does not say which one it is.
    #[prop_or_default]
    pub part: AttrValue,
    /// Why what was chosen last was refused.
    #[prop_or_default]
    pub refusal: Option<AttrValue>,
    /// What asks for its explanation.
    #[prop_or_default]
    pub why: Html,
    /// Whether the name is for screen readers only.
    #[prop_or_default]
    pub label_unseen: bool,
    /// Keys and words of what can be chosen.
    pub options: Vec<(AttrValue, AttrValue)>,
    /// Key of what is chosen.
    pub value: AttrValue,
    /// Something was chosen.
    pub on_choose: Callback<String>,
}

/// A select with its label.
#[component]
pub fn SelectField(props: &SelectFieldProps) -> Html {
    let node = use_node_ref();
    {
        let node = node.clone();
        let value = props.value.clone();
        // After every render: a person may have changed the select to what was then refused or undone.
        use_effect(move || {
            if let Some(select) = node.cast::<HtmlSelectElement>()
                && select.value() != *value
            {
                select.set_value(&value);
            }
        });
    }
    let onchange = props.on_choose.reform(|event: Event| event.target_unchecked_into::<HtmlSelectElement>().value());
    let error_id = format!("{}-error", props.id);
    html! {
        <div class="choice">
            <span class={classes!("label", props.label_unseen.then_some("unseen"))}>
                <label for={props.id.clone()}>
                    { props.label.clone() }
                    if !props.part.is_empty() { <span class="unseen">{ ", " }{ props.part.clone() }</span> }
                </label>{ props.why.clone() }
            </span>
            <select id={props.id.clone()} ref={node} {onchange} aria-describedby={props.refusal.is_some().then(|| error_id.clone())}>
                { for props.options.iter().map(|(key, words)| html! {
                    <option key={key.to_string()} value={key.clone()} selected={*key == props.value}>{ words.clone() }</option>
                }) }
            </select>
            if let Some(refusal) = &props.refusal {
                <p class="refusal" id={error_id} role="alert">{ refusal.clone() }</p>
            }
        </div>
    }
}
