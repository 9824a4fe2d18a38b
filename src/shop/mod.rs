//! The shop's own matter, pure: clients, jobs, pieces, recipes, the log of a piece, the gates.
//!
//! Lives here: what is true of a piece from its schedule and its log, what may be done to it, and
//! every reason why not. May not live here: the store, the screen, or any reading of a clock;
//! time is passed in.

mod bench_book;
mod blocker;
mod brief;
mod can;
mod can_fold;
mod can_log;
mod can_money;
mod can_state;
mod caution;
mod chance;
mod check;
mod chore;
mod correct;
mod day_close;
pub mod day_sheet;
mod deal;
mod deciding;
mod dry_stage;
mod dryness;
mod event;
mod face_state;
mod finish_differs;
mod finish_record;
mod hours;
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
pub mod promise;
mod promise_record;
mod rack;
mod rack_film;
mod rack_film_words;
mod ready_made;
mod reason;
mod recipe;
mod schedule;
mod settings;
mod sheet_kept;
mod stage;
mod step_learn;
mod step_times;
mod tally;
mod tally_by;
mod tally_film;
mod tally_lines;
mod ticket;
mod use_batches;
mod use_book;
mod use_buy;
mod use_mix;
mod use_needs;
mod use_rates;
mod use_short;
mod waits;

pub use bench_book::{BenchBook, BenchBookError, Interruptions, PlanBook};
pub use blocker::Blocker;
pub use can::{Came, Can, DAYS_SOON, Keeps, KeepsDay};
pub use can_fold::{CanBook, CanRecords, fold_cans};
pub use can_log::{CanLine, CanWhat, Draw, Drawn, JarFor, Loss, Weights};
pub use can_money::{split_money, split_volume};
pub use can_state::{
    Age, CanMove, CanStanding, CanState, CanSums, EmptyWeight, Known, MoveOf, Qty,
};
pub use caution::{
    Caution, cautions_for_discard, cautions_for_job, cautions_for_pass, cautions_for_scuff,
    cautions_for_stage, cautions_for_wipe, sanding_cautions,
};
pub use check::{Gates, Strictness};
pub use chore::{Chore, ChoreDone, DayClosed, DayLog, RagWay};
pub use correct::{Retimed, against_record, late_doubts, retime, together};
pub use day_close::{
    Call, Cause, DayEnd, DayState, day_end, day_of, is_late, left_open, rags_left,
};
pub use deal::{
    Agreement, ChangeOrder, EstimateKept, Invoice, JobTerms, Payment, Sample, Signed, SignedAt,
};
pub use deciding::{deciding, film_faces};
pub use dry_stage::DryStage;
pub use dryness::Films;
pub use event::{CoatKind, Event, ScuffMeans, SetItem, TouchVerdict, What};
pub use face_state::{Coat, FaceState};
pub use finish_differs::{Difference, Differs, Value, differences};
pub use finish_record::{FinishRecord, RecordCoat, RecordFace};
pub use hours::{
    DaySpan, HoursError, Open, Slot, SlotMeans, WEEK, WeekHours, hours_of, instant, long_day,
    open_times,
};
pub use hours_log::{Break, HoursEntry, HoursLogError};
pub use id::{
    CanId, CanLineId, ChangeId, ClientId, EstimateId, EventId, HoursId, InvoiceId, JobId, PassId,
    PaymentId, PieceId, PromiseId, ReadingId, RecipeId, SampleId, SlotId, WoodId,
};
pub use job_work::{job_work, minutes_by_step, observed, paces, step_done};
pub use layout::{LayoutBook, PieceLayout};
pub use moisture::{FastenerError, Moisture, PieceWood, ShopWood, Site, SiteAir, WoodBook};
pub use money_book::{Account, MoneyBook};
pub use next_step::waiting;
pub use pass::{Air, Amount, AmountBasis, Pass};
pub use people::{Client, Job};
pub use piece::{Piece, PieceFile, PieceKind};
pub use price_book::PriceBook;
pub use promise_record::{OddsBand, Promise, PromiseState, Share, shares};
pub use rack::{RackRow, RackState, rack};
pub use rack_film::{ABRADES_WITH, Film, FilmWindow, Milestone, RackLine, rack_lines};
pub use ready_made::{ready_products, ready_recipes};
pub use reason::ReasonFor;
pub use recipe::Recipe;
pub use schedule::{Grit, GroupPlan, Schedule, ScheduleError, WipeDown};
pub use settings::{LookChoice, Settings};
pub use sheet_kept::{KeptJob, KeptLine, KeptSheet, StepCode, StepKey, UnderWay};
pub use stage::Stage;
pub use step_learn::Timed;
pub use step_times::{Range, Spread, Step, StepTime, StepTimeError, StepTimes};
pub use tally::{Planned, TallyRow, planned_use, planned_use_by, tally, tally_at, tally_from};
pub use tally_by::{GroupKey, ShelfSums, TallyBy, TallyGroup, TallyOf, UseRow, tally_by};
pub use tally_film::{FaceFilm, MethodFilm, face_films};
pub use tally_lines::{UseLine, batches, use_lines};
pub use ticket::Ticket;
pub use use_book::{Offer, Struck, UseBook, UseRuleError, UseRules};
pub use use_buy::{Begun, BuyFrom, BuyLine, BuyPlan, JobStain, OnShelf, StainFrom, what_to_buy};
pub use use_mix::{Measured, Mix, MixBy, MixError, MixPart, RATIO_OFF, Scaled};
pub use use_needs::{Bases, Need, needs};
pub use use_rates::{
    NEWEST_PASSES, RateBasis, RateBook, RateInUse, RateKey, RateLine, SeenPass, method_of,
};
pub use use_short::{JobBatch, Short, short};
pub use waits::{Shows, Waiting};
