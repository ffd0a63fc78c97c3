//! How the hum at one input comes about, step by step: from what lies between the grounds
//! of its leads by the loop's impedance to the current, what that puts in series with the
//! signal, and how far below the signal that is heard.

use super::answer::{InputAt, MapWorking};
use super::plan::Plan;
use super::solved::Solved;
use crate::Complex64;
use crate::fault::Fault;
use crate::network::a_weighting_power;
use crate::quantity::Unit;
use crate::settings::Settings;
use crate::stage::ground::{AtOrder, Circuit, Ends, Hum, Node, Rejection, Shield, Signal, Wrong};
use crate::words::Arg;
use crate::working::Working;

/// At one input of a line; nothing where there is no such input.
pub(super) fn working(plan: &Plan, line: &str, at: InputAt, settings: &Settings) -> Option<MapWorking> {
    let solved = Solved::new(plan).ok()?;
    let (input, hum) = solved.inputs.iter().find(|(input, _)| input.line == line && input.at == at)?;
    let weighted = |place: &usize| hum.by_order[*place].powi(2) * a_weighting_power(frequency(plan, *place));
    let places = 0..hum.by_order.len();
    let place = places.max_by(|a, b| weighted(a).total_cmp(&weighted(b)).then(b.cmp(a)))?;
    let mut working = Working::new("stage-map", true);
    if hum.by_order[place] > 0.0 {
        let hums = Hums { solved: &solved, hum, place };
        hums.write(&mut working).ok()?;
        hums.heard(&mut working, input.signal).ok()?;
    }
    let steps = working.into_steps().into_iter().map(|step| step.worded(settings)).collect();
    Some(MapWorking { frequency: frequency(plan, place), steps })
}

fn frequency(plan: &Plan, place: usize) -> f64 {
    plan.graph.mains * f64::from(plan.graph.orders[place])
}

/// What leaks counts from this part of all that drives a lead on.
const NO_LEAKAGE: f64 = 1e-9;

/// One component of the hum at an input.
struct Hums<'a> {
    solved: &'a Solved<'a>,
    hum: &'a Hum,
    place: usize,
}

/// One lead while its shield is unplugged: what lies between its ends then, by the sources
/// of each component, V. All of it, and that by differences between earths alone.
struct Open {
    all: Vec<Complex64>,
    earths: Vec<Complex64>,
}

impl Hums<'_> {
    fn write(&self, working: &mut Working) -> Result<(), Fault> {
        let mut terms = Vec::new();
        self.givens(working);
        for edge in &self.hum.edges {
            let Ok(open) = self.opened(*edge) else { continue };
            let mut parts: Vec<_> = self.parts().enumerate().map(|(place, at)| (place + 1, at)).collect();
            // What drives most first; the rest goes the same way.
            parts.sort_by(|(a, _), (b, _)| open.all[b - 1].norm().total_cmp(&open.all[a - 1].norm()));
            for (rank, by) in parts.into_iter().enumerate() {
                working.fold(rank > 0);
                if !self.between(working, *edge, by, &open)? {
                    continue;
                }
                if rank == 0 {
                    self.around(working, *edge, &open)?;
                }
                terms.extend(self.lead(working, *edge, by)?);
            }
            working.fold(false);
        }
        let shields = self.hum.edges.iter().filter_map(|edge| self.solved.plan.graph.edges[*edge].shield());
        let stray: f64 = shields.filter_map(|shield| shield.arrival.besides.get(self.place)).sum();
        if stray > 0.0 {
            working.given("U_M", stray, Unit::Volt);
            terms.push("U_M".to_owned());
        }
        working.step("working-sum", "U_f", &terms.join(" + "), Unit::Volt)?;
        Ok(())
    }

    /// Writes down how loud that is: A-weighted, with the other components, below the signal.
    fn heard(&self, working: &mut Working, signal: f64) -> Result<(), Fault> {
        let power = a_weighting_power(frequency(self.solved.plan, self.place));
        let own = self.hum.by_order[self.place].powi(2) * power;
        working.given("A_f", power.sqrt(), Unit::One);
        working.given("U_O", (self.hum.a_weighted.powi(2) - own).max(0.0).sqrt(), Unit::Volt);
        working.given("U_S", signal, Unit::Volt);
        working.step("working-weighted", "U_fA", "U_f*A_f", Unit::Volt)?;
        working.step("working-all", "U_A", "sqrt(U_fA^2 + U_O^2)", Unit::Volt)?;
        working.step("working-distance", "a_SA", "20*log10(U_S/U_A)", Unit::Decibel)?;
        Ok(())
    }

    /// The sources of this component that are in phase, each solved.
    fn parts(&self) -> impl Iterator<Item = &AtOrder> {
        let order = self.solved.plan.graph.orders[self.place];
        self.solved.solution.at.iter().filter(move |at| at.order == order)
    }

    fn opened(&self, edge: usize) -> Result<Open, Wrong> {
        let mut graph = self.solved.plan.graph.clone();
        let mut ends = self.solved.ends.clone();
        // Light conducts nothing.
        ends[edge] = Ends::Optical;
        let order = graph.orders[self.place];
        let [from, to] = graph.edges[edge].ends;
        let solved = |graph: &_| {
            let solution = Circuit::new(graph)?.solve(&ends)?;
            let parts = solution.at.iter().filter(|at| at.order == order);
            Ok(parts.map(|at| at.potentials[from] - at.potentials[to]).collect::<Vec<_>>())
        };
        let all = solved(&graph)?;
        for node in &mut graph.nodes {
            if let Node::Equipment(equipment) = node {
                // The capacitance stays: it holds what would float.
                equipment.leakage.iter_mut().for_each(|leakage| leakage.amperes = 0.0);
            }
        }
        Ok(Open { all, earths: solved(&graph)? })
    }

    /// Writes down the impedance around the loop that a shield closes, if it closes one.
    fn around(&self, working: &mut Working, edge: usize, open: &Open) -> Result<(), Fault> {
        let part = &self.solved.plan.graph.edges[edge];
        let Some(shield) = part.shield() else { return Ok(()) };
        let flowing = self.parts().zip(&open.all).find(|(at, _)| at.currents[edge].norm() > 0.0);
        let (Some((at, between)), Some(own)) = (flowing, self.own(edge)) else { return Ok(()) };
        let lead = self.letter(edge);
        working.given("omega", std::f64::consts::TAU * at.frequency, Unit::RadianPerSecond);
        working.given(&format!("L_{lead}"), part.l, Unit::Henry);
        working.given(&format!("C_{lead}"), shield.capacitance, Unit::Farad);
        let rest = between / at.currents[edge] - self.along(edge, at.frequency);
        working.given(&format!("Z_{lead}0"), rest, Unit::Ohm);
        let args = [("lead", Arg::Key(format!("stage-map-lead-{lead}")))];
        let formula = format!("Z_{lead}0 + {own}");
        working.step_with("working-loop", &args, &format!("Z_{lead}"), &formula, Unit::Ohm)?;
        Ok(())
    }

    /// The impedance of a shield along itself as a formula; none where it is open.
    fn own(&self, edge: usize) -> Option<String> {
        let part = &self.solved.plan.graph.edges[edge];
        let (lead, shield) = (self.letter(edge), part.shield()?);
        let inductance = if part.l > 0.0 { format!(" + j*omega*L_{lead}") } else { String::new() };
        match self.solved.ends[edge] {
            Ends::Both if shield.pin_1_r > 0.0 => Some(format!("R_{lead} + R_pin{inductance}")),
            Ends::Both => Some(format!("R_{lead}{inductance}")),
            Ends::Transformer if shield.capacitance > 0.0 => Some(format!("R_C + 1/(j*omega*C_{lead}){inductance}")),
            Ends::Transformer | Ends::One | Ends::None | Ends::Optical | Ends::Radio => None,
        }
    }

    /// The same as a number, Ω.
    fn along(&self, edge: usize, frequency: f64) -> Complex64 {
        let (part, omega) = (&self.solved.plan.graph.edges[edge], std::f64::consts::TAU * frequency);
        let Some(shield) = part.shield() else { return Complex64::ZERO };
        match self.solved.ends[edge] {
            Ends::Transformer => {
                let r = shield.circuit_r.unwrap_or(part.r);
                Complex64::new(r, omega * part.l) + Complex64::new(0.0, omega * shield.capacitance).inv()
            }
            _ => Complex64::new(part.r + shield.pin_1_r, omega * part.l),
        }
    }

    /// Writes down what drives a lead: the difference between earths, and what of it and of
    /// what leaks lies between its ends. Whether anything does.
    fn between(&self, working: &mut Working, edge: usize, by: (usize, &AtOrder), open: &Open) -> Result<bool, Fault> {
        let (n, at) = by;
        let (all, earths) = (open.all[n - 1], open.earths[n - 1]);
        if all.norm() == 0.0 {
            return Ok(false);
        }
        let (lead, args) = (self.letter(edge), self.args(edge, at));
        let volts = at.by.and_then(|node| match &self.solved.plan.graph.nodes[node] {
            Node::Distribution(earth) => Some((earth.volts, earth.wave.at(at.order).norm())),
            Node::Equipment(_) => None,
        });
        let leaks = all - earths;
        let mut terms = Vec::new();
        if let Some((volts, level)) = volts.filter(|(volts, level)| volts * level > 0.0 && earths.norm() > 0.0) {
            working.given(&format!("U_{n}"), volts, Unit::Volt);
            working.given(&format!("h_{n}"), level, Unit::One);
            let entered =
                working.step_with("working-earth", &args, &format!("E_{n}"), &format!("U_{n}*h_{n}"), Unit::Volt)?;
            let share = earths / entered;
            let alone = leaks.norm() <= NO_LEAKAGE * all.norm();
            let share = if alone { share.norm().into() } else { share };
            working.given(&format!("k_{lead}{n}"), share, Unit::One);
            terms.push(format!("E_{n}*k_{lead}{n}"));
            if alone {
                working.step_with("working-between", &args, &format!("E_{lead}{n}"), &terms[0], Unit::Volt)?;
                return Ok(true);
            }
        }
        working.given(&format!("V_L{lead}{n}"), leaks, Unit::Volt);
        terms.push(format!("V_L{lead}{n}"));
        let formula = format!("abs({})", terms.join(" + "));
        working.step_with("working-between-leaks", &args, &format!("E_{lead}{n}"), &formula, Unit::Volt)?;
        Ok(true)
    }

    /// Which lead, and the circuit by which.
    fn args(&self, edge: usize, at: &AtOrder) -> [(&'static str, Arg); 2] {
        let by = self.solved.plan.places.iter().find(|place| Some(place.node) == at.by);
        let circuit = by.map_or("", |place| place.name.as_str());
        [("circuit", Arg::name(circuit)), ("lead", Arg::Key(format!("stage-map-lead-{}", self.letter(edge))))]
    }

    /// The impedances and what becomes of a voltage, by lead.
    fn givens(&self, working: &mut Working) {
        for edge in &self.hum.edges {
            let part = &self.solved.plan.graph.edges[*edge];
            let Some(shield) = part.shield() else { continue };
            let (lead, ends) = (self.letter(*edge), self.solved.ends[*edge]);
            let transfer = shield.arrival.transfer.get(self.place).copied().unwrap_or(1.0);
            working.given(&format!("H_{lead}"), transfer, Unit::One);
            working.given(&format!("R_{lead}"), part.r, Unit::Ohm);
            working.given("R_C", shield.circuit_r.unwrap_or(part.r), Unit::Ohm);
            working.given("R_pin", shield.pin_1_r, Unit::Ohm);
            working.given("e", self.error(shield, ends), Unit::One);
        }
    }

    /// What a balanced lead leaves of the voltage between the grounds of its ends.
    fn error(&self, shield: &Shield, ends: Ends) -> f64 {
        let open = shield.open.as_ref().filter(|_| ends != Ends::Both);
        let errors = match (open, &shield.signal) {
            (Some(legs), _) => &legs.error,
            (None, Some(Signal::Balanced(Rejection::ByOrder(errors), _))) => errors,
            _ => return 0.0,
        };
        errors.get(self.place).copied().unwrap_or_default()
    }

    /// The lead to an amplifier, the run to the console, or the first lead.
    fn letter(&self, edge: usize) -> &'static str {
        match (self.hum.edges.len(), edge == self.hum.edge) {
            (1, _) if self.is_amplifier() => "A",
            (_, true) => "R",
            (_, false) => "L",
        }
    }

    fn is_amplifier(&self) -> bool {
        let input = self.solved.plan.inputs.iter().find(|input| input.edge == self.hum.edge);
        input.is_some_and(|input| input.at == InputAt::Amplifier)
    }

    /// Writes down what sources that are in phase put into a lead; its symbol, if they do.
    fn lead(&self, working: &mut Working, edge: usize, (n, at): (usize, &AtOrder)) -> Result<Option<String>, Fault> {
        let (graph, lead) = (&self.solved.plan.graph, self.letter(edge));
        let Some(shield) = graph.edges[edge].shield() else { return Ok(None) };
        let current = at.currents[edge].norm();
        let [from, to] = graph.edges[edge].ends.map(|node| at.potentials[node]);
        let between = (from - to).norm();
        if current == 0.0 && between == 0.0 {
            return Ok(None);
        }
        let (i, v, args) = (format!("I_{lead}{n}"), format!("V_{lead}{n}"), self.args(edge, at));
        let (id, formula) = match (self.solved.ends[edge], &shield.signal) {
            (Ends::Optical | Ends::Radio, _) | (_, None) => return Ok(None),
            (Ends::Transformer, _) => ("working-isolated", format!("{i}*R_C*H_{lead}")),
            (Ends::Both, Some(Signal::Unbalanced(_))) => ("working-shield", format!("{i}*R_{lead}*H_{lead}")),
            (Ends::Both, Some(Signal::Balanced(..))) if shield.pin_1_r > 0.0 => {
                ("working-pin-1", format!("({v}*e + {i}*R_pin)*H_{lead}"))
            }
            (_, Some(Signal::Balanced(..))) => ("working-balanced", format!("{v}*e*H_{lead}")),
            (_, Some(Signal::Unbalanced(_))) => ("working-open", format!("{v}*H_{lead}")),
        };
        match self.own(edge) {
            Some(own) => {
                let flows = format!("E_{lead}{n}/abs(Z_{lead})");
                working.step_with("working-current", &args, &i, &flows, Unit::Ampere)?;
                if formula.contains(&v) {
                    working.step_with("working-along", &args, &v, &format!("{i}*abs({own})"), Unit::Volt)?;
                }
            }
            None => working.given(&v, between, Unit::Volt),
        }
        let symbol = format!("U_{lead}{n}");
        working.step_with(id, &args, &symbol, &formula, Unit::Volt)?;
        Ok(Some(symbol))
    }
}
