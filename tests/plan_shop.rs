//! The planning of days: bench hours, the sheet made from tickets, steps begun and finished from it,
//! what is kept, promises.

#[path = "plan_shop/calibration.rs"]
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "minutes of a few weeks, and places of a short list"
)]
mod calibration;
#[path = "plan_shop/commands.rs"]
mod commands;
#[path = "plan_shop/demo.rs"]
mod demo;
#[path = "day/hand.rs"]
#[allow(dead_code, reason = "the day's hand has more than is used here")]
mod hand;
#[path = "plan_shop/hours.rs"]
mod hours;
#[path = "plan_shop/kept.rs"]
mod kept;
#[path = "plan_shop/promises.rs"]
mod promises;
#[path = "plan_shop/sheets.rs"]
mod sheets;
#[path = "plan_shop/steps.rs"]
mod steps;
#[path = "plan_shop/times.rs"]
mod times;
#[path = "plan_shop/typed.rs"]
mod typed;

#[path = "cli/bench.rs"]
#[allow(dead_code, reason = "the commands' bench has more than is used here")]
mod bench;
