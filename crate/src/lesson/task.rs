//! What kinds of steps there are, and what each of them needs.

use super::bench::{Bench, RESPONSE, over};
use super::file::{Lesson, LessonStep};
use crate::file::Flaw;
use crate::quantity::Unit;
use crate::report::Depth;

/// A kind of step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Something to read.
    Read,
    /// A reading as a number.
    Number,
    /// The power of ten of a reading.
    Magnitude,
    /// A curve.
    Curve,
    /// Parts from a drawer that meet limits.
    Target,
    /// What is wrong with a rig.
    Fault,
    /// Ways in their order.
    Choice,
    /// Which of two rigs is heard.
    Ear,
    /// One that is not known here.
    Unknown,
}

impl Kind {
    pub(super) fn of(step: &LessonStep) -> Self {
        match step.kind.as_str() {
            "read" => Self::Read,
            "number" => Self::Number,
            "magnitude" => Self::Magnitude,
            "curve" => Self::Curve,
            "target" => Self::Target,
            "fault" => Self::Fault,
            "choice" => Self::Choice,
            "ear" => Self::Ear,
            _ => Self::Unknown,
        }
    }

    /// Whether something is to be answered.
    pub(super) fn asks(self) -> bool {
        !matches!(self, Self::Read | Self::Unknown)
    }
}

/// How far off something may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Slack {
    /// By so much.
    By(f64),
    /// By this share of what is right.
    Share(f64),
}

impl Slack {
    /// What a text of a lesson says of a unit; levels are off by decibels.
    pub(super) fn read(text: &str, unit: Unit, bench: &Bench) -> Option<Self> {
        if let Some(percent) = text.trim().strip_suffix('%') {
            let share = bench.quantity(percent, Unit::One).ok()? / 100.0;
            return (share > 0.0).then_some(Self::Share(share));
        }
        let by = bench.quantity(text, if unit.is_level() { Unit::Decibel } else { unit }).ok()?;
        (by > 0.0).then_some(Self::By(by))
    }

    /// So much, where this is right.
    pub(super) fn about(self, right: f64) -> f64 {
        match self {
            Self::By(by) => by,
            Self::Share(share) => share * right.abs(),
        }
    }

    /// How far off something is. As a share, twice and half of what is right are equally far:
    /// a guess is as good as its ratio, and nothing at all is as far off as can be.
    pub(super) fn off(self, said: f64, right: f64) -> f64 {
        let ratio = said / right;
        match self {
            Self::Share(_) if ratio > 0.0 => (ratio.max(1.0 / ratio) - 1.0) * right.abs(),
            Self::Share(_) => f64::INFINITY,
            Self::By(_) => (said - right).abs(),
        }
    }

    /// From and to where nothing is further off than this.
    pub(super) fn around(self, right: f64) -> (f64, f64) {
        let (a, b) = match self {
            Self::By(by) => (right - by, right + by),
            Self::Share(share) => (right / (1.0 + share), right * (1.0 + share)),
        };
        (a.min(b), a.max(b))
    }
}

/// What is full credit and what is none, where a step does not say: 5 % and 50 %, 1 dB and
/// 6 dB (judgement).
pub(super) fn slacks(step: &LessonStep, unit: Unit, bench: &Bench) -> (Slack, Slack) {
    let usual =
        if unit.is_level() { (Slack::By(1.0), Slack::By(6.0)) } else { (Slack::Share(0.05), Slack::Share(0.5)) };
    let good = Slack::read(&step.good, unit, bench).unwrap_or(usual.0);
    (good, Slack::read(&step.none, unit, bench).unwrap_or(usual.1))
}

/// The credit for something that is off by so much: all of it up to `good`, none from `none` on.
pub(super) fn credit(off: f64, good: f64, none: f64) -> f64 {
    if off <= good {
        return 1.0;
    }
    if off.is_nan() {
        return 0.0;
    }
    if none > good { ((none - off) / (none - good)).clamp(0.0, 1.0) } else { 0.0 }
}

/// So often X is to be named by ear, from the least to the most. Four right of four are guessed
/// once in sixteen, which is too often to mean anything; more than sixteen tire the ear (judgement).
pub(super) const TRIALS: std::ops::RangeInclusive<u8> = 5..=16;
/// And so often where a step does not say.
const TRIALS_USUAL: u8 = 8;

/// So often X is to be named.
pub(super) fn trials(step: &LessonStep) -> u8 {
    step.trials.filter(|trials| TRIALS.contains(trials)).unwrap_or(TRIALS_USUAL)
}

/// How likely guessing is to name at least so many right (binomial, each as likely as not).
pub(super) fn guessed(right: u8, trials: u8) -> f64 {
    let mut ways = 1_u64;
    let mut reach = 0_u64;
    for got in 0..=u64::from(trials) {
        if got >= u64::from(right) {
            reach += ways;
        }
        ways = ways * (u64::from(trials) - got) / (got + 1);
    }
    reach as f64 / 2_f64.powi(trials.into())
}

/// So many right are full credit: what the step says, or what guessing reaches at most once in
/// twenty.
pub(super) fn enough(step: &LessonStep) -> u8 {
    let trials = trials(step);
    let seldom = (0..=trials).find(|right| guessed(*right, trials) <= 0.05).unwrap_or(trials);
    step.enough.filter(|enough| *enough <= trials && 2 * enough > trials).unwrap_or(seldom)
}

/// What a step lacks for its kind, before anything is dealt.
pub(super) fn flaw_of(lesson: &Lesson, step: &LessonStep) -> Option<Flaw> {
    let flaw = |key| Flaw::new("steps", None, key);
    let kind = Kind::of(step);
    if kind == Kind::Unknown {
        return Some(flaw("no-kind").with("text", &step.kind));
    }
    let rig = lesson.rig_of(step);
    let texts = over(rig.values.clone(), &step.values);
    let Some(bench) = Bench::of(&rig.calculator, texts, rig.settings()) else {
        return kind.asks().then(|| flaw("no-calculator").with("text", &rig.calculator));
    };
    if let Some((field, _)) = bench.fields.iter().find(|(_, echo)| echo.problem.is_some()) {
        return Some(flaw("quantity").at(field).with("text", bench.texts.get(field).map_or("", String::as_str)));
    }
    let Some(solution) = bench.solution(Depth::Plots) else { return Some(flaw("no-answer")) };
    let has = |reading: &str| solution.reading(reading).is_some();
    let missing = |field: &str, id: &str| Some(flaw("no-reading").at(field).with("text", id));
    match kind {
        Kind::Number | Kind::Magnitude if !has(&step.reading) => missing("reading", &step.reading),
        Kind::Curve if bench.trace(&step.plot, &step.trace).is_none() => missing("plot", &step.plot),
        Kind::Target if step.limits.is_empty() => Some(flaw("empty-list").at("limits")),
        Kind::Target if step.drawer.is_empty() => Some(flaw("empty-list").at("drawer")),
        Kind::Target => {
            let limit = step.limits.iter().find(|limit| !has(&limit.reading))?;
            missing("limits", &limit.reading)
        }
        Kind::Fault if step.cases.len() < 2 => Some(flaw("empty-list").at("cases")),
        Kind::Fault => {
            let measure = step.measures.iter().find(|measure| !has(measure));
            measure.map_or_else(
                || step.measures.is_empty().then(|| flaw("empty-list").at("measures")),
                |id| missing("measures", id),
            )
        }
        Kind::Ear => flaw_of_ear(step, &bench, has),
        Kind::Choice if step.ways.is_empty() && solution.ranking.len() < 2 => Some(flaw("empty-list").at("ways")),
        Kind::Choice if !step.ways.is_empty() && !has(&step.reading) => missing("reading", &step.reading),
        _ => None,
    }
}

/// What a step by ear lacks: two rigs that differ in something that can be heard or told.
fn flaw_of_ear(step: &LessonStep, bench: &Bench, has: impl Fn(&str) -> bool) -> Option<Flaw> {
    let flaw = |key| Flaw::new("steps", None, key);
    let unread = step.measures.iter().find(|measure| !has(measure));
    if let Some(id) = unread {
        return Some(flaw("no-reading").at("measures").with("text", id));
    }
    let is_heard = bench.heard_trace(&step.trace).is_some();
    if step.ways.len() != 2 {
        return Some(flaw("two-rigs").at("ways"));
    }
    if !(step.plot.is_empty() || step.plot == RESPONSE) || !is_heard && step.measures.is_empty() {
        let plot = if step.plot.is_empty() { RESPONSE } else { &step.plot };
        return Some(flaw("no-reading").at("plot").with("text", plot));
    }
    if step.trials.is_some_and(|trials| !TRIALS.contains(&trials)) {
        let (least, most) = (TRIALS.start().to_string(), TRIALS.end().to_string());
        return Some(flaw("trials").at("trials").with("least", &least).with("most", &most));
    }
    let is_other = step.enough.is_some_and(|said| said != enough(step));
    is_other.then(|| flaw("enough").at("enough").with("trials", &trials(step).to_string()))
}
