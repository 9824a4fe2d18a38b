//! What is on record about wood goes out as files and comes back the same; exports of older versions
//! lack the files and are taken; what is wrong in them is said with its place.

#[allow(
    dead_code,
    reason = "another test's support, of which this uses a part"
)]
#[path = "files/support.rs"]
mod support;

use support::{ZONE, bring_in, contents, demo_but, demo_store, exported, refusal};
use tackfree::desk::{Books, Row, Scope, Shop};
use tackfree::shop::{PieceWood, ShopWood, Site, WoodBook, WoodId};
use tackfree::store::Store;
use tackfree::store::files::WOOD_NAMES;
use tackfree::units::Length;
use tackfree::wood::moisture::{MoistureContent, ReadyRule};
use tackfree::wood::movement::{Grain, HoldLine, Situation, SpacingRule};
use tackfree::wood::species::OwnWood;

fn book(store: &Store) -> WoodBook {
    let shop = Shop::read(store, Scope::All, ZONE).expect("the shop");
    shop.wood
}

#[test]
fn the_demo_shows_readings_sites_and_a_wood_of_its_own() {
    let book = book(&demo_store());
    assert!(book.readings.len() >= 10);
    assert_eq!(book.sites.len(), 4);
    assert_eq!(book.pieces.len(), 5);
    assert_eq!(book.own.len(), 1);
}

#[test]
fn every_way_of_saying_it_goes_round_byte_for_byte() {
    let mut store = demo_store();
    let shop = Shop::read(&store, Scope::All, ZONE).expect("the shop");
    let (piece, job) = (shop.files[7].piece.id, shop.jobs[2].id);
    let lie = PieceWood {
        piece,
        wood: "=Elm, \"odd\"".to_owned(),
        grain: Grain::Mixed,
        held: HoldLine::ThisEdge,
        screw: Length::from_nm(5_000_001),
        spacing: SpacingRule::Own(Length::from_mm(412)),
        eight: Length::from_mm(22),
        situations: Situation::ALL.into(),
    };
    let own = ShopWood {
        id: WoodId(store.last_id().expect("an identifier")),
        wood: OwnWood {
            name: "=Elm, \"odd\"".to_owned(),
            botanical: "Ulmus".to_owned(),
            shrinkage: Some((4.2, 8.125)),
            coefficients: Some((0.001_437_25, 0.002_85)),
            gravity: Some(0.512),
            source: "-1+1".to_owned(),
        },
    };
    let own = ShopWood {
        id: WoodId(uuid::Uuid::from_u128(own.id.0.as_u128() + 1)),
        ..own
    };
    let rule = ReadyRule {
        days_apart: 3,
        within: 0.3,
        stop_over: MoistureContent::from_percent(11.5).expect("a content"),
        ..ReadyRule::default()
    };
    let site = Site {
        radiant_floor: true,
        ..Site::unknown(job)
    };
    store.begin().expect("begun");
    for row in [
        Row::Wood(&own),
        Row::PieceWood(&lie),
        Row::ReadyRule(&rule),
        Row::Site(&site),
    ] {
        store.put(row).expect("put");
    }
    store
        .commit(support::utc(support::NOW), "Wrote")
        .expect("committed");
    let first = exported(&store);
    let (second, _) = bring_in(first.path()).expect("taken");
    assert_eq!(book(&second), book(&store));
    assert_eq!(contents(first.path()), contents(exported(&second).path()));
}

#[test]
fn an_export_without_files_about_wood_is_taken() {
    let folder = exported(&demo_store());
    for name in WOOD_NAMES {
        std::fs::remove_file(folder.path().join(name)).expect("removed");
    }
    let (store, report) = bring_in(folder.path()).expect("taken");
    assert_eq!(report.pieces, 18);
    assert_eq!(book(&store), WoodBook::default());
}

/// File, passage, what stands there instead, and what the answer must say.
const CASES: &[(&str, &str, &str, &str)] = &[
    ("moisture.csv", "12.2 %", "12.25 %", "write it to the tenth"),
    ("moisture.csv", "12.2 %", "260 %", "no moisture content"),
    (
        "moisture.csv",
        ",pin,3/8",
        ",nail,3/8",
        "not one of pin, pad, oven",
    ),
    (
        "moisture.csv",
        ",3/8 in,0.4",
        ",9 in,0.4",
        "lies between 0 and 6 in",
    ),
    (
        "moisture.csv",
        ",3/8 in,0.4",
        ",3/8 in,0.45",
        "points to add like 0.7",
    ),
    (
        "moisture.csv",
        "-19d 09:00",
        "2199-01-01T00:00:00Z",
        "ahead of now",
    ),
    ("moisture.csv", ",sink,", ",sunk,", "sunk"),
    (
        "sites.csv",
        "76 F,56 %",
        ",",
        "winter and summer air, or a region",
    ),
    ("sites.csv", "76 F,56 %", "76 F,", "write both, or neither"),
    ("sites.csv", "70 F,28 %", "-30 F,28 %", "-4 F to 270 F"),
    (
        "sites.csv",
        "6 %,10.5 %",
        "10.5 %,6 %",
        "driest and wettest",
    ),
    ("sites.csv", ",,,,most,", ",,,,moon,", "not one of most"),
    ("sites.csv", "\nbath,", "\nkitchen,", "site of job"),
    (
        "fastening.csv",
        "flat,front",
        "flatt,front",
        "not one of flat",
    ),
    ("fastening.csv", "1/4 in", "2 in", "at most 1 in"),
    ("fastening.csv", "Maple, sugar", "maple", "may be"),
    (
        "fastening.csv",
        "showing-joint",
        "joint",
        "not one of back-to-wall",
    ),
    (
        "fastening.csv",
        "\nbar-top,",
        "\nsink,",
        "fastening of piece",
    ),
    ("woods.toml", "\"8.1\"", "\"lots\"", "no figure"),
    ("woods.toml", "\"8.1\"", "\"80\"", "cannot be"),
    (
        "woods.toml",
        "Elm, depot beams",
        "Maple, sugar",
        "in the table already",
    ),
    (
        "woods.toml",
        "days_apart = 7",
        "days_apart = 0",
        "one day apart",
    ),
    ("woods.toml", "gravity", "weight", "unknown field"),
];

#[test]
fn what_is_wrong_is_said_with_its_place() {
    for (file, from, to, wants) in CASES {
        let said = refusal(&demo_but(file, from, to));
        assert!(said.contains(wants), "{file}: {to}: {said}");
        assert!(
            said.starts_with(file) && said.contains(", line "),
            "no place: {said}"
        );
        assert!(!said.contains('\n'), "{said}");
    }
}
