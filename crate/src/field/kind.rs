//! What a calculator asks for.

use super::{Answers, ChoiceField};
use crate::catalogue::Mark;
use crate::catalogue::tolerance::PartKind;
use crate::fault::Fault;
use crate::quantity::Unit;

/// One thing that a calculator asks for.
///
/// Its name and help are the messages `<calculator>-<id>` and
/// `<calculator>-<id>.help`, or `common-<id>` where several share it.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Identifier, in `snake_case`; part of every share link.
    pub id: &'static str,
    /// The symbol of the formulas, such as `R_S`; empty for a choice.
    pub symbol: &'static str,
    /// The stop on the signal's way under which the page shows it; the message
    /// `group-<group>` names it.
    pub group: &'static str,
    /// Whether the page may fold it away at first.
    pub detail: bool,
    /// A choice field and the answers under which this field plays a part, if
    /// that choice does; the choice stands before it.
    pub when: Option<(&'static str, &'static [&'static str])>,
    /// Number or choice.
    pub kind: Kind,
}

/// What can be put into a field.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A number with a unit.
    Number(Number),
    /// One of several.
    Choice(Choice),
}

impl Kind {
    /// The number that is asked for; nothing for a choice.
    pub fn number(&self) -> Option<&Number> {
        match self {
            Self::Number(number) => Some(number),
            Self::Choice(_) => None,
        }
    }

    /// Whether it is the value of a part that has a tolerance.
    pub(crate) fn is_part(&self) -> bool {
        self.number().is_some_and(|number| number.part.is_some())
    }
}

/// A number with a unit. All values are in the unit, without prefix.
#[derive(Clone, Copy, Debug)]
pub struct Number {
    /// The unit.
    pub unit: Unit,
    /// What a bare number is times: 1e-12 for a field that says pF.
    pub bare: f64,
    /// The value at the start; nothing for a field that may stay empty.
    pub default: Option<f64>,
    /// Whether the field may be empty, which means that the thing is not there.
    pub optional: bool,
    /// The smallest and largest value that can be computed with.
    pub limits: (f64, f64),
    /// The span of the slider: what is usual in the trade.
    pub usual: (f64, f64),
    /// Values of the trade that the page offers, from the catalogue.
    pub marks: &'static [Mark],
    /// A choice field whose answer is this field's unit.
    pub unit_from: Option<&'static str>,
    /// The kind of part that it is a value of, and whose tolerance it has.
    pub part: Option<PartKind>,
}

/// One of several.
#[derive(Clone, Copy, Debug)]
pub struct Choice {
    /// The answers; the message `<calculator>-<field>-<option>` or
    /// `common-<field>-<option>` names each.
    pub options: &'static [ChoiceOption],
    /// The answer at the start.
    pub default: &'static str,
}

/// One answer to a choice.
#[derive(Clone, Copy, Debug)]
pub struct ChoiceOption {
    /// Identifier, part of every share link.
    pub id: &'static str,
    /// The unit it stands for, where the choice is one of units.
    pub unit: Option<Unit>,
}

impl Field {
    /// A number field; its limits are those of the usual span until widened.
    pub const fn number(id: &'static str, symbol: &'static str, unit: Unit, default: f64, usual: (f64, f64)) -> Self {
        Self {
            id,
            symbol,
            group: "",
            detail: false,
            when: None,
            kind: Kind::Number(Number {
                unit,
                bare: 1.0,
                default: Some(default),
                optional: false,
                limits: usual,
                usual,
                marks: &[],
                unit_from: None,
                part: PartKind::of(unit),
            }),
        }
    }

    /// A number field that may be empty, and starts so.
    pub const fn blank(id: &'static str, symbol: &'static str, unit: Unit, usual: (f64, f64)) -> Self {
        Self::number(id, symbol, unit, 0.0, usual).absent()
    }

    /// The unit of a number field; one without a dimension for a choice.
    pub(crate) const fn unit(self) -> Unit {
        match self.kind {
            Kind::Number(number) => number.unit,
            Kind::Choice(_) => Unit::One,
        }
    }

    /// A choice field; [`ChoiceField`] knows its answers too.
    pub(super) const fn choice(id: &'static str, options: &'static [ChoiceOption], default: &'static str) -> Self {
        Self { id, symbol: "", group: "", detail: false, when: None, kind: Kind::Choice(Choice { options, default }) }
    }

    /// The same field by another name, where it stands beside itself or where
    /// the calculator has that name for something else.
    #[must_use]
    pub const fn named(self, id: &'static str, symbol: &'static str) -> Self {
        Self { id, symbol, ..self }
    }

    /// The values contradict each other, and this field is where to mend it;
    /// `key` is the explanation in the message catalogue.
    #[inline(always)]
    pub(crate) fn fault(self, key: &'static str) -> Fault {
        Fault::at(self.id, key)
    }

    /// What somebody types into this field, for a preset.
    pub(crate) const fn typed(self, text: &'static str) -> (&'static str, &'static str) {
        (self.id, text)
    }

    /// Puts the field under a stop of the signal's way.
    #[must_use]
    pub const fn at(mut self, group: &'static str) -> Self {
        self.group = group;
        self
    }

    /// Lets the page fold the field away at first.
    #[must_use]
    pub const fn detail(mut self) -> Self {
        self.detail = true;
        self
    }

    /// The field plays a part only under these answers to a choice. For the
    /// compiler only: an answer to another choice does not build.
    ///
    /// # Panics
    /// While it is being compiled, where an answer is none to this choice.
    #[must_use]
    pub const fn when<T: Answers>(mut self, choice: ChoiceField<T>, answers: &'static [&'static str]) -> Self {
        assert!(ChoiceField::<T>::has(answers), "not an answer to this choice");
        self.when = Some((choice.id(), answers));
        self
    }

    /// Sets the hard limits.
    #[must_use]
    pub const fn limits(mut self, from: f64, to: f64) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.limits = (from, to);
        }
        self
    }

    /// What a bare number is times: 1e-12 for a field that says pF.
    #[must_use]
    pub const fn bare(mut self, size: f64) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.bare = size;
        }
        self
    }

    /// Values of the trade to offer.
    #[must_use]
    pub const fn marks(mut self, marks: &'static [Mark]) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.marks = marks;
        }
        self
    }

    /// Another value at the start.
    #[must_use]
    pub const fn starting(mut self, value: f64) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.default = Some(value);
        }
        self
    }

    /// Another usual span, and with it another slider.
    #[must_use]
    pub const fn usual(mut self, from: f64, to: f64) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.usual = (from, to);
        }
        self
    }

    /// The field may be empty; it starts with its default.
    #[must_use]
    pub const fn optional(mut self) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.optional = true;
        }
        self
    }

    /// The field may be empty, and starts so.
    #[must_use]
    pub const fn absent(mut self) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.optional = true;
            number.default = None;
        }
        self
    }

    /// The value is that of another kind of part than most of its unit.
    #[must_use]
    pub const fn part(mut self, kind: PartKind) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.part = Some(kind);
        }
        self
    }

    /// The value is no part's: a condition, a reference or a wish.
    #[must_use]
    pub const fn exact(mut self) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.part = None;
        }
        self
    }

    /// The field's unit is the answer to a choice.
    #[must_use]
    pub const fn unit_from<T: Answers>(mut self, choice: ChoiceField<T>) -> Self {
        if let Kind::Number(number) = &mut self.kind {
            number.unit_from = Some(choice.id());
        }
        self
    }
}

impl Number {
    /// Whether the usual span is wide enough for a log scale.
    pub fn is_log(&self) -> bool {
        !self.unit.is_level() && self.usual.0 > 0.0 && self.usual.1 / self.usual.0 >= 30.0
    }
}
