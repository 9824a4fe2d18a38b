//! One file a screen. Each holds its state, its key table and its view; the app around them holds
//! the shop as last read.

pub mod bench;
mod bench_view;
pub mod ticket;
mod ticket_view;
pub mod walk;
