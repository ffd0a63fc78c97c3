//! Ground loop: the hum that two earths and a shield put in series with a
//! signal, and what the connection leaves of it.

use super::balance;
use super::diagram::{Draft, lead_symbol};
use super::whole_line::diagram::drives;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::connection::{
    CIRCUIT_R, CONNECTION, ConnectionKind, ISOLATED_C, PIN_1_R, REJECTION, SCREENED_C, connection, pin_1_r,
};
use crate::field::earth::{
    CAUSE, CAUSES, CauseKind, DANGEROUS_DIFFERENCE, EARTH_R, EARTH_VOLTS, LEAKAGE_CURRENT, LEAKAGE_VOLTS, LOOP_L,
    difference, leakage,
};
use crate::field::lead::{CONTACT_R, LEAD_LENGTH, SHIELD_R, shield};
use crate::field::mains::{HARMONIC_LEVELS, MAINS, mains, spectrum};
use crate::field::signal::SIGNAL;
use crate::field::{Bound, Change, Field, Requirement, Step, Values, joined};
use crate::network::a_weighting;
use crate::part::{Cause, Component, Connection, GroundLoop, Spectrum};
use crate::quantity::Unit;
use crate::quantity::level::{dbu, decibels};
use crate::report::{Earth, EarthLoop, HEARD, HumLine, PartSymbol, RigSound, Sheet, Tone, finite};
use crate::words::Arg;
use crate::working::ground_loop::{self as working, LoopSymbols};
use std::f64::consts::TAU;

/// From here on something is wrong with the installation or the equipment:
/// V and A of shield current (common practice, no source), and A of leakage:
/// 0.5 mA through whoever touches the equipment, and 3.5 mA in all where it has
/// an earth of its own (IEC 60335-1, measured as IEC 60990 has it, from memory).
const FAULTY_DIFFERENCE: f64 = 2.0;
const FAULTY_SHIELD_CURRENT: f64 = 1.0;
const FAULTY_LEAKAGE: f64 = 0.5e-3;
const FAULTY_LEAKAGE_EARTHED: f64 = 3.5e-3;
/// Whoever touches it, Ω, at mains frequencies (IEC 60990: 500 Ω and 1.5 kΩ, from
/// memory).
const BODY: f64 = 2e3;
/// No mains has more, V: 240 V and 10 % (IEC 60038, from memory).
const MOST_MAINS: f64 = 264.0;
/// A tone this far below the A-weighted level of a room's noise is masked, dB:
/// about the noise's level in the one band around the tone (common practice,
/// no source).
const MASKED: f64 = 15.0;

const BY_FIELD: &[&str] = &[CauseKind::Field.id()];

/// Flux density of a field through the loop, T.
const DENSITY: Field = Field::number("density", "B", Unit::Tesla, 1e-6, (0.1e-6, 20e-6))
    .limits(0.0, 0.1)
    .bare(1e-6)
    .when(CAUSE, BY_FIELD)
    .at("earth");
/// Area of the loop, m².
const AREA: Field =
    Field::number("area", "A", Unit::SquareMetre, 5.0, (0.1, 50.0)).limits(0.0, 1e5).when(CAUSE, BY_FIELD).at("earth");
/// How loud the signal is, dB SPL.
const LOUDNESS: Field =
    Field::number("loudness", "L_S", Unit::Decibel, 95.0, (70.0, 110.0)).limits(0.0, 150.0).detail().at("signal");
/// How loud the room is, dB SPL, A-weighted.
const ROOM_NOISE: Field =
    Field::number("room", "L_N", Unit::Decibel, 40.0, (20.0, 80.0)).limits(0.0, 130.0).detail().at("signal");
/// Hum from elsewhere at the mains frequency, V.
pub(super) const OTHER_HUM: Field =
    Field::blank("other_hum", "U_H", Unit::Volt, (1e-6, 10e-3)).limits(1e-12, 10.0).detail().at("mains");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "ground-loop",
    fields: &joined::<_, 29>(&[
        &[CAUSE.field()],
        &CAUSES,
        &[
            DENSITY,
            AREA,
            EARTH_R.when(CAUSE, &[CauseKind::Difference.id(), CauseKind::Field.id()]),
            LOOP_L,
            LEAD_LENGTH.starting(10.0).usual(1.0, 100.0),
            SHIELD_R,
            CONTACT_R,
            CONNECTION.field(),
            REJECTION,
            PIN_1_R.when(CONNECTION, &[ConnectionKind::Balanced.id()]),
            ISOLATED_C,
            SCREENED_C,
            CIRCUIT_R,
            SIGNAL,
            LOUDNESS,
            ROOM_NOISE,
            MAINS.field(),
        ],
        &HARMONIC_LEVELS,
        &[OTHER_HUM],
    ]),
    first: &[CAUSE.id(), CONNECTION.id()],
    presets: &[
        Preset {
            id: "keys",
            values: &[],
            held: &[
                &[ConnectionKind::Balanced.to(CONNECTION)],
                &[ConnectionKind::Isolated.to(CONNECTION)],
                &[ConnectionKind::Screened.to(CONNECTION)],
            ],
        },
        Preset {
            id: "laptop",
            // What an isolator leaves floating is told where it is the present one.
            values: &[
                CauseKind::Leakage.to(CAUSE),
                LEAD_LENGTH.typed("3 m"),
                SIGNAL.typed("-10 dBV"),
                ConnectionKind::Isolated.to(CONNECTION),
            ],
            held: &[&[CauseKind::Leakage.to(CAUSE), LEAD_LENGTH.typed("3 m"), SIGNAL.typed("-10 dBV")]],
        },
        Preset {
            id: "field",
            values: &[
                CauseKind::Field.to(CAUSE),
                LEAD_LENGTH.typed("20 m"),
                DENSITY.typed("2 µT"),
                AREA.typed("10 m²"),
            ],
            held: &[],
        },
        Preset {
            id: "pin-1",
            values: &[
                ConnectionKind::Balanced.to(CONNECTION),
                LEAD_LENGTH.typed("30 m"),
                SIGNAL.typed("+4 dBu"),
                PIN_1_R.typed("0.05"),
            ],
            held: &[&[ConnectionKind::Balanced.to(CONNECTION), LEAD_LENGTH.typed("30 m"), SIGNAL.typed("+4 dBu")]],
        },
    ],
    solve,
    keeps: Keeps::These(REQUIREMENTS),
};

/// Hum drowns in the noise of the room, or another connection keeps it out.
const REQUIREMENTS: &[Requirement] = &[Requirement {
    reading: "sound",
    bound: Bound::at_most(ROOM_NOISE),
    changes: &[
        Change::to(CONNECTION, ConnectionKind::Balanced.id()),
        Change::to(CONNECTION, ConnectionKind::Isolated.id()),
        Change::to(CONNECTION, ConnectionKind::Screened.id()),
        Change::less(LEAD_LENGTH, Step::Of(0.1)),
    ],
}];

/// A loop, whatever else hums in the same line, and the spectrum of both.
struct HumSources {
    ground_loop: GroundLoop,
    /// From elsewhere, at the mains frequency, V.
    other: f64,
    spectrum: Spectrum,
}

impl HumSources {
    /// In series with the signal at a frequency in Hz, V, for a component of the
    /// size of that at the mains frequency. Hum from elsewhere is taken as in
    /// phase: the worst case.
    fn volts(&self, connection: &Connection, frequency: f64) -> f64 {
        self.ground_loop.hum(connection, frequency) + self.other
    }

    /// The A-weighted voltage of all components, V.
    fn weighted(&self, connection: &Connection) -> f64 {
        self.spectrum.sum(|f| self.volts(connection, f), a_weighting)
    }

    /// Every component re a signal, dBu.
    fn sound(&self, connection: &Connection, signal: f64) -> RigSound {
        let line = |part: &Component| {
            let level = dbu(part.share * self.volts(connection, part.frequency));
            HumLine { hz: part.frequency, db: level - signal }
        };
        RigSound { hum: self.spectrum.0.iter().map(line).collect(), ..RigSound::default() }
    }

    /// The same as a level, dBu.
    fn level_a(&self, connection: &Connection) -> f64 {
        dbu(self.weighted(connection))
    }
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    sheet.caution("caution-earth");
    sheet.caution("caution-electrician");
    sheet.caution("caution-rcd");
    sheet.caution("caution-hearing");
    let hum = HumSources {
        ground_loop: ground_loop(values)?,
        other: values.optional(OTHER_HUM)?.unwrap_or(0.0),
        spectrum: spectrum(values)?,
    };
    let connection = connection(values, values.choice(CONNECTION)?)?;

    if sheet.wants_working() {
        givens(values, sheet, &hum.ground_loop)?;
        sums(sheet, &hum, &connection)?;
    }
    sheet.working.given("U", hum.spectrum.sum(|f| hum.volts(&connection, f), |_| 0.0), Unit::Volt);
    sheet.working.given("U_A", hum.weighted(&connection), Unit::Volt);
    sheet.working.given("U_S", values.number(SIGNAL)?, Unit::Volt);
    sheet.working.given("L_S", values.number(LOUDNESS)?, Unit::Decibel);
    let level = sheet.working.dbu("hum", "a_U", "U")?;
    let level_a = sheet.working.dbu("hum_a", "a_A", "U_A")?;
    let to_hum = sheet.working.step("signal_to_hum", "a_SH", "20*log10(U_S/U)", Unit::Decibel)?;
    let to_hum_a = sheet.working.step("signal_to_hum_a", "a_SA", "20*log10(U_S/U_A)", Unit::Decibel)?;
    let sound = sheet.working.step("sound", "L_A", "L_S - a_SA", Unit::Decibel)?;
    let unbalanced = hum.level_a(&Connection::Unbalanced);
    let current = hum.spectrum.sum(|f| hum.ground_loop.current(&connection, f), |_| 0.0);

    sheet.headline("hum", level, Unit::DecibelU, &[]);
    because(sheet, &connection, level, current * hum.ground_loop.shield_r)?;
    sheet.headline("signal_to_hum_a", to_hum_a, Unit::Decibel, &[]);
    let (tone, verdict) = match sound - values.number(ROOM_NOISE)? {
        _ if is_faulty(&hum.ground_loop.cause, &hum.spectrum, current) => (Tone::Trouble, "verdict-stop"),
        f64::NEG_INFINITY => (Tone::Fine, "verdict-none"),
        over if over > 0.0 => (Tone::Trouble, "verdict-audible"),
        over if over > -MASKED => (Tone::Watch, "verdict-faint"),
        _ => (Tone::Fine, "verdict-inaudible"),
    };
    sheet.verdict(tone, verdict, &[("sound", Arg::Quantity(sound, Unit::Decibel))]);
    sheet.headline("hum_a", level_a, Unit::DecibelU, &[]);
    // Where nothing hums there is nothing to make better.
    let improved = connection != Connection::Unbalanced && unbalanced.is_finite();
    if improved {
        sheet.working.given("a_0", unbalanced, Unit::DecibelU);
        sheet.working.step("improvement_step", "a_I", "a_0 - a_A", Unit::Decibel)?;
        sheet.headline_loss("improvement", unbalanced - level_a, &[]);
    }

    sheet.further("signal_to_hum", to_hum, Unit::Decibel, &[]);
    sheet.further("sound", sound, Unit::Decibel, &[]);
    sheet.further("current", current, Unit::Ampere, &[]);
    sheet.further("shield", hum.ground_loop.shield_r, Unit::Ohm, &[]);
    sheet.further("hum_unbalanced", unbalanced, Unit::DecibelU, &[]);
    by_connection(values, sheet, &hum)?;
    warnings(sheet, &hum, &connection, current);
    plot(sheet, &hum, &connection, level, to_hum_a);
    draw(values, sheet, &hum, [level_a, to_hum_a, current])?;
    sheet.sound(|| hum.sound(&connection, level + to_hum));
    if matches!(connection, Connection::Balanced { .. }) && level.is_finite() {
        link(values, sheet, &hum)?;
    }
    for source in ["source-shield", "source-aes48", "source-weighting", "source-practice"] {
        sheet.source(source);
    }
    Ok(())
}

/// The voltage along the shield is the hum of an unbalanced connection. Elsewhere a part
/// of that gets in, or something else does.
fn because(sheet: &mut Sheet, connection: &Connection, level: f64, along: f64) -> Result<(), Fault> {
    if *connection == Connection::Unbalanced && (dbu(along) - level).abs() < HEARD {
        sheet.because("hum.because", "U", "I*(R′_sh*l + 2*R_k)")?;
    }
    Ok(())
}

/// The same rig by each of the better ways.
fn by_connection(values: &Values, sheet: &mut Sheet, hum: &HumSources) -> Result<(), Fault> {
    for (id, kind) in [
        ("hum_balanced", ConnectionKind::Balanced),
        ("hum_isolated", ConnectionKind::Isolated),
        ("hum_screened", ConnectionKind::Screened),
    ] {
        sheet.further(id, hum.level_a(&connection(values, kind)?), Unit::DecibelU, &[]);
    }
    Ok(())
}

/// Writes down how every component comes about, and their sums `U` and `U_A`.
fn sums(sheet: &mut Sheet, hum: &HumSources, connection: &Connection) -> Result<(), Fault> {
    let (mut plain, mut weighted) = (Vec::new(), Vec::new());
    for part in &hum.spectrum.0 {
        // The harmonics come about as the first component does.
        sheet.working.fold(part.order > 1);
        component(sheet, part, hum, connection)?;
        let n = part.order;
        sheet.working.given(&format!("A_{n}"), a_weighting(part.frequency), Unit::Decibel);
        plain.push(format!("U_{n}^2"));
        weighted.push(format!("U_{n}^2*10^(A_{n}/10)"));
    }
    sheet.working.fold(false);
    sheet.working.step("hum_volts", "U", &format!("sqrt({})", plain.join(" + ")), Unit::Volt)?;
    sheet.working.step("hum_volts_a", "U_A", &format!("sqrt({})", weighted.join(" + ")), Unit::Volt)?;
    Ok(())
}

/// Points to what the legs make of the voltage between the earths, where that is
/// no danger to life.
fn link(values: &Values, sheet: &mut Sheet, hum: &HumSources) -> Result<(), Fault> {
    let across = hum.ground_loop.hum(&Connection::Unbalanced, mains(values)?);
    if across <= DANGEROUS_DIFFERENCE {
        let mut filling = balance::CALCULATOR.filling();
        filling.put(EARTH_VOLTS, across);
        filling.choose(MAINS, values.choice(MAINS)?);
        sheet.link_to("link-balance", &[], &filling);
    }
    Ok(())
}

/// Gives the formulas their numbers.
fn givens(values: &Values, sheet: &mut Sheet, ground_loop: &GroundLoop) -> Result<(), Fault> {
    for (name, value, unit) in [
        ("R′_sh", values.number(SHIELD_R)?, Unit::OhmPerMetre),
        ("l", values.number(LEAD_LENGTH)?, Unit::Metre),
        ("R_k", values.number(CONTACT_R)?, Unit::Ohm),
        ("L", values.number(LOOP_L)?, Unit::Henry),
        ("a_cm", values.number(REJECTION)?, Unit::Decibel),
        ("R_C", values.number(CIRCUIT_R)?, Unit::Ohm),
    ] {
        sheet.working.given(name, value, unit);
    }
    let screened = values.choice(CONNECTION)? == ConnectionKind::Screened;
    let capacitance = if screened { values.number(SCREENED_C)? } else { values.number(ISOLATED_C)? };
    sheet.working.given("C_ps", capacitance, Unit::Farad);
    sheet.working.given("R_pin", pin_1_r(values)?, Unit::Ohm);
    sheet.working.given("U_H", values.optional(OTHER_HUM)?.unwrap_or(0.0), Unit::Volt);
    sheet.working.given("f", mains(values)?, Unit::Hertz);
    sheet.working.step("shield", "R_sh", "R′_sh*l + 2*R_k", Unit::Ohm)?;
    sheet.working.cause(&ground_loop.cause, values.number(LEAKAGE_VOLTS)?, &symbols("", "2*pi*f"))
}

/// What stands for the parts of the loop.
fn symbols<'a>(leakage_z: &'a str, omega: &'a str) -> LoopSymbols<'a> {
    LoopSymbols { volts: "E_E", earth_r: "R_E", leakage_z, omega }
}

/// Writes down one component: the e.m.f. in the loop, the impedance of all of
/// it, the current, and the voltage `U_n` in series with the signal.
fn component(sheet: &mut Sheet, part: &Component, hum: &HumSources, connection: &Connection) -> Result<(), Fault> {
    let n = part.order;
    let omega = format!("(2*pi*{n}*f)");
    // The share of the harmonic re the component at the mains frequency.
    let share = if n == 1 { String::new() } else { format!("10^(a_{n}/20)*") };
    sheet.working.given(&format!("a_{n}"), decibels(part.share), Unit::Decibel);
    let leakage_z = format!("Z_L{n}");
    if let Cause::Leakage { .. } = hum.ground_loop.cause {
        component_step(sheet, part, "leakage_z_at", &leakage_z, &working::leakage_z(&omega), Unit::Ohm)?;
    }
    let [across, hums] = working::closed(connection, "R_sh", "10^(-a_cm/20)", &omega);
    let [emf, z] = working::driven(&hum.ground_loop.cause, &across, &symbols(&leakage_z, &omega));
    component_step(sheet, part, "emf_at", &format!("E_{n}"), &format!("{share}{emf}"), Unit::Volt)?;
    component_step(sheet, part, "loop_z_at", &format!("Z_{n}"), &z, Unit::Ohm)?;
    component_step(sheet, part, "current_at", &format!("I_{n}"), &format!("abs(E_{n}/Z_{n})"), Unit::Ampere)?;
    let other = if hum.other > 0.0 { format!(" + {share}U_H") } else { String::new() };
    component_step(sheet, part, "hum_at", &format!("U_{n}"), &format!("I_{n}*{hums}{other}"), Unit::Volt)
}

fn component_step(
    sheet: &mut Sheet,
    part: &Component,
    id: &str,
    symbol: &str,
    formula: &str,
    unit: Unit,
) -> Result<(), Fault> {
    sheet.working.step_with(id, &[("f", Arg::Quantity(part.frequency, Unit::Hertz))], symbol, formula, unit).map(drop)
}

/// Says when the matter is one for an electrician, and what the model leaves out.
fn warnings(sheet: &mut Sheet, hum: &HumSources, connection: &Connection, current: f64) {
    let cause = &hum.ground_loop.cause;
    if is_faulty(cause, &hum.spectrum, current) {
        sheet.stop();
    }
    if let (Cause::Leakage { other_r: None, .. }, Connection::Isolated { .. }) = (cause, connection) {
        sheet.warn("floats", &[]);
    }
    if let Connection::Balanced { pin_1_r, .. } = connection
        && *pin_1_r > 0.0
    {
        sheet.warn("pin-1", &[]);
    }
}

/// Whether a fault in the installation or in equipment is likely, with this
/// current in the shield, A. What counts is all that there is, harmonics included.
pub(crate) fn is_faulty(cause: &Cause, spectrum: &Spectrum, current: f64) -> bool {
    let all = |size: &dyn Fn(f64) -> f64| spectrum.sum(size, |_| 0.0);
    let faulty = match *cause {
        Cause::Difference { volts, .. } => is_faulty_difference(all(&|_| volts)),
        Cause::Field { density, area, .. } => is_faulty_difference(all(&|f| TAU * f * density * area)),
        Cause::Leakage { amperes, capacitance, other_r } => {
            let leaks = all(&|_| amperes);
            // Another way to earth takes its share, if it is much less than a body.
            let touched = leaks * other_r.map_or(1.0, |r| r / (r + BODY));
            let behind = amperes / (TAU * spectrum.mains() * capacitance);
            touched > FAULTY_LEAKAGE || leaks > FAULTY_LEAKAGE_EARTHED || behind > MOST_MAINS
        }
    };
    faulty || current >= FAULTY_SHIELD_CURRENT
}

/// Whether a voltage between two earths, V, is more than leads and supplies make.
pub(super) fn is_faulty_difference(volts: f64) -> bool {
    volts >= FAULTY_DIFFERENCE
}

/// The spectrum as one stem a component: unbalanced, and with the connection.
fn plot(sheet: &mut Sheet, hum: &HumSources, connection: &Connection, level: f64, to_hum: f64) {
    if !sheet.wants_plots() || !level.is_finite() {
        return;
    }
    let stops: Vec<_> = hum.spectrum.0.iter().map(|part| part.frequency).collect();
    let levels = |connection: &Connection| -> Vec<f64> {
        let level = |part: &Component| finite(dbu(part.share * hum.volts(connection, part.frequency)));
        hum.spectrum.0.iter().map(level).collect()
    };
    let (before, after) = (levels(&Connection::Unbalanced), levels(connection));
    let all = || before.iter().chain(&after).copied().filter(|level| level.is_finite());
    let top = (all().fold(f64::NEG_INFINITY, f64::max) / 6.0).ceil() * 6.0 + 6.0;
    let bottom = (all().fold(f64::INFINITY, f64::min) / 6.0).floor() * 6.0 - 12.0;
    let markers: Vec<_> = stops
        .iter()
        .zip(&after)
        .map(|(f, level)| {
            sheet.marker("marker-component", &[("level", Arg::Quantity(*level, Unit::DecibelU))], *f, *level)
        })
        .collect();
    let ends = |f: Option<&f64>, times: f64| f.copied().unwrap_or(50.0) * times;
    let mut x = sheet.axis("axis-frequency", Unit::Hertz, true, ends(stops.first(), 0.8), ends(stops.last(), 1.25));
    x.discrete = true;
    let y = sheet.axis("axis-hum", Unit::DecibelU, false, bottom, top);
    let mut traces = vec![sheet.trace("curve", false, stops.clone(), after)];
    if *connection != Connection::Unbalanced {
        traces.push(sheet.trace("curve-unbalanced", true, stops.clone(), before));
    }
    let summary = [("level", Arg::Quantity(level, Unit::DecibelU)), ("signal", Arg::Quantity(to_hum, Unit::Decibel))];
    let plot = sheet.plot("spectrum", &summary, x, y, traces);
    plot.markers = markers;
    plot.stops = stops;
}

/// Two pieces of equipment, what joins them, and the loop through their earths.
fn draw(
    values: &Values,
    sheet: &mut Sheet,
    hum: &HumSources,
    [level, distance, current]: [f64; 3],
) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let kind = values.choice(CONNECTION)?;
    let apart = matches!(kind, ConnectionKind::Isolated | ConnectionKind::Screened);
    let mut draft = Draft::new(sheet);
    let source = draft.add("source", PartSymbol::Source, "rig-output", &[SIGNAL.id, CAUSE.id()]);
    source.earth = Some(match hum.ground_loop.cause {
        Cause::Leakage { other_r: None, .. } => Earth::Leakage,
        Cause::Leakage { .. } | Cause::Difference { .. } | Cause::Field { .. } => Earth::Protective,
    });
    draft.quantity("source", "rig-open", dbu(values.number(SIGNAL)?), Unit::DecibelU);
    draft.add("lead", lead_symbol(kind == ConnectionKind::Balanced), "rig-lead", &[LEAD_LENGTH.id]);
    draft.quantity("lead", "rig-length", values.number(LEAD_LENGTH)?, Unit::Metre);
    draft.quantity("lead", "rig-current", current, Unit::Ampere);
    if apart {
        draft.add("isolator", PartSymbol::Transformer, "rig-isolator", &[CONNECTION.id()]);
    }
    let console = draft.add("console", PartSymbol::Input, "rig-input", &[CONNECTION.id()]);
    console.earth = Some(Earth::Protective);
    draft.hum("console", "rig-hum", level);
    draft.quantity("console", "rig-signal-to-hum", distance, Unit::Decibel);
    let args = [
        ("way", Arg::Key("common-rig-way-source".to_owned())),
        ("drives", Arg::Messages(vec![drives(sheet, &hum.ground_loop)])),
        ("current", Arg::Quantity(current, Unit::Ampere)),
        ("shield", Arg::Key("common-rig-lead".to_owned())),
    ];
    let text = sheet.word(if apart { "rig-loop-apart" } else { "rig-loop" }, &args);
    // Hum that is all from elsewhere has no loop.
    if !matches!(hum.ground_loop.cause, Cause::Difference { volts: 0.0, .. }) {
        draft.earth_loop(EarthLoop {
            from: "source",
            to: "console",
            open_at: apart.then_some("isolator"),
            text,
            fields: vec![EARTH_VOLTS.id, LEAKAGE_CURRENT.id, DENSITY.id],
        });
    }
    let drawn = draft.finish(&[CAUSE.id(), CONNECTION.id()]);
    sheet.diagram(drawn);
    Ok(())
}

fn ground_loop(values: &Values) -> Result<GroundLoop, Fault> {
    let cause = match values.choice(CAUSE)? {
        CauseKind::Difference => difference(values, EARTH_VOLTS, EARTH_R)?,
        CauseKind::Leakage => leakage(values, LEAKAGE_CURRENT)?,
        CauseKind::Field => {
            let (density, area) = (values.number(DENSITY)?, values.number(AREA)?);
            if TAU * mains(values)? * density * area > DANGEROUS_DIFFERENCE {
                return Err(DENSITY.fault("fault-dangerous-field"));
            }
            Cause::Field { density, area, earth_r: values.number(EARTH_R)? }
        }
    };
    let shield_r = shield(values, values.number(LEAD_LENGTH)?)?;
    Ok(GroundLoop { cause, inductance: values.number(LOOP_L)?, shield_r })
}
