//! The ways to connect a source, and the whole line of each.

use super::instrument::Usual;
use super::{CALCULATOR, Channels, InputKind, Second, Supplied};
use crate::calculator::whole_line;
use crate::catalogue::typical::{LINE_INPUT_GAIN, MINUS_10_DBV};
use crate::fault::Fault;
use crate::field::active_box::BOX_GAIN;
use crate::field::console::{
    CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_MOST, CONSOLE_NOISE, CONSOLE_R, EIN, NoiseStatedAs,
};
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, LiftedSupply, POWERED};
use crate::field::earth::{POWER, Power};
use crate::field::loudspeaker::{SPEAKER_EMF, TAKE_OFF};
use crate::field::microphone::{MICROPHONE_EMF, MICROPHONE_KIND};
use crate::field::pad::PAD;
use crate::field::phantom::{ConsolePhantom, PHANTOM};
use crate::field::question::{BASS, LEVEL_LEAST, TREBLE, UNBALANCED_MOST};
use crate::field::run::{RUN, Run};
use crate::field::signal::CREST;
use crate::field::source::{EMF, SOURCE, SOURCE_R, SourceKind};
use crate::field::split::{SECOND_DIFFERENCE, SPLIT, Split};
use crate::field::transformer::{C1, CORE_LOSS, LARGEST, LEAKAGE, MAGNETISING, R1, R2, RATIO};
use crate::field::{Filling, Put, Values};
use crate::quantity::level::dbu;

/// A one-to-one line isolator (common practice, no source).
const ISOLATOR: &[Put] = &[
    RATIO.to(1.0),
    R1.to(60.0),
    R2.to(60.0),
    MAGNETISING.to(20.0),
    CORE_LOSS.to(100e3),
    LEAKAGE.to(5e-3),
    C1.to(300e-12),
    LARGEST.to(18.0),
];

/// The inputs where they differ from a whole line's default, the microphone input
/// (common practice, no source).
const LINE_INPUT: &[Put] = &[CONSOLE_R.to(10e3), CONSOLE_MOST.to(24.0), EIN.to(-95.0)];
const INSTRUMENT_INPUT: &[Put] =
    &[CONSOLE_R.to(1e6), CONSOLE_C.to(50e-12), CONSOLE_MOST.to(12.0), CONSOLE_E.to(10e-9), CONSOLE_I.to(0.1e-12)];
/// A guitar amplifier's: what is hotter than a hot pickup drives it into distortion.
const AMPLIFIER_INPUT: &[Put] =
    &[CONSOLE_R.to(1e6), CONSOLE_C.to(50e-12), CONSOLE_MOST.to(8.0), CONSOLE_E.to(10e-9), CONSOLE_I.to(0.1e-12)];

/// What an instrument input can bring up, dBu: a tenth of a quiet pickup (common
/// practice, no source).
const INSTRUMENT_LEAST: f64 = -40.0;

/// Pads come in steps of this, dB; that of an active box takes off at least so
/// much, one at loudspeaker terminals too, and one of its own at most (common
/// practice, no source).
const PAD_STEP: f64 = 10.0;
const BOX_PAD: f64 = 20.0;
const TAKE_OFF_PAD: f64 = 40.0;
const MOST_PAD: f64 = 60.0;
/// Under this a balanced output is one of microphone level, dBu (common practice,
/// no source).
const MICROPHONE_LEVEL: f64 = -20.0;

/// A way to connect a source.
pub(super) struct Way {
    pub id: &'static str,
    /// What has to be brought: boxes, pads and batteries.
    pub parts: u32,
    /// The box of the whole line.
    pub between: BoxKind,
    /// Whether phantom feeds that box.
    pub by_phantom: bool,
    /// Whether the box is a line isolator.
    pub isolator: bool,
    /// Whether a pad goes with it, in a box of its own or as its own switch.
    pub pad: bool,
    /// How a second console gets its share.
    pub split: Split,
}

const fn way(id: &'static str, parts: u32, between: BoxKind) -> Way {
    Way { id, parts, between, by_phantom: false, isolator: false, pad: false, split: Split::None }
}

/// Every way that there is; a padded one follows the same without a pad.
pub(super) const WAYS: [Way; 12] = [
    way("straight", 0, BoxKind::None),
    Way { pad: true, ..way("straight_pad", 1, BoxKind::None) },
    Way { split: Split::Transformer, ..way("split", 1, BoxKind::None) },
    Way { split: Split::Direct, ..way("y_lead", 1, BoxKind::None) },
    Way { isolator: true, ..way("isolator", 1, BoxKind::Passive) },
    Way { isolator: true, pad: true, ..way("isolator_pad", 2, BoxKind::Passive) },
    way("passive", 1, BoxKind::Passive),
    Way { pad: true, ..way("passive_pad", 1, BoxKind::Passive) },
    Way { by_phantom: true, ..way("phantom", 1, BoxKind::Active) },
    Way { by_phantom: true, pad: true, ..way("phantom_pad", 1, BoxKind::Active) },
    way("battery", 2, BoxKind::Active),
    Way { pad: true, ..way("battery_pad", 2, BoxKind::Active) },
];

/// What is asked, as far as it decides which ways there are.
pub(super) struct Asked {
    pub usual: Usual,
    pub input: InputKind,
    pub phantom: Supplied,
    /// How the source is powered.
    pub power: Power,
    /// Whether another earth than the console's is tied to the source or the box.
    pub earthed: bool,
    /// Whether an amplifier is to be fed from a thru.
    pub thru: bool,
    /// Whether a second console wants the same.
    pub second: Second,
    /// Whether an unbalanced run would be longer than is allowed.
    pub far: bool,
    /// The level of the source, V.
    pub emf: f64,
    /// Whether an active box keeps its phantom supply when its ground is lifted.
    pub lifted_supply: LiftedSupply,
    /// How many channels there are at the two ends.
    pub channels: Channels,
    /// What to mind with such a source.
    pub notes: &'static [&'static str],
}

impl Asked {
    /// Whether a way makes sense at all: a microphone needs no box, a line isolator
    /// is for outputs, and what ends at an instrument input is no balanced
    /// microphone level. A pad loads what is not an output. A thru is that of a box.
    pub(super) fn makes_sense(&self, way: &Way) -> bool {
        let source = self.usual.source;
        if (self.second == Second::None) != (way.split == Split::None) {
            return false;
        }
        match (source, way.between) {
            (SourceKind::Microphone, BoxKind::None) => true,
            // What keeps phantom off a ribbon.
            (SourceKind::Microphone, BoxKind::Passive) => {
                way.isolator && !way.pad && self.usual.microphone.suffers() && self.phantom == Supplied::Always
            }
            (SourceKind::Loudspeaker, BoxKind::None) => !way.pad && !self.thru,
            (_, BoxKind::None) => !self.thru && (!way.pad || source.is_resistive()),
            (SourceKind::Balanced, BoxKind::Passive) if way.isolator => true,
            // A passive box brings a line down to what a guitar's amplifier expects.
            (SourceKind::Balanced, BoxKind::Passive) => !way.pad && self.input == InputKind::Amplifier,
            (SourceKind::Output, BoxKind::Passive) if way.isolator => !self.thru,
            _ if way.isolator => false,
            // A buffer at the instrument.
            (SourceKind::Piezo, BoxKind::Active) if self.input == InputKind::Instrument => !way.by_phantom && !way.pad,
            (SourceKind::Loudspeaker, _) => self.has_microphone_input() || self.input == InputKind::Line,
            (SourceKind::Balanced | SourceKind::Microphone, BoxKind::Active) => false,
            (_, BoxKind::Passive) => {
                !way.pad && (self.has_microphone_input() || self.input == InputKind::Line || self.for_amplifier())
            }
            (_, BoxKind::Active) => self.has_microphone_input() || self.input == InputKind::Line,
        }
    }

    pub(super) fn has_microphone_input(&self) -> bool {
        matches!(self.input, InputKind::Microphone | InputKind::Either)
    }

    /// Whether the input would take a stereo plug for a balanced one.
    pub(super) fn takes_balanced(&self) -> bool {
        matches!(self.input, InputKind::Microphone | InputKind::Line | InputKind::Either)
    }

    /// Whether an output is to be brought down to an amplifier's input.
    fn for_amplifier(&self) -> bool {
        self.input == InputKind::Amplifier && self.usual.source == SourceKind::Output
    }

    /// What one reaches for, the lower the sooner, where nothing else decides: a
    /// high impedance wants an active box; all else the passive one that needs no
    /// supply; into a line input within reach a line isolator; between two earths any
    /// transformer rather than an amplifier. A transformer splits better than a lead
    /// (common practice, no source).
    pub(super) fn habit(&self, way: &Way) -> u32 {
        let near = match self.input {
            InputKind::Line => true,
            InputKind::Either => !self.far,
            InputKind::Microphone | InputKind::Instrument | InputKind::Amplifier => false,
        };
        match way.between {
            BoxKind::None => u32::from(way.split == Split::Direct),
            BoxKind::Passive if way.isolator && near => 2,
            BoxKind::Active if !self.usual.source.is_resistive() => 3,
            BoxKind::Passive if !way.isolator => 4,
            BoxKind::Passive if self.earthed => 5,
            BoxKind::Active => 6,
            BoxKind::Passive => 7,
        }
    }

    /// The input that a way goes into.
    pub(super) fn input_of(&self, way: &Way) -> InputKind {
        if self.input != InputKind::Either {
            return self.input;
        }
        let faint = match self.usual.source {
            SourceKind::Microphone => true,
            SourceKind::Balanced => dbu(self.emf) < MICROPHONE_LEVEL,
            SourceKind::Pickup | SourceKind::Piezo | SourceKind::Output | SourceKind::Loudspeaker => false,
        };
        let straight = way.between == BoxKind::None || way.isolator;
        if straight && !faint { InputKind::Line } else { InputKind::Microphone }
    }

    /// What the whole lines of all ways have in common.
    pub(super) fn common(&self, values: &Values) -> Result<Filling, Fault> {
        let mut filling = whole_line::CALCULATOR.filling_from(&CALCULATOR, values)?;
        self.fill_source(values, &mut filling)?;
        Ok(filling)
    }

    /// The whole line of a way, which begins with what it has in [`Asked::common`]. A
    /// padded one takes off at least `excess` dB.
    pub(super) fn filling(&self, common: &Filling, values: &Values, way: &Way, excess: f64) -> Result<Filling, Fault> {
        let mut filling = common.clone();
        self.fill_console(&mut filling, way);
        if let Some(most) = values.optional(CONSOLE_MOST)? {
            filling.put(CONSOLE_MOST, most);
        }
        let pad = (excess / PAD_STEP).ceil() * PAD_STEP;
        match (way.pad, self.usual.source, way.between) {
            (true, SourceKind::Loudspeaker, BoxKind::Passive | BoxKind::Active) => {
                filling.put(TAKE_OFF, pad.max(TAKE_OFF_PAD));
            }
            (_, SourceKind::Loudspeaker, _) => filling.put(TAKE_OFF, 0.0),
            (false, ..) => {}
            (true, _, BoxKind::Active) => filling.put(BOX_GAIN, -pad.max(BOX_PAD)),
            (true, _, BoxKind::None | BoxKind::Passive) => filling.put(PAD, pad.min(MOST_PAD)),
        }
        Ok(filling)
    }

    /// What is plugged in, and how it is powered.
    fn fill_source(&self, values: &Values, filling: &mut Filling) -> Result<(), Fault> {
        let usual = &self.usual;
        filling.choose(SOURCE, usual.source);
        filling.choose(MICROPHONE_KIND, usual.microphone);
        filling.choose(POWER, self.power);
        let emf = match usual.source {
            SourceKind::Microphone => MICROPHONE_EMF,
            SourceKind::Loudspeaker => SPEAKER_EMF,
            SourceKind::Pickup | SourceKind::Piezo | SourceKind::Output | SourceKind::Balanced => EMF,
        };
        let (bass, treble) = usual.band;
        filling.put(emf, self.emf);
        filling.put(CREST, values.optional(CREST)?.unwrap_or(usual.crest));
        filling.put(BASS, values.optional(BASS)?.unwrap_or(bass));
        filling.put(TREBLE, values.optional(TREBLE)?.unwrap_or(treble));
        filling.put_all(&usual.values);
        if let Some(r) = values.optional(SOURCE_R)? {
            filling.put(SOURCE_R, r);
        }
        Ok(())
    }

    /// The way to the console, and its input.
    fn fill_console(&self, filling: &mut Filling, way: &Way) {
        let input = self.input_of(way);
        filling.put_all(match input {
            InputKind::Microphone | InputKind::Either => &[],
            InputKind::Line => LINE_INPUT,
            InputKind::Instrument => INSTRUMENT_INPUT,
            InputKind::Amplifier => AMPLIFIER_INPUT,
        });
        match input {
            InputKind::Line => filling.put(LEVEL_LEAST, dbu(MINUS_10_DBV) - LINE_INPUT_GAIN),
            InputKind::Instrument | InputKind::Amplifier => filling.put(LEVEL_LEAST, INSTRUMENT_LEAST),
            InputKind::Microphone | InputKind::Either => {}
        }
        if way.isolator {
            filling.put_all(ISOLATOR);
        }
        if matches!(input, InputKind::Instrument | InputKind::Amplifier) {
            filling.choose(RUN, Run::Unbalanced);
            // A lead to an amplifier is judged by its tone, noise and hum.
            if input == InputKind::Amplifier {
                filling.put(UNBALANCED_MOST, None);
            }
            filling.choose(CONSOLE_NOISE, NoiseStatedAs::Densities);
        }
        filling.choose(BOX, way.between);
        filling.choose(SPLIT, way.split);
        if self.second == Second::Near {
            filling.put(SECOND_DIFFERENCE, 0.0);
        }
        filling.choose(PHANTOM, if self.has_phantom(way, input) { ConsolePhantom::P48 } else { ConsolePhantom::Off });
        filling.choose(POWERED, if way.by_phantom { BoxSupply::Phantom } else { BoxSupply::Battery });
        let may_lift = !way.by_phantom || self.lifted_supply == LiftedSupply::Kept;
        // What a transformer keeps apart is not joined again at loudspeaker terminals.
        let lifts = self.earthed || self.usual.source == SourceKind::Loudspeaker;
        filling.choose(GROUND, if lifts && may_lift { Ground::Lifted } else { Ground::Joined });
    }

    /// Whether phantom stands on the input: it is on the contacts of its XLR only,
    /// and a line or an instrument input takes the jack.
    fn has_phantom(&self, way: &Way, input: InputKind) -> bool {
        input == InputKind::Microphone
            && match self.phantom {
                Supplied::None => false,
                Supplied::Switched => way.by_phantom || self.usual.microphone.needs_phantom(),
                Supplied::Always => true,
            }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Boxes, pads and batteries to be brought, counted by hand: the pad of an
    /// active box is its own switch, and so is that of one for loudspeaker terminals.
    #[test]
    fn parts_of_every_way() {
        let counted = [
            ("straight", 0),
            ("straight_pad", 1),
            ("split", 1),
            ("y_lead", 1),
            ("isolator", 1),
            ("isolator_pad", 2),
            ("passive", 1),
            ("passive_pad", 1),
            ("phantom", 1),
            ("phantom_pad", 1),
            ("battery", 2),
            ("battery_pad", 2),
        ];
        assert_eq!(WAYS.map(|way| (way.id, way.parts)), counted);
    }
}
