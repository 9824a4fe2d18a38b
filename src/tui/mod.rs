//! The screens: state, pure update, view, keymaps.
//!
//! Lives here: what is drawn and what a key means. May not live here: SQL, rules about wood and
//! finish, a reading of the clock; what a person wants done goes to the desk as an action.

pub mod app;
mod app_day;
mod app_due;
mod app_layers;
pub mod app_view;
pub mod forms;
mod global_keys;
pub mod kit;
mod layer;
pub mod run;
mod run_logger;
pub mod screen;
pub mod screens;

pub use run::{Outside, RunError, run};
