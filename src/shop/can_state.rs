//! What is true of a can: folded, never stored.

use super::can::{Can, DAYS_SOON, KeepsDay};
use super::id::{CanId, CanLineId, PassId};
use crate::units::{Mass, Money, Volume};
use chrono::{DateTime, NaiveDate, Utc};

/// So much, and what it cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Qty {
    /// How much.
    pub volume: Volume,
    /// What it cost.
    pub cost: Money,
}

impl std::ops::AddAssign for Qty {
    fn add_assign(&mut self, more: Self) {
        self.volume += more.volume;
        self.cost += more.cost;
    }
}

impl std::ops::Add for Qty {
    type Output = Self;

    fn add(mut self, more: Self) -> Self {
        self += more;
        self
    }
}

impl std::iter::Sum for Qty {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), |sum, one| sum + one)
    }
}

/// How what is left is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Known {
    /// Nothing was taken yet: as it came.
    AsItCame,
    /// By weighing, at that time.
    Weighed(DateTime<Utc>),
    /// By subtraction: from the last weighing, or from what it held when it came.
    Subtracted(Option<DateTime<Utc>>),
}

/// What the empty can weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EmptyWeight {
    /// Weighed or read off.
    Given(Mass),
    /// Reckoned at the first weighing, from what was in it then by subtraction: later weighings
    /// tell what went since, not whether it was full to begin with.
    Reckoned(Mass),
}

impl EmptyWeight {
    /// The weight.
    pub fn mass(self) -> Mass {
        match self {
            Self::Given(mass) | Self::Reckoned(mass) => mass,
        }
    }
}

/// How a can stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CanStanding {
    /// Not opened.
    Sealed,
    /// Opened, with something in it.
    Open,
    /// Nothing left in it.
    Empty,
    /// Thrown away.
    Discarded(DateTime<Utc>),
}

impl CanStanding {
    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Sealed => "sealed",
            Self::Open => "open",
            Self::Empty => "empty",
            Self::Discarded(_) => "discarded",
        }
    }
}

/// Age against shelf life.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Age {
    /// Nothing is known of its shelf life.
    Unknown,
    /// Good until that day.
    Good(KeepsDay),
    /// Good until that day, which is near.
    Soon(KeepsDay),
    /// Good until that day, which is gone.
    Past(KeepsDay),
}

impl Age {
    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Unknown => "not known",
            Self::Good(_) => "good",
            Self::Soon(_) => "soon past",
            Self::Past(_) => "past",
        }
    }
}

/// What took something out of a can, or put it right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MoveOf {
    /// A pass took it; of that so much stayed in rag and tray.
    Pass(PassId, Qty),
    /// A jar, poured off by that line.
    Jar(CanLineId),
    /// Lost outside a pass, by that line.
    Lost(CanLineId),
    /// Poured into a mixed can.
    MixedInto(CanId),
    /// Thrown away.
    Discarded,
    /// Found missing by a weighing, or because more came out than was in it by reckoning; below
    /// zero where more was there than reckoned.
    Found,
}

/// One movement of a can's content.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CanMove {
    /// When.
    pub at: DateTime<Utc>,
    /// What it was.
    pub of: MoveOf,
    /// How much, and what it cost.
    pub qty: Qty,
    /// What was left after it.
    pub left: Volume,
}

/// Where the content of cans went. Together with what is left it is exactly what came, in
/// microlitres and in cents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CanSums {
    /// On the wood.
    pub on_wood: Qty,
    /// In rags and trays of passes, weighed.
    pub rag: Qty,
    /// In jars for clients.
    pub jars: Qty,
    /// Lost outside passes.
    pub lost: Qty,
    /// In mixed cans.
    pub mixed: Qty,
    /// Thrown away.
    pub discarded: Qty,
    /// Found missing; below zero where more was found.
    pub found: Qty,
}

impl CanSums {
    /// All of it.
    pub fn all(&self) -> Qty {
        self.on_wood + self.rag + self.jars + self.lost + self.mixed + self.discarded + self.found
    }
}

/// A can as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CanState {
    /// The can.
    pub can: Can,
    /// Where it stands.
    pub place: String,
    /// What was in it when it came, and what that cost.
    pub came: Qty,
    /// What is left, and what that is worth.
    pub left: Qty,
    /// How that is known.
    pub known: Known,
    /// When it was opened.
    pub opened: Option<DateTime<Utc>>,
    /// How it stands.
    pub standing: CanStanding,
    /// The last weighing.
    pub weighed: Option<(DateTime<Utc>, Mass)>,
    /// What the empty can weighs.
    pub empty: Option<EmptyWeight>,
    /// What moved its content, in order of time.
    pub moves: Vec<CanMove>,
    /// Where its content went.
    pub sums: CanSums,
}

impl CanState {
    /// Whether something can be taken from it.
    pub fn usable(&self) -> bool {
        matches!(self.standing, CanStanding::Sealed | CanStanding::Open)
    }

    /// Age against shelf life on a day, the day of opening on the calendar of `zone`.
    pub fn age(&self, today: NaiveDate, zone: chrono_tz::Tz) -> Age {
        let opened = self.opened.map(|at| at.with_timezone(&zone).date_naive());
        match self.can.keeps.until(self.can.day(zone), opened) {
            None => Age::Unknown,
            Some(end) if end.day() < today => Age::Past(end),
            Some(end) if (end.day() - today).num_days() <= DAYS_SOON => Age::Soon(end),
            Some(end) => Age::Good(end),
        }
    }

    /// What was left at a moment, by what is on record now.
    pub fn left_at(&self, at: DateTime<Utc>) -> Volume {
        self.moves
            .iter()
            .rev()
            .find(|step| step.at <= at)
            .map_or(self.came.volume, |step| step.left)
    }

    /// What the empty can weighs, whoever said so.
    pub fn empty_mass(&self) -> Option<Mass> {
        self.empty.map(EmptyWeight::mass)
    }
}
