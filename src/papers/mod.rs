//! The papers: what is printed or handed over, as text.
//!
//! Lives here: turning what the shop knows into lines for paper. May not live here: the store,
//! the screen, a reading of the clock.

mod words;

pub use words::event_words;
