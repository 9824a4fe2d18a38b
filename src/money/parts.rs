//! A total in parts: deposit, progress, balance, holdback, adding up to the cent.

use super::share::Share;
use crate::units::Money;
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What a part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PartKind {
    /// Before the work.
    Deposit,
    /// While the work runs.
    Progress,
    /// At its end.
    Balance,
    /// A small rest held until open items are done.
    Holdback,
}

impl PartKind {
    /// All, in the order of a job.
    pub const ALL: [Self; 4] = [Self::Deposit, Self::Progress, Self::Balance, Self::Holdback];

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Deposit => "deposit",
            Self::Progress => "progress",
            Self::Balance => "balance",
            Self::Holdback => "holdback",
        }
    }

    /// When it falls due where nothing else was said: tied to work, not to a bare date.
    pub fn usual_event(self) -> &'static str {
        match self {
            Self::Deposit => "on signing",
            Self::Progress => "when the finish is on, before delivery",
            Self::Balance => "on completion",
            Self::Holdback => "when the open items are done",
        }
    }
}

/// How much a part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartAmount {
    /// A share of the total.
    Share(Share),
    /// Dollars and cents.
    Amount(Money),
    /// What is left.
    Rest,
}

/// A part as asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartAsked {
    /// What it is.
    pub kind: PartKind,
    /// How much.
    pub amount: PartAmount,
    /// The event it falls due with.
    pub event: String,
    /// A date, if there is one.
    pub due: Option<NaiveDate>,
}

/// A part in cents.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Part {
    /// What it is.
    pub kind: PartKind,
    /// How much.
    pub amount: Money,
    /// The event it falls due with.
    pub event: String,
    /// A date, if there is one.
    pub due: Option<NaiveDate>,
}

/// Why parts do not make the total.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PartError {
    /// No part.
    #[error("No payment was said: give parts like deposit 50 %, progress 40 %, balance rest.")]
    None,
    /// A total that cannot be split.
    #[error("A total of {} cannot be paid in parts: it must be above nothing.", .0.show())]
    NoTotal(Money),
    /// Two rests.
    #[error("Only one part can be the rest: say the others in per cent or dollars.")]
    TwoRests,
    /// A part of nothing.
    #[error("The {} would be {}: each part must be above nothing.", .0.word(), .1.show())]
    Nothing(PartKind, Money),
    /// The parts miss the total.
    #[error(
        "The parts make {}, the total is {}: {}. Make one of them the rest.",
        parts.show(), total.show(),
        if parts > total { format!("{} too much", (*parts - *total).show()) }
        else { format!("{} are missing", (*total - *parts).show()) }
    )]
    Sum {
        /// What they make.
        parts: Money,
        /// What they should.
        total: Money,
    },
}

/// The parts in cents: each share rounded by the one rule; the rest, or where only shares were
/// given that make up the whole, the last of them, takes what is left, so that they add up.
///
/// # Errors
/// Parts that do not make the total, or any of nothing.
pub fn split(total: Money, asked: &[PartAsked]) -> Result<Vec<Part>, PartError> {
    if asked.is_empty() {
        return Err(PartError::None);
    }
    if total <= Money::ZERO {
        return Err(PartError::NoTotal(total));
    }
    let rests = asked
        .iter()
        .filter(|part| part.amount == PartAmount::Rest)
        .count();
    if rests > 1 {
        return Err(PartError::TwoRests);
    }
    let shares: Vec<Share> = asked
        .iter()
        .filter_map(|part| match part.amount {
            PartAmount::Share(share) => Some(share),
            _ => None,
        })
        .collect();
    let closes = shares.len() == asked.len() && Share::are_all(&shares);
    let takes_rest = |at: usize, part: &PartAsked| {
        part.amount == PartAmount::Rest || closes && at + 1 == asked.len()
    };
    let fixed = |part: &PartAsked| match part.amount {
        PartAmount::Share(share) => share.of(total),
        PartAmount::Amount(amount) => amount,
        PartAmount::Rest => Money::ZERO,
    };
    let others: Money = asked
        .iter()
        .enumerate()
        .filter(|(at, part)| !takes_rest(*at, part))
        .map(|(_, part)| fixed(part))
        .sum();
    let parts: Vec<Part> = asked
        .iter()
        .enumerate()
        .map(|(at, part)| Part {
            kind: part.kind,
            amount: if takes_rest(at, part) {
                total - others
            } else {
                fixed(part)
            },
            event: part.event.clone(),
            due: part.due,
        })
        .collect();
    let sum: Money = parts.iter().map(|part| part.amount).sum();
    if others > total || sum != total {
        let parts = if others > total { others } else { sum };
        return Err(PartError::Sum { parts, total });
    }
    match parts.iter().find(|part| part.amount <= Money::ZERO) {
        Some(part) => Err(PartError::Nothing(part.kind, part.amount)),
        None => Ok(parts),
    }
}
