//! The ground map of a show: generated from its input list, its equipment and what else
//! joins that.
//!
//! What a line does is the whole line's own solution, so that the map of one line says
//! what its row says: a row knows one source and one other earth, the map all that there
//! is. Phases between distributions are not known to either, and sizes add up.

mod answer;
mod backwards;
mod builder;
mod fitting;
mod isolation;
mod lines;
mod mains;
mod plan;
mod solved;
mod told;
mod working;

pub use answer::{
    GroundMap, InputAt, Isolate, LeftOut, MapBackwards, MapInput, MapIsolation, MapLoop, MapPlace, MapWire, MapWorking,
    NotCounted, PlaceKind, Stands, WireKind,
};

use super::ground::{Equipment, Graph, Leakage, Node, Wrong, count};
use super::joined::{Gap, gaps};
use super::show::Show;
use crate::calculator::ground_loop::is_faulty;
use crate::field::earth::DANGEROUS_DIFFERENCE;
use crate::part::Cause;
use crate::settings::Settings;
use builder::Builder;
use plan::Plan;
use solved::Solved;
use told::Told;

/// The ground map of a show, trying so many sets of leads to isolate at most.
pub fn ground_map(show: &Show, sets: usize, settings: &Settings) -> GroundMap {
    let told = Told { settings };
    let mut map = GroundMap::default();
    let Some(plan) = plan(show, &told) else {
        map.problem = Some(told.text("problem-mains", &[]));
        return map;
    };
    map.left_out.clone_from(&plan.left_out);
    map.not_counted = not_counted(show, settings);
    let most = most_between(show);
    if most > DANGEROUS_DIFFERENCE {
        map.stops.push(told.whole("caution-electrician", &[]));
        map.problem = Some(told.text("problem-dangerous", &[]));
        return map;
    }
    if solve(show, &plan, sets, &told, &mut map).is_err() {
        map.problem = Some(told.text("problem-unsolved", &[]));
        return map;
    }
    map.stops = stops(&plan, &map, most, &told);
    map
}

fn not_counted(show: &Show, settings: &Settings) -> Vec<NotCounted> {
    let of = |gap: &Gap| NotCounted {
        stage_box: gap.stage_box.id.clone(),
        console: gap.console.id.clone(),
        what: gap.told(settings),
        asks: gap.is_unsaid,
    };
    gaps(show).iter().map(of).collect()
}

/// The hum at an input of a line, with everything that is plugged in.
pub(super) struct LineHum {
    pub line: String,
    pub at: InputAt,
    /// From the signal to that, dB; nothing where nothing hums.
    pub distance: Option<f64>,
    /// What that is held against, dB.
    pub limit: f64,
}

/// The hum at every input of a show; nothing where its map cannot be solved.
pub(super) fn line_hums(show: &Show) -> Vec<LineHum> {
    let Some(plan) = plan_to_solve(show, &show.settings()) else { return Vec::new() };
    let Ok(solved) = Solved::new(&plan) else { return Vec::new() };
    let of = |(input, hum): &(&plan::Input, _)| LineHum {
        line: input.line.clone(),
        at: input.at,
        distance: solved::distance(input, hum),
        limit: input.limit,
    };
    solved.inputs.iter().map(of).collect()
}

/// Whether so much may lie between two of its earths that nothing is to be plugged in.
pub(super) fn is_dangerous(show: &Show) -> bool {
    most_between(show) > DANGEROUS_DIFFERENCE
}

/// How the hum at one of its inputs comes about.
pub fn map_working(show: &Show, line: &str, at: InputAt, settings: &Settings) -> MapWorking {
    let found = plan_to_solve(show, settings).and_then(|plan| working::working(&plan, line, at, settings));
    found.unwrap_or_default()
}

/// Which difference of each circuit would make an input just miss its limit.
pub fn map_backwards(show: &Show, line: &str, at: InputAt) -> Vec<MapBackwards> {
    let found = plan_to_solve(show, &show.settings()).and_then(|plan| backwards::backwards(show, &plan, line, at));
    found.unwrap_or_default()
}

/// The graph of a show, as it is solved; nothing where there is none.
pub fn map_graph(show: &Show) -> Option<Graph> {
    plan_to_solve(show, &show.settings()).map(|plan| plan.graph)
}

fn plan(show: &Show, told: &Told) -> Option<Plan> {
    let mut builder = Builder::new(show, told)?;
    for line in &show.lines {
        builder.line(line);
    }
    for link in &show.links {
        builder.link(link);
    }
    Some(builder.plan)
}

fn plan_to_solve(show: &Show, settings: &Settings) -> Option<Plan> {
    plan(show, &Told { settings }).filter(|_| !is_dangerous(show))
}

/// The most that there can be between two circuits, or one and the earth of the venue, V.
fn most_between(show: &Show) -> f64 {
    let mut volts: Vec<_> = show.power.iter().filter_map(|circuit| circuit.volts(show)).collect();
    volts.sort_by(f64::total_cmp);
    volts.iter().rev().take(2).sum()
}

fn solve(show: &Show, plan: &Plan, sets: usize, told: &Told, map: &mut GroundMap) -> Result<(), Wrong> {
    let solved = Solved::new(plan)?;
    map.loop_count = count(&plan.graph, &solved.ends).loops;
    map.every_loop = solved.every_loop(show, told)?;
    map.every_limit = solved.every_limit(show, sets, told)?;
    solved.tell(map);
    Ok(())
}

/// What has to be seen to before anything is plugged.
fn stops(plan: &Plan, map: &GroundMap, volts: f64, told: &Told) -> Vec<String> {
    let mut stops = Vec::new();
    let amperes = map.wires.iter().map(|wire| wire.amperes).fold(0.0, f64::max);
    let between = Cause::Difference { volts, earth_r: 0.0 };
    let leaks = plan.graph.nodes.iter().any(|node| match node {
        Node::Equipment(Equipment { leakage: Some(leakage), .. }) => {
            let &Leakage { amperes, capacitance, .. } = leakage;
            is_faulty(&Cause::Leakage { amperes, capacitance, other_r: None }, &plan.spectrum, 0.0)
        }
        Node::Equipment(_) | Node::Distribution(_) => false,
    });
    if leaks || is_faulty(&between, &plan.spectrum, amperes) {
        stops.push(told.text("stop-fault", &[]));
        stops.push(told.whole("caution-electrician", &[]));
    }
    if map.loop_count > 0 {
        stops.push(told.whole("caution-earth", &[]));
    }
    stops
}
