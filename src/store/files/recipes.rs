//! `recipes.toml`, and `schedules.toml` with the pieces' own copies.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{means, means_word};
use super::shelf::{Shelf, table};
use super::text::{self, NAME_MOST};
use super::tomls::{Read, quoted, value};
use super::words;
use crate::coating::ProductKind;
use crate::shop::{CoatKind, Grit, GroupPlan, PieceId, Recipe, RecipeId, Schedule, WipeDown};
use serde::Deserialize;
use std::collections::{HashMap, HashSet};
use std::fmt::Write as _;
use toml::Spanned;

const RECIPES: &str = "recipes.toml";
const SCHEDULES: &str = "schedules.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecipesFile {
    #[serde(default)]
    recipe: Vec<Spanned<RecipeRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecipeRow {
    id: String,
    name: String,
    schedule: ScheduleRow,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SchedulesFile {
    #[serde(default)]
    own: Vec<Spanned<OwnRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnRow {
    piece: String,
    schedule: ScheduleRow,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ScheduleRow {
    show: GroupRow,
    end_grain: GroupRow,
    underside: GroupRow,
    wipe_down: String,
    sealer: Option<String>,
    stain: Option<String>,
    topcoat: Option<String>,
    scuff: Option<String>,
    cure_before_set: String,
    balance_allowance: u8,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GroupRow {
    grits: Vec<u16>,
    seal_coats: u8,
    stained: bool,
    topcoats: u8,
}

impl GroupRow {
    fn plan(&self) -> GroupPlan {
        GroupPlan {
            grits: self.grits.iter().copied().map(Grit).collect(),
            seal_coats: self.seal_coats,
            stained: self.stained,
            topcoats: self.topcoats,
        }
    }
}

/// The recipes of the files and their keys.
pub(super) struct Book {
    pub(super) recipes: Vec<Recipe>,
    pub(super) ring: Ring<RecipeId>,
}

/// Reads the recipes. A key that is a word takes the identifier of the store's recipe of the same
/// name (`before`), if there is one.
pub(super) fn read(
    reading: &mut Reading<'_>,
    shelf: &Shelf,
    before: &[Recipe],
) -> Result<Book, FilesError> {
    let file = Read::<RecipesFile>::file(&reading.source, RECIPES)?;
    let mut book = Book {
        recipes: Vec::new(),
        ring: Ring::new("recipe"),
    };
    let mut names = HashSet::new();
    for spanned in &file.what.recipe {
        let line = file.line(spanned);
        let row = spanned.get_ref();
        let at = |fault: Fault| fault.at(RECIPES, line);
        let (name, left_out) = text::line("name", &row.name, NAME_MOST).map_err(at)?;
        reading.notes.left_out(RECIPES, line, "name", left_out);
        if name.is_empty() {
            return Err(at(Fault::Empty {
                what: "name",
                cure: "each recipe needs one".to_owned(),
            }));
        }
        if !names.insert(name.to_ascii_lowercase()) {
            return Err(at(Fault::Twice {
                what: "recipe named",
                key: name,
            }));
        }
        let key = value("id", key_word(&row.id)).map_err(at)?;
        let same = before
            .iter()
            .find(|recipe| recipe.name.eq_ignore_ascii_case(&name));
        let id = reading.keys.of_or(&key, same.map(|recipe| recipe.id.0));
        let id = RecipeId(id.ok_or_else(|| at(book.ring.twice(&key)))?);
        book.ring.hang(&key, id).map_err(at)?;
        let schedule = schedule(&row.schedule, shelf).map_err(at)?;
        book.recipes.push(Recipe { id, name, schedule });
    }
    Ok(book)
}

/// Reads the pieces' own copies, by piece.
pub(super) fn read_own(
    reading: &Reading<'_>,
    shelf: &Shelf,
    pieces: &Ring<PieceId>,
) -> Result<HashMap<PieceId, Schedule>, FilesError> {
    let file = Read::<SchedulesFile>::file(&reading.source, SCHEDULES)?;
    let mut out = HashMap::new();
    for spanned in &file.what.own {
        let row = spanned.get_ref();
        let at = |fault: Fault| fault.at(SCHEDULES, file.line(spanned));
        let piece = pieces.find(&row.piece).map_err(at)?;
        let schedule = schedule(&row.schedule, shelf).map_err(at)?;
        if out.insert(piece, schedule).is_some() {
            let key = super::table::short(&row.piece);
            return Err(at(Fault::Twice {
                what: "schedule of piece",
                key,
            }));
        }
    }
    Ok(out)
}

/// A schedule that leaves no face bare and whose products fit their steps: the gates rest on it.
fn schedule(row: &ScheduleRow, shelf: &Shelf) -> Result<Schedule, Fault> {
    let find = |key: &Option<String>| match key {
        Some(key) => shelf.ring.find(key).map(Some),
        None => Ok(None),
    };
    let wipe_down = match row.wipe_down.as_str() {
        "none" => WipeDown::NotAsked,
        "dry" => WipeDown::Dry,
        other => {
            let Some(key) = other.strip_prefix("with ") else {
                let why = format!("\"{other}\" is not one of none, dry, with PRODUCT.");
                return value("wipe_down", Err(why));
            };
            WipeDown::With(shelf.ring.find(key.trim())?)
        }
    };
    let schedule = Schedule {
        show: row.show.plan(),
        end_grain: row.end_grain.plan(),
        underside: row.underside.plan(),
        wipe_down,
        sealer: find(&row.sealer)?,
        stain: find(&row.stain)?,
        topcoat: find(&row.topcoat)?,
        scuff: match &row.scuff {
            Some(text) => Some(value("scuff", means(text))?),
            None => None,
        },
        cure_before_set: value("cure_before_set", words::read_span(&row.cure_before_set))?,
        balance_allowance: row.balance_allowance,
    };
    schedule.check()?;
    for kind in CoatKind::ALL {
        if let Some(product) = schedule.product_for(kind).and_then(|id| shelf.product(id)) {
            fits(product, kind.product_kind())?;
        }
    }
    if let WipeDown::With(id) = schedule.wipe_down
        && let Some(product) = shelf.product(id)
    {
        fits(product, ProductKind::Wipe)?;
    }
    Ok(schedule)
}

/// A product must be of the kind its step needs; a topcoat may also seal.
pub(super) fn fits(product: &crate::coating::Product, needs: ProductKind) -> Result<(), Fault> {
    let seals = needs == ProductKind::Sealer && product.kind == ProductKind::Topcoat;
    if product.kind == needs || seals {
        return Ok(());
    }
    Err(Fault::WrongProduct {
        product: product.name.clone(),
        is: product.kind.word(),
        needs: needs.word(),
    })
}

/// Writes the recipes, in the order given.
pub(super) fn write(recipes: &[Recipe]) -> String {
    let mut out = String::new();
    for recipe in recipes {
        let lines = [
            ("id", quoted(&recipe.id.to_string())),
            ("name", quoted(&recipe.name)),
        ];
        table(&mut out, "recipe", &lines);
        write_schedule(&mut out, "recipe", &recipe.schedule);
    }
    out
}

/// Writes the pieces' own copies, in the order given.
pub(super) fn write_own<'s>(own: impl Iterator<Item = (PieceId, &'s Schedule)>) -> String {
    let mut out = String::new();
    for (piece, schedule) in own {
        table(&mut out, "own", &[("piece", quoted(&piece.to_string()))]);
        write_schedule(&mut out, "own", schedule);
    }
    out
}

fn write_schedule(out: &mut String, under: &str, schedule: &Schedule) {
    let group = |plan: &GroupPlan| {
        let grits: Vec<String> = plan.grits.iter().map(ToString::to_string).collect();
        format!(
            "{{ grits = [{}], seal_coats = {}, stained = {}, topcoats = {} }}",
            grits.join(", "),
            plan.seal_coats,
            plan.stained,
            plan.topcoats
        )
    };
    let wipe_down = match schedule.wipe_down {
        WipeDown::NotAsked => "none".to_owned(),
        WipeDown::Dry => "dry".to_owned(),
        WipeDown::With(product) => format!("with {product}"),
    };
    let mut lines = vec![
        ("show", group(&schedule.show)),
        ("end_grain", group(&schedule.end_grain)),
        ("underside", group(&schedule.underside)),
        ("wipe_down", quoted(&wipe_down)),
    ];
    let products = [
        ("sealer", schedule.sealer),
        ("stain", schedule.stain),
        ("topcoat", schedule.topcoat),
    ];
    for (name, product) in products {
        lines.extend(product.map(|id| (name, quoted(&id.to_string()))));
    }
    lines.extend(
        schedule
            .scuff
            .map(|means| ("scuff", quoted(&means_word(means)))),
    );
    lines.push((
        "cure_before_set",
        quoted(&words::span(schedule.cure_before_set)),
    ));
    lines.push(("balance_allowance", schedule.balance_allowance.to_string()));
    // Writing to a String cannot fail.
    let _ = writeln!(out, "[{under}.schedule]");
    for (key, value) in lines {
        let _ = writeln!(out, "{key} = {value}");
    }
}
