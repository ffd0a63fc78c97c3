//! The mains of a show: components, and what supplies leak.

use crate::calculator::whole_line::CALCULATOR;
use crate::field::Values;
use crate::field::earth::{LEAKAGE_VOLTS, SUPPLY_LEAKAGE};
use crate::field::mains::{mains, spectrum};
use crate::part::Spectrum;
use crate::quantity::read;
use crate::stage::fill::filled;
use crate::stage::ground::{Harmonic, Leakage, Wave};
use crate::stage::show::{Equipment, EquipmentPower, InputLine, Show};
use std::f64::consts::TAU;

/// What drives the currents of a show.
pub(super) struct Mains {
    pub frequency: f64,
    pub spectrum: Spectrum,
    /// What leaks where nobody says, A.
    leakage: f64,
    /// The voltage behind it, V.
    leakage_volts: f64,
}

impl Mains {
    /// As the limits of a show have it for all lines; nothing where these contradict
    /// each other.
    pub(super) fn of(show: &Show) -> Option<Self> {
        let values = filled(show, &InputLine::default());
        let (values, _) = Values::read(&CALCULATOR, &values, &show.settings());
        Some(Self {
            frequency: mains(&values).ok()?,
            spectrum: spectrum(&values).ok()?,
            leakage: values.number(SUPPLY_LEAKAGE).ok()?,
            leakage_volts: values.number(LEAKAGE_VOLTS).ok()?,
        })
    }

    pub(super) fn orders(&self) -> Vec<u32> {
        self.spectrum.0.iter().map(|part| part.order).collect()
    }

    /// The harmonics of the difference between two earths.
    pub(super) fn wave(&self) -> Wave {
        self.ratios(|_| 1.0)
    }

    /// What the supply of equipment leaks, A, if it does.
    pub(super) fn leaks(&self, show: &Show, equipment: &Equipment) -> Option<f64> {
        // A bare number is what it is in the field that a line puts it into.
        let field = SUPPLY_LEAKAGE.kind.number();
        let said = field.and_then(|field| read(&equipment.leakage, field.unit, field.bare, &show.settings()).ok());
        let amperes = said.map_or(self.leakage, |said| said.value.abs());
        (equipment.power == EquipmentPower::Insulated && amperes > 0.0).then_some(amperes)
    }

    /// So many amperes that return to a distribution.
    pub(super) fn leakage(&self, amperes: f64, from: usize) -> Leakage {
        let capacitance = amperes / (TAU * self.frequency * self.leakage_volts);
        // The levels of the whole line are those of the current, which is that of the
        // voltage times the order.
        Leakage { amperes, capacitance, from, wave: self.ratios(|order| 1.0 / f64::from(order)) }
    }

    fn ratios(&self, re: impl Fn(u32) -> f64) -> Wave {
        let harmonic = |order, share: f64| Harmonic { order, ratio: share * re(order), phase: 0.0 };
        Wave(self.spectrum.0.iter().map(|part| harmonic(part.order, part.share)).collect())
    }
}
