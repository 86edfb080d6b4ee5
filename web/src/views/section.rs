//! The section: the box cut open, to scale, hatched by material, with its overall dimensions.

use std::rc::Rc;

use hushwright::design::Design;
use hushwright::evaluate::Report;
use yew::prelude::*;

use crate::charts::cut::{Cut, Hatch, cut};
use crate::charts::fittings::{Fitting, Rectangle, Shape, feet_height, fittings, front};
use crate::components::{OUT_OF_FLOW, Size, use_size};
use crate::quantity::{Units, whole};

/// Properties of [`Section`].
#[derive(Clone, PartialEq, Properties)]
pub struct SectionProps {
    /// The design.
    pub design: Rc<Design>,
    /// What it does.
    pub report: Rc<Report>,
    /// Units shown.
    pub units: Units,
}

/// Room left of the drawing for the height, below for the length, in sizes of the text.
const DIMENSION: f64 = 2.2;
/// Width of a letter of a name, on average, in sizes of the text.
const LETTER: f64 = 0.57;
/// Length in px of the line from a part to its name.
const LEADER: f64 = 26.0;
/// Distance of two names.
const NAME_GAP: f64 = 1.33;
/// The least at which they can be read.
const LEAST_NAME_GAP: f64 = 1.08;
/// Room in px below the box for the hatching of the floor.
const FLOOR: f64 = 7.0;
/// Least width and height in px of what is cut and filled.
const LEAST_SOLID: f64 = 1.2;

/// Where the drawing lies on the paper.
#[derive(Clone, Copy)]
struct Paper {
    scale: f64,
    centre: (f64, f64),
}

impl Paper {
    /// Paper for a box that stands `below` mm over the floor.
    fn new(cut: &Cut, below: f64, Size { width, height, text }: Size, names: f64) -> Self {
        let dimension = DIMENSION * text;
        let (free_width, free_height) = (width - dimension - names, height - dimension - FLOOR - 8.0);
        let scale = (free_width / cut.outside.0).min(free_height / (cut.outside.1 + below)).max(0.01);
        let free_height = free_height - scale * below;
        // To the right, against the names; what is left over stays on the left.
        let centre_x = width - names - 0.5 * scale * cut.outside.0;
        Self { scale, centre: (centre_x.min(dimension + 0.5 * free_width), 6.0 + 0.5 * free_height) }
    }

    /// Left, top, right, bottom of a rectangle about the centre.
    fn rectangle(self, (length, height): (f64, f64)) -> [f64; 4] {
        let (x, y) = (0.5 * self.scale * length, 0.5 * self.scale * height);
        [self.centre.0 - x, self.centre.1 - y, self.centre.0 + x, self.centre.1 + y]
    }

    /// Where a point in mm from the middle of the box lies.
    fn point(self, (x, y): (f64, f64)) -> (f64, f64) {
        (self.centre.0 + self.scale * x, self.centre.1 + self.scale * y)
    }

    fn path(self, size: (f64, f64)) -> String {
        let [left, top, right, bottom] = self.rectangle(size);
        format!("M{left:.1} {top:.1}H{right:.1}V{bottom:.1}H{left:.1}Z")
    }
}

/// A name beside the drawing: the point that it leads to in mm, its words, a thickness.
type Name = ((f64, f64), String, String);

/// The names of all parts, as many as can be read beside the drawing, from the highest to the lowest.
fn names_of(cut: &Cut, fittings: &[Fitting], size: Size, units: Units) -> Vec<Name> {
    let count = cut.rings.len();
    let room = ((size.height - 8.0) / (LEAST_NAME_GAP * size.text)) as usize;
    // The dots of the parts that go round lie one below the other in the end on the right.
    let lowest = cut.rings.first().map_or(0.0, |ring| ring.inside.1);
    let step = 0.72 * lowest / count.max(1) as f64;
    let mut names = Vec::new();
    let mut add = |at: (f64, f64), name: &str, thickness_mm: Option<f64>| {
        let place = names.partition_point(|(other, ..): &Name| other.1 <= at.1);
        names.insert(place, (at, name.to_owned(), thickness_mm.map(|mm| units.thickness(mm)).unwrap_or_default()));
    };
    for (index, ring) in cut.rings.iter().enumerate() {
        let y = (index as f64 - 0.5 * (count as f64 - 1.0)) * step;
        add((0.25 * (ring.inside.0 + ring.outside.0), y), &ring.name, Some(ring.thickness_mm));
    }
    for fitting in fittings.iter().take(room.saturating_sub(count)) {
        add(fitting.at, &fitting.name, fitting.thickness_mm);
    }
    names
}

/// Room on the right for the names of the parts, by the longest; at most two thirds of the paper.
fn names_width(names: &[Name], size: Size) -> f64 {
    let letters = |(_, name, thickness): &Name| name.chars().count() + 2 + thickness.chars().count();
    let longest = names.iter().map(letters).max().unwrap_or(0);
    (LEADER + LETTER * size.text * longest as f64).min(size.width / 1.5)
}

/// The section of the box.
#[component]
pub fn Section(props: &SectionProps) -> Html {
    let frame = use_node_ref();
    let size = use_size(&frame, true);
    let SectionProps { design, report, units } = props;
    let units = *units;
    let cut = cut(design);
    let fittings = fittings(design, &cut);
    let drawing = size.map(|size| {
        let named = names_of(&cut, &fittings, size, units);
        let names_width = names_width(&named, size);
        let below = feet_height(&design.feet);
        let paper = Paper::new(&cut, below, size, names_width);
        let rings = cut.rings.iter().enumerate().map(|(index, ring)| {
            let d = format!("{}{}", paper.path(ring.outside), paper.path(ring.inside));
            // Neighbours are hatched in opposite directions, so that two sheets of one material stay two.
            let fill = match ring.hatch {
                Hatch::Air => "none".to_owned(),
                hatch => format!("url(#hatch-{}-{})", hatch.key(), index % 2),
            };
            html! { <path class={classes!("part", ring.hatch.key())} {d} {fill} fill-rule="evenodd" /> }
        });
        let [left, top, right, bottom] = paper.rectangle(cut.clear);
        let inside = format!("{} dBA", whole(report.stations.inside.dba));
        html! {
            <svg width={size.width.to_string()} height={size.height.to_string()} viewBox={format!("0 0 {} {}", size.width, size.height)} role="img" style={OUT_OF_FLOW}
                aria-labelledby="section-svg-title section-svg-desc">
                <title id="section-svg-title">{ "Upright cut along the length of the box, to scale" }</title>
                <desc id="section-svg-desc">{ described(&cut, &fittings, units, report.outside_m) }</desc>
                { hatches() }
                { for rings }
                <rect class="clear" x={left.to_string()} y={top.to_string()} width={(right - left).to_string()}
                    height={(bottom - top).to_string()} />
                { for fittings.iter().map(|fitting| fitted(paper, fitting)) }
                { dimensions(paper, &cut, below, report.outside_m, units) }
                { names(paper, &cut, &named, size, names_width) }
                { source(paper, design, &cut, (right - left, bottom - top), &inside) }
            </svg>
        }
    });
    html! {
        <section class="cut" aria-labelledby="section-title">
            <h2 id="section-title">{ "Section" }<small>{ "cut along the length, to scale" }</small></h2>
            <div class="paper" ref={frame}>{ drawing }</div>
        </section>
    }
}

/// The drawing in words.
fn described(cut: &Cut, fittings: &[Fitting], units: Units, outside_m: [f64; 3]) -> String {
    let unit = units.length_unit();
    let parts: Vec<String> =
        cut.rings.iter().map(|ring| format!("{} {} {unit}", ring.name, units.thickness(ring.thickness_mm))).collect();
    let fitted: Vec<&str> = fittings.iter().map(|fitting| fitting.name.as_str()).collect();
    format!("From the inside out: {}. Fitted: {}. Outside {} {unit}.", parts.join(", "), fitted.join("; "), units.size(outside_m))
}

/// The patterns, each in two directions.
fn hatches() -> Html {
    let pattern = |hatch: Hatch, turned: usize, size: f64, marks: Html| {
        let turn = format!("rotate({})", if turned == 1 { 90 } else { 0 });
        html! {
            <pattern id={format!("hatch-{}-{turned}", hatch.key())} patternUnits="userSpaceOnUse" width={size.to_string()}
                height={size.to_string()} patternTransform={turn} class={classes!("hatch", hatch.key())}>
                <rect class="tint" width={size.to_string()} height={size.to_string()} />
                { marks }
            </pattern>
        }
    };
    let stroke = |d: &'static str| html! { <path {d} /> };
    let both = |hatch: Hatch, size: f64, marks: &dyn Fn() -> Html| {
        html! { <>{ pattern(hatch, 0, size, marks()) }{ pattern(hatch, 1, size, marks()) }</> }
    };
    let of = |hatch: Hatch| match hatch {
        Hatch::Veneer => both(hatch, 6.0, &|| stroke("M-1 1L1 -1M0 6L6 0M5 7L7 5")),
        Hatch::Chips => both(hatch, 9.0, &|| stroke("M1 2L4 1M6 4L8 6M2 7L4 6M5 8L6.5 7.6M6.5 1.5L8 1")),
        Hatch::Mineral => both(hatch, 7.0, &|| {
            html! { <><circle cx="1.5" cy="2" r=".75" /><circle cx="5" cy="5.4" r=".75" /><circle cx="5.4" cy="1.4" r=".45" /><circle cx="2" cy="5.6" r=".45" /></> }
        }),
        Hatch::Metal => both(hatch, 4.0, &|| stroke("M-1 1L1 -1M0 4L4 0M3 5L5 3M-1 2.4L2.4 -1M1.4 5L5 1.4")),
        Hatch::Clear => both(hatch, 12.0, &|| stroke("M2 7L7 2M4 8L8 4")),
        Hatch::Limp => both(hatch, 4.0, &|| stroke("M0 0L4 4M0 4L4 0")),
        Hatch::Porous => both(hatch, 14.0, &|| stroke("M0 4Q3.5 -1 7 4T14 4M0 11Q3.5 6 7 11T14 11")),
        Hatch::Plain => both(hatch, 10.0, &|| stroke("M-1 1L1 -1M0 10L10 0M9 11L11 9")),
        Hatch::Air => html! {},
    };
    html! { <defs>{ for Hatch::ALL.into_iter().map(of) }</defs> }
}

/// What is fitted to the box, with its name to point at.
fn fitted(paper: Paper, fitting: &Fitting) -> Html {
    let rectangle = |[left, top, right, bottom]: Rectangle, class: &'static str, fill: Option<String>| {
        let ((left, top), (right, bottom)) = (paper.point((left, top)), paper.point((right, bottom)));
        let solid = if class == "solid" { LEAST_SOLID } else { 0.0 };
        html! {
            <rect {class} x={format!("{left:.1}")} y={format!("{top:.1}")} width={format!("{:.1}", (right - left).max(solid))}
                height={format!("{:.1}", (bottom - top).max(solid))} {fill} />
        }
    };
    let line = |points: &[(f64, f64)], class: &'static str| {
        let points = points.iter().map(|point| paper.point(*point)).map(|(x, y)| format!("{x:.1},{y:.1}"));
        html! { <polyline {class} points={points.collect::<Vec<_>>().join(" ")} /> }
    };
    let shapes = fitting.shapes.iter().map(|shape| match shape {
        Shape::Block(place, hatch) => rectangle(*place, "part", Some(format!("url(#hatch-{}-1)", hatch.key()))),
        Shape::Blank(place) => rectangle(*place, "blank", None),
        Shape::Solid(place) => rectangle(*place, "solid", None),
        Shape::Line(points) => html! { <>{ line(points, "edge") }{ line(points, "stroke") }</> },
        Shape::Hidden(points) => line(points, "hidden"),
        Shape::Seal(point) => {
            let (x, y) = paper.point(*point);
            html! { <circle class="solid" cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="1.7" /> }
        }
    });
    html! { <g class="fitting"><title>{ fitting.name.clone() }</title>{ for shapes }</g> }
}

/// The source as a point from which waves go, or the driver's cone that sends them to the front; and the level inside.
fn source(paper: Paper, design: &Design, cut: &Cut, (width, height): (f64, f64), level: &str) -> Html {
    let (from, to) = front(design, cut.shells[0]);
    let cone = design.inner.baffle.is_some() && design.source.driver.is_some();
    let (middle, y) = paper.point((0.5 * (from.max(-0.5 * cut.clear.0) + to.min(0.5 * cut.clear.0)), 0.0));
    let x = if cone { paper.point((from, 0.0)).0 } else { middle };
    let room = (paper.scale * (to - from)).min(width).min(height);
    if room < 24.0 {
        return html! {};
    }
    let arcs = [0.16, 0.24, 0.32].map(|part| {
        let r = (part * room).min(60.0 * part);
        let (dx, dy) = (0.8 * r, 0.6 * r);
        let right = format!("M{:.1} {:.1}A{r:.1} {r:.1} 0 0 1 {:.1} {:.1}", x + dx, y - dy, x + dx, y + dy);
        let left = format!("M{:.1} {:.1}A{r:.1} {r:.1} 0 0 0 {:.1} {:.1}", x - dx, y - dy, x - dx, y + dy);
        html! { <path class="wave" d={if cone { right } else { right + &left }} /> }
    });
    // Beside the waves of a cone, below those of a point.
    let (text_x, text_y) = if cone { (middle + 8.0, y + 4.0) } else { (x, y + 0.5 * room.min(80.0)) };
    html! {
        <g class="source">
            if !cone { <circle cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="3" /> }
            { for arcs }
            if room > 90.0 && width > 80.0 {
                <text x={format!("{text_x:.1}")} y={format!("{text_y:.1}")} text-anchor="middle">{ level }</text>
            }
        </g>
    }
}

/// Length below and height on the left.
fn dimensions(paper: Paper, cut: &Cut, feet: f64, outside_m: [f64; 3], units: Units) -> Html {
    let [left, top, right, bottom] = paper.rectangle(cut.outside);
    let floor = bottom + paper.scale * feet;
    let below = floor + FLOOR + 10.0;
    let beside = left - 12.0;
    let lines = format!(
        "M{left:.1} {:.1}V{:.1}M{right:.1} {:.1}V{:.1}M{left:.1} {below:.1}H{right:.1}M{:.1} {top:.1}H{:.1}M{:.1} {bottom:.1}H{:.1}M{beside:.1} {top:.1}V{bottom:.1}",
        floor + FLOOR + 1.0,
        below + 3.0,
        floor + FLOOR + 1.0,
        below + 3.0,
        left - 3.0,
        beside - 3.0,
        left - 3.0,
        beside - 3.0
    );
    // Short oblique strokes end a dimension, as on a building drawing.
    let tick = |x: f64, y: f64| format!("M{:.1} {:.1}L{:.1} {:.1}", x - 3.0, y + 3.0, x + 3.0, y - 3.0);
    let ticks = [tick(left, below), tick(right, below), tick(beside, top), tick(beside, bottom)].concat();
    let (x, y) = paper.centre;
    let unit = units.length_unit();
    html! {
        <g class="dimension">
            <path d={lines} /><path class="tick" d={ticks} />
            <text x={format!("{x:.1}")} y={format!("{:.1}", below + 4.0)} text-anchor="middle">
                { format!("{} {unit}", units.length(outside_m[0])) }
            </text>
            <text transform={format!("translate({:.1} {y:.1}) rotate(-90)", beside + 4.0)} text-anchor="middle">
                { format!("{} {unit}", units.length(outside_m[2])) }
            </text>
        </g>
    }
}

/// The names of the parts on the right, each with a line to a dot in its part.
fn names(paper: Paper, cut: &Cut, names: &[Name], Size { width, height, text }: Size, names_width: f64) -> Html {
    let count = names.len() as f64;
    let gap = (NAME_GAP * text).min((height - 8.0) / count.max(1.0));
    let middle = paper.centre.1.max(0.5 * count * gap).min(height - 0.5 * count * gap);
    let [_, _, edge, _] = paper.rectangle(cut.outside);
    let column = (edge + LEADER).min(width - names_width + LEADER);
    let name = |(index, (at, name, thickness)): (usize, &Name)| {
        let (x, y) = paper.point(*at);
        let name_y = middle + (index as f64 - 0.5 * (count - 1.0)) * gap;
        let d = format!("M{x:.1} {y:.1}H{:.1}L{:.1} {name_y:.1}H{:.1}", edge + 6.0, column - 8.0, column - 3.0);
        html! {
            <g>
                <path class="halo" d={d.clone()} /><path {d} /><circle cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="2" />
                <text x={format!("{column:.1}")} y={format!("{:.1}", name_y + 4.0)}>
                    { name }<tspan class="thickness">{ format!("  {thickness}") }</tspan>
                </text>
            </g>
        }
    };
    html! { <g class="names">{ for names.iter().enumerate().map(name) }</g> }
}
