//! The words of links: what stands in nearly every document is written as its place in these lists.
//!
//! A link that somebody kept means what it meant, so a word never moves and never goes: new ones are put at the end. A word that is
//! missing here still travels, spelled out.

/// Keys of documents.
#[rustfmt::skip]
pub const KEYS: [&str; 112] = [
    "name", "notes", "source", "inner", "gap", "suspension", "outer", "feet", "vents", "room", "listeners", "build", "density",
    "youngs_modulus", "poisson", "loss_factor", "shear_modulus", "thickness_mm", "flow_resistivity", "share", "side", "sheet",
    "bond", "gap_mm", "fill", "contents", "way", "clearance_mm", "lid_clearance_mm", "compound_m2", "screw_mm", "bead_mm",
    "kerf_mm", "trim_mm", "keeps_grain", "waste", "tax", "currency", "own", "length_mm", "width_mm", "height_mm", "microphones",
    "distance_mm", "microphone_mm", "door_width_mm", "door_height_mm", "corridor_mm", "corner_mm", "stairs_mm", "handles_mm",
    "spectrum", "own_db", "level_from", "level_dba", "max_above_db", "start_h", "hours", "mass_kg", "heat_w", "driver", "count",
    "diameter_mm", "sensitivity_db", "power_w", "crest_db", "moving_mass_g", "cone_area_cm2", "existing", "lining", "layers",
    "edge_fixity", "braces", "baffle", "lid", "holes", "rear_mm", "kind", "depth_mm", "face", "form", "seals", "seal",
    "cable_mm", "sealed", "test_mass_kg", "test_sag_mm", "breaking_load_kg", "pad_side_mm", "pad_thickness_mm", "shore_a",
    "bends", "material", "floor_area_m2", "height_m", "absorption", "distance_m", "floor", "place", "partition", "reduction_db",
    "area_m2", "flanking_db", "corridor_m2", "criterion", "limit_dba", "limit_nr", "limit_nc", "average", "background",
    "background_dba", "background_db",
];

/// Names that documents give as values or as parts of keys. The first eighty take one byte.
#[rustfmt::skip]
pub const NAMES: [&str; 124] = [
    "birch-plywood", "softwood-plywood", "mdf", "particle-board", "osb", "gypsum-board", "dense-gypsum-board", "fibre-cement",
    "steel", "aluminium", "glass", "acrylic", "mass-loaded-vinyl", "lead", "mineral-wool-30", "mineral-wool-48",
    "mineral-wool-80", "glass-wool-14", "glass-wool-30", "rigid-glue", "damping-compound", "loose", "first", "second", "middle",
    "given", "driver", "battens", "shelves", "front", "side", "top", "plain", "stepped", "bare", "foam-tape", "closed-cell",
    "compressed", "straps", "springs", "pads", "rigid", "ground", "slab", "joists", "same-room", "next-room", "outdoors",
    "corridor", "behind-corridor", "dba", "who", "nr", "nc", "inaudible", "bedroom", "living-room", "town-room",
    "country-outdoors", "suburb-outdoors", "own-level", "own-bands", "own", "driver-noise", "pink-noise", "overdriven-guitar",
    "clean-guitar", "electric-bass", "pedal-steel", "keyboard", "voice", "drum", "compressor", "shop-vacuum", "pump",
    "brick-wall", "concrete-wall", "block-wall", "stud-wall", "joist-floor", "joist-floor-bare", "concrete-floor",
    "single-glass", "insulating-glass", "double-window", "solid-door", "hollow-door", "garage-door", "minutes", "length",
    "width", "compound-tube", "glue", "sealant", "closed-cell-gasket", "compressed-gasket", "strap", "spring", "pad",
    "eye-bolt", "latch", "hinge", "handle", "castor", "jack", "screws", "batten", "duct-board", "plan", "saw", "edge", "rebate",
    "bore", "spread", "screw", "seal", "brace", "fit-lid", "lay-gasket", "hang", "line", "duct", "fit", "try",
];

#[cfg(test)]
mod tests {
    use crc::{CRC_32_ISO_HDLC, Crc};

    use super::*;

    /// Words at the freezing of version 1, and the CRC-32 of them in a row.
    const FROZEN: [(&[&str], usize, u32); 2] = [(&KEYS, 112, 3_601_679_185), (&NAMES, 124, 3_986_653_168)];

    #[test]
    fn no_word_has_moved() {
        for (words, count, sum) in FROZEN {
            let row = words[..count].join(" ");
            assert_eq!(Crc::<u32>::new(&CRC_32_ISO_HDLC).checksum(row.as_bytes()), sum, "{row}");
        }
    }

    #[test]
    fn no_word_is_there_twice() {
        for words in [&KEYS[..], &NAMES] {
            for (place, word) in words.iter().enumerate() {
                assert!(!words[..place].contains(word), "{word}");
            }
        }
    }
}
