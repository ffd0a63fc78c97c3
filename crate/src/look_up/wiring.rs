//! Plugs and sockets, and wirings between them, as the catalogue keeps them.

use super::entry::{At, Connection, Contact, End, Face, FaceContact, Leg, Open, Shape, Wiring};
use super::item::Printer;
use crate::quantity::{SHOWN, Unit, write};
use crate::words::Arg;

/// A plug or socket with its contacts in the order in which wirings show them.
/// Its name is the message `connector-<id>`; the name of a contact is
/// `contact-<id>`; what stands on it, where that is shorter, `contact-<id>.short`.
pub(super) struct Connector {
    pub id: &'static str,
    pub contacts: &'static [&'static str],
    /// As whoever solders it sees it, if it is soldered to a lead.
    pub solder: Option<Drawn>,
}

/// A plug or socket as it is drawn. Its name is the message `face-<id>`.
pub(super) struct Drawn {
    pub id: &'static str,
    pub shape: Shape,
    /// Contacts with their places across and down from the middle.
    pub contacts: &'static [(&'static str, [f64; 2])],
}

/// A plug or socket in a wiring. Its place is the message `place-<id>`.
pub(super) struct Plugged {
    pub connector: &'static Connector,
    pub place: &'static str,
    /// Whether the signal leaves there.
    pub far: bool,
}

/// A contact of a wiring: the place of its end, its identifier.
pub(super) type Spot = (usize, &'static str);

/// What is wired. The role of a conductor is the message `role-<id>`.
pub(super) struct Wired {
    pub ends: &'static [Plugged],
    pub joins: &'static [Join],
    pub open: &'static [Spot],
}

/// A conductor from one contact to another.
pub(super) struct Join {
    pub from: Spot,
    pub to: Spot,
    pub role: &'static str,
    pub shield: bool,
    /// Whether it ends before the contact that it goes to.
    pub cut: bool,
    /// The resistor in it, Ω.
    pub resistor: Option<f64>,
}

impl Join {
    /// A core of the lead.
    pub(super) const fn core(from: Spot, to: Spot, role: &'static str) -> Self {
        Self { from, to, role, shield: false, cut: false, resistor: None }
    }

    /// The shield of the lead.
    pub(super) const fn shield(from: Spot, to: Spot, role: &'static str) -> Self {
        Self { from, to, role, shield: true, cut: false, resistor: None }
    }

    /// A bridge between two contacts of one plug.
    pub(super) const fn bridge(end: usize, from: &'static str, to: &'static str) -> Self {
        Self { from: (end, from), to: (end, to), role: "bridge", shield: false, cut: false, resistor: None }
    }

    /// The same, ending before the contact that it goes to.
    pub(super) const fn cut(mut self) -> Self {
        self.cut = true;
        self
    }

    /// The same with a resistor in it, Ω.
    pub(super) const fn through(mut self, resistor: f64) -> Self {
        self.resistor = Some(resistor);
        self
    }
}

impl Plugged {
    /// Where the signal comes from.
    pub(super) const fn near(connector: &'static Connector, place: &'static str) -> Self {
        Self { connector, place, far: false }
    }

    /// Where the signal goes.
    pub(super) const fn far(connector: &'static Connector, place: &'static str) -> Self {
        Self { connector, place, far: true }
    }
}

impl Drawn {
    pub(super) fn face(&self, print: &Printer) -> Face {
        let contact = |(id, at): &(&'static str, [f64; 2])| {
            let key = format!("contact-{id}");
            let name = print.word(&key);
            let label = print.words.pattern(&key, "short").unwrap_or(&name).to_owned();
            FaceContact { id, name, label, at: *at }
        };
        Face {
            name: print.word(&format!("face-{}", self.id)),
            shape: self.shape,
            contacts: self.contacts.iter().map(contact).collect(),
        }
    }
}

impl Wired {
    pub(super) fn wiring(&self, print: &Printer) -> Wiring {
        let end = |plugged: &Plugged| End {
            name: print.word(&format!("connector-{}", plugged.connector.id)),
            place: print.word(&format!("place-{}", plugged.place)),
            far: plugged.far,
            face: plugged.connector.solder.as_ref().map(|drawn| drawn.face(print)),
            contacts: plugged
                .connector
                .contacts
                .iter()
                .map(|id| Contact { id, name: print.word(&format!("contact-{id}")) })
                .collect(),
        };
        Wiring {
            ends: self.ends.iter().map(end).collect(),
            connections: self.joins.iter().map(|join| self.connection(join, print)).collect(),
            open: self
                .open
                .iter()
                .map(|spot| Open {
                    at: at(*spot),
                    role: print.word("role-open"),
                    text: print.fill("wiring-open", &[("contact", Arg::Text(self.named(*spot, print)))]),
                })
                .collect(),
        }
    }

    fn connection(&self, join: &Join, print: &Printer) -> Connection {
        let role = print.word(&format!("role-{}", join.role));
        let through = join.resistor.map(|resistor| write(resistor, Unit::Ohm, SHOWN, print.settings));
        let key = match (&through, join.cut) {
            (_, true) => "wiring-cut",
            (Some(_), _) => "wiring-through",
            (None, _) => "wiring-joined",
        };
        let text = print.fill(
            key,
            &[
                ("from", Arg::Text(self.named(join.from, print))),
                ("to", Arg::Text(self.named(join.to, print))),
                ("role", Arg::Text(role.clone())),
                ("through", Arg::Text(through.clone().unwrap_or_default())),
            ],
        );
        let leg = leg(join.role);
        Connection {
            from: at(join.from),
            to: at(join.to),
            shield: join.shield,
            cut: join.cut,
            leg,
            role,
            through,
            text,
        }
    }

    /// A contact with the place of its end, in words.
    fn named(&self, (end, contact): Spot, print: &Printer) -> String {
        let place = self.ends.get(end).map_or("", |plugged| plugged.place);
        print.fill(
            "wiring-contact",
            &[("contact", Arg::Key(format!("contact-{contact}"))), ("place", Arg::Key(format!("place-{place}")))],
        )
    }
}

/// The leg of a conductor of this role, if it is one.
fn leg(role: &str) -> Option<Leg> {
    match role {
        "signal" | "in-phase" | "left-in-phase" => Some(Leg::Hot),
        "return" | "right-return" | "return-shorted" | "return-grounded" => Some(Leg::Cold),
        _ => None,
    }
}

fn at((end, contact): Spot) -> At {
    At { end, contact }
}
