//! A step by ear: how X is dealt, how often guessing does as well, and what an answer is worth.
#![allow(clippy::unwrap_used)]

mod common;

use common::lesson::{at, first, of_step, read, rig};
use common::within;
use serde_json::{Value, json};
use stageohm::lesson::{Doubt, Heard, Lesson, Marked, Seen, Side, check, deal, eye, read_lesson, x_of};
use stageohm::settings::Settings;

/// A source of 10 kΩ into 1 MΩ with 100 pF, and with what `b` puts there instead.
fn two_rigs(b: &Value, part: &Value) -> Lesson {
    let ways = json!([{ "name": "as it is", "values": {} }, { "name": "the other", "values": b }]);
    let mut step = json!({ "kind": "ear", "points": 2, "ways": ways });
    step.as_object_mut().unwrap().extend(part.as_object().unwrap().clone());
    of_step("source-load", &json!({ "source_r": "10k", "load_r": "1M", "load_c": "100p" }), step)
}

/// 10 nF on 10 kΩ: −3 dB at 1.6 kHz.
fn dull(part: &Value) -> Lesson {
    two_rigs(&json!({ "load_c": "10n" }), part)
}

fn said(x: &[Heard]) -> Value {
    json!({ "heard": x })
}

fn key(lesson: &Lesson) -> stageohm::lesson::Key {
    check(lesson, &deal(lesson, 1), &Settings::default()).remove(0).key.unwrap()
}

fn other(side: Heard) -> Heard {
    if side == Heard::A { Heard::B } else { Heard::A }
}

/// The first so many of what is right turned round.
fn wrong(x: &[Heard], count: usize) -> Vec<Heard> {
    x.iter().enumerate().map(|(at, side)| if at < count { other(*side) } else { *side }).collect()
}

/// The least number right that is significant at 5 %, one-sided, with one chance in two: the
/// table of the paired comparison and the duo-trio test (ISO 5495, ISO 10399; Roessler et al.,
/// J. Food Sci. 43, 1978), from memory.
#[test]
fn enough_is_the_critical_number_of_published_tables() {
    let table = [5, 6, 7, 7, 8, 9, 9, 10, 10, 11, 12, 12];
    for (trials, critical) in (5_u8..=16).zip(table) {
        let lesson = dull(&json!({ "trials": trials }));
        let x = key(&lesson).heard;
        assert_eq!(x.len(), usize::from(trials));
        let share = |right: usize| first(&lesson, said(&wrong(&x, x.len() - right))).share;
        within("enough", share(critical), 1.0, 0.0);
        within("one less", share(critical - 1), 0.5, 0.0);
        within("two less", share(critical - 2), 0.0, 0.0);
    }
}

/// Rows of Pascal's triangle: of 256 ways, 1, 8, 28, 56 have 8, 7, 6, 5 right; of 65,536, 2,517
/// have 12 and more (16 over 12 and on: 1820 + 560 + 120 + 16 + 1).
#[test]
fn chance_is_told() {
    let told = |trials: u8, right: usize| {
        let lesson = dull(&json!({ "trials": trials }));
        let x = key(&lesson).heard;
        first(&lesson, said(&wrong(&x, x.len() - right))).findings[0].text.clone()
    };
    let seldom = |right: &str, times: &str| format!("{right} right. Guessing does as well once in {times} runs.");
    let often = |right: &str, percent: &str| format!("{right} right. Guessing does as well in {percent} % of runs.");
    assert_eq!(told(8, 8), seldom("8 of 8", "256"));
    assert_eq!(told(8, 7), seldom("7 of 8", "28"));
    assert_eq!(told(8, 6), often("6 of 8", "14"));
    assert_eq!(told(8, 5), often("5 of 8", "36"));
    assert_eq!(told(8, 1), often("1 of 8", "99"));
    assert_eq!(told(8, 0), "None of 8 right.");
    assert_eq!(told(16, 12), seldom("12 of 16", "26"));
}

/// A and B come equally often at each trial, whatever came before: 4,000 throws of a coin have
/// 2,000 heads with a deviation of √1000 = 32.
#[test]
fn the_deal_is_that_of_a_coin() {
    let lesson = dull(&json!({}));
    let mut changes = 0;
    for trial in 0..8 {
        let is_a = |seed: &u32| x_of(&deal(&lesson, *seed), 0, trial) == Some(Side::A);
        let count = (1..=4000).filter(is_a).count();
        assert!(count.abs_diff(2000) < 130, "trial {trial}: {count}");
    }
    for seed in 1..=4000 {
        let dealt = deal(&lesson, seed);
        changes += usize::from(x_of(&dealt, 0, 3) != x_of(&dealt, 0, 4));
    }
    assert!(changes.abs_diff(2000) < 130, "{changes}");
    assert_eq!(x_of(&deal(&lesson, 1), 0, 8), None);
    assert_eq!(x_of(&deal(&lesson, 1), 1, 0), None);
}

/// What the page asks for is what the mark wants, also where the file says too few or too many.
#[test]
fn a_step_can_be_finished_whatever_its_file_says() {
    let mut lesson = dull(&json!({}));
    for (said, times) in [(None, 8), (Some(4), 8), (Some(17), 8), (Some(5), 5), (Some(16), 16)] {
        lesson.steps[0].trials = said;
        assert_eq!(deal(&lesson, 1).steps[0].trials, times, "{said:?}");
        let x = key(&lesson).heard;
        assert_eq!(x.len(), usize::from(times), "{said:?}");
        within("all right", first(&lesson, json!({ "heard": x })).share, 1.0, 0.0);
    }
    "number".clone_into(&mut lesson.steps[0].kind);
    assert_eq!(deal(&lesson, 1).steps[0].trials, 0);
}

/// Nothing that a page gets before an answer tells X.
#[test]
fn what_is_dealt_does_not_tell_x() {
    let dealt = serde_json::to_value(deal(&dull(&json!({})), 1)).unwrap();
    let step = dealt["steps"][0].as_object().unwrap();
    assert!(step.contains_key("values") && !step.contains_key("x") && !step.contains_key("first"), "{step:?}");
}

/// 10 kΩ with 10 nF against 100 pF: at 12.5 kHz (f/fc)² = 61.7, which is 17.97 dB; the other
/// loses 0.03 dB.
#[test]
fn what_differs_is_told_with_its_frequency() {
    let lesson = dull(&json!({ "as_it_is": true }));
    let x = key(&lesson).heard;
    let marked = first(&lesson, said(&x));
    within("share", marked.share, 1.0, 0.0);
    let text = marked.findings[1].text.replace('\u{a0}', " ");
    assert_eq!(text, "They differ the most at 12.5 kHz: B is 17.9 dB lower than A.");
    let rows: Vec<_> = marked.rows.iter().map(|row| (row.id.as_str(), row.fits)).collect();
    assert_eq!(rows, [("low", true), ("mid", false), ("high", false)]);
    assert_eq!(marked.plot.unwrap().traces.len(), 2);
}

/// 1 MΩ against 10 kΩ on 10 kΩ takes 6 dB off everything, and 10 nF takes more off the top: as
/// drawn, B is lower all over, and with loudness matched it is higher below. That is said, and that
/// the curves are drawn before it.
#[test]
fn what_is_matched_says_so() {
    let marked = |as_it_is: bool| {
        let lesson = two_rigs(&json!({ "load_r": "10k", "load_c": "10n" }), &json!({ "as_it_is": as_it_is }));
        first(&lesson, said(&key(&lesson).heard))
    };
    let matched = marked(false);
    let ids = |marked: &Marked| marked.findings.iter().skip(1).map(|finding| finding.id).collect::<Vec<_>>();
    assert_eq!(ids(&matched), ["ear-b-lower-matched", "ear-unmatched"]);
    assert!(matched.findings[1].text.starts_with("With loudness matched, they differ the most at"));
    let [low, ..] = &matched.rows[..] else { unreachable!("{:?}", matched.rows) };
    assert!(low.name.ends_with("loudness matched") && low.is.ends_with("higher"), "{low:?}");
    let plot = matched.plot.unwrap();
    assert!(plot.traces[1].y[0] < plot.traces[0].y[0] - 5.0);
    let drawn = marked(true);
    assert_eq!(ids(&drawn), ["ear-b-lower"]);
    let [low, ..] = &drawn.rows[..] else { unreachable!("{:?}", drawn.rows) };
    assert!(!low.name.contains("matched") && low.is.ends_with("lower"), "{low:?}");
}

/// 1 MΩ against 10 kΩ on 10 kΩ is 6 dB less of everything: with levels matched there is nothing
/// left to hear, and as it is there is.
#[test]
fn a_level_alone_is_matched_away() {
    let quiet = |as_it_is: bool| two_rigs(&json!({ "load_r": "10k" }), &json!({ "as_it_is": as_it_is }));
    assert_eq!(key(&quiet(false)).seen, Some(Seen::Alike));
    assert_ne!(key(&quiet(true)).seen, Some(Seen::Alike));
}

#[test]
fn where_nothing_is_heard_who_says_so_is_right() {
    // 110 pF for 100 pF: 0.01 dB at 12.5 kHz.
    let lesson = two_rigs(&json!({ "load_c": "110p" }), &json!({}));
    let x: Vec<Heard> = (0..8).map(|trial| Heard::from(x_of(&deal(&lesson, 1), 0, trial).unwrap())).collect();
    let of = |heard: &[Heard]| {
        let marked = first(&lesson, said(heard));
        (marked.share, marked.findings.iter().map(|finding| finding.id).collect::<Vec<_>>())
    };
    assert_eq!(key(&lesson).heard, [Heard::Skip; 8]);
    assert_eq!(of(&[Heard::Skip; 8]), (1.0, vec!["ear-nothing"]));
    assert_eq!(of(&wrong(&x, 4)), (0.5, vec!["ear-chance", "ear-imagined"]));
    assert_eq!(of(&x), (1.0, vec!["ear-seldom", "ear-luck"]));
    assert_eq!(check(&lesson, &deal(&lesson, 1), &Settings::default())[0].doubt, None);
}

/// Who hears nothing where there is something has not heard it.
#[test]
fn a_skip_is_not_right() {
    let lesson = dull(&json!({}));
    let mut x = key(&lesson).heard;
    within("none", first(&lesson, said(&[Heard::Skip; 8])).share, 0.0, 0.0);
    x[0] = Heard::Skip;
    within("seven", first(&lesson, said(&x)).share, 1.0, 0.0);
    x[1] = Heard::Skip;
    within("six", first(&lesson, said(&x)).share, 0.5, 0.0);
}

#[test]
fn every_trial_is_to_be_answered() {
    let lesson = dull(&json!({}));
    for response in [json!({}), said(&[Heard::A; 7]), said(&[Heard::A; 9])] {
        assert!(first(&lesson, response.clone()).problem.unwrap().message.contains("every trial"), "{response}");
    }
}

/// By eye: of two curves without names, which is that of A. It is worth as much.
#[test]
fn by_eye_is_worth_as_much() {
    let lesson = dull(&json!({ "measures": ["high_corner"] }));
    let mut firsts = 0;
    for seed in 1..=200 {
        let dealt = deal(&lesson, seed);
        let seen = eye(&lesson, &dealt, 0, &Settings::default()).unwrap();
        let plot = seen.plot.unwrap();
        assert!(plot.markers.is_empty());
        // A is the one with more at the top.
        let top = |at: usize| *plot.traces[at].y.last().unwrap();
        let is_first = top(0) > top(1);
        firsts += usize::from(is_first);
        let (right, wrong) = if is_first { ("first", "second") } else { ("second", "first") };
        let share = |said: &str| at(&lesson, &dealt, 0, json!({ "seen": said })).share;
        assert_eq!([share(right), share(wrong), share("alike")], [1.0, 0.0, 0.0], "seed {seed}");
        let [row] = &seen.rows[..] else { unreachable!("{:?}", seen.rows) };
        // 1/(2π·10 kΩ·C): 1.6 kHz with 10 nF, 160 kHz with 100 pF.
        let of_a = if is_first { &row.first } else { &row.second };
        assert!(of_a.starts_with("16") && of_a.ends_with("kHz"), "{row:?}");
    }
    // A coin: 100 with a deviation of 7.
    assert!((70..=130).contains(&firsts), "{firsts}");
    assert!(eye(&lesson, &deal(&lesson, 1), 1, &Settings::default()).is_none());
}

/// By what is heard of a difference of half a decibel to one nobody should fail.
#[test]
fn a_difference_that_some_hear_is_told_to_the_trainer() {
    // 1.7 nF on 10 kΩ: −3 dB at 9.4 kHz. With levels matched, most of a decibel and more.
    let doubt = |load_c: &str| {
        let lesson = two_rigs(&json!({ "load_c": load_c }), &json!({ "as_it_is": true }));
        check(&lesson, &deal(&lesson, 1), &Settings::default())[0].doubt
    };
    // (f/fc)² at 12.5 kHz: 0.2 for 570 pF, which is 0.79 dB.
    assert_eq!(doubt("570p"), Some(Doubt::Boundary));
    assert_eq!(doubt("3n"), None);
    assert_eq!(doubt("110p"), None);
}

#[test]
fn what_a_step_lacks_is_told() {
    let told = |part: Value| {
        let mut step = json!({ "kind": "ear", "points": 1 });
        step.as_object_mut().unwrap().extend(part.as_object().unwrap().clone());
        let rig = rig("source-load", &json!({}));
        let file = json!({ "stageohm": "lesson", "version": 1, "id": "a", "pass": 0.5, "rig": rig, "steps": [step] });
        let read = read_lesson(&serde_json::from_value(file).unwrap(), &Settings::default());
        read.flaws.into_iter().map(|flaw| flaw.text).collect::<Vec<_>>().join("; ")
    };
    let ways = json!([{ "name": "a", "values": {} }, { "name": "b", "values": { "load_c": "1n" } }]);
    assert_eq!(told(json!({ "ways": ways })), "");
    assert!(told(json!({})).contains("two rigs, A and B"));
    assert!(told(json!({ "ways": ways, "trials": 4 })).contains("from 5 to 16 times"));
    assert!(told(json!({ "ways": ways, "trials": 17 })).contains("from 5 to 16 times"));
    assert!(told(json!({ "ways": ways, "enough": 4 })).contains("more than half of the 8 trials"));
    assert!(told(json!({ "ways": ways, "enough": 9 })).contains("more than half of the 8 trials"));
    assert_eq!(told(json!({ "ways": ways, "enough": 5, "trials": 9 })), "");
    assert!(told(json!({ "ways": ways, "plot": "picture" })).contains("picture"));
    assert!(told(json!({ "ways": ways, "measures": ["taste"] })).contains("taste"));
    assert!(told(json!({ "ways": ways, "source": "drums" })).contains("drums"));
}

/// A stated threshold counts, and the lesson is read as it is written.
#[test]
fn a_threshold_of_its_own_counts() {
    let lesson = dull(&json!({ "enough": 5 }));
    let x = key(&lesson).heard;
    within("five", first(&lesson, said(&wrong(&x, 3))).share, 1.0, 0.0);
    within("four", first(&lesson, said(&wrong(&x, 4))).share, 0.5, 0.0);
    let written = serde_json::to_value(&lesson).unwrap();
    assert_eq!(read(&written), lesson);
}
