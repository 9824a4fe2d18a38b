//! Cutting and lumber against published worked examples; each names its source.

use tackfree::shape::cutting::{
    CleanUp, CutError, CutSide, DepthRule, Feed, Guide, Router, Template, TemplateForm, chip_band,
    derate, feed_per_minute, offset, passes, plan, plan_outline,
};
use tackfree::shape::layout::{Seen, length_of_mm};
use tackfree::shape::lumber::{
    LumberRules, Strip, boards, glue_up, gross_board_feet, round_up_quarter,
};
use tackfree::shape::{Construction, EdgeProfile, Outline, Shape};
use tackfree::units::Length;

fn inches(whole: i64, num: i64, den: i64) -> Length {
    Length::from_inches(whole, num, den).expect("a length")
}

fn tenths_mm(tenths: i64) -> Length {
    Length::from_nm(tenths * 100_000)
}

/// Guide-bushing offsets: woodworking magazine on guide bushings (3/4 and 1/2; 5/16 and 1/4),
/// building-magazine forum on router templating (5/8 and 1/2), two pages on template guides (30
/// and 10 mm, 15 and 9 mm).
#[test]
fn bushing_offsets_as_published() {
    let rows = [
        (inches(0, 3, 4), inches(0, 1, 2), inches(0, 1, 8)),
        (inches(0, 5, 8), inches(0, 1, 2), inches(0, 1, 16)),
        (inches(0, 5, 16), inches(0, 1, 4), inches(0, 1, 32)),
        (
            Length::from_mm(30),
            Length::from_mm(10),
            Length::from_mm(10),
        ),
        (Length::from_mm(15), Length::from_mm(9), Length::from_mm(3)),
    ];
    for (od, bit, wanted) in rows {
        assert_eq!(offset(Guide::Bushing(od), bit), Ok(wanted));
    }
    assert_eq!(offset(Guide::Bearing, inches(0, 1, 2)), Ok(Length::ZERO));
}

/// Circle: template diameter = finished + OD - bit (page on template guides); with its 30 mm guide
/// and 10 mm bit a 200 mm hole takes a 220 mm template.
#[test]
fn circle_template_as_published() {
    let form = TemplateForm::Circle {
        diameter: Length::from_mm(200),
    };
    let guide = Guide::Bushing(Length::from_mm(30));
    let template =
        Template::new(form, CutSide::Inside, guide, Length::from_mm(10)).expect("a template");
    assert_eq!(
        template.form,
        TemplateForm::Circle {
            diameter: Length::from_mm(220)
        }
    );
    let outside =
        Template::new(form, CutSide::Outside, guide, Length::from_mm(10)).expect("a template");
    assert_eq!(
        outside.form,
        TemplateForm::Circle {
            diameter: Length::from_mm(180)
        }
    );
}

/// Finished 20 1/4 x 15 in, radius 1/2; 3/4 guide, 1/2 bit: template 20 1/2 x 15 1/4, radius 5/8,
/// which is not under the guide's 3/8 (derived by hand from the published rule).
#[test]
fn sink_template_worked_by_hand() {
    let form = TemplateForm::Rectangle {
        length: inches(20, 1, 4),
        width: inches(15, 0, 1),
        radius: inches(0, 1, 2),
    };
    let guide = Guide::Bushing(inches(0, 3, 4));
    let template =
        Template::new(form, CutSide::Inside, guide, inches(0, 1, 2)).expect("a template");
    assert_eq!(
        template.form,
        TemplateForm::Rectangle {
            length: inches(20, 1, 2),
            width: inches(15, 1, 4),
            radius: inches(0, 5, 8),
        }
    );
    assert_eq!(template.least_radius, inches(0, 1, 4));
}

/// Feeds: 18,000 x 2 x 0.1 mm = 3,600 mm a minute and 4,800 at 24,000 (CNC feed page); 300 in a
/// minute at 18,000 with two flutes is 0.0083 and 100 at 10,000 is 0.005 (bit maker's chart);
/// 18,000 x 2 x 0.010 = 360, 16,000 x 2 x 0.008 = 256, 18,000 x 3 x 0.010 = 540 (by hand).
#[test]
fn feeds_as_published() {
    assert_eq!(
        feed_per_minute(18_000, 2, tenths_mm(1)),
        Ok(Length::from_mm(3_600))
    );
    assert_eq!(
        feed_per_minute(24_000, 2, tenths_mm(1)),
        Ok(Length::from_mm(4_800))
    );
    let thou = |count: i64| Length::from_nm(count * 25_400);
    let rows = [
        (10_000, 2, 5, 100),
        (18_000, 2, 10, 360),
        (16_000, 2, 8, 256),
        (18_000, 3, 10, 540),
    ];
    for (rpm, flutes, chip, wanted) in rows {
        assert_eq!(
            feed_per_minute(rpm, flutes, thou(chip)),
            Ok(inches(wanted, 0, 1))
        );
    }
    let chip = Length::from_nm(211_667); // 0.0083 in to four places
    let feed = feed_per_minute(18_000, 2, chip).expect("a feed");
    assert!((feed.inches() - 300.0).abs() < 0.001);
}

/// Depth twice the diameter: 20 to 25 % slower, three times: 40 to 50 % (CNC feed guide).
#[test]
fn deep_cuts_are_fed_slower_as_published() {
    let bit = inches(0, 1, 2);
    let at = |halves: i64| derate(inches(0, halves, 4), bit);
    let near = |got: f64, wanted: f64| (got - wanted).abs() < 1e-12;
    assert!(near(at(1).most, 0.0) && near(at(2).most, 0.0));
    assert!(near(at(4).least, 0.20) && near(at(4).most, 0.25));
    assert!(near(at(6).least, 0.40) && near(at(6).most, 0.50) && !at(6).beyond);
    assert!(near(at(8).most, 0.50) && at(8).beyond);
    let feed = Feed::at(18_000, 2, Length::from_nm(254_000), inches(1, 0, 1), bit).expect("a feed");
    assert_eq!(feed.full, inches(360, 0, 1));
    assert_eq!(feed.derated, inches(270, 0, 1));
}

/// Chip loads in hardwood by bit: 1/4 in 0.003 to 0.005, 1/2 in 0.004 to 0.008, 3/4 in and more
/// 0.006 to 0.012 (feeds and speeds guide).
#[test]
fn chip_bands_as_published() {
    let thou = |least: i64, most: i64| {
        (
            Length::from_nm(least * 25_400),
            Length::from_nm(most * 25_400),
        )
    };
    assert_eq!(chip_band(inches(0, 1, 4)), thou(3, 5));
    assert_eq!(chip_band(inches(0, 1, 2)), thou(4, 8));
    assert_eq!(chip_band(inches(0, 3, 4)), thou(6, 12));
}

/// 1 1/2 in in 1/8 -> 12 passes, 1/4 -> 6, 3/8 -> 4, 1/2 -> 3 (division by hand); nine passes are
/// 1/6 in each and ten 0.15 in (common practice for a 1 1/2 in top, no source).
#[test]
fn passes_through_an_inch_and_a_half() {
    let top = inches(1, 1, 2);
    let bit = inches(0, 1, 2);
    for (eighths, wanted) in [(1, 12), (2, 6), (3, 4), (4, 3)] {
        let rule = DepthRule::AtMost(inches(0, eighths, 8));
        let got = passes(top, bit, rule, CleanUp::None).expect("passes");
        assert_eq!(got.len(), wanted);
        assert!(got.iter().all(|pass| pass.takes == inches(0, eighths, 8)));
    }
    let nine = passes(top, bit, DepthRule::Passes(9), CleanUp::None).expect("passes");
    assert_eq!(nine.len(), 9);
    for pass in &nine {
        // A sixth of an inch is 4,233,333 1/3 nm.
        assert!((pass.takes.nm() - 4_233_333).abs() <= 1);
    }
    assert_eq!(nine[8].depth, top);
    let ten = passes(top, bit, DepthRule::Passes(10), CleanUp::None).expect("passes");
    assert!(ten.iter().all(|pass| pass.takes.nm() == 15 * 254_000));
    // Half a bit and a whole bit (common practice, no source).
    let light = passes(top, bit, DepthRule::HalfBit, CleanUp::None).expect("passes");
    let stiff = passes(top, bit, DepthRule::WholeBit, CleanUp::None).expect("passes");
    assert_eq!((light.len(), stiff.len()), (6, 3));
}

/// A 1/16 in skim at the end (router tip on depth stops): 1 7/16 in by quarter inches is six
/// passes and the skim a seventh; a quarter inch left on the wall is one more at full depth.
#[test]
fn clean_up_passes() {
    let (top, bit) = (inches(1, 1, 2), inches(0, 1, 2));
    let rule = DepthRule::AtMost(inches(0, 1, 4));
    let skim = passes(top, bit, rule, CleanUp::LastDepth(inches(0, 1, 16))).expect("passes");
    assert_eq!(skim.len(), 7);
    assert_eq!(skim[6].takes, inches(0, 1, 16));
    assert_eq!(skim[5].depth, inches(1, 7, 16));
    assert!(skim[6].clean_up && !skim[5].clean_up);
    let wall = passes(top, bit, rule, CleanUp::OnWall(inches(0, 1, 4))).expect("passes");
    assert_eq!(wall.len(), 7);
    assert_eq!((wall[6].takes, wall[6].depth), (top, top));
}

#[test]
fn a_plan_hangs_together_and_says_what_to_mind() {
    let form = TemplateForm::Rectangle {
        length: inches(30, 0, 1),
        width: inches(16, 0, 1),
        radius: inches(0, 1, 2),
    };
    let got = plan(
        inches(1, 1, 2),
        Some(form),
        CutSide::Inside,
        &Router::default(),
    )
    .expect("a plan");
    assert_eq!(got.passes.len(), 7);
    assert_eq!(got.feed.full, inches(160, 0, 1));
    assert!(
        got.minds
            .iter()
            .any(|line| line.contains("a machine's feed"))
    );
    // 50 and 100 in a minute over 16,000 turns and two flutes: 0.0016 and 0.0031 in a flute.
    assert!((got.chip_by_hand.0.inches() - 50.0 / 32_000.0).abs() < 1e-6);
    assert!((got.chip_by_hand.1.inches() - 100.0 / 32_000.0).abs() < 1e-6);
}

#[test]
fn what_cannot_be_cut_is_refused_with_the_number() {
    let (half, quarter) = (inches(0, 1, 2), inches(0, 1, 4));
    let words = |error: CutError| error.to_string();
    let tight = TemplateForm::Rectangle {
        length: inches(10, 0, 1),
        width: inches(10, 0, 1),
        radius: inches(0, 1, 8),
    };
    let guide = Guide::Bushing(inches(0, 3, 4));
    let refused = Template::new(tight, CutSide::Inside, guide, half).expect_err("too tight");
    assert!(words(refused).contains("1/8\""), "{refused}");
    assert!(
        words(offset(Guide::Bushing(quarter), half).expect_err("no way through")).contains("1/2\"")
    );
    let deep = DepthRule::AtMost(Length::from_nm(-1));
    assert!(passes(half, half, deep, CleanUp::None).is_err());
    assert!(passes(Length::ZERO, half, DepthRule::HalfBit, CleanUp::None).is_err());
    assert!(passes(half, half, DepthRule::Passes(0), CleanUp::None).is_err());
    assert!(
        passes(
            half,
            half,
            DepthRule::AtMost(Length::from_nm(1)),
            CleanUp::None
        )
        .is_err()
    );
    assert!(
        passes(
            quarter,
            half,
            DepthRule::HalfBit,
            CleanUp::LastDepth(quarter)
        )
        .is_err()
    );
    assert!(feed_per_minute(0, 2, Length::from_nm(254_000)).is_err());
    assert!(feed_per_minute(18_000, 0, Length::from_nm(254_000)).is_err());
    assert!(feed_per_minute(18_000, 2, Length::ZERO).is_err());
    // An outside corner tighter than the guide rolls is not refused: it is finished by hand.
    let outside = Template::new(
        tight,
        CutSide::Outside,
        Guide::Bushing(inches(0, 7, 8)),
        half,
    )
    .expect("a template");
    assert!(outside.corner_by_hand);
    assert_eq!(outside.least_radius, inches(0, 3, 16));
}

/// 120 x 18 x 2 in is 30 board feet (lumber calculator page); 30 % waste is net / 0.70 = net x
/// 1.4286, not net x 1.30 (cabinetmakers' forum on waste from rough lumber).
#[test]
fn board_feet_net_and_gross_as_published() {
    let outline = Outline::Rectangle {
        length: inches(120, 0, 1),
        width: inches(18, 0, 1),
    };
    let top = Shape::new(
        outline,
        inches(2, 0, 1),
        EdgeProfile::Square,
        Vec::new(),
        None,
    )
    .expect("a shape");
    let net = top.volume_board_feet();
    assert!((net - 30.0).abs() < 1e-9);
    let gross = gross_board_feet(net, 30).expect("gross");
    assert!((gross - 30.0 / 0.7).abs() < 1e-9);
    assert!((gross / net - 1.4286).abs() < 0.0001);
    assert!((round_up_quarter(gross) - 43.0).abs() < 1e-12);
    assert!((round_up_quarter(30.0) - 30.0).abs() < 1e-12);
    assert!(gross_board_feet(net, 100).is_err());
}

/// The strips of an outline lying along its length.
fn strips(
    outline: Outline,
    thickness: Length,
    wood: Construction,
    rules: &LumberRules,
) -> Vec<Strip> {
    let shape =
        Shape::new(outline, thickness, EdgeProfile::Square, Vec::new(), None).expect("a shape");
    let seen = Seen::of(&shape);
    let (low, high) = seen.extent();
    let reach = |from: Length, to: Length| length_of_mm(seen.reach(from.mm(), to.mm(), false));
    let across = length_of_mm(high.y - low.y);
    glue_up(across, thickness, wood, rules, reach)
        .expect("strips")
        .strips
}

/// 98 3/8 x 25 1/2: with half an inch a side 26 1/2, so eight strips of 3 and one of 2 1/2, an inch
/// over at either end. On edge no strip is wider than 8/4 dresses to, and the rip is the thickness.
#[test]
fn strips_of_a_rectangle_by_hand() {
    let top = Outline::Rectangle {
        length: inches(98, 3, 8),
        width: inches(25, 1, 2),
    };
    let thick = inches(1, 1, 2);
    let rules = LumberRules::default();
    let flat = strips(top.clone(), thick, Construction::FaceGrain, &rules);
    let figures: Vec<(u32, Length, Length)> = flat
        .iter()
        .map(|strip| (strip.count, strip.seen, strip.long))
        .collect();
    let long = inches(100, 3, 8);
    assert_eq!(
        figures,
        [(8, inches(3, 0, 1), long), (1, inches(2, 1, 2), long)]
    );
    let edge = strips(top.clone(), thick, Construction::EdgeGrain, &rules);
    // Fifteen of 1 3/4 reach 1/4 past the outline: a sixteenth would lie in the trim alone.
    assert_eq!((edge.len(), edge[0].count, edge[0].long), (1, 15, long));
    assert_eq!((edge[0].seen, edge[0].rip), (inches(1, 3, 4), thick));
    // Blocks on end: as long as the top is thick; 98 3/8 over 1 3/4 is 57 to a row.
    let end = strips(top, thick, Construction::EndGrain, &rules);
    assert_eq!((end[0].count, end[0].long), (8 * 57, thick));
}

/// A round top of 36 in six strips of 6: the chords by Pythagoras, 2 sqrt(18^2 - d^2).
#[test]
fn strips_of_a_round_top_are_as_long_as_its_chords() {
    let rules = LumberRules {
        strip: inches(6, 0, 1),
        end_trim: Length::ZERO,
        side_trim: Length::ZERO,
        ..LumberRules::default()
    };
    let round = Outline::Circle {
        diameter: inches(36, 0, 1),
    };
    let got = strips(round, inches(1, 0, 1), Construction::FaceGrain, &rules);
    let wanted = [12.0_f64, 6.0, 0.0].map(|off| 2.0 * (18.0 * 18.0 - off * off).sqrt());
    let total: u32 = got.iter().map(|strip| strip.count).sum();
    assert_eq!(total, 6);
    for want in wanted {
        let near = |strip: &&Strip| (strip.long.inches() - want).abs() < want * 1e-4;
        let count: u32 = got.iter().filter(near).map(|strip| strip.count).sum();
        assert_eq!(count, 2, "{want} in {got:?}");
    }
}

/// Two lanes of 2 1/2 and two lengths of 50 come out of a board of 6 x 120 with quarter-inch cuts:
/// five take two boards of 10 board feet (8/4 x 6 x 120 / 144).
#[test]
fn boards_by_hand() {
    let strip = |count, rip, long| Strip {
        count,
        seen: rip,
        long,
        rip,
        from: inches(1, 1, 2),
    };
    let rules = LumberRules::default();
    let bought = boards(&[strip(5, inches(2, 1, 2), inches(50, 0, 1))], &rules).expect("boards");
    assert_eq!(bought.boards.len(), 2);
    assert_eq!(bought.boards[0].pieces.len(), 4);
    assert!((bought.board_feet - 20.0).abs() < 1e-9);
    let long = boards(&[strip(1, inches(2, 0, 1), inches(130, 0, 1))], &rules);
    assert!(long.expect_err("too long").to_string().contains("130\""));
}

/// Geometry: round an outline the guide reaches every outside corner, but an inside corner is never
/// tighter than half the bit.
#[test]
fn inside_corners_of_an_outline_are_half_the_bit() {
    let router = Router {
        bit: inches(0, 1, 2),
        guide: Guide::Bushing(inches(0, 3, 4)),
        ..Router::default()
    };
    let look = |inside| plan_outline(inches(1, 1, 2), None, inside, &router).expect("a plan");
    let bare = plan(inches(1, 1, 2), None, CutSide::Outside, &router).expect("a plan");
    assert_eq!(look(None), bare);
    let sharp = look(Some(Length::ZERO));
    assert_eq!(sharp.least_radius, inches(0, 1, 8));
    assert_eq!(sharp.least_inside, Some(inches(0, 1, 4)));
    let mind = sharp.minds.last().expect("it is told");
    assert!(mind.starts_with("An inside corner of the outline is sharp, and the bit leaves 0.250"));
    let round = look(Some(inches(0, 1, 4)));
    assert_eq!(round.least_inside, Some(inches(0, 1, 4)));
    assert_eq!(round.minds, bare.minds);
    let tight = look(Some(inches(0, 1, 8)));
    assert!(
        tight
            .minds
            .iter()
            .any(|mind| mind.contains("has a radius of 0.125 in"))
    );
}

/// 23 6/10 across with a quarter inch a side: twelve strips of 2 reach 23 3/4 from the near trim, past
/// the outline; a thirteenth would be trimmed off again.
#[test]
fn no_strip_lies_in_the_trim_alone() {
    let rules = LumberRules {
        strip: inches(2, 0, 1),
        side_trim: inches(0, 1, 4),
        ..LumberRules::default()
    };
    let across = inches(23, 5, 8);
    let wood = Construction::FaceGrain;
    let made = glue_up(across, inches(1, 1, 2), wood, &rules, |_, _| {
        inches(60, 0, 1)
    });
    let made = made.expect("strips");
    assert_eq!(made.strips.iter().map(|strip| strip.count).sum::<u32>(), 12);
    assert_eq!(made.blank, inches(24, 0, 1));
    let told = made.minds.iter().any(|mind| mind.contains("leaves 1/8\""));
    assert!(told, "{:?}", made.minds);
}
