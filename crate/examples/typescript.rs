//! Writes the contract in TypeScript to the file that is named, so that the types
//! of the page, and what it has to know of every question, follow from the core.

use stageohm::answer::{Answer, Backwards, FoundText, Question, Wanted};
use stageohm::ask::{
    ChoiceDescription, Constants, Cure, Description, DrawCount, Echo, Entry, FieldDescription, MarkDescription,
    NumberDescription, OptionDescription, PlotSpread, Prefix, PresetDescription, PrintedUnit, Problem, ReadingSpread,
    Spread, SpreadKind, SpreadStep, Tolerances, TraceSpread, Translation, Varied,
};
use stageohm::diagnosis::{
    CauseOdds, FaultAnswer, FaultFigure, FaultQuestion, Found, GivenAnswer, KnownCause, NextStep, PlanNode, SlipTold,
    Sound, StepOutcome,
};
use stageohm::lesson::{
    Best, Case, Dealt, DealtStep, Doubt, Eye, EyeRow, Finding, Heard as EarHeard, Key, Lesson, LessonFlaw, LessonRig,
    LessonStep, Limit, Marked, MarkedRow, Measured, Part as DrawerPart, Range, ReadLesson, Response, Seen as EarSeen,
    SeriesName, Side as EarSide, Source as EarSource, StepCheck, Variant, Way, WayGiven,
};
use stageohm::listen::{
    Family, FamilyLikelihood, Heard, HeardBursts, HeardFile, HeardLine, HeardMains, HeardTone, Through,
};
use stageohm::look_up::{
    At, Cell, Column, Connection, Contact, End, Face, FaceContact, Leg, LookUpEntry, LookUpKind, Open, SeeAlso, Shape,
    Table, Wiring,
};
use stageohm::quantity::Unit;
use stageohm::report::{
    Axis, Band, Because, Candidate, Diagram, Earth, EarthLoop, HumLine, Link, Marker, Part, PartSymbol, Plot, Reading,
    Reason, Report, RigSound, Tone, Trace, Verdict,
};
use stageohm::seek::{Sought, SoughtFilling, SoughtValue};
use stageohm::settings::{Decimal, Language, Length, Mains, Settings};
use stageohm::stage::ground::Ends;
use stageohm::stage::map::{
    GroundMap, InputAt, Isolate, LeftOut, MapBackwards, MapInput, MapIsolation, MapLoop, MapPlace, MapWire, MapWorking,
    NotCounted, PlaceKind, Stands, WireKind,
};
use stageohm::stage::{
    Carried, Circuit, Decoded, Dialect, Equipment, EquipmentPower, Figure, FigureKind, Gear, GearKind, InputLine,
    LeadCount, LeadMade, LeadNeed, LeadPlace, Link as StageLink, LinkCount, LinkKind, PartCount, PhantomChoice,
    PhantomFrom, PhantomTotal, PieceCount, Proposal, ReadLines, ReadShow, Row, RowCure, Separator, Shortage, Show,
    SolvedShow, SplitCount, SplitKind, Suggestion, Told, Totals,
};
use stageohm::working::Step;
use std::process::ExitCode;
use ts_rs::{Config, TS};

macro_rules! declarations {
    ($config:expr, $($name:ty),* $(,)?) => { vec![$(<$name>::decl($config)),*] };
}

#[allow(clippy::too_many_lines, reason = "a list")]
fn main() -> ExitCode {
    let Some(path) = std::env::args().nth(1) else {
        eprintln!("name the file to write");
        return ExitCode::FAILURE;
    };
    let config = Config::default();
    let declarations = declarations!(
        &config,
        Question,
        Wanted,
        Tolerances,
        Entry,
        Answer,
        Backwards,
        FoundText,
        Cure,
        RowCure,
        FaultQuestion,
        GivenAnswer,
        KnownCause,
        Sound,
        FaultAnswer,
        CauseOdds,
        NextStep,
        StepOutcome,
        SlipTold,
        Found,
        FaultFigure,
        PlanNode,
        Heard,
        HeardFile,
        HeardMains,
        HeardLine,
        HeardTone,
        HeardBursts,
        Family,
        FamilyLikelihood,
        Through,
        Translation,
        Sought,
        SoughtFilling,
        SoughtValue,
        Spread,
        SpreadKind,
        SpreadStep,
        Varied,
        ReadingSpread,
        PlotSpread,
        TraceSpread,
        Echo,
        Problem,
        Report,
        Reading,
        Verdict,
        Tone,
        Plot,
        Axis,
        Trace,
        Marker,
        Band,
        Step,
        Link,
        Because,
        Candidate,
        Reason,
        Diagram,
        RigSound,
        HumLine,
        Part,
        PartSymbol,
        Earth,
        EarthLoop,
        Description,
        FieldDescription,
        NumberDescription,
        MarkDescription,
        ChoiceDescription,
        OptionDescription,
        PresetDescription,
        LookUpEntry,
        LookUpKind,
        SeeAlso,
        Table,
        Column,
        Cell,
        Face,
        Shape,
        FaceContact,
        Wiring,
        End,
        Contact,
        At,
        Connection,
        Leg,
        Open,
        Unit,
        Settings,
        Decimal,
        Length,
        Mains,
        Language,
        Constants,
        PrintedUnit,
        Prefix,
        DrawCount,
        Show,
        Gear,
        GearKind,
        Circuit,
        Equipment,
        EquipmentPower,
        StageLink,
        LinkKind,
        Ends,
        InputLine,
        Carried,
        SplitKind,
        PhantomFrom,
        PhantomChoice,
        Dialect,
        Separator,
        ReadShow,
        Decoded,
        ReadLines,
        Told,
        SolvedShow,
        Row,
        Figure,
        FigureKind,
        Totals,
        PartCount,
        LeadCount,
        PieceCount,
        LeadPlace,
        LeadNeed,
        LeadMade,
        LinkCount,
        SplitCount,
        PhantomTotal,
        Proposal,
        Suggestion,
        Shortage,
        GroundMap,
        MapPlace,
        PlaceKind,
        MapWire,
        WireKind,
        MapInput,
        InputAt,
        MapLoop,
        MapIsolation,
        Isolate,
        LeftOut,
        NotCounted,
        MapWorking,
        Stands,
        MapBackwards,
        Lesson,
        LessonRig,
        LessonStep,
        Range,
        SeriesName,
        Limit,
        DrawerPart,
        Case,
        WayGiven,
        Best,
        Variant,
        ReadLesson,
        LessonFlaw,
        Dealt,
        DealtStep,
        EarHeard,
        EarSeen,
        EarSide,
        EarSource,
        Eye,
        EyeRow,
        Way,
        Response,
        Marked,
        MarkedRow,
        Key,
        Finding,
        Measured,
        StepCheck,
        Doubt,
    );
    let constants = match serde_json::to_string(&Constants::all()) {
        Ok(json) => format!("export const constants: Constants = {json}\n"),
        Err(error) => {
            eprintln!("the constants cannot be written: {error}");
            return ExitCode::FAILURE;
        }
    };
    let text: String = std::iter::once("// Written by `cargo run --example typescript`; do not edit.\n".to_owned())
        .chain(declarations.into_iter().map(|declaration| format!("export {declaration}\n")))
        .chain([constants])
        .collect();
    match std::fs::write(&path, text) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{path} cannot be written: {error}");
            ExitCode::FAILURE
        }
    }
}
