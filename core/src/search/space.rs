//! What may vary: sheets from stock, their number, the gap, its fill, braces, lids and lining.

use super::choice::Lists;
use crate::buildup::check::{COMPOUND_THICKNESS_MM, Problems, check_leaf};
use crate::buildup::raw::{Layer, NameOr, SheetNumbers};
use crate::design::{BracesPart, Design, Fill, limits};
use crate::enclosure::{BraceKind, LidForm, SealKind};
use crate::error::FieldError;

/// A sheet that is at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// Its material.
    pub sheet: NameOr<SheetNumbers>,
    /// Its thickness in mm.
    pub thickness_mm: f64,
}

impl Board {
    /// A sheet of the catalogue.
    pub fn new(key: &str, thickness_mm: f64) -> Self {
        Self { sheet: NameOr::Name(key.to_owned()), thickness_mm }
    }

    /// The innermost sheet of `layers`.
    fn innermost(layers: &[Layer]) -> Option<Self> {
        let Layer { sheet: Some(sheet), thickness_mm: Some(thickness_mm), .. } = layers.first()? else { return None };
        Some(Self { sheet: sheet.clone(), thickness_mm: *thickness_mm })
    }

    fn layer(&self) -> Layer {
        Layer { sheet: Some(self.sheet.clone()), thickness_mm: Some(self.thickness_mm), ..Layer::default() }
    }
}

/// What joins the sheets of a leaf, every two of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// Damping compound.
    Compound,
    /// Screws alone: lighter, cheaper, and little damping.
    Loose,
    /// Glue: stiffer, and no damping.
    Glue,
}

impl Joint {
    const fn key(self) -> &'static str {
        match self {
            Self::Compound => "damping-compound",
            Self::Loose => "loose",
            Self::Glue => "rigid-glue",
        }
    }
}

/// How the lids close.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lids {
    /// As in the design that the search starts from.
    AsTheyAre,
    /// All lids alike.
    Alike {
        /// Straight or stepped edge.
        form: LidForm,
        /// How many seals lie one behind the other.
        seals: f64,
        /// What a seal is.
        seal: SealKind,
    },
}

/// What may vary, each list with every other; everything else is that of the design that the search starts from.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// Sheets at hand. A leaf is any of them in any order, but of two orders that mirror each other, which sound alike, only the
    /// one that begins inside with the sheet that stands first here.
    pub stock: Vec<Board>,
    /// Joints between the sheets of a leaf.
    pub joints: Vec<Joint>,
    /// The innermost sheet of the inner shell, if it is one that stands already: everything else is laid outside it, and it counts
    /// among the sheets of the shell.
    pub kept: Option<Board>,
    /// Fewest and most sheets of the inner shell.
    pub inner_sheets: [usize; 2],
    /// Fewest and most sheets of the outer shell.
    pub outer_sheets: [usize; 2],
    /// Whether boxes without an outer shell count too.
    pub single_shells: bool,
    /// Whether boxes with an outer shell count.
    pub double_shells: bool,
    /// Further build-ups of the inner shell, from the inside out.
    pub more_inner: Vec<Vec<Layer>>,
    /// Further build-ups of the outer shell.
    pub more_outer: Vec<Vec<Layer>>,
    /// Depths of the gap in mm.
    pub gaps_mm: Vec<f64>,
    /// Parts of the gap's depth that are filled; 0 is no fill.
    pub fill_shares: Vec<f64>,
    /// Braces of the inner shell.
    pub inner_braces: Vec<Option<BracesPart>>,
    /// Braces of the outer shell.
    pub outer_braces: Vec<Option<BracesPart>>,
    /// How the lids close.
    pub lids: Vec<Lids>,
    /// Thicknesses of the lining in mm; 0 is no lining.
    pub linings_mm: Vec<f64>,
}

/// Most combinations of a space.
pub const MOST_COMBINATIONS: u64 = 20_000_000;
/// Most sheets at hand.
pub const MOST_BOARDS: usize = 24;
/// Most sheets of a shell.
pub const MOST_SHEETS: usize = 4;
/// Most choices of braces, lids and lining for one inner leaf, which are worked on in one piece.
const MOST_INNER_CHOICES: u64 = 150;
/// Most choices beside leaves and depth of the gap: the same for two leaves and a gap.
const MOST_CHOICES: u64 = 2000;
/// Most entries of any other list.
const MOST_ENTRIES: usize = 12;

/// Sheets that most shops keep; common practice, no source.
const USUAL: [(&str, f64); 5] =
    [("birch-plywood", 12.0), ("birch-plywood", 18.0), ("particle-board", 18.0), ("mdf", 15.0), ("gypsum-board", 12.5)];
/// Deepest default batten in mm.
const BATTEN_DEPTH_MM: f64 = 40.0;
/// By how much in mm the default lining is thicker than that of the design.
const MORE_LINING_MM: f64 = 50.0;
/// By how much in mm the default gaps are deeper than that of the design.
const MORE_GAP_MM: [f64; 2] = [25.0, 50.0];

impl Space {
    /// Keys and thicknesses in mm of sheets that most shops keep.
    pub const fn usual_stock() -> &'static [(&'static str, f64)] {
        &USUAL
    }

    /// A space round `base`: usual sheets and those that it uses, one or two in the inner shell and none to three in the outer one,
    /// its own gap and deeper ones, no fill, its own and a full one, with a batten and without, and lids that close better. An inner
    /// box that stands already keeps its innermost sheet.
    pub fn of(base: &Design) -> Self {
        let mut stock: Vec<Board> = USUAL.iter().map(|&(key, thickness_mm)| Board::new(key, thickness_mm)).collect();
        let outer_layers = base.outer.as_ref().map_or(&[][..], |shell| &shell.layers);
        for layer in base.inner.layers.iter().chain(outer_layers) {
            if let (Some(sheet), Some(thickness_mm)) = (&layer.sheet, layer.thickness_mm) {
                push_new(&mut stock, Board { sheet: sheet.clone(), thickness_mm });
            }
        }
        let own_gap_mm = base.gap.depth_mm;
        let mut gaps_mm = vec![own_gap_mm];
        for more_mm in MORE_GAP_MM {
            push_new(&mut gaps_mm, (own_gap_mm + more_mm).min(limits::GAP_MM.1));
        }
        let mut fill_shares = vec![0.0];
        push_new(&mut fill_shares, base.gap.fill.as_ref().map_or_else(|| Fill::default().share, |fill| fill.share));
        push_new(&mut fill_shares, 1.0);
        let batten = |depth_mm: f64| BracesPart { kind: BraceKind::Battens, count: 1.0, depth_mm, ..BracesPart::default() };
        let braces = |own: Option<&BracesPart>, depth_mm: f64| {
            let mut braces = vec![own.cloned()];
            push_new(&mut braces, None);
            if own.is_none() {
                push_new(&mut braces, Some(batten(depth_mm.clamp(limits::BRACE_DEPTH_MM.0, BATTEN_DEPTH_MM))));
            }
            braces
        };
        let smallest_mm = base.inner.length_mm.min(base.inner.width_mm).min(base.inner.height_mm);
        let most_lining_mm = limits::LINING_MM.1.min(0.45 * smallest_mm);
        let own_lining_mm = base.inner.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm);
        let mut linings_mm = vec![own_lining_mm];
        push_new(&mut linings_mm, (own_lining_mm + MORE_LINING_MM).min(most_lining_mm).max(own_lining_mm));
        let alike = |form, seals| Lids::Alike { form, seals, seal: SealKind::Compressed };
        Self {
            stock,
            joints: vec![Joint::Compound],
            kept: Self::kept_of(base),
            inner_sheets: [1, 2],
            outer_sheets: [1, 3],
            single_shells: true,
            double_shells: true,
            more_inner: vec![base.inner.layers.clone()],
            more_outer: base.outer.iter().map(|shell| shell.layers.clone()).collect(),
            gaps_mm,
            fill_shares,
            inner_braces: braces(base.inner.braces.as_ref(), 0.4 * smallest_mm),
            outer_braces: braces(base.outer.as_ref().and_then(|shell| shell.braces.as_ref()), own_gap_mm - limits::CLEARANCE_MM),
            lids: vec![Lids::AsTheyAre, alike(LidForm::Plain, 2.0), alike(LidForm::Stepped, 3.0)],
            linings_mm,
        }
    }

    /// The sheet of `base` that a search has to keep.
    fn kept_of(base: &Design) -> Option<Board> {
        if base.inner.existing { Board::innermost(&base.inner.layers) } else { None }
    }

    /// How many designs there are in it; those that do not fit count too. Far beyond [`MOST_COMBINATIONS`]: `u64::MAX`.
    pub fn combinations(&self) -> u64 {
        let inner = self.leaves_at_most(self.inner_sheets, self.kept.is_some());
        let most = inner.saturating_add(self.leaves_at_most(self.outer_sheets, false));
        if most > MOST_COMBINATIONS {
            return u64::MAX;
        }
        self.lists().combinations()
    }

    /// How many leaves stock gives, those of `more_inner` and `more_outer` left out.
    fn leaves_at_most(&self, [least, most]: [usize; 2], one_is_kept: bool) -> u64 {
        let boards = self.stock.len() as u64;
        let free = |sheets: usize| sheets.saturating_sub(usize::from(one_is_kept)) as u32;
        let leaves = (least..=most.min(MOST_SHEETS)).map(|sheets| boards.saturating_pow(free(sheets)));
        leaves.fold(0_u64, u64::saturating_add).saturating_mul(self.joints.len() as u64)
    }

    /// All leaves and the other lists without what is there twice.
    pub(super) fn lists(&self) -> Lists {
        Lists {
            inner: self.leaves(self.kept.as_ref(), self.inner_sheets, &self.more_inner),
            outer: if self.double_shells { self.leaves(None, self.outer_sheets, &self.more_outer) } else { Vec::new() },
            single_shells: self.single_shells,
            gaps_mm: once(&self.gaps_mm),
            fill_shares: once(&self.fill_shares),
            inner_braces: once(&self.inner_braces),
            outer_braces: once(&self.outer_braces),
            lids: once(&self.lids),
            linings_mm: once(&self.linings_mm),
        }
    }

    fn leaves(&self, kept: Option<&Board>, [least, most]: [usize; 2], more: &[Vec<Layer>]) -> Vec<Vec<Layer>> {
        let stock = once(&self.stock);
        let mut leaves = Vec::new();
        for sheets in least..=most {
            let joints = if sheets > 1 { &once(&self.joints)[..] } else { &[Joint::Compound] };
            for &joint in joints {
                let mut order = vec![0; sheets.saturating_sub(usize::from(kept.is_some()))];
                loop {
                    // What lies outside a sheet that is kept has no mirror image.
                    if kept.is_some() || order.iter().le(order.iter().rev()) {
                        leaves.push(layers(kept.into_iter().chain(order.iter().map(|&board| &stock[board])), joint));
                    }
                    // The next number with as many digits as sheets.
                    let Some(place) = order.iter().rposition(|&board| board + 1 < stock.len()) else { break };
                    order[place] += 1;
                    order[place + 1..].fill(0);
                }
            }
        }
        // Few are added to many: a search through all of them each time does no harm.
        for own in more {
            push_new(&mut leaves, own.clone());
        }
        leaves
    }

    /// Checks that what stands already in `base` is kept.
    ///
    /// # Errors
    /// What would replace it.
    pub(super) fn check_kept(&self, base: &Design) -> Result<(), Vec<FieldError>> {
        let kept = Self::kept_of(base);
        let mut problems = Problems::default();
        if self.kept != kept {
            let message = match kept {
                Some(_) => "the innermost sheet of the inner box stands already, and is kept",
                None => "nothing stands already that could be kept",
            };
            problems.push("space.kept", message);
        }
        for (k, leaf) in self.more_inner.iter().enumerate() {
            if kept.is_some() && Board::innermost(leaf) != kept {
                problems.push(format!("space.more_inner[{k}]"), "begins with the sheet that stands already");
            }
        }
        problems.finish(())
    }

    /// Checks every wish by itself; what does not fit the base is left to the search.
    ///
    /// # Errors
    /// Every wish that is out of range, with what is allowed.
    pub(super) fn check(&self) -> Result<(), Vec<FieldError>> {
        let mut problems = Problems::default();
        let p = &mut problems;
        let filled = |p: &mut Problems, path: &str, count: usize, most: usize| {
            if count == 0 || count > most {
                p.push(path, format!("allowed are 1 to {most} of these: with none there is nothing to choose from"));
            }
        };
        filled(p, "space.stock", self.stock.len(), MOST_BOARDS);
        filled(p, "space.joints", self.joints.len(), MOST_ENTRIES);
        filled(p, "space.gaps_mm", self.gaps_mm.len(), MOST_ENTRIES);
        filled(p, "space.fill_shares", self.fill_shares.len(), MOST_ENTRIES);
        filled(p, "space.inner_braces", self.inner_braces.len(), MOST_ENTRIES);
        filled(p, "space.outer_braces", self.outer_braces.len(), MOST_ENTRIES);
        filled(p, "space.lids", self.lids.len(), MOST_ENTRIES);
        filled(p, "space.linings_mm", self.linings_mm.len(), MOST_ENTRIES);
        if !self.single_shells && !self.double_shells {
            p.push("space.double_shells", "one shell or two: one of them has to be allowed");
        }
        for (path, [least, most]) in [("space.inner_sheets", self.inner_sheets), ("space.outer_sheets", self.outer_sheets)] {
            if least == 0 || most < least || most > MOST_SHEETS {
                p.push(path, format!("allowed are 1 to {MOST_SHEETS} sheets, the fewest first"));
            }
        }
        for (k, board) in self.stock.iter().enumerate().take(MOST_BOARDS) {
            check_leaf(p, &format!("space.stock[{k}]"), &[board.layer()], COMPOUND_THICKNESS_MM);
        }
        for (path, leaves) in [("space.more_inner", &self.more_inner), ("space.more_outer", &self.more_outer)] {
            if leaves.len() > MOST_ENTRIES {
                p.push(path, format!("at most {MOST_ENTRIES}"));
            }
            for (k, leaf) in leaves.iter().enumerate().take(MOST_ENTRIES) {
                check_leaf(p, &format!("{path}[{k}]"), leaf, COMPOUND_THICKNESS_MM);
            }
        }
        for (k, &depth_mm) in self.gaps_mm.iter().enumerate() {
            p.within(&format!("space.gaps_mm[{k}]"), depth_mm, limits::GAP_MM, "mm", "less touches, more is a room");
        }
        for (k, &share) in self.fill_shares.iter().enumerate() {
            p.within(&format!("space.fill_shares[{k}]"), share, (0.0, 1.0), "", "part of the depth that is filled");
        }
        for (k, &thickness_mm) in self.linings_mm.iter().enumerate() {
            if thickness_mm != 0.0 {
                let why = "or 0 for none; thicker would fill the box";
                p.within(&format!("space.linings_mm[{k}]"), thickness_mm, limits::LINING_MM, "mm", why);
            }
        }
        for (k, lids) in self.lids.iter().enumerate() {
            if let Lids::Alike { seals, .. } = lids
                && !(seals.fract() == 0.0 && (limits::SEALS.0..=limits::SEALS.1).contains(seals))
            {
                let (least, most) = limits::SEALS;
                p.push(format!("space.lids[{k}].seals"), format!("allowed are the whole numbers {least} to {most}"));
            }
        }
        for (list, braces) in [("inner_braces", &self.inner_braces), ("outer_braces", &self.outer_braces)] {
            for (k, braces) in braces.iter().enumerate() {
                let Some(braces) = braces else { continue };
                let path = format!("space.{list}[{k}]");
                let why = "braces of a box";
                let count = p.within(&format!("{path}.count"), braces.count, limits::BRACES, "", why);
                if count.fract() != 0.0 {
                    p.push(format!("{path}.count"), "a whole number");
                }
                p.within(&format!("{path}.width_mm"), braces.width_mm, limits::BRACE_WIDTH_MM, "mm", why);
                p.within(&format!("{path}.depth_mm"), braces.depth_mm, limits::BRACE_DEPTH_MM, "mm", why);
            }
        }
        problems.finish(())?;
        let choices = [&self.inner_braces[..], &self.outer_braces].map(|braces| once(braces).len() as u64);
        let inner = choices[0] * (once(&self.lids).len() * once(&self.linings_mm).len()) as u64;
        let all = inner * choices[1] * once(&self.fill_shares).len() as u64;
        if inner > MOST_INNER_CHOICES || all > MOST_CHOICES {
            let message = format!(
                "allowed are {MOST_INNER_CHOICES} choices of inner braces, lids and lining together, and {MOST_CHOICES} with fill and outer braces: leave some out"
            );
            return Err(vec![FieldError::new("space.lids", message)]);
        }
        let combinations = self.combinations();
        if combinations == 0 || combinations > MOST_COMBINATIONS {
            let message = format!("allowed are up to {MOST_COMBINATIONS} combinations: leave out sheets or choices");
            return Err(vec![FieldError::new("space", message)]);
        }
        Ok(())
    }
}

fn push_new<T: PartialEq>(list: &mut Vec<T>, new: T) {
    if !list.contains(&new) {
        list.push(new);
    }
}

/// `list` without what is there twice.
fn once<T: Clone + PartialEq>(list: &[T]) -> Vec<T> {
    let mut short = Vec::with_capacity(list.len());
    for entry in list {
        push_new(&mut short, entry.clone());
    }
    short
}

fn layers<'a>(boards: impl Iterator<Item = &'a Board>, joint: Joint) -> Vec<Layer> {
    let mut layers = Vec::new();
    for board in boards {
        if !layers.is_empty() {
            layers.push(Layer::bond(joint.key()));
        }
        layers.push(board.layer());
    }
    layers
}
