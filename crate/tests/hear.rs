//! What two rigs sound like, against the core, an independent meter and the sums that
//! define what is rendered.
#![cfg(feature = "hear")]
#![allow(clippy::unwrap_used, clippy::panic)]

use ebur128::{EbuR128, Mode};
use stageohm::hear::{
    FADE, Instrument, LENGTH, LIMIT, Ramp, Rendered, Response, START, STOP, SWITCH, Side, Ways, convolve, impulse,
    render,
};
use stageohm::report::{HumLine, RigSound};
use std::f64::consts::{SQRT_2, TAU};
use std::sync::LazyLock;

const RATE: f64 = 48e3;
const ALL: Ways = Ways { matched: true, hum: true, noise: true, clipping: true };
const AS_IT_IS: Ways = Ways { matched: false, hum: true, noise: true, clipping: true };
/// Each loop once: it takes its time where nothing is optimised.
fn played(kind: Instrument) -> &'static [f64] {
    static ALL: LazyLock<[Vec<f64>; 4]> = LazyLock::new(|| KINDS.map(|kind| kind.samples(RATE)));
    &ALL[KINDS.iter().position(|one| *one == kind).unwrap()]
}

const KINDS: [Instrument; 4] = [Instrument::Bass, Instrument::Guitar, Instrument::Keys, Instrument::Speech];

/// By the definition of the discrete Fourier transform: the amplitude of one frequency.
fn amplitude(samples: &[f64], hz: f64, rate: f64) -> f64 {
    let turned = samples.iter().enumerate().map(|(i, x)| {
        let (sin, cos) = (TAU * hz * i as f64 / rate).sin_cos();
        (x * cos, x * sin)
    });
    let (re, im) = turned.fold((0.0, 0.0), |sum, (re, im)| (sum.0 + re, sum.1 + im));
    f64::hypot(re, im)
}

fn decibels(factor: f64) -> f64 {
    20.0 * factor.log10()
}

fn grid() -> Vec<f64> {
    (0..241).map(|n| 20.0 * 1000_f64.powf(f64::from(n) / 240.0)).collect()
}

/// A pickup's peak of Q 4 at 3.5 kHz, and below it a high pass of the first order.
fn of_pickup(high_pass: f64) -> Side {
    let level = |hz: f64| {
        let x: f64 = hz / 3.5e3;
        let low = 1.0 / (1.0 + (high_pass / hz).powi(2));
        10.0 * low.log10() - 10.0 * ((1.0 - x * x).powi(2) + (x / 4.0).powi(2)).log10() - 6.0
    };
    let hz = grid();
    let db = hz.iter().map(|hz| level(*hz)).collect();
    Side { response: Some(Response { hz, db }), sound: None }
}

fn flat(sound: RigSound) -> Side {
    Side { response: None, sound: Some(sound) }
}

fn power(samples: impl IntoIterator<Item = f64>) -> f64 {
    samples.into_iter().map(|x| x * x).sum()
}

fn double(rendered: &Rendered) -> Vec<f64> {
    rendered.samples.iter().copied().map(f64::from).collect()
}

fn metered(samples: &[f32]) -> f64 {
    let mut meter = EbuR128::new(1, RATE as u32, Mode::I).unwrap();
    meter.add_frames_f32(samples).unwrap();
    meter.loudness_global().unwrap()
}

/// The response of what is rendered is that of the answer to 0.1 dB from 20 Hz to
/// 16 kHz, whatever the rate, with an impulse response of 2¹⁴ samples.
#[test]
fn renders_the_response() {
    assert_eq!(LENGTH, 16_384);
    for rate in [44.1e3, 48e3, 96e3] {
        for high_pass in [0.5, 5.0, 30.0, 300.0] {
            let Some(response) = of_pickup(high_pass).response else { panic!() };
            let impulse = impulse(Some(&response), rate);
            for (hz, db) in response.hz.iter().zip(&response.db).filter(|(hz, _)| **hz <= 16e3) {
                let got = decibels(amplitude(&impulse, *hz, rate));
                assert!((got - db).abs() < 0.1, "{rate} Hz, {high_pass} Hz: {got} dB and not {db} at {hz} Hz");
            }
        }
    }
}

/// The same through a whole scene: sines through a rig keep their ratio.
#[test]
fn renders_sines() {
    let side = of_pickup(40.0);
    let Some(response) = &side.response else { panic!() };
    for at in [0, 20, 100, 180, 231] {
        // A whole number of periods in two seconds.
        let hz = (response.hz[at] * 2.0).round() / 2.0;
        let source: Vec<_> = (0..96_000).map(|i| (TAU * hz * f64::from(i) / RATE).sin()).collect();
        let [through, bare] = render(&source, RATE, [&side, &flat(RigSound::default())], AS_IT_IS);
        let got = decibels(amplitude(&double(&through), hz, RATE) / amplitude(&double(&bare), hz, RATE));
        let x: f64 = hz / 3.5e3;
        let wanted = -10.0 * (1.0 + (40.0 / hz).powi(2)).log10()
            - 10.0 * ((1.0 - x * x).powi(2) + (x / 4.0).powi(2)).log10()
            - 6.0;
        assert!((got - wanted).abs() < 0.1, "{got} and not {wanted} at {hz}");
    }
}

/// Both are equally loud to 0.1 LU by another meter of ITU-R BS.1770, and what is told of
/// their loudness is what that meter shows.
#[test]
fn matches_loudness() {
    let noisy = RigSound {
        hum: vec![HumLine { hz: 50.0, db: -20.0 }, HumLine { hz: 150.0, db: -30.0 }],
        noise: Some(-30.0),
        headroom: Some(-6.0),
    };
    for kind in KINDS {
        let source = played(kind);
        for other in [flat(noisy.clone()), of_pickup(80.0), flat(RigSound::default())] {
            let both = render(source, RATE, [&of_pickup(0.5), &other], ALL);
            let [a, b] = [0, 1].map(|n| metered(&both[n].samples));
            assert!((a - b).abs() < 0.1, "{kind:?}: {a} {b}");
            for (told, metered) in both.iter().map(|one| one.heard.loudness).zip([a, b]) {
                assert!((told - metered).abs() < 0.05, "{kind:?}: {told} {metered}");
            }
            assert!(both.iter().any(|one| one.heard.gain == 0.0) && both.iter().all(|one| one.heard.gain >= 0.0));
        }
    }
}

/// As it is, the difference of two levels stays: 12 dB are 12 LU.
#[test]
fn leaves_levels() {
    let level = |db: f64| Side { response: Some(Response { hz: grid(), db: vec![db; 241] }), sound: None };
    let source = played(Instrument::Guitar);
    let both = render(source, RATE, [&level(-3.0), &level(-15.0)], AS_IT_IS);
    let [a, b] = [0, 1].map(|n| metered(&both[n].samples));
    assert!((a - b - 12.0).abs() < 0.02, "{a} {b}");
}

/// A rig that is far softer is told as far softer as its flat response is: none of it falls
/// below the absolute gate, at −70 LUFS, for being played quietly. The other meter hears the
/// same once it is turned up.
#[test]
fn tells_how_much_softer() {
    let level = |db: f64| Side { response: Some(Response { hz: grid(), db: vec![db; 241] }), sound: None };
    for kind in [Instrument::Bass, Instrument::Speech] {
        let both = render(played(kind), RATE, [&level(-3.0), &level(-53.0)], AS_IT_IS);
        let [a, b] = [0, 1].map(|n| both[n].heard.loudness);
        assert!((a - b - 50.0).abs() < 0.1, "{kind:?}: {a} {b}");
        let up: Vec<_> = both[1].samples.iter().map(|x| x * 10_f32.powf(50.0 / 20.0)).collect();
        let metered = metered(&up) - 50.0;
        assert!((b - metered).abs() < 0.1, "{kind:?}: {b} {metered}");
    }
}

/// Hum and noise lie as far below the signal as computed, to 0.1 dB, through a response
/// too: the difference to the same scene without them is measured.
#[test]
fn keeps_hum_and_noise_to_the_signal() {
    let sound = RigSound {
        hum: vec![HumLine { hz: 50.0, db: -42.0 }, HumLine { hz: 150.0, db: -50.0 }, HumLine { hz: 61.7, db: -48.0 }],
        noise: Some(-55.0),
        headroom: None,
    };
    for rate in [44.1e3, RATE, 96e3] {
        // A sine at 1 kHz, where levels are stated; −6 dB through the response.
        let source: Vec<_> = (0..(4.0 * rate) as usize).map(|i| (TAU * 1e3 * i as f64 / rate).sin()).collect();
        let side = Side { sound: Some(sound.clone()), ..of_pickup(20.0) };
        let only = |hum, noise| {
            let ways = Ways { matched: false, hum, noise, clipping: true };
            let [one, _] = render(&source, rate, [&side, &side], ways);
            (double(&one), one.heard)
        };
        let (with_hum, heard) = only(true, false);
        let signal = amplitude(&with_hum, 1e3, rate);
        for line in &sound.hum {
            // Moved to whole periods within the loop of four seconds.
            let hz = (line.hz * 4.0).round() / 4.0;
            let got = decibels(amplitude(&with_hum, hz, rate) / signal);
            assert!((got - line.db).abs() < 0.1, "{rate}: {got} {}", line.db);
        }
        // 10^−4.2 + 10^−5.0 + 10^−4.8 = 8.895·10⁻⁵.
        let told = heard.hum.unwrap();
        assert!((told + 40.509).abs() < 0.001 && heard.clipped.is_none(), "{told}");
        let (bare, _) = only(false, false);
        let (noisy, heard) = only(false, true);
        let scale = amplitude(&bare, 1e3, rate) / amplitude(&noisy, 1e3, rate);
        let rest: Vec<_> = noisy.iter().zip(&bare).map(|(noisy, bare)| noisy * scale - bare).collect();
        // What is white has its power evenly up to half the rate.
        let in_band = 10.0 * (f64::min(1.0, (20e3 - 20.0) / (rate / 2.0)) * power(rest) / power(bare)).log10();
        assert!((in_band + 55.0).abs() < 0.1 && heard.noise == Some(-55.0), "{rate}: {in_band}");
    }
}

/// Peaks are cut as far as they are over, and a rig with room is left alone.
#[test]
fn clips() {
    let source = played(Instrument::Bass);
    let side = |headroom| flat(RigSound { headroom: Some(headroom), ..RigSound::default() });
    let [clipped, clean] = render(source, RATE, [&side(-9.0), &side(3.0)], AS_IT_IS);
    let peak = |one: &Rendered| one.samples.iter().fold(0_f32, |most, x| most.max(x.abs()));
    let got = decibels(f64::from(peak(&clipped) / peak(&clean)));
    assert!((got + 9.0).abs() < 0.01, "{got}");
    assert_eq!((clipped.heard.clipped, clean.heard.clipped), (Some(9.0), Some(0.0)));
    let deaf = Ways { clipping: false, ..AS_IT_IS };
    let [a, b] = render(source, RATE, [&side(-9.0), &side(3.0)], deaf);
    assert_eq!(a.samples, b.samples);
}

/// The louder begins at −30 dB of a sine at full scale, and no peak is over −1 dBFS, also
/// of a click, of which one brought to that level would be.
#[test]
fn is_quiet() {
    for kind in KINDS {
        let both = render(played(kind), RATE, [&of_pickup(1.0), &of_pickup(200.0)], ALL);
        let rms = |one: &Rendered| (power(double(one)) / one.samples.len() as f64).sqrt() * SQRT_2;
        let louder = decibels(f64::max(rms(&both[0]), rms(&both[1])));
        assert!((louder - START).abs() < 0.01, "{kind:?}: {louder}");
        assert!(both.iter().all(|one| one.heard.peak < LIMIT), "{kind:?}");
    }
    let mut click = vec![0.0; 96_000];
    click[100] = 1.0;
    click[50_000] = 0.5;
    let both = render(&click, RATE, [&of_pickup(1.0), &flat(RigSound::default())], ALL);
    let most = both.iter().flat_map(double).fold(0.0, |most: f64, x| most.max(x.abs()));
    assert!((decibels(most) - LIMIT).abs() < 0.01, "{}", decibels(most));
}

/// Silence in gives silence out, and every sample is finite.
#[test]
fn of_silence() {
    let nowhere =
        Side { response: Some(Response { hz: vec![20.0, 20e3], db: vec![f64::NEG_INFINITY; 2] }), sound: None };
    let odd = flat(RigSound {
        hum: vec![
            HumLine { hz: f64::NAN, db: f64::NAN },
            HumLine { hz: 1e9, db: 0.0 },
            HumLine { hz: 50.0, db: f64::NEG_INFINITY },
        ],
        noise: Some(f64::NEG_INFINITY),
        headroom: Some(f64::INFINITY),
    });
    for source in [vec![], vec![0.0; 48_000], Instrument::Bass.samples(8e3)] {
        for ways in [ALL, AS_IT_IS] {
            let both = render(&source, RATE, [&nowhere, &odd], ways);
            assert!(both.iter().all(|one| one.samples.iter().all(|x| x.is_finite())));
            assert!(both.iter().all(|one| one.samples.len() == source.len()));
            let is_silent = source.iter().all(|x| *x == 0.0);
            // −∞ of silence, and a number of what sounds.
            let told = both.each_ref().map(|one| one.heard.loudness);
            assert!(told.iter().all(|told| if is_silent { *told == f64::NEG_INFINITY } else { told.is_finite() }));
        }
    }
}

/// The sound comes from nothing within two seconds; what is stopped in between goes on
/// from where it is, and no step of a millisecond is more than 2 % of it.
#[test]
fn fades() {
    let rises = Ramp::still(0.0).onward(1.0, 10.0, FADE);
    assert_eq!(
        (rises.at(9.0), rises.at(10.0), rises.at(11.0), rises.at(12.0), rises.end()),
        (0.0, 0.0, 0.5, 1.0, (1.0, 12.0))
    );
    let falls = rises.onward(0.0, 11.0, STOP);
    assert_eq!((falls.at(11.0), falls.at(11.0 + STOP)), (0.5, 0.0));
    let both = |time: f64| if time < 11.0 { rises.at(time) } else { falls.at(time) };
    assert!((0..3000).map(|ms| 9.0 + f64::from(ms) / 1e3).all(|t| (both(t + 1e-3) - both(t)).abs() < 0.02));
}

/// Two that change into each other add up to one all the way: neither a hole nor a bump.
#[test]
fn changes_over() {
    let (goes, comes) = (Ramp::still(1.0).onward(0.0, 0.0, SWITCH), Ramp::still(0.0).onward(1.0, 0.0, SWITCH));
    assert!((0..=40).map(|ms| f64::from(ms) / 1e3).all(|t| (goes.at(t) + comes.at(t) - 1.0).abs() < 1e-12));
}

/// Around the end of a loop nothing jumps: the step there is no larger than others, of the
/// sound and of what is computed from its steps.
#[test]
fn has_no_seam() {
    let hum = vec![HumLine { hz: 50.03, db: -6.0 }, HumLine { hz: 100.06, db: -12.0 }];
    let side = Side { sound: Some(RigSound { hum, ..RigSound::default() }), ..of_pickup(30.0) };
    for kind in KINDS {
        let [one, _] = render(played(kind), RATE, [&side, &side], ALL);
        let twice: Vec<_> = double(&one).into_iter().cycle().take(one.samples.len() + 3).collect();
        let steps: Vec<_> = twice.windows(3).map(|three| (three[0] - 2.0 * three[1] + three[2]).abs()).collect();
        let (usual, seam) = steps.split_at(one.samples.len() - 2);
        let most = |steps: &[f64]| steps.iter().copied().fold(0.0, f64::max);
        assert!(most(seam) <= most(usual), "{kind:?}: {} {}", most(seam), most(usual));
    }
}

/// A bass is a bass: most of its power lies below 500 Hz and a fifth below 200 Hz; most of
/// a guitar's below 2.5 kHz and more of it above 500 Hz than of a bass. All are the same
/// each time, and audible throughout.
#[test]
fn plays_what_it_says() {
    // An impulse response of its own for each band: what passes, as a share of the power.
    let below = |samples: &[f64], hz: f64| {
        let hz_all = grid();
        let db = hz_all.iter().map(|at| if *at < hz { 0.0 } else { -90.0 }).collect();
        let low = convolve(samples, &impulse(Some(&Response { hz: hz_all, db }), RATE));
        power(low) / power(samples.iter().copied())
    };
    let [bass, guitar, keys, speech] = KINDS.map(played);
    assert!(below(bass, 500.0) >= 0.6, "{}", below(bass, 500.0));
    assert!(below(bass, 200.0) > 0.2, "{}", below(bass, 200.0));
    assert!(below(guitar, 2.5e3) > 0.6, "{}", below(guitar, 2.5e3));
    assert!(below(guitar, 500.0) < below(bass, 500.0) - 0.05, "{}", below(guitar, 500.0));
    assert!(below(keys, 2.5e3) > 0.6);
    // Another spectrum of speech than the one it is made from: dB per Hz of normal vocal effort, in
    // octaves (ANSI S3.5-1997, as programs that follow it have them), and 62.35 dB in all (from
    // memory). That of many languages differs from it by up to 2.3 dB, most at 8 kHz.
    let normal = [(250.0, 34.75), (500.0, 34.27), (1e3, 25.01), (2e3, 17.32), (4e3, 9.33), (8e3, 1.13)];
    let edges: Vec<_> = (0..=6).map(|n| below(speech, 250.0 * 2_f64.powf(f64::from(n) - 0.5))).collect();
    for ((hz, level), edges) in normal.into_iter().zip(edges.windows(2)) {
        let got = 10.0 * ((edges[1] - edges[0]) / (hz * 0.5_f64.sqrt())).log10() + 62.35;
        assert!((got - level).abs() < 3.0, "{hz}: {got} {level}");
    }
    for (kind, first) in KINDS.into_iter().zip([bass, guitar, keys, speech]) {
        assert_eq!(kind.samples(RATE), first);
        let second = |samples: &[f64]| power(samples.iter().copied());
        let all = second(first);
        assert!(first.chunks(48_000).all(|part| second(part) > all / 400.0), "{kind:?}");
    }
}
