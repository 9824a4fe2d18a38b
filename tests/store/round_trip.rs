//! What goes in comes out, field for field.

use crate::shop::{Trial, counter, inches, opening, table};
use chrono::{DateTime, Duration, NaiveDate, Utc};
use tackfree::coating::{
    Family, FigureBasis, LabelFigures, Product, ProductId, ProductKind, RecoatWindow, Span,
};
use tackfree::desk::{Books, Row, Scope};
use tackfree::shape::{Construction, EdgeProfile, FaceKey, Outline, Shape};
use tackfree::shop::{
    Air, Amount, AmountBasis, Client, ClientId, CoatKind, Event, EventId, Grit, GroupPlan, Job,
    JobId, LookChoice, Pass, PassId, Piece, PieceFile, PieceId, PieceKind, Recipe, RecipeId,
    Schedule, ScuffMeans, SetItem, Settings, Stage, TouchVerdict, What, WipeDown,
};
use tackfree::store::Store;
use tackfree::units::{
    Area, Density, Humidity, LengthStyle, Mass, Money, SpreadRate, Temperature, TemperatureStyle,
    Volume, VolumeStyle,
};
use uuid::Uuid;

/// Text with all that a store may be handed: other scripts, quotes, a NUL, line ends.
const WILD: &str = "O\u{2019}Hara \u{1F332} \u{6749}\u{677F} \"x\" 'y' \\ \u{0}%_ \r\n\tend";

fn id(no: u128) -> Uuid {
    Uuid::from_u128((7_u128 << 76) | (2_u128 << 62) | no)
}

fn at(minutes: i64) -> DateTime<Utc> {
    opening() + Duration::minutes(minutes)
}

fn write(store: &mut Store, rows: &[Row<'_>]) {
    store.begin().expect("begun");
    for row in rows {
        store
            .put(*row)
            .unwrap_or_else(|error| panic!("{row:?}: {error}"));
    }
    store.commit(at(0), "Wrote rows").expect("committed");
}

fn plan(grits: &[u16]) -> GroupPlan {
    GroupPlan {
        grits: grits.iter().copied().map(Grit).collect(),
        seal_coats: 1,
        stained: true,
        topcoats: 6,
    }
}

fn schedule(scuff: Option<ScuffMeans>, wipe_down: WipeDown) -> Schedule {
    Schedule {
        show: plan(&[80, 120, 150]),
        end_grain: plan(&[80, 120, 150, 220]),
        underside: plan(&[80]),
        wipe_down,
        sealer: Some(ProductId(id(20))),
        stain: None,
        topcoat: Some(ProductId(id(21))),
        scuff,
        cure_before_set: Span::days(7),
        balance_allowance: 2,
    }
}

fn label() -> LabelFigures {
    LabelFigures {
        // Decimals that no short text holds.
        spread: SpreadRate::from_sq_ft_per_gal(617.3).expect("a rate"),
        solids_pct: 100.0 / 3.0,
        density: Density::from_lb_per_gal(7.123).expect("a density"),
        touch: Span::minutes(47),
        tack_free: Span::hours(5),
        windows: vec![
            RecoatWindow {
                opens: Span::hours(2),
                closes: Some(Span::hours(6)),
                scuff: true,
            },
            RecoatWindow {
                opens: Span::hours(72),
                closes: None,
                scuff: false,
            },
        ],
        handle: Span::hours(24),
        light_use: Span::days(3),
        full_cure: Span::days(30),
        min_temp: Temperature::from_f(50.3),
        max_humidity: Humidity::from_tenths(855).expect("a humidity"),
    }
}

fn product(no: u128, kind: ProductKind, family: Family, basis: FigureBasis) -> Product {
    Product {
        id: ProductId(id(no)),
        name: format!("product {no} {WILD}"),
        kind,
        family,
        basis,
        label: label(),
        can: Volume::from_ul(946_353),
        price: Money::from_cents(2_899),
    }
}

fn client() -> Client {
    Client {
        id: ClientId(id(1)),
        name: WILD.to_owned(),
        phone: String::new(),
        email: "a@b.example".to_owned(),
        address: "Stra\u{df}e 5".to_owned(),
        notes: WILD.repeat(300),
    }
}

fn job(house_built: Option<i32>, promised: Option<NaiveDate>) -> Job {
    Job {
        id: JobId(id(2)),
        no: u32::MAX,
        client: ClientId(id(1)),
        title: "kitchen".to_owned(),
        site: String::new(),
        house_built,
        promised,
        notes: String::new(),
        taken: NaiveDate::from_ymd_opt(2038, 1, 20).expect("a day"),
    }
}

fn piece(no: u32, shape: Shape, own: Option<Schedule>) -> Piece {
    Piece {
        id: PieceId(id(100 + u128::from(no))),
        job: JobId(id(2)),
        no,
        name: format!("top {no}"),
        kind: PieceKind::ALL[usize::try_from(no).expect("small") % PieceKind::ALL.len()],
        species: "walnut".to_owned(),
        construction: Construction::ALL[usize::try_from(no).expect("small") % 4],
        shape,
        recipe: RecipeId(id(30)),
        schedule: own,
        stage: Stage::ALL[usize::try_from(no).expect("small") % 5],
        finished: no % 2 == 1,
    }
}

/// A line of every kind.
fn log() -> Vec<Event> {
    let faces = vec![
        FaceKey::Top,
        FaceKey::Cutout(1),
        FaceKey::Hole(200),
        FaceKey::Top,
    ];
    let whats = vec![
        What::Tick {
            face: FaceKey::Left,
            grit: Grit(80),
        },
        What::Untick {
            face: FaceKey::Left,
            grit: Grit(80),
        },
        What::Wipe {
            faces: faces.clone(),
        },
        What::Coat {
            pass: PassId(id(40)),
            kind: CoatKind::Topcoat,
            product: ProductId(id(21)),
            faces: vec![
                (FaceKey::Top, Area::from_um2(1_618_400_123_456)),
                (FaceKey::Band, Area::from_um2(0)),
            ],
            started: at(-3),
            used: Volume::from_ul(123_456),
        },
        What::WipeOff { faces: Vec::new() },
        What::Scuff {
            faces: faces.clone(),
            means: ScuffMeans::FinePaper(Grit(320)),
        },
        What::Scuff {
            faces: faces.clone(),
            means: ScuffMeans::Pad,
        },
        What::Scuff {
            faces: faces.clone(),
            means: ScuffMeans::BrownPaper,
        },
        What::SandBack {
            faces,
            to: Grit(120),
            reason: WILD.to_owned(),
        },
        What::NotExposed {
            face: FaceKey::Back,
            reason: "glued to the wall".to_owned(),
        },
        What::Exposed {
            face: FaceKey::Back,
        },
        What::Reshaped {
            added: vec![FaceKey::Hole(3), FaceKey::Band],
            removed: vec![FaceKey::Rim, FaceKey::Field],
        },
        What::Reshaped {
            added: Vec::new(),
            removed: vec![FaceKey::Front],
        },
    ];
    let touches = TouchVerdict::ALL.map(|verdict| What::Touch {
        faces: vec![FaceKey::Rim],
        verdict,
    });
    let moves = Stage::ALL.map(|to| What::Moved {
        from: Stage::Set,
        to,
    });
    let set = SetItem::ALL.map(|item| What::SetList {
        item,
        done: item != SetItem::Clips,
    });
    let kinds = CoatKind::ALL.map(|kind| What::Coat {
        pass: PassId(id(41)),
        kind,
        product: ProductId(id(20)),
        faces: vec![(FaceKey::Underside, Area::from_um2(1))],
        started: at(0),
        used: Volume::ZERO,
    });
    whats
        .into_iter()
        .chain(touches)
        .chain(moves)
        .chain(set)
        .chain(kinds)
        .zip(500..)
        .map(|(what, no)| Event {
            id: EventId(id(no)),
            at: at(i64::try_from(no).expect("small")),
            what,
        })
        .collect()
}

#[test]
fn every_kind_of_row_comes_back_as_it_went_in() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("shop.store");
    let mut store = Store::open(&path).expect("a store");
    assert_eq!(store.settings(), Ok(None));
    assert_eq!(store.last_id(), Ok(Uuid::nil()));

    let settings = Settings {
        shop_name: WILD.to_owned(),
        shop_address: "1 Yard".to_owned(),
        length: LengthStyle::Millimetres,
        temperature: TemperatureStyle::Celsius,
        volume: VolumeStyle::Millilitres,
        zone: chrono_tz::Europe::Berlin,
        look: LookChoice::Plain,
    };
    let mut products: Vec<Product> = Family::ALL
        .into_iter()
        .zip(20..)
        .map(|(family, no)| product(no, ProductKind::Topcoat, family, FigureBasis::Label))
        .collect();
    for (kind, no) in ProductKind::ALL.into_iter().zip(60..) {
        products.push(product(no, kind, Family::Shellac, FigureBasis::FamilyRange));
    }
    let recipes = [
        (30, None, WipeDown::NotAsked),
        (31, Some(ScuffMeans::Pad), WipeDown::Dry),
        (
            32,
            Some(ScuffMeans::FinePaper(Grit(400))),
            WipeDown::With(ProductId(id(60))),
        ),
    ]
    .map(|(no, scuff, wipe)| Recipe {
        id: RecipeId(id(no)),
        name: format!("recipe {no}"),
        schedule: schedule(scuff, wipe),
    });
    let own = schedule(Some(ScuffMeans::BrownPaper), WipeDown::Dry);
    let plain = |profile| {
        let outline = Outline::Rectangle {
            length: inches(30, 1, 64),
            width: inches(12, 0, 1),
        };
        Shape::new(outline, inches(1, 0, 1), profile, Vec::new(), None).expect("a shelf")
    };
    let pieces = [
        piece(0, counter(), Some(own.clone())),
        piece(1, table(48), None),
        piece(2, plain(EdgeProfile::Square), None),
        piece(3, plain(EdgeProfile::Eased(inches(0, 1, 16))), Some(own)),
    ];
    let amounts = [
        AmountBasis::Estimated,
        AmountBasis::Measured,
        AmountBasis::Weighed {
            before: Mass::from_mg(1_200_001),
            after: Mass::from_mg(3),
        },
    ];
    let air = Air {
        temperature: Temperature::from_c(-3.125),
        humidity: Humidity::from_tenths(1000).expect("a humidity"),
    };
    let passes: Vec<Pass> = amounts
        .into_iter()
        .zip(40..)
        .map(|(basis, no)| Pass {
            id: PassId(id(no)),
            kind: CoatKind::Topcoat,
            product: ProductId(id(21)),
            started: at(i64::try_from(no).expect("small")),
            ended: at(1000),
            amount: Amount {
                volume: Volume::from_ul(777_001),
                basis,
            },
            air: (no == 41).then_some(air),
        })
        .collect();
    let (client, log) = (client(), log());
    let job = job(Some(1899), NaiveDate::from_ymd_opt(2039, 12, 31));

    let mut rows = vec![
        Row::Settings(&settings),
        Row::Client(&client),
        Row::Job(&job),
    ];
    rows.extend(products.iter().map(Row::Product));
    rows.extend(recipes.iter().map(Row::Recipe));
    rows.extend(pieces.iter().map(Row::Piece));
    rows.extend(passes.iter().map(Row::Pass));
    rows.extend(log.iter().map(|event| Row::Event(pieces[0].id, event)));
    write(&mut store, &rows);

    drop(store);
    let store = Store::open(&path).expect("again");
    assert_eq!(store.settings(), Ok(Some(settings)));
    assert_eq!(store.clients(), Ok(vec![client]));
    assert_eq!(store.jobs(), Ok(vec![job]));
    products.sort_by_key(|product| (product.kind, product.name.clone()));
    assert_eq!(store.products(), Ok(products));
    let [first, second, third] = recipes;
    assert_eq!(store.recipes(), Ok(vec![first.clone(), second, third]));
    let files: Vec<PieceFile> = pieces
        .iter()
        .map(|piece| PieceFile {
            piece: piece.clone(),
            schedule: piece
                .schedule
                .clone()
                .unwrap_or_else(|| first.schedule.clone()),
            events: if piece.no == 0 {
                log.clone()
            } else {
                Vec::new()
            },
        })
        .collect();
    assert_eq!(store.pieces(Scope::All), Ok(files));
    // Pass 42 went on no piece.
    assert_eq!(store.passes(Scope::All), Ok(passes[..2].to_vec()));
    for pass in &passes {
        assert_eq!(store.pass(pass.id), Ok(Some(pass.clone())));
    }
    assert_eq!(store.pass(PassId(id(99))), Ok(None));
    let highest = log.last().map(|event| event.id.0).expect("a log");
    assert_eq!(store.last_id(), Ok(highest));
    assert_eq!(store.check(), Ok(Vec::new()));
}

#[test]
fn a_job_may_leave_its_days_open() {
    let mut store = Store::in_memory().expect("a store");
    let (client, job) = (client(), job(None, None));
    write(&mut store, &[Row::Client(&client), Row::Job(&job)]);
    assert_eq!(store.jobs(), Ok(vec![job]));
}

#[test]
fn writing_again_replaces_and_leaves_nothing_behind() {
    let mut store = Store::in_memory().expect("a store");
    let (client, job) = (client(), job(None, None));
    let recipe = Recipe {
        id: RecipeId(id(30)),
        name: "one".to_owned(),
        schedule: schedule(None, WipeDown::Dry),
    };
    let mut piece = piece(0, counter(), None);
    let mut event = Event {
        id: EventId(id(500)),
        at: at(0),
        what: What::Wipe {
            faces: vec![FaceKey::Top, FaceKey::Left, FaceKey::Right],
        },
    };
    let rows = [
        Row::Client(&client),
        Row::Job(&job),
        Row::Recipe(&recipe),
        Row::Piece(&piece),
        Row::Event(piece.id, &event),
    ];
    write(&mut store, &rows);
    let draft: tackfree::shape::ShapeDraft = counter().into();
    let kept = draft.openings[1];
    piece.shape = Shape::new(
        draft.outline,
        draft.thickness,
        EdgeProfile::Square,
        vec![kept],
        None,
    )
    .expect("a counter");
    event.what = What::Wipe {
        faces: vec![FaceKey::Left],
    };
    write(
        &mut store,
        &[Row::Piece(&piece), Row::Event(piece.id, &event)],
    );
    let files = store.pieces(Scope::One(piece.id)).expect("read");
    assert_eq!(files[0].piece, piece);
    assert_eq!(files[0].events, [event]);
}

#[test]
fn scopes_choose_pieces_and_their_passes() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut trial = Trial::new(&folder.path().join("shop.store"));
    let client = trial.add_client("Ada");
    let (first, second) = (
        trial.add_job(client, "kitchen"),
        trial.add_job(client, "bar"),
    );
    let draft = trial.piece_draft(first, "counter", counter());
    let a = trial.add_piece(draft);
    let draft = trial.piece_draft(second, "table", table(40));
    let b = trial.add_piece(draft);
    let mut done = trial
        .store
        .pieces(Scope::One(b))
        .expect("read")
        .remove(0)
        .piece;
    done.finished = true;
    let set = |no, minutes, item| Event {
        id: EventId(id(no)),
        at: at(minutes),
        what: What::SetList { item, done: true },
    };
    let (early, late) = (set(1, 10, SetItem::DryFit), set(2, 20, SetItem::CareSheet));
    let product = trial.store.products().expect("products")[0].id;
    let pass = |no, started| Pass {
        id: PassId(id(no)),
        kind: CoatKind::Seal,
        product,
        started: at(started),
        ended: at(started + 5),
        amount: Amount {
            volume: Volume::ZERO,
            basis: AmountBasis::Estimated,
        },
        air: None,
    };
    let coat = |no, pass: &Pass| Event {
        id: EventId(id(no)),
        at: pass.ended,
        what: What::Coat {
            pass: pass.id,
            kind: pass.kind,
            product,
            faces: Vec::new(),
            started: pass.started,
            used: Volume::ZERO,
        },
    };
    let (both, only_b) = (pass(71, 9), pass(70, 1));
    let coats = [coat(3, &both), coat(4, &both), coat(5, &only_b)];
    write(
        &mut trial.store,
        &[
            Row::Pass(&both),
            Row::Pass(&only_b),
            Row::Event(a, &coats[0]),
            Row::Event(b, &coats[1]),
            Row::Event(b, &coats[2]),
            Row::Piece(&done),
            Row::Event(b, &early),
            Row::Event(b, &late),
        ],
    );
    let ids = |scope| -> Vec<PieceId> {
        let files = trial.store.pieces(scope).expect("read");
        files.iter().map(|file| file.piece.id).collect()
    };
    assert_eq!(ids(Scope::All), [a, b]);
    assert_eq!(ids(Scope::Job(second)), [b]);
    assert_eq!(ids(Scope::One(a)), [a]);
    assert_eq!(ids(Scope::One(PieceId(id(9)))), []);
    assert_eq!(ids(Scope::OpenSince(at(20))), [a, b]);
    assert_eq!(ids(Scope::OpenSince(at(21))), [a]);
    let passes = |scope| -> Vec<PassId> {
        let passes = trial.store.passes(scope).expect("read");
        passes.iter().map(|pass| pass.id).collect()
    };
    assert_eq!(passes(Scope::All), [only_b.id, both.id]);
    assert_eq!(passes(Scope::One(a)), [both.id]);
    assert_eq!(passes(Scope::OpenSince(at(21))), [both.id]);
    assert_eq!(passes(Scope::Job(second)), [only_b.id, both.id]);
}
