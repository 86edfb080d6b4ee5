//! What a person wants of a search, as the page has it and as it travels to the worker.

use hushwright::buildup::raw::{Layer, NameOr};
use hushwright::design::Design;
use hushwright::number;
use hushwright::search::{Board, Joint, Limits, Space};

/// A sheet from stock: key of its material and thickness in mm.
pub type Stock = (String, f64);

/// Limits and what may be built from; everything else is that of the design.
#[derive(Clone, Debug, PartialEq)]
pub struct Wishes {
    /// Most mass in kg, most cost, clear width and height in mm of the narrowest door; `None` is no limit.
    pub limits: [Option<f64>; 4],
    /// Sheets at hand; those of the design itself are always among them.
    pub stock: Vec<Stock>,
    /// Most sheets of the inner and of the outer shell; none outside means one shell alone.
    pub most_sheets: [usize; 2],
    /// Whether sheets are joined by compound, by screws alone, by glue.
    pub joints: [bool; 3],
}

impl Wishes {
    /// Limits of [`Self::limits`] in their order, as messages of the core call them.
    pub const LIMITS: [&str; 4] = ["limits.mass_kg", "limits.cost", "limits.door_mm[0]", "limits.door_mm[1]"];

    /// What is usual round `design`.
    pub fn of(design: &Design) -> Self {
        let stock = Space::usual_stock().iter().map(|&(key, thickness_mm)| (key.to_owned(), thickness_mm)).collect();
        let mut wishes = Self { limits: [None; 4], stock, most_sheets: [2, 3], joints: [true, false, false] };
        for layer in own_sheets(design) {
            if let (Some(NameOr::Name(key)), Some(thickness_mm)) = (&layer.sheet, layer.thickness_mm) {
                let own = (key.clone(), thickness_mm);
                if !wishes.stock.contains(&own) {
                    wishes.stock.push(own);
                }
            }
        }
        wishes
    }

    /// As it is sent; without spaces.
    pub fn to_text(&self) -> String {
        let number = |limit: &Option<f64>| limit.map_or_else(String::new, |limit| limit.to_string());
        let limits: Vec<String> = self.limits.iter().map(number).collect();
        let stock: Vec<String> = self.stock.iter().map(|(key, thickness_mm)| format!("{key}:{thickness_mm}")).collect();
        let joints: String = self.joints.iter().map(|&joint| if joint { '1' } else { '0' }).collect();
        let [inner, outer] = self.most_sheets;
        format!("{};{inner};{outer};{joints};{}", limits.join(";"), stock.join(";"))
    }

    /// As it arrives; `None` if these are no wishes.
    pub fn from_text(text: &str) -> Option<Self> {
        let mut parts = text.split(';');
        let mut limits = [None; 4];
        for limit in &mut limits {
            let part = parts.next()?;
            *limit = if part.is_empty() { None } else { Some(number::parse(part)?) };
        }
        let mut count =
            || parts.next().and_then(number::parse).filter(|count| (0.0..10.0).contains(count)).map(|count| count as usize);
        let most_sheets = [count()?, count()?];
        let marks = parts.next().filter(|marks| marks.len() == 3)?.as_bytes();
        let joints = std::array::from_fn(|k| marks[k] == b'1');
        let board = |part: &str| part.split_once(':').and_then(|(key, mm)| Some((key.to_owned(), number::parse(mm)?)));
        let stock = parts.filter(|part| !part.is_empty()).map(board).collect::<Option<_>>()?;
        Some(Self { limits, stock, most_sheets, joints })
    }

    /// The core's limits.
    pub fn limits(&self) -> Limits {
        let [mass_kg, cost, width, height] = self.limits;
        // A door of which one side is open ends nowhere that way.
        let door_mm = (width.is_some() || height.is_some()).then(|| [width, height].map(|side| side.unwrap_or(1e6)));
        Limits { mass_kg, cost, door_mm }
    }

    /// The space round `design`.
    pub fn space(&self, design: &Design) -> Space {
        let mut stock: Vec<Board> = self.stock.iter().map(|(key, thickness_mm)| Board::new(key, *thickness_mm)).collect();
        // Materials of one's own have no key to be chosen by.
        for layer in own_sheets(design) {
            if let (Some(sheet @ NameOr::Numbers(_)), Some(thickness_mm)) = (&layer.sheet, layer.thickness_mm) {
                stock.push(Board { sheet: sheet.clone(), thickness_mm });
            }
        }
        let all = [Joint::Compound, Joint::Loose, Joint::Glue];
        let [inner, outer] = self.most_sheets;
        Space {
            stock,
            joints: all.into_iter().zip(self.joints).filter_map(|(joint, wanted)| wanted.then_some(joint)).collect(),
            inner_sheets: [1, inner],
            outer_sheets: [1, outer.max(1)],
            double_shells: outer > 0,
            ..Space::of(design)
        }
    }
}

fn own_sheets(design: &Design) -> impl Iterator<Item = &Layer> {
    let outer = design.outer.as_ref().map_or(&[][..], |shell| &shell.layers);
    design.inner.layers.iter().chain(outer).filter(|layer| layer.sheet.is_some())
}

#[cfg(test)]
mod tests {
    use hushwright::buildup::raw::SheetNumbers;
    use hushwright::design::{examples, run_in_box};
    use hushwright::search::Search;

    use super::*;

    #[test]
    fn wishes_arrive() {
        for design in examples() {
            let mut wishes = Wishes::of(&design);
            assert_eq!(Wishes::from_text(&wishes.to_text()), Some(wishes.clone()));
            wishes.limits = [Some(120.5), None, Some(760.0), Some(1980.0)];
            wishes.joints = [false, true, true];
            wishes.stock.clear();
            assert_eq!(Wishes::from_text(&wishes.to_text()), Some(wishes.clone()));
            assert!(!wishes.to_text().contains(' '), "a space ends them");
        }
        for text in ["", "1;2;3", "a;;;;2;3;100", ";;;;2;3;10", ";;;;2;3;100;mdf", ";;;;2;99;100;mdf:15"] {
            assert_eq!(Wishes::from_text(text), None, "{text}");
        }
    }

    #[test]
    fn usual_wishes_can_be_searched_for_and_say_what_they_mean() {
        for design in examples() {
            let wishes = Wishes::of(&design);
            let space = wishes.space(&design);
            assert_eq!(space, Space::of(&design), "{}", design.name);
            assert!(Search::new(&design, &space, wishes.limits()).is_ok(), "{}", design.name);
        }
        let design = run_in_box();
        let single = Wishes { most_sheets: [2, 0], ..Wishes::of(&design) };
        assert!(!single.space(&design).double_shells);
        let door = Wishes { limits: [None, None, None, Some(1980.0)], ..single };
        assert_eq!(door.limits().door_mm.map(|[_, height]| height), Some(1980.0));
    }

    #[test]
    fn a_material_of_ones_own_is_at_hand() {
        let mut design = run_in_box();
        let numbers = SheetNumbers { density: 700.0, youngs_modulus: 3e9, poisson: 0.3, loss_factor: 0.02, shear_modulus: None };
        design.inner.layers[0].sheet = Some(NameOr::Numbers(numbers.clone()));
        let space = Wishes::of(&design).space(&design);
        assert!(space.stock.iter().any(|board| board.sheet == NameOr::Numbers(numbers.clone())));
    }
}
