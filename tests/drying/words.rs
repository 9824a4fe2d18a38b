//! Why a film is slow, and what to check before a pass, in words.

use super::support::{ZONE, air, clock, log_of, product, read, utc};
use chrono::Duration;
use std::collections::HashMap;
use std::sync::Arc;
use tackfree::coating::{
    AirReading, BeforePass, Check, Family, LabelHours, Learned, ModelSettings, ReadingError,
    ShopAirClock, Slows, Span, Stands, Tuning, before_pass, look_again, stain_wait,
};
use tackfree::units::{Temperature, TemperatureStyle, parse_air};

use Stands::{Fine, Hold, Mind, Unknown};

const F: TemperatureStyle = TemperatureStyle::Fahrenheit;
const C: TemperatureStyle = TemperatureStyle::Celsius;

fn f(degrees: f64) -> f64 {
    Temperature::from_f(degrees).c()
}

#[test]
fn a_slow_film_says_why_and_since_when() {
    // Friday, 20 November 2026: 6 pm in New York is 23:00 UTC.
    let six = utc(2026, 11, 20, 23, 0);
    let rows = [
        read(six - Duration::hours(3), f(70.0), 45.0),
        read(six, f(58.0), 45.0),
        read(six + Duration::minutes(90), f(59.0), 46.0),
        read(six + Duration::hours(3), f(58.0), 47.0),
    ];
    let clock = clock(log_of(&rows));
    let product = product(Family::OilBrushingVarnish);
    let now = six + Duration::hours(4);
    let speed = clock.speed(&product, now);
    assert_eq!((speed.slows, speed.since), (Slows::Cold, Some(six)));
    assert_eq!(
        speed.words(now, ZONE, F),
        "58 F since 6:00 pm: about 55 % speed"
    );
    assert_eq!(
        speed.words(now, ZONE, C),
        "14.4 C since 6:00 pm: about 55 % speed"
    );
    let likely = clock.likely().speed(&product, now);
    assert_eq!(
        likely.words(now, ZONE, F),
        "58 F since 6:00 pm: about 65 % speed"
    );
    let before = clock.speed(&product, six - Duration::hours(1));
    assert!(before.is_slow(), "70 F is under the label's 73 F");
    // The next morning at nine, ten hours after the last reading it still holds; at noon not.
    let noon = utc(2026, 11, 21, 17, 0);
    let words = clock.speed(&product, noon).words(noon, ZONE, F);
    assert!(
        words.contains("usual at this hour (no reading since Fri 9:00 pm)"),
        "{words}"
    );
}

#[test]
fn every_reason_has_its_words() {
    let at = utc(2026, 11, 20, 15, 0);
    let said = |family, c: f64, percent: f64| {
        let clock = clock(log_of(&[read(at, c, percent)]));
        let speed = clock.speed(&product(family), at);
        (speed.slows, speed.words(at, ZONE, C))
    };
    let oil = Family::OilBrushingVarnish;
    assert_eq!(said(oil, 23.0, 50.0), (Slows::Nothing, String::new()));
    assert_eq!(
        said(oil, 23.0, 75.0),
        (
            Slows::Damp,
            "75% humidity since 10:00 am: about 70 % speed".into()
        )
    );
    assert_eq!(
        said(oil, 15.0, 75.0),
        (
            Slows::ColdAndDamp,
            "15 C and 75% humidity since 10:00 am: about 40 % speed".into()
        )
    );
    assert_eq!(
        said(oil, 8.0, 50.0).1,
        "8 C since 10:00 am, under the label's 10 C: does not dry"
    );
    assert_eq!(
        said(Family::Lacquer, 20.0, 70.0).1,
        "70% humidity since 10:00 am, over the label's 65%: does not dry"
    );
    let nothing = clock(log_of(&[])).speed(&product(oil), at);
    assert_eq!(
        nothing.words(at, ZONE, C),
        "no shop air logged: label hours"
    );
    assert!(!nothing.is_slow());
    let slow = Learned {
        median: 0.7,
        low: 0.65,
        high: 0.76,
        tests: 8,
        coats: 4,
    };
    let product = product(oil);
    let tuning = Tuning {
        safe: slow,
        likely: slow,
    };
    let known = Arc::new(HashMap::from([(product.id, tuning)]));
    let log = Arc::new(log_of(&[read(at, 23.0, 50.0)]));
    let clock = ShopAirClock::new(log, ModelSettings::default(), known);
    assert_eq!(
        clock.speed(&product, at).words(at, ZONE, C),
        "23 C and 50% humidity since 10:00 am, slow in this shop by touch tests: about 70 % speed"
    );
    // And the clock runs by it: 7 label-hours take 10.
    let reach = clock.reach(&product, at, Span::hours(7));
    assert_eq!((reach.at - at).num_minutes(), 600);
}

#[test]
fn checks_before_a_pass_name_figure_limit_and_source() {
    let now = utc(2026, 11, 20, 15, 0);
    let (varnish, stain) = (
        product(Family::OilWipingVarnish),
        product(Family::OilGelStain),
    );
    let wipe = product(Family::MineralSpirits);
    let before = BeforePass {
        product: &varnish,
        at: now,
        air: Some(air(16.0, 75.0)),
        surface: Some(Temperature::from_c(13.0)),
        wood_percent: Some(13.0),
        wipe: Some((&wipe, now - Duration::minutes(10))),
        stain: Some((&stain, now - Duration::hours(25))),
        clock: &LabelHours,
    };
    let findings = before_pass(&before);
    let said: Vec<_> = findings
        .iter()
        .map(|finding| (finding.stands, finding.words(now, ZONE, C)))
        .collect();
    let expected = [
        (Stands::Hold, "wood 1.4 C over the dew point, 3.0 C asked"),
        (Stands::Mind, "13 C, 18 C at least"),
        (Stands::Mind, "75% humidity, 70% at most"),
        (Stands::Hold, "wood at 13.0 % moisture, 12 % at most"),
        (Stands::Hold, "flashes off 10:20 am"),
        (Stands::Fine, "stain dry 9:00 am"),
    ];
    let expected = expected.map(|(stands, words)| (stands, words.to_owned()));
    assert_eq!(said, expected);
    assert!(findings.iter().all(|finding| !finding.source.is_empty()));
    assert_eq!(
        findings[0].words(now, ZONE, F),
        "wood 2.6 F over the dew point, 5.4 F asked"
    );
}

#[test]
fn limits_hold_warnings_warn_and_what_was_not_measured_is_said() {
    let now = utc(2026, 11, 20, 15, 0);
    let stands = |family, known, wood| {
        let product = product(family);
        let findings = before_pass(&BeforePass {
            product: &product,
            at: now,
            air: known,
            surface: None,
            wood_percent: wood,
            wipe: None,
            stain: None,
            clock: &LabelHours,
        });
        findings
            .iter()
            .map(|finding| finding.stands)
            .collect::<Vec<_>>()
    };
    assert_eq!(stands(Family::OilBrushingVarnish, None, None), [Unknown; 4]);
    let oil = |c, percent, wood| {
        stands(
            Family::OilBrushingVarnish,
            Some(air(c, percent)),
            Some(wood),
        )
    };
    assert_eq!(oil(20.0, 50.0, 10.0), [Fine; 4]);
    assert_eq!(oil(9.9, 50.0, 10.1), [Fine, Hold, Fine, Mind]);
    assert_eq!(oil(17.9, 70.1, 12.0), [Fine, Mind, Mind, Mind]);
    assert_eq!(oil(20.0, 85.1, 12.1), [Hold, Fine, Hold, Hold]);
    // The warnings for oil do not touch what loses solvent.
    let lacquer = stands(Family::Lacquer, Some(air(16.0, 65.0)), Some(8.0));
    assert_eq!(lacquer, [Fine; 4]);
}

#[test]
fn stain_waits_a_day_under_another_base() {
    let mut stain = product(Family::OilLiquidStain);
    stain.label.windows[0].opens = Span::hours(8);
    assert_eq!(stain_wait(&stain, Family::OilWipingVarnish), Span::hours(8));
    assert_eq!(stain_wait(&stain, Family::WaterBorne), Span::hours(24));
    assert_eq!(stain_wait(&stain, Family::Shellac), Span::hours(24));
    stain.label.windows[0].opens = Span::hours(72);
    assert_eq!(stain_wait(&stain, Family::WaterBorne), Span::hours(72));
    let now = utc(2026, 11, 20, 15, 0);
    let topcoat = product(Family::WaterBorne);
    let findings = before_pass(&BeforePass {
        product: &topcoat,
        at: now,
        air: Some(air(20.0, 50.0)),
        surface: None,
        wood_percent: Some(8.0),
        wipe: None,
        stain: Some((&stain, now - Duration::hours(71))),
        clock: &LabelHours,
    });
    let dry = findings.last().expect("findings");
    assert_eq!(dry.stands, Stands::Hold);
    assert_eq!(
        dry.check,
        Check::StainDry {
            ready: now + Duration::hours(1)
        }
    );
}

#[test]
fn a_reading_from_tomorrow_or_in_the_wrong_scale_is_answered_in_words() {
    let now = utc(2026, 11, 20, 15, 0);
    let tomorrow = AirReading::checked(now + Duration::days(1), air(20.0, 45.0), now, ZONE);
    let said = tomorrow.expect_err("from tomorrow").to_string();
    assert_eq!(
        said,
        "Sat 10:00 am has not come yet (it is 10:00 am); write when the air was read."
    );
    let hot = AirReading::checked(now, air(68.0, 45.0), now, ZONE);
    assert!(matches!(hot, Err(ReadingError::Unlikely { .. })));
    let said = hot.expect_err("68 C").to_string();
    assert!(said.starts_with("68 C (154.4 F) is outside"), "{said}");
    // As it is typed, too.
    let typed = parse_air("68C 45", F).expect_err("68 C").to_string();
    assert!(typed.contains("68 C (154.4 F)"), "{typed}");
    let soon = AirReading::checked(now + Duration::seconds(40), air(20.0, 45.0), now, ZONE);
    assert_eq!(soon, Ok(read(now, 20.0, 45.0)));
}

#[test]
fn a_soft_coat_is_looked_at_again_later_than_the_test() {
    let laid = utc(2026, 11, 20, 8, 0);
    let at = laid + Duration::hours(10);
    assert_eq!(
        look_again(laid, at, laid + Duration::hours(8)),
        at + Duration::hours(2)
    );
    assert_eq!(
        look_again(laid, at, at + Duration::hours(3)),
        at + Duration::hours(3)
    );
    let early = laid + Duration::minutes(20);
    assert_eq!(look_again(laid, early, laid), early + Duration::minutes(30));
}
