//! What a signal is like, whatever it comes from.

use super::Field;
use crate::catalogue::typical;
use crate::quantity::Unit;

/// Crest factor: peak re rms, dB.
pub(crate) const CREST: Field =
    Field::number("crest", "c", Unit::Decibel, 12.0, (3.0, 20.0)).limits(0.0, 60.0).marks(typical::CREST).at("source");
/// The signal beside which hum is heard, V.
pub(crate) const SIGNAL: Field =
    Field::number("signal", "U_S", Unit::Volt, typical::MINUS_10_DBV, (10e-3, 3.0)).limits(1e-9, 1e3).at("signal");
