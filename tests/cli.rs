//! The commands, through the real binary: a job from measure to set, refusals, JSON, undo across
//! processes, bad input, the demo.

#[path = "cli/bad_input.rs"]
mod bad_input;
#[path = "cli/bench.rs"]
mod bench;
#[path = "cli/demo.rs"]
mod demo;
#[path = "cli/job.rs"]
mod job;
#[path = "cli/layout.rs"]
mod layout;
#[path = "cli/products.rs"]
mod products;
#[path = "cli/shapes.rs"]
mod shapes;
#[path = "cli/stores.rs"]
mod stores;
#[path = "cli/undo.rs"]
mod undo;
#[path = "cli/words.rs"]
mod words;
