//! Numbers of a line that go with a test or a cure: what to expect, and what it brings.

use super::computed::{Act, distance, distance_after, drop, size};
use super::finder::Step;
use super::rig::Rig;
use super::test::Rule;
use crate::fault::Fault;
use crate::field::lead::{LEAD_LENGTH, shield};
use crate::field::phantom::PHANTOM;
use crate::field::run::RUN_LENGTH;
use crate::quantity::{Unit, write};
use crate::settings::Settings;
use serde::Serialize;

/// Digits of a figure: a screen has room for three.
const DIGITS: usize = 3;

/// A change of less than this is none, dB (judgement).
const HEARD: f64 = 0.5;

/// A number that goes with a step or a cause.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FaultFigure {
    /// What it is, by identifier.
    pub id: &'static str,
    /// The cause that it goes with; nothing where it goes with all.
    pub of: Option<&'static str>,
    /// The number, in SI units or dB.
    pub value: f64,
    /// The same as printed.
    pub text: String,
}

/// What can be said in numbers, as far as the models go.
struct Figures<'a>(Vec<FaultFigure>, &'a Settings);

impl Figures<'_> {
    fn put(&mut self, id: &'static str, value: Option<f64>, unit: Unit) {
        self.put_of(id, None, value, unit);
    }

    fn put_of(&mut self, id: &'static str, of: Option<&'static str>, value: Option<f64>, unit: Unit) {
        if let Some(value) = value.filter(|value| value.is_finite()) {
            self.0.push(FaultFigure { id, of, value, text: write(value, unit, DIGITS, self.1) });
        }
    }
}

/// What to expect of a step; `likely` are the causes, the likeliest first.
pub(super) fn of_step(rig: &Rig, step: Step, likely: &[&'static str], settings: &Settings) -> Vec<FaultFigure> {
    let mut figures = Figures(Vec::new(), settings);
    match step {
        Step::Test(test) => match (test.id, &test.rule) {
            (_, Rule::Computed(act, _)) => {
                let of = likely.iter().find_map(|cause| Some((*cause, drop(rig, cause, *act)?)));
                if let Some((cause, fall)) = of {
                    let id = if fall < 0.0 { "rise" } else { "fall" };
                    figures.put_of(id, Some(cause), Some(fall.abs()), Unit::Decibel);
                }
            }
            ("meter", _) => {
                figures.put("level", rig.reading("level"), Unit::DecibelU);
                figures.put("gain", rig.reading("input_gain"), Unit::Decibel);
            }
            ("phantom-light", _) if rig.wants_phantom => figures.put("phantom-wanted", phantom(rig), Unit::Volt),
            ("phantom-light", _) => figures.put("phantom-unwanted", Some(0.0), Unit::Volt),
            ("phantom-volts", _) => figures.put("phantom", phantom(rig), Unit::Volt),
            ("ohms-first", _) => figures.put("shield", ohms(rig, LEAD_LENGTH).ok(), Unit::Ohm),
            ("ohms-run", _) => figures.put("shield", ohms(rig, RUN_LENGTH).ok(), Unit::Ohm),
            _ => {}
        },
        Step::Cure(cause) => return of_cause(rig, cause.id, settings),
    }
    figures.0
}

/// What the phantom supply has without a load, V.
fn phantom(rig: &Rig) -> Option<f64> {
    rig.values.choice(PHANTOM).ok()?.supply().map(|supply| supply.values().volts)
}

/// What a good lead's shield measures, with its contacts, Ω.
fn ohms(rig: &Rig, length: crate::field::Field) -> Result<f64, Fault> {
    shield(&rig.values, rig.values.number(length)?)
}

/// A cause and its cure in numbers of the line.
pub(super) fn of_cause(rig: &Rig, cause: &'static str, settings: &Settings) -> Vec<FaultFigure> {
    let mut figures = Figures(Vec::new(), settings);
    if let Some((size, unit)) = size(rig, cause) {
        figures.put("size", Some(size), unit);
        figures.put("distance", distance(rig, cause), Unit::Decibel);
        figures.put(
            "distance-cured",
            Act::against(rig, cause).and_then(|act| distance_after(rig, cause, act)),
            Unit::Decibel,
        );
    }
    match cause {
        "load" | "long-lead" => {
            let act = if cause == "load" { Act::HighInput } else { Act::ShortLead };
            for (id, cured, reading) in [("loss", "loss-cured", "loss"), ("loss-bass", "loss-bass-cured", "loss_bass")]
            {
                if rig.gains(act, reading).is_some_and(|gain| gain > HEARD) {
                    figures.put(id, rig.reading(reading), Unit::Decibel);
                    figures.put(cured, rig.reading_after(act, reading), Unit::Decibel);
                }
            }
        }
        "clip-input" => figures.put("headroom", rig.reading("margin"), Unit::Decibel),
        "no-phantom" => {
            figures.put("phantom", phantom(rig), Unit::Volt);
            figures.put(if rig.has_box { "supply" } else { "supply-source" }, rig.reading("supply"), Unit::Volt);
        }
        "gain" => {
            figures.put("gain", rig.reading("input_gain"), Unit::Decibel);
            figures.put("snr", rig.reading("snr"), Unit::Decibel);
        }
        _ => {}
    }
    figures.0
}
