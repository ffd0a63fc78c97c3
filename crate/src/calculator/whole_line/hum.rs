//! The hum of the whole line: what the currents around its loops of earths put
//! into the first lead and into the run, as it arrives at the console.

use crate::Complex64;
use crate::catalogue::phantom::FEED_MATCH;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::connection::pin_1_r;
use crate::field::direct_box::{BOX, BoxKind, GROUND, Ground};
use crate::field::earth::{
    AMP_DIFFERENCE, AMP_EARTH_R, EARTH_R, EARTH_VOLTS, LEAKAGE_VOLTS, LOOP_L, POWER, Power, SHARED_EARTH_R,
    SUPPLY_LEAKAGE, difference, leakage,
};
use crate::field::lead::{LEAD_LENGTH, shield};
use crate::field::leg::IMBALANCE;
use crate::field::mains::{mains, spectrum};
use crate::field::phantom::PHANTOM;
use crate::field::receiver::electronic;
use crate::field::run::{RUN, RUN_LENGTH, Run};
use crate::field::source::SOURCE;
use crate::field::split::{SECOND_DIFFERENCE, SECOND_EARTH_R, SECOND_SHARED_R, SPLIT, Split};
use crate::field::stray::stray;
use crate::field::thru::{THRU, THRU_LENGTH, ThruLoad};
use crate::field::transformer::WINDING_C;
use crate::network::{MIDBAND, Node, OnePort, Path, a_weighting};
use crate::part::{
    BalancedLine, Between, Cause, Chain, Component, Connection, Drive, EarthStar, GroundLoop, Receiver, Rig,
    SecondEarth, Spectrum, StarArm, Stray, WorstLine,
};
use crate::quantity::Unit;
use crate::quantity::level::{dbu, decibels, power_ratio};
use crate::report::HumLine;
use crate::words::Arg;
use crate::working::Working;
use crate::working::ground_loop::{LoopSymbols, closed, driven, leakage_z};
use std::f64::consts::TAU;

/// How the run gets the signal on to the console.
pub(in crate::calculator) enum RunConnection {
    /// Its shield is the return of the signal.
    Unbalanced,
    /// A transformer with nothing metallic across, into an unbalanced input.
    Isolated {
        /// From winding to winding, F.
        capacitance: f64,
        /// Source and load in parallel, Ω.
        circuit_r: f64,
    },
    /// Two legs.
    Balanced {
        drive: Drive,
        receiver: Receiver,
        /// Difference between the source resistances of the legs, Ω.
        imbalance: f64,
        /// Whether no shield joins the two ends.
        lifted: bool,
    },
}

/// The loops of earths of a line.
pub(in crate::calculator) struct Loops {
    pub star: EarthStar,
    pub run: RunConnection,
    /// Whether the first lead is part of a balanced run.
    pub through: bool,
    /// Whether what falls along the first lead's shield is in series with the signal.
    pub in_lead: bool,
    /// Of the first lead's shield and contacts, Ω; none where it is part of the run.
    pub lead_shield_r: f64,
    /// Of the run's shield and contacts, Ω.
    pub run_r: f64,
    pub pin_1_r: f64,
    pub spectrum: Spectrum,
    stray: Stray,
    /// How much of the first lead, with that of a thru, and of the run is unbalanced, m.
    pub unbalanced: [f64; 2],
}

/// The hum at the console's input, V.
pub(in crate::calculator) struct Hum {
    pub all: f64,
    /// A-weighted: all of it, what comes in by the first lead, by the run, and from
    /// the mains around.
    pub weighted: [f64; 4],
    /// A-weighted, dBu.
    pub level_a: f64,
    /// From the signal to that, dB.
    pub distance: f64,
    /// In the run's shield, A.
    pub current: f64,
    /// The most in any shield, A.
    pub most: f64,
    /// From the signal to the A-weighted hum at the input of an amplifier on the thru,
    /// dB; nothing without one on an earth of its own.
    pub amplifier: Option<f64>,
}

/// An unbalanced lead within a path, `onward` being what becomes of a voltage at the
/// end of that; `n` numbers its symbols.
#[derive(Clone, Copy)]
struct Strayed<'a> {
    n: usize,
    path: &'a Path,
    node: Node,
    onward: f64,
}

/// Of one component of the mains.
pub(super) struct Arriving {
    /// At the console's input, V: by the first lead, by the run and from the mains around.
    pub volts: [f64; 3],
    /// In the shields, A: the run's first, then those of source, amplifier and second console.
    amperes: [f64; 4],
}

/// What the loops do at one frequency for a cause of the size that it has at
/// the mains frequency.
struct At {
    /// On from the box to the console's earth, Ω.
    onward: Complex64,
    /// In series with the run for each ampere onward, Ω.
    volts_per_ampere: f64,
    /// Of the balanced run, re the common-mode voltage.
    error: f64,
    /// How the loop is closed; nothing where no shield joins the two ends.
    closed_by: Option<Connection>,
}

/// The console's input. The feed resistors of its phantom are across its legs,
/// whether they feed anything or not.
fn console(values: &Values) -> Result<Receiver, Fault> {
    let receiver = electronic(values)?;
    let supply = values.choice(PHANTOM)?.supply();
    Ok(supply.map_or(receiver, |supply| receiver.fed_through(supply.values().feed_r, FEED_MATCH)))
}

/// How much lead hangs on the thru of a box, m: as open to the mains around as the
/// first lead, and at the same node.
fn thru_length(values: &Values) -> Result<f64, Fault> {
    let is_there = values.choice(BOX)? != BoxKind::None && values.choice(THRU)? != ThruLoad::None;
    if is_there { values.number(THRU_LENGTH) } else { Ok(0.0) }
}

/// How much of the first lead, with that of a thru, and of the run is unbalanced, m.
fn unbalanced(values: &Values, in_lead: bool, run: &RunConnection) -> Result<[f64; 2], Fault> {
    let in_run = match run {
        RunConnection::Unbalanced | RunConnection::Isolated { .. } => true,
        RunConnection::Balanced { drive, .. } => *drive == Drive::Unbalanced,
    };
    let there = |is_there, length: f64| if is_there { length } else { 0.0 };
    Ok([there(in_lead, values.number(LEAD_LENGTH)?) + thru_length(values)?, there(in_run, values.number(RUN_LENGTH)?)])
}

/// Whether the source stands on an earth.
fn is_earthed(values: &Values) -> Result<bool, Fault> {
    Ok(values.choice(SOURCE)?.has_supply() && values.choice(POWER)?.is_earthed())
}

/// Whether what meets the source where its lead ends stands on the same earth; without one
/// of its own the source stands on none.
fn on_the_same_earth(values: &Values) -> Result<bool, Fault> {
    let same = match values.choice(BOX)? {
        BoxKind::None => values.choice(SPLIT)? == Split::Same,
        BoxKind::Passive | BoxKind::Active => values.choice(THRU)? == ThruLoad::Same,
    };
    Ok(same && is_earthed(values)?)
}

/// What a second console stands on the same earth with.
fn same_as(values: &Values) -> Result<Option<StarArm>, Fault> {
    if values.choice(SPLIT)? != Split::Same {
        return Ok(None);
    }
    let is_boxed = values.choice(BOX)? != BoxKind::None;
    let amplifier = (is_boxed && values.choice(THRU)?.is_earthed()).then_some(StarArm::Amplifier);
    Ok(if is_earthed(values)? { Some(StarArm::Source) } else { amplifier })
}

/// Another earth on a line.
struct OtherEarth {
    cause: Cause,
    /// Of the shield that ties it, Ω.
    shield_r: f64,
    /// Of the path that it shares with the source's, Ω.
    shared_r: f64,
}

/// What ties another earth to the line where its first lead ends: an amplifier on the thru,
/// or a second console joined by a lead.
fn other_earth(values: &Values) -> Result<Option<OtherEarth>, Fault> {
    let (volts, earth_r, length, shared_r) = match values.choice(BOX)? {
        BoxKind::None => return second_console(values),
        BoxKind::Passive | BoxKind::Active if values.choice(THRU)?.is_earthed() => {
            let volts = if on_the_same_earth(values)? { EARTH_VOLTS } else { AMP_DIFFERENCE };
            (volts, AMP_EARTH_R, THRU_LENGTH, SHARED_EARTH_R)
        }
        BoxKind::Passive | BoxKind::Active => return Ok(None),
    };
    Ok(Some(OtherEarth {
        cause: difference(values, volts, earth_r)?,
        shield_r: shield(values, values.number(length)?)?,
        shared_r: values.optional(shared_r)?.unwrap_or(0.0),
    }))
}

/// What a second console shares with source and amplifier, if both are there: of three paths
/// that meet the two that part last share the most, and a source that leaks is not of these.
fn shared_with(most: f64, of_both: f64, [both, leaking]: [bool; 2]) -> [f64; 2] {
    let least = if both { most.min(of_both) } else { most };
    if leaking { [least, most] } else { [most, least] }
}

/// What a second console that is joined by a lead ties to the line.
fn second_console(values: &Values) -> Result<Option<OtherEarth>, Fault> {
    if !values.choice(SPLIT)?.is_joined() {
        return Ok(None);
    }
    let volts = match same_as(values)? {
        Some(StarArm::Source) => EARTH_VOLTS,
        Some(StarArm::Amplifier) => AMP_DIFFERENCE,
        None => SECOND_DIFFERENCE,
    };
    Ok(Some(OtherEarth {
        cause: difference(values, volts, SECOND_EARTH_R)?,
        shield_r: shield(values, values.number(RUN_LENGTH)?)?,
        shared_r: values.optional(SECOND_SHARED_R)?.unwrap_or(0.0),
    }))
}

/// How the run gets the signal on.
fn run_connection(values: &Values, chain: &Chain) -> Result<RunConnection, Fault> {
    let (boxed, balanced_source) = (values.choice(BOX)?, values.choice(SOURCE)?.is_balanced());
    let lifted = boxed != BoxKind::None && values.choice(GROUND)? == Ground::Lifted;
    let winding_c = values.number(WINDING_C)?;
    Ok(match (values.choice(RUN)? == Run::Balanced, boxed) {
        (false, BoxKind::Passive) if lifted => {
            RunConnection::Isolated { capacitance: winding_c, circuit_r: chain.circuit_r() }
        }
        (false, _) => RunConnection::Unbalanced,
        (true, _) => RunConnection::Balanced {
            drive: match boxed {
                BoxKind::Passive => Drive::Floating(OnePort::capacitor(winding_c)),
                BoxKind::None if !balanced_source => Drive::Unbalanced,
                BoxKind::None | BoxKind::Active => Drive::Both,
            },
            receiver: console(values)?,
            imbalance: values.number(IMBALANCE)?,
            lifted,
        },
    })
}

impl Loops {
    pub(crate) fn new(values: &Values, chain: &Chain) -> Result<Self, Fault> {
        let inductance = values.number(LOOP_L)?;
        let boxed = values.choice(BOX)?;
        let kind = values.choice(SOURCE)?;
        let balanced_source = kind.is_balanced();
        let balanced_run = values.choice(RUN)? == Run::Balanced;
        let through = boxed == BoxKind::None && balanced_source && balanced_run;
        // A lead of no length is none, and has no contacts.
        let shield = |length: f64| if length > 0.0 { shield(values, length) } else { Ok(0.0) };
        let (mut lead_r, mut run_r) = (shield(values.number(LEAD_LENGTH)?)?, shield(values.number(RUN_LENGTH)?)?);
        if through {
            (lead_r, run_r) = (0.0, lead_r + run_r);
        }
        let arm = |cause, shield_r| GroundLoop { cause, inductance, shield_r };
        let power = if kind.has_supply() { values.choice(POWER)? } else { Power::Floating };
        let source = match power {
            Power::Floating => None,
            Power::Earthed | Power::Linked => Some(arm(difference(values, EARTH_VOLTS, EARTH_R)?, lead_r)),
            Power::Leaking => Some(arm(leakage(values, SUPPLY_LEAKAGE)?, lead_r)),
        };
        let other = other_earth(values)?;
        let shared_r = other.as_ref().map_or(0.0, |other| other.shared_r);
        let amplifier = other.map(|other| arm(other.cause, other.shield_r));
        // Behind a box the signal goes to both consoles where the run ends.
        let second = if boxed == BoxKind::None { None } else { second_console(values)? };
        let same_as = same_as(values)?;
        let second = second.map(|other| SecondEarth {
            arm: arm(other.cause, other.shield_r),
            shared_r: shared_with(
                other.shared_r,
                shared_r,
                [source.is_some() && amplifier.is_some(), power == Power::Leaking],
            ),
            same_as,
        });
        let run = run_connection(values, chain)?;
        let in_lead = !(through || boxed == BoxKind::Passive && balanced_source);
        let loops = Self {
            star: EarthStar { source, amplifier, same_earth: on_the_same_earth(values)?, shared_r, second },
            stray: stray(values)?,
            unbalanced: unbalanced(values, in_lead, &run)?,
            run,
            through,
            in_lead,
            lead_shield_r: lead_r,
            run_r,
            pin_1_r: pin_1_r(values)?,
            spectrum: spectrum(values)?,
        };
        loops.check(chain, mains(values)?)?;
        Ok(loops)
    }

    /// No leg has less than no resistance.
    fn check(&self, chain: &Chain, mains: f64) -> Result<(), Fault> {
        let most = chain.last().looking_back(chain.before_run, mains).re;
        match self.run {
            RunConnection::Balanced { drive: Drive::Both, imbalance, .. }
                if self.star.is_driven() && imbalance > most =>
            {
                Err(IMBALANCE.fault("fault-imbalance").with("most", Arg::AtMost(most, Unit::Ohm)))
            }
            _ => Ok(()),
        }
    }

    /// The balanced run at a frequency in Hz, at its worst there, and its legs' source impedance, Ω.
    pub(crate) fn line(&self, chain: &Chain, frequency: f64) -> Option<(BalancedLine, Complex64)> {
        let RunConnection::Balanced { drive, .. } = &self.run else { return None };
        self.line_driven(drive, chain, frequency)
    }

    /// The same as if it were driven so.
    pub(super) fn line_driven(
        &self,
        drive: &Drive,
        chain: &Chain,
        frequency: f64,
    ) -> Option<(BalancedLine, Complex64)> {
        let RunConnection::Balanced { receiver, imbalance, .. } = &self.run else { return None };
        let z = chain.last().looking_back(chain.before_run, frequency);
        let legs = if *drive == Drive::Unbalanced {
            [fixed(z, frequency), OnePort::SHORT]
        } else {
            let apart = imbalance.min(z.re) / 2.0;
            [fixed(z / 2.0 + apart, frequency), fixed(z / 2.0 - apart, frequency)]
        };
        // With legs as with their mirror image: only the receiver's sides are open.
        Some((WorstLine::new(drive, &legs, &[], receiver).at(frequency).clone(), z))
    }

    fn at(&self, chain: &Chain, frequency: f64) -> At {
        let over = |connection: Connection, error| At {
            onward: connection.across(self.run_r, frequency),
            volts_per_ampere: connection.volts_per_ampere(self.run_r),
            error,
            closed_by: Some(connection),
        };
        match (&self.run, self.line(chain, frequency)) {
            (RunConnection::Isolated { capacitance, circuit_r }, _) => {
                over(Connection::Isolated { capacitance: *capacitance, circuit_r: *circuit_r }, 0.0)
            }
            (RunConnection::Balanced { lifted, .. }, Some((line, _))) => {
                let error = line.at(frequency).error;
                if *lifted {
                    let onward = line.common_mode(frequency);
                    At { onward, volts_per_ampere: onward.norm() * error, error, closed_by: None }
                } else {
                    over(Connection::Balanced { error, pin_1_r: self.pin_1_r }, error)
                }
            }
            _ => over(Connection::Unbalanced, 0.0),
        }
    }

    /// Whether anything hums.
    fn hums(&self) -> bool {
        self.star.is_driven() || self.unbalanced != [0.0; 2]
    }

    /// At the console's input from the mains around, V, by component of these orders.
    pub(super) fn strays(&self, chain: &Chain, orders: &[u32]) -> Vec<f64> {
        let stray = |order: &u32| {
            let part = self.spectrum.0.iter().find(|part| part.order == *order);
            part.map_or(0.0, |part| part.share * chain.stray(&self.stray, self.unbalanced, part.frequency))
        };
        orders.iter().map(stray).collect()
    }

    /// What arrives of a component, and what it drives through the shields.
    pub(super) fn component(&self, chain: &Chain, frequency: f64) -> Arriving {
        let stray = chain.stray(&self.stray, self.unbalanced, frequency);
        let second = self.star.in_second(frequency);
        if !self.star.is_driven() {
            return Arriving { volts: [0.0, 0.0, stray], amperes: [0.0, 0.0, 0.0, second] };
        }
        let at = self.at(chain, frequency);
        let currents = self.star.currents(at.onward, frequency);
        let lead = currents.source * self.lead_r() * chain.transfer_of_lead(frequency).norm();
        let run = chain.last().transfer_behind(chain.before_run, frequency).norm();
        Arriving {
            volts: [lead, currents.onward * at.volts_per_ampere * run, stray],
            amperes: [currents.onward, currents.source, currents.amplifier, second],
        }
    }

    /// What the first lead's shield puts in series with the signal, Ω.
    pub(crate) fn lead_r(&self) -> f64 {
        self.star.source.filter(|_| self.in_lead).map_or(0.0, |source| source.shield_r)
    }

    /// The lines of the hum re a signal at the console's input, dBu.
    pub(super) fn lines(&self, chain: &Chain, signal: f64) -> Vec<HumLine> {
        let line = |part: &Component| {
            let [lead, run, stray] = self.component(chain, part.frequency).volts;
            HumLine { hz: part.frequency, db: dbu(part.share * (lead + run + stray)) - signal }
        };
        self.spectrum.0.iter().filter(|_| self.hums()).map(line).collect()
    }

    /// All components together, beside the signal `a_S`.
    pub(crate) fn hum(&self, chain: &Chain, working: &mut Working) -> Result<Hum, Fault> {
        let (mut all, mut currents, mut weighted) = (0.0, [0.0; 4], [0.0; 4]);
        for part in self.spectrum.0.iter().filter(|_| self.hums() || self.star.second.is_some()) {
            let Arriving { volts, amperes } = self.component(chain, part.frequency);
            let [lead, run, stray] = volts.map(|size| part.share * size);
            let weight = power_ratio(a_weighting(part.frequency));
            let sum = lead + run + stray;
            all += sum.powi(2);
            for (sum, amperes) in currents.iter_mut().zip(amperes) {
                *sum += (part.share * amperes).powi(2);
            }
            for (sum, volts) in weighted.iter_mut().zip([sum, lead, run, stray]) {
                *sum += weight * volts.powi(2);
            }
        }
        let (weighted, currents) = (weighted.map(f64::sqrt), currents.map(f64::sqrt));
        let most = currents.into_iter().fold(0.0, f64::max);
        let [level_a, distance] = beside_signal(weighted[0], working)?;
        Ok(Hum { all: all.sqrt(), weighted, level_a, distance, current: currents[0], most, amplifier: None })
    }

    /// From the signal to the A-weighted hum in an amplifier on the thru, dB: what
    /// falls along the shield of its lead is in series with its signal.
    pub(crate) fn in_amplifier(&self, rig: &Rig, chain: &Chain) -> Option<f64> {
        let shield_r = self.star.amplifier.filter(|_| rig.between != Between::Nothing)?.shield_r;
        let [_, signal] = rig.at_thru(chain, MIDBAND)?;
        let volts = self.spectrum.sum(
            |f| {
                let current = self.star.currents(self.at(chain, f).onward, f).amplifier;
                current * shield_r * rig.at_thru(chain, f).map_or(0.0, |[hum, _]| hum)
            },
            a_weighting,
        );
        (volts > 0.0).then(|| decibels(signal / volts))
    }

    /// The common-mode voltage on the run at the mains frequency, V.
    pub(crate) fn common_mode(&self, chain: &Chain, mains: f64) -> f64 {
        let onward = self.at(chain, mains).onward;
        self.star.currents(onward, mains).onward * onward.norm()
    }

    /// Writes down the component at the mains frequency.
    pub(crate) fn working(&self, values: &Values, working: &mut Working, chain: &Chain) -> Result<(), Fault> {
        if !working.is_wanted() || !self.hums() {
            return Ok(());
        }
        let f = mains(values)?;
        working.given("f", f, Unit::Hertz);
        working.step("walk-omega", "omega", "2*pi*f", Unit::RadianPerSecond)?;
        let mut terms = Vec::new();
        if self.star.is_driven() {
            self.loop_working(values, working, chain, f)?;
            terms.extend(["U_1", "U_3"]);
        }
        let first = Strayed { n: 1, path: &chain.first, node: chain.behind_lead, onward: chain.onward(f).norm() };
        let run = Strayed { n: 3, path: chain.last(), node: chain.behind_run, onward: 1.0 };
        for (lead, length) in [first, run].into_iter().zip(self.unbalanced).filter(|(_, length)| *length > 0.0) {
            terms.push(self.stray_working(working, &lead, length, f)?);
        }
        working.step("hum_at", "U_f", &terms.join(" + "), Unit::Volt)?;
        Ok(())
    }

    /// The working of what the mains around puts into a lead.
    fn stray_working(&self, working: &mut Working, lead: &Strayed, length: f64, f: f64) -> Result<&'static str, Fault> {
        let Strayed { n, path, node, onward } = *lead;
        let Stray { density, width, capacitance, volts } = self.stray;
        for (symbol, value, unit) in [
            ("B_S".to_owned(), density, Unit::Tesla),
            ("w_S".to_owned(), width, Unit::Metre),
            ("C′_S".to_owned(), capacitance, Unit::FaradPerMetre),
            ("U_M".to_owned(), volts, Unit::Volt),
            (format!("l_{n}"), length, Unit::Metre),
            (format!("Z_b{n}"), path.looking_back(node, f).norm(), Unit::Ohm),
            (format!("H_b{n}"), path.transfer_behind(node, f).norm() * onward, Unit::One),
        ] {
            working.given(&symbol, value, unit);
        }
        let formula = format!("omega*l_{n}*(B_S*w_S + C′_S*U_M*Z_b{n})*H_b{n}");
        let (id, symbol) = if n == 1 { ("stray_lead_at", "U_M1") } else { ("stray_run_at", "U_M3") };
        working.step(id, symbol, &formula, Unit::Volt)?;
        Ok(symbol)
    }

    /// The working of what the currents around the loops put in at the mains
    /// frequency.
    fn loop_working(&self, values: &Values, working: &mut Working, chain: &Chain, f: f64) -> Result<(), Fault> {
        let at = self.at(chain, f);
        let inductance = values.number(LOOP_L)?;
        working.given("L", inductance, Unit::Henry);
        working.given("R_3", self.run_r, Unit::Ohm);
        working.given("e", at.error, Unit::One);
        working.given("H_1", chain.transfer_of_lead(f).norm(), Unit::One);
        working.given("H_3", chain.last().transfer_behind(chain.before_run, f).norm(), Unit::One);
        match at.closed_by {
            None => working.given("Z_cm", at.onward, Unit::Ohm),
            Some(Connection::Unbalanced) => {}
            Some(Connection::Balanced { pin_1_r, .. }) => working.given("R_pin", pin_1_r, Unit::Ohm),
            Some(Connection::Isolated { capacitance, circuit_r }) => {
                working.given("C_ps", capacitance, Unit::Farad);
                working.given("R_C", circuit_r, Unit::Ohm);
            }
        }
        let lifted = || ["Z_cm".to_owned(), "abs(Z_cm)*e".to_owned()];
        let [onward, volts] = at.closed_by.map_or_else(lifted, |by| closed(&by, "R_3", "e", "omega"));
        let shared = if self.star.shared_r > 0.0 { " + R_ES" } else { "" };
        working.given("R_ES", self.star.shared_r, Unit::Ohm);
        let second = self.star.second.filter(|second| second.shared_r != [0.0; 2]);
        let [behind, more_1, more_2] = match &second {
            None => ["", "", ""],
            Some(second) => self.second_working(values, working, second)?,
        };
        working.step_with("onward_z", &[], "Z_l3", &format!("{onward}{shared}{behind}"), Unit::Ohm)?;
        if let Some(source) = &self.star.source {
            arm(values, working, source, 1, more_1)?;
        }
        if let Some(amplifier) = &self.star.amplifier {
            arm(values, working, amplifier, 2, more_2)?;
        }
        let [lead, run] = self.currents_working(working, second.is_some())?;
        working.step("current_lead", "I_s1", &lead, Unit::Ampere)?;
        working.step("current_run", "I_s3", &run, Unit::Ampere)?;
        working.given("R_1", self.lead_r(), Unit::Ohm);
        working.step("hum_lead_at", "U_1", "I_s1*R_1*H_1", Unit::Volt)?;
        working.step("hum_run_at", "U_3", &format!("I_s3*{volts}*H_3"), Unit::Volt)?;
        Ok(())
    }

    /// The working of a second console behind the run, whose loop is eliminated: what it adds
    /// to the impedance of the run, and to those of both arms.
    fn second_working(
        &self,
        values: &Values,
        working: &mut Working,
        second: &SecondEarth,
    ) -> Result<[&'static str; 3], Fault> {
        arm(values, working, &second.arm, 4, "")?;
        let [source, amplifier] = second.shared_r;
        working.given("R_ES4", source, Unit::Ohm);
        if self.star.source.is_none() || self.star.amplifier.is_none() {
            working.step_with("second_share", &[], "s_4", "R_ES4/(R_ES4 + Z_l4)", Unit::One)?;
            let counted = self.star.shared_r.min(source);
            if counted == 0.0 {
                return Ok([" + R_ES4*(1 - s_4)", "", ""]);
            }
            working.given("R_ES5", counted, Unit::Ohm);
            return Ok([" + R_ES4*(1 - s_4) - R_ES5", "", ""]);
        }
        working.given("R_ES5", amplifier, Unit::Ohm);
        let own = if source < amplifier { "R_ES5 + Z_l4" } else { "R_ES4 + Z_l4" };
        working.step_with("second_share", &[], "s_4", &format!("R_ES4/({own})"), Unit::One)?;
        working.step_with("second_share_amplifier", &[], "s_5", &format!("R_ES5/({own})"), Unit::One)?;
        Ok(if source < amplifier {
            [" - R_ES5*s_4", " + (R_ES5 - R_ES4)*s_4", " + (R_ES5 - R_ES4)*(1 - s_5)"]
        } else {
            [" - R_ES5*s_4", " + (R_ES4 - R_ES5)*(1 - s_4)", " + (R_ES4 - R_ES5)*s_5"]
        })
    }

    /// The formulas of the currents in the first lead and in the run. Those that a second
    /// console drives from behind the run go the other way.
    fn currents_working(&self, working: &mut Working, has_second: bool) -> Result<[String; 2], Fault> {
        let mut second = |id: &'static str, symbol: &'static str, formula: &str| {
            let step = has_second.then(|| working.step_with(id, &[], symbol, formula, Unit::Ampere));
            step.transpose().map(|_| ())
        };
        let there = |part: &'static str| if has_second { part } else { "" };
        match (&self.star.source, &self.star.amplifier) {
            (_, None) => {
                second("current_second", "I_B", "E_4*s_4/(Z_l1 + Z_l3)")?;
                let lead = [(1, "E_1/(Z_l1 + Z_l3)"), (-1, ""), (-1, there("I_B"))];
                Ok([self.sizes(lead), "I_s1".to_owned()])
            }
            (None, _) => {
                second("current_second", "I_B", "E_4*s_4/(Z_l2 + Z_l3)")?;
                let run = [(1, ""), (1, "E_2/(Z_l2 + Z_l3)"), (-1, there("I_B"))];
                Ok(["0".to_owned(), self.sizes(run)])
            }
            (Some(_), Some(_)) => {
                working.step_with("share_source", &[], "s_1", "Z_l2/(Z_l2 + Z_l3)", Unit::One)?;
                working.step_with("share_amplifier", &[], "s_2", "Z_l1/(Z_l1 + Z_l3)", Unit::One)?;
                working.step_with("current_source", &[], "I_S", "E_1/(Z_l1 + Z_l3*s_1)", Unit::Ampere)?;
                working.step_with("current_amplifier", &[], "I_A", "E_2/(Z_l2 + Z_l3*s_2)", Unit::Ampere)?;
                if has_second {
                    let formula = "E_4*s_4/(Z_l1 + Z_l3*s_1)";
                    working.step_with("current_second", &[], "I_B", formula, Unit::Ampere)?;
                    let formula = "E_4*s_5/(Z_l2 + Z_l3*s_2)";
                    working.step_with("current_second_amplifier", &[], "I_C", formula, Unit::Ampere)?;
                }
                let lead = [(1, "I_S"), (-1, "I_A*(1 - s_2)"), (-1, there("(I_B - I_C*(1 - s_2))"))];
                let run = [(1, "I_S*s_1"), (1, "I_A*s_2"), (-1, there("(I_B*s_1 + I_C*s_2)"))];
                Ok([self.sizes(lead), self.sizes(run)])
            }
        }
    }

    /// The formula of what source, amplifier and second console drive through one place: sizes,
    /// but of what stands on one earth together.
    fn sizes(&self, parts: [(i8, &str); 3]) -> String {
        let with_amplifier = usize::from(!self.star.same_earth);
        let second = match self.star.second.and_then(|second| second.same_as) {
            Some(StarArm::Source) => 0,
            Some(StarArm::Amplifier) => with_amplifier,
            None => 2,
        };
        let mut sums = [const { String::new() }; 3];
        let mut signs = [1; 3];
        for ((sign, part), group) in
            parts.into_iter().zip([0, with_amplifier, second]).filter(|((_, part), _)| !part.is_empty())
        {
            let sum = &mut sums[group];
            if sum.is_empty() {
                signs[group] = sign;
            } else {
                sum.push_str(if sign == signs[group] { " + " } else { " - " });
            }
            sum.push_str(part);
        }
        let sizes: Vec<_> = sums.iter().filter(|sum| !sum.is_empty()).map(|sum| format!("abs({sum})")).collect();
        sizes.join(" + ")
    }
}

/// The e.m.f. `E_n` of an arm and its impedance `Z_ln` at the frequency in question, with
/// what is added to that.
fn arm(values: &Values, working: &mut Working, arm: &GroundLoop, n: usize, more: &str) -> Result<(), Fault> {
    let words = match n {
        1 => ["emf_source", "arm_source"],
        2 => ["emf_amplifier", "arm_amplifier"],
        _ => ["emf_second", "arm_second"],
    };
    let [shield, volts, earth_r] = ["R_s", "E_E", "R_E"].map(|symbol| format!("{symbol}{n}"));
    let symbols = LoopSymbols { volts: &volts, earth_r: &earth_r, leakage_z: "Z_L", omega: "omega" };
    working.given(&shield, arm.shield_r, Unit::Ohm);
    working.cause(&arm.cause, values.number(LEAKAGE_VOLTS)?, &symbols)?;
    if let Cause::Leakage { .. } = arm.cause {
        working.step_with("leakage_z", &[], "Z_L", &leakage_z("omega"), Unit::Ohm)?;
    }
    let [emf, z] = driven(&arm.cause, &shield, &symbols);
    working.step_with(words[0], &[], &format!("E_{n}"), &emf, Unit::Volt)?;
    working.step_with(words[1], &[], &format!("Z_l{n}"), &format!("{z}{more}"), Unit::Ohm)?;
    Ok(())
}

/// A one-port that has this impedance at this frequency.
fn fixed(z: Complex64, frequency: f64) -> OnePort {
    let omega = TAU * frequency;
    if z.im < 0.0 {
        OnePort::SeriesRlc { r: z.re, l: 0.0, elastance: -z.im * omega }
    } else {
        OnePort::series_rl(z.re, z.im / omega)
    }
}

impl Hum {
    /// All of it, dBu.
    pub(crate) fn level(&self) -> f64 {
        dbu(self.all)
    }
}

/// The A-weighted level of so many volts, and its distance from the signal `a_S`.
fn beside_signal(volts: f64, working: &mut Working) -> Result<[f64; 2], Fault> {
    if volts == 0.0 {
        return Ok([f64::NEG_INFINITY, f64::INFINITY]);
    }
    working.given("U_H", volts, Unit::Volt);
    let level = working.dbu("hum_a", "a_H", "U_H")?;
    let distance = working.step("signal_to_hum", "S_H", "a_S - a_H", Unit::Decibel)?;
    Ok([level, distance])
}
