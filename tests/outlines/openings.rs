//! Openings in outlines of every form: apron-front sinks, bands round cutouts, places and reveals.

use std::f64::consts::PI;

use geo::Area as _;
use tackfree::shape::{
    Cabinet, Corner, Corners, Cut, EdgeProfile, FaceKey, Mount, Opening, OpeningKind, Outline,
    Place, Purpose, Reveal, Shape, ShapeDraft, Sink, recut,
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
        profile: EdgeProfile::Square,
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
                        wall: Some(inch(18, 0)),
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

/// A sink's cutout of 20 by 14 in with corners of 1 in, in a top 1 1/2 in thick.
fn edged(profile: EdgeProfile) -> ShapeDraft {
    let mut opening = cutout((48, 12), (20, 14), 1, Purpose::Plain);
    opening.profile = profile;
    counter(vec![opening])
}

#[test]
fn a_quarter_inch_round_over_on_a_cutouts_edge() {
    // Common practice, no source; by hand. The bare wall is 18 + 12 + 18 + 12 in and a turn of 1 in
    // radius; under the round-over 1 1/4 in of it are left. Along the straight parts the arc is
    // pi/2 x 1/4 in; round the corners it is a quarter of a hollow ring, whose surface is the turn
    // times the arc at its distance from the middle: 1 + 1/4 - 1/4 cos.
    let shape = build(edged(EdgeProfile::RoundOver(inch(0, 16))));
    let turn = 2.0 * PI * (0.25 * 1.25 * PI / 2.0 - 0.25 * 0.25);
    let flat = (60.0 + 2.0 * PI) * 1.25;
    let wall = flat + 60.0 * 0.25 * PI / 2.0 + turn;
    close(sq_in(&shape, FaceKey::Cutout(1)), wall, 1e-9);
    // 66.28 in of wall: 99.4 sq in square, 109.1 with the round-over.
    close(wall, 109.107, 1e-5);
    // The flat of the top begins 1/4 in further out, with corners of 1 1/4 in.
    let gone = 20.5 * 14.5 - (4.0 - PI) * 1.25 * 1.25;
    close(sq_in(&shape, FaceKey::Top), 96.0 * 25.0 - gone, 1e-9);
    let through = 20.0 * 14.0 - (4.0 - PI);
    close(
        sq_in(&shape, FaceKey::Underside),
        96.0 * 25.0 - through,
        1e-9,
    );
    close(sq_in(&shape, FaceKey::Front), 96.0 * 1.5, 1e-12);
}

#[test]
fn a_bullnose_round_a_cutout_takes_of_the_underside_and_its_band_too() {
    let quarter = inch(0, 16);
    let plain = build(edged(EdgeProfile::RoundOver(quarter)));
    let round = build(edged(EdgeProfile::Bullnose(quarter)));
    let (top, under) = (FaceKey::Top, FaceKey::Underside);
    close(sq_in(&round, top), sq_in(&plain, top), 1e-12);
    close(sq_in(&round, under), sq_in(&round, top), 1e-12);
    for round_openings in [false, true] {
        let banded = build(ShapeDraft {
            band: Some(inch(2, 0)),
            band_round_openings: round_openings,
            ..edged(EdgeProfile::Bullnose(quarter))
        });
        let (band, field) = (
            sq_in(&banded, FaceKey::Band),
            sq_in(&banded, FaceKey::Field),
        );
        close(band + field, sq_in(&round, under), 1e-9);
        let inner = 92.0 * 21.0;
        let out = if round_openings { 2.0 } else { 0.25 };
        let (w, d, r) = (20.0 + 2.0 * out, 14.0 + 2.0 * out, 1.0 + out);
        close(field, inner - (w * d - (4.0 - PI) * r * r), 1e-5);
    }
}

/// Points of each profile of size 1 from the wall up to the top: how far out, how far up.
fn outline_of(profile: EdgeProfile, part: f64) -> (f64, f64) {
    let turn = part * PI / 2.0;
    let (up, out) = (turn.sin(), 1.0 - turn.cos());
    match profile {
        EdgeProfile::Square => (0.0, part),
        EdgeProfile::Chamfer(_) => (part, part),
        EdgeProfile::Cove(_) => (turn.sin(), 1.0 - turn.cos()),
        EdgeProfile::Ogee(_) if part < 0.5 => {
            let turn = part * PI;
            ((1.0 - turn.cos()) / 2.0, turn.sin() / 2.0)
        }
        EdgeProfile::Ogee(_) => {
            let turn = (part - 0.5) * PI;
            (f64::midpoint(1.0, turn.sin()), 1.0 - turn.cos() / 2.0)
        }
        EdgeProfile::Eased(_) | EdgeProfile::RoundOver(_) | EdgeProfile::Bullnose(_) => (out, up),
    }
}

#[test]
fn every_profile_round_a_hole_against_a_sum_of_cones() {
    // A hole of 2 in through 1 1/2 in, each profile 3/8 in: its surface is a body of revolution,
    // here the sum of many truncated cones; so is the wood it takes.
    const STEPS: u32 = 20_000;
    let size = inch(0, 24);
    for profile in EdgeProfile::SIZED.map(|make| make(size)) {
        let mut opening = cutout((48, 12), (20, 14), 1, Purpose::Plain);
        opening.what = OpeningKind::Hole {
            diameter: inch(2, 0),
        };
        let plain = build(counter(vec![opening]));
        opening.profile = profile;
        let shape = build(counter(vec![opening]));
        let (mut surface, mut wood) = (0.0, 0.0);
        let at = |step: u32| {
            let (out, up) = outline_of(profile, f64::from(step) / f64::from(STEPS));
            (1.0 + out * 0.375, up * 0.375)
        };
        for step in 0..STEPS {
            let ((r, low), (far, high)) = (at(step), at(step + 1));
            surface += PI * (r + far) * (far - r).hypot(high - low);
            // Washers between the wall and the profile.
            wood += PI * (f64::midpoint(r, far).powi(2) - 1.0) * (high - low);
        }
        let sides = if matches!(profile, EdgeProfile::Bullnose(_)) {
            2.0
        } else {
            1.0
        };
        let wall = 2.0 * PI * (1.5 - 0.375 * sides) + surface * sides;
        close(sq_in(&shape, FaceKey::Hole(1)), wall, 1e-6);
        let taken = (plain.net_volume() - shape.net_volume()) / 0.0254_f64.powi(3);
        close(taken, wood * sides, 1e-6);
    }
}

#[test]
fn an_apron_fronts_round_over_turns_two_corners() {
    let apron = sink(Mount::ApronFront(Reveal::Zero));
    let mut opening = cutout((48, 9), (33, 18), 2, apron);
    opening.profile = EdgeProfile::RoundOver(inch(0, 16));
    let shape = build(counter(vec![opening]));
    let straight = 33.0 - 4.0 + 2.0 * 16.0;
    let turn = PI * (0.25 * 2.25 * PI / 2.0 - 0.25 * 0.25);
    let wall = (straight + 2.0 * PI) * 1.25 + straight * PI / 8.0 + turn;
    close(sq_in(&shape, FaceKey::Cutout(1)), wall, 1e-9);
    let gone = 33.5 * 18.25 - (2.0 - PI / 2.0) * 2.25 * 2.25;
    close(sq_in(&shape, FaceKey::Top), 96.0 * 25.0 - gone, 1e-5);
}

#[test]
fn profiles_round_openings_that_cannot_be_run_are_refused() {
    let said = |draft: ShapeDraft| Shape::try_from(draft).unwrap_err().to_string();
    let size = |sixty_fourths| EdgeProfile::RoundOver(inch(0, sixty_fourths));
    assert_eq!(
        said(edged(size(128))),
        "The round-over of cutout 1 is 2\", but the top is only 1 1/2\" thick: give the profile 1 1/2\" or less."
    );
    assert!(said(edged(EdgeProfile::Bullnose(inch(1, 0)))).contains("of cutout 1 is 1\" above"));
    assert!(said(edged(size(0))).contains("size of the round-over of cutout 1 is 0\""));
    // 1 1/4 in of wood in front, 5/16 in of it taken by the outside's own profile.
    let mut near = edged(size(64));
    near.openings[0].place.y = inch(8, 16);
    near.profile = size(20);
    assert_eq!(
        said(near.clone()),
        "The 1\" round-over of cutout 1 comes too near the front edge: move the opening in by 1/16\", or make the profile smaller."
    );
    near.profile = size(16);
    build(near);
    let mut two = edged(size(32));
    let mut other = cutout((48, 12), (20, 14), 1, Purpose::Plain);
    (other.no, other.profile) = (2, size(33));
    other.place.x = inch(69, 0);
    two.openings.push(other);
    assert!(said(two.clone()).starts_with("The edge profiles of cutout 1 and cutout 2 run into"));
    two.openings[1].profile = size(32);
    build(two);
}

#[test]
fn another_profile_cuts_the_wall_of_its_opening_anew() {
    let before = build(edged(EdgeProfile::Square));
    let after = build(edged(EdgeProfile::Chamfer(inch(0, 8))));
    assert_eq!(recut(&before, &after), [FaceKey::Cutout(1)]);
}

#[test]
fn sinks_that_cannot_be_are_refused() {
    let sized = |mount, overall: Option<(i64, i64)>, wall: i64| {
        let purpose = Purpose::Sink(Sink {
            mount,
            overall: overall.map(|(width, depth)| (inch(width, 0), inch(depth, 0))),
            wall: (wall > 0).then(|| inch(0, wall)),
            cabinet: None,
        });
        counter(vec![cutout((48, 12), (20, 14), 1, purpose)])
    };
    let over = |inches| Mount::Undermount(Reveal::Negative(inch(inches, 0)));
    assert_eq!(
        refusal(sized(over(6), None, 0)),
        "The bowl of cutout 1 is 32\" x 26\" and would reach 1\" past the front edge: make the reveal or the cutout smaller, or move it in."
    );
    build(sized(over(5), None, 0));
    assert_eq!(
        refusal(sized(over(1), Some((10, 10)), 0)),
        "The sink of cutout 1 is 10\" wide overall, rim included, but its bowl is 22\": look at the numbers again."
    );
    assert!(refusal(sized(over(1), Some((22, 17)), 8)).contains("walls is 22 1/4\""));
    build(sized(over(1), Some((23, 17)), 8));
    assert_eq!(
        refusal(sized(Mount::DropIn, Some((18, 16)), 0)),
        "The sink of cutout 1 is 18\" wide overall, rim included, but the cutout, which its rim must reach past, is 20\": look at the numbers again."
    );
    // Just as large as the cutout, it falls through.
    assert!(refusal(sized(Mount::DropIn, Some((22, 14)), 0)).contains("14\" deep overall"));
    build(sized(Mount::DropIn, Some((22, 16)), 0));
    // The bowl of an apron-front sink may not reach past the ends either.
    let wide = sink(Mount::ApronFront(Reveal::Negative(inch(20, 0))));
    let apron = refusal(counter(vec![cutout((48, 9), (90, 18), 1, wide)]));
    assert!(
        apron.contains("would reach 17\" past the right end"),
        "{apron}"
    );
}

#[test]
fn the_tightest_inside_corner_of_an_outline() {
    let l = |corners| Outline::L(tackfree::shape::Ell { corners, ..ell() }).tightest_inside();
    assert_eq!(l(Corners::SHARP), Some(Length::ZERO));
    let round = |corner| Corners::new([(corner, Cut::Round(inch(2, 0)))]);
    assert_eq!(l(round(Corner::Inside)), Some(inch(2, 0)));
    assert_eq!(l(round(Corner::FrontLeft)), Some(Length::ZERO));
    let notch = Cut::Notch {
        along: inch(4, 0),
        across: inch(6, 0),
    };
    let notched = super::made::cornered(60, 25, &[(Corner::BackRight, notch)]);
    assert_eq!(notched.tightest_inside(), Some(Length::ZERO));
    let rounded = super::made::cornered(60, 25, &[(Corner::BackRight, Cut::Round(inch(4, 0)))]);
    assert_eq!(rounded.tightest_inside(), None);
    let circle = Outline::Circle {
        diameter: inch(36, 0),
    };
    assert_eq!(circle.tightest_inside(), None);
}
