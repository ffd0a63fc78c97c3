//! What a line is, as far as its faults go.

use super::computed::Act;
use crate::calculator::whole_line::CALCULATOR;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::earth::{POWER, Power};
use crate::field::lead::LEAD_LENGTH;
use crate::field::microphone::{MICROPHONE_KIND, MicrophoneKind};
use crate::field::run::{RUN, Run};
use crate::field::source::{SOURCE, SourceKind};
use crate::field::split::{SPLIT, Split};
use crate::field::thru::{THRU, ThruLoad};
use crate::report::{Depth, Solution};

/// A line, as the whole line has it, with what its faults depend on.
#[derive(Clone, Debug)]
#[allow(clippy::struct_excessive_bools, reason = "each is a question of its own, none is a state")]
pub struct Rig {
    /// Its values.
    pub(super) values: Values,
    /// The same, solved.
    pub(super) solved: Solution,
    /// What a source is: a passive pickup.
    pub(super) is_pickup: bool,
    /// A source that a lead or a load can dull.
    pub(super) is_high_impedance: bool,
    /// One with volume and tone of its own.
    pub(super) has_controls: bool,
    /// One that the mains may feed.
    pub(super) source_has_supply: bool,
    /// One that stands on an earth.
    pub(super) source_is_earthed: bool,
    /// The output of a power amplifier.
    pub(super) is_loudspeaker: bool,
    /// What it is called: `instrument`, `microphone`, `device` or `loudspeaker`.
    pub(super) kind: &'static str,
    /// One whose supply leaks.
    pub(super) source_leaks: bool,
    /// One that other leads join to an earth: a screen, a network.
    pub(super) is_linked: bool,
    /// There is a lead before the box, or before the console where there is none.
    pub(super) has_first_lead: bool,
    /// And its shield carries the signal back.
    pub(super) first_is_unbalanced: bool,
    /// A box.
    pub(super) has_box: bool,
    /// One with an amplifier.
    pub(super) has_active_box: bool,
    /// One with a transformer.
    pub(super) has_passive_box: bool,
    /// One with a battery.
    pub(super) has_battery: bool,
    /// An amplifier stands on the thru.
    pub(super) has_thru: bool,
    /// One that stands on an earth.
    pub(super) thru_is_earthed: bool,
    /// A second console is joined by a lead.
    pub(super) is_split: bool,
    /// The run has two legs.
    pub(super) run_is_balanced: bool,
    /// Something on the line works from phantom.
    pub(super) wants_phantom: bool,
    /// Phantom would stand on an output that takes none.
    pub(super) phantom_is_a_risk: bool,
}

/// What a source is called on a stage.
fn kind_of(source: SourceKind) -> &'static str {
    match source {
        SourceKind::Pickup | SourceKind::Piezo => "instrument",
        SourceKind::Microphone => "microphone",
        SourceKind::Output | SourceKind::Balanced => "device",
        SourceKind::Loudspeaker => "loudspeaker",
    }
}

impl Rig {
    /// The rig of checked values of the whole line.
    ///
    /// # Errors
    /// What is wrong with the values.
    pub fn of(values: Values) -> Result<Self, Fault> {
        let solved = CALCULATOR.solution(&values, Depth::Readings)?;
        let (source, boxed) = (values.choice(SOURCE)?, values.choice(BOX)?);
        let power = if source.has_supply() { values.choice(POWER)? } else { Power::Floating };
        let has_box = boxed != BoxKind::None;
        let by_phantom = boxed == BoxKind::Active && values.choice(POWERED)? == BoxSupply::Phantom;
        let condenser =
            source == SourceKind::Microphone && values.choice(MICROPHONE_KIND)? == MicrophoneKind::Condenser;
        let wants_phantom = by_phantom || (condenser && !has_box);
        Ok(Self {
            is_pickup: source == SourceKind::Pickup,
            is_high_impedance: matches!(source, SourceKind::Pickup | SourceKind::Piezo),
            has_controls: matches!(source, SourceKind::Pickup | SourceKind::Output),
            is_loudspeaker: source == SourceKind::Loudspeaker,
            kind: kind_of(source),
            source_has_supply: power != Power::Floating,
            source_is_earthed: power.is_earthed(),
            source_leaks: power == Power::Leaking,
            is_linked: power == Power::Linked,
            has_first_lead: values.number(LEAD_LENGTH)? > 0.0,
            first_is_unbalanced: !source.is_balanced() && values.number(LEAD_LENGTH)? > 0.0,
            has_box,
            has_active_box: boxed == BoxKind::Active,
            has_passive_box: boxed == BoxKind::Passive,
            has_battery: boxed == BoxKind::Active && !by_phantom,
            has_thru: has_box && values.choice(THRU)? != ThruLoad::None,
            thru_is_earthed: has_box && values.choice(THRU)?.is_earthed(),
            is_split: values.choice(SPLIT)? == Split::Direct,
            run_is_balanced: values.choice(RUN)? == Run::Balanced,
            wants_phantom,
            phantom_is_a_risk: !wants_phantom && kind_of(source) == "device" && boxed != BoxKind::Passive,
            values,
            solved,
        })
    }

    /// Whether something drives a current through the shield of the run, where that joins
    /// both ends.
    pub(super) fn shield_carries_current(&self) -> bool {
        self.source_is_earthed || self.source_leaks || self.thru_is_earthed || self.is_split
    }

    /// Whether the box is meant to have its ground lifted.
    pub(super) fn is_lifted(&self) -> bool {
        self.has_box && self.values.choice(GROUND).is_ok_and(|ground| ground == Ground::Lifted)
    }

    /// A reading of the line after an act, if it has a number.
    pub(super) fn reading_after(&self, act: Act, id: &str) -> Option<f64> {
        let solved = CALCULATOR.solution(&act.done(&self.values), Depth::Readings).ok()?;
        solved.reading(id).and_then(|reading| reading.value)
    }

    /// By how much a loss is less after an act, dB.
    pub(super) fn gains(&self, act: Act, loss: &str) -> Option<f64> {
        Some(self.reading(loss)? - self.reading_after(act, loss)?)
    }

    /// A reading of the line, if it has a number.
    pub(super) fn reading(&self, id: &str) -> Option<f64> {
        self.solved.reading(id).and_then(|reading| reading.value)
    }
}
