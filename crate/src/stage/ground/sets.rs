//! Sets that only ever join (union-find).

/// Sets of the numbers from 0 on.
pub(super) struct Sets(Vec<usize>);

impl Sets {
    /// Each number by itself.
    pub(super) fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    /// The number that stands for the set of this one.
    pub(super) fn of(&mut self, mut member: usize) -> usize {
        while self.0[member] != member {
            self.0[member] = self.0[self.0[member]];
            member = self.0[member];
        }
        member
    }

    /// Joins the sets of two numbers; whether they were apart.
    pub(super) fn join(&mut self, a: usize, b: usize) -> bool {
        let (a, b) = (self.of(a), self.of(b));
        // The lower stands for both, so that what is reported does not hang on the order.
        self.0[a.max(b)] = a.min(b);
        a != b
    }
}
