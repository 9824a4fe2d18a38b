//! One shape of every outline, for the store and the files.

use tackfree::shape::{
    Cabinet, Corner, Corners, Cup, Cut, EdgeProfile, Ell, LiveEdges, LiveSlab, Mount, Opening,
    OpeningKind, Outline, Place, Purpose, Quad, Reveal, Shape, ShapeDraft, Sink, Station,
};
use tackfree::units::Length;

fn inches(whole: i64, num: i64, den: i64) -> Length {
    Length::from_inches(whole, num, den).expect("an exact length")
}

fn sized(length: i64, width: i64) -> (Length, Length) {
    (inches(length, 0, 1), inches(width, 0, 1))
}

/// One of every outline.
pub fn outlines() -> Vec<Outline> {
    let (length, width) = sized(120, 96);
    let round = Cut::Round(inches(1, 1, 2));
    let corners = Corners::new([
        (Corner::BackLeft, round),
        (
            Corner::BackRight,
            Cut::Notch {
                along: inches(4, 0, 1),
                across: inches(3, 1, 64),
            },
        ),
    ]);
    let station = |(at, width, front): (i64, i64, Option<i64>)| Station {
        at: inches(at, 0, 1),
        width: inches(width, 3, 8),
        front: front.map(|front| inches(front, 0, 1)),
    };
    vec![
        Outline::Rectangle { length, width },
        Outline::Circle { diameter: width },
        Outline::Oval { length, width },
        Outline::Cornered {
            length,
            width,
            corners: corners.clone(),
        },
        Outline::L(Ell {
            length,
            width,
            run: inches(25, 1, 2),
            leg: inches(24, 0, 1),
            open: Corner::FrontLeft,
            corners: Corners::new([(Corner::Inside, round)]),
        }),
        Outline::U(Cup {
            length,
            width,
            run: inches(25, 1, 2),
            left: inches(24, 0, 1),
            right: inches(20, 0, 1),
            corners,
        }),
        Outline::Quad(Quad {
            front: length,
            right: inches(25, 1, 8),
            back: inches(119, 7, 8),
            left: inches(25, 1, 4),
            rising: Some(inches(122, 1, 2)),
            falling: Some(inches(122, 5, 8)),
            corners: Corners::SHARP,
        }),
        Outline::Live(LiveSlab {
            edges: LiveEdges::Both,
            stations: [(0, 40, None), (30, 44, Some(20)), (55, 41, None)]
                .map(station)
                .to_vec(),
        }),
    ]
}

/// An undermount sink in its cabinet with all that can be said of it.
pub fn sink() -> Opening {
    Opening {
        no: 1,
        place: Place {
            x: inches(30, 0, 1),
            y: inches(82, 0, 1),
        },
        what: OpeningKind::Cutout {
            width: inches(20, 0, 1),
            depth: inches(12, 0, 1),
            corner_radius: inches(0, 3, 4),
        },
        purpose: Purpose::Sink(Sink {
            mount: Mount::Undermount(Reveal::Negative(inches(0, 3, 8))),
            overall: Some(sized(22, 14)),
            wall: Some(Length::from_nm(1_200_000)),
            cabinet: Some(Cabinet {
                width: inches(27, 0, 1),
                left: Some(inches(16, 1, 2)),
                wall: Some(inches(0, 3, 4)),
                front_rail: inches(3, 0, 1),
                back_rail: Length::ZERO,
                overhang: Some(inches(1, 1, 8)),
                depth: Some(inches(24, 0, 1)),
            }),
        }),
        profile: EdgeProfile::RoundOver(inches(0, 1, 8)),
    }
}

/// Each outline as a shape: L and U with the sink, profiles and bands by turns.
pub fn shapes() -> Vec<Shape> {
    let profiles = EdgeProfile::SIZED.map(|make| make(inches(0, 1, 4)));
    outlines()
        .into_iter()
        .zip(profiles.into_iter().cycle())
        .map(|(outline, profile)| {
            let deep = matches!(outline, Outline::U(_) | Outline::Rectangle { .. });
            let draft = ShapeDraft {
                outline,
                thickness: inches(1, 3, 4),
                profile,
                openings: if deep { vec![sink()] } else { Vec::new() },
                band: Some(inches(2, 0, 1)),
                band_round_openings: deep,
            };
            Shape::try_from(draft).expect("a shape that can be cut")
        })
        .collect()
}
