//! One number or choice of the design as a row: from the state to the field and back as actions.

use hushwright::need::write_bands;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

use super::explainer::why;
use crate::band_lists::BandList;
use crate::choices::NONE;
use crate::components::{NumberField, SelectField, Slider};
use crate::explanations::{of_choice, of_field, of_list, of_preset};
use crate::fields::{Field, id_of};
use crate::presets::Preset;
use crate::state::{Action, Choice, State};

/// A choice; nothing where it has no effect on the design.
pub fn choice(state: &State, emit: &Callback<Action>, choice: Choice) -> Html {
    choice_of(state, emit, choice, choice.part().into())
}

/// A choice that belongs to `part`.
pub fn choice_of(state: &State, emit: &Callback<Action>, choice: Choice, part: AttrValue) -> Html {
    let Some(at) = choice.get(state.design()) else { return html! {} };
    let options: Vec<(AttrValue, AttrValue)> =
        choice.options().into_iter().map(|(key, words)| (AttrValue::Static(key), words.into())).collect();
    let value = options.get(at).map(|(key, _)| key.clone()).unwrap_or_default();
    let path = choice.path();
    let refusal = state.refusal(&path).map(|refusal| AttrValue::from(refusal.to_owned()));
    html! {
        <SelectField id={id_of(&path)} label={choice.label()} {part} {options} {value} {refusal} why={why(emit, of_choice(choice))}
            on_choose={emit.reform(move |key| Action::Choose(choice, key))} />
    }
}

/// A number of the design with its slider; nothing where the design has no such number.
pub fn row(state: &State, emit: &Callback<Action>, field: Field) -> Html {
    row_of(state, emit, field, field.part().to_owned())
}

/// A row of a number that belongs to `part`.
pub fn row_of(state: &State, emit: &Callback<Action>, field: Field, part: String) -> Html {
    let units = state.units();
    let quantity = field.quantity();
    let Some(value) = field.shown(state.design()) else { return html! {} };
    let entry = state.entry(field);
    NumberField {
        id: field.id(),
        label: field.label(units),
        part,
        why: why(emit, of_field(field)),
        unit: quantity.unit(units),
        text: entry.map_or_else(|| quantity.write(value, units), |entry| entry.text.clone()),
        refusal: entry.and_then(|entry| entry.refusal.clone()),
        slider: Slider {
            range: field.slider(units),
            value: quantity.to_shown(value, units),
            words: format!("{} {}", quantity.write(value, units), quantity.unit(units)),
        },
        on_type: emit.reform(move |text| Action::Type(field, text)),
        on_slide: emit.reform(move |shown| Action::Slide(field, shown)),
        on_settle: emit.reform(|()| Action::Settle),
    }
    .view()
}

/// Numbers that are usual together, by words; nothing where the design has no place for them.
pub fn preset(state: &State, emit: &Callback<Action>, preset: Preset, part: String) -> Html {
    let Some(known) = preset.get(state.design()) else { return html! {} };
    let words = preset.words();
    let mut options: Vec<(AttrValue, AttrValue)> = words.iter().map(|words| ((*words).into(), (*words).into())).collect();
    if known.is_none() {
        options.push((NONE.into(), "own value".into()));
    }
    let value = known.map_or(NONE, |at| words[at]);
    let on_choose = emit.reform(move |chosen: String| {
        Action::Preset(preset, preset.words().iter().position(|own| *own == chosen).unwrap_or(usize::MAX))
    });
    let id = match preset {
        Preset::ListenerRoom(k) => format!("listeners-{k}-{}", preset.path()),
        _ => preset.path().to_owned(),
    };
    html! { <SelectField {id} label={preset.label()} {part} {options} {value} why={why(emit, of_preset(preset))} {on_choose} /> }
}

/// Band values as text, typed or pasted; nothing where they have no effect.
pub fn band_list(state: &State, emit: &Callback<Action>, list: BandList, part: &str) -> Html {
    let Some(values) = list.get(state.design()) else { return html! {} };
    let entry = state.list(list);
    let id = id_of(&list.path());
    let (error_id, hint_id) = (format!("{id}-error"), format!("{id}-hint"));
    let text = entry.map_or_else(|| write_bands(values), |entry| entry.text.clone());
    let refusal = entry.and_then(|entry| entry.refusal.clone());
    let oninput = emit
        .reform(move |event: InputEvent| Action::TypeBands(list, event.target_unchecked_into::<HtmlTextAreaElement>().value()));
    let onblur = emit.reform(|_: FocusEvent| Action::Settle);
    html! {
        <div class={classes!("bands", refusal.is_some().then_some("refused"))}>
            <span class="label"><label for={id.clone()}>{ list.label() }<span class="unseen">{ part }</span></label>{ why(emit, of_list(list)) }</span>
            <textarea id={id} rows="8" spellcheck="false" autocomplete="off" value={text} aria-invalid={refusal.is_some().then_some("true")}
                aria-describedby={if refusal.is_some() { format!("{error_id} {hint_id}") } else { hint_id.clone() }} {oninput} {onblur} />
            <p class="hint" id={hint_id}>
                if matches!(list, BandList::Reduction(_)) { { "Below its first band its value is kept, which is more than most walls do. " } }
                { "One band a line, octaves or thirds: “125 62.5”. Pasted columns or two rows do as well; bands below 25 Hz and above 10 kHz are left out." }
            </p>
            if let Some(refusal) = refusal {
                <p class="refusal" id={error_id} role="alert">{ refusal }</p>
            }
        </div>
    }
}
