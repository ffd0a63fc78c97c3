//! Which of two rigs is heard: A, B, and X, which is one of them and has to be named several
//! times. Who does not listen is shown two curves without names instead, and says which is A's.

use super::fault::apart as readings_apart;
use super::{Case, Finding, Heard, Key, Marked, MarkedRow, Seen, bench_of};
use crate::catalogue::UNHEARD;
use crate::lesson::bench::Bench;
use crate::lesson::deal::{Dealt, Side};
use crate::lesson::file::{Lesson, LessonStep};
use crate::lesson::task::{Kind, enough, guessed, trials};
use crate::numeric::interpolate;
use crate::quantity::Unit;
use crate::report::{Depth, Plot, Trace};
use crate::settings::Settings;
use crate::words::{Arg, Message, Words};
use serde::Serialize;

/// Where rigs are compared, Hz: what instruments on a stage have, and small headphones give.
const FROM: f64 = 50.0;
const TO: f64 = 12_500.0;
/// So many places of it, twelve an octave.
const PLACES: usize = 97;
/// Where the lowest of three bands ends, and where the highest begins, Hz (judgement).
const BANDS: [(&str, f64, f64); 3] = [("low", FROM, 250.0), ("mid", 250.0, 2000.0), ("high", 2000.0, TO)];
/// What differs by more than this can be heard, dB (judgement, as [`UNHEARD`]).
const HEARD: f64 = 1.0;
/// So seldom guessing is told as once in so many, and else in percent.
const SELDOM: f64 = 0.1;

/// What two rigs look like that have no names.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "EarEye"))]
pub struct Eye {
    /// Their responses; nothing where the step has none.
    pub plot: Option<Plot>,
    /// Their readings.
    pub rows: Vec<EyeRow>,
}

/// A reading of two rigs that have no names.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "EarEyeRow"))]
pub struct EyeRow {
    /// The reading.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What it reads with the first rig.
    pub first: String,
    /// What it reads with the second one.
    pub second: String,
}

/// Which rig X is in a trial, from 0 on; nothing where there is no such trial.
pub fn x_of(dealt: &Dealt, at: usize, trial: usize) -> Option<Side> {
    dealt.steps.get(at)?.x.get(trial).copied()
}

/// What the two rigs of a step by ear look like; nothing where it is of another kind.
pub fn eye(lesson: &Lesson, dealt: &Dealt, at: usize, settings: &Settings) -> Option<Eye> {
    let (step, dealt) = (lesson.steps.get(at)?, dealt.steps.get(at)?);
    if Kind::of(step) != Kind::Ear {
        return None;
    }
    let mut rigs = rigs(step, &bench_of(lesson, step, dealt)?)?;
    if dealt.first == Side::B {
        rigs.reverse();
    }
    let [first, second] = &rigs;
    let rows = step.measures.iter().filter_map(|id| {
        let (one, other) = (first.worded(id, settings)?, second.worded(id, settings)?);
        Some(EyeRow { id: id.clone(), name: one.name, first: one.text, second: other.text })
    });
    let say = |key| Words::of(settings.language).text(key, &[], settings);
    let names = [say("lesson-ear-first"), say("lesson-ear-second")];
    Some(Eye { plot: pictured(step, &rigs, names).map(|plot| plot.worded(settings)), rows: rows.collect() })
}

/// A and B.
fn rigs(step: &LessonStep, bench: &Bench) -> Option<[Bench; 2]> {
    let [a, b] = &step.ways[..] else { return None };
    Some([bench.with(&a.values), bench.with(&b.values)])
}

/// The responses of two rigs in one plot.
fn pictured(step: &LessonStep, [a, b]: &[Bench; 2], [name, other]: [String; 2]) -> Option<Plot<Message>> {
    let (mut plot, first) = a.heard_trace(&step.trace)?;
    let (_, second) = b.heard_trace(&step.trace)?;
    let heights = first.y.iter().chain(&second.y).copied().filter(|y| y.is_finite());
    (plot.y.from, plot.y.to) = heights.fold((plot.y.from, plot.y.to), |(least, most), y| (least.min(y), most.max(y)));
    let named = |id, name: String, trace: Trace<Message>| Trace { id, name: Message::Text(name.into()), ..trace };
    plot.traces = vec![named("one", name, first), named("other", other, second)];
    // What is marked is marked of one of them, and would tell which.
    plot.markers.clear();
    Some(plot)
}

/// How two rigs differ.
struct Apart {
    /// By how much B is over A: Hz and dB; nothing where they have no response. The level of
    /// all of it is taken out where they are matched.
    over: Vec<(f64, f64)>,
    /// What was taken out of that, dB; none where they are heard as they are.
    matched: f64,
    /// The most that a reading differs, dB or as a ratio in dB.
    reading: f64,
}

impl Apart {
    fn of(step: &LessonStep, rigs: &[Bench; 2]) -> Option<Self> {
        let [a, b] = rigs;
        let (of_a, of_b) = (a.solution(Depth::Readings)?, b.solution(Depth::Readings)?);
        let apart = |id: &String| {
            let (one, other) = (of_a.reading(id)?, of_b.reading(id)?);
            let is_same = one.value == other.value;
            Some(if is_same { 0.0 } else { readings_apart(one, other) })
        };
        let reading = step.measures.iter().filter_map(apart).fold(0.0, f64::max);
        let trace = |rig: &Bench| rig.heard_trace(&step.trace).map(|(_, trace)| trace);
        let mut over = match (trace(a), trace(b)) {
            (Some(a), Some(b)) => over(&a, &b),
            _ => Vec::new(),
        };
        let matched = if step.as_it_is { 0.0 } else { mean(&over, FROM, TO).unwrap_or(0.0) };
        for (_, by) in &mut over {
            *by -= matched;
        }
        over.iter().all(|(_, by)| by.is_finite()).then_some(Self { over, matched, reading })
    }

    /// Where they differ the most, and by how much B is over A there.
    fn most(&self) -> Option<(f64, f64)> {
        self.over.iter().copied().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
    }

    /// By how much they differ at the most, by what is heard or by what is read.
    fn by(&self) -> f64 {
        self.most().map_or(0.0, |(_, by)| by.abs()).max(self.reading)
    }

    fn is_heard(&self) -> bool {
        self.by() >= UNHEARD
    }
}

fn over(a: &Trace<Message>, b: &Trace<Message>) -> Vec<(f64, f64)> {
    let level = |trace: &Trace<Message>, hz: f64| {
        let ends = (trace.x.first().copied().unwrap_or(hz), trace.x.last().copied().unwrap_or(hz));
        interpolate(&trace.x, &trace.y, hz.max(ends.0).min(ends.1), true)
    };
    let place = |i: usize| FROM * (TO / FROM).powf(i as f64 / (PLACES - 1) as f64);
    (0..PLACES).map(place).map(|hz| (hz, level(b, hz) - level(a, hz))).collect()
}

/// The mean over a band, each octave as much as another.
fn mean(over: &[(f64, f64)], from: f64, to: f64) -> Option<f64> {
    // The ends are places to all but rounding.
    let inside = over.iter().filter(|(hz, _)| (from * 0.999..=to * 1.001).contains(hz));
    let (sum, count) = inside.fold((0.0, 0.0), |(sum, count), (_, by)| (sum + by, count + 1.0));
    (count > 0.0).then(|| sum / count)
}

/// Whether some hear the difference of a step and others do not.
pub(in crate::lesson) fn hardly_heard(step: &LessonStep, bench: &Bench) -> bool {
    let apart = rigs(step, bench).and_then(|rigs| Apart::of(step, &rigs));
    apart.is_some_and(|apart| (UNHEARD..HEARD).contains(&apart.by()))
}

pub(super) fn key(case: &Case) -> Option<Key> {
    let apart = Apart::of(case.step, &rigs(case.step, &case.bench)?)?;
    let x = &case.dealt.x;
    if !apart.is_heard() {
        let text = case.say("lesson-ear-nothing", &[]);
        return Some(Key { text, heard: vec![Heard::Skip; x.len()], seen: Some(Seen::Alike), ..Key::default() });
    }
    let letters: Vec<_> = x.iter().map(|side| if *side == Side::A { "A" } else { "B" }).collect();
    let seen = if case.dealt.first == Side::A { Seen::First } else { Seen::Second };
    let heard = x.iter().map(|side| Heard::from(*side)).collect();
    Some(Key { text: letters.join(" "), heard, seen: Some(seen), ..Key::default() })
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let rigs = rigs(case.step, &case.bench);
    let apart = rigs.and_then(|rigs| Some((Apart::of(case.step, &rigs)?, rigs)));
    let Some((apart, rigs)) = apart else { return case.problem("lesson-no-key") };
    let heard = &case.response.heard;
    let (share, mut findings) = match case.response.seen {
        Some(seen) if heard.is_empty() => by_eye(case, seen, key.seen),
        _ if heard.len() != usize::from(trials(case.step)) => return case.problem("lesson-hear-all"),
        _ if apart.is_heard() => by_ear(case),
        _ => nothing_heard(case, &apart),
    };
    findings.extend(apart.most().filter(|(_, by)| by.abs() >= UNHEARD).map(|most| furthest(case, most)));
    if apart.matched.abs() >= UNHEARD {
        // What is told of them would contradict the curves beside it.
        findings.push(case.found("ear-unmatched", &[]));
    }
    // Where two curves lie on each other, their names stand by both: the look tells them apart.
    let names = [("lesson-ear-drawn-a", 0), ("lesson-ear-drawn-b", 1)].map(|(key, at)| {
        let name = case.step.ways.get(at).map(|way| way.name.clone()).unwrap_or_default();
        case.say(key, &[("name", Arg::Text(name))])
    });
    let plot = pictured(case.step, &rigs, names).map(|plot| plot.worded(case.settings));
    Marked { share, key, findings, rows: rows(case, &apart, &rigs), plot, ..Marked::default() }
}

/// So many times X was named right.
fn right(case: &Case) -> u8 {
    let pairs = case.response.heard.iter().zip(&case.dealt.x);
    pairs.map(|(said, is)| u8::from(*said == Heard::from(*is))).sum()
}

/// How many were right, and how often guessing does as well.
fn against_chance(case: &Case, right: u8) -> Finding {
    let of = trials(case.step);
    let chance = guessed(right, of);
    let count = |count: f64| Arg::Text(format!("{count:.0}"));
    let args = [("right", count(right.into())), ("of", count(of.into()))];
    // Guessing always does as well as none.
    if right == 0 {
        case.found("ear-none", &args)
    } else if chance <= SELDOM {
        case.found("ear-seldom", &[&args[..], &[("times", count(1.0 / chance))]].concat())
    } else {
        // Rounded up it would be always.
        let percent = (100.0 * chance).min(99.0);
        case.found("ear-chance", &[&args[..], &[("percent", count(percent))]].concat())
    }
}

/// All of the credit from enough on; half of it for one less.
fn by_ear(case: &Case) -> (f64, Vec<Finding>) {
    let (right, enough) = (right(case), enough(case.step));
    let mut findings = vec![against_chance(case, right)];
    if right < enough {
        let count = |count: u8| Arg::Text(count.to_string());
        findings.push(case.found("ear-enough", &[("enough", count(enough)), ("of", count(trials(case.step)))]));
    }
    let share = match enough.saturating_sub(right) {
        0 => 1.0,
        1 => 0.5,
        _ => 0.0,
    };
    (share, findings)
}

/// Where there is nothing to hear, who says so is right. Who names one or the other half of the
/// time or more has heard something that is not there.
fn nothing_heard(case: &Case, apart: &Apart) -> (f64, Vec<Finding>) {
    let right = right(case);
    let off = [("off", case.written(UNHEARD.max(apart.by()), Unit::Decibel))];
    let skipped = case.response.heard.iter().filter(|said| **said == Heard::Skip).count();
    if 2 * skipped > case.response.heard.len() {
        return (1.0, vec![case.found("ear-nothing", &off)]);
    }
    let (share, id) = if right >= enough(case.step) { (1.0, "ear-luck") } else { (0.5, "ear-imagined") };
    (share, vec![against_chance(case, right), case.found(id, &off)])
}

fn by_eye(case: &Case, seen: Seen, is: Option<Seen>) -> (f64, Vec<Finding>) {
    if Some(seen) == is {
        return (1.0, vec![case.found("right", &[])]);
    }
    let id = match is {
        Some(Seen::First) => "ear-seen-first",
        Some(Seen::Second) => "ear-seen-second",
        _ => "ear-seen-alike",
    };
    (0.0, vec![case.found(id, &[])])
}

fn furthest(case: &Case, (hz, by): (f64, f64)) -> Finding {
    let args = [("hz", case.written(hz, Unit::Hertz)), ("off", case.written(by.abs(), Unit::Decibel))];
    let id = match (by < 0.0, case.step.as_it_is) {
        (true, true) => "ear-b-lower",
        (false, true) => "ear-a-lower",
        (true, false) => "ear-b-lower-matched",
        (false, false) => "ear-a-lower-matched",
    };
    case.found(id, &args)
}

/// What differs, band by band, and reading by reading.
fn rows(case: &Case, apart: &Apart, [a, b]: &[Bench; 2]) -> Vec<MarkedRow> {
    let bands = BANDS.into_iter().filter_map(|(id, from, to)| {
        let by = mean(&apart.over, from, to)?;
        let off = [("off", case.written(by.abs(), Unit::Decibel))];
        let fits = by.abs() < UNHEARD;
        let how = if fits {
            "lesson-ear-level"
        } else if by < 0.0 {
            "lesson-ear-lower"
        } else {
            "lesson-ear-higher"
        };
        let ends = [("from", case.written(from, Unit::Hertz)), ("to", case.written(to, Unit::Hertz))];
        let key = if case.step.as_it_is { "lesson-ear-band" } else { "lesson-ear-band-matched" };
        let name = case.say(key, &ends);
        Some(MarkedRow { id: id.to_owned(), name, is: case.say(how, &off), fits, ..MarkedRow::default() })
    });
    let readings = case.step.measures.iter().filter_map(|id| {
        let (one, other) = (a.worded(id, case.settings)?, b.worded(id, case.settings)?);
        let fits = one.text == other.text;
        let (id, name) = (id.clone(), one.name);
        Some(MarkedRow { id, name, is: one.text, other: other.text, fits, ..MarkedRow::default() })
    });
    bands.chain(readings).collect()
}
