//! Every refusal, word for word: what a tradesperson reads when a shape cannot be cut.

use super::{EdgeProfile, Opening, OpeningKind, Outline, Place, Purpose, Shape, ShapeDraft};
use crate::units::Length;

/// Inches and 64ths.
fn inch(whole: i64, part: i64) -> Length {
    Length::from_64ths(whole * 64 + part)
}

fn at(no: u8, x: Length, y: Length, what: OpeningKind) -> Opening {
    Opening {
        no,
        place: Place { x, y },
        what,
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    }
}

fn cutout(no: u8, x: Length, y: Length, size: [Length; 2], corner_radius: Length) -> Opening {
    let [width, depth] = size;
    at(
        no,
        x,
        y,
        OpeningKind::Cutout {
            width,
            depth,
            corner_radius,
        },
    )
}

fn hole(no: u8, x: Length, y: Length, diameter: Length) -> Opening {
    at(no, x, y, OpeningKind::Hole { diameter })
}

/// 98 3/8 x 25 1/2 x 1 1/2 in with a 30 x 16 in cutout and a 1 3/8 in hole behind it.
fn hand_case() -> ShapeDraft {
    ShapeDraft {
        outline: Outline::Rectangle {
            length: inch(98, 24),
            width: inch(25, 32),
        },
        thickness: inch(1, 32),
        profile: EdgeProfile::Square,
        openings: vec![
            cutout(
                1,
                inch(40, 0),
                inch(12, 48),
                [inch(30, 0), inch(16, 0)],
                inch(0, 48),
            ),
            hole(1, inch(40, 0), inch(22, 32), inch(1, 24)),
        ],
        band: Some(inch(2, 0)),
        band_round_openings: false,
    }
}

fn round_top(diameter: Length) -> ShapeDraft {
    let (openings, outline) = (Vec::new(), Outline::Circle { diameter });
    ShapeDraft {
        outline,
        openings,
        band: None,
        ..hand_case()
    }
}

fn with(openings: &[Opening]) -> ShapeDraft {
    ShapeDraft {
        openings: openings.to_vec(),
        ..hand_case()
    }
}

fn sized(length: Length, width: Length) -> ShapeDraft {
    ShapeDraft {
        outline: Outline::Rectangle { length, width },
        ..hand_case()
    }
}

fn thick(thickness: Length) -> ShapeDraft {
    ShapeDraft {
        thickness,
        ..hand_case()
    }
}

fn run(profile: EdgeProfile) -> ShapeDraft {
    ShapeDraft {
        profile,
        ..hand_case()
    }
}

fn banded(band: Length) -> ShapeDraft {
    ShapeDraft {
        band: Some(band),
        ..hand_case()
    }
}

fn around(opening: Opening) -> ShapeDraft {
    ShapeDraft {
        openings: vec![opening],
        ..round_top(inch(36, 0))
    }
}

/// A cutout of whole inches with the usual corners.
fn sink(no: u8, x: i64, y: i64, width: i64, depth: i64) -> Opening {
    let size = [inch(width, 0), inch(depth, 0)];
    cutout(no, inch(x, 0), inch(y, 0), size, inch(0, 48))
}

/// A hole close to the front edge.
fn near() -> Opening {
    hole(2, inch(50, 0), inch(1, 0), inch(1, 0))
}

fn refused<const N: usize>(cases: [(ShapeDraft, &str); N]) {
    for (draft, want) in cases {
        let refusal = Shape::try_from(draft).expect_err(want);
        assert_eq!(refusal.to_string(), want);
    }
}

#[test]
fn sizes_that_cannot_be_are_refused_in_words() {
    refused([
        (
            sized(inch(-4, 0), inch(25, 0)),
            "The length is -4\": it must be more than nothing.",
        ),
        (
            sized(inch(98, 0), inch(0, 0)),
            "The width is 0\": it must be more than nothing.",
        ),
        (
            sized(Length::from_nm(20), inch(25, 0)),
            "The length is 0.001 mm: the smallest that can be cut is 1/64\".",
        ),
        (
            sized(inch(3600, 0), inch(25, 0)),
            "The length is 3600\": no top here is over 1200\", so look at the number again.",
        ),
        (
            thick(inch(0, 3)),
            "The thickness is 3/64\": a top must be at least 1/16\" thick.",
        ),
        (
            thick(Length::from_mm(400)),
            "The thickness is 400 mm: a top can be at most 12\" thick.",
        ),
        (
            run(EdgeProfile::Chamfer(Length::ZERO)),
            "The size of the chamfer is 0\": it must be more than nothing.",
        ),
        (
            run(EdgeProfile::RoundOver(inch(2, 0))),
            "The round-over is 2\", but the top is only 1 1/2\" thick: give the profile 1 1/2\" or less.",
        ),
        (
            ShapeDraft {
                profile: EdgeProfile::Eased(inch(1, 0)),
                ..sized(inch(9, 0), inch(2, 0))
            },
            "The eased edge is 1\" on every side, but the top is only 2\" across: no flat would be left, so make the profile smaller.",
        ),
    ]);
}

#[test]
fn openings_that_cannot_be_are_refused_in_words() {
    let many: Vec<_> = (1..=41)
        .map(|no| hole(no, inch(2 * i64::from(no), 0), inch(12, 0), inch(1, 0)))
        .collect();
    refused([
        (
            with(&many),
            "There are 41 openings: a top can have 40 at most.",
        ),
        (
            with(&[sink(0, 40, 12, 30, 16)]),
            "One opening is numbered 0: cutouts and holes are numbered from 1.",
        ),
        (
            with(&[near(), near()]),
            "There are two openings named hole 2: give one of them another number.",
        ),
        (
            with(&[sink(1, 40, 12, 1, 16)]),
            "The corner radius of cutout 1 is 3/4\": half its shorter side, 1/2\", is the most.",
        ),
        (
            with(&[hole(3, inch(9, 0), inch(9, 0), inch(-1, 0))]),
            "The diameter of hole 3 is -1\": it must be more than nothing.",
        ),
        (
            with(&[cutout(
                1,
                inch(9, 0),
                inch(9, 0),
                [inch(2, 0), inch(2, 0)],
                inch(0, -1),
            )]),
            "The corner radius of cutout 1 is -1/64\": it may be zero, but not less.",
        ),
    ]);
}

#[test]
fn openings_that_do_not_fit_the_top_are_refused_in_words() {
    refused([
        (
            with(&[sink(1, 40, 12, 30, 26)]),
            "Cutout 1 is 30\" x 26\" but the top is only 25 1/2\" wide: make the opening smaller or the top larger.",
        ),
        (
            with(&[sink(2, 40, 12, 99, 16)]),
            "Cutout 2 is 99\" x 16\" but the top is only 98 3/8\" long: make the opening smaller or the top larger.",
        ),
        (
            around(sink(1, 18, 18, 30, 24)),
            "Cutout 1 is 30\" x 24\" but the top is only 36\" across: make the opening smaller or the top larger.",
        ),
        (
            with(&[sink(1, 40, 6, 30, 16)]),
            "Cutout 1 reaches 2\" past the front edge: move it in, or make it smaller.",
        ),
        (
            with(&[sink(1, 90, 12, 30, 16)]),
            "Cutout 1 reaches 6 5/8\" past the right end: move it in, or make it smaller.",
        ),
        (
            with(&[sink(1, 15, 12, 30, 16)]),
            "Cutout 1 comes right up to the left end and leaves no wood there: move it in, or make it smaller.",
        ),
        (
            around(hole(1, inch(33, 0), inch(18, 0), inch(8, 0))),
            "Hole 1 reaches 1\" past the rim: move it in, or make it smaller.",
        ),
        (
            around(hole(1, inch(2, 0), inch(18, 0), inch(4, 0))),
            "Hole 1 comes right up to the rim and leaves no wood there: move it in, or make it smaller.",
        ),
        (
            ShapeDraft {
                profile: EdgeProfile::RoundOver(inch(0, 40)),
                ..with(&[near()])
            },
            "Hole 2 comes within the 5/8\" round-over of the front edge: move it in by 1/8\", or make it smaller.",
        ),
    ]);
}

#[test]
fn openings_and_bands_in_each_others_way_are_refused_in_words() {
    refused([
        (
            with(&[sink(1, 40, 12, 30, 16), sink(2, 60, 12, 20, 16)]),
            "Cutout 1 and cutout 2 cross: move one of them, so that wood is left between.",
        ),
        (
            with(&[sink(1, 40, 12, 30, 16), sink(2, 65, 12, 20, 16)]),
            "Cutout 1 and cutout 2 touch: move one of them, so that wood is left between.",
        ),
        (
            with(&[
                sink(1, 40, 12, 30, 16),
                hole(1, inch(40, 0), inch(21, 0), inch(3, 0)),
            ]),
            "Cutout 1 and hole 1 cross: move one of them, so that wood is left between.",
        ),
        (
            with(&[near(), hole(3, inch(53, 0), inch(5, 0), inch(9, 0))]),
            "Hole 2 and hole 3 touch: move one of them, so that wood is left between.",
        ),
        (
            banded(inch(0, -64)),
            "The underside band is -1\": it must be more than nothing.",
        ),
        (
            banded(inch(12, 48)),
            "The underside band is 12 3/4\" but the top is only 25 1/2\" across: it must be less than half of that, or have no band at all.",
        ),
        (
            ShapeDraft {
                band: Some(inch(17, 0)),
                ..around(hole(1, inch(18, 0), inch(18, 0), inch(4, 0)))
            },
            "The underside band of 17\" and the openings leave no field inside it: make the band narrower, or have no band at all.",
        ),
    ]);
}
