//! The pad in front of an input.

use super::console::CONSOLE_R;
use super::{Field, Values};
use crate::catalogue::typical::PAD_LOSS;
use crate::fault::Fault;
use crate::network::OnePort;
use crate::part::{Arms, LPad};
use crate::quantity::Unit;
use crate::quantity::level::ratio;
use crate::words::Arg;
use crate::working::Working;

/// What it takes off, dB; 0 dB is no pad.
pub(crate) const PAD: Field =
    Field::number("pad", "a_P", Unit::Decibel, 0.0, (0.0, 40.0)).limits(0.0, 100.0).marks(PAD_LOSS).at("pad");
/// The resistance that it shows, Ω.
pub(crate) const PAD_R: Field =
    Field::number("pad_r", "R_pad", Unit::Ohm, 2e3, (500.0, 20e3)).limits(1.0, 1e9).detail().at("pad");

/// The pad by the symbols of these fields.
pub(crate) const INPUT_PAD: LPad = LPad { shown: "R_pad", factor: "10^(a_P/20)", load: "R_K" };

/// An L pad that shows a stated resistance and loses a stated level into the
/// console's resistance: its series and its shunt arm.
pub(crate) fn pad(values: &Values, working: &mut Working) -> Result<Option<Arms>, Fault> {
    let (loss, r, load) = (values.number(PAD)?, values.number(PAD_R)?, values.number(CONSOLE_R)?);
    working.given("R_pad", r, Unit::Ohm);
    working.given("R_K", load, Unit::Ohm);
    if loss == 0.0 {
        return Ok(None);
    }
    let most = LPad::most_shown(ratio(loss), load);
    if r > most {
        return Err(PAD_R
            .fault("fault-pad")
            .with("pad", Arg::Entry(loss, Unit::Decibel))
            .with("most", Arg::AtMost(most, Unit::Ohm)));
    }
    working.given("a_P", loss, Unit::Decibel);
    let series = working.step("pad_series", "R_1", &INPUT_PAD.series(), Unit::Ohm)?;
    let shunt = working.step("pad_shunt", "G_2", &INPUT_PAD.shunt(), Unit::Siemens)?;
    let shunt = OnePort::ParallelRlc { g: shunt.max(0.0), c: 0.0, reluctance: 0.0 };
    Ok(Some(Arms { series: OnePort::resistor(series), shunt }))
}
