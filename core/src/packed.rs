//! Documents as bytes, for two programs of one build that hand them to each other.
//!
//! Values follow one another in the order in which `mapping` names them, without their names: whoever takes part needs nothing of
//! JSON, and no number loses a digit. Such bytes are never kept, since another build may name other fields.

use crate::mapping::Held;

/// What can be handed over.
pub(crate) trait Packed {
    /// Appends itself to `bytes`.
    fn pack(&self, bytes: &mut Vec<u8>);

    /// Takes what `bytes` begin with, and takes it off them; `None` where they are something else, and then `self` is of no use.
    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()>;
}

/// The first `N` of `bytes`, taken off them.
fn taken<const N: usize>(bytes: &mut &[u8]) -> Option<[u8; N]> {
    let (first, rest) = bytes.split_first_chunk()?;
    *bytes = rest;
    Some(*first)
}

/// A count or a place in a list, as bytes have it.
pub(crate) fn pack_count(count: usize, bytes: &mut Vec<u8>) {
    bytes.extend((count as u32).to_le_bytes());
}

/// Such a count.
pub(crate) fn unpack_count(bytes: &mut &[u8]) -> Option<usize> {
    Some(u32::from_le_bytes(taken(bytes)?) as usize)
}

/// Appends one after the other.
pub(crate) fn pack_all(fields: &[&dyn Packed], bytes: &mut Vec<u8>) {
    for field in fields {
        field.pack(bytes);
    }
}

/// Takes one after the other.
pub(crate) fn unpack_all(fields: &mut [&mut dyn Packed], bytes: &mut &[u8]) -> Option<()> {
    fields.iter_mut().try_for_each(|field| field.unpack(bytes))
}

impl Packed for f64 {
    fn pack(&self, bytes: &mut Vec<u8>) {
        bytes.extend(self.to_le_bytes());
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        *self = Self::from_le_bytes(taken(bytes)?);
        Some(())
    }
}

impl Packed for bool {
    fn pack(&self, bytes: &mut Vec<u8>) {
        bytes.push(u8::from(*self));
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        *self = match taken(bytes)? {
            [0] => false,
            [1] => true,
            _ => return None,
        };
        Some(())
    }
}

impl Packed for String {
    fn pack(&self, bytes: &mut Vec<u8>) {
        pack_count(self.len(), bytes);
        bytes.extend(self.as_bytes());
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        let length = unpack_count(bytes)?;
        let (text, rest) = bytes.split_at_checked(length)?;
        *bytes = rest;
        std::str::from_utf8(text).ok()?.clone_into(self);
        Some(())
    }
}

impl Packed for (f64, f64) {
    fn pack(&self, bytes: &mut Vec<u8>) {
        pack_all(&[&self.0, &self.1], bytes);
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        unpack_all(&mut [&mut self.0, &mut self.1], bytes)
    }
}

impl<T: Held + Packed> Packed for Option<T> {
    fn pack(&self, bytes: &mut Vec<u8>) {
        self.is_some().pack(bytes);
        if let Some(own) = self {
            own.pack(bytes);
        }
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        let mut is_there = false;
        is_there.unpack(bytes)?;
        *self = None;
        if is_there { self.insert(T::blank()).unpack(bytes) } else { Some(()) }
    }
}

impl<T: Held + Packed> Packed for Vec<T> {
    fn pack(&self, bytes: &mut Vec<u8>) {
        pack_count(self.len(), bytes);
        for own in self {
            own.pack(bytes);
        }
    }

    fn unpack(&mut self, bytes: &mut &[u8]) -> Option<()> {
        self.clear();
        for _ in 0..unpack_count(bytes)? {
            let mut own = T::blank();
            own.unpack(bytes)?;
            self.push(own);
        }
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use crate::buildup::raw::{BondNumbers, FillNumbers, Layer, NameOr, SheetNumbers, Side};
    use crate::design::{Design, ListenerPart, VentsPart, examples};

    /// A design with every kind of part and value.
    fn whole() -> Design {
        let mut design =
            Design { vents: Some(VentsPart::default()), notes: "two\nlines, 18 µm".to_owned(), ..Design::default() };
        // Digits beyond what text keeps.
        design.inner.length_mm = 812.5 + f64::EPSILON * 812.0;
        design.source.own_db = vec![(125.0, 71.5), (250.0, -0.0)];
        design.build.own.set("mdf/15", Some(31.5));
        design.listeners = vec![ListenerPart::default(), ListenerPart { name: String::new(), ..ListenerPart::default() }];
        let sheet =
            SheetNumbers { density: 700.0, youngs_modulus: 3e9, poisson: 0.3, loss_factor: 0.02, shear_modulus: Some(1e8) };
        let bond = BondNumbers { thickness_mm: 1.0, density: 1e3, shear_modulus: vec![(100.0, 1e6)], loss_factor: Vec::new() };
        let fill = FillNumbers { flow_resistivity: 1e4, share: 0.5, side: Side::Middle };
        design.inner.layers.push(Layer { bond: Some(NameOr::Numbers(bond)), ..Layer::default() });
        design.inner.layers.push(Layer { gap_mm: Some(f64::NAN), fill: Some(fill), ..Layer::default() });
        design.inner.layers.push(Layer { sheet: Some(NameOr::Numbers(sheet)), thickness_mm: Some(18.0), ..Layer::default() });
        design
    }

    #[test]
    fn a_design_arrives_to_the_last_bit() {
        for design in examples().into_iter().chain([whole()]) {
            let bytes = design.to_bytes();
            let arrived = Design::from_bytes(&bytes).unwrap();
            // Its text tells parts that are not equal to themselves.
            assert_eq!(format!("{arrived:?}"), format!("{design:?}"));
            assert_eq!(arrived.to_bytes(), bytes);
        }
    }

    #[test]
    fn what_is_no_design_is_none() {
        let bytes = whole().to_bytes();
        for end in 0..bytes.len() {
            assert_eq!(Design::from_bytes(&bytes[..end]), None, "{end}");
        }
        assert_eq!(Design::from_bytes(&[&bytes[..], &[0]].concat()), None);
        // A text as long as all memory.
        assert_eq!(Design::from_bytes(&[0xff; 64]), None);
    }
}
