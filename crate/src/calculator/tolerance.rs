//! What the tolerances of its parts make of a calculator's answer.
//!
//! One procedure serves all calculators: each part is drawn anywhere within its
//! tolerance, every value as likely as any other and independent of the other
//! parts, and the calculator is asked again. That distribution is the cautious
//! one where only limits are known (JCGM 100:2008, 4.3.7).
//!
//! The worst case is searched and not only drawn: from the worst draw of a
//! reading, or of a point of a curve, each part in turn goes to the better end
//! of its range, or to the best place inside where both ends are worse, as at a
//! resonance. What is found is at least as wide as all draws. It is exact where
//! the answer rises or falls with each part, whichever values the others have;
//! elsewhere it is a bound that some rig does reach, and a worse one cannot be
//! excluded.

use super::reader::{Echo, Problem};
use super::report::{Plot, Solution};
use super::{Calculator, Depth, Values};
use crate::catalogue::tolerance::{MARKED, PartKind};
use crate::field::Kind;
use crate::named::Named;
use crate::quantity::Unit;
use crate::settings::Settings;
use crate::spread::{Draws, Extremes, Samples};
use crate::words::{Arg, Args, Message, Words};
use serde::{Deserialize, Serialize};

/// The shares of the draws that lie below the lower, the middle and the upper value.
const SHARES: [f64; 3] = [0.05, 0.5, 0.95];
/// A curve is shown where at least this share of the draws has it.
const SHOWN: f64 = 0.5;
/// Points of each curve from which its worst case is searched, at most.
const SEARCHED: usize = 12;
/// How often each part is tried again after the others have moved.
const ROUNDS: usize = 3;
/// The largest tolerance, in percent.
const LARGEST: f64 = 50.0;
/// How often a rig is drawn where nothing else is said.
const USUAL_DRAWS: u32 = 2000;
/// The fewest and the most draws.
const DRAWS: (u32, u32) = (100, 10_000);
/// The share of the vertical axis by which a band may stretch it at either end.
const STRETCH: f64 = 0.25;
/// The identifier of all parts together.
const ALL: &str = "all";

/// Which tolerances parts have, and how often a rig is drawn.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Tolerances {
    /// Tolerances in percent, 0 to 50, by the identifier of a field, of a kind of
    /// part, or by `all`; the first of these that is there holds, else the usual
    /// one of the kind.
    #[serde(default)]
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, number>"))]
    pub percent: Named<f64>,
    /// How often a rig is drawn, 100 to 10 000.
    #[serde(default = "draws")]
    pub draws: u32,
    /// The same seed draws the same rigs.
    #[serde(default)]
    pub seed: u32,
}

fn draws() -> u32 {
    USUAL_DRAWS
}

/// What the tolerances of parts make of an answer.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Spread {
    /// What is wrong with the tolerances asked for.
    pub problem: Option<Problem>,
    /// What was done, in words.
    pub message: String,
    /// The kinds of parts that play a part, with their tolerances.
    pub kinds: Vec<SpreadKind>,
    /// Each part that was varied.
    pub varied: Vec<Varied>,
    /// Each reading that has a number in any draw.
    pub readings: Vec<ReadingSpread>,
    /// Each plot.
    pub plots: Vec<PlotSpread>,
}

/// A kind of parts with its tolerance.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SpreadKind {
    /// Identifier.
    pub id: &'static str,
    /// Name.
    pub name: String,
    /// Its tolerance, in percent.
    pub percent: f64,
    /// Tolerances to choose from.
    pub steps: Vec<SpreadStep>,
}

/// A tolerance to choose.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SpreadStep {
    /// In percent.
    pub percent: f64,
    /// With the letter that is marked on parts.
    pub text: String,
    /// Whether it is the usual one.
    pub usual: bool,
}

/// A part that was varied.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Varied {
    /// Its name.
    pub name: String,
    /// From where to where, in words.
    pub text: String,
}

/// How a reading is spread.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct ReadingSpread {
    /// The reading.
    pub id: &'static str,
    /// 5 % of the draws in which it exists lie below.
    pub low: Option<f64>,
    /// Half of them lie below.
    pub middle: Option<f64>,
    /// 95 % of them lie below.
    pub high: Option<f64>,
    /// The least that was found.
    pub least: Option<f64>,
    /// The most that was found.
    pub most: Option<f64>,
    /// The share of draws in which it exists.
    pub share: f64,
    /// From the lower to the upper value, in words; empty where tolerances do
    /// not touch it.
    pub text: String,
    /// The worst case in words.
    pub worst: String,
}

/// How the curves of a plot are spread.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PlotSpread {
    /// The plot.
    pub id: &'static str,
    /// What it shows, in words.
    pub summary: String,
    /// The least that the vertical axis has to show.
    pub from: f64,
    /// The most that the vertical axis has to show.
    pub to: f64,
    /// The curves, without those to compare with.
    pub traces: Vec<TraceSpread>,
}

/// How a curve is spread, at each of its places along the horizontal axis.
/// Stretches that it reaches in less than half of the draws hold NaN.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct TraceSpread {
    /// The curve.
    pub id: &'static str,
    /// 5 % of the draws lie below.
    pub low: Vec<f64>,
    /// 95 % of the draws lie below.
    pub high: Vec<f64>,
    /// The least that was found.
    pub least: Vec<f64>,
    /// The most that was found.
    pub most: Vec<f64>,
}

/// A part that a calculator designs, and the factor by which it is off.
#[derive(Clone, Debug)]
pub(super) struct Made {
    pub id: &'static str,
    pub kind: PartKind,
    pub factor: f64,
}

impl Calculator {
    /// Whether any of its parts has a tolerance.
    pub fn has_parts(&self) -> bool {
        let mut made = Vec::new();
        let is_part = |kind: &Kind| matches!(kind, Kind::Number(number) if number.part.is_some());
        self.fields.iter().any(|field| is_part(&field.kind)) || {
            let settings = Settings::default();
            let (values, _) = Values::read(self, &Named::default(), &settings);
            self.solution_of(&values, Depth::Readings, &mut made).is_ok() && !made.is_empty()
        }
    }
}

/// Draws rigs whose parts are off within their tolerances, and searches the
/// worst of them. `values` have a report, and `fields` is how they were read.
pub fn solve_tolerances(
    calculator: &Calculator,
    values: &Values,
    fields: &Named<Echo>,
    wanted: &Tolerances,
    settings: &Settings,
) -> Spread {
    let words = Words::of(settings.language);
    let say = |key: &str, args: Args| words.text(key, args, settings);
    let mut made = Vec::new();
    // The place where a band is widest may have a name.
    let Ok(nominal) = calculator.solution_of(values, Depth::Plots, &mut made) else {
        return Spread::default();
    };
    let parts = parts(calculator, values, fields, &made, wanted);
    let mut spread = Spread { kinds: kinds(&parts, wanted, &say), ..Spread::default() };
    if let Some(message) = problem(calculator, &made, wanted, &say) {
        spread.problem = Some(Problem { message, offers: Vec::new() });
        return spread;
    }
    let varied = |part: &&Part| part.from < part.to;
    spread.varied = parts.iter().filter(varied).map(|part| part.in_words(calculator, &say, settings)).collect();
    if spread.varied.is_empty() {
        spread.message = say("tolerance-nothing", &[]);
        return spread;
    }
    spread.message = say("tolerance-message", &[("draws", Arg::Text(wanted.draws.to_string()))]);

    let layout = Layout::of(&nominal);
    let rig = Rig { calculator, values: values.clone(), made, parts: &parts, layout: &layout };
    let mut found = Found::new(rig, &nominal);
    let quantiles = found.draw(wanted.draws, wanted.seed);
    (0..found.searches.len()).for_each(|which| found.search(which));
    spread.readings = layout.readings(&nominal, &quantiles, &found.extremes, &say);
    spread.plots = layout.plots(&nominal, &quantiles, &found.extremes, &say);
    spread
}

/// What is wrong with the tolerances asked for, in words.
fn problem(
    calculator: &Calculator,
    made: &[Made],
    wanted: &Tolerances,
    say: &impl Fn(&str, Args) -> String,
) -> Option<String> {
    let (fewest, most) = DRAWS;
    if !(fewest..=most).contains(&wanted.draws) {
        let count = |count: u32| Arg::Text(count.to_string());
        return Some(say("tolerance-problem-draws", &[("from", count(fewest)), ("to", count(most))]));
    }
    let is_known = |id: &str| {
        id == ALL
            || PartKind::ALL.iter().any(|kind| kind.id() == id)
            || made.iter().any(|made| made.id == id)
            || calculator
                .field(id)
                .is_some_and(|field| matches!(&field.kind, Kind::Number(number) if number.part.is_some()))
    };
    if let Some(id) = wanted.percent.iter().map(|(id, _)| id).find(|id| !is_known(id)) {
        return Some(say("tolerance-problem-part", &[("id", Arg::name(id))]));
    }
    let too_large = wanted.percent.iter().any(|(_, percent)| !(0.0..=LARGEST).contains(percent));
    let most = Arg::Quantity(LARGEST / 100.0, Unit::Percent);
    too_large.then(|| say("tolerance-problem-percent", &[("to", most)]))
}

/// A part with the range in which it lies.
struct Part {
    id: &'static str,
    kind: PartKind,
    /// The unit of its field; nothing for a part that the calculator designs,
    /// whose range is that of its factor.
    unit: Option<Unit>,
    value: f64,
    from: f64,
    to: f64,
    percent: f64,
}

impl Part {
    fn in_words(&self, calculator: &Calculator, say: &impl Fn(&str, Args) -> String, settings: &Settings) -> Varied {
        let words = Words::of(settings.language);
        let made = format!("made-{}", self.id);
        let name = words.of_calculator(calculator.id, if self.unit.is_some() { self.id } else { &made }, "");
        let percent = ("percent", Arg::Quantity(self.percent / 100.0, Unit::Percent));
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
fn parts(
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
fn kinds(parts: &[Part], wanted: &Tolerances, say: &impl Fn(&str, Args) -> String) -> Vec<SpreadKind> {
    let present = PartKind::ALL.into_iter().filter(|kind| parts.iter().any(|part| part.kind == *kind));
    present
        .map(|kind| {
            let chosen = [kind.id(), ALL].map(|key| wanted.percent.get(key).copied());
            let percent = chosen.into_iter().flatten().next().unwrap_or_else(|| kind.usual());
            let step = |percent: f64, letter: Option<char>| {
                let args = [
                    ("percent", Arg::Quantity(percent / 100.0, Unit::Percent)),
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

/// Where the numbers of a solution stand in a row: first the readings, then the
/// curves.
struct Layout {
    readings: Vec<&'static str>,
    curves: Vec<Curve>,
    places: usize,
}

struct Curve {
    plot: &'static str,
    trace: &'static str,
    x: Vec<f64>,
    log: bool,
    start: usize,
    /// The points from which its worst case is searched.
    searched: Vec<usize>,
}

impl Layout {
    fn of(nominal: &Solution) -> Self {
        let readings: Vec<_> = nominal.headline.iter().chain(&nominal.further).map(|reading| reading.id).collect();
        let mut places = readings.len();
        let mut curves = Vec::new();
        for plot in &nominal.plots {
            for trace in plot.traces.iter().filter(|trace| !trace.reference) {
                let start = places;
                let searched = telling(&trace.y, plot.y.log);
                places += trace.x.len();
                curves.push(Curve {
                    plot: plot.id,
                    trace: trace.id,
                    x: trace.x.clone(),
                    log: plot.x.log,
                    start,
                    searched,
                });
            }
        }
        Self { readings, curves, places }
    }

    /// The numbers of a solution, NaN for what it does not have.
    fn row(&self, solution: Option<&Solution>, row: &mut Vec<f64>) {
        row.clear();
        row.resize(self.places, f64::NAN);
        let Some(solution) = solution else { return };
        for (slot, id) in row.iter_mut().zip(&self.readings) {
            *slot = solution.reading(id).and_then(|reading| reading.value).unwrap_or(f64::NAN);
        }
        for curve in &self.curves {
            let plot = solution.plots.iter().find(|plot| plot.id == curve.plot);
            let trace = plot.and_then(|plot| plot.traces.iter().find(|trace| trace.id == curve.trace));
            if let (Some(trace), Some(slots)) = (trace, row.get_mut(curve.start..curve.start + curve.x.len())) {
                if trace.x == curve.x {
                    slots.iter_mut().zip(&trace.y).for_each(|(slot, y)| *slot = *y);
                } else {
                    slots.iter_mut().zip(&curve.x).for_each(|(slot, x)| *slot = at(&trace.x, &trace.y, *x, curve.log));
                }
                slots.iter_mut().filter(|slot| slot.is_infinite()).for_each(|slot| *slot = f64::NAN);
            }
        }
    }

    fn readings(
        &self,
        nominal: &Solution,
        quantiles: &[([f64; 3], f64)],
        extremes: &Extremes,
        say: &impl Fn(&str, Args) -> String,
    ) -> Vec<ReadingSpread> {
        let some = |value: f64| Some(value).filter(|value| value.is_finite());
        let extremes = extremes.least.iter().zip(&extremes.most);
        let places = self.readings.iter().zip(quantiles).zip(extremes);
        places
            .filter_map(|((id, ([low, middle, high], share)), (least, most))| {
                let unit = nominal.reading(id)?.unit;
                some(*middle)?;
                let range = |key: &str, from: f64, to: f64| {
                    say(key, &[("from", Arg::Quantity(from, unit)), ("to", Arg::Quantity(to, unit))])
                };
                // What rounding moves is not moved by tolerances.
                let touched = *most - *least > 1e-9 * most.abs().max(least.abs()) || *share < 1.0;
                let mut text = if touched { range("tolerance-range", *low, *high) } else { String::new() };
                let worst = if touched { range("tolerance-worst", *least, *most) } else { String::new() };
                if *share < 1.0 {
                    let share = ("share", Arg::Quantity(*share, Unit::Percent));
                    text = say("tolerance-range-share", &[("range", Arg::Text(text)), share]);
                }
                let [low, middle, high, least, most] = [*low, *middle, *high, *least, *most].map(some);
                Some(ReadingSpread { id, low, middle, high, least, most, share: *share, text, worst })
            })
            .collect()
    }

    fn plots(
        &self,
        nominal: &Solution,
        quantiles: &[([f64; 3], f64)],
        extremes: &Extremes,
        say: &impl Fn(&str, Args) -> String,
    ) -> Vec<PlotSpread> {
        let trace = |curve: &Curve| {
            let mut band = TraceSpread { id: curve.trace, low: vec![], high: vec![], least: vec![], most: vec![] };
            for place in curve.start..curve.start + curve.x.len() {
                let found = quantiles.get(place).filter(|(_, share)| *share >= SHOWN);
                let extreme = |of: &[f64]| found.and(of.get(place)).copied().unwrap_or(f64::NAN);
                let [low, _, high] = found.map_or([f64::NAN; 3], |(shares, _)| *shares);
                band.low.push(low);
                band.high.push(high);
                band.least.push(extreme(&extremes.least));
                band.most.push(extreme(&extremes.most));
            }
            band
        };
        nominal
            .plots
            .iter()
            .filter_map(|plot| {
                let curves: Vec<_> = self.curves.iter().filter(|curve| curve.plot == plot.id).collect();
                let traces: Vec<_> = curves.iter().map(|curve| trace(curve)).collect();
                let summary = summary(plot, curves.first()?, traces.first()?, say);
                let (from, to) = stretched(plot, &traces);
                Some(PlotSpread { id: plot.id, summary, from, to, traces })
            })
            .collect()
    }
}

/// The first band of a plot in words, at its widest.
fn summary(plot: &Plot<Message>, curve: &Curve, band: &TraceSpread, say: &impl Fn(&str, Args) -> String) -> String {
    let scale = |y: f64| if plot.y.log { y.ln() } else { y };
    let widths = band.low.iter().zip(&band.high).map(|(low, high)| scale(*high) - scale(*low));
    let widest = widths.enumerate().filter(|(_, width)| width.is_finite()).max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((i, _)) = widest.filter(|(_, width)| *width > 0.0) else { return say("tolerance-plot-none", &[]) };
    let quantity = |values: &[f64]| Arg::Quantity(values.get(i).copied().unwrap_or(f64::NAN), plot.y.unit);
    let x = curve.x.get(i).copied().unwrap_or(f64::NAN);
    let place = match plot.x.names.get(x as usize) {
        Some(name) => Arg::Text(say("tolerance-place", &[("place", Arg::Messages(vec![name.clone()]))])),
        None => Arg::Quantity(x, plot.x.unit),
    };
    let args = [
        ("place", place),
        ("low", quantity(&band.low)),
        ("high", quantity(&band.high)),
        ("least", quantity(&band.least)),
        ("most", quantity(&band.most)),
    ];
    say("tolerance-plot", &args)
}

/// The vertical axis with room for the bands, as far as they may stretch it.
fn stretched(plot: &Plot<Message>, traces: &[TraceSpread]) -> (f64, f64) {
    let log = plot.y.log;
    let scale = |y: f64| if log { y.ln() } else { y };
    let back = |y: f64| if log { y.exp() } else { y };
    let (from, to) = (scale(plot.y.from), scale(plot.y.to));
    let room = STRETCH * (to - from);
    let least = traces.iter().flat_map(|trace| &trace.least).fold(f64::INFINITY, |least, y| least.min(*y));
    let most = traces.iter().flat_map(|trace| &trace.most).fold(f64::NEG_INFINITY, |most, y| most.max(*y));
    // NaN of the logarithm of what is not positive loses every comparison.
    let (least, most) = (scale(least).max(from - room), scale(most).min(to + room));
    (if least < from { back(least) } else { plot.y.from }, if most > to { back(most) } else { plot.y.to })
}

/// Points that tell most of a curve: its ends, and in between half of them
/// evenly, half where it bends.
fn telling(heights: &[f64], log: bool) -> Vec<usize> {
    let Some(last) = heights.len().checked_sub(1) else { return Vec::new() };
    let scale = |y: f64| if log { y.ln() } else { y };
    let bend = |three: &[f64]| match three {
        [a, b, c] => Some((scale(*a) - 2.0 * scale(*b) + scale(*c)).abs()).filter(|bend| bend.is_finite()),
        _ => None,
    };
    let bends: Vec<_> = heights.windows(3).map(|three| bend(three).unwrap_or(0.0)).collect();
    let all = bends.iter().sum::<f64>().max(f64::MIN_POSITIVE);
    let even = 1.0 / bends.len().max(1) as f64;
    let step = |passed: f64| (passed * (SEARCHED - 1) as f64).floor();
    let mut points = vec![0];
    let mut passed = 0.0;
    for (i, bend) in bends.iter().enumerate() {
        let before = passed;
        passed += 0.5 * (even + bend / all);
        if step(passed) > step(before) {
            points.push(i + 1);
        }
    }
    points.push(last);
    points.dedup();
    points
}

/// The height of a curve at `x`; NaN beyond its ends.
fn at(along: &[f64], heights: &[f64], x: f64, log: bool) -> f64 {
    let after = along.partition_point(|place| *place < x);
    let point = |i: usize| along.get(i).copied().zip(heights.get(i).copied());
    match (after.checked_sub(1).and_then(point), point(after)) {
        (_, Some((x1, y1))) if x1 == x => y1,
        (Some((x0, y0)), Some((x1, y1))) => {
            let share = if log { (x / x0).ln() / (x1 / x0).ln() } else { (x - x0) / (x1 - x0) };
            y0 + share * (y1 - y0)
        }
        _ => f64::NAN,
    }
}

/// A calculator whose parts can be moved.
struct Rig<'a> {
    calculator: &'a Calculator,
    values: Values,
    made: Vec<Made>,
    parts: &'a [Part],
    layout: &'a Layout,
}

impl Rig<'_> {
    /// The row of a rig with its parts at these values.
    fn row(&mut self, at: &[f64], depth: Depth, row: &mut Vec<f64>) {
        for (part, value) in self.parts.iter().zip(at) {
            if part.unit.is_some() {
                self.values.put(part.id, *value);
            } else if let Some(made) = self.made.iter_mut().find(|made| made.id == part.id) {
                made.factor = *value;
            }
        }
        let solution = self.calculator.solution_of(&self.values, depth, &mut self.made);
        self.layout.row(solution.ok().as_ref(), row);
    }
}

/// A place of a row to be driven as far as it goes.
struct Search {
    place: usize,
    /// +1 for the most, −1 for the least.
    sign: f64,
    depth: Depth,
    /// The best found so far, times the sign, and its parts.
    best: f64,
    at: Vec<f64>,
}

/// All that was found about a rig so far.
struct Found<'a> {
    rig: Rig<'a>,
    row: Vec<f64>,
    extremes: Extremes,
    searches: Vec<Search>,
}

impl<'a> Found<'a> {
    fn new(rig: Rig<'a>, nominal: &Solution) -> Self {
        let mut found =
            Self { row: Vec::new(), extremes: Extremes::new(rig.layout.places), searches: searches(rig.layout), rig };
        let at: Vec<_> = found.rig.parts.iter().map(|part| part.value).collect();
        found.rig.layout.row(Some(nominal), &mut found.row);
        found.meet(&at);
        found
    }

    /// Draws rigs; the quantiles of each place with the share of draws that have it.
    fn draw(&mut self, count: u32, seed: u32) -> Vec<([f64; 3], f64)> {
        let mut random = Draws::new(seed);
        let mut samples = Samples::new(self.rig.layout.places, count as usize);
        let mut at = Vec::new();
        for _ in 0..count {
            at.clear();
            at.extend(self.rig.parts.iter().map(|part| random.between(part.from, part.to)));
            self.rig.row(&at, Depth::Curves, &mut self.row);
            samples.push(&self.row);
            self.meet(&at);
        }
        samples.quantiles(SHARES)
    }

    /// Every search learns from every rig that is met.
    fn meet(&mut self, at: &[f64]) {
        self.extremes.meet(&self.row);
        for search in &mut self.searches {
            let value = self.row.get(search.place).map_or(f64::NAN, |value| search.sign * value);
            if value > search.best {
                search.best = value;
                at.clone_into(&mut search.at);
            }
        }
    }

    /// Moves one part after the other to where it drives a place furthest.
    fn search(&mut self, which: usize) {
        let parts = self.rig.parts;
        for round in 0..ROUNDS {
            let Some(before) = self.searches.get(which).map(|search| search.best) else { return };
            for (i, part) in parts.iter().enumerate().filter(|(_, part)| part.from < part.to) {
                self.move_part(which, i, part, round == 0);
            }
            if self.searches.get(which).is_none_or(|search| search.best <= before) {
                return;
            }
        }
    }

    /// Moves one part to the ends of its range, and inside where both are worse.
    fn move_part(&mut self, which: usize, i: usize, part: &Part, look_inside: bool) {
        let Some(Search { place, sign, depth, best, at }) = self.searches.get(which) else { return };
        let (place, sign, depth, mut best, mut at) = (*place, *sign, *depth, *best, at.clone());
        let Some(here) = at.get(i).copied() else { return };
        let mut value = |x: f64| {
            if let Some(slot) = at.get_mut(i) {
                *slot = x;
            }
            self.rig.row(&at, depth, &mut self.row);
            self.meet(&at);
            self.row.get(place).map(|value| sign * value).filter(|value| !value.is_nan()).unwrap_or(f64::NEG_INFINITY)
        };
        let at_end = here == part.from || here == part.to;
        let mut ends = if at_end { best } else { f64::NEG_INFINITY };
        for end in [part.from, part.to].into_iter().filter(|end| *end != here) {
            ends = ends.max(value(end));
        }
        if at_end && look_inside {
            best = best.max(value(0.5 * (part.from + part.to)));
        }
        // A part that does not matter is worse at its ends by rounding only.
        if ends < best - 1e-12 * best.abs() {
            golden_section(value, part.from, part.to);
        }
    }
}

fn searches(layout: &Layout) -> Vec<Search> {
    let mut searches = Vec::new();
    let mut add = |place, depth| {
        for sign in [1.0, -1.0] {
            searches.push(Search { place, sign, depth, best: f64::NEG_INFINITY, at: Vec::new() });
        }
    };
    (0..layout.readings.len()).for_each(|place| add(place, Depth::Readings));
    for curve in &layout.curves {
        curve.searched.iter().for_each(|point| add(curve.start + point, Depth::Curves));
    }
    searches
}

/// Closes in on a maximum to a thousandth of the range, which is a millionth of
/// what the range does to it.
fn golden_section(mut value: impl FnMut(f64) -> f64, mut from: f64, mut to: f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let inside = |from: f64, to: f64| (to - GOLDEN * (to - from), from + GOLDEN * (to - from));
    let (mut low, mut high) = inside(from, to);
    let (mut at_low, mut at_high) = (value(low), value(high));
    for _ in 0..14 {
        if at_low > at_high {
            to = high;
            (high, at_high) = (low, at_low);
            low = inside(from, to).0;
            at_low = value(low);
        } else {
            from = low;
            (low, at_low) = (high, at_high);
            high = inside(from, to).1;
            at_high = value(high);
        }
    }
}
