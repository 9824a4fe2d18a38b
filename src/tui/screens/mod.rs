//! The screens themselves, one folder or file each.
//!
//! Lives here: what each screen shows and what its keys mean. May not live here: rules about wood
//! and finish (they are asked of the shop), SQL, or anything that writes: a screen only wishes.

pub mod job_book;
mod job_book_detail;
mod job_book_rows;
pub mod journal;
mod list;
mod picked;
pub mod rack;
mod rack_countdown;
pub mod recipes;
mod recipes_words;
pub mod shelf;
mod shelf_passes;
mod shelf_products;
mod shelf_tally;
