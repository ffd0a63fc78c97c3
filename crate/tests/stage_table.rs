//! The input list as a table: RFC 4180, what spreadsheets do to it, and what damage
//! costs.
#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use proptest::sample::select;
use stageohm::settings::{Decimal, Length, Settings};
use stageohm::stage::{
    Dialect, Flaw, InputLine, ROWS_MOST, Raw, Separator, Show, Table, decoded, read_show, read_table, write_table,
};

fn example() -> Show {
    let file: Raw = serde_json::from_str(include_str!("../examples/show.json")).unwrap();
    read_show(&file).unwrap().0
}

fn read(text: &str) -> Table {
    read_table(&example(), text, &Dialect::default())
}

fn keys(flaws: &[Flaw]) -> Vec<(&'static str, Option<usize>)> {
    flaws.iter().map(|flaw| (flaw.key, flaw.row)).collect()
}

fn names(table: &Table) -> Vec<&str> {
    table.lines.iter().map(|line| line.name.as_str()).collect()
}

fn dialects() -> Vec<Dialect> {
    let comma = Settings { decimal: Decimal::Comma, length: Length::Foot, ..Settings::default() };
    let mut dialects = Vec::new();
    for separator in [Separator::Comma, Separator::Semicolon, Separator::Tab] {
        for settings in [Settings::default(), comma] {
            dialects.push(Dialect { separator, settings });
        }
    }
    dialects
}

/// The rules of RFC 4180, section 2, one after the other.
#[test]
fn cells_are_those_of_rfc_4180() {
    for (text, name, note) in [
        ("name,note\r\na,b\r\n", "a", "b"),
        ("name,note\r\na,b", "a", "b"),
        ("name,note\na,b\n", "a", "b"),
        ("name,note\ra,b\r", "a", "b"),
        ("\"name\",\"note\"\r\n\"a\",\"b\"\r\n", "a", "b"),
        ("name,note\r\n\"a,a\",\"b\r\nb\"\r\n", "a,a", "b\r\nb"),
        ("name,note\r\n\"a\"\"a\",\"\"\"b\"\"\"\r\n", "a\"a", "\"b\""),
        ("\u{feff}name,note\r\na,b\r\n", "a", "b"),
    ] {
        let table = read(text);
        assert_eq!(table.flaws, [], "{text:?}");
        assert_eq!((table.lines[0].name.as_str(), table.lines[0].note.as_str()), (name, note), "{text:?}");
    }
}

#[test]
fn a_show_goes_out_and_comes_in() {
    let show = example();
    for dialect in dialects() {
        let text = write_table(&show, &dialect);
        let table = read_table(&show, &text, &dialect);
        assert_eq!(table.flaws, []);
        assert_eq!(table.lines, show.lines, "{dialect:?}");
    }
}

/// 1,234 m is a length under a comma and may be more than a kilometre under a point; a
/// bare 6 is in the reader's own unit, 6 · 0.3048 m.
#[test]
fn decimal_sign_and_unit_are_told() {
    let with = |decimal, length| Dialect {
        separator: Separator::Semicolon,
        settings: Settings { decimal, length, ..Settings::default() },
    };
    for (dialect, cell, kept) in [
        (with(Decimal::Comma, Length::Metre), "1,234 m", "1.234 m"),
        (with(Decimal::Point, Length::Metre), "1.234 m", "1.234 m"),
        (with(Decimal::Point, Length::Foot), "6", "1.8288 m"),
    ] {
        let table = read_table(&example(), &format!("name;lead_length\na;{cell}\n"), &dialect);
        assert_eq!(table.flaws, []);
        assert_eq!(table.lines[0].values.get("lead_length").unwrap(), kept);
    }
}

#[test]
fn what_would_be_a_formula_gets_an_apostrophe() {
    for (name, cell) in [
        ("=1+1", "'=1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("+A1", "'+A1"),
        ("-A1", "'-A1"),
        ("-1+cmd|' /C calc'!A0", "'-1+cmd|' /C calc'!A0"),
        ("-10 dBV", "-10 dBV"),
        ("+4 dBu", "+4 dBu"),
        ("-1.5", "-1.5"),
        ("'-10 dBV", "''-10 dBV"),
        ("'=1", "''=1"),
        ("'n' Roll", "'n' Roll"),
    ] {
        let line = InputLine { id: "a".to_owned(), name: name.to_owned(), ..InputLine::default() };
        let show = Show { lines: vec![line], ..Show::default() };
        let dialect = Dialect { separator: Separator::Tab, ..Dialect::default() };
        let text = write_table(&show, &dialect);
        let row = text.lines().nth(1).unwrap();
        assert_eq!(row.split('\t').nth(1), Some(cell));
        assert_eq!(read_table(&show, &text, &dialect).lines[0].name, name);
    }
}

#[test]
fn damage_is_told_by_row_and_the_rest_is_kept() {
    for (text, flaws, kept) in [
        ("", vec![("empty", None)], vec![]),
        ("one,two\n1,2\n", vec![("no-column", Some(1)), ("no-column", Some(1)), ("no-head", Some(1))], vec![]),
        ("name,name\na,b\n", vec![("same-column", Some(1))], vec!["a"]),
        ("name,colour\na,red\n", vec![("no-column", Some(1))], vec!["a"]),
        ("name,note\na\nb,c\n", vec![("columns", Some(2))], vec!["a", "b"]),
        ("name,note\na,b\nc,d,e\n", vec![("columns", Some(3))], vec!["a", "c"]),
        ("name,note\na,b,,\n", vec![], vec!["a"]),
        ("name,note\na,b\n\nc,\"d\ne,f\n", vec![("half", Some(4))], vec!["a", "c"]),
        ("name,note\n\"a\"b,c\n", vec![("quote", Some(2))], vec!["ab"]),
        ("name,source\na,Trumpet\n", vec![("no-gear", Some(2))], vec!["a"]),
        ("name,phantom\na,yes\n", vec![("choice", Some(2))], vec!["a"]),
        ("name,channel\na,1\nb,1\n", vec![("same-channel", Some(3))], vec!["a", "b"]),
    ] {
        let table = read(text);
        assert_eq!((keys(&table.flaws), names(&table)), (flaws, kept), "{text:?}");
        for flaw in &table.flaws {
            let told = flaw.text(&Settings::default());
            assert!(!told.contains("stage-") && !told.contains('{'), "{told}");
        }
    }
    let long = format!("name,note\n{},b\n", "x".repeat(201));
    assert_eq!(keys(&read(&long).flaws), [("long", Some(2))]);
}

#[test]
fn names_stand_for_gear_and_two_of_one_name_for_none() {
    let mut show = example();
    let table = read_table(&show, "Source,DI\nBass\\, passive,passive di\n", &Dialect::default());
    assert_eq!(keys(&table.flaws), [("columns", Some(2)), ("no-gear", Some(2)), ("no-gear", Some(2))]);
    let table = read_table(&show, "Source,DI\n\"bass, passive\",passive di\n", &Dialect::default());
    assert_eq!((table.lines[0].source.as_str(), table.lines[0].di.as_str()), ("bass", "passive-di"));
    show.gear[0].name = "Passive DI".to_owned();
    let table = read_table(&show, "DI\nPassive DI\n", &Dialect::default());
    assert_eq!(keys(&table.flaws), [("which", Some(2))]);
}

#[test]
fn ten_thousand_rows_are_cut_to_what_a_show_holds() {
    let text = format!("name\n{}", "line\n".repeat(10_000));
    let table = read(&text);
    assert_eq!(table.lines.len(), ROWS_MOST);
    assert_eq!(keys(&table.flaws), [("many", Some(ROWS_MOST + 2))]);
}

/// The same letters in the encodings that spreadsheets write, and in one that says nothing.
#[test]
fn encodings_are_told_apart_by_their_mark() {
    let text = "name\nFl\u{fc}gel\n";
    let wide = |unit: fn(u16) -> [u8; 2]| text.encode_utf16().flat_map(unit).collect::<Vec<_>>();
    for bytes in [
        text.as_bytes().to_vec(),
        [b"\xef\xbb\xbf", text.as_bytes()].concat(),
        [vec![0xff, 0xfe], wide(u16::to_le_bytes)].concat(),
        [vec![0xfe, 0xff], wide(u16::to_be_bytes)].concat(),
    ] {
        assert_eq!(decoded(&bytes), (text.to_owned(), None));
    }
    let (kept, flaw) = decoded(b"name\nFl\xfcgel\nb\n");
    assert_eq!(kept, "name\nFl\u{fffd}gel\nb\n");
    assert_eq!(keys(&[flaw.unwrap()]), [("encoding", Some(2))]);
    assert!(decoded(&[0xff, 0xfe, b'a', 0, b'b']).1.is_some());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// Any texts go out and come in as they were, but for blanks at their ends.
    #[test]
    fn texts_come_back(
        texts in proptest::collection::vec("[-+=@'\"\t\r\n,;a-z0-9.é🎸 ]{0,12}", 4),
        dialect in select(dialects()),
    ) {
        let texts: Vec<_> = texts.iter().map(|text| text.trim().to_owned()).collect();
        let line = |i: usize| InputLine {
            id: format!("row-{i}"),
            name: texts[i].clone(),
            patch: texts[i + 1].clone(),
            note: texts[i + 2].clone(),
            ..InputLine::default()
        };
        let show = Show { lines: vec![line(0), line(1)], ..Show::default() };
        let table = read_table(&show, &write_table(&show, &dialect), &dialect);
        prop_assert_eq!(table.flaws, []);
        prop_assert_eq!(table.lines, show.lines);
    }

    #[test]
    fn nothing_panics(head in select(vec!["", "name,lead_length\n", "Name\tDI\n"]), text in "[\"',;\t\r\na-z=+-]{0,60}|.{0,60}", bytes in proptest::collection::vec(any::<u8>(), 0..40)) {
        let text = head.to_owned() + &text + &decoded(&bytes).0;
        for dialect in dialects() {
            for flaw in read_table(&example(), &text, &dialect).flaws {
                prop_assert!(!flaw.text(&Settings::default()).is_empty());
            }
        }
    }
}
