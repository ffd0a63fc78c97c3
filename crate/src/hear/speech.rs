//! The long-term spectrum of speech.

use super::response::Response;

/// Levels in third octaves, dB, of many languages, women and men, at 70 dB in all (Byrne
/// et al., J. Acoust. Soc. Am. 96, 1994, table II, from memory).
const LEVELS: [(f64, f64); 25] = [
    (63.0, 38.6),
    (80.0, 43.5),
    (100.0, 54.4),
    (125.0, 57.7),
    (160.0, 56.8),
    (200.0, 60.2),
    (250.0, 60.3),
    (315.0, 59.0),
    (400.0, 62.1),
    (500.0, 62.1),
    (630.0, 60.5),
    (800.0, 56.8),
    (1000.0, 53.7),
    (1250.0, 53.0),
    (1600.0, 52.0),
    (2000.0, 48.7),
    (2500.0, 48.1),
    (3150.0, 46.8),
    (4000.0, 45.6),
    (5000.0, 44.5),
    (6300.0, 44.3),
    (8000.0, 43.7),
    (10_000.0, 43.4),
    (12_500.0, 41.3),
    (16_000.0, 40.7),
];

/// What makes white noise of it: a third octave is the wider the higher it lies.
pub(super) fn speech() -> Response {
    let (hz, db) = LEVELS.iter().map(|(hz, level)| (*hz, level - 10.0 * hz.log10() - 30.0)).unzip();
    Response { hz, db }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Together they are the 70 dB that the source states for all of them (from memory, as they are):
    /// none of the loud ones is far off alone. Those above 1 kHz hardly count in it.
    #[test]
    fn is_70_db_in_all() {
        let power: f64 = LEVELS.iter().map(|(_, level)| 10_f64.powf(level / 10.0)).sum();
        let all = 10.0 * power.log10();
        assert!((all - 70.0).abs() < 0.05, "{all}");
    }
}
