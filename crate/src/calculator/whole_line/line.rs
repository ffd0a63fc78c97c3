//! A line as it is: what becomes of tone, noise, hum, level and supply on it, in
//! numbers.

use super::hum::{Hum, Loops};
use super::rig::{check, rig};
use crate::calculator::ground_loop::is_faulty;
use crate::calculator::level_chain::{Point, behind_the_input, noise_by_point, points, tightest};
use crate::calculator::noise_floor::{Floor, arriving, distances, floor};
use crate::calculator::phantom::{adaptor, voltage, whole_r};
use crate::fault::Fault;
use crate::field::Values;
use crate::field::console::console;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, POWERED};
use crate::field::lead::SHIELD_R;
use crate::field::phantom::{CURRENT, LEAST, PHANTOM, Supply};
use crate::field::preamp::{SET_GAIN, behind};
use crate::field::question::{BASS, HEADROOM, HUM_LEAST, LOSS_MOST, SNR_LEAST, TREBLE};
use crate::field::run::{RUN, RUN_LENGTH, RUN_R, Run};
use crate::field::signal::CREST;
use crate::field::source::{SOURCE, SourceKind, emf};
use crate::network::{AUDIO_BAND, MIDBAND, Path, ROOM, Response as _};
use crate::part::{Chain, NoiseByPoint, PhantomFeed, Rig};
use crate::quantity::Unit;
use crate::words::Arg;
use crate::working::Working;

/// A line, solved.
pub(in crate::calculator) struct Line {
    pub rig: Rig,
    pub chain: Chain,
    /// The source with nothing connected.
    pub alone: Path,
    pub tone: ToneLoss,
    pub floor: Floor,
    pub signal: Signal,
    /// Of the console's input, dB: what is set, or what keeps the headroom.
    pub gain: f64,
    pub loops: Loops,
    pub hum: Hum,
    pub points: Vec<Point>,
    /// The point with the least margin, and that margin, dB.
    pub tightest: &'static str,
    pub margin: f64,
    pub phantom: Phantom,
    /// What it is held to, in the order of the report and of its links.
    pub limits: Vec<Limit>,
}

/// How much more than the source alone the line loses at the ends of its range,
/// each re its own level at 1 kHz.
pub(in crate::calculator) struct ToneLoss {
    /// At the treble, dB.
    pub treble: f64,
    /// At the bass, dB.
    pub bass: f64,
    /// The greater of them, dB, and its frequency, Hz.
    pub worse: (f64, f64),
}

/// The signal at the console's input and its distance from noise.
pub(in crate::calculator) struct Signal {
    /// From the e.m.f. to there, dB.
    pub gain: f64,
    /// dBu.
    pub signal: f64,
    /// dB.
    pub snr: f64,
    /// From A-weighted noise, dB.
    pub snr_a: f64,
}

/// What phantom does on a line.
pub(in crate::calculator) enum Phantom {
    /// Nothing.
    Idle,
    /// It is off, and the box wants it.
    Missing,
    /// It feeds a box: the voltage there, V, and the share of the resistance in
    /// its way that the feed has.
    Feeds { supply: Supply, volts: f64, feed_share: f64 },
    /// It stands on the output of what is plugged in, of this resistance, Ω.
    OnSource { supply: Supply, volts: f64, output_r: f64 },
    /// Where it must not be: into an unbalanced run.
    Unbalanced,
    /// On a balanced output, which may bear it or not.
    OnOutput,
}

/// What a line is held to.
pub(in crate::calculator) struct Limit {
    /// Its reading in the report.
    pub id: &'static str,
    /// What is left over the limit, dB; nothing where there is none to keep, or
    /// no end to it.
    pub margin: Option<Margin>,
    /// Whether it makes the line one that must not be.
    pub refused: bool,
}

/// A limit counts as no less than this, dB.
const LEAST_LIMIT: f64 = 1.0;

/// What is left over a limit.
#[derive(Clone, Copy, Debug)]
pub(in crate::calculator) struct Margin {
    /// dB, negative where the limit is broken.
    pub left: f64,
    /// The limit, dB.
    pub limit: f64,
}

impl Margin {
    fn new(left: f64, limit: f64) -> Option<Self> {
        left.is_finite().then_some(Self { left, limit })
    }

    /// What is left re the limit: 3 dB of tone are as much as 60 dB of noise,
    /// where that is what is asked.
    pub(crate) fn share(self) -> f64 {
        self.left / self.limit.max(LEAST_LIMIT)
    }
}

/// Noise that nobody looks at.
const UNPICTURED: NoiseByPoint = NoiseByPoint {
    source: f64::NAN,
    box_input: f64::NAN,
    box_output: f64::NAN,
    before_pad: f64::NAN,
    console: f64::NAN,
};

impl Line {
    /// Solves a line. The noise at every point, for a picture of them, is computed
    /// only where it is `pictured`.
    pub(crate) fn solve(values: &Values, working: &mut Working, pictured: bool) -> Result<Self, Fault> {
        check(values)?;
        let console = console(values, false, working)?;
        let rig = rig(values, working, console)?;
        let mut chain = rig.chain();
        let loops = Loops::new(values, &chain)?;
        let alone = rig.source.clone();
        let tone = tone(values, working, &alone, &chain)?;
        let [through, signal] = arriving(working, &chain, emf(values)?)?;
        chain.behind = behind(values, working)?;
        let [gain, full_scale] = ["g_K", "a_FS"].map(|symbol| working.value_of(symbol).re);
        let floor = floor(working, &chain, ROOM, &AUDIO_BAND)?;
        let [snr, snr_a] = distances(working)?;
        let signal = Signal { gain: through, signal, snr, snr_a };
        loops.working(values, working, &chain)?;
        let hum = loops.hum(&chain, working)?;
        working.given("c", values.number(CREST)?, Unit::Decibel);
        let noise = if pictured { noise_by_point(&chain) } else { UNPICTURED };
        let mut points = points(values, working, &chain, noise)?;
        // A gain that follows from the headroom keeps it.
        if values.optional(SET_GAIN)?.is_some() {
            working.given("g", gain, Unit::Decibel);
            behind_the_input(values, working, &mut points, gain, full_scale)?;
        }
        let (tightest, margin) = tightest(&points);
        let phantom = phantom(values, working, &chain)?;
        let margin = margin.unwrap_or(f64::NAN);
        let mut line = Self {
            rig,
            chain,
            alone,
            tone,
            floor,
            signal,
            gain,
            loops,
            hum,
            points,
            tightest,
            margin,
            phantom,
            limits: vec![],
        };
        line.limits = line.held(values)?;
        Ok(line)
    }

    /// How much more than the source alone the line loses at a frequency in Hz,
    /// each re its own level at 1 kHz, dB.
    pub(crate) fn loss(&self, frequency: f64) -> f64 {
        lost(&self.alone, &self.chain, frequency)
    }

    /// Whether it is a case for an electrician first.
    pub(crate) fn must_stop(&self) -> bool {
        let arms = [self.loops.star.source, self.loops.star.amplifier].into_iter().flatten();
        arms.into_iter().any(|arm| is_faulty(&arm.cause, &self.loops.spectrum, self.hum.current))
    }

    fn held(&self, values: &Values) -> Result<Vec<Limit>, Fault> {
        let limit = |id, left, limit| Limit { id, margin: Margin::new(left, limit), refused: false };
        let (most, snr) = (values.number(LOSS_MOST)?, values.number(SNR_LEAST)?);
        let (hum, headroom) = (values.number(HUM_LEAST)?, values.number(HEADROOM)?);
        let tone = if self.tone.bass > self.tone.treble { "loss_bass" } else { "loss" };
        let mut limits = vec![
            limit(tone, most - self.tone.worse.0, most),
            limit("snr", self.signal.snr - snr, snr),
            limit("signal_to_hum", self.hum.distance - hum, hum),
            Limit { refused: self.margin < 0.0, ..limit("margin", self.margin - headroom, headroom) },
        ];
        let supply = |id, refused| Limit { id, margin: None, refused };
        match self.phantom {
            Phantom::Missing => limits.push(supply("supply", true)),
            Phantom::Feeds { volts, .. } => limits.push(supply("supply", volts < values.number(LEAST)?)),
            Phantom::OnSource { .. } => limits.push(supply("supply_on_source", true)),
            Phantom::Idle | Phantom::Unbalanced | Phantom::OnOutput => {}
        }
        Ok(limits)
    }
}

/// How much more than the source alone a chain loses at a frequency in Hz, each re
/// its own level at 1 kHz, dB.
pub(super) fn lost(alone: &Path, chain: &Chain, frequency: f64) -> f64 {
    alone.level(frequency) - alone.level(MIDBAND) - chain.level(frequency) + chain.level(MIDBAND)
}

fn tone(values: &Values, working: &mut Working, alone: &Path, chain: &Chain) -> Result<ToneLoss, Fault> {
    let (f_treble, f_bass) = (values.number(TREBLE)?, values.number(BASS)?);
    let (treble, bass) = (lost(alone, chain, f_treble), lost(alone, chain, f_bass));
    let worse = if bass > treble { (bass, f_bass) } else { (treble, f_treble) };
    if working.is_wanted() {
        tone_at(working, alone, chain, f_bass, "a_B")?;
        tone_at(working, alone, chain, f_treble, "a_T")?;
    }
    Ok(ToneLoss { treble, bass, worse })
}

/// The working of what is lost at a frequency in Hz.
fn tone_at(working: &mut Working, alone: &Path, chain: &Chain, f: f64, symbol: &str) -> Result<(), Fault> {
    for (name, transfer) in [
        ("H_a", alone.transfer(f)),
        ("H_a1", alone.transfer(MIDBAND)),
        ("H_l", chain.transfer(f)),
        ("H_l1", chain.transfer(MIDBAND)),
    ] {
        working.given(name, transfer, Unit::One);
    }
    let formula = "20*log10(abs(H_a/H_a1)) - 20*log10(abs(H_l/H_l1))";
    working.step_with("loss_step", &[("f", Arg::Quantity(f, Unit::Hertz))], symbol, formula, Unit::Decibel).map(drop)
}

fn phantom(values: &Values, working: &mut Working, chain: &Chain) -> Result<Phantom, Fault> {
    let boxed = values.choice(BOX)?;
    let fed = boxed == BoxKind::Active && values.choice(POWERED)? == BoxSupply::Phantom;
    let Some(supply) = values.choice(PHANTOM)?.supply() else {
        return Ok(if fed { Phantom::Missing } else { Phantom::Idle });
    };
    if fed {
        givens(values, working, supply)?;
        working.given("I_D", values.number(CURRENT)?, Unit::Ampere);
        working.given("I_2", 0.0, Unit::Ampere);
        whole_r(working, PhantomFeed { legs: 2.0 })?;
        let volts = voltage(working)?.max(0.0);
        let feed_share = working.step("feed_share", "q", "R_F/2/R", Unit::Percent)?;
        return Ok(Phantom::Feeds { supply, volts, feed_share });
    }
    let source = values.choice(SOURCE)?;
    if boxed == BoxKind::None && !source.is_balanced() {
        let output_r = chain.last().looking_back(chain.before_run, DIRECT).norm();
        givens(values, working, supply)?;
        let volts = adaptor(working, Some(output_r))?.voltage;
        return Ok(Phantom::OnSource { supply, volts, output_r });
    }
    let on_output = boxed == BoxKind::None && source == SourceKind::Balanced;
    Ok(match values.choice(RUN)? {
        Run::Unbalanced => Phantom::Unbalanced,
        Run::Balanced if on_output => Phantom::OnOutput,
        Run::Balanced => Phantom::Idle,
    })
}

/// As good as direct current, Hz: what has any capacitance in its way passes none.
const DIRECT: f64 = 1e-9;

/// What the formulas of a feed through the run begin with.
pub(super) fn givens(values: &Values, working: &mut Working, supply: Supply) -> Result<(), Fault> {
    let supply = supply.values();
    working.given("U_P", supply.volts, Unit::Volt);
    working.given("R_F", supply.feed_r, Unit::Ohm);
    working.given("R′_k", values.number(RUN_R)? / 2.0, Unit::OhmPerMetre);
    working.given("R′_sh", values.number(SHIELD_R)?, Unit::OhmPerMetre);
    working.given("l", values.number(RUN_LENGTH)?, Unit::Metre);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a limit of 2 dB a half is left with 1 dB; one of less than 1 dB counts as
    /// 1 dB.
    #[test]
    fn shares_of_limits() {
        for (left, limit, share) in [(1.0, 2.0, 0.5), (0.3, 1.01, 0.3 / 1.01), (0.3, 0.99, 0.3), (0.3, 0.0, 0.3)] {
            assert!((Margin { left, limit }.share() - share).abs() < 1e-12, "{left} of {limit}");
        }
    }
}
