//! What the router needs for one cut: passes, feed, template guide and template, cautions.
//!
//! Lives here: the arithmetic of a cut through a top, from the thickness, the bit, the guide and
//! the size wanted. May not live here: where on the piece the cut lies, or anything stored.

mod error;
mod feed;
mod guide;
mod passes;
mod plan;
mod router;

pub use error::CutError;
pub use feed::{Derate, Feed, chip_band, derate, feed_per_minute};
pub use guide::{CutSide, Guide, Template, TemplateForm, offset};
pub use passes::{CleanUp, CutPass, DepthRule, passes};
pub use plan::{CUT_CAUTIONS, CutCaution, CutPlan, UNDERMOUNT_CAUTION, plan, plan_outline};
pub use router::Router;
