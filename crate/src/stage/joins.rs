//! Leads out of pieces: which pieces of the drawer to join so that it suffices, with
//! the fewest joins.

/// Lengths that differ by less, m, are one.
pub(super) const SAME_LENGTH: f64 = 5e-3;
/// More pieces than these nobody joins to one lead.
const MOST_PIECES: usize = 4;
/// So many ways to make one lead are found, of which so many are tried, for so many lengths
/// at once, in so many steps: many times what a stage has.
const MOST_FOUND: usize = 512;
const MOST_WAYS: usize = 32;
const MOST_WANTS: usize = 16;
const MOST_STEPS: usize = 20_000;

/// Pieces of one length.
pub(super) struct Piece {
    /// m; nothing where nobody says, which is then like no other.
    pub length: f64,
    /// How many there are; nothing where they are not counted.
    pub have: Option<u32>,
}

/// Leads that are wanted, all the same.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Want {
    /// m.
    pub length: f64,
    /// Whether joints are out of the question.
    pub one_piece: bool,
    /// Whether a longer one does as well.
    pub or_longer: bool,
}

/// A way to make a lead.
#[derive(Clone, Debug, PartialEq)]
struct Way {
    /// The places of its pieces, the longest first.
    pieces: Vec<usize>,
    cost: Cost,
}

/// Leads not made, joints, their squares (rather three leads with a joint each than one
/// with three), and what is too long, cm: the first that differs decides.
type Cost = [u64; 4];

/// How the leads are made: for each want the places of the pieces, the longest first, with
/// how many are made like that.
#[derive(Clone, Default)]
pub(super) struct Joined {
    pub ways: Vec<Vec<(Vec<usize>, usize)>>,
    /// Whether no other choice is better.
    pub proved: bool,
}

/// Makes as many of the wanted leads as the pieces, the shortest first, allow, with the fewest joints.
pub(super) fn joined(pieces: &[Piece], wants: &[(Want, usize)]) -> Joined {
    let mut joined = Joined { ways: Vec::new(), proved: wants.len() <= MOST_WANTS };
    let mut stock = pieces.iter().map(|piece| piece.have.map_or(usize::MAX, |have| have as usize)).collect();
    let most_steps = MOST_STEPS / wants.len().div_ceil(MOST_WANTS).max(1);
    for wants in wants.chunks(MOST_WANTS) {
        stock = add_joined((pieces, wants), stock, most_steps, &mut joined);
    }
    joined
}

/// Adds how these are made out of the stock, and gives what is left of it.
fn add_joined(
    (pieces, wants): (&[Piece], &[(Want, usize)]),
    stock: Vec<usize>,
    most_steps: usize,
    joined: &mut Joined,
) -> Vec<usize> {
    let ways: Vec<Vec<Way>> = wants.iter().map(|(want, _)| ways(pieces, *want)).collect();
    let mut least = vec![Cost::default()];
    for (ways, (_, count)) in ways.iter().zip(wants).rev() {
        let tail = least.last().copied().unwrap_or_default();
        least.push(sum(tail, times(cheapest(ways), *count)));
    }
    least.reverse();
    let (chosen, best) = (Vec::new(), None);
    let mut search = Search { wants, ways: &ways, least: &least, stock, chosen, best, steps: 0, most_steps };
    search.go((0, 0), wants.first().map_or(0, |(_, count)| *count), Cost::default());
    joined.proved &= search.steps < most_steps && ways.iter().all(|ways| ways.len() < MOST_WAYS);
    let (_, chosen) = search.best.take().unwrap_or_default();
    let first = joined.ways.len();
    joined.ways.resize(first + wants.len(), Vec::new());
    for ((want, way), count) in chosen.into_iter().filter(|(_, count)| *count > 0) {
        let way = &ways[want][way];
        search.take(way, count, false);
        joined.ways[first + want].push((way.pieces.clone(), count));
    }
    search.stock
}

/// All ways to make a lead in which no piece is too many, the best first.
fn ways(pieces: &[Piece], want: Want) -> Vec<Way> {
    let mut ways = Vec::new();
    let most = if want.one_piece { 1 } else { MOST_PIECES };
    add(pieces, want, most, &mut Vec::new(), &mut ways);
    ways.truncate(MOST_WAYS);
    ways
}

/// Adds pieces, none longer than the last, until the lead is long enough.
fn add(pieces: &[Piece], want: Want, most: usize, taken: &mut Vec<usize>, ways: &mut Vec<Way>) {
    let made: f64 = taken.iter().map(|place| pieces[*place].length).sum();
    let longest = taken.last().map_or(pieces.len(), |last| last + 1);
    for place in (0..longest).rev() {
        let length = pieces[place].length;
        let excess = made + length - want.length;
        // Shorter ones would not do either.
        if made + (most - taken.len()) as f64 * length < want.length - SAME_LENGTH || ways.len() >= MOST_FOUND {
            break;
        }
        // What has no length is there for what has none.
        if (length <= 0.0) != (want.length <= 0.0) || (excess > SAME_LENGTH && !want.or_longer) {
            continue;
        }
        taken.push(place);
        if excess > -SAME_LENGTH {
            // The last piece is the shortest: without it the lead was too short.
            let joints = taken.len() as u64 - 1;
            let cost = [0, joints, joints * joints, (excess.max(0.0) * 100.0).round() as u64];
            let at = ways.partition_point(|known| known.cost <= cost);
            ways.insert(at, Way { pieces: taken.clone(), cost });
        } else if taken.len() < most {
            add(pieces, want, most, taken, ways);
        }
        taken.pop();
    }
}

/// What a lead costs at least; one that cannot be made is missing.
fn cheapest(ways: &[Way]) -> Cost {
    ways.first().map_or([1, 0, 0, 0], |way| way.cost)
}

fn sum(a: Cost, b: Cost) -> Cost {
    [0, 1, 2, 3].map(|i| a[i] + b[i])
}

fn times(cost: Cost, count: usize) -> Cost {
    cost.map(|one| one * count as u64)
}

/// A choice: the want and the way, and how many are made like that.
type Choice = ((usize, usize), usize);

/// Depth first, the best way of each first; what cannot become better is left.
struct Search<'a> {
    wants: &'a [(Want, usize)],
    ways: &'a [Vec<Way>],
    /// What the wants from each on cost at least.
    least: &'a [Cost],
    stock: Vec<usize>,
    chosen: Vec<Choice>,
    best: Option<(Cost, Vec<Choice>)>,
    steps: usize,
    most_steps: usize,
}

impl Search<'_> {
    fn go(&mut self, (want, way): (usize, usize), open: usize, cost: Cost) {
        self.steps += 1;
        let Some(ways) = self.ways.get(want) else {
            if self.best.as_ref().is_none_or(|(best, _)| cost < *best) {
                self.best = Some((cost, self.chosen.clone()));
            }
            return;
        };
        // A way for which the pieces are gone is none.
        let next = (way..ways.len()).find(|way| self.most(&ways[*way]) > 0).unwrap_or(ways.len());
        let (way, ways) = (next, &ways[next..]);
        let tail = self.least.get(want + 1).copied().unwrap_or_default();
        let least = sum(sum(cost, times(cheapest(ways), open)), tail);
        if self.best.as_ref().is_some_and(|(best, _)| least >= *best) {
            return;
        }
        let Some(this) = ways.first().filter(|_| open > 0) else {
            let next = self.wants.get(want + 1).map_or(0, |(_, count)| *count);
            return self.go((want + 1, 0), next, sum(cost, [open as u64, 0, 0, 0]));
        };
        for count in (0..=self.most(this).min(open)).rev() {
            // Once there is an answer, the rest is for making it better.
            if self.steps >= self.most_steps && self.best.is_some() {
                return;
            }
            self.take(this, count, false);
            self.chosen.push(((want, way), count));
            self.go((want, way + 1), open - count, sum(cost, times(this.cost, count)));
            self.chosen.pop();
            self.take(this, count, true);
        }
    }

    /// How many leads the stock has pieces for.
    fn most(&self, way: &Way) -> usize {
        let each = |place: &usize| {
            let needed = way.pieces.iter().filter(|other| *other == place).count();
            self.stock[*place] / needed
        };
        way.pieces.iter().map(each).min().unwrap_or_default()
    }

    fn take(&mut self, way: &Way, count: usize, back: bool) {
        for place in &way.pieces {
            let left = &mut self.stock[*place];
            // Of what is not counted there is enough.
            if *left != usize::MAX {
                *left = if back { *left + count } else { *left - count };
            }
        }
    }
}
