//! What a lesson refers to: fields, quantities, bands and parts, each of which has to be there.
//! What says nothing would otherwise be taken without a word, and a limit not be one.

use super::bench::{Bench, over};
use super::deal::choices;
use super::file::{Lesson, LessonStep, Limit, Part, Range};
use super::task::{Kind, Slack};
use crate::calculator::Calculator;
use crate::file::Flaw;
use crate::named::Named;
use crate::quantity::Unit;
use crate::report::Depth;

/// What is wrong with what is dealt.
pub(super) fn of_draw(lesson: &Lesson) -> Vec<Flaw> {
    let calculators: Vec<_> =
        lesson.steps.iter().filter_map(|step| Calculator::find(&lesson.rig_of(step).calculator)).collect();
    let flaw = |key, field: &str| Flaw::new("lesson", None, key).at(field);
    let look = |(id, range): (&str, &Range)| {
        let Some(field) = calculators.iter().find_map(|calculator| calculator.field(id)) else {
            return Some(flaw("no-field", id));
        };
        let settings = lesson.rig.settings();
        let dealt = choices(range, field.kind.number(), &settings);
        let bench = |text: &String| {
            let calculator = calculators.iter().find(|calculator| calculator.field(id).is_some())?;
            Bench::of(calculator.id, Named::default(), settings).map(|bench| bench.with(&single(id, text)))
        };
        let is_unread = |text: &&String| bench(text).is_some_and(|bench| !bench.is_read());
        match dealt.iter().find(is_unread) {
            Some(text) => Some(flaw("quantity", id).with("text", text)),
            None => dealt.is_empty().then(|| flaw("no-draw", id)),
        }
    };
    lesson.draw.iter().filter_map(look).collect()
}

/// What is wrong with what a step names.
pub(super) fn of_step(lesson: &Lesson, step: &LessonStep) -> Vec<Flaw> {
    let rig = lesson.rig_of(step);
    let texts = over(rig.values.clone(), &step.values);
    let Some(bench) = Bench::of(&rig.calculator, texts, rig.settings()) else { return Vec::new() };
    let mut flaws = Vec::new();
    let unknown = step.given.iter().chain(&step.open).filter(|id| bench.calculator.field(id).is_none());
    flaws.extend(unknown.map(|id| flaw("no-field").at(id)));
    let solution = bench.solution(Depth::Readings);
    // A reading that is not there is told elsewhere.
    let unit = |reading: &str| Some(solution.as_ref()?.reading(reading)?.unit);
    flaws.extend(of_tolerance(&bench, step, unit(&step.reading)));
    flaws.extend(of_band(&bench, step));
    flaws.extend(step.limits.iter().filter_map(|limit| of_limit(&bench, limit, unit(&limit.reading)?)));
    flaws.extend(of_drawer(&bench, step));
    let cases = step.cases.iter().map(|case| ("cases", &case.values));
    let ways = step.ways.iter().map(|way| ("ways", &way.values));
    flaws.extend(cases.chain(ways).filter_map(|(list, values)| of_values(&bench, list, values)));
    if Kind::of(step).asks() && step.points == 0.0 {
        flaws.push(flaw("no-points").at("points"));
    }
    flaws
}

fn single(id: &str, text: &str) -> Named<String> {
    let mut values = Named::default();
    values.insert(id.to_owned(), text.to_owned());
    values
}

fn flaw(key: &'static str) -> Flaw {
    Flaw::new("steps", None, key)
}

/// The first of some texts that goes into no field, or that its field does not understand.
fn of_values(bench: &Bench, list: &'static str, values: &Named<String>) -> Option<Flaw> {
    if let Some((id, _)) = values.iter().find(|(id, _)| bench.calculator.field(id).is_none()) {
        return Some(flaw("no-field").at(id));
    }
    let there = bench.with(values);
    let is_unread = |id: &str| there.fields.iter().any(|(field, echo)| field == id && echo.problem.is_some());
    let (_, text) = values.iter().find(|(id, _)| is_unread(id))?;
    Some(flaw("quantity").at(list).with("text", text))
}

fn of_tolerance(bench: &Bench, step: &LessonStep, unit: Option<Unit>) -> Option<Flaw> {
    let unit = match Kind::of(step) {
        Kind::Number | Kind::Choice => unit?,
        Kind::Curve => Unit::Decibel,
        _ => return None,
    };
    let read = |text: &str| Slack::read(text, unit, bench);
    for (field, text) in [("good", &step.good), ("none", &step.none)] {
        if !text.is_empty() && read(text).is_none() {
            return Some(flaw("quantity").at(field).with("text", text));
        }
    }
    let (good, none) = (read(&step.good)?, read(&step.none)?);
    let apart = match (good, none) {
        (Slack::By(good), Slack::By(none)) | (Slack::Share(good), Slack::Share(none)) => none > good,
        _ => true,
    };
    (!apart).then(|| flaw("no-slack").at("none"))
}

fn of_band(bench: &Bench, step: &LessonStep) -> Option<Flaw> {
    let end = |field: &'static str, text: &str| match bench.quantity(text, Unit::Hertz) {
        Ok(hz) if hz > 0.0 => Ok(Some(hz)),
        _ if text.is_empty() => Ok(None),
        _ => Err(flaw("quantity").at(field).with("text", text)),
    };
    match (end("from", &step.from), end("to", &step.to)) {
        (Err(flaw), _) | (_, Err(flaw)) => Some(flaw),
        (Ok(Some(from)), Ok(Some(to))) if to <= from => Some(flaw("no-band").at("to")),
        _ => None,
    }
}

fn of_limit(bench: &Bench, limit: &Limit, unit: Unit) -> Option<Flaw> {
    let texts = [&limit.least, &limit.most];
    if texts.iter().all(|text| text.is_empty()) {
        return Some(flaw("no-limit").at("limits").with("text", &limit.reading));
    }
    let unread = texts.into_iter().find(|text| !text.is_empty() && bench.quantity(text, unit).is_err())?;
    Some(flaw("quantity").at("limits").with("text", unread))
}

fn of_drawer(bench: &Bench, step: &LessonStep) -> Vec<Flaw> {
    let mut flaws = Vec::new();
    for (at, part) in step.drawer.iter().enumerate() {
        flaws.extend(of_values(bench, "drawer", &single(&part.field, &part.value)));
        if !(part.cost >= 0.0 && part.cost.is_finite()) {
            flaws.push(flaw("kind").at("drawer"));
        }
        // A response names a part by its value.
        let is_same = |other: &Part| other.field == part.field && other.value == part.value;
        if step.drawer[..at].iter().any(is_same) {
            flaws.push(flaw("same-part").at("drawer").with("text", part.called()));
        }
    }
    flaws
}
