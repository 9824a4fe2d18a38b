//! The lines of the pieces' logs, with the faces they speak of.

use super::cells::{Cells, all, run, word};
use super::error::Fault;
use super::line::{Line, LineFace, apart, what};
use super::passes::Chosen;
use crate::shop::{Event, EventId, PieceId, What};
use rusqlite::{Connection, params, params_from_iter};
use std::collections::HashMap;

/// The logs of the chosen pieces, each in the order of its identifiers. (CROSS JOIN holds `SQLite` to
/// choosing the pieces first: the other way round it would go through every log there is.)
pub(super) fn logs(
    conn: &Connection,
    chosen: &Chosen,
) -> Result<HashMap<PieceId, Vec<Event>>, Fault> {
    let mut faces = faces(conn, chosen)?;
    let sql = format!(
        "SELECT event.id, event.piece, event.at_ms, event.kind, event.grit, event.pass, \
         event.coat, event.product, event.started_ms, event.used_ul, event.means, \
         event.verdict, event.reason, event.from_stage, event.to_stage, event.item, event.done \
         FROM piece CROSS JOIN event ON event.piece = piece.id WHERE {}",
        chosen.sql
    );
    let lines = all(conn, &sql, params_from_iter(&chosen.value), |row| {
        let (id, piece): (EventId, PieceId) = (row.parse()?, row.parse()?);
        let (at, kind): (_, String) = (row.moment()?, row.take()?);
        let line = read(row)?;
        let of = faces.remove(&id).unwrap_or_default();
        let what = what(&kind, line, &of)
            .ok_or_else(|| row.wrong(&format!("a line of the kind {kind} is incomplete")))?;
        Ok((piece, Event { id, at, what }))
    })?;
    let mut logs: HashMap<PieceId, Vec<Event>> = HashMap::new();
    for (piece, event) in lines {
        logs.entry(piece).or_default().push(event);
    }
    for log in logs.values_mut() {
        log.sort_by_key(|event| event.id);
    }
    Ok(logs)
}

fn faces(conn: &Connection, chosen: &Chosen) -> Result<HashMap<EventId, Vec<LineFace>>, Fault> {
    let sql = format!(
        "SELECT event_face.event, event_face.pos, event_face.face, event_face.area_um2, event_face.gone \
         FROM piece CROSS JOIN event ON event.piece = piece.id \
         CROSS JOIN event_face ON event_face.event = event.id WHERE {}",
        chosen.sql
    );
    let mut placed: HashMap<EventId, Vec<(i64, LineFace)>> = HashMap::new();
    let rows = all(conn, &sql, params_from_iter(&chosen.value), |row| {
        let (event, pos): (EventId, i64) = (row.parse()?, row.take()?);
        let (face, area, gone) = (row.parse()?, row.take()?, row.take()?);
        Ok((event, (pos, LineFace { face, area, gone })))
    })?;
    for (event, face) in rows {
        placed.entry(event).or_default().push(face);
    }
    let in_order = |(event, mut faces): (EventId, Vec<(i64, LineFace)>)| {
        faces.sort_by_key(|(pos, _)| *pos);
        (event, faces.into_iter().map(|(_, face)| face).collect())
    };
    Ok(placed.into_iter().map(in_order).collect())
}

fn read(row: &mut Cells<'_>) -> Result<Line, Fault> {
    Ok(Line {
        grit: row.take()?,
        pass: row.maybe_parse()?,
        coat: row.maybe_word()?,
        product: row.maybe_parse()?,
        started: row.maybe_moment()?,
        used: row.take()?,
        means: row.take()?,
        verdict: row.maybe_word()?,
        reason: row.take()?,
        from: row.maybe_word()?,
        to: row.maybe_word()?,
        item: row.maybe_word()?,
        done: row.take()?,
    })
}

pub(super) fn put_event(conn: &Connection, piece: PieceId, event: &Event) -> Result<(), Fault> {
    let (kind, line, faces) = apart(&event.what);
    let id = event.id.to_string();
    run(
        conn,
        "INSERT INTO event (id, piece, at_ms, kind, grit, pass, coat, product, started_ms, \
         used_ul, means, verdict, reason, from_stage, to_stage, item, done) VALUES (?1, ?2, ?3, \
         ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17) \
         ON CONFLICT (id) DO UPDATE SET piece = excluded.piece, at_ms = excluded.at_ms, \
         kind = excluded.kind, grit = excluded.grit, pass = excluded.pass, \
         coat = excluded.coat, product = excluded.product, started_ms = excluded.started_ms, \
         used_ul = excluded.used_ul, means = excluded.means, verdict = excluded.verdict, \
         reason = excluded.reason, from_stage = excluded.from_stage, \
         to_stage = excluded.to_stage, item = excluded.item, done = excluded.done",
        params![
            id,
            piece.to_string(),
            event.at.timestamp_millis(),
            kind,
            line.grit,
            line.pass.map(|pass| pass.to_string()),
            line.coat.as_ref().map(word).transpose()?,
            line.product.map(|product| product.to_string()),
            line.started.map(|started| started.timestamp_millis()),
            line.used,
            line.means,
            line.verdict.as_ref().map(word).transpose()?,
            line.reason,
            line.from.as_ref().map(word).transpose()?,
            line.to.as_ref().map(word).transpose()?,
            line.item.as_ref().map(word).transpose()?,
            line.done,
        ],
    )?;
    let mut pos = 0_i64;
    for face in faces {
        run(
            conn,
            "INSERT INTO event_face (event, pos, face, area_um2, gone) \
             VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT (event, pos) DO UPDATE SET \
             face = excluded.face, area_um2 = excluded.area_um2, gone = excluded.gone",
            params![id, pos, face.face.code(), face.area, face.gone],
        )?;
        pos += 1;
    }
    run(
        conn,
        "DELETE FROM event_face WHERE event = ?1 AND pos >= ?2",
        params![id, pos],
    )?;
    if matches!(event.what, What::Touch { .. }) {
        super::air::link_touch(conn, event.id)?;
    }
    Ok(())
}
