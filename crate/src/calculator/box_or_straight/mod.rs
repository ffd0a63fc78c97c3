//! Box or straight in: which connection a source wants, from a few plain
//! questions. Every candidate is a whole line, computed by the calculator of
//! that name, and ranked: what cannot work or must not be is refused; then the
//! fewest limits missed, then by how far, then the fewest parts. What is equal in
//! all of them is tied, and what an engineer reaches for is named first.

mod instrument;
mod rank;
mod way;
mod words;

use crate::calculator::{Calculator, Keeps, Preset, whole_line};
use crate::fault::Fault;
use crate::field::console::CONSOLE_MOST;
use crate::field::direct_box::LIFTED_SUPPLY;
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, EARTHED, EARTHS, POWER, Power};
use crate::field::lead::LEAD_LENGTH;
use crate::field::loudspeaker::POWER_AMPLIFIER;
use crate::field::mains::MAINS;
use crate::field::piezo::PIEZO_C;
use crate::field::question::{
    BASS, ENOUGH, HEADROOM, HUM_LEAST, LOAD_RATIO, LOSS_MOST, SNR_LEAST, TREBLE, UNBALANCED_MOST,
};
use crate::field::run::RUN_LENGTH;
use crate::field::signal::CREST;
use crate::field::source::{EMF, OUTPUT_C, SMALLEST_LOAD, SOURCE_R, SourceKind};
use crate::field::split::{SECOND_DIFFERENCE, SECOND_EARTH_R};
use crate::field::thru::{THRU, THRU_LENGTH, TIED, ThruLoad};
use crate::field::{ChoiceField, Field, Filling, Values, choice, joined};
use crate::report::{Depth, Sheet};
pub(crate) use instrument::Instrument;
use instrument::{BALANCED, MICROPHONES, OUTPUTS, STEREO, WITH_LEVEL, WITH_SUPPLY};
use rank::{Tried, ranked};
use way::{Asked, WAYS};

choice! {
    /// The input of the console that is free.
    enum InputKind {
        /// A microphone input.
        Microphone = "microphone",
        /// A line input.
        Line = "line",
        /// A channel that has both: a microphone input on XLR and a line input on jack.
        Either = "either",
        /// An instrument input.
        Instrument = "instrument",
        /// The input of an instrument amplifier.
        Amplifier = "amplifier",
    }
}

choice! {
    /// Whether that input supplies phantom.
    enum Supplied {
        /// It cannot.
        None = "none",
        /// It can, and need not.
        Switched = "switched",
        /// It does, and cannot be switched off.
        Always = "always",
    }
}

choice! {
    /// How many channels there are at the two ends.
    enum Channels {
        /// One signal.
        One = "one",
        /// A left and a right, each into a channel of its own.
        Two = "two",
        /// A left and a right into one channel.
        Summed = "summed",
    }
}

choice! {
    /// Whether a second console wants the same signal.
    enum Second {
        /// None does.
        None = "none",
        /// One on the same distribution.
        Near = "near",
        /// One on an earth of its own.
        Far = "far",
    }
}

pub(crate) const INSTRUMENT: ChoiceField<Instrument> = Instrument::field("source", Instrument::Guitar).at("source");
const INPUT: ChoiceField<InputKind> = InputKind::field("input", InputKind::Microphone).at("console");
const SUPPLIED: ChoiceField<Supplied> = Supplied::field("phantom", Supplied::Switched).at("console");

/// Where phantom can be: on the contacts of an XLR.
const WITH_PHANTOM: &[&str] = &[InputKind::Microphone.id(), InputKind::Either.id()];
const MICROPHONE_LEVEL: Field =
    EMF.named("microphone_emf", "E").absent().usual(0.1e-3, 0.1).when(INSTRUMENT, MICROPHONES).detail();
const CHANNELS: ChoiceField<Channels> =
    Channels::field("channels", Channels::One).when(INSTRUMENT, STEREO).detail().at("source");
const SECOND: ChoiceField<Second> =
    Second::field("second", Second::None).when(INSTRUMENT, BALANCED).detail().at("console");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "box-or-straight",
    fields: &joined::<_, 40>(&[
        &[
            INSTRUMENT.field(),
            POWER_AMPLIFIER.when(INSTRUMENT, &[Instrument::Loudspeaker.id()]).field(),
            POWER.starting(Power::Earthed.id()).when(INSTRUMENT, WITH_SUPPLY).field(),
            LEAD_LENGTH,
            RUN_LENGTH,
            INPUT.field(),
            SUPPLIED.when(INPUT, WITH_PHANTOM).field(),
            CONSOLE_MOST.absent().detail(),
            LIFTED_SUPPLY.when(INPUT, WITH_PHANTOM).detail().field(),
            THRU.field(),
            THRU_LENGTH.detail(),
            CHANNELS.field(),
            SECOND.field(),
            EMF.absent().when(INSTRUMENT, WITH_LEVEL).detail(),
            MICROPHONE_LEVEL,
            PIEZO_C.detail(),
            CREST.absent().detail(),
            SOURCE_R.absent().when(INSTRUMENT, OUTPUTS).detail(),
            OUTPUT_C.when(INSTRUMENT, OUTPUTS),
            SMALLEST_LOAD.when(INSTRUMENT, OUTPUTS),
            EARTH_VOLTS.when(POWER, EARTHED),
            AMP_DIFFERENCE.when(THRU, TIED).detail(),
            SECOND_DIFFERENCE.when(SECOND, &[Second::Far.id()]).detail(),
            MAINS.field(),
        ],
        &[LOSS_MOST, SNR_LEAST, HUM_LEAST, HEADROOM, TREBLE.absent(), BASS.absent()],
        &[UNBALANCED_MOST.detail(), LOAD_RATIO, ENOUGH],
        &EARTHS,
        &[SECOND_EARTH_R.when(SECOND, &[Second::Far.id()])],
    ]),
    first: &[INSTRUMENT.id(), LEAD_LENGTH.id, RUN_LENGTH.id, INPUT.id()],
    presets: &[
        Preset {
            id: "guitar",
            values: &[
                LEAD_LENGTH.typed("3 m"),
                RUN_LENGTH.typed("10 m"),
                InputKind::Line.to(INPUT),
                Supplied::None.to(SUPPLIED),
            ],
            held: &[
                &[LEAD_LENGTH.typed("3 m"), RUN_LENGTH.typed("10 m")],
                &[LEAD_LENGTH.typed("3 m"), RUN_LENGTH.typed("0 m"), InputKind::Instrument.to(INPUT)],
            ],
        },
        Preset {
            id: "keys",
            values: &[
                Instrument::Keyboard.to(INSTRUMENT),
                EMF.typed("+4 dBu"),
                InputKind::Line.to(INPUT),
                Supplied::None.to(SUPPLIED),
            ],
            held: &[&[
                Instrument::Keyboard.to(INSTRUMENT),
                EMF.typed("+4 dBu"),
                InputKind::Line.to(INPUT),
                Supplied::None.to(SUPPLIED),
                Power::Leaking.to(POWER),
            ]],
        },
        Preset {
            id: "laptop",
            values: &[Instrument::Laptop.to(INSTRUMENT), LEAD_LENGTH.typed("2 m")],
            held: &[
                &[Instrument::Laptop.to(INSTRUMENT), LEAD_LENGTH.typed("2 m"), Power::Leaking.to(POWER)],
                &[Instrument::Laptop.to(INSTRUMENT), LEAD_LENGTH.typed("2 m"), Power::Floating.to(POWER)],
            ],
        },
        Preset {
            id: "bass",
            values: &[Instrument::Bass.to(INSTRUMENT), ThruLoad::Earthed.to(THRU), THRU_LENGTH.typed("3 m")],
            held: &[],
        },
        Preset {
            id: "acoustic",
            values: &[Instrument::Piezo.to(INSTRUMENT), LEAD_LENGTH.typed("6 m"), Supplied::Always.to(SUPPLIED)],
            held: &[],
        },
        Preset {
            id: "speech",
            values: &[Instrument::Microphone.to(INSTRUMENT), LEAD_LENGTH.typed("0 m"), RUN_LENGTH.typed("40 m")],
            held: &[],
        },
        Preset {
            id: "playback",
            values: &[
                Instrument::Playback.to(INSTRUMENT),
                EMF.typed("500m"),
                CREST.typed("10"),
                LEAD_LENGTH.typed("1 m"),
                RUN_LENGTH.typed("11 m"),
                InputKind::Either.to(INPUT),
                Channels::Two.to(CHANNELS),
            ],
            held: &[],
        },
        Preset {
            id: "projector",
            values: &[
                Instrument::Laptop.to(INSTRUMENT),
                Power::Linked.to(POWER),
                LEAD_LENGTH.typed("2 m"),
                RUN_LENGTH.typed("40 m"),
            ],
            held: &[],
        },
        Preset {
            id: "split",
            values: &[
                Instrument::Microphone.to(INSTRUMENT),
                LEAD_LENGTH.typed("0 m"),
                RUN_LENGTH.typed("40 m"),
                Second::Far.to(SECOND),
                SECOND_DIFFERENCE.typed("0.5 V"),
            ],
            held: &[],
        },
        Preset {
            id: "reamp",
            values: &[
                Instrument::Line.to(INSTRUMENT),
                InputKind::Amplifier.to(INPUT),
                LEAD_LENGTH.typed("0 m"),
                RUN_LENGTH.typed("10 m"),
            ],
            held: &[],
        },
        Preset {
            id: "take-off",
            values: &[Instrument::Loudspeaker.to(INSTRUMENT), LEAD_LENGTH.typed("1 m")],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Those(&whole_line::CALCULATOR, to_mend),
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    for caution in ["caution-earth", "caution-electrician", "caution-rcd", "caution-phantom", "caution-hearing"] {
        sheet.caution(caution);
    }
    let asked = Asked::new(values)?;
    if values.choice(THRU)? != ThruLoad::None && !asked.thru {
        sheet.warn("no-thru", &[]);
    }
    let tried = ways(values, &asked, sheet.depth())?;
    if tried.iter().any(|line| line.stop) {
        sheet.cautions_first();
    }
    words::headlines(values, sheet, &asked, &tried)?;
    let all_refused = tried.iter().all(|line| line.refused.is_some());
    for line in &tried {
        words::candidate(values, sheet, &asked, line, &tried)?;
        // What nobody is to do is not warned of as well.
        if line.refused.is_none() || line.stop || all_refused {
            sheet.pass_on(&line.solution.warnings);
        }
    }
    let best = tried.first().filter(|best| best.refused.is_none() && !best.stop);
    words::mind(sheet, &asked, best);
    if let Some(best) = best {
        words::drawn(values, sheet, best)?;
    }
    for source in [
        "source-ranking",
        "source-chain",
        "source-johnson",
        "source-shield",
        "source-whitlock",
        "source-phantom",
        "source-practice",
    ] {
        sheet.source(source);
    }
    Ok(())
}

/// Every way that makes sense, in its order.
fn ways(values: &Values, asked: &Asked, depth: Depth) -> Result<Vec<Tried>, Fault> {
    let mut tried: Vec<Tried> = Vec::new();
    let common = asked.common(values)?;
    // A pad loads a pickup: only what clips is worth one.
    let spare = if asked.usual.source.is_resistive() { 0.0 } else { values.number(HEADROOM)? };
    // How much too hot the last way without a pad was.
    let mut excess = 0.0;
    for way in WAYS.iter().filter(|way| asked.makes_sense(way)) {
        if way.pad && excess <= spare {
            continue;
        }
        let line = Tried::new(values, depth, asked, &common, way, excess)?;
        if !way.pad {
            excess = line.excess;
        }
        tried.push(line);
    }
    // What is wrong with the earths is wrong whatever connects the source.
    let stop = tried.iter().any(|line| line.line.is_faulty());
    for line in &mut tried {
        line.stop = stop;
    }
    Ok(ranked(tried))
}

/// Whether changing a number may make up for what a way is refused for: nothing does
/// where somebody or something may be harmed.
fn may_be_mended(refused: &str) -> bool {
    matches!(refused, "margin" | "supply" | "supply_on_source")
}

/// The whole line of the best way, where it misses a limit and nothing is wrong with
/// the earths.
fn to_mend(values: &Values) -> Result<Option<Filling>, Fault> {
    let asked = Asked::new(values)?;
    let best = ways(values, &asked, Depth::Readings)?.into_iter().next();
    let missing = best.filter(|best| !best.stop && (best.broken > 0 || best.refused.is_some_and(may_be_mended)));
    // Phantom is on the contacts of an XLR only: no switch brings it to another input.
    let missing = missing.filter(|best| best.refused != Some("supply") || asked.has_microphone_input());
    Ok(missing.map(|best| best.filling))
}

impl Asked {
    /// What the values ask.
    fn new(values: &Values) -> Result<Self, Fault> {
        let instrument = values.choice(INSTRUMENT)?;
        let usual = instrument.usual();
        let source = usual.source;
        let power = if source.has_supply() { values.choice(POWER)? } else { Power::Floating };
        let (input, thru) = (values.choice(INPUT)?, values.choice(THRU)?);
        let boxed = !source.is_balanced() && !matches!(input, InputKind::Instrument | InputKind::Amplifier);
        let emf = if source == SourceKind::Microphone { MICROPHONE_LEVEL } else { EMF };
        let second = if source.is_balanced() { values.choice(SECOND)? } else { Second::None };
        let lead_and_run = values.number(LEAD_LENGTH)? + values.number(RUN_LENGTH)?;
        Ok(Self {
            input,
            second,
            phantom: values.choice(SUPPLIED)?,
            power,
            earthed: power.is_earthed() || boxed && thru.is_earthed(),
            thru: boxed && thru != ThruLoad::None,
            far: values.optional(UNBALANCED_MOST)?.is_some_and(|most| lead_and_run > most),
            emf: values.optional(emf)?.unwrap_or(usual.emf),
            channels: if instrument.is_stereo() { values.choice(CHANNELS)? } else { Channels::One },
            lifted_supply: values.choice(LIFTED_SUPPLY)?,
            notes: instrument.notes(),
            usual,
        })
    }
}
