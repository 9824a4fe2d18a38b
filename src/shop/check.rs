//! The gates: what may be added to a piece's log, and every reason why not.
//!
//! Nothing else lets a line in: the screen, the commands and the import all ask here.

use super::blocker::Blocker;
use super::event::{CoatKind, Event, What};
use super::face_state::FaceState;
use super::moves::grits_missing;
use super::stage::Stage;
use super::ticket::Ticket;
use crate::coating::{DryingClock, Product, ProductId};
use crate::shape::FaceKey;
use chrono::{DateTime, Utc};

/// How strictly drying is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Strictness {
    /// Work being logged: drying is held against the clock.
    Live,
    /// A record of the past being read in: what was laid was laid, but coverage and sealing are
    /// held all the same.
    Record,
}

/// What the gates need to know besides the piece.
#[derive(Clone, Copy)]
pub struct Gates<'a> {
    /// The shop's products.
    pub products: &'a [Product],
    /// The drying clock.
    pub clock: &'a dyn DryingClock,
    /// How strictly drying is held.
    pub strictness: Strictness,
}

impl Gates<'_> {
    /// A product by its identifier.
    pub fn product(&self, id: ProductId) -> Option<&Product> {
        self.products.iter().find(|product| product.id == id)
    }

    /// Every reason why `event` may not be added to `ticket` at the moment `now`; none means it
    /// may.
    pub fn check(&self, ticket: &Ticket, event: &Event, now: DateTime<Utc>) -> Vec<Blocker> {
        let mut out = Vec::new();
        if event.at > now {
            out.push(Blocker::Future { at: event.at });
        }
        let keys = faces_of(&event.what);
        let mut faces = Vec::new();
        for (no, key) in keys.iter().enumerate() {
            if keys[..no].contains(key) {
                out.push(Blocker::FaceTwice { face: *key });
                continue;
            }
            match ticket.face(*key) {
                Some(face) => faces.push(face),
                None => out.push(Blocker::NoFace { face: *key }),
            }
        }
        let begins = match &event.what {
            What::Coat { started, .. } => *started,
            _ => event.at,
        };
        if begins > event.at {
            out.push(Blocker::EndsBeforeStart);
        }
        for face in &faces {
            if let Some(last) = face.last_work.filter(|last| *last > begins) {
                out.push(Blocker::BeforeLastWork {
                    face: face.key,
                    last,
                });
            }
        }
        if keys.is_empty() && needs_faces(&event.what) {
            out.push(Blocker::NoFaces);
        }
        self.check_what(ticket, event, begins, &faces, &mut out);
        out
    }

    fn check_what(
        &self,
        ticket: &Ticket,
        event: &Event,
        begins: DateTime<Utc>,
        faces: &[&FaceState],
        out: &mut Vec<Blocker>,
    ) {
        match &event.what {
            What::Tick { grit, .. } => {
                in_stage(ticket, Stage::Sanding, out);
                for face in faces {
                    check_tick(ticket, face, *grit, out);
                }
            }
            What::Untick { grit, .. } => {
                in_stage(ticket, Stage::Sanding, out);
                for face in faces {
                    if !face.coats.is_empty() {
                        out.push(Blocker::CoatOver { face: face.key });
                    } else if !face.ticks.contains_key(grit) {
                        out.push(Blocker::GritNotDone {
                            face: face.key,
                            grit: *grit,
                        });
                    }
                }
            }
            What::Wipe { .. } => {
                in_stage(ticket, Stage::Sanding, out);
                for face in faces {
                    grits_missing(ticket, face, out);
                }
            }
            What::Coat { kind, product, .. } => {
                in_stage(ticket, kind.stage(), out);
                match self.product(*product).map(|product| product.kind) {
                    None => out.push(Blocker::NoProduct),
                    Some(is) if !is.fits(kind.product_kind()) => {
                        let needs = kind.product_kind();
                        out.push(Blocker::WrongProduct { is, needs });
                    }
                    Some(_) => {}
                }
                for face in faces {
                    self.check_coat(ticket, face, *kind, begins, out);
                }
            }
            What::WipeOff { .. } => {
                for face in faces {
                    let waits = face.last_coat().is_some_and(|coat| {
                        coat.kind == CoatKind::Stain && coat.wiped_off.is_none()
                    });
                    if !waits {
                        out.push(Blocker::NothingToWipeOff { face: face.key });
                    }
                }
            }
            What::Scuff { .. } => {
                for face in faces {
                    match face.last_coat() {
                        None => out.push(Blocker::NoCoat { face: face.key }),
                        Some(_) => self.below_dry(face, begins, out),
                    }
                }
            }
            What::Touch { .. } => {
                for face in faces.iter().filter(|face| face.coats.is_empty()) {
                    out.push(Blocker::NoCoat { face: face.key });
                }
            }
            What::SandBack { to, reason, .. } => {
                for face in faces {
                    if !ticket.plan(face).grits.contains(to) {
                        out.push(Blocker::GritNotAsked {
                            face: face.key,
                            grit: *to,
                        });
                    } else if !face.ticks.contains_key(to) {
                        out.push(Blocker::GritNotDone {
                            face: face.key,
                            grit: *to,
                        });
                    }
                    needs_reason(face.key, reason, out);
                }
            }
            What::NotExposed { face, reason } => {
                if *face == FaceKey::Top {
                    out.push(Blocker::TopIsExposed);
                }
                needs_full_reason(*face, reason, out);
            }
            What::Exposed { face } => {
                if faces.iter().any(|face| face.is_exposed()) {
                    out.push(Blocker::ExposedAlready { face: *face });
                }
            }
            What::Reshaped { added, removed } => check_reshape(ticket, added, removed, out),
            What::Moved { from, to } => self.check_move(ticket, *from, *to, event.at, out),
            What::SetList { .. } => in_stage(ticket, Stage::Set, out),
        }
    }

    /// Reasons against one coat on one face, at the moment the pass begins.
    fn check_coat(
        &self,
        ticket: &Ticket,
        face: &FaceState,
        kind: CoatKind,
        begins: DateTime<Utc>,
        out: &mut Vec<Blocker>,
    ) {
        grits_missing(ticket, face, out);
        let asked = ticket.asked(face, kind);
        if kind != CoatKind::Topcoat && asked == 0 {
            out.push(Blocker::CoatNotAsked {
                face: face.key,
                kind,
            });
        }
        for before in CoatKind::ALL.into_iter().filter(|before| *before < kind) {
            let (has, asked) = (face.count(before), ticket.asked(face, before));
            if has < asked {
                out.push(Blocker::CoatMissing {
                    face: face.key,
                    kind: before,
                    has,
                    asked,
                });
            }
        }
        let Some(last) = face.last_coat() else {
            self.wipe_gone(ticket, face, begins, out);
            return;
        };
        if last.kind == CoatKind::Stain && last.wiped_off.is_none() {
            out.push(Blocker::NotWipedOff { face: face.key });
        }
        let wet = out.len();
        self.below_dry(face, begins, out);
        if out.len() > wet || self.strictness == Strictness::Record {
            return;
        }
        // Abrading is a scuff too, so it alone is asked where the window was missed.
        if let Some(shut) = self.wants_abrading(face, begins) {
            out.push(Blocker::NotAbraded {
                face: face.key,
                shut,
            });
        } else if self.wants_scuff(ticket, face, kind, begins) {
            out.push(Blocker::NotScuffed { face: face.key });
        }
    }
}

/// The faces a line speaks of.
pub(super) fn faces_of(what: &What) -> Vec<FaceKey> {
    match what {
        What::Tick { face, .. }
        | What::Untick { face, .. }
        | What::NotExposed { face, .. }
        | What::Exposed { face } => vec![*face],
        What::Wipe { faces }
        | What::WipeOff { faces }
        | What::Scuff { faces, .. }
        | What::Touch { faces, .. }
        | What::SandBack { faces, .. } => faces.clone(),
        What::Coat { faces, .. } => faces.iter().map(|(key, _)| *key).collect(),
        What::Reshaped { .. } | What::Moved { .. } | What::SetList { .. } => Vec::new(),
    }
}

fn needs_faces(what: &What) -> bool {
    !matches!(
        what,
        What::Reshaped { .. } | What::Moved { .. } | What::SetList { .. }
    )
}

fn in_stage(ticket: &Ticket, needs: Stage, out: &mut Vec<Blocker>) {
    if ticket.stage != needs {
        out.push(Blocker::WrongStage {
            is: ticket.stage,
            needs,
        });
    }
}

fn check_tick(
    ticket: &Ticket,
    face: &FaceState,
    grit: super::schedule::Grit,
    out: &mut Vec<Blocker>,
) {
    let plan = ticket.plan(face);
    if !plan.grits.contains(&grit) {
        out.push(Blocker::GritNotAsked {
            face: face.key,
            grit,
        });
    } else if face.ticks.contains_key(&grit) {
        out.push(Blocker::GritDone {
            face: face.key,
            grit,
        });
    } else {
        for first in plan.grits.iter().filter(|first| **first < grit) {
            if !face.ticks.contains_key(first) {
                out.push(Blocker::GritOrder {
                    face: face.key,
                    grit,
                    first: *first,
                });
            }
        }
    }
}

/// Faces come and go only as they can on a top that is cut: what is left is a whole top again, and
/// what is new is bare.
fn check_reshape(ticket: &Ticket, added: &[FaceKey], removed: &[FaceKey], out: &mut Vec<Blocker>) {
    let is_there = |key: FaceKey| ticket.face(key).is_some();
    for face in removed.iter().copied().filter(|key| !is_there(*key)) {
        out.push(Blocker::NoFace { face });
    }
    for face in added.iter().copied() {
        if is_there(face) && !removed.contains(&face) {
            out.push(Blocker::FaceThere { face });
        }
    }
    let after = |key: FaceKey| added.contains(&key) || is_there(key) && !removed.contains(&key);
    let all = |keys: &[FaceKey]| keys.iter().all(|key| after(*key));
    let none = |keys: &[FaceKey]| !keys.iter().any(|key| after(*key));
    let (whole, split) = ([FaceKey::Underside], [FaceKey::Band, FaceKey::Field]);
    let under = all(&whole) && none(&split) || all(&split) && none(&whole);
    let there = ticket.faces.iter().map(|face| face.key);
    let left: Vec<FaceKey> = there
        .filter(|key| !removed.contains(key))
        .chain(added.iter().copied())
        .collect();
    if !(after(FaceKey::Top) && under && FaceKey::go_round(&left)) {
        out.push(Blocker::NotATop);
    }
}

/// A reason says something: `run` will do for a sand-back.
fn needs_reason(face: FaceKey, reason: &str, out: &mut Vec<Blocker>) {
    if letters(reason) < 3 {
        out.push(Blocker::NoReason { face });
    }
}

/// A face is hidden for good, so its reason must still speak in five years: two words and eight
/// letters at least.
fn needs_full_reason(face: FaceKey, reason: &str, out: &mut Vec<Blocker>) {
    let words = reason
        .split_whitespace()
        .filter(|word| letters(word) > 0)
        .count();
    if words < 2 || letters(reason) < 8 {
        out.push(Blocker::NoReason { face });
    }
}

fn letters(text: &str) -> usize {
    text.chars().filter(|c| c.is_alphanumeric()).count()
}
