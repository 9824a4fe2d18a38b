//! Money against worked examples of others: forum and trade-press figures, statute caps, the
//! cooling-off rule over ten years of federal holidays. The source stands beside each number.

#![allow(clippy::unwrap_used, reason = "a test stops at once")]

use chrono::{Datelike, NaiveDate, Weekday};
use rust_decimal::Decimal;
use std::collections::BTreeSet;
use tackfree::money::{
    Margin, Markup, Percent, RateFigures, Share, ShopRate, buy_for, federal_holidays,
    is_business_day, net_of, notice_until, per_hour, starting_caps,
};
use tackfree::units::Money;

fn money(text: &str) -> Money {
    Money::parse(text).unwrap()
}

fn percent(text: &str) -> Percent {
    Percent::parse(text).unwrap()
}

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// Building trade press, "planning for profit": cost 1,000, price 1,500.
#[test]
fn a_thousand_sold_at_fifteen_hundred() {
    let (cost, price) = (money("1000"), money("1500"));
    assert_eq!(Markup::new(percent("50")).price(cost), price);
    assert_eq!(Margin::found_percent(cost, price), Some(dec("33.3")));
    assert_eq!(Markup::new(percent("50")).as_margin_percent(), dec("33.3"));
    // The same word meant as a margin gives another price: the two are never the same.
    assert_eq!(
        Margin::new(percent("50")).unwrap().price(cost),
        money("2000")
    );
}

/// The usual table, derived from price = cost x (1 + markup) = cost / (1 - margin).
#[test]
fn the_table_of_markup_and_margin() {
    let to_margin = [
        ("10", "9.1"),
        ("15", "13.0"),
        ("20", "16.7"),
        ("25", "20.0"),
        ("30", "23.1"),
        ("35", "25.9"),
        ("40", "28.6"),
        ("50", "33.3"),
        ("67", "40.1"),
        ("100", "50"),
    ];
    for (markup, margin) in to_margin {
        let found = Markup::new(percent(markup)).as_margin_percent();
        assert_eq!(found, dec(margin), "markup {markup}");
    }
    let to_markup = [
        ("10", "11.1"),
        ("20", "25"),
        ("25", "33.3"),
        ("30", "42.9"),
        ("35", "53.8"),
        ("40", "66.7"),
        ("50", "100"),
    ];
    for (margin, markup) in to_markup {
        let found = Margin::new(percent(margin)).unwrap().as_markup_percent();
        assert_eq!(found, dec(markup), "margin {margin}");
    }
    for no_price in ["100", "150"] {
        assert!(Margin::new(percent(no_price)).is_err(), "{no_price}");
    }
}

/// Remodelling press, "managing markups": overhead of 25 to 30 % of sales needs a markup of at least
/// 50 %, of 30 to 35 % one of 67 %: the margin must cover the overhead and leave something.
#[test]
fn a_markup_that_covers_overhead_as_a_share_of_sales() {
    let margin = |markup| Markup::new(percent(markup)).as_margin_percent();
    assert!(margin("50") > dec("30") && margin("40") < dec("30"));
    assert!(margin("67") > dec("35") && margin("50") < dec("35"));
}

/// Remodelling press, "what an employee costs": the parts make 42.15 %, so $20.00 is $28.43 an hour;
/// a year of 2,080 hours less leave is 1,912.
#[test]
fn the_burden_on_an_hour_of_pay() {
    let parts = ["7.65", "1", "10", "12", "4", "2", "2", "1", "2.5"];
    let burden = parts
        .into_iter()
        .fold(Percent::ZERO, |sum, part| sum.plus(percent(part)));
    assert_eq!(burden.to_string(), "42.15 %");
    assert_eq!(Markup::new(burden).price(money("20.00")), money("28.43"));
    assert_eq!(
        2080 - 80 - 48 - 40,
        i64::from(RateFigures::starting().hours)
    );
}

/// The same source: the self-employed pay 15.3 %, on 92.35 % of net earnings (the factor from
/// memory), which is 14.13 %; the starting figure for what follows the pay.
#[test]
fn what_follows_the_pay_of_the_self_employed() {
    let of_net = percent("15.3").fraction() * percent("92.35").fraction();
    assert_eq!((of_net * Decimal::ONE_HUNDRED).round_dp(2), dec("14.13"));
    assert_eq!(RateFigures::starting().tax, percent("14.13"));
}

/// Cabinetmakers' forum 2009: (100,000 - 25,000) a month / 20 days / 4 people / 8 h = $117.19/h.
#[test]
fn a_rate_from_sales_less_materials() {
    let hours = Decimal::from(20 * 4 * 8);
    let rate = per_hour(money("100000") - money("25000"), hours);
    assert_eq!(rate, Some(money("117.19")));
}

/// Cabinetmakers' forum 2006: 15,700 a month / 3 people / 160 h = 32.71, with labour at 26.50:
/// $59.21/h.
#[test]
fn a_rate_from_overhead_and_labour() {
    let overhead = per_hour(money("15700"), Decimal::from(3 * 160)).unwrap();
    assert_eq!(overhead, money("32.71"));
    assert_eq!(overhead + money("26.50"), money("59.21"));
}

/// Woodworking forum 2019: overhead as a share of materials and labour gave one four-hour job $48 and
/// another $88, only because the wood cost differed. (The split into wood and labour is made to
/// fit those two.) By the hour both carry the same.
#[test]
fn overhead_by_the_hour_does_not_follow_the_price_of_wood() {
    let by_share = |wood: &str| percent("40").of(money("100") + money(wood));
    assert_eq!(
        (by_share("20"), by_share("120")),
        (money("48"), money("88"))
    );
    let rate = ShopRate::of(&RateFigures::starting()).unwrap();
    let four_hours = net_of(Decimal::from(4), rate.overhead);
    assert_eq!(four_hours, rate.overhead * 4);
}

/// US labour statistics: a cabinetmaker's median pay, $46,020 a year, is $22.13 an hour of 2,080.
#[test]
fn the_median_pay_by_the_hour() {
    assert_eq!(per_hour(money("46020"), dec("2080")), Some(money("22.13")));
    assert_eq!(RateFigures::starting().pay, money("46020"));
}

/// Common practice (no source): the sole owner's hour by hand. (46,020 x 1.1413 + 18,000 + 3,000) /
/// (1,912 x 0.60) = 64.0894...; / 0.90 = 71.2105...
#[test]
fn the_sole_owners_hour() {
    let rate = ShopRate::of(&RateFigures::starting()).unwrap();
    assert_eq!(rate.billable_hours, dec("1147.2"));
    assert_eq!(rate.break_even, money("64.09"));
    assert_eq!(rate.sell, money("71.21"));
    assert_eq!(rate.overhead, money("15.69"));
}

/// Cabinetmakers' forum 2010: 100 board feet net at 30 % waste are 142.86; adding 30 % instead is
/// only 23.1 % waste. Woodworking magazine: ordering half as much again is 33 % waste.
#[test]
fn waste_is_of_what_is_bought() {
    let hundred = Decimal::ONE_HUNDRED;
    let bought = buy_for(hundred, percent("30")).unwrap();
    assert_eq!(bought.round_dp(2), dec("142.86"));
    let waste_when_adding = |more: &str| Markup::new(percent(more)).as_margin_percent();
    assert_eq!(waste_when_adding("30"), dec("23.1"));
    assert_eq!(waste_when_adding("50"), dec("33.3"));
    assert_eq!(buy_for(hundred, percent("100")), None);
}

/// Cal. Bus. & Prof. Code 7159.5: the lesser of $1,000 and 10 %; an $8,500 job: $850. Md. Bus. Reg.
/// 8-617: a third. Pennsylvania by a secondary summary: only above $5,000.
#[test]
fn deposit_caps() {
    let caps = starting_caps();
    let most = |place: &str, total: &str| {
        let cap = caps.iter().find(|cap| cap.place == place).unwrap();
        cap.most(money(total))
    };
    assert_eq!(most("California", "8500"), Some(money("850")));
    assert_eq!(most("California", "10000"), Some(money("1000")));
    assert_eq!(most("California", "25000"), Some(money("1000")));
    assert_eq!(most("California", "8500.09"), Some(money("850.00")), "down");
    assert_eq!(most("Maryland", "10000"), Some(money("3333.33")), "down");
    assert_eq!(most("Pennsylvania", "5000"), None);
    assert_eq!(most("Pennsylvania", "6000"), Some(money("2000")));
    let cap = caps.iter().find(|cap| cap.place == "California").unwrap();
    assert!(cap.check(money("8500"), money("850")).is_none());
    let found = cap.check(money("8500"), money("850.01")).unwrap();
    assert!(found.words.contains("Verify") && found.words.contains("7159.5"));
    assert!(caps.iter().all(|cap| !cap.source.is_empty()));
    assert_eq!(
        Share::parse("1/3").unwrap().at_most_of(money("10")),
        money("3.33")
    );
}

/// Days on which federal holidays are kept, as the Office of Personnel Management lists them: 2023
/// read from a quotation of its page, the other years from memory.
const KEPT: [(i32, &[&str]); 10] = [
    (
        2021,
        &[
            "2021-01-01",
            "2021-01-18",
            "2021-02-15",
            "2021-05-31",
            "2021-06-18",
            "2021-07-05",
            "2021-09-06",
            "2021-10-11",
            "2021-11-11",
            "2021-11-25",
            "2021-12-24",
        ],
    ),
    (
        2022,
        &[
            "2021-12-31",
            "2022-01-17",
            "2022-02-21",
            "2022-05-30",
            "2022-06-20",
            "2022-07-04",
            "2022-09-05",
            "2022-10-10",
            "2022-11-11",
            "2022-11-24",
            "2022-12-26",
        ],
    ),
    (
        2023,
        &[
            "2023-01-02",
            "2023-01-16",
            "2023-02-20",
            "2023-05-29",
            "2023-06-19",
            "2023-07-04",
            "2023-09-04",
            "2023-10-09",
            "2023-11-10",
            "2023-11-23",
            "2023-12-25",
        ],
    ),
    (
        2024,
        &[
            "2024-01-01",
            "2024-01-15",
            "2024-02-19",
            "2024-05-27",
            "2024-06-19",
            "2024-07-04",
            "2024-09-02",
            "2024-10-14",
            "2024-11-11",
            "2024-11-28",
            "2024-12-25",
        ],
    ),
    (
        2025,
        &[
            "2025-01-01",
            "2025-01-20",
            "2025-02-17",
            "2025-05-26",
            "2025-06-19",
            "2025-07-04",
            "2025-09-01",
            "2025-10-13",
            "2025-11-11",
            "2025-11-27",
            "2025-12-25",
        ],
    ),
    (
        2026,
        &[
            "2026-01-01",
            "2026-01-19",
            "2026-02-16",
            "2026-05-25",
            "2026-06-19",
            "2026-07-03",
            "2026-09-07",
            "2026-10-12",
            "2026-11-11",
            "2026-11-26",
            "2026-12-25",
        ],
    ),
    (
        2027,
        &[
            "2027-01-01",
            "2027-01-18",
            "2027-02-15",
            "2027-05-31",
            "2027-06-18",
            "2027-07-05",
            "2027-09-06",
            "2027-10-11",
            "2027-11-11",
            "2027-11-25",
            "2027-12-24",
        ],
    ),
    (
        2028,
        &[
            "2027-12-31",
            "2028-01-17",
            "2028-02-21",
            "2028-05-29",
            "2028-06-19",
            "2028-07-04",
            "2028-09-04",
            "2028-10-09",
            "2028-11-10",
            "2028-11-23",
            "2028-12-25",
        ],
    ),
    (
        2029,
        &[
            "2029-01-01",
            "2029-01-15",
            "2029-02-19",
            "2029-05-28",
            "2029-06-19",
            "2029-07-04",
            "2029-09-03",
            "2029-10-08",
            "2029-11-12",
            "2029-11-22",
            "2029-12-25",
        ],
    ),
    (
        2030,
        &[
            "2030-01-01",
            "2030-01-21",
            "2030-02-18",
            "2030-05-27",
            "2030-06-19",
            "2030-07-04",
            "2030-09-02",
            "2030-10-14",
            "2030-11-11",
            "2030-11-28",
            "2030-12-25",
        ],
    ),
];

#[test]
fn federal_holidays_are_kept_when_they_are_listed() {
    for (year, listed) in KEPT {
        let kept: Vec<String> = federal_holidays(year)
            .iter()
            .map(|holiday| holiday.kept.to_string())
            .collect();
        assert_eq!(kept, listed, "{year}");
    }
    assert_eq!(federal_holidays(2020).len(), 10, "before Juneteenth");
}

/// 16 CFR 429.0(f) and 429.1, recounted day by day from the list: no Sunday and no day kept as a
/// federal holiday is among the three; nor is a holiday's own day where it is kept on another.
#[test]
fn the_notice_runs_to_the_third_business_day() {
    let listed: BTreeSet<NaiveDate> = KEPT
        .iter()
        .flat_map(|(_, days)| days.iter().map(|day| date(day)))
        .collect();
    // The fixed dates, whatever day of the week they fall on.
    let own = |day: NaiveDate| {
        [(1, 1), (6, 19), (7, 4), (11, 11), (12, 25)].contains(&(day.month(), day.day()))
    };
    let mut day = date("2021-01-01");
    while day < date("2030-12-20") {
        let end = notice_until(day);
        let counted: Vec<NaiveDate> = day
            .iter_days()
            .skip(1)
            .take_while(|next| *next <= end)
            .filter(|next| next.weekday() != Weekday::Sun && !listed.contains(next) && !own(*next))
            .collect();
        assert_eq!(counted.len(), 3, "{day}");
        assert_eq!(counted.last(), Some(&end), "{day}");
        day = day.succ_opt().unwrap();
    }
}

/// By hand, from the calendar.
#[test]
fn notice_dates_by_hand() {
    for (signed, until) in [
        // Friday: Saturday, Monday, Tuesday.
        ("2026-11-20", "2026-11-24"),
        // Tuesday before Thanksgiving: Wednesday, Friday, Saturday.
        ("2026-11-24", "2026-11-28"),
        // Saturday: Monday, Tuesday, Wednesday.
        ("2026-12-05", "2026-12-09"),
        // Thursday 2 July 2026: Friday the 3rd is kept for Saturday the 4th; Monday to Wednesday.
        ("2026-07-02", "2026-07-08"),
        // Friday 24 December 2027, Christmas kept; the 25th, a Saturday; then Mon, Tue, Wed.
        ("2027-12-24", "2027-12-29"),
        // New Year's Day 2028, a Saturday, is kept on 31 December 2027: 29, 30, then 3 January.
        ("2027-12-28", "2028-01-03"),
    ] {
        assert_eq!(notice_until(date(signed)), date(until), "{signed}");
    }
    assert!(is_business_day(date("2026-11-28")), "a Saturday counts");
    assert!(!is_business_day(date("2026-11-29")), "a Sunday does not");
}
