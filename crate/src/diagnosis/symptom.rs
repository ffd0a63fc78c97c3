//! What is heard, and on how much of the desk.

use crate::field::choice;

choice! {
    /// What is heard.
    pub enum Symptom {
        /// A low steady tone.
        Hum = "hum",
        /// The same with an edge.
        Buzz = "buzz",
        /// A high tone, steady or moving.
        Whine = "whine",
        /// Noise.
        Hiss = "hiss",
        /// Short noises.
        Crackle = "crackle",
        /// No bass, or hollow.
        Thin = "thin",
        /// No treble.
        Dull = "dull",
        /// Harsh.
        Distorted = "distorted",
        /// Too quiet.
        Quiet = "quiet",
        /// Nothing at all.
        Dead = "dead",
        /// A radio station, a telephone, a data link.
        Radio = "radio",
        /// There and gone.
        Intermittent = "intermittent",
        /// A bang when something is plugged or switched.
        Thump = "thump",
    }
}

choice! {
    /// On how much of the desk.
    pub enum Scope {
        /// One channel.
        One = "one",
        /// Some.
        Several = "several",
        /// Every channel.
        All = "all",
    }
}
