//! tackfree: the whole job of a one-person wood-top shop, from the first call to the finish
//! record.
//!
//! The rooms, from the ground up (a room knows only those before it in this list):
//! [`units`], [`shape`], [`wood`], [`coating`], [`plan`], [`money`], [`shop`], [`desk`], [`store`], [`papers`], [`tui`], [`cli`].

pub mod cli;
pub mod coating;
pub mod desk;
pub mod money;
pub mod papers;
pub mod plan;
pub mod shape;
pub mod shop;
pub mod store;
pub mod tui;
pub mod units;
pub mod wood;
