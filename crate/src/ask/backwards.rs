//! Any answer asked backwards: the wanted reading is given, a field is solved
//! for. One solver serves all calculators.

use crate::calculator::Calculator;
use crate::field::Values;
use crate::numeric::{bracketed_root, highest};
use crate::quantity::{SHOWN, write};
use crate::report::Depth;
use crate::settings::Settings;

/// Samples over the range of the field.
const SAMPLES: usize = 320;
/// How closely the reading must meet the wanted value, relative to the span of
/// the readings met on the way.
const CLOSE: f64 = 1e-6;
/// What rounding alone changes of a reading, relative to the same span.
const UNCHANGED: f64 = 1e-11;

/// How closely a place is found, as a share of the range.
const FINE: f64 = 1e-13;

/// A value of the field that gives the wanted reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solved {
    /// The field, in SI units.
    pub value: f64,
    /// The reading there, in its unit.
    pub reading: f64,
}

/// What asking backwards came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    /// The values, in rising order.
    pub found: Vec<Solved>,
    /// Whether the field does not change the reading at all.
    pub unchanged: bool,
}

/// Finds every value of number field `field` within its limits for which the
/// reading `reading` is `wanted`, all other values staying as they are.
///
/// The range is scanned, on a log scale where its limits allow; stretches in
/// which the reading does not exist are stepped over, and so are jumps of the
/// reading past the wanted value. Values are good to 1e-9 relative. Of a stretch
/// along which the reading stays at the wanted value, the beginning is given. A
/// wanted value that prints as the highest or lowest reading does is met there.
pub fn solve_backwards(
    calculator: &Calculator,
    values: &Values,
    settings: &Settings,
    field: &str,
    reading: &str,
    wanted: f64,
) -> Outcome {
    let Some((field, number)) = calculator.field(field).and_then(|field| Some((*field, field.kind.number()?))) else {
        return Outcome::default();
    };
    let at = |value: f64| {
        calculator
            .solution(&values.clone().with(field, value), Depth::Readings)
            .ok()
            .and_then(|report| report.reading(reading)?.value)
            .unwrap_or(f64::NAN)
    };
    let scale = Scale::of(number.limits, number.usual);
    let scan = Scan::new(|x: f64| at(scale.value(x)) - wanted, wanted);
    if scan.unchanged() {
        return Outcome { found: Vec::new(), unchanged: scan.least <= scan.most };
    }
    let mut met: Vec<_> = scan.roots().into_iter().map(|x| scale.value(x)).collect();
    // A walk by factors never comes to zero, where a lead or a part is not there.
    let (from, first) = (number.limits.0, scale.value(0.0));
    if from < first {
        let near = |value: f64| at(value) - wanted;
        met.extend(bracketed_root(near, from, first, FINE));
        if near(from).abs() <= UNCHANGED * scan.size {
            met.push(from);
        }
    }
    met.sort_by(f64::total_cmp);
    let mut found: Vec<_> = met
        .into_iter()
        .map(|value| Solved { value, reading: at(value) })
        // A jump of the reading changes sign too, but never meets the value.
        .filter(|found| (found.reading - wanted).abs() <= CLOSE * scan.size)
        .collect();
    // Along a stretch that stays at the wanted value, rounding alone makes more of them.
    found.dedup_by(|next, last| {
        let near = (next.value - last.value).abs() <= 1e-7 * last.value.abs();
        near || (at(0.5 * (next.value + last.value)) - wanted).abs() <= UNCHANGED * scan.size
    });
    // What is printed of the highest or the lowest reading may lie just past it.
    if found.is_empty()
        && let Some(x) = scan.nearest()
    {
        let value = scale.value(x);
        let unit = calculator.solution(values, Depth::Readings).ok();
        let unit = unit.and_then(|report| report.reading(reading).map(|reading| reading.unit));
        let printed = |number: f64| unit.map(|unit| write(number, unit, SHOWN, settings));
        let turn = Solved { value, reading: at(value) };
        if turn.reading.is_finite() && printed(turn.reading) == printed(wanted) {
            found.push(turn);
        }
    }
    Outcome { found, unchanged: false }
}

/// How far a reading is off the wanted value, sampled along the range of a field.
struct Scan<F> {
    offset: F,
    x: Vec<f64>,
    y: Vec<f64>,
    least: f64,
    most: f64,
    /// What is small is so beside this: the wanted value, or how far the reading
    /// gets from it.
    size: f64,
}

impl<F: Fn(f64) -> f64> Scan<F> {
    fn new(offset: F, wanted: f64) -> Self {
        let x: Vec<f64> = (0..=SAMPLES).map(|i| i as f64 / SAMPLES as f64).collect();
        let y: Vec<f64> = x.iter().map(|x| offset(*x)).collect();
        let finite = || y.iter().filter(|y| y.is_finite());
        let size = finite().fold(wanted.abs(), |most: f64, y| most.max(y.abs()));
        let least = finite().copied().fold(f64::INFINITY, f64::min);
        let most = finite().copied().fold(f64::NEG_INFINITY, f64::max);
        Self { offset, x, y, least, most, size }
    }

    /// Whether the field does not change the reading, or there is none anywhere.
    fn unchanged(&self) -> bool {
        self.most - self.least <= UNCHANGED * self.size
    }

    /// The places where the reading may be the wanted one.
    fn roots(&self) -> Vec<f64> {
        let Self { offset, x, y, .. } = self;
        let mut roots = Vec::new();
        for i in 0..SAMPLES {
            match (y[i].is_nan(), y[i + 1].is_nan()) {
                (true, true) => {}
                (false, false) => roots.extend(bracketed_root(offset, x[i], x[i + 1], FINE)),
                // The reading ends in between: look as far as it goes.
                (first_missing, _) => {
                    let (kept, gone) = if first_missing { (x[i + 1], x[i]) } else { (x[i], x[i + 1]) };
                    let edge = edge(offset, kept, gone);
                    roots.extend(bracketed_root(offset, kept, edge, FINE));
                }
            }
            // Two answers between neighbouring samples: a turning point that reaches
            // the wanted value without a sign change to show for it.
            if i > 0
                && y[i - 1] * y[i] > 0.0
                && y[i] * y[i + 1] > 0.0
                && y[i].abs() < y[i - 1].abs()
                && y[i].abs() <= y[i + 1].abs()
            {
                let turn = self.turning_point(i);
                roots.extend(bracketed_root(offset, x[i - 1], turn, FINE));
                roots.extend(bracketed_root(offset, turn, x[i + 1], FINE));
            }
        }
        roots
    }

    /// Where the reading comes nearest to the wanted value, short of the ends.
    fn nearest(&self) -> Option<f64> {
        let inside = (1..SAMPLES).filter(|i| self.y[*i].is_finite());
        let i = inside.min_by(|a, b| self.y[*a].abs().total_cmp(&self.y[*b].abs()))?;
        Some(self.turning_point(i))
    }

    /// The place nearest to the wanted value around a sample.
    fn turning_point(&self, i: usize) -> f64 {
        let sign = self.y[i].signum();
        highest(|x| -sign * (self.offset)(x), self.x[i - 1], self.x[i + 1], 48)
    }
}

/// How the range of a field is walked: 0 to 1 over its limits.
pub(crate) enum Scale {
    Linear(f64, f64),
    Log(f64, f64),
}

impl Scale {
    pub(crate) fn of(limits: (f64, f64), usual: (f64, f64)) -> Self {
        let (from, to) = limits;
        // A range that begins at zero is walked from far below what is usual.
        let least = if from > 0.0 { from } else { usual.0.max(usual.1 * 1e-3) * 1e-3 };
        if from >= 0.0 && to / least > 100.0 { Self::Log(least, to) } else { Self::Linear(from, to) }
    }

    pub(crate) fn value(&self, x: f64) -> f64 {
        match self {
            Self::Linear(from, to) => from + (to - from) * x,
            Self::Log(from, to) => from * (to / from).powf(x),
        }
    }
}

/// The last place, going from `kept` towards `gone`, where the function exists.
fn edge(function: impl Fn(f64) -> f64, kept: f64, gone: f64) -> f64 {
    let (mut kept, mut gone) = (kept, gone);
    for _ in 0..40 {
        let middle = 0.5 * (kept + gone);
        if function(middle).is_nan() { gone = middle } else { kept = middle }
    }
    kept
}
