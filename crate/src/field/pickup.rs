//! A passive magnetic pickup with its controls.

use super::{ChoiceField, Field, Values, choice};
use crate::catalogue::tolerance::PartKind;
use crate::catalogue::typical;
use crate::fault::Fault;
use crate::part::{Coils, Pickup, Pot, Taper, ToneControl};
use crate::quantity::Unit;

/// Less than this below the wiper is a volume control at zero, Ω: no contact has
/// less.
const LEAST_VOLUME: f64 = 1e-3;
/// The closest coupling that is computed with.
const MOST_COUPLED: f64 = 0.999;

choice! {
    /// How coils are joined.
    pub(crate) enum CoilsKind {
        /// One coil.
        One = "one",
        /// Two equal coils in series.
        Series = "series",
        /// Two equal coils in parallel.
        Parallel = "parallel",
    }
}

choice! {
    /// How two coils add up.
    pub(crate) enum Phase {
        /// Their voltages add.
        In = "in",
        /// One of them is the other way round.
        Out = "out",
    }
}

choice! {
    /// Whether there is a volume control.
    pub(crate) enum VolumeKind {
        /// There is.
        Fitted = "fitted",
        /// There is none.
        None = "none",
    }
}

choice! {
    /// Where the tone control is.
    pub(crate) enum ToneKind {
        /// Before the volume control, seen from the coil.
        Before = "before",
        /// Behind it.
        After = "after",
        /// There is none.
        None = "none",
    }
}

choice! {
    /// The law of the controls.
    pub(crate) enum TaperKind {
        /// As the rotation.
        Linear = "linear",
        /// A tenth of the track at half a turn.
        Audio = "audio",
    }
}

const TWO: &[&str] = &[CoilsKind::Series.id(), CoilsKind::Parallel.id()];
const FITTED: &[&str] = &[VolumeKind::Fitted.id()];
const TONED: &[&str] = &[ToneKind::Before.id(), ToneKind::After.id()];

/// Inductance of one coil, H.
pub(crate) const COIL_L: Field =
    Field::number("coil_l", "L_P", Unit::Henry, 2.5, (1.0, 10.0)).limits(1e-6, 1e3).marks(typical::COIL_L).at("source");
/// Resistance of one coil, Ω.
pub(crate) const COIL_R: Field = Field::number("coil_r", "R_P", Unit::Ohm, 6.5e3, (1e3, 20e3))
    .limits(0.0, 1e6)
    .marks(typical::COIL_R)
    .part(PartKind::Winding)
    .at("source");
/// Winding capacitance of one coil, F.
pub(crate) const COIL_C: Field = Field::number("coil_c", "C_W", Unit::Farad, 110e-12, (50e-12, 200e-12))
    .limits(1e-15, 1e-6)
    .bare(1e-12)
    .at("source");
/// Loss resistance parallel to the inductance of one coil, Ω.
pub(crate) const COIL_LOSS: Field = Field::blank("coil_loss", "R_W", Unit::Ohm, (100e3, 10e6))
    .limits(1.0, 1e12)
    .part(PartKind::Winding)
    .detail()
    .at("source");
/// How coils are joined.
pub(crate) const COILS: ChoiceField<CoilsKind> = CoilsKind::field("coils", CoilsKind::One).detail().at("source");
/// Coupling of two coils.
pub(crate) const COUPLING: Field =
    Field::number("coupling", "k", Unit::One, 0.0, (0.0, 0.8)).limits(0.0, 10.0).when(COILS, TWO).detail().at("source");
/// How two coils add up.
pub(crate) const PHASE: ChoiceField<Phase> = Phase::field("phase", Phase::In).when(COILS, TWO).detail().at("source");
/// Whether there is a volume control.
pub(crate) const VOLUME: ChoiceField<VolumeKind> =
    VolumeKind::field("volume", VolumeKind::Fitted).detail().at("controls");
/// Track of the volume control, Ω.
pub(crate) const VOLUME_R: Field = Field::number("volume_r", "R_V", Unit::Ohm, 250e3, (100e3, 1e6))
    .limits(1.0, 1e9)
    .marks(typical::TRACK)
    .part(PartKind::Track)
    .when(VOLUME, FITTED)
    .detail()
    .at("controls");
/// Rotation of the volume control, 0 to 1.
pub(crate) const VOLUME_TURN: Field =
    Field::number("volume_turn", "x_V", Unit::Percent, 1.0, (0.0, 1.0)).when(VOLUME, FITTED).at("controls");
/// Where the tone control is.
pub(crate) const TONE: ChoiceField<ToneKind> = ToneKind::field("tone", ToneKind::Before).detail().at("controls");
/// Track of the tone control, Ω.
pub(crate) const TONE_R: Field = Field::number("tone_r", "R_T", Unit::Ohm, 250e3, (100e3, 1e6))
    .limits(0.0, 1e9)
    .marks(typical::TRACK)
    .part(PartKind::Track)
    .when(TONE, TONED)
    .detail()
    .at("controls");
/// Capacitor of the tone control, F.
pub(crate) const TONE_C: Field = Field::number("tone_c", "C_T", Unit::Farad, 22e-9, (10e-9, 100e-9))
    .limits(1e-12, 1e-3)
    .bare(1e-9)
    .marks(typical::TONE_C)
    .when(TONE, TONED)
    .detail()
    .at("controls");
/// Rotation of the tone control, 0 to 1.
pub(crate) const TONE_TURN: Field =
    Field::number("tone_turn", "x_T", Unit::Percent, 1.0, (0.0, 1.0)).when(TONE, TONED).at("controls");
/// The law of the controls.
pub(crate) const TAPER: ChoiceField<TaperKind> = TaperKind::field("taper", TaperKind::Audio).detail().at("controls");

/// All of a pickup and its controls.
pub(crate) const PICKUP: [Field; 15] = [
    COIL_L,
    COIL_R,
    COIL_C,
    COIL_LOSS,
    COILS.field(),
    COUPLING,
    PHASE.field(),
    VOLUME.field(),
    VOLUME_R,
    VOLUME_TURN,
    TONE.field(),
    TONE_R,
    TONE_C,
    TONE_TURN,
    TAPER.field(),
];

/// The pickup.
pub(crate) fn pickup(values: &Values) -> Result<Pickup, Fault> {
    let coupling = values.number(COUPLING)?;
    let (volume, tone) = (volume(values)?, tone(values)?);
    // No field is shared more than wholly, and wholly only without any leakage.
    if coupling > MOST_COUPLED {
        return Err(COUPLING.fault("fault-coupling"));
    }
    Ok(Pickup {
        r: values.number(COIL_R)?,
        l: values.number(COIL_L)?,
        c: values.number(COIL_C)?,
        loss: values.optional(COIL_LOSS)?,
        coils: match values.choice(COILS)? {
            CoilsKind::One => Coils::One,
            CoilsKind::Series => Coils::Series,
            CoilsKind::Parallel => Coils::Parallel,
        },
        coupling: match values.choice(PHASE)? {
            Phase::In => coupling,
            Phase::Out => -coupling,
        },
        volume,
        tone,
    })
}

/// The volume control, if there is one.
fn volume(values: &Values) -> Result<Option<Pot>, Fault> {
    if values.choice(VOLUME)? == VolumeKind::None {
        return Ok(None);
    }
    let pot = Pot { r: values.number(VOLUME_R)?, turn: values.number(VOLUME_TURN)?, taper: taper(values)? };
    if pot.taper.share(pot.turn) * pot.r < LEAST_VOLUME {
        return Err(VOLUME_TURN.fault("fault-volume-zero"));
    }
    Ok(Some(pot))
}

/// The tone control, if there is one.
fn tone(values: &Values) -> Result<Option<ToneControl>, Fault> {
    let before_volume = match values.choice(TONE)? {
        ToneKind::Before => true,
        ToneKind::After => false,
        ToneKind::None => return Ok(None),
    };
    let pot = Pot { r: values.number(TONE_R)?, turn: values.number(TONE_TURN)?, taper: taper(values)? };
    Ok(Some(ToneControl { pot, c: values.number(TONE_C)?, before_volume }))
}

fn taper(values: &Values) -> Result<Taper, Fault> {
    Ok(match values.choice(TAPER)? {
        TaperKind::Linear => Taper::Linear,
        TaperKind::Audio => Taper::Audio,
    })
}
