//! The hum of a whole line by harmonics of the mains.

use super::hum::Loops;
use super::rig::{check, rig};
use crate::fault::Fault;
use crate::field::Values;
use crate::field::console::console;
use crate::part::Component;
use crate::working::Working;

/// The hum at the console's input, V, by the orders of the mains' harmonics.
pub(crate) fn hum_lines(values: &Values) -> Result<Vec<(u32, f64)>, Fault> {
    check(values)?;
    let mut working = Working::new("whole-line", false);
    let console = console(values, false, &mut working)?;
    let chain = rig(values, &mut working, console)?.chain();
    let loops = Loops::new(values, &chain)?;
    let of = |part: &Component| {
        let [lead, run, stray] = loops.component(&chain, part.frequency).volts;
        (part.order, part.share * (lead + run + stray))
    };
    Ok(loops.spectrum.0.iter().map(of).collect())
}
