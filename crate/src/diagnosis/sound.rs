//! What a cause sounds like on a line, and how well that goes with what was heard.

use super::cause::CauseKind;
use super::computed::alone;
use super::question::Sound;
use super::rig::Rig;
use crate::calculator::whole_line::hum_lines;
use crate::listen::{HeardLine, Through, agreement};
use crate::quantity::level::decibels;

impl Rig {
    /// The harmonics of the mains that a cause brings on this line: order, and level re the
    /// first in dB; none where no model says.
    pub(super) fn lines_of(&self, cause: &str) -> Vec<(u32, f64)> {
        let lines = alone(self, cause).and_then(|values| hum_lines(&values).ok()).unwrap_or_default();
        let Some(first) = lines.first().map(|(_, volts)| *volts).filter(|volts| *volts > 0.0) else {
            return Vec::new();
        };
        lines
            .into_iter()
            .filter(|(_, volts)| *volts > 0.0)
            .map(|(order, volts)| (order, decibels(volts / first)))
            .collect()
    }
}

/// No sound rules a cause out: so likely it is at least, beside the likeliest (judgement).
const LEAST: f64 = 0.05;

/// Which families of sounds a cause belongs to, and how often (judgement, after what its
/// current or voltage looks like).
fn families_of(cause: &str) -> &'static [(&'static str, f64)] {
    match cause {
        "loop" | "loop-thru" | "loop-split" | "pin-1" | "lift-off" | "shared" => {
            &[("mains-odd", 0.85), ("mains-even", 0.1), ("dimmer", 0.05)]
        }
        "leakage" => &[("mains-odd", 0.5), ("mains-even", 0.4), ("whine", 0.1)],
        "field" | "coil" | "di-field" | "lead-shield" | "run-shield" | "lead-core" | "run-leg" => {
            &[("mains-odd", 0.75), ("mains-even", 0.1), ("dimmer", 0.15)]
        }
        "source" | "beyond" => &[("mains-even", 0.4), ("hiss", 0.3), ("mains-odd", 0.2), ("whine", 0.1)],
        "computer" => &[("whine", 0.8), ("hiss", 0.1), ("mains-odd", 0.1)],
        "dimmer" => &[("dimmer", 0.9), ("mains-odd", 0.1)],
        "telephone" => &[("telephone", 0.95), ("hiss", 0.05)],
        "radio" => &[("whine", 0.5), ("hiss", 0.5)],
        "gain" | "pad" | "wrong-input" | "phantom" => &[("hiss", 0.9), ("mains-odd", 0.1)],
        _ => &[],
    }
}

/// How far what the models predict may shift a cause against the others (judgement: what
/// drives a loop differs from place to place).
const MOST_BY_MODEL: f64 = 4.0;

/// How likely what was heard is with each cause, beside the likeliest.
pub(super) fn likelihoods_of(rig: &Rig, causes: &[&CauseKind], sound: &Sound) -> Vec<f64> {
    let family = |id: &str| sound.families.get(id).copied().filter(|it| it.is_finite()).unwrap_or(0.0).clamp(0.0, 1.0);
    let by_model = by_model(rig, causes, sound);
    let by_family = |cause: &&CauseKind| {
        let families = families_of(cause.id);
        (!families.is_empty()).then(|| families.iter().map(|(id, often)| often * family(id)).sum::<f64>())
    };
    let of = |(likelihood, by_model): (Option<f64>, f64)| {
        likelihood.map(|likelihood| (likelihood * by_model).clamp(LEAST, 1.0))
    };
    let each: Vec<_> = causes.iter().map(by_family).zip(by_model).map(of).collect();
    // Nobody knows what the others sound like: the sound says nothing of them.
    let known: Vec<_> = each.iter().flatten().copied().collect();
    let mean = if known.is_empty() { 1.0 } else { known.iter().sum::<f64>() / known.len() as f64 };
    each.into_iter().map(|likelihood| likelihood.unwrap_or(mean)).collect()
}

/// How well the harmonics that were heard go with those that the models predict of each
/// cause, re their mean; 1 for causes without a model.
fn by_model(rig: &Rig, causes: &[&CauseKind], sound: &Sound) -> Vec<f64> {
    let heard: Vec<_> = sound.lines.iter().filter_map(|line| heard_line(*line)).collect();
    let agrees = |cause: &&CauseKind| {
        let predicted = rig.lines_of(cause.id);
        // Also by line: the harmonics of what drives a loop are judgement.
        (!predicted.is_empty() && !heard.is_empty()).then(|| agreement(&heard, &predicted, Through::Air))
    };
    let agreed: Vec<_> = causes.iter().map(agrees).collect();
    let known: Vec<_> = agreed.iter().flatten().copied().collect();
    let mean = known.iter().sum::<f64>() / known.len().max(1) as f64;
    let factor = |agreed: &Option<f64>| {
        agreed.map_or(1.0, |agreed| (agreed - mean).exp().clamp(1.0 / MOST_BY_MODEL, MOST_BY_MODEL))
    };
    agreed.iter().map(factor).collect()
}

/// A harmonic as it was heard; nothing for what is none.
fn heard_line((harmonic, first, over): (u32, f64, f64)) -> Option<HeardLine> {
    let is_line = harmonic > 0 && first.is_finite() && over.is_finite();
    is_line.then_some(HeardLine { harmonic, hz: 0.0, level: first, first, over })
}

#[cfg(test)]
mod tests {
    use super::super::cause::CAUSES;
    use super::super::symptom::Symptom;
    use super::*;

    /// A cause of hum or buzz that had no family would win by any sound of another one.
    #[test]
    fn all_that_hums_or_buzzes_has_a_family() {
        let hums = |cause: &&CauseKind| cause.sounds.iter().any(|(of, _)| matches!(of, Symptom::Hum | Symptom::Buzz));
        for cause in CAUSES.iter().filter(hums) {
            let often: f64 = families_of(cause.id).iter().map(|(_, often)| often).sum();
            assert!((often - 1.0).abs() < 1e-9, "{} {often}", cause.id);
        }
    }
}
