//! The promise: a sand-back takes back what lies over it on the faces it touches, and only there;
//! the log keeps both.

mod support;

use support::*;
use tackfree::shop::{CoatKind, Grit, Stage, What};

use CoatKind::{Seal, Topcoat};

#[test]
fn a_sand_back_takes_back_what_lies_over_it_on_its_faces_only() {
    let mut bench = Bench::new(CLEAR);
    bench.through_sanding();
    bench.lay_all(Seal);
    bench.move_on();
    bench.coat(Topcoat, &NINE);
    bench.later(30);
    let before = bench.ticket.clone();
    let lines = bench.file.events.len();
    bench.log(Bench::sand_back_of(120, &[Top, Left]));

    for key in [Top, Left] {
        let (was, is) = (before.face(key).unwrap(), bench.face(key));
        let ticks: Vec<_> = is.ticks.iter().map(|(grit, at)| (grit.0, *at)).collect();
        assert_eq!(
            ticks,
            [(80, was.ticks[&Grit(80)]), (120, bench.now)],
            "{key}"
        );
        assert!(is.coats.is_empty() && is.wiped.is_none(), "{key}");
        assert_eq!(is.sand_backs, 1);
    }
    for key in NINE.into_iter().filter(|key| ![Top, Left].contains(key)) {
        assert_eq!(
            before.face(key),
            bench.ticket.face(key),
            "{key} was not touched"
        );
    }
    assert_eq!(bench.ticket.stage, Stage::Sanding);
    assert_eq!(
        bench.file.events.len(),
        lines + 1,
        "the log keeps what was done before"
    );

    assert_eq!(
        bench.refusal(&bench.move_to(Stage::Sealing)),
        [
            "top: 150 grit not done",
            "top: 180 grit not done",
            "top: not wiped down",
            "left end: 150 grit not done",
            "left end: 180 grit not done",
            "left end: 220 grit not done",
            "left end: not wiped down",
        ]
    );
    bench.sand(&[Top, Left]);
    bench.wipe(&[Top, Left]);
    bench.later(24 * 60);
    bench.move_on();
    let said = bench.refusal(&bench.move_to(Stage::Topcoats));
    assert_eq!(
        said,
        [
            "top: not sealed (seal coat 1 of 1)",
            "left end: not sealed (seal coat 1 of 1)"
        ]
    );
    bench.lay_all(Seal);
    bench.move_on();
    bench.lay_all(Topcoat);
    bench.later(7 * 24 * 60);
    bench.move_on();
    assert_eq!(bench.ticket.stage, Stage::Set);
}

#[test]
fn a_sand_back_needs_a_grit_the_face_carries_and_a_reason() {
    let mut bench = Bench::new(CLEAR);
    bench.tick(80, &[Top, Left]);
    let back = Bench::sand_back_of;
    assert_eq!(
        bench.refusal(&back(120, &[Top])),
        ["top: 120 grit not done"]
    );
    assert_eq!(
        bench.refusal(&back(100, &[Top, Left])),
        [
            "top: the schedule does not ask 100 grit",
            "left end: the schedule does not ask 100 grit",
        ]
    );
    assert_eq!(bench.refusal(&back(80, &[])), ["no face was picked"]);
    for blank in ["", "   ", " . ", "\u{a0}-", "\t\n"] {
        let what = What::SandBack {
            faces: vec![Top],
            to: Grit(80),
            reason: blank.to_owned(),
        };
        assert_eq!(
            bench.refusal(&what),
            ["top: write the reason, a word like run or scratch; it stays on the ticket"],
            "{blank:?}"
        );
    }
    // 150 was there, but went with the sand-back to 80.
    bench.sand(&[Top]);
    bench.log(back(80, &[Top]));
    assert_eq!(
        bench.refusal(&back(150, &[Top])),
        ["top: 150 grit not done"]
    );
}
