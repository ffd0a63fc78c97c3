//! Time to solve the ground map of a large stage with seven components of the mains,
//! to find its loops, and to search for what to isolate.

use stageohm::numeric::Draws;
use stageohm::stage::ground::{
    Circuit, Distribution, Edge, Effort, Equipment, Graph, Harmonic, Isolator, Kind, Leakage, Limit, Node, Phases,
    Rejection, Shield, Signal, Wave, Weighting, cheapest, forest, hums, loops,
};
use std::hint::black_box;
use std::time::Instant;

const ORDERS: [u32; 7] = [1, 2, 3, 5, 7, 9, 11];
/// So many sets of leads are tried for the isolation.
const SETS: usize = 100;

fn main() {
    let brief = std::env::var_os("STAGEOHM_BRIEF").is_some();
    println!("{:34} {:>9} {:>9} {:>9} {:>14}", "ground map, 7 components", "solved", "loops", "forest", "a set tried");
    for equipment in [10, 30, 100, 300, 500, 1000].into_iter().filter(|equipment| !brief || *equipment <= 30) {
        let graph = stage(equipment);
        let ends = graph.ends();
        let solved = || Circuit::new(&graph).and_then(|circuit| circuit.solve(&ends));
        match solved() {
            Err(wrong) => println!("{equipment} pieces of equipment: {wrong:?}"),
            Ok(solution) => {
                let hum = hums(&graph, &ends, &solution);
                println!(
                    "{:34} {:>6.2} ms {:>6.2} ms {:>6.2} ms {:>11.2} ms{}",
                    format!("{equipment} pieces, {} edges", graph.edges.len()),
                    best(|| drop(black_box(solved().map(|solution| hums(&graph, &ends, &solution))))),
                    best(|| drop(black_box(loops(&graph, &ends, &hum, Weighting::A)))),
                    best(|| drop(black_box(forest(&graph)))),
                    best(|| drop(black_box(cheapest(&graph, Effort { sets: SETS })))) / SETS as f64,
                    if equipment == 500 { "  goal: 100 ms solved" } else { "" }
                );
            }
        }
    }
}

/// The shortest of a few runs, ms.
fn best(run: impl Fn()) -> f64 {
    let time = || {
        let start = Instant::now();
        run();
        start.elapsed().as_secs_f64() * 1e3
    };
    (0..5).map(|_| time()).fold(f64::INFINITY, f64::min)
}

/// Three distributions, an earth for most pieces, and leads between any two: twice as many
/// edges as pieces, which leads far more across the stage than a stage of people would have.
fn stage(equipment: usize) -> Graph {
    let mut draws = Draws::new(1);
    let wave = Wave(ORDERS[1..].iter().map(|order| Harmonic { order: *order, ratio: 0.1, phase: 0.0 }).collect());
    let bar = |volts| Node::Distribution(Distribution { volts, r: 0.2, l: 10e-6, wave: wave.clone() });
    let mut nodes = vec![bar(0.0), bar(0.1), bar(0.3)];
    let mut edges = Vec::new();
    for at in 3..equipment + 3 {
        let earthed = draws.share() < 0.7;
        let from = (draws.share() * 3.0) as usize;
        let leakage = (!earthed).then(|| Leakage { wave: wave.clone(), ..Leakage::of(0.2e-3, from) });
        nodes.push(Node::Equipment(Equipment { leakage, pin_1_r: 0.0 }));
        if earthed {
            edges.push(Edge { ends: [from, at], r: 0.1, l: 5e-6, kind: Kind::Earth });
        }
    }
    while edges.len() < 2 * equipment {
        let end = |draws: &mut Draws| 3 + (draws.share() * equipment as f64) as usize;
        let ends = [end(&mut draws), end(&mut draws)];
        let limit = Some(Limit { volts: draws.between(1e-6, 1e-3), weighting: Weighting::A });
        let signal = match draws.share() {
            ..0.5 => Signal::Balanced(Rejection::Decibels(60.0), limit),
            _ => Signal::Unbalanced(limit),
        };
        let isolator = Some(Isolator { cost: draws.between(1.0, 3.0), capacitance: 100e-12 });
        if ends[0] != ends[1] {
            let shield = Shield { contact_r: 0.02, isolator, ..Shield::of(signal) };
            edges.push(Edge { ends, r: draws.between(0.05, 1.0), l: 5e-6, kind: Kind::Shield(Box::new(shield)) });
        }
    }
    Graph { mains: 50.0, orders: ORDERS.to_vec(), nodes, edges, phases: Phases::Known }
}
