//! The tally in words and figures: per job and in all.

use super::super::screen::Ctx;
use super::list::{Cell, Entry, Line, MARK, Tone, beside, count, plain};
use crate::coating::{Figure, FigureSource, Product, ProductId};
use crate::shop::{CoatKind, JobId, PieceFile, TallyRow};
use crate::units::{Money, Volume};

/// What a line of use stands for; without a job it is that of all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct UseKey {
    pub job: Option<JobId>,
    pub kind: CoatKind,
    pub product: ProductId,
}

/// The use of one job.
struct JobUse<'a> {
    job: JobId,
    files: &'a [PieceFile],
    rows: Vec<TallyRow>,
}

/// The jobs with something to tally. The pieces come job by job.
fn jobs<'a>(ctx: &Ctx<'a>) -> Vec<JobUse<'a>> {
    let shop = ctx.shop;
    shop.files
        .chunk_by(|a, b| a.piece.job == b.piece.job)
        .map(|files| JobUse {
            job: files[0].piece.job,
            files,
            rows: shop.tally(files),
        })
        .filter(|used| !used.rows.is_empty())
        .collect()
}

fn all(ctx: &Ctx<'_>) -> Vec<TallyRow> {
    ctx.shop.tally(&ctx.shop.files)
}

fn keys_of(job: Option<JobId>, rows: &[TallyRow]) -> impl Iterator<Item = UseKey> {
    rows.iter().map(move |row| UseKey {
        job,
        kind: row.kind,
        product: row.product,
    })
}

pub(super) fn keys_per_job(ctx: &Ctx<'_>) -> Vec<UseKey> {
    jobs(ctx)
        .iter()
        .flat_map(|used| keys_of(Some(used.job), &used.rows).collect::<Vec<_>>())
        .collect()
}

pub(super) fn keys_in_all(ctx: &Ctx<'_>) -> Vec<UseKey> {
    keys_of(None, &all(ctx)).collect()
}

/// `job 12 kitchen island`.
pub(super) fn job_called(job: JobId, ctx: &Ctx<'_>) -> String {
    ctx.shop
        .job(job)
        .map_or_else(String::new, |job| format!("job {} {}", job.no, job.title))
}

/// `clear wiping varnish, topcoat`.
pub(super) fn product_called(product: ProductId, kind: CoatKind, ctx: &Ctx<'_>) -> String {
    let name = ctx
        .shop
        .product(product)
        .map_or("a product no longer kept", |p| p.name.as_str());
    format!("{name}, {}", kind.word())
}

fn cost(rows: &[TallyRow]) -> Money {
    rows.iter().map(|row| row.cost).sum()
}

pub(super) fn per_job(width: usize, ctx: &Ctx<'_>) -> Vec<Entry> {
    let jobs = jobs(ctx);
    let total: Money = jobs.iter().map(|used| cost(&used.rows)).sum();
    let total = format!(
        "{}, cost so far {} in all",
        count(jobs.len(), "job"),
        total.show()
    );
    let mut out = head(width, &total);
    for used in &jobs {
        let client = ctx
            .shop
            .job(used.job)
            .and_then(|job| ctx.shop.client(job.client));
        let client = client.map_or_else(String::new, |client| format!(" for {}", client.name));
        out.push(Entry::heading(format!(
            "{}{client}, {}: cost so far {}",
            job_called(used.job, ctx),
            count(used.files.len(), "piece"),
            cost(&used.rows).show()
        )));
        out.extend(
            used.rows
                .iter()
                .map(|row| Entry::row(row_lines(row, width, ctx))),
        );
    }
    out
}

pub(super) fn in_all(width: usize, ctx: &Ctx<'_>) -> Vec<Entry> {
    let rows = all(ctx);
    let pieces = count(ctx.shop.files.len(), "piece");
    let mut out = head(
        width,
        &format!("{pieces}, cost so far {}", cost(&rows).show()),
    );
    out.extend(
        rows.iter()
            .map(|row| Entry::row(row_lines(row, width, ctx))),
    );
    out
}

/// Width of a column of figures.
const FIGURE: usize = 13;
/// The width from which the figures stand beside the name.
const WIDE: usize = 100;

fn figures(width: usize, name: &str, texts: [String; 4]) -> Vec<String> {
    let figures = texts.into_iter().map(|text| Cell::right(text, FIGURE));
    let used = MARK + 4 * (FIGURE + 2);
    let first = if width >= WIDE {
        Cell::left(name, width.saturating_sub(used))
    } else {
        Cell::left("", 2)
    };
    let mut lines = Vec::new();
    if width < WIDE && !name.is_empty() {
        lines.push(name.to_owned());
    }
    lines.extend(beside(
        &std::iter::once(first).chain(figures).collect::<Vec<_>>(),
    ));
    lines
}

/// How the figures are known, above them all.
const BASIS: &str = "Planned and estimated: area over the product's spread rate, every coat counted. Measured: read off or weighed.";

fn head(width: usize, total: &str) -> Vec<Entry> {
    let names = ["planned", "used so far", "coated so far", "cost so far"].map(str::to_owned);
    let mut out = vec![Entry::note(
        Tone::Text,
        format!("{total}, at the price of the cans; each figure is rounded by itself"),
    )];
    out.push(Entry::note(Tone::Dim, BASIS));
    let line = figures(width, "", names).pop().unwrap_or_default();
    out.push(Entry::note(Tone::Dim, format!("  {line}")));
    out
}

/// What the spread rate of a product is, in words.
pub(super) fn rate_words(product: Option<&Product>) -> &'static str {
    match product.map(|product| product.label.source(Figure::Spread)) {
        Some(FigureSource::FamilyRange) => {
            "the usual spread rate of its family (check the can label)"
        }
        _ => "the label's spread rate",
    }
}

fn row_lines(row: &TallyRow, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let settings = &ctx.shop.settings;
    let show = |volume: Volume| volume.show(settings.volume);
    let texts = [
        show(row.planned),
        show(row.used()),
        row.coated.show(settings.area()),
        row.cost.show(),
    ];
    let name = product_called(row.product, row.kind, ctx);
    let mut lines: Vec<Line> = figures(width, &name, texts)
        .into_iter()
        .map(plain)
        .collect();
    lines.push((Tone::Dim, format!("    {}", basis_words(row, ctx))));
    lines
}

/// Measured and estimated apart, and what of the plan is left.
fn basis_words(row: &TallyRow, ctx: &Ctx<'_>) -> String {
    let product = ctx.shop.product(row.product);
    let none = Volume::from_ul(0);
    let show = |volume: Volume| volume.show(ctx.shop.settings.volume);
    let at = rate_words(product);
    let used = match (row.measured > none, row.estimated > none) {
        (false, false) => return format!("nothing used yet; planned at {at}"),
        (true, false) => format!("used: {} measured", show(row.measured)),
        (false, true) => format!("used: {} estimated at {at}", show(row.estimated)),
        (true, true) => {
            let (measured, estimated) = (show(row.measured), show(row.estimated));
            format!("used: {measured} measured, {estimated} estimated at {at}")
        }
    };
    let left = row.planned - row.used();
    // What rounds to nothing on the screen is nothing to a person.
    let nothing = show(none);
    let plan = match (show(left), show(-left)) {
        _ if row.planned == none => "the schedule plans none of it".to_owned(),
        (left, over) if left == nothing || over == nothing => "as planned".to_owned(),
        (rest, _) if left > none => format!("{rest} of the plan left"),
        (_, over) => format!("{over} over the plan"),
    };
    let price = match product {
        Some(product) if product.price.cents() == 0 => "; the can has no price yet",
        _ => "",
    };
    format!("{used}; {plan}{price}")
}
