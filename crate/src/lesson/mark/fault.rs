//! What is wrong with a rig.

use super::{Case, Key, Marked, MarkedRow};
use crate::lesson::bench::Bench;
use crate::lesson::file::{Case as FaultCase, LessonStep};
use crate::quantity::level::decibels;
use crate::quantity::{SHOWN, write};
use crate::report::{Plot, Reading, Trace};
use crate::words::{Arg, Message};

/// Whether two cases read the same by everything that can be measured, as it is printed.
pub(in crate::lesson) fn alike(step: &LessonStep, bench: &Bench, a: &FaultCase, b: &FaultCase) -> bool {
    let read = |case: &FaultCase| {
        let bench = bench.with(&case.values);
        let printed = |id: &String| {
            bench
                .reading(id)
                .map(|reading| reading.value.map(|value| write(value, reading.unit, SHOWN, &bench.settings)))
        };
        step.measures.iter().map(printed).collect::<Vec<_>>()
    };
    read(a) == read(b)
}

pub(super) fn key(case: &Case) -> Option<Key> {
    let at = case.dealt.wrong?;
    let wrong = case.step.cases.get(at)?;
    Some(Key { text: wrong.name.clone(), case: Some(at), ..Key::default() })
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let cases = &case.step.cases;
    let wrong = key.case.and_then(|at| Some((at, cases.get(at)?)));
    let Some((at, wrong)) = wrong else { return case.problem("lesson-no-key") };
    let said = case.response.case.and_then(|at| Some((at, cases.get(at)?)));
    let Some((said_at, said)) = said else { return case.problem("lesson-name-fault") };
    let is_right = said_at == at;
    let is_alike = !is_right && alike(case.step, &case.bench, said, wrong);
    let name = |case: &FaultCase| Arg::Text(case.name.clone());
    let measured = pairs(case, said, wrong, &case.response.measured);
    let rows = rows(&measured);
    let finding = if is_right {
        case.found("right", &[])
    } else if is_alike {
        case.found("fault-alike", &[("said", name(said)), ("right", name(wrong))])
    } else {
        contradiction(case, said, wrong, measured)
    };
    let mut findings = vec![finding];
    if case.response.measured.is_empty() {
        findings.push(case.found("fault-guessed", &[]));
    }
    Marked {
        share: if is_right { 1.0 } else { f64::from(u8::from(is_alike)) * 0.5 },
        key,
        findings,
        rows,
        plot: plot(case, said, wrong),
        ..Marked::default()
    }
}

/// Readings with what was said and with what is wrong, of those that the step offers.
fn pairs(case: &Case, said: &FaultCase, wrong: &FaultCase, ids: &[String]) -> Vec<(Reading, Reading)> {
    let [said, wrong] = [said, wrong].map(|fault| case.bench.with(&fault.values));
    let of = |id: &String| Some((said.worded(id, case.settings)?, wrong.worded(id, case.settings)?));
    ids.iter().filter(|id| case.step.measures.contains(id)).filter_map(of).collect()
}

/// What was measured, beside what it would read with what was said.
fn rows(measured: &[(Reading, Reading)]) -> Vec<MarkedRow> {
    let row = |(said, wrong): &(Reading, Reading)| MarkedRow {
        id: wrong.id.to_owned(),
        name: wrong.name.clone(),
        is: wrong.text.clone(),
        other: said.text.clone(),
        fits: said.text == wrong.text,
        ..MarkedRow::default()
    };
    measured.iter().map(row).collect()
}

/// What differs by less is no argument, dB or as a ratio in dB (judgement).
const CLEAR: f64 = 1.0;

/// A reading that would be another one with what was said: the one that differs the most of
/// those that were measured, or else of all, where that is clear.
fn contradiction(
    case: &Case,
    said: &FaultCase,
    wrong: &FaultCase,
    mut measured: Vec<(Reading, Reading)>,
) -> super::Finding {
    let differs = |(said, wrong): &(Reading, Reading)| said.text != wrong.text;
    let mut all = pairs(case, said, wrong, &case.step.measures);
    measured.retain(differs);
    all.retain(differs);
    let clearest = |pairs: &[(Reading, Reading)]| {
        let apart = pairs.iter().map(|pair| (apart(&pair.0, &pair.1), pair));
        apart.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|pair| pair.0 >= CLEAR).map(|(_, pair)| pair.clone())
    };
    let clear = clearest(&measured).or_else(|| clearest(&all)).or_else(|| measured.into_iter().chain(all).next());
    let fault = ("said", Arg::Text(said.name.clone()));
    match clear {
        Some((said, wrong)) => case.found(
            "fault-reads",
            &[fault, ("reading", Arg::Text(said.name)), ("would", Arg::Text(said.text)), ("is", Arg::Text(wrong.text))],
        ),
        None => case.found("fault-other", &[fault]),
    }
}

/// How far apart two readings are, dB; without end where one of them has no value, or another sign.
pub(super) fn apart<T>(a: &Reading<T>, b: &Reading<T>) -> f64 {
    match (a.value, b.value) {
        (Some(x), Some(y)) if a.unit.is_level() => (x - y).abs(),
        (Some(x), Some(y)) if x / y > 0.0 => decibels(x / y).abs(),
        _ => f64::INFINITY,
    }
}

/// The plot of the step with what is wrong, and with what was said to be.
fn plot(case: &Case, said: &FaultCase, wrong: &FaultCase) -> Option<Plot> {
    let (plot, truth) = case.bench.with(&wrong.values).trace(&case.step.plot, &case.step.trace)?;
    let mut traces = vec![Trace { name: Message::Text(wrong.name.clone().into()), ..truth }];
    if said != wrong {
        traces.push(case.said_trace(&case.bench.with(&said.values), said.name.clone())?);
    }
    Some(case.pictured(plot, traces))
}
