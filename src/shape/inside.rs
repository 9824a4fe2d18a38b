//! The inside corners of an outline: where a router, going round, must turn into the wood.

use super::outline::Outline;
use super::ring::Run;
use super::stroke::{Point, Stroke};
use crate::units::Length;

/// Sine of a turn too small to be a corner.
const STRAIGHT: f64 = 1e-6;

impl Outline {
    /// The tightest radius at an inside corner (of an L, a U, a notch, a round back into the wood):
    /// zero for a sharp one, none where the outline turns in nowhere. What a live edge does from
    /// station to station is no corner: it is not cut to a template.
    pub fn tightest_inside(&self) -> Option<Length> {
        let ring = self.ring().ok()?;
        let rounds = ring.runs.iter().filter_map(|run| match run.stroke {
            Stroke::Arc { radius, sweep, .. } if sweep < 0.0 => {
                Some(Length::from_metres_rounded(radius))
            }
            _ => None,
        });
        let next = ring.runs.iter().cycle().skip(1);
        let sharp = ring.runs.iter().zip(next).filter_map(|(run, next)| {
            let (before, after) = (straight(run)?, straight(next)?);
            let turn = before.x * after.y - before.y * after.x;
            (turn < -STRAIGHT).then_some(Length::ZERO)
        });
        rounds.chain(sharp).min()
    }
}

/// The direction of a straight run.
fn straight(run: &Run) -> Option<Point> {
    let Stroke::Line { from, to } = run.stroke else {
        return None;
    };
    let (x, y) = (to.x - from.x, to.y - from.y);
    let long = x.hypot(y);
    (long > 0.0).then(|| Point {
        x: x / long,
        y: y / long,
    })
}
