//! Which film speaks for a piece: the one its line on the Rack shows and a touch test is of.

use super::blocker::Blocker;
use super::check::Gates;
use super::event::CoatKind;
use super::face_state::FaceState;
use super::next_step::waiting;
use super::ticket::Ticket;
use super::waits::Waiting;
use crate::coating::Recoat;
use crate::shape::FaceKey;
use chrono::{DateTime, Utc};

/// The face whose last coat decides for a piece that waits like this: the one the words speak of,
/// of several the youngest. Where they speak of none, the youngest coat of the piece.
pub fn deciding<'a>(
    ticket: &'a Ticket,
    gates: &Gates<'_>,
    waits: &Waiting,
    now: DateTime<Utc>,
) -> Option<&'a FaceState> {
    let step = waits.step();
    let kind = match step {
        Waiting::Abrade { kind, .. }
        | Waiting::Dry { kind, .. }
        | Waiting::NextWindow { kind, .. }
        | Waiting::Lay { kind, .. } => Some(*kind),
        Waiting::Scuff => CoatKind::of_stage(ticket.stage),
        _ => None,
    };
    let due = kind.map_or_else(Vec::new, |kind| ticket.due_faces(kind));
    let recoat = |face: &FaceState| gates.recoat(face, now);
    let meant = |face: &FaceState| match step {
        Waiting::Held {
            why: Blocker::CoatMissing { face: behind, .. },
        } => face.key == *behind,
        Waiting::Abrade { shut, .. } => {
            due.contains(&face.key) && gates.wants_abrading(face, now) == Some(*shut)
        }
        Waiting::Dry { ready, .. } => {
            due.contains(&face.key)
                && matches!(recoat(face), Some(Recoat::Wait { ready: at }) if at == *ready)
        }
        Waiting::NextWindow { ready, .. } => {
            due.contains(&face.key)
                && matches!(recoat(face), Some(Recoat::Lifts { ready: at, .. }) if at == *ready)
        }
        Waiting::TestAgain { again, .. } => gates
            .test_again(face)
            .is_some_and(|at| again.is_none_or(|again| at == again)),
        Waiting::Cure { ready } => gates.cured_at(ticket, face) == Some(*ready),
        Waiting::Lay { .. } | Waiting::Scuff => due.contains(&face.key),
        _ => false,
    };
    let youngest = |faces: &mut dyn Iterator<Item = &'a FaceState>| {
        faces
            .filter_map(|face| Some((face.last_coat()?.dries_from(), face)))
            .max_by_key(|(at, _)| *at)
            .map(|(_, face)| face)
    };
    youngest(&mut ticket.faces.iter().filter(|face| meant(face)))
        .or_else(|| youngest(&mut ticket.faces.iter()))
}

/// The faces that carry the film of the piece's line on the Rack: the deciding face, and those
/// whose last coat is of the same pass. A touch test is of these unless faces are named: what
/// was laid another day, or of another product, was not touched.
pub fn film_faces(ticket: &Ticket, gates: &Gates<'_>, now: DateTime<Utc>) -> Vec<FaceKey> {
    let waits = waiting(ticket, gates, now);
    let pass = |face: &FaceState| face.last_coat().map(|coat| coat.pass);
    let Some(film) = deciding(ticket, gates, &waits, now).and_then(pass) else {
        return Vec::new();
    };
    let carries = ticket.faces.iter().filter(|face| pass(face) == Some(film));
    carries.map(|face| face.key).collect()
}
