//! Invoices and payments.

use super::action::{InvoiceDraft, PaymentDraft};
use super::prices::WORDS_MOST;
use super::refusal::MoneyRefusal;
use super::rows::MoneyRow;
use crate::desk::books::BooksError;
use crate::desk::error::DeskError;
use crate::desk::people::{line, verb};
use crate::desk::perform::{Desk, Done};
use crate::desk::{Shop, Which};
use crate::money::{LineKind, Percent};
use crate::shop::{Account, Invoice, InvoiceId, Job, Payment, PaymentId};
use crate::units::{Money, show_date};
use chrono::{Days, NaiveDate};

/// The tax in an amount that holds it: the rest of amount / (1 + rate), rounded by the one rule.
fn tax_within(amount: Money, rate: Percent) -> Money {
    let one = rust_decimal::Decimal::ONE;
    let net = rust_decimal::Decimal::from(amount.cents()) / (one + rate.fraction());
    amount - crate::money::to_cents(net)
}

impl Shop {
    /// Where the money of a job stands on a day.
    pub fn account(&self, job: &Job, today: NaiveDate) -> Account {
        self.money.account(job.id, today)
    }
}

impl Desk<'_> {
    pub(super) fn save_invoice(
        &mut self,
        which: Which<InvoiceId>,
        draft: &InvoiceDraft,
    ) -> Result<Done, DeskError> {
        let (mut shop, job) = self.job_of(draft.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        let before = match which {
            Which::New => None,
            Which::This(id) => {
                let found = shop.money.invoices.iter().position(|of| of.id == id);
                let found = found.ok_or(BooksError::Missing { what: "invoice" })?;
                // Out of the sums, as if it were written only now.
                Some(shop.money.invoices.remove(found))
            }
        };
        if let Some(of) = &before
            && shop
                .money
                .payments
                .iter()
                .any(|paid| paid.invoice == Some(of.id))
        {
            return Err(MoneyRefusal::PaidOn(of.no).into());
        }
        if draft.amount <= Money::ZERO {
            return Err(MoneyRefusal::Nothing("An invoice").into());
        }
        if draft.on > today {
            let what = "The invoice's date";
            return Err(MoneyRefusal::Ahead { what, today }.into());
        }
        let account = shop.account(&job, today);
        if account.agreed.is_some() && account.billed + draft.amount > account.total {
            return Err(MoneyRefusal::OverBilled {
                no: job.no,
                amount: draft.amount.show(),
                over: (account.billed + draft.amount - account.total).show(),
                total: account.total.show(),
            }
            .into());
        }
        let tax = if account.agreed.is_some() {
            account.tax_in(draft.amount)
        } else {
            let terms = shop.money.terms(job.id);
            let place = shop.prices.place(&terms.place);
            let rate = place.map_or(Percent::ZERO, |of| of.rate_on(LineKind::Other));
            tax_within(draft.amount, rate)
        };
        let terms = Days::new(shop.prices.terms_days.into());
        let usual = draft.on.checked_add_days(terms).unwrap_or(draft.on);
        let due = draft.due.unwrap_or(usual);
        if due < draft.on {
            let words = format!(
                "It would fall due on {due}, before its own date, {}.",
                draft.on
            );
            return Err(MoneyRefusal::Dates(words).into());
        }
        let no = shop.money.invoices.iter().map(|of| of.no).max();
        let invoice = Invoice {
            id: before
                .as_ref()
                .map_or_else(|| InvoiceId(self.id()), |of| of.id),
            job: job.id,
            no: before.as_ref().map_or(no.unwrap_or(0) + 1, |of| of.no),
            on: draft.on,
            due,
            what: line("What is billed", &draft.what, WORDS_MOST, &mut notes)?,
            amount: draft.amount,
            tax,
        };
        self.put_money(MoneyRow::Invoice(&invoice))?;
        if account.agreed.is_none() {
            notes.push(format!("Nothing is signed for job {}.", job.no));
        }
        let (count, sum) = account.unsigned;
        if count > 0 {
            let many = crate::units::counted(count, "change order", "change orders");
            notes.push(format!(
                "{many} over {} not signed, so not in the total.",
                sum.show()
            ));
        }
        let words = format!(
            "{} invoice {} for job {}: {}, {} with {} tax, due {}",
            verb(&which),
            invoice.no,
            job.no,
            invoice.what,
            invoice.amount.show(),
            invoice.tax.show(),
            show_date(due, today),
        );
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn save_payment(
        &mut self,
        which: Which<PaymentId>,
        draft: &PaymentDraft,
    ) -> Result<Done, DeskError> {
        let (shop, job) = self.job_of(draft.job)?;
        let today = self.today(&shop);
        let mut notes = Vec::new();
        let before = match which {
            Which::New => None,
            Which::This(id) => {
                let found = shop.money.payments.iter().find(|of| of.id == id);
                Some(found.ok_or(BooksError::Missing { what: "payment" })?)
            }
        };
        if draft.amount == Money::ZERO {
            return Err(MoneyRefusal::NoPayment.into());
        }
        if draft.on > today {
            let what = "A payment";
            return Err(MoneyRefusal::Ahead { what, today }.into());
        }
        if let Some(id) = draft.invoice {
            let found = shop.money.invoices.iter().find(|of| of.id == id);
            let found = found.ok_or(BooksError::Missing { what: "invoice" })?;
            if found.job != job.id {
                return Err(MoneyRefusal::OtherJob(found.no).into());
            }
        }
        let no = shop.money.payments.iter().map(|of| of.no).max();
        let payment = Payment {
            id: before.map_or_else(|| PaymentId(self.id()), |of| of.id),
            job: job.id,
            no: before.map_or(no.unwrap_or(0) + 1, |of| of.no),
            on: draft.on,
            amount: draft.amount,
            invoice: draft.invoice,
            how: line("How it was paid", &draft.how, 80, &mut notes)?,
        };
        self.put_money(MoneyRow::Payment(&payment))?;
        let account = self.books.money()?.account(job.id, today);
        if account.agreed.is_none() && payment.amount > Money::ZERO {
            notes.push(format!(
                "Nothing is signed for job {}: some places allow no money before a signature.",
                job.no
            ));
        }
        if account.ahead > Money::ZERO {
            notes.push(format!(
                "{} of it lies ahead of any invoice.",
                account.ahead.show()
            ));
        }
        if let Some((amount, since)) = account.overdue {
            notes.push(format!("{} is overdue since {since}.", amount.show()));
        }
        let (verb, amount) = if payment.amount < Money::ZERO {
            ("Gave back", -payment.amount)
        } else if before.is_some() {
            ("Corrected to a payment of", payment.amount)
        } else {
            ("Took", payment.amount)
        };
        let how = if payment.how.is_empty() {
            String::new()
        } else {
            format!(" by {}", payment.how)
        };
        let words = format!(
            "{verb} {}{how} for job {} {}, receipt {}; balance {}",
            amount.show(),
            job.no,
            show_date(payment.on, today),
            payment.no,
            account.balance().show(),
        );
        Ok(Done::said(words).with_notes(notes))
    }
}
