//! The gates between the stages: what must be done before a piece goes on, face by face.

use super::blocker::Blocker;
use super::check::{Gates, Strictness};
use super::event::CoatKind;
use super::face_state::FaceState;
use super::stage::Stage;
use super::ticket::Ticket;
use crate::shape::{FaceGroup, FaceKey};
use chrono::{DateTime, Utc};

impl Gates<'_> {
    /// Every reason why the piece may not go on to the next stage that asks something.
    pub fn blockers_to_next(&self, ticket: &Ticket, now: DateTime<Utc>) -> Vec<Blocker> {
        let mut out = Vec::new();
        match ticket.schedule.next_stage(ticket.stage) {
            Some(to) => self.check_move(ticket, ticket.stage, to, now, &mut out),
            None => out.push(Blocker::NothingAfter {
                stage: ticket.stage,
            }),
        }
        out
    }

    pub(super) fn check_move(
        &self,
        ticket: &Ticket,
        from: Stage,
        to: Stage,
        at: DateTime<Utc>,
        out: &mut Vec<Blocker>,
    ) {
        if from != ticket.stage {
            out.push(Blocker::WrongStage {
                is: ticket.stage,
                needs: from,
            });
        }
        if to <= from {
            return;
        }
        match ticket.schedule.next_stage(from) {
            Some(next) if next != to => out.push(Blocker::SkipsStage { from, next }),
            _ => {}
        }
        // Every gate on the way to `to` is asked again, whatever stage the piece says it is in.
        for face in &ticket.faces {
            grits_missing(ticket, face, out);
            if ticket.schedule.asks_wipe_down() && face.wiped.is_none() && face.coats.is_empty() {
                out.push(Blocker::NotWiped { face: face.key });
            }
        }
        for kind in CoatKind::ALL {
            if to > kind.stage() {
                coats_missing(ticket, kind, out);
            }
        }
        if to == Stage::Set {
            balance(ticket, out);
            if self.strictness == Strictness::Live {
                self.cured(ticket, at, out);
            }
        }
    }
}

pub(super) fn grits_missing(ticket: &Ticket, face: &FaceState, out: &mut Vec<Blocker>) {
    for grit in &ticket.plan(face).grits {
        if !face.ticks.contains_key(grit) {
            out.push(Blocker::GritMissing {
                face: face.key,
                grit: *grit,
            });
        }
    }
}

fn coats_missing(ticket: &Ticket, kind: CoatKind, out: &mut Vec<Blocker>) {
    for face in &ticket.faces {
        let (has, asked) = (face.count(kind), ticket.asked(face, kind));
        if has < asked {
            out.push(Blocker::CoatMissing {
                face: face.key,
                kind,
                has,
                asked,
            });
        }
        let unwiped = face
            .last_coat()
            .is_some_and(|coat| coat.kind == CoatKind::Stain && coat.wiped_off.is_none());
        if kind == CoatKind::Stain && unwiped {
            out.push(Blocker::NotWipedOff { face: face.key });
        }
    }
}

/// The underside (its band and field) against the top: film coats that face the room's air on
/// one side and the cabinet's on the other.
fn balance(ticket: &Ticket, out: &mut Vec<Blocker>) {
    let Some(top) = ticket.face(FaceKey::Top).map(FaceState::film_coats) else {
        return;
    };
    let allowance = ticket.schedule.balance_allowance;
    for face in &ticket.faces {
        let below = face.group == FaceGroup::Underside || face.key == FaceKey::Band;
        let has = face.film_coats();
        if below && face.is_exposed() && top.abs_diff(has) > allowance {
            out.push(Blocker::Balance {
                face: face.key,
                has,
                top,
                allowance,
            });
        }
    }
}
