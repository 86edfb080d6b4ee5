//! A line chart on a canvas, with a cursor for mouse, finger and arrow keys.

use gloo::events::EventListener;
use gloo::render::{AnimationFrame, request_animation_frame};
use gloo::utils::window;
use hushwright::bands::{BAND_COUNT, NOMINAL_HZ};
use web_sys::{Element, HtmlCanvasElement};
use yew::prelude::*;

use super::hooks::{OUT_OF_FLOW, use_dark, use_size};
use crate::charts::lines::LineChart;
use crate::charts::palette::Palette;
use crate::quantity::whole;
use crate::readings::frequency;

/// Properties of [`LineChartView`].
#[derive(Clone, PartialEq, Properties)]
pub struct LineChartProps {
    /// Id of the canvas.
    pub id: AttrValue,
    /// What the chart shows, for screen readers.
    pub label: AttrValue,
    /// What is drawn.
    pub chart: LineChart,
    /// Band under the cursor.
    pub cursor: Option<usize>,
    /// The cursor was moved or taken away.
    pub on_cursor: Callback<Option<usize>>,
}

/// The chart.
#[component]
pub fn LineChartView(props: &LineChartProps) -> Html {
    let frame = use_node_ref();
    let canvas = use_node_ref();
    let size = use_size(&frame, true);
    let dark = use_dark();
    let pending = use_mut_ref(|| None::<AnimationFrame>);
    {
        let canvas = canvas.clone();
        use_effect_with((props.chart.clone(), size, dark, props.cursor), move |(chart, size, dark, cursor)| {
            if let Some(size) = *size {
                let (chart, palette, cursor) = (chart.clone(), Palette::new(*dark), *cursor);
                // However often a slider reports, one drawing for each frame: a new wish drops the one that waits.
                *pending.borrow_mut() = Some(request_animation_frame(move |_| {
                    let Some(canvas) = canvas.cast::<HtmlCanvasElement>() else { return };
                    let scale = window().device_pixel_ratio().max(2.0);
                    if let Err(error) = chart.draw(&canvas, size, scale, palette, cursor) {
                        web_sys::console::error_1(&error.to_string().into());
                    }
                }));
            }
        });
    }

    {
        let canvas = canvas.clone();
        // Paper is light, and printing does not wait for the next frame.
        use_effect_with((props.chart.clone(), size, dark), move |(chart, size, dark)| {
            let listeners = [("beforeprint", false), ("afterprint", *dark)].map(|(event, dark)| {
                let (chart, canvas, size) = (chart.clone(), canvas.clone(), *size);
                EventListener::new(&window(), event, move |_| {
                    if let (Some(canvas), Some(size)) = (canvas.cast::<HtmlCanvasElement>(), size)
                        && let Err(error) = chart.draw(&canvas, size, 2.0, Palette::new(dark), None)
                    {
                        web_sys::console::error_1(&error.to_string().into());
                    }
                })
            });
            move || drop(listeners)
        });
    }

    let plot = size.map(|size| props.chart.plot(size));
    let follow = {
        let (frame, on_cursor) = (frame.clone(), props.on_cursor.clone());
        Callback::from(move |event: PointerEvent| {
            if let (Some(plot), Some(element)) = (plot, frame.cast::<Element>()) {
                let x = f64::from(event.client_x()) - element.get_bounding_client_rect().left();
                on_cursor.emit(Some(plot.band_at(x)));
            }
        })
    };
    let leave = {
        let on_cursor = props.on_cursor.clone();
        Callback::from(move |event: PointerEvent| {
            if event.pointer_type() == "mouse" {
                on_cursor.emit(None);
            }
        })
    };
    let onkeydown = {
        let (on_cursor, cursor) = (props.on_cursor.clone(), props.cursor);
        Callback::from(move |event: KeyboardEvent| {
            let last = BAND_COUNT - 1;
            let moved = match (event.key().as_str(), cursor) {
                ("ArrowRight" | "ArrowUp", Some(band)) => Some((band + 1).min(last)),
                ("ArrowLeft" | "ArrowDown", Some(band)) => Some(band.saturating_sub(1)),
                ("ArrowRight" | "ArrowUp" | "ArrowLeft" | "ArrowDown", None) => Some(MIDDLE),
                ("Home", _) => Some(0),
                ("End", _) => Some(last),
                ("Escape", _) => None,
                _ => return,
            };
            event.prevent_default();
            on_cursor.emit(moved);
        })
    };
    let band = props.cursor.unwrap_or(MIDDLE);
    let values = props.chart.lines.iter().map(|line| format!("{} {} dB", line.name, whole(line.db[band])));
    let spoken = values.collect::<Vec<_>>().join(", ");
    let spoken = format!("{}: {spoken}", frequency(NOMINAL_HZ[band]));

    html! {
        <div class="chart" ref={frame} tabindex="0" role="slider" aria-label={props.label.clone()} aria-valuemin="0"
            aria-valuemax={(BAND_COUNT - 1).to_string()} aria-valuenow={band.to_string()} aria-valuetext={spoken}
            onpointerdown={follow.clone()} onpointermove={follow}
            onpointerleave={leave} {onkeydown}>
            <canvas id={props.id.clone()} ref={canvas} style={OUT_OF_FLOW} />
            if let (Some(plot), Some(_)) = (plot, props.cursor) {
                <div class="cursor" style={format!("left:{:.1}px;top:{:.1}px;height:{:.1}px", plot.x(band), plot.top, plot.bottom - plot.top)} />
                <div class="flag" style={format!("left:{:.1}px;top:{:.1}px", plot.x(band), plot.bottom)}>
                    { frequency(NOMINAL_HZ[band]) }
                </div>
            }
        </div>
    }
}

/// Band at which the cursor appears when a key asks for it: 250 Hz.
const MIDDLE: usize = 10;
