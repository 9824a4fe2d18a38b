//! The products and recipes a new shop starts with: each to be checked against the can, edited
//! and copied.
//!
//! Common practice, no source: 120 grit everywhere before stain, a band of the underside stained
//! and its field only sealed, six or seven very thin wiped coats.

use super::event::ScuffMeans;
use super::id::RecipeId;
use super::recipe::Recipe;
use super::schedule::{Grit, GroupPlan, Schedule, WipeDown};
use crate::coating::families::{usual_figures, usual_kind};
use crate::coating::id::Mint;
use crate::coating::{Family, Product, ProductId, Span};
use crate::units::{Money, Volume};

/// One product a month's shelf would hold, by family: what the shop calls it, its can in US quarts
/// and cents. Prices are starting values to be typed over.
const SHELF: [(&str, Family, i64, i64); 7] = [
    ("mineral spirits", Family::MineralSpirits, 4, 1_800),
    ("dewaxed shellac sealer", Family::Shellac, 1, 2_400),
    ("clear wiping varnish", Family::OilWipingVarnish, 1, 2_800),
    ("brown gel stain", Family::OilGelStain, 1, 2_600),
    ("hardwax oil", Family::HardwaxOil, 1, 6_400),
    ("water-borne clear", Family::WaterBorne, 1, 3_400),
    ("brushing varnish", Family::OilBrushingVarnish, 1, 2_700),
];

/// One US liquid quart in microlitres, rounded (231 cubic inches / 4).
const QUART_UL: i64 = 946_353;

/// The starting products.
pub fn ready_products(mint: &mut Mint, at_ms: i64) -> Vec<Product> {
    SHELF
        .iter()
        .map(|&(name, family, quarts, cents)| Product {
            id: ProductId(mint.next(at_ms)),
            name: name.to_owned(),
            kind: usual_kind(family),
            family,
            label: usual_figures(family),
            can: Volume::from_ul(quarts * QUART_UL),
            price: Money::from_cents(cents),
        })
        .collect()
}

fn plan(grits: &[u16], seal_coats: u8, stained: bool, topcoats: u8) -> GroupPlan {
    GroupPlan {
        grits: grits.iter().copied().map(Grit).collect(),
        seal_coats,
        stained,
        topcoats,
    }
}

/// The starting recipes, over the products of [`ready_products`].
pub fn ready_recipes(products: &[Product], mint: &mut Mint, at_ms: i64) -> Vec<Recipe> {
    let of = |family: Family| products.iter().find(|p| p.family == family).map(|p| p.id);
    let spirits = of(Family::MineralSpirits).map_or(WipeDown::Dry, WipeDown::With);
    let brown_paper = Some(ScuffMeans::BrownPaper);
    let clear = Schedule {
        show: plan(&[80, 120, 150, 180], 1, false, 4),
        end_grain: plan(&[80, 120, 150, 180, 220], 1, false, 4),
        underside: plan(&[80, 120], 1, false, 3),
        wipe_down: spirits,
        sealer: of(Family::Shellac),
        stain: None,
        topcoat: of(Family::OilWipingVarnish),
        scuff: Some(ScuffMeans::FinePaper(Grit(320))),
        cure_before_set: Span::days(3),
        balance_allowance: 1,
    };
    let stained = Schedule {
        show: plan(&[80, 120], 0, true, 6),
        end_grain: plan(&[80, 120], 0, true, 6),
        underside: plan(&[80, 120], 1, false, 5),
        wipe_down: spirits,
        sealer: of(Family::Shellac),
        stain: of(Family::OilGelStain),
        topcoat: of(Family::OilWipingVarnish),
        scuff: brown_paper,
        cure_before_set: Span::days(3),
        balance_allowance: 1,
    };
    let hardwax = Schedule {
        show: plan(&[80, 120, 150], 0, false, 2),
        end_grain: plan(&[80, 120, 150, 180], 0, false, 3),
        underside: plan(&[80, 120, 150], 0, false, 2),
        wipe_down: WipeDown::Dry,
        sealer: None,
        stain: None,
        topcoat: of(Family::HardwaxOil),
        scuff: Some(ScuffMeans::Pad),
        cure_before_set: Span::days(2),
        balance_allowance: 0,
    };
    let water = Schedule {
        show: plan(&[80, 120, 150, 180], 1, false, 3),
        end_grain: plan(&[80, 120, 150, 180, 220], 1, false, 3),
        underside: plan(&[80, 120, 150], 1, false, 3),
        wipe_down: WipeDown::Dry,
        sealer: of(Family::Shellac),
        stain: None,
        topcoat: of(Family::WaterBorne),
        scuff: Some(ScuffMeans::FinePaper(Grit(320))),
        cure_before_set: Span::days(3),
        balance_allowance: 1,
    };
    [
        ("clear wiped film", clear),
        ("gel stain under a wiped film", stained),
        ("hardwax oil on all sides", hardwax),
        ("water-borne clear", water),
    ]
    .into_iter()
    .map(|(name, schedule)| Recipe {
        id: RecipeId(mint.next(at_ms)),
        name: name.to_owned(),
        schedule,
    })
    .collect()
}
