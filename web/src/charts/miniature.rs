//! A box cut open so small that only its boxes, its gap and its lid can be told: the same cut as the large drawing.

use hushwright::design::Design;
use hushwright::enclosure::LidFace;

use super::cut::{Hatch, cut};

/// Edge in px round the box, in which the lid's mark lies.
const EDGE: f64 = 6.0;
/// Distance in px of the lid's mark from the box.
const MARK: f64 = 3.5;
/// Length in px of the ticks at its ends.
const TICK: f64 = 2.5;

/// The picture, as paths of SVG.
#[derive(Clone, Debug, PartialEq)]
pub struct Miniature {
    /// The parts from the inside out, each as it is hatched in the large drawing; air is not drawn.
    pub parts: Vec<(Hatch, String)>,
    /// What marks the side of the lid: a line along it outside the box, round the inside where the lid lies before the cut.
    pub lid: String,
}

/// Pixels for a mm at which the largest of `designs` fills a picture of `width` and `height` in px; 0 where there is none.
pub fn common_scale<'a>(designs: impl Iterator<Item = &'a Design>, (width, height): (f64, f64)) -> f64 {
    let (length_mm, height_mm) =
        designs.map(|design| cut(design).outside).fold((0.0_f64, 0.0_f64), |most, own| (most.0.max(own.0), most.1.max(own.1)));
    let room = |size: f64, of_mm: f64| if of_mm > 0.0 { (size - 2.0 * EDGE) / of_mm } else { 0.0 };
    room(width, length_mm).min(room(height, height_mm))
}

/// The picture of `design` at `scale` in px for a mm, on the floor of a picture of `width` and `height` in px.
pub fn miniature(design: &Design, scale: f64, (width, height): (f64, f64)) -> Miniature {
    let cut = cut(design);
    let (middle_x, middle_y) = (0.5 * width, height - EDGE - 0.5 * scale * cut.outside.1);
    let half = |(length, height): (f64, f64)| (0.5 * scale * length, 0.5 * scale * height);
    let rectangle = |size: (f64, f64)| {
        let (x, y) = half(size);
        let (left, top, right, bottom) = (middle_x - x, middle_y - y, middle_x + x, middle_y + y);
        format!("M{left:.1} {top:.1}H{right:.1}V{bottom:.1}H{left:.1}Z")
    };
    let solid = cut.rings.iter().filter(|ring| ring.hatch != Hatch::Air);
    let parts = solid.map(|ring| (ring.hatch, rectangle(ring.outside) + &rectangle(ring.inside))).collect();
    let lid = design.outer.as_ref().map_or(&design.inner.lid, |outer| &outer.lid);
    let (x, y) = half(cut.shells.last().map_or(cut.clear, |shell| shell[0]));
    let (out_x, out_y) = half(cut.outside);
    let lid = match lid.face {
        LidFace::Front => {
            let (line, from, to) = (middle_x + out_x + MARK, middle_y - y, middle_y + y);
            format!("M{:.1} {from:.1}H{line:.1}V{to:.1}H{:.1}", line - TICK, line - TICK)
        }
        LidFace::Top => {
            let (line, from, to) = (middle_y - out_y - MARK, middle_x - x, middle_x + x);
            format!("M{from:.1} {:.1}V{line:.1}H{to:.1}V{:.1}", line + TICK, line + TICK)
        }
        LidFace::Side => rectangle((cut.clear.0 - 4.0 * TICK / scale, cut.clear.1 - 4.0 * TICK / scale)),
    };
    Miniature { parts, lid }
}

#[cfg(test)]
mod tests {
    use hushwright::design::{Design, examples, limits};

    use super::*;

    /// Width and height in px.
    const SIZE: (f64, f64) = (84.0, 60.0);

    /// As large as there is room.
    fn filling(design: &Design) -> Miniature {
        miniature(design, common_scale(std::iter::once(design), SIZE), SIZE)
    }

    /// All numbers of a path.
    fn numbers(path: &str) -> Vec<f64> {
        let parts = path.split(|c: char| c.is_ascii_alphabetic() || c == ' ');
        parts.filter(|part| !part.is_empty()).map(|part| part.parse().expect("a number")).collect()
    }

    #[test]
    fn the_box_fills_the_picture_to_scale_and_nothing_leaves_it() {
        let mut designs = examples();
        for (length, height) in [(limits::INSIDE_MM.0, limits::INSIDE_MM.1), (limits::INSIDE_MM.1, limits::INSIDE_MM.0)] {
            let mut design = Design::default();
            (design.inner.length_mm, design.inner.height_mm, design.inner.lining) = (length, height, None);
            designs.push(design);
        }
        for mut design in designs {
            for face in [LidFace::Front, LidFace::Top, LidFace::Side] {
                design.inner.lid.face = face;
                if let Some(outer) = &mut design.outer {
                    outer.lid.face = face;
                }
                let Miniature { parts, lid } = filling(&design);
                for path in parts.iter().map(|(_, path)| path).chain([&lid]) {
                    assert!(numbers(path).iter().all(|number| (0.0..=SIZE.0).contains(number)), "{path}");
                }
                // M left top H right V bottom H left Z, of the outermost part first.
                let [left, top, right, bottom] = numbers(&parts.last().expect("a box").1)[..4] else { panic!("a rectangle") };
                let (width, height) = (right - left, bottom - top);
                let outside = cut(&design).outside;
                assert!((width - 72.0).abs() < 0.11 || (height - 48.0).abs() < 0.11, "{width} x {height}");
                assert!((width * outside.1 - height * outside.0).abs() <= 0.11 * (outside.0 + outside.1), "{width} x {height}");
            }
        }
    }

    #[test]
    fn the_lid_is_marked_where_it_is() {
        let mut design = Design::default();
        let mut marked = |face: LidFace| {
            design.outer.as_mut().expect("two boxes").lid.face = face;
            let Miniature { parts, lid } = filling(&design);
            let [left, top, right, bottom] = numbers(&parts.last().expect("a box").1)[..4] else { panic!("a rectangle") };
            (numbers(&lid), [left, top, right, bottom])
        };
        let (lid, [_, _, right, _]) = marked(LidFace::Front);
        assert!(lid[2] > right, "beside the end on the right, as in the large drawing");
        let (lid, [_, top, ..]) = marked(LidFace::Top);
        assert!(lid[2] < top, "above the top");
        let (lid, [left, top, right, bottom]) = marked(LidFace::Side);
        assert!(lid[0] > left && lid[1] > top && lid[2] < right && lid[3] < bottom, "before the cut");
    }

    /// To one scale, on one floor: the largest fills the picture, and the others stand beside it as they would.
    #[test]
    fn several_stand_on_one_floor_to_one_scale() {
        let designs = examples();
        let scale = common_scale(designs.iter(), SIZE);
        let mut widest = 0.0_f64;
        for design in &designs {
            let Miniature { parts, .. } = miniature(design, scale, SIZE);
            let [left, top, right, bottom] = numbers(&parts.last().expect("a box").1)[..4] else { panic!("a rectangle") };
            let outside = cut(design).outside;
            assert!((right - left - scale * outside.0).abs() < 0.11 && (bottom - top - scale * outside.1).abs() < 0.11);
            assert!((bottom - (SIZE.1 - EDGE)).abs() < 0.06, "on the floor");
            widest = widest.max((right - left) / (SIZE.0 - 2.0 * EDGE)).max((bottom - top) / (SIZE.1 - 2.0 * EDGE));
        }
        assert!((widest - 1.0).abs() < 0.01, "{widest}");
        assert_eq!(common_scale(std::iter::empty(), SIZE), 0.0);
    }
}
