//! Which family a sound is of.

use super::agreement::{ENDED, anything, likelihood};
use super::heard::{HeardLine, Through};
use super::template::{Shape, templates};
use crate::quantity::level::{decibels_of_power, power_ratio};
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

/// Through the air noise and talk are usual: they hide hum, and make it no less likely than
/// this. Judgement.
const USUAL: f64 = 1.0 / 3.0;
/// A tone so far over the noise beside it is no part of that, dB.
const FAR: f64 = 30.0;
/// How likely it is that the lines of a shape lie anywhere (judgement): where no template
/// fits, nothing is told.
const ANYHOW: f64 = 0.01;
/// How far odd lines re even ones may lie beyond what a shape has, one deviation, dB, and how
/// far that counts. Judgement.
const ASIDE: f64 = 6.0;
const FARTHEST: f64 = 20.0;
/// So much of the first line even ones may lack, as a ratio of powers: 13 dB. Judgement.
const UNEQUAL: f64 = 0.05;
/// A dimmer has so many odd lines, or a corner; else it is not much likelier than other odd
/// ones. Judgement.
const FLAT: usize = 16;
const MUCH: f64 = 2.0;

/// What is heard, as far as it tells a family.
#[derive(Clone, Copy, Debug)]
pub(super) struct Told<'a> {
    pub(super) lines: &'a [HeardLine],
    pub(super) parts: Parts,
    /// How far a tone that is no harmonic stands over the noise, dB.
    pub(super) whine: Option<f64>,
    /// Whether the lines bend down.
    pub(super) bends: bool,
    pub(super) through: Through,
}

/// How likely what was heard is of each family, the greatest being 1.
pub(super) fn families(told: Told<'_>) -> Vec<FamilyLikelihood> {
    let Told { parts, through, .. } = told;
    let noise = parts.noise * MASKED;
    let others = parts.lines.max(parts.bursts).max(parts.whine);
    let re = |power: f64, loudest: f64| {
        let off = decibels_of_power((power / loudest).max(1e-20)) / QUIETER;
        -0.5 * off * off
    };
    let loud = |power: f64| {
        let all = re(power, others.max(noise));
        if through == Through::Air && others > 0.0 { all.max(re(power, others) + USUAL.ln()) } else { all }
    };
    let [odd, even, dimmer] = shapes(told).map(|fit| fit + loud(parts.lines));
    let whine = loud(parts.whine);
    let far = told.whine.is_some_and(|over| over > FAR);
    let hiss = re(noise, others.max(noise)).min(if far { whine } else { 0.0 });
    let all = [odd, even, dimmer, loud(parts.bursts), whine, hiss];
    let most = all.into_iter().fold(f64::MIN, f64::max);
    // What is heard of a room alone may hide anything.
    let least = if through == Through::Air && others == 0.0 { USUAL } else { LEAST };
    let each = Family::ALL.into_iter().zip(all);
    each.map(|(family, log)| FamilyLikelihood { family, likelihood: (log - most).exp().max(least) }).collect()
}

/// How well lines fit odd ones, even ones and a dimmer: natural logarithms re the best.
fn shapes(told: Told<'_>) -> [f64; 3] {
    let Told { lines, through, .. } = told;
    let any = anything(lines) + ANYHOW.ln();
    let or_any = |fits: f64| {
        let most = fits.max(any);
        most + ((fits - most).exp() + (any - most).exp()).ln()
    };
    let [odd, even, dimmer] = [Shape::Odd, Shape::Even, Shape::Dimmer].map(|shape| fits(shape, lines, through));
    let (odd, even) = (or_any(odd), or_any(even));
    let sides = sides(lines, through);
    let count = lines.iter().filter(|line| line.harmonic % 2 == 1).count();
    let dimmer = if told.bends || count >= FLAT { or_any(dimmer) } else { dimmer.min(odd + MUCH.ln()) };
    let (odd, even, dimmer) = (odd + sides[0], even + sides[1], dimmer + sides[0]);
    let best = odd.max(even).max(dimmer);
    [odd, even, dimmer].map(|fit| fit - best)
}

/// How much less likely odd lines, and even ones, are made by those of the other kind,
/// whatever template fits. The first line says little against even ones: unequal half cycles
/// bring it, and a bridge that always conducts.
fn sides(lines: &[HeardLine], through: Through) -> [f64; 2] {
    let power = |of: fn(u32) -> bool| -> f64 {
        lines.iter().filter(|line| of(line.harmonic)).map(|line| power_ratio(line.level)).sum()
    };
    let [first, odd, even] = [power(|n| n == 1), power(|n| n > 1 && n % 2 == 1), power(|n| n % 2 == 0)];
    let spread = ASIDE.hypot(through.spread());
    let beyond = |wrong: f64, right: f64| {
        let over = decibels_of_power((wrong / right.max(f64::MIN_POSITIVE)).max(1.0)).min(FARTHEST);
        -0.5 * (over / spread).powi(2)
    };
    [beyond(even, first + odd), beyond(odd + first * UNEQUAL, even)]
}

/// How well lines fit the templates of a shape: a natural logarithm, of the root of the mean
/// square of their likelihoods. A plain mean would speak against a shape that many templates
/// tell, which overlap, and the best alone for it.
fn fits(shape: Shape, lines: &[HeardLine], through: Through) -> f64 {
    // The lines of a dimmer hardly end.
    let ended = if shape == Shape::Dimmer { 0.0 } else { ENDED };
    let each: Vec<_> = templates(shape).map(|template| likelihood(lines, &template, through, ended)).collect();
    let most = each.iter().copied().fold(f64::MIN, f64::max);
    let squares: f64 = each.iter().map(|log| (2.0 * (log - most)).exp()).sum();
    most + 0.5 * (squares / each.len().max(1) as f64).ln()
}
