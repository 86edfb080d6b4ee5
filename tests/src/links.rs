//! Links as a stranger could make them.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// A whole link of version 1, sum and all, round whatever stands where the difference of designs belongs.
pub fn sealed(patch: impl AsRef<[u8]>) -> String {
    let data = URL_SAFE_NO_PAD.encode(patch);
    format!("v1.{data}.{:08x}", crc32fast::hash(data.as_bytes()))
}

/// What `link` of version 1 holds in sealed form.
///
/// # Panics
/// Where it is no such link.
pub fn opened(link: &str) -> Vec<u8> {
    let data = link.strip_prefix("v1.").and_then(|rest| rest.rsplit_once('.')).expect("a link of version 1").0;
    URL_SAFE_NO_PAD.decode(data).expect("base64url")
}
