//! The promise: the board says in words what each piece waits for, and the rack what comes first.

mod support;

use chrono::{DateTime, Duration, Utc};
use support::*;
use tackfree::coating::{Family, Span};
use tackfree::shape::FaceKey;
use tackfree::shop::{
    CoatKind, Grit, PieceFile, PieceId, RackState, ScuffMeans, Shows, Stage, TouchVerdict, What,
    rack,
};

use CoatKind::{Seal, Stain, Topcoat};

/// The stained recipe with seven topcoats: six or seven very thin wiped coats are common practice,
/// no source.
fn seven_coats() -> Bench {
    let (products, mut schedule) = ready(STAINED);
    schedule.show.topcoats = 7;
    schedule.end_grain.topcoats = 7;
    schedule.underside.topcoats = 6;
    assert_eq!(schedule.check(), Ok(()));
    Bench::with(products, schedule)
}

/// ... with so many topcoats on, the last at this time.
fn with_topcoats(count: i64, last: DateTime<Utc>) -> Bench {
    let mut bench = seven_coats();
    bench.through_sanding();
    bench.lay_all(Seal);
    bench.move_on();
    bench.lay_all(Stain);
    bench.move_on();
    // Each six hours after the one before, as soon as that is dry to recoat.
    let first = last - Duration::hours(6 * (count - 1));
    assert!(bench.now <= first);
    bench.now = first;
    for no in 1..=count {
        if no > 1 {
            bench.scuff(&NINE, ScuffMeans::BrownPaper);
        }
        let due = bench.ticket.due_faces(Topcoat);
        bench.coat(Topcoat, &due);
        bench.later(6 * 60);
    }
    bench.now = last;
    bench
}

#[test]
fn sanding_counts_faces_grit_by_grit() {
    let mut bench = seven_coats();
    assert_eq!(bench.board(), "80 grit: 0 of 9 faces");
    bench.tick(80, &NINE);
    bench.tick(120, &[Top, Left, Right]);
    assert_eq!(bench.board(), "120 grit: 3 of 9 faces");
    bench.log(Bench::sand_back_of(80, &[Left]));
    assert_eq!(bench.board(), "120 grit: 2 of 9 faces");
    bench.sand(&NINE);
    bench.wipe(&[Top, Left]);
    assert_eq!(bench.board(), "wipe down: 2 of 9 faces");
    bench.wipe(&NINE);
    assert_eq!(bench.waiting().shows(), Shows::Drying);
    bench.later(30);
    assert_eq!(bench.board(), "ready to move to sealing");
    assert_eq!(bench.waiting().shows(), Shows::Ready);
}

#[test]
fn a_grit_asked_of_the_ends_alone_counts_the_ends_alone() {
    let mut bench = Bench::new(CLEAR);
    bench.sand(&NINE);
    let untick = What::Untick {
        face: Left,
        grit: Grit(220),
    };
    bench.log(untick);
    assert_eq!(bench.board(), "220 grit: 3 of 4 faces");
}

#[test]
fn a_coat_says_its_number_and_when_it_may_go_on() {
    let mut bench = with_topcoats(3, local(28, 9, 40));
    bench.later(5);
    assert_eq!(bench.board(), "coat 4 of 7: dry to recoat 3:40 pm");
    assert_eq!(bench.waiting().shows(), Shows::Drying);
    assert_eq!(bench.waiting().until(), Some(local(28, 15, 40)));
    bench.now = local(28, 15, 40);
    assert_eq!(bench.board(), "ready to scuff");
    assert_eq!(bench.waiting().shows(), Shows::Ready);
    bench.scuff(&NINE, ScuffMeans::BrownPaper);
    assert_eq!(bench.board(), "coat 4 of 7: ready");
}

#[test]
fn the_night_and_the_next_days_are_named() {
    let mut bench = with_topcoats(3, local(28, 20, 0));
    assert_eq!(bench.board(), "coat 4 of 7: dry to recoat Sat 2:00 am");
    bench.touch(&[Top], TouchVerdict::StillSoft);
    // The clock's own time, for it is later than half an hour from now.
    assert_eq!(
        bench.board(),
        "coat 4 of 7: still soft, test again Sat 2:00 am"
    );
    assert_eq!(bench.waiting().shows(), Shows::Drying);
    assert_eq!(bench.waiting().until(), Some(local(29, 2, 0)));
    bench.touch(&NINE, TouchVerdict::DryToRecoat);
    assert_eq!(bench.board(), "ready to scuff");
    // The label's window counts from the coat, not from the test.
    bench.now = local(29, 20, 1);
    assert_eq!(
        bench.board(),
        "coat 4 of 7: window shut 8:00 pm, abrade first"
    );
    assert_eq!(bench.waiting().shows(), Shows::Missed);
}

#[test]
fn a_coat_laid_on_some_of_the_faces_counts_them() {
    let mut bench = with_topcoats(3, local(28, 9, 40));
    bench.now = local(28, 15, 40);
    bench.scuff(&NINE, ScuffMeans::BrownPaper);
    bench.coat(Topcoat, &[Top, Front, Back]);
    assert_eq!(
        bench.board(),
        "coat 4 of 7: 3 of 9 faces",
        "the others may be laid now"
    );
    bench.coat(Topcoat, &[Band, Left, Right, Cutout(1), Hole(1)]);
    assert_eq!(
        bench.board(),
        "coat 4 of 6: 8 of 9 faces",
        "the field is asked for six"
    );
    bench.later(20);
    bench.coat(Topcoat, &[Field]);
    assert_eq!(
        bench.board(),
        "coat 5 of 7: dry to recoat 10:00 pm",
        "the last to dry decides"
    );
}

#[test]
fn a_face_sanded_back_is_followed_on_its_way() {
    let mut bench = with_topcoats(3, local(28, 9, 40));
    bench.later(60);
    bench.log(Bench::sand_back_of(80, &[Left]));
    assert_eq!(bench.board(), "120 grit: 8 of 9 faces");
    bench.sand(&[Left]);
    assert_eq!(
        bench.board(),
        "wipe down: 0 of 1 face",
        "the others carry their coats"
    );
    bench.wipe(&[Left]);
    assert_eq!(bench.board(), "ready to move to sealing");
    bench.move_on();
    assert_eq!(
        bench.board(),
        "wipe-down flashes off 11:10 am; can move to staining",
        "no end is sealed by this schedule"
    );
    bench.move_on();
    assert_eq!(bench.board(), "wipe-down flashes off 11:10 am");
    bench.later(30);
    assert_eq!(bench.board(), "held: left end not stained");
    bench.coat(Stain, &[Left]);
    assert_eq!(bench.board(), "wipe off the stain: 1 face");
    bench.log(What::WipeOff { faces: vec![Left] });
    bench.move_on();
    assert_eq!(bench.board(), "coat 1 of 7: stain dry Sat 11:10 am");
    bench.later(24 * 60);
    assert_eq!(bench.board(), "coat 1 of 7: 8 of 9 faces");
}

#[test]
fn a_left_out_end_holds_the_piece() {
    let mut bench = Bench::new(CLEAR);
    bench.through_sanding();
    assert_eq!(bench.board(), "seal coat 1 of 1: ready");
    let others: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != Left).collect();
    bench.coat(Seal, &others);
    assert_eq!(bench.board(), "held: left end not sealed");
    assert_eq!(bench.waiting().shows(), Shows::Held);
    bench.coat(Seal, &[Left]);
    let dry = bench.waiting().until().expect("a moment");
    assert_eq!(bench.waiting().shows(), Shows::Drying);
    bench.now = dry;
    assert_eq!(bench.board(), "ready to move to topcoats");
}

#[test]
fn a_piece_that_may_move_along_still_says_that_its_coat_is_wet() {
    let mut bench = Bench::new(CLEAR);
    bench.through_sanding();
    bench.coat(Seal, &NINE);
    let dry = bench.waiting().until().expect("a moment");
    assert_eq!(dry - bench.now, Duration::minutes(60));
    let board = bench.board();
    assert!(
        board.starts_with("coat 1 of 4: dry to recoat ")
            && board.ends_with("; can move to topcoats"),
        "{board}"
    );
    assert_eq!(bench.waiting().shows(), Shows::Drying);
    let row = |bench: &Bench| {
        let rows = rack(std::slice::from_ref(&bench.file), &bench.gates(), bench.now);
        rows.into_iter().next().expect("a row")
    };
    assert_eq!(
        (row(&bench).state, row(&bench).coat),
        (RackState::Wet, Some((Seal, 1)))
    );
    assert_eq!(row(&bench).recoat, Some(dry));
    bench.now = dry;
    assert_eq!(row(&bench).state, RackState::Ready);
    assert_eq!(bench.board(), "ready to move to topcoats");
    // What a thumb found soft does not go on either.
    bench.touch(&[Top], TouchVerdict::StillSoft);
    assert_eq!(row(&bench).state, RackState::TackFree);
    assert_eq!(bench.waiting().until(), Some(dry + Duration::minutes(30)));
}

#[test]
fn a_coat_found_soft_dries_on_until_it_is_to_be_tested_again() {
    // Past its label's time, ready by the clock.
    for (laid, was) in [
        (local(28, 9, 40), RackState::Ready),
        (local(27, 9, 0), RackState::Missed),
    ] {
        let mut bench = with_topcoats(3, laid);
        bench.now = local(28, 15, 40);
        let row = |bench: &Bench| {
            let rows = rack(std::slice::from_ref(&bench.file), &bench.gates(), bench.now);
            rows.into_iter().next().expect("a row")
        };
        assert_eq!(row(&bench).state, was);
        bench.touch(&NINE, TouchVerdict::StillSoft);
        // A fifth of the time it has had, which is more than half an hour.
        let again = bench.now + (bench.now - laid) / 5;
        assert_eq!(bench.waiting().shows(), Shows::Drying);
        assert_eq!(bench.waiting().until(), Some(again));
        assert_eq!(row(&bench).state, RackState::TackFree);
        assert_eq!(row(&bench).recoat, Some(again));
        bench.now = again;
        assert_eq!(bench.board(), "coat 4 of 7: still soft, test again now");
        assert_eq!(bench.waiting().shows(), Shows::Ready);
        assert_eq!(row(&bench).state, RackState::Ready);
    }
}

#[test]
fn a_last_coat_found_soft_is_to_be_tested_again() {
    let mut bench = Bench::new(HARDWAX);
    bench.through_topcoats();
    let waits = bench.waiting();
    assert_eq!(bench.board(), "ready to move to set", "{waits:?}");
    bench.touch(&[Top], TouchVerdict::StillSoft);
    let again = bench.waiting().until().expect("a moment");
    assert!(again > bench.now);
    let board = bench.board();
    assert!(
        board.starts_with("coat 2 of 2: still soft, test again "),
        "{board}"
    );
}

#[test]
fn ends_asked_for_a_coat_more_are_not_left_behind() {
    let mut bench = Bench::new(HARDWAX);
    bench.through_sanding();
    assert_eq!(
        bench.ticket.stage,
        Stage::Topcoats,
        "sealing and staining ask nothing"
    );
    bench.coat(Topcoat, &NINE);
    bench.later(24 * 60);
    bench.scuff(&NINE, ScuffMeans::Pad);
    bench.coat(Topcoat, &NINE);
    assert_eq!(bench.board(), "coat 3 of 3: dry to recoat Wed 9:00 am");
    bench.later(24 * 60);
    assert_eq!(bench.board(), "ready to scuff");
    bench.scuff(&NINE, ScuffMeans::Pad);
    assert_eq!(bench.board(), "coat 3 of 3: ready");
    bench.coat(Topcoat, &[Left, Right, Cutout(1), Hole(1)]);
    assert_eq!(bench.board(), "cures until Fri 9:00 am");
    bench.later(2 * 24 * 60);
    assert_eq!(bench.board(), "ready to move to set");
    bench.move_on();
    assert_eq!(bench.board(), "set list: 0 of 7");
    for item in tackfree::shop::SetItem::ALL {
        bench.log(What::SetList { item, done: true });
    }
    assert_eq!(bench.board(), "set Fri Nov 28");
    assert_eq!(bench.waiting().shows(), Shows::Done);
}

#[test]
fn a_face_that_still_dries_is_not_called_left_out() {
    let mut bench = with_topcoats(3, local(28, 9, 40));
    let others: Vec<FaceKey> = NINE.into_iter().filter(|face| *face != Right).collect();
    for _ in 4..=7 {
        bench.later(6 * 60);
        bench.scuff(&NINE, ScuffMeans::BrownPaper);
        let due: Vec<FaceKey> = others
            .iter()
            .copied()
            .filter(|face| bench.face(*face).count(Topcoat) < if *face == Field { 6 } else { 7 })
            .collect();
        bench.coat(Topcoat, &due);
    }
    assert_eq!(bench.board(), "held: right end coat 4 of 7 missing");
    bench.coat(Topcoat, &[Right]);
    let board = bench.board();
    assert!(board.starts_with("coat 5 of 7: dry to recoat"), "{board}");
}

/// A piece like the bench's, under another identifier, with the bench's log.
fn racked(bench: &mut Bench) -> PieceFile {
    let mut file = bench.file.clone();
    file.piece.id = PieceId(bench.mint.next(0));
    file
}

#[test]
fn the_rack_shows_ready_first_then_missed_then_what_happens_soonest() {
    let now = local(29, 16, 0);
    let mut files = Vec::new();
    let mut expected = Vec::new();
    // Coats of a label with a window from 6 to 24 hours, laid so many minutes ago.
    for (minutes, state) in [
        (22 * 60, RackState::Ready),
        (7 * 60, RackState::Ready),
        (25 * 60, RackState::Missed),
        (24 * 60 + 5, RackState::Missed),
        (5 * 60 + 30, RackState::TackFree),
        (2 * 60 + 15, RackState::Wet),
        (4 * 60, RackState::Tacky),
    ] {
        let mut bench = with_topcoats(3, now - Duration::minutes(minutes));
        bench.now = now;
        files.push(racked(&mut bench));
        expected.push((files.last().unwrap().piece.id, state));
    }
    let mut bench = Bench::new(STAINED);
    // Bare wood dries nothing; a wipe-down that flashes off does.
    files.push(racked(&mut bench));
    bench.sand(&NINE);
    bench.wipe(&NINE);
    bench.move_on();
    files.push(racked(&mut bench));
    bench.now = now;
    let gates = bench.gates();
    files.reverse();
    let rows = rack(&files, &gates, now);
    let got: Vec<_> = rows.iter().map(|row| (row.piece, row.state)).collect();
    // Wet at 2:15 turns at 3 h (45 min from now), tack-free at 5:30 turns at 6 h (30 min), tacky
    // at 4 h turns at 5 h (an hour).
    assert_eq!(got, expected);
    let first = &rows[0];
    assert_eq!(first.coat, Some((Topcoat, 3)));
    assert_eq!(first.shuts, Some(now + Duration::hours(2)));
    assert_eq!(first.tack_free, Some(now - Duration::hours(17)));
    assert_eq!(first.recoat, Some(now - Duration::hours(16)));
    assert_eq!(rows[2].shuts, Some(now - Duration::hours(1)));
}

#[test]
fn a_window_that_shuts_leads_over_one_that_never_does() {
    let mut shuts = with_topcoats(3, local(28, 9, 40));
    shuts.now = local(28, 15, 50);
    let mut open = with_topcoats(3, local(28, 9, 30));
    let varnish = open.product(Family::OilWipingVarnish);
    varnish.id = tackfree::coating::ProductId(uuid::Uuid::from_u128(5));
    varnish.label.windows[0].closes = None;
    let varnish = varnish.clone();
    let mut file = racked(&mut open);
    for event in &mut file.events {
        if let What::Coat {
            kind: Topcoat,
            product,
            ..
        } = &mut event.what
        {
            *product = varnish.id;
        }
    }
    let other = racked(&mut shuts);
    let ids = [other.piece.id, file.piece.id];
    shuts.products.push(varnish);
    let rows = rack(&[file, other], &shuts.gates(), shuts.now);
    let got: Vec<_> = rows.iter().map(|row| (row.piece, row.state)).collect();
    assert_eq!(
        got,
        [(ids[0], RackState::Ready), (ids[1], RackState::Ready)]
    );
}

#[test]
fn the_rack_tells_of_a_wipe_down_and_lets_go_of_what_is_cured() {
    let mut bench = Bench::new(STAINED);
    bench.sand(&NINE);
    bench.wipe(&NINE);
    bench.move_on();
    let rows = rack(std::slice::from_ref(&bench.file), &bench.gates(), bench.now);
    assert_eq!((rows[0].state, rows[0].coat), (RackState::Wet, None));
    assert_eq!(rows[0].next, Some(local(24, 8, 30)));
    bench.later(30);
    assert_eq!(
        rack(std::slice::from_ref(&bench.file), &bench.gates(), bench.now),
        []
    );

    let mut bench = Bench::new(HARDWAX);
    bench.through_topcoats();
    bench.move_on();
    let state = |bench: &Bench| {
        let rows = rack(std::slice::from_ref(&bench.file), &bench.gates(), bench.now);
        rows.first().map(|row| row.state)
    };
    assert_eq!(
        state(&bench),
        Some(RackState::Curing),
        "set, but not fully cured"
    );
    let cure = bench.product(Family::HardwaxOil).label.full_cure;
    assert_eq!(cure, Span::days(14));
    bench.later(cure.as_minutes());
    assert_eq!(state(&bench), None);
}
