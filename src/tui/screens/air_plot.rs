//! The shop air of the last days as two small plots: temperature and humidity.

use super::super::kit::plot::{Axis, Curve, columns, dots, plot};
use super::super::kit::{draw, text};
use super::super::screen::Ctx;
use super::list::part;
use crate::coating::{AirBasis, ShopAir, ShopAirClock};
use crate::units::TemperatureStyle;
use chrono::{DateTime, Days, Duration, NaiveDate, TimeZone, Utc};
use chrono_tz::Tz;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// One dot's worth of air.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Sample {
    /// Hours after the plot's first midnight.
    hours: f64,
    air: ShopAir,
    /// Whether a reading holds there; else it is the usual air or a forecast.
    read: bool,
}

/// Which figure of the air.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Figure {
    /// Temperature, in this style.
    Temperature(TemperatureStyle),
    /// Relative humidity.
    Humidity,
}

impl Figure {
    fn of(self, air: ShopAir) -> f64 {
        match self {
            Self::Temperature(TemperatureStyle::Fahrenheit) => air.temperature.f(),
            Self::Temperature(TemperatureStyle::Celsius) => air.temperature.c(),
            Self::Humidity => air.humidity.percent(),
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Temperature(_) => "Temperature",
            Self::Humidity => "Humidity",
        }
    }

    fn unit(self) -> &'static str {
        match self {
            Self::Temperature(TemperatureStyle::Fahrenheit) => "F",
            Self::Temperature(TemperatureStyle::Celsius) => "C",
            Self::Humidity => "%",
        }
    }

    /// The axis: whole steps around the figures, at least two steps long.
    fn axis(self, samples: &[Sample]) -> Axis {
        let step = match self {
            Self::Humidity => 10.0,
            Self::Temperature(_) => 5.0,
        };
        let figures = samples.iter().map(|sample| self.of(sample.air));
        let (low, high) = figures.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        });
        let (low, high) = if low <= high { (low, high) } else { (0.0, 0.0) };
        let from = (low / step).floor() * step;
        let to = ((high / step).ceil() * step).max(from + 2.0 * step);
        let mark = |at: f64| (at, format!("{at:.0} {}", self.unit()));
        Axis {
            from,
            to,
            marks: vec![mark(to), mark(from)],
        }
    }
}

/// Midnight at which a day begins in the shop; where the zone leaves it out, the first moment that
/// is there.
fn midnight(day: NaiveDate, zone: Tz) -> DateTime<Utc> {
    let naive = day.and_time(chrono::NaiveTime::MIN);
    let mut at = naive;
    for _ in 0..8 {
        if let Some(found) = zone.from_local_datetime(&at).earliest() {
            return found.with_timezone(&Utc);
        }
        at += Duration::minutes(30);
    }
    naive.and_utc()
}

/// The days shown: the first midnight, and for each day its name and its hours after the first.
struct Span {
    from: DateTime<Utc>,
    to: DateTime<Utc>,
    days: Vec<(f64, String)>,
}

fn hours(from: DateTime<Utc>, to: DateTime<Utc>) -> f64 {
    (to - from).num_seconds() as f64 / 3600.0
}

fn span(days: u64, ctx: &Ctx<'_>) -> Span {
    let zone = ctx.zone();
    let today = ctx.now.with_timezone(&zone).date_naive();
    let first = today
        .checked_sub_days(Days::new(days.saturating_sub(1)))
        .unwrap_or(today);
    let from = midnight(first, zone);
    let end = today.succ_opt().unwrap_or(today);
    let names = first.iter_days().take_while(|day| *day < end);
    Span {
        from,
        to: midnight(end, zone),
        days: names
            .map(|day| {
                let words = day.format("%a %-d").to_string();
                (hours(from, midnight(day, zone)), words)
            })
            .collect(),
    }
}

/// The air at `count` moments spread over the days. Before the first reading there is none.
fn samples(clock: &ShopAirClock, span: &Span, count: usize) -> Vec<Sample> {
    let first = clock.log().first().map(|reading| reading.at);
    let seconds = (span.to - span.from).num_seconds();
    let count = i64::try_from(count.max(2)).unwrap_or(i64::MAX);
    (0..count)
        .filter_map(|n| {
            let at = span.from + Duration::seconds(seconds.saturating_mul(n) / (count - 1));
            let (air, basis) = clock.air_at(at);
            let known = first.is_some_and(|first| at >= first) || basis == AirBasis::Forecast;
            air.filter(|_| known).map(|air| Sample {
                hours: hours(span.from, at),
                air,
                read: matches!(basis, AirBasis::Read { .. }),
            })
        })
        .collect()
}

/// Of dots that are not readings, one in so many is drawn: the shape says it too, not the shade
/// alone.
const SPARSE: usize = 4;

/// Draws one figure of the last `days` days, today to its end: close dots where a reading holds,
/// sparse ones where it is the usual air or a forecast.
pub(super) fn draw(buf: &mut Buffer, area: Rect, figure: Figure, days: u64, ctx: &Ctx<'_>) {
    let span = span(days, ctx);
    let probe = samples(ctx.clock, &span, 200);
    let y = figure.axis(&probe);
    let wide = columns(area, &y);
    let samples = samples(ctx.clock, &span, wide * dots(ctx.theme).0);
    let x = Axis {
        from: 0.0,
        to: hours(span.from, span.to),
        marks: span.days,
    };
    let point = |sample: &Sample| (sample.hours, figure.of(sample.air));
    let read = samples.iter().filter(|sample| sample.read).map(point);
    let other = samples.iter().enumerate();
    let other = other.filter(|(n, sample)| !sample.read && n % SPARSE == 0);
    let curves = [
        Curve {
            points: other.map(|(_, sample)| point(sample)).collect(),
            style: ctx.theme.dim,
        },
        Curve {
            points: read.collect(),
            style: ctx.theme.accent,
        },
    ];
    let head = text::fit(figure.name(), usize::from(area.width));
    draw::put(buf, area, 0, 0, head.trim_end(), ctx.theme.title);
    let field = part(area, 1, usize::from(area.height));
    plot(buf, field, &x, &y, &curves, ctx.theme);
}

/// What the dots mean, for below the plots.
pub(super) const LEGEND: &str =
    "Close dots: read. Sparse dots: the usual air of the hour, or the forecast.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_without_midnight_begins_at_its_first_moment() {
        // Sao Paulo sprang forward at midnight of 4 November 2018: that day began at one.
        let zone = chrono_tz::America::Sao_Paulo;
        let day = NaiveDate::from_ymd_opt(2018, 11, 4).unwrap();
        let found = midnight(day, zone).with_timezone(&zone);
        assert_eq!(found.format("%d %H:%M").to_string(), "04 01:00");
    }
}
