//! Passes: the form filled in, and what it comes to.

use crate::hands::{act, echo, errors, keys, open, piece_id, press, sealed, two_tops};
use crate::shop::now;
use chrono::Duration;
use tackfree::desk::{Action, AmountDraft, FacePick, PassDraft};
use tackfree::shop::{CoatKind, Grit, ScuffMeans};
use tackfree::tui::forms::FormKind;
use tackfree::units::{Mass, Volume};
pub fn pass(pieces: &[u32], kind: CoatKind) -> FormKind {
    FormKind::Pass {
        pieces: pieces.iter().map(|no| piece_id(*no)).collect(),
        kind,
    }
}

#[test]
fn a_pass_in_one_key() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    let action = act(pass(&[0], CoatKind::Topcoat), &shop, "<F2>");
    let faces = Some(keys(&shop, 0));
    let draft = PassDraft {
        picks: vec![FacePick {
            piece: piece_id(0),
            faces,
        }],
        kind: CoatKind::Topcoat,
        product: None,
        started: now(),
        ended: now(),
        amount: AmountDraft::Estimate,
        air: None,
        scuffed_first: None,
        drawn: tackfree::desk::DrawnDraft::default(),
    };
    assert_eq!(action, Action::LogPass(draft));
}

#[test]
fn a_pass_with_everything_said() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    let mut form = open(pass(&[0], CoatKind::Topcoat), &shop);
    assert_eq!(form.form.title, "Coat 1 of 4: 1A sink top");
    // All faces are due: 2 of 16 sq ft, 2 edges of 1 sq ft, 2 ends of 0.25 sq ft.
    assert_eq!(echo(&form, "faces"), "6 faces, 34.5 sq ft");
    // 34.5 sq ft at 15.3 m2/L, the family's figure: 209 mL, 7.1 US fl oz.
    assert_eq!(
        echo(&form, "amount"),
        "estimate 7.1 fl oz at the label's spread rate"
    );
    assert_eq!(echo(&form, "started"), "now, 12:00 pm");
    press(
        &mut form,
        &shop,
        "<space><enter>brushing<enter>brown<enter>25 min ago<enter>5 min ago<enter>",
    );
    press(&mut form, &shop, "1042 > 884 g<enter>68F 45<F2>");
    assert_eq!(echo(&form, "amount"), "158 g weighed");
    assert_eq!(echo(&form, "air"), "68 F, 45%");
    let Some(Action::LogPass(draft)) = form.submit(&shop, now()) else {
        panic!("{:?}", errors(&form))
    };
    let brushing = shop
        .products
        .iter()
        .find(|one| one.name == "brushing varnish")
        .unwrap();
    assert_eq!(draft.product, Some(brushing.id));
    assert_eq!(
        draft.picks[0].faces.as_ref().unwrap().len(),
        5,
        "the top was unticked"
    );
    assert_eq!(draft.scuffed_first, Some(ScuffMeans::BrownPaper));
    assert_eq!(
        (now() - draft.started, now() - draft.ended),
        (Duration::minutes(25), Duration::minutes(5))
    );
    let weighed = AmountDraft::Weighed {
        before: Mass::from_g(1042.0),
        after: Mass::from_g(884.0),
    };
    assert_eq!(draft.amount, weighed);
    assert_eq!(
        draft.air.unwrap().humidity.percent().to_bits(),
        45.0_f64.to_bits()
    );
}

#[test]
fn the_scuff_the_schedule_asks_for_is_set_before() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 30);
    let form = open(pass(&[0], CoatKind::Topcoat), &shop);
    assert_eq!(
        form.form.choice("scuff"),
        Some("none"),
        "a seal coat needs no scuff"
    );
    let topcoat = shop.recipes[0].schedule.topcoat.unwrap();
    crate::hands::coat(
        &mut shop,
        0,
        CoatKind::Topcoat,
        topcoat,
        now() - Duration::hours(8),
    );
    let form = open(pass(&[0], CoatKind::Topcoat), &shop);
    assert_eq!(
        form.form.choice("scuff"),
        Some("320"),
        "between topcoats the recipe scuffs"
    );
    // Bare wood is not scuffed, so nothing is asked.
    let bare = open(pass(&[1], CoatKind::Seal), &shop);
    assert!(bare.form.field("scuff").is_none());
}

#[test]
fn a_missed_window_wants_more_than_brown_paper() {
    let mut shop = two_tops();
    shop.files[0].schedule.scuff = Some(ScuffMeans::BrownPaper);
    sealed(&mut shop, 0, 60);
    let topcoat = shop.recipes[0].schedule.topcoat.unwrap();
    crate::hands::coat(
        &mut shop,
        0,
        CoatKind::Topcoat,
        topcoat,
        now() - Duration::hours(50),
    );
    let action = act(pass(&[0], CoatKind::Topcoat), &shop, "<F2>");
    let Action::LogPass(draft) = action else {
        panic!("{action:?}")
    };
    assert_eq!(draft.scuffed_first, Some(ScuffMeans::FinePaper(Grit(320))));
}

#[test]
fn one_pass_over_two_pieces() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    sealed(&mut shop, 1, 5);
    let mut form = open(pass(&[0, 1], CoatKind::Topcoat), &shop);
    assert_eq!(form.form.title, "Coat: 2 pieces");
    assert_eq!(echo(&form, "faces"), "12 faces, 69.0 sq ft");
    press(&mut form, &shop, "<F2>");
    let Some(Action::LogPass(draft)) = form.submit(&shop, now()) else {
        panic!("{:?}", errors(&form))
    };
    let picks = [0, 1].map(|no| FacePick {
        piece: piece_id(no),
        faces: None,
    });
    assert_eq!(draft.picks, picks);
    press(&mut form, &shop, "every");
    let Some(Action::LogPass(draft)) = form.submit(&shop, now()) else {
        panic!("{:?}", errors(&form))
    };
    let every: Vec<_> = [0, 1].map(|no| Some(keys(&shop, no))).into();
    let faces: Vec<_> = draft.picks.into_iter().map(|pick| pick.faces).collect();
    assert_eq!(faces, every);
}

#[test]
fn a_pass_that_ends_before_it_starts() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    let mut form = open(pass(&[0], CoatKind::Topcoat), &shop);
    press(
        &mut form,
        &shop,
        "<enter><enter><enter>5 min ago<enter>20 min ago<F2>",
    );
    assert_eq!(form.submit(&shop, now()), None);
    assert_eq!(form.form.focused(), "ended");
    assert_eq!(
        errors(&form),
        [(
            "ended",
            "The pass ends before it starts: look at the two times again.".to_owned()
        )]
    );
}

#[test]
fn a_pass_corrected() {
    let mut shop = two_tops();
    let id = sealed(&mut shop, 0, 5);
    let mut form = open(FormKind::CorrectPass(id), &shop);
    assert_eq!(
        form.form.text("amount"),
        "120 mL",
        "ounces would not hold it exactly"
    );
    press(&mut form, &shop, "<ctrl-u>5 oz<enter>");
    assert!(echo(&form, "amount").starts_with("5 fl oz measured; the label's rate makes it "));
    let amount = AmountDraft::Volume(Volume::from_us_fl_oz(5.0));
    assert_eq!(
        form.submit(&shop, now()),
        Some(Action::CorrectPass { pass: id, amount })
    );
}
