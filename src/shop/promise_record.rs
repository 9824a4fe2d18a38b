//! Promises on record: what was promised, when, on what basis; and how many were kept.

use super::id::{JobId, PromiseId};
use chrono::{DateTime, NaiveDate, Utc};

/// One promise, as it was pinned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Promise {
    /// Its identifier.
    pub id: PromiseId,
    /// The job.
    pub job: JobId,
    /// When it was made.
    pub at: DateTime<Utc>,
    /// The set date promised.
    pub date: NaiveDate,
    /// The odds quoted for that date, in thousandths.
    pub odds: u16,
    /// The even-odds date quoted then.
    pub even: NaiveDate,
    /// The 9-in-10 date quoted then.
    pub nine: NaiveDate,
    /// How many pieces were open in the shop then.
    pub open_pieces: u32,
    /// What it was reckoned by, in words.
    pub basis: String,
}

/// How a promise stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PromiseState {
    /// Not due yet.
    Open,
    /// Set on or before the date.
    Kept,
    /// Not set by the date.
    Missed,
}

impl PromiseState {
    /// One word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Kept => "kept",
            Self::Missed => "missed",
        }
    }
}

impl Promise {
    /// How it stands: `set` is the day the last piece of the job was set, if it was.
    pub fn state(&self, set: Option<NaiveDate>, today: NaiveDate) -> PromiseState {
        match set {
            Some(day) if day <= self.date => PromiseState::Kept,
            Some(_) => PromiseState::Missed,
            None if today > self.date => PromiseState::Missed,
            None => PromiseState::Open,
        }
    }
}

/// A band of odds that promises are counted by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OddsBand {
    /// Below 40 in 100.
    Long,
    /// 40 to 65 in 100: about even.
    Even,
    /// 65 to 85 in 100.
    Likely,
    /// 85 in 100 and more: 9 in 10.
    NineInTen,
}

impl OddsBand {
    /// All, the longest odds first.
    pub const ALL: [Self; 4] = [Self::Long, Self::Even, Self::Likely, Self::NineInTen];

    /// The band of odds in thousandths.
    pub fn of(odds: u16) -> Self {
        match odds {
            850.. => Self::NineInTen,
            650.. => Self::Likely,
            400.. => Self::Even,
            _ => Self::Long,
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Long => "at long odds",
            Self::Even => "at about even odds",
            Self::Likely => "at about 3 in 4",
            Self::NineInTen => "at 9 in 10",
        }
    }
}

/// How the promises of one band went.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// The band.
    pub band: OddsBand,
    /// How many are decided.
    pub decided: u32,
    /// How many of them were kept.
    pub kept: u32,
    /// How many the quoted odds would have kept.
    pub quoted: f64,
}

impl Share {
    /// `at 9 in 10: 8 of 9 kept, 8.1 expected of the odds quoted`.
    pub fn words(&self) -> String {
        format!(
            "{}: {} of {} kept; the odds quoted would keep {:.1}",
            self.band.words(),
            self.kept,
            self.decided,
            self.quoted
        )
    }
}

/// The share of promises kept against the odds quoted. Only the last promise of a job counts:
/// one that was made anew was not broken by that.
pub fn shares(
    promises: &[Promise],
    set_on: impl Fn(JobId) -> Option<NaiveDate>,
    today: NaiveDate,
) -> Vec<Share> {
    let last = |promise: &&Promise| {
        let later = |other: &Promise| other.job == promise.job && other.id > promise.id;
        !promises.iter().any(later)
    };
    let mut out = Vec::new();
    for band in OddsBand::ALL {
        let mut share = Share {
            band,
            decided: 0,
            kept: 0,
            quoted: 0.0,
        };
        for promise in promises.iter().filter(last) {
            if OddsBand::of(promise.odds) != band {
                continue;
            }
            let state = promise.state(set_on(promise.job), today);
            if state != PromiseState::Open {
                share.decided += 1;
                share.kept += u32::from(state == PromiseState::Kept);
                share.quoted += f64::from(promise.odds) / 1000.0;
            }
        }
        if share.decided > 0 {
            out.push(share);
        }
    }
    out
}
