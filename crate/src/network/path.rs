//! From an e.m.f. to the voltage across a load.

use super::element::{Element, Section};
use super::feature::Response;
use super::ladder::Port;
use super::lanes::{Lanes, Omegas, inverse};
use super::one_port::OnePort;
use super::two_port::TwoPort;
use num_complex::Complex64;
use serde::Serialize;

/// How many frequencies a sweep solves together.
const WIDTH: usize = 16;

/// A node of a path: the one that stands behind so many elements of its chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Node(pub(super) usize);

impl Node {
    /// The terminals of the source.
    pub const SOURCE: Self = Self(0);
}

/// An e.m.f. behind a source impedance, a chain, and a load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Path {
    /// The source impedance.
    pub source: OnePort,
    /// The elements from the source to the load.
    pub chain: Vec<Section>,
    /// The load impedance.
    pub load: OnePort,
}

/// A path at one frequency, solved up to its load, before which elements may be put.
#[derive(Clone, Copy)]
pub struct BeforeLoad {
    at: Omegas<1>,
    front: Port<1>,
    load: Lanes<1>,
}

impl BeforeLoad {
    /// |H|² of the path with one more element before its load.
    pub fn power_with(&self, element: &Element) -> f64 {
        self.power_of(&self.front.over(element, &self.at))
    }

    /// |H|² of the path as it is.
    pub fn power(&self) -> f64 {
        self.power_of(&self.front)
    }

    fn power_of(&self, front: &Port<1>) -> f64 {
        let mut taken = front.i;
        taken.add_product(&self.load, &front.v);
        taken.inverse().norm_sqr()[0]
    }
}

impl Path {
    /// A source connected straight to a load.
    pub fn new(source: OnePort, load: OnePort) -> Self {
        Self { source, chain: Vec::new(), load }
    }

    /// Adds an element on the load side of the chain.
    #[must_use]
    pub fn with(mut self, name: &'static str, element: Element) -> Self {
        self.chain.push(Section { name, element });
        self
    }

    /// The node at its load, as long as nothing more is added.
    pub fn end(&self) -> Node {
        Node(self.chain.len())
    }

    /// Load voltage over e.m.f. at a frequency in Hz. Relative accuracy 1e-12.
    pub fn transfer(&self, frequency: f64) -> Complex64 {
        inverse(self.front::<1>(&[frequency]).v.get(0))
    }

    /// The transfer at each of `frequencies`, into `transfers`; as many as the
    /// shorter of the two. Allocates nothing.
    pub fn sweep(&self, frequencies: &[f64], transfers: &mut [Complex64]) {
        let count = frequencies.len().min(transfers.len());
        let (blocks, rest) = frequencies[..count].as_chunks::<WIDTH>();
        let (slots, last) = transfers[..count].as_chunks_mut::<WIDTH>();
        for (block, slots) in blocks.iter().zip(slots) {
            let transfers = self.front(block).v.inverse();
            for (k, slot) in slots.iter_mut().enumerate() {
                *slot = transfers.get(k);
            }
        }
        for (frequency, slot) in rest.iter().zip(last) {
            *slot = self.transfer(*frequency);
        }
    }

    /// The path at a frequency in Hz, for many elements in turn before its load.
    pub fn before_load(&self, frequency: f64) -> BeforeLoad {
        let at = Omegas::new(&[frequency]);
        let front = Port::at_source(&self.source, &at).on(&self.chain, &at);
        BeforeLoad { at, front, load: self.load.admittance_lanes(&at) }
    }

    /// The same network with this node as the output: what follows there becomes
    /// a branch, and nothing else loads it.
    #[must_use]
    pub fn tapped(&self, node: Node) -> Self {
        let (before, behind) = self.split(node);
        let rest = Element::Branch(behind.to_vec(), self.load.clone());
        Self { source: self.source.clone(), chain: before.to_vec(), load: OnePort::OPEN }.with("part-rest", rest)
    }

    /// The elements before a node.
    pub fn before(&self, node: Node) -> &[Section] {
        self.split(node).0
    }

    /// The elements before a node and those behind it.
    pub(super) fn split(&self, node: Node) -> (&[Section], &[Section]) {
        self.chain.split_at_checked(node.0).unwrap_or((&self.chain, &[]))
    }

    /// The impedance that the source sees at a frequency in Hz, Ω.
    pub fn input_impedance(&self, frequency: f64) -> Complex64 {
        self.looking_on(Node::SOURCE, frequency)
    }

    /// The impedance that the load sees, looking back with the e.m.f. at rest, Ω.
    pub fn output_impedance(&self, frequency: f64) -> Complex64 {
        self.looking_back(self.end(), frequency)
    }

    /// The impedance looking back, with the e.m.f. at rest, from a node, Ω.
    pub fn looking_back(&self, node: Node, frequency: f64) -> Complex64 {
        let at = Omegas::<1>::new(&[frequency]);
        Port::at_source(&self.source, &at).on(self.split(node).0, &at).impedance().get(0)
    }

    /// The impedance looking on towards the load from a node, Ω.
    pub fn looking_on(&self, node: Node, frequency: f64) -> Complex64 {
        let at = Omegas::<1>::new(&[frequency]);
        Port::looking_on(self.split(node).1, &self.load, &at).impedance().get(0)
    }

    /// What a voltage in series with the signal at a node becomes at the load.
    pub fn transfer_behind(&self, node: Node, frequency: f64) -> Complex64 {
        let at = Omegas::<1>::new(&[frequency]);
        let (before, behind) = self.split(node);
        let on = Port::looking_on(behind, &self.load, &at);
        let back = Port::at_source(&self.source, &at).on(before, &at).impedance();
        inverse(on.v.get(0) + back.get(0) * on.i.get(0))
    }

    /// The chain matrix between source impedance and load.
    pub fn two_port(&self, frequency: f64) -> TwoPort {
        self.chain.iter().fold(TwoPort::THROUGH, |chain, part| chain.then(&part.element.two_port(frequency)))
    }

    /// The e.m.f. and its current for one volt across the load.
    #[inline]
    fn front<const N: usize>(&self, frequencies: &[f64; N]) -> Port<N> {
        let at = Omegas::new(frequencies);
        let mut front = Port::looking_on(&self.chain, &self.load, &at);
        front.in_series(&self.source, &at);
        front
    }
}

impl Response for Path {
    fn power(&self, frequency: f64) -> f64 {
        1.0 / self.front::<1>(&[frequency]).v.norm_sqr()[0]
    }

    fn powers(&self, frequencies: &[f64], powers: &mut [f64]) {
        let count = frequencies.len().min(powers.len());
        let (blocks, rest) = frequencies[..count].as_chunks::<WIDTH>();
        let (slots, last) = powers[..count].as_chunks_mut::<WIDTH>();
        for (block, slots) in blocks.iter().zip(slots) {
            let square = self.front(block).v.norm_sqr();
            for k in 0..WIDTH {
                slots[k] = 1.0 / square[k];
            }
        }
        for (frequency, slot) in rest.iter().zip(last) {
            *slot = self.power(*frequency);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::Line;

    /// The ladder from either end against the chain matrices, at every node of a path
    /// with all kinds of elements.
    #[test]
    fn both_ways_as_the_matrices_have_it() {
        let line = Element::Line(Line { length: 30.0, r: 0.1, l: 0.6e-6, g: 0.0, c: 100e-12 });
        let shunt = |c| Element::Shunt(OnePort::capacitor(c));
        let thru = vec![Section { name: "", element: line.clone() }];
        let passive = Path::new(OnePort::series_rl(6e3, 2.5), OnePort::parallel_rc(1.5e3, 220e-12))
            .with("", shunt(110e-12))
            .with("", Element::Branch(thru, OnePort::resistor(1e6)))
            .with("", Element::Transformer(12.0))
            .with("", line)
            .with("", Element::Series(OnePort::resistor(47.0)))
            .with("", shunt(1e-9))
            .with("", Element::Shunt(OnePort::resistor(10e3)));
        let buffered =
            passive.clone().with("", Element::Buffer(0.5)).with("", Element::Series(OnePort::resistor(100.0)));
        let close = |what: &str, got: Complex64, expected: Complex64| {
            // A buffer takes no current.
            let same = got == expected || (got - expected).norm() <= 1e-11 * expected.norm();
            assert!(same, "{what}: {got} is not {expected}");
        };
        for path in [passive, buffered] {
            for (n, f) in (0..=path.chain.len()).flat_map(|n| [20.0, 1e3, 20e3, 2e6].map(|f| (n, f))) {
                let node = Node(n);
                let (before, behind) = path.split(node);
                let [before, behind] = [before, behind]
                    .map(|chain| chain.iter().fold(TwoPort::THROUGH, |all, part| all.then(&part.element.two_port(f))));
                let (source, load) = (path.source.impedance(f), path.load.impedance(f));
                let back = before.output_impedance(source);
                close("back", path.looking_back(node, f), back);
                close("on", path.looking_on(node, f), behind.input_impedance(load));
                close("behind", path.transfer_behind(node, f), behind.transfer(back, load));
                let whole = path.two_port(f).transfer(source, load);
                close("transfer", path.transfer(f), whole);
                close("power", path.before_load(f).power().into(), whole.norm_sqr().into());
                close("power", path.power(f).into(), whole.norm_sqr().into());
            }
        }
    }

    /// An element before the load, put in or not.
    #[test]
    fn one_more_before_the_load() {
        let path =
            Path::new(OnePort::resistor(10e3), OnePort::parallel_rc(1e6, 1e-9)).with("", Element::Transformer(2.0));
        let element = Element::Series(OnePort::series_rl(100.0, 1.0));
        let (got, expected) = (path.before_load(5e3).power_with(&element), path.with("", element).power(5e3));
        assert!((got / expected - 1.0).abs() < 1e-12, "{got} {expected}");
    }
}
