//! What is checked before a pass, from what the shop has on record. The figures behind each check
//! are tried against their sources with the drying clock; here it is what they are fed with.

use crate::hand::{Hand, clock, picks};
use chrono::Duration;
use tackfree::coating::{AirReading, Check, Family, ShopAir, Stands};
use tackfree::desk::{Action, AirSource, Books, LoggedAir, PassAsked, Row, Which, stands_words};
use tackfree::shop::{Air, CoatKind, PieceId};
use tackfree::units::{Humidity, Temperature};
use tackfree::wood::moisture::{Correction, Meter, MoistureContent, Reading};

const OIL: &str = "hardwax oil on all sides";
const STAINED: &str = "gel stain under a wiped film";

fn air(f: f64, percent: i32) -> Air {
    Air {
        temperature: Temperature::from_f(f),
        humidity: Humidity::from_tenths(percent * 10).unwrap(),
    }
}

/// Every condition in words, for a pass of the family's product on the faces that are due.
fn told(
    hand: &Hand,
    piece: PieceId,
    kind: CoatKind,
    family: Family,
    typed: Option<Air>,
) -> Vec<String> {
    let shop = hand.shop();
    let product = shop
        .products
        .iter()
        .find(|one| one.family == family)
        .unwrap();
    let on = [(piece, hand.ticket(piece).due_faces(kind))];
    let asked = PassAsked {
        on: &on,
        product,
        at: hand.now,
        air: typed,
    };
    let found = shop.conditions(&asked, &shop.clock());
    found
        .iter()
        .map(|one| shop.condition_words(one, hand.now))
        .collect()
}

fn starting<'a>(told: &'a [String], what: &str) -> Vec<&'a str> {
    told.iter()
        .map(String::as_str)
        .filter(|line| line.contains(what))
        .collect()
}

fn read(hand: &mut Hand, piece: PieceId, place: &str, percent: f64) {
    let reading = Reading {
        at: hand.now,
        place: place.to_owned(),
        depth: None,
        meter: Meter::Pad,
        correction: Correction::InMeter,
        percent: MoistureContent::from_percent(percent).unwrap(),
    };
    hand.done(&Action::SaveMoisture(Which::New, piece, reading));
}

fn shelf() -> (Hand, PieceId) {
    let mut hand = Hand::at("2026-11-25 08:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.through_sanding(shelf);
    hand.goes_on("2026-11-25 10:00");
    (hand, shelf)
}

#[test]
fn nothing_measured_is_not_known_and_says_what_would_do() {
    let (hand, shelf) = shelf();
    let told = told(&hand, shelf, CoatKind::Topcoat, Family::HardwaxOil, None);
    assert_eq!(told.len(), 4, "{told:#?}");
    assert!(
        told.iter().all(|line| line.starts_with("not known: ")),
        "{told:#?}"
    );
    assert!(
        told[0].contains("dew point not known: log the shop air"),
        "{told:#?}"
    );
    assert!(
        told[3].contains("1A long shelf: wood moisture not measured"),
        "{told:#?}"
    );
    assert!(
        told.iter().all(|line| line.ends_with(')')),
        "each with its source: {told:#?}"
    );
}

#[test]
fn typed_air_is_held_against_dew_point_and_limits() {
    let (hand, shelf) = shelf();
    let by = |typed| {
        told(
            &hand,
            shelf,
            CoatKind::Topcoat,
            Family::HardwaxOil,
            Some(typed),
        )
    };
    let fine = by(air(70.0, 45));
    assert_eq!(
        fine[..3]
            .iter()
            .filter(|line| line.starts_with("ok: "))
            .count(),
        3,
        "{fine:#?}"
    );
    // 60 F at 92 %: the dew point lies about 2 F below, where 5.4 F are asked.
    let damp = by(air(60.0, 92));
    assert!(damp[0].starts_with("wait: wood "), "{damp:#?}");
    assert!(
        damp[0].contains("over the dew point, 5.4 F asked"),
        "{damp:#?}"
    );
    assert!(damp[2].starts_with("wait: 92%"), "{damp:#?}");
    let cold = by(air(40.0, 45));
    assert!(cold[1].starts_with("wait: 40 F"), "{cold:#?}");
    let cool = by(air(62.0, 45));
    assert!(cool[1].starts_with("mind: 62 F"), "{cool:#?}");
}

#[test]
fn the_air_logs_reading_counts_while_it_holds() {
    let (mut hand, shelf) = shelf();
    let typed = air(70.0, 45);
    let logged = LoggedAir {
        reading: AirReading {
            at: clock("2026-11-25 07:30"),
            air: ShopAir {
                temperature: typed.temperature,
                humidity: typed.humidity,
            },
        },
        source: AirSource::Typed,
    };
    hand.store.begin().unwrap();
    hand.store.put(Row::Air(&logged)).unwrap();
    hand.store.commit(hand.now, "Read the air").unwrap();
    let with = told(&hand, shelf, CoatKind::Topcoat, Family::HardwaxOil, None);
    assert!(with[1].starts_with("ok: 70 F"), "{with:#?}");
    assert!(with[1].contains("shop air, read 7:30 am"), "{with:#?}");
    // What is typed with the pass comes first.
    let own = told(
        &hand,
        shelf,
        CoatKind::Topcoat,
        Family::HardwaxOil,
        Some(air(40.0, 45)),
    );
    assert!(own[1].starts_with("wait: 40 F"), "{own:#?}");
    // After twelve hours it is the usual air, which is no reading.
    hand.goes_on("2026-11-25 20:00");
    let stale = told(&hand, shelf, CoatKind::Topcoat, Family::HardwaxOil, None);
    assert!(stale[1].starts_with("not known: "), "{stale:#?}");
}

#[test]
fn the_wettest_of_the_newest_readings_is_held_against_the_limit() {
    let (mut hand, shelf) = shelf();
    let wood = |hand: &Hand| {
        let told = told(hand, shelf, CoatKind::Topcoat, Family::HardwaxOil, None);
        starting(&told, "moisture").join("\n")
    };
    read(&mut hand, shelf, "underside", 13.0);
    assert!(
        wood(&hand).starts_with("wait: 1A long shelf: wood at 13.0 %"),
        "{}",
        wood(&hand)
    );
    hand.now += Duration::hours(1);
    read(&mut hand, shelf, "left end", 10.5);
    assert!(
        wood(&hand).contains("13.0 %"),
        "the wettest: {}",
        wood(&hand)
    );
    hand.now += Duration::hours(1);
    read(&mut hand, shelf, "Underside", 9.0);
    assert!(
        wood(&hand).starts_with("mind: "),
        "the newest at a place: {}",
        wood(&hand)
    );
    assert!(
        wood(&hand).contains("left end, read 11:00 am"),
        "{}",
        wood(&hand)
    );
    hand.now += Duration::hours(1);
    read(&mut hand, shelf, "left end", 8.0);
    assert!(wood(&hand).starts_with("ok: "), "{}", wood(&hand));
    // Over a coat the wood is not asked for.
    hand.pass(&[shelf], CoatKind::Topcoat);
    assert_eq!(wood(&hand), "");
}

#[test]
fn the_wipe_must_have_flashed_off_and_the_stain_be_dry_for_the_base() {
    let mut hand = Hand::at("2026-11-25 08:00");
    let top = hand.piece("bar top", STAINED);
    hand.sand(top);
    hand.wipe(top);
    hand.move_on(top);
    let seal = |hand: &Hand| told(hand, top, CoatKind::Seal, Family::Shellac, None);
    let wet = seal(&hand);
    assert!(
        starting(&wet, "flashes off")[0].starts_with("wait: 1A bar top: "),
        "{wet:#?}"
    );
    hand.goes_on("2026-11-25 10:00");
    let gone = seal(&hand);
    assert!(
        starting(&gone, "wipe flashed off")[0].starts_with("ok: "),
        "{gone:#?}"
    );

    hand.pass(&[top], CoatKind::Seal);
    hand.goes_on("2026-11-25 15:00");
    hand.move_on(top);
    hand.pass(&[top], CoatKind::Stain);
    let at = hand.now;
    hand.done(&Action::WipeOff {
        picks: picks(&[top]),
        at,
    });
    let laid = hand.now;
    hand.move_on(top);
    let shop = hand.shop();
    let ready = |family| {
        let product = shop
            .products
            .iter()
            .find(|one| one.family == family)
            .unwrap();
        let on = [(top, hand.ticket(top).due_faces(CoatKind::Topcoat))];
        let asked = PassAsked {
            on: &on,
            product,
            at: hand.now,
            air: None,
        };
        let found = shop.conditions(&asked, &shop.clock());
        found.iter().find_map(|one| match one.finding.check {
            Check::StainDry { ready } => Some((ready, stands_words(one.finding.stands))),
            _ => None,
        })
    };
    let (own, word) = ready(Family::OilWipingVarnish).expect("stain below");
    let (other, _) = ready(Family::WaterBorne).expect("stain below");
    assert_eq!(word, "wait");
    assert!(
        other >= laid + Duration::hours(24) - Duration::seconds(5),
        "another base: a day"
    );
    assert!(own <= other, "its own base: {own} {other}");
    assert_eq!(stands_words(Stands::Unknown), "not known");
}
