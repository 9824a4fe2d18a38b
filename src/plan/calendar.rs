//! Bench hours: where a step fits, and when it ends.

use super::instance::{Instance, Window};

/// Later than anything.
pub(super) const NEVER: i64 = i64::MAX / 8;

/// The bench windows, with a table to find the one that holds a minute. After the last comes one
/// without an end, so that everything has a place; what lies there is beyond the calendar.
#[derive(Debug, Clone)]
pub(super) struct Calendar {
    opens: Vec<i64>,
    closes: Vec<i64>,
    /// Index of the first window that closes after the start of each stretch of `1 << shift`.
    table: Vec<u32>,
    first: i64,
    shift: u32,
    grid: i64,
    on_grid: bool,
    min_chunk: i64,
    end: i64,
}

impl Calendar {
    pub(super) fn new(instance: &Instance, on_grid: bool) -> Self {
        let mut opens: Vec<i64> = Vec::with_capacity(instance.calendar.len() + 1);
        let mut closes: Vec<i64> = Vec::with_capacity(instance.calendar.len() + 1);
        for window in &instance.calendar {
            opens.push(window.open.0);
            closes.push(window.close.0);
        }
        let end = closes.last().copied().unwrap_or(instance.now.0);
        let grid = instance.grid.0;
        let beyond = end.max(instance.horizon.0).max(instance.now.0) + grid;
        opens.push(beyond + (-beyond).rem_euclid(grid));
        closes.push(NEVER);
        let first = opens.first().copied().unwrap_or(0).min(instance.now.0);
        let mut shift = 4;
        while ((beyond - first) >> shift) > 16_384 {
            shift += 1;
        }
        let count = usize::try_from((beyond - first) >> shift).unwrap_or(0) + 2;
        let mut table = Vec::with_capacity(count);
        let mut window = 0u32;
        let mut at = first;
        for _ in 0..count {
            while closes[window as usize] <= at {
                window += 1;
            }
            table.push(window);
            at += 1 << shift;
        }
        Self {
            opens,
            closes,
            table,
            first,
            shift,
            grid,
            on_grid,
            min_chunk: instance.min_chunk.0,
            end,
        }
    }

    /// The first minute no longer in the calendar.
    pub(super) fn end(&self) -> i64 {
        self.end
    }

    /// Index of the first window that closes after `at`.
    #[inline]
    fn window(&self, at: i64) -> usize {
        let slot = usize::try_from((at - self.first).max(0) >> self.shift).unwrap_or(usize::MAX);
        let slot = slot.min(self.table.len() - 1);
        let mut window = self.table[slot] as usize;
        while self.closes[window] <= at {
            window += 1;
        }
        window
    }

    /// The next minute on the grid.
    #[inline]
    pub(super) fn snap(&self, at: i64) -> i64 {
        if self.on_grid {
            at
        } else {
            at + (-at).rem_euclid(self.grid)
        }
    }

    /// The earliest start from `at` on, and the end, of `work` minutes without a break.
    #[inline]
    pub(super) fn fit(&self, at: i64, work: i64) -> (i64, i64) {
        let mut window = self.window(at);
        loop {
            let start = self.snap(at.max(self.opens[window]));
            if start + work <= self.closes[window] {
                return (start, start + work);
            }
            window += 1;
        }
    }

    /// The earliest start from `at` on, and the end, of `work` minutes that may be left at a break
    /// and gone on with after it, with no part shorter than the shortest one allowed.
    #[inline]
    pub(super) fn fit_split(&self, at: i64, work: i64) -> (i64, i64) {
        let mut window = self.window(at);
        let mut start = self.snap(at.max(self.opens[window]));
        loop {
            let room = self.closes[window] - start;
            if room > 0 {
                if work <= room {
                    return (start, start + work);
                }
                match self.run(window, work - room) {
                    _ if room < self.min_chunk => {}
                    Run::Ends(end) => return (start, end),
                    Run::Short(by) if room - by >= self.min_chunk => {
                        start = self.snap(start + by);
                        continue;
                    }
                    Run::Short(_) | Run::Never => {}
                }
            }
            window += 1;
            start = self.snap(self.opens[window]);
        }
    }

    /// How `left` minutes end that go on after the close of `window`.
    fn run(&self, mut window: usize, mut left: i64) -> Run {
        loop {
            window += 1;
            let length = self.closes[window] - self.opens[window];
            if left <= length {
                return if left < self.min_chunk {
                    Run::Short(self.min_chunk - left)
                } else {
                    Run::Ends(self.opens[window] + left)
                };
            }
            if length < self.min_chunk {
                return Run::Never;
            }
            left -= length;
        }
    }

    /// The parts of `work` minutes that start at `start`, which lies in a window.
    pub(super) fn parts(&self, start: i64, work: i64) -> Vec<Window> {
        let (mut at, mut left) = (start, work);
        let mut window = self.window(start);
        let mut parts = Vec::new();
        while left > 0 {
            let from = at.max(self.opens[window]);
            let part = left.min(self.closes[window] - from);
            if part > 0 {
                parts.push(Window::from((from, from + part)));
            }
            left -= part;
            at = from + part;
            window += 1;
        }
        parts
    }

    /// The latest start of `work` minutes that end by `by`. Before the first window time is taken
    /// to be open, so that there always is one.
    pub(super) fn fit_before(&self, by: i64, work: i64, split: bool) -> i64 {
        let (mut by, mut left) = (by, work);
        let mut window = self.opens.len();
        while window > 0 {
            window -= 1;
            let (open, close) = (self.opens[window], self.closes[window].min(by));
            if close <= open {
                continue;
            }
            if close - open >= left {
                return close - left;
            }
            if split {
                left -= close - open;
            }
            by = open;
        }
        by.min(self.first) - left
    }

    /// When `work` minutes of bench time from `at` on are over, however they are cut.
    pub(super) fn through(&self, at: i64, work: i64) -> i64 {
        let mut left = work;
        let mut window = self.window(at);
        loop {
            let from = at.max(self.opens[window]);
            if left <= self.closes[window] - from {
                return from + left;
            }
            left -= self.closes[window] - from;
            window += 1;
        }
    }

    /// When the window opens that `at` lies in.
    pub(super) fn opening(&self, at: i64) -> i64 {
        self.snap(self.opens[self.window(at)])
    }
}

enum Run {
    Ends(i64),
    /// The last part is too short by so many minutes.
    Short(i64),
    Never,
}
