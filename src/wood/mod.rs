//! Wood and its moisture: what the air of a room makes of a top, how far it moves, and what the
//! coats on its faces hold back.
//!
//! Lives here: the table of woods, moisture content and readings, movement and the gaps and slots
//! that follow from it, moisture exclusion and cup risk, and what a client is told of it; every
//! figure with its source and its [`Standing`]. May not live here: products and drying, pieces and
//! their histories, the store, the screen, any reading of a clock; time is passed in.
//!
//! Published data sit as CSV in `data/` and are built in. Figures of movement and cup are always
//! ranges ([`Between`]) with the words they rest on.

mod between;
pub mod client_page;
pub mod moisture;
pub mod movement;
pub mod sealing;
pub mod species;
mod standing;
pub mod weight;

pub use between::Between;
pub use standing::Standing;
