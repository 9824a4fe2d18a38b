//! What was billed, what was paid, what is open and since when.

use crate::units::Money;
use chrono::NaiveDate;

/// A bill.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bill {
    /// Its number in the shop.
    pub no: u32,
    /// How much, tax included.
    pub amount: Money,
    /// When it falls due.
    pub due: NaiveDate,
}

/// A payment; money given back is below nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paid {
    /// The bill it was paid on; none goes to the oldest open one.
    pub on: Option<u32>,
    /// How much.
    pub amount: Money,
}

/// A bill with what was paid on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Settled {
    /// The bill.
    pub bill: Bill,
    /// Paid on it.
    pub paid: Money,
}

impl Settled {
    /// What is open of it.
    pub fn open(&self) -> Money {
        self.bill.amount - self.paid
    }
}

/// Lays payments on bills: what names a bill goes there up to its amount; the rest, and what names
/// none, to the bills in the order they fall due. With it what is left over. Nothing gets lost: what
/// was paid is what lies on bills and what is left over, to the cent.
pub fn settle(bills: &[Bill], paid: &[Paid]) -> (Vec<Settled>, Money) {
    let mut out: Vec<Settled> = bills
        .iter()
        .map(|bill| Settled {
            bill: *bill,
            paid: Money::ZERO,
        })
        .collect();
    out.sort_by_key(|settled| (settled.bill.due, settled.bill.no));
    let mut free = Money::ZERO;
    for payment in paid {
        let named = out
            .iter_mut()
            .find(|settled| payment.on == Some(settled.bill.no));
        match named {
            Some(settled) => {
                let takes = payment.amount.min(settled.open());
                settled.paid += takes;
                free += payment.amount - takes;
            }
            None => free += payment.amount,
        }
    }
    for settled in &mut out {
        let takes = free.max(Money::ZERO).min(settled.open().max(Money::ZERO));
        settled.paid += takes;
        free -= takes;
    }
    out.sort_by_key(|settled| settled.bill.no);
    (out, free)
}

/// What of some bills is overdue on a day, and since when the oldest of it is.
pub fn overdue(settled: &[Settled], today: NaiveDate) -> Option<(Money, NaiveDate)> {
    let late = || {
        settled
            .iter()
            .filter(|settled| settled.bill.due < today && settled.open() > Money::ZERO)
    };
    let since = late().map(|settled| settled.bill.due).min()?;
    Some((late().map(Settled::open).sum(), since))
}
