//! The drying clock by shop air: what must hold for any log, any product and any span.

#[path = "drying/support.rs"]
mod support;

#[path = "drying/properties.rs"]
mod properties;

#[path = "drying/log.rs"]
mod log;

#[path = "drying/words.rs"]
mod words;

#[path = "drying/learning.rs"]
mod learning;

#[path = "drying/logger.rs"]
mod logger;

#[path = "drying/logger_asks.rs"]
mod logger_asks;
