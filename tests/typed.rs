//! What a person types is read as meant, written back the same, and refused with one clear
//! sentence at its field.

#[path = "typed/bad_books.rs"]
mod bad_books;
#[path = "typed/bad_pieces.rs"]
mod bad_pieces;
#[path = "typed/notations.rs"]
mod notations;
#[path = "typed/round_trips.rs"]
mod round_trips;
#[path = "typed/shapes.rs"]
mod shapes;
#[path = "typed/shapes_back.rs"]
mod shapes_back;
#[path = "typed/shop.rs"]
mod shop;
