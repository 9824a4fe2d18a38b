//! Whether a piece is dry and steady enough for the next thing, by a rule that is stated.

use chrono::{DateTime, TimeDelta, Utc};

use super::content::MoistureContent;
use super::reading::Reading;
use super::reason::{Reason, Verdict};
use super::rule::{ReadyFor, ReadyRule};
use super::season::SeasonBand;

/// The answer with all its reasons.
#[derive(Debug, Clone, PartialEq)]
pub struct Readiness {
    /// For what.
    pub goal: ReadyFor,
    /// The answer: the worst that any reason makes of it.
    pub verdict: Verdict,
    /// Every reason, in the order of the places.
    pub reasons: Vec<Reason>,
    /// The wettest of the latest readings.
    pub wettest: Option<MoistureContent>,
}

/// Days of a span, to the nearest.
pub(crate) fn whole_days(span: TimeDelta) -> i64 {
    // To the nearest day: Monday at nine to Monday at eight is a week.
    (span.num_hours() + 12).div_euclid(24)
}

fn key(reading: &Reading) -> (String, super::reading::Meter) {
    (reading.place.trim().to_lowercase(), reading.meter)
}

/// Judges the readings of one piece at `now`. Every place counts by its last reading, each with each
/// meter by itself; one that was last read more than `days_apart` days before the newest reading is
/// not judged steady or moving, but stands in the way while it was too wet, and is minded otherwise,
/// until it is read again (with any meter). Readings after `now` are left out. Setting also asks for
/// the client's band.
pub fn judge(
    goal: ReadyFor,
    readings: &[Reading],
    rule: &ReadyRule,
    band: Option<&SeasonBand>,
    now: DateTime<Utc>,
) -> Readiness {
    let mut known: Vec<&Reading> = readings.iter().filter(|r| r.at <= now).collect();
    known.sort_by_key(|reading| reading.at);
    let Some(newest) = known.last().copied() else {
        return answer(goal, vec![Reason::NoReadings], None);
    };
    let mut reasons = Vec::new();
    let age = whole_days(now - newest.at);
    if age > i64::from(rule.fresh_days) {
        reasons.push(Reason::Stale { days: age });
    }
    let mut wettest: Option<&Reading> = None;
    let mut done = Vec::new();
    for latest in known.iter().rev().copied() {
        if done.contains(&key(latest)) {
            continue;
        }
        let behind = whole_days(newest.at - latest.at) > i64::from(rule.days_apart);
        let (place, _) = key(latest);
        if behind && done.iter().any(|(known, _)| *known == place) {
            // Read there since with another meter.
            continue;
        }
        done.push(key(latest));
        if wettest.is_none_or(|wet| wet.content() < latest.content()) {
            wettest = Some(latest);
        }
        if behind {
            reasons.push(left_behind(latest, rule, now));
            continue;
        }
        let here = known.iter().copied().filter(|r| key(r) == key(latest));
        reasons.push(steadiness(latest, here, rule));
        reasons.extend(wetness(latest, rule));
        reasons.extend(latest.doubt().map(|doubt| Reason::Unsure {
            place: latest.place.trim().to_owned(),
            content: latest.content(),
            doubt,
        }));
        if goal == ReadyFor::Setting {
            reasons.extend(
                band.filter(|b| !b.contents.contains(latest.content()))
                    .map(|band| Reason::OutsideBand {
                        place: latest.place.trim().to_owned(),
                        content: latest.content(),
                        band: *band,
                    }),
            );
        }
    }
    if goal == ReadyFor::Setting && band.is_none() {
        reasons.push(Reason::NoBand);
    }
    answer(goal, reasons, wettest.map(Reading::content))
}

fn answer(goal: ReadyFor, reasons: Vec<Reason>, wettest: Option<MoistureContent>) -> Readiness {
    let verdict = reasons.iter().map(Reason::verdict).max();
    Readiness {
        goal,
        verdict: verdict.unwrap_or(Verdict::NotYet),
        reasons,
        wettest,
    }
}

/// The latest reading against the last one far enough before it; `here` in order of time.
fn steadiness<'a>(
    latest: &Reading,
    here: impl Iterator<Item = &'a Reading>,
    rule: &ReadyRule,
) -> Reason {
    let place = latest.place.trim().to_owned();
    let apart = i64::from(rule.days_apart);
    let mut first = None;
    let mut earlier = None;
    for reading in here {
        first = first.or(Some(reading.at));
        if whole_days(latest.at - reading.at) >= apart {
            earlier = Some(reading);
        }
    }
    let Some(earlier) = earlier else {
        let first = first.unwrap_or(latest.at);
        let due = first.checked_add_signed(TimeDelta::days(apart));
        return Reason::TooSoon {
            place,
            due: due.unwrap_or(first),
        };
    };
    let (from, to) = (earlier.content(), latest.content());
    let days = whole_days(latest.at - earlier.at);
    // A thousandth of slack: 8.0 to 8.5 is within 0.5 whatever binary fractions make of it.
    if from.points_to(to).abs() <= rule.within + 0.0005 {
        Reason::Steady {
            place,
            from,
            to,
            days,
        }
    } else {
        Reason::Moving {
            place,
            from,
            to,
            days,
        }
    }
}

/// What a place makes of the answer that was read longer ago than the others.
fn left_behind(latest: &Reading, rule: &ReadyRule, now: DateTime<Utc>) -> Reason {
    let place = latest.place.trim().to_owned();
    let (content, days) = (latest.content(), whole_days(now - latest.at));
    if content > rule.stop_over {
        return Reason::LeftWet {
            place,
            content,
            limit: rule.stop_over,
            days,
        };
    }
    Reason::LeftBehind {
        place,
        content,
        days,
    }
}

fn wetness(latest: &Reading, rule: &ReadyRule) -> Option<Reason> {
    let place = latest.place.trim().to_owned();
    let content = latest.content();
    if content > rule.stop_over {
        return Some(Reason::TooWet {
            place,
            content,
            limit: rule.stop_over,
        });
    }
    (content > rule.care_over).then_some(Reason::Damp {
        place,
        content,
        limit: rule.care_over,
    })
}
