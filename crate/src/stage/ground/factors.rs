//! Factors of a sparse symmetric matrix of complex numbers: A = L·D·Lᵀ.
//!
//! Unknowns are put in an order of least degree, which is found once from where
//! the matrix has entries; the rows are then eliminated one after the other by the
//! elimination tree (T. A. Davis, Algorithm 849, ACM Trans. Math. Softw. 31, 2005).
//! Nothing is pivoted: in the admittances of a passive network no pivot is small
//! beside what is eliminated by it (N. J. Higham, Math. Comp. 67, 1998), and whoever
//! solves looks at what is left over.

use crate::Complex64;

/// Where a symmetric matrix has entries, and in which order it is eliminated.
pub(super) struct Pattern {
    /// The unknown that is eliminated at each place.
    order: Vec<usize>,
    /// For each place, entries with earlier places: that place, and the number of the pair.
    earlier: Vec<Vec<(usize, usize)>>,
    /// For each place, the next one that it alters; its own where there is none.
    parent: Vec<usize>,
    /// Where the column of each place begins among the entries of L; one more at the end.
    starts: Vec<usize>,
}

/// L and D of one matrix.
pub(super) struct Factors<'a> {
    pattern: &'a Pattern,
    rows: Vec<usize>,
    below: Vec<Complex64>,
    diagonal: Vec<Complex64>,
}

impl Pattern {
    /// Of so many unknowns, with entries at these pairs beside the diagonal.
    pub(super) fn new(count: usize, pairs: &[[usize; 2]]) -> Self {
        let order = least_degree(count, pairs);
        let mut place = vec![0; count];
        for (at, unknown) in order.iter().enumerate() {
            place[*unknown] = at;
        }
        let mut earlier = vec![Vec::new(); count];
        for (number, [a, b]) in pairs.iter().enumerate() {
            let (a, b) = (place[*a], place[*b]);
            earlier[a.max(b)].push((a.min(b), number));
        }
        let mut parent: Vec<usize> = (0..count).collect();
        let mut seen = parent.clone();
        let mut below = vec![0; count];
        for k in 0..count {
            for (entry, _) in &earlier[k] {
                let mut i = *entry;
                while seen[i] != k {
                    if parent[i] == i {
                        parent[i] = k;
                    }
                    below[i] += 1;
                    seen[i] = k;
                    i = parent[i];
                }
            }
        }
        let mut starts = vec![0];
        starts.extend(below.iter().scan(0, |sum, count| {
            *sum += count;
            Some(*sum)
        }));
        Self { order, earlier, parent, starts }
    }

    /// The factors of a matrix: its diagonal by unknown, and its other entries by pair.
    /// None where there are none.
    pub(super) fn factors(&self, diagonal: &[Complex64], others: &[Complex64]) -> Option<Factors<'_>> {
        let count = self.order.len();
        let entries = self.starts[count];
        let (mut rows, mut below) = (vec![0; entries], vec![Complex64::ZERO; entries]);
        let mut filled = self.starts.clone();
        let mut d = vec![Complex64::ZERO; count];
        let mut work = d.clone();
        let mut seen: Vec<usize> = (0..count).collect();
        let (mut way, mut touched) = (Vec::new(), Vec::new());
        for k in 0..count {
            // The places that reach this row, each after those that alter it.
            touched.clear();
            for (entry, number) in &self.earlier[k] {
                work[*entry] += others[*number];
                let mut i = *entry;
                while seen[i] != k {
                    way.push(i);
                    seen[i] = k;
                    i = self.parent[i];
                }
                // Reversed as a whole below, so the way stands from its far end on.
                touched.extend(way.drain(..).rev());
            }
            let mut pivot = diagonal[self.order[k]];
            for i in touched.iter().rev() {
                let y = std::mem::take(&mut work[*i]);
                for at in self.starts[*i]..filled[*i] {
                    work[rows[at]] -= below[at] * y;
                }
                let l = y / d[*i];
                pivot -= l * y;
                (rows[filled[*i]], below[filled[*i]]) = (k, l);
                filled[*i] += 1;
            }
            if pivot == Complex64::ZERO || !pivot.is_finite() {
                return None;
            }
            d[k] = pivot;
            work[k] = Complex64::ZERO;
        }
        Some(Factors { pattern: self, rows, below, diagonal: d })
    }
}

impl Factors<'_> {
    /// The unknowns that make this right-hand side.
    pub(super) fn solve(&self, right: &[Complex64]) -> Vec<Complex64> {
        let Pattern { order, starts, .. } = self.pattern;
        let column = |k: usize| starts[k]..starts[k + 1];
        let mut x: Vec<_> = order.iter().map(|unknown| right[*unknown]).collect();
        for k in 0..order.len() {
            for at in column(k) {
                let known = x[k];
                x[self.rows[at]] -= self.below[at] * known;
            }
        }
        for (x, d) in x.iter_mut().zip(&self.diagonal) {
            *x /= d;
        }
        for k in (0..order.len()).rev() {
            for at in column(k) {
                let known = x[self.rows[at]];
                x[k] -= self.below[at] * known;
            }
        }
        let mut unknowns = vec![Complex64::ZERO; order.len()];
        for (unknown, x) in order.iter().zip(x) {
            unknowns[*unknown] = x;
        }
        unknowns
    }
}

/// An order in which each unknown, when its turn comes, is joined with the fewest
/// that are left. Neighbours are kept as bits: few enough here, and quickly joined.
fn least_degree(count: usize, pairs: &[[usize; 2]]) -> Vec<usize> {
    let words = count.div_ceil(64);
    let mut joined = vec![vec![0_u64; words]; count];
    for [a, b] in pairs {
        joined[*a][b / 64] |= 1 << (b % 64);
        joined[*b][a / 64] |= 1 << (a % 64);
    }
    let degree = |row: &[u64]| row.iter().map(|word| word.count_ones()).sum::<u32>();
    let mut degrees: Vec<_> = joined.iter().map(|row| degree(row)).collect();
    let mut left: Vec<usize> = (0..count).collect();
    let mut order = Vec::with_capacity(count);
    while let Some(at) = (0..left.len()).min_by_key(|at| (degrees[left[*at]], left[*at])) {
        let next = left.swap_remove(at);
        order.push(next);
        let around = std::mem::take(&mut joined[next]);
        for other in (0..count).filter(|other| around[other / 64] >> (other % 64) & 1 == 1) {
            for (word, more) in joined[other].iter_mut().zip(&around) {
                *word |= more;
            }
            for gone in [next, other] {
                joined[other][gone / 64] &= !(1 << (gone % 64));
            }
            degrees[other] = degree(&joined[other]);
        }
    }
    order
}
