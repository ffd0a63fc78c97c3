//! Rows of the input list, each solved as a whole line.

use super::fill::filled;
use super::map::LineHum;
use super::show::{InputLine, Show};
use crate::ask::{Entry, Problem};
use crate::calculator::Keeps;
use crate::calculator::whole_line::{BY_GAIN, CALCULATOR, graded};
use crate::field::{Bound, Requirement, Values};
use crate::named::Named;
use crate::quantity::Unit;
use crate::report::{Depth, Solution, Tone};
use crate::settings::Settings;
use crate::words::Words;
use serde::Serialize;
use std::collections::HashMap;
use std::rc::Rc;

/// What a figure of a line is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum FigureKind {
    /// What is lost of treble and bass.
    Tone,
    /// The level at the input.
    Level,
    /// The distance from noise.
    Noise,
    /// The distance from hum.
    Hum,
    /// The distance from clipping.
    Headroom,
    /// The supply of what is fed.
    Supply,
    /// How the line is laid: unbalanced length, load on the source.
    Line,
}

/// A figure of a line, and the limit that it is held against.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Figure {
    /// What it is about.
    pub kind: FigureKind,
    /// The reading of the whole-line calculator.
    pub reading: &'static str,
    /// Its number in its unit without prefix.
    pub value: f64,
    /// The unit.
    pub unit: Unit,
    /// What it is held against; nothing where there is no such limit.
    pub limit: Option<f64>,
    /// How far it keeps the limit, in its unit, negative where it misses it.
    pub margin: Option<f64>,
    /// The same re the limit, so that figures compare with each other.
    pub share: Option<f64>,
    /// What to make of it.
    pub tone: Tone,
    /// The same of the line by itself, where `value` is that with everything plugged in.
    pub alone: Option<f64>,
}

impl Figure {
    pub(super) fn is_missed(&self) -> bool {
        self.margin.is_some_and(|margin| margin < 0.0)
    }

    /// The hum of a line among all others, held against a limit, both dB.
    fn hum_on_stage(reading: &'static str, distance: f64, limit: f64, alone: Option<f64>) -> Self {
        let margin = distance - limit;
        Self {
            kind: FigureKind::Hum,
            reading,
            value: distance,
            unit: Unit::Decibel,
            limit: Some(limit),
            margin: Some(margin),
            share: Some(margin / size(limit, Unit::Decibel)),
            tone: graded(margin),
            alone,
        }
    }
}

/// A row, solved.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Row {
    /// The line.
    pub id: String,
    /// Its figures, in the order of the report.
    pub figures: Vec<Figure>,
    /// The place among them of the worst; nothing where none has a limit.
    pub worst: Option<usize>,
    /// How many limits it misses.
    pub missed: usize,
    /// Whether it must not be connected like that before somebody has seen to it.
    pub stop: bool,
    /// How many warnings the whole line has of it.
    pub warnings: usize,
    /// What is wrong with its values, by field; it has no figures then.
    pub problems: Vec<(String, String)>,
    /// What its hum on the stage does not count, in words.
    pub not_counted: Option<String>,
}

impl Row {
    /// What hums on the stage takes the place of what the line would by itself.
    pub(super) fn hum_on_stage(&mut self, hum: &LineHum) {
        let Some(distance) = hum.distance.filter(|_| self.problems.is_empty()) else { return };
        let (reading, limit) = (hum.at.reading(), hum.limit);
        match self.figures.iter_mut().find(|figure| figure.reading == reading) {
            Some(figure) => *figure = Figure::hum_on_stage(reading, distance, limit, Some(figure.value)),
            None => self.figures.push(Figure::hum_on_stage(reading, distance, limit, None)),
        }
        (self.worst, self.missed) = weighed(&self.figures);
    }
}

/// The place of the worst figure, and how many miss their limits.
fn weighed(figures: &[Figure]) -> (Option<usize>, usize) {
    let shares = figures.iter().enumerate().filter_map(|(i, figure)| Some((i, figure.share?)));
    let worst = shares.min_by(|(_, a), (_, b)| a.total_cmp(b)).map(|(i, _)| i);
    (worst, figures.iter().filter(|figure| figure.is_missed()).count())
}

/// What is found of a line, whatever it is called.
#[derive(Clone, Debug, Default)]
pub(super) struct Findings {
    figures: Vec<Figure>,
    worst: Option<usize>,
    pub missed: usize,
    pub stop: bool,
    warnings: usize,
    pub problems: Vec<(String, String)>,
}

impl Findings {
    fn of(&self, id: &str) -> Row {
        Row {
            id: id.to_owned(),
            figures: self.figures.clone(),
            worst: self.worst,
            missed: self.missed,
            stop: self.stop,
            warnings: self.warnings,
            problems: self.problems.clone(),
            not_counted: None,
        }
    }

    /// By how much limits are missed, re each of them.
    pub(super) fn shortfalls(&self) -> impl Iterator<Item = f64> {
        self.figures.iter().filter(|figure| figure.is_missed()).filter_map(|figure| Some(-figure.share?))
    }

    /// The readings that miss their limits.
    pub(super) fn misses(&self) -> Vec<&'static str> {
        let missed = self.figures.iter().filter(|figure| figure.is_missed());
        missed.map(|figure| figure.reading).collect()
    }
}

/// Rows that were solved: what is asked again is not solved again.
#[derive(Debug, Default)]
pub struct Rows {
    known: HashMap<Vec<String>, Rc<Findings>>,
}

impl Rows {
    /// The rows of a show in their order. Of those from before only what has changed
    /// is solved; what no row asks for any more is forgotten.
    pub fn solve(&mut self, show: &Show) -> Vec<Row> {
        let (settings, mut now) = (show.settings(), HashMap::new());
        let rows = show.lines.iter().map(|line| {
            let values = filled(show, line);
            let key = key(&values, &settings);
            let findings = match now.get(&key).or_else(|| self.known.get(&key)) {
                Some(findings) => Rc::clone(findings),
                None => Rc::new(solved(&values, &settings)),
            };
            now.insert(key, Rc::clone(&findings));
            findings.of(&line.id)
        });
        let rows = rows.collect();
        self.known = now;
        rows
    }
}

/// What tells two sets of values from each other.
pub(super) fn key(values: &Named<Entry>, settings: &Settings) -> Vec<String> {
    let one = |(id, entry): (&str, &Entry)| match entry {
        Entry::Text(text) => format!("{id}={text}"),
        Entry::Number(value) => format!("{id}#{}", value.to_bits()),
        Entry::Other => format!("{id}?"),
    };
    let mut key: Vec<_> = values.iter().map(one).collect();
    key.push(format!("{:?}", settings.mains));
    key
}

/// A row of a show, solved by itself.
pub fn solve_row(show: &Show, line: &InputLine) -> Row {
    solved(&filled(show, line), &show.settings()).of(&line.id)
}

/// Solves values of the whole line.
pub(super) fn solved(values: &Named<Entry>, settings: &Settings) -> Findings {
    let (values, echoes) = Values::read(&CALCULATOR, values, settings);
    let problem = |(id, problem): (&str, &Problem)| (id.to_owned(), problem.message.clone());
    let problems: Vec<_> =
        echoes.iter().filter_map(|(id, echo)| Some((id, echo.problem.as_ref()?))).map(problem).collect();
    if !problems.is_empty() {
        return Findings { problems, ..Findings::default() };
    }
    match CALCULATOR.solution(&values, Depth::Readings) {
        Ok(solution) => findings(&solution, &values),
        Err(fault) => {
            let message = Words::of(settings.language).text(fault.key(), fault.args(), settings);
            let problems = vec![(fault.field().unwrap_or_default().to_owned(), message)];
            Findings { problems, ..Findings::default() }
        }
    }
}

fn findings(solution: &Solution, values: &Values) -> Findings {
    let Keeps::These(requirements) = CALCULATOR.keeps else { return Findings::default() };
    let figures: Vec<_> = requirements.iter().filter_map(|requirement| figure(requirement, solution, values)).collect();
    let (worst, missed) = weighed(&figures);
    let (stop, warnings) = (solution.cautions_first, solution.warnings.len());
    Findings { figures, worst, missed, stop, warnings, problems: Vec::new() }
}

/// The figure that a requirement is about; nothing where the line has none.
fn figure(requirement: &Requirement, solution: &Solution, values: &Values) -> Option<Figure> {
    let reading = solution.reading(requirement.reading)?;
    let value = reading.value?;
    let (limit, margin) = match requirement.bound {
        Bound::AtLeast(field) => (values.limit(field), values.limit(field).map(|least| value - least)),
        Bound::AtMost(field) => (values.limit(field), values.limit(field).map(|most| most - value)),
        Bound::Absent => (Some(0.0), Some(-value)),
    };
    let tone = match (&reading.verdict, margin) {
        (_, Some(margin)) if margin < 0.0 => Tone::Trouble,
        (Some(verdict), _) => verdict.tone,
        (None, _) => Tone::Fine,
    };
    Some(Figure {
        kind: kind(requirement.reading),
        reading: requirement.reading,
        value,
        unit: reading.unit,
        limit,
        margin,
        share: margin.zip(limit).map(|(margin, limit)| margin / size(limit, reading.unit)),
        tone,
        alone: None,
    })
}

/// What a margin is weighed by, as the whole line weighs it: its limit, where that is
/// not next to nothing, and for a level what is no small matter of gain.
fn size(limit: f64, unit: Unit) -> f64 {
    match unit {
        Unit::DecibelU => BY_GAIN,
        _ => limit.abs().max(1.0),
    }
}

fn kind(reading: &str) -> FigureKind {
    match reading {
        "loss" | "loss_bass" => FigureKind::Tone,
        "snr" => FigureKind::Noise,
        "signal_to_hum" | "amplifier_hum" => FigureKind::Hum,
        "margin" => FigureKind::Headroom,
        "level" => FigureKind::Level,
        "supply" | "supply_on_source" | "phantom_on_ribbon" => FigureKind::Supply,
        _ => FigureKind::Line,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Within 3 dB of its limit a distance is worth a look (common practice, no source), with
    /// all plugged in as by itself.
    #[test]
    fn hum_near_its_limit() {
        for (distance, tone) in [(59.9, Tone::Trouble), (60.0, Tone::Watch), (62.9, Tone::Watch), (63.0, Tone::Fine)] {
            assert_eq!(Figure::hum_on_stage("signal_to_hum", distance, 60.0, None).tone, tone, "{distance}");
        }
    }
}
