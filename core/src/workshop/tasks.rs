//! Work: what has to be done, how much of it, in which order, and how long it takes.

use serde::{Deserialize, Serialize};

use crate::design::{CheckedDesign, OwnNumbers};

use super::operation::Operation;
use super::parts::Part;
use super::prices::minutes;
use super::purchases::has_stop;
use super::shells::{JointKind, ShellBox, ShellName};

/// A step of the work, in the order in which it is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum StepKind {
    /// Sheets are measured and marked out.
    MarkOut,
    /// All boards are sawn and labelled.
    Saw,
    /// The innermost layer of a box is put together round its opening.
    FirstLayer(ShellName),
    /// Layer `k` goes round the one before.
    NextLayer(ShellName, usize),
    /// Battens or shelves.
    Braces(ShellName),
    /// The baffle goes in.
    Baffle,
    /// Holes for cables, what sits in them, and cut-outs for ducts.
    Openings(ShellName),
    /// Ducts.
    Ducts,
    /// The lid is built up, fitted and sealed.
    Lid(ShellName),
    /// Wool goes into the inner box.
    Lining,
    /// Wool goes into the gap.
    GapFill,
    /// The inner box goes in and is hung up or set down.
    Suspension,
    /// Feet and handles.
    Feet,
    /// The closed box is tried out.
    Try,
}

/// So much of one kind of work within a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Task {
    /// The step that it belongs to.
    pub step: StepKind,
    /// What is done.
    pub operation: Operation,
    /// How much, in what the operation is counted by.
    pub amount: f64,
}

/// A step with the time it takes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// What it is.
    pub kind: StepKind,
    /// Hours of work.
    pub hours: f64,
    /// Hours to wait afterwards.
    pub drying_h: f64,
}

/// How many things of each kind there are that no board tells.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Counts {
    /// Sheets to be marked out.
    pub sheets: usize,
    /// Handles.
    pub handles: usize,
    /// Castors.
    pub castors: usize,
    /// Wool in the inner box, in m2.
    pub lining_m2: f64,
    /// Wool in the gap, in m2.
    pub fill_m2: f64,
}

/// Length in m of the seams of layer `k` of `shell`, those of its lid left out.
pub fn seam_m(shell: &ShellBox, k: usize) -> f64 {
    let size_mm = shell.layers[k].layer.inside.size_mm();
    // Of the twelve edges four lie along each axis; those round the lid belong to the lid.
    let all: f64 = size_mm.iter().map(|side| 4.0 * side).sum();
    (all - lid_perimeter_mm(shell, k)) / 1000.0
}

/// Perimeter in m of the clear opening that the lid closes.
pub fn lid_perimeter_m(shell: &ShellBox) -> f64 {
    lid_perimeter_mm(shell, 0) / 1000.0
}

fn lid_perimeter_mm(shell: &ShellBox, k: usize) -> f64 {
    let size_mm = shell.layers[k].layer.inside.size_mm();
    shell.lid.across().into_iter().map(|axis| 2.0 * size_mm[axis]).sum()
}

/// Area in m2 that joins layer `k` to the one inside it, the lid's part of it included.
pub fn joint_m2(shell: &ShellBox, k: usize) -> f64 {
    let size_mm = shell.layers[k].layer.inside.grown(-shell.layers[k].joint_mm).size_mm();
    2e-6 * (size_mm[0] * size_mm[1] + size_mm[1] * size_mm[2] + size_mm[2] * size_mm[0])
}

/// All work on `design`, in the order in which it is done.
pub fn tasks(design: &CheckedDesign, shells: &[ShellBox], parts: &[Part], counts: &Counts) -> Vec<Task> {
    let mut tasks = Vec::new();
    let mut add = |step, operation, amount: f64| {
        if amount > 0.0 {
            tasks.push(Task { step, operation, amount });
        }
    };
    let sawn = parts.iter().filter(|part| !part.exists).count() as f64;
    add(StepKind::MarkOut, Operation::Plan, counts.sheets as f64);
    add(StepKind::Saw, Operation::Saw, sawn);
    add(StepKind::Saw, Operation::Edge, sawn);
    for shell in shells {
        let name = shell.name;
        let own = || parts.iter().filter(move |part| part.shell == name && !part.exists);
        for (k, layer) in shell.layers.iter().enumerate().filter(|(_, layer)| !layer.exists) {
            let step = if k == 0 { StepKind::FirstLayer(name) } else { StepKind::NextLayer(name, k) };
            match layer.joint {
                JointKind::Compound | JointKind::Own => add(step, Operation::Spread, joint_m2(shell, k)),
                JointKind::Glue => add(step, Operation::Glue, joint_m2(shell, k)),
                JointKind::None | JointKind::Screws => {}
            }
            let screws: usize = own().filter(|part| part.layer == Some(k)).map(|part| part.screws.count()).sum();
            add(step, Operation::Screw, screws as f64);
            add(step, Operation::Seal, seam_m(shell, k));
        }
        let (braces, holes) = match (name, &design.outer) {
            (ShellName::Outer, Some((_, outer))) => (outer.braces.as_ref(), outer.holes.as_ref()),
            _ => (design.inner.braces.as_ref(), design.inner.holes.as_ref()),
        };
        // One on each of the four long faces.
        add(StepKind::Braces(name), Operation::Brace, braces.map_or(0.0, |braces| 4.0 * braces.count as f64));
        if name == ShellName::Inner {
            add(StepKind::Baffle, Operation::Rebate, own().filter(|part| part.layer.is_none()).count() as f64);
        }
        let bored: usize = own().map(|part| part.openings.len()).sum();
        add(StepKind::Openings(name), Operation::Bore, bored as f64);
        let jacks = if shells.last().is_some_and(|last| last.name == name) { holes.map_or(0, |holes| holes.count) } else { 0 };
        add(StepKind::Openings(name), Operation::Fit, jacks as f64);
        add(StepKind::Lid(name), Operation::Rebate, own().filter(|part| part.is_lid).count() as f64);
        // The four battens of its stop.
        add(StepKind::Lid(name), Operation::Brace, if has_stop(shell) { 4.0 } else { 0.0 });
        add(StepKind::Lid(name), Operation::FitLid, 1.0);
        add(StepKind::Lid(name), Operation::LayGasket, lid_perimeter_m(shell) * shell.seals as f64);
        match name {
            ShellName::Inner => add(StepKind::Lining, Operation::Line, counts.lining_m2),
            ShellName::Outer => add(StepKind::GapFill, Operation::Line, counts.fill_m2),
        }
    }
    // Before the weight of the inner box is in it.
    add(StepKind::Feet, Operation::Hang, design.feet.count as f64);
    add(StepKind::Feet, Operation::Fit, (counts.handles + counts.castors) as f64);
    if design.outer.is_some() {
        add(StepKind::Suspension, Operation::Hang, design.suspension.count as f64);
    }
    if let Some(vents) = &design.vents {
        add(StepKind::Ducts, Operation::Duct, vents.count as f64 * vents.length_m);
    }
    add(StepKind::Try, Operation::Try, shells.len() as f64);
    tasks
}

/// Hours of work on all `tasks`.
pub fn hours(tasks: &[Task], own: &OwnNumbers) -> f64 {
    tasks.iter().map(|task| task.amount * minutes(task.operation, own) / 60.0).sum()
}

/// The steps of `tasks` in their order, with hours of work and of drying.
pub fn steps(tasks: &[Task], own: &OwnNumbers) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    for task in tasks {
        let hours = task.amount * minutes(task.operation, own) / 60.0;
        let drying_h = task.operation.drying_h();
        match steps.iter_mut().find(|step| step.kind == task.step) {
            Some(step) => {
                step.hours += hours;
                step.drying_h = step.drying_h.max(drying_h);
            }
            None => steps.push(Step { kind: task.step, hours, drying_h }),
        }
    }
    steps
}
