//! A pad: resistors that lower a level.

use crate::catalogue::Series;
use crate::network::{Element, OnePort, Path};

/// How a resistor of a pad stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// In series with the signal; in a balanced pad half of it in each leg.
    Series,
    /// Across the signal.
    Shunt,
}

/// A pad as a ladder of resistors, unbalanced (L, T, pi) or balanced (U, H, O).
#[derive(Clone, Debug, PartialEq)]
pub struct Pad {
    /// From the source to the load: where each stands, and its resistance in Ω,
    /// both legs together. A series one may be zero and a shunt one infinite:
    /// it is then left out.
    pub resistors: Vec<(Place, f64)>,
    /// Whether its series resistors are split over two legs.
    pub balanced: bool,
}

impl Pad {
    /// What a resistor to be soldered in has of the resistance of its place.
    pub fn share(&self, place: Place) -> f64 {
        if self.balanced && place == Place::Series { 0.5 } else { 1.0 }
    }

    /// The same pad with each resistor to be soldered in taken from a series.
    #[must_use]
    pub fn rounded(&self, series: Series) -> Self {
        let round = |&(place, r): &(Place, f64)| {
            let share = self.share(place);
            (place, series.nearest(r * share) / share)
        };
        Self { resistors: self.resistors.iter().map(round).collect(), balanced: self.balanced }
    }

    /// From a source resistance through the pad into a load resistance, Ω.
    pub fn path(&self, source: f64, load: f64) -> Path {
        let path = Path::new(OnePort::resistor(source), OnePort::resistor(load));
        self.resistors.iter().fold(path, |path, &(place, r)| match place {
            Place::Series => path.with("part-pad-series", Element::Series(OnePort::resistor(r))),
            Place::Shunt => path.with("part-pad-shunt", Element::Shunt(OnePort::resistor(r))),
        })
    }
}

/// The arms of an L pad.
#[derive(Clone, Debug, PartialEq)]
pub struct Arms {
    /// In series with the signal.
    pub series: OnePort,
    /// Across the console's input.
    pub shunt: OnePort,
}

impl Arms {
    /// So much of both; nothing at 0.
    pub(super) fn grown(&self, share: f64) -> Option<Self> {
        (share > 0.0).then(|| Self { series: self.series.times(share), shunt: self.shunt.times(1.0 / share) })
    }
}

/// The formulas of an L pad, its series resistor towards the source: what it
/// shows there, the voltage into it over that out of it, and the load that it is
/// made for, each a formula too.
///
/// The current of the source goes through the series resistor, which takes all
/// of the voltage but 1/factor of it; what the load leaves of it is the shunt's.
#[derive(Clone, Copy)]
pub(crate) struct LPad<'a> {
    pub shown: &'a str,
    pub factor: &'a str,
    pub load: &'a str,
}

impl LPad<'_> {
    /// Resistance of the series resistor.
    pub(crate) fn series(&self) -> String {
        let Self { shown, factor, .. } = self;
        format!("{shown}*(1 - 1/{factor})")
    }

    /// Conductance of the shunt resistor.
    pub(crate) fn shunt(&self) -> String {
        let Self { shown, factor, load } = self;
        format!("{factor}/{shown} - 1/{load}")
    }

    /// The least factor, where nothing is left for the shunt resistor.
    pub(crate) fn least_factor(&self) -> String {
        format!("{}/{}", self.shown, self.load)
    }

    /// The most that one of this factor shows, which is where it has that least
    /// factor, Ω.
    pub(crate) fn most_shown(factor: f64, load: f64) -> f64 {
        factor * load
    }
}
