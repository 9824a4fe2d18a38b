//! What the tests build on: the hand case, the starting products and recipes, moments of one week.

use chrono::{DateTime, TimeZone, Utc};
use chrono_tz::Tz;
use tackfree::coating::Product;
use tackfree::coating::id::Mint;
use tackfree::shape::{
    Construction, EdgeProfile, FaceKey, Opening, OpeningKind, Outline, Place, Purpose, Shape,
};
use tackfree::shop::{
    JobId, Piece, PieceId, PieceKind, RecipeId, Schedule, Stage, ready_products, ready_recipes,
};
use tackfree::units::Length;
use uuid::Uuid;

pub use FaceKey::{Back, Band, Cutout, Field, Front, Hole, Left, Right, Top, Underside};

/// The shop's zone in these tests.
pub const ZONE: Tz = chrono_tz::America::Chicago;

/// The faces of the hand case with a band, in their order.
pub const NINE: [FaceKey; 9] = [
    Top,
    Band,
    Field,
    Front,
    Back,
    Left,
    Right,
    Cutout(1),
    Hole(1),
];

/// Monday 24 November 2025, eight in the morning in the shop.
pub fn morning() -> DateTime<Utc> {
    local(24, 8, 0)
}

/// A moment of November 2025 on the shop's own clock.
pub fn local(day: u32, hour: u32, minute: u32) -> DateTime<Utc> {
    ZONE.with_ymd_and_hms(2025, 11, day, hour, minute, 0)
        .single()
        .unwrap()
        .with_timezone(&Utc)
}

pub fn inch(whole: i64, part: i64) -> Length {
    Length::from_64ths(whole * 64 + part)
}

pub fn hole(no: u8, x: i64, y: i64) -> Opening {
    let place = Place {
        x: inch(x, 0),
        y: inch(y, 0),
    };
    Opening {
        no,
        place,
        what: OpeningKind::Hole {
            diameter: inch(1, 24),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    }
}

/// 98 3/8 x 25 1/2 x 1 1/2 in, a 30 x 16 in cutout of 3/4 in corner radius, 1 3/8 in holes, and
/// a two-inch band if asked.
pub fn hand_case(band: bool, holes: &[Opening]) -> Shape {
    let cutout = Opening {
        no: 1,
        place: Place {
            x: inch(40, 0),
            y: inch(12, 48),
        },
        what: OpeningKind::Cutout {
            width: inch(30, 0),
            depth: inch(16, 0),
            corner_radius: inch(0, 48),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    };
    let outline = Outline::Rectangle {
        length: inch(98, 24),
        width: inch(25, 32),
    };
    let openings = std::iter::once(cutout)
        .chain(holes.iter().copied())
        .collect();
    let band = band.then(|| inch(2, 0));
    Shape::new(outline, inch(1, 32), EdgeProfile::Square, openings, band).unwrap()
}

pub fn piece(id: PieceId, shape: Shape) -> Piece {
    Piece {
        id,
        job: JobId(Uuid::nil()),
        no: 0,
        name: "sink run".to_owned(),
        kind: PieceKind::Counter,
        species: "hard maple".to_owned(),
        construction: Construction::EdgeGrain,
        shape,
        recipe: RecipeId(Uuid::nil()),
        schedule: None,
        stage: Stage::Sanding,
        finished: false,
    }
}

/// The starting products, and a schedule by the name of its recipe.
pub fn ready(recipe: &str) -> (Vec<Product>, Schedule) {
    let mut mint = Mint::new(Uuid::nil(), 7);
    let products = ready_products(&mut mint, 0);
    let recipes = ready_recipes(&products, &mut mint, 0);
    let found = recipes
        .into_iter()
        .find(|found| found.name == recipe)
        .unwrap();
    (products, found.schedule)
}

pub const CLEAR: &str = "clear wiped film";
pub const STAINED: &str = "gel stain under a wiped film";
pub const HARDWAX: &str = "hardwax oil on all sides";
pub const WATER: &str = "water-borne clear";
