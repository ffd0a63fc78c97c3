//! Pads: resistors that lower a level, exact and from the preferred values.
//!
//! Matched pads: the formulas of attenuator tables, with K = 10^(a/20) and a
//! the loss of power. Bridging pads: the same ladders solved for what a low
//! source and a high load ask for, K being the voltage into the pad over the
//! voltage out of it. Resistors are numbered from the source to the load.

use super::source_load;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::catalogue::Series;
use crate::catalogue::tolerance::PartKind;
use crate::catalogue::typical::PLUS_4_DBU;
use crate::fault::Fault;
use crate::field::load::LOAD_R;
use crate::field::source::{EMF, SOURCE_R};
use crate::field::{ChoiceField, Field, Values, choice};
use crate::network::{AUDIO_BAND, BOLTZMANN, ROOM, TwoPort, decibels_of_transfer, log_sweep};
use crate::part::{LPad, Pad, Place};
use crate::quantity::Unit;
use crate::quantity::level::{dbu, decibels, decibels_of_power, ratio};
use crate::report::{RigSound, Sheet, Tone, span};
use crate::words::Arg;
use crate::working::Working;

/// Half of what the smallest usual resistor takes, W (common practice, no source).
const POWER_LIMIT: f64 = 0.125;
/// How far off what was asked for a pad from a shelf may be: as good as that, and
/// still of use, dB (common practice, no source).
const AS_ASKED: f64 = 0.25;
const OFF: f64 = 1.0;
/// What line outputs give at most, dBu (common practice, no source): above it is an
/// amplifier for loudspeakers.
const LINE_MOST: f64 = 24.0;
/// A source of less than this, Ω, that gives more than professional line level is
/// such an amplifier too (common practice, no source).
const AMPLIFIER_R: f64 = 1.0;
/// Resistances this near to each other need no pad between them, re one.
const EQUAL: f64 = 1e-6;

choice! {
    /// What a pad is made for.
    enum Design {
        /// A stated ratio of voltages between a low source and a high load.
        Bridging = "bridging",
        /// To match both ends.
        Matched = "matched",
        /// To match both ends with the least loss.
        Minimum = "minimum",
    }
}

choice! {
    /// The form of a pad.
    enum Form {
        /// Two resistors.
        L = "l",
        /// Two in series, one across between them.
        T = "t",
        /// Two across, one in series between them.
        Pi = "pi",
    }
}

choice! {
    /// Whether its series resistors are split over two legs.
    pub(crate) enum Legs {
        /// They are.
        Balanced = "balanced",
        /// They are not.
        Unbalanced = "unbalanced",
    }
}

choice! {
    /// Whether the load supplies phantom.
    enum PhantomSwitch {
        /// It does not.
        Off = "off",
        /// It does.
        On = "on",
    }
}

const BRIDGING: &[&str] = &[Design::Bridging.id()];
const CHOSEN: &[&str] = &[Design::Bridging.id(), Design::Matched.id()];

const DESIGN: ChoiceField<Design> = Design::field("design", Design::Bridging).at("pad");
const FORM: ChoiceField<Form> = Form::field("form", Form::L).when(DESIGN, CHOSEN).at("pad");
/// Whether its series resistors are split over two legs.
pub(crate) const LEGS: ChoiceField<Legs> = Legs::field("legs", Legs::Balanced).at("pad");
/// What the pad takes off, dB.
pub(crate) const LOSS: Field =
    Field::number("loss", "a", Unit::Decibel, 20.0, (1.0, 40.0)).limits(0.01, 120.0).when(DESIGN, CHOSEN).at("pad");
/// What it shows the source, Ω.
const PAD_INPUT: Field = Field::number("input_r", "Z_in", Unit::Ohm, 1e3, (300.0, 30e3))
    .limits(1e-3, 1e9)
    .exact()
    .when(DESIGN, BRIDGING)
    .at("pad");
/// What it shows the load, Ω.
const PAD_OUTPUT: Field = Field::blank("output_r", "Z_out", Unit::Ohm, (50.0, 1e3))
    .limits(1e-3, 1e9)
    .exact()
    .when(DESIGN, BRIDGING)
    .detail()
    .at("pad");
/// Whether the load supplies phantom.
const PHANTOM: ChoiceField<PhantomSwitch> = PhantomSwitch::field("phantom", PhantomSwitch::Off).at("load");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "pad",
    fields: &[
        DESIGN.field(),
        FORM.field(),
        LEGS.field(),
        LOSS,
        PAD_INPUT,
        PAD_OUTPUT,
        // The pad is made for these two; what spreads are its resistors.
        SOURCE_R.limits(1e-3, 1e9).exact(),
        EMF.starting(PLUS_4_DBU).usual(0.1, 12.3).marks(&[]),
        LOAD_R.starting(1.5e3).limits(1e-3, 1e9).exact(),
        PHANTOM.field(),
    ],
    first: &[DESIGN.id(), LOSS.id],
    presets: &[
        Preset {
            id: "hot",
            values: &[EMF.typed("+18 dBu"), LOSS.typed("20"), PhantomSwitch::On.to(PHANTOM)],
            held: &[&[Form::T.to(FORM), EMF.typed("+18 dBu")]],
        },
        Preset {
            id: "pedal",
            values: &[
                Legs::Unbalanced.to(LEGS),
                SOURCE_R.typed("1k"),
                EMF.typed("+4 dBu"),
                LOAD_R.typed("1M"),
                PAD_INPUT.typed("10k"),
                LOSS.typed("14"),
            ],
            held: &[],
        },
        Preset {
            id: "six_hundred",
            values: &[
                Design::Matched.to(DESIGN),
                Form::T.to(FORM),
                LOSS.typed("10"),
                SOURCE_R.typed("600"),
                LOAD_R.typed("600"),
                EMF.typed("+10 dBu"),
            ],
            held: &[&[
                Design::Matched.to(DESIGN),
                Form::Pi.to(FORM),
                LOSS.typed("10"),
                SOURCE_R.typed("600"),
                LOAD_R.typed("600"),
                EMF.typed("+10 dBu"),
            ]],
        },
        Preset {
            id: "step",
            values: &[Design::Minimum.to(DESIGN), SOURCE_R.typed("600"), LOAD_R.typed("150"), EMF.typed("+10 dBu")],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    // A designed resistor is made up by its number.
    sheet.tell_finer(|id, _| matches!(id, "r1" | "r2" | "r3"));
    let design = values.choice(DESIGN)?;
    let (r_s, r_l, emf) = (values.number(SOURCE_R)?, values.number(LOAD_R)?, values.number(EMF)?);
    sheet.working.given("R_S", r_s, Unit::Ohm);
    sheet.working.given("R_L", r_l, Unit::Ohm);
    let resistors = match design {
        Design::Bridging => bridging(values, sheet)?,
        Design::Matched => matched(values, sheet)?,
        Design::Minimum => minimum(values, sheet)?,
    };
    let exact = Pad { resistors, balanced: values.choice(LEGS)? == Legs::Balanced };
    let rounded = [Series::E24, Series::E96].map(|series| exact.rounded(series));
    let ends = Ends { r_s, r_l, power: design != Design::Bridging };
    let asked = if design == Design::Minimum { ends.loss(&exact) } else { values.number(LOSS)? };

    for (n, id) in ["r1", "r2", "r3"].into_iter().enumerate().take(exact.resistors.len()) {
        resistor(sheet, &exact, &rounded, n, id)?;
    }
    // From here on the pads as they come out, each resistor off what was asked
    // for by its tolerance. Both legs of a balanced pad are off alike, which is
    // the worse case for its loss.
    let factors = ["r1", "r2", "r3"].map(|id| sheet.made(id, PartKind::Resistor));
    let soldered = |pad: &Pad| Pad {
        resistors: pad.resistors.iter().zip(factors).map(|((place, r), factor)| (*place, r * factor)).collect(),
        balanced: pad.balanced,
    };
    let (exact, rounded) = (soldered(&exact), [soldered(&rounded[0]), soldered(&rounded[1])]);
    let figure = ("figure", Arg::Key(format!("pad-figure-{}", if ends.power { "power" } else { "voltage" })));
    sheet.headline("loss_e24", ends.loss(&rounded[0]), Unit::Decibel, std::slice::from_ref(&figure));
    let (tone, verdict) = match (ends.loss(&rounded[0]) - asked).abs() {
        off if off < AS_ASKED => (Tone::Fine, "verdict-as-asked"),
        off if off < OFF => (Tone::Watch, "verdict-off"),
        _ => (Tone::Trouble, "verdict-far-off"),
    };
    let e96 = Arg::Quantity(ends.loss(&rounded[1]), Unit::Decibel);
    sheet.verdict(tone, verdict, &[("asked", Arg::Entry(asked, Unit::Decibel)), ("e96", e96)]);
    if !sheet.wants_further() {
        return Ok(());
    }
    what_it_does(sheet, &ends, &exact, &rounded, figure);
    levels(sheet, &ends, &exact, &rounded, emf)?;
    noise(sheet, &ends, &exact)?;
    phantom(values, sheet, &exact)?;
    if dbu(emf) > LINE_MOST || r_s < AMPLIFIER_R && emf > PLUS_4_DBU {
        sheet.caution("caution-bridged");
        sheet.caution("caution-valve");
        sheet.cautions_first();
    }
    plot(sheet, &ends, &exact, &rounded);

    let behind = ends.chain(&exact);
    let open = emf / (behind.a + behind.c * r_s).re;
    let mut filling = source_load::CALCULATOR.filling();
    filling.put(SOURCE_R, ends.output(&exact));
    filling.put(EMF, open);
    filling.put(LOAD_R, r_l);
    sheet.link_to("link-source-load", &[], &filling);
    sheet.source("source-attenuator");
    sheet.source("source-e-series");
    sheet.source("source-thermal-noise");
    sheet.source("source-practice");
    Ok(())
}

/// What the pad stands between, and which loss is asked for.
struct Ends {
    r_s: f64,
    r_l: f64,
    /// The loss of power re the power available, else of voltage over the pad.
    power: bool,
}

impl Ends {
    fn chain(&self, pad: &Pad) -> TwoPort {
        // Resistors are the same at every frequency.
        pad.path(self.r_s, self.r_l).two_port(1.0)
    }

    fn transfer(&self, pad: &Pad) -> f64 {
        self.chain(pad).transfer(self.r_s.into(), self.r_l.into()).re
    }

    fn input(&self, pad: &Pad) -> f64 {
        self.chain(pad).input_impedance(self.r_l.into()).re
    }

    fn output(&self, pad: &Pad) -> f64 {
        self.chain(pad).output_impedance(self.r_s.into()).re
    }

    /// The loss that was asked for, dB.
    fn loss(&self, pad: &Pad) -> f64 {
        if self.power {
            // P_av = E²/(4·R_S), P_L = U²/R_L.
            -decibels(self.transfer(pad)) - decibels_of_power(4.0 * self.r_s / self.r_l)
        } else {
            let chain = self.chain(pad);
            decibels_of_transfer(chain.a + chain.b / self.r_l)
        }
    }

    /// How much lower the level at the load is with the pad than without.
    fn insertion_loss(&self, pad: &Pad) -> f64 {
        decibels(self.r_l / (self.r_s + self.r_l) / self.transfer(pad))
    }
}

/// Matched at both ends (T, pi) or towards the source (L), by the formulas of
/// attenuator tables.
fn matched(values: &Values, sheet: &mut Sheet) -> Result<Vec<(Place, f64)>, Fault> {
    let (r_s, r_l) = (values.number(SOURCE_R)?, values.number(LOAD_R)?);
    let form = values.choice(FORM)?;
    let step = r_s.max(r_l) / r_s.min(r_l);
    // An L pad ends where its shunt resistor is gone; T and pi pads where one
    // of their three is, which is the minimum-loss pad.
    let least = if form == Form::L { step.sqrt() } else { step.sqrt() + (step - 1.0).sqrt() };
    let least = decibels(least);
    let loss = values.number(LOSS)?;
    if loss < least || (form == Form::L && loss <= least) {
        let key = if form == Form::L { "fault-pad-least-l" } else { "fault-pad-least" };
        return Err(LOSS.fault(key).with("least", Arg::AtLeast(least, Unit::Decibel)));
    }
    sheet.working.given("a", loss, Unit::Decibel);
    sheet.working.step("factor", "K", "10^(a/20)", Unit::One)?;
    sheet.working.step("mean", "Z_0", "sqrt(R_S*R_L)", Unit::Ohm)?;
    match form {
        Form::T => resistors(
            sheet,
            [
                (Place::Series, "(R_S*(K^2 + 1) - 2*K*Z_0)/(K^2 - 1)"),
                (Place::Shunt, "2*K*Z_0/(K^2 - 1)"),
                (Place::Series, "(R_L*(K^2 + 1) - 2*K*Z_0)/(K^2 - 1)"),
            ],
        ),
        Form::Pi => resistors(
            sheet,
            [
                (Place::Shunt, "(K^2 - 1)/((K^2 + 1)/R_S - 2*K/Z_0)"),
                (Place::Series, "(K^2 - 1)*Z_0/(2*K)"),
                (Place::Shunt, "(K^2 - 1)/((K^2 + 1)/R_L - 2*K/Z_0)"),
            ],
        ),
        Form::L if r_s >= r_l => {
            resistors(sheet, [(Place::Series, "R_S - Z_0/K"), (Place::Shunt, "1/(K/Z_0 - 1/R_L)")])
        }
        Form::L => resistors(sheet, [(Place::Shunt, "1/(1/R_S - 1/(K*Z_0))"), (Place::Series, "K*Z_0 - R_L")]),
    }
}

/// The L pad that joins two resistances with the least loss that resistors can:
/// in series at the larger, across the smaller.
fn minimum(values: &Values, sheet: &mut Sheet) -> Result<Vec<(Place, f64)>, Fault> {
    let (r_s, r_l) = (values.number(SOURCE_R)?, values.number(LOAD_R)?);
    if (r_s / r_l).ln().abs() < EQUAL {
        return Err(LOAD_R.fault("fault-pad-equal"));
    }
    sheet.working.step("larger", "Z_1", "max(R_S, R_L)", Unit::Ohm)?;
    sheet.working.step("smaller", "Z_2", "min(R_S, R_L)", Unit::Ohm)?;
    sheet.working.step("least_factor", "K", "sqrt(Z_1/Z_2) + sqrt(Z_1/Z_2 - 1)", Unit::One)?;
    sheet.working.step("least_loss", "a", "20*log10(K)", Unit::Decibel)?;
    let series = (Place::Series, "sqrt(Z_1*(Z_1 - Z_2))");
    let shunt = (Place::Shunt, "Z_2*sqrt(Z_1/(Z_1 - Z_2))");
    if r_s > r_l { resistors(sheet, [series, shunt]) } else { resistors(sheet, [shunt, series]) }
}

/// A stated voltage ratio and a stated impedance towards the source; in T and pi
/// form also one towards the load.
///
/// T: with u = R₃ + R_L the voltage ratio and Z_in give R₂ = u/q and
/// R₁ = Z_in − u/(q + 1), q = K·R_L/Z_in − 1; put into
/// Z_out = R₃ + R₂ ∥ (R₁ + R_S) the squares of u cancel. The pi form is its
/// dual: conductances for resistances, q = K − 1.
fn bridging(values: &Values, sheet: &mut Sheet) -> Result<Vec<(Place, f64)>, Fault> {
    let (r_s, r_l) = (values.number(SOURCE_R)?, values.number(LOAD_R)?);
    let (loss, z_in) = (values.number(LOSS)?, values.number(PAD_INPUT)?);
    let (form, z_out) = (values.choice(FORM)?, values.optional(PAD_OUTPUT)?);
    let k = ratio(loss);
    let most = LPad::most_shown(k, r_l);
    if z_in >= most {
        return Err(PAD_INPUT.fault("fault-pad-input").with("most", Arg::AtMost(most, Unit::Ohm)));
    }
    sheet.working.given("a", loss, Unit::Decibel);
    sheet.working.given("Z_in", z_in, Unit::Ohm);
    sheet.working.step("factor", "K", "10^(a/20)", Unit::One)?;
    if form == Form::L {
        if z_out.is_some() {
            return Err(PAD_OUTPUT.fault("fault-pad-l-output"));
        }
        return resistors(
            sheet,
            [(Place::Series, &BRIDGING_L.series()), (Place::Shunt, &format!("1/({})", BRIDGING_L.shunt()))],
        );
    }
    let z_out = z_out.unwrap_or(r_s);
    let (least, most) = output_bounds(&sheet.working)?;
    // A pad right at an end of the range is an L pad; a last bit must not refuse it.
    if z_out < least * (1.0 - 1e-9) || z_out > most * (1.0 + 1e-9) {
        return Err(PAD_OUTPUT
            .fault("fault-pad-output")
            .with("least", Arg::AtLeast(least, Unit::Ohm))
            .with("most", Arg::AtMost(most, Unit::Ohm)));
    }
    sheet.working.given("Z_out", z_out, Unit::Ohm);
    if form == Form::T {
        sheet.working.step("bridging_q", "q", "K*R_L/Z_in - 1", Unit::One)?;
        let formula = "(Z_out + R_L)*q*(Z_in + R_S)/((Z_in + R_S)*(q + 1) - (Z_out + R_L)/(q + 1))";
        sheet.working.step("bridging_u", "u", formula, Unit::Ohm)?;
        resistors(sheet, [(Place::Series, "Z_in - u/(q + 1)"), (Place::Shunt, "u/q"), (Place::Series, "u - R_L")])
    } else {
        sheet.working.step("bridging_q", "q", "K - 1", Unit::One)?;
        sheet.working.step("bridging_in", "G_1", "1/Z_in + 1/R_S", Unit::Siemens)?;
        sheet.working.step("bridging_out", "G_2", "1/Z_out + 1/R_L", Unit::Siemens)?;
        sheet.working.step("bridging_u", "u", "G_2*q*G_1/(G_1*(q + 1) - G_2/(q + 1))", Unit::Siemens)?;
        resistors(
            sheet,
            [(Place::Shunt, "1/(1/Z_in - u/(q + 1))"), (Place::Series, "q/u"), (Place::Shunt, "1/(u - 1/R_L)")],
        )
    }
}

/// A bridging L pad, its series resistor towards the source.
const BRIDGING_L: LPad = LPad { shown: "Z_in", factor: "K", load: "R_L" };

/// The least and the most that a bridging T or pi pad can show its load: either
/// is an L pad, the least with its series resistor towards the source, the most
/// the other way round.
fn output_bounds(working: &Working) -> Result<(f64, f64), Fault> {
    let least = format!("1/({} + 1/({} + R_S))", BRIDGING_L.shunt(), BRIDGING_L.series());
    Ok((working.value(&least)?, working.value("(K - 1)*R_L + 1/(1/Z_in - 1/(K*R_L) + 1/R_S)")?))
}

/// Evaluates the resistors of a pad, from the source to the load. A series one
/// of less than a billionth of the smaller resistance around the pad, or a shunt
/// one of more than a billion times the larger, is only what rounding left of a
/// resistor that is not there.
fn resistors<const N: usize>(sheet: &mut Sheet, formulas: [(Place, &str); N]) -> Result<Vec<(Place, f64)>, Fault> {
    let (r_s, r_l) = (sheet.working.value_of("R_S").re, sheet.working.value_of("R_L").re);
    let mut resistors = Vec::with_capacity(N);
    for (n, (place, formula)) in formulas.into_iter().enumerate() {
        let r = sheet.working.step(place_word(place), &format!("R_{}", n + 1), formula, Unit::Ohm)?;
        let r = match place {
            Place::Series if r < 1e-9 * r_s.min(r_l) => 0.0,
            Place::Shunt if !(0.0..=1e9 * r_s.max(r_l)).contains(&r) => f64::INFINITY,
            _ => r,
        };
        resistors.push((place, r));
    }
    Ok(resistors)
}

fn place_word(place: Place) -> &'static str {
    match place {
        Place::Series => "series",
        Place::Shunt => "shunt",
    }
}

/// Writes a resistor to be soldered in, with its preferred values.
fn resistor(sheet: &mut Sheet, exact: &Pad, rounded: &[Pad; 2], n: usize, id: &'static str) -> Result<(), Fault> {
    let of =
        |pad: &Pad| pad.resistors.get(n).map_or((Place::Series, f64::NAN), |&(place, r)| (place, r * pad.share(place)));
    let (place, mut r) = of(exact);
    let leg = exact.share(place) < 1.0;
    if leg {
        let whole = format!("R_{}", n + 1);
        sheet.working.given(&whole, 2.0 * r, Unit::Ohm);
        r = sheet.working.step("leg", &format!("{whole}′"), &format!("{whole}/2"), Unit::Ohm)?;
    }
    let place = if leg { "pad-leg".to_owned() } else { format!("pad-{}", place_word(place)) };
    sheet.headline(id, r, Unit::Ohm, &[("place", Arg::Key(place))]);
    // A series resistor of nothing is a link, and a shunt one without end a gap.
    if r == 0.0 || r.is_infinite() {
        sheet.verdict(Tone::Fine, "verdict-left-out", &[]);
        return Ok(());
    }
    let [e24, e96] = [0, 1].map(|series| Arg::Quantity(of(&rounded[series]).1, Unit::Ohm));
    sheet.verdict(Tone::Fine, "verdict-preferred", &[("e24", e24), ("e96", e96)]);
    Ok(())
}

/// Loss and impedances of the exact and of the rounded pads.
fn what_it_does(sheet: &mut Sheet, ends: &Ends, exact: &Pad, rounded: &[Pad; 2], figure: (&'static str, Arg)) {
    let [e24, e96] = rounded;
    sheet.further("loss_e96", ends.loss(e96), Unit::Decibel, &[figure]);
    sheet.further("insertion_loss", ends.insertion_loss(exact), Unit::Decibel, &[]);
    for (id, pad) in [("z_in", exact), ("z_in_e24", e24), ("z_in_e96", e96)] {
        sheet.further(id, ends.input(pad), Unit::Ohm, &[]);
    }
    for (id, pad) in [("z_out", exact), ("z_out_e24", e24), ("z_out_e96", e96)] {
        sheet.further(id, ends.output(pad), Unit::Ohm, &[]);
    }
    if ends.power {
        for (id, pad) in [("return_loss_e24", e24), ("return_loss_e96", e96)] {
            let z = ends.input(pad);
            sheet.further(id, decibels(((z + ends.r_s) / (z - ends.r_s)).abs()), Unit::Decibel, &[]);
        }
    }
}

/// The level at the load and the heat in the resistors.
fn levels(sheet: &mut Sheet, ends: &Ends, exact: &Pad, rounded: &[Pad; 2], emf: f64) -> Result<(), Fault> {
    let exact = heat(&mut sheet.working, ends, exact, emf)?;
    sheet.further("level", dbu(exact.load_volts), Unit::DecibelU, &[]);
    for (id, power) in POWERS.into_iter().zip(&exact.powers) {
        sheet.further(id, *power, Unit::Watt, &[]);
    }
    let mut most = exact.most();
    for pad in rounded {
        most = most.max(heat(&mut Working::new(CALCULATOR.id, false), ends, pad, emf)?.most());
    }
    if most > POWER_LIMIT {
        let args = [("most", Arg::Quantity(most, Unit::Watt)), ("limit", Arg::Quantity(2.0 * POWER_LIMIT, Unit::Watt))];
        sheet.warn("hot", &args);
    }
    Ok(())
}

/// The power that each resistor takes, from the source to the load.
const POWERS: [&str; 3] = ["power_r1", "power_r2", "power_r3"];

/// What a pad does with a level.
struct Heat {
    load_volts: f64,
    /// In each resistor to be soldered in, from the source to the load, W.
    powers: Vec<f64>,
}

impl Heat {
    /// In the hottest resistor, W.
    fn most(&self) -> f64 {
        self.powers.iter().copied().fold(0.0, f64::max)
    }
}

/// Voltages, currents and powers at the stated level, from the load back. Leaves
/// `E` and `H` in the scope.
fn heat(working: &mut Working, ends: &Ends, pad: &Pad, emf: f64) -> Result<Heat, Fault> {
    working.given("R_L", ends.r_l, Unit::Ohm);
    working.given("E", emf, Unit::Volt);
    working.given("H", ends.transfer(pad), Unit::One);
    let load_volts = working.step("load_volts", "U_L", "E*H", Unit::Volt)?;
    working.step("load_amperes", "I_L", "U_L/R_L", Unit::Ampere)?;
    // The latest names of voltage and current: a series resistor leaves the
    // current as it was, and a shunt resistor the voltage.
    let (mut u, mut i) = ("U_L".to_owned(), "I_L".to_owned());
    let mut powers = Vec::new();
    for (n, (&(place, r), id)) in pad.resistors.iter().zip(POWERS).enumerate().rev() {
        let n = n + 1;
        working.given(&format!("R_{n}"), r, Unit::Ohm);
        let formula = match place {
            Place::Series if pad.balanced => format!("{i}^2*R_{n}/2"),
            Place::Series => format!("{i}^2*R_{n}"),
            Place::Shunt => format!("{u}^2/R_{n}"),
        };
        powers.push(working.step(id, &format!("P_{n}"), &formula, Unit::Watt)?);
        match place {
            Place::Series => {
                working.step("ladder_volts", &format!("U_{n}"), &format!("{u} + {i}*R_{n}"), Unit::Volt)?;
                u = format!("U_{n}");
            }
            Place::Shunt => {
                working.step("ladder_amperes", &format!("I_{n}"), &format!("{i} + {u}/R_{n}"), Unit::Ampere)?;
                i = format!("I_{n}");
            }
        }
    }
    powers.reverse();
    Ok(Heat { load_volts, powers })
}

/// Thermal noise over the audio band at the load, which is taken as noiseless:
/// its own noise is stated with the input behind it.
fn noise(sheet: &mut Sheet, ends: &Ends, exact: &Pad) -> Result<(), Fault> {
    sheet.working.given("k", BOLTZMANN, Unit::One);
    sheet.working.given("T", ROOM, Unit::Kelvin);
    sheet.working.given("B", AUDIO_BAND.end() - AUDIO_BAND.start(), Unit::Hertz);
    sheet.working.given("Z_out", ends.output(exact), Unit::Ohm);
    let all = sheet.working.step("noise_all", "U_N", "sqrt(4*k*T*B*Z_out)*R_L/(R_L + Z_out)", Unit::Volt)?;
    sheet.working.step("noise_source", "U_NS", "sqrt(4*k*T*B*R_S)*H", Unit::Volt)?;
    let pad = sheet.working.step("noise", "U_NP", "sqrt(U_N^2 - U_NS^2)", Unit::Volt)?;
    sheet.further("noise", dbu(pad), Unit::DecibelU, &[]);
    sheet.further("noise_all", dbu(all), Unit::DecibelU, &[]);
    let level = sheet.working.value_of("E").re * sheet.working.value_of("H").re;
    let distance = decibels(level / all);
    sheet.further("signal_to_noise", distance, Unit::Decibel, &[]);
    sheet.sound(|| RigSound { noise: Some(-distance), ..RigSound::default() });
    Ok(())
}

/// What phantom supply at the load makes of the pad, and the pad of it; and that
/// a pad taken out is a level that jumps up.
fn phantom(values: &Values, sheet: &mut Sheet, exact: &Pad) -> Result<(), Fault> {
    if values.choice(PHANTOM)? == PhantomSwitch::On {
        if exact.balanced {
            let legs = exact.resistors.iter().filter(|(place, _)| *place == Place::Series).map(|(_, r)| r / 2.0).sum();
            sheet.warn("phantom-balanced", &[("leg", Arg::Quantity(legs, Unit::Ohm))]);
        } else {
            sheet.warn("phantom-unbalanced", &[]);
        }
        sheet.source("source-phantom-feed");
    }
    sheet.caution("caution-phantom");
    sheet.caution("caution-hearing");
    Ok(())
}

/// What happens to the loss when the pad meets another load than it was made
/// for: the exact pad beside what is soldered in.
fn plot(sheet: &mut Sheet, ends: &Ends, exact: &Pad, rounded: &[Pad; 2]) {
    if !sheet.wants_plots() {
        return;
    }
    let (from, to) = (ends.r_l / 100.0, ends.r_l * 100.0);
    let loads = log_sweep(&(from..=to), 121);
    let [e24, e96] = rounded;
    let change = |pad: &Pad, r_l: f64| -(Ends { r_l, ..*ends }.insertion_loss(pad));
    let curve = |pad: &Pad| loads.iter().map(|r_l| change(pad, *r_l)).collect::<Vec<_>>();
    let curves = [curve(exact), curve(e24), curve(e96)];
    let (bottom, top) = span(curves.iter().flatten().copied());
    let traces: Vec<_> = [("curve-exact", false), ("curve-e24", true), ("curve-e96", true)]
        .into_iter()
        .zip(curves)
        .map(|((id, reference), levels)| sheet.trace(id, reference, loads.clone(), levels))
        .collect();
    let at_load =
        [("load", Arg::Entry(ends.r_l, Unit::Ohm)), ("loss", Arg::Quantity(ends.insertion_loss(exact), Unit::Decibel))];
    let x = sheet.axis("axis-load", Unit::Ohm, true, from, to);
    let y = sheet.axis("axis-change", Unit::Decibel, false, bottom, top);
    let marker = sheet.marker("marker-load", &at_load, ends.r_l, change(exact, ends.r_l));
    let plot = sheet.plot("by-load", &at_load, x, y, traces);
    plot.markers.push(marker);
    plot.stops = [0.01, 0.1, 0.5, 1.0, 2.0, 10.0, 100.0].map(|times| times * ends.r_l).to_vec();
}
