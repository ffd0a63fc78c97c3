//! The picture of levels over frequency that most calculators show.

use super::{Band, Plot, Sheet, Trace};
use crate::network::{AUDIO_BAND, Features, MIDBAND, Response, log_sweep_with};
use crate::quantity::Unit;
use crate::quantity::level::{HALF_POWER, decibels_of_power};
use crate::words::{Arg, Args, Message};
use std::sync::LazyLock;

/// Points of a drawn curve; 80 a decade draw a Q of 30 without a visible corner.
const POINTS: usize = 241;
/// Where the table beside the picture has its rows, Hz.
const STOPS: &[f64] = &[20.0, 40.0, 80.0, 160.0, 315.0, 630.0, 1000.0, 2000.0, 5000.0, 10_000.0, 20_000.0];
/// The bands of the trade (common practice, no source) and where each begins, Hz.
const BANDS: &[(&str, f64)] = &[
    ("band-sub", 20.0),
    ("band-bass", 60.0),
    ("band-low-mid", 250.0),
    ("band-mid", 500.0),
    ("band-high-mid", 2000.0),
    ("band-presence", 4000.0),
    ("band-air", 8000.0),
];
/// The picture never shows more than this below its highest point, dB.
const DEEPEST: f64 = 48.0;

/// A response to draw.
pub struct Drawn<'a> {
    /// Key of its name.
    pub id: &'static str,
    /// Whether it is there to compare with.
    pub reference: bool,
    /// The response.
    pub response: &'a dyn Response,
}

impl Sheet {
    /// Draws levels in dB over the audio band, with the bands of the trade and,
    /// if given, markers at the features of the first curve.
    pub fn response_plot(&mut self, id: &'static str, summary: Args, curves: &[Drawn], features: Option<&Features>) {
        static GRID: LazyLock<Vec<f64>> = LazyLock::new(|| log_sweep_with(&AUDIO_BAND, POINTS, STOPS));
        if !self.wants_plots() {
            return;
        }
        let x = &*GRID;
        let traces = curves
            .iter()
            // What is there to compare with has no band.
            .filter(|curve| !curve.reference || self.wants_words())
            .map(|curve| {
                let mut y = vec![0.0; x.len()];
                curve.response.powers(x, &mut y);
                for power in &mut y {
                    *power = decibels_of_power(*power);
                }
                self.trace(curve.id, curve.reference, x.clone(), y)
            })
            .collect();
        let markers: Vec<_> = features
            .map(|features| {
                let corner = features.plateau - HALF_POWER;
                let peak = features.peak;
                [
                    peak.map(|peak| ("marker-peak", peak.frequency, peak.level)),
                    features.low_corner.map(|f| ("marker-low", f, corner)),
                    features.high_corner.map(|f| ("marker-high", f, corner)),
                ]
                .into_iter()
                .flatten()
                .filter(|(_, f, _)| AUDIO_BAND.contains(f))
                .map(|(id, f, level)| {
                    self.marker(
                        id,
                        &[("f", Arg::Quantity(f, Unit::Hertz)), ("level", Arg::Quantity(level, Unit::Decibel))],
                        f,
                        level,
                    )
                })
                .collect()
            })
            .unwrap_or_default();
        let plot = self.level_plot(id, summary, "axis-level", Unit::Decibel, traces);
        plot.markers = markers;
    }

    /// A picture over the audio band from finished curves, with the bands of
    /// the trade and rows for the table.
    pub fn level_plot(
        &mut self,
        id: &'static str,
        summary: Args,
        axis: &'static str,
        unit: Unit,
        traces: Vec<Trace<Message>>,
    ) -> &mut Plot<Message> {
        let (from, to) = span(traces.iter().flat_map(|trace| &trace.y).copied());
        // The answer is to be seen, however far it is below what it is compared with.
        let answer = traces.iter().filter(|trace| !trace.reference).flat_map(|trace| &trace.y).copied();
        let hidden = answer.clone().all(|level| !level.is_finite() || level <= from);
        let from = if hidden { from.min(span(answer).0) } else { from };
        let x = self.axis("axis-frequency", Unit::Hertz, true, *AUDIO_BAND.start(), *AUDIO_BAND.end());
        let y = self.axis(axis, unit, false, from, to);
        let bands = self.bands();
        let plot = self.plot(id, summary, x, y, traces);
        plot.bands = bands;
        plot.stops = STOPS.to_vec();
        plot.key_at = Some(MIDBAND);
        plot
    }

    fn bands(&self) -> Vec<Band<Message>> {
        let ends = BANDS.iter().skip(1).map(|(_, from)| *from).chain([*AUDIO_BAND.end()]);
        BANDS.iter().zip(ends).map(|((name, from), to)| Band { from: *from, to, name: self.message(*name) }).collect()
    }
}

/// A level to draw: of nothing, and of what has no end, there is none.
pub(crate) fn finite(level: f64) -> f64 {
    if level.is_finite() { level } else { f64::NAN }
}

/// The span of a level axis in steps of 6 dB that holds the values, at most
/// [`DEEPEST`] and at least 12 dB.
pub(crate) fn span(values: impl Iterator<Item = f64> + Clone) -> (f64, f64) {
    let finite = values.filter(|value| value.is_finite());
    let most = finite.clone().fold(f64::NEG_INFINITY, f64::max);
    let least = finite.fold(f64::INFINITY, f64::min);
    if !most.is_finite() {
        return (-12.0, 6.0);
    }
    let top = ((most + 1.0) / 6.0).ceil() * 6.0;
    let bottom = ((least - 1.0) / 6.0).floor() * 6.0;
    (bottom.max(top - DEEPEST).min(top - 12.0), top)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Depth, Trace};

    /// Steps of 6 dB, a decibel of room at least on either side, 12 dB at least and 48 dB
    /// at most.
    #[test]
    fn the_span_of_levels() {
        for (levels, from, to) in [
            (&[0.0][..], -6.0, 6.0),
            (&[5.0], -6.0, 6.0),
            (&[5.1], 0.0, 12.0),
            (&[4.9], -6.0, 6.0),
            (&[0.9, 5.1], -6.0, 12.0),
            (&[1.1, 5.1], 0.0, 12.0),
            (&[-100.0, 0.0], -42.0, 6.0),
            (&[-30.0, 0.0], -36.0, 6.0),
            (&[f64::NAN, -10.0, f64::NEG_INFINITY], -18.0, -6.0),
            (&[f64::NAN], -12.0, 6.0),
            (&[], -12.0, 6.0),
        ] {
            assert_eq!(span(levels.iter().copied()), (from, to), "{levels:?}");
        }
    }

    /// The bands of the trade lie one behind the other over the whole of what is heard.
    #[test]
    fn bands_from_end_to_end() {
        let mut sheet = Sheet::new("pickup", Depth::Plots);
        let trace = |id: &'static str, reference: bool, level: f64| Trace {
            id,
            name: Message::Nothing,
            reference,
            x: vec![20.0, 20e3],
            y: vec![level, level],
        };
        let traces = vec![trace("curve", false, -3.0), trace("curve-unloaded", true, 0.0)];
        let plot = sheet.level_plot("response", &[], "axis-level", Unit::Decibel, traces);
        let bands: Vec<_> = plot.bands.iter().map(|band| (band.from, band.to)).collect();
        assert_eq!((bands[0].0, bands[bands.len() - 1].1), (20.0, 20e3));
        assert!(bands.windows(2).all(|two| two[0].1 == two[1].0 && two[0].0 < two[0].1), "{bands:?}");
        assert_eq!(bands[1], (60.0, 250.0));
        assert_eq!((plot.y.from, plot.y.to, plot.key_at), (-6.0, 6.0, Some(1e3)));
        // An answer far below what it is compared with is seen all the same.
        let traces = vec![trace("curve", false, -80.0), trace("curve-unloaded", true, 0.0)];
        let plot = sheet.level_plot("response", &[], "axis-level", Unit::Decibel, traces);
        assert_eq!((plot.y.from, plot.y.to), (-90.0, 6.0));
        // One that reaches into the picture does not stretch it.
        let traces =
            vec![trace("curve", false, -80.0), trace("curve", false, -3.0), trace("curve-unloaded", true, 0.0)];
        let plot = sheet.level_plot("response", &[], "axis-level", Unit::Decibel, traces);
        assert_eq!((plot.y.from, plot.y.to), (-42.0, 6.0));
    }
}
