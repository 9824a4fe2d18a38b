//! What the hours log teaches of step times: the seam between logged hours and the ranges.

use super::step_times::{Range, Step, StepTime, StepTimes};
use crate::units::Area;

/// One step that was timed: what, over which area, how many minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timed {
    /// The kind of step.
    pub step: Step,
    /// The area it went over.
    pub area: Area,
    /// Minutes of work.
    pub minutes: f64,
}

/// How many timed steps weigh as much as the range they start from (a judgement).
const HELD: f64 = 4.0;

impl StepTimes {
    /// The times as these records move them: each kind's range is multiplied with the mean ratio of
    /// timed to likely minutes (in logarithms, the starting range counting as `HELD` records at
    /// one), and drawn together as records come in, never narrower than the records scatter. Records
    /// of nothing, or of more than ten times the range, are passed over as slips.
    #[must_use]
    pub fn learned(&self, records: &[Timed]) -> Self {
        let mut out = self.clone();
        for step in Step::ALL {
            let time = self.of(step);
            let logs: Vec<f64> = records
                .iter()
                .filter(|record| record.step == step)
                .map(|record| record.minutes / time.over(record.area).likely)
                .filter(|ratio| (0.1..=10.0).contains(ratio))
                .map(f64::ln)
                .collect();
            if logs.is_empty() {
                continue;
            }
            let count = logs.len() as f64;
            let mean = logs.iter().sum::<f64>() / (count + HELD);
            let scatter = (logs.iter().map(|log| (log - mean).powi(2)).sum::<f64>() / count).sqrt();
            let weight = (HELD / (count + HELD)).sqrt();
            let moved = StepTime {
                fixed: moved(time.fixed, mean, weight, scatter),
                rate: moved(time.rate, mean, weight, scatter),
            };
            // What cannot stand (a range run off its limits) leaves the figure as it was.
            let _ = out.set(step, moved);
        }
        out
    }
}

/// A range moved by `mean` and drawn together by `weight`, each side at least 1.28 times the
/// scatter away (the 10 and 90 per cent points of a normal).
fn moved(range: Range, mean: f64, weight: f64, scatter: f64) -> Range {
    let [low, likely, high] = range.minutes();
    if likely <= 0.0 {
        return range;
    }
    let middle = likely * mean.exp();
    let side = |ratio: f64| (ratio.max(1e-6).ln().abs() * weight).max(1.28 * scatter);
    Range::of_minutes(
        middle * (-side(low / likely)).exp(),
        middle,
        middle * side(high / likely).exp(),
    )
}
