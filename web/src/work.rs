//! What the page and its worker say to each other.
//!
//! The page asks by text: the number of the question, a space, the fragment of a link. The worker answers by rows of numbers:
//! an empty one when it is ready to be asked, else the number of the question and what there is to say.

use hushwright::uncertainty::Ranges;

/// Where the worker's program lies, beside the page.
pub const WORKER: &str = "worker_loader.js";

/// A question about a design.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Its number: an answer to any but the last question is stale.
    pub number: u32,
    /// The design, as a link has it.
    pub fragment: String,
}

impl Question {
    /// As it is sent.
    pub fn to_text(&self) -> String {
        format!("{} {}", self.number, self.fragment)
    }

    /// As it arrives; `None` if it is no question.
    pub fn from_text(text: &str) -> Option<Self> {
        let (number, fragment) = text.split_once(' ')?;
        Some(Self { number: number.parse().ok()?, fragment: fragment.to_owned() })
    }
}

/// What the worker has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// It can be asked.
    Ready,
    /// The design of this question cannot be worked on.
    Refused(u32),
    /// The ranges that this question asked for.
    Ranges(u32, Box<Ranges>),
}

impl Answer {
    /// As it is sent.
    pub fn to_numbers(&self) -> Vec<f64> {
        match self {
            Self::Ready => Vec::new(),
            Self::Refused(number) => vec![f64::from(*number)],
            Self::Ranges(number, ranges) => {
                let mut row = vec![f64::from(*number)];
                row.extend(ranges.to_numbers());
                row
            }
        }
    }

    /// As it arrives; `None` if it is no answer.
    pub fn from_numbers(numbers: &[f64]) -> Option<Self> {
        let Some((number, rest)) = numbers.split_first() else { return Some(Self::Ready) };
        let number = Some(*number).filter(|number| number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(number))? as u32;
        match rest {
            [] => Some(Self::Refused(number)),
            _ => Ranges::from_numbers(rest).map(|ranges| Self::Ranges(number, Box::new(ranges))),
        }
    }
}

#[cfg(test)]
mod tests {
    use hushwright::design::{link, run_in_box};
    use hushwright::uncertainty::Sampling;

    use super::*;

    #[test]
    fn questions_and_answers_arrive() {
        let question = Question { number: 7, fragment: link::encode(&run_in_box()) };
        assert_eq!(Question::from_text(&question.to_text()), Some(question));
        for text in ["", "7", "x v1", "-1 v1"] {
            assert_eq!(Question::from_text(text), None, "{text}");
        }
        let mut sampling = Sampling::new(&run_in_box().check().expect("an example"), 1);
        sampling.step();
        let ranges = sampling.finish().expect("one sample");
        for answer in [Answer::Ready, Answer::Refused(3), Answer::Ranges(5, Box::new(ranges))] {
            assert_eq!(Answer::from_numbers(&answer.to_numbers()), Some(answer));
        }
        for numbers in [&[-1.0][..], &[0.5], &[1.0, 2.0], &[1.0, f64::NAN], &[1.0, 2.0, 3.0]] {
            assert_eq!(Answer::from_numbers(numbers), None, "{numbers:?}");
        }
    }
}
