//! The cheapest flow through a network, by successive shortest paths. By our own hand:
//! arcs with lower bounds, of some hundreds of nodes, in less than a library weighs.

/// A network of arcs that carry whole numbers of units at a price each. It must have no
/// cycle that costs less than nothing.
#[derive(Clone, Debug, Default)]
pub(super) struct Network {
    nodes: usize,
    arcs: Vec<Arc>,
}

/// An arc; the one after it, or before it where its place is odd, is its way back.
#[derive(Clone, Debug)]
struct Arc {
    from: usize,
    to: usize,
    room: i128,
    price: i128,
}

impl Network {
    pub(super) fn new(nodes: usize) -> Self {
        Self { nodes, arcs: Vec::new() }
    }

    /// Adds an arc and says which it is.
    pub(super) fn arc(&mut self, from: usize, to: usize, room: i128, price: i128) -> usize {
        self.arcs.push(Arc { from, to, room, price });
        self.arcs.push(Arc { from: to, to: from, room: 0, price: -price });
        self.arcs.len() - 2
    }

    /// How much an arc carries.
    pub(super) fn carried(&self, arc: usize) -> i128 {
        self.arcs.get(arc + 1).map_or(0, |back| back.room)
    }

    /// Sends so many units from one node to another as cheaply as can be; their price,
    /// or nothing where they do not all get through.
    pub(super) fn send(&mut self, from: usize, to: usize, mut units: i128) -> Option<i128> {
        let mut total = 0;
        while units > 0 {
            let path = self.cheapest(from, to)?;
            let room = path.iter().map(|arc| self.arcs[*arc].room).min()?.min(units);
            for arc in path {
                self.arcs[arc].room -= room;
                self.arcs[arc ^ 1].room += room;
                total += room * self.arcs[arc].price;
            }
            units -= room;
        }
        Some(total)
    }

    /// The arcs of the cheapest way with room (Bellman and Ford).
    fn cheapest(&self, from: usize, to: usize) -> Option<Vec<usize>> {
        let (mut price, mut by) = (vec![i128::MAX; self.nodes], vec![usize::MAX; self.nodes]);
        price[from] = 0;
        for _ in 0..self.nodes {
            let mut changed = false;
            for (i, arc) in self.arcs.iter().enumerate() {
                if arc.room > 0 && price[arc.from] < i128::MAX && price[arc.from] + arc.price < price[arc.to] {
                    price[arc.to] = price[arc.from] + arc.price;
                    by[arc.to] = i;
                    changed = true;
                }
            }
            if !changed {
                break;
            }
        }
        let mut path = Vec::new();
        let mut at = to;
        while at != from {
            let arc = *by.get(at)?;
            path.push(arc);
            at = self.arcs.get(arc)?.from;
        }
        Some(path)
    }
}
