//! How well lines that are heard agree with lines that are predicted.

use super::heard::{HeardLine, Through};
use super::lines::STANDING;
use crate::quantity::level::decibels_of_power;

/// One line in twenty is something else than what was predicted. Judgement: without it a
/// single line would decide.
const OTHER: f64 = 0.05;
/// And lies anywhere within so many dB.
const ANYWHERE: f64 = 60.0;
/// How far apart all levels together may lie from where the strongest line fits, dB.
const APART: f64 = 30.0;
/// All that is missing above the highest line makes no less likely than two that are missing:
/// what cuts one off cuts them all. Judgement.
pub(super) const ENDED: f64 = OTHER * OTHER;
/// A harmonic between predicted ones of which nothing was said lies so far down, dB, more or
/// less, if there is one at all (judgement).
const UNSAID: Predicted = Predicted { harmonic: 0, level: -40.0, spread: 10.0, sure: false };

/// A line that is predicted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Predicted {
    pub(super) harmonic: u32,
    /// re any level common to all, dB
    pub(super) level: f64,
    /// How sure that is, one deviation, dB.
    pub(super) spread: f64,
    /// Whether there has to be one.
    pub(super) sure: bool,
}

/// The logarithm (natural) of how likely lines are as they are heard, where these harmonics
/// are predicted at these levels, dB re any one of them. Up to the highest of those, a
/// harmonic that is not predicted counts as one 40 dB below the strongest, give or take
/// 10, or as none. A line that is predicted and not heard is likely so far as it may be hidden in the
/// noise. The level of all together says nothing.
pub fn agreement(lines: &[HeardLine], predicted: &[(u32, f64)], through: Through) -> f64 {
    let strongest =
        predicted.iter().map(|(_, level)| *level).filter(|level| level.is_finite()).fold(f64::MIN, f64::max);
    let last = predicted.iter().map(|(harmonic, _)| *harmonic).max().unwrap_or(0).min(super::lines::HIGHEST);
    let line = |harmonic: u32| {
        let said = predicted.iter().find(|(of, level)| *of == harmonic && level.is_finite());
        let unsaid = Predicted { harmonic, level: strongest + UNSAID.level, ..UNSAID };
        said.map_or(unsaid, |(_, level)| Predicted { harmonic, level: *level, spread: 0.0, sure: true })
    };
    if strongest == f64::MIN {
        return 0.0;
    }
    likelihood(lines, &(1..=last).map(line).collect::<Vec<_>>(), through, ENDED)
}

/// The same of predictions that are more or less sure, where all that is missing above the
/// highest line counts as this at least.
pub(super) fn likelihood(lines: &[HeardLine], predicted: &[Predicted], through: Through, ended: f64) -> f64 {
    let Some(strongest) = lines.iter().max_by(|a, b| a.level.total_cmp(&b.level)) else { return 0.0 };
    // About where the strongest line that is heard is predicted.
    let at = predicted.iter().find(|line| line.harmonic == strongest.harmonic);
    let top = predicted.iter().map(|line| line.level).fold(f64::MIN, f64::max);
    let about = strongest.first - at.map_or(top, |line| line.level);
    let each: Vec<_> = predicted.iter().map(|line| Seen::of(line, lines, through)).collect();
    let last = lines.iter().map(|line| line.harmonic).max().unwrap_or(0);
    // As fine as many lines together tell levels apart.
    let least = each.iter().map(|seen| seen.spread).fold(f64::MAX, f64::min);
    let steps = (APART / least * (each.len() as f64).sqrt()).clamp(1.0, 500.0) as i32;
    let level = |step: i32| about + APART * f64::from(step) / f64::from(steps);
    // None of some sixty lines is less likely than one in a thousand: the product is a number.
    let (below, above): (Vec<_>, Vec<_>) = each.iter().partition(|seen| seen.harmonic <= last);
    let product = |of: &[&Seen], by: f64| of.iter().map(|seen| seen.likely(by)).product::<f64>();
    let all = |step: i32| product(&below, level(step)) * product(&above, level(step)).max(ended);
    let mean = (-steps..=steps).map(all).sum::<f64>() / f64::from(2 * steps + 1);
    if mean > 0.0 { mean.ln() } else { 0.0 }
}

/// The same where nothing is predicted: each line lies anywhere.
pub(super) fn anything(lines: &[HeardLine]) -> f64 {
    -ANYWHERE.ln() * lines.len() as f64
}

/// What became of a predicted line.
struct Seen {
    harmonic: u32,
    level: f64,
    spread: f64,
    /// Where it is heard, or else the least that would stand out.
    at: f64,
    heard: bool,
    sure: bool,
}

impl Seen {
    fn of(predicted: &Predicted, lines: &[HeardLine], through: Through) -> Self {
        let spread = predicted.spread.hypot(through.spread());
        let near = lines.iter().min_by_key(|line| line.harmonic.abs_diff(predicted.harmonic));
        let heard = near.is_some_and(|line| line.harmonic == predicted.harmonic);
        // The noise is that of the nearest line that is heard.
        let hidden = near.map_or(0.0, |line| line.first - line.over + decibels_of_power(STANDING));
        let at = near.filter(|_| heard).map_or(hidden, |line| line.first);
        Self { harmonic: predicted.harmonic, level: predicted.level, spread, at, heard, sure: predicted.sure }
    }

    /// How likely this is with all levels so much higher.
    fn likely(&self, by: f64) -> f64 {
        let off = (self.at - self.level - by) / self.spread;
        if self.heard {
            let density = (-0.5 * off * off).exp() / (self.spread * std::f64::consts::TAU.sqrt());
            (1.0 - OTHER) * density + OTHER / ANYWHERE
        } else if !self.sure {
            1.0
        } else {
            (1.0 - OTHER) * below(off) + OTHER
        }
    }
}

/// The share of a normal distribution that lies below, by a logistic function: off by 0.01
/// at most, which is little beside what is judgement here (Camilli, J. Educ. Behav. Stat.
/// 19, 1994, from memory).
fn below(deviations: f64) -> f64 {
    1.0 / (1.0 + (-1.702 * deviations).exp())
}
