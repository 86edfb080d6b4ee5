//! The box cut open as a drawing: to scale, hatched by material, each way out an arrow as wide as its share of the sound power.

use hushwright::design::Design;
use hushwright::evaluate::{Path, PathKey, Report};
use yew::prelude::*;

use super::hatches::fill;
use crate::charts::arrows::{Arrow, Direction, REACH, WHOLE, Way, arrows};
use crate::charts::cut::{Cut, cut};
use crate::charts::fittings::{Fitting, Rectangle, Shape, feet_height, fittings, front};
use crate::charts::parts::Part;
use crate::components::{OUT_OF_FLOW, Size};
use crate::explanations::{Told, Topic, of_result};
use crate::paths;
use crate::quantity::{Units, whole};
use crate::readings::frequency;
use crate::words::capital;

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
/// Paper narrower than so many sizes of the text has no room for the names of the parts.
const NAMES_FROM: f64 = 36.0;
/// Letters of the longest name of a way out with its share.
const ARROW_LETTERS: f64 = 17.0;
/// Length in px of the bar that tells the scale of the arrows: half of the whole.
const SCALE_SHARE: f64 = 0.5;

/// Something in the drawing that can be pointed at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// A part of the box.
    Part(Part),
    /// A way out.
    Way(PathKey),
}

/// What can be pointed at, with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Pointed {
    /// What it is.
    pub spot: Spot,
    /// Its name, with its thickness or share.
    pub name: String,
    /// What it is and does.
    pub topic: Topic,
}

/// What a drawing is made from.
pub struct Drawing<'a> {
    design: &'a Design,
    report: &'a Report,
    units: Units,
    /// The band whose shares the arrows show; none: of all that is heard.
    band: Option<usize>,
    cut: Cut,
    fittings: Vec<Fitting>,
}

/// Where the drawing lies on the paper.
#[derive(Clone, Copy)]
struct Paper {
    scale: f64,
    centre: (f64, f64),
}

/// A name beside the drawing: its part, the point that it leads to in mm, its words, a thickness.
type Name = (Part, (f64, f64), String, String);

impl Paper {
    /// Paper for a box that stands `below` mm over the floor; `margins` are kept free on the left, above, on the right, below.
    fn new(cut: &Cut, below: f64, Size { width, height, .. }: Size, [left, top, right, bottom]: [f64; 4]) -> Self {
        let (free_width, free_height) = (width - left - right, height - top - bottom);
        let scale = (free_width / cut.outside.0).min(free_height / (cut.outside.1 + below)).max(0.01);
        let centre_x = width - right - 0.5 * scale * cut.outside.0;
        let spare = 0.5 * (free_width - scale * cut.outside.0);
        Self { scale, centre: (centre_x - spare, top + 0.5 * (free_height - scale * below)) }
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

impl<'a> Drawing<'a> {
    /// The drawing of `design`, which does what `report` says.
    pub fn new(design: &'a Design, report: &'a Report, units: Units, band: Option<usize>) -> Self {
        let cut = cut(design);
        let fittings = fittings(design, &cut);
        Self { design, report, units, band, cut, fittings }
    }

    /// All that can be pointed at: the parts from the inside out, what is fitted, the ways out.
    pub fn pointed(&self) -> Vec<Pointed> {
        let part = |part: Part, name: &str, thickness_mm: Option<f64>| {
            let thickness = thickness_mm.map(|mm| format!(" {} {}", self.units.thickness(mm), self.units.length_unit()));
            let name = format!("{name}{}", thickness.unwrap_or_default());
            Pointed { spot: Spot::Part(part), name, topic: part.topic() }
        };
        let rings = self.cut.rings.iter().map(|ring| part(ring.part, &ring.name, Some(ring.thickness_mm)));
        let fitted = self.fittings.iter().map(|fitting| part(fitting.part, &fitting.name, fitting.thickness_mm));
        let ways = self.report.paths.iter().map(|path| Pointed {
            spot: Spot::Way(path.key),
            name: capital(&self.way_name(path.key)),
            topic: of_result(told_of_way(path.key)),
        });
        rings.chain(fitted).chain(ways).collect()
    }

    /// A way out and its share, as its arrow is named.
    fn way_name(&self, key: PathKey) -> String {
        let place = self.report.paths.iter().position(|path| path.key == key);
        let share = place.map(|place| paths::shown_shares(self.report, self.band).swap_remove(place)).unwrap_or_default();
        format!("{} {share}\u{a0}%", paths::name(key))
    }

    /// What the arrows are of.
    pub fn shares_of(&self) -> String {
        self.band.map_or_else(
            || "of all that is heard".to_owned(),
            |band| format!("at {}", frequency(hushwright::bands::NOMINAL_HZ[band])),
        )
    }

    /// The drawing in words.
    pub fn described(&self) -> String {
        let unit = self.units.length_unit();
        let parts: Vec<String> = self
            .cut
            .rings
            .iter()
            .map(|ring| format!("{} {} {unit}", ring.name, self.units.thickness(ring.thickness_mm)))
            .collect();
        let fitted: Vec<&str> = self.fittings.iter().map(|fitting| fitting.name.as_str()).collect();
        let ways: Vec<String> = self.report.paths.iter().map(|path| self.way_name(path.key)).collect();
        format!(
            "From the inside out: {}. Fitted: {}. Outside {} {unit}. Ways out, {}: {}.",
            parts.join(", "),
            fitted.join("; "),
            self.units.size(self.report.outside_m),
            self.shares_of(),
            ways.join(", ")
        )
    }

    /// The names of all parts, as many as can be read beside the drawing, from the highest to the lowest.
    fn names(&self, size: Size) -> Vec<Name> {
        let count = self.cut.rings.len();
        let room = ((size.height - 8.0) / (LEAST_NAME_GAP * size.text)) as usize;
        // The dots of the parts that go round lie one below the other in the end on the right.
        let lowest = self.cut.rings.first().map_or(0.0, |ring| ring.inside.1);
        let step = 0.72 * lowest / count.max(1) as f64;
        let mut names = Vec::new();
        let mut add = |part: Part, at: (f64, f64), name: &str, thickness_mm: Option<f64>| {
            let place = names.partition_point(|(_, other, ..): &Name| other.1 <= at.1);
            let thickness = thickness_mm.map(|mm| self.units.thickness(mm)).unwrap_or_default();
            names.insert(place, (part, at, name.to_owned(), thickness));
        };
        for (index, ring) in self.cut.rings.iter().enumerate() {
            let y = (index as f64 - 0.5 * (count as f64 - 1.0)) * step;
            add(ring.part, (0.25 * (ring.inside.0 + ring.outside.0), y), &ring.name, Some(ring.thickness_mm));
        }
        for fitting in self.fittings.iter().take(room.saturating_sub(count)) {
            add(fitting.part, fitting.at, &fitting.name, fitting.thickness_mm);
        }
        names
    }

    /// The drawing on paper of this size; `with_dimensions` says whether its sizes are written to it, `chosen` is what is pointed at.
    pub fn view(&self, size: Size, with_dimensions: bool, chosen: Option<Spot>, on: &Reactions) -> Html {
        let named = if size.width > NAMES_FROM * size.text { self.names(size) } else { Vec::new() };
        let names_width = if named.is_empty() { 0.33 * LETTER * size.text * ARROW_LETTERS } else { names_width(&named, size) };
        let below = feet_height(&self.design.feet);
        let dimension = if with_dimensions { DIMENSION * size.text } else { 0.0 };
        let aside = if self.ways().iter().any(|way| way.direction == Direction::Left) {
            REACH + LETTER * size.text * ARROW_LETTERS
        } else {
            0.0
        };
        let margins = [dimension + aside, REACH + 1.5 * size.text, names_width, dimension + FLOOR + 6.0];
        let paper = Paper::new(&self.cut, below, size, margins);
        let rings = self.cut.rings.iter().enumerate().map(|(index, ring)| {
            let d = format!("{}{}", paper.path(ring.outside), paper.path(ring.inside));
            let spot = Spot::Part(ring.part);
            // Neighbours are hatched in opposite directions, so that two sheets of one material stay two.
            html! {
                <path class={classes!("part", ring.hatch.key(), (chosen == Some(spot)).then_some("chosen"))} {d}
                    fill={fill(ring.hatch, index % 2 == 1)} fill-rule="evenodd" onpointerenter={on.point(spot)} onclick={on.go(spot)} />
            }
        });
        let [left, top, right, bottom] = paper.rectangle(self.cut.clear);
        let inside = format!("{} dBA", whole(self.report.stations.inside.dba));
        let fitted = self.fittings.iter().map(|fitting| {
            let spot = Spot::Part(fitting.part);
            html! {
                <g class={classes!("fitting", (chosen == Some(spot)).then_some("chosen"))} onpointerenter={on.point(spot)} onclick={on.go(spot)}>
                    { fitted(paper, fitting) }
                </g>
            }
        });
        html! {
            <svg width={size.width.to_string()} height={size.height.to_string()} viewBox={format!("0 0 {} {}", size.width, size.height)}
                aria-hidden="true" ~style={OUT_OF_FLOW}>
                <title>{ "Upright cut along the length of the box, to scale" }</title>
                <desc>{ self.described() }</desc>
                { for rings }
                <rect class="clear" x={format!("{left:.1}")} y={format!("{top:.1}")} width={format!("{:.1}", right - left)}
                    height={format!("{:.1}", bottom - top)} />
                { for fitted }
                if with_dimensions { { self.dimensions(paper, below, aside) } }
                { names(paper, &self.cut, &named, size, names_width, (chosen, on)) }
                { source(paper, self.design, &self.cut, (right - left, bottom - top), &inside) }
                { self.arrows(paper, size, chosen, on) }
                { scale(paper, &self.cut, size) }
            </svg>
        }
    }

    /// The ways out, where each begins in mm.
    fn ways(&self) -> Vec<Way> {
        let [outer_inside, outside] = *self.cut.shells.last().unwrap_or(&[self.cut.clear; 2]);
        let inner = self.cut.shells.first().map_or(self.cut.clear, |shell| shell[0]);
        let at =
            |wanted: fn(Part) -> bool| self.fittings.iter().rev().find(|fitting| wanted(fitting.part)).map(|fitting| fitting.at);
        let place = |path: &Path| {
            let (from, direction) = match path.key {
                PathKey::Walls => ((-0.12 * outside.0, -0.5 * self.cut.clear.1), Direction::Up),
                PathKey::Leaks => {
                    let x = at(|part| matches!(part, Part::Lid(_))).map_or(0.5 * outside.0, |at| at.0);
                    ((x.max(0.34 * outside.0), -0.5 * outer_inside.1), Direction::Up)
                }
                PathKey::Holes => {
                    let y = at(|part| matches!(part, Part::Holes(_))).map_or(0.0, |at| at.1);
                    ((-0.5 * inner.0, y), Direction::Left)
                }
                PathKey::Vents => {
                    let y = at(|part| part == Part::Vents).map_or(0.0, |at| at.1);
                    ((-0.5 * inner.0, y), Direction::Left)
                }
                PathKey::Suspension => {
                    let (x, y) = at(|part| part == Part::Suspension).unwrap_or_default();
                    ((-x.abs(), y), Direction::Left)
                }
                PathKey::Motion => ((-0.5 * outside.0, -0.1 * outside.1), Direction::Left),
            };
            Way { key: path.key, share: self.band.map_or(path.share_dba, |band| path.share[band]), from, direction }
        };
        self.report.paths.iter().map(place).collect()
    }

    fn arrows(&self, paper: Paper, size: Size, chosen: Option<Spot>, on: &Reactions) -> Html {
        let [left, top, _, bottom] = paper.rectangle(self.cut.outside);
        let ways: Vec<Way> = self.ways().into_iter().map(|way| Way { from: paper.point(way.from), ..way }).collect();
        let name_width = LETTER * size.text * ARROW_LETTERS;
        let weak = self.report.limiting.path;
        let one = |arrow: Arrow| {
            let spot = Spot::Way(arrow.key);
            let points = arrow.points.map(|(x, y)| format!("{x:.1},{y:.1}")).join(" ");
            let (x, y) = arrow.name_at;
            let anchor = if arrow.direction == Direction::Up { "middle" } else { "end" };
            let is_weak = arrow.key == weak && self.band.is_none();
            let class = classes!(
                "arrow",
                arrow.is_thin.then_some("thin"),
                is_weak.then_some("weak"),
                (chosen == Some(spot)).then_some("chosen")
            );
            html! {
                <g {class} onpointerenter={on.point(spot)} onclick={on.go(spot)}>
                    <polygon {points} />
                    <text x={format!("{x:.1}")} y={format!("{y:.1}")} text-anchor={anchor}>
                        { if is_weak { "most: " } else { "" } }{ self.way_name(arrow.key) }
                    </text>
                </g>
            }
        };
        html! { <>{ for arrows(&ways, [left, top, bottom, size.width], size.text, name_width).into_iter().map(one) }</> }
    }

    /// Length below and height on the left, the inside within; the height beyond what `aside` px hold.
    fn dimensions(&self, paper: Paper, feet: f64, aside: f64) -> Html {
        let [left, top, right, bottom] = paper.rectangle(self.cut.outside);
        let below = bottom + paper.scale * feet + FLOOR + 10.0;
        let beside = left - aside - 4.0;
        let unit = self.units.length_unit();
        let [length, _, height] = self.report.outside_m.map(|metres| format!("{} {unit}", self.units.length(metres)));
        let shell = self.cut.shells.first().map_or(self.cut.clear, |shell| shell[0]);
        let [inner_left, inner_top, inner_right, inner_bottom] = paper.rectangle(shell);
        let [inner_length, _, inner_height] = self.report.inside_m.map(|metres| self.units.length(metres));
        let (within_y, within_x) =
            (inner_bottom - 0.14 * (inner_bottom - inner_top), inner_right - 0.1 * (inner_right - inner_left));
        html! {
            <g class="dimension">
                { across([left, right], below, bottom, &length) }
                { upright([top, bottom], beside, left, &height) }
                { across([inner_left, inner_right], within_y, within_y, &inner_length) }
                { upright([inner_top, inner_bottom], within_x, within_x, &inner_height) }
            </g>
        }
    }
}

/// What the drawing does when it is pointed at or chosen from.
pub struct Reactions {
    /// Something is pointed at.
    pub on_point: Callback<Spot>,
    /// Something is gone to.
    pub on_go: Callback<Spot>,
}

impl Reactions {
    fn point(&self, spot: Spot) -> Callback<PointerEvent> {
        self.on_point.reform(move |_: PointerEvent| spot)
    }

    fn go(&self, spot: Spot) -> Callback<MouseEvent> {
        self.on_go.reform(move |_: MouseEvent| spot)
    }
}

const fn told_of_way(key: PathKey) -> Told {
    match key {
        PathKey::Walls => Told::Walls,
        PathKey::Leaks => Told::Leaks,
        PathKey::Holes => Told::Holes,
        PathKey::Suspension => Told::Suspension,
        PathKey::Vents => Told::Vents,
        PathKey::Motion => Told::Motion,
    }
}

/// Room on the right for the names of the parts, by the longest; at most two thirds of the paper.
fn names_width(names: &[Name], size: Size) -> f64 {
    let letters = |(.., name, thickness): &Name| name.chars().count() + 2 + thickness.chars().count();
    let longest = names.iter().map(letters).max().unwrap_or(0);
    (LEADER + LETTER * size.text * longest as f64).min(size.width / 1.5)
}

/// What the widths of the arrows say: a bar of half the whole, in the lower corner on the left.
fn scale(paper: Paper, cut: &Cut, Size { height, text, .. }: Size) -> Html {
    let [left, ..] = paper.rectangle(cut.outside);
    let bar = WHOLE * SCALE_SHARE;
    let (x, y) = (left.clamp(2.0, 6.0), height - bar - 6.0);
    html! {
        <g class="scale">
            <rect x={format!("{x:.1}")} y={format!("{y:.1}")} width="7" height={format!("{bar:.1}")} />
            <text x={format!("{:.1}", x + 11.0)} y={format!("{:.1}", y + 0.5 * bar + 0.35 * text)}>{ "50\u{a0}%" }</text>
        </g>
    }
}

/// A dimension from left to right at height `y`, with lines up to what it measures at `from`.
fn across([left, right]: [f64; 2], y: f64, from: f64, words: &str) -> Html {
    let d = format!(
        "M{left:.1} {:.1}V{:.1}M{right:.1} {:.1}V{:.1}M{left:.1} {y:.1}H{right:.1}",
        from + 3.0,
        y + 3.0,
        from + 3.0,
        y + 3.0
    );
    let middle = 0.5 * (left + right);
    html! {
        <>
            <path {d} /><path class="tick" d={[tick(left, y), tick(right, y)].concat()} />
            <text x={format!("{middle:.1}")} y={format!("{:.1}", y + 4.0)} text-anchor="middle">{ words }</text>
        </>
    }
}

/// The same upright at `x`.
fn upright([top, bottom]: [f64; 2], x: f64, from: f64, words: &str) -> Html {
    let d = format!(
        "M{:.1} {top:.1}H{:.1}M{:.1} {bottom:.1}H{:.1}M{x:.1} {top:.1}V{bottom:.1}",
        from - 3.0,
        x - 3.0,
        from - 3.0,
        x - 3.0
    );
    let middle = 0.5 * (top + bottom);
    html! {
        <>
            <path {d} /><path class="tick" d={[tick(x, top), tick(x, bottom)].concat()} />
            <text transform={format!("translate({:.1} {middle:.1}) rotate(-90)", x + 4.0)} text-anchor="middle">{ words }</text>
        </>
    }
}

/// A short oblique stroke, which ends a dimension as on a building drawing.
fn tick(x: f64, y: f64) -> String {
    format!("M{:.1} {:.1}L{:.1} {:.1}", x - 3.0, y + 3.0, x + 3.0, y - 3.0)
}

/// What is fitted to the box.
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
        Shape::Block(place, hatch) => rectangle(*place, "part", Some(fill(*hatch, true))),
        Shape::Blank(place) => rectangle(*place, "blank", None),
        Shape::Solid(place) => rectangle(*place, "solid", None),
        Shape::Line(points) => html! { <>{ line(points, "edge") }{ line(points, "stroke") }</> },
        Shape::Hidden(points) => line(points, "hidden"),
        Shape::Seal(point) => {
            let (x, y) = paper.point(*point);
            html! { <circle class="solid" cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="1.7" /> }
        }
    });
    html! { <>{ for shapes }</> }
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

/// The names of the parts on the right, each with a line to a dot in its part.
fn names(
    paper: Paper,
    cut: &Cut,
    names: &[Name],
    Size { width, height, text }: Size,
    names_width: f64,
    (chosen, on): (Option<Spot>, &Reactions),
) -> Html {
    let count = names.len() as f64;
    let gap = (NAME_GAP * text).min((height - 8.0) / count.max(1.0));
    let [_, top, edge, _] = paper.rectangle(cut.outside);
    // Below the names of the ways that go up, where there is room.
    let half = 0.5 * count * gap;
    let middle = paper.centre.1.max(top - REACH + text + half).min(height - half);
    let column = (edge + LEADER).min(width - names_width + LEADER);
    let name = |(index, (part, at, name, thickness)): (usize, &Name)| {
        let (x, y) = paper.point(*at);
        let name_y = middle + (index as f64 - 0.5 * (count - 1.0)) * gap;
        let d = format!("M{x:.1} {y:.1}H{:.1}L{:.1} {name_y:.1}H{:.1}", edge + 6.0, column - 8.0, column - 3.0);
        let spot = Spot::Part(*part);
        html! {
            <g class={(chosen == Some(spot)).then_some("chosen")} onpointerenter={on.point(spot)} onclick={on.go(spot)}>
                <path class="halo" d={d.clone()} /><path {d} /><circle cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="2" />
                <text x={format!("{column:.1}")} y={format!("{:.1}", name_y + 4.0)}>
                    { name }<tspan class="thickness">{ format!("  {thickness}") }</tspan>
                </text>
            </g>
        }
    };
    html! { <g class="names">{ for names.iter().enumerate().map(name) }</g> }
}
