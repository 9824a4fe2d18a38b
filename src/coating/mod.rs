//! The coating room.
