//! The demo shop: whatever the hour it is opened, it holds a piece in every stage, something that
//! dries, something ready, one window missed, one run sanded back.

use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;
use std::collections::BTreeMap;
use std::sync::OnceLock;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::{Books, Scope, Shop};
use tackfree::shop::{
    AmountBasis, CoatKind, Gates, PieceFile, RackState, Shows, Stage, Strictness, Ticket, Waiting,
    What, cautions_for_job, rack, waiting,
};
use tackfree::store::Store;
use tackfree::store::files::{demo_files, load_demo};
use uuid::Uuid;

const NEW_YORK: Tz = chrono_tz::America::New_York;

fn utc(text: &str) -> DateTime<Utc> {
    DateTime::parse_from_rfc3339(text)
        .unwrap()
        .with_timezone(&Utc)
}

/// Nine in the morning, half past eleven at night, and the two nights on which the clocks change.
fn moments() -> [(&'static str, DateTime<Utc>); 4] {
    [
        ("9 am", utc("2026-06-10T13:00:00Z")),
        ("11:30 pm", utc("2026-01-16T04:30:00Z")),
        ("clocks forward", utc("2026-03-08T07:10:00Z")),
        ("clocks back", utc("2026-11-01T05:40:00Z")),
    ]
}

fn opened(now: DateTime<Utc>, zone: Tz) -> Shop {
    let mut store = Store::in_memory().unwrap();
    let mut mint = Mint::new(Uuid::nil(), 5);
    let report = load_demo(&mut store, now, &mut mint, zone, &LabelHours).unwrap();
    assert_eq!(report.notes, Vec::<String>::new());
    Shop::read(&store, Scope::All, zone).unwrap()
}

fn file<'s>(shop: &'s Shop, ticket: &str) -> &'s PieceFile {
    shop.find_piece(ticket).unwrap()
}

fn waits(shop: &Shop, now: DateTime<Utc>) -> BTreeMap<String, Waiting> {
    let gates = shop.gates(&LabelHours);
    let one = |file| (shop.ticket_no(file), waiting(&Ticket::of(file), &gates, now));
    shop.files.iter().map(one).collect()
}

#[test]
fn look() {
    for (when, now) in moments() {
        let shop = opened(now, NEW_YORK);
        println!("{when}");
        for (ticket, waits) in waits(&shop, now) {
            println!("{ticket} {:?} {}", Ticket::of(file(&shop, &ticket)).stage, waits.words(now, NEW_YORK));
        }
    }
}
