//! A second console that gets the same signal.

use super::console::{CONSOLE_C, CONSOLE_R};
use super::earth::{AMP_EARTH_R, EARTH_VOLTS, SHARED_EARTH_R};
use super::run::run;
use super::{ChoiceField, Field, Values, choice};
use crate::fault::Fault;
use crate::network::OnePort;
use crate::part::Thru;

choice! {
    /// How a second console gets the same signal.
    pub(crate) enum Split {
        /// There is none.
        None = "none",
        /// By a lead that joins all contacts.
        Direct = "direct",
        /// The same, and the second console stands on the earth of the source, or of the
        /// amplifier on its thru, from the same distribution.
        Same = "same",
        /// By a transformer, whose two sides share no ground.
        Transformer = "transformer",
    }
}

impl Split {
    /// Whether a lead joins both consoles.
    pub(crate) fn is_joined(self) -> bool {
        match self {
            Self::Direct | Self::Same => true,
            Self::None | Self::Transformer => false,
        }
    }
}

const JOINED: &[&str] = &[Split::Direct.id(), Split::Same.id()];

/// How a second console gets the same signal.
pub(crate) const SPLIT: ChoiceField<Split> = Split::field("split", Split::None).detail().at("console");
/// Voltage between the two consoles' earths, V. On the earth of the source it counts where
/// that has none.
pub(crate) const SECOND_DIFFERENCE: Field =
    EARTH_VOLTS.named("second_difference", "E_2K").when(SPLIT, JOINED).detail().at("console");
/// Resistance of the path of the second console's earth, Ω.
pub(crate) const SECOND_EARTH_R: Field = AMP_EARTH_R.named("second_earth_r", "R_E2K").when(SPLIT, JOINED).at("console");
/// Resistance of the part of the earths' paths that the second console shares with all that
/// stands before the run, in front of the first console's, Ω; empty where they share none.
pub(crate) const SECOND_SHARED_R: Field =
    SHARED_EARTH_R.named("second_shared_r", "R_ES2").when(SPLIT, JOINED).at("console");

/// The second console as a branch: a run like the first one's into an input like the
/// first one's. A transformer before it is taken as ideal and of one to one.
pub(crate) fn split(values: &Values) -> Result<Option<Thru>, Fault> {
    Ok(match values.choice(SPLIT)? {
        Split::None => None,
        Split::Direct | Split::Same | Split::Transformer => Some(Thru {
            lead: run(values)?,
            input: OnePort::parallel_rc(values.number(CONSOLE_R)?, values.number(CONSOLE_C)?),
        }),
    })
}
