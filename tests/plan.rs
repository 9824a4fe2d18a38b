//! The planner judged from outside: what it lays out can be worked, what it says it costs is what
//! it costs, and the books' theorems hold.

#[path = "plan/checker.rs"]
mod checker;
#[path = "plan/explains.rs"]
mod explains;
#[path = "plan/made.rs"]
mod made;
#[path = "plan/properties.rs"]
mod properties;
#[path = "plan/refusals.rs"]
mod refusals;
#[path = "plan/theory.rs"]
mod theory;
#[path = "plan/weeks.rs"]
mod weeks;
