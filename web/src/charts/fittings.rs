//! What is fitted to the box, as the section shows it: baffle, braces, supports, lids, holes, vents, in millimetres from the
//! middle of the box, to the right and down.

use hushwright::design::{BracesPart, Design, HolesPart, LidPart, SupportPart};
use hushwright::enclosure::{BraceKind, LidFace, LidForm, SealKind, SupportKind};
use hushwright::material;

use super::cut::{Cut, Hatch};
use super::parts::Part;
use crate::fields::Shell;
use crate::words::{braces_gist, capital, counted, holes_gist, lid_gist, support_gist};

/// Left, top, right, bottom in mm.
pub type Rectangle = [f64; 4];

/// A stroke or area of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A part that is cut: outlined and hatched.
    Block(Rectangle, Hatch),
    /// An opening in what lies below.
    Blank(Rectangle),
    /// Something thin that is cut: filled.
    Solid(Rectangle),
    /// A line through points.
    Line(Vec<(f64, f64)>),
    /// A line through points behind the cut.
    Hidden(Vec<(f64, f64)>),
    /// A seal across a joint.
    Seal((f64, f64)),
}

/// One kind of thing fitted to the box.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitting {
    /// What it is.
    pub name: String,
    /// Which part of the box.
    pub part: Part,
    /// Its thickness in mm, where it is a board.
    pub thickness_mm: Option<f64>,
    /// The point that its name leads to.
    pub at: (f64, f64),
    /// How it is drawn.
    pub shapes: Vec<Shape>,
}

/// Inside and outside length and height of a shell in mm.
pub type ShellSize = [(f64, f64); 2];

impl Fitting {
    fn new(part: Part, name: String, at: (f64, f64), shapes: Vec<Shape>) -> Self {
        Self { name, part, thickness_mm: None, at, shapes }
    }
}

/// `count` places between `from` and `to`, the outer ones at the ends; one lies in the middle.
fn places(count: usize, from: f64, to: f64) -> impl Iterator<Item = f64> {
    let step = if count > 1 { (to - from) / (count - 1) as f64 } else { 0.0 };
    let first = if count > 1 { from } else { 0.5 * (from + to) };
    (0..count).map(move |index| first + step * index as f64)
}

/// All that is fitted to `design`, whose cut is `cut`, the most telling first.
pub fn fittings(design: &Design, cut: &Cut) -> Vec<Fitting> {
    let inner = cut.shells[0];
    let outer = design.outer.as_ref().zip(cut.shells.get(1).copied());
    let mut all = Vec::new();
    all.extend(baffle(design, inner));
    if let Some((_, outer)) = outer {
        all.push(suspension(&design.suspension, inner[1], outer[0]));
    }
    let mut lids = vec![lid(&design.inner.lid, Shell::Inner, inner)];
    let mut holes = vec![cable_holes(&design.inner.holes, Shell::Inner, inner, design.vents.is_some())];
    if let Some((shell, size)) = outer {
        lids.push(lid(&shell.lid, Shell::Outer, size));
        holes.push(cable_holes(&shell.holes, Shell::Outer, size, design.vents.is_some()));
    }
    all.extend(named_once(lids, [", both", "Inner lid", "Outer lid"]));
    all.extend(named_once(holes.into_iter().flatten().collect(), [" each", "Inner", "Outer"]));
    all.extend(design.inner.braces.as_ref().map(|part| braces(part, Shell::Inner, front(design, inner), inner[0].1)));
    if let Some((shell, size)) = outer {
        let length = 0.5 * size[0].0;
        all.extend(shell.braces.as_ref().map(|part| braces(part, Shell::Outer, (-length, length), size[0].1)));
    }
    all.extend(vents(design, cut));
    all.push(feet(&design.feet, cut.outside));
    all
}

/// Where the two boxes have the same, one name says so, else each says whose it is.
fn named_once(mut both: Vec<Fitting>, [each, inner_name, outer_name]: [&str; 3]) -> Vec<Fitting> {
    if let [inner, outer] = both.as_mut_slice() {
        if inner.name == outer.name {
            outer.name.push_str(each);
            let shapes = std::mem::take(&mut inner.shapes);
            outer.shapes.splice(0..0, shapes);
            both.remove(0);
        } else {
            for (fitting, name) in [(inner, inner_name), (outer, outer_name)] {
                fitting.name = format!("{name}: {}", fitting.name.to_ascii_lowercase().replacen(" lid", "", 1));
            }
        }
    }
    both
}

/// From where to where the chamber in front of the baffle goes.
pub fn front(design: &Design, inner: ShellSize) -> (f64, f64) {
    let half = 0.5 * inner[0].0;
    (-half + design.inner.baffle.as_ref().map_or(0.0, |baffle| baffle.rear_mm + baffle.thickness_mm), half)
}

/// The baffle, with the driver in it if there is one: the cone opens to the front.
fn baffle(design: &Design, inner: ShellSize) -> Option<Fitting> {
    let part = design.inner.baffle.as_ref()?;
    let (half, right) = (0.5 * inner[0].1, front(design, inner).0);
    let left = right - part.thickness_mm;
    let mut shapes = vec![Shape::Block([left, -half, right, half], Hatch::of_key(&part.sheet))];
    if let Some(driver) = &design.source.driver {
        let radius = (100.0 * driver.cone_area_cm2 / std::f64::consts::PI).sqrt().min(0.8 * half);
        let (cone, coil) = (0.5 * radius, 0.28 * radius);
        let depth = (right - left + cone).min(right + 0.5 * inner[0].0 - 0.6 * radius).max(right - left);
        let back = right - depth;
        shapes.push(Shape::Blank([left, -radius, right, radius]));
        shapes.push(Shape::Line(vec![
            (left, -radius),
            (right, -radius),
            (back, -coil),
            (back, coil),
            (right, radius),
            (left, radius),
        ]));
        let magnet = (0.35 * radius).min(0.9 * (back + 0.5 * inner[0].0));
        shapes.push(Shape::Block([back - magnet, -0.45 * radius, back, 0.45 * radius], Hatch::Metal));
    }
    let name = material::sheet(&part.sheet).map_or(part.sheet.as_str(), |sheet| sheet.name);
    let at = (0.5 * (left + right), 0.86 * half);
    Some(Fitting { thickness_mm: Some(part.thickness_mm), ..Fitting::new(Part::Baffle, format!("Baffle: {name}"), at, shapes) })
}

/// Braces on the walls above and below, between `from` and `to`; `height` is that of the shell's inside.
fn braces(part: &BracesPart, shell: Shell, (from, to): (f64, f64), height: f64) -> Fitting {
    let place = if shell == Shell::Outer { " in the gap" } else { "" };
    let (half, count) = (0.5 * height, part.count as usize);
    let bay = (to - from - part.count * part.width_mm) / (part.count + 1.0);
    let mut shapes = Vec::new();
    let mut at = (0.0, 0.0);
    for index in 0..count {
        let left = from + bay + index as f64 * (bay + part.width_mm);
        let right = left + part.width_mm;
        for (top, bottom) in [(-half, -half + part.depth_mm), (half - part.depth_mm, half)] {
            shapes.push(Shape::Block([left, top, right, bottom], Hatch::Veneer));
        }
        if part.kind == BraceKind::Shelves {
            shapes.extend([left, right].map(|x| Shape::Hidden(vec![(x, part.depth_mm - half), (x, half - part.depth_mm)])));
        }
        at = (0.5 * (left + right), half - 0.5 * part.depth_mm);
    }
    Fitting::new(Part::Braces(shell), format!("{}{place}", capital(&braces_gist(part))), at, shapes)
}

/// What stands or hangs between `top` and `bottom` at `x`.
fn support(part: &SupportPart, x: f64, (top, bottom): (f64, f64)) -> Vec<Shape> {
    let packer = |from: f64, to: f64| Shape::Block([x - 20.0, from, x + 20.0, to], Hatch::Veneer);
    let room = bottom - top;
    match part.kind {
        SupportKind::Springs => {
            let height = part.height_mm.min(room);
            let reach = (0.25 * height).clamp(4.0, 18.0);
            let turns = [0.0, 0.12, 0.22, 0.36, 0.5, 0.64, 0.78, 0.88, 1.0];
            let sides = [0.0, 0.0, 1.0, -1.0, 1.0, -1.0, 1.0, 0.0, 0.0];
            let points = turns.iter().zip(sides).map(|(turn, side)| (x + side * reach, top + turn * height)).collect();
            let mut shapes = vec![Shape::Line(points)];
            if room - height > 1.0 {
                shapes.push(packer(top + height, bottom));
            }
            shapes
        }
        SupportKind::Straps => [-5.0, 5.0].map(|aside| Shape::Line(vec![(x + aside, top), (x + aside, bottom)])).to_vec(),
        SupportKind::Pads => {
            let (half, thickness) = (0.5 * part.pad_side_mm, part.pad_thickness_mm.min(room));
            let mut shapes = vec![Shape::Block([x - half, top, x + half, top + thickness], Hatch::Limp)];
            if room - thickness > 1.0 {
                shapes.push(packer(top + thickness, bottom));
            }
            shapes
        }
        SupportKind::Rigid if room > 0.0 => vec![packer(top, bottom), Shape::Line(vec![(x, top - 10.0), (x, bottom + 10.0)])],
        SupportKind::Rigid => Vec::new(),
    }
}

/// A row of supports under or over a box `length` long; every second one lies behind the cut.
fn row(of: Part, part: &SupportPart, length: f64, between: (f64, f64)) -> Fitting {
    let seen = (0.5 * part.count).ceil().max(1.0) as usize;
    let end = 0.4 * length;
    let shapes = places(seen, -end, end).flat_map(|x| support(part, x, between)).collect();
    let last = if seen > 1 { end } else { 0.0 };
    Fitting::new(of, capital(&support_gist(part)), (last, 0.5 * (between.0 + between.1)), shapes)
}

fn suspension(part: &SupportPart, inner: (f64, f64), outer: (f64, f64)) -> Fitting {
    let (near, far) = (0.5 * inner.1, 0.5 * outer.1);
    row(Part::Suspension, part, inner.0, if part.kind == SupportKind::Straps { (-far, -near) } else { (near, far) })
}

/// Height in mm that the drawing gives the feet; straps go on to a ceiling that it does not show.
pub fn feet_height(part: &SupportPart) -> f64 {
    match part.kind {
        SupportKind::Springs => part.height_mm,
        SupportKind::Pads => part.pad_thickness_mm,
        SupportKind::Straps | SupportKind::Rigid => 0.0,
    }
}

/// The feet and the floor.
fn feet(part: &SupportPart, outside: (f64, f64)) -> Fitting {
    let (half, height) = (0.5 * outside.1, feet_height(part));
    let hung = part.kind == SupportKind::Straps;
    let mut feet = row(Part::Feet, part, outside.0, if hung { (-1.04 * half, -half) } else { (half, half + height) });
    if part.kind == SupportKind::Rigid {
        "Hard on the floor".clone_into(&mut feet.name);
    } else if hung {
        feet.name = format!("Hung by {}", feet.name);
    } else {
        feet.name = format!("Feet: {}", feet.name);
    }
    if !hung {
        let (reach, floor) = (0.5 * outside.0, half + height);
        feet.shapes.push(Shape::Line(vec![(-reach, floor), (reach, floor)]));
    }
    feet
}

/// The joint round a lid, where the cut meets it, with its seals.
fn lid(part: &LidPart, shell: Shell, [inside, outside]: ShellSize) -> Fitting {
    let (length, height) = (0.5 * inside.0, 0.5 * inside.1);
    let thickness = 0.5 * (outside.0 - inside.0);
    let seals = if part.seal == SealKind::Bare { 0 } else { part.seals as usize };
    let steps = if part.form == LidForm::Stepped { part.seals as usize } else { 0 };
    // From the inside out, along the wall and across it.
    let run = thickness / (steps + 1) as f64;
    let rise = if steps > 0 { 0.7 * thickness / steps as f64 } else { 0.0 };
    let mut joint = vec![(0.0, 0.0)];
    for step in 0..=steps {
        let (along, across) = ((step + 1) as f64 * run, step as f64 * rise);
        joint.push((along, across));
        if step < steps {
            joint.push((along, across + rise));
        }
    }
    let sealed = (0..seals).map(|seal| {
        let along = (seal as f64 + 0.5) / seals as f64 * thickness;
        (along, (along / run).floor().min(steps as f64) * rise)
    });
    let sealed: Vec<_> = sealed.collect();
    let mut shapes = Vec::new();
    let mut draw = |place: &dyn Fn((f64, f64)) -> (f64, f64)| {
        shapes.push(Shape::Line(joint.iter().map(|point| place(*point)).collect()));
        shapes.extend(sealed.iter().map(|point| Shape::Seal(place(*point))));
    };
    let middle = 0.5 * thickness;
    let at = match part.face {
        LidFace::Front => {
            for side in [-1.0, 1.0] {
                draw(&|(along, across)| (length + along, side * (height + across)));
            }
            (length + middle, -height)
        }
        LidFace::Top => {
            for side in [-1.0, 1.0] {
                draw(&|(along, across)| (side * (length + across), -height - along));
            }
            (length, -height - middle)
        }
        LidFace::Side => {
            let (x, y) = (length + middle, height + middle);
            shapes.push(Shape::Hidden(vec![(-x, -y), (x, -y), (x, y), (-x, y), (-x, -y)]));
            (x, -0.7 * height)
        }
    };
    Fitting::new(Part::Lid(shell), capital(&lid_gist(part)), at, shapes)
}

/// Holes for cables through the end on the left.
fn cable_holes(part: &HolesPart, shell: Shell, [inside, outside]: ShellSize, vents: bool) -> Option<Fitting> {
    let count = part.count as usize;
    if count == 0 {
        return None;
    }
    let (left, right) = (-0.5 * outside.0, -0.5 * inside.0);
    let spread = ((part.count - 1.0) * (2.5 * part.diameter_mm).max(30.0)).min(0.24 * inside.1);
    let middle = if vents { 0.0 } else { 0.36 * inside.1 };
    let mut shapes = Vec::new();
    let mut at = (0.5 * (left + right), middle);
    for y in places(count, middle - 0.5 * spread, middle + 0.5 * spread) {
        let (hole, cable) = (0.5 * part.diameter_mm, 0.5 * part.cable_mm);
        let opening = [left, y - hole, right, y + hole];
        shapes.push(if part.sealed { Shape::Block(opening, Hatch::Limp) } else { Shape::Blank(opening) });
        if cable > 0.0 {
            shapes.push(Shape::Solid([left - 12.0, y - cable, right + 12.0, y + cable]));
        }
        at.1 = y;
    }
    Some(Fitting::new(Part::Holes(shell), capital(&holes_gist(part)), at, shapes))
}

/// Vents through the end on the left: one low, where air comes in, and one high, where it leaves.
fn vents(design: &Design, cut: &Cut) -> Option<Fitting> {
    let part = design.vents.as_ref()?;
    let (inside, left, right) = (cut.shells[0][0], -0.5 * cut.outside.0, -0.5 * cut.clear.0);
    let half = (0.5 * part.height_mm).min(0.16 * inside.1);
    let lining = part.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm.min(0.06 * inside.1));
    let mut shapes = Vec::new();
    let place = 0.5 * inside.1 - 0.08 * inside.1 - half - lining;
    let seen: &[f64] = if part.count > 1.0 { &[-1.0, 1.0] } else { &[-1.0] };
    for y in seen.iter().map(|side| side * place) {
        if lining > 0.0 {
            shapes.push(Shape::Block([left, y - half - lining, right, y - half], Hatch::Porous));
            shapes.push(Shape::Block([left, y + half, right, y + half + lining], Hatch::Porous));
        }
        shapes.push(Shape::Blank([left, y - half, right, y + half]));
        shapes.extend([-half, half].map(|edge| Shape::Line(vec![(left, y + edge), (right, y + edge)])));
    }
    Some(Fitting::new(Part::Vents, counted(part.count, "vent", "vents"), (0.5 * (left + right), -place), shapes))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::charts::cut::cut;
    use hushwright::design::VentsPart;

    fn drawn(design: &Design) -> Vec<Fitting> {
        assert!(design.check().is_ok(), "{:?}", design.check().err());
        fittings(design, &cut(design))
    }

    fn points(shape: &Shape) -> Vec<(f64, f64)> {
        match shape {
            Shape::Block([a, b, c, d], _) | Shape::Blank([a, b, c, d]) | Shape::Solid([a, b, c, d]) => vec![(*a, *b), (*c, *d)],
            Shape::Line(points) | Shape::Hidden(points) => points.clone(),
            Shape::Seal(point) => vec![*point],
        }
    }

    #[test]
    fn every_kind_of_everything_lies_within_the_drawing() {
        let mut checked = 0;
        for base in hushwright::design::examples() {
            for kind in [SupportKind::Straps, SupportKind::Springs, SupportKind::Pads, SupportKind::Rigid] {
                for face in [LidFace::Front, LidFace::Side, LidFace::Top] {
                    for shelves in [BraceKind::Battens, BraceKind::Shelves] {
                        let mut design = base.clone();
                        design.suspension.kind = kind;
                        design.feet.kind = kind;
                        design.feet.count = 12.0;
                        design.inner.lid = LidPart { face, form: LidForm::Stepped, seals: 4.0, ..design.inner.lid };
                        design.inner.braces = Some(BracesPart { kind: shelves, count: 2.0, ..BracesPart::default() });
                        design.vents = Some(VentsPart::default());
                        design.inner.holes.sealed = false;
                        let outside = cut(&design).outside;
                        let below = feet_height(&design.feet);
                        for fitting in drawn(&design) {
                            for (x, y) in fitting.shapes.iter().flat_map(points).chain([fitting.at]) {
                                assert!(x.abs() <= 0.5 * outside.0 + 13.0, "{fitting:?}");
                                assert!(y >= -0.53 * outside.1 && y <= 0.5 * outside.1 + below + 11.0, "{fitting:?}");
                                checked += 1;
                            }
                        }
                    }
                }
            }
        }
        assert!(checked > 1000);
    }

    #[test]
    fn what_is_drawn_is_what_the_design_has() {
        let mut design = Design::default();
        let names = |design: &Design| drawn(design).into_iter().map(|fitting| fitting.name).collect::<Vec<_>>().join("; ");
        assert_eq!(names(&design), "Baffle: MDF; 4 springs; Front lid, 2 seals, both; 2 cable holes each; Feet: 4 rubber pads");
        design.inner.lid.face = LidFace::Top;
        design.inner.holes.count = 0.0;
        design.inner.baffle = None;
        design.outer.as_mut().unwrap().braces = Some(BracesPart::default());
        design.feet.kind = SupportKind::Rigid;
        assert_eq!(
            names(&design),
            "4 springs; Inner lid: top, 2 seals; Outer lid: front, 2 seals; 2 cable holes; 1 batten a wall in the gap; Hard on the floor"
        );
    }

    #[test]
    fn a_step_and_a_dot_for_each_seal() {
        let mut design = Design { outer: None, ..Design::default() };
        for seals in 1..=4 {
            design.inner.lid = LidPart { form: LidForm::Stepped, seals: f64::from(seals), ..design.inner.lid };
            let lid = drawn(&design).into_iter().find(|fitting| fitting.name.contains(" lid")).unwrap();
            let dots = lid.shapes.iter().filter(|shape| matches!(shape, Shape::Seal(_))).count();
            assert_eq!(dots, 2 * seals as usize, "both joints that the cut meets");
            let Shape::Line(joint) = &lid.shapes[0] else { panic!("a joint") };
            assert_eq!(joint.len(), 2 + 2 * seals as usize);
        }
        design.inner.lid.seal = SealKind::Bare;
        let lid = drawn(&design).into_iter().find(|fitting| fitting.name.contains(" lid")).unwrap();
        assert!(!lid.shapes.iter().any(|shape| matches!(shape, Shape::Seal(_))));
    }
}
