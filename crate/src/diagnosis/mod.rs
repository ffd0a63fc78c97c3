//! Finding a fault: the causes that a line may have, and the test that tells most a minute.
//!
//! One thing is wrong. Each cause has its odds, each test its minutes and the likelihood
//! of its outcomes with every cause; an outcome moves the odds (Bayes). A test is worth
//! the loss of entropy that is expected of it for each of its minutes (Breese and Heckerman,
//! MSR-TR-96-06, 1996; Heckerman, Breese and Rommelse, CACM 38(3), 1995); of the best by
//! this, the next is the one with the fewest minutes to come on average. A cure is a step
//! like a test, and when only cures are left they are tried by odds over minutes (Kadane
//! and Simon).

mod answer;
mod cause;
mod computed;
mod figure;
mod finder;
mod likelihood;
mod plan;
mod question;
mod rig;
mod sound;
mod symptom;
mod test;
pub mod theory;

pub use answer::{CauseOdds, FaultAnswer, Found, NextStep, SlipTold, StepOutcome, find_fault};
pub use cause::{CAUSES, CauseKind, Place};
pub use computed::Act;
pub use figure::FaultFigure;
pub use finder::{ENOUGH, Finder, Given, Known, Slip, Step};
pub use plan::PlanNode;
pub use question::{FaultQuestion, GivenAnswer, KnownCause, Sound};
pub use rig::Rig;
pub use symptom::{Scope, Symptom};
pub use test::{Rule, TESTS, TestKind};
