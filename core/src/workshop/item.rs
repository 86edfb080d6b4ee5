//! What is bought beside sheets and wool, each with an invented price, and the keys of numbers of one's own.

use crate::enclosure::SealKind;
use crate::mapping::{self, Held};
use crate::material;
use crate::number;

use super::operation::Operation;

crate::mapping::names! {
    Item {
        CompoundTube = "compound-tube",
        Glue = "glue",
        Sealant = "sealant",
        FoamTape = "foam-tape",
        ClosedCellGasket = "closed-cell-gasket",
        CompressedGasket = "compressed-gasket",
        Strap = "strap",
        Spring = "spring",
        Pad = "pad",
        EyeBolt = "eye-bolt",
        Latch = "latch",
        Hinge = "hinge",
        Handle = "handle",
        Castor = "castor",
        Jack = "jack",
        Screws = "screws",
        Batten = "batten",
        Duct = "duct-board",
    }
}

/// A thing that is bought by number, length or weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// A tube of damping compound.
    CompoundTube,
    /// A kilogram of wood glue.
    Glue,
    /// A cartridge of sealant.
    Sealant,
    /// A metre of foam tape.
    FoamTape,
    /// A metre of closed-cell gasket.
    ClosedCellGasket,
    /// A metre of gasket to be pressed.
    CompressedGasket,
    /// A rubber strap.
    Strap,
    /// A steel spring.
    Spring,
    /// A rubber pad.
    Pad,
    /// An eye bolt with a rated working load.
    EyeBolt,
    /// A latch that pulls a lid tight.
    Latch,
    /// A hinge.
    Hinge,
    /// A handle that is screwed through.
    Handle,
    /// A castor.
    Castor,
    /// A jack or a cable gland.
    Jack,
    /// A hundred screws.
    Screws,
    /// A metre of softwood batten.
    Batten,
    /// A square metre of board for ducts.
    Duct,
}

/// By what a thing is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum Unit {
    /// Pieces.
    Pieces,
    /// Metres.
    Metres,
    /// Square metres.
    SquareMetres,
    /// Kilograms.
    Kilograms,
    /// Hundreds.
    Hundreds,
}

impl Item {
    /// Name for people.
    pub const fn name(self) -> &'static str {
        match self {
            Self::CompoundTube => "Damping compound, tube of 0.8 l",
            Self::Glue => "Wood glue",
            Self::Sealant => "Sealant that stays soft, cartridge of 0.31 l",
            Self::FoamTape => "Foam tape",
            Self::ClosedCellGasket => "Closed-cell gasket",
            Self::CompressedGasket => "Gasket, pressed all round",
            Self::Strap => "Rubber strap",
            Self::Spring => "Steel spring",
            Self::Pad => "Rubber pad",
            Self::EyeBolt => "Eye bolt with a rated load",
            Self::Latch => "Latch that pulls tight",
            Self::Hinge => "Hinge",
            Self::Handle => "Handle, screwed through",
            Self::Castor => "Castor",
            Self::Jack => "Jack or cable gland",
            Self::Screws => "Screws, per hundred",
            Self::Batten => "Softwood batten",
            Self::Duct => "Board for ducts, 12 mm",
        }
    }

    /// By what it is counted.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Glue => Unit::Kilograms,
            Self::FoamTape | Self::ClosedCellGasket | Self::CompressedGasket | Self::Batten => Unit::Metres,
            Self::Screws => Unit::Hundreds,
            Self::Duct => Unit::SquareMetres,
            _ => Unit::Pieces,
        }
    }

    /// Invented price, in no particular currency.
    #[allow(clippy::match_same_arms, reason = "a table")]
    pub const fn price(self) -> f64 {
        match self {
            Self::CompoundTube => 24.0,
            Self::Glue => 10.0,
            Self::Sealant | Self::Jack => 5.0,
            Self::FoamTape => 0.6,
            Self::ClosedCellGasket => 1.5,
            Self::CompressedGasket => 3.0,
            Self::Strap => 14.0,
            Self::Spring | Self::Castor => 12.0,
            Self::Pad | Self::Latch | Self::Screws => 6.0,
            Self::EyeBolt => 4.0,
            Self::Hinge => 3.0,
            Self::Handle => 9.0,
            Self::Batten => 1.6,
            Self::Duct => 10.0,
        }
    }

    /// What is laid into the edge of a lid, if anything is.
    pub const fn of_seal(seal: SealKind) -> Option<Self> {
        match seal {
            SealKind::Bare => None,
            SealKind::FoamTape => Some(Self::FoamTape),
            SealKind::ClosedCell => Some(Self::ClosedCellGasket),
            SealKind::Compressed => Some(Self::CompressedGasket),
        }
    }

    /// Its key in documents.
    pub fn key(self) -> String {
        self.write().as_str().unwrap_or_default().to_owned()
    }
}

/// The number of one's own that a key stands for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OwnKey<'a> {
    /// `compound-tube`: price of a thing.
    Item(Item),
    /// `minutes/saw`: working time.
    Minutes(Operation),
    /// `mdf/15`: price of a whole sheet of this nominal thickness in mm.
    Sheet(&'a str),
    /// `mdf/length`: how long its sheets are, in mm.
    SheetLength(&'a str),
    /// `mdf/width`: how wide its sheets are, in mm.
    SheetWidth(&'a str),
    /// `mineral-wool-48/50`: price of a square metre of wool of this thickness in mm.
    Porous(&'a str),
}

impl<'a> OwnKey<'a> {
    /// What `key` stands for, if it stands for anything.
    pub fn parse(key: &'a str) -> Option<Self> {
        let Some((of, what)) = key.split_once('/') else {
            return mapping::from_value(&key.into()).ok().map(Self::Item);
        };
        if of == "minutes" {
            return mapping::from_value(&what.into()).ok().map(Self::Minutes);
        }
        let is_thickness = what.len() <= 8 && number::parse(what).is_some_and(|mm| mm > 0.0);
        if material::fill(of).is_some() {
            return is_thickness.then_some(Self::Porous(key));
        }
        if material::sheet(of).is_none()
            && of.strip_prefix("own-").is_none_or(|density| {
                density.is_empty() || density.len() > 8 || !density.bytes().all(|byte| byte.is_ascii_digit())
            })
        {
            return None;
        }
        match what {
            "length" => Some(Self::SheetLength(of)),
            "width" => Some(Self::SheetWidth(of)),
            _ => is_thickness.then_some(Self::Sheet(key)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_say_what_they_stand_for() {
        assert_eq!(OwnKey::parse(&Item::Latch.key()), Some(OwnKey::Item(Item::Latch)));
        assert_eq!(OwnKey::parse(&Operation::Saw.own_key()), Some(OwnKey::Minutes(Operation::Saw)));
        assert_eq!(OwnKey::parse("mdf/15"), Some(OwnKey::Sheet("mdf/15")));
        assert_eq!(OwnKey::parse("own-1200/6.5"), Some(OwnKey::Sheet("own-1200/6.5")));
        assert_eq!(OwnKey::parse("mdf/length"), Some(OwnKey::SheetLength("mdf")));
        assert_eq!(OwnKey::parse("mdf/width"), Some(OwnKey::SheetWidth("mdf")));
        assert_eq!(OwnKey::parse("mineral-wool-48/50"), Some(OwnKey::Porous("mineral-wool-48/50")));
        for unknown in ["", "/", "nothing", "mdf", "mdf/", "mdf/-3", "mdf/inf", "mdf/height", "minutes/rest", "wool/50", "own-/"]
        {
            assert_eq!(OwnKey::parse(unknown), None, "{unknown}");
        }
    }
}
