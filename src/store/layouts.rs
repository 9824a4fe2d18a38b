//! The shop's layout book, how pieces stand, and what was accepted.

use super::cells::{all, json, run, word};
use super::error::Fault;
use crate::desk::Scope;
use crate::shape::layout::{About, Accepted, Rule};
use crate::shop::{LayoutBook, PieceId, PieceLayout};
use crate::units::Length;
use rusqlite::{Connection, params};
use std::collections::BTreeMap;

pub(super) fn book(conn: &Connection) -> Result<Option<LayoutBook>, Fault> {
    let sql = "SELECT rules, router, lumber, page FROM layout_book";
    let found = all(conn, sql, [], |row| {
        Ok(LayoutBook {
            rules: row.json()?,
            router: row.json()?,
            lumber: row.json()?,
            page: row.word()?,
        })
    })?;
    Ok(found.into_iter().next())
}

pub(super) fn put_book(conn: &Connection, book: &LayoutBook) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO layout_book (one, rules, router, lumber, page) VALUES (1, ?1, ?2, ?3, ?4) \
         ON CONFLICT (one) DO UPDATE SET rules = excluded.rules, router = excluded.router, \
         lumber = excluded.lumber, page = excluded.page",
        params![
            json(&book.rules)?,
            json(&book.router)?,
            json(&book.lumber)?,
            word(&book.page)?,
        ],
    )?;
    Ok(())
}

/// What is kept of the pieces: few rows, so that all are read whatever the scope, one excepted.
pub(super) fn layouts(conn: &Connection, scope: Scope) -> Result<Vec<PieceLayout>, Fault> {
    let only = match scope {
        Scope::One(piece) => Some(piece.to_string()),
        _ => None,
    };
    let mut out: BTreeMap<PieceId, PieceLayout> = BTreeMap::new();
    let sql = "SELECT piece, standing FROM standing WHERE ?1 IS NULL OR piece = ?1";
    let standings = all(conn, sql, [&only], |row| Ok((row.parse()?, row.json()?)))?;
    for (piece, standing) in standings {
        let layout = out
            .entry(piece)
            .or_insert_with(|| PieceLayout::unsaid(piece));
        layout.standing = standing;
    }
    let sql = "SELECT piece, rule, about, missing_nm, weight, reason FROM accepted \
               WHERE ?1 IS NULL OR piece = ?1";
    let accepted = all(conn, sql, [&only], |row| {
        let piece: PieceId = row.parse()?;
        let taken = Accepted {
            rule: row.word::<Rule>()?,
            about: About(row.take()?),
            missing: Length::from_nm(row.take()?),
            weight: row.word()?,
            reason: row.take()?,
        };
        Ok((piece, taken))
    })?;
    for (piece, taken) in accepted {
        out.entry(piece)
            .or_insert_with(|| PieceLayout::unsaid(piece))
            .accepted
            .push(taken);
    }
    for layout in out.values_mut() {
        layout
            .accepted
            .sort_by(|a, b| (a.rule, &a.about).cmp(&(b.rule, &b.about)));
    }
    Ok(out.into_values().collect())
}

pub(super) fn put_layout(conn: &Connection, layout: &PieceLayout) -> Result<(), Fault> {
    let piece = layout.piece.to_string();
    if layout.standing.is_unsaid() {
        run(conn, "DELETE FROM standing WHERE piece = ?1", [&piece])?;
    } else {
        run(
            conn,
            "INSERT INTO standing (piece, standing) VALUES (?1, ?2) \
             ON CONFLICT (piece) DO UPDATE SET standing = excluded.standing",
            params![piece, json(&layout.standing)?],
        )?;
    }
    let sql = "SELECT rule, about FROM accepted WHERE piece = ?1";
    let stored: Vec<(String, String)> =
        all(conn, sql, [&piece], |row| Ok((row.take()?, row.take()?)))?;
    for (rule, about) in stored {
        let stays = |taken: &Accepted| taken.rule.word() == rule && taken.about.0 == about;
        if !layout.accepted.iter().any(stays) {
            let sql = "DELETE FROM accepted WHERE piece = ?1 AND rule = ?2 AND about = ?3";
            run(conn, sql, params![piece, rule, about])?;
        }
    }
    for taken in &layout.accepted {
        run(
            conn,
            "INSERT INTO accepted (piece, rule, about, missing_nm, weight, reason) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT (piece, rule, about) DO UPDATE SET \
             missing_nm = excluded.missing_nm, weight = excluded.weight, \
             reason = excluded.reason",
            params![
                piece,
                taken.rule.word(),
                taken.about.0,
                taken.missing.nm(),
                word(&taken.weight)?,
                taken.reason,
            ],
        )?;
    }
    Ok(())
}

/// Takes away what is kept of a piece that is removed.
pub(super) fn remove_layout(conn: &Connection, id: PieceId) -> Result<(), Fault> {
    let id = id.to_string();
    run(conn, "DELETE FROM standing WHERE piece = ?1", [&id])?;
    run(conn, "DELETE FROM accepted WHERE piece = ?1", [&id])?;
    Ok(())
}
