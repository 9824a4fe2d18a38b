//! An L or U: each leg moves across its own width, not the whole top across its outer extent.

use super::{Demo, content, counter, mm};
use tackfree::desk::{Books, Row};
use tackfree::papers::wood::client_page_paper;
use tackfree::shape::{
    Construction, Corner, Corners, Cup, Ell, Opening, OpeningKind, Outline, Place, Purpose, Shape,
    ShapeDraft,
};
use tackfree::shop::moving::{LegsAt, Moves, PartName};
use tackfree::units::Length;
use tackfree::wood::movement::{HoldLine, Situation};

fn inches(inches: f64) -> Length {
    Length::from_metres_rounded(inches * 0.0254)
}

/// 120 x 96 in, its run 25 1/2 in deep, its leg 24 in wide.
fn ell(open: Corner) -> Outline {
    Outline::L(Ell {
        length: inches(120.0),
        width: inches(96.0),
        run: inches(25.5),
        leg: inches(24.0),
        open,
        corners: Corners::SHARP,
    })
}

/// The window counter (hard maple on edge, flatsawn strips, 8 %, a year from 6 to 10 %) in another
/// outline.
fn reshaped(outline: Outline, change: impl FnOnce(&mut ShapeDraft, &mut Construction)) -> Demo {
    let mut demo = counter();
    let mut piece = demo.file("1C").piece.clone();
    let mut draft = ShapeDraft::from(piece.shape.clone());
    draft.outline = outline;
    draft.openings.clear();
    change(&mut draft, &mut piece.construction);
    piece.shape = Shape::try_from(draft).expect("a shape");
    demo.store.begin().expect("begun");
    demo.store.put(Row::Piece(&piece)).expect("put");
    demo.store.commit(demo.now, "Cut anew").expect("committed");
    demo
}

fn moves(demo: &Demo) -> Moves {
    demo.sheet("1C").moves.expect("movement")
}

fn flat(paper: &str) -> String {
    paper.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_run_and_the_leg_of_an_l_each_move_across_their_own_width() {
    let mut demo = reshaped(ell(Corner::FrontRight), |_, _| {});
    demo.lie("1C", |lie| {
        lie.grain = tackfree::wood::movement::Grain::Flat;
        lie.held = HoldLine::ThisEdge;
    });
    let moves = moves(&demo);
    // C_R of sugar maple 0.00165 (Wood Handbook Table 13-5, p. 13-16), 2 points either way:
    // 647.7 mm x 0.0033 = 2.137 mm, 609.6 mm x 0.0033 = 2.012 mm; not 96 in x 0.0033 = 8.05 mm.
    assert!((mm(moves.across.to_wet.change.high()) - 2.137).abs() < 0.01);
    assert_eq!(moves.legs.len(), 1);
    let leg = &moves.legs[0];
    assert_eq!(leg.part.name, PartName::Leg);
    assert!((mm(leg.across.to_wet.change.high()) - 2.012).abs() < 0.01);
    let one_way = moves.one_way.as_ref().expect("what one way would do");
    assert!((mm(one_way.to_wet.change.high()) - 8.047).abs() < 0.01);
    // The shape says that there is a corner: a full mitre opens 2.137 x 1.414 = 3.02 mm.
    assert!(moves.fastening.situations.contains(&Situation::Corner));
    let mitre = moves.fastening.mitre.expect("a mitre");
    assert!((mm(mitre.outer_when_damp) - 3.023).abs() < 0.01);
    // Held at the back: the run's front moves 2.137 mm and the leg with it; 70 1/2 in along the
    // grain add 0.2 % x 2/30 of it, 0.24 mm: 2.38 mm, 3/32 in.
    assert!((mm(leg.fastening.gap_ends.leave) - 3.0 * 25.4 / 32.0).abs() < 1e-6);
    // The farthest row of the leg stands 20 in from its held one: 508 x 0.0033 = 1.676 mm and
    // half of a 1/4 in screw, 4.851 mm, is 7/32 in (5.556 mm) each way.
    let far = leg.fastening.rows.last().expect("a row");
    assert!((mm(far.from_held) - 508.0).abs() < 0.01);
    assert!((mm(far.slot.expect("a slot").length) - 14.0 * 25.4 / 32.0).abs() < 1e-6);
    // A cup is reckoned over the widest part.
    let cup = moves.cup.risk().expect("two faces");
    assert_eq!(cup.width, inches(25.5));
    let paper = demo.paper("1C");
    assert!(paper.lines().all(|line| line.chars().count() <= 80));
    let paper = flat(&paper);
    for words in [
        "Taken as a run and a leg joined at the corner",
        "Run: width 25 1/2\" (647.7 mm) today: shrinks 3/32\" (2.1 mm)",
        "Leg: width 24\" (609.6 mm) today: shrinks 3/32\" (2 mm)",
        "the overall width 96\" (2438.4 mm) today",
        "At the outer edge: no gap is needed",
    ] {
        assert!(paper.contains(words), "{words}\n{paper}");
    }
    // Held at the back, the run's front edge carries the leg along; held at the front it does not.
    assert!(paper.contains("The run's edge carries it along"), "{paper}");
    let front = reshaped(ell(Corner::FrontRight), |_, _| {});
    assert!(!flat(&front.paper("1C")).contains("carries it along"));
    let (shop, file) = (demo.shop(), demo.file("1C"));
    let page = client_page_paper(&shop, &file, &demo.sheet("1C"), demo.now).expect("a page");
    let page = flat(&page.join(" "));
    assert!(
        page.contains("'s run is 25 1/2\" (647.7 mm), its leg 24\""),
        "{page}"
    );
    assert!(!page.contains("96\""), "{page}");
}

#[test]
fn a_u_has_two_legs_and_an_l_open_at_the_back_has_its_leg_there() {
    let cup = Outline::U(Cup {
        length: inches(120.0),
        width: inches(72.0),
        run: inches(25.5),
        left: inches(24.0),
        right: inches(30.0),
        corners: Corners::SHARP,
    });
    let moves = moves(&reshaped(cup, |_, _| {}));
    let names: Vec<_> = moves.legs.iter().map(|leg| leg.part.name).collect();
    assert_eq!(names, [PartName::LeftLeg, PartName::RightLeg]);
    // 762 x 0.0033 = 2.515 mm: the widest part is the right leg, and so the mitre 3.556 mm.
    assert!((mm(moves.legs[1].across.outward()) - 2.515).abs() < 0.01);
    let mitre = moves.fastening.mitre.expect("a mitre");
    assert!((mm(mitre.inner_when_dry) - 3.556).abs() < 0.01);
    let back = self::moves(&reshaped(ell(Corner::BackLeft), |_, _| {}));
    assert_eq!(back.parts.legs_at, LegsAt::Back);
    let front = self::moves(&reshaped(ell(Corner::FrontLeft), |_, _| {}));
    assert_eq!(front.parts.legs_at, LegsAt::Front);
    // Held at the front (nothing was said): a leg at the back moves with the run, one at the front
    // only along its own grain.
    let ends = |moves: &Moves| moves.legs[0].fastening.gap_ends.leave;
    assert!(mm(ends(&back)) > 2.137 && mm(ends(&front)) < 1.0);
}

#[test]
fn one_slab_sawn_to_an_l_moves_as_one_unless_a_corner_was_noted() {
    let slab = |construction: &mut Construction| *construction = Construction::SolidSlab;
    let mut demo = reshaped(ell(Corner::FrontRight), |_, built| slab(built));
    let whole = moves(&demo);
    assert_eq!(whole.parts.main.name, PartName::Whole);
    assert_eq!(whole.across.to_wet.size, inches(96.0));
    assert!(whole.legs.is_empty() && whole.fastening.mitre.is_none());
    demo.lie("1C", |lie| lie.situations = vec![Situation::Corner]);
    assert_eq!(moves(&demo).across.to_wet.size, inches(25.5));
}

#[test]
fn an_opening_in_a_leg_lies_with_its_width_across_the_grain() {
    let cutout = |x: f64, y: f64| Opening {
        no: 1,
        place: Place {
            x: inches(x),
            y: inches(y),
        },
        what: OpeningKind::Cutout {
            width: inches(12.0),
            depth: inches(30.0),
            corner_radius: Length::ZERO,
        },
        purpose: Purpose::Plain,
        profile: tackfree::shape::EdgeProfile::Square,
    };
    // At 14 % and a year down to 6 %: 12 in x 0.00165 x 8 = 4.02 mm, half of it a side.
    let mut demo = reshaped(ell(Corner::FrontRight), |draft, _| {
        draft.openings.push(cutout(12.0, 30.0));
    });
    demo.read("1C", 0, 14.0);
    let clearance = moves(&demo).fastening.cutouts[0].clearance;
    assert!((mm(clearance.from_movement) - 3.0 * 25.4 / 32.0).abs() < 1e-6);
    assert_eq!(content(14.0), demo.sheet("1C").today.content);
}
