//! The promise: no face skips a grit, no face stays bare, and a refused move says every reason.

mod support;

use support::*;
use tackfree::shape::FaceKey;
use tackfree::shop::{CoatKind, Grit, SetItem, Stage, Strictness, Ticket, What};

use CoatKind::{Seal, Stain, Topcoat};

fn tick(face: FaceKey, grit: u16) -> What {
    What::Tick {
        face,
        grit: Grit(grit),
    }
}

#[test]
fn grits_are_ticked_in_order_and_none_is_skipped() {
    let mut bench = Bench::new(CLEAR);
    assert_eq!(
        bench.refusal(&tick(Left, 150)),
        [
            "left end: 80 grit not done, so 150 cannot be ticked yet",
            "left end: 120 grit not done, so 150 cannot be ticked yet",
        ]
    );
    bench.tick(80, &[Left]);
    assert_eq!(
        bench.refusal(&tick(Left, 150)),
        ["left end: 120 grit not done, so 150 cannot be ticked yet"]
    );
    assert_eq!(
        bench.refusal(&tick(Left, 80)),
        ["left end: 80 grit is ticked already"]
    );
    assert_eq!(
        bench.refusal(&tick(Top, 220)),
        ["top: the schedule does not ask 220 grit"]
    );
    assert_eq!(
        bench.refusal(&tick(Cutout(4), 80)),
        ["cutout 4 wall: this piece has no such face"]
    );
    bench.tick(120, &[Left]);
    bench.tick(150, &[Left]);
    assert!(
        bench.face(Right).ticks.is_empty(),
        "a tick is of one face alone"
    );
}

#[test]
fn a_tick_says_when() {
    let mut bench = Bench::new(CLEAR);
    bench.tick(80, &[Top]);
    bench.later(25);
    bench.tick(120, &[Top]);
    let when: Vec<_> = bench
        .face(Top)
        .ticks
        .iter()
        .map(|(grit, at)| (grit.0, *at))
        .collect();
    assert_eq!(when, [(80, local(24, 8, 0)), (120, local(24, 8, 25))]);
}

/// 120 grit everywhere before stain: common practice, no source.
#[test]
fn a_refused_move_names_every_missing_grit_of_every_face_in_order() {
    let mut bench = Bench::new(STAINED);
    bench.tick(80, &[Top, Band, Field, Front, Back, Right, Cutout(1)]);
    bench.tick(120, &[Top, Field, Front, Right]);
    bench.wipe(&[Top]);
    let expected = [
        "underside band: 120 grit not done",
        "underside band: not wiped down",
        "underside field: not wiped down",
        "front edge: not wiped down",
        "back edge: 120 grit not done",
        "back edge: not wiped down",
        "left end: 80 grit not done",
        "left end: 120 grit not done",
        "left end: not wiped down",
        "right end: not wiped down",
        "cutout 1 wall: 120 grit not done",
        "cutout 1 wall: not wiped down",
        "hole 1 wall: 80 grit not done",
        "hole 1 wall: 120 grit not done",
        "hole 1 wall: not wiped down",
    ];
    assert_eq!(bench.refusal(&bench.move_to(Stage::Sealing)), expected);
    let to_next = bench.gates().blockers_to_next(&bench.ticket, bench.now);
    assert_eq!(bench.words(&to_next), expected);
}

#[test]
fn every_grit_missing_anywhere_holds_the_move() {
    let (_, schedule) = ready(STAINED);
    for left_out in NINE {
        for grit in &schedule.plan(left_out.group()).grits {
            let mut bench = Bench::new(STAINED);
            let others: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != left_out).collect();
            bench.sand(&others);
            bench.wipe(&others);
            for done in schedule
                .plan(left_out.group())
                .grits
                .iter()
                .filter(|done| *done < grit)
            {
                bench.tick(done.0, &[left_out]);
            }
            let said = bench.refusal(&bench.move_to(Stage::Sealing));
            assert!(
                said.contains(&format!("{left_out}: {grit} grit not done")),
                "{said:?}"
            );
            assert!(
                said.iter()
                    .all(|line| line.starts_with(&left_out.to_string())),
                "{said:?}"
            );
        }
    }
}

#[test]
fn a_wrong_tick_can_be_taken_back_only_while_the_face_is_bare() {
    let mut bench = Bench::new(STAINED);
    bench.sand(&NINE);
    bench.wipe(&NINE);
    let untick = What::Untick {
        face: Left,
        grit: Grit(80),
    };
    bench.log(untick.clone());
    let left = bench.face(Left);
    assert!(
        left.ticks.is_empty() && left.wiped.is_none(),
        "finer ticks and the wipe go with it"
    );
    assert_eq!(bench.face(Right).ticks.len(), 2);
    assert_eq!(bench.refusal(&untick), ["left end: 80 grit not done"]);
    bench.sand(&[Left]);
    bench.wipe(&[Left]);
    bench.later(60);
    bench.move_on();
    bench.coat(Seal, &[Field]);
    assert_eq!(
        bench.refusal(&What::Untick {
            face: Field,
            grit: Grit(80)
        }),
        [
            "the piece is in sealing; this belongs to sanding",
            "underside field: carries a coat already; sand it back instead, with the reason",
        ]
    );
}

/// Walls and ends go through the same coats; a two-inch stained band on an otherwise unstained
/// but sealed underside: common practice, no source.
#[test]
fn the_stained_piece_goes_all_the_way_only_in_order() {
    let mut bench = Bench::new(STAINED);
    bench.through_sanding();
    assert_eq!(bench.ticket.stage, Stage::Sealing);
    bench.lay_all(Seal);
    bench.move_on();
    let stained: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != Field).collect();
    assert_eq!(
        bench.ticket.due_faces(Stain),
        stained,
        "the field stays unstained"
    );
    assert_eq!(
        bench.refusal(&bench.coat_of(Stain, &[Field])),
        ["underside field: the schedule asks no stain here"]
    );
    bench.coat(Stain, &stained);
    let unwiped: Vec<String> = stained
        .iter()
        .map(|face| format!("{face}: stain not wiped off"))
        .collect();
    assert_eq!(bench.refusal(&bench.move_to(Stage::Topcoats)), unwiped);
    bench.log(What::WipeOff { faces: stained });
    bench.move_on();
    assert_eq!(bench.ticket.stage, Stage::Topcoats);
    let said = bench.refusal(&bench.move_to(Stage::Set));
    assert_eq!(said[0], "top: coat 1 of 6 not done");
    assert!(said.contains(&"underside field: coat 1 of 5 not done".to_owned()));
    bench.later(24 * 60);
    bench.lay_all(Topcoat);
    bench.later(3 * 24 * 60);
    bench.move_on();
    for item in SetItem::ALL {
        assert!(bench.ticket.finished.is_none());
        bench.log(What::SetList { item, done: true });
    }
    assert_eq!(bench.ticket.finished, Some(bench.now));
    let top = bench.face(Top);
    assert_eq!(
        (top.count(Seal), top.count(Stain), top.count(Topcoat)),
        (0, 1, 6)
    );
    let field = bench.face(Field);
    assert_eq!(
        (field.count(Seal), field.count(Stain), field.count(Topcoat)),
        (1, 0, 5)
    );
}

#[test]
fn a_record_of_the_past_is_held_to_coverage_and_sealing_too() {
    let mut bench = Bench::new(HARDWAX);
    bench.strictness = Strictness::Record;
    bench.through_sanding();
    let others: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != Left).collect();
    bench.coat(Topcoat, &others);
    bench.coat(Topcoat, &others);
    bench.coat(Topcoat, &[Right, Cutout(1), Hole(1)]);
    let said = bench.refusal(&bench.move_to(Stage::Set));
    assert_eq!(
        said,
        ["left end: coat 1 of 3 not done"],
        "drying is not held, sealing is"
    );
    for _ in 0..3 {
        bench.coat(Topcoat, &[Left]);
    }
    bench.move_on();
    assert_eq!(Ticket::of(&bench.file).stage, Stage::Set);
}
