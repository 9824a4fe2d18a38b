//! Faces follow from the outline: each straight run its own, by its direction to the grain.

use tackfree::shape::{
    Construction, Corner, Corners, Cut, FaceGrain, FaceGroup, FaceKey, LiveEdges, Outline, Shape,
};

use super::made::{cornered, cup, ell, inch, slab, top};

fn grains(shape: &Shape) -> Vec<(String, FaceGrain, FaceGroup)> {
    shape
        .faces(Construction::FaceGrain)
        .iter()
        .filter(|face| face.key.is_outside())
        .map(|face| (face.key.to_string(), face.grain, face.group()))
        .collect()
}

fn row(words: &str, grain: FaceGrain, group: FaceGroup) -> (String, FaceGrain, FaceGroup) {
    (words.to_owned(), grain, group)
}

#[test]
fn an_l_has_six_edges_and_ends() {
    use FaceGrain::{EndGrain as End, LongGrain as Long};
    use FaceGroup::{EndGrain as Ends, Show};
    assert_eq!(
        grains(&top(Outline::L(ell()))),
        [
            row("front edge", Long, Show),
            row("back edge", Long, Show),
            row("left end", End, Ends),
            row("right end", End, Ends),
            row("inner edge, front right", Long, Show),
            row("inner end, front right", End, Ends),
        ]
    );
}

#[test]
fn a_u_has_eight() {
    use FaceGrain::{EndGrain as End, LongGrain as Long};
    use FaceGroup::{EndGrain as Ends, Show};
    assert_eq!(
        grains(&top(Outline::U(cup()))),
        [
            row("front edge", Long, Show),
            row("back edge", Long, Show),
            row("left end", End, Ends),
            row("right end", End, Ends),
            row("right leg's front edge", Long, Show),
            row("inner edge, left", Long, Show),
            row("inner end, left", End, Ends),
            row("inner end, right", End, Ends),
        ]
    );
}

#[test]
fn corners_are_faces_of_their_own_by_their_direction() {
    let clip = |along, across| Cut::Clip {
        along: inch(along, 0),
        across: inch(across, 0),
    };
    let shape = top(cornered(
        60,
        30,
        &[
            (Corner::FrontLeft, clip(3, 3)),
            (Corner::FrontRight, clip(6, 2)),
            (Corner::BackRight, clip(2, 6)),
            (Corner::BackLeft, Cut::Round(inch(2, 0))),
        ],
    ));
    let grain = |corner| {
        let faces = shape.faces(Construction::SolidSlab);
        let face = faces.iter().find(|f| f.key == FaceKey::Corner(corner));
        face.expect("it is cut").grain
    };
    // At 45 degrees it drinks like end grain; flatter is long grain; an arc is both.
    assert_eq!(grain(Corner::FrontLeft), FaceGrain::EndGrain);
    assert_eq!(grain(Corner::FrontRight), FaceGrain::LongGrain);
    assert_eq!(grain(Corner::BackRight), FaceGrain::EndGrain);
    assert_eq!(grain(Corner::BackLeft), FaceGrain::Mixed);
}

#[test]
fn a_live_edge_is_its_own_face() {
    use FaceKey::{Back, Front, Left, LiveBack, LiveFront, Right, Top, Underside};
    let stations = [(0.0, 20.0), (30.0, 24.0), (60.0, 21.0)];
    let keys = |edges| -> Vec<FaceKey> {
        let shape = top(slab(edges, &stations));
        let faces = shape.faces(Construction::SolidSlab);
        faces.iter().map(|face| face.key).collect()
    };
    assert_eq!(
        keys(LiveEdges::Both),
        [Top, Underside, Left, Right, LiveFront, LiveBack]
    );
    assert_eq!(
        keys(LiveEdges::Front),
        [Top, Underside, Back, Left, Right, LiveFront]
    );
    assert_eq!(
        keys(LiveEdges::Back),
        [Top, Underside, Front, Left, Right, LiveBack]
    );
}

#[test]
fn names_and_codes_come_back() {
    let inner = Corner::ALL.into_iter().flat_map(|corner| {
        [
            FaceKey::Corner(corner),
            FaceKey::InnerEdge(corner),
            FaceKey::InnerEnd(corner),
        ]
    });
    let plain = [FaceKey::LegFront, FaceKey::LiveFront, FaceKey::LiveBack];
    for key in inner.chain(plain) {
        assert_eq!(key.code().parse(), Ok(key));
    }
    for bad in ["corner", "corner-", "corner-top", "inner-edge-1", "live"] {
        assert!(bad.parse::<FaceKey>().is_err(), "{bad}");
    }
}

#[test]
fn what_goes_round_goes_round() {
    for outline in [
        Outline::L(ell()),
        Outline::U(cup()),
        cornered(60, 30, &Corner::OUTER.map(|c| (c, Cut::Round(inch(15, 0))))),
        slab(LiveEdges::Both, &[(0.0, 20.0), (60.0, 24.0)]),
        slab(LiveEdges::Front, &[(0.0, 20.0), (60.0, 24.0)]),
        Outline::Oval {
            length: inch(60, 0),
            width: inch(40, 0),
        },
    ] {
        let keys: Vec<FaceKey> = top(outline.clone())
            .faces(Construction::FaceGrain)
            .iter()
            .map(|face| face.key)
            .collect();
        assert!(FaceKey::go_round(&keys), "{outline:?}");
        let without = |gone: FaceKey| -> Vec<FaceKey> {
            keys.iter().copied().filter(|key| *key != gone).collect()
        };
        for gone in [FaceKey::Back, FaceKey::LiveBack, FaceKey::Rim] {
            if keys.contains(&gone) && outline.corners() == &Corners::SHARP {
                assert!(!FaceKey::go_round(&without(gone)), "{outline:?} {gone}");
            }
        }
    }
}
