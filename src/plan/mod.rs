//! The order of work: one pair of hands, many drying pieces, dates that were promised.
//!
//! Lives here: what a planning instance is ([`Instance`]), the bench calendar, the decoder that
//! never makes a sheet that cannot be worked, the search for a good order, and what held each step
//! back. May not live here: pieces and products (the shop brings its tickets here as an instance),
//! the store, the screen, any reading of a clock, or randomness save from a seed that is passed in.

mod air;
mod bound;
mod calendar;
mod decode;
mod dispatch;
mod entry;
mod gap;
mod groups;
mod instance;
mod instance_check;
mod line_up;
mod model;
mod model_parts;
mod refit;
mod rng;
mod search;
mod sheet;
mod tally;
mod why;

pub use bound::{Bound, bound};
pub use entry::{Plan, Replayer, SearchSettings, replay};
pub use instance::{
    Arc, Family, FamilyId, Instance, Job, JobId, Minute, Op, OpId, Room, RoomId, Window,
};
pub use instance_check::InstanceError;
pub use sheet::{Broken, JobEnd, Line, Order, Sheet};
pub use why::Held;
