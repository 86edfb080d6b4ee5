//! What happens to numbers of one's own: prices, working times, sizes of sheets, measured thicknesses.

use hushwright::design::Design;

use super::{Entry, State};
use crate::documents::{Kept, MEASURED, SIZE};
use crate::fields::{Field, Shell};
use crate::leaf;
use crate::quantity::{Quantity, Units};

/// A thickness that was measured: of which material, as it stands in the design, as it is sold.
struct Measured<'a> {
    material: &'a str,
    thickness_mm: f64,
    nominal_mm: f64,
}

impl<'a> Measured<'a> {
    /// What `key` says, if it is one of a measured thickness.
    fn read(key: &'a str) -> Option<Self> {
        let mut parts = key.strip_prefix(MEASURED)?.rsplitn(3, '/');
        // As the page reads all numbers: the tables of the standard library would be 11 kB more of it.
        let mut number = || Quantity::Coefficient.read(parts.next()?, Units::Metric);
        let [nominal_mm, thickness_mm] = [number()?, number()?];
        Some(Self { material: parts.next()?, thickness_mm, nominal_mm })
    }

    /// Whether a board of `mm` is one that it is about: a key has not all digits that a number may have.
    fn is_as_thick(&self, mm: f64) -> bool {
        (mm - self.thickness_mm).abs() < 1e-4
    }

    /// Makes every board that it is about `mm` thick.
    fn apply(&self, design: &mut Design, mm: f64) {
        for shell in [Shell::Inner, Shell::Outer] {
            for k in 0..leaf::sheets(shell.layers(design)) {
                let layer = &shell.layers(design)[2 * k];
                let is_same =
                    leaf::stock_key(layer) == self.material && layer.thickness_mm.is_some_and(|own| self.is_as_thick(own));
                if is_same {
                    Field::SheetThickness(shell, k).set(design, mm);
                }
            }
        }
        if let Some(baffle) = &mut design.inner.baffle
            && baffle.sheet == self.material
            && self.is_as_thick(baffle.thickness_mm)
        {
            baffle.thickness_mm = mm;
        }
    }
}

impl State {
    /// What was typed for numbers of one's own and is not in the design.
    pub fn kept_own(&self) -> Vec<Kept> {
        let kept = |(key, entry): &(String, Entry)| {
            Some(Kept { key: key.clone(), text: entry.text.clone(), refusal: entry.refusal.clone()? })
        };
        self.own.iter().filter_map(kept).collect()
    }

    /// A number of one's own was typed: an empty field is the usual number again.
    pub(super) fn enter_own(&mut self, key: &str, text: String) {
        if let Some(material) = key.strip_suffix(SIZE) {
            self.choose_sheet(material, &text);
            return;
        }
        let (measured, quantity) = (Measured::read(key), quantity(key));
        let is_blank = text.trim().is_empty();
        let read = quantity.read(&text, self.units);
        let mut candidate = (**self.design()).clone();
        let number = read.unwrap_or(f64::NAN);
        match &measured {
            Some(measured) if is_blank => measured.apply(&mut candidate, measured.nominal_mm),
            Some(measured) => measured.apply(&mut candidate, number),
            None => candidate.build.own.set(key, (!is_blank).then_some(number)),
        }
        self.own.retain(|(own, _)| own != key);
        self.history.settle();
        let candidate = std::rc::Rc::new(candidate);
        let Err(errors) = self.take(&candidate, None) else {
            self.retry();
            return;
        };
        let path = format!("build.own.{key}");
        let error = errors.iter().find(|error| error.path == path).or_else(|| errors.first());
        let message = error.map_or_else(String::new, |error| quantity.reword(&error.message, 0.0, self.units));
        let refusal = Some(if read.is_none() { format!("This is not a number. {message}") } else { message });
        self.own.push((key.to_owned(), Entry { text, refusal }));
    }

    /// A usual size of the sheets of `material` was chosen: length and width in mm.
    fn choose_sheet(&mut self, material: &str, text: &str) {
        let Some((length, width)) = text.split_once(' ') else { return };
        let keys = [format!("{material}/length"), format!("{material}/width")];
        self.own.retain(|(own, _)| !keys.contains(own));
        self.change("build.own", |design| {
            for (key, text) in keys.iter().zip([length, width]) {
                design.build.own.set(key, Quantity::Coefficient.read(text, Units::Metric));
            }
        });
    }

    /// What was refused in units of `before` is shown in those of now, and is still refused.
    pub(super) fn convert_own(&mut self, before: Units) {
        for (key, entry) in std::mem::take(&mut self.own) {
            let quantity = quantity(&key);
            let text = quantity.read(&entry.text, before).map_or(entry.text, |value| quantity.write(value, self.units));
            self.enter_own(&key, text);
        }
    }
}

/// What the number under `key` measures.
fn quantity(key: &str) -> Quantity {
    if key.starts_with(MEASURED) {
        Quantity::Thickness
    } else if key.ends_with("/length") || key.ends_with("/width") {
        Quantity::Length
    } else {
        Quantity::Coefficient
    }
}
