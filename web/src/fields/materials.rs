//! The numbers of a sheet whose material is a person's own, and what helps to find them.

use hushwright::buildup::raw::{NameOr, SheetNumbers};
use hushwright::design::Design;
use hushwright::material::{self, SheetMaterial};

use super::table::{Row, both, ranges};
use super::{Field, Shell};
use crate::quantity::{Quantity, Units};

/// Sheets of the catalogue whose numbers are told for comparison.
const TYPICAL: [&str; 4] = ["birch-plywood", "mdf", "gypsum-board", "steel"];

/// Makes [`MaterialNumber`] and its rows out of one table.
macro_rules! numbers {
    ($($name:ident $path:literal $label:literal $quantity:ident ($ranges:expr) $place:expr, $typical:expr, $hint:literal;)*) => {
        /// A number of a material of one's own.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum MaterialNumber {
            $(#[doc = concat!("`sheet.", $path, "`")] $name,)*
        }

        /// A number's row, its place in a material, the same of one from the catalogue, what it is and how one finds it.
        struct MaterialRow {
            row: Row,
            place: fn(&mut SheetNumbers) -> Option<&mut f64>,
            typical: fn(&SheetMaterial) -> f64,
            hint: &'static str,
        }

        impl MaterialNumber {
            /// All of them.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            fn of(self) -> &'static MaterialRow {
                match self {
                    $(Self::$name => const { &MaterialRow {
                        row: Row {
                            path: $path,
                            label: $label,
                            part: "",
                            quantity: Quantity::$quantity,
                            ranges: $ranges,
                            place: |_| None,
                        },
                        place: $place,
                        typical: $typical,
                        hint: $hint,
                    } },)*
                }
            }
        }
    };
}

// Weighing, and that Poisson's ratio cannot be found at home: common practice, no source. Sag of a loaded cantilever: J. M. Gere and
// S. P. Timoshenko, Mechanics of Materials. Loss factor from the time of decay: L. Cremer, M. Heckl and B. A. T. Petersson,
// Structure-Borne Sound. Shear of plywood: as the catalogue assumes it.
numbers! {
    Density "density" "Density" Density (ranges((50.0, 3000.0, 10.0), (4.0, 190.0, 1.0))) |n| Some(&mut n.density), |m| m.density,
        "Weigh a cut piece, and divide by its length, width and thickness.";
    YoungsModulus "youngs_modulus" "Young's modulus" Modulus (ranges((0.1, 20.0, 0.1), (0.02, 3.0, 0.02)))
        |n| Some(&mut n.youngs_modulus), |m| m.youngs_modulus,
        "How stiff it is. Clamp a strip of width b and thickness t so that a length L sticks out; a mass m at its end lowers that by s. \
         In metres and kilograms it is 4 · 9.81 m L³ ÷ (b t³ s) pascals (Gere and Timoshenko).";
    Poisson "poisson" "Poisson's ratio" Ratio (both((0.0, 0.49, 0.01))) |n| Some(&mut n.poisson), |m| m.poisson,
        "How much it thins when stretched. Nobody finds it at home, and it matters little.";
    LossFactor "loss_factor" "Loss factor" Ratio (both((0.0, 0.3, 0.005))) |n| Some(&mut n.loss_factor), |m| m.loss_factor,
        "How soon it falls silent. Hang a strip on a thread and tap it: 2.2 ÷ (pitch in Hz × seconds until it is 60 dB down) \
         (Cremer, Heckl and Petersson). A few hundredths if in doubt.";
    ShearModulus "shear_modulus" "Shear modulus" Modulus (ranges((0.05, 5.0, 0.05), (0.01, 0.7, 0.01)))
        |n| n.shear_modulus.as_mut(), SheetMaterial::shear_modulus_pa,
        "Stiffness against sliding of its faces. Plywood has a tenth to a fifth of what an isotropic sheet has; boards with a soft core \
         less still. It is assumed, not measured.";
}

impl MaterialNumber {
    pub(super) fn row(self) -> &'static Row {
        &self.of().row
    }

    pub(super) fn place(self, numbers: &mut SheetNumbers) -> Option<&mut f64> {
        (self.of().place)(numbers)
    }

    /// What it is, what some sheets of the catalogue have, and how one finds it.
    pub fn hint(self, units: Units) -> String {
        let row = self.of();
        let typical = |key: &&str| {
            let sheet = material::sheet(key)?;
            Some(format!("{} {}", sheet.name, row.row.quantity.write((row.typical)(sheet), units)))
        };
        format!("{} {}.", row.hint, TYPICAL.iter().filter_map(typical).collect::<Vec<_>>().join(", "))
    }
}

/// The numbers of sheet `k` of a shell, if its material is a person's own.
pub(super) fn numbers_of(design: &mut Design, shell: Shell, k: usize) -> Option<&mut SheetNumbers> {
    match shell.layers_mut(design)?.get_mut(2 * k)?.sheet.as_mut()? {
        NameOr::Numbers(numbers) => Some(numbers),
        NameOr::Name(_) => None,
    }
}

/// The fields of sheet `k` of a shell: its thickness, and its numbers if there are any.
pub(super) fn fields_of(shell: Shell, k: usize) -> impl Iterator<Item = Field> {
    let numbers = MaterialNumber::ALL.iter().map(move |number| Field::SheetNumber(shell, k, *number));
    std::iter::once(Field::SheetThickness(shell, k)).chain(numbers)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::leaf;

    /// The default design with an inner sheet of one's own.
    fn own() -> Design {
        let mut design = Design::default();
        leaf::set_material(&mut design.inner.layers, 0, leaf::OWN);
        leaf::set_shear(&mut design.inner.layers, 0, true);
        design
    }

    #[test]
    fn the_core_refuses_nonsense_under_the_path_of_the_number() {
        let design = own();
        for number in MaterialNumber::ALL {
            let field = Field::SheetNumber(Shell::Inner, 0, *number);
            for nonsense in [f64::NAN, f64::INFINITY, -1.0, 1e13] {
                let mut wrong = design.clone();
                assert!(field.set(&mut wrong, nonsense));
                let errors = wrong.check().unwrap_err();
                assert_eq!(errors[0].path, field.path(), "{errors:?}");
                assert_eq!(Field::at(&errors[0].path, &design), Some(field));
            }
        }
    }

    /// Its ends can be built with, in either system, and a number comes back as it was written.
    #[test]
    fn a_slider_stays_within_what_the_core_allows() {
        for units in [Units::Metric, Units::Imperial] {
            for number in MaterialNumber::ALL {
                let field = Field::SheetNumber(Shell::Inner, 0, *number);
                let range = field.slider(units);
                for shown in [range.low, range.low + range.step, range.high] {
                    let mut moved = own();
                    let value = field.quantity().to_document(shown, units);
                    field.set(&mut moved, value);
                    assert!(moved.check().is_ok(), "{field:?} {shown} {units:?}: {:?}", moved.check().err());
                    let text = field.quantity().write(value, units);
                    assert_eq!(field.quantity().read(&text, units), Some(value), "{text}");
                }
            }
        }
    }

    #[test]
    fn what_helps_names_numbers_of_the_catalogue() {
        let density = MaterialNumber::Density.hint(Units::Metric);
        assert!(density.contains("MDF 740, Gypsum board") && density.ends_with('.'), "{density}");
        assert!(MaterialNumber::Density.hint(Units::Imperial).contains("MDF 46.2"));
        assert!(MaterialNumber::YoungsModulus.hint(Units::Metric).contains("MDF 3.2,"));
        for number in MaterialNumber::ALL {
            assert!(number.hint(Units::Imperial).contains("Steel"), "{number:?}");
        }
    }

    #[test]
    fn only_a_material_of_ones_own_has_numbers() {
        let named = Design::default();
        for field in fields_of(Shell::Inner, 0).skip(1) {
            assert_eq!((field.get(&named), field.set(&mut named.clone(), 1.0)), (None, false));
        }
        let mut isotropic = own();
        leaf::set_shear(&mut isotropic.inner.layers, 0, false);
        assert_eq!(Field::SheetNumber(Shell::Inner, 0, MaterialNumber::ShearModulus).get(&isotropic), None);
    }
}
