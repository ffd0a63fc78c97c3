//! What a seed deals: the same everywhere, evenly, and each thing for itself.
#![allow(clippy::unwrap_used)]

mod common;

use common::lesson::{read, rig, shipped};
use proptest::prelude::*;
use serde_json::{Value, json};
use stageohm::lesson::{Lesson, deal};
use std::collections::BTreeSet;

/// PCG XSH RR 64/32 as M. E. O'Neill publishes it.
struct Pcg {
    state: u64,
    increment: u64,
}

impl Pcg {
    fn new(seed: u64, stream: u64) -> Self {
        let mut pcg = Self { state: 0, increment: (stream << 1) | 1 };
        pcg.next();
        pcg.state = pcg.state.wrapping_add(seed);
        pcg.next();
        pcg
    }

    fn next(&mut self) -> u32 {
        let old = self.state;
        self.state = old.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(self.increment);
        let shifted = (((old >> 18) ^ old) >> 27) as u32;
        shifted.rotate_right((old >> 59) as u32)
    }

    /// A share in steps of 2⁻⁵³, the low word first.
    fn share(&mut self) -> f64 {
        let (low, high) = (u64::from(self.next()), u64::from(self.next()));
        ((high << 32 | low) >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// FNV-1a, 32 bits, as its authors publish it.
fn fnv(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash: u32, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

/// The place of what is dealt for a name, worked out here.
fn place(seed: u32, name: &str, count: usize) -> usize {
    let seed = seed.wrapping_mul(0x9e37_79b9) ^ fnv(name);
    (Pcg::new(seed.into(), 0xa02_bdbf_7bb3_c0a7).share() * count as f64) as usize
}

/// The demonstration that comes with PCG, and the test vectors that come with FNV.
#[test]
fn the_generators_of_this_test_give_the_published_numbers() {
    let mut pcg = Pcg::new(42, 54);
    let numbers: Vec<_> = (0..6).map(|_| pcg.next()).collect();
    assert_eq!(numbers, [0xa15c_02b7, 0x7b47_f409, 0xba1d_3330, 0x83d2_f293, 0xbfa4_784b, 0xcbed_606e]);
    assert_eq!([fnv(""), fnv("a"), fnv("foobar")], [0x811c_9dc5, 0xe40c_292c, 0xbf9c_f968]);
}

fn with_draw(draw: &Value) -> Lesson {
    let rig = rig("pickup", &json!({}));
    read(&json!({ "stageohm": "lesson", "version": 1, "rig": rig, "draw": draw, "steps": [{ "kind": "read" }] }))
}

fn drawn(lesson: &Lesson, seed: u32, field: &str) -> String {
    deal(lesson, seed).drawn.get(field).unwrap().clone()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn what_is_dealt_is_what_the_generators_say(seed: u32, count in 1_usize..12) {
        let of: Vec<_> = (1..=count).map(|metres| format!("{metres} m")).collect();
        let lesson = with_draw(&json!({ "lead_length": { "of": of } }));
        prop_assert_eq!(drawn(&lesson, seed, "lead_length"), of[place(seed, "lead_length", count)].clone());
        prop_assert_eq!(deal(&lesson, seed), deal(&lesson, seed));
    }

    /// Another field, and another order of the fields, change nothing.
    #[test]
    fn fields_are_dealt_each_for_itself(seed: u32) {
        let (lead, coil) = (json!({ "of": ["3 m", "6 m", "10 m"] }), json!({ "of": ["2 H", "4 H", "5 H", "6 H"] }));
        let alone = with_draw(&json!({ "lead_length": lead }));
        let both = with_draw(&json!({ "coil_l": coil, "lead_length": lead }));
        let more = with_draw(&json!({ "lead_length": lead, "coil_l": { "of": ["3 H"] } }));
        let dealt = drawn(&alone, seed, "lead_length");
        prop_assert_eq!(&dealt, &drawn(&both, seed, "lead_length"));
        prop_assert_eq!(&dealt, &drawn(&more, seed, "lead_length"));
    }
}

/// Dealt once, dealt for ever: a link with a seed shows the same lesson next year.
#[test]
fn seeds_of_the_lessons_that_ship_deal_what_they_always_did() {
    for (id, seed, values) in [
        ("passive-bass", 3, [("coil_l", "4.5 H"), ("lead_length", "6 m"), ("ratio", "15:1")].as_slice()),
        ("hum", 2, &[("difference", "50 mV"), ("shield_r", "15 mΩ/m")]),
        ("levels", 4, &[("emf", "6 dBu"), ("full_scale", "24 dBu"), ("level", "4 dBu"), ("loss", "16 dB")]),
    ] {
        let lesson = read(&shipped(id));
        for (field, text) in values {
            assert_eq!(drawn(&lesson, seed, field), *text, "{id} {seed} {field}");
        }
    }
}

/// Preferred values as IEC 60063 lists them, each of those in the range and no other.
#[test]
fn a_range_deals_preferred_values() {
    const E12: [f64; 12] = [1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2];
    const E24_ONLY: [f64; 12] = [1.1, 1.3, 1.6, 2.0, 2.4, 3.0, 3.6, 4.3, 5.1, 6.2, 7.5, 9.1];
    for (series, listed) in [("E12", E12.to_vec()), ("E24", [E12, E24_ONLY].concat())] {
        let lesson = with_draw(&json!({ "load_r": { "from": "10k", "to": "200k", "series": series } }));
        let dealt: BTreeSet<u64> = (0..800)
            .map(|seed| deal(&lesson, seed).steps[0].values.get("load_r").unwrap().clone())
            .map(|text| text.strip_suffix(" kΩ").unwrap().parse::<f64>().unwrap())
            .map(|kilohms| (kilohms * 10.0).round() as u64)
            .collect();
        let decades = [100.0, 1000.0].iter().flat_map(|decade| listed.iter().map(move |value| value * decade));
        let wanted: BTreeSet<u64> = decades.map(|value| value.round() as u64).filter(|value| *value <= 2000).collect();
        assert_eq!(dealt, wanted, "{series}");
    }
}

/// The ways and the cases of a step come in another order with another seed, and the wrong one is
/// every one of them in turn.
#[test]
fn orders_and_faults_are_dealt_too() {
    let lesson = read(&shipped("passive-bass"));
    let fault = lesson.steps.iter().position(|step| step.kind == "fault").unwrap();
    let choice = lesson.steps.iter().position(|step| step.kind == "choice").unwrap();
    let dealt: Vec<_> = (1..=60).map(|seed| deal(&lesson, seed)).collect();
    let wrong: BTreeSet<_> = dealt.iter().map(|dealt| dealt.steps[fault].wrong.unwrap()).collect();
    assert_eq!(wrong.len(), lesson.steps[fault].cases.len());
    for dealt in &dealt {
        let mut cases = dealt.steps[fault].cases.clone();
        cases.sort_unstable();
        assert_eq!(cases, [0, 1, 2, 3]);
        let mut ways: Vec<_> = dealt.steps[choice].ways.iter().map(|way| way.id.as_str()).collect();
        ways.sort_unstable();
        assert_eq!(ways, ["0", "1", "2", "3", "4"]);
    }
    let orders: BTreeSet<String> =
        dealt.iter().map(|dealt| dealt.steps[choice].ways.iter().map(|way| way.id.clone()).collect()).collect();
    assert!(orders.len() > 20, "{orders:?}");
}
