//! From an e.m.f. to the voltage across a load.

use super::element::{Element, Part, Port};
use super::feature::Response;
use super::lanes::{Lanes, Omegas, inverse};
use super::one_port::OnePort;
use super::two_port::TwoPort;
use num_complex::Complex64;
use serde::Serialize;

/// How many frequencies a sweep solves together.
const WIDTH: usize = 16;

/// An e.m.f. behind a source impedance, a chain, and a load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Path {
    /// The source impedance.
    pub source: OnePort,
    /// The elements from the source to the load.
    pub chain: Vec<Part>,
    /// The load impedance.
    pub load: OnePort,
}

impl Path {
    /// A source connected straight to a load.
    pub fn new(source: OnePort, load: OnePort) -> Self {
        Self { source, chain: Vec::new(), load }
    }

    /// Adds an element on the load side of the chain.
    #[must_use]
    pub fn with(mut self, name: &'static str, element: Element) -> Self {
        self.chain.push(Part { name, element });
        self
    }

    /// Load voltage over e.m.f. at a frequency in Hz. Relative accuracy 1e-12.
    pub fn transfer(&self, frequency: f64) -> Complex64 {
        self.transfer_lanes::<1>(&[frequency]).get(0)
    }

    /// The transfer at each of `frequencies`, into `transfers`; as many as the
    /// shorter of the two. Allocates nothing.
    pub fn sweep(&self, frequencies: &[f64], transfers: &mut [Complex64]) {
        self.each_block(frequencies, transfers, |transfer| transfer);
    }

    /// The same network with the node behind its first `cut` elements as the
    /// output: what follows there becomes a branch, and nothing else loads it.
    #[must_use]
    pub fn tapped(&self, cut: usize) -> Self {
        let (before, behind) = self.split(cut);
        let rest = Element::Branch(behind.to_vec(), self.load.clone());
        Self { source: self.source.clone(), chain: before.to_vec(), load: OnePort::OPEN }.with("part-rest", rest)
    }

    /// The first `cut` elements and the rest.
    pub(super) fn split(&self, cut: usize) -> (&[Part], &[Part]) {
        self.chain.split_at_checked(cut).unwrap_or((&self.chain, &[]))
    }

    /// The impedance that the source sees at a frequency in Hz, Ω.
    pub fn input_impedance(&self, frequency: f64) -> Complex64 {
        let at = Omegas::<1>::new(&[frequency]);
        let front = Port::at_load(&self.load, &at).through(&self.chain, &at);
        front.v.get(0) * inverse(front.i.get(0))
    }

    /// The impedance that the load sees, looking back with the e.m.f. at rest, Ω.
    pub fn output_impedance(&self, frequency: f64) -> Complex64 {
        self.two_port(frequency).output_impedance(self.source.impedance(frequency))
    }

    /// The impedance looking back, with the e.m.f. at rest, from the node behind
    /// the first `cut` elements, Ω.
    pub fn looking_back(&self, cut: usize, frequency: f64) -> Complex64 {
        cascade(self.split(cut).0, frequency).output_impedance(self.source.impedance(frequency))
    }

    /// The impedance looking on towards the load from that node, Ω.
    pub fn looking_on(&self, cut: usize, frequency: f64) -> Complex64 {
        cascade(self.split(cut).1, frequency).input_impedance(self.load.impedance(frequency))
    }

    /// What a voltage in series with the signal at that node becomes at the load.
    pub fn transfer_behind(&self, cut: usize, frequency: f64) -> Complex64 {
        let behind = cascade(self.split(cut).1, frequency);
        behind.transfer(self.looking_back(cut, frequency), self.load.impedance(frequency))
    }

    /// The chain matrix between source impedance and load.
    pub fn two_port(&self, frequency: f64) -> TwoPort {
        cascade(&self.chain, frequency)
    }

    #[inline]
    fn transfer_lanes<const N: usize>(&self, frequencies: &[f64; N]) -> Lanes<N> {
        let at = Omegas::new(frequencies);
        let mut front = Port::at_load(&self.load, &at).through(&self.chain, &at);
        front.in_series(&self.source, &at);
        front.v.inverse()
    }

    #[inline]
    fn each_block<T>(&self, frequencies: &[f64], out: &mut [T], value: impl Fn(Complex64) -> T) {
        let count = frequencies.len().min(out.len());
        let (frequencies, out) = (&frequencies[..count], &mut out[..count]);
        let (blocks, rest) = frequencies.as_chunks::<WIDTH>();
        let (slots, last) = out.as_chunks_mut::<WIDTH>();
        for (block, slots) in blocks.iter().zip(slots) {
            let transfers = self.transfer_lanes(block);
            for (k, slot) in slots.iter_mut().enumerate() {
                *slot = value(transfers.get(k));
            }
        }
        for (frequency, slot) in rest.iter().zip(last) {
            *slot = value(self.transfer(*frequency));
        }
    }
}

/// The chain matrix of elements in a row.
pub(super) fn cascade(parts: &[Part], frequency: f64) -> TwoPort {
    parts.iter().fold(TwoPort::THROUGH, |chain, part| chain.then(&part.element.two_port(frequency)))
}

impl Response for Path {
    fn power(&self, frequency: f64) -> f64 {
        self.transfer(frequency).norm_sqr()
    }

    fn powers(&self, frequencies: &[f64], powers: &mut [f64]) {
        self.each_block(frequencies, powers, |transfer| transfer.norm_sqr());
    }
}
