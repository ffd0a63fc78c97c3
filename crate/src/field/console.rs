//! An input of the console.

use super::{ChoiceField, Field, Values, choice};
use crate::catalogue::typical;
use crate::fault::Fault;
use crate::network::{BOLTZMANN, ROOM};
use crate::part::{EquivalentNoise, Input};
use crate::quantity::{Unit, VOLTS_AT_0_DBU};
use crate::words::Arg;
use crate::working::Working;

choice! {
    /// How the noise of an input is stated.
    pub(crate) enum NoiseStatedAs {
        /// As equivalent input noise.
        Ein = "ein",
        /// As the densities of a noise voltage and a noise current.
        Densities = "densities",
    }
}

/// Input resistance, Ω.
pub(crate) const CONSOLE_R: Field = Field::number("console_r", "R_K", Unit::Ohm, 1.5e3, (1e3, 20e3))
    .limits(1.0, 1e12)
    .marks(typical::LOAD_RESISTANCE)
    .at("console");
/// Input capacitance, F.
pub(crate) const CONSOLE_C: Field = Field::number("console_c", "C_K", Unit::Farad, 220e-12, (0.0, 2e-9))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .detail()
    .at("console");
/// The largest sine at its input, dBu.
pub(crate) const CONSOLE_MOST: Field =
    Field::number("console_most", "a_CK", Unit::DecibelU, 10.0, (0.0, 28.0)).limits(-60.0, 60.0).at("console");
/// How its noise is stated.
pub(crate) const CONSOLE_NOISE: ChoiceField<NoiseStatedAs> =
    NoiseStatedAs::field("console_noise", NoiseStatedAs::Ein).detail().at("console");
/// Equivalent input noise, dBu, unweighted from 20 Hz to 20 kHz.
pub(crate) const EIN: Field = Field::number("ein", "a_EIN", Unit::DecibelU, -128.0, (-130.0, -90.0))
    .limits(-180.0, 0.0)
    .marks(typical::INPUT_NOISE)
    .when(CONSOLE_NOISE, &[NoiseStatedAs::Ein.id()])
    .at("console");
/// The source resistance at which that is stated, Ω.
pub(crate) const EIN_R: Field =
    Field::number("ein_r", "R_EIN", Unit::Ohm, 150.0, (50.0, 600.0)).limits(0.0, 1e6).exact().detail().at("console");
/// Noise voltage density, V/√Hz.
pub(crate) const CONSOLE_E: Field = Field::number("console_en", "e_K", Unit::VoltPerRootHertz, 1.5e-9, (0.5e-9, 50e-9))
    .limits(0.0, 1e-3)
    .bare(1e-9)
    .marks(typical::NOISE_VOLTAGE)
    .when(CONSOLE_NOISE, &[NoiseStatedAs::Densities.id()])
    .at("console");
/// Noise current density, A/√Hz.
pub(crate) const CONSOLE_I: Field =
    Field::number("console_in", "i_K", Unit::AmperePerRootHertz, 1e-12, (0.1e-12, 5e-12))
        .limits(0.0, 1e-6)
        .bare(1e-12)
        .detail()
        .at("console");

/// The console's input, and the working between its stated noise and its noise
/// voltage. Leaves `U_0`, `k_B`, `e_K`, `i_K` in the scope.
pub(crate) fn console(values: &Values, thermal: bool, working: &mut Working) -> Result<Input, Fault> {
    let (r_ein, i_n) = (values.number(EIN_R)?, values.number(CONSOLE_I)?);
    working.given("U_0", VOLTS_AT_0_DBU, Unit::Volt);
    working.given("k_B", BOLTZMANN, Unit::One);
    working.given("T_0", ROOM, Unit::Kelvin);
    working.given("B", EquivalentNoise::bandwidth(), Unit::Hertz);
    working.given("R_EIN", r_ein, Unit::Ohm);
    working.given("i_K", i_n, Unit::AmperePerRootHertz);
    working.given("R_K", values.number(CONSOLE_R)?, Unit::Ohm);
    working.step("ein_divider", "D_K", EquivalentNoise::DIVIDER, Unit::One)?;
    let (e_n, thermal) = match values.choice(CONSOLE_NOISE)? {
        NoiseStatedAs::Ein => (from_ein(values.number(EIN)?, EquivalentNoise::least(r_ein, i_n), working)?, false),
        NoiseStatedAs::Densities => {
            let e_n = values.number(CONSOLE_E)?;
            working.given("e_K", e_n, Unit::VoltPerRootHertz);
            (e_n, thermal)
        }
    };
    Ok(Input { r: values.number(CONSOLE_R)?, c: values.number(CONSOLE_C)?, e_n, i_n, thermal })
}

/// The noise voltage density of an equivalent input noise in dBu, V/√Hz; less than
/// `floor` there cannot be.
fn from_ein(ein: f64, floor: f64, working: &mut Working) -> Result<f64, Fault> {
    if ein < floor {
        return Err(EIN.fault("fault-ein").with("floor", Arg::AtLeast(floor, Unit::DecibelU)));
    }
    working.given("a_EIN", ein, Unit::DecibelU);
    working.step("ein_volts", "U_EIN", EquivalentNoise::VOLTS, Unit::Volt)?;
    working.step("ein_density", "e_K", EquivalentNoise::DENSITY, Unit::VoltPerRootHertz)
}
