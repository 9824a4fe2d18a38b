//! `moisture.csv` and `sites.csv`: readings of pieces, and what is known of the air at sites. Exports
//! of older versions have neither, and neither need be there.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{Words, pick, word};
use super::people::ID_CURE;
use super::table::{Line, Table};
use super::text::NAME_MOST;
use super::times;
use super::words;
use crate::shop::{JobId, Moisture, PieceId, ReadingId, Site, SiteAir};
use crate::units::LengthStyle;
use crate::wood::moisture::{
    Air, Correction, Meter, MoistureContent, Reading as WoodReading, Region,
};
use std::collections::HashSet;

pub(super) const MOISTURE_FILE: &str = "moisture.csv";
pub(super) const SITES_FILE: &str = "sites.csv";

pub(super) const MOISTURE: &[&str] = &[
    "id",
    "piece",
    "at",
    "place",
    "percent",
    "meter",
    "depth",
    "correction",
];
pub(super) const SITES: &[&str] = &[
    "job",
    "winter_temperature",
    "winter_humidity",
    "summer_temperature",
    "summer_humidity",
    "region",
    "driest",
    "wettest",
    "radiant_floor",
    "new_slab",
];
const METERS: Words<Meter> = &[
    (Meter::Pin, "pin"),
    (Meter::Pad, "pad"),
    (Meter::Oven, "oven"),
];
const REGIONS: Words<Region> = &[
    (Region::Most, "most"),
    (Region::DrySouthwest, "dry-southwest"),
    (Region::DampWarmCoast, "damp-warm-coast"),
];
const YES: Words<bool> = &[(true, "yes"), (false, "no")];

/// Opens a file that need not be there.
pub(super) fn maybe<'s>(
    reading: &Reading<'s>,
    file: &'static str,
    columns: &'static [&'static str],
) -> Result<Option<Table<'s>>, FilesError> {
    match Table::open(&reading.source, file, columns) {
        Ok(table) => Ok(Some(table)),
        Err(FilesError::NoFile { .. }) => Ok(None),
        Err(error) => Err(error),
    }
}

/// A moisture content to the tenth: `8.4 %`.
fn read_content(text: &str) -> Result<MoistureContent, String> {
    let tenths = text
        .strip_suffix('%')
        .and_then(|number| words::undecimal(number.trim_end(), 1));
    tenths
        .and_then(|tenths| i32::try_from(tenths.checked_mul(100)?).ok())
        .and_then(MoistureContent::from_thousandths)
        .ok_or_else(|| {
            format!(
                "\"{}\" is no moisture content; write it to the tenth, like 8.4 %.",
                super::table::short(text)
            )
        })
}

fn content(content: MoistureContent) -> String {
    format!(
        "{} %",
        words::decimal((content.thousandths() / 100).into(), 1)
    )
}

/// `not-noted`, `in-meter`, or points added: `0.7`.
fn read_correction(text: &str) -> Result<Correction, String> {
    match text {
        "not-noted" => Ok(Correction::NotNoted),
        "in-meter" => Ok(Correction::InMeter),
        _ => words::undecimal(text, 1)
            .and_then(|tenths| i16::try_from(tenths).ok())
            .filter(|tenths| (-200..=200).contains(tenths))
            .map(|tenths| Correction::Added { tenths })
            .ok_or_else(|| {
                format!(
                    "\"{}\" is not one of not-noted, in-meter, or points to add like 0.7.",
                    super::table::short(text)
                )
            }),
    }
}

fn correction(correction: Correction) -> String {
    match correction {
        Correction::NotNoted => "not-noted".to_owned(),
        Correction::InMeter => "in-meter".to_owned(),
        Correction::Added { tenths } => words::decimal(tenths.into(), 1),
    }
}

pub(super) fn wrong(line: &Line<'_>, what: &'static str, why: &str) -> FilesError {
    let why = super::table::tidy(why);
    line.fail(Fault::Value { what, why })
}

/// Reads the readings.
pub(super) fn readings(
    reading: &mut Reading<'_>,
    pieces: &Ring<PieceId>,
) -> Result<Vec<Moisture>, FilesError> {
    let mut out = Vec::new();
    let mut ring: Ring<ReadingId> = Ring::new("reading");
    let Some(table) = maybe(reading, MOISTURE_FILE, MOISTURE)? else {
        return Ok(out);
    };
    table.each(|line| {
        let id = if line.cell("id").is_empty() {
            reading.keys.mint()
        } else {
            let key = line.must("id", ID_CURE, key_word)?;
            let id = reading.keys.of(&key);
            let id = id.ok_or_else(|| line.fail(ring.twice(&key)))?;
            ring.hang(&key, ReadingId(id))
                .map_err(|fault| line.fail(fault))?;
            id
        };
        let piece = line.must("piece", "write the id of the piece it was read on", |key| {
            pieces.find(key).map_err(|fault| fault.to_string())
        })?;
        let (now, zone) = (reading.now, reading.zone);
        let at = line.must("at", "write when it was read", |text| {
            times::read_moment(text, now, zone)
        })?;
        let of = WoodReading {
            at,
            place: line.name("place", NAME_MOST, &mut reading.notes)?,
            depth: line.maybe("depth", words::read_length)?,
            meter: line.must("meter", "write pin, pad or oven", |text| pick(METERS, text))?,
            correction: line.must("correction", "write not-noted", read_correction)?,
            percent: line.must("percent", "write what the meter showed", read_content)?,
        };
        of.check()
            .map_err(|error| wrong(line, "reading", &error.to_string()))?;
        if at > now {
            return Err(wrong(line, "at", "a reading cannot lie ahead of now."));
        }
        out.push(Moisture {
            id: ReadingId(id),
            piece,
            reading: of,
        });
        Ok(())
    })?;
    Ok(out)
}

/// A reading's cells.
pub(super) fn reading_row(of: &Moisture, style: LengthStyle) -> Vec<String> {
    let reading = &of.reading;
    vec![
        of.id.to_string(),
        of.piece.to_string(),
        times::moment(reading.at),
        reading.place.clone(),
        content(reading.percent),
        word(METERS, &reading.meter).to_owned(),
        reading
            .depth
            .map_or_else(String::new, |depth| words::length(depth, style)),
        correction(reading.correction),
    ]
}

/// Reads the sites.
pub(super) fn sites(
    reading: &mut Reading<'_>,
    jobs: &Ring<JobId>,
) -> Result<Vec<Site>, FilesError> {
    let mut out = Vec::new();
    let mut seen = HashSet::new();
    let Some(table) = maybe(reading, SITES_FILE, SITES)? else {
        return Ok(out);
    };
    table.each(|line| {
        let job = line.must("job", "write the id of the job whose site it is", |key| {
            jobs.find(key).map_err(|fault| fault.to_string())
        })?;
        if !seen.insert(job) {
            let (what, key) = ("site of job", line.cell("job").to_owned());
            return Err(line.fail(Fault::Twice { what, key }));
        }
        let air = |temperature, humidity| {
            let temperature = line.maybe(temperature, words::read_temperature)?;
            let humidity = line.maybe(humidity, words::read_humidity)?;
            Ok::<_, FilesError>(match (temperature, humidity) {
                (Some(temperature), Some(humidity)) => Some(Air::new(temperature, humidity)),
                (None, None) => None,
                _ => {
                    let why = "write both, or neither.";
                    return Err(wrong(line, "air", why));
                }
            })
        };
        let winter = air("winter_temperature", "winter_humidity")?;
        let summer = air("summer_temperature", "summer_humidity")?;
        let region = line.maybe("region", |text| pick(REGIONS, text))?;
        let driest = line.maybe("driest", read_content)?;
        let wettest = line.maybe("wettest", read_content)?;
        let air = match (winter, summer, region, driest, wettest) {
            (None, None, None, None, None) => None,
            (Some(winter), Some(summer), None, None, None) => Some(SiteAir::Air { winter, summer }),
            (None, None, Some(region), None, None) => Some(SiteAir::Region(region)),
            (None, None, None, Some(driest), Some(wettest)) if driest <= wettest => {
                Some(SiteAir::Given { driest, wettest })
            }
            _ => {
                let why = "write winter and summer air, or a region, or driest and wettest.";
                return Err(wrong(line, "air", why));
            }
        };
        let yes = |column| {
            let read = line.maybe(column, |text| pick(YES, text))?;
            Ok::<_, FilesError>(read.unwrap_or(false))
        };
        let site = Site {
            job,
            air,
            radiant_floor: yes("radiant_floor")?,
            new_slab: yes("new_slab")?,
        };
        site.band()
            .map_err(|error| wrong(line, "air", &error.to_string()))?;
        out.push(site);
        Ok(())
    })?;
    Ok(out)
}

/// A site's cells.
pub(super) fn site_row(site: &Site) -> Vec<String> {
    let mut cells = vec![String::new(); SITES.len()];
    cells[0] = site.job.to_string();
    match site.air {
        None => {}
        Some(SiteAir::Air { winter, summer }) => {
            cells[1] = words::temperature(winter.temperature);
            cells[2] = words::humidity(winter.humidity);
            cells[3] = words::temperature(summer.temperature);
            cells[4] = words::humidity(summer.humidity);
        }
        Some(SiteAir::Region(region)) => word(REGIONS, &region).clone_into(&mut cells[5]),
        Some(SiteAir::Given { driest, wettest }) => {
            cells[6] = content(driest);
            cells[7] = content(wettest);
        }
    }
    word(YES, &site.radiant_floor).clone_into(&mut cells[8]);
    word(YES, &site.new_slab).clone_into(&mut cells[9]);
    cells
}
