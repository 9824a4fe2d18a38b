//! What a day leaves to be seen to, from the products and the work logged on it.

use crate::hand::{Hand, clock, date, picks};
use tackfree::desk::Action;
use tackfree::shop::{Chore, CoatKind, Grit, RagWay, ScuffMeans, TouchVerdict, day_of};

const OIL: &str = "hardwax oil on all sides";
const WATER: &str = "water-borne clear";
const STAINED: &str = "gel stain under a wiped film";

fn chores(hand: &Hand, day: &str) -> Vec<Chore> {
    hand.end(day).calls.iter().map(|call| call.chore).collect()
}

#[test]
fn an_oil_day_leaves_oily_rags_and_says_of_what() {
    let mut hand = Hand::at("2026-11-24 09:00");
    let shelf = hand.piece("long shelf", OIL);
    assert!(
        chores(&hand, "2026-11-24").is_empty(),
        "nothing was done yet"
    );
    hand.through_sanding(shelf);
    assert_eq!(chores(&hand, "2026-11-24"), [Chore::WoodDust]);

    hand.goes_on("2026-11-25 10:00");
    hand.pass(&[shelf], CoatKind::Topcoat);
    let end = hand.end("2026-11-25");
    assert_eq!(chores(&hand, "2026-11-25"), [Chore::OilyRags]);
    let rags = end.rags().expect("oily rags");
    assert_eq!(rags.last, clock("2026-11-25 10:00"));
    assert_eq!(hand.shop().causes_words(rags), "hardwax oil");
    let said = Chore::OilyRags.caution().words();
    assert!(
        said.contains("flat outdoors") && said.contains("can of water") && said.contains("NFPA"),
        "{said}"
    );
}

#[test]
fn a_water_day_leaves_none_and_its_shellac_seal_leaves_solvent_rags() {
    let mut hand = Hand::at("2026-11-24 09:00");
    let shelf = hand.piece("long shelf", WATER);
    hand.through_sanding(shelf);
    hand.goes_on("2026-11-25 10:00");
    hand.pass(&[shelf], CoatKind::Seal);
    assert_eq!(chores(&hand, "2026-11-25"), [Chore::SolventRags]);
    hand.goes_on("2026-11-26 10:00");
    hand.move_on(shelf);
    hand.pass(&[shelf], CoatKind::Topcoat);
    assert!(chores(&hand, "2026-11-26").is_empty());
    // Scuffed with paper between coats: dust of finish.
    hand.goes_on("2026-11-27 10:00");
    hand.scuffed_pass(&[shelf], ScuffMeans::FinePaper(Grit(320)));
    assert_eq!(chores(&hand, "2026-11-27"), [Chore::FinishDust]);
}

#[test]
fn a_solvent_wipe_a_stain_and_its_wipe_off_each_leave_their_rags() {
    let mut hand = Hand::at("2026-11-23 09:00");
    let top = hand.piece("bar top", STAINED);
    hand.sand(top);
    hand.goes_on("2026-11-24 09:00");
    hand.wipe(top);
    assert_eq!(chores(&hand, "2026-11-24"), [Chore::SolventRags]);
    hand.move_on(top);
    hand.goes_on("2026-11-25 09:00");
    hand.pass(&[top], CoatKind::Seal);
    hand.move_on(top);
    hand.goes_on("2026-11-26 23:50");
    hand.pass(&[top], CoatKind::Stain);
    assert_eq!(chores(&hand, "2026-11-26"), [Chore::OilyRags]);
    // Wiped off after midnight: those rags are the new day's.
    hand.goes_on("2026-11-27 00:05");
    let at = hand.now;
    hand.done(&Action::WipeOff {
        picks: picks(&[top]),
        at,
    });
    let end = hand.end("2026-11-27");
    let rags = end.rags().expect("the wipe-off's rags");
    assert_eq!(hand.shop().causes_words(rags), "brown gel stain");
    // A touch test leaves nothing.
    hand.goes_on("2026-11-28 09:00");
    let at = hand.now;
    let verdict = TouchVerdict::DryToRecoat;
    hand.done(&Action::Touch {
        picks: picks(&[top]),
        verdict,
        at,
    });
    assert!(chores(&hand, "2026-11-28").is_empty());
}

#[test]
fn brown_paper_raises_no_dust_and_a_sand_back_of_film_does() {
    let mut hand = Hand::at("2026-11-23 09:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.through_sanding(shelf);
    hand.goes_on("2026-11-23 10:00");
    hand.pass(&[shelf], CoatKind::Topcoat);
    hand.goes_on("2026-11-25 09:00");
    let at = hand.now;
    hand.done(&Action::Scuff {
        picks: picks(&[shelf]),
        means: ScuffMeans::BrownPaper,
        at,
    });
    assert!(chores(&hand, "2026-11-25").is_empty());
    let face = hand.ticket(shelf).faces[0].key;
    hand.done(&Action::SandBack {
        piece: shelf,
        faces: vec![face],
        to: Grit(150),
        reason: "run".to_owned(),
        at,
    });
    assert_eq!(chores(&hand, "2026-11-25"), [Chore::FinishDust]);
}

#[test]
fn a_tick_says_how_covers_what_came_before_it_and_no_more() {
    let mut hand = Hand::at("2026-11-24 09:00");
    let shelf = hand.piece("long shelf", OIL);
    hand.through_sanding(shelf);
    hand.goes_on("2026-11-25 10:00");
    hand.pass(&[shelf], CoatKind::Topcoat);
    let day = date("2026-11-25");
    let tick = |way, at| Action::TickChore {
        day,
        chore: Chore::OilyRags,
        way,
        at,
    };
    let flat = Some(RagWay::FlatOutdoors);
    hand.goes_on("2026-11-25 10:30");
    assert!(
        hand.refused(&tick(None, clock("2026-11-25 10:30")))
            .starts_with("Say how the oily rags")
    );
    let early = hand.refused(&tick(flat, clock("2026-11-25 09:45")));
    assert!(
        early.contains("the last of it was still to come, at 10:00 am"),
        "{early}"
    );
    let ahead = hand.refused(&tick(flat, clock("2026-11-25 12:00")));
    assert!(ahead.contains("still to come"), "{ahead}");
    let bag = Action::TickChore {
        day,
        chore: Chore::FinishDust,
        way: None,
        at: clock("2026-11-25 10:30"),
    };
    assert!(hand.refused(&bag).contains("does not call for it"));

    // Done twenty minutes ago.
    hand.done(&tick(flat, clock("2026-11-25 10:10")));
    assert_eq!(
        hand.journal(),
        "Day's end of Wed Nov 25: oily rags laid flat outdoors (hardwax oil)"
    );
    assert!(hand.end("2026-11-25").rags().is_none());

    // More oil after that: other rags.
    let other = hand.piece("short shelf", OIL);
    hand.through_sanding(other);
    hand.goes_on("2026-11-25 16:00");
    hand.pass(&[other], CoatKind::Topcoat);
    let end = hand.end("2026-11-25");
    assert!(end.rags().is_some_and(|rags| rags.ticked.is_some()));
    hand.done(&tick(Some(RagWay::WaterCan), clock("2026-11-25 16:00")));
    assert!(hand.end("2026-11-25").rags().is_none());

    // Undone, done again, taken back.
    hand.done(&Action::Undo);
    assert!(hand.end("2026-11-25").rags().is_some());
    hand.done(&Action::Redo);
    assert!(hand.end("2026-11-25").rags().is_none());
    let untick = Action::UntickChore {
        day,
        chore: Chore::OilyRags,
    };
    hand.done(&untick);
    assert!(hand.end("2026-11-25").rags().is_some());
    assert!(hand.refused(&untick).contains("not ticked"));
}

#[test]
fn days_of_23_and_25_hours_are_days() {
    // Clocks go back on 1 November 2026 and forward on 8 March 2026 in this zone.
    for (day, first, last, after) in [
        (
            "2026-11-01",
            "2026-11-01 00:05",
            "2026-11-01 23:55",
            "2026-11-02 00:05",
        ),
        (
            "2026-03-08",
            "2026-03-08 00:05",
            "2026-03-08 23:55",
            "2026-03-09 00:05",
        ),
    ] {
        let mut hand = Hand::at("2026-02-20 09:00");
        let pieces: Vec<_> = ["a", "b", "c"].map(|name| hand.piece(name, OIL)).into();
        for piece in &pieces {
            hand.through_sanding(*piece);
        }
        for (piece, at) in pieces.iter().zip([first, last, after]) {
            hand.goes_on(at);
            hand.now += chrono::Duration::seconds(1);
            hand.pass(&[*piece], CoatKind::Topcoat);
        }
        let end = hand.end(day);
        let causes = &end.rags().expect("rags").causes;
        assert_eq!(causes.len(), 2, "{day}: {causes:?}");
        let hours = (clock(last) - clock(first)).num_hours();
        assert_eq!(hours, if day.contains("-11-") { 24 } else { 22 });
        assert_eq!(day_of(clock(last), crate::hand::ZONE), date(day));
    }
}
