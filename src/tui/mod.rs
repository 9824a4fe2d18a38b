//! The tui room.
