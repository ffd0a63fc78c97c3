//! What stands between a source and the console.

use super::active_box::active_box;
use super::transformer::transformer;
use super::{ChoiceField, Values, choice};
use crate::fault::Fault;
use crate::part::Between;

choice! {
    /// What stands between a source and the console.
    pub(crate) enum BoxKind {
        /// Nothing.
        None = "none",
        /// A transformer in a box.
        Passive = "passive",
        /// A box with an amplifier.
        Active = "active",
    }
}

choice! {
    /// Where an active box gets its supply from.
    pub(crate) enum BoxSupply {
        /// From the console.
        Phantom = "phantom",
        /// From within.
        Battery = "battery",
    }
}

choice! {
    /// Whether a box joins the shields of its two sides.
    pub(crate) enum Ground {
        /// They are joined.
        Joined = "joined",
        /// No conductor is between them.
        Lifted = "lifted",
    }
}

choice! {
    /// What becomes of a phantom supply whose way back is lifted.
    pub(crate) enum LiftedSupply {
        /// Its current has no way back.
        Lost = "lost",
        /// An output transformer or an isolated converter gives it one.
        Kept = "kept",
    }
}

/// Which box there is, if any.
pub(crate) const BOX: ChoiceField<BoxKind> = BoxKind::field("box", BoxKind::Active).at("box");
/// Where there is one.
pub(crate) const BOXES: &[&str] = &[BoxKind::Passive.id(), BoxKind::Active.id()];
/// The supply of an active box.
pub(crate) const POWERED: ChoiceField<BoxSupply> =
    BoxSupply::field("powered", BoxSupply::Phantom).when(BOX, &[BoxKind::Active.id()]).at("box");
/// The ground switch of a box.
pub(crate) const GROUND: ChoiceField<Ground> =
    Ground::field("ground", Ground::Joined).when(BOX, &[BoxKind::Passive.id(), BoxKind::Active.id()]).at("box");

/// The supply of an active box on phantom whose ground is lifted.
pub(crate) const LIFTED_SUPPLY: ChoiceField<LiftedSupply> =
    LiftedSupply::field("lifted_supply", LiftedSupply::Lost).when(POWERED, &[BoxSupply::Phantom.id()]).at("box");

/// The box, the input resistance of an active one with or without noise of its own.
pub(crate) fn between(values: &Values, thermal: bool) -> Result<Between, Fault> {
    Ok(match values.choice(BOX)? {
        BoxKind::Active => Between::Active(active_box(values, thermal)?),
        BoxKind::Passive => Between::Passive(transformer(values)?),
        BoxKind::None => Between::Nothing,
    })
}
