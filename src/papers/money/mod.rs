//! Money on paper, as plain text: estimate, deal, what is owed, reminder, hours against estimate.
//!
//! Lives here: lines of text from figures that are reckoned already. May not live here: the
//! reckoning, the store, the screen.

mod deal;
mod estimate;
mod owed;
mod slip;

pub use deal::deal_paper;
pub use estimate::{estimate_paper, hours_range, pace_paper};
pub use owed::{owed_paper, reminder_text};
pub use slip::{hours_code, hours_paper, slip_paper};
