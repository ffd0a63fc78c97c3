//! How a stage box and its console are joined, which decides at whose earth its lines end.

use super::ground::Ends;
use super::show::{Equipment, EquipmentPower, InputLine, Link, LinkKind, Show};
use crate::settings::Settings;
use crate::words::{Arg, Words};
use std::collections::HashSet;

/// How what is plugged into a stage box goes on to its console.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Joined {
    /// Nobody says.
    Unsaid,
    /// As data, by light, by radio or by transformers: the lines end at the stage box.
    Apart,
    /// By the wires of a multicore, from a box with a supply and outputs of its own.
    Driven,
    /// By the wires of a multicore, through a box that has no supply: the lines end at the
    /// console, since there is no input in the box.
    Through,
}

impl Joined {
    fn of(show: &Show, stage_box: &Equipment, console: &str) -> Self {
        let is_from = |from: &str, to: &str| from == stage_box.id && to == console;
        let between = |link: &&Link| is_from(&link.from, &link.to) || is_from(&link.to, &link.from);
        show.links.iter().filter(between).map(|link| Self::by(link, stage_box)).max().unwrap_or(Self::Unsaid)
    }

    /// What one link says of it: metal on metal is no way for a signal.
    fn by(link: &Link, stage_box: &Equipment) -> Self {
        match (link.kind, link.ends) {
            (LinkKind::Metalwork, _) => Self::Unsaid,
            (LinkKind::Audio, Ends::Both | Ends::One | Ends::None) if stage_box.power == EquipmentPower::Battery => {
                Self::Through
            }
            (LinkKind::Audio, Ends::Both | Ends::One | Ends::None) => Self::Driven,
            (LinkKind::Audio | LinkKind::Network | LinkKind::Usb | LinkKind::Video, _) => Self::Apart,
        }
    }
}

/// The equipment whose earth is that of the destination, and whose input the line ends
/// at: the stage box, where there is one that does more than pass its wires on.
pub(super) fn earth_at<'a>(show: &Show, line: &'a InputLine) -> &'a str {
    let is_through = |stage_box| Joined::of(show, stage_box, &line.destination) == Joined::Through;
    let has_no_supply = |known: &&Equipment| known.power == EquipmentPower::Battery;
    let passes_on = show.equipment(&line.stage_box).filter(has_no_supply).is_some_and(is_through);
    if line.stage_box.is_empty() || passes_on { &line.destination } else { &line.stage_box }
}

/// What lies between a stage box and its console and is not counted.
pub(super) struct Gap<'a> {
    pub stage_box: &'a Equipment,
    pub console: &'a Equipment,
    /// Whether nobody says how they are joined; else by what they are is not counted.
    pub is_unsaid: bool,
}

impl Gap<'_> {
    /// Whether a line goes that way.
    pub(super) fn is_on(&self, line: &InputLine) -> bool {
        self.stage_box.id == line.stage_box && self.console.id == line.destination
    }

    /// What is not counted, in the reader's words.
    pub(super) fn told(&self, settings: &Settings) -> String {
        let key = if self.is_unsaid { "stage-not-counted-joined" } else { "stage-not-counted-multicore" };
        let args = [("box", Arg::name(self.stage_box.called())), ("console", Arg::name(self.console.called()))];
        Words::of(settings.language).text(key, &args, settings)
    }
}

/// What the lines of a show leave open between their stage boxes and consoles, each pair once.
pub(super) fn gaps(show: &Show) -> Vec<Gap<'_>> {
    let (mut known, mut gaps) = (HashSet::new(), Vec::new());
    for line in &show.lines {
        if line.stage_box == line.destination || !known.insert((&line.stage_box, &line.destination)) {
            continue;
        }
        let both = show.equipment(&line.stage_box).zip(show.equipment(&line.destination));
        let Some((stage_box, console)) = both else { continue };
        let is_unsaid = match Joined::of(show, stage_box, &console.id) {
            Joined::Unsaid => true,
            Joined::Driven => false,
            Joined::Apart | Joined::Through => continue,
        };
        gaps.push(Gap { stage_box, console, is_unsaid });
    }
    gaps
}
