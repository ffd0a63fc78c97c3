//! The uniform line.

use super::lanes::Omegas;
use super::two_port::TwoPort;
use num_complex::Complex64;
use serde::Serialize;

/// The loss of a line is followed as far as this, Np: 869 dB, behind which
/// nothing is left, and further on the numbers end.
pub(crate) const MOST_LOSS: f64 = 100.0;

/// A uniform line of any length, exact at every frequency (Pozar, Microwave
/// Engineering, table of ABCD parameters: line of length l).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Line {
    /// Length, m.
    pub length: f64,
    /// Loop resistance per length, Ω/m.
    pub r: f64,
    /// Loop inductance per length, H/m.
    pub l: f64,
    /// Leakage conductance per length, S/m.
    pub g: f64,
    /// Capacitance per length, F/m.
    pub c: f64,
}

impl Line {
    /// The chain matrix at a frequency in Hz.
    pub fn two_port(&self, frequency: f64) -> TwoPort {
        self.at(Omegas::<1>::new(&[frequency]).omega[0])
    }

    /// The chain matrix at an angular frequency.
    ///
    /// Written with Z = (R+sL)·l and Y = (G+sC)·l: A = D = cosh √(ZY),
    /// B = Z·sinhc √(ZY), C = Y·sinhc √(ZY), sinhc x = sinh x / x. Both are even
    /// in the root, so no branch has to be chosen, and a line without R or L
    /// needs no special case.
    #[inline]
    pub(crate) fn at(&self, omega: f64) -> TwoPort {
        let z = Complex64::new(self.r, omega * self.l) * self.length;
        let y = Complex64::new(self.g, omega * self.c) * self.length;
        let square = z * y;
        let (cosh, sinhc) = if square.norm_sqr() < 1e-4 {
            // |x²| < 0.01: five terms of each series leave less than 1e-17.
            // Times reciprocals, which a sweep feels: a division costs some products.
            let series = |below: [f64; 5]| {
                below.iter().rev().fold(Complex64::ONE, |sum, below| sum * square * (1.0 / below) + 1.0)
            };
            (series([2.0, 12.0, 30.0, 56.0, 90.0]), series([6.0, 20.0, 42.0, 72.0, 110.0]))
        } else {
            let root = square.sqrt();
            let followed = Complex64::new(root.re.min(MOST_LOSS), root.im);
            (followed.cosh(), followed.sinh() / root)
        };
        TwoPort { a: cosh, b: z * sinhc, c: y * sinhc, d: cosh }
    }
}
