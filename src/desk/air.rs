//! Shop air: readings, a logger's file, the forecast, what is set about drying, and learning anew.

use super::air_doubts::likely;
use super::air_rows::{AirSource, AirSpan, DryingRules, LoggedAir};
use super::books::{BooksError, Key, Row, Scope};
use super::error::DeskError;
use super::perform::{Desk, Done};
use crate::coating::{
    AirReading, Assumed, Care, Forecast, ForecastError, ForecastStep, ProductId, ShopAir,
};
use crate::shop::{Air, Settings};
use crate::units::Temperature;
use crate::units::moment::show_moment;
use chrono::{DateTime, Duration, SubsecRound, Utc};

/// How long a foretold step is kept after it has passed, in days: as long as a coat that dried in
/// it may still be asked about.
const KEPT: i64 = 60;

impl Desk<'_> {
    /// Logs a reading. At a second that has one already it takes that one's place.
    pub(super) fn log_air(
        &mut self,
        at: DateTime<Utc>,
        air: ShopAir,
        sure: bool,
    ) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        let reading = self.checked(at, air, sure, &settings)?;
        let (at, shown) = (reading.at, show_air(air, &settings));
        let when = show_moment(at, self.now, settings.zone);
        let held = self.reading_at(at)?;
        if held.is_some_and(|held| held.reading.air == air) {
            return Ok(Done::said(format!(
                "Shop air {shown} at {when} is logged already"
            )));
        }
        let newest = self.books.air_newest(1)?.first().map(|row| row.reading.at);
        self.books.put(Row::Air(&LoggedAir {
            reading,
            source: AirSource::Typed,
        }))?;
        let words = match held {
            Some(held) => format!(
                "Corrected the shop air of {when} from {} to {shown}",
                show_air(held.reading.air, &settings)
            ),
            None if self.now - at < Duration::minutes(1) => format!("Logged shop air {shown}"),
            None => format!("Logged shop air {shown} at {when}"),
        };
        let notes = self.rests_on_it(at, newest, &settings);
        Ok(Done::said(words).with_notes(notes))
    }

    /// The air noted with a pass is a reading like any other; one that stands at that second
    /// stays.
    pub(super) fn note_air(&mut self, at: DateTime<Utc>, air: Air) -> Result<(), DeskError> {
        let at = at.trunc_subsecs(0);
        if at > self.now || self.reading_at(at)?.is_some() {
            return Ok(());
        }
        let air = ShopAir {
            temperature: air.temperature,
            humidity: air.humidity,
        };
        self.books.put(Row::Air(&LoggedAir {
            reading: AirReading { at, air },
            source: AirSource::Typed,
        }))?;
        Ok(())
    }

    /// Corrects the reading at `old`: its time, its air, or both.
    pub(super) fn correct_air(
        &mut self,
        old: DateTime<Utc>,
        at: DateTime<Utc>,
        air: ShopAir,
        sure: bool,
    ) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        let show = |at| show_moment(at, self.now, settings.zone);
        let held = self
            .reading_at(old)?
            .ok_or_else(|| DeskError::NoReading { at: show(old) })?;
        let reading = self.checked(at, air, sure, &settings)?;
        if reading.at != held.reading.at {
            if let Some(there) = self.reading_at(reading.at)? {
                return Err(DeskError::AirTaken {
                    at: show(reading.at),
                    air: show_air(there.reading.air, &settings),
                });
            }
            self.books.remove(Key::Air(held.reading.at))?;
        }
        let newest = self.books.air_newest(1)?.first().map(|row| row.reading.at);
        self.books.put(Row::Air(&LoggedAir {
            reading,
            source: AirSource::Typed,
        }))?;
        let words = format!(
            "Corrected the shop air of {} from {} to {}{}",
            show(held.reading.at),
            show_air(held.reading.air, &settings),
            show_air(air, &settings),
            if reading.at == held.reading.at {
                String::new()
            } else {
                format!(" at {}", show(reading.at))
            }
        );
        let notes = self.rests_on_it(reading.at.min(held.reading.at), newest, &settings);
        Ok(Done::said(words).with_notes(notes))
    }

    /// Takes a reading out of the log.
    pub(super) fn remove_air(&mut self, at: DateTime<Utc>) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        let when = show_moment(at, self.now, settings.zone);
        let held = self
            .reading_at(at)?
            .ok_or_else(|| DeskError::NoReading { at: when.clone() })?;
        self.books.remove(Key::Air(held.reading.at))?;
        let newest = self.books.air_newest(1)?.first().map(|row| row.reading.at);
        let shown = show_air(held.reading.air, &settings);
        let notes = self.rests_on_it(at, newest, &settings);
        Ok(Done::said(format!("Took out the shop air of {when}: {shown}")).with_notes(notes))
    }

    /// Types a forecast; where it covers what was foretold before, it takes that one's place.
    pub(super) fn foretell(&mut self, step: ForecastStep) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        let step = ForecastStep {
            from: step.from.trunc_subsecs(0),
            until: step.until.trunc_subsecs(0),
            ..step
        };
        if step.until <= step.from {
            return Err(ForecastError::Backwards.into());
        }
        if step.until <= self.now {
            return Err(DeskError::ForecastPast);
        }
        likely(step.air, false, &settings)?;
        let oldest = self.now - Duration::days(KEPT);
        let mut steps: Vec<ForecastStep> = self
            .books
            .forecast()?
            .into_iter()
            .filter(|old| old.until > oldest)
            .flat_map(|old| around(old, &step))
            .collect();
        steps.push(step);
        let forecast = Forecast::new(steps)?;
        self.books.put(Row::Forecast(forecast.steps()))?;
        let show = |at| show_moment(at, self.now, settings.zone);
        Ok(Done::said(format!(
            "Foretold shop air {} from {} to {}",
            show_air(step.air, &settings),
            show(step.from),
            show(step.until)
        )))
    }

    /// Takes the forecast away.
    pub(super) fn clear_forecast(&mut self) -> Result<Done, DeskError> {
        if self.books.forecast()?.is_empty() {
            return Err(DeskError::NothingForetold);
        }
        self.books.put(Row::Forecast(&[]))?;
        Ok(Done::said("Took the forecast away"))
    }

    /// Touch tests of a product made so far no longer count.
    pub(super) fn learn_afresh(&mut self, id: ProductId) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::OpenSince(self.now))?;
        let product = shop
            .product(id)
            .ok_or(BooksError::Missing { what: "product" })?;
        let tests = shop.clock().tuning(id).safe.tests;
        if tests == 0 {
            return Err(DeskError::NothingLearned {
                product: product.name.clone(),
            });
        }
        self.books.put(Row::Afresh(id, self.now))?;
        let many = if tests == 1 { "test" } else { "tests" };
        Ok(Done::said(format!(
            "Began to learn {} anew: {tests} touch {many} no longer count",
            product.name
        )))
    }

    /// Sets what the shop reckons drying by.
    pub(super) fn set_drying(&mut self, rules: &DryingRules) -> Result<Done, DeskError> {
        let settings = self.settings()?;
        if let Assumed::Air(air) = rules.assumed {
            likely(air, false, &settings)?;
        }
        let mut rules = *rules;
        // The safe time is safe or strict: the likely one has its own clock.
        if rules.law.safe == Care::Likely {
            rules.law.safe = Care::Safe;
        }
        rules.law.cap = rules.law.cap.clamp(1000, 1500);
        self.books.put(Row::DryingRules(&rules))?;
        Ok(Done::said(format!(
            "Set drying: {}",
            rules_words(&rules, &settings)
        )))
    }

    /// The reading that may be logged, or the question about it.
    fn checked(
        &self,
        at: DateTime<Utc>,
        air: ShopAir,
        sure: bool,
        settings: &Settings,
    ) -> Result<AirReading, DeskError> {
        likely(air, sure, settings)?;
        let at = at.trunc_subsecs(0);
        if sure && !(-20_000..=50_000).contains(&air.temperature.milli_c()) {
            // Insisted on: only the time is still held against the clock.
            let mild = ShopAir {
                temperature: Temperature::from(20_000),
                ..air
            };
            let reading = AirReading::checked(at, mild, self.now, settings.zone)?;
            return Ok(AirReading { air, ..reading });
        }
        let reading = AirReading::checked(at, air, self.now, settings.zone)?;
        Ok(AirReading {
            at: reading.at.trunc_subsecs(0),
            ..reading
        })
    }

    fn reading_at(&self, at: DateTime<Utc>) -> Result<Option<LoggedAir>, BooksError> {
        let at = at.trunc_subsecs(0);
        let span = AirSpan {
            from: at,
            to: Some(at),
        };
        Ok(self.books.air(span)?.into_iter().next())
    }

    /// What changes with a reading that others follow.
    fn rests_on_it(
        &self,
        at: DateTime<Utc>,
        newest: Option<DateTime<Utc>>,
        settings: &Settings,
    ) -> Vec<String> {
        match newest {
            Some(newest) if newest > at => vec![format!(
                "Later readings are there (the last of {}): what dried after {} is reckoned anew.",
                show_moment(newest, self.now, settings.zone),
                show_moment(at, self.now, settings.zone)
            )],
            _ => Vec::new(),
        }
    }
}

/// Air in the shop's units: `68 F, 45%`.
pub fn show_air(air: ShopAir, settings: &Settings) -> String {
    format!(
        "{}, {}",
        air.temperature.show(settings.temperature),
        air.humidity.show()
    )
}

/// What is set about drying, in words.
pub fn rules_words(rules: &DryingRules, settings: &Settings) -> String {
    let care = match rules.law.safe {
        Care::Strict => "strict safe times",
        _ => "safe times",
    };
    let cap = if rules.law.cap <= 1000 {
        "never faster than the label".to_owned()
    } else {
        format!(
            "up to {:.2} of the label's speed",
            f64::from(rules.law.cap) / 1000.0
        )
    };
    let damp = if rules.law.oil_humidity {
        "damp air slows oil films"
    } else {
        "damp air does not slow oil films"
    };
    let assumed = match rules.assumed {
        Assumed::LabelConditions => "the label's conditions".to_owned(),
        Assumed::Air(air) => show_air(air, settings),
    };
    format!("{care}, {cap}, {damp}, before the first reading {assumed}")
}

/// What is left of an older step beside a newer one.
fn around(old: ForecastStep, new: &ForecastStep) -> Vec<ForecastStep> {
    let before = ForecastStep {
        until: old.until.min(new.from),
        ..old
    };
    let after = ForecastStep {
        from: old.from.max(new.until),
        ..old
    };
    [before, after]
        .into_iter()
        .filter(|part| part.from < part.until)
        .collect()
}
