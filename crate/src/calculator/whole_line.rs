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

use super::balance::{C_IMBALANCE, IMBALANCE, INPUT_R, INPUT_SPREAD, LEG_C};
use super::frequency::Drawn;
use super::ground_loop::{
    CONTACT_R, EARTH_R, EARTH_VOLTS, HARMONIC_LEVELS, LEAKAGE_CURRENT, LEAKAGE_VOLTS, LOOP_L, OTHER_R, PIN_1_R,
    SHIELD_R,
};
use super::level_chain::{BOX_CLIP, CONSOLE_MOST, CREST_FACTOR, HEADROOM, LOWEST, PAD, PAD_R, picture};
use super::noise_floor::{MICROPHONE, MICROPHONE_EMF, PIEZO_CAPACITANCE, SNR_LEAST};
use super::phantom::{CURRENT, LEAST};
use super::pickup::{FLAT, PICKUP};
use super::shared::{
    BOX, BOX_C, BOX_E, BOX_GAIN, BOX_I, BOX_LEG, BOX_R, CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_NOISE, CONSOLE_R, EIN,
    EIN_R, EMF, LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, MAINS, SOURCE_R,
};
use super::transformer::{LARGEST, TRANSFORMER};
use super::{Calculator, Fault, Preset, Sheet, Values};
use crate::catalogue::typical::{EARTH_DIFFERENCE, WINDING_C};
use crate::field::{Field, folded, joined, only_when, option};
use crate::network::{MIDBAND, Response as _, features};
use crate::quantity::Unit;
use crate::words::Arg;
use line::Line;

const ACTIVE: &[&str] = &["active"];
const PASSIVE: &[&str] = &["passive"];
const BOXES: &[&str] = &["passive", "active"];
const OUTPUTS: &[&str] = &["output", "balanced"];
const EARTHED: &[&str] = &["earthed"];
const LEAKING: &[&str] = &["leaking"];
const THRU: &[&str] = &["earthed", "floating"];
const BALANCED: &[&str] = &["balanced"];
const PHANTOM: &[&str] = &["phantom"];

/// What a line is asked to keep, for the calculator that ranks lines too.
pub(super) const LOSS_MOST: Field =
    Field::number("loss_most", "a_max", Unit::Decibel, 3.0, (0.5, 10.0)).limits(0.0, 60.0).at("question");
pub(super) const HUM_LEAST: Field =
    Field::number("hum_least", "a_SH", Unit::Decibel, 60.0, (40.0, 100.0)).limits(0.0, 200.0).at("question");
pub(super) const TREBLE: Field =
    Field::number("treble", "f_T", Unit::Hertz, 5e3, (2e3, 15e3)).limits(1.0, 1e6).detail().at("question");
pub(super) const BASS: Field =
    Field::number("bass", "f_B", Unit::Hertz, 80.0, (30.0, 200.0)).limits(1.0, 1e6).detail().at("question");

/// Leads and the amplifier's earth, for the same.
pub(super) const THRU_LENGTH: Field =
    Field::number("thru_length", "l_A", Unit::Metre, 5.0, (0.0, 20.0)).limits(0.0, 10e3).at("thru");
pub(super) const AMP_DIFFERENCE: Field = Field::number("amp_difference", "E_A", Unit::Volt, 0.1, (10e-3, 1.0))
    .limits(0.0, 1e3)
    .marks(EARTH_DIFFERENCE)
    .at("thru");
pub(super) const RUN_LENGTH: Field =
    Field::number("run_length", "l_R", Unit::Metre, 30.0, (0.0, 100.0)).limits(0.0, 10e3).at("run");

/// What drives a loop of earths, for the same.
pub(super) const EARTHS: [Field; 6] = [
    // A transformer has a leakage too.
    Field { id: "leakage_current", ..LEAKAGE_CURRENT.detail() }.when("power", LEAKING),
    LEAKAGE_VOLTS.when("power", LEAKING),
    OTHER_R.when("power", LEAKING),
    EARTH_R.limits(1e-6, 1e6).when("power", EARTHED).detail(),
    Field::number("amp_earth_r", "R_EA", Unit::Ohm, 0.5, (0.1, 1.0))
        .limits(1e-6, 1e6)
        .exact()
        .when("thru", EARTHED)
        .detail()
        .at("earth"),
    LOOP_L,
];

const SOURCE: [Field; 10] = [
    Field::choice(
        "source",
        &[option("pickup"), option("piezo"), option("output"), option("balanced"), option("microphone")],
        "pickup",
    )
    .at("source"),
    EMF.when("source", &["pickup", "piezo", "output", "balanced"]),
    MICROPHONE_EMF,
    CREST_FACTOR.starting(15.0),
    SOURCE_R.starting(1e3).when("source", OUTPUTS),
    PIEZO_CAPACITANCE,
    MICROPHONE,
    Field::choice("power", &[option("floating"), option("earthed"), option("leaking")], "floating")
        .when("source", OUTPUTS)
        .at("source"),
    EARTH_VOLTS.when("power", EARTHED),
    LEAD_LENGTH,
];

const LEADS_AND_BOX: [Field; 7] = [
    LEAD_C.detail(),
    LEAD_R,
    LEAD_L,
    SHIELD_R.detail(),
    CONTACT_R,
    BOX,
    Field::choice("powered", &[option("phantom"), option("battery")], "phantom").when("box", ACTIVE).at("box"),
];

const THRU_BRANCH: [Field; 5] = [
    Field::choice("thru", &[option("none"), option("earthed"), option("floating")], "none")
        .when("box", BOXES)
        .detail()
        .at("thru"),
    THRU_LENGTH.when("thru", THRU),
    Field::number("amp_r", "R_A", Unit::Ohm, 1e6, (100e3, 10e6))
        .limits(1e-3, 1e12)
        .when("thru", THRU)
        .detail()
        .at("thru"),
    Field::number("amp_c", "C_A", Unit::Farad, 50e-12, (0.0, 1e-9))
        .limits(0.0, 1e-6)
        .bare(1e-12)
        .when("thru", THRU)
        .detail()
        .at("thru"),
    AMP_DIFFERENCE.when("thru", EARTHED),
];

const BOX_DETAILS: [Field; 11] = [
    Field::choice("ground", &[option("joined"), option("lifted")], "joined").when("box", BOXES).at("box"),
    BOX_R.detail(),
    BOX_C,
    BOX_GAIN.detail(),
    BOX_CLIP.detail(),
    BOX_E.detail(),
    BOX_I,
    BOX_LEG,
    CURRENT.when("powered", PHANTOM).detail().at("box"),
    LEAST.when("powered", PHANTOM).detail().at("box"),
    Field::number("winding_c", "C_ps", Unit::Farad, 100e-12, (2e-12, 1e-9))
        .limits(1e-16, 1e-6)
        .bare(1e-12)
        .marks(WINDING_C)
        .when("box", PASSIVE)
        .detail()
        .at("transformer"),
];

const RUN: [Field; 11] = [
    Field::choice("run", &[option("balanced"), option("unbalanced")], "balanced").at("run"),
    RUN_LENGTH,
    Field::number("run_c", "C′_R", Unit::FaradPerMetre, 100e-12, (45e-12, 160e-12))
        .limits(0.0, 1e-6)
        .bare(1e-12)
        .detail()
        .at("run"),
    Field::number("run_r", "R′_R", Unit::OhmPerMetre, 0.16, (0.05, 0.2)).limits(0.0, 1e3).detail().at("run"),
    Field::number("run_l", "L′_R", Unit::HenryPerMetre, 0.6e-6, (0.3e-6, 0.8e-6))
        .limits(0.0, 1e-3)
        .bare(1e-6)
        .detail()
        .at("run"),
    IMBALANCE.when("run", BALANCED).detail().at("run"),
    PIN_1_R.when("run", BALANCED).at("run"),
    PAD.detail(),
    PAD_R,
    CONSOLE_R,
    Field::choice("phantom", &[option("off"), option("p48"), option("p24"), option("p12")], "p48").at("console"),
];

const CONSOLE: [Field; 11] = [
    CONSOLE_C,
    CONSOLE_MOST.detail(),
    CONSOLE_NOISE,
    EIN.detail(),
    EIN_R,
    CONSOLE_E.detail(),
    CONSOLE_I,
    INPUT_R.when("run", BALANCED).detail().at("console"),
    INPUT_SPREAD.when("run", BALANCED).at("console"),
    LEG_C.when("run", BALANCED).at("console"),
    C_IMBALANCE.when("run", BALANCED).at("console"),
];

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "whole-line",
    fields: &joined::<99>(&[
        &SOURCE,
        &only_when(folded(PICKUP), "source", &["pickup"]),
        &LEADS_AND_BOX,
        &BOX_DETAILS,
        &only_when(folded(TRANSFORMER), "box", PASSIVE),
        &[LARGEST.when("box", PASSIVE).detail(), LOWEST],
        &THRU_BRANCH,
        &RUN,
        &CONSOLE,
        &[LOSS_MOST, SNR_LEAST, HUM_LEAST, HEADROOM, TREBLE, BASS],
        &EARTHS,
        &[MAINS],
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
    if values.choice("phantom")? != "off" {
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
    let treble = values.number("treble")?;
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
    if values.choice("powered")? == "phantom" && values.choice("box")? == "active" {
        sheet.source("source-phantom");
    }
    Ok(())
}
