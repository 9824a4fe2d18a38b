//! A small invented shop in which something stands in every state the list screens tell apart.

use super::maker::Maker;
use chrono::{DateTime, Duration, NaiveDate, Utc};
use chrono_tz::Tz;
use tackfree::coating::id::Mint;
use tackfree::coating::{Product, ShopAirClock};
use tackfree::desk::{JournalLine, Shop};
use tackfree::shape::{EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Shape};
use tackfree::shop::{
    AmountBasis, ClientId, CoatKind, JobId, PieceFile, PieceId, SetItem, Settings, Ticket, What,
    planned_use, ready_products, ready_recipes,
};
use tackfree::tui::kit::Theme;
use tackfree::tui::screen::Ctx;
use tackfree::units::{Length, Mass, Volume};
use uuid::Uuid;

/// The shop, its journal, and the look it is drawn with.
pub struct Sample {
    pub shop: Shop,
    pub journal: Vec<JournalLine>,
    pub theme: Theme,
    pub clock: ShopAirClock,
}

/// Thursday 12 March 2026, 2 pm in the shop's zone.
pub fn now() -> DateTime<Utc> {
    DateTime::from_timestamp(1_773_342_000, 0).unwrap()
}

pub fn date(ahead: i64) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 3, 12).unwrap() + Duration::days(ahead)
}

const ZONE: Tz = Tz::America__Chicago;

impl Sample {
    pub fn ctx(&self) -> Ctx<'_> {
        Ctx {
            shop: &self.shop,
            journal: &self.journal,
            now: now(),
            clock: &self.clock,
            theme: &self.theme,
        }
    }

    /// The piece with this ticket number.
    pub fn piece(&self, ticket: &str) -> PieceId {
        self.shop.find_piece(ticket).expect(ticket).piece.id
    }

    pub fn client(&self, n: usize) -> ClientId {
        self.shop.clients[n].id
    }

    pub fn job(&self, no: &str) -> JobId {
        self.shop.find_job(no).expect(no).id
    }
}

/// A shop with products and recipes, but nobody in the book yet.
pub fn empty() -> Sample {
    let mut mint = Mint::new(Uuid::nil(), 7);
    let at = now().timestamp_millis();
    let products = ready_products(&mut mint, at);
    let recipes = ready_recipes(&products, &mut mint, at);
    Sample {
        shop: Shop {
            products,
            recipes,
            ..Shop::blank(Settings::starting(ZONE))
        },
        clock: Shop::blank(Settings::starting(ZONE)).clock(),
        journal: Vec::new(),
        theme: Theme::plain(),
    }
}

/// One that also lacks products and recipes.
pub fn bare() -> Sample {
    let mut sample = empty();
    sample.shop.products.clear();
    sample.shop.recipes.clear();
    sample
}

fn inch(quarters: i64) -> Length {
    Length::from_64ths(quarters * 16)
}

fn rectangle(length: i64, width: i64, openings: Vec<Opening>, band: Option<Length>) -> Shape {
    let outline = Outline::Rectangle {
        length: inch(length * 4),
        width: inch(width * 4),
    };
    Shape::new(
        outline,
        inch(6),
        EdgeProfile::RoundOver(inch(1)),
        openings,
        band,
    )
    .unwrap()
}

fn island() -> Shape {
    let place = |x: i64, y: i64| Place {
        x: inch(x * 4),
        y: inch(y * 4),
    };
    let cutout = OpeningKind::Cutout {
        width: inch(120),
        depth: inch(64),
        corner_radius: inch(3),
    };
    let hole = OpeningKind::Hole {
        diameter: Length::from_64ths(88),
    };
    let openings = vec![
        Opening {
            no: 1,
            place: place(49, 12),
            what: cutout,
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        },
        Opening {
            no: 1,
            place: place(49, 23),
            what: hole,
            purpose: Purpose::Plain,
            profile: EdgeProfile::Square,
        },
    ];
    rectangle(98, 26, openings, Some(inch(8)))
}

fn ago(hours: i64) -> DateTime<Utc> {
    now() - Duration::hours(hours)
}

/// A shop at work.
pub fn at_work() -> Sample {
    let start = empty();
    let mut maker = Maker {
        shop: start.shop,
        mint: Mint::new(Uuid::from_u128(1 << 126), 9),
    };
    let maren = maker.client(
        "Maren Osterby",
        "555 0142",
        "Rings back after five.\nDog in the yard.",
    );
    let zoe = maker.client("Zoe\u{301} 木村 and daughters", "", "");
    maker.client("Quarry Lane chapel", "555 0177", "");
    let island_job = maker.job(12, maren, "kitchen island and perimeter counter", Some(6));
    let bar_job = maker.job(13, zoe, "bar 木の台", Some(-2));
    let stair_job = maker.job(14, zoe, "stair", None);
    let step = rectangle(44, 11, vec![], None);
    maker.piece(stair_job, 0, "first step", 2, step);

    let island = maker.piece(island_job, 0, "island top", 1, island());
    let counter = maker.piece(
        island_job,
        1,
        "counter left of the range",
        1,
        rectangle(60, 25, vec![], None),
    );
    let bar = maker.piece(
        bar_job,
        0,
        "bar top with a long name that does not fit beside its state",
        0,
        rectangle(90, 18, vec![], None),
    );
    let shelf = maker.piece(bar_job, 1, "shelf", 2, rectangle(40, 10, vec![], None));
    let tread = maker.piece(bar_job, 2, "tread", 0, rectangle(42, 11, vec![], None));
    let round = Shape::new(
        Outline::Circle {
            diameter: inch(120),
        },
        inch(5),
        EdgeProfile::Square,
        vec![],
        None,
    );
    let round = maker.piece(bar_job, 3, "round table", 3, round.unwrap());

    lay_coats(&mut maker, island, counter, bar, shelf);
    maker.sand(tread, now() - Duration::minutes(10));
    maker.move_on(tread, now() - Duration::minutes(10));
    maker.sand(round, ago(400));
    maker.move_on(round, ago(390));
    maker.coat(&[round], CoatKind::Seal, ago(390), AmountBasis::Measured);
    maker.move_on(round, ago(380));
    for hours in [380, 370, 360] {
        maker.coat(
            &[round],
            CoatKind::Topcoat,
            ago(hours),
            AmountBasis::Measured,
        );
    }
    maker.move_on(round, ago(250));
    for item in SetItem::ALL {
        maker.log(round, ago(240), What::SetList { item, done: true });
    }
    maker
        .shop
        .files
        .sort_by_key(|file| (file.piece.job, file.piece.no));
    let journal = journal();
    Sample {
        shop: maker.shop,
        journal,
        theme: start.theme,
        clock: start.clock,
    }
}

fn lay_coats(maker: &mut Maker, island: usize, counter: usize, bar: usize, shelf: usize) {
    maker.sand(island, ago(200));
    maker.move_on(island, ago(190));
    maker.coat(&[island], CoatKind::Seal, ago(190), AmountBasis::Estimated);
    maker.move_on(island, ago(180));
    maker.coat(&[island], CoatKind::Stain, ago(180), AmountBasis::Measured);
    maker.wipe_off(island, ago(180));
    maker.move_on(island, ago(100));
    maker.coat(
        &[island],
        CoatKind::Topcoat,
        ago(20),
        AmountBasis::Estimated,
    );
    let (before, after) = (Mass::from_g(812.0), Mass::from_g(590.0));
    maker.coat(
        &[island],
        CoatKind::Topcoat,
        ago(2),
        AmountBasis::Weighed { before, after },
    );
    let ticket = Ticket::of(&maker.shop.files[counter]);
    let grit = ticket.grits()[0];
    for face in &ticket.faces[..4] {
        maker.log(
            counter,
            ago(3),
            What::Tick {
                face: face.key,
                grit,
            },
        );
    }
    for file in [bar, shelf] {
        maker.sand(file, ago(90));
        maker.move_on(file, ago(89));
    }
    maker.coat(&[bar], CoatKind::Seal, ago(80), AmountBasis::Estimated);
    maker.move_on(bar, ago(70));
    maker.coat(&[bar], CoatKind::Topcoat, ago(30), AmountBasis::Estimated);
    maker.coat(&[shelf], CoatKind::Topcoat, ago(40), AmountBasis::Estimated);
}

fn journal() -> Vec<JournalLine> {
    let line = |no, hours, words: &str, undone| JournalLine {
        no,
        at: ago(hours),
        words: words.to_owned(),
        undone,
    };
    vec![
        line(9, 0, "Undone: Scuffed 13B shelf", false),
        line(8, 1, "Scuffed 13B shelf with a synthetic pad", true),
        line(
            7,
            2,
            "Laid coat 2 of clear wiping varnish on 12A island top: underside band, top, front edge, back edge, left end, right end, cutout 1 wall, hole 1 wall; 2.4 fl oz weighed",
            false,
        ),
        line(6, 26, "Entered Zoe\u{301} 木村 and daughters", false),
        line(
            5,
            400,
            "Opened the shop with starting products and recipes",
            false,
        ),
    ]
}

/// What the schedules plan of everything, for a check by another road.
pub fn planned(products: &[Product], file: &PieceFile, kind: CoatKind) -> Volume {
    planned_use(file, products)
        .iter()
        .filter(|p| p.kind == kind)
        .map(|p| p.volume)
        .sum()
}
