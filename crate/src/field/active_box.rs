//! An active box: its input, its noise, its gain and its output.

use super::direct_box::{BOX, BoxKind};
use super::{Field, Values};
use crate::catalogue::typical;
use crate::fault::Fault;
use crate::part::{ActiveBox, Input};
use crate::quantity::{Unit, level};

const THERE: &[&str] = &[BoxKind::Active.id()];

/// Input resistance, Ω.
pub(crate) const BOX_R: Field =
    Field::number("box_r", "R_B", Unit::Ohm, 1e6, (100e3, 10e6)).limits(1.0, 1e12).when(BOX, THERE).at("box");
/// Input capacitance, F.
pub(crate) const BOX_C: Field = Field::number("box_c", "C_B", Unit::Farad, 50e-12, (10e-12, 200e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .when(BOX, THERE)
    .detail()
    .at("box");
/// Voltage gain into an open output, dB.
pub(crate) const BOX_GAIN: Field = Field::number("box_gain", "g_B", Unit::Decibel, 0.0, (-20.0, 20.0))
    .limits(-100.0, 60.0)
    .marks(typical::BOX_GAIN)
    .when(BOX, THERE)
    .at("box");
/// The largest sine at its output, dBu.
pub(crate) const BOX_CLIP: Field =
    Field::number("box_clip", "a_CB", Unit::DecibelU, 8.0, (0.0, 22.0)).limits(-60.0, 60.0).when(BOX, THERE).at("box");
/// Noise voltage density referred to its input, V/√Hz.
pub(crate) const BOX_E: Field = Field::number("box_en", "e_B", Unit::VoltPerRootHertz, 10e-9, (1e-9, 50e-9))
    .limits(0.0, 1e-3)
    .bare(1e-9)
    .marks(typical::NOISE_VOLTAGE)
    .when(BOX, THERE)
    .at("box");
/// Noise current density at its input, A/√Hz.
pub(crate) const BOX_I: Field = Field::number("box_in", "i_B", Unit::AmperePerRootHertz, 0.1e-12, (1e-15, 1e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .when(BOX, THERE)
    .detail()
    .at("box");
/// Output resistance of one leg, Ω.
pub(crate) const BOX_LEG: Field = Field::number("box_leg", "R_A", Unit::Ohm, 100.0, (25.0, 300.0))
    .limits(0.0, 1e6)
    .when(BOX, THERE)
    .detail()
    .at("box");

/// The active box, its input resistance with or without noise of its own.
pub(crate) fn active_box(values: &Values, thermal: bool) -> Result<ActiveBox, Fault> {
    Ok(ActiveBox {
        input: Input {
            r: values.number(BOX_R)?,
            c: values.number(BOX_C)?,
            e_n: values.number(BOX_E)?,
            i_n: values.number(BOX_I)?,
            thermal,
        },
        gain: level::ratio(values.number(BOX_GAIN)?),
        leg_r: values.number(BOX_LEG)?,
    })
}
