//! What questions in people's own words put into the calculators. Expectations
//! are what a person means by them.
#![allow(clippy::unwrap_used, clippy::panic)]

use stageohm::ask::Entry;
use stageohm::calculator::Calculator;
use stageohm::field::Values;
use stageohm::named::Named;
use stageohm::seek::{Sought, SoughtFilling, seek};
use stageohm::settings::{Decimal, Length, Settings};

fn ask(text: &str) -> Sought {
    seek(text, &Settings::default())
}

fn filling(sought: &Sought, calculator: &str) -> Option<SoughtFilling> {
    sought.fillings.iter().find(|filling| filling.calculator == calculator).cloned()
}

#[track_caller]
fn fills(text: &str, calculator: &str, values: &[(&str, &str)]) {
    let found = filling(&ask(text), calculator).unwrap_or_else(|| panic!("“{text}” fills nothing of {calculator}"));
    let found: Vec<_> = found.values.iter().map(|(id, text)| (*id, text.as_str())).collect();
    assert_eq!(found, values, "“{text}”");
}

#[test]
fn what_a_question_fills() {
    for (text, calculator, values) in [
        ("+4 into -10", "levels", &[("level", "+4 dBu"), ("into", "-10 dBV")][..]),
        ("+4 dBu into -10 dBV", "levels", &[("level", "+4 dBu"), ("into", "-10 dBV")]),
        ("-10 dBV into +4 dBu?", "levels", &[("level", "-10 dBV"), ("into", "+4 dBu")]),
        ("+4dBu into −10dBV", "levels", &[("level", "+4dBu"), ("into", "−10dBV")]),
        ("phantom 80 m", "phantom", &[("lead_length", "80 m")]),
        ("P24", "phantom", &[("supply", "p24")]),
        ("P24 80 m", "phantom", &[("supply", "p24"), ("lead_length", "80 m")]),
        ("phantom on 24 volts", "phantom", &[("supply", "p24")]),
        ("phantom for two 4 mA mics", "phantom", &[("current", "4 mA")]),
        (
            "does an active DI run on P24 over 80 m",
            "phantom",
            &[("supply", "p24"), ("lead_length", "80 m"), ("current", "4 mA"), ("least", "20 V")],
        ),
        ("which DI for a passive bass", "box-or-straight", &[("source", "bass")]),
        ("acoustic DI", "box-or-straight", &[("source", "piezo")]),
        ("speaker level into DI", "box-or-straight", &[("source", "loudspeaker")]),
        (
            "passive bass 6 m + 30 m",
            "box-or-straight",
            &[("source", "bass"), ("lead_length", "6 m"), ("run_length", "30 m")],
        ),
        (
            "passive bass 6m+30m into a mic input",
            "box-or-straight",
            &[("source", "bass"), ("lead_length", "6m"), ("run_length", "30m"), ("input", "microphone")],
        ),
        (
            "the keys are 30 m run, 6 m lead",
            "box-or-straight",
            &[("source", "keyboard"), ("lead_length", "6 m"), ("run_length", "30 m")],
        ),
        ("run 30 m, lead 6 m", "box-or-straight", &[("lead_length", "6 m"), ("run_length", "30 m")]),
        ("30 m multicore", "box-or-straight", &[("run_length", "30 m")]),
        ("12 m lead guitar", "lead-length", &[("source", "pickup"), ("lead_length", "12 m")]),
        ("will a 12 m lead dull this guitar", "lead-length", &[("source", "pickup"), ("lead_length", "12 m")]),
        ("guitar on 15 ft", "pickup", &[("lead_length", "15 ft")]),
        ("150 ohm into 10 kohm", "source-load", &[("source_r", "150 ohm"), ("load_r", "10 kohm")]),
        ("12:1 transformer", "transformer", &[("ratio", "12:1")]),
        ("a 20 dB pad", "pad", &[("loss", "20 dB")]),
        ("1 000 m of balanced line", "lead-length", &[("source", "balanced"), ("lead_length", "1 000 m")]),
        // However it is punctuated.
        ("“passive bass” – 6 m", "box-or-straight", &[("source", "bass"), ("lead_length", "6 m")]),
        ("passive bass…", "box-or-straight", &[("source", "bass")]),
        ("P24: “80\u{a0}m”", "phantom", &[("supply", "p24"), ("lead_length", "80 m")]),
        // As most of them are written, words before their numbers or behind.
        ("6 m lead 30 m run", "box-or-straight", &[("lead_length", "6 m"), ("run_length", "30 m")]),
        ("30 m run 6 m lead", "box-or-straight", &[("lead_length", "6 m"), ("run_length", "30 m")]),
        ("run 30 m lead 6 m", "box-or-straight", &[("lead_length", "6 m"), ("run_length", "30 m")]),
    ] {
        fills(text, calculator, values);
    }
}

/// What it fills is shown by the name of the field and of the answer.
#[test]
fn what_it_fills_is_told() {
    let found = filling(&ask("P24 80 m"), "phantom").unwrap();
    let shown: Vec<_> = found.shown.iter().map(|value| format!("{}: {}", value.name, value.text)).collect();
    assert_eq!(shown, ["Phantom: P24", "Lead length: 80 m"]);
    assert_eq!((found.numbers, found.used), (1, vec!["p24".to_owned()]));
}

/// Nothing is filled in that the question does not say.
#[test]
fn what_fills_nothing() {
    for text in ["", "dull", "hum", "theremin tuning", "1/4 in", "XLR TRS pinout", "80", "12 pigs", "R47", "1,500 m"] {
        assert_eq!(ask(text).fillings, [], "“{text}”");
    }
    // A number that nothing can be computed with.
    assert!(filling(&ask("phantom 90 km"), "phantom").is_none());
    // A book is no question.
    assert_eq!(ask(&"80 m ".repeat(50)), Sought::default());
}

/// A number is its whole: the words are what is left.
#[test]
fn which_numbers_it_has() {
    assert_eq!(ask("passive bass 6 m + 30 m").numbers, ["6 m", "30 m"]);
    assert_eq!(ask("bass, 6 metres (20 feet).").numbers, ["6 metres", "20 feet"]);
    assert_eq!(ask("1 000 m, then 2 V").numbers, ["1 000 m", "2 V"]);
    assert_eq!(ask("P24").numbers, [""; 0]);
    // Groups of three digits are one number; anything else stands by itself.
    assert_eq!(ask("1 000 000 ohm").numbers, ["1 000 000 ohm"]);
    assert_eq!(ask("1 000 20 m").numbers, ["20 m"]);
    assert_eq!(ask("channel 2 20 m").numbers, ["20 m"]);
    assert_eq!(ask("channel 2 6 m run").numbers, ["6 m"]);
    // Marks of a sentence are no part of a number, and a sign is.
    assert_eq!(ask("“80 m”!").numbers, ["80 m"]);
    assert_eq!(ask("\"6 m\": dull? (.5 m; 3 m)").numbers, ["6 m", ".5 m", "3 m"]);
    assert_eq!(ask("−6 dB and –6 dB, +6 dB").numbers, ["−6 dB", "–6 dB", "+6 dB"]);
    assert_eq!(ask("6m+30m+2m").numbers, ["6m", "30m", "2m"]);
}

/// It is read as the reader writes, and so are the examples.
#[test]
fn as_the_reader_writes() {
    let settings = Settings { decimal: Decimal::Comma, length: Length::Foot, ..Settings::default() };
    let sought = seek("does an active DI run over 7,5 m", &settings);
    let phantom = Calculator::find("phantom").unwrap();
    let values: Vec<_> = filling(&sought, "phantom").unwrap().values;
    let entries = Named::distinct(values.into_iter().map(|(id, text)| (id, Entry::Text(text))));
    let (_, echoes) = Values::read(phantom, &entries, &settings);
    let value = |id| echoes.get(id).unwrap().value.unwrap();
    assert!((value("lead_length") - 7.5).abs() < 1e-12);
    assert!((value("current") - 4e-3).abs() < 1e-12);
    assert!((value("least") - 20.0).abs() < 1e-12);
}

/// Every phrase that the catalogue gives an answer or an example chooses it where
/// it stands alone.
#[test]
fn every_phrase_of_an_answer_chooses_it() {
    let source = include_str!("../src/words/en.ftl");
    let mut key = "";
    let mut tried = 0;
    for line in source.lines() {
        if let Some((next, _)) = line.split_once(" = ").filter(|_| !line.starts_with([' ', '#'])) {
            key = next;
        }
        let Some(also) = line.trim().strip_prefix(".also = ") else { continue };
        let answers = stageohm::calculator::REGISTER.iter().flat_map(|calculator| {
            calculator.fields.iter().flat_map(move |field| match &field.kind {
                stageohm::field::Kind::Choice(choice) => choice
                    .options
                    .iter()
                    .filter(|option| key == format!("{}-{}-{}", calculator.id, field.id, option.id))
                    .map(|option| (calculator.id, field.id, option.id))
                    .collect::<Vec<_>>(),
                stageohm::field::Kind::Number(_) => Vec::new(),
            })
        });
        for (calculator, field, option) in answers {
            for phrase in also.split(',') {
                let found = filling(&ask(phrase), calculator).unwrap_or_else(|| panic!("{key}: “{phrase}”"));
                assert!(found.values.contains(&(field, option.to_owned())), "{key}: “{phrase}” is {:?}", found.values);
                tried += 1;
            }
        }
    }
    assert!(tried > 60, "{tried}");
}
