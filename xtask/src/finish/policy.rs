//! The content security policy that the page declares for itself (Content Security Policy Level 3, W3C): any host will do, for none
//! has to send a header.
//!
//! Scripts and style sheets within the page are let in by their hashes, so that whatever gets into the markup by a fault of ours is
//! text and never a program.

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha256};

use super::markup::elements;

/// Which of the page's two forms a policy is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A page beside its files: they come from where the page comes from, and from nowhere else.
    Folder,
    /// A page of one file: its scripts have addresses within the browser's memory (`blob:`), its wasm and its worker such as hold them
    /// (`data:`), and nothing is fetched from anywhere.
    SingleFile,
}

/// The policy of a page: what its markup holds now, and nothing else.
pub fn policy(html: &str, form: Form) -> String {
    let scripts = hashes(html, "script");
    let styles = hashes(html, "style");
    let (own, held) = match form {
        Form::Folder => ("'self'", "'self'"),
        // Markup can name an address that holds a script, so that no script may come from one; only a script can fetch or start a worker.
        Form::SingleFile => ("blob:", "data:"),
    };
    let mut rules = vec![
        "default-src 'none'".to_owned(),
        format!("script-src {own} 'wasm-unsafe-eval' {scripts}"),
        format!("style-src {styles}"),
        format!("connect-src {held}"),
        format!("worker-src {held}"),
        "base-uri 'none'".to_owned(),
        "form-action 'none'".to_owned(),
    ];
    rules.push(match form {
        // Pictures that the page has drawn are saved and shown from memory.
        Form::Folder => "img-src 'self' data: blob:; manifest-src 'self'".to_owned(),
        Form::SingleFile => "img-src data: blob:".to_owned(),
    });
    rules.join("; ")
}

/// The element that declares `policy`.
pub fn element(policy: &str) -> String {
    format!("<meta http-equiv=Content-Security-Policy content=\"{policy}\">")
}

/// SHA-256 as policies and integrity attributes write it, without quotes.
pub fn sha256(bytes: &[u8]) -> String {
    format!("sha256-{}", BASE64_STANDARD.encode(Sha256::digest(bytes)))
}

/// Sources for all elements of a name with text that is run or applied.
fn hashes(html: &str, name: &str) -> String {
    let runs = |kind: Option<&str>| matches!(kind, None | Some("module" | "text/javascript" | "text/css"));
    let inline =
        elements(html, name).into_iter().filter(|element| element.attribute("src").is_none() && runs(element.attribute("type")));
    // A browser hashes what it has read, in which each end of a line is one character.
    let of = |text: &str| format!("'{}'", sha256(text.replace("\r\n", "\n").as_bytes()));
    inline.map(|element| of(element.text)).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// source: Content Security Policy Level 3 (W3C), section 8.3: the hash of `alert('Hello, world.');` as worked out there.
    #[test]
    fn a_hash_is_that_of_the_standard() {
        let html = "<script>alert('Hello, world.');</script>";
        let expected = "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='";
        assert!(policy(html, Form::Folder).contains(&format!("script-src 'self' 'wasm-unsafe-eval' {expected};")));
    }

    #[test]
    fn what_is_not_within_the_page_or_does_not_run_has_no_hash() {
        let html = "<script src=a.js></script><script type=application/octet-stream>AAAA</script><script type=module>1</script>";
        assert_eq!(policy(html, Form::SingleFile).matches("sha256-").count(), 1);
        let lines = |end: &str| policy(&format!("<style>a {{{end}}}</style>"), Form::Folder);
        assert_eq!(lines("\r\n"), lines("\n"));
    }

    #[test]
    fn nothing_unsafe_and_no_other_place_is_let_in() {
        let html = "<script>1</script><style>a{}</style>";
        for form in [Form::Folder, Form::SingleFile] {
            let policy = policy(html, form);
            assert!(policy.starts_with("default-src 'none'; "), "{policy}");
            for refused in ["'unsafe-inline'", "'unsafe-eval'", "'unsafe-hashes'", "http:", "https:", "*", "\""] {
                assert!(!policy.contains(refused), "{refused} in {policy}");
            }
        }
        let of_one_file = policy(html, Form::SingleFile);
        assert!(
            !of_one_file.contains("'self'") && of_one_file.contains("script-src blob: 'wasm-unsafe-eval' 'sha256-"),
            "{of_one_file}"
        );
    }
}
