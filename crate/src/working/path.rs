//! The working of a path at one frequency, from the load back to the source.
//!
//! The ladder of `network/ladder.rs`, written down: one volt across the
//! load, then every element's share of voltage and current, and last what the
//! e.m.f. must have been.

use super::Working;
use crate::fault::Fault;
use crate::network::{Element, Line, MOST_LOSS, OnePort, Path, decibels_of_transfer};
use crate::quantity::Unit;
use crate::words::Arg;

impl Working {
    /// Writes down the transfer of `path` at `frequency` Hz. Leaves `H` (the
    /// transfer) and `a` (its level in dB re e.m.f.) in the scope and gives the
    /// latter. Does nothing but give NaN where no working is wanted.
    ///
    /// # Errors
    /// A [`Fault`] only if a formula here is wrong.
    pub fn walk(&mut self, path: &Path, frequency: f64) -> Result<f64, Fault> {
        if !self.is_wanted() {
            return Ok(f64::NAN);
        }
        self.fold(true);
        let level = self.walked(path, frequency);
        self.fold(false);
        level
    }

    fn walked(&mut self, path: &Path, frequency: f64) -> Result<f64, Fault> {
        self.given("f", frequency, Unit::Hertz);
        self.step("walk-omega", "omega", "2*pi*f", Unit::RadianPerSecond)?;
        self.admittance(&path.load, "part-load", "Y_L")?;
        self.given("V_0", 1.0, Unit::Volt);
        self.step_with("walk-load", &[], "I_0", "V_0*Y_L", Unit::Ampere)?;
        // The latest names of voltage and current: a series element leaves the
        // current as it was, and a shunt element the voltage.
        let (mut v, mut i) = ("V_0".to_owned(), "I_0".to_owned());
        for (n, part) in path.chain.iter().rev().enumerate() {
            (v, i) = self.walk_back(part.name, &part.element, n + 1, v, i)?;
        }
        if self.value_of(&i).norm() > 0.0 {
            self.step("walk-input", "Z_f", &format!("abs({v}/{i})"), Unit::Ohm)?;
        }
        self.impedance(&path.source, "part-source", "Z_S")?;
        self.step_with("walk-emf", &[], "E_0", &format!("{v} + Z_S*{i}"), Unit::Volt)?;
        self.step_with("walk-transfer", &[], "H", "V_0/E_0", Unit::One)?;
        self.step("walk-level", "a", "20*log10(abs(H))", Unit::Decibel)
    }

    fn walk_back(
        &mut self,
        part: &'static str,
        element: &Element,
        n: usize,
        v: String,
        i: String,
    ) -> Result<(String, String), Fault> {
        let (volts, amperes) = match element {
            Element::Series(z) => {
                self.impedance(z, part, &format!("Z_{n}"))?;
                (Some(format!("{v} + Z_{n}*{i}")), None)
            }
            Element::Shunt(y) => {
                self.admittance(y, part, &format!("Y_{n}"))?;
                (None, Some(format!("{i} + Y_{n}*{v}")))
            }
            Element::Transformer(ratio) => {
                self.given("n", *ratio, Unit::Ratio);
                (Some(format!("n*{v}")), Some(format!("{i}/n")))
            }
            Element::Line(line) => {
                self.line(line, part)?;
                (Some(format!("A*{v} + B*{i}")), Some(format!("C*{v} + A*{i}")))
            }
            Element::Buffer(gain) => {
                self.given("g", *gain, Unit::One);
                (Some(format!("{v}/g")), Some("0".to_owned()))
            }
            Element::Branch(chain, load) => {
                let branch = Path { source: OnePort::SHORT, chain: chain.clone(), load: load.clone() };
                let f = self.value_of("f").re;
                self.given("Z_branch", branch.input_impedance(f), Unit::Ohm);
                self.step_with("walk-admittance", &of(part), &format!("Y_{n}"), "1/Z_branch", Unit::Siemens)?;
                (None, Some(format!("{i} + Y_{n}*{v}")))
            }
        };
        let mut next = |id, symbol: String, formula: Option<String>, unchanged: String, unit| match formula {
            None => Ok(unchanged),
            Some(formula) => self.step_with(id, &of(part), &symbol, &formula, unit).map(|_| symbol),
        };
        Ok((
            next("walk-volts", format!("V_{n}"), volts, v, Unit::Volt)?,
            next("walk-amperes", format!("I_{n}"), amperes, i, Unit::Ampere)?,
        ))
    }

    fn line(&mut self, line: &Line, part: &'static str) -> Result<(), Fault> {
        self.given("l", line.length, Unit::Metre);
        self.given("R′", line.r, Unit::OhmPerMetre);
        self.given("L′", line.l, Unit::HenryPerMetre);
        self.given("C′", line.c, Unit::FaradPerMetre);
        self.step_with("walk-impedance", &of(part), "Z", "(R′ + j*omega*L′)*l", Unit::Ohm)?;
        self.step_with("walk-admittance", &of(part), "Y", "j*omega*C′*l", Unit::Siemens)?;
        let x = self.step_with("walk-line", &of(part), "x", "sqrt(Z*Y)", Unit::One)?;
        // What is left behind a line of endless loss is not followed further.
        let followed = if x.re > MOST_LOSS {
            let most = Arg::Quantity(decibels_of_transfer(MOST_LOSS.exp().into()), Unit::Decibel);
            let args = [("part", Arg::Key(part.to_owned())), ("most", most)];
            self.step_with("walk-line-most", &args, "x_m", &format!("{MOST_LOSS} + j*im(x)"), Unit::One)?;
            "x_m"
        } else {
            "x"
        };
        self.step_with("walk-line", &of(part), "A", &format!("cosh({followed})"), Unit::One)?;
        // sinh x / x is 1 for a line without R and L.
        let shape = if x.norm() == 0.0 { String::new() } else { format!("*sinh({followed})/x") };
        self.step_with("walk-line", &of(part), "B", &format!("Z{shape}"), Unit::Ohm)?;
        self.step_with("walk-line", &of(part), "C", &format!("Y{shape}"), Unit::Siemens)?;
        Ok(())
    }

    fn impedance(&mut self, port: &OnePort, part: &'static str, symbol: &str) -> Result<(), Fault> {
        let formula = self.formula(port, false, symbol, &mut 0);
        self.step_with("walk-impedance", &of(part), symbol, &formula, Unit::Ohm).map(drop)
    }

    fn admittance(&mut self, port: &OnePort, part: &'static str, symbol: &str) -> Result<(), Fault> {
        let formula = self.formula(port, true, symbol, &mut 0);
        self.step_with("walk-admittance", &of(part), symbol, &formula, Unit::Siemens).map(drop)
    }

    /// The impedance or admittance of a one-port as a formula, its elements
    /// given names that end as `symbol` does.
    fn formula(&mut self, port: &OnePort, admittance: bool, symbol: &str, count: &mut usize) -> String {
        let tail = symbol.split_once('_').map_or("", |(_, tail)| tail).to_owned();
        let name = |sheet: &mut Self, stem: &str, mark: &str, value: f64, unit: Unit| {
            let suffix =
                if *count > 0 { format!("{}", (b'a' + (*count as u8).min(25)) as char) } else { String::new() };
            let name = format!("{stem}_{tail}{mark}{suffix}");
            sheet.given(&name, value, unit);
            name
        };
        let join = |terms: Vec<String>| if terms.is_empty() { "0".to_owned() } else { terms.join(" + ") };
        let inverse = |sum: String| if sum == "0" { sum } else { format!("1/({sum})") };
        match port {
            OnePort::SeriesRlc { r, l, elastance } => {
                let mut terms = Vec::new();
                if *r != 0.0 {
                    terms.push(name(self, "R", "", *r, Unit::Ohm));
                }
                if *l != 0.0 {
                    terms.push(format!("j*omega*{}", name(self, "L", "", *l, Unit::Henry)));
                }
                if *elastance != 0.0 {
                    // Not C_S, which is the capacitance across the source.
                    terms.push(format!("1/(j*omega*{})", name(self, "C", "s", 1.0 / elastance, Unit::Farad)));
                }
                if admittance { inverse(join(terms)) } else { join(terms) }
            }
            OnePort::ParallelRlc { g, c, reluctance } => {
                let mut terms = Vec::new();
                if *g != 0.0 {
                    terms.push(format!("1/{}", name(self, "R", "", 1.0 / g, Unit::Ohm)));
                }
                if *c != 0.0 {
                    terms.push(format!("j*omega*{}", name(self, "C", "", *c, Unit::Farad)));
                }
                if *reluctance != 0.0 {
                    terms.push(format!("1/(j*omega*{})", name(self, "L", "", 1.0 / reluctance, Unit::Henry)));
                }
                if admittance { join(terms) } else { inverse(join(terms)) }
            }
            OnePort::Series(parts) | OnePort::Parallel(parts) => {
                let parallel = matches!(port, OnePort::Parallel(_));
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

/// What goes into the name of a step of a part.
fn of(part: &'static str) -> [(&'static str, Arg); 1] {
    [("part", Arg::Key(part.to_owned()))]
}
