//! Fields that several calculators ask for, and the parts they make.

use super::transformer::transformer;
use super::{Fault, Sheet, Values, Working};
use crate::catalogue::typical::{
    BOX_GAIN as GAINS, INPUT_NOISE, LEAD_C as LEAD_CAPACITANCES, LOAD_RESISTANCE, NOISE_VOLTAGE, SOURCE_LEVEL,
    SOURCE_RESISTANCE, alignment,
};
use crate::field::{Field, option};
use crate::network::{AUDIO_BAND, BOLTZMANN, ROOM, johnson};
use crate::part::{ActiveBox, Between, Input, Lead};
use crate::quantity::{Unit, VOLTS_AT_0_DBU};
use crate::words::Arg;

pub(super) const SOURCE_R: Field = Field::number("source_r", "R_S", Unit::Ohm, 150.0, (10.0, 100e3))
    .limits(0.0, 1e9)
    .marks(SOURCE_RESISTANCE)
    .at("source");
pub(super) const LEAD_LENGTH: Field =
    Field::number("lead_length", "l", Unit::Metre, 5.0, (0.0, 20.0)).limits(0.0, 10e3).at("lead");
pub(super) const LEAD_C: Field = Field::number("lead_c", "C′", Unit::FaradPerMetre, 100e-12, (60e-12, 160e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .marks(LEAD_CAPACITANCES)
    .at("lead");
pub(super) const LEAD_R: Field =
    Field::number("lead_r", "R′", Unit::OhmPerMetre, 0.1, (0.05, 0.2)).limits(0.0, 1e3).detail().at("lead");
pub(super) const LEAD_L: Field = Field::number("lead_l", "L′", Unit::HenryPerMetre, 0.6e-6, (0.3e-6, 0.8e-6))
    .limits(0.0, 1e-3)
    .bare(1e-6)
    .detail()
    .at("lead");
pub(super) const LOAD_R: Field =
    Field::number("load_r", "R_L", Unit::Ohm, 10e3, (100.0, 10e6)).limits(1e-3, 1e12).marks(LOAD_RESISTANCE).at("load");
pub(super) const LOAD_C: Field =
    Field::number("load_c", "C_L", Unit::Farad, 0.0, (0.0, 10e-9)).limits(0.0, 1e-3).bare(1e-12).detail().at("load");

/// The source's own voltage, nothing connected.
pub(super) const EMF: Field =
    Field::number("emf", "E", Unit::Volt, 0.2, (10e-3, 2.0)).limits(1e-9, 1e3).marks(SOURCE_LEVEL).at("source");

/// What stands between the source and the console.
pub(super) const BOX: Field =
    Field::choice("box", &[option("none"), option("passive"), option("active")], "active").at("box");
const ACTIVE: &[&str] = &["active"];
pub(super) const BOX_R: Field =
    Field::number("box_r", "R_B", Unit::Ohm, 1e6, (100e3, 10e6)).limits(1.0, 1e12).when("box", ACTIVE).at("box");
pub(super) const BOX_C: Field = Field::number("box_c", "C_B", Unit::Farad, 50e-12, (10e-12, 200e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .when("box", ACTIVE)
    .detail()
    .at("box");
pub(super) const BOX_GAIN: Field = Field::number("box_gain", "g_B", Unit::Decibel, 0.0, (-20.0, 20.0))
    .limits(-100.0, 60.0)
    .marks(GAINS)
    .when("box", ACTIVE)
    .at("box");
pub(super) const BOX_E: Field = Field::number("box_en", "e_B", Unit::VoltPerRootHertz, 10e-9, (1e-9, 50e-9))
    .limits(0.0, 1e-3)
    .bare(1e-9)
    .marks(NOISE_VOLTAGE)
    .when("box", ACTIVE)
    .at("box");
pub(super) const BOX_I: Field = Field::number("box_in", "i_B", Unit::AmperePerRootHertz, 0.1e-12, (1e-15, 1e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .when("box", ACTIVE)
    .detail()
    .at("box");
pub(super) const BOX_LEG: Field = Field::number("box_leg", "R_A", Unit::Ohm, 100.0, (25.0, 300.0))
    .limits(0.0, 1e6)
    .when("box", ACTIVE)
    .detail()
    .at("box");

pub(super) const CONSOLE_R: Field = Field::number("console_r", "R_K", Unit::Ohm, 1.5e3, (1e3, 20e3))
    .limits(1.0, 1e12)
    .marks(LOAD_RESISTANCE)
    .at("console");
pub(super) const CONSOLE_C: Field = Field::number("console_c", "C_K", Unit::Farad, 220e-12, (0.0, 2e-9))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .detail()
    .at("console");
/// How the noise of the console's input is stated.
pub(super) const CONSOLE_NOISE: Field =
    Field::choice("console_noise", &[option("ein"), option("densities")], "ein").detail().at("console");
pub(super) const EIN: Field = Field::number("ein", "a_EIN", Unit::DecibelU, -128.0, (-130.0, -90.0))
    .limits(-180.0, 0.0)
    .marks(INPUT_NOISE)
    .when("console_noise", &["ein"])
    .at("console");
pub(super) const EIN_R: Field =
    Field::number("ein_r", "R_EIN", Unit::Ohm, 150.0, (50.0, 600.0)).limits(0.0, 1e6).exact().detail().at("console");
pub(super) const CONSOLE_E: Field = Field::number("console_en", "e_K", Unit::VoltPerRootHertz, 1.5e-9, (0.5e-9, 50e-9))
    .limits(0.0, 1e-3)
    .bare(1e-9)
    .marks(NOISE_VOLTAGE)
    .when("console_noise", &["densities"])
    .at("console");
pub(super) const CONSOLE_I: Field =
    Field::number("console_in", "i_K", Unit::AmperePerRootHertz, 1e-12, (0.1e-12, 5e-12))
        .limits(0.0, 1e-6)
        .bare(1e-12)
        .detail()
        .at("console");

/// Which analogue level is full scale of the converter.
pub(super) const ALIGNMENT: Field =
    Field::choice("alignment", &[option("r68"), option("rp155"), option("own")], "r68").at("converter");
pub(super) const FULL_SCALE: Field = Field::number("full_scale", "a_FS", Unit::DecibelU, 20.0, (0.0, 28.0))
    .limits(-60.0, 60.0)
    .when("alignment", &["own"])
    .at("converter");

/// The mains frequency; its default is the reader's setting.
pub(super) const MAINS: Field = Field::choice("mains", &[option("50"), option("60")], "50").at("mains");

/// The mains frequency, Hz.
pub(super) fn mains(values: &Values) -> Result<f64, Fault> {
    Ok(if values.choice("mains")? == "60" { 60.0 } else { 50.0 })
}

/// The lead of the fields above.
pub(super) fn lead(values: &Values) -> Result<Lead, Fault> {
    Ok(Lead {
        length: values.number("lead_length")?,
        r: values.number("lead_r")?,
        l: values.number("lead_l")?,
        c: values.number("lead_c")?,
    })
}

/// The active box of the fields above.
fn active_box(values: &Values, thermal: bool) -> Result<ActiveBox, Fault> {
    Ok(ActiveBox {
        input: Input {
            r: values.number("box_r")?,
            c: values.number("box_c")?,
            e_n: values.number("box_en")?,
            i_n: values.number("box_in")?,
            thermal,
        },
        gain: 10_f64.powf(values.number("box_gain")? / 20.0),
        leg_r: values.number("box_leg")?,
    })
}

/// The box of the fields above and of those of a transformer.
pub(super) fn between(values: &Values, thermal: bool) -> Result<Between, Fault> {
    Ok(match values.choice("box")? {
        "active" => Between::Active(active_box(values, thermal)?),
        "passive" => Between::Passive(transformer(values)?),
        _ => Between::Nothing,
    })
}

/// The console's input of the fields above, and the working between its stated
/// noise and its noise voltage. Leaves `U_0`, `k_B`, `e_K`, `i_K` in the scope.
///
/// An EIN is taken as measured: unweighted from 20 Hz to 20 kHz at 20 °C, with
/// the stated resistance across the input, and with the input's own resistance
/// in it, which then must not be counted again. It is the e.m.f. that would make
/// the noise (equivalent noise source e.m.f., IEC 60268-3, from memory): the noise
/// voltage stands behind the divider of the stated and the input's resistance.
pub(super) fn console(values: &Values, thermal: bool, working: &mut Working) -> Result<Input, Fault> {
    let (r_ein, i_n) = (values.number("ein_r")?, values.number("console_in")?);
    let bandwidth = AUDIO_BAND.end() - AUDIO_BAND.start();
    working.given("U_0", VOLTS_AT_0_DBU, Unit::Volt);
    working.given("k_B", BOLTZMANN, Unit::One);
    working.given("T_0", ROOM, Unit::Kelvin);
    working.given("B", bandwidth, Unit::Hertz);
    working.given("R_EIN", r_ein, Unit::Ohm);
    working.given("i_K", i_n, Unit::AmperePerRootHertz);
    working.given("R_K", values.number("console_r")?, Unit::Ohm);
    working.step("ein_divider", "D_K", "R_K/(R_K + R_EIN)", Unit::One)?;
    let stated = values.choice("console_noise")? == "ein";
    let e_n = if stated {
        let ein = values.number("ein")?;
        // What a resistor and the noise current alone make with this source.
        let floor = (johnson(r_ein, ROOM) + (i_n * r_ein).powi(2)) * bandwidth;
        let floor = 10.0 * (floor / VOLTS_AT_0_DBU.powi(2)).log10();
        if ein < floor {
            return Err(Fault::at("ein", "fault-ein").with("floor", Arg::AtLeast(floor, Unit::DecibelU)));
        }
        working.given("a_EIN", ein, Unit::DecibelU);
        working.step("ein_volts", "U_EIN", "U_0*10^(a_EIN/20)", Unit::Volt)?;
        working.step(
            "ein_density",
            "e_K",
            "D_K*sqrt(U_EIN^2/B - 4*k_B*T_0*R_EIN - (i_K*R_EIN)^2)",
            Unit::VoltPerRootHertz,
        )?
    } else {
        working.given("e_K", values.number("console_en")?, Unit::VoltPerRootHertz);
        values.number("console_en")?
    };
    Ok(Input { r: values.number("console_r")?, c: values.number("console_c")?, e_n, i_n, thermal: thermal && !stated })
}

/// The level of full scale, dBu, and `a_FS` in the scope.
pub(super) fn full_scale(values: &Values, sheet: &mut Sheet) -> Result<f64, Fault> {
    match values.choice("alignment")? {
        "own" => {
            let own = values.number("full_scale")?;
            sheet.given("a_FS", own, Unit::DecibelU);
            Ok(own)
        }
        name => {
            sheet.source(if name == "r68" { "source-r68" } else { "source-rp155" });
            let (analogue, digital) = alignment(name);
            sheet.given("a_al", analogue, Unit::DecibelU);
            sheet.given("d_al", digital, Unit::DecibelFullScale);
            sheet.step("full_scale_level", "a_FS", "a_al - d_al", Unit::DecibelU)
        }
    }
}
