//! The text of a record: version, stamp, time, design, name, with a separator between each two.

use hushwright::number;

/// The version of records that this program writes.
const VERSION: &str = "1";
/// Between two parts; no link holds it, and the name comes last.
const PART: char = '\u{1f}';
/// The last ms of the year 9999: beyond, dates have no year of four digits as ISO 8601 writes it.
const LATEST_MS: f64 = 253_402_300_799_999.0;
/// Most characters of a name that is shown: more than a design's may have.
const LONGEST_NAME: usize = 200;

/// A kept design.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// What no other record has, nor this one after a change.
    pub stamp: String,
    /// When it was saved, in ms since 1970 (UTC).
    pub saved_ms: f64,
    /// The fragment of the link that carries the design. Only the engine knows whether it can be opened.
    pub fragment: String,
    /// What the design is called.
    pub name: String,
}

/// Why a record cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// A later version of the page has written it.
    Newer,
    /// It is damaged, or nothing that this page has written.
    Broken,
}

impl Record {
    /// The text that [`Record::read`] reads.
    pub fn write(&self) -> String {
        let Self { stamp, saved_ms, fragment, name } = self;
        format!("{VERSION}{PART}{stamp}{PART}{saved_ms:.0}{PART}{fragment}{PART}{name}")
    }

    /// The record that `text` is.
    ///
    /// # Errors
    /// Why it is none.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let mut parts = after_version(text)?.splitn(4, PART);
        let (Some(stamp), Some(saved), Some(fragment), Some(name)) = (parts.next(), parts.next(), parts.next(), parts.next())
        else {
            return Err(Unread::Broken);
        };
        let saved_ms = number::parse(saved).filter(|ms| (0.0..=LATEST_MS).contains(ms)).ok_or(Unread::Broken)?;
        if stamp.is_empty() || name.chars().count() > LONGEST_NAME {
            return Err(Unread::Broken);
        }
        Ok(Self { stamp: stamp.to_owned(), saved_ms, fragment: fragment.to_owned(), name: name.to_owned() })
    }
}

/// The stamp of the record that `text` is, if it is one.
pub(super) fn stamp(text: &str) -> Option<&str> {
    Record::read(text).ok()?;
    after_version(text).ok()?.split(PART).next()
}

/// What follows the version of this program.
fn after_version(text: &str) -> Result<&str, Unread> {
    let (version, rest) = text.split_once(PART).ok_or(Unread::Broken)?;
    if version == VERSION {
        return Ok(rest);
    }
    let is_number = !version.is_empty() && version.bytes().all(|byte| byte.is_ascii_digit()) && !version.starts_with('0');
    Err(if is_number { Unread::Newer } else { Unread::Broken })
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn record(name: &str) -> Record {
        let (stamp, fragment) = ("1a2b".to_owned(), "v1.e30.a3b4c5d6".to_owned());
        Record { stamp, saved_ms: 1_795_849_575_123.0, fragment, name: name.to_owned() }
    }

    #[test]
    fn a_record_is_read_as_it_was_written() {
        for name in ["Run-in box, ground floor", "", "Küche 静か ½", " 7 ", "a\u{1f}b\n"] {
            let text = record(name).write();
            assert_eq!(Record::read(&text), Ok(record(name)));
            assert_eq!(stamp(&text), Some("1a2b"));
        }
    }

    #[test]
    fn later_versions_are_told_from_rubbish() {
        let newer = record("box").write().replacen('1', "2", 1);
        assert_eq!(Record::read(&newer), Err(Unread::Newer));
        assert_eq!(Record::read("10\u{1f}"), Err(Unread::Newer));
        let long = record(&"a".repeat(201)).write();
        for text in ["", "1", "1\u{1f}", "0\u{1f}a", "-1\u{1f}a", "v1.e30.a3b4c5d6", "{\"version\":1}", &long] {
            assert_eq!(Record::read(text), Err(Unread::Broken), "{text:.30}");
            assert_eq!(stamp(text), None);
        }
    }

    #[test]
    fn a_time_that_is_none_is_no_record() {
        for time in ["", "many", "NaN", "inf", "-1", "253402300800000", &"9".repeat(400)] {
            let text = record("box").write().replace("1795849575123", time);
            assert_eq!(Record::read(&text), Err(Unread::Broken), "{time:.20}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(10_000))]

        #[test]
        fn rubbish_is_refused_without_harm(text in "\\PC*|(1|2|[0-9]{0,3})?\u{1f}?[\u{0}-\u{20}a-z0-9.\u{1f}v]{0,40}") {
            if let Ok(record) = Record::read(&text) {
                prop_assert!(record.saved_ms.is_finite());
                prop_assert_eq!(Record::read(&record.write()), Ok(Record { saved_ms: (record.saved_ms).round(), ..record }));
            }
        }
    }
}
