//! Places' caps on deposits: a table the person edits, each row with its source, each to verify.

use super::percent::Percent;
use super::share::Share;
use crate::units::Money;
use serde::{Deserialize, Serialize};

/// How well a row stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// From the place's own publication.
    Published,
    /// From a summary by others.
    Summary,
    /// The person's own.
    Own,
}

impl Standing {
    /// All.
    pub const ALL: [Self; 3] = [Self::Published, Self::Summary, Self::Own];

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Summary => "summary",
            Self::Own => "own",
        }
    }
}

/// A place's cap.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DepositCap {
    /// The place.
    pub place: String,
    /// At most this share of the total.
    pub share: Option<Share>,
    /// At most this amount.
    pub amount: Option<Money>,
    /// Only for totals above this.
    pub above: Option<Money>,
    /// What else it says.
    pub note: String,
    /// Who says so.
    pub source: String,
    /// How well that stands.
    pub standing: Standing,
}

/// A deposit above a cap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CapFinding {
    /// The place.
    pub place: String,
    /// The most.
    pub most: Money,
    /// The deposit.
    pub deposit: Money,
    /// In words, with source and what to do.
    pub words: String,
}

impl DepositCap {
    /// The most that may be taken before the work, of such a total: the lesser of share and amount,
    /// down to whole cents. None where the cap does not apply.
    pub fn most(&self, total: Money) -> Option<Money> {
        if self.above.is_some_and(|above| total <= above) {
            return None;
        }
        let share = self.share.map(|share| share.at_most_of(total));
        match (share, self.amount) {
            (Some(share), Some(amount)) => Some(share.min(amount)),
            (one, other) => one.or(other),
        }
    }

    /// What the cap says of a deposit: a finding where it is exceeded.
    pub fn check(&self, total: Money, deposit: Money) -> Option<CapFinding> {
        let most = self.most(total).filter(|most| deposit > *most)?;
        let note = if self.note.is_empty() {
            String::new()
        } else {
            format!("; {}", self.note)
        };
        let words = format!(
            "The deposit of {} is {} above the most for {}, {} of {} ({}, {}{note}). Verify it with \
             the place before you sign; no legal advice.",
            deposit.show(),
            (deposit - most).show(),
            self.place,
            most.show(),
            total.show(),
            self.source,
            self.standing.word(),
        );
        Some(CapFinding {
            place: self.place.clone(),
            most,
            deposit,
            words,
        })
    }
}

/// The rows a shop starts with; most places have no cap. Every one is to be verified.
pub fn starting_caps() -> Vec<DepositCap> {
    let third = Share::new(1, 3);
    let row = |place: &str, share, amount, above, note: &str, source: &str, standing| DepositCap {
        place: place.to_owned(),
        share,
        amount,
        above,
        note: note.to_owned(),
        source: source.to_owned(),
        standing,
    };
    let dollars = |dollars: i64| Some(Money::from_cents(dollars * 100));
    let summary = "secondary summaries of state rules";
    vec![
        row(
            "California",
            Share::of_percent(Percent::whole(10)),
            dollars(1000),
            None,
            "home improvement; no payment ahead of the value of the work",
            "Cal. Bus. & Prof. Code 7159.5",
            Standing::Published,
        ),
        row(
            "Maine",
            third,
            None,
            None,
            "can be waived in writing",
            summary,
            Standing::Summary,
        ),
        row(
            "Maryland",
            third,
            None,
            None,
            "nothing before signing",
            "Md. Bus. Reg. 8-617",
            Standing::Published,
        ),
        row(
            "Massachusetts",
            third,
            None,
            None,
            "special-order materials excepted",
            summary,
            Standing::Summary,
        ),
        row(
            "Pennsylvania",
            third,
            None,
            dollars(5000),
            "special-order materials excepted",
            summary,
            Standing::Summary,
        ),
        row(
            "Tennessee",
            third,
            None,
            None,
            "with exceptions",
            summary,
            Standing::Summary,
        ),
    ]
}
