//! The desk room.
