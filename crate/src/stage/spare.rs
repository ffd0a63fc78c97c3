//! What in the drawer is not in use, and a line with it.

use super::show::{Gear, GearKind, InputLine, Show};
use crate::field::direct_box::{BOX, BoxKind, GROUND, Ground, POWERED};
use crate::named::Named;

/// What may be put between a source and its run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Isolator,
    Passive,
    Active,
}

impl Part {
    /// What a piece of gear is; nothing where it is none of them.
    pub(super) fn of(gear: &Gear) -> Option<Self> {
        let is_passive = || gear.values.get(BOX.id()).is_some_and(|text| text.trim() == BoxKind::Passive.id());
        match gear.kind {
            GearKind::Isolator => Some(Self::Isolator),
            GearKind::Di => Some(if is_passive() { Self::Passive } else { Self::Active }),
            GearKind::Source | GearKind::Lead | GearKind::Pad | GearKind::Input => None,
        }
    }
}

/// How many of a piece of gear are on no line; nothing where nobody counts them.
pub(super) fn free(show: &Show, gear: &Gear) -> Option<usize> {
    let used = show.lines.iter().filter(|line| line.di == gear.id || line.pad == gear.id).count();
    gear.count.map(|count| (count as usize).saturating_sub(used))
}

/// Whether one of it is left.
pub(super) fn is_free(show: &Show, gear: &Gear) -> bool {
    free(show, gear).is_none_or(|left| left > 0)
}

/// The line with a box or an isolator on it: what the line itself says of boxes would stand
/// over what that is.
pub(super) fn with_box(line: &InputLine, gear: &Gear, is_lifted: bool) -> InputLine {
    let own = [BOX.id(), GROUND.id(), POWERED.id()];
    let stays = |id: &str| !own.contains(&id) && gear.values.get(id).is_none();
    let mut values = Named::default();
    for (id, text) in line.values.iter().filter(|(id, _)| stays(id)) {
        values.insert(id.to_owned(), text.clone());
    }
    if is_lifted {
        values.insert(GROUND.id(), Ground::Lifted.id().to_owned());
    }
    InputLine { di: gear.id.clone(), values, ..line.clone() }
}
