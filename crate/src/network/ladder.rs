//! The ladder method: a chain is solved from the load back to the source, with one
//! voltage and one current at every frequency.

use super::element::{Element, Section};
use super::lanes::{Lanes, Omegas};
use super::one_port::OnePort;

/// Voltage and current at one point of a chain, at `N` frequencies.
#[derive(Clone, Copy)]
pub(crate) struct Port<const N: usize> {
    pub v: Lanes<N>,
    pub i: Lanes<N>,
}

impl<const N: usize> Port<N> {
    /// One volt across a load.
    #[inline]
    pub(crate) fn at_load(load: &OnePort, at: &Omegas<N>) -> Self {
        Self { v: Lanes::ONE, i: load.admittance_lanes(at) }
    }

    /// From behind a chain to its front.
    #[inline]
    pub(crate) fn through(mut self, chain: &[Section], at: &Omegas<N>) -> Self {
        for part in chain.iter().rev() {
            part.element.step_back(&mut self, at);
        }
        self
    }

    /// In front of an impedance in series.
    #[inline]
    pub(crate) fn in_series(&mut self, z: &OnePort, at: &Omegas<N>) {
        match z {
            OnePort::SeriesRlc { r, l, elastance } => self.v.add_rlc(*r, *l, *elastance, at, &self.i),
            _ => self.v.add_product(&z.impedance_lanes(at), &self.i),
        }
    }

    /// In front of an impedance across the signal.
    #[inline]
    fn across(&mut self, z: &OnePort, at: &Omegas<N>) {
        match (z, z.resistance()) {
            (_, Some(r)) => self.i.add_scaled(&self.v, 1.0 / r),
            (OnePort::ParallelRlc { g, c, reluctance }, _) => self.i.add_rlc(*g, *c, *reluctance, at, &self.v),
            _ => self.i.add_product(&z.admittance_lanes(at), &self.v),
        }
    }
}

impl Element {
    /// From the port behind the element to the port in front of it.
    #[inline]
    pub(crate) fn step_back<const N: usize>(&self, port: &mut Port<N>, at: &Omegas<N>) {
        match self {
            Self::Series(z) => port.in_series(z, at),
            Self::Shunt(z) => port.across(z, at),
            Self::Transformer(ratio) => {
                port.v.scale(*ratio);
                port.i.scale(1.0 / ratio);
            }
            Self::Line(line) => {
                for k in 0..N {
                    let m = line.at(at.omega[k]);
                    let (v, i) = (port.v.get(k), port.i.get(k));
                    port.v.set(k, m.a * v + m.b * i);
                    port.i.set(k, m.c * v + m.d * i);
                }
            }
            Self::Buffer(gain) => {
                port.v.scale(1.0 / gain);
                port.i = Lanes::ZERO;
            }
            Self::Branch(chain, load) => {
                let front = Port::at_load(load, at).through(chain, at);
                for k in 0..N {
                    let y = front.i.get(k) / front.v.get(k);
                    port.i.set(k, port.i.get(k) + y * port.v.get(k));
                }
            }
        }
    }
}
