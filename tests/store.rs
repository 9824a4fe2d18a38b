//! The store keeps what it is given: every kind of row comes back as it went in, actions are undone
//! and done again on disk, and two programs may use one store.

#[path = "store/shop.rs"]
mod shop;

#[path = "store/rows.rs"]
mod rows;

#[path = "store/round_trip.rs"]
mod round_trip;

#[path = "store/shapes.rs"]
mod shapes;

#[path = "store/work.rs"]
mod work;

#[path = "store/undo.rs"]
mod undo;

#[path = "store/two.rs"]
mod two;

#[path = "store/scopes.rs"]
mod scopes;

#[path = "store/from_one.rs"]
mod from_one;
#[path = "store/words.rs"]
mod words;
