//! The sheet: what to do when, at which piece, with which product, and how the jobs come out.

use super::floor::Floor;
use super::lags::{self, PieceLags, Times};
use super::solve::{Effort, solve};
use super::to_plan::{Built, OpIs, Pin, build, due_at, planned};
use super::todo::{PieceWork, Todo, remaining};
use super::why::{Why, reasons};
use super::worked::split_end;
use crate::coating::ProductId;
use crate::shape::FaceKey;
use crate::shop::event::ScuffMeans;
use crate::shop::hours::Open;
use crate::shop::id::{JobId, PieceId};
use crate::shop::sheet_kept::{StepCode, StepKey};
use crate::shop::waits::Waiting;
use crate::shop::{Blocker, Ticket, waiting};
use chrono::{DateTime, Duration, NaiveDate, Utc};
use std::collections::HashMap;
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
        let mut raised = false;
        for (place, work) in works.iter().enumerate() {
            let known = step_times(&built, times, place, work);
            let count = known.len();
            let mut full = lags::alone(floor, work, floor.now);
            full[..count].copy_from_slice(&known);
            raised |= lags::raise(floor, work, &full, &mut lags[place]);
        }
        if !raised && round > 0 {
            break;
        }
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
    let again = solve(&held, effort, stop);
    let late = |times: &Option<Vec<(i64, i64)>>| times.as_ref().map(|times| free.lateness(times));
    match (late(&again), late(&times)) {
        (Some(held_late), Some(late)) if held_late <= late => (held, again, true),
        (Some(_), None) => (held, again, true),
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

fn lines(
    floor: &Floor<'_>,
    works: &[PieceWork],
    built: &Built,
    times: &[(i64, i64)],
    pins: &[Pin],
) -> Vec<Line> {
    let mut order: Vec<usize> = (0..times.len())
        .filter(|op| matches!(built.ops[*op], OpIs::Todo(..)))
        .collect();
    order.sort_by_key(|op| (times[*op].0, times[*op].1, *op));
    let why = reasons(floor, works, built, times, &order);
    let mut out = Vec::new();
    for (op, why) in order.iter().zip(why) {
        let OpIs::Todo(piece, at) = built.ops[*op] else {
            continue;
        };
        let todo: &Todo = &works[piece].todos[at];
        let (start, end) = times[*op];
        let work = built.instance.ops[*op].work.0;
        let facts = built.facts(times, &order, *op);
        let pin = pins.iter().find(|pin| (pin.piece, pin.step) == (piece, at));
        let (start_at, end_at) = match pin {
            Some(pin) => (pin.start, pin.end),
            None => (built.axis.at(start), built.axis.at(end)),
        };
        out.push(Line {
            key: todo.key,
            job: works[piece].job,
            start: start_at,
            end: end_at,
            parts: parts(
                built,
                start,
                work + facts.setup + facts.extra,
                (start_at, end_at),
            ),
            faces: todo.faces.clone(),
            product: todo.product,
            means: todo.means,
            abrades: todo.abrades,
            of: todo.of,
            setup: facts.setup,
            extra: facts.extra,
            shuts: facts.shuts.map(|minute| built.axis.at(minute)),
            next_from: facts.next_from.map(|minute| built.axis.at(minute)),
            under_way: pin.is_some_and(|pin| pin.under_way),
            why,
        });
    }
    out
}

/// The parts of a step between breaks.
fn parts(built: &Built, start: i64, work: i64, whole: (DateTime<Utc>, DateTime<Utc>)) -> Vec<Open> {
    let mut out = Vec::new();
    let mut left = work;
    for window in &built.instance.calendar {
        if window.close.0 <= start || left <= 0 {
            continue;
        }
        let from = start.max(window.open.0);
        let to = window.close.0.min(from + left);
        left -= to - from;
        out.push(Open {
            from: built.axis.at(from),
            to: built.axis.at(to),
        });
    }
    if out.len() < 2 || split_end(&built.instance.calendar, start, work) != built.axis.up(whole.1) {
        return vec![Open {
            from: whole.0,
            to: whole.1,
        }];
    }
    out
}

fn outlooks(
    floor: &Floor<'_>,
    works: &[PieceWork],
    lines: &[Line],
    lags: &[PieceLags],
) -> Vec<JobOutlook> {
    let mut by_job: HashMap<JobId, bool> = HashMap::new();
    for (work, lags) in works.iter().zip(lags) {
        let whole = work.held.is_none() && planned(lags) == work.todos.len();
        let all = by_job.entry(work.job).or_insert(true);
        *all = *all && whole;
    }
    let mut out = Vec::new();
    for job in floor.jobs {
        let Some(whole) = by_job.get(&job.id) else {
            continue;
        };
        let of_job = || lines.iter().filter(|line| line.job == job.id);
        let end = of_job().map(|line| line.end).max();
        out.push(JobOutlook {
            job: job.id,
            promised: job.promised,
            due: job.promised.map(|day| due_at(floor, day)),
            end: end.filter(|_| *whole),
            work: of_job()
                .flat_map(|line| &line.parts)
                .map(|part| (part.to - part.from).num_minutes())
                .sum(),
        });
    }
    out.sort_by_key(|outlook| floor.job(outlook.job).map(|job| job.no));
    out
}

fn pieces(
    floor: &Floor<'_>,
    works: &[PieceWork],
    lines: &[Line],
    lags: &[PieceLags],
) -> Vec<PieceOutlook> {
    let mut out = Vec::new();
    for (work, lags) in works.iter().zip(lags) {
        let Some(file) = floor.files.iter().find(|file| file.piece.id == work.piece) else {
            continue;
        };
        let of_piece = |line: &Line| line.key.piece == work.piece;
        let never_dries = planned(lags) < work.todos.len();
        let whole = work.held.is_none() && !never_dries;
        let end = lines
            .iter()
            .filter(|line| of_piece(line))
            .map(|line| line.end)
            .max();
        out.push(PieceOutlook {
            piece: work.piece,
            waits: waiting(&Ticket::of(file), &floor.gates, floor.now),
            next: lines.iter().position(of_piece),
            end: end.filter(|_| whole),
            held: work.held.clone(),
            never_dries,
        });
    }
    out
}
