//! Pickup, lead and load: what a passive pickup makes of what it is plugged into.

use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, lead};
use crate::field::load::{LOAD_C, LOAD_R};
use crate::field::pickup::{
    COIL_C, COIL_L, COIL_R, COILS, COUPLING, CoilsKind, PHASE, PICKUP, Phase, TONE_C, TONE_R, VOLUME_R, pickup,
};
use crate::field::question::FREQUENCY;
use crate::field::{Values, joined};
use crate::network::{Features, MIDBAND, OnePort, Path, Peak, Response as _, features, level_place, lost};
use crate::part::{Coils, Lead, Pickup};
use crate::quantity::Unit;
use crate::report::{Drawn, Sheet, Tone, treble};
use crate::words::{Arg, Message};
use std::f64::consts::TAU;

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "pickup",
    fields: &joined::<_, 22>(&[
        &PICKUP,
        &[
            LEAD_LENGTH,
            LEAD_C,
            LEAD_R,
            LEAD_L,
            LOAD_R.starting(1e6),
            LOAD_C,
            FREQUENCY.starting(5e3).usual(1e3, 10e3).limits(1.0, 1e6).detail(),
        ],
    ]),
    first: &[LEAD_LENGTH.id, LOAD_R.id],
    presets: &[
        Preset {
            id: "four",
            values: &[LOAD_R.typed("1M")],
            held: &[&[LOAD_R.typed("10k")], &[LOAD_R.typed("180k")], &[LOAD_R.typed("1M"), LEAD_LENGTH.typed("15 m")]],
        },
        Preset {
            id: "bass",
            values: &[
                COIL_L.typed("5 H"),
                COIL_R.typed("9k"),
                COIL_C.typed("150p"),
                TONE_C.typed("47n"),
                LEAD_LENGTH.typed("6 m"),
            ],
            held: &[],
        },
        Preset {
            id: "two-coil",
            values: &[
                CoilsKind::Series.to(COILS),
                COIL_L.typed("2 H"),
                COIL_R.typed("4k"),
                COUPLING.typed("0.3"),
                VOLUME_R.typed("500k"),
                TONE_R.typed("500k"),
            ],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
};

/// A resonance that stands out, dB over 1 kHz (common practice, no source).
const HEARD: f64 = 1.0;
/// A peak this far below the resonance of coil and capacitance is the tone
/// control's (common practice, no source).
const MOVED: f64 = 0.6;

/// A pickup with its lead and its load, and where its treble counts, Hz.
struct Played {
    pickup: Pickup,
    lead: Lead,
    load: OnePort,
    f: f64,
    /// At its own best.
    best: Path,
}

impl Played {
    fn new(pickup: Pickup, lead: Lead, load: OnePort, f: f64) -> Self {
        Self { pickup, lead, load, f, best: pickup.at_its_best() }
    }

    fn path(&self) -> Path {
        self.lead.added_to(self.pickup.path(self.load.clone()), "part-lead")
    }

    /// The same lead into next to no load.
    fn unloaded(&self) -> Path {
        self.lead.added_to(self.pickup.path(Pickup::no_load()), "part-lead")
    }

    /// How much more than the pickup at its own best this response loses where the treble
    /// counts, each re its own plateau: what is lost of the level is no tone.
    fn tone_loss(&self, path: &Path) -> f64 {
        lost(&self.best, path, level_place(path), self.f)
    }

    /// The parts without which it would be, and each with what is left of the rig.
    fn without(&self) -> [(&'static str, Path); 4] {
        let Self { pickup, lead, load, .. } = self;
        let other = |pickup: Pickup| lead.added_to(pickup.path(load.clone()), "part-lead");
        [
            ("tone", other(pickup.with_full_tone())),
            ("volume", other(pickup.with_full_volume())),
            ("lead", pickup.path(load.clone())),
            ("load", self.unloaded()),
        ]
    }

    /// Each part without which at least half of a loss of tone would not be; all
    /// of them where none is such a part.
    fn what_darkens(&self, lost: f64) -> Vec<&'static str> {
        let parts = self.without().into_iter();
        let parts = parts.filter(|(_, path)| lost - self.tone_loss(path) >= lost / 2.0);
        let parts: Vec<_> = parts.map(|(part, _)| part).collect();
        if parts.is_empty() { vec!["together"] } else { parts }
    }

    /// What keeps the resonance from standing out: the pickup itself, its pots though
    /// they are full up, or the first part without which it would. The lead stays on:
    /// where its capacitance puts the resonance lower, the pots damp it less.
    fn what_damps(&self) -> &'static str {
        let stands = |path: &Path| features(path).peak.is_some_and(|peak| peak.height >= HEARD);
        let unloaded = |pickup: Pickup| self.lead.added_to(pickup.path(Pickup::no_load()), "part-lead");
        if !stands(&unloaded(Pickup { volume: None, tone: None, ..self.pickup })) {
            return "coil";
        }
        if !stands(&unloaded(self.pickup.with_full_volume().with_full_tone())) {
            return "pots";
        }
        self.without().into_iter().find(|(_, path)| stands(path)).map_or("together", |(part, _)| part)
    }
}

/// A part in words.
fn by(part: &str) -> Message {
    Message::whole(format!("pickup-by-{part}"))
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let (pickup, lead) = (pickup(values)?, lead(values)?);
    let (r_l, c_l, f) = (values.number(LOAD_R)?, values.number(LOAD_C)?, values.number(FREQUENCY)?);
    let played = Played::new(pickup, lead, OnePort::parallel_rc(r_l, c_l), f);
    let (rig, unloaded) = (played.path(), played.unloaded());
    let found = features(&rig);
    let peak = found.peak;
    let at_f = [("f", Arg::Entry(f, Unit::Hertz))];

    sheet.headline("peak", peak.map(|peak| peak.frequency), Unit::Hertz, &[]);
    // Where controls or the load make or hide it, that says nothing of it.
    let is_own = peak.is_some_and(|peak| peak.height >= HEARD && peak.frequency >= MOVED * own_resonance(&played, c_l));
    if pickup.coils == Coils::One && is_own {
        sheet.because("peak.because", "f_0", RESONANCE)?;
    }
    sheet.headline("peak_height", peak.map(|peak| peak.height), Unit::Decibel, &[]);
    of_resonance(sheet, &played, peak, c_l);
    of_tone(sheet, &played, &rig);
    let lead_loss = lead.loss(&pickup.path(played.load.clone()), f);
    sheet.headline_loss("lead_loss", lead_loss, &at_f);
    let (tone, verdict) = treble(lead_loss);
    sheet.verdict(tone, verdict, &[]);
    let load_loss = unloaded.level(f) - rig.level(f);
    sheet.headline_loss("load_loss", load_loss, &at_f);
    let (tone, verdict) = treble(load_loss);
    sheet.verdict(tone, verdict, &[]);
    if !sheet.wants_further() {
        return Ok(());
    }

    let level = rig.level(f);
    let [total, free] = resonance(sheet, &pickup, &lead, c_l)?;
    sheet.working.walk(&rig, f)?;
    if sheet.wants_working() {
        let without_lead = pickup.path(played.load.clone());
        last_steps(sheet, [unloaded.level(f), without_lead.level(f)], &found)?;
        tone_step(sheet, &played, &rig)?;
    }
    sheet.further("level_at", level, Unit::Decibel, &at_f);
    sheet.further("change_at", level - found.midband, Unit::Decibel, &at_f);
    sheet.further("level_1k", found.midband, Unit::Decibel, &[]);
    sheet.further("peak_level", peak.map(|peak| peak.level), Unit::Decibel, &[]);
    sheet.further("low_corner", found.low_corner, Unit::Hertz, &[]);
    sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);
    sheet.further("total_c", total, Unit::Farad, &[]);
    sheet.further("free_resonance", free, Unit::Hertz, &[]);
    sheet.further("impedance_1k", rig.output_impedance(MIDBAND).norm(), Unit::Ohm, &[]);
    if pickup.coils != Coils::One && pickup.coupling <= 0.0 && values.choice(PHASE)? == Phase::Out {
        sheet.warn("out-of-phase", &[]);
    }

    let summary = summary(level, f, peak);
    sheet.response_plot(
        "response",
        &summary,
        &[
            Drawn { id: "curve", reference: false, response: &rig },
            Drawn { id: "curve-unloaded", reference: true, response: &unloaded },
        ],
        Some(&found),
    );
    sheet.source("source-chain");
    sheet.source("source-pickup");
    sheet.source("source-practice");
    Ok(())
}

/// Where the coil resonates with all the capacitance across it, without losses, Hz.
fn own_resonance(played: &Played, c_l: f64) -> f64 {
    let (_, l_whole, c_whole, _) = played.pickup.whole();
    1.0 / (TAU * (l_whole * (c_whole + played.lead.capacitance() + c_l)).sqrt())
}

/// What to make of the resonance. None is not dull: a pickup on small pots, or one
/// with much loss of its own, has none at its best.
fn of_resonance(sheet: &mut Sheet, played: &Played, peak: Option<Peak>, c_l: f64) {
    let own = own_resonance(played, c_l);
    let (tone, verdict) = match peak {
        None => (Tone::Watch, "verdict-none"),
        Some(peak) if peak.height < HEARD => (Tone::Watch, "verdict-flat"),
        Some(peak) if peak.frequency < MOVED * own => (Tone::Watch, "verdict-moved"),
        Some(_) => (Tone::Fine, "verdict-open"),
    };
    let damped = matches!(verdict, "verdict-none" | "verdict-flat");
    let part = if damped && sheet.wants_words() { played.what_damps() } else { "" };
    let tone = if matches!(part, "coil" | "pots") { Tone::Fine } else { tone };
    sheet.verdict(tone, verdict, &[("by", Arg::Messages(vec![by(part)]))]);
}

/// How much darker the pickup is than at its own best, and by what. Controls are
/// set as their player likes them.
fn of_tone(sheet: &mut Sheet, played: &Played, rig: &Path) {
    let lost = played.tone_loss(rig);
    sheet.headline_loss("tone_loss", lost, &[("f", Arg::Entry(played.f, Unit::Hertz))]);
    let (tone, words) = treble(lost);
    if tone == Tone::Fine || lost < 0.0 || !sheet.wants_words() {
        return sheet.verdict(tone, words, &[]);
    }
    let parts = played.what_darkens(lost);
    let chosen = parts.iter().all(|part| matches!(*part, "tone" | "volume"));
    let args =
        [("treble", Arg::Key(format!("common-{words}"))), ("by", Arg::Messages(parts.into_iter().map(by).collect()))];
    sheet.verdict(if chosen { Tone::Watch } else { tone }, "verdict-darker", &args);
}

/// What the headlines take from the curves, behind the walk, which left `a` and
/// does the same at any frequency: `without` are the levels without the load and
/// without the lead.
fn last_steps(sheet: &mut Sheet, without: [f64; 2], found: &Features) -> Result<(), Fault> {
    sheet.working.given("a_U", without[0], Unit::Decibel);
    sheet.working.step("load_loss_step", "a_L", "a_U - a", Unit::Decibel)?;
    sheet.working.given("a_0", without[1], Unit::Decibel);
    sheet.working.step("lead_loss_step", "a_l", "a_0 - a", Unit::Decibel)?;
    if let Some(peak) = found.peak {
        sheet.working.given("a_p", peak.level, Unit::Decibel);
        sheet.working.given("a_1", found.midband, Unit::Decibel);
        let at = [("f", Arg::Quantity(peak.frequency, Unit::Hertz))];
        sheet.working.step_with("height_step", &at, "h", "a_p - a_1", Unit::Decibel)?;
    }
    Ok(())
}

/// The working of what is lost of the tone, from the levels that are searched for and `a`.
fn tone_step(sheet: &mut Sheet, played: &Played, rig: &Path) -> Result<(), Fault> {
    let place = level_place(rig);
    sheet.working.given("f_pl", place, Unit::Hertz);
    for (symbol, level) in
        [("a_B", played.best.level(played.f)), ("a_Bp", played.best.level(place)), ("a_pl", rig.level(place))]
    {
        sheet.working.given(symbol, level, Unit::Decibel);
    }
    let at = [("place", Arg::Quantity(place, Unit::Hertz))];
    sheet.working.step_with("tone_loss_step", &at, "a_T", "(a_B - a_Bp) - (a - a_pl)", Unit::Decibel)?;
    Ok(())
}

/// Capacitance `C_t` of all together, F, and where it resonates with the coil, Hz.
fn resonance(sheet: &mut Sheet, pickup: &Pickup, lead: &Lead, c_l: f64) -> Result<[f64; 2], Fault> {
    let (_, l_whole, c_whole, _) = pickup.whole();
    sheet.working.given("L", l_whole, Unit::Henry);
    sheet.working.given("C_W", c_whole, Unit::Farad);
    sheet.working.given("C′", lead.c, Unit::FaradPerMetre);
    sheet.working.given("l", lead.length, Unit::Metre);
    sheet.working.given("C_L", c_l, Unit::Farad);
    let total = sheet.working.step("total_c", "C_t", "C_W + C′*l + C_L", Unit::Farad)?;
    let free = sheet.working.step("free_resonance", "f_0", "1/(2*pi*sqrt(L*C_t))", Unit::Hertz)?;
    Ok([total, free])
}

/// Where a coil resonates with all that is across it.
pub(super) const RESONANCE: &str = "1/(2*pi*sqrt(L_P*(C_W + C′*l + C_L)))";

/// What the picture shows: the level at `f` Hz, and the peak.
fn summary(level: f64, f: f64, peak: Option<Peak>) -> [(&'static str, Arg); 4] {
    let level_arg = ("level", Arg::Quantity(level, Unit::Decibel));
    match peak {
        Some(peak) => [
            level_arg,
            ("f", Arg::Entry(f, Unit::Hertz)),
            ("peak", Arg::Quantity(peak.frequency, Unit::Hertz)),
            ("height", Arg::Quantity(peak.height, Unit::Decibel)),
        ],
        None => [
            level_arg,
            ("f", Arg::Entry(f, Unit::Hertz)),
            ("peak", Arg::Key("pickup-peak.none".into())),
            ("height", Arg::Key("pickup-peak_height.none".into())),
        ],
    }
}
