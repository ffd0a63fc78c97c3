//! The uniform line.

use super::lanes::{Lanes, Omegas};
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
        let [cosh, z, y] = self.lanes::<1>(&Omegas::new(&[frequency])).map(|lanes| lanes.get(0));
        TwoPort { a: cosh, b: z, c: y, d: cosh }
    }

    /// A = D, B and C of the chain matrix.
    ///
    /// Written with Z = (R+sL)·l and Y = (G+sC)·l: A = D = cosh √(ZY),
    /// B = Z·sinhc √(ZY), C = Y·sinhc √(ZY), sinhc x = sinh x / x. Both are even
    /// in the root, so no branch has to be chosen, and a line without R or L
    /// needs no special case.
    #[inline]
    pub(super) fn lanes<const N: usize>(&self, at: &Omegas<N>) -> [Lanes<N>; 3] {
        let (mut z, mut y) = (Lanes::ZERO, Lanes::ZERO);
        for k in 0..N {
            (z.re[k], z.im[k]) = (self.r * self.length, at.omega[k] * self.l * self.length);
            (y.re[k], y.im[k]) = (self.g * self.length, at.omega[k] * self.c * self.length);
        }
        let square = z.times(&y);
        let (sizes, mut largest) = (square.norm_sqr(), 0.0);
        for k in 0..N {
            largest = if sizes[k] > largest { sizes[k] } else { largest };
        }
        let (cosh, sinhc) = if largest < FOLLOWED { by_doubling(square, largest) } else { far(&square) };
        [cosh, z.times(&sinhc), y.times(&sinhc)]
    }
}

/// The size of (ZY)², squared, up to which no loss comes near [`MOST_LOSS`].
const FOLLOWED: f64 = MOST_LOSS * MOST_LOSS * MOST_LOSS * MOST_LOSS;
/// The same up to which four terms of a series leave less than 1e-16 of what they are.
const SHORT: f64 = 1e-4;

/// The same up to which two of them do: any lead at most of the audio band.
const SHORTEST: f64 = 1e-9;

/// cosh x and sinhc x of x², by their series for a part of the line so short that it
/// converges at once, and from there on by doubling: sinh 2x = 2·sinh x·cosh x, and
/// u = cosh x − 1 becomes 2u·(u + 2), which loses no digit of a small u.
#[inline]
fn by_doubling<const N: usize>(mut square: Lanes<N>, mut largest: f64) -> (Lanes<N>, Lanes<N>) {
    let mut doublings = 0;
    while largest >= SHORT {
        square.scale(0.25);
        largest *= 0.0625;
        doublings += 1;
    }
    let (mut u, mut sinhc) = (Lanes::ONE, Lanes::ONE);
    if largest >= SHORTEST {
        u.times_and_one(&square, 1.0 / 56.0);
        u.times_and_one(&square, 1.0 / 30.0);
        sinhc.times_and_one(&square, 1.0 / 72.0);
        sinhc.times_and_one(&square, 1.0 / 42.0);
    }
    u.times_and_one(&square, 1.0 / 12.0);
    sinhc.times_and_one(&square, 1.0 / 20.0);
    sinhc.times_and_one(&square, 1.0 / 6.0);
    u = u.times(&square);
    u.scale(0.5);
    for _ in 0..doublings {
        let before = sinhc;
        sinhc.add_product(&before, &u);
        let before = u;
        u.scale(2.0);
        u.add_product(&before, &before);
        u.scale(2.0);
    }
    u.add(&Lanes::ONE);
    (u, sinhc)
}

/// The same by themselves, where loss ends.
fn far<const N: usize>(square: &Lanes<N>) -> (Lanes<N>, Lanes<N>) {
    let (mut cosh, mut sinhc) = (Lanes::ONE, Lanes::ONE);
    for k in 0..N {
        let root = square.get(k).sqrt();
        let followed = Complex64::new(root.re.min(MOST_LOSS), root.im);
        cosh.set(k, followed.cosh());
        sinhc.set(k, if root == Complex64::ZERO { Complex64::ONE } else { followed.sinh() / root });
    }
    (cosh, sinhc)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// cosh and sinh as they stand in any text on lines, whichever way they are come by:
    /// by a short series, by doubling, and by themselves.
    #[test]
    fn hyperbolic_functions() {
        for (r, l, c) in [(0.1, 0.6e-6, 100e-12), (0.0, 0.6e-6, 100e-12), (1e3, 0.0, 1e-9), (50.0, 1e-6, 60e-12)] {
            for length in [0.1, 3.0, 30.0, 600.0, 3e3] {
                let line = Line { length, r, l, g: 1e-12, c };
                let frequencies = [20.0, 1e3, 11e3, 20e3, 200e3, 1e6, 3e6, 10e6];
                let lanes = line.lanes(&Omegas::new(&frequencies));
                for (k, f) in frequencies.into_iter().enumerate() {
                    let omega = std::f64::consts::TAU * f;
                    let z = Complex64::new(r, omega * l) * length;
                    let y = Complex64::new(1e-12, omega * c) * length;
                    let x = (z * y).sqrt();
                    if x.re > MOST_LOSS {
                        continue;
                    }
                    let alone = line.two_port(f);
                    let (cosh, sinhc) = (x.cosh(), x.sinh() / x);
                    for (got, alone, expected, size) in [
                        (lanes[0].get(k), alone.a, cosh, cosh.norm().max(1.0)),
                        (lanes[1].get(k), alone.b, z * sinhc, z.norm() * sinhc.norm().max(1.0 / x.norm())),
                        (lanes[2].get(k), alone.c, y * sinhc, y.norm() * sinhc.norm().max(1.0 / x.norm())),
                    ] {
                        let close = |got: Complex64| (got - expected).norm() <= 1e-12 * (1.0 + x.norm()) * size;
                        assert!(
                            close(got) && close(alone),
                            "{length} m at {f} Hz: {got} and {alone} are not {expected}"
                        );
                    }
                }
            }
        }
    }

    /// A line without a length changes nothing, and behind the loss that is followed there
    /// is as much left as behind the most of it.
    #[test]
    fn nothing_and_too_much() {
        let line = |length| Line { length, r: 1e3, l: 0.0, g: 0.0, c: 1e-9 };
        assert_eq!(line(0.0).two_port(1e3), TwoPort::THROUGH);
        let [far, farther] = [1e6, 1e7].map(|length| line(length).two_port(1e6).a.norm().ln());
        assert!((far - MOST_LOSS).abs() < 1.0 && (farther - MOST_LOSS).abs() < 1.0, "{far} {farther}");
    }
}
