//! How the hum at one input comes about, step by step.

use super::answer::{InputAt, MapWorking};
use super::plan::Plan;
use super::solved::Solved;
use crate::fault::Fault;
use crate::network::a_weighting_power;
use crate::quantity::Unit;
use crate::settings::Settings;
use crate::stage::ground::{AtOrder, Ends, Hum, Rejection, Shield, Signal};
use crate::words::Arg;
use crate::working::Working;

/// At one input of a line; nothing where there is no such input.
pub(super) fn working(plan: &Plan, line: &str, at: InputAt, settings: &Settings) -> Option<MapWorking> {
    let solved = Solved::new(plan).ok()?;
    let (_, hum) = solved.inputs.iter().find(|(input, _)| input.line == line && input.at == at)?;
    let weighted = |place: &usize| hum.by_order[*place].powi(2) * a_weighting_power(frequency(plan, *place));
    let places = 0..hum.by_order.len();
    let place = places.max_by(|a, b| weighted(a).total_cmp(&weighted(b)).then(b.cmp(a)))?;
    let mut working = Working::new("stage-map", true);
    if hum.by_order[place] > 0.0 {
        Hums { solved: &solved, hum, place }.write(&mut working).ok()?;
    }
    let steps = working.into_steps().into_iter().map(|step| step.worded(settings)).collect();
    Some(MapWorking { frequency: frequency(plan, place), steps })
}

fn frequency(plan: &Plan, place: usize) -> f64 {
    plan.graph.mains * f64::from(plan.graph.orders[place])
}

/// One component of the hum at an input.
struct Hums<'a> {
    solved: &'a Solved<'a>,
    hum: &'a Hum,
    place: usize,
}

impl Hums<'_> {
    fn write(&self, working: &mut Working) -> Result<(), Fault> {
        let mut terms = Vec::new();
        let order = self.solved.plan.graph.orders[self.place];
        self.givens(working);
        let parts = self.solved.solution.at.iter().filter(|at| at.order == order);
        for (number, at) in parts.enumerate() {
            for edge in &self.hum.edges {
                terms.extend(self.lead(working, *edge, (number + 1, at))?);
            }
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
        let (i, v) = (format!("I_{lead}{n}"), format!("V_{lead}{n}"));
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
        working.given(&i, current, Unit::Ampere);
        working.given(&v, between, Unit::Volt);
        let symbol = format!("U_{lead}{n}");
        let by = self.solved.plan.places.iter().find(|place| Some(place.node) == at.by);
        let (circuit, lead) = (by.map_or("", |place| place.name.as_str()), format!("stage-map-lead-{lead}"));
        let args = [("circuit", Arg::name(circuit)), ("lead", Arg::Key(lead))];
        working.step_with(id, &args, &symbol, &formula, Unit::Volt)?;
        Ok(Some(symbol))
    }
}
