//! What cannot be is refused in one sentence that names the number.

use tackfree::shape::{
    Corner, Corners, Cup, Cut, EdgeProfile, Ell, LiveEdges, LiveSlab, Outline, Quad, Shape,
    ShapeDraft, Station,
};
use tackfree::units::Length;

use super::made::{cornered, cup, draft, ell, inch, slab};

fn refusal(outline: Outline) -> String {
    Shape::try_from(draft(outline))
        .expect_err("it cannot be")
        .to_string()
}

#[test]
fn corners_that_do_not_fit_are_told() {
    let round = |radius| Cut::Round(inch(radius, 0));
    assert_eq!(
        refusal(cornered(
            60,
            20,
            &[
                (Corner::FrontLeft, round(12)),
                (Corner::BackLeft, round(12))
            ]
        )),
        "The round at the back left corner is 12\", but the left end is only 20\" long: 10\" is the most there."
    );
    assert_eq!(
        refusal(cornered(60, 20, &[(Corner::FrontLeft, round(21))])),
        "The round at the front left corner is 21\", but the left end is only 20\" long: 20\" is the most there."
    );
    assert_eq!(
        refusal(cornered(60, 20, &[(Corner::Inside, round(2))])),
        "This outline has no inside corner: say one of its own corners."
    );
    let notched = Outline::L(Ell {
        corners: Corners::new([(
            Corner::Inside,
            Cut::Notch {
                along: inch(2, 0),
                across: inch(2, 0),
            },
        )]),
        ..ell()
    });
    assert_eq!(
        refusal(notched),
        "The inside corner cannot be notched: only a square outer corner can, so round or clip it."
    );
    assert_eq!(
        refusal(cornered(
            60,
            20,
            &[(Corner::FrontLeft, Cut::Round(Length::ZERO))]
        )),
        "The radius of the front left corner is 0\": it must be more than nothing."
    );
}

#[test]
fn an_outline_that_crosses_itself_is_told() {
    // Two notches at opposite corners, each within its sides, that run over each other.
    let notch = Cut::Notch {
        along: inch(55, 0),
        across: inch(15, 0),
    };
    let said = refusal(cornered(
        60,
        20,
        &[(Corner::FrontLeft, notch), (Corner::BackRight, notch)],
    ));
    assert_eq!(
        said,
        "The outline crosses itself where the inner edge, front left meets the inner end, back right: the notch of 55\" at the back right corner is too much there."
    );
    // A clip of an L's outer corner that cuts into its opening.
    let mut l = ell();
    l.corners = Corners::new([(
        Corner::BackLeft,
        Cut::Clip {
            along: inch(100, 0),
            across: inch(90, 0),
        },
    )]);
    assert!(refusal(Outline::L(l)).contains("the clip of 100\" at the back left corner"));
}

#[test]
fn sides_that_cannot_close_are_told() {
    let quad = Quad {
        front: inch(60, 0),
        right: inch(25, 0),
        back: inch(60, 0),
        left: inch(25, 0),
        rising: Some(inch(86, 0)),
        falling: None,
        corners: Corners::SHARP,
    };
    assert_eq!(
        refusal(Outline::Quad(quad.clone())),
        "The front, right end and the diagonal cannot close: 60\" and 25\" do not make a triangle with 86\", so look at the three numbers again."
    );
    // Two sides exactly as long as the diagonal lie flat on it.
    for (rising, falling) in [(Some(inch(85, 0)), None), (None, Some(inch(85, 0)))] {
        let flat = Outline::Quad(Quad {
            rising,
            falling,
            ..quad.clone()
        });
        assert!(refusal(flat).contains("60\" and 25\" do not make a triangle with 85\""));
    }
    // A hair less leaves a sliver that nobody can cut.
    let sliver = Outline::Quad(Quad {
        rising: Some(Length::from_nm(inch(85, 0).nm() - 10)),
        ..quad.clone()
    });
    assert!(refusal(sliver).starts_with("These sides and diagonals leave a top only"));
    assert_eq!(
        refusal(Outline::Quad(Quad {
            rising: Some(inch(65, 0)),
            back: inch(30, 0),
            ..quad.clone()
        })),
        "The back, left end and the diagonal cannot close: 30\" and 25\" do not make a triangle with 65\", so look at the three numbers again."
    );
    assert_eq!(
        refusal(Outline::Quad(Quad {
            rising: None,
            ..quad
        })),
        "Four sides alone do not say how a top leans: measure a diagonal too."
    );
}

#[test]
fn stations_out_of_order_or_negative_are_told() {
    assert_eq!(
        refusal(slab(
            LiveEdges::Both,
            &[(0.0, 20.0), (30.0, 22.0), (24.0, 21.0)]
        )),
        "Station 3 is at 24\", which is not after 30\": put the stations in order from the left end."
    );
    assert_eq!(
        refusal(slab(
            LiveEdges::Both,
            &[(0.0, 20.0), (30.0, -22.0), (60.0, 21.0)]
        )),
        "The width at station 2 is -22\": it must be more than nothing."
    );
    assert_eq!(
        refusal(slab(LiveEdges::Both, &[(-1.0, 20.0), (30.0, 22.0)])),
        "The place of station 1 is -1\": it may be zero, but not less."
    );
    assert_eq!(
        refusal(slab(LiveEdges::Both, &[(0.0, 20.0)])),
        "The stations are 1 in number: a live edge takes from 2 to 200."
    );
    let apart = Outline::Live(LiveSlab {
        edges: LiveEdges::Both,
        stations: vec![
            Station {
                at: Length::ZERO,
                width: inch(20, 0),
                front: Some(inch(21, 0)),
            },
            Station {
                at: inch(60, 0),
                width: inch(20, 0),
                front: None,
            },
        ],
    });
    assert_eq!(
        refusal(apart),
        "At station 1, 21\" lies in front of the line, but the whole width is 20\": it must be between nothing and that."
    );
}

#[test]
fn an_l_or_u_without_an_inside_is_told() {
    assert_eq!(
        refusal(Outline::L(Ell {
            run: inch(96, 0),
            ..ell()
        })),
        "The depth of the run is 96\", but the top is only 96\" wide: it must be less, or there is no L."
    );
    assert_eq!(
        refusal(Outline::L(Ell {
            open: Corner::Leg,
            ..ell()
        })),
        "An L is open at one of its four outer corners, not at its leg corner: say front right, front left, back right or back left."
    );
    assert_eq!(
        refusal(Outline::U(Cup {
            left: inch(100, 0),
            ..cup()
        })),
        "The width of both legs together is 120\", but the top is only 120\" long: it must be less, or there is no U."
    );
}

#[test]
fn profiles_and_bands_too_wide_for_an_l_are_told() {
    let said = |profile, band| {
        let draft = ShapeDraft {
            profile,
            band,
            ..draft(Outline::L(ell()))
        };
        Shape::try_from(draft)
            .expect_err("it cannot be")
            .to_string()
    };
    assert_eq!(
        said(EdgeProfile::Square, Some(inch(15, 0))),
        "The underside band of 15\" and the openings leave no field inside it: make the band narrower, or have no band at all."
    );
    assert_eq!(
        said(EdgeProfile::Bullnose(inch(1, 0)), None),
        "The bullnose is 1\" above and below, but the top is only 1 1/2\" thick: 3/4\" is the most."
    );
    assert_eq!(
        said(EdgeProfile::Bullnose(inch(0, 32)), Some(inch(0, 32))),
        "The underside band is 1/2\", but the bullnose rounds off 1/2\" of the underside: make the band wider."
    );
}
