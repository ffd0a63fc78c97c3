//! The networks as the native engine once solved them, to compare any build of
//! the engine with.
#![allow(unreachable_pub)]

use serde::{Deserialize, Serialize};
use stageohm::network::{features, log_sweep};

#[path = "networks.rs"]
mod networks;

/// Written by `cargo test --package stageohm --test recorded -- --ignored`.
const RECORDED: &str = include_str!("../fixtures/recorded.json");

/// One network's solution.
#[derive(Serialize, Deserialize)]
pub struct Solution {
    name: String,
    /// Real and imaginary part of the transfer at each frequency.
    transfer: Vec<[f64; 2]>,
    /// Peak, low and high corner, Hz.
    features: [Option<f64>; 3],
}

/// Every network as this build solves it.
pub fn solve() -> Vec<Solution> {
    let frequencies = log_sweep(&(1.0..=100e3), 26);
    let solve = |(name, path): (&str, stageohm::network::Path)| {
        let found = features(&path);
        let transfer = frequencies.iter().map(|f| path.transfer(*f)).map(|h| [h.re, h.im]).collect();
        let peak = found.peak.map(|peak| peak.frequency);
        Solution { name: name.to_owned(), transfer, features: [peak, found.low_corner, found.high_corner] }
    };
    networks::networks().into_iter().map(solve).collect()
}

/// What differs from the recording by more than these relative limits.
pub fn differences(transfer_limit: f64, feature_limit: f64) -> Vec<String> {
    let recorded: Vec<Solution> = serde_json::from_str(RECORDED).unwrap();
    let solved = solve();
    let mut differences = Vec::new();
    if recorded.len() != solved.len() {
        differences.push(format!("{} networks are recorded and {} solved", recorded.len(), solved.len()));
    }
    for (recorded, solved) in recorded.iter().zip(&solved) {
        let size = |[re, im]: [f64; 2]| re.hypot(im);
        for (a, b) in recorded.transfer.iter().zip(&solved.transfer) {
            let error = size([a[0] - b[0], a[1] - b[1]]) / size(*a);
            if error > transfer_limit {
                differences.push(format!("{}: transfer {a:?} and {b:?}", recorded.name));
            }
        }
        for (a, b) in recorded.features.iter().zip(&solved.features) {
            let same = match (a, b) {
                (Some(a), Some(b)) => (a / b - 1.0).abs() <= feature_limit,
                (None, None) => true,
                _ => false,
            };
            if !same {
                differences.push(format!("{}: feature {a:?} and {b:?}", recorded.name));
            }
        }
    }
    differences
}
