//! The lines of the pieces' logs, with the faces they speak of.

use super::cells::{Cells, all, run, word};
use super::error::Fault;
use super::passes::Chosen;
use crate::coating::ProductId;
use crate::shape::FaceKey;
use crate::shop::{
    CoatKind, Event, EventId, Grit, PassId, PieceId, ScuffMeans, SetItem, Stage, TouchVerdict, What,
};
use crate::units::{Area, Volume};
use chrono::{DateTime, Utc};
use rusqlite::{Connection, params, params_from_iter};
use std::collections::HashMap;

/// The columns of a log line; which are filled follows from its kind.
#[derive(Default)]
struct Line {
    grit: Option<u16>,
    pass: Option<PassId>,
    coat: Option<CoatKind>,
    product: Option<ProductId>,
    started: Option<DateTime<Utc>>,
    used: Option<i64>,
    means: Option<String>,
    verdict: Option<TouchVerdict>,
    reason: Option<String>,
    from: Option<Stage>,
    to: Option<Stage>,
    item: Option<SetItem>,
    done: Option<bool>,
}

/// One face of a log line.
#[derive(Debug, Clone, Copy)]
struct LineFace {
    face: FaceKey,
    area: Option<i64>,
    gone: bool,
}

impl LineFace {
    fn plain(face: FaceKey) -> Self {
        Self {
            face,
            area: None,
            gone: false,
        }
    }
}

/// The logs of the chosen pieces, each in the order of its identifiers.
pub(super) fn logs(
    conn: &Connection,
    chosen: &Chosen,
) -> Result<HashMap<PieceId, Vec<Event>>, Fault> {
    let mut faces = faces(conn, chosen)?;
    let sql = format!(
        "SELECT event.id, event.piece, event.at_ms, event.kind, event.grit, event.pass, \
         event.coat, event.product, event.started_ms, event.used_ul, event.means, \
         event.verdict, event.reason, event.from_stage, event.to_stage, event.item, event.done \
         FROM piece JOIN event ON event.piece = piece.id WHERE {} \
         ORDER BY event.piece, event.id",
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
    Ok(logs)
}

fn faces(conn: &Connection, chosen: &Chosen) -> Result<HashMap<EventId, Vec<LineFace>>, Fault> {
    let sql = format!(
        "SELECT event_face.event, event_face.face, event_face.area_um2, event_face.gone \
         FROM piece JOIN event ON event.piece = piece.id \
         JOIN event_face ON event_face.event = event.id WHERE {} \
         ORDER BY event_face.event, event_face.pos",
        chosen.sql
    );
    let mut faces: HashMap<EventId, Vec<LineFace>> = HashMap::new();
    let rows = all(conn, &sql, params_from_iter(&chosen.value), |row| {
        let event: EventId = row.parse()?;
        Ok((
            event,
            LineFace {
                face: row.parse()?,
                area: row.take()?,
                gone: row.take()?,
            },
        ))
    })?;
    for (event, face) in rows {
        faces.entry(event).or_default().push(face);
    }
    Ok(faces)
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

/// What a line says; none if a column it needs is empty.
fn what(kind: &str, line: Line, of: &[LineFace]) -> Option<What> {
    let keys = || of.iter().map(|face| face.face).collect::<Vec<_>>();
    let one = || of.first().map(|face| face.face);
    let grit = line.grit.map(Grit);
    Some(match kind {
        "tick" => What::Tick {
            face: one()?,
            grit: grit?,
        },
        "untick" => What::Untick {
            face: one()?,
            grit: grit?,
        },
        "wipe" => What::Wipe { faces: keys() },
        "coat" => What::Coat {
            pass: line.pass?,
            kind: line.coat?,
            product: line.product?,
            faces: of
                .iter()
                .map(|face| Some((face.face, Area::from_um2(face.area?))))
                .collect::<Option<_>>()?,
            started: line.started?,
            used: Volume::from_ul(line.used?),
        },
        "wipe-off" => What::WipeOff { faces: keys() },
        "scuff" => What::Scuff {
            faces: keys(),
            means: means(&line.means?, grit)?,
        },
        "touch" => What::Touch {
            faces: keys(),
            verdict: line.verdict?,
        },
        "sand-back" => What::SandBack {
            faces: keys(),
            to: grit?,
            reason: line.reason?,
        },
        "not-exposed" => What::NotExposed {
            face: one()?,
            reason: line.reason?,
        },
        "exposed" => What::Exposed { face: one()? },
        "reshaped" => What::Reshaped {
            added: of
                .iter()
                .filter(|face| !face.gone)
                .map(|face| face.face)
                .collect(),
            removed: of
                .iter()
                .filter(|face| face.gone)
                .map(|face| face.face)
                .collect(),
        },
        "moved" => What::Moved {
            from: line.from?,
            to: line.to?,
        },
        "set-list" => What::SetList {
            item: line.item?,
            done: line.done?,
        },
        _ => return None,
    })
}

fn means(word: &str, grit: Option<Grit>) -> Option<ScuffMeans> {
    match (word, grit) {
        ("fine-paper", Some(grit)) => Some(ScuffMeans::FinePaper(grit)),
        ("pad", None) => Some(ScuffMeans::Pad),
        ("brown-paper", None) => Some(ScuffMeans::BrownPaper),
        _ => None,
    }
}

/// A line taken apart: its kind, its columns, its faces.
fn apart(what: &What) -> (&'static str, Line, Vec<LineFace>) {
    let none = Line::default();
    let plain = |faces: &[FaceKey]| faces.iter().copied().map(LineFace::plain).collect();
    match what {
        What::Tick { face, grit } => (
            "tick",
            Line {
                grit: Some(grit.0),
                ..none
            },
            plain(&[*face]),
        ),
        What::Untick { face, grit } => (
            "untick",
            Line {
                grit: Some(grit.0),
                ..none
            },
            plain(&[*face]),
        ),
        What::Wipe { faces } => ("wipe", none, plain(faces)),
        What::Coat {
            pass,
            kind,
            product,
            faces,
            started,
            used,
        } => {
            let line = Line {
                pass: Some(*pass),
                coat: Some(*kind),
                product: Some(*product),
                started: Some(*started),
                used: Some(used.ul()),
                ..none
            };
            let measured = |(face, area): &(FaceKey, Area)| LineFace {
                face: *face,
                area: Some(area.um2()),
                gone: false,
            };
            ("coat", line, faces.iter().map(measured).collect())
        }
        What::WipeOff { faces } => ("wipe-off", none, plain(faces)),
        What::Scuff { faces, means } => {
            let (word, grit) = match means {
                ScuffMeans::FinePaper(grit) => ("fine-paper", Some(grit.0)),
                ScuffMeans::Pad => ("pad", None),
                ScuffMeans::BrownPaper => ("brown-paper", None),
            };
            (
                "scuff",
                Line {
                    means: Some(word.to_owned()),
                    grit,
                    ..none
                },
                plain(faces),
            )
        }
        What::Touch { faces, verdict } => (
            "touch",
            Line {
                verdict: Some(*verdict),
                ..none
            },
            plain(faces),
        ),
        What::SandBack { faces, to, reason } => {
            let line = Line {
                grit: Some(to.0),
                reason: Some(reason.clone()),
                ..none
            };
            ("sand-back", line, plain(faces))
        }
        What::NotExposed { face, reason } => (
            "not-exposed",
            Line {
                reason: Some(reason.clone()),
                ..none
            },
            plain(&[*face]),
        ),
        What::Exposed { face } => ("exposed", none, plain(&[*face])),
        What::Reshaped { added, removed } => {
            let gone = |face: &FaceKey| LineFace {
                face: *face,
                area: None,
                gone: true,
            };
            let mut faces: Vec<LineFace> = plain(added);
            faces.extend(removed.iter().map(gone));
            ("reshaped", none, faces)
        }
        What::Moved { from, to } => (
            "moved",
            Line {
                from: Some(*from),
                to: Some(*to),
                ..none
            },
            Vec::new(),
        ),
        What::SetList { item, done } => (
            "set-list",
            Line {
                item: Some(*item),
                done: Some(*done),
                ..none
            },
            Vec::new(),
        ),
    }
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
    Ok(())
}
