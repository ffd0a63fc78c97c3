//! What two rigs sound like: a source through the response of each, with its hum, its
//! noise and its clipping at their computed ratio to the signal.
//!
//! The signal of a rig is its source by its rms, times the response at 1 kHz: what the
//! calculators state hum and noise against.
//!
//! Accuracy: the rendered response is that of the core to 0.1 dB from 20 Hz to 16 kHz
//! at 44.1 kHz and more. It has minimum phase, and its impulse response [`LENGTH`]
//! samples: a third of a second at 48 kHz.
//!
//! Everything is a loop: responses are convolved around its end, and the lines of a hum
//! moved to whole periods, so that it goes on without a seam.

mod apart;
mod convolve;
mod impulse;
mod instrument;
mod loop_of;
mod loudness;
mod note;
mod ramp;
mod response;
mod scene;
mod speech;

pub use apart::hardly_apart;
pub use convolve::convolve;
pub use impulse::{LENGTH, impulse};
pub use instrument::Instrument;
pub use loop_of::{LONGEST, NoLoop, loop_of};
pub use loudness::{Weighting, loudness};
pub use ramp::Ramp;
pub use response::Response;
pub use scene::{FADE, LIMIT, Rendered, START, STOP, SWITCH, Side, SideHeard, Ways, render};
