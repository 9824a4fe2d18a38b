//! Gaps, slots, mitre, sink, cleat, fasteners and holds.

use tackfree::shape::{Construction, Mount, Purpose, Reveal, Sink};
use tackfree::units::Length;
use tackfree::wood::Standing;
use tackfree::wood::moisture::SeasonBand;
use tackfree::wood::movement::{
    Axis, Build, Filling, Grain, HoldLine, MovementError, Situation, SpacingRule, YearMovement,
    clearance, cleat_slots, far_end_gap, figure_eight, mitre_opening, slot, spaced, wall_gap,
};
use tackfree::wood::species::Species;

use super::{flat, inches, mc, near, wood};

fn band() -> SeasonBand {
    SeasonBand::given(mc(6.0), mc(10.0))
}

/// 25 1/2 in of flatsawn sugar maple at 7 %: 25.5 x 0.00353 a point (Table 13-5).
fn year(species: &Species, size: f64, today: f64) -> YearMovement {
    flat(species, Grain::Flat)
        .year(Axis::Width, inches(size), mc(today), &band())
        .unwrap()
}

#[test]
fn a_year_grows_shrinks_and_swings() {
    let maple = wood("Maple, sugar");
    let year = year(&maple, 25.5, 7.0);
    let point = 25.5 * 0.00353;
    near(year.outward().inches(), 3.0 * point, 1e-6);
    near(year.inward().inches(), point, 1e-6);
    near(year.travel().inches(), 4.0 * point, 1e-6);
    near(year.swing().low().inches(), 4.0 * point, 1e-6);
    assert_eq!(
        year.show(),
        "width 25 1/2\" (647.7 mm) today: shrinks 3/32\" (2.3 mm) in the dry season, grows 9/32\" \
         (6.9 mm) in the damp one"
    );
}

#[test]
fn a_top_that_comes_wetter_than_its_rooms_only_shrinks() {
    let maple = wood("Maple, sugar");
    let year = year(&maple, 25.5, 12.0);
    let point = 25.5 * 0.00353;
    assert_eq!(year.outward(), Length::ZERO);
    near(year.inward().inches(), 6.0 * point, 1e-6);
    near(year.swing().high().inches(), 4.0 * point, 1e-6);
    assert_eq!(wall_gap(&year, HoldLine::OppositeEdge).leave, Length::ZERO);
}

#[test]
fn the_gap_at_the_wall_follows_from_where_the_top_is_held() {
    let maple = wood("Maple, sugar");
    let year = year(&maple, 25.5, 7.0);
    // 0.270 in to grow, up to the next 1/32: 9/32; 0.090 in to shrink: 3/32.
    let all = wall_gap(&year, HoldLine::OppositeEdge);
    assert_eq!(all.leave, inches(9.0 / 32.0));
    assert_eq!(all.opens_to, inches(12.0 / 32.0));
    let half = wall_gap(&year, HoldLine::Middle);
    assert_eq!(half.leave, inches(5.0 / 32.0));
    assert_eq!(wall_gap(&year, HoldLine::ThisEdge).leave, Length::ZERO);
    assert_eq!(
        all.words(),
        "leave at least 9/32\" (7.1 mm) today; opens to 3/8\" (9.5 mm) in the dry season"
    );
}

#[test]
fn the_far_end_of_a_leg_takes_the_runs_movement_and_its_own_length() {
    let maple = wood("Maple, sugar");
    let run = year(&maple, 25.5, 7.0);
    let along = flat(&maple, Grain::Flat)
        .year(Axis::Length, inches(96.0), mc(7.0), &band())
        .unwrap();
    // Eq. 13-3 with 0.2 % along the grain: 96 x 3/(15,000 - 30 + 7) = 0.0192 in, on 0.2700 in of
    // the run: 0.2893 in, up to 10/32. Without either 9/32 or 1/32.
    let all = far_end_gap(&run, HoldLine::OppositeEdge, &along);
    assert_eq!(all.leave, inches(10.0 / 32.0));
    let own = far_end_gap(&run, HoldLine::ThisEdge, &along);
    assert_eq!(own.leave, inches(1.0 / 32.0));
    assert_eq!(HoldLine::ThisEdge.from_opposite(), HoldLine::OppositeEdge);
}

#[test]
fn a_slot_is_as_long_as_the_travel_and_the_screw() {
    // Slot length >= change + screw diameter (common practice, no source).
    let maple = wood("Maple, sugar");
    let year = year(&maple, 25.5, 7.0);
    let slot = slot(&year, inches(0.25)).unwrap();
    assert!(slot.length >= year.travel() + inches(0.25));
    assert_eq!(slot.outward, inches(13.0 / 32.0));
    assert_eq!(slot.inward, inches(7.0 / 32.0));
    assert_eq!(slot.length, inches(20.0 / 32.0));
    assert_eq!(slot.round_hole, inches(26.0 / 32.0));
    let refused = super::fit::slot(&year, Length::ZERO);
    assert!(matches!(refused, Err(MovementError::Size { .. })));
}

#[test]
fn a_mitre_opens_by_1_414_times_the_change_of_width() {
    // Geometry: 1/8, 1/4 and 3/8 in open 0.18, 0.35 and 0.53 in.
    let maple = wood("Maple, sugar");
    for (change, opening) in [(0.125, 0.18), (0.25, 0.35), (0.375, 0.53)] {
        let size = change / (0.00353 * 2.0);
        let mitre = mitre_opening(&year(&maple, size, 8.0));
        near(mitre.outer_when_damp.inches(), opening, 0.005);
        near(mitre.inner_when_dry.inches(), opening, 0.005);
    }
}

#[test]
fn a_dropped_in_sink_gets_3_mm_a_side_or_what_its_opening_shrinks() {
    // 3 mm a side, 6 mm in all: a UK worktop fitting guide.
    let maple = wood("Maple, sugar");
    let small = clearance(&year(&maple, 16.0, 7.0), Filling::DropIn);
    assert_eq!(small.leave, Length::from_mm(3));
    // 22 in from 14 to 6 %: 22 x 0.00353 x 8 / 2 = 0.311 in a side.
    let large = clearance(&year(&maple, 22.0, 14.0), Filling::DropIn);
    assert_eq!(large.leave, inches(10.0 / 32.0));
    assert!(large.words().contains("5/16\""));
    // The advice beside it names no figure that this one contradicts.
    let advice = Situation::DropInSink.advice().line();
    assert!(advice.contains("the room that its cutout asks"), "{advice}");
    assert!(!advice.contains("6 mm in all"), "{advice}");
}

#[test]
fn a_cutout_is_told_by_what_it_is_for() {
    let maple = wood("Maple, sugar");
    // 20 in from 7 to 6 %: 20 x 0.00353 / 2 = 0.0353 in a side, up to 1/16; 0.0706 in at the back
    // of an apron-front sink, up to 3/32. The 3 mm are a dropped-in sink's alone.
    let of = |filling| clearance(&year(&maple, 20.0, 7.0), filling);
    for (filling, leave, words) in [
        (Filling::Cooktop, 2.0, "each side of the cooktop"),
        (Filling::Outlet, 2.0, "each side of the box"),
        (
            Filling::Undermount,
            2.0,
            "draws in over the bowl by up to 1/16\"",
        ),
        (
            Filling::ApronFront,
            3.0,
            "leave 3/32\" (2.4 mm) behind the sink",
        ),
    ] {
        let room = of(filling);
        assert_eq!(room.leave, inches(leave / 32.0), "{filling:?}");
        assert_eq!(room.practice, None);
        assert!(room.words().contains(words), "{}", room.words());
        assert!(!room.words().contains("practice"), "{}", room.words());
    }
    assert!(of(Filling::Unsaid).words().contains("what stands in it"));
    let sink = |mount| {
        Purpose::Sink(Sink {
            mount,
            overall: None,
            wall: None,
            cabinet: None,
        })
    };
    for (purpose, filling) in [
        (Purpose::Plain, Filling::Unsaid),
        (Purpose::Cooktop, Filling::Cooktop),
        (sink(Mount::DropIn), Filling::DropIn),
        (sink(Mount::Undermount(Reveal::Zero)), Filling::Undermount),
        (sink(Mount::ApronFront(Reveal::Zero)), Filling::ApronFront),
    ] {
        assert_eq!(Filling::of(&purpose), filling);
    }
}

#[test]
fn slots_of_a_cleat_grow_with_the_distance_from_the_held_screw() {
    let maple = wood("Maple, sugar");
    let build = Build {
        species: &maple,
        construction: Construction::FaceGrain,
        grain: Grain::Unknown,
    };
    let at = [Length::ZERO, inches(6.0), inches(12.0)];
    let slots = cleat_slots(&build, &at, inches(0.1875), mc(8.0), &band()).unwrap();
    assert_eq!(slots[0].slot, None);
    let length = |i: usize| slots[i].slot.unwrap().length;
    assert!(length(1) < length(2));
    // 12 in, 2 points each way at the tangential 0.00353: 0.0847, with half the screw 0.1785.
    assert_eq!(length(2), inches(12.0 / 32.0));
    let refused = cleat_slots(&build, &[inches(-6.0)], inches(0.1875), mc(8.0), &band());
    assert!(refused.is_err());
}

#[test]
fn fasteners_are_spaced_evenly_within_the_rule() {
    // A US maker: 1 per 3 ft of length; another: every 12 to 18 in.
    let wide = spaced(inches(96.0), inches(3.0), SpacingRule::Wide).unwrap();
    assert_eq!((wide.count, wide.apart), (4, inches(30.0)));
    let close = spaced(inches(96.0), inches(3.0), SpacingRule::Close).unwrap();
    assert_eq!((close.count, close.apart), (6, inches(18.0)));
    let short = spaced(inches(12.0), inches(3.0), SpacingRule::Wide).unwrap();
    assert_eq!((short.count, short.apart), (2, inches(6.0)));
    for (run, margin, most) in [(12.0, 6.0, 3.0), (12.0, -1.0, 3.0), (12.0, 1.0, 0.0)] {
        let rule = SpacingRule::Own(inches(most));
        assert!(spaced(inches(run), inches(margin), rule).is_err());
    }
}

#[test]
fn a_figure_eight_turns_and_draws_a_little() {
    // Geometry, set square today: holes 7/8 in apart, carried 1/8 in out and 1/4 in in:
    // asin(0.125/0.875) = 8.2 degrees, asin(0.25/0.875) = 16.6 degrees; drawn by the larger turn,
    // 0.875 (1 - cos 16.6) = 0.0365 in.
    let turned = figure_eight(inches(0.875), inches(0.125), inches(0.25)).unwrap();
    assert_eq!((turned.outward_degrees, turned.inward_degrees), (9, 17));
    near(turned.drawn.inches(), 0.0365, 0.000_1);
    // A top that comes wet goes all one way: 3.7 mm of 19.05 mm is asin 0.1942 = 11.2 degrees,
    // not the 5.6 of half of it to each side.
    let mm = |mm: f64| Length::from_metres_rounded(mm / 1000.0);
    let one_way = figure_eight(inches(0.75), mm(0.2), mm(3.7)).unwrap();
    assert_eq!((one_way.outward_degrees, one_way.inward_degrees), (1, 12));
    assert_eq!(
        one_way.words(),
        "A figure-eight with its holes 3/4\" (19.1 mm) apart, set square today at the farthest row, \
         turns at most 12 degrees toward the held line (5/32\" (3.7 mm)) and 1 degree away from it \
         (less than 1/32\" (0.2 mm)), and draws the top less than 1/32\" (0.4 mm) along: give its \
         recess room."
    );
    let still = figure_eight(inches(0.75), Length::ZERO, Length::ZERO).unwrap();
    assert!(still.words().starts_with("No row travels"));
    let beyond = figure_eight(inches(0.875), Length::ZERO, inches(0.9)).unwrap_err();
    assert_eq!(
        beyond.to_string(),
        "at the farthest row one with its holes 7/8\" (22.2 mm) apart cannot follow 29/32\" (22.9 mm) \
         to one side; take a longer one, slotted blocks or clips."
    );
}

#[test]
fn every_hold_says_what_is_free_and_who_says_so_once() {
    for situation in Situation::ALL {
        let advice = situation.advice();
        let line = advice.line();
        assert!(
            line.starts_with("Hold ") && line.contains("; free: "),
            "{line}"
        );
        assert!(line.ends_with(&format!("{}).", advice.standing.words())));
        assert!(line.matches("common practice").count() <= 1, "{line}");
        assert!(!advice.source.is_empty() || advice.standing == Standing::Practice);
    }
}

#[test]
fn advice_goes_with_how_the_top_is_held() {
    use HoldLine::{Middle, OppositeEdge, ThisEdge};
    let hold = |situation: Situation, held| situation.advice_for(held, false).hold;
    assert!(hold(Situation::BackToWall, ThisEdge).starts_with("the back edge"));
    // Held at the front, nobody is told in the same breath to hold the back.
    assert_eq!(
        hold(Situation::BackToWall, OppositeEdge),
        "the front edge, as noted"
    );
    assert_eq!(
        hold(Situation::BackToWall, Middle),
        "the middle line, as noted"
    );
    assert_eq!(hold(Situation::Island, Middle), "the middle line");
    assert_eq!(hold(Situation::Island, ThisEdge), "the edge that was noted");
    // A run joined at one corner is held there.
    assert_eq!(
        Situation::BetweenWalls.advice_for(ThisEdge, true).hold,
        "the corner"
    );
}

#[test]
fn where_nothing_is_to_be_left_no_nought_is_told() {
    let maple = wood("Maple, sugar");
    // At its wettest today: 25.5 x 0.00353 x 4 = 0.360 in to shrink, 12/32.
    let wet = year(&maple, 25.5, 10.0);
    assert_eq!(
        wall_gap(&wet, HoldLine::OppositeEdge).words(),
        "no gap is needed today; it opens to 3/8\" (9.5 mm) in the dry season"
    );
    let dry = year(&maple, 16.0, 6.0);
    assert!(
        clearance(&dry, Filling::Cooktop)
            .words()
            .contains("asks no room")
    );
    assert!(
        clearance(&dry, Filling::DropIn)
            .words()
            .contains("its opening does not shrink from today on")
    );
    // 1/4 in along the grain, 2 points: 0.85 thousandths of a mm.
    let along = flat(&maple, Grain::Flat)
        .year(Axis::Length, inches(0.25), mc(8.0), &band())
        .unwrap();
    assert_eq!(along.to_wet.show(), "grows less than 1/32\" (under 0.1 mm)");
    // The swing is told like every range.
    let unknown = flat(&maple, Grain::Unknown)
        .year(Axis::Width, inches(24.0), mc(8.0), &band())
        .unwrap();
    // 24 x 0.00165 x 4 = 0.158 in to 24 x 0.00353 x 4 = 0.339 in.
    assert_eq!(unknown.swing_words(), "5/32\" to 11/32\" (4 to 8.6 mm)");
}
