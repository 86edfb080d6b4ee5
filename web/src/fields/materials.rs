//! The numbers of a sheet whose material is a person's own.

use hushwright::buildup::raw::{NameOr, SheetNumbers};
use hushwright::design::Design;

use super::table::{Row, both, path_of, place, ranges, seen};
use super::{Field, Shell};
use crate::quantity::Quantity;

/// Makes [`MaterialNumber`] and its rows out of one table.
macro_rules! numbers {
    ($($name:ident ($($place:tt)+) $label:literal $quantity:ident ($ranges:expr);)*) => {
        /// A number of a material of one's own.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum MaterialNumber {
            $(#[doc = concat!("`sheet.", path_of!($($place)+), "`")] $name,)*
        }

        /// A number's row, and its place in a material, to be read and to be changed.
        type MaterialRow = (Row, fn(&SheetNumbers) -> Option<&f64>, fn(&mut SheetNumbers) -> Option<&mut f64>);

        impl MaterialNumber {
            /// All of them.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            fn of(self) -> &'static MaterialRow {
                match self {
                    $(Self::$name => const { &(
                        Row {
                            path: path_of!($($place)+),
                            label: $label,
                            part: "",
                            quantity: Quantity::$quantity,
                            ranges: $ranges,
                            seen: |_| None,
                            place: |_| None,
                        },
                        |numbers| seen!(numbers; $($place)+),
                        |numbers| place!(numbers; $($place)+),
                    ) },)*
                }
            }
        }
    };
}

numbers! {
    Density (.density) "Density" Density (ranges((50.0, 3000.0, 10.0), (4.0, 190.0, 1.0)));
    YoungsModulus (.youngs_modulus) "Young’s modulus" Modulus (ranges((0.1, 20.0, 0.1), (0.02, 3.0, 0.02)));
    Poisson (.poisson) "Poisson’s ratio" Ratio (both((0.0, 0.49, 0.01)));
    LossFactor (.loss_factor) "Loss factor" Ratio (both((0.0, 0.3, 0.005)));
    ShearModulus (.shear_modulus?) "Shear modulus" Modulus (ranges((0.05, 5.0, 0.05), (0.01, 0.7, 0.01)));
}

impl MaterialNumber {
    pub(super) fn row(self) -> &'static Row {
        &self.of().0
    }

    pub(super) fn seen(self, numbers: &SheetNumbers) -> Option<&f64> {
        (self.of().1)(numbers)
    }

    pub(super) fn place(self, numbers: &mut SheetNumbers) -> Option<&mut f64> {
        (self.of().2)(numbers)
    }
}

/// The numbers of sheet `k` of a shell, if its material is a person's own.
pub(super) fn numbers_of(design: &Design, shell: Shell, k: usize) -> Option<&SheetNumbers> {
    match shell.layers(design).get(2 * k)?.sheet.as_ref()? {
        NameOr::Numbers(numbers) => Some(numbers),
        NameOr::Name(_) => None,
    }
}

/// The same, to be changed.
pub(super) fn numbers_to_change(design: &mut Design, shell: Shell, k: usize) -> Option<&mut SheetNumbers> {
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
    use crate::quantity::Units;

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
