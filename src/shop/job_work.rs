//! The work of a job's pieces in steps and sizes; which of it is done; what its hours teach.

use super::event::CoatKind;
use super::face_state::FaceState;
use super::hours_log::HoursEntry;
use super::id::{JobId, PieceId};
use super::piece::{PieceFile, PieceKind};
use super::schedule::WipeDown;
use super::stage::Stage;
use super::ticket::Ticket;
use crate::money::{Observed, Pace, StepKind, Work, learn_pace};
use crate::shape::FaceKey;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// Visits to a site that a job takes: to measure, and to set.
const VISITS: f64 = 2.0;

fn is_flat(face: FaceKey) -> bool {
    matches!(
        face,
        FaceKey::Top | FaceKey::Underside | FaceKey::Band | FaceKey::Field
    )
}

/// The work on one piece of a job; `alike` pieces are coated in one go and share the set-up, all
/// `pieces` of the job share the way.
fn work_of(file: &PieceFile, alike: f64, pieces: f64) -> Vec<Work> {
    let ticket = Ticket::of(file);
    let size = |of: &dyn Fn(&FaceState) -> f64| -> f64 {
        ticket
            .faces
            .iter()
            .map(|face| of(face) * face.area.sq_ft())
            .sum()
    };
    let most =
        |of: &dyn Fn(&FaceState) -> f64| -> f64 { ticket.faces.iter().map(of).fold(0.0, f64::max) };
    let top: f64 = ticket
        .faces
        .iter()
        .filter(|face| face.key == FaceKey::Top)
        .map(|face| face.area.sq_ft())
        .sum();
    let grits = |flat: bool| {
        move |ticket: &Ticket, face: &FaceState| {
            if is_flat(face.key) == flat {
                ticket.plan(face).grits.len() as f64
            } else {
                0.0
            }
        }
    };
    let mut out = Vec::new();
    let mut push = |step, times: f64, size: f64| {
        if times + size > 0.0 {
            out.push(Work { step, times, size });
        }
    };
    let (flat, edges) = (grits(true), grits(false));
    if file.piece.kind != PieceKind::Sample {
        push(StepKind::Measure, 1.0 / pieces, 1.0);
        push(StepKind::Make, 1.0, top);
    }
    let openings = file.piece.shape.openings().len() as f64;
    push(StepKind::Cutout, openings.min(1.0), openings);
    push(
        StepKind::Sand,
        most(&|face| flat(&ticket, face)),
        size(&|face| flat(&ticket, face)),
    );
    push(
        StepKind::SandEdges,
        most(&|face| edges(&ticket, face)),
        size(&|face| edges(&ticket, face)),
    );
    if ticket.schedule.wipe_down != WipeDown::NotAsked {
        push(StepKind::Wipe, 1.0, size(&|_| 1.0));
    }
    for (kind, step) in [
        (CoatKind::Seal, StepKind::Seal),
        (CoatKind::Stain, StepKind::Stain),
        (CoatKind::Topcoat, StepKind::Topcoat),
    ] {
        let asked = |face: &FaceState| f64::from(ticket.asked(face, kind));
        push(step, most(&asked) / alike, size(&asked));
    }
    if ticket.schedule.scuff.is_some() {
        let between = |face: &FaceState| {
            let coats = ticket.asked(face, CoatKind::Topcoat);
            f64::from(coats.saturating_sub(1))
        };
        push(StepKind::Scuff, most(&between), size(&between));
    }
    if file.piece.kind != PieceKind::Sample {
        push(StepKind::Set, 1.0, top);
        push(StepKind::Travel, VISITS / pieces, 0.0);
    }
    out
}

/// The work of every piece of one job, piece by piece. Pieces that follow the same recipe are taken
/// to be coated in one go.
pub fn job_work(files: &[&PieceFile]) -> Vec<(PieceId, Vec<Work>)> {
    let count = |test: &dyn Fn(&PieceFile) -> bool| {
        let found = files.iter().filter(|file| test(file)).count();
        found.max(1) as f64
    };
    let set = count(&|file| file.piece.kind != PieceKind::Sample);
    files
        .iter()
        .map(|file| {
            let alike = count(&|other| other.piece.recipe == file.piece.recipe);
            (file.piece.id, work_of(file, alike, set))
        })
        .collect()
}

/// Whether a piece is through with a kind of step.
pub fn step_done(ticket: &Ticket, step: StepKind) -> bool {
    let past = |stage| ticket.stage > stage;
    match step {
        StepKind::Measure
        | StepKind::Make
        | StepKind::Cutout
        | StepKind::Sand
        | StepKind::SandEdges
        | StepKind::Wipe => past(Stage::Sanding),
        StepKind::Seal => past(Stage::Sealing),
        StepKind::Stain => past(Stage::Staining),
        StepKind::Topcoat | StepKind::Scuff => past(Stage::Topcoats),
        StepKind::Set | StepKind::Travel | StepKind::Rework | StepKind::Other => {
            ticket.finished.is_some()
        }
    }
}

/// Steps whose hours count for the job as a whole.
fn of_job(step: StepKind) -> bool {
    matches!(step, StepKind::Measure | StepKind::Set | StepKind::Travel)
}

/// Minutes worked on a job, by step.
pub fn minutes_by_step(
    job: JobId,
    hours: &[HoursEntry],
    now: DateTime<Utc>,
) -> BTreeMap<StepKind, i64> {
    let mut seconds: BTreeMap<StepKind, i64> = BTreeMap::new();
    for entry in hours.iter().filter(|entry| entry.job == job) {
        *seconds.entry(entry.step).or_default() += entry.worked(now).num_seconds();
    }
    // Rounded once a step, so that many short entries do not lose their seconds.
    for sum in seconds.values_mut() {
        *sum = (*sum + 30) / 60;
    }
    seconds
}

/// What the hours of finished steps teach: one record a piece and step (a job and step for work at
/// the site). Hours on several pieces are shared by the size of the step on each.
pub fn observed(
    files: &[PieceFile],
    hours: &[HoursEntry],
    now: DateTime<Utc>,
) -> BTreeMap<StepKind, Vec<Observed>> {
    let mut jobs: BTreeMap<JobId, Vec<&PieceFile>> = BTreeMap::new();
    for file in files {
        jobs.entry(file.piece.job).or_default().push(file);
    }
    let mut out: BTreeMap<StepKind, Vec<Observed>> = BTreeMap::new();
    for (job, files) in jobs {
        let entries: Vec<&HoursEntry> = hours
            .iter()
            .filter(|entry| entry.job == job && !entry.runs())
            .collect();
        if entries.is_empty() {
            continue;
        }
        let work = job_work(&files);
        let tickets: Vec<Ticket> = files.iter().map(|file| Ticket::of(file)).collect();
        let all_done = |step| tickets.iter().all(|ticket| step_done(ticket, step));
        for step in StepKind::ALL {
            let on = |of: &[Work]| of.iter().find(|work| work.step == step).copied();
            let minutes = |entry: &HoursEntry| entry.worked(now).num_seconds() as f64 / 60.0;
            let of_step = || entries.iter().filter(|entry| entry.step == step);
            if of_step().next().is_none() {
                continue;
            }
            let seen = out.entry(step).or_default();
            if of_job(step) {
                let all: Vec<Work> = work.iter().filter_map(|(_, of)| on(of)).collect();
                if all_done(step) {
                    seen.push(Observed {
                        times: all.iter().map(|work| work.times).sum(),
                        size: all.iter().map(|work| work.size).sum(),
                        minutes: of_step().map(|entry| minutes(entry)).sum(),
                    });
                }
                continue;
            }
            let size = |piece: PieceId| {
                let of = work.iter().find(|(id, _)| *id == piece);
                of.and_then(|(_, of)| on(of))
                    .map_or(0.0, |work| work.size.max(1e-9))
            };
            for ((piece, of), ticket) in work.iter().zip(&tickets) {
                let (Some(own), true) = (on(of), step_done(ticket, step)) else {
                    continue;
                };
                let share = |entry: &HoursEntry| {
                    let pieces: Vec<PieceId> = if entry.pieces.is_empty() {
                        work.iter().map(|(id, _)| *id).collect()
                    } else {
                        entry.pieces.clone()
                    };
                    let whole: f64 = pieces.iter().map(|id| size(*id)).sum();
                    if pieces.contains(piece) && whole > 0.0 {
                        minutes(entry) * size(*piece) / whole
                    } else {
                        0.0
                    }
                };
                let logged: f64 = of_step().map(|entry| share(entry)).sum();
                if logged > 0.0 {
                    seen.push(Observed {
                        times: own.times,
                        size: own.size,
                        minutes: logged,
                    });
                }
            }
        }
    }
    out
}

/// The shop's pace at every step that is estimated.
pub fn paces(
    files: &[PieceFile],
    hours: &[HoursEntry],
    now: DateTime<Utc>,
) -> BTreeMap<StepKind, Pace> {
    let seen = observed(files, hours, now);
    StepKind::ALL
        .into_iter()
        .filter_map(|step| {
            let of = seen.get(&step).map_or(&[][..], Vec::as_slice);
            Some((step, learn_pace(step, of)?))
        })
        .collect()
}
