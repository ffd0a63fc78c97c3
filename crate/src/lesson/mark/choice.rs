//! Ways in their order.

use super::{Case, Finding, Key, Marked, MarkedRow};
use crate::lesson::file::Best;
use crate::lesson::task::Slack;
use crate::quantity::{SHOWN, Unit, write};
use crate::report::Depth;
use crate::words::Arg;

/// A way, with its place.
pub(in crate::lesson) struct Placed {
    pub id: String,
    pub name: String,
    /// Less is better; the same for those that are tied.
    pub place: f64,
    /// Why it stands there.
    pub because: String,
}

/// The ways of a step with their places; nothing where one of them has none.
pub(in crate::lesson) fn placed(case: &Case) -> Option<Vec<Placed>> {
    if case.step.ways.is_empty() {
        return ranked(case);
    }
    let mut ways = Vec::new();
    let mut unit = Unit::One;
    for (at, way) in case.step.ways.iter().enumerate() {
        let reading = case.bench.with(&way.values).reading(&case.step.reading)?;
        // As it stands: a gain is less of a loss, however it is told.
        let value = reading.value?;
        unit = reading.unit;
        let because = write(value, unit, SHOWN, case.settings);
        let place = if case.step.best == Best::Most { -value } else { value };
        ways.push(Placed { id: at.to_string(), name: way.name.clone(), place, because });
    }
    tie(case, unit, &mut ways);
    Some(ways)
}

/// As the calculator ranks them; what is refused comes last.
fn ranked(case: &Case) -> Option<Vec<Placed>> {
    let ranking = case.bench.solution(Depth::Plots)?.ranking;
    let last = ranking.len() as u32 + 1;
    let placed = ranking.into_iter().map(|one| {
        let place = f64::from(one.place.unwrap_or(last));
        let because = one.verdict.text.text(case.settings);
        Placed { id: one.id.to_owned(), name: one.name.text(case.settings), place, because }
    });
    Some(placed.collect())
}

/// Ways that differ by no more than the step calls good have one place.
fn tie(case: &Case, unit: Unit, ways: &mut [Placed]) {
    let slack = Slack::read(&case.step.good, unit, &case.bench);
    let mut order: Vec<_> = (0..ways.len()).collect();
    order.sort_by(|a, b| ways[*a].place.total_cmp(&ways[*b].place));
    for pair in order.windows(2) {
        let (before, after) = (ways[pair[0]].place, ways[pair[1]].place);
        let same = slack.map_or(0.0, |slack| slack.about(before)).max(1e-9 * before.abs());
        if after - before <= same {
            ways[pair[1]].place = before;
        }
    }
}

pub(super) fn key(case: &Case) -> Option<Key> {
    placed(case).filter(|ways| ways.len() > 1).map(key_of)
}

/// Whether some ways of a step are tied.
pub(in crate::lesson) fn ties(key: &Key) -> bool {
    key.order.iter().any(|tied| tied.len() > 1)
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let Some(ways) = placed(case) else { return case.problem("lesson-no-key") };
    let order: Vec<_> = case.response.order.iter().filter_map(|id| ways.iter().position(|way| way.id == *id)).collect();
    let mut told = order.clone();
    told.sort_unstable();
    told.dedup();
    if order.len() != ways.len() || told.len() != ways.len() {
        return case.problem("lesson-order-all");
    }
    let pairs = || (0..order.len()).flat_map(|a| (a + 1..order.len()).map(move |b| (a, b)));
    let is_right = |(a, b): (usize, usize)| ways[order[a]].place <= ways[order[b]].place;
    let right = pairs().filter(|pair| is_right(*pair)).count();
    let all = pairs().count();
    // What stands side by side is looked at first: the first mistake of the order.
    let wrong = (1..order.len()).map(|b| (b - 1, b)).find(|pair| !is_right(*pair));
    let findings: Vec<Finding> = match wrong {
        None => vec![case.found("right", &[])],
        Some((a, b)) => {
            let [first, second] = [&ways[order[a]], &ways[order[b]]];
            let text = |text: &str| Arg::Text(text.to_owned());
            let args = [
                ("first", text(&first.name)),
                ("second", text(&second.name)),
                ("first-because", text(&first.because)),
                ("second-because", text(&second.because)),
            ];
            // The ways of the step are told by the reading, those of a ranking by its verdicts.
            match case.bench.worded(&case.step.reading, case.settings) {
                Some(reading) if !case.step.ways.is_empty() => {
                    let reading = [("reading", Arg::Text(reading.name))];
                    vec![case.found("order-reading", &[&args[..], &reading].concat())]
                }
                _ => vec![case.found("order", &args)],
            }
        }
    };
    let rows = rows(&key, &ways, &order);
    Marked { share: right as f64 / all.max(1) as f64, key, findings, rows, ..Marked::default() }
}

/// The ways in the right order, with where each was put.
fn rows(key: &Key, ways: &[Placed], order: &[usize]) -> Vec<MarkedRow> {
    let mut rows = Vec::new();
    for tied in &key.order {
        let rank = rows.len() + 1;
        for id in tied {
            let Some(at) = ways.iter().position(|way| way.id == *id) else { continue };
            let place = order.iter().position(|way| *way == at).map(|place| place + 1);
            let fits = place.is_some_and(|place| (rank..rank + tied.len()).contains(&place));
            let (name, is) = (ways[at].name.clone(), ways[at].because.clone());
            rows.push(MarkedRow { id: id.clone(), name, is, place, rank: Some(rank), fits, ..MarkedRow::default() });
        }
    }
    rows
}

fn key_of(mut ways: Vec<Placed>) -> Key {
    ways.sort_by(|a, b| a.place.total_cmp(&b.place));
    let mut order: Vec<Vec<String>> = Vec::new();
    let mut last = f64::NAN;
    let mut names: Vec<String> = Vec::new();
    for way in ways {
        match order.last_mut() {
            Some(tied) if way.place == last => {
                tied.push(way.id);
                if let Some(names) = names.last_mut() {
                    *names = format!("{names} = {}", way.name);
                }
            }
            _ => {
                order.push(vec![way.id]);
                names.push(way.name);
            }
        }
        last = way.place;
    }
    Key { text: names.join(" → "), order, ..Key::default() }
}
