//! The estimate of a job, and the paces it rests on.

use crate::desk::{JobEstimate, Shop};
use crate::money::{Driver, HoursSpread, StepKind, TAX_DEFER};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::{Columns, wrap};
use crate::shop::Job;
use std::collections::BTreeMap;

/// `23.5 h`.
fn hours(minutes: f64) -> String {
    format!("{:.1} h", minutes / 60.0)
}

/// `likely 23.5 h; half of such jobs 20.1 to 27.0 h; 8 in 10 17.4 to 31.2 h`.
pub fn hours_range(spread: &HoursSpread) -> String {
    let range = |(low, high): (f64, f64)| format!("{:.1} to {}", low / 60.0, hours(high));
    format!(
        "likely {}; half of such jobs {}; 8 in 10 {}",
        hours(spread.likely),
        range(spread.half),
        range(spread.most)
    )
}

/// The estimate as text.
pub fn estimate_paper(shop: &Shop, job: &Job, of: &JobEstimate) -> Vec<String> {
    let made = &of.made;
    let client = shop.client(job.client).map_or("", |client| &client.name);
    let mut out = wrap(
        &format!("Estimate for job {} {} for {client}", job.no, job.title),
        PAPER_WIDTH,
        2,
    );
    out.push(format!("Hours: {}", hours_range(&made.hours)));
    out.push(format!(
        "Priced at {} confidence: {} at {}/h (breaks even at {}/h)",
        of.confidence,
        hours(made.priced as f64),
        of.rate.sell.show(),
        of.rate.break_even.show()
    ));
    let mut columns = Columns::default();
    for step in &made.steps {
        let pace = of.paces.get(&step.step);
        let basis = pace.map_or_else(String::new, |pace| pace.words(step.step));
        columns.row([step.step.words(), &hours(step.minutes as f64), &basis]);
    }
    out.extend(columns.lines(2, PAPER_WIDTH));
    let mut columns = Columns::at_most(&[44]);
    for line in &made.lines {
        let tax = line.tax();
        let taxed = if tax.cents() == 0 {
            String::new()
        } else {
            format!("tax {} {}", line.rate, tax.show())
        };
        columns.row([&line.what, &line.net.show(), &taxed]);
    }
    columns.row(["Before tax", &made.totals.net.show(), ""]);
    columns.row(["Tax", &made.totals.tax.show(), ""]);
    columns.row(["Total", &made.totals.total().show(), ""]);
    out.push(String::new());
    out.extend(columns.lines(2, PAPER_WIDTH));
    let at: Vec<String> = of
        .at
        .iter()
        .map(|(confidence, total)| format!("{} at {confidence}", total.show()))
        .collect();
    let words = format!("Total by the confidence of its hours: {}", at.join(", "));
    out.extend(wrap(&words, PAPER_WIDTH, 2));
    let place = shop.money.terms(job.id).place;
    let words = if place.is_empty() {
        format!("No place's sales tax was set for this job. {TAX_DEFER}")
    } else if shop.prices.place(&place).is_none() {
        format!("{place} is not in the tax table any more, so nothing was taxed. {TAX_DEFER}")
    } else {
        TAX_DEFER.to_owned()
    };
    out.extend(wrap(&words, PAPER_WIDTH, 0));
    out
}

/// The shop's paces.
pub fn pace_paper(paces: &BTreeMap<StepKind, crate::money::Pace>) -> Vec<String> {
    let mut columns = Columns::default();
    columns.row(["", "each time", "rate", "8 in 10", "from"]);
    for (step, pace) in paces {
        let (_, (low, high)) = pace.ranges();
        let unit = match step.driver() {
            Driver::SquareFeet => "sq ft",
            Driver::Each => "each",
        };
        columns.row([
            step.words(),
            &format!("{:.0} min", pace.fixed),
            &format!("{:.2} min/{unit}", pace.rate),
            &format!("{low:.2} to {high:.2}"),
            &pace.words(*step),
        ]);
    }
    columns.lines(0, PAPER_WIDTH)
}
