//! What to buy.

use super::rounded;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::desk::typed::read_on_shelf;
use crate::papers::{BUY_COLUMNS, buy_paper, buy_rows};
use crate::shop::{
    BuyFrom, BuyLine, JobId, JobStain, Need, OnShelf, StainFrom, UseBook, what_to_buy,
};
use crate::store::files::guarded_csv;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree buy\n  tackfree buy --without 4 --have \"brown gel stain, 12 oz, B-204, 2027-03-01\"\n  tackfree buy --csv > list.csv\n\nNeeds go by your own rates where passes stand behind them, else by the label's less the loss and the\nthirst of bare wood (tackfree allow). The cheapest whole cans of the sizes on offer (tackfree offer);\none batch of stain for a whole job. With --json: reserve_percent, total_cents, lines [product,\nproduct_id, jobs [no, title, need_ml], need_ml, reserve_ml, shelf_ml (still good), past_ml (past its\nday), lacking_ml, cans [holds_ml, price_cents, count], holds_ml, price_cents, no_plan (why, or null),\nrates (what stands behind the need), stain [no, title, need_ml (with the reserve), from (new, or\nshelf), batch, breaks_batch], sure].";

/// What was typed.
#[derive(Debug, Args)]
pub struct BuyArgs {
    /// Leaves a job out, one that is not signed; may be said several times.
    #[arg(long, value_name = "JOB")]
    pub without: Vec<String>,
    /// What is on the shelf beside the cans on record: product, what is left, batch, last good day; may be said several times.
    #[arg(long, value_name = "CAN")]
    pub have: Vec<String>,
    /// Another reserve for this once, in per cent.
    #[arg(long, value_name = "PERCENT")]
    pub reserve: Option<u32>,
    /// Prints the list as CSV.
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
}

#[derive(Serialize)]
struct BuyJson {
    reserve_percent: u32,
    total_cents: i64,
    lines: Vec<LineJson>,
}

#[derive(Serialize)]
struct LineJson {
    product: String,
    product_id: String,
    jobs: Vec<JobJson>,
    need_ml: f64,
    reserve_ml: f64,
    shelf_ml: f64,
    past_ml: f64,
    lacking_ml: f64,
    cans: Vec<CanJson>,
    holds_ml: f64,
    price_cents: i64,
    no_plan: Option<String>,
    rates: String,
    stain: Vec<StainJson>,
    sure: bool,
}

#[derive(Serialize)]
struct JobJson {
    no: u32,
    title: String,
    need_ml: f64,
}

#[derive(Serialize)]
struct CanJson {
    holds_ml: f64,
    price_cents: i64,
    count: u32,
}

#[derive(Serialize)]
struct StainJson {
    #[serde(flatten)]
    job: JobJson,
    from: &'static str,
    batch: Option<String>,
    breaks_batch: Option<String>,
}

fn job(id: JobId, need_ml: f64, shop: &Shop) -> JobJson {
    let job = shop.job(id);
    JobJson {
        no: job.map_or(0, |job| job.no),
        title: job.map_or_else(String::new, |job| job.title.clone()),
        need_ml: rounded(need_ml),
    }
}

fn stain(of: &JobStain, shop: &Shop) -> StainJson {
    let (from, batch) = match &of.from {
        StainFrom::New => ("new", None),
        StainFrom::Shelf(batch) => ("shelf", batch.clone()),
    };
    StainJson {
        job: job(of.job, of.needs.ml(), shop),
        from,
        batch,
        breaks_batch: of.breaks.clone(),
    }
}

fn line(line: &BuyLine, shop: &Shop) -> LineJson {
    let plan = line.plan.as_ref().ok();
    let counts = plan.iter().flat_map(|plan| &plan.counts);
    LineJson {
        product: shop
            .product(line.product)
            .map_or_else(String::new, |product| product.name.clone()),
        product_id: line.product.to_string(),
        jobs: line
            .jobs
            .iter()
            .map(|(id, need)| job(*id, need.ml(), shop))
            .collect(),
        need_ml: rounded(line.need.ml()),
        reserve_ml: rounded(line.reserve.ml()),
        shelf_ml: rounded(line.shelf.ml()),
        past_ml: rounded(line.past.ml()),
        lacking_ml: rounded(line.lacking.ml()),
        cans: counts
            .map(|count| CanJson {
                holds_ml: rounded(count.offer.holds.ml()),
                price_cents: count.offer.price.cents(),
                count: count.cans,
            })
            .collect(),
        holds_ml: plan.map_or(0.0, |plan| rounded(plan.holds.ml())),
        price_cents: line.price().cents(),
        no_plan: line.plan.as_ref().err().map(ToString::to_string),
        rates: line.bases.words(),
        stain: line.stain.iter().map(|of| stain(of, shop)).collect(),
        sure: line.sure,
    }
}

/// Plans it.
pub fn run(args: &BuyArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let mut shop = session.shop()?;
    if let Some(percent) = args.reserve {
        shop.use_book.rules.reserve_percent = percent;
        let checked = shop.use_book.rules.check();
        checked.map_err(|error| Failure::said(error.to_string()))?;
    }
    let mut without: Vec<JobId> = Vec::new();
    for text in &args.without {
        without.push(find::job(&shop, text)?.id);
    }
    let have = |text: &String| read_on_shelf(text, &shop.products, &shop.settings);
    let mut shelf: Vec<OnShelf> = args.have.iter().map(have).collect::<Result<_, _>>()?;
    shelf.extend(shop.on_shelf());
    let begun = shop.begun();
    let mut needs: Vec<Need> = shop.needs();
    needs.retain(|need| !without.contains(&need.job));
    let book: &UseBook = &shop.use_book;
    let plan = what_to_buy(&BuyFrom {
        needs: &needs,
        shelf: &shelf,
        begun: &begun,
        products: &shop.products,
        book,
        today: session.today(&shop),
    });
    let lines = if args.csv {
        let rows = buy_rows(&plan, &shop);
        let bytes = guarded_csv(BUY_COLUMNS, &rows).map_err(Failure::unexpected)?;
        let text = String::from_utf8(bytes).map_err(Failure::unexpected)?;
        text.lines().map(str::to_owned).collect()
    } else {
        buy_paper(&plan, &shop)
    };
    let json = BuyJson {
        reserve_percent: book.rules.reserve_percent,
        total_cents: plan.total().cents(),
        lines: plan.lines.iter().map(|of| line(of, &shop)).collect(),
    };
    Answer::new(lines, json)
}
