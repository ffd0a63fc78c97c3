//! Time of 10 000 draws of a pickup chain at 200 points, and of the usual 2000
//! draws with the search for the worst case in every calculator.

use stageohm::answer::{Question, answer};
use stageohm::calculator::REGISTER;
use std::hint::black_box;
use std::time::Instant;

#[path = "pickup_draws.rs"]
mod pickup_draws;

use pickup_draws::{As, DRAWS, POINTS, band};

fn main() {
    println!("{DRAWS} draws of a pickup, its controls and lead at {POINTS} points");
    for (name, lead_as) in [("lead as capacitance", As::Capacitance), ("lead as exact line", As::Line)] {
        println!("{name:38} {:>8.0} ms", best(|| drop(black_box(band(1, lead_as)))));
    }
    println!("\n2000 draws and the search for the worst case in a calculator");
    for calculator in REGISTER {
        let question = serde_json::json!({ "calculator": calculator.id, "working": false, "tolerances": {} });
        match serde_json::from_value::<Question>(question) {
            Ok(question) => println!("{:38} {:>8.0} ms", calculator.id, best(|| drop(black_box(answer(&question))))),
            Err(error) => println!("{}: {error}", calculator.id),
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
    (0..3).map(|_| time()).fold(f64::INFINITY, f64::min)
}
