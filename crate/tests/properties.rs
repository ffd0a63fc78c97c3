//! What must hold for every network and for every input.
#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::collection::vec;
use proptest::prelude::*;
use stageohm::Complex64;
use stageohm::expression::parse;
use stageohm::network::{Element, Line, OnePort, Path, Peak, features};
use stageohm::quantity::{Unit, read, write};
use stageohm::settings::{Decimal, Length, Settings};

fn positive(from: f64, to: f64) -> impl Strategy<Value = f64> {
    (from.ln()..to.ln()).prop_map(f64::exp)
}

fn one_port() -> impl Strategy<Value = OnePort> {
    let leaf = prop_oneof![
        positive(1.0, 1e7).prop_map(OnePort::resistor),
        positive(1e-6, 10.0).prop_map(|l| OnePort::series_rl(0.0, l)),
        positive(1e-12, 1e-5).prop_map(OnePort::capacitor),
        (positive(1.0, 1e6), positive(1e-6, 10.0)).prop_map(|(r, l)| OnePort::series_rl(r, l)),
        (positive(1.0, 1e6), positive(1e-12, 1e-5)).prop_map(|(r, c)| OnePort::series_rc(r, c)),
        (positive(1.0, 1e6), positive(1e-12, 1e-5)).prop_map(|(r, c)| OnePort::parallel_rc(r, c)),
    ];
    leaf.prop_recursive(2, 6, 3, |inner| {
        prop_oneof![vec(inner.clone(), 1..3).prop_map(OnePort::Series), vec(inner, 1..3).prop_map(OnePort::Parallel)]
    })
}

fn passive_element() -> impl Strategy<Value = Element> {
    prop_oneof![
        one_port().prop_map(Element::Series),
        one_port().prop_map(Element::Shunt),
        positive(0.05, 20.0).prop_map(Element::Transformer),
        (positive(0.1, 1e3), 0.0..0.3, 0.0..1e-6, 0.0..1e-7, 1e-12..2e-10)
            .prop_map(|(length, r, l, g, c)| Element::Line(Line { length, r, l, g, c })),
    ]
}

prop_compose! {
    fn path()(source in one_port(), elements in vec(passive_element(), 0..8), load in one_port(), r in positive(0.1, 1e5)) -> Path {
        // Every real source has some resistance.
        let source = OnePort::Series(vec![OnePort::resistor(r), source]);
        elements.into_iter().fold(Path::new(source, load), |path, element| path.with("", element))
    }
}

fn near(a: Complex64, b: Complex64, tolerance: f64) -> bool {
    (a - b).norm() <= tolerance * a.norm().max(b.norm())
}

proptest! {
    /// AD − BC = 1 for every chain of reciprocal elements (Pozar, Microwave Engineering).
    #[test]
    fn passive_chains_are_reciprocal(path in path(), f in positive(1.0, 1e5)) {
        let m = path.two_port(f);
        let scale = (m.a * m.d).norm().max(1.0);
        let determinant = m.a * m.d - m.b * m.c;
        prop_assert!((determinant - 1.0).norm() <= 1e-9 * scale, "{determinant:?}");
    }

    /// No passive chain delivers more than the source has available, E²/(4·Re Z).
    #[test]
    fn passive_chains_give_no_power(path in path(), f in positive(1.0, 1e5)) {
        let transfer = path.transfer(f);
        let delivered = transfer.norm_sqr() * path.load.admittance(f).re;
        let available = 1.0 / (4.0 * path.source.impedance(f).re);
        prop_assert!(delivered <= available * (1.0 + 1e-9), "{delivered} of {available}");
    }

    /// The ladder and the chain matrices are two ways to one answer, in sweeps too.
    #[test]
    fn ladder_and_matrices_agree(path in path(), from in positive(1.0, 1e4)) {
        let frequencies: Vec<f64> = (0..37).map(|k| from * 1.1_f64.powi(k)).collect();
        let mut swept = vec![Complex64::default(); frequencies.len()];
        path.sweep(&frequencies, &mut swept);
        for (f, swept) in frequencies.iter().zip(&swept) {
            let (z_s, z_l) = (path.source.impedance(*f), path.load.impedance(*f));
            let m = path.two_port(*f);
            let terms = [m.a, m.b / z_l, m.c * z_s, m.d * z_s / z_l];
            let scale = terms.iter().map(|term| term.norm()).fold(0.0, f64::max);
            let by_matrix = terms.into_iter().sum::<Complex64>();
            // Near a pole the sum cancels; the error is that of its terms.
            prop_assert!((1.0 / swept - by_matrix).norm() <= 1e-9 * scale, "{f}: {} {by_matrix}", 1.0 / swept);
            prop_assert!(near(*swept, path.transfer(*f), 1e-12));
        }
    }

    /// A corner is where it is said to be: 3.0103 dB below the plateau.
    #[test]
    fn corners_are_corners(path in path()) {
        let found = features(&path);
        let level = |f| 10.0 * path.transfer(f).norm_sqr().log10();
        for corner in [found.low_corner, found.high_corner].into_iter().flatten() {
            prop_assert!((level(corner) - found.plateau + 3.010_299_956_639_812).abs() < 1e-5, "{corner}");
        }
        // Beside a ripple of a long line at radio frequencies, or with parts that
        // have no losses at all, such as a trap within a hundredth, a peak is found
        // to a thousandth.
        let falls = |peak: &Peak, step: f64| {
            let levels: Vec<_> = (2..=20).map(|k| level(peak.frequency * step.powi(k))).collect();
            levels.is_sorted_by(|nearer, farther| nearer >= farther)
        };
        let blunt = |peak: &Peak| {
            let alone = falls(peak, 1.0005) && falls(peak, 1.0 / 1.0005);
            peak.frequency < 1e6 && level(peak.frequency * 1.02) > peak.level - 25.0 && alone
        };
        if let Some(peak) = found.peak.filter(blunt) {
            prop_assert!(level(peak.frequency * 1.001) <= peak.level + 1e-9);
            prop_assert!(level(peak.frequency / 1.001) <= peak.level + 1e-9);
        }
    }

    /// No text makes the reader or the formula parser panic, and what they give is finite.
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,24}", comma: bool, foot: bool) {
        let settings = Settings {
            decimal: if comma { Decimal::Comma } else { Decimal::Point },
            length: if foot { Length::Foot } else { Length::Metre },
            ..Settings::default()
        };
        for unit in [Unit::Ohm, Unit::Farad, Unit::Volt, Unit::Metre, Unit::Ratio, Unit::Kelvin, Unit::Decibel, Unit::Percent] {
            if let Ok(written) = read(&text, unit, 1e-12, &settings) {
                prop_assert!(written.value.is_finite());
            }
        }
        let _ = parse(&text);
    }

    /// The same with texts that look like numbers.
    #[test]
    fn texts_like_numbers(text in "[-−+]?[0-9.,' ]{0,9}(e[-+]?[0-9]{1,4})?[ ]?[pnuµmkKMGRr]?[0-9]{0,3}(F|Ω|ohm|H|V|dBu|dBV|m|ft|:1)?") {
        for decimal in [Decimal::Point, Decimal::Comma] {
            let settings = Settings { decimal, ..Settings::default() };
            for unit in [Unit::Ohm, Unit::Farad, Unit::Volt, Unit::Metre, Unit::Ratio] {
                let _ = read(&text, unit, 1.0, &settings);
            }
        }
    }

    /// What is printed reads back to the printed digits, whatever the settings.
    #[test]
    fn printed_values_read_back(value in positive(1e-15, 1e12), negative: bool, comma: bool, foot: bool) {
        let settings = Settings {
            decimal: if comma { Decimal::Comma } else { Decimal::Point },
            length: if foot { Length::Foot } else { Length::Metre },
            ..Settings::default()
        };
        let value = if negative { -value } else { value };
        for unit in [Unit::Ohm, Unit::Farad, Unit::Henry, Unit::Hertz, Unit::Volt, Unit::FaradPerMetre, Unit::OhmPerMetre] {
            let text = write(value, unit, 6, &settings);
            let back = read(&text, unit, 1.0, &settings);
            let back = back.map(|written| written.value);
            prop_assert!(back.as_ref().is_ok_and(|back| (back - value).abs() <= 1e-5 * value.abs()), "{value} {unit:?} → {text} → {back:?}");
        }
    }
}
