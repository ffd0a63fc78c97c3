//! How a sound comes and goes.

/// A factor that changes evenly from one value to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ramp {
    from: f64,
    to: f64,
    begins: f64,
    ends: f64,
}

impl Ramp {
    /// One that stays.
    pub const fn still(at: f64) -> Self {
        Self { from: at, to: at, begins: 0.0, ends: 0.0 }
    }

    /// From wherever this one is at a time, to a factor, within so many seconds.
    #[must_use]
    pub fn onward(&self, to: f64, time: f64, lasts: f64) -> Self {
        Self { from: self.at(time), to, begins: time, ends: time + lasts.max(0.0) }
    }

    /// The factor at a time, s.
    pub fn at(&self, time: f64) -> f64 {
        if time >= self.ends {
            return self.to;
        }
        let share = ((time - self.begins) / (self.ends - self.begins)).clamp(0.0, 1.0);
        self.from + share * (self.to - self.from)
    }

    /// Where it ends, and when, s.
    pub fn end(&self) -> (f64, f64) {
        (self.to, self.ends)
    }
}
