//! Outlines, corners, purposes and centre lines as they are typed: read as meant, written back as
//! the same, echoed, and told where they do not read.

use super::shop::shop;
use tackfree::desk::typed::{
    Onto, PieceTyped, echo_corners, echo_cutouts, echo_size, read_corners, read_cutouts,
    read_holes, read_size, write_cutouts, write_holes,
};
use tackfree::shape::{
    Corner, Corners, Cut, LiveEdges, Mount, Outline, Place, Purpose, Reveal, Shape,
};
use tackfree::units::Length;

fn inches(whole: i64, num: i64, den: i64) -> Length {
    Length::from_inches(whole, num, den).unwrap()
}

fn size(text: &str) -> Outline {
    read_size(text, &shop().settings).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn typed(size: &str) -> PieceTyped {
    PieceTyped {
        name: "top".into(),
        size: size.into(),
        thickness: "1 1/2".into(),
        profile: "square".into(),
        ..PieceTyped::default()
    }
}

fn shape(size: &str, change: impl FnOnce(&mut PieceTyped)) -> Result<Shape, String> {
    let mut typed = typed(size);
    change(&mut typed);
    typed
        .shape(&shop().settings)
        .map_err(|errors| format!("{}: {}", errors[0].field, errors[0].message))
}

#[test]
fn every_outline_has_its_way_of_writing() {
    let Outline::L(ell) = size("L 120 x 96, run 25 1/2, leg 24, open front right") else {
        panic!("an L")
    };
    assert_eq!(
        (ell.length, ell.width, ell.run, ell.leg, ell.open),
        (
            inches(120, 0, 1),
            inches(96, 0, 1),
            inches(25, 1, 2),
            inches(24, 0, 1),
            Corner::FrontRight
        )
    );
    for text in [
        "l 10' x 8', run 25-1/2 leg 24 open at the right front",
        "L: 120 in by 96 in, open front-right, leg 24, run 25 1/2",
    ] {
        assert_eq!(size(text), Outline::L(ell.clone()), "{text}");
    }
    assert!(
        matches!(size("oval 60 x 40"), Outline::Oval { length, .. } if length == inches(60, 0, 1))
    );
    assert!(
        matches!(size("U 120 x 96, run 25, left 24, right 20"), Outline::U(cup) if cup.right == inches(20, 0, 1))
    );
    let Outline::Quad(quad) = size("quad 60, 25 1/2, 59 7/8, 25 1/4, diagonal 65, other 64 7/8")
    else {
        panic!("four sides")
    };
    assert_eq!(quad.back, inches(59, 7, 8));
    assert_eq!(quad.falling, Some(inches(64, 7, 8)));
    assert_eq!(
        size(
            "out of square front 60, right 25 1/2, back 59 7/8, left 25 1/4 diagonal 65 other diagonal 64 7/8"
        ),
        Outline::Quad(quad)
    );
    let live = size("live both, over 96: 21 1/2, 22 1/4, 24");
    assert_eq!(live, size("slab both every 48: 21 1/2, 22 1/4, 24"));
    assert_eq!(live, size("live both: 21 1/2 at 0, 22 1/4 at 48, 24 at 96"));
    let Outline::Live(slab) = size("live both: 9 1/2 + 12 at 0, 24 at 60") else {
        panic!("a slab")
    };
    assert_eq!(slab.edges, LiveEdges::Both);
    assert_eq!(slab.stations[0].front, Some(inches(9, 1, 2)));
    assert_eq!(slab.stations[0].width, inches(21, 1, 2));
}

#[test]
fn corners_have_theirs() {
    let settings = shop().settings;
    let on = |text: &str| {
        read_corners(text, size("60 x 30"), &settings)
            .unwrap_or_else(|error| panic!("{text}: {error}"))
    };
    let round = |corner| (corner, Cut::Round(inches(2, 0, 1)));
    assert_eq!(on("").corners(), &Corners::SHARP);
    assert_eq!(
        on("round 2 all").corners(),
        &Corners::new(Corner::OUTER.map(round))
    );
    let front = Corners::new([round(Corner::FrontLeft), round(Corner::FrontRight)]);
    for text in [
        "round 2 front",
        "round 2 in front left and front right",
        "r 2 front-left; rounded 2 right front corner",
    ] {
        assert_eq!(on(text).corners(), &front, "{text}");
    }
    let clip = Cut::Clip {
        along: inches(3, 0, 1),
        across: inches(4, 0, 1),
    };
    assert_eq!(
        on("clip 3 x 4 back right").corners().at(Corner::BackRight),
        Some(clip)
    );
    for (text, said) in [
        ("round 2", "\"round 2\" does not say which corner"),
        ("2 front left", "\"2\" is not a way to cut a corner"),
        ("round 2 somewhere", "does not say which corner"),
    ] {
        let error = read_corners(text, size("60 x 30"), &settings).unwrap_err();
        assert_eq!(error.field, "corners");
        assert!(error.message.contains(said), "{error}");
    }
    let error = read_corners("round 2 all", size("round 36"), &settings).unwrap_err();
    assert_eq!(
        error.message,
        "A round top has no corners to cut: leave the corners empty."
    );
}

#[test]
fn a_sink_is_asked_for_its_reveal() {
    let settings = shop().settings;
    let cut = |text: &str| read_cutouts(text, Onto::default(), &settings);
    let said = |text: &str| cut(text).unwrap_err().message;
    let at = "30 x 16 r 3/4 at 49 1/4, 12 3/4";
    assert!(said(&format!("{at} sink")).starts_with("How the sink is set is not said"));
    assert_eq!(
        said(&format!("{at} sink undermount")),
        "The reveal of an undermount sink is not said: makers disagree, so say positive and by how much (the rim shows), zero (flush), or negative and by how much (the wood hangs over the bowl)."
    );
    assert!(said(&format!("{at} sink undermount negative")).contains("is not said"));
    assert!(said(&format!("{at} sink undermount zero negative 1/4")).contains("in two ways"));
    assert!(said(&format!("{at} sink drop-in zero")).contains("has no reveal"));
    assert!(said(&format!("{at} sink apron-front")).contains("The reveal of an apron-front sink"));
    assert!(said(&format!("{at} stove")).contains("stove"));

    let mount = |text: &str| match cut(&format!("{at} {text}")).unwrap()[0].purpose {
        Purpose::Sink(sink) => sink.mount,
        other => panic!("{other:?}"),
    };
    assert_eq!(mount("sink drop in"), Mount::DropIn);
    assert_eq!(
        mount("sink undermount flush"),
        Mount::Undermount(Reveal::Zero)
    );
    for text in [
        "sink undermount negative 3/8",
        "sink undermount, negative reveal 3/8",
        "sink, undermount, 3/8"
            .replace("3/8", "negative 3/8 reveal")
            .as_str(),
    ] {
        assert_eq!(
            mount(text),
            Mount::Undermount(Reveal::Negative(inches(0, 3, 8))),
            "{text}"
        );
    }
    // By its bowl: the reveal is added on each side, and round the corner.
    let bowl = cut("bowl 30 x 16 r 1 at 49 1/4, 12 3/4 sink undermount positive 1/8").unwrap();
    let same =
        cut("30 1/4 x 16 1/4 r 1 1/8 at 49 1/4, 12 3/4 sink undermount positive 1/8").unwrap();
    assert_eq!(bowl, same);
    assert_eq!(bowl[0].bowl(), Some((inches(30, 0, 1), inches(16, 0, 1))));
    assert!(
        said("bowl 30 x 16 at 49 1/4, 12 3/4 sink drop-in")
            .contains("only for a sink mounted from below")
    );
}

#[test]
fn what_simpsons_rule_did_is_said() {
    let settings = shop().settings;
    let echo = |text: &str| echo_size(text, &settings).unwrap();
    // Spacings of 60, 10 and 26 in are too uneven for a parabola: all straight.
    let straight = echo("live front: 21 1/2 at 0, 24 at 60, 20 at 70, 23 at 96");
    assert!(
        straight.ends_with("sq ft by straight lines from station to station"),
        "{straight}"
    );
    let some = echo("live front: 21 1/2 at 0, 24 at 20, 20 at 40, 23 at 60");
    assert!(
        some.ends_with("by Simpson's rule, 1 of 3 intervals straight"),
        "{some}"
    );
    let all = echo("live front: 21 1/2 at 0, 24 at 20, 20 at 40");
    assert!(all.ends_with("sq ft by Simpson's rule"), "{all}");
}

#[test]
fn what_is_run_along_an_openings_edge_stands_behind_its_place() {
    let settings = shop().settings;
    let cut = |text: &str| read_cutouts(text, Onto::default(), &settings);
    let at = "30 x 16 r 3/4 at 49 1/4, 12 3/4";
    let plain = cut(&format!("{at} sink undermount zero, overall 33 x 19")).unwrap()[0];
    assert!(plain.profile.is_square());
    let edged = tackfree::shape::Opening {
        profile: tackfree::shape::EdgeProfile::RoundOver(inches(0, 1, 4)),
        ..plain
    };
    for text in [
        "profile round-over 1/4 sink undermount zero, overall 33 x 19",
        ", profile round-over 1/4, sink undermount zero, overall 33 x 19",
        "sink undermount zero, profile roundover 1/4, overall 33 x 19",
        "sink undermount zero profile round-over 1/4 overall 33 x 19",
        "sink undermount zero, overall 33 x 19, profile round-over 1/4",
    ] {
        assert_eq!(cut(&format!("{at} {text}")).unwrap(), [edged], "{text}");
    }
    assert_eq!(
        write_cutouts(&[edged], &settings),
        format!("{at} profile round-over 1/4 sink undermount zero, overall 33 x 19")
    );
    let hole = read_holes(
        "1 3/8 at 60, 22 1/2 profile eased 1/16 faucet",
        Onto::default(),
        &settings,
    );
    assert_eq!(
        write_holes(&hole.unwrap(), &settings),
        "1 3/8 at 60, 22 1/2 profile eased 1/16 faucet"
    );
    let said = |text: &str| {
        let error = cut(&format!("{at} {text}")).unwrap_err();
        assert_eq!(error.field, "cutouts");
        error.message
    };
    assert!(said("profile").contains("type it like profile round-over 1/4"));
    assert!(said("profile wavy 1/4").contains("wavy"));
    assert!(said("profile cove 1/4 sink drop-in profile cove 1/4").contains("said twice"));
    assert!(said("profile round-over").contains("has no size"));
    assert_eq!(
        echo_cutouts(
            &format!("{at} profile chamfer 1/8"),
            Onto::default(),
            &settings
        )
        .unwrap(),
        "cutout 1: 30\" x 16\", corner radius 3/4\", edge chamfer 1/8\", centre 49 1/4\" from left, 12 3/4\" from front"
    );
}

#[test]
fn holes_are_placed_by_centre_lines() {
    let draft = shape("98 x 25 1/2", |typed| {
        typed.cutouts = "30 x 16 at centre, 12 sink drop-in".into();
        typed.holes = "1 3/8 at cutout 1, 2 1/2 from back faucet; 1 1/4 at cutout 1 + 4, 2 1/2 from the back accessory; 35mm at hole 1 - 8, centre".into();
    });
    // A hole cannot be measured from a hole typed beside it.
    assert!(
        draft
            .unwrap_err()
            .contains("There is no hole 1 to measure from")
    );
    let top = shape("98 x 25 1/2", |typed| {
        typed.cutouts =
            "30 x 14 at centre, 12 sink drop-in; 33 x 9 at 20 sink apron-front zero".into();
        typed.holes = "1 3/8 at cutout 1, 2 1/2 from back faucet; 1 1/4 at cutout 1 + 4, 2 1/2 from the back accessory".into();
    });
    assert!(top.unwrap_err().contains("Cutout 1 and cutout 2 cross"));
    let top = shape("98 x 25 1/2", |typed| {
        typed.cutouts = "30 x 14 at centre, 12 sink drop-in".into();
        typed.holes = "1 3/8 at cutout 1, 2 1/2 from back faucet; 1 1/4 at cutout 1 + 4, 2 1/2 from the back accessory".into();
    })
    .unwrap();
    let place = |x, y| Place { x, y };
    let places: Vec<Place> = top.openings().iter().map(|opening| opening.place).collect();
    assert_eq!(
        places,
        [
            place(inches(49, 0, 1), inches(12, 0, 1)),
            place(inches(49, 0, 1), inches(23, 0, 1)),
            place(inches(53, 0, 1), inches(23, 0, 1)),
        ]
    );
    // The back of a top out of square is where it is at that place.
    let leaning = shape("quad 60, 24, 60.2, 26, diagonal 64.9", |typed| {
        typed.holes = "1 3/8 at 30, 3 from back faucet".into();
    })
    .unwrap();
    let back = leaning.outline().back_at(inches(30, 0, 1)).unwrap();
    assert_eq!(leaning.openings()[0].place.y, back - inches(3, 0, 1));
}

#[test]
fn an_apron_front_sink_needs_no_distance_from_the_front() {
    let top = shape("98 x 25 1/2", |typed| {
        typed.cutouts =
            "33 x 18 r 1/2 at centre sink apron-front negative 3/8, overall 34 x 20".into();
    })
    .unwrap();
    assert!(top.openings()[0].open_front());
    assert_eq!(top.openings()[0].place.y, inches(9, 0, 1));
}

#[test]
fn what_was_understood_is_said() {
    let settings = shop().settings;
    let echo = |text: &str| echo_size(text, &settings).unwrap();
    assert_eq!(
        echo("L 120 x 96, run 25 1/2, leg 24, open front right"),
        "L, 10' 0\" x 8' 0\", run 2' 1 1/2\" deep, leg 2' 0\" wide, open at the front right, 33.0 sq ft"
    );
    assert_eq!(
        echo("quad 60, 25, 60, 25, diagonal 65, other 64 7/8"),
        "out of square, front 5' 0\", right 2' 1\", back 5' 0\", left 2' 1\", front left to back right 5' 5\", front right to back left 5' 4 7/8\", 10.4 sq ft; second diagonal 64 7/8\" measured, 65\" by the sides: closing error -1/8\""
    );
    assert_eq!(
        echo("live both, over 96: 21 1/2, 22 1/4, 24, 25 1/2, 26, 24 3/4, 23, 22 1/2, 22"),
        "slab, 8' 0\" long, 1' 9 1/2\" to 2' 2\" wide at 9 stations, both edges live, 15.8 sq ft as drawn, 15.8 sq ft by Simpson's rule"
    );
    assert_eq!(
        echo_corners("round 2 all", "60 x 30", &settings).unwrap(),
        "all corners rounded 2\", 12.5 sq ft"
    );
    let outline = size("98 x 25 1/2");
    let onto = Onto {
        outline: Some(&outline),
        openings: &[],
    };
    assert_eq!(
        echo_cutouts(
            "bowl 30 x 16 at centre, 12 3/4 sink undermount negative 3/8",
            onto,
            &settings
        )
        .unwrap(),
        "cutout 1: 29 1/4\" x 15 1/4\", sharp corners, centre 49\" from left, 12 3/4\" from front, 12 3/4\" from back, undermount sink, negative reveal 3/8\" (wood over the bowl), bowl 30\" x 16\""
    );
}

#[test]
fn what_does_not_read_is_told_at_its_field() {
    for (text, said) in [
        (
            "L 120 x 96, run 25",
            "size: Which corner is open is not said",
        ),
        (
            "L 120 x 96, run 25, open front right",
            "size: The leg is not said",
        ),
        ("L 120, run 25", "size: \"120\" is not a length x width"),
        ("U 120 x 96, run 25, left 24, centre 3", "size: "),
        (
            "quad 60, 25, 60, diagonal 65",
            "size: 3 sides are given where four are asked",
        ),
        ("quad 60, 25, 60, 25", "size: Four sides alone do not say"),
        (
            "quad 60, 25, 60, 25, diagonal 90",
            "size: The front, right end and the diagonal cannot close: 60\" and 25\" do not make a triangle with 90\"",
        ),
        ("live 20, 24", "size: Which edge is live is not said"),
        (
            "live both: 20, 24",
            "size: Where \"20\" was measured is not said once",
        ),
        (
            "live both: 20 at 30, 24 at 0",
            "size: Station 2 is at 0\", which is not after 30\"",
        ),
        ("live front every 12: 20, -4", "size: "),
    ] {
        let refusal = shape(text, |_| {}).unwrap_err();
        assert!(refusal.starts_with(said), "{text}: {refusal}");
    }
    let refusal = shape("60 x 20", |typed| typed.corners = "round 12 left".into()).unwrap_err();
    assert!(
        refusal.starts_with("corners: The round at the"),
        "{refusal}"
    );
}
