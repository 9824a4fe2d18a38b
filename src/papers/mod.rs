//! The papers room.
