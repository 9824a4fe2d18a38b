//! The deal of a job: agreement, changes, samples, invoices, payments.

use crate::desk::{NOTICE_CAUTION, Shop};
use crate::money::Settled;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::{Columns, wrap};
use crate::shop::{Account, Job};
use crate::units::show_date;
use chrono::NaiveDate;

/// The deal as text.
pub fn deal_paper(shop: &Shop, job: &Job, today: NaiveDate) -> Vec<String> {
    let account = shop.account(job, today);
    let client = shop.client(job.client).map_or("", |client| &client.name);
    let mut out = wrap(
        &format!("Job {} {} for {client}", job.no, job.title),
        PAPER_WIDTH,
        2,
    );
    agreement(shop, job, &account, today, &mut out);
    changes(shop, job, today, &mut out);
    let terms = shop.money.terms(job.id);
    let samples: Vec<_> = shop.money.samples(job.id).collect();
    if terms.asks_sample && samples.is_empty() {
        out.push("Asks for an approved sample board before stain: none made yet.".to_owned());
    }
    for sample in samples {
        let state = match &sample.approved {
            Some(signed) => format!("approved {} by {}", show_date(signed.on, today), signed.by),
            None => "NOT APPROVED".to_owned(),
        };
        let twin = if sample.twin.is_empty() {
            String::new()
        } else {
            format!("; twin in {}", sample.twin)
        };
        let line = format!("Sample {}: {}; {state}{twin}", sample.no, sample.carries);
        out.extend(wrap(&line, PAPER_WIDTH, 2));
    }
    bills(shop, job, &account, today, &mut out);
    out
}

fn agreement(shop: &Shop, job: &Job, account: &Account, today: NaiveDate, out: &mut Vec<String>) {
    let Some(of) = shop.money.agreement(job.id) else {
        let given = shop.money.estimates.iter().filter(|of| of.job == job.id);
        out.extend(given.map(|of| {
            format!(
                "Estimate {} given {}: {}, until {}",
                of.no,
                show_date(of.on, today),
                of.totals().total().show(),
                show_date(of.valid_until, today)
            )
        }));
        out.push("Nothing signed yet.".to_owned());
        return;
    };
    let starts = of.starts.map_or_else(String::new, |day| {
        format!(", work starts {}", show_date(day, today))
    });
    let words = format!(
        "Signed {} by {} {}: {} and {} tax, {}; set {}{starts}",
        show_date(of.on, today),
        of.by,
        of.at.words(),
        of.net.show(),
        of.tax.show(),
        of.total().show(),
        show_date(of.promised, today),
    );
    out.extend(wrap(&words, PAPER_WIDTH, 2));
    if let Some(until) = of.notice_until() {
        let words = format!(
            "The buyer can cancel until midnight of {}. {NOTICE_CAUTION}",
            show_date(until, today)
        );
        out.extend(wrap(&words, PAPER_WIDTH, 2));
    }
    let mut columns = Columns::default();
    for part in &of.parts {
        let due = part
            .due
            .map_or_else(String::new, |day| format!(", by {}", show_date(day, today)));
        columns.row([
            part.kind.word(),
            &part.amount.show(),
            &format!("{}{due}", part.event),
        ]);
    }
    out.extend(columns.lines(2, PAPER_WIDTH));
    if let Some(promised) = account.promised.filter(|day| *day != of.promised) {
        out.push(format!(
            "With changes: {}, set {}",
            account.total.show(),
            show_date(promised, today)
        ));
    }
}

fn changes(shop: &Shop, job: &Job, today: NaiveDate, out: &mut Vec<String>) {
    for of in shop.money.changes(job.id) {
        let state = match &of.signed {
            Some(signed) => format!("signed {} by {}", show_date(signed.on, today), signed.by),
            None => "NOT SIGNED".to_owned(),
        };
        let asked = if of.asked_by.is_empty() {
            String::new()
        } else {
            format!(", asked by {}", of.asked_by)
        };
        let words = format!(
            "Change {}: {}{asked}; {} and {} tax, {:+} days; {state}",
            of.no,
            of.what,
            of.net.show(),
            of.tax.show(),
            of.days
        );
        out.extend(wrap(&words, PAPER_WIDTH, 2));
    }
}

fn bills(shop: &Shop, job: &Job, account: &Account, today: NaiveDate, out: &mut Vec<String>) {
    let mut columns = Columns::default();
    for of in shop.money.invoices.iter().filter(|of| of.job == job.id) {
        let settled = account.settled.iter().find(|at| at.bill.no == of.no);
        let open = settled.map_or(of.amount, Settled::open);
        let state = if open.cents() <= 0 {
            "paid".to_owned()
        } else if of.due < today {
            format!("{} OVERDUE since {}", open.show(), show_date(of.due, today))
        } else {
            format!("{} open, due {}", open.show(), show_date(of.due, today))
        };
        columns.row([
            &format!("Invoice {}", of.no),
            &show_date(of.on, today),
            &of.amount.show(),
            &format!("{}; {state}", of.what),
        ]);
    }
    for of in shop.money.payments.iter().filter(|of| of.job == job.id) {
        columns.row([
            &format!("Receipt {}", of.no),
            &show_date(of.on, today),
            &of.amount.show(),
            &of.how,
        ]);
    }
    out.extend(columns.lines(0, PAPER_WIDTH));
    out.push(format!(
        "Total {}, billed {}, paid {}, balance {}",
        account.total.show(),
        account.billed.show(),
        account.paid.show(),
        account.balance().show()
    ));
    let (count, sum) = account.unsigned;
    if count > 0 {
        let many = crate::units::counted(count, "change order", "change orders");
        out.push(format!(
            "{many} over {} NOT SIGNED, not in the total",
            sum.show()
        ));
    }
}
