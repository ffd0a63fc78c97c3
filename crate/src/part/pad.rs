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
