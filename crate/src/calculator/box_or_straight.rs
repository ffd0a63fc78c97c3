//! Box or straight in: which connection a source wants, from a few plain
//! questions. Every candidate is a whole line, computed by the calculator of
//! that name, and ranked: what cannot work or must not be is refused; then the
//! fewest limits broken, then the fewest parts. What is equal in both is tied,
//! and the one that keeps more distance from its limits is named first.

use super::filling::Filling;
use super::ground_loop::EARTH_VOLTS;
use super::level_chain::{CREST_FACTOR, HEADROOM};
use super::noise_floor::SNR_LEAST;
use super::report::{Candidate, Reason, Tone, Verdict};
use super::shared::{EMF, LEAD_LENGTH, MAINS};
use super::sheet::Depth;
use super::whole_line::line::{Line, Margin};
use super::whole_line::words;
use super::whole_line::{AMP_DIFFERENCE, BASS, HUM_LEAST, LOSS_MOST, RUN_LENGTH, THRU_LENGTH, TREBLE};
use super::{Calculator, Fault, Preset, Sheet, Solution, Values, whole_line};
use crate::catalogue::typical::{LINE_INPUT_GAIN, MINUS_10_DBV};
use crate::field::{Field, joined, option};
use crate::quantity::{Unit, VOLTS_AT_0_DBU};
use crate::words::Arg;
use std::cmp::Ordering;

const SUPPLIED: &[&str] = &["active", "keyboard", "laptop"];
const WITH_LEVEL: &[&str] = &["guitar", "bass", "piezo", "active", "keyboard", "laptop"];

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "box-or-straight",
    fields: &joined::<26>(&[
        &[
            Field::choice(
                "source",
                &[
                    option("guitar"),
                    option("bass"),
                    option("piezo"),
                    option("active"),
                    option("keyboard"),
                    option("laptop"),
                    option("microphone"),
                ],
                "guitar",
            )
            .at("source"),
            Field::choice("power", &[option("floating"), option("earthed"), option("leaking")], "earthed")
                .when("source", SUPPLIED)
                .at("source"),
            LEAD_LENGTH,
            RUN_LENGTH,
            Field::choice("input", &[option("microphone"), option("line"), option("instrument")], "microphone")
                .at("console"),
            Field::choice("phantom", &[option("none"), option("switched"), option("always")], "switched").at("console"),
            Field::choice("thru", &[option("none"), option("earthed"), option("floating")], "none").at("thru"),
            THRU_LENGTH.when("thru", &["earthed", "floating"]).detail(),
            EMF.absent().when("source", WITH_LEVEL).detail(),
            Field { id: "microphone_emf", ..EMF }.absent().usual(0.1e-3, 0.1).when("source", &["microphone"]).detail(),
            CREST_FACTOR.absent().detail(),
            EARTH_VOLTS.when("power", &["earthed"]),
            AMP_DIFFERENCE.when("thru", &["earthed"]).detail(),
            MAINS,
        ],
        &[LOSS_MOST, SNR_LEAST, HUM_LEAST, HEADROOM, TREBLE.absent(), BASS.absent()],
        &whole_line::EARTHS,
    ]),
    presets: &[
        Preset {
            id: "guitar",
            values: &[("lead_length", "3 m"), ("run_length", "10 m"), ("input", "line"), ("phantom", "none")],
            held: &[
                &[("lead_length", "3 m"), ("run_length", "10 m")],
                &[("lead_length", "3 m"), ("run_length", "0 m"), ("input", "instrument")],
            ],
        },
        Preset {
            id: "keys",
            values: &[("source", "keyboard"), ("emf", "+4 dBu"), ("input", "line"), ("phantom", "none")],
            held: &[&[
                ("source", "keyboard"),
                ("emf", "+4 dBu"),
                ("input", "line"),
                ("phantom", "none"),
                ("power", "leaking"),
            ]],
        },
        Preset {
            id: "laptop",
            values: &[("source", "laptop"), ("lead_length", "2 m")],
            held: &[
                &[("source", "laptop"), ("lead_length", "2 m"), ("power", "leaking")],
                &[("source", "laptop"), ("lead_length", "2 m"), ("power", "floating")],
            ],
        },
        Preset { id: "bass", values: &[("source", "bass"), ("thru", "earthed"), ("thru_length", "3 m")], held: &[] },
        Preset {
            id: "acoustic",
            values: &[("source", "piezo"), ("lead_length", "6 m"), ("phantom", "always")],
            held: &[],
        },
        Preset {
            id: "speech",
            values: &[("source", "microphone"), ("lead_length", "0 m"), ("run_length", "40 m")],
            held: &[],
        },
    ],
    solve,
};

/// What stands for a source where nothing else is said (common practice, no
/// source; see the catalogue of typical values).
struct Usual {
    id: &'static str,
    /// The source of a whole line.
    source: &'static str,
    /// Open-circuit level, V.
    emf: f64,
    /// Crest factor, dB.
    crest: f64,
    /// Where its bass and its treble count, Hz.
    band: (f64, f64),
    /// What else differs from a whole line's defaults.
    values: &'static [(&'static str, f64, Unit)],
}

const USUAL: [Usual; 7] = [
    Usual { id: "guitar", source: "pickup", emf: 0.2, crest: 15.0, band: (80.0, 5e3), values: &[] },
    Usual {
        id: "bass",
        source: "pickup",
        emf: 0.2,
        crest: 18.0,
        band: (40.0, 2e3),
        values: &[
            ("coil_l", 5.0, Unit::Henry),
            ("coil_r", 9e3, Unit::Ohm),
            ("coil_c", 150e-12, Unit::Farad),
            ("tone_c", 47e-9, Unit::Farad),
        ],
    },
    Usual {
        id: "piezo",
        source: "piezo",
        emf: 0.3,
        crest: 15.0,
        band: (80.0, 5e3),
        // An active box for a piezo; the noise current is that of its 10 MΩ.
        values: &[("box_r", 10e6, Unit::Ohm), ("box_in", 0.04e-12, Unit::AmperePerRootHertz)],
    },
    Usual {
        id: "active",
        source: "output",
        emf: 0.7,
        crest: 15.0,
        band: (80.0, 5e3),
        values: &[("source_r", 2e3, Unit::Ohm)],
    },
    Usual { id: "keyboard", source: "output", emf: MINUS_10_DBV, crest: 12.0, band: (40.0, 10e3), values: &[] },
    Usual {
        id: "laptop",
        source: "output",
        emf: 1.0,
        crest: 12.0,
        band: (40.0, 10e3),
        values: &[("source_r", 100.0, Unit::Ohm)],
    },
    Usual { id: "microphone", source: "microphone", emf: 2e-3, crest: 12.0, band: (80.0, 10e3), values: &[] },
];

/// A one-to-one line isolator (common practice, no source).
const ISOLATOR: [(&str, f64, Unit); 8] = [
    ("ratio", 1.0, Unit::Ratio),
    ("r1", 60.0, Unit::Ohm),
    ("r2", 60.0, Unit::Ohm),
    ("magnetising", 20.0, Unit::Henry),
    ("core_loss", 100e3, Unit::Ohm),
    ("leakage", 5e-3, Unit::Henry),
    ("c1", 300e-12, Unit::Farad),
    ("largest", 18.0, Unit::DecibelU),
];

/// The console's inputs where they differ from a whole line's default, the
/// microphone input (common practice, no source).
const LINE_INPUT: &[(&str, f64, Unit)] =
    &[("console_r", 10e3, Unit::Ohm), ("console_most", 24.0, Unit::DecibelU), ("ein", -95.0, Unit::DecibelU)];
const INSTRUMENT_INPUT: &[(&str, f64, Unit)] = &[
    ("console_r", 1e6, Unit::Ohm),
    ("console_c", 50e-12, Unit::Farad),
    ("console_most", 12.0, Unit::DecibelU),
    ("console_en", 10e-9, Unit::VoltPerRootHertz),
    ("console_in", 0.1e-12, Unit::AmperePerRootHertz),
];

/// Pads come in steps of this, dB; that of an active box takes off at least so
/// much, and one of its own at most (common practice, no source).
const PAD_STEP: f64 = 10.0;
const BOX_PAD: f64 = 20.0;
const MOST_PAD: f64 = 60.0;
/// In so many steps a decibel it is told by how much a limit is missed: what
/// nobody hears is no reason to carry more (common practice, no source).
const MISSED_STEPS: f64 = 10.0;

/// A way to connect a source.
struct Way {
    id: &'static str,
    /// What has to be brought: boxes, pads and batteries.
    parts: u32,
    /// The box of the whole line.
    between: &'static str,
    /// Whether the box is a line isolator.
    isolator: bool,
    /// Whether a pad goes with it, in a box of its own or as its own switch.
    pad: bool,
}

const fn way(id: &'static str, parts: u32, between: &'static str) -> Way {
    Way { id, parts, between, isolator: false, pad: false }
}

/// Every way that there is; a padded one follows the same without a pad.
const WAYS: [Way; 9] = [
    way("straight", 0, "none"),
    Way { pad: true, ..way("straight_pad", 1, "none") },
    Way { isolator: true, ..way("isolator", 1, "passive") },
    Way { isolator: true, pad: true, ..way("isolator_pad", 2, "passive") },
    way("passive", 1, "passive"),
    way("phantom", 1, "active"),
    Way { pad: true, ..way("phantom_pad", 1, "active") },
    way("battery", 2, "active"),
    Way { pad: true, ..way("battery_pad", 2, "active") },
];

/// What is asked, as far as it decides which ways there are.
struct Asked {
    usual: &'static Usual,
    input: &'static str,
    phantom: &'static str,
    /// Whether another earth than the console's is tied to the source or the box.
    earthed: bool,
    /// Whether an amplifier is to be fed from a thru.
    thru: bool,
}

/// A way as it turned out.
struct Tried {
    way: &'static Way,
    filling: Filling,
    solution: Solution,
    /// What it was asked to keep, in the order of the report's links.
    found: Vec<&'static str>,
    broken: usize,
    /// The finding for which it is refused.
    refused: Option<&'static str>,
    /// The finding that has least left re its limit, and what it has left.
    tightest: Option<(&'static str, Margin)>,
    /// How much less level the box's output or the console's input should have
    /// for the headroom, dB.
    excess: f64,
    /// Whether it is a case for an electrician first.
    stop: bool,
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    for caution in ["caution-earth", "caution-electrician", "caution-phantom", "caution-hearing"] {
        sheet.caution(caution);
    }
    let source = values.choice("source")?;
    let usual = USUAL.iter().find(|usual| usual.id == source).ok_or_else(|| Fault::internal(source))?;
    let power = if SUPPLIED.contains(&source) { values.choice("power")? } else { "floating" };
    let (input, thru) = (values.choice("input")?, values.choice("thru")?);
    let boxed = usual.source != "microphone" && input != "instrument";
    let asked = Asked {
        usual,
        input,
        phantom: values.choice("phantom")?,
        earthed: power == "earthed" || boxed && thru == "earthed",
        thru: boxed && thru != "none",
    };
    if asked.earthed || power == "leaking" {
        sheet.cautions_first();
    }
    if thru != "none" && !boxed {
        sheet.warn("no-thru", &[]);
    }
    let mut tried: Vec<Tried> = Vec::new();
    // How much too hot the last way without a pad was.
    let mut excess = 0.0;
    for way in WAYS.iter().filter(|way| asked.makes_sense(way)) {
        if way.pad && excess <= 0.0 {
            continue;
        }
        let line = try_way(values, sheet, &asked, power, way, excess)?;
        if !way.pad {
            excess = line.excess;
        }
        let place = tried.partition_point(|other| other.against(&line).is_le());
        tried.insert(place, line);
    }

    headlines(values, sheet, &tried)?;
    for line in &tried {
        candidate(sheet, line, &tried);
        sheet.pass_on(&line.solution.warnings);
    }
    if let Some(best) = tried.first().filter(|best| best.refused.is_none() && !best.stop) {
        if asked.earthed && best.way.between == "none" {
            sheet.warn("earthed", &[]);
        }
        let level = best.solution.reading("level").and_then(|reading| reading.value);
        let least = 20.0 * (MINUS_10_DBV / VOLTS_AT_0_DBU).log10() - LINE_INPUT_GAIN;
        if let Some(level) = level.filter(|level| asked.input == "line" && *level < least) {
            sheet.warn("faint", &[("level", Arg::Quantity(level, Unit::DecibelU))]);
        }
    }
    for source in [
        "source-ranking",
        "source-chain",
        "source-johnson",
        "source-shield",
        "source-whitlock",
        "source-phantom",
        "source-practice",
    ] {
        sheet.source(source);
    }
    Ok(())
}

impl Asked {
    /// Whether a way makes sense at all: a microphone needs no box, a line
    /// isolator is for outputs, and what ends at an instrument input is no
    /// balanced microphone level. A pad loads what is not an output. A thru is
    /// that of a box.
    fn makes_sense(&self, way: &Way) -> bool {
        let source = self.usual.source;
        match way.between {
            "none" => !self.thru && (!way.pad || matches!(source, "output" | "microphone")),
            "passive" if way.isolator => !self.thru && source == "output",
            _ => source != "microphone" && self.input != "instrument",
        }
    }
}

impl Tried {
    /// What decides on its place: refused, limits broken, how far the worst of
    /// them is missed, parts.
    fn rank(&self) -> (bool, usize, u32, u32) {
        let missed = if self.broken > 0 { missed(self.left()) } else { 0 };
        (self.refused.is_some(), self.broken, missed, self.way.parts)
    }

    /// Its place before or behind that of another.
    fn against(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank()).then(other.share().total_cmp(&self.share()))
    }

    /// What is left of its tightest limit, re that limit.
    fn share(&self) -> f64 {
        self.tightest.map_or(f64::INFINITY, |(_, margin)| margin.share())
    }

    /// Its tightest limit, for the words.
    fn at(&self) -> Arg {
        let id = self.tightest.map_or("margin", |(id, _)| id);
        Arg::Key(format!("box-or-straight-limit-{id}"))
    }

    /// What is left of it, dB.
    fn left(&self) -> f64 {
        self.tightest.map_or(f64::INFINITY, |(_, margin)| margin.left)
    }
}

/// By how much a limit is missed of which this is left, dB, in [`MISSED_STEPS`].
fn missed(left: f64) -> u32 {
    (-MISSED_STEPS * left).clamp(0.0, 1e6).round() as u32
}

/// Fills in the whole line of a way and has it judged. A padded one takes off
/// at least `excess`.
fn try_way(
    values: &Values,
    sheet: &Sheet,
    asked: &Asked,
    power: &str,
    way: &'static Way,
    excess: f64,
) -> Result<Tried, Fault> {
    let usual = asked.usual;
    let mut filling = Filling::copied(&whole_line::CALCULATOR, &CALCULATOR, values)?;
    filling.choose("source", usual.source);
    filling.choose("power", power);
    let microphone = usual.source == "microphone";
    let emf = if microphone { "microphone_emf" } else { "emf" };
    for (id, value, unit) in [
        (emf, usual.emf, Unit::Volt),
        ("crest", usual.crest, Unit::Decibel),
        ("bass", usual.band.0, Unit::Hertz),
        ("treble", usual.band.1, Unit::Hertz),
    ] {
        filling.put(id, values.optional(id)?.unwrap_or(value), unit);
    }
    let input = match asked.input {
        "line" => LINE_INPUT,
        "instrument" => INSTRUMENT_INPUT,
        _ => &[],
    };
    let isolator: &[_] = if way.isolator { &ISOLATOR } else { &[] };
    for (id, value, unit) in usual.values.iter().chain(input).chain(isolator) {
        filling.put(id, *value, *unit);
    }
    if asked.input == "instrument" {
        filling.choose("run", "unbalanced");
        filling.choose("console_noise", "densities");
    }
    filling.choose("box", way.between);
    let fed = way.id.starts_with("phantom");
    let there = if fed { asked.phantom != "none" } else { asked.phantom == "always" };
    filling.choose("phantom", if there { "p48" } else { "off" });
    filling.choose("powered", if fed { "phantom" } else { "battery" });
    filling.choose("ground", if asked.earthed && !fed { "lifted" } else { "joined" });
    if way.pad {
        let pad = (excess / PAD_STEP).ceil() * PAD_STEP;
        if way.between == "active" {
            filling.put("box_gain", -pad.max(BOX_PAD), Unit::Decibel);
        } else {
            filling.put("pad", pad.min(MOST_PAD), Unit::Decibel);
        }
    }

    let line_values = Values::filled(&whole_line::CALCULATOR, &filling);
    // The working of a way is that of its whole line.
    let mut page = Sheet::new(whole_line::CALCULATOR.id, sheet.depth().min(Depth::Plots));
    let line = Line::solve(&line_values, &mut page.working, false)?;
    words::write(&line_values, &line, &mut page)?;
    let limits = || line.limits.iter().filter_map(|limit| Some((limit.id, limit.margin?)));
    let tightest = limits().min_by(|a, b| a.1.share().total_cmp(&b.1.share()));
    let headroom = values.number("headroom")?;
    // A core does not saturate less for a pad behind it.
    let hot = line.points.iter().filter(|point| !point.names.point.ends_with("box_input"));
    let excess = hot.filter_map(|point| Some(headroom - point.margin()?)).fold(f64::NEG_INFINITY, f64::max);
    Ok(Tried {
        way,
        filling,
        found: line.limits.iter().map(|limit| limit.id).collect(),
        broken: limits().filter(|(_, margin)| margin.left < 0.0).count(),
        refused: line.limits.iter().find(|limit| limit.refused).map(|limit| limit.id),
        tightest,
        excess,
        stop: line.must_stop(),
        solution: page.finish(),
    })
}

fn name(id: &str) -> Arg {
    Arg::Key(format!("box-or-straight-way-{id}"))
}

fn count(number: usize) -> Arg {
    Arg::Text(number.to_string())
}

fn headlines(values: &Values, sheet: &mut Sheet, tried: &[Tried]) -> Result<(), Fault> {
    let best = tried.first().filter(|best| best.refused.is_none());
    let Some(best) = best else {
        sheet.headline("take", None, Unit::One, &[("best", name("nothing"))]);
        sheet.verdict(Tone::Trouble, "verdict-nothing", &[]);
        return working(values, sheet, tried);
    };
    let tied: Vec<_> = tried.iter().skip(1).filter(|line| line.rank() == best.rank()).collect();
    let others: Vec<_> = tied.iter().map(|other| sheet.word(format!("way-{}", other.way.id), &[])).collect();
    let args = [
        ("best", name(best.way.id)),
        ("broken", count(best.broken)),
        ("others", Arg::Messages(others)),
        ("at", best.at()),
    ];
    let take = if best.stop { name("nothing") } else { name(best.way.id) };
    sheet.headline("take", None, Unit::One, &[("best", take)]);
    match (best.broken, tied.len()) {
        // Nobody is to plug anything in there.
        _ if best.stop => sheet.verdict(Tone::Trouble, "verdict-stop", &args),
        (0, 0) => sheet.verdict(Tone::Fine, "verdict-take", &args),
        (0, _) => sheet.verdict(Tone::Fine, "verdict-take-tied", &args),
        (_, 0) => sheet.verdict(Tone::Trouble, "verdict-take-broken", &args),
        _ => sheet.verdict(Tone::Trouble, "verdict-take-broken-tied", &args),
    }
    sheet.headline("broken", best.broken as f64, Unit::One, &args);
    sheet.headline("tightest", best.left(), Unit::Decibel, &args);
    sheet.headline("parts", f64::from(best.way.parts), Unit::One, &args);
    let nearest = tried.iter().filter(|line| line.refused.is_none()).max_by(|a, b| a.share().total_cmp(&b.share()));
    if let Some(nearest) = nearest.filter(|nearest| best.broken > 0 && nearest.share() > best.share()) {
        let by = ("by", Arg::Quantity(-nearest.left(), Unit::Decibel));
        sheet.warn("nearest", &[("nearest", name(nearest.way.id)), by]);
    }
    let next = tried.iter().skip(1).find(|line| line.refused.is_none());
    if let Some(next) = next {
        let args = [("next", name(next.way.id))];
        sheet.headline("next_broken", next.broken as f64, Unit::One, &args);
    }
    for id in ["loss", "loss_bass", "snr", "signal_to_hum", "margin", "level"] {
        if let Some(reading) = best.solution.reading(id) {
            sheet.further(id, reading.value, reading.unit, &args);
        }
    }
    sheet.link_to("link-best", &args, &best.filling);
    working(values, sheet, tried)
}

/// What every way has left of its tightest limit.
fn working(values: &Values, sheet: &mut Sheet, tried: &[Tried]) -> Result<(), Fault> {
    if !sheet.wants_working() {
        return Ok(());
    }
    for (symbol, id) in [("a_max", "loss_most"), ("a_min", "snr_least"), ("a_SH", "hum_least"), ("h", "headroom")] {
        sheet.given(symbol, values.number(id)?, Unit::Decibel);
    }
    for line in tried {
        let mut terms = Vec::new();
        for (id, symbol, term) in [
            ("loss", "a_T", "(a_max - a_T)/max(a_max, 1)"),
            ("loss_bass", "a_B", "(a_max - a_B)/max(a_max, 1)"),
            ("snr", "S", "(S - a_min)/max(a_min, 1)"),
            ("signal_to_hum", "S_H", "(S_H - a_SH)/max(a_SH, 1)"),
            ("margin", "m", "(m - h)/max(h, 1)"),
        ] {
            if let Some(value) = line.solution.reading(id).and_then(|reading| reading.value) {
                sheet.given(symbol, value, Unit::Decibel);
                terms.push(term);
            }
        }
        sheet.step_with(
            "step-share",
            &[("way", name(line.way.id))],
            "q",
            &format!("min({})", terms.join(", ")),
            Unit::Percent,
        )?;
    }
    Ok(())
}

fn candidate(sheet: &mut Sheet, line: &Tried, tried: &[Tried]) {
    if !sheet.wants_words() {
        return;
    }
    let same = tried.iter().filter(|other| other.rank() == line.rank()).count();
    let better = tried.iter().filter(|other| other.rank() < line.rank()).count();
    let fewer = tried.iter().any(|other| other.rank() < line.rank() && other.broken == line.broken);
    let (tone, word) = match (line.refused, line.broken) {
        (Some(finding), _) => (Tone::Trouble, format!("refused-{finding}")),
        (None, 0) if better == 0 && same == 1 => (Tone::Fine, "place-best".to_owned()),
        (None, 0) if same > 1 => (Tone::Fine, "place-tied".to_owned()),
        (None, 0) if fewer => (Tone::Fine, "place-parts".to_owned()),
        (None, 0) => (Tone::Fine, "place-best".to_owned()),
        (None, 1) => (Tone::Trouble, "place-broken-one".to_owned()),
        (None, _) => (Tone::Trouble, "place-broken".to_owned()),
    };
    let args = [
        ("broken", count(line.broken)),
        ("parts", count(line.way.parts as usize)),
        ("at", line.at()),
        ("by", Arg::Quantity(line.left().abs(), Unit::Decibel)),
    ];
    let reading = |id: &&str| line.solution.reading(id).cloned();
    let links = line.solution.links.iter().cloned();
    let reasons = line.found.iter().zip(links).filter_map(|(id, link)| Some(Reason { reading: reading(id)?, link }));
    let link = sheet.linked(sheet.word("link-line", &[]), &line.filling);
    let candidate = Candidate {
        id: line.way.id,
        name: sheet.word(format!("way-{}", line.way.id), &[]),
        place: line.refused.is_none().then(|| better as u32 + 1),
        verdict: Verdict { tone, text: sheet.word(word, &args) },
        reasons: reasons.collect(),
        link,
    };
    sheet.candidate(candidate);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Boxes, pads and batteries to be brought, counted by hand: the pad of an
    /// active box is its own switch.
    #[test]
    fn parts_of_every_way() {
        let counted = [
            ("straight", 0),
            ("straight_pad", 1),
            ("isolator", 1),
            ("isolator_pad", 2),
            ("passive", 1),
            ("phantom", 1),
            ("phantom_pad", 1),
            ("battery", 2),
            ("battery_pad", 2),
        ];
        assert_eq!(WAYS.map(|way| (way.id, way.parts)), counted);
    }

    /// To a tenth of a decibel (common practice, no source).
    #[test]
    fn misses_are_told_to_a_tenth() {
        for (left, tenths) in [(-0.049, 0), (-0.051, 1), (-1.549, 15), (-1.551, 16), (3.0, 0)] {
            assert_eq!(missed(left), tenths, "{left}");
        }
    }
}
