//! What was drawn, place by place, and how it is spread.

/// Draws of a row of numbers, of which each place is looked at by itself.
#[derive(Debug)]
pub struct Samples {
    rows: usize,
    /// One place after the other, so that a place lies together.
    values: Vec<f64>,
    taken: usize,
}

impl Samples {
    /// Room for `rows` draws of `places` numbers.
    pub fn new(places: usize, rows: usize) -> Self {
        Self { rows, values: vec![f64::NAN; places.saturating_mul(rows)], taken: 0 }
    }

    /// Adds a draw. NaN stands for a number that does not exist in it. A draw
    /// beyond the room, or numbers beyond the places, are left out.
    pub fn push(&mut self, row: &[f64]) {
        if self.taken < self.rows {
            for (slot, value) in self.values.iter_mut().skip(self.taken).step_by(self.rows).zip(row) {
                *slot = *value;
            }
            self.taken += 1;
        }
    }

    /// The quantiles `shares` of each place over the draws in which it exists,
    /// with the share of draws in which it does. NaN where that is none.
    ///
    /// Between two draws a quantile is interpolated: definition 7 of Hyndman
    /// and Fan, Sample Quantiles in Statistical Packages (1996).
    pub fn quantiles<const N: usize>(mut self, shares: [f64; N]) -> Vec<([f64; N], f64)> {
        let (rows, taken) = (self.rows.max(1), self.taken);
        let place = |column: &mut [f64]| {
            let mut there = 0;
            for i in 0..column.len() {
                if !column[i].is_nan() {
                    column.swap(there, i);
                    there += 1;
                }
            }
            let (existing, _) = column.split_at_mut(there);
            (shares.map(|share| quantile(existing, share)), there as f64 / taken.max(1) as f64)
        };
        self.values.chunks_mut(rows).map(place).collect()
    }
}

fn quantile(values: &mut [f64], share: f64) -> f64 {
    let Some(last) = values.len().checked_sub(1) else { return f64::NAN };
    let place = share.clamp(0.0, 1.0) * last as f64;
    let below = (place.floor() as usize).min(last);
    let (_, low, above) = values.select_nth_unstable_by(below, f64::total_cmp);
    let rest = place - below as f64;
    match above.iter().copied().min_by(f64::total_cmp) {
        Some(high) if rest > 0.0 && high > *low => *low + rest * (high - *low),
        _ => *low,
    }
}

/// The least and the most of each place of a row.
#[derive(Clone, Debug)]
pub struct Extremes {
    /// The least that was met.
    pub least: Vec<f64>,
    /// The most that was met.
    pub most: Vec<f64>,
}

impl Extremes {
    /// Nothing met yet.
    pub fn new(places: usize) -> Self {
        Self { least: vec![f64::NAN; places], most: vec![f64::NAN; places] }
    }

    /// Takes in a row of which some places may be NaN.
    pub fn meet(&mut self, row: &[f64]) {
        for ((least, most), value) in self.least.iter_mut().zip(&mut self.most).zip(row) {
            // The other one where one of the two is NaN.
            *least = least.min(*value);
            *most = most.max(*value);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R's `quantile(c(9, 1, 4, 16, 25), c(0.05, 0.5, 0.95))` and NumPy's
    /// `quantile`, both of definition 7: 1.6, 9, 23.2.
    #[test]
    fn quantiles_are_those_of_definition_7() {
        let mut samples = Samples::new(2, 5);
        for value in [9.0, 1.0, 4.0, 16.0, 25.0] {
            samples.push(&[value, if value > 8.0 { value } else { f64::NAN }]);
        }
        let found = samples.quantiles([0.05, 0.5, 0.95]);
        for (got, expected) in found[0].0.iter().zip([1.6, 9.0, 23.2]) {
            assert!((got - expected).abs() < 1e-12, "{got} is not {expected}");
        }
        assert_eq!((found[0].1, found[1].1, found[1].0[1]), (1.0, 0.6, 16.0));
    }

    #[test]
    fn nothing_drawn_is_no_number() {
        assert!(Samples::new(1, 0).quantiles([0.5]).iter().all(|(values, _)| values[0].is_nan()));
        let mut samples = Samples::new(1, 2);
        samples.push(&[f64::NAN]);
        let found = samples.quantiles([0.5]);
        assert!(found[0].0[0].is_nan() && found[0].1 == 0.0);
    }
}
