//! Readings of one place and the curve through them, drawn with letters.

use crate::shop::moving::PlaceCurve;
use crate::units::show_date;
use crate::wood::moisture::MoistureContent;
use chrono::{DateTime, TimeDelta, Utc};
use chrono_tz::Tz;

/// Rows of the drawing without its axis.
const ROWS: usize = 8;
/// Columns of the drawing without its scale.
const COLUMNS: usize = 56;
/// The farthest past the newest reading that the curve is drawn.
const AHEAD_DAYS: i64 = 45;

/// The drawing: `o` a reading, `.` the curve, `-` what the shop's air holds wood at. Nothing where
/// there is but one reading.
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "some fifty columns, and at most some years of seconds"
)]
pub fn plot(
    place: &PlaceCurve,
    toward: Option<MoistureContent>,
    now: DateTime<Utc>,
    zone: Tz,
) -> Vec<String> {
    let (Some(first), Some(last)) = (place.readings.first(), place.readings.last()) else {
        return Vec::new();
    };
    if place.readings.len() < 2 || last.at <= first.at {
        return Vec::new();
    }
    let curve = place.curve.as_ref().and_then(|curve| curve.as_ref().ok());
    let until = curve
        .and_then(|curve| curve.within(0.3))
        .unwrap_or(last.at)
        .min(last.at + TimeDelta::days(AHEAD_DAYS))
        .max(last.at);
    let shown: Vec<f64> = place
        .readings
        .iter()
        .map(|reading| reading.content().percent())
        .chain(toward.map(MoistureContent::percent))
        .collect();
    let low = shown.iter().copied().fold(f64::INFINITY, f64::min);
    let high = shown.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    // Never less than a point from top to bottom: a meter's noise is no slope.
    let middle = f64::midpoint(low, high);
    let half = ((high - low) / 2.0).max(0.5);
    let (low, high) = (middle - half, middle + half);
    let mut rows = vec![vec![' '; COLUMNS]; ROWS];
    let row_of = |percent: f64| cell((high - percent) / (high - low), ROWS);
    let span = (until - first.at).as_seconds_f64().max(1.0);
    let column_of = |at: DateTime<Utc>| cell((at - first.at).as_seconds_f64() / span, COLUMNS);
    if let Some(toward) = toward {
        rows[row_of(toward.percent())] = vec!['-'; COLUMNS];
    }
    if let Some(curve) = curve {
        let parts = (0..COLUMNS).map(|column| (column, column as f64 / (COLUMNS - 1) as f64));
        for (column, part) in parts {
            let at = first.at + TimeDelta::seconds((span * part).round() as i64);
            rows[row_of(curve.at(at).percent())][column] = '.';
        }
    }
    for reading in &place.readings {
        rows[row_of(reading.content().percent())][column_of(reading.at)] = 'o';
    }
    let mut out: Vec<String> = rows
        .into_iter()
        .enumerate()
        .map(|(at, row)| {
            let scale = match at {
                0 => format!("{high:5.1}%"),
                _ if at == ROWS - 1 => format!("{low:5.1}%"),
                _ => " ".repeat(6),
            };
            let line: String = row.into_iter().collect();
            format!("{scale} |{}", line.trim_end())
        })
        .collect();
    out.push(format!("{} +{}", " ".repeat(6), "-".repeat(COLUMNS)));
    let day = |at: DateTime<Utc>| {
        let today = now.with_timezone(&zone).date_naive();
        show_date(at.with_timezone(&zone).date_naive(), today)
    };
    let (from, to) = (day(first.at), day(until));
    let blanks = COLUMNS.saturating_sub(from.len() + to.len());
    out.push(format!("{}{from}{}{to}", " ".repeat(8), " ".repeat(blanks)));
    out
}

/// The cell of a part of the whole, both ends included.
fn cell(part: f64, cells: usize) -> usize {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "the part is brought to 0 to 1 first"
    )]
    let at = (part.clamp(0.0, 1.0) * (cells - 1) as f64).round() as usize;
    at.min(cells - 1)
}
