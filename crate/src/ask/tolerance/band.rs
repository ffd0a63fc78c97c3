//! What was drawn and found, as bands of readings and curves, in words.

use super::layout::{Curve, Layout};
use super::{PlotSpread, ReadingSpread, TraceSpread};
use crate::numeric::Extremes;
use crate::quantity::Unit;
use crate::report::{Plot, Solution};
use crate::words::{Arg, Args, Message};

/// A curve is shown where at least this share of the draws has it.
const SHOWN: f64 = 0.5;
/// The share of the vertical axis by which a band may stretch it at either end.
const STRETCH: f64 = 0.25;

impl Layout {
    pub(super) fn readings(
        &self,
        nominal: &Solution,
        quantiles: &[([f64; 3], f64)],
        extremes: &Extremes,
        say: &impl Fn(&str, Args) -> String,
    ) -> Vec<ReadingSpread> {
        let some = |value: f64| Some(value).filter(|value| value.is_finite());
        let extremes = extremes.least.iter().zip(&extremes.most);
        let places = self.readings.iter().zip(quantiles).zip(extremes);
        places
            .filter_map(|((id, ([low, middle, high], share)), (least, most))| {
                let reading = nominal.reading(id)?;
                some(*middle)?;
                let range = |key: &str, from: f64, to: f64| {
                    let told = |value| Arg::Figures(reading.told.turn(value), reading.unit, reading.told.digits);
                    let (from, to) = if reading.told.turned { (to, from) } else { (from, to) };
                    say(key, &[("from", told(from)), ("to", told(to))])
                };
                // What rounding moves is not moved by tolerances.
                let touched = *most - *least > 1e-9 * most.abs().max(least.abs()) || *share < 1.0;
                let mut text = if touched { range("tolerance-range", *low, *high) } else { String::new() };
                let worst = if touched { range("tolerance-worst", *least, *most) } else { String::new() };
                if *share < 1.0 {
                    let share = ("share", Arg::Quantity(*share, Unit::Percent));
                    text = say("tolerance-range-share", &[("range", Arg::Text(text)), share]);
                }
                let [low, middle, high, least, most] = [*low, *middle, *high, *least, *most].map(some);
                Some(ReadingSpread { id, low, middle, high, least, most, share: *share, text, worst })
            })
            .collect()
    }

    pub(super) fn plots(
        &self,
        nominal: &Solution,
        quantiles: &[([f64; 3], f64)],
        extremes: &Extremes,
        say: &impl Fn(&str, Args) -> String,
    ) -> Vec<PlotSpread> {
        let trace = |curve: &Curve| {
            let mut band = TraceSpread { id: curve.trace, low: vec![], high: vec![], least: vec![], most: vec![] };
            for place in curve.start..curve.start + curve.x.len() {
                let found = quantiles.get(place).filter(|(_, share)| *share >= SHOWN);
                let extreme = |of: &[f64]| found.and(of.get(place)).copied().unwrap_or(f64::NAN);
                let [low, _, high] = found.map_or([f64::NAN; 3], |(shares, _)| *shares);
                band.low.push(low);
                band.high.push(high);
                band.least.push(extreme(&extremes.least));
                band.most.push(extreme(&extremes.most));
            }
            band
        };
        nominal
            .plots
            .iter()
            .filter_map(|plot| {
                let curves: Vec<_> = self.curves.iter().filter(|curve| curve.plot == plot.id).collect();
                let traces: Vec<_> = curves.iter().map(|curve| trace(curve)).collect();
                let summary = summary(plot, curves.first()?, traces.first()?, say);
                let (from, to) = stretched(plot, &traces);
                Some(PlotSpread { id: plot.id, summary, from, to, traces })
            })
            .collect()
    }
}

/// The first band of a plot in words, at its widest.
fn summary(plot: &Plot<Message>, curve: &Curve, band: &TraceSpread, say: &impl Fn(&str, Args) -> String) -> String {
    let scale = |y: f64| if plot.y.log { y.ln() } else { y };
    let widths: Vec<_> = band.low.iter().zip(&band.high).map(|(low, high)| scale(*high) - scale(*low)).collect();
    let most = widths.iter().copied().filter(|width| width.is_finite()).fold(0.0, f64::max);
    // The last of those that differ by rounding only.
    let widest = widths.iter().rposition(|width| width.is_finite() && *width > 0.0 && *width >= most * (1.0 - 1e-9));
    let Some(i) = widest.filter(|_| most > 0.0) else { return say("tolerance-plot-none", &[]) };
    let quantity = |values: &[f64]| Arg::Quantity(values.get(i).copied().unwrap_or(f64::NAN), plot.y.unit);
    let x = curve.x.get(i).copied().unwrap_or(f64::NAN);
    let place = match plot.x.names.get(x as usize) {
        Some(name) => Arg::Text(say("tolerance-place", &[("place", Arg::Messages(vec![name.clone()]))])),
        None => Arg::Quantity(x, plot.x.unit),
    };
    let args = [
        ("place", place),
        ("low", quantity(&band.low)),
        ("high", quantity(&band.high)),
        ("least", quantity(&band.least)),
        ("most", quantity(&band.most)),
    ];
    say("tolerance-plot", &args)
}

/// The vertical axis with room for the bands, as far as they may stretch it.
fn stretched(plot: &Plot<Message>, traces: &[TraceSpread]) -> (f64, f64) {
    let log = plot.y.log;
    let scale = |y: f64| if log { y.ln() } else { y };
    let back = |y: f64| if log { y.exp() } else { y };
    let (from, to) = (scale(plot.y.from), scale(plot.y.to));
    let room = STRETCH * (to - from);
    let least = traces.iter().flat_map(|trace| &trace.least).fold(f64::INFINITY, |least, y| least.min(*y));
    let most = traces.iter().flat_map(|trace| &trace.most).fold(f64::NEG_INFINITY, |most, y| most.max(*y));
    // NaN of the logarithm of what is not positive loses every comparison.
    let (least, most) = (scale(least).max(from - room), scale(most).min(to + room));
    (if least < from { back(least) } else { plot.y.from }, if most > to { back(most) } else { plot.y.to })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Depth, Sheet};

    /// A band may stretch its plot by a quarter of the axis at either end, on a log scale
    /// by a quarter of its decades, and does so as far as it has to.
    #[test]
    fn a_plot_makes_room() {
        let mut sheet = Sheet::new("pickup", Depth::Plots);
        let mut room = |log: bool, from: f64, to: f64, least: f64, most: f64| {
            let x = sheet.axis("axis-frequency", Unit::Hertz, true, 20.0, 20e3);
            let y = sheet.axis("axis-level", Unit::Decibel, log, from, to);
            let plot = sheet.plot("response", &[], x, y, Vec::new());
            let band = |least, most| TraceSpread {
                id: "curve",
                low: vec![],
                high: vec![],
                least: vec![least, f64::NAN],
                most: vec![f64::NAN, most],
            };
            stretched(plot, &[band(least, most)])
        };
        assert_eq!(room(false, -12.0, 4.0, -11.0, 3.0), (-12.0, 4.0));
        assert_eq!(room(false, -12.0, 4.0, -14.0, 5.0), (-14.0, 5.0));
        assert_eq!(room(false, -12.0, 4.0, -100.0, 100.0), (-16.0, 8.0));
        assert_eq!(room(true, 1e-8, 1e-4, 1e-7, 1e-5), (1e-8, 1e-4));
        let (from, to) = room(true, 1e-8, 1e-4, 5e-9, 2e-4);
        assert!((from / 5e-9 - 1.0).abs() < 1e-9 && (to / 2e-4 - 1.0).abs() < 1e-9, "{from} {to}");
        let (from, to) = room(true, 1e-8, 1e-4, 1e-20, 1.0);
        assert!((from / 1e-9 - 1.0).abs() < 1e-9 && (to / 1e-3 - 1.0).abs() < 1e-9, "{from} {to}");
    }
}
