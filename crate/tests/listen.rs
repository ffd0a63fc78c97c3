//! What is heard in sounds of known content.
#![allow(clippy::unwrap_used, clippy::panic)]

#[path = "common/sounds.rs"]
mod sounds;

use sounds::{Sound, Wave};
use stageohm::listen::{Heard, HeardLine, QUIETEST, Through, agreement, hear, spectrum};
use stageohm::numeric::Draws;
use std::f64::consts::PI;

#[track_caller]
fn near(got: f64, expected: f64, within: f64) {
    assert!((got - expected).abs() <= within, "{got} is not {expected}");
}

fn listen(sound: &Sound) -> Heard {
    hear(&sound.samples.iter().map(|x| *x as f32).collect::<Vec<_>>(), sound.rate, Through::Line)
}

/// The level of a line that has to be heard, re the first, dB.
#[track_caller]
fn first(heard: &Heard, harmonic: u32) -> f64 {
    let line = heard.lines.iter().find(|line| line.harmonic == harmonic);
    line.unwrap_or_else(|| panic!("no {harmonic} in {:?}", heard.lines)).first
}

fn percent(share: f64) -> f64 {
    20.0 * (share / 100.0).log10()
}

/// Lines of a hum: number and level, dBFS.
const LINES: [(u32, f64); 9] =
    [(1, -30.0), (2, -52.0), (3, -38.0), (5, -36.0), (7, -44.0), (11, -47.0), (20, -50.0), (37, -48.0), (59, -51.0)];

/// The noise in the bandwidth of the analysis, a sixteenth of the mains frequency (35/18
/// bins of a block of 32 periods), of white noise of a level.
fn in_bandwidth(level: f64, mains: f64, rate: f64) -> f64 {
    level + 10.0 * (35.0 / 18.0 * mains / 32.0 / (rate / 2.0)).log10()
}

/// Frequency and levels of hum in noise, at usual rates and sizes of samples, with mains
/// that hold still and mains that drift by 0.2 Hz. All lines lie 30 dB and more over the
/// noise in their bandwidth.
#[test]
fn frequency_and_levels() {
    let mut draws = Draws::new(5);
    for (rate, bits, mains, drift) in [
        (44_100.0, 16, 49.97, 0.0),
        (48_000.0, 24, 50.02, 0.2),
        (48_000.0, 12, 60.0, -0.2),
        (96_000.0, 24, 59.95, 0.2),
        (192_000.0, 24, 50.2, 0.0),
        (8_000.0, 16, 49.8, 0.2),
        (44_100.0, 8, 50.0, 0.2),
    ] {
        let seconds = 4.0;
        let mut sound = Sound::new(rate, seconds);
        let scale = if bits == 8 { 20.0 } else { 0.0 };
        let lines = LINES.map(|(n, level)| (n, level + scale));
        let lines: Vec<_> = lines.into_iter().filter(|(n, _)| f64::from(*n) * mains < 0.4 * rate).collect();
        sound.lines(&lines, |time| mains + drift * (time / seconds - 0.5));
        let noise = -60.0 + scale + 10.0 * (rate / 48_000.0).log10();
        sound.white(noise, &mut draws);
        let heard = hear(&sound.converted(bits, &mut draws), rate, Through::Line);
        let of = format!("{rate} {bits} {mains} {drift} {heard:?}");
        assert!((heard.mains.unwrap().hz - mains).abs() < 0.01, "{of}");
        assert_eq!(heard.flaw, None, "{of}");
        for (n, level) in &lines {
            let line = heard.lines.iter().find(|line| line.harmonic == *n).unwrap_or_else(|| panic!("no {n}: {of}"));
            assert!(line.over > 29.5, "{n} {}: {of}", line.over);
            assert!((line.level - level).abs() < 0.2, "{n} {} {level}: {of}", line.level);
            assert!((line.hz - mains * f64::from(*n)).abs() < 0.01 * f64::from(*n));
            // Quantising adds to the noise where bits are few.
            assert!(bits < 16 || (line.over - (level - in_bandwidth(noise, mains, rate))).abs() < 1.5, "{n}: {of}");
        }
        // And nothing else is.
        assert_eq!(heard.lines.len(), lines.len(), "{of}");
        let weight = 10.0 * (20_000_f64 / (rate / 2.0)).min(1.0).log10();
        assert!(bits < 16 || (heard.noise - noise - weight).abs() < 0.5, "{of}");
    }
}

/// What `within` says of the frequency holds for 95 of 100 recordings: for 33 of 40 here, as
/// chance has it 999 times in 1,000.
#[test]
fn frequency_is_as_sure_as_it_says() {
    let mut draws = Draws::new(9);
    let mut held = 0;
    for _ in 0..40 {
        let mains = draws.between(49.8, 50.2);
        let mut sound = Sound::new(8_000.0, 2.0);
        sound.lines(&[(1, -40.0), (3, -50.0)], |_| mains);
        sound.white(draws.between(-50.0, -30.0), &mut draws);
        let found = listen(&sound).mains.unwrap();
        assert!(found.within < 0.1, "{found:?}");
        held += usize::from((found.hz - mains).abs() < found.within);
    }
    assert!(held >= 33, "{held} of 40");
}

/// Levels by definition: a sine of full scale is 0 dBFS, r.m.s. and peak (AES17); a square
/// of full scale is 3.01 dB more, and 4/π in its first line (Fourier).
#[test]
fn full_scale() {
    let mut sound = Sound::new(48_000.0, 2.0);
    sound.tone(0.0, 0.1, |_| 50.0);
    let heard = listen(&sound);
    near(heard.level, 0.0, 1e-3);
    near(heard.peak, 0.0, 1e-3);
    near(heard.lines[0].level, 0.0, 0.01);
    assert_eq!((heard.lines.len(), heard.flaw), (1, None));
    let mut square = Sound::new(48_000.0, 2.0);
    Wave::of(|turn| if turn < 0.5 { 1.0 } else { -1.0 }).played(&mut square, |_| 50.0);
    let heard = listen(&square);
    near(heard.level, 3.01, 0.01);
    near(heard.peak, 0.0, 1e-3);
    near(heard.lines[0].level, 20.0 * (4.0 / PI).log10(), 0.02);
    near(first(&heard, 9), percent(100.0 / 9.0), 0.05);
}

/// Twice the size is 6.02 dB more of everything that is a level, and nothing else.
#[test]
fn twice_the_size() {
    let mut draws = Draws::new(2);
    let mut sound = Sound::new(16_000.0, 2.0);
    sound.lines(&LINES[..6], |_| 50.0);
    sound.tone(-40.0, 0.0, |_| 3_333.0);
    sound.white(-50.0, &mut draws);
    let (one, two) = (listen(&sound), listen(&sound.clone().times(2.0)));
    let more = 20.0 * 2_f64.log10();
    for (one, two) in [(one.peak, two.peak), (one.level, two.level), (one.noise, two.noise)] {
        near(two - one, more, 1e-4);
    }
    let whines = (one.whine.unwrap(), two.whine.unwrap());
    near(whines.1.level - whines.0.level, more, 1e-4);
    assert_eq!(one.lines.len(), two.lines.len());
    for (one, two) in one.lines.iter().zip(&two.lines) {
        near(two.level - one.level, more, 1e-4);
        near(two.first, one.first, 1e-4);
        near(two.over, one.over, 1e-4);
    }
    near(two.mains.unwrap().hz, one.mains.unwrap().hz, 1e-6);
    near(two.hiss.unwrap(), one.hiss.unwrap(), 1e-6);
    near(two.slope.unwrap(), one.slope.unwrap(), 1e-4);
    for (one, two) in one.families.iter().zip(&two.families) {
        near(two.likelihood, one.likelihood, 1e-3);
    }
    for ([_, one], [_, two]) in one.spectrum.iter().zip(&two.spectrum) {
        near(two - one, more, 1e-3);
    }
}

/// A recorder that was switched on before the hum and off after it: silence is no part of
/// the mains.
#[test]
fn hum_between_silence() {
    let mut draws = Draws::new(3);
    let mut sound = Sound::new(16_000.0, 4.0);
    sound.lines(&LINES, |_| 60.0);
    sound.white(-60.0, &mut draws);
    let silence = vec![0.0; 16_000 * 8];
    let heard = listen(&Sound { samples: [silence.clone(), sound.samples, silence].concat(), rate: sound.rate });
    near(heard.mains.unwrap().hz, 60.0, 0.01);
    near(heard.seconds, 4.0, 0.11);
    near(first(&heard, 3), -8.0, 0.2);
}

/// It does not matter when one begins to listen.
#[test]
fn begun_later() {
    let wave = Wave::bridge(0.05, 20.0, 0.0).0.scaled(-20.0);
    let mut sound = Sound::new(16_000.0, 3.1);
    wave.played(&mut sound, |_| 50.03);
    let heard = listen(&sound);
    for late in [1, 1_234] {
        let later = listen(&Sound { rate: 16_000.0, samples: sound.samples[late..].to_vec() });
        near(later.mains.unwrap().hz, heard.mains.unwrap().hz, 1e-3);
        for line in heard.lines.iter().filter(|line| line.level > -70.0) {
            near(first(&later, line.harmonic), line.first, 0.05);
        }
    }
}

/// A dimmer at 90 degrees into a resistance: 53.7, 17.9, 17.9, 10.7 and 10.7 % of its
/// fundamental and no even lines (Fourier's integrals). Half cycles that differ by
/// one per cent of their length have even lines 35 dB below the fundamental.
#[test]
fn dimmer_at_ninety_degrees() {
    let mut sound = Sound::new(48_000.0, 2.0);
    Wave::dimmer(PI / 2.0, 0.0).scaled(-20.0).played(&mut sound, |_| 50.0);
    let heard = listen(&sound);
    for (harmonic, share) in [(3, 53.7), (5, 17.9), (7, 17.9), (9, 10.7), (11, 10.7)] {
        near(first(&heard, harmonic), percent(share), 0.1);
    }
    assert!(heard.lines.iter().all(|line| line.harmonic % 2 == 1));
    let mut sound = Sound::new(48_000.0, 2.0);
    Wave::dimmer(PI / 2.0, 0.02).scaled(-20.0).played(&mut sound, |_| 50.0);
    near(listen(&sound).ripple.unwrap(), -35.0, 2.0);
}

/// A bridge that always conducts has the mains on its rail and 42 % of their second
/// harmonic: half of a sine and the other half of a rectified one (Fourier: 4/(3π)).
#[test]
fn bridge_that_conducts() {
    let mut sound = Sound::new(16_000.0, 2.0);
    Wave::of(|turn| (PI * 2.0 * turn).sin().max(0.0)).scaled(-20.0).played(&mut sound, |_| 60.0);
    let heard = listen(&sound);
    near(heard.ripple.unwrap(), percent(400.0 / 3.0 / PI), 0.05);
    near(first(&heard, 4), percent(400.0 / 15.0 / PI), 0.05);
}

/// Half cycles that differ by 1 % put the mains on the ripple of a supply, 10 dB below it
/// or so, and none that do not.
#[test]
fn unequal_half_cycles() {
    let rail = |unequal: f64| {
        let mut sound = Sound::new(16_000.0, 2.0);
        Wave::bridge(0.005, 70.0, unequal).1.scaled(-20.0).played(&mut sound, |_| 50.0);
        listen(&sound)
    };
    let equal = rail(0.0);
    assert!(equal.odd_even.unwrap() < -60.0 && equal.lines.iter().all(|line| line.harmonic % 2 == 0), "{equal:?}");
    near(rail(0.01).ripple.unwrap(), 10.0, 3.0);
}

/// A dimmer whose edges rise in 400 µs bends at 0.35/t = 875 Hz, one of 50 µs at 7 kHz,
/// which is past the harmonics that are looked at.
#[test]
fn corner_of_a_dimmer() {
    let corner = |rise: f64| {
        let mut sound = Sound::new(48_000.0, 2.0);
        let wave = Wave::dimmer(PI / 2.0, 0.0).choked(rise * 50.0);
        wave.scaled(-20.0).played(&mut sound, |_| 50.0);
        listen(&sound).corner
    };
    let bend = corner(400e-6).unwrap();
    assert!((600.0..1250.0).contains(&bend), "{bend}");
    assert_eq!(corner(30e-6), None);
}

/// Noise is all of noise, and little of hum.
#[test]
fn share_of_noise() {
    let mut draws = Draws::new(4);
    for pink in [false, true] {
        let mut sound = Sound::new(44_100.0, 2.0);
        if pink {
            sound.pink(-40.0, &mut draws);
        } else {
            sound.white(-40.0, &mut draws);
        }
        let heard = listen(&sound);
        assert!(heard.hiss.unwrap() > 0.9 && heard.mains.is_none() && heard.whine.is_none(), "{heard:?}");
        assert!(heard.lines.is_empty() && heard.bursts.is_none());
        near(heard.noise, -40.0, if pink { 1.5 } else { 0.7 });
        sound.tone(-20.0, 0.0, |_| 50.0);
        // Ten times the size is a hundred times the power.
        near(listen(&sound).hiss.unwrap(), 0.01, 0.003);
    }
}

/// A tone of a supply, beside mains with many harmonics and in noise, as it wanders.
#[test]
fn whine_beside_hum() {
    let mut draws = Draws::new(6);
    let mut sound = Sound::new(48_000.0, 3.0);
    Wave::dimmer(1.5, 0.0).scaled(-20.0).played(&mut sound, |_| 50.0);
    sound.white(-70.0, &mut draws);
    let alone = listen(&sound);
    assert_eq!(alone.whine, None);
    for (middle, wander) in [(8_765.0, 0.0), (15_625.0, 0.0), (12_012.0, 10.0)] {
        let mut sound = sound.clone();
        sound.tone(-35.0, 0.0, |time| middle + wander * (5.0 * time).sin());
        let whine = listen(&sound).whine.unwrap();
        near(whine.hz, middle, 2.0 + wander / 2.0);
        near(whine.level, -35.0, 0.5);
    }
}

/// A telephone: 26 frames in 120 ms are 216.67 Hz (3GPP TS 45.002), beside mains or not.
#[test]
fn bursts_of_a_telephone() {
    let mut draws = Draws::new(8);
    for quiet in [0.0, 0.5] {
        let mut sound = Sound::new(22_050.0, 3.0);
        sound.bursts(-30.0, quiet, &mut draws);
        sound.white(-70.0, &mut draws);
        let alone = listen(&sound);
        near(alone.bursts.unwrap().hz, 216.667, 0.05);
        assert!(alone.mains.is_none(), "{alone:?}");
        Wave::magnetising(1.0, 7).scaled(-40.0).played(&mut sound, |_| 50.0);
        // One of their lines lies on the thirteenth harmonic.
        let both = listen(&sound);
        near(both.bursts.unwrap().hz, 216.667, 0.05);
        near(both.bursts.unwrap().level, alone.bursts.unwrap().level, 2.0);
        // What is said once in 26 frames has a multiple at 50 Hz too.
        near(both.mains.unwrap().hz, 50.0, 0.1);
    }
}

/// Notes are no mains: their harmonics have no greater part in common with 50 or 60 Hz.
#[test]
fn notes_are_no_mains() {
    for note in [110.0, 220.0, 440.0, 987.8] {
        let mut sound = Sound::new(8_000.0, 1.5);
        sound.lines(&[(1, -20.0), (2, -30.0), (3, -35.0), (4, -45.0)], |_| note);
        sound.white(-70.0, &mut Draws::new(1));
        assert_eq!(listen(&sound).mains, None, "{note}");
    }
}

/// Tops that are cut off are told, whichever way up and however many bits; those of a full
/// sine are not.
#[test]
fn clipped() {
    let mut draws = Draws::new(3);
    for bits in [8, 16, 24] {
        for (size, clips) in [(0.99, false), (1.5, true), (10.0, true)] {
            let mut sound = Sound::new(16_000.0, 1.5);
            sound.tone(0.0, 0.0, |_| 50.0);
            sound.samples.iter_mut().for_each(|x| *x = (*x * size).clamp(-1.0, 1.0));
            let heard = hear(&sound.converted(bits, &mut draws), 16_000.0, Through::Line);
            assert_eq!(heard.flaw, clips.then_some("clipped"), "{bits} {size}");
            near(heard.mains.unwrap().hz, 50.0, 0.01);
        }
    }
}

/// Nothing, next to nothing and no numbers at all have an answer.
#[test]
fn nothing_to_hear() {
    let silence = hear(&vec![0.0; 48_000], 48_000.0, Through::Line);
    assert_eq!((silence.flaw, silence.level, silence.peak), (Some("silence"), QUIETEST, QUIETEST));
    for (samples, rate) in [
        (vec![], 48_000.0),
        (vec![0.5], 48_000.0),
        (vec![0.5; 100], 48_000.0),
        (vec![0.5; 100_000], 1e9),
        (vec![0.5; 100_000], 0.0),
        (vec![0.5; 100_000], -48_000.0),
        (vec![0.5; 100_000], f64::NAN),
        (vec![0.5; 100_000], f64::INFINITY),
    ] {
        let heard = hear(&samples, rate, Through::Air);
        assert_eq!((heard.flaw, heard.families.len()), (Some("short"), 0), "{rate}");
        assert!(heard.level.is_finite() && heard.seconds.is_finite());
    }
    for odd in [f32::NAN, f32::INFINITY, f32::MAX, f32::MIN_POSITIVE] {
        let samples: Vec<_> = (0..8_000).map(|i| if i % 3 == 0 { odd } else { 0.1 }).collect();
        let heard = hear(&samples, 8_000.0, Through::Line);
        let text = serde_json::to_string(&heard).unwrap();
        assert!(!text.contains("null,\"level\"") && heard.level.is_finite() && heard.peak.is_finite(), "{text}");
        assert!(heard.families.iter().all(|family| (0.0..=1.0).contains(&family.likelihood)));
        assert!(spectrum(&samples, 8_000.0).iter().all(|[hz, level]| hz.is_finite() && level.is_finite()));
    }
    assert!(spectrum(&[], 48_000.0).is_empty() && spectrum(&[0.1; 100], 0.0).is_empty());
}

/// Two minutes are listened to and no more, and the way in has an identifier.
#[test]
fn two_minutes_at_most() {
    let mut samples = vec![0.0; 121 * 8_000];
    samples[120 * 8_000..].fill(0.5);
    let heard = hear(&samples, 8_000.0, Through::of("line").unwrap());
    assert_eq!((heard.seconds, heard.peak, heard.flaw), (120.0, QUIETEST, Some("silence")));
    assert_eq!((Through::of("air"), Through::of("ether")), (Some(Through::Air), None));
}

/// The spectrum to be drawn has a tone where it is and as loud as it is, from 20 Hz on to
/// 20 kHz or half the rate.
#[test]
fn spectrum_to_draw() {
    for (rate, of) in [(8_000.0, [63.0, 1_000.0]), (44_100.0, [1_000.0, 9_876.0]), (192_000.0, [63.0, 17_000.0])] {
        for hz in of {
            let mut sound = Sound::new(rate, 0.7);
            sound.tone(-12.0, 0.0, |_| hz);
            let samples: Vec<_> = sound.samples.iter().map(|x| *x as f32).collect();
            for points in [spectrum(&samples, rate), hear(&samples, rate, Through::Line).spectrum] {
                let highest = points.iter().copied().fold([0.0, QUIETEST], |a, b| if b[1] > a[1] { b } else { a });
                // 0.9 dB: how much lower a line is that lies between two bins.
                assert!((-12.9..-11.99).contains(&highest[1]), "{rate} {hz} {highest:?}");
                near(highest[0] / hz, 1.0, 0.05);
                assert!(points.len() > 350 && points.is_sorted_by(|a, b| a[0] < b[0]));
                assert!(points[0][0] > 20.0 && points[0][0] < 20.5);
                let top = 20_000_f64.min(rate / 2.0);
                assert!((0.97 * top..=top).contains(&points[points.len() - 1][0]), "{rate}");
            }
        }
    }
}

fn heard(lines: &[(u32, f64)], noise: f64) -> Vec<HeardLine> {
    let line = |(harmonic, level): &(u32, f64)| HeardLine {
        harmonic: *harmonic,
        hz: 50.0 * f64::from(*harmonic),
        level: level - 30.0,
        first: *level,
        over: level - noise,
    };
    lines.iter().map(line).collect()
}

/// Lines as they are predicted are likelier than any others, the more so by line; all
/// together louder is the same; what noise hides is no matter.
#[test]
fn agreement_with_what_is_predicted() {
    let predicted = [(1, 0.0), (3, -20.0), (5, -24.0), (7, -30.0)];
    let right = heard(&predicted, -60.0);
    let of = |predicted: &[(u32, f64)], through| agreement(&right, predicted, through);
    for through in [Through::Line, Through::Air] {
        let best = of(&predicted, through);
        for wrong in [
            vec![(1, 0.0), (3, -10.0), (5, -24.0), (7, -30.0)],
            vec![(1, 0.0), (2, -5.0), (3, -20.0), (5, -24.0), (7, -30.0)],
            vec![(1, 0.0), (3, -20.0), (5, -24.0), (7, -20.0)],
            vec![(2, 0.0), (4, -6.0), (6, -10.0)],
        ] {
            assert!(of(&wrong, through) < best - 0.1, "{wrong:?} {through:?}");
        }
        let louder: Vec<_> = predicted.iter().map(|(n, level)| (*n, level + 17.0)).collect();
        near(of(&louder, through), best, 0.05);
    }
    let wrong = [(1, 0.0), (3, -10.0), (5, -24.0), (7, -30.0)];
    let told = |through| of(&predicted, through) - of(&wrong, through);
    assert!(told(Through::Line) > 3.0 && told(Through::Air) < 1.0);
    // A line at -80 dB would be hidden by noise at -60.
    let hidden = [(1, 0.0), (3, -20.0), (5, -24.0), (7, -30.0), (8, -80.0)];
    near(of(&hidden, Through::Line), of(&predicted, Through::Line), 0.05);
}

/// Gauss: two lines of which one is off by d move apart by d·√(1/2) each, so the likelihood
/// falls by d²/4 at one decibel of deviation, as far as lines are not something else.
#[test]
fn agreement_by_hand() {
    let right = heard(&[(1, 0.0), (2, -10.0)], -60.0);
    let of = |off: f64| agreement(&right, &[(1, 0.0), (2, -10.0 + off)], Through::Line);
    for off in [0.5, 1.0, 1.5] {
        near(of(0.0) - of(off), off * off / 4.0, 0.05);
    }
    assert_eq!(agreement(&[], &[(1, 0.0)], Through::Line), 0.0);
    assert_eq!(agreement(&right, &[], Through::Line), 0.0);
    assert!(agreement(&right, &[(1, f64::NAN), (u32::MAX, f64::NEG_INFINITY)], Through::Air).is_finite());
}
