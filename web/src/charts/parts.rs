//! The parts of a box that the section shows, each with the input that it leads to and its explanation.

use crate::choices::Choice;
use crate::explanations::{Topic, of_choice, of_field};
use crate::fields::{Field, Shell, id_of};

/// A part of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The lining of the inner box.
    Lining,
    /// Sheet `k` of a shell, from the inside out.
    Sheet(Shell, usize),
    /// The gap between two boxes.
    Gap,
    /// What it is filled with.
    Fill,
    /// The baffle with its driver.
    Baffle,
    /// What holds the inner box.
    Suspension,
    /// The lid of a shell.
    Lid(Shell),
    /// The holes of a shell.
    Holes(Shell),
    /// The braces of a shell.
    Braces(Shell),
    /// The vents.
    Vents,
    /// What the whole stands on.
    Feet,
}

impl Part {
    /// Id of the input that it leads to.
    pub fn input(self) -> String {
        let of_choice = |choice: Choice| id_of(&choice.path());
        match self {
            Self::Lining => Field::LiningThickness.id(),
            Self::Sheet(shell, k) => Field::SheetThickness(shell, k).id(),
            Self::Gap => Field::GapDepth.id(),
            Self::Fill => of_choice(Choice::Fill),
            Self::Baffle => of_choice(Choice::Baffle),
            Self::Suspension => of_choice(Choice::Suspension),
            Self::Lid(Shell::Inner) => of_choice(Choice::InnerFace),
            Self::Lid(Shell::Outer) => of_choice(Choice::OuterFace),
            Self::Holes(Shell::Inner) => Field::InnerHoles.id(),
            Self::Holes(Shell::Outer) => Field::OuterHoles.id(),
            Self::Braces(Shell::Inner) => of_choice(Choice::InnerBraces),
            Self::Braces(Shell::Outer) => of_choice(Choice::OuterBraces),
            Self::Vents => of_choice(Choice::Vents),
            Self::Feet => of_choice(Choice::Feet),
        }
    }

    /// What explains it.
    pub fn topic(self) -> Topic {
        match self {
            Self::Lining => of_field(Field::LiningThickness),
            Self::Sheet(shell, k) => of_choice(Choice::Sheet(shell, k)),
            Self::Gap => of_field(Field::GapDepth),
            Self::Fill => of_field(Field::FillShare),
            Self::Baffle => of_choice(Choice::Baffle),
            Self::Suspension => of_choice(Choice::Suspension),
            Self::Lid(_) => of_choice(Choice::OuterForm),
            Self::Holes(_) => of_field(Field::OuterHoles),
            Self::Braces(_) => of_choice(Choice::OuterBraces),
            Self::Vents => of_choice(Choice::Vents),
            Self::Feet => of_choice(Choice::Feet),
        }
    }
}
