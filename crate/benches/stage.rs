//! Time of rows of an input list, of a proposal and of a table.

use serde_json::Value;
use stageohm::settings::Settings;
use stageohm::stage::map::ground_map;
use stageohm::stage::{Dialect, Raw, Rows, Show, propose, read_show, read_table, totals, write_table};
use std::hint::black_box;
use std::time::Instant;

const EXAMPLE: &str = include_str!("../examples/show.json");

fn main() {
    let times = if std::env::var_os("STAGEOHM_BRIEF").is_some() { 1 } else { 21 };
    println!("{:42} {:>10}  goal in a browser", "rows", "ms");
    for (count, goal) in [(50, "50"), (500, "500")] {
        let show = show(count);
        told(&format!("{count} of as many situations"), goal, times, || Rows::default().solve(black_box(&show)).len());
        let mut rows = Rows::default();
        rows.solve(&show);
        let mut edited = show.clone();
        edited.lines[0].values.insert("run_length", "77 m".to_owned());
        let mut turn = 0;
        told(&format!("one edited of {count}"), "", times, || {
            turn += 1;
            rows.solve(if turn % 2 == 0 { &show } else { &edited }).len()
        });
        told(&format!("totals of {count}"), "", times, || totals(black_box(&show)).parts.len());
        let settings = Settings::default();
        told(&format!("the ground map of {count}, nothing searched"), "", times, || {
            ground_map(black_box(&show), 0, &settings).inputs.len()
        });
        let dialect = Dialect::default();
        let table = write_table(&show, &dialect);
        told(&format!("a table of {count} read"), "", times, || read_table(&show, &table, &dialect).lines.len());
    }
    let show = show(32);
    told("a proposal for 32", "", times.min(3), || propose(black_box(&show)).parts);
}

/// So many rows, each with a run of its own length.
fn show(count: usize) -> Show {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap_or_default();
    let lines = file["lines"].as_array().cloned().unwrap_or_default();
    let line = |i: usize| {
        let mut line = lines[i % lines.len()].clone();
        line["id"] = format!("row-{i}").into();
        line["channel"] = i.to_string().into();
        line["values"]["run_length"] = format!("{} m", 10.0 + 0.1 * i as f64).into();
        line
    };
    file["lines"] = (0..count).map(line).collect();
    let file: Raw = serde_json::from_value(file).unwrap_or(Raw::Null);
    read_show(&file).map(|(show, _)| show).unwrap_or_default()
}

/// The median of several runs.
fn told(what: &str, goal: &str, times: usize, mut run: impl FnMut() -> usize) {
    let mut took: Vec<f64> = (0..times)
        .map(|_| {
            let start = Instant::now();
            black_box(run());
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    took.sort_by(f64::total_cmp);
    println!("{what:42} {:>10.2}  {goal}", took[times / 2]);
}
