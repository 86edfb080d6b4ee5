//! A text as a code to be scanned (QR code, ISO/IEC 18004), drawn for screen, projector, paper and file.

use std::fmt::Write;

use maud::{PreEscaped, html};
use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// Light modules on every side (ISO/IEC 18004, 5.3.8).
pub const QUIET_ZONE: i32 = 4;

/// Longest text in bytes that a code holds: version 40 with error correction L (ISO/IEC 18004, table 7).
pub const LONGEST: usize = 2953;

/// Up to this version error correction is M at least, which makes up for 15 % of the code. Finer codes are hard to read from a distance whatever
/// they correct, and coarser modules bring more there: beyond it, L will do. Assumed.
const LARGEST_WITH_M: u8 = 20;

/// About how wide a code is drawn, in CSS pixels: some 10 cm. Assumed.
const WIDTH_PX: i32 = 400;
/// And the least width of a module: of 2 px and such between, a second reader could not read a screen of one pixel to a CSS pixel.
const LEAST_MODULE_PX: i32 = 3;

/// The code of `text` in as few modules as hold it, with as much error correction as these then have room for; `None` where the
/// text is longer than any code holds.
pub fn encoded(text: &str) -> Option<QrCode> {
    let segments = [QrSegment::make_bytes(text.as_bytes())];
    let within =
        |correction, largest| QrCode::encode_segments_advanced(&segments, correction, Version::MIN, largest, None, true).ok();
    within(QrCodeEcc::Medium, Version::new(LARGEST_WITH_M)).or_else(|| within(QrCodeEcc::Low, Version::MAX))
}

/// The code of `text` as an SVG of one unit to a module, as wide as [`WIDTH_PX`] where nothing else is said: black on white in every theme, with its quiet
/// zone. `about` is what it is to who cannot see it.
pub fn drawn(text: &str, about: &str) -> Option<String> {
    let code = encoded(text)?;
    let side = code.size() + 2 * QUIET_ZONE;
    let path = path(&code);
    // Whole pixels, so that all modules are of one size.
    let width_px = side * ((WIDTH_PX + side / 2) / side).max(LEAST_MODULE_PX);
    let drawing = html! {
        svg xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {side} {side}")) width=(width_px) height=(width_px)
            shape-rendering="crispEdges" role="img" aria-label=(about) {
            rect width=(side) height=(side) fill="#ffffff" {}
            path d=(PreEscaped(path)) fill="#000000" {}
        }
    };
    Some(drawing.into_string())
}

/// The dark modules, row by row, those that touch in one rectangle.
fn path(code: &QrCode) -> String {
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let end = (x..code.size()).find(|at| !code.get_module(*at, y)).unwrap_or(code.size());
            let run = end - x;
            if run > 0 {
                let (left, top) = (x + QUIET_ZONE, y + QUIET_ZONE);
                // Writing to a string cannot fail.
                let _ = write!(path, "M{left} {top}h{run}v1h-{run}z");
            }
            x = end + 1;
        }
    }
    path
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use hushwright::design::{examples, link};

    use super::*;

    /// Longest texts in bytes of some versions, by error correction M up to version 20 and L beyond, and the version that one byte
    /// more needs: ISO/IEC 18004, table 7 (from memory).
    const HELD: [(u8, usize, u8); 9] =
        [(1, 14, 2), (2, 26, 3), (3, 42, 4), (4, 62, 5), (5, 84, 6), (10, 213, 11), (15, 412, 16), (20, 666, 18), (25, 1273, 26)];

    #[test]
    fn a_code_is_as_coarse_as_the_standard_allows() {
        let version = |length: usize| encoded(&"v".repeat(length)).map(|code| code.version().value());
        for (held, longest, next) in HELD {
            assert_eq!((version(longest), version(longest + 1)), (Some(held), Some(next)));
        }
        assert_eq!((version(LONGEST), version(LONGEST + 1)), (Some(40), None));
        assert_eq!(drawn(&"v".repeat(LONGEST + 1), ""), None);
    }

    /// Pixels to a module in the picture that is read.
    const SCALE: usize = 3;

    /// What a second program's reader (crate `rqrr`) sees in a drawing, of which every mark is checked, and with which error correction
    /// and version.
    fn scanned(drawing: &str) -> (rqrr::MetaData, String) {
        let part =
            |start: &str, end: &str| drawing.split_once(start).and_then(|(_, rest)| rest.split_once(end)).expect("a part").0;
        let frame: Vec<usize> = part("viewBox=\"", "\"").split(' ').map(|number| number.parse().expect("a number")).collect();
        let side = frame[2];
        assert_eq!(frame, [0, 0, side, side]);
        let mut dark = vec![false; side * side];
        for rectangle in part(" d=\"", "\"").split_terminator('z') {
            let (place, run) = rectangle.strip_prefix('M').and_then(|rest| rest.split_once('h')).expect("a row of modules");
            let (x, y) = place.split_once(' ').expect("a place");
            let [x, y, width] =
                [x, y, run.split('v').next().expect("a width")].map(|number| number.parse::<usize>().expect("a number"));
            assert_eq!(run, format!("{width}v1h-{width}"));
            dark[y * side + x..][..width].fill(true);
        }
        let zone = QUIET_ZONE as usize;
        let is_dark = |x: usize, y: usize| dark[y * side + x];
        for k in 0..side {
            for edge in (0..zone).chain(side - zone..side) {
                assert!(!is_dark(k, edge) && !is_dark(edge, k), "the quiet zone is light");
            }
        }
        let shade = |x: usize, y: usize| if is_dark(x / SCALE, y / SCALE) { 0 } else { 255 };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side * SCALE, side * SCALE, shade);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1);
        grids[0].decode().expect("a readable code")
    }

    #[test]
    fn a_second_reader_reads_the_link() {
        let address = |fragment: &str| format!("https://box.example/#{fragment}");
        let mut texts: Vec<String> = examples().iter().map(|design| address(&link::encode(design))).collect();
        // As long as it says, of letters as links have them.
        let letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
        texts.extend([30, 300, 666, 2000, LONGEST].map(|length| {
            let start = address("v1.");
            let rest: String = letters.chars().cycle().step_by(7).take(length - start.len()).collect();
            start + &rest
        }));
        for text in texts {
            let (about, read) = scanned(&drawn(&text, "").expect("it holds the link"));
            assert_eq!(read, text);
            // 0 is M, 1 is L, 2 is H, 3 is Q (ISO/IEC 18004, table 12).
            assert!(
                about.version.0 > usize::from(LARGEST_WITH_M) || about.ecc_level != 1,
                "{} characters: {about:?}",
                text.len()
            );
        }
    }

    #[test]
    fn error_correction_takes_the_room_that_is_left() {
        // Version 1 holds 7, 11, 14 and 17 bytes with H, Q, M and L (the same table, from memory); L is not used there.
        let of = |length: usize| encoded(&"v".repeat(length)).map(|code| code.error_correction_level());
        assert_eq!([of(7), of(8), of(11), of(12), of(14)], {
            use QrCodeEcc::{High, Medium, Quartile};
            [High, Quartile, Quartile, Medium, Medium].map(Some)
        });
    }

    #[test]
    fn what_is_said_of_it_is_no_markup() {
        let drawing = drawn("v1.e30", "<\"&>").expect("a short text");
        assert!(drawing.contains("aria-label=\"&lt;&quot;&amp;&gt;\""), "{drawing:.300}");
    }
}
