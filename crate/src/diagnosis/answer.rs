//! How a fault is told: what the page and the example share. Identifiers and numbers,
//! whose words come after.

use super::computed::Act;
use super::figure::{FaultFigure, of_cause, of_step};
use super::finder::{ENOUGH, Finder, Step};
use super::plan::{PlanNode, plan};
use super::question::FaultQuestion;
use super::theory::{Odds, expected_bits, gains, outcomes};
use crate::ask::{Echo, Problem};
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Values;
use crate::named::Named;
use crate::settings::Settings;
use serde::Serialize;

/// Other steps than the next one that are told.
const OTHERS: usize = 6;

/// The fault of a line, as far as it is known.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FaultAnswer {
    /// How each field of the line was understood.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, Echo>"))]
    pub fields: Named<Echo>,
    /// What is wrong with the line as a whole.
    pub problems: Vec<Problem>,
    /// What of the question nobody here knows, by the identifiers that came.
    pub unknown: Vec<String>,
    /// Why the only step is to stop: `danger`, or `meter` for a reading that counts as such.
    pub stop: Option<&'static str>,
    /// The causes, the likeliest first.
    pub odds: Vec<CauseOdds>,
    /// What is not known of the cure, bits.
    pub bits: f64,
    /// What the source is called: `instrument`, `microphone`, `device` or `loudspeaker`.
    pub source: &'static str,
    /// Of what tells most a minute, what leads to the cure in the fewest minutes on average;
    /// nothing once a cause is sure enough, or nothing tells more.
    pub next: Option<NextStep>,
    /// What else can be done, what tells most a minute first; and the step that was wanted.
    pub others: Vec<NextStep>,
    /// The answer that goes least with the others, where it contradicts them.
    pub slip: Option<SlipTold>,
    /// The cause, once it is sure enough.
    pub found: Option<Found>,
    /// The steps to come, if they were asked for.
    pub plan: Option<PlanNode>,
}

/// How probable a cause is.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct CauseOdds {
    /// Its identifier.
    pub cause: &'static str,
    /// Its cure's; causes of one cure need not be told apart.
    pub cure: &'static str,
    /// Where it sits: `source`, `first-lead`, `thru`, `box`, `run`, `input` or `beyond`.
    pub place: &'static str,
    /// How probable it is.
    pub share: f64,
    /// How probable it was before anything was done.
    pub before: f64,
    /// How common it is judged to be, of all faults of such a line.
    pub common: f64,
    /// The harmonics of the mains that it would bring on this line: order, and level re the
    /// first in dB; none where no model says.
    pub lines: Vec<(u32, f64)>,
}

/// Something to do next.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct NextStep {
    /// Its identifier; `cure-` and a cause's for a cure.
    pub step: String,
    /// The cause whose cure it tries; nothing for a test.
    pub cures: Option<&'static str>,
    /// How long it takes, minutes.
    pub minutes: f64,
    /// Whether the channel is muted first.
    pub mute: bool,
    /// Whether it plugs a lead that a power amplifier drives: that is off first, and keeps its
    /// loudspeaker.
    pub amplifier_off: bool,
    /// How the models say it is cured: `lift`, `isolate`, `thru`, `battery` or `split`; nothing
    /// for a test, and where they say nothing.
    pub by: Option<&'static str>,
    /// What it is expected to tell, bits.
    pub bits: f64,
    /// How long it takes from here on average until a cure is sure enough, minutes, with
    /// this step first; nothing where nobody worked that out.
    pub to_go: Option<f64>,
    /// Whether the models say what comes of it, rather than judgement.
    pub computed: bool,
    /// What may come of it.
    pub outcomes: Vec<StepOutcome>,
    /// What to expect, in numbers of this line.
    pub figures: Vec<FaultFigure>,
}

/// What may come of a step.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct StepOutcome {
    /// Its identifier.
    pub outcome: &'static str,
    /// How probable it is.
    pub share: f64,
    /// The cause that is likeliest after it.
    pub leads: &'static str,
    /// How probable the cure of that one is then.
    pub odds: f64,
    /// Whether the only step after it is to stop.
    pub stops: bool,
}

/// An answer that does not go with the others.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SlipTold {
    /// Its place among the answers of the question.
    pub answer: usize,
    /// How probable it is, given the others.
    pub share: f64,
}

/// The cause that is sure enough.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Found {
    /// Its identifier.
    pub cause: &'static str,
    /// How probable it is that its cure is the right one.
    pub share: f64,
    /// Other causes of the same cure that are not ruled out, the likeliest first.
    pub others: Vec<&'static str>,
    /// How the models say it is cured; see [`NextStep::by`].
    pub by: Option<&'static str>,
    /// The cure in numbers of this line.
    pub figures: Vec<FaultFigure>,
    /// The step that proves it; nothing where it was done.
    pub proof: Option<NextStep>,
}

/// Answers where a fault lies. Whatever is wrong with the question is part of the answer.
pub fn find_fault(question: &FaultQuestion) -> FaultAnswer {
    let settings = &question.settings;
    let (values, fields) = Values::read(&CALCULATOR, &question.values, settings);
    let strange = question.values.iter().map(|(field, _)| field).filter(|field| fields.get(field).is_none());
    let unknown = strange.map(|field| (*field).to_owned()).collect();
    let mut answer = FaultAnswer { fields, unknown, ..FaultAnswer::default() };
    if question.danger {
        answer.stop = Some("danger");
        return answer;
    }
    if answer.fields.iter().any(|(_, echo)| echo.problem.is_some()) {
        return answer;
    }
    match Finder::asked(values, question, &mut answer.unknown) {
        Ok(Some(finder)) => tell(&finder, question, &mut answer),
        Ok(None) => {}
        Err(fault) => Problem::place(&fault, settings, &mut answer.fields, &mut answer.problems),
    }
    answer
}

fn tell(finder: &Finder, question: &FaultQuestion, answer: &mut FaultAnswer) {
    let given = finder.given(&question.answers, &mut answer.unknown);
    if given.iter().any(|given| given.outcome.is_some_and(|outcome| finder.steps[given.step].stops(outcome))) {
        answer.stop = Some("meter");
        return;
    }
    let told: Vec<_> = given.iter().filter_map(|given| Some((given.step, given.outcome?))).collect();
    answer.slip = finder.slip(&told).map(|slip| SlipTold {
        answer: given.iter().filter(|given| given.outcome.is_some()).nth(slip.answer).map_or(0, |given| given.place),
        share: slip.share,
    });
    let (Some(before), Some(odds)) = (finder.odds(), finder.after(&told)) else { return };
    answer.odds = finder.told_odds(&before, &odds);
    answer.bits = finder.case.bits(&odds);
    answer.source = finder.rig.kind;
    let done: Vec<_> = given.iter().map(|given| given.step).collect();
    let is_sure = finder.case.likeliest_cure(&odds).1 >= ENOUGH;
    // Nothing is said to be found before anything was done, unless nothing can be.
    if is_sure && (!told.is_empty() || gains(&finder.case, &odds, &done).is_empty()) {
        answer.found = finder.found(&odds, &told, &question.settings);
    }
    let step = |test| finder.step(test, &odds, &question.settings);
    let best = if answer.found.is_some() { None } else { finder.best(&odds, &done) };
    if best.is_none() && answer.found.is_none() && told.last().is_some_and(|last| finder.helped(*last)) {
        // What helped stays, even where its cause is not quite told from others.
        answer.found = finder.found(&odds, &told, &question.settings);
    }
    answer.next = best.map(|(test, minutes)| NextStep { to_go: Some(minutes), ..step(test) });
    let others = gains(&finder.case, &odds, &done).into_iter().map(|gain| gain.test);
    let mut others: Vec<_> =
        others.filter(|test| best.is_none_or(|(best, _)| best != *test)).take(OTHERS).map(step).collect();
    let wanted = finder.steps.iter().position(|step| question.wanted.as_ref() == Some(&step.name()));
    let is_told = |step: &str| answer.next.iter().chain(&others).any(|told| told.step == step);
    others.extend(wanted.filter(|wanted| !done.contains(wanted)).map(step).filter(|wanted| !is_told(&wanted.step)));
    answer.others = others;
    answer.plan = question.plan.map(|depth| plan(finder, &odds, &done, depth, &question.settings));
}

impl Finder {
    /// How probable each cause is, the likeliest first.
    fn told_odds(&self, before: &Odds, odds: &Odds) -> Vec<CauseOdds> {
        let all: f64 = self.causes.iter().map(|cause| cause.weight).sum();
        let shares = self.causes.iter().zip(odds.shares().iter().zip(before.shares()));
        let mut told: Vec<_> = shares
            .map(|(cause, (share, before))| CauseOdds {
                cause: cause.id,
                cure: cause.cure,
                place: cause.place.id(),
                share: *share,
                before: *before,
                common: cause.weight / all,
                lines: self.rig.lines_of(cause.id),
            })
            .collect();
        told.sort_by(|a, b| b.share.total_cmp(&a.share));
        told
    }

    /// The causes of the likeliest cure, the likeliest first.
    fn likeliest(&self, odds: &Odds) -> Vec<&'static str> {
        let (cure, _) = self.case.likeliest_cure(odds);
        let causes = self.causes.iter().zip(&self.case.causes).zip(odds.shares());
        let mut of_cure: Vec<_> =
            causes.filter(|((_, cause), _)| cause.cure == cure).map(|((kind, _), share)| (kind.id, *share)).collect();
        of_cure.sort_by(|a, b| b.1.total_cmp(&a.1));
        of_cure.into_iter().map(|(id, _)| id).collect()
    }

    /// The cause that is likeliest, of the cure that is.
    pub(super) fn leads(&self, odds: &Odds) -> &'static str {
        self.likeliest(odds).first().copied().unwrap_or_default()
    }

    /// A step, as it is told.
    pub(super) fn step(&self, at: usize, odds: &Odds, settings: &Settings) -> NextStep {
        let step = self.steps[at];
        let after = outcomes(&self.case.tests[at], odds).map(|(outcome, share, odds)| StepOutcome {
            outcome: step.outcomes()[outcome],
            share,
            leads: self.leads(&odds),
            odds: self.case.likeliest_cure(&odds).1,
            stops: step.stops(outcome),
        });
        NextStep {
            step: step.name(),
            cures: match step {
                Step::Test(_) => None,
                Step::Cure(cause) => Some(cause.id),
            },
            minutes: self.case.tests[at].minutes,
            mute: step.mutes(),
            amplifier_off: self.rig.is_loudspeaker && step.mutes() && step.is_before_the_run(),
            by: match step {
                Step::Test(_) => None,
                Step::Cure(cause) => Act::against(&self.rig, cause.id).map(Act::id),
            },
            bits: expected_bits(&self.case, at, odds),
            to_go: None,
            computed: step.is_computed(),
            outcomes: after.collect(),
            figures: of_step(&self.rig, step, &self.likely(odds), settings),
        }
    }

    /// The causes, the likeliest first.
    fn likely(&self, odds: &Odds) -> Vec<&'static str> {
        let mut order: Vec<_> = self.causes.iter().zip(odds.shares()).collect();
        order.sort_by(|a, b| b.1.total_cmp(a.1));
        order.into_iter().map(|(cause, _)| cause.id).collect()
    }

    fn found(&self, odds: &Odds, told: &[(usize, usize)], settings: &Settings) -> Option<Found> {
        let causes = self.likeliest(odds);
        let (cause, others) = causes.split_first()?;
        let (cure, share) = self.case.likeliest_cure(odds);
        let is_left = |other: &&&str| {
            let at = self.causes.iter().position(|cause| cause.id == **other);
            at.is_some_and(|at| odds.shares()[at] >= share / 20.0)
        };
        let proofs: Vec<_> = (0..self.steps.len()).filter(|step| self.proves(*step, cure)).collect();
        let is_proved = told.iter().any(|(step, outcome)| *outcome == 0 && proofs.contains(step));
        let least =
            proofs.into_iter().min_by(|a, b| self.case.tests[*a].minutes.total_cmp(&self.case.tests[*b].minutes));
        Some(Found {
            cause,
            share,
            others: others.iter().filter(is_left).copied().collect(),
            by: Act::against(&self.rig, cause).map(Act::id),
            figures: of_cause(&self.rig, cause, settings),
            proof: least.filter(|_| !is_proved).map(|step| self.step(step, odds, settings)),
        })
    }
}
