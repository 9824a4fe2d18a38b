//! What a person types is read as meant, written back the same, and refused with one clear
//! sentence at its field.

#[path = "typed/bad_input.rs"]
mod bad_input;
#[path = "typed/round_trips.rs"]
mod round_trips;
#[path = "typed/shop.rs"]
mod shop;
