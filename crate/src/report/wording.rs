//! A solution in a reader's words.

use super::{Axis, Band, Because, Candidate, Link, Marker, Plot, Reading, Reason, Report, Solution, Trace, Verdict};
use crate::settings::Settings;
use crate::words::Message;
use crate::working::Step;

impl Solution {
    /// The same in the reader's words, decimal sign and units.
    pub fn worded(self, settings: &Settings) -> Report {
        let say = |message: Message| message.text(settings);
        let all = |messages: Vec<Message>| messages.into_iter().map(say).collect();
        Report {
            subject: self.subject.map(say),
            headline: self.headline.into_iter().map(|reading| reading.worded(settings)).collect(),
            further: self.further.into_iter().map(|reading| reading.worded(settings)).collect(),
            plots: self.plots.into_iter().map(|plot| plot.worded(settings)).collect(),
            working: self.working.into_iter().map(|step| step.worded(settings)).collect(),
            warnings: all(self.warnings),
            cautions: all(self.cautions),
            cautions_first: self.cautions_first,
            stop: self.stop,
            sources: all(self.sources),
            links: self.links.into_iter().map(|link| link.worded(settings)).collect(),
            ranking: self.ranking.into_iter().map(|candidate| candidate.worded(settings)).collect(),
            diagram: self.diagram.map(|diagram| diagram.map(say)),
            sound: self.sound,
        }
    }
}

impl Reading<Message> {
    pub(crate) fn worded(self, settings: &Settings) -> Reading {
        let Self { id, name, value, unit, text, exact: _, verdict, because, told } = self;
        let verdict = verdict.map(|verdict| verdict.worded(settings));
        let because = because.map(|Because { text, formula, formula_mathml }| Because {
            text: text.text(settings),
            formula,
            formula_mathml,
        });
        let exact = text.exact(settings);
        Reading { id, name: name.text(settings), value, unit, text: text.text(settings), exact, verdict, because, told }
    }
}

impl Verdict<Message> {
    fn worded(self, settings: &Settings) -> Verdict {
        let mut text = self.text.text(settings);
        // What a message leaves behind where its last part says nothing.
        text.truncate(text.trim_end().len());
        Verdict { tone: self.tone, text }
    }
}

impl Plot<Message> {
    pub(crate) fn worded(self, settings: &Settings) -> Plot {
        let Self { id, title, summary, x, y, traces, markers, bands, stops, key_at } = self;
        let trace =
            |Trace { id, name, reference, x, y }| Trace { id, name: Message::text(&name, settings), reference, x, y };
        let marker = |Marker { x, y, text, stressed }| Marker { x, y, text: Message::text(&text, settings), stressed };
        let band = |Band { from, to, name }| Band { from, to, name: Message::text(&name, settings) };
        Plot {
            id,
            title: title.text(settings),
            summary: summary.text(settings),
            x: x.worded(settings),
            y: y.worded(settings),
            traces: traces.into_iter().map(trace).collect(),
            markers: markers.into_iter().map(marker).collect(),
            bands: bands.into_iter().map(band).collect(),
            stops,
            key_at,
        }
    }
}

impl Axis<Message> {
    fn worded(self, settings: &Settings) -> Axis {
        let Self { name, unit, symbol, log, discrete, from, to, names } = self;
        let names = names.iter().map(|name| name.text(settings)).collect();
        Axis { name: name.text(settings), unit, symbol, log, discrete, from, to, names }
    }
}

impl Step<Message> {
    pub(crate) fn worded(self, settings: &Settings) -> Step {
        let Self { name, chain, formula, formula_mathml, numbers, numbers_mathml, result, value, imaginary } = self;
        Step {
            name: name.text(settings),
            chain,
            formula,
            formula_mathml,
            numbers: numbers.text(settings),
            numbers_mathml: numbers_mathml.text(settings),
            result: result.text(settings),
            value,
            imaginary,
        }
    }
}

impl Link<Message> {
    fn worded(self, settings: &Settings) -> Link {
        let values = self.values.into_iter().map(|(field, value)| (field, value.text(settings))).collect();
        Link { text: self.text.text(settings), calculator: self.calculator, values }
    }
}

impl Candidate<Message> {
    fn worded(self, settings: &Settings) -> Candidate {
        let Self { id, name, place, verdict, reasons, link } = self;
        let reason = |Reason { reading, link }: Reason<Message>| Reason {
            reading: reading.worded(settings),
            link: link.map(|link| link.worded(settings)),
        };
        Candidate {
            id,
            name: name.text(settings),
            place,
            verdict: verdict.worded(settings),
            reasons: reasons.into_iter().map(reason).collect(),
            link: link.worded(settings),
        }
    }
}
