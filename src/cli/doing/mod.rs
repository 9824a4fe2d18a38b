//! Verbs that do something: each reads what was typed and hands one action to the desk.
//!
//! Lives here: one file a verb. May not live here: any check of its own on what may be done; that
//! is the desk's, so that the screen and the commands can never differ.

pub mod accept;
pub mod amend;
pub mod checks;
pub mod client;
pub mod export;
pub mod hide;
pub mod import;
pub mod job;
pub mod move_along;
pub mod pass;
pub mod piece;
pub mod product;
pub mod recipe;
pub mod remove;
pub mod sandback;
pub mod scuff;
pub mod setlist;
pub mod shop;
pub mod stands;
pub mod template;
pub mod tick;
pub mod touch;
pub mod undo;
pub mod wipe;
pub mod wiped_off;

/// Puts what was typed, if anything was, over what stood there.
fn put(over: &mut String, typed: Option<&String>) {
    if let Some(typed) = typed {
        over.clone_from(typed);
    }
}
