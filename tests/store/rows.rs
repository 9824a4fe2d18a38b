//! Rows of every kind, with the values that a store might stumble over.

use crate::shop::{counter, inches, opening, table};
use chrono::{DateTime, Duration, NaiveDate, Utc};
use tackfree::coating::{
    Family, Figure, FigureBasis, FigureSet, LabelFigures, Product, ProductId, ProductKind,
    RecoatWindow, Span, Voc,
};
use tackfree::desk::{Books, Row};
use tackfree::shape::{Construction, EdgeProfile, FaceKey, Outline, Shape};
use tackfree::shop::{
    Air, Amount, AmountBasis, Client, ClientId, CoatKind, Event, EventId, Grit, GroupPlan, Job,
    JobId, LookChoice, Pass, PassId, Piece, PieceId, PieceKind, Recipe, RecipeId, Schedule,
    ScuffMeans, SetItem, Settings, Stage, TouchVerdict, What, WipeDown,
};
use tackfree::store::Store;
use tackfree::units::{
    Area, Density, Humidity, Length, LengthStyle, Mass, Money, SpreadRate, Temperature,
    TemperatureStyle, Volume, VolumeStyle,
};
use uuid::Uuid;

/// Text with all that a store may be handed: other scripts, quotes, a NUL, line ends.
pub const WILD: &str = "O\u{2019}Hara \u{1F332} \u{6749}\u{677F} \"x\" 'y' \\ \u{0}%_ \r\n\tend";

pub fn id(no: u128) -> Uuid {
    Uuid::from_u128((7_u128 << 76) | (2_u128 << 62) | no)
}

pub fn at(minutes: i64) -> DateTime<Utc> {
    opening() + Duration::minutes(minutes)
}

pub fn write(store: &mut Store, rows: &[Row<'_>]) {
    store.begin().expect("begun");
    for row in rows {
        store
            .put(*row)
            .unwrap_or_else(|error| panic!("{row:?}: {error}"));
    }
    store.commit(at(0), "Wrote rows").expect("committed");
}

pub fn plan(grits: &[u16]) -> GroupPlan {
    GroupPlan {
        grits: grits.iter().copied().map(Grit).collect(),
        seal_coats: 1,
        stained: true,
        topcoats: 6,
    }
}

pub fn schedule(scuff: Option<ScuffMeans>, wipe_down: WipeDown) -> Schedule {
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

pub fn label(basis: FigureBasis) -> LabelFigures {
    LabelFigures {
        // Decimals that no short text holds.
        spread: SpreadRate::from_sq_ft_per_gal(617.3).expect("a rate"),
        solids_pct: 100.0 / 3.0,
        wet_film: Some(Length::from_nm(68_581)),
        dry_film: (basis != FigureBasis::Label).then(|| Length::from_nm(33_020)),
        density: Density::from_lb_per_gal(7.123).expect("a density"),
        voc: Voc::from_g_per_l(445.754),
        reference: Temperature::from_f(77.3),
        reference_humidity: Humidity::from_tenths(455),
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
        from_label: match basis {
            FigureBasis::Label => Figure::ALL
                .into_iter()
                .filter(|f| *f != Figure::DryFilm)
                .collect(),
            FigureBasis::Mixed => [Figure::Voc, Figure::MaxHumidity].into_iter().collect(),
            FigureBasis::FamilyRange => FigureSet::NONE,
        },
    }
}

pub fn product(no: u128, kind: ProductKind, family: Family, basis: FigureBasis) -> Product {
    Product {
        id: ProductId(id(no)),
        name: format!("product {no} {WILD}"),
        kind,
        family,
        label: label(basis),
        can: Volume::from_ul(946_353),
        price: Money::from_cents(2_899),
    }
}

pub fn client() -> Client {
    Client {
        id: ClientId(id(1)),
        name: WILD.to_owned(),
        phone: String::new(),
        email: "a@b.example".to_owned(),
        address: "Stra\u{df}e 5".to_owned(),
        notes: WILD.repeat(300),
    }
}

pub fn job(house_built: Option<i32>, promised: Option<NaiveDate>) -> Job {
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

pub fn piece(no: u32, shape: Shape, own: Option<Schedule>) -> Piece {
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
pub fn log() -> Vec<Event> {
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

pub fn settings() -> Settings {
    Settings {
        shop_name: WILD.to_owned(),
        shop_address: "1 Yard".to_owned(),
        length: LengthStyle::Millimetres,
        temperature: TemperatureStyle::Celsius,
        volume: VolumeStyle::Millilitres,
        zone: chrono_tz::Europe::Berlin,
        look: LookChoice::Plain,
    }
}

/// One of each family and of each kind, in the order they are read.
pub fn products() -> Vec<Product> {
    let mut products: Vec<Product> = Family::ALL
        .into_iter()
        .zip(20..)
        .map(|(family, no)| product(no, ProductKind::Topcoat, family, FigureBasis::Label))
        .collect();
    for (kind, no) in ProductKind::ALL.into_iter().zip(60..) {
        let basis = match kind {
            ProductKind::Stain => FigureBasis::Mixed,
            _ => FigureBasis::FamilyRange,
        };
        products.push(product(no, kind, Family::Shellac, basis));
    }
    products.sort_by_key(|product| (product.kind, product.name.clone()));
    products
}

pub fn recipes() -> [Recipe; 3] {
    let spirits = WipeDown::With(ProductId(id(60)));
    [
        (30, None, WipeDown::NotAsked),
        (31, Some(ScuffMeans::Pad), WipeDown::Dry),
        (32, Some(ScuffMeans::FinePaper(Grit(400))), spirits),
    ]
    .map(|(no, scuff, wipe)| Recipe {
        id: RecipeId(id(no)),
        name: format!("recipe {no}"),
        schedule: schedule(scuff, wipe),
    })
}

/// One of each outline and edge profile.
pub fn pieces() -> [Piece; 4] {
    let own = schedule(Some(ScuffMeans::BrownPaper), WipeDown::Dry);
    let plain = |profile| {
        let outline = Outline::Rectangle {
            length: inches(30, 1, 64),
            width: inches(12, 0, 1),
        };
        Shape::new(outline, inches(1, 0, 1), profile, Vec::new(), None).expect("a shelf")
    };
    [
        piece(0, counter(), Some(own.clone())),
        piece(1, table(48), None),
        piece(2, plain(EdgeProfile::Square), None),
        piece(3, plain(EdgeProfile::Eased(inches(0, 1, 16))), Some(own)),
    ]
}

/// One of each basis.
pub fn passes() -> Vec<Pass> {
    let (before, after) = (Mass::from_mg(1_200_001), Mass::from_mg(3));
    let air = Air {
        temperature: Temperature::from_c(-3.125),
        humidity: Humidity::from_tenths(1000).expect("a humidity"),
    };
    [
        AmountBasis::Estimated,
        AmountBasis::Measured,
        AmountBasis::Weighed { before, after },
    ]
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
        drawn: tackfree::shop::Drawn::default(),
    })
    .collect()
}
