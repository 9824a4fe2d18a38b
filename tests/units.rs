//! Promises of the units room that hold for every value, not only for the listed ones.

use chrono::{DateTime, Duration, TimeZone, Utc};
use chrono_tz::Tz;
use proptest::prelude::*;
use tackfree::units::{
    Area, BareUnit, Length, LengthStyle, Money, Temperature, Volume, VolumeStyle, clean_line,
    clean_text, parse_date, parse_moment, show_moment,
};

const ZONES: [Tz; 4] = [
    chrono_tz::America::Chicago,
    chrono_tz::Australia::Lord_Howe,
    chrono_tz::Europe::Dublin,
    chrono_tz::UTC,
];

fn style() -> impl Strategy<Value = LengthStyle> {
    prop_oneof![
        Just(LengthStyle::Sixteenths),
        Just(LengthStyle::ThirtySeconds),
        Just(LengthStyle::Millimetres),
    ]
}

fn bare() -> impl Strategy<Value = BareUnit> {
    prop_oneof![Just(BareUnit::Inches), Just(BareUnit::Millimetres)]
}

/// Any instant from 2000 to 2100.
fn instant() -> impl Strategy<Value = DateTime<Utc>> {
    (946_684_800_i64..4_102_444_800)
        .prop_filter_map("in range", |s| Utc.timestamp_opt(s, 0).single())
}

/// Text that comes near to what people write about times.
fn time_words() -> impl Strategy<Value = String> {
    prop_oneof![
        (0..30_u32, 0..70_u32).prop_map(|(h, m)| format!("{h}:{m:02}")),
        (0..14_u32, 0..60_u32, "am|pm").prop_map(|(h, m, half)| format!("{h}:{m:02} {half}")),
        (
            "mon|tue|wed|thu|fri|sat|sun|today|yesterday|tomorrow",
            0..24_u32
        )
            .prop_map(|(day, h)| format!("{day} {h}:00")),
        (1..13_u32, 1..32_u32, 0..24_u32).prop_map(|(m, d, h)| format!("{m}/{d} {h}:15")),
        (0..200_000_u32, "m|h|d").prop_map(|(n, unit)| format!("{n}{unit} ago")),
        (0..200_000_u32).prop_map(|n| format!("-{n}")),
    ]
}

proptest! {
    #[test]
    fn what_a_style_shows_exactly_reads_back(steps in 0_i64..12_000, style in style(), bare in bare()) {
        let length = match style {
            LengthStyle::Sixteenths => Length::from_64ths(steps * 4),
            LengthStyle::ThirtySeconds => Length::from_64ths(steps * 2),
            LengthStyle::Millimetres => Length::from_nm(steps * 100_000),
        };
        for shown in [length.show(style), length.show_inches(style)] {
            prop_assert!(!shown.contains('~'), "{}", shown);
            prop_assert_eq!(Length::parse(&shown, bare), Ok(length), "{}", shown);
        }
    }

    #[test]
    fn the_exact_text_of_any_length_reads_back(nm in 0..=Length::MAX.nm(), style in style()) {
        let length = Length::from_nm(nm);
        let shown = length.show_exact(style);
        prop_assert_eq!(Length::parse(&shown, BareUnit::Inches), Ok(length), "{}", shown);
    }

    #[test]
    fn a_shown_length_is_at_most_half_a_step_off(nm in 0..Length::MAX.nm() - 30_000_000, style in style()) {
        let length = Length::from_nm(nm);
        let step = match style {
            LengthStyle::Sixteenths => 25_400_000 / 16,
            LengthStyle::ThirtySeconds => 25_400_000 / 32,
            LengthStyle::Millimetres => 100_000,
        };
        let shown = length.show(style);
        let read = Length::parse(shown.trim_start_matches('~'), BareUnit::Inches);
        let off = (read.expect("a shown length reads back") - length).nm().abs();
        prop_assert!(2 * off <= step, "{} is {} nm off", shown, off);
        prop_assert_eq!(shown.starts_with('~'), off != 0);
    }

    #[test]
    fn a_length_reads_or_is_refused_but_never_panics(text in "[-0-9 ./'\"½⅜a-z,°%$]{0,24}") {
        if let Ok(length) = Length::parse(&text, BareUnit::Inches) {
            prop_assert!(length >= Length::ZERO && length <= Length::MAX);
        }
    }

    #[test]
    fn decimals_are_read_digit_for_digit(whole in 0_i64..30_000, micros in 0_i64..1_000_000) {
        let read = Length::parse(&format!("{whole}.{micros:06}"), BareUnit::Millimetres);
        prop_assert_eq!(read, Ok(Length::from_nm(whole * 1_000_000 + micros)));
    }

    #[test]
    fn a_split_adds_up_exactly_and_is_fair(
        ul in -200_000_000_i64..=200_000_000,
        weights in prop::collection::vec(0.0..1e6_f64, 1..20),
    ) {
        let parts = Volume::from_ul(ul).split(&weights);
        prop_assert_eq!(parts.len(), weights.len());
        prop_assert_eq!(parts.iter().sum::<Volume>(), Volume::from_ul(ul));
        let sum: f64 = weights.iter().sum();
        for (part, weight) in parts.iter().zip(&weights) {
            if sum > 0.0 {
                let fair = ul as f64 * weight / sum;
                prop_assert!((part.ul() as f64 - fair).abs() < 1.01, "{} v. {}", part.ul(), fair);
            }
        }
    }

    #[test]
    fn a_split_adds_up_for_any_weights_at_all(
        ul in any::<i64>(),
        weights in prop::collection::vec(prop::num::f64::ANY, 1..20),
    ) {
        let parts = Volume::from_ul(ul).split(&weights);
        let sum: i128 = parts.iter().map(|part| i128::from(part.ul())).sum();
        prop_assert_eq!(sum, i128::from(ul));
    }

    #[test]
    fn a_volume_in_millilitres_reads_back(ul in 0_i64..=200_000_000) {
        let text = format!("{}.{:03} mL", ul / 1000, ul % 1000);
        prop_assert_eq!(Volume::parse(&text, VolumeStyle::FluidOunces), Ok(Volume::from_ul(ul)));
    }

    #[test]
    fn money_reads_back_as_it_shows(cents in -Money::MAX.cents()..=Money::MAX.cents()) {
        let money = Money::from_cents(cents);
        prop_assert_eq!(Money::parse(&money.show()), Ok(money));
    }

    #[test]
    fn a_share_is_the_nearest_cent_with_halves_away_from_zero(
        cents in -1_000_000_000_i64..1_000_000_000,
        part in -100_000_i64..100_000,
        whole in prop_oneof![-100_000_i64..=-1, 1_i64..=100_000],
    ) {
        let share = i128::from(Money::from_cents(cents).share(part, whole).cents());
        let (exact, whole) = (i128::from(cents) * i128::from(part), i128::from(whole));
        // `off` is how far the share lies above the exact value, in units of 1/whole cent.
        let off = (share * whole - exact) * whole.signum();
        prop_assert!(2 * off.abs() <= whole.abs());
        if 2 * off.abs() == whole.abs() {
            prop_assert_eq!(off.signum(), share.signum(), "a half goes away from zero");
        }
    }

    #[test]
    fn a_share_and_the_rest_make_the_whole_to_a_cent(cents in any::<i32>(), part in 0_i64..=1000) {
        let money = Money::from_cents(cents.into());
        let both = money.share(part, 1000) + money.share(1000 - part, 1000);
        prop_assert!((both - money).cents().abs() <= 1);
    }

    #[test]
    fn a_moment_never_lies_after_now(text in time_words(), now in instant(), zone in prop::sample::select(&ZONES)) {
        if let Ok(at) = parse_moment(&text, now, zone) {
            prop_assert!(at <= now, "{} gave {} after {}", text, at, now);
        }
    }

    #[test]
    fn a_bare_time_is_at_most_a_day_old(h in 0..24_u32, m in 0..60_u32, now in instant(), zone in prop::sample::select(&ZONES)) {
        if let Ok(at) = parse_moment(&format!("{h}:{m:02}"), now, zone) {
            // A day of 25 hours is the longest that these zones have.
            prop_assert!(now - at <= Duration::hours(25), "{}", now - at);
        }
    }

    #[test]
    fn a_past_moment_reads_back_as_it_shows(days in 0_i64..300, minutes in 0_i64..1440, now in instant()) {
        // In UTC every time exists once, so the text says all there is to the minute.
        let zone = chrono_tz::UTC;
        let at = now - Duration::days(days) - Duration::minutes(minutes);
        let shown = show_moment(at, now, zone);
        let read = parse_moment(&shown, now, zone).expect("a shown moment reads back");
        prop_assert_eq!(read.timestamp() / 60, at.timestamp() / 60, "{}", shown);
    }

    #[test]
    fn dates_and_moments_stay_in_range_and_never_panic(text in "[-+0-9 :/a-z,.]{0,20}", now in instant()) {
        let today = now.date_naive();
        if let Ok(at) = parse_moment(&text, now, ZONES[0]) {
            prop_assert!(at <= now);
        }
        if let Ok(date) = parse_date(&text, today) {
            prop_assert!((date - today).num_days().abs() < 51 * 366);
        }
    }

    #[test]
    fn clean_text_is_clean(raw in any::<String>()) {
        let (line, _) = clean_line(&raw);
        prop_assert!(!line.chars().any(char::is_control));
        prop_assert_eq!(clean_line(&line), (line.clone(), 0));
        let (text, _) = clean_text(&raw);
        prop_assert!(!text.chars().any(|c| c.is_control() && c != '\n'));
        prop_assert_eq!(clean_text(&text), (text.clone(), 0));
    }

    #[test]
    fn temperatures_keep_a_thousandth_of_a_degree(f in -40.0..130.0_f64) {
        prop_assert!((Temperature::from_f(f).f() - f).abs() < 0.001);
    }

    #[test]
    fn areas_store_and_come_back(um2 in 0_i64..100_000_000_000_000) {
        prop_assert_eq!(Area::from_um2(um2).um2(), um2);
    }
}

#[test]
fn whole_number_quantities_travel_as_their_number() {
    let length = Length::from_64ths(1);
    let sent = serde_json::to_string(&length).expect("a number");
    assert_eq!(sent, "396875");
    assert_eq!(serde_json::from_str::<Length>(&sent).ok(), Some(length));
    let volume = serde_json::to_string(&Volume::from_ml(1.5)).expect("a number");
    assert_eq!(volume, "1500");
}
