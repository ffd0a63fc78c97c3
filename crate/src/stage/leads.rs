//! The leads that the lines of a show take, by kind and length, against the drawer.

use super::fill::{field, quantity};
use super::joins::{Piece, SAME_LENGTH, Want, joined};
use super::show::{Carried, Gear, GearKind, InputLine, Show, SplitKind};
use crate::ask::Entry;
use crate::field::direct_box::{BOX, BoxKind};
use crate::field::lead::LEAD_LENGTH;
use crate::field::run::{RUN, RUN_LENGTH, Run};
use crate::field::source::{SOURCE, SourceKind};
use crate::field::thru::{THRU, THRU_LENGTH, ThruLoad};
use crate::field::{Kind, Values};
use crate::named::Named;
use crate::quantity::{Unit, read};
use serde::Serialize;

/// Leads of one kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LeadCount {
    /// What it is called, its length left out; empty where the lines name no lead of the
    /// drawer.
    pub name: String,
    /// What the drawer has of it, the shortest first.
    pub pieces: Vec<PieceCount>,
    /// What the lines take.
    pub needs: Vec<LeadNeed>,
    /// Whether nothing else out of the drawer leaves less missing or takes fewer joints.
    pub proved: bool,
}

/// Pieces of one length.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PieceCount {
    /// m; nothing where the drawer does not say.
    pub length: f64,
    /// How many are taken.
    pub used: usize,
    /// How many there are; nothing where one of them is not counted.
    pub have: Option<u32>,
}

/// Which lead of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum LeadPlace {
    /// The first lead.
    First,
    /// The run.
    Run,
    /// From the split to the second destination.
    Second,
    /// From the thru to the amplifier.
    Thru,
}

/// Leads of one length for one place.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LeadNeed {
    /// Where they lie.
    pub place: LeadPlace,
    /// m; nothing where nobody says.
    pub length: f64,
    /// Whether nobody states the length and the line is worked out with this one.
    pub assumed: bool,
    /// The lines, in their order.
    pub lines: Vec<String>,
    /// What they are made of; what is in none of these is missing.
    pub made: Vec<LeadMade>,
    /// How many are missing.
    pub missing: usize,
}

/// Leads that are made alike.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LeadMade {
    /// Of which lines.
    pub lines: Vec<String>,
    /// The lengths of the pieces, m, the longest first.
    pub pieces: Vec<f64>,
}

/// A lead of a line.
struct Lead<'a> {
    line: &'a str,
    place: LeadPlace,
    gear: Option<&'a Gear>,
    assumed: bool,
    want: Want,
}

/// The leads of a show that are counted so far.
#[derive(Default)]
pub(super) struct Leads<'a>(Vec<Lead<'a>>);

impl<'a> Leads<'a> {
    /// Adds the leads of a line.
    ///
    /// A lead between an instrument and its first box is one piece: a joint would be one
    /// more contact in an unbalanced line of high impedance, and its length sets the tone,
    /// so no other stands in for it. A balanced run may be joined, or longer.
    pub(super) fn add(&mut self, show: &'a Show, line: &'a InputLine, filled: &Named<Entry>, values: &Values) {
        let (first, run) = (show.gear(&line.lead), show.gear(&line.run));
        let length = |id| values.stands_in(id).unwrap_or_default();
        let is_balanced = values.choice(SOURCE).is_ok_and(SourceKind::is_balanced);
        let mut put = |place, gear, length, is_joinable: bool, or_longer: bool, assumed: bool| {
            let want = Want { length, one_piece: !is_joinable, or_longer: or_longer || is_joinable };
            self.0.push(Lead { line: &line.id, place, gear, assumed, want });
        };
        let first_length = length(LEAD_LENGTH.id);
        if first.is_some() || first_length > 0.0 {
            put(LeadPlace::First, first, first_length, is_balanced, false, false);
        }
        let run_length = length(RUN_LENGTH.id);
        let is_joinable = line.carried == Carried::Wire && values.choice(RUN).is_ok_and(|run| run == Run::Balanced);
        let is_fibre = line.carried == Carried::Fibre;
        if line.carried != Carried::Radio && (run.is_some() || run_length > 0.0) {
            put(LeadPlace::Run, run, run_length, is_joinable, is_fibre, false);
        }
        if line.split != SplitKind::None && !line.second.is_empty() {
            // The figures take it to be like the run.
            let run_length = if line.carried == Carried::Radio { 0.0 } else { run_length };
            put(LeadPlace::Second, run, run_length, is_joinable, true, true);
        }
        let is_box = values.choice(BOX).is_ok_and(|kind| kind != BoxKind::None);
        if is_box && values.choice(THRU).is_ok_and(|thru| thru != ThruLoad::None) {
            let assumed = filled.get(THRU_LENGTH.id).is_none();
            put(LeadPlace::Thru, first, length(THRU_LENGTH.id), false, assumed, assumed);
        }
    }

    /// All of them by kind, each against the drawer.
    pub(super) fn against(self, show: &Show) -> Vec<LeadCount> {
        let drawer: Vec<&Gear> = show.gear.iter().filter(|gear| gear.kind == GearKind::Lead).collect();
        let mut kinds: Vec<(Option<LeadKind>, Vec<&Gear>, Vec<Lead>)> = Vec::new();
        for gear in drawer {
            let kind = Some(LeadKind::of(show, gear));
            match kinds.iter_mut().find(|(known, _, _)| *known == kind) {
                Some((_, gears, _)) => gears.push(gear),
                None => kinds.push((kind, vec![gear], Vec::new())),
            }
        }
        kinds.push((None, Vec::new(), Vec::new()));
        for lead in self.0 {
            let is_of = |gears: &[&Gear]| gears.iter().any(|gear| lead.gear.is_some_and(|lead| lead.id == gear.id));
            let place = kinds.iter().position(|(_, gears, _)| is_of(gears)).unwrap_or(kinds.len() - 1);
            kinds[place].2.push(lead);
        }
        let used = kinds.into_iter().filter(|(_, _, leads)| !leads.is_empty());
        used.map(|(kind, gears, leads)| count(show, kind.map_or_else(String::new, |kind| kind.name), &gears, &leads))
            .collect()
    }
}

/// Counts the leads of one kind.
fn count(show: &Show, name: String, gears: &[&Gear], leads: &[Lead]) -> LeadCount {
    let pieces = pieces(show, gears);
    let mut needs = needs(leads);
    if gears.is_empty() {
        let needs = needs.into_iter().map(|(need, _)| need).collect();
        return LeadCount { name, needs, pieces: Vec::new(), proved: true };
    }
    let mut wants: Vec<(Want, usize)> = Vec::new();
    for (need, want) in &needs {
        match wants.iter_mut().find(|(known, _)| known == want) {
            Some((_, count)) => *count += need.lines.len(),
            None => wants.push((*want, need.lines.len())),
        }
    }
    let mut plan = joined(&pieces, &wants);
    let mut used = vec![0; pieces.len()];
    for (need, want) in &mut needs {
        let Some(place) = wants.iter().position(|(known, _)| known == want) else { continue };
        let mut open = need.lines.iter();
        for (way, left) in &mut plan.ways[place] {
            let lines: Vec<String> = open.by_ref().take(*left).cloned().collect();
            *left -= lines.len();
            if !lines.is_empty() {
                for piece in way.iter() {
                    used[*piece] += lines.len();
                }
                need.made.push(LeadMade { lines, pieces: way.iter().map(|piece| pieces[*piece].length).collect() });
            }
        }
        need.missing = open.count();
    }
    let pieces =
        pieces.iter().zip(used).map(|(piece, used)| PieceCount { length: piece.length, used, have: piece.have });
    LeadCount {
        name,
        pieces: pieces.collect(),
        needs: needs.into_iter().map(|(need, _)| need).collect(),
        proved: plan.proved,
    }
}

/// What the drawer has of one kind, by length.
fn pieces(show: &Show, gears: &[&Gear]) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    for gear in gears {
        let text = gear.values.get(LEAD_LENGTH.id);
        let length = text.and_then(|text| quantity(show, text, Unit::Metre)).unwrap_or_default();
        if let Some(piece) = pieces.iter_mut().find(|piece| (piece.length - length).abs() < SAME_LENGTH) {
            piece.have = piece.have.zip(gear.count).map(|(known, more)| known.saturating_add(more));
        } else {
            let at = pieces.partition_point(|piece| piece.length <= length);
            pieces.insert(at, Piece { length, have: gear.count });
        }
    }
    pieces
}

/// Leads that are alike, together.
fn needs(leads: &[Lead]) -> Vec<(LeadNeed, Want)> {
    let mut needs: Vec<(LeadNeed, Want)> = Vec::new();
    for Lead { line, place, assumed, want, .. } in leads {
        let is_alike = |(need, known): &&mut (LeadNeed, Want)| {
            let is_long = (known.length - want.length).abs() < SAME_LENGTH;
            let is_made = (known.one_piece, known.or_longer) == (want.one_piece, want.or_longer);
            need.place == *place && need.assumed == *assumed && is_long && is_made
        };
        if let Some((need, _)) = needs.iter_mut().find(is_alike) {
            need.lines.push((*line).to_owned());
        } else {
            let (lines, length) = (vec![(*line).to_owned()], want.length);
            let need = LeadNeed { place: *place, length, assumed: *assumed, lines, made: Vec::new(), missing: 0 };
            let order = |need: &LeadNeed| (need.place as u8, need.length);
            let at = needs.partition_point(|(known, _)| order(known) <= order(&need));
            needs.insert(at, (need, *want));
        }
    }
    needs
}

/// What leads must share to be joined: the name without the length, and all values but
/// the length.
struct LeadKind<'a> {
    name: String,
    values: Vec<(&'a str, Meant<'a>)>,
}

/// What a text means, however it is written.
enum Meant<'a> {
    Number(f64),
    Text(&'a str),
}

/// Two numbers that differ by less, relative, mean the same.
const SAME: f64 = 1e-6;

impl PartialEq for Meant<'_> {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Number(a), Self::Number(b)) => (a - b).abs() <= SAME * a.abs(),
            (Self::Text(a), Self::Text(b)) => a.trim().eq_ignore_ascii_case(b.trim()),
            _ => false,
        }
    }
}

impl PartialEq for LeadKind<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.name.eq_ignore_ascii_case(&other.name)
            && self.values.len() == other.values.len()
            && self.values.iter().all(|value| other.values.contains(value))
    }
}

impl<'a> LeadKind<'a> {
    fn of(show: &Show, gear: &'a Gear) -> Self {
        let others = gear.values.iter().filter(|(id, _)| *id != LEAD_LENGTH.id);
        let values = others.map(|(id, text)| (id, meant(show, id, text))).collect();
        let bare = without_length(&gear.name);
        let name =
            if bare.is_empty() { if gear.name.is_empty() { &gear.id } else { &gear.name }.clone() } else { bare };
        Self { name, values }
    }
}

fn meant<'a>(show: &Show, id: &str, text: &'a str) -> Meant<'a> {
    let number = match field(id).map(|field| &field.kind) {
        Some(Kind::Number(number)) => read(text, number.unit, number.bare, &show.settings()).ok(),
        _ => None,
    };
    number.map_or(Meant::Text(text), |number| Meant::Number(number.value))
}

/// What lengths are written in.
const UNITS: [&str; 10] = ["m", "metre", "metres", "meter", "meters", "ft", "foot", "feet", "'", "′"];

/// A name such as `Microphone lead, 10 m` without its length.
fn without_length(name: &str) -> String {
    let is_unit = |word: &str| UNITS.iter().any(|unit| unit.eq_ignore_ascii_case(word));
    let words: Vec<&str> =
        name.split(|c: char| c.is_whitespace() || ",;()".contains(c)).filter(|word| !word.is_empty()).collect();
    let mut left = Vec::new();
    let mut rest = words.iter().peekable();
    while let Some(word) = rest.next() {
        let tail = word.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
        let is_number = tail.len() < word.len();
        if is_number && is_unit(tail) {
            continue;
        }
        if is_number && tail.is_empty() && rest.next_if(|next| is_unit(next)).is_some() {
            continue;
        }
        left.push(*word);
    }
    left.join(" ")
}
