//! The circuits of a show: their earths, and what lies between two of them.

use super::fill::quantity;
use super::show::{Circuit, Show};
use crate::quantity::Unit;

/// Resistance of the protective earth of equipment up to its distribution, Ω (some
/// metres of flexible lead with its plugs; common practice, no source).
pub(super) const PROTECTIVE_R: f64 = 0.05;
/// Resistance of the path of a circuit's earth to that of the venue where nobody knows
/// it, Ω (common practice, no source).
const PATH_R: f64 = 0.2;

impl Circuit {
    /// From its earth to the one that all of them are measured against, V; nothing
    /// where that is not understood.
    pub(super) fn volts(&self, show: &Show) -> Option<f64> {
        let text = self.difference.trim();
        if text.is_empty() { Some(0.0) } else { quantity(show, text, Unit::Volt).map(f64::abs) }
    }

    /// Resistance of the path of its earth to the earth of the venue, Ω.
    pub(super) fn path_r(&self, show: &Show) -> f64 {
        quantity(show, &self.earth_r, Unit::Ohm).unwrap_or(PATH_R).abs()
    }
}

/// What lies between the earths of equipment on two circuits.
pub(super) struct Between {
    /// V: nothing on one circuit, else the most that both differences together can
    /// make, since nobody knows their phases.
    pub volts: f64,
    /// Of the earths of both pieces of equipment with the paths between their circuits, Ω.
    pub earth_r: f64,
}

impl Between {
    /// Two circuits, where both are known.
    pub(super) fn of(show: &Show, one: &str, other: &str) -> Option<Self> {
        let (a, b) = (show.circuit(one)?, show.circuit(other)?);
        let (volts, paths) = if one == other {
            (0.0, 0.0)
        } else {
            (a.volts(show)? + b.volts(show)?, a.path_r(show) + b.path_r(show))
        };
        Some(Self { volts, earth_r: 2.0 * PROTECTIVE_R + paths })
    }
}
