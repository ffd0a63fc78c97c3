//! Impedances with two terminals.

use super::lanes::{Lanes, Omegas};
use num_complex::Complex64;
use serde::Serialize;

/// An impedance with two terminals, made of resistors, inductors and
/// capacitors. Values in Ω, H and F; none may be negative.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OnePort {
    /// R, L and C in series: Z = R + sL + 1/(sC).
    SeriesRlc {
        /// Resistance, Ω.
        r: f64,
        /// Inductance, H.
        l: f64,
        /// 1/C, 1/F; zero where there is no capacitor.
        elastance: f64,
    },
    /// R, L and C in parallel: Y = G + sC + 1/(sL).
    ParallelRlc {
        /// Conductance, S.
        g: f64,
        /// Capacitance, F.
        c: f64,
        /// 1/L, 1/H; zero where there is no inductor.
        reluctance: f64,
    },
    /// Impedances in series.
    Series(Vec<OnePort>),
    /// Impedances in parallel.
    Parallel(Vec<OnePort>),
}

impl OnePort {
    /// A connection without impedance.
    pub const SHORT: Self = Self::SeriesRlc { r: 0.0, l: 0.0, elastance: 0.0 };
    /// No connection.
    pub const OPEN: Self = Self::ParallelRlc { g: 0.0, c: 0.0, reluctance: 0.0 };

    /// A resistance, Ω. Infinity is an open circuit.
    pub fn resistor(r: f64) -> Self {
        Self::SeriesRlc { r, l: 0.0, elastance: 0.0 }
    }

    /// A capacitance, F. Zero is an open circuit.
    pub fn capacitor(c: f64) -> Self {
        Self::ParallelRlc { g: 0.0, c, reluctance: 0.0 }
    }

    /// A resistance in series with an inductance, Ω and H.
    pub fn series_rl(r: f64, l: f64) -> Self {
        Self::SeriesRlc { r, l, elastance: 0.0 }
    }

    /// A resistance in series with a capacitance, Ω and F.
    pub fn series_rc(r: f64, c: f64) -> Self {
        Self::SeriesRlc { r, l: 0.0, elastance: 1.0 / c }
    }

    /// A resistance in parallel with a capacitance, Ω and F.
    pub fn parallel_rc(r: f64, c: f64) -> Self {
        Self::ParallelRlc { g: 1.0 / r, c, reluctance: 0.0 }
    }

    /// A resistance in parallel with an inductance, Ω and H.
    pub fn parallel_rl(r: f64, l: f64) -> Self {
        Self::ParallelRlc { g: 1.0 / r, c: 0.0, reluctance: 1.0 / l }
    }

    /// The same with so many times its impedance at every frequency.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        let all = |parts: &[Self]| parts.iter().map(|part| part.times(factor)).collect();
        match self {
            Self::SeriesRlc { r, l, elastance } => {
                Self::SeriesRlc { r: r * factor, l: l * factor, elastance: elastance * factor }
            }
            Self::ParallelRlc { g, c, reluctance } => {
                Self::ParallelRlc { g: g / factor, c: c / factor, reluctance: reluctance / factor }
            }
            Self::Series(parts) => Self::Series(all(parts)),
            Self::Parallel(parts) => Self::Parallel(all(parts)),
        }
    }

    /// The resistance of a plain resistor, which needs no complex arithmetic.
    #[inline]
    pub(crate) fn resistance(&self) -> Option<f64> {
        match self {
            Self::SeriesRlc { r, l: 0.0, elastance: 0.0 } => Some(*r),
            _ => None,
        }
    }

    /// The impedance at a frequency in Hz, Ω.
    pub fn impedance(&self, frequency: f64) -> Complex64 {
        self.impedance_lanes::<1>(&Omegas::new(&[frequency])).get(0)
    }

    /// The admittance at a frequency in Hz, S.
    pub fn admittance(&self, frequency: f64) -> Complex64 {
        self.admittance_lanes::<1>(&Omegas::new(&[frequency])).get(0)
    }

    /// Adds its admittance to a current under one volt.
    #[inline]
    pub(crate) fn add_admittance<const N: usize>(&self, at: &Omegas<N>, i: &mut Lanes<N>) {
        match (self, self.resistance()) {
            (_, Some(r)) => i.add_rlc_of_one(1.0 / r, 0.0, 0.0, at),
            (Self::ParallelRlc { g, c, reluctance }, _) => i.add_rlc_of_one(*g, *c, *reluctance, at),
            _ => i.add(&self.admittance_lanes(at)),
        }
    }

    #[inline]
    pub(crate) fn impedance_lanes<const N: usize>(&self, at: &Omegas<N>) -> Lanes<N> {
        match self {
            Self::SeriesRlc { r, l, elastance } => Lanes { re: [*r; N], im: at.reactance(*l, *elastance) },
            Self::ParallelRlc { .. } | Self::Parallel(_) => self.admittance_lanes(at).inverse(),
            Self::Series(parts) => {
                let mut z = Lanes::ZERO;
                for part in parts {
                    z.add(&part.impedance_lanes(at));
                }
                z
            }
        }
    }

    #[inline]
    pub(crate) fn admittance_lanes<const N: usize>(&self, at: &Omegas<N>) -> Lanes<N> {
        match self {
            Self::ParallelRlc { g, c, reluctance } => Lanes { re: [*g; N], im: at.reactance(*c, *reluctance) },
            Self::SeriesRlc { .. } | Self::Series(_) => match self.resistance() {
                Some(r) => Lanes { re: [1.0 / r; N], im: [0.0; N] },
                None => self.impedance_lanes(at).inverse(),
            },
            Self::Parallel(parts) => {
                let mut y = Lanes::ZERO;
                for part in parts {
                    y.add(&part.admittance_lanes(at));
                }
                y
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nothing is in the way of a short, and nothing goes through what is open.
    #[test]
    fn short_and_open() {
        for f in [0.01, 1e3, 1e7] {
            assert_eq!(OnePort::SHORT.impedance(f), Complex64::ZERO);
            assert_eq!(OnePort::OPEN.admittance(f), Complex64::ZERO);
        }
    }

    /// A factor on the impedance of every kind.
    #[test]
    fn times() {
        let series = OnePort::SeriesRlc { r: 100.0, l: 10e-3, elastance: 1e6 };
        let parallel = OnePort::ParallelRlc { g: 0.01, c: 1e-6, reluctance: 10.0 };
        let parts = vec![series.clone(), parallel.clone()];
        for one in [series, parallel, OnePort::Series(parts.clone()), OnePort::Parallel(parts)] {
            let z = one.impedance(1e3);
            assert!((one.times(2.5).impedance(1e3) - z * 2.5).norm() < 1e-12 * z.norm(), "{one:?}");
        }
    }

    /// Impedances in series add, and admittances in parallel (Kirchhoff): 100 Ω and
    /// jω·10 mH, 10 mS and jω·1 µF at ω = 10⁴/s.
    #[test]
    fn in_series_and_in_parallel() {
        let f = 1e4 / std::f64::consts::TAU;
        let close = |got: Complex64, re: f64, im: f64| {
            assert!((got - Complex64::new(re, im)).norm() < 1e-12 * got.norm(), "{got} is not {re} + j {im}");
        };
        let series = OnePort::Series(vec![OnePort::resistor(100.0), OnePort::series_rl(0.0, 10e-3)]);
        close(series.impedance(f), 100.0, 100.0);
        let parallel = OnePort::Parallel(vec![OnePort::resistor(100.0), OnePort::capacitor(1e-6)]);
        close(parallel.admittance(f), 0.01, 0.01);
    }
}
