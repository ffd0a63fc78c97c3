//! What is told of sounds that are not plain hum: hum that comes and goes, notes, clicks, the
//! noise of a room, and nothing but the recorder itself.
#![allow(clippy::unwrap_used, clippy::panic)]

#[path = "common/sounds.rs"]
mod sounds;

use sounds::Sound;
use stageohm::listen::{Family, Heard, Through, hear};
use stageohm::numeric::Draws;

const RATE: f64 = 16_000.0;
/// Number and level, dBFS.
const ODD: [(u32, f64); 7] = [(1, -20.0), (3, -26.0), (5, -30.0), (7, -36.0), (9, -40.0), (11, -46.0), (13, -50.0)];
const EVEN: [(u32, f64); 7] = [(2, -20.0), (4, -26.0), (6, -30.0), (8, -34.0), (10, -38.0), (12, -40.0), (14, -44.0)];

#[track_caller]
fn near(got: f64, expected: f64, within: f64) {
    assert!((got - expected).abs() <= within, "{got} is not {expected}");
}

fn listen(sound: &Sound, through: Through) -> Heard {
    hear(&sound.samples.iter().map(|x| *x as f32).collect::<Vec<_>>(), sound.rate, through)
}

fn likely(heard: &Heard, family: Family) -> f64 {
    heard.families.iter().find(|likely| likely.family == family).unwrap().likelihood
}

/// Lines of mains in white noise 60 dB below, where they are on.
fn hum(lines: &[(u32, f64)], mains: f64, seconds: f64, on: impl Fn(f64) -> bool) -> Sound {
    let mut sound = Sound::new(RATE, seconds);
    sound.lines(lines, |_| mains);
    for (i, sample) in sound.samples.iter_mut().enumerate() {
        if !on(i as f64 / RATE) {
            *sample = 0.0;
        }
    }
    sound.white(-80.0, &mut Draws::new(1));
    sound
}

/// Frequency and levels are those of the hum, not of the pauses, and how long it was there is
/// told.
#[test]
fn hum_that_comes_and_goes() {
    // From when on, how often it comes, and for how long each time.
    for (from, every, long, seconds) in [(14.0, 20.0, 6.0, 6.0), (0.0, 4.0, 2.0, 10.0), (3.0, 20.0, 5.0, 5.0)] {
        let on = |time: f64| time >= from && (time - from) % every < long;
        let heard = listen(&hum(&ODD, 50.03, 20.0, on), Through::Line);
        let mains = heard.mains.unwrap();
        near(mains.hz, 50.03, 1e-3);
        assert!((0.0025..0.01).contains(&mains.within), "{mains:?}");
        near(mains.heard_for, seconds, 0.12 * seconds);
        assert_eq!(heard.lines.len(), ODD.len());
        for (line, (_, level)) in heard.lines.iter().zip(ODD) {
            near(line.level, level, 0.2);
        }
    }
    let steady = listen(&hum(&ODD, 50.03, 5.0, |_| true), Through::Line);
    near(steady.mains.unwrap().heard_for, 5.0, 1e-3);
}

/// Even lines that end are no odd ones, and odd lines that end are no dimmer.
#[test]
fn lines_that_end() {
    for through in [Through::Line, Through::Air] {
        for noise in [-80.0, -60.0, -50.0] {
            let mut even = hum(&EVEN, 60.0, 4.0, |_| true);
            even.white(noise, &mut Draws::new(2));
            let heard = listen(&even, through);
            near(likely(&heard, Family::MainsEven), 1.0, 0.0);
            assert!(likely(&heard, Family::MainsOdd) < 0.2, "{:?}", heard.families);
            let mut odd = hum(&ODD, 50.0, 4.0, |_| true);
            odd.white(noise, &mut Draws::new(2));
            let heard = listen(&odd, through);
            near(likely(&heard, Family::MainsOdd), 1.0, 0.0);
            assert!(likely(&heard, Family::Dimmer) < 0.5, "{:?}", heard.families);
            assert!(likely(&heard, Family::MainsEven) < 0.2, "{:?}", heard.families);
        }
    }
}

/// Rounding to 16 bits with triangular dither lies at -93.3 dBFS (its power is a quarter of
/// the square of a step): there is no hiss in that. A constant offset is told.
#[test]
fn nothing_but_the_recorder() {
    let mut draws = Draws::new(3);
    let mut sound = Sound::new(RATE, 3.0);
    sound.samples.fill(0.5);
    let heard = hear(&sound.converted(16, &mut draws), RATE, Through::Line);
    near(heard.level, -93.3, 0.1);
    assert_eq!((heard.flaw, heard.families.len(), heard.remarks), (Some("floor"), 0, vec!["offset"]));
    let heard = hear(&sound.converted(8, &mut draws), RATE, Through::Line);
    assert_eq!((heard.flaw, heard.families.len()), (Some("floor"), 0));
    // What is louder is hiss, and hum is heard nonetheless.
    let mut hiss = Sound::new(RATE, 3.0);
    hiss.white(-75.0, &mut draws);
    let heard = hear(&hiss.converted(16, &mut draws), RATE, Through::Line);
    assert_eq!((heard.flaw, heard.remarks.len()), (None, 0));
    near(likely(&heard, Family::Hiss), 1.0, 0.0);
    let mut quiet = Sound::new(RATE, 3.0);
    quiet.lines(&[(1, -90.0), (3, -94.0)], |_| 50.0);
    let heard = hear(&quiet.converted(16, &mut draws), RATE, Through::Line);
    assert_eq!(heard.flaw, None);
    near(heard.mains.unwrap().hz, 50.0, 0.02);
}

/// Through the air the noise of a room makes hum little less likely; by line hiss is hiss.
#[test]
fn noise_of_a_room() {
    let mut sound = Sound::new(RATE, 8.0);
    sound.lines(&[(1, -45.0), (3, -51.0), (5, -55.0), (7, -61.0)], |_| 50.0);
    sound.pink(-32.0, &mut Draws::new(4));
    let heard = listen(&sound, Through::Air);
    near(heard.mains.unwrap().hz, 50.0, 0.05);
    assert!(likely(&heard, Family::MainsOdd) > 0.3, "{:?}", heard.families);
    let mut room = Sound::new(RATE, 3.0);
    room.pink(-32.0, &mut Draws::new(4));
    let all = |through| listen(&room, through).families.iter().map(|of| of.likelihood).fold(1.0, f64::min);
    assert!(all(Through::Air) > 0.3 && all(Through::Line) < 0.01);
    near(likely(&listen(&room, Through::Air), Family::Hiss), 1.0, 0.0);
}

/// Notes of a bass that die away are no mains; a generator with steady lines is, and it is told
/// that it may be a note.
#[test]
fn a_note_is_no_generator() {
    for hz in [46.25, 48.3, 55.0, 58.27, 61.74] {
        let mut notes = Sound::new(RATE, 10.0);
        notes.lines(&[(1, -20.0), (2, -23.0), (3, -26.0), (4, -29.0), (5, -32.0)], |_| hz);
        for (i, sample) in notes.samples.iter_mut().enumerate() {
            *sample *= (-2.0 * (i as f64 / RATE % 1.0)).exp();
        }
        notes.white(-80.0, &mut Draws::new(5));
        let heard = listen(&notes, Through::Line);
        assert_eq!((heard.mains, heard.lines.len()), (None, 0), "{hz}");
        let heard = listen(&hum(&ODD, hz, 5.0, |_| true), Through::Line);
        near(heard.mains.unwrap().hz, hz, 0.01);
        assert_eq!(heard.remarks, ["generator"]);
    }
    assert!(listen(&hum(&ODD, 50.3, 5.0, |_| true), Through::Line).remarks.is_empty());
}

/// The strongest tone is named wherever it lies from 100 Hz on, and is no hiss; a note that
/// dies away is none.
#[test]
fn a_steady_tone() {
    for hz in [130.0, 400.0, 730.0, 1_300.0] {
        let mut sound = Sound::new(RATE, 6.0);
        sound.lines(&[(1, -30.0), (2, -50.0), (3, -40.0)], |_| hz);
        sound.white(-60.0, &mut Draws::new(6));
        let heard = listen(&sound, Through::Line);
        near(heard.whine.unwrap().hz, hz, 0.5);
        near(heard.whine.unwrap().level, -30.0, 0.2);
        assert_eq!(heard.mains, None);
        near(likely(&heard, Family::Whine), 1.0, 0.0);
        assert!(likely(&heard, Family::Hiss) < 0.2, "{:?}", heard.families);
    }
    let mut note = Sound::new(RATE, 6.0);
    note.tone(-20.0, 0.0, |_| 440.0);
    for (i, sample) in note.samples.iter_mut().enumerate() {
        *sample *= (-2.0 * (i as f64 / RATE % 3.0)).exp();
    }
    note.white(-60.0, &mut Draws::new(6));
    assert_eq!(listen(&note, Through::Line).whine, None);
}

/// A bad contact crackles, which is no hiss; one click in hiss leaves hiss.
#[test]
fn clicks() {
    let mut draws = Draws::new(7);
    let mut crackle = Sound::new(RATE, 6.0);
    for sample in &mut crackle.samples {
        if draws.share() < 5e-4 {
            *sample = draws.between(-0.8, 0.8);
        }
    }
    crackle.white(-80.0, &mut draws);
    let heard = listen(&crackle, Through::Line);
    assert_eq!((heard.flaw, heard.families.len()), (Some("clicks"), 0));
    let mut hiss = Sound::new(RATE, 6.0);
    hiss.white(-50.0, &mut draws);
    hiss.samples[30_000] = 0.9;
    let heard = listen(&hiss, Through::Line);
    assert_eq!(heard.flaw, None);
    near(likely(&heard, Family::Hiss), 1.0, 0.0);
}

/// What clips has lines of its own, so that a family is told with less certainty.
#[test]
fn clipping_makes_less_sure() {
    let mut sound = hum(&ODD, 50.0, 3.0, |_| true);
    let least = |heard: &Heard| heard.families.iter().map(|of| of.likelihood).fold(1.0, f64::min);
    assert!(least(&listen(&sound, Through::Line)) < 0.01);
    sound.samples.iter_mut().for_each(|sample| *sample = (*sample * 20.0).clamp(-1.0, 1.0));
    let heard = listen(&sound, Through::Line);
    assert_eq!(heard.flaw, Some("clipped"));
    assert!(least(&heard) > 0.09, "{:?}", heard.families);
}
