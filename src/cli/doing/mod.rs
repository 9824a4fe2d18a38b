//! Verbs that do something: each reads what was typed and hands one action to the desk.
//!
//! Lives here: one file a verb (or a verb and its twin). May not live here: any check of its own on what may be done; that
//! is the desk's, so that the screen and the commands can never differ.

pub mod accept;
pub mod air;
pub mod allow;
pub mod amend;
pub mod can;
mod can_args;
pub mod checks;
pub mod chore;
pub mod client;
pub mod close;
pub mod drying;
pub mod export;
pub mod fasten;
pub mod forecast;
pub mod hide;
pub mod hours;
pub mod import;
pub mod job;
pub mod learned;
pub mod logger;
pub mod mix;
pub mod moisture;
pub mod move_along;
pub mod offer;
pub mod own_wood;
pub mod pass;
pub mod piece;
pub mod product;
pub mod promise;
pub mod recipe;
pub mod remove;
pub mod retime;
pub mod sandback;
pub mod scuff;
pub mod setlist;
pub mod shop;
pub mod site;
pub mod stands;
pub mod steps;
pub mod strike;
pub mod template;
pub mod tick;
pub mod touch;
pub mod undo;
pub mod wipe;

/// Puts what was typed, if anything was, over what stood there.
fn put(over: &mut String, typed: Option<&String>) {
    if let Some(typed) = typed {
        over.clone_from(typed);
    }
}
