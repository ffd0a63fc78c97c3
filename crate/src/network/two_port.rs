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
