//! What can be done on a stage to find a fault, and what comes of it with each cause.
//!
//! How long a test takes and what comes of it are judgement, but for what the models
//! compute ([`Rule::Computed`]).

use super::cause::Place;
use super::computed::Act;
use super::rig::Rig;
use super::symptom::Symptom::{
    self, Buzz, Crackle, Dead, Distorted, Dull, Hiss, Hum, Intermittent, Quiet, Radio, Thin, Thump, Whine,
};

/// Something to do and to look at.
#[derive(Debug)]
pub struct TestKind {
    /// Its identifier, part of links.
    pub id: &'static str,
    /// How long it takes, minutes.
    pub minutes: f64,
    /// Whether the channel is muted first: something is plugged, lifted, padded or fed.
    pub mute: bool,
    /// What may come of it, by identifier.
    pub outcomes: &'static [&'static str],
    /// The complaints that it tells something about.
    pub sounds: &'static [Symptom],
    /// Whether it can be done with a line.
    pub when: fn(&Rig) -> bool,
    /// How probable each outcome is with each cause.
    pub rule: Rule,
}

/// How probable the outcomes of a test are.
#[derive(Debug)]
pub enum Rule {
    /// What lies before this place, and what needs it, is cut off: gone, less, same.
    CutsOff(Place, &'static [&'static str]),
    /// Something known to be good takes the place of what has these causes: cured, same.
    Replaces(&'static [&'static str]),
    /// As it mostly is, and as it is with some causes.
    Known(&'static [f64], &'static [(&'static str, &'static [f64])]),
    /// Hum before and after an act, computed: gone, less, same, more. With other causes
    /// it stays the same.
    /// What is known otherwise of some causes comes before.
    Computed(Act, &'static [(&'static str, &'static [f64])]),
}

/// What comes of a cure or a change.
const CHANGE: &[&str] = &["gone", "less", "same"];
const CHANGE_OR_MORE: &[&str] = &["gone", "less", "same", "more"];
const CURE: &[&str] = &["cured", "same"];
const FOUND: &[&str] = &["changes", "same"];
const LIGHT: &[&str] = &["on", "off"];
const PLANNED: &[&str] = &["planned", "otherwise"];
const LEAD: &[&str] = &["good", "open", "short"];
const BETWEEN_EARTHS: &[&str] = &["small", "some", "dangerous"];

/// Noises: what goes away where its cause is cut off.
const NOISES: &[Symptom] = &[Hum, Buzz, Whine, Hiss, Crackle, Radio];
/// What the mains brings.
const HUMS: &[Symptom] = &[Hum, Buzz, Whine];
/// What is wrong with the signal itself.
const SIGNALS: &[Symptom] = &[Thin, Dull, Distorted, Quiet, Dead, Intermittent];
const ALL: &[Symptom] =
    &[Hum, Buzz, Whine, Hiss, Crackle, Thin, Dull, Distorted, Quiet, Dead, Radio, Intermittent, Thump];
const CONTACTS: &[Symptom] = &[Crackle, Intermittent, Dead];

const fn any(_: &Rig) -> bool {
    true
}

/// Shorthand for a row of the table: those that plug begin with a mute.
const fn plug(
    id: &'static str,
    minutes: f64,
    outcomes: &'static [&'static str],
    sounds: &'static [Symptom],
    when: fn(&Rig) -> bool,
    rule: Rule,
) -> TestKind {
    TestKind { mute: true, ..look(id, minutes, outcomes, sounds, when, rule) }
}

/// And those that only look, listen or turn a knob do not.
const fn look(
    id: &'static str,
    minutes: f64,
    outcomes: &'static [&'static str],
    sounds: &'static [Symptom],
    when: fn(&Rig) -> bool,
    rule: Rule,
) -> TestKind {
    TestKind { id, minutes, mute: false, outcomes, sounds, when, rule }
}

/// All tests.
pub const TESTS: &[TestKind] = &[
    // Where it comes in.
    look("mute", 0.1, &["gone", "same"], NOISES, any, Rule::Known(&[0.97, 0.03], &[("beyond", &[0.04, 0.96])])),
    look(
        "volume",
        0.1,
        CHANGE,
        NOISES,
        |rig| rig.has_controls,
        Rule::Known(
            &[0.03, 0.07, 0.9],
            &[
                ("coil", &[0.8, 0.15, 0.05]),
                ("source", &[0.6, 0.25, 0.15]),
                ("lead-core", &[0.03, 0.12, 0.85]),
                ("field", &[0.1, 0.35, 0.55]),
                ("radio", &[0.3, 0.3, 0.4]),
                ("telephone", &[0.3, 0.3, 0.4]),
                ("dimmer", &[0.3, 0.3, 0.4]),
            ],
        ),
    ),
    plug("source-end", 0.6, CHANGE, NOISES, |rig| rig.first_is_unbalanced && !rig.is_loudspeaker, {
        Rule::CutsOff(Place::FirstLead, &["loop", "leakage", "computer"])
    }),
    plug("box-input", 0.5, CHANGE, NOISES, |rig| rig.has_box && rig.has_first_lead, {
        Rule::CutsOff(Place::Thru, &["loop", "leakage", "computer", "dimmer"])
    }),
    plug("console-end", 0.5, CHANGE, NOISES, any, {
        Rule::CutsOff(
            Place::Input,
            &["loop", "loop-thru", "loop-split", "leakage", "computer", "phantom", "no-phantom"],
        )
    }),
    // Loops of earths, opened where it is safe to: in the signal's shield.
    plug(
        "lift",
        0.4,
        CHANGE_OR_MORE,
        HUMS,
        Act::can_lift,
        Rule::Computed(
            Act::Lift,
            &[
                ("lift-off", &[0.9, 0.06, 0.03, 0.01]),
                // Joined 7 to 22 dB from the signal, lifted 112, with 0.1 to 1 Ω in pin 1.
                ("pin-1", &[0.88, 0.07, 0.03, 0.02]),
                ("computer", &[0.4, 0.2, 0.35, 0.05]),
            ],
        ),
    ),
    plug("supply", 0.4, CHANGE_OR_MORE, HUMS, |rig| rig.source_leaks || rig.is_linked, {
        Rule::Computed(Act::FromBattery, &[("computer", &[0.7, 0.15, 0.13, 0.02])])
    }),
    plug("links", 0.5, CHANGE_OR_MORE, HUMS, |rig| rig.is_linked, {
        Rule::Known(
            &[0.02, 0.06, 0.9, 0.02],
            &[("computer", &[0.5, 0.2, 0.28, 0.02]), ("loop", &[0.8, 0.1, 0.08, 0.02])],
        )
    }),
    plug("thru", 0.5, CHANGE_OR_MORE, HUMS, |rig| rig.has_thru, Rule::Computed(Act::UnplugThru, &[])),
    look("lift-switch", 0.2, PLANNED, HUMS, Rig::is_lifted, Rule::Known(&[0.97, 0.03], &[("lift-off", &[0.08, 0.92])])),
    // More than 2 V between two earths is a fault of the mains, not of the sound. A supply
    // without an earth is not measured: its leakage alone reads half the mains.
    plug("volts-between", 4.0, BETWEEN_EARTHS, &[Hum, Buzz], |rig| rig.source_is_earthed, {
        Rule::Known(&[0.94, 0.055, 0.005], &[("loop", &[0.1, 0.86, 0.04])])
    }),
    // Fields.
    look("turn", 0.4, FOUND, HUMS, |rig| rig.is_pickup, {
        Rule::Known(&[0.05, 0.95], &[("coil", &[0.93, 0.07]), ("field", &[0.1, 0.9]), ("dimmer", &[0.3, 0.7])])
    }),
    look("move-lead", 0.5, FOUND, HUMS, |rig| rig.first_is_unbalanced, {
        Rule::Known(
            &[0.05, 0.95],
            &[
                ("field", &[0.8, 0.2]),
                ("dimmer", &[0.4, 0.6]),
                ("lead-shield", &[0.4, 0.6]),
                ("lead-core", &[0.3, 0.7]),
            ],
        )
    }),
    look("turn-di", 0.4, FOUND, HUMS, |rig| rig.has_passive_box, {
        Rule::Known(&[0.03, 0.97], &[("di-field", &[0.9, 0.1])])
    }),
    look("lights", 1.5, FOUND, HUMS, any, Rule::Known(&[0.03, 0.97], &[("dimmer", &[0.95, 0.05])])),
    look("telephones", 0.5, FOUND, &[Radio, Buzz, Whine], any, {
        Rule::Known(&[0.05, 0.95], &[("telephone", &[0.92, 0.08])])
    }),
    // Leads and plugs.
    look("wiggle-run", 0.3, FOUND, CONTACTS, |rig| !rig.has_first_lead, {
        Rule::Known(
            &[0.03, 0.97],
            &[
                ("run-contact", &[0.75, 0.25]),
                ("run-leg", &[0.3, 0.7]),
                ("run-short", &[0.2, 0.8]),
                ("run-shield", &[0.25, 0.75]),
            ],
        )
    }),
    look("wiggle", 0.4, &["first", "run", "same"], CONTACTS, |rig| rig.has_first_lead && !rig.is_loudspeaker, {
        Rule::Known(
            &[0.02, 0.02, 0.96],
            &[
                ("lead-contact", &[0.8, 0.02, 0.18]),
                ("run-contact", &[0.02, 0.75, 0.23]),
                ("lead-core", &[0.35, 0.02, 0.63]),
                ("lead-shield", &[0.3, 0.02, 0.68]),
                ("lead-short", &[0.3, 0.02, 0.68]),
                ("run-leg", &[0.02, 0.3, 0.68]),
                ("run-short", &[0.02, 0.2, 0.78]),
                ("run-shield", &[0.02, 0.25, 0.73]),
                ("source", &[0.15, 0.02, 0.83]),
            ],
        )
    }),
    plug("first-lead", 1.0, CURE, ALL, |rig| rig.has_first_lead, {
        Rule::Replaces(&["lead-shield", "lead-core", "lead-short", "lead-contact"])
    }),
    plug("run", 3.0, CURE, ALL, any, {
        Rule::Replaces(&["run-shield", "run-leg", "run-short", "run-contact", "polarity"])
    }),
    plug("box", 2.0, CURE, ALL, |rig| rig.has_box, Rule::Replaces(&["battery", "pad", "clip-box"])),
    plug("other-input", 1.0, CURE, ALL, any, Rule::Replaces(&["wrong-input", "patch", "muted", "clip-input", "gain"])),
    plug("other-source", 1.5, CURE, ALL, any, {
        // Another one on battery opens a loop too: it tells a fault of the source from one
        // of the leads, not from a loop.
        Rule::Known(
            &[0.01, 0.99],
            &[
                ("source", &[0.96, 0.04]),
                ("volume", &[0.96, 0.04]),
                ("switch", &[0.96, 0.04]),
                ("leakage", &[0.96, 0.04]),
                ("computer", &[0.96, 0.04]),
                ("coil", &[0.7, 0.3]),
                ("loop", &[0.75, 0.25]),
                ("pin-1", &[0.7, 0.3]),
            ],
        )
    }),
    plug("ohms-first", 3.0, LEAD, ALL, |rig| rig.has_first_lead, {
        Rule::Known(
            &[0.97, 0.02, 0.01],
            &[
                ("lead-shield", &[0.05, 0.94, 0.01]),
                ("lead-core", &[0.05, 0.94, 0.01]),
                ("lead-short", &[0.08, 0.01, 0.91]),
                ("lead-contact", &[0.5, 0.45, 0.05]),
            ],
        )
    }),
    plug("ohms-run", 4.0, LEAD, ALL, any, {
        Rule::Known(
            &[0.97, 0.02, 0.01],
            &[
                ("run-shield", &[0.05, 0.94, 0.01]),
                ("run-leg", &[0.05, 0.94, 0.01]),
                ("run-short", &[0.08, 0.01, 0.91]),
                ("run-contact", &[0.5, 0.45, 0.05]),
            ],
        )
    }),
    // Supplies.
    look("phantom-light", 0.1, PLANNED, &[Dead, Quiet, Distorted, Thump, Crackle, Hum], any, {
        Rule::Known(&[0.97, 0.03], &[("no-phantom", &[0.03, 0.97]), ("phantom", &[0.03, 0.97])])
    }),
    plug("phantom-volts", 2.0, &["good", "low", "none"], SIGNALS, |rig| rig.wants_phantom, {
        Rule::Known(
            &[0.95, 0.04, 0.01],
            &[
                ("no-phantom", &[0.02, 0.05, 0.93]),
                ("run-shield", &[0.05, 0.15, 0.8]),
                ("run-leg", &[0.4, 0.3, 0.3]),
                ("run-short", &[0.05, 0.25, 0.7]),
            ],
        )
    }),
    plug("battery", 1.5, CURE, SIGNALS, |rig| rig.has_battery, Rule::Replaces(&["battery"])),
    // Levels.
    look("clip-light", 0.1, LIGHT, &[Distorted], any, {
        Rule::Known(&[0.04, 0.96], &[("clip-input", &[0.9, 0.1]), ("wrong-input", &[0.6, 0.4])])
    }),
    look("gain", 0.2, CURE, &[Distorted], any, {
        Rule::Known(&[0.03, 0.97], &[("clip-input", &[0.9, 0.1]), ("wrong-input", &[0.3, 0.7])])
    }),
    look("source-level", 0.3, CURE, &[Distorted], |rig| rig.has_controls || rig.source_has_supply, {
        Rule::Known(
            &[0.03, 0.97],
            &[
                ("clip-box", &[0.92, 0.08]),
                ("clip-input", &[0.3, 0.7]),
                ("battery", &[0.5, 0.5]),
                ("source", &[0.2, 0.8]),
                ("phantom", &[0.1, 0.9]),
            ],
        )
    }),
    look("meter", 0.1, &["expected", "low", "nothing"], &[Quiet, Dead, Thin, Hiss], any, {
        Rule::Known(
            &[0.05, 0.35, 0.6],
            &[
                ("beyond", &[0.95, 0.03, 0.02]),
                ("gain", &[0.35, 0.6, 0.05]),
                ("pad", &[0.05, 0.9, 0.05]),
                ("volume", &[0.02, 0.4, 0.58]),
                ("load", &[0.2, 0.78, 0.02]),
                ("run-leg", &[0.05, 0.75, 0.2]),
                ("polarity", &[0.95, 0.04, 0.01]),
                ("wrong-input", &[0.05, 0.55, 0.4]),
                ("battery", &[0.05, 0.5, 0.45]),
                ("patch", &[0.03, 0.05, 0.92]),
                ("muted", &[0.93, 0.04, 0.03]),
                ("lead-core", &[0.02, 0.08, 0.9]),
                ("lead-short", &[0.02, 0.08, 0.9]),
                ("run-short", &[0.02, 0.2, 0.78]),
                ("no-phantom", &[0.02, 0.08, 0.9]),
            ],
        )
    }),
    look("pads", 0.3, PLANNED, &[Quiet, Hiss, Distorted], any, {
        Rule::Known(
            &[0.97, 0.03],
            &[("pad", &[0.07, 0.93]), ("clip-box", &[0.7, 0.3]), ("clip-input", &[0.8, 0.2]), ("gain", &[0.5, 0.5])],
        )
    }),
    look("patching", 0.5, PLANNED, &[Quiet, Hiss, Dead, Distorted], any, {
        Rule::Known(&[0.97, 0.03], &[("patch", &[0.08, 0.92]), ("wrong-input", &[0.1, 0.9])])
    }),
    plug("controls", 0.2, CURE, &[Quiet, Dead, Dull], |rig| rig.has_controls, {
        Rule::Known(&[0.02, 0.98], &[("volume", &[0.95, 0.05])])
    }),
    // Tone.
    look("polarity", 0.1, &["fuller", "same"], &[Thin], any, {
        Rule::Known(&[0.04, 0.96], &[("polarity", &[0.95, 0.05])])
    }),
    plug("short-lead", 1.0, CURE, &[Dull], |rig| rig.is_high_impedance && rig.has_first_lead, {
        Rule::Known(&[0.03, 0.97], &[("long-lead", &[0.9, 0.1]), ("load", &[0.05, 0.95])])
    }),
    plug("high-input", 1.5, CURE, &[Dull, Thin, Quiet], |rig| rig.is_high_impedance, {
        Rule::Known(&[0.03, 0.97], &[("load", &[0.93, 0.07]), ("long-lead", &[0.15, 0.85]), ("pad", &[0.4, 0.6])])
    }),
];
