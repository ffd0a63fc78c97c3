//! The ground map of a show: generated from its input list, its equipment and what else
//! joins that.

mod answer;

pub use answer::{
    GroundMap, InputAt, Isolate, LeftOut, MapBackwards, MapInput, MapIsolation, MapLoop, MapPlace, MapWire, MapWorking,
    PlaceKind, WireKind,
};

use super::show::Show;
use crate::settings::Settings;

/// The ground map of a show, trying so many sets of leads to isolate at most.
pub fn ground_map(_show: &Show, _sets: usize, _settings: &Settings) -> GroundMap {
    unimplemented!()
}

/// How the hum at one of its inputs comes about.
pub fn map_working(_show: &Show, _line: &str, _at: InputAt, _settings: &Settings) -> MapWorking {
    unimplemented!()
}

/// Which difference of each circuit would make an input just miss its limit.
pub fn map_backwards(_show: &Show, _line: &str, _at: InputAt) -> Vec<MapBackwards> {
    unimplemented!()
}
