//! Moisture readings, sites, the lie of pieces, own woods and the rule of readiness: kept on disk
//! as they were noted, refused with words when they cannot be, undone and done again.

#[allow(dead_code, reason = "another test's shop, of which this uses a part")]
#[path = "store/shop.rs"]
mod shop;

use chrono::Duration;
use shop::{Trial, ZONE, counter, inches};
use tackfree::desk::{Action, Books, DeskError, Made, Scope, Shop, Which};
use tackfree::shop::{JobId, Moisture, PieceId, PieceWood, ReadingId, Site, SiteAir, WoodId};
use tackfree::store::Store;
use tackfree::units::{Humidity, Temperature};
use tackfree::wood::moisture::{
    Air, Correction, Meter, MoistureContent, Reading, ReadyRule, Region, SiteNote,
};
use tackfree::wood::movement::{Grain, HoldLine, Situation, SpacingRule};
use tackfree::wood::species::OwnWood;

fn trial() -> (tempfile::TempDir, Trial, JobId, PieceId) {
    let folder = shop::light_folder();
    let mut trial = Trial::new(&folder.path().join("shop.store"));
    let client = trial.add_client("Ada Brook");
    let job = trial.add_job(client, "kitchen");
    let draft = trial.piece_draft(job, "counter", counter());
    let piece = trial.add_piece(draft);
    (folder, trial, job, piece)
}

fn content(percent: f64) -> MoistureContent {
    MoistureContent::from_percent(percent).expect("a moisture content")
}

fn reading(trial: &Trial, days_ago: i64, percent: f64) -> Reading {
    Reading {
        at: trial.now - Duration::days(days_ago),
        place: "underside, left end".to_owned(),
        depth: Some(inches(0, 3, 8)),
        meter: Meter::Pin,
        correction: Correction::Added { tenths: -7 },
        percent: content(percent),
    }
}

fn add(trial: &mut Trial, piece: PieceId, reading: &Reading) -> ReadingId {
    let action = Action::SaveMoisture(Which::New, piece, reading.clone());
    match trial.done(&action).made {
        Made::Moisture(id) => id,
        other => panic!("{other:?}"),
    }
}

fn shop_of(trial: &Trial) -> Shop {
    Shop::read(&trial.store, Scope::All, ZONE).expect("the shop")
}

fn lie_of(trial: &Trial, piece: PieceId) -> PieceWood {
    let shop = shop_of(trial);
    shop.wood.lie(&shop.file(piece).expect("the piece").piece)
}

fn refused(trial: &mut Trial, action: &Action) -> String {
    let before = shop_of(trial);
    let error = trial.perform(action).expect_err("refused");
    assert_eq!(shop_of(trial), before, "nothing of it is kept");
    error.to_string()
}

#[test]
fn readings_come_back_in_order_of_time_as_they_were_noted() {
    let (folder, mut trial, _, piece) = trial();
    let (old, new) = (reading(&trial, 9, 9.4), reading(&trial, 2, 8.8));
    let second = add(&mut trial, piece, &new);
    let first = add(&mut trial, piece, &old);
    drop(trial);
    let store = Store::open(&folder.path().join("shop.store")).expect("again");
    let shop = Shop::read(&store, Scope::One(piece), ZONE).expect("the shop");
    let of = |id, reading: &Reading| Moisture {
        id,
        piece,
        reading: reading.clone(),
    };
    assert_eq!(shop.moisture(piece), [of(first, &old), of(second, &new)]);
    assert_eq!(
        store.last_id(),
        Ok(first.0),
        "readings count among the identifiers"
    );
}

#[test]
fn a_reading_is_corrected_removed_and_all_of_it_undone() {
    let (_folder, mut trial, _, piece) = trial();
    let noted = reading(&trial, 1, 9.4);
    let id = add(&mut trial, piece, &noted);
    let better = Reading {
        percent: content(8.9),
        ..noted.clone()
    };
    let done = trial.done(&Action::SaveMoisture(
        Which::This(id),
        piece,
        better.clone(),
    ));
    assert_eq!(
        done.words,
        "Corrected a reading of 1A counter: 8.2% at underside, left end (pin meter, 3/8\" (9.5 mm) \
         deep; -0.7 points for the species)"
    );
    assert_eq!(shop_of(&trial).moisture(piece)[0].reading, better);
    trial.done(&Action::RemoveMoisture(id));
    assert!(shop_of(&trial).moisture(piece).is_empty());
    trial.done(&Action::Undo);
    trial.done(&Action::Undo);
    assert_eq!(shop_of(&trial).moisture(piece)[0].reading, noted);
    trial.done(&Action::Redo);
    assert_eq!(shop_of(&trial).moisture(piece)[0].reading, better);
}

#[test]
fn readings_that_cannot_be_are_refused_with_words() {
    let (_folder, mut trial, _, piece) = trial();
    let good = reading(&trial, 1, 9.4);
    let save = |reading: Reading| Action::SaveMoisture(Which::New, piece, reading);
    let no_place = save(Reading {
        place: " ".to_owned(),
        ..good.clone()
    });
    assert!(refused(&mut trial, &no_place).starts_with("Say where on the piece"));
    let ahead = save(Reading {
        at: trial.now + Duration::minutes(5),
        ..good.clone()
    });
    assert!(refused(&mut trial, &ahead).contains("cannot lie ahead"));
    let below = save(Reading {
        percent: content(0.5),
        ..good.clone()
    });
    assert!(refused(&mut trial, &below).contains("comes out below 0 %"));
    let missing = ReadingId(uuid::Uuid::from_u128(5));
    let other = Action::SaveMoisture(Which::This(missing), piece, good);
    assert!(refused(&mut trial, &other).contains("no such moisture reading"));
    assert!(refused(&mut trial, &Action::RemoveMoisture(missing)).contains("no such"));
}

#[test]
fn a_reading_is_kept_to_the_tenth_and_clean_of_control_characters() {
    let (_folder, mut trial, _, piece) = trial();
    let wild = Reading {
        place: "top\u{1b}[2J, middle".to_owned(),
        percent: content(8.849),
        ..reading(&trial, 1, 9.0)
    };
    add(&mut trial, piece, &wild);
    let shop = shop_of(&trial);
    let kept = &shop.moisture(piece)[0].reading;
    assert_eq!(kept.percent, content(8.8));
    assert!(!kept.place.contains('\u{1b}'), "{}", kept.place);
}

#[test]
fn a_piece_takes_its_readings_along_when_it_is_removed_and_brings_them_back() {
    let (_folder, mut trial, _, piece) = trial();
    let noted = reading(&trial, 1, 9.4);
    add(&mut trial, piece, &noted);
    trial.done(&Action::SavePieceWood(PieceWood {
        grain: Grain::Flat,
        ..PieceWood::unsaid(piece)
    }));
    let before = shop_of(&trial);
    trial.done(&Action::RemovePiece(piece));
    assert!(shop_of(&trial).wood.readings.is_empty());
    trial.done(&Action::Undo);
    assert_eq!(shop_of(&trial), before);
}

#[test]
fn a_site_is_noted_by_air_region_or_figures_with_its_cautions() {
    let (_folder, mut trial, job, piece) = trial();
    let air = |f: f64, rh| {
        Air::new(
            Temperature::from_f(f),
            Humidity::from_percent(rh).expect("a humidity"),
        )
    };
    let site = Site {
        job,
        air: Some(SiteAir::Air {
            winter: air(70.0, 30.0),
            summer: air(75.0, 55.0),
        }),
        radiant_floor: true,
        new_slab: false,
    };
    let done = trial.done(&Action::SaveSite(site));
    assert!(done.notes[0].contains("winter air 70 F, 30%"), "{done:?}");
    assert_eq!(done.notes[1], SiteNote::RadiantFloor.caution());
    assert_eq!(shop_of(&trial).wood.site(job), site);
    for air in [
        None,
        Some(SiteAir::Region(Region::DrySouthwest)),
        Some(SiteAir::Given {
            driest: content(5.5),
            wettest: content(9.5),
        }),
    ] {
        let site = Site {
            air,
            new_slab: true,
            ..site
        };
        trial.done(&Action::SaveSite(site));
        assert_eq!(shop_of(&trial).wood.site(job), site);
    }
    // A job takes its site along.
    trial.done(&Action::RemovePiece(piece));
    trial.done(&Action::RemoveJob(job));
    assert!(shop_of(&trial).wood.sites.is_empty());
    trial.done(&Action::Undo);
    assert_eq!(shop_of(&trial).wood.sites.len(), 1);
    let desert = Site {
        air: Some(SiteAir::Air {
            winter: air(-30.0, 30.0),
            summer: air(75.0, 55.0),
        }),
        ..site
    };
    assert!(refused(&mut trial, &Action::SaveSite(desert)).contains("-4 F to 270 F"));
}

#[test]
fn how_a_piece_lies_and_is_held_comes_back_and_bad_fasteners_are_refused() {
    let (_folder, mut trial, _, piece) = trial();
    assert_eq!(lie_of(&trial, piece), PieceWood::unsaid(piece));
    let lie = PieceWood {
        piece,
        wood: "sugar maple".to_owned(),
        grain: Grain::Mixed,
        held: HoldLine::Middle,
        screw: inches(0, 5, 16),
        spacing: SpacingRule::Own(inches(14, 0, 1)),
        eight: inches(0, 7, 8),
        situations: vec![Situation::DropInSink, Situation::BetweenWalls],
    };
    trial.done(&Action::SavePieceWood(lie.clone()));
    let kept = lie_of(&trial, piece);
    let wanted = PieceWood {
        wood: "Maple, sugar".to_owned(),
        situations: vec![Situation::BetweenWalls, Situation::DropInSink],
        ..lie.clone()
    };
    assert_eq!(kept, wanted);
    let thick = PieceWood {
        screw: inches(2, 0, 1),
        ..lie.clone()
    };
    assert!(refused(&mut trial, &Action::SavePieceWood(thick)).contains("A screw of 2\""));
    let unknown = PieceWood {
        wood: "unobtainium".to_owned(),
        ..lie
    };
    assert!(refused(&mut trial, &Action::SavePieceWood(unknown)).contains("No wood in the table"));
}

#[test]
fn own_woods_are_added_changed_and_removed_unless_pieces_are_of_them() {
    let (_folder, mut trial, _, piece) = trial();
    let wood = OwnWood {
        name: "Mill run elm".to_owned(),
        shrinkage: Some((4.2, 7.95)),
        coefficients: Some((0.00144, 0.00285)),
        gravity: Some(0.5),
        source: "the mill's sheet".to_owned(),
        ..OwnWood::default()
    };
    let Made::Wood(id) = trial.done(&Action::SaveWood(Which::New, wood.clone())).made else {
        panic!("no wood was made");
    };
    let shop = shop_of(&trial);
    assert_eq!(shop.wood.own[0].wood, wood, "figures come back exactly");
    assert!(shop.wood.table().named("mill run elm").is_some());
    let again = Action::SaveWood(Which::New, wood.clone());
    assert!(refused(&mut trial, &again).contains("in the table already"));
    let built_in = OwnWood {
        name: "Maple, sugar".to_owned(),
        ..wood.clone()
    };
    let error = refused(&mut trial, &Action::SaveWood(Which::New, built_in));
    assert!(error.contains("in the table already"));
    trial.done(&Action::SavePieceWood(PieceWood {
        wood: "mill run".to_owned(),
        ..PieceWood::unsaid(piece)
    }));
    let error = refused(&mut trial, &Action::RemoveWood(id));
    assert_eq!(
        error,
        "1A counter is of Mill run elm, so it keeps its name and stays; change the wood of those \
         first."
    );
    let renamed = OwnWood {
        name: "Elm".to_owned(),
        ..wood.clone()
    };
    refused(&mut trial, &Action::SaveWood(Which::This(id), renamed));
    let better = OwnWood {
        gravity: Some(0.52),
        ..wood
    };
    trial.done(&Action::SaveWood(Which::This(id), better.clone()));
    assert_eq!(shop_of(&trial).wood.own[0].wood, better);
    trial.done(&Action::SavePieceWood(PieceWood::unsaid(piece)));
    trial.done(&Action::RemoveWood(id));
    assert!(shop_of(&trial).wood.own.is_empty());
    let missing = Action::RemoveWood(WoodId(uuid::Uuid::from_u128(3)));
    assert!(matches!(trial.perform(&missing), Err(DeskError::Books(_))));
}

#[test]
fn the_rule_of_readiness_can_be_changed_within_reason() {
    let (_folder, mut trial, _, _) = trial();
    assert_eq!(shop_of(&trial).wood.rule, ReadyRule::default());
    let rule = ReadyRule {
        days_apart: 5,
        within: 0.3,
        care_over: content(9.0),
        stop_over: content(11.0),
        fresh_days: 10,
    };
    trial.done(&Action::SaveReadyRule(rule));
    assert_eq!(shop_of(&trial).wood.rule, rule);
    let never = ReadyRule {
        days_apart: 0,
        ..rule
    };
    assert!(refused(&mut trial, &Action::SaveReadyRule(never)).contains("one day apart"));
    trial.done(&Action::Undo);
    assert_eq!(shop_of(&trial).wood.rule, ReadyRule::default());
}
