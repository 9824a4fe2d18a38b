//! Tells what touch tests have taught of each product; lets one be learned anew.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::reading::rounded;
use crate::cli::session::Session;
use crate::coating::{Learned, Twin};
use crate::desk::{Action, NEWEST_TESTS};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree learned\n  tackfree learned 'Oil wiping varnish' --afresh\n\nHow fast each product dries in this shop against its label in the same air, and how many touch\ntests stand behind it. The safe time believes a slow shop at once and a fast one only as far as nine\nin ten would have it; the likely time takes the middle. --afresh lets the tests made so far no\nlonger count; they stay on the tickets. With --json: newest_tests_counted, products [id, product,\ntests, coats, safe {factor, middle, low, high}, likely {factor, middle, low, high},\nnot_counted (why, one text each)].";

/// What was typed.
#[derive(Debug, Args)]
pub struct LearnedArgs {
    /// Only this product.
    pub product: Option<String>,
    /// Begins anew: tests made so far no longer count for this product.
    #[arg(long, requires = "product")]
    pub afresh: bool,
}

#[derive(Serialize)]
struct LearnedJson {
    newest_tests_counted: usize,
    products: Vec<ProductJson>,
}

#[derive(Serialize)]
struct ProductJson {
    id: String,
    product: String,
    tests: usize,
    coats: usize,
    safe: FactorJson,
    likely: FactorJson,
    not_counted: Vec<String>,
}

#[derive(Serialize)]
struct FactorJson {
    factor: f64,
    middle: f64,
    low: f64,
    high: f64,
}

fn factor(learned: Learned, twin: Twin) -> FactorJson {
    let factor = match twin {
        Twin::Safe => learned.cautious(),
        Twin::Likely => learned.middle(),
    };
    FactorJson {
        factor: rounded(factor),
        middle: rounded(learned.median),
        low: rounded(learned.low),
        high: rounded(learned.high),
    }
}

/// Does it.
pub fn run(args: &LearnedArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let named = match &args.product {
        Some(text) => Some(find::product(&shop, text)?.id),
        None => None,
    };
    if let Some(product) = named.filter(|_| args.afresh) {
        return session.perform(&Action::LearnAfresh(product));
    }
    let clock = shop.clock();
    let mut columns = Columns::default();
    let mut products = Vec::new();
    for product in &shop.products {
        let known = clock.tuning(product.id);
        let over = shop.passed_over(product.id).words();
        let any = known.safe.tests > 0 || !over.is_empty();
        let meant = named.map_or(any, |named| named == product.id);
        if !meant {
            continue;
        }
        let (safe, likely) = (known.safe, known.likely);
        let mut words = safe.words();
        if safe.tests > 0 {
            words = format!(
                "{words}; 8 in 10 between {:.2} and {:.2}; safe times take {:.2}, likely ones {:.2}",
                safe.low,
                safe.high,
                safe.cautious(),
                likely.middle()
            );
        }
        for why in &over {
            words = format!("{words}; {why}");
        }
        columns.row([product.name.as_str(), &words]);
        products.push(ProductJson {
            id: product.id.to_string(),
            product: product.name.clone(),
            tests: safe.tests,
            coats: safe.coats,
            safe: factor(safe, Twin::Safe),
            likely: factor(likely, Twin::Likely),
            not_counted: over,
        });
    }
    let mut lines = vec!["LEARNED from touch tests, against the label in the same air".to_owned()];
    if columns.is_empty() {
        lines.push("  Nothing so far: every product is taken at its label's speed.".to_owned());
    }
    lines.extend(columns.lines(2, PAPER_WIDTH));
    let json = LearnedJson {
        newest_tests_counted: NEWEST_TESTS,
        products,
    };
    Answer::new(lines, json)
}
