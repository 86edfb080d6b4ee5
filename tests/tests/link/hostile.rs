//! Links from somebody who means harm: whatever they hold, they are refused with words or open as a sound design.
//!
//! The sum is put right each time, so that what is behind it is met. `PROPTEST_CASES=1000000 cargo test --release -p
//! hushwright-tests --test link hostile` is the long run.

use std::sync::LazyLock;

use hushwright::design::link::{LONGEST, LinkError, decode, encode};
use hushwright::design::{Design, examples};
use hushwright::evaluate::evaluate;
use hushwright_tests::designs::accepted_design;
use hushwright_tests::fullest::fullest;
use hushwright_tests::heavy_box::heavy_box;
use hushwright_tests::links::{opened, sealed};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

/// Of how many designs that are opened one is evaluated as well.
const EVALUATED: u64 = 500;

/// What real links hold: the examples, a large box, the fullest design, and some of all kinds.
static REAL: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    let mut designs: Vec<Design> = examples();
    designs.push(heavy_box(0.5, &Design::default().inner.lid, "damping-compound"));
    designs.push(fullest(0.5));
    let (mut runner, any) = (TestRunner::deterministic(), accepted_design());
    designs.extend((0..60).map(|_| any.new_tree(&mut runner).expect("a design").current().document));
    designs.iter().map(|design| opened(&encode(design))).collect()
});

/// One thing done to bytes.
#[derive(Clone, Debug)]
enum Harm {
    Set(prop::sample::Index, u8),
    Flip(prop::sample::Index, u8),
    Insert(prop::sample::Index, Vec<u8>),
    Remove(prop::sample::Index, usize),
    /// A piece of one real link over another.
    Splice(prop::sample::Index, prop::sample::Index, prop::sample::Index, usize),
}

impl Harm {
    fn any() -> impl Strategy<Value = Self> {
        let place = any::<prop::sample::Index>;
        // The first bytes of values, the largest counts, and anything.
        let byte = || prop_oneof![0_u8..0x10, Just(0xff_u8), any::<u8>()];
        prop_oneof![
            (place(), byte()).prop_map(|(at, byte)| Self::Set(at, byte)),
            (place(), 0_u8..8).prop_map(|(at, bit)| Self::Flip(at, bit)),
            (place(), prop::collection::vec(byte(), 1..12)).prop_map(|(at, bytes)| Self::Insert(at, bytes)),
            (place(), 1_usize..12).prop_map(|(at, count)| Self::Remove(at, count)),
            (place(), place(), place(), 1_usize..40).prop_map(|(from, at, to, count)| Self::Splice(from, at, to, count)),
        ]
    }

    fn done_to(&self, bytes: &mut Vec<u8>) {
        match self {
            _ if bytes.is_empty() => {}
            Self::Set(at, byte) => {
                let at = at.index(bytes.len());
                bytes[at] = *byte;
            }
            Self::Flip(at, bit) => {
                let at = at.index(bytes.len());
                bytes[at] ^= 1 << bit;
            }
            Self::Insert(at, more) => {
                let at = at.index(bytes.len());
                bytes.splice(at..at, more.iter().copied());
            }
            Self::Remove(at, count) => {
                let at = at.index(bytes.len());
                bytes.drain(at..(at + count).min(bytes.len()));
            }
            Self::Splice(from, at, to, count) => {
                let other = &REAL[from.index(REAL.len())];
                let at = at.index(other.len());
                let piece = &other[at..(at + count).min(other.len())];
                let to = to.index(bytes.len());
                bytes.splice(to..(to + count).min(bytes.len()), piece.iter().copied());
            }
        }
    }
}

/// Opens `link`; fails where it is neither refused with words nor a sound design that a link can carry again.
fn open(link: &str) -> Result<(), TestCaseError> {
    match decode(link) {
        Ok(design) => {
            let checked = design.check();
            prop_assert!(checked.is_ok());
            let text = serde_json::to_string(&design).expect("a design serialises");
            let again = encode(&design);
            prop_assert!(again.len() <= LONGEST);
            let read = decode(&again);
            prop_assert_eq!(read.as_ref(), Ok(&design), "{}", text);
            if u64::from(crc32fast::hash(link.as_bytes())).is_multiple_of(EVALUATED) {
                let report = evaluate(&checked.expect("just seen"));
                prop_assert!(report.stations.room.dba.is_finite() && report.bill.mass_kg.is_finite());
            }
        }
        Err(LinkError::Refused(reason)) => prop_assert!(!reason.is_empty() && reason.chars().count() < 1100),
        // What begins as if it were spelled out and is no text.
        Err(LinkError::Damaged) => prop_assert_eq!(opened(link)[0], 0x7b),
        Err(error) => prop_assert!(matches!(error, LinkError::TooLong), "{:?}", error),
    }
    Ok(())
}

/// JSON of any shape under the keys of documents.
fn any_json() -> impl Strategy<Value = serde_json::Value> {
    let number = prop_oneof![any::<f64>(), -1e4_f64..1e4, (-5_i32..3000).prop_map(f64::from)];
    let leaf = prop_oneof![
        4 => number.prop_map(serde_json::Value::from),
        1 => Just(serde_json::Value::Null),
        1 => any::<bool>().prop_map(serde_json::Value::from),
        2 => "\\PC{0,12}".prop_map(serde_json::Value::from),
        2 => prop::sample::select(vec!["mdf", "straps", "own", "loose", "lead", "next-room", "own-bands"]).prop_map(Into::into),
    ];
    let key = prop::sample::select(vec![
        "name",
        "notes",
        "source",
        "inner",
        "outer",
        "gap",
        "layers",
        "sheet",
        "bond",
        "thickness_mm",
        "listeners",
        "room",
        "own",
        "build",
        "own_db",
        "lid",
        "fill",
        "share",
        "length_mm",
        "count",
        "minutes/saw",
        "__proto__",
        "",
    ]);
    leaf.prop_recursive(6, 40, 6, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(serde_json::Value::from),
            prop::collection::vec((key.clone(), inner), 0..6).prop_map(|pairs| serde_json::Value::Object(
                pairs.into_iter().map(|(key, value)| (key.to_owned(), value)).collect()
            )),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig { max_shrink_iters: 2000, ..ProptestConfig::default() })]

    #[test]
    fn real_links_changed_behind_their_sum(real in any::<prop::sample::Index>(), harms in prop::collection::vec(Harm::any(), 1..6)) {
        let mut bytes = REAL[real.index(REAL.len())].clone();
        for harm in &harms {
            harm.done_to(&mut bytes);
        }
        open(&sealed(&bytes))?;
    }

    #[test]
    fn bytes_of_any_kind(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        open(&sealed(&bytes))?;
        // As the object that a difference of designs is.
        open(&sealed([&[7, 4], &bytes[..]].concat()))?;
    }

    #[test]
    fn documents_of_any_shape(json in any_json()) {
        open(&sealed(json.to_string()))?;
        for key in ["source", "inner", "outer", "listeners", "build"] {
            open(&sealed(serde_json::json!({ key: json }).to_string()))?;
        }
    }
}

/// Counts that promise more than there is, numbers that do not end, nesting without end: refused before anything is made of them.
#[test]
fn what_would_grow_is_refused() {
    let most = [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f];
    for kind in [4, 5, 6, 7, 8, 0x10, 0x20] {
        for tail in [&most[..], &[0xff; 1400], &[0x80; 1400], &[]] {
            let bytes = [&[7, 1, 2][..], &[kind], tail].concat();
            assert!(matches!(decode(&sealed(&bytes)), Err(LinkError::Refused(_))), "{kind}: {tail:?}");
        }
    }
    for nest in [&[6_u8, 1][..], &[7, 1, 2], &[7, 1, 1, 1]] {
        let bytes = [&[7, 1, 2][..], &nest.repeat(1400 / nest.len())].concat();
        assert!(matches!(decode(&sealed(&bytes)), Err(LinkError::Refused(_))), "{nest:?}");
    }
    // Numbers that are not finite: of a source's level, as binary64.
    for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let bytes = [&[7, 1, 4, 7, 1, 56, 3][..], &number.to_le_bytes()].concat();
        assert!(matches!(decode(&sealed(&bytes)), Err(LinkError::Refused(_))), "{number}");
    }
    let level = [&[7, 1, 4, 7, 1, 56, 3][..], &101.0_f64.to_le_bytes()].concat();
    assert_eq!(decode(&sealed(&level)).map(|design| design.source.level_dba), Ok(101.0), "the same with a number that is");
}
