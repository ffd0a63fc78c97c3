//! What there is to look up: numbers against their definitions, wirings against
//! what the standards and the trade say of each contact, and every entry with
//! its words, its source and its links.
#![allow(clippy::unwrap_used, clippy::panic)]

use stageohm::answer::{Question, answer, look_up};
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::field::Kind;
use stageohm::look_up::{At, Face, Leg, LookUpEntry, LookUpKind, Table, Wiring};
use stageohm::settings::{Decimal, Length, Settings};
use std::collections::{BTreeMap, BTreeSet};

fn entries() -> Vec<LookUpEntry> {
    look_up(&Settings::default())
}

#[track_caller]
fn entry(id: &str) -> LookUpEntry {
    entries().into_iter().find(|entry| entry.id == id).unwrap_or_else(|| panic!("{id}"))
}

#[track_caller]
fn table(id: &str) -> Table {
    entry(id).table.unwrap_or_else(|| panic!("{id} has no table"))
}

/// The row whose first number is this.
#[track_caller]
fn row(table: &Table, first: f64) -> Vec<f64> {
    let at = |row: &&Vec<_>| -> bool {
        let cell: &stageohm::look_up::Cell = &row[0];
        cell.value.is_some_and(|value| (value - first).abs() < 1e-9)
    };
    let row = table.rows.iter().find(at).unwrap_or_else(|| panic!("no row {first}"));
    row.iter().map(|cell| cell.value.unwrap_or(f64::NAN)).collect()
}

#[track_caller]
fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value} is not {expected}");
}

#[test]
fn every_entry_has_words_and_a_source() {
    for settings in
        [Settings::default(), Settings { decimal: Decimal::Comma, length: Length::Foot, ..Settings::default() }]
    {
        let all = look_up(&settings);
        let ids: BTreeSet<_> = all.iter().map(|entry| entry.id).collect();
        assert_eq!(ids.len(), all.len(), "an identifier stands twice");
        for entry in &all {
            let id = entry.id;
            assert!(!entry.sources.is_empty(), "{id} has no source");
            assert!(!entry.text.is_empty(), "{id} has no text");
            assert!(entry.see.iter().all(|see| ids.contains(see.id) && see.id != id), "{id}: {:?}", entry.see);
            // Every text of it, as the page gets it.
            for text in texts(&serde_json::to_value(entry).unwrap()) {
                let key = ["look-up-", "source-", "caution-", "role-", "place-", "contact-", "connector-", "face-"]
                    .into_iter()
                    .chain(["mark-", "wiring-"])
                    .find(|key| text.starts_with(key));
                assert!(key.is_none() && !text.contains("{ $"), "{id} shows “{text}”");
            }
        }
    }
}

/// All texts in it but identifiers.
fn texts(value: &serde_json::Value) -> Vec<String> {
    match value {
        serde_json::Value::String(text) => vec![text.clone()],
        serde_json::Value::Array(values) => values.iter().flat_map(texts).collect(),
        serde_json::Value::Object(fields) => fields
            .iter()
            .filter(|(key, _)| !matches!(key.as_str(), "id" | "calculator"))
            .flat_map(|(_, value)| texts(value))
            .collect(),
        _ => Vec::new(),
    }
}

/// No words of an entry are left behind when the entry goes.
#[test]
fn every_word_has_its_entry() {
    let ids: BTreeSet<_> = entries().iter().map(|entry| format!("look-up-{}", entry.id)).collect();
    let own = ["look-up-range", "look-up-note", "look-up-notes"];
    for line in include_str!("../src/words/en.ftl").lines().filter(|line| line.starts_with("look-up-")) {
        let key = line.split(" = ").next().unwrap();
        assert!(ids.contains(key) || own.contains(&key) || key.starts_with("look-up-column-"), "{key}");
    }
}

/// The address `#1/look-up/<id>` is no calculator's.
#[test]
fn no_calculator_takes_its_address() {
    assert!(Calculator::find("look-up").is_none());
}

#[test]
fn every_link_answers() {
    for entry in entries() {
        for link in &entry.links {
            let values: BTreeMap<_, _> = link.values.iter().cloned().collect();
            let question = serde_json::json!({ "calculator": link.calculator, "values": values });
            let question: Question = serde_json::from_value(question).unwrap();
            let answer = answer(&question);
            let problems: Vec<_> = answer.fields.iter().filter(|(_, echo)| echo.problem.is_some()).collect();
            assert!(answer.report.is_some(), "{}: {link:?} {problems:?}", entry.id);
            assert!(answer.problems.is_empty(), "{}: {:?}", entry.id, answer.problems);
        }
    }
}

/// What the calculators offer as typical is what one finds here, and the range
/// holds the value.
#[test]
fn every_mark_of_every_field_is_found() {
    let rows: Vec<_> = entries()
        .into_iter()
        .filter(|entry| entry.kind == LookUpKind::Value)
        .flat_map(|entry| entry.table.unwrap().rows)
        .collect();
    for calculator in REGISTER {
        for (described, field) in calculator.describe(&Settings::default()).fields.iter().zip(calculator.fields) {
            let Kind::Number(number) = &field.kind else { continue };
            for (mark, described) in number.marks.iter().zip(&described.number.as_ref().unwrap().marks) {
                let found = rows
                    .iter()
                    .any(|row| row[0].text == described.name && row.iter().any(|cell| cell.value == Some(mark.value)));
                assert!(found, "{}.{}: {} {}", calculator.id, field.id, described.name, mark.value);
                assert!(mark.range.is_none_or(|(from, to)| from <= mark.value && mark.value <= to), "{mark:?}");
            }
        }
    }
}

#[test]
fn tables_are_whole() {
    for entry in entries() {
        let Some(table) = entry.table else { continue };
        assert!(!table.rows.is_empty(), "{}", entry.id);
        for row in &table.rows {
            assert_eq!(row.len(), table.columns.len(), "{}", entry.id);
            for (cell, column) in row.iter().zip(&table.columns) {
                assert!(cell.value.is_none_or(f64::is_finite), "{}: {cell:?}", entry.id);
                assert!(cell.value.is_none() || column.unit.is_some(), "{}: {cell:?} under no unit", entry.id);
            }
        }
    }
}

/// Ratios as decibel tables of handbooks print them: 3 dB is 1.413 and 1.995,
/// 6 dB 1.995 and 3.981, 20 dB 10 and 100, 40 dB 0.01 of the voltage.
#[test]
fn decibels_as_handbooks_print_them() {
    let table = table("decibel-ratio");
    for (level, gain, loss, power) in [
        (0.0, 1.0, 1.0, 1.0),
        (1.0, 1.1220, 0.8913, 1.2589),
        (3.0, 1.4125, 0.7079, 1.9953),
        (6.0, 1.9953, 0.5012, 3.9811),
        (10.0, 3.1623, 0.3162, 10.0),
        (20.0, 10.0, 0.1, 100.0),
        (40.0, 100.0, 0.01, 1e4),
        (60.0, 1e3, 1e-3, 1e6),
    ] {
        let row = row(&table, level);
        near(row[1], gain, 5e-5 * gain);
        near(row[2], loss, 1e-4 * loss);
        near(row[3], power, 5e-5 * power);
    }
}

/// 0 dBu is √0.6 V, 0 dBV is 1 V (IEC 60027-3), the peak of a sine is √2 of it.
#[test]
fn levels_in_every_unit() {
    let table = table("level-units");
    for (dbu, dbv, volts) in [
        (0.0, -2.2185, 0.6_f64.sqrt()),
        (4.0, 1.7815, 1.227_65),
        (10.0 * (1.0_f64 / 0.6).log10(), 0.0, 1.0),
        (10.0 * (0.1_f64 / 0.6).log10(), -10.0, 0.316_23),
        (24.0, 21.7815, 12.2765),
    ] {
        let row = row(&table, dbu);
        near(row[1], dbv, 5e-5);
        near(row[2], volts, 1e-5 * volts);
        near(row[3], volts * 2.0_f64.sqrt(), 1e-5 * volts);
    }
}

/// Two equal noises 3.01 dB, two equal tones in phase 6.02 dB; 10 dB apart 0.414
/// and 2.387 dB (10·lg 1.1 and 20·lg 1.3162).
#[test]
fn sums_of_levels() {
    let table = table("level-sum");
    for (apart, unrelated, same) in [(0.0, 3.0103, 6.0206), (10.0, 0.4139, 2.3866), (20.0, 0.0432, 0.8279)] {
        let row = row(&table, apart);
        near(row[1], unrelated, 5e-5);
        near(row[2], same, 5e-5);
    }
}

/// The voltage divider: equal −6.0206 dB, tenfold −0.8279, hundredfold −0.0864.
#[test]
fn losses_by_load() {
    let table = table("loss-by-load");
    for (times, level) in [(1.0, -6.0206), (2.0, -3.5218), (10.0, -0.8279), (100.0, -0.0864)] {
        near(row(&table, times)[1], level, 5e-5);
    }
}

/// Harmonics are multiples. 50 Hz lies 35 cents above G1 (48.999 Hz), 60 Hz 49
/// cents below B1 (61.735 Hz), 440 Hz would be A4 itself (frequencies of notes
/// as tables of equal temperament print them). A-weighting of 50 and 100 Hz by
/// table 3 of IEC 61672-1 (from memory): −30.2 and −19.1 dB.
#[test]
fn harmonics_of_the_mains() {
    for (id, mains, note) in
        [("harmonics-50", 50.0, "G1\u{a0}+35\u{a0}ct"), ("harmonics-60", 60.0, "B1\u{a0}−49\u{a0}ct")]
    {
        let table = table(id);
        assert_eq!(table.rows[0][2].text, note);
        for (i, row) in table.rows.iter().enumerate() {
            near(row[0].value.unwrap(), (i + 1) as f64, 0.0);
            near(row[1].value.unwrap(), (i + 1) as f64 * mains, 0.0);
        }
    }
    let table = table("harmonics-50");
    near(table.rows[0][3].value.unwrap(), -30.2, 0.1);
    near(table.rows[1][3].value.unwrap(), -19.1, 0.1);
    // The eighth harmonic is three octaves up, the same note.
    assert_eq!(table.rows[7][2].text, "G4\u{a0}+35\u{a0}ct");
}

/// Table 3 of IEC 61672-1 (from memory).
#[test]
fn a_weighting_as_the_standard_prints_it() {
    let table = table("a-weighting");
    for (frequency, level) in [
        (20.0, -50.5),
        (31.5, -39.4),
        (63.0, -26.2),
        (125.0, -16.1),
        (250.0, -8.6),
        (500.0, -3.2),
        (1e3, 0.0),
        (2e3, 1.2),
        (4e3, 1.0),
        (8e3, -1.1),
        (16e3, -6.6),
        (20e3, -9.3),
    ] {
        near(row(&table, frequency)[1], level, 0.051);
    }
}

/// IEC 60063 (from memory).
#[test]
fn preferred_values() {
    let column = |table: &Table, at: usize| -> Vec<f64> { table.rows.iter().filter_map(|row| row[at].value).collect() };
    let e24 = table("e24");
    assert_eq!(column(&e24, 1), [1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2]);
    assert_eq!(column(&e24, 2), [1.0, 1.5, 2.2, 3.3, 4.7, 6.8]);
    assert_eq!(column(&e24, 3), [1.0, 2.2, 4.7]);
    assert_eq!(e24.rows.len(), 24);
    // As they are stamped and spoken: two digits, and three of the finer ones.
    assert_eq!(e24.rows[0][0].text, "1.0");
    let e96 = table("e96");
    let e48: Vec<_> = e96.rows.iter().flat_map(|row| [row[0].value.unwrap(), row[2].value.unwrap()]).collect();
    assert_eq!(e48[..12], [1.0, 1.05, 1.1, 1.15, 1.21, 1.27, 1.33, 1.4, 1.47, 1.54, 1.62, 1.69]);
    assert_eq!(e48.len(), 48);
}

/// IEC 61938 (from memory): what a device that draws the most still gets, as in
/// the table of check values: 14.0 V of P48 at 10 mA.
#[test]
fn phantom_supplies() {
    let table = table("phantom-supplies");
    let left = |row: usize| table.rows[row][5].value.unwrap();
    near(left(0), 14.0, 1e-9);
    near(left(1), 18.0, 1e-9);
    near(left(2), 6.9, 1e-9);
}

/// 6 m of usual lead have 600 pF; feet give round lengths where feet are read.
#[test]
fn leads_by_length() {
    near(row(&table("lead-by-length"), 6.0)[2], 600e-12, 1e-18);
    let feet = look_up(&Settings { length: Length::Foot, ..Settings::default() });
    let table = feet.into_iter().find(|entry| entry.id == "lead-by-length").unwrap().table.unwrap();
    assert_eq!(table.rows[3][0].text, "15\u{a0}ft");
    near(table.rows[3][2].value.unwrap(), 457.2e-12, 1e-16);
}

/// A comma is printed where the reader wants one.
#[test]
fn numbers_follow_the_settings() {
    let comma = look_up(&Settings { decimal: Decimal::Comma, ..Settings::default() });
    let dbu = comma.into_iter().find(|entry| entry.id == "term-dbu").unwrap();
    assert!(dbu.text[0].contains("775\u{a0}mV") && dbu.text[0].contains("1,23\u{a0}V"), "{}", dbu.text[0]);
}

/// Which contacts are one conductor, through resistors or not: `0.tip` is the
/// tip of the first end. XLR by AES14: pin 1 shield, 2 in phase, 3 return; jack
/// by common practice: tip in phase, ring return, sleeve shield, or left, right,
/// common, or send, return, common.
const CONDUCTORS: &[(&str, &[&str])] = &[
    ("lead-xlr", &["0.pin-1 1.pin-1", "0.pin-2 1.pin-2", "0.pin-3 1.pin-3"]),
    ("lead-jack", &["0.tip 1.tip", "0.sleeve 1.sleeve"]),
    ("lead-jack-balanced", &["0.tip 1.tip", "0.ring 1.ring", "0.sleeve 1.sleeve"]),
    ("lead-jack-xlr", &["0.tip 1.pin-2", "0.ring 1.pin-3", "0.sleeve 1.pin-1"]),
    ("lead-phono", &["0.centre 1.tip", "0.outer 1.sleeve"]),
    ("adaptor-jack-xlr", &["0.tip 1.pin-2", "0.sleeve 1.pin-1 1.pin-3"]),
    ("adaptor-twin-core", &["0.tip 1.pin-2", "0.sleeve 1.pin-1 1.pin-3"]),
    ("adaptor-xlr-jack", &["0.pin-2 1.tip", "0.pin-1 1.sleeve", "0.pin-3"]),
    ("adaptor-two-pole-in-balanced-output", &["0.tip 1.tip", "0.ring 0.sleeve 1.sleeve"]),
    ("adaptor-two-pole-in-balanced-input", &["0.tip 1.tip", "0.sleeve 1.ring 1.sleeve"]),
    ("adaptor-stereo-in-balanced", &["0.tip 1.tip", "0.ring 1.ring", "0.sleeve 1.sleeve"]),
    ("adaptor-mini-jack-two", &["0.tip 1.tip", "0.ring 2.tip", "0.sleeve 1.sleeve 2.sleeve"]),
    ("adaptor-mini-jack-xlr", &["0.tip 1.pin-2", "0.ring 2.pin-2", "0.sleeve 1.pin-1 1.pin-3 2.pin-1 2.pin-3"]),
    ("adaptor-stereo-mono", &["0.ring 0.tip 1.tip", "0.sleeve 1.sleeve"]),
    ("adaptor-two-outputs", &["0.tip 1.tip 2.tip", "0.sleeve 1.sleeve 2.sleeve"]),
    ("adaptor-insert", &["0.tip 1.tip", "0.ring 2.tip", "0.sleeve 1.sleeve 2.sleeve"]),
    ("adaptor-polarity", &["0.pin-1 1.pin-1", "0.pin-2 1.pin-3", "0.pin-3 1.pin-2"]),
    ("adaptor-shield-one-end", &["0.pin-1", "0.pin-2 1.pin-2", "0.pin-3 1.pin-3", "1.pin-1"]),
];

#[test]
fn every_contact_is_accounted_for_once() {
    let recorded: BTreeMap<_, _> = CONDUCTORS.iter().copied().collect();
    let wired: Vec<_> = entries().into_iter().filter_map(|entry| Some((entry.id, entry.wiring?))).collect();
    assert_eq!(wired.len(), recorded.len());
    for (id, wiring) in wired {
        let expected: BTreeSet<_> = recorded[id].iter().map(|conductor| (*conductor).to_owned()).collect();
        assert_eq!(conductors(&wiring), expected, "{id}");
        // A conductor goes somewhere, and none is drawn twice.
        let pairs: BTreeSet<_> =
            wiring.connections.iter().map(|join| (join.from.min(join.to), join.from.max(join.to))).collect();
        assert_eq!(pairs.len(), wiring.connections.len(), "{id}");
        assert!(pairs.iter().all(|(from, to)| from != to), "{id}");
        // What is open has no conductor that reaches it, and everything else has one.
        let reached: BTreeSet<_> = wiring
            .connections
            .iter()
            .flat_map(|join| std::iter::once(join.from).chain((!join.cut).then_some(join.to)))
            .collect();
        let open: BTreeSet<_> = wiring.open.iter().map(|open| open.at).collect();
        assert!(reached.is_disjoint(&open), "{id}");
        // Whatever is joined or open is a contact of its end.
        let there: BTreeSet<_> = contacts(&wiring).into_iter().collect();
        assert!(wiring.open.iter().all(|open| there.contains(&open.at)), "{id}: {:?}", wiring.open);
        assert!(wiring.connections.iter().all(|join| there.contains(&join.from) && there.contains(&join.to)), "{id}");
        assert_eq!(reached.len() + open.len(), contacts(&wiring).len(), "{id}");
        // The drawing has a side for each end, and conductors that cross it.
        assert!(!wiring.ends.first().unwrap().far && wiring.ends.last().unwrap().far, "{id}");
        for join in &wiring.connections {
            let far = |at: At| wiring.ends[at.end].far;
            let bridges = join.role == "joined in the plug";
            assert!(
                if bridges { join.from.end == join.to.end } else { !far(join.from) && far(join.to) },
                "{id}: {join:?}"
            );
        }
    }
}

fn contacts(wiring: &Wiring) -> Vec<At> {
    let of = |(end, at): (usize, &stageohm::look_up::End)| -> Vec<At> {
        at.contacts.iter().map(|contact| At { end, contact: contact.id }).collect()
    };
    wiring.ends.iter().enumerate().flat_map(of).collect()
}

/// The contacts that are joined, as one text for each conductor.
fn conductors(wiring: &Wiring) -> BTreeSet<String> {
    let mut sets: Vec<BTreeSet<At>> = contacts(wiring).into_iter().map(|at| BTreeSet::from([at])).collect();
    for join in wiring.connections.iter().filter(|join| !join.cut) {
        let (joined, others): (Vec<_>, Vec<_>) =
            sets.into_iter().partition(|set| set.contains(&join.from) || set.contains(&join.to));
        sets = others;
        sets.push(joined.into_iter().flatten().collect());
    }
    let named = |set: &BTreeSet<At>| {
        let mut names: Vec<_> = set.iter().map(|at| format!("{}.{}", at.end, at.contact)).collect();
        names.sort();
        names.join(" ")
    };
    sets.iter().map(named).collect()
}

/// Two outputs never meet but through resistors.
#[test]
fn outputs_are_summed_through_resistors() {
    for id in ["adaptor-two-outputs", "adaptor-stereo-mono"] {
        let wiring = entry(id).wiring.unwrap();
        let sum = wiring.connections.iter().filter(|join| join.to.contact == "tip");
        assert_eq!(sum.clone().count(), 2, "{id}");
        assert!(sum.clone().all(|join| join.through.is_some()), "{id}");
    }
}

/// What opens or shorts a conductor of the shield or of phantom says what can
/// happen, and the earth is named wherever a shield is open.
#[test]
fn cautions_stand_where_something_can_happen() {
    let cautioned = |id: &str, words: &str| {
        let entry = entry(id);
        assert!(entry.cautions.iter().any(|caution| caution.contains(words)), "{id}: {:?}", entry.cautions);
    };
    cautioned("adaptor-shield-one-end", "safety earth");
    for id in ["adaptor-jack-xlr", "adaptor-twin-core", "adaptor-shield-one-end", "term-phantom"] {
        cautioned(id, "phantom power");
    }
    for id in ["term-ground-loop", "term-ground-lift", "term-safety-earth", "term-leakage", "value-earths"] {
        cautioned(id, "safety earth");
        cautioned(id, "electrician");
    }
}

/// The places of the pins: whoever looks at the holes sees those of the pins
/// mirrored.
#[test]
fn faces_of_mates_are_mirrored() {
    let faces = entry("xlr").faces;
    let [male, female] = &faces[..] else { panic!("{faces:?}") };
    for contact in &male.contacts {
        let mate = female.contacts.iter().find(|mate| mate.label == contact.label).unwrap();
        near(mate.at[0], -contact.at[0], 1e-12);
        near(mate.at[1], contact.at[1], 1e-12);
    }
}

/// Along a plug stand the tip, the ring and the sleeve, in this order and apart (IEC
/// 60603-11, from memory); around the centre of a phono plug its outer contact.
#[test]
fn contacts_stand_along_a_plug() {
    for (id, order) in [
        ("jack-two-pole", &["tip", "sleeve"][..]),
        ("jack-three-pole", &["tip", "ring", "sleeve"]),
        ("mini-jack", &["tip", "ring", "sleeve"]),
    ] {
        let [face] = &entry(id).faces[..] else { panic!("{id}") };
        let at = |contact: &&str| face.contacts.iter().find(|known| known.id == *contact).unwrap().at;
        let places: Vec<_> = order.iter().map(at).collect();
        assert!(
            places.windows(2).all(|pair| pair[1][0] - pair[0][0] > 0.5 && pair[1][1] == pair[0][1]),
            "{id}: {places:?}"
        );
        assert_eq!(face.contacts.len(), order.len(), "{id}");
        near(places[0][0], -places[order.len() - 1][0], 1e-12);
    }
    let [face] = &entry("phono-plug").faces[..] else { panic!() };
    let at = |contact: &str| face.contacts.iter().find(|known| known.id == contact).unwrap().at;
    assert_eq!(at("centre"), [0.0, 0.0]);
    assert!(at("outer")[1] > 0.5);
}

/// 48 V through one 6.8 kΩ into a short: 7.06 mA (IEC 61938, from memory).
#[test]
fn a_shorted_leg_of_phantom() {
    let [mind] = &entry("adaptor-jack-xlr").warnings[..] else { panic!() };
    assert!(mind.contains("7.06\u{a0}mA"), "{mind}");
}

/// From the solder side left and right are those of the mate seen from the front, so
/// pin 1 of a male plug is on the right (by the mirror, from the faces above).
#[test]
fn solder_sides_are_mirrored() {
    let places = |face: &Face| -> Vec<_> { face.contacts.iter().map(|contact| (contact.id, contact.at)).collect() };
    let faces = entry("xlr").faces;
    let [male, female] = &faces[..] else { panic!("{faces:?}") };
    let ends = entry("lead-xlr").wiring.unwrap().ends;
    let [from, to] = &ends[..] else { panic!("{ends:?}") };
    assert!(from.name.contains("female") && !to.name.contains("female"));
    for (end, mate, own) in [(from, male, female), (to, female, male)] {
        let solder = end.face.as_ref().unwrap();
        assert!(solder.name.contains("solder side"), "{}", solder.name);
        assert_eq!(places(solder), places(mate));
        let across = |contact: &str| solder.contacts.iter().find(|known| known.id == contact).unwrap().at[0];
        for contact in &own.contacts {
            assert_eq!(contact.at[0], -across(contact.id), "{} of {}", contact.id, end.name);
        }
    }
}

/// Every contact of a wired plug is on its face, and its legs are told apart.
#[test]
fn faces_have_the_contacts_of_their_ends() {
    let mut faces = 0;
    for id in ["lead-xlr", "lead-jack-balanced", "lead-jack-xlr", "lead-phono", "adaptor-jack-xlr"] {
        let wiring = entry(id).wiring.unwrap();
        for end in &wiring.ends {
            let Some(face) = &end.face else { continue };
            faces += 1;
            let sorted = |mut ids: Vec<&'static str>| {
                ids.sort_unstable();
                ids
            };
            let drawn = sorted(face.contacts.iter().map(|contact| contact.id).collect());
            assert_eq!(drawn, sorted(end.contacts.iter().map(|contact| contact.id).collect()), "{id}");
        }
    }
    assert_eq!(faces, 10);
    let legs: Vec<_> = entry("lead-xlr").wiring.unwrap().connections.iter().map(|core| core.leg).collect();
    assert_eq!(legs, [Some(Leg::Hot), Some(Leg::Cold), None]);
}
