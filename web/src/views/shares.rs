//! The share of each path in what gets out, band by band, under the levels.

use std::fmt::Write;
use std::rc::Rc;

use hushwright::bands::BAND_COUNT;
use hushwright::evaluate::{Path, PathKey, Report};
use yew::prelude::*;

use super::levels::Cursor;
use crate::charts::projection::Plot;
use crate::components::{OUT_OF_FLOW, use_size};
use crate::paths;

/// Properties of [`Shares`].
#[derive(Clone, PartialEq, Properties)]
pub struct SharesProps {
    /// What is shown.
    pub report: Rc<Report>,
    /// The cursor that all charts share.
    pub cursor: Cursor,
    /// Left and right edge of the plot above, once it is there.
    pub edges: Option<(f64, f64)>,
}

/// Least part of the height that is drawn.
const LEAST: f64 = 0.004;

/// Columns on the bands of the chart above: walls at the bottom, every path with its own hatching.
#[component]
pub fn Shares(props: &SharesProps) -> Html {
    let SharesProps { report, cursor, edges } = props;
    let frame = use_node_ref();
    let size = use_size(&frame, true);
    let drawing = size.zip(*edges).map(|(size, (left, right))| {
        let plot = Plot { left, right, top: 0.0, bottom: size.height, low_db: 0.0, high_db: 100.0 };
        let step = (plot.right - plot.left) / (BAND_COUNT - 1) as f64;
        let width = (0.8 * step).max(1.0);
        // One outline for each way out: an element for each piece would be more than a hundred to change with every step.
        let mut tops = [size.height; BAND_COUNT];
        let columns = report.paths.iter().map(|path| {
            let mut d = String::new();
            for (band, top) in tops.iter_mut().enumerate() {
                let height = path.share[band] * size.height;
                *top -= height;
                if path.share[band] > LEAST {
                    let x = plot.x(band) - 0.5 * width;
                    // Writing to a text cannot fail.
                    let _ = write!(d, "M{x:.1} {top:.1}h{width:.1}v{height:.1}h-{width:.1}z");
                }
            }
            html! { <path class="columns-of" {d} fill={fill(path.key)} /> }
        });
        let columns: Vec<Html> = columns.collect();
        let (left, middle) = (plot.left - 5.0, 0.35 * size.text);
        html! {
            <svg width={size.width.to_string()} height={size.height.to_string()} ~style={OUT_OF_FLOW} aria-hidden="true">
                <defs>{ for PathKey::ALL.into_iter().map(pattern) }</defs>
                <text x={left.to_string()} y={(2.0 * middle).to_string()} text-anchor="end">{ "100" }</text>
                <text x={left.to_string()} y={(size.height - 1.0).to_string()} text-anchor="end">{ "0" }</text>
                { for columns }
                if let Some(band) = cursor.band {
                    <path class="mark" d={format!("M{:.1} 0V{:.1}", plot.x(band), size.height)} />
                }
            </svg>
        }
    });
    let shown = paths::shown_shares(report, cursor.band);
    let key = |(path, share): (&Path, String)| {
        html! {
            <li><svg class="swatch" aria-hidden="true"><rect width="100%" height="100%" fill={fill(path.key)} /></svg>
                { paths::name(path.key) }{ " " }<b>{ share }</b></li>
        }
    };
    // As short with a band as without, so that nothing moves when the cursor comes; which band it is stands right above.
    let of = if cursor.band.is_some() { "% here" } else { "% of all" };
    html! {
        <div class="shares">
            <h3 id="shares-title">{ "Ways out" }<small>{ of }</small></h3>
            <ul class="key" aria-labelledby="shares-title">{ for report.paths.iter().zip(shown).map(key) }</ul>
            <div class="strip" ref={frame}>{ drawing }</div>
        </div>
    }
}

fn fill(key: PathKey) -> String {
    format!("url(#way-{})", key.key())
}

/// Hatchings that differ without colour.
fn pattern(key: PathKey) -> Html {
    let (size, d) = match key {
        PathKey::Walls => ("4", ""),
        PathKey::Leaks => ("5", "M-1 1L1 -1M0 5L5 0M4 6L6 4"),
        PathKey::Holes => ("5", "M1.5 2.5h2M2.5 1.5v2"),
        PathKey::Suspension => ("6", "M0 1.5L3 4.5L6 1.5"),
        PathKey::Vents => ("4", "M0 2H4"),
        PathKey::Motion => ("5", "M0 0L5 5M0 5L5 0"),
    };
    html! {
        <pattern id={format!("way-{}", key.key())} patternUnits="userSpaceOnUse" width={size} height={size} class={classes!("way", key.key())}>
            <rect width={size} height={size} />
            <path {d} />
        </pattern>
    }
}
