//! Whatever is asked, the answer is one that a page can show: random questions
//! over all calculators, within the limits and beyond, under every setting.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::flaw::flaws;
use common::question::question;
use proptest::prelude::*;
use stageohm::answer::{Question, answer};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    /// Readings, verdicts, plots, markers, the working and links: nothing without
    /// a value, nothing without a word, and no link to where it is refused.
    #[test]
    fn every_answer_can_be_shown_and_followed(question in question()) {
        let question: Question = serde_json::from_value(question).unwrap();
        prop_assert_eq!(flaws(&answer(&question), &question.settings), Vec::<String>::new());
    }
}
