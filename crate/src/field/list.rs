//! Lists of fields, put together by the compiler.

use super::{Answers, ChoiceField, Field};

/// What stands in several lists in one, `N` of it. For the compiler only: a wrong
/// count does not build.
pub(crate) const fn joined<T: Copy, const N: usize>(lists: &[&[T]]) -> [T; N] {
    let mut all = [lists[0][0]; N];
    let (mut list, mut count) = (0, 0);
    while list < lists.len() {
        let mut i = 0;
        while i < lists[list].len() {
            all[count] = lists[list][i];
            count += 1;
            i += 1;
        }
        list += 1;
    }
    assert!(count == N);
    all
}

/// The fields of a part that is there only under these answers. Fields that
/// wait on a choice of the part itself go with that choice.
pub(crate) const fn only_when<const N: usize, T: Answers>(
    mut fields: [Field; N],
    choice: ChoiceField<T>,
    answers: &'static [&'static str],
) -> [Field; N] {
    let mut i = 0;
    while i < N {
        if fields[i].when.is_none() {
            fields[i] = fields[i].when(choice, answers);
        }
        i += 1;
    }
    fields
}

/// The fields of a part, folded away at first.
pub(crate) const fn folded<const N: usize>(mut fields: [Field; N]) -> [Field; N] {
    let mut i = 0;
    while i < N {
        fields[i].detail = true;
        i += 1;
    }
    fields
}

/// Whether two texts are the same. For the compiler, which has no `==` for them.
pub(crate) const fn same(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    if a.len() != b.len() {
        return false;
    }
    let mut i = 0;
    while i < a.len() {
        if a[i] != b[i] {
            return false;
        }
        i += 1;
    }
    true
}
