//! Cans and their logs.

use super::cells::{Cells, all, run};
use super::error::Fault;
use super::passes::{self, Chosen};
use crate::desk::Scope;
use crate::shop::{Came, Can, CanId, CanLine, CanLineId, CanRecords, CanWhat, JarFor, Keeps};
use crate::units::{Mass, Money, Volume};
use rusqlite::{Connection, params, params_from_iter};

const COLUMNS: &str = "id, no, product, size_ul, held_ul, batch, came, on_day, price_cents, \
                       mixed_ms, keeps_sealed, keeps_open, empty_mg, place";

/// Cans that were not thrown away, those that passes on chosen pieces drew on, and those that went
/// into either.
fn live(chosen: &str) -> String {
    format!(
        "WITH RECURSIVE live (id) AS (\
         SELECT id FROM can WHERE NOT EXISTS \
         (SELECT 1 FROM can_line WHERE can = can.id AND kind = 'discarded') \
         UNION SELECT can FROM pass_can WHERE pass IN (SELECT event.pass FROM piece \
         CROSS JOIN event ON event.piece = piece.id WHERE event.pass IS NOT NULL AND {chosen}) \
         UNION SELECT can_line.can FROM can_line JOIN live ON can_line.into_can = live.id) "
    )
}

fn read(row: &mut Cells<'_>) -> Result<Can, Fault> {
    let (id, no, product) = (row.parse()?, row.take()?, row.parse()?);
    let (size, held) = (Volume::from_ul(row.take()?), Volume::from_ul(row.take()?));
    let (batch, came): (String, String) = (row.take()?, row.take()?);
    let (on, price, at) = (
        row.maybe_parse()?,
        row.take::<Option<i64>>()?,
        row.maybe_moment()?,
    );
    let came = match (came.as_str(), on, price, at) {
        ("bought", Some(on), Some(cents), None) => Came::Bought {
            on,
            price: Money::from_cents(cents),
        },
        ("mixed", None, None, Some(at)) => Came::Mixed { at },
        _ => return Err(row.wrong(&"how it came does not add up")),
    };
    Ok(Can {
        id,
        no,
        product,
        size,
        held,
        batch,
        came,
        keeps: Keeps {
            sealed: row.take()?,
            open: row.take()?,
        },
        empty: row.take::<Option<i64>>()?.map(Mass::from_mg),
        place: row.take()?,
    })
}

fn read_line(row: &mut Cells<'_>) -> Result<CanLine, Fault> {
    let (id, can, at) = (row.parse()?, row.parse()?, row.moment()?);
    let kind: String = row.take()?;
    let mass = row.take::<Option<i64>>()?.map(Mass::from_mg);
    let volume = row.take::<Option<i64>>()?.map(Volume::from_ul);
    let (client, job, into) = (row.maybe_parse()?, row.maybe_parse()?, row.maybe_parse()?);
    let (reason, place): (Option<String>, Option<String>) = (row.take()?, row.take()?);
    let to = client.map(JarFor::Client).or_else(|| job.map(JarFor::Job));
    let what = match (kind.as_str(), mass, volume, reason, place) {
        ("opened", None, None, None, None) => Some(CanWhat::Opened),
        ("weighed", Some(mass), None, None, None) => Some(CanWhat::Weighed(mass)),
        ("jar", None, Some(volume), None, None) => to.map(|to| CanWhat::Jar { volume, to }),
        ("lost", None, Some(volume), Some(reason), None) => Some(CanWhat::Lost { volume, reason }),
        ("mixed-into", None, Some(volume), None, None) => {
            into.map(|into| CanWhat::MixedInto { into, volume })
        }
        ("discarded", None, None, Some(reason), None) => Some(CanWhat::Discarded { reason }),
        ("moved", None, None, None, Some(place)) => Some(CanWhat::Moved { place }),
        _ => None,
    };
    let what = what.ok_or_else(|| row.wrong(&"the line does not add up"))?;
    Ok(CanLine { id, can, at, what })
}

/// The cans with their logs and every pass that drew on them: all there are, or of another scope
/// those that were not thrown away and those that its passes drew on.
pub(super) fn records(conn: &Connection, scope: Scope) -> Result<CanRecords, Fault> {
    let chosen = Chosen::from(scope);
    let (with, of, among) = if scope == Scope::All {
        (String::new(), "", "")
    } else {
        let with = live(chosen.sql);
        (with, "WHERE id IN live", "WHERE can IN live")
    };
    let params = || params_from_iter(chosen.value.clone());
    let sql = format!("{with}SELECT {COLUMNS} FROM can {of} ORDER BY id");
    let cans = all(conn, &sql, params(), read)?;
    let sql = format!(
        "{with}SELECT id, can, at_ms, kind, mass_mg, volume_ul, client, job, into_can, reason, \
         place FROM can_line {among} ORDER BY id"
    );
    let lines = all(conn, &sql, params(), read_line)?;
    let of = format!("{with}SELECT pass FROM pass_can {among}");
    let passes = passes::drawn(conn, &of, chosen.value.clone())?;
    Ok(CanRecords {
        cans,
        lines,
        passes,
    })
}

pub(super) fn put_can(conn: &Connection, can: &Can) -> Result<(), Fault> {
    let (came, on, price, at) = match can.came {
        Came::Bought { on, price } => ("bought", Some(on.to_string()), Some(price.cents()), None),
        Came::Mixed { at } => ("mixed", None, None, Some(at.timestamp_millis())),
    };
    run(
        conn,
        "INSERT INTO can (id, no, product, size_ul, held_ul, batch, came, on_day, price_cents, \
         mixed_ms, keeps_sealed, keeps_open, empty_mg, place) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14) \
         ON CONFLICT (id) DO UPDATE SET no = excluded.no, product = excluded.product, \
         size_ul = excluded.size_ul, held_ul = excluded.held_ul, batch = excluded.batch, \
         came = excluded.came, on_day = excluded.on_day, price_cents = excluded.price_cents, \
         mixed_ms = excluded.mixed_ms, keeps_sealed = excluded.keeps_sealed, \
         keeps_open = excluded.keeps_open, empty_mg = excluded.empty_mg, place = excluded.place",
        params![
            can.id.to_string(),
            can.no,
            can.product.to_string(),
            can.size.ul(),
            can.held.ul(),
            can.batch,
            came,
            on,
            price,
            at,
            can.keeps.sealed,
            can.keeps.open,
            can.empty.map(Mass::mg),
            can.place,
        ],
    )?;
    Ok(())
}

pub(super) fn put_line(conn: &Connection, line: &CanLine) -> Result<(), Fault> {
    let (mut mass, mut volume) = (None, None);
    let (mut client, mut job, mut into) = (None, None, None);
    let (mut reason, mut place) = (None, None);
    let kind = match &line.what {
        CanWhat::Opened => "opened",
        CanWhat::Weighed(weight) => {
            mass = Some(weight.mg());
            "weighed"
        }
        CanWhat::Jar { volume: of, to } => {
            volume = Some(of.ul());
            match to {
                JarFor::Client(id) => client = Some(id.to_string()),
                JarFor::Job(id) => job = Some(id.to_string()),
            }
            "jar"
        }
        CanWhat::Lost {
            volume: of,
            reason: why,
        } => {
            (volume, reason) = (Some(of.ul()), Some(why));
            "lost"
        }
        CanWhat::MixedInto {
            into: can,
            volume: of,
        } => {
            (volume, into) = (Some(of.ul()), Some(can.to_string()));
            "mixed-into"
        }
        CanWhat::Discarded { reason: why } => {
            reason = Some(why);
            "discarded"
        }
        CanWhat::Moved { place: to } => {
            place = Some(to);
            "moved"
        }
    };
    run(
        conn,
        "INSERT INTO can_line (id, can, at_ms, kind, mass_mg, volume_ul, client, job, into_can, \
         reason, place) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11) \
         ON CONFLICT (id) DO UPDATE SET can = excluded.can, at_ms = excluded.at_ms, \
         kind = excluded.kind, mass_mg = excluded.mass_mg, volume_ul = excluded.volume_ul, \
         client = excluded.client, job = excluded.job, into_can = excluded.into_can, \
         reason = excluded.reason, place = excluded.place",
        params![
            line.id.to_string(),
            line.can.to_string(),
            line.at.timestamp_millis(),
            kind,
            mass,
            volume,
            client,
            job,
            into,
            reason,
            place,
        ],
    )?;
    Ok(())
}

pub(super) fn remove_can(conn: &Connection, id: CanId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM can WHERE id = ?1", [id.to_string()])
}

pub(super) fn remove_line(conn: &Connection, id: CanLineId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM can_line WHERE id = ?1", [id.to_string()])
}
