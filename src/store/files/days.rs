//! `day.csv`: the days' ends: chores as they were ticked, days as they were closed.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::meaning;
use super::table::Table;
use super::text::LINE_MOST;
use super::times;
use crate::shop::{Chore, ChoreDone, DayClosed, DayLog, RagWay, ReasonFor};

pub(super) const DAYS: &[&str] = &["day", "what", "how", "at", "reason"];

pub(super) const FILE: &str = "day.csv";

/// Said of a day that was closed.
const CLOSED: &str = "closed";

/// Reads the days' ends. Shops written before there were any have no such file.
pub(super) fn read(reading: &mut Reading<'_>) -> Result<DayLog, FilesError> {
    let mut log = DayLog::default();
    let table = match Table::open(&reading.source, FILE, DAYS) {
        Err(FilesError::NoFile { .. }) => return Ok(log),
        other => other?,
    };
    table.each(|line| {
        let (now, zone, today) = (reading.now, reading.zone, reading.today);
        let day = line.must("day", "write a date like 2026-11-20", |text| {
            times::read_date(text, today)
        })?;
        let at = line.must("at", "write a time like 2026-11-20T18:00:00.000Z", |text| {
            times::read_moment(text, now, zone)
        })?;
        if at > now {
            return Err(line.bad("at", "it is still to come."));
        }
        if day > today {
            return Err(line.bad("day", "it is still to come."));
        }
        let twice = || {
            let key = format!("{day} {}", line.cell("what"));
            line.fail(Fault::Twice {
                what: "line of the day's end",
                key,
            })
        };
        if line.cell("what") == CLOSED {
            line.nothing_in(&["how"], CLOSED)?;
            let reason = line.line("reason", LINE_MOST, &mut reading.notes)?;
            if !reason.is_empty() && !ReasonFor::Hiding.is_met_by(&reason) {
                return Err(line.bad("reason", "write two words or more, or leave it empty."));
            }
            if log.closed(day).is_some() {
                return Err(twice());
            }
            log.closed.push(DayClosed {
                day,
                at,
                reason: (!reason.is_empty()).then_some(reason),
            });
            return Ok(());
        }
        let chore = line.must("what", "write closed, or the chore", meaning::chore)?;
        line.nothing_in(&["reason"], chore.code())?;
        let way = line.maybe("how", meaning::rag_way)?;
        match (chore, way) {
            (Chore::OilyRags, None) => {
                let why = "write how oily rags were made safe: flat-outdoors or water-can.";
                return Err(line.bad("how", why));
            }
            (Chore::OilyRags, Some(_)) | (_, None) => {}
            (_, Some(_)) => line.nothing_in(&["how"], chore.code())?,
        }
        if log.done(day, chore).is_some() {
            return Err(twice());
        }
        log.done.push(ChoreDone {
            day,
            chore,
            way,
            at,
        });
        Ok(())
    })?;
    Ok(log)
}

/// The rows of all days, in the order of the days.
pub(super) fn rows(log: &DayLog) -> Vec<Vec<String>> {
    let ticked = log.done.iter().map(|done| {
        let row = vec![
            times::date(done.day),
            done.chore.code().to_owned(),
            done.way.map_or("", RagWay::code).to_owned(),
            times::moment(done.at),
            String::new(),
        ];
        ((done.day, Some(done.chore)), row)
    });
    let closed = log.closed.iter().map(|closed| {
        let row = vec![
            times::date(closed.day),
            CLOSED.to_owned(),
            String::new(),
            times::moment(closed.at),
            closed.reason.clone().unwrap_or_default(),
        ];
        ((closed.day, None), row)
    });
    let mut all: Vec<_> = ticked.chain(closed).collect();
    // The closing after the chores of its day.
    all.sort_by_key(|((day, chore), _)| (*day, chore.is_none(), *chore));
    all.into_iter().map(|(_, row)| row).collect()
}
