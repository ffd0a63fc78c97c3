//! Which box and which pad of the drawer goes on which line, so that most limits are
//! kept with the fewest parts.
//!
//! Lines whose values are the same but for box and pad are one situation. Boxes alone
//! are a flow from situations to kinds of box, which is solved exactly; pads make it
//! one with side conditions, which branch and bound settles.

use super::fill::filled;
use super::flow::Network;
use super::row::{Findings, key, solved};
use super::show::{GearKind, InputLine, Show};
use serde::Serialize;
use std::collections::HashMap;

/// A proposal for all lines of a show.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Proposal {
    /// What to put on each line, in the order of the lines.
    pub lines: Vec<Suggestion>,
    /// How many limits are missed then, over all lines.
    pub missed: usize,
    /// How many boxes and pads it takes.
    pub parts: usize,
    /// Whether nothing better is possible, or only nothing better was found.
    pub proved: bool,
    /// The fewest parts that would have to be there too, for as many limits to be kept
    /// as an endless drawer of the same gear would keep.
    pub missing: Vec<Shortage>,
    /// How many limits would be missed with those.
    pub missed_with_all: usize,
}

/// What to put on a line.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Suggestion {
    /// The line.
    pub id: String,
    /// The box; empty for none.
    pub di: String,
    /// The pad; empty for none.
    pub pad: String,
    /// The readings that miss their limits even then.
    pub misses: Vec<&'static str>,
    /// Whether its values cannot be solved, whatever is put on it.
    pub unsolved: bool,
}

/// What is missing in the drawer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Shortage {
    /// The gear.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How many more.
    pub more: usize,
}

/// So many situations, place by place, are looked at before the best so far has to do.
const LOOKS: usize = 20_000;
/// A line that must not be connected like that weighs as much as so many limits.
const STOP: i64 = 100;

/// What may be put on a line: kinds of box and of pad, nothing being the first of each.
struct Choices<'a> {
    boxes: Vec<&'a str>,
    pads: Vec<&'a str>,
}

/// The lines of one situation, and what each choice of box and pad makes of it: by
/// pad, then by box; nothing where that cannot be solved.
struct Situation {
    lines: Vec<usize>,
    found: Vec<Vec<Option<Findings>>>,
}

/// How many lines of each situation have which pad and box.
type Counts = Vec<Vec<Vec<i64>>>;

/// From and up to how many lines of each situation have which pad.
type Bounds = Vec<Vec<(i64, i64)>>;

/// An assignment to be found.
struct Task {
    /// How many lines of each situation there are.
    sizes: Vec<i64>,
    /// The price of each choice, by situation, pad and box; nothing where it cannot be.
    prices: Vec<Vec<Vec<Option<i64>>>>,
    /// How many there are of each box and of each pad.
    boxes: Vec<i64>,
    pads: Vec<i64>,
    /// What one more than there are costs; nothing where there are no more.
    extra: Option<i64>,
}

/// The best assignment.
struct Best {
    counts: Counts,
    price: i64,
    proved: bool,
}

/// Proposes a box and a pad for every line, from what is in the drawer.
pub fn propose(show: &Show) -> Proposal {
    let of = |kinds: &[GearKind]| {
        let gear = show.gear.iter().filter(|gear| kinds.contains(&gear.kind)).map(|gear| gear.id.as_str());
        [""].into_iter().chain(gear).collect::<Vec<_>>()
    };
    let choices = Choices { boxes: of(&[GearKind::Di, GearKind::Isolator]), pads: of(&[GearKind::Pad]) };
    let situations = situations(show, &choices);
    let have = |ids: &[&str]| {
        let count = |id: &&str| show.gear(id).and_then(|gear| gear.count);
        ids.iter().map(|id| count(id).map_or(whole(show.lines.len()), i64::from)).collect::<Vec<_>>()
    };
    // A missed limit weighs more than all parts, and than all that would be missing.
    let lines = whole(show.lines.len());
    let (part, extra) = (1, 2 * lines + 1);
    let miss = (2 * lines + 1) * extra + extra;
    let mut task = Task {
        sizes: situations.iter().map(|situation| whole(situation.lines.len())).collect(),
        prices: situations.iter().map(|situation| prices(situation, miss, part)).collect(),
        boxes: have(&choices.boxes),
        pads: have(&choices.pads),
        extra: None,
    };
    let best = task.best();
    let mut proposal = Proposal {
        lines: suggestions(show, &choices, &situations, &best.counts),
        missed: 0,
        parts: 0,
        proved: best.proved,
        missing: Vec::new(),
        missed_with_all: 0,
    };
    proposal.missed = proposal.lines.iter().map(|line| line.misses.len()).sum();
    let given = |line: &Suggestion| usize::from(!line.di.is_empty()) + usize::from(!line.pad.is_empty());
    proposal.parts = proposal.lines.iter().map(given).sum();
    task.extra = Some(extra);
    let wished = task.best();
    let all = suggestions(show, &choices, &situations, &wished.counts);
    proposal.missed_with_all = all.iter().map(|line| line.misses.len()).sum();
    let (boxes, pads) = used(&wished.counts, choices.boxes.len(), choices.pads.len());
    for (ids, used, have) in [(&choices.boxes, boxes, &task.boxes), (&choices.pads, pads, &task.pads)] {
        for ((id, used), have) in ids.iter().zip(used).zip(have) {
            if let Some(gear) = show.gear(id).filter(|_| used > *have) {
                let (id, name) = (gear.id.clone(), gear.name.clone());
                proposal.missing.push(Shortage { id, name, more: (used - have) as usize });
            }
        }
    }
    proposal
}

/// Lines are far fewer than would not fit.
fn whole(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// The lines by situation, each solved once for every choice.
fn situations(show: &Show, choices: &Choices) -> Vec<Situation> {
    let settings = show.settings();
    let with = |line: &InputLine, di: &str, pad: &str| {
        filled(show, &InputLine { di: di.to_owned(), pad: pad.to_owned(), ..line.clone() })
    };
    let mut places: HashMap<Vec<String>, usize> = HashMap::new();
    let mut situations: Vec<Situation> = Vec::new();
    for (i, line) in show.lines.iter().enumerate() {
        // A thru plays its part only behind a box, so every choice is looked at.
        let all: Vec<_> = choices.boxes.iter().map(|di| key(&with(line, di, ""), &settings)).collect();
        if let Some(place) = places.get(&all.concat()) {
            situations[*place].lines.push(i);
            continue;
        }
        places.insert(all.concat(), situations.len());
        let solve = |di: &&str, pad: &&str| {
            let findings = solved(&with(line, di, pad), &settings);
            findings.problems.is_empty().then_some(findings)
        };
        let found = choices.pads.iter().map(|pad| choices.boxes.iter().map(|di| solve(di, pad)).collect()).collect();
        situations.push(Situation { lines: vec![i], found });
    }
    situations
}

/// What each choice costs a situation. Where none can be solved, nothing is put on it.
fn prices(situation: &Situation, miss: i64, part: i64) -> Vec<Vec<Option<i64>>> {
    let parts = |pad: usize, di: usize| part * (i64::from(pad > 0) + i64::from(di > 0));
    let price = |found: &Findings| miss * (whole(found.misses().len()) + if found.stop { STOP } else { 0 });
    let by_box = |(pad, found): (usize, &Vec<Option<Findings>>)| {
        let one = |(di, found): (usize, &Option<Findings>)| Some(price(found.as_ref()?) + parts(pad, di));
        found.iter().enumerate().map(one).collect::<Vec<_>>()
    };
    let mut prices: Vec<_> = situation.found.iter().enumerate().map(by_box).collect();
    if prices.iter().flatten().all(Option::is_none) {
        prices[0][0] = Some(0);
    }
    prices
}

/// What the counts put on each line.
fn suggestions(show: &Show, choices: &Choices, situations: &[Situation], counts: &Counts) -> Vec<Suggestion> {
    let mut suggestions: Vec<_> = Vec::new();
    for (situation, counts) in situations.iter().zip(counts) {
        let mut lines = situation.lines.iter();
        for (pad, counts) in counts.iter().enumerate() {
            for (di, count) in counts.iter().enumerate() {
                for line in lines.by_ref().take(*count as usize) {
                    let found = situation.found[pad][di].as_ref();
                    let suggestion = Suggestion {
                        id: show.lines[*line].id.clone(),
                        di: choices.boxes[di].to_owned(),
                        pad: choices.pads[pad].to_owned(),
                        misses: found.map(Findings::misses).unwrap_or_default(),
                        unsolved: found.is_none(),
                    };
                    suggestions.push((*line, suggestion));
                }
            }
        }
    }
    suggestions.sort_by_key(|(line, _)| *line);
    suggestions.into_iter().map(|(_, suggestion)| suggestion).collect()
}

/// How many of each box and of each pad the counts use; nothing of what is nothing.
fn used(counts: &Counts, boxes: usize, pads: usize) -> (Vec<i64>, Vec<i64>) {
    let (mut by_box, mut by_pad) = (vec![0; boxes], vec![0; pads]);
    for (pad, counts) in counts.iter().flat_map(|counts| counts.iter().enumerate()) {
        for (di, count) in counts.iter().enumerate() {
            by_box[di] += count;
            by_pad[pad] += count;
        }
    }
    by_box[0] = 0;
    by_pad[0] = 0;
    (by_box, by_pad)
}

impl Task {
    /// The best assignment there is, or the best of those that were looked at.
    fn best(&self) -> Best {
        let free = || self.sizes.iter().map(|size| vec![(0, *size); self.pads.len()]).collect::<Bounds>();
        let mut best = Best { counts: self.nothing(), price: i64::MAX, proved: true };
        let mut open = vec![free()];
        let mut looked = 0;
        while let Some(bounds) = open.pop() {
            looked += self.sizes.len();
            if looked > LOOKS.max(self.sizes.len()) {
                best.proved = false;
                break;
            }
            // With pads without end: no assignment within these bounds costs less.
            let Some((counts, least)) = self.relaxed(&bounds) else { continue };
            if least >= best.price {
                continue;
            }
            let (_, pads) = used(&counts, self.boxes.len(), self.pads.len());
            let over = |pad: usize| (pads[pad] - self.pads[pad]).max(0);
            let sum: i64 = (1..pads.len()).map(over).sum();
            if sum == 0 {
                best = Best { counts, price: least, ..best };
                continue;
            }
            if let Some(extra) = self.extra
                && least + extra * sum < best.price
            {
                best = Best { counts: counts.clone(), price: least + extra * sum, ..best };
            }
            let lines = |place: usize, pad: usize| counts[place][pad].iter().sum::<i64>();
            let places = (1..pads.len())
                .filter(|pad| over(*pad) > 0)
                .flat_map(|pad| (0..counts.len()).map(move |place| (place, pad)));
            let undecided = places.filter(|(place, pad)| bounds[*place][*pad].0 < lines(*place, *pad));
            let Some((place, pad)) = undecided.max_by_key(|(place, pad)| lines(*place, *pad)) else { continue };
            let there = lines(place, pad);
            let (mut fewer, mut more) = (bounds.clone(), bounds);
            more[place][pad].0 = there;
            fewer[place][pad].1 = there - 1;
            open.extend([more, fewer]);
        }
        best
    }

    /// Nothing on any line.
    fn nothing(&self) -> Counts {
        let none = |size: &i64| {
            let mut counts = vec![vec![0; self.boxes.len()]; self.pads.len()];
            counts[0][0] = *size;
            counts
        };
        self.sizes.iter().map(none).collect()
    }

    /// The cheapest counts within bounds if pads had no end, and what they cost.
    fn relaxed(&self, bounds: &Bounds) -> Option<(Counts, i64)> {
        let (pads, boxes) = (self.pads.len(), self.boxes.len());
        // Every bound that can be kept is kept before anything else is looked at.
        let bound = 1 + self.prices.iter().flatten().flatten().flatten().max()? * self.sizes.iter().sum::<i64>().max(1);
        let forced: i64 = bounds.iter().flatten().map(|(from, _)| from).sum();
        let kept = bounds
            .iter()
            .zip(&self.sizes)
            .all(|(bounds, size)| bounds.iter().map(|(from, _)| from).sum::<i64>() <= *size);
        let within = (1..pads).all(|pad| {
            self.extra.is_some() || bounds.iter().map(|bounds| bounds[pad].0).sum::<i64>() <= self.pads[pad]
        });
        if !kept || !within || bounds.iter().flatten().any(|(from, to)| from > to) {
            return None;
        }
        let situations = self.sizes.len();
        let (source, sink) = (0, 1);
        let situation = |i: usize| 2 + i;
        let padded = |i: usize, pad: usize| 2 + situations + i * pads + pad;
        let boxed = |di: usize| 2 + situations * (1 + pads) + di;
        let mut network = Network::new(boxed(boxes));
        let mut arcs = Vec::new();
        for (i, size) in self.sizes.iter().enumerate() {
            network.arc(source, situation(i), *size, 0);
            for (pad, (from, to)) in bounds[i].iter().enumerate() {
                network.arc(situation(i), padded(i, pad), *from, -bound);
                network.arc(situation(i), padded(i, pad), to - from, 0);
                for (di, price) in self.prices[i][pad].iter().enumerate() {
                    arcs.push(price.map(|price| network.arc(padded(i, pad), boxed(di), *size, price)));
                }
            }
        }
        let all: i64 = self.sizes.iter().sum();
        for (di, count) in self.boxes.iter().enumerate() {
            network.arc(boxed(di), sink, if di == 0 { all } else { *count }, 0);
            if let Some(extra) = self.extra {
                network.arc(boxed(di), sink, all, extra);
            }
        }
        let price = network.send(source, sink, all)?;
        let mut arcs = arcs.into_iter();
        let mut next = || arcs.next().flatten().map_or(0, |arc| network.carried(arc));
        let mut by_box = || (0..boxes).map(|_| next()).collect::<Vec<_>>();
        let counts: Counts = (0..situations).map(|_| (0..pads).map(|_| by_box()).collect()).collect();
        let is_kept = |(counts, bounds): (&Vec<Vec<i64>>, &Vec<(i64, i64)>)| {
            counts.iter().zip(bounds).all(|(counts, (from, _))| counts.iter().sum::<i64>() >= *from)
        };
        counts.iter().zip(bounds).all(is_kept).then_some((counts, price + bound * forced))
    }
}
