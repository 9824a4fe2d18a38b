//! What lies below a coat to come: coats on the wood or planned, and what they hold back.

use super::todo::{After, Before, Lag};
use super::todo_walk::Walk;
use crate::coating::Recoat;
use crate::shape::FaceKey;
use crate::shop::event::CoatKind;
use crate::shop::face_state::{Coat, FaceState};
use crate::shop::schedule::WipeDown;
use chrono::{DateTime, Utc};

impl Walk<'_, '_> {
    /// What lies under the faces due for a coat, and what that asks.
    pub(super) fn below(&mut self, kind: CoatKind, due: &[FaceKey]) -> Below {
        let mut below = Below::default();
        for key in due {
            let Some(face) = self.ticket.face(*key).cloned() else {
                continue;
            };
            match (face.last_coat(), self.last.get(key).copied()) {
                (Some(coat), Some(at)) => {
                    below.add(Before::Todo(at), Lag::Recoat(coat.product), None);
                    let by_schedule = self.ticket.schedule.scuff.is_some()
                        && coat.kind == CoatKind::Topcoat
                        && kind == CoatKind::Topcoat;
                    let by_label = coat.kind.is_film()
                        && self
                            .gates
                            .product(coat.product)
                            .and_then(|product| product.label.windows.first())
                            .is_some_and(|window| window.scuff);
                    if by_schedule || by_label {
                        below.scuffs.push(*key);
                    }
                }
                (Some(coat), None) => self.on_the_wood(kind, &face, coat, &mut below),
                (None, _) => {
                    if let Some(at) = self.wiped
                        && let WipeDown::With(product) = self.ticket.schedule.wipe_down
                    {
                        below.add(Before::Todo(at), Lag::Flash(product), None);
                    }
                    let real = self.wiped.is_none();
                    let ready = self.gates.wipe_ready(&self.ticket, &face);
                    below.ready = below.ready.max(ready.filter(|_| real));
                }
            }
        }
        below
    }

    /// What a coat that is on the wood already asks of the next.
    fn on_the_wood(&mut self, kind: CoatKind, face: &FaceState, coat: &Coat, below: &mut Below) {
        let place = self.laid(coat);
        let ready = match self.gates.recoat(face, self.now) {
            Some(Recoat::Wait { ready } | Recoat::Lifts { ready, .. }) => Some(ready),
            _ => None,
        };
        below.ready = below.ready.max(ready);
        let at = ready.unwrap_or(self.now).max(self.now);
        if self.gates.wants_abrading(face, at).is_some() {
            below.scuffs.push(face.key);
            below.abrades = true;
            below.add(Before::Laid(place), Lag::Order, None);
            return;
        }
        if self.gates.wants_scuff(&self.ticket, face, kind, at) {
            below.scuffs.push(face.key);
        }
        let shuts = match self.gates.recoat(face, at) {
            Some(Recoat::Open { shuts, .. }) => shuts,
            _ => None,
        };
        below.add(Before::Laid(place), Lag::Order, shuts);
    }
}

/// What lies under faces due for a coat.
#[derive(Default)]
pub(super) struct Below {
    pub(super) after: Vec<After>,
    pub(super) ready: Option<DateTime<Utc>>,
    pub(super) scuffs: Vec<FaceKey>,
    pub(super) abrades: bool,
}

impl Below {
    pub(super) fn add(&mut self, from: Before, lag: Lag, shuts: Option<DateTime<Utc>>) {
        let known = self
            .after
            .iter_mut()
            .find(|after| after.from == from && after.lag == lag);
        match known {
            Some(after) => after.shuts = [after.shuts, shuts].into_iter().flatten().min(),
            None => self.after.push(After { from, lag, shuts }),
        }
    }
}
