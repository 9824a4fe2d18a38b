//! The recipes.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::coating::ProductId;
use crate::desk::Shop;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::wrap;
use crate::shop::{GroupPlan, Schedule, WipeDown};
use crate::units::show_span;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "With --json: recipes [id, name, groups [group, grits, seal_coats, stained, topcoats], wipe_down,\nsealer, stain, topcoat (names or null), scuff (words or null), cure_before_set_min,\nbalance_allowance_coats, pieces (how many follow it)].";

#[derive(Serialize)]
struct RecipesJson {
    recipes: Vec<RecipeJson>,
}

#[derive(Serialize)]
struct RecipeJson {
    id: String,
    name: String,
    groups: Vec<GroupJson>,
    wipe_down: String,
    sealer: Option<String>,
    stain: Option<String>,
    topcoat: Option<String>,
    scuff: Option<String>,
    cure_before_set_min: i64,
    balance_allowance_coats: u8,
    pieces: usize,
}

#[derive(Serialize)]
struct GroupJson {
    group: &'static str,
    grits: Vec<u16>,
    seal_coats: u8,
    stained: bool,
    topcoats: u8,
}

/// Reads it.
pub fn run(session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let (mut lines, mut recipes) = (Vec::new(), Vec::new());
    for recipe in &shop.recipes {
        let schedule = &recipe.schedule;
        if !lines.is_empty() {
            lines.push(String::new());
        }
        lines.push(recipe.name.clone());
        for line in schedule_lines(schedule, &shop) {
            let wrapped = wrap(&line, PAPER_WIDTH - 2, 2);
            lines.extend(wrapped.into_iter().map(|line| format!("  {line}")));
        }
        let named = |id: Option<ProductId>| id.map(|id| name(id, &shop));
        recipes.push(RecipeJson {
            id: recipe.id.to_string(),
            name: recipe.name.clone(),
            groups: schedule
                .groups()
                .map(|(_, group, plan)| group_json(group, plan))
                .into(),
            wipe_down: wipe_words(schedule, &shop),
            sealer: named(schedule.sealer),
            stain: named(schedule.stain),
            topcoat: named(schedule.topcoat),
            scuff: schedule.scuff.map(crate::shop::ScuffMeans::words),
            cure_before_set_min: schedule.cure_before_set.as_minutes(),
            balance_allowance_coats: schedule.balance_allowance,
            pieces: shop
                .files
                .iter()
                .filter(|file| file.piece.recipe == recipe.id)
                .count(),
        });
    }
    if lines.is_empty() {
        lines.push("There is no recipe. Enter one: tackfree recipe NAME".to_owned());
    }
    Answer::new(lines, RecipesJson { recipes })
}

fn group_json(group: &'static str, plan: &GroupPlan) -> GroupJson {
    GroupJson {
        group,
        grits: plan.grits.iter().map(|grit| grit.0).collect(),
        seal_coats: plan.seal_coats,
        stained: plan.stained,
        topcoats: plan.topcoats,
    }
}

fn name(id: ProductId, shop: &Shop) -> String {
    shop.product(id).map_or_else(
        || "a product gone".to_owned(),
        |product| product.name.clone(),
    )
}

fn wipe_words(schedule: &Schedule, shop: &Shop) -> String {
    match schedule.wipe_down {
        WipeDown::NotAsked => "nothing asked".to_owned(),
        WipeDown::Dry => "dry".to_owned(),
        WipeDown::With(id) => name(id, shop),
    }
}

fn coats(count: u8, word: &str) -> String {
    match count {
        0 => format!("no {word}"),
        1 => format!("1 {word}"),
        _ => format!("{count} {word}s"),
    }
}

fn schedule_lines(schedule: &Schedule, shop: &Shop) -> Vec<String> {
    let mut out: Vec<String> = schedule
        .groups()
        .iter()
        .map(|(_, group, plan)| {
            let grits: Vec<String> = plan.grits.iter().map(ToString::to_string).collect();
            let stain = if plan.stained { "stain" } else { "no stain" };
            format!(
                "{group}: {}; {}, {stain}, {}",
                grits.join(" "),
                coats(plan.seal_coats, "seal coat"),
                coats(plan.topcoats, "topcoat")
            )
        })
        .collect();
    out.push(format!("wipe-down: {}", wipe_words(schedule, shop)));
    for (word, product) in [
        ("sealer", schedule.sealer),
        ("stain", schedule.stain),
        ("topcoat", schedule.topcoat),
    ] {
        if let Some(id) = product {
            out.push(format!("{word}: {}", name(id, shop)));
        }
    }
    if let Some(scuff) = schedule.scuff {
        out.push(format!("between topcoats: {}", scuff.words()));
    }
    let cure = show_span(schedule.cure_before_set.as_duration());
    let allowance = coats(schedule.balance_allowance, "coat");
    out.push(format!(
        "cures {cure} before set; show side and underside may differ by {allowance}"
    ));
    out
}
