//! What is put into a show so that wires of its map are isolated: of the drawer where there
//! is some free, else what is usual.

use super::answer::{InputAt, Isolate, WireKind};
use super::plan::Wire;
use super::told::Told;
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Values;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::run::{RUN, Run};
use crate::field::source::{SOURCE, SourceKind};
use crate::named::Named;
use crate::stage::fill::filled;
use crate::stage::ground::Ends;
use crate::stage::row::solved;
use crate::stage::show::{Gear, GearKind, InputLine, LinkKind, Show, SplitKind};
use crate::stage::spare::{Part, free, is_free, with_box};

/// Isolates wire after wire of a show.
pub(super) struct Fitting<'a> {
    /// The show as far as it is changed.
    pub show: Show,
    before: &'a Show,
    told: &'a Told<'a>,
    /// What was put in, one by one.
    parts: Vec<Part>,
}

impl<'a> Fitting<'a> {
    pub(super) fn new(before: &'a Show, told: &'a Told<'a>) -> Self {
        Self { show: before.clone(), before, told, parts: Vec::new() }
    }

    /// Isolates a wire in the show, and says how.
    pub(super) fn isolate(&mut self, at: usize, wire: &Wire, split: bool) -> Isolate {
        let told = Isolate { wire: at, split, lift: wire.lift.is_some() && !split, ..Isolate::default() };
        if wire.kind == WireKind::Link {
            return self.link(wire, told);
        }
        let Some(place) = self.show.lines.iter().position(|line| line.id == wire.id) else { return told };
        if split {
            self.show.lines[place].split = SplitKind::Transformer;
            return Isolate { what: self.told.text("isolate-split", &[("name", &wire.name)]), ..told };
        }
        if let Some(lift) = &wire.lift {
            let line = &mut self.show.lines[place];
            line.values.insert(GROUND.id(), Ground::Lifted.id().to_owned());
            let (di, values) = (line.di.clone(), Some(line.values.clone()));
            let key = if lift.is_empty() { "isolate-lift" } else { "isolate-lift-of" };
            let what = self.told.text(key, &[("name", &wire.name), ("box", lift)]);
            return Isolate { what, gear: di, values, ..told };
        }
        self.part(place, &wire.name, at)
    }

    /// Isolates a lead that is in no line.
    fn link(&mut self, wire: &Wire, told: Isolate) -> Isolate {
        let (key, ends) = match wire.link {
            Some(LinkKind::Audio) => ("isolate-audio", Ends::Transformer),
            Some(LinkKind::Network) => ("isolate-network", Ends::Transformer),
            Some(LinkKind::Usb) => ("isolate-usb", Ends::Optical),
            Some(LinkKind::Video) => ("isolate-video", Ends::Optical),
            Some(LinkKind::Metalwork) | None => return told,
        };
        if let Some(link) = self.show.links.iter_mut().find(|link| link.id == wire.id) {
            link.ends = ends;
        }
        if wire.link == Some(LinkKind::Audio) {
            self.parts.push(Part::Isolator);
        }
        Isolate { what: self.told.text(key, &[("name", &wire.name)]), ends: Some(ends), ..told }
    }

    /// Puts a part into a line that has none.
    fn part(&mut self, place: usize, name: &str, at: usize) -> Isolate {
        let line = self.show.lines[place].clone();
        let wanted = self.wanted(&line);
        let (gear, made) = match self.of_drawer(&line, wanted) {
            Some(gear) => (gear, false),
            None => self.usual(wanted[0]),
        };
        let part = Part::of(&gear).unwrap_or(Part::Isolator);
        self.parts.push(part);
        let line = with_box(&line, &gear, part != Part::Isolator);
        let key = match part {
            Part::Isolator => "isolate-run-with",
            Part::Passive | Part::Active => "isolate-di-with",
        };
        let what = self.told.text(key, &[("name", name), ("part", &gear.name)]);
        let values = Some(line.values.clone());
        self.show.lines[place] = line;
        Isolate { wire: at, what, gear: gear.id.clone(), made: made.then_some(gear), values, ..Isolate::default() }
    }

    /// What makes sense on a line, the best first: a line isolator loads what has a high
    /// resistance, and what goes unbalanced into a balanced run wants a DI box.
    fn wanted(&self, line: &InputLine) -> &'static [Part] {
        let (values, _) = Values::read(&CALCULATOR, &filled(&self.show, line), &self.show.settings());
        let is_balanced_run = values.choice(RUN).is_ok_and(|run| run == Run::Balanced);
        match values.choice(SOURCE) {
            Ok(SourceKind::Pickup | SourceKind::Piezo) => &[Part::Active, Part::Passive],
            Ok(SourceKind::Output | SourceKind::Loudspeaker) if is_balanced_run => {
                &[Part::Passive, Part::Active, Part::Isolator]
            }
            _ => &[Part::Isolator, Part::Passive, Part::Active],
        }
    }

    /// Gear of the drawer that is free, isolates the line and makes it miss nothing else.
    fn of_drawer(&self, line: &InputLine, wanted: &[Part]) -> Option<Gear> {
        let settings = self.show.settings();
        let of = |line: &InputLine| solved(&filled(&self.show, line), &settings);
        let hums = |reading: &&str| InputAt::READINGS.contains(reading);
        let before = of(line);
        let serves = |gear: &&Gear, part: Part| {
            let after = of(&with_box(line, gear, part != Part::Isolator));
            let kept = before.misses();
            let misses_more = after.misses().iter().any(|reading| !hums(reading) && !kept.contains(reading));
            after.problems.is_empty() && !misses_more && (before.stop || !after.stop)
        };
        let one = |part: &Part| {
            let all = self.show.gear.iter().filter(|gear| Part::of(gear) == Some(*part) && is_free(&self.show, gear));
            all.into_iter().find(|gear| serves(gear, *part)).cloned()
        };
        wanted.iter().find_map(one)
    }

    /// What is usual, which has still to be got, and whether the drawer does not name it yet.
    fn usual(&mut self, part: Part) -> (Gear, bool) {
        let (key, kind, values) = match part {
            Part::Isolator => ("usual-isolator", GearKind::Isolator, ISOLATOR),
            Part::Passive => ("usual-passive", GearKind::Di, PASSIVE),
            Part::Active => ("usual-active", GearKind::Di, ON_BATTERY),
        };
        let name = self.told.text(key, &[]);
        if let Some(known) = self.show.gear.iter().find(|gear| gear.kind == kind && gear.name == name) {
            let is_new = self.before.gear(&known.id).is_none();
            return (known.clone(), is_new);
        }
        let mut ids = (1..=self.show.gear.len() + 1).map(|n| format!("{key}-{n}"));
        let id = ids.find(|id| self.show.gear(id).is_none()).unwrap_or_default();
        let values = Named::distinct(values.iter().map(|(id, text)| (*id, (*text).to_owned())));
        let gear = Gear { id, name, kind, values, count: Some(0), ..Gear::default() };
        self.show.gear.push(gear.clone());
        (gear, true)
    }

    /// What the drawer is short of.
    pub(super) fn short(&self) -> Vec<String> {
        let of = |(part, key): (Part, &str)| {
            let needs = self.parts.iter().filter(|used| **used == part).count();
            let all = self.before.gear.iter().filter(|gear| Part::of(gear) == Some(part));
            let has = all.map(|gear| free(self.before, gear)).try_fold(0, |sum, free| Some(sum + free?))?;
            let [short, has, needs] = [needs.saturating_sub(has), has, needs].map(|count| count.to_string());
            let text = || self.told.text(key, &[("short", &short), ("has", &has), ("needs", &needs)]);
            (short != "0").then(text)
        };
        let parts =
            [(Part::Isolator, "short-isolator"), (Part::Passive, "short-passive"), (Part::Active, "short-active")];
        parts.into_iter().filter_map(of).collect()
    }
}

/// What has still to be got: usual values, an isolator of one to one (common practice, no
/// source).
const ISOLATOR: &[(&str, &str)] =
    &[("ratio", "1:1"), ("r1", "60"), ("r2", "60"), ("magnetising", "20 H"), ("largest", "+18 dBu")];
const PASSIVE: &[(&str, &str)] = &[(BOX.id(), BoxKind::Passive.id())];
const ON_BATTERY: &[(&str, &str)] = &[(BOX.id(), BoxKind::Active.id()), (POWERED.id(), BoxSupply::Battery.id())];
