//! What to buy, as a list to take along.

use super::PAPER_WIDTH;
use super::layout::wrap;
use crate::coating::Product;
use crate::coating::cans::CanPlan;
use crate::desk::Shop;
use crate::shop::{BuyLine, BuyPlan, JobId, JobStain, Short, StainFrom};
use crate::units::{Volume, counted};

/// How jobs are chosen, until agreements are kept.
pub const SIGNED: &str = "Every job with a piece that is not finished counts as signed; leave one \
    out that is not with --without. Wipe-downs are not reckoned: no schedule says how much they take.";

/// The columns of the list as CSV.
pub const BUY_COLUMNS: &[&str] = &[
    "product",
    "cans",
    "can_holds_ml",
    "can_price",
    "price",
    "note",
];

/// The list on paper.
pub fn buy_paper(plan: &BuyPlan, shop: &Shop) -> Vec<String> {
    let mut out = vec![format!(
        "TO BUY, with {} % in reserve",
        shop.use_book.rules.reserve_percent
    )];
    if plan.lines.is_empty() {
        out.push("  Nothing: no piece asks for another coat.".to_owned());
    }
    for line in &plan.lines {
        out.push(String::new());
        let product = shop.product(line.product);
        out.extend(wrap(
            &format!("{}: {}", name(product), plan_words(line, shop)),
            PAPER_WIDTH,
            2,
        ));
        for words in line_words(line, shop) {
            let lines = wrap(&words, PAPER_WIDTH - 2, 2);
            out.extend(lines.into_iter().map(|line| format!("  {line}")));
        }
    }
    out.push(String::new());
    out.push(format!("Total: {}", plan.total().show()));
    out.extend(wrap(SIGNED, PAPER_WIDTH, 2));
    out
}

fn name(product: Option<&Product>) -> &str {
    product.map_or("a product gone", |product| &product.name)
}

/// `2 cans of 32 fl oz at $28.00 and 1 can of 8 fl oz at $11.00: $67.00`.
fn plan_words(line: &BuyLine, shop: &Shop) -> String {
    match &line.plan {
        Err(error) => error.to_string(),
        Ok(plan) if plan.counts.is_empty() => "nothing to buy".to_owned(),
        Ok(plan) => format!("{}: {}", cans_words(plan, shop), plan.price.show()),
    }
}

fn cans_words(plan: &CanPlan, shop: &Shop) -> String {
    let cans = plan.counts.iter().map(|count| {
        let cans = counted(
            usize::try_from(count.cans).unwrap_or(usize::MAX),
            "can",
            "cans",
        );
        format!(
            "{cans} of {} at {}",
            count.offer.holds.show(shop.settings.volume),
            count.offer.price.show()
        )
    });
    cans.collect::<Vec<_>>().join(" and ")
}

/// What stands behind a line, sentence by sentence.
fn line_words(line: &BuyLine, shop: &Shop) -> Vec<String> {
    let said = |volume: Volume| volume.show(shop.settings.volume);
    let jobs = line
        .jobs
        .iter()
        .map(|(job, need)| format!("{} for {}", said(*need), job_words(*job, shop)));
    let mut out = vec![format!(
        "needed {}: {} ({})",
        said(line.need),
        jobs.collect::<Vec<_>>().join(", "),
        line.bases.words()
    )];
    let past = if line.past > Volume::ZERO {
        format!("; {} more is past its day", said(line.past))
    } else {
        String::new()
    };
    out.push(format!(
        "in reserve {}; on the shelf and good {}{past}",
        said(line.reserve),
        said(line.shelf)
    ));
    out.extend(line.stain.iter().map(|of| stain_words(of, line, shop)));
    if !line.sure {
        out.push(
            "So many jobs share these batches that not every sharing was tried: a better one may \
             be left."
                .to_owned(),
        );
    }
    out
}

fn stain_words(of: &JobStain, line: &BuyLine, shop: &Shop) -> String {
    let job = job_words(of.job, shop);
    let from = match &of.from {
        StainFrom::New => "from the new cans, all of one batch".to_owned(),
        StainFrom::Shelf(Some(batch)) => format!("from batch {batch}, which does for all of it"),
        StainFrom::Shelf(None) => "from one can on the shelf, which does for all of it".to_owned(),
    };
    let breaks = of.breaks.as_ref().map_or_else(String::new, |begun| {
        format!(
            "; it was begun with batch {begun}, which does not last: try the other on a scrap \
             beside it first"
        )
    });
    // A shelf that holds enough in all, though not in one batch.
    let mixed = if of.from == StainFrom::New && line.shelf >= of.needs && of.breaks.is_none() {
        "; or mix batches on the shelf into one before starting"
    } else {
        ""
    };
    format!("{job}: {from}{breaks}{mixed}")
}

/// `job 3 kitchen island`.
pub fn job_words(id: JobId, shop: &Shop) -> String {
    shop.job(id).map_or_else(
        || "a job gone".to_owned(),
        |job| format!("job {} {}", job.no, job.title),
    )
}

/// A stain batch that does not last: `Miller island: stain batch B-204 has 310 mL left, ...`.
pub fn short_words(short: &Short, shop: &Shop) -> String {
    short.words(|job| job_words(job, shop), shop.settings.volume)
}

/// The list as rows, the total last.
pub fn buy_rows(plan: &BuyPlan, shop: &Shop) -> Vec<Vec<String>> {
    let mut out = Vec::new();
    let money = |money: crate::units::Money| {
        let cents = money.cents();
        format!("{}.{:02}", cents / 100, cents % 100)
    };
    for line in &plan.lines {
        let product = name(shop.product(line.product)).to_owned();
        match &line.plan {
            Err(error) => {
                let mut row = vec![product];
                row.resize(BUY_COLUMNS.len() - 1, String::new());
                row.push(error.to_string());
                out.push(row);
            }
            Ok(plan) => out.extend(plan.counts.iter().map(|count| {
                vec![
                    product.clone(),
                    count.cans.to_string(),
                    format!("{:.3}", count.offer.holds.ml()),
                    money(count.offer.price),
                    money(count.offer.price * i64::from(count.cans)),
                    if line.stain.is_empty() {
                        String::new()
                    } else {
                        "one batch".to_owned()
                    },
                ]
            })),
        }
    }
    let mut total = vec!["total".to_owned()];
    total.resize(BUY_COLUMNS.len() - 2, String::new());
    total.push(money(plan.total()));
    total.push(String::new());
    out.push(total);
    out
}
