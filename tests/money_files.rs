//! Money and hours as plain files: out, in and out again byte for byte; what cannot be is refused with
//! its file and line, and nothing of it is in the store.

#![allow(clippy::unwrap_used, reason = "a test stops at once")]

#[path = "money/office.rs"]
#[allow(dead_code, reason = "not every test needs all of it")]
mod office;

use office::{Office, ZONE, date, money};
use std::fs;
use std::path::{Path, PathBuf};
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::{
    Action, AgreedPrice, Books, ChangeDraft, HoursDraft, HoursOf, InvoiceDraft, MoneyAction,
    PaymentDraft, SampleDraft, Scope, Shop, Which,
};
use tackfree::money::{Item, LineKind, Markup, Percent, StepKind, TaxChoice, TaxPlace};
use tackfree::shop::{Break, JobTerms, MoneyBook, PriceBook};
use tackfree::store::Store;
use tackfree::store::files::{MONEY_NAMES, export, import};
use tempfile::TempDir;

/// One of everything, with texts that are hard on a format.
fn full() -> Office {
    let mut office = Office::open();
    let mut prices = PriceBook::default();
    prices.places.push(TaxPlace {
        name: "Alder \"North\", County".to_owned(),
        rate: Percent::parse("8.8125").unwrap(),
        taxed: vec![LineKind::BoughtIn, LineKind::Other],
        source: "=invented".to_owned(),
    });
    prices.woods.insert("hard maple".to_owned(), money("8.75"));
    office.does(MoneyAction::SavePrices(prices));
    let item = |what: &str, count: &str, tax| Item {
        kind: LineKind::BoughtIn,
        what: what.to_owned(),
        count: count.parse().unwrap(),
        each: money("31.10"),
        markup: Some(Markup::new(Percent::parse("12.5").unwrap())),
        tax,
    };
    office.does(MoneyAction::SaveTerms(JobTerms {
        place: "alder \"north\", county".to_owned(),
        cap: "Maryland".to_owned(),
        asks_sample: true,
        confidence: Some(Percent::whole(80)),
        items: vec![
            item("-sink, \"deep\"; café", "1", TaxChoice::AsPlace),
            item("bracket", "2.5", TaxChoice::Free),
            item(
                "עץ אלון",
                "1",
                TaxChoice::At(Percent::parse("2.25").unwrap()),
            ),
        ],
        ..JobTerms::unsaid(office.job)
    }));
    agreed(&mut office);
    billed(&mut office);
    worked(&mut office);
    office
}

fn agreed(office: &mut Office) {
    office.does(MoneyAction::GiveEstimate {
        job: office.job,
        valid_until: Some(date("2026-12-24")),
    });
    let mut draft = office.agreement(
        "1",
        "0",
        "deposit 1/3, progress 1/3 when @sanded, balance rest by dec 12",
    );
    draft.price = AgreedPrice::Estimate;
    draft.starts = Some(date("2026-12-01"));
    office.does(MoneyAction::Sign(draft));
    for (net, days) in [("-80.50", -1), ("120", 3)] {
        office.does(MoneyAction::SaveChange(
            Which::New,
            ChangeDraft {
                job: office.job,
                asked_by: "Ada".to_owned(),
                what: "edge, \"ogee\"".to_owned(),
                net: money(net),
                tax: TaxChoice::AsPlace,
                days,
            },
        ));
    }
    let id = office.shop().money.changes[0].id;
    office.does(MoneyAction::SignChange(id, office.signed("Ada Finch")));
    for _ in 0..2 {
        office.does(MoneyAction::SaveSample(
            Which::New,
            SampleDraft {
                job: office.job,
                made: date("2026-11-20"),
                carries: "maple, 150, oil".to_owned(),
                light: String::new(),
                twin: "drawer 3".to_owned(),
            },
        ));
    }
    let id = office.shop().money.samples[0].id;
    office.does(MoneyAction::ApproveSample(id, office.signed("Ada Finch")));
}

fn billed(office: &mut Office) {
    office.does(MoneyAction::SaveInvoice(
        Which::New,
        InvoiceDraft {
            job: office.job,
            what: "deposit".to_owned(),
            amount: money("500"),
            on: office.now.date_naive(),
            due: None,
        },
    ));
    let invoice = office.shop().money.invoices[0].id;
    for (amount, on) in [("500", Some(invoice)), ("-20.05", None)] {
        office.does(MoneyAction::SavePayment(
            Which::New,
            PaymentDraft {
                job: office.job,
                amount: money(amount),
                on: office.now.date_naive(),
                invoice: on,
                how: "transfer".to_owned(),
            },
        ));
    }
}

fn worked(office: &mut Office) {
    let hour = |h: i64| office.now - chrono::Duration::hours(h);
    let draft = HoursDraft {
        job: office.job,
        pieces: office.pieces.to_vec(),
        step: StepKind::Make,
        started: hour(4),
        ended: hour(1),
        breaks: vec![Break {
            from: hour(3),
            until: Some(hour(2)),
            why: "=telephone; lunch".to_owned(),
        }],
    };
    office.does(MoneyAction::SaveHours(Which::New, draft));
    office.does(MoneyAction::StartClock {
        job: office.job,
        pieces: Vec::new(),
        step: StepKind::Other,
        at: office.now,
    });
    office.later(5);
    office.does(MoneyAction::PauseClock {
        at: office.now,
        why: String::new(),
    });
}

fn read(folder: &Path, into: &mut Store, now: chrono::DateTime<chrono::Utc>) -> Result<(), String> {
    let mut mint = Mint::new(uuid::Uuid::nil(), 9);
    let clock = LabelHours;
    import(into, folder, now, &mut mint, ZONE, &clock)
        .map(|_| ())
        .map_err(|error| error.to_string())
}

fn out(store: &Store, into: &TempDir, name: &str) -> PathBuf {
    let folder = into.path().join(name);
    export(store, &folder, ZONE).unwrap();
    folder
}

#[test]
fn everything_comes_back_byte_for_byte() {
    let office = full();
    let temp = TempDir::new().unwrap();
    let first = out(&office.store, &temp, "first");
    for name in MONEY_NAMES {
        assert!(first.join(name).exists(), "{name}");
    }
    let mut other = Store::in_memory().unwrap();
    read(&first, &mut other, office.now).unwrap();
    let second = out(&other, &temp, "second");
    for entry in fs::read_dir(&first).unwrap() {
        let name = entry.unwrap().file_name();
        let (a, b) = (fs::read(first.join(&name)), fs::read(second.join(&name)));
        assert_eq!(a.unwrap(), b.unwrap(), "{name:?}");
    }
    let shop = |store: &Store| Shop::read(store, Scope::All, ZONE).unwrap();
    let (had, has) = (shop(&office.store), shop(&other));
    assert_eq!((&had.money, &had.prices), (&has.money, &has.prices));
    assert_eq!(had.running, has.running);
}

/// Every action taken back one by one, and all of them done again: the same files.
#[test]
fn all_of_it_is_undone_and_done_again() {
    let mut office = full();
    let temp = TempDir::new().unwrap();
    let first = out(&office.store, &temp, "first");
    let mut count = 0;
    while office.desk().perform(&Action::Undo).is_ok() {
        count += 1;
    }
    let money = office.store.money().unwrap();
    assert_eq!(money, MoneyBook::default());
    assert_eq!(office.store.price_book().unwrap(), None);
    assert!(office.store.hours(HoursOf::All).unwrap().is_empty());
    for _ in 0..count {
        office.act(&Action::Redo);
    }
    let second = out(&office.store, &temp, "second");
    for entry in fs::read_dir(&first).unwrap() {
        let name = entry.unwrap().file_name();
        let (a, b) = (fs::read(first.join(&name)), fs::read(second.join(&name)));
        assert_eq!(a.unwrap(), b.unwrap(), "{name:?}");
    }
}

#[test]
fn a_shop_that_said_nothing_of_money_writes_no_such_file() {
    let office = Office::open();
    let temp = TempDir::new().unwrap();
    let folder = out(&office.store, &temp, "plain");
    for name in MONEY_NAMES {
        assert!(!folder.join(name).exists(), "{name}");
    }
}

#[test]
fn what_cannot_be_is_refused_with_its_place() {
    let office = full();
    let temp = TempDir::new().unwrap();
    let good = out(&office.store, &temp, "good");
    let cases: [(&str, &str, &str, &str); 12] = [
        ("agreements.csv", ",home,", ",moon,", "is not one of home"),
        (
            "payments_due.csv",
            "balance,",
            "balance,9",
            "its parts in payments_due.csv",
        ),
        ("changes.csv", ",'-1,", ",soon,", "no number of days"),
        ("invoices.csv", ",500.00,", ",-500.00,", "above nothing"),
        ("payments.csv", ",500.00,", ",0.00,", "payment of nothing"),
        (
            "payments.csv",
            ",500.00,",
            ",five,",
            "does not read as an amount",
        ),
        ("hours.csv", ",make,", ",fly,", "is not one of measure"),
        ("prices.toml", "hours = 1912", "hours = 0", "billable hours"),
        (
            "prices.toml",
            "share = \"10 %\"",
            "share = \"0 %\"",
            "no share of a total",
        ),
        (
            "samples.csv",
            ",2026-11-23,Ada Finch",
            ",2026-11-23,",
            "write who signed",
        ),
        (
            "estimate_lines.csv",
            "lumber",
            "umber",
            "is not one of shop-work",
        ),
        ("items.csv", ",2.5,", ",-2.5,", "no count"),
    ];
    for (at, (name, from, to, says)) in cases.into_iter().enumerate() {
        let folder = temp.path().join(format!("bad{at}"));
        fs::create_dir(&folder).unwrap();
        for entry in fs::read_dir(&good).unwrap() {
            let entry = entry.unwrap();
            fs::copy(entry.path(), folder.join(entry.file_name())).unwrap();
        }
        let text = fs::read_to_string(folder.join(name)).unwrap();
        let spoilt = text.replacen(from, to, 1);
        assert_ne!(text, spoilt, "{name}: {from} is not there");
        fs::write(folder.join(name), spoilt).unwrap();
        let mut store = Store::in_memory().unwrap();
        let said = read(&folder, &mut store, office.now).unwrap_err();
        assert!(said.contains(name) && said.contains(says), "{name}: {said}");
        assert!(store.clients().unwrap().is_empty());
        assert!(store.money().unwrap().invoices.is_empty());
    }
}
