//! Which step a piece waits for: the first thing that still stands between it and the next stage.

use super::blocker::Blocker;
use super::check::Gates;
use super::event::{CoatKind, SetItem};
use super::face_state::FaceState;
use super::stage::Stage;
use super::ticket::Ticket;
use super::waits::Waiting;
use crate::coating::Recoat;
use crate::shape::{FaceGroup, FaceKey};
use chrono::{DateTime, Utc};

/// What a piece waits for at the moment `now`.
pub fn waiting(ticket: &Ticket, gates: &Gates<'_>, now: DateTime<Utc>) -> Waiting {
    match ticket.stage {
        Stage::Sanding => sanding(ticket, gates, now),
        Stage::Set => set(ticket, gates, now),
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

fn set(ticket: &Ticket, gates: &Gates<'_>, now: DateTime<Utc>) -> Waiting {
    // What was found before the piece was finished was known then.
    let news = |at| ticket.finished.is_none_or(|end| at > end);
    if let Some(soft) = soft(ticket, gates, now, news) {
        return soft;
    }
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
    coat_due(ticket, gates, kind, now).unwrap_or_else(|| move_on(ticket, gates, now))
}

/// The coat that a last coat found soft by a touch test waits to be tested for, where the test is
/// `news`: of several the one to be tested last.
fn soft(
    ticket: &Ticket,
    gates: &Gates<'_>,
    now: DateTime<Utc>,
    news: impl Fn(DateTime<Utc>) -> bool,
) -> Option<Waiting> {
    let tested = |face: &&FaceState| {
        let touch = face.last_coat().and_then(|coat| coat.touch);
        touch.is_some_and(|(at, _)| news(at))
    };
    let (again, face) = ticket
        .faces
        .iter()
        .filter(tested)
        .filter_map(|face| Some((gates.test_again(face)?, face)))
        .max_by_key(|(again, _)| *again)?;
    let coat = face.last_coat()?;
    Some(Waiting::TestAgain {
        kind: coat.kind,
        no: face.count(coat.kind),
        of: ticket.asked(face, coat.kind),
        again: Some(again).filter(|again| now < *again),
    })
}

/// What the next coat of a kind waits for; none where none is due.
fn coat_due(
    ticket: &Ticket,
    gates: &Gates<'_>,
    kind: CoatKind,
    now: DateTime<Utc>,
) -> Option<Waiting> {
    let due = ticket.due_faces(kind);
    let first = due.first().and_then(|key| ticket.face(*key))?;
    let no = first.count(kind) + 1;
    let of = due
        .iter()
        .filter_map(|key| ticket.face(*key))
        .map(|face| ticket.asked(face, kind))
        .max()
        .unwrap_or(no);
    let step = next_coat(ticket, gates, kind, &due, no, of, now);
    // Where it dries the clock has the word; where a hand is wanted, say what was left out.
    let wants_hand = matches!(step, Waiting::Lay { .. } | Waiting::Scuff);
    if wants_hand && left_behind(ticket, kind, &due, no) {
        let why = Blocker::CoatMissing {
            face: first.key,
            kind,
            has: first.count(kind),
            asked: ticket.asked(first, kind),
        };
        return Some(Waiting::Held { why });
    }
    Some(step)
}

/// Whether these faces were left behind: all the show faces have what they are asked for, this
/// coat among it, and these have not. (Ends that are asked for a coat more than the show faces
/// are not behind while that one is to come.)
fn left_behind(ticket: &Ticket, kind: CoatKind, due: &[FaceKey], no: u8) -> bool {
    let mut show = ticket
        .faces
        .iter()
        .filter(|face| face.group == FaceGroup::Show && ticket.asked(face, kind) > 0)
        .peekable();
    show.peek().is_some()
        && due.iter().all(|key| key.group() != FaceGroup::Show)
        && show.all(|face| face.count(kind) >= ticket.asked(face, kind).max(no))
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
    let mut flashes: Option<DateTime<Utc>> = None;
    let mut dry: Option<(DateTime<Utc>, CoatKind)> = None;
    let mut lifts: Option<DateTime<Utc>> = None;
    let mut shut: Option<DateTime<Utc>> = None;
    let mut soft: Option<DateTime<Utc>> = None;
    let mut scuff = false;
    for face in &faces {
        let Some(coat) = face.last_coat() else {
            let ready = gates.wipe_ready(ticket, face).filter(|ready| now < *ready);
            flashes = flashes.max(ready);
            continue;
        };
        soft = soft.max(gates.test_again(face));
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
    if let Some(ready) = flashes {
        return Waiting::FlashOff { ready };
    }
    if let Some(again) = soft {
        let again = Some(again).filter(|again| now < *again);
        return Waiting::TestAgain {
            kind,
            no,
            of,
            again,
        };
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
        return set(ticket, gates, now);
    };
    let blockers = gates.blockers_to_next(ticket, now);
    let cure = blockers
        .iter()
        .filter_map(|blocker| match blocker {
            Blocker::NotCured { ready, .. } => Some(*ready),
            _ => None,
        })
        .max();
    let time_heals = |why: &Blocker| matches!(why, Blocker::NotCured { .. } | Blocker::Soft { .. });
    if let Some(why) = blockers.iter().find(|why| !time_heals(why)) {
        return Waiting::Held { why: why.clone() };
    }
    let is_soft = |why: &Blocker| matches!(why, Blocker::Soft { .. });
    if blockers.iter().any(is_soft)
        && let Some(soft) = soft(ticket, gates, now, |_| true)
    {
        return soft;
    }
    if let Some(ready) = cure {
        return Waiting::Cure { ready };
    }
    // The board lets a piece go on while its coat is wet; the next coat has to wait all the same.
    let step = CoatKind::of_stage(to).and_then(|kind| coat_due(ticket, gates, kind, now));
    let waits = |step: &Waiting| {
        matches!(
            step,
            Waiting::FlashOff { .. }
                | Waiting::Dry { .. }
                | Waiting::NextWindow { .. }
                | Waiting::TestAgain { .. }
                | Waiting::Abrade { .. }
        )
    };
    Waiting::MoveOn {
        to,
        then: step.filter(waits).map(Box::new),
    }
}
