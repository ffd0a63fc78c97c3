//! The ladder method: a chain is solved from the load back to the source, or from
//! the source on to the load, with one voltage and one current at every frequency.

use super::element::{Element, Section};
use super::lanes::{Lanes, Omegas};
use super::line::Line;
use super::one_port::OnePort;

/// Voltage and current at one point of a chain, at `N` frequencies.
#[derive(Clone, Copy)]
pub(crate) struct Port<const N: usize> {
    pub v: Lanes<N>,
    pub i: Lanes<N>,
}

impl<const N: usize> Port<N> {
    /// One volt across a load, as it is at the front of a chain before it.
    #[inline]
    pub(crate) fn looking_on(chain: &[Section], load: &OnePort, at: &Omegas<N>) -> Self {
        let mut port = Self { v: Lanes::ONE, i: Lanes::ZERO };
        load.add_admittance(at, &mut port.i);
        // What lies across the load carries the current of one volt too, without a product.
        let mut chain = chain;
        while let [before @ .., Section { element: Element::Shunt(across), .. }] = chain {
            across.add_admittance(at, &mut port.i);
            chain = before;
        }
        for part in chain.iter().rev() {
            part.element.step_back(&mut port, at);
        }
        port
    }

    /// A source as it is looked back into: its impedance is v/i, and an e.m.f. of one
    /// volt stands there, with nothing connected, as 1/i.
    #[inline]
    pub(crate) fn at_source(source: &OnePort, at: &Omegas<N>) -> Self {
        Self { v: source.impedance_lanes(at), i: Lanes::ONE }
    }

    /// What looks back into a source, from the front of a chain to behind it.
    #[inline]
    pub(crate) fn on(mut self, chain: &[Section], at: &Omegas<N>) -> Self {
        for part in chain {
            part.element.step_on(&mut self, at);
        }
        self
    }

    /// What looks back into a source, behind one more element.
    #[inline]
    pub(crate) fn over(mut self, element: &Element, at: &Omegas<N>) -> Self {
        element.step_on(&mut self, at);
        self
    }

    /// Voltage over current, Ω.
    #[inline]
    pub(crate) fn impedance(&self) -> Lanes<N> {
        self.v.times(&self.i.inverse())
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

    /// At the other end of a line.
    #[inline]
    fn along(&mut self, line: &Line, at: &Omegas<N>) {
        let [cosh, z, y] = line.lanes(at);
        for k in 0..N {
            let (v, i) = (self.v.get(k), self.i.get(k));
            self.v.set(k, cosh.get(k) * v + z.get(k) * i);
            self.i.set(k, y.get(k) * v + cosh.get(k) * i);
        }
    }

    /// On the side of an ideal transformer with `ratio` times the voltage.
    #[inline]
    fn transform(&mut self, ratio: f64) {
        self.v.scale(ratio);
        self.i.scale(1.0 / ratio);
    }
}

impl Element {
    /// From the port behind the element to the port in front of it.
    #[inline]
    pub(crate) fn step_back<const N: usize>(&self, port: &mut Port<N>, at: &Omegas<N>) {
        match self {
            Self::Transformer(ratio) => port.transform(*ratio),
            Self::Buffer(gain) => {
                port.v.scale(1.0 / gain);
                port.i = Lanes::ZERO;
            }
            either_way => either_way.step(port, at),
        }
    }

    /// The same for what looks back into a source, from the port in front of the
    /// element to the port behind it.
    #[inline]
    fn step_on<const N: usize>(&self, port: &mut Port<N>, at: &Omegas<N>) {
        match self {
            Self::Transformer(ratio) => port.transform(1.0 / ratio),
            Self::Buffer(gain) => {
                port.v = Lanes::ZERO;
                port.i.scale(1.0 / gain);
            }
            either_way => either_way.step(port, at),
        }
    }

    /// Over an element that is the same from both sides.
    #[inline]
    fn step<const N: usize>(&self, port: &mut Port<N>, at: &Omegas<N>) {
        match self {
            Self::Series(z) => port.in_series(z, at),
            Self::Shunt(z) => port.across(z, at),
            Self::Line(line) => port.along(line, at),
            Self::Branch(chain, load) => {
                let front = Port::looking_on(chain, load, at);
                let y = front.i.times(&front.v.inverse());
                port.i.add_product(&y, &port.v);
            }
            Self::Transformer(_) | Self::Buffer(_) => {}
        }
    }
}
