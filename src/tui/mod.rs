//! The tui room.

pub mod forms;
pub mod kit;
