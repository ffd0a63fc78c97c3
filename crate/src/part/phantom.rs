//! The feed of a phantom supply, through a resistor and a leg each, back through
//! the shield.

/// The formulas of a feed: `U_P` through `R_F` into each leg, a lead of the length
/// `l` with `R′_k` and `R′_sh` a metre of core and of shield, and the currents
/// `I_D` and `I_2` at its end.
#[derive(Clone, Copy)]
pub(crate) struct PhantomFeed {
    /// How many legs carry the current.
    pub legs: f64,
}

impl PhantomFeed {
    /// What is left of the supply behind all its resistance, `R`.
    pub(crate) const VOLTAGE: &str = "U_P - (I_D + I_2)*R";

    /// All resistance in the way of the current.
    pub(crate) fn whole_r(self) -> String {
        format!("(R_F + R′_k*l)/{} + R′_sh*l", self.legs)
    }

    /// That of the lead alone.
    pub(crate) fn lead_r(self) -> String {
        format!("R′_k*l/{} + R′_sh*l", self.legs)
    }

    /// That of a metre of it.
    pub(crate) fn lead_r_per_metre(self) -> String {
        format!("R′_k/{} + R′_sh", self.legs)
    }
}

/// Whether a fed device works.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Feeding {
    /// It has too little.
    Starved,
    /// It has enough, and too little where the supply is at its lowest.
    Tight,
    /// It always has enough.
    Runs,
}

impl Feeding {
    /// By the voltage that it has, now and on the lowest supply, and the least that
    /// it works at, V.
    pub(crate) fn by(voltage: f64, lowest: f64, least: f64) -> Self {
        match voltage {
            voltage if voltage < least => Self::Starved,
            _ if lowest < least => Self::Tight,
            _ => Self::Runs,
        }
    }
}
