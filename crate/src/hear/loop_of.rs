//! A recording as a loop.

use std::f64::consts::FRAC_PI_2;

/// The longest recording, s; a tenth more is let through, since decoders pad.
pub const LONGEST: f64 = 30.0;
/// The shortest, s: what is left of it as a loop has several of the blocks of 0.4 s that
/// its loudness is that of.
const SHORTEST: f64 = 1.0;
/// How long the end of a recording fades into its beginning, s.
const CROSSED: f64 = 0.1;
/// A recording whose peaks are lower holds nothing.
const SILENT: f64 = 1e-4;

/// Why a recording is no loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoLoop {
    /// It holds what is no number.
    Unreadable,
    /// It is shorter than a second: its loudness could not be measured.
    Short,
    /// It is longer than [`LONGEST`].
    Long,
    /// Nothing is in it.
    Silent,
}

/// A recording as a loop: its end fades into its beginning, and it lasts a whole number
/// of tenths of a second, which both mains fit into.
///
/// # Errors
/// [`NoLoop`] says why not. `rate` in Hz.
pub fn loop_of(samples: &[f32], rate: f64) -> Result<Vec<f64>, NoLoop> {
    let tenth = rate / 10.0;
    if samples.len() as f64 > LONGEST * rate + tenth {
        return Err(NoLoop::Long);
    }
    if (samples.len() as f64) < SHORTEST * rate {
        return Err(NoLoop::Short);
    }
    if samples.iter().any(|sample| !sample.is_finite()) {
        return Err(NoLoop::Unreadable);
    }
    if samples.iter().all(|sample| f64::from(sample.abs()) < SILENT) {
        return Err(NoLoop::Silent);
    }
    let crossed = (CROSSED * rate) as usize;
    let whole = (samples.len().saturating_sub(crossed) as f64 / tenth).floor();
    let length = (whole * tenth) as usize;
    let mut out: Vec<f64> = samples.iter().take(length).copied().map(f64::from).collect();
    // Of equal power: the two have nothing to do with each other.
    let after = samples.iter().skip(length).take(crossed);
    for (i, (sample, after)) in out.iter_mut().zip(after).enumerate() {
        let (new, old) = (FRAC_PI_2 * i as f64 / crossed as f64).sin_cos();
        *sample = *sample * new + f64::from(*after) * old;
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sine(seconds: f64) -> Vec<f32> {
        (0..(seconds * 48e3) as usize).map(|i| (f64::from(i as u32) * 0.013).sin() as f32).collect()
    }

    /// The end goes on into the beginning, and the length fits 50 Hz and 60 Hz.
    #[test]
    fn without_a_seam() {
        let got = loop_of(&sine(2.345), 48e3).unwrap();
        assert_eq!(got.len() % 4800, 0);
        assert!((got[0] - got[got.len() - 1]).abs() < 0.014, "{} {}", got[0], got[got.len() - 1]);
    }

    #[test]
    fn of_no_use() {
        assert_eq!(loop_of(&sine(31.0), 48e3), Err(NoLoop::Long));
        assert_eq!(loop_of(&vec![0.0; 96_000], 48e3), Err(NoLoop::Silent));
        assert_eq!(loop_of(&vec![f32::NAN; 96_000], 48e3), Err(NoLoop::Unreadable));
    }

    /// A second is enough at every rate, and what is left of it can be measured: BS.1770
    /// takes blocks of 0.4 s.
    #[test]
    fn too_short() {
        for rate in [44_100_u32, 48_000, 96_000] {
            let of = |count: u32| loop_of(&vec![0.5; count as usize], f64::from(rate));
            assert!(of(rate).unwrap().len() >= 2 * rate as usize * 4 / 10, "{rate}");
            for count in [0, rate / 12, rate - 1] {
                assert_eq!(of(count), Err(NoLoop::Short), "{count} at {rate}");
            }
        }
    }
}
