//! The shop's log of its air: readings in order of time, and what the air was at any moment.
//!
//! Between readings the last one holds, for twelve hours; after that the shop's usual air stands
//! in, hour by hour of the local day, learned from the four weeks before the gap. What was learned
//! from later readings never reaches back: a new row changes nothing that lies before it.

use super::air_log_kinds::{
    AirAt, AirBasis, AirReading, Assumed, Coverage, Inserted, Merged, Row, instant,
};
use super::air_log_sums::Sums;
use super::air_log_usual::UsualDay;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::sync::{Arc, Mutex, PoisonError};

/// How long a reading holds, in seconds: 12 hours.
pub const HOLDS: i64 = 12 * 3600;

/// The log. Rows are in order of time and no two share a second. A question about any span costs
/// microseconds however long the log is: sums over blocks of rows are kept as they are first asked
/// for, and adding a row drops only those that it touches.
#[derive(Debug)]
pub struct AirLog {
    rows: Vec<Row>,
    zone: Tz,
    assumed: Assumed,
    sums: Mutex<Sums>,
}

impl Clone for AirLog {
    fn clone(&self) -> Self {
        Self {
            rows: self.rows.clone(),
            zone: self.zone,
            assumed: self.assumed,
            sums: Mutex::new(self.with_sums(|sums| sums.clone())),
        }
    }
}

impl PartialEq for AirLog {
    fn eq(&self, other: &Self) -> bool {
        self.rows == other.rows && self.zone == other.zone && self.assumed == other.assumed
    }
}

impl AirLog {
    /// An empty log of a shop in `zone` (its local hours are the usual air's hours).
    pub fn new(zone: Tz, assumed: Assumed) -> Self {
        Self {
            rows: Vec::new(),
            zone,
            assumed,
            sums: Mutex::default(),
        }
    }

    /// The shop's zone.
    pub fn zone(&self) -> Tz {
        self.zone
    }

    /// What is assumed before the first reading.
    pub fn assumed(&self) -> Assumed {
        self.assumed
    }

    /// Sets the zone; the usual air's hours follow.
    pub fn set_zone(&mut self, zone: Tz) {
        self.zone = zone;
        self.forget_from(0);
    }

    /// Sets what is assumed before the first reading.
    pub fn set_assumed(&mut self, assumed: Assumed) {
        self.assumed = assumed;
        self.forget_from(0);
    }

    /// Puts one reading in its place, also before others. At a second that has one already, the
    /// new reading takes its place (a correction).
    pub fn insert(&mut self, reading: AirReading) -> Inserted {
        let row = Row::of(&reading);
        let place = self.rows.partition_point(|held| held.at < row.at);
        match self.rows.get(place).copied() {
            Some(held) if held == row => return Inserted::Same,
            Some(held) if held.at == row.at => {
                self.forget_from(place);
                if let Some(slot) = self.rows.get_mut(place) {
                    *slot = row;
                }
                return Inserted::Replaced(held.air);
            }
            _ => {}
        }
        self.forget_from(place);
        self.rows.insert(place, row);
        Inserted::Added
    }

    /// Takes out the reading at that second.
    pub fn remove(&mut self, at: DateTime<Utc>) -> Option<AirReading> {
        let place = self
            .rows
            .binary_search_by_key(&at.timestamp(), |row| row.at)
            .ok()?;
        self.forget_from(place);
        Some(self.rows.remove(place).reading())
    }

    /// Puts many readings in, in any order. Where the log holds another air at a second, the log's
    /// stays: an import never rewrites what was logged.
    pub fn merge(&mut self, readings: impl IntoIterator<Item = AirReading>) -> Merged {
        let mut fresh: Vec<Row> = readings.into_iter().map(|r| Row::of(&r)).collect();
        // Stable, so that of two rows at one second the first in the file stays.
        fresh.sort_by_key(|row| row.at);
        let mut merged = Merged::default();
        let Some(first) = fresh.first() else {
            return merged;
        };
        let from = self.rows.partition_point(|held| held.at < first.at);
        self.forget_from(from);
        let tail = self.rows.split_off(from);
        let mut held = tail.into_iter().peekable();
        let mut fresh = fresh.into_iter().peekable();
        self.rows.reserve(held.len() + fresh.len());
        loop {
            let new_first = match (held.peek(), fresh.peek()) {
                (Some(old), Some(new)) => old.at > new.at,
                (None, new) => new.is_some(),
                (Some(_), None) => false,
            };
            let row = if new_first { fresh.next() } else { held.next() };
            let Some(row) = row else { break };
            merged.added += usize::from(new_first);
            self.rows.push(row);
            // Whatever else comes at this second is the same, or differs from what stays.
            while let Some(twin) = fresh.next_if(|new| new.at == row.at) {
                if twin.air == row.air {
                    merged.same += 1;
                } else {
                    merged.differ += 1;
                }
            }
        }
        merged
    }

    /// How many readings.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The first reading.
    pub fn first(&self) -> Option<AirReading> {
        self.rows.first().map(|row| row.reading())
    }

    /// The last reading.
    pub fn last(&self) -> Option<AirReading> {
        self.rows.last().map(|row| row.reading())
    }

    /// The readings from `from` to `to`, both included, in order: for a plot or a list.
    pub fn between(
        &self,
        from: DateTime<Utc>,
        to: DateTime<Utc>,
    ) -> impl DoubleEndedIterator<Item = AirReading> + ExactSizeIterator + '_ {
        let first = self.rows.partition_point(|row| row.at < from.timestamp());
        let end = self.rows.partition_point(|row| row.at <= to.timestamp());
        let rows = self.rows.get(first..end.max(first)).unwrap_or_default();
        rows.iter().map(|row| row.reading())
    }

    /// The last reading at or before a moment, however old.
    pub fn reading_before(&self, at: DateTime<Utc>) -> Option<AirReading> {
        let place = self.place(at.timestamp())?;
        self.rows.get(place).map(|row| row.reading())
    }

    /// The air at a moment, and how it is known.
    pub fn air_at(&self, at: DateTime<Utc>) -> AirAt {
        let seconds = at.timestamp();
        let Some((place, row)) = self.row_at(seconds) else {
            let air = match self.assumed {
                Assumed::LabelConditions => None,
                Assumed::Air(air) => Some(air),
            };
            return AirAt {
                air,
                basis: AirBasis::Assumed,
            };
        };
        if seconds < row.at + HOLDS {
            return AirAt {
                air: Some(row.air),
                basis: AirBasis::Read {
                    at: instant(row.at),
                },
            };
        }
        let usual = self.usual_after((place, row));
        AirAt {
            air: Some(usual.at(seconds, self.zone)),
            basis: AirBasis::Usual {
                last: instant(row.at),
                days: usual.days(),
            },
        }
    }

    /// The usual air as it is known at a moment: learned from the four weeks up to the last
    /// reading before it. None where nothing was read yet.
    pub fn usual(&self, at: DateTime<Utc>) -> Option<Arc<UsualDay>> {
        Some(self.usual_after(self.row_at(at.timestamp())?))
    }

    /// How the air from `from` to `to` is known. Walks the rows of the span.
    pub fn coverage(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> Coverage {
        let (from, to) = (from.timestamp(), to.timestamp());
        let mut coverage = Coverage::default();
        let mut at = from;
        let mut place = self.place(from);
        while at < to {
            let next = place.map_or(0, |place| place + 1);
            let end = self.rows.get(next).map_or(to, |row| row.at.min(to));
            match place.and_then(|place| self.rows.get(place)) {
                None => coverage.assumed += end - at,
                Some(row) => {
                    let held = (row.at + HOLDS).clamp(at, end);
                    coverage.read += held - at;
                    coverage.usual += end - held;
                }
            }
            (at, place) = (end, Some(next));
        }
        coverage
    }

    /// The last row at or before a second.
    pub(super) fn place(&self, seconds: i64) -> Option<usize> {
        self.rows
            .partition_point(|row| row.at <= seconds)
            .checked_sub(1)
    }

    /// The rows.
    pub(super) fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// The last row at or before a second, with its place.
    fn row_at(&self, seconds: i64) -> Option<(usize, Row)> {
        let place = self.place(seconds)?;
        Some((place, *self.rows.get(place)?))
    }

    fn usual_after(&self, row: (usize, Row)) -> Arc<UsualDay> {
        self.with_sums(|sums| sums.usual(&self.rows, self.zone, row))
    }

    /// Runs `ask` with the kept sums. A panic elsewhere cannot leave them half done in a way that
    /// matters: each entry is written whole.
    pub(super) fn with_sums<T>(&self, ask: impl FnOnce(&mut Sums) -> T) -> T {
        ask(&mut self.sums.lock().unwrap_or_else(PoisonError::into_inner))
    }

    fn forget_from(&mut self, place: usize) {
        self.sums
            .get_mut()
            .unwrap_or_else(PoisonError::into_inner)
            .forget_from(place);
    }
}
