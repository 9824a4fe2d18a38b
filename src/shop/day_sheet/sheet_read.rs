//! The sheet read back from an instance and its times.

use super::floor::Floor;
use super::lags::PieceLags;
use super::sheet::{JobOutlook, Line, PieceOutlook};
use super::to_plan::{Built, OpIs, Pin, planned};
use super::to_plan_calendar::due_at;
use super::todo::{PieceWork, Todo};
use super::why::reasons;
use super::worked::split_end;
use crate::shop::hours::Open;
use crate::shop::id::JobId;
use crate::shop::{Ticket, waiting};
use chrono::{DateTime, Utc};
use std::collections::HashMap;

pub(super) fn lines(
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

pub(super) fn outlooks(
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

pub(super) fn pieces(
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
