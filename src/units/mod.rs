//! The units room.
