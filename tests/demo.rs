//! The demo shop: whatever the hour it is opened, it holds a piece in every stage, something that
//! dries, something ready, one window missed, one run sanded back.

#[path = "demo/hours.rs"]
mod hours;

use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::collections::BTreeMap;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::{Books, Scope, Shop};
use tackfree::shop::{
    AmountBasis, CoatKind, PieceFile, Stage, Ticket, Waiting, What, cautions_for_job, waiting,
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
    let one = |file| {
        (
            shop.ticket_no(file),
            waiting(&Ticket::of(file), &gates, now),
        )
    };
    shop.files.iter().map(one).collect()
}

#[test]
fn the_shop_has_its_people_jobs_and_pieces() {
    for (when, now) in moments() {
        let shop = opened(now, NEW_YORK);
        assert_eq!(
            (shop.clients.len(), shop.jobs.len(), shop.files.len()),
            (6, 7, 18),
            "{when}"
        );
        for stage in Stage::ALL {
            let there = shop.files.iter().any(|file| file.piece.stage == stage);
            assert!(there, "{when}: no piece in {stage}");
        }
        for file in &shop.files {
            let name = &file.piece.name;
            assert!(
                name.chars().count() <= 24,
                "{name} is too long for a narrow board"
            );
            assert_eq!(file.piece.stage, Ticket::of(file).stage, "{when}: {name}");
        }
        let lead: Vec<u32> = shop
            .jobs
            .iter()
            .filter(|job| !cautions_for_job(job).is_empty())
            .map(|job| job.no)
            .collect();
        assert_eq!(lead, [1], "one house is from before 1978");
        let bases: Vec<&str> = shop
            .passes
            .iter()
            .map(|pass| pass.amount.basis.word())
            .collect();
        for basis in ["estimated", "measured", "weighed"] {
            assert!(bases.contains(&basis), "no {basis} pass");
        }
        assert!(shop.passes.iter().any(|pass| pass.air.is_some()));
    }
}

#[test]
fn every_piece_waits_for_what_it_is_there_to_show() {
    for (when, now) in moments() {
        let shop = opened(now, NEW_YORK);
        let waits = waits(&shop, now);
        let wait = |ticket: &str| waits.get(ticket).unwrap().clone();
        let dry_in = |ticket: &str| match wait(ticket) {
            Waiting::Dry { ready, .. } => (ready - now).num_minutes(),
            other => panic!("{when}: {ticket}: {other:?}"),
        };
        assert_eq!(wait("1A"), Waiting::WipeOff { faces: 8 }, "{when}");
        assert_eq!(dry_in("1B"), 15 * 60, "{when}: stain dries");
        assert!(matches!(
            wait("1B"),
            Waiting::Dry {
                below: CoatKind::Stain,
                ..
            }
        ));
        assert_eq!(
            dry_in("1C"),
            80,
            "{when}: dry to recoat in one to two hours"
        );
        assert!(matches!(wait("1C"), Waiting::Dry { no: 4, of: 6, .. }));
        assert!(
            matches!(wait("2A"), Waiting::Abrade { .. }),
            "{when}: {:?}",
            wait("2A")
        );
        assert_eq!(wait("2B"), Waiting::Scuff, "{when}");
        let ready = Waiting::Lay {
            kind: CoatKind::Topcoat,
            no: 3,
            of: 4,
            done: 0,
            faces: 6,
        };
        assert_eq!(wait("2C"), ready, "{when}");
        assert_eq!(dry_in("3A"), 4 * 60, "{when}");
        assert!(
            matches!(wait("3C"), Waiting::Grit { done: 3, of: 6, .. }),
            "{when}"
        );
        assert_eq!(
            wait("3D"),
            Waiting::MoveOn {
                to: Stage::Topcoats,
                then: None,
            },
            "{when}"
        );
        assert!(matches!(
            wait("4A"),
            Waiting::Lay {
                kind: CoatKind::Seal,
                done: 0,
                ..
            }
        ));
        let words = wait("4B").words(now, NEW_YORK);
        assert_eq!(words, "held: left end coat 3 of 3 missing", "{when}");
        assert!(matches!(wait("5A"), Waiting::Cure { .. }), "{when}");
        assert_eq!(wait("6A"), Waiting::SetList { done: 4, of: 7 }, "{when}");
        assert!(matches!(wait("6B"), Waiting::Finished { .. }), "{when}");
        assert!(file(&shop, "6B").piece.finished && !file(&shop, "6A").piece.finished);
        assert_eq!(dry_in("7A"), 3 * 60, "{when}: the run is coming back up");
        assert!(
            !Ticket::of(file(&shop, "7C")).started,
            "{when}: one piece is untouched"
        );
    }
}

#[test]
fn the_run_was_sanded_back_with_its_reason_and_only_its_face_lost_coats() {
    let (_, now) = moments()[0];
    let shop = opened(now, NEW_YORK);
    let service = file(&shop, "7A");
    let reasons: Vec<&str> = service
        .events
        .iter()
        .filter_map(|event| match &event.what {
            What::SandBack { reason, .. } => Some(reason.as_str()),
            _ => None,
        })
        .collect();
    assert_eq!(reasons, ["run along the front edge, left of the middle"]);
    let ticket = Ticket::of(service);
    let counts: Vec<(String, u8)> = ticket
        .faces
        .iter()
        .map(|face| (face.key.code(), face.count(CoatKind::Topcoat)))
        .collect();
    for (code, count) in counts {
        assert_eq!(count, if code == "front" { 1 } else { 3 }, "{code}");
    }
    let back = Ticket::of(file(&shop, "4B"));
    let hidden = back.faces.iter().find_map(|face| face.not_exposed.clone());
    assert_eq!(
        hidden.as_deref(),
        Some("let 3/8 in into the wall and glued there")
    );
}

#[test]
fn one_pass_lies_over_several_pieces_and_is_shared_by_area() {
    let (_, now) = moments()[0];
    let shop = opened(now, NEW_YORK);
    let mut shares: BTreeMap<Uuid, Vec<(f64, i64)>> = BTreeMap::new();
    for event in shop.files.iter().flat_map(|file| &file.events) {
        if let What::Coat {
            pass, faces, used, ..
        } = &event.what
        {
            let area = faces.iter().map(|(_, area)| area.m2()).sum();
            shares.entry(pass.0).or_default().push((area, used.ul()));
        }
    }
    assert!(
        shares.values().any(|parts| parts.len() == 3),
        "one pass over three pieces"
    );
    for pass in &shop.passes {
        let parts = &shares[&pass.id.0];
        let (total, used): (f64, i64) = parts
            .iter()
            .fold((0.0, 0), |sum, part| (sum.0 + part.0, sum.1 + part.1));
        assert_eq!(used, pass.amount.volume.ul());
        let product = shop.product(pass.product).unwrap();
        let usual = product
            .label
            .spread
            .volume_for(tackfree::units::Area::from_m2(total));
        let odd = pass.amount.volume.ml() / usual.ml();
        assert!(
            (0.5..2.0).contains(&odd),
            "{:?} is {odd} times what it takes",
            pass.amount
        );
        if pass.amount.basis == AmountBasis::Estimated {
            assert_eq!(pass.amount.volume, usual);
        }
    }
}

#[test]
fn it_opens_over_the_starting_stock_and_only_where_no_client_is() {
    let now = utc("2026-06-10T13:00:00Z");
    let mut store = Store::in_memory().unwrap();
    let mut mint = Mint::new(Uuid::nil(), 5);
    let settings = tackfree::shop::Settings::starting(NEW_YORK);
    let mut desk = tackfree::desk::Desk {
        books: &mut store,
        now,
        mint: &mut mint,
        zone: NEW_YORK,
    };
    desk.furnish(&settings).unwrap();
    let stock: Vec<_> = store
        .products()
        .unwrap()
        .iter()
        .map(|product| product.id)
        .collect();
    load_demo(&mut store, now, &mut mint, NEW_YORK, &LabelHours).unwrap();
    let after: Vec<_> = store
        .products()
        .unwrap()
        .iter()
        .map(|product| product.id)
        .collect();
    assert_eq!(
        stock, after,
        "products of the same name keep their identifiers"
    );
    assert_eq!(store.recipes().unwrap().len(), 4);
    let again = load_demo(&mut store, now, &mut mint, NEW_YORK, &LabelHours).unwrap_err();
    assert_eq!(again, tackfree::store::files::FilesError::NotEmpty);
    assert_eq!(
        store.journal(10).unwrap().len(),
        2,
        "one line for the whole demo"
    );
    assert!(
        store.journal(1).unwrap()[0]
            .words
            .starts_with("Opened the demo shop: 6 clients, 7 jobs, 18 pieces")
    );
    assert_eq!(store.undo(now).unwrap(), None, "the demo is a beginning");
    assert_eq!(store.clients().unwrap().len(), 6);
    assert!(store.last_id().unwrap() < mint.next(now.timestamp_millis()));
}

#[test]
fn the_carried_files_are_those_of_the_folder() {
    for (name, text) in demo_files() {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("demo-data")
            .join(name);
        assert_eq!(std::fs::read_to_string(path).unwrap(), text, "{name}");
    }
}
