//! The parts that tolerances move.

use super::{ALL, SpreadKind, SpreadStep, Tolerances, Varied};
use crate::ask::Echo;
use crate::calculator::Calculator;
use crate::catalogue::tolerance::{MARKED, PartKind};
use crate::field::{Kind, Values};
use crate::named::Named;
use crate::quantity::Unit;
use crate::report::Made;
use crate::settings::Settings;
use crate::words::{Arg, Args, Words};

/// A part with the range in which it lies.
pub(super) struct Part {
    pub id: &'static str,
    pub kind: PartKind,
    /// The unit of its field; nothing for a part that the calculator designs,
    /// whose range is that of its factor.
    pub unit: Option<Unit>,
    pub value: f64,
    pub from: f64,
    pub to: f64,
    percent: f64,
}

impl Part {
    pub(super) fn in_words(
        &self,
        calculator: &Calculator,
        say: &impl Fn(&str, Args) -> String,
        settings: &Settings,
    ) -> Varied {
        let words = Words::of(settings.language);
        let made = format!("made-{}", self.id);
        let name = words.of_calculator(calculator.id, if self.unit.is_some() { self.id } else { &made }, "");
        let percent = ("percent", Arg::Entry(self.percent / 100.0, Unit::Percent));
        let text = match self.unit {
            Some(unit) => say(
                "tolerance-varied",
                &[percent, ("from", Arg::Quantity(self.from, unit)), ("to", Arg::Quantity(self.to, unit))],
            ),
            None => say("tolerance-varied-made", &[percent]),
        };
        Varied { name: name.unwrap_or(self.id).to_owned(), text }
    }
}

/// The parts that play a part under the present choices.
pub(super) fn parts(
    calculator: &Calculator,
    values: &Values,
    fields: &Named<Echo>,
    made: &[Made],
    wanted: &Tolerances,
) -> Vec<Part> {
    let percent = |id: &str, kind: PartKind| {
        [id, kind.id(), ALL].iter().find_map(|key| wanted.percent.get(key)).copied().unwrap_or_else(|| kind.usual())
    };
    let of_fields = calculator.fields.iter().filter(|field| fields.get(field.id).is_some_and(|echo| echo.active));
    let of_fields = of_fields.filter_map(|field| {
        let Kind::Number(number) = &field.kind else { return None };
        let (kind, value) = (number.part?, values.optional(*field).ok()??);
        let (percent, (least, most)) = (percent(field.id, kind), number.limits);
        let end = |sign: f64| (value * (1.0 + sign * percent / 100.0)).clamp(least, most);
        let unit = number.unit_under(calculator, values);
        // A part of zero is not there.
        (value > 0.0).then(|| Part {
            id: field.id,
            kind,
            unit: Some(unit),
            value,
            from: end(-1.0),
            to: end(1.0),
            percent,
        })
    });
    let designed = made.iter().map(|made| {
        let percent = percent(made.id, made.kind);
        let off = percent / 100.0;
        Part { id: made.id, kind: made.kind, unit: None, value: 1.0, from: 1.0 - off, to: 1.0 + off, percent }
    });
    of_fields.chain(designed).collect()
}

/// The kinds among the parts, with what can be chosen for each.
pub(super) fn kinds(parts: &[Part], wanted: &Tolerances, say: &impl Fn(&str, Args) -> String) -> Vec<SpreadKind> {
    let present = PartKind::ALL.into_iter().filter(|kind| parts.iter().any(|part| part.kind == *kind));
    present
        .map(|kind| {
            let chosen = [kind.id(), ALL].map(|key| wanted.percent.get(key).copied());
            let percent = chosen.into_iter().flatten().next().unwrap_or_else(|| kind.usual());
            let step = |percent: f64, letter: Option<char>| {
                let args = [
                    ("percent", Arg::Entry(percent / 100.0, Unit::Percent)),
                    ("letter", Arg::Text(letter.map(String::from).unwrap_or_default())),
                ];
                let key = match letter {
                    Some(_) => "tolerance-step",
                    None if percent == 0.0 => "tolerance-exact",
                    None => "tolerance-step-unmarked",
                };
                SpreadStep { percent, text: say(key, &args), usual: percent == kind.usual() }
            };
            let mut steps = vec![step(0.0, None)];
            steps.extend(MARKED.iter().map(|(percent, letter)| step(*percent, Some(*letter))));
            // What is asked for can be chosen, for all parts too where this kind has its own.
            for percent in chosen.into_iter().flatten() {
                if steps.iter().all(|step| step.percent != percent) {
                    let place = steps.partition_point(|step| step.percent < percent);
                    steps.insert(place, step(percent, None));
                }
            }
            SpreadKind { id: kind.id(), name: say(&format!("part-kind-{}", kind.id()), &[]), percent, steps }
        })
        .collect()
}
