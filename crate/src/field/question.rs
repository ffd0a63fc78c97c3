//! What is asked of a line: limits to keep, and where they count.

use super::Field;
use crate::catalogue::typical::INSTRUMENT_LEAD;
use crate::quantity::Unit;

/// Where a level counts, Hz.
pub(crate) const FREQUENCY: Field =
    Field::number("frequency", "f", Unit::Hertz, 1000.0, (20.0, 20e3)).limits(0.01, 1e7).at("question");
/// How much may be lost there, dB.
pub(crate) const LIMIT: Field =
    Field::number("limit", "a_max", Unit::Decibel, 0.5, (0.1, 6.0)).limits(0.001, 60.0).at("question");
/// How much more than the source alone a line may lose at its ends, dB.
pub(crate) const LOSS_MOST: Field =
    Field::number("loss_most", "a_max", Unit::Decibel, 3.0, (0.5, 10.0)).limits(0.0, 60.0).at("question");
/// The least distance of the signal from noise, dB.
pub(crate) const SNR_LEAST: Field =
    Field::number("snr_least", "a_min", Unit::Decibel, 60.0, (40.0, 100.0)).limits(0.0, 200.0).at("question");
/// The least distance of the signal from hum, A-weighted, dB.
pub(crate) const HUM_LEAST: Field =
    Field::number("hum_least", "a_SH", Unit::Decibel, 60.0, (40.0, 100.0)).limits(0.0, 200.0).at("question");
/// The least distance of the peaks from what clips, dB.
pub(crate) const HEADROOM: Field =
    Field::number("headroom", "h", Unit::Decibel, 6.0, (0.0, 20.0)).limits(0.0, 60.0).at("question");
/// Where the treble counts, Hz.
pub(crate) const TREBLE: Field =
    Field::number("treble", "f_T", Unit::Hertz, 5e3, (2e3, 15e3)).limits(1.0, 1e6).detail().at("question");
/// Where the bass counts, Hz.
pub(crate) const BASS: Field =
    Field::number("bass", "f_B", Unit::Hertz, 80.0, (30.0, 200.0)).limits(1.0, 1e6).detail().at("question");
/// A distance from noise or hum from which on more of it is no better, dB (common
/// practice, no source).
pub(crate) const ENOUGH: Field =
    Field::number("enough", "a_E", Unit::Decibel, 80.0, (70.0, 110.0)).limits(0.0, 200.0).detail().at("question");
/// How much unbalanced line may lie before the console, m; empty for any.
pub(crate) const UNBALANCED_MOST: Field =
    Field::number("unbalanced_most", "l_U", Unit::Metre, INSTRUMENT_LEAD, (2.0, 20.0))
        .limits(0.01, 10e3)
        .optional()
        .detail()
        .at("question");
/// How many times its own resistance a source's load has to be (common practice, no
/// source: five for microphones and ten for lines are wished for, and two microphone
/// inputs on one microphone, 3.75 times its 200 Ω, are put up with).
pub(crate) const LOAD_RATIO: Field =
    Field::number("load_ratio_least", "k_L", Unit::One, 3.0, (2.0, 10.0)).limits(0.01, 1e6).detail().at("question");
/// The least level at the console's input, dBu; empty where its gain makes up for any.
pub(crate) const LEVEL_LEAST: Field =
    Field::blank("level_least", "a_Lmin", Unit::DecibelU, (-60.0, 0.0)).limits(-200.0, 60.0).detail().at("question");
