//! A recipe as typed.

use super::error::{FieldError, keep, schedule_field};
use super::piece::text_needed;
use super::span::{SpanUnit, read_span, write_span};
use super::words::{count, plain, quoted, yes_no};
use super::work::read_scuff;
use crate::coating::{ProductId, ProductKind};
use crate::desk::people::NAME_MOST;
use crate::desk::recipes::kind_fits;
use crate::desk::{RecipeDraft, Shop};
use crate::shop::{Grit, GroupPlan, Schedule, ScheduleError, ScuffMeans, WipeDown};
use serde::Serialize;

/// A recipe, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct RecipeTyped {
    /// What the shop calls it.
    pub name: String,
    /// Grits of the show faces, coarse to fine: `80 120 150`.
    pub show_grits: String,
    /// Their seal coats.
    pub show_seal: String,
    /// Whether they are stained: `yes` or `no`.
    pub show_stain: String,
    /// Their topcoats.
    pub show_topcoats: String,
    /// Grits of ends and walls.
    pub end_grits: String,
    /// Their seal coats.
    pub end_seal: String,
    /// Whether they are stained.
    pub end_stain: String,
    /// Their topcoats.
    pub end_topcoats: String,
    /// Grits of the underside.
    pub under_grits: String,
    /// Its seal coats.
    pub under_seal: String,
    /// Whether it is stained.
    pub under_stain: String,
    /// Its topcoats.
    pub under_topcoats: String,
    /// `none`, `dry`, or the product.
    pub wipe_down: String,
    /// The product of the seal coats, or `none`.
    pub sealer: String,
    /// The stain, or `none`.
    pub stain: String,
    /// The product of the topcoats, or `none`.
    pub topcoat: String,
    /// Between topcoats: `320`, `pad`, `brown paper` or `none`.
    pub scuff: String,
    /// Wait before setting: days, or `36 h`.
    pub cure_days: String,
    /// How many coats the two sides may differ.
    pub allowance: String,
}

/// Reads grits, coarse to fine.
///
/// # Errors
/// What is no grit, at `grits`; whether they rise is told by the schedule.
pub fn read_grits(text: &str) -> Result<Vec<Grit>, FieldError> {
    const FIELD: &str = "grits";
    let parts = text.split(|c: char| c.is_whitespace() || matches!(c, ',' | '/' | '>'));
    let grits: Vec<Grit> = parts
        .filter(|part| !part.is_empty())
        .map(|part| {
            let digits = part.bytes().all(|b| b.is_ascii_digit());
            digits.then(|| part.parse().ok()).flatten().map(Grit).ok_or_else(|| {
                let message = format!(
                    "\"{}\" is no grit: type the numbers on the paper, coarse to fine, for example 80 120 150.",
                    quoted(part)
                );
                FieldError::new(FIELD, message)
            })
        })
        .collect::<Result<_, _>>()?;
    if grits.is_empty() {
        let message = "No grit was given: type them coarse to fine, for example 80 120 150.";
        return Err(FieldError::new(FIELD, message));
    }
    Ok(grits)
}

/// Grits as they would be typed.
pub fn write_grits(grits: &[Grit]) -> String {
    grits
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join(" ")
}

/// A scuff as it would be typed.
pub fn write_scuff(scuff: Option<ScuffMeans>) -> String {
    match scuff {
        None => "none".to_owned(),
        Some(ScuffMeans::FinePaper(grit)) => grit.to_string(),
        Some(ScuffMeans::Pad) => "pad".to_owned(),
        Some(ScuffMeans::BrownPaper) => "brown paper".to_owned(),
    }
}

impl RecipeTyped {
    /// A recipe as it would be typed.
    pub fn of(name: &str, schedule: &Schedule, shop: &Shop) -> Self {
        let stained = |plan: &GroupPlan| if plan.stained { "yes" } else { "no" }.to_owned();
        let product = |id: Option<ProductId>| {
            id.map_or_else(|| "none".to_owned(), |id| product_text(id, shop))
        };
        let [(.., seen), (.., ends), (.., under)] = schedule.groups();
        let cure = schedule.cure_before_set;
        let cure_days = if cure.as_minutes() % 1440 == 0 {
            (cure.as_minutes() / 1440).to_string()
        } else {
            write_span(cure)
        };
        Self {
            name: name.to_owned(),
            show_grits: write_grits(&seen.grits),
            show_seal: seen.seal_coats.to_string(),
            show_stain: stained(seen),
            show_topcoats: seen.topcoats.to_string(),
            end_grits: write_grits(&ends.grits),
            end_seal: ends.seal_coats.to_string(),
            end_stain: stained(ends),
            end_topcoats: ends.topcoats.to_string(),
            under_grits: write_grits(&under.grits),
            under_seal: under.seal_coats.to_string(),
            under_stain: stained(under),
            under_topcoats: under.topcoats.to_string(),
            wipe_down: match schedule.wipe_down {
                WipeDown::NotAsked => "none".to_owned(),
                WipeDown::Dry => "dry".to_owned(),
                WipeDown::With(id) => product_text(id, shop),
            },
            sealer: product(schedule.sealer),
            stain: product(schedule.stain),
            topcoat: product(schedule.topcoat),
            scuff: write_scuff(schedule.scuff),
            cure_days,
            allowance: schedule.balance_allowance.to_string(),
        }
    }
}

/// A product as it would be typed: its name, or its identifier where the name would not find it.
pub(super) fn product_text(id: ProductId, shop: &Shop) -> String {
    let reserved = |name: &str| matches!(plain(name).as_str(), "" | "none" | "no" | "dry");
    match shop.product(id) {
        Some(product)
            if !reserved(&product.name)
                && shop.find_product(&product.name).map(|found| found.id) == Some(id) =>
        {
            product.name.clone()
        }
        _ => id.to_string(),
    }
}

/// The product meant, of the kind its step needs; none for nothing or `none`.
fn read_product_name(
    field: &'static str,
    text: &str,
    needs: ProductKind,
    shop: &Shop,
) -> Result<Option<ProductId>, FieldError> {
    if matches!(plain(text).as_str(), "" | "none" | "no") {
        return Ok(None);
    }
    let typed = plain(text);
    let fits = |id: ProductId| {
        shop.product(id)
            .is_some_and(|product| kind_fits(product, needs).is_ok())
    };
    let found = shop
        .find_product(text)
        .map(|product| product.id)
        .or_else(|| {
            let mut begin = shop
                .products
                .iter()
                .filter(|product| plain(&product.name).starts_with(&typed) && fits(product.id));
            let first = begin.next()?;
            begin.next().is_none().then_some(first.id)
        });
    let Some(product) = found.and_then(|id| shop.product(id)) else {
        let message = format!(
            "There is no {} called \"{}\", or more than one begins so: type its whole name.",
            needs.word(),
            quoted(text)
        );
        return Err(FieldError::new(field, message));
    };
    kind_fits(product, needs).map_err(|error| FieldError::said(field, &error))?;
    Ok(Some(product.id))
}

/// Reads a recipe.
///
/// # Errors
/// Every field that does not read; where all do, the field in which the first thing that cannot
/// stand is put right.
pub fn read_recipe(typed: &RecipeTyped, shop: &Shop) -> Result<RecipeDraft, Vec<FieldError>> {
    let mut errors = Vec::new();
    let cure = "type what the shop calls it.";
    text_needed(
        "name",
        "The recipe's name",
        &typed.name,
        NAME_MOST,
        cure,
        &mut errors,
    );
    let t = typed;
    let seen = group(
        [("show_grits", &t.show_grits), ("show_seal", &t.show_seal)],
        [
            ("show_stain", &t.show_stain),
            ("show_topcoats", &t.show_topcoats),
        ],
        &mut errors,
    );
    let end_grain = group(
        [("end_grits", &t.end_grits), ("end_seal", &t.end_seal)],
        [
            ("end_stain", &t.end_stain),
            ("end_topcoats", &t.end_topcoats),
        ],
        &mut errors,
    );
    let underside = group(
        [
            ("under_grits", &t.under_grits),
            ("under_seal", &t.under_seal),
        ],
        [
            ("under_stain", &t.under_stain),
            ("under_topcoats", &t.under_topcoats),
        ],
        &mut errors,
    );
    let wipe_down = if plain(&t.wipe_down) == "dry" {
        Some(WipeDown::Dry)
    } else {
        let with = read_product_name("wipe_down", &t.wipe_down, ProductKind::Wipe, shop);
        keep(with, &mut errors).map(|with| with.map_or(WipeDown::NotAsked, WipeDown::With))
    };
    let mut product =
        |field, text, kind| keep(read_product_name(field, text, kind, shop), &mut errors);
    let sealer = product("sealer", &t.sealer, ProductKind::Sealer);
    let stain = product("stain", &t.stain, ProductKind::Stain);
    let topcoat = product("topcoat", &t.topcoat, ProductKind::Topcoat);
    let scuff = keep(read_scuff(&t.scuff), &mut errors);
    let cure = keep(
        read_span("cure_days", &t.cure_days, Some(SpanUnit::Days)),
        &mut errors,
    );
    let allowance = keep(
        count("allowance", "coats of difference", &t.allowance),
        &mut errors,
    );
    let (Some(seen), Some(end_grain), Some(underside), Some(wipe_down)) =
        (seen, end_grain, underside, wipe_down)
    else {
        return Err(errors);
    };
    let (Some(sealer), Some(stain), Some(topcoat)) = (sealer, stain, topcoat) else {
        return Err(errors);
    };
    let (Some(scuff), Some(cure_before_set), Some(balance_allowance)) = (scuff, cure, allowance)
    else {
        return Err(errors);
    };
    let schedule = Schedule {
        show: seen,
        end_grain,
        underside,
        wipe_down,
        sealer,
        stain,
        topcoat,
        scuff,
        cure_before_set,
        balance_allowance,
    };
    if errors.is_empty()
        && let Err(error) = schedule.check()
    {
        errors.push(FieldError::said(refused_at(&error, &schedule), &error));
    }
    if errors.is_empty() {
        Ok(RecipeDraft {
            name: typed.name.clone(),
            schedule,
        })
    } else {
        Err(errors)
    }
}

/// The field of a refused schedule, looked up closer where the schedule is at hand.
fn refused_at(error: &ScheduleError, schedule: &Schedule) -> &'static str {
    let (show, ends) = (&schedule.show, &schedule.end_grain);
    match error {
        ScheduleError::Walls if show.stained != ends.stained => "end_stain",
        ScheduleError::Walls if ends.seal_coats < show.seal_coats => "end_seal",
        ScheduleError::TooMany(_) => {
            let fields = ["show_topcoats", "end_topcoats", "under_topcoats"];
            let over = |plan: &GroupPlan| plan.film_coats() > Schedule::MAX_COATS;
            let groups = schedule.groups();
            let found = groups
                .iter()
                .zip(fields)
                .find(|((_, _, plan), _)| over(plan));
            found.map_or("show_topcoats", |(_, field)| field)
        }
        other => schedule_field(other),
    }
}

fn group(
    [grits, seal]: [(&'static str, &String); 2],
    [stain, topcoats]: [(&'static str, &String); 2],
    errors: &mut Vec<FieldError>,
) -> Option<GroupPlan> {
    let grits = keep(
        read_grits(grits.1).map_err(|error| error.at(grits.0)),
        errors,
    );
    let seal_coats = keep(count(seal.0, "seal coats", seal.1), errors);
    let stained = keep(yes_no(stain.0, stain.1), errors);
    let topcoats = keep(count(topcoats.0, "topcoats", topcoats.1), errors);
    Some(GroupPlan {
        grits: grits?,
        seal_coats: seal_coats?,
        stained: stained?,
        topcoats: topcoats?,
    })
}
