//! The line diagram of a rig: its parts, and the level and headroom at each.

use super::level_chain::Point;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::console::{CONSOLE_MOST, CONSOLE_R};
use crate::field::converter::ALIGNMENT;
use crate::field::direct_box::BOX;
use crate::field::lead::LEAD_LENGTH;
use crate::field::loudspeaker::TAKE_OFF;
use crate::field::pad::PAD;
use crate::field::preamp::{INPUT_GAIN, SET_GAIN};
use crate::field::run::RUN_LENGTH;
use crate::field::source::{EMF, SOURCE, SourceKind};
use crate::field::split::SPLIT;
use crate::field::thru::{THRU, THRU_LENGTH};
use crate::part::{Between, Rig};
use crate::quantity::Unit;
use crate::report::{Diagram, EarthLoop, Part, PartSymbol, Sheet};
use crate::words::{Arg, Args, Message};

/// What box or straight in calls the field of the console's input, and of a second
/// console.
const INPUT: &str = "input";
const SECOND: &str = "second";

/// The parts of a diagram as they are put together.
pub(super) struct Draft<'a> {
    sheet: &'a Sheet,
    parts: Vec<Part<Message>>,
    loops: Vec<EarthLoop<Message>>,
    hums: bool,
}

/// Hum below this is not worth a word, dBu: the thermal noise of 150 Ω in the audio band
/// is some 10 dB above it.
const LEAST_HUM: f64 = -140.0;

/// How a lead is drawn.
pub(super) fn lead_symbol(balanced: bool) -> PartSymbol {
    if balanced { PartSymbol::Pair } else { PartSymbol::Coaxial }
}

impl<'a> Draft<'a> {
    /// Nothing yet, in the words of this sheet.
    pub(super) fn new(sheet: &'a Sheet) -> Self {
        Self { sheet, parts: Vec::new(), loops: Vec::new(), hums: false }
    }

    /// The parts of a rig of these values, with the level and headroom at each point.
    /// `balanced` says it of the first lead and of the run.
    pub(super) fn of_rig(
        sheet: &'a Sheet,
        values: &Values,
        rig: &Rig,
        points: &[Point],
        balanced: [bool; 2],
    ) -> Result<Self, Fault> {
        let mut draft = Self::new(sheet);
        let kind = values.choice(SOURCE)?;
        let (symbol, source) = match kind {
            SourceKind::Pickup => (PartSymbol::Coil, "rig-pickup"),
            SourceKind::Piezo => (PartSymbol::Crystal, "rig-piezo"),
            SourceKind::Output => (PartSymbol::Source, "rig-output"),
            SourceKind::Balanced => (PartSymbol::Source, "rig-balanced"),
            SourceKind::Microphone => (PartSymbol::Microphone, "rig-microphone"),
            SourceKind::Loudspeaker => (PartSymbol::Amplifier, "rig-loudspeaker"),
        };
        draft.add("source", symbol, source, &[SOURCE.id(), EMF.id]);
        if rig.lead.length > 0.0 {
            draft.add("lead", lead_symbol(balanced[0]), "rig-lead", &[LEAD_LENGTH.id]);
            draft.quantity("lead", "rig-length", rig.lead.length, Unit::Metre);
        }
        if let Some(thru) = &rig.thru {
            // Without a box to have one it is the way to a second console.
            let (id, name, fields) = match rig.between {
                Between::Nothing => ("second", "rig-second", [SPLIT.id(), SECOND]),
                Between::Passive(_) | Between::Active(_) => ("thru", "rig-thru", [THRU.id(), THRU_LENGTH.id]),
            };
            draft.add(id, PartSymbol::Input, name, &fields).branch = true;
            draft.quantity(id, "rig-length", thru.lead.length, Unit::Metre);
        }
        if rig.take_off.is_some() {
            draft.add("take_off", PartSymbol::Attenuator, "rig-take-off", &[TAKE_OFF.id]);
            draft.quantity("take_off", "rig-loss", values.number(TAKE_OFF)?, Unit::Decibel);
        }
        match rig.between {
            Between::Nothing => {}
            Between::Passive(_) => {
                draft.add("box", PartSymbol::Transformer, "rig-passive", &[BOX.id()]);
            }
            Between::Active(_) => {
                draft.add("box", PartSymbol::Amplifier, "rig-active", &[BOX.id()]);
            }
        }
        if rig.run.length > 0.0 {
            draft.add("run", lead_symbol(balanced[1]), "rig-run", &[RUN_LENGTH.id]);
            draft.quantity("run", "rig-length", rig.run.length, Unit::Metre);
        }
        if rig.pad.is_some() {
            draft.add("pad", PartSymbol::Attenuator, "rig-pad", &[PAD.id]);
            draft.quantity("pad", "rig-loss", values.number(PAD)?, Unit::Decibel);
        }
        draft.add("console", PartSymbol::Input, "rig-console", &[INPUT, CONSOLE_R.id, CONSOLE_MOST.id]);
        if points.iter().any(Point::is_behind_the_input) {
            draft.add("gain", PartSymbol::Gain, "rig-gain", &[INPUT_GAIN.id, SET_GAIN.id]);
            draft.add("converter", PartSymbol::Converter, "rig-converter", &[ALIGNMENT.id()]);
        }
        draft.levels(points);
        Ok(draft)
    }

    /// Adds a part behind those that there are; its name is the word `name`.
    pub(super) fn add(
        &mut self,
        id: &'static str,
        symbol: PartSymbol,
        name: &'static str,
        fields: &[&'static str],
    ) -> &mut Part<Message> {
        let at = self.parts.len();
        let name = self.sheet.word(name, &[]);
        self.parts.push(Part { id, symbol, name, values: vec![], fields: fields.to_vec(), branch: false, earth: None });
        &mut self.parts[at]
    }

    /// The part with this identifier.
    pub(super) fn part(&mut self, id: &str) -> Option<&mut Part<Message>> {
        self.parts.iter_mut().find(|part| part.id == id)
    }

    /// Says something of a part, if it is there.
    pub(super) fn say(&mut self, id: &str, word: &'static str, args: Args) {
        let said = self.sheet.word(word, args);
        if let Some(part) = self.part(id) {
            part.values.push(said);
        }
    }

    /// The same of a quantity, which is `value` in the word.
    pub(super) fn quantity(&mut self, id: &str, word: &'static str, value: f64, unit: Unit) {
        if value.is_finite() {
            self.say(id, word, &[("value", Arg::Quantity(value, unit))]);
        }
    }

    /// Level and headroom at the points of a chain.
    fn levels(&mut self, points: &[Point]) {
        for point in points {
            let (part, word) = match point.names.id {
                "source" => ("source", "rig-open"),
                "box_input" => ("box", "rig-in"),
                "box_output" => ("box", "rig-out"),
                "pad_input" => ("pad", "rig-in"),
                "console_input" => ("console", "rig-in"),
                "gain" => ("gain", "rig-out"),
                _ => ("converter", "rig-in"),
            };
            self.quantity(part, word, point.level, Unit::DecibelU);
            if let Some(margin) = point.margin() {
                self.quantity(
                    part,
                    if margin < 0.0 { "rig-clips" } else { "rig-headroom" },
                    margin.abs(),
                    Unit::Decibel,
                );
            }
        }
    }

    /// Hum at a part, A-weighted as it arrives at the console, dBu.
    pub(super) fn hum(&mut self, id: &str, word: &'static str, level: f64) {
        // Below all noise there is none to speak of.
        if level < LEAST_HUM {
            return;
        }
        self.hums = true;
        self.quantity(id, word, level, Unit::DecibelU);
    }

    /// Draws a loop of earths.
    pub(super) fn earth_loop(&mut self, earth_loop: EarthLoop<Message>) {
        self.loops.push(earth_loop);
    }

    /// The diagram, which is another with other answers to these fields.
    pub(super) fn finish(self, shaped_by: &[&'static str]) -> Diagram<Message> {
        let names = Arg::Messages(self.parts.iter().map(|part| part.name.clone()).collect());
        let hums = self.hums;
        let summary = self.sheet.word("rig.summary", &[("parts", names)]);
        Diagram {
            title: self.sheet.word("rig", &[]),
            summary,
            note: if hums { self.sheet.word("rig.note", &[]) } else { Message::Nothing },
            parts: self.parts,
            loops: self.loops,
            shaped_by: shaped_by.to_vec(),
        }
    }
}
