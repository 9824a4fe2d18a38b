//! The day's end, the checks before a pass, work logged late and times corrected afterwards.

#[path = "day/chores.rs"]
mod chores;
#[path = "day/closing.rs"]
mod closing;
#[path = "day/commands.rs"]
mod commands;
#[path = "day/conditions.rs"]
mod conditions;
#[path = "day/corrected.rs"]
mod corrected;
#[path = "day/hand.rs"]
mod hand;
#[path = "day/looks.rs"]
mod looks;
#[path = "day/older.rs"]
mod older;
#[allow(dead_code, reason = "the screens' rig has more than is used here")]
mod rig;
#[path = "day/there_and_back.rs"]
mod there_and_back;

#[path = "cli/bench.rs"]
#[allow(dead_code, reason = "the commands' bench has more than is used here")]
mod bench;
