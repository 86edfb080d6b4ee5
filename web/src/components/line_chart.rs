//! A line chart on a canvas, with a cursor for mouse, finger and keys.

use std::rc::Rc;

use gloo::events::EventListener;
use gloo::render::request_animation_frame;
use gloo::utils::window;
use hushwright::bands::BAND_COUNT;
use web_sys::{Element, HtmlCanvasElement};
use yew::prelude::*;

use super::hooks::{OUT_OF_FLOW, Screen, Size, Theme, use_in_sight, use_screen, use_size};
use super::ruler::text_width;
use crate::charts::lines::{LineChart, Pen};
use crate::charts::palette::{Palette, parse_rgb};
use crate::charts::placement::Layout;

/// Properties of [`LineChartView`].
#[derive(Clone, PartialEq, Properties)]
pub struct LineChartProps {
    /// Id of the canvas.
    pub id: AttrValue,
    /// What the chart shows, for screen readers.
    pub label: AttrValue,
    /// What is drawn.
    pub chart: LineChart,
    /// What stands below while no band is read.
    pub caption: AttrValue,
    /// Band under the cursor.
    pub cursor: Option<usize>,
    /// The cursor was moved or taken away.
    pub on_cursor: Callback<Option<usize>>,
    /// The left and the right edge of the plot, for what is drawn below it.
    #[prop_or_default]
    pub on_edges: Callback<(f64, f64)>,
}

/// Band at which the cursor appears when a key asks for it: 250 Hz.
const MIDDLE: usize = 10;
/// Bands of an octave.
const OCTAVE: isize = 3;
/// Canvas pixels to a CSS pixel on paper.
const PAPER: f64 = 3.0;

/// The colours of the theme; those of the system as the element `canvas` would have them.
fn palette(theme: Theme, canvas: &HtmlCanvasElement) -> Palette {
    match theme {
        Theme::Light => Palette::LIGHT,
        Theme::Dark => Palette::DARK,
        Theme::Forced => {
            let of_system = |name: &str| {
                canvas.style().set_property("color", name).ok()?;
                let color = window().get_computed_style(canvas).ok()??.get_property_value("color").ok()?;
                parse_rgb(&color)
            };
            let colors = ["Canvas", "CanvasText", "LinkText", "GrayText"].map(of_system);
            // The style is its own again; where that fails it has no effect on a canvas.
            let _ = canvas.style().remove_property("color");
            match colors {
                [Some(ground), Some(ink), Some(link), Some(quiet)] => Palette::of_system([ground, ink, link, quiet]),
                _ => Palette::LIGHT,
            }
        }
    }
}

/// What is drawn.
struct Drawing {
    chart: LineChart,
    layout: Rc<Option<Layout>>,
    canvas: NodeRef,
    size: Size,
}

impl Drawing {
    /// Draws, and tells the console what the canvas refuses.
    fn draw(&self, Screen { theme, scale }: Screen, cursor: Option<usize>) {
        let (Some(canvas), Some(layout)) = (self.canvas.cast::<HtmlCanvasElement>(), &*self.layout) else { return };
        let pen = Pen::new(&canvas, self.size, scale, palette(theme, &canvas));
        if let Err(error) = pen.and_then(|mut pen| self.chart.draw(layout, &mut pen, cursor)) {
            web_sys::console::error_1(&error.to_string().into());
        }
    }
}

/// Where the band goes when a key is pressed; `None` for keys that do not move it.
fn moved(key: &str, cursor: Option<usize>) -> Option<usize> {
    let last = BAND_COUNT - 1;
    let step = match key {
        "ArrowRight" | "ArrowUp" => 1,
        "ArrowLeft" | "ArrowDown" => -1,
        "PageUp" => OCTAVE,
        "PageDown" => -OCTAVE,
        "Home" => return Some(0),
        "End" => return Some(last),
        _ => return None,
    };
    Some(cursor.map_or(MIDDLE, |band| band.saturating_add_signed(step).min(last)))
}

/// The chart.
#[component]
pub fn LineChartView(props: &LineChartProps) -> Html {
    let frame = use_node_ref();
    let canvas = use_node_ref();
    let size = use_size(&frame, true);
    let screen = use_screen();
    let in_sight = use_in_sight(&frame);
    let layout = use_memo((props.chart.clone(), size), |(chart, size)| {
        size.map(|size| Layout::new(chart, size, &|words| text_width(words, size.text)))
    });
    let plot = layout.as_ref().as_ref().map(|layout| layout.plot);
    {
        let (canvas, on_edges) = (canvas.clone(), props.on_edges.clone());
        use_effect_with(
            (props.chart.clone(), size, screen, props.cursor, in_sight),
            move |(chart, size, screen, cursor, in_sight)| {
                let (screen, cursor, in_sight) = (*screen, *cursor, *in_sight);
                let keep = size.map(|size| {
                    let drawing = Rc::new(Drawing { chart: chart.clone(), layout, canvas, size });
                    if let Some(plot) = plot {
                        on_edges.emit((plot.left, plot.right));
                    }
                    // Paper is light, and printing does not wait for the next frame.
                    let paper = Screen { theme: Theme::Light, scale: PAPER };
                    let listeners =
                        [("beforeprint", paper, None), ("afterprint", screen, cursor)].map(|(event, screen, cursor)| {
                            let drawing = Rc::clone(&drawing);
                            EventListener::new(&window(), event, move |_| drawing.draw(screen, cursor))
                        });
                    // However often a slider reports, one drawing for each frame: a new wish drops the one that waits.
                    // Out of sight it can wait until it is not.
                    (in_sight.then(|| request_animation_frame(move |_| drawing.draw(screen, cursor))), listeners)
                });
                move || drop(keep)
            },
        );
    }

    // Where the cursor was before a finger came down: if the finger scrolls the page, it has read nothing.
    let before = use_mut_ref(|| None::<usize>);
    let follow = {
        let (frame, on_cursor) = (frame.clone(), props.on_cursor.clone());
        Callback::from(move |event: PointerEvent| {
            if let (Some(plot), Some(element)) = (plot, frame.cast::<Element>()) {
                let x = f64::from(event.client_x()) - element.get_bounding_client_rect().left();
                on_cursor.emit(Some(plot.band_at(x)));
            }
        })
    };
    let touch = {
        let (follow, before, cursor) = (follow.clone(), Rc::clone(&before), props.cursor);
        Callback::from(move |event: PointerEvent| {
            *before.borrow_mut() = cursor;
            follow.emit(event);
        })
    };
    let cancel = props.on_cursor.reform(move |_: PointerEvent| *before.borrow());
    let leave = {
        let on_cursor = props.on_cursor.clone();
        Callback::from(move |event: PointerEvent| {
            // A finger leaves whenever it is lifted; what it has pointed at stays.
            if event.pointer_type() != "touch" {
                on_cursor.emit(None);
            }
        })
    };
    let onkeydown = {
        let (on_cursor, cursor) = (props.on_cursor.clone(), props.cursor);
        Callback::from(move |event: KeyboardEvent| {
            if event.ctrl_key() || event.alt_key() || event.meta_key() {
                return;
            }
            let key = event.key();
            let moved = moved(&key, cursor);
            if moved.is_some() || key == "Escape" {
                event.prevent_default();
                on_cursor.emit(moved);
            }
        })
    };
    let band = props.cursor.unwrap_or(MIDDLE);
    let reading = props.chart.reading(band);
    // As many rows as the longest of both needs, so that nothing below moves when the cursor comes; a tenth more, since lines are
    // not filled to their ends.
    let rows = size.map_or(1.0, |size| {
        let longest = [&*reading, &*props.caption].map(|words| text_width(words, size.text)).into_iter().fold(0.0, f64::max);
        (1.1 * longest / size.width).ceil().max(1.0)
    });
    // Whole pixels of the screen, else the browser stretches the picture by a trifle and blurs it.
    let style = size.map_or_else(String::new, |size| {
        let whole = |length: f64| (length * screen.scale).round() / screen.scale;
        format!(";width:{}px;height:{}px", whole(size.width), whole(size.height))
    });

    html! {
        <>
            <div class="chart" ref={frame} tabindex="0" role="slider" aria-label={props.label.clone()} aria-valuemin="0"
                aria-valuemax={(BAND_COUNT - 1).to_string()} aria-valuenow={band.to_string()} aria-valuetext={reading.clone()}
                onpointerdown={touch} onpointermove={follow} onpointercancel={cancel} onpointerleave={leave} {onkeydown}>
                <canvas id={props.id.clone()} ref={canvas} ~style={format!("{OUT_OF_FLOW}{style}")} />
                if let (Some(plot), Some(_)) = (plot, props.cursor) {
                    <div class="cursor" ~style={format!("left:{:.1}px;top:{:.1}px;height:{:.1}px", plot.x(band), plot.top, plot.bottom - plot.top)} />
                }
            </div>
            <p class={classes!("reading", props.cursor.map(|_| "at-band"))} id={format!("{}-reading", props.id)}
                ~style={format!("--rows:{rows}")}>
                if props.cursor.is_some() { { reading } } else { { props.caption.clone() } }
            </p>
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_move_by_a_band_or_an_octave_and_stop_at_the_ends() {
        assert_eq!(moved("ArrowLeft", None), Some(MIDDLE));
        assert_eq!(moved("ArrowRight", Some(10)), Some(11));
        assert_eq!(moved("ArrowDown", Some(0)), Some(0));
        assert_eq!(moved("PageUp", Some(10)), Some(13));
        assert_eq!(moved("PageDown", Some(1)), Some(0));
        assert_eq!(moved("PageUp", Some(25)), Some(BAND_COUNT - 1));
        assert_eq!((moved("Home", Some(9)), moved("End", None)), (Some(0), Some(BAND_COUNT - 1)));
        assert_eq!((moved("Tab", Some(9)), moved("Enter", None)), (None, None));
    }
}
