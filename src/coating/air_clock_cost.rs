//! Which stretch of the time gone by cost a film most: the reason that is no longer in the air.

use super::air_clock::ShopAirClock;
use super::model::DryingLaw;
use super::product::Product;
use crate::units::moment::show_moment;
use crate::units::{Humidity, Temperature, TemperatureStyle};
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;

/// How far back is looked, in days: what an older stretch cost is made up for by then.
const LOOKS_BACK: i64 = 14;
/// Label-hours from which on a stretch is worth a word. Judgement.
const WORTH: f64 = 1.0;
/// Speeds from here on up are not slow.
const BRISK: f64 = 0.9;

/// What held a film back during a stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Colder than the label allows: nothing counted.
    TooCold(Temperature),
    /// Damper than the label allows: nothing counted.
    TooDamp(Humidity),
    /// Cold air, at the coldest this.
    Cold(Temperature),
    /// Damp air, at the dampest this.
    Damp(Humidity),
}

/// A stretch of slow drying that is over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cost {
    /// From.
    pub from: DateTime<Utc>,
    /// Until.
    pub until: DateTime<Utc>,
    /// Label-hours that the label's air would have given and this did not.
    pub lost: f64,
    /// What held it back.
    pub held: Held,
}

/// Like air, put together as it is walked.
#[derive(Debug, Clone, Copy)]
struct Run {
    kind: Kind,
    from: DateTime<Utc>,
    until: DateTime<Utc>,
    lost: f64,
    coldest: Temperature,
    dampest: Humidity,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Brisk,
    Slow,
    TooCold,
    TooDamp,
}

fn kind(law: &DryingLaw, temperature: Temperature, humidity: Humidity) -> Kind {
    if temperature < law.min_temp {
        Kind::TooCold
    } else if humidity > law.max_humidity {
        Kind::TooDamp
    } else if law.speed(temperature, humidity) < BRISK {
        Kind::Slow
    } else {
        Kind::Brisk
    }
}

impl ShopAirClock {
    /// The stretch since `laid` that cost a film of this product most, if it cost an hour or more
    /// and is over at `now` (what holds the film back now is told by [`ShopAirClock::speed`]).
    /// By the law alone, without what touch tests taught; at most the last fourteen days.
    pub fn costliest(
        &self,
        product: &Product,
        laid: DateTime<Utc>,
        now: DateTime<Utc>,
    ) -> Option<Cost> {
        let law = self.law(product);
        let from = now
            .checked_sub_signed(Duration::days(LOOKS_BACK))
            .map_or(laid, |back| back.max(laid));
        let mut runs: Vec<Run> = Vec::new();
        for (start, end) in self.steps(from, now) {
            let (Some(air), _) = self.air_at(start) else {
                continue;
            };
            let kind = kind(&law, air.temperature, air.humidity);
            let speed = law.speed(air.temperature, air.humidity);
            #[allow(
                clippy::cast_precision_loss,
                reason = "seconds of two weeks are exact in a double"
            )]
            let lost = (end - start).num_seconds() as f64 / 3600.0 * (1.0 - speed).max(0.0);
            match runs.last_mut() {
                Some(run) if run.kind == kind && run.until == start => {
                    run.until = end;
                    run.lost += lost;
                    run.coldest = run.coldest.min(air.temperature);
                    run.dampest = run.dampest.max(air.humidity);
                }
                _ => runs.push(Run {
                    kind,
                    from: start,
                    until: end,
                    lost,
                    coldest: air.temperature,
                    dampest: air.humidity,
                }),
            }
        }
        let most = runs
            .into_iter()
            .filter(|run| run.kind != Kind::Brisk)
            .max_by(|one, other| one.lost.total_cmp(&other.lost))?;
        if most.lost < WORTH || most.until >= now {
            return None;
        }
        let held = match most.kind {
            Kind::TooCold => Held::TooCold(law.min_temp),
            Kind::TooDamp => Held::TooDamp(law.max_humidity),
            _ if law.temperature_factor(most.coldest) <= law.curve.factor(most.dampest) => {
                Held::Cold(most.coldest)
            }
            _ => Held::Damp(most.dampest),
        };
        Some(Cost {
            from: most.from,
            until: most.until,
            lost: most.lost,
            held,
        })
    }

    /// The time from one moment to another in steps of one air: cut at every reading, and at least
    /// every hour, as the usual air and a forecast are.
    fn steps(
        &self,
        from: DateTime<Utc>,
        to: DateTime<Utc>,
    ) -> impl Iterator<Item = (DateTime<Utc>, DateTime<Utc>)> {
        let mut cuts: Vec<DateTime<Utc>> = vec![from];
        cuts.extend(self.log().between(from, to).map(|reading| reading.at));
        let hours = (to - from).num_hours().max(0);
        cuts.extend((1..=hours).filter_map(|hour| from.checked_add_signed(Duration::hours(hour))));
        cuts.push(to);
        cuts.retain(|at| from <= *at && *at <= to);
        cuts.sort_unstable();
        cuts.dedup();
        let ends: Vec<DateTime<Utc>> = cuts.iter().skip(1).copied().collect();
        cuts.into_iter().zip(ends)
    }
}

impl Cost {
    /// `no drying Tue 6:00 pm to 7:00 am: under the label's 60.8 F`, `slowest Tue 6:00 pm to
    /// 7:00 am: down to 52 F`.
    pub fn words(&self, now: DateTime<Utc>, zone: Tz, style: TemperatureStyle) -> String {
        let when = |at| show_moment(at, now, zone);
        let span = format!("{} to {}", when(self.from), when(self.until));
        match self.held {
            Held::TooCold(least) => {
                format!("no drying {span}: under the label's {}", least.show(style))
            }
            Held::TooDamp(most) => {
                format!(
                    "no drying {span}: over the label's {} humidity",
                    most.show()
                )
            }
            Held::Cold(least) => format!("slowest {span}: down to {}", least.show(style)),
            Held::Damp(most) => format!("slowest {span}: up to {} humidity", most.show()),
        }
    }
}
