//! The converter: which level is full scale, and how far its noise is under it.

use super::{ChoiceField, Field, Values, choice};
use crate::catalogue::typical::alignment;
use crate::fault::Fault;
use crate::quantity::Unit;
use crate::working::Working;

choice! {
    /// Which analogue level is full scale of the converter.
    pub(crate) enum Alignment {
        /// 0 dBu at −18 dBFS (EBU R 68).
        R68 = "r68",
        /// +4 dBu at −20 dBFS (SMPTE RP 155).
        Rp155 = "rp155",
        /// As stated.
        Own = "own",
    }
}

impl Alignment {
    /// Key of the message that says where it comes from.
    pub(crate) fn source(self) -> Option<&'static str> {
        match self {
            Self::R68 => Some("source-r68"),
            Self::Rp155 => Some("source-rp155"),
            Self::Own => None,
        }
    }
}

/// Which analogue level is full scale of the converter.
pub(crate) const ALIGNMENT: ChoiceField<Alignment> = Alignment::field("alignment", Alignment::R68).at("converter");
/// The level of full scale, dBu, where it is stated.
pub(crate) const FULL_SCALE: Field = Field::number("full_scale", "a_FS", Unit::DecibelU, 20.0, (0.0, 28.0))
    .limits(-60.0, 60.0)
    .when(ALIGNMENT, &[Alignment::Own.id()])
    .at("converter");
/// Dynamic range of the converter, dB.
pub(crate) const RANGE: Field = Field::number("range", "D", Unit::Decibel, 110.0, (90.0, 125.0))
    .limits(0.0, 200.0)
    .optional()
    .detail()
    .at("converter");

/// The level of full scale, dBu, and `a_FS` in the scope.
pub(crate) fn full_scale(values: &Values, working: &mut Working) -> Result<f64, Fault> {
    match values.choice(ALIGNMENT)? {
        Alignment::Own => {
            let own = values.number(FULL_SCALE)?;
            working.given("a_FS", own, Unit::DecibelU);
            Ok(own)
        }
        practice @ (Alignment::R68 | Alignment::Rp155) => {
            let (analogue, digital) = alignment(practice.id());
            working.given("a_al", analogue, Unit::DecibelU);
            working.given("d_al", digital, Unit::DecibelFullScale);
            working.step("full_scale_level", "a_FS", "a_al - d_al", Unit::DecibelU)
        }
    }
}
