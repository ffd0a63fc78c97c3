//! The ground map of a show as it is drawn and told.

use crate::named::Named;
use crate::stage::ground::Ends;
use crate::stage::show::{EquipmentPower, Gear, LinkKind};
use crate::working::Step;
use serde::{Deserialize, Serialize};

/// The ground map of a show, solved.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct GroundMap {
    /// What stands on the map; wires name them by their place.
    pub places: Vec<MapPlace>,
    /// What joins them; inputs and loops name them by their place.
    pub wires: Vec<MapWire>,
    /// The inputs that something may hum at, the worst first.
    pub inputs: Vec<MapInput>,
    /// The loops, the one that makes most hum first.
    pub loops: Vec<MapLoop>,
    /// How many loops there are that do not follow from others.
    pub loop_count: usize,
    /// The cheapest that open every loop.
    pub every_loop: MapIsolation,
    /// The cheapest that bring every input under its limit.
    pub every_limit: MapIsolation,
    /// What has to be seen to before anything is plugged, in the reader's words.
    pub stops: Vec<String>,
    /// What could not be put on the map, in the reader's words, by line.
    pub left_out: Vec<LeftOut>,
    /// What is not counted between stage boxes and consoles, each pair once.
    pub not_counted: Vec<NotCounted>,
    /// Why the map could not be solved, in the reader's words; it has no currents then.
    pub problem: Option<String>,
}

/// What a place on the map is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum PlaceKind {
    /// The earth of a circuit.
    Circuit,
    /// Equipment.
    Equipment,
    /// A box, or a bare joint, where leads of one line meet.
    Joint,
}

/// A place on the map.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapPlace {
    /// What it is.
    pub kind: PlaceKind,
    /// The circuit, the equipment, or the line that it belongs to.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The circuit that it is on; empty where it is on none.
    pub circuit: String,
    /// How it is powered; nothing where it is no equipment.
    pub power: Option<EquipmentPower>,
    /// From its ground to the earth of the venue, all components together, V.
    pub volts: f64,
    /// What its supply leaks, A; nothing where it does not.
    pub leaks: Option<f64>,
    /// Whether nothing joins it to any earth.
    pub floating: bool,
}

/// What a wire on the map is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum WireKind {
    /// The protective earth of equipment. It is never opened.
    Earth,
    /// A rack or other metalwork. It is never opened.
    Metalwork,
    /// All of a line from its source to the input, or what of it goes on from a joint.
    Line,
    /// The lead from the source of a line to its joint.
    Lead,
    /// The lead from the joint of a line to an amplifier.
    Thru,
    /// What joins a second console to a line.
    Split,
    /// A lead that is in no line.
    Link,
}

/// What joins two places.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapWire {
    /// What it is.
    pub kind: WireKind,
    /// The places at its ends.
    pub ends: [usize; 2],
    /// The line, or the link, that it belongs to; empty for an earth.
    pub id: String,
    /// What it is called: the channel and name of its line, the name of the link.
    pub name: String,
    /// What a link is; nothing where it is none.
    pub link: Option<LinkKind>,
    /// How its shield ends.
    pub shield: Ends,
    /// Resistance, Ω; nothing where no current can flow.
    pub ohms: Option<f64>,
    /// Through it, all components together, A.
    pub amperes: f64,
    /// What it costs to isolate it; nothing where that cannot or may not be.
    pub cost: Option<f64>,
}

/// Which input of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum InputAt {
    /// That of the console or the stage box.
    Console,
    /// That of the amplifier on the thru.
    Amplifier,
}

impl InputAt {
    /// The readings of them all.
    pub(crate) const READINGS: [&str; 2] = [Self::Console.reading(), Self::Amplifier.reading()];

    /// The reading of the whole line that says how far its signal is from hum.
    pub(crate) const fn reading(self) -> &'static str {
        match self {
            Self::Console => "signal_to_hum",
            Self::Amplifier => "amplifier_hum",
        }
    }
}

/// The hum at an input.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapInput {
    /// The line.
    pub line: String,
    /// What the line is called.
    pub name: String,
    /// Which of its inputs.
    pub at: InputAt,
    /// The wire that ends there.
    pub wire: usize,
    /// A-weighted, V.
    pub volts: f64,
    /// From the signal to that, dB; nothing where nothing hums.
    pub distance: Option<f64>,
    /// What that is held against, dB.
    pub limit: Option<f64>,
    /// Whether it misses that.
    pub over: bool,
    /// The loop that does most of it.
    pub by: Option<usize>,
    /// Of each component of the mains, by frequency, V, not weighted.
    pub components: Vec<(f64, f64)>,
}

/// A loop.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapLoop {
    /// Its wires, in order around.
    pub wires: Vec<usize>,
    /// The inputs that it makes hum, the worst first.
    pub inputs: Vec<usize>,
    /// The most that flows in one of its shields, all components together, A.
    pub amperes: f64,
}

/// A set of wires to isolate.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapIsolation {
    /// The wires, each with what to do in the reader's words.
    pub isolate: Vec<Isolate>,
    /// What they cost together.
    pub cost: f64,
    /// The signal over the hum at each input before and after, dB, in the order of the
    /// inputs; nothing where nothing hums.
    pub distances: Vec<(Option<f64>, Option<f64>)>,
    /// The inputs that miss their limits even then.
    pub over: Vec<usize>,
    /// The wires of loops that isolation does not open, for they have to stay.
    pub stay: Vec<usize>,
    /// Whether nothing cheaper does it, or only nothing cheaper was found.
    pub proved: bool,
    /// How many sets were tried.
    pub sets: usize,
    /// What is enough for the inputs that are left, once that is done, in the reader's words:
    /// first the cures of their rows. Not looked for where every loop is opened.
    pub cures: Vec<String>,
    /// What else helps the rest, in the reader's words; empty where nothing is left.
    pub beyond: Vec<String>,
    /// What the drawer is short of for it, in the reader's words.
    pub short: Vec<String>,
}

/// A wire to isolate.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Isolate {
    /// The wire.
    pub wire: usize,
    /// What to do, in the reader's words.
    pub what: String,
    /// Whether that is the ground lift of a box that is there.
    pub lift: bool,
    /// Whether that is a transformer in the place of a direct split.
    pub split: bool,
    /// How the shield of a link ends then; nothing where it is none.
    pub ends: Option<Ends>,
    /// The box or isolator on the line then; empty where there is none.
    pub gear: String,
    /// That, where the drawer does not know it yet.
    pub made: Option<Gear>,
    /// The line's own values then; nothing where they stay.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string> | null"))]
    pub values: Option<Named<String>>,
}

/// A line that is not on the map.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LeftOut {
    /// The line.
    pub line: String,
    /// Why.
    pub why: String,
}

/// What is not counted between a stage box and its console.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct NotCounted {
    /// The stage box.
    pub stage_box: String,
    /// The console.
    pub console: String,
    /// What is not counted, in the reader's words.
    pub what: String,
    /// Whether that is how they are joined, which a link between them answers.
    pub asks: bool,
}

/// How the hum at one input comes about.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapWorking {
    /// The component that counts most, Hz.
    pub frequency: f64,
    /// Step by step, the last of which is the hum of that component; empty where
    /// nothing hums.
    pub steps: Vec<Step>,
}

/// What of a circuit's difference an input can stand.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Stands {
    /// None: with nothing there it misses its limit, for other causes.
    Nothing,
    /// Up to this, V.
    UpTo(f64),
    /// Any that nobody has to be kept from touching.
    Anything,
}

/// Which voltage between earths makes an input just miss its limit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MapBackwards {
    /// The circuit whose difference was looked for.
    pub circuit: String,
    /// What of it the input can stand, the others unchanged.
    pub stands: Stands,
    /// What it is now, V.
    pub now: f64,
}
