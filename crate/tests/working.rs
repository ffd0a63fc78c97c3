//! What the working prints is what was computed: every substitution, read back
//! and evaluated, gives the result of its step.
#![allow(clippy::unwrap_used, clippy::panic)]

use stageohm::answer::answer;
use stageohm::calculator::{Kind, REGISTER};
use stageohm::formula::parse;
use std::collections::BTreeMap;

#[test]
fn printed_substitutions_give_their_results() {
    for calculator in REGISTER {
        let options = calculator.fields.iter().flat_map(|field| match &field.kind {
            Kind::Choice(choice) => choice.options.iter().map(|option| vec![(field.id, option.id)]).collect(),
            Kind::Number(_) => Vec::new(),
        });
        let presets = calculator
            .presets
            .iter()
            .flat_map(|preset| std::iter::once(preset.values).chain(preset.held.iter().copied()))
            .map(<[_]>::to_vec);
        for values in options.chain(presets) {
            let values: BTreeMap<_, _> = values.into_iter().collect();
            let question = serde_json::json!({ "calculator": calculator.id, "values": values });
            let Some(report) = answer(&serde_json::from_value(question).unwrap()).report else { continue };
            for step in &report.working {
                let here = format!("{} {values:?}: {} → {}", calculator.id, step.formula, step.numbers);
                let got = parse(&step.numbers).unwrap_or_else(|error| panic!("{here}: {error:?}")).value(&[]).unwrap();
                if !step.value.is_finite() {
                    continue;
                }
                let (re, im) = (step.value, step.imaginary);
                let miss = (got.re - re).hypot(got.im - im);
                // Six digits of each number; the dB of a small ratio lose a little.
                assert!(
                    miss <= 2e-5 * re.hypot(im) + 1e-15 || miss < 1e-3 && step.result.ends_with("dB"),
                    "{here}: {got} is not {re} + j {im}"
                );
            }
        }
    }
}
