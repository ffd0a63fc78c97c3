//! A lesson in another language, where its file has one.

use super::file::{Lesson, LessonStep, Variant};
use crate::named::Named;
use std::mem::replace;

impl Lesson {
    /// The lesson in a language; as it is where its file has none of that name. What a variant
    /// leaves out stays, and so do seeds, keys and marks: only what is read is another.
    #[must_use]
    pub fn told(mut self, language: &str) -> Self {
        let Some(known) = self.variants.iter().map(|(known, _)| known).find(|known| is(known, language)) else {
            return self;
        };
        let known = known.to_owned();
        if is(&self.language, language) {
            return self;
        }
        if let Some(variant) = self.variants.get(&known) {
            put(&mut self.title, &variant.title);
            put(&mut self.note, &variant.note);
        }
        for step in &mut self.steps {
            tell(step, &known);
        }
        self.language = known;
        self
    }
}

/// Whether a tag (BCP 47) is of a language, wherever that is spoken.
fn is(tag: &str, language: &str) -> bool {
    tag.strip_prefix(language).is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
}

fn tell(step: &mut LessonStep, language: &str) {
    let variants = replace(&mut step.variants, Named::EMPTY);
    if let Some(Variant { title, text, because, note, hints, names }) = variants.get(language) {
        put(&mut step.title, title);
        put(&mut step.text, text);
        put(&mut step.because, because);
        put(&mut step.note, note);
        for (own, hint) in step.hints.iter_mut().zip(hints) {
            put(own, hint);
        }
        let ways = step.ways.iter_mut().map(|way| &mut way.name);
        let cases = step.cases.iter_mut().map(|case| &mut case.name);
        let parts = step.drawer.iter_mut().map(|part| &mut part.name);
        for (own, name) in ways.chain(cases).chain(parts).zip(names) {
            put(own, name);
        }
    }
    step.variants = variants;
}

fn put(own: &mut String, told: &str) {
    if !told.is_empty() {
        told.clone_into(own);
    }
}
