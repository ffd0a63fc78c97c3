//! The proposal against every assignment there is, on shows small enough for that.
#![allow(clippy::unwrap_used)]

use proptest::prelude::*;
use proptest::sample::select;
use stageohm::named::Named;
use stageohm::stage::{Gear, GearKind, InputLine, Raw, Show, propose, read_show, solve_row};
use std::collections::HashMap;

fn values(texts: &[(&str, &str)]) -> Named<String> {
    let mut values = Named::default();
    for (id, text) in texts {
        values.insert((*id).to_owned(), (*text).to_owned());
    }
    values
}

fn gear(id: &str, kind: GearKind, texts: &[(&str, &str)], count: u32) -> Gear {
    Gear { id: id.to_owned(), name: id.to_owned(), kind, values: values(texts), count: Some(count), ..Gear::default() }
}

/// Lines of three situations: keys on a long run, a hot output, a pickup.
fn show(lines: &[usize], [active, passive, pads, others]: [u32; 4]) -> Show {
    let situations: [&[(&str, &str)]; 3] = [
        &[("source", "output"), ("emf", "-10 dBV"), ("crest", "12"), ("lead_length", "3 m"), ("run_length", "20 m")],
        &[
            ("source", "balanced"),
            ("emf", "+4 dBu"),
            ("crest", "18"),
            ("run_length", "20 m"),
            ("console_most", "+18 dBu"),
        ],
        &[("source", "pickup"), ("lead_length", "6 m"), ("run_length", "20 m")],
    ];
    let line = |(i, situation): (usize, &usize)| InputLine {
        id: format!("line-{i}"),
        values: values(situations[*situation]),
        ..InputLine::default()
    };
    Show {
        gear: vec![
            gear("active", GearKind::Di, &[("powered", "battery")], active),
            gear("passive", GearKind::Di, &[("box", "passive")], passive),
            gear("pad", GearKind::Pad, &[("pad", "20 dB"), ("pad_r", "1k")], pads),
            gear("less", GearKind::Pad, &[("pad", "10 dB"), ("pad_r", "1k")], others),
        ],
        lines: lines.iter().enumerate().map(line).collect(),
        ..Show::default()
    }
}

/// The fewest missed limits and, with those, the fewest parts, by trying everything.
fn exhaustive(show: &Show) -> (usize, usize) {
    let boxes = ["", "active", "passive"];
    let pads = ["", "pad", "less"];
    let mut solved = HashMap::new();
    let mut missed = |line: &InputLine, di: &str, pad: &str| {
        let key = (line.values.get("source").cloned(), di.to_owned(), pad.to_owned());
        *solved.entry(key).or_insert_with(|| {
            let row = solve_row(show, &InputLine { di: di.to_owned(), pad: pad.to_owned(), ..line.clone() });
            assert!(!row.stop);
            if row.problems.is_empty() { Some(row.missed) } else { None }
        })
    };
    let mut best = (usize::MAX, usize::MAX);
    for code in 0..9_usize.pow(show.lines.len() as u32) {
        let (mut code, mut used, mut sum) = (code, HashMap::new(), Some((0, 0)));
        for line in &show.lines {
            let (di, pad) = (boxes[code % 3], pads[code / 3 % 3]);
            code /= 9;
            for id in [di, pad].into_iter().filter(|id| !id.is_empty()) {
                *used.entry(id).or_insert(0) += 1;
            }
            let parts = usize::from(!di.is_empty()) + usize::from(!pad.is_empty());
            sum = sum.zip(missed(line, di, pad)).map(|((all, count), missed)| (all + missed, count + parts));
        }
        let there = used.iter().all(|(id, count)| *count <= show.gear(id).unwrap().count.unwrap());
        if let Some(sum) = sum.filter(|_| there) {
            best = best.min(sum);
        }
    }
    best
}

/// Whether a proposal takes no more than there is and misses what it says.
fn check(show: &Show) {
    let proposal = propose(show);
    let mut used = HashMap::new();
    for (line, suggestion) in show.lines.iter().zip(&proposal.lines) {
        assert_eq!(line.id, suggestion.id);
        let line = InputLine { di: suggestion.di.clone(), pad: suggestion.pad.clone(), ..line.clone() };
        assert_eq!(solve_row(show, &line).missed, suggestion.misses.len());
        for id in [&suggestion.di, &suggestion.pad] {
            *used.entry(id.clone()).or_insert(0_u32) += u32::from(!id.is_empty());
        }
    }
    for (id, count) in used.iter().filter(|(id, _)| !id.is_empty()) {
        assert!(*count <= show.gear(id).unwrap().count.unwrap_or(u32::MAX), "{id}");
    }
    assert!(proposal.missed_with_all <= proposal.missed);
    assert_eq!(proposal.missing.is_empty(), proposal.missed_with_all == proposal.missed);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn nothing_is_better(lines in proptest::collection::vec(0..3_usize, 1..=4), have in proptest::array::uniform4(0..3_u32)) {
        let show = show(&lines, have);
        let proposal = propose(&show);
        prop_assert!(proposal.proved);
        prop_assert_eq!((proposal.missed, proposal.parts), exhaustive(&show));
        check(&show);
    }

    /// What is missing, bought, is enough; one less is not.
    #[test]
    fn what_is_missing_is_enough(lines in proptest::collection::vec(0..3_usize, 1..=6), have in proptest::array::uniform4(0..2_u32), less in select(vec![0_usize, 1, 2])) {
        let mut show = show(&lines, have);
        let proposal = propose(&show);
        for shortage in &proposal.missing {
            let gear = show.gear.iter_mut().find(|gear| gear.id == shortage.id).unwrap();
            gear.count = gear.count.map(|count| count + shortage.more as u32);
        }
        prop_assert_eq!(propose(&show).missed, proposal.missed_with_all);
        if let Some(shortage) = proposal.missing.get(less) {
            let gear = show.gear.iter_mut().find(|gear| gear.id == shortage.id).unwrap();
            gear.count = gear.count.map(|count| count - 1);
            prop_assert!(propose(&show).missed > proposal.missed_with_all);
        }
    }
}

#[test]
fn the_example_is_planned_within_its_drawer() {
    let file: Raw = serde_json::from_str(include_str!("../examples/show.json")).unwrap();
    check(&read_show(&file).unwrap().0);
}

/// Two boxes for three keyboards: one of them stays without, and one box is missing.
#[test]
fn a_box_too_few_is_named() {
    let proposal = propose(&show(&[0, 0, 0], [0, 2, 0, 0]));
    assert_eq!(proposal.lines.iter().filter(|line| line.di == "passive").count(), 2);
    assert_eq!(proposal.missing.iter().map(|shortage| shortage.more).sum::<usize>(), 1);
    assert!(proposal.missed > proposal.missed_with_all);
}

/// Both sides of a stereo pair get the same, what was put in against hum stays, and who has
/// an amplifier on the thru has a box with one.
#[test]
fn pairs_are_alike_and_what_isolates_stays() {
    let file: Raw = serde_json::from_str(include_str!("../examples/show.json")).unwrap();
    let show = read_show(&file).unwrap().0;
    let proposal = propose(&show);
    let of = |id: &str| proposal.lines.iter().find(|line| line.id == id).unwrap();
    let kind = |id: &str| show.gear(id).map(|gear| gear.kind);
    let mut pairs = 0;
    for line in &show.lines {
        let put = of(&line.id);
        if !line.pair.is_empty() {
            assert_eq!((&put.di, &put.pad), (&of(&line.pair).di, &of(&line.pair).pad), "{}", line.id);
            pairs += 1;
        }
        if kind(&line.di) == Some(GearKind::Isolator) {
            assert_eq!(put.di, line.di, "{}", line.id);
        }
        if !line.thru.is_empty() {
            assert_eq!(kind(&put.di), Some(GearKind::Di), "{}", line.id);
        }
    }
    assert!(pairs >= 8);
}

/// Among boxes that miss as many limits a pickup gets the one that misses them by less.
#[test]
fn no_line_isolator_for_a_pickup() {
    let isolator = [
        ("box", "passive"),
        ("ratio", "1:1"),
        ("r1", "60"),
        ("r2", "60"),
        ("ground", "lifted"),
        ("largest", "+18 dBu"),
    ];
    let mut show = show(&[2], [0, 1, 0, 0]);
    show.gear.insert(0, gear("isolator", GearKind::Isolator, &isolator, 1));
    let missed = |di: &str| solve_row(&show, &InputLine { di: di.to_owned(), ..show.lines[0].clone() }).missed;
    assert_eq!(missed("isolator"), missed("passive"));
    assert_ne!(propose(&show).lines[0].di, "isolator");
}
