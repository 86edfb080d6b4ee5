//! What takes several more estimates, and so waits until nothing changes for a moment: a measure, and what corners decide.

use hushwright::design::Design;
use hushwright::evaluate::{Evaluator, Remedy, Report, remedy};

/// Edge fixity between which a box of boards lies, and so the corners of an unknown one (assumed).
const CORNERS: [f64; 2] = [0.2, 0.9];

/// Answers about changed designs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Advice {
    /// The measure against the limiting path that brings most.
    pub remedy: Option<Remedy>,
    /// The answer in dBA with loose and with firm corners, all else alike.
    pub corners_dba: [f64; 2],
}

impl Advice {
    /// The advice on `design`, which has passed its check and does what `report` says.
    pub fn new(evaluator: &mut Evaluator, design: &Design, report: &Report) -> Self {
        let corners_dba = CORNERS.map(|fixity| {
            let mut changed = design.clone();
            changed.inner.edge_fixity = fixity;
            if let Some(shell) = &mut changed.outer {
                shell.edge_fixity = fixity;
            }
            changed.check().map_or(report.answer().dba, |checked| evaluator.evaluate(&checked).answer().dba)
        });
        Self { remedy: remedy(evaluator, design, report), corners_dba }
    }
}
