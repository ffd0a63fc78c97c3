//! Adaptors, and leads between ends of different kinds. Common practice of the
//! trade where no source is named with the entry.

use super::connector::{JACK_2, JACK_3, JACK_3_SOCKET, MINI_JACK_3, XLR_FEMALE, XLR_MALE};
use super::item::{Item, Put, Shown, To};
use super::term::HALF_VOLTAGE;
use super::wiring::{Join, Plugged, Wired};
use crate::calculator::box_or_straight::{self, INSTRUMENT, Instrument};
use crate::calculator::{balance, ground_loop, phantom, source_load};
use crate::catalogue::phantom::P48;
use crate::field::connection::{CONNECTION, ConnectionKind};
use crate::field::leg::{DRIVE, DriveKind};
use crate::field::phantom::{PATH, PhantomPath};
use crate::field::source::SOURCE_R;
use crate::quantity::Unit;

/// The resistor in each output of a passive sum, Ω: small beside line inputs,
/// and twice of it is a load that line outputs drive (common practice).
const SUM_R: f64 = 1e3;

const JACK_TO_XLR: Wired = Wired {
    ends: &[Plugged::near(&JACK_2, "output"), Plugged::far(&XLR_MALE, "input")],
    joins: &[
        Join::core((0, "tip"), (1, "pin-2"), "signal"),
        Join::shield((0, "sleeve"), (1, "pin-1"), "common"),
        Join::bridge(1, "pin-3", "pin-1"),
    ],
    open: &[],
};

const TWIN_CORE: Wired = Wired {
    ends: &[Plugged::near(&JACK_2, "output"), Plugged::far(&XLR_MALE, "input")],
    joins: &[
        Join::core((0, "tip"), (1, "pin-2"), "signal"),
        Join::core((0, "sleeve"), (1, "pin-3"), "return"),
        Join::shield((0, "sleeve"), (1, "pin-1"), "shield"),
    ],
    open: &[],
};

const RETURN_OPEN: Wired = Wired {
    ends: &[Plugged::near(&XLR_FEMALE, "output"), Plugged::far(&JACK_2, "input")],
    joins: &[Join::core((0, "pin-2"), (1, "tip"), "signal"), Join::shield((0, "pin-1"), (1, "sleeve"), "common")],
    open: &[(0, "pin-3")],
};

const TWO_OUTPUTS: Wired = Wired {
    ends: &[
        Plugged::near(&JACK_2, "first-output"),
        Plugged::near(&JACK_2, "second-output"),
        Plugged::far(&JACK_2, "input"),
    ],
    joins: &[
        Join::core((0, "tip"), (2, "tip"), "first").through(SUM_R),
        Join::shield((0, "sleeve"), (2, "sleeve"), "common"),
        Join::core((1, "tip"), (2, "tip"), "second").through(SUM_R),
        Join::shield((1, "sleeve"), (2, "sleeve"), "common"),
    ],
    open: &[],
};

const STEREO_MONO: Wired = Wired {
    ends: &[Plugged::near(&MINI_JACK_3, "output"), Plugged::far(&JACK_2, "input")],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "left").through(SUM_R),
        Join::core((0, "ring"), (1, "tip"), "right").through(SUM_R),
        Join::shield((0, "sleeve"), (1, "sleeve"), "common"),
    ],
    open: &[],
};

const STEREO_TWO: Wired = Wired {
    ends: &[
        Plugged::near(&MINI_JACK_3, "output"),
        Plugged::far(&JACK_2, "left-input"),
        Plugged::far(&JACK_2, "right-input"),
    ],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "left"),
        Join::shield((0, "sleeve"), (1, "sleeve"), "common"),
        Join::core((0, "ring"), (2, "tip"), "right"),
        Join::shield((0, "sleeve"), (2, "sleeve"), "common"),
    ],
    open: &[],
};

const STEREO_TWO_XLR: Wired = Wired {
    ends: &[
        Plugged::near(&MINI_JACK_3, "output"),
        Plugged::far(&XLR_MALE, "left-input"),
        Plugged::far(&XLR_MALE, "right-input"),
    ],
    joins: &[
        Join::core((0, "tip"), (1, "pin-2"), "left"),
        Join::shield((0, "sleeve"), (1, "pin-1"), "common"),
        Join::bridge(1, "pin-3", "pin-1"),
        Join::core((0, "ring"), (2, "pin-2"), "right"),
        Join::shield((0, "sleeve"), (2, "pin-1"), "common"),
        Join::bridge(2, "pin-3", "pin-1"),
    ],
    open: &[],
};

const STEREO_IN_BALANCED: Wired = Wired {
    ends: &[Plugged::near(&MINI_JACK_3, "stereo-output"), Plugged::far(&JACK_3, "balanced-input")],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "left-in-phase"),
        Join::core((0, "ring"), (1, "ring"), "right-return"),
        Join::shield((0, "sleeve"), (1, "sleeve"), "common"),
    ],
    open: &[],
};

const TWO_POLE_IN_OUTPUT: Wired = Wired {
    ends: &[Plugged::near(&JACK_3_SOCKET, "balanced-output"), Plugged::far(&JACK_2, "lead")],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "in-phase"),
        Join::core((0, "ring"), (1, "sleeve"), "return-shorted"),
        Join::shield((0, "sleeve"), (1, "sleeve"), "common"),
    ],
    open: &[],
};

const TWO_POLE_IN_INPUT: Wired = Wired {
    ends: &[Plugged::near(&JACK_2, "lead"), Plugged::far(&JACK_3_SOCKET, "balanced-input")],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "signal"),
        Join::core((0, "sleeve"), (1, "ring"), "return-grounded"),
        Join::shield((0, "sleeve"), (1, "sleeve"), "common"),
    ],
    open: &[],
};

const INSERT: Wired = Wired {
    ends: &[
        Plugged::near(&JACK_3, "insert"),
        Plugged::far(&JACK_2, "unit-input"),
        Plugged::far(&JACK_2, "unit-output"),
    ],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "send"),
        Join::shield((0, "sleeve"), (1, "sleeve"), "common"),
        Join::core((0, "ring"), (2, "tip"), "back"),
        Join::shield((0, "sleeve"), (2, "sleeve"), "common"),
    ],
    open: &[],
};

const REVERSED: Wired = Wired {
    ends: &[Plugged::near(&XLR_FEMALE, "output"), Plugged::far(&XLR_MALE, "input")],
    joins: &[
        Join::core((0, "pin-2"), (1, "pin-3"), "in-phase"),
        Join::core((0, "pin-3"), (1, "pin-2"), "return"),
        Join::shield((0, "pin-1"), (1, "pin-1"), "shield"),
    ],
    open: &[],
};

const SHIELD_ONE_END: Wired = Wired {
    ends: &[Plugged::near(&XLR_FEMALE, "output"), Plugged::far(&XLR_MALE, "input")],
    joins: &[
        Join::core((0, "pin-2"), (1, "pin-2"), "in-phase"),
        Join::core((0, "pin-3"), (1, "pin-3"), "return"),
        Join::shield((0, "pin-1"), (1, "pin-1"), "shield").cut(),
    ],
    open: &[(1, "pin-1")],
};

/// What one leg of 48 V phantom drives into a short, A.
const SHORTED_LEG: f64 = P48.volts / P48.feed_r;

const ADAPTED: To = To::filled(&phantom::CALCULATOR, &[Put::answer(PhantomPath::Adaptor.to(PATH))]);

pub(super) static ITEMS: &[Item] = &[
    Item::new("adaptor-jack-xlr", &["source-xlr", "source-jack", "source-phantom"])
        .shows(Shown::Wiring(&JACK_TO_XLR))
        .numbers(&[("volts", P48.volts, Unit::Volt), ("current", SHORTED_LEG, Unit::Ampere)])
        .cautions(&["caution-phantom"])
        .links(&[ADAPTED, To::calculator(&box_or_straight::CALCULATOR)])
        .see(&["adaptor-twin-core", "term-phantom", "term-direct-box"]),
    Item::new("adaptor-twin-core", &["source-whitlock"])
        .shows(Shown::Wiring(&TWIN_CORE))
        .cautions(&["caution-phantom"])
        .links(&[To::filled(&balance::CALCULATOR, &[Put::answer(DriveKind::Unbalanced.to(DRIVE))]), ADAPTED])
        .see(&["adaptor-jack-xlr", "term-common-mode-rejection"]),
    Item::new("adaptor-xlr-jack", &["source-whitlock", "source-trade"])
        .shows(Shown::Wiring(&RETURN_OPEN))
        .numbers(&[("half", HALF_VOLTAGE, Unit::Decibel)])
        .cautions(&["caution-hearing"])
        .see(&["adaptor-two-pole-in-balanced-output", "term-isolator"]),
    Item::new("adaptor-two-pole-in-balanced-output", &["source-trade"])
        .shows(Shown::Wiring(&TWO_POLE_IN_OUTPUT))
        .see(&["adaptor-xlr-jack", "term-impedance-balanced"]),
    Item::new("adaptor-two-pole-in-balanced-input", &["source-trade"])
        .shows(Shown::Wiring(&TWO_POLE_IN_INPUT))
        .links(&[To::filled(&balance::CALCULATOR, &[Put::answer(DriveKind::Unbalanced.to(DRIVE))])])
        .see(&["adaptor-stereo-in-balanced", "jack-three-pole"]),
    Item::new("adaptor-stereo-in-balanced", &["source-trade"])
        .shows(Shown::Wiring(&STEREO_IN_BALANCED))
        .numbers(&[("double", HALF_VOLTAGE, Unit::Decibel)])
        .see(&["adaptor-mini-jack-two", "adaptor-stereo-mono", "term-polarity"]),
    Item::new("adaptor-mini-jack-two", &["source-trade"])
        .shows(Shown::Wiring(&STEREO_TWO))
        .links(&[To::filled(&box_or_straight::CALCULATOR, &[Put::answer(Instrument::Laptop.to(INSTRUMENT))])])
        .see(&["mini-jack", "adaptor-stereo-mono", "term-ground-loop"]),
    Item::new("adaptor-mini-jack-xlr", &["source-trade", "source-phantom"])
        .shows(Shown::Wiring(&STEREO_TWO_XLR))
        .numbers(&[("volts", P48.volts, Unit::Volt), ("current", SHORTED_LEG, Unit::Ampere)])
        .cautions(&["caution-phantom"])
        .links(&[ADAPTED, To::filled(&box_or_straight::CALCULATOR, &[Put::answer(Instrument::Laptop.to(INSTRUMENT))])])
        .see(&["adaptor-mini-jack-two", "adaptor-stereo-in-balanced", "term-direct-box"]),
    Item::new("adaptor-stereo-mono", &["source-trade", "source-divider"])
        .shows(Shown::Wiring(&STEREO_MONO))
        .numbers(&[("half", HALF_VOLTAGE, Unit::Decibel), ("each", SUM_R, Unit::Ohm), ("seen", 2.0 * SUM_R, Unit::Ohm)])
        .links(&[SUMMED])
        .see(&["adaptor-two-outputs", "adaptor-mini-jack-two"]),
    Item::new("adaptor-two-outputs", &["source-trade", "source-divider"])
        .shows(Shown::Wiring(&TWO_OUTPUTS))
        .numbers(&[("half", HALF_VOLTAGE, Unit::Decibel), ("each", SUM_R, Unit::Ohm), ("seen", 2.0 * SUM_R, Unit::Ohm)])
        .links(&[SUMMED])
        .see(&["adaptor-stereo-mono", "term-source-impedance"]),
    Item::new("adaptor-insert", &["source-trade"])
        .shows(Shown::Wiring(&INSERT))
        .cautions(&["caution-hearing"])
        .see(&["jack-three-pole", "jack-two-pole"]),
    Item::new("adaptor-polarity", &["source-xlr"]).shows(Shown::Wiring(&REVERSED)).see(&["lead-xlr", "term-polarity"]),
    Item::new("adaptor-shield-one-end", &["source-aes48", "source-whitlock"])
        .shows(Shown::Wiring(&SHIELD_ONE_END))
        .cautions(&["caution-earth", "caution-phantom"])
        .links(&[
            To::filled(&ground_loop::CALCULATOR, &[Put::answer(ConnectionKind::Balanced.to(CONNECTION))]),
            To::filled(&phantom::CALCULATOR, &[Put::answer(PhantomPath::ShieldOpen.to(PATH))]),
        ])
        .see(&["lead-xlr", "term-pin-1", "term-safety-earth"]),
];

/// What an input behind a passive sum sees as its source.
const SUMMED: To = To::filled(&source_load::CALCULATOR, &[Put::number(SOURCE_R, SUM_R / 2.0)]);
