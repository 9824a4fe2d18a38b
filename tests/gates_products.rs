//! The promise: what is laid is of the kind the step needs, on faces the piece has, once each; and
//! where a product is not known, the gates hold rather than guess.

mod support;

use support::*;
use tackfree::coating::{Family, ProductId, ProductKind};
use tackfree::shop::{Blocker, CoatKind, Stage, Strictness, TouchVerdict, What, WipeDown};
use uuid::Uuid;

use CoatKind::{Seal, Topcoat};

fn of_product(bench: &Bench, kind: CoatKind, id: ProductId) -> What {
    let mut what = bench.coat_of(kind, &[Left]);
    let What::Coat { product, .. } = &mut what else {
        unreachable!()
    };
    *product = id;
    what
}

#[test]
fn a_coat_is_of_the_kind_its_step_needs() {
    let mut bench = Bench::new(CLEAR);
    bench.through_sanding();
    let id = |bench: &mut Bench, family| bench.product(family).id;
    let [spirits, stain, varnish] = [
        Family::MineralSpirits,
        Family::OilGelStain,
        Family::OilWipingVarnish,
    ]
    .map(|family| id(&mut bench, family));
    for strictness in [Strictness::Live, Strictness::Record] {
        bench.strictness = strictness;
        assert_eq!(
            bench.refusal(&of_product(&bench, Seal, spirits)),
            ["this step needs a sealer; the product is a wipe"]
        );
        assert_eq!(
            bench.refusal(&of_product(&bench, Seal, stain)),
            ["this step needs a sealer; the product is a stain"]
        );
        assert_eq!(
            bench.refusal(&of_product(&bench, Seal, ProductId(Uuid::max()))),
            ["the product is not on the shelf list"]
        );
        assert_eq!(
            bench.against(&of_product(&bench, Seal, varnish)),
            [],
            "a topcoat may seal, as thinned varnish does"
        );
    }
    bench.strictness = Strictness::Live;
    bench.lay_all(Seal);
    bench.move_on();
    let sealer = id(&mut bench, Family::Shellac);
    assert_eq!(
        bench.against(&of_product(&bench, Topcoat, sealer)),
        [Blocker::WrongProduct {
            is: ProductKind::Sealer,
            needs: ProductKind::Topcoat
        }]
    );
}

#[test]
fn a_face_is_named_once_and_must_be_there() {
    let mut bench = Bench::new(CLEAR);
    bench.through_sanding();
    assert_eq!(
        bench.refusal(&bench.coat_of(Seal, &[Top, Left, Top])),
        ["top: named twice"]
    );
    assert_eq!(
        bench.refusal(&bench.coat_of(Seal, &[Underside])),
        ["underside: this piece has no such face"],
        "it is split in band and field"
    );
    assert_eq!(
        bench.refusal(&bench.coat_of(Seal, &[])),
        ["no face was picked"]
    );
    let touch = What::Touch {
        faces: vec![Left],
        verdict: TouchVerdict::TackFree,
    };
    assert_eq!(bench.refusal(&touch), ["left end: carries no coat"]);
}

#[test]
fn work_belongs_to_its_stage() {
    let mut bench = Bench::new(CLEAR);
    assert!(
        bench
            .refusal(&bench.coat_of(Topcoat, &[Top]))
            .starts_with(&["the piece is in sanding; this belongs to topcoats".to_owned()])
    );
    bench.through_sanding();
    bench.lay_all(Seal);
    bench.move_on();
    assert_eq!(
        bench.refusal(&bench.coat_of(Seal, &[Top])),
        ["the piece is in topcoats; this belongs to sealing"]
    );
}

#[test]
fn drying_is_held_where_the_product_is_not_known() {
    let mut bench = Bench::new(CLEAR);
    bench.sand(&NINE);
    bench.wipe(&NINE);
    bench.move_on();
    let mut bench_without = |gone: Family, what: &dyn Fn(&Bench) -> What| {
        let at = bench
            .products
            .iter()
            .position(|product| product.family == gone)
            .unwrap();
        let product = bench.products.remove(at);
        let said = bench.against(&what(&bench));
        bench.products.insert(at, product);
        said
    };
    let seal = |bench: &Bench| bench.coat_of(Seal, &[Left]);
    let said = bench_without(Family::MineralSpirits, &seal);
    assert_eq!(
        said,
        [Blocker::NoProduct],
        "nobody knows when the wipe-down has left"
    );

    let mut bench = Bench::new(HARDWAX);
    assert_eq!(bench.ticket.schedule.wipe_down, WipeDown::Dry);
    bench.through_topcoats();
    bench
        .products
        .retain(|product| product.family != Family::HardwaxOil);
    let said = bench.against(&bench.move_to(Stage::Set));
    assert_eq!(
        said,
        vec![Blocker::NoProduct; 9],
        "nor when the oil has cured"
    );
}
