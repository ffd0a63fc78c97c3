//! Which parts of a line take the tone that is lost on it.
//!
//! Parts take it together: a lead takes next to nothing from a pickup that a low input
//! has damped, and without that input it might take more than both do now. Leaving out
//! one part at a time says little then. So all parts grow at once from nothing to what
//! they are, and each is given what it adds on the way.

use super::line::Line;
use crate::fault::Fault;
use crate::network::lost;
use crate::numeric::shares;
use crate::part::RigPart;
use crate::quantity::Unit;
use crate::report::HEARD;
use crate::words::{Arg, Message};
use crate::working::Working;

/// A part that has more than this of a loss is named alone (common practice, no source).
const MOST: f64 = 0.6;

/// What each part takes of a loss, dB; together all of it.
pub(super) struct Blame(Vec<(RigPart, f64)>);

impl Blame {
    /// Of what the line loses at a frequency in Hz.
    pub(super) fn new(line: &Line, frequency: f64) -> Self {
        let parts = line.rig.parts();
        let shares = shares(parts.len(), |sizes| {
            let rig = parts.iter().zip(sizes).fold(line.rig.clone(), |rig, (part, size)| rig.grown(*part, *size));
            lost(&line.alone, &rig.chain(), line.tone.place, frequency)
        });
        let mut shares: Vec<_> = parts.into_iter().zip(shares).collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        Self(shares)
    }

    /// Whether the first lead takes more of it than any other part.
    pub(super) fn is_of_lead(&self) -> bool {
        matches!(self.0[..], [(RigPart::Lead, _), ..])
    }

    /// In words: the part that takes most of a loss in dB, or the two that take most of
    /// it together.
    pub(super) fn words(&self, loss: f64) -> Message {
        let said = |id: &'static str, args: &[(&'static str, Arg)]| Message::of("whole-line", id, args);
        let part = |(part, share): (RigPart, f64), [name, size]: [&'static str; 2]| {
            let key = format!("whole-line-part-{}", word(part));
            [(name, Arg::Key(key)), (size, Arg::Quantity(share, Unit::Decibel))]
        };
        match self.0[..] {
            [first, ..] if loss >= HEARD && first.1 > MOST * loss => said("by-one", &part(first, ["part", "share"])),
            [first, second, ..] if loss >= HEARD => {
                let both = [part(first, ["part", "share"]), part(second, ["other", "rest"])];
                said("by-two", both.as_flattened())
            }
            _ => said("by-nothing", &[]),
        }
    }

    /// The working of what is lost at a frequency in Hz, part by part.
    pub(super) fn working(&self, working: &mut Working, frequency: f64) -> Result<(), Fault> {
        let mut sum = String::new();
        for (part, share) in &self.0 {
            let symbol = format!("a_{}", word(*part));
            working.given(&symbol, *share, Unit::Decibel);
            sum = if sum.is_empty() { symbol } else { format!("{sum} + {symbol}") };
        }
        let f = [("f", Arg::Entry(frequency, Unit::Hertz))];
        working.step_with("loss_shares", &f, "a_sum", &sum, Unit::Decibel).map(drop)
    }
}

fn word(part: RigPart) -> &'static str {
    match part {
        RigPart::Lead => "lead",
        RigPart::Thru => "thru",
        RigPart::Box => "box",
        RigPart::Run => "run",
        RigPart::Pad => "pad",
        RigPart::Console => "console",
    }
}
