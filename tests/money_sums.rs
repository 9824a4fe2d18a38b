//! Money adds up: shares, lines, tax, parts and payments, to the cent, for ten thousand generated
//! jobs; the one rounding rule; what does not read.

#![allow(clippy::unwrap_used, reason = "a test stops at once")]

use chrono::{Days, NaiveDate};
use proptest::prelude::*;
use tackfree::money::{
    Bill, Line, LineKind, Paid, PartAmount, PartAsked, PartError, PartKind, Percent, PercentError,
    Settled, Share, TaxChoice, TaxPlace, net_of, overdue, settle, split, totals,
};
use tackfree::shop::{
    Agreement, ChangeId, ChangeOrder, Invoice, InvoiceId, JobId, MoneyBook, Signed, SignedAt,
};
use tackfree::units::Money;

fn cents(cents: i64) -> Money {
    Money::from_cents(cents)
}

fn percent(text: &str) -> Percent {
    Percent::parse(text).unwrap()
}

#[test]
fn half_a_cent_goes_away_from_zero_at_the_line() {
    for (amount, rate, tax) in [
        (10, "5", 1),
        (-10, "5", -1),
        (9, "5", 0),
        (30, "5", 2),
        (12_345, "8.81", 1_088),
        (100, "0.5", 1),
        (99, "0.5", 0),
    ] {
        assert_eq!(
            percent(rate).of(cents(amount)),
            cents(tax),
            "{amount} at {rate}"
        );
    }
    // Two lines of 10 cents at 5 %: a cent each, not one for both.
    let line = |net| Line {
        kind: LineKind::Other,
        what: String::new(),
        net: cents(net),
        rate: percent("5"),
    };
    assert_eq!(totals(&[line(10), line(10)]).tax, cents(2));
    assert_eq!(totals(&[line(20)]).tax, cents(1));
    assert_eq!(net_of("2.5".parse().unwrap(), cents(333)), cents(833));
}

#[test]
fn tax_is_set_by_line_and_place() {
    let place = TaxPlace {
        name: "Alder County".to_owned(),
        rate: percent("4.5"),
        taxed: vec![LineKind::BoughtIn, LineKind::Finish],
        source: "invented".to_owned(),
    };
    let rate = |choice: TaxChoice, kind| choice.rate(kind, Some(&place));
    assert_eq!(rate(TaxChoice::AsPlace, LineKind::BoughtIn), percent("4.5"));
    assert_eq!(rate(TaxChoice::AsPlace, LineKind::SiteWork), Percent::ZERO);
    assert_eq!(rate(TaxChoice::Free, LineKind::Finish), Percent::ZERO);
    let own = TaxChoice::At(percent("2"));
    assert_eq!(rate(own, LineKind::SiteWork), percent("2"));
    assert_eq!(own.rate(LineKind::SiteWork, None), percent("2"));
    assert_eq!(
        TaxChoice::AsPlace.rate(LineKind::Finish, None),
        Percent::ZERO
    );
}

fn part(kind: PartKind, amount: PartAmount) -> PartAsked {
    PartAsked {
        kind,
        amount,
        event: kind.usual_event().to_owned(),
        due: None,
    }
}

/// The habits of the trade (cabinetmakers' forum threads on payment schedules).
#[test]
fn the_trades_habits_add_up() {
    let habits: [&[&str]; 5] = [
        &["50", "40", "10"],
        &["50", "25", "25"],
        &["50", "45", "5"],
        &["1/3", "1/3", "1/3"],
        &["30", "40", "30"],
    ];
    for habit in habits {
        for total in [1, 99, 100, 333_333, 850_001, 1_000_000] {
            let asked: Vec<PartAsked> = habit
                .iter()
                .map(|text| {
                    let share = Share::parse(text).unwrap();
                    part(PartKind::Progress, PartAmount::Share(share))
                })
                .collect();
            match split(cents(total), &asked) {
                Ok(parts) => {
                    let sum: Money = parts.iter().map(|part| part.amount).sum();
                    assert_eq!(sum, cents(total), "{habit:?} of {total}");
                }
                Err(PartError::Nothing(..) | PartError::Sum { .. }) => {
                    assert!(total < 10, "{habit:?} of {total}");
                }
                Err(other) => panic!("{habit:?} of {total}: {other}"),
            }
        }
    }
    let thirds = [
        part(
            PartKind::Deposit,
            PartAmount::Share(Share::new(1, 3).unwrap()),
        ),
        part(
            PartKind::Progress,
            PartAmount::Share(Share::new(1, 3).unwrap()),
        ),
        part(
            PartKind::Balance,
            PartAmount::Share(Share::new(1, 3).unwrap()),
        ),
    ];
    let parts = split(cents(100_000), &thirds).unwrap();
    let amounts: Vec<i64> = parts.iter().map(|part| part.amount.cents()).collect();
    assert_eq!(amounts, [33_333, 33_333, 33_334]);
}

#[test]
fn parts_that_do_not_make_the_total_are_told_how_far_off() {
    let half = PartAmount::Share(Share::new(1, 2).unwrap());
    let said = |asked: &[PartAsked]| split(cents(100_000), asked).unwrap_err().to_string();
    assert!(said(&[part(PartKind::Deposit, half)]).contains("$500.00 are missing"));
    let over = [
        part(PartKind::Deposit, half),
        part(PartKind::Progress, PartAmount::Amount(cents(60_000))),
        part(PartKind::Balance, PartAmount::Rest),
    ];
    assert!(said(&over).contains("$100.00 too much"), "{}", said(&over));
    let rests = [
        part(PartKind::Deposit, PartAmount::Rest),
        part(PartKind::Balance, PartAmount::Rest),
    ];
    assert_eq!(split(cents(100), &rests), Err(PartError::TwoRests));
    assert_eq!(split(cents(100), &[]), Err(PartError::None));
    assert!(matches!(
        split(cents(0), &rests),
        Err(PartError::NoTotal(_))
    ));
    let nothing = [
        part(PartKind::Deposit, PartAmount::Amount(cents(0))),
        part(PartKind::Balance, PartAmount::Rest),
    ];
    assert!(said(&nothing).contains("deposit would be $0.00"));
}

#[test]
fn what_is_no_per_cent_is_told_apart() {
    for (text, error) in [
        ("", PercentError::Empty),
        ("half", PercentError::Nonsense("half".to_owned())),
        ("1.2.3", PercentError::Nonsense("1.2.3".to_owned())),
        ("-5 %", PercentError::Range("-5 %".to_owned())),
        ("1001", PercentError::Range("1001".to_owned())),
        (
            "99999999999999999999999999",
            PercentError::Range("99999999999999999999999999".to_owned()),
        ),
        ("8.12345", PercentError::TooFine("8.12345".to_owned())),
        ("\u{1b}[2J5", PercentError::Nonsense("5".to_owned())),
    ] {
        match (Percent::parse(text), error) {
            (Err(PercentError::Nonsense(_)), PercentError::Nonsense(_)) => {}
            (found, error) => assert_eq!(found, Err(error), "{text}"),
        }
    }
    for (text, shown) in [
        ("30 %", "30 %"),
        ("30%", "30 %"),
        (" 8.810", "8.81 %"),
        (".5", "0.5 %"),
    ] {
        assert_eq!(percent(text).to_string(), shown);
        assert_eq!(percent(shown), percent(text));
    }
    for text in ["0/3", "4/3", "1/0", "-1/3", "x", "0 %", "101 %"] {
        assert!(Share::parse(text).is_err(), "{text}");
    }
    for text in ["1/3", "50 %", "12.5 %", "2/7"] {
        assert_eq!(Share::parse(text).unwrap().to_string(), text);
    }
    assert_eq!(Share::parse("2/4").unwrap().to_string(), "50 %");
}

fn day(offset: u64) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 1, 1).unwrap() + Days::new(offset)
}

#[test]
fn payments_settle_the_oldest_bill_first() {
    let bill = |no, amount, due| Bill {
        no,
        amount: cents(amount),
        due: day(due),
    };
    let bills = [bill(1, 500, 30), bill(2, 300, 10), bill(3, 200, 60)];
    let paid = |on, amount| Paid {
        on,
        amount: cents(amount),
    };
    let (settled, over) = settle(&bills, &[paid(None, 400), paid(Some(3), 250)]);
    let open: Vec<i64> = settled.iter().map(|bill| bill.open().cents()).collect();
    // The second is due first: 300 of the 400; the named third takes 200, its 50 over go on.
    assert_eq!((open, over), (vec![350, 0, 0], cents(0)));
    assert_eq!(overdue(&settled, day(31)), Some((cents(350), day(30))));
    assert_eq!(
        overdue(&settled, day(30)),
        None,
        "not before the day is over"
    );
    let (settled, over) = settle(&bills[..1], &[paid(None, 700), paid(None, -100)]);
    assert_eq!((settled[0].open(), over), (cents(0), cents(100)));
}

/// Lines of one job: net cents, hundredths of a per cent of tax.
fn jobs() -> impl Strategy<Value = Vec<(i64, u32)>> {
    prop::collection::vec((1_i64..2_000_000, 0_u32..1_500), 1..12)
}

fn asked() -> impl Strategy<Value = Vec<u32>> {
    prop::collection::vec(1_u32..=24, 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, ..ProptestConfig::default() })]

    /// Lines and their tax, recounted in whole numbers, make the total; the parts make the total; bills
    /// over the parts and payments on them leave exactly what is open.
    #[test]
    fn lines_tax_parts_and_payments_make_the_total(
        job in jobs(), shares in asked(), pays in prop::collection::vec(1_i64..500_000, 0..6)
    ) {
        let lines: Vec<Line> = job.iter().map(|(net, rate)| Line {
            kind: LineKind::Other,
            what: String::new(),
            net: cents(*net),
            rate: Percent::from_hundredths(*rate),
        }).collect();
        let sums = totals(&lines);
        let net: i64 = job.iter().map(|(net, _)| net).sum();
        // Half a cent up, in whole numbers: net x rate / 10,000.
        let tax: i64 = job.iter().map(|(net, rate)| (net * i64::from(*rate) + 5_000) / 10_000).sum();
        prop_assert_eq!((sums.net, sums.tax), (cents(net), cents(tax)));
        prop_assert_eq!(sums.total(), cents(net + tax));

        let mut parts: Vec<PartAsked> = shares.iter().map(|share| part(
            PartKind::Progress,
            PartAmount::Share(Share::of_percent(Percent::whole(*share)).unwrap()),
        )).collect();
        parts.push(part(PartKind::Balance, PartAmount::Rest));
        let made = match split(sums.total(), &parts) {
            Ok(made) => made,
            // A share of a few cents may be nothing.
            Err(PartError::Nothing(..)) => { prop_assert!(sums.total() < cents(50)); return Ok(()); }
            Err(other) => { prop_assert!(false, "{}", other); return Ok(()); }
        };
        let sum: Money = made.iter().map(|part| part.amount).sum();
        prop_assert_eq!(sum, sums.total());

        let bills: Vec<Bill> = made.iter().zip(1..).map(|(part, no)| Bill {
            no, amount: part.amount, due: day(u64::from(no) * 7),
        }).collect();
        let payments: Vec<Paid> = pays.iter().enumerate().map(|(at, amount)| Paid {
            on: u32::try_from(at).ok().filter(|at| at % 2 == 0).map(|at| at % 4 + 1),
            amount: cents(*amount),
        }).collect();
        let (settled, over) = settle(&bills, &payments);
        let open: Money = settled.iter().map(Settled::open).sum();
        let paid: i64 = pays.iter().sum();
        prop_assert_eq!(open - over, sums.total() - cents(paid));
        prop_assert!(open == cents(0) || over == cents(0));
        prop_assert!(settled.iter().all(|bill| bill.open() >= cents(0)));
    }
}

/// A job that is signed, with signed changes, billed in any number of invoices up to its total: their
/// tax is the job's, to the cent, and each has the tax of its share within a cent.
#[test]
fn the_tax_in_invoices_makes_the_tax_of_the_job() {
    let mut dice = 2_026_u64;
    let mut roll = |most: i64| {
        dice = dice * 48_271 % 2_147_483_647;
        i64::try_from(dice).unwrap() % most + 1
    };
    let (job, day) = (JobId(uuid::Uuid::from_u128(7)), day(0));
    for _ in 0..10_000 {
        let mut book = MoneyBook::default();
        book.agreements.push(Agreement {
            job,
            on: day,
            by: "Ada".to_owned(),
            at: SignedAt::Shop,
            net: cents(roll(2_000_000)),
            tax: cents(roll(90_000) - 1),
            estimate: None,
            starts: None,
            promised: day,
            parts: Vec::new(),
        });
        for no in 1..=2 {
            book.changes.push(ChangeOrder {
                id: ChangeId(uuid::Uuid::from_u128(no.into())),
                job,
                no,
                on: day,
                asked_by: String::new(),
                what: "edge".to_owned(),
                net: cents(roll(9_000)),
                tax: cents(roll(400) - 1),
                days: 0,
                signed: (no == 1).then(|| Signed {
                    on: day,
                    by: "Ada".to_owned(),
                }),
            });
        }
        let total = book.account(job, day).total;
        let change = &book.changes[0];
        assert_eq!(total, book.agreements[0].total() + change.total());
        for no in 1.. {
            let account = book.account(job, day);
            let left = total - account.billed;
            if left == Money::ZERO {
                break;
            }
            let amount = if no == 6 {
                left
            } else {
                left.min(cents(roll(900_000)))
            };
            let tax = account.tax_in(amount);
            let share = account.tax.share(amount.cents(), total.cents());
            assert!((tax - share).cents().abs() <= 1);
            book.invoices.push(Invoice {
                id: InvoiceId(uuid::Uuid::from_u128(no.into())),
                job,
                no,
                on: day,
                due: day,
                what: String::new(),
                amount,
                tax,
            });
        }
        let account = book.account(job, day);
        assert_eq!((account.billed, account.billed_tax), (total, account.tax));
        assert_eq!(account.unsigned, (1, book.changes[1].total()));
    }
}
