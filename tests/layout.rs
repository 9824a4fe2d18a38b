//! The layout checks against closed forms, against a second geometry library, and in words.

use geo::{Distance, Euclidean, LineString, Polygon};
use proptest::prelude::*;
use tackfree::shape::layout::{
    About, Accepted, Appliance, Brackets, Figure, Finding, Joint, JointWay, Looks, Overhang, Rule,
    RuleBook, RuleSetting, Seen, SourceKind, Standing, Weight, findings, to_nearest, to_void,
};
use tackfree::shape::{
    Cabinet, Construction, Corners, EdgeProfile, FaceKey, Mount, Opening, OpeningKind, Outline,
    Place, Purpose, Quad, Reveal, Shape, Sink,
};
use tackfree::units::{Length, LengthStyle};

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

fn inches(sixteenths: i64) -> Length {
    Length::from_64ths(4 * sixteenths)
}

fn cutout(no: u8, (x, y): (i64, i64), (width, depth, corner): (i64, i64, i64)) -> Opening {
    Opening {
        no,
        place: Place { x: mm(x), y: mm(y) },
        what: OpeningKind::Cutout {
            width: mm(width),
            depth: mm(depth),
            corner_radius: mm(corner),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    }
}

fn hole(no: u8, (x, y): (i64, i64), diameter: i64) -> Opening {
    Opening {
        no,
        place: Place { x: mm(x), y: mm(y) },
        what: OpeningKind::Hole {
            diameter: mm(diameter),
        },
        purpose: Purpose::Plain,
        profile: EdgeProfile::Square,
    }
}

fn top(length: i64, width: i64, openings: Vec<Opening>) -> Shape {
    let outline = Outline::Rectangle {
        length: mm(length),
        width: mm(width),
    };
    Shape::new(outline, mm(38), EdgeProfile::Square, openings, None).expect("a shape")
}

/// A drip groove and a 12 mm bit, so that only the layout is left to find.
fn found(shape: &Shape, standing: &Standing) -> Vec<Finding> {
    let mut standing = standing.clone();
    standing.drip = standing.drip.or(Some(mm(10)));
    let rules = RuleBook::default();
    findings(
        shape,
        Construction::EdgeGrain,
        &standing,
        &rules,
        mm(12),
        LengthStyle::Sixteenths,
        &[],
    )
}

fn of(found: &[Finding], rule: Rule) -> Option<&Finding> {
    found.iter().find(|finding| finding.rule == rule)
}

fn missing(found: &[Finding], rule: Rule) -> Option<Length> {
    of(found, rule).map(|finding| finding.missing)
}

/// Every strip of a rectangle in a rectangle follows by subtraction: 30 in front, 55 behind, 40 to
/// the left end, 140 to the right.
#[test]
fn strips_by_closed_form() {
    let shape = top(930, 485, vec![cutout(1, (415, 230), (750, 400, 20))]);
    let found = found(&shape, &Standing::default());
    let front = of(&found, Rule::StripFront).expect("too near the front");
    assert_eq!(front.has, Some(mm(30)));
    assert_eq!(front.asks, Some(mm(50)));
    assert_eq!(front.missing, mm(20));
    assert_eq!(front.about, About("cutout-1".to_owned()));
    assert_eq!(
        (front.weight, front.kind),
        (Weight::Serious, SourceKind::Maker)
    );
    let (from, to) = front.place.expect("a place");
    assert!((from.to(to) - 30.0).abs() < 1e-9 && to.y.abs() < 1e-9);
    assert_eq!(missing(&found, Rule::StripBack), None);
    assert_eq!(missing(&found, Rule::EndStrip), Some(mm(60)));
    // Nothing else is found on such a top.
    assert_eq!(found.len(), 2);
}

/// What a check asks exactly is enough, a nanometre less is not.
#[test]
fn exactly_enough_is_enough() {
    let at = |x: Length| {
        let mut opening = cutout(1, (0, 317), (400, 300, 20));
        opening.place.x = x;
        let outline = Outline::Rectangle {
            length: mm(1200),
            width: mm(635),
        };
        Shape::new(outline, mm(38), EdgeProfile::Square, vec![opening], None).expect("a shape")
    };
    let rule = Rule::EndStrip;
    assert_eq!(
        missing(&found(&at(mm(300)), &Standing::default()), rule),
        None
    );
    let less = Length::from_nm(mm(300).nm() - 1_000);
    let short = missing(&found(&at(less), &Standing::default()), rule);
    assert_eq!(short, Some(Length::from_nm(1_000)));
}

/// Two cutouts corner to corner: 3-4-5, less nothing for sharp corners; with round ones more.
#[test]
fn between_cutouts_by_pythagoras() {
    let sharp = top(
        2000,
        900,
        vec![
            cutout(1, (400, 300), (400, 300, 0)),
            // 60 to the right of the first's right edge, 80 behind its back.
            cutout(2, (860, 630), (400, 200, 0)),
        ],
    );
    let seen = Seen::of(&sharp);
    assert!((to_void(&seen.voids[0], &seen.voids[1]).mm - 100.0).abs() < 1e-9);
    let round = top(
        2000,
        900,
        vec![
            cutout(1, (400, 300), (400, 300, 10)),
            cutout(2, (860, 630), (400, 200, 10)),
        ],
    );
    let seen = Seen::of(&round);
    // Core to core 80 by 100, less the two radii.
    let wanted = 80_f64.hypot(100.0) - 20.0;
    assert!((to_void(&seen.voids[0], &seen.voids[1]).mm - wanted).abs() < 1e-9);
}

#[test]
fn corners_against_standard_and_bit() {
    let shape = top(1500, 635, vec![cutout(1, (700, 300), (700, 380, 5))]);
    let found = found(&shape, &Standing::default());
    // 1/4 in is 6.35 mm; a 12 mm bit leaves 6 mm.
    assert_eq!(
        missing(&found, Rule::CornerRadius),
        Some(Length::from_nm(1_350_000))
    );
    let bit = of(&found, Rule::CornerBit).expect("the bit is too large");
    assert_eq!((bit.has, bit.asks), (Some(mm(5)), Some(mm(6))));
    // Twice 5 mm is 0.394 in: 3/8 in is the next smaller by sixteenths.
    assert!(bit.cure.contains("a bit of 3/8\" or less"), "{}", bit.cure);
}

#[test]
fn faucet_holes_and_the_deck_behind_a_sink() {
    // 70 of wood behind the sink; a hole of 28 whose middle stands 40 behind it.
    let shape = top(
        1500,
        600,
        vec![
            cutout(1, (700, 340), (700, 380, 20)),
            hole(1, (700, 570), 28),
        ],
    );
    let got = found(&shape, &Standing::default());
    assert_eq!(
        missing(&got, Rule::FaucetLeast),
        Some(Length::from_nm(3_750_000))
    );
    assert_eq!(
        missing(&got, Rule::FaucetClear),
        Some(Length::from_nm(10_800_000))
    );
    assert_eq!(
        missing(&got, Rule::FaucetDeck),
        Some(Length::from_nm(6_200_000))
    );
    assert_eq!(missing(&got, Rule::FaucetThick), None);
    // A hole at the other end of the top is nobody's faucet.
    let shape = top(
        3000,
        600,
        vec![
            cutout(1, (700, 340), (700, 380, 20)),
            hole(1, (2700, 300), 60),
        ],
    );
    let got = found(&shape, &Standing::default());
    assert!(of(&got, Rule::FaucetMost).is_none() && of(&got, Rule::FaucetDeck).is_none());
}

/// A 33 in sink asks a 36 in cabinet (two sink sellers' pages); between 3/4 in sides a 34 1/2 in
/// inside is left.
#[test]
fn sinks_against_their_cabinets() {
    let sink = |overall: Length, left: i64| {
        let cabinet = Cabinet {
            width: inches(33 * 16),
            left: Some(inches(left)),
            wall: Some(inches(12)),
            front_rail: inches(24),
            back_rail: Length::ZERO,
            overhang: Some(inches(16)),
            depth: None,
        };
        let mut opening = cutout(1, (700, 300), (700, 380, 20));
        opening.place = Place {
            x: inches(30 * 16),
            y: inches(12 * 16),
        };
        opening.purpose = Purpose::Sink(Sink {
            mount: Mount::Undermount(Reveal::Zero),
            overall: Some((overall, inches(20 * 16))),
            wall: None,
            cabinet: Some(cabinet),
        });
        top(1500, 635, vec![opening])
    };
    // 33 in cabinet from 13 1/2 to 46 1/2; its inside from 14 1/4 to 45 3/4; the sink from 14 to 46.
    let got = found(&sink(inches(32 * 16), 216), &Standing::default());
    assert_eq!(missing(&got, Rule::SinkBase), Some(inches(32)));
    let walls: Vec<Length> = got
        .iter()
        .filter(|finding| finding.rule == Rule::SinkWall)
        .map(|finding| finding.missing)
        .collect();
    assert_eq!(walls, [inches(4), inches(4)]);
    // The sink begins 2 in behind the front; the rail ends at 1 + 1 1/2.
    assert_eq!(missing(&got, Rule::SinkRail), Some(inches(8)));
    let good = found(&sink(inches(30 * 16), 216), &Standing::default());
    assert!(of(&good, Rule::SinkBase).is_none() && of(&good, Rule::SinkWall).is_none());
}

/// The help's own example: an undermount sink of 32 x 18 in overall at 49, 9 in a cabinet of 36 in.
fn sunk(sink: Sink, openings: impl FnOnce(&mut Vec<Opening>)) -> Shape {
    let mut opening = cutout(1, (0, 0), (0, 0, 0));
    opening.place = Place {
        x: inches(49 * 16),
        y: inches(9 * 16),
    };
    opening.what = OpeningKind::Cutout {
        width: inches(30 * 16),
        depth: inches(16 * 16),
        corner_radius: inches(16),
    };
    opening.purpose = Purpose::Sink(sink);
    let mut all = vec![opening];
    openings(&mut all);
    let outline = Outline::Rectangle {
        length: inches(98 * 16),
        width: inches(408),
    };
    Shape::new(outline, mm(38), EdgeProfile::Square, all, None).expect("a shape")
}

fn below(cabinet: Cabinet) -> Sink {
    Sink {
        mount: Mount::Undermount(Reveal::Zero),
        overall: Some((inches(32 * 16), inches(18 * 16))),
        wall: None,
        cabinet: Some(cabinet),
    }
}

const CABINET: Cabinet = Cabinet {
    width: Length::from_64ths(36 * 64),
    left: None,
    wall: Some(Length::from_64ths(48)),
    front_rail: Length::ZERO,
    back_rail: Length::ZERO,
    overhang: None,
    depth: None,
};

#[test]
fn rails_are_checked_as_far_as_is_known_and_what_is_not_is_said() {
    let look = |cabinet| found(&sunk(below(cabinet), |_| ()), &Standing::default());
    // The sink begins right at the front edge; without any overhang a 12 in rail is 12 in in its
    // way, with one more still.
    let railed = Cabinet {
        front_rail: inches(12 * 16),
        ..CABINET
    };
    let got = look(railed);
    assert_eq!(missing(&got, Rule::SinkRail), Some(inches(12 * 16)));
    let rail = of(&got, Rule::SinkRail).expect("in the way");
    assert!(
        rail.cure.contains("overhang was not measured"),
        "{}",
        rail.cure
    );
    let unsaid = of(&got, Rule::CabinetMeasure).expect("it is said");
    assert!(unsaid.cure.contains("(overhang)"), "{}", unsaid.cure);
    let measured = Cabinet {
        overhang: Some(inches(24)),
        ..railed
    };
    let got = look(measured);
    assert_eq!(missing(&got, Rule::SinkRail), Some(inches(12 * 16 + 24)));
    assert!(of(&got, Rule::CabinetMeasure).is_none());
    // A back rail asks how deep the cabinet is, too.
    let back = Cabinet {
        back_rail: inches(48),
        ..CABINET
    };
    let got = look(back);
    assert!(of(&got, Rule::SinkRail).is_none());
    let cure = &of(&got, Rule::CabinetMeasure).expect("it is said").cure;
    assert!(
        cure.contains("(overhang) and") && cure.contains("(deep)"),
        "{cure}"
    );
    // From 1 1/2 to 18 1/2 in, less 3 in of rail: the sink ends at 18.
    let got = look(Cabinet {
        overhang: Some(inches(24)),
        depth: Some(inches(17 * 16)),
        ..back
    });
    let rails: Vec<(&str, Length)> = got
        .iter()
        .filter(|finding| finding.rule == Rule::SinkRail)
        .map(|finding| (finding.about.0.as_str(), finding.missing))
        .collect();
    assert_eq!(
        rails,
        [
            ("cutout-1+front-rail", inches(24)),
            ("cutout-1+back-rail", inches(40))
        ]
    );
    assert!(of(&look(CABINET), Rule::CabinetMeasure).is_none());
}

#[test]
fn walls_nobody_measured_are_not_told_as_measured() {
    let say = |length: Length| format!("{} mm", length.mm());
    let cabinet = Cabinet {
        width: mm(840),
        wall: None,
        ..CABINET
    };
    assert_eq!(
        cabinet.words(&say),
        "cabinet 840 mm wide, walls not measured, 19.05 mm taken"
    );
    // 32 in of sink in 840 - 38.1 mm of room: 5.45 mm too little on each side.
    let got = found(&sunk(below(cabinet), |_| ()), &Standing::default());
    let wall = of(&got, Rule::SinkWall).expect("too narrow");
    assert_eq!(wall.missing, Length::from_nm(5_450_000));
    assert!(wall.cure.contains("were not measured"), "{}", wall.cure);
}

#[test]
fn a_bowl_counts_against_its_cabinet_and_each_side_is_a_finding_of_its_own() {
    // A bowl of 34 in below a cutout of 30, in 30 in of room.
    let sink = Sink {
        mount: Mount::Undermount(Reveal::Negative(inches(32))),
        overall: None,
        wall: None,
        cabinet: Some(Cabinet {
            width: inches(504),
            left: Some(inches(49 * 16 - 252)),
            ..CABINET
        }),
    };
    let mut shape = sunk(sink, |all| all[0].place.y = inches(12 * 16));
    let got = found(&shape, &Standing::default());
    let walls: Vec<(&str, Length)> = got
        .iter()
        .filter(|finding| finding.rule == Rule::SinkWall)
        .map(|finding| (finding.about.0.as_str(), finding.missing))
        .collect();
    assert_eq!(
        walls,
        [
            ("cutout-1+left-side", inches(32)),
            ("cutout-1+right-side", inches(32))
        ]
    );
    // 3 in are asked over the 34 of the bowl; the cabinet is 2 1/2 narrower than that alone.
    assert_eq!(missing(&got, Rule::SinkBase), Some(inches(88)));
    // With walls of 1/2 in each side is that much worse.
    let walled = Sink {
        wall: Some(inches(8)),
        ..sink
    };
    shape = sunk(walled, |all| all[0].place.y = inches(12 * 16));
    let got = found(&shape, &Standing::default());
    assert_eq!(missing(&got, Rule::SinkWall), Some(inches(40)));
    // Accepting one side leaves the other open, and neither changes its number.
    let numbers = |accepted: &[Accepted]| {
        let rules = RuleBook::default();
        let wood = Construction::EdgeGrain;
        findings(
            &shape,
            wood,
            &Standing::default(),
            &rules,
            mm(12),
            LengthStyle::Sixteenths,
            accepted,
        )
    };
    let before = numbers(&[]);
    let taken = before
        .iter()
        .find(|finding| finding.rule == Rule::SinkWall)
        .expect("a wall");
    let after = numbers(&[Accepted {
        rule: taken.rule,
        about: taken.about.clone(),
        missing: taken.missing,
        weight: taken.weight,
        reason: "its side comes out".to_owned(),
    }]);
    let named = |found: &[Finding]| -> Vec<(Rule, About)> {
        let names = found.iter();
        names
            .map(|finding| (finding.rule, finding.about.clone()))
            .collect()
    };
    assert_eq!(named(&before), named(&after));
    let accepted = after.iter().filter(|finding| finding.accepted.is_some());
    assert_eq!(accepted.count(), 1);
}

#[test]
fn a_hole_through_the_rim_of_a_sink_is_found() {
    // A cutout of 20 x 14 in about 49, 10 for a sink of 22 x 22: its rim ends 4 in behind the
    // cutout, a hole of 1 3/8 in 2 1/2 behind it goes through.
    let look = |mount, overall: (i64, i64), behind: i64| {
        let sink = Sink {
            mount,
            overall: Some((inches(overall.0 * 16), inches(overall.1 * 16))),
            wall: None,
            cabinet: None,
        };
        let shape = sunk(sink, |all| {
            all[0].place.y = inches(10 * 16);
            all[0].what = OpeningKind::Cutout {
                width: inches(20 * 16),
                depth: inches(14 * 16),
                corner_radius: inches(16),
            };
            let mut faucet = hole(1, (0, 0), 1);
            faucet.what = OpeningKind::Hole {
                diameter: inches(22),
            };
            faucet.place = Place {
                x: inches(49 * 16),
                y: inches(17 * 16 + behind),
            };
            faucet.purpose = Purpose::Faucet;
            all.push(faucet);
        });
        found(&shape, &Standing::default())
    };
    let zero = Mount::Undermount(Reveal::Zero);
    let got = look(zero, (22, 22), 40);
    // The hole's far edge must come to 4 in: 1 1/2 and half of 1 3/8 further.
    assert_eq!(
        missing(&got, Rule::HoleSink),
        Some(Length::from_64ths(96 + 44))
    );
    let of_it = of(&got, Rule::HoleSink).expect("found");
    assert_eq!(of_it.about, About("hole-1+cutout-1".to_owned()));
    assert!(of(&look(Mount::DropIn, (22, 22), 40), Rule::HoleSink).is_some());
    assert!(of(&look(zero, (22, 16), 40), Rule::HoleSink).is_none());
    assert!(of(&look(zero, (22, 22), 75), Rule::HoleSink).is_none());
}

#[test]
fn a_closing_error_is_found() {
    let look = |other: i64| {
        let quad = Quad {
            front: inches(960),
            right: inches(400),
            back: inches(960),
            left: inches(400),
            rising: Some(inches(65 * 16)),
            falling: Some(inches(other)),
            corners: Corners::SHARP,
        };
        let outline = Outline::Quad(quad);
        let shape =
            Shape::new(outline, mm(38), EdgeProfile::Square, Vec::new(), None).expect("a shape");
        found(&shape, &Standing::default())
    };
    // 60 x 25 is square at diagonals of 65: 80 in is 15 off, of which an eighth is let pass.
    let got = look(80 * 16);
    assert_eq!(
        of(&got, Rule::Closing).map(|f| f.has),
        Some(Some(inches(240)))
    );
    assert_eq!(missing(&got, Rule::Closing), Some(inches(238)));
    assert!(look(65 * 16 + 2).is_empty());
    assert_eq!(missing(&look(65 * 16 - 3), Rule::Closing), Some(inches(1)));
}

/// An apron-front sink is open to the front: no strip is asked there, 300 mm to the end is.
#[test]
fn apron_fronts_are_measured_to_the_end() {
    let mut opening = cutout(1, (700, 225), (800, 450, 20));
    opening.purpose = Purpose::Sink(Sink {
        mount: Mount::ApronFront(Reveal::Negative(mm(10))),
        overall: None,
        wall: None,
        cabinet: None,
    });
    let shape = top(1700, 635, vec![opening]);
    let got = found(&shape, &Standing::default());
    assert!(of(&got, Rule::StripFront).is_none());
    assert_eq!(missing(&got, Rule::EndStrip), None);
    let opening = Opening {
        place: Place {
            x: mm(650),
            y: mm(225),
        },
        ..opening
    };
    let shape = top(1700, 635, vec![opening]);
    assert_eq!(
        missing(&found(&shape, &Standing::default()), Rule::ApronEnd),
        Some(mm(50))
    );
}

#[test]
fn overhangs_supports_and_spans() {
    let shape = top(2000, 900, Vec::new());
    let hang = |side, out, brackets| Standing {
        overhangs: vec![Overhang {
            side,
            out,
            brackets,
        }],
        ..Standing::default()
    };
    // 10 in across the grain (a US maker): 12 in is 2 too far.
    let across = found(&shape, &hang(FaceKey::Back, inches(192), None));
    assert_eq!(missing(&across, Rule::OverhangAcross), Some(inches(32)));
    // 24 in along it (a Canadian maker).
    let along = found(&shape, &hang(FaceKey::Left, inches(400), None));
    assert_eq!(missing(&along, Rule::OverhangAlong), Some(inches(16)));
    assert!(found(&shape, &hang(FaceKey::Left, inches(192), None)).is_empty());
    // Brackets under 75 % of 12 in, every 18 in at most (a US maker).
    let brackets = Some(Brackets {
        reach: inches(128),
        apart: inches(320),
    });
    let held = found(&shape, &hang(FaceKey::Back, inches(192), brackets));
    assert_eq!(missing(&held, Rule::BracketReach), Some(inches(16)));
    assert_eq!(missing(&held, Rule::BracketApart), Some(inches(32)));
    let span = Standing {
        span: Some(inches(640)),
        ..Standing::default()
    };
    assert_eq!(missing(&found(&shape, &span), Rule::Span), Some(inches(64)));
}

#[test]
fn joints_steam_drip_and_height() {
    let shape = top(3000, 635, vec![cutout(1, (700, 300), (700, 380, 20))]);
    let joint = |at| Joint {
        way: JointWay::Across,
        at,
    };
    let standing = Standing {
        joints: vec![joint(mm(1110)), joint(mm(1700)), joint(mm(700))],
        appliances: vec![Appliance {
            from: mm(1500),
            to: mm(2100),
            barrier: false,
        }],
        drip: Some(mm(5)),
        height: Some(mm(914)),
        accessible: true,
        ..Standing::default()
    };
    let got = found(&shape, &standing);
    // The cutout ends at 1050: 60 to the first joint, through the third.
    let strips: Vec<Length> = got
        .iter()
        .filter(|finding| finding.rule == Rule::JointStrip)
        .map(|finding| finding.missing)
        .collect();
    assert_eq!(strips, [mm(40), mm(100)]);
    // The second joint lies 200 inside the appliance's left side.
    assert_eq!(missing(&got, Rule::JointSteam), Some(mm(200)));
    assert!(of(&got, Rule::Steam).is_some());
    assert_eq!(missing(&got, Rule::Drip), Some(Length::from_nm(4_525_000)));
    // 36 in where 34 is the most (US accessibility standard, 2010): 914 - 863.6.
    assert_eq!(
        missing(&got, Rule::HeightMost),
        Some(Length::from_nm(50_400_000))
    );
    assert!(
        of(
            &found(
                &shape,
                &Standing {
                    accessible: false,
                    ..standing
                }
            ),
            Rule::HeightMost
        )
        .is_none()
    );
}

#[test]
fn the_shop_changes_figures_weights_and_what_is_checked() {
    let shape = top(930, 485, vec![cutout(1, (415, 230), (750, 400, 20))]);
    let mut rules = RuleBook::default();
    let own = RuleSetting {
        figure: Figure::Length(mm(25)),
        weight: Weight::Note,
        made: true,
    };
    rules.set(Rule::StripFront, own).expect("a length");
    let off = RuleSetting {
        made: false,
        ..RuleSetting::first(Rule::EndStrip)
    };
    rules.set(Rule::EndStrip, off).expect("as it began");
    let standing = Standing {
        drip: Some(mm(10)),
        ..Standing::default()
    };
    let wood = Construction::EdgeGrain;
    assert!(
        findings(
            &shape,
            wood,
            &standing,
            &rules,
            mm(12),
            LengthStyle::Sixteenths,
            &[]
        )
        .is_empty()
    );
    assert_eq!(rules.kind(Rule::StripFront), SourceKind::Shop);
    let percent = RuleSetting {
        figure: Figure::Percent(50),
        ..own
    };
    let refused = rules.set(Rule::StripFront, percent).expect_err("no share");
    assert!(refused.to_string().contains("strip-front"), "{refused}");
    rules
        .set(Rule::StripFront, RuleSetting::first(Rule::StripFront))
        .expect("as it began");
    assert_eq!(rules.own().count(), 1);
}

/// What was accepted stays so while no more is missing; once more is, it is open again.
#[test]
fn accepted_holds_until_it_gets_worse() {
    let at = |y| top(930, 485, vec![cutout(1, (415, y), (600, 400, 20))]);
    let taken = Accepted {
        rule: Rule::StripFront,
        about: About("cutout-1".to_owned()),
        missing: mm(20),
        weight: Weight::Serious,
        reason: "the sink asks it".to_owned(),
    };
    let standing = Standing {
        drip: Some(mm(10)),
        ..Standing::default()
    };
    let rules = RuleBook::default();
    let look = |y| {
        let wood = Construction::EdgeGrain;
        let found = findings(
            &at(y),
            wood,
            &standing,
            &rules,
            mm(12),
            LengthStyle::Sixteenths,
            std::slice::from_ref(&taken),
        );
        of(&found, Rule::StripFront).and_then(|finding| finding.accepted.clone())
    };
    assert_eq!(look(230).as_deref(), Some("the sink asks it"));
    assert_eq!(look(235).as_deref(), Some("the sink asks it"));
    assert_eq!(look(229), None);
}

#[test]
fn what_a_top_has_no_room_for_is_refused() {
    // 60 x 25 in.
    let (length, width) = (inches(960), inches(400));
    let refused = |standing: Standing| {
        let error = standing.check(length, width).expect_err("it cannot be");
        error.to_string()
    };
    let hang = |side, out: i64| Overhang {
        side,
        out: inches(out * 16),
        brackets: None,
    };
    let hangs = |overhangs: Vec<Overhang>| Standing {
        overhangs,
        ..Standing::default()
    };
    assert_eq!(
        refused(hangs(vec![hang(FaceKey::Back, 40)])),
        "An overhang is 40\", but the top is only 25\" wide: look at the number again."
    );
    assert!(refused(hangs(vec![hang(FaceKey::Left, 60)])).contains("only 60\" long"));
    assert!(
        refused(hangs(vec![
            hang(FaceKey::Back, 13),
            hang(FaceKey::Front, 12)
        ]))
        .contains("25\" together")
    );
    let mut bracket = hang(FaceKey::Back, 12);
    bracket.brackets = Some(Brackets {
        reach: inches(13 * 16),
        apart: inches(256),
    });
    assert!(refused(hangs(vec![bracket])).contains("stand out past it"));
    assert!(
        refused(Standing {
            drip: Some(inches(30 * 16)),
            ..Standing::default()
        })
        .starts_with("The drip groove's place is 30\"")
    );
    assert!(
        refused(Standing {
            span: Some(inches(900 * 16)),
            ..Standing::default()
        })
        .starts_with("The span is 900\"")
    );
    let dishwasher = |from: i64, to: i64| Standing {
        appliances: vec![Appliance {
            from: inches(from * 16),
            to: inches(to * 16),
            barrier: false,
        }],
        ..Standing::default()
    };
    assert!(refused(dishwasher(30, 500)).contains("the top reaches only to 60\""));
    assert!(dishwasher(36, 60).check(length, width).is_ok());
    let good = hangs(vec![hang(FaceKey::Back, 12), hang(FaceKey::Left, 10)]);
    assert!(good.check(length, width).is_ok());
}

#[test]
fn a_standing_that_cannot_be_is_refused_with_its_number() {
    let refused = |standing: &Standing| {
        standing
            .check(mm(2000), mm(600))
            .expect_err("it cannot be")
            .to_string()
    };
    let joint = Standing {
        joints: vec![Joint {
            way: JointWay::Across,
            at: mm(2500),
        }],
        ..Standing::default()
    };
    assert!(refused(&joint).contains("2500 mm"));
    let appliance = Standing {
        appliances: vec![Appliance {
            from: mm(700),
            to: mm(100),
            barrier: false,
        }],
        ..Standing::default()
    };
    assert!(refused(&appliance).contains("Appliance 1 runs from 700 mm to 100 mm"));
    let hang = |side, out| Overhang {
        side,
        out,
        brackets: None,
    };
    let side = Standing {
        overhangs: vec![hang(FaceKey::Top, mm(100))],
        ..Standing::default()
    };
    assert!(refused(&side).contains("top"));
    let negative = Standing {
        overhangs: vec![hang(FaceKey::Front, mm(-3))],
        ..Standing::default()
    };
    assert!(refused(&negative).contains("-3 mm"));
    assert!(Standing::default().check(mm(1), mm(1)).is_ok());
}

#[test]
fn every_check_has_a_word_of_its_own_and_a_source() {
    for rule in Rule::ALL {
        let facts = rule.facts();
        assert_eq!(Rule::of_word(facts.word), Some(rule));
        assert!(!facts.source.is_empty() && !facts.asks.is_empty());
        assert!(
            RuleSetting::first(rule).suits(rule).is_ok(),
            "{}",
            facts.word
        );
        let stored = serde_json::to_string(&rule).expect("a word");
        assert_eq!(stored, format!("\"{}\"", facts.word));
    }
}

/// A second library's view of an opening: its points as a polygon.
fn polygon(points: &[tackfree::shape::layout::Point]) -> Polygon<f64> {
    let ring: Vec<(f64, f64)> = points.iter().map(|point| (point.x, point.y)).collect();
    Polygon::new(LineString::from(ring), Vec::new())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// Distances against polygons of the `geo` crate, within 0.01 %; never negative; the two
    /// places they are told at are that far apart.
    #[test]
    fn distances_agree_with_polygons(
        (x1, y1, w1, d1, r1) in (300_i64..900, 200_i64..430, 50_i64..300, 50_i64..200, 0_i64..25),
        (x2, y2, w2, d2, r2) in (1400_i64..2000, 200_i64..430, 50_i64..300, 50_i64..200, 0_i64..25),
        round in any::<bool>(),
    ) {
        let second = if round {
            hole(1, (x2, y2), w2)
        } else {
            cutout(2, (x2, y2), (w2, d2, r2))
        };
        let shape = top(2600, 635, vec![cutout(1, (x1, y1), (w1, d1, r1)), second]);
        let seen = Seen::of(&shape);
        let [one, two] = [seen.voids[0], seen.voids[1]];
        let ours = to_void(&one, &two);
        let (a, b) = (polygon(&one.points(400)), polygon(&two.points(400)));
        let theirs = Euclidean.distance(&a, &b);
        prop_assert!((ours.mm - theirs).abs() <= theirs * 1e-4, "{} {theirs}", ours.mm);
        prop_assert!((ours.from.to(ours.to) - ours.mm).abs() < 1e-6);
        for looks in [Looks::Front, Looks::Back, Looks::End] {
            let runs = seen.runs.iter().filter(|run| run.looks() == looks);
            let near = to_nearest(&one, runs.clone()).expect("a run");
            let theirs = runs
                .map(|run| {
                    let line = geo::Line::new((run.from.x, run.from.y), (run.to.x, run.to.y));
                    Euclidean.distance(&line, &a)
                })
                .fold(f64::INFINITY, f64::min);
            prop_assert!(near.mm >= 0.0);
            prop_assert!((near.mm - theirs).abs() <= theirs * 1e-4, "{} {theirs}", near.mm);
            prop_assert!((near.from.to(near.to) - near.mm).abs() < 1e-6);
        }
    }

    /// A hole in a round top: rim distance is radius - offset - hole radius.
    #[test]
    fn holes_in_round_tops_by_closed_form(
        diameter in 600_i64..2_000,
        part in 0.0_f64..0.7,
        turn in 0.0_f64..std::f64::consts::TAU,
        across in 20_i64..90,
    ) {
        let r = diameter as f64 / 2.0;
        #[allow(clippy::cast_possible_truncation)]
        let off = |way: f64| (r + r * part * way) as i64;
        let place = (off(turn.cos()), off(turn.sin()));
        let outline = Outline::Circle { diameter: mm(diameter) };
        let shape = Shape::new(outline, mm(38), EdgeProfile::Square, vec![hole(1, place, across)], None)
            .expect("a shape");
        let seen = Seen::of(&shape);
        let near = to_nearest(&seen.voids[0], seen.runs.iter()).expect("a rim");
        let from_mid = (place.0 as f64 - r).hypot(place.1 as f64 - r);
        let wanted = r - from_mid - across as f64 / 2.0;
        prop_assert!((near.mm - wanted).abs() <= wanted * 1e-4, "{} {wanted}", near.mm);
    }

    /// No finding is ever told with a negative or absurd figure.
    #[test]
    fn findings_never_miss_less_than_nothing(
        x in 250_i64..1_250,
        y in 150_i64..480,
        joint in 1_i64..1_500,
        from in 0_i64..1_500,
        wide in 1_i64..700,
    ) {
        let shape = top(1500, 635, vec![cutout(1, (x, y), (400, 250, 3)), ]);
        let standing = Standing {
            joints: vec![Joint { way: JointWay::Across, at: mm(joint) }],
            appliances: vec![Appliance { from: mm(from), to: mm(from + wide), barrier: false }],
            ..Standing::default()
        };
        let rules = RuleBook::default();
        let all = findings(&shape, Construction::EdgeGrain, &standing, &rules, mm(12), LengthStyle::Sixteenths, &[]);
        for (at, finding) in all.iter().enumerate() {
            let same = |other: &&Finding| other.rule == finding.rule && other.about == finding.about;
            prop_assert!(!all[at + 1..].iter().any(|other| same(&other)), "{finding:?} twice");

            prop_assert!(finding.missing >= Length::ZERO, "{finding:?}");
            prop_assert!(finding.has.is_none_or(|has| has >= Length::ZERO), "{finding:?}");
            prop_assert!(!finding.cure.is_empty());
        }
    }
}

/// A cure tells its length in the shop's own unit, and rounded up: doing as it says is enough.
#[test]
fn cures_speak_the_shops_unit() {
    // 30.4 mm in front of 50: 19.6 mm are missing, 0.7717 in, so 13/16 in by sixteenths.
    let mut opening = cutout(1, (600, 0), (400, 300, 0));
    opening.place.y = Length::from_nm(180_400_000);
    let shape = top(1200, 635, vec![opening]);
    let cure = |style, rule| {
        let wood = Construction::EdgeGrain;
        let (stand, rules) = (Standing::default(), RuleBook::default());
        let found = findings(&shape, wood, &stand, &rules, inches(8), style, &[]);
        of(&found, rule).expect("a finding").cure.clone()
    };
    for (style, by, bit, groove) in [
        (LengthStyle::Sixteenths, "13/16\"", "1/4\"", "1/8 by 1/8 in"),
        (
            LengthStyle::ThirtySeconds,
            "25/32\"",
            "1/4\"",
            "1/8 by 1/8 in",
        ),
        (LengthStyle::Millimetres, "19.6 mm", "6.4 mm", "3 by 3 mm"),
    ] {
        let front = cure(style, Rule::StripFront);
        assert!(
            front.starts_with(&format!("move it {by} towards")),
            "{front}"
        );
        // No bit is of no size: a sharp corner is not cured by one.
        let sharp = cure(style, Rule::CornerBit);
        assert!(
            sharp.starts_with(&format!("make the corner {bit},")),
            "{sharp}"
        );
        assert!(!sharp.contains("bit of"), "{sharp}");
        let drip = cure(style, Rule::Drip);
        assert!(drip.contains(groove), "{drip}");
    }
    // Every cure of a shop in millimetres is without an inch sign.
    let rules = RuleBook::default();
    let stand = Standing::default();
    let style = LengthStyle::Millimetres;
    let wood = Construction::EdgeGrain;
    let all = findings(&shape, wood, &stand, &rules, inches(8), style, &[]);
    assert!(all.len() > 3 && all.iter().all(|finding| !finding.cure.contains('"')));
}
