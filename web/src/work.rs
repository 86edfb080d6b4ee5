//! What the page and its workers say to each other.
//!
//! The page asks by text: the number of the question, its units, the fragment of a link, and for a search the wishes, a space between
//! each two. A
//! worker answers by rows of numbers, some with a text: an empty row when it is ready to be asked, else the number of the question
//! and what there is to say.

use hushwright::improve::Step;
use hushwright::search::{Progress, Pruned};
use hushwright::uncertainty::Ranges;

use crate::quantity::Units;
use crate::wishes::Wishes;

/// A question about a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Its number: an answer to any but the last question is stale.
    pub number: u32,
    /// The units that changes are named in.
    pub units: Units,
    /// The design, as a link has it.
    pub fragment: String,
    /// With wishes the best trade-offs are searched for, else ranges and changes are worked out.
    pub wishes: Option<Wishes>,
}

impl Question {
    /// As it is sent.
    pub fn to_text(&self) -> String {
        let wishes = self.wishes.as_ref().map_or_else(String::new, |wishes| format!(" {}", wishes.to_text()));
        format!("{} {} {}{wishes}", self.number, self.units.key(), self.fragment)
    }

    /// As it arrives; `None` if it is no question.
    pub fn from_text(text: &str) -> Option<Self> {
        let (number, rest) = text.split_once(' ')?;
        let (units, rest) = rest.split_once(' ')?;
        let (fragment, wishes) = match rest.split_once(' ') {
            Some((fragment, wishes)) => (fragment, Some(Wishes::from_text(wishes)?)),
            None => (rest, None),
        };
        Some(Self { number: number.parse().ok()?, units: Units::from_key(units)?, fragment: fragment.to_owned(), wishes })
    }
}

/// A point of the front as the page shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// A-weighted level in dB at the listener who decides, or in the room where nobody listens.
    pub level_dba: f64,
    /// Margin in dB of the listener who decides.
    pub margin_db: Option<f64>,
    /// Mass in kg.
    pub mass_kg: f64,
    /// Material cost.
    pub cost: f64,
    /// Outside length, width and height in m.
    pub outside_m: [f64; 3],
    /// The design, as a link has it.
    pub fragment: String,
}

/// What a search has found so far, or in the end.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// Whether the search is over.
    pub is_finished: bool,
    /// Whether that is the front and not a good guess.
    pub is_exact: bool,
    /// Largest difference in dB that was seen between the coarse and the full model.
    pub largest_deviation_db: f64,
    /// How many points the whole front has.
    pub of_all: usize,
    /// Those that stand for all, the lightest first.
    pub points: Vec<Point>,
}

/// A change of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct NextStep {
    /// What it is called.
    pub name: String,
    /// What it brings and costs.
    pub step: Step,
    /// The changed design, as a link has it.
    pub fragment: String,
}

/// What a worker has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// It can be asked.
    Ready,
    /// The design of this question cannot be worked on.
    Refused(u32),
    /// What each change of the design is and brings, and the design's answer in dBA with loose and with firm corners.
    Steps(u32, Vec<NextStep>, [f64; 2]),
    /// The ranges of the design.
    Ranges(u32, Box<Ranges>),
    /// How far a search is.
    Progress(u32, Progress),
    /// What it has found.
    Found(u32, Found),
    /// It cannot begin: paths of wishes and what is allowed there.
    NoSearch(u32, Vec<(String, String)>),
}

/// Second number of an answer: what follows.
const STEPS: f64 = 1.0;
const RANGES: f64 = 2.0;
const PROGRESS: f64 = 3.0;
const FOUND: f64 = 4.0;
const NO_SEARCH: f64 = 5.0;
/// Numbers of a step.
const OF_A_STEP: usize = 6;
/// Numbers of a point.
const OF_A_POINT: usize = 8;
/// Numbers of a find before its points.
const OF_A_FIND: usize = 4;

impl Answer {
    /// As it is sent: numbers, and a text that may be empty.
    pub fn to_message(&self) -> (Vec<f64>, String) {
        let row = |number: &u32, kind: f64, rest: &mut dyn Iterator<Item = f64>| -> Vec<f64> {
            [f64::from(*number), kind].into_iter().chain(rest).collect()
        };
        let row = match self {
            Self::Ready => Vec::new(),
            Self::Refused(number) => vec![f64::from(*number)],
            Self::Ranges(number, ranges) => row(number, RANGES, &mut ranges.to_numbers().into_iter()),
            Self::Steps(number, steps, corners_dba) => {
                let of = |NextStep { step, .. }: &NextStep| {
                    [step.gain_db, step.gain_dba, step.gain_in_band_db, step.mass_kg, step.cost, step.growth_mm]
                };
                let row = row(number, STEPS, &mut corners_dba.iter().copied().chain(steps.iter().flat_map(of)));
                return (row, lines(steps.iter().map(|next| (&*next.name, &*next.fragment))));
            }
            Self::Progress(number, progress) => {
                let Progress { done, combinations, evaluated, pruned, candidates, checked, beaten } = progress;
                let Pruned { refused, door, mass, cost, loads } = pruned;
                let counts = [combinations, evaluated, refused, door, mass, cost, loads, candidates, checked, beaten];
                row(number, PROGRESS, &mut [*done].into_iter().chain(counts.map(|count| *count as f64)))
            }
            Self::Found(number, found) => {
                let flag = |flag: bool| f64::from(u8::from(flag));
                let head = [flag(found.is_finished), flag(found.is_exact), found.largest_deviation_db, found.of_all as f64];
                let of = |point: &Point| {
                    let margin = [flag(point.margin_db.is_some()), point.margin_db.unwrap_or_default()];
                    let [length, width, height] = point.outside_m;
                    [point.level_dba, margin[0], margin[1], point.mass_kg, point.cost, length, width, height]
                };
                let row = row(number, FOUND, &mut head.into_iter().chain(found.points.iter().flat_map(of)));
                let fragments: Vec<&str> = found.points.iter().map(|point| point.fragment.as_str()).collect();
                return (row, fragments.join("\n"));
            }
            Self::NoSearch(number, errors) => {
                let lines = lines(errors.iter().map(|(path, message)| (&**path, &**message)));
                return (row(number, NO_SEARCH, &mut std::iter::empty()), lines);
            }
        };
        (row, String::new())
    }

    /// As it arrives; `None` if it is no answer.
    pub fn from_message(numbers: &[f64], text: &str) -> Option<Self> {
        let Some((number, rest)) = numbers.split_first() else { return Some(Self::Ready) };
        let number = Some(*number).filter(|number| number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(number))? as u32;
        let Some((kind, rest)) = rest.split_first() else { return Some(Self::Refused(number)) };
        if *kind == RANGES {
            return Ranges::from_numbers(rest).map(|ranges| Self::Ranges(number, Box::new(ranges)));
        }
        if rest.iter().any(|number| !number.is_finite()) {
            return None;
        }
        if *kind == STEPS
            && let Some((&corners_dba, rest)) = rest.split_first_chunk()
        {
            let next = |(of, (name, fragment)): (&[f64], (String, String))| NextStep {
                name,
                fragment,
                step: Step {
                    gain_db: of[0],
                    gain_dba: of[1],
                    gain_in_band_db: of[2],
                    mass_kg: of[3],
                    cost: of[4],
                    growth_mm: of[5],
                },
            };
            let texts = pairs(text)?;
            return (rest.len() == OF_A_STEP * texts.len())
                .then(|| Self::Steps(number, rest.chunks_exact(OF_A_STEP).zip(texts).map(next).collect(), corners_dba));
        }
        if *kind == PROGRESS {
            return progress(rest).map(|progress| Self::Progress(number, progress));
        }
        if *kind == FOUND {
            return found(rest, text).map(|found| Self::Found(number, found));
        }
        if *kind == NO_SEARCH {
            return pairs(text).map(|errors| Self::NoSearch(number, errors));
        }
        None
    }
}

/// Two texts a line.
fn lines<'a>(pairs: impl Iterator<Item = (&'a str, &'a str)>) -> String {
    pairs.flat_map(|(a, b)| [a, "\t", b, "\n"]).collect()
}

fn pairs(text: &str) -> Option<Vec<(String, String)>> {
    text.lines().map(|line| line.split_once('\t').map(|(a, b)| (a.to_owned(), b.to_owned()))).collect()
}

fn progress(numbers: &[f64]) -> Option<Progress> {
    let numbers: [f64; 11] = numbers.try_into().ok()?;
    let count = |k: usize| numbers[k] as u64;
    let pruned = Pruned { refused: count(3), door: count(4), mass: count(5), cost: count(6), loads: count(7) };
    Some(Progress {
        done: numbers[0],
        combinations: count(1),
        evaluated: count(2),
        pruned,
        candidates: count(8),
        checked: count(9),
        beaten: count(10),
    })
}

fn found(numbers: &[f64], text: &str) -> Option<Found> {
    let (&[finished, exact, largest_deviation_db, of_all], points) = numbers.split_first_chunk::<OF_A_FIND>()?;
    let fragments: Vec<&str> = text.lines().collect();
    if points.len() != OF_A_POINT * fragments.len() {
        return None;
    }
    let point = |(of, fragment): (&[f64], &&str)| Point {
        level_dba: of[0],
        margin_db: (of[1] != 0.0).then_some(of[2]),
        mass_kg: of[3],
        cost: of[4],
        outside_m: [of[5], of[6], of[7]],
        fragment: (*fragment).to_owned(),
    };
    Some(Found {
        is_finished: finished != 0.0,
        is_exact: exact != 0.0,
        largest_deviation_db,
        of_all: of_all as usize,
        points: points.chunks_exact(OF_A_POINT).zip(&fragments).map(point).collect(),
    })
}

#[cfg(test)]
mod tests {
    use hushwright::design::{link, run_in_box};
    use hushwright::uncertainty::Sampling;

    use super::*;

    #[test]
    fn questions_and_answers_arrive() {
        let question = Question { number: 7, units: Units::Imperial, fragment: link::encode(&run_in_box()), wishes: None };
        assert_eq!(Question::from_text(&question.to_text()).as_ref(), Some(&question));
        let search = Question { wishes: Some(Wishes::of(&run_in_box())), ..question };
        assert_eq!(Question::from_text(&search.to_text()), Some(search));
        for text in ["", "7", "7 metric", "x metric v1", "-1 metric v1", "7 miles v1", "7 metric v1 wishes"] {
            assert_eq!(Question::from_text(text), None, "{text}");
        }
        let mut sampling = Sampling::new(&run_in_box().check().expect("an example"), 1);
        sampling.step();
        let ranges = sampling.finish().expect("one sample");
        let step = Step { gain_db: 2.0, gain_dba: 1.5, gain_in_band_db: -3.0, mass_kg: 20.0, cost: 0.0, growth_mm: 25.0 };
        let next = NextStep { name: "Gap 25 mm deeper".to_owned(), step, fragment: link::encode(&run_in_box()) };
        let pruned = Pruned { refused: 1, door: 2, mass: 3, cost: 4, loads: 5 };
        let progress = Progress { done: 0.25, combinations: 400, evaluated: 30, pruned, candidates: 20, checked: 10, beaten: 9 };
        let point = |margin_db: Option<f64>| Point {
            level_dba: 31.5,
            margin_db,
            mass_kg: 88.0,
            cost: 120.0,
            outside_m: [0.9, 0.7, 0.6],
            fragment: link::encode(&run_in_box()),
        };
        let points = vec![point(Some(-1.5)), point(None)];
        let found = Found { is_finished: true, is_exact: false, largest_deviation_db: 0.1, of_all: 600, points };
        let errors = vec![("space.stock".to_owned(), "allowed are 1 to 24 of these".to_owned())];
        for answer in [
            Answer::Ready,
            Answer::Refused(3),
            Answer::Steps(4, vec![next.clone(), next], [50.0, 40.0]),
            Answer::Ranges(5, Box::new(ranges)),
            Answer::Progress(6, progress),
            Answer::Found(7, found),
            Answer::Found(7, Found::default()),
            Answer::NoSearch(8, errors),
        ] {
            let (numbers, text) = answer.to_message();
            assert_eq!(Answer::from_message(&numbers, &text), Some(answer));
        }
        let wrong = [&[-1.0][..], &[0.5], &[1.0, 2.0], &[1.0, f64::NAN], &[1.0, 2.0, 3.0], &[1.0, 1.0, 3.0], &[1.0, 3.0]];
        for numbers in wrong.into_iter().chain([&[1.0, 4.0][..], &[1.0, 4.0, 1.0, 1.0, 0.1, 5.0, 30.0], &[1.0, 9.0]]) {
            assert_eq!(Answer::from_message(numbers, ""), None, "{numbers:?}");
        }
    }
}
