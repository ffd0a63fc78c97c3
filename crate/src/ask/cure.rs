//! What would mend an answer that misses a limit: the smallest change that does, by
//! itself and without missing another limit for it.

use crate::calculator::{Calculator, Keeps};
use crate::fault::Fault;
use crate::field::{Bound, Change, Changed, Field, Kind, Number, Requirement, Step, Values};
use crate::numeric::bracketed_root;
use crate::quantity::Unit;
use crate::quantity::level::decibels;
use crate::report::{Depth, Link, Solution};
use crate::settings::Settings;
use crate::words::{Arg, Message};
use serde::Serialize;

/// At most so many cures for one limit.
const MOST: usize = 3;
/// So many places are looked at on the way from what is there.
const PLACES: usize = 24;
/// No lead is made shorter, m (common practice, no source).
const LEAST_LEAD: f64 = 1.0;
/// How closely a place is found, as a share of the way.
const FINE: f64 = 1e-6;

/// One way to mend an answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Cure {
    /// The reading that misses its limit.
    pub reading: &'static str,
    /// What to do, as a link to the answer with it done.
    pub link: Link,
}

/// An answer that is to be mended.
struct Case {
    calculator: &'static Calculator,
    values: Values,
    requirements: &'static [Requirement],
    /// The requirements that are kept now.
    kept: Vec<bool>,
}

/// What would mend each limit that is missed, what one would rather do first.
pub(crate) fn cures(calculator: &'static Calculator, values: &Values, settings: &Settings) -> Vec<Cure> {
    let Ok(Some(case)) = Case::of(calculator, values) else { return Vec::new() };
    let mut cures: Vec<Cure> = Vec::new();
    for (requirement, _) in case.requirements.iter().zip(&case.kept).filter(|(_, kept)| !**kept) {
        let mut done: Vec<(&str, Changed)> = Vec::new();
        let found = requirement.changes.iter().filter_map(|change| {
            let to = case.smallest(requirement, change)?;
            // What does by itself needs nothing with it.
            let new = !done.contains(&(change.field(), to));
            done.push((change.field(), to));
            if new { case.link((calculator, values), change, to, settings) } else { None }
        });
        cures.extend(found.take(MOST).map(|link| Cure { reading: requirement.reading, link }));
    }
    // What mends two limits is told once.
    let mut told: Vec<Link> = Vec::new();
    cures.retain(|cure| {
        let new = !told.contains(&cure.link);
        if new {
            told.push(cure.link.clone());
        }
        new
    });
    cures
}

impl Case {
    fn of(calculator: &'static Calculator, values: &Values) -> Result<Option<Self>, Fault> {
        let (calculator, values) = match &calculator.keeps {
            Keeps::Nothing => return Ok(None),
            Keeps::These(_) => (calculator, values.clone()),
            Keeps::Those(other, filling) => match filling(values)? {
                Some(filling) => (*other, filling.to_values()),
                None => return Ok(None),
            },
        };
        let Keeps::These(requirements) = calculator.keeps else { return Ok(None) };
        let solution = calculator.solution(&values, Depth::Readings)?;
        if solution.stop {
            return Ok(None);
        }
        let kept = requirements.iter().map(|requirement| is_kept(requirement, &solution, &values)).collect();
        Ok(Some(Self { calculator, values, requirements, kept }))
    }

    /// Whether all that was kept and this requirement are kept by other values.
    fn is_mended(&self, requirement: &Requirement, values: &Values) -> bool {
        let Ok(solution) = self.calculator.solution(values, Depth::Readings) else { return false };
        // What can harm somebody now is no cure.
        if solution.cautions_first {
            return false;
        }
        let mut others = self.requirements.iter().zip(&self.kept).filter(|(_, kept)| **kept);
        is_kept(requirement, &solution, values) && others.all(|(other, _)| is_kept(other, &solution, values))
    }

    /// The smallest change of a field that mends it.
    fn smallest(&self, requirement: &Requirement, change: &Change) -> Option<Changed> {
        let field = self.calculator.field(change.field())?;
        if !self.plays_a_part(field) {
            return None;
        }
        match (change, &field.kind) {
            (Change::To(to), Kind::Choice(_)) => {
                let now = |id| self.values.answer_to(id).unwrap_or_default();
                let fits = to.only.is_none_or(|(id, there)| now(id) == there) && now(to.choice) != to.answer;
                let changed = Changed::Answer(to.answer);
                let mut values = self.values.changed(to.choice, &changed);
                if let Some((id, answer)) = to.also {
                    values = values.changed(id, &Changed::Answer(answer));
                }
                (fits && self.is_mended(requirement, &values)).then_some(changed)
            }
            (Change::Less(_, step), Kind::Number(number)) => self.number(requirement, field.id, number, *step, false),
            (Change::More(_, step), Kind::Number(number)) => self.number(requirement, field.id, number, *step, true),
            _ => None,
        }
    }

    /// The nearest number that mends it, in the steps of the change.
    fn number(
        &self,
        requirement: &Requirement,
        id: &'static str,
        number: &Number,
        step: Step,
        upwards: bool,
    ) -> Option<Changed> {
        let from = self.values.stands_in(id)?;
        let to = match (upwards, step) {
            (true, Step::Decibels) => from * 1e3,
            (true, Step::Of(_) | Step::Sold) => number.usual.1.max(from),
            (false, Step::Decibels) => from * 1e-3,
            (false, Step::Of(_) | Step::Sold) => number.usual.0,
        };
        let is_log = matches!(step, Step::Decibels | Step::Sold);
        let at = |x: f64| if is_log { from * (to / from).powf(x) } else { from + (to - from) * x };
        let over = |x: f64| self.margin(requirement, &self.values.changed(id, &Changed::Number(at(x))));
        let x = |i: usize| i as f64 / PLACES as f64;
        let first = (1..=PLACES).find(|i| over(x(*i)) >= 0.0)?;
        let met = bracketed_root(over, x(first - 1), x(first), FINE).unwrap_or(x(first));
        // A step beside it, where the edge itself is missed by rounding.
        let edge = step.next(at(met), from, upwards);
        let beside = match step {
            Step::Of(size) => edge + if upwards { size } else { -size },
            Step::Decibels => edge * 10_f64.powf(if upwards { 0.05 } else { -0.05 }),
            Step::Sold => step.next(edge * if upwards { 1.01 } else { 0.99 }, from, upwards),
        };
        // Nobody plays on less than a metre of lead.
        let least = if number.unit == Unit::Metre { LEAST_LEAD } else { number.limits.0 };
        let within = |value: &f64| *value >= least && *value <= number.limits.1;
        let mends = |value: &f64| self.is_mended(requirement, &self.values.changed(id, &Changed::Number(*value)));
        [edge, beside].into_iter().filter(within).find(mends).map(Changed::Number)
    }

    /// How far a requirement is kept, negative where it is missed.
    fn margin(&self, requirement: &Requirement, values: &Values) -> f64 {
        let solution = self.calculator.solution(values, Depth::Readings);
        solution.map_or(f64::NEG_INFINITY, |solution| margin(requirement, &solution, values))
    }

    /// Whether a field counts, with the choices as they are.
    fn plays_a_part(&self, field: &Field) -> bool {
        let Some((choice, answers)) = field.when else { return true };
        let answered = self.values.choices.get(choice).is_some_and(|answer| answers.contains(answer));
        answered && self.calculator.field(choice).is_none_or(|choice| self.plays_a_part(choice))
    }

    /// What to do in words, and the answer with it done: in the calculator that was
    /// asked if it has that field, else in the one that the requirement is of.
    fn link(
        &self,
        (asked, asked_values): (&'static Calculator, &Values),
        change: &Change,
        to: Changed,
        settings: &Settings,
    ) -> Option<Link> {
        let id = change.field();
        let field = self.calculator.field(id)?;
        let same = asked.field(id).filter(|own| own.unit() == field.unit() && !matches!(own.kind, Kind::Choice(_)));
        let (calculator, values) = if same.is_some() { (asked, asked_values) } else { (self.calculator, &self.values) };
        let mut filling = calculator.filling_from(calculator, values).ok()?;
        filling.change(id, &to);
        let also = match change {
            Change::To(to) => to.also,
            Change::Less(..) | Change::More(..) => None,
        };
        if let Some((id, answer)) = also {
            filling.change(id, &Changed::Answer(answer));
        }
        let (key, args) = match to {
            Changed::Answer(answer) => {
                let with = also.map_or(String::new(), |(_, answer)| format!("-{answer}"));
                (format!("cure-{id}-{answer}{with}"), Vec::new())
            }
            Changed::Number(value) => {
                let from = self.values.stands_in(id)?;
                let by = match change {
                    Change::Less(_, Step::Decibels) | Change::More(_, Step::Decibels) => {
                        rounded(decibels(value / from).abs(), Unit::Decibel)
                    }
                    _ => Arg::Quantity((value - from).abs(), field.unit()),
                };
                let way = if value < from { "less" } else { "more" };
                (format!("cure-{id}-{way}"), vec![("value", rounded(value, field.unit())), ("by", by)])
            }
        };
        let values = filling.entries().into_iter().map(|(id, entry)| (id, entry.text(settings))).collect();
        let text = Message::of(self.calculator.id, key, &args).text(settings);
        Some(Link { text, calculator: calculator.id, values })
    }
}

/// Whole decibels are told without places: nobody sets hundredths.
fn rounded(value: f64, unit: Unit) -> Arg {
    let whole = value.round();
    if unit == Unit::Decibel && (value - whole).abs() < 1e-6 {
        Arg::Text(format!("{whole}\u{a0}dB").replace('-', "\u{2212}"))
    } else {
        Arg::Entry(value, unit)
    }
}

fn is_kept(requirement: &Requirement, solution: &Solution, values: &Values) -> bool {
    margin(requirement, solution, values) >= 0.0
}

/// How far a requirement is kept, negative where it is missed. A reading that is not
/// there, or has no number, misses nothing.
fn margin(requirement: &Requirement, solution: &Solution, values: &Values) -> f64 {
    let reading = solution.reading(requirement.reading).and_then(|reading| reading.value);
    let held = |field: &str| Some((reading?, values.limit(field)?));
    match requirement.bound {
        Bound::AtLeast(field) => held(field).map_or(f64::INFINITY, |(got, least)| got - least),
        Bound::AtMost(field) => held(field).map_or(f64::INFINITY, |(got, most)| most - got),
        Bound::Absent => reading.map_or(f64::INFINITY, |_| -1.0),
    }
}
