//! The file of a show: what is read of it, whatever is in it, and its schema.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::damage;
use common::schema::against;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Value, json};
use stageohm::settings::Settings;
use stageohm::stage::{
    Flaw, NOTE_LONGEST, ROWS_MOST, Raw, Rows, SCHEMA, Show, check, propose, read_file, read_show, totals,
};

const EXAMPLE: &str = include_str!("../examples/show.json");

fn example() -> Value {
    serde_json::from_str(EXAMPLE).unwrap()
}

fn read(file: &Value) -> Result<(Show, Vec<Flaw>), Flaw> {
    read_show(&serde_json::from_value(file.clone()).unwrap())
}

fn told(flaws: &[Flaw]) -> Vec<String> {
    flaws.iter().map(|flaw| flaw.text(&Settings::default())).collect()
}

/// The schema refuses what it should, else nothing above says anything.
#[test]
fn the_schema_refuses() {
    for (at, value) in [
        ("/version", json!(2)),
        ("/lines/3/phantom", json!("yes")),
        ("/lines/3/id", json!("")),
        ("/lines/3/values", json!({ "E": "1" })),
        ("/gear/0/count", json!(1.5)),
        ("/gear/0/values", json!({ "emf": 1 })),
        ("/power/0", json!({ "name": "no identifier" })),
        ("/equipment/0", json!({ "id": "a", "colour": "red" })),
        ("/name", json!("x".repeat(201))),
    ] {
        let mut file = example();
        *file.pointer_mut(at).unwrap() = value;
        assert_eq!(invalid(&file).len(), 1, "{at}: {:?}", invalid(&file));
    }
}

fn invalid(file: &Value) -> Vec<String> {
    against(SCHEMA, file)
}

#[test]
fn the_example_is_valid_and_reads_back_as_it_is_written() {
    assert_eq!(invalid(&example()), [] as [String; 0]);
    let (show, flaws) = read(&example()).unwrap();
    assert_eq!(told(&flaws), [] as [String; 0]);
    assert_eq!(show.lines.len(), 32);
    let written = serde_json::to_value(&show).unwrap();
    assert_eq!(invalid(&written), [] as [String; 0]);
    assert_eq!(read(&written).unwrap().0, show);
}

/// Every property of the schema is read, and nothing is written that it does not have.
#[test]
fn the_schema_and_the_file_have_the_same_fields() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    for (list, definition) in [("gear", "gear"), ("power", "circuit"), ("equipment", "equipment"), ("lines", "line")] {
        let properties = schema["$defs"][definition]["properties"].as_object().unwrap();
        let mut row = serde_json::Map::new();
        for (name, property) in properties {
            let value = match property.get("enum") {
                Some(answers) => answers[0].clone(),
                None if name == "values" => json!({ "treble": "4 kHz" }),
                None if name == "count" => json!(3),
                None => json!(name),
            };
            row.insert(name.clone(), value);
        }
        let file = json!({ "version": 1, list: [row] });
        assert_eq!(invalid(&file), [] as [String; 0]);
        let (show, flaws) = read(&file).unwrap();
        assert!(!flaws.iter().any(|flaw| ["kind", "unknown", "choice"].contains(&flaw.key)), "{:?}", told(&flaws));
        assert_eq!(serde_json::to_value(&show).unwrap()[list][0], Value::Object(row));
        for answers in properties.values().filter_map(|property| property.get("enum")?.as_array()) {
            assert!(answers.len() > 1, "{list}: {answers:?}");
        }
    }
    let lengths = [("note", NOTE_LONGEST), ("name", stageohm::quantity::LONGEST)];
    for (field, most) in lengths {
        assert_eq!(schema["$defs"]["line"]["properties"][field]["maxLength"], json!(most));
    }
    assert_eq!(schema["properties"]["lines"]["maxItems"], json!(ROWS_MOST));
}

#[test]
fn what_is_no_show_or_a_newer_one_is_refused() {
    for (file, key) in [
        (json!([]), "no-show"),
        (json!({}), "no-version"),
        (json!({ "version": "1" }), "no-version"),
        (json!({ "version": 0 }), "no-version"),
        (json!({ "version": 2, "lines": [] }), "newer"),
    ] {
        let flaw = read(&file).unwrap_err();
        assert_eq!(flaw.key, key, "{file}");
        assert!(!flaw.text(&Settings::default()).contains("stage-"), "{flaw:?}");
    }
}

/// Each kind of damage is told by list, row and field, and costs nothing else.
#[test]
fn damage_is_told_by_row_and_the_rest_is_kept() {
    let long = "x".repeat(300);
    for (list, row, field, value, key) in [
        ("gear", 2, "kind", json!("trumpet"), "choice"),
        ("gear", 2, "count", json!(-1), "kind"),
        ("gear", 2, "count", json!(1.5), "kind"),
        ("gear", 2, "id", json!("vocal-mic"), "same-id"),
        ("gear", 2, "id", json!(""), "no-id"),
        ("gear", 2, "name", json!("Vocal microphone, dynamic"), "same-name"),
        ("gear", 2, "values", json!({ "colour": "red" }), "no-field"),
        ("gear", 2, "values", json!([]), "kind"),
        ("gear", 2, "values", json!({ "emf": 3 }), "kind"),
        ("gear", 2, "values", json!({ "emf": long }), "long"),
        ("power", 2, "difference", json!("plenty"), "quantity"),
        ("equipment", 3, "circuit", json!("nowhere"), "no-circuit"),
        ("equipment", 3, "phantom_most", json!("0.2 ohm"), "quantity"),
        ("equipment", 3, "name", json!(long), "cut"),
        ("lines", 5, "colour", json!("red"), "unknown"),
        ("lines", 5, "source", json!("trumpet"), "no-gear"),
        ("lines", 5, "source", json!("active-di"), "other-kind"),
        ("lines", 5, "source", json!({}), "kind"),
        ("lines", 5, "destination", json!("trumpet"), "no-equipment"),
        ("lines", 5, "second", json!("console"), "itself"),
        ("lines", 5, "pair", json!("ch-5"), "itself"),
        ("lines", 5, "pair", json!("ch-99"), "no-line"),
        ("lines", 5, "channel", json!("4"), "same-channel"),
        ("lines", 5, "phantom", json!("yes"), "choice"),
        ("lines", 5, "circuit", json!("nowhere"), "no-circuit"),
        ("lines", 10, "circuit", json!("stage-left"), "other-circuit-counts"),
        ("lines", 10, "circuit", json!("nowhere"), "other-circuit-counts"),
        ("lines", 13, "circuit", json!("stage-left"), "no-circuit-counts"),
    ] {
        let mut file = example();
        file[list][row - 1][field] = value.clone();
        let (show, flaws) = read(&file).unwrap();
        let found =
            flaws.iter().find(|flaw| flaw.key == key).unwrap_or_else(|| panic!("{list} {field} {value}: {flaws:?}"));
        assert_eq!((found.list, found.row), (list, Some(row)), "{value}");
        let text = found.text(&Settings::default());
        assert!(text.contains(&format!("row {row}")) && !text.contains("stage-") && !text.contains('{'), "{text}");
        assert_eq!((show.lines.len(), show.gear.len()), (32, 21));
        assert_eq!(show.lines[5], read(&example()).unwrap().0.lines[5]);
    }
}

/// An older file may say a circuit on the line, too; where it is the same, there is nothing to say.
#[test]
fn a_circuit_beside_that_of_the_equipment_is_told_in_words() {
    let mut file = example();
    file["lines"][9]["circuit"] = "stage-right".into();
    assert_eq!(told(&read(&file).unwrap().1), [] as [String; 0]);
    file["lines"][9]["circuit"] = "stage-left".into();
    assert_eq!(
        told(&read(&file).unwrap().1),
        ["Input list, row 10, circuit: Bass amplifier is on Stage right. The circuit set on this line is ignored"],
    );
}

/// What all lines are held to is checked as their own values are, whether the file is read
/// or a show is open.
#[test]
fn limits_are_checked() {
    let settings = Settings::default();
    for (field, text, problem) in [
        ("hum_least", "sixty", true),
        ("hum_least", "60 V", true),
        ("hum_least", "60 dB", false),
        ("stray_density", "plenty", true),
        ("stray_density", "-1 T", true),
        ("stray_density", "20 nT", false),
        ("mains", "55", true),
        ("mains", "60", false),
        ("harmonic_3", "", false),
    ] {
        let mut file = example();
        file["limits"][field] = text.into();
        let raw: Raw = serde_json::from_value(file.clone()).unwrap();
        for flaws in [read_file(&raw, &settings).flaws, check(&read(&file).unwrap().0, &settings)] {
            assert_eq!(flaws.len(), usize::from(problem), "{field} {text}: {flaws:?}");
            for flaw in flaws {
                assert_eq!((flaw.list, flaw.row, flaw.field.as_deref()), ("limits", None, Some(field)));
                assert!(flaw.text.starts_with(&format!("Limits, {field}: ")) && !flaw.text.contains('{'), "{flaw:?}");
            }
        }
    }
}

#[test]
fn rows_that_are_none_and_rows_too_many_are_left_out() {
    let mut file = example();
    file["lines"][3] = json!(7);
    file["power"] = json!("none");
    let (show, flaws) = read(&file).unwrap();
    assert_eq!((show.lines.len(), show.power.len()), (31, 0));
    assert!(flaws.iter().any(|flaw| (flaw.key, flaw.list, flaw.row) == ("no-row", "lines", Some(4))), "{flaws:?}");
    assert!(flaws.iter().any(|flaw| (flaw.key, flaw.list, flaw.row) == ("no-list", "power", None)), "{flaws:?}");
    let many: Vec<_> = (0..=ROWS_MOST).map(|i| json!({ "id": i.to_string() })).collect();
    let (show, flaws) = read(&json!({ "version": 1, "lines": many })).unwrap();
    assert_eq!(show.lines.len(), ROWS_MOST);
    assert_eq!(flaws[0].key, "many");
}

fn anything() -> impl Strategy<Value = Value> {
    damage::anything(
        &["console", "ch-1", "", "1e999 V", "passive", "p48", "transformer"],
        &["id", "values", "lines", "kind", "count"],
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn nothing_at_all_panics(file in anything()) {
        let mut file = file;
        if let Value::Object(parts) = &mut file {
            parts.insert("version".to_owned(), json!(1));
        }
        if let Ok((show, flaws)) = read(&file) {
            told(&flaws);
            prop_assert_eq!(invalid(&serde_json::to_value(&show).unwrap()), [] as [String; 0]);
        }
    }

    /// A file damaged anywhere: what the schema refuses is told; what is kept is valid,
    /// reads back as it is, and is solved.
    #[test]
    fn a_damaged_file_is_told_and_what_is_kept_is_whole(changes in proptest::collection::vec((any::<Index>(), anything()), 1..4)) {
        let mut file = example();
        file["lines"].as_array_mut().unwrap().truncate(6);
        for (place, value) in changes {
            // The version is another matter.
            damage::put(&mut file, &place, value, &["/version"]);
        }
        let (show, flaws) = read(&file).unwrap();
        if !invalid(&file).is_empty() {
            prop_assert!(!flaws.is_empty(), "{:?}", invalid(&file));
        }
        let written = serde_json::to_value(&show).unwrap();
        prop_assert_eq!(invalid(&written), [] as [String; 0]);
        prop_assert_eq!(&read(&written).unwrap().0, &show);
        prop_assert_eq!(Rows::default().solve(&show).len(), show.lines.len());
        prop_assert_eq!(propose(&show).lines.len(), show.lines.len());
        totals(&show);
    }
}

/// What JSON cannot say may still come from a program.
#[test]
fn numbers_that_are_none_are_no_version() {
    let file = Raw::Map(vec![("version".to_owned(), Raw::Number(f64::NAN))]);
    assert_eq!(read_show(&file).unwrap_err().key, "no-version");
}
