//! Whatever is typed is read or refused, and never brings the core down.
#![no_main]

use libfuzzer_sys::fuzz_target;
use stageohm::expression::parse;
use stageohm::quantity::{Unit, read, write};
use stageohm::settings::{Decimal, Length, Settings};

const UNITS: [Unit; 8] =
    [Unit::Ohm, Unit::Farad, Unit::Volt, Unit::Metre, Unit::Ratio, Unit::Kelvin, Unit::Decibel, Unit::FaradPerMetre];

fuzz_target!(|text: &str| {
    let _ = parse(text);
    for (decimal, length) in [(Decimal::Point, Length::Metre), (Decimal::Comma, Length::Foot)] {
        let settings = Settings { decimal, length, ..Settings::default() };
        for unit in UNITS {
            if let Ok(written) = read(text, unit, 1e-12, &settings) {
                assert!(written.value.is_finite());
                let _ = write(written.value, unit, 6, &settings);
            }
        }
    }
});
