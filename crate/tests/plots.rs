//! Curves, axes and marks of the plots against closed forms.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::{report, within};
use serde_json::{Value, json};
use stageohm::Complex64;
use stageohm::report::{Plot, Report, Trace};
use std::f64::consts::TAU;

#[track_caller]
fn plot<'a>(report: &'a Report, id: &str) -> &'a Plot {
    report.plots.iter().find(|plot| plot.id == id).unwrap_or_else(|| panic!("no plot {id}"))
}

#[track_caller]
fn trace<'a>(plot: &'a Plot, id: &str) -> &'a Trace {
    plot.traces.iter().find(|trace| trace.id == id).unwrap_or_else(|| panic!("no curve {id}"))
}

/// From one end of the axis to the other, and on the closed form everywhere.
#[track_caller]
fn follows(plot: &Plot, id: &str, tolerance: f64, expected: impl Fn(f64) -> f64) {
    let trace = trace(plot, id);
    within("begin", trace.x[0] / plot.x.from, 1.0, 1e-9);
    within("end", trace.x.last().unwrap() / plot.x.to, 1.0, 1e-9);
    for (x, y) in trace.x.iter().zip(&trace.y) {
        within(&format!("{id} at {x}"), *y, expected(*x), tolerance);
    }
}

/// What the link to a calculator puts into it.
#[track_caller]
fn linked(report: &Report, calculator: &str) -> Value {
    let link = report.links.iter().find(|link| link.calculator == calculator);
    let link = link.unwrap_or_else(|| panic!("no link to {calculator}"));
    link.values.iter().map(|(id, text)| ((*id).to_owned(), json!(text))).collect::<serde_json::Map<_, _>>().into()
}

fn decibels(ratio: f64) -> f64 {
    20.0 * ratio.log10()
}

/// 150 Ω into any load: R/(R + 150 Ω), over a hundredth to a thousand times of it, on an
/// axis in steps of 6 dB, one dB at least from the curve.
#[test]
fn a_divider_by_its_load() {
    let values = json!({ "source_r": 150.0, "load_r": 10e3, "source_l": 0.0, "source_c": 0.0, "load_c": 0.0 });
    let answer = report("source-load", values);
    let by_load = plot(&answer, "by-load");
    assert_eq!((by_load.x.from, by_load.x.to), (1.5, 150e3));
    assert_eq!((by_load.y.from, by_load.y.to), (-42.0, 6.0));
    let divided = |r: f64| decibels(r / (r + 150.0));
    follows(by_load, "by-load-curve", 1e-9, divided);
    within("marker", by_load.markers[0].x, 10e3, 1e-9);
    within("marker", by_load.markers[0].y, divided(10e3), 1e-9);
    assert_eq!(by_load.stops, [15.0, 75.0, 150.0, 300.0, 750.0, 1500.0, 3000.0, 15e3]);
    // A source without any resistance is taken as one of 1 Ω to draw.
    let none = report("source-load", json!({ "source_r": 0.0 }));
    let by_load = plot(&none, "by-load");
    assert_eq!((by_load.x.from, by_load.x.to), (0.01, 1e3));
    follows(by_load, "by-load-curve", 1e-9, |_| 0.0);
}

/// 1 µF behind 1 kΩ into 9 kΩ: a high pass at 1/(2π·10 kΩ·1 µF) = 15.9 Hz, too low to
/// be marked; with 0.1 µF at 159 Hz, 3.01 dB under the 0.915 dB that the divider costs.
#[test]
fn a_corner_is_marked_in_the_band() {
    for (farads, marked) in [(1e-6, false), (0.1e-6, true)] {
        let corner = 1.0 / (TAU * 10e3 * farads);
        let values = json!({
            "source_r": 1e3, "load_r": 9e3, "source_l": 0.0, "source_c": 0.0, "load_c": 0.0, "coupling_c": farads
        });
        let answer = report("source-load", values);
        let response = plot(&answer, "response");
        assert_eq!((response.x.from, response.x.to, response.x.log), (20.0, 20e3, true));
        follows(response, "response-curve", 1e-6, |f| decibels(0.9) - 10.0 * (1.0 + (corner / f).powi(2)).log10());
        assert_eq!(response.markers.len(), usize::from(marked), "{farads}");
        for marker in &response.markers {
            within("corner", marker.x, corner, 1e-3 * corner);
            within("corner", marker.y, decibels(0.9) - 3.0103, 1e-3);
        }
    }
    // At 20 Hz 16 Hz make −0.9 − 2.1 dB, 159 Hz −0.9 − 18.1 dB.
    let top_and_bottom = |farads: f64| {
        let values = json!({ "source_r": 1e3, "load_r": 9e3, "load_c": 0.0, "coupling_c": farads });
        let y = plot(&report("source-load", values), "response").y.clone();
        (y.from, y.to)
    };
    assert_eq!(top_and_bottom(1e-6), (-6.0, 6.0));
    assert_eq!(top_and_bottom(0.1e-6), (-24.0, 6.0));
}

/// The T of 20 dB for 600 Ω, arms of 490.9 and 121.2 Ω by the handbook, on other loads:
/// what it lets through re none, by the mesh.
#[test]
fn a_pad_on_other_loads() {
    let values = json!({ "design": "matched", "form": "t", "source_r": 600.0, "load_r": 600.0, "loss": 20.0, "legs": "unbalanced" });
    let answer = report("pad", values);
    let by_load = plot(&answer, "by-load");
    assert_eq!((by_load.x.from, by_load.x.to), (6.0, 60e3));
    let (series, shunt) = (600.0 * 9.0 / 11.0, 600.0 * 2.0 * 10.0 / 99.0);
    let change = |load: f64| {
        let beside = 1.0 / (1.0 / shunt + 1.0 / (series + load));
        decibels(beside / (600.0 + series + beside) * load / (series + load) / (load / (600.0 + load)))
    };
    follows(by_load, "curve-exact", 1e-9, change);
    within("marker", by_load.markers[0].x, 600.0, 1e-9);
    within("marker", by_load.markers[0].y, -20.0, 1e-9);
    assert_eq!(by_load.stops, [6.0, 60.0, 300.0, 600.0, 1200.0, 6e3, 60e3]);
    // 499 and 121 Ω of E96 (IEC 60063) are near it, and are there to compare with.
    let rounded = trace(by_load, "curve-e96");
    assert!(rounded.reference && !trace(by_load, "curve-exact").reference);
    for (x, y) in rounded.x.iter().zip(&rounded.y) {
        within("E96", *y, change(*x), 0.3);
    }
}

/// A lead that is nothing but 100 pF/m behind 10 kΩ: −10·log10(1 + (2π·f·R·C′·l)²), and
/// 1 dB at √(10^0.1 − 1)/(2π·f·R·C′).
#[test]
fn a_loss_by_length() {
    let values = |length: f64| {
        json!({
            "source": "unbalanced", "source_r": 10e3, "load_r": 1e12, "load_c": 0.0, "lead_c": 100e-12, "lead_r": 0.0,
            "lead_l": 0.0, "frequency": 10e3, "limit": 1.0, "lead_length": length
        })
    };
    let per_metre = TAU * 10e3 * 10e3 * 100e-12;
    let loss = |l: f64| -10.0 * (1.0 + (per_metre * l).powi(2)).log10();
    for (length, to) in [(12.0, 2000.0), (3000.0, 4500.0)] {
        let answer = report("lead-length", values(length));
        let by_length = plot(&answer, "by-length");
        within("from", by_length.x.from, 1.0, 1e-12);
        within("to", by_length.x.to, to, 1e-9);
        follows(by_length, "by-length-curve", 1e-6, loss);
        for marker in &by_length.markers {
            within(&marker.text, marker.y, loss(marker.x), 1e-6);
        }
        let longest = (10_f64.powf(0.1) - 1.0).sqrt() / per_metre;
        within("longest", by_length.markers[0].x, longest, 1e-6);
        assert!(by_length.markers.iter().any(|marker| (marker.x - length).abs() < 1e-9), "{length}");
        assert_eq!(by_length.stops.first(), Some(&1.0));
        assert_eq!(by_length.stops.last(), Some(&2000.0));
        let response = plot(&answer, "response");
        follows(response, "curve", 1e-6, |f| -10.0 * (1.0 + (per_metre * length * f / 10e3).powi(2)).log10());
        follows(response, "curve-bare", 1e-6, |_| 0.0);
    }
    // The same as a source and a load: 1.2 nF across 10 kΩ.
    let there = report("source-load", linked(&report("lead-length", values(12.0)), "source-load"));
    within("change", plot(&there, "response").traces[0].y[0], loss(12.0 * 20.0 / 10e3), 1e-6);
    let last = *plot(&there, "response").traces[0].y.last().unwrap();
    within("change", last, loss(12.0 * 2.0), 1e-6);
}

/// The pickup of the lead is that of the pickup's own calculator: 2.5 H, 6.5 kΩ and
/// 110 pF with 6 m of 100 pF/m peak at 3481.94 Hz with their controls (closed form,
/// plain Python); without any, at √(1 − R²C/(2L))/(2π·√(LC)) with 710 pF.
#[test]
fn a_pickup_on_its_lead() {
    let values = json!({ "lead_length": 6.0, "lead_r": 0.0, "lead_l": 0.0 });
    let answer = report("lead-length", values);
    assert_eq!((plot(&answer, "by-length").x.from, plot(&answer, "by-length").x.to), (0.5, 50.0));
    let resonance = |answer: &Report| {
        let there = report("pickup", linked(answer, "pickup"));
        there.reading("peak").unwrap().value.unwrap()
    };
    within("resonance", resonance(&answer), 3481.94, 0.01);
    let peak = (1.0 - 6.5e3_f64.powi(2) * 710e-12 / 5.0).sqrt() / (TAU * (2.5_f64 * 710e-12).sqrt());
    let bare =
        json!({ "lead_length": 6.0, "lead_r": 0.0, "lead_l": 0.0, "volume_r": "", "tone_c": "", "instrument_r": 1e12 });
    within("resonance", resonance(&report("lead-length", bare)), peak, 0.01);
}

/// 0.1 V between two earths on 0.5 Ω and 0.5 Ω of shield put 50 mV in series, and each
/// harmonic as much less as it is stated; 60 dB of rejection take as much from all.
#[test]
fn a_stem_for_each_harmonic() {
    let values = json!({
        "difference": 0.1, "earth_r": 0.5, "inductance": 0.0, "lead_length": 10.0, "shield_r": 0.048, "contact_r": 0.01,
        "connection": "balanced", "rejection": 60.0, "other_hum": "", "harmonic_2": -40.0, "harmonic_3": -6.0,
        "harmonic_5": "", "harmonic_7": "", "harmonic_9": "", "harmonic_11": ""
    });
    let answer = report("ground-loop", values);
    let spectrum = plot(&answer, "spectrum");
    let first = decibels(0.05 / 0.6_f64.sqrt());
    for (id, down) in [("curve-unbalanced", 0.0), ("curve", -60.0)] {
        let trace = trace(spectrum, id);
        assert_eq!(trace.x, [50.0, 100.0, 150.0], "{id}");
        for (y, share) in trace.y.iter().zip([0.0, -40.0, -6.0]) {
            within(id, *y, first + down + share, 1e-6);
        }
    }
    assert_eq!((spectrum.x.from, spectrum.x.to), (40.0, 187.5));
    // From −23.8 dBu up to −18 and 6 more, from −123.8 down to −126 and 12 more.
    assert_eq!((spectrum.y.from, spectrum.y.to), (-138.0, -12.0));
    let marked: Vec<_> = spectrum.markers.iter().map(|marker| (marker.x, marker.y)).collect();
    let curve = trace(spectrum, "curve");
    assert_eq!(marked, curve.x.iter().copied().zip(curve.y.iter().copied()).collect::<Vec<_>>());
    // What stands between the ends is what a balanced line is asked about.
    let there = linked(&answer, "balance");
    assert_eq!(there["difference"].as_str().unwrap().replace('\u{a0}', " "), "50 mV");
}

/// 2.5 H, 6.5 kΩ and 110 pF on 390 pF of lead and 1 MΩ, without controls: the response of
/// the RLC divider, its peak marked.
#[test]
fn a_pickup_over_frequency() {
    let values = json!({
        "volume": "none", "tone": "none", "coil_l": 2.5, "coil_r": 6.5e3, "coil_c": 110e-12, "load_r": 1e6, "load_c": 0.0,
        "lead_length": 3.9, "lead_c": 100e-12, "lead_r": 0.0, "lead_l": 0.0
    });
    let answer = report("pickup", values);
    let response = plot(&answer, "response");
    let level = |f: f64| {
        let coil = Complex64::new(6.5e3, TAU * f * 2.5);
        let across = Complex64::new(1e-6, TAU * f * 500e-12);
        -decibels((1.0 + coil * across).norm())
    };
    let drawn = response.traces.iter().find(|trace| !trace.reference).unwrap();
    for (x, y) in drawn.x.iter().zip(&drawn.y) {
        within(&format!("{x}"), *y, level(*x), 1e-6);
    }
    let peak = response.markers.iter().map(|marker| marker.y).fold(f64::NEG_INFINITY, f64::max);
    assert!(drawn.y.iter().all(|y| *y <= peak + 1e-9));
    let at = response.markers.iter().find(|marker| marker.y == peak).unwrap().x;
    within("peak", peak, level(at), 1e-6);
}
