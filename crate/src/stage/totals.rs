//! What a show takes along: the packing list.

use super::fill::{filled, gear_of, quantity};
use super::joined::earth_at;
use super::show::{EquipmentPower, GearKind, InputLine, PhantomFrom, Show};
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Values;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, POWERED};
use crate::field::lead::LEAD_LENGTH;
use crate::field::microphone::{MICROPHONE_CURRENT, MICROPHONE_KIND, MicrophoneKind};
use crate::field::phantom::{CURRENT, PHANTOM};
use crate::field::run::{RUN, RUN_LENGTH, Run};
use crate::field::source::{SOURCE, SourceKind};
use crate::quantity::Unit;
use serde::Serialize;

/// What a show takes along.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Totals {
    /// All gear that some line uses, against the drawer.
    pub parts: Vec<PartCount>,
    /// Leads by length, the shortest first; those that are no gear included.
    pub leads: Vec<LengthCount>,
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

/// So many leads of a length are used.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LengthCount {
    /// m.
    pub length: f64,
    /// How many are used.
    pub used: usize,
    /// How many of that length are in the drawer; nothing where one of them is not
    /// counted.
    pub have: Option<u32>,
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
    for gear in &show.gear {
        let uses = |line: &InputLine| gear_of(line).iter().filter(|(_, id, _)| *id == gear.id).count();
        let used: usize = show.lines.iter().map(uses).sum();
        // A source or an input is there or not, whatever is plugged into it.
        if used > 0 {
            let missing = gear.count.map_or(0, |have| used.saturating_sub(have as usize));
            let (id, name) = (gear.id.clone(), gear.name.clone());
            totals.parts.push(PartCount { id, name, kind: gear.kind, used, have: gear.count, missing });
        }
    }
    for line in &show.lines {
        let (values, _) = Values::read(&CALCULATOR, &filled(show, line), &show.settings());
        for length in [values.stands_in(LEAD_LENGTH.id), values.stands_in(RUN_LENGTH.id)].into_iter().flatten() {
            totals.lead(show, length);
        }
        totals.supplied(show, line, &values);
    }
    totals.leads.sort_by(|a, b| a.length.total_cmp(&b.length));
    // A box that passes wires on has no supply at all.
    let passes_on = |id: &str| show.lines.iter().any(|line| line.stage_box == id && earth_at(show, line) != id);
    let on_battery = show.equipment.iter().filter(|equipment| equipment.power == EquipmentPower::Battery);
    totals.equipment_batteries = on_battery.filter(|equipment| !passes_on(&equipment.id)).count();
    totals
}

/// Leads whose lengths differ by less, m, are of one length.
const SAME_LENGTH: f64 = 5e-3;

impl Totals {
    fn lead(&mut self, show: &Show, length: f64) {
        if length <= 0.0 {
            return;
        }
        let is_same = |other: f64| (other - length).abs() < SAME_LENGTH;
        if let Some(known) = self.leads.iter_mut().find(|lead| is_same(lead.length)) {
            known.used += 1;
            return;
        }
        let leads = show.gear.iter().filter(|gear| gear.kind == GearKind::Lead).filter(|gear| {
            let text = gear.values.get(LEAD_LENGTH.id);
            text.and_then(|text| quantity(show, text, Unit::Metre)).is_some_and(is_same)
        });
        let have = leads.map(|gear| gear.count).try_fold(0_u32, |sum, count| Some(sum.saturating_add(count?)));
        self.leads.push(LengthCount { length, used: 1, have });
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
        if !is_on || !is_balanced {
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
