//! Phantom supply, its way, and what it feeds.

use super::{ChoiceField, Field, choice};
use crate::catalogue::phantom::{P12, P24, P48, PhantomSupply};
use crate::catalogue::typical::PHANTOM_CURRENT;
use crate::quantity::Unit;

choice! {
    /// A supply of IEC 61938.
    pub(crate) enum Supply {
        /// 48 V.
        P48 = "p48",
        /// 24 V.
        P24 = "p24",
        /// 12 V.
        P12 = "p12",
    }
}

choice! {
    /// What an input of the console supplies.
    pub(crate) enum ConsolePhantom {
        /// Nothing.
        Off = "off",
        /// 48 V.
        P48 = "p48",
        /// 24 V.
        P24 = "p24",
        /// 12 V.
        P12 = "p12",
    }
}

choice! {
    /// What the supply meets on its way.
    pub(crate) enum PhantomPath {
        /// A lead as it should be.
        Straight = "straight",
        /// A transformer.
        Transformer = "transformer",
        /// An adaptor to an unbalanced output, with one leg on the shield.
        Adaptor = "adaptor",
        /// Both legs on the shield.
        Short = "short",
        /// A lead with one leg broken.
        LegOpen = "leg_open",
        /// A lead with its shield broken.
        ShieldOpen = "shield_open",
    }
}

impl Supply {
    /// Its voltage and its feed.
    pub(crate) fn values(self) -> PhantomSupply {
        match self {
            Self::P48 => P48,
            Self::P24 => P24,
            Self::P12 => P12,
        }
    }
}

impl ConsolePhantom {
    /// The supply that is on.
    pub(crate) fn supply(self) -> Option<Supply> {
        match self {
            Self::Off => None,
            Self::P48 => Some(Supply::P48),
            Self::P24 => Some(Supply::P24),
            Self::P12 => Some(Supply::P12),
        }
    }
}

/// The supply.
pub(crate) const SUPPLY: ChoiceField<Supply> = Supply::field("supply", Supply::P48).at("supply");
/// What the console's input supplies.
pub(crate) const PHANTOM: ChoiceField<ConsolePhantom> =
    ConsolePhantom::field("phantom", ConsolePhantom::P48).at("console");
/// What the supply meets on its way.
pub(crate) const PATH: ChoiceField<PhantomPath> = PhantomPath::field("path", PhantomPath::Straight).at("lead");
/// Resistance of a metre of one core, Ω/m.
pub(crate) const CORE_R: Field =
    Field::number("core_r", "R′_k", Unit::OhmPerMetre, 0.08, (0.02, 0.15)).limits(0.0, 1e3).detail().at("lead");
/// Direct-current resistance of an output that must not have phantom, Ω; empty
/// where a capacitor blocks it.
pub(crate) const OUTPUT_R: Field = Field::blank("output_r", "R_Q", Unit::Ohm, (50.0, 10e3))
    .limits(0.0, 1e9)
    .when(PATH, &[PhantomPath::Adaptor.id()])
    .detail()
    .at("lead");
/// What a device takes, A.
pub(crate) const CURRENT: Field = Field::number("current", "I_D", Unit::Ampere, 4e-3, (0.5e-3, 10e-3))
    .limits(1e-6, 1.0)
    .bare(1e-3)
    .marks(PHANTOM_CURRENT)
    .at("device");
/// The least voltage that it works at, V.
pub(crate) const LEAST: Field =
    Field::number("least", "U_min", Unit::Volt, 20.0, (6.0, 40.0)).limits(0.0, 60.0).at("device");
