//! Whether a piece is dry and steady enough for the next thing, by a rule that is stated.

use chrono::{DateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

use super::content::MoistureContent;
use super::reading::{Doubt, Reading};
use super::rule::{ReadyFor, ReadyRule};
use super::season::SeasonBand;

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Yes.
    Ready,
    /// Yes, minding what is said.
    WithCare,
    /// No.
    NotYet,
}

/// One thing that speaks for or against.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// Nothing was ever read.
    NoReadings,
    /// The last reading is too old.
    Stale {
        /// Days since.
        days: i64,
    },
    /// The readings at a place do not yet lie far enough apart.
    TooSoon {
        /// Where.
        place: String,
        /// From when on one more reading there can tell.
        due: DateTime<Utc>,
    },
    /// A place still dries or takes on water.
    Moving {
        /// Where.
        place: String,
        /// The earlier reading.
        from: MoistureContent,
        /// The later reading.
        to: MoistureContent,
        /// Days between them.
        days: i64,
    },
    /// A place was read longer ago than the others; it is not too wet, as far as was read.
    LeftBehind {
        /// Where.
        place: String,
        /// What was read last.
        content: MoistureContent,
        /// Days since.
        days: i64,
    },
    /// A place was too wet when it was last read, longer ago than the others.
    LeftWet {
        /// Where.
        place: String,
        /// What was read last.
        content: MoistureContent,
        /// The limit.
        limit: MoistureContent,
        /// Days since.
        days: i64,
    },
    /// A place is steady.
    Steady {
        /// Where.
        place: String,
        /// The earlier reading.
        from: MoistureContent,
        /// The later reading.
        to: MoistureContent,
        /// Days between them.
        days: i64,
    },
    /// Too wet to go on.
    TooWet {
        /// Where.
        place: String,
        /// How wet.
        content: MoistureContent,
        /// The limit.
        limit: MoistureContent,
    },
    /// Wet enough to mind.
    Damp {
        /// Where.
        place: String,
        /// How wet.
        content: MoistureContent,
        /// The limit.
        limit: MoistureContent,
    },
    /// A reading that may be off.
    Unsure {
        /// Where.
        place: String,
        /// What was read.
        content: MoistureContent,
        /// Why it may be off.
        doubt: Doubt,
    },
    /// Outside what the client's rooms will make of it.
    OutsideBand {
        /// Where.
        place: String,
        /// How wet.
        content: MoistureContent,
        /// The band.
        band: SeasonBand,
    },
    /// Nothing is known of the client's rooms.
    NoBand,
}

impl Reason {
    /// What it makes of the answer.
    pub fn verdict(&self) -> Verdict {
        match self {
            Self::Steady { .. } => Verdict::Ready,
            Self::Damp { .. }
            | Self::Unsure { .. }
            | Self::LeftBehind { .. }
            | Self::OutsideBand { .. }
            | Self::NoBand => Verdict::WithCare,
            Self::NoReadings
            | Self::Stale { .. }
            | Self::TooSoon { .. }
            | Self::Moving { .. }
            | Self::TooWet { .. }
            | Self::LeftWet { .. } => Verdict::NotYet,
        }
    }

    /// One sentence; a due date is left to the caller, who knows the shop's zone.
    pub fn words(&self) -> String {
        match self {
            Self::NoReadings => "No moisture reading yet.".to_owned(),
            Self::Stale { days } => {
                format!("The last reading is {} old; read again.", days_words(*days))
            }
            Self::TooSoon { place, .. } => format!(
                "{place}: the readings do not lie far enough apart yet; read there again when due."
            ),
            Self::Moving {
                place,
                from,
                to,
                days,
            } => format!(
                "{place}: still moving, {} to {} in {}.",
                from.show(),
                to.show(),
                days_words(*days)
            ),
            Self::LeftBehind {
                place,
                content,
                days,
            } => format!(
                "{place}: last read {}, {} ago; read there again to be sure.",
                content.show(),
                days_words(*days)
            ),
            Self::LeftWet {
                place,
                content,
                limit,
                days,
            } => format!(
                "{place}: last read {}, {} ago, over the limit of {}; read there again.",
                content.show(),
                days_words(*days),
                limit.show()
            ),
            Self::Steady {
                place,
                from,
                to,
                days,
            } => format!(
                "{place}: steady, {} to {} in {}.",
                from.show(),
                to.show(),
                days_words(*days)
            ),
            Self::TooWet {
                place,
                content,
                limit,
            } => format!(
                "{place}: {} is over the limit of {}.",
                content.show(),
                limit.show()
            ),
            Self::Damp {
                place,
                content,
                limit,
            } => format!(
                "{place}: {} is over {}; it will shrink on.",
                content.show(),
                limit.show()
            ),
            Self::Unsure {
                place,
                content,
                doubt,
            } => format!("{place}: {} {}.", content.show(), doubt.words()),
            Self::OutsideBand {
                place,
                content,
                band,
            } => format!(
                "{place}: {} lies outside the {} of the client's year; wood should go in at what \
                 it will have in service (Wood Handbook p. 13-3).",
                content.show(),
                band.show()
            ),
            Self::NoBand => "The client's winter and summer air is not known.".to_owned(),
        }
    }
}

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

/// `1 day`, `7 days`.
fn days_words(days: i64) -> String {
    match days {
        1 => "1 day".to_owned(),
        days => format!("{days} days"),
    }
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
