//! A line as it is: what becomes of tone, noise, hum, level and supply on it, in
//! numbers.

use super::hum::{Hum, Loops};
use super::rig::{check, rig};
use crate::calculator::ground_loop::is_faulty;
use crate::calculator::level_chain::{Point, behind_the_input, points, tightest};
use crate::calculator::noise_floor::{ByPart, Floor, arriving, by_part, distances, floor};
use crate::calculator::phantom::{adaptor, voltage, whole_r};
use crate::fault::Fault;
use crate::field::Values;
use crate::field::console::console;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::lead::{LEAD_LENGTH, SHIELD_R};
use crate::field::loudspeaker::{POWER_AMPLIFIER, PowerAmplifier};
use crate::field::microphone::{MICROPHONE_CURRENT, MICROPHONE_KIND, MICROPHONE_LEAST, MicrophoneKind};
use crate::field::phantom::{CURRENT, LEAST, PHANTOM, Supply};
use crate::field::preamp::{SET_GAIN, behind};
use crate::field::question::{
    BASS, ENOUGH, HEADROOM, HUM_LEAST, LEVEL_LEAST, LOAD_RATIO, LOSS_MOST, SNR_LEAST, TREBLE, UNBALANCED_MOST,
};
use crate::field::run::{RUN, RUN_LENGTH, RUN_R, Run};
use crate::field::signal::CREST;
use crate::field::source::{SMALLEST_LOAD, SOURCE, SourceKind, emf};
use crate::field::split::SPLIT;
use crate::network::{AUDIO_BAND, BLOCK, MIDBAND, Path, ROOM, Response, band_powers, level_place, lost};
use crate::part::{Between, Chain, ChainNoise, NoiseByPoint, PhantomFeed, Rig};
use crate::quantity::Unit;
use crate::quantity::level::decibels;
use crate::report::{HEARD, RigSound};
use crate::words::Arg;
use crate::working::Working;

/// A line, solved.
pub(in crate::calculator) struct Line {
    pub rig: Rig,
    pub chain: Chain,
    /// The source with nothing connected.
    pub alone: Path,
    /// What stands at its terminals then, at 1 kHz, V.
    pub open_volts: f64,
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
    /// What the source sees at 1 kHz, Ω; and how many times its own resistance that
    /// is, where it is a resistance.
    pub load: f64,
    pub load_ratio: Option<f64>,
    /// What it is held to, in the order of the report and of its links.
    pub limits: Vec<Limit>,
}

/// How much more than the source alone the line loses at the ends of its range,
/// each re its own plateau.
pub(in crate::calculator) struct ToneLoss {
    /// Where that is, Hz.
    pub place: f64,
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
    /// It does not get to what wants it.
    Missing(Fed),
    /// It feeds something that works from `least` V on: the voltage there, V, and the
    /// share of the resistance in its way that the feed has.
    Feeds { fed: Fed, supply: Supply, volts: f64, least: f64, feed_share: f64 },
    /// It stands on a ribbon.
    OnRibbon { supply: Supply },
    /// It stands on the output of what is plugged in, of this resistance, Ω.
    OnSource { supply: Supply, volts: f64, output_r: f64 },
    /// Where it must not be: into an unbalanced run.
    Unbalanced,
    /// On a balanced output, which may bear it or not.
    OnOutput,
}

/// What phantom is to feed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::calculator) enum Fed {
    /// An active box.
    Box,
    /// A condenser microphone.
    Microphone,
}

/// What a line is held to.
pub(in crate::calculator) struct Limit {
    /// Its reading in the report.
    pub id: &'static str,
    /// What is left over the limit; nothing where there is none to keep, or no end
    /// to it.
    pub margin: Option<Margin>,
    /// Whether it makes the line one that must not be.
    pub refused: bool,
    /// Whether the report has a link to a calculator that shows its working.
    pub linked: bool,
}

impl Limit {
    fn new(id: &'static str, margin: Option<Margin>) -> Self {
        Self { id, margin, refused: false, linked: false }
    }

    fn linked(self) -> Self {
        Self { linked: true, ..self }
    }

    /// Makes the line one that must not be, if so.
    fn refused(self, refused: bool) -> Self {
        Self { refused, ..self }
    }
}

/// A limit in dB counts as no less than this.
const LEAST_LIMIT: f64 = 1.0;

/// What is left over a limit.
#[derive(Clone, Copy, Debug)]
pub(in crate::calculator) struct Margin {
    /// dB, negative where the limit is broken.
    pub left: f64,
    /// What is left re the limit: 3 dB of tone are as much as 60 dB of noise, where
    /// that is what is asked.
    pub share: f64,
    /// What is left in the unit of the limit.
    pub shown: (f64, Unit),
}

impl Margin {
    /// Of a limit in dB.
    fn decibels(left: f64, limit: f64) -> Option<Self> {
        let share = left / limit.max(LEAST_LIMIT);
        left.is_finite().then_some(Self { left, share, shown: (left, Unit::Decibel) })
    }

    /// Of a distance in dB, of which `enough` is as good as any.
    fn distance(got: f64, least: f64, enough: f64) -> Option<Self> {
        if got >= enough.max(least) { None } else { Self::decibels(got - least, least) }
    }

    /// Of what may be no more than `most`.
    fn at_most(got: f64, most: f64, unit: Unit) -> Option<Self> {
        let left = decibels(most / got);
        left.is_finite().then_some(Self { left, share: 1.0 - got / most, shown: (most - got, unit) })
    }

    /// Of what may be no less than `least`.
    fn at_least(got: f64, least: f64, unit: Unit) -> Option<Self> {
        let left = decibels(got / least);
        let share = got / least - 1.0;
        // Of a ratio that is more than was asked for, a share says how much.
        let shown = if unit == Unit::One { (share, Unit::Percent) } else { (got - least, unit) };
        left.is_finite().then_some(Self { left, share, shown })
    }
}

/// The noise of a line over the audio band, V²: by the parts that make it, and at every
/// point where that is `pictured`. What is at the end of a path is solved once for both.
fn noise(chain: &Chain, pictured: bool) -> (ByPart, NoiseByPoint) {
    let parts = |noise: &ChainNoise<BLOCK>, frequencies: &[f64; BLOCK]| -> [ByPart; BLOCK] {
        let (causes, mut parts) = (noise.by_cause(), [ByPart::default(); BLOCK]);
        for k in 0..BLOCK {
            parts[k] = by_part(&causes[k], frequencies[k]);
        }
        parts
    };
    if !pictured {
        let densities = |frequencies: &[f64; BLOCK]| parts(&chain.noise(frequencies, ROOM), frequencies);
        return (band_powers(densities, &AUDIO_BAND), UNPICTURED);
    }
    let densities = |frequencies: &[f64; BLOCK]| -> [[f64; 11]; BLOCK] {
        let noise = chain.noise(frequencies, ROOM);
        let (parts, points) = (parts(&noise, frequencies), noise.by_point());
        let mut both = [[0.0; 11]; BLOCK];
        for k in 0..BLOCK {
            let [source, passive, of_box, console, converter, weighted] = parts[k];
            let [a, b, c, d, e] = points[k].into_row();
            both[k] = [source, passive, of_box, console, converter, weighted, a, b, c, d, e];
        }
        both
    };
    let [source, passive, of_box, console, converter, weighted, points @ ..] = band_powers(densities, &AUDIO_BAND);
    ([source, passive, of_box, console, converter, weighted], NoiseByPoint::from_row(points))
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
        let (powers, noise) = noise(&chain, pictured);
        let floor = floor(working, powers)?;
        let [snr, snr_a] = distances(working)?;
        let signal = Signal { gain: through, signal, snr, snr_a };
        loops.working(values, working, &chain)?;
        let mut hum = loops.hum(&chain, working)?;
        let volts = emf(values)?;
        hum.amplifier = loops.in_amplifier(&rig, &chain).map(|distance| distance + decibels(volts));
        working.given("c", values.number(CREST)?, Unit::Decibel);
        let mut points = points(values, working, &chain, noise)?;
        // A gain that follows from the headroom keeps it.
        if values.optional(SET_GAIN)?.is_some() {
            working.given("g", gain, Unit::Decibel);
            behind_the_input(values, working, &mut points, gain, full_scale)?;
        }
        let (tightest, margin) = tightest(&points);
        let phantom = phantom(values, working, &chain)?;
        let margin = margin.unwrap_or(f64::NAN);
        let open_volts = emf(values)? * alone.transfer(MIDBAND).norm();
        let load = chain.first.looking_on(chain.at_source, MIDBAND).norm();
        let source_r = alone.output_impedance(MIDBAND).norm();
        let load_ratio = values.choice(SOURCE)?.is_resistive().then_some(load / source_r);
        let mut line = Self {
            rig,
            chain,
            alone,
            open_volts,
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
            load,
            load_ratio,
            limits: vec![],
        };
        line.limits = line.held(values)?;
        Ok(line)
    }

    /// How much more than the source alone the line loses at a frequency in Hz,
    /// each re its own plateau, dB.
    pub(crate) fn loss(&self, frequency: f64) -> f64 {
        lost(&self.alone, &self.chain, self.tone.place, frequency)
    }

    /// What can be heard of it beside its response.
    pub(crate) fn sound(&self) -> RigSound {
        RigSound {
            hum: self.loops.lines(&self.chain, self.signal.signal),
            noise: Some(-self.signal.snr),
            headroom: Some(self.margin),
        }
    }

    /// Whether it is a case for an electrician first.
    pub(crate) fn must_stop(&self) -> bool {
        self.is_faulty_at(self.hum.most)
    }

    /// The same whatever connects the source: by the earths and the leakage alone.
    pub(crate) fn is_faulty(&self) -> bool {
        self.is_faulty_at(0.0)
    }

    fn is_faulty_at(&self, current: f64) -> bool {
        let star = &self.loops.star;
        let arms = [star.source, star.amplifier, star.second.map(|second| second.arm)].into_iter().flatten();
        arms.into_iter().any(|arm| is_faulty(&arm.cause, &self.loops.spectrum, current))
    }

    fn held(&self, values: &Values) -> Result<Vec<Limit>, Fault> {
        let (most, snr, enough) = (values.number(LOSS_MOST)?, values.number(SNR_LEAST)?, values.number(ENOUGH)?);
        let (hum, headroom) = (values.number(HUM_LEAST)?, values.number(HEADROOM)?);
        let tone = if self.tone.bass > self.tone.treble { "loss_bass" } else { "loss" };
        let amplifier = self.hum.amplifier.and_then(|distance| Margin::distance(distance, hum, enough));
        let level =
            values.optional(LEVEL_LEAST)?.and_then(|least| Margin::decibels(self.signal.signal - least, BY_GAIN));
        let mut limits = Vec::new();
        // What must not be for safety's sake goes before all that is told of sound.
        if values.choice(SOURCE)? == SourceKind::Loudspeaker {
            limits.push(Limit::new("bridged", None).refused(shorts_bridge(values)?));
            limits.push(Limit::new("bare_terminals", None).refused(values.choice(BOX)? == BoxKind::None));
        }
        limits.extend([
            Limit::new(tone, Margin::decibels(most - self.tone.worse.0, most).filter(|_| self.tone.worse.0 >= HEARD))
                .linked(),
            Limit::new("snr", Margin::distance(self.signal.snr, snr, enough)).linked(),
            Limit::new("signal_to_hum", Margin::distance(self.hum.distance, hum, enough)).linked(),
            Limit::new("margin", Margin::decibels(self.margin - headroom, headroom))
                .linked()
                .refused(self.margin < 0.0),
            Limit::new("level", level),
        ]);
        if self.hum.amplifier.is_some() {
            limits.push(Limit::new("amplifier_hum", amplifier));
        }
        if let (Some(length), Some(most)) = (self.unbalanced(), values.optional(UNBALANCED_MOST)?) {
            limits.push(Limit::new("unbalanced", Margin::at_most(length, most, Unit::Metre)));
        }
        if let Some(ratio) = self.load_ratio {
            let least = values.number(LOAD_RATIO)?;
            limits.push(Limit::new("load_ratio", Margin::at_least(ratio, least, Unit::One)));
        }
        if let Some(least) = values.optional(SMALLEST_LOAD)? {
            limits.push(Limit::new("impedance", Margin::at_least(self.load, least, Unit::Ohm)));
        }
        if self.phantom_meets_phantom(values)? {
            limits.push(Limit::new("phantom_twice", None).refused(true));
        }
        let supply = |id, refused| Limit::new(id, None).linked().refused(refused);
        match self.phantom {
            Phantom::Missing(_) => limits.push(supply("supply", true)),
            Phantom::Feeds { volts, least, .. } => limits.push(supply("supply", volts < least)),
            Phantom::OnSource { .. } => limits.push(supply("supply_on_source", true)),
            Phantom::OnRibbon { .. } => limits.push(Limit::new("phantom_on_ribbon", None).refused(true)),
            Phantom::Idle | Phantom::Unbalanced | Phantom::OnOutput => {}
        }
        Ok(limits)
    }

    /// Whether a lead joins the phantom of two consoles, of which one has to be on.
    fn phantom_meets_phantom(&self, values: &Values) -> Result<bool, Fault> {
        let joined = self.rig.between == Between::Nothing && values.choice(SPLIT)?.is_joined();
        Ok(joined && matches!(self.phantom, Phantom::Feeds { fed: Fed::Microphone, .. }))
    }

    /// How much unbalanced line lies before the console, m: a lead to a box is judged
    /// by its tone, noise and hum.
    pub(crate) fn unbalanced(&self) -> Option<f64> {
        let [lead, run] = self.loops.unbalanced;
        let length = match self.rig.between {
            Between::Nothing => lead + run,
            Between::Passive(_) | Between::Active(_) => run,
        };
        (length > 0.0).then_some(length)
    }
}

/// Whether something other than a transformer ties one of the two live outputs of
/// a bridged amplifier to a ground.
pub(super) fn shorts_bridge(values: &Values) -> Result<bool, Fault> {
    let apart = values.choice(BOX)? == BoxKind::Passive && values.choice(GROUND)? == Ground::Lifted;
    Ok(values.choice(POWER_AMPLIFIER)? == PowerAmplifier::Bridged && !apart)
}

fn tone(values: &Values, working: &mut Working, alone: &Path, chain: &Chain) -> Result<ToneLoss, Fault> {
    let (f_treble, f_bass) = (values.number(TREBLE)?, values.number(BASS)?);
    let place = level_place(chain);
    let [treble, bass] = [f_treble, f_bass].map(|frequency| lost(alone, chain, place, frequency));
    let worse = if bass > treble { (bass, f_bass) } else { (treble, f_treble) };
    if working.is_wanted() {
        tone_at(working, [alone, chain], place, f_bass, "a_B")?;
        tone_at(working, [alone, chain], place, f_treble, "a_T")?;
    }
    Ok(ToneLoss { place, treble, bass, worse })
}

/// The working of what the second loses more than the first at `f` Hz, each re its plateau
/// at `place` Hz.
fn tone_at(
    working: &mut Working,
    [alone, chain]: [&dyn Response; 2],
    place: f64,
    f: f64,
    symbol: &str,
) -> Result<(), Fault> {
    for (name, level) in
        [("a_a", alone.level(f)), ("a_ap", alone.level(place)), ("a_l", chain.level(f)), ("a_lp", chain.level(place))]
    {
        working.given(name, level, Unit::Decibel);
    }
    let at = [("f", Arg::Entry(f, Unit::Hertz)), ("place", Arg::Quantity(place, Unit::Hertz))];
    working.step_with("loss_step", &at, symbol, "(a_a - a_ap) - (a_l - a_lp)", Unit::Decibel).map(drop)
}

fn phantom(values: &Values, working: &mut Working, chain: &Chain) -> Result<Phantom, Fault> {
    let (boxed, source) = (values.choice(BOX)?, values.choice(SOURCE)?);
    let microphone = if source == SourceKind::Microphone { Some(values.choice(MICROPHONE_KIND)?) } else { None };
    let fed = match microphone {
        // A box eats the phantom, and passes none on.
        Some(MicrophoneKind::Condenser) => Some(Fed::Microphone),
        _ if boxed == BoxKind::Active && values.choice(POWERED)? == BoxSupply::Phantom => Some(Fed::Box),
        _ => None,
    };
    let supply = values.choice(PHANTOM)?.supply();
    if let Some(fed) = fed {
        let through = fed == Fed::Box || boxed == BoxKind::None && values.choice(RUN)? == Run::Balanced;
        return Ok(match supply.filter(|_| through) {
            None => Phantom::Missing(fed),
            Some(supply) => feeds(values, working, fed, supply)?,
        });
    }
    let Some(supply) = supply else { return Ok(Phantom::Idle) };
    if boxed == BoxKind::None && !source.is_balanced() {
        let output_r = chain.last().looking_back(chain.before_run, DIRECT).norm();
        givens(values, working, supply)?;
        let volts = adaptor(working, Some(output_r))?.voltage;
        return Ok(Phantom::OnSource { supply, volts, output_r });
    }
    let bare = boxed == BoxKind::None;
    Ok(match values.choice(RUN)? {
        Run::Unbalanced => Phantom::Unbalanced,
        Run::Balanced if bare && source == SourceKind::Balanced => Phantom::OnOutput,
        Run::Balanced if bare && microphone == Some(MicrophoneKind::Ribbon) => Phantom::OnRibbon { supply },
        Run::Balanced => Phantom::Idle,
    })
}

fn feeds(values: &Values, working: &mut Working, fed: Fed, supply: Supply) -> Result<Phantom, Fault> {
    let (current, least) = match fed {
        Fed::Box => (CURRENT, LEAST),
        Fed::Microphone => (MICROPHONE_CURRENT, MICROPHONE_LEAST),
    };
    givens(values, working, supply)?;
    if fed == Fed::Microphone {
        let length = values.number(LEAD_LENGTH)? + values.number(RUN_LENGTH)?;
        working.given("l", length, Unit::Metre);
    }
    working.given("I_D", values.number(current)?, Unit::Ampere);
    working.given("I_2", 0.0, Unit::Ampere);
    whole_r(working, PhantomFeed { legs: 2.0 })?;
    let volts = voltage(working)?.max(0.0);
    let feed_share = working.step("feed_share", "q", "R_F/2/R", Unit::Percent)?;
    Ok(Phantom::Feeds { fed, supply, volts, least: values.number(least)?, feed_share })
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

/// A gain that is no small matter, dB: what a level misses is weighed by it.
pub(crate) const BY_GAIN: f64 = 20.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a limit of 2 dB a half is left with 1 dB; one of less than 1 dB counts as
    /// 1 dB.
    #[test]
    fn shares_of_limits() {
        for (left, limit, share) in [(1.0, 2.0, 0.5), (0.3, 1.01, 0.3 / 1.01), (0.3, 0.99, 0.3), (0.3, 0.0, 0.3)] {
            let margin = Margin::decibels(left, limit).unwrap();
            assert!((margin.share - share).abs() < 1e-12, "{left} of {limit}");
        }
    }

    /// 10 m where 5 m are allowed: twice too much, 6.02 dB; four times where five are
    /// wanted: a fifth too little, 1.94 dB. By definition of the decibel.
    #[test]
    fn lengths_and_ratios() {
        let length = Margin::at_most(10.0, 5.0, Unit::Metre).unwrap();
        assert!((length.left + 6.0206).abs() < 1e-4 && length.share == -1.0 && length.shown.0 == -5.0);
        let ratio = Margin::at_least(4.0, 5.0, Unit::One).unwrap();
        assert!((ratio.left + 1.9382).abs() < 1e-4 && (ratio.share + 0.2).abs() < 1e-12);
    }

    /// 80 dB and more of distance are all the same, unless more is asked.
    #[test]
    fn enough_is_enough() {
        assert!(Margin::distance(81.0, 60.0, 80.0).is_none());
        assert!(Margin::distance(79.0, 60.0, 80.0).is_some());
        assert!(Margin::distance(81.0, 90.0, 80.0).is_some_and(|margin| margin.left == -9.0));
    }
}
