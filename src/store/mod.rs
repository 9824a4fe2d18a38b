//! The store room.
pub mod files;
