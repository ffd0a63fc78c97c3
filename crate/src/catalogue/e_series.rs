//! Preferred values of parts: the E12, E24 and E96 series of IEC 60063.

/// E24, two digits (IEC 60063). It is older than the rule behind the finer
/// series and departs from it, so it is written out.
const E24: [u32; 24] = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

/// A series of preferred values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Series {
    /// 12 values a decade, usual with capacitors and inductors.
    E12,
    /// 24 values a decade, usual with 5 % parts.
    E24,
    /// 96 values a decade, usual with 1 % parts.
    E96,
}

impl Series {
    /// The values of the decade from 1 up to 10.
    pub fn decade(self) -> Vec<f64> {
        match self {
            // Every other value of the next finer series (IEC 60063).
            Self::E12 => Self::E24.decade().into_iter().step_by(2).collect(),
            Self::E24 => E24.iter().map(|digits| f64::from(*digits) / 10.0).collect(),
            // Three digits of 10^(i/96), without exception (IEC 60063).
            Self::E96 => (0..96).map(|i| (100.0 * 10_f64.powf(f64::from(i) / 96.0)).round() / 100.0).collect(),
        }
    }

    /// The value of the series whose ratio to `value` is nearest to one. Zero
    /// and infinity, a link and a gap, stay what they are.
    pub fn nearest(self, value: f64) -> f64 {
        if !(value > 0.0 && value.is_finite()) {
            return value;
        }
        let exponent = value.log10().floor() as i32;
        let ratio = |candidate: &f64| (candidate / value).ln().abs();
        self.decade()
            .into_iter()
            .chain([10.0])
            .map(|unit| scaled(unit, exponent))
            .min_by(|a, b| ratio(a).total_cmp(&ratio(b)))
            .unwrap_or(value)
    }

    /// The values of the series from one to another, both above zero, in rising order.
    pub fn between(self, from: f64, to: f64) -> impl Iterator<Item = f64> {
        const SLACK: f64 = 1e-9;
        let decades = from.log10().floor() as i32..=to.log10().floor() as i32;
        let values =
            decades.flat_map(move |exponent| self.decade().into_iter().map(move |unit| scaled(unit, exponent)));
        values.filter(move |value| *value >= from * (1.0 - SLACK) && *value <= to * (1.0 + SLACK))
    }
}

/// A value of the decade from 1 to 10 in another one: by its hundredths as whole numbers, so
/// that 47 kΩ is exactly that.
fn scaled(unit: f64, exponent: i32) -> f64 {
    let hundredths = (unit * 100.0).round();
    let power = exponent - 2;
    hundredths * 10_f64.powi(power.max(0)) / 10_f64.powi((-power).max(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The E96 column of IEC 60063 as resistor tables print it (from memory).
    #[test]
    fn e96_is_the_published_table() {
        let published = [
            100, 102, 105, 107, 110, 113, 115, 118, 121, 124, 127, 130, 133, 137, 140, 143, 147, 150, 154, 158, 162,
            165, 169, 174, 178, 182, 187, 191, 196, 200, 205, 210, 215, 221, 226, 232, 237, 243, 249, 255, 261, 267,
            274, 280, 287, 294, 301, 309, 316, 324, 332, 340, 348, 357, 365, 374, 383, 392, 402, 412, 422, 432, 442,
            453, 464, 475, 487, 499, 511, 523, 536, 549, 562, 576, 590, 604, 619, 634, 649, 665, 681, 698, 715, 732,
            750, 768, 787, 806, 825, 845, 866, 887, 909, 931, 953, 976,
        ];
        let generated: Vec<_> = Series::E96.decade().iter().map(|unit| (unit * 100.0).round() as i32).collect();
        assert_eq!(generated, published);
    }

    /// E24 holds every value of E12 at its even places, and at its odd ones those
    /// that resistor tables print (IEC 60063, from memory); it rises, and leaves no
    /// gap wider than its 5 % parts can close with 10 %.
    #[test]
    fn e24_holds_e12() {
        let odd = [1.1, 1.3, 1.6, 2.0, 2.4, 3.0, 3.6, 4.3, 5.1, 6.2, 7.5, 9.1];
        let e12 = [1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2];
        assert_eq!(Series::E12.decade(), e12);
        let decade = Series::E24.decade();
        assert_eq!(decade.len(), 24);
        assert!(decade.iter().step_by(2).eq(e12.iter()));
        assert!(decade.iter().skip(1).step_by(2).eq(odd.iter()));
        assert!(decade.windows(2).all(|pair| pair[1] / pair[0] > 1.06 && pair[1] / pair[0] < 1.16));
    }

    /// As IEC 60063 has them (from memory).
    #[test]
    fn between_two_values() {
        let between: Vec<_> = Series::E12.between(4.7e3, 12e3).collect();
        assert_eq!(between, [4.7e3, 5.6e3, 6.8e3, 8.2e3, 10e3, 12e3]);
    }

    #[test]
    fn nearest_by_ratio_in_any_decade() {
        for (value, e24, e96) in [
            (311.696, 300.0, 309.0),
            (421.637, 430.0, 422.0),
            (853.815, 820.0, 845.0),
            (1154.97, 1.2e3, 1.15e3),
            (47e3, 47e3, 47.5e3),
            (9.9e3, 10e3, 10e3),
            (0.0433, 0.043, 0.0432),
            (0.0148, 0.015, 0.0147),
        ] {
            assert_eq!(Series::E24.nearest(value), e24, "{value}");
            assert_eq!(Series::E96.nearest(value), e96, "{value}");
        }
        assert_eq!(Series::E24.nearest(0.0), 0.0);
        assert_eq!(Series::E96.nearest(f64::INFINITY), f64::INFINITY);
    }
}
