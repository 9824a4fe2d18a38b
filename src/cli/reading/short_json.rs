//! Stain batches that do not last, as lines and as JSON.

use super::rounded;
use crate::desk::Shop;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::wrap;
use crate::papers::short_words;
use serde::Serialize;

/// One batch that does not last.
#[derive(Debug, Serialize)]
pub(super) struct ShortJson {
    jobs: Vec<u32>,
    product: String,
    batch: String,
    left_ml: f64,
    needed_ml: f64,
    missing_ml: f64,
    words: String,
}

/// The lines that go under a list, and the same as JSON.
pub(super) fn shorts(shop: &Shop) -> (Vec<String>, Vec<ShortJson>) {
    let found = shop.short();
    let mut lines = Vec::new();
    if !found.is_empty() {
        lines.extend([String::new(), "RUNNING SHORT".to_owned()]);
    }
    let mut json = Vec::new();
    for short in &found {
        let words = short_words(short, shop);
        let told = wrap(&words, PAPER_WIDTH - 2, 2);
        lines.extend(told.into_iter().map(|line| format!("  {line}")));
        json.push(ShortJson {
            jobs: short
                .jobs
                .iter()
                .filter_map(|id| shop.job(*id).map(|job| job.no))
                .collect(),
            product: shop
                .product(short.product)
                .map_or_else(String::new, |product| product.name.clone()),
            batch: short.batch.clone(),
            left_ml: rounded(short.left.ml()),
            needed_ml: rounded(short.needed.ml()),
            missing_ml: rounded(short.missing().ml()),
            words,
        });
    }
    (lines, json)
}
