//! Whole line: one source on its way to one input of the console, with all that
//! the other calculators find out about it in one report.
//!
//! It owns no physics. The rig is put together in [`rig`], asked for its tone,
//! noise, hum, headroom and supply in [`line`], with the functions of the
//! calculators that show the working of each, and every answer links there.

mod blame;
pub(super) mod diagram;
mod grounding;
pub(super) mod hum;
mod hum_lines;
pub(super) mod line;
mod links;
mod requirements;
mod rig;
pub(super) mod words;

pub(crate) use grounding::{Grounding, GroundingLead, Means, RunKind};
pub(crate) use hum_lines::hum_lines;
pub(crate) use line::BY_GAIN;
pub(crate) use words::graded;

use super::level_chain::picture;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::active_box::{BOX_C, BOX_CLIP, BOX_E, BOX_GAIN, BOX_I, BOX_LEG, BOX_R};
use crate::field::connection::PIN_1_R;
use crate::field::console::{
    CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_MOST, CONSOLE_NOISE, CONSOLE_R, EIN, EIN_R, NoiseStatedAs,
};
use crate::field::converter::{ALIGNMENT, FULL_SCALE, RANGE};
use crate::field::direct_box::{BOX, BOXES, BoxKind, BoxSupply, GROUND, Ground, LIFTED_SUPPLY, POWERED};
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, EARTHED, EARTHS, POWER, Power, SHARED_EARTH_R};
use crate::field::lead::{CONTACT_R, LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, SHIELD_R};
use crate::field::leg::IMBALANCE;
use crate::field::loudspeaker::{POWER_AMPLIFIER, SPEAKER_EMF, SPEAKER_R, TAKE_OFF, TAKE_OFF_R};
use crate::field::mains::{HARMONIC_LEVELS, MAINS};
use crate::field::microphone::{MICROPHONE_CURRENT, MICROPHONE_EMF, MICROPHONE_KIND, MICROPHONE_LEAST, MICROPHONE_R};
use crate::field::pad::{PAD, PAD_R};
use crate::field::phantom::{CURRENT, ConsolePhantom, LEAST, PHANTOM};
use crate::field::pickup::{COIL_C, COIL_L, COIL_R, PICKUP, TONE_C};
use crate::field::piezo::PIEZO_C;
use crate::field::preamp::{GAIN_CLIP, OUTPUT_NOISE, SET_GAIN};
use crate::field::question::{
    BASS, ENOUGH, HEADROOM, HUM_LEAST, LEVEL_LEAST, LOAD_RATIO, LOSS_MOST, SNR_LEAST, TREBLE, UNBALANCED_MOST,
};
use crate::field::receiver::{C_IMBALANCE, INPUT_R, INPUT_SPREAD, LEG_C};
use crate::field::run::{RUN, RUN_C, RUN_L, RUN_LENGTH, RUN_R, Run};
use crate::field::signal::CREST;
use crate::field::source::{EMF, OUTPUT_C, SMALLEST_LOAD, SOURCE, SOURCE_R, SourceKind};
use crate::field::split::{SECOND_DIFFERENCE, SECOND_EARTH_R, SECOND_SHARED_R, SPLIT};
use crate::field::stray::STRAYS;
use crate::field::thru::{AMP_C, AMP_R, THRU, THRU_LENGTH, TIED, ThruLoad};
use crate::field::transformer::{
    C1, CORE_LOSS, LARGEST, LEAKAGE, LOWEST, MAGNETISING, R1, R2, RATIO, TRANSFORMER, WINDING_C,
};
use crate::field::{Field, Values, folded, joined, only_when};
use crate::network::{Features, Response as _, features};
use crate::quantity::Unit;
use crate::quantity::level::power_ratio;
use crate::report::{Drawn, Sheet, way};
use crate::words::Arg;
use line::{Line, shorts_bridge};
use requirements::REQUIREMENTS;

const PASSIVE: &[&str] = &[BoxKind::Passive.id()];
const OUTPUTS: &[&str] = &[SourceKind::Output.id(), SourceKind::Balanced.id()];
const POWERED_SOURCES: &[&str] = &[SourceKind::Output.id(), SourceKind::Balanced.id(), SourceKind::Loudspeaker.id()];
const WITH_EMF: &[&str] =
    &[SourceKind::Pickup.id(), SourceKind::Piezo.id(), SourceKind::Output.id(), SourceKind::Balanced.id()];
const BALANCED: &[&str] = &[Run::Balanced.id()];
const BY_PHANTOM: &[&str] = &[BoxSupply::Phantom.id()];

const SOURCES: [Field; 20] = [
    SOURCE.field(),
    MICROPHONE_KIND.field(),
    POWER_AMPLIFIER.field(),
    EMF.when(SOURCE, WITH_EMF),
    MICROPHONE_EMF,
    SPEAKER_EMF,
    CREST.starting(15.0),
    SOURCE_R.starting(1e3).when(SOURCE, OUTPUTS),
    OUTPUT_C.when(SOURCE, OUTPUTS),
    SMALLEST_LOAD.when(SOURCE, OUTPUTS),
    PIEZO_C,
    MICROPHONE_R,
    MICROPHONE_CURRENT,
    MICROPHONE_LEAST,
    SPEAKER_R,
    TAKE_OFF,
    TAKE_OFF_R,
    POWER.when(SOURCE, POWERED_SOURCES).field(),
    EARTH_VOLTS.when(POWER, EARTHED),
    LEAD_LENGTH,
];

const LEADS_AND_BOX: [Field; 7] =
    [LEAD_C.detail(), LEAD_R, LEAD_L, SHIELD_R.detail(), CONTACT_R, BOX.field(), POWERED.field()];

const THRU_BRANCH: [Field; 6] = [
    THRU.when(BOX, BOXES).detail().field(),
    THRU_LENGTH,
    AMP_R,
    AMP_C,
    AMP_DIFFERENCE.when(THRU, TIED),
    SHARED_EARTH_R,
];

const BOX_DETAILS: [Field; 12] = [
    GROUND.field(),
    LIFTED_SUPPLY.detail().field(),
    BOX_R.detail(),
    BOX_C,
    BOX_GAIN.detail(),
    BOX_CLIP.detail(),
    BOX_E.detail(),
    BOX_I,
    BOX_LEG,
    CURRENT.when(POWERED, BY_PHANTOM).detail().at("box"),
    LEAST.when(POWERED, BY_PHANTOM).detail().at("box"),
    WINDING_C.when(BOX, PASSIVE).detail(),
];

const RUNS: [Field; 11] = [
    RUN.field(),
    RUN_LENGTH,
    RUN_C,
    RUN_R,
    RUN_L,
    IMBALANCE.when(RUN, BALANCED).detail().at("run"),
    PIN_1_R.when(RUN, BALANCED).at("run"),
    PAD.detail(),
    PAD_R,
    CONSOLE_R,
    PHANTOM.field(),
];

const CONSOLE: [Field; 11] = [
    CONSOLE_C,
    CONSOLE_MOST.detail(),
    CONSOLE_NOISE.field(),
    EIN.detail(),
    EIN_R,
    CONSOLE_E.detail(),
    CONSOLE_I,
    INPUT_R.when(RUN, BALANCED).detail().at("console"),
    INPUT_SPREAD.when(RUN, BALANCED).at("console"),
    LEG_C.when(RUN, BALANCED).at("console"),
    C_IMBALANCE.when(RUN, BALANCED).at("console"),
];

const BEHIND: [Field; 6] = [SET_GAIN, GAIN_CLIP, OUTPUT_NOISE, ALIGNMENT.detail().field(), FULL_SCALE.detail(), RANGE];

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "whole-line",
    fields: &joined::<_, 129>(&[
        &SOURCES,
        &only_when(folded(PICKUP), SOURCE, &[SourceKind::Pickup.id()]),
        &LEADS_AND_BOX,
        &BOX_DETAILS,
        &only_when(folded(TRANSFORMER), BOX, PASSIVE),
        &[LARGEST.when(BOX, PASSIVE).detail(), LOWEST],
        &THRU_BRANCH,
        &RUNS,
        &CONSOLE,
        &[SPLIT.field(), SECOND_DIFFERENCE, SECOND_EARTH_R, SECOND_SHARED_R],
        &BEHIND,
        &[LOSS_MOST, SNR_LEAST, HUM_LEAST, HEADROOM, TREBLE, BASS],
        &[UNBALANCED_MOST, LOAD_RATIO, LEVEL_LEAST, ENOUGH],
        &EARTHS,
        &STRAYS,
        &[MAINS.field()],
        &HARMONIC_LEVELS,
    ]),
    first: &[SOURCE.id(), LEAD_LENGTH.id, BOX.id(), RUN_LENGTH.id],
    presets: &[
        Preset {
            id: "guitar",
            values: &[],
            held: &[
                &[BoxKind::Passive.to(BOX)],
                &[
                    BoxKind::None.to(BOX),
                    Run::Unbalanced.to(RUN),
                    RUN_LENGTH.typed("0 m"),
                    ConsolePhantom::Off.to(PHANTOM),
                    CONSOLE_R.typed("1M"),
                    CONSOLE_C.typed("50 pF"),
                    NoiseStatedAs::Densities.to(CONSOLE_NOISE),
                    CONSOLE_E.typed("10 nV"),
                    CONSOLE_I.typed("0.1 pA"),
                ],
                &[
                    BoxKind::None.to(BOX),
                    Run::Unbalanced.to(RUN),
                    RUN_LENGTH.typed("10 m"),
                    ConsolePhantom::Off.to(PHANTOM),
                    CONSOLE_R.typed("10k"),
                    CONSOLE_MOST.typed("+24 dBu"),
                    EIN.typed("-95 dBu"),
                ],
            ],
        },
        Preset {
            id: "keys",
            values: &[
                SourceKind::Output.to(SOURCE),
                EMF.typed("-10 dBV"),
                CREST.typed("12"),
                Power::Earthed.to(POWER),
                BoxKind::None.to(BOX),
                ConsolePhantom::Off.to(PHANTOM),
                CONSOLE_R.typed("10k"),
                CONSOLE_MOST.typed("+24 dBu"),
                EIN.typed("-95 dBu"),
            ],
            held: &[
                &[
                    SourceKind::Output.to(SOURCE),
                    EMF.typed("-10 dBV"),
                    CREST.typed("12"),
                    Power::Earthed.to(POWER),
                    BoxKind::Passive.to(BOX),
                    Ground::Lifted.to(GROUND),
                    RATIO.typed("1:1"),
                    R1.typed("60"),
                    R2.typed("60"),
                    MAGNETISING.typed("20 H"),
                    CORE_LOSS.typed("100k"),
                    LEAKAGE.typed("5 mH"),
                    C1.typed("300p"),
                    LARGEST.typed("+18 dBu"),
                    ConsolePhantom::Off.to(PHANTOM),
                    CONSOLE_R.typed("10k"),
                    CONSOLE_MOST.typed("+24 dBu"),
                    EIN.typed("-95 dBu"),
                ],
                &[
                    SourceKind::Output.to(SOURCE),
                    EMF.typed("-10 dBV"),
                    CREST.typed("12"),
                    Power::Earthed.to(POWER),
                    BoxKind::Passive.to(BOX),
                    Ground::Lifted.to(GROUND),
                ],
                &[SourceKind::Output.to(SOURCE), EMF.typed("-10 dBV"), CREST.typed("12"), Power::Earthed.to(POWER)],
            ],
        },
        Preset {
            id: "bass",
            values: &[
                COIL_L.typed("5 H"),
                COIL_R.typed("9k"),
                COIL_C.typed("150p"),
                TONE_C.typed("47n"),
                BASS.typed("40 Hz"),
                TREBLE.typed("2 kHz"),
                BoxKind::Passive.to(BOX),
                Ground::Lifted.to(GROUND),
                ThruLoad::Earthed.to(THRU),
                THRU_LENGTH.typed("3 m"),
            ],
            held: &[
                &[
                    COIL_L.typed("5 H"),
                    COIL_R.typed("9k"),
                    COIL_C.typed("150p"),
                    TONE_C.typed("47n"),
                    BASS.typed("40 Hz"),
                    TREBLE.typed("2 kHz"),
                    BoxKind::Passive.to(BOX),
                    ThruLoad::Earthed.to(THRU),
                    THRU_LENGTH.typed("3 m"),
                ],
                &[
                    COIL_L.typed("5 H"),
                    COIL_R.typed("9k"),
                    COIL_C.typed("150p"),
                    TONE_C.typed("47n"),
                    BASS.typed("40 Hz"),
                    TREBLE.typed("2 kHz"),
                    ThruLoad::Earthed.to(THRU),
                    THRU_LENGTH.typed("3 m"),
                ],
            ],
        },
        Preset {
            id: "laptop",
            values: &[
                SourceKind::Output.to(SOURCE),
                EMF.typed("250m"),
                CREST.typed("12"),
                SOURCE_R.typed("100"),
                Power::Leaking.to(POWER),
                LEAD_LENGTH.typed("2 m"),
                BoxKind::Passive.to(BOX),
                ConsolePhantom::Off.to(PHANTOM),
            ],
            held: &[&[
                SourceKind::Output.to(SOURCE),
                EMF.typed("0 dBV"),
                CREST.typed("12"),
                SOURCE_R.typed("100"),
                Power::Leaking.to(POWER),
                LEAD_LENGTH.typed("2 m"),
                BoxKind::None.to(BOX),
                Run::Unbalanced.to(RUN),
                ConsolePhantom::Off.to(PHANTOM),
            ]],
        },
        Preset {
            id: "speech",
            values: &[
                SourceKind::Microphone.to(SOURCE),
                BoxKind::None.to(BOX),
                LEAD_LENGTH.typed("0 m"),
                RUN_LENGTH.typed("40 m"),
                ConsolePhantom::Off.to(PHANTOM),
            ],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::These(REQUIREMENTS),
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    sheet.caution("caution-earth");
    sheet.caution("caution-hearing");
    if values.choice(PHANTOM)? != ConsolePhantom::Off {
        sheet.caution("caution-phantom");
    }
    let pictured = sheet.wants_plots();
    let line = Line::solve(values, &mut sheet.working, pictured)?;
    words::write(values, &line, sheet)?;
    if line.loops.star.is_driven() || line.must_stop() {
        sheet.caution("caution-electrician");
        sheet.caution("caution-rcd");
    }
    let bare = values.choice(SOURCE)? == SourceKind::Loudspeaker
        && (values.choice(BOX)? == BoxKind::None || shorts_bridge(values)?);
    if bare {
        sheet.cautions_first();
    }
    if !sheet.wants_further() {
        return Ok(());
    }
    let found = features(&line.chain);
    let treble = values.number(TREBLE)?;
    let at_treble = [("f", Arg::Entry(treble, Unit::Hertz))];
    further(sheet, &line, &found, treble)?;

    // The source alone, brought to the same plateau: what differs is tone.
    let place = line.tone.place;
    let scale = power_ratio(line.chain.level(place) - line.alone.level(place));
    let alone = |f: f64| scale * line.alone.power(f);
    let loss = line.loss(treble);
    let [f] = at_treble.clone();
    sheet.response_plot(
        "response",
        &[("loss", Arg::Quantity(loss.abs(), Unit::Decibel)), ("way", Arg::Key(way(loss).into())), f],
        &[
            Drawn { id: "curve", reference: false, response: &line.chain },
            Drawn { id: "curve-alone", reference: true, response: &alone },
        ],
        Some(&found),
    );
    sheet.sound(|| line.sound());
    picture(sheet, &line.points, line.tightest, Some(line.margin));
    if sheet.wants_all_words() {
        let drawn = diagram::drawn(values, &line, sheet)?;
        sheet.diagram(drawn);
    }
    sources(values, sheet)
}

fn sources(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    for source in [
        "source-chain",
        "source-johnson",
        "source-amplifier-noise",
        "source-weighting",
        "source-shield",
        "source-whitlock",
        "source-levels",
        "source-practice",
    ] {
        sheet.source(source);
    }
    if let Some(source) = values.choice(ALIGNMENT)?.source() {
        sheet.source(source);
    }
    if values.choice(POWERED)? == BoxSupply::Phantom && values.choice(BOX)? == BoxKind::Active {
        sheet.source("source-phantom");
    }
    Ok(())
}

/// What else there is to say of the response, and how it comes about.
fn further(sheet: &mut Sheet, line: &Line, found: &Features, treble: f64) -> Result<(), Fault> {
    let peak = found.peak;
    let at_treble = [("f", Arg::Entry(treble, Unit::Hertz))];
    for (id, value, unit) in [
        ("level_1k", Some(found.midband), Unit::Decibel),
        ("level_treble", Some(line.chain.level(treble)), Unit::Decibel),
        ("peak", peak.map(|peak| peak.frequency), Unit::Hertz),
        ("peak_height", peak.map(|peak| peak.height), Unit::Decibel),
        ("low_corner", found.low_corner, Unit::Hertz),
        ("high_corner", found.high_corner, Unit::Hertz),
    ] {
        sheet.further(id, value, unit, &at_treble);
    }
    sheet.working.walk(&line.chain.first, treble)?;
    if let Some((_, second)) = &line.chain.active {
        sheet.working.walk(second, treble)?;
    }
    Ok(())
}
