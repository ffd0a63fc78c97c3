//! Whole line: one source on its way to one input of the console, with all that
//! the other calculators find out about it in one report.
//!
//! It owns no physics. The rig is put together in [`rig`], asked for its tone,
//! noise, hum, headroom and supply in [`line`], with the functions of the
//! calculators that prove each of them, and every answer links there.

mod hum;
pub(super) mod line;
mod proof;
mod rig;
pub(super) mod words;

use super::frequency::Drawn;
use super::level_chain::picture;
use super::pickup::FLAT;
use super::{Calculator, Fault, Preset, Sheet, Values};
use crate::field::active_box::{BOX_C, BOX_CLIP, BOX_E, BOX_GAIN, BOX_I, BOX_LEG, BOX_R};
use crate::field::between::{BOX, BoxKind, BoxSupply, GROUND, POWERED};
use crate::field::connection::PIN_1_R;
use crate::field::console::{CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_MOST, CONSOLE_NOISE, CONSOLE_R, EIN, EIN_R};
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, EARTHS, POWER, Power};
use crate::field::lead::{CONTACT_R, LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, SHIELD_R};
use crate::field::leg::IMBALANCE;
use crate::field::level::CREST;
use crate::field::mains::{HARMONIC_LEVELS, MAINS};
use crate::field::microphone::{MICROPHONE_EMF, MICROPHONE_R};
use crate::field::pad::{PAD, PAD_R};
use crate::field::phantom::{CURRENT, ConsolePhantom, LEAST, PHANTOM};
use crate::field::pickup::PICKUP;
use crate::field::piezo::PIEZO_C;
use crate::field::question::{BASS, HEADROOM, HUM_LEAST, LOSS_MOST, SNR_LEAST, TREBLE};
use crate::field::receiver::{C_IMBALANCE, INPUT_R, INPUT_SPREAD, LEG_C};
use crate::field::run::{RUN, RUN_C, RUN_L, RUN_LENGTH, RUN_R, Run};
use crate::field::source::{EMF, SOURCE, SOURCE_R, SourceKind};
use crate::field::thru::{AMP_C, AMP_R, THRU, THRU_LENGTH, Thru};
use crate::field::transformer::{LARGEST, LOWEST, TRANSFORMER, WINDING_C};
use crate::field::{Field, folded, joined, only_when};
use crate::network::{MIDBAND, Response as _, features};
use crate::quantity::Unit;
use crate::words::Arg;
use line::Line;

const PASSIVE: &[&str] = &[BoxKind::Passive.id()];
const BOXES: &[&str] = &[BoxKind::Passive.id(), BoxKind::Active.id()];
const OUTPUTS: &[&str] = &[SourceKind::Output.id(), SourceKind::Balanced.id()];
const WITH_EMF: &[&str] =
    &[SourceKind::Pickup.id(), SourceKind::Piezo.id(), SourceKind::Output.id(), SourceKind::Balanced.id()];
const BALANCED: &[&str] = &[Run::Balanced.id()];
const BY_PHANTOM: &[&str] = &[BoxSupply::Phantom.id()];

const SOURCES: [Field; 10] = [
    SOURCE.field(),
    EMF.when(SOURCE, WITH_EMF),
    MICROPHONE_EMF,
    CREST.starting(15.0),
    SOURCE_R.starting(1e3).when(SOURCE, OUTPUTS),
    PIEZO_C,
    MICROPHONE_R,
    POWER.when(SOURCE, OUTPUTS).field(),
    EARTH_VOLTS.when(POWER, &[Power::Earthed.id()]),
    LEAD_LENGTH,
];

const LEADS_AND_BOX: [Field; 7] =
    [LEAD_C.detail(), LEAD_R, LEAD_L, SHIELD_R.detail(), CONTACT_R, BOX.field(), POWERED.field()];

const THRU_BRANCH: [Field; 5] = [
    THRU.when(BOX, BOXES).detail().field(),
    THRU_LENGTH,
    AMP_R,
    AMP_C,
    AMP_DIFFERENCE.when(THRU, &[Thru::Earthed.id()]),
];

const BOX_DETAILS: [Field; 11] = [
    GROUND.field(),
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

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "whole-line",
    fields: &joined::<99>(&[
        &SOURCES,
        &only_when(folded(PICKUP), SOURCE, &[SourceKind::Pickup.id()]),
        &LEADS_AND_BOX,
        &BOX_DETAILS,
        &only_when(folded(TRANSFORMER), BOX, PASSIVE),
        &[LARGEST.when(BOX, PASSIVE).detail(), LOWEST],
        &THRU_BRANCH,
        &RUNS,
        &CONSOLE,
        &[LOSS_MOST, SNR_LEAST, HUM_LEAST, HEADROOM, TREBLE, BASS],
        &EARTHS,
        &[MAINS.field()],
        &HARMONIC_LEVELS,
    ]),
    presets: &[
        Preset {
            id: "guitar",
            values: &[],
            held: &[
                &[("box", "passive")],
                &[
                    ("box", "none"),
                    ("run", "unbalanced"),
                    ("run_length", "0 m"),
                    ("phantom", "off"),
                    ("console_r", "1M"),
                    ("console_c", "50 pF"),
                    ("console_noise", "densities"),
                    ("console_en", "10 nV"),
                    ("console_in", "0.1 pA"),
                ],
                &[
                    ("box", "none"),
                    ("run", "unbalanced"),
                    ("run_length", "10 m"),
                    ("phantom", "off"),
                    ("console_r", "10k"),
                    ("console_most", "+24 dBu"),
                    ("ein", "-95 dBu"),
                ],
            ],
        },
        Preset {
            id: "keys",
            values: &[
                ("source", "output"),
                ("emf", "-10 dBV"),
                ("crest", "12"),
                ("power", "earthed"),
                ("box", "none"),
                ("phantom", "off"),
                ("console_r", "10k"),
                ("console_most", "+24 dBu"),
                ("ein", "-95 dBu"),
            ],
            held: &[
                &[
                    ("source", "output"),
                    ("emf", "-10 dBV"),
                    ("crest", "12"),
                    ("power", "earthed"),
                    ("box", "passive"),
                    ("ground", "lifted"),
                    ("ratio", "1:1"),
                    ("r1", "60"),
                    ("r2", "60"),
                    ("magnetising", "20 H"),
                    ("core_loss", "100k"),
                    ("leakage", "5 mH"),
                    ("c1", "300p"),
                    ("largest", "+18 dBu"),
                    ("phantom", "off"),
                    ("console_r", "10k"),
                    ("console_most", "+24 dBu"),
                    ("ein", "-95 dBu"),
                ],
                &[
                    ("source", "output"),
                    ("emf", "-10 dBV"),
                    ("crest", "12"),
                    ("power", "earthed"),
                    ("box", "passive"),
                    ("ground", "lifted"),
                ],
                &[("source", "output"), ("emf", "-10 dBV"), ("crest", "12"), ("power", "earthed")],
            ],
        },
        Preset {
            id: "bass",
            values: &[
                ("coil_l", "5 H"),
                ("coil_r", "9k"),
                ("coil_c", "150p"),
                ("tone_c", "47n"),
                ("bass", "40 Hz"),
                ("treble", "2 kHz"),
                ("box", "passive"),
                ("ground", "lifted"),
                ("thru", "earthed"),
                ("thru_length", "3 m"),
            ],
            held: &[
                &[
                    ("coil_l", "5 H"),
                    ("coil_r", "9k"),
                    ("coil_c", "150p"),
                    ("tone_c", "47n"),
                    ("bass", "40 Hz"),
                    ("treble", "2 kHz"),
                    ("box", "passive"),
                    ("thru", "earthed"),
                    ("thru_length", "3 m"),
                ],
                &[
                    ("coil_l", "5 H"),
                    ("coil_r", "9k"),
                    ("coil_c", "150p"),
                    ("tone_c", "47n"),
                    ("bass", "40 Hz"),
                    ("treble", "2 kHz"),
                    ("thru", "earthed"),
                    ("thru_length", "3 m"),
                ],
            ],
        },
        Preset {
            id: "laptop",
            values: &[
                ("source", "output"),
                ("emf", "0 dBV"),
                ("crest", "12"),
                ("source_r", "100"),
                ("power", "leaking"),
                ("lead_length", "2 m"),
                ("box", "passive"),
                ("phantom", "off"),
            ],
            held: &[&[
                ("source", "output"),
                ("emf", "0 dBV"),
                ("crest", "12"),
                ("source_r", "100"),
                ("power", "leaking"),
                ("lead_length", "2 m"),
                ("box", "none"),
                ("run", "unbalanced"),
                ("phantom", "off"),
            ]],
        },
        Preset {
            id: "speech",
            values: &[
                ("source", "microphone"),
                ("box", "none"),
                ("lead_length", "0 m"),
                ("run_length", "40 m"),
                ("phantom", "off"),
            ],
            held: &[],
        },
    ],
    solve,
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
    if line.loops.star.is_driven() {
        sheet.caution("caution-electrician");
        sheet.cautions_first();
    }
    let found = features(&line.chain, MIDBAND);
    let peak = found.peak.filter(|peak| peak.height > FLAT);
    let treble = values.number(TREBLE)?;
    let at_treble = [("f", Arg::Quantity(treble, Unit::Hertz))];
    for (id, value, unit) in [
        ("level_1k", Some(found.reference), Unit::Decibel),
        ("level_treble", Some(line.chain.level(treble)), Unit::Decibel),
        ("peak", peak.map(|peak| peak.frequency), Unit::Hertz),
        ("peak_height", peak.map(|peak| peak.height), Unit::Decibel),
        ("low_corner", found.low_corner, Unit::Hertz),
        ("high_corner", found.high_corner, Unit::Hertz),
        ("impedance", Some(line.chain.first.looking_on(line.rig.source.chain.len(), MIDBAND).norm()), Unit::Ohm),
    ] {
        sheet.further(id, value, unit, &at_treble);
    }
    sheet.working.walk(&line.chain.first, treble)?;
    if let Some((_, second)) = &line.chain.active {
        sheet.working.walk(second, treble)?;
    }

    // The source alone, brought to the same level at 1 kHz: what differs is tone.
    let scale = 10_f64.powf((found.reference - line.alone.level(MIDBAND)) / 10.0);
    let alone = |f: f64| scale * line.alone.power(f);
    sheet.response_plot(
        "response",
        &[("loss", Arg::Quantity(line.loss(treble), Unit::Decibel)), at_treble[0].clone()],
        &[
            Drawn { id: "curve", reference: false, response: &line.chain },
            Drawn { id: "curve-alone", reference: true, response: &alone },
        ],
        Some(&found),
    );
    picture(sheet, &line.points, line.tightest, Some(line.margin));
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
    if values.choice(POWERED)? == BoxSupply::Phantom && values.choice(BOX)? == BoxKind::Active {
        sheet.source("source-phantom");
    }
    Ok(())
}
