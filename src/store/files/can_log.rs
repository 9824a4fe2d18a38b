//! `can_log.csv`: what happened to cans beside the passes.

use super::cans::Cans;
use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{Words, pick, word};
use super::table::Line;
use super::text::LINE_MOST;
use super::times;
use super::wood::maybe;
use super::words;
use crate::shop::{Came, Can, CanId, CanLine, CanLineId, CanWhat, ClientId, JarFor, JobId};
use crate::units::Volume;

pub(super) const FILE: &str = "can_log.csv";

pub(super) const LOG: &[&str] = &[
    "id", "can", "at", "what", "weight", "volume", "client", "job", "into", "reason", "place",
];

/// What happened, without its figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Opened,
    Weighed,
    Jar,
    Lost,
    MixedInto,
    Discarded,
    Moved,
}

const KINDS: Words<Kind> = &[
    (Kind::Opened, "opened"),
    (Kind::Weighed, "weighed"),
    (Kind::Jar, "jar"),
    (Kind::Lost, "lost"),
    (Kind::MixedInto, "mixed-into"),
    (Kind::Discarded, "discarded"),
    (Kind::Moved, "moved"),
];

/// Reads the log, into the cans.
pub(super) fn read(
    reading: &mut Reading<'_>,
    out: &mut Cans,
    ring: &Ring<CanId>,
    (clients, jobs): (&Ring<ClientId>, &Ring<JobId>),
) -> Result<(), FilesError> {
    let Some(table) = maybe(reading, FILE, LOG)? else {
        return Ok(());
    };
    table.each(|line| {
        let id = match line.maybe("id", key_word)? {
            None => reading.keys.mint(),
            Some(key) => {
                let twice = Fault::Twice {
                    what: "line of a can's log",
                    key: super::table::short(&key),
                };
                let id = reading.keys.of(&key).ok_or_else(|| line.fail(twice))?;
                reading.keys.after(&key);
                id
            }
        };
        let find = |key: &str| ring.find(key).map_err(|fault| fault.to_string());
        let can = line.must("can", "write the id of the can", find)?;
        let (now, zone) = (reading.now, reading.zone);
        let cure = "write a time like 2026-11-20T18:00:00.000Z";
        let at = line.must("at", cure, |text| times::read_moment(text, now, zone))?;
        if at > now {
            return Err(line.bad("at", "it is still to come."));
        }
        let Some(of) = out.cans.iter().find(|known| known.id == can) else {
            return Err(line.bad("can", "there is no such can."));
        };
        if at.with_timezone(&zone).date_naive() < of.day(zone) {
            return Err(line.bad("at", "it is before the can came."));
        }
        let what = what(reading, line, of, &out.cans, (ring, clients, jobs))?;
        out.lines.push(CanLine {
            id: CanLineId(id),
            can,
            at,
            what,
        });
        Ok(())
    })
}

fn what(
    reading: &mut Reading<'_>,
    line: &Line<'_>,
    of: &Can,
    cans: &[Can],
    (ring, clients, jobs): (&Ring<CanId>, &Ring<ClientId>, &Ring<JobId>),
) -> Result<CanWhat, FilesError> {
    let kind = line.must("what", "write what happened", |text| pick(KINDS, text))?;
    let said: &[&'static str] = match kind {
        Kind::Opened => &[],
        Kind::Weighed => &["weight"],
        Kind::Jar => &["volume", "client", "job"],
        Kind::Lost => &["volume", "reason"],
        Kind::MixedInto => &["volume", "into"],
        Kind::Discarded => &["reason"],
        Kind::Moved => &["place"],
    };
    let others: Vec<&'static str> = LOG
        .iter()
        .skip(4)
        .copied()
        .filter(|column| !said.contains(column))
        .collect();
    line.nothing_in(&others, word(KINDS, &kind))?;
    let volume = || {
        let volume = line.must("volume", "write how much", words::read_volume)?;
        if volume > Volume::ZERO {
            Ok(volume)
        } else {
            Err(line.bad("volume", "it must be more than nothing."))
        }
    };
    Ok(match kind {
        Kind::Opened => CanWhat::Opened,
        Kind::Weighed => {
            CanWhat::Weighed(line.must("weight", "write what it weighed", words::read_mass)?)
        }
        Kind::Jar => {
            let client = line.maybe("client", |key| {
                clients.find(key).map_err(|fault| fault.to_string())
            })?;
            let job = line.maybe("job", |key| {
                jobs.find(key).map_err(|fault| fault.to_string())
            })?;
            let to = match (client, job) {
                (Some(client), None) => JarFor::Client(client),
                (None, Some(job)) => JarFor::Job(job),
                _ => return Err(line.bad("client", "a jar is for a client or for a job.")),
            };
            CanWhat::Jar {
                volume: volume()?,
                to,
            }
        }
        Kind::Lost => CanWhat::Lost {
            volume: volume()?,
            reason: line.name("reason", LINE_MOST, &mut reading.notes)?,
        },
        Kind::MixedInto => {
            let find = |key: &str| ring.find(key).map_err(|fault| fault.to_string());
            let into = line.must("into", "write the id of the mixed can", find)?;
            let mixed = cans.iter().find(|can| can.id == into);
            if !mixed.is_some_and(|can| matches!(can.came, Came::Mixed { .. })) {
                return Err(line.bad("into", "that can was bought, not mixed."));
            }
            if mixed.is_some_and(|can| can.product != of.product) {
                return Err(line.bad("into", "that can holds another product."));
            }
            if into <= of.id {
                return Err(line.bad("into", "a mixed can comes after those it is mixed of."));
            }
            CanWhat::MixedInto {
                into,
                volume: volume()?,
            }
        }
        Kind::Discarded => CanWhat::Discarded {
            reason: line.name("reason", LINE_MOST, &mut reading.notes)?,
        },
        Kind::Moved => CanWhat::Moved {
            place: line.name("place", LINE_MOST, &mut reading.notes)?,
        },
    })
}

/// A log line's cells.
pub(super) fn line_row(line: &CanLine) -> Vec<String> {
    let mut cells = vec![String::new(); LOG.len()];
    let mut put = |column: &str, text: String| {
        let at = LOG.iter().position(|name| *name == column);
        if let Some(cell) = at.and_then(|at| cells.get_mut(at)) {
            *cell = text;
        }
    };
    put("id", line.id.to_string());
    put("can", line.can.to_string());
    put("at", times::moment(line.at));
    let kind = match &line.what {
        CanWhat::Opened => Kind::Opened,
        CanWhat::Weighed(mass) => {
            put("weight", words::mass(*mass));
            Kind::Weighed
        }
        CanWhat::Jar { volume, to } => {
            put("volume", words::volume(*volume));
            match to {
                JarFor::Client(id) => put("client", id.to_string()),
                JarFor::Job(id) => put("job", id.to_string()),
            }
            Kind::Jar
        }
        CanWhat::Lost { volume, reason } => {
            put("volume", words::volume(*volume));
            put("reason", reason.clone());
            Kind::Lost
        }
        CanWhat::MixedInto { into, volume } => {
            put("volume", words::volume(*volume));
            put("into", into.to_string());
            Kind::MixedInto
        }
        CanWhat::Discarded { reason } => {
            put("reason", reason.clone());
            Kind::Discarded
        }
        CanWhat::Moved { place } => {
            put("place", place.clone());
            Kind::Moved
        }
    };
    put("what", word(KINDS, &kind).to_owned());
    cells
}
