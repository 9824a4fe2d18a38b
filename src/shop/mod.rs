//! The shop's own matter, pure: clients, jobs, pieces, recipes, the log of a piece, the gates.
//!
//! Lives here: what is true of a piece from its schedule and its log, what may be done to it, and
//! every reason why not. May not live here: the store, the screen, or any reading of a clock;
//! time is passed in.

mod blocker;
mod brief;
mod caution;
mod check;
mod chore;
mod correct;
mod day_close;
mod deal;
mod dryness;
mod event;
mod face_state;
mod hours_log;
mod id;
mod job_work;
mod layout;
mod moisture;
mod money_book;
mod moves;
pub mod moving;
mod next_step;
mod out_of_sight;
mod pass;
mod people;
mod piece;
mod price_book;
mod rack;
mod rack_film;
mod rack_film_words;
mod ready_made;
mod reason;
mod recipe;
mod schedule;
mod settings;
mod stage;
mod tally;
mod ticket;
mod waits;

pub use blocker::Blocker;
pub use caution::{
    Caution, cautions_for_job, cautions_for_pass, cautions_for_scuff, cautions_for_stage,
    cautions_for_wipe, sanding_cautions,
};
pub use check::{Gates, Strictness};
pub use chore::{Chore, ChoreDone, DayClosed, DayLog, RagWay};
pub use correct::{Retimed, against_record, late_doubts, retime, together};
pub use day_close::{Call, Cause, DayEnd, DayState, day_end, day_of, is_late, left_open};
pub use deal::{
    Agreement, ChangeOrder, EstimateKept, Invoice, JobTerms, Payment, Sample, Signed, SignedAt,
};
pub use dryness::Films;
pub use event::{CoatKind, Event, ScuffMeans, SetItem, TouchVerdict, What};
pub use face_state::{Coat, FaceState};
pub use hours_log::{Break, HoursEntry, HoursLogError};
pub use id::{
    ChangeId, ClientId, EstimateId, EventId, HoursId, InvoiceId, JobId, PassId, PaymentId, PieceId,
    ReadingId, RecipeId, SampleId, WoodId,
};
pub use job_work::{job_work, minutes_by_step, observed, paces, step_done};
pub use layout::{LayoutBook, PieceLayout};
pub use moisture::{FastenerError, Moisture, PieceWood, ShopWood, Site, SiteAir, WoodBook};
pub use money_book::{Account, MoneyBook};
pub use next_step::waiting;
pub use out_of_sight::out_of_sight;
pub use pass::{Air, Amount, AmountBasis, Pass};
pub use people::{Client, Job};
pub use piece::{Piece, PieceFile, PieceKind};
pub use price_book::PriceBook;
pub use rack::{RackRow, RackState, rack};
pub use rack_film::{ABRADES_WITH, DryStage, Film, FilmWindow, Milestone, RackLine, rack_lines};
pub use ready_made::{ready_products, ready_recipes};
pub use reason::ReasonFor;
pub use recipe::Recipe;
pub use schedule::{Grit, GroupPlan, Schedule, ScheduleError, WipeDown};
pub use settings::{LookChoice, Settings};
pub use stage::Stage;
pub use tally::{Planned, TallyRow, planned_use, tally};
pub use ticket::Ticket;
pub use waits::{Shows, Waiting};
