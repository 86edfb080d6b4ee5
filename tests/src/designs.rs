//! Designs drawn from everything that the check lets through, its ends included.

use hushwright::bands::NOMINAL_HZ;
use hushwright::buildup::raw::{BondNumbers, Layer, NameOr, SheetNumbers, Side};
use hushwright::design::build::limits as build_limits;
use hushwright::design::{
    BafflePart, BracesPart, BuildPart, CheckedDesign, Design, DriverPart, Fill, GapPart, HolesPart, InnerPart, LevelFrom,
    LidPart, LiningPart, ListenerPart, ListenerRoomPart, RoomPart, Shell, SourcePart, SupportPart, VentsPart, limits,
};
use hushwright::enclosure::{BraceKind, Floor, LidFace, LidForm, SealKind, Spring, SupportKind};
use hushwright::material;
use hushwright::need::{Background, BandValues, CriterionKind, Partition, Place, SourceSpectrum};
use hushwright::workshop::bill;
use proptest::prelude::*;

/// Numbers from 0 to 1 that a design is made from, more than it ever asks for.
const DRAWS: usize = 560;
/// Of these more are made for what the workshop needs to know, so that the boxes of a seed stay what they were before it was asked.
const BUILD_DRAWS: usize = 40;

/// A design drawn over all inputs, and whether the check takes it.
pub fn any_design() -> impl Strategy<Value = Design> {
    proptest::collection::vec(0.0..1.0_f64, DRAWS).prop_map(|numbers| {
        // Scrambled: the last digits of two of them.
        let more = |k: usize| (7919.0 * numbers[k] + 104_729.0 * numbers[k + BUILD_DRAWS]).fract();
        let mut build = Draw((0..BUILD_DRAWS).map(more).collect::<Vec<_>>().into_iter());
        let mut design = Draw(numbers.into_iter()).design();
        build.build(&mut design.build);
        design
    })
}

/// A design that the check takes; a test that fails prints it as the document that it is.
#[derive(Clone)]
pub struct Accepted {
    /// The document.
    pub document: Design,
    /// The numbers in it, checked.
    pub checked: CheckedDesign,
}

impl std::fmt::Debug for Accepted {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        f.write_str(&serde_json::to_string(&self.document).expect("a design is JSON"))
    }
}

/// As [`any_design`], of those that the check takes.
pub fn accepted_design() -> impl Strategy<Value = Accepted> {
    any_design()
        .prop_filter_map("the check refuses it", |document| document.check().ok().map(|checked| Accepted { document, checked }))
}

/// The middle one of three sides: what is no wider fits a face.
fn middle(mut sides: [f64; 3]) -> f64 {
    sides.sort_unstable_by(f64::total_cmp);
    sides[1]
}

/// How many openings of `area` leave half of the faces.
fn most_openings([a, b, c]: [f64; 3], area: f64) -> f64 {
    (2.0 * limits::OPEN_SHARE * (a * b + b * c + c * a) / area).floor()
}

/// `value` with six digits that count: nobody types more, and links have room for no more in all places at once.
fn as_typed(value: f64) -> f64 {
    format!("{value:.5e}").parse().expect("a number")
}

struct Draw(std::vec::IntoIter<f64>);

impl Draw {
    fn part(&mut self) -> f64 {
        self.0.next().expect("enough numbers were drawn")
    }

    fn chance(&mut self, of: f64) -> bool {
        self.part() < of
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[(self.part() * from.len() as f64) as usize]
    }

    /// A number of the range, its ends each in one case of twelve; by its logarithm where the range spans a decade.
    fn within(&mut self, (low, high): (f64, f64)) -> f64 {
        let part = self.part();
        if high <= low || part < 1.0 / 12.0 {
            low
        } else if part > 11.0 / 12.0 {
            high
        } else {
            let part = 1.2 * part - 0.1;
            let value = if low > 0.0 && high > 10.0 * low { low * (high / low).powf(part) } else { low + part * (high - low) };
            as_typed(value).clamp(low, high)
        }
    }

    fn whole(&mut self, range: (f64, f64)) -> f64 {
        self.within(range).round()
    }

    fn design(&mut self) -> Design {
        let mut design = Design {
            source: self.source(),
            gap: GapPart { depth_mm: self.within(limits::GAP_MM), fill: None },
            room: self.room(),
            ..Design::default()
        };
        if self.chance(0.6) {
            let (material, share) = (self.fill_key(), self.within((0.0, 1.0)));
            let side = self.pick(&[Side::First, Side::Second, Side::Middle]);
            design.gap.fill = Some(Fill { material, share, side });
        }
        self.inner(&mut design);
        design.outer = self.chance(0.7).then(|| self.outer(&design));
        design.vents = self.chance(0.25).then(|| self.vents(&design.inner));
        // What the supports carry is known once the rest is.
        design.suspension.kind = SupportKind::Rigid;
        design.feet.kind = SupportKind::Rigid;
        let (mut inner_kg, mut all_kg) = (1.0, 1.0);
        if let Ok(checked) = design.check() {
            let bill = bill(&checked);
            inner_kg = bill.inner_mass_kg + checked.contents_kg;
            all_kg = bill.mass_kg + checked.contents_kg;
        }
        let room_mm = if design.outer.is_some() { design.gap.depth_mm } else { f64::INFINITY };
        design.suspension = self.support(inner_kg, room_mm);
        design.feet = self.support(all_kg, f64::INFINITY);
        // Last, so that the boxes of a seed stay what they were before there were listeners.
        self.level(&mut design.source);
        let count = (self.part() * (limits::LISTENERS + 1) as f64) as usize;
        design.listeners = (0..count).map(|_| self.listener()).collect();
        design.inner.existing = self.chance(0.25);
        design
    }

    /// How it is put together and where it has to go.
    fn build(&mut self, build: &mut BuildPart) {
        build.clearance_mm = self.within(build_limits::CLEARANCE_MM);
        build.lid_clearance_mm = self.within(build_limits::LID_CLEARANCE_MM);
        build.compound_m2 = self.within(build_limits::COMPOUND_M2);
        build.screw_mm = self.within(build_limits::SCREW_MM);
        build.bead_mm = self.within(build_limits::BEAD_MM);
        build.kerf_mm = self.within(build_limits::KERF_MM);
        build.trim_mm = self.within(build_limits::TRIM_MM);
        build.keeps_grain = self.chance(0.5);
        build.waste = self.within(build_limits::WASTE);
        build.tax = self.within(build_limits::TAX);
        let contents = &mut build.contents;
        contents.length_mm = self.within(build_limits::CONTENTS_MM);
        contents.width_mm = self.within(build_limits::CONTENTS_MM);
        contents.height_mm = self.within(build_limits::CONTENTS_MM);
        contents.microphones = self.whole(build_limits::MICROPHONES);
        contents.distance_mm = self.within(build_limits::DISTANCE_MM);
        contents.microphone_mm = self.within(build_limits::MICROPHONE_MM);
        let way = &mut build.way;
        way.door_width_mm = self.within(build_limits::DOOR_WIDTH_MM);
        way.door_height_mm = self.within(build_limits::DOOR_HEIGHT_MM);
        way.handles_mm = self.within(build_limits::HANDLES_MM);
        for width_mm in [&mut way.corridor_mm, &mut way.corner_mm, &mut way.stairs_mm] {
            *width_mm = if self.chance(0.5) { self.within(build_limits::CORRIDOR_MM) } else { 0.0 };
        }
    }

    /// Where the level comes from, and when it sounds.
    fn level(&mut self, source: &mut SourcePart) {
        source.own_db = self.bands(limits::BAND_DB, source.spectrum == SourceSpectrum::Own);
        source.max_above_db = self.within(limits::MAX_ABOVE_DB);
        source.start_h = self.within(limits::START_H);
        source.hours = self.within(limits::HOURS);
        if let Some(driver) = &mut source.driver {
            driver.count = self.whole(limits::DRIVERS);
            driver.diameter_mm = self.within(limits::DIAMETER_MM);
            driver.sensitivity_db = self.within(limits::SENSITIVITY_DB);
            driver.power_w = self.within(limits::POWER_W);
            driver.crest_db = self.within(limits::CREST_DB);
            source.level_from = self.pick(&[LevelFrom::Given, LevelFrom::Driver]);
        }
    }

    /// Neighbouring octaves or thirds of any values; none in some cases where none are needed.
    fn bands(&mut self, range_db: (f64, f64), needed: bool) -> BandValues {
        if !needed && self.chance(0.5) {
            return Vec::new();
        }
        let step = if self.chance(0.5) { 3 } else { 1 };
        let grid: Vec<f64> = NOMINAL_HZ.into_iter().skip(step / 2).step_by(step).collect();
        let first = (self.part() * grid.len() as f64) as usize;
        let count = 1 + (self.part() * (grid.len() - first) as f64) as usize;
        grid[first..grid.len().min(first + count)].iter().map(|hz| (*hz, (10.0 * self.within(range_db)).round() / 10.0)).collect()
    }

    fn listener(&mut self) -> ListenerPart {
        let partition = self.chance(0.8).then(|| self.pick(&Partition::ALL));
        let background = self.pick(&Background::ALL);
        ListenerPart {
            name: "Somebody".to_owned(),
            place: self.pick(&Place::ALL),
            partition,
            reduction_db: self.bands(limits::REDUCTION_DB, partition.is_none()),
            area_m2: self.within(limits::PARTITION_M2),
            flanking_db: self.within(limits::FLANKING_DB),
            corridor_m2: self.within(limits::FLOOR_AREA_M2),
            distance_m: self.within(limits::LISTENER_M),
            room: ListenerRoomPart {
                floor_area_m2: self.within(limits::FLOOR_AREA_M2),
                height_m: self.within(limits::ROOM_HEIGHT_M),
                absorption: self.within(limits::ROOM_ABSORPTION),
            },
            criterion: self.pick(&CriterionKind::ALL),
            limit_dba: self.within(limits::LIMIT_DBA),
            limit_nr: self.within(limits::LIMIT_NR),
            limit_nc: self.within(limits::LIMIT_NC),
            average: self.chance(0.5),
            background,
            background_dba: self.within(limits::BACKGROUND_DBA),
            background_db: self.bands(limits::BAND_DB, background == Background::OwnBands),
        }
    }

    fn source(&mut self) -> SourcePart {
        SourcePart {
            spectrum: self.pick(&SourceSpectrum::ALL),
            level_dba: self.within(limits::LEVEL_DBA),
            mass_kg: self.within(limits::CONTENTS_KG),
            heat_w: self.within(limits::HEAT_W),
            driver: self.chance(0.7).then(|| DriverPart {
                moving_mass_g: self.within(limits::MOVING_MASS_G),
                cone_area_cm2: self.within(limits::CONE_AREA_CM2),
                ..DriverPart::default()
            }),
            level_from: LevelFrom::Given,
            ..SourcePart::default()
        }
    }

    fn room(&mut self) -> RoomPart {
        RoomPart {
            floor_area_m2: self.within(limits::FLOOR_AREA_M2),
            height_m: self.within(limits::ROOM_HEIGHT_M),
            absorption: self.within(limits::ROOM_ABSORPTION),
            distance_m: self.within(limits::DISTANCE_M),
            floor: self.pick(&[Floor::Ground, Floor::Slab, Floor::Joists]),
        }
    }

    fn fill_key(&mut self) -> String {
        let fills = material::fills();
        fills[(self.part() * fills.len() as f64) as usize].key.to_owned()
    }

    fn lining(&mut self, smallest_mm: f64) -> LiningPart {
        let most = limits::LINING_MM.1.min(0.449_999 * smallest_mm);
        LiningPart { material: self.fill_key(), thickness_mm: self.within((limits::LINING_MM.0, most)) }
    }

    fn inner(&mut self, design: &mut Design) {
        let size = [self.within(limits::INSIDE_MM), self.within(limits::INSIDE_MM), self.within(limits::INSIDE_MM)];
        // Boxes as wide as high, and cubes, are cases of their own.
        let [length, width, height] = match self.part() {
            part if part < 0.1 => [size[0]; 3],
            part if part < 0.3 => [size[0], size[1], size[1]],
            _ => size,
        };
        let smallest = length.min(width).min(height);
        let inner = &mut design.inner;
        (inner.length_mm, inner.width_mm, inner.height_mm) = (length, width, height);
        inner.lining = self.chance(0.6).then(|| self.lining(smallest));
        inner.layers = self.layers();
        inner.edge_fixity = self.within(limits::EDGE_FIXITY);
        let thickness_mm = self.within((0.3, 100.0));
        let least = limits::REAR_MM.0 + inner.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm) + 1e-6;
        let most = (length - thickness_mm - least).min(limits::REAR_MM.1);
        let (sheet, rear_mm) = (self.sheet_key(), self.within((least, most)));
        inner.baffle = (most > least && self.chance(0.4)).then_some(BafflePart { rear_mm, sheet, thickness_mm });
        let front = length - inner.baffle.as_ref().map_or(0.0, |baffle| baffle.rear_mm + baffle.thickness_mm);
        let kind = self.pick(&[BraceKind::Battens, BraceKind::Shelves]);
        let deepest = if kind == BraceKind::Shelves { 300.0 } else { 0.399_999 * smallest };
        inner.braces = self.chance(0.4).then(|| self.braces(kind, front, deepest)).flatten();
        inner.lid = self.lid();
        inner.holes = self.holes([length, width, height]);
    }

    fn outer(&mut self, design: &Design) -> Shell {
        let inner = &design.inner;
        let deepest = design.gap.depth_mm - limits::CLEARANCE_MM - 1e-6;
        Shell {
            layers: self.layers(),
            edge_fixity: self.within(limits::EDGE_FIXITY),
            braces: self.chance(0.4).then(|| self.braces(BraceKind::Battens, inner.length_mm, deepest)).flatten(),
            lid: self.lid(),
            holes: self.holes([inner.length_mm, inner.width_mm, inner.height_mm]),
        }
    }

    fn sheet_key(&mut self) -> String {
        let sheets = material::sheets();
        sheets[(self.part() * sheets.len() as f64) as usize].key.to_owned()
    }

    fn layers(&mut self) -> Vec<Layer> {
        let count = if self.chance(0.1) { 8 } else { 1 + (4.0 * self.part().powi(2)) as usize };
        let mut layers = Vec::new();
        for index in 0..count {
            if index > 0
                && let Some(bond) = self.bond()
            {
                layers.push(bond);
            }
            let thickness_mm = Some(self.within((0.3, 100.0)));
            let key = self.sheet_key();
            let sheet = if self.chance(0.15) { NameOr::Numbers(self.own_sheet()) } else { NameOr::Name(key) };
            layers.push(Layer { sheet: Some(sheet), thickness_mm, ..Layer::default() });
        }
        layers
    }

    fn own_sheet(&mut self) -> SheetNumbers {
        SheetNumbers {
            density: self.within((10.0, 25_000.0)),
            youngs_modulus: self.within((1e4, 1e12)),
            poisson: self.within((0.0, 0.4999)),
            loss_factor: self.within((0.0, 2.0)),
            shear_modulus: self.chance(0.5).then(|| self.within((1e3, 1e12))),
        }
    }

    fn bond(&mut self) -> Option<Layer> {
        let part = self.part();
        match part {
            part if part < 0.25 => Some(Layer::bond("rigid-glue")),
            part if part < 0.5 => Some(Layer::bond("damping-compound")),
            part if part < 0.7 => Some(Layer::bond("loose")),
            part if part < 0.85 => {
                let numbers = BondNumbers {
                    thickness_mm: self.within((0.01, 20.0)),
                    density: self.within((1.0, 10_000.0)),
                    shear_modulus: vec![(50.0, self.within((1.0, 1e12))), (2000.0, self.within((1.0, 1e12)))],
                    loss_factor: vec![(100.0, self.within((0.0, 10.0)))],
                };
                Some(Layer { bond: Some(NameOr::Numbers(numbers)), ..Layer::default() })
            }
            _ => None,
        }
    }

    fn braces(&mut self, kind: BraceKind, length_mm: f64, deepest_mm: f64) -> Option<BracesPart> {
        let width_mm = self.within(limits::BRACE_WIDTH_MM);
        let most = ((length_mm - limits::BAY_MM) / (limits::BAY_MM + width_mm)).floor().min(limits::BRACES.1);
        let count = self.whole((limits::BRACES.0, most));
        let (shallow, deep) = limits::BRACE_DEPTH_MM;
        let depth_mm = self.within((shallow, deep.min(deepest_mm)));
        (most >= 1.0 && deepest_mm >= shallow).then_some(BracesPart { kind, count, width_mm, depth_mm })
    }

    fn lid(&mut self) -> LidPart {
        LidPart {
            face: self.pick(&[LidFace::Front, LidFace::Side, LidFace::Top]),
            form: self.pick(&[LidForm::Plain, LidForm::Stepped]),
            seals: self.whole(limits::SEALS),
            seal: self.pick(&[SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed]),
        }
    }

    fn holes(&mut self, sides_mm: [f64; 3]) -> HolesPart {
        let diameter_mm = self.within(limits::HOLE_MM).min(middle(sides_mm));
        let most = most_openings(sides_mm, diameter_mm * diameter_mm);
        HolesPart {
            count: self.whole(limits::HOLES).min(most),
            diameter_mm,
            cable_mm: self.within((0.0, diameter_mm)),
            sealed: self.chance(0.5),
        }
    }

    /// Supports that carry `load_kg` and are at most `room_mm` high.
    fn support(&mut self, load_kg: f64, room_mm: f64) -> SupportPart {
        let kind = self.pick(&[SupportKind::Straps, SupportKind::Springs, SupportKind::Pads, SupportKind::Rigid]);
        let limited = |(low, high): (f64, f64), most: f64| (low, high.min(most));
        let breaking = |count: f64| (limits::BREAKING_LOAD_KG.0.max(1.001 * load_kg / count), limits::BREAKING_LOAD_KG.1);
        let count = self.whole(limits::SUPPORTS);
        // Where so few cannot carry it, as many as there may be.
        let enough = load_kg / count < limits::BREAKING_LOAD_KG.1;
        let count = if enough { count } else { limits::SUPPORTS.1 };
        let mut support = SupportPart {
            kind,
            count,
            test_mass_kg: self.within(limits::TEST_MASS_KG),
            test_sag_mm: self.within(limits::TEST_SAG_MM),
            height_mm: self.within(limited(limits::SUPPORT_HEIGHT_MM, room_mm)),
            breaking_load_kg: self.within(breaking(count)).min(limits::BREAKING_LOAD_KG.1),
            pad_side_mm: self.within(limits::PAD_SIDE_MM),
            pad_thickness_mm: self.within(limited(limits::PAD_THICKNESS_MM, room_mm)),
            shore_a: self.within(limits::SHORE_A),
        };
        if kind == SupportKind::Pads {
            let carries = |support: &SupportPart| {
                let (side_m, thickness_m) = (0.001 * support.pad_side_mm, 0.001 * support.pad_thickness_mm);
                support.count * Spring::pad(side_m, thickness_m, support.shore_a).breaking_load_kg
            };
            while carries(&support) < 1.001 * load_kg && support.pad_side_mm < limits::PAD_SIDE_MM.1 {
                support.pad_side_mm = (1.3 * support.pad_side_mm).min(limits::PAD_SIDE_MM.1);
            }
            if carries(&support) < 1.001 * load_kg {
                support.count = limits::SUPPORTS.1;
            }
        }
        support
    }

    fn vents(&mut self, inner: &InnerPart) -> VentsPart {
        let sides_mm = [inner.length_mm, inner.width_mm, inner.height_mm];
        let [width_mm, height_mm] = [limits::VENT_MM; 2].map(|range| self.within(range).min(middle(sides_mm)));
        VentsPart {
            count: self.whole(limits::VENTS).min(most_openings(sides_mm, width_mm * height_mm)).max(1.0),
            width_mm,
            height_mm,
            length_mm: self.within(limits::VENT_LENGTH_MM),
            bends: self.whole(limits::BENDS),
            lining: self.chance(0.6).then(|| self.lining(f64::INFINITY)),
        }
    }
}
