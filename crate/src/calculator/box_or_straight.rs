//! Box or straight in: which connection a source wants, from a few plain
//! questions. Every candidate is a whole line, computed by the calculator of
//! that name, and ranked: what cannot work or must not be is refused; then the
//! fewest limits broken, then the fewest parts. What is equal in both is tied,
//! and the one that keeps more distance from its limits is named first.

use super::whole_line;
use super::whole_line::line::{Line, Margin};
use super::whole_line::words;
use crate::calculator::{Calculator, Preset};
use crate::catalogue::typical::{BASS_COIL_L, BASS_COIL_R, LAPTOP_LEVEL, LINE_INPUT_GAIN, MINUS_10_DBV};
use crate::fault::Fault;
use crate::field::active_box::{BOX_GAIN, BOX_I, BOX_R};
use crate::field::console::{
    CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_MOST, CONSOLE_NOISE, CONSOLE_R, EIN, NoiseStatedAs,
};
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, EARTHS, POWER, Power};
use crate::field::lead::LEAD_LENGTH;
use crate::field::mains::MAINS;
use crate::field::microphone::MICROPHONE_EMF;
use crate::field::pad::PAD;
use crate::field::phantom::{ConsolePhantom, PHANTOM};
use crate::field::pickup::{COIL_C, COIL_L, COIL_R, TONE_C};
use crate::field::question::{BASS, HEADROOM, HUM_LEAST, LOSS_MOST, SNR_LEAST, TREBLE};
use crate::field::run::{RUN, RUN_LENGTH, Run};
use crate::field::signal::CREST;
use crate::field::source::{EMF, SOURCE, SOURCE_R, SourceKind};
use crate::field::thru::{THRU, THRU_LENGTH, ThruLoad};
use crate::field::transformer::{C1, CORE_LOSS, LARGEST, LEAKAGE, MAGNETISING, R1, R2, RATIO};
use crate::field::{ChoiceField, Filling, Put, Values, choice, joined};
use crate::quantity::Unit;
use crate::quantity::level::dbu;
use crate::report::{Candidate, Depth, Reason, Sheet, Solution, Tone, Verdict};
use crate::words::Arg;
use std::cmp::Ordering;

choice! {
    /// What is to be connected.
    pub(crate) enum Instrument {
        /// An electric guitar with passive pickups.
        Guitar = "guitar",
        /// An electric bass with passive pickups.
        Bass = "bass",
        /// A piezo pickup without an amplifier.
        Piezo = "piezo",
        /// An instrument with an amplifier of its own.
        Active = "active",
        /// A keyboard.
        Keyboard = "keyboard",
        /// A laptop computer.
        Laptop = "laptop",
        /// A dynamic microphone.
        Microphone = "microphone",
    }
}

choice! {
    /// The input of the console that is free.
    enum InputKind {
        /// A microphone input.
        Microphone = "microphone",
        /// A line input.
        Line = "line",
        /// An instrument input.
        Instrument = "instrument",
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

const WITH_SUPPLY: &[&str] = &[Instrument::Active.id(), Instrument::Keyboard.id(), Instrument::Laptop.id()];
const WITH_LEVEL: &[&str] = &[
    Instrument::Guitar.id(),
    Instrument::Bass.id(),
    Instrument::Piezo.id(),
    Instrument::Active.id(),
    Instrument::Keyboard.id(),
    Instrument::Laptop.id(),
];

pub(crate) const INSTRUMENT: ChoiceField<Instrument> = Instrument::field("source", Instrument::Guitar).at("source");
const INPUT: ChoiceField<InputKind> = InputKind::field("input", InputKind::Microphone).at("console");
const SUPPLIED: ChoiceField<Supplied> = Supplied::field("phantom", Supplied::Switched).at("console");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "box-or-straight",
    fields: &joined::<26>(&[
        &[
            INSTRUMENT.field(),
            POWER.starting(Power::Earthed.id()).when(INSTRUMENT, WITH_SUPPLY).field(),
            LEAD_LENGTH,
            RUN_LENGTH,
            INPUT.field(),
            SUPPLIED.field(),
            THRU.field(),
            THRU_LENGTH.detail(),
            EMF.absent().when(INSTRUMENT, WITH_LEVEL).detail(),
            EMF.named("microphone_emf", "E")
                .absent()
                .usual(0.1e-3, 0.1)
                .when(INSTRUMENT, &[Instrument::Microphone.id()])
                .detail(),
            CREST.absent().detail(),
            EARTH_VOLTS.when(POWER, &[Power::Earthed.id()]),
            AMP_DIFFERENCE.when(THRU, &[ThruLoad::Earthed.id()]).detail(),
            MAINS.field(),
        ],
        &[LOSS_MOST, SNR_LEAST, HUM_LEAST, HEADROOM, TREBLE.absent(), BASS.absent()],
        &EARTHS,
    ]),
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
    ],
    solve,
};

/// What stands for a source where nothing else is said (common practice, no
/// source; see the catalogue of typical values).
struct Usual {
    /// The source of a whole line.
    source: SourceKind,
    /// Open-circuit level, V.
    emf: f64,
    /// Crest factor, dB.
    crest: f64,
    /// Where its bass and its treble count, Hz.
    band: (f64, f64),
    /// What else differs from a whole line's defaults.
    values: &'static [Put],
}

impl Instrument {
    /// What stands for it.
    fn usual(self) -> Usual {
        match self {
            Self::Guitar => GUITAR,
            Self::Bass => BASS_GUITAR,
            Self::Piezo => PIEZO,
            Self::Active => ACTIVE,
            Self::Keyboard => KEYBOARD,
            Self::Laptop => LAPTOP,
            Self::Microphone => MICROPHONE,
        }
    }

    /// Whether it has a supply of its own.
    fn has_supply(self) -> bool {
        match self {
            Self::Active | Self::Keyboard | Self::Laptop => true,
            Self::Guitar | Self::Bass | Self::Piezo | Self::Microphone => false,
        }
    }
}

const GUITAR: Usual = Usual { source: SourceKind::Pickup, emf: 0.2, crest: 15.0, band: (80.0, 5e3), values: &[] };
const BASS_GUITAR: Usual = Usual {
    source: SourceKind::Pickup,
    emf: 0.2,
    crest: 18.0,
    band: (40.0, 2e3),
    values: &[COIL_L.to(BASS_COIL_L), COIL_R.to(BASS_COIL_R), COIL_C.to(150e-12), TONE_C.to(47e-9)],
};
const PIEZO: Usual = Usual {
    source: SourceKind::Piezo,
    emf: 0.3,
    crest: 15.0,
    band: (80.0, 5e3),
    // An active box for a piezo; the noise current is that of its 10 MΩ.
    values: &[BOX_R.to(10e6), BOX_I.to(0.04e-12)],
};
const ACTIVE: Usual =
    Usual { source: SourceKind::Output, emf: 0.7, crest: 15.0, band: (80.0, 5e3), values: &[SOURCE_R.to(2e3)] };
const KEYBOARD: Usual =
    Usual { source: SourceKind::Output, emf: MINUS_10_DBV, crest: 12.0, band: (40.0, 10e3), values: &[] };
const LAPTOP: Usual = Usual {
    source: SourceKind::Output,
    emf: LAPTOP_LEVEL,
    crest: 12.0,
    band: (40.0, 10e3),
    values: &[SOURCE_R.to(100.0)],
};
const MICROPHONE: Usual =
    Usual { source: SourceKind::Microphone, emf: 2e-3, crest: 12.0, band: (80.0, 10e3), values: &[] };

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

/// The console's inputs where they differ from a whole line's default, the
/// microphone input (common practice, no source).
const LINE_INPUT: &[Put] = &[CONSOLE_R.to(10e3), CONSOLE_MOST.to(24.0), EIN.to(-95.0)];
const INSTRUMENT_INPUT: &[Put] =
    &[CONSOLE_R.to(1e6), CONSOLE_C.to(50e-12), CONSOLE_MOST.to(12.0), CONSOLE_E.to(10e-9), CONSOLE_I.to(0.1e-12)];

/// Pads come in steps of this, dB; that of an active box takes off at least so
/// much, and one of its own at most (common practice, no source).
const PAD_STEP: f64 = 10.0;
const BOX_PAD: f64 = 20.0;
const MOST_PAD: f64 = 60.0;
/// In so many steps a decibel it is told by how much a limit is missed: what
/// nobody hears is no reason to carry more (common practice, no source).
const MISSED_STEPS: f64 = 10.0;

/// A way to connect a source.
struct Way {
    id: &'static str,
    /// What has to be brought: boxes, pads and batteries.
    parts: u32,
    /// The box of the whole line.
    between: BoxKind,
    /// Whether phantom feeds that box.
    by_phantom: bool,
    /// Whether the box is a line isolator.
    isolator: bool,
    /// Whether a pad goes with it, in a box of its own or as its own switch.
    pad: bool,
}

const fn way(id: &'static str, parts: u32, between: BoxKind) -> Way {
    Way { id, parts, between, by_phantom: false, isolator: false, pad: false }
}

/// Every way that there is; a padded one follows the same without a pad.
const WAYS: [Way; 9] = [
    way("straight", 0, BoxKind::None),
    Way { pad: true, ..way("straight_pad", 1, BoxKind::None) },
    Way { isolator: true, ..way("isolator", 1, BoxKind::Passive) },
    Way { isolator: true, pad: true, ..way("isolator_pad", 2, BoxKind::Passive) },
    way("passive", 1, BoxKind::Passive),
    Way { by_phantom: true, ..way("phantom", 1, BoxKind::Active) },
    Way { by_phantom: true, pad: true, ..way("phantom_pad", 1, BoxKind::Active) },
    way("battery", 2, BoxKind::Active),
    Way { pad: true, ..way("battery_pad", 2, BoxKind::Active) },
];

/// What is asked, as far as it decides which ways there are.
struct Asked {
    usual: Usual,
    input: InputKind,
    phantom: Supplied,
    /// Whether another earth than the console's is tied to the source or the box.
    earthed: bool,
    /// Whether an amplifier is to be fed from a thru.
    thru: bool,
}

/// A way as it turned out.
struct Tried {
    way: &'static Way,
    filling: Filling,
    solution: Solution,
    /// What it was asked to keep, in the order of the report's links.
    found: Vec<&'static str>,
    broken: usize,
    /// The finding for which it is refused.
    refused: Option<&'static str>,
    /// The finding that has least left re its limit, and what it has left.
    tightest: Option<(&'static str, Margin)>,
    /// How much less level the box's output or the console's input should have
    /// for the headroom, dB.
    excess: f64,
    /// Whether it is a case for an electrician first.
    stop: bool,
    /// Whether an engineer reaches for something else where limits and parts tie.
    second_choice: bool,
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    for caution in ["caution-earth", "caution-electrician", "caution-phantom", "caution-hearing"] {
        sheet.caution(caution);
    }
    let instrument = values.choice(INSTRUMENT)?;
    let power = if instrument.has_supply() { values.choice(POWER)? } else { Power::Floating };
    let (usual, input, thru) = (instrument.usual(), values.choice(INPUT)?, values.choice(THRU)?);
    let boxed = usual.source != SourceKind::Microphone && input != InputKind::Instrument;
    let asked = Asked {
        usual,
        input,
        phantom: values.choice(SUPPLIED)?,
        earthed: power == Power::Earthed || boxed && thru == ThruLoad::Earthed,
        thru: boxed && thru != ThruLoad::None,
    };
    if asked.earthed || power == Power::Leaking {
        sheet.cautions_first();
    }
    if thru != ThruLoad::None && !boxed {
        sheet.warn("no-thru", &[]);
    }
    let mut tried: Vec<Tried> = Vec::new();
    // How much too hot the last way without a pad was.
    let mut excess = 0.0;
    for way in WAYS.iter().filter(|way| asked.makes_sense(way)) {
        if way.pad && excess <= 0.0 {
            continue;
        }
        let line = try_way(values, sheet, &asked, power, way, excess)?;
        if !way.pad {
            excess = line.excess;
        }
        let place = tried.partition_point(|other| other.against(&line).is_le());
        tried.insert(place, line);
    }

    headlines(values, sheet, &tried)?;
    for line in &tried {
        candidate(sheet, line, &tried);
        sheet.pass_on(&line.solution.warnings);
    }
    if let Some(best) = tried.first().filter(|best| best.refused.is_none() && !best.stop) {
        mind(sheet, &asked, best);
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

/// What to mind with the best way.
fn mind(sheet: &mut Sheet, asked: &Asked, best: &Tried) {
    if asked.earthed && best.way.between == BoxKind::None {
        sheet.warn("earthed", &[]);
    }
    let level = best.solution.reading("level").and_then(|reading| reading.value);
    let least = dbu(MINUS_10_DBV) - LINE_INPUT_GAIN;
    if let Some(level) = level.filter(|level| asked.input == InputKind::Line && *level < least) {
        sheet.warn("faint", &[("level", Arg::Quantity(level, Unit::DecibelU))]);
    }
}

impl Asked {
    /// Whether a way makes sense at all: a microphone needs no box, a line
    /// isolator is for outputs, and what ends at an instrument input is no
    /// balanced microphone level. A pad loads what is not an output. A thru is
    /// that of a box.
    fn makes_sense(&self, way: &Way) -> bool {
        let source = self.usual.source;
        match way.between {
            BoxKind::None => {
                let output = matches!(source, SourceKind::Output | SourceKind::Microphone);
                !self.thru && (!way.pad || output)
            }
            BoxKind::Passive if way.isolator => !self.thru && source == SourceKind::Output,
            BoxKind::Passive | BoxKind::Active => {
                source != SourceKind::Microphone && self.input != InputKind::Instrument
            }
        }
    }
}

impl Asked {
    /// A box before a bare isolator into a microphone input, whose level and load it
    /// is made for; a line isolator before a box into a line input (common practice,
    /// no source).
    fn is_second_choice(&self, way: &Way) -> bool {
        match self.input {
            InputKind::Microphone | InputKind::Instrument => way.isolator,
            InputKind::Line => way.between != BoxKind::None && !way.isolator,
        }
    }
}

/// What decides on the place of a way, the weightiest first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    refused: bool,
    /// Limits broken.
    broken: usize,
    /// How far the worst of them is missed, in [`MISSED_STEPS`].
    missed: u32,
    /// What has to be brought.
    parts: u32,
}

impl Tried {
    /// What decides on its place.
    fn rank(&self) -> Rank {
        let missed = if self.broken > 0 { missed(self.left()) } else { 0 };
        Rank { refused: self.refused.is_some(), broken: self.broken, missed, parts: self.way.parts }
    }

    /// Its place before or behind that of another.
    fn against(&self, other: &Self) -> Ordering {
        let habit = self.second_choice.cmp(&other.second_choice);
        self.rank().cmp(&other.rank()).then(habit).then(other.share().total_cmp(&self.share()))
    }

    /// What is left of its tightest limit, re that limit.
    fn share(&self) -> f64 {
        self.tightest.map_or(f64::INFINITY, |(_, margin)| margin.share())
    }

    /// Its tightest limit, for the words.
    fn at(&self) -> Arg {
        let id = self.tightest.map_or("margin", |(id, _)| id);
        Arg::Key(format!("box-or-straight-limit-{id}"))
    }

    /// What is left of it, dB.
    fn left(&self) -> f64 {
        self.tightest.map_or(f64::INFINITY, |(_, margin)| margin.left)
    }
}

/// By how much a limit is missed of which this is left, dB, in [`MISSED_STEPS`].
fn missed(left: f64) -> u32 {
    (-MISSED_STEPS * left).clamp(0.0, 1e6).round() as u32
}

/// Fills in the whole line of a way and has it judged. A padded one takes off
/// at least `excess`.
fn try_way(
    values: &Values,
    sheet: &Sheet,
    asked: &Asked,
    power: Power,
    way: &'static Way,
    excess: f64,
) -> Result<Tried, Fault> {
    let mut filling = whole_line::CALCULATOR.filling_from(&CALCULATOR, values)?;
    fill_source(values, &mut filling, &asked.usual, power)?;
    fill_console(&mut filling, asked, way);
    if way.pad {
        let pad = (excess / PAD_STEP).ceil() * PAD_STEP;
        if way.between == BoxKind::Active {
            filling.put(BOX_GAIN, -pad.max(BOX_PAD));
        } else {
            filling.put(PAD, pad.min(MOST_PAD));
        }
    }

    let line_values = filling.to_values();
    // The working of a way is that of its whole line.
    let mut page = Sheet::new(whole_line::CALCULATOR.id, sheet.depth().min(Depth::Plots));
    let line = Line::solve(&line_values, &mut page.working, false)?;
    words::write(&line_values, &line, &mut page)?;
    let limits = || line.limits.iter().filter_map(|limit| Some((limit.id, limit.margin?)));
    let tightest = limits().min_by(|a, b| a.1.share().total_cmp(&b.1.share()));
    let headroom = values.number(HEADROOM)?;
    // A core does not saturate less for a pad behind it.
    let hot = line.points.iter().filter(|point| !point.is_box_input());
    let excess = hot.filter_map(|point| Some(headroom - point.margin()?)).fold(f64::NEG_INFINITY, f64::max);
    Ok(Tried {
        way,
        filling,
        found: line.limits.iter().map(|limit| limit.id).collect(),
        broken: limits().filter(|(_, margin)| margin.left < 0.0).count(),
        refused: line.limits.iter().find(|limit| limit.refused).map(|limit| limit.id),
        tightest,
        excess,
        stop: line.must_stop(),
        second_choice: asked.is_second_choice(way),
        solution: page.finish(),
    })
}

/// What is plugged in, and how it is powered.
fn fill_source(values: &Values, filling: &mut Filling, usual: &Usual, power: Power) -> Result<(), Fault> {
    filling.choose(SOURCE, usual.source);
    filling.choose(POWER, power);
    let emf = if usual.source == SourceKind::Microphone { MICROPHONE_EMF } else { EMF };
    let (bass, treble) = usual.band;
    filling.put(emf, values.optional(emf)?.unwrap_or(usual.emf));
    filling.put(CREST, values.optional(CREST)?.unwrap_or(usual.crest));
    filling.put(BASS, values.optional(BASS)?.unwrap_or(bass));
    filling.put(TREBLE, values.optional(TREBLE)?.unwrap_or(treble));
    filling.put_all(usual.values);
    Ok(())
}

/// The way to the console, and its input.
fn fill_console(filling: &mut Filling, asked: &Asked, way: &Way) {
    filling.put_all(match asked.input {
        InputKind::Microphone => &[],
        InputKind::Line => LINE_INPUT,
        InputKind::Instrument => INSTRUMENT_INPUT,
    });
    if way.isolator {
        filling.put_all(ISOLATOR);
    }
    if asked.input == InputKind::Instrument {
        filling.choose(RUN, Run::Unbalanced);
        filling.choose(CONSOLE_NOISE, NoiseStatedAs::Densities);
    }
    filling.choose(BOX, way.between);
    let there = match asked.phantom {
        Supplied::None => false,
        Supplied::Switched => way.by_phantom,
        Supplied::Always => true,
    };
    filling.choose(PHANTOM, if there { ConsolePhantom::P48 } else { ConsolePhantom::Off });
    filling.choose(POWERED, if way.by_phantom { BoxSupply::Phantom } else { BoxSupply::Battery });
    filling.choose(GROUND, if asked.earthed && !way.by_phantom { Ground::Lifted } else { Ground::Joined });
}

fn name(id: &str) -> Arg {
    Arg::Key(format!("box-or-straight-way-{id}"))
}

fn count(number: usize) -> Arg {
    Arg::Text(number.to_string())
}

fn headlines(values: &Values, sheet: &mut Sheet, tried: &[Tried]) -> Result<(), Fault> {
    let best = tried.first().filter(|best| best.refused.is_none());
    let Some(best) = best else {
        sheet.headline("take", None, Unit::One, &[("best", name("nothing"))]);
        sheet.verdict(Tone::Trouble, "verdict-nothing", &[]);
        return working(values, sheet, tried);
    };
    let tied: Vec<_> = tried.iter().skip(1).filter(|line| line.rank() == best.rank()).collect();
    let others: Vec<_> = tied.iter().map(|other| sheet.word(format!("way-{}", other.way.id), &[])).collect();
    let args = [
        ("best", name(best.way.id)),
        ("broken", count(best.broken)),
        ("others", Arg::Messages(others)),
        ("at", best.at()),
    ];
    let take = if best.stop { name("nothing") } else { name(best.way.id) };
    sheet.headline("take", None, Unit::One, &[("best", take)]);
    match (best.broken, tied.len()) {
        // Nobody is to plug anything in there.
        _ if best.stop => sheet.verdict(Tone::Trouble, "verdict-stop", &args),
        (0, 0) => sheet.verdict(Tone::Fine, "verdict-take", &args),
        (0, _) => sheet.verdict(Tone::Fine, "verdict-take-tied", &args),
        (_, 0) => sheet.verdict(Tone::Trouble, "verdict-take-broken", &args),
        _ => sheet.verdict(Tone::Trouble, "verdict-take-broken-tied", &args),
    }
    sheet.headline("broken", best.broken as f64, Unit::One, &args);
    sheet.headline("tightest", best.left(), Unit::Decibel, &args);
    sheet.headline("parts", f64::from(best.way.parts), Unit::One, &args);
    let nearest = tried.iter().filter(|line| line.refused.is_none()).max_by(|a, b| a.share().total_cmp(&b.share()));
    if let Some(nearest) = nearest.filter(|nearest| best.broken > 0 && nearest.share() > best.share()) {
        let by = ("by", Arg::Quantity(-nearest.left(), Unit::Decibel));
        sheet.warn("nearest", &[("nearest", name(nearest.way.id)), by]);
    }
    let next = tried.iter().skip(1).find(|line| line.refused.is_none());
    if let Some(next) = next {
        let args = [("next", name(next.way.id))];
        sheet.headline("next_broken", next.broken as f64, Unit::One, &args);
    }
    for id in ["loss", "loss_bass", "snr", "signal_to_hum", "margin", "level"] {
        if let Some(reading) = best.solution.reading(id) {
            sheet.further(id, reading.value, reading.unit, &args);
        }
    }
    sheet.link_to("link-best", &args, &best.filling);
    working(values, sheet, tried)
}

/// What every way has left of its tightest limit.
fn working(values: &Values, sheet: &mut Sheet, tried: &[Tried]) -> Result<(), Fault> {
    if !sheet.wants_working() {
        return Ok(());
    }
    sheet.working.given("a_max", values.number(LOSS_MOST)?, Unit::Decibel);
    sheet.working.given("a_min", values.number(SNR_LEAST)?, Unit::Decibel);
    sheet.working.given("a_SH", values.number(HUM_LEAST)?, Unit::Decibel);
    sheet.working.given("h", values.number(HEADROOM)?, Unit::Decibel);
    for line in tried {
        let mut terms = Vec::new();
        for (id, symbol, term) in [
            ("loss", "a_T", "(a_max - a_T)/max(a_max, 1)"),
            ("loss_bass", "a_B", "(a_max - a_B)/max(a_max, 1)"),
            ("snr", "S", "(S - a_min)/max(a_min, 1)"),
            ("signal_to_hum", "S_H", "(S_H - a_SH)/max(a_SH, 1)"),
            ("margin", "m", "(m - h)/max(h, 1)"),
        ] {
            if let Some(value) = line.solution.reading(id).and_then(|reading| reading.value) {
                sheet.working.given(symbol, value, Unit::Decibel);
                terms.push(term);
            }
        }
        sheet.working.step_with(
            "step-share",
            &[("way", name(line.way.id))],
            "q",
            &format!("min({})", terms.join(", ")),
            Unit::Percent,
        )?;
    }
    Ok(())
}

fn candidate(sheet: &mut Sheet, line: &Tried, tried: &[Tried]) {
    if !sheet.wants_words() {
        return;
    }
    let same = tried.iter().filter(|other| other.rank() == line.rank()).count();
    let better = tried.iter().filter(|other| other.rank() < line.rank()).count();
    let fewer = tried.iter().any(|other| other.rank() < line.rank() && other.broken == line.broken);
    let (tone, word) = match (line.refused, line.broken) {
        // Nobody is to plug anything in there.
        _ if line.stop => (Tone::Trouble, "place-stop".to_owned()),
        (Some(finding), _) => (Tone::Trouble, format!("refused-{finding}")),
        (None, 0) if better == 0 && same == 1 => (Tone::Fine, "place-best".to_owned()),
        (None, 0) if same > 1 => (Tone::Fine, "place-tied".to_owned()),
        (None, 0) if fewer => (Tone::Fine, "place-parts".to_owned()),
        (None, 0) => (Tone::Fine, "place-best".to_owned()),
        (None, 1) => (Tone::Trouble, "place-broken-one".to_owned()),
        (None, _) => (Tone::Trouble, "place-broken".to_owned()),
    };
    let args = [
        ("broken", count(line.broken)),
        ("parts", count(line.way.parts as usize)),
        ("at", line.at()),
        ("by", Arg::Quantity(line.left().abs(), Unit::Decibel)),
    ];
    let reading = |id: &&str| line.solution.reading(id).cloned();
    let links = line.solution.links.iter().cloned();
    let reasons = line.found.iter().zip(links).filter_map(|(id, link)| Some(Reason { reading: reading(id)?, link }));
    let link = sheet.linked(sheet.word("link-line", &[]), &line.filling);
    let candidate = Candidate {
        id: line.way.id,
        name: sheet.word(format!("way-{}", line.way.id), &[]),
        place: (line.refused.is_none() && !line.stop).then(|| better as u32 + 1),
        verdict: Verdict { tone, text: sheet.word(word, &args) },
        reasons: reasons.collect(),
        link,
    };
    sheet.candidate(candidate);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Boxes, pads and batteries to be brought, counted by hand: the pad of an
    /// active box is its own switch.
    #[test]
    fn parts_of_every_way() {
        let counted = [
            ("straight", 0),
            ("straight_pad", 1),
            ("isolator", 1),
            ("isolator_pad", 2),
            ("passive", 1),
            ("phantom", 1),
            ("phantom_pad", 1),
            ("battery", 2),
            ("battery_pad", 2),
        ];
        assert_eq!(WAYS.map(|way| (way.id, way.parts)), counted);
    }

    /// To a tenth of a decibel (common practice, no source).
    #[test]
    fn misses_are_told_to_a_tenth() {
        for (left, tenths) in [(-0.049, 0), (-0.051, 1), (-1.549, 15), (-1.551, 16), (3.0, 0)] {
            assert_eq!(missed(left), tenths, "{left}");
        }
    }
}
