//! The promise: the tally equals a calculation by hand from the areas, says what was measured and
//! what estimated, and splits a pass over several pieces without losing a drop.

mod support;

use std::f64::consts::PI;
use support::*;
use tackfree::coating::{Family, Product, ProductId};
use tackfree::shape::FaceKey;
use tackfree::shop::{
    Amount, AmountBasis, CoatKind, Event, EventId, Pass, PassId, PieceFile, PieceId, TallyRow,
    What, planned_use, tally,
};
use tackfree::units::{Area, Mass, Money, Volume};
use uuid::Uuid;

use CoatKind::{Seal, Stain, Topcoat};

/// Square inches of the hand case, by the formulas of a school book.
struct Hand {
    top: f64,
    edges: f64,
    ends: f64,
    cutout: f64,
    hole: f64,
}

impl Hand {
    fn new() -> Self {
        let corner = (4.0 - PI) * 0.75 * 0.75;
        let openings = 30.0 * 16.0 - corner + PI * 1.375 * 1.375 / 4.0;
        let around = 2.0 * (30.0 + 16.0) - 8.0 * 0.75 + 2.0 * PI * 0.75;
        Self {
            top: 98.375 * 25.5 - openings,
            edges: 2.0 * 98.375 * 1.5,
            ends: 2.0 * 25.5 * 1.5,
            cutout: around * 1.5,
            hole: PI * 1.375 * 1.5,
        }
    }

    /// Everything but the underside.
    fn shown(&self) -> f64 {
        self.top + self.edges + self.ends + self.cutout + self.hole
    }
}

/// Millilitres for so many square inches at a spread rate in m2/L.
fn by_hand(sq_in: f64, m2_per_l: f64) -> f64 {
    sq_in * 0.0254 * 0.0254 / m2_per_l * 1000.0
}

fn by_family(products: &[Product], family: Family) -> &Product {
    products
        .iter()
        .find(|product| product.family == family)
        .unwrap()
}

/// The hand case without a band, not started, and the products of its recipe.
fn hand_file(id: u128) -> (PieceFile, Vec<Product>) {
    let (products, schedule) = ready(STAINED);
    let piece = piece(
        PieceId(Uuid::from_u128(id)),
        hand_case(false, &[hole(1, 40, 23)]),
    );
    (
        PieceFile {
            piece,
            schedule,
            events: Vec::new(),
        },
        products,
    )
}

#[test]
fn planned_use_is_area_times_coats_over_spread() {
    let (file, products) = hand_file(1);
    let hand = Hand::new();
    // Stained, six coats on all that shows, one of sealer and five coats on the underside.
    let expected = [
        (Seal, Family::Shellac, hand.top, 9.8),
        (Stain, Family::OilGelStain, hand.shown(), 14.7),
        (
            Topcoat,
            Family::OilWipingVarnish,
            6.0 * hand.shown() + 5.0 * hand.top,
            15.3,
        ),
    ];
    let planned = planned_use(&file, &products);
    assert_eq!(planned.len(), 3);
    for ((kind, family, sq_in, m2_per_l), planned) in expected.into_iter().zip(&planned) {
        let product = by_family(&products, family);
        assert_eq!((planned.kind, planned.product), (kind, product.id));
        assert!((planned.area.sq_in() - sq_in).abs() < 1e-6, "{kind:?}");
        assert!(
            (planned.volume.ml() - by_hand(sq_in, m2_per_l)).abs() <= 0.000_5,
            "{kind:?}"
        );
    }
    // In round figures: 2028 sq in of top, 2542 sq in shown; a litre of varnish.
    assert!((hand.top - 2_027.5).abs() < 0.5 && (hand.shown() - 2_541.6).abs() < 0.5);
    assert!(
        (planned[2].volume.ml() - 1_070.5).abs() < 0.5,
        "{}",
        planned[2].volume.ml()
    );
}

#[test]
fn a_face_not_exposed_plans_nothing() {
    let mut bench = Bench::new(HARDWAX);
    let before = planned_use(&bench.file, &bench.products)[0].area;
    let back = bench.face(Back).area;
    bench.log(What::NotExposed {
        face: Back,
        reason: "glued to the wall rail".to_owned(),
    });
    let after = planned_use(&bench.file, &bench.products)[0].area;
    assert!(
        (before.m2() - after.m2() - 2.0 * back.m2()).abs() < 1e-12,
        "two coats of the back"
    );
}

fn pass(id: u128, product: ProductId, kind: CoatKind, amount: Amount) -> Pass {
    let at = morning();
    let id = PassId(Uuid::from_u128(id));
    Pass {
        id,
        kind,
        product,
        started: at,
        ended: at,
        amount,
        air: None,
        drawn: tackfree::shop::Drawn::default(),
    }
}

/// One line of a pass over these faces; what it used is the piece's share.
fn line(file: &PieceFile, pass: &Pass, faces: &[FaceKey], used: Volume) -> Event {
    let areas = file.piece.shape.faces(file.piece.construction);
    let faces = areas.iter().filter(|face| faces.contains(&face.key));
    let what = What::Coat {
        pass: pass.id,
        kind: pass.kind,
        product: pass.product,
        faces: faces.map(|face| (face.key, face.area)).collect(),
        started: pass.started,
        used,
    };
    Event {
        id: EventId(Uuid::nil()),
        at: pass.ended,
        what,
    }
}

fn row(rows: &[TallyRow], kind: CoatKind, product: ProductId) -> &TallyRow {
    rows.iter()
        .find(|row| (row.kind, row.product) == (kind, product))
        .unwrap()
}

#[test]
fn measured_and_estimated_are_told_apart() {
    let (mut file, products) = hand_file(1);
    let varnish = by_family(&products, Family::OilWipingVarnish);
    let amounts = [
        (120.0, AmountBasis::Estimated),
        (110.0, AmountBasis::Measured),
        (
            105.0,
            AmountBasis::Weighed {
                before: Mass::from_g(1000.0),
                after: Mass::from_g(909.7),
            },
        ),
        (90.0, AmountBasis::Estimated),
    ];
    let passes: Vec<Pass> = (1..)
        .zip(amounts)
        .map(|(no, (ml, basis))| {
            pass(
                no,
                varnish.id,
                Topcoat,
                Amount {
                    volume: Volume::from_ml(ml),
                    basis,
                },
            )
        })
        .collect();
    let faces = [Top, Front, Back];
    file.events = passes
        .iter()
        .map(|pass| line(&file, pass, &faces, pass.amount.volume))
        .collect();
    let rows = tally(std::slice::from_ref(&file), &passes, &products);
    let got = row(&rows, Topcoat, varnish.id);
    assert_eq!(got.estimated, Volume::from_ml(210.0));
    assert_eq!(got.measured, Volume::from_ml(215.0));
    assert_eq!(got.used(), Volume::from_ml(425.0));
    let hand = Hand::new();
    assert!((got.coated.sq_in() - 4.0 * (hand.top + hand.edges)).abs() < 1e-6);
    // 28.00 for a quart of 946.353 mL: 425 mL are 12.5746 of it.
    assert_eq!(got.cost, Money::from_cents(1_257));
    let planned = planned_use(&file, &products);
    assert_eq!(got.planned, planned[2].volume);
    assert_eq!(
        row(&rows, Stain, planned[1].product).used(),
        Volume::ZERO,
        "planned, not begun"
    );
    let kinds: Vec<CoatKind> = rows.iter().map(|row| row.kind).collect();
    assert_eq!(kinds, [Seal, Stain, Topcoat], "in the order of the stages");
}

#[test]
fn the_shares_of_a_pass_over_two_pieces_add_up() {
    let (mut one, products) = hand_file(1);
    let (mut two, _) = hand_file(2);
    let varnish = by_family(&products, Family::OilWipingVarnish);
    let whole = Volume::from_ul(123_457);
    let amount = Amount {
        volume: whole,
        basis: AmountBasis::Measured,
    };
    let pass = pass(1, varnish.id, Topcoat, amount);
    let (all, top) = ([Top, Front, Back, Left, Right, Cutout(1), Hole(1)], [Top]);
    let area = |file: &PieceFile, keys: &[FaceKey]| -> f64 {
        let faces = file.piece.shape.faces(file.piece.construction);
        faces
            .iter()
            .filter(|face| keys.contains(&face.key))
            .map(|face| face.area.m2())
            .sum()
    };
    let shares = whole.split(&[area(&one, &all), area(&two, &top)]);
    let hand = Hand::new();
    let fraction = hand.shown() / (hand.shown() + hand.top);
    assert!(
        (shares[0].ml() - whole.ml() * fraction).abs() <= 0.001,
        "split by area"
    );
    one.events.push(line(&one, &pass, &all, shares[0]));
    two.events.push(line(&two, &pass, &top, shares[1]));
    let passes = [pass];
    let of = |files: &[PieceFile]| {
        let rows = tally(files, &passes, &products);
        row(&rows, Topcoat, varnish.id).clone()
    };
    let each = [
        of(std::slice::from_ref(&one)),
        of(std::slice::from_ref(&two)),
    ];
    let both = of(&[one.clone(), two.clone()]);
    assert_eq!(both.measured, whole, "not a microlitre lost");
    assert_eq!(each[0].measured + each[1].measured, whole);
    assert_eq!(each[0].planned + each[1].planned, both.planned);
    assert!((both.coated.sq_in() - hand.shown() - hand.top).abs() < 1e-6);
}

#[test]
fn what_was_used_before_a_sand_back_was_used() {
    let mut bench = Bench::new(HARDWAX);
    bench.through_sanding();
    bench.coat(Topcoat, &NINE);
    bench.log(Bench::sand_back_of(80, &[Top]));
    let rows = tally(std::slice::from_ref(&bench.file), &[], &bench.products);
    assert_eq!(rows[0].used(), Volume::from_ul(1_000));
    let all: Area = bench.ticket.faces.iter().map(|face| face.area).sum();
    assert!((rows[0].coated.m2() - all.m2()).abs() < 1e-12);
}
