//! Which family a sound is of.

use super::agreement::likelihood;
use super::heard::{HeardLine, Through};
use super::template::{Shape, templates};
use crate::quantity::level::decibels_of_power;
use serde::Serialize;

/// What hum and its kin are like, whatever brings them.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub enum Family {
    /// The mains and their odd harmonics: loops, leakage, the fields of transformers.
    MainsOdd,
    /// Twice the mains and its multiples: the ripple of a supply.
    MainsEven,
    /// The edges of a dimmer: odd harmonics that hardly end.
    Dimmer,
    /// The bursts of a telephone.
    Telephone,
    /// A tone of a supply that switches, or of a screen.
    Whine,
    /// Noise.
    Hiss,
}

impl Family {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::MainsOdd, Self::MainsEven, Self::Dimmer, Self::Telephone, Self::Whine, Self::Hiss];

    /// Identifier.
    pub const fn id(self) -> &'static str {
        match self {
            Self::MainsOdd => "mains-odd",
            Self::MainsEven => "mains-even",
            Self::Dimmer => "dimmer",
            Self::Telephone => "telephone",
            Self::Whine => "whine",
            Self::Hiss => "hiss",
        }
    }
}

/// How likely what was heard is of a family.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FamilyLikelihood {
    /// The family.
    pub family: Family,
    /// Its likelihood; that of the likeliest one is 1.
    pub likelihood: f64,
}

/// What there is of each kind of sound, A-weighted powers.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Parts {
    pub(super) lines: f64,
    pub(super) bursts: f64,
    pub(super) whine: f64,
    pub(super) noise: f64,
}

/// A sound of a family is the loudest part of what is heard; each so many dB that it is
/// quieter make that less likely, as one deviation would. Judgement.
const QUIETER: f64 = 5.0;
/// A tone is heard through noise of ten times its power: that is about what lies within its
/// critical band. Judgement.
const MASKED: f64 = 0.1;
/// Nothing that is heard rules a family out: once in a thousand it is told wrong. Judgement.
const LEAST: f64 = 1e-3;

/// How likely what was heard is of each family, the greatest being 1.
pub(super) fn families(lines: &[HeardLine], parts: Parts, through: Through) -> Vec<FamilyLikelihood> {
    let noise = parts.noise * MASKED;
    let loudest = parts.lines.max(parts.bursts).max(parts.whine).max(noise);
    let loud = |power: f64| {
        let off = decibels_of_power((power / loudest).max(1e-20)) / QUIETER;
        -0.5 * off * off
    };
    let shapes = [Shape::Odd, Shape::Even, Shape::Dimmer].map(|shape| fits(shape, lines, through));
    let best = shapes.into_iter().fold(f64::MIN, f64::max);
    let [odd, even, dimmer] = shapes.map(|fit| fit - best + loud(parts.lines));
    let all = [odd, even, dimmer, loud(parts.bursts), loud(parts.whine), loud(noise)];
    let most = all.into_iter().fold(f64::MIN, f64::max);
    let each = Family::ALL.into_iter().zip(all);
    each.map(|(family, log)| FamilyLikelihood { family, likelihood: (log - most).exp().max(LEAST) }).collect()
}

/// How well lines fit the templates of a shape: a natural logarithm, of the root of the mean
/// square of their likelihoods. A plain mean would speak against a shape that many templates
/// tell, which overlap, and the best alone for it.
fn fits(shape: Shape, lines: &[HeardLine], through: Through) -> f64 {
    let each: Vec<_> = templates(shape).map(|template| likelihood(lines, &template, through)).collect();
    let most = each.iter().copied().fold(f64::MIN, f64::max);
    let squares: f64 = each.iter().map(|log| (2.0 * (log - most)).exp()).sum();
    most + 0.5 * (squares / each.len().max(1) as f64).ln()
}
