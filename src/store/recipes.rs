//! Products and recipes.

use super::cells::{all, json, run, word};
use super::error::Fault;
use crate::coating::{FigureSet, LabelFigures, Product, ProductId, RecoatWindow, Span, Voc};
use crate::shop::{Recipe, RecipeId};
use crate::units::{Density, Humidity, Length, Money, SpreadRate, Temperature, Volume};
use rusqlite::{Connection, params};
use serde::{Deserialize, Serialize};

/// A label's figures as the column holds them. Decimals are written as text, in the fewest digits
/// that read back to the same number: a figure must not drift by being saved.
#[derive(Serialize, Deserialize)]
#[serde(remote = "LabelFigures")]
struct LabelText {
    #[serde(with = "decimal")]
    spread: SpreadRate,
    wet_film: Option<Length>,
    dry_film: Option<Length>,
    #[serde(with = "decimal")]
    solids_pct: f64,
    #[serde(with = "decimal")]
    density: Density,
    voc: Option<Voc>,
    reference: Temperature,
    reference_humidity: Option<Humidity>,
    touch: Span,
    tack_free: Span,
    windows: Vec<RecoatWindow>,
    handle: Span,
    light_use: Span,
    full_cure: Span,
    min_temp: Temperature,
    max_humidity: Humidity,
    from_label: FigureSet,
}

#[derive(Serialize, Deserialize)]
#[serde(transparent)]
struct Label(#[serde(with = "LabelText")] LabelFigures);

mod decimal {
    use serde::de::{Deserialize, Deserializer, Error};
    use serde::ser::Serializer;
    use std::fmt::Display;

    #[allow(clippy::trivially_copy_pass_by_ref)] // the signature serde calls
    pub fn serialize<T: Copy + Into<f64>, S: Serializer>(
        value: &T,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.collect_str(&(*value).into())
    }

    pub fn deserialize<'de, T: TryFrom<f64, Error: Display>, D: Deserializer<'de>>(
        from: D,
    ) -> Result<T, D::Error> {
        let number: f64 = String::deserialize(from)?
            .parse()
            .map_err(D::Error::custom)?;
        T::try_from(number).map_err(D::Error::custom)
    }
}

pub(super) fn products(conn: &Connection) -> Result<Vec<Product>, Fault> {
    let sql = "SELECT id, name, kind, family, label, can_ul, price_cents FROM product";
    let mut products = all(conn, sql, [], |row| {
        Ok(Product {
            id: row.parse()?,
            name: row.take()?,
            kind: row.word()?,
            family: row.word()?,
            label: row.json::<Label>()?.0,
            can: Volume::from_ul(row.take()?),
            price: Money::from_cents(row.take()?),
        })
    })?;
    products.sort_by_cached_key(|product| (product.kind, product.name.to_lowercase(), product.id));
    Ok(products)
}

pub(super) fn put_product(conn: &Connection, product: &Product) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO product (id, name, kind, family, label, can_ul, price_cents) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7) ON CONFLICT (id) DO UPDATE SET \
         name = excluded.name, kind = excluded.kind, family = excluded.family, \
         label = excluded.label, can_ul = excluded.can_ul, \
         price_cents = excluded.price_cents",
        params![
            product.id.to_string(),
            product.name,
            word(&product.kind)?,
            word(&product.family)?,
            json(&Label(product.label.clone()))?,
            product.can.ul(),
            product.price.cents(),
        ],
    )?;
    Ok(())
}

/// Whether a schedule names this product. Schedules are JSON, so no reference of the schema
/// watches over it.
pub(super) fn is_scheduled(conn: &Connection, id: ProductId) -> Result<bool, Fault> {
    let sql = "SELECT EXISTS (SELECT 1 FROM recipe WHERE instr(schedule, ?1)) \
               OR EXISTS (SELECT 1 FROM piece WHERE instr(schedule, ?1))";
    Ok(conn
        .prepare_cached(sql)?
        .query_row([id.to_string()], |row| row.get(0))?)
}

pub(super) fn remove_product(conn: &Connection, id: ProductId) -> Result<usize, Fault> {
    super::use_book::forget_product(conn, &id.to_string())?;
    run(conn, "DELETE FROM product WHERE id = ?1", [id.to_string()])
}

pub(super) fn recipes(conn: &Connection) -> Result<Vec<Recipe>, Fault> {
    let mut recipes = all(conn, "SELECT id, name, schedule FROM recipe", [], |row| {
        Ok(Recipe {
            id: row.parse()?,
            name: row.take()?,
            schedule: row.json()?,
        })
    })?;
    recipes.sort_by_cached_key(|recipe| (recipe.name.to_lowercase(), recipe.id));
    Ok(recipes)
}

pub(super) fn put_recipe(conn: &Connection, recipe: &Recipe) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO recipe (id, name, schedule) VALUES (?1, ?2, ?3) \
         ON CONFLICT (id) DO UPDATE SET name = excluded.name, schedule = excluded.schedule",
        params![recipe.id.to_string(), recipe.name, json(&recipe.schedule)?],
    )?;
    Ok(())
}

pub(super) fn remove_recipe(conn: &Connection, id: RecipeId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM recipe WHERE id = ?1", [id.to_string()])
}
