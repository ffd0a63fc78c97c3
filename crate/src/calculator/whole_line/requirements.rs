//! What a line has to keep, and what one would change for it, the sooner the less it
//! takes (common practice, no source).

use crate::field::active_box::{BOX_GAIN, BOX_R};
use crate::field::console::CONSOLE_R;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::lead::LEAD_LENGTH;
use crate::field::loudspeaker::TAKE_OFF;
use crate::field::pad::PAD;
use crate::field::phantom::{ConsolePhantom, LEAST, PHANTOM};
use crate::field::preamp::SET_GAIN;
use crate::field::question::{HEADROOM, HUM_LEAST, LEVEL_LEAST, LOAD_RATIO, LOSS_MOST, SNR_LEAST, UNBALANCED_MOST};
use crate::field::run::{RUN, RUN_LENGTH, Run};
use crate::field::source::{EMF, SMALLEST_LOAD};
use crate::field::split::{SPLIT, Split};
use crate::field::thru::{THRU, THRU_LENGTH, ThruLoad};
use crate::field::{Bound, Change, Requirement, Step};

const METRES: Step = Step::Of(0.1);
const PADS: Step = Step::Of(10.0);

/// Boxes, where the run is balanced.
const ACTIVE: Change = Change::to_if(BOX, BoxKind::Active.id(), RUN, Run::Balanced.id());
const ACTIVE_ON_BATTERY: Change = ACTIVE.and(POWERED, BoxSupply::Battery.id());
const PASSIVE: Change = Change::to_if(BOX, BoxKind::Passive.id(), RUN, Run::Balanced.id());
const PASSIVE_LIFTED: Change = PASSIVE.and(GROUND, Ground::Lifted.id());
/// One that only parts the earths, where the run is not.
const LIFTED_WHERE_UNBALANCED: Change =
    Change::to_if(BOX, BoxKind::Passive.id(), RUN, Run::Unbalanced.id()).and(GROUND, Ground::Lifted.id());
/// One with a run that was not.
const ON_A_BALANCED_RUN: Change = Change::to(BOX, BoxKind::Passive.id()).and(RUN, Run::Balanced.id());

const TONE: &[Change] = &[
    Change::less(LEAD_LENGTH, METRES),
    Change::less(THRU_LENGTH, METRES),
    Change::less(RUN_LENGTH, METRES),
    Change::more(BOX_R, Step::Sold),
    ACTIVE,
    ACTIVE_ON_BATTERY,
    PASSIVE,
    PASSIVE_LIFTED,
    Change::more(CONSOLE_R, Step::Sold),
];

const HUM: &[Change] = &[
    Change::to(GROUND, Ground::Lifted.id()),
    Change::to(SPLIT, Split::Transformer.id()),
    Change::to(THRU, ThruLoad::Same.id()),
    PASSIVE,
    PASSIVE_LIFTED,
    LIFTED_WHERE_UNBALANCED,
    Change::less(LEAD_LENGTH, METRES),
    Change::less(RUN_LENGTH, METRES),
];

const LOAD: &[Change] = &[PASSIVE, PASSIVE_LIFTED, ACTIVE, ACTIVE_ON_BATTERY, Change::more(CONSOLE_R, Step::Sold)];

const fn keep(reading: &'static str, bound: Bound, changes: &'static [Change]) -> Requirement {
    Requirement { reading, bound, changes }
}

/// What a line has to keep.
pub(super) const REQUIREMENTS: &[Requirement] = &[
    keep("loss", Bound::at_most(LOSS_MOST), TONE),
    keep("loss_bass", Bound::at_most(LOSS_MOST), TONE),
    keep(
        "snr",
        Bound::at_least(SNR_LEAST),
        &[
            Change::more(SET_GAIN, Step::Of(1.0)),
            Change::more(EMF, Step::Decibels),
            Change::less(PAD, PADS),
            ACTIVE,
            ACTIVE_ON_BATTERY,
            Change::less(LEAD_LENGTH, METRES),
        ],
    ),
    keep("signal_to_hum", Bound::at_least(HUM_LEAST), HUM),
    keep("amplifier_hum", Bound::at_least(HUM_LEAST), HUM),
    keep(
        "margin",
        Bound::at_least(HEADROOM),
        &[
            Change::less(SET_GAIN, Step::Of(1.0)),
            Change::less(BOX_GAIN, Step::Of(20.0)),
            Change::more(TAKE_OFF, PADS),
            Change::more(PAD, PADS),
            Change::less(EMF, Step::Decibels),
            PASSIVE,
            PASSIVE_LIFTED,
        ],
    ),
    keep(
        "level",
        Bound::at_least(LEVEL_LEAST),
        &[Change::less(PAD, PADS), Change::more(EMF, Step::Decibels), ACTIVE, ACTIVE_ON_BATTERY],
    ),
    keep(
        "unbalanced",
        Bound::at_most(UNBALANCED_MOST),
        &[
            ON_A_BALANCED_RUN,
            PASSIVE,
            PASSIVE_LIFTED,
            ACTIVE,
            ACTIVE_ON_BATTERY,
            Change::less(RUN_LENGTH, METRES),
            Change::less(LEAD_LENGTH, METRES),
        ],
    ),
    keep("load_ratio", Bound::at_least(LOAD_RATIO), LOAD),
    keep("impedance", Bound::at_least(SMALLEST_LOAD), LOAD),
    keep(
        "supply",
        Bound::at_least(LEAST),
        &[
            Change::to(PHANTOM, ConsolePhantom::P48.id()),
            Change::to(POWERED, BoxSupply::Battery.id()),
            Change::to(RUN, Run::Balanced.id()),
            Change::less(RUN_LENGTH, METRES),
            PASSIVE,
            PASSIVE_LIFTED,
            Change::to(BOX, BoxKind::None.id()),
        ],
    ),
    keep(
        "supply_on_source",
        Bound::Absent,
        &[Change::to(PHANTOM, ConsolePhantom::Off.id()), PASSIVE, PASSIVE_LIFTED, ACTIVE, ACTIVE_ON_BATTERY],
    ),
    keep("phantom_on_ribbon", Bound::Absent, &[Change::to(PHANTOM, ConsolePhantom::Off.id())]),
];
