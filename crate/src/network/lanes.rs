//! Several frequencies at a time, so that the compiler can use vector registers
//! and the choice of an element is paid once for all of them.

use num_complex::Complex64;

/// `N` complex numbers, real and imaginary parts apart.
#[derive(Clone, Copy)]
pub(crate) struct Lanes<const N: usize> {
    pub re: [f64; N],
    pub im: [f64; N],
}

/// `N` angular frequencies.
#[derive(Clone, Copy)]
pub(crate) struct Omegas<const N: usize> {
    pub omega: [f64; N],
}

impl<const N: usize> Omegas<N> {
    /// From frequencies in Hz.
    #[inline]
    pub(crate) fn new(frequencies: &[f64; N]) -> Self {
        let mut omegas = Self { omega: [0.0; N] };
        for i in 0..N {
            omegas.omega[i] = std::f64::consts::TAU * frequencies[i];
        }
        omegas
    }

    /// ω·rising − falling/ω, the shape of every reactance and susceptance. The
    /// division is left out where nothing falls.
    #[inline]
    pub(crate) fn reactance(&self, rising: f64, falling: f64) -> [f64; N] {
        let mut x = [0.0; N];
        for i in 0..N {
            x[i] = self.omega[i] * rising;
        }
        if falling != 0.0 {
            for i in 0..N {
                x[i] -= falling / self.omega[i];
            }
        }
        x
    }
}

impl<const N: usize> Lanes<N> {
    pub(crate) const ZERO: Self = Self { re: [0.0; N], im: [0.0; N] };
    pub(crate) const ONE: Self = Self { re: [1.0; N], im: [0.0; N] };

    /// self·other
    #[inline]
    pub(crate) fn times(&self, other: &Self) -> Self {
        let mut product = Self::ZERO;
        for i in 0..N {
            product.re[i] = self.re[i] * other.re[i] - self.im[i] * other.im[i];
            product.im[i] = self.re[i] * other.im[i] + self.im[i] * other.re[i];
        }
        product
    }

    /// 1 + self·a·factor, in its own place: a step of a power series.
    #[inline]
    pub(crate) fn times_and_one(&mut self, a: &Self, factor: f64) {
        for i in 0..N {
            let (re, im) = (self.re[i], self.im[i]);
            self.re[i] = 1.0 + factor * (re * a.re[i] - im * a.im[i]);
            self.im[i] = factor * (re * a.im[i] + im * a.re[i]);
        }
    }

    /// |self|²
    #[inline]
    pub(crate) fn norm_sqr(&self) -> [f64; N] {
        let mut square = [0.0; N];
        for i in 0..N {
            square[i] = self.re[i] * self.re[i] + self.im[i] * self.im[i];
        }
        square
    }

    /// self += a·b
    #[inline]
    pub(crate) fn add_product(&mut self, a: &Self, b: &Self) {
        for i in 0..N {
            self.re[i] += a.re[i] * b.re[i] - a.im[i] * b.im[i];
            self.im[i] += a.re[i] * b.im[i] + a.im[i] * b.re[i];
        }
    }

    /// self += (real + j·(ω·rising − falling/ω))·a: a resistor, an inductor and a
    /// capacitor in one. What is not there costs nothing.
    #[inline]
    pub(crate) fn add_rlc(&mut self, real: f64, rising: f64, falling: f64, at: &Omegas<N>, a: &Self) {
        if rising == 0.0 && falling == 0.0 {
            self.add_scaled(a, real);
        } else if falling != 0.0 {
            let x = at.reactance(rising, falling);
            for i in 0..N {
                self.re[i] += real * a.re[i] - x[i] * a.im[i];
                self.im[i] += real * a.im[i] + x[i] * a.re[i];
            }
        } else if real == 0.0 {
            for i in 0..N {
                let x = at.omega[i] * rising;
                self.re[i] -= x * a.im[i];
                self.im[i] += x * a.re[i];
            }
        } else {
            for i in 0..N {
                let x = at.omega[i] * rising;
                self.re[i] += real * a.re[i] - x * a.im[i];
                self.im[i] += real * a.im[i] + x * a.re[i];
            }
        }
    }

    /// The same of 1: self += real + j·(ω·rising − falling/ω).
    #[inline]
    pub(crate) fn add_rlc_of_one(&mut self, real: f64, rising: f64, falling: f64, at: &Omegas<N>) {
        for i in 0..N {
            self.re[i] += real;
            self.im[i] += at.omega[i] * rising;
        }
        if falling != 0.0 {
            for i in 0..N {
                self.im[i] -= falling / at.omega[i];
            }
        }
    }

    /// self += a·factor
    #[inline]
    pub(crate) fn add_scaled(&mut self, a: &Self, factor: f64) {
        for i in 0..N {
            self.re[i] += a.re[i] * factor;
            self.im[i] += a.im[i] * factor;
        }
    }

    #[inline]
    pub(crate) fn add(&mut self, other: &Self) {
        for i in 0..N {
            self.re[i] += other.re[i];
            self.im[i] += other.im[i];
        }
    }

    #[inline]
    pub(crate) fn scale(&mut self, factor: f64) {
        for i in 0..N {
            self.re[i] *= factor;
            self.im[i] *= factor;
        }
    }

    /// 1/self. Zero gives an infinite real part, infinity gives zero, so that a
    /// short and an open circuit turn into each other.
    #[inline]
    pub(crate) fn inverse(self) -> Self {
        let mut result = self;
        let square = self.norm_sqr();
        for i in 0..N {
            let scale = 1.0 / square[i];
            result.re[i] = self.re[i] * scale;
            result.im[i] = -self.im[i] * scale;
        }
        // Only shorts and opens need a look at each lane.
        if square.iter().any(|square| *square == 0.0 || !square.is_finite()) {
            for i in 0..N {
                result.set(i, inverse(self.get(i)));
            }
        }
        result
    }

    #[inline(always)]
    pub(crate) fn get(&self, i: usize) -> Complex64 {
        Complex64::new(self.re[i], self.im[i])
    }

    #[inline(always)]
    pub(crate) fn set(&mut self, i: usize, value: Complex64) {
        self.re[i] = value.re;
        self.im[i] = value.im;
    }
}

/// 1/z with the two limits that circuits need.
#[inline]
pub(crate) fn inverse(z: Complex64) -> Complex64 {
    let square = z.norm_sqr();
    if square == 0.0 {
        Complex64::new(f64::INFINITY, 0.0)
    } else if square.is_infinite() {
        Complex64::new(0.0, 0.0)
    } else {
        Complex64::new(z.re / square, -z.im / square)
    }
}
