//! Why something may not be done: one reason each, naming the face and the step.

use super::event::CoatKind;
use super::out_of_sight;
use super::reason::ReasonFor;
use super::schedule::Grit;
use super::stage::Stage;
use crate::coating::ProductKind;
use crate::shape::FaceKey;
use crate::units::counted;
use crate::units::moment::show_span;
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;

/// One reason.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(
    missing_docs,
    reason = "the line above each variant says what its fields are"
)]
pub enum Blocker {
    /// A grit is missing on a face.
    GritMissing { face: FaceKey, grit: Grit },
    /// A coarser grit is missing, so this one cannot be ticked yet.
    GritOrder {
        face: FaceKey,
        grit: Grit,
        first: Grit,
    },
    /// The schedule does not ask this grit of this face.
    GritNotAsked { face: FaceKey, grit: Grit },
    /// The grit is ticked already.
    GritDone { face: FaceKey, grit: Grit },
    /// The grit is not ticked, so nothing can be taken back to it.
    GritNotDone { face: FaceKey, grit: Grit },
    /// A face is not wiped down.
    NotWiped { face: FaceKey },
    /// The wipe-down has not flashed off.
    WipeWet { face: FaceKey, ready: DateTime<Utc> },
    /// A face lacks coats.
    CoatMissing {
        face: FaceKey,
        kind: CoatKind,
        has: u8,
        asked: u8,
    },
    /// A stained face has not been wiped off.
    NotWipedOff { face: FaceKey },
    /// Show side and underside differ too much.
    Balance {
        face: FaceKey,
        has: u8,
        top: u8,
        allowance: u8,
    },
    /// The coat below is not dry to recoat.
    NotDry {
        face: FaceKey,
        coat: CoatKind,
        ready: DateTime<Utc>,
    },
    /// Between two windows: another coat would lift the one below.
    WouldLift { face: FaceKey, ready: DateTime<Utc> },
    /// A touch test found the coat below still soft.
    Soft { face: FaceKey, since: DateTime<Utc> },
    /// The schedule asks for a scuff that was not done.
    NotScuffed { face: FaceKey },
    /// The window was missed and the face not abraded since.
    NotAbraded { face: FaceKey, shut: DateTime<Utc> },
    /// The last coat has not cured long enough to be set.
    NotCured { face: FaceKey, ready: DateTime<Utc> },
    /// The piece stands in another stage than the work belongs to.
    WrongStage { is: Stage, needs: Stage },
    /// A move that leaves out a stage.
    SkipsStage { from: Stage, next: Stage },
    /// The last stage has nothing after it.
    NothingAfter { stage: Stage },
    /// No such face.
    NoFace { face: FaceKey },
    /// A new face that is there already.
    FaceThere { face: FaceKey },
    /// A face given twice.
    FaceTwice { face: FaceKey },
    /// A change of shape that leaves no whole top.
    NotATop,
    /// No face given.
    NoFaces,
    /// The schedule asks no such coat of the face.
    CoatNotAsked { face: FaceKey, kind: CoatKind },
    /// The face carries no coat.
    NoCoat { face: FaceKey },
    /// The face carries coats, so its ticks stand.
    CoatOver { face: FaceKey },
    /// The last coat is not stain waiting to be wiped off.
    NothingToWipeOff { face: FaceKey },
    /// The face had work later than this.
    BeforeLastWork { face: FaceKey, last: DateTime<Utc> },
    /// The work recorded after it is timed earlier than this.
    AfterNextWork {
        face: Option<FaceKey>,
        next: DateTime<Utc>,
    },
    /// The piece came into its stage later than this.
    BeforeMove { stage: Stage, since: DateTime<Utc> },
    /// A pass that ends before it starts.
    EndsBeforeStart,
    /// A time still to come.
    Future { at: DateTime<Utc> },
    /// A reason is asked.
    NoReason { face: FaceKey, what: ReasonFor },
    /// The top is always exposed.
    TopIsExposed,
    /// The declaration stands already, or not at all.
    ExposedAlready { face: FaceKey },
    /// The product is not known.
    NoProduct,
    /// The product is of another kind than the step needs.
    WrongProduct { is: ProductKind, needs: ProductKind },
}

impl Blocker {
    /// The reason in words, times as they read in `zone`.
    #[allow(clippy::too_many_lines, reason = "one arm for each reason")]
    pub fn words(&self, now: DateTime<Utc>, zone: Tz) -> String {
        let when = |at: &DateTime<Utc>| out_of_sight::when(*at, now, zone);
        let until = |at: &DateTime<Utc>| out_of_sight::until(*at, now, zone);
        match self {
            Self::GritMissing { face, grit } | Self::GritNotDone { face, grit } => {
                format!("{face}: {grit} grit not done")
            }
            Self::GritOrder { face, grit, first } => {
                format!("{face}: {first} grit not done, so {grit} cannot be ticked yet")
            }
            Self::GritNotAsked { face, grit } => {
                format!("{face}: the schedule does not ask {grit} grit")
            }
            Self::GritDone { face, grit } => format!("{face}: {grit} grit is ticked already"),
            Self::NotWiped { face } => format!("{face}: not wiped down"),
            Self::WipeWet { face, ready } => {
                format!("{face}: wipe-down not flashed off until {}", until(ready))
            }
            Self::CoatMissing {
                face,
                kind,
                has,
                asked,
            } => coat_missing(*face, *kind, *has, *asked),
            Self::NotWipedOff { face } => format!("{face}: stain not wiped off"),
            Self::Balance {
                face,
                has,
                top,
                allowance,
            } => format!(
                "{face}: {} against {top} on the top; the schedule allows a difference of \
                 {allowance}, since unlike faces take up moisture unlike and may cup",
                counted(usize::from(*has), "film coat", "film coats")
            ),
            Self::NotDry { face, coat, ready } => {
                let (coat, at) = (coat.coat_word(), when(ready));
                if crate::coating::beyond_sight(*ready, now) {
                    return format!("{face}: {coat} dry to recoat {at}, or by a touch test");
                }
                let wait = show_span((*ready - now).max(Duration::zero()));
                format!("{face}: {coat} dry to recoat {at} (in {wait})")
            }
            Self::WouldLift { face, ready } => format!(
                "{face}: the early window has shut and another coat now would lift the one below; \
                 next window opens {}",
                when(ready)
            ),
            Self::Soft { face, since } => {
                format!(
                    "{face}: still soft at the touch test of {}; test again",
                    when(since)
                )
            }
            Self::NotScuffed { face } => format!("{face}: not scuffed since the last coat"),
            Self::NotAbraded { face, shut } => format!(
                "{face}: window shut {}; abrade with fine paper or a pad first",
                when(shut)
            ),
            Self::NotCured { face, ready } => {
                format!("{face}: last coat cures until {}", until(ready))
            }
            Self::WrongStage { is, needs } => {
                format!("the piece is in {is}; this belongs to {needs}")
            }
            Self::SkipsStage { from, next } => format!("after {from} comes {next}"),
            Self::NothingAfter { stage } => format!("{stage} is the last stage"),
            Self::NoFace { face } => format!("{face}: this piece has no such face"),
            Self::FaceThere { face } => format!("{face}: this piece has it already"),
            Self::FaceTwice { face } => format!("{face}: named twice"),
            Self::NotATop => "the change leaves no whole top: a top face, an underside (whole, or \
                              band and field), and a rim or both edges and both ends"
                .to_owned(),
            Self::NoFaces => "no face was picked".to_owned(),
            Self::CoatNotAsked { face, kind } => {
                format!("{face}: the schedule asks no {} here", kind.coat_word())
            }
            Self::NoCoat { face } => format!("{face}: carries no coat"),
            Self::CoatOver { face } => {
                format!("{face}: carries a coat already; sand it back instead, with the reason")
            }
            Self::NothingToWipeOff { face } => format!("{face}: no stain waits to be wiped off"),
            Self::BeforeLastWork { face, last } => {
                format!(
                    "{face}: last worked {}; the time typed lies before that",
                    when(last)
                )
            }
            Self::AfterNextWork { face, next } => {
                let face = face.map_or_else(String::new, |face| format!("{face}: "));
                format!(
                    "{face}what was logged after it is of {}; the time typed lies after that",
                    when(next)
                )
            }
            Self::BeforeMove { stage, since } => format!(
                "the piece came into {stage} {}; the time typed lies before that",
                when(since)
            ),
            Self::EndsBeforeStart => "the pass ends before it starts".to_owned(),
            Self::Future { at } => {
                format!(
                    "{} is still to come; work is logged when it is done",
                    when(at)
                )
            }
            Self::NoReason { face, what } => format!("{face}: {}", what.asks()),
            Self::TopIsExposed => "top: always exposed; it cannot be declared hidden".to_owned(),
            Self::ExposedAlready { face } => format!("{face}: is exposed already"),
            Self::NoProduct => "the product is not on the shelf list".to_owned(),
            Self::WrongProduct { is, needs } => {
                format!(
                    "this step needs a {}; the product is a {}",
                    needs.word(),
                    is.word()
                )
            }
        }
    }

    /// The reason without its face, short, for the board: `left end not sealed`.
    pub fn brief(&self, now: DateTime<Utc>, zone: Tz) -> String {
        match self {
            Self::CoatMissing {
                face,
                kind: CoatKind::Stain,
                ..
            } => format!("{face} not stained"),
            Self::CoatMissing { face, has: 0, .. } => format!("{face} not sealed"),
            Self::CoatMissing {
                face,
                kind,
                has,
                asked,
            } => {
                format!("{face} {} {} of {asked} missing", kind.coat_word(), has + 1)
            }
            Self::Balance { face, has, top, .. } => {
                format!("{face} {has} coats, top {top}: not balanced")
            }
            other => other.words(now, zone),
        }
    }
}

fn coat_missing(face: FaceKey, kind: CoatKind, has: u8, asked: u8) -> String {
    match kind {
        CoatKind::Stain => format!("{face}: stain not done"),
        CoatKind::Seal if has == 0 => format!("{face}: not sealed (seal coat 1 of {asked})"),
        CoatKind::Seal => format!("{face}: seal coat {} of {asked} not done", has + 1),
        CoatKind::Topcoat => format!("{face}: coat {} of {asked} not done", has + 1),
    }
}
