//! The kinds of work, how long each takes, and what has to dry after it.

use crate::mapping::Held;

crate::mapping::names! {
    Operation {
        Plan = "plan",
        Saw = "saw",
        Edge = "edge",
        Rebate = "rebate",
        Bore = "bore",
        Glue = "glue",
        Spread = "spread",
        Screw = "screw",
        Seal = "seal",
        Brace = "brace",
        FitLid = "fit-lid",
        LayGasket = "lay-gasket",
        Hang = "hang",
        Line = "line",
        Duct = "duct",
        Fit = "fit",
        Try = "try",
    }
}

/// A kind of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Operation {
    /// Marking out a sheet.
    Plan,
    /// Sawing a board.
    Saw,
    /// Breaking the edges of a board and marking it.
    Edge,
    /// Fitting a board of a lid into its rebate.
    Rebate,
    /// Boring a hole for a cable or sawing a cut-out.
    Bore,
    /// Spreading glue on a square metre.
    Glue,
    /// Spreading compound on a square metre.
    Spread,
    /// Driving a screw, pilot hole included.
    Screw,
    /// Sealing a metre of seam.
    Seal,
    /// Fitting a batten.
    Brace,
    /// Fitting a lid with its latches and handles.
    FitLid,
    /// Laying a metre of gasket.
    LayGasket,
    /// Fitting a support.
    Hang,
    /// Cutting and fixing a square metre of wool.
    Line,
    /// Making a metre of duct.
    Duct,
    /// Fitting a jack, a handle, a castor.
    Fit,
    /// Trying it out with a meter, and mending what leaks.
    Try,
}

impl Operation {
    /// All of them.
    pub const ALL: [Self; 17] = [
        Self::Plan,
        Self::Saw,
        Self::Edge,
        Self::Bore,
        Self::Glue,
        Self::Spread,
        Self::Screw,
        Self::Seal,
        Self::Brace,
        Self::Rebate,
        Self::FitLid,
        Self::LayGasket,
        Self::Hang,
        Self::Line,
        Self::Duct,
        Self::Fit,
        Self::Try,
    ];

    /// What is done, and by what it is counted.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plan => "Checking and marking out sheets",
            Self::Saw => "Sawing boards",
            Self::Edge => "Breaking edges, labelling",
            Self::Rebate => "Fitting boards of lids",
            Self::Bore => "Holes and cut-outs",
            Self::Glue => "Spreading glue",
            Self::Spread => "Spreading compound",
            Self::Screw => "Drilling and driving screws",
            Self::Seal => "Sealing seams",
            Self::Brace => "Fitting battens",
            Self::FitLid => "Latches and handles of a lid",
            Self::LayGasket => "Laying gasket",
            Self::Hang => "Fitting supports",
            Self::Line => "Cutting and fixing wool",
            Self::Duct => "Making ducts",
            Self::Fit => "Fitting jacks, handles, castors",
            Self::Try => "Trying it out, finding leaks",
        }
    }

    /// What one of it is.
    pub const fn per(self) -> &'static str {
        match self {
            Self::Plan => "sheet",
            Self::Saw | Self::Edge | Self::Rebate => "board",
            Self::Bore => "hole",
            Self::Glue | Self::Spread | Self::Line => "m²",
            Self::Screw => "screw",
            Self::Seal | Self::LayGasket | Self::Duct => "m",
            Self::Brace => "batten",
            Self::FitLid => "lid",
            Self::Hang => "support",
            Self::Fit => "piece",
            Self::Try => "box",
        }
    }

    /// Minutes for one, for somebody who does it with hand-held machines and not every day; assumed, none of it measured.
    #[allow(clippy::match_same_arms, reason = "a table")]
    pub const fn minutes(self) -> f64 {
        match self {
            Self::Plan => 15.0,
            Self::Saw => 6.0,
            Self::Edge => 3.0,
            Self::Rebate | Self::Hang => 20.0,
            Self::Bore | Self::Brace => 10.0,
            Self::Glue => 5.0,
            Self::Spread => 12.0,
            Self::Screw => 0.6,
            Self::Seal => 2.0,
            Self::FitLid => 60.0,
            Self::LayGasket => 4.0,
            Self::Line => 12.0,
            Self::Duct => 60.0,
            Self::Fit => 15.0,
            Self::Try => 90.0,
        }
    }

    /// How long in hours nothing may be done to it afterwards; common practice, no source, and what stands on the tube counts.
    pub const fn drying_h(self) -> f64 {
        match self {
            Self::Glue => 2.0,
            Self::Spread | Self::Seal => 24.0,
            Self::LayGasket => 1.0,
            _ => 0.0,
        }
    }

    /// Its key among the numbers of one's own.
    pub fn own_key(self) -> String {
        format!("minutes/{}", self.write().as_str().unwrap_or_default())
    }
}
