//! The general toolkit of the screen room: the terminal, its input, looks, text by display width,
//! and the few shapes that every screen is put together from (form, pager, table, block
//! digits, key table).
//!
//! Nothing in here knows the trade. A shape is a plain state with a `key` function that changes
//! it and a `draw` function that only reads it; drawing returns where the cursor belongs, where
//! there is one. Words of the shop, colours of meaning and the order of screens live above.

pub mod big;
pub mod draw;
pub mod events;
pub mod field;
pub mod form;
mod form_rows;
pub mod form_view;
pub mod key;
pub mod keymap;
pub mod line_edit;
pub mod options;
pub mod pager;
pub mod plot;
pub mod table;
pub mod terminal;
pub mod text;
pub mod theme;

pub use key::Key;
pub use theme::{Look, Theme};
