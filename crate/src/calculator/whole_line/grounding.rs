//! What the ground map of a stage has to know of a line: how it joins earths, and what
//! becomes of a voltage along it. It is all of the whole line's own solution, so that
//! the map of one line says what the line says.

use super::hum::{Loops, RunConnection};
use super::rig::{check, rig};
use crate::Complex64;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::console::console;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, LIFTED_SUPPLY, LiftedSupply, POWERED};
use crate::field::earth::LOOP_L;
use crate::field::lead::shield;
use crate::field::mains::mains;
use crate::field::microphone::{MICROPHONE_KIND, MicrophoneKind};
use crate::field::question::HUM_LEAST;
use crate::field::run::{RUN, RUN_LENGTH, Run};
use crate::field::source::{SOURCE, SourceKind, emf};
use crate::field::thru::THRU_LENGTH;
use crate::field::transformer::WINDING_C;
use crate::network::{MIDBAND, OnePort};
use crate::part::{Chain, Drive, Rig};
use crate::working::Working;

/// How a line joins earths; sizes by component of the mains in the order asked for.
pub(crate) struct Grounding {
    /// Whether the mains may feed its source.
    pub has_supply: bool,
    /// Whether that is on an earth, or leaks.
    pub is_driven: bool,
    /// Whether a box is in it.
    pub is_boxed: bool,
    /// Of each of its leads that closes a loop, H.
    pub inductance: f64,
    pub lead: GroundingLead,
    /// The lead from a box to what its thru feeds.
    pub thru: GroundingLead,
    /// Of the shield of a lead to a second console, Ω.
    pub split_r: f64,
    pub run: GroundingRun,
    pub means: Means,
    /// At the console's input from the mains around the leads, V.
    pub stray: Vec<f64>,
    /// At the console's input and at that of an amplifier on the thru, V.
    pub signal: [f64; 2],
    /// The least distance of these from hum, A-weighted, dB.
    pub hum_least: f64,
}

/// An unbalanced lead of a line.
pub(crate) struct GroundingLead {
    /// Of its shield and contacts, Ω.
    pub r: f64,
    /// What becomes of a voltage in series with it at its input; nothing where it is in
    /// series with no signal.
    pub transfer: Option<Vec<f64>>,
}

/// The run of a line.
pub(crate) struct GroundingRun {
    /// Of its shield and contacts, Ω.
    pub r: f64,
    pub pin_1_r: f64,
    pub kind: RunKind,
    /// Whether nothing metallic joins its ends as it stands.
    pub is_isolated: bool,
    /// What becomes of a voltage in series with it at the console's input.
    pub transfer: Vec<f64>,
}

/// What a run is, and what is left of it once it is isolated.
pub(crate) enum RunKind {
    /// The shield is the return of the signal.
    Unbalanced {
        /// Across the transformer that isolates it, F.
        capacitance: f64,
        /// What the current through that shares with the signal, Ω.
        circuit_r: f64,
    },
    /// Two legs.
    Balanced {
        /// What they leave of the voltage between the earths, re that.
        error: Vec<f64>,
        /// With the shield open: what joins the earths, Ω, and what is left then.
        open: (Vec<Complex64>, Vec<f64>),
    },
}

/// By what a run can be isolated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Means {
    /// By the ground lift of the box that is there.
    Lift,
    /// By an isolator that is put into it.
    Isolator,
    /// By nothing: it would cut the phantom that something needs.
    Nothing,
}

impl Grounding {
    /// Of a line, with the components of the mains of these orders.
    pub(crate) fn of(values: &Values, orders: &[u32]) -> Result<Self, Fault> {
        check(values)?;
        let mut working = Working::new("whole-line", false);
        let console = console(values, false, &mut working)?;
        let rig = rig(values, &mut working, console)?;
        let chain = rig.chain();
        let loops = Loops::new(values, &chain)?;
        let mains = mains(values)?;
        let frequencies: Vec<_> = orders.iter().map(|order| mains * f64::from(*order)).collect();
        let by_order = |size: &dyn Fn(f64) -> f64| frequencies.iter().map(|f| size(*f)).collect::<Vec<_>>();
        let lead = by_order(&|f| chain.transfer_of_lead(f).norm());
        let at_thru = |f: f64| rig.at_thru(&chain, f).unwrap_or_default();
        let volts = emf(values)?;
        Ok(Self {
            has_supply: values.choice(SOURCE)?.has_supply(),
            is_driven: loops.star.source.is_some(),
            is_boxed: values.choice(BOX)? != BoxKind::None,
            inductance: values.number(LOOP_L)?,
            lead: GroundingLead { r: loops.lead_shield_r, transfer: loops.in_lead.then_some(lead) },
            thru: GroundingLead {
                r: shield(values, values.number(THRU_LENGTH)?)?,
                transfer: Some(by_order(&|f| at_thru(f)[0])),
            },
            split_r: shield(values, values.number(RUN_LENGTH)?)?,
            run: run(values, &loops, &chain, &frequencies)?,
            means: means(values)?,
            stray: loops.strays(&chain, orders),
            signal: [volts * chain.transfer(MIDBAND).norm(), volts * signal_at_thru(&rig, &chain)],
            hum_least: values.number(HUM_LEAST)?,
        })
    }
}

fn signal_at_thru(rig: &Rig, chain: &Chain) -> f64 {
    rig.at_thru(chain, MIDBAND).map_or(0.0, |[_, signal]| signal)
}

fn run(values: &Values, loops: &Loops, chain: &Chain, frequencies: &[f64]) -> Result<GroundingRun, Fault> {
    let lifted = values.choice(BOX)? != BoxKind::None && values.choice(GROUND)? == Ground::Lifted;
    let kind = match &loops.run {
        RunConnection::Unbalanced | RunConnection::Isolated { .. } => {
            RunKind::Unbalanced { capacitance: values.number(WINDING_C)?, circuit_r: chain.circuit_r() }
        }
        RunConnection::Balanced { drive, .. } => {
            // An isolator that is put into it floats, as the winding of a box does.
            let isolator = Drive::Floating(OnePort::capacitor(values.number(WINDING_C)?));
            let is_bare = values.choice(BOX)? == BoxKind::None;
            let legs = |drive: &Drive| {
                let line = |f: &f64| loops.line_driven(drive, chain, *f).map(|(line, _)| (line, *f));
                frequencies.iter().filter_map(line).collect::<Vec<_>>()
            };
            let open = legs(if is_bare { &isolator } else { drive });
            let (z, left) = open.iter().map(|(line, f)| (line.common_mode(*f), line.at(*f).error)).unzip();
            RunKind::Balanced {
                error: legs(drive).iter().map(|(line, f)| line.at(*f).error).collect(),
                open: (z, left),
            }
        }
    };
    let is_isolated = match &loops.run {
        RunConnection::Unbalanced => false,
        RunConnection::Isolated { .. } => true,
        RunConnection::Balanced { .. } => lifted,
    };
    let transfer = |f: &f64| chain.last().transfer_behind(chain.before_run, *f).norm();
    let transfer = frequencies.iter().map(transfer).collect();
    let pin_1_r = if matches!(kind, RunKind::Balanced { .. }) { loops.pin_1_r } else { 0.0 };
    Ok(GroundingRun { r: loops.run_r, pin_1_r, kind, is_isolated, transfer })
}

/// By what the run can be isolated.
fn means(values: &Values) -> Result<Means, Fault> {
    let condenser = values.choice(SOURCE)? == SourceKind::Microphone
        && values.choice(MICROPHONE_KIND)? == MicrophoneKind::Condenser;
    let starves = values.choice(POWERED)? == BoxSupply::Phantom && values.choice(LIFTED_SUPPLY)? == LiftedSupply::Lost;
    Ok(match (values.choice(BOX)?, values.choice(RUN)?) {
        (BoxKind::Active, Run::Balanced) if starves => Means::Nothing,
        (BoxKind::Passive, _) | (BoxKind::Active, Run::Balanced) => Means::Lift,
        (BoxKind::None, Run::Balanced) if condenser => Means::Nothing,
        (BoxKind::None, _) | (BoxKind::Active, Run::Unbalanced) => Means::Isolator,
    })
}
