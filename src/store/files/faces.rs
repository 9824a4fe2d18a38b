//! Which faces a line of the log means, and that faces come and go as the piece's shape says.

use super::error::Fault;
use super::log::{Act, Entry, Faces};
use super::passes;
use crate::shape::FaceKey;
use crate::shop::{Coat, CoatKind, Event, EventId, FaceState, PieceFile, Ticket, What};

/// The lines that changed the shape, which the ticket wants to know before the first line.
pub(super) fn reshapes(entries: &[Entry]) -> Vec<Event> {
    let reshaped = |entry: &Entry| {
        let (Act::Reshaped { removed }, Faces::These(added)) = (&entry.act, &entry.faces) else {
            return None;
        };
        let what = What::Reshaped {
            added: added.clone(),
            removed: removed.clone(),
        };
        Some(Event {
            id: EventId(uuid::Uuid::nil()),
            at: entry.at,
            what,
        })
    };
    entries.iter().filter_map(reshaped).collect()
}

/// The faces that a line means.
pub(super) fn meant(
    ticket: &Ticket,
    entry: &Entry,
    passes: &[passes::Read],
) -> Result<Vec<FaceKey>, Fault> {
    let pick = |wanted: &dyn Fn(&FaceState) -> bool| {
        ticket
            .faces
            .iter()
            .filter(|face| wanted(face))
            .map(|face| face.key)
            .collect()
    };
    let due_for = |kind: CoatKind| ticket.due_faces(kind);
    match (&entry.faces, &entry.act) {
        (Faces::These(keys), _) => Ok(keys.clone()),
        (
            _,
            Act::Untick(_)
            | Act::SandBack { .. }
            | Act::NotExposed { .. }
            | Act::Exposed
            | Act::Reshaped { .. },
        ) => {
            let why = "name the faces by their codes here.".to_owned();
            Err(Fault::Value { what: "faces", why })
        }
        (Faces::All, _) => Ok(pick(&|_| true)),
        (Faces::Due, Act::Tick(grit)) => Ok(pick(&|face| {
            ticket.plan(face).grits.contains(grit) && !face.ticks.contains_key(grit)
        })),
        (Faces::Due, Act::Wipe) => Ok(pick(&|face| face.wiped.is_none() && face.coats.is_empty())),
        (Faces::Due, Act::Coat { pass, .. }) => Ok(passes
            .get(*pass)
            .map_or(Vec::new(), |read| due_for(read.pass.kind))),
        (Faces::Due, Act::WipeOff) => Ok(pick(&|face| {
            let stain = |coat: &Coat| coat.kind == CoatKind::Stain && coat.wiped_off.is_none();
            face.last_coat().is_some_and(stain)
        })),
        (Faces::Due, Act::Scuff(_)) => {
            let due = CoatKind::of_stage(ticket.stage).map_or(Vec::new(), due_for);
            Ok(pick(&|face| {
                due.contains(&face.key) && !face.coats.is_empty()
            }))
        }
        (Faces::Due, Act::Touch(_)) => Ok(pick(&|face| !face.coats.is_empty())),
        (Faces::Due, Act::Moved { .. } | Act::SetList { .. }) => Ok(Vec::new()),
    }
}

/// Faces can only come that are not there (or go in the same breath: they are cut anew), and go
/// that are.
pub(super) fn reshaped(
    ticket: &Ticket,
    called: &str,
    added: &[FaceKey],
    removed: &[FaceKey],
) -> Result<(), Fault> {
    let there = |key: &FaceKey| ticket.face(*key).is_some();
    let came = added
        .iter()
        .find(|key| there(key) && !removed.contains(key))
        .map(|key| format!("{key} is added and is there"));
    let went = removed
        .iter()
        .find(|key| !there(key))
        .map(|key| format!("{key} is taken off and is not there"));
    match came.or(went) {
        Some(detail) => Err(Fault::Faces {
            piece: called.to_owned(),
            detail,
        }),
        None if added.is_empty() && removed.is_empty() => {
            let why = "a reshape adds or removes a face.".to_owned();
            Err(Fault::Value { what: "faces", why })
        }
        None => Ok(()),
    }
}

/// The log must end at the faces that the piece has: else a face could be written away.
pub(super) fn all_faces(ticket: &Ticket, file: &PieceFile, called: &str) -> Result<(), Fault> {
    let now: Vec<FaceKey> = file
        .piece
        .shape
        .faces(file.piece.construction)
        .iter()
        .map(|face| face.key)
        .collect();
    let lost = now.iter().find(|key| ticket.face(**key).is_none());
    let extra = ticket
        .faces
        .iter()
        .map(|face| face.key)
        .find(|key| !now.contains(key));
    let detail = match (lost, extra) {
        (Some(key), _) => format!("the {key} is on the piece, and the log took it off"),
        (None, Some(key)) => format!("the {key} is in the log, and not on the piece"),
        (None, None) => return Ok(()),
    };
    Err(Fault::Faces {
        piece: called.to_owned(),
        detail,
    })
}
