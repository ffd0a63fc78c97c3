//! Phantom supply: what of it reaches a device, and what a wrong lead makes of it.

use super::balance;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::catalogue::phantom::{FEED_MATCH, PhantomSupply};
use crate::fault::Fault;
use crate::field::lead::{LEAD_LENGTH, LONGEST_LEAD, SHIELD_R};
use crate::field::leg::LEG_R;
use crate::field::phantom::{CORE_R, CURRENT, LEAST, OUTPUT_R, PATH, PhantomPath, SUPPLY, Supply};
use crate::field::receiver::INPUT_R;
use crate::field::{Bound, Change, ChoiceField, Field, Requirement, Step, Values, choice};
use crate::part::{Feeding, PhantomFeed};
use crate::quantity::Unit;
use crate::report::{Band, Sheet, Tone};
use crate::words::Arg;
use crate::working::Working;

/// Points of the drawn load line.
const POINTS: usize = 61;

choice! {
    /// Where in its tolerance a supply is.
    enum SupplyAt {
        /// In the middle.
        Nominal = "nominal",
        /// At the lowest.
        Lowest = "lowest",
        /// At the highest.
        Highest = "highest",
    }
}

choice! {
    /// What is known of a device.
    enum Draws {
        /// Its current.
        Current = "current",
        /// The least voltage that it works at.
        Least = "least",
    }
}

/// Where in its tolerance the supply is.
const SUPPLY_AT: ChoiceField<SupplyAt> = SupplyAt::field("supply_at", SupplyAt::Nominal).detail().at("supply");
/// Difference between the two feed resistors re their mean.
const MISMATCH: Field =
    Field::number("mismatch", "δ_F", Unit::Percent, FEED_MATCH, (0.0, 0.02)).limits(0.0, 1.0).detail().at("supply");
/// What is known of the device.
const DRAWS: ChoiceField<Draws> = Draws::field("draws", Draws::Current).at("device");
/// What a second device beside it takes, A.
const SECOND: Field = CURRENT.named("second", "I_2").limits(0.0, 1.0).absent().detail();

const REQUIREMENTS: &[Requirement] = &[Requirement {
    reading: "voltage",
    bound: Bound::at_least(LEAST),
    changes: &[
        Change::to(PATH, PhantomPath::Straight.id()),
        Change::less(LEAD_LENGTH, Step::Of(1.0)),
        Change::to(SUPPLY, Supply::P48.id()),
    ],
}];

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "phantom",
    fields: &[
        SUPPLY.field(),
        SUPPLY_AT.field(),
        MISMATCH,
        PATH.field(),
        LEAD_LENGTH.starting(30.0).usual(0.0, 100.0),
        CORE_R,
        SHIELD_R.detail(),
        OUTPUT_R,
        DRAWS.field(),
        CURRENT.when(DRAWS, &[Draws::Current.id()]),
        LEAST,
        SECOND,
        LEG_R.detail().at("device"),
    ],
    first: &[SUPPLY.id(), LEAD_LENGTH.id, DRAWS.id(), CURRENT.id],
    presets: &[
        Preset { id: "box", values: &[CURRENT.typed("4 mA"), LEAST.typed("20 V")], held: &[] },
        Preset {
            id: "wrong",
            values: &[],
            held: &[
                &[PhantomPath::LegOpen.to(PATH)],
                &[PhantomPath::Transformer.to(PATH)],
                &[PhantomPath::Adaptor.to(PATH)],
            ],
        },
        Preset {
            id: "pickup",
            values: &[PhantomPath::Adaptor.to(PATH), OUTPUT_R.typed("6k5"), LEAD_LENGTH.typed("10 m")],
            held: &[],
        },
        Preset {
            id: "split",
            values: &[CURRENT.typed("4 mA"), SECOND.typed("4 mA"), SupplyAt::Lowest.to(SUPPLY_AT)],
            held: &[&[CURRENT.typed("4 mA"), SupplyAt::Lowest.to(SUPPLY_AT)]],
        },
    ],
    solve,
    keeps: Keeps::These(REQUIREMENTS),
};

/// What reaches a device, and what the supply pays for it.
pub(super) struct Fed {
    /// Across the device, or on the output that must not have it, V.
    pub voltage: f64,
    /// Of the device itself, A.
    device: f64,
    /// In the two feed resistors, A.
    legs: [f64; 2],
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    sheet.caution("caution-phantom");
    sheet.caution("caution-hearing");
    let supply = values.choice(SUPPLY)?.values();
    let path = values.choice(PATH)?;
    let least = values.number(LEAST)?;
    let volts = givens(values, sheet, &supply)?;
    let feeds = matches!(path, PhantomPath::Straight | PhantomPath::LegOpen);
    let feed = PhantomFeed { legs: if path == PhantomPath::LegOpen { 1.0 } else { 2.0 } };
    let whole_r = whole_r(&mut sheet.working, feed)?;
    let fed = fed(values, sheet, path, volts, whole_r)?;
    let total: f64 = fed.legs.iter().sum();
    let known = values.choice(DRAWS)? == Draws::Current;
    let lowest = fed.voltage - volts + supply.volts - supply.tolerance;
    if feeds && !known {
        sheet.headline("device_current", fed.device, Unit::Ampere, &[]);
    } else {
        arriving(sheet, path, fed.voltage)?;
    }
    let (tone, word) = match verdict(path, known.then(|| Feeding::by(fed.voltage, lowest, least))) {
        // On the lowest supply there is nothing left.
        (Tone::Fine, "verdict-left") if supply.volts - supply.tolerance <= least => (Tone::Watch, "verdict-left-tight"),
        // Another supply may not deliver more than the standard allows.
        (Tone::Fine, word) if total > supply.most => (Tone::Watch, word),
        verdict => verdict,
    };
    sheet.verdict(tone, word, &[]);
    sheet.working.given("I_h", fed.legs[0], Unit::Ampere);
    sheet.working.given("I_c", fed.legs[1], Unit::Ampere);
    sheet.working.step("total_step", "I_P", "I_h + I_c", Unit::Ampere)?;
    if feeds && known {
        sheet.working.step("margin_step", "U_m", "U_D - U_min", Unit::Volt)?;
    }
    sheet.headline("total", total, Unit::Ampere, &[]);
    sheet.headline("margin", (feeds && known).then_some(fed.voltage - least), Unit::Volt, &[]);
    sheet.working.given("I_F", fed.legs[0].max(fed.legs[1]), Unit::Ampere);
    let feed_power = sheet.working.step("feed_power", "P_F", "I_F^2*R_F", Unit::Watt)?;
    sheet.headline("feed_power", feed_power, Unit::Watt, &[]);
    warnings(sheet, path, (feeds && total > supply.most).then_some(supply.most));

    sheet.further("supply_volts", volts, Unit::Volt, &[]);
    if feeds {
        sheet.working.given("I_D", fed.device, Unit::Ampere);
        sheet.working.given("U_D", fed.voltage, Unit::Volt);
        sheet.working.given("I", total, Unit::Ampere);
        device_readings(sheet, feed, known.then_some(lowest))?;
    } else if path == PhantomPath::Adaptor {
        sheet.further("leg_current", fed.legs[0], Unit::Ampere, &[]);
        sheet.further("other_leg_current", fed.legs[1], Unit::Ampere, &[]);
    }
    shorts(sheet)?;
    balance(values, sheet, &fed, feeds)?;
    if feeds {
        plot(values, sheet, &supply, volts, whole_r, &fed)?;
    }
    let mut filling = balance::CALCULATOR.filling();
    filling.put(INPUT_R, supply.feed_r);
    sheet.link_to("link-balance", &[], &filling);
    sheet.source("source-phantom");
    sheet.source("source-practice");
    Ok(())
}

/// Writes the voltage at the end of a path.
fn arriving(sheet: &mut Sheet, path: PhantomPath, voltage: f64) -> Result<(), Fault> {
    // On an output it feeds nothing, and less is better.
    let id = if path == PhantomPath::Adaptor { "voltage_on_output" } else { "voltage" };
    sheet.headline(id, voltage, Unit::Volt, &[]);
    if path == PhantomPath::Straight {
        sheet.because("voltage.because", "U_D", "U_P - I_D*R_F/2")?;
    }
    Ok(())
}

/// What makes the answer less than it seems; `most` is what the supply gives
/// where more than that is drawn.
fn warnings(sheet: &mut Sheet, path: PhantomPath, most: Option<f64>) {
    if let Some(most) = most {
        sheet.warn("over", &[("most", Arg::Quantity(most, Unit::Ampere))]);
    }
    if path == PhantomPath::LegOpen {
        sheet.warn("one-leg", &[]);
    }
}

/// What the formulas begin with; gives the voltage of the supply.
fn givens(values: &Values, sheet: &mut Sheet, supply: &PhantomSupply) -> Result<f64, Fault> {
    let volts = match values.choice(SUPPLY_AT)? {
        SupplyAt::Nominal => supply.volts,
        SupplyAt::Lowest => supply.volts - supply.tolerance,
        SupplyAt::Highest => supply.volts + supply.tolerance,
    };
    sheet.working.given("U_P", volts, Unit::Volt);
    sheet.working.given("R_F", supply.feed_r, Unit::Ohm);
    sheet.working.given("R′_k", values.number(CORE_R)?, Unit::OhmPerMetre);
    sheet.working.given("R′_sh", values.number(SHIELD_R)?, Unit::OhmPerMetre);
    sheet.working.given("l", values.number(LEAD_LENGTH)?, Unit::Metre);
    sheet.working.given("U_min", values.number(LEAST)?, Unit::Volt);
    Ok(volts)
}

/// What of the supply's `volts` reaches the end of this path.
fn fed(values: &Values, sheet: &mut Sheet, path: PhantomPath, volts: f64, whole_r: f64) -> Result<Fed, Fault> {
    Ok(match path {
        PhantomPath::Adaptor => adaptor(&mut sheet.working, values.optional(OUTPUT_R)?)?,
        PhantomPath::Short => {
            let each = sheet.working.step("leg_current", "I_F", "U_P/R/2", Unit::Ampere)?;
            Fed { voltage: 0.0, device: 0.0, legs: [each, each] }
        }
        // No direct current crosses a transformer, and none returns without a shield.
        PhantomPath::Transformer | PhantomPath::ShieldOpen => Fed { voltage: 0.0, device: 0.0, legs: [0.0, 0.0] },
        PhantomPath::Straight | PhantomPath::LegOpen => device(values, sheet, volts, whole_r)?,
    })
}

/// What the feed gives into a short.
fn shorts(sheet: &mut Sheet) -> Result<(), Fault> {
    let short = sheet.working.step("short_both", "I_K", "2*U_P/R_F", Unit::Ampere)?;
    let short_one = sheet.working.step("short_one", "I_K1", "U_P/R_F", Unit::Ampere)?;
    sheet.further("short_both", short, Unit::Ampere, &[]);
    sheet.further("short_one", short_one, Unit::Ampere, &[]);
    Ok(())
}

/// All resistance of a feed in the way of the current; leaves it as `R`.
pub(super) fn whole_r(working: &mut Working, feed: PhantomFeed) -> Result<f64, Fault> {
    working.step("whole_r", "R", &feed.whole_r(), Unit::Ohm)
}

/// What is left of the supply behind the resistance `R`.
pub(super) fn voltage(working: &mut Working) -> Result<f64, Fault> {
    working.step("voltage", "U_D", PhantomFeed::VOLTAGE, Unit::Volt)
}

/// What to make of a path; `supplied` is how a device of known current does on it.
fn verdict(path: PhantomPath, supplied: Option<Feeding>) -> (Tone, &'static str) {
    match (path, supplied) {
        (PhantomPath::Adaptor, _) => (Tone::Trouble, "verdict-adaptor"),
        (PhantomPath::Short, _) => (Tone::Trouble, "verdict-short"),
        (PhantomPath::Transformer, _) => (Tone::Trouble, "verdict-transformer"),
        (PhantomPath::ShieldOpen, _) => (Tone::Trouble, "verdict-shield"),
        (PhantomPath::Straight | PhantomPath::LegOpen, Some(Feeding::Starved)) => (Tone::Trouble, "verdict-starved"),
        (PhantomPath::LegOpen, _) => (Tone::Watch, "verdict-one-leg"),
        (PhantomPath::Straight, None) => (Tone::Fine, "verdict-left"),
        (PhantomPath::Straight, Some(Feeding::Tight)) => (Tone::Watch, "verdict-tight"),
        (PhantomPath::Straight, Some(Feeding::Runs)) => (Tone::Fine, "verdict-runs"),
    }
}

/// What else there is to say of a device on this feed: `lowest` is its voltage on
/// the lowest supply, where its current is known.
fn device_readings(sheet: &mut Sheet, feed: PhantomFeed, lowest: Option<f64>) -> Result<(), Fault> {
    let power = sheet.working.step("power", "P_D", "U_D*I_D", Unit::Watt)?;
    let lead_drop = sheet.working.step("lead_drop", "U_l", &format!("I*({})", feed.lead_r()), Unit::Volt)?;
    let most = sheet.working.step("most_current", "I_max", "(U_P - U_min)/R", Unit::Ampere)?;
    let best_current = sheet.working.step("best_current", "I_P", "U_P/(2*R)", Unit::Ampere)?;
    let best_power = sheet.working.step("best_power", "P_max", "U_P^2/(4*R)", Unit::Watt)?;
    sheet.further("power", power, Unit::Watt, &[]);
    sheet.further("lead_drop", lead_drop, Unit::Volt, &[]);
    if let Some(lowest) = lowest {
        let formula = format!("l + (U_D - U_min)/(I*({}))", feed.lead_r_per_metre());
        let length = sheet.working.value(&formula)?;
        let why = if length < 0.0 { "phantom-starved" } else { "phantom-unbound" };
        // Where that is longer than any that is laid, the feed resistors decide.
        let longest = match length {
            0.0..=LONGEST_LEAD => Some(sheet.working.step("longest", "l_max", &formula, Unit::Metre)?),
            _ => None,
        };
        sheet.further("voltage_lowest", Some(lowest).filter(|volts| *volts >= 0.0), Unit::Volt, &[]);
        sheet.further("longest", longest, Unit::Metre, &[("why", Arg::Key(why.to_owned()))]);
    }
    sheet.further("most_current", Some(most).filter(|most| *most > 0.0), Unit::Ampere, &[]);
    sheet.further("best_power", best_power, Unit::Watt, &[]);
    sheet.further("best_current", best_current, Unit::Ampere, &[]);
    Ok(())
}

/// A device at the end of the lead, alone or with a second one beside it.
fn device(values: &Values, sheet: &mut Sheet, volts: f64, whole_r: f64) -> Result<Fed, Fault> {
    let second = values.optional(SECOND)?.unwrap_or(0.0);
    let short = Arg::AtMost(volts / whole_r, Unit::Ampere);
    sheet.working.given("I_2", second, Unit::Ampere);
    let one_leg = values.choice(PATH)? == PhantomPath::LegOpen;
    let fed = |voltage, device: f64| {
        let whole = device + second;
        Fed { voltage, device, legs: if one_leg { [whole, 0.0] } else { [whole / 2.0, whole / 2.0] } }
    };
    if values.choice(DRAWS)? == Draws::Least {
        let least = values.number(LEAST)?;
        if least > volts {
            return Err(LEAST.fault("fault-phantom-least").with("most", Arg::AtMost(volts, Unit::Volt)));
        }
        let current = sheet.working.step("device_current", "I_D", "(U_P - U_min)/R - I_2", Unit::Ampere)?;
        if current < 0.0 {
            return Err(SECOND.fault("fault-phantom-second"));
        }
        return Ok(fed(least, current));
    }
    sheet.working.given("I_D", values.number(CURRENT)?, Unit::Ampere);
    let voltage = voltage(&mut sheet.working)?;
    if voltage < 0.0 {
        let field = if second > values.number(CURRENT)? { SECOND } else { CURRENT };
        return Err(field.fault("fault-phantom-current").with("most", short));
    }
    Ok(fed(voltage, values.number(CURRENT)?))
}

/// An unbalanced adaptor at the end of the lead: one leg on the shield, the
/// other on the output of what is plugged in.
pub(super) fn adaptor(working: &mut Working, output_r: Option<f64>) -> Result<Fed, Fault> {
    let output = match output_r {
        None => "0",
        Some(r) => {
            working.given("R_Q", r, Unit::Ohm);
            "1/(R_a + R_Q)"
        }
    };
    working.step("leg_way", "R_a", "R_F + R′_k*l", Unit::Ohm)?;
    working.step("both_g", "G", &format!("1/R_a + {output}"), Unit::Siemens)?;
    working.step("shield_volts", "U_sh", "U_P*R′_sh*l*G/(1 + R′_sh*l*G)", Unit::Volt)?;
    let shorted = working.step("leg_current", "I_F", "(U_P - U_sh)/R_a", Unit::Ampere)?;
    let other = working.step("other_leg_current", "I_Q", &format!("(U_P - U_sh)*{output}"), Unit::Ampere)?;
    let voltage = working.step("voltage", "U_D", "U_P - U_sh - I_Q*R_a", Unit::Volt)?;
    Ok(Fed { voltage, device: other, legs: [shorted, other] })
}

/// What unequal feed resistors do: direct voltage between the legs, and a limit
/// to the rejection of the input that they belong to.
fn balance(values: &Values, sheet: &mut Sheet, fed: &Fed, feeds: bool) -> Result<(), Fault> {
    sheet.working.given("δ_F", values.number(MISMATCH)?, Unit::Percent);
    sheet.working.given("R_S", values.number(LEG_R)?, Unit::Ohm);
    match values.choice(PATH)? {
        PhantomPath::Short => faulty_legs(sheet, Some("0"))?,
        PhantomPath::Adaptor => {
            let output = values.optional(OUTPUT_R)?;
            sheet.working.given("R_Q", output.unwrap_or(f64::INFINITY), Unit::Ohm);
            faulty_legs(sheet, output.map(|_| "R_Q"))?;
        }
        // The device sets the current, and shares it out between the legs.
        PhantomPath::Straight | PhantomPath::LegOpen | PhantomPath::Transformer | PhantomPath::ShieldOpen => {
            sheet.working.given("I_a", fed.legs[0], Unit::Ampere);
            sheet.working.given("I_b", fed.legs[1], Unit::Ampere);
        }
    }
    let offset = sheet.working.step("offset", "U_d", "R_F*(I_a*(1 + δ_F/2) - I_b*(1 - δ_F/2))", Unit::Volt)?;
    sheet.further("offset", offset, Unit::Volt, &[]);
    if feeds {
        // Through a winding without resistance: the most that it can be.
        let through = sheet.working.step("offset_current", "I_d", "U_d/(2*R_F)", Unit::Ampere)?;
        sheet.further("offset_current", through, Unit::Ampere, &[]);
    }
    let error = "R_S*R_F*δ_F/((R_F*(1 + δ_F/2) + R_S)*(R_F*(1 - δ_F/2) + R_S))";
    sheet.working.step("feed_error", "e", error, Unit::One)?;
    let rejection = sheet.working.step("feed_rejection", "a", "-20*log10(e)", Unit::Decibel)?;
    sheet.further("feed_rejection", rejection, Unit::Decibel, &[]);
    Ok(())
}

/// Leaves the currents `I_a` and `I_b` of two legs whose feed resistors are apart,
/// the larger one in the leg that is on the shield at the far end; the other
/// meets `beyond` there, or nothing.
fn faulty_legs(sheet: &mut Sheet, beyond: Option<&str>) -> Result<(), Fault> {
    let other = beyond.map_or("0".to_owned(), |r| format!("1/(R_F*(1 - δ_F/2) + R′_k*l + {r})"));
    sheet.working.step("first_g", "G_a", "1/(R_F*(1 + δ_F/2) + R′_k*l)", Unit::Siemens)?;
    sheet.working.step("second_g", "G_b", &other, Unit::Siemens)?;
    sheet.working.step("left_volts", "U_ab", "U_P/(1 + R′_sh*l*(G_a + G_b))", Unit::Volt)?;
    sheet.working.step("first_current", "I_a", "U_ab*G_a", Unit::Ampere)?;
    sheet.working.step("second_current", "I_b", "U_ab*G_b", Unit::Ampere)?;
    Ok(())
}

fn plot(
    values: &Values,
    sheet: &mut Sheet,
    supply: &PhantomSupply,
    volts: f64,
    whole_r: f64,
    fed: &Fed,
) -> Result<(), Fault> {
    if !sheet.wants_plots() {
        return Ok(());
    }
    let total: f64 = fed.legs.iter().sum();
    let highest = supply.volts + supply.tolerance;
    let most = highest / whole_r;
    let least = values.number(LEAST)?;
    let x: Vec<_> = (0..POINTS).map(|i| most * i as f64 / (POINTS - 1) as f64).collect();
    let line = |volts: f64| x.iter().map(|i| volts - i * whole_r).map(|u| if u < 0.0 { f64::NAN } else { u }).collect();
    let traces = vec![
        sheet.trace("curve", false, x.clone(), line(volts)),
        sheet.trace("curve-lowest", true, x.clone(), line(supply.volts - supply.tolerance)),
        sheet.trace("curve-highest", true, x.clone(), line(highest)),
        sheet.trace("curve-least", true, vec![0.0, most], vec![least, least]),
        // As good as upright: a device takes its current at any voltage.
        sheet.trace("curve-device", true, vec![total * (1.0 - 1e-6), total], vec![0.0, highest]),
    ];
    let args = [("voltage", Arg::Quantity(fed.voltage, Unit::Volt)), ("current", Arg::Quantity(total, Unit::Ampere))];
    let marker = sheet.marker("marker-device", &args, total, fed.voltage);
    let within = sheet.word("band-standard", &[]);
    let x = sheet.axis("axis-current", Unit::Ampere, false, 0.0, most);
    let y = sheet.axis("axis-voltage", Unit::Volt, false, 0.0, (highest / 10.0).ceil() * 10.0);
    let plot = sheet.plot("load-line", &args, x, y, traces);
    plot.markers.push(marker);
    plot.bands.push(Band { from: 0.0, to: supply.most, name: within });
    plot.stops =
        [1e-3, 2e-3, 4e-3, 7e-3, 10e-3, 20e-3].into_iter().filter(|current| *current < volts / whole_r).collect();
    Ok(())
}
