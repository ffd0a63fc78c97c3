//! The units in which fields and readings are kept.

use crate::settings::Length;
use serde::{Deserialize, Serialize};

/// The voltage of 0 dBu, V: the one that puts 1 mW into 600 Ω, √0.6 V (IEC
/// 60027-3).
pub const VOLTS_AT_0_DBU: f64 = 0.774_596_669_241_483_4;
/// One international foot, m (exact since 1959).
pub(crate) const METRES_PER_FOOT: f64 = 0.3048;

/// 0 °C, K (exact, SI).
pub(crate) const ICE_POINT: f64 = 273.15;

/// The unit of a number. Numbers are kept in exactly this unit, without prefix.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// A pure number.
    One,
    /// A ratio to one, written `12:1`.
    Ratio,
    /// A share of one, written in percent.
    Percent,
    /// Resistance or the size of an impedance, Ω.
    Ohm,
    /// Conductance or the size of an admittance, S.
    Siemens,
    /// Inductance, H.
    Henry,
    /// Capacitance, F.
    Farad,
    /// Frequency, Hz.
    Hertz,
    /// Voltage, V rms unless the field says otherwise.
    Volt,
    /// Peak voltage, V.
    VoltPeak,
    /// Peak-to-peak voltage, V.
    VoltPeakToPeak,
    /// Current, A.
    Ampere,
    /// Power, W.
    Watt,
    /// Length, m.
    Metre,
    /// Area, m².
    SquareMetre,
    /// Resistance per length, Ω/m.
    OhmPerMetre,
    /// Inductance per length, H/m.
    HenryPerMetre,
    /// Capacitance per length, F/m.
    FaradPerMetre,
    /// Magnetic flux density, T rms.
    Tesla,
    /// Temperature, K; printed and read in °C.
    Kelvin,
    /// Noise voltage density, V/√Hz.
    VoltPerRootHertz,
    /// Noise current density, A/√Hz.
    AmperePerRootHertz,
    /// Angle, degrees.
    Degree,
    /// Time, s.
    Second,
    /// Level difference, dB.
    Decibel,
    /// Voltage level re √0.6 V, dBu.
    DecibelU,
    /// Voltage level re 1 V, dBV.
    DecibelV,
    /// Power level re 1 mW, dBm.
    DecibelM,
    /// Digital level re a full-scale sine, dBFS.
    DecibelFullScale,
    /// Angular frequency, rad/s.
    RadianPerSecond,
}

/// How a number of a unit is printed for a reader: `(value − zero) / size`, then
/// the symbol.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printing {
    /// The number of the unit that one printed unit stands for.
    pub size: f64,
    /// The number of the unit that is printed as 0.
    pub zero: f64,
    /// The printed symbol.
    pub symbol: &'static str,
}

/// How a suffix that a person wrote turns a number into the unit of the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// Multiply by this.
    Factor(f64),
    /// A level in dB re this many volts.
    LevelVolts(f64),
    /// Degrees Celsius.
    Celsius,
}

impl Unit {
    /// All units.
    pub const ALL: [Self; 30] = [
        Self::One,
        Self::Ratio,
        Self::Percent,
        Self::Ohm,
        Self::Siemens,
        Self::Henry,
        Self::Farad,
        Self::Hertz,
        Self::Volt,
        Self::VoltPeak,
        Self::VoltPeakToPeak,
        Self::Ampere,
        Self::Watt,
        Self::Metre,
        Self::SquareMetre,
        Self::OhmPerMetre,
        Self::HenryPerMetre,
        Self::FaradPerMetre,
        Self::Tesla,
        Self::Kelvin,
        Self::VoltPerRootHertz,
        Self::AmperePerRootHertz,
        Self::Degree,
        Self::Second,
        Self::Decibel,
        Self::DecibelU,
        Self::DecibelV,
        Self::DecibelM,
        Self::DecibelFullScale,
        Self::RadianPerSecond,
    ];

    /// The printed symbol, empty for pure numbers.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::One => "",
            Self::Ratio => ":1",
            Self::Percent => "%",
            Self::Ohm => "Ω",
            Self::Siemens => "S",
            Self::Henry => "H",
            Self::Farad => "F",
            Self::Hertz => "Hz",
            Self::Volt => "V",
            Self::VoltPeak => "Vpk",
            Self::VoltPeakToPeak => "Vpp",
            Self::Ampere => "A",
            Self::Watt => "W",
            Self::Metre => "m",
            Self::SquareMetre => "m²",
            Self::OhmPerMetre => "Ω/m",
            Self::HenryPerMetre => "H/m",
            Self::FaradPerMetre => "F/m",
            Self::Tesla => "T",
            Self::Kelvin => "°C",
            Self::VoltPerRootHertz => "V/√Hz",
            Self::AmperePerRootHertz => "A/√Hz",
            Self::Degree => "°",
            Self::Second => "s",
            Self::Decibel => "dB",
            Self::DecibelU => "dBu",
            Self::DecibelV => "dBV",
            Self::DecibelM => "dBm",
            Self::DecibelFullScale => "dBFS",
            Self::RadianPerSecond => "rad/s",
        }
    }

    /// Whether the unit is a logarithmic one: no prefixes, fixed decimals.
    pub fn is_level(self) -> bool {
        matches!(self, Self::Decibel | Self::DecibelU | Self::DecibelV | Self::DecibelM | Self::DecibelFullScale)
    }

    /// Whether SI prefixes go with the unit.
    pub fn takes_prefix(self) -> bool {
        !self.is_level()
            && !matches!(
                self,
                Self::One
                    | Self::Ratio
                    | Self::Percent
                    | Self::Kelvin
                    | Self::Degree
                    | Self::SquareMetre
                    | Self::Metre
                    | Self::RadianPerSecond
            )
    }

    /// The spellings that a person may use for the unit, without prefix.
    pub(crate) fn spellings(self) -> &'static [(&'static str, Scale)] {
        use Scale::{Celsius, Factor, LevelVolts};
        const ONE: Scale = Factor(1.0);
        const FOOT: Scale = Factor(METRES_PER_FOOT);
        const PER_FOOT: Scale = Factor(1.0 / METRES_PER_FOOT);
        match self {
            Self::One => &[],
            Self::Ratio => &[(":1", ONE), (": 1", ONE)],
            Self::Percent => &[("%", Factor(0.01))],
            Self::Ohm => &[("Ω", ONE), ("Ω", ONE), ("ohms", ONE), ("ohm", ONE), ("R", ONE), ("r", ONE)],
            Self::Siemens => &[("S", ONE)],
            Self::Henry => &[("H", ONE), ("h", ONE)],
            Self::Farad => &[("F", ONE), ("f", ONE)],
            Self::Hertz => &[("Hz", ONE), ("hz", ONE), ("HZ", ONE)],
            Self::Volt => &[
                ("dBu", LevelVolts(VOLTS_AT_0_DBU)),
                ("dBV", LevelVolts(1.0)),
                ("V rms", ONE),
                ("Vrms", ONE),
                ("V", ONE),
                ("v", ONE),
            ],
            Self::VoltPeak => &[("V pk", ONE), ("Vpk", ONE), ("V", ONE), ("v", ONE)],
            Self::VoltPeakToPeak => &[("V pp", ONE), ("Vpp", ONE), ("V", ONE), ("v", ONE)],
            Self::Ampere => &[("A", ONE), ("a", ONE)],
            Self::Watt => &[("W", ONE), ("w", ONE)],
            Self::Metre => &[
                ("metres", ONE),
                ("meters", ONE),
                ("metre", ONE),
                ("meter", ONE),
                ("mm", Factor(1e-3)),
                ("cm", Factor(1e-2)),
                ("km", Factor(1e3)),
                ("m", ONE),
                ("feet", FOOT),
                ("foot", FOOT),
                ("ft", FOOT),
                ("'", FOOT),
                ("′", FOOT),
            ],
            Self::SquareMetre => &[("m²", ONE), ("m2", ONE), ("m^2", ONE)],
            Self::OhmPerMetre => {
                &[("Ω/m", ONE), ("Ω/m", ONE), ("ohm/m", ONE), ("Ω/ft", PER_FOOT), ("ohm/ft", PER_FOOT)]
            }
            Self::HenryPerMetre => &[("H/m", ONE), ("H/ft", PER_FOOT)],
            Self::FaradPerMetre => &[("F/m", ONE), ("F/ft", PER_FOOT), ("F", ONE)],
            Self::Tesla => &[("T", ONE)],
            Self::Kelvin => &[("°C", Celsius), ("C", Celsius), ("K", ONE)],
            Self::VoltPerRootHertz => &[("V/√Hz", ONE), ("V/rtHz", ONE), ("V", ONE)],
            Self::AmperePerRootHertz => &[("A/√Hz", ONE), ("A/rtHz", ONE), ("A", ONE)],
            Self::Degree => &[("°", ONE), ("deg", ONE)],
            Self::Second => &[("s", ONE)],
            Self::Decibel => &[("dB", ONE), ("db", ONE), ("DB", ONE)],
            Self::DecibelU => &[("dBu", ONE), ("dbu", ONE), ("dB", ONE)],
            Self::DecibelV => &[("dBV", ONE), ("dbv", ONE), ("dB", ONE)],
            Self::DecibelM => &[("dBm", ONE), ("dbm", ONE), ("dB", ONE)],
            Self::DecibelFullScale => &[("dBFS", ONE), ("dbfs", ONE), ("dB", ONE)],
            Self::RadianPerSecond => &[("rad/s", ONE)],
        }
    }

    /// How its numbers are printed: in feet where the reader has chosen them.
    pub fn printing(self, length: Length) -> Printing {
        let symbol = self.symbol();
        let plain = Printing { size: 1.0, zero: 0.0, symbol };
        match (self, length) {
            (Self::Metre, Length::Foot) => Printing { size: METRES_PER_FOOT, symbol: "ft", ..plain },
            (Self::FaradPerMetre, Length::Foot) => Printing { size: 1.0 / METRES_PER_FOOT, symbol: "F/ft", ..plain },
            (Self::OhmPerMetre, Length::Foot) => Printing { size: 1.0 / METRES_PER_FOOT, symbol: "Ω/ft", ..plain },
            (Self::HenryPerMetre, Length::Foot) => Printing { size: 1.0 / METRES_PER_FOOT, symbol: "H/ft", ..plain },
            (Self::Percent, _) => Printing { size: 0.01, ..plain },
            (Self::Kelvin, _) => Printing { zero: ICE_POINT, ..plain },
            _ => plain,
        }
    }
}
