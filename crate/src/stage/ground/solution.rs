//! What flows in a stage.

use crate::Complex64;

/// The solution of a graph.
#[derive(Clone, Debug)]
pub struct Solution {
    /// Each component of the mains, and of each those sources apart whose phases re each
    /// other are not known.
    pub at: Vec<AtOrder>,
    /// Nodes that nothing joins to any distribution, by group; the first of each
    /// counts as 0 V.
    pub floating: Vec<Vec<usize>>,
    /// The most that is left over of Kirchhoff's current law, re all that flows at a node.
    pub left_over: f64,
}

/// The solution at one component of the mains; r.m.s., as phasors.
#[derive(Clone, Debug)]
pub struct AtOrder {
    /// 1 for the mains frequency, else the order of the harmonic.
    pub order: u32,
    /// Frequency, Hz.
    pub frequency: f64,
    /// The distribution by whose sources alone this is; none where it is by all, or by
    /// fields alone.
    pub by: Option<usize>,
    /// Potential of each node re the earth of the venue, V.
    pub potentials: Vec<Complex64>,
    /// Current through each edge from its first to its second end, A.
    pub currents: Vec<Complex64>,
    /// Current from each node into its earth path, A; 0 for equipment.
    pub earths: Vec<Complex64>,
    /// Current that each node's supply puts into it, A.
    pub leakages: Vec<Complex64>,
}

impl Solution {
    /// So far from this one towards another one of the same graph, which differs in what
    /// drives it: currents are linear in that.
    pub(crate) fn towards(&self, other: &Self, share: f64) -> Self {
        let mix = |a: &[Complex64], b: &[Complex64]| a.iter().zip(b).map(|(a, b)| a + (b - a) * share).collect();
        let at = |(a, b): (&AtOrder, &AtOrder)| AtOrder {
            order: a.order,
            frequency: a.frequency,
            by: a.by,
            potentials: mix(&a.potentials, &b.potentials),
            currents: mix(&a.currents, &b.currents),
            earths: mix(&a.earths, &b.earths),
            leakages: mix(&a.leakages, &b.leakages),
        };
        Self {
            at: self.at.iter().zip(&other.at).map(at).collect(),
            floating: self.floating.clone(),
            left_over: self.left_over.max(other.left_over),
        }
    }
}
