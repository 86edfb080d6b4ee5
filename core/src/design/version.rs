//! Versions of documents: what an older one has to become before this build reads it.
//!
//! Links and files carry the number of the version in which they were written. A new version adds a line to [`VERSIONS`], with the
//! step from the one before; links and files of all versions before then go through the steps that follow theirs.

use serde_json::Value;

use super::patch;

/// A version of documents.
pub struct Version {
    /// Its number, as links and files carry it.
    pub number: u64,
    /// The document that its links are differences from. It never changes: what an old link says would change with it.
    pub base: fn() -> Value,
    /// Makes a document of the version before one of this version. In files something may be left out.
    pub from_before: fn(&mut Value),
}

/// All versions that are read, the oldest first, without gaps; the last is written.
///
/// A key that is added later needs no version if its default changes nothing.
pub const VERSIONS: &[Version] = &[
    // Before listeners: nobody listens.
    Version { number: 0, base: base_0, from_before: |_| {} },
    Version { number: 1, base: patch::base, from_before: |_| {} },
];

/// The number of the version that is written.
pub const CURRENT: u64 = VERSIONS[VERSIONS.len() - 1].number;

fn base_0() -> Value {
    let mut base = patch::base();
    base["listeners"] = Value::Array(Vec::new());
    base
}

/// Makes `document`, which is of version `number`, one of the last of `versions`.
pub fn upgrade(document: &mut Value, number: u64, versions: &[Version]) {
    for version in versions.iter().filter(|version| version.number > number) {
        (version.from_before)(document);
    }
}
