//! Time of 10 000 draws of a pickup chain at 200 points, and of the usual 2000
//! draws with the search for the worst case in every calculator.

use stageohm::answer::{Question, answer};
use stageohm::calculator::REGISTER;
use std::hint::black_box;
use std::time::Instant;

mod pickup_draws;

use pickup_draws::{DRAWS, POINTS, band};

fn main() {
    let name = format!("{DRAWS} draws of a pickup chain, {POINTS} points");
    println!("{name:46} {:>8.0} ms  goal: 200 ms", best(|| drop(black_box(band(1)))));
    println!("\n2000 draws and the search for the worst case in a calculator");
    for calculator in REGISTER {
        let question = serde_json::json!({ "calculator": calculator.id, "working": false, "tolerances": {} });
        match serde_json::from_value::<Question>(question) {
            Ok(question) => {
                println!("{:46} {:>8.0} ms  goal: 1000 ms", calculator.id, best(|| drop(black_box(answer(&question)))));
            }
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
    let runs = if std::env::var_os("STAGEOHM_BRIEF").is_some() { 1 } else { 3 };
    (0..runs).map(|_| time()).fold(f64::INFINITY, f64::min)
}
