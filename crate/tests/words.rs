//! Every calculator has its words, and nothing shows a key instead of them.
#![allow(clippy::unwrap_used, clippy::panic)]

use stageohm::answer::{Question, answer, describe};
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::field::Kind;
use stageohm::report::Report;
use stageohm::settings::Settings;

fn default_report(calculator: &Calculator) -> Report {
    let question = serde_json::json!({ "calculator": calculator.id });
    let question: Question = serde_json::from_value(question).unwrap();
    let answer = answer(&question);
    assert!(answer.problems.is_empty(), "{}: {:?}", calculator.id, answer.problems);
    answer.report.unwrap_or_else(|| panic!("{}: {:?}", calculator.id, answer.fields))
}

/// Every text that a reader may see, with what it is.
fn texts(report: &Report) -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for reading in report.headline.iter().chain(&report.further) {
        texts.push((format!("name of {}", reading.id), reading.name.clone()));
        texts.push((format!("text of {}", reading.id), reading.text.clone()));
        texts
            .extend(reading.verdict.iter().map(|verdict| (format!("verdict on {}", reading.id), verdict.text.clone())));
    }
    for plot in &report.plots {
        let all = [&plot.title, &plot.summary, &plot.x.name, &plot.y.name];
        let all = all.into_iter().chain(plot.traces.iter().map(|trace| &trace.name));
        let all = all.chain(plot.x.names.iter().chain(&plot.y.names));
        let all =
            all.chain(plot.markers.iter().map(|marker| &marker.text)).chain(plot.bands.iter().map(|band| &band.name));
        texts.extend(all.map(|text| (format!("plot {}", plot.id), text.clone())));
    }
    texts.extend(report.working.iter().map(|step| (step.formula.clone(), step.name.clone())));
    let lists = [&report.warnings, &report.cautions, &report.sources];
    texts.extend(lists.into_iter().flatten().map(|text| ("list".to_owned(), text.clone())));
    texts.extend(report.links.iter().map(|link| ("link".to_owned(), link.text.clone())));
    if let Some(drawn) = &report.diagram {
        let parts = drawn.parts.iter().flat_map(|part| std::iter::once(&part.name).chain(&part.values));
        let all = [&drawn.title, &drawn.summary].into_iter().chain(parts);
        texts.extend(
            all.chain(drawn.loops.iter().map(|earth_loop| &earth_loop.text))
                .map(|text| ("diagram".to_owned(), text.clone())),
        );
    }
    for candidate in &report.ranking {
        let all = [&candidate.name, &candidate.verdict.text, &candidate.link.text].into_iter();
        let reasons = candidate.reasons.iter().flat_map(|reason| {
            let verdict = reason.reading.verdict.iter().map(|verdict| &verdict.text);
            let link = reason.link.iter().map(|link| &link.text);
            [&reason.reading.name, &reason.reading.text].into_iter().chain(verdict).chain(link)
        });
        texts.extend(all.chain(reasons).map(|text| (format!("candidate {}", candidate.id), text.clone())));
    }
    texts
}

#[track_caller]
fn all_in_words(calculator: &Calculator, report: &Report) {
    let prefix = format!("{}-", calculator.id);
    for (what, text) in texts(report) {
        assert!(!text.is_empty(), "{}: {what} is empty", calculator.id);
        let key = text.starts_with(&prefix)
            // “Common-mode” is a word of the trade and no key.
            || text.replace("common-mode", "").contains("common-")
            || text.starts_with("source-")
            || text.contains("{ $");
        assert!(!key, "{}: {what} shows “{text}”", calculator.id);
    }
}

#[test]
fn no_report_shows_a_key_or_an_empty_place() {
    for calculator in REGISTER {
        all_in_words(calculator, &default_report(calculator));
    }
}

/// The same under every answer to every choice, and for every preset.
#[test]
fn no_choice_or_preset_shows_a_key() {
    for calculator in REGISTER {
        let options = calculator.fields.iter().flat_map(|field| match &field.kind {
            Kind::Choice(choice) => choice.options.iter().map(|option| vec![(field.id, option.id)]).collect(),
            Kind::Number(_) => Vec::new(),
        });
        let presets = calculator
            .presets
            .iter()
            .flat_map(|preset| std::iter::once(preset.values).chain(preset.held.iter().copied()));
        for values in options.chain(presets.map(<[_]>::to_vec)) {
            let values: std::collections::BTreeMap<_, _> = values.into_iter().collect();
            let question = serde_json::json!({ "calculator": calculator.id, "values": values });
            if let Some(report) = answer(&serde_json::from_value(question).unwrap()).report {
                all_in_words(calculator, &report);
            }
        }
    }
}

#[test]
fn every_field_option_group_and_preset_is_named() {
    for description in describe(&Settings::default()) {
        let id = description.id;
        assert!(!description.title.is_empty() && description.title != id, "{id}: title");
        assert!(!description.purpose.is_empty() && !description.purpose.contains(".purpose"), "{id}: purpose");
        for field in &description.fields {
            let here = format!("{id}.{}", field.id);
            assert!(!field.name.is_empty(), "{here}: name");
            assert!(!field.help.is_empty(), "{here}: help");
            assert!(!field.group.is_empty() && !field.group.starts_with("group-"), "{here}: group {}", field.group);
            for option in field.choice.iter().flat_map(|choice| &choice.options) {
                assert!(!option.name.is_empty(), "{here}: option {}", option.id);
            }
            for mark in field.number.iter().flat_map(|number| &number.marks) {
                assert!(!mark.name.starts_with("mark-"), "{here}: {}", mark.name);
            }
        }
        for preset in &description.presets {
            assert!(!preset.name.is_empty(), "{id}: preset {}", preset.id);
        }
    }
}

/// A key that stands twice hides one of its two texts.
#[test]
fn every_key_stands_once() {
    let mut seen = std::collections::BTreeSet::new();
    for line in include_str!("../src/words/en.ftl").lines().filter(|line| !line.starts_with([' ', '#'])) {
        let Some((key, _)) = line.split_once('=') else { continue };
        assert!(seen.insert(key.trim()), "{key}");
    }
}

/// Each preset fills the calculator without a problem.
#[test]
fn every_preset_answers() {
    for calculator in REGISTER {
        for preset in calculator.presets {
            for values in std::iter::once(&preset.values).chain(preset.held) {
                let values: std::collections::BTreeMap<_, _> = values.iter().copied().collect();
                let question = serde_json::json!({ "calculator": calculator.id, "values": values });
                let answer = answer(&serde_json::from_value(question).unwrap());
                let problems: Vec<_> = answer.fields.iter().filter(|(_, echo)| echo.problem.is_some()).collect();
                assert!(answer.report.is_some(), "{}/{}: {problems:?} {:?}", calculator.id, preset.id, answer.problems);
            }
        }
    }
}
