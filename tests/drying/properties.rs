//! For any log.

use super::support::{ZONE, air, by_the_minute, clock, close, log_of, product, taught, utc};
use chrono::{DateTime, Duration, Utc};
use proptest::prelude::*;
use tackfree::coating::{
    AirLog, AirReading, Assumed, DryingClock, Family, Forecast, ForecastStep, Hardening, Span,
};
use tackfree::units::{Humidity, Temperature};

fn start() -> DateTime<Utc> {
    utc(2026, 10, 20, 7, 30)
}

/// Readings from five minutes to two days apart, through the night the clocks go back.
fn readings() -> impl Strategy<Value = Vec<AirReading>> {
    let row = (
        prop_oneof![5_i64..90, 5_i64..2880],
        5_000_i32..32_000,
        200_i32..950,
    );
    prop::collection::vec(row, 0..150).prop_map(|rows| {
        let mut at = start();
        rows.into_iter()
            .map(|(minutes, milli_c, tenths)| {
                at += Duration::minutes(minutes);
                AirReading {
                    at,
                    air: tackfree::coating::ShopAir {
                        temperature: Temperature::from(milli_c),
                        humidity: Humidity::from_tenths(tenths).expect("a humidity"),
                    },
                }
            })
            .collect()
    })
}

fn family() -> impl Strategy<Value = Family> {
    prop::sample::select(Family::ALL.to_vec())
}

/// A moment from some days before the log to some days after.
fn moment() -> impl Strategy<Value = DateTime<Utc>> {
    (-3 * 1440_i64..40 * 1440).prop_map(|minutes| start() + Duration::minutes(minutes))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn colder_is_never_faster(
        rows in readings(), family in family(), laid in moment(), hours in 1_i64..200,
        colder in 1_i32..8_000,
    ) {
        let product = product(family);
        let span = Span::hours(hours);
        let mut cold_rows = rows.clone();
        for row in &mut cold_rows {
            row.air.temperature = Temperature::from(row.air.temperature.milli_c() - colder);
        }
        let (warm, cold) = (clock(log_of(&rows)), clock(log_of(&cold_rows)));
        for (warm, cold) in [(warm.safe(), cold.safe()), (warm.likely(), cold.likely())] {
            prop_assert!(cold.reached(&product, laid, span) >= warm.reached(&product, laid, span));
            let to = laid + span.as_duration();
            prop_assert!(
                cold.label_hours(&product, laid, to) <= warm.label_hours(&product, laid, to)
            );
        }
    }

    #[test]
    fn damper_is_never_faster(
        rows in readings(), family in family(), laid in moment(), hours in 1_i64..200,
        damper in 1_i32..300,
    ) {
        let product = product(family);
        let span = Span::hours(hours);
        let mut damp_rows = rows.clone();
        for row in &mut damp_rows {
            let tenths = (row.air.humidity.tenths() + damper).min(1000);
            row.air.humidity = Humidity::from_tenths(tenths).expect("a humidity");
        }
        let (dry, damp) = (clock(log_of(&rows)), clock(log_of(&damp_rows)));
        for (dry, damp) in [(dry.safe(), damp.safe()), (dry.likely(), damp.likely())] {
            prop_assert!(damp.reached(&product, laid, span) >= dry.reached(&product, laid, span));
        }
    }

    #[test]
    fn a_span_cut_in_two_counts_as_the_whole(
        rows in readings(), family in family(), mut cuts in prop::collection::vec(moment(), 3),
    ) {
        cuts.sort();
        let (clock, product) = (clock(log_of(&rows)), product(family));
        let hours = |a: usize, b: usize| clock.label_hours(&product, cuts[a], cuts[b]);
        prop_assert!((hours(0, 1) + hours(1, 2) - hours(0, 2)).abs() < 1e-9);
        let window = |a: usize, b: usize| clock.window_hours(&product, cuts[a], cuts[b]);
        prop_assert!((window(0, 1) + window(1, 2) - window(0, 2)).abs() < 1e-9);
    }

    #[test]
    fn a_later_row_never_changes_the_past(
        rows in readings(), family in family(), from in moment(), to in moment(),
        later in prop::collection::vec((0_i64..5_000, 0_i32..35_000, 0_i32..1000), 1..20),
    ) {
        let product = product(family);
        let mut log = log_of(&rows);
        let before = clock(log.clone());
        let known = before.label_hours(&product, from, to);
        let window = before.window_hours(&product, from, to);
        let last = log.last().map_or(to, |row| row.at).max(to);
        for (minutes, milli_c, tenths) in later {
            log.insert(AirReading {
                at: last + Duration::minutes(minutes),
                air: tackfree::coating::ShopAir {
                    temperature: Temperature::from(milli_c),
                    humidity: Humidity::from_tenths(tenths).expect("a humidity"),
                },
            });
        }
        let air = before.log().air_at(to - Duration::seconds(1));
        prop_assert_eq!(log.air_at(to - Duration::seconds(1)), air);
        let after = clock(log);
        prop_assert_eq!(after.label_hours(&product, from, to).to_bits(), known.to_bits());
        prop_assert_eq!(after.window_hours(&product, from, to).to_bits(), window.to_bits());
    }

    #[test]
    fn a_window_never_ends_later_than_the_plain_clock(
        rows in readings(), family in family(), laid in moment(), hours in 1_i64..2_000,
    ) {
        let (clock, product) = (clock(log_of(&rows)), product(family));
        let span = Span::hours(hours);
        let end = clock.shuts(&product, laid, span);
        prop_assert!(end <= laid + span.as_duration());
        prop_assert!(end > laid);
        prop_assert!(clock.likely().shuts(&product, laid, span) <= laid + span.as_duration());
    }

    #[test]
    fn what_tests_taught_breaks_none_of_it(
        rows in readings(), family in family(), laid in moment(), hours in 1_i64..500,
        factor in 0.3_f64..3.0, colder in 1_i32..8_000, damper in 1_i32..300,
    ) {
        let product = product(family);
        let span = Span::hours(hours);
        let mut worse = rows.clone();
        for row in &mut worse {
            row.air.temperature = Temperature::from(row.air.temperature.milli_c() - colder);
            let tenths = (row.air.humidity.tenths() + damper).min(1000);
            row.air.humidity = Humidity::from_tenths(tenths).expect("a humidity");
        }
        let clock = taught(log_of(&rows), &product, factor);
        let worse = taught(log_of(&worse), &product, factor);
        prop_assert!((clock.factor(&product) - 1.0).abs() > 0.01 || (0.9..1.2).contains(&factor));
        let plain = laid + span.as_duration();
        for (clock, worse) in [(clock.safe(), worse.safe()), (clock.likely(), worse.likely())] {
            // A window's end is never later than the plain clock says, however slow the shop.
            let end = clock.shuts(&product, laid, span);
            prop_assert!(laid < end && end <= plain, "{} {}", end, plain);
            // Worse air never dries faster.
            prop_assert!(worse.reached(&product, laid, span) >= clock.reached(&product, laid, span));
        }
        prop_assert!(clock.safe().reached(&product, laid, span) >= plain);
        // A span cut in two counts as the whole.
        let cut = laid + Duration::hours(hours / 2);
        let hours = |from, to| clock.effective(&product, from, to);
        prop_assert!((hours(laid, cut) + hours(cut, plain) - hours(laid, plain)).abs() < 1e-6);
    }

    #[test]
    fn a_span_is_reached_exactly_to_the_minute(
        rows in readings(), family in family(), laid in moment(), minutes in 1_i64..10_000,
    ) {
        let (clock, product) = (clock(log_of(&rows)), product(family));
        let span = Span::minutes(minutes);
        let asked = minutes as f64 / 60.0;
        let reach = clock.reach(&product, laid, span);
        let had = clock.label_hours(&product, laid, reach.at);
        if reach.in_sight {
            prop_assert!(had >= asked - 1e-9, "{} of {}", had, asked);
            let short = clock.label_hours(&product, laid, reach.at - Duration::seconds(1));
            prop_assert!(short < asked, "{} of {} a second before", short, asked);
        } else {
            prop_assert!(had < asked);
        }
        prop_assert!(clock.times(&product, laid, span).likely <= reach.at);
        prop_assert!(reach.at >= laid + span.as_duration());
    }

    #[test]
    fn the_sums_are_those_of_a_scan_by_the_minute(
        rows in readings(), family in family(), laid in moment(), minutes in 1_i64..4_000,
    ) {
        let (clock, product) = (clock(log_of(&rows)), product(family));
        let to = laid + Duration::minutes(minutes);
        let slow = by_the_minute(clock.log(), clock.law(&product), laid, to);
        close(clock.label_hours(&product, laid, to), slow, "sum");
    }

    #[test]
    fn rows_in_any_order_make_the_same_log_and_drop_what_they_touch(
        rows in readings().prop_shuffle_rows(), family in family(), from in moment(),
        hours in 1_i64..1000,
    ) {
        let product = product(family);
        let to = from + Duration::hours(hours);
        let mut log = AirLog::new(ZONE, Assumed::LabelConditions);
        for row in &rows {
            // Asking in between keeps sums that the next row has to take back.
            let asked = clock(log.clone());
            asked.label_hours(&product, from, to);
            log = AirLog::clone(asked.log());
            log.insert(*row);
        }
        let fresh = log_of(&rows);
        prop_assert!(log == fresh);
        let (grown, fresh) = (clock(log), clock(fresh));
        prop_assert_eq!(
            grown.label_hours(&product, from, to).to_bits(),
            fresh.label_hours(&product, from, to).to_bits()
        );
    }

    #[test]
    fn a_colder_forecast_is_never_faster(
        rows in readings(), family in family(), hours in 1_i64..300, c in 0.0_f64..30.0,
        colder in 0.1_f64..10.0,
    ) {
        let product = product(family);
        let log = log_of(&rows);
        let laid = log.last().map_or(start(), |row| row.at) + Duration::hours(5);
        let clock = clock(log);
        let told = |c: f64| {
            let step = ForecastStep {
                from: laid - Duration::hours(2),
                until: laid + Duration::hours(90),
                air: air(c, 50.0),
            };
            clock.with_forecast(Forecast::new(vec![step]).expect("a forecast"))
        };
        let span = Span::hours(hours);
        prop_assert!(
            told(c - colder).reached(&product, laid, span) >= told(c).reached(&product, laid, span)
        );
    }
}

/// Shuffles the rows a strategy makes.
trait ShuffleRows {
    fn prop_shuffle_rows(self) -> BoxedStrategy<Vec<AirReading>>;
}

impl<S: Strategy<Value = Vec<AirReading>> + 'static> ShuffleRows for S {
    fn prop_shuffle_rows(self) -> BoxedStrategy<Vec<AirReading>> {
        self.prop_shuffle().boxed()
    }
}

#[test]
fn every_family_hardens_in_some_way_and_in_the_label_s_air_at_the_label_s_speed() {
    for family in Family::ALL {
        let (clock, product) = (clock(log_of(&[])), product(family));
        let law = clock.law(&product);
        let normal = air(23.0, 50.0);
        let speed = law.speed(normal.temperature, normal.humidity);
        close(speed, 1.0, family.word());
        let oily = family.hardening() == Hardening::Oxidises;
        let damp = air(23.0, 64.0);
        let slowed = law.speed(damp.temperature, damp.humidity) < 1.0;
        assert_eq!(
            slowed,
            oily || family == Family::WaterBorne,
            "{} in damp air",
            family.word()
        );
        // Nothing logged: plain label hours.
        let laid = start();
        let span = Span::hours(31);
        assert_eq!(
            clock.reached(&product, laid, span),
            laid + span.as_duration()
        );
        assert_eq!(clock.shuts(&product, laid, span), laid + span.as_duration());
    }
}
