//! Links: every sound design comes back as it was, every damaged link says so, nothing panics.

mod frozen;
mod hostile;
mod size;

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hushwright::design::link::{LONGEST, LinkError, check_and_encode, decode, encode};
use hushwright::design::{BuildPart, Design, examples};
use hushwright::evaluate::evaluate;
use hushwright_tests::designs::accepted_design;
use hushwright_tests::links::sealed;
use proptest::prelude::*;

/// CRC-32 of the base document of version 1.
const BASE_SUM: u32 = 1_730_066_275;

/// A design of any kind that the check takes, with any name.
fn design() -> impl Strategy<Value = Design> {
    let name = prop_oneof!["[ -~]{0,40}", "[^\\pC\\p{Zl}\\p{Zp}]{0,20}"];
    (name, accepted_design()).prop_map(|(name, accepted)| Design { name, ..accepted.document })
}

#[test]
fn the_examples_come_back() {
    for example in examples() {
        let link = encode(&example);
        assert_eq!(decode(&link), Ok(example.clone()));
        assert_eq!(decode(&format!("#{link}")), Ok(example));
    }
}

#[test]
fn an_empty_patch_is_the_first_example() {
    assert_eq!(decode(&sealed("{}")), Ok(Design::default()));
}

#[test]
fn other_fragments_are_told_apart() {
    for fragment in
        ["", "#", "top", "v", "v.", "vx.abc.00000000", "0.abc.00000000", "v1", "v0x.abc", "\u{1F4E6}", "v123456789.a.b"]
    {
        assert_eq!(decode(fragment), Err(LinkError::Unknown), "{fragment}");
    }
    for (fragment, number) in [("v2.abc.00000000", 2), ("v7.", 7), ("#v99999.abc", 99_999)] {
        assert_eq!(decode(fragment), Err(LinkError::NewerVersion(number)), "{fragment}");
    }
    for fragment in ["v0.", "v0.abc.00000000", "v1.", "v1.abc", "v1..", "v1.abc.00000000", "v1.abc.", "v1.\u{e9}.00000000"] {
        assert_eq!(decode(fragment), Err(LinkError::Damaged), "{fragment}");
    }
}

/// What mail programs, messengers and sentences leave behind an address.
#[test]
fn a_tail_behind_a_link_is_no_part_of_it() {
    for design in examples() {
        let link = encode(&design);
        for tail in [".", "...", ",", ")", ">", "%20", "%3E", "?utm_source=mail", "&via=chat", " and so on", "\u{201d}.", "/"] {
            assert_eq!(decode(&format!("{link}{tail}")).as_ref(), Ok(&design), "{tail}");
            assert_eq!(decode(&format!("{}{tail}", &link[..link.len() - 1])), Err(LinkError::Damaged), "{tail}");
        }
        for tail in ["a", "0", "-", ".0", "/0", "=".repeat(LONGEST).as_str()] {
            assert!(decode(&format!("{link}{tail}")).is_err(), "{tail:.9}");
        }
    }
}

#[test]
fn a_link_longer_than_any_design_is_too_long() {
    assert_eq!(decode(&"v".repeat(LONGEST + 1)), Err(LinkError::TooLong));
    assert_eq!(decode(&sealed(format!("{{\"name\":\"{}\"}}", "x".repeat(LONGEST)))), Err(LinkError::TooLong));
    assert_eq!(decode(&"\u{1F4E6}".repeat(LONGEST)), Err(LinkError::TooLong));
}

#[test]
fn a_whole_link_round_a_bad_design_names_the_field() {
    for (text, field) in [
        (r#"{"source":{"level_dba":1e999}}"#, "level_dba"),
        (r#"{"source":{"level_dba":NaN}}"#, "level_dba"),
        (r#"{"source":{"level_dba":null}}"#, "level_dba"),
        (r#"{"source":{"level_dba":900}}"#, "level_dba"),
        (r#"{"inner":{"length_mm":-1}}"#, "length_mm"),
        (r#"{"inner":{"layers":[]}}"#, "layers"),
        (r#"{"inner":{"layers":[{"gap_mm":3}]}}"#, "layers"),
        (r#"{"inner":null}"#, "inner"),
        (r#"{"colour":"red"}"#, "colour"),
        (r#"{"listeners":[{"name":"A","name":"B"}]}"#, "name: duplicate field `name`"),
        (r#"{"listeners":[{},{"room":{"height_m":"low"}}]}"#, "listeners[1].room.height_m: "),
        (r#"{"source":{"own_db":[[125,60,1]]}}"#, "source.own_db[0]: "),
        (r#"{"source":{"own_db":[[1000.0,50],[1000.001,50]]}}"#, "source.own_db: "),
        (r#"{"room":{"absorption":"much"}}"#, "absorption"),
        (r#"{"gap":{"fill":{"material":"straw"}}}"#, "fill"),
    ] {
        let Err(LinkError::Refused(reason)) = decode(&sealed(text)) else { panic!("{text} is accepted") };
        assert!(reason.contains(field), "{text}: {reason}");
    }
    for text in ["[]", "3", "null", "", "{", "{}{}", &"[".repeat(1400), &"{\"a\":".repeat(240)] {
        assert!(matches!(decode(&sealed(text)), Err(LinkError::Refused(_))), "{text}");
    }
    assert!(matches!(decode(&sealed([0xff, 0xfe])), Err(LinkError::Refused(_))));
}

/// A number that is not finite is refused by the check, and so never gets into a link.
#[test]
fn numbers_that_are_not_finite_are_refused() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let mut design = Design::default();
        design.source.level_dba = bad;
        assert!(design.check().is_err_and(|errors| errors[0].path == "source.level_dba"));
        let mut design = Design::default();
        design.inner.layers[0].thickness_mm = Some(bad);
        assert!(design.check().is_err_and(|errors| errors[0].path == "inner.layers[0].thickness_mm"));
        let mut design = Design::default();
        design.gap.depth_mm = bad;
        assert!(design.check().is_err_and(|errors| errors[0].path == "gap.depth_mm"));
    }
}

proptest! {
    #[test]
    fn a_sound_design_comes_back_bit_by_bit(design in design()) {
        prop_assert!(design.check().is_ok(), "{:?}", design.check().err());
        let link = encode(&design);
        let checked = check_and_encode(&design).map(|(_, link)| link);
        prop_assert_eq!(checked.as_ref(), Ok(&link));
        prop_assert!(link.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_.".contains(&byte)), "no character that mail breaks");
        prop_assert!(link.len() <= LONGEST, "{}", link.len());
        prop_assert_eq!(decode(&link), Ok(design));
    }

    #[test]
    fn a_link_cut_short_is_recognised(design in design(), share in 0.0_f64..1.0) {
        let link = encode(&design);
        let cut = &link[..((link.len() - 1) as f64 * share) as usize];
        let expected = if cut.len() < 3 { LinkError::Unknown } else { LinkError::Damaged };
        prop_assert_eq!(decode(cut), Err(expected));
    }

    #[test]
    fn a_changed_link_never_opens_as_something_else(
        design in design(),
        place in any::<prop::sample::Index>(),
        byte in 0x20_u8..0x7f,
    ) {
        let link = encode(&design);
        let mut bytes = link.clone().into_bytes();
        let place = place.index(bytes.len());
        bytes[place] = byte;
        let changed = String::from_utf8(bytes).expect("ASCII");
        if changed != link {
            prop_assert!(decode(&changed).is_err());
        }
    }

    #[test]
    fn any_text_is_refused_or_sound(text in "\\PC{0,200}") {
        prop_assert!(decode(&text).is_err());
        let prefixed = format!("v1.{text}");
        prop_assert!(decode(&prefixed).is_err());
        if let Ok(design) = decode(&sealed(&text)) {
            prop_assert!(design.check().is_ok());
        }
    }
}

/// A link of version 0, as it was written: its design comes back as it was, with nobody listening.
#[test]
fn links_of_version_0_still_open() {
    let data = URL_SAFE_NO_PAD.encode(r#"{"name":"Old","source":{"level_dba":101},"inner":{"length_mm":650},"outer":null}"#);
    let design = decode(&format!("v0.{data}.{:08x}", crc32fast::hash(data.as_bytes()))).expect("an old link opens");
    let first = Design::default();
    assert_eq!((design.name.as_str(), design.source.level_dba, design.inner.length_mm), ("Old", 101.0, 650.0));
    assert!(design.outer.is_none() && design.listeners.is_empty());
    assert_eq!((&design.gap, &design.room, &design.feet), (&first.gap, &first.room, &first.feet));
    let level = evaluate(&design.check().expect("sound")).stations.source.dba;
    assert!((level - 101.0).abs() < 1e-9, "the level is the one that was given: {level}");
    assert_eq!(decode(&encode(&design)), Ok(design), "and travels on in a link of today");
}

/// What an old link says does not change with the examples: version 1 is read against the first example as it was when
/// version 1 began, which this sum pins.
#[test]
fn the_base_of_version_1_stays_as_it_is() {
    let base = decode(&sealed("{}")).expect("the base is sound");
    let mut base = serde_json::to_value(&base).expect("a design serialises");
    // Keys that came later, with values that change nothing.
    assert_eq!(base.as_object_mut().expect("an object").shift_remove("notes"), Some("".into()));
    let build = base.as_object_mut().expect("an object").shift_remove("build");
    assert_eq!(build, serde_json::to_value(BuildPart::default()).ok(), "the workshop's usual numbers");
    assert_eq!(base["inner"].as_object_mut().expect("an object").shift_remove("existing"), Some(false.into()));
    let text = base.to_string();
    assert_eq!(crc32fast::hash(text.as_bytes()), BASE_SUM, "{text}");
}

/// What a stranger wrote into a link and a message repeats is short and stands as it was written.
#[test]
fn a_message_cannot_be_turned_round_or_flood_the_page() {
    let long = "x".repeat(1200);
    for text in [
        "{\"\u{202E}\\u0007evil\":1}",
        "{\"\u{202E}evil\":}",
        "{\"source\":{\"spectrum\":\"\\u202e\\n\"}}",
        "{\"listeners\":[{\"place\":\"\\u061c\\u2029\"}]}",
        r#"{"source":{"own_db":[[1e308,3]]}}"#,
        r#"{"inner":{"layers":[{"sheet":1e-320}]}}"#,
        &format!("{{\"{long}\":1}}"),
        &format!("{{\"source\":{{\"spectrum\":\"{long}\"}}}}"),
    ] {
        let Err(LinkError::Refused(reason)) = decode(&sealed(text)) else { panic!("{text} is accepted") };
        let turns = |c: char| c.is_control() || matches!(c, '\u{61C}' | '\u{2028}'..='\u{202E}');
        assert!(!reason.contains(turns) && reason.chars().count() < 1100, "{reason:?}");
    }
}

/// Serde reads a struct from a list of its values as well; a document that means something else must not slip through.
#[test]
fn lists_do_not_pass_as_objects() {
    for (text, field) in [
        (r#"{"room":[22,2.5,0.1,3]}"#, "room"),
        (r#"{"source":["pink-noise",100]}"#, "source"),
        (r#"{"inner":{"layers":[["mdf",16,null,null,null]]}}"#, "inner.layers[0]"),
        (r#"{"inner":{"lining":["mineral-wool-48",50]}}"#, "inner.lining"),
        (r#"{"inner":{"layers":[{"sheet":[700,1e9,0.3,0.01,null],"thickness_mm":15}]}}"#, "inner.layers[0].sheet"),
    ] {
        match decode(&sealed(text)) {
            Err(LinkError::Refused(reason)) => assert!(reason.contains(&format!("{field}: ")), "{text}: {reason}"),
            other => panic!("{text}: {other:?}"),
        }
    }
}

#[test]
fn names_cannot_turn_text_round() {
    for name in ["a\u{202E}b", "a\u{2066}b", "a\u{61C}b", "a\u{2028}b", "a\nb", "\u{0}"] {
        let design = Design { name: name.to_owned(), ..Design::default() };
        assert!(matches!(decode(&encode(&design)), Err(LinkError::Refused(_))), "{name:?}");
        let mut design = Design::default();
        name.clone_into(&mut design.listeners[0].name);
        assert!(matches!(decode(&encode(&design)), Err(LinkError::Refused(_))), "{name:?}");
    }
    let design = Design { name: "\u{5E7}\u{5D5}\u{5E4}\u{5E1}\u{5D4} \u{1F4E6}".to_owned(), ..Design::default() };
    assert_eq!(decode(&encode(&design)), Ok(design));
}
