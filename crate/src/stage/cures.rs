//! What would mend a row, each cure with what it mends and what it leaves, on the stage as
//! it is then.

use super::fill::{filled, source_power};
use super::map::line_hums;
use super::row::{Figure, FigureKind, Row, solve_row};
use super::show::{EquipmentPower, GearKind, InputLine, Show};
use super::spare::{Part, is_free, with_box};
use crate::ask;
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Values;
use crate::field::active_box::BOX_R;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::pad::PAD;
use crate::field::run::RUN;
use crate::field::source::{SOURCE, SourceKind};
use crate::field::split::{SPLIT, Split};
use crate::named::Named;
use crate::report::Depth;
use crate::settings::Settings;
use crate::words::{Arg, Words};
use serde::Serialize;

/// At most so many are told.
const MOST: usize = 6;
/// What of the limits is missed less by a cure that is not enough: less helps nobody, and
/// is 3 dB of 60.
const HELPS: f64 = 0.05;

/// One way to mend a row.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct RowCure {
    /// What to do, in the reader's words.
    pub text: String,
    /// The readings that keep their limits then.
    pub fixes: Vec<&'static str>,
    /// The figures that miss theirs even then.
    pub left: Vec<Figure>,
    /// Gear of the drawer that is put on the line; empty where it is none.
    pub gear: String,
    /// Where that goes: `di` or `pad`; empty where it goes nowhere.
    pub place: &'static str,
    /// Whether it takes no part that the drawer does not have.
    pub has: bool,
    /// Fields that change, under the settings of the show; with gear all of the line's own.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
}

/// A change of a line that may mend it.
struct Trial {
    text: String,
    line: InputLine,
    place: &'static str,
    has: bool,
    /// Of the fields alone, where no gear does it.
    values: Option<Named<String>>,
    /// The box or isolator that goes on the line; nothing where none does.
    boxed: Option<Boxed>,
}

/// A box or isolator on trial.
#[derive(Clone)]
struct Boxed {
    part: Part,
    /// That of the drawer; empty for one that the drawer does not have.
    gear: String,
    is_lifted: bool,
}

/// A change that does mend it.
struct Found {
    cure: RowCure,
    boxed: Option<Boxed>,
}

impl Found {
    fn is_box(&self, part: Part) -> bool {
        self.boxed.as_ref().is_some_and(|boxed| boxed.part == part)
    }

    /// Whether it is the same box, but for its ground lift and the run behind it.
    fn is_same_box(&self, other: &Self) -> bool {
        let (Some(one), Some(another)) = (&self.boxed, &other.boxed) else { return false };
        let rest = |found: &Self| {
            let values = found.cure.values.iter().filter(|(id, _)| ![GROUND.id(), RUN.id()].contains(id));
            values.map(|(id, text)| (id.to_owned(), text.clone())).collect::<Vec<_>>()
        };
        one.part == another.part && one.gear == another.gear && rest(self) == rest(other)
    }

    /// Whether a box of the drawer does as much as this one, which has still to be got.
    fn is_covered_by(&self, other: &Self) -> bool {
        let (Some(one), Some(another)) = (&self.boxed, &other.boxed) else { return false };
        let is_to_get = one.gear.is_empty() && !another.gear.is_empty() && one.part == another.part;
        is_to_get
            && other.cure.left.len() <= self.cure.left.len()
            && self.cure.fixes.iter().all(|reading| other.cure.fixes.contains(reading))
    }
}

/// What about a line decides which cure one would rather take.
struct Taste {
    box_first: BoxFirst,
    /// An output that is too loud for its input, and misses nothing else, wants a pad.
    is_hot: bool,
    hums: bool,
}

/// Which box one would rather take.
#[derive(Clone, Copy, PartialEq)]
enum BoxFirst {
    /// Nothing but a high resistance takes the bass of a piezo: a passive box comes last.
    Active,
    /// A transformer suits an output of line level on a safety earth: it parts the earths.
    Passive,
    Either,
}

impl Taste {
    fn of(show: &Show, line: &InputLine, values: &Values, before: &Row) -> Self {
        let source = values.choice(SOURCE).ok();
        let is_output = matches!(source, Some(SourceKind::Output | SourceKind::Balanced));
        let box_first = match source {
            Some(SourceKind::Piezo) => BoxFirst::Active,
            _ if is_output && source_power(show, line) == Some(EquipmentPower::Earthed) => BoxFirst::Passive,
            _ => BoxFirst::Either,
        };
        let missed = || before.figures.iter().filter(|figure| figure.is_missed());
        Self {
            box_first,
            is_hot: is_output && missed().all(|figure| figure.kind == FigureKind::Headroom),
            hums: missed().any(|figure| figure.kind == FigureKind::Hum),
        }
    }

    /// What comes first.
    fn rank(&self, found: &Found) -> (bool, bool, bool, usize, bool) {
        let is_active = found.is_box(Part::Active);
        (
            self.box_first == BoxFirst::Active && found.boxed.is_some() && !is_active,
            self.is_hot && found.boxed.is_some(),
            !found.cure.has,
            found.cure.left.len(),
            self.box_first == BoxFirst::Passive && is_active,
        )
    }

    /// Whether one would not name it beside another, which does as much.
    fn leaves_out(&self, found: &Found, other: &Found) -> bool {
        // Against hum a lift is what one wants, else it stays off; then what changes least.
        let effort = |one: &Found| {
            let is_lifted = one.boxed.as_ref().is_some_and(|boxed| boxed.is_lifted);
            (one.cure.left.len(), is_lifted != self.hums, one.cure.values.iter().count())
        };
        found.is_same_box(other) && effort(other) < effort(found) || found.is_covered_by(other)
    }
}

/// What would mend the limits that a line misses, what needs no part that is not there first.
pub fn cures(show: &Show, id: &str, settings: &Settings) -> Vec<RowCure> {
    let Some(place) = show.lines.iter().position(|line| line.id == id) else { return Vec::new() };
    let line = &show.lines[place];
    let before = on_stage(show, line);
    if !before.problems.is_empty() || before.missed == 0 {
        return Vec::new();
    }
    let (values, _) = Values::read(&CALCULATOR, &filled(show, line), &show.settings());
    // Nobody plugs anything in before that is found.
    if CALCULATOR.solution(&values, Depth::Readings).is_ok_and(|solution| solution.stop) {
        return Vec::new();
    }
    let taste = Taste::of(show, line, &values, &before);
    let mut trials = of_drawer(show, line, settings);
    trials.extend(usual(line, &values, settings));
    trials.extend(settled(show, line, &values, settings));
    let mut changed = show.clone();
    let mut found: Vec<Found> = Vec::new();
    for trial in trials {
        if found.iter().any(|known| known.cure.text == trial.text) {
            continue;
        }
        changed.lines[place] = trial.line.clone();
        if let Some(cure) = tried(&changed, &before, &trial) {
            found.push(Found { cure, boxed: trial.boxed });
        }
    }
    let is_told = |one: &&Found| !found.iter().any(|other| taste.leaves_out(one, other));
    let mut told: Vec<_> = found.iter().filter(is_told).collect();
    told.sort_by_key(|one| taste.rank(one));
    told.into_iter().map(|one| one.cure.clone()).take(MOST).collect()
}

/// What a change comes to; nothing where it is no cure.
fn tried(show: &Show, before: &Row, trial: &Trial) -> Option<RowCure> {
    let after = on_stage(show, &trial.line);
    let missed = |row: &Row| row.figures.iter().filter(|figure| figure.is_missed()).cloned().collect::<Vec<_>>();
    let (was, left) = (missed(before), missed(&after));
    let knew = |figure: &Figure| was.iter().any(|other| other.reading == figure.reading);
    let can_harm = after.stop || !after.problems.is_empty();
    if can_harm || !left.iter().all(knew) {
        return None;
    }
    let missing = |figures: &[Figure]| figures.iter().filter_map(|figure| Some(-figure.share?)).sum::<f64>();
    let is_left = |reading: &str| left.iter().any(|figure| figure.reading == reading);
    let fixes: Vec<_> = was.iter().map(|figure| figure.reading).filter(|reading| !is_left(reading)).collect();
    let worse = |figure: &Figure| {
        was.iter().any(|other| other.reading == figure.reading && figure.share < other.share.map(|share| share - HELPS))
    };
    if left.iter().any(worse) || fixes.is_empty() && missing(&was) - missing(&left) < HELPS {
        return None;
    }
    let gear = match trial.place {
        "di" => trial.line.di.clone(),
        "pad" => trial.line.pad.clone(),
        _ => String::new(),
    };
    let values = trial.values.clone().unwrap_or_else(|| trial.line.values.clone());
    Some(RowCure { text: trial.text.clone(), fixes, left, gear, place: trial.place, has: trial.has, values })
}

/// A row with everything on the stage plugged in.
fn on_stage(show: &Show, line: &InputLine) -> Row {
    let mut row = solve_row(show, line);
    line_hums(show).iter().filter(|hum| hum.line == line.id).for_each(|hum| row.hum_on_stage(hum));
    row
}

fn word(key: &str, gear: &str, settings: &Settings) -> String {
    Words::of(settings.language).text(key, &[("gear", Arg::name(gear))], settings)
}

/// Boxes, isolators and pads that are free.
fn of_drawer(show: &Show, line: &InputLine, settings: &Settings) -> Vec<Trial> {
    let mut trials = Vec::new();
    for gear in show.gear.iter().filter(|gear| is_free(show, gear)) {
        let trial = |key, line, place, boxed| Trial {
            text: word(key, &gear.name, settings),
            line,
            place,
            has: true,
            values: None,
            boxed,
        };
        match Part::of(gear).filter(|_| gear.id != line.di) {
            Some(part) => {
                let boxed = |is_lifted| Some(Boxed { part, gear: gear.id.clone(), is_lifted });
                trials.push(trial("stage-cure-use", with_box(line, gear, false), "di", boxed(false)));
                if part != Part::Isolator {
                    trials.push(trial("stage-cure-use-lifted", with_box(line, gear, true), "di", boxed(true)));
                }
            }
            None if gear.kind == GearKind::Pad && gear.id != line.pad => {
                let line = InputLine { pad: gear.id.clone(), ..line.clone() };
                trials.push(trial("stage-cure-use", line, "pad", None));
            }
            None => {}
        }
    }
    trials
}

/// A change of fields, with its word: box, ground or split.
type Usual = (&'static str, &'static [(&'static str, &'static str)]);

/// What one does against hum, and boxes that the drawer does not have.
const USUAL: &[Usual] = &[
    ("common-cure-ground-lifted", &[(GROUND.id(), Ground::Lifted.id())]),
    ("common-cure-split-transformer", &[(SPLIT.id(), Split::Transformer.id())]),
    ("common-cure-box-active", &[(BOX.id(), BoxKind::Active.id())]),
    ("common-cure-box-active-battery", &[(BOX.id(), BoxKind::Active.id()), (POWERED.id(), BoxSupply::Battery.id())]),
    ("common-cure-box-passive", &[(BOX.id(), BoxKind::Passive.id())]),
    ("common-cure-box-passive-lifted", &[(BOX.id(), BoxKind::Passive.id()), (GROUND.id(), Ground::Lifted.id())]),
];

fn usual(line: &InputLine, values: &Values, settings: &Settings) -> Vec<Trial> {
    let boxed = values.choice(BOX).is_ok_and(|kind| kind != BoxKind::None);
    let is_split = values.choice(SPLIT).is_ok_and(Split::is_joined);
    let counts = |changes: &[(&str, &str)]| match changes[0].0 {
        id if id == GROUND.id() => boxed,
        id if id == SPLIT.id() => is_split,
        _ => !boxed,
    };
    let of = |(key, changes): &Usual| {
        let changes = Named::distinct(changes.iter().map(|(id, answer)| (*id, (*answer).to_owned())));
        changed(line, word(key, "", settings), changes)
    };
    USUAL.iter().filter(|(_, changes)| counts(changes)).map(of).collect()
}

/// The smallest changes that mend the line by itself.
fn settled(show: &Show, line: &InputLine, values: &Values, settings: &Settings) -> Vec<Trial> {
    let own = show.settings();
    let Ok(filling) = CALCULATOR.filling_from(&CALCULATOR, values) else { return Vec::new() };
    let now = Named::distinct(filling.entries().into_iter().map(|(id, entry)| (id, entry.text(&own))));
    let of = |(told, written): (ask::Cure, ask::Cure)| {
        let mut changes = Named::default();
        for (id, text) in written.link.values.iter().filter(|(id, text)| now.get(id) != Some(text)) {
            changes.insert(id.to_owned(), text.clone());
        }
        changed(line, told.link.text, changes)
    };
    let [told, written] = [settings, &own].map(|settings| ask::cures(&CALCULATOR, values, settings));
    told.into_iter().zip(written).map(of).collect()
}

/// A change of fields alone.
fn changed(line: &InputLine, text: String, values: Named<String>) -> Trial {
    let mut line = line.clone();
    for (id, text) in values.iter() {
        line.values.insert(id.to_owned(), text.clone());
    }
    let takes = |id: &str| values.get(id).is_some();
    let answers = |id: &str, answer: &str| values.get(id).is_some_and(|text| text == answer);
    let part = if answers(BOX.id(), BoxKind::Passive.id()) {
        Some(Part::Passive)
    } else {
        answers(BOX.id(), BoxKind::Active.id()).then_some(Part::Active)
    };
    let is_lifted = answers(GROUND.id(), Ground::Lifted.id());
    let boxed = part.map(|part| Boxed { part, gear: String::new(), is_lifted });
    // A DI with another input is another DI.
    let has = !takes(PAD.id) && !takes(BOX_R.id) && boxed.is_none();
    Trial { text, line, place: "", has, values: Some(values), boxed }
}
