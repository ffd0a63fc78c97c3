//! What is asked of a line: limits to keep, and where they count.

use super::Field;
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
