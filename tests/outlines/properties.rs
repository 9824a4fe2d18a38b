//! What holds for every outline.

use proptest::prelude::*;
use tackfree::shape::{
    Construction, Corner, Corners, Cut, EdgeProfile, Ell, FaceKey, LiveEdges, LiveSlab, Opening,
    OpeningKind, Outline, Place, Purpose, Quad, Shape, ShapeDraft, Station,
};
use tackfree::units::Length;

use super::made::{
    build, close, cornereds, draft, ells, inch, m2, nm, outlines, quads, slabs, top,
};

/// The outline turned by half a turn, with the grain still along it.
fn turned(outline: &Outline) -> Outline {
    let flip = |corner: Corner| match corner {
        Corner::FrontLeft => Corner::BackRight,
        Corner::FrontRight => Corner::BackLeft,
        Corner::BackRight => Corner::FrontLeft,
        Corner::BackLeft => Corner::FrontRight,
        inner => inner,
    };
    let turn = |corners: &Corners| Corners::new(corners.iter().map(|(c, cut)| (flip(c), cut)));
    match outline.clone() {
        Outline::Cornered {
            length,
            width,
            corners,
        } => Outline::Cornered {
            length,
            width,
            corners: turn(&corners),
        },
        Outline::L(ell) => Outline::L(Ell {
            open: flip(ell.open),
            corners: turn(&ell.corners),
            ..ell
        }),
        Outline::Quad(quad) => Outline::Quad(Quad {
            front: quad.back,
            right: quad.left,
            back: quad.front,
            left: quad.right,
            ..quad
        }),
        Outline::Live(slab) => {
            let length = slab.length();
            let turn = |station: &Station| Station {
                at: length - station.at,
                width: station.width,
                front: station.front.map(|front| station.width - front),
            };
            let edges = match slab.edges {
                LiveEdges::Both => LiveEdges::Both,
                LiveEdges::Front => LiveEdges::Back,
                LiveEdges::Back => LiveEdges::Front,
            };
            let stations = slab.stations.iter().rev().map(turn).collect();
            Outline::Live(LiveSlab { edges, stations })
        }
        other => other,
    }
}

/// Half the flat faces, the outside faces in one sum.
fn sums(shape: &Shape) -> [f64; 3] {
    let faces = shape.faces(Construction::FaceGrain);
    let sum = |wanted: &dyn Fn(FaceKey) -> bool| -> f64 {
        let some = faces.iter().filter(|face| wanted(face.key));
        some.map(|face| face.area.m2()).sum()
    };
    [
        m2(shape, FaceKey::Top),
        sum(&|key| key.is_outside()),
        sum(&|_| true),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn turning_a_piece_changes_no_area(
        outline in prop_oneof![cornereds(), ells(), quads(), slabs()],
    ) {
        let (one, other) = (top(outline.clone()), top(turned(&outline)));
        for (a, b) in sums(&one).into_iter().zip(sums(&other)) {
            close(a, b, 1e-7);
        }
    }

    #[test]
    fn runs_close_and_faces_go_round(outline in outlines()) {
        let shape = top(outline);
        let ring = shape.drawn().border;
        let count = ring.runs.len();
        for i in 0..count {
            let (end, start) = (ring.runs[i].stroke.to(), ring.runs[(i + 1) % count].stroke.from());
            prop_assert!((end.x - start.x).hypot(end.y - start.y) < 1e-9, "{ring:?}");
        }
        let sides = shape.drawn().sides();
        let around: f64 = sides.iter().map(|(_, _, length)| length).sum();
        close(around, shape.perimeter(), 1e-5);
        let keys: Vec<FaceKey> = sides.iter().map(|(key, _, _)| *key).collect();
        prop_assert!(FaceKey::go_round(&keys), "{keys:?}");
        prop_assert!(ring.area() > 0.0);
    }

    #[test]
    fn band_and_field_make_up_the_underside_and_shrink_together(
        outline in outlines(), thin in 0.002..0.05_f64, more in 1.1..3.0_f64,
    ) {
        let whole = m2(&top(outline.clone()), FaceKey::Underside);
        let split = |band: f64| Shape::try_from(ShapeDraft {
            band: Some(nm(band)),
            ..draft(outline.clone())
        });
        let (Ok(narrow), wide) = (split(thin), split(thin * more)) else {
            return Ok(());
        };
        let (band, field) = (m2(&narrow, FaceKey::Band), m2(&narrow, FaceKey::Field));
        prop_assert!(band > 0.0 && field > 0.0);
        close(band + field, whole, 1e-9);
        if let Ok(wide) = wide {
            prop_assert!(m2(&wide, FaceKey::Field) < field);
            close(m2(&wide, FaceKey::Band) + m2(&wide, FaceKey::Field), whole, 1e-9);
        }
    }

    #[test]
    fn moving_an_opening_inside_changes_no_total(
        outline in outlines(), at in prop::collection::vec(0.0..1.0_f64, 4), around: bool,
    ) {
        let (length, width) = outline.extent();
        let placed = |x: f64, y: f64| Shape::try_from(ShapeDraft {
            openings: vec![Opening {
                no: 1,
                place: Place { x: nm(length.metres() * x), y: nm(width.metres() * y) },
                what: OpeningKind::Hole { diameter: nm(0.035) },
                purpose: Purpose::Faucet,
                profile: EdgeProfile::Square,
            }],
            band: Some(inch(1, 0)),
            band_round_openings: around,
            ..draft(outline.clone())
        });
        if let (Ok(one), Ok(other)) = (placed(at[0], at[1]), placed(at[2], at[3])) {
            for (a, b) in sums(&one).into_iter().zip(sums(&other)) {
                close(a, b, 1e-6);
            }
            // A band round the opening is never less than one without.
            let plain = build(ShapeDraft {
                outline: outline.clone(),
                openings: one.openings().to_vec(),
                band: Some(inch(1, 0)),
                ..draft(outline.clone())
            });
            prop_assert!(m2(&one, FaceKey::Band) > m2(&plain, FaceKey::Band) - 1e-9);
        }
    }

    /// Whatever is measured: a shape or a sentence, and every face of a shape has an area.
    #[test]
    fn anything_measured_is_answered(
        sizes in prop::collection::vec(0_i64..200, 6), cuts in prop::collection::vec((0_usize..11, 0_i64..80, 0_i64..80, 0_u8..3), 0..4),
        form in 0_u8..5,
    ) {
        let size = |i: usize| inch(sizes[i], 0);
        let corners = Corners::new(cuts.into_iter().map(|(corner, a, b, kind)| {
            let (along, across) = (inch(a, 0), inch(b, 0));
            (Corner::ALL[corner], match kind {
                0 => Cut::Round(along),
                1 => Cut::Clip { along, across },
                _ => Cut::Notch { along, across },
            })
        }));
        let (length, width) = (size(0), size(1));
        let outline = match form {
            0 => Outline::Cornered { length, width, corners },
            1 => Outline::L(Ell { length, width, run: size(2), leg: size(3), open: Corner::ALL[usize::try_from(sizes[4] % 11).unwrap()], corners }),
            2 => Outline::U(tackfree::shape::Cup { length, width, run: size(2), left: size(3), right: size(4), corners }),
            3 => Outline::Quad(Quad { front: size(0), right: size(1), back: size(2), left: size(3), rising: Some(size(4)), falling: Some(size(5)), corners }),
            _ => Outline::Live(LiveSlab { edges: LiveEdges::Both, stations: sizes.iter().map(|n| Station { at: inch(*n, 0), width: inch(200 - n, 0), front: Some(Length::ZERO) }).collect() }),
        };
        let written = serde_json::to_string(&draft(outline.clone())).unwrap();
        match Shape::try_from(draft(outline)) {
            Ok(shape) => {
                prop_assert!(shape.faces(Construction::FaceGrain).iter().all(|f| f.area.m2() > 0.0));
                prop_assert_eq!(serde_json::from_str::<Shape>(&written).unwrap(), shape);
            }
            Err(refusal) => {
                let said = refusal.to_string();
                prop_assert!(said.ends_with('.') && !said.contains('\n'), "{said}");
            }
        }
    }
}
