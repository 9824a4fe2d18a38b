//! The shop's air from the desk to the disk and back: readings, loggers' files, the forecast, touch
//! tests that teach, and what the Rack makes of it.

#[allow(dead_code)] // Shared with the other tests of the commands.
#[path = "cli/bench.rs"]
mod bench;
#[path = "air/clock.rs"]
mod clock;
#[path = "air/commands.rs"]
mod commands;
#[path = "air/files.rs"]
mod files;
#[path = "air/learning.rs"]
mod learning;
#[path = "air/logger.rs"]
mod logger;
#[path = "air/rack.rs"]
mod rack;
#[path = "air/readings.rs"]
mod readings;
#[path = "air/shop.rs"]
mod shop;
