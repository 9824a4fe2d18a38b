//! What can be done with cans, and what a pass draws, as typed.

use crate::coating::{Method, ProductId};
use crate::shop::{CanId, CanLineId, JarFor, Keeps, Pass};
use crate::units::{Mass, Money, Volume};
use chrono::{DateTime, NaiveDate, Utc};

/// A can as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CanDraft {
    /// What is in it.
    pub product: ProductId,
    /// The size it holds.
    pub size: Volume,
    /// What was in it when it came; none: it was full.
    pub held: Option<Volume>,
    /// What was paid for it; none: the product's price, by what it held.
    pub price: Option<Money>,
    /// The day it came.
    pub on: NaiveDate,
    /// Batch as printed; empty: not read.
    pub batch: String,
    /// How long it keeps by its label.
    pub keeps: Keeps,
    /// What the empty can weighs.
    pub empty: Option<Mass>,
    /// Where it stands.
    pub place: String,
}

/// A part of a mix.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MixPart {
    /// The can.
    pub can: CanId,
    /// How much of it; none: all that is left.
    pub volume: Option<Volume>,
}

/// A mix as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixDraft {
    /// The cans, two or more, of one product.
    pub parts: Vec<MixPart>,
    /// The size of the can it was mixed in; none: what went in.
    pub size: Option<Volume>,
    /// What that can weighs empty.
    pub empty: Option<Mass>,
    /// Where it stands.
    pub place: String,
}

/// How much a pass took from one can, where that is known can by can.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TakeAmount {
    /// Read off.
    Volume(Volume),
    /// Weighed before and after.
    Weighed {
        /// Before; none: as the can was weighed last.
        before: Option<Mass>,
        /// After.
        after: Mass,
    },
}

/// One can of a pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CanTake {
    /// The can.
    pub can: CanId,
    /// How much; none: by the pass's amount.
    pub amount: Option<TakeAmount>,
}

/// Which cans a pass drew from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum CanPick {
    /// The open can of the product, where there is just one; else no can is named.
    #[default]
    Usual,
    /// No can is named.
    NoCan,
    /// These.
    These(Vec<CanTake>),
}

/// Where the product of a pass came from and how it was put on, as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DrawnDraft {
    /// The cans.
    pub cans: CanPick,
    /// Rag and tray as weighed, less what they weighed dry.
    pub lost: Option<Mass>,
    /// How it was put on; none: as its family usually is.
    pub method: Option<Method>,
    /// Whether the person insists on what was questioned.
    pub sure: bool,
}

impl DrawnDraft {
    /// The draft that would draw what a pass drew: its cans, without amounts, its loss, its method.
    pub fn of(pass: &Pass) -> Self {
        let takes = |can: CanId| CanTake { can, amount: None };
        let draws = pass.drawn.draws.iter();
        let cans: Vec<CanTake> = draws.map(|draw| takes(draw.can)).collect();
        Self {
            cans: if cans.is_empty() {
                CanPick::NoCan
            } else {
                CanPick::These(cans)
            },
            lost: pass.drawn.lost.map(|lost| lost.mass),
            method: pass.drawn.method,
            sure: false,
        }
    }
}

/// What can be done with cans.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CanAction {
    /// So many cans alike came in.
    Receive(CanDraft, u32),
    /// What is said of a can is corrected.
    Correct(CanId, CanDraft),
    /// A can on whose log nothing stands is taken off the books.
    Remove(CanId),
    /// Opened.
    Open {
        /// The can.
        can: CanId,
        /// When.
        at: DateTime<Utc>,
    },
    /// Weighed as it stands, lid and all.
    Weigh {
        /// The can.
        can: CanId,
        /// The weight.
        mass: Mass,
        /// When.
        at: DateTime<Utc>,
        /// Whether the person insists.
        sure: bool,
    },
    /// Several cans poured together into one batch.
    Mix {
        /// What.
        draft: MixDraft,
        /// When.
        at: DateTime<Utc>,
        /// Whether the person insists.
        sure: bool,
    },
    /// A touch-up jar poured off.
    Jar {
        /// The can.
        can: CanId,
        /// How much.
        volume: Volume,
        /// For whom.
        to: JarFor,
        /// When.
        at: DateTime<Utc>,
        /// Whether the person insists.
        sure: bool,
    },
    /// Lost outside a pass.
    Lose {
        /// The can.
        can: CanId,
        /// How much.
        volume: Volume,
        /// Why.
        reason: String,
        /// When.
        at: DateTime<Utc>,
        /// Whether the person insists.
        sure: bool,
    },
    /// Thrown away with what is left.
    Discard {
        /// The can.
        can: CanId,
        /// Why.
        reason: String,
        /// When.
        at: DateTime<Utc>,
    },
    /// Put somewhere else.
    Move {
        /// The can.
        can: CanId,
        /// Where.
        place: String,
        /// When.
        at: DateTime<Utc>,
    },
    /// A line of a can's log was a mistake.
    Strike(CanLineId),
}
