//! A bench for the tests of the gates: one piece, its log, the shop's products and a clock that
//! stands where the test puts it. Nothing is logged here that the gates did not let in.
#![allow(
    dead_code,
    unused_imports,
    reason = "each test file uses its own part of the bench"
)]

use chrono::{DateTime, Duration, Utc};
use tackfree::coating::id::Mint;
use tackfree::coating::{Family, LabelHours, Product, ProductId, RecoatWindow, Span};
use tackfree::shape::FaceKey;
use tackfree::shop::{
    Blocker, CoatKind, Event, EventId, FaceState, Gates, Grit, PassId, PieceFile, PieceId,
    Schedule, ScuffMeans, Stage, Strictness, Ticket, TouchVerdict, Waiting, What, waiting,
};
use tackfree::units::{Area, Volume};
use uuid::Uuid;

mod made;
pub use made::*;

/// One piece under work.
pub struct Bench {
    pub file: PieceFile,
    pub ticket: Ticket,
    pub products: Vec<Product>,
    pub strictness: Strictness,
    pub now: DateTime<Utc>,
    pub mint: Mint,
}

impl Bench {
    /// The hand case with a band and one hole, at eight in the morning, by a ready-made recipe.
    pub fn new(recipe: &str) -> Self {
        let (products, schedule) = ready(recipe);
        Self::with(products, schedule)
    }

    pub fn with(products: Vec<Product>, schedule: Schedule) -> Self {
        let mut mint = Mint::new(Uuid::nil(), 11);
        let piece = piece(PieceId(mint.next(0)), hand_case(true, &[hole(1, 40, 23)]));
        let file = PieceFile {
            piece,
            schedule,
            events: Vec::new(),
        };
        let ticket = Ticket::of(&file);
        Self {
            file,
            ticket,
            products,
            strictness: Strictness::Live,
            now: morning(),
            mint,
        }
    }

    pub fn gates(&self) -> Gates<'_> {
        Gates {
            products: &self.products,
            clock: &LabelHours,
            strictness: self.strictness,
            films: None,
        }
    }

    pub fn face(&self, key: FaceKey) -> &FaceState {
        self.ticket.face(key).unwrap()
    }

    pub fn faces(&self) -> Vec<FaceKey> {
        self.ticket.faces.iter().map(|face| face.key).collect()
    }

    pub fn product(&mut self, family: Family) -> &mut Product {
        self.products
            .iter_mut()
            .find(|product| product.family == family)
            .unwrap()
    }

    /// Gives a product these windows in minutes.
    pub fn windows(&mut self, family: Family, windows: &[(i64, Option<i64>, bool)]) {
        self.product(family).label.windows = windows
            .iter()
            .map(|&(opens, closes, scuff)| RecoatWindow {
                opens: Span::minutes(opens),
                closes: closes.map(Span::minutes),
                scuff,
            })
            .collect();
    }

    pub fn later(&mut self, minutes: i64) {
        self.now += Duration::minutes(minutes);
    }

    /// What stands against this line, timed at `at`.
    pub fn against_at(&self, what: &What, at: DateTime<Utc>) -> Vec<Blocker> {
        let event = Event {
            id: EventId(Uuid::nil()),
            at,
            what: what.clone(),
        };
        self.gates().check(&self.ticket, &event, self.now)
    }

    pub fn against(&self, what: &What) -> Vec<Blocker> {
        self.against_at(what, self.now)
    }

    pub fn words(&self, blockers: &[Blocker]) -> Vec<String> {
        blockers
            .iter()
            .map(|blocker| blocker.words(self.now, ZONE))
            .collect()
    }

    /// What stands against this line now, in words.
    pub fn refusal(&self, what: &What) -> Vec<String> {
        self.words(&self.against(what))
    }

    /// Logs a line that must be let in.
    #[track_caller]
    pub fn log(&mut self, what: What) {
        self.log_at(what, self.now);
    }

    #[track_caller]
    pub fn log_at(&mut self, what: What, at: DateTime<Utc>) {
        let against = self.against_at(&what, at);
        assert!(
            against.is_empty(),
            "{what:?} refused: {:#?}",
            self.words(&against)
        );
        let event = Event {
            id: EventId(self.mint.next(at.timestamp_millis())),
            at,
            what,
        };
        self.ticket.fold(&event);
        self.file.events.push(event);
    }

    #[track_caller]
    pub fn tick(&mut self, grit: u16, faces: &[FaceKey]) {
        for &face in faces {
            self.log(What::Tick {
                face,
                grit: Grit(grit),
            });
        }
    }

    /// Every asked grit on these faces, coarse to fine.
    #[track_caller]
    pub fn sand(&mut self, faces: &[FaceKey]) {
        for grit in self.ticket.grits() {
            for &face in faces {
                let state = self.face(face);
                let asked = self.ticket.plan(state).grits.contains(&grit);
                if asked && !state.ticks.contains_key(&grit) {
                    self.log(What::Tick { face, grit });
                }
            }
        }
    }

    #[track_caller]
    pub fn wipe(&mut self, faces: &[FaceKey]) {
        self.log(What::Wipe {
            faces: faces.to_vec(),
        });
    }

    /// A coat of the schedule's product that starts and ends now.
    pub fn coat_of(&self, kind: CoatKind, faces: &[FaceKey]) -> What {
        let product = self
            .ticket
            .schedule
            .product_for(kind)
            .unwrap_or(ProductId(Uuid::max()));
        let area = |key: &FaceKey| self.ticket.face(*key).map_or(Area::ZERO, |face| face.area);
        What::Coat {
            pass: PassId(Uuid::from_u128(self.file.events.len() as u128)),
            kind,
            product,
            faces: faces.iter().map(|key| (*key, area(key))).collect(),
            started: self.now,
            used: Volume::from_ul(1_000),
        }
    }

    #[track_caller]
    pub fn coat(&mut self, kind: CoatKind, faces: &[FaceKey]) {
        self.log(self.coat_of(kind, faces));
    }

    #[track_caller]
    pub fn scuff(&mut self, faces: &[FaceKey], means: ScuffMeans) {
        self.log(What::Scuff {
            faces: faces.to_vec(),
            means,
        });
    }

    #[track_caller]
    pub fn touch(&mut self, faces: &[FaceKey], verdict: TouchVerdict) {
        self.log(What::Touch {
            faces: faces.to_vec(),
            verdict,
        });
    }

    pub fn sand_back_of(to: u16, faces: &[FaceKey]) -> What {
        let reason = "run at the front".to_owned();
        What::SandBack {
            faces: faces.to_vec(),
            to: Grit(to),
            reason,
        }
    }

    pub fn move_to(&self, to: Stage) -> What {
        What::Moved {
            from: self.ticket.stage,
            to,
        }
    }

    /// Moves along to the next stage that asks something.
    #[track_caller]
    pub fn move_on(&mut self) {
        let to = self.ticket.schedule.next_stage(self.ticket.stage).unwrap();
        self.log(self.move_to(to));
        assert_eq!(
            Ticket::of(&self.file),
            self.ticket,
            "the log folded anew tells the same"
        );
    }

    /// Sands, wipes and moves along.
    #[track_caller]
    pub fn through_sanding(&mut self) {
        let all = self.faces();
        self.sand(&all);
        if self.ticket.schedule.asks_wipe_down() {
            self.wipe(&all);
            self.later(60);
        }
        self.move_on();
    }

    /// Lays every coat still due in this stage, a day apart, scuffed or wiped off as asked.
    #[track_caller]
    pub fn lay_all(&mut self, kind: CoatKind) {
        loop {
            let due = self.ticket.due_faces(kind);
            if due.is_empty() {
                break;
            }
            let keyed = |key: &&FaceKey| {
                self.face(**key)
                    .last_coat()
                    .is_some_and(|coat| coat.kind == CoatKind::Topcoat)
            };
            let film: Vec<FaceKey> = due.iter().filter(keyed).copied().collect();
            if let Some(means) = self.ticket.schedule.scuff.filter(|_| !film.is_empty()) {
                self.scuff(&film, means);
            }
            self.coat(kind, &due);
            if kind == CoatKind::Stain {
                self.log(What::WipeOff { faces: due });
            }
            self.later(24 * 60);
        }
    }

    /// From bare wood to the end of the topcoats, and a week of curing.
    #[track_caller]
    pub fn through_topcoats(&mut self) {
        self.through_sanding();
        while let Some(kind) = CoatKind::of_stage(self.ticket.stage) {
            self.lay_all(kind);
            if self.ticket.stage == Stage::Topcoats {
                break;
            }
            self.move_on();
        }
        self.later(7 * 24 * 60);
    }

    pub fn waiting(&self) -> Waiting {
        waiting(&self.ticket, &self.gates(), self.now)
    }

    /// What the board says.
    pub fn board(&self) -> String {
        self.waiting().words(self.now, ZONE)
    }
}
