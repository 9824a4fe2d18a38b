//! The store keeps what it is given: every kind of row comes back as it went in, actions are undone
//! and done again on disk, and two programs may use one store.

#[path = "store/shop.rs"]
mod shop;

#[path = "store/round_trip.rs"]
mod round_trip;
