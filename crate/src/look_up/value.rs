//! Typical values: those that the fields of the calculators offer, as tables.

use super::entry::{Cell, Column, Table};
use super::item::{Item, Printer, Put, Shown, To};
use crate::calculator::{
    balance, ground_loop, lead_length, level_chain, levels, noise_floor, pad, phantom, pickup, source_load,
    transformer, whole_line,
};
use crate::catalogue::{Mark, typical};
use crate::field::connection::{CONNECTION, ConnectionKind};
use crate::field::direct_box::{BOX, BoxKind};
use crate::field::earth::{CAUSE, CauseKind};
use crate::field::load::LOAD_R;
use crate::field::source::{SOURCE, SOURCE_R, SourceKind};
use crate::quantity::Unit;
use crate::quantity::level::{dbu, dbv};
use crate::words::Arg;

pub(super) static ITEMS: &[Item] = &[
    Item::new("value-source", &["source-practice", "source-microphone"])
        .shows(Shown::Table(|print| values(print, Unit::Ohm, typical::SOURCE_RESISTANCE)))
        .links(&[To::calculator(&source_load::CALCULATOR)])
        .see(&["value-input", "term-source-impedance", "loss-by-load"]),
    Item::new("value-input", &["source-practice", "source-microphone"])
        .shows(Shown::Table(|print| values(print, Unit::Ohm, typical::LOAD_RESISTANCE)))
        .links(&[
            To::filled(&source_load::CALCULATOR, &[Put::number(SOURCE_R, 1e3)]),
            To::filled(&pickup::CALCULATOR, &[Put::number(LOAD_R, 180e3)]),
        ])
        .see(&["value-source", "term-input-impedance", "term-bridging"]),
    Item::new("value-level", &["source-practice", "source-levels"])
        .shows(Shown::Table(|print| levels(print, typical::SOURCE_LEVEL)))
        .links(&[To::calculator(&levels::CALCULATOR), To::calculator(&level_chain::CALCULATOR)])
        .see(&["value-microphone-level", "value-crest", "level-units"]),
    Item::new("value-line-level", &["source-practice", "source-levels"])
        .shows(Shown::Table(|print| levels(print, typical::LINE_LEVEL)))
        .links(&[To::filled(&levels::CALCULATOR, &[Put::number(levels::INTO, typical::MINUS_10_DBV)])])
        .see(&["value-level", "level-units"]),
    Item::new("value-microphone-level", &["source-practice", "source-levels"])
        .shows(Shown::Table(|print| levels(print, typical::MICROPHONE_LEVEL)))
        .cautions(&["caution-hearing"])
        .links(&[To::filled(&noise_floor::CALCULATOR, &[Put::answer(SourceKind::Microphone.to(SOURCE))])])
        .see(&["value-level", "value-input-noise"]),
    Item::new("value-crest", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Decibel, typical::CREST)))
        .links(&[To::calculator(&level_chain::CALCULATOR)])
        .see(&["term-crest-factor", "term-headroom"]),
    Item::new("value-lead", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::FaradPerMetre, typical::LEAD_C)))
        .links(&[To::calculator(&lead_length::CALCULATOR), To::calculator(&pickup::CALCULATOR)])
        .see(&["lead-by-length", "value-pair", "term-lead-capacitance"]),
    Item::new("value-pair", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::FaradPerMetre, typical::CORE_C)))
        .links(&[To::filled(
            &lead_length::CALCULATOR,
            &[Put::answer(lead_length::LeadSource::Balanced.to(lead_length::SOURCE))],
        )])
        .see(&["value-lead", "lead-xlr", "term-star-quad"]),
    Item::new("value-pickup", &["source-practice"])
        .shows(Shown::Table(pickups))
        .links(&[To::calculator(&pickup::CALCULATOR)])
        .see(&["value-controls", "term-resonance"]),
    Item::new("value-controls", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Ohm, typical::TRACK)))
        .links(&[To::calculator(&pickup::CALCULATOR)])
        .see(&["value-tone", "value-pickup"]),
    Item::new("value-tone", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Farad, typical::TONE_C)))
        .links(&[To::calculator(&pickup::CALCULATOR)])
        .see(&["value-controls", "value-pickup"]),
    Item::new("value-piezo", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Farad, typical::PIEZO_C)))
        .links(&[To::filled(&whole_line::CALCULATOR, &[Put::answer(SourceKind::Piezo.to(SOURCE))])])
        .see(&["term-piezo", "value-input"]),
    Item::new("value-microphone", &["source-microphone", "source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Ohm, typical::MICROPHONE_R)))
        .links(&[To::filled(&noise_floor::CALCULATOR, &[Put::answer(SourceKind::Microphone.to(SOURCE))])])
        .see(&["value-source", "value-microphone-level"]),
    Item::new("value-input-noise", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::DecibelU, typical::INPUT_NOISE)))
        .links(&[To::calculator(&noise_floor::CALCULATOR)])
        .see(&["term-ein", "term-thermal-noise"]),
    Item::new("value-noise-voltage", &["source-practice", "source-amplifier-noise"])
        .shows(Shown::Table(|print| values(print, Unit::VoltPerRootHertz, typical::NOISE_VOLTAGE)))
        .links(&[To::filled(&noise_floor::CALCULATOR, &[Put::answer(BoxKind::Active.to(BOX))])])
        .see(&["term-noise-density", "value-input-noise"]),
    Item::new("value-turns", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Ratio, typical::TURNS)))
        .links(&[To::calculator(&transformer::CALCULATOR)])
        .see(&["term-turns-ratio", "term-direct-box", "term-isolator"]),
    Item::new("value-box-gain", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Decibel, typical::BOX_GAIN)))
        .links(&[To::filled(&level_chain::CALCULATOR, &[Put::answer(BoxKind::Active.to(BOX))])])
        .see(&["value-pad", "term-direct-box"]),
    Item::new("value-pad", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Decibel, typical::PAD_LOSS)))
        .cautions(&["caution-hearing"])
        .links(&[To::calculator(&pad::CALCULATOR)])
        .see(&["term-pad", "decibel-ratio"]),
    Item::new("value-leg", &["source-practice", "source-microphone"])
        .shows(Shown::Table(|print| values(print, Unit::Ohm, typical::LEG_R)))
        .links(&[To::calculator(&balance::CALCULATOR)])
        .see(&["value-common-mode", "term-common-mode-rejection"]),
    Item::new("value-common-mode", &["source-practice", "source-whitlock"])
        .shows(Shown::Table(|print| values(print, Unit::Ohm, typical::COMMON_MODE_R)))
        .links(&[To::calculator(&balance::CALCULATOR)])
        .see(&["value-leg", "term-common-mode", "phantom-supplies"]),
    Item::new("value-winding", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Farad, typical::WINDING_C)))
        .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(ConnectionKind::Isolated.to(CONNECTION))])])
        .see(&["term-electrostatic-screen", "term-isolator"]),
    Item::new("value-earths", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Volt, typical::EARTH_DIFFERENCE)))
        .cautions(&["caution-earth", "caution-electrician"])
        .links(&[To::calculator(&ground_loop::CALCULATOR)])
        .see(&["term-ground-loop", "term-safety-earth"]),
    Item::new("value-leakage", &["source-practice"])
        .shows(Shown::Table(|print| values(print, Unit::Ampere, typical::LEAKAGE)))
        .cautions(&["caution-earth", "caution-electrician", "caution-rcd"])
        .links(&[To::filled(&ground_loop::CALCULATOR, &[Put::answer(CauseKind::Leakage.to(CAUSE))])])
        .see(&["term-leakage", "term-safety-earth"]),
    Item::new("value-phantom-current", &["source-practice", "source-phantom"])
        .shows(Shown::Table(|print| values(print, Unit::Ampere, typical::PHANTOM_CURRENT)))
        .cautions(&["caution-phantom"])
        .links(&[To::calculator(&phantom::CALCULATOR)])
        .see(&["phantom-supplies", "term-phantom"]),
];

/// What has such a value, the value, and the range of such values where one is
/// known.
fn values(print: &Printer, unit: Unit, marks: &[Mark]) -> Table {
    let ranges = marks.iter().any(|mark| mark.range.is_some());
    let mut columns = vec![print.words_column("what"), print.column("value", unit)];
    if ranges {
        columns.push(print.words_column("range"));
    }
    let rows = marks.iter().map(|mark| {
        let mut row = vec![print.cell(mark.name), print.number(mark.value, unit)];
        if ranges {
            row.push(range(print, mark, unit));
        }
        row
    });
    Table { rows: rows.collect(), columns }
}

fn range(print: &Printer, mark: &Mark, unit: Unit) -> Cell {
    let text = mark.range.map_or_else(String::new, |(from, to)| {
        print.fill("look-up-range", &[("from", Arg::Quantity(from, unit)), ("to", Arg::Quantity(to, unit))])
    });
    Cell::text(text)
}

/// Levels in every unit in which they are spoken of.
fn levels(print: &Printer, marks: &[Mark]) -> Table {
    let mut table = values(print, Unit::Volt, marks);
    let units = [Unit::DecibelU, Unit::DecibelV];
    let named = units.map(|unit| Column { name: unit.symbol().to_owned(), unit: Some(unit) });
    table.columns.splice(2..2, named);
    for (row, mark) in table.rows.iter_mut().zip(marks) {
        let levels = [print.number(dbu(mark.value), Unit::DecibelU), print.number(dbv(mark.value), Unit::DecibelV)];
        row.splice(2..2, levels);
    }
    table
}

/// Inductance and resistance of each kind of pickup.
fn pickups(print: &Printer) -> Table {
    let mut table = values(print, Unit::Henry, typical::COIL_L);
    if let Some(usual) = table.columns.get_mut(1) {
        *usual = print.column("inductance", Unit::Henry);
    }
    table.columns.extend([print.column("resistance", Unit::Ohm), print.words_column("range")]);
    for (row, mark) in table.rows.iter_mut().zip(typical::COIL_R) {
        row.extend([print.number(mark.value, Unit::Ohm), range(print, mark, Unit::Ohm)]);
    }
    table
}
