//! Every drawing of many designs: numbers, frames, texts.

use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, VentsPart, examples};
use hushwright::enclosure::{LidFace, LidForm};
use hushwright::workshop::layout::{Part as Wanted, Stock, lay_out};
use hushwright::workshop::{Board, CutLine, CutList, Plan, ShellName, plan};
use proptest::prelude::*;

use super::paper::Paper;
use super::sheet::SheetTexts;
use super::{board, exploded, joints, places, sheet, sheet_svg_file};
use crate::quantity::Units;
use crate::rect::Rect;

const UNITS: [Units; 2] = [Units::Metric, Units::Imperial];

/// Designs of many kinds, the examples first.
fn designs() -> Vec<Design> {
    let mut designs = examples();
    let layers = |count: usize| -> Vec<Layer> {
        let layer = |k: usize| match k % 3 {
            0 => Layer::sheet("mdf", 18.0),
            1 => Layer::sheet("birch-plywood", 12.3),
            _ => Layer::sheet("steel", 1.0),
        };
        (0..count).flat_map(|k| [layer(k), Layer::bond("damping-compound")]).take(2 * count - 1).collect()
    };
    let with = |change: &dyn Fn(&mut Design)| {
        let mut design = Design::default();
        // What hangs is heavier than in the example.
        (design.suspension.count, design.suspension.breaking_load_kg) = (24.0, 2000.0);
        change(&mut design);
        design
    };
    for (face, form, seals) in
        [(LidFace::Front, LidForm::Stepped, 2.0), (LidFace::Side, LidForm::Plain, 2.0), (LidFace::Top, LidForm::Stepped, 3.0)]
    {
        designs.push(with(&|design| {
            design.name = String::from("</title><script>");
            design.inner.layers = layers(3);
            (design.inner.lid.face, design.inner.lid.form, design.inner.lid.seals) = (face, form, seals);
            if let Some(outer) = &mut design.outer {
                (outer.lid.face, outer.lid.form, outer.lid.seals) = (face, form, seals);
            }
            design.vents = Some(VentsPart::default());
        }));
    }
    designs.push(with(&|design| design.inner.layers = layers(8)));
    designs.push(with(&|design| {
        design.inner.lining = None;
        design.inner.baffle = None;
        design.source.driver = None;
        (design.inner.length_mm, design.inner.width_mm, design.inner.height_mm) = (123.4, 101.7, 100.3);
    }));
    designs.push(with(&|design| {
        (design.inner.length_mm, design.inner.width_mm, design.inner.height_mm) = (2390.5, 1177.7, 1801.3);
        design.inner.holes.count = 8.0;
    }));
    designs
}

fn plans() -> Vec<Plan> {
    let checked = |design: Design| plan(&design.check().expect("the design is allowed")).expect("a plan");
    designs().into_iter().map(checked).collect()
}

/// Every drawing of a plan, as text.
fn drawings(plan: &Plan, units: Units) -> Vec<String> {
    let mut all = Vec::new();
    for (layout, stock) in plan.layouts.iter().zip(&plan.stocks) {
        for (k, own) in layout.sheets.iter().enumerate() {
            all.push(sheet(own, stock, &plan.list, k + 1, units).into_string());
            all.push(sheet_svg_file(own, stock, &plan.list, k + 1, units));
        }
    }
    for shell in &plan.shells {
        all.push(joints(shell, units).into_string());
        all.push(exploded(shell, &plan.parts).into_string());
    }
    all.extend(plan.parts.iter().map(|part| board(part, units).into_string()));
    let outside = plan.shells.last().expect("a box").outside().size_mm();
    all.push(places(&plan.feet, [outside[0], outside[1]], "Feet", units).into_string());
    if let Some(suspension) = &plan.suspension {
        let size_mm = plan.shells[0].outside().size_mm();
        all.push(places(suspension, [size_mm[0], size_mm[1]], "Springs <of> the inner box", units).into_string());
    }
    all
}

/// The values of an attribute in a text.
fn values<'a>(text: &'a str, name: &str) -> Vec<&'a str> {
    let open = format!(" {name}=\"");
    text.split(open.as_str()).skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

fn numbers(words: &str) -> Vec<f64> {
    let split = words.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'));
    split.filter(|word| !word.is_empty()).map(|word| word.parse().expect("a number")).collect()
}

/// Whether all that is drawn lies within the frame of its drawing.
fn check_frames(text: &str) {
    for svg in text.split("<svg").skip(1) {
        let view = numbers(values(svg, "viewBox")[0]);
        let [left, top, width, height] = view[..] else { panic!("{view:?}") };
        assert!(width > 0.0 && height > 0.0, "{view:?}");
        let frame = Rect { left, top, right: left + width, bottom: top + height };
        let holds = |x: f64, y: f64| frame.grown(0.02).holds(&Rect::about((x, y), 0.0, 0.0));
        let svg = svg.split("</svg>").next().expect("an end");
        for path in values(svg, "d") {
            let all = numbers(path);
            assert!(all.chunks(2).all(|at| holds(at[0], at[1])), "{path} beyond {frame:?}");
        }
        for [x, y] in [["x", "y"], ["cx", "cy"]] {
            let (all_x, all_y) = (values(svg, x), values(svg, y));
            assert_eq!(all_x.len(), all_y.len());
            for (x, y) in all_x.into_iter().zip(all_y) {
                let (x, y): (f64, f64) = (x.parse().expect("a number"), y.parse().expect("a number"));
                assert!(holds(x, y), "{x} {y} beyond {frame:?}");
            }
        }
    }
}

#[test]
fn every_drawing_is_whole() {
    for (at, plan) in plans().iter().enumerate() {
        for units in UNITS {
            let mut ids = Vec::new();
            for text in drawings(plan, units) {
                for word in ["NaN", "inf\"", "inf ", "\"-\"", "<script", "<of>"] {
                    assert!(!text.contains(word), "{word} in drawing of design {at}: {text}");
                }
                for name in ["rect", "path", "circle", "text", "title", "svg"] {
                    let (opened, closed) = (format!("<{name} "), format!("</{name}>"));
                    assert_eq!(text.matches(&opened).count(), text.matches(&closed).count(), "<{name}> is closed");
                }
                // No colour of its own: all come from classes, or from the patterns of the page.
                assert!(values(&text, "fill").iter().all(|fill| fill.starts_with("url(#hatch-")));
                assert!(values(&text, "stroke").is_empty());
                assert_eq!(text.matches("<svg").count(), text.matches("role=\"img\"").count());
                assert_eq!(text.matches("<svg").count(), text.matches("<title id=").count());
                check_frames(&text);
                if !text.starts_with("<svg") {
                    ids.extend(values(&text, "id").into_iter().map(str::to_owned));
                }
            }
            let count = ids.len();
            ids.sort();
            ids.dedup();
            assert_eq!(ids.len(), count, "ids are unique on a page");
        }
    }
}

/// That nothing lies on anything else on the drawing of a sheet, and that every cut has its number.
fn check_sheets(
    layout: &hushwright::workshop::layout::Layout,
    stock: &Stock,
    list: &CutList,
    units: Units,
) -> Result<(), TestCaseError> {
    for own in &layout.sheets {
        let texts = SheetTexts::new(own, stock, list, units);
        prop_assert_eq!(texts.numbers.len(), own.cuts.len());
        let labels: Vec<Rect> =
            texts.texts.parts.iter().chain(&texts.texts.offcuts).flatten().map(|label| label.rect(texts.em)).collect();
        let side = 1.56 * texts.em;
        let circles: Vec<Rect> = texts.numbers.iter().map(|spot| Rect::about(spot.at, side, side)).collect();
        let all: Vec<&Rect> = labels.iter().chain(&circles).collect();
        for (k, one) in all.iter().enumerate() {
            for other in &all[k + 1..] {
                prop_assert!(!one.meets(other), "{:?} on {:?}", one, other);
            }
        }
        // Texts lie on what they name.
        for (placement, label) in own.placements.iter().zip(&texts.texts.parts) {
            if let Some(label) = label {
                let top = stock.width_mm - placement.at.y_mm - placement.at.width_mm;
                let (left, right) = (placement.at.x_mm, placement.at.x_mm + placement.at.length_mm);
                let at = Rect { left, top, right, bottom: top + placement.at.width_mm };
                prop_assert!(at.holds(&label.rect(texts.em)));
            }
        }
        let text = sheet(own, stock, list, 1, units).into_string();
        for k in 1..=own.cuts.len() {
            let (circle, sentence) = (format!(">{k}</text>"), format!("<b>{k}.</b>"));
            prop_assert!(text.contains(&circle) && text.contains(&sentence), "cut {}", k);
        }
        // Every part is named: on itself, or by the letter that stands on it, or by where it lies.
        for key in &texts.texts.keys {
            let parts = own.placements.iter().zip(&texts.texts.parts).filter(|(placement, _)| placement.part == key.line);
            let without = parts.filter(|(_, label)| label.is_none()).count();
            prop_assert_eq!(without, key.bare_at_mm.len());
        }
    }
    Ok(())
}

#[test]
fn nothing_lies_on_anything_on_the_sheets_of_real_designs() {
    for plan in plans() {
        for units in UNITS {
            for (layout, stock) in plan.layouts.iter().zip(&plan.stocks) {
                check_sheets(layout, stock, &plan.list, units).expect("all apart");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn nothing_lies_on_anything_on_any_sheet(
        wanted in prop::collection::vec((20.0..1500.0_f64, 20.0..1000.0_f64, 1..9_usize, any::<bool>()), 1..12),
        length_mm in 1200.0..3000.0_f64, width_mm in 1000.0..2000.0_f64, trim_mm in 0.0..20.0_f64, kerf_mm in 0.0..5.0_f64,
    ) {
        let stock = Stock { length_mm, width_mm, trim_mm, kerf_mm };
        let parts: Vec<Wanted> = wanted.iter()
            .map(|&(length_mm, width_mm, count, may_turn)| Wanted { length_mm, width_mm, count, may_turn }).collect();
        let line = |part: &Wanted| CutLine {
            names: (0..part.count).map(|k| format!("I1 <{k}>")).collect(), shell: ShellName::Inner, layer: Some(0), board: 0,
            length_mm: part.length_mm, width_mm: part.width_mm, keeps_grain: false, has_openings: false,
        };
        let board = Board {
            key: "mdf".to_owned(), name: "MDF".to_owned(), thickness_mm: 18.0, nominal_mm: 18.0, density: 750.0, has_grain: false,
        };
        let list = CutList { lines: parts.iter().map(line).collect(), boards: vec![board] };
        let layout = lay_out(&parts, &stock).expect("allowed");
        for units in UNITS {
            check_sheets(&layout, &stock, &list, units)?;
        }
    }
}

/// By hand: in layer 1 bottom and top cover all others, and ends cover sides; in layer 2 each edge is the other way round.
#[test]
fn words_on_joints_say_what_the_boards_do() {
    let mut design = Design::default();
    design.inner.layers = vec![Layer::sheet("mdf", 10.0), Layer::bond("rigid-glue"), Layer::sheet("mdf", 10.0)];
    let plan = plan(&design.check().expect("allowed")).expect("a plan");
    let text = joints(&plan.shells[0], Units::Metric).into_string();
    for (over, under) in [("back", "left"), ("bottom", "back"), ("bottom", "left")] {
        assert!(text.contains(&format!("ayer 1: the {over} covers the end of the {under}")), "{over}, {under}: {text}");
        assert!(text.contains(&format!("ayer 2: the {under} covers the end of the {over}")), "{under}, {over}: {text}");
    }
}

#[test]
fn a_frame_grows_with_what_is_drawn() {
    let mut paper = Paper::new(Rect::about((0.0, 0.0), 2.0, 2.0), 1.0);
    paper.line("dim", &[(5.0, -3.0), (-4.0, 8.0)]);
    assert_eq!(paper.frame, Rect { left: -4.0, top: -3.0, right: 5.0, bottom: 8.0 });
}

/// The rules that go into a file name no colour that the file does not bring along: of the page's others it knows none.
#[test]
fn a_file_has_all_its_colours() {
    let plan = &plans()[0];
    let file = sheet_svg_file(&plan.layouts[0].sheets[0], &plan.stocks[0], &plan.list, 1, Units::Metric);
    let names: Vec<&str> = file.split("var(").skip(1).filter_map(|rest| rest.split(')').next()).collect();
    assert!(names.len() > 20, "the rules are in the file: {names:?}");
    for name in names {
        assert!(file.contains(&format!("{name}:")), "{name} has no value in the file");
    }
}
