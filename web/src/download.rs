//! Giving the browser a file to save.

use gloo::timers::callback::Timeout;
use gloo::utils::document;
use js_sys::Array;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// How long in ms the browser may take to fetch what it saves; some begin after the click has returned. Assumed.
const FETCHED_MS: u32 = 30_000;
/// Most characters of a design's name in the name of a file.
const LONGEST: usize = 60;

/// Lets the browser save a text as a file.
///
/// # Errors
/// What the browser refuses.
pub fn save(name: &str, mime: &str, content: &str) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type(mime);
    save_blob(name, &Blob::new_with_str_sequence_and_options(&Array::of1(&content.into()), &kind)?)
}

/// Lets the browser save what it holds as a file.
///
/// # Errors
/// What the browser refuses.
pub fn save_blob(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let url = Url::create_object_url_with_blob(blob)?;
    let anchor: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    Timeout::new(FETCHED_MS, move || {
        // It cannot be refused but for an address that is none.
        let _ = Url::revoke_object_url(&url);
    })
    .forget();
    Ok(())
}

/// A name for a file: the name of a design without what file systems refuse or hide, then what the file holds.
pub fn file_name(design: &str, what: &str, ending: &str) -> String {
    let mut name = String::new();
    for letter in design.chars() {
        let is_refused = letter.is_ascii_control() || letter.is_ascii_whitespace() || "/\\:*?\"<>|.,;'`$%&#!".contains(letter);
        // Marks that turn the direction of writing, and such as are not seen, would show another name than the file has.
        let is_unseen =
            matches!(letter as u32, 0x80..=0xa0 | 0xad | 0x200b..=0x200f | 0x2028..=0x202e | 0x2060..=0x206f | 0xfeff);
        if !is_refused && !is_unseen {
            name.push(letter);
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
        if name.chars().count() == LONGEST {
            break;
        }
    }
    let name = name.trim_matches('-');
    format!("{}-{what}.{ending}", if name.is_empty() { "design" } else { name })
}

#[cfg(test)]
mod tests {
    use super::file_name;

    #[test]
    fn names_of_files_are_safe_everywhere() {
        assert_eq!(file_name("Run-in box, ground floor", "levels", "csv"), "Run-in-box-ground-floor-levels.csv");
        assert_eq!(file_name("../../etc/passwd", "levels", "csv"), "etc-passwd-levels.csv");
        assert_eq!(file_name("CON", "levels", "png"), "CON-levels.png");
        assert_eq!(file_name("Küche \u{202e}gnp.exe", "levels", "png"), "Küche-gnp-exe-levels.png");
        assert_eq!(file_name(" <>:\"/\\|?*. ", "levels", "png"), "design-levels.png");
        assert_eq!(file_name("", "levels", "png"), "design-levels.png");
        assert_eq!(file_name(&"ä".repeat(80), "levels", "png").chars().count(), 60 + "-levels.png".len());
    }
}
