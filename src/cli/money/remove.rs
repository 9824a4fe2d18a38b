//! What of money and hours the verb `remove` means.

use super::all_hours;
use super::bills::{invoice_no, payment_no};
use super::clock::entry;
use super::deal::change_no;
use super::samples::sample_no;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::{MoneyKey, Shop};

/// Something of money or hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MoneyThing {
    /// An estimate given: JOB/NUMBER.
    Estimate,
    /// The agreement of a job.
    Agreement,
    /// A change order: JOB/NUMBER.
    Change,
    /// A sample board: JOB/NUMBER.
    Sampleboard,
    /// An invoice, by its number.
    Invoice,
    /// A payment, by its receipt's number.
    Payment,
    /// An entry of the hours log, by its code.
    Hours,
}

fn number(text: &str) -> Result<u32, Failure> {
    let number = text.trim().parse().ok();
    number.ok_or_else(|| Failure::said("Say its number."))
}

fn of_job(text: &str) -> Result<(&str, u32), Failure> {
    let parts = text.split_once('/');
    let (job, no) = parts
        .ok_or_else(|| Failure::said("Say the job and the number, parted by a stroke: 1/2."))?;
    Ok((job, number(no)?))
}

/// Its key.
pub fn key(
    what: MoneyThing,
    text: &str,
    shop: &Shop,
    session: &Session<'_>,
) -> Result<MoneyKey, Failure> {
    Ok(match what {
        MoneyThing::Estimate => {
            let (job, no) = of_job(text)?;
            let job = find::job(shop, job)?;
            let mut given = shop.money.estimates.iter();
            let found = given.find(|of| of.job == job.id && of.no == no);
            let missing = || Failure::said(format!("Job {} has no estimate {no}.", job.no));
            MoneyKey::Estimate(found.ok_or_else(missing)?.id)
        }
        MoneyThing::Agreement => {
            let job = find::job(shop, text)?;
            let missing = || Failure::said(format!("Job {} is not signed.", job.no));
            MoneyKey::Agreement(shop.money.agreement(job.id).ok_or_else(missing)?.job)
        }
        MoneyThing::Change => {
            let (job, no) = of_job(text)?;
            MoneyKey::Change(change_no(shop, find::job(shop, job)?, no)?.id)
        }
        MoneyThing::Sampleboard => {
            let (job, no) = of_job(text)?;
            MoneyKey::Sample(sample_no(shop, find::job(shop, job)?, no)?.id)
        }
        MoneyThing::Invoice => MoneyKey::Invoice(invoice_no(shop, number(text)?)?.id),
        MoneyThing::Payment => MoneyKey::Payment(payment_no(shop, number(text)?)?.id),
        MoneyThing::Hours => MoneyKey::Hours(entry(&all_hours(session)?, text)?.id),
    })
}
