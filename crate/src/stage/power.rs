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

/// What lies between the earths of two pieces of equipment.
pub(super) struct Between {
    /// V: nothing on one circuit, else the most that both differences together can
    /// make, since nobody knows their phases.
    pub volts: f64,
    /// Of the earths of both with the paths between their circuits, Ω.
    pub earth_r: f64,
    /// Of that, what the way to a third one has too, Ω.
    pub shared_r: f64,
}

impl Between {
    /// From one circuit to another, where both are known, beside the way from a third to there.
    pub(super) fn beside(show: &Show, one: &str, there: &str, other: Option<&str>) -> Option<Self> {
        let (a, b) = (show.circuit(one)?, show.circuit(there)?);
        if one == there {
            let shared_r = if other.is_some() { PROTECTIVE_R } else { 0.0 };
            return Some(Self { volts: 0.0, earth_r: 2.0 * PROTECTIVE_R, shared_r });
        }
        let (own, common) = (a.path_r(show), b.path_r(show));
        let shared_r = match other {
            None => 0.0,
            Some(other) if other == one => PROTECTIVE_R + common + own,
            Some(other) if other == there || show.circuit(other).is_none() => PROTECTIVE_R,
            Some(_) => PROTECTIVE_R + common,
        };
        let volts = a.volts(show)? + b.volts(show)?;
        Some(Self { volts, earth_r: 2.0 * PROTECTIVE_R + own + common, shared_r })
    }
}
