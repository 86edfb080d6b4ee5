//! Files: a design comes back as it was, and what is no file of a design says so.

use hushwright::design::{Design, examples, file};
use hushwright_tests::designs::accepted_design;
use hushwright_tests::fullest::fullest;
use proptest::prelude::*;

#[test]
fn examples_come_back() {
    for design in examples().into_iter().chain([fullest(0.5)]) {
        let text = file::write(&design);
        assert!(text.starts_with("{\n  \"hushwright\": 1,\n") && text.ends_with("}\n"), "{text}");
        assert_eq!(file::read(&text), Ok(design));
    }
}

#[test]
fn what_is_left_out_is_that_of_the_first_example() {
    for text in ["{}", "{\"hushwright\": 1}", "\u{FEFF}{}", " \n{ }\r\n"] {
        assert_eq!(file::read(text), Ok(Design::default()), "{text:?}");
    }
    let design = file::read(r#"{"name": "Mine", "gap": {"depth_mm": 60}}"#).expect("a file by hand");
    assert_eq!((design.name.as_str(), design.gap.depth_mm), ("Mine", 60.0));
}

#[test]
fn what_is_no_file_of_a_design_says_why() {
    for (text, said) in [
        ("", "no file of a design"),
        ("PK\u{3}\u{4}", "no file of a design"),
        ("[]", "no file of a design"),
        ("null", "no file of a design"),
        ("{\"name\": \"a\"", "no file of a design"),
        ("{\"name\": \"a\", \"name\": \"b\"}", "duplicate field `name`"),
        ("{\"hushwright\": 2}", "newer version"),
        ("{\"hushwright\": 99999999999}", "newer version"),
        ("{\"hushwright\": 0}", "whole number"),
        ("{\"hushwright\": \"1\"}", "whole number"),
        ("{\"hushwright\": 1.5}", "whole number"),
        ("{\"colour\": 1}", "colour"),
        ("{\"inner\": {\"length_mm\": 1e999}}", "length_mm"),
        ("{\"inner\": {\"length_mm\": null}}", "length_mm"),
        ("{\"inner\": {\"length_mm\": 20000}}", "inner.length_mm"),
        ("{\"__proto__\": {}}", "__proto__"),
    ] {
        let Err(message) = file::read(text) else { panic!("{text} is accepted") };
        assert!(message.contains(said), "{text}: {message}");
    }
    let deep = "{\"inner\":".repeat(20_000);
    assert!(file::read(&deep).is_err());
    assert!(file::read(&" ".repeat(file::LONGEST + 1)).is_err_and(|message| message.contains("larger")));
}

proptest! {
    #[test]
    fn a_sound_design_comes_back(accepted in accepted_design()) {
        let text = file::write(&accepted.document);
        prop_assert!(text.len() < file::LONGEST / 2, "{}", text.len());
        prop_assert_eq!(file::read(&text), Ok(accepted.document));
    }

    /// A file with one value replaced opens only as a design that passes its check.
    #[test]
    fn a_changed_file_is_refused_or_sound(
        accepted in accepted_design(),
        place in any::<prop::sample::Index>(),
        value in prop_oneof![Just("1e308".to_owned()), Just("-1".to_owned()), Just("0".to_owned()), Just("null".to_owned()),
            Just("\"\"".to_owned()), Just("[]".to_owned()), Just("{}".to_owned()), any::<f64>().prop_map(|number| number.to_string())],
    ) {
        let text = file::write(&accepted.document);
        let colons: Vec<usize> = text.match_indices(':').map(|(at, _)| at + 1).collect();
        let start = colons[place.index(colons.len())];
        let end = start + text[start..].find([',', '}', ']']).unwrap_or(0);
        let changed = format!("{}{value}{}", &text[..start], &text[end..]);
        match file::read(&changed) {
            Ok(design) => prop_assert!(design.check().is_ok()),
            Err(message) => prop_assert!(!message.is_empty() && message.chars().count() < 1200),
        }
    }

    #[test]
    fn any_text_is_refused_or_sound(text in "\\PC{0,300}") {
        if let Ok(design) = file::read(&text) {
            prop_assert!(design.check().is_ok());
        }
    }
}
