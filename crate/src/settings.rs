//! How the reader wants numbers and words.
//!
//! ```
//! use stageohm::quantity::{Unit, write};
//! use stageohm::settings::{Decimal, Length, Settings};
//!
//! let settings = Settings { decimal: Decimal::Comma, length: Length::Foot, ..Settings::default() };
//! assert_eq!(write(4.572, Unit::Metre, 4, &settings), "15\u{a0}ft");
//! assert_eq!(write(1500.0, Unit::Ohm, 4, &settings), "1,5\u{a0}kΩ");
//! ```

use serde::{Deserialize, Serialize};

/// The decimal sign that the reader writes and reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Decimal {
    /// `1.5`
    #[default]
    Point,
    /// `1,5`
    Comma,
}

/// The unit in which lengths are printed and bare lengths are read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Length {
    /// Metres.
    #[default]
    Metre,
    /// International feet of 0.3048 m.
    Foot,
}

/// The mains frequency where the reader works.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub enum Mains {
    /// 50 Hz.
    #[default]
    #[serde(rename = "50")]
    Hz50,
    /// 60 Hz.
    #[serde(rename = "60")]
    Hz60,
}

/// The language of every word in a report.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub enum Language {
    /// English.
    #[default]
    #[serde(rename = "en")]
    English,
}

/// How the reader wants numbers and words. Part of every request.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Settings {
    /// The decimal sign.
    pub decimal: Decimal,
    /// Metres or feet.
    pub length: Length,
    /// 50 or 60 Hz mains.
    pub mains: Mains,
    /// The language of the words.
    pub language: Language,
}
