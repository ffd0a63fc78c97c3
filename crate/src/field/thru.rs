//! A thru output, from where an amplifier is fed.

use super::lead::LEAD_LENGTH;
use super::{ChoiceField, Field, Values, choice};
use crate::fault::Fault;
use crate::network::OnePort;
use crate::part::{self, Between, Lead};
use crate::quantity::Unit;

choice! {
    /// What a thru feeds.
    pub(crate) enum ThruLoad {
        /// Nothing.
        None = "none",
        /// An amplifier on a safety earth.
        Earthed = "earthed",
        /// One on the safety earth of the source, from the same distribution.
        Same = "same",
        /// One without any way to earth.
        Floating = "floating",
    }
}

impl ThruLoad {
    /// Whether it ties another earth to the line.
    pub(crate) fn is_earthed(self) -> bool {
        match self {
            Self::Earthed | Self::Same => true,
            Self::None | Self::Floating => false,
        }
    }
}

/// Where something is plugged in.
pub(crate) const FEEDING: &[&str] = &[ThruLoad::Earthed.id(), ThruLoad::Same.id(), ThruLoad::Floating.id()];

/// Where that is tied to an earth.
pub(crate) const TIED: &[&str] = &[ThruLoad::Earthed.id(), ThruLoad::Same.id()];

/// What the thru feeds.
pub(crate) const THRU: ChoiceField<ThruLoad> = ThruLoad::field("thru", ThruLoad::None).at("thru");
/// Length of its lead, m.
pub(crate) const THRU_LENGTH: Field = LEAD_LENGTH.named("thru_length", "l_A").when(THRU, FEEDING).at("thru");
/// Input resistance of the amplifier, Ω.
pub(crate) const AMP_R: Field = Field::number("amp_r", "R_amp", Unit::Ohm, 1e6, (100e3, 10e6))
    .limits(1e-3, 1e12)
    .when(THRU, FEEDING)
    .detail()
    .at("thru");
/// Input capacitance of the amplifier, F.
pub(crate) const AMP_C: Field = Field::number("amp_c", "C_A", Unit::Farad, 50e-12, (0.0, 1e-9))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .when(THRU, FEEDING)
    .detail()
    .at("thru");

/// The thru of a box, with a lead like `lead`; nothing where it feeds nothing, or where
/// there is no box to have one.
pub(crate) fn thru(values: &Values, lead: Lead, between: &Between) -> Result<Option<part::Thru>, Fault> {
    Ok(match (values.choice(THRU)?, between) {
        (ThruLoad::None, _) | (_, Between::Nothing) => None,
        (ThruLoad::Earthed | ThruLoad::Same | ThruLoad::Floating, Between::Passive(_) | Between::Active(_)) => {
            Some(part::Thru {
                lead: Lead { length: values.number(THRU_LENGTH)?, ..lead },
                input: OnePort::parallel_rc(values.number(AMP_R)?, values.number(AMP_C)?),
            })
        }
    })
}
