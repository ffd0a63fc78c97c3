//! What a show takes along: the packing list.

use super::fill::{filled, gear_of, quantity};
use super::ground::Ends;
use super::joined::earth_at;
use super::leads::{LeadCount, Leads};
use super::show::{Carried, EquipmentPower, GearKind, InputLine, Link, LinkKind, PhantomFrom, Show, SplitKind};
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Values;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, POWERED};
use crate::field::microphone::{MICROPHONE_CURRENT, MICROPHONE_KIND, MicrophoneKind};
use crate::field::phantom::{CURRENT, PHANTOM};
use crate::field::run::{RUN, Run};
use crate::field::source::{SOURCE, SourceKind};
use crate::quantity::Unit;
use serde::Serialize;

/// What a show takes along.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Totals {
    /// All gear but leads that some line uses, against the drawer.
    pub parts: Vec<PartCount>,
    /// The leads of all lines, by kind, against the drawer.
    pub leads: Vec<LeadCount>,
    /// Other leads between equipment; their lengths are nowhere stated.
    pub links: Vec<LinkCount>,
    /// What the splits to second destinations take.
    pub splits: Vec<SplitCount>,
    /// Boxes that run on a battery.
    pub box_batteries: usize,
    /// Equipment that runs on one.
    pub equipment_batteries: usize,
    /// The phantom of each piece of equipment that feeds some.
    pub phantom: Vec<PhantomTotal>,
}

/// So many of a piece of gear are used.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PartCount {
    /// The gear.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: GearKind,
    /// How many are used.
    pub used: usize,
    /// How many there are; nothing where they are not counted.
    pub have: Option<u32>,
    /// How many are missing.
    pub missing: usize,
}

/// Links of one kind.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LinkCount {
    /// What they are.
    pub kind: LinkKind,
    /// Whether they are fibres.
    pub optical: bool,
    /// Which, in their order.
    pub links: Vec<String>,
}

/// So many lines are split in one way.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SplitCount {
    /// How.
    pub split: SplitKind,
    /// How many.
    pub used: usize,
}

/// The phantom that one piece of equipment feeds.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PhantomTotal {
    /// The equipment; empty where the lines name none.
    pub equipment: String,
    /// How many lines it feeds.
    pub lines: usize,
    /// What all of them take, A.
    pub current: f64,
    /// What it may deliver, A; nothing where nobody knows.
    pub most: Option<f64>,
}

/// Counts what the lines of a show take.
pub fn totals(show: &Show) -> Totals {
    let mut totals = Totals::default();
    for gear in show.gear.iter().filter(|gear| gear.kind != GearKind::Lead) {
        let uses = |line: &InputLine| gear_of(line).iter().filter(|(_, id, _)| *id == gear.id).count();
        let used: usize = show.lines.iter().map(uses).sum();
        if used > 0 {
            let missing = gear.count.map_or(0, |have| used.saturating_sub(have as usize));
            let (id, name) = (gear.id.clone(), gear.name.clone());
            totals.parts.push(PartCount { id, name, kind: gear.kind, used, have: gear.count, missing });
        }
    }
    let mut leads = Leads::default();
    for line in &show.lines {
        let filled = filled(show, line);
        let (values, _) = Values::read(&CALCULATOR, &filled, &show.settings());
        leads.add(show, line, &filled, &values);
        totals.split(line);
        totals.supplied(show, line, &values);
    }
    totals.leads = leads.against(show);
    show.links.iter().for_each(|link| totals.link(link));
    // A box that passes wires on has no supply at all.
    let passes_on = |id: &str| show.lines.iter().any(|line| line.stage_box == id && earth_at(show, line) != id);
    let on_battery = show.equipment.iter().filter(|equipment| equipment.power == EquipmentPower::Battery);
    totals.equipment_batteries = on_battery.filter(|equipment| !passes_on(&equipment.id)).count();
    totals
}

impl Totals {
    /// A split takes a splitter or a Y lead, besides the lead to the second destination.
    fn split(&mut self, line: &InputLine) {
        if line.split == SplitKind::None || line.second.is_empty() {
            return;
        }
        match self.splits.iter_mut().find(|known| known.split == line.split) {
            Some(known) => known.used += 1,
            None => self.splits.push(SplitCount { split: line.split, used: 1 }),
        }
    }

    fn link(&mut self, link: &Link) {
        if link.kind == LinkKind::Metalwork || link.ends == Ends::Radio {
            return;
        }
        let (kind, optical) = (link.kind, link.ends == Ends::Optical);
        match self.links.iter_mut().find(|known| (known.kind, known.optical) == (kind, optical)) {
            Some(known) => known.links.push(link.id.clone()),
            None => self.links.push(LinkCount { kind, optical, links: vec![link.id.clone()] }),
        }
    }

    /// What a line takes from a battery or by phantom.
    fn supplied(&mut self, show: &Show, line: &InputLine, values: &Values) {
        let is_active = values.choice(BOX).is_ok_and(|kind| kind == BoxKind::Active);
        let on_battery = values.choice(POWERED).is_ok_and(|supply| supply == BoxSupply::Battery);
        if is_active && on_battery {
            self.box_batteries += 1;
            return;
        }
        let is_on = values.choice(PHANTOM).is_ok_and(|phantom| phantom.supply().is_some());
        let is_balanced = values.choice(RUN).is_ok_and(|run| run == Run::Balanced);
        // Neither a fibre nor radio passes a direct current on.
        if !is_on || !is_balanced || line.carried != Carried::Wire {
            return;
        }
        let is_bare = values.choice(BOX).is_ok_and(|kind| kind == BoxKind::None);
        let is_microphone = values.choice(SOURCE).is_ok_and(|source| source == SourceKind::Microphone);
        let condenser = values.choice(MICROPHONE_KIND).is_ok_and(MicrophoneKind::needs_phantom);
        let current = match () {
            () if is_active => values.number(CURRENT),
            () if is_bare && is_microphone && condenser => values.number(MICROPHONE_CURRENT),
            () => return,
        };
        let feeds = match line.phantom_from {
            PhantomFrom::First => earth_at(show, line),
            PhantomFrom::Second => &line.second,
        };
        let current = current.unwrap_or_default();
        if let Some(known) = self.phantom.iter_mut().find(|known| known.equipment == feeds) {
            known.lines += 1;
            known.current += current;
            return;
        }
        let most = show.equipment(feeds).and_then(|equipment| quantity(show, &equipment.phantom_most, Unit::Ampere));
        self.phantom.push(PhantomTotal { equipment: feeds.to_owned(), lines: 1, current, most });
    }
}
