//! The shop room.
