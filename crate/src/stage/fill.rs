//! A line of a show as values of the whole-line calculator.

use super::joined::earth_at;
use super::power::Between;
use super::show::{
    Carried, Circuit, Equipment, EquipmentPower, Gear, GearKind, InputLine, PhantomChoice, PhantomFrom, Show, SplitKind,
};
use crate::ask::Entry;
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Field;
use crate::field::connection::PIN_1_R;
use crate::field::direct_box::{BOX, BoxKind, BoxSupply, GROUND, Ground, POWERED};
use crate::field::earth::{
    AMP_DIFFERENCE, AMP_EARTH_R, EARTH_R, EARTH_VOLTS, POWER, Power, SHARED_EARTH_R, SUPPLY_LEAKAGE,
};
use crate::field::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R};
use crate::field::microphone::{MICROPHONE_KIND, MicrophoneKind};
use crate::field::phantom::{ConsolePhantom, PHANTOM};
use crate::field::run::{RUN_C, RUN_L, RUN_LENGTH, RUN_R};
use crate::field::source::{SOURCE, SourceKind};
use crate::field::split::{SECOND_DIFFERENCE, SECOND_EARTH_R, SECOND_SHARED_R, SPLIT, Split};
use crate::field::thru::{THRU, ThruLoad};
use crate::file::Flaw;
use crate::named::Named;
use crate::quantity::{Unit, read};
use std::collections::HashSet;

/// A field of the whole line by its identifier.
pub(super) fn field(id: &str) -> Option<&'static Field> {
    CALCULATOR.field(id)
}

/// The path of an earth that is not there, Ω: the most that its field takes.
const NO_EARTH_R: f64 = 1e6;

/// What a lead fills where it is the run.
const AS_RUN: [(&str, &str); 4] =
    [(LEAD_LENGTH.id, RUN_LENGTH.id), (LEAD_C.id, RUN_C.id), (LEAD_R.id, RUN_R.id), (LEAD_L.id, RUN_L.id)];

/// The values of the whole-line calculator that a row of the input list stands for:
/// what all lines are held to, then its gear, then its power, then its own.
///
/// They mean what they say under [`Show::settings`].
pub fn filled(show: &Show, line: &InputLine) -> Named<Entry> {
    let mut filling = Filling(Named::default());
    filling.texts(&show.limits);
    filling.gear(show.gear(&line.input));
    filling.gear(show.gear(&line.source));
    filling.leads(show, line);
    match show.gear(&line.di) {
        None => filling.answer(BoxKind::None.to(BOX)),
        Some(gear) => {
            if gear.kind == GearKind::Isolator {
                filling.answer(BoxKind::Passive.to(BOX));
                filling.answer(Ground::Lifted.to(GROUND));
            } else {
                filling.answer(BoxKind::Active.to(BOX));
            }
            filling.texts(&gear.values);
        }
    }
    filling.gear(show.gear(&line.pad));
    // What the line itself says decides on what the earths are, too.
    filling.texts(&line.values);
    filling.power(show, line);
    filling.texts(&line.values);
    if line.values.get(PHANTOM.id()).is_none() {
        filling.phantom(line);
    }
    filling.0
}

/// What is filled in so far.
struct Filling(Named<Entry>);

impl Filling {
    fn text(&mut self, id: &str, text: &str) {
        self.0.insert(id.to_owned(), Entry::Text(text.to_owned()));
    }

    fn answer(&mut self, (id, answer): (&'static str, &'static str)) {
        self.0.insert(id, Entry::Text(answer.to_owned()));
    }

    fn number(&mut self, id: &'static str, value: f64) {
        self.0.insert(id, Entry::Number(value));
    }

    fn texts(&mut self, values: &Named<String>) {
        for (id, text) in values.iter() {
            self.text(id, text);
        }
    }

    fn gear(&mut self, gear: Option<&Gear>) {
        if let Some(gear) = gear {
            self.texts(&gear.values);
        }
    }

    /// Whether a choice has this answer.
    fn is(&self, (id, answer): (&'static str, &'static str)) -> bool {
        matches!(self.0.get(id), Some(Entry::Text(text)) if text.trim().eq_ignore_ascii_case(answer))
    }

    /// Whether the mains may feed the source.
    fn has_supply(&self) -> bool {
        [SourceKind::Output, SourceKind::Balanced, SourceKind::Loudspeaker].iter().any(|kind| self.is(kind.to(SOURCE)))
    }

    /// A lead that is not there has no length.
    fn leads(&mut self, show: &Show, line: &InputLine) {
        self.number(LEAD_LENGTH.id, 0.0);
        self.number(RUN_LENGTH.id, 0.0);
        self.gear(show.gear(&line.lead));
        let Some(run) = show.gear(&line.run) else { return };
        for (id, text) in run.values.iter() {
            // What has one field for both leads is that of the run, whose shield goes
            // on to the other earth.
            let as_run = AS_RUN.iter().find(|(lead, _)| *lead == id).map_or(id, |(_, run)| run);
            self.text(as_run, text);
        }
    }

    /// How the source is powered, and which earths meet on the line.
    fn power(&mut self, show: &Show, line: &InputLine) {
        let there = show.equipment(earth_at(show, line));
        if let Some(there) = there.filter(|there| !there.pin_1.is_empty()) {
            self.text(PIN_1_R.id, &there.pin_1);
        }
        let there = there.map_or("", |there| &there.circuit);
        let (amplifier, second) = (self.amplifier(show, line), second(show, line));
        let [amplifier_at, second_at] = [amplifier, second].map(|on| on.map(|on| on.circuit.as_str()));
        // What goes on by a fibre or by radio joins no earths.
        let joins = line.carried == Carried::Wire;
        let source = show.equipment(&line.equipment);
        let circuit = source_circuit(show, line);
        let is_earthed = source_power(show, line) == Some(EquipmentPower::Earthed) && self.has_supply();
        // What the earth of the second console shares with that of the source, or of the
        // amplifier where the source stands on none.
        let before = if is_earthed { Some(circuit) } else { amplifier_at.or(Some(circuit)) };
        let beside_second = second_at.and_then(|at| Between::beside(show, at, there, before));
        let behind = beside_second.as_ref().map_or(0.0, |between| between.shared_r);
        match source_power(show, line) {
            None if joins => {}
            Some(EquipmentPower::Insulated) if joins => {
                self.answer(Power::Leaking.to(POWER));
                if let Some(source) = source.filter(|source| !source.leakage.is_empty()) {
                    self.text(SUPPLY_LEAKAGE.id, &source.leakage);
                }
            }
            Some(EquipmentPower::Earthed) if joins => {
                self.answer(Power::Earthed.to(POWER));
                let between = Between::beside(show, circuit, there, amplifier_at.or(second_at));
                self.apart([EARTH_VOLTS.id, EARTH_R.id], between, behind);
            }
            _ => self.answer(Power::Floating.to(POWER)),
        }
        self.thru(show, line);
        let beside = if is_earthed { Some(circuit) } else { amplifier_at };
        let split = match line.split {
            SplitKind::None => Split::None,
            SplitKind::Direct | SplitKind::Y if second_at.is_some() && second_at == beside => Split::Same,
            SplitKind::Direct | SplitKind::Y if joins => Split::Direct,
            SplitKind::Direct | SplitKind::Y | SplitKind::Transformer => Split::Transformer,
        };
        self.answer(split.to(SPLIT));
        if let Some(at) = amplifier_at {
            let between = Between::beside(show, at, there, Some(circuit));
            if let Some(between) = &between {
                self.number(SHARED_EARTH_R.id, between.shared_r);
            }
            // Where there is no other the amplifier is what the second console shares with.
            let behind = if is_earthed { 0.0 } else { behind };
            self.apart([AMP_DIFFERENCE.id, AMP_EARTH_R.id], between, behind);
        }
        if second_at.is_some() {
            if beside_second.is_some() {
                self.number(SECOND_SHARED_R.id, behind);
            }
            self.apart([SECOND_DIFFERENCE.id, SECOND_EARTH_R.id], beside_second, 0.0);
        } else if show.equipment(&line.second).is_some() {
            // What stands on no earth closes no loop.
            self.number(SECOND_DIFFERENCE.id, 0.0);
            self.number(SECOND_EARTH_R.id, NO_EARTH_R);
        }
    }

    /// The amplifier on the thru of a line, if it stands on an earth.
    fn amplifier<'a>(&self, show: &'a Show, line: &InputLine) -> Option<&'a Equipment> {
        let is_there =
            line.carried == Carried::Wire && !self.is(BoxKind::None.to(BOX)) && show.gear(&line.di).is_some();
        show.equipment(&line.thru).filter(|amplifier| is_there && amplifier.power == EquipmentPower::Earthed)
    }

    /// The amplifier on the thru of a box.
    fn thru(&mut self, show: &Show, line: &InputLine) {
        let Some(amplifier) = show.equipment(&line.thru).filter(|_| show.gear(&line.di).is_some()) else { return };
        let is_earthed = source_power(show, line) == Some(EquipmentPower::Earthed);
        let load = match amplifier.power {
            _ if line.carried != Carried::Wire => ThruLoad::Floating,
            EquipmentPower::Insulated | EquipmentPower::Battery => ThruLoad::Floating,
            EquipmentPower::Earthed if is_earthed && amplifier.circuit == source_circuit(show, line) => ThruLoad::Same,
            EquipmentPower::Earthed => ThruLoad::Earthed,
        };
        self.answer(load.to(THRU));
    }

    /// Voltage and resistance between two earths, where both are known; what another one
    /// shares, before the run or behind it, is none of it.
    fn apart(&mut self, [volts, earth_r]: [&'static str; 2], between: Option<Between>, behind: f64) {
        if let Some(between) = between {
            self.number(volts, between.volts);
            self.number(earth_r, between.earth_r - between.shared_r.max(behind));
        }
    }

    fn phantom(&mut self, line: &InputLine) {
        // A transformer passes no direct current on.
        let is_cut = line.phantom_from == PhantomFrom::Second && line.split == SplitKind::Transformer;
        let on = match line.phantom {
            _ if is_cut => ConsolePhantom::Off,
            PhantomChoice::P48 => ConsolePhantom::P48,
            PhantomChoice::P24 => ConsolePhantom::P24,
            PhantomChoice::P12 => ConsolePhantom::P12,
            PhantomChoice::Needed if self.needs_phantom() => ConsolePhantom::P48,
            PhantomChoice::Needed | PhantomChoice::Off => ConsolePhantom::Off,
        };
        self.answer(on.to(PHANTOM));
    }

    fn needs_phantom(&self) -> bool {
        let of_box = self.is(BoxKind::Active.to(BOX)) && !self.is(BoxSupply::Battery.to(POWERED));
        let condenser =
            self.is(SourceKind::Microphone.to(SOURCE)) && self.is(MicrophoneKind::Condenser.to(MICROPHONE_KIND));
        of_box || condenser && self.is(BoxKind::None.to(BOX))
    }
}

/// The second console, where a lead joins it to the line, if it stands on an earth.
fn second<'a>(show: &'a Show, line: &InputLine) -> Option<&'a Equipment> {
    let is_joined = line.carried == Carried::Wire && matches!(line.split, SplitKind::Direct | SplitKind::Y);
    show.equipment(&line.second).filter(|second| is_joined && second.power == EquipmentPower::Earthed)
}

/// The circuit that the source of a line is on: that of its equipment, or what the line
/// says of a source that is none of the equipment; empty where nobody says.
pub(super) fn source_circuit<'a>(show: &'a Show, line: &'a InputLine) -> &'a str {
    show.equipment(&line.equipment).map_or(&line.circuit, |source| &source.circuit)
}

/// How the source of a line is powered; nothing where nobody says.
pub(super) fn source_power(show: &Show, line: &InputLine) -> Option<EquipmentPower> {
    let of_equipment = show.equipment(&line.equipment).map(|source| source.power);
    of_equipment.or((!line.circuit.is_empty()).then_some(EquipmentPower::Earthed))
}

/// A quantity of the file.
pub(super) fn quantity(show: &Show, text: &str, unit: Unit) -> Option<f64> {
    read(text, unit, 1.0, &show.settings()).ok().map(|written| written.value)
}

/// What in a show points to nothing, or to itself, or cannot be read.
pub(super) fn flaws(show: &Show) -> Vec<Flaw> {
    let mut flaws = Vec::new();
    let unread = |list, row, field: &'static str, text: &str, unit| {
        let bad = !text.trim().is_empty() && quantity(show, text, unit).is_none();
        bad.then(|| Flaw::new(list, Some(row), "quantity").at(field).with("text", text))
    };
    let no_circuit = |list, row, circuit: &str| {
        let bad = !circuit.is_empty() && show.circuit(circuit).is_none();
        bad.then(|| Flaw::new(list, Some(row), "no-circuit").at("circuit").with("id", circuit))
    };
    same_names("gear", show.gear.iter().map(|gear| gear.name.as_str()), &mut flaws);
    same_names("equipment", show.equipment.iter().map(|equipment| equipment.name.as_str()), &mut flaws);
    for (i, circuit) in show.power.iter().enumerate() {
        flaws.extend(unread("power", i + 1, "difference", &circuit.difference, Unit::Volt));
        flaws.extend(unread("power", i + 1, "earth_r", &circuit.earth_r, Unit::Ohm));
    }
    for (i, equipment) in show.equipment.iter().enumerate() {
        flaws.extend(no_circuit("equipment", i + 1, &equipment.circuit));
        for (field, text, unit) in [
            ("leakage", &equipment.leakage, Unit::Ampere),
            ("pin_1", &equipment.pin_1, Unit::Ohm),
            ("phantom_most", &equipment.phantom_most, Unit::Ampere),
        ] {
            flaws.extend(unread("equipment", i + 1, field, text, unit));
        }
    }
    for (i, link) in show.links.iter().enumerate() {
        flaws.extend(unread("links", i + 1, "r", &link.r, Unit::Ohm));
        for (field, id) in [("from", &link.from), ("to", &link.to)] {
            if !id.is_empty() && show.equipment(id).is_none() {
                flaws.push(Flaw::new("links", Some(i + 1), "no-equipment").at(field).with("id", id));
            }
        }
        if !link.from.is_empty() && link.from == link.to {
            flaws.push(Flaw::new("links", Some(i + 1), "itself").at("to").with("id", &link.to));
        }
    }
    let ids: HashSet<_> = show.lines.iter().map(|line| line.id.as_str()).collect();
    let mut channels = HashSet::new();
    for (i, line) in show.lines.iter().enumerate() {
        match show.equipment(&line.equipment) {
            None => flaws.extend(no_circuit("lines", i + 1, &line.circuit)),
            Some(equipment) => flaws.extend(other_circuit(show, line, equipment, i + 1)),
        }
        flaws.extend(of_line(show, line, i + 1, &ids));
        if !line.channel.is_empty() && !channels.insert((&line.destination, &line.channel)) {
            flaws.push(Flaw::new("lines", Some(i + 1), "same-channel").at("channel").with("text", &line.channel));
        }
    }
    flaws
}

fn same_names<'a>(list: &'static str, names: impl Iterator<Item = &'a str>, flaws: &mut Vec<Flaw>) {
    let mut known = HashSet::new();
    for (i, name) in names.enumerate() {
        if !name.is_empty() && !known.insert(name) {
            flaws.push(Flaw::new(list, Some(i + 1), "same-name").at("name").with("text", name));
        }
    }
}

/// The circuit of a row that is not that of its equipment, which counts.
fn other_circuit(show: &Show, line: &InputLine, equipment: &Equipment, row: usize) -> Option<Flaw> {
    if line.circuit.is_empty() || line.circuit == equipment.circuit {
        return None;
    }
    let key = if equipment.circuit.is_empty() { "no-circuit-counts" } else { "other-circuit-counts" };
    let circuit = show.circuit(&equipment.circuit).map_or(equipment.circuit.as_str(), Circuit::called);
    let flaw = Flaw::new("lines", Some(row), key).at("circuit");
    Some(flaw.with("name", equipment.called()).with("circuit", circuit))
}

/// What in a row of the input list points to nothing or to itself.
fn of_line(show: &Show, line: &InputLine, row: usize, ids: &HashSet<&str>) -> Vec<Flaw> {
    let flaw = |key, field: &'static str, id: &str| Flaw::new("lines", Some(row), key).at(field).with("id", id);
    let mut flaws = Vec::new();
    for (field, id, kinds) in gear_of(line) {
        match show.gear(id) {
            _ if id.is_empty() => {}
            None => flaws.push(flaw("no-gear", field, id)),
            Some(gear) if !kinds.contains(&gear.kind) => flaws.push(flaw("other-kind", field, id)),
            Some(_) => {}
        }
    }
    for (field, id) in equipment_of(line) {
        if !id.is_empty() && show.equipment(id).is_none() {
            flaws.push(flaw("no-equipment", field, id));
        }
    }
    if !line.pair.is_empty() && !ids.contains(line.pair.as_str()) {
        flaws.push(flaw("no-line", "pair", &line.pair));
    }
    for (field, id, other) in [
        ("destination", &line.destination, &line.equipment),
        ("stage_box", &line.stage_box, &line.equipment),
        ("thru", &line.thru, &line.destination),
        ("second", &line.second, &line.destination),
        ("pair", &line.pair, &line.id),
    ] {
        if !id.is_empty() && id == other {
            flaws.push(flaw("itself", field, id));
        }
    }
    flaws
}

/// The gear of a row: the field, what stands in it, and what it may be.
pub(super) fn gear_of(line: &InputLine) -> [(&'static str, &str, &'static [GearKind]); 6] {
    [
        ("source", &line.source, &[GearKind::Source]),
        ("lead", &line.lead, &[GearKind::Lead]),
        ("di", &line.di, &[GearKind::Di, GearKind::Isolator]),
        ("run", &line.run, &[GearKind::Lead]),
        ("pad", &line.pad, &[GearKind::Pad]),
        ("input", &line.input, &[GearKind::Input]),
    ]
}

/// The equipment of a row.
pub(super) fn equipment_of(line: &InputLine) -> [(&'static str, &str); 5] {
    [
        ("equipment", &line.equipment),
        ("thru", &line.thru),
        ("stage_box", &line.stage_box),
        ("destination", &line.destination),
        ("second", &line.second),
    ]
}
