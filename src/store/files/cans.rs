//! `cans.csv`: the cans. Shops without cans, and exports of older versions, have neither it nor
//! `can_log.csv` nor `draws.csv`.

use super::can_log;
use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{Words, pick, word};
use super::people::ID_CURE;
use super::shelf::Shelf;
use super::table::Line;
use super::text::LINE_MOST;
use super::times;
use super::wood::maybe;
use super::words;
use crate::shop::{Came, Can, CanId, CanLine, CanWhat, ClientId, JobId, Keeps};
use crate::units::{Money, Volume};
use std::collections::HashMap;

pub(super) const CANS_FILE: &str = "cans.csv";

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
        can_log::read(reading, &mut out, &ring, (clients, jobs))?;
        mixes_add_up(&out, &places)?;
    } else {
        // A log of cans that are not there has something to say about it.
        can_log::read(reading, &mut out, &ring, (clients, jobs))?;
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
