//! The shop's own matter, pure: clients, jobs, pieces, recipes, the log of a piece, the gates.
//!
//! Lives here: what is true of a piece from its schedule and its log, what may be done to it, and
//! every reason why not. May not live here: the store, the screen, or any reading of a clock;
//! time is passed in.

mod blocker;
mod caution;
mod check;
mod dryness;
mod event;
mod face_state;
mod id;
mod layout;
mod moves;
mod next_step;
mod pass;
mod people;
mod piece;
mod rack;
mod ready_made;
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
pub use event::{CoatKind, Event, ScuffMeans, SetItem, TouchVerdict, What};
pub use face_state::{Coat, FaceState};
pub use id::{ClientId, EventId, JobId, PassId, PieceId, RecipeId};
pub use layout::{LayoutBook, PieceLayout};
pub use next_step::waiting;
pub use pass::{Air, Amount, AmountBasis, Pass};
pub use people::{Client, Job};
pub use piece::{Piece, PieceFile, PieceKind};
pub use rack::{RackRow, RackState, rack};
pub use ready_made::{ready_products, ready_recipes};
pub use recipe::Recipe;
pub use schedule::{Grit, GroupPlan, Schedule, ScheduleError, WipeDown};
pub use settings::{LookChoice, Settings};
pub use stage::Stage;
pub use tally::{Planned, TallyRow, planned_use, tally};
pub use ticket::Ticket;
pub use waits::{Shows, Waiting};
