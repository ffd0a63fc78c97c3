//! What may be wrong with a line.
//!
//! How common each is, how it sounds and how long its cure takes are judgement: nobody
//! has published how often what breaks on a stage. The reader may change them, and they
//! count for nothing where the line has no such part.

use super::rig::Rig;
use super::symptom::Symptom::{
    self, Buzz, Crackle, Dead, Distorted, Dull, Hiss, Hum, Intermittent, Quiet, Radio, Thin, Thump, Whine,
};

/// Where on the way of the signal a cause sits, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// At the source.
    Source,
    /// On the first lead.
    FirstLead,
    /// On the lead to an amplifier, or there.
    Thru,
    /// At the box.
    Box,
    /// On the run to the console.
    Run,
    /// At the console's input.
    Input,
    /// Behind the channel.
    Beyond,
}

impl Place {
    /// Its identifier.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Source => "source",
            Self::FirstLead => "first-lead",
            Self::Thru => "thru",
            Self::Box => "box",
            Self::Run => "run",
            Self::Input => "input",
            Self::Beyond => "beyond",
        }
    }
}

/// Something that may be wrong.
#[derive(Debug)]
pub struct CauseKind {
    /// Its identifier, part of links and of what a device has counted.
    pub id: &'static str,
    /// Where it sits.
    pub place: Place,
    /// How common it is beside the others, of all faults of a line that has such a part.
    pub weight: f64,
    /// Its cure by name; causes of the same cure need not be told apart.
    pub cure: &'static str,
    /// How long that takes, with a look whether it helped, minutes.
    pub repair: f64,
    /// Whether its cure is done by turning or moving something: nothing is plugged,
    /// lifted, padded or fed.
    pub by_hand: bool,
    /// How often it sounds like that.
    pub sounds: &'static [(Symptom, f64)],
    /// How often it is on one channel, on several, on all.
    pub scope: [f64; 3],
    /// Whether a line can have it.
    pub when: fn(&Rig) -> bool,
}

const ONE: [f64; 3] = [0.95, 0.04, 0.01];
const MOSTLY_ONE: [f64; 3] = [0.7, 0.25, 0.05];
const SHARED: [f64; 3] = [0.3, 0.5, 0.2];
const ALL: [f64; 3] = [0.04, 0.16, 0.8];

const fn any(_: &Rig) -> bool {
    true
}

/// Shorthand for a row of the table.
const fn cause(
    id: &'static str,
    place: Place,
    weight: f64,
    repair: f64,
    sounds: &'static [(Symptom, f64)],
    scope: [f64; 3],
    when: fn(&Rig) -> bool,
) -> CauseKind {
    CauseKind { id, place, weight, cure: id, repair, by_hand: false, sounds, scope, when }
}

impl CauseKind {
    /// The same, mended by a cure that others have too.
    const fn mended_by(self, cure: &'static str) -> Self {
        Self { cure, ..self }
    }

    /// The same, mended by turning or moving something.
    const fn by_hand(self) -> Self {
        Self { by_hand: true, ..self }
    }
}

/// All that may be wrong.
pub const CAUSES: &[CauseKind] = &[
    // Earths and what is around.
    cause("loop", Place::Run, 10.0, 1.5, &[(Hum, 0.5), (Buzz, 0.5)], MOSTLY_ONE, |rig| rig.source_is_earthed),
    cause("loop-thru", Place::Thru, 9.0, 1.5, &[(Hum, 0.5), (Buzz, 0.5)], ONE, |rig| rig.thru_is_earthed),
    cause("loop-split", Place::Run, 5.0, 3.0, &[(Hum, 0.5), (Buzz, 0.5)], SHARED, |rig| rig.is_split),
    cause("leakage", Place::Source, 14.0, 1.5, &[(Buzz, 0.6), (Hum, 0.2), (Whine, 0.2)], ONE, |rig| rig.source_leaks),
    cause("computer", Place::Source, 8.0, 2.0, &[(Whine, 0.8), (Buzz, 0.2)], ONE, |rig| rig.source_has_supply)
        .mended_by("leakage"),
    cause("field", Place::FirstLead, 5.0, 1.0, &[(Hum, 0.6), (Buzz, 0.4)], MOSTLY_ONE, |rig| rig.first_is_unbalanced)
        .by_hand(),
    cause("coil", Place::Source, 7.0, 1.0, &[(Hum, 0.6), (Buzz, 0.4)], ONE, |rig| rig.is_pickup).by_hand(),
    cause("di-field", Place::Box, 3.0, 0.5, &[(Hum, 0.8), (Buzz, 0.2)], ONE, |rig| rig.has_passive_box).by_hand(),
    cause("dimmer", Place::FirstLead, 4.0, 4.0, &[(Buzz, 0.9), (Whine, 0.1)], SHARED, any).by_hand(),
    cause("radio", Place::FirstLead, 1.5, 5.0, &[(Radio, 0.9), (Whine, 0.1)], MOSTLY_ONE, any),
    cause("telephone", Place::FirstLead, 3.0, 0.5, &[(Radio, 0.9), (Buzz, 0.1)], MOSTLY_ONE, any).by_hand(),
    cause("pin-1", Place::Run, 1.5, 10.0, &[(Buzz, 0.5), (Hum, 0.4), (Whine, 0.1)], ONE, |rig| {
        rig.run_is_balanced && rig.shield_carries_current()
    }),
    cause("lift-off", Place::Box, 4.0, 0.3, &[(Hum, 0.5), (Buzz, 0.5)], ONE, |rig| {
        rig.is_lifted() && rig.shield_carries_current()
    }),
    cause(
        "shared",
        Place::Run,
        3.0,
        5.0,
        &[(Hum, 0.3), (Buzz, 0.2), (Dead, 0.3), (Crackle, 0.2)],
        [0.1, 0.6, 0.3],
        any,
    ),
    // Leads and plugs.
    cause(
        "lead-shield",
        Place::FirstLead,
        4.0,
        1.5,
        &[(Hum, 0.35), (Buzz, 0.45), (Dead, 0.1), (Intermittent, 0.1)],
        ONE,
        |rig| rig.has_first_lead,
    )
    .mended_by("first-lead"),
    cause("lead-core", Place::FirstLead, 6.0, 1.5, &[(Dead, 0.6), (Buzz, 0.25), (Intermittent, 0.15)], ONE, |rig| {
        rig.has_first_lead
    })
    .mended_by("first-lead"),
    cause("lead-short", Place::FirstLead, 2.0, 1.5, &[(Dead, 0.85), (Intermittent, 0.15)], ONE, |rig| {
        rig.has_first_lead
    })
    .mended_by("first-lead"),
    cause(
        "lead-contact",
        Place::FirstLead,
        9.0,
        1.5,
        &[(Crackle, 0.6), (Intermittent, 0.35), (Dead, 0.05)],
        ONE,
        |rig| rig.has_first_lead,
    )
    .mended_by("first-lead"),
    cause(
        "run-shield",
        Place::Run,
        2.0,
        3.0,
        &[(Hum, 0.3), (Buzz, 0.3), (Dead, 0.2), (Radio, 0.1), (Intermittent, 0.1)],
        ONE,
        any,
    )
    .mended_by("run"),
    cause(
        "run-leg",
        Place::Run,
        4.0,
        3.0,
        &[(Quiet, 0.35), (Thin, 0.25), (Dead, 0.2), (Hum, 0.1), (Intermittent, 0.1)],
        ONE,
        |rig| rig.run_is_balanced,
    )
    .mended_by("run"),
    cause("run-short", Place::Run, 1.5, 3.0, &[(Dead, 0.6), (Quiet, 0.3), (Intermittent, 0.1)], ONE, any)
        .mended_by("run"),
    cause("run-contact", Place::Run, 5.0, 3.0, &[(Crackle, 0.55), (Intermittent, 0.4), (Dead, 0.05)], ONE, any)
        .mended_by("run"),
    cause("polarity", Place::Run, 1.5, 2.0, &[(Thin, 1.0)], ONE, |rig| rig.run_is_balanced),
    // Supplies.
    cause("no-phantom", Place::Input, 8.0, 0.5, &[(Dead, 0.8), (Quiet, 0.1), (Distorted, 0.1)], MOSTLY_ONE, |rig| {
        rig.wants_phantom
    }),
    cause(
        "phantom",
        Place::Input,
        2.0,
        0.5,
        &[(Thump, 0.45), (Crackle, 0.28), (Distorted, 0.24), (Hum, 0.03)],
        ONE,
        |rig| rig.phantom_is_a_risk,
    ),
    cause("battery", Place::Box, 5.0, 2.0, &[(Distorted, 0.45), (Dead, 0.3), (Quiet, 0.25)], ONE, |rig| {
        rig.has_battery
    }),
    // Levels and inputs.
    cause("clip-box", Place::Box, 3.0, 0.5, &[(Distorted, 1.0)], ONE, |rig| rig.has_active_box),
    cause("clip-input", Place::Input, 6.0, 0.5, &[(Distorted, 1.0)], MOSTLY_ONE, any).by_hand(),
    cause("pad", Place::Box, 3.0, 0.5, &[(Quiet, 0.6), (Hiss, 0.4)], ONE, any),
    cause("gain", Place::Input, 5.0, 1.0, &[(Hiss, 0.8), (Quiet, 0.2)], ONE, any).by_hand(),
    cause("wrong-input", Place::Input, 5.0, 1.5, &[(Quiet, 0.4), (Hiss, 0.2), (Dead, 0.3), (Distorted, 0.1)], ONE, any)
        .mended_by("patch"),
    cause("patch", Place::Input, 6.0, 1.0, &[(Dead, 0.9), (Quiet, 0.1)], MOSTLY_ONE, any),
    cause("muted", Place::Input, 9.0, 0.3, &[(Dead, 0.9), (Quiet, 0.1)], MOSTLY_ONE, any).by_hand(),
    cause("switch", Place::Source, 4.0, 0.3, &[(Dead, 0.65), (Intermittent, 0.3), (Quiet, 0.05)], ONE, |rig| {
        rig.kind == "microphone"
    })
    .by_hand(),
    cause("volume", Place::Source, 6.0, 0.3, &[(Dead, 0.5), (Quiet, 0.35), (Dull, 0.15)], ONE, |rig| rig.has_controls)
        .by_hand(),
    // Switching.
    cause("hot-plug", Place::Input, 6.0, 0.3, &[(Thump, 1.0)], MOSTLY_ONE, any).by_hand(),
    cause("power-order", Place::Beyond, 3.0, 1.0, &[(Thump, 1.0)], ALL, any).by_hand(),
    // Tone.
    cause("eq", Place::Input, 5.0, 0.3, &[(Dull, 0.5), (Thin, 0.4), (Quiet, 0.1)], ONE, any).by_hand(),
    cause("twice", Place::Beyond, 4.0, 0.3, &[(Thin, 1.0)], MOSTLY_ONE, any).by_hand(),
    cause("load", Place::Box, 5.0, 2.0, &[(Dull, 0.45), (Thin, 0.4), (Quiet, 0.15)], ONE, |rig| rig.is_high_impedance),
    cause("long-lead", Place::FirstLead, 3.0, 2.0, &[(Dull, 1.0)], ONE, |rig| rig.is_high_impedance),
    // The source, and all that lies behind the channel.
    cause(
        "source",
        Place::Source,
        6.0,
        5.0,
        &[(Hiss, 0.3), (Dead, 0.2), (Distorted, 0.15), (Crackle, 0.15), (Buzz, 0.1), (Hum, 0.1)],
        ONE,
        any,
    ),
    cause(
        "beyond",
        Place::Beyond,
        6.0,
        8.0,
        &[(Hum, 0.25), (Buzz, 0.25), (Hiss, 0.25), (Dead, 0.1), (Distorted, 0.05), (Crackle, 0.05), (Whine, 0.05)],
        ALL,
        any,
    ),
];
