//! The ground map of a show against its rows, against circuits solved by hand, and
//! against the show solved anew.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::{Value, json};
use stageohm::settings::Settings;
use stageohm::stage::map::{GroundMap, InputAt, MapInput, WireKind, ground_map, map_backwards, map_working};
use stageohm::stage::{InputLine, Raw, Rows, Show, read_show, solve, solve_row};
use stageohm::working::Step;

const SETS: usize = 300;

fn read(file: Value) -> Show {
    let file: Raw = serde_json::from_value(file).unwrap();
    let (show, flaws) = read_show(&file).unwrap();
    assert_eq!(flaws, []);
    show
}

fn example() -> Show {
    read(serde_json::from_str(include_str!("../examples/show.json")).unwrap())
}

fn map(show: &Show) -> GroundMap {
    let map = ground_map(show, SETS, &Settings::default());
    assert_eq!((&map.problem, map.left_out.len()), (&None, 0), "{:?}", map.left_out);
    map
}

fn input<'a>(map: &'a GroundMap, line: &str, at: InputAt) -> &'a MapInput {
    map.inputs.iter().find(|input| input.line == line && input.at == at).unwrap()
}

#[track_caller]
fn near(got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= relative * expected.abs(), "{got} is not {expected}");
}

/// A console on one circuit, and what may stand on two others.
fn stage(lines: &Value, links: &Value) -> Value {
    let equipment = |id: &str, power: &str, circuit: &str| json!({ "id": id, "power": power, "circuit": circuit });
    json!({
        "version": 1,
        "power": [
            { "id": "foh" },
            { "id": "left", "difference": "60 mV", "earth_r": "0.3 ohm" },
            { "id": "right", "difference": "25 mV" },
        ],
        "equipment": [
            equipment("console", "earthed", "foh"),
            equipment("second", "earthed", "right"),
            equipment("keys", "earthed", "left"),
            { "id": "laptop", "power": "insulated", "circuit": "foh", "leakage": "0.2 mA" },
            equipment("amp", "earthed", "right"),
            equipment("amp-left", "earthed", "left"),
            equipment("recorder", "battery", ""),
            equipment("amp-foh", "earthed", "foh"),
            { "id": "faulty", "power": "earthed", "circuit": "foh", "pin_1": "0.1 ohm" },
        ],
        "gear": [
            { "id": "di", "name": "DI", "kind": "di", "values": {} },
        ],
        "lines": lines,
        "links": links,
    })
}

/// A line on its way to the console, with what it says besides.
fn line(id: &str, beside: &Value, values: &Value) -> Value {
    let mut line = json!({ "id": id, "name": id, "destination": "console", "values": values });
    for (field, value) in beside.as_object().unwrap() {
        line[field] = value.clone();
    }
    line
}

fn values(source: &str, run: &str, di: &str) -> Value {
    json!({ "source": source, "run": run, "box": di, "lead_length": "3 m", "run_length": "12 m", "phantom": "off" })
}

fn with(mut values: Value, more: &[(&str, &str)]) -> Value {
    for (field, text) in more {
        values[field] = (*text).into();
    }
    values
}

/// Every way in which a line joins earths.
fn kinds() -> Vec<Value> {
    let keys = json!({ "equipment": "keys" });
    let laptop = json!({ "equipment": "laptop" });
    let keys_di = json!({ "equipment": "keys", "di": "di" });
    let battery = [("powered", "battery")];
    let lifted = [("ground", "lifted"), ("powered", "battery")];
    let split = |equipment: &str| json!({ "equipment": equipment, "second": "second", "split": "direct" });
    let thru = |equipment: &str, amp: &str| json!({ "equipment": equipment, "di": "di", "thru": amp });
    vec![
        line("unbalanced, earthed", &keys, &values("output", "unbalanced", "none")),
        line("unbalanced, leaking", &laptop, &values("output", "unbalanced", "none")),
        line("unbalanced into balanced", &keys, &values("output", "balanced", "none")),
        line("unbalanced into balanced, leaking", &laptop, &values("output", "balanced", "none")),
        line("balanced", &keys, &values("balanced", "balanced", "none")),
        line("balanced, leaking", &laptop, &values("balanced", "balanced", "none")),
        line("balanced into unbalanced", &keys, &values("balanced", "unbalanced", "none")),
        line("passive, joined", &keys_di, &values("output", "balanced", "passive")),
        line("passive, lifted", &keys_di, &with(values("output", "balanced", "passive"), &lifted)),
        line("passive, lifted, leaking", &laptop, &with(values("output", "balanced", "passive"), &lifted)),
        line("passive, lifted, unbalanced", &keys_di, &with(values("output", "unbalanced", "passive"), &lifted)),
        line("active, joined", &keys_di, &with(values("output", "balanced", "active"), &battery)),
        line("active, lifted", &keys_di, &with(values("output", "balanced", "active"), &lifted)),
        line("on a circuit", &json!({ "circuit": "right" }), &values("output", "unbalanced", "none")),
        line("a microphone, split", &split(""), &values("microphone", "balanced", "none")),
        line("a pickup with a thru", &thru("", "amp"), &values("pickup", "balanced", "passive")),
        line("a pickup alone", &json!({ "di": "di" }), &values("pickup", "balanced", "passive")),
        line("by radio", &json!({ "equipment": "keys", "carried": "radio" }), &values("output", "unbalanced", "none")),
        line(
            "a fault of pin 1",
            &json!({ "equipment": "keys", "destination": "faulty" }),
            &values("balanced", "balanced", "none"),
        ),
        line("a thru on its own circuit", &thru("keys", "amp"), &values("output", "balanced", "passive")),
        line("a thru on the same", &thru("keys", "amp-left"), &values("output", "balanced", "passive")),
        line("a thru on the console's", &thru("keys", "amp-foh"), &values("output", "balanced", "passive")),
        line("balanced, split", &split("keys"), &values("balanced", "balanced", "none")),
    ]
}

/// The row solves earths that meet at one place by formulas (`EarthStar`), the map all
/// nodes at once by a matrix.
#[test]
fn a_map_of_one_line_says_what_its_row_says() {
    let mut hums = 0;
    for one in kinds() {
        let show = read(stage(&json!([one]), &json!([])));
        let (map, row) = (map(&show), solve_row(&show, &show.lines[0]));
        assert_eq!(row.problems, []);
        for (reading, at) in [("signal_to_hum", InputAt::Console), ("amplifier_hum", InputAt::Amplifier)] {
            let of_row = row.figures.iter().find(|figure| figure.reading == reading).map(|figure| figure.value);
            let of_map = map.inputs.iter().find(|input| input.at == at).and_then(|input| input.distance);
            match (of_row, of_map) {
                (Some(of_row), Some(of_map)) => {
                    // 1e-6 of the voltage.
                    assert!((of_row - of_map).abs() < 8.7e-6, "{one} {reading}: {of_map} is not {of_row}");
                    hums += 1;
                }
                (None, None) => {}
                _ => panic!("{one} {reading}: {of_row:?} {of_map:?}"),
            }
        }
    }
    assert!(hums > 20, "{hums}");
}

/// All lines at once: each wire is told once, and what is opened is never an earth or metal.
#[test]
fn no_earth_and_no_metalwork_is_ever_isolated() {
    let links = json!([
        { "id": "rack", "kind": "metalwork", "from": "amp", "to": "second" },
        { "id": "video", "kind": "video", "from": "laptop", "to": "amp" },
        { "id": "fibre", "kind": "network", "from": "console", "to": "second", "ends": "optical" },
    ]);
    for show in [read(stage(&kinds().into(), &links)), example()] {
        let map = map(&show);
        let sides = [&map.every_loop, &map.every_limit];
        assert!(sides.iter().all(|side| !side.isolate.is_empty()));
        for isolate in sides.iter().flat_map(|side| &side.isolate) {
            let wire = &map.wires[isolate.wire];
            assert!(!matches!(wire.kind, WireKind::Earth | WireKind::Metalwork) && wire.cost.is_some(), "{wire:?}");
            assert!(!isolate.what.contains("stage-map"), "{}", isolate.what);
        }
        for text in sides.iter().flat_map(|side| &side.beyond).chain(&map.stops) {
            assert!(!text.contains("stage-map") && !text.contains("{ $"), "{text}");
        }
        assert!(map.loops.len() >= map.loop_count.min(1) && map.loops.iter().all(|around| !around.wires.is_empty()));
    }
}

/// Nothing drives: nothing hums but what the leads take up from the mains around.
#[test]
fn nothing_hums_where_nothing_drives() {
    let mut file = stage(&kinds().into(), &json!([]));
    for circuit in file["power"].as_array_mut().unwrap() {
        circuit["difference"] = "".into();
    }
    file["equipment"][3]["power"] = "battery".into();
    file["limits"] = json!({ "stray_density": "0 T", "stray_c": "0 F" });
    let map = map(&read(file));
    assert!(map.inputs.len() > 20 && map.loop_count > 10);
    assert!(map.inputs.iter().all(|input| input.volts == 0.0 && input.distance.is_none() && !input.over));
}

/// Lifts the boxes that the map says, and solves the show again.
#[test]
fn what_is_lifted_brings_its_inputs_under_their_limits() {
    let limits = json!({ "hum_least": "90 dB" });
    let keep = |one: &Value| one["values"]["box"] == "passive" && one["equipment"] == "keys" && one["thru"].is_null();
    let mut file = stage(&kinds().into_iter().filter(keep).collect::<Vec<_>>().into(), &json!([]));
    file["limits"] = limits;
    let mut show = read(file);
    let before = map(&show);
    assert!(before.inputs.iter().any(|input| input.over));
    assert!(before.every_limit.over.is_empty(), "{before:?}");
    for isolate in &before.every_limit.isolate {
        assert!(isolate.lift, "{}", isolate.what);
        let lifted = &before.wires[isolate.wire].id;
        let line = show.lines.iter_mut().find(|line| &line.id == lifted).unwrap();
        line.values.insert("ground", "lifted".to_owned());
    }
    let after = map(&show);
    assert!(after.inputs.iter().all(|input| !input.over));
    for (at, told) in before.every_limit.distances.iter().enumerate() {
        let line = &before.inputs[at].line;
        near(input(&after, line, InputAt::Console).distance.unwrap(), told.1.unwrap(), 1e-6);
    }
}

/// The difference that is found, put into the show, gives the limit.
#[test]
fn backwards() {
    let mut show = read(stage(&kinds().into(), &json!([])));
    let mut found = 0;
    for id in ["unbalanced, earthed", "balanced", "passive, lifted", "passive, joined"] {
        for back in map_backwards(&show, id, InputAt::Console) {
            let Some(volts) = back.volts else { continue };
            let was = show.power.clone();
            show.power.iter_mut().find(|circuit| circuit.id == back.circuit).unwrap().difference =
                format!("{volts:e} V");
            let there = ground_map(&show, 1, &Settings::default());
            let input = input(&there, id, InputAt::Console);
            // 1e-6 of the voltage.
            assert!((input.distance.unwrap() - input.limit.unwrap()).abs() < 8.7e-6, "{back:?} {input:?}");
            show.power = was;
            found += 1;
        }
    }
    assert!(found >= 4, "{found}");
}

/// A working comes to the component that it explains, and its last step to the distance
/// that the input shows.
#[test]
fn workings_end_at_what_they_explain() {
    let mut file = stage(&kinds().into(), &json!([]));
    file["equipment"][8]["pin_1"] = "0.1 ohm".into();
    for show in [read(file), example()] {
        let map = map(&show);
        for input in map.inputs.iter().filter(|input| input.volts > 0.0) {
            let working = map_working(&show, &input.line, input.at, &Settings::default());
            let (_, volts) = input.components.iter().find(|(f, _)| *f == working.frequency).unwrap();
            let sum = working.steps.iter().find(|step| step.formula.starts_with("U_f =")).unwrap();
            near(sum.value, *volts, 1e-9);
            near(working.steps.last().unwrap().value, input.distance.unwrap(), 1e-9);
            assert!(working.steps.iter().all(|step| !step.name.contains("stage-map") && !step.name.contains("{ $")));
        }
    }
}

/// Two pieces of equipment on two circuits joined by two leads, by hand (Millman). Each
/// lead of 3 m and 12 m of run with four contacts of 10 mΩ and 20 mΩ a metre is
/// 0.34 Ω, both beside each other 0.17 Ω; the way back has 0.05 + 0.3 + 0.2 + 0.05 Ω.
/// Without inductance and harmonics 60 mV drive 60/0.77 = 77.92 mA, half of it in each.
#[test]
fn two_leads_by_hand() {
    let own = [("inductance", "0 H"), ("stray_density", "0 T"), ("stray_c", "0 F")];
    let two = ["a", "b"].map(|id| line(id, &json!({ "equipment": "keys" }), &values("output", "unbalanced", "none")));
    let mut file = stage(&json!(two), &json!([]));
    let mut limits = json!({ "contact_r": "10 mohm", "shield_r": "20 mohm/m" });
    for (field, value) in own {
        limits[field] = value.into();
    }
    for order in [2, 3, 5, 7, 9, 11] {
        limits[format!("harmonic_{order}")] = "".into();
    }
    file["limits"] = limits;
    let map = map(&read(file));
    let current = 60e-3 / 0.77;
    for wire in map.wires.iter().filter(|wire| wire.kind == WireKind::Line) {
        near(wire.amperes, current / 2.0, 1e-6);
        near(wire.ohms.unwrap(), 0.34, 1e-6);
    }
    let earth = map.wires.iter().find(|wire| wire.kind == WireKind::Earth && wire.amperes > 0.0).unwrap();
    near(earth.amperes, current, 1e-6);
    assert_eq!((map.loop_count, map.every_loop.isolate.len()), (2, 2));
    assert_eq!(map.every_loop.cost, 10.0);
}

/// One such lead alone: 60 mV, 0.94 Ω around, 63.8 mA; its first part of 3 m with two
/// contacts, 0.08 Ω, and its run of 0.26 Ω see the same. At 50 Hz the A-weighting is -30.3 dB
/// by its formula (IEC 61672-1).
#[test]
fn a_working_by_hand() {
    let alone = [line("a", &json!({ "equipment": "keys" }), &values("output", "unbalanced", "none"))];
    let mut file = stage(&json!(alone), &json!([]));
    let mut limits = json!({ "contact_r": "10 mohm", "shield_r": "20 mohm/m" });
    for (field, value) in [("inductance", "0 H"), ("stray_density", "0 T"), ("stray_c", "0 F")] {
        limits[field] = value.into();
    }
    for order in [2, 3, 5, 7, 9, 11] {
        limits[format!("harmonic_{order}")] = "".into();
    }
    file["limits"] = limits;
    let working = map_working(&read(file), "a", InputAt::Console, &Settings::default());
    let value = |symbol: &str| {
        let of = |step: &&Step| step.formula.starts_with(&format!("{symbol} ="));
        working.steps.iter().find(of).unwrap_or_else(|| panic!("{symbol}: {:?}", working.steps)).value
    };
    let symbols: Vec<_> = working.steps.iter().filter_map(|step| step.formula.split(" =").next()).collect();
    let way = ["E_2", "E_R2", "Z_R", "I_R2", "U_R2", "U_f", "U_fA", "U_A", "a_SA"];
    assert!(symbols.windows(way.len()).any(|found| found == way), "{symbols:?}");
    near(value("E_2"), 60e-3, 1e-9);
    near(value("E_R2"), 60e-3, 1e-6);
    near(value("Z_R"), 0.94, 1e-6);
    near(value("I_R2"), 60e-3 / 0.94, 1e-6);
    near(20.0 * (value("U_fA") / value("U_f")).log10(), -30.3, 0.1);
    near(value("U_A"), value("U_fA"), 1e-6);
}

/// What a battery feeds hums by no earth, and what stands on no circuit is told.
#[test]
fn what_is_not_on_the_map_is_told() {
    let mut file = stage(
        &json!([line("a", &json!({ "equipment": "keys" }), &values("output", "unbalanced", "none"))]),
        &json!([]),
    );
    file["equipment"][2]["circuit"] = "".into();
    let map = ground_map(&read(file.clone()), SETS, &Settings::default());
    assert!(map.inputs.is_empty() && map.left_out.len() == 1 && map.left_out[0].line == "a");
    file["equipment"][2]["circuit"] = "left".into();
    file["power"][1]["difference"] = "40 V".into();
    file["power"][2]["difference"] = "20 V".into();
    let map = ground_map(&read(file.clone()), SETS, &Settings::default());
    assert!(map.problem.is_some() && !map.stops.is_empty() && map.inputs.is_empty());
    file["power"][1]["difference"] = "3 V".into();
    file["power"][2]["difference"] = "".into();
    let map = ground_map(&read(file), SETS, &Settings::default());
    assert!(map.problem.is_none() && map.stops.iter().any(|text| text.contains("electrician")));
}

/// No show and no input make it fall over.
#[test]
fn nothing_to_map() {
    let empty = Show::default();
    let map = ground_map(&empty, SETS, &Settings::default());
    assert!(map.places.is_empty() && map.problem.is_none());
    assert!(map_working(&empty, "none", InputAt::Console, &Settings::default()).steps.is_empty());
    assert!(map_backwards(&empty, "none", InputAt::Amplifier).is_empty());
    let lines = vec![InputLine { id: "a".to_owned(), destination: "none".to_owned(), ..InputLine::default() }];
    assert!(ground_map(&Show { lines, ..empty }, SETS, &Settings::default()).inputs.is_empty());
}

/// B. Whitlock, Balanced Lines in Audio Systems: Fact, Fiction, and Transformers (J. Audio
/// Eng. Soc. 43(6), 1995; from memory): legs that differ by 10 Ω into a common-mode input
/// impedance of 50 kΩ a leg reject about 20·log10(50 000/10) = 74 dB. By hand exactly:
/// 50/(50 + R) of each leg, with 145 and 155 Ω, and of what is left the input's 100 kΩ
/// beside 300 Ω.
#[test]
fn a_balanced_line_with_ten_ohms_of_imbalance() {
    let own = [
        ("source_r", "300 ohm"),
        ("imbalance", "10 ohm"),
        ("input_r", "50k"),
        ("input_spread", "0 %"),
        ("leg_c", "0 F"),
        ("c_imbalance", "0 F"),
        ("console_r", "100k"),
        ("console_c", "0 F"),
        ("lead_length", "0 m"),
        ("run_r", "0 ohm/m"),
        ("run_c", "0 F/m"),
        ("run_l", "0 H/m"),
    ];
    let line = line("a", &json!({ "equipment": "keys" }), &with(values("balanced", "balanced", "none"), &own));
    let map = map(&read(stage(&json!([line]), &json!([]))));
    let wire = &map.wires[input(&map, "a", InputAt::Console).wire];
    let between = wire.amperes * wire.ohms.unwrap();
    let hum = map.inputs[0].components.iter().map(|(_, volts)| volts * volts).sum::<f64>().sqrt();
    let [hot, cold] = [155.0, 145.0_f64].map(|r| 50e3 / (50e3 + r));
    near(hum / between, (cold - hot) * 100.0 / 100.3, 1e-3);
    assert!((20.0 * (between / hum).log10() - 74.0).abs() < 0.2, "{}", between / hum);
}

/// The input list has the hum that the map has, and says what the line would have by itself.
#[test]
fn a_row_hums_as_on_the_map() {
    let show = example();
    let map = ground_map(&show, 1, &Settings::default());
    let solved = solve(&show, &mut Rows::default());
    assert!(!solved.dangerous);
    let mut others = 0;
    for input in &map.inputs {
        let row = solved.rows.iter().find(|row| row.id == input.line).unwrap();
        let reading = if input.at == InputAt::Console { "signal_to_hum" } else { "amplifier_hum" };
        let figure = row.figures.iter().find(|figure| figure.reading == reading).unwrap();
        let distance = input.distance.unwrap();
        assert!((figure.value - distance).abs() < 1e-9, "{}", input.line);
        assert_eq!(figure.margin.unwrap() < 0.0, input.over, "{}", input.line);
        others += usize::from(figure.alone.is_some_and(|alone| (alone - distance).abs() > 1.0));
    }
    // A laptop that joins two circuits by its video lead is one.
    assert!(others > 4);
}

/// So much between two earths is no hum: nothing is to be plugged in.
#[test]
fn what_is_dangerous_is_said_of_the_whole_show() {
    let mut show = example();
    show.power[1].difference = "60 V".to_owned();
    assert!(solve(&show, &mut Rows::default()).dangerous);
}
