//! One file a screen. Each holds its state, its key table and its view; the app around them holds
//! the shop as last read.

pub mod air;
mod air_plot;
pub mod bench;
mod bench_keys;
mod bench_list;
mod bench_view;
pub mod day_end;
pub mod drawing;
mod drawing_keys;
mod drawing_words;
pub mod job_book;
mod job_book_detail;
mod job_book_rows;
pub mod journal;
mod list;
mod picked;
pub mod rack;
mod rack_countdown;
mod rack_detail;
mod rack_rows;
pub mod recipes;
mod recipes_words;
mod sheet;
pub mod shelf;
mod shelf_passes;
mod shelf_products;
mod shelf_tally;
pub mod ticket;
mod ticket_detail;
mod ticket_keys;
mod ticket_log;
mod ticket_ticks;
mod ticket_view;
pub mod walk;
pub mod wood;
pub mod woods;
