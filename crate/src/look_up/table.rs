//! Tables of the trade. Every number is computed from its definition.

use super::entry::{Cell, Column, Table};
use super::item::{Item, Printer, Put, Shown, To};
use crate::calculator::{ground_loop, lead_length, levels, noise_floor, pad, phantom, pickup, source_load};
use crate::catalogue::Series;
use crate::catalogue::phantom::{P12, P24, P48, PhantomSupply};
use crate::catalogue::typical::LEAD_C;
use crate::field::mains::{MAINS, MainsFrequency};
use crate::network::a_weighting;
use crate::quantity::{METRES_PER_FOOT, Unit, level, write_number};
use crate::settings::Length;
use crate::words::Arg;

pub(super) static ITEMS: &[Item] = &[
    Item::new("decibel-ratio", &["source-levels"])
        .shows(Shown::Table(ratios))
        .links(&[To::calculator(&levels::CALCULATOR), To::calculator(&pad::CALCULATOR)])
        .see(&["term-decibel", "level-units", "level-sum"]),
    Item::new("level-units", &["source-levels"])
        .shows(Shown::Table(level_units))
        .links(&[To::calculator(&levels::CALCULATOR)])
        .see(&["term-dbu", "term-dbv", "value-level"]),
    Item::new("level-sum", &["source-power-sum"])
        .shows(Shown::Table(sums))
        .links(&[To::calculator(&noise_floor::CALCULATOR)])
        .see(&["decibel-ratio", "term-signal-to-noise"]),
    Item::new("loss-by-load", &["source-divider"])
        .shows(Shown::Table(losses))
        .links(&[To::calculator(&source_load::CALCULATOR)])
        .see(&["term-bridging", "value-source", "value-input"]),
    Item::new("lead-by-length", &["source-practice"])
        .shows(Shown::Table(leads))
        .links(&[To::calculator(&lead_length::CALCULATOR), To::calculator(&pickup::CALCULATOR)])
        .see(&["value-lead", "term-lead-capacitance"]),
    Item::new("phantom-supplies", &["source-phantom"])
        .shows(Shown::Table(phantom))
        .cautions(&["caution-phantom"])
        .links(&[To::calculator(&phantom::CALCULATOR)])
        .see(&["term-phantom", "value-phantom-current"]),
    Item::new("harmonics-50", &["source-harmonics", "source-weighting"])
        .shows(Shown::Table(|print| harmonics(print, 50.0)))
        .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(MainsFrequency::Hz50.to(MAINS))])])
        .see(&["term-hum", "term-buzz", "harmonics-60"]),
    Item::new("harmonics-60", &["source-harmonics", "source-weighting"])
        .shows(Shown::Table(|print| harmonics(print, 60.0)))
        .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(MainsFrequency::Hz60.to(MAINS))])])
        .see(&["term-hum", "term-buzz", "harmonics-50"]),
    Item::new("a-weighting", &["source-weighting"])
        .shows(Shown::Table(weightings))
        .links(&[To::calculator(&noise_floor::CALCULATOR), To::calculator(&ground_loop::CALCULATOR)])
        .see(&["term-a-weighting", "harmonics-50", "harmonics-60"]),
    Item::new("e24", &["source-e-series"]).shows(Shown::Table(e24)).links(&[To::calculator(&pad::CALCULATOR)]).see(&[
        "e96",
        "term-preferred-values",
        "term-value-code",
    ]),
    Item::new("e96", &["source-e-series"])
        .shows(Shown::Table(e96))
        .links(&[To::calculator(&pad::CALCULATOR)])
        .see(&["e24", "term-preferred-values"]),
];

/// Level differences, dB.
const DIFFERENCES: &[f64] = &[
    0.0, 0.1, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 15.0, 18.0, 20.0, 24.0, 26.0, 30.0, 40.0,
    50.0, 60.0, 80.0, 100.0, 120.0,
];

/// 20·lg of a ratio of voltages is 10·lg of the ratio of their powers (IEC 60027-3).
fn ratios(print: &Printer) -> Table {
    let row = |level: &f64| {
        vec![
            print.number(*level, Unit::Decibel),
            print.number(level::ratio(*level), Unit::One),
            print.number(level::ratio(-level), Unit::One),
            print.number(level::power_ratio(*level), Unit::One),
        ]
    };
    Table {
        columns: vec![
            print.column("difference", Unit::Decibel),
            print.column("voltage-gain", Unit::One),
            print.column("voltage-loss", Unit::One),
            print.column("power-gain", Unit::One),
        ],
        rows: DIFFERENCES.iter().map(row).collect(),
    }
}

/// Levels, dBu.
const LEVELS: &[f64] = &[
    -128.0,
    -60.0,
    -50.0,
    -40.0,
    -30.0,
    -20.0,
    -10.0,
    -7.781_512_503_836_436,
    -6.0,
    0.0,
    2.218_487_496_163_564,
    4.0,
    6.0,
    8.0,
    10.0,
    12.0,
    15.0,
    18.0,
    20.0,
    22.0,
    24.0,
    28.0,
];

fn level_units(print: &Printer) -> Table {
    let unit_column = |unit: Unit| Column { name: unit.symbol().to_owned(), unit: Some(unit) };
    let row = |level: &f64| {
        let volts = level::volts_at_dbu(*level);
        vec![
            print.level(*level, Unit::DecibelU),
            print.level(level::dbv(volts), Unit::DecibelV),
            print.number(volts, Unit::Volt),
            print.number(volts * std::f64::consts::SQRT_2, Unit::VoltPeak),
        ]
    };
    Table {
        columns: vec![
            unit_column(Unit::DecibelU),
            unit_column(Unit::DecibelV),
            print.column("volts", Unit::Volt),
            print.column("sine-peak", Unit::VoltPeak),
        ],
        rows: LEVELS.iter().map(row).collect(),
    }
}

/// The sum of two unrelated signals, whose powers add, and of two that are the
/// same, whose voltages add; re the louder one.
fn sums(print: &Printer) -> Table {
    let row = |apart: &f64| {
        let quieter = level::ratio(-apart);
        vec![
            print.number(*apart, Unit::Decibel),
            print.level(level::decibels_of_power(1.0 + quieter * quieter), Unit::Decibel),
            print.level(level::decibels(1.0 + quieter), Unit::Decibel),
        ]
    };
    Table {
        columns: vec![
            print.column("apart", Unit::Decibel),
            print.column("unrelated", Unit::Decibel),
            print.column("same", Unit::Decibel),
        ],
        rows: [0.0, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 30.0].iter().map(row).collect(),
    }
}

/// Loss of the voltage divider of a source and a load, re the open circuit.
fn losses(print: &Printer) -> Table {
    let row = |times: &f64| {
        vec![print.number(*times, Unit::Ratio), print.level(level::decibels(times / (1.0 + times)), Unit::Decibel)]
    };
    Table {
        columns: vec![print.column("load-over-source", Unit::Ratio), print.column("level", Unit::Decibel)],
        rows: [0.1, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 50.0, 100.0, 1000.0].iter().map(row).collect(),
    }
}

/// Capacitance of a lead, at lengths that are round where the reader works.
fn leads(print: &Printer) -> Table {
    let lengths = match print.settings.length {
        Length::Metre => [1.0, 2.0, 3.0, 4.5, 6.0, 7.5, 10.0, 15.0, 20.0, 30.0],
        Length::Foot => [3.0, 6.0, 10.0, 15.0, 20.0, 25.0, 30.0, 50.0, 75.0, 100.0].map(|feet| feet * METRES_PER_FOOT),
    };
    let name = |name: &str| Column { name: print.word(name), unit: Some(Unit::Farad) };
    let row = |length: &f64| {
        let each = LEAD_C.iter().map(|mark| print.number(length * mark.value, Unit::Farad));
        std::iter::once(print.number(*length, Unit::Metre)).chain(each).collect()
    };
    Table {
        columns: std::iter::once(print.column("length", Unit::Metre))
            .chain(LEAD_C.iter().map(|mark| name(mark.name)))
            .collect(),
        rows: lengths.iter().map(row).collect(),
    }
}

/// The supplies of IEC 61938, and what is left for a device that draws the most
/// that each allows.
fn phantom(print: &Printer) -> Table {
    let row = |(name, supply): (&str, PhantomSupply)| {
        vec![
            Cell::text(name.to_owned()),
            print.number(supply.volts, Unit::Volt),
            print.number(supply.tolerance, Unit::Volt),
            print.number(supply.feed_r, Unit::Ohm),
            print.number(supply.most, Unit::Ampere),
            print.number(supply.volts - supply.most * supply.feed_r / 2.0, Unit::Volt),
        ]
    };
    Table {
        columns: vec![
            print.words_column("supply"),
            print.column("nominal", Unit::Volt),
            print.column("tolerance", Unit::Volt),
            print.column("feed", Unit::Ohm),
            print.column("most", Unit::Ampere),
            print.column("left", Unit::Volt),
        ],
        rows: [("P48", P48), ("P24", P24), ("P12", P12)].into_iter().map(row).collect(),
    }
}

/// Harmonics of the mains: multiples of its frequency, how the A-weighting
/// counts each, and the note of equal temperament that is nearest (A4 is 440 Hz,
/// ISO 16).
fn harmonics(print: &Printer, mains: f64) -> Table {
    let names = print.word("look-up-notes");
    let names: Vec<_> = names.split_whitespace().collect();
    let row = |order: u32| {
        let frequency = f64::from(order) * mains;
        vec![
            print.number(f64::from(order), Unit::One),
            print.number(frequency, Unit::Hertz),
            Cell::text(note(print, frequency, &names)),
            print.number(a_weighting(frequency), Unit::Decibel),
        ]
    };
    Table {
        columns: vec![
            print.column("order", Unit::One),
            print.column("frequency", Unit::Hertz),
            print.words_column("note"),
            print.column("a-weighting", Unit::Decibel),
        ],
        rows: (1..=16).map(row).collect(),
    }
}

/// The nearest note and how many hundredths of a semitone a tone is off it.
fn note(print: &Printer, frequency: f64, names: &[&str]) -> String {
    // Semitones above C0, which is 57 below A4.
    let semitones = 57.0 + 12.0 * (frequency / 440.0).log2();
    let nearest = semitones.round();
    let cents = (100.0 * (semitones - nearest)).round();
    let name = names.get(nearest.rem_euclid(12.0) as usize).copied().unwrap_or_default();
    let octave = (nearest / 12.0).floor();
    let cents = write_number(&format!("{cents:+.0}"), print.settings);
    print.fill(
        "look-up-note",
        &[
            ("name", Arg::Text(name.to_owned())),
            ("octave", Arg::Text(format!("{octave:.0}"))),
            ("cents", Arg::Text(cents)),
        ],
    )
}

/// At the frequencies of IEC 61672-1, which are tenths of a decade and printed
/// as their nominal values.
fn weightings(print: &Printer) -> Table {
    let row = |(tenths, nominal): &(f64, f64)| {
        vec![print.number(*nominal, Unit::Hertz), print.number(a_weighting(10_f64.powf(tenths / 10.0)), Unit::Decibel)]
    };
    Table {
        columns: vec![print.column("frequency", Unit::Hertz), print.column("a-weighting", Unit::Decibel)],
        rows: [
            (13.0, 20.0),
            (15.0, 31.5),
            (17.0, 50.0),
            (18.0, 63.0),
            (20.0, 100.0),
            (21.0, 125.0),
            (23.0, 200.0),
            (24.0, 250.0),
            (27.0, 500.0),
            (30.0, 1e3),
            (33.0, 2e3),
            (36.0, 4e3),
            (39.0, 8e3),
            (42.0, 16e3),
            (43.0, 20e3),
        ]
        .iter()
        .map(row)
        .collect(),
    }
}

/// E24, and which of its values are in the coarser series too: each of those
/// has every other value of the next.
fn e24(print: &Printer) -> Table {
    let series = |id: &str| Column { name: id.to_owned(), unit: Some(Unit::One) };
    let row = |(i, value): (usize, &f64)| {
        let within = |step| if i % step == 0 { preferred(print, *value, 1) } else { Cell::text(String::new()) };
        vec![within(1), within(2), within(4), within(8)]
    };
    Table {
        columns: ["E24", "E12", "E6", "E3"].map(series).into(),
        rows: Series::E24.decade().iter().enumerate().map(row).collect(),
    }
}

/// A preferred value with all of its digits.
fn preferred(print: &Printer, value: f64, decimals: usize) -> Cell {
    Cell { value: Some(value), ..Cell::text(write_number(&format!("{value:.decimals$}"), print.settings)) }
}

/// E96, of which every other value is one of E48.
fn e96(print: &Printer) -> Table {
    let column = |id| print.column(id, Unit::One);
    Table {
        columns: vec![column("e48-e96"), column("e96-only"), column("e48-e96"), column("e96-only")],
        rows: Series::E96
            .decade()
            .chunks(4)
            .map(|row| row.iter().map(|value| preferred(print, *value, 2)).collect())
            .collect(),
    }
}
