//! The fault of a line: from what is heard to the next thing to do.

use super::cause::{CAUSES, CauseKind, Place};
use super::computed::{Act, distance};
use super::likelihood::{CURED, NOT_CURED, likelihoods};
use super::question::{FaultQuestion, GivenAnswer, Sound};
use super::rig::Rig;
use super::sound::likelihoods_of;
use super::symptom::{Scope, Symptom};
use super::test::{Rule, TESTS, TestKind};
use super::theory::{Case, Cause, Odds, Test, ahead, outcomes};
use crate::fault::Fault;
use crate::field::{Answers, Values};

/// A cause that is as probable as this is the one to mend.
pub const ENOUGH: f64 = 0.9;
/// Nothing sounds quite unlike anything else: so probable is a complaint that a cause is
/// not known for (judgement).
const UNLIKELY: f64 = 0.001;
/// A cause of hum that is as far below the signal as this is heard; for each so many dB
/// more it is a tenth as probable (judgement).
const AUDIBLE: f64 = 60.0;
const FALLS_OFF: f64 = 20.0;
/// And no less than this.
const LEAST: f64 = 0.1;
/// A loss that makes a load or a lead as probable as it is judged to be, dB, and how much
/// more probable a larger one makes it at most (judgement).
const AUDIBLE_LOSS: f64 = 3.0;
const MOST_BY_TONE: f64 = 3.0;
/// An answer that the others leave as improbable as this contradicts them (judgement).
const CONTRADICTS: f64 = 0.04;
/// The odds count as much as so many faults that were seen (judgement).
const SEEN: f64 = 40.0;

/// More than this nobody counts.
const MOST_COUNTED: f64 = 1e4;
/// Tests that plug between the source and the run.
const BEFORE_THE_RUN: &[&str] = &["box-input", "first-lead", "box", "other-source", "ohms-first", "thru"];
/// The test that tells what lies behind the channels.
const MUTE: &str = "mute";
/// A reading that counts as dangerous until somebody competent has cleared it.
const DANGEROUS: &str = "dangerous";

/// Something that can be done next: a test, or to try the cure of a cause.
#[derive(Clone, Copy, Debug)]
pub enum Step {
    /// A test.
    Test(&'static TestKind),
    /// The cure of a cause.
    Cure(&'static CauseKind),
}

impl Step {
    /// Its outcomes by identifier.
    pub fn outcomes(self) -> &'static [&'static str] {
        match self {
            Self::Test(test) => test.outcomes,
            Self::Cure(_) => &["cured", "same"],
        }
    }

    /// Its identifier: a test's, or `cure-` and a cause's.
    pub fn name(self) -> String {
        match self {
            Self::Test(test) => test.id.to_owned(),
            Self::Cure(cause) => format!("cure-{}", cause.id),
        }
    }

    /// Whether the channel is muted first: something is plugged, lifted, padded or fed.
    pub fn mutes(self) -> bool {
        match self {
            Self::Test(test) => test.mute,
            Self::Cure(cause) => !cause.by_hand,
        }
    }

    /// Whether it is done between the source and the run.
    pub fn is_before_the_run(self) -> bool {
        match self {
            Self::Test(test) => BEFORE_THE_RUN.contains(&test.id),
            Self::Cure(cause) => cause.place < Place::Run,
        }
    }

    /// Whether nothing but to stop comes after this outcome.
    pub fn stops(self, outcome: usize) -> bool {
        self.outcomes().get(outcome) == Some(&DANGEROUS)
    }

    /// Whether the models say what comes of it.
    pub fn is_computed(self) -> bool {
        matches!(self, Self::Test(TestKind { rule: Rule::Computed(..), .. }))
    }
}

/// A line with a fault, as a case for its causes and steps.
#[derive(Debug)]
pub struct Finder {
    /// The line.
    pub rig: Rig,
    /// The causes that the line can have.
    pub causes: Vec<&'static CauseKind>,
    /// What can be done with it.
    pub steps: Vec<Step>,
    /// Both as numbers.
    pub case: Case,
    /// On how much of the desk it is heard.
    pub scope: Scope,
}

/// What the reader or this device knows of a cause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known<'a> {
    /// The cause.
    pub cause: &'a str,
    /// It is so many times as common as judged here.
    pub times: f64,
    /// So often it was the cause.
    pub seen: f64,
}

/// What came of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Given {
    /// Its place among the answers.
    pub place: usize,
    /// The step, by its place.
    pub step: usize,
    /// The outcome, by its place; nothing where nobody knows.
    pub outcome: Option<usize>,
}

/// An answer that does not go with the others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// Its place among the answers.
    pub answer: usize,
    /// How probable it is with all others.
    pub share: f64,
}

impl Finder {
    /// The finder of a question; nothing where it names no symptom that is known. What is
    /// not known goes to `unknown`.
    pub(super) fn asked(
        values: Values,
        question: &FaultQuestion,
        unknown: &mut Vec<String>,
    ) -> Result<Option<Self>, Fault> {
        let symptom = Symptom::ALL.iter().find(|symptom| symptom.id() == question.symptom);
        let scope = Scope::ALL.iter().find(|scope| scope.id() == question.scope);
        for (name, is_known) in [(&question.symptom, symptom.is_some()), (&question.scope, scope.is_some())] {
            if !is_known && !name.is_empty() {
                unknown.push(name.clone());
            }
        }
        unknown.extend(
            question
                .known
                .iter()
                .map(|known| &known.cause)
                .filter(|id| CAUSES.iter().all(|cause| cause.id != *id))
                .cloned(),
        );
        let (Some(symptom), Some(scope)) = (symptom, scope) else { return Ok(None) };
        let known: Vec<_> = question
            .known
            .iter()
            .map(|known| Known { cause: &known.cause, times: counted(known.times), seen: counted(known.seen) })
            .collect();
        let mut finder = Self::new(values, *symptom, *scope, &known)?;
        if let Some(sound) = &question.sound {
            finder.hear(sound);
        }
        Ok(Some(finder))
    }

    /// The answers of a question that go with a step of this line; the others go to `unknown`.
    pub(super) fn given(&self, answers: &[GivenAnswer], unknown: &mut Vec<String>) -> Vec<Given> {
        let mut given: Vec<Given> = Vec::new();
        for (place, answer) in answers.iter().enumerate() {
            let step = self.steps.iter().position(|step| step.name() == answer.step);
            let Some(step) = step.filter(|step| given.iter().all(|given| given.step != *step)) else {
                unknown.push(answer.step.clone());
                continue;
            };
            let outcome = answer
                .outcome
                .as_ref()
                .map(|outcome| self.steps[step].outcomes().iter().position(|known| known == outcome));
            match outcome {
                Some(None) => unknown.extend(answer.outcome.clone()),
                known => given.push(Given { place, step, outcome: known.flatten() }),
            }
        }
        given
    }

    /// What was heard shifts how common the causes are taken to be.
    fn hear(&mut self, sound: &Sound) {
        let likelihoods = likelihoods_of(&self.rig, &self.causes, sound);
        for (cause, likelihood) in self.case.causes.iter_mut().zip(likelihoods) {
            cause.weight *= likelihood;
        }
    }

    /// Whether a step that helps proves this cure to be the right one.
    pub(super) fn proves(&self, step: usize, cure: usize) -> bool {
        let cured = &self.case.tests[step].outcomes[0];
        let of_cure = self.case.causes.iter().zip(cured).filter(|(cause, _)| cause.cure == cure);
        self.steps[step].outcomes()[0] == "cured"
            && of_cure.clone().count() > 0
            && of_cure.clone().all(|(_, likelihood)| *likelihood > 0.5)
    }

    /// The faults of a line that sounds like that.
    ///
    /// # Errors
    /// What is wrong with its values.
    pub fn new(values: Values, symptom: Symptom, scope: Scope, known: &[Known]) -> Result<Self, Fault> {
        let rig = Rig::of(values)?;
        let causes: Vec<_> = CAUSES.iter().filter(|cause| (cause.when)(&rig)).collect();
        let tests = TESTS.iter().filter(|test| test.sounds.contains(&symptom) && (test.when)(&rig));
        let mut steps: Vec<_> = tests.map(Step::Test).collect();
        // What a test replaces is cured by it.
        let is_replaced = |cause: &CauseKind| {
            steps.iter().any(|step| match step {
                Step::Test(TestKind { rule: Rule::Replaces(causes), .. }) => causes.contains(&cause.id),
                Step::Test(_) | Step::Cure(_) => false,
            })
        };
        let cures: Vec<_> = causes.iter().filter(|cause| !is_replaced(cause)).map(|cause| Step::Cure(cause)).collect();
        steps.extend(cures);
        let common = commonness(&causes, known);
        let weighed = |(cause, common): (&&CauseKind, f64)| Cause {
            weight: common * heard(&rig, cause, symptom, scope),
            cure: causes.iter().position(|other| other.cure == cause.cure).unwrap_or_default(),
            repair: cause.repair,
        };
        let case = Case {
            causes: causes.iter().zip(common).map(weighed).collect(),
            tests: steps.iter().map(|step| told(&rig, *step, &causes)).collect(),
        };
        Ok(Self { rig, causes, steps, case, scope })
    }

    /// The odds before anything is done.
    pub fn odds(&self) -> Option<Odds> {
        Odds::of(&self.case.weights())
    }

    /// The odds after these steps and their outcomes; nothing where no cause goes with them.
    pub fn after(&self, answers: &[(usize, usize)]) -> Option<Odds> {
        answers.iter().try_fold(self.odds()?, |odds, (step, outcome)| {
            odds.given(self.case.tests.get(*step)?.outcomes.get(*outcome)?).map(|(_, odds)| odds)
        })
    }

    /// The next step by its place, with the minutes to come on average: whether it is there
    /// with the channel muted first, where it is on more than one, then what leads to the
    /// cure soonest.
    pub(super) fn best(&self, odds: &Odds, done: &[usize]) -> Option<(usize, f64)> {
        let best = ahead(&self.case, odds, done, ENOUGH)?;
        let mute = self.steps.iter().position(|step| step.name() == MUTE);
        Some(match mute {
            Some(mute) if self.scope != Scope::One && !done.contains(&mute) => (mute, best.1),
            _ => best,
        })
    }

    /// Whether a step cured it.
    pub(super) fn helped(&self, (step, outcome): (usize, usize)) -> bool {
        self.steps[step].outcomes()[outcome] == "cured"
    }

    /// The answer that goes least with the others, where it contradicts them.
    pub fn slip(&self, answers: &[(usize, usize)]) -> Option<Slip> {
        let share = |answer: usize| {
            let others: Vec<_> =
                answers.iter().enumerate().filter(|(place, _)| *place != answer).map(|(_, one)| *one).collect();
            let odds = self.after(&others)?;
            let (step, outcome) = answers[answer];
            outcomes(&self.case.tests[step], &odds).find(|(at, ..)| *at == outcome).map(|(_, share, _)| share)
        };
        let slips = (0..answers.len()).map(|answer| Slip { answer, share: share(answer).unwrap_or(0.0) });
        // A single answer has nothing to contradict.
        slips.filter(|slip| answers.len() > 1 && slip.share < CONTRADICTS).min_by(|a, b| a.share.total_cmp(&b.share))
    }
}

/// What somebody counted; nothing where that is no number that can be counted to.
fn counted(number: f64) -> f64 {
    if number.is_finite() { number.clamp(0.0, MOST_COUNTED) } else { 0.0 }
}

/// How common each cause is: as judged here, as the reader has it, and as it was seen.
fn commonness(causes: &[&CauseKind], known: &[Known]) -> Vec<f64> {
    let of = |cause: &CauseKind| known.iter().find(|known| known.cause == cause.id);
    let judged: Vec<_> = causes.iter().map(|cause| cause.weight * of(cause).map_or(1.0, |known| known.times)).collect();
    let all: f64 = judged.iter().sum();
    let seen = causes.iter().map(|cause| of(cause).map_or(0.0, |known| known.seen));
    judged.iter().zip(seen).map(|(judged, seen)| SEEN * judged / all + seen).collect()
}

/// How probable it is that a cause sounds like that on this line.
fn heard(rig: &Rig, cause: &CauseKind, symptom: Symptom, scope: Scope) -> f64 {
    let sounds = cause.sounds.iter().find(|(sound, _)| *sound == symptom).map_or(UNLIKELY, |(_, often)| *often);
    let below = |distance: f64| 10.0_f64.powf(-(distance - AUDIBLE).max(0.0) / FALLS_OFF).max(LEAST);
    let loud = distance(rig, cause.id).map_or(1.0, below);
    sounds * cause.scope[scope as usize] * loud * tone(rig, cause, symptom)
}

/// How much more probable it is that a load or a lead dulls or thins the sound, by what
/// the line loses to it.
fn tone(rig: &Rig, cause: &CauseKind, symptom: Symptom) -> f64 {
    let act = match cause.id {
        "load" => Act::HighInput,
        "long-lead" => Act::ShortLead,
        _ => return 1.0,
    };
    let loss = if symptom == Symptom::Thin { "loss_bass" } else { "loss" };
    rig.gains(act, loss).map_or(1.0, |gain| (gain / AUDIBLE_LOSS).clamp(LEAST, MOST_BY_TONE))
}

/// What comes of a step with each of the causes.
fn told(rig: &Rig, step: Step, causes: &[&CauseKind]) -> Test {
    let of = |cause: &&CauseKind| match step {
        Step::Test(test) => likelihoods(rig, test, cause),
        Step::Cure(cured) => if cause.cure == cured.cure { CURED } else { NOT_CURED }.to_vec(),
    };
    let minutes = match step {
        Step::Test(test) => test.minutes,
        Step::Cure(cured) => cured.repair,
    };
    let by_cause: Vec<_> = causes.iter().map(of).collect();
    let outcomes = (0..step.outcomes().len()).map(|outcome| by_cause.iter().map(|of| of[outcome]).collect());
    Test { minutes, outcomes: outcomes.collect() }
}
