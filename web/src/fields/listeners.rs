//! The numbers of a listener: the same rows for each.

use hushwright::design::ListenerPart;
use hushwright::need::{Background, CriterionKind};

use super::table::{Row, both, path_of, place, ranges, seen};
use crate::quantity::Quantity;

/// Makes [`ListenerField`] and its rows out of one table.
macro_rules! fields {
    ($($name:ident ($($place:tt)+) $label:literal $part:literal $quantity:ident ($ranges:expr), $counts:expr;)*) => {
        /// A number of a listener that can be edited.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum ListenerField {
            $(#[doc = concat!("`listeners[k].", path_of!($($place)+), "`")] $name,)*
        }

        /// What the table says of a number, its place in a listener, to be read and to be changed, and whether it has an effect there.
        type ListenerRow =
            (Row, fn(&ListenerPart) -> Option<&f64>, fn(&mut ListenerPart) -> Option<&mut f64>, fn(&ListenerPart) -> bool);

        impl ListenerField {
            /// All of them.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            pub(super) fn row(self) -> &'static ListenerRow {
                match self {
                    $(Self::$name => const { &(
                        Row {
                            path: path_of!($($place)+),
                            label: $label,
                            part: $part,
                            quantity: Quantity::$quantity,
                            ranges: $ranges,
                            seen: |_| None,
                            place: |_| None,
                        },
                        |listener| seen!(listener; $($place)+),
                        |listener| place!(listener; $($place)+),
                        $counts,
                    ) },)*
                }
            }
        }
    };
}

fields! {
    Area (.area_m2) "Area between" "partition" Area (ranges((0.5, 40.0, 0.5), (5.0, 400.0, 5.0))), |l| l.place.is_parted();
    Flanking (.flanking_db) "Lost to flanking" "" Decibels (both((0.0, 10.0, 0.5))), |l| l.place.is_parted() && l.partition.is_some();
    Corridor (.corridor_m2) "Floor of the corridor" "" Area (ranges((2.0, 60.0, 1.0), (20.0, 600.0, 10.0))), |l| l.place.has_corridor();
    Distance (.distance_m) "Distance" "listener" Distance (ranges((1.0, 50.0, 0.5), (3.0, 160.0, 1.0))), |l| l.place.has_distance();
    FloorArea (.room.floor_area_m2) "Floor area" "their room" Area (ranges((4.0, 100.0, 1.0), (40.0, 1000.0, 10.0))), |l| l.place.has_room();
    Height (.room.height_m) "Ceiling height" "their room" Distance (ranges((2.0, 6.0, 0.1), (6.5, 20.0, 0.25))), |l| l.place.has_room();
    Absorption (.room.absorption) "Absorption" "their room" Coefficient (both((0.02, 0.6, 0.01))), |l| l.place.has_room();
    LimitDba (.limit_dba) "Limit" "in dBA" Level (both((10.0, 70.0, 1.0))), |l| l.criterion == CriterionKind::Dba;
    LimitNr (.limit_nr) "NR curve" "" Curve (both((0.0, 60.0, 5.0))), |l| l.criterion == CriterionKind::Nr;
    LimitNc (.limit_nc) "NC curve" "" Curve (both((15.0, 60.0, 5.0))), |l| l.criterion == CriterionKind::Nc;
    Background (.background_dba) "Its level" "background" Level (both((10.0, 60.0, 1.0))), |l| l.background == Background::OwnLevel;
}
