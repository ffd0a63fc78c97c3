//! Whether two rigs can be told apart by ear.

use super::response::Curve;
use super::scene::{Side, Ways};
use crate::catalogue::UNHEARD;
use crate::report::{HumLine, RigSound};

/// Where responses are compared, Hz, and at how many places of an octave.
const BAND: (f64, f64) = (20.0, 16e3);
const PLACES: f64 = 24.0;
/// Hum and noise that differ by no more are alike, dB: a step of level that is just
/// noticed (common practice, no source).
const STEP: f64 = 1.0;
/// What lies so far below the signal is not heard beside it, dB: with the signal at 80 dB
/// SPL it is as loud as a quiet studio (judgement).
const FAR: f64 = -70.0;

/// Whether hardly anybody would hear a difference of two rigs, each raised by a gain in dB.
pub fn hardly_apart([a, b]: [&Side; 2], gains: [f64; 2], ways: Ways) -> bool {
    responses(a, b, gains[1] - gains[0]) && added(a.sound.as_ref(), b.sound.as_ref(), ways)
}

fn responses(a: &Side, b: &Side, raised: f64) -> bool {
    let (a, b) = (Curve::new(a.response.as_ref()), Curve::new(b.response.as_ref()));
    let (from, to) = BAND;
    let count = ((to / from).log2() * PLACES).ceil();
    let at = |place: u32| from * (to / from).powf(f64::from(place) / count);
    (0..=count as u32).map(at).all(|hz| (b.at(hz) - a.at(hz) + raised).abs() < UNHEARD)
}

/// What is switched off is not heard.
fn added(a: Option<&RigSound>, b: Option<&RigSound>, ways: Ways) -> bool {
    let both = |of: fn(&RigSound) -> Option<f64>| [a, b].map(|sound| sound.and_then(of));
    let noise = both(|sound| sound.noise).map(|level| level.unwrap_or(f64::NEG_INFINITY));
    let over = both(|sound| sound.headroom).map(|room| (-room.unwrap_or(0.0)).max(0.0));
    let lines = [a, b].map(|sound| sound.map_or(&[][..], |sound| &sound.hum));
    (!ways.noise || alike(noise))
        && (!ways.hum || hums(lines[0], lines[1]) && hums(lines[1], lines[0]))
        && (!ways.clipping || (over[0] > 0.0) == (over[1] > 0.0) && (over[0] - over[1]).abs() < UNHEARD)
}

/// Whether the other hum has each line of the one.
fn hums(one: &[HumLine], other: &[HumLine]) -> bool {
    let same = |hz: f64| other.iter().find(|line| (line.hz - hz).abs() < 0.5);
    one.iter().all(|line| alike([line.db, same(line.hz).map_or(f64::NEG_INFINITY, |line| line.db)]))
}

/// Of two levels re the signal, dB.
fn alike([one, other]: [f64; 2]) -> bool {
    one.max(other) < FAR || (one - other).abs() <= STEP
}

#[cfg(test)]
mod tests {
    use super::super::response::Response;
    use super::*;

    const ALL: Ways = Ways { matched: true, hum: true, noise: true, clipping: true };

    /// A low pass of the first order (its own formula), and a level.
    fn low_pass(corner: f64, level: f64) -> Side {
        let hz: Vec<_> = (0..241).map(|n| 20.0 * 1000_f64.powf(f64::from(n) / 240.0)).collect();
        let db = hz.iter().map(|hz| level - 10.0 * (1.0 + (hz / corner).powi(2)).log10()).collect();
        Side { response: Some(Response { hz, db }), sound: None }
    }

    fn sounding(sound: RigSound) -> Side {
        Side { response: None, sound: Some(sound) }
    }

    /// At 16 kHz a low pass of 47 kHz takes 10·log(1 + (16/47)²) = 0.48 dB, one of 45 kHz
    /// 0.52 dB. A level that is made up for counts for nothing.
    #[test]
    fn by_half_a_decibel_at_16_khz() {
        let flat = low_pass(f64::INFINITY, 0.0);
        let is = |other: &Side, gain: f64| hardly_apart([&flat, other], [0.0, gain], ALL);
        assert!(is(&low_pass(47e3, 0.0), 0.0));
        assert!(!is(&low_pass(45e3, 0.0), 0.0));
        assert!(is(&low_pass(47e3, -6.0), 6.0));
        assert!(!is(&low_pass(47e3, -6.0), 0.0));
        assert!(is(&Side { response: None, sound: None }, 0.0));
    }

    #[test]
    fn by_what_they_add() {
        let line = |hz: f64, db: f64| HumLine { hz, db };
        let hum = |lines: &[HumLine]| RigSound { hum: lines.to_vec(), ..RigSound::default() };
        let noise = |level: f64| RigSound { noise: Some(level), ..RigSound::default() };
        let room = |left: f64| RigSound { headroom: Some(left), ..RigSound::default() };
        let of_50 = |db: f64| hum(&[line(50.0, db)]);
        let none = RigSound::default;
        for (one, other, is) in [
            (of_50(-40.0), of_50(-40.9), true),
            (of_50(-40.0), of_50(-41.1), false),
            (of_50(-40.0), hum(&[line(150.0, -40.0)]), false),
            (of_50(-40.0), none(), false),
            (of_50(-71.0), none(), true),
            (noise(-50.0), noise(-50.9), true),
            (noise(-50.0), noise(-51.1), false),
            (noise(-71.0), noise(-90.0), true),
            (room(3.0), room(20.0), true),
            (room(-3.0), room(-3.4), true),
            (room(-3.0), room(-3.6), false),
            (room(-0.1), room(0.1), false),
        ] {
            let (one, other) = (sounding(one), sounding(other));
            for sides in [[&one, &other], [&other, &one]] {
                assert_eq!(hardly_apart(sides, [0.0; 2], ALL), is, "{sides:?}");
                let silent = Ways { hum: false, noise: false, clipping: false, ..ALL };
                assert!(hardly_apart(sides, [0.0; 2], silent), "{sides:?}");
            }
        }
    }
}
