//! The tally on paper: what was used, what was planned, what it cost.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use crate::desk::Shop;
use crate::shop::{PieceFile, TallyRow};
use crate::units::{Money, Volume};

/// A tally under a heading.
pub fn tally_paper(heading: &str, rows: &[TallyRow], shop: &Shop) -> Vec<String> {
    let mut out = wrap(heading, PAPER_WIDTH, 2);
    if rows.is_empty() {
        out.push("  Nothing used and nothing planned.".to_owned());
        return out;
    }
    let (area, volume) = (shop.settings.area(), shop.settings.volume);
    let mut columns = Columns::at_most(&[24, 7]);
    columns.row(["product", "as", "coated", "used", "planned", "cost"]);
    for row in rows {
        let name = shop
            .product(row.product)
            .map_or("a product gone", |product| &product.name);
        columns.row([
            name,
            row.kind.word(),
            &row.coated.show(area),
            &row.used().show(volume),
            &row.planned.show(volume),
            &row.cost.show(),
        ]);
    }
    out.extend(columns.lines(2, PAPER_WIDTH));
    out.push(String::new());
    out.push("  How the amounts are known:".to_owned());
    for row in rows.iter().filter(|row| row.used() > Volume::ZERO) {
        let name = shop
            .product(row.product)
            .map_or("a product gone", |product| &product.name);
        let words = format!("{name} as {}: {}", row.kind.word(), basis_words(row, shop));
        out.extend(wrap_under(&words));
    }
    if rows.iter().all(|row| row.used() == Volume::ZERO) {
        out.push("    nothing was used yet".to_owned());
    }
    let cost: Money = rows.iter().map(|row| row.cost).sum();
    out.push(String::new());
    out.push(format!("  Cost of what was used: {}", cost.show()));
    out
}

fn wrap_under(words: &str) -> Vec<String> {
    wrap(words, PAPER_WIDTH - 4, 2)
        .into_iter()
        .map(|line| format!("    {line}"))
        .collect()
}

/// `4.2 fl oz measured, 8 fl oz estimated`.
fn basis_words(row: &TallyRow, shop: &Shop) -> String {
    let said = |volume: Volume| volume.show(shop.settings.volume);
    match (row.measured > Volume::ZERO, row.estimated > Volume::ZERO) {
        (true, true) => {
            format!(
                "{} measured, {} estimated",
                said(row.measured),
                said(row.estimated)
            )
        }
        (true, false) => format!("{}, all of it measured", said(row.measured)),
        _ => format!("{}, all of it estimated", said(row.estimated)),
    }
}

/// The tally of the whole shop, then a line for each job.
pub fn whole_tally_paper(shop: &Shop) -> Vec<String> {
    let all = shop.tally(&shop.files);
    let mut out = tally_paper("TALLY of all jobs", &all, shop);
    let mut columns = Columns::at_most(&[6, 40]);
    for job in &shop.jobs {
        let files: Vec<PieceFile> = shop
            .files
            .iter()
            .filter(|file| file.piece.job == job.id)
            .cloned()
            .collect();
        let cost: Money = shop.tally(&files).iter().map(|row| row.cost).sum();
        columns.row([&job.no.to_string(), &job.title, &cost.show()]);
    }
    if !columns.is_empty() {
        out.push(String::new());
        out.push("  Cost by job (tackfree tally JOB tells more):".to_owned());
        out.extend(columns.lines(4, PAPER_WIDTH));
    }
    out
}
