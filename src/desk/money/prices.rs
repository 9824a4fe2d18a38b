//! Figures for pricing, terms of a job, estimates given.

use super::refusal::MoneyRefusal;
use super::rows::{HoursOf, MoneyRow};
use crate::desk::Shop;
use crate::desk::books::{BooksError, Row, Scope};
use crate::desk::error::DeskError;
use crate::desk::people::{line, needed};
use crate::desk::perform::{Desk, Done};
use crate::money::{Item, ShopRate, TAX_DEFER};
use crate::shop::{EstimateId, EstimateKept, Job, JobId, JobTerms, PriceBook};
use crate::units::{Money, show_date};
use chrono::{Days, NaiveDate};

/// Longest line of an estimate, a change order, a sample board.
pub(super) const WORDS_MOST: usize = 200;

impl Desk<'_> {
    /// The job with the whole shop around it.
    pub(super) fn job_of(&self, id: JobId) -> Result<(Shop, Job), DeskError> {
        let shop = self.shop(Scope::All)?;
        let job = shop.job(id).cloned();
        let job = job.ok_or(BooksError::Missing { what: "job" })?;
        Ok((shop, job))
    }

    pub(super) fn put_money(&mut self, row: MoneyRow<'_>) -> Result<(), BooksError> {
        self.books.put(Row::Money(row))
    }

    pub(super) fn today(&self, shop: &Shop) -> NaiveDate {
        self.now.with_timezone(&shop.settings.zone).date_naive()
    }

    pub(super) fn save_prices(&mut self, book: &PriceBook) -> Result<Done, DeskError> {
        let rate = ShopRate::of(&book.rate).map_err(MoneyRefusal::from)?;
        check_figures(book)?;
        let before = self.books.price_book()?.unwrap_or_default();
        let mut notes = Vec::new();
        let mut book = book.clone();
        for place in &mut book.places {
            let cure = "type the place whose tax it is.";
            place.name = needed("The place", &place.name, 80, cure, &mut notes)?;
            place.source = line("The source", &place.source, WORDS_MOST, &mut notes)?;
        }
        for cap in &mut book.caps {
            let cure = "type the place whose cap it is.";
            cap.place = needed("The place", &cap.place, 80, cure, &mut notes)?;
            cap.source = line("The source", &cap.source, WORDS_MOST, &mut notes)?;
            cap.note = line("The note", &cap.note, WORDS_MOST, &mut notes)?;
        }
        book.places
            .sort_by_cached_key(|place| place.name.to_lowercase());
        book.caps.sort_by_cached_key(|cap| cap.place.to_lowercase());
        self.put_money(MoneyRow::Prices(&book))?;
        let mut changed = Vec::new();
        if before.rate != book.rate {
            changed.push(format!(
                "the hour breaks even at {} and sells at {}",
                rate.break_even.show(),
                rate.sell.show()
            ));
        }
        if before.markups != book.markups {
            changed.push("markups".to_owned());
        }
        if before.confidence != book.confidence {
            changed.push(format!("confidence {}", book.confidence));
        }
        if before.minimum != book.minimum {
            changed.push(format!("least charge {}", book.minimum.show()));
        }
        if (before.board_foot, &before.woods) != (book.board_foot, &book.woods) {
            changed.push("prices of wood".to_owned());
        }
        if before.allowance != book.allowance {
            changed.push(format!("finish on top {}", book.allowance));
        }
        if (before.terms_days, before.valid_days) != (book.terms_days, book.valid_days) {
            let (due, holds) = (book.terms_days, book.valid_days);
            changed.push(format!(
                "invoices due after {due} days, estimates hold {holds}"
            ));
        }
        if before.places != book.places {
            changed.push("places and their sales tax".to_owned());
            notes.push(TAX_DEFER.to_owned());
        }
        for terms in self.books.money()?.terms {
            let gone = |name: &str, is: bool, was: bool| !name.is_empty() && was && !is;
            let (place, cap) = (&terms.place, &terms.cap);
            if gone(
                place,
                book.place(place).is_some(),
                before.place(place).is_some(),
            ) {
                notes.push(format!(
                    "A job is taxed as in {place}: set another place for it."
                ));
            }
            if gone(cap, book.cap(cap).is_some(), before.cap(cap).is_some()) {
                notes.push(format!(
                    "A job goes by the deposit cap of {cap}: set another."
                ));
            }
        }
        if before.caps != book.caps {
            changed.push("deposit caps".to_owned());
        }
        let words = if changed.is_empty() {
            "Saved the figures for pricing unchanged".to_owned()
        } else {
            format!("Changed figures for pricing: {}", changed.join("; "))
        };
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn save_terms(&mut self, terms: &JobTerms) -> Result<Done, DeskError> {
        let (shop, job) = self.job_of(terms.job)?;
        let mut notes = Vec::new();
        let mut terms = terms.clone();
        let missing = |what, name: &str| MoneyRefusal::NoPlace {
            what,
            name: name.to_owned(),
        };
        if !terms.place.is_empty() {
            let place = shop.prices.place(&terms.place);
            let place = place.ok_or_else(|| missing("The tax of", &terms.place))?;
            terms.place.clone_from(&place.name);
            notes.push(TAX_DEFER.to_owned());
        }
        if !terms.cap.is_empty() {
            let cap = shop.prices.cap(&terms.cap);
            let cap = cap.ok_or_else(|| missing("The deposit cap of", &terms.cap))?;
            terms.cap.clone_from(&cap.place);
        }
        let mut items = Vec::new();
        for item in &terms.items {
            items.push(checked(item, &mut notes)?);
        }
        terms.items = items;
        let before = shop.money.terms(job.id);
        let mut said = Vec::new();
        if before.place != terms.place {
            said.push(format!("taxed as in {}", or_nowhere(&terms.place)));
        }
        if before.cap != terms.cap {
            said.push(format!("deposit cap of {}", or_nowhere(&terms.cap)));
        }
        if before.asks_sample != terms.asks_sample {
            said.push(if terms.asks_sample {
                "asks for an approved sample before stain".to_owned()
            } else {
                "asks for no sample".to_owned()
            });
        }
        if before.confidence != terms.confidence {
            let own = terms.confidence.map(|percent| percent.to_string());
            said.push(format!(
                "priced at a confidence of {}",
                own.unwrap_or_else(|| "the shop's".to_owned())
            ));
        }
        let added = terms
            .items
            .iter()
            .filter(|item| !before.items.contains(item));
        said.extend(added.map(|item| format!("{} {}", item.what, item.cost().show())));
        let gone = before
            .items
            .iter()
            .filter(|item| !terms.items.contains(item));
        said.extend(gone.map(|item| format!("without {}", item.what)));
        self.put_money(MoneyRow::Terms(&terms))?;
        let words = if said.is_empty() {
            format!("Saved the terms of job {} unchanged", job.no)
        } else {
            format!("Terms of job {}: {}", job.no, said.join("; "))
        };
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn give_estimate(
        &mut self,
        job: JobId,
        valid_until: Option<NaiveDate>,
    ) -> Result<Done, DeskError> {
        let (shop, job) = self.job_of(job)?;
        let hours = self.books.hours(HoursOf::All)?;
        let made = shop.estimate_job(&job, &hours, self.now)?;
        let today = self.today(&shop);
        let usual = || {
            today
                .checked_add_days(Days::new(shop.prices.valid_days.into()))
                .unwrap_or(today)
        };
        let valid_until = valid_until.unwrap_or_else(usual);
        if valid_until < today {
            let words =
                format!("The estimate would have run out on {valid_until}: give a later day.");
            return Err(MoneyRefusal::Dates(words).into());
        }
        let of_job = shop
            .money
            .estimates
            .iter()
            .filter(|kept| kept.job == job.id);
        let kept = EstimateKept {
            id: EstimateId(self.id()),
            job: job.id,
            no: of_job.map(|kept| kept.no).max().unwrap_or(0) + 1,
            on: today,
            valid_until,
            confidence: made.confidence,
            hour: made.rate.sell,
            priced: made.made.priced,
            lines: made.made.lines,
            steps: made.made.steps,
        };
        self.put_money(MoneyRow::Estimate(&kept))?;
        let sums = kept.totals();
        let words = format!(
            "Gave estimate {} of job {} {}: {} and {} tax, {}, until {}",
            kept.no,
            job.no,
            job.title,
            sums.net.show(),
            sums.tax.show(),
            sums.total().show(),
            show_date(valid_until, today),
        );
        let mut notes = Vec::new();
        if shop.money.agreement(job.id).is_some() {
            notes.push(format!(
                "Job {} is signed: the agreement's price stands, this estimate changes nothing.",
                job.no
            ));
        }
        Ok(Done::said(words).with_notes(notes))
    }
}

fn or_nowhere(name: &str) -> &str {
    if name.is_empty() { "nowhere" } else { name }
}

fn checked(item: &Item, notes: &mut Vec<String>) -> Result<Item, DeskError> {
    let cure = "type what it is, for example undermount sink.";
    let what = needed("The line", &item.what, WORDS_MOST, cure, notes)?;
    if item.count <= rust_decimal::Decimal::ZERO || item.count > 100_000.into() {
        let words = format!("{what}: the count must lie above nothing and up to 100,000.");
        return Err(MoneyRefusal::Figure(words).into());
    }
    if item.cost() > Money::MAX || item.cost() < -Money::MAX {
        let words = format!("{what}: that is more than {}; check it.", Money::MAX.show());
        return Err(MoneyRefusal::Figure(words).into());
    }
    Ok(Item {
        what,
        ..item.clone()
    })
}

fn check_figures(book: &PriceBook) -> Result<(), MoneyRefusal> {
    let wrong = |words: String| Err(MoneyRefusal::Figure(words));
    let amounts = [
        ("The least charge", book.minimum),
        ("A board foot", book.board_foot),
    ];
    let woods = book.woods.iter().map(|(wood, each)| (wood.as_str(), *each));
    if let Some((what, _)) = amounts
        .into_iter()
        .chain(woods)
        .find(|(_, amount)| *amount < Money::ZERO)
    {
        return wrong(format!("{what} cannot cost less than nothing."));
    }
    if !(0.05..=0.95).contains(&book.confidence.as_f64()) {
        let said = crate::money::EstimateError::Confidence(book.confidence);
        return Err(said.into());
    }
    if book.terms_days > 365 || book.valid_days > 365 {
        return wrong("Terms and validity go up to 365 days.".to_owned());
    }
    let places = book.places.iter().map(|of| of.name.to_lowercase());
    if let Some(twice) = twice(places) {
        return wrong(format!("{twice} is in the tax table twice."));
    }
    let caps = book.caps.iter().map(|of| of.place.to_lowercase());
    if let Some(twice) = twice(caps) {
        return wrong(format!("{twice} is in the table of caps twice."));
    }
    match book
        .caps
        .iter()
        .find(|cap| cap.share.is_none() && cap.amount.is_none())
    {
        Some(cap) => wrong(format!(
            "The cap of {} needs a share or an amount.",
            cap.place
        )),
        None => Ok(()),
    }
}

/// The first name that is there before.
fn twice(mut names: impl Iterator<Item = String>) -> Option<String> {
    let mut seen = std::collections::HashSet::new();
    names.find(|name| !seen.insert(name.clone()))
}
