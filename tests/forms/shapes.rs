//! Outlines and what openings are for, by keys.

use crate::hands::{act, echo, errors, open, press};
use crate::shop::{job_id, now, shop};
use tackfree::desk::{Action, Which};
use tackfree::shape::{Corner, Outline, Purpose};
use tackfree::tui::forms::FormKind;

fn new() -> FormKind {
    FormKind::Piece(Which::New, Some(job_id()))
}

#[test]
fn an_l_with_a_sink_by_keys() {
    let shop = shop();
    let keys = "top<enter>L 120 x 96, run 25 1/2, leg 24, open front right<enter>ash<enter>\
                <enter><enter><enter><enter><enter><enter>round 1 inside<enter>\
                bowl 30 x 14 at 70, 84 sink undermount negative 3/8<enter>\
                1 3/8 at cutout 1, 2 1/2 from back faucet<enter>2 round openings<F2>";
    let Action::SavePiece(Which::New, draft) = act(new(), &shop, keys) else {
        panic!("a piece")
    };
    let Outline::L(ell) = draft.shape.outline() else {
        panic!("an L")
    };
    assert_eq!(ell.open, Corner::FrontRight);
    assert!(ell.corners.at(Corner::Inside).is_some());
    assert!(draft.shape.band_round_openings());
    assert!(draft.shape.openings()[0].purpose.sink().is_some());
    assert_eq!(draft.shape.openings()[1].purpose, Purpose::Faucet);
}

#[test]
fn what_is_measured_is_echoed_as_it_is_typed() {
    let shop = shop();
    let mut form = open(new(), &shop);
    press(
        &mut form,
        &shop,
        "top<enter>quad 60, 25, 60, 25, diagonal 65, other 64 7/8",
    );
    assert!(
        echo(&form, "size").ends_with(
            "second diagonal 64 7/8\" measured, 65\" by the sides: closing error -1/8\""
        ),
        "{}",
        echo(&form, "size")
    );
    let mut form = open(new(), &shop);
    let keys = "top<enter>98 x 25 1/2<enter>ash<enter><enter><enter><enter><enter><enter><enter><enter>\
                30 x 16 at centre, 12 3/4 sink undermount<F2>";
    press(&mut form, &shop, keys);
    assert_eq!(form.submit(&shop, now()), None);
    let told = errors(&form);
    assert_eq!(told[0].0, "cutouts");
    assert!(
        told[0]
            .1
            .starts_with("The reveal of an undermount sink is not said"),
        "{told:?}"
    );
}
