//! `cans.csv`, `can_log.csv` and `draws.csv`: the cans, what happened to them, and what passes drew
//! from them. Shops without cans, and exports of older versions, have none of them.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{Words, pick, word};
use super::passes;
use super::people::ID_CURE;
use super::shelf::Shelf;
use super::table::Line;
use super::text::LINE_MOST;
use super::times;
use super::wood::maybe;
use super::words;
use crate::shop::{
    AmountBasis, Came, Can, CanId, CanLine, CanLineId, CanWhat, ClientId, Draw, JarFor, JobId,
    Keeps, Pass, Weights,
};
use crate::units::{Money, Volume};
use std::collections::HashMap;

pub(super) const CANS_FILE: &str = "cans.csv";
pub(super) const LOG_FILE: &str = "can_log.csv";
pub(super) const DRAWS_FILE: &str = "draws.csv";

pub(super) const CANS: &[&str] = &[
    "id",
    "no",
    "product",
    "size",
    "held",
    "batch",
    "came",
    "on",
    "price",
    "at",
    "keeps_days",
    "keeps_open_days",
    "empty",
    "place",
];
pub(super) const LOG: &[&str] = &[
    "id", "can", "at", "what", "weight", "volume", "client", "job", "into", "reason", "place",
];
pub(super) const DRAWS: &[&str] = &["pass", "can", "volume", "before", "after"];

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
const CAME: Words<bool> = &[(true, "bought"), (false, "mixed")];

/// The cans as read.
#[derive(Debug, Default)]
pub(super) struct Cans {
    pub(super) cans: Vec<Can>,
    pub(super) lines: Vec<CanLine>,
}

/// Reads the cans and their logs; the ring leads to the cans.
pub(super) fn read(
    reading: &mut Reading<'_>,
    shelf: &Shelf,
    clients: &Ring<ClientId>,
    jobs: &Ring<JobId>,
) -> Result<(Cans, Ring<CanId>), FilesError> {
    let (mut out, mut ring) = (Cans::default(), Ring::new("can"));
    if let Some(table) = maybe(reading, CANS_FILE, CANS)? {
        let mut places: HashMap<CanId, u64> = HashMap::new();
        table.each(|line| {
            let key = line.must("id", ID_CURE, key_word)?;
            let id = reading.keys.of(&key);
            let id = CanId(id.ok_or_else(|| line.fail(ring.twice(&key)))?);
            let can = can(reading, line, id, shelf)?;
            if out.cans.iter().any(|other| other.no == can.no) {
                return Err(line.bad("no", "another can has that number on its lid."));
            }
            ring.hang(&key, id).map_err(|fault| line.fail(fault))?;
            places.insert(id, line.no);
            out.cans.push(can);
            Ok(())
        })?;
        log(reading, &mut out, &ring, (clients, jobs))?;
        mixes_add_up(&out, &places)?;
    } else {
        // A log of cans that are not there has something to say about it.
        log(reading, &mut out, &ring, (clients, jobs))?;
    }
    Ok((out, ring))
}

fn can(
    reading: &mut Reading<'_>,
    line: &Line<'_>,
    id: CanId,
    shelf: &Shelf,
) -> Result<Can, FilesError> {
    let (now, zone, today) = (reading.now, reading.zone, reading.today);
    let product = line.must("product", "write the id of the product", |key| {
        shelf.ring.find(key).map_err(|fault| fault.to_string())
    })?;
    let some = |column, volume: Volume| {
        if volume > Volume::ZERO {
            Ok(volume)
        } else {
            Err(line.bad(column, "a can holds something."))
        }
    };
    let cure = "write what the can holds, like 946.353 mL";
    let size = some("size", line.must("size", cure, words::read_volume)?)?;
    let held = line.maybe("held", words::read_volume)?.unwrap_or(size);
    if some("held", held)? > size {
        return Err(line.bad("held", "it is more than the can holds."));
    }
    let bought = line.must("came", "write bought or mixed", |text| pick(CAME, text))?;
    let came = if bought {
        line.nothing_in(&["at"], "bought")?;
        let on = line.must("on", "write the day it came", |text| {
            times::read_date(text, today)
        })?;
        let price = line.must("price", "write what was paid for it", words::read_money)?;
        if on > today {
            return Err(line.bad("on", "it is still to come."));
        }
        if price < Money::ZERO {
            return Err(line.bad("price", "a can's price is nothing or more."));
        }
        Came::Bought { on, price }
    } else {
        line.nothing_in(&["on", "price"], "mixed")?;
        let at = line.must("at", "write when it was mixed", |text| {
            times::read_moment(text, now, zone)
        })?;
        if at > now {
            return Err(line.bad("at", "it is still to come."));
        }
        Came::Mixed { at }
    };
    let days = |text: &str| {
        text.parse::<u32>()
            .ok()
            .filter(|days| *days <= 36_500)
            .ok_or_else(|| {
                let text = super::table::short(text);
                format!("\"{text}\" is no number of days; write whole days, like 730.")
            })
    };
    let no = line.must("no", "write the number on its lid", |text| {
        text.parse::<u32>()
            .ok()
            .filter(|no| *no > 0)
            .ok_or_else(|| "cans are numbered from 1.".to_owned())
    })?;
    Ok(Can {
        id,
        no,
        product,
        size,
        held,
        batch: line.line("batch", LINE_MOST, &mut reading.notes)?,
        came,
        keeps: Keeps {
            sealed: line.maybe("keeps_days", days)?,
            open: line.maybe("keeps_open_days", days)?,
        },
        empty: line.maybe("empty", words::read_mass)?,
        place: line.line("place", LINE_MOST, &mut reading.notes)?,
    })
}

fn log(
    reading: &mut Reading<'_>,
    out: &mut Cans,
    ring: &Ring<CanId>,
    (clients, jobs): (&Ring<ClientId>, &Ring<JobId>),
) -> Result<(), FilesError> {
    let Some(table) = maybe(reading, LOG_FILE, LOG)? else {
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

/// What went into a mixed can is what it held, at the moment it was mixed.
fn mixes_add_up(cans: &Cans, places: &HashMap<CanId, u64>) -> Result<(), FilesError> {
    for can in &cans.cans {
        let Came::Mixed { at: mixed } = can.came else {
            continue;
        };
        let mut sum = Volume::ZERO;
        for line in &cans.lines {
            if let CanWhat::MixedInto { into, volume } = line.what
                && into == can.id
                && line.at == mixed
            {
                sum += volume;
            }
        }
        let poured = cans.lines.iter().filter(|line| {
            matches!(line.what, CanWhat::MixedInto { into, .. } if into == can.id)
                && line.at != mixed
        });
        if sum != can.held || poured.count() > 0 {
            let why = format!(
                "what was poured into it then ({}) is not what it held ({}).",
                words::volume(sum),
                words::volume(can.held)
            );
            let fault = Fault::Value { what: "held", why };
            return Err(fault.at(CANS_FILE, places.get(&can.id).copied().unwrap_or(1)));
        }
    }
    Ok(())
}

/// Reads what passes drew, into the passes; they are settled already.
pub(super) fn draws(
    reading: &mut Reading<'_>,
    cans: &Cans,
    ring: &Ring<CanId>,
    pass_ring: &Ring<usize>,
    passes: &mut [passes::Read],
) -> Result<(), FilesError> {
    let Some(table) = maybe(reading, DRAWS_FILE, DRAWS)? else {
        return Ok(());
    };
    let mut last: HashMap<usize, u64> = HashMap::new();
    let mut open: Vec<(usize, u64)> = Vec::new();
    table.each(|line| {
        let place = line.must("pass", "write the id of the pass", |key| {
            pass_ring.find(key).map_err(|fault| fault.to_string())
        })?;
        let can = line.must("can", "write the id of the can", |key| {
            ring.find(key).map_err(|fault| fault.to_string())
        })?;
        let Some(read) = passes.get_mut(place) else {
            return Err(line.bad("pass", "there is no such pass."));
        };
        let pass = &mut read.pass;
        let product = cans
            .cans
            .iter()
            .find(|known| known.id == can)
            .map(|can| can.product);
        if product != Some(pass.product) {
            return Err(line.bad("can", "it holds another product than the pass."));
        }
        if pass.drawn.draws.iter().any(|draw| draw.can == can) {
            return Err(line.bad("can", "it stands twice with this pass."));
        }
        let before = line.maybe("before", words::read_mass)?;
        let after = line.maybe("after", words::read_mass)?;
        let volume = line.maybe("volume", words::read_volume)?;
        let weights = match (before, after) {
            (None, None) => None,
            (Some(before), Some(after)) if before >= after => Some(Weights { before, after }),
            (Some(_), Some(_)) => {
                let why = "the can weighs more after than before; swap the two.";
                return Err(line.bad("after", why));
            }
            _ => return Err(line.bad("before", "write both weights, or neither.")),
        };
        if volume.is_none() {
            open.push((place, line.no));
        }
        pass.drawn.draws.push(Draw {
            can,
            volume: volume.unwrap_or(Volume::ZERO),
            weights,
        });
        last.insert(place, line.no);
        Ok(())
    })?;
    for (place, no) in open {
        if let Some(read) = passes.get_mut(place) {
            whole(&mut read.pass).map_err(|fault| fault.at(DRAWS_FILE, no))?;
        }
    }
    for (place, no) in last {
        let Some(pass) = passes.get(place).map(|read| &read.pass) else {
            continue;
        };
        let sum: Volume = pass.drawn.draws.iter().map(|draw| draw.volume).sum();
        if sum != pass.amount.volume {
            let why = format!(
                "what came from the cans ({}) is not what the pass used ({}).",
                words::volume(sum),
                words::volume(pass.amount.volume)
            );
            return Err(Fault::Value {
                what: "volume",
                why,
            }
            .at(DRAWS_FILE, no));
        }
    }
    Ok(())
}

/// A draw without a volume took all that its pass used, and was weighed as the pass was.
fn whole(pass: &mut Pass) -> Result<(), Fault> {
    let (volume, basis) = (pass.amount.volume, pass.amount.basis);
    let [draw] = pass.drawn.draws.as_mut_slice() else {
        let cure = "a pass from several cans says how much came from each".to_owned();
        return Err(Fault::Empty {
            what: "volume",
            cure,
        });
    };
    draw.volume = volume;
    if let (AmountBasis::Weighed { before, after }, None) = (basis, draw.weights) {
        draw.weights = Some(Weights { before, after });
    }
    Ok(())
}

/// A can's cells.
pub(super) fn can_row(can: &Can) -> Vec<String> {
    let days = |days: Option<u32>| days.map_or_else(String::new, |days| days.to_string());
    let (came, on, price, at) = match can.came {
        Came::Bought { on, price } => (true, times::date(on), words::money(price), String::new()),
        Came::Mixed { at } => (false, String::new(), String::new(), times::moment(at)),
    };
    vec![
        can.id.to_string(),
        can.no.to_string(),
        can.product.to_string(),
        words::volume(can.size),
        words::volume(can.held),
        can.batch.clone(),
        word(CAME, &came).to_owned(),
        on,
        price,
        at,
        days(can.keeps.sealed),
        days(can.keeps.open),
        can.empty.map_or_else(String::new, words::mass),
        can.place.clone(),
    ]
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

/// The rows of what a pass drew.
pub(super) fn draw_rows(pass: &Pass) -> Vec<Vec<String>> {
    let row = |draw: &Draw| {
        let weight = |of: fn(Weights) -> crate::units::Mass| {
            draw.weights
                .map_or_else(String::new, |weights| words::mass(of(weights)))
        };
        vec![
            pass.id.to_string(),
            draw.can.to_string(),
            words::volume(draw.volume),
            weight(|weights| weights.before),
            weight(|weights| weights.after),
        ]
    };
    pass.drawn.draws.iter().map(row).collect()
}
