//! What was used, planned and spent.

use super::tally_by::{self, By};
use super::{fine, rounded};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::papers::{tally_paper, whole_tally_paper};
use crate::shop::{Job, PieceFile, TallyRow};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree tally\n  tackfree tally 3 --json\n  tackfree tally --by month --csv\n  tackfree tally 3 --by job\n\nWith --json: job (null in all) [no, title], cost_cents, rows [product, product_id, used_as,\ncoated_m2, used_ml, measured_ml, estimated_ml, planned_ml, cost_cents]; in all also jobs [no, title,\ncost_cents]. Areas count every coat; planned is the whole schedule at\nyour own spread rates where passes stand behind them, else the label's. Cost is\npass by pass what came out of its cans, or the product's can price where no can is named.\n\nWith --by and --json: by, groups [group, id, cost_cents, wood_m2 (each face once),\ncost_cents_per_m2, jars_ml, jars_cents, rows [product, product_id, used_as, coated_m2, planned_ml\n(null by month), used_ml, measured_ml, estimated_ml, estimated_share (0 to 1), lost_ml (rag and tray),\nat_label_ml, no_can_ml, cost_cents, cost_at_price_cents, cost_cents_per_m2, batches, films [method,\ncoated_m2, on_wood_ml, wet_um, dry_um (one coat), measured]], shelf (by product, else null)\n[came_ml, came_cents, left_ml, left_cents, on_wood_ml, rag_ml, jars_ml, lost_ml, discarded_ml,\nfound_ml (missing by weighing)]], and of one job faces [piece, face, used_as, coats, wet_um, dry_um,\nmeasured]. --csv has a row for each product of a group; its columns carry their units, cost in\ndollars.";

/// What was typed.
#[derive(Debug, Args)]
pub struct TallyArgs {
    /// The job, by its number or title; all jobs unless said.
    pub job: Option<String>,
    /// Group by group, with losses, cost per area, film per coat, batches.
    #[arg(long, value_name = "WHAT")]
    pub by: Option<By>,
    /// As a table for spreadsheets; by job unless said.
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
}

/// One product's line, as JSON.
#[derive(Debug, Serialize)]
pub(super) struct RowJson {
    product: String,
    product_id: String,
    used_as: &'static str,
    coated_m2: f64,
    used_ml: f64,
    measured_ml: f64,
    estimated_ml: f64,
    planned_ml: f64,
    cost_cents: i64,
}

impl RowJson {
    /// A tally row.
    pub(super) fn of(row: &TallyRow, shop: &Shop) -> Self {
        Self {
            product: shop
                .product(row.product)
                .map_or_else(String::new, |product| product.name.clone()),
            product_id: row.product.to_string(),
            used_as: row.kind.word(),
            coated_m2: fine(row.coated.m2()),
            used_ml: rounded(row.used().ml()),
            measured_ml: rounded(row.measured.ml()),
            estimated_ml: rounded(row.estimated.ml()),
            planned_ml: rounded(row.planned.ml()),
            cost_cents: row.cost.cents(),
        }
    }
}

#[derive(Serialize)]
struct JobJson {
    no: u32,
    title: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    cost_cents: Option<i64>,
}

#[derive(Serialize)]
struct TallyJson {
    job: Option<JobJson>,
    cost_cents: i64,
    rows: Vec<RowJson>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    jobs: Vec<JobJson>,
}

fn of_job(job: &Job, shop: &Shop) -> Vec<TallyRow> {
    let files: Vec<PieceFile> = shop
        .files
        .iter()
        .filter(|file| file.piece.job == job.id)
        .cloned()
        .collect();
    shop.tally(&files)
}

fn cost(rows: &[TallyRow]) -> i64 {
    rows.iter().map(|row| row.cost.cents()).sum()
}

/// Reads it.
pub fn run(args: &TallyArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    if args.by.is_some() || args.csv {
        let job = match &args.job {
            Some(text) => Some(find::job(&shop, text)?.id),
            None => None,
        };
        return tally_by::run(args.by.unwrap_or(By::Job), job, args.csv, &shop);
    }
    let json_rows = |rows: &[TallyRow]| {
        rows.iter()
            .map(|row| RowJson::of(row, &shop))
            .collect::<Vec<_>>()
    };
    if let Some(text) = &args.job {
        let job = find::job(&shop, text)?;
        let rows = of_job(job, &shop);
        let heading = format!("TALLY of job {} {}", job.no, job.title);
        let json = TallyJson {
            job: Some(JobJson {
                no: job.no,
                title: job.title.clone(),
                cost_cents: None,
            }),
            cost_cents: cost(&rows),
            rows: json_rows(&rows),
            jobs: Vec::new(),
        };
        return Answer::new(tally_paper(&heading, &rows, &shop), json);
    }
    let rows = shop.tally(&shop.files);
    let jobs = shop
        .jobs
        .iter()
        .map(|job| JobJson {
            no: job.no,
            title: job.title.clone(),
            cost_cents: Some(cost(&of_job(job, &shop))),
        })
        .collect();
    let json = TallyJson {
        job: None,
        cost_cents: cost(&rows),
        rows: json_rows(&rows),
        jobs,
    };
    Answer::new(whole_tally_paper(&shop), json)
}
