//! The promise: no piece is set with a side left bare, out of balance or uncured, whatever was
//! declared, withdrawn or cut on the way.

mod support;

use support::*;
use tackfree::shape::{FaceGroup, FaceKey, Shape};
use tackfree::shop::{CoatKind, Event, EventId, Piece, PieceFile, SetItem, Stage, Ticket, What};

use CoatKind::{Seal, Topcoat};

#[test]
fn a_piece_with_one_face_left_out_is_never_set() {
    for left_out in NINE {
        let mut bench = Bench::new(HARDWAX);
        bench.through_sanding();
        loop {
            // The face left out would hold the list of faces due, so the others are picked by hand.
            let wants = |face: &&FaceKey| {
                let state = bench.face(**face);
                **face != left_out && state.count(Topcoat) < bench.ticket.asked(state, Topcoat)
            };
            let due: Vec<FaceKey> = NINE.iter().filter(wants).copied().collect();
            if due.is_empty() {
                break;
            }
            if !bench.face(due[0]).coats.is_empty() {
                bench.scuff(&due, bench.ticket.schedule.scuff.unwrap());
            }
            bench.coat(Topcoat, &due);
            bench.later(25 * 60);
        }
        bench.later(7 * 24 * 60);
        let said = bench.refusal(&bench.move_to(Stage::Set));
        let asked = bench.ticket.asked(bench.face(left_out), Topcoat);
        assert!(
            said.contains(&format!("{left_out}: coat 1 of {asked} not done")),
            "{said:?}"
        );
        let board = bench.board();
        if left_out.group() == FaceGroup::Show {
            assert_eq!(board, "coat 1 of 2: 8 of 9 faces", "{left_out}");
        } else {
            assert_eq!(board, format!("held: {left_out} not sealed"));
        }
    }
}

fn hidden(face: FaceKey, reason: &str) -> What {
    What::NotExposed {
        face,
        reason: reason.to_owned(),
    }
}

#[test]
fn show_side_and_underside_stay_within_the_allowance() {
    let (products, mut schedule) = ready(CLEAR);
    schedule.balance_allowance = 0;
    schedule.underside.topcoats = schedule.show.topcoats;
    let mut bench = Bench::with(products, schedule);
    bench.through_topcoats();
    assert_eq!(bench.against(&bench.move_to(Stage::Set)), []);
    // A fifth coat for the top alone, which the schedule never asked.
    let means = bench.ticket.schedule.scuff.unwrap();
    bench.scuff(&[Top], means);
    bench.coat(Topcoat, &[Top]);
    bench.later(7 * 24 * 60);
    let tell = |face: FaceKey| {
        format!(
            "{face}: 5 film coats against 6 on the top; the schedule allows a difference of 0, since \
             unlike faces take up moisture unlike and may cup"
        )
    };
    assert_eq!(
        bench.refusal(&bench.move_to(Stage::Set)),
        [tell(Band), tell(Field)]
    );
    assert_eq!(
        bench.board(),
        "held: underside band 5 coats, top 6: not balanced"
    );
    bench.log(hidden(Field, "glued down to the cabinet"));
    assert_eq!(bench.refusal(&bench.move_to(Stage::Set)), [tell(Band)]);
    bench.scuff(&[Band], means);
    bench.coat(Topcoat, &[Band]);
    bench.later(7 * 24 * 60);
    assert_eq!(bench.against(&bench.move_to(Stage::Set)), []);
}

#[test]
fn the_last_coat_cures_before_the_piece_is_set() {
    let mut bench = Bench::new(HARDWAX);
    bench.through_sanding();
    bench.lay_all(Topcoat);
    // The third coat of the ends went on at ten past nine on Wednesday; two days are asked.
    let last = bench.face(Left).last_coat().unwrap().ended;
    bench.now = last + chrono::Duration::minutes(2 * 24 * 60 - 1);
    let said = bench.refusal(&bench.move_to(Stage::Set));
    assert_eq!(said.len(), 4, "the ends and the walls: {said:?}");
    assert_eq!(said[0], "left end: last coat cures until 9:00 am");
    assert_eq!(bench.board(), "cures until 9:00 am");
    bench.later(1);
    bench.move_on();
}

#[test]
fn a_face_is_declared_not_exposed_only_with_a_written_reason_and_the_top_never() {
    let mut bench = Bench::new(CLEAR);
    for blank in ["", "  ", "\n\t", "--", ". . ."] {
        assert_eq!(
            bench.refusal(&hidden(Back, blank)),
            [
                "back edge: write the reason in two words or more, like glued to the wall; it stays on the ticket"
            ],
            "{blank:?}"
        );
    }
    assert_eq!(
        bench.refusal(&hidden(Top, "under the microwave")),
        ["top: always exposed; it cannot be declared hidden"]
    );
    let said = bench.refusal(&hidden(Hole(9), "glued to the wall"));
    assert_eq!(said, ["hole 9 wall: this piece has no such face"]);
    assert_eq!(
        bench.refusal(&What::Exposed { face: Back }),
        ["back edge: is exposed already"],
        "nothing to withdraw"
    );

    bench.log(hidden(Back, "glued to the backsplash"));
    assert_eq!(
        bench.face(Back).not_exposed.as_deref(),
        Some("glued to the backsplash")
    );
    let others: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != Back).collect();
    bench.sand(&others);
    bench.wipe(&others);
    assert_eq!(
        bench.refusal(&bench.move_to(Stage::Sealing))[0],
        "back edge: 80 grit not done",
        "grits are asked of it all the same"
    );
    bench.sand(&[Back]);
    bench.wipe(&[Back]);
    bench.later(60);
    bench.move_on();
    assert_eq!(
        bench.ticket.due_faces(Seal),
        others,
        "no coat is asked of it"
    );
    bench.lay_all(Seal);
    bench.move_on();
    bench.lay_all(Topcoat);
    bench.later(7 * 24 * 60);
    bench.move_on();
    assert_eq!(bench.ticket.stage, Stage::Set);

    bench.log(What::Exposed { face: Back });
    assert_eq!(
        bench.ticket.stage,
        Stage::Sanding,
        "withdrawn, the face is bare again"
    );
    bench.move_on();
    assert_eq!(
        bench.refusal(&bench.move_to(Stage::Topcoats)),
        ["back edge: not sealed (seal coat 1 of 1)"]
    );
}

/// The piece's shape becomes this one, with the line that says which faces came and went.
fn reshape(bench: &mut Bench, shape: Shape) {
    let keys = |piece: &Piece| -> Vec<FaceKey> {
        piece
            .shape
            .faces(piece.construction)
            .iter()
            .map(|face| face.key)
            .collect()
    };
    let before = keys(&bench.file.piece);
    bench.file.piece.shape = shape;
    let after = keys(&bench.file.piece);
    let less = |all: &[FaceKey], from: &[FaceKey]| -> Vec<FaceKey> {
        all.iter()
            .copied()
            .filter(|key| !from.contains(key))
            .collect()
    };
    let what = What::Reshaped {
        added: less(&after, &before),
        removed: less(&before, &after),
    };
    assert_eq!(bench.against(&what), []);
    let id = EventId(bench.mint.next(bench.now.timestamp_millis()));
    bench.file.events.push(Event {
        id,
        at: bench.now,
        what,
    });
    bench.ticket = Ticket::of(&bench.file);
}

#[test]
fn a_hole_cut_after_the_topcoats_is_bare_and_brings_the_piece_back() {
    let mut bench = Bench::new(STAINED);
    bench.through_topcoats();
    let before = bench.ticket.clone();
    reshape(
        &mut bench,
        hand_case(true, &[hole(1, 40, 23), hole(2, 60, 23)]),
    );

    let wall = bench.face(Hole(2));
    assert!(wall.ticks.is_empty() && wall.coats.is_empty() && wall.wiped.is_none());
    assert!(wall.area.m2() > 0.0);
    assert_eq!(bench.ticket.stage, Stage::Sanding);
    for was in &before.faces {
        assert_eq!(
            was.coats,
            bench.face(was.key).coats,
            "{} keeps its coats",
            was.key
        );
    }
    assert_eq!(bench.board(), "80 grit: 9 of 10 faces");
    assert_eq!(
        bench.refusal(&bench.move_to(Stage::Sealing)),
        [
            "hole 2 wall: 80 grit not done",
            "hole 2 wall: 120 grit not done",
            "hole 2 wall: not wiped down",
        ]
    );
    bench.sand(&[Hole(2)]);
    bench.wipe(&[Hole(2)]);
    bench.later(60);
    bench.move_on();
    bench.move_on();
    assert_eq!(
        bench.refusal(&bench.move_to(Stage::Topcoats)),
        ["hole 2 wall: stain not done"]
    );
    bench.lay_all(CoatKind::Stain);
    bench.move_on();
    let said = bench.refusal(&bench.move_to(Stage::Set));
    assert_eq!(
        said[0], "hole 2 wall: coat 1 of 6 not done",
        "nothing is set with the wall bare"
    );
    bench.lay_all(Topcoat);
    bench.later(7 * 24 * 60);
    bench.move_on();
    assert_eq!(bench.ticket.stage, Stage::Set);
}

#[test]
fn a_hole_cut_into_a_piece_that_is_set_opens_it_again() {
    let mut bench = Bench::new(HARDWAX);
    bench.through_topcoats();
    bench.move_on();
    for item in SetItem::ALL {
        bench.log(What::SetList { item, done: true });
    }
    assert!(bench.ticket.finished.is_some());
    reshape(
        &mut bench,
        hand_case(true, &[hole(1, 40, 23), hole(2, 60, 23)]),
    );
    assert_eq!(
        (bench.ticket.stage, bench.ticket.finished),
        (Stage::Sanding, None)
    );
    assert!(bench.ticket.set_list.is_empty());
}

#[test]
fn a_band_given_later_makes_two_bare_faces_of_the_underside() {
    let mut bench = Bench::new(STAINED);
    bench.file.piece.shape = hand_case(false, &[hole(1, 40, 23)]);
    bench.ticket = Ticket::of(&bench.file);
    bench.through_topcoats();
    reshape(&mut bench, hand_case(true, &[hole(1, 40, 23)]));
    assert_eq!(bench.faces(), NINE);
    assert!(bench.face(Band).coats.is_empty() && bench.face(Field).coats.is_empty());
    assert_eq!(bench.face(Top).count(Topcoat), 6);
    assert_eq!(bench.ticket.stage, Stage::Sanding);
}

/// A log from elsewhere may claim that faces went which the shape still has.
#[test]
fn a_line_that_takes_faces_away_takes_none_that_the_shape_has() {
    let bench = Bench::new(HARDWAX);
    let took = |added: &[FaceKey], removed: &[FaceKey]| {
        let what = What::Reshaped {
            added: added.to_vec(),
            removed: removed.to_vec(),
        };
        bench.refusal(&what)
    };
    for gone in [Top, Left, Front, Band, Field] {
        assert!(!took(&[], &[gone]).is_empty(), "{gone} cannot go");
    }
    assert!(!took(&[], &NINE).is_empty());
    assert!(!took(&[], &[Hole(4)]).is_empty(), "it was never there");
    assert!(!took(&[Left], &[]).is_empty(), "it is there already");
    assert!(
        !took(&[Underside], &[]).is_empty(),
        "an underside is whole or split, not both"
    );
    assert!(took(&[Underside], &[Band, Field]).is_empty());
    assert!(took(&[FaceKey::Rim], &[Front, Back, Left, Right]).is_empty());
    assert!(
        took(&[Hole(1)], &[Hole(1)]).is_empty(),
        "cut anew, its wall is bare"
    );

    // A wall may go, for a cutout can be filled; but if the shape has it still, it is there, bare.
    let what = What::Reshaped {
        added: vec![],
        removed: vec![Hole(1)],
    };
    assert_eq!(bench.against(&what), []);
    let mut other = Bench::new(HARDWAX);
    other.file.piece.shape = hand_case(true, &[]);
    other.ticket = Ticket::of(&other.file);
    other.through_topcoats();
    other.move_on();
    assert_eq!(other.ticket.stage, Stage::Set);
    let first = Event {
        id: EventId(uuid::Uuid::nil()),
        at: morning(),
        what,
    };
    let events = std::iter::once(first).chain(other.file.events).collect();
    let ticket = Ticket::of(&PieceFile {
        events,
        ..bench.file
    });
    assert_eq!(
        ticket.stage,
        Stage::Sanding,
        "not set with a wall that nobody touched"
    );
    let wall = ticket.face(Hole(1)).unwrap();
    assert!(wall.coats.is_empty() && wall.ticks.is_empty());
}
