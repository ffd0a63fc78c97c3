//! The ground map of a stage: what its earths, metalwork and shields carry, what
//! hums by it, which loops there are, and what to isolate.
//!
//! A [`Graph`] has equipment and distributions as nodes, and what joins their
//! grounds as edges. A [`Circuit`] solves it at the mains frequency and its
//! harmonics, [`hums`] tells what that does at each input, [`loops`] finds the
//! loops, [`forest`] opens them all at the least cost, and [`cheapest`] brings
//! every input under its limit at the least cost.
//!
//! Accuracy: 1e-9 relative on a current that is not what larger ones leave over.
//!
//! A laptop that leaks 0.25 mA over two equal shields of 0.2 Ω puts half of it
//! through each:
//!
//! ```
//! use stageohm::stage::ground::*;
//!
//! let lead = |cost| Edge {
//!     ends: [1, 2],
//!     r: 0.2,
//!     l: 0.0,
//!     kind: Kind::Shield(Box::new(Shield::of(Signal::Unbalanced(None)).isolated_for(cost, 100e-12))),
//! };
//! let laptop = Equipment { leakage: Some(Leakage::of(0.25e-3, 0)), ..Equipment::default() };
//! let graph = Graph {
//!     mains: 50.0,
//!     orders: vec![1],
//!     nodes: vec![
//!         Node::Distribution(Distribution::default()),
//!         Node::Equipment(laptop),
//!         Node::Equipment(Equipment::default()),
//!     ],
//!     edges: vec![lead(1.0), lead(1.0), Edge { ends: [0, 2], r: 0.1, l: 0.0, kind: Kind::Earth }],
//!     ..Graph::default()
//! };
//! let solution = Circuit::new(&graph)?.solve(&graph.ends())?;
//! let hum = &hums(&graph, &graph.ends(), &solution)[0];
//! assert!((hum.flat - 0.125e-3 * 0.2).abs() < 1e-12);
//! # Ok::<(), Wrong>(())
//! ```

mod arrival;
mod branch;
mod cheapest;
mod check;
mod driven;
mod factors;
mod forest;
mod graph;
mod hum;
mod loops;
mod nodal;
mod sets;
mod shield;
mod solution;

pub use arrival::Arrival;
pub use cheapest::{Effort, Isolation, cheapest};
pub use check::Wrong;
pub use forest::{Forest, forest};
pub use graph::{Distribution, Edge, Equipment, Graph, Harmonic, Kind, Leakage, Node, Phases, Wave};
pub use hum::{Hum, hums, ranked};
pub(crate) use loops::reached;
pub use loops::{Loop, LoopCount, Step, count, loops};
pub use nodal::Circuit;
pub use shield::{Bridge, Ends, Field, Isolator, Legs, Limit, Rejection, Shield, Signal, Weighting};
pub use solution::{AtOrder, Solution};
