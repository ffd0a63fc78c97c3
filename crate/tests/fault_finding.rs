//! What the finder of faults says of a line, from its symptom to the cure.
#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used)]

use stageohm::ask::Entry;
use stageohm::diagnosis::{
    CAUSES, FaultAnswer, FaultQuestion, GivenAnswer, KnownCause, PlanNode, Rule, Sound, Symptom, TESTS, find_fault,
};
use stageohm::field::Answers;
use stageohm::named::Named;

const KEYBOARD: &[(&str, &str)] =
    &[("source", "output"), ("power", "earthed"), ("box", "passive"), ("ground", "joined"), ("emf", "0.3")];
const LAPTOP: &[(&str, &str)] = &[("source", "output"), ("power", "leaking"), ("emf", "0.25")];
const GUITAR: &[(&str, &str)] = &[("box", "passive")];
/// Straight into an unbalanced input, with a lead of no capacitance worth the name: what is
/// induced or falls along the shield arrives as it is.
const PLAIN: &[(&str, &str)] = &[
    ("source", "output"),
    ("power", "earthed"),
    ("source_r", "10"),
    ("box", "none"),
    ("run", "unbalanced"),
    ("run_length", "1 m"),
    ("phantom", "off"),
    ("loop_l", "0"),
];

fn question(texts: &[(&str, &str)], symptom: &str, answers: &[(&str, &str)]) -> FaultQuestion {
    let mut values = Named::default();
    for (field, text) in texts {
        values.insert((*field).to_owned(), Entry::Text((*text).to_owned()));
    }
    let given = |(step, outcome): &(&str, &str)| GivenAnswer {
        step: (*step).to_owned(),
        outcome: (*outcome != "?").then(|| (*outcome).to_owned()),
    };
    FaultQuestion {
        values,
        symptom: symptom.to_owned(),
        scope: "one".to_owned(),
        answers: answers.iter().map(given).collect(),
        ..FaultQuestion::default()
    }
}

fn ask(texts: &[(&str, &str)], symptom: &str, answers: &[(&str, &str)]) -> FaultAnswer {
    let answer = find_fault(&question(texts, symptom, answers));
    assert!(answer.problems.is_empty(), "{:?}", answer.problems);
    assert!(answer.fields.iter().all(|(_, echo)| echo.problem.is_none()), "{:?}", answer.fields);
    answer
}

fn share(answer: &FaultAnswer, cause: &str) -> f64 {
    answer.odds.iter().find(|odds| odds.cause == cause).map_or(0.0, |odds| odds.share)
}

fn near(got: f64, expected: f64, within: f64) {
    assert!((got - expected).abs() <= within, "{got} is not {expected}");
}

/// Whatever the cause, something comes of a test, and odds are shares of one.
#[test]
fn likelihoods_and_odds_add_up() {
    for rule in TESTS.iter().map(|test| &test.rule) {
        if let Rule::Known(usual, with) = rule {
            for likelihoods in [*usual].into_iter().chain(with.iter().map(|(_, likelihoods)| *likelihoods)) {
                near(likelihoods.iter().sum(), 1.0, 1e-9);
            }
        }
    }
    for texts in [KEYBOARD, LAPTOP, GUITAR] {
        for symptom in Symptom::ALL {
            let answer = ask(texts, symptom.id(), &[]);
            near(answer.odds.iter().map(|odds| odds.share).sum(), 1.0, 1e-9);
            let next = answer.next.expect("something can be done");
            near(next.outcomes.iter().map(|outcome| outcome.share).sum(), 1.0, 1e-9);
            assert!(next.bits > 0.0 && next.bits <= answer.bits + 1e-9, "{}", next.step);
            assert!(next.to_go.is_some_and(|minutes| minutes >= next.minutes), "{}", next.step);
        }
    }
}

/// Names in rules are those of causes and tests, or nothing would come of them.
#[test]
fn what_a_rule_names_is_there() {
    let is_cause = |id: &&str| CAUSES.iter().any(|cause| cause.id == *id);
    for test in TESTS {
        let named: Vec<&str> = match &test.rule {
            Rule::CutsOff(_, also) => also.to_vec(),
            Rule::Replaces(causes) => causes.to_vec(),
            Rule::Known(_, with) => with.iter().map(|(cause, _)| *cause).collect(),
            Rule::Computed(_, with) => with.iter().map(|(cause, _)| *cause).collect(),
        };
        assert_eq!(named.iter().find(|id| !is_cause(id)), None, "{}", test.id);
        if let Rule::Known(usual, with) = &test.rule {
            assert!(
                with.iter().map(|(_, one)| one.len()).chain([usual.len()]).all(|count| count == test.outcomes.len())
            );
        }
    }
}

/// Bayes does not care for the order of what was found out, and not knowing says nothing.
#[test]
fn the_order_of_answers_does_not_count() {
    let forth = ask(KEYBOARD, "hum", &[("mute", "gone"), ("source-end", "same"), ("lift", "less")]);
    let back = ask(KEYBOARD, "hum", &[("lift", "less"), ("source-end", "same"), ("mute", "gone")]);
    let unknown = ask(
        KEYBOARD,
        "hum",
        &[("lift", "less"), ("thru", "?"), ("source-end", "same"), ("mute", "gone"), ("other-source", "?")],
    );
    for cause in &forth.odds {
        near(share(&back, cause.cause), cause.share, 1e-12);
        near(share(&unknown, cause.cause), cause.share, 1e-12);
    }
    // What was tried is not asked again, known or not.
    let steps: Vec<_> = unknown.next.iter().chain(&unknown.others).map(|step| step.step.clone()).collect();
    assert!(!steps.iter().any(|step| step == "other-source" || step == "lift"), "{steps:?}");
}

/// Two causes whose odds were 2 : 1 and whose likelihoods of an outcome are 3 : 1 have
/// 6 : 1 after it (Bayes, any text on probability).
#[test]
fn an_outcome_moves_the_odds_as_bayes_says() {
    let before = ask(GUITAR, "hum", &[]);
    let after = ask(GUITAR, "hum", &[("turn", "changes")]);
    // The likelihoods of `turn`: 0.93 for the coil, 0.1 for a field, 0.05 for all else.
    let ratio = |answer: &FaultAnswer, cause| share(answer, "coil") / share(answer, cause);
    near(ratio(&after, "field") / ratio(&before, "field"), 0.93 / 0.1, 1e-9);
    near(ratio(&after, "lead-shield") / ratio(&before, "lead-shield"), 0.93 / 0.05, 1e-9);
}

#[test]
fn a_loop_of_a_keyboard_is_found_and_cured_with_numbers() {
    let answer = ask(KEYBOARD, "hum", &[("mute", "gone"), ("source-end", "gone"), ("lift", "gone")]);
    assert_eq!(answer.odds[0].cause, "loop");
    let found = answer.found.expect("it is sure enough");
    assert_eq!(found.cause, "loop");
    let figure = |id: &str| found.figures.iter().find(|figure| figure.id == id).unwrap().value;
    assert!(figure("distance-cured") > figure("distance") + 20.0, "{:?}", found.figures);
}

#[test]
fn each_fault_that_is_followed_by_the_most_probable_answers_ends() {
    for texts in [KEYBOARD, LAPTOP, GUITAR] {
        for symptom in Symptom::ALL {
            let mut question = question(texts, symptom.id(), &[]);
            for _ in 0..40 {
                let answer = find_fault(&question);
                let Some(next) = answer.next else { break };
                let likeliest =
                    next.outcomes.iter().filter(|outcome| !outcome.stops).max_by(|a, b| a.share.total_cmp(&b.share));
                let outcome = likeliest.unwrap().outcome.to_owned();
                question.answers.push(GivenAnswer { step: next.step, outcome: Some(outcome) });
            }
            let answer = find_fault(&question);
            assert!(answer.found.is_some() || answer.next.is_none(), "{}", symptom.id());
        }
    }
}

/// The only step is to stop, whatever else is asked.
#[test]
fn danger_stops_all_else() {
    let danger = FaultQuestion { danger: true, ..question(KEYBOARD, "hum", &[]) };
    let answer = find_fault(&danger);
    assert_eq!(answer.stop, Some("danger"));
    assert!(answer.next.is_none() && answer.odds.is_empty() && answer.others.is_empty());
    // And a meter that reads more than 50 V.
    let answer = ask(KEYBOARD, "hum", &[("volts-between", "dangerous")]);
    assert_eq!(answer.stop, Some("meter"));
    assert!(answer.next.is_none() && answer.found.is_none());
}

#[test]
fn no_step_and_no_cure_opens_a_safety_earth() {
    for texts in [KEYBOARD, LAPTOP, GUITAR] {
        for symptom in Symptom::ALL {
            let answer = ask(texts, symptom.id(), &[]);
            for step in answer.next.iter().chain(&answer.others) {
                // What plugs, lifts, pads or feeds begins with a mute.
                let plugs =
                    ["source-end", "box-input", "console-end", "lift", "supply", "thru", "first-lead", "run", "box"];
                let is_one = plugs.contains(&step.step.as_str()) || step.step.starts_with("ohms");
                assert!(!is_one || step.mute, "{}", step.step);
                assert!(!step.step.contains("earth"), "{}", step.step);
            }
        }
    }
}

#[test]
fn answers_that_contradict_each_other_are_told() {
    let calm = ask(KEYBOARD, "hum", &[("mute", "gone"), ("source-end", "gone"), ("lift", "gone")]);
    assert!(calm.slip.is_none());
    // With the lead out of the instrument it stays, with the run out of the console too, and
    // yet muting the channel stops it.
    let answer = ask(
        KEYBOARD,
        "hum",
        &[("mute", "gone"), ("source-end", "same"), ("box-input", "gone"), ("console-end", "same")],
    );
    assert!(answer.slip.is_some_and(|slip| slip.share < 0.04), "{:?}", answer.slip);
}

#[test]
fn what_a_link_has_that_nobody_knows_is_told() {
    let odd = FaultQuestion {
        known: vec![KnownCause { cause: "gremlins".into(), times: 2.0, seen: 0.0 }],
        ..question(
            &[KEYBOARD, &[("colour", "red")]].concat(),
            "hum",
            &[("prayer", "cured"), ("mute", "purple"), ("mute", "gone")],
        )
    };
    let answer = find_fault(&odd);
    assert_eq!(answer.unknown, ["colour", "gremlins", "prayer", "purple"]);
    assert!(answer.next.is_some());
    let answer = find_fault(&question(KEYBOARD, "growl", &[]));
    assert_eq!(answer.unknown, ["growl"]);
    assert!(answer.next.is_none());
    // What cannot be counted to counts as nothing.
    let endless = KnownCause { cause: "loop".into(), times: f64::NAN, seen: f64::INFINITY };
    let answer = find_fault(&FaultQuestion { known: vec![endless], ..question(KEYBOARD, "hum", &[]) });
    near(answer.odds.iter().map(|odds| odds.share).sum(), 1.0, 1e-9);
}

/// A link may ask for any step that was not done, not only for those that tell most.
#[test]
fn a_step_that_was_wanted_is_told() {
    let told = |answer: &FaultAnswer| -> Vec<String> {
        answer.next.iter().chain(&answer.others).map(|step| step.step.clone()).collect()
    };
    let wanting = |wanted: &str, answers: &[(&str, &str)]| {
        told(&find_fault(&FaultQuestion { wanted: Some(wanted.to_owned()), ..question(KEYBOARD, "hum", answers) }))
    };
    let usual = told(&ask(KEYBOARD, "hum", &[]));
    let missing: Vec<_> = TESTS.iter().map(|test| test.id).filter(|id| usual.iter().all(|step| step != id)).collect();
    let wanted =
        missing.iter().find(|id| wanting(id, &[]).len() > usual.len()).expect("a line has more than seven tests");
    assert_eq!(wanting(wanted, &[]), [usual.clone(), vec![(*wanted).to_owned()]].concat());
    assert_eq!(wanting(&usual[1], &[]), usual);
    assert_eq!(wanting("prayer", &[]), usual);
    let done = wanting("mute", &[("mute", "gone")]);
    assert!(done.iter().all(|step| step != "mute"), "{done:?}");
}

#[test]
fn a_line_that_cannot_be_read_says_where() {
    let answer = find_fault(&question(&[("lead_length", "six")], "hum", &[]));
    assert!(answer.fields.get("lead_length").unwrap().problem.is_some());
    assert!(answer.next.is_none());
}

#[test]
fn what_was_counted_moves_the_odds() {
    let seen = |seen| {
        let known = vec![KnownCause { cause: "lead-shield".into(), times: 1.0, seen }];
        share(&find_fault(&FaultQuestion { known, ..question(KEYBOARD, "hum", &[]) }), "lead-shield")
    };
    assert!(seen(20.0) > 1.5 * seen(0.0) && seen(1e3) > 0.5);
    let times = |times| {
        let known = vec![KnownCause { cause: "loop".into(), times, seen: 0.0 }];
        let answer = find_fault(&FaultQuestion { known, ..question(KEYBOARD, "hum", &[]) });
        share(&answer, "loop") / share(&answer, "pin-1")
    };
    near(times(4.0) / times(1.0), 4.0, 1e-9);
}

/// No loop where nothing closes one, and no flat battery in what has none.
#[test]
fn causes_are_those_of_the_line() {
    let guitar = ask(GUITAR, "hum", &[]);
    for cause in ["loop", "loop-thru", "loop-split", "leakage", "computer", "battery"] {
        near(share(&guitar, cause), 0.0, 0.0);
    }
    assert!(share(&guitar, "coil") > 0.1);
}

/// A resistive loop copies the harmonics of the earth current, a field raises the nth by n
/// (shields and fields: Whitlock, J. Audio Eng. Soc. 43(6), 1995, and Faraday's law).
#[test]
fn harmonics_that_a_cause_brings() {
    let answer = ask(PLAIN, "hum", &[]);
    let lines = |cause: &str| answer.odds.iter().find(|odds| odds.cause == cause).unwrap().lines.clone();
    // The usual levels of the whole line: -40, -6, -12, -18, -24 and -30 dB.
    let usual = [(1, 0.0), (2, -40.0), (3, -6.0), (5, -12.0), (7, -18.0), (9, -24.0), (11, -30.0)];
    for ((harmonic, level), (expected, usual)) in lines("loop").into_iter().zip(usual) {
        assert_eq!(harmonic, expected);
        near(level, usual, 0.1);
    }
    for ((harmonic, level), (expected, usual)) in lines("field").into_iter().zip(usual) {
        assert_eq!(harmonic, expected);
        near(level, usual + 20.0 * f64::from(harmonic).log10(), 0.3);
    }
}

/// A sound shifts the odds and rules nothing out; causes that sound alike keep their odds.
#[test]
fn a_sound_shifts_the_odds() {
    let heard = |family: &'static str| {
        let families = Named::distinct([(family, 1.0)]);
        find_fault(&FaultQuestion { sound: Some(Sound { lines: vec![], families }), ..question(LAPTOP, "buzz", &[]) })
    };
    let before = ask(LAPTOP, "buzz", &[]);
    let dimmer = heard("dimmer");
    assert!(share(&dimmer, "dimmer") > 2.0 * share(&before, "dimmer"));
    assert!(dimmer.odds.iter().all(|odds| odds.share > 0.0 || odds.before == 0.0));
    let odd = heard("mains-odd");
    let ratio = |answer: &FaultAnswer| share(answer, "lead-shield") / share(answer, "run-shield");
    near(ratio(&odd), ratio(&before), 1e-9);
}

/// A telephone in the sound raises no cause of hum but the telephone.
#[test]
fn a_telephone_is_no_hum() {
    for (line, symptom) in [(KEYBOARD, "hum"), (KEYBOARD, "buzz"), (LAPTOP, "buzz"), (GUITAR, "hum"), (GUITAR, "buzz")]
    {
        let before = ask(line, symptom, &[]);
        let families = Named::distinct([("telephone", 1.0)]);
        let sound = Some(Sound { lines: vec![], families });
        let after = find_fault(&FaultQuestion { sound, ..question(line, symptom, &[]) });
        let hums = |id: &str| {
            let cause = CAUSES.iter().find(|cause| cause.id == id).unwrap();
            cause.sounds.iter().any(|(of, _)| matches!(of, Symptom::Hum | Symptom::Buzz))
        };
        for odds in before.odds.iter().filter(|odds| odds.cause != "telephone" && hums(odds.cause)) {
            assert!(share(&after, odds.cause) <= share(&before, odds.cause), "{} {symptom}", odds.cause);
        }
    }
}

fn branches(node: &PlanNode) -> usize {
    node.branches.iter().flatten().map(branches).sum::<usize>() + 1
}

#[test]
fn a_plan_follows_every_answer() {
    let asked = FaultQuestion { plan: Some(3), ..question(KEYBOARD, "hum", &[]) };
    let answer = find_fault(&asked);
    let plan = answer.plan.unwrap();
    assert_eq!(plan.step.as_ref().unwrap().step, answer.next.unwrap().step);
    assert!(branches(&plan) > 4);
    // What comes of its first step leads where the finder goes after that answer.
    let first = plan.step.as_ref().unwrap();
    for (outcome, node) in first.outcomes.iter().zip(&plan.branches) {
        let Some(node) = node else { continue };
        let mut after = asked.clone();
        after.answers.push(GivenAnswer { step: first.step.clone(), outcome: Some(outcome.outcome.to_owned()) });
        let after = find_fault(&after);
        assert_eq!(node.step.as_ref().map(|step| &step.step), after.next.as_ref().map(|step| &step.step));
        near(node.share, outcome.share, 1e-12);
    }
}
