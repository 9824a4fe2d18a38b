//! Areas from widths at stations along a line.

use super::forms::LiveSlab;
use crate::units::Area;

/// Cubic metres in a board foot: 144 cubic inches of 25.4 mm, exactly.
pub const BOARD_FOOT_M3: f64 = 144.0 * 0.0254 * 0.0254 * 0.0254;

/// The area by straight lines from station to station: each interval times the mean of its two
/// widths. `stations` are places along the line with the width there, in order.
pub fn trapezoid(stations: &[(f64, f64)]) -> f64 {
    stations
        .windows(2)
        .map(|pair| (pair[1].0 - pair[0].0) * f64::midpoint(pair[0].1, pair[1].1))
        .sum()
}

/// The area by the rule of average ordinates: the mean of all widths times the whole length.
pub fn average_ordinate(stations: &[(f64, f64)]) -> f64 {
    let (Some(first), Some(last)) = (stations.first(), stations.last()) else {
        return 0.0;
    };
    let sum: f64 = stations.iter().map(|(_, width)| width).sum();
    (last.0 - first.0) * sum / stations.len() as f64
}

/// The area by Simpson's rule: a parabola through each three stations in turn. Where the number of
/// intervals is odd, the last is a trapezoid. For equal spacing this is `h / 3 (first + last + 4
/// odd + 2 even)`; for unequal spacing the same parabolas, integrated over their two intervals; where
/// one of the two is more than twice the other, a parabola is no guide and both are trapezoids.
pub fn simpson(stations: &[(f64, f64)]) -> f64 {
    simpson_by(stations).0
}

/// The same, with how many intervals it took as straight.
fn simpson_by(stations: &[(f64, f64)]) -> (f64, usize) {
    let (mut sum, mut straight) = (0.0, 0);
    let mut rest = stations;
    while let [(x0, w0), (x1, w1), (x2, w2), ..] = rest {
        let (a, b) = (x1 - x0, x2 - x1);
        let whole = a + b;
        sum += if a > 2.0 * b || b > 2.0 * a {
            straight += 2;
            trapezoid(&rest[..3])
        } else {
            whole / 6.0 * ((2.0 - b / a) * w0 + whole * whole / (a * b) * w1 + (2.0 - a / b) * w2)
        };
        rest = &rest[2..];
    }
    straight += rest.len().saturating_sub(1);
    (sum + trapezoid(rest), straight)
}

impl LiveSlab {
    /// Places and widths in metres.
    pub fn widths(&self) -> Vec<(f64, f64)> {
        self.stations
            .iter()
            .map(|station| (station.at.metres(), station.width.metres()))
            .collect()
    }

    /// The area by Simpson's rule with a trapezoid for an odd last interval: see [`simpson`].
    pub fn simpson(&self) -> Area {
        Area::from_m2(simpson(&self.widths()))
    }

    /// How many of its intervals [`LiveSlab::simpson`] takes as straight, and how many there are.
    pub fn straight_intervals(&self) -> (usize, usize) {
        let all = self.stations.len().saturating_sub(1);
        (simpson_by(&self.widths()).1, all)
    }

    /// How [`LiveSlab::simpson`] came about, in words: `by Simpson's rule`; none where it took every
    /// interval as straight, so that it is the drawn area.
    pub fn simpson_words(&self) -> Option<String> {
        match self.straight_intervals() {
            (0, _) => Some("by Simpson's rule".to_owned()),
            (straight, all) if straight < all => Some(format!(
                "by Simpson's rule, {straight} of {all} intervals straight"
            )),
            _ => None,
        }
    }

    /// The area by straight lines from station to station, which is that of the drawn outline.
    pub fn trapezoid(&self) -> Area {
        Area::from_m2(trapezoid(&self.widths()))
    }
}
