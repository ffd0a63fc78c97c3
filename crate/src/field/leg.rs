//! The two legs of a balanced source, and what is out of balance in them.

use super::{ChoiceField, Field, choice};
use crate::catalogue::typical;
use crate::quantity::Unit;

choice! {
    /// How the legs of a balanced line are driven.
    pub(crate) enum DriveKind {
        /// Both, half and half.
        Both = "both",
        /// The hot one; the cold one has its impedance but no signal.
        One = "one",
        /// The hot one of two halves; the cold one is on the source's earth.
        Grounded = "grounded",
        /// The hot one, from an unbalanced output whose return is the cold one.
        Unbalanced = "unbalanced",
        /// Both, from a source that floats.
        Floating = "floating",
        /// A floating source whose cold end is put on its earth.
        FloatingGrounded = "floating_grounded",
    }
}

/// How the legs are driven.
pub(crate) const DRIVE: ChoiceField<DriveKind> = DriveKind::field("drive", DriveKind::Both).at("source");
/// Source resistance of one leg, Ω.
pub(crate) const LEG_R: Field =
    Field::number("leg_r", "R_S", Unit::Ohm, 75.0, (10.0, 1e3)).limits(0.0, 1e6).marks(typical::LEG_R).at("source");
/// Difference between the source resistances of the legs, Ω.
pub(crate) const IMBALANCE: Field =
    Field::number("imbalance", "ΔR", Unit::Ohm, 10.0, (0.0, 50.0)).limits(0.0, 1e6).exact().at("source");
/// From the middle of a floating source to its earth, F.
pub(crate) const FLOATING_C: Field = Field::number("floating_c", "C_F", Unit::Farad, 100e-12, (2e-12, 1e-9))
    .limits(1e-16, 1e-3)
    .exact()
    .bare(1e-12)
    .marks(typical::WINDING_C)
    .when(DRIVE, &[DriveKind::Floating.id()])
    .at("source");
