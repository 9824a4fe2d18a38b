//! Openings in outlines of every form: apron-front sinks, bands round cutouts, places and reveals.

use std::f64::consts::PI;

use geo::Area as _;
use tackfree::shape::{
    Cabinet, FaceKey, Mount, Opening, OpeningKind, Outline, Place, Purpose, Reveal, Shape,
    ShapeDraft, Sink,
};
use tackfree::units::Length;

use super::made::{build, close, draft, ell, inch, m2, sq_in};

fn sink(mount: Mount) -> Purpose {
    Purpose::Sink(Sink {
        mount,
        overall: None,
        wall: None,
        cabinet: None,
    })
}

fn cutout(at: (i64, i64), size: (i64, i64), corner: i64, purpose: Purpose) -> Opening {
    Opening {
        no: 1,
        place: Place {
            x: inch(at.0, 0),
            y: inch(at.1, 0),
        },
        what: OpeningKind::Cutout {
            width: inch(size.0, 0),
            depth: inch(size.1, 0),
            corner_radius: inch(corner, 0),
        },
        purpose,
    }
}

fn counter(openings: Vec<Opening>) -> ShapeDraft {
    ShapeDraft {
        openings,
        ..draft(Outline::Rectangle {
            length: inch(96, 0),
            width: inch(25, 0),
        })
    }
}

#[test]
fn an_apron_front_sink_opens_the_front_edge() {
    let apron = sink(Mount::ApronFront(Reveal::Zero));
    let shape = build(counter(vec![cutout((48, 9), (33, 18), 2, apron)]));
    let taken = 33.0 * 18.0 - (2.0 - PI / 2.0) * 4.0;
    let wall = 33.0 + 36.0 - 8.0 + PI * 2.0;
    close(sq_in(&shape, FaceKey::Top), 96.0 * 25.0 - taken, 1e-6);
    close(sq_in(&shape, FaceKey::Underside), 96.0 * 25.0 - taken, 1e-6);
    close(sq_in(&shape, FaceKey::Front), (96.0 - 33.0) * 1.5, 1e-12);
    close(sq_in(&shape, FaceKey::Back), 96.0 * 1.5, 1e-12);
    close(sq_in(&shape, FaceKey::Cutout(1)), wall * 1.5, 1e-12);
    // The drawing is one ring without holes, its wall between two parts of the front.
    let drawn = shape.drawn();
    close(
        drawn.border.area() / 0.000_645_16,
        96.0 * 25.0 - taken,
        1e-9,
    );
    close(
        drawn.polygon().unsigned_area() / 0.000_645_16,
        96.0 * 25.0 - taken,
        1e-5,
    );
    let fronts = drawn
        .border
        .runs
        .iter()
        .filter(|run| run.face == FaceKey::Front);
    assert_eq!(fronts.count(), 2);
    let wall_drawn: f64 = drawn
        .border
        .runs
        .iter()
        .filter(|run| run.face == FaceKey::Cutout(1))
        .map(|run| run.stroke.length())
        .sum();
    close(wall_drawn / 0.0254, wall, 1e-9);
}

#[test]
fn a_reveal_tells_the_bowl() {
    let bowl = |reveal| {
        let opening = cutout((48, 12), (30, 16), 1, sink(Mount::Undermount(reveal)));
        opening.bowl().map(|(w, d)| (w.inches(), d.inches()))
    };
    let quarter = inch(0, 16);
    assert_eq!(bowl(Reveal::Zero), Some((30.0, 16.0)));
    assert_eq!(bowl(Reveal::Positive(quarter)), Some((29.5, 15.5)));
    assert_eq!(bowl(Reveal::Negative(quarter)), Some((30.5, 16.5)));
    let dropped = cutout((48, 12), (30, 16), 1, sink(Mount::DropIn));
    assert_eq!(dropped.bowl(), None);
}

#[test]
fn a_band_goes_round_cutouts_where_it_is_asked_to() {
    let draft = ShapeDraft {
        band: Some(inch(2, 0)),
        band_round_openings: true,
        ..counter(vec![cutout((48, 12), (30, 12), 1, Purpose::Cooktop)])
    };
    let shape = build(draft.clone());
    let plain = build(ShapeDraft {
        band_round_openings: false,
        ..draft
    });
    // Grown by 2 in, the cutout is 34 x 16 with corners of 3 in, and clear of the outer band.
    let grown = 34.0 * 16.0 - (4.0 - PI) * 9.0;
    let cut = 30.0 * 12.0 - (4.0 - PI);
    close(sq_in(&shape, FaceKey::Field), 92.0 * 21.0 - grown, 1e-5);
    close(sq_in(&plain, FaceKey::Field), 92.0 * 21.0 - cut, 1e-12);
    close(
        sq_in(&shape, FaceKey::Band),
        sq_in(&plain, FaceKey::Band) + grown - cut,
        1e-5,
    );
}

#[test]
fn an_opening_over_the_band_line_of_an_l_takes_from_both() {
    let l = |band| ShapeDraft {
        openings: vec![cutout((60, 84), (30, 16), 0, Purpose::Plain)],
        band,
        ..draft(Outline::L(ell()))
    };
    // The run is y 70 1/2 to 96; the cutout y 76 to 92, so with a band of 8 in it takes 4 in of
    // the back band and 2 1/2 in of the front one.
    let shape = build(l(Some(inch(8, 0))));
    let bare = build(ShapeDraft {
        openings: Vec::new(),
        ..l(Some(inch(8, 0)))
    });
    close(
        sq_in(&bare, FaceKey::Band) - sq_in(&shape, FaceKey::Band),
        30.0 * 6.5,
        1e-5,
    );
    let whole = build(l(None));
    close(
        m2(&shape, FaceKey::Band) + m2(&shape, FaceKey::Field),
        m2(&whole, FaceKey::Underside),
        1e-9,
    );
}

fn refusal(draft: ShapeDraft) -> String {
    Shape::try_from(draft)
        .expect_err("it cannot be")
        .to_string()
}

#[test]
fn openings_that_cannot_be_are_told_with_their_number() {
    let apron = sink(Mount::ApronFront(Reveal::Zero));
    for (opening, said) in [
        (
            cutout((48, 12), (33, 18), 1, apron),
            "Cutout 1 is for an apron-front sink and must be open to a straight front edge: put its centre 9\" from the front.",
        ),
        (
            cutout((16, 9), (33, 18), 1, apron),
            "Cutout 1 is 33\" wide and leaves no front edge beside it, which runs from 0\" to 96\": move it, or make it narrower.",
        ),
        (
            cutout((48, 12), (30, 16), 1, Purpose::Faucet),
            "Cutout 1 cannot be for faucet: enter it as a hole.",
        ),
        (
            cutout(
                (48, 12),
                (30, 16),
                1,
                sink(Mount::Undermount(Reveal::Positive(inch(8, 0)))),
            ),
            "The reveal of cutout 1 is 8\", but the cutout is only 16\" across: no bowl would be left.",
        ),
        (
            cutout(
                (48, 12),
                (30, 16),
                1,
                sink(Mount::Undermount(Reveal::Negative(Length::ZERO))),
            ),
            "The reveal of cutout 1 is 0\": it must be more than nothing.",
        ),
        (
            cutout(
                (48, 12),
                (30, 16),
                1,
                Purpose::Sink(Sink {
                    mount: Mount::DropIn,
                    overall: Some((inch(33, 0), inch(19, 0))),
                    wall: None,
                    cabinet: Some(Cabinet {
                        width: inch(36, 0),
                        left: None,
                        wall: inch(18, 0),
                        front_rail: Length::ZERO,
                        back_rail: Length::ZERO,
                        overhang: None,
                        depth: None,
                    }),
                }),
            ),
            "The cabinet under cutout 1 is 36\" wide with walls of 18\": nothing is left inside.",
        ),
    ] {
        assert_eq!(refusal(counter(vec![opening])), said);
    }
}

#[test]
fn an_opening_is_held_clear_of_every_run_of_an_l() {
    let l = |at, size| ShapeDraft {
        openings: vec![cutout(at, size, 0, Purpose::Plain)],
        ..draft(Outline::L(ell()))
    };
    // In the open corner, over the inner edge, over the inner corner.
    assert_eq!(
        refusal(l((80, 30), (10, 10))),
        "Cutout 1 reaches 45 1/2\" past the inner edge, front right: move it in, or make it smaller."
    );
    assert_eq!(
        refusal(l((60, 76), (20, 16))),
        "Cutout 1 reaches 2 1/2\" past the inner edge, front right: move it in, or make it smaller."
    );
    assert_eq!(
        refusal(l((20, 72), (10, 10))),
        "Cutout 1 reaches 1\" past the inner end, front right: move it in, or make it smaller."
    );
    assert_eq!(
        refusal(l((12, 30), (24, 10))),
        "Cutout 1 comes right up to the left end and leaves no wood there: move it in, or make it smaller."
    );
    assert!(Shape::try_from(l((12, 30), (20, 10))).is_ok());
}
