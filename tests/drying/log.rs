//! The air log: order, pauses, the usual air, clock changes, length.

use super::support::{
    ZONE, air, by_the_minute, by_the_row, clock, close, dense, log_of, product, read, utc,
};
use chrono::{DateTime, Duration, Timelike, Utc};
use tackfree::coating::{
    AirBasis, AirLog, Assumed, Coverage, DryingClock, Family, Forecast, ForecastError,
    ForecastStep, Inserted, Merged, Span,
};

#[test]
fn a_reading_holds_twelve_hours_and_then_the_usual_air_stands_in() {
    let at = utc(2026, 11, 20, 13, 0);
    let log = log_of(&[read(at, 20.0, 45.0)]);
    let held = log.air_at(at + Duration::hours(12) - Duration::seconds(1));
    assert_eq!(held.basis, AirBasis::Read { at });
    let usual = log.air_at(at + Duration::hours(12));
    assert_eq!(usual.basis, AirBasis::Usual { last: at, days: 1 });
    assert_eq!(usual.air, Some(air(20.0, 45.0)), "all that is known");
    let before = log.air_at(at - Duration::seconds(1));
    assert_eq!((before.air, before.basis), (None, AirBasis::Assumed));
    let covered = log.coverage(at - Duration::hours(2), at + Duration::hours(20));
    let hours = |h: i64| h * 3600;
    assert_eq!(
        covered,
        Coverage {
            read: hours(12),
            usual: hours(8),
            assumed: hours(2)
        }
    );
}

#[test]
fn the_stated_air_counts_before_the_first_reading() {
    let log = AirLog::new(ZONE, Assumed::Air(air(10.0, 50.0)));
    let clock = clock(log);
    let laid = utc(2026, 11, 20, 13, 0);
    let reach = clock.reach(&product(Family::OilBrushingVarnish), laid, Span::hours(24));
    // 24 h at 10 C and 50 %: 61.0 h by the law.
    assert_eq!((reach.at - laid).num_minutes(), 3658);
}

#[test]
fn the_usual_air_is_learned_by_the_hour_of_the_local_day() {
    // Four weeks, 10 C from 6 pm to 6 am local and 20 C by day; then nothing.
    let from = utc(2026, 5, 1, 4, 0);
    let rows: Vec<_> = (0..28 * 24)
        .map(|hour| {
            let at = from + Duration::hours(hour);
            let local = at.with_timezone(&ZONE).hour();
            let c = if (6..18).contains(&local) { 20.0 } else { 10.0 };
            read(at, c, 50.0)
        })
        .collect();
    let log = log_of(&rows);
    let later = utc(2026, 6, 2, 4, 0);
    for hour in 0..24 {
        let at = later + Duration::minutes(hour * 60 + 30);
        let local = at.with_timezone(&ZONE).hour();
        let c = if (6..18).contains(&local) { 20.0 } else { 10.0 };
        assert_eq!(log.air_at(at).air, Some(air(c, 50.0)), "local hour {local}");
    }
    let usual = log.usual(later).expect("readings");
    // The window of four weeks touches 29 local days.
    assert!((28..=29).contains(&usual.days()), "{}", usual.days());
    // A pass planned for later is reckoned with it.
    let clock = clock(log);
    let product = product(Family::OilBrushingVarnish);
    let reach = clock.reach(&product, later, Span::hours(8));
    let slow = by_the_minute(clock.log(), clock.law(&product), later, reach.at);
    assert!((slow - 8.0).abs() < 0.02, "{slow} for eight label-hours");
}

#[test]
fn the_night_the_clocks_change_neither_gives_nor_takes_time() {
    for (from, night) in [
        (utc(2026, 10, 1, 4, 0), utc(2026, 11, 1, 4, 0)),
        (utc(2026, 2, 6, 5, 0), utc(2026, 3, 8, 5, 0)),
    ] {
        let rows: Vec<_> = dense(from, 29);
        let last = rows.last().expect("rows").at;
        let clock = clock(log_of(&rows));
        let product = product(Family::OilWipingVarnish);
        let law = clock.law(&product);
        // Usual air over the change, against the air of every minute.
        let to = night + Duration::hours(30);
        let slow = by_the_minute(clock.log(), law, last, to);
        close(
            clock.label_hours(&product, last, to),
            slow,
            "over the change",
        );
        let quarter = night + Duration::minutes(105);
        let slow = by_the_minute(clock.log(), law, quarter, to);
        close(
            clock.label_hours(&product, quarter, to),
            slow,
            "from amid the change",
        );
        // At the label's own air a day of label time is 24 hours of any clock.
        let even: Vec<_> = (0..8)
            .map(|part| {
                read(
                    night - Duration::hours(6) + Duration::hours(part * 6),
                    23.0,
                    50.0,
                )
            })
            .collect();
        let clock = super::support::clock(log_of(&even));
        let reached = clock.reached(&product, night, Span::hours(24));
        assert_eq!(reached - night, Duration::hours(24));
    }
    // Half past one comes twice on the first of November, with the same usual air.
    let rows = dense(utc(2026, 10, 1, 4, 0), 30);
    let log = log_of(&rows);
    let first = utc(2026, 11, 1, 5, 30);
    let second = first + Duration::hours(1);
    assert_eq!(
        first.with_timezone(&ZONE).hour(),
        second.with_timezone(&ZONE).hour()
    );
    assert_eq!(log.air_at(first).air, log.air_at(second).air);
}

#[test]
fn readings_out_of_order_twice_or_corrected_find_their_place() {
    let at = utc(2026, 11, 20, 13, 0);
    let mut log = AirLog::new(ZONE, Assumed::LabelConditions);
    assert_eq!(
        log.insert(read(at + Duration::hours(2), 18.0, 50.0)),
        Inserted::Added
    );
    assert_eq!(log.insert(read(at, 20.0, 45.0)), Inserted::Added);
    assert_eq!(log.insert(read(at, 20.0, 45.0)), Inserted::Same);
    assert_eq!(
        log.insert(read(at, 21.0, 45.0)),
        Inserted::Replaced(air(20.0, 45.0))
    );
    let merged = log.merge([
        read(at + Duration::hours(1), 19.0, 50.0),
        read(at, 21.0, 45.0),
        read(at + Duration::hours(2), 25.0, 50.0),
        read(at + Duration::hours(1), 19.0, 50.0),
        read(at - Duration::hours(1), 17.0, 50.0),
    ]);
    assert_eq!(
        merged,
        Merged {
            added: 2,
            same: 2,
            differ: 1
        }
    );
    let temperatures: Vec<f64> = log
        .between(at - Duration::days(1), at + Duration::days(1))
        .map(|row| row.air.temperature.c())
        .collect();
    assert_eq!(
        temperatures,
        [17.0, 21.0, 19.0, 18.0],
        "an import rewrites nothing"
    );
    assert_eq!(log.remove(at), Some(read(at, 21.0, 45.0)));
    assert_eq!((log.remove(at), log.len()), (None, 3));
}

#[test]
fn a_film_that_never_dries_is_said_to_be_out_of_sight() {
    let at = utc(2026, 11, 20, 13, 0);
    let clock = clock(log_of(&[read(at, 2.0, 50.0)]));
    let product = product(Family::OilBrushingVarnish);
    let reach = clock.reach(&product, at, Span::hours(8));
    assert!(!reach.in_sight);
    assert_eq!(clock.reached(&product, at, Span::hours(8)), reach.at);
    assert!(reach.at > at + Duration::days(3000));
    assert_eq!(
        clock.shuts(&product, at, Span::hours(24)),
        at + Duration::hours(24)
    );
    // Nor does the end of the calendar upset it.
    let reach = clock.reach(&product, DateTime::<Utc>::MAX_UTC, Span::MAX);
    assert_eq!(reach.at, DateTime::<Utc>::MAX_UTC);
    clock.shuts(&product, DateTime::<Utc>::MIN_UTC, Span::MAX);
}

#[test]
fn a_forecast_speaks_only_of_what_comes_after_the_last_reading() {
    let at = utc(2026, 11, 20, 13, 0);
    let step = |from: i64, until: i64, c: f64| ForecastStep {
        from: at + Duration::hours(from),
        until: at + Duration::hours(until),
        air: air(c, 50.0),
    };
    assert_eq!(
        Forecast::new(vec![step(5, 5, 10.0)]),
        Err(ForecastError::Backwards)
    );
    let both = vec![step(0, 5, 10.0), step(4, 8, 10.0)];
    assert_eq!(Forecast::new(both), Err(ForecastError::Overlap));
    let rows = [
        read(at, 23.0, 50.0),
        read(at + Duration::hours(4), 23.0, 50.0),
    ];
    let plain = clock(log_of(&rows));
    let forecast = Forecast::new(vec![step(8, 12, 10.0), step(-5, 6, 10.0)]).expect("a forecast");
    let told = plain.with_forecast(forecast);
    let product = product(Family::OilBrushingVarnish);
    let hours = |from: i64, to: i64| {
        told.label_hours(
            &product,
            at + Duration::hours(from),
            at + Duration::hours(to),
        )
    };
    let ten = air(10.0, 50.0);
    let cold = told.law(&product).speed(ten.temperature, ten.humidity);
    close(hours(0, 4), 4.0, "read");
    close(
        hours(4, 6),
        2.0 * cold,
        "forecast, from the last reading on",
    );
    close(hours(6, 8), 2.0, "between forecasts the reading holds");
    close(hours(8, 12), 4.0 * cold, "forecast");
    assert_eq!(told.air_at(at + Duration::hours(9)).1, AirBasis::Forecast);
    let reading = AirBasis::Read { at };
    assert_eq!(told.air_at(at + Duration::hours(1)).1, reading);
    let times = told.pass_times(&product, at + Duration::hours(8));
    assert!(
        times.windows[0].opens.safe
            > plain.pass_times(&product, at + Duration::hours(8)).windows[0]
                .opens
                .safe
    );
    assert!(times.windows[0].opens.likely <= times.windows[0].opens.safe);
    assert!(times.touch.safe <= times.tack_free.safe && times.handle.safe <= times.full_cure.safe);
}

#[test]
fn a_log_of_twenty_years_answers_as_a_scan_from_the_start_does() {
    let from = utc(2006, 11, 1, 0, 0);
    let rows = dense(from, 20 * 365 + 5);
    assert_eq!(rows.len(), 1_051_920);
    let clock = clock(log_of(&rows));
    let product = product(Family::OilBrushingVarnish);
    let law = clock.law(&product);
    for (day, minutes) in [
        (0, 90),
        (3, 60 * 24 * 40),
        (3651, 77),
        (7300, 60 * 24 * 4),
        (900, 1),
    ] {
        let laid = from + Duration::days(day) + Duration::minutes(7);
        let to = laid + Duration::minutes(minutes);
        let slow = by_the_row(&rows, law, laid, to);
        close(clock.label_hours(&product, laid, to), slow, "some days");
        let reach = clock.reach(&product, laid, Span::hours(48));
        if reach.at <= rows[rows.len() - 1].at {
            let slow = by_the_row(&rows, law, laid, reach.at);
            assert!((48.0..48.001).contains(&slow) || reach.at == laid + Duration::hours(48));
        }
    }
    let end = from + Duration::days(20 * 365 + 5);
    let slow = by_the_row(&rows, law, from, end);
    close(clock.label_hours(&product, from, end), slow, "twenty years");
    // Ten more minutes put at the end cost no second scan, and count.
    let mut log = AirLog::clone(clock.log());
    log.insert(read(end, 23.0, 50.0));
    let longer = super::support::clock(log);
    let hours = longer.label_hours(&product, from, end + Duration::minutes(10));
    close(hours, slow + 1.0 / 6.0, "and ten minutes");
}
