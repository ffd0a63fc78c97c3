//! The ground map of a show against its rows, against circuits solved by hand, and
//! against the show solved anew.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::{Value, json};
use stageohm::settings::Settings;
use stageohm::stage::map::{
    GroundMap, InputAt, MapInput, MapIsolation, Stands, WireKind, ground_map, map_backwards, map_working,
};
use stageohm::stage::{Equipment, InputLine, Raw, Rows, Show, SplitKind, cures, read_show, solve, solve_row, totals};
use stageohm::working::Step;

const SETS: usize = 300;

fn read(file: Value) -> Show {
    let (show, flaws) = read_with_flaws(file);
    assert_eq!(flaws, [] as [&str; 0]);
    show
}

fn read_with_flaws(file: Value) -> (Show, Vec<&'static str>) {
    let file: Raw = serde_json::from_value(file).unwrap();
    let (show, flaws) = read_show(&file).unwrap();
    (show, flaws.iter().map(|flaw| flaw.key).collect())
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
            equipment("desk-left", "earthed", "left"),
            equipment("desk-foh", "earthed", "foh"),
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

/// Every way in which a lead joins a second console to a line.
#[expect(clippy::too_many_lines, reason = "a list")]
fn splits() -> Vec<Value> {
    let lifted = [("ground", "lifted"), ("powered", "battery")];
    let battery = [("powered", "battery")];
    let to = |second: &str, beside: &Value| {
        let mut all = json!({ "second": second, "split": "direct" });
        all.as_object_mut().unwrap().extend(beside.as_object().unwrap().clone());
        all
    };
    let boxed = |equipment: &str| json!({ "equipment": equipment, "di": "di" });
    let thru = |equipment: &str, amp: &str| json!({ "equipment": equipment, "di": "di", "thru": amp });
    let active = with(values("output", "balanced", "active"), &battery);
    let passive = values("output", "balanced", "passive");
    vec![
        line("active, split", &to("second", &boxed("keys")), &active),
        line("active, split by a Y-lead", &with(to("second", &boxed("keys")), &[("split", "y")]), &active),
        line("active, lifted, split", &to("second", &boxed("keys")), &with(active.clone(), &lifted)),
        line("active, split, leaking", &to("second", &boxed("laptop")), &active),
        line("active, split, nothing else", &to("second", &boxed("")), &active),
        line("active, split on the console's circuit", &to("desk-foh", &boxed("keys")), &active),
        line("active, split on the source's circuit", &to("desk-left", &boxed("keys")), &active),
        line(
            "passive, split and a thru on the source's circuit",
            &to("desk-left", &thru("keys", "amp-left")),
            &passive,
        ),
        line(
            "balanced, split on the source's circuit",
            &to("desk-left", &json!({ "equipment": "keys" })),
            &values("balanced", "balanced", "none"),
        ),
        line("active, split to a recorder", &to("recorder", &boxed("keys")), &active),
        line("active, split, by fibre", &with(to("second", &boxed("keys")), &[("carried", "fibre")]), &active),
        line(
            "active, unbalanced, split",
            &to("second", &boxed("keys")),
            &with(values("output", "unbalanced", "active"), &battery),
        ),
        line("passive, split", &to("second", &boxed("keys")), &passive),
        line("passive, lifted, split", &to("second", &boxed("keys")), &with(passive.clone(), &lifted)),
        line("passive, unbalanced, split", &to("second", &boxed("keys")), &values("output", "unbalanced", "passive")),
        line(
            "passive, unbalanced, lifted, split",
            &to("second", &boxed("keys")),
            &with(values("output", "unbalanced", "passive"), &lifted),
        ),
        line(
            "passive, balanced source, split",
            &to("second", &boxed("keys")),
            &values("balanced", "balanced", "passive"),
        ),
        line(
            "passive, split, a pickup with a thru",
            &to("second", &thru("", "amp-left")),
            &values("pickup", "balanced", "passive"),
        ),
        line(
            "passive, split, a thru on the second's circuit",
            &to("second", &thru("", "amp")),
            &values("pickup", "balanced", "passive"),
        ),
        line("passive, split, a thru on the source's", &to("second", &thru("keys", "amp-left")), &passive),
        line("passive, split, a thru on the console's", &to("second", &thru("keys", "amp-foh")), &passive),
        line("passive, split, a leaking source and a thru", &to("second", &thru("laptop", "amp-left")), &passive),
        line(
            "unbalanced, split",
            &to("second", &json!({ "equipment": "keys" })),
            &values("output", "unbalanced", "none"),
        ),
        line(
            "unbalanced into balanced, split",
            &to("second", &json!({ "equipment": "keys" })),
            &values("output", "balanced", "none"),
        ),
        line(
            "balanced, split, leaking",
            &to("second", &json!({ "equipment": "laptop" })),
            &values("balanced", "balanced", "none"),
        ),
        line(
            "balanced, split to a recorder",
            &to("recorder", &json!({ "equipment": "keys" })),
            &values("balanced", "balanced", "none"),
        ),
        line(
            "active, split, a fault of pin 1",
            &with(to("second", &boxed("keys")), &[("destination", "faulty")]),
            &active,
        ),
    ]
}

/// The row solves earths that meet at one place by formulas (`EarthStar`), the map all
/// nodes at once by a matrix.
#[test]
fn a_map_of_one_line_says_what_its_row_says() {
    let mut hums = 0;
    for one in kinds().into_iter().chain(splits()) {
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
    assert!(hums > 40, "{hums}");
}

/// What a second console on another earth adds is no small matter behind a box either.
#[test]
fn a_second_console_is_heard_behind_a_box() {
    let of = |one: Value| {
        let show = read(stage(&json!([one]), &json!([])));
        let row = solve_row(&show, &show.lines[0]);
        row.figures.iter().find(|figure| figure.reading == "signal_to_hum").unwrap().value
    };
    let active = with(values("output", "balanced", "active"), &[("powered", "battery")]);
    let boxed = json!({ "equipment": "keys", "di": "di" });
    let split = json!({ "equipment": "keys", "di": "di", "second": "second", "split": "direct" });
    let by_transformer = with(split.clone(), &[("split", "transformer")]);
    let alone = of(line("one", &boxed, &active));
    assert!(of(line("one", &split, &active)) < alone - 1.0);
    assert_eq!(of(line("one", &by_transformer, &active)), alone);
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

/// Does in a show what a map says, as the page does.
fn done(show: &Show, map: &GroundMap, isolation: &MapIsolation) -> Show {
    let mut show = show.clone();
    for isolate in &isolation.isolate {
        let id = &map.wires[isolate.wire].id;
        if let Some(ends) = isolate.ends {
            show.links.iter_mut().find(|link| &link.id == id).unwrap().ends = ends;
            continue;
        }
        show.gear.extend(isolate.made.clone());
        let line = show.lines.iter_mut().find(|line| &line.id == id).unwrap();
        if isolate.split {
            line.split = SplitKind::Transformer;
        } else {
            line.di.clone_from(&isolate.gear);
            line.values = isolate.values.clone().unwrap();
        }
    }
    show
}

/// Before and after are what the map says, and said again once the plan has been changed.
#[test]
fn after_is_what_the_map_says_once_it_is_done() {
    let mut file = stage(
        &kinds().into_iter().chain(splits()).collect::<Vec<_>>().into(),
        &json!([
            { "id": "video", "kind": "video", "from": "laptop", "to": "amp" },
            { "id": "audio", "kind": "audio", "from": "keys", "to": "second" },
        ]),
    );
    // Isolators that are not one to one, a passive DI and an active one on battery, few of each.
    file["gear"].as_array_mut().unwrap().extend([
        json!({ "id": "iso", "name": "iso", "kind": "isolator", "values": { "ratio": "1:1", "r1": "400 ohm", "r2": "400 ohm", "winding_c": "900 pF" }, "count": 2 }),
        json!({ "id": "transformer", "name": "transformer", "kind": "di", "values": { "box": "passive", "ratio": "10:1" }, "count": 1 }),
        json!({ "id": "battery", "name": "battery", "kind": "di", "values": { "box": "active", "powered": "battery" }, "count": 1 }),
    ]);
    let mut changed = 0;
    // Few sets are tried: it is no matter here whether they are the best.
    let quick = |show: &Show| ground_map(show, 20, &Settings::default());
    for show in [read(file), example()] {
        let before = quick(&show);
        for isolation in [&before.every_limit, &before.every_loop] {
            let after = quick(&done(&show, &before, isolation));
            for (at, (was, becomes)) in before.inputs.iter().zip(&isolation.distances).enumerate() {
                assert_eq!(was.distance, becomes.0);
                let now = after.inputs.iter().find(|input| input.line == was.line && input.at == was.at);
                match (now.and_then(|now| now.distance), becomes.1) {
                    (Some(now), Some(told)) => near(told, now, 1e-6),
                    (now, told) => assert_eq!(now, told),
                }
                assert_eq!(now.is_some_and(|now| now.over), isolation.over.contains(&at), "{}", was.line);
                changed += usize::from(becomes.0 != becomes.1);
            }
        }
    }
    assert!(changed > 20, "{changed}");
}

/// What isolation is not enough for, the row's own cures are, of one line as of several: the
/// map names those that the rows name, and once one is done the input keeps its limit.
#[test]
fn what_isolation_leaves_the_row_cures() {
    let mut show = example();
    show.gear.iter_mut().find(|gear| gear.id == "battery-di").unwrap().count = Some(9);
    let at = show.lines.iter().position(|line| line.id == "ch-14").unwrap();
    // Two amplifiers share what one has alone.
    show.lines[at].values.insert("hum_least", "62 dB".to_owned());
    for count in 1..=2 {
        let there = map(&show);
        let limit = &there.every_limit;
        assert_eq!(limit.over.len(), count);
        let mut fitted = done(&show, &there, limit);
        let mut named = 0;
        for left in limit.over.iter().map(|at| &there.inputs[*at]) {
            assert_eq!(left.at, InputAt::Amplifier);
            let of_row = cures(&fitted, &left.line, &Settings::default());
            let cure = of_row.iter().find(|cure| cure.fixes.contains(&"amplifier_hum")).unwrap();
            let told = limit.cures.iter().position(|text| *text == format!("{}: {}", left.name, cure.text)).unwrap();
            assert!(cure.text.contains("ground lift") && cure.has && told < count, "{:?}", limit.cures);
            let thru = |text: &String| text.contains("transformer isolator") && text.contains(&left.name);
            assert!(limit.cures.iter().position(thru).unwrap() >= count, "{:?}", limit.cures);
            assert!(!limit.beyond.iter().any(thru), "{:?}", limit.beyond);
            let line = fitted.lines.iter_mut().find(|line| line.id == left.line).unwrap();
            (line.di, line.values) = (cure.gear.clone(), cure.values.clone());
            assert!(!input(&map(&fitted), &left.line, InputAt::Amplifier).over);
            named += 1;
        }
        assert_eq!(named, count);
        let again = show.lines[at].clone();
        let amp = Equipment { id: "amp-again".to_owned(), ..show.equipment(&again.thru).unwrap().clone() };
        let (id, name) = ("again".to_owned(), "Guitar three DI".to_owned());
        show.lines.push(InputLine { id, name, thru: amp.id.clone(), ..again });
        show.equipment.push(amp);
    }
}

/// Gear of the drawer goes in as long as there is some, and what is short is told.
#[test]
fn isolators_come_from_the_drawer() {
    let keys = |id: &str| line(id, &json!({ "equipment": "keys" }), &values("output", "unbalanced", "none"));
    let mut file = stage(&json!([keys("a"), keys("b"), keys("c")]), &json!([]));
    let isolator =
        json!({ "id": "iso", "name": "Isolator", "kind": "isolator", "values": { "ratio": "1:1" }, "count": 2 });
    file["gear"] = json!([isolator]);
    let show = read(file.clone());
    let told = map(&show).every_loop;
    assert_eq!(told.isolate.iter().map(|one| one.gear.as_str()).filter(|gear| *gear == "iso").count(), 2);
    assert_eq!(told.isolate.iter().filter(|one| one.made.is_some()).count(), 1);
    assert_eq!(told.short, ["Isolators short: 1. Your drawer has 2 free, this needs 3."]);
    // What is on a line is not free, and a DI with its lift does it where there is one.
    file["gear"] = json!([
        { "id": "iso", "name": "Isolator", "kind": "isolator", "values": { "ratio": "1:1" }, "count": 0 },
        { "id": "di", "name": "Passive", "kind": "di", "values": { "box": "passive", "ratio": "1:1" }, "count": 3 },
    ]);
    let told = map(&read(file.clone())).every_loop;
    assert!(told.short.is_empty() && told.isolate.iter().all(|one| one.gear == "di" && one.made.is_none()));
    assert!(told.isolate[0].what.contains("Passive") && told.isolate[0].what.contains("lift"));
    // From an unbalanced output into a balanced run goes a DI, of which the drawer has none.
    file["gear"] = json!([]);
    for one in file["lines"].as_array_mut().unwrap() {
        one["values"]["run"] = "balanced".into();
    }
    let told = map(&read(file)).every_loop;
    assert!(told.isolate.iter().all(|one| one.what.contains("Passive DI")), "{told:?}");
    assert_eq!(told.short, ["Passive DIs short: 3. Your drawer has 0 free, this needs 3."]);
}

/// The difference that is found, put into the show, gives the limit.
#[test]
fn backwards() {
    let mut show = read(stage(&kinds().into(), &json!([])));
    let mut found = 0;
    for id in ["unbalanced, earthed", "balanced", "passive, lifted", "passive, joined"] {
        for back in map_backwards(&show, id, InputAt::Console) {
            let Stands::UpTo(volts) = back.stands else { continue };
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

/// What an input can stand is what the map says once that is in the show: of one that is over
/// its limit less than there is now, or not even nothing where another circuit does it alone;
/// of one that no safe difference brings over, as much as is safe.
#[test]
fn what_an_input_can_stand() {
    let second = json!({ "equipment": "keys", "second": "second", "split": "direct" });
    let lines = json!([
        line("a", &json!({ "equipment": "keys" }), &values("output", "unbalanced", "none")),
        line("b", &second, &values("output", "unbalanced", "none")),
        line(
            "c",
            &json!({ "equipment": "keys" }),
            &with(values("balanced", "balanced", "none"), &[("hum_least", "30 dB")])
        ),
    ]);
    let mut file = stage(&lines, &json!([]));
    for circuit in file["power"].as_array_mut().unwrap() {
        circuit["difference"] = json!(if circuit["id"] == "foh" { "0 V" } else { "2 V" });
    }
    let show = read(file);
    let stands = |show: &Show, line: &str, circuit: &str| {
        map_backwards(show, line, InputAt::Console).into_iter().find(|back| back.circuit == circuit).unwrap()
    };
    let at = |show: &Show, circuit: &str, difference: &str| {
        let mut show = show.clone();
        let power = show.power.iter_mut().find(|one| one.id == circuit).unwrap();
        power.difference = difference.to_owned();
        show
    };
    let over = |show: &Show, line: &str| input(&ground_map(show, 1, &Settings::default()), line, InputAt::Console).over;
    assert!(over(&show, "a") && over(&show, "b"));
    // What the right circuit does to the split line stays, whatever the left one does.
    let back = stands(&show, "b", "left");
    near(back.now, 2.0, 1e-12);
    assert_eq!(back.stands, Stands::Nothing);
    assert!(over(&at(&show, "left", "0 V"), "b"));
    // Without that a smaller difference would do.
    let alone = at(&show, "right", "0 V");
    let Stands::UpTo(volts) = stands(&alone, "a", "left").stands else { panic!("{alone:?}") };
    assert!(volts > 0.0 && volts < 2.0, "{volts}");
    assert!(!over(&at(&alone, "left", &format!("{:e} V", volts * 0.99)), "a"));
    assert!(over(&at(&alone, "left", &format!("{:e} V", volts * 1.01)), "a"));
    assert_eq!(stands(&alone, "c", "left").stands, Stands::Anything);
    assert!(!over(&at(&alone, "left", "49 V"), "c"));
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
    let two = ["a", "b"].map(|id| line(id, &json!({ "equipment": "keys" }), &values("output", "unbalanced", "none")));
    two_leads(&read(by_hand(stage(&json!(two), &json!([])))));
}

/// The keyboard is one, whatever circuit a line of it names: it is that of the equipment.
#[test]
fn equipment_is_one_piece_on_its_own_circuit() {
    let on = |id: &str, circuit: &str| {
        line(id, &json!({ "equipment": "keys", "circuit": circuit }), &values("output", "unbalanced", "none"))
    };
    let (show, flaws) = read_with_flaws(by_hand(stage(&json!([on("a", ""), on("b", "right")]), &json!([]))));
    assert_eq!(flaws, ["other-circuit-counts"]);
    two_leads(&show);
    let (a, b) = (solve_row(&show, &show.lines[0]), solve_row(&show, &show.lines[1]));
    assert_eq!(a.figures, b.figures);
    // Alone each of them says in its row what the map of it says.
    for line in &show.lines {
        let one = Show { lines: vec![line.clone()], ..show.clone() };
        let row = solve_row(&one, line);
        let of_row = row.figures.iter().find(|figure| figure.reading == "signal_to_hum").unwrap().value;
        let of_map = input(&map(&one), &line.id, InputAt::Console).distance.unwrap();
        assert!((of_row - of_map).abs() < 8.7e-6, "{of_map} is not {of_row}");
    }
}

/// A stage without inductance, harmonics, and what leads take up from the mains around.
fn by_hand(mut file: Value) -> Value {
    let mut limits = json!({ "contact_r": "10 mohm", "shield_r": "20 mohm/m" });
    for (field, value) in [("inductance", "0 H"), ("stray_density", "0 T"), ("stray_c", "0 F")] {
        limits[field] = value.into();
    }
    for order in [2, 3, 5, 7, 9, 11] {
        limits[format!("harmonic_{order}")] = "".into();
    }
    file["limits"] = limits;
    file
}

#[track_caller]
fn two_leads(show: &Show) {
    let map = map(show);
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

/// A microphone into a stage box on the left, and how that goes on to the console.
fn boxed(power: &str, links: &Value) -> Value {
    let one = line("a", &json!({ "stage_box": "box" }), &values("microphone", "balanced", "none"));
    let mut file = by_hand(stage(&json!([one]), links));
    let circuit = if power == "battery" { "" } else { "left" };
    let stage_box = json!({ "id": "box", "name": "Stage box", "power": power, "circuit": circuit });
    file["equipment"].as_array_mut().unwrap().push(stage_box);
    file["equipment"][0]["name"] = "Console".into();
    file
}

fn link(kind: &str, ends: &str) -> Value {
    json!({ "id": "way", "kind": kind, "ends": ends, "from": "box", "to": "console" })
}

/// Until a link says how a stage box is joined to its console, that is not counted, and
/// said once; metal on metal does not say it.
#[test]
fn how_a_stage_box_is_joined_is_asked() {
    assert_eq!(map(&example()).not_counted, []);
    let mut unsaid = example();
    unsaid.links.retain(|link| link.id != "snake");
    let told = map(&unsaid).not_counted;
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!((told[0].stage_box.as_str(), told[0].console.as_str(), told[0].asks), ("stage-box", "console", true));
    assert_eq!(told[0].what, "Not counted: how Stage box and Front-of-house console are joined");
    let rows = solve(&unsaid, &mut Rows::default()).rows;
    assert!(rows.iter().all(|row| row.not_counted.as_ref() == Some(&told[0].what)));
    assert!(solve(&example(), &mut Rows::default()).rows.iter().all(|row| row.not_counted.is_none()));

    let metal = map(&read(boxed("earthed", &json!([link("metalwork", "both")]))));
    assert!(metal.not_counted.len() == 1 && metal.not_counted[0].asks);
    let turned = json!({ "id": "way", "kind": "network", "ends": "optical", "from": "console", "to": "box" });
    assert_eq!(map(&read(boxed("earthed", &json!([turned])))).not_counted, []);
    let driven = map(&read(boxed("earthed", &json!([link("audio", "both")]))));
    assert!(driven.not_counted.len() == 1 && !driven.not_counted[0].asks);
    assert!(!driven.not_counted[0].what.contains("stage-") && !driven.not_counted[0].what.contains('{'));
    assert_eq!(map(&read(boxed("battery", &json!([link("audio", "both")])))).not_counted, []);
}

/// By hand: 60 mV drive through the earths of both, 0.05 + 0.3 + 0.2 + 0.05 Ω, and a shield
/// of 0.1 Ω that carries an earth 60/0.7 = 85.71 mA, and nothing through any other.
#[test]
fn an_answer_says_what_carries_an_earth() {
    for (kind, ends, amperes) in [
        ("network", "both", 60e-3 / 0.7),
        ("audio", "both", 60e-3 / 0.7),
        ("network", "transformer", 0.0),
        ("network", "optical", 0.0),
    ] {
        let map = map(&read(boxed("earthed", &json!([link(kind, ends)]))));
        let wire = map.wires.iter().find(|wire| wire.kind == WireKind::Link).unwrap();
        near(wire.amperes, amperes, 1e-6);
    }
}

/// A box without a supply passes its wires on: the line ends at the console, and its earth
/// difference is the 60 mV from there. A box with a supply of its own is on the same circuit.
#[test]
fn a_line_through_a_passive_stage_box_ends_at_the_console() {
    let keys = |file: &mut Value| {
        file["lines"][0]["equipment"] = "keys".into();
        file["lines"][0]["values"] = values("output", "balanced", "none");
    };
    let show = |power: &str, kind: &str, ends: &str| {
        let mut file = boxed(power, &json!([link(kind, ends)]));
        keys(&mut file);
        read(file)
    };
    let hum = |show: &Show| input(&map(show), "a", InputAt::Console).distance.unwrap();
    let mut bare = show("battery", "audio", "both");
    let through = hum(&bare);
    let row = solve_row(&bare, &bare.lines[0]);
    let of_row = row.figures.iter().find(|figure| figure.reading == "signal_to_hum").unwrap().value;
    assert!((of_row - through).abs() < 8.7e-6, "{of_row} {through}");
    bare.lines[0].stage_box.clear();
    near(through, hum(&bare), 1e-12);
    assert!(hum(&show("earthed", "network", "optical")) > through + 20.0);
    // What feeds phantom is the console, too.
    let mut fed = boxed("battery", &json!([link("audio", "both")]));
    fed["lines"][0]["values"] = json!({ "source": "microphone", "microphone": "condenser", "phantom": "p48" });
    let totals = totals(&read(fed));
    assert_eq!(totals.phantom[0].equipment, "console");
    // The recorder's; the box takes none.
    assert_eq!(totals.equipment_batteries, 1);
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

/// Of a line that goes to one console only, nobody is told to change its split.
#[test]
fn a_second_console_is_spoken_of_where_there_is_one() {
    let show = example();
    let loops = map(&show).every_loop;
    let speaks = |name: &str, of: &str| loops.beyond.iter().any(|text| text.contains(name) && text.contains(of));
    assert!(
        speaks("Guitar two DI", "needs phantom") && !speaks("Guitar two DI", "second console"),
        "{:?}",
        loops.beyond
    );
}
