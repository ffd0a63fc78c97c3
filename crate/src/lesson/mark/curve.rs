//! A curve: half of the credit is how far it is off all along, half is what it has, its
//! plateau, its peak and its slopes.

use super::{Case, Finding, Key, Marked};
use crate::ask::Scale;
use crate::lesson::bench::Bench;
use crate::lesson::task::{Slack, credit};
use crate::numeric::{highest, interpolate};
use crate::quantity::Unit;
use crate::report::{Plot, Trace};
use crate::words::{Arg, Message};

/// So many places along a band are compared.
const PLACES: usize = 121;
/// What is less is no peak, dB (judgement).
const PEAK: f64 = 1.0;
/// What is level is so within this, dB either way (judgement).
const FLAT: f64 = 0.3;
/// A peak has full credit within a third of an octave, and none from two octaves on
/// (judgement).
const PLACE: (f64, f64) = (1.0 / 3.0, 2.0);
/// A right curve that a level line comes so near to is level itself (judgement).
const LEVEL: f64 = 0.9;
/// So many level lines are tried.
const LINES: u32 = 40;
/// A curve is taken for that of another value where it is nearer to it than to the right
/// one by this (judgement).
const NEARER: f64 = 0.7;
/// Full credit and none where a step does not say, dB (judgement).
const USUAL: (f64, f64) = (1.5, 9.0);
/// Nor is it told of one that is a thousand times as much, or less (judgement): ln 1000.
const FARTHEST: f64 = 6.907_755_278_982_137;
/// So many values of a field are tried, and so often the best is looked at more closely.
const VALUES: usize = 48;
const CLOSER: u32 = 24;

/// Levels along a band, evenly spaced over the logarithm of the frequency.
struct Along {
    hz: Vec<f64>,
    level: Vec<f64>,
}

/// What a curve has.
struct Features {
    /// Its level where the right one is level; all along where that is nowhere.
    plateau: f64,
    /// Its height over the plateau, dB, and where; nothing where it has none.
    peak: Option<(f64, f64)>,
    /// Over the first and over the last octave, dB.
    slopes: [f64; 2],
}

pub(super) fn key(case: &Case) -> Option<Key> {
    let (plot, trace) = case.bench.trace(&case.step.plot, &case.step.trace)?;
    // A curve that ends within its band is none to compare with.
    if levels(&trace, &places(band(case, &plot))).iter().any(|level| !level.is_finite()) {
        return None;
    }
    Some(Key { text: told(case, &plot, &trace), curve: points_of(&trace), ..Key::default() })
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let Some((plot, trace)) = case.bench.trace(&case.step.plot, &case.step.trace) else {
        return case.problem("lesson-no-key");
    };
    let points = &case.response.curve;
    let rises = points.windows(2).all(|pair| pair[0].0 < pair[1].0);
    let is_read = points.iter().all(|(hz, level)| *hz > 0.0 && hz.is_finite() && level.is_finite());
    if points.len() < 2 || !rises || !is_read {
        return case.problem("lesson-draw-curve");
    }
    let band = band(case, &plot);
    let hz = places(band);
    let right = Along { level: levels(&trace, &hz), hz: hz.clone() };
    let said = Along { level: drawn(points, &hz), hz: hz.clone() };
    let slack = |text: &str, usual: f64| match Slack::read(text, Unit::Decibel, &case.bench) {
        Some(Slack::By(by)) => by,
        _ => usual,
    };
    let slack = (slack(&case.step.good, USUAL.0), slack(&case.step.none, USUAL.1));
    let (share, mut findings) = compared(case, &said, &right, slack);
    let share = over_level(case, share, &right, slack);
    // Of what is right nobody asks what else it would be.
    let off = if share < 1.0 { slack.0.min(NEARER * rms(&said.level, &right.level)) } else { 0.0 };
    let fit = fit(case, &said, off);
    findings.extend(fit.as_ref().map(|fit| fit.finding.clone()));
    if share >= 1.0 {
        findings.insert(0, case.found("right", &[]));
    } else if findings.is_empty() {
        findings.push(furthest(case, &said, &right));
    }
    Marked { share, key, findings, plot: Some(pictured(case, plot, &trace, points, fit)), ..Marked::default() }
}

/// Where a curve is the furthest from the right one.
fn furthest(case: &Case, said: &Along, right: &Along) -> Finding {
    let apart = said.level.iter().zip(&right.level).map(|(a, b)| (a - b).abs());
    let at = apart.enumerate().max_by(|a, b| a.1.total_cmp(&b.1)).map_or(0, |(at, _)| at);
    let at_it = |of: &[f64]| of.get(at).copied().unwrap_or_default();
    let level = |of: &Along| case.written(at_it(&of.level), Unit::Decibel);
    let args = [("hz", case.written(at_it(&said.hz), Unit::Hertz)), ("said", level(said)), ("right", level(right))];
    case.found("curve-off", &args)
}

/// A curve in words: where it is level, its peak, and how it begins and ends.
fn told(case: &Case, plot: &Plot<Message>, trace: &Trace<Message>) -> String {
    let hz = places(band(case, plot));
    let curve = Along { level: levels(trace, &hz), hz };
    let places = level_places(&curve.level);
    let Features { plateau, peak, slopes } = curve.features(&places);
    let decibels = |value: f64| case.written(value, Unit::Decibel);
    let end = |of: Option<&f64>, unit| case.written(of.copied().unwrap_or_default(), unit);
    let mut said = vec![if places.len() < curve.level.len() {
        case.say("lesson-curve-level", &[("level", decibels(plateau))])
    } else {
        let args = [
            ("low", end(curve.level.first(), Unit::Decibel)),
            ("from", end(curve.hz.first(), Unit::Hertz)),
            ("high", end(curve.level.last(), Unit::Decibel)),
            ("to", end(curve.hz.last(), Unit::Hertz)),
        ];
        case.say("lesson-curve-ends", &args)
    }];
    if let Some((height, hz)) = peak {
        let args = [("height", decibels(height)), ("hz", case.written(hz, Unit::Hertz))];
        said.push(case.say("lesson-curve-peak", &args));
    }
    for (key, slope) in ["lesson-curve-slope-low", "lesson-curve-slope-high"].into_iter().zip(slopes) {
        if slope.abs() >= PEAK {
            said.push(case.say(key, &[("by", decibels(slope))]));
        }
    }
    said.join("; ")
}

/// The points of a trace, thinned out.
fn points_of(trace: &Trace<Message>) -> Vec<(f64, f64)> {
    let every = (trace.x.len() / 60).max(1);
    let points = trace.x.iter().copied().zip(trace.y.iter().copied()).step_by(every);
    points.filter(|(_, y)| y.is_finite()).collect()
}

/// The band that counts: what the step says, within the plot.
fn band(case: &Case, plot: &Plot<Message>) -> (f64, f64) {
    let end =
        |text: &str, usual: f64| case.bench.quantity(text, Unit::Hertz).ok().filter(|hz| *hz > 0.0).unwrap_or(usual);
    let (from, to) = (end(&case.step.from, plot.x.from), end(&case.step.to, plot.x.to));
    let (from, to) = (from.max(plot.x.from), to.min(plot.x.to));
    if to > from { (from, to) } else { (plot.x.from, plot.x.to) }
}

fn places((from, to): (f64, f64)) -> Vec<f64> {
    (0..PLACES).map(|i| from * (to / from).powf(i as f64 / (PLACES - 1) as f64)).collect()
}

fn levels(trace: &Trace<Message>, hz: &[f64]) -> Vec<f64> {
    hz.iter().map(|hz| interpolate(&trace.x, &trace.y, held(*hz, &trace.x), true)).collect()
}

/// A place no further out than the samples go, by more than rounding.
fn held(hz: f64, along: &[f64]) -> f64 {
    let (Some(first), Some(last)) = (along.first(), along.last()) else { return hz };
    hz.clamp(*first, *last)
}

/// What was drawn: straight from point to point, and level beyond them.
fn drawn(points: &[(f64, f64)], hz: &[f64]) -> Vec<f64> {
    let (x, y): (Vec<_>, Vec<_>) = points.iter().copied().unzip();
    hz.iter().map(|hz| interpolate(&x, &y, held(*hz, &x), true)).collect()
}

fn rms(a: &[f64], b: &[f64]) -> f64 {
    let squares: f64 = a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum();
    (squares / a.len().max(1) as f64).sqrt()
}

/// The places at which a curve stays at one level the longest; all of them where that is
/// less than a sixth of the band (judgement).
fn level_places(levels: &[f64]) -> Vec<usize> {
    let near = |level: f64| (0..levels.len()).filter(|at| (levels[*at] - level).abs() <= FLAT).collect::<Vec<_>>();
    let longest = levels.iter().map(|level| near(*level)).max_by_key(Vec::len).unwrap_or_default();
    if 6 * longest.len() < levels.len() { (0..levels.len()).collect() } else { longest }
}

impl Along {
    /// Its features, with its plateau at some places.
    fn features(&self, places: &[usize]) -> Features {
        let plateau = places.iter().map(|at| self.level[*at]).sum::<f64>() / places.len().max(1) as f64;
        let ends = [self.level.first(), self.level.last()].into_iter().flatten().copied().fold(plateau, f64::max);
        let top = self.hz.iter().zip(&self.level).max_by(|a, b| a.1.total_cmp(b.1));
        let peak = top.filter(|(_, level)| **level > ends + PEAK).map(|(hz, level)| (level - plateau, *hz));
        let (first, last) = (self.hz.first().copied().unwrap_or(1.0), self.hz.last().copied().unwrap_or(1.0));
        let at = |hz: f64| interpolate(&self.hz, &self.level, held(hz, &self.hz), true);
        let octave = if last > 4.0 * first { 2.0 } else { (last / first).sqrt() };
        Features { plateau, peak, slopes: [at(first * octave) - at(first), at(last) - at(last / octave)] }
    }
}

/// Whether there is nothing to draw: a line that is level along the band.
pub(in crate::lesson) fn is_flat(bench: &Bench, plot: &str, trace: &str) -> bool {
    let Some((_, trace)) = bench.trace(plot, trace) else { return false };
    let heights = || trace.y.iter().copied().filter(|y| y.is_finite());
    heights().fold(f64::NEG_INFINITY, f64::max) - heights().fold(f64::INFINITY, f64::min) < PEAK
}

/// The credit without what the best level line would have of it: that takes no thought.
fn over_level(case: &Case, share: f64, right: &Along, slack: (f64, f64)) -> f64 {
    let heights = || right.level.iter().copied();
    let (least, most) = (heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max));
    let worth = |step: u32| {
        let height = least + (most - least) * f64::from(step) / f64::from(LINES);
        let level = Along { hz: right.hz.clone(), level: vec![height; right.hz.len()] };
        compared(case, &level, right, slack).0
    };
    let free = (0..=LINES).map(worth).fold(0.0, f64::max);
    if free < LEVEL { ((share - free) / (1.0 - free)).max(0.0) } else { share }
}

/// The credit, half for the shape and half for the features, and what there is to say.
fn compared(case: &Case, said: &Along, right: &Along, (good, none): (f64, f64)) -> (f64, Vec<Finding>) {
    let shape = credit(rms(&said.level, &right.level), good, none);
    let places = level_places(&right.level);
    let is_level = places.len() < right.level.len();
    let (guess, truth) = (said.features(&places), right.features(&places));
    let decibels = |value: f64| case.written(value, Unit::Decibel);
    let mut findings = Vec::new();
    let mut credits = Vec::new();
    let plateau = guess.plateau - truth.plateau;
    credits.push(credit(plateau.abs(), good, none));
    if plateau.abs() > good {
        let id = match (is_level, plateau > 0.0) {
            (true, true) => "plateau-high",
            (true, false) => "plateau-low",
            (false, true) => "level-high",
            (false, false) => "level-low",
        };
        findings.push(case.found(id, &[("off", decibels(plateau.abs()))]));
    }
    credits.push(match (guess.peak, truth.peak) {
        (Some((height, hz)), Some((right_height, right_hz))) => {
            let octaves = (hz / right_hz).log2();
            if octaves.abs() > PLACE.0 {
                let args = [("said", case.written(hz, Unit::Hertz)), ("right", case.written(right_hz, Unit::Hertz))];
                findings.push(case.found(if octaves > 0.0 { "peak-up" } else { "peak-down" }, &args));
            }
            if (height - right_height).abs() > good {
                let args = [("said", decibels(height)), ("right", decibels(right_height))];
                findings.push(case.found("peak-height", &args));
            }
            0.5 * credit(octaves.abs(), PLACE.0, PLACE.1) + 0.5 * credit((height - right_height).abs(), good, none)
        }
        (None, Some((height, hz))) => {
            let args = [("height", decibels(height)), ("right", case.written(hz, Unit::Hertz))];
            findings.push(case.found("peak-missing", &args));
            credit(height, good.min(PEAK), none)
        }
        (Some((height, hz)), None) => {
            findings.push(case.found("peak-invented", &[("said", case.written(hz, Unit::Hertz))]));
            credit(height, good.max(PEAK), none)
        }
        (None, None) => 1.0,
    });
    for (at, (guess, truth)) in guess.slopes.into_iter().zip(truth.slopes).enumerate() {
        credits.push(credit((guess - truth).abs(), good, none));
        if (guess - truth).abs() > good {
            let id = if at == 0 { "slope-low" } else { "slope-high" };
            let [said, right] = [guess, truth].map(decibels);
            findings.push(case.found(id, &[("said", said), ("right", right)]));
        }
    }
    let of_features = credits.iter().sum::<f64>() / credits.len() as f64;
    (0.5 * shape + 0.5 * of_features, findings)
}

/// The value of the open field whose curve is the nearest to the one that was drawn.
struct Fit {
    finding: Finding,
    trace: Trace<Message>,
}

/// Nothing where no value comes nearer than `off` to it.
fn fit(case: &Case, said: &Along, off: f64) -> Option<Fit> {
    let bench = &case.bench;
    let (field, number) = case.step.open.iter().find_map(|id| bench.field(id))?;
    let now = bench.values.optional(*field).ok().flatten()?;
    let scale = Scale::of(number.limits, number.usual);
    let curve = |x: f64| {
        let bench = Bench { values: bench.values.clone().with(*field, scale.value(x)), ..bench.clone() };
        bench.trace(&case.step.plot, &case.step.trace).map(|(_, trace)| trace)
    };
    let nearness = |x: f64| curve(x).map_or(f64::NAN, |trace| -rms(&levels(&trace, &said.hz), &said.level));
    let step = 1.0 / VALUES as f64;
    let tried = (0..=VALUES).map(|i| i as f64 * step).map(|x| (x, nearness(x))).filter(|(_, near)| near.is_finite());
    let (best, _) = tried.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let best = highest(nearness, (best - step).max(0.0), (best + step).min(1.0), CLOSER);
    let (value, nearest) = (scale.value(best), -nearness(best));
    // One at the end of what may be typed is no mistake anybody made.
    let is_another = now <= 0.0 || (0.1..FARTHEST).contains(&(value / now).ln().abs());
    if !(nearest < off && is_another) {
        return None;
    }
    let unit = number.unit_under(bench.calculator, &bench.values);
    let text = crate::quantity::write(value, unit, crate::quantity::SHOWN, case.settings);
    let name = Arg::Text(case.field_name(field.id));
    let finding = case.found("drawn-for", &[("field", name), ("value", Arg::Text(text.clone()))]);
    let trace = curve(best)?;
    let name = Message::Text(text.into());
    Some(Fit { finding, trace: Trace { id: "fit", name, reference: true, ..trace } })
}

/// The plot with what is right, what was drawn, and what that would be.
fn pictured(case: &Case, plot: Plot<Message>, right: &Trace<Message>, points: &[(f64, f64)], fit: Option<Fit>) -> Plot {
    let (x, y): (Vec<_>, Vec<_>) = points.iter().copied().unzip();
    let name = Message::whole("lesson-trace-drawn");
    let drawn = Trace { id: "drawn", name, reference: true, x, y };
    let traces = [right.clone(), drawn].into_iter().chain(fit.map(|fit| fit.trace)).collect();
    case.pictured(plot, traces)
}
