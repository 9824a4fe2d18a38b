//! Drying as the gates ask it: dry to recoat, scuffed, abraded, flashed off, cured.

use super::blocker::Blocker;
use super::check::{Gates, Strictness};
use super::event::{CoatKind, TouchVerdict};
use super::face_state::{Coat, FaceState};
use super::id::PassId;
use super::schedule::WipeDown;
use super::ticket::Ticket;
use crate::coating::{DryingClock, Recoat, look_again, recoat_state};
use chrono::{DateTime, Duration, Utc};
use std::collections::HashMap;

/// Per pass, how much longer its film takes to the next coat (see
/// [`crate::coating::film_factor`]); passes at the label's spread, or not measured, are not in it.
pub type Films = HashMap<PassId, f64>;

impl Gates<'_> {
    /// Asks the clock about one coat, its film taken into account.
    pub fn of_coat<T>(&self, coat: &Coat, ask: impl FnOnce(&dyn DryingClock) -> T) -> T {
        let k = self.thickness(coat);
        match (k > 1.0).then(|| self.clock.for_film(k)).flatten() {
            Some(clock) => ask(clock.as_ref()),
            None => ask(self.clock),
        }
    }

    /// Film factor of a coat: 1 unless its pass was measured and went on thicker than the label's.
    pub fn thickness(&self, coat: &Coat) -> f64 {
        let k = self.films.and_then(|films| films.get(&coat.pass));
        k.copied().unwrap_or(1.0)
    }

    /// Whether the schedule or the open window asks for a scuff not yet done.
    pub fn wants_scuff(
        &self,
        ticket: &Ticket,
        face: &FaceState,
        next: CoatKind,
        at: DateTime<Utc>,
    ) -> bool {
        let Some(last) = face.last_coat().filter(|last| last.scuffed.is_none()) else {
            return false;
        };
        let by_schedule = ticket.schedule.scuff.is_some()
            && last.kind == CoatKind::Topcoat
            && next == CoatKind::Topcoat;
        by_schedule
            || matches!(
                self.recoat(face, at),
                Some(Recoat::Open { scuff: true, .. })
            ) && last.kind.is_film()
    }

    /// When the window shut, if it has and the face was not abraded since.
    pub fn wants_abrading(&self, face: &FaceState, at: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let Some(Recoat::Missed { since }) = self.recoat(face, at) else {
            return None;
        };
        let abraded = face
            .last_coat()?
            .scuffed
            .is_some_and(|(when, means)| when >= since && means.abrades());
        (!abraded).then_some(since)
    }

    /// Recoat state of a face's last coat.
    pub fn recoat(&self, face: &FaceState, at: DateTime<Utc>) -> Option<Recoat> {
        let coat = face.last_coat()?;
        let product = self.product(coat.product)?;
        Some(self.of_coat(coat, |clock| {
            recoat_state(clock, product, coat.dries_from(), coat.recoat_tested, at)
        }))
    }

    /// When to test a face's last coat again, if a touch test found it still soft: not before the
    /// clock has it dry to recoat.
    pub fn test_again(&self, face: &FaceState) -> Option<DateTime<Utc>> {
        let coat = face.last_coat()?;
        let (at, TouchVerdict::StillSoft) = coat.touch? else {
            return None;
        };
        let laid = coat.dries_from();
        let ready = self.product(coat.product).and_then(|product| {
            let opens = product.label.windows.first()?.opens;
            Some(self.of_coat(coat, |clock| clock.reached(product, laid, opens)))
        });
        Some(look_again(laid, at, ready.unwrap_or(at)))
    }

    /// The coat below must be dry to recoat, by the clock or by a touch test.
    pub(super) fn below_dry(&self, face: &FaceState, at: DateTime<Utc>, out: &mut Vec<Blocker>) {
        if self.strictness == Strictness::Record {
            return;
        }
        let Some(coat) = face.last_coat() else { return };
        if let Some((since, TouchVerdict::StillSoft)) = coat.touch {
            out.push(Blocker::Soft {
                face: face.key,
                since,
            });
            return;
        }
        match self.recoat(face, at) {
            Some(Recoat::Wait { ready }) => {
                out.push(Blocker::NotDry {
                    face: face.key,
                    coat: coat.kind,
                    ready,
                });
            }
            Some(Recoat::Lifts { ready, .. }) => {
                out.push(Blocker::WouldLift {
                    face: face.key,
                    ready,
                });
            }
            Some(Recoat::Open { .. } | Recoat::Missed { .. }) => {}
            None => out.push(Blocker::NoProduct),
        }
    }

    /// When the wipe-down of a bare face has flashed off.
    pub fn wipe_ready(&self, ticket: &Ticket, face: &FaceState) -> Option<DateTime<Utc>> {
        let WipeDown::With(product) = ticket.schedule.wipe_down else {
            return None;
        };
        let product = self.product(product)?;
        let opens = product.label.windows.first()?.opens;
        let (wiped, ready) = (face.wiped?, self.clock.reached(product, face.wiped?, opens));
        // Spirits leave air too cold or damp for a film as well, only slower; a touch test cannot
        // help here. A day is long for any wipe: common practice, no source.
        Some(ready.min(wiped + Duration::days(1)))
    }

    pub(super) fn wipe_gone(
        &self,
        ticket: &Ticket,
        face: &FaceState,
        at: DateTime<Utc>,
        out: &mut Vec<Blocker>,
    ) {
        if ticket.schedule.asks_wipe_down() && face.wiped.is_none() {
            out.push(Blocker::NotWiped { face: face.key });
        } else if let WipeDown::With(product) = ticket.schedule.wipe_down
            && self.product(product).is_none()
            && self.strictness == Strictness::Live
        {
            out.push(Blocker::NoProduct);
        } else if let Some(ready) = self.wipe_ready(ticket, face)
            && at < ready
            && self.strictness == Strictness::Live
        {
            out.push(Blocker::WipeWet {
                face: face.key,
                ready,
            });
        }
    }

    /// When a face's last coat has cured long enough to be set. A touch test that found it dry to
    /// handle ends the wait early, but not before the label's dry to handle by the clock: a thumb
    /// feels the skin of a film, not what is below it (our own rule; common practice, no source).
    pub fn cured_at(&self, ticket: &Ticket, face: &FaceState) -> Option<DateTime<Utc>> {
        let coat = face.last_coat()?;
        let product = self.product(coat.product)?;
        let reached = |span| {
            self.of_coat(coat, |clock| {
                clock.reached(product, coat.dries_from(), span)
            })
        };
        let ready = reached(ticket.schedule.cure_before_set);
        let early = |tested: DateTime<Utc>| tested.max(reached(product.label.handle));
        Some(
            coat.handle_tested
                .map_or(ready, |tested| early(tested).min(ready)),
        )
    }

    pub(super) fn cured(&self, ticket: &Ticket, at: DateTime<Utc>, out: &mut Vec<Blocker>) {
        for face in &ticket.faces {
            let Some(coat) = face.last_coat() else {
                continue;
            };
            if let Some((since, TouchVerdict::StillSoft)) = coat.touch {
                out.push(Blocker::Soft {
                    face: face.key,
                    since,
                });
                continue;
            }
            match self.cured_at(ticket, face) {
                Some(ready) if at < ready => out.push(Blocker::NotCured {
                    face: face.key,
                    ready,
                }),
                Some(_) => {}
                None => out.push(Blocker::NoProduct),
            }
        }
    }
}
