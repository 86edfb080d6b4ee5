//! The shells of a design as layers of boards: every sheet is a box of its own round the one before.

use crate::buildup::raw::{Layer, NameOr, SheetNumbers};
use crate::design::{CheckedDesign, LidPart};
use crate::enclosure::LidForm;
use crate::material;

use super::panel::{Block, Face, Joints, LayerBox, LidFit};

/// Which of the boxes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub enum ShellName {
    /// The box round the source.
    Inner,
    /// The box round that.
    Outer,
}

impl ShellName {
    /// Letter in the names of parts.
    pub const fn letter(self) -> char {
        match self {
            Self::Inner => 'I',
            Self::Outer => 'O',
        }
    }

    /// Name for people.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Inner => "inner box",
            Self::Outer => "outer box",
        }
    }
}

/// What a board is made of.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Board {
    /// Key of the catalogue, or `own-` with the density in kg/m3 of an own material.
    pub key: String,
    /// Name for people.
    pub name: String,
    /// Thickness in mm as measured, which counts for every size.
    pub thickness_mm: f64,
    /// Nominal thickness in mm: what to ask for in a shop.
    pub nominal_mm: f64,
    /// Density in kg/m3.
    pub density: f64,
    /// Whether its grain runs along one side.
    pub has_grain: bool,
}

/// By which part a board may be thinner or thicker than its nominal thickness; assumed: makers keep on the thin side.
const NOMINAL_SHARES: [f64; 2] = [0.08, 0.04];

impl Board {
    /// A board of `sheet`; `None` for a key that the catalogue does not have, which no checked design holds.
    pub fn new(sheet: &NameOr<SheetNumbers>, thickness_mm: f64) -> Option<Self> {
        Some(match sheet {
            NameOr::Name(key) => {
                let material = material::sheet(key)?;
                Self {
                    key: key.clone(),
                    name: material.name.to_owned(),
                    thickness_mm,
                    nominal_mm: nominal_mm(material.stock_mm, thickness_mm),
                    density: material.density,
                    has_grain: material.has_grain,
                }
            }
            NameOr::Numbers(numbers) => Self {
                key: format!("own-{:.0}", numbers.density),
                name: "Own material".to_owned(),
                thickness_mm,
                nominal_mm: thickness_mm,
                density: numbers.density,
                has_grain: false,
            },
        })
    }

    /// The key of its price among the numbers of one's own.
    pub fn own_key(&self) -> String {
        format!("{}/{}", self.key, self.nominal_mm)
    }
}

/// The thickness in mm of those in stock that a board of `thickness_mm` is sold as: the nearest, if it is near enough.
fn nominal_mm(stock_mm: &[f64], thickness_mm: f64) -> f64 {
    let off = |stock: &f64| (stock - thickness_mm).abs();
    let [thinner, thicker] = NOMINAL_SHARES;
    let is_sold_as = |stock: &f64| (stock * (1.0 - thinner)..=stock * (1.0 + thicker)).contains(&thickness_mm);
    let nearest = stock_mm.iter().copied().min_by(|one, other| off(one).total_cmp(&off(other)));
    nearest.filter(is_sold_as).unwrap_or(thickness_mm)
}

/// What joins a layer to the one inside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum JointKind {
    /// Nothing: it is the innermost.
    None,
    /// Screws alone.
    Screws,
    /// Glue and screws.
    Glue,
    /// Damping compound and screws.
    Compound,
    /// A bond of one's own.
    Own,
}

/// One layer of a shell.
#[derive(Clone, Debug, PartialEq)]
pub struct ShellLayer {
    /// Its place from the inside, 0 at first.
    pub place: usize,
    /// What it is made of.
    pub board: Board,
    /// What joins it to the layer inside it.
    pub joint: JointKind,
    /// Thickness in mm of that joint.
    pub joint_mm: f64,
    /// Whether it stands there already: nothing of it is sawn or bought.
    pub exists: bool,
    /// Its six boards.
    pub layer: LayerBox,
}

/// A shell as layers.
#[derive(Clone, Debug, PartialEq)]
pub struct ShellBox {
    /// Which one.
    pub name: ShellName,
    /// Its layers from the inside out.
    pub layers: Vec<ShellLayer>,
    /// The face that is its lid.
    pub lid: Face,
    /// Whether the lid has steps.
    pub is_stepped: bool,
    /// How many seals lie one behind the other.
    pub seals: usize,
}

impl ShellBox {
    /// What it encloses.
    pub fn inside(&self) -> Block {
        self.layers[0].layer.inside
    }

    /// Its outside.
    pub fn outside(&self) -> Block {
        self.layers[self.layers.len() - 1].layer.outside()
    }

    /// Layers from raw ones round `inside`; `None` where there is no sheet, which no checked design has.
    fn new(name: ShellName, raw: &[Layer], exists: bool, lid: &LidPart, inside: Block, design: &CheckedDesign) -> Option<Self> {
        let build = &design.document.build;
        let mut boards: Vec<(Board, JointKind, f64)> = Vec::new();
        let mut joint = (JointKind::None, 0.0);
        for layer in raw {
            if let (Some(sheet), Some(thickness_mm)) = (&layer.sheet, layer.thickness_mm) {
                // Sheets next to each other without a bond are loose.
                let kind = if boards.is_empty() || joint.0 != JointKind::None { joint } else { (JointKind::Screws, 0.0) };
                boards.push((Board::new(sheet, thickness_mm)?, kind.0, kind.1));
                joint = (JointKind::None, 0.0);
            }
            joint = match &layer.bond {
                Some(NameOr::Name(key)) if key == "damping-compound" => (JointKind::Compound, build.compound_mm()),
                Some(NameOr::Name(key)) if key == "rigid-glue" => (JointKind::Glue, 0.0),
                Some(NameOr::Name(_)) => (JointKind::Screws, 0.0),
                Some(NameOr::Numbers(numbers)) => (JointKind::Own, numbers.thickness_mm),
                None => joint,
            };
        }
        let face = Face::of_lid(lid.face);
        let is_stepped = lid.form == LidForm::Stepped;
        let wall_mm: f64 = boards.iter().map(|(board, _, joint_mm)| board.thickness_mm + joint_mm).sum();
        let end_mm = |block: Block| if face.is_far() { block.to_mm[face.axis()] } else { block.from_mm[face.axis()] };
        let mut within = inside;
        let mut layers = Vec::with_capacity(boards.len());
        for (place, (board, joint, joint_mm)) in boards.into_iter().enumerate() {
            within = within.grown(joint_mm);
            let outside = within.grown(board.thickness_mm);
            let fit = LidFit {
                face,
                opening: if is_stepped { within } else { inside },
                walls_end_mm: end_mm(if is_stepped { outside } else { inside.grown(wall_mm) }),
                clearance_mm: build.lid_clearance_mm,
            };
            let layer = LayerBox {
                inside: within,
                thickness_mm: board.thickness_mm,
                joints: Joints::of_layer(place),
                clearance_mm: build.clearance_mm,
                lid: Some(fit),
            };
            let exists = exists && place == 0;
            layers.push(ShellLayer { place, board, joint, joint_mm, exists, layer });
            within = outside;
        }
        let seals = lid.seals as usize;
        (!layers.is_empty()).then_some(Self { name, layers, lid: face, is_stepped, seals })
    }
}

/// The shells of `design`, the inner one first.
pub fn shells(design: &CheckedDesign) -> Vec<ShellBox> {
    let document = &design.document;
    let inside = Block::centred(design.inside_m.map(|side| 1000.0 * side));
    let part = &document.inner;
    let inner = ShellBox::new(ShellName::Inner, &part.layers, part.existing, &part.lid, inside, design);
    let outer = document.outer.as_ref().zip(inner.as_ref()).and_then(|(part, inner)| {
        let inside = inner.outside().grown(document.gap.depth_mm);
        ShellBox::new(ShellName::Outer, &part.layers, false, &part.lid, inside, design)
    });
    inner.into_iter().chain(outer).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_measured_board_is_sold_as_the_nominal_one_next_to_it() {
        assert_eq!(nominal_mm(&[12.0, 15.0, 18.0], 17.4), 18.0);
        assert_eq!(nominal_mm(&[12.0, 15.0, 18.0], 12.3), 12.0);
        assert_eq!(nominal_mm(&[12.0, 15.0, 18.0], 40.0), 40.0);
        assert_eq!(nominal_mm(&[12.0, 15.0, 18.0], 16.0), 16.0, "nobody sells 16 mm as 15");
        assert_eq!(nominal_mm(&[], 6.0), 6.0);
    }
}
