//! The rig of the fields.

use crate::fault::Fault;
use crate::field::Values;
use crate::field::direct_box::{
    BOX, BoxKind, BoxSupply, GROUND, Ground, LIFTED_SUPPLY, LiftedSupply, POWERED, between,
};
use crate::field::lead::lead;
use crate::field::loudspeaker::take_off;
use crate::field::pad::pad;
use crate::field::run::{RUN, Run, run};
use crate::field::source::{coupled, source};
use crate::field::split::split;
use crate::field::thru::thru;
use crate::part::{Between, Input, Rig};
use crate::working::Working;

/// What a box cannot do, said beside the field where it can be mended.
pub(super) fn check(values: &Values) -> Result<(), Fault> {
    if values.choice(BOX)? != BoxKind::Active {
        return Ok(());
    }
    let starves = values.choice(LIFTED_SUPPLY)? == LiftedSupply::Lost;
    match (values.choice(POWERED)?, values.choice(RUN)?, values.choice(GROUND)?) {
        (BoxSupply::Phantom, Run::Unbalanced, _) => Err(RUN.fault("fault-phantom-run")),
        (BoxSupply::Phantom, Run::Balanced, Ground::Lifted) if starves => Err(GROUND.fault("fault-phantom-lift")),
        (BoxSupply::Battery, Run::Unbalanced, Ground::Lifted) => Err(GROUND.fault("fault-lift-run")),
        (_, Run::Balanced, _) | (BoxSupply::Battery, Run::Unbalanced, Ground::Joined) => Ok(()),
    }
}

/// The rig of the fields with this input of the console.
pub(super) fn rig(values: &Values, working: &mut Working, console: Input) -> Result<Rig, Fault> {
    let lead = lead(values)?;
    let between = between(values, false)?;
    let thru = if between == Between::Nothing { split(values)? } else { thru(values, lead, &between)? };
    let take_off = if between == Between::Nothing { None } else { take_off(values)? };
    let (source, pad) = (coupled(values, source(values)?)?, pad(values, working)?);
    Ok(Rig { source, lead, thru, take_off, between, run: run(values)?, pad, console })
}
