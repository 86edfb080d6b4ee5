//! The text of a file that somebody gives to the page.

use hushwright::design::file::LONGEST;
use js_sys::Uint8Array;
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

/// Its text.
///
/// # Errors
/// Says in words for the reader why there is none. What is larger than any design is not read at all.
pub async fn text_of(file: File) -> Result<String, String> {
    let name = file.name();
    admitted(&name, file.size())?;
    let read = JsFuture::from(file.array_buffer()).await;
    let bytes = read.map_err(|_| format!("“{name}” could not be read: the browser or the system refused it."))?;
    text(&name, Uint8Array::new(&bytes).to_vec())
}

/// Lets files through that may hold a design, by their size in bytes.
fn admitted(name: &str, size: f64) -> Result<(), String> {
    if size <= LONGEST as f64 {
        return Ok(());
    }
    let (kb, longest_kb) = ((size / 1000.0).ceil() as u32, LONGEST / 1000);
    Err(format!("“{name}” has {kb} kB and was not read: a design needs {longest_kb} kB at most."))
}

/// The text that the bytes of a file are.
fn text(name: &str, bytes: Vec<u8>) -> Result<String, String> {
    // Text in UTF-16 and most of what is no text has a nought somewhere, or is no UTF-8.
    let text = String::from_utf8(bytes).ok().filter(|text| !text.contains('\0'));
    text.ok_or_else(|| format!("“{name}” is no text in UTF-8. A design is a JSON file, as “Save the design” writes it."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_texts_of_a_possible_size_are_let_through() {
        assert_eq!(admitted("a.json", 200_000.0), Ok(()));
        let refusal = admitted("a.json", 200_001.0).expect_err("too large");
        assert!(refusal.contains("201 kB") && refusal.contains("200 kB at most"), "{refusal}");
        assert_eq!(text("a.json", "{ \"name\": \"Küche\" }".into()), Ok("{ \"name\": \"Küche\" }".to_owned()));
        // The first bytes of a PNG (ISO/IEC 15948, 5.2), of a ZIP (from memory), and "{}" in UTF-16.
        for bytes in [&b"\x89PNG\r\n\x1a\n"[..], b"PK\x03\x04\x14\0", b"\xff\xfe{\0}\0", b"{\0}\0"] {
            assert!(text("a.json", bytes.to_vec()).is_err_and(|message| message.contains("no text")), "{bytes:?}");
        }
    }
}
