//! The steps to come, whatever comes of each: a flow chart for a rig.

use super::answer::NextStep;
use super::computed::Act;
use super::finder::{ENOUGH, Finder};
use super::theory::{Odds, outcomes};
use crate::settings::Settings;
use serde::Serialize;

/// So deep a plan may be: a page has room for no more.
const DEEPEST: usize = 8;
/// What is less probable than this is not drawn: who gets there asks again.
const RARE: f64 = 0.02;

/// A place in the plan.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PlanNode {
    /// How probable it is to get here.
    pub share: f64,
    /// The cause that is likeliest here.
    pub leads: &'static str,
    /// How the models say that one is cured; see [`NextStep::by`].
    pub by: Option<&'static str>,
    /// How probable its cure is to be the right one.
    pub odds: f64,
    /// What to do here; nothing where the cure is sure enough, nothing more tells anything,
    /// or the plan ends.
    pub step: Option<NextStep>,
    /// What comes of it, by its outcomes in their order; nothing for one that is too rare.
    pub branches: Vec<Option<PlanNode>>,
}

/// The steps to come: of the ones that tell most a minute, the one with the fewest
/// minutes to the cure on average.
pub(super) fn plan(finder: &Finder, odds: &Odds, done: &[usize], depth: usize, settings: &Settings) -> PlanNode {
    node(finder, odds, done, depth.min(DEEPEST), 1.0, settings)
}

fn node(finder: &Finder, odds: &Odds, done: &[usize], depth: usize, share: f64, settings: &Settings) -> PlanNode {
    let case = &finder.case;
    let (_, sure) = case.likeliest_cure(odds);
    let best = if depth == 0 || sure >= ENOUGH { None } else { finder.best(odds, done) };
    let mut branches = Vec::new();
    if let Some((test, _)) = best {
        let done: Vec<_> = done.iter().copied().chain([test]).collect();
        branches.resize_with(case.tests[test].outcomes.len(), || None);
        for (outcome, probability, odds) in outcomes(&case.tests[test], odds) {
            let stops = finder.steps[test].stops(outcome);
            if share * probability >= RARE && !stops {
                branches[outcome] = Some(node(finder, &odds, &done, depth - 1, share * probability, settings));
            }
        }
    }
    PlanNode {
        share,
        leads: finder.leads(odds),
        by: Act::against(&finder.rig, finder.leads(odds)).map(Act::id),
        odds: sure,
        step: best.map(|(test, minutes)| NextStep { to_go: Some(minutes), ..finder.step(test, odds, settings) }),
        branches,
    }
}
