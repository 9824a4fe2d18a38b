//! The shape room.
