//! Passes struck out, can sizes on offer, mixes, and what planning allows for.

use super::cells::{all, json, run, word};
use super::error::Fault;
use crate::coating::ProductId;
use crate::shop::{Mix, MixPart, Offer, PassId, Struck, UseBook, UseRules};
use crate::units::{Density, Mass, Money, Volume};
use rusqlite::{Connection, params};
use serde::{Deserialize, Serialize};

/// A part as the column holds it: the density in the fewest digits that read back the same.
#[derive(Serialize, Deserialize)]
struct PartText {
    name: String,
    milliparts: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    density: Option<String>,
}

/// All of it, read over one state of the store.
pub(super) fn book(conn: &Connection) -> Result<UseBook, Fault> {
    let rules = all(
        conn,
        "SELECT reserve_percent, loss_percent, bare_percent, scale_mg, cup_ul FROM use_rules",
        [],
        |row| {
            Ok(UseRules {
                reserve_percent: row.take()?,
                loss_percent: row.take()?,
                bare_percent: row.take()?,
                scale: Mass::from_mg(row.take()?),
                cup: Volume::from_ul(row.take()?),
            })
        },
    )?;
    let struck = all(conn, "SELECT pass, reason FROM pass_struck", [], |row| {
        Ok(Struck {
            pass: row.parse()?,
            reason: row.take()?,
        })
    })?;
    let sql = "SELECT product, holds_ul, price_cents FROM can_offer";
    let offers = all(conn, sql, [], |row| {
        Ok(Offer {
            product: row.parse()?,
            holds: Volume::from_ul(row.take()?),
            price: Money::from_cents(row.take()?),
        })
    })?;
    let mixes = all(conn, "SELECT product, by, parts FROM mix", [], |row| {
        let (product, by) = (row.parse()?, row.word()?);
        let texts: Vec<PartText> = row.json()?;
        let part = |text: PartText| {
            let density = text.density.map(|text| text.parse::<f64>().ok());
            let density = match density.map(|g| g.and_then(Density::from_g_per_ml)) {
                Some(None) => return Err(row.wrong(&"a part has no density that can be")),
                Some(known) => known,
                None => None,
            };
            Ok(MixPart {
                name: text.name,
                milliparts: text.milliparts,
                density,
            })
        };
        Ok(Mix {
            product,
            by,
            parts: texts.into_iter().map(part).collect::<Result<_, _>>()?,
        })
    })?;
    let rules = rules.into_iter().next().unwrap_or_default();
    let book = UseBook {
        rules,
        struck,
        offers,
        mixes,
    };
    Ok(book.in_order())
}

pub(super) fn put_rules(conn: &Connection, rules: &UseRules) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO use_rules (one, reserve_percent, loss_percent, bare_percent, scale_mg, cup_ul) \
         VALUES (1, ?1, ?2, ?3, ?4, ?5) ON CONFLICT (one) DO UPDATE SET \
         reserve_percent = excluded.reserve_percent, loss_percent = excluded.loss_percent, \
         bare_percent = excluded.bare_percent, scale_mg = excluded.scale_mg, \
         cup_ul = excluded.cup_ul",
        params![
            rules.reserve_percent,
            rules.loss_percent,
            rules.bare_percent,
            rules.scale.mg(),
            rules.cup.ul(),
        ],
    )?;
    Ok(())
}

pub(super) fn put_struck(conn: &Connection, struck: &Struck) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO pass_struck (pass, reason) VALUES (?1, ?2) \
         ON CONFLICT (pass) DO UPDATE SET reason = excluded.reason",
        params![struck.pass.to_string(), struck.reason],
    )?;
    Ok(())
}

pub(super) fn remove_struck(conn: &Connection, pass: PassId) -> Result<usize, Fault> {
    let sql = "DELETE FROM pass_struck WHERE pass = ?1";
    run(conn, sql, [pass.to_string()])
}

pub(super) fn put_offer(conn: &Connection, offer: &Offer) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO can_offer (product, holds_ul, price_cents) VALUES (?1, ?2, ?3) \
         ON CONFLICT (product, holds_ul) DO UPDATE SET price_cents = excluded.price_cents",
        params![
            offer.product.to_string(),
            offer.holds.ul(),
            offer.price.cents()
        ],
    )?;
    Ok(())
}

pub(super) fn remove_offer(
    conn: &Connection,
    product: ProductId,
    holds: Volume,
) -> Result<usize, Fault> {
    let sql = "DELETE FROM can_offer WHERE product = ?1 AND holds_ul = ?2";
    run(conn, sql, params![product.to_string(), holds.ul()])
}

pub(super) fn put_mix(conn: &Connection, mix: &Mix) -> Result<(), Fault> {
    let parts: Vec<PartText> = mix
        .parts
        .iter()
        .map(|part| PartText {
            name: part.name.clone(),
            milliparts: part.milliparts,
            density: part.density.map(|density| density.g_per_ml().to_string()),
        })
        .collect();
    run(
        conn,
        "INSERT INTO mix (product, by, parts) VALUES (?1, ?2, ?3) \
         ON CONFLICT (product) DO UPDATE SET by = excluded.by, parts = excluded.parts",
        params![mix.product.to_string(), word(&mix.by)?, json(&parts)?],
    )?;
    Ok(())
}

pub(super) fn remove_mix(conn: &Connection, product: ProductId) -> Result<usize, Fault> {
    let sql = "DELETE FROM mix WHERE product = ?1";
    run(conn, sql, [product.to_string()])
}

/// Takes away what is kept of a product that goes.
pub(super) fn forget_product(conn: &Connection, product: &str) -> Result<(), Fault> {
    run(conn, "DELETE FROM can_offer WHERE product = ?1", [product])?;
    run(conn, "DELETE FROM mix WHERE product = ?1", [product])?;
    Ok(())
}
