//! The sheet: what to do when, at which piece, with which product, and how the jobs come out.

use super::floor::Floor;
use super::lags::{self, PieceLags, Times};
use super::sheet_read::{lines, outlooks, pieces};
use super::solve::{Effort, again, solve};
use super::to_plan::{Built, OpIs, Pin, build};
use super::todo::PieceWork;
use super::todo_walk::remaining;
use super::why::Why;
use crate::coating::ProductId;
use crate::shape::FaceKey;
use crate::shop::Blocker;
use crate::shop::event::ScuffMeans;
use crate::shop::hours::Open;
use crate::shop::id::{JobId, PieceId};
use crate::shop::sheet_kept::{StepCode, StepKey};
use crate::shop::waits::Waiting;
use chrono::{DateTime, Duration, NaiveDate, Utc};
use std::sync::atomic::AtomicBool;

/// One line of the sheet: a step with its time.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Which step of which piece.
    pub key: StepKey,
    /// The job.
    pub job: JobId,
    /// When it starts.
    pub start: DateTime<Utc>,
    /// When it ends.
    pub end: DateTime<Utc>,
    /// Its parts, where breaks and nights part it.
    pub parts: Vec<Open>,
    /// The faces it goes over.
    pub faces: Vec<FaceKey>,
    /// With which product.
    pub product: Option<ProductId>,
    /// With what, of a scuff.
    pub means: Option<ScuffMeans>,
    /// Whether the scuff must cut a film whose window was missed.
    pub abrades: bool,
    /// How many coats of its kind are asked in all.
    pub of: u8,
    /// Minutes of set-up in it.
    pub setup: i64,
    /// Minutes of abrading in it, because a window will have shut by then.
    pub extra: i64,
    /// Until when it must have started to spare the abrading.
    pub shuts: Option<DateTime<Utc>>,
    /// When what it lays lets the next step of this piece start.
    pub next_from: Option<DateTime<Utc>>,
    /// Whether it is under way.
    pub under_way: bool,
    /// Why then, and why it.
    pub why: Vec<Why>,
}

/// How a job comes out.
#[derive(Debug, Clone, PartialEq)]
pub struct JobOutlook {
    /// The job.
    pub job: JobId,
    /// The promised day.
    pub promised: Option<NaiveDate>,
    /// Until when it may be set on that day.
    pub due: Option<DateTime<Utc>>,
    /// When its last step ends; none where something holds it.
    pub end: Option<DateTime<Utc>>,
    /// Minutes of work left.
    pub work: i64,
}

impl JobOutlook {
    /// How late it will be; none where it is not promised, held, or in time.
    pub fn late(&self) -> Option<Duration> {
        let late = self.end? - self.due?;
        (late > Duration::zero()).then_some(late)
    }

    /// What is to spare up to the promised end; none where it is late, held or not promised.
    pub fn slack(&self) -> Option<Duration> {
        let slack = self.due? - self.end?;
        (slack >= Duration::zero()).then_some(slack)
    }
}

/// How a piece stands.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceOutlook {
    /// The piece.
    pub piece: PieceId,
    /// What it waits for now.
    pub waits: Waiting,
    /// Its next line on the sheet, by place.
    pub next: Option<usize>,
    /// When its last step ends.
    pub end: Option<DateTime<Utc>>,
    /// Why it can get no further than its last line.
    pub held: Option<Blocker>,
    /// Whether a film on it does not dry in the air expected.
    pub never_dries: bool,
}

/// The whole sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The moment it was made for.
    pub now: DateTime<Utc>,
    /// Its lines, in order of time.
    pub lines: Vec<Line>,
    /// How the jobs come out, by number.
    pub jobs: Vec<JobOutlook>,
    /// How the open pieces stand.
    pub pieces: Vec<PieceOutlook>,
    /// The order of the day as it was kept was left as it was.
    pub kept_order: bool,
    /// What could not be planned and why, in words.
    pub doubts: Vec<String>,
}

/// What the sheet was made from, for those who replan with a change.
#[derive(Debug, Clone)]
pub struct Made {
    /// The sheet.
    pub sheet: Sheet,
    /// What is left to do, by piece.
    pub works: Vec<PieceWork>,
    /// The instance.
    pub built: Built,
    /// Start and end of its steps.
    pub times: Vec<(i64, i64)>,
    /// The lags it was made with.
    pub lags: Vec<PieceLags>,
}

/// How often a sheet with its order held is tried again with later drying, at the most; a few times
/// are enough.
const SETTLES: usize = 40;

/// Makes the sheet. Two runs over the same state with the same effort give the same sheet, unless
/// `stop` is set meanwhile: then it is the best found so far.
pub fn make(floor: &Floor<'_>, effort: Effort, stop: &AtomicBool) -> Made {
    let open = floor.files.iter().filter(|file| !file.piece.finished);
    let works: Vec<PieceWork> = open
        .clone()
        .map(|file| remaining(file, &floor.gates, floor.now))
        .collect();
    let pins = pins(floor, &works);
    let mut lags: Vec<PieceLags> = works
        .iter()
        .map(|work| lags::lags(floor, work, &lags::alone(floor, work, floor.now)))
        .collect();
    let chain = kept_chain(floor, &works);
    let mut doubts = Vec::new();
    let (mut built, mut times, mut kept_order) =
        (build(floor, &works, &lags, &pins, &[]), None, false);
    let raise = |built: &Built, times: &[(i64, i64)], lags: &mut [PieceLags]| {
        let mut raised = false;
        for (place, work) in works.iter().enumerate() {
            let known = step_times(built, times, place, work);
            let count = known.len();
            let mut full = lags::alone(floor, work, floor.now);
            full[..count].copy_from_slice(&known);
            raised |= lags::raise(floor, work, &full, &mut lags[place]);
        }
        raised
    };
    let mut raised = false;
    for round in 0..=effort.refine {
        let effort = Effort {
            // The first rounds only feel out when coats will dry.
            rounds: if round == 0 && effort.refine > 1 {
                effort.rounds / 4
            } else {
                effort.rounds
            },
            ..effort
        };
        (built, times, kept_order) = best(floor, (&works, &lags, &pins), &chain, effort, stop);
        let Some(times) = &times else { break };
        raised = raise(&built, times, &mut lags);
        if !raised && round > 0 {
            break;
        }
    }
    // A new search may always find a new order that runs into other lags. With the order held,
    // steps only move later and lags only grow: it comes to rest.
    for _ in 0..SETTLES {
        let Some(found) = times.as_ref().filter(|_| raised) else {
            break;
        };
        let held: &[(usize, usize)] = if kept_order { &chain } else { &[] };
        built = build(floor, &works, &lags, &pins, held);
        times = again(&built, found);
        raised = times
            .as_ref()
            .is_some_and(|times| raise(&built, times, &mut lags));
    }
    let times = times.unwrap_or_else(|| {
        if works.iter().any(|work| !work.todos.is_empty()) {
            doubts.push(match built.instance.check() {
                Err(error) => format!("No sheet could be made: {error}."),
                Ok(()) => "No sheet could be made from this.".to_owned(),
            });
        }
        Vec::new()
    });
    doubts.extend(built.doubts.iter().cloned());
    let lines = lines(floor, &works, &built, &times, &pins);
    let sheet = Sheet {
        now: floor.now,
        jobs: outlooks(floor, &works, &lines, &lags),
        pieces: pieces(floor, &works, &lines, &lags),
        lines,
        kept_order,
        doubts,
    };
    Made {
        sheet,
        works,
        built,
        times,
        lags,
    }
}

/// The lags of a sheet's steps by the floor's clock, at the times the sheet gives them.
pub fn lags_of(floor: &Floor<'_>, made: &Made) -> Vec<PieceLags> {
    made.works
        .iter()
        .enumerate()
        .map(|(place, work)| {
            let known = step_times(&made.built, &made.times, place, work);
            let mut full = lags::alone(floor, work, floor.now);
            full[..known.len()].copy_from_slice(&known);
            lags::lags(floor, work, &full)
        })
        .collect()
}

/// The best times found, with the kept order where that costs no lateness.
fn best(
    floor: &Floor<'_>,
    (works, lags, pins): (&[PieceWork], &[PieceLags], &[Pin]),
    chain: &[(usize, usize)],
    effort: Effort,
    stop: &AtomicBool,
) -> (Built, Option<Vec<(i64, i64)>>, bool) {
    let free = build(floor, works, lags, pins, &[]);
    let times = solve(&free, effort, stop);
    if chain.len() < 2 {
        return (free, times, false);
    }
    let held = build(floor, works, lags, pins, chain);
    let held_times = solve(&held, effort, stop);
    let late = |times: &Option<Vec<(i64, i64)>>| times.as_ref().map(|times| free.lateness(times));
    match (late(&held_times), late(&times)) {
        (Some(held_late), Some(late)) if held_late <= late => (held, held_times, true),
        (Some(_), None) => (held, held_times, true),
        _ => (free, times, false),
    }
}

/// Steps that stand where they are: the one under way, then stain that must be wiped off now.
fn pins(floor: &Floor<'_>, works: &[PieceWork]) -> Vec<Pin> {
    let mut out: Vec<Pin> = Vec::new();
    let mut free = floor.now;
    let first =
        |place: usize, work: &PieceWork| work.todos.first().map(|todo| (place, todo.clone()));
    if let Some(under) = floor.book.under_way {
        let found = works
            .iter()
            .enumerate()
            .filter_map(|(place, work)| first(place, work))
            .find(|(_, todo)| todo.key == under.key);
        if let Some((piece, todo)) = found {
            let end = under.since.min(floor.now) + minutes(floor.spread(&todo).likely);
            free = free.max(end);
            out.push(Pin {
                piece,
                step: 0,
                start: under.since.min(floor.now),
                end: free,
                under_way: true,
            });
        }
    }
    for (piece, work) in works.iter().enumerate() {
        let Some((_, todo)) = first(piece, work) else {
            continue;
        };
        if todo.key.step == StepCode::WipeOff && !out.iter().any(|pin| pin.piece == piece) {
            let end = free + minutes(floor.spread(&todo).likely);
            out.push(Pin {
                piece,
                step: 0,
                start: free,
                end,
                under_way: false,
            });
            free = end;
        }
    }
    out
}

fn minutes(minutes: f64) -> Duration {
    // A step takes days at the most.
    #[allow(clippy::cast_possible_truncation)]
    Duration::minutes(minutes.clamp(1.0, 1e6).ceil() as i64)
}

/// The steps of the kept order of today that are still to be done, in that order.
fn kept_chain(floor: &Floor<'_>, works: &[PieceWork]) -> Vec<(usize, usize)> {
    let today = floor.today();
    let Some(kept) = floor.book.kept.as_ref().filter(|kept| kept.day == today) else {
        return Vec::new();
    };
    let of_today = kept
        .lines
        .iter()
        .filter(|line| floor.day_of(line.start) == today);
    of_today
        .filter_map(|line| {
            works.iter().enumerate().find_map(|(piece, work)| {
                let at = work.todos.iter().position(|todo| todo.key == line.key)?;
                Some((piece, at))
            })
        })
        .collect()
}

/// Start and end of the planned steps of one piece.
fn step_times(built: &Built, times: &[(i64, i64)], place: usize, work: &PieceWork) -> Vec<Times> {
    let mut out = Vec::with_capacity(work.todos.len());
    for (is, (start, end)) in built.ops.iter().zip(times) {
        if matches!(is, OpIs::Todo(piece, _) if *piece == place) {
            out.push((built.axis.at(*start), built.axis.at(*end)));
        }
    }
    out
}
