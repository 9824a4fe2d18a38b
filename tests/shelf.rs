//! The cans: what is left and how that is known, where the rest went to the microlitre and to the
//! cent, what is asked before it is believed, and the files that carry it.

#[allow(dead_code)] // Shared with the tests of the shop's air.
#[path = "air/shop.rs"]
mod shop;

#[path = "shelf/balance.rs"]
mod balance;
#[allow(dead_code)] // Shared with the other tests of the commands.
#[path = "cli/bench.rs"]
mod bench;
#[path = "shelf/commands.rs"]
mod commands;
#[path = "shelf/files.rs"]
mod files;
#[path = "shelf/fold.rs"]
mod fold;
#[path = "shelf/questions.rs"]
mod questions;
#[path = "shelf/rig.rs"]
mod rig;
