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
/// So often what pairs set free is offered to the others.
const ROUNDS: usize = 8;
/// By how much a limit is missed is told apart up to this, in tenths of it.
const LARGEST: i128 = 100;
/// More limits than a line has.
const MOST_LIMITS: i128 = 20;
/// A line that must not be connected like that weighs as much as so many limits.
const STOP: i128 = 100;

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
    /// Which boxes would leave an amplifier on the thru without its signal.
    mute: Vec<bool>,
}

/// How many lines of each situation have which pad and box.
type Counts = Vec<Vec<Vec<i128>>>;

/// From and up to how many lines of each situation have which pad.
type Bounds = Vec<Vec<(i128, i128)>>;

/// An assignment to be found.
struct Task {
    /// How many lines of each situation there are.
    sizes: Vec<i128>,
    /// The price of each choice, by situation, pad and box; nothing where it cannot be.
    prices: Vec<Vec<Vec<Option<i128>>>>,
    /// How many there are of each box and of each pad.
    boxes: Vec<i128>,
    pads: Vec<i128>,
    /// What one more than there are costs; nothing where there are no more.
    extra: Option<i128>,
}

/// The best assignment.
struct Best {
    counts: Counts,
    price: i128,
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
        // What stays where it is needs not be in the drawer.
        let stay = |id: &str| whole(show.lines.iter().filter(|line| isolator(show, line) == Some(id)).count());
        let count = |id: &&str| show.gear(id).and_then(|gear| gear.count);
        ids.iter().map(|id| count(id).map_or(whole(show.lines.len()), i128::from).max(stay(id))).collect::<Vec<_>>()
    };
    // A missed limit weighs more than all parts, and than all that would be missing; a part
    // more than by how much limits are missed, which decides among what is else the same.
    let lines = whole(show.lines.len());
    let part = LARGEST * MOST_LIMITS * lines + 1;
    let extra = part * (2 * lines + 1);
    let miss = (2 * lines + 1) * extra + extra;
    let mut task = Task {
        sizes: situations.iter().map(|situation| whole(situation.lines.len())).collect(),
        prices: situations.iter().map(|situation| prices(situation, miss, part)).collect(),
        boxes: have(&choices.boxes),
        pads: have(&choices.pads),
        extra: None,
    };
    let best = task.best();
    let mut places = places(show, &situations, &best.counts);
    let more = pair_up(show, &task, &mut places);
    let lines = suggestions(show, &choices, &situations, &places);
    let given = |line: &Suggestion| usize::from(!line.di.is_empty()) + usize::from(!line.pad.is_empty());
    let missed = |lines: &[Suggestion]| lines.iter().map(|line| line.misses.len()).sum();
    task.extra = Some(extra);
    let mut wished = self::places(show, &situations, &task.best().counts);
    pair_up(show, &task, &mut wished);
    let missed_with_all = missed(&suggestions(show, &choices, &situations, &wished));
    Proposal {
        missed: missed(&lines),
        parts: lines.iter().map(given).sum(),
        // Without pairs in mind nothing costs less, so what costs no more with them is the best.
        proved: best.proved && more == 0,
        missing: shortages(show, &choices, &task, &wished),
        missed_with_all,
        lines,
    }
}

/// What the drawer lacks.
fn shortages(show: &Show, choices: &Choices, task: &Task, places: &[Place]) -> Vec<Shortage> {
    let used = |which: PartOf, at: usize| whole(places.iter().filter(|place| which(place) == at).count());
    let mut missing = Vec::new();
    let kinds: [(_, _, PartOf); 2] =
        [(&choices.boxes, &task.boxes, |place| place.di), (&choices.pads, &task.pads, |place| place.pad)];
    for (ids, have, which) in kinds {
        for (at, (id, have)) in ids.iter().zip(have).enumerate().skip(1) {
            let more = used(which, at) - have;
            if let Some(gear) = show.gear(id).filter(|_| more > 0) {
                missing.push(Shortage { id: gear.id.clone(), name: gear.name.clone(), more: more as usize });
            }
        }
    }
    missing
}

/// The isolator that a line has already: somebody put it there against hum, of which a
/// line by itself may know nothing, so it stays.
fn isolator<'a>(show: &'a Show, line: &InputLine) -> Option<&'a str> {
    show.gear(&line.di).filter(|gear| gear.kind == GearKind::Isolator).map(|gear| gear.id.as_str())
}

/// A part of what is put on a line.
type PartOf = fn(&Place) -> usize;

/// What is put on a line: its situation, and the places of a pad and a box among the choices.
#[derive(Clone, Copy)]
struct Place {
    situation: usize,
    pad: usize,
    di: usize,
}

/// What the counts put on each line.
fn places(show: &Show, situations: &[Situation], counts: &Counts) -> Vec<Place> {
    let mut places = vec![Place { situation: 0, pad: 0, di: 0 }; show.lines.len()];
    for (situation, (lines, counts)) in situations.iter().map(|one| &one.lines).zip(counts).enumerate() {
        let mut lines = lines.iter();
        for (pad, counts) in counts.iter().enumerate() {
            for (di, count) in counts.iter().enumerate() {
                for line in lines.by_ref().take(*count as usize) {
                    places[*line] = Place { situation, pad, di };
                }
            }
        }
    }
    places
}

/// Gives both sides of a stereo pair the same, and to others what that sets free; how much
/// more that costs.
fn pair_up(show: &Show, task: &Task, places: &mut [Place]) -> i128 {
    let at = |id: &str| show.lines.iter().position(|line| line.id == id && !id.is_empty());
    let partner = |one: usize| at(&show.lines[one].pair).filter(|other| show.lines[*other].pair == show.lines[one].id);
    let units: Vec<Vec<usize>> = (0..places.len())
        .filter_map(|one| match partner(one) {
            None => Some(vec![one]),
            Some(other) => (one < other).then(|| vec![one, other]),
        })
        .collect();
    let is_split = |unit: &Vec<usize>, places: &[Place]| {
        unit.iter().any(|line| (places[*line].pad, places[*line].di) != (places[unit[0]].pad, places[unit[0]].di))
    };
    let before = task.total(places);
    for unit in &units {
        if is_split(unit, places) {
            task.settle(unit, places);
        }
    }
    if task.total(places) == before {
        return 0;
    }
    for _ in 0..ROUNDS {
        let now = task.total(places);
        for unit in &units {
            task.settle(unit, places);
        }
        if task.total(places) >= now {
            break;
        }
    }
    task.total(places) - before
}

/// Lines are far fewer than would not fit.
fn whole(count: usize) -> i128 {
    i128::try_from(count).unwrap_or(i128::MAX)
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
        let mut all: Vec<_> = choices.boxes.iter().map(|di| key(&with(line, di, ""), &settings)).collect();
        let stays = isolator(show, line);
        all.push(stays.map(str::to_owned).into_iter().collect());
        if let Some(place) = places.get(&all.concat()) {
            situations[*place].lines.push(i);
            continue;
        }
        places.insert(all.concat(), situations.len());
        let solve = |di: &&str, pad: &&str| {
            if stays.is_some_and(|stays| stays != *di) {
                return None;
            }
            let findings = solved(&with(line, di, pad), &settings);
            findings.problems.is_empty().then_some(findings)
        };
        let found = choices.pads.iter().map(|pad| choices.boxes.iter().map(|di| solve(di, pad)).collect()).collect();
        let has_thru = |di: &&str| show.gear(di).is_some_and(|gear| gear.kind == GearKind::Di);
        let mute = choices.boxes.iter().map(|di| !line.thru.is_empty() && !has_thru(di)).collect();
        situations.push(Situation { lines: vec![i], found, mute });
    }
    situations
}

/// What each choice costs a situation. Where none can be solved, nothing is put on it.
fn prices(situation: &Situation, miss: i128, part: i128) -> Vec<Vec<Option<i128>>> {
    let parts = |pad: usize, di: usize| part * (i128::from(pad > 0) + i128::from(di > 0));
    let price = |found: &Findings| {
        let by: i128 = found.shortfalls().map(|share| ((share * 10.0) as i128).min(LARGEST)).sum();
        miss * (whole(found.misses().len()) + if found.stop { STOP } else { 0 }) + by
    };
    let by_box = |(pad, found): (usize, &Vec<Option<Findings>>)| {
        let mute = |di: usize| if situation.mute[di] { miss * STOP } else { 0 };
        let one = |(di, found): (usize, &Option<Findings>)| Some(price(found.as_ref()?) + parts(pad, di) + mute(di));
        found.iter().enumerate().map(one).collect::<Vec<_>>()
    };
    let mut prices: Vec<_> = situation.found.iter().enumerate().map(by_box).collect();
    if prices.iter().flatten().all(Option::is_none) {
        prices[0][0] = Some(0);
    }
    prices
}

/// What is put on each line, by the names of gear.
fn suggestions(show: &Show, choices: &Choices, situations: &[Situation], places: &[Place]) -> Vec<Suggestion> {
    let suggestion = |(line, place): (&InputLine, &Place)| {
        let found = situations.get(place.situation).and_then(|one| one.found[place.pad][place.di].as_ref());
        Suggestion {
            id: line.id.clone(),
            di: choices.boxes[place.di].to_owned(),
            pad: choices.pads[place.pad].to_owned(),
            misses: found.map(Findings::misses).unwrap_or_default(),
            unsolved: found.is_none(),
        }
    };
    show.lines.iter().zip(places).map(suggestion).collect()
}

/// How many of each box and of each pad the counts use; nothing of what is nothing.
fn used(counts: &Counts, boxes: usize, pads: usize) -> (Vec<i128>, Vec<i128>) {
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
    /// What a choice costs on its line; nothing where it cannot be.
    fn price(&self, place: Place) -> Option<i128> {
        self.prices[place.situation][place.pad][place.di]
    }

    /// What all of it costs, with what it takes more than there are.
    fn total(&self, places: &[Place]) -> i128 {
        let prices: i128 = places.iter().filter_map(|place| self.price(*place)).sum();
        prices + self.beyond(places) * self.extra.unwrap_or(1)
    }

    /// How many parts are taken more than there are.
    fn beyond(&self, places: &[Place]) -> i128 {
        let over = |have: &[i128], which: PartOf| {
            let mut used = vec![0; have.len()];
            for place in places {
                used[which(place)] += 1;
            }
            used.iter().zip(have).skip(1).map(|(used, have): (&i128, _)| (used - have).max(0)).sum::<i128>()
        };
        over(&self.boxes, |place| place.di) + over(&self.pads, |place| place.pad)
    }

    /// Puts on all lines of a unit the same, what costs least beside the rest as it is.
    fn settle(&self, unit: &[usize], places: &mut [Place]) {
        let mut best: Option<(i128, usize, usize)> = None;
        for pad in 0..self.pads.len() {
            for di in 0..self.boxes.len() {
                let prices = unit.iter().map(|line| self.price(Place { pad, di, ..places[*line] }));
                let Some(price) = prices.sum::<Option<i128>>() else { continue };
                let mut tried = places.to_vec();
                for line in unit {
                    tried[*line] = Place { pad, di, ..places[*line] };
                }
                let beyond = self.beyond(&tried);
                let price = price + beyond * self.extra.unwrap_or(1);
                let fits = beyond == 0 || self.extra.is_some();
                if fits && best.is_none_or(|(least, ..)| price < least) {
                    best = Some((price, pad, di));
                }
            }
        }
        if let Some((_, pad, di)) = best {
            for line in unit {
                places[*line] = Place { pad, di, ..places[*line] };
            }
        }
    }

    /// The best assignment there is, or the best of those that were looked at.
    fn best(&self) -> Best {
        let free = || self.sizes.iter().map(|size| vec![(0, *size); self.pads.len()]).collect::<Bounds>();
        let mut best = Best { counts: self.nothing(), price: i128::MAX, proved: true };
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
            let sum: i128 = (1..pads.len()).map(over).sum();
            if sum == 0 {
                best = Best { counts, price: least, ..best };
                continue;
            }
            if let Some(extra) = self.extra
                && least + extra * sum < best.price
            {
                best = Best { counts: counts.clone(), price: least + extra * sum, ..best };
            }
            let lines = |place: usize, pad: usize| counts[place][pad].iter().sum::<i128>();
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
        let none = |size: &i128| {
            let mut counts = vec![vec![0; self.boxes.len()]; self.pads.len()];
            counts[0][0] = *size;
            counts
        };
        self.sizes.iter().map(none).collect()
    }

    /// The cheapest counts within bounds if pads had no end, and what they cost.
    fn relaxed(&self, bounds: &Bounds) -> Option<(Counts, i128)> {
        let (pads, boxes) = (self.pads.len(), self.boxes.len());
        // Every bound that can be kept is kept before anything else is looked at.
        let bound =
            1 + self.prices.iter().flatten().flatten().flatten().max()? * self.sizes.iter().sum::<i128>().max(1);
        let forced: i128 = bounds.iter().flatten().map(|(from, _)| from).sum();
        let kept = bounds
            .iter()
            .zip(&self.sizes)
            .all(|(bounds, size)| bounds.iter().map(|(from, _)| from).sum::<i128>() <= *size);
        let within = (1..pads).all(|pad| {
            self.extra.is_some() || bounds.iter().map(|bounds| bounds[pad].0).sum::<i128>() <= self.pads[pad]
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
        let all: i128 = self.sizes.iter().sum();
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
        let is_kept = |(counts, bounds): (&Vec<Vec<i128>>, &Vec<(i128, i128)>)| {
            counts.iter().zip(bounds).all(|(counts, (from, _))| counts.iter().sum::<i128>() >= *from)
        };
        counts.iter().zip(bounds).all(is_kept).then_some((counts, price + bound * forced))
    }
}
