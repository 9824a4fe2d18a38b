//! What there is to plan: bench hours, rooms, products, jobs, steps and what binds them.
//!
//! All times are whole minutes from a moment the caller chooses (midnight before the first week
//! does well). The names of the fields are those of the JSON an instance is read from.

use serde::{Deserialize, Serialize};

/// A moment, or a span, in whole minutes.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Minute(pub i64);

/// Names a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct OpId(pub i64);

/// Names a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct JobId(pub i64);

/// Names a room. One that [`Instance::rooms`] does not list (the client's house) has no rack to
/// run full.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct RoomId(pub i64);

/// Names a family of passes that share a set-up: one per product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct FamilyId(pub i64);

/// A time at the bench without a break: from `open` until `close`, that minute not included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(from = "(i64, i64)", into = "(i64, i64)")]
pub struct Window {
    /// The first minute at the bench.
    pub open: Minute,
    /// The first minute no longer at the bench.
    pub close: Minute,
}

impl From<(i64, i64)> for Window {
    fn from((open, close): (i64, i64)) -> Self {
        Self {
            open: Minute(open),
            close: Minute(close),
        }
    }
}

impl From<Window> for (i64, i64) {
    fn from(window: Window) -> Self {
        (window.open.0, window.close.0)
    }
}

/// A room of the shop and its rack.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Room {
    /// Its name.
    pub id: RoomId,
    /// Places for drying pieces; `None` is no limit.
    #[serde(default)]
    pub rack: Option<u32>,
}

/// Passes with one product, which share a set-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Family {
    /// Its name.
    pub id: FamilyId,
    /// Minutes of set-up, when the step before was of another family or too long ago.
    pub setup: Minute,
    /// How long after the end of a step of the family the set-up still stands.
    pub keep: Minute,
}

/// A job and what was promised.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// Its name.
    pub id: JobId,
    /// What a minute of lateness weighs.
    pub weight: i64,
    /// The promised end of its last step.
    pub due: Minute,
    /// No step of it starts before.
    #[serde(default)]
    pub release: Minute,
}

/// A step: work of the one pair of hands, and what it leaves drying or dusty.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Op {
    /// Its name.
    pub id: OpId,
    /// The job it belongs to.
    pub job: JobId,
    /// Minutes of work, before set-up and extra abrading.
    pub work: Minute,
    /// The room it is done in and dries in.
    pub room: RoomId,
    /// Whether it may be left at a break or at closing time and gone on with later.
    pub split: bool,
    /// Whether it makes dust.
    pub dust: bool,
    /// How long after its end its dust hangs in the air of the room.
    #[serde(default)]
    pub settle: Minute,
    /// How long after its end its coat is open to dust; zero is not at all.
    #[serde(default)]
    pub wet: Minute,
    /// How long after its end it needs a place in the room's rack; zero is not at all.
    #[serde(default)]
    pub hold: Minute,
    /// The family whose set-up it needs.
    #[serde(default)]
    pub family: Option<FamilyId>,
    /// It does not start before.
    #[serde(default)]
    pub release: Minute,
    /// Start and end, when it is done or under way: it stands as it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub done: Option<(Minute, Minute)>,
}

/// What binds the start of one step to the end of another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Arc {
    /// The step that comes first.
    pub from: OpId,
    /// The step that follows it.
    pub to: OpId,
    /// Shortest time from the end of `from` to the start of `to` (drying).
    pub min: Minute,
    /// Longest time, where the work is spoilt beyond it (a stain is wiped off before it sets).
    #[serde(default)]
    pub max: Option<Minute>,
    /// Longest time before `to` costs `extra` more (a recoat window, then abrading).
    #[serde(default)]
    pub window: Option<Minute>,
    /// Minutes added to the work of `to` beyond `window`.
    #[serde(default)]
    pub extra: Minute,
}

/// Everything the planner is told. What else stands in the JSON is passed over.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Instance {
    /// Every start lies on a multiple of so many minutes.
    pub grid: Minute,
    /// Nothing starts before.
    pub now: Minute,
    /// Where the calendar ends.
    pub horizon: Minute,
    /// A step that is split has no part shorter than this.
    #[serde(default)]
    pub min_chunk: Minute,
    /// Bench hours, ascending, none over another.
    pub calendar: Vec<Window>,
    /// Rooms with racks.
    #[serde(default)]
    pub rooms: Vec<Room>,
    /// Products with a set-up.
    #[serde(default)]
    pub families: Vec<Family>,
    /// The jobs.
    pub jobs: Vec<Job>,
    /// Their steps.
    pub ops: Vec<Op>,
    /// What binds them.
    #[serde(default)]
    pub arcs: Vec<Arc>,
}
