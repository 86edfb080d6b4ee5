//! The sheet with the schedule of differences: a column for each design, first what they do, then where their inputs are not the same.

use hushwright::design::Design;
use hushwright::workshop::plan;
use maud::{Markup, html};

use super::beside::tools;
use super::outcomes::{Known, outcomes};
use super::picture::picture;
use super::{Desk, Planned};
use crate::charts::miniature::common_scale;
use crate::explanations::{Told, of_result};
use crate::model::estimate_from_bytes;
use crate::quantity::Units;
use crate::schedule::{Column, Comparison, EXPLAINED, Kind, LETTERS, Place, Row, STROKES};
use crate::words::counted;

/// The controls and the sheet, as marked-up text; nothing where what is asked about is no sound design.
pub fn compared(asked: &Comparison) -> Option<[String; 2]> {
    let units = Units::from_key(&asked.units).unwrap_or_default();
    let mut known = Vec::new();
    for column in &asked.columns {
        known.push(match column {
            Column::Design(design, estimate) => Some(known_of(design, estimate, units)?),
            Column::Refused(_) => None,
        });
    }
    let sheet = Sheet { asked, known: &known };
    let written = html! {
        (sheet.whole(units))
        @if known.len() > 1 {
            (sheet.folded(Kind::Partly))
            (sheet.folded(Kind::Alike))
        }
        p class="hint" {
            "These are single estimates without their ranges, which are in Estimate; pass, at risk and fail go here by 5 dB to either \
             side of the limit. What designs have in common and nobody knows well (corners, rooms, the way to the listener) shifts all \
             of them alike: a difference between them is surer than the levels themselves."
        }
    };
    Some([tools(asked).into_string(), written.into_string()])
}

/// What there is to know of a design.
fn known_of(design: &[u8], estimate: &[u8], units: Units) -> Option<Known> {
    let design = Design::from_bytes(design)?;
    let report = estimate_from_bytes(estimate)?.ok()?.report;
    let checked = design.check().ok()?;
    let gist = plan(&checked).ok().map(|plan| {
        let desk = Desk { design: &checked, plan: &plan, units, kept: &[] };
        Planned::new(&desk, false).gist
    });
    Some(Known { design, report, gist })
}

struct Sheet<'a> {
    asked: &'a Comparison,
    known: &'a [Option<Known>],
}

impl Sheet<'_> {
    fn whole(&self, units: Units) -> Markup {
        let count = self.known.len();
        let differ = self.asked.inputs.iter().flat_map(|place| &place.rows).any(|(kind, _)| *kind == Kind::Differs);
        html! {
            div class="scroll" tabindex="0" role="region" aria-label="Schedule of differences" { table class="schedule whole" {
                caption class="unseen" { "What the designs do and where their inputs differ; differences are those to A" }
                thead { tr { td { "△ differs from A" } @for k in 0..count { (self.head(k)) } } }
                tbody {
                    tr class="sketches" { th scope="row" { "Cut lengthwise, to one scale" } (pictures(self.known)) }
                    @for (row, told) in outcomes(self.known, units) { (line(&row, told)) }
                }
                @if count > 1 {
                    tbody { tr class="heading" { th scope="rowgroup" colspan=(count + 1) {
                        @if differ { "Inputs that differ" } @else { "No input that they have in common differs" }
                    } } }
                    (self.places(Kind::Differs))
                }
            } }
        }
    }

    /// What stands over the column of design `k`.
    fn head(&self, k: usize) -> Markup {
        let own = self.known[k].as_ref();
        let name = own.map_or("Cannot be opened", |own| own.design.name.trim());
        let name = if name.is_empty() { "Design without a name" } else { name };
        let (width, dash) = STROKES[k];
        let dash = dash.map(|(dash, gap)| format!("{dash} {gap}"));
        let is_same = |other: &Option<Known>| other.as_ref().zip(own).is_some_and(|(other, own)| other.design == own.design);
        let twin = self.known[..k].iter().position(is_same);
        let letter = LETTERS[k];
        html! {
            th scope="col" {
                span class="tag" {
                    b class="letter" { (letter) }
                    svg class={ "sample " (letter) } viewBox="0 0 48 6" aria-hidden="true" {
                        path d="M0 3H48" stroke-width=(width) stroke-dasharray=[dash] {}
                    }
                }
                b class="called" { (name) }
                @if let Column::Refused(message) = &self.asked.columns[k] { p class="refusal" { (message) } }
                @if k == 0 { p class="note" { "the design at hand" } }
                @if let Some(twin) = twin { p class="note" { "the same as " (LETTERS[twin]) } }
                @if k > 0 { span class="buttons" {
                    @if own.is_some() && twin != Some(0) { (button("open", "Open", letter, k, name)) }
                    (button("remove", "Remove", letter, k, name))
                } }
            }
        }
    }

    /// The rows of a kind under their places on the way of the sound.
    fn places(&self, kind: Kind) -> Markup {
        let rows = |place: &Place| place.rows.iter().filter(|(own, _)| *own == kind).map(|(_, row)| line(row, None)).collect();
        html! { @for place in &self.asked.inputs {
            @let rows: Vec<Markup> = rows(place);
            @if !rows.is_empty() {
                tbody {
                    tr class="place" { th scope="rowgroup" colspan=(self.known.len() + 1) { (place.title) } }
                    @for row in rows { (row) }
                }
            }
        } }
    }

    /// The inputs of a kind, folded away under how many they are.
    fn folded(&self, kind: Kind) -> Markup {
        let (id, one, many) = match kind {
            Kind::Alike => ("compare-alike", "input is alike", "inputs are alike"),
            _ => ("compare-partly", "input that not all have", "inputs that not all have"),
        };
        let count = self.asked.inputs.iter().flat_map(|place| &place.rows).filter(|(own, _)| *own == kind).count();
        html! { @if count > 0 {
            details class="numbers" id=(id) {
                summary { (counted(count as f64, one, many)) }
                div class="scroll" tabindex="0" role="region" aria-label=(many) { table class="schedule" {
                    thead { tr { td {} @for letter in LETTERS.iter().take(self.known.len()) { th scope="col" { (letter) } } } }
                    (self.places(kind))
                } }
            }
        } }
    }
}

/// A button of a column; the page listens for it.
fn button(key: &str, words: &str, letter: &str, k: usize, name: &str) -> Markup {
    html! {
        button type="button" id={ "compare-" (key) "-" (letter.to_ascii_lowercase()) } data-beside=(format!("{key} {}", k - 1)) {
            (words) span class="unseen" { " " (letter) ", " (name) }
        }
    }
}

/// A row: what is another than in the first design has a mark, and by how much where that can be counted.
fn line(row: &Row, told: Option<Told>) -> Markup {
    let explained = told.and_then(|told| Some((EXPLAINED.iter().position(|own| *own == told)?, of_result(told).title)));
    html! {
        tr {
            th scope="row" {
                (row.label)
                @if let Some((at, title)) = explained {
                    button type="button" class="why" aria-haspopup="dialog" data-told=(at) aria-label={ (title) ": explained" } {
                        span aria-hidden="true" { "?" }
                    }
                }
            }
            @for cell in &row.cells {
                td class=[cell.change.as_ref().map(|_| "differs")] {
                    @if cell.text.is_empty() { "–" } @else { (cell.text) }
                    @if let Some(change) = &cell.change {
                        @if change.is_empty() { span class="unseen" { " (differs from A)" } } @else { span class="change" { (change) } }
                    }
                }
            }
        }
    }
}

/// Width and height of a picture in px.
const PICTURE: (f64, f64) = (150.0, 96.0);

/// The boxes cut open lengthwise, all to one scale; a cell for each design.
fn pictures(known: &[Option<Known>]) -> Markup {
    let designs = || known.iter().map(|own| own.as_ref().map(|own| &own.design));
    let scale = common_scale(designs().flatten(), PICTURE);
    html! { @for design in designs() { td { @if design.is_some() { (picture(design, scale, PICTURE)) } } } }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Core, Model};

    fn asked(designs: &[Design]) -> Comparison {
        let column = |design: &Design| Column::Design(design.to_bytes(), Core::default().estimate_bytes(design));
        let all: Vec<Option<&Design>> = designs.iter().map(Some).chain([None]).collect();
        let columns =
            designs.iter().map(column).chain([Column::Refused("It was cut short & <b>spoilt</b>.".to_owned())]).collect();
        Comparison { pasted: "<i>".to_owned(), ..Comparison::new(columns, &all, Units::Metric) }
    }

    #[test]
    fn what_people_have_written_is_text_and_the_question_arrives_as_it_was_asked() {
        let name = "<script>alert(1)</script>\" onload='x'".to_owned();
        let wild = Design { notes: name.clone(), name, ..Design::default() };
        let asked = asked(&[Design::default(), wild]);
        let arrived = Comparison::from_bytes(&asked.to_bytes());
        assert_eq!(arrived.as_ref(), Some(&asked));
        let [tools, text] = compared(&asked).expect("two sound designs");
        assert!(tools.contains("value=\"&lt;i&gt;\""), "{tools}");
        assert!(text.contains("&lt;script&gt;") && text.contains("&lt;b&gt;spoilt"), "{text}");
        assert!(!text.contains("<script") && !text.contains("<b>spoilt") && !text.contains(" style="), "{text}");
        assert!(text.contains("Notes") && !text.contains("NaN") && !text.contains("inf"), "{text}");
    }

    #[test]
    fn every_design_can_be_taken_away_and_only_what_is_another_opened() {
        let other = Design { outer: None, ..Design::default() };
        let [_, text] = compared(&asked(&[Design::default(), Design::default(), other])).expect("three sound designs");
        let buttons: Vec<&str> = text.split("data-beside=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
        assert_eq!(buttons, ["remove 0", "open 1", "remove 1", "remove 2"]);
        assert!(text.contains("the same as A"), "{text}");
    }

    #[test]
    fn what_is_no_design_is_not_answered() {
        let mut asked = asked(&[Design::default()]);
        asked.columns[0] = Column::Design(vec![1, 2, 3], Vec::new());
        assert_eq!(compared(&asked), None);
        assert_eq!(Comparison::from_bytes(b"\xff"), None);
    }
}
