//! `hours.csv` and `breaks.csv`: the hours log and its interruptions.

use super::estimates::pick;
use super::{Out, each, known, named};
use crate::money::StepKind;
use crate::shop::{Break, HoursEntry, HoursId, JobId, PieceFile, PieceId};
use crate::store::files::error::{Fault, FilesError};
use crate::store::files::import::Reading;
use crate::store::files::keys::Ring;
use crate::store::files::text::NAME_MOST;
use crate::store::files::times;

pub(super) const FILE: &str = "hours.csv";
pub(super) const BREAKS_FILE: &str = "breaks.csv";

const HOURS: &[&str] = &["id", "job", "pieces", "step", "started", "ended"];
const BREAKS: &[&str] = &["hours", "from", "until", "why"];
const TIME: &str = "write a time like 2026-11-20T14:00:00.000Z";

pub(super) fn read(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
    pieces: &Ring<PieceId>,
    files: &[PieceFile],
) -> Result<Vec<HoursEntry>, FilesError> {
    let mut out: Vec<(HoursEntry, u64)> = Vec::new();
    let mut ring = Ring::new("entry of the hours log");
    let (now, zone) = (reading.now, reading.zone);
    let moment = |text: &str| times::read_moment(text, now, zone);
    each(reading, FILE, HOURS, |reading, line| {
        let id = named(reading, line, &mut ring, HoursId)?;
        let job = known(line, "job", jobs)?;
        let mut on = Vec::new();
        for key in line.cell("pieces").split_whitespace() {
            let piece = pieces.find(key).map_err(|fault| line.fail(fault))?;
            let of_job = |file: &PieceFile| file.piece.id == piece && file.piece.job == job;
            if !files.iter().any(of_job) {
                return Err(line.bad("pieces", "each must be a piece of this job."));
            }
            on.push(piece);
        }
        on.sort_unstable();
        on.dedup();
        let entry = HoursEntry {
            id,
            job,
            pieces: on,
            step: pick(line, "step", &StepKind::ALL, StepKind::word)?,
            started: line.must("started", TIME, moment)?,
            ended: line.maybe("ended", moment)?,
            breaks: Vec::new(),
        };
        if entry.runs() && out.iter().any(|(other, _)| other.runs()) {
            return Err(line.bad("ended", "only one clock can run: write when this ended."));
        }
        out.push((entry, line.no));
        Ok(())
    })?;
    each(reading, BREAKS_FILE, BREAKS, |reading, line| {
        let id = known(line, "hours", &ring)?;
        let one = Break {
            from: line.must("from", TIME, moment)?,
            until: line.maybe("until", moment)?,
            why: line.line("why", NAME_MOST, &mut reading.notes)?,
        };
        let of = out.iter_mut().filter(|(entry, _)| entry.id == id);
        of.for_each(|(entry, _)| entry.breaks.push(one.clone()));
        Ok(())
    })?;
    for (entry, line) in &out {
        entry.check(now).map_err(|error| {
            let (what, why) = ("started", error.to_string());
            Fault::Value { what, why }.at(FILE, *line)
        })?;
    }
    Ok(out.into_iter().map(|(entry, _)| entry).collect())
}

pub(super) fn table(hours: &[HoursEntry]) -> Out {
    let row = |of: &HoursEntry| {
        let pieces: Vec<String> = of.pieces.iter().map(ToString::to_string).collect();
        vec![
            of.id.to_string(),
            of.job.to_string(),
            pieces.join(" "),
            of.step.word().to_owned(),
            times::moment(of.started),
            of.ended.map_or_else(String::new, times::moment),
        ]
    };
    (FILE, HOURS, hours.iter().map(row).collect())
}

pub(super) fn breaks_table(hours: &[HoursEntry]) -> Out {
    let rows = hours.iter().flat_map(|of| {
        of.breaks.iter().map(|one| {
            vec![
                of.id.to_string(),
                times::moment(one.from),
                one.until.map_or_else(String::new, times::moment),
                one.why.clone(),
            ]
        })
    });
    (BREAKS_FILE, BREAKS, rows.collect())
}
