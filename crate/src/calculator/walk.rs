//! The working of a path at one frequency, from the load back to the source.
//!
//! The same ladder that the engine walks, written down: one volt across the
//! load, then every element's share of voltage and current, and last what the
//! e.m.f. must have been.

use super::fault::Fault;
use super::sheet::Sheet;
use crate::network::{Element, Line, OnePort, Path};
use crate::quantity::Unit;
use crate::words::Arg;

impl Sheet<'_> {
    /// Writes down the transfer of `path` at `frequency` Hz. Leaves `H` (the
    /// transfer) and `a` (its level in dB re e.m.f.) in the scope and gives the
    /// latter. Does nothing but give NaN where no working is wanted.
    ///
    /// # Errors
    /// A [`Fault`] only if a formula here is wrong.
    pub fn walk(&mut self, path: &Path, frequency: f64) -> Result<f64, Fault> {
        if !self.wants_working() {
            return Ok(f64::NAN);
        }
        self.given("f", frequency, Unit::Hertz);
        self.step("walk-omega", "omega", "2*pi*f", Unit::RadianPerSecond)?;
        self.admittance(&path.load, "part-load", "Y_L")?;
        self.given("V_0", 1.0, Unit::Volt);
        self.step_complex("walk-load", "I_0", "V_0*Y_L", Unit::Ampere)?;
        let mut last = 0;
        for part in path.chain.iter().rev() {
            last = self.walk_back(part.name, &part.element, last)?;
        }
        self.impedance(&path.source, "part-source", "Z_S")?;
        self.step_complex("walk-emf", "E", &format!("V_{last} + Z_S*I_{last}"), Unit::Volt)?;
        self.step_complex("walk-transfer", "H", "V_0/E", Unit::One)?;
        self.step("walk-level", "a", "20*log10(abs(H))", Unit::Decibel)
    }

    fn walk_back(&mut self, part: &'static str, element: &Element, k: usize) -> Result<usize, Fault> {
        let n = k + 1;
        let named = |sheet: &Self, id: &str| {
            let part = Arg::Key(part.to_owned());
            sheet.word(id, &[("part", part)])
        };
        let (volts, amperes) = match element {
            Element::Series(z) => {
                self.impedance(z, part, &format!("Z_{n}"))?;
                (format!("V_{k} + Z_{n}*I_{k}"), format!("I_{k}"))
            }
            Element::Shunt(y) => {
                self.admittance(y, part, &format!("Y_{n}"))?;
                (format!("V_{k}"), format!("I_{k} + Y_{n}*V_{k}"))
            }
            Element::Transformer(ratio) => {
                self.given("n", *ratio, Unit::Ratio);
                (format!("n*V_{k}"), format!("I_{k}/n"))
            }
            Element::Line(line) => {
                self.line(line, part)?;
                (format!("A*V_{k} + B*I_{k}"), format!("C*V_{k} + A*I_{k}"))
            }
            Element::Buffer(gain) => {
                self.given("g", *gain, Unit::One);
                (format!("V_{k}/g"), "0".to_owned())
            }
            Element::Branch(chain, load) => {
                let branch = Path { source: OnePort::SHORT, chain: chain.clone(), load: load.clone() };
                let f = self.value_of("f").re;
                self.given("Z_branch", branch.input_impedance(f), Unit::Ohm);
                self.named_step(named(self, "walk-admittance"), &format!("Y_{n}"), "1/Z_branch", Unit::Siemens)?;
                (format!("V_{k}"), format!("I_{k} + Y_{n}*V_{k}"))
            }
        };
        self.named_step(named(self, "walk-volts"), &format!("V_{n}"), &volts, Unit::Volt)?;
        self.named_step(named(self, "walk-amperes"), &format!("I_{n}"), &amperes, Unit::Ampere)?;
        Ok(n)
    }

    fn line(&mut self, line: &Line, part: &'static str) -> Result<(), Fault> {
        let part = || Arg::Key(part.to_owned());
        self.given("l", line.length, Unit::Metre);
        self.given("R′", line.r, Unit::OhmPerMetre);
        self.given("L′", line.l, Unit::HenryPerMetre);
        self.given("C′", line.c, Unit::FaradPerMetre);
        let name = self.word("walk-impedance", &[("part", part())]);
        self.named_step(name, "Z", "(R′ + j*omega*L′)*l", Unit::Ohm)?;
        let name = self.word("walk-admittance", &[("part", part())]);
        self.named_step(name, "Y", "j*omega*C′*l", Unit::Siemens)?;
        let name = self.word("walk-line", &[("part", part())]);
        let x = self.named_step(name.clone(), "x", "sqrt(Z*Y)", Unit::One)?;
        self.named_step(name.clone(), "A", "cosh(x)", Unit::One)?;
        // sinh x / x is 1 for a line without R and L.
        let (b, c) = if x.norm() == 0.0 { ("Z", "Y") } else { ("Z*sinh(x)/x", "Y*sinh(x)/x") };
        self.named_step(name.clone(), "B", b, Unit::Ohm)?;
        self.named_step(name, "C", c, Unit::Siemens)?;
        Ok(())
    }

    fn impedance(&mut self, port: &OnePort, part: &'static str, symbol: &str) -> Result<(), Fault> {
        let formula = self.formula(port, false, symbol, &mut 0);
        let name = self.word("walk-impedance", &[("part", Arg::Key(part.to_owned()))]);
        self.named_step(name, symbol, &formula, Unit::Ohm).map(drop)
    }

    fn admittance(&mut self, port: &OnePort, part: &'static str, symbol: &str) -> Result<(), Fault> {
        let formula = self.formula(port, true, symbol, &mut 0);
        let name = self.word("walk-admittance", &[("part", Arg::Key(part.to_owned()))]);
        self.named_step(name, symbol, &formula, Unit::Siemens).map(drop)
    }

    /// The impedance or admittance of a one-port as a formula, its elements
    /// given names that end as `symbol` does.
    fn formula(&mut self, port: &OnePort, admittance: bool, symbol: &str, count: &mut usize) -> String {
        let tail = symbol.split_once('_').map_or("", |(_, tail)| tail).to_owned();
        let name = |sheet: &mut Self, stem: &str, value: f64, unit: Unit| {
            let suffix = if *count > 0 { format!("{}", (b'a' + (*count as u8).min(25)) as char) } else { String::new() };
            let name = format!("{stem}_{tail}{suffix}");
            sheet.given(&name, value, unit);
            name
        };
        let join = |terms: Vec<String>| if terms.is_empty() { "0".to_owned() } else { terms.join(" + ") };
        let inverse = |sum: String| if sum == "0" { sum } else { format!("1/({sum})") };
        match port {
            OnePort::Series { r, l, elastance } => {
                let mut terms = Vec::new();
                if *r != 0.0 {
                    terms.push(name(self, "R", *r, Unit::Ohm));
                }
                if *l != 0.0 {
                    terms.push(format!("j*omega*{}", name(self, "L", *l, Unit::Henry)));
                }
                if *elastance != 0.0 {
                    terms.push(format!("1/(j*omega*{})", name(self, "C", 1.0 / elastance, Unit::Farad)));
                }
                if admittance { inverse(join(terms)) } else { join(terms) }
            }
            OnePort::Parallel { g, c, reluctance } => {
                let mut terms = Vec::new();
                if *g != 0.0 {
                    terms.push(format!("1/{}", name(self, "R", 1.0 / g, Unit::Ohm)));
                }
                if *c != 0.0 {
                    terms.push(format!("j*omega*{}", name(self, "C", *c, Unit::Farad)));
                }
                if *reluctance != 0.0 {
                    terms.push(format!("1/(j*omega*{})", name(self, "L", 1.0 / reluctance, Unit::Henry)));
                }
                if admittance { join(terms) } else { inverse(join(terms)) }
            }
            OnePort::Stack(parts) | OnePort::Bundle(parts) => {
                let parallel = matches!(port, OnePort::Bundle(_));
                let mut terms = Vec::new();
                for part in parts {
                    let term = self.formula(part, parallel, symbol, count);
                    if term != "0" {
                        terms.push(term);
                    }
                    *count += 1;
                }
                if parallel == admittance { join(terms) } else { inverse(join(terms)) }
            }
        }
    }
}
