//! The coarse network of one design with two shells.

use super::inner::{Complexes, InnerState};
use super::outer::OuterState;
use super::parts::GapFill;
use crate::math::complex;

/// Room for the frequencies of one design.
#[derive(Default)]
pub(super) struct Room {
    /// What gets out, over the bare source's power.
    pub(super) total: Vec<f64>,
    /// Mean square velocity of the inner walls in (m/s)2 per W.
    pub(super) velocity: Vec<f64>,
    /// Admittance of gap and outer shell.
    behind: Complexes,
    /// Pressure behind the inner shell per volume velocity there.
    pressure: Complexes,
}

impl Room {
    /// Takes what lies behind the inner shell: an outer one and `gap_m3` of a gap.
    pub(super) fn put_behind(&mut self, state: &OuterState, filled: &GapFill, gap_m3: f64) {
        self.behind.clear();
        for (taken, one) in state.taken.iter().zip(&filled.compliance) {
            self.behind.push(taken + one * gap_m3);
        }
    }

    /// What the network lets out at the first `count` of the grid's frequencies, and the inner walls' mean square velocity.
    ///
    /// Without vents the network comes down to products: a source's volume velocity comes out behind the inner shell by its part
    /// `forward`, meets the admittances there, and of the square of the pressure the outer shell lets out `passed`.
    pub(super) fn network(&mut self, inside: &InnerState, state: &OuterState, count: usize) {
        let Self { total, velocity, behind, pressure, .. } = self;
        for values in [&mut *total, velocity, &mut pressure.re, &mut pressure.im] {
            values.clear();
            values.resize(count, 0.0);
        }
        let (re, im) = (&mut pressure.re[..count], &mut pressure.im[..count]);
        let (behind_re, behind_im) = (&behind.re[..count], &behind.im[..count]);
        let (load_re, load_im) = (&inside.load.re[..count], &inside.load.im[..count]);
        let (forward, passed, total) = (&inside.forward[..count], &state.passed[..count], &mut total[..count]);
        for k in 0..count {
            let (node_re, node_im) = (behind_re[k] + load_re[k], behind_im[k] + load_im[k]);
            let square = 1.0 / (node_re * node_re + node_im * node_im);
            total[k] = forward[k] * passed[k] * square;
            re[k] = node_re * square;
            im[k] = -node_im * square;
        }
        let velocity = &mut velocity[..count];
        for source in &inside.sources {
            let (back_re, back_im) = (&source.taken_back.re[..count], &source.taken_back.im[..count]);
            let alone = &source.velocity[..count];
            for k in 0..count {
                let across_re = 1.0 - (back_re[k] * re[k] - back_im[k] * im[k]);
                let across_im = back_re[k] * im[k] + back_im[k] * re[k];
                let own = alone[k] * (across_re * across_re + across_im * across_im);
                velocity[k] = if own > velocity[k] { own } else { velocity[k] };
            }
        }
    }

    /// Does what the network lets out again, with vents, whose sound adds by phase as far as the box is small.
    pub(super) fn vent(&mut self, inside: &InnerState, state: &OuterState) {
        let Self { total, pressure, .. } = self;
        total.fill(0.0);
        for chamber in &inside.vented {
            for (k, ((total, source), shell)) in total.iter_mut().zip(chamber).zip(&state.leaving).enumerate() {
                let per_node = complex(pressure.re[k], pressure.im[k]);
                let leaving = source.forward * shell.outward * per_node;
                let vented = source.at_once + source.with_node * per_node;
                let node = (source.forward * per_node).norm_sqr();
                let in_phase = (leaving + vented).norm_sqr() * shell.breathing;
                *total += in_phase + vented.norm_sqr() * (1.0 - shell.breathing) + node * shell.apart;
            }
        }
    }
}
