//! A number: a slider for the hand and a field for the exact value, under one name.

use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::fields::SliderRange;

/// A slider beside a number field.
#[derive(Clone, Debug, PartialEq)]
pub struct Slider {
    /// How far it goes.
    pub range: SliderRange,
    /// Where it stands.
    pub value: f64,
    /// The same in words.
    pub words: String,
}

/// A number field with its slider. No component: it has no state of its own.
pub struct NumberField {
    /// Id of the field; the slider's ends in `-slider`, the message's in `-error`.
    pub id: String,
    /// What it is called.
    pub label: &'static str,
    /// What it belongs to, where the label alone does not say which one it is.
    pub part: String,
    /// What asks for its explanation.
    pub why: Html,
    /// Its unit.
    pub unit: &'static str,
    /// The text that it holds.
    pub text: String,
    /// Why that text is refused.
    pub refusal: Option<String>,
    /// The slider.
    pub slider: Slider,
    /// Text was typed.
    pub on_type: Callback<String>,
    /// The slider was moved.
    pub on_slide: Callback<f64>,
    /// The field was left, or a new drag begins.
    pub on_settle: Callback<()>,
}

impl NumberField {
    /// As it stands on the page.
    pub fn view(self) -> Html {
        let Self { id, label, part, why, unit, text, refusal, slider, on_type, on_slide, on_settle } = self;
        let more = if part.is_empty() { part } else { format!(", {part}") };
        let oninput = on_type.reform(|event: InputEvent| event.target_unchecked_into::<HtmlInputElement>().value());
        let Slider { range, value, words } = slider;
        let range = range.around(value);
        let SliderRange { low, high, step } = range;
        // The steps are the page's own: those of the browser would move the handle off a value between two of them.
        let onkeydown = {
            let on_slide = on_slide.clone();
            Callback::from(move |event: KeyboardEvent| {
                let steps = match event.key().as_str() {
                    "ArrowRight" | "ArrowUp" => 1.0,
                    "ArrowLeft" | "ArrowDown" => -1.0,
                    "PageUp" => 10.0,
                    "PageDown" => -10.0,
                    _ => return,
                };
                event.prevent_default();
                on_slide.emit(range.snap(value + steps * step));
            })
        };
        let onslide = Callback::from(move |event: InputEvent| {
            let value = event.target_unchecked_into::<HtmlInputElement>().value_as_number();
            if value.is_finite() {
                on_slide.emit(range.snap(value));
            }
        });
        let onblur = on_settle.reform(|_: FocusEvent| ());
        let onpointerdown = on_settle.reform(|_: PointerEvent| ());
        let error_id = format!("{id}-error");
        let filled = if high > low { (value - low) / (high - low) } else { 0.0 };
        html! {
            <div class={classes!("number", refusal.is_some().then_some("refused"))}>
                <span class="label">
                    <label for={id.clone()}>
                        { label }
                        if !more.is_empty() { <span class="unseen">{ &more }</span> }
                    </label>{ why }
                </span>
                <input type="range" id={format!("{id}-slider")} aria-label={format!("{label}{more}, slider")} aria-valuetext={words}
                    min={low.to_string()} max={high.to_string()} step="any" value={value.to_string()}
                    ~style={format!("--part:{filled:.4}")} oninput={onslide} {onkeydown} onpointerdown={onpointerdown} onblur={onblur.clone()} />
                <span class="entry">
                    <input type="text" inputmode="decimal" autocomplete="off" id={id.clone()} value={text}
                        aria-invalid={refusal.is_some().then_some("true")}
                        aria-describedby={refusal.is_some().then(|| error_id.clone())} {oninput} {onblur} />
                    <span class="unit">{ unit }</span>
                </span>
                if let Some(refusal) = refusal {
                    <p class="refusal" id={error_id} role="alert">{ refusal }</p>
                }
            </div>
        }
    }
}
