//! The tui room.

pub mod kit;
