//! Leading a copy of the ticket through the rest of its schedule.

use super::todo::{After, Before, Lag, Laid, PieceWork, Todo, is_flat};
use crate::coating::ProductId;
use crate::shape::FaceKey;
use crate::shop::Blocker;
use crate::shop::check::{Gates, Strictness};
use crate::shop::event::{CoatKind, Event, TouchVerdict, What};
use crate::shop::face_state::{Coat, FaceState};
use crate::shop::id::{EventId, PassId};
use crate::shop::piece::PieceFile;
use crate::shop::rack_film::ABRADES_WITH;
use crate::shop::schedule::WipeDown;
use crate::shop::sheet_kept::{StepCode, StepKey};
use crate::shop::stage::Stage;
use crate::shop::ticket::Ticket;
use crate::units::{Area, Volume};
use chrono::{DateTime, Duration, Utc};
use std::collections::HashMap;
use uuid::Uuid;

/// What is left to do on a piece, as it stands at `now`.
pub fn remaining(file: &PieceFile, gates: &Gates<'_>, now: DateTime<Utc>) -> PieceWork {
    let ticket = Ticket::of(file);
    let dusty = file.events.iter().rev().find_map(|event| match event.what {
        What::Tick { .. } | What::SandBack { .. } => Some(event.at),
        _ => None,
    });
    let mut walk = Walk {
        gates,
        now,
        last: HashMap::new(),
        wiped: None,
        work: PieceWork {
            piece: file.piece.id,
            job: file.piece.job,
            todos: Vec::new(),
            laid: Vec::new(),
            dusty,
            held: None,
        },
        ticket,
    };
    walk.open_coats();
    walk.all();
    walk.work
}

/// A copy of the ticket on its way through the rest of its schedule.
pub(super) struct Walk<'a, 'g> {
    pub(super) gates: &'a Gates<'g>,
    pub(super) now: DateTime<Utc>,
    pub(super) ticket: Ticket,
    /// The step that laid the last coat of a face.
    pub(super) last: HashMap<FaceKey, usize>,
    /// The step that wipes down.
    pub(super) wiped: Option<usize>,
    pub(super) work: PieceWork,
}

impl Walk<'_, '_> {
    /// The coats that may still be open to dust or on the rack.
    fn open_coats(&mut self) {
        if self.ticket.finished.is_some() {
            return;
        }
        let coats: Vec<Coat> = self
            .ticket
            .faces
            .iter()
            .filter_map(|face| face.last_coat().cloned())
            .collect();
        for coat in coats {
            self.laid(&coat);
        }
    }

    pub(super) fn laid(&mut self, coat: &Coat) -> usize {
        let known = self
            .work
            .laid
            .iter()
            .position(|laid| laid.pass == coat.pass);
        known.unwrap_or_else(|| {
            self.work.laid.push(Laid {
                pass: coat.pass,
                product: coat.product,
                started: coat.started,
                dries_from: coat.dries_from(),
                coat: coat.clone(),
            });
            self.work.laid.len() - 1
        })
    }

    fn all(&mut self) {
        if self.ticket.finished.is_some() {
            return;
        }
        loop {
            match self.ticket.stage {
                Stage::Sanding => self.sanding(),
                Stage::Set => {
                    self.set();
                    return;
                }
                stage => {
                    if let Some(kind) = CoatKind::of_stage(stage)
                        && !self.coats(kind)
                    {
                        return;
                    }
                }
            }
            if !self.moves_on() {
                return;
            }
        }
    }

    fn sanding(&mut self) {
        for grit in self.ticket.grits() {
            let faces = self.faces(|ticket, face| {
                ticket.plan(face).grits.contains(&grit) && !face.ticks.contains_key(&grit)
            });
            if faces.is_empty() {
                continue;
            }
            self.step(StepCode::Sand(grit), &faces, None);
            for face in faces {
                self.fold(What::Tick { face, grit });
            }
        }
        if !self.ticket.schedule.asks_wipe_down() {
            return;
        }
        let bare = self.faces(|_, face| face.coats.is_empty() && face.wiped.is_none());
        if bare.is_empty() {
            return;
        }
        let product = match self.ticket.schedule.wipe_down {
            WipeDown::With(product) => Some(product),
            WipeDown::NotAsked | WipeDown::Dry => None,
        };
        let at = self.step(StepCode::WipeDown, &bare, product);
        self.wiped = Some(at);
        self.fold(What::Wipe { faces: bare });
    }

    /// The coats of one stage; false where it can get no further.
    fn coats(&mut self, kind: CoatKind) -> bool {
        let wet = self.faces(|_, face| {
            face.last_coat()
                .is_some_and(|coat| coat.kind == CoatKind::Stain && coat.wiped_off.is_none())
        });
        if !wet.is_empty() {
            let product = self.ticket.schedule.stain;
            let at = self.step(StepCode::WipeOff, &wet, product);
            for face in &wet {
                self.last.insert(*face, at);
            }
            self.fold(What::WipeOff { faces: wet });
        }
        // Each round lays one coat on the faces furthest behind, so it ends.
        loop {
            let due = self.ticket.due_faces(kind);
            let Some(first) = due.first().and_then(|key| self.ticket.face(*key)) else {
                return true;
            };
            let no = first.count(kind).saturating_add(1);
            let Some(product) = self.ticket.schedule.product_for(kind) else {
                self.work.held = Some(Blocker::NoProduct);
                return false;
            };
            self.coat(kind, no, product, &due);
        }
    }

    fn coat(&mut self, kind: CoatKind, no: u8, product: ProductId, due: &[FaceKey]) {
        self.touch_again(due);
        let below = self.below(kind, due);
        if !below.scuffs.is_empty() {
            let means = self.ticket.schedule.scuff.unwrap_or(ABRADES_WITH);
            let means = if below.abrades && !means.abrades() {
                ABRADES_WITH
            } else {
                means
            };
            let at = self.step(StepCode::Scuff(kind, no), &below.scuffs, None);
            let todo = &mut self.work.todos[at];
            todo.means = Some(means);
            todo.abrades = below.abrades;
            todo.after.extend(below.after.iter().map(|after| After {
                shuts: None,
                ..*after
            }));
            todo.ready = below.ready;
        }
        let of = due
            .iter()
            .filter_map(|key| self.ticket.face(*key))
            .map(|face| self.ticket.asked(face, kind))
            .max()
            .unwrap_or(no);
        let at = self.step(StepCode::Coat(kind, no), due, Some(product));
        let todo = &mut self.work.todos[at];
        todo.of = of;
        todo.after.extend(below.after);
        todo.ready = below.ready;
        let areas = due.iter().map(|key| {
            (
                *key,
                self.ticket.face(*key).map_or(Area::ZERO, |face| face.area),
            )
        });
        let what = What::Coat {
            pass: PassId(Uuid::nil()),
            kind,
            product,
            faces: areas.collect(),
            started: self.now,
            used: Volume::from_ml(0.0),
        };
        self.fold(what);
        if kind == CoatKind::Stain {
            let faces = due.to_vec();
            self.fold(What::WipeOff { faces });
        }
        for face in due {
            self.last.insert(*face, at);
        }
    }

    /// A coat that a touch test found soft is tested again before anything else goes on it.
    fn touch_again(&mut self, due: &[FaceKey]) {
        let soft = self.faces(|_, face| {
            due.contains(&face.key)
                && face
                    .last_coat()
                    .is_some_and(|coat| matches!(coat.touch, Some((_, TouchVerdict::StillSoft))))
        });
        if soft.is_empty() {
            return;
        }
        self.step(StepCode::Touch, &soft, None);
        let verdict = TouchVerdict::DryToRecoat;
        self.fold(What::Touch {
            faces: soft,
            verdict,
        });
    }

    fn set(&mut self) {
        if self.ticket.finished.is_some() {
            return;
        }
        let mut after: Vec<After> = Vec::new();
        let mut ready: Option<DateTime<Utc>> = None;
        if self.ticket.stage != Stage::Set || !self.work.todos.is_empty() {
            for face in &self.ticket.faces {
                let Some(coat) = face.last_coat() else {
                    continue;
                };
                match self.last.get(&face.key) {
                    Some(at) => after.push(After {
                        from: Before::Todo(*at),
                        lag: Lag::Cure(coat.product, self.ticket.schedule.cure_before_set),
                        shuts: None,
                    }),
                    None => ready = ready.max(self.gates.cured_at(&self.ticket, face)),
                }
            }
        }
        after.sort_by_key(|after| match after.from {
            Before::Todo(at) => at,
            Before::Laid(_) => 0,
        });
        after.dedup();
        let all = self.faces(|_, _| true);
        let at = self.step(StepCode::Set, &all, None);
        let todo = &mut self.work.todos[at];
        todo.after.extend(after);
        todo.ready = ready;
    }

    /// Moves the copy to its next stage, unless something is missing that no step brings.
    fn moves_on(&mut self) -> bool {
        let gates = Gates {
            strictness: Strictness::Record,
            ..*self.gates
        };
        if let Some(why) = gates.blockers_to_next(&self.ticket, self.now).first() {
            self.work.held = Some(why.clone());
            return false;
        }
        let from = self.ticket.stage;
        let Some(to) = self.ticket.schedule.next_stage(from) else {
            return false;
        };
        if to == Stage::Set {
            // Asked before the move: being set asks no cure any more.
            self.set();
            return false;
        }
        self.fold(What::Moved { from, to });
        true
    }

    fn faces(&self, test: impl Fn(&Ticket, &FaceState) -> bool) -> Vec<FaceKey> {
        let fits = |face: &&FaceState| test(&self.ticket, face);
        self.ticket
            .faces
            .iter()
            .filter(fits)
            .map(|face| face.key)
            .collect()
    }

    /// Adds a step behind the one before it; its place.
    fn step(&mut self, step: StepCode, faces: &[FaceKey], product: Option<ProductId>) -> usize {
        let area = |flat: bool| {
            let of = self.ticket.faces.iter();
            let of = of.filter(|face| faces.contains(&face.key) && is_flat(face.key) == flat);
            Area::from_m2(of.map(|face| face.area.m2()).sum())
        };
        let place = self.work.todos.len();
        let after = place.checked_sub(1).map(|before| After {
            from: Before::Todo(before),
            lag: Lag::Order,
            shuts: None,
        });
        let todo = Todo {
            key: StepKey {
                piece: self.work.piece,
                step,
            },
            faces: faces.to_vec(),
            flat: area(true),
            edge: area(false),
            product,
            means: None,
            abrades: false,
            of: 1,
            after: after.into_iter().collect(),
            ready: None,
        };
        self.work.todos.push(todo);
        place
    }

    fn fold(&mut self, what: What) {
        let event = Event {
            id: EventId(Uuid::nil()),
            at: self.now + Duration::zero(),
            what,
        };
        self.ticket.fold(&event);
    }
}
