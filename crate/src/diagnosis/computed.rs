//! What the models say comes of an act: how far hum falls by it.

use super::rig::Rig;
use crate::calculator::whole_line::CALCULATOR;
use crate::field::direct_box::{BOX, BoxKind, GROUND, Ground};
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, POWER, Power, SUPPLY_LEAKAGE};
use crate::field::lead::LEAD_LENGTH;
use crate::field::run::{RUN, Run};
use crate::field::split::{SECOND_DIFFERENCE, SPLIT, Split};
use crate::field::stray::STRAY_DENSITY;
use crate::field::thru::{THRU, ThruLoad};
use crate::field::{Changed, Field, Values};
use crate::quantity::Unit;
use crate::report::Depth;

/// Something that is done to a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    /// The ground lift of the box: of the signal's ground, never of a safety earth.
    Lift,
    /// The source runs from its battery.
    FromBattery,
    /// The lead of the thru is pulled.
    UnplugThru,
    /// A passive box with its ground lifted takes the place of what there is.
    Isolate,
    /// A second console is split off by a transformer.
    SplitApart,
    /// An active box follows the source.
    HighInput,
    /// The first lead is a short one.
    ShortLead,
}

impl Act {
    /// Whether the box has a lift that is not used yet.
    pub(super) fn can_lift(rig: &Rig) -> bool {
        rig.has_box && rig.values.choice(GROUND).is_ok_and(|ground| ground == Ground::Joined)
    }

    /// Its identifier, where it is a cure.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::Lift => "lift",
            Self::FromBattery => "battery",
            Self::UnplugThru => "thru",
            Self::Isolate => "isolate",
            Self::SplitApart => "split",
            Self::HighInput => "high-input",
            Self::ShortLead => "short-lead",
        }
    }

    /// What helps against a cause of hum after the models, the least trouble first; nothing
    /// where they know nothing.
    pub(super) fn against(rig: &Rig, cause: &str) -> Option<Self> {
        let acts: &[Self] = match cause {
            "loop" => &[Self::Lift, Self::Isolate],
            "loop-thru" => &[Self::Lift, Self::UnplugThru],
            // Lifting its ground would leave it to float at what leaks.
            "leakage" => &[Self::FromBattery],
            "loop-split" => &[Self::SplitApart],
            _ => return None,
        };
        let is_there = |act: &Self| *act != Self::Lift || Self::can_lift(rig);
        let helps = |act: &Self| drop(rig, cause, *act).is_some_and(|drop| drop >= HELPS);
        acts.iter().copied().find(|act| is_there(act) && helps(act))
    }

    pub(super) fn done(self, values: &Values) -> Values {
        let answered = |values: &Values, field: &'static str, answer| values.changed(field, &Changed::Answer(answer));
        match self {
            Self::Lift => answered(values, GROUND.id(), Ground::Lifted.id()),
            Self::FromBattery => answered(values, POWER.id(), Power::Floating.id()),
            Self::UnplugThru => answered(values, THRU.id(), ThruLoad::None.id()),
            Self::Isolate => {
                let boxed = answered(values, BOX.id(), BoxKind::Passive.id());
                answered(&answered(&boxed, GROUND.id(), Ground::Lifted.id()), RUN.id(), Run::Balanced.id())
            }
            Self::SplitApart => answered(values, SPLIT.id(), Split::Transformer.id()),
            Self::HighInput => answered(values, BOX.id(), BoxKind::Active.id()),
            Self::ShortLead => values.changed(LEAD_LENGTH.id, &Changed::Number(SHORT)),
        }
    }
}

/// As good as nothing, for what drives another cause: V, A, T.
const NOTHING: f64 = 1e-9;
/// What drives a loop of earths that hums, V (usual, common practice, no source).
const DIFFERENCE: f64 = 0.5;
/// What leaks from a supply that hums, A (usual, common practice, no source).
const LEAKAGE: f64 = 0.25e-3;
/// The field beside a lead that hums, T (usual, common practice, no source).
const DENSITY: f64 = 5e-6;

/// What does less than this against a hum is no cure, dB (judgement).
const HELPS: f64 = 6.0;
/// A short lead, m (common practice, no source).
const SHORT: f64 = 3.0;

/// What drives a cause of hum, and its usual size; nothing for one without a model.
fn driver(cause: &str) -> Option<(Field, f64, Unit)> {
    Some(match cause {
        "loop" => (EARTH_VOLTS, DIFFERENCE, Unit::Volt),
        "loop-thru" => (AMP_DIFFERENCE, DIFFERENCE, Unit::Volt),
        "loop-split" => (SECOND_DIFFERENCE, DIFFERENCE, Unit::Volt),
        "leakage" => (SUPPLY_LEAKAGE, LEAKAGE, Unit::Ampere),
        "field" => (STRAY_DENSITY, DENSITY, Unit::Tesla),
        _ => return None,
    })
}

/// How large what drives a cause of hum is taken to be, and its unit: as the line has it, and
/// no less than usual, since something hums.
pub(super) fn size(rig: &Rig, cause: &str) -> Option<(f64, Unit)> {
    let (field, usual, unit) = driver(cause)?;
    Some((rig.values.number(field).map_or(usual, |own| own.max(usual)), unit))
}

/// The line with no cause of hum but this one; nothing for a cause that has no model.
pub(super) fn alone(rig: &Rig, cause: &str) -> Option<Values> {
    let quiet = [
        (EARTH_VOLTS, NOTHING),
        (AMP_DIFFERENCE, NOTHING),
        (SECOND_DIFFERENCE, NOTHING),
        (SUPPLY_LEAKAGE, NOTHING),
        (STRAY_DENSITY, 0.0),
    ];
    let (field, ..) = driver(cause)?;
    let (size, _) = size(rig, cause)?;
    let values = quiet.into_iter().fold(rig.values.clone(), |values, (field, size)| values.with(field, size));
    Some(values.with(field, size))
}

/// Hum at the console and the distance of the signal from it, dB.
fn hum(values: &Values) -> Option<[f64; 2]> {
    let solved = CALCULATOR.solution(values, Depth::Readings).ok()?;
    let of = |id: &str| solved.reading(id).and_then(|reading| reading.value);
    Some([of("hum_a")?, of("signal_to_hum")?])
}

/// How far the signal is from the hum of a cause of usual size, dB; nothing for a cause
/// that has no model.
pub(super) fn distance(rig: &Rig, cause: &str) -> Option<f64> {
    alone(rig, cause).and_then(|values| hum(&values)).map(|[_, distance]| distance)
}

/// The same after an act.
pub(super) fn distance_after(rig: &Rig, cause: &str, act: Act) -> Option<f64> {
    alone(rig, cause).and_then(|values| hum(&act.done(&values))).map(|[_, distance]| distance)
}

/// How far the hum of a cause falls by an act, dB; nothing for a cause that has no model.
pub(super) fn drop(rig: &Rig, cause: &str, act: Act) -> Option<f64> {
    let before = alone(rig, cause)?;
    let after = act.done(&before);
    Some(hum(&before)?[0] - hum(&after)?[0])
}
