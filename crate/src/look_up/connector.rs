//! Plugs and sockets.
//!
//! XLR: IEC 61076-2-103, wired by AES14; jack: IEC 60603-11; phono: IEC
//! 60603-14 (all from memory). What the contacts of a jack carry is common
//! practice.

use super::entry::{Cell, Shape, Table};
use super::item::{Item, Printer, Shown, To};
use super::wiring::{Connector, Drawn};
use crate::calculator::{lead_length, phantom};

pub(super) const XLR_FEMALE: Connector = Connector { id: "xlr-female", contacts: XLR, solder: Some(XLR_FEMALE_BEHIND) };
pub(super) const XLR_MALE: Connector = Connector { id: "xlr-male", contacts: XLR, solder: Some(XLR_MALE_BEHIND) };
pub(super) const JACK_2: Connector =
    Connector { id: "jack-2", contacts: &["tip", "sleeve"], solder: Some(JACK_2_SIDE) };
pub(super) const JACK_3: Connector =
    Connector { id: "jack-3", contacts: &["tip", "ring", "sleeve"], solder: Some(JACK_3_SIDE) };
pub(super) const JACK_3_SOCKET: Connector =
    Connector { id: "jack-3-socket", contacts: &["tip", "ring", "sleeve"], solder: None };
pub(super) const MINI_JACK_3: Connector =
    Connector { id: "mini-jack-3", contacts: &["tip", "ring", "sleeve"], solder: Some(JACK_3_SIDE) };
pub(super) const PHONO: Connector =
    Connector { id: "phono", contacts: &["centre", "outer"], solder: Some(PHONO_BEHIND) };

// The legs beside each other and the shield last, as in a jack.
const XLR: &[&str] = &["pin-2", "pin-3", "pin-1"];

// The places of the contacts are from memory.
const XLR_FACES: &[Drawn] = &[
    Drawn {
        id: "xlr-male",
        shape: Shape::Pins,
        contacts: &[("pin-1", [-0.45, -0.2]), ("pin-2", [0.45, -0.2]), ("pin-3", [0.0, 0.5])],
    },
    Drawn {
        id: "xlr-female",
        shape: Shape::Holes,
        contacts: &[("pin-1", [0.45, -0.2]), ("pin-2", [-0.45, -0.2]), ("pin-3", [0.0, 0.5])],
    },
];
const JACK_2_SIDE: Drawn =
    Drawn { id: "jack-2", shape: Shape::Plug, contacts: &[("tip", [-1.0, 0.0]), ("sleeve", [1.0, 0.0])] };
const JACK_2_FACE: &[Drawn] = &[JACK_2_SIDE];
const JACK_3_SIDE: Drawn = Drawn {
    id: "jack-3",
    shape: Shape::Plug,
    contacts: &[("tip", [-1.0, 0.0]), ("ring", [0.0, 0.0]), ("sleeve", [1.0, 0.0])],
};
const JACK_3_FACE: &[Drawn] = &[JACK_3_SIDE];
const PHONO_PLACES: &[(&str, [f64; 2])] = &[("centre", [0.0, 0.0]), ("outer", [0.0, 0.72])];
const PHONO_FACE: &[Drawn] = &[Drawn { id: "phono", shape: Shape::Coaxial, contacts: PHONO_PLACES }];

// From where one solders left and right change places.
const XLR_MALE_BEHIND: Drawn = Drawn {
    id: "xlr-male-solder",
    shape: Shape::Holes,
    contacts: &[("pin-1", [0.45, -0.2]), ("pin-2", [-0.45, -0.2]), ("pin-3", [0.0, 0.5])],
};
const XLR_FEMALE_BEHIND: Drawn = Drawn {
    id: "xlr-female-solder",
    shape: Shape::Holes,
    contacts: &[("pin-1", [-0.45, -0.2]), ("pin-2", [0.45, -0.2]), ("pin-3", [0.0, 0.5])],
};
const PHONO_BEHIND: Drawn = Drawn { id: "phono-solder", shape: Shape::Coaxial, contacts: PHONO_PLACES };

pub(super) static ITEMS: &[Item] = &[
    Item::new("xlr", &["source-xlr", "source-aes48"])
        .shows(Shown::Faces(XLR_FACES, |print| carried(print, &["balanced", "unbalanced"], XLR_CARRIES)))
        .links(&[To::calculator(&phantom::CALCULATOR)])
        .see(&["lead-xlr", "adaptor-xlr-jack", "term-balanced"]),
    Item::new("jack-three-pole", &["source-jack"])
        .shows(Shown::Faces(JACK_3_FACE, |print| carried(print, &["balanced", "stereo", "insert"], JACK_3_CARRIES)))
        .see(&["lead-jack-balanced", "adaptor-insert", "adaptor-stereo-in-balanced"]),
    Item::new("jack-two-pole", &["source-jack"])
        .shows(Shown::Faces(JACK_2_FACE, |print| carried(print, &["unbalanced"], COAXIAL_CARRIES)))
        .links(&[To::calculator(&lead_length::CALCULATOR)])
        .see(&["lead-jack", "adaptor-two-pole-in-balanced-output"]),
    Item::new("mini-jack", &["source-jack"])
        .shows(Shown::Faces(JACK_3_FACE, |print| carried(print, &["stereo"], STEREO_CARRIES)))
        .see(&["adaptor-mini-jack-two", "adaptor-stereo-mono"]),
    Item::new("phono-plug", &["source-phono"])
        .shows(Shown::Faces(PHONO_FACE, |print| carried(print, &["unbalanced"], PHONO_CARRIES)))
        .see(&["lead-phono"]),
    Item::new("combined-receptacle", &["source-trade"]).cautions(&["caution-phantom"]).see(&[
        "xlr",
        "jack-three-pole",
        "term-phantom",
    ]),
];

/// A contact, and what it carries in each use, as keys of messages.
type Carries = &'static [(&'static str, &'static [&'static str])];

const XLR_CARRIES: Carries = &[
    ("pin-1", &["role-shield", "role-common"]),
    ("pin-2", &["role-in-phase", "role-signal"]),
    ("pin-3", &["role-return", "role-joined-to-1"]),
];
const JACK_3_CARRIES: Carries = &[
    ("tip", &["role-in-phase", "role-left", "role-send"]),
    ("ring", &["role-return", "role-right", "role-back"]),
    ("sleeve", &["role-shield", "role-common", "role-common"]),
];
const STEREO_CARRIES: Carries = &[("tip", &["role-left"]), ("ring", &["role-right"]), ("sleeve", &["role-common"])];
const COAXIAL_CARRIES: Carries = &[("tip", &["role-signal"]), ("sleeve", &["role-common"])];
const PHONO_CARRIES: Carries = &[("centre", &["role-signal"]), ("outer", &["role-common"])];

fn carried(print: &Printer, uses: &[&str], carries: Carries) -> Table {
    let columns = std::iter::once(&"contact").chain(uses).map(|id| print.words_column(id)).collect();
    let rows = carries
        .iter()
        .map(|(contact, roles)| {
            let name = Cell::text(print.word(&format!("contact-{contact}")));
            std::iter::once(name).chain(roles.iter().map(|role| print.cell(role))).collect()
        })
        .collect();
    Table { columns, rows }
}
