//! The cli room.
