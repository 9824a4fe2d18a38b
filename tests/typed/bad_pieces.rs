//! Bad sizes, openings and words of a piece, each with the sentence it is answered with.

use super::shop::{job_id, shop};
use tackfree::desk::typed::{PieceTyped, read_piece};
use tackfree::shape::Construction;

fn good() -> PieceTyped {
    PieceTyped {
        name: "sink top".into(),
        species: "hard maple".into(),
        size: "98 3/8 x 25 1/2".into(),
        ..PieceTyped::starting(&shop())
    }
}

/// One field of a good piece made bad: the only error, at its field, in these words.
fn refuses(change: impl Fn(&mut PieceTyped), field: &str, message: &str) {
    let mut typed = good();
    change(&mut typed);
    let errors = read_piece(&typed, job_id(), &shop()).expect_err(message);
    let said: Vec<(&str, &str)> = errors
        .iter()
        .map(|error| (error.field, error.message.as_str()))
        .collect();
    assert_eq!(said, [(field, message)]);
}

#[test]
fn the_good_piece_is_good() {
    let draft = read_piece(&good(), job_id(), &shop()).unwrap();
    assert_eq!(draft.construction, Construction::EdgeGrain);
    assert_eq!(draft.shape.faces(draft.construction).len(), 6);
}

#[test]
fn sizes() {
    for (size, message) in [
        (
            "25 1/0 x 20",
            "\"25 1/0\" has a fraction over 0; write the lower number as 2, 4, 8, 16, 32 or 64.",
        ),
        (
            "-4 x 20",
            "\"-4\" is below zero; a length is zero or more, so write it without the minus.",
        ),
        (
            "98 3/8 ft lb x 25",
            "\"98 3/8 ft lb\" does not read as a length at \"98 3/8 ft lb\"; write it like 8' 2 3/8\", 98 3/8 or 2500 mm.",
        ),
        (
            "300 ft x 25",
            "\"300 ft\" is more than 100 ft, the longest length taken here; check the unit.",
        ),
        (
            "",
            "No size was given: type length x width, for example 98 3/8 x 25 1/2, or round 36 for a round top.",
        ),
        (
            "98 3/8",
            "\"98 3/8\" is one length alone: type length x width, for example 98 3/8 x 25 1/2, or round 36 for a round top.",
        ),
        (
            "98 x 25 x 2",
            "\"98 x 25 x 2\" has more than two lengths: type length x width, for example 98 3/8 x 25 1/2, or round 36 for a round top.",
        ),
        ("0 x 20", "The length is 0\": it must be more than nothing."),
        (
            "round",
            "No length was given; write one like 8' 2 3/8\", 98 3/8 or 2500 mm.",
        ),
    ] {
        refuses(|typed| typed.size = size.into(), "size", message);
    }
}

#[test]
fn other_lengths() {
    refuses(
        |typed| typed.thickness = "25 1/0".into(),
        "thickness",
        "\"25 1/0\" has a fraction over 0; write the lower number as 2, 4, 8, 16, 32 or 64.",
    );
    refuses(
        |typed| typed.thickness = "14".into(),
        "thickness",
        "The thickness is 14\": a top can be at most 12\" thick.",
    );
    refuses(
        |typed| typed.profile = "wavy 1/4".into(),
        "profile",
        "\"wavy\" is not among them: say square, eased, round-over, chamfer, ogee, cove or bullnose.",
    );
    refuses(
        |typed| typed.profile = "round-over".into(),
        "profile",
        "\"round-over\" has no size: type it behind, for example round-over 1/4.",
    );
    refuses(
        |typed| typed.profile = "chamfer -1/8".into(),
        "profile",
        "\"-1/8\" is below zero; a length is zero or more, so write it without the minus.",
    );
    refuses(
        |typed| typed.profile = "round-over 2".into(),
        "profile",
        "The round-over is 2\", but the top is only 1 1/2\" thick: give the profile 1 1/2\" or less.",
    );
    refuses(
        |typed| typed.band = "13".into(),
        "band",
        "The underside band is 13\" but the top is only 25 1/2\" across: it must be less than half of that, or have no band at all.",
    );
}

#[test]
fn openings() {
    for (cutouts, message) in [
        (
            "30 x 26 at 49, 12",
            "Cutout 1 is 30\" x 26\" but the top is only 25 1/2\" wide: make the opening smaller or the top larger.",
        ),
        (
            "30 x 16 r 3/4 at 49 1/4, 6",
            "Cutout 1 reaches 2\" past the front edge: move it in, or make it smaller.",
        ),
        (
            "30 x 16 at 30, 12; 20 x 10 at 50, 12",
            "Cutout 1 and cutout 2 cross: move one of them, so that wood is left between.",
        ),
        (
            "30 x 16 r 9 at 49, 12 3/4",
            "The corner radius of cutout 1 is 9\": half its shorter side, 8\", is the most.",
        ),
        (
            "1: 20 x 10 at 20, 12; 1: 20 x 10 at 60, 12",
            "There are two openings named cutout 1: give one of them another number.",
        ),
        (
            "30 x 16",
            "\"30 x 16\" does not say where: type width x depth r corner radius at centre from the left end, from the front edge, for example 30 x 16 r 3/4 at 49 1/4, 12 3/4.",
        ),
        (
            "20 x 10 at 20, 12; 20 x 1/0 at 60, 12",
            "Cutout 2: \"1/0\" has a fraction over 0; write the lower number as 2, 4, 8, 16, 32 or 64.",
        ),
        (
            "20 at 20, 12",
            "\"20\" is not a width x depth: type width x depth r corner radius at centre from the left end, from the front edge, for example 30 x 16 r 3/4 at 49 1/4, 12 3/4.",
        ),
        (
            "20 x 10 at 20",
            "\"20\" is not a place: after at, type the centre from the left end, a comma, and from the front edge, for example at 49 1/4, 12 3/4; or by centre lines, at cutout 1, 2 1/2 from back. Only an apron-front sink, which lies at the front, takes at centre alone.",
        ),
        (
            "300: 20 x 10 at 20, 12",
            "\"300\" is no number to stand before a colon: use 1 to 255.",
        ),
    ] {
        refuses(|typed| typed.cutouts = cutouts.into(), "cutouts", message);
    }
    refuses(
        |typed| {
            typed.cutouts = "30 x 16 r 3/4 at 49 1/4, 12 3/4".into();
            typed.holes = "1 3/8 at 49, 12".into();
        },
        "holes",
        "Cutout 1 and hole 1 cross: move one of them, so that wood is left between.",
    );
    refuses(
        |typed| typed.holes = "1 3/8 at 98, 12".into(),
        "holes",
        "Hole 1 reaches 5/16\" past the right end: move it in, or make it smaller.",
    );
}

#[test]
fn names_and_words() {
    refuses(
        |typed| typed.name = "x".repeat(300),
        "name",
        "The piece's name can have up to 40 characters; this has 300. Shorten it; the rest can go into the notes.",
    );
    refuses(
        |typed| typed.name = "\u{1b}[31m\u{7}".into(),
        "name",
        "The piece's name is empty: type what the shop calls it, for example bar top.",
    );
    refuses(
        |typed| typed.species = "  ".into(),
        "species",
        "The species is empty: type the wood, for example hard maple.",
    );
    refuses(
        |typed| typed.kind = "t".into(),
        "kind",
        "\"t\" may be table or tread: type more of it.",
    );
    refuses(
        |typed| typed.construction = "plywood".into(),
        "construction",
        "\"plywood\" is not among them: say face grain, edge grain, end grain or solid slab.",
    );
    refuses(
        |typed| typed.recipe = "lacquer".into(),
        "recipe",
        "There is no recipe called \"lacquer\": say clear wiped film, gel stain under a wiped film, hardwax oil on all sides or water-borne clear.",
    );
    // Wide and joined characters count as a reader counts them.
    let mut typed = good();
    typed.name = "カウンター天板 👩‍🔧".into();
    assert!(read_piece(&typed, job_id(), &shop()).is_ok());
    typed.name = "板".repeat(40);
    assert!(read_piece(&typed, job_id(), &shop()).is_ok());
}

#[test]
fn every_bad_field_is_told_at_once() {
    let typed = PieceTyped {
        kind: "x".into(),
        size: "-4".into(),
        ..PieceTyped::default()
    };
    let errors = read_piece(&typed, job_id(), &shop()).unwrap_err();
    let fields: Vec<&str> = errors.iter().map(|error| error.field).collect();
    assert_eq!(
        fields,
        [
            "name",
            "kind",
            "species",
            "construction",
            "size",
            "thickness",
            "recipe"
        ]
    );
}
