//! Stages by chance, and a second opinion on them: all nodes at once in a full
//! matrix, and every set of isolated leads.
#![allow(clippy::panic, clippy::unwrap_used, dead_code, missing_docs, unreachable_pub)]

use stageohm::Complex64;
use stageohm::network::a_weighting;
use stageohm::numeric::Draws;
use stageohm::stage::ground::*;
use std::f64::consts::TAU;

pub fn earth(a: usize, b: usize, r: f64) -> Edge {
    Edge { ends: [a, b], r, l: 0.0, kind: Kind::Earth }
}

pub fn lead(a: usize, b: usize, r: f64, shield: Shield) -> Edge {
    Edge { ends: [a, b], r, l: 0.0, kind: Kind::Shield(Box::new(shield)) }
}

pub fn unbalanced() -> Shield {
    Shield::of(Signal::Unbalanced(None))
}

pub fn balanced(decibels: f64) -> Shield {
    Shield::of(Signal::Balanced(Rejection::Decibels(decibels), None))
}

pub fn limited(volts: f64) -> Signal {
    Signal::Unbalanced(Some(Limit { volts, weighting: Weighting::Flat }))
}

pub fn boxed() -> Node {
    Node::Equipment(Equipment::default())
}

pub fn leaking(amperes: f64, from: usize) -> Node {
    Node::Equipment(Equipment { leakage: Some(Leakage::of(amperes, from)), pin_1_r: 0.0 })
}

/// A distribution that holds its e.m.f.
pub fn held(volts: f64) -> Node {
    Node::Distribution(Distribution { volts, ..Distribution::default() })
}

/// The hum of each lead that carries a signal.
pub fn hum_of(graph: &Graph, ends: &[Ends]) -> Vec<Hum> {
    hums(graph, ends, &Circuit::new(graph).unwrap().solve(ends).unwrap())
}

/// What stages by chance are made of.
pub struct Chance(pub Draws);

impl Chance {
    pub fn one_in(&mut self, many: f64) -> bool {
        self.0.share() * many < 1.0
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.0.share() * count as f64) as usize
    }

    /// Evenly over the decades.
    fn over(&mut self, from: f64, to: f64) -> f64 {
        self.0.between(from.ln(), to.ln()).exp()
    }

    fn wave(&mut self) -> Wave {
        let mut harmonic = |order| Harmonic { order, ratio: self.0.share(), phase: self.0.between(-3.0, 3.0) };
        Wave(vec![harmonic(3), harmonic(5)])
    }

    fn node(&mut self) -> Node {
        let leakage = self.one_in(3.0).then(|| Leakage {
            amperes: self.over(0.05e-3, 0.5e-3),
            capacitance: if self.one_in(2.0) { 3e-9 } else { 0.0 },
            from: self.below(2),
            wave: self.wave(),
        });
        let pin_1_r = if self.one_in(8.0) { self.over(1e-3, 0.1) } else { 0.0 };
        Node::Equipment(Equipment { leakage, pin_1_r })
    }

    fn shield(&mut self) -> Shield {
        let weighting = if self.one_in(2.0) { Weighting::A } else { Weighting::Flat };
        let limit = (!self.one_in(3.0)).then(|| Limit { volts: self.over(1e-7, 1e-2), weighting });
        let signal = match self.below(5) {
            0 => None,
            1 | 2 => Some(Signal::Balanced(Rejection::Decibels(self.0.between(20.0, 80.0)), limit)),
            _ => Some(Signal::Unbalanced(limit)),
        };
        let ends = match self.below(12) {
            0 => Ends::One,
            1 => Ends::Transformer,
            2 => Ends::Optical,
            _ => Ends::Both,
        };
        Shield {
            contact_r: self.over(1e-3, 0.1),
            field: self.one_in(6.0).then(|| Field { density: 1e-6, area: self.over(0.1, 5.0), wave: self.wave() }),
            ends,
            isolator: (!self.one_in(6.0)).then(|| Isolator { cost: self.over(1.0, 9.0), capacitance: 100e-12 }),
            phantom: self.one_in(8.0),
            capacitance: 300e-12,
            circuit_r: self.one_in(3.0).then_some(150.0),
            ..Shield::of(signal)
        }
    }

    fn edge(&mut self, ends: [usize; 2]) -> Edge {
        let earthed = ends[0].min(ends[1]) < 2;
        let kind = match self.below(10) {
            0..8 if !earthed => Kind::Shield(Box::new(self.shield())),
            0..2 => Kind::Shield(Box::new(self.shield())),
            8 => Kind::Metalwork,
            _ => Kind::Earth,
        };
        Edge { ends, r: self.over(0.02, 0.5), l: if self.one_in(2.0) { self.over(1e-6, 1e-4) } else { 0.0 }, kind }
    }

    /// Two distributions, equipment, and an edge between each of these pairs.
    pub fn graph(&mut self, equipment: usize, pairs: &[[usize; 2]]) -> Graph {
        let wave = self.wave();
        let mut nodes = vec![
            held(0.0),
            Node::Distribution(Distribution { volts: self.over(0.01, 1.0), r: self.over(0.05, 1.0), l: 10e-6, wave }),
        ];
        nodes.extend((0..equipment).map(|_| self.node()));
        let edges = pairs.iter().map(|pair| self.edge(*pair)).collect();
        Graph {
            mains: if self.one_in(2.0) { 60.0 } else { 50.0 },
            orders: vec![1, 3],
            nodes,
            edges,
            phases: Phases::Known,
        }
    }

    /// With so many pieces of equipment and edges.
    pub fn any(&mut self, equipment: usize, edges: usize) -> Graph {
        let mut pairs = Vec::new();
        while pairs.len() < edges {
            let pair = [self.below(equipment + 2), self.below(equipment + 2)];
            if pair[0] != pair[1] {
                pairs.push(pair);
            }
        }
        self.graph(equipment, &pairs)
    }
}

/// The number of the part of the stage that each node is in, when these pairs are joined.
pub fn parts(nodes: usize, pairs: impl IntoIterator<Item = [usize; 2]>) -> Vec<usize> {
    let mut part: Vec<usize> = (0..nodes).collect();
    for [a, b] in pairs {
        let (from, to) = (part[a], part[b]);
        for each in part.iter_mut().filter(|each| **each == from) {
            *each = to;
        }
    }
    part
}

/// Loops among these pairs: those that join what is one part already.
pub fn closing(nodes: usize, pairs: &[[usize; 2]]) -> usize {
    (0..pairs.len())
        .filter(|at| {
            let part = parts(nodes, pairs[..*at].iter().copied());
            part[pairs[*at][0]] == part[pairs[*at][1]]
        })
        .count()
}

/// Pairs that are joined for good: earths, metalwork, and distributions to each other.
pub fn for_good(graph: &Graph) -> Vec<[usize; 2]> {
    let held = |(at, node): (usize, &Node)| matches!(node, Node::Distribution(_)).then_some(at);
    let bars: Vec<_> = graph.nodes.iter().enumerate().filter_map(held).collect();
    let earths = graph.edges.iter().filter(|edge| edge.shield().is_none()).map(|edge| edge.ends);
    bars.windows(2).map(|two| [two[0], two[1]]).chain(earths).collect()
}

pub fn conducting(graph: &Graph, ends: &[Ends]) -> Vec<[usize; 2]> {
    let through = |(edge, ends): (&Edge, &Ends)| (edge.shield().is_some() && *ends == Ends::Both).then_some(edge.ends);
    graph.edges.iter().zip(ends).filter_map(through).collect()
}

/// Hum by signal edge and order: potentials and currents at once in a full matrix, so
/// that impedances are never inverted, the largest pivot first.
pub fn dense_hum(graph: &Graph, ends: &[Ends]) -> Vec<(usize, Vec<f64>)> {
    let solved: Vec<_> = graph.orders.iter().map(|order| Dense::new(graph, ends, *order)).collect();
    let signal = |(at, edge): (usize, &Edge)| {
        edge.shield()?.signal.as_ref()?;
        Some((at, solved.iter().map(|dense| dense.hum(graph, ends, at)).collect()))
    };
    graph.edges.iter().enumerate().filter_map(signal).collect()
}

pub struct Dense {
    order: u32,
    omega: f64,
    v: Vec<Complex64>,
    currents: Vec<Option<Complex64>>,
}

/// From which node to which a current flows, with which impedance and e.m.f. in its way.
struct Way {
    from: Option<usize>,
    to: usize,
    z: Complex64,
    emf: Complex64,
}

impl Dense {
    pub fn new(graph: &Graph, ends: &[Ends], order: u32) -> Self {
        let omega = TAU * graph.mains * f64::from(order);
        let count = graph.nodes.len();
        let mut ways = Vec::new();
        let mut places = vec![None; graph.edges.len()];
        for (at, edge) in graph.edges.iter().enumerate() {
            if let Some(z) = impedance(graph, at, ends[at], omega) {
                places[at] = Some(ways.len());
                ways.push(Way { from: Some(edge.ends[0]), to: edge.ends[1], z, emf: emf(edge, order, omega) });
            }
        }
        for (at, node) in graph.nodes.iter().enumerate() {
            match node {
                Node::Distribution(earth) => {
                    let (z, emf) = (Complex64::new(earth.r, omega * earth.l), earth.wave.at(order) * earth.volts);
                    ways.push(Way { from: None, to: at, z, emf });
                }
                Node::Equipment(equipment) => {
                    if let Some(leakage) = equipment.leakage.as_ref().filter(|leakage| leakage.capacitance > 0.0) {
                        let z = Complex64::new(0.0, -1.0 / (omega * leakage.capacitance));
                        ways.push(Way { from: Some(leakage.from), to: at, z, emf: Complex64::ZERO });
                    }
                }
            }
        }
        let joined = ways.iter().filter_map(|way| Some([way.from?, way.to])).chain(for_good(graph));
        let part = parts(count, joined);
        let mut rows = equations(&ways, count);
        let last = count + ways.len();
        for (at, node) in graph.nodes.iter().enumerate() {
            if let Node::Equipment(Equipment { leakage: Some(leakage), .. }) = node
                && part[leakage.from] == part[at]
            {
                let current = leakage.wave.at(order) * leakage.amperes * f64::from(order);
                rows[at][last] += current;
                rows[leakage.from][last] -= current;
            }
        }
        // The first of a part that no distribution is in stands at zero.
        let earthed = |at: usize| (0..2).any(|bar| part[bar] == part[at]);
        for at in (0..count).filter(|at| !earthed(*at) && (0..*at).all(|other| part[other] != part[*at])) {
            rows[at] = vec![Complex64::ZERO; last + 1];
            rows[at][at] = 1.0.into();
        }
        let found = eliminated(rows);
        let currents = places.iter().map(|place| Some(found[count + (*place)?])).collect();
        Self { order, omega, v: found[..count].to_vec(), currents }
    }

    fn hum(&self, graph: &Graph, ends: &[Ends], at: usize) -> f64 {
        let edge = &graph.edges[at];
        let shield = edge.shield().unwrap();
        let across = self.v[edge.ends[0]] - self.v[edge.ends[1]] + emf(edge, self.order, self.omega);
        let current = self.currents[at].map_or(0.0, Complex64::norm);
        let pins = current * pins(graph, edge);
        match (ends[at], shield.signal.as_ref().unwrap()) {
            (Ends::Both, Signal::Unbalanced(_)) => current * (edge.r + shield.contact_r) + pins,
            (Ends::Transformer, _) => current * shield.circuit_r.unwrap_or(edge.r + shield.contact_r),
            (Ends::Optical | Ends::Radio, _) => 0.0,
            (_, Signal::Unbalanced(_)) => across.norm(),
            (_, Signal::Balanced(Rejection::Decibels(decibels), _)) => {
                across.norm() / 10_f64.powf(decibels / 20.0) + pins
            }
            (_, Signal::Balanced(Rejection::Bridge(_) | Rejection::ByOrder(_), _)) => {
                panic!("chance makes no bridges")
            }
        }
    }
}

pub fn pins(graph: &Graph, edge: &Edge) -> f64 {
    if edge.shield().is_none_or(|shield| shield.signal.is_none()) {
        return 0.0;
    }
    let pin = |node: usize| match &graph.nodes[node] {
        Node::Equipment(equipment) => equipment.pin_1_r,
        Node::Distribution(_) => 0.0,
    };
    pin(edge.ends[0]) + pin(edge.ends[1])
}

fn emf(edge: &Edge, order: u32, omega: f64) -> Complex64 {
    let field = edge.shield().and_then(|shield| shield.field.as_ref());
    field.map_or(Complex64::ZERO, |field| field.wave.at(order) * omega * field.density * field.area)
}

fn impedance(graph: &Graph, at: usize, ends: Ends, omega: f64) -> Option<Complex64> {
    let edge = &graph.edges[at];
    let contacts = edge.shield().map_or(0.0, |shield| shield.contact_r);
    match ends {
        Ends::Both => Some(Complex64::new(edge.r + contacts + pins(graph, edge), omega * edge.l)),
        Ends::Transformer => {
            let shield = edge.shield().unwrap();
            let capacitance = match shield.ends {
                Ends::Transformer => shield.capacitance,
                _ => shield.isolator.unwrap().capacitance,
            };
            let r = shield.circuit_r.unwrap_or(edge.r + contacts);
            Some(Complex64::new(r, omega * edge.l - 1.0 / (omega * capacitance)))
        }
        Ends::One | Ends::None | Ends::Optical | Ends::Radio => None,
    }
}

/// What flows out of each node is what is put in, and each current's voltages add up
/// (Ho, Ruehli and Brennan, 1975).
fn equations(ways: &[Way], count: usize) -> Vec<Vec<Complex64>> {
    let last = count + ways.len();
    let mut rows = vec![vec![Complex64::ZERO; last + 1]; last];
    for (way, column) in ways.iter().zip(count..) {
        for (node, sign) in way.from.map(|from| (from, 1.0)).into_iter().chain([(way.to, -1.0)]) {
            rows[node][column] += sign;
            rows[column][node] += sign;
        }
        rows[column][column] = -way.z;
        rows[column][last] = -way.emf;
    }
    rows
}

fn eliminated(mut rows: Vec<Vec<Complex64>>) -> Vec<Complex64> {
    let count = rows.len();
    for k in 0..count {
        let size = |row: &usize| rows[*row][k].norm();
        let largest = (k..count).max_by(|a, b| size(a).total_cmp(&size(b))).unwrap();
        rows.swap(k, largest);
        let (done, rest) = rows.split_at_mut(k + 1);
        for row in rest.iter_mut().filter(|row| row[k] != Complex64::ZERO) {
            let factor = row[k] / done[k][k];
            for column in k..=count {
                row[column] -= factor * done[k][column];
            }
        }
    }
    let mut v = vec![Complex64::ZERO; count];
    for k in (0..count).rev() {
        let known: Complex64 = (k + 1..count).map(|other| rows[k][other] * v[other]).sum();
        v[k] = (rows[k][count] - known) / rows[k][k];
    }
    v
}

/// Leads that may be isolated, with what that costs.
pub fn may(graph: &Graph) -> Vec<(usize, f64)> {
    let cost = |(at, edge): (usize, &Edge)| {
        let shield = edge.shield()?;
        let isolator = shield.isolator?;
        (shield.ends == Ends::Both && !shield.phantom).then_some((at, isolator.cost))
    };
    graph.edges.iter().enumerate().filter_map(cost).collect()
}

/// How each edge ends with these isolated.
pub fn isolated(graph: &Graph, set: &[usize]) -> Vec<Ends> {
    let mut ends: Vec<_> =
        graph.edges.iter().map(|edge| edge.shield().map_or(Ends::Both, |shield| shield.ends)).collect();
    for edge in set {
        ends[*edge] = match graph.edges[*edge].shield().unwrap().signal {
            None => Ends::Optical,
            Some(Signal::Unbalanced(_)) => Ends::Transformer,
            Some(Signal::Balanced(..)) => Ends::One,
        };
    }
    ends
}

/// Every set of leads that may be isolated, with its cost.
pub fn sets(graph: &Graph) -> impl Iterator<Item = (Vec<usize>, f64)> {
    let may = may(graph);
    (0..1_usize << may.len()).map(move |bits| {
        let inside = may.iter().enumerate().filter(|(place, _)| bits >> place & 1 == 1).map(|(_, lead)| *lead);
        let (set, costs): (Vec<_>, Vec<_>) = inside.unzip();
        (set, costs.iter().sum())
    })
}

/// Equipment that leaks and has a conductor to a distribution.
pub fn grounded_leaks(graph: &Graph, ends: &[Ends]) -> Vec<usize> {
    let joined = for_good(graph).into_iter().chain(conducting(graph, ends));
    let part = parts(graph.nodes.len(), joined);
    let leaks = |at: &usize| matches!(&graph.nodes[*at], Node::Equipment(equipment) if equipment.leakage.is_some());
    (0..graph.nodes.len()).filter(leaks).filter(|at| part[*at] == part[0]).collect()
}

/// Whether each input keeps its limit, and each leak that had one a way to earth.
pub fn keeps(graph: &Graph, set: &[usize]) -> bool {
    let ends = isolated(graph, set);
    if grounded_leaks(graph, &ends) != grounded_leaks(graph, &isolated(graph, &[])) {
        return false;
    }
    dense_hum(graph, &ends).iter().all(|(at, by_order)| {
        let signal = graph.edges[*at].shield().unwrap().signal.as_ref().unwrap();
        signal.limit().is_none_or(|limit| {
            let power = |(volts, order): (&f64, &u32)| {
                let decibels = match limit.weighting {
                    Weighting::Flat => 0.0,
                    Weighting::A => a_weighting(graph.mains * f64::from(*order)),
                };
                volts * volts * 10_f64.powf(decibels / 10.0)
            };
            by_order.iter().zip(&graph.orders).map(power).sum::<f64>().sqrt() <= limit.volts
        })
    })
}

/// All graphs of up to so many edges on four nodes, parallel edges too, by their pairs.
pub fn all_pairs(edges: usize) -> Vec<Vec<[usize; 2]>> {
    const PAIRS: [[usize; 2]; 6] = [[0, 1], [0, 2], [1, 2], [0, 3], [1, 3], [2, 3]];
    let mut all = vec![Vec::new()];
    let mut longest: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..edges {
        longest = longest
            .iter()
            .flat_map(|graph| {
                (graph.last().copied().unwrap_or(0)..PAIRS.len()).map(|pair| [graph.as_slice(), &[pair]].concat())
            })
            .collect();
        all.extend(longest.iter().map(|graph| graph.iter().map(|pair| PAIRS[*pair]).collect()));
    }
    all
}
