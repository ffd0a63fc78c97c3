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

impl Decimal {
    /// What stands before the decimals, and what may group the digits before it.
    pub const fn signs(self) -> [char; 2] {
        match self {
            Self::Point => ['.', ','],
            Self::Comma => [',', '.'],
        }
    }
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

/// Hands every language of the page to a macro, one line each: its variant, its code (BCP 47),
/// after which its file is named too, its own name, and the decimal sign that its reader begins
/// with. The first is English, which stands in for what another lacks.
macro_rules! with_languages {
    ($with:ident) => {
        $with! {
            English, "en", "English", Point;
            Spanish, "es", "Español", Comma;
        }
    };
}
#[cfg(feature = "words")]
pub(crate) use with_languages;

macro_rules! languages {
    ($first:ident, $code:tt, $name:tt, $decimal:ident; $($other:ident, $others_code:tt, $others_name:tt, $others_decimal:ident;)*) => {
        /// The language of every word in a report.
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
        #[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
        pub enum Language {
            #[doc = $name]
            #[default]
            #[serde(rename = $code)]
            $first,
            $(
                #[doc = $others_name]
                #[serde(rename = $others_code)]
                $other,
            )*
        }

        impl Language {
            /// Every language, English first.
            pub const ALL: &[Self] = &[Self::$first, $(Self::$other),*];

            /// Its code, as in a link.
            pub const fn code(self) -> &'static str {
                match self {
                    Self::$first => $code,
                    $(Self::$other => $others_code,)*
                }
            }

            /// What it calls itself.
            pub const fn own_name(self) -> &'static str {
                match self {
                    Self::$first => $name,
                    $(Self::$other => $others_name,)*
                }
            }

            /// The decimal sign that its reader begins with, who may choose the other.
            pub const fn first_decimal(self) -> Decimal {
                match self {
                    Self::$first => Decimal::$decimal,
                    $(Self::$other => Decimal::$others_decimal,)*
                }
            }
        }
    };
}
with_languages!(languages);

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
