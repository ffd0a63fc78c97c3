//! What is wrong with a rig.

use super::{Case, Key, Marked};
use crate::lesson::bench::Bench;
use crate::lesson::file::{Case as FaultCase, LessonStep};
use crate::quantity::{SHOWN, write};
use crate::report::{Plot, Reading};
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
    let finding = if is_right {
        case.found("right", &[])
    } else if is_alike {
        case.found("fault-alike", &[("said", name(said)), ("right", name(wrong))])
    } else {
        contradiction(case, said, wrong)
    };
    let mut findings = vec![finding];
    if case.response.measured.is_empty() {
        findings.push(case.found("fault-guessed", &[]));
    }
    Marked {
        share: if is_right { 1.0 } else { f64::from(u8::from(is_alike)) * 0.5 },
        key,
        findings,
        plot: plot(case, said, wrong),
        ..Marked::default()
    }
}

/// What differs by less is no argument, as a share, or dB for a level (judgement).
const CLEAR: f64 = 0.1;
const CLEAR_LEVEL: f64 = 1.0;

/// A reading that would be another one with what was said: one that was measured rather than
/// one that was not, where it differs clearly.
fn contradiction(case: &Case, said: &FaultCase, wrong: &FaultCase) -> super::Finding {
    let measures = || case.response.measured.iter().chain(&case.step.measures);
    let known = || measures().filter(|id| case.step.measures.contains(id));
    let pair = |id: &String| {
        let of = |fault: &FaultCase| case.bench.with(&fault.values).worded(id, case.settings);
        Some((of(said)?, of(wrong)?)).filter(|(said, wrong)| said.text != wrong.text)
    };
    let clear = known().filter_map(pair).find(|(said, wrong)| is_clear(said, wrong));
    let fault = ("said", Arg::Text(said.name.clone()));
    match clear.or_else(|| known().find_map(pair)) {
        Some((said, wrong)) => case.found(
            "fault-reads",
            &[fault, ("reading", Arg::Text(said.name)), ("would", Arg::Text(said.text)), ("is", Arg::Text(wrong.text))],
        ),
        None => case.found("fault-other", &[fault]),
    }
}

fn is_clear(a: &Reading, b: &Reading) -> bool {
    match (a.value, b.value) {
        (Some(x), Some(y)) if a.unit.is_level() => (x - y).abs() >= CLEAR_LEVEL,
        (Some(x), Some(y)) => (x - y).abs() >= CLEAR * x.abs().max(y.abs()),
        // One of them has none.
        _ => true,
    }
}

/// The plot of the step with what is wrong, and with what was said to be.
fn plot(case: &Case, said: &FaultCase, wrong: &FaultCase) -> Option<Plot> {
    let (plot, trace) = (&case.step.plot, &case.step.trace);
    let (mut pictured, mut truth) = case.bench.with(&wrong.values).trace(plot, trace)?;
    truth.name = Message::Text(wrong.name.clone().into());
    pictured.traces = vec![truth];
    if said != wrong {
        let (_, mut claimed) = case.bench.with(&said.values).trace(plot, trace)?;
        claimed.id = "said";
        claimed.name = Message::Text(said.name.clone().into());
        claimed.reference = true;
        pictured.traces.push(claimed);
    }
    Some(pictured.worded(case.settings))
}
