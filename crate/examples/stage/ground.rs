//! A ground map as JSON, solved: potentials, currents, hum, loops and both isolations.

use serde_json::{Value, json};
use stageohm::Complex64;
use stageohm::stage::ground::{
    AtOrder, Circuit, Effort, Graph, Hum, Weighting, Wrong, cheapest, count, forest, hums, loops, ranked,
};
use std::io::{self, Read};

/// The map on standard input solved, trying so many sets of leads to isolate at most.
pub(crate) fn ground(sets: usize) -> io::Result<String> {
    let mut text = String::new();
    io::stdin().read_to_string(&mut text)?;
    let graph: Graph = serde_json::from_str(&text)?;
    let answer = solved(&graph, Effort { sets }).unwrap_or_else(|wrong| json!({ "wrong": wrong }));
    Ok(serde_json::to_string_pretty(&answer)?)
}

fn solved(graph: &Graph, effort: Effort) -> Result<Value, Wrong> {
    let circuit = Circuit::new(graph)?;
    let ends = graph.ends();
    let solution = circuit.solve(&ends)?;
    let hum = hums(graph, &ends, &solution);
    let after = |isolate: &[usize]| -> Result<Vec<Hum>, Wrong> {
        let ends = graph.isolated(isolate);
        Ok(ranked(hums(graph, &ends, &circuit.solve(&ends)?), Weighting::A))
    };
    let (forest, cheapest) = (forest(graph), cheapest(graph, effort)?);
    Ok(json!({
        "at": solution.at.iter().map(at_order).collect::<Vec<_>>(),
        "floating": solution.floating,
        "left_over": solution.left_over,
        "count": count(graph, &ends),
        "loops": loops(graph, &ends, &hum, Weighting::A),
        "hum": ranked(hum, Weighting::A),
        "forest": { "isolation": forest, "hum": after(&forest.isolate)? },
        "cheapest": { "isolation": cheapest, "hum": after(&cheapest.isolate)? },
    }))
}

fn at_order(at: &AtOrder) -> Value {
    let pairs = |values: &[Complex64]| values.iter().map(|value| [value.re, value.im]).collect::<Vec<_>>();
    json!({
        "order": at.order,
        "frequency": at.frequency,
        "by": at.by,
        "potentials": pairs(&at.potentials),
        "currents": pairs(&at.currents),
        "earths": pairs(&at.earths),
        "leakages": pairs(&at.leakages),
    })
}
