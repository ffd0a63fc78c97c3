//! What a show takes along, counted by hand and by ways of its own.
#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use serde_json::{Value, json};
use stageohm::stage::{LeadCount, LeadNeed, LeadPlace, Raw, Show, SplitKind, Totals, read_show, totals};
use std::collections::HashMap;

const EXAMPLE: &str = include_str!("../examples/show.json");

fn show(file: &Value) -> Show {
    let file: Raw = serde_json::from_value(file.clone()).unwrap();
    let (show, flaws) = read_show(&file).unwrap();
    assert_eq!(flaws, []);
    show
}

fn example() -> Value {
    serde_json::from_str(EXAMPLE).unwrap()
}

fn of<'a>(totals: &'a Totals, name: &str) -> &'a LeadCount {
    totals.leads.iter().find(|count| count.name == name).unwrap()
}

fn pieces(count: &LeadCount) -> Vec<(f64, usize, Option<u32>)> {
    count.pieces.iter().map(|piece| (piece.length, piece.used, piece.have)).collect()
}

fn need(count: &LeadCount, place: LeadPlace, length: f64) -> &LeadNeed {
    count.needs.iter().find(|need| need.place == place && need.length == length).unwrap()
}

/// How many leads are made of which pieces.
fn made(need: &LeadNeed) -> Vec<(usize, Vec<f64>)> {
    need.made.iter().map(|made| (made.lines.len(), made.pieces.clone())).collect()
}

/// Counted by hand in the example: five condensers of 3 mA, and three boxes of 4 mA.
#[test]
fn supplies_of_the_example() {
    let totals = totals(&show(&example()));
    let phantom = &totals.phantom;
    assert_eq!(phantom.len(), 1);
    assert_eq!((phantom[0].equipment.as_str(), phantom[0].lines), ("stage-box", 8));
    assert!((phantom[0].current - (5.0 * 3e-3 + 3.0 * 4e-3)).abs() < 1e-12);
    assert_eq!(phantom[0].most, Some(0.2));
    assert_eq!((totals.box_batteries, totals.equipment_batteries), (0, 1));
    let used = |id: &str| totals.parts.iter().find(|part| part.id == id).map(|part| part.used);
    assert_eq!(
        [used("active-di"), used("line-isolator"), used("pad-20"), used("battery-di")],
        [Some(3), Some(2), Some(1), None]
    );
    let splits: Vec<_> = totals.splits.iter().map(|split| (split.split, split.used)).collect();
    assert_eq!(splits, [(SplitKind::Transformer, 4), (SplitKind::Direct, 1)]);
    let links: Vec<_> = totals.links.iter().map(|link| (link.optical, link.links.join(" "))).collect();
    assert_eq!(
        links,
        [(true, "snake".into()), (false, "picture".into()), (false, "playback-usb".into()), (false, "mixes".into())]
    );
}

/// The example by hand. Runs: channels 1 to 31 of 10 m, channel 32 of 20 m. Splits:
/// channels 27 to 31, as long as their runs. That is 36 of 10 m and one of 20 m out of
/// 36 × 10 m and 20 × 5 m: 380 m in tens are 38 pieces, two more than there are, so four
/// fives stand in for two tens, and three joints are the fewest. First leads: channels
/// 9, 15 and 17 to 22 of 3 m, 13 and 14 of 6 m. Thrus: channels 9 and 14, worked out
/// with 5 m, for which a lead of 6 m goes along.
#[test]
fn leads_of_the_example_as_counted_by_hand() {
    let totals = totals(&show(&example()));
    let microphone = of(&totals, "Microphone lead");
    assert!(microphone.proved);
    assert_eq!(pieces(microphone), [(5.0, 4, Some(20)), (10.0, 36, Some(36))]);
    let runs = need(microphone, LeadPlace::Run, 10.0);
    assert_eq!((runs.lines.len(), runs.missing, runs.assumed), (31, 0, false));
    assert_eq!(made(runs), [(31, vec![10.0])]);
    let long = need(microphone, LeadPlace::Run, 20.0);
    assert_eq!((made(long), long.missing), (vec![(1, vec![10.0, 10.0])], 0));
    let seconds = need(microphone, LeadPlace::Second, 10.0);
    assert_eq!(
        (made(seconds), seconds.missing, seconds.assumed),
        (vec![(3, vec![10.0]), (2, vec![5.0, 5.0])], 0, true)
    );
    let instrument = of(&totals, "Instrument lead");
    assert_eq!(pieces(instrument), [(3.0, 8, Some(8)), (6.0, 4, Some(4))]);
    assert_eq!(made(need(instrument, LeadPlace::First, 3.0)), [(8, vec![3.0])]);
    assert_eq!(made(need(instrument, LeadPlace::First, 6.0)), [(2, vec![6.0])]);
    let thrus = need(instrument, LeadPlace::Thru, 5.0);
    assert_eq!((made(thrus), thrus.assumed, thrus.missing), (vec![(2, vec![6.0])], true, 0));
    assert_eq!(totals.leads.len(), 2);
}

/// The metres of the example from the file itself, without a line of the engine.
#[test]
fn leads_of_the_example_as_the_file_has_them() {
    let file = example();
    let metres = |text: &Value| text.as_str().unwrap().trim_end_matches('m').trim().parse::<f64>().unwrap();
    let length: HashMap<&str, f64> = file["gear"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|gear| gear["kind"] == "lead")
        .map(|gear| (gear["id"].as_str().unwrap(), metres(&gear["values"]["lead_length"])))
        .collect();
    let (mut runs, mut firsts, mut seconds) = (Vec::new(), Vec::new(), Vec::new());
    for line in file["lines"].as_array().unwrap() {
        let own = &line["values"]["run_length"];
        let run = if own.is_null() { length[line["run"].as_str().unwrap()] } else { metres(own) };
        runs.push(run);
        firsts.extend(line["lead"].as_str().map(|id| length[id]));
        if line["split"] != "none" {
            seconds.push(run);
        }
    }
    let totals = totals(&show(&file));
    let of_place = |place| {
        let needs = totals.leads.iter().flat_map(|count| &count.needs).filter(|need| need.place == place);
        let mut all: Vec<f64> = needs.flat_map(|need| vec![need.length; need.lines.len()]).collect();
        all.sort_by(f64::total_cmp);
        all
    };
    for (place, mut expected) in [(LeadPlace::Run, runs), (LeadPlace::First, firsts), (LeadPlace::Second, seconds)] {
        expected.sort_by(f64::total_cmp);
        assert_eq!(of_place(place), expected, "{place:?}");
    }
    // What goes along is at least as long as what is laid, piece by piece.
    let laid: f64 =
        totals.leads.iter().flat_map(|count| &count.needs).map(|need| need.length * need.lines.len() as f64).sum();
    let taken: f64 =
        totals.leads.iter().flat_map(|count| &count.pieces).map(|piece| piece.length * piece.used as f64).sum();
    // Two thrus of 5 m get 6 m.
    assert_eq!(taken - laid, 2.0);
}

/// A show of these runs out of these pieces.
fn runs(have: &[(u32, u32)], lengths: &[u32]) -> Value {
    let gear: Vec<Value> = have
        .iter()
        .map(|(length, count)| {
            json!({ "id": format!("l{length}"), "name": format!("Lead, {length} m"), "kind": "lead", "count": count,
                "values": { "lead_length": format!("{length} m"), "lead_c": "70 pF" } })
        })
        .collect();
    let lines: Vec<Value> = lengths.iter().enumerate().map(|(i, length)| {
        json!({ "id": format!("c{i}"), "run": format!("l{}", have[0].0), "values": { "source": "microphone", "run_length": format!("{length} m") } })
    }).collect();
    json!({ "version": 1, "gear": gear, "lines": lines })
}

/// The fewest leads missing, then the fewest joints, by trying everything.
fn by_hand(stock: &mut Stock, lengths: &[u32]) -> (usize, usize) {
    let Some((first, rest)) = lengths.split_first() else { return (0, 0) };
    let (missing, joints) = by_hand(stock, rest);
    let mut best = (missing + 1, joints);
    lay(stock, *first, 0, &mut |stock, used| {
        let (missing, joints) = by_hand(stock, rest);
        best = best.min((missing, joints + used - 1));
    });
    best
}

/// Pieces by length, m, and how many.
type Stock = Vec<(u32, u32)>;

/// Calls for each way to lay so many metres of what is left.
fn lay(stock: &mut Stock, left: u32, used: usize, then: &mut dyn FnMut(&mut Stock, usize)) {
    if left == 0 {
        return then(stock, used);
    }
    if used == 4 {
        return;
    }
    for i in 0..stock.len() {
        if stock[i].1 > 0 {
            stock[i].1 -= 1;
            lay(stock, left.saturating_sub(stock[i].0), used + 1, then);
            stock[i].1 += 1;
        }
    }
}

fn told(file: &Value) -> (usize, usize) {
    let totals = totals(&show(file));
    let needs = || totals.leads.iter().flat_map(|count| &count.needs);
    assert!(totals.leads.iter().all(|count| count.proved));
    for count in &totals.leads {
        for piece in &count.pieces {
            let used: usize = count
                .needs
                .iter()
                .flat_map(|need| &need.made)
                .map(|made| made.lines.len() * made.pieces.iter().filter(|length| **length == piece.length).count())
                .sum();
            assert_eq!(used, piece.used);
            assert!(used <= piece.have.unwrap() as usize);
        }
    }
    for need in needs() {
        assert_eq!(need.made.iter().map(|made| made.lines.len()).sum::<usize>() + need.missing, need.lines.len());
        for made in &need.made {
            assert!(made.pieces.iter().sum::<f64>() >= need.length - 1e-9);
        }
    }
    let joints = needs().flat_map(|need| &need.made).map(|made| made.lines.len() * (made.pieces.len() - 1)).sum();
    (needs().map(|need| need.missing).sum(), joints)
}

proptest! {
    /// Nothing that trying everything finds is better.
    #[test]
    fn leads_are_joined_as_trying_everything_does(
        have in proptest::collection::btree_map(prop_oneof![Just(3_u32), Just(5), Just(10), Just(20)], 0_u32..4, 1..4),
        lengths in proptest::collection::vec(prop_oneof![Just(3_u32), Just(5), Just(10), Just(12), Just(20), Just(30)], 1..5),
    ) {
        let have: Vec<(u32, u32)> = have.into_iter().collect();
        prop_assert_eq!(told(&runs(&have, &lengths)), by_hand(&mut have.clone(), &lengths));
    }
}

/// A drawer and a list beyond all measure come to an end, in what stack there is.
#[test]
fn leads_without_measure() {
    let have: Vec<(u32, u32)> = (1..=600).map(|length| (length, length % 3)).collect();
    let lengths: Vec<u32> = (1..=600).map(|i| 1 + i * 7 % 1999).collect();
    let totals = totals(&show(&runs(&have, &lengths)));
    let needs = &totals.leads[0].needs;
    assert!(!totals.leads[0].proved);
    let made: usize = needs.iter().flat_map(|need| &need.made).map(|made| made.lines.len()).sum();
    let missing: usize = needs.iter().map(|need| need.missing).sum();
    assert_eq!(made + missing, lengths.len());
    assert!(made > 0);
}

/// Rather three leads with a joint each than one with three.
#[test]
fn joints_are_spread() {
    let totals = totals(&show(&runs(&[(5, 20), (10, 4)], &[10, 10, 10, 10, 20])));
    let long = need(&totals.leads[0], LeadPlace::Run, 20.0);
    assert_eq!(made(long), [(1, vec![10.0, 10.0])]);
}

/// A lead of an instrument is one piece of its own length; a microphone's may be joined.
#[test]
fn the_lead_of_an_instrument_is_one_piece() {
    let line = |source: &str| {
        json!({
            "version": 1,
            "gear": [
                { "id": "three", "name": "3 m", "kind": "lead", "count": 9, "values": { "lead_length": "3 m" } },
                { "id": "ten", "name": "10 m", "kind": "lead", "count": 9, "values": { "lead_length": "10 m" } },
            ],
            "lines": [{ "id": "c", "lead": "three", "values": { "source": source, "lead_length": "6 m" } }],
        })
    };
    let kept = |file| totals(&show(&file)).leads[0].needs[0].missing;
    assert_eq!([kept(line("pickup")), kept(line("piezo")), kept(line("microphone"))], [1, 1, 0]);
}

/// Leads of another kind do not help, nor do those that are only named alike.
#[test]
fn only_leads_of_a_kind_are_joined() {
    let mut file = runs(&[(10, 2)], &[20]);
    assert_eq!(told(&file), (0, 1));
    file["gear"][0]["count"] = json!(1);
    assert_eq!(told(&file), (1, 0));
    let mut other = file["gear"][0].clone();
    other["id"] = json!("other");
    other["name"] = json!("lead 10m");
    other["values"]["lead_c"] = json!("0.07 nF");
    file["gear"].as_array_mut().unwrap().push(other);
    assert_eq!(told(&file), (0, 1));
    file["gear"][1]["values"]["lead_c"] = json!("90 pF");
    assert_eq!(told(&file), (1, 0));
    file["gear"][1]["values"]["lead_c"] = json!("70 pF");
    file["gear"][1]["name"] = json!("Instrument lead, 10 m");
    assert_eq!(told(&file), (1, 0));
}

/// What has no wire takes no lead, and no phantom goes that way.
#[test]
fn radio_takes_no_lead() {
    let mut file = example();
    let lines = file["lines"].as_array_mut().unwrap();
    lines.retain(|line| line["id"] == "ch-6");
    lines[0]["carried"] = json!("radio");
    let totals = totals(&show(&file));
    assert_eq!((totals.leads.len(), totals.phantom.len()), (0, 0));
}

/// A stage box without a supply of its own, on an analogue multicore, passes on what the
/// console feeds.
#[test]
fn who_feeds_phantom() {
    let feeds = |set: &dyn Fn(&mut Value)| {
        let mut file = example();
        set(&mut file);
        let totals = totals(&show(&file));
        totals.phantom.iter().map(|one| (one.equipment.clone(), one.most)).collect::<Vec<_>>()
    };
    let at = |file: &mut Value, id: &str, field: &str, text: Value| {
        let all = file["equipment"].as_array_mut().unwrap();
        all.iter_mut().find(|one| one["id"] == id).unwrap()[field] = text;
    };
    assert_eq!(feeds(&|_| ()), [("stage-box".to_owned(), Some(0.2))]);
    let console = [("console".to_owned(), Some(0.3))];
    let passive = |file: &mut Value| {
        at(file, "console", "phantom_most", json!("0.3 A"));
        at(file, "stage-box", "power", json!("battery"));
        let links = file["links"].as_array_mut().unwrap();
        let snake = links.iter_mut().find(|link| link["id"] == "snake").unwrap();
        snake["kind"] = json!("audio");
        snake["ends"] = json!("both");
    };
    assert_eq!(feeds(&passive), console);
    let unknown = |file: &mut Value| at(file, "stage-box", "phantom_most", json!(""));
    assert_eq!(feeds(&unknown), [("stage-box".to_owned(), None)]);
}
