//! The numbers of a solution in a row.

use crate::numeric::interpolate;
use crate::report::Solution;

/// Points of each curve from which its worst case is searched, at most.
const SEARCHED: usize = 12;

/// Where the numbers of a solution stand in a row: first the readings, then the
/// curves.
pub(super) struct Layout {
    pub readings: Vec<&'static str>,
    pub curves: Vec<Curve>,
    pub places: usize,
}

pub(super) struct Curve {
    pub plot: &'static str,
    pub trace: &'static str,
    pub x: Vec<f64>,
    pub log: bool,
    pub start: usize,
    /// The points from which its worst case is searched.
    pub searched: Vec<usize>,
}

impl Layout {
    pub(super) fn of(nominal: &Solution) -> Self {
        let readings: Vec<_> = nominal.headline.iter().chain(&nominal.further).map(|reading| reading.id).collect();
        let mut places = readings.len();
        let mut curves = Vec::new();
        for plot in &nominal.plots {
            for trace in plot.traces.iter().filter(|trace| !trace.reference) {
                let start = places;
                let searched = telling(&trace.y, plot.y.log);
                places += trace.x.len();
                curves.push(Curve {
                    plot: plot.id,
                    trace: trace.id,
                    x: trace.x.clone(),
                    log: plot.x.log,
                    start,
                    searched,
                });
            }
        }
        Self { readings, curves, places }
    }

    /// The numbers of a solution, NaN for what it does not have.
    pub(super) fn row(&self, solution: Option<&Solution>, row: &mut Vec<f64>) {
        row.clear();
        row.resize(self.places, f64::NAN);
        let Some(solution) = solution else { return };
        for (slot, id) in row.iter_mut().zip(&self.readings) {
            *slot = solution.reading(id).and_then(|reading| reading.value).unwrap_or(f64::NAN);
        }
        for curve in &self.curves {
            let plot = solution.plots.iter().find(|plot| plot.id == curve.plot);
            let trace = plot.and_then(|plot| plot.traces.iter().find(|trace| trace.id == curve.trace));
            if let (Some(trace), Some(slots)) = (trace, row.get_mut(curve.start..curve.start + curve.x.len())) {
                if trace.x == curve.x {
                    slots.iter_mut().zip(&trace.y).for_each(|(slot, y)| *slot = *y);
                } else {
                    slots
                        .iter_mut()
                        .zip(&curve.x)
                        .for_each(|(slot, x)| *slot = interpolate(&trace.x, &trace.y, *x, curve.log));
                }
                slots.iter_mut().filter(|slot| slot.is_infinite()).for_each(|slot| *slot = f64::NAN);
            }
        }
    }
}

/// Points that tell most of a curve: its ends, and in between half of them
/// evenly, half where it bends.
fn telling(heights: &[f64], log: bool) -> Vec<usize> {
    let Some(last) = heights.len().checked_sub(1) else { return Vec::new() };
    let scale = |y: f64| if log { y.ln() } else { y };
    let bend = |three: &[f64]| match three {
        [a, b, c] => Some((scale(*a) - 2.0 * scale(*b) + scale(*c)).abs()).filter(|bend| bend.is_finite()),
        _ => None,
    };
    let bends: Vec<_> = heights.windows(3).map(|three| bend(three).unwrap_or(0.0)).collect();
    let all = bends.iter().sum::<f64>().max(f64::MIN_POSITIVE);
    let even = 1.0 / bends.len().max(1) as f64;
    let step = |passed: f64| (passed * (SEARCHED - 1) as f64).floor();
    let mut points = vec![0];
    let mut passed = 0.0;
    for (i, bend) in bends.iter().enumerate() {
        let before = passed;
        passed += 0.5 * (even + bend / all);
        if step(passed) > step(before) {
            points.push(i + 1);
        }
    }
    points.push(last);
    points.dedup();
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A curve of straight pieces is told by its ends and where it bends, drawn on the
    /// scale on which it is straight; and no stretch of it is left out.
    #[test]
    fn a_bend_tells_most() {
        for corner in [17_usize, 40, 83] {
            for log in [false, true] {
                let height = |i: usize| {
                    let straight = 5.0 + i.abs_diff(corner) as f64 / 10.0;
                    if log { straight.exp() } else { straight }
                };
                let heights: Vec<_> = (0..=100).map(height).collect();
                let points = telling(&heights, log);
                assert!(points.contains(&corner) && points.len() <= SEARCHED, "{corner}: {points:?}");
                assert!(points.first() == Some(&0) && points.last() == Some(&100), "{points:?}");
                assert!(points.windows(2).all(|pair| (1..=20).contains(&(pair[1] - pair[0]))), "{points:?}");
            }
        }
        // All of the few that there are.
        assert_eq!(telling(&[1.0; 3], false), [0, 1, 2]);
        assert_eq!(telling(&[], false), Vec::<usize>::new());
    }
}
