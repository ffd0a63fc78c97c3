//! A passive magnetic pickup with its controls.
//!
//! Model: e.m.f. in series with R and L (a loss resistance parallel to L stands
//! for eddy currents), winding capacitance across the terminals, then the
//! controls. Usual values stand in [`catalogue::typical`](crate::catalogue::typical).

use crate::network::{Element, OnePort, Path, Section};

/// How the two coils of a pickup are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coils {
    /// One coil.
    One,
    /// Two equal coils in series.
    Series,
    /// Two equal coils in parallel.
    Parallel,
}

/// The law of a rotary control: the share of its track below the wiper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taper {
    /// a = x.
    Linear,
    /// a = (81^x − 1)/80: a tenth of the track at half a turn, as audio
    /// controls are made (common practice, no source).
    Audio,
}

/// The audio taper's base: (√81 − 1)/(81 − 1) is a tenth.
const AUDIO: f64 = 81.0;

impl Taper {
    /// The share of the track at rotation `turn`, 0 to 1.
    pub fn share(self, turn: f64) -> f64 {
        match self {
            Self::Linear => turn,
            Self::Audio => (AUDIO.powf(turn) - 1.0) / (AUDIO - 1.0),
        }
    }
}

/// A rotary control.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pot {
    /// Resistance of the whole track, Ω.
    pub r: f64,
    /// Rotation, 0 to 1.
    pub turn: f64,
    /// Its law.
    pub taper: Taper,
}

/// A tone control: a variable resistance and a capacitor to ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToneControl {
    /// The control; fully up leaves its whole track in series.
    pub pot: Pot,
    /// The capacitor, F.
    pub c: f64,
    /// Whether it stands before the volume control, seen from the coil.
    pub before_volume: bool,
}

/// The load that stands for none, Ω.
const NO_LOAD: f64 = 10e6;

/// A passive magnetic pickup with its controls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pickup {
    /// Resistance of one coil, Ω.
    pub r: f64,
    /// Inductance of one coil, H.
    pub l: f64,
    /// Winding capacitance of one coil, F.
    pub c: f64,
    /// Loss resistance parallel to the inductance of one coil, Ω.
    pub loss: Option<f64>,
    /// How the coils are joined.
    pub coils: Coils,
    /// Coupling of two coils, negative where they are out of phase; |k| < 1.
    pub coupling: f64,
    /// The volume control, none if there is no path through one.
    pub volume: Option<Pot>,
    /// The tone control, none if there is no path through one.
    pub tone: Option<ToneControl>,
}

impl Pickup {
    /// Resistance, inductance, winding capacitance and loss resistance of all
    /// coils together. Two equal coils carry equal currents, so that they act
    /// as one with L(1 + k) each.
    pub fn whole(&self) -> (f64, f64, f64, Option<f64>) {
        let l = self.l * (1.0 + self.coupling);
        match self.coils {
            Coils::One => (self.r, self.l, self.c, self.loss),
            Coils::Series => (2.0 * self.r, 2.0 * l, self.c / 2.0, self.loss.map(|r| 2.0 * r)),
            Coils::Parallel => (self.r / 2.0, l / 2.0, 2.0 * self.c, self.loss.map(|r| r / 2.0)),
        }
    }

    /// The same with its volume control full up.
    #[must_use]
    pub fn with_full_volume(self) -> Self {
        Self { volume: self.volume.map(|pot| Pot { turn: 1.0, ..pot }), ..self }
    }

    /// The same with its tone control full up.
    #[must_use]
    pub fn with_full_tone(self) -> Self {
        let full = |tone: ToneControl| ToneControl { pot: Pot { turn: 1.0, ..tone.pot }, ..tone };
        Self { tone: self.tone.map(full), ..self }
    }

    /// The pickup at its own best, from which its tone is judged: both controls full
    /// up, and nothing connected.
    pub fn at_its_best(&self) -> Path {
        self.with_full_volume().with_full_tone().path(OnePort::OPEN)
    }

    /// A load that is next to none.
    pub fn no_load() -> OnePort {
        OnePort::resistor(NO_LOAD)
    }

    /// The coil and the controls as a source; what follows is added behind.
    /// The volume control must not be at zero, where there is no signal.
    pub fn path(&self, load: OnePort) -> Path {
        let (r, l, c, loss) = self.whole();
        let source = match loss {
            None => OnePort::series_rl(r, l),
            Some(loss) => OnePort::Series(vec![OnePort::resistor(r), OnePort::parallel_rl(loss, l)]),
        };
        let tone = self.tone.map(|tone| {
            let series = tone.pot.r * tone.pot.taper.share(tone.pot.turn);
            (
                tone.before_volume,
                Section { name: "part-tone", element: Element::Shunt(OnePort::series_rc(series, tone.c)) },
            )
        });
        let mut chain = vec![Section { name: "part-winding", element: Element::Shunt(OnePort::capacitor(c)) }];
        chain.extend(tone.clone().filter(|(before, _)| *before).map(|(_, part)| part));
        if let Some(volume) = self.volume {
            let below = volume.taper.share(volume.turn);
            if below < 1.0 {
                let above = OnePort::resistor(volume.r * (1.0 - below));
                chain.push(Section { name: "part-volume", element: Element::Series(above) });
            }
            let below = OnePort::resistor(volume.r * below);
            chain.push(Section { name: "part-volume", element: Element::Shunt(below) });
        }
        chain.extend(tone.filter(|(before, _)| !*before).map(|(_, part)| part));
        Path { source, chain, load }
    }
}
