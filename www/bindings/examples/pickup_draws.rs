//! The benchmark of 10 000 drawn pickups as a program that a browser can run
//! too, which then takes the time.

use std::hint::black_box;

#[path = "../../../crate/benches/tolerance/pickup_draws.rs"]
mod pickup_draws;

fn main() {
    black_box(pickup_draws::band(1));
}
