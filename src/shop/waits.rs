//! What a piece waits for, in words.

use super::blocker::Blocker;
use super::check::Gates;
use super::event::{CoatKind, SetItem};
use super::schedule::Grit;
use super::stage::Stage;
use super::ticket::{FaceState, Ticket};
use crate::coating::Recoat;
use crate::shape::{FaceGroup, FaceKey};
use crate::units::moment::{show_date, show_moment};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// How a piece shows on the board, besides its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shows {
    /// A hand is wanted now.
    Ready,
    /// A recoat window was missed.
    Missed,
    /// Held: something was left out.
    Held,
    /// Drying: nothing to do before a known moment.
    Drying,
    /// Set, and its list finished.
    Done,
}

impl Shows {
    /// One word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ready => "ready",
            Self::Missed => "missed",
            Self::Held => "held",
            Self::Drying => "drying",
            Self::Done => "done",
        }
    }
}

/// What a piece waits for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Waiting {
    /// A grit on some faces.
    Grit { grit: Grit, done: usize, of: usize },
    /// The wipe-down.
    WipeDown { done: usize, of: usize },
    /// The wipe-down's solvent to leave.
    FlashOff { ready: DateTime<Utc> },
    /// Nothing more here: move it along.
    MoveOn { to: Stage },
    /// A coat: so many faces done of those due.
    Lay {
        kind: CoatKind,
        no: u8,
        of: u8,
        done: usize,
        faces: usize,
    },
    /// The coat below to dry.
    Dry {
        kind: CoatKind,
        no: u8,
        of: u8,
        below: CoatKind,
        ready: DateTime<Utc>,
    },
    /// The next window to open: a coat between would lift the film.
    NextWindow {
        kind: CoatKind,
        no: u8,
        of: u8,
        ready: DateTime<Utc>,
    },
    /// A touch test found it soft.
    TestAgain { kind: CoatKind, no: u8, of: u8 },
    /// A scuff.
    Scuff,
    /// A missed window: abrade first.
    Abrade {
        kind: CoatKind,
        no: u8,
        of: u8,
        shut: DateTime<Utc>,
    },
    /// Stain to be wiped off.
    WipeOff { faces: usize },
    /// Something left out.
    Held { why: Blocker },
    /// The last coat to cure.
    Cure { ready: DateTime<Utc> },
    /// The set list.
    SetList { done: usize, of: usize },
    /// Finished.
    Finished { at: DateTime<Utc> },
}

impl Waiting {
    /// In words, as the board says it.
    pub fn words(&self, now: DateTime<Utc>, zone: Tz) -> String {
        let when = |at: &DateTime<Utc>| show_moment(*at, now, zone);
        match self {
            Self::Grit { grit, done, of } => format!("{grit} grit: {done} of {of} faces"),
            Self::WipeDown { done, of } => format!("wipe down: {done} of {of} faces"),
            Self::FlashOff { ready } => format!("wipe-down flashes off {}", when(ready)),
            Self::MoveOn { to } => format!("ready to move to {to}"),
            Self::Lay {
                kind,
                no,
                of,
                done: 0,
                ..
            } => format!("{}: ready", coat(*kind, *no, *of)),
            Self::Lay {
                kind,
                no,
                of,
                done,
                faces,
            } => {
                format!("{}: {done} of {faces} faces", coat(*kind, *no, *of))
            }
            Self::Dry {
                kind,
                no,
                of,
                below: CoatKind::Stain,
                ready,
            } => {
                format!("{}: stain dry {}", coat(*kind, *no, *of), when(ready))
            }
            Self::Dry {
                kind,
                no,
                of,
                ready,
                ..
            } => {
                format!("{}: dry to recoat {}", coat(*kind, *no, *of), when(ready))
            }
            Self::NextWindow {
                kind,
                no,
                of,
                ready,
            } => {
                format!(
                    "{}: would lift, next window {}",
                    coat(*kind, *no, *of),
                    when(ready)
                )
            }
            Self::TestAgain { kind, no, of } => {
                format!("{}: still soft, test again", coat(*kind, *no, *of))
            }
            Self::Scuff => "ready to scuff".to_owned(),
            Self::Abrade { kind, no, of, shut } => {
                format!(
                    "{}: window shut {}, abrade first",
                    coat(*kind, *no, *of),
                    when(shut)
                )
            }
            Self::WipeOff { faces } => format!("wipe off the stain: {faces} faces"),
            Self::Held { why } => format!("held: {}", why.brief(now, zone)),
            Self::Cure { ready } => format!("cures until {}", when(ready)),
            Self::SetList { done, of } => format!("set list: {done} of {of}"),
            Self::Finished { at } => {
                let today = now.with_timezone(&zone).date_naive();
                format!(
                    "set {}",
                    show_date(at.with_timezone(&zone).date_naive(), today)
                )
            }
        }
    }

    /// How it shows.
    pub fn shows(&self) -> Shows {
        match self {
            Self::Grit { .. }
            | Self::WipeDown { .. }
            | Self::MoveOn { .. }
            | Self::Lay { .. }
            | Self::Scuff
            | Self::TestAgain { .. }
            | Self::WipeOff { .. }
            | Self::SetList { .. } => Shows::Ready,
            Self::Abrade { .. } => Shows::Missed,
            Self::Held { .. } => Shows::Held,
            Self::FlashOff { .. }
            | Self::Dry { .. }
            | Self::NextWindow { .. }
            | Self::Cure { .. } => Shows::Drying,
            Self::Finished { .. } => Shows::Done,
        }
    }

    /// The moment it waits for, if that is known.
    pub fn until(&self) -> Option<DateTime<Utc>> {
        match self {
            Self::FlashOff { ready }
            | Self::Dry { ready, .. }
            | Self::NextWindow { ready, .. }
            | Self::Cure { ready } => Some(*ready),
            _ => None,
        }
    }
}

fn coat(kind: CoatKind, no: u8, of: u8) -> String {
    match kind {
        CoatKind::Stain if of <= 1 => "stain".to_owned(),
        _ => format!("{} {no} of {of}", kind.coat_word()),
    }
}

/// What a piece waits for at the moment `now`.
pub fn waiting(ticket: &Ticket, gates: &Gates<'_>, now: DateTime<Utc>) -> Waiting {
    match ticket.stage {
        Stage::Sanding => sanding(ticket, gates, now),
        Stage::Set => set(ticket),
        stage => match CoatKind::of_stage(stage) {
            Some(kind) => coating(ticket, gates, kind, now),
            None => move_on(ticket, gates, now),
        },
    }
}

fn sanding(ticket: &Ticket, gates: &Gates<'_>, now: DateTime<Utc>) -> Waiting {
    for grit in ticket.grits() {
        let asked: Vec<&FaceState> = ticket
            .faces
            .iter()
            .filter(|face| ticket.plan(face).grits.contains(&grit))
            .collect();
        let done = asked
            .iter()
            .filter(|face| face.ticks.contains_key(&grit))
            .count();
        if done < asked.len() {
            return Waiting::Grit {
                grit,
                done,
                of: asked.len(),
            };
        }
    }
    if ticket.schedule.asks_wipe_down() {
        let bare: Vec<&FaceState> = ticket
            .faces
            .iter()
            .filter(|face| face.coats.is_empty())
            .collect();
        let done = bare.iter().filter(|face| face.wiped.is_some()).count();
        if done < bare.len() {
            return Waiting::WipeDown {
                done,
                of: bare.len(),
            };
        }
    }
    move_on(ticket, gates, now)
}

fn set(ticket: &Ticket) -> Waiting {
    match ticket.finished {
        Some(at) => Waiting::Finished { at },
        None => Waiting::SetList {
            done: ticket.set_list.len(),
            of: SetItem::ALL.len(),
        },
    }
}

fn coating(ticket: &Ticket, gates: &Gates<'_>, kind: CoatKind, now: DateTime<Utc>) -> Waiting {
    if kind == CoatKind::Stain {
        let wet = ticket
            .faces
            .iter()
            .filter(|face| {
                face.last_coat()
                    .is_some_and(|coat| coat.kind == CoatKind::Stain && coat.wiped_off.is_none())
            })
            .count();
        if wet > 0 {
            return Waiting::WipeOff { faces: wet };
        }
    }
    let due = ticket.due_faces(kind);
    let Some(first) = due.first().and_then(|key| ticket.face(*key)) else {
        return move_on(ticket, gates, now);
    };
    let show_wants = due.iter().any(|key| key.group() == FaceGroup::Show);
    let no = first.count(kind) + 1;
    let of = due
        .iter()
        .filter_map(|key| ticket.face(*key))
        .map(|face| ticket.asked(face, kind))
        .max()
        .unwrap_or(no);
    let show_asks = ticket
        .faces
        .iter()
        .any(|face| face.group == FaceGroup::Show && ticket.asked(face, kind) > 0);
    let show_done = ticket
        .faces
        .iter()
        .filter(|face| face.group == FaceGroup::Show)
        .all(|face| face.count(kind) >= ticket.asked(face, kind));
    // All the show faces have what they are asked for, so the rest was left behind.
    if !show_wants && show_asks && show_done {
        let why = Blocker::CoatMissing {
            face: first.key,
            kind,
            has: first.count(kind),
            asked: ticket.asked(first, kind),
        };
        return Waiting::Held { why };
    }
    next_coat(ticket, gates, kind, &due, no, of, now)
}

fn next_coat(
    ticket: &Ticket,
    gates: &Gates<'_>,
    kind: CoatKind,
    due: &[FaceKey],
    no: u8,
    of: u8,
    now: DateTime<Utc>,
) -> Waiting {
    let faces: Vec<&FaceState> = due.iter().filter_map(|key| ticket.face(*key)).collect();
    let mut dry: Option<(DateTime<Utc>, CoatKind)> = None;
    let mut lifts: Option<DateTime<Utc>> = None;
    let mut shut: Option<DateTime<Utc>> = None;
    let (mut soft, mut scuff) = (false, false);
    for face in &faces {
        let Some(coat) = face.last_coat() else {
            if let Some(ready) = gates.wipe_ready(ticket, face).filter(|ready| now < *ready) {
                return Waiting::FlashOff { ready };
            }
            continue;
        };
        soft |= matches!(coat.touch, Some((_, super::event::TouchVerdict::StillSoft)));
        match gates.recoat(face, now) {
            Some(Recoat::Wait { ready }) => {
                dry = Some(dry.map_or((ready, coat.kind), |was| was.max((ready, coat.kind))));
            }
            Some(Recoat::Lifts { ready, .. }) => {
                lifts = Some(lifts.map_or(ready, |was| was.max(ready)));
            }
            _ => {}
        }
        if let Some(since) = gates.wants_abrading(face, now) {
            shut = Some(shut.map_or(since, |was| was.min(since)));
        }
        scuff |= gates.wants_scuff(ticket, face, kind, now);
    }
    if soft {
        return Waiting::TestAgain { kind, no, of };
    }
    if let Some((ready, below)) = dry {
        return Waiting::Dry {
            kind,
            no,
            of,
            below,
            ready,
        };
    }
    if let Some(ready) = lifts {
        return Waiting::NextWindow {
            kind,
            no,
            of,
            ready,
        };
    }
    if let Some(shut) = shut {
        return Waiting::Abrade { kind, no, of, shut };
    }
    if scuff {
        return Waiting::Scuff;
    }
    let want = ticket
        .faces
        .iter()
        .filter(|face| ticket.asked(face, kind) >= no)
        .count();
    Waiting::Lay {
        kind,
        no,
        of,
        done: want - faces.len().min(want),
        faces: want,
    }
}

fn move_on(ticket: &Ticket, gates: &Gates<'_>, now: DateTime<Utc>) -> Waiting {
    let Some(to) = ticket.schedule.next_stage(ticket.stage) else {
        return set(ticket);
    };
    let blockers = gates.blockers_to_next(ticket, now);
    let cure = blockers
        .iter()
        .filter_map(|blocker| match blocker {
            Blocker::NotCured { ready, .. } => Some(*ready),
            _ => None,
        })
        .max();
    match (
        blockers
            .iter()
            .find(|blocker| !matches!(blocker, Blocker::NotCured { .. })),
        cure,
    ) {
        (Some(why), _) => Waiting::Held { why: why.clone() },
        (None, Some(ready)) => Waiting::Cure { ready },
        (None, None) => Waiting::MoveOn { to },
    }
}
