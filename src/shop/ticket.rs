//! A piece's state, folded from its log: what each face carries now.

use super::event::{CoatKind, Event, SetItem, What};
use super::face_state::{Coat, FaceState};
use super::piece::{Piece, PieceFile};
use super::schedule::{Grit, GroupPlan, Schedule};
use super::stage::Stage;
use crate::shape::{Face, FaceGrain, FaceKey};
use crate::units::Area;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// A piece's state.
#[derive(Debug, Clone, PartialEq)]
pub struct Ticket {
    /// The schedule in force.
    pub schedule: Schedule,
    /// Where the piece stands.
    pub stage: Stage,
    /// Its faces, in their order.
    pub faces: Vec<FaceState>,
    /// The set list so far.
    pub set_list: BTreeMap<SetItem, DateTime<Utc>>,
    /// When it came into the stage it is in.
    pub stage_since: Option<DateTime<Utc>>,
    /// When the set list was finished.
    pub finished: Option<DateTime<Utc>>,
    /// Whether any work was logged.
    pub started: bool,
}

impl Ticket {
    /// Folds a piece's log.
    pub fn of(file: &PieceFile) -> Self {
        let mut ticket = Self::blank(&file.piece, &file.schedule, &file.events);
        for event in &file.events {
            ticket.fold(event);
        }
        ticket.measure(&file.piece);
        ticket
    }

    /// The ticket before its first line: the faces as they were then, so that a log that changed
    /// the shape on the way can be followed from the start.
    pub fn blank(piece: &Piece, schedule: &Schedule, events: &[Event]) -> Self {
        let now: Vec<Face> = piece.shape.faces(piece.construction);
        let mut keys: Vec<FaceKey> = now.iter().map(|face| face.key).collect();
        for event in events.iter().rev() {
            if let What::Reshaped { added, removed } = &event.what {
                keys.retain(|key| !added.contains(key));
                keys.extend(removed.iter().copied());
            }
        }
        keys.sort_unstable();
        keys.dedup();
        let mut ticket = Self {
            schedule: schedule.clone(),
            stage: Stage::Sanding,
            faces: Vec::new(),
            set_list: BTreeMap::new(),
            stage_since: None,
            finished: None,
            started: false,
        };
        ticket.faces = keys.iter().map(|key| bare_face(*key, &now)).collect();
        ticket
    }

    /// A face by its key.
    pub fn face(&self, key: FaceKey) -> Option<&FaceState> {
        self.faces.iter().find(|face| face.key == key)
    }

    /// What is asked of a face.
    pub fn plan(&self, face: &FaceState) -> &GroupPlan {
        self.schedule.plan(face.group)
    }

    /// Every grit asked of any face, coarse to fine.
    pub fn grits(&self) -> Vec<Grit> {
        let mut all: Vec<Grit> = self
            .faces
            .iter()
            .flat_map(|face| self.plan(face).grits.iter().copied())
            .collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// Whether the schedule asks this face for a kind of coat, and how many.
    pub fn asked(&self, face: &FaceState, kind: CoatKind) -> u8 {
        if !face.is_exposed() {
            return 0;
        }
        let plan = self.plan(face);
        match kind {
            CoatKind::Seal => plan.seal_coats,
            CoatKind::Stain => u8::from(plan.stained),
            CoatKind::Topcoat => plan.topcoats,
        }
    }

    /// The faces next in line for a kind of coat: those furthest behind, less those that have all
    /// they are asked for.
    pub fn due_faces(&self, kind: CoatKind) -> Vec<FaceKey> {
        let wanting: Vec<&FaceState> = self
            .faces
            .iter()
            .filter(|face| face.count(kind) < self.asked(face, kind))
            .collect();
        let Some(least) = wanting.iter().map(|face| face.count(kind)).min() else {
            return Vec::new();
        };
        wanting
            .iter()
            .filter(|face| face.count(kind) == least)
            .map(|face| face.key)
            .collect()
    }

    /// Adds one line to the state. Lines on faces that are no more change nothing.
    pub fn fold(&mut self, event: &Event) {
        let at = event.at;
        self.started |= !matches!(event.what, What::Reshaped { .. });
        match &event.what {
            What::Tick { face, grit } => self.on(&[*face], at, |face| {
                face.ticks.insert(*grit, at);
            }),
            What::Untick { face, grit } => self.on(&[*face], at, |face| {
                face.ticks.retain(|have, _| have < grit);
                face.wiped = None;
            }),
            What::Wipe { faces } => self.on(faces, at, |face| face.wiped = Some(at)),
            What::Coat {
                pass,
                kind,
                product,
                faces,
                started,
                ..
            } => {
                let keys: Vec<FaceKey> = faces.iter().map(|(key, _)| *key).collect();
                self.on(&keys, at, |face| {
                    face.coats.push(Coat {
                        pass: *pass,
                        kind: *kind,
                        product: *product,
                        started: *started,
                        ended: at,
                        wiped_off: None,
                        scuffed: None,
                        touch: None,
                        recoat_tested: None,
                        handle_tested: None,
                    });
                });
            }
            What::WipeOff { faces } => self.on_coat(faces, at, |coat| coat.wiped_off = Some(at)),
            What::Scuff { faces, means } => {
                self.on_coat(faces, at, |coat| coat.scuffed = Some((at, *means)));
            }
            What::Touch { faces, verdict } => {
                self.on_coat(faces, at, |coat| coat.test(at, *verdict));
            }
            What::SandBack { faces, to, .. } => {
                self.on(faces, at, |face| face.sand_back(*to, at));
                self.back_to_sanding(at);
            }
            What::NotExposed { face, reason } => {
                self.on(&[*face], at, |face| face.not_exposed = Some(reason.clone()));
            }
            What::Exposed { face } => {
                self.on(&[*face], at, |face| face.not_exposed = None);
                self.back_to_sanding(at);
            }
            What::Reshaped { added, removed } => {
                self.faces.retain(|face| !removed.contains(&face.key));
                for key in added {
                    if self.face(*key).is_none() {
                        self.faces.push(bare_face(*key, &[]));
                    }
                }
                self.faces.sort_by_key(|face| face.key);
                if !added.is_empty() {
                    self.back_to_sanding(at);
                }
            }
            What::Moved { to, .. } => {
                self.enter(*to);
                self.stage_since = Some(at);
            }
            What::SetList { item, done } => {
                if *done {
                    self.set_list.insert(*item, at);
                } else {
                    self.set_list.remove(item);
                }
                let all = SetItem::ALL
                    .iter()
                    .all(|item| self.set_list.contains_key(item));
                self.finished = all.then_some(at);
            }
        }
    }

    /// A face that changed must go through sanding again before anything else; what the other
    /// faces carry stays.
    fn back_to_sanding(&mut self, at: DateTime<Utc>) {
        if self.stage != Stage::Sanding {
            self.enter(Stage::Sanding);
            self.stage_since = Some(at);
        }
    }

    /// Puts the piece into a stage; what was ticked of the set list counts only while it is set.
    fn enter(&mut self, stage: Stage) {
        self.stage = stage;
        if stage != Stage::Set {
            self.set_list.clear();
            self.finished = None;
        }
    }

    fn on(&mut self, keys: &[FaceKey], at: DateTime<Utc>, mut change: impl FnMut(&mut FaceState)) {
        for face in self
            .faces
            .iter_mut()
            .filter(|face| keys.contains(&face.key))
        {
            change(face);
            face.last_work = Some(face.last_work.map_or(at, |last| last.max(at)));
        }
    }

    fn on_coat(&mut self, keys: &[FaceKey], at: DateTime<Utc>, change: impl Fn(&mut Coat)) {
        self.on(keys, at, |face| {
            if let Some(coat) = face.coats.last_mut() {
                change(coat);
            }
        });
    }

    /// Takes faces, areas and grain from the shape as it is now. The shape decides: a face of it
    /// that the log took away is there all the same, bare, and a face it has not is gone.
    pub fn measure(&mut self, piece: &Piece) {
        let shape = piece.shape.faces(piece.construction);
        self.faces
            .retain(|face| shape.iter().any(|now| now.key == face.key));
        let mut bare = false;
        for now in &shape {
            if let Some(face) = self.faces.iter_mut().find(|face| face.key == now.key) {
                face.area = now.area;
                face.grain = now.grain;
                face.group = now.group();
            } else {
                bare = true;
                self.faces.push(bare_face(now.key, &shape));
            }
        }
        if bare {
            self.faces.sort_by_key(|face| face.key);
            self.enter(Stage::Sanding);
        }
    }
}

fn bare_face(key: FaceKey, now: &[Face]) -> FaceState {
    match now.iter().find(|face| face.key == key) {
        Some(face) => FaceState::bare(key, face.grain, face.group(), face.area),
        // Gone from today's shape: its group still tells what was asked of it.
        None => FaceState::bare(key, FaceGrain::Mixed, key.group(), Area::from_m2(0.0)),
    }
}
