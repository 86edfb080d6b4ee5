//! The plan: all that a workshop needs to build a design, in one call.

use serde::{Deserialize, Serialize};

use crate::design::CheckedDesign;
use crate::enclosure::{LidForm, Support};
use crate::error::FieldError;

use super::carry::{FloorLoad, Lift, Mass, Standing, floor_load, lift, together};
use super::cut_list::{CutList, cut_list};
use super::inside::{NeededInside, needed_inside};
use super::layout::{self, Layout, Stock, lay_out};
use super::masses::{MassOf, hung, lid_kg, weigh, wool};
use super::panel::Block;
use super::parts::{Part, parts};
use super::passage::{Carried, Door, Passage, Stairs, Way, passage};
use super::prices::sheet_mm;
use super::purchases::{Fittings, Needs, Purchase, Wool, fittings, purchases};
use super::shells::{ShellBox, ShellName, shells};
use super::stands::{loads, support_places};
use super::tasks::{Counts, Step, Task, hours, steps, tasks};
use super::tipping::{OnFeet, Tipping, tipping};

/// Thickness in m of a wall that a door is in; assumed.
const WALL_M: f64 = 0.12;

/// Something that is carried by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Load {
    /// The whole, put together.
    Whole,
    /// One box with its lid, what is in it taken out.
    Shell(ShellName),
    /// The lid of a box.
    Lid(ShellName),
}

/// What it takes to carry it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Carrying {
    /// What is carried.
    pub what: Load,
    /// Length, width and height in mm, without handles and feet.
    pub size_mm: [f64; 3],
    /// People.
    pub lift: Lift,
    /// Through doors and round corners; lids are carried flat and pass where their box does.
    pub passage: Option<Passage>,
}

/// Sum of the shopping list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Money {
    /// Before tax.
    pub net: f64,
    /// Tax.
    pub tax: f64,
    /// Whether something has no price.
    pub is_incomplete: bool,
}

impl Money {
    /// With tax.
    pub fn all(&self) -> f64 {
        self.net + self.tax
    }
}

/// Places of supports under a box.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Places {
    /// From the back and from the left edge of the bottom, in mm.
    pub at_mm: Vec<[f64; 2]>,
    /// Load in kg of each, on average.
    pub each_kg: f64,
    /// Load in kg of the one that carries most: where the mass lies far to one side, not all carry the same.
    pub most_kg: f64,
}

/// All that a workshop needs to build a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The boxes, from the inside out.
    pub shells: Vec<ShellBox>,
    /// Their boards.
    pub parts: Vec<Part>,
    /// How large the inside has to be.
    pub needed: NeededInside,
    /// The cut list.
    pub list: CutList,
    /// The sheets that each of its boards is cut from.
    pub stocks: Vec<Stock>,
    /// How they are cut, in the order of the list's boards.
    pub layouts: Vec<Layout>,
    /// The shopping list.
    pub purchases: Vec<Purchase>,
    /// What it comes to.
    pub money: Money,
    /// Mass in kg by part.
    pub masses: Vec<(MassOf, f64)>,
    /// Mass in kg of all of it, with what stands in it.
    pub mass_kg: f64,
    /// Centre of mass, in mm from the middle of the inside.
    pub centre_mm: [f64; 3],
    /// What is carried, the whole first.
    pub carrying: Vec<Carrying>,
    /// What the floor bears.
    pub floor: FloorLoad,
    /// How it tips.
    pub tipping: Tipping,
    /// Where the supports of the inner box go, if there is an outer one.
    pub suspension: Option<Places>,
    /// Where the feet go.
    pub feet: Places,
    /// All work.
    pub tasks: Vec<Task>,
    /// The order of work.
    pub steps: Vec<Step>,
    /// Hours of work.
    pub hours: f64,
}

/// The plan of `design`.
///
/// # Errors
/// Where the sheets are such that nothing can be cut from them: the field, and what is allowed.
pub fn plan(design: &CheckedDesign) -> Result<Plan, FieldError> {
    let document = &design.document;
    let build = &document.build;
    let shells = shells(design);
    let parts = parts(design, &shells);
    let list = cut_list(&parts, build.keeps_grain);
    let (stocks, layouts) = layouts(design, &list)?;
    let sheets: Vec<usize> = layouts.iter().map(|layout| layout.sheets.len()).collect();
    let wool = wool(design, &shells);
    let weighed = weigh(design, &shells, &parts);
    let all: Vec<Mass> = weighed.iter().map(|(_, mass)| *mass).collect();
    let whole = together(&all).unwrap_or(Mass { kg: 0.0, at_m: [0.0; 3] });
    let hung = hung(&weighed);
    let lids: Vec<(f64, bool)> = shells.iter().map(|shell| (lid_kg(shell, &parts), swings(design, shell))).collect();
    let fittings = fittings(whole.kg, &lids);
    let needs = Needs {
        shells: &shells,
        parts: &parts,
        list: &list,
        sheets: &sheets,
        wool: &wool,
        fittings,
        mass_kg: whole.kg,
        hung_kg: hung.kg,
    };
    let purchases = purchases(design, &needs);
    let net = purchases.iter().filter_map(Purchase::cost).sum();
    // Boards that no sheet holds are in no price.
    let is_incomplete =
        purchases.iter().any(|purchase| purchase.each.is_none()) || layouts.iter().any(|layout| !layout.too_big.is_empty());
    let counts = counts(&sheets, fittings, &wool, document.inner.lining.is_some());
    let tasks = tasks(design, &shells, &parts, &counts);
    let contents_kg = design.contents_kg;
    let outside = shells.last().map_or(Block::centred([0.0; 3]), ShellBox::outside);
    let size_mm = outside.size_mm();
    let feet = places(&design.feet, &whole, size_mm);
    let suspension = design.outer.as_ref().map(|_| {
        let size_mm = shells.first().map_or([0.0; 3], |shell| shell.outside().size_mm());
        places(&design.suspension, &hung, size_mm)
    });
    let feet_m = design.feet.spring.as_ref().map_or(0.0, |spring| spring.height_m);
    let standing = Standing {
        box_kg: whole.kg - contents_kg,
        contents_kg,
        people_kg: 0.0,
        footprint_m: [size_mm[0] / 1000.0, size_mm[1] / 1000.0],
        feet: design.feet.count,
    };
    let stance = OnFeet { support_m: stance_m(&feet, size_mm), mass: over_feet(&whole, &feet, &outside, feet_m) };
    Ok(Plan {
        needed: needed_inside(design),
        money: Money { net, tax: net * build.tax, is_incomplete },
        masses: weighed.iter().map(|(of, mass)| (*of, mass.kg)).collect(),
        mass_kg: whole.kg,
        centre_mm: whole.at_m.map(|at| 1000.0 * at),
        carrying: carrying(design, &shells, &parts, &weighed, feet_m),
        floor: floor_load(&standing),
        tipping: tipping(&stance, size_mm[2] / 1000.0 + feet_m),
        suspension,
        feet,
        steps: steps(&tasks, &build.own),
        hours: hours(&tasks, &build.own),
        shells,
        parts,
        list,
        stocks,
        layouts,
        purchases,
        tasks,
    })
}

/// How the boards of `list` are cut from their sheets.
fn layouts(design: &CheckedDesign, list: &CutList) -> Result<(Vec<Stock>, Vec<Layout>), FieldError> {
    let build = &design.document.build;
    let (mut stocks, mut layouts) = (Vec::new(), Vec::new());
    for (k, board) in list.boards.iter().enumerate() {
        let [length_mm, width_mm] = sheet_mm(board, &build.own);
        let stock = Stock { length_mm, width_mm, trim_mm: build.trim_mm, kerf_mm: build.kerf_mm };
        let lines: Vec<usize> = (0..list.lines.len()).filter(|at| list.lines[*at].board == k).collect();
        let part = |at: &usize| {
            let line = &list.lines[*at];
            let (length_mm, width_mm, count) = (line.length_mm, line.width_mm, line.names.len());
            layout::Part { length_mm, width_mm, count, may_turn: !line.keeps_grain }
        };
        let mut layout = lay_out(&lines.iter().map(part).collect::<Vec<_>>(), &stock)?;
        // From here on parts are known by their line in the list.
        for placement in layout.sheets.iter_mut().flat_map(|sheet| &mut sheet.placements) {
            placement.part = lines[placement.part];
        }
        for too_big in &mut layout.too_big {
            too_big.part = lines[too_big.part];
        }
        layouts.push(layout);
        stocks.push(stock);
    }
    Ok((stocks, layouts))
}

fn counts(sheets: &[usize], fittings: Fittings, wool: &[Wool], is_lined: bool) -> Counts {
    let areas: Vec<f64> = wool.iter().map(|wool| wool.area_m2).collect();
    let (lining, fill) = areas.split_at(usize::from(is_lined && !areas.is_empty()));
    Counts {
        sheets: sheets.iter().sum(),
        handles: fittings.handles,
        castors: fittings.castors,
        lining_m2: lining.iter().sum(),
        fill_m2: fill.iter().sum(),
    }
}

/// Whether the lid of `shell` can swing on hinges: one board, no step.
fn swings(design: &CheckedDesign, shell: &ShellBox) -> bool {
    let form = match (shell.name, &design.document.outer) {
        (ShellName::Outer, Some(outer)) => outer.lid.form,
        _ => design.document.inner.lid.form,
    };
    shell.layers.len() == 1 && form == LidForm::Plain
}

fn places(support: &Support, mass: &Mass, size_mm: [f64; 3]) -> Places {
    let base_mm = [size_mm[0], size_mm[1]];
    let centre_mm = [1000.0 * mass.at_m[0], 1000.0 * mass.at_m[1]];
    let from_corner = |[x, y]: [f64; 2]| [x + 0.5 * base_mm[0], y + 0.5 * base_mm[1]];
    let places_mm = support_places(support.count, base_mm, centre_mm);
    let most_kg = loads(mass.kg, &places_mm, centre_mm).into_iter().fold(0.0, f64::max);
    let at_mm = places_mm.into_iter().map(from_corner).collect();
    Places { at_mm, each_kg: mass.kg / support.count.max(1) as f64, most_kg }
}

/// Extent in m of the feet along length and width; of a single one or of a row, a tenth of the base: what one foot itself is wide.
fn stance_m(feet: &Places, size_mm: [f64; 3]) -> [f64; 2] {
    std::array::from_fn(|axis| {
        let along = feet.at_mm.iter().map(|place| place[axis]);
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (at.min(low), at.max(high)));
        (high - low).max(0.1 * size_mm[axis]) / 1000.0
    })
}

/// The mass as seen from the middle between the feet on the floor.
fn over_feet(whole: &Mass, feet: &Places, outside: &Block, feet_m: f64) -> Mass {
    let middle = |axis: usize| {
        let along = feet.at_mm.iter().map(|place| place[axis]);
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (at.min(low), at.max(high)));
        (0.5 * (low + high) + outside.from_mm[axis]) / 1000.0
    };
    Mass {
        kg: whole.kg,
        at_m: [whole.at_m[0] - middle(0), whole.at_m[1] - middle(1), whole.at_m[2] - outside.from_mm[2] / 1000.0 + feet_m],
    }
}

/// What is carried and through what: the whole, each box alone if there are two, each lid.
fn carrying(
    design: &CheckedDesign,
    shells: &[ShellBox],
    parts: &[Part],
    weighed: &[(MassOf, Mass)],
    feet_m: f64,
) -> Vec<Carrying> {
    let way_part = &design.document.build.way;
    let some_m = |mm: f64| (mm > 0.0).then_some(mm / 1000.0);
    let corner_m = some_m(way_part.corner_mm).map(|to_m| [some_m(way_part.corridor_mm).unwrap_or(to_m), to_m]);
    let way = Way {
        door: Door { width_m: way_part.door_width_mm / 1000.0, height_m: way_part.door_height_mm / 1000.0 },
        wall_m: WALL_M,
        corridor_m: some_m(way_part.corridor_mm),
        corner_m,
        stairs: some_m(way_part.stairs_mm).map(|width_m| Stairs { width_m, landing: true }),
    };
    let kg = |keep: &dyn Fn(&MassOf) -> bool| weighed.iter().filter(|(of, _)| keep(of)).map(|(_, mass)| mass.kg).sum::<f64>();
    let boxed = |what: Load, size_mm: [f64; 3], kg: f64, feet_m: f64| {
        let carried = Carried { size_m: size_mm.map(|side| side / 1000.0), handles_m: way_part.handles_mm / 1000.0, feet_m };
        Carrying { what, size_mm, lift: lift(kg), passage: Some(passage(&carried, &way)) }
    };
    let mut list = Vec::new();
    if let Some(last) = shells.last() {
        let whole_kg = kg(&|_| true);
        list.push(boxed(Load::Whole, last.outside().size_mm(), whole_kg, feet_m));
    }
    if shells.len() > 1 {
        for shell in shells {
            let name = shell.name;
            let own = kg(&|of| match of {
                MassOf::Layer(of, _) | MassOf::Joints(of) | MassOf::Braces(of) => *of == name,
                MassOf::Baffle | MassOf::Lining => name == ShellName::Inner,
                MassOf::GapFill => name == ShellName::Outer,
                MassOf::Contents => false,
            });
            list.push(boxed(Load::Shell(name), shell.outside().size_mm(), own, 0.0));
        }
    }
    for shell in shells {
        let boards = parts.iter().filter(|part| part.shell == shell.name && part.is_lid);
        let across = shell.lid.across();
        let largest = |axis: usize| boards.clone().map(|part| part.at.size_mm()[axis]).fold(0.0, f64::max);
        let thickness: f64 = shell.layers.iter().map(|layer| layer.board.thickness_mm + layer.joint_mm).sum();
        let size_mm = [largest(across[0]), largest(across[1]), thickness];
        let lift = lift(lid_kg(shell, parts));
        list.push(Carrying { what: Load::Lid(shell.name), size_mm, lift, passage: None });
    }
    list
}
