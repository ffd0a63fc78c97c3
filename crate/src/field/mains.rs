//! The mains: its frequency, and the harmonics of what it drives.

use super::{ChoiceField, Field, Values, choice};
use crate::fault::Fault;
use crate::part::{Component, Spectrum};
use crate::quantity::Unit;
use crate::quantity::level::ratio;
use crate::settings::Mains;

choice! {
    /// The mains frequency.
    pub(crate) enum MainsFrequency {
        /// 50 Hz.
        Hz50 = "50",
        /// 60 Hz.
        Hz60 = "60",
    }
}

impl From<Mains> for MainsFrequency {
    fn from(mains: Mains) -> Self {
        match mains {
            Mains::Hz50 => Self::Hz50,
            Mains::Hz60 => Self::Hz60,
        }
    }
}

/// The mains frequency; where nobody says, that of the reader's settings.
pub(crate) const MAINS: ChoiceField<MainsFrequency> = MainsFrequency::field("mains", MainsFrequency::Hz50).at("mains");

const fn harmonic(id: &'static str, symbol: &'static str, level: f64) -> Field {
    Field::number(id, symbol, Unit::Decibel, level, (-60.0, 0.0)).limits(-200.0, 60.0).optional().detail().at("mains")
}

/// The harmonics of what drives a loop, dB re what it is at the mains frequency.
pub(crate) const HARMONIC_LEVELS: [Field; 6] = [
    harmonic("harmonic_2", "a_2", -40.0),
    harmonic("harmonic_3", "a_3", -6.0),
    harmonic("harmonic_5", "a_5", -12.0),
    harmonic("harmonic_7", "a_7", -18.0),
    harmonic("harmonic_9", "a_9", -24.0),
    harmonic("harmonic_11", "a_11", -30.0),
];
/// Their orders.
const ORDERS: [u32; 6] = [2, 3, 5, 7, 9, 11];

/// The mains frequency, Hz.
pub(crate) fn mains(values: &Values) -> Result<f64, Fault> {
    Ok(match values.choice(MAINS)? {
        MainsFrequency::Hz50 => 50.0,
        MainsFrequency::Hz60 => 60.0,
    })
}

/// The mains frequency and its harmonics.
pub(crate) fn spectrum(values: &Values) -> Result<Spectrum, Fault> {
    let mains = mains(values)?;
    let mut parts = vec![Component { order: 1, frequency: mains, share: 1.0 }];
    for (field, order) in HARMONIC_LEVELS.iter().zip(ORDERS) {
        if let Some(level) = values.optional(*field)? {
            parts.push(Component { order, frequency: mains * f64::from(order), share: ratio(level) });
        }
    }
    Ok(Spectrum(parts))
}
