//! The promise: no coat goes on while the one below is not dry to recoat, a touch test decides,
//! and a missed window asks for abrading but never holds for good.

mod support;

use chrono::Duration;
use support::*;
use tackfree::coating::{Family, Span};
use tackfree::shop::{Blocker, CoatKind, Grit, ScuffMeans, Stage, Strictness, TouchVerdict, What};

use CoatKind::{Seal, Stain, Topcoat};
use ScuffMeans::{BrownPaper, FinePaper, Pad};

/// A hardwax piece (dry to recoat after 24 h by its starting figures) with its first coat on at
/// nine, no scuff asked.
fn first_coat() -> Bench {
    let (products, mut schedule) = ready(HARDWAX);
    schedule.scuff = None;
    let mut bench = Bench::with(products, schedule);
    bench.through_sanding();
    bench.coat(Topcoat, &NINE);
    bench
}

fn second(bench: &Bench) -> Vec<Blocker> {
    bench.against(&bench.coat_of(Topcoat, &[Top]))
}

#[test]
fn a_coat_waits_until_the_one_below_is_dry_to_recoat() {
    let mut bench = first_coat();
    bench.later(24 * 60 - 10);
    let said = bench.refusal(&bench.coat_of(Topcoat, &[Top, Left]));
    assert_eq!(
        said,
        [
            "top: coat dry to recoat 9:00 am (in 10 min)",
            "left end: coat dry to recoat 9:00 am (in 10 min)"
        ]
    );
    let scuff = What::Scuff {
        faces: vec![Top],
        means: Pad,
    };
    assert_eq!(
        bench.refusal(&scuff),
        said[..1],
        "soft film is not scuffed either"
    );
    bench.later(10);
    assert_eq!(second(&bench), []);
}

/// A pass is judged at its start: it may not begin before the coat below is dry and end after.
#[test]
fn a_pass_is_judged_by_when_it_began() {
    let mut bench = first_coat();
    bench.later(24 * 60 + 30);
    let mut what = bench.coat_of(Topcoat, &[Top]);
    let What::Coat { started, .. } = &mut what else {
        unreachable!()
    };
    *started -= Duration::minutes(40);
    assert!(matches!(bench.against(&what)[..], [Blocker::NotDry { .. }]));
    let What::Coat { started, .. } = &mut what else {
        unreachable!()
    };
    *started = bench.now + Duration::minutes(5);
    assert!(bench.against(&what).contains(&Blocker::EndsBeforeStart));
}

#[test]
fn a_touch_test_lifts_the_wait_and_still_soft_holds_it() {
    let mut bench = first_coat();
    bench.later(10 * 60);
    for early in [TouchVerdict::TouchDry, TouchVerdict::TackFree] {
        bench.touch(&NINE, early);
        assert!(
            matches!(second(&bench)[..], [Blocker::NotDry { .. }]),
            "{early:?}"
        );
    }
    bench.touch(&[Top], TouchVerdict::DryToRecoat);
    assert_eq!(second(&bench), []);
    assert!(
        !bench.against(&bench.coat_of(Topcoat, &[Left])).is_empty(),
        "the test was of the top alone"
    );
    bench.touch(&[Top], TouchVerdict::StillSoft);
    let soft = ["top: still soft at the touch test of 7:00 pm; test again"];
    assert_eq!(bench.refusal(&bench.coat_of(Topcoat, &[Top])), soft);
    bench.later(5 * 24 * 60);
    assert_eq!(
        bench.refusal(&bench.coat_of(Topcoat, &[Top])),
        ["top: still soft at the touch test of Mon 7:00 pm; test again"],
        "the test counts, whatever the clock says"
    );
    bench.touch(&[Top], TouchVerdict::DryToRecoat);
    assert_eq!(second(&bench), []);
}

#[test]
fn a_film_found_still_soft_is_not_set() {
    let mut bench = Bench::new(HARDWAX);
    bench.through_topcoats();
    assert_eq!(bench.against(&bench.move_to(Stage::Set)), []);
    bench.touch(&[Left], TouchVerdict::StillSoft);
    assert!(matches!(
        bench.against(&bench.move_to(Stage::Set))[..],
        [Blocker::Soft { face: Left, .. }]
    ));
    bench.touch(&[Left], TouchVerdict::DryToHandle);
    assert_eq!(bench.against(&bench.move_to(Stage::Set)), []);
    // Nor is it passed over when it is found on a piece that is set.
    bench.move_on();
    assert_eq!(bench.board(), "set list: 0 of 7");
    bench.touch(&[Left], TouchVerdict::StillSoft);
    assert_eq!(
        bench.board(),
        "coat 3 of 3: still soft, test again Fri 11:24 pm"
    );
    bench.touch(&[Left], TouchVerdict::DryToHandle);
    assert_eq!(bench.board(), "set list: 0 of 7");
}

#[test]
fn a_touch_test_shortens_the_cure_only_to_the_label_s_dry_to_handle() {
    let mut bench = Bench::new(HARDWAX);
    bench.product(Family::HardwaxOil).label.handle = Span::hours(24);
    bench.through_topcoats();
    bench.now = bench.face(Left).last_coat().unwrap().ended;
    let last = bench.now;
    bench.later(5);
    let not_cured = |bench: &Bench| {
        let said = bench.against(&bench.move_to(Stage::Set));
        said.iter()
            .map(|blocker| match blocker {
                Blocker::NotCured { face, ready } => (*face, *ready - last),
                other => panic!("{other:?}"),
            })
            .collect::<Vec<_>>()
    };
    let cure = bench.ticket.schedule.cure_before_set.as_duration();
    assert!(not_cured(&bench).contains(&(Left, cure)));
    // Five minutes after the coat no thumb ends the cure: the label's 24 hours stand.
    bench.touch(&NINE, TouchVerdict::DryToHandle);
    let said = not_cured(&bench);
    assert!(said.contains(&(Left, Duration::hours(24))), "{said:?}");
    bench.later(24 * 60 - 6);
    assert!(not_cured(&bench).contains(&(Left, Duration::hours(24))));
    bench.later(1);
    assert_eq!(not_cured(&bench), []);
    assert!(cure > Duration::hours(24), "the test would show nothing");
}

#[test]
fn a_missed_window_asks_for_paper_or_pad_and_then_lets_go() {
    for means in [FinePaper(Grit(320)), Pad] {
        let mut bench = first_coat();
        bench.windows(Family::HardwaxOil, &[(6 * 60, Some(24 * 60), false)]);
        bench.later(24 * 60);
        assert_eq!(second(&bench), [], "the last minute of the window");
        bench.later(1);
        let said = bench.refusal(&bench.coat_of(Topcoat, &[Top]));
        let missed = "top: window shut 9:00 am; abrade with fine paper or a pad first";
        assert_eq!(said, [missed]);
        assert_eq!(
            bench.board(),
            "coat 2 of 3: window shut 9:00 am, abrade first"
        );
        bench.scuff(&NINE, BrownPaper);
        let said = bench.refusal(&bench.coat_of(Topcoat, &[Top]));
        assert_eq!(
            said,
            [missed],
            "brown paper keys the film without cutting it"
        );
        bench.scuff(&NINE, means);
        assert_eq!(second(&bench), []);
        bench.later(90 * 24 * 60);
        assert_eq!(second(&bench), [], "a missed window never holds for good");
    }
}

/// What the board asks for and what the gate asks for are the same thing.
#[test]
fn a_missed_window_asks_for_abrading_also_where_a_scuff_was_due() {
    let mut bench = Bench::new(WATER);
    bench.through_sanding();
    bench.lay_all(Seal);
    bench.move_on();
    bench.coat(Topcoat, &NINE);
    bench.later(12 * 60 + 1);
    assert_eq!(
        bench.board(),
        "coat 2 of 3: window shut 9:00 pm, abrade first"
    );
    assert_eq!(
        bench.refusal(&bench.coat_of(Topcoat, &[Top])),
        ["top: window shut 9:00 pm; abrade with fine paper or a pad first"]
    );
}

/// A lifting coat: from half an hour to two hours wet on wet, or only after six days (a published
/// maker's data sheet of an alkyd).
#[test]
fn between_two_windows_a_coat_would_lift() {
    let mut bench = first_coat();
    bench.windows(
        Family::HardwaxOil,
        &[(30, Some(120), false), (6 * 24 * 60, None, true)],
    );
    bench.later(29);
    assert!(matches!(second(&bench)[..], [Blocker::NotDry { .. }]));
    bench.later(91);
    assert_eq!(second(&bench), []);
    bench.later(1);
    let from = bench.face(Top).last_coat().unwrap().ended;
    assert_eq!(
        second(&bench),
        [Blocker::WouldLift {
            face: Top,
            ready: from + Duration::days(6)
        }]
    );
    assert_eq!(
        bench.board(),
        "coat 2 of 3: would lift, next window Sun 9:00 am"
    );
    bench.touch(&NINE, TouchVerdict::DryToRecoat);
    assert!(
        matches!(second(&bench)[..], [Blocker::WouldLift { .. }]),
        "a touch test says dry, not that it will not lift"
    );
    bench.now = from + Duration::days(6);
    assert_eq!(
        second(&bench),
        [Blocker::NotScuffed { face: Top }],
        "this window asks for a scuff"
    );
    assert_eq!(bench.board(), "ready to scuff");
    bench.scuff(&NINE, BrownPaper);
    assert_eq!(second(&bench), []);
}

#[test]
fn the_scuff_between_topcoats_is_held() {
    let mut bench = Bench::new(STAINED);
    bench.through_sanding();
    bench.lay_all(Seal);
    bench.move_on();
    bench.lay_all(Stain);
    bench.move_on();
    assert_eq!(
        bench.against(&bench.coat_of(Topcoat, &NINE)),
        [],
        "neither stain nor sealer is scuffed by this schedule"
    );
    bench.coat(Topcoat, &NINE);
    bench.later(6 * 60);
    assert_eq!(bench.board(), "ready to scuff");
    let some = bench.coat_of(Topcoat, &[Top, Left]);
    assert_eq!(
        bench.refusal(&some),
        [
            "top: not scuffed since the last coat",
            "left end: not scuffed since the last coat"
        ]
    );
    bench.scuff(&[Top], BrownPaper);
    assert_eq!(
        bench.refusal(&some),
        ["left end: not scuffed since the last coat"]
    );
    bench.scuff(&[Left], BrownPaper);
    bench.coat(Topcoat, &[Top, Left]);
    bench.later(6 * 60);
    assert_eq!(
        second(&bench),
        [Blocker::NotScuffed { face: Top }],
        "the scuff was of the coat before"
    );
}

#[test]
fn work_logged_late_comes_after_the_last_work_and_never_from_the_future() {
    let mut bench = first_coat();
    bench.later(3 * 24 * 60);
    let laid = bench.face(Top).last_coat().unwrap().ended;
    let what = What::Touch {
        faces: vec![Top],
        verdict: TouchVerdict::TouchDry,
    };
    bench.log_at(what.clone(), laid + Duration::hours(30));
    let early = bench.against_at(&what, laid + Duration::hours(29));
    assert_eq!(
        bench.words(&early),
        ["top: last worked Tue 3:00 pm; the time typed lies before that"]
    );
    let other = What::Touch {
        faces: vec![Left],
        verdict: TouchVerdict::TouchDry,
    };
    assert_eq!(
        bench.against_at(&other, laid + Duration::hours(29)),
        [],
        "of another face"
    );
    let future = bench.against_at(&what, bench.now + Duration::minutes(1));
    assert_eq!(
        bench.words(&future),
        ["9:01 am is still to come; work is logged when it is done"]
    );
    for strictness in [Strictness::Live, Strictness::Record] {
        bench.strictness = strictness;
        assert!(!bench.against_at(&what, laid).is_empty());
        assert!(
            !bench
                .against_at(&what, bench.now + Duration::minutes(1))
                .is_empty()
        );
    }
    // A coat that began before the last work, though it ended after.
    let mut what = bench.coat_of(Topcoat, &[Top]);
    let What::Coat { started, .. } = &mut what else {
        unreachable!()
    };
    *started = laid + Duration::hours(29);
    assert!(
        bench
            .against(&what)
            .iter()
            .any(|b| matches!(b, Blocker::BeforeLastWork { .. }))
    );
}
