//! Which inputs of several designs differ, in the order in which the sound meets them: the table of inputs is that of the page, read
//! for each design.

use std::fmt::Write;

use hushwright::buildup::raw::{Layer, NameOr};
use hushwright::design::Design;

use super::bench::BENCH;
use super::listeners::{self, ITEMS};
use super::stations::{self, STATIONS};
use crate::band_lists::BandList;
use crate::fields::{Field, Shell};
use crate::leaf;
use crate::quantity::{Quantity, Units, decimal};
use crate::schedule::{Cell, Kind, Place, Row};
use crate::state::Choice;

/// The inputs of `designs`, of which the first is the one that the others are compared with. `None` is one that cannot be opened: its
/// cells are empty, and it makes no difference.
pub fn differences(designs: &[Option<&Design>], units: Units) -> Vec<Place> {
    let mut reader = Reader { designs, units, places: Vec::new() };
    for station in &STATIONS {
        reader.begin(station.group.title);
        reader.items("", station.group.items);
    }
    reader.begin("For the workshop");
    for group in &BENCH {
        reader.items(group.title, group.items);
    }
    reader.begin("With the design");
    let words = |words: &str| Some(if words.is_empty() { "none".to_owned() } else { words.to_owned() });
    reader.words("Notes", &|design| words(design.notes.trim()));
    reader.words("Currency", &|design| words(design.build.currency.trim()));
    reader.own_numbers();
    reader.places.retain(|place| !place.rows.is_empty());
    reader.places
}

struct Reader<'a> {
    designs: &'a [Option<&'a Design>],
    units: Units,
    places: Vec<Place>,
}

impl Reader<'_> {
    fn begin(&mut self, title: &'static str) {
        self.places.push(Place { title: title.to_owned(), rows: Vec::new() });
    }

    /// The inputs of a part: `part` is its name, empty for the station itself.
    fn items(&mut self, part: &str, items: &'static [stations::Item]) {
        use stations::Item;
        for item in items {
            match item {
                // The same number as that of the inside, by another measure.
                Item::Number(Field::Outside(_)) | Item::Preset(_) | Item::Hint(_) => {}
                Item::Number(field) => self.number(part, *field),
                Item::Choice(choice) => self.choice(part, *choice),
                Item::Layers(shell) => self.layers(part, *shell),
                Item::Bands(list) => self.bands(part, *list),
                Item::Listeners => self.listeners(),
                Item::Group(group) => self.items(group.title, group.items),
            }
        }
    }

    /// Each listener by its number: the first of one design is set beside the first of the other.
    fn listeners(&mut self) {
        use listeners::Item;
        self.words("Number", &|design| Some(design.listeners.len().to_string()));
        let most = self.designs.iter().flatten().map(|design| design.listeners.len()).max().unwrap_or(0);
        for k in 0..most {
            let part = &*format!("Listener {}", k + 1);
            self.words(&label(part, "Who, where", ""), &|design| Some(design.listeners.get(k)?.name.clone()));
            for item in ITEMS {
                match *item {
                    Item::Number(field) => self.number(part, Field::Listener(k, field)),
                    Item::Choice(choice) => self.choice(part, Choice::Listener(k, choice)),
                    Item::Reduction => self.bands(part, BandList::Reduction(k)),
                    Item::Background => self.bands(part, BandList::Background(k)),
                    Item::Room | Item::Hint(_) => {}
                }
            }
        }
    }

    fn number(&mut self, part: &str, field: Field) {
        let (units, quantity) = (self.units, field.quantity());
        let values: Vec<Option<f64>> = self.designs.iter().map(|design| field.shown((*design)?)).collect();
        let unit = quantity.unit(units);
        // Within a listener nothing but its part says which floor area, which level it is.
        let says_more = matches!(field, Field::Listener(..)) && !field.part().is_empty() && !field.part().ends_with(unit);
        let name = if says_more { format!("{} ({})", field.label(units), field.part()) } else { field.label(units).to_owned() };
        let texts: Vec<_> = values.iter().map(|value| value.map(|value| quantity.write(value, units))).collect();
        self.add(label(part, &name, unit), &texts, &|k| values[k] != values[0], &|k| {
            values[k].zip(values[0]).map_or_else(String::new, |(value, first)| by_how_much(value - first, quantity, units))
        });
    }

    fn choice(&mut self, part: &str, choice: Choice) {
        let words = |design: &Design| choice.get(design).map(|_| choice.words(design));
        self.words(&label(part, choice.label(), ""), &words);
    }

    fn layers(&mut self, part: &str, shell: Shell) {
        let designs = self.designs;
        let of = |k: usize| designs[k].map(|design| shell.layers(design)).filter(|layers| !layers.is_empty());
        let texts: Vec<_> = (0..designs.len()).map(|k| of(k).map(|layers| build_up(layers, self.units))).collect();
        self.add(format!("{part}, from the inside out"), &texts, &|k| of(k) != of(0), &|_| String::new());
    }

    fn bands(&mut self, part: &str, list: BandList) {
        let text = |design: &Design| {
            let values = list.get(design)?.iter().map(|(hz, db)| format!("{}: {}", decimal(*hz, 1), decimal(*db, 1)));
            Some(values.collect::<Vec<_>>().join(", "))
        };
        self.words(&label(part, list.label(), ""), &text);
    }

    /// Numbers of one's own; their order says nothing.
    fn own_numbers(&mut self) {
        let designs = self.designs;
        let text = |design: &Design| {
            let own: Vec<String> = design.build.own.iter().map(|(key, number)| format!("{key} {}", decimal(number, 2))).collect();
            if own.is_empty() { "none".to_owned() } else { own.join("\n") }
        };
        let is_within =
            |one: &Design, other: &Design| one.build.own.iter().all(|(key, own)| other.build.own.get(key) == Some(own));
        let differs = |k: usize| {
            let both = designs[0].zip(designs[k]);
            both.is_none_or(|(first, design)| !is_within(first, design) || !is_within(design, first))
        };
        let texts: Vec<_> = designs.iter().map(|design| design.map(text)).collect();
        self.add("Prices, times and sizes of one’s own".to_owned(), &texts, &differs, &|_| String::new());
    }

    /// Something that is told in words, and differs where they do.
    fn words(&mut self, label: &str, words: &dyn Fn(&Design) -> Option<String>) {
        let texts: Vec<Option<String>> = self.designs.iter().map(|design| words((*design)?)).collect();
        let differs = |k: usize| texts[k] != texts[0];
        self.add(label.to_owned(), &texts, &differs, &|_| String::new());
    }

    /// A row, unless no design has it: `differs` says whether that of a design is another than that of the first, `change` how.
    fn add(
        &mut self,
        label: String,
        texts: &[Option<String>],
        differs: &dyn Fn(usize) -> bool,
        change: &dyn Fn(usize) -> String,
    ) {
        let sound = || (0..texts.len()).filter(|k| self.designs[*k].is_some());
        let mut present = sound().filter(|k| texts[*k].is_some());
        let Some(first) = present.next() else { return };
        // What differs from the first design, where that has it not, may still differ from each other.
        let unlike = |k: usize| if texts[0].is_some() { differs(k) } else { texts[k] != texts[first] };
        let kind = if present.any(unlike) {
            Kind::Differs
        } else if sound().any(|k| texts[k].is_none()) {
            Kind::Partly
        } else {
            Kind::Alike
        };
        let is_other = |k: usize| self.designs[k].is_some() && differs(k);
        let cell = |k: usize| Cell { text: texts[k].clone().unwrap_or_default(), change: is_other(k).then(|| change(k)) };
        let cells = (0..texts.len()).map(cell).collect();
        if let Some(place) = self.places.last_mut() {
            place.rows.push((kind, Row { label, cells }));
        }
    }
}

/// What a row is called: the part, the input, its unit.
fn label(part: &str, name: &str, unit: &str) -> String {
    let mut label = if part.is_empty() || part == name { name.to_owned() } else { format!("{part}: {name}") };
    if !unit.is_empty() {
        // Fails nowhere: a string takes everything.
        let _ = write!(label, ", {unit}");
    }
    label
}

/// A difference of two numbers with its sign, as both are written; a smaller one in words.
fn by_how_much(difference: f64, quantity: Quantity, units: Units) -> String {
    let text = quantity.write(difference.abs(), units);
    if text == "0" {
        return if difference < 0.0 { "slightly less" } else { "slightly more" }.to_owned();
    }
    format!("{}{text}", if difference < 0.0 { '\u{2212}' } else { '+' })
}

/// The sheets of a shell and what joins them, a line for each, from the inside out.
fn build_up(layers: &[Layer], units: Units) -> String {
    let mut lines = Vec::new();
    for layer in layers {
        match (&layer.sheet, &layer.bond) {
            (Some(sheet), _) => {
                let thickness = Quantity::Thickness.write(layer.thickness_mm.unwrap_or_default(), units);
                let mut line = format!("{} {thickness} {}", leaf::sheet_name(layer), units.length_unit());
                if let NameOr::Numbers(own) = sheet {
                    let mut number = |value: f64, quantity: Quantity| {
                        let _ = write!(line, ", {} {}", quantity.write(value, units), quantity.unit(units));
                    };
                    number(own.density, Quantity::Density);
                    number(own.youngs_modulus, Quantity::Modulus);
                    number(own.poisson, Quantity::Ratio);
                    number(own.loss_factor, Quantity::Ratio);
                    if let Some(shear) = own.shear_modulus {
                        number(shear, Quantity::Modulus);
                    }
                }
                lines.push(line);
            }
            (None, Some(_)) => {
                let key = leaf::key_of(layer);
                let words = leaf::BONDS.iter().find(|(own, _)| *own == key).map_or("own bond", |(_, words)| words);
                lines.push(format!("  {words}"));
            }
            _ => {}
        }
    }
    lines.join("\n")
}
