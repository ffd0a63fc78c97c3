//! Parts from a drawer that meet limits: any set that meets them counts.

use super::{Case, Finding, Key, Marked, MarkedRow};
use crate::lesson::bench::Bench;
use crate::lesson::file::{LessonStep, Limit, Part};
use crate::named::Named;
use crate::quantity::Unit;
use crate::report::{Depth, Reading, Report, Tone};
use crate::words::{Arg, Message};

/// What a line is worth that nobody would sign, however well it keeps the limits (judgement).
const UNSIGNED: f64 = 0.25;

/// So many sets of parts are tried at most.
pub(in crate::lesson) const SETS_MOST: usize = 4096;

/// The parts of a step by the fields that they go into.
pub(in crate::lesson) struct Drawer<'a> {
    step: &'a LessonStep,
    fields: Vec<(&'a str, Vec<&'a Part>)>,
}

/// Parts for some of the fields.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::lesson) struct Set {
    pub parts: Named<String>,
    pub cost: f64,
}

/// What is right and wrong with a set.
struct Kept {
    /// By limit of the step: how far it is kept, from 0 to 1, and what it reads.
    limits: Vec<(f64, Option<f64>, Unit)>,
    /// Readings that no limit names, and that their calculator calls trouble: a box without
    /// power is no line, however well its curves look.
    troubles: Vec<&'static str>,
    /// Whether the parts go together at all.
    solved: bool,
}

impl<'a> Drawer<'a> {
    pub(in crate::lesson) fn of(step: &'a LessonStep) -> Self {
        let mut fields: Vec<(&str, Vec<&Part>)> = Vec::new();
        for part in &step.drawer {
            match fields.iter_mut().find(|(field, _)| *field == part.field) {
                Some((_, parts)) => parts.push(part),
                None => fields.push((&part.field, vec![part])),
            }
        }
        Self { step, fields }
    }

    /// Every set that the budget allows, fields that stay as they are among them; nothing
    /// where there are too many to try.
    pub(in crate::lesson) fn sets(&self) -> Option<Vec<Set>> {
        let count = self.fields.iter().try_fold(1_usize, |count, (_, parts)| count.checked_mul(parts.len() + 1))?;
        if count > SETS_MOST {
            return None;
        }
        let mut sets = vec![Set { parts: Named::default(), cost: 0.0 }];
        for (field, parts) in &self.fields {
            let with = sets.iter().flat_map(|set| {
                parts.iter().map(move |part| {
                    let mut set = set.clone();
                    set.parts.insert((*field).to_owned(), part.value.clone());
                    set.cost += part.cost;
                    set
                })
            });
            let with: Vec<_> = with.collect();
            sets.extend(with);
        }
        sets.retain(|set| self.step.budget.is_none_or(|budget| set.cost <= budget));
        Some(sets)
    }

    /// What was taken out of it: nothing where it holds no such part.
    fn taken(&self, parts: &Named<String>) -> Option<Set> {
        let mut set = Set { parts: Named::default(), cost: 0.0 };
        for (field, value) in parts.iter().filter(|(_, value)| !value.is_empty()) {
            let (field, parts) = self.fields.iter().find(|(known, _)| *known == field)?;
            let part = parts.iter().find(|part| part.value == *value)?;
            set.parts.insert((*field).to_owned(), value.clone());
            set.cost += part.cost;
        }
        Some(set)
    }

    /// The parts of a set.
    fn parts_of(&self, set: &Set) -> impl Iterator<Item = &Part> {
        self.fields.iter().filter_map(|(field, parts)| {
            let value = set.parts.get(field)?;
            parts.iter().find(|part| part.value == *value).copied()
        })
    }

    /// How well a set meets each limit, and what else is wrong with it.
    fn kept(&self, bench: &Bench, set: &Set) -> Kept {
        let bench = bench.with(&set.parts);
        let Some(solution) = bench.solution(Depth::Readings) else {
            let limits = self.step.limits.iter().map(|_| (0.0, None, Unit::One)).collect();
            return Kept { limits, troubles: Vec::new(), solved: false };
        };
        let limits = self.step.limits.iter().map(|limit| kept(&bench, solution.reading(&limit.reading), limit));
        let is_limited = |id: &str| self.step.limits.iter().any(|limit| limit.reading == id);
        let is_trouble = |reading: &&Reading<Message>| {
            reading.verdict.as_ref().is_some_and(|verdict| verdict.tone == Tone::Trouble) && !is_limited(reading.id)
        };
        let troubles = solution.headline.iter().chain(&solution.further).filter(is_trouble);
        Kept { limits: limits.collect(), troubles: troubles.map(|reading| reading.id).collect(), solved: true }
    }

    /// Whether a set meets every limit, with nothing else wrong.
    pub(in crate::lesson) fn meets(&self, bench: &Bench, set: &Set) -> bool {
        self.kept(bench, set).is_all()
    }
}

impl Kept {
    fn is_all(&self) -> bool {
        self.solved && self.troubles.is_empty() && self.limits.iter().all(|limit| limit.0 >= 1.0)
    }

    /// The credit: of what was wrong with the rig as it stood. To leave what was right as it was
    /// is worth nothing, and to spoil it takes that much off.
    fn share(&self, before: &Self) -> f64 {
        if self.is_all() {
            return 1.0;
        }
        if !self.solved {
            return 0.0;
        }
        let mended = before.troubles.iter().map(|id| f64::from(u8::from(!self.troubles.contains(id))));
        let limits = || self.limits.iter().map(|limit| limit.0).zip(before.limits.iter().map(|limit| limit.0));
        let met = limits().filter(|(_, before)| *before < 1.0).map(|(now, _)| now);
        let shares: Vec<f64> = met.chain(mended).collect();
        let spoilt: f64 = limits().filter(|(_, before)| *before >= 1.0).map(|(now, _)| now).product();
        let share = spoilt * shares.iter().sum::<f64>() / shares.len().max(1) as f64;
        if self.troubles.is_empty() { share } else { UNSIGNED * share }
    }
}

fn kept(bench: &Bench, reading: Option<&Reading<Message>>, limit: &Limit) -> (f64, Option<f64>, Unit) {
    let unit = reading.map_or(Unit::One, |reading| reading.unit);
    // As it stands: a gain breaks no limit of a loss, however it is told.
    let is = reading.and_then(|reading| reading.value);
    let (least, most) = bounds(bench, limit, unit);
    // A limit is part met: half of its credit is gone when it is missed by 3 dB or a third.
    let off = |is: f64| {
        let below = least.map_or(0.0, |least| least - is);
        let above = most.map_or(0.0, |most| is - most);
        below.max(above).max(0.0)
    };
    let share = is.map_or(0.0, |is| {
        let scale = if unit.is_level() {
            6.0
        } else {
            least.or(most).map_or(1.0, |bound| (bound.abs() * 2.0 / 3.0).max(f64::MIN_POSITIVE))
        };
        let off = off(is);
        if off <= 0.0 { 1.0 } else { 0.9 * (1.0 - off / scale).clamp(0.0, 1.0) }
    });
    (share, is, unit)
}

/// The least and the most of a limit.
fn bounds(bench: &Bench, limit: &Limit, unit: Unit) -> (Option<f64>, Option<f64>) {
    let bound = |text: &str| bench.quantity(text, unit).ok();
    (bound(&limit.least), bound(&limit.most))
}

/// The set that works and differs the least from what was taken; nothing where none works.
pub(super) fn key(case: &Case) -> Option<Key> {
    let drawer = Drawer::of(case.step);
    let taken = drawer.taken(&case.response.parts).unwrap_or_default();
    let set = nearest(case, &drawer, &taken)?;
    let names: Vec<_> = drawer.parts_of(&set).map(Part::called).collect();
    let text = if names.is_empty() { case.say("lesson-no-part-needed", &[]) } else { names.join(", ") };
    Some(Key { text, parts: set.parts, ..Key::default() })
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let drawer = Drawer::of(case.step);
    let Some(set) = drawer.taken(&case.response.parts) else { return case.problem("lesson-take-parts") };
    if case.step.budget.is_some_and(|budget| set.cost > budget) {
        return case.problem("lesson-over-budget");
    }
    let before = drawer.kept(&case.bench, &Set::default());
    let kept = drawer.kept(&case.bench, &set);
    let line = case.bench.with(&set.parts).worded_solution(case.settings);
    let (share, findings) = (kept.share(&before), findings(case, &line, &kept));
    let rows = line.map_or_else(|_| Vec::new(), |line| rows(case, &line, &kept));
    Marked { share, key, findings, rows, ..Marked::default() }
}

/// Each limit, with what the line reads; then each other trouble.
fn rows(case: &Case, line: &Report, kept: &Kept) -> Vec<MarkedRow> {
    let row = |id: &str, other: String, fits: bool| {
        let reading = line.reading(id);
        let name = reading.map_or_else(|| id.to_owned(), |reading| reading.name.clone());
        let is = reading.map_or_else(String::new, |reading| reading.text.clone());
        MarkedRow { id: id.to_owned(), name, is, other, fits, ..MarkedRow::default() }
    };
    let limits = case.step.limits.iter().zip(&kept.limits).map(|(limit, (share, _, unit))| {
        let text = |bound: Option<f64>| bound.map(|bound| case.written(bound, *unit));
        let (least, most) = bounds(&case.bench, limit, *unit);
        let other = match (text(least), text(most)) {
            (Some(least), Some(most)) => case.say("lesson-row-both", &[("least", least), ("most", most)]),
            (Some(least), None) => case.say("lesson-row-least", &[("least", least)]),
            (None, most) => most.map_or_else(String::new, |most| case.say("lesson-row-most", &[("most", most)])),
        };
        row(&limit.reading, other, *share >= 1.0)
    });
    let troubles = kept.troubles.iter().map(|id| {
        let verdict = line.reading(id).and_then(|reading| reading.verdict.as_ref());
        row(id, verdict.map_or_else(String::new, |verdict| verdict.text.clone()), false)
    });
    limits.chain(troubles).collect()
}

/// The set that works and differs from what was taken in the fewest fields; of those the one that
/// keeps the most of it, and then the cheapest.
fn nearest(case: &Case, drawer: &Drawer, taken: &Set) -> Option<Set> {
    let changed =
        |set: &Set| drawer.fields.iter().filter(|(field, _)| set.parts.get(field) != taken.parts.get(field)).count();
    let mut sets = drawer.sets()?;
    let kept = |set: &Set| taken.parts.iter().filter(|(field, value)| set.parts.get(field) == Some(value)).count();
    sets.sort_by(|a, b| changed(a).cmp(&changed(b)).then(kept(b).cmp(&kept(a))).then(a.cost.total_cmp(&b.cost)));
    sets.into_iter().find(|set| drawer.meets(&case.bench, set))
}

/// What is wrong with the set that comes closest, where none works.
pub(super) fn in_the_way(case: &Case) -> String {
    let drawer = Drawer::of(case.step);
    let Some(sets) = drawer.sets() else {
        return case.say("lesson-many-sets", &[("most", Arg::Text(SETS_MOST.to_string()))]);
    };
    let closeness = |kept: &Kept| {
        let limits: f64 = kept.limits.iter().map(|limit| limit.0).sum();
        limits - kept.troubles.len() as f64 - f64::from(u8::from(!kept.solved)) * SETS_MOST as f64
    };
    let kept = sets.into_iter().map(|set| (drawer.kept(&case.bench, &set), set));
    let closest = kept.max_by(|a, b| closeness(&a.0).total_cmp(&closeness(&b.0)));
    let Some((kept, set)) = closest else { return String::new() };
    let line = case.bench.with(&set.parts).worded_solution(case.settings);
    let said: Vec<_> = findings(case, &line, &kept).into_iter().map(|finding| finding.text).collect();
    said.join(" ")
}

/// What there is to say of a line, or of why it is none.
fn findings(case: &Case, line: &Result<Report, String>, kept: &Kept) -> Vec<Finding> {
    if kept.is_all() {
        return vec![case.found("all-limits", &[])];
    }
    let line = match line {
        Ok(line) => line,
        Err(why) => return vec![case.found("limit-apart", &[("why", Arg::Text(why.clone()))])],
    };
    let missed = case.step.limits.iter().zip(&kept.limits).filter(|(_, kept)| kept.0 < 1.0);
    let missed = missed.map(|(limit, kept)| missed_limit(case, line.reading(&limit.reading), limit, *kept));
    let troubles = kept.troubles.iter().filter_map(|id| line.reading(id)).map(|reading| {
        let text = |text: &str| Arg::Text(text.to_owned());
        let why = reading.verdict.as_ref().map_or("", |verdict| &verdict.text);
        let args = [("reading", text(&reading.name)), ("is", text(&reading.text)), ("why", text(why))];
        case.found("limit-trouble", &args)
    });
    missed.chain(troubles).collect()
}

fn missed_limit(
    case: &Case,
    reading: Option<&Reading>,
    limit: &Limit,
    (_, is, unit): (f64, Option<f64>, Unit),
) -> Finding {
    let name = reading.map_or_else(|| limit.reading.clone(), |reading| reading.name.clone());
    let reading = ("reading", Arg::Text(name));
    let Some(is) = is else { return case.found("limit-nothing", &[reading]) };
    let (least, most) = bounds(&case.bench, limit, unit);
    let (id, bound) = match least.filter(|least| is < *least) {
        Some(least) => ("limit-low", least),
        None => ("limit-high", most.unwrap_or(is)),
    };
    let off = if unit.is_level() { Unit::Decibel } else { unit };
    let args = [
        reading,
        ("is", case.written(is, unit)),
        ("bound", case.written(bound, unit)),
        ("off", case.written((is - bound).abs(), off)),
    ];
    case.found(id, &args)
}
