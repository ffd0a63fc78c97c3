//! How probable each outcome of a test is with a cause, on this line.

use super::cause::CauseKind;
use super::computed::drop;
use super::rig::Rig;
use super::test::{Rule, TestKind};

/// What is cut off is gone, and what is not stays; now and then somebody errs.
const CUT: [f64; 3] = [0.92, 0.06, 0.02];
const STAYS: [f64; 3] = [0.03, 0.07, 0.9];
/// What is replaced or mended is cured; a fault that goes by itself just then is rare.
pub(super) const CURED: [f64; 2] = [0.96, 0.04];
pub(super) const NOT_CURED: [f64; 2] = [0.01, 0.99];
/// How probable it is that what is heard is told wrong, for each answer (judgement).
const SLIP: f64 = 0.02;
/// Hum that falls by this much is gone for the ear, and by this much it is less, dB;
/// and how far ears are off, dB (judgement).
const GONE: f64 = 15.0;
const LESS: f64 = 4.0;
const EAR: f64 = 2.5;

/// What is told where an act does nothing to a cause.
const UNTOUCHED: [f64; 4] = [0.02, 0.06, 0.88, 0.04];
/// How far the models are believed, and what mostly comes of it where a loop is opened
/// (judgement).
const MODEL: f64 = 0.7;
const OPENED: [f64; 4] = [0.65, 0.2, 0.12, 0.03];

/// The likelihoods of the outcomes of a test with a cause, in their order.
pub(super) fn likelihoods(rig: &Rig, test: &TestKind, cause: &CauseKind) -> Vec<f64> {
    match &test.rule {
        Rule::CutsOff(place, also) => {
            let is_cut = cause.place < *place || also.contains(&cause.id);
            if is_cut { CUT } else { STAYS }.to_vec()
        }
        Rule::Replaces(causes) => if causes.contains(&cause.id) { CURED } else { NOT_CURED }.to_vec(),
        Rule::Known(usual, with) => {
            let exception = with.iter().find(|(id, _)| *id == cause.id);
            exception.map_or(*usual, |(_, likelihoods)| likelihoods).to_vec()
        }
        Rule::Computed(act, with) => match with.iter().find(|(id, _)| *id == cause.id) {
            Some((_, likelihoods)) => likelihoods.to_vec(),
            None => drop(rig, cause.id, *act).map_or(UNTOUCHED, modelled).to_vec(),
        },
    }
}

/// What is told of hum that falls by so many dB after a model, whose line may be another
/// than the one on the stage.
fn modelled(drop: f64) -> [f64; 4] {
    let known = heard(drop);
    std::array::from_fn(|told| MODEL * known[told] + (1.0 - MODEL) * OPENED[told])
}

/// What is told of hum that falls by so many dB: gone, less, the same, more.
fn heard(drop: f64) -> [f64; 4] {
    // More than a threshold, by ears that are off by a logistic error.
    let more_than = |threshold: f64| 1.0 / (1.0 + ((threshold - drop) / EAR).exp());
    let [gone, less, not_more] = [more_than(GONE), more_than(LESS), more_than(-LESS)];
    let sure = [gone, less - gone, not_more - less, 1.0 - not_more];
    sure.map(|share| SLIP + (1.0 - 4.0 * SLIP) * share)
}
