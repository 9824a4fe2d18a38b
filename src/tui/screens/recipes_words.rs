//! A finish schedule in words, step by step.

use super::super::screen::Ctx;
use super::list::{Line, Tone, count, plain};
use crate::coating::ProductId;
use crate::shop::{CoatKind, GroupPlan, PieceFile, Recipe, Schedule, SetItem, Stage, WipeDown};
use crate::units::moment::show_span;

/// The pieces that follow a recipe.
pub(super) fn followers<'a>(recipe: &Recipe, ctx: &Ctx<'a>) -> Vec<&'a PieceFile> {
    ctx.shop
        .files
        .iter()
        .filter(|file| file.piece.recipe == recipe.id)
        .collect()
}

/// The schedule, who follows it, and what to mind.
pub(super) fn detail(recipe: &Recipe, ctx: &Ctx<'_>) -> Vec<Line> {
    let mut lines = steps(&recipe.schedule, ctx);
    lines.push(plain(followed(recipe, ctx)));
    lines.extend(
        recipe
            .schedule
            .wide_steps()
            .into_iter()
            .map(|words| (Tone::Warn, format!("Mind: {words}"))),
    );
    lines
}

/// The lines with a blank one before each step.
pub(super) fn spaced(lines: &[Line]) -> Vec<Line> {
    let mut out = Vec::with_capacity(lines.len() * 2);
    for (i, line) in lines.iter().enumerate() {
        if i > 0 && !line.1.starts_with(' ') {
            out.push(plain(""));
        }
        out.push(line.clone());
    }
    out
}

fn followed(recipe: &Recipe, ctx: &Ctx<'_>) -> String {
    let files = followers(recipe, ctx);
    let started = files
        .iter()
        .filter(|file| file.piece.schedule.is_some())
        .count();
    let n = files.len();
    let pieces = count(n, "piece");
    match started {
        _ if n == 0 => "No piece follows it yet.".to_owned(),
        0 => format!("Followed by {pieces}; no work has started."),
        1 if n == 1 => {
            format!("Followed by {pieces}, which has its own copy, as work has started.")
        }
        _ if started == n => {
            format!("Followed by {pieces}, each with its own copy, as work has started.")
        }
        1 => format!("Followed by {pieces}; 1 of them has its own copy, as work has started."),
        _ => format!(
            "Followed by {pieces}; {started} of them have their own copies, as work has started."
        ),
    }
}

fn product(id: Option<ProductId>, ctx: &Ctx<'_>) -> String {
    match id {
        None => "no product named".to_owned(),
        Some(id) => ctx
            .shop
            .product(id)
            .map_or("a product no longer kept", |p| &p.name)
            .to_owned(),
    }
}

/// `show faces 6, ends and walls 6` of those that ask for any.
fn coats(schedule: &Schedule, of: fn(&GroupPlan) -> u8) -> String {
    let asking = schedule
        .groups()
        .into_iter()
        .filter(|(_, _, plan)| of(plan) > 0);
    asking
        .map(|(_, name, plan)| format!("{name} {}", of(plan)))
        .collect::<Vec<_>>()
        .join(", ")
}

fn steps(schedule: &Schedule, ctx: &Ctx<'_>) -> Vec<Line> {
    let mut lines = vec![plain("1 Sand, each grit on every face")];
    for (_, name, plan) in schedule.groups() {
        let grits: Vec<String> = plan.grits.iter().map(ToString::to_string).collect();
        lines.push(plain(format!("    {name}: {}", grits.join(", "))));
    }
    lines.push(plain(match schedule.wipe_down {
        WipeDown::NotAsked => "2 Wipe down: not asked".to_owned(),
        WipeDown::Dry => "2 Wipe down dry: vacuum and a clean cloth".to_owned(),
        WipeDown::With(id) => {
            format!(
                "2 Wipe down with {}; it flashes off before the first coat",
                product(Some(id), ctx)
            )
        }
    }));
    let asked = |stage| schedule.asks(stage);
    if asked(Stage::Sealing) {
        let sealer = product(schedule.product_for(CoatKind::Seal), ctx);
        lines.push(plain(format!("3 Seal coats of {sealer}")));
        lines.push(plain(format!(
            "    {}",
            coats(schedule, |plan| plan.seal_coats)
        )));
    } else {
        lines.push(plain("3 Seal coats: nothing asked"));
    }
    if asked(Stage::Staining) {
        let stain = product(schedule.product_for(CoatKind::Stain), ctx);
        let names: Vec<&str> = schedule
            .groups()
            .iter()
            .filter(|(_, _, plan)| plan.stained)
            .map(|(_, name, _)| *name)
            .collect();
        lines.push(plain(format!("4 Stain with {stain}, wiped off")));
        lines.push(plain(format!("    {}", names.join(", "))));
    } else {
        lines.push(plain("4 Stain: nothing asked"));
    }
    if asked(Stage::Topcoats) {
        let topcoat = product(schedule.product_for(CoatKind::Topcoat), ctx);
        lines.push(plain(format!("5 Topcoats of {topcoat}")));
        lines.push(plain(format!(
            "    {}",
            coats(schedule, |plan| plan.topcoats)
        )));
        let scuff = schedule.scuff.map_or("none asked".to_owned(), |means| {
            format!("with {}", means.words())
        });
        lines.push(plain(format!("    scuff between topcoats: {scuff}")));
    } else {
        lines.push(plain("5 Topcoats: nothing asked"));
    }
    let cure = schedule.cure_before_set;
    let cure = if cure.as_minutes() == 0 {
        "no wait".to_owned()
    } else {
        show_span(cure.as_duration())
    };
    lines.push(plain(format!("6 Cure before it is set: {cure}")));
    lines.push(plain(format!(
        "7 Set, by its list of {} lines",
        SetItem::ALL.len()
    )));
    lines.push(plain(format!(
        "Balance: show side and underside may differ by {}",
        count(usize::from(schedule.balance_allowance), "film coat")
    )));
    lines
}
