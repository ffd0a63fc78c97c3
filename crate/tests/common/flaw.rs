//! What must not be in any answer, whatever was asked.

use super::{ask, step};
use serde_json::{Map, Value, json};
use stageohm::answer::Answer;
use stageohm::ask::Echo;
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::field::Kind;
use stageohm::quantity::read;
use stageohm::report::{Axis, Link, Plot, Report};
use stageohm::settings::{Decimal, Settings};

/// What is wrong with an answer.
pub fn flaws(answer: &Answer, settings: &Settings) -> Vec<String> {
    let mut flaws = Vec::new();
    let echoes: Vec<_> = answer.fields.iter().map(|(_, echo)| echo).collect();
    for problem in echoes.iter().filter_map(|echo| echo.problem.as_ref()).chain(&answer.problems) {
        flaws.extend(text("a problem", &problem.message));
    }
    for echo in echoes {
        flaws.extend(text("a field", &echo.text));
        flaws.extend(echo.note.as_ref().and_then(|note| text("a note", note)));
    }
    let refused = answer.fields.iter().any(|(_, echo)| echo.problem.is_some()) || !answer.problems.is_empty();
    match &answer.report {
        None if !refused => flaws.push("neither a report nor a problem".to_owned()),
        Some(_) if refused => flaws.push("a report beside a problem".to_owned()),
        Some(report) => flaws.extend(of_report(report, settings)),
        None => {}
    }
    flaws
}

/// What is wrong with a report.
pub fn of_report(report: &Report, settings: &Settings) -> Vec<String> {
    let mut flaws = Vec::new();
    let reasons = report.ranking.iter().flat_map(|candidate| &candidate.reasons).map(|reason| &reason.reading);
    for reading in report.headline.iter().chain(&report.further).chain(reasons) {
        let place = format!("reading {}", reading.id);
        if !reading.value.is_none_or(f64::is_finite) {
            flaws.push(format!("{place} is {:?}", reading.value));
        }
        let verdict = reading.verdict.iter().map(|verdict| &verdict.text);
        flaws.extend([&reading.name, &reading.text].into_iter().chain(verdict).filter_map(|said| text(&place, said)));
    }
    for (place, said) in
        [("a warning", &report.warnings), ("a caution", &report.cautions), ("a source", &report.sources)]
    {
        flaws.extend(said.iter().filter_map(|said| text(place, said)));
    }
    for candidate in &report.ranking {
        let said = [&candidate.name, &candidate.verdict.text];
        flaws.extend(said.into_iter().filter_map(|said| text(&format!("candidate {}", candidate.id), said)));
    }
    for plot in &report.plots {
        flaws.extend(of_plot(plot).into_iter().map(|flaw| format!("plot {}: {flaw}", plot.id)));
    }
    for step in &report.working {
        flaws.extend(text("a step", &step.name));
        for printed in [&step.formula, &step.numbers, &step.result] {
            // There a thing that is not there may be an endless resistance.
            flaws.extend(text("the working", &printed.replace('∞', "")));
        }
        if settings.decimal == Decimal::Point {
            flaws.extend(step::flaw(step).map(|flaw| format!("the working: {flaw}")));
        }
    }
    flaws.extend(links(report).into_iter().flat_map(|link| of_link(link, settings)));
    flaws
}

/// Every link that a report offers.
pub fn links(report: &Report) -> Vec<&Link> {
    let ranked = report.ranking.iter().flat_map(|candidate| {
        std::iter::once(&candidate.link).chain(candidate.reasons.iter().filter_map(|reason| reason.link.as_ref()))
    });
    report.links.iter().chain(ranked).collect()
}

/// What is wrong where a link leads: each value that it gives must be taken as
/// it was given, and answered.
pub fn of_link(link: &Link, settings: &Settings) -> Vec<String> {
    let values: Map<String, Value> = link.values.iter().map(|(id, text)| ((*id).to_owned(), json!(text))).collect();
    let answer =
        ask(json!({ "calculator": link.calculator, "values": values, "settings": settings, "working": false }));
    let place = format!("the link to {}", link.calculator);
    let mut flaws: Vec<_> = text(&place, &link.text).into_iter().collect();
    flaws.extend(answer.problems.iter().map(|problem| format!("{place}: {}", problem.message)));
    for (id, echo) in answer.fields.iter() {
        flaws.extend(echo.problem.iter().map(|problem| format!("{place}, {id}: {}", problem.message)));
    }
    for (id, given) in &link.values {
        if !answer.fields.get(id).is_some_and(|echo| is_taken(link.calculator, id, given, echo, settings)) {
            flaws.push(format!("{place}, {id}: {given} is read as {:?}", answer.fields.get(id)));
        }
    }
    if answer.report.is_none() && flaws.is_empty() {
        flaws.push(format!("{place}: no report"));
    }
    flaws
}

/// Whether a field has the value that the text says, by itself.
fn is_taken(calculator: &str, id: &str, given: &str, echo: &Echo, settings: &Settings) -> bool {
    let field = Calculator::find(calculator).and_then(|calculator| calculator.field(id));
    match field.map(|field| &field.kind) {
        Some(Kind::Number(_)) if given.is_empty() => echo.value.is_none(),
        Some(Kind::Number(number)) if number.unit_from.is_none() => {
            // A unit stands behind it, so that what a bare number means does not matter.
            let alone = read(given, number.unit, 1.0, settings).map(|written| written.value);
            alone.is_ok_and(|alone| echo.value.is_some_and(|value| (value - alone).abs() <= 1e-6 * alone.abs()))
        }
        Some(_) => echo.text.replace('\u{a0}', " ") == given,
        None => false,
    }
}

fn of_plot(plot: &Plot) -> Vec<String> {
    let mut flaws: Vec<_> =
        [&plot.title, &plot.summary].into_iter().filter_map(|said| text("its words", said)).collect();
    flaws.extend([("x", &plot.x), ("y", &plot.y)].into_iter().flat_map(|(name, axis)| of_axis(name, axis)));
    let (x, y) = (&plot.x, &plot.y);
    let along = |at: f64| holds(x, at);
    if plot.traces.is_empty() {
        flaws.push("no curve".to_owned());
    }
    let mut shown = false;
    for trace in &plot.traces {
        let name = &trace.id;
        flaws.extend(text(name, &trace.name));
        if trace.x.len() != trace.y.len() || trace.x.len() < 2 {
            flaws.push(format!("{name} has {} and {} points", trace.x.len(), trace.y.len()));
        }
        if !trace.x.iter().all(|at| at.is_finite() && along(*at)) {
            flaws.push(format!("{name} leaves the axis from {} to {}", x.from, x.to));
        }
        if !trace.x.is_sorted() {
            flaws.push(format!("{name} does not rise"));
        }
        if trace.y.iter().any(|y| y.is_infinite()) {
            flaws.push(format!("{name} has no end"));
        }
        if plot.traces.iter().filter(|other| other.id == trace.id).count() > 1 {
            flaws.push(format!("two curves {name}"));
        }
        if x.discrete && !plot.stops.iter().all(|stop| trace.x.contains(stop)) {
            flaws.push(format!("{name} has no height at a stop"));
        }
        shown |= !trace.reference && trace.y.iter().any(|height| holds(y, *height));
    }
    if !shown {
        flaws.push(format!("nothing of the answer is between {} and {}", y.from, y.to));
    }
    for marker in &plot.markers {
        flaws.extend(text("a marker", &marker.text));
        if !(marker.x.is_finite() && marker.y.is_finite()) {
            flaws.push(format!("a marker at {}, {}", marker.x, marker.y));
        }
    }
    for band in &plot.bands {
        flaws.extend(text("a band", &band.name));
        if !(band.from.is_finite() && band.to.is_finite() && band.from < band.to) {
            flaws.push(format!("a band from {} to {}", band.from, band.to));
        }
    }
    if !plot.bands.is_sorted_by(|a, b| a.to <= b.from) {
        flaws.push("bands out of order".to_owned());
    }
    if !plot.stops.is_sorted_by(|a, b| a < b) || !plot.stops.iter().all(|stop| along(*stop)) {
        flaws.push(format!("stops out of order: {:?} from {} to {}", plot.stops, x.from, x.to));
    }
    flaws
}

/// An axis must be one on which a page can find ticks: finite, rising, and no
/// narrower than its numbers have digits.
fn of_axis(name: &str, axis: &Axis) -> Vec<String> {
    let mut flaws: Vec<_> = [&axis.name].into_iter().chain(&axis.names).filter_map(|said| text(name, said)).collect();
    let (from, to) = (axis.from, axis.to);
    if !axis.names.is_empty() {
        if (from, to) != (0.0, axis.names.len() as f64 - 1.0) {
            flaws.push(format!("{name} names {} places from {from} to {to}", axis.names.len()));
        }
        return flaws;
    }
    let apart = if axis.log { to / from > 1.01 && from > 0.0 } else { to - from > 1e-6 * from.abs().max(to.abs()) };
    if !(from.is_finite() && to.is_finite() && from < to && apart) {
        flaws.push(format!("{name} is from {from} to {to}"));
    }
    if axis.log && to / from > 1e15 {
        flaws.push(format!("{name} spans {:.1} decades", (to / from).log10()));
    }
    flaws
}

/// Whether a number stands on an axis, whatever its last bit.
fn holds(axis: &Axis, at: f64) -> bool {
    let slack = 1e-9 * (axis.to - axis.from).abs().max(axis.to.abs());
    (axis.from - slack..=axis.to + slack).contains(&at)
}

/// What is wrong with a text that a reader sees.
pub fn text(place: &str, said: &str) -> Option<String> {
    let bare = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric());
        let key = REGISTER
            .iter()
            .map(|calculator| calculator.id)
            .chain(["caution", "fault", "look-up", "mark", "problem", "source", "verdict"]);
        matches!(word, "NaN" | "inf")
            || key.into_iter().any(|id| word.strip_prefix(id).is_some_and(|rest| rest.starts_with('-')))
    };
    let bad = said.contains(['?', '{', '}', '∞']) || said.split_whitespace().any(bare);
    bad.then(|| format!("{place}: “{said}”"))
}
