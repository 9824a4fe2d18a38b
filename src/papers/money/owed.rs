//! What is owed, by job and by client, and reminders as text to send.

use crate::desk::Shop;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::{Columns, wrap};
use crate::shop::{Account, Job};
use crate::units::{Money, show_date};
use chrono::NaiveDate;

/// The accounts of jobs of which money is on record, by client; each client's sum where it has
/// several.
pub fn owed_paper(shop: &Shop, accounts: &[(&Job, Account)], today: NaiveDate) -> Vec<String> {
    let mut columns = Columns::at_most(&[18, 22]);
    columns.row(["client", "job", "balance", ""]);
    let mut sum = Money::ZERO;
    for (at, (job, account)) in accounts.iter().enumerate() {
        let client = shop.client(job.client).map_or("", |client| &client.name);
        let late = match account.overdue {
            Some((amount, since)) => {
                let days = usize::try_from((today - since).num_days()).unwrap_or(0);
                format!(
                    "; {} overdue since {}, {}",
                    amount.show(),
                    show_date(since, today),
                    crate::units::counted(days, "day", "days")
                )
            }
            None if account.open() > Money::ZERO => format!("; {} billed", account.open().show()),
            None => String::new(),
        };
        columns.row([
            client,
            &format!("{} {}", job.no, job.title),
            &account.balance().show(),
            &format!(
                "of {}, {} paid{late}",
                account.total.show(),
                account.paid.show()
            ),
        ]);
        sum += account.balance();
        let same = |other: &&(&Job, Account)| other.0.client == job.client;
        let last = accounts
            .get(at + 1)
            .is_none_or(|next| next.0.client != job.client);
        if last && accounts.iter().filter(same).count() > 1 {
            let of_client = accounts.iter().filter(same);
            let of_client: Money = of_client.map(|(_, of)| of.balance()).sum();
            columns.row(["", "together", &of_client.show(), ""]);
        }
    }
    let mut out = columns.lines(0, PAPER_WIDTH);
    if accounts.is_empty() {
        return vec!["Nothing is agreed, billed or paid yet.".to_owned()];
    }
    out.push(format!("All together {} to come", sum.show()));
    out
}

/// A reminder to send, friendly and with every figure; none where nothing is billed and open.
pub fn reminder_text(
    shop: &Shop,
    job: &Job,
    account: &Account,
    today: NaiveDate,
) -> Option<Vec<String>> {
    let open: Vec<_> = account
        .settled
        .iter()
        .filter(|of| of.open() > Money::ZERO)
        .collect();
    if open.is_empty() {
        return None;
    }
    let client = shop.client(job.client).map_or("", |client| &client.name);
    let mut out = vec![format!("Dear {client},"), String::new()];
    let late = account.overdue.is_some();
    let begins = if late {
        "this is a reminder that the following is past its due date for"
    } else {
        "this is a note of what is open for"
    };
    out.extend(wrap(&format!("{begins} {}:", job.title), PAPER_WIDTH, 0));
    out.push(String::new());
    for of in &open {
        let paid = if of.paid == Money::ZERO {
            String::new()
        } else {
            format!(", {} paid", of.paid.show())
        };
        out.push(format!(
            "  Invoice {}: {}{paid}, {} open, due {}",
            of.bill.no,
            of.bill.amount.show(),
            of.open().show(),
            show_date(of.bill.due, today),
        ));
    }
    let sum: Money = open.iter().map(|of| of.open()).sum();
    out.push(String::new());
    out.push(format!("Open together: {}", sum.show()));
    out.extend(wrap(
        "If it has crossed with your payment, thank you, and nothing more is needed.",
        PAPER_WIDTH,
        0,
    ));
    out.push(String::new());
    for line in [&shop.settings.shop_name, &shop.settings.shop_address] {
        if !line.is_empty() {
            out.push(line.clone());
        }
    }
    Some(out)
}
