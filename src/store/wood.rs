//! Moisture readings, sites, and how pieces lie and are held.

use super::cells::{Cells, all, run, word};
use super::error::Fault;
use super::passes::Chosen;
use super::wood_own;
use crate::desk::Scope;
use crate::shop::{Moisture, PieceId, PieceWood, ReadingId, Site, SiteAir, WoodBook};
use crate::units::{Humidity, Length, Temperature};
use crate::wood::moisture::{Air, Correction, Meter, MoistureContent, Reading, Region};
use crate::wood::movement::{Situation, SpacingRule};
use rusqlite::{Connection, params, params_from_iter};
use serde::Deserialize as _;
use serde::de::value::{BorrowedStrDeserializer, Error as WordError};

/// All of it, read over one state of the store.
pub(super) fn book(conn: &Connection, scope: Scope) -> Result<WoodBook, Fault> {
    Ok(WoodBook {
        readings: readings(conn, scope)?,
        sites: sites(conn)?,
        pieces: pieces(conn, scope)?,
        own: wood_own::own_woods(conn)?,
        rule: wood_own::rule(conn)?.unwrap_or_default(),
    })
}

pub(super) fn content(row: &Cells<'_>, tenths: i32) -> Result<MoistureContent, Fault> {
    let content = tenths.checked_mul(100);
    content
        .and_then(MoistureContent::from_thousandths)
        .ok_or_else(|| row.wrong(&"it is no moisture content"))
}

/// Whole tenths of a per cent.
pub(super) fn tenths(content: MoistureContent) -> i32 {
    content.thousandths() / 100
}

fn readings(conn: &Connection, scope: Scope) -> Result<Vec<Moisture>, Fault> {
    let chosen = Chosen::from(scope);
    let sql = format!(
        "SELECT moisture.id, moisture.piece, moisture.at_ms, moisture.place, moisture.depth_nm, \
         moisture.meter, moisture.corrected, moisture.added_tenths, moisture.tenths \
         FROM moisture JOIN piece ON piece.id = moisture.piece WHERE {} ORDER BY moisture.id",
        chosen.sql
    );
    all(conn, &sql, params_from_iter(&chosen.value), |row| {
        let (id, piece, at) = (row.parse()?, row.parse()?, row.moment()?);
        let place = row.take()?;
        let depth = row.take::<Option<i64>>()?.map(Length::from_nm);
        let meter: Meter = row.word()?;
        let corrected: String = row.take()?;
        let correction = match (corrected.as_str(), row.take()?) {
            ("not-noted", None) => Correction::NotNoted,
            ("in-meter", None) => Correction::InMeter,
            ("added", Some(tenths)) => Correction::Added { tenths },
            _ => return Err(row.wrong(&"the correction does not add up")),
        };
        let percent = row.take()?;
        let percent = content(row, percent)?;
        let reading = Reading {
            at,
            place,
            depth,
            meter,
            correction,
            percent,
        };
        Ok(Moisture { id, piece, reading })
    })
}

pub(super) fn put_moisture(conn: &Connection, of: &Moisture) -> Result<(), Fault> {
    let reading = &of.reading;
    let (corrected, added) = match reading.correction {
        Correction::NotNoted => ("not-noted", None),
        Correction::InMeter => ("in-meter", None),
        Correction::Added { tenths } => ("added", Some(tenths)),
    };
    run(
        conn,
        "INSERT INTO moisture \
         (id, piece, at_ms, place, depth_nm, meter, corrected, added_tenths, tenths) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT (id) DO UPDATE SET \
         piece = excluded.piece, at_ms = excluded.at_ms, place = excluded.place, \
         depth_nm = excluded.depth_nm, meter = excluded.meter, corrected = excluded.corrected, \
         added_tenths = excluded.added_tenths, tenths = excluded.tenths",
        params![
            of.id.to_string(),
            of.piece.to_string(),
            reading.at.timestamp_millis(),
            reading.place,
            reading.depth.map(Length::nm),
            word(&reading.meter)?,
            corrected,
            added,
            tenths(reading.percent),
        ],
    )?;
    Ok(())
}

pub(super) fn remove_moisture(conn: &Connection, id: ReadingId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM moisture WHERE id = ?1", [id.to_string()])
}

fn sites(conn: &Connection) -> Result<Vec<Site>, Fault> {
    let sql = "SELECT job, basis, winter_mc, winter_rh_tenths, summer_mc, summer_rh_tenths, \
               region, driest_tenths, wettest_tenths, radiant_floor, new_slab FROM site";
    all(conn, sql, [], |row| {
        let job = row.parse()?;
        let basis: String = row.take()?;
        let (winter, summer) = (air(row)?, air(row)?);
        let region: Option<Region> = row.maybe_word()?;
        let (driest, wettest): (Option<i32>, Option<i32>) = (row.take()?, row.take()?);
        let air = match (basis.as_str(), winter, summer, region, driest, wettest) {
            ("unknown", None, None, None, None, None) => None,
            ("air", Some(winter), Some(summer), None, None, None) => {
                Some(SiteAir::Air { winter, summer })
            }
            ("region", None, None, Some(region), None, None) => Some(SiteAir::Region(region)),
            ("given", None, None, None, Some(driest), Some(wettest)) => Some(SiteAir::Given {
                driest: content(row, driest)?,
                wettest: content(row, wettest)?,
            }),
            _ => return Err(row.wrong(&"the site does not add up")),
        };
        Ok(Site {
            job,
            air,
            radiant_floor: row.take()?,
            new_slab: row.take()?,
        })
    })
}

fn air(row: &mut Cells<'_>) -> Result<Option<Air>, Fault> {
    let (temperature, humidity): (Option<i32>, Option<i32>) = (row.take()?, row.take()?);
    let Some((temperature, tenths)) = temperature.zip(humidity) else {
        return Ok(None);
    };
    let humidity = Humidity::from_tenths(tenths).ok_or_else(|| row.wrong(&"it is no humidity"))?;
    Ok(Some(Air::new(Temperature::from(temperature), humidity)))
}

pub(super) fn put_site(conn: &Connection, site: &Site) -> Result<(), Fault> {
    let (mut winter, mut summer, mut region) = (None, None, None);
    let (mut driest, mut wettest) = (None, None);
    let basis = match site.air {
        None => "unknown",
        Some(SiteAir::Air {
            winter: cold,
            summer: warm,
        }) => {
            (winter, summer) = (Some(cold), Some(warm));
            "air"
        }
        Some(SiteAir::Region(of)) => {
            region = Some(word(&of)?);
            "region"
        }
        Some(SiteAir::Given {
            driest: dry,
            wettest: wet,
        }) => {
            (driest, wettest) = (Some(tenths(dry)), Some(tenths(wet)));
            "given"
        }
    };
    let warmth = |air: Option<Air>| air.map(|air| air.temperature.milli_c());
    let damp = |air: Option<Air>| air.map(|air| air.humidity.tenths());
    run(
        conn,
        "INSERT INTO site (job, basis, winter_mc, winter_rh_tenths, summer_mc, summer_rh_tenths, \
         region, driest_tenths, wettest_tenths, radiant_floor, new_slab) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11) ON CONFLICT (job) DO UPDATE SET \
         basis = excluded.basis, winter_mc = excluded.winter_mc, \
         winter_rh_tenths = excluded.winter_rh_tenths, summer_mc = excluded.summer_mc, \
         summer_rh_tenths = excluded.summer_rh_tenths, region = excluded.region, \
         driest_tenths = excluded.driest_tenths, wettest_tenths = excluded.wettest_tenths, \
         radiant_floor = excluded.radiant_floor, new_slab = excluded.new_slab",
        params![
            site.job.to_string(),
            basis,
            warmth(winter),
            damp(winter),
            warmth(summer),
            damp(summer),
            region,
            driest,
            wettest,
            site.radiant_floor,
            site.new_slab,
        ],
    )?;
    Ok(())
}

fn pieces(conn: &Connection, scope: Scope) -> Result<Vec<PieceWood>, Fault> {
    let chosen = Chosen::from(scope);
    let sql = format!(
        "SELECT piece_wood.piece, piece_wood.wood, piece_wood.grain, piece_wood.held, \
         piece_wood.screw_nm, piece_wood.spacing, piece_wood.spacing_nm, piece_wood.eight_nm, \
         piece_wood.situations \
         FROM piece_wood JOIN piece ON piece.id = piece_wood.piece WHERE {} \
         ORDER BY piece_wood.piece",
        chosen.sql
    );
    all(conn, &sql, params_from_iter(&chosen.value), |row| {
        let (piece, wood): (PieceId, String) = (row.parse()?, row.take()?);
        let (grain, held) = (row.word()?, row.word()?);
        let screw = Length::from_nm(row.take()?);
        let spacing: String = row.take()?;
        let spacing = match (spacing.as_str(), row.take::<Option<i64>>()?) {
            ("wide", None) => SpacingRule::Wide,
            ("close", None) => SpacingRule::Close,
            ("own", Some(nm)) => SpacingRule::Own(Length::from_nm(nm)),
            _ => return Err(row.wrong(&"the spacing does not add up")),
        };
        let eight = Length::from_nm(row.take()?);
        let words: String = row.take()?;
        let situation = |word| {
            Situation::deserialize(BorrowedStrDeserializer::<WordError>::new(word))
                .map_err(|error| row.wrong(&error))
        };
        let situations = words
            .split_whitespace()
            .map(situation)
            .collect::<Result<_, _>>()?;
        Ok(PieceWood {
            piece,
            wood,
            grain,
            held,
            screw,
            spacing,
            eight,
            situations,
        })
    })
}

pub(super) fn put_piece_wood(conn: &Connection, of: &PieceWood) -> Result<(), Fault> {
    let (spacing, spacing_nm) = match of.spacing {
        SpacingRule::Wide => ("wide", None),
        SpacingRule::Close => ("close", None),
        SpacingRule::Own(length) => ("own", Some(length.nm())),
    };
    let situations: Vec<String> = of.situations.iter().map(word).collect::<Result<_, _>>()?;
    run(
        conn,
        "INSERT INTO piece_wood \
         (piece, wood, grain, held, screw_nm, spacing, spacing_nm, eight_nm, situations) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT (piece) DO UPDATE SET \
         wood = excluded.wood, grain = excluded.grain, held = excluded.held, \
         screw_nm = excluded.screw_nm, spacing = excluded.spacing, \
         spacing_nm = excluded.spacing_nm, eight_nm = excluded.eight_nm, \
         situations = excluded.situations",
        params![
            of.piece.to_string(),
            of.wood,
            word(&of.grain)?,
            word(&of.held)?,
            of.screw.nm(),
            spacing,
            spacing_nm,
            of.eight.nm(),
            situations.join(" "),
        ],
    )?;
    Ok(())
}

/// What is on record about the wood of a piece that goes.
pub(super) fn forget_piece(conn: &Connection, piece: &str) -> Result<(), Fault> {
    run(conn, "DELETE FROM moisture WHERE piece = ?1", [piece])?;
    run(conn, "DELETE FROM piece_wood WHERE piece = ?1", [piece])?;
    Ok(())
}

/// The site of a job that goes.
pub(super) fn forget_job(conn: &Connection, job: &str) -> Result<(), Fault> {
    run(conn, "DELETE FROM site WHERE job = ?1", [job])?;
    Ok(())
}
