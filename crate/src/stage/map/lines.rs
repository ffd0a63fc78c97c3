//! A line of a show on the map: what meets at its joint, and what goes on from there.

use super::answer::{InputAt, PlaceKind, WireKind};
use super::builder::{Builder, ISOLATOR_COST, LIFT_COST};
use super::plan::{Input, Place};
use crate::calculator::whole_line::{Grounding, GroundingLead, Means, RunKind};
use crate::field::earth::POWER;
use crate::quantity::level::ratio;
use crate::stage::fill::{filled, source_circuit, source_power};
use crate::stage::ground::{
    self, Arrival, Ends, Isolator, Kind, Legs, Limit, Node, Rejection, Shield, Signal, Weighting,
};
use crate::stage::joined::earth_at;
use crate::stage::show::{Carried, Equipment, EquipmentPower, InputLine, SplitKind};

/// Which equipment meets on a line, by place.
struct Meeting {
    source: Option<usize>,
    thru: Option<usize>,
    second: Option<usize>,
    there: usize,
}

impl Meeting {
    /// Whether the line joins anything but its joint to the console.
    fn joins(&self) -> bool {
        self.source.or(self.thru).or(self.second).is_some()
    }
}

/// What a line is called: its channel and its name.
pub(super) fn named(line: &InputLine) -> String {
    [line.channel.as_str(), line.name.as_str()].map(str::trim).join(" ").trim().to_owned()
}

impl Builder<'_> {
    /// Puts a line on the map, if it joins or hums.
    pub(super) fn line(&mut self, line: &InputLine) {
        let known = self.grounding(&filled(self.show, line));
        match known.as_ref() {
            Ok(grounding) => match self.meeting(line, grounding) {
                Ok(Some(meeting)) => self.meet(line, grounding, &meeting),
                Ok(None) => {}
                Err(why) => self.leave_out(&line.id, why),
            },
            Err(why) => {
                let why = self.told.text("left-values", &[("why", why)]);
                self.leave_out(&line.id, why);
            }
        }
    }

    /// What meets on a line; nothing where it neither joins nor hums.
    fn meeting(&mut self, line: &InputLine, grounding: &Grounding) -> Result<Option<Meeting>, String> {
        let says = |id: &str| self.show.equipment(id).is_some();
        let thru = grounding.is_boxed && self.show.gear(&line.di).is_some() && says(&line.thru);
        let is_direct = matches!(line.split, SplitKind::Direct | SplitKind::Y);
        let second = is_direct && line.carried == Carried::Wire && says(&line.second);
        let source = self.has_source(line, grounding);
        if !(source || thru || second || grounding.stray.iter().any(|volts| *volts > 0.0)) {
            return Ok(None);
        }
        let there = self.standing(earth_at(self.show, line))?;
        let source = if source { Some(self.source(line)?) } else { None };
        let thru = if thru { Some(self.standing(&line.thru)?) } else { None };
        let second = if second { Some(self.standing(&line.second)?) } else { None };
        Ok(Some(Meeting { source, thru, second: second.filter(|second| *second != there), there }))
    }

    /// Whether the ground of its source goes along with its first lead. One that is put on
    /// no earth by the line's own values is on none.
    fn has_source(&self, line: &InputLine, grounding: &Grounding) -> bool {
        let is_there = source_power(self.show, line).is_some() || grounding.is_driven;
        let is_told_apart = line.values.get(POWER.id()).is_some() && !grounding.is_driven;
        grounding.has_supply && is_there && !is_told_apart
    }

    /// The place of equipment, or why it has none.
    fn standing(&self, id: &str) -> Result<usize, String> {
        self.equipment(id).ok_or_else(|| match self.show.equipment(id) {
            Some(equipment) => self.told.text("left-circuit", &[("name", &equipment.name)]),
            None => self.told.text("left-destination", &[]),
        })
    }

    /// The place of what a source is or stands in: that of its equipment, or one of its own
    /// on the line's circuit where it is none of the equipment.
    fn source(&mut self, line: &InputLine) -> Result<usize, String> {
        if let Some(equipment) = self.show.equipment(&line.equipment) {
            return self.standing(&equipment.id);
        }
        let own = Equipment {
            id: line.id.clone(),
            name: named(line),
            power: EquipmentPower::Earthed,
            circuit: source_circuit(self.show, line).to_owned(),
            ..Equipment::default()
        };
        self.add(&own).ok_or_else(|| self.told.text("left-circuit", &[("name", &own.name)]))
    }

    /// Adds what meets on a line.
    fn meet(&mut self, line: &InputLine, grounding: &Grounding, meeting: &Meeting) {
        let joint = self.node(Node::Equipment(ground::Equipment::default()));
        let name = named(line);
        let l = grounding.inductance;
        let [console, amplifier] = [0, 1].map(|at| 2 * self.plan.inputs.len() + at);
        let source = meeting.source.map(|source| {
            let kind = first_lead(&grounding.lead, console);
            (source, self.edge([self.at(source), joint], grounding.lead.r, l, kind))
        });
        let branch = match (meeting.thru, meeting.second) {
            (Some(thru), _) => {
                let limit = limit(grounding.signal[1], grounding.hum_least);
                let kind = thru_lead(&grounding.thru, amplifier, limit);
                Some((WireKind::Thru, thru, self.edge([joint, self.at(thru)], grounding.thru.r, l, kind)))
            }
            (None, Some(second)) if !grounding.is_boxed => {
                let kind = Kind::Shield(Shield::of(None).into());
                Some((WireKind::Split, second, self.edge([joint, self.at(second)], grounding.split_r, l, kind)))
            }
            (None, _) => None,
        };
        // Where a box is, nothing else is put in.
        let may = meeting.joins() && (grounding.means != Means::Isolator || !grounding.is_boxed && line.di.is_empty());
        let kind = run(line, grounding, (console, may));
        let run = self.edge([joint, self.at(meeting.there)], grounding.run.r, 0.0, Kind::Shield(kind.into()));
        let labels = (line.id.as_str(), name.as_str());
        let on = if let (Some((source, lead)), None) = (source, branch) {
            self.wire(WireKind::Line, [source, meeting.there], labels, vec![lead, run])
        } else {
            let joint = self.joint(line, joint, &name);
            if let Some((source, lead)) = source {
                self.wire(WireKind::Lead, [source, joint], labels, vec![lead]);
            }
            let on = self.wire(WireKind::Line, [joint, meeting.there], labels, vec![run]);
            if let Some((kind, place, edge)) = branch {
                let wire = self.wire(kind, [joint, place], labels, vec![edge]);
                if kind == WireKind::Thru {
                    self.input(labels, InputAt::Amplifier, (wire, edge), grounding);
                }
            }
            on
        };
        if grounding.means == Means::Lift {
            self.plan.wires[on].lift = self.show.gear(&line.di).map(|di| di.name.clone()).or(Some(String::new()));
        }
        self.input(labels, InputAt::Console, (on, run), grounding);
        if let Some(second) = meeting.second.filter(|_| grounding.is_boxed) {
            let ends = [meeting.there, second];
            let kind = Kind::Shield(Shield::of(None).into());
            let edge = self.edge(ends.map(|place| self.at(place)), grounding.split_r, l, kind);
            self.wire(WireKind::Split, ends, labels, vec![edge]);
        }
    }

    /// The place where three leads of a line meet, or where its only one begins.
    fn joint(&mut self, line: &InputLine, node: usize, name: &str) -> usize {
        let gear = self.show.gear(&line.di).or_else(|| self.show.gear(&line.source));
        self.place(Place {
            kind: PlaceKind::Joint,
            id: line.id.clone(),
            name: gear.map_or_else(|| name.to_owned(), |gear| gear.name.clone()),
            circuit: String::new(),
            power: None,
            leaks: None,
            node,
        })
    }

    fn input(&mut self, (id, name): (&str, &str), at: InputAt, (wire, edge): (usize, usize), grounding: &Grounding) {
        let signal = match at {
            InputAt::Console => grounding.signal[0],
            InputAt::Amplifier => grounding.signal[1],
        };
        let (line, name) = (id.to_owned(), name.to_owned());
        self.plan.inputs.push(Input { line, name, at, wire, edge, signal, limit: grounding.hum_least });
    }
}

fn limit(signal: f64, distance: f64) -> Limit {
    Limit { volts: signal * ratio(-distance), weighting: Weighting::A }
}

/// The shield of the first lead.
fn first_lead(lead: &GroundingLead, input: usize) -> Kind {
    let shield = match &lead.transfer {
        None => Shield::of(None),
        Some(transfer) => Shield {
            arrival: Arrival { input: Some(input), transfer: transfer.clone(), besides: Vec::new() },
            ..Shield::of(Signal::Unbalanced(None))
        },
    };
    Kind::Shield(shield.into())
}

/// The shield of the lead from a thru to an amplifier.
fn thru_lead(lead: &GroundingLead, input: usize, limit: Limit) -> Kind {
    let transfer = lead.transfer.clone().unwrap_or_default();
    let arrival = Arrival { input: Some(input), transfer, besides: Vec::new() };
    Kind::Shield(Shield { arrival, ..Shield::of(Signal::Unbalanced(Some(limit))) }.into())
}

/// The shield of a run, on its way to an input. What joins nothing need not be isolated.
fn run(line: &InputLine, grounding: &Grounding, (input, joins): (usize, bool)) -> Shield {
    let run = &grounding.run;
    let limit = Some(limit(grounding.signal[0], grounding.hum_least));
    let arrival = Arrival { input: Some(input), transfer: run.transfer.clone(), besides: grounding.stray.clone() };
    let mut shield = match &run.kind {
        RunKind::Unbalanced { capacitance, circuit_r } => Shield {
            ends: if run.is_isolated { Ends::Transformer } else { Ends::Both },
            capacitance: *capacitance,
            circuit_r: Some(*circuit_r),
            ..Shield::of(Signal::Unbalanced(limit))
        },
        RunKind::Balanced { error, open: (z, left) } => Shield {
            ends: if run.is_isolated { Ends::One } else { Ends::Both },
            open: Some(Legs { z: z.iter().map(|z| [z.re, z.im]).collect(), error: left.clone() }),
            pin_1_r: run.pin_1_r,
            ..Shield::of(Signal::Balanced(Rejection::ByOrder(error.clone()), limit))
        },
    };
    let cost = match grounding.means {
        Means::Lift => Some(LIFT_COST),
        Means::Isolator => Some(ISOLATOR_COST),
        Means::Nothing => None,
    };
    shield.phantom = cost.is_none();
    shield.isolator = cost.filter(|_| joins).map(|cost| Isolator { cost, capacitance: shield.capacitance });
    match line.carried {
        Carried::Wire => {}
        Carried::Fibre => shield.ends = Ends::Optical,
        Carried::Radio => shield.ends = Ends::Radio,
    }
    Shield { arrival, ..shield }
}
