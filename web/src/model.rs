//! What the page asks about designs, and the core that answers. Between page and engine the answers travel as bytes.

use std::cell::RefCell;

use hushwright::design::{Design, file, link};
use hushwright::error::FieldError;
use hushwright::evaluate::{Evaluator, Report};
use hushwright::need::{BandValues, read_bands};

/// What there is to know of a design that has passed its check.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The fragment of the link that carries it.
    pub fragment: String,
    /// What it does.
    pub report: Report,
}

/// Whoever knows checks, links and physics.
pub trait Model {
    /// What `design` does.
    ///
    /// # Errors
    /// Every field that is refused, with what is allowed.
    fn estimate(&self, design: &Design) -> Result<Estimate, Vec<FieldError>>;

    /// The same as it travels, for another program: see [`estimate_from_bytes`].
    fn estimate_bytes(&self, design: &Design) -> Vec<u8> {
        estimate_to_bytes(self.estimate(design))
    }

    /// The design that a link carries; it has passed its check.
    ///
    /// # Errors
    /// Says in words for the reader what is wrong with the link.
    fn open(&self, fragment: &str) -> Result<Design, String>;

    /// The design in the text of a file; it has passed its check.
    ///
    /// # Errors
    /// Says in words for the reader what is wrong with the file.
    fn open_file(&self, text: &str) -> Result<Design, String>;

    /// The text of a file that holds `design`.
    fn file(&self, design: &Design) -> String;

    /// The band values that a person has typed or pasted.
    ///
    /// # Errors
    /// One line for the person.
    fn read_bands(&self, text: &str) -> Result<BandValues, String>;
}

/// The core itself, with what the estimates before have worked out and the next one need not.
#[derive(Default)]
pub struct Core(RefCell<Evaluator>);

impl Model for Core {
    fn estimate(&self, design: &Design) -> Result<Estimate, Vec<FieldError>> {
        let (checked, fragment) = link::check_and_encode(design)?;
        Ok(Estimate { fragment, report: self.0.borrow_mut().evaluate(&checked) })
    }

    fn open(&self, fragment: &str) -> Result<Design, String> {
        link::decode(fragment).map_err(|error| error.to_string())
    }

    fn open_file(&self, text: &str) -> Result<Design, String> {
        file::read(text)
    }

    fn file(&self, design: &Design) -> String {
        file::write(design)
    }

    fn read_bands(&self, text: &str) -> Result<BandValues, String> {
        read_bands(text)
    }
}

/// An estimate as it travels; errors as path and message.
type SentEstimate = Result<(String, Report), Vec<(String, String)>>;
/// An opened link as it travels.
type SentDesign = Result<Vec<u8>, String>;

/// An estimate as it is sent.
///
/// # Panics
/// Never: numbers and names can always be written.
pub fn estimate_to_bytes(estimate: Result<Estimate, Vec<FieldError>>) -> Vec<u8> {
    let sent: SentEstimate = estimate
        .map(|Estimate { fragment, report }| (fragment, report))
        .map_err(|errors| errors.into_iter().map(|FieldError { path, message }| (path, message)).collect());
    postcard::to_allocvec(&sent).expect("numbers and names can always be written")
}

/// An estimate as it arrives; `None` if it is anything else.
pub fn estimate_from_bytes(bytes: &[u8]) -> Option<Result<Estimate, Vec<FieldError>>> {
    let sent: SentEstimate = postcard::from_bytes(bytes).ok()?;
    Some(
        sent.map(|(fragment, report)| Estimate { fragment, report })
            .map_err(|errors| errors.into_iter().map(|(path, message)| FieldError { path, message }).collect()),
    )
}

/// An opened link as it is sent.
///
/// # Panics
/// Never: bytes and text can always be written.
pub fn design_to_bytes(opened: Result<Design, String>) -> Vec<u8> {
    let sent: SentDesign = opened.map(|design| design.to_bytes());
    postcard::to_allocvec(&sent).expect("bytes and text can always be written")
}

/// An opened link as it arrives; `None` if it is anything else.
pub fn design_from_bytes(bytes: &[u8]) -> Option<Result<Design, String>> {
    match postcard::from_bytes::<SentDesign>(bytes).ok()? {
        Ok(design) => Some(Ok(Design::from_bytes(&design)?)),
        Err(message) => Some(Err(message)),
    }
}

/// Band values as they are sent.
///
/// # Panics
/// Never: numbers and text can always be written.
pub fn bands_to_bytes(read: &Result<BandValues, String>) -> Vec<u8> {
    postcard::to_allocvec(read).expect("numbers and text can always be written")
}

/// Band values as they arrive; `None` if it is anything else.
pub fn bands_from_bytes(bytes: &[u8]) -> Option<Result<BandValues, String>> {
    postcard::from_bytes(bytes).ok()
}

#[cfg(test)]
mod tests {
    use hushwright::design::examples;

    use super::*;

    #[test]
    fn an_estimate_arrives_as_it_was_sent() {
        let core = Core::default();
        let mut refused = Design::default();
        (refused.inner.length_mm, refused.room.height_m) = (7.0, f64::NAN);
        for design in examples().into_iter().chain([refused]) {
            let estimate = core.estimate(&design);
            let bytes = estimate_to_bytes(estimate.clone());
            assert_eq!(estimate_from_bytes(&bytes[..bytes.len() - 1]), None);
            assert_eq!(estimate_from_bytes(&bytes), Some(estimate));
        }
    }

    #[test]
    fn a_link_arrives_as_its_design_or_with_what_is_wrong() {
        let core = Core::default();
        for design in examples() {
            let opened = core.open(&core.estimate(&design).expect("an example").fragment);
            assert_eq!(opened.as_ref(), Ok(&design));
            let bytes = design_to_bytes(opened);
            assert_eq!(design_from_bytes(&bytes[..bytes.len() - 1]), None);
            assert_eq!(design_from_bytes(&bytes), Some(Ok(design)));
        }
        let refused = core.open("v1.e30");
        assert!(refused.as_ref().is_err_and(|message| message.contains("cut short")), "{refused:?}");
        assert_eq!(design_from_bytes(&design_to_bytes(refused.clone())), Some(refused));
    }

    #[test]
    fn band_values_arrive_as_they_were_read() {
        for text in ["125 62.5\n250 -3", "125 many"] {
            let read = Core::default().read_bands(text);
            assert_eq!(bands_from_bytes(&bands_to_bytes(&read)), Some(read));
        }
    }
}
