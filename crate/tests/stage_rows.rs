//! A row of the input list is the whole line of the same values, whichever gear they
//! come from.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::ask;
use proptest::prelude::*;
use proptest::sample::select;
use serde_json::{Map, Value, json};
use stageohm::calculator::Calculator;
use stageohm::field::Values;
use stageohm::report::Depth;
use stageohm::settings::Settings;
use stageohm::stage::{
    Circuit, Equipment, EquipmentPower, Gear, GearKind, InputLine, PhantomChoice, Raw, Row, Rows, Show,
};
use stageohm::stage::{cures, filled, read_show, solve, solve_row};

/// What a row says of every line, besides what its gear says.
const SAID: [(&str, &str); 5] =
    [("lead_length", "5 m"), ("run_length", "30 m"), ("box", "active"), ("split", "none"), ("phantom", "p48")];

fn example() -> Show {
    let file: Raw = serde_json::from_str(include_str!("../examples/show.json")).unwrap();
    let (show, flaws) = read_show(&file).unwrap();
    assert_eq!(flaws, []);
    show
}

/// What integration of noise may differ where the whole line is pictured too, relative.
const PICTURED: f64 = 1e-7;

/// Compares every figure with the whole line of these values: its numbers, and the answer
/// with plots that a reader gets.
fn compare(row: &Row, values: &Map<String, Value>) {
    let answer = ask(json!({ "calculator": "whole-line", "values": values, "working": false }));
    let Some(report) = answer.report else {
        assert!(!row.problems.is_empty(), "{}: {:?}", row.id, answer.fields);
        return;
    };
    let calculator = Calculator::find("whole-line").unwrap();
    let entries = serde_json::from_value(Value::Object(values.clone())).unwrap();
    let (values, _) = Values::read(calculator, &entries, &Settings::default());
    let solution = calculator.solution(&values, Depth::Readings).unwrap();
    assert_eq!(row.problems, []);
    assert!(row.figures.len() >= 4, "{}: {:?}", row.id, row.figures);
    for figure in &row.figures {
        let near = |value: f64, limit: f64| {
            let off = (figure.value - value).abs();
            assert!(
                off <= limit * value.abs().max(1.0),
                "{} {}: {} is not {value}",
                row.id,
                figure.reading,
                figure.value
            );
        };
        near(solution.reading(figure.reading).unwrap().value.unwrap(), 1e-9);
        near(report.reading(figure.reading).unwrap().value.unwrap(), PICTURED);
    }
    assert_eq!(row.stop, report.cautions_first);
}

fn texts(values: &[(&str, &str)]) -> Map<String, Value> {
    values.iter().map(|(id, text)| ((*id).to_owned(), Value::from(*text))).collect()
}

fn line_of(values: &[(&str, &str)]) -> InputLine {
    let mut line = InputLine { id: "line".to_owned(), ..InputLine::default() };
    for (id, text) in SAID.iter().chain(values) {
        line.values.insert((*id).to_owned(), (*text).to_owned());
    }
    line
}

#[test]
fn a_row_of_every_preset_is_the_whole_line() {
    let mut count = 0;
    for preset in Calculator::find("whole-line").unwrap().presets {
        for values in [&preset.values].into_iter().chain(preset.held) {
            compare(&solve_row(&Show::default(), &line_of(values)), &texts(values));
            count += 1;
        }
    }
    assert!(count > 10, "{count}");
}

#[test]
fn every_row_of_the_example_is_the_whole_line_of_its_values() {
    let show = example();
    for (line, row) in show.lines.iter().zip(Rows::default().solve(&show)) {
        let values = filled(&show, line);
        let values = values.iter().map(|(id, entry)| {
            let value = match entry {
                stageohm::ask::Entry::Text(text) => Value::from(text.as_str()),
                stageohm::ask::Entry::Number(value) => Value::from(*value),
                stageohm::ask::Entry::Other => panic!("{id}"),
            };
            (id.to_owned(), value)
        });
        compare(&row, &values.collect());
        assert_eq!(row.id, line.id);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// The same values from gear of each kind and from the row itself.
    #[test]
    fn it_does_not_matter_which_gear_says_it(
        source in select(vec!["pickup", "piezo", "output", "balanced", "microphone"]),
        emf in 0.01..2.0_f64,
        lead in 0.0..20.0_f64,
        run in 0.0..100.0_f64,
        run_c in 50e-12..150e-12_f64,
        boxed in select(vec!["none", "active", "passive"]),
        load in 600.0..1e6_f64,
        phantom in select(vec!["off", "p48", "p24"]),
    ) {
        let texts = |values: &[(&str, String)]| {
            let mut texts = stageohm::named::Named::default();
            for (id, text) in values {
                texts.insert((*id).to_owned(), text.clone());
            }
            texts
        };
        let gear = |id: &str, kind, values: &[(&str, String)]| {
            Gear { id: id.to_owned(), kind, values: texts(values), ..Gear::default() }
        };
        let written = |value: f64, unit: &str| format!("{value:e} {unit}");
        let show = Show {
            gear: vec![
                gear("s", GearKind::Source, &[("source", source.to_owned()), ("emf", written(emf, "V"))]),
                gear("l", GearKind::Lead, &[("lead_length", written(lead, "m"))]),
                gear("r", GearKind::Lead, &[("lead_length", written(run, "m")), ("lead_c", written(run_c, "F"))]),
                gear("d", GearKind::Di, &[("box", boxed.to_owned())]),
                gear("i", GearKind::Input, &[("console_r", written(load, ""))]),
            ],
            ..Show::default()
        };
        let [s, l, r, d, i] = ["s", "l", "r", "d", "i"].map(str::to_owned);
        let phantom_choice = match phantom {
            "off" => PhantomChoice::Off,
            "p48" => PhantomChoice::P48,
            _ => PhantomChoice::P24,
        };
        let line = InputLine { source: s, lead: l, run: r, di: d, input: i, phantom: phantom_choice, ..InputLine::default() };
        let values = json!({
            "source": source, "emf": emf, "lead_length": lead, "run_length": run, "run_c": run_c, "box": boxed,
            "console_r": load, "phantom": phantom,
        });
        compare(&solve_row(&show, &line), values.as_object().unwrap());
    }
}

fn circuit(id: &str, difference: &str) -> Circuit {
    Circuit { id: id.to_owned(), difference: difference.to_owned(), ..Circuit::default() }
}

fn equipment(id: &str, power: EquipmentPower, circuit: &str) -> Equipment {
    Equipment { id: id.to_owned(), power, circuit: circuit.to_owned(), ..Equipment::default() }
}

/// 30 mV and 60 mV off a third earth may be 90 mV apart; on one circuit nothing is. The
/// earth of the stage box goes before that of the console, the circuit of the equipment
/// before that of the line.
#[test]
fn earths_are_those_of_source_and_stage_box() {
    let show = Show {
        power: vec![circuit("a", "30 mV"), circuit("b", "60 mV"), circuit("c", "")],
        equipment: vec![
            equipment("keys", EquipmentPower::Earthed, "a"),
            equipment("stage-box", EquipmentPower::Earthed, "b"),
            equipment("console", EquipmentPower::Earthed, "c"),
        ],
        ..Show::default()
    };
    let to = |stage_box: &str, equipment: &str, circuit: &str| {
        let line = InputLine {
            equipment: equipment.to_owned(),
            circuit: circuit.to_owned(),
            stage_box: stage_box.to_owned(),
            destination: "console".to_owned(),
            ..InputLine::default()
        };
        match filled(&show, &line).get("difference") {
            Some(stageohm::ask::Entry::Number(volts)) => *volts,
            other => panic!("{other:?}"),
        }
    };
    for (stage_box, equipment, circuit, volts) in [
        ("stage-box", "keys", "", 0.09),
        ("", "keys", "", 0.03),
        ("stage-box", "", "b", 0.0),
        ("stage-box", "", "a", 0.09),
        ("stage-box", "keys", "b", 0.09),
    ] {
        assert!((to(stage_box, equipment, circuit) - volts).abs() < 1e-12, "{stage_box} {equipment} {circuit}");
    }
}

#[test]
fn an_edit_changes_its_row_alone() {
    let mut show = example();
    let mut rows = Rows::default();
    let before = rows.solve(&show);
    show.lines[0].values.insert("run_length", "80 m".to_owned());
    let after = rows.solve(&show);
    assert_ne!(before[0], after[0]);
    assert_eq!(before[1..], after[1..]);
    assert_eq!(after, Rows::default().solve(&show));
}

/// The keyboard on a long unbalanced line gets a box, of the drawer first.
#[test]
fn cures_say_what_they_mend() {
    let show = example();
    let keys = show.lines.iter().find(|line| line.name == "Keys L").unwrap();
    let found = cures(&show, &keys.id, &show.settings());
    assert!(found.iter().any(|cure| cure.fixes.contains(&"unbalanced")), "{found:?}");
    let first_to_get = found.iter().position(|cure| !cure.has).unwrap_or(found.len());
    assert!(found[first_to_get..].iter().all(|cure| !cure.has), "{found:?}");
    assert!(!found[0].gear.is_empty() && found[0].text.contains("from your gear"), "{found:?}");
    assert_eq!(cures(&show, &show.lines[0].id, &show.settings()), []);
}

/// Where an output is only too loud, a pad or turning it down comes before any box. A box of
/// the drawer is named once, and none that has still to be got beside one that does as much.
#[test]
fn a_loud_output_gets_a_pad_before_a_box() {
    let mut show = example();
    let of = |show: &Show, id: &str| {
        let found = cures(show, id, &show.settings());
        assert!(found.iter().all(|cure| cure.fixes == ["margin"]), "{found:?}");
        let box_at = found.iter().position(|cure| cure.text.contains(" DI")).unwrap();
        let milder = |text: &str| text.to_lowercase().contains("pad") || text.starts_with("Turn the source down");
        assert!(box_at >= 2 && found[..box_at].iter().all(|cure| milder(&cure.text)), "{found:?}");
        found[box_at..].to_vec()
    };
    for id in ["ch-10", "ch-23", "ch-25"] {
        let boxes = of(&show, id);
        let texts: Vec<_> = boxes.iter().map(|cure| cure.text.as_str()).collect();
        assert_eq!(texts, ["Use Passive DI from your gear"]);
    }
    // The drawer has none left.
    show.gear.iter_mut().find(|gear| gear.id == "passive-di").unwrap().count = Some(0);
    let boxes = of(&show, "ch-25");
    let told: Vec<_> = boxes.iter().map(|cure| (cure.text.as_str(), cure.has)).collect();
    assert_eq!(told, [("Use a passive DI", false)]);
}

/// Against the hum of an earthed synthesizer a passive DI with its lift on comes before an
/// active one, and each box is offered once.
#[test]
fn an_earthed_output_that_hums_gets_a_lifted_transformer() {
    let show = example();
    let found = cures(&show, "ch-19", &show.settings());
    assert_eq!(found[0].text, "Use Passive DI from your gear, with its ground lift on");
    assert!(found[0].left.is_empty() && found[1..].iter().any(|cure| cure.gear == "active-di"), "{found:?}");
    let boxes: Vec<_> = found.iter().filter(|cure| cure.place == "di").map(|cure| cure.gear.as_str()).collect();
    let once: std::collections::HashSet<_> = boxes.iter().collect();
    assert_eq!(once.len(), boxes.len(), "{boxes:?}");
    // Of two that are told apart by their lift, the one that does more is offered: a lift alone
    // mends the hum of a laptop with a usual box.
    let mut without = show.clone();
    without.gear.iter_mut().find(|gear| gear.id == "passive-di").unwrap().count = Some(0);
    let found = cures(&without, "ch-21", &show.settings());
    let usual: Vec<_> = found.iter().filter(|cure| cure.text.starts_with("Use a passive DI")).collect();
    assert_eq!(usual.len(), 1, "{found:?}");
    assert!(usual[0].text.contains("lift") && usual[0].fixes.contains(&"signal_to_hum") && !usual[0].has);
}

/// 3 V between the earths of a keyboard and of the console are a fault, and a box in front of
/// it is no cure; at 1 V it is (common practice, no source).
#[test]
fn a_fault_of_the_earths_is_not_cured() {
    for (volts, is_cured) in [("3 V", false), ("1 V", true)] {
        let mut show = Show {
            power: vec![circuit("stage", volts), circuit("front", "")],
            equipment: vec![
                equipment("keys", EquipmentPower::Earthed, "stage"),
                equipment("console", EquipmentPower::Earthed, "front"),
            ],
            ..Show::default()
        };
        let mut line = line_of(&[("source", "output"), ("box", "none"), ("run", "unbalanced"), ("phantom", "off")]);
        (line.equipment, line.destination) = ("keys".to_owned(), "console".to_owned());
        show.lines.push(line);
        let row = solve_row(&show, &show.lines[0]);
        assert!(row.missed > 0 && row.stop != is_cured, "{volts}: {row:?}");
        let found = cures(&show, "line", &show.settings());
        assert_eq!(!found.is_empty(), is_cured, "{volts}: {found:?}");
    }
}

/// A DI with another input resistance than that on the line is another DI.
#[test]
fn a_di_with_another_input_is_not_in_the_drawer() {
    let show = example();
    let found = cures(&show, "ch-15", &show.settings());
    let other = found.iter().find(|cure| cure.text.contains("DI with an input of")).unwrap();
    assert!(!other.has && other.gear.is_empty(), "{found:?}");
}

/// A cure that is done, solved with the whole stage anew, leaves what it says.
#[test]
fn what_a_cure_leaves_is_left() {
    let show = example();
    let mut rows = Rows::default();
    let before = solve(&show, &mut rows).rows;
    let mut done = 0;
    for row in before.iter().filter(|row| row.missed > 0).take(3) {
        for cure in cures(&show, &row.id, &show.settings()) {
            let mut changed = show.clone();
            let line = changed.lines.iter_mut().find(|line| line.id == row.id).unwrap();
            match cure.place {
                "di" => line.di.clone_from(&cure.gear),
                "pad" => line.pad.clone_from(&cure.gear),
                _ => {}
            }
            if cure.gear.is_empty() {
                for (id, text) in cure.values.iter() {
                    line.values.insert(id.to_owned(), text.clone());
                }
            } else {
                line.values = cure.values.clone();
            }
            let after = solve(&changed, &mut rows).rows.into_iter().find(|after| after.id == row.id).unwrap();
            let misses = |row: &Row| {
                let missed = row.figures.iter().filter(|figure| figure.margin.is_some_and(|margin| margin < 0.0));
                missed.map(|figure| (figure.reading, figure.value)).collect::<Vec<_>>()
            };
            let left: Vec<_> = cure.left.iter().map(|figure| (figure.reading, figure.value)).collect();
            assert_eq!(misses(&after), left, "{}", cure.text);
            let was = misses(row);
            assert!(cure.fixes.iter().all(|fixed| was.iter().any(|(reading, _)| reading == fixed)));
            done += 1;
        }
    }
    assert!(done > 3, "{done}");
}

/// A piezo wants a high input resistance: an active DI comes before any passive one.
#[test]
fn a_piezo_gets_an_active_box() {
    let mut show = example();
    let of = |show: &Show| {
        let found = cures(show, "piezo", &show.settings());
        let is_passive = |text: &str| text.contains("passive") || text.contains("Transformer");
        let active = found.iter().position(|cure| !is_passive(&cure.text) && cure.text.contains("DI")).unwrap();
        assert!(found[..active].iter().all(|cure| !is_passive(&cure.text)), "{found:?}");
        found
    };
    let values =
        json!({ "source": "piezo", "box": "none", "run": "balanced", "lead_length": "3 m", "run_length": "20 m" });
    let line = json!({ "id": "piezo", "destination": "stage-box", "values": values });
    show.lines = vec![serde_json::from_value(line).unwrap()];
    let gear = json!({ "id": "t", "name": "Transformer DI", "kind": "di", "values": { "box": "passive" }, "count": 4 });
    show.gear = vec![serde_json::from_value(gear).unwrap()];
    // The drawer has none but a passive one.
    let found = of(&show);
    assert!(found.iter().any(|cure| !cure.has), "{found:?}");
    let gear = json!({ "id": "a", "name": "Active DI", "kind": "di", "values": { "box": "active" }, "count": 1 });
    show.gear.push(serde_json::from_value(gear).unwrap());
    let found = of(&show);
    assert!(found[0].has && found[0].gear == "a", "{found:?}");
}
