//! How fast a film dries at a moment, and why it is slow, as data and in words.

use super::air_clock::{ShopAirClock, Twin};
use super::air_log_kinds::{AirBasis, AirReading, ShopAir};
use super::product::Product;
use crate::units::moment::show_moment;
use crate::units::{Humidity, Temperature, TemperatureStyle};
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// Speeds from here on up are not worth a word.
const BRISK: f64 = 0.9;
/// Readings this close in temperature belong to one spell, thousandths of a degree Celsius.
const SAME_TEMPERATURE: i32 = 1_500;
/// Readings this close in humidity belong to one spell, tenths of a per cent.
const SAME_HUMIDITY: i32 = 50;

/// What holds a film back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Slows {
    /// Nothing to speak of.
    Nothing,
    /// The air is colder than the label's.
    Cold,
    /// The air is damp.
    Damp,
    /// Both.
    ColdAndDamp,
    /// Colder than the label allows: the hours do not count.
    TooCold(Temperature),
    /// Damper than the label allows: the hours do not count.
    TooDamp(Humidity),
    /// The air is well enough, but touch tests have shown this product slow in this shop.
    Shop,
}

/// The speed of a film at a moment, and its reason.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Speed {
    /// Against the label: 0.4 is 40 per cent. With this shop's factor; the safe clock's is never
    /// above the law's greatest speed.
    pub speed: f64,
    /// The air; none where the label's conditions are assumed.
    pub air: Option<ShopAir>,
    /// How the air is known.
    pub basis: AirBasis,
    /// What holds it back.
    pub slows: Slows,
    /// Since when readings have said about the same; none where no reading holds.
    pub since: Option<DateTime<Utc>>,
}

impl ShopAirClock {
    /// The air this clock reckons with at a moment: a forecast where one speaks, else the log.
    pub fn air_at(&self, at: DateTime<Utc>) -> (Option<ShopAir>, AirBasis) {
        let after_log = self.log().last().is_none_or(|last| at >= last.at);
        if after_log && let Some(step) = self.forecast().at(at) {
            return (Some(step.air), AirBasis::Forecast);
        }
        let air = self.log().air_at(at);
        (air.air, air.basis)
    }

    /// How fast a film of this product dries at a moment, and why.
    pub fn speed(&self, product: &Product, at: DateTime<Utc>) -> Speed {
        let (air, basis) = self.air_at(at);
        let law = self.law(product);
        let by_law = air.map_or(1.0, |air| law.speed(air.temperature, air.humidity));
        let factor = self.factor(product);
        let slows = match air {
            Some(air) if air.temperature < law.min_temp => Slows::TooCold(law.min_temp),
            Some(air) if air.humidity > law.max_humidity => Slows::TooDamp(law.max_humidity),
            Some(air) => {
                let cold = law.temperature_factor(air.temperature) < BRISK;
                let damp = law.curve.factor(air.humidity) < BRISK;
                match (cold, damp) {
                    (true, true) => Slows::ColdAndDamp,
                    (true, false) => Slows::Cold,
                    (false, true) => Slows::Damp,
                    (false, false) if by_law * factor < BRISK => Slows::Shop,
                    (false, false) => Slows::Nothing,
                }
            }
            None if factor < BRISK => Slows::Shop,
            None => Slows::Nothing,
        };
        let since = match basis {
            AirBasis::Read { at } => Some(self.spell(at)),
            _ => None,
        };
        Speed {
            speed: match self.twin() {
                Twin::Safe => (by_law * factor).min(f64::from(law.cap) / 1000.0),
                Twin::Likely => by_law * factor,
            },
            air,
            basis,
            slows,
            since,
        }
    }

    /// The first of the readings up to `last` that all say about what it says, without a gap of
    /// more than twelve hours; at most four weeks back.
    fn spell(&self, last: DateTime<Utc>) -> DateTime<Utc> {
        let back = last
            .checked_sub_signed(chrono::Duration::days(28))
            .unwrap_or(last);
        let mut readings = self.log().between(back, last).rev();
        let Some(now) = readings.next() else {
            return last;
        };
        let mut first = now;
        for reading in readings {
            let gap = (first.at - reading.at).num_seconds() > super::air_log::HOLDS;
            if gap || !alike(&reading, &now) {
                break;
            }
            first = reading;
        }
        first.at
    }
}

fn alike(one: &AirReading, other: &AirReading) -> bool {
    let (a, b) = (one.air, other.air);
    a.temperature.milli_c().abs_diff(b.temperature.milli_c()) <= SAME_TEMPERATURE.unsigned_abs()
        && a.humidity.tenths().abs_diff(b.humidity.tenths()) <= SAME_HUMIDITY.unsigned_abs()
}

impl Speed {
    /// Whether it is slow enough to be said.
    pub fn is_slow(&self) -> bool {
        self.slows != Slows::Nothing
    }

    /// In words: `58 F since 6:00 pm: about 40 % speed`. Empty where nothing holds it back and the
    /// air was read.
    pub fn words(&self, now: DateTime<Utc>, zone: Tz, style: TemperatureStyle) -> String {
        let Some(air) = self.air else {
            return match self.slows {
                Slows::Nothing => "no shop air logged: label hours".to_owned(),
                _ => format!("slow in this shop by touch tests: {}", self.percent()),
            };
        };
        let (warmth, damp) = (air.temperature.show(style), air.humidity.show());
        let what = match self.slows {
            Slows::Cold | Slows::TooCold(_) => warmth,
            Slows::Damp | Slows::TooDamp(_) => format!("{damp} humidity"),
            Slows::ColdAndDamp | Slows::Nothing | Slows::Shop => {
                format!("{warmth} and {damp} humidity")
            }
        };
        let known = match (self.basis, self.since) {
            (AirBasis::Read { .. }, Some(since)) => {
                format!("{what} since {}", show_moment(since, now, zone))
            }
            (AirBasis::Usual { last, .. }, _) => format!(
                "{what}, usual at this hour (no reading since {})",
                show_moment(last, now, zone)
            ),
            (AirBasis::Forecast, _) => format!("{what} forecast"),
            _ => format!("{what} assumed (no shop air logged)"),
        };
        match self.slows {
            Slows::Nothing if matches!(self.basis, AirBasis::Read { .. }) => String::new(),
            Slows::TooCold(least) => {
                format!(
                    "{known}, under the label's {}: does not dry",
                    least.show(style)
                )
            }
            Slows::TooDamp(most) => {
                format!("{known}, over the label's {}: does not dry", most.show())
            }
            Slows::Shop => format!(
                "{known}, slow in this shop by touch tests: {}",
                self.percent()
            ),
            _ => format!("{known}: {}", self.percent()),
        }
    }

    /// `about 40 % speed`, to the nearest 5, below 10 to the nearest 1.
    fn percent(&self) -> String {
        let percent = self.speed * 100.0;
        let step = if percent < 10.0 { 1.0 } else { 5.0 };
        format!("about {:.0} % speed", (percent / step).round() * step)
    }
}
