//! Leads that fit both of their ends. Wirings by AES14 for XLR, else common
//! practice.

use super::connector::{JACK_2, JACK_3, PHONO, XLR_FEMALE, XLR_MALE};
use super::item::{Item, Put, Shown, To};
use super::wiring::{Join, Plugged, Wired};
use crate::calculator::lead_length::{self, LeadSource, SOURCE};
use crate::calculator::pickup;
use crate::catalogue::typical::{BALANCED_LINE, INSTRUMENT_LEAD};
use crate::quantity::Unit;

const XLR: Wired = Wired {
    ends: &[Plugged::near(&XLR_FEMALE, "output"), Plugged::far(&XLR_MALE, "input")],
    joins: &[
        Join::core((0, "pin-2"), (1, "pin-2"), "in-phase"),
        Join::core((0, "pin-3"), (1, "pin-3"), "return"),
        Join::shield((0, "pin-1"), (1, "pin-1"), "shield"),
    ],
    open: &[],
};

const JACK: Wired = Wired {
    ends: &[Plugged::near(&JACK_2, "output"), Plugged::far(&JACK_2, "input")],
    joins: &[Join::core((0, "tip"), (1, "tip"), "signal"), Join::shield((0, "sleeve"), (1, "sleeve"), "common")],
    open: &[],
};

const JACK_BALANCED: Wired = Wired {
    ends: &[Plugged::near(&JACK_3, "output"), Plugged::far(&JACK_3, "input")],
    joins: &[
        Join::core((0, "tip"), (1, "tip"), "in-phase"),
        Join::core((0, "ring"), (1, "ring"), "return"),
        Join::shield((0, "sleeve"), (1, "sleeve"), "shield"),
    ],
    open: &[],
};

const JACK_XLR: Wired = Wired {
    ends: &[Plugged::near(&JACK_3, "output"), Plugged::far(&XLR_MALE, "input")],
    joins: &[
        Join::core((0, "tip"), (1, "pin-2"), "in-phase"),
        Join::core((0, "ring"), (1, "pin-3"), "return"),
        Join::shield((0, "sleeve"), (1, "pin-1"), "shield"),
    ],
    open: &[],
};

const PHONO_JACK: Wired = Wired {
    ends: &[Plugged::near(&PHONO, "output"), Plugged::far(&JACK_2, "input")],
    joins: &[Join::core((0, "centre"), (1, "tip"), "signal"), Join::shield((0, "outer"), (1, "sleeve"), "common")],
    open: &[],
};

pub(super) static ITEMS: &[Item] = &[
    Item::new("lead-xlr", &["source-xlr", "source-aes48"])
        .shows(Shown::Wiring(&XLR))
        .numbers(&[("length", BALANCED_LINE, Unit::Metre)])
        .links(&[To::filled(&lead_length::CALCULATOR, &[Put::answer(LeadSource::Balanced.to(SOURCE))])])
        .see(&["xlr", "adaptor-shield-one-end", "term-star-quad"]),
    Item::new("lead-jack", &["source-jack"])
        .shows(Shown::Wiring(&JACK))
        .numbers(&[("length", INSTRUMENT_LEAD, Unit::Metre)])
        .links(&[To::calculator(&pickup::CALCULATOR), To::calculator(&lead_length::CALCULATOR)])
        .see(&["jack-two-pole", "value-lead", "lead-by-length"]),
    Item::new("lead-jack-balanced", &["source-jack"])
        .shows(Shown::Wiring(&JACK_BALANCED))
        .see(&["jack-three-pole", "adaptor-stereo-in-balanced"]),
    Item::new("lead-jack-xlr", &["source-xlr", "source-jack"])
        .shows(Shown::Wiring(&JACK_XLR))
        .cautions(&["caution-phantom"])
        .see(&["xlr", "jack-three-pole"]),
    Item::new("lead-phono", &["source-phono", "source-jack"])
        .shows(Shown::Wiring(&PHONO_JACK))
        .see(&["phono-plug", "jack-two-pole"]),
];
