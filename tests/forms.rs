//! Keys pressed into each form come out as the action meant, what is wrong is told at its field,
//! and no keys whatever upset a form.

#[path = "forms/any_keys.rs"]
mod any_keys;
#[path = "forms/books.rs"]
mod books;
#[path = "forms/hands.rs"]
mod hands;
#[path = "forms/shapes.rs"]
mod shapes;
#[path = "typed/shop.rs"]
mod shop;
#[path = "forms/telling.rs"]
mod telling;
#[path = "forms/work.rs"]
mod work;
