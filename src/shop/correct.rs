//! A time corrected afterwards, and whether the log still holds together with it.
//!
//! The log's order is the order in which it was recorded (that of the identifiers), and a
//! corrected time never changes it: on each face the times must rise along it. A time that would
//! put a line before the work recorded ahead of it, or after the work recorded behind it, is
//! refused; to say that two things were done the other way round, take both back and log them
//! anew.

use super::blocker::Blocker;
use super::check::{Gates, Strictness, faces_of};
use super::event::{Event, What};
use super::face_state::FaceState;
use super::id::EventId;
use super::piece::PieceFile;
use super::ticket::Ticket;
use chrono::{DateTime, Utc};

/// The new time of one line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Retimed {
    /// The line.
    pub line: EventId,
    /// Of a coat: when its pass started.
    pub started: Option<DateTime<Utc>>,
    /// When it was done; of a coat, when its pass ended.
    pub at: DateTime<Utc>,
}

/// When a line began: a coat at the start of its pass, anything else at its own moment.
fn begins(event: &Event) -> DateTime<Utc> {
    match &event.what {
        What::Coat { started, .. } => *started,
        _ => event.at,
    }
}

/// The whole log led through the gates as a record of the past: for each line, every reason
/// against it. A log that was let in line by line has none.
pub fn against_record(
    file: &PieceFile,
    gates: &Gates<'_>,
    now: DateTime<Utc>,
) -> Vec<Vec<Blocker>> {
    led(file, gates, Strictness::Record, now)
}

fn led(
    file: &PieceFile,
    gates: &Gates<'_>,
    strictness: Strictness,
    now: DateTime<Utc>,
) -> Vec<Vec<Blocker>> {
    let gates = Gates {
        strictness,
        ..*gates
    };
    let mut ticket = Ticket::blank(&file.piece, &file.schedule, &file.events);
    let mut out = Vec::with_capacity(file.events.len());
    for event in &file.events {
        let mut against = gates.check(&ticket, event, now);
        whole_piece(&ticket, event, &mut against);
        ticket.fold(event);
        out.push(against);
    }
    out
}

/// The order of lines that speak of the whole piece: a move, a change of shape and the set list
/// come after the work recorded before them, and after the move before them.
fn whole_piece(ticket: &Ticket, event: &Event, out: &mut Vec<Blocker>) {
    if !faces_of(&event.what).is_empty() {
        return;
    }
    let worked = |face: &FaceState| face.last_work.map(|last| (last, face.key));
    if let Some((last, face)) = ticket.faces.iter().filter_map(worked).max()
        && last > event.at
    {
        out.push(Blocker::BeforeLastWork { face, last });
    }
    if let Some(since) = ticket.stage_since.filter(|since| *since > event.at) {
        let stage = ticket.stage;
        out.push(Blocker::BeforeMove { stage, since });
    }
}

/// The log with these times, or every reason why it would not hold together.
///
/// # Errors
/// The reasons that the old times did not give: a line before what came before it, a line after
/// what came after it, one in the future, a pass that ends before it starts.
pub fn retime(
    file: &PieceFile,
    times: &[Retimed],
    gates: &Gates<'_>,
    now: DateTime<Utc>,
) -> Result<PieceFile, Vec<Blocker>> {
    let new = with_times(file, times);
    let (before, after) = (
        against_record(file, gates, now),
        against_record(&new, gates, now),
    );
    let mut out = Vec::new();
    for ((event, old), against) in new.events.iter().zip(before).zip(after) {
        let named = times.iter().any(|time| time.line == event.id);
        for blocker in against.into_iter().filter(|one| !old.contains(one)) {
            let said = match blocker {
                // Said of the line whose time is corrected, not of the one it ran into.
                Blocker::BeforeLastWork { face, .. } if !named => Blocker::AfterNextWork {
                    face: Some(face),
                    next: begins(event),
                },
                Blocker::BeforeMove { .. } if !named => Blocker::AfterNextWork {
                    face: None,
                    next: begins(event),
                },
                other => other,
            };
            if !out.contains(&said) {
                out.push(said);
            }
        }
    }
    if out.is_empty() { Ok(new) } else { Err(out) }
}

/// Lines that live work would not have been let in with, had these times been known then; those
/// that the old times had against them already are left out.
pub fn late_doubts(
    old: &PieceFile,
    new: &PieceFile,
    gates: &Gates<'_>,
    now: DateTime<Utc>,
) -> Vec<(EventId, Blocker)> {
    let lead = |file| led(file, gates, Strictness::Live, now);
    let mut out = Vec::new();
    for ((event, before), after) in new.events.iter().zip(lead(old)).zip(lead(new)) {
        let fresh = after.into_iter().filter(|one| !before.contains(one));
        out.extend(fresh.map(|blocker| (event.id, blocker)));
    }
    out
}

fn with_times(file: &PieceFile, times: &[Retimed]) -> PieceFile {
    let mut new = file.clone();
    for event in &mut new.events {
        let Some(time) = times.iter().find(|time| time.line == event.id) else {
            continue;
        };
        event.at = time.at;
        if let (What::Coat { started, .. }, Some(new)) = (&mut event.what, time.started) {
            *started = new;
        }
    }
    new
}

/// The lines that were logged in one go with this one: the ticks of one grit at one moment, one
/// after another. Any other line stands alone; none if the piece has no such line.
pub fn together(file: &PieceFile, line: EventId) -> Vec<EventId> {
    let events = file.events.as_slice();
    let Some(no) = events.iter().position(|event| event.id == line) else {
        return Vec::new();
    };
    let with = |one: &Event, other: &Event| match (&one.what, &other.what) {
        (What::Tick { grit, .. }, What::Tick { grit: same, .. }) => {
            grit == same && one.at == other.at
        }
        _ => false,
    };
    let at = &events[no];
    let first = events[..no]
        .iter()
        .rposition(|before| !with(before, at))
        .map_or(0, |before| before + 1);
    let after = events[no + 1..]
        .iter()
        .position(|after| !with(after, at))
        .unwrap_or(events.len() - no - 1);
    events[first..=no + after]
        .iter()
        .map(|event| event.id)
        .collect()
}
