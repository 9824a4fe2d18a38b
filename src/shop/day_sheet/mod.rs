//! The day sheet: from tickets to an order of work, and back to words.
//!
//! Lives here: what is left to do on each piece, how long that takes and waits, the instance for the
//! planner, the sheet read back from it, why each line stands where it does, what would save a late
//! job, what changed since the sheet that was kept. May not live here: the store, the screen, a
//! clock. The planner below knows nothing of pieces.

mod axis;
mod changes;
mod cures;
mod facts;
mod floor;
mod lags;
mod sheet;
mod sheet_read;
mod solve;
mod to_plan;
mod to_plan_calendar;
mod todo;
mod todo_below;
mod todo_walk;
mod why;
mod worked;

pub use changes::{Changed, WeekLoad, changes, load};
pub use cures::{Because, Change, Cure, LateJob, late_jobs};
pub use floor::Floor;
pub use sheet::lags_of;
pub use sheet::{JobOutlook, Line, Made, PieceOutlook, Sheet, make};
pub use solve::Effort;
pub use to_plan::{Built, OpIs};
pub use todo::{PieceWork, Todo};
pub use todo_walk::remaining;
pub use why::Why;
pub use worked::{Course, Truth};
