//! A choice whose answers are an enum.

use super::list::same;
use super::{Choice, ChoiceOption, Field, Kind};
use crate::fault::Fault;
use std::marker::PhantomData;

/// The answers to a choice, as an enum that `choice!` writes.
pub trait Answers: Copy + Eq + 'static {
    /// Every answer.
    const ALL: &'static [Self];
    /// The same for the page, in the same order.
    const ANSWERS: &'static [ChoiceOption];

    /// The answer with this identifier.
    fn of(id: &str) -> Option<Self> {
        let place = Self::ANSWERS.iter().position(|answer| answer.id == id)?;
        Self::ALL.get(place).copied()
    }

    /// Its identifier, part of every share link.
    fn id(self) -> &'static str;
}

/// A field that asks for one of several, `T` being its answers.
#[derive(Clone, Copy, Debug)]
pub struct ChoiceField<T> {
    field: Field,
    answers: PhantomData<T>,
}

impl<T: Answers> ChoiceField<T> {
    /// A field that starts with the answer of this identifier, which is written
    /// as `T::field(id, answer)`. For the compiler only, as all of these are: an
    /// answer to another choice does not build.
    ///
    /// # Panics
    /// While it is being compiled, where the answer is none of `T`.
    pub const fn new(id: &'static str, default: &'static str) -> Self {
        let choice = Self { field: Field::choice(id, T::ANSWERS, default), answers: PhantomData };
        assert!(Self::has(&[default]), "not an answer to this choice");
        choice
    }

    /// The field, for the list of a calculator's fields.
    pub const fn field(self) -> Field {
        self.field
    }

    /// Its identifier, part of every share link.
    pub const fn id(self) -> &'static str {
        self.field.id
    }

    /// The values contradict each other, and this choice is where to mend it;
    /// `key` is the explanation in the message catalogue.
    #[inline(always)]
    pub(crate) fn fault(self, key: &'static str) -> Fault {
        self.field.fault(key)
    }

    /// Puts the field under a stop of the signal's way.
    #[must_use]
    pub const fn at(self, group: &'static str) -> Self {
        Self { field: self.field.at(group), ..self }
    }

    /// Lets the page fold the field away at first.
    #[must_use]
    pub const fn detail(self) -> Self {
        Self { field: self.field.detail(), ..self }
    }

    /// Plays a part only under these answers to another choice.
    #[must_use]
    pub const fn when<U: Answers>(self, choice: ChoiceField<U>, answers: &'static [&'static str]) -> Self {
        Self { field: self.field.when(choice, answers), ..self }
    }

    /// Another answer at the start.
    ///
    /// # Panics
    /// While it is being compiled, where the answer is none of `T`.
    #[must_use]
    pub const fn starting(mut self, answer: &'static str) -> Self {
        assert!(Self::has(&[answer]), "not an answer to this choice");
        if let Kind::Choice(choice) = &mut self.field.kind {
            choice.default = answer;
        }
        self
    }

    /// Only these answers, in this order.
    ///
    /// # Panics
    /// While it is being compiled, where one of them is none of `T`.
    #[must_use]
    pub const fn among(mut self, options: &'static [ChoiceOption]) -> Self {
        let mut i = 0;
        while i < options.len() {
            assert!(Self::has(&[options[i].id]), "not an answer to this choice");
            i += 1;
        }
        if let Kind::Choice(Choice { options: all, .. }) = &mut self.field.kind {
            *all = options;
        }
        self
    }

    /// Whether every one of these is an answer. For the compiler only.
    pub(crate) const fn has(answers: &[&str]) -> bool {
        let mut i = 0;
        while i < answers.len() {
            let mut known = false;
            let mut j = 0;
            while j < T::ANSWERS.len() {
                known |= same(T::ANSWERS[j].id, answers[i]);
                j += 1;
            }
            if !known {
                return false;
            }
            i += 1;
        }
        true
    }
}

/// Writes an enum whose variants are the answers to a choice, each with its
/// identifier, and with its unit where the choice is one of units:
///
/// ```ignore
/// choice! {
///     /// What stands between the source and the console.
///     pub(crate) enum BoxKind {
///         /// Nothing.
///         None = "none",
///         /// An active box.
///         Active = "active",
///     }
/// }
/// const BOX: ChoiceField<BoxKind> = BoxKind::field("box", BoxKind::Active).at("box");
/// ```
macro_rules! choice {
    ($(#[$about:meta])* $see:vis enum $name:ident {
        $($(#[$what:meta])* $variant:ident = $id:literal $(in $unit:expr)?,)+
    }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        $see enum $name {
            $($(#[$what])* $variant,)+
        }

        impl $name {
            /// Its identifier, part of every share link.
            $see const fn id(self) -> &'static str {
                self.answer().id
            }

            /// The same for the page.
            $see const fn answer(self) -> $crate::field::ChoiceOption {
                <Self as $crate::field::Answers>::ANSWERS[self as usize]
            }

            /// This answer to a field, for a preset.
            #[allow(dead_code, reason = "not every choice is in a preset")]
            $see const fn to(self, field: $crate::field::ChoiceField<Self>) -> (&'static str, &'static str) {
                (field.id(), self.id())
            }

            /// A field that asks for it and starts with this answer.
            $see const fn field(id: &'static str, default: Self) -> $crate::field::ChoiceField<Self> {
                $crate::field::ChoiceField::new(id, default.id())
            }
        }

        impl $crate::field::Answers for $name {
            const ALL: &'static [Self] = &[$(Self::$variant),+];
            const ANSWERS: &'static [$crate::field::ChoiceOption] =
                &[$($crate::field::ChoiceOption { id: $id, unit: $crate::field::choice!(@unit $($unit)?) }),+];

            fn id(self) -> &'static str {
                Self::id(self)
            }
        }
    };
    (@unit) => { None };
    (@unit $unit:expr) => { Some($unit) };
}

pub(crate) use choice;
