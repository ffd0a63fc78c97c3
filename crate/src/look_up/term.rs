//! Terms of the trade.

use super::item::{Item, Put, To};
use crate::calculator::levels::{self, LEVEL, LevelUnit, UNIT};
use crate::calculator::pad::{self, LOSS};
use crate::calculator::{
    balance, box_or_straight, ground_loop, lead_length, level_chain, noise_floor, phantom, pickup, source_load,
    transformer, whole_line,
};
use crate::catalogue::phantom::P48;
use crate::catalogue::typical::{MINUS_10_DBV, PLUS_4_DBU};
use crate::field::connection::{CONNECTION, ConnectionKind};
use crate::field::direct_box::{BOX, BoxKind};
use crate::field::earth::{CAUSE, CauseKind};
use crate::field::leg::{DRIVE, DriveKind};
use crate::field::source::{EMF, SOURCE, SourceKind};
use crate::quantity::level::HALF_POWER;
use crate::quantity::{Unit, VOLTS_AT_0_DBU};

/// How far half the voltage is down, dB.
pub(super) const HALF_VOLTAGE: f64 = 6.020_599_913_279_624;
/// A usual turns ratio.
const TURNS: f64 = 12.0;

/// In the order of the alphabet in English; the page sorts them by title.
pub(super) static ITEMS: &[Item] =
    &[
        Item::new("term-a-weighting", &["source-weighting"]).see(&["a-weighting", "term-hum"]),
        Item::new("term-balanced", &["source-whitlock"]).links(&[To::calculator(&balance::CALCULATOR)]).see(&[
            "term-common-mode",
            "term-common-mode-rejection",
            "term-unbalanced",
            "lead-xlr",
        ]),
        Item::new("term-bridging", &["source-divider"])
            .links(&[To::calculator(&source_load::CALCULATOR)])
            .see(&["loss-by-load", "term-matching"]),
        Item::new("term-buzz", &["source-trade"]).links(&[To::calculator(&ground_loop::CALCULATOR)]).see(&[
            "term-hum",
            "harmonics-50",
            "harmonics-60",
        ]),
        Item::new("term-clipping", &["source-trade"])
            .links(&[To::calculator(&level_chain::CALCULATOR)])
            .see(&["term-headroom", "term-crest-factor"]),
        Item::new("term-common-mode", &["source-whitlock"])
            .links(&[To::calculator(&balance::CALCULATOR)])
            .see(&["term-common-mode-rejection", "value-common-mode"]),
        Item::new("term-common-mode-rejection", &["source-whitlock", "source-balance-test"])
            .links(&[To::calculator(&balance::CALCULATOR)])
            .see(&["term-balanced", "term-common-mode", "value-leg"]),
        Item::new("term-corner", &["source-chain"])
            .numbers(&[("half", HALF_POWER, Unit::Decibel)])
            .links(&[To::calculator(&source_load::CALCULATOR)])
            .see(&["term-decibel", "decibel-ratio"]),
        Item::new("term-crest-factor", &["source-trade"])
            .numbers(&[("sine", HALF_POWER, Unit::Decibel)])
            .links(&[To::calculator(&level_chain::CALCULATOR)])
            .see(&["value-crest", "term-headroom"]),
        Item::new("term-dbfs", &["source-levels", "source-r68", "source-rp155"])
            .links(&[To::calculator(&levels::CALCULATOR)])
            .see(&["term-dbu", "term-headroom"]),
        Item::new("term-dbm", &["source-levels"])
            .links(&[To::filled(
                &levels::CALCULATOR,
                &[Put::answer(LevelUnit::Dbm.to(UNIT)), Put::number_in(LEVEL, 0.0, Unit::DecibelM)],
            )])
            .see(&["term-dbu", "term-matching"]),
        Item::new("term-dbu", &["source-levels"])
            .numbers(&[("zero", VOLTS_AT_0_DBU, Unit::Volt), ("line", PLUS_4_DBU, Unit::Volt)])
            .links(&[To::filled(
                &levels::CALCULATOR,
                &[Put::answer(LevelUnit::Dbu.to(UNIT)), Put::number_in(LEVEL, 4.0, Unit::DecibelU)],
            )])
            .see(&["level-units", "term-dbv", "term-dbm"]),
        Item::new("term-dbv", &["source-levels"])
            .numbers(&[
                ("zero", 1.0, Unit::Volt),
                ("line", MINUS_10_DBV, Unit::Volt),
                ("apart", 2.218_487_496_163_564, Unit::Decibel),
            ])
            .links(&[To::filled(
                &levels::CALCULATOR,
                &[Put::answer(LevelUnit::Dbv.to(UNIT)), Put::number_in(LEVEL, -10.0, Unit::DecibelV)],
            )])
            .see(&["level-units", "term-dbu"]),
        Item::new("term-decibel", &["source-levels"]).links(&[To::calculator(&levels::CALCULATOR)]).see(&[
            "decibel-ratio",
            "level-units",
            "level-sum",
        ]),
        Item::new("term-differential", &["source-whitlock"]).see(&["term-common-mode", "term-balanced"]),
        Item::new("term-direct-box", &["source-trade"])
            .links(&[To::calculator(&box_or_straight::CALCULATOR), To::calculator(&whole_line::CALCULATOR)])
            .see(&["term-passive-box", "term-active-box", "term-thru", "term-isolator"]),
        Item::new("term-active-box", &["source-trade"])
            .cautions(&["caution-phantom"])
            .links(&[To::filled(&whole_line::CALCULATOR, &[Put::answer(BoxKind::Active.to(BOX))])])
            .see(&["term-direct-box", "term-passive-box", "term-phantom", "value-phantom-current"]),
        Item::new("term-passive-box", &["source-trade"])
            .links(&[To::filled(&whole_line::CALCULATOR, &[Put::answer(BoxKind::Passive.to(BOX))])])
            .see(&["term-direct-box", "term-active-box", "term-turns-ratio"]),
        Item::new("term-ein", &["source-amplifier-noise", "source-johnson"])
            .links(&[To::calculator(&noise_floor::CALCULATOR)])
            .see(&["value-input-noise", "term-thermal-noise"]),
        Item::new("term-electrostatic-screen", &["source-whitlock"])
            .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(ConnectionKind::Screened.to(CONNECTION))])])
            .see(&["value-winding", "term-inter-winding"]),
        Item::new("term-gain-structure", &["source-trade"])
            .links(&[To::calculator(&level_chain::CALCULATOR)])
            .see(&["term-headroom", "term-signal-to-noise"]),
        Item::new("term-ground-lift", &["source-aes48", "source-trade"])
            .cautions(&["caution-earth", "caution-electrician"])
            .links(&[To::calculator(&ground_loop::CALCULATOR)])
            .see(&["term-ground-loop", "term-safety-earth", "term-isolator"]),
        Item::new("term-ground-loop", &["source-shield", "source-whitlock"])
            .cautions(&["caution-earth", "caution-electrician"])
            .links(&[To::calculator(&ground_loop::CALCULATOR), To::calculator(&balance::CALCULATOR)])
            .see(&["term-hum", "term-isolator", "term-safety-earth", "value-earths"]),
        Item::new("term-headroom", &["source-trade"])
            .links(&[To::calculator(&level_chain::CALCULATOR)])
            .see(&["term-crest-factor", "term-clipping"]),
        Item::new("term-hot-cold", &["source-xlr"]).see(&["xlr", "term-polarity", "adaptor-polarity"]),
        Item::new("term-hum", &["source-trade"])
            .cautions(&["caution-earth"])
            .links(&[To::calculator(&ground_loop::CALCULATOR)])
            .see(&["term-buzz", "term-ground-loop", "harmonics-50", "harmonics-60"]),
        Item::new("term-impedance-balanced", &["source-whitlock"])
            .numbers(&[("half", HALF_VOLTAGE, Unit::Decibel)])
            .links(&[To::filled(&balance::CALCULATOR, &[Put::answer(DriveKind::One.to(DRIVE))])])
            .see(&["term-balanced", "adaptor-two-pole-in-balanced-output"]),
        Item::new("term-input-impedance", &["source-divider"])
            .links(&[To::calculator(&source_load::CALCULATOR)])
            .see(&["value-input", "term-bridging", "term-source-impedance"]),
        Item::new("term-insertion-loss", &["source-chain"])
            .links(&[To::calculator(&transformer::CALCULATOR)])
            .see(&["term-bridging", "term-decibel"]),
        Item::new("term-instrument-level", &["source-trade"])
            .links(&[To::calculator(&box_or_straight::CALCULATOR)])
            .see(&["value-level", "term-line-level", "term-microphone-level"]),
        Item::new("term-inter-winding", &["source-whitlock"])
            .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(ConnectionKind::Isolated.to(CONNECTION))])])
            .see(&["value-winding", "term-electrostatic-screen"]),
        Item::new("term-isolator", &["source-whitlock"])
            .links(&[
                To::filled(&ground_loop::CALCULATOR, &[Put::answer(ConnectionKind::Isolated.to(CONNECTION))]),
                To::calculator(&transformer::CALCULATOR),
            ])
            .see(&["term-ground-loop", "term-direct-box", "value-winding"]),
        Item::new("term-lead-capacitance", &["source-chain"])
            .links(&[To::calculator(&lead_length::CALCULATOR), To::calculator(&pickup::CALCULATOR)])
            .see(&["value-lead", "lead-by-length"]),
        Item::new("term-leakage", &["source-trade"])
            .cautions(&["caution-earth", "caution-electrician", "caution-rcd"])
            .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(CauseKind::Leakage.to(CAUSE))])])
            .see(&["value-leakage", "term-safety-earth"]),
        Item::new("term-leakage-inductance", &["source-chain"])
            .links(&[To::calculator(&transformer::CALCULATOR)])
            .see(&["term-magnetising-inductance", "term-turns-ratio"]),
        Item::new("term-line-level", &["source-levels", "source-trade"])
            .links(&[To::calculator(&levels::CALCULATOR)])
            .see(&["value-level", "term-instrument-level", "term-microphone-level"]),
        Item::new("term-loudspeaker-level", &["source-trade"])
            .cautions(&["caution-bridged", "caution-valve", "caution-hearing"])
            .links(&[To::filled(&pad::CALCULATOR, &[Put::number(LOSS, 40.0), Put::number(EMF, 20.0)])])
            .see(&["value-pad", "term-pad", "lead-jack"]),
        Item::new("term-magnetising-inductance", &["source-chain"])
            .links(&[To::calculator(&transformer::CALCULATOR)])
            .see(&["term-saturation", "term-leakage-inductance"]),
        Item::new("term-matching", &["source-power"])
            .links(&[To::calculator(&source_load::CALCULATOR)])
            .see(&["term-bridging", "loss-by-load"]),
        Item::new("term-microphone-level", &["source-trade"])
            .links(&[To::filled(&noise_floor::CALCULATOR, &[Put::answer(SourceKind::Microphone.to(SOURCE))])])
            .see(&["value-microphone-level", "term-line-level"]),
        Item::new("term-multicore", &["source-trade"]).see(&["term-splitter", "lead-xlr"]),
        Item::new("term-noise-density", &["source-amplifier-noise"])
            .links(&[To::calculator(&noise_floor::CALCULATOR)])
            .see(&["value-noise-voltage", "term-thermal-noise"]),
        Item::new("term-pad", &["source-attenuator"]).links(&[To::calculator(&pad::CALCULATOR)]).see(&[
            "value-pad",
            "decibel-ratio",
            "e24",
        ]),
        Item::new("term-phantom", &["source-phantom"])
            .numbers(&[("volts", P48.volts, Unit::Volt), ("feed", P48.feed_r, Unit::Ohm)])
            .cautions(&["caution-phantom", "caution-hearing"])
            .links(&[To::calculator(&phantom::CALCULATOR)])
            .see(&["phantom-supplies", "value-phantom-current", "adaptor-jack-xlr"]),
        Item::new("term-piezo", &["source-divider"])
            .links(&[To::filled(&whole_line::CALCULATOR, &[Put::answer(SourceKind::Piezo.to(SOURCE))])])
            .see(&["value-piezo", "term-input-impedance"]),
        Item::new("term-pin-1", &["source-aes48"])
            .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(ConnectionKind::Balanced.to(CONNECTION))])])
            .see(&["term-ground-loop", "term-shield", "adaptor-shield-one-end"]),
        Item::new("term-polarity", &["source-xlr"]).see(&["adaptor-polarity", "term-hot-cold"]),
        Item::new("term-preferred-values", &["source-e-series"]).links(&[To::calculator(&pad::CALCULATOR)]).see(&[
            "e24",
            "e96",
            "term-value-code",
        ]),
        Item::new("term-reactance", &["source-divider"])
            .links(&[To::calculator(&source_load::CALCULATOR)])
            .see(&["term-corner", "term-lead-capacitance"]),
        Item::new("term-resonance", &["source-pickup"])
            .links(&[To::calculator(&pickup::CALCULATOR)])
            .see(&["value-pickup", "term-lead-capacitance"]),
        Item::new("term-safety-earth", &["source-trade"])
            .cautions(&["caution-earth", "caution-electrician", "caution-rcd"])
            .see(&["term-ground-loop", "term-ground-lift", "term-leakage"]),
        Item::new("term-saturation", &["source-chain"])
            .links(&[To::calculator(&transformer::CALCULATOR)])
            .see(&["term-magnetising-inductance", "term-passive-box"]),
        Item::new("term-shield", &["source-aes48", "source-shield"])
            .links(&[To::calculator(&ground_loop::CALCULATOR)])
            .see(&["term-pin-1", "adaptor-shield-one-end", "term-ground-loop"]),
        Item::new("term-signal-to-noise", &["source-johnson"])
            .links(&[To::calculator(&noise_floor::CALCULATOR)])
            .see(&["term-ein", "level-sum"]),
        Item::new("term-source-impedance", &["source-divider"])
            .links(&[To::calculator(&source_load::CALCULATOR)])
            .see(&["value-source", "term-input-impedance"]),
        Item::new("term-splitter", &["source-trade"]).cautions(&["caution-phantom"]).see(&[
            "term-thru",
            "term-isolator",
            "term-multicore",
        ]),
        Item::new("term-star-quad", &["source-trade"]).see(&["lead-xlr", "value-pair"]),
        Item::new("term-thermal-noise", &["source-johnson"])
            .links(&[To::calculator(&noise_floor::CALCULATOR)])
            .see(&["term-ein", "term-noise-density"]),
        Item::new("term-thru", &["source-trade"])
            .links(&[To::calculator(&whole_line::CALCULATOR)])
            .see(&["term-direct-box", "term-ground-loop"]),
        Item::new("term-turns-ratio", &["source-chain"])
            .numbers(&[
                ("ratio", TURNS, Unit::Ratio),
                ("step", -21.583_624_920_952_5, Unit::Decibel),
                ("load", 1e3, Unit::Ohm),
                ("seen", TURNS * TURNS * 1e3, Unit::Ohm),
            ])
            .links(&[To::calculator(&transformer::CALCULATOR)])
            .see(&["value-turns", "term-input-impedance"]),
        Item::new("term-unbalanced", &["source-trade"]).links(&[To::calculator(&lead_length::CALCULATOR)]).see(&[
            "term-balanced",
            "lead-jack",
            "adaptor-jack-xlr",
        ]),
        Item::new("term-value-code", &["source-value-code"])
            .numbers(&[("kilo", 4.7e3, Unit::Ohm), ("ohm", 2.2, Unit::Ohm), ("nano", 2.2e-9, Unit::Farad)])
            .see(&["e24", "term-preferred-values"]),
    ];
