//! Hands to press keys with, and a shop with work under way.

use crate::shop::{job_id, now, shop};
use chrono::{DateTime, Duration, Utc};
use tackfree::coating::ProductId;
use tackfree::desk::{Action, Shop};
use tackfree::shape::{Construction, EdgeProfile, FaceKey, Outline, Shape};
use tackfree::shop::{
    Amount, AmountBasis, CoatKind, Event, EventId, Pass, PassId, Piece, PieceFile, PieceId,
    PieceKind, Stage, Ticket, What,
};
use tackfree::tui::forms::{FormKind, OpenForm};
use tackfree::tui::kit::Key;
use tackfree::tui::kit::form::FormAction;
use tackfree::units::{Length, Volume};
use uuid::Uuid;

pub fn open(kind: FormKind, shop: &Shop) -> OpenForm {
    OpenForm::new(kind, shop, now())
}

/// Presses keys: words in angle brackets are named keys, all else is typed.
pub fn press(open: &mut OpenForm, shop: &Shop, keys: &str) -> FormAction {
    let mut last = FormAction::None;
    let mut rest = keys;
    while let Some(first) = rest.chars().next() {
        let named = rest.strip_prefix('<').and_then(|tail| tail.split_once('>'));
        let (key, tail) = named.map_or_else(
            || (Key::Char(first), &rest[first.len_utf8()..]),
            |(name, tail)| (Key::from_name(name).unwrap(), tail),
        );
        rest = tail;
        last = open.key(&key, shop, now());
    }
    last
}

/// Presses keys that end in a submit, and takes the action.
pub fn act(kind: FormKind, shop: &Shop, keys: &str) -> Action {
    let mut open = open(kind, shop);
    assert_eq!(press(&mut open, shop, keys), FormAction::Submit, "{keys}");
    let action = open.submit(shop, now());
    action.unwrap_or_else(|| panic!("{keys}: {:?} {:?}", errors(&open), open.trouble))
}

/// Every field with an error.
pub fn errors(open: &OpenForm) -> Vec<(&'static str, String)> {
    let fields = open.form.fields().iter();
    fields
        .filter_map(|field| Some((field.id, field.error.clone()?)))
        .collect()
}

pub fn echo(open: &OpenForm, id: &str) -> String {
    open.form
        .field(id)
        .unwrap()
        .echo
        .clone()
        .unwrap_or_default()
}

pub fn piece_id(no: u32) -> PieceId {
    PieceId(Uuid::from_u128(1000 + u128::from(no)))
}

/// A shop with two counters that follow the first recipe.
pub fn two_tops() -> Shop {
    let mut shop = shop();
    for no in 0..2 {
        let piece = Piece {
            id: piece_id(no),
            job: job_id(),
            no,
            name: "sink top".to_owned(),
            kind: PieceKind::Counter,
            species: "hard maple".to_owned(),
            construction: Construction::EdgeGrain,
            shape: Shape::new(
                Outline::Rectangle {
                    length: Length::from_64ths(96 * 64),
                    width: Length::from_64ths(24 * 64),
                },
                Length::from_64ths(96),
                EdgeProfile::Square,
                Vec::new(),
                None,
            )
            .unwrap(),
            recipe: shop.recipes[0].id,
            schedule: None,
            stage: Stage::Sanding,
            finished: false,
        };
        let schedule = shop.recipes[0].schedule.clone();
        shop.files.push(PieceFile {
            piece,
            schedule,
            events: Vec::new(),
        });
    }
    shop
}

pub fn log(shop: &mut Shop, no: usize, at: DateTime<Utc>, what: What) {
    let file = &mut shop.files[no];
    let id = EventId(Uuid::from_u128(5000 + file.events.len() as u128));
    file.events.push(Event { id, at, what });
}

pub fn keys(shop: &Shop, no: usize) -> Vec<FaceKey> {
    Ticket::of(&shop.files[no])
        .faces
        .iter()
        .map(|face| face.key)
        .collect()
}

/// Sands every face through every grit.
pub fn sand(shop: &mut Shop, no: usize, at: DateTime<Utc>) {
    let ticket = Ticket::of(&shop.files[no]);
    for face in &ticket.faces {
        for grit in &ticket.plan(face).grits {
            log(
                shop,
                no,
                at,
                What::Tick {
                    face: face.key,
                    grit: *grit,
                },
            );
        }
    }
}

/// Lays one coat on every face.
pub fn coat(
    shop: &mut Shop,
    no: usize,
    kind: CoatKind,
    product: ProductId,
    at: DateTime<Utc>,
) -> PassId {
    let pass = PassId(Uuid::from_u128(7000 + shop.passes.len() as u128));
    let faces = Ticket::of(&shop.files[no])
        .faces
        .iter()
        .map(|face| (face.key, face.area))
        .collect();
    let used = Volume::from_ml(120.0);
    log(
        shop,
        no,
        at,
        What::Coat {
            pass,
            kind,
            product,
            faces,
            started: at,
            used,
        },
    );
    shop.passes.push(Pass {
        id: pass,
        kind,
        product,
        started: at,
        ended: at,
        amount: Amount {
            volume: used,
            basis: AmountBasis::Measured,
        },
        air: None,
        drawn: tackfree::shop::Drawn::default(),
    });
    pass
}

/// Brings a top to the stage of its topcoats, the seal coat laid some hours ago.
pub fn sealed(shop: &mut Shop, no: usize, hours_ago: i64) -> PassId {
    let at = now() - Duration::hours(hours_ago);
    sand(shop, no, at - Duration::hours(3));
    let faces = keys(shop, no);
    log(shop, no, at - Duration::hours(2), What::Wipe { faces });
    let moved = |from, to| What::Moved { from, to };
    log(
        shop,
        no,
        at - Duration::hours(1),
        moved(Stage::Sanding, Stage::Sealing),
    );
    let sealer = shop.recipes[0].schedule.sealer.unwrap();
    let pass = coat(shop, no, CoatKind::Seal, sealer, at);
    log(shop, no, at, moved(Stage::Sealing, Stage::Topcoats));
    pass
}
