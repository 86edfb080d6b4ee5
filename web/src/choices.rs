//! Things that are chosen by name: one row says where a choice stands in the document, its keys and the words for them.

use hushwright::buildup::raw::Side;
use hushwright::design::limits;
use hushwright::design::{
    BafflePart, BracesPart, Design, DriverPart, Fill, HolesPart, LevelFrom, LidPart, LiningPart, SupportPart, VentsPart,
};
use hushwright::enclosure::{BraceKind, Floor, LidFace, LidForm, SealKind, SupportKind};
use hushwright::material;
use hushwright::need::SourceSpectrum;

use crate::fields::Shell;
use crate::listener_choices::ListenerChoice;

/// Key of the absence of a part.
pub const NONE: &str = "none";

/// Where some supports stand in a design.
pub type Supports = fn(&mut Design) -> &mut SupportPart;

type Words = &'static [(&'static str, &'static str)];

/// What can be chosen.
enum Offer {
    /// Keys and words.
    Words(Words),
    /// Spectra of sources.
    Spectra,
    /// Nothing, in these words, or a porous material.
    Fills(&'static str),
    /// Nothing, in these words, or a sheet.
    Sheets(&'static str),
}

const SIDES: Words = &[("first", "on the inner box"), ("second", "on the outer box"), ("middle", "in the middle")];
const DRIVER: Words = &[(NONE, "not a loudspeaker"), ("driver", "a loudspeaker driver")];
const LEVEL_FROM: Words = &[("given", "given, at 1 m"), ("driver", "worked out from the driver")];
const EXISTING: Words = &[("false", "to be built"), ("true", "exists already, an old cabinet")];
const BRACES: Words = &[(NONE, "none"), ("battens", "battens on the walls"), ("shelves", "open shelves across")];
const BATTENS: Words = &[(NONE, "none"), ("battens", "battens in the gap")];
const FACES: Words = &[("front", "the front, an end"), ("side", "a long side"), ("top", "the top")];
const FORMS: Words = &[("plain", "straight"), ("stepped", "a step for each seal")];
const SEALS: Words = &[
    ("bare", "none, board on board"),
    ("foam-tape", "foam tape, open cells"),
    ("closed-cell", "closed-cell gasket"),
    ("compressed", "gasket pressed by catches"),
];
const SEALED: Words = &[("false", "is left open"), ("true", "is filled with sealant")];
const BETWEEN: Words =
    &[("straps", "hangs on straps"), ("springs", "stands on springs"), ("pads", "on rubber pads"), ("rigid", "is screwed to it")];
const FEET: Words =
    &[("straps", "hangs on straps"), ("springs", "stands on springs"), ("pads", "on rubber pads"), ("rigid", "stands hard")];
const OUTER: Words = &[(NONE, "none: one box only"), ("box", "a box round the box")];
const VENTS: Words = &[(NONE, "none: sealed"), ("ducts", "ducts to the room")];
const GRAIN: Words = &[("false", "as it saves sheets"), ("true", "along the longer side")];
const FLOORS: Words =
    &[("ground", "concrete on the ground"), ("slab", "concrete between storeys"), ("joists", "boards on joists")];

/// All that the page knows of a choice.
struct Row {
    path: &'static str,
    label: &'static str,
    part: &'static str,
    offer: Offer,
    /// Which of the offer the design has; none where the choice has no effect on it.
    get: fn(&Design) -> Option<usize>,
    set: fn(&mut Design, usize),
}

macro_rules! choices {
    ($($name:ident $path:literal $label:literal $part:literal ($offer:expr) $get:expr, $set:expr;)*) => {
        /// A choice among named things.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Choice {
            $(#[doc = concat!("`", $path, "`")] $name,)*
            /// Material of sheet `k`.
            Sheet(Shell, usize),
            /// Bond outside sheet `k`.
            Bond(Shell, usize),
            /// Whether the shear modulus of sheet `k`, which has numbers of its own, is given.
            Shear(Shell, usize),
            /// A choice of listener `k`.
            Listener(usize, ListenerChoice),
        }

        impl Choice {
            /// All choices but those of the layers.
            pub const FIXED: &[Self] = &[$(Self::$name),*];

            fn row(self) -> Option<&'static Row> {
                match self {
                    $(Self::$name => Some(&Row { path: $path, label: $label, part: $part, offer: $offer, get: $get, set: $set }),)*
                    Self::Sheet(..) | Self::Bond(..) | Self::Shear(..) | Self::Listener(..) => None,
                }
            }
        }
    };
}

choices! {
    Spectrum "source.spectrum" "Spectrum" "" (Offer::Spectra)
        |d| SourceSpectrum::ALL.into_iter().position(|own| own == d.source.spectrum),
        |d, at| set_spectrum(d, SourceSpectrum::ALL[at]);
    LevelFrom "source.level_from" "Its level is" "" (Offer::Words(LEVEL_FROM))
        |d| d.source.driver.is_some().then_some(d.source.level_from as usize),
        |d, at| d.source.level_from = [LevelFrom::Given, LevelFrom::Driver][at];
    Driver "source.driver" "Source is" "" (Offer::Words(DRIVER))
        |d| Some(usize::from(d.source.driver.is_some())),
        |d, at| {
            d.source.driver = (at > 0).then(DriverPart::default);
            if at == 0 {
                d.source.level_from = LevelFrom::Given;
            }
        };
    Existing "inner.existing" "The inner box" "" (Offer::Words(EXISTING))
        |d| Some(usize::from(d.inner.existing)),
        |d, at| d.inner.existing = at > 0;
    Lining "inner.lining.material" "Lining" "" (Offer::Fills("no lining"))
        |d| fill_at(d.inner.lining.as_ref().map(|lining| &lining.material)),
        |d, at| d.inner.lining = fill_key(at).map(|material| {
            LiningPart { material, ..d.inner.lining.take().unwrap_or_else(|| fitting_lining(d)) }
        });
    InnerBraces "inner.braces.kind" "Braces" "inner box" (Offer::Words(BRACES))
        |d| Some(braces_at(d.inner.braces.as_ref())),
        |d, at| {
            let room_mm = 0.4 * smallest_mm(d);
            set_braces(&mut d.inner.braces, at, room_mm);
        };
    Baffle "inner.baffle.sheet" "Baffle" "" (Offer::Sheets("none"))
        |d| Some(d.inner.baffle.as_ref().map_or(0, |baffle| {
            material::sheets().iter().position(|sheet| sheet.key == baffle.sheet).map_or(0, |at| at + 1)
        })),
        |d, at| d.inner.baffle = at.checked_sub(1).map(|at| {
            let sheet = material::sheets()[at].key.to_owned();
            BafflePart { sheet, ..d.inner.baffle.take().unwrap_or_else(|| fitting_baffle(d)) }
        });
    InnerFace "inner.lid.face" "Lid is" "inner lid" (Offer::Words(FACES))
        |d| Some(d.inner.lid.face as usize),
        |d, at| set_face(&mut d.inner.lid, at);
    InnerForm "inner.lid.form" "Its edge" "inner lid" (Offer::Words(FORMS))
        |d| Some(d.inner.lid.form as usize),
        |d, at| set_form(&mut d.inner.lid, at);
    InnerSeal "inner.lid.seal" "Seal" "inner lid" (Offer::Words(SEALS))
        |d| Some(d.inner.lid.seal as usize),
        |d, at| set_seal(&mut d.inner.lid, at);
    InnerSealed "inner.holes.sealed" "Round cables" "inner holes" (Offer::Words(SEALED))
        |d| sealed_at(&d.inner.holes),
        |d, at| d.inner.holes.sealed = at > 0;
    Fill "gap.fill.material" "Fill" "" (Offer::Fills("empty"))
        |d| if d.outer.is_some() { fill_at(d.gap.fill.as_ref().map(|fill| &fill.material)) } else { None },
        |d, at| d.gap.fill = fill_key(at).map(|material| Fill { material, ..d.gap.fill.take().unwrap_or_default() });
    FillSide "gap.fill.side" "Fill lies" "" (Offer::Words(SIDES))
        |d| d.gap.fill.as_ref().filter(|_| d.outer.is_some()).map(|fill| fill.side as usize),
        |d, at| if let Some(fill) = &mut d.gap.fill { fill.side = [Side::First, Side::Second, Side::Middle][at] };
    Suspension "suspension.kind" "Inner box" "suspension" (Offer::Words(BETWEEN))
        |d| d.outer.is_some().then_some(d.suspension.kind as usize),
        |d, at| {
            d.suspension.kind = SUPPORTS[at];
            fit_suspension(d);
        };
    Outer "outer" "Outer box" "" (Offer::Words(OUTER))
        |d| Some(usize::from(d.outer.is_some())),
        |d, at| {
            d.outer = (at > 0).then(|| d.outer.take().unwrap_or_default());
            fit_suspension(d);
        };
    OuterBraces "outer.braces.kind" "Braces" "outer box" (Offer::Words(BATTENS))
        |d| Some(braces_at(d.outer.as_ref()?.braces.as_ref())),
        |d, at| {
            let room_mm = d.gap.depth_mm - limits::CLEARANCE_MM;
            if let Some(outer) = &mut d.outer { set_braces(&mut outer.braces, at, room_mm) }
        };
    OuterFace "outer.lid.face" "Lid is" "outer lid" (Offer::Words(FACES))
        |d| Some(d.outer.as_ref()?.lid.face as usize),
        |d, at| if let Some(outer) = &mut d.outer { set_face(&mut outer.lid, at) };
    OuterForm "outer.lid.form" "Its edge" "outer lid" (Offer::Words(FORMS))
        |d| Some(d.outer.as_ref()?.lid.form as usize),
        |d, at| if let Some(outer) = &mut d.outer { set_form(&mut outer.lid, at) };
    OuterSeal "outer.lid.seal" "Seal" "outer lid" (Offer::Words(SEALS))
        |d| Some(d.outer.as_ref()?.lid.seal as usize),
        |d, at| if let Some(outer) = &mut d.outer { set_seal(&mut outer.lid, at) };
    OuterSealed "outer.holes.sealed" "Round cables" "outer holes" (Offer::Words(SEALED))
        |d| sealed_at(&d.outer.as_ref()?.holes),
        |d, at| if let Some(outer) = &mut d.outer { outer.holes.sealed = at > 0 };
    Vents "vents" "Vents" "" (Offer::Words(VENTS))
        |d| Some(usize::from(d.vents.is_some())),
        |d, at| d.vents = (at > 0).then(VentsPart::default);
    VentLining "vents.lining.material" "Duct lining" "vents" (Offer::Fills("none"))
        |d| fill_at(d.vents.as_ref()?.lining.as_ref().map(|lining| &lining.material)),
        |d, at| if let Some(vents) = &mut d.vents {
            let old = vents.lining.take().or_else(|| VentsPart::default().lining).unwrap_or_default();
            vents.lining = fill_key(at).map(|material| LiningPart { material, ..old });
        };
    Floor "room.floor" "Floor" "" (Offer::Words(FLOORS))
        |d| Some(d.room.floor as usize),
        |d, at| d.room.floor = [Floor::Ground, Floor::Slab, Floor::Joists][at];
    Grain "build.keeps_grain" "Grain" "boards" (Offer::Words(GRAIN))
        |d| Some(usize::from(d.build.keeps_grain)),
        |d, at| d.build.keeps_grain = at > 0;
    Feet "feet.kind" "Whole box" "feet" (Offer::Words(FEET))
        |d| Some(d.feet.kind as usize),
        |d, at| d.feet.kind = SUPPORTS[at];
}

const SUPPORTS: [SupportKind; 4] = [SupportKind::Straps, SupportKind::Springs, SupportKind::Pads, SupportKind::Rigid];

impl Choice {
    /// Path in the document, where its refusal shows.
    pub fn path(self) -> String {
        match self {
            Self::Sheet(shell, _) | Self::Bond(shell, _) | Self::Shear(shell, _) => shell.path().to_owned(),
            Self::Listener(k, choice) => format!("listeners[{k}].{}", choice.key()),
            _ => self.row().map_or("", |row| row.path).to_owned(),
        }
    }

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Listener(_, choice) => choice.label(),
            _ => self.row().map_or("", |row| row.label),
        }
    }

    /// The part it belongs to, where the label alone does not say which choice it is.
    pub fn part(self) -> &'static str {
        self.row().map_or("", |row| row.part)
    }

    /// Keys and words of what can be chosen.
    pub fn options(self) -> Vec<(&'static str, String)> {
        if let Self::Listener(_, choice) = self {
            return choice.options();
        }
        let Some(row) = self.row() else { return Vec::new() };
        let or_none = |words: &'static str, more: Vec<(&'static str, String)>| {
            std::iter::once((NONE, words.to_owned())).chain(more).collect()
        };
        match row.offer {
            Offer::Words(words) => words.iter().map(|(key, words)| (*key, (*words).to_owned())).collect(),
            Offer::Spectra => SourceSpectrum::ALL.map(|spectrum| (spectrum.key(), spectrum.label().to_owned())).to_vec(),
            Offer::Fills(without) => {
                let fills = material::fills().iter().map(|fill| (fill.key, fill.name.replace("m3", "m³")));
                or_none(without, fills.collect())
            }
            Offer::Sheets(without) => {
                let sheets = material::sheets().iter().map(|sheet| (sheet.key, sheet.name.to_owned()));
                or_none(without, sheets.collect())
            }
        }
    }

    /// Number among the options of what `design` has; none where the choice has no effect on it.
    pub fn get(self, design: &Design) -> Option<usize> {
        match self {
            Self::Listener(k, choice) => choice.get(design.listeners.get(k)?),
            _ => (self.row()?.get)(design),
        }
    }

    /// Words for what `design` has.
    pub fn words(self, design: &Design) -> String {
        let mut options = self.options();
        self.get(design).filter(|at| *at < options.len()).map(|at| options.swap_remove(at).1).unwrap_or_default()
    }

    /// The supports that come with it, of which there have to be enough to hold a box, and the path of their count.
    pub fn supports(self) -> Option<(Supports, &'static str)> {
        match self {
            Self::Suspension | Self::Outer => Some((|design| &mut design.suspension, "suspension.count")),
            Self::Feet => Some((|design| &mut design.feet, "feet.count")),
            _ => None,
        }
    }

    /// Puts what `key` stands for into `design`; says whether there is such a thing. A part that comes new is made to fit.
    pub fn set(self, design: &mut Design, key: &str) -> bool {
        let Some(at) = self.options().iter().position(|(own, _)| *own == key) else { return false };
        if let Self::Listener(k, choice) = self {
            return design.listeners.get_mut(k).map(|listener| choice.set(listener, at)).is_some();
        }
        let Some(row) = self.row() else { return false };
        (row.set)(design, at);
        true
    }
}

/// Another shape of the source: its loudest moments come with it.
fn set_spectrum(design: &mut Design, spectrum: SourceSpectrum) {
    if spectrum != SourceSpectrum::Own {
        design.source.max_above_db = spectrum.max_above_db();
    }
    design.source.spectrum = spectrum;
}

fn fill_at(key: Option<&String>) -> Option<usize> {
    let Some(key) = key else { return Some(0) };
    material::fills().iter().position(|fill| fill.key == *key).map(|at| at + 1)
}

fn fill_key(at: usize) -> Option<String> {
    at.checked_sub(1).map(|at| material::fills()[at].key.to_owned())
}

fn braces_at(braces: Option<&BracesPart>) -> usize {
    braces.map_or(0, |braces| 1 + braces.kind as usize)
}

fn set_braces(braces: &mut Option<BracesPart>, at: usize, room_mm: f64) {
    let old = braces.take().unwrap_or_default();
    *braces = at.checked_sub(1).map(|at| {
        let kind = [BraceKind::Battens, BraceKind::Shelves][at];
        let depth_mm = if kind == BraceKind::Battens { old.depth_mm.min(room_mm.floor()) } else { old.depth_mm };
        BracesPart { kind, depth_mm, ..old }
    });
}

fn set_face(lid: &mut LidPart, at: usize) {
    lid.face = [LidFace::Front, LidFace::Side, LidFace::Top][at];
}

fn set_form(lid: &mut LidPart, at: usize) {
    lid.form = [LidForm::Plain, LidForm::Stepped][at];
}

fn set_seal(lid: &mut LidPart, at: usize) {
    lid.seal = [SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed][at];
}

fn sealed_at(holes: &HolesPart) -> Option<usize> {
    (holes.count > 0.0).then_some(usize::from(holes.sealed))
}

fn smallest_mm(design: &Design) -> f64 {
    design.inner.length_mm.min(design.inner.width_mm).min(design.inner.height_mm)
}

/// A lining that a small box has room for.
fn fitting_lining(design: &Design) -> LiningPart {
    let lining = LiningPart::default();
    LiningPart { thickness_mm: lining.thickness_mm.min((0.3 * smallest_mm(design)).floor()), ..lining }
}

/// A baffle that leaves either chamber room for its lining and the driver, if the box is long enough.
fn fitting_baffle(design: &Design) -> BafflePart {
    let (baffle, lining) = (BafflePart::default(), design.inner.lining.as_ref());
    let least = limits::REAR_MM.0 + lining.map_or(0.0, |lining| lining.thickness_mm);
    let most = (design.inner.length_mm - baffle.thickness_mm - least).floor();
    BafflePart { rear_mm: baffle.rear_mm.min(most).max(least), ..baffle }
}

/// Supports that fit into the gap.
fn fit_suspension(design: &mut Design) {
    let Design { suspension, gap, outer, .. } = &mut *design;
    if outer.is_none() {
        return;
    }
    match suspension.kind {
        SupportKind::Straps | SupportKind::Springs => suspension.height_mm = suspension.height_mm.min(gap.depth_mm),
        SupportKind::Pads => suspension.pad_thickness_mm = suspension.pad_thickness_mm.min(gap.depth_mm),
        SupportKind::Rigid => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A design in which every choice has an effect and can be made.
    fn whole() -> Design {
        let mut design = Design { vents: Some(VentsPart::default()), ..Design::default() };
        design.source.own_db = vec![(125.0, 80.0)];
        design
    }

    #[test]
    fn what_is_chosen_is_what_the_design_has_and_what_the_document_says() {
        for choice in Choice::FIXED.iter().copied() {
            for (at, (key, words)) in choice.options().into_iter().enumerate() {
                let mut design = whole();
                assert!(choice.set(&mut design, key), "{choice:?} {key}");
                assert_eq!(choice.get(&design), Some(at), "{choice:?} {key}");
                assert_eq!(choice.words(&design), words);
                assert!(design.check().is_ok(), "{choice:?} {key}: {:?}", design.check().err());
                let document = serde_json::to_value(&design).unwrap();
                let mut value = &document;
                for part in choice.path().split('.') {
                    value = &value[part];
                }
                let said = value.as_str().map(str::to_owned).or_else(|| value.as_bool().map(|yes| yes.to_string()));
                match said {
                    Some(said) => assert_eq!(said, key, "{choice:?}"),
                    None => assert_eq!(value.is_null(), key == NONE, "{choice:?} {value}"),
                }
            }
            assert!(!choice.set(&mut whole(), "straw"), "{choice:?}");
        }
    }

    #[test]
    fn what_lies_in_the_gap_is_chosen_only_where_there_is_one() {
        let mut design = whole();
        assert!(Choice::Fill.get(&design).is_some() && Choice::FillSide.get(&design).is_some());
        design.outer = None;
        assert!(design.gap.fill.is_some());
        assert_eq!((Choice::Fill.get(&design), Choice::FillSide.get(&design)), (None, None));
    }

    #[test]
    fn every_choice_has_a_name_of_its_own() {
        let mut names: Vec<_> = Choice::FIXED.iter().map(|choice| (choice.label(), choice.part())).collect();
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    #[test]
    fn a_part_that_comes_new_fits_into_a_small_and_a_heavy_box() {
        let mut small = Design { outer: None, ..Design::default() };
        small.inner = hushwright::design::InnerPart {
            length_mm: 260.0,
            width_mm: 150.0,
            height_mm: 150.0,
            lining: None,
            baffle: None,
            braces: None,
            ..small.inner
        };
        small.gap.depth_mm = 20.0;
        for (choice, key) in [
            (Choice::Lining, "mineral-wool-48"),
            (Choice::Baffle, "mdf"),
            (Choice::Outer, "box"),
            (Choice::OuterBraces, "battens"),
            (Choice::Suspension, "pads"),
            (Choice::Suspension, "straps"),
        ] {
            assert!(choice.set(&mut small, key));
            assert!(small.check().is_ok(), "{choice:?} {key}: {:?}", small.check().err());
        }
    }

    #[test]
    fn another_spectrum_brings_its_loudest_moments_and_levels_of_ones_own_keep_them() {
        let mut design = Design::default();
        let before = design.source.clone();
        assert!(Choice::Spectrum.set(&mut design, "own"));
        assert_eq!(design.source.max_above_db, before.max_above_db);
        assert!(Choice::Spectrum.set(&mut design, "voice"));
        assert_ne!(design.source.max_above_db, before.max_above_db);
    }
}
