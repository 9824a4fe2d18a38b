//! What a sheet is made from, and how long its steps take.

use super::todo::{Todo, is_flat};
use crate::coating::{Family, Product, ProductId};
use crate::shop::bench_book::PlanBook;
use crate::shop::check::Gates;
use crate::shop::event::CoatKind;
use crate::shop::id::JobId;
use crate::shop::people::Job;
use crate::shop::piece::PieceFile;
use crate::shop::sheet_kept::StepCode;
use crate::shop::step_times::{Spread, Step};
use crate::units::Area;
use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;

/// The shop as the planning of days sees it.
#[derive(Clone, Copy)]
pub struct Floor<'a> {
    /// The pieces with their logs.
    pub files: &'a [PieceFile],
    /// The jobs.
    pub jobs: &'a [Job],
    /// The gates over the shop's products and its drying clock: the safe one.
    pub gates: Gates<'a>,
    /// The products again, for as long as the gates'.
    pub products: &'a [Product],
    /// Bench hours and the like.
    pub book: &'a PlanBook,
    /// The shop's zone.
    pub zone: Tz,
    /// The moment.
    pub now: DateTime<Utc>,
}

impl<'a> Floor<'a> {
    /// A product.
    pub fn product(&self, id: ProductId) -> Option<&'a Product> {
        self.products.iter().find(|product| product.id == id)
    }

    /// A job.
    pub fn job(&self, id: JobId) -> Option<&'a Job> {
        self.jobs.iter().find(|job| job.id == id)
    }

    /// Today in the shop.
    pub fn today(&self) -> NaiveDate {
        self.day_of(self.now)
    }

    /// The day of a moment in the shop.
    pub fn day_of(&self, at: DateTime<Utc>) -> NaiveDate {
        at.with_timezone(&self.zone).date_naive()
    }

    /// How long a step takes, minutes; set-up and travel come on top.
    pub fn spread(&self, todo: &Todo) -> Spread {
        let times = &self.book.bench.times;
        let area = Area::from_m2(todo.flat.m2() + todo.edge.m2());
        let over = |step: Step, area: Area| times.of(step).over(area);
        match todo.key.step {
            StepCode::Sand(_) => {
                let flat = todo.faces.iter().any(|face| is_flat(*face));
                let edge = todo.faces.iter().any(|face| !is_flat(*face));
                let one = |has: bool, step, area| {
                    if has {
                        over(step, area)
                    } else {
                        Spread::default()
                    }
                };
                one(flat, Step::SandFlat, todo.flat) + one(edge, Step::SandEdge, todo.edge)
            }
            StepCode::WipeDown => over(Step::WipeDown, area),
            StepCode::Touch => over(Step::Touch, area),
            // Half of the stain's work is taking it off again.
            StepCode::WipeOff => {
                let whole = over(Step::Stain, area);
                Spread {
                    low: whole.low / 2.0,
                    likely: whole.likely / 2.0,
                    high: whole.high / 2.0,
                }
            }
            StepCode::Scuff(..) if todo.abrades => over(Step::Abrade, area),
            StepCode::Scuff(..) => over(Step::Scuff, area),
            StepCode::Coat(..) => over(self.coat_step(todo), area),
            StepCode::Set => over(Step::Set, todo.flat),
        }
    }

    /// By which kind of step a coat counts.
    pub fn coat_step(&self, todo: &Todo) -> Step {
        let family = todo
            .product
            .and_then(|id| self.product(id))
            .map(|product| product.family);
        match (todo.key.step, family) {
            (StepCode::Coat(CoatKind::Stain, _), _) => Step::Stain,
            (_, Some(Family::Lacquer)) => Step::Spray,
            _ => Step::Coat,
        }
    }

    /// Which kind of step it counts as: its rate is drawn once a run when promises are simulated.
    pub fn step_kind(&self, todo: &Todo) -> Step {
        match todo.key.step {
            StepCode::Sand(_) => Step::SandFlat,
            StepCode::WipeDown => Step::WipeDown,
            StepCode::Touch => Step::Touch,
            StepCode::WipeOff => Step::Stain,
            StepCode::Scuff(..) if todo.abrades => Step::Abrade,
            StepCode::Scuff(..) => Step::Scuff,
            StepCode::Coat(..) => self.coat_step(todo),
            StepCode::Set => Step::Set,
        }
    }
}
