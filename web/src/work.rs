//! What the page and its worker say to each other.
//!
//! The page asks by text: the number of the question, a space, the fragment of a link. The worker answers by rows of numbers:
//! an empty one when it is ready to be asked, else the number of the question and what there is to say.

use hushwright::improve::Step;
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
    /// What each change of the design brings, in the order of [`hushwright::improve::Change::all`].
    Steps(u32, Vec<Step>),
    /// The ranges of the design.
    Ranges(u32, Box<Ranges>),
}

/// Second number of an answer: what follows.
const STEPS: f64 = 1.0;
const RANGES: f64 = 2.0;
/// Numbers of a step.
const OF_A_STEP: usize = 6;

impl Answer {
    /// As it is sent.
    pub fn to_numbers(&self) -> Vec<f64> {
        match self {
            Self::Ready => Vec::new(),
            Self::Refused(number) => vec![f64::from(*number)],
            Self::Ranges(number, ranges) => {
                let mut row = vec![f64::from(*number), RANGES];
                row.extend(ranges.to_numbers());
                row
            }
            Self::Steps(number, steps) => {
                let of =
                    |step: &Step| [step.gain_db, step.gain_dba, step.gain_in_band_db, step.mass_kg, step.cost, step.growth_mm];
                [f64::from(*number), STEPS].into_iter().chain(steps.iter().flat_map(of)).collect()
            }
        }
    }

    /// As it arrives; `None` if it is no answer.
    pub fn from_numbers(numbers: &[f64]) -> Option<Self> {
        let Some((number, rest)) = numbers.split_first() else { return Some(Self::Ready) };
        let number = Some(*number).filter(|number| number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(number))? as u32;
        let Some((kind, rest)) = rest.split_first() else { return Some(Self::Refused(number)) };
        if *kind == RANGES {
            return Ranges::from_numbers(rest).map(|ranges| Self::Ranges(number, Box::new(ranges)));
        }
        let sound = *kind == STEPS && rest.len() % OF_A_STEP == 0 && rest.iter().all(|number| number.is_finite());
        let step = |of: &[f64]| Step {
            gain_db: of[0],
            gain_dba: of[1],
            gain_in_band_db: of[2],
            mass_kg: of[3],
            cost: of[4],
            growth_mm: of[5],
        };
        sound.then(|| Self::Steps(number, rest.chunks_exact(OF_A_STEP).map(step).collect()))
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
        let step = Step { gain_db: 2.0, gain_dba: 1.5, gain_in_band_db: -3.0, mass_kg: 20.0, cost: 0.0, growth_mm: 25.0 };
        for answer in [Answer::Ready, Answer::Refused(3), Answer::Steps(4, vec![step, step]), Answer::Ranges(5, Box::new(ranges))]
        {
            assert_eq!(Answer::from_numbers(&answer.to_numbers()), Some(answer));
        }
        for numbers in [&[-1.0][..], &[0.5], &[1.0, 2.0], &[1.0, f64::NAN], &[1.0, 2.0, 3.0], &[1.0, 1.0, 3.0], &[1.0, 3.0]] {
            assert_eq!(Answer::from_numbers(numbers), None, "{numbers:?}");
        }
    }
}
