//! Ten thousand pickups with leads, drawn within the tolerances of their parts
//! and swept: what the band over a response costs.
#![allow(unreachable_pub)]

use stageohm::network::{AUDIO_BAND, OnePort, Response as _, log_sweep};
use stageohm::numeric::{Draws, Extremes, Samples};
use stageohm::part::{Coils, Lead, Pickup, Pot, Taper, ToneControl};

/// How many.
pub const DRAWS: usize = 10_000;
/// Frequencies of the sweep.
pub const POINTS: usize = 200;

/// The 5 %, 50 % and 95 % levels in dB at each frequency, and the extremes.
pub fn band(seed: u32) -> (Vec<[f64; 3]>, Extremes) {
    let frequencies = log_sweep(&AUDIO_BAND, POINTS);
    let mut random = Draws::new(seed);
    let mut samples = Samples::new(POINTS, DRAWS);
    let mut extremes = Extremes::new(POINTS);
    let mut powers = vec![0.0; POINTS];
    for _ in 0..DRAWS {
        let mut off = |value: f64, by: f64| random.between(value * (1.0 - by), value * (1.0 + by));
        let taper = Taper::Audio;
        let pickup = Pickup {
            r: off(6.5e3, 0.1),
            l: off(2.5, 0.1),
            c: off(110e-12, 0.1),
            loss: None,
            coils: Coils::One,
            coupling: 0.0,
            volume: Some(Pot { r: off(250e3, 0.2), turn: 1.0, taper }),
            tone: Some(ToneControl {
                pot: Pot { r: off(250e3, 0.2), turn: 1.0, taper },
                c: off(22e-9, 0.1),
                before_volume: true,
            }),
        };
        let lead = Lead { length: off(5.0, 0.02), r: off(0.1, 0.1), l: off(0.6e-6, 0.1), c: off(100e-12, 0.1) };
        let path = pickup.path(OnePort::resistor(off(1e6, 0.05))).with("", lead.element());
        path.powers(&frequencies, &mut powers);
        samples.push(&powers);
        extremes.meet(&powers);
    }
    // Quantiles of powers are those of levels, so that only they are turned
    // into decibels.
    let level = |power: f64| 10.0 * power.log10();
    let extremes = Extremes {
        least: extremes.least.into_iter().map(level).collect(),
        most: extremes.most.into_iter().map(level).collect(),
    };
    (samples.quantiles([0.05, 0.5, 0.95]).into_iter().map(|(shares, _)| shares.map(level)).collect(), extremes)
}
