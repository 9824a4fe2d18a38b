//! A recipe: a finish schedule with a name, written once.

use super::id::RecipeId;
use super::schedule::Schedule;
use serde::{Deserialize, Serialize};

/// A named finish schedule.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Recipe {
    /// Its identifier.
    pub id: RecipeId,
    /// What the shop calls it.
    pub name: String,
    /// The schedule, copied onto a piece when work on the piece starts.
    pub schedule: Schedule,
}
