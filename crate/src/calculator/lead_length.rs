//! Lead and line length: how far a source can be from its input before its
//! lead is heard.
//!
//! The lead is an exact uniform line (chain matrix: D. M. Pozar, Microwave
//! Engineering). Its loss is its insertion loss: the level without the lead over
//! the level with it. The loss of a long line rises and falls with length, so
//! the longest length is where it first reaches what is accepted.

use super::{pickup, source_load};
use crate::calculator::{Calculator, Keeps, Preset};
use crate::catalogue::typical::{self, BALANCED_LINE, INSTRUMENT_LEAD};
use crate::fault::Fault;
use crate::field::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, LONGEST_LEAD};
use crate::field::load::{LOAD_C, LOAD_R};
use crate::field::pickup::{COIL_C, COIL_L, COIL_R, TONE, TONE_C, TONE_R, ToneKind, VOLUME, VOLUME_R, VolumeKind};
use crate::field::question::{FREQUENCY, LIMIT, TREBLE};
use crate::field::source::{SOURCE_C, SOURCE_R};
use crate::field::{ChoiceField, Field, Values, choice};
use crate::network::{BeforeLoad, Features, OnePort, Path, features, log_sweep, slope};
use crate::numeric::bracketed_root;
use crate::part::{Coils, Lead, Pickup, Pot, Taper, ToneControl};
use crate::quantity::Unit;
use crate::report::{Drawn, HEARD, Sheet, Tone, span, treble, way};
use crate::words::Arg;
use std::cell::RefCell;

/// A source resistance times the capacitance of a metre, s/m, under which nobody
/// needs an estimate: no lead on earth would be long enough.
const LEAST_DELAY: f64 = 1e-30;

choice! {
    /// What the lead comes from.
    pub(crate) enum LeadSource {
        /// A passive pickup.
        Pickup = "pickup",
        /// An unbalanced output.
        Unbalanced = "unbalanced",
        /// A balanced output.
        Balanced = "balanced",
    }
}

const PICKUP: &[&str] = &[LeadSource::Pickup.id()];
const ACTIVE: &[&str] = &[LeadSource::Unbalanced.id(), LeadSource::Balanced.id()];
const UNBALANCED: &[&str] = &[LeadSource::Pickup.id(), LeadSource::Unbalanced.id()];
const BALANCED: &[&str] = &[LeadSource::Balanced.id()];

/// What the lead comes from.
pub(crate) const SOURCE: ChoiceField<LeadSource> = LeadSource::field("source", LeadSource::Pickup).at("source");
/// Between the two cores of a screened pair, F/m.
const CORE_C: Field = Field::number("core_c", "C′_cc", Unit::FaradPerMetre, 50e-12, (45e-12, 110e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .marks(typical::CORE_C)
    .when(SOURCE, BALANCED)
    .at("lead");
/// From one core of a screened pair to its shield, F/m.
const SHIELD_C: Field = Field::number("shield_c", "C′_cs", Unit::FaradPerMetre, 100e-12, (0.0, 220e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .when(SOURCE, BALANCED)
    .at("lead");
/// Input resistance that a pickup meets, Ω.
const INSTRUMENT_R: Field = LOAD_R.named("instrument_r", "R_I").starting(1e6).when(SOURCE, PICKUP);
/// Where the resonance of a pickup has to stay above, Hz.
const RESONANCE_LEAST: Field = Field::number("resonance_least", "f_min", Unit::Hertz, 3e3, (1.5e3, 6e3))
    .limits(20.0, 100e3)
    .when(SOURCE, PICKUP)
    .at("question");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "lead-length",
    fields: &[
        SOURCE.field(),
        SOURCE_R.when(SOURCE, ACTIVE),
        COIL_L.when(SOURCE, PICKUP),
        COIL_R.when(SOURCE, PICKUP).detail(),
        COIL_C.when(SOURCE, PICKUP).detail(),
        VOLUME_R.optional().when(SOURCE, PICKUP).at("source"),
        TONE_R.when(SOURCE, PICKUP).at("source"),
        TONE_C.optional().when(SOURCE, PICKUP).at("source"),
        LEAD_LENGTH.usual(0.5, 1000.0),
        LEAD_C.when(SOURCE, UNBALANCED),
        CORE_C,
        SHIELD_C,
        LEAD_R,
        LEAD_L,
        INSTRUMENT_R,
        LOAD_R.when(SOURCE, ACTIVE),
        LOAD_C,
        RESONANCE_LEAST,
        LIMIT.starting(1.0).limits(1e-3, 40.0),
        TREBLE.named("treble", "f").usual(1e3, 10e3).limits(20.0, 100e3).when(SOURCE, PICKUP),
        FREQUENCY.starting(20e3).usual(5e3, 40e3).limits(20.0, 100e3).when(SOURCE, ACTIVE),
    ],
    first: &[SOURCE.id(), LEAD_LENGTH.id],
    presets: &[
        Preset {
            id: "guitar",
            values: &[LEAD_LENGTH.typed("6 m")],
            held: &[&[LEAD_LENGTH.typed("3 m")], &[LEAD_LENGTH.typed("10 m")], &[LEAD_LENGTH.typed("15 m")]],
        },
        Preset {
            id: "keys",
            values: &[LeadSource::Unbalanced.to(SOURCE), SOURCE_R.typed("1k"), LEAD_LENGTH.typed("6 m")],
            held: &[],
        },
        Preset {
            id: "multicore",
            values: &[
                LeadSource::Balanced.to(SOURCE),
                LEAD_LENGTH.typed("75 m"),
                LOAD_R.typed("1.5k"),
                CORE_C.typed("60 pF/m"),
                SHIELD_C.typed("110 pF/m"),
            ],
            held: &[],
        },
        Preset { id: "landline", values: &[LeadSource::Balanced.to(SOURCE), LEAD_LENGTH.typed("600 m")], held: &[] },
    ],
    solve,
    keeps: Keeps::Nothing,
};

/// A source, its lead and its load, the length of the lead left open, and what
/// is asked of it.
struct AnyLength {
    kind: LeadSource,
    start: Path,
    lead: Lead,
    /// Where the loss counts, Hz.
    f: f64,
    /// How much of it is accepted, dB.
    limit: f64,
    /// What was solved of the start, by frequency in Hz.
    solved: RefCell<Vec<(f64, BeforeLoad)>>,
}

impl AnyLength {
    fn at(&self, length: f64) -> Path {
        Lead { length, ..self.lead }.added_to(self.start.clone(), "part-lead")
    }

    /// How much lower the level at `frequency` is with this length than without.
    fn loss_at(&self, length: f64, frequency: f64) -> f64 {
        Lead { length, ..self.lead }.loss_behind(&self.before_lead(frequency))
    }

    /// What stands before the lead, which many lengths are tried behind, at a frequency
    /// in Hz: solved once for all of them.
    fn before_lead(&self, frequency: f64) -> BeforeLoad {
        let mut solved = self.solved.borrow_mut();
        if let Some((_, before)) = solved.iter().find(|(known, _)| *known == frequency) {
            return *before;
        }
        let before = self.start.before_load(frequency);
        solved.push((frequency, before));
        before
    }

    /// The slope of the response at `frequency` with this length.
    fn slope(&self, length: f64, frequency: f64) -> f64 {
        let lead = Lead { length, ..self.lead }.element();
        slope(&|f: f64| self.before_lead(f).power_with(&lead), frequency)
    }

    /// The loss that counts.
    fn loss(&self, length: f64) -> f64 {
        self.loss_at(length, self.f)
    }

    /// Lengths to try at a frequency, from 1 cm up: each a tenth more than the
    /// last, but never further on than 1/64 of a wavelength, so that no ripple
    /// of a long line is stepped over; 16 wavelengths hold all that can come.
    fn lengths(&self, frequency: f64) -> impl Iterator<Item = f64> + use<> {
        let wavelength = self.lead.wavelength(frequency);
        let last = self.farthest(frequency);
        let next = move |l: &f64| (*l < last).then(|| (1.1 * l).min(l + wavelength / 64.0).min(last));
        std::iter::successors(Some(0.01_f64.min(last)), next)
    }

    /// The length at which `margin` first runs out, once it is there; nothing
    /// where it never is, or lasts.
    fn first_end(&self, frequency: f64, margin: impl Fn(f64) -> f64) -> Option<f64> {
        let mut last = (0.0, margin(0.0));
        for length in self.lengths(frequency) {
            let next = (length, margin(length));
            if last.1 > 0.0 && next.1 <= 0.0 {
                return bracketed_root(margin, last.0, next.0, 1e-10 * length);
            }
            last = next;
        }
        None
    }

    /// The longest length that keeps the resonance of a pickup above a frequency.
    /// There the response stops rising: its slope over frequency, followed along the
    /// length, passes zero downwards. A very short lead may leave the top so flat that
    /// it has no resonance yet; that is no end.
    fn longest_resonant(&self, least: f64) -> Option<f64> {
        // What does not stand out there is no resonance any more.
        let stands_out = |length: &f64| features(&self.at(*length)).peak.is_some();
        self.first_end(least, |length| self.slope(length, least)).filter(stands_out)
    }

    /// The longest length looked at for a frequency.
    fn farthest(&self, frequency: f64) -> f64 {
        LONGEST_LEAD.min(16.0 * self.lead.wavelength(frequency))
    }
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let kind = values.choice(SOURCE)?;
    let pickup = (kind == LeadSource::Pickup).then(|| pickup(values)).transpose()?;
    let line = AnyLength {
        kind,
        start: start(values, pickup.as_ref())?,
        lead: lead(values, sheet, kind)?,
        f: if pickup.is_some() { values.number(TREBLE)? } else { values.number(FREQUENCY)? },
        limit: values.number(LIMIT)?,
        solved: RefCell::default(),
    };
    let (f, length) = (line.f, line.lead.length);
    let found = features(&line.at(length));
    let longest = line.first_end(f, |length| line.limit - line.loss(length));

    let asked = [
        ("f", Arg::Entry(f, Unit::Hertz)),
        ("limit", Arg::Entry(line.limit, Unit::Decibel)),
        ("most", Arg::Quantity(line.farthest(f), Unit::Metre)),
    ];
    let at_length = |f| [("f", Arg::Entry(f, Unit::Hertz)), ("length", Arg::Entry(length, Unit::Metre))];
    sheet.headline_loss("loss", line.loss(length), &at_length(f));
    match kind {
        LeadSource::Pickup => sheet.because("loss.because-pickup", "f_0", pickup::RESONANCE)?,
        LeadSource::Unbalanced => sheet.because("loss.because", "f_c", "1/(2*pi*R_S*C′*l)")?,
        LeadSource::Balanced => sheet.because("loss.because", "f_c", "1/(2*pi*R_S*(C′_cc + C′_cs/2)*l)")?,
    }
    let least = values.number(RESONANCE_LEAST)?;
    let resonant = if pickup.is_some() { line.longest_resonant(least) } else { None };
    let tone = of_length(sheet, &line, longest, resonant.map(|resonant| (resonant, least)));
    sheet.headline("longest_loss", longest, Unit::Metre, &asked);
    let (tone, verdict) = what_limits(kind, length, longest, tone);
    sheet.verdict(tone, verdict, &[allowed(longest)]);
    match &pickup {
        Some(pickup) => {
            sheet.headline("resonance", peak(&found), Unit::Hertz, &[]);
            resonance(values, sheet, &line, pickup, resonant)?;
        }
        None => sheet.headline("high_corner", found.high_corner, Unit::Hertz, &[]),
    }
    if !sheet.wants_further() {
        return Ok(());
    }

    working(values, sheet, &line, longest.unwrap_or(length))?;
    if pickup.is_some() {
        sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);
    }
    sheet.further_loss("loss_10k", line.loss_at(length, 10e3), &at_length(10e3));
    sheet.further_loss("loss_20k", line.loss_at(length, 20e3), &at_length(20e3));
    sheet.further("capacitance", line.lead.capacitance(), Unit::Farad, &[]);
    sheet.further("wavelength", line.lead.wavelength(f), Unit::Metre, &asked);
    let nearest = [longest, resonant].into_iter().flatten().reduce(f64::min);
    practice(sheet, &line, nearest);
    if kind != LeadSource::Balanced {
        sheet.warn("hum", &[]);
    }
    plots(sheet, &line, longest, resonant, &found);
    link(values, sheet, &line)?;
    sources(sheet, kind);
    Ok(())
}

fn sources(sheet: &mut Sheet, kind: LeadSource) {
    sheet.source("source-chain");
    if kind == LeadSource::Pickup {
        sheet.source("source-pickup");
    }
    sheet.source("source-practice");
}

/// The resonance, if there is one.
fn peak(found: &Features) -> Option<f64> {
    found.peak.map(|peak| peak.frequency)
}

/// A computed length for the words, or that there is none.
fn allowed(longest: Option<f64>) -> (&'static str, Arg) {
    let any = Arg::Key("lead-length-any".into());
    ("longest", longest.map_or(any, |longest| Arg::Quantity(longest, Unit::Metre)))
}

/// Says what to make of the length that there is, and which one would do. A pickup's
/// treble is judged as it is on its own page; nobody calls an output dark for what
/// it lost at the end of the band. `resonant` is the longest lead that keeps the
/// resonance of a pickup, and above what.
fn of_length(sheet: &mut Sheet, line: &AnyLength, longest: Option<f64>, resonant: Option<(f64, f64)>) -> Tone {
    let loss = line.loss(line.lead.length);
    let past = longest.filter(|longest| line.lead.length > *longest);
    let sunk = resonant.filter(|(resonant, _)| line.lead.length > *resonant);
    let (tone, treble) = treble(loss);
    let args = [
        ("treble", Arg::Key(format!("common-{treble}"))),
        ("limit", Arg::Entry(line.limit, Unit::Decibel)),
        longest.map_or(allowed(None), |longest| ("longest", Arg::Quantity(longest, Unit::Metre))),
        ("resonant", Arg::Quantity(sunk.map_or(0.0, |(resonant, _)| resonant), Unit::Metre)),
        ("least", Arg::Entry(sunk.map_or(0.0, |(_, least)| least), Unit::Hertz)),
    ];
    let (tone, verdict) = match (line.kind, past) {
        (LeadSource::Pickup, Some(_)) if sunk.is_some() => (tone, "verdict-treble-sunk"),
        (LeadSource::Pickup, Some(_)) => (tone, "verdict-treble-past"),
        (LeadSource::Pickup, None) => (tone, "verdict-treble-kept"),
        (LeadSource::Unbalanced | LeadSource::Balanced, Some(_)) => (Tone::Trouble, "verdict-loss-past"),
        (LeadSource::Unbalanced | LeadSource::Balanced, None) if loss < -HEARD => (Tone::Watch, "verdict-gain"),
        (LeadSource::Unbalanced | LeadSource::Balanced, None) => (Tone::Fine, "verdict-loss-kept"),
    };
    sheet.verdict(tone, verdict, &args);
    tone
}

/// What sets the limit, in words: tone, hum or neither; `past` is how bad a lead
/// is that is longer. An unbalanced lead that tone would allow to be longer than
/// practice has it is limited by hum.
fn what_limits(kind: LeadSource, length: f64, longest: Option<f64>, past: Tone) -> (Tone, &'static str) {
    match (kind, longest) {
        (_, Some(longest)) if length > longest => (past.max(Tone::Watch), "verdict-past"),
        (LeadSource::Balanced, _) => (Tone::Fine, "verdict-neither"),
        (LeadSource::Pickup, Some(_)) => (Tone::Fine, "verdict-tone"),
        (LeadSource::Unbalanced, Some(longest)) if longest <= INSTRUMENT_LEAD => (Tone::Fine, "verdict-tone"),
        (LeadSource::Pickup | LeadSource::Unbalanced, _) if length > INSTRUMENT_LEAD => (Tone::Watch, "verdict-hum"),
        (LeadSource::Pickup | LeadSource::Unbalanced, _) => (Tone::Fine, "verdict-hum"),
    }
}

/// Writes the longest lead that keeps the resonance of a pickup above a frequency.
fn resonance(
    values: &Values,
    sheet: &mut Sheet,
    line: &AnyLength,
    pickup: &Pickup,
    longest: Option<f64>,
) -> Result<(), Fault> {
    let least = values.number(RESONANCE_LEAST)?;
    let always = longest.is_none() && line.slope(line.farthest(least), least) > 0.0;
    let why = if always { "lead-length-always" } else { "lead-length-never" };
    let args = [("f", Arg::Entry(least, Unit::Hertz)), ("why", Arg::Key(why.into()))];
    sheet.headline("longest_resonance", longest, Unit::Metre, &args);
    match longest {
        Some(longest) if line.lead.length > longest => sheet.verdict(Tone::Trouble, "verdict-sunk", &[]),
        None if !always => sheet.verdict(Tone::Trouble, "verdict-lost", &[]),
        _ => sheet.verdict(Tone::Fine, "verdict-kept", &[]),
    }

    let (_, l, c, _) = pickup.whole();
    for (name, value, unit) in [
        ("f_min", least, Unit::Hertz),
        ("L_P", l, Unit::Henry),
        ("C_W", c, Unit::Farad),
        ("C_L", values.number(LOAD_C)?, Unit::Farad),
        ("C′", line.lead.c, Unit::FaradPerMetre),
    ] {
        sheet.working.given(name, value, unit);
    }
    sheet.working.step("total_c", "C", "1/((2*pi*f_min)^2*L_P)", Unit::Farad)?;
    let lossless = sheet.working.step("lossless", "l_0", "(C - C_W - C_L)/C′", Unit::Metre)?;
    sheet.further("resonance_bare", peak(&features(&line.start)), Unit::Hertz, &[]);
    sheet.further("lossless", Some(lossless).filter(|l| *l > 0.0), Unit::Metre, &[]);
    if let Some(longest) = longest {
        sheet.working.walk(&line.at(longest), least)?;
    }
    Ok(())
}

/// The working: the lumped estimate of an active source, then the exact line at
/// the longest length (or the present one, where there is no longest).
fn working(values: &Values, sheet: &mut Sheet, line: &AnyLength, length: f64) -> Result<(), Fault> {
    sheet.working.given("f", line.f, Unit::Hertz);
    sheet.working.given("C′", line.lead.c, Unit::FaradPerMetre);
    if line.kind != LeadSource::Pickup && values.number(SOURCE_R)? * line.lead.c > LEAST_DELAY {
        sheet.working.given("R_S", values.number(SOURCE_R)?, Unit::Ohm);
        sheet.working.given("R_L", values.number(LOAD_R)?, Unit::Ohm);
        sheet.working.given("C_L", values.number(LOAD_C)?, Unit::Farad);
        sheet.working.given("a_max", line.limit, Unit::Decibel);
        sheet.working.step("parallel", "R_p", "R_S*R_L/(R_S + R_L)", Unit::Ohm)?;
        sheet.working.step("walk-omega", "omega", "2*pi*f", Unit::RadianPerSecond)?;
        let formula = "(sqrt(10^(a_max/10)*(1 + (omega*R_p*C_L)^2) - 1)/(omega*R_p) - C_L)/C′";
        let lumped = sheet.working.step("lumped", "l_0", formula, Unit::Metre)?;
        sheet.further("lumped", lumped, Unit::Metre, &[]);
    }
    sheet.working.given("H_0", line.start.transfer(line.f), Unit::One);
    sheet.working.walk(&line.at(length), line.f)?;
    if sheet.wants_working() {
        sheet.working.step("loss_step", "a_l", "20*log10(abs(H_0)/abs(H))", Unit::Decibel)?;
        let here = [("length", Arg::Entry(line.lead.length, Unit::Metre))];
        sheet.working.given("H_l", line.at(line.lead.length).transfer(line.f), Unit::One);
        sheet.working.step_with("loss_here", &here, "a_h", "20*log10(abs(H_0)/abs(H_l))", Unit::Decibel)?;
    }
    Ok(())
}

/// What is common practice beside what was computed, and why they differ.
fn practice(sheet: &mut Sheet, line: &AnyLength, longest: Option<f64>) {
    let kind = line.kind;
    let practice = if kind == LeadSource::Balanced { BALANCED_LINE } else { INSTRUMENT_LEAD };
    let loss = line.loss(practice);
    let side = if longest.is_some_and(|longest| longest < practice) { "longer" } else { "shorter" };
    let args = [
        ("kind", Arg::Key(format!("lead-length-kind-{}", kind.id()))),
        ("f", Arg::Entry(line.f, Unit::Hertz)),
        ("length", Arg::Quantity(practice, Unit::Metre)),
        ("loss", Arg::Quantity(loss.abs(), Unit::Decibel)),
        ("way", Arg::Key(way(loss).into())),
        ("side", Arg::Key(format!("lead-length-{side}"))),
        ("reason", Arg::Key(format!("lead-length-{side}-{}", kind.id()))),
        allowed(longest),
    ];
    sheet.further("practice", practice, Unit::Metre, &args);
    sheet.verdict(Tone::Fine, "verdict-practice", &args);
    sheet.further_loss("loss_practice", loss, &args);
}

fn plots(sheet: &mut Sheet, line: &AnyLength, longest: Option<f64>, resonant: Option<f64>, found: &Features) {
    if !sheet.wants_plots() {
        return;
    }
    let length = line.lead.length;
    let (from, usual) = if line.kind == LeadSource::Pickup { (0.5, 50.0) } else { (1.0, 2000.0) };
    let to = [longest, resonant, Some(length)].into_iter().flatten().fold(usual, |to: f64, l| to.max(1.5 * l));
    let lengths = log_sweep(&(from..=to), 161);
    let levels: Vec<_> = lengths.iter().map(|length| -line.loss(*length)).collect();
    let (bottom, top) = span(levels.iter().copied());
    let markers: Vec<_> = [
        ("marker-longest", longest),
        ("marker-resonance", resonant),
        ("marker-length", Some(length)),
        ("marker-instrument", Some(INSTRUMENT_LEAD)),
        ("marker-balanced", Some(BALANCED_LINE)),
    ]
    .into_iter()
    .filter_map(|(id, at)| Some((id, at.filter(|at| (from..=to).contains(at))?)))
    .map(|(id, at)| sheet.marker(id, &[("length", Arg::Quantity(at, Unit::Metre))], at, -line.loss(at)))
    .collect();
    let summary = [
        ("f", Arg::Entry(line.f, Unit::Hertz)),
        ("limit", Arg::Entry(line.limit, Unit::Decibel)),
        ("length", Arg::Entry(length, Unit::Metre)),
        ("loss", Arg::Quantity(line.loss(length).abs(), Unit::Decibel)),
        ("way", Arg::Key(way(line.loss(length)).into())),
    ];
    let x = sheet.axis("axis-length", Unit::Metre, true, from, to);
    let y = sheet.axis("axis-change", Unit::Decibel, false, bottom, top);
    let trace = sheet.trace("by-length-curve", false, lengths, levels);
    let plot = sheet.plot("by-length", &summary, x, y, vec![trace]);
    plot.markers = markers;
    plot.stops = [1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 20.0, 50.0, 100.0, 200.0, 300.0, 600.0, 1000.0, 2000.0]
        .into_iter()
        .filter(|stop| (from..=to).contains(stop))
        .collect();
    sheet.response_plot(
        "response",
        &summary,
        &[
            Drawn { id: "curve", reference: false, response: &line.at(length) },
            Drawn { id: "curve-bare", reference: true, response: &line.start },
        ],
        Some(found),
    );
}

/// The lead of the fields; a screened pair works as one capacitance between its
/// cores, each core's capacitance to the shield being in series with the other's.
fn lead(values: &Values, sheet: &mut Sheet, kind: LeadSource) -> Result<Lead, Fault> {
    let c = if kind == LeadSource::Balanced {
        sheet.working.given("C′_cc", values.number(CORE_C)?, Unit::FaradPerMetre);
        sheet.working.given("C′_cs", values.number(SHIELD_C)?, Unit::FaradPerMetre);
        sheet.working.step("pair_c", "C′", "C′_cc + C′_cs/2", Unit::FaradPerMetre)?
    } else {
        values.number(LEAD_C)?
    };
    Ok(Lead { length: values.number(LEAD_LENGTH)?, r: values.number(LEAD_R)?, l: values.number(LEAD_L)?, c })
}

/// Everything but the lead.
fn start(values: &Values, pickup: Option<&Pickup>) -> Result<Path, Fault> {
    let load = |r| Ok(OnePort::parallel_rc(r, values.number(LOAD_C)?));
    Ok(match pickup {
        Some(pickup) => pickup.path(load(values.number(INSTRUMENT_R)?)?),
        None => Path::new(OnePort::resistor(values.number(SOURCE_R)?), load(values.number(LOAD_R)?)?),
    })
}

/// One coil with its controls full up. Turned down, the volume control puts part
/// of its track before the lead, which is then heard sooner; the calculator of
/// pickups shows that.
fn pickup(values: &Values) -> Result<Pickup, Fault> {
    let full = |r| Pot { r, turn: 1.0, taper: Taper::Linear };
    let tone_r = values.number(TONE_R)?;
    Ok(Pickup {
        r: values.number(COIL_R)?,
        l: values.number(COIL_L)?,
        c: values.number(COIL_C)?,
        loss: None,
        coils: Coils::One,
        coupling: 0.0,
        volume: values.optional(VOLUME_R)?.map(full),
        tone: values.optional(TONE_C)?.map(|c| ToneControl { pot: full(tone_r), c, before_volume: true }),
    })
}

/// Points to the calculator that shows more of this source.
fn link(values: &Values, sheet: &mut Sheet, line: &AnyLength) -> Result<(), Fault> {
    if line.kind == LeadSource::Pickup {
        return link_to_pickup(values, sheet);
    }
    let mut filling = source_load::CALCULATOR.filling();
    filling.put(SOURCE_R, values.number(SOURCE_R)?);
    filling.put(SOURCE_C, line.lead.capacitance());
    filling.put(LOAD_R, values.number(LOAD_R)?);
    filling.put(FREQUENCY, line.f);
    filling.put(LOAD_C, values.number(LOAD_C)?);
    sheet.link_to("link-source-load", &[], &filling);
    Ok(())
}

fn link_to_pickup(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let mut filling = pickup::CALCULATOR.filling();
    let (volume, tone) = (values.optional(VOLUME_R)?, values.optional(TONE_C)?);
    filling.choose(VOLUME, if volume.is_some() { VolumeKind::Fitted } else { VolumeKind::None });
    filling.choose(TONE, if tone.is_some() { ToneKind::Before } else { ToneKind::None });
    filling.put(FREQUENCY, values.number(TREBLE)?);
    filling.put(LOAD_R, values.number(INSTRUMENT_R)?);
    filling.put(LOAD_C, values.number(LOAD_C)?);
    filling.put(COIL_L, values.number(COIL_L)?);
    filling.put(COIL_R, values.number(COIL_R)?);
    filling.put(COIL_C, values.number(COIL_C)?);
    if let Some(r) = volume {
        filling.put(VOLUME_R, r);
    }
    filling.put(TONE_R, values.number(TONE_R)?);
    if let Some(c) = tone {
        filling.put(TONE_C, c);
    }
    filling.put(LEAD_LENGTH, values.number(LEAD_LENGTH)?);
    filling.put(LEAD_C, values.number(LEAD_C)?);
    filling.put(LEAD_R, values.number(LEAD_R)?);
    filling.put(LEAD_L, values.number(LEAD_L)?);
    sheet.link_to("link-pickup", &[], &filling);
    Ok(())
}
