//! Sums over the log: how much label time passed, and when an amount of it is reached.
//!
//! One walk answers both. Amounts are whole numbers (billionths of a label second), so that a span
//! cut in two counts exactly as much as the whole. Blocks of rows are summed when first asked for
//! and kept.

use super::air_log::{AirLog, HOLDS};
use super::air_log_kinds::{Assumed, Row, ShopAir};
use super::air_log_usual::{DAY, HourGrid, UsualDay, local_hour, next_hour};
use super::model::{Counts, PACE};
use chrono_tz::Tz;
use std::collections::HashMap;
use std::sync::Arc;

/// Rows in a block.
const BLOCK: usize = 64;

/// What was once summed or learned.
#[derive(Debug, Clone, Default)]
pub(super) struct Sums {
    usual: HashMap<usize, Arc<UsualDay>>,
    tracks: HashMap<Counts, Track>,
}

/// The sums of one law.
#[derive(Debug, Clone, Default)]
struct Track {
    /// Whole blocks, by number.
    blocks: Vec<Option<i128>>,
    /// Paces of the usual day after a row.
    usual: HashMap<usize, [i64; 24]>,
}

/// Air that is told, not read: from an instant up to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Told {
    pub(super) from: i64,
    pub(super) until: i64,
    pub(super) air: ShopAir,
}

/// How far a walk has come.
#[derive(Debug, Clone, Copy)]
struct Walk {
    at: i64,
    end: i64,
    sum: i128,
    goal: i128,
}

impl Walk {
    fn done(&self) -> bool {
        self.at >= self.end || self.sum >= self.goal
    }

    /// Goes on at one pace up to `until`, or to the second at which the goal is met.
    fn steady(&mut self, until: i64, pace: i64) {
        let until = until.min(self.end);
        if until <= self.at || self.done() {
            return;
        }
        let whole = i128::from(pace) * i128::from(until - self.at);
        let want = self.goal - self.sum;
        if whole >= want && pace > 0 {
            let seconds = (want + i128::from(pace) - 1) / i128::from(pace);
            self.at += i64::try_from(seconds).unwrap_or(until - self.at);
            self.sum = self.goal;
        } else {
            self.at = until;
            self.sum += whole;
        }
    }

    /// Takes a stretch whose sum is known, unless the goal or the end lies inside it.
    fn leap(&mut self, until: i64, sum: i128) -> bool {
        let fits = until <= self.end && self.sum + sum < self.goal;
        if fits {
            self.at = until;
            self.sum += sum;
        }
        fits
    }

    /// Goes on through usual days.
    fn usual(&mut self, until: i64, paces: &[i64; 24], zone: Tz) {
        let until = until.min(self.end);
        if paces.iter().all(|pace| *pace == 0) {
            self.steady(until, 0);
            return;
        }
        let day = paces.iter().map(|pace| i128::from(*pace) * 3600).sum();
        while self.at < until && !self.done() {
            let grid = HourGrid::of(self.at, zone);
            let whole_day = matches!(grid, HourGrid::Plain(_))
                && self.at.rem_euclid(DAY) == 0
                && self.at + DAY <= until;
            if whole_day && self.leap(self.at + DAY, day) {
                continue;
            }
            let day_end = ((self.at.div_euclid(DAY) + 1) * DAY).min(until);
            while self.at < day_end && !self.done() {
                let pace = paces[local_hour(self.at, grid, zone)];
                self.steady(next_hour(self.at, grid).min(until), pace);
            }
        }
    }
}

impl Sums {
    /// Forgets what a change of the row at `place` may touch: the row before it held up to it.
    pub(super) fn forget_from(&mut self, place: usize) {
        let before = place.saturating_sub(1);
        self.usual.retain(|row, _| *row < place);
        for track in self.tracks.values_mut() {
            track.blocks.truncate(before / BLOCK);
            track.usual.retain(|row, _| *row < place);
        }
    }

    /// The usual air after a row.
    pub(super) fn usual(
        &mut self,
        rows: &[Row],
        zone: Tz,
        (place, row): (usize, Row),
    ) -> Arc<UsualDay> {
        let learn = || {
            let known = rows.get(..=place).unwrap_or(rows);
            Arc::new(UsualDay::learned(known, row, zone))
        };
        Arc::clone(self.usual.entry(place).or_insert_with(learn))
    }
}

/// One question's view of the log.
struct Asked<'a> {
    log: &'a AirLog,
    counts: Counts,
    told: &'a [Told],
    sums: &'a mut Sums,
    track: Track,
}

impl Asked<'_> {
    fn pace(&self, air: ShopAir) -> i64 {
        self.counts.pace(air.temperature, air.humidity)
    }

    /// From a row (or from before the first) up to the next.
    fn stretch(&mut self, walk: &mut Walk, place: Option<usize>) {
        let rows = self.log.rows();
        let next = place.map_or(0, |place| place + 1);
        let until = rows.get(next).map_or(walk.end, |row| row.at);
        if next < rows.len() || self.told.is_empty() {
            self.untold(walk, place, until);
            return;
        }
        // After the last reading a forecast has the word where it says something.
        while walk.at < until && !walk.done() {
            let next = self.told.iter().find(|told| told.until > walk.at);
            match next.copied() {
                Some(told) if told.from <= walk.at => {
                    walk.steady(told.until.min(until), self.pace(told.air));
                }
                Some(told) => self.untold(walk, place, told.from.min(until)),
                None => self.untold(walk, place, until),
            }
        }
    }

    /// The same, without a forecast, and only up to `until`.
    fn untold(&mut self, walk: &mut Walk, place: Option<usize>, until: i64) {
        let Some((place, row)) =
            place.and_then(|place| Some((place, *self.log.rows().get(place)?)))
        else {
            let assumed = match self.log.assumed() {
                Assumed::LabelConditions => PACE,
                Assumed::Air(air) => self.pace(air),
            };
            walk.steady(until, assumed);
            return;
        };
        walk.steady(until.min(row.at + HOLDS), self.pace(row.air));
        if walk.at < until && !walk.done() {
            let paces = self.usual_paces(place, row);
            walk.usual(until, &paces, self.log.zone());
        }
    }

    fn usual_paces(&mut self, place: usize, row: Row) -> [i64; 24] {
        if let Some(paces) = self.track.usual.get(&place) {
            return *paces;
        }
        let (rows, zone) = (self.log.rows(), self.log.zone());
        let usual = self.sums.usual(rows, zone, (place, row));
        let paces = usual.hours().map(|air| self.pace(air));
        self.track.usual.insert(place, paces);
        paces
    }

    /// The sum of a whole block, or none where it is not followed by another row.
    fn block(&mut self, number: usize) -> Option<(i64, i128)> {
        let end = self.log.rows().get((number + 1) * BLOCK)?.at;
        if let Some(Some(sum)) = self.track.blocks.get(number) {
            return Some((end, *sum));
        }
        let first = number * BLOCK;
        let mut walk = Walk {
            at: self.log.rows().get(first)?.at,
            end,
            sum: 0,
            goal: i128::MAX,
        };
        for place in first..first + BLOCK {
            self.stretch(&mut walk, Some(place));
        }
        let kept = &mut self.track.blocks;
        if kept.len() <= number {
            kept.resize(number + 1, None);
        }
        kept[number] = Some(walk.sum);
        Some((end, walk.sum))
    }

    fn walk(&mut self, mut walk: Walk) -> Walk {
        let mut place = self.log.place(walk.at);
        while !walk.done() {
            if let Some(row) = place
                && row % BLOCK == 0
                && self
                    .log
                    .rows()
                    .get(row)
                    .is_some_and(|row| row.at == walk.at)
                && let Some((until, sum)) = self.block(row / BLOCK)
                && walk.leap(until, sum)
            {
                place = Some(row + BLOCK);
                continue;
            }
            self.stretch(&mut walk, place);
            place = Some(place.map_or(0, |place| place + 1));
        }
        walk
    }
}

impl AirLog {
    /// What passes from one second to another, in billionths of a second; 0 if they run backwards.
    pub(super) fn sum(&self, counts: Counts, told: &[Told], from: i64, to: i64) -> i128 {
        let walk = Walk {
            at: from,
            end: to,
            sum: 0,
            goal: i128::MAX,
        };
        self.ask(counts, told, walk).sum
    }

    /// The first second at which `goal` billionths of a second have passed since `from`; none if
    /// that is not before `end`.
    pub(super) fn reach(
        &self,
        counts: Counts,
        told: &[Told],
        from: i64,
        goal: i128,
        end: i64,
    ) -> Option<i64> {
        let walk = Walk {
            at: from,
            end,
            sum: 0,
            goal,
        };
        let walk = self.ask(counts, told, walk);
        (walk.sum >= goal).then_some(walk.at)
    }

    fn ask(&self, counts: Counts, told: &[Told], walk: Walk) -> Walk {
        self.with_sums(|sums| {
            // Taken out while the question runs, so that it is looked up once.
            let track = sums.tracks.remove(&counts).unwrap_or_default();
            let mut asked = Asked {
                log: self,
                counts,
                told,
                sums,
                track,
            };
            let walk = asked.walk(walk);
            let Asked { sums, track, .. } = asked;
            sums.tracks.insert(counts, track);
            walk
        })
    }
}
