//! How little of a difference is heard.

/// What differs by less at every frequency cannot be heard, dB: judgement, after what is
/// known of just noticeable differences of level and of broad changes of a response. No
/// source states it as a limit.
pub const UNHEARD: f64 = 0.5;
