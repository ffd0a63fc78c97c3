//! The chain matrix of a two-port.

use super::lanes::inverse;
use num_complex::Complex64;

/// The chain matrix: `[V1; I1] = [a b; c d]·[V2; I2]`, I2 leaving port 2
/// (IEC 60050-131).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoPort {
    /// V1/V2 with port 2 open.
    pub a: Complex64,
    /// V1/I2 with port 2 shorted, Ω.
    pub b: Complex64,
    /// I1/V2 with port 2 open, S.
    pub c: Complex64,
    /// I1/I2 with port 2 shorted.
    pub d: Complex64,
}

const ZERO: Complex64 = Complex64::new(0.0, 0.0);
const ONE: Complex64 = Complex64::new(1.0, 0.0);

impl TwoPort {
    /// A straight connection.
    pub const THROUGH: Self = Self { a: ONE, b: ZERO, c: ZERO, d: ONE };

    /// A series impedance, Ω.
    pub fn series(z: Complex64) -> Self {
        Self { b: z, ..Self::THROUGH }
    }

    /// A shunt admittance, S.
    pub fn shunt(y: Complex64) -> Self {
        Self { c: y, ..Self::THROUGH }
    }

    /// An ideal transformer, `ratio`:1 step-down.
    pub fn transformer(ratio: f64) -> Self {
        Self { a: ratio.into(), b: ZERO, c: ZERO, d: (1.0 / ratio).into() }
    }

    /// A unilateral buffer of voltage gain `gain`.
    pub fn buffer(gain: f64) -> Self {
        Self { a: (1.0 / gain).into(), b: ZERO, c: ZERO, d: ZERO }
    }

    /// This two-port followed by `next`.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        Self {
            a: self.a * next.a + self.b * next.c,
            b: self.a * next.b + self.b * next.d,
            c: self.c * next.a + self.d * next.c,
            d: self.c * next.b + self.d * next.d,
        }
    }

    /// VL/Vs for a source impedance and a load impedance, Ω.
    pub fn transfer(&self, source: Complex64, load: Complex64) -> Complex64 {
        let load = inverse(load);
        inverse(self.a + self.b * load + source * (self.c + self.d * load))
    }

    /// The impedance looking in at port 1 with `load` at port 2, Ω.
    pub fn input_impedance(&self, load: Complex64) -> Complex64 {
        let load = inverse(load);
        (self.a + self.b * load) * inverse(self.c + self.d * load)
    }

    /// The impedance looking back in at port 2 with `source` at port 1, Ω.
    pub fn output_impedance(&self, source: Complex64) -> Complex64 {
        (self.d * source + self.b) * inverse(self.c * source + self.a)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(got: Complex64, expected: Complex64) {
        assert!((got - expected).norm() <= 1e-12 * expected.norm().max(1e-300), "{got} is not {expected}");
    }

    /// Reciprocity: the determinant of whatever is passive is 1, whichever way round it
    /// is (any circuit-theory text), and a buffer lets nothing back.
    #[test]
    fn what_is_passive_is_reciprocal() {
        let parts = [
            TwoPort::series(Complex64::new(150.0, 30.0)),
            TwoPort::shunt(Complex64::new(1e-3, -2e-3)),
            TwoPort::transformer(12.0),
            TwoPort::series(Complex64::new(0.0, -40.0)),
        ];
        let chain = parts.iter().fold(TwoPort::THROUGH, |chain, part| chain.then(part));
        let back = parts.iter().rev().fold(TwoPort::THROUGH, |chain, part| chain.then(part));
        for whole in [chain, back] {
            close(whole.a * whole.d - whole.b * whole.c, ONE);
        }
        let buffer = TwoPort::buffer(3.0);
        close(buffer.a * buffer.d - buffer.b * buffer.c, ZERO);
    }

    /// Dividers worked by hand: 1 kΩ and 2 kΩ in series into 3 kΩ across, before a load
    /// of 6 kΩ: 2 kΩ of 5 kΩ.
    #[test]
    fn a_divider() {
        let [source, load] = [1e3, 6e3].map(Complex64::from);
        let pad = TwoPort::series(2e3.into()).then(&TwoPort::shunt((1.0 / 3e3).into()));
        close(pad.transfer(source, load), 0.4.into());
        close(pad.input_impedance(load), 4e3.into());
        close(pad.output_impedance(source), 1.5e3.into());
    }

    /// A transformer of n:1 shows n² of the load and gives 1/n² of the source (any
    /// circuit-theory text).
    #[test]
    fn a_transformer() {
        let (source, load) = (Complex64::new(144.0, 288.0), Complex64::new(1.0, -2.0));
        let transformer = TwoPort::transformer(12.0);
        close(transformer.input_impedance(load), 144.0 * load);
        close(transformer.output_impedance(source), source / 144.0);
        close(transformer.transfer(source, load), 144.0 * load / (source + 144.0 * load) / 12.0);
    }

    /// A buffer multiplies whatever comes by its gain, whatever follows.
    #[test]
    fn a_buffer() {
        for gain in [0.1, 1.0, 4.0] {
            let buffer = TwoPort::buffer(gain);
            for (source, load) in [(0.0, 1e3), (10e3, 50.0)] {
                close(buffer.transfer(source.into(), load.into()), gain.into());
            }
            close(buffer.output_impedance(10e3.into()), ZERO);
        }
    }
}
