//! Which step a piece waits for: the first thing that still stands between it and the next stage.

use super::blocker::Blocker;
use super::check::Gates;
use super::event::{CoatKind, SetItem, TouchVerdict};
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
    let soft = ticket.faces.iter().find_map(|face| {
        let coat = face.last_coat()?;
        let (at, verdict) = coat.touch?;
        // What was found before the piece was finished was known then.
        let news = verdict == TouchVerdict::StillSoft && ticket.finished.is_none_or(|end| at > end);
        news.then(|| Waiting::TestAgain {
            kind: coat.kind,
            no: face.count(coat.kind),
            of: ticket.asked(face, coat.kind),
        })
    });
    if let Some(soft) = soft {
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
    let due = ticket.due_faces(kind);
    let Some(first) = due.first().and_then(|key| ticket.face(*key)) else {
        return move_on(ticket, gates, now);
    };
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
        return Waiting::Held { why };
    }
    step
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
    let (mut soft, mut scuff) = (false, false);
    for face in &faces {
        let Some(coat) = face.last_coat() else {
            let ready = gates.wipe_ready(ticket, face).filter(|ready| now < *ready);
            flashes = flashes.max(ready);
            continue;
        };
        soft |= matches!(coat.touch, Some((_, TouchVerdict::StillSoft)));
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
