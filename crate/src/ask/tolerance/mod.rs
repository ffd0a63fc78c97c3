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

mod band;
mod layout;
mod part;
mod search;

use super::{Echo, Problem};
use crate::calculator::Calculator;
use crate::catalogue::tolerance::PartKind;
use crate::field::Values;
use crate::named::Named;
use crate::quantity::Unit;
use crate::report::{Depth, Made};
use crate::settings::Settings;
use crate::words::{Arg, Args, Words};
use layout::Layout;
use part::{Part, kinds, parts};
use search::{Model, Survey};
use serde::{Deserialize, Serialize};

/// The largest tolerance, in percent.
const LARGEST: f64 = 50.0;
/// How often a rig is drawn where nothing else is said.
pub(super) const USUAL_DRAWS: u32 = 2000;
/// The fewest and the most draws.
pub(super) const DRAWS: (u32, u32) = (100, 10_000);
/// The identifier of all parts together.
pub(super) const ALL: &str = "all";

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

impl Calculator {
    /// Whether any of its parts has a tolerance.
    pub fn has_parts(&self) -> bool {
        let mut made = Vec::new();
        self.fields.iter().any(|field| field.kind.is_part()) || {
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
    let model = Model { calculator, values: values.clone(), made, parts: &parts, layout: &layout };
    let mut survey = Survey::new(model, &nominal);
    let quantiles = survey.draw(wanted.draws, wanted.seed);
    (0..survey.searches.len()).for_each(|which| survey.search(which));
    spread.readings = layout.readings(&nominal, &quantiles, &survey.extremes, &say);
    spread.plots = layout.plots(&nominal, &quantiles, &survey.extremes, &say);
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
            || calculator.field(id).is_some_and(|field| field.kind.is_part())
    };
    if let Some(id) = wanted.percent.iter().map(|(id, _)| id).find(|id| !is_known(id)) {
        return Some(say("tolerance-problem-part", &[("id", Arg::name(id))]));
    }
    let too_large = wanted.percent.iter().any(|(_, percent)| !(0.0..=LARGEST).contains(percent));
    let most = Arg::Quantity(LARGEST / 100.0, Unit::Percent);
    too_large.then(|| say("tolerance-problem-percent", &[("to", most)]))
}
