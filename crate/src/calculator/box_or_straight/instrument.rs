//! What is to be connected, and what stands for it where nothing else is said
//! (common practice, no source; see the catalogue of typical values).

use crate::catalogue::typical::{BASS_COIL_L, BASS_COIL_R, LAPTOP_LEVEL, MINUS_10_DBV, PLUS_4_DBU};
use crate::field::active_box::{BOX_I, BOX_R};
use crate::field::loudspeaker::SPEAKER_R;
use crate::field::microphone::{MICROPHONE_R, MicrophoneKind};
use crate::field::pickup::{COIL_C, COIL_L, COIL_R, TONE_C};
use crate::field::source::{SOURCE_R, SourceKind};
use crate::field::{Put, choice, joined};

choice! {
    /// What is to be connected.
    pub(crate) enum Instrument {
        /// An electric guitar with passive pickups.
        Guitar = "guitar",
        /// An electric bass with passive pickups.
        Bass = "bass",
        /// A piezo pickup without an amplifier.
        Piezo = "piezo",
        /// An instrument with a preamplifier of its own.
        Active = "active",
        /// A pedalboard that ends in a buffer.
        Pedalboard = "pedalboard",
        /// A keyboard.
        Keyboard = "keyboard",
        /// Electronic drums.
        Drums = "drums",
        /// A laptop, a tablet or a telephone.
        Laptop = "laptop",
        /// A headphone output.
        Headphones = "headphones",
        /// A player or a mixer with unbalanced outputs.
        Playback = "playback",
        /// A turntable behind a phono preamplifier.
        Turntable = "turntable",
        /// A dynamic microphone.
        Microphone = "microphone",
        /// A condenser microphone.
        Condenser = "condenser",
        /// A ribbon microphone.
        Ribbon = "ribbon",
        /// A wireless receiver, balanced.
        Receiver = "receiver",
        /// A balanced line output.
        Line = "line",
        /// The line output of an instrument amplifier.
        Amplifier = "amplifier",
        /// The loudspeaker terminals of an amplifier.
        Loudspeaker = "loudspeaker",
    }
}

/// Those that have a left and a right.
pub(super) const STEREO: &[&str] = &[
    Instrument::Pedalboard.id(),
    Instrument::Keyboard.id(),
    Instrument::Drums.id(),
    Instrument::Laptop.id(),
    Instrument::Headphones.id(),
    Instrument::Playback.id(),
    Instrument::Turntable.id(),
];

/// Those that are balanced lines.
const BALANCED_LINES: &[&str] = &[Instrument::Receiver.id(), Instrument::Line.id()];

/// Those that have outputs of their own, of a stated resistance.
pub(super) const OUTPUTS: &[&str] =
    &joined::<_, 11>(&[STEREO, BALANCED_LINES, &[Instrument::Active.id(), Instrument::Amplifier.id()]]);

/// Those that may run on the mains.
pub(super) const WITH_SUPPLY: &[&str] = &joined::<_, 12>(&[OUTPUTS, &[Instrument::Loudspeaker.id()]]);

/// Those whose level is that of a microphone.
pub(super) const MICROPHONES: &[&str] =
    &[Instrument::Microphone.id(), Instrument::Condenser.id(), Instrument::Ribbon.id()];

/// Those that two consoles may share as they are: balanced ones.
pub(super) const BALANCED: &[&str] = &joined::<_, 5>(&[MICROPHONES, BALANCED_LINES]);

/// All that are no microphones.
pub(super) const WITH_LEVEL: &[&str] =
    &joined::<_, 15>(&[&[Instrument::Guitar.id(), Instrument::Bass.id(), Instrument::Piezo.id()], WITH_SUPPLY]);

/// A stereo plug where a balanced one is expected.
pub(super) const STEREO_JACK: &str = "stereo-jack";

/// What stands for a source where nothing else is said.
pub(super) struct Usual {
    /// The source of a whole line.
    pub source: SourceKind,
    /// Open-circuit level, V.
    pub emf: f64,
    /// Crest factor, dB.
    pub crest: f64,
    /// Where its bass and its treble count, Hz.
    pub band: (f64, f64),
    /// How it works, if it is a microphone.
    pub microphone: MicrophoneKind,
    /// What else differs from a whole line's defaults.
    pub values: Vec<Put>,
}

fn usual(source: SourceKind, emf: f64, crest: f64, band: (f64, f64), values: Vec<Put>) -> Usual {
    Usual { source, emf, crest, band, microphone: MicrophoneKind::Dynamic, values }
}

const PLUCKED: (f64, f64) = (80.0, 5e3);
const DEEP: (f64, f64) = (40.0, 2e3);
const WIDE: (f64, f64) = (40.0, 10e3);
const SPOKEN: (f64, f64) = (80.0, 10e3);

impl Instrument {
    /// What stands for it.
    pub(super) fn usual(self) -> Usual {
        use SourceKind::{Balanced, Loudspeaker, Microphone, Output, Pickup, Piezo};
        match self {
            Self::Guitar => usual(Pickup, 0.2, 15.0, PLUCKED, vec![]),
            Self::Bass => {
                let coil = vec![COIL_L.to(BASS_COIL_L), COIL_R.to(BASS_COIL_R), COIL_C.to(150e-12), TONE_C.to(47e-9)];
                usual(Pickup, 0.2, 16.0, DEEP, coil)
            }
            // The active box is one for a piezo; its noise current is that of its 10 MΩ.
            Self::Piezo => usual(Piezo, 0.3, 15.0, PLUCKED, vec![BOX_R.to(10e6), BOX_I.to(0.04e-12)]),
            Self::Active => usual(Output, 0.7, 15.0, PLUCKED, vec![SOURCE_R.to(2e3)]),
            Self::Pedalboard => usual(Output, 0.4, 12.0, PLUCKED, vec![SOURCE_R.to(1e3)]),
            Self::Keyboard => usual(Output, MINUS_10_DBV, 12.0, WIDE, vec![]),
            Self::Drums => usual(Output, 0.7, 18.0, WIDE, vec![SOURCE_R.to(1e3)]),
            Self::Laptop => usual(Output, LAPTOP_LEVEL, 12.0, WIDE, vec![SOURCE_R.to(100.0)]),
            Self::Headphones => usual(Output, 0.5, 13.0, WIDE, vec![SOURCE_R.to(30.0)]),
            Self::Playback | Self::Turntable => usual(Output, MINUS_10_DBV, 12.0, WIDE, vec![SOURCE_R.to(600.0)]),
            Self::Microphone => usual(Microphone, 2e-3, 12.0, SPOKEN, vec![]),
            Self::Condenser => Usual {
                microphone: MicrophoneKind::Condenser,
                ..usual(Microphone, 20e-3, 15.0, SPOKEN, vec![MICROPHONE_R.to(100.0)])
            },
            Self::Ribbon => Usual {
                microphone: MicrophoneKind::Ribbon,
                ..usual(Microphone, 1e-3, 15.0, SPOKEN, vec![MICROPHONE_R.to(300.0)])
            },
            Self::Receiver => usual(Balanced, 20e-3, 14.0, SPOKEN, vec![SOURCE_R.to(200.0)]),
            Self::Line => usual(Balanced, PLUS_4_DBU, 12.0, WIDE, vec![SOURCE_R.to(100.0)]),
            Self::Amplifier => usual(Output, 0.5, 12.0, PLUCKED, vec![SOURCE_R.to(220.0)]),
            Self::Loudspeaker => usual(Loudspeaker, 10.0, 12.0, PLUCKED, vec![SPEAKER_R.to(0.1)]),
        }
    }

    /// Whether it has a left and a right.
    pub(super) fn is_stereo(self) -> bool {
        STEREO.contains(&self.id())
    }

    /// What to mind with it: words to warn with.
    pub(super) fn notes(self) -> &'static [&'static str] {
        match self {
            Self::Laptop | Self::Headphones => &[STEREO_JACK],
            Self::Turntable => &["phono-preamplifier"],
            Self::Amplifier => &["still-loaded"],
            _ => &[],
        }
    }
}
