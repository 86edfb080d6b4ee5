//! How the ranges cover measured walls: figures that `tests/tests/coverage.rs` works out anew and holds these to.

/// How many measured values lie within the ranges of what is computed for them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coverage {
    /// What was measured, and by whose account.
    pub source: &'static str,
    /// Whether the values are remembered and not looked up: then they say little.
    pub from_memory: bool,
    /// Walls.
    pub walls: usize,
    /// Values by octave.
    pub values: usize,
    /// Of these, the ones within the range that is to hold 8 of 10.
    pub inside: usize,
    /// Root mean square of computed less measured, in dB.
    pub rms_db: f64,
    /// Mean of computed less measured, in dB.
    pub mean_db: f64,
}

/// All measured walls at hand, the published ones first.
pub const COVERAGE: [Coverage; 2] = [
    Coverage {
        source: "panes of 3 to 19 mm, UFC 3-450-01, Table 4-8",
        from_memory: false,
        walls: 4,
        values: 28,
        inside: 20,
        rms_db: 6.3,
        mean_db: 4.0,
    },
    Coverage {
        source: "single panels of a handbook's table",
        from_memory: true,
        walls: 9,
        values: 72,
        inside: 45,
        rms_db: 6.6,
        mean_db: 2.5,
    },
];
