//! Passes, wipes, scuffs, touch tests, sand-backs and corrections by keys.

use crate::hands::{act, echo, errors, keys, log, open, piece_id, press, sand, sealed, two_tops};
use crate::passes::pass;
use crate::shop::now;
use chrono::Duration;
use tackfree::desk::{Action, FacePick};
use tackfree::shape::FaceKey;
use tackfree::shop::{CoatKind, Grit, ScuffMeans, Settings, Stage, TouchVerdict, What};
use tackfree::tui::forms::FormKind;

#[test]
fn nothing_ticked_is_told() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    let mut form = open(pass(&[0], CoatKind::Topcoat), &shop);
    press(&mut form, &shop, "*<F2>");
    assert_eq!(form.submit(&shop, now()), None);
    assert_eq!(
        errors(&form),
        [(
            "faces",
            "No face is ticked: tick at least one with space, or all with *.".to_owned()
        )]
    );
}

#[test]
fn the_wipe_down_and_the_wipe_off() {
    let mut shop = two_tops();
    sand(&mut shop, 0, now() - Duration::hours(9));
    let all = keys(&shop, 0);
    let pieces = vec![piece_id(0)];
    let picks = vec![FacePick {
        piece: piece_id(0),
        faces: Some(all.clone()),
    }];
    let action = act(
        FormKind::Wipe {
            pieces: pieces.clone(),
        },
        &shop,
        "<enter>10 min ago<enter>",
    );
    let at = now() - Duration::minutes(10);
    assert_eq!(
        action,
        Action::Wipe {
            picks: picks.clone(),
            at
        }
    );

    let stain = shop.recipes[1].schedule.stain.unwrap();
    crate::hands::coat(
        &mut shop,
        0,
        CoatKind::Stain,
        stain,
        now() - Duration::hours(1),
    );
    let off = FaceKey::Front;
    log(&mut shop, 0, now(), What::WipeOff { faces: vec![off] });
    let action = act(FormKind::WipeOff { pieces }, &shop, "<F2>");
    let faces = all.into_iter().filter(|key| *key != off).collect();
    let picks = vec![FacePick {
        piece: piece_id(0),
        faces: Some(faces),
    }];
    assert_eq!(action, Action::WipeOff { picks, at: now() });
}

#[test]
fn a_scuff() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    let kind = FormKind::Scuff {
        pieces: vec![piece_id(0)],
    };
    let Action::Scuff { picks, means, at } = act(kind.clone(), &shop, "<F2>") else {
        panic!()
    };
    assert_eq!((means, at), (ScuffMeans::FinePaper(Grit(320)), now()));
    assert_eq!(picks[0].faces, Some(keys(&shop, 0)));
    let Action::Scuff { means, .. } = act(kind, &shop, "<enter>synth<F2>") else {
        panic!()
    };
    assert_eq!(means, ScuffMeans::Pad);
}

#[test]
fn a_touch_test_must_say_what_it_found() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 1);
    let kind = FormKind::Touch {
        pieces: vec![piece_id(0)],
    };
    let mut form = open(kind.clone(), &shop);
    press(&mut form, &shop, "<F2>");
    assert_eq!(form.submit(&shop, now()), None);
    assert_eq!(form.form.focused(), "verdict");
    let Action::Touch { verdict, picks, .. } = act(kind, &shop, "tack<F2>") else {
        panic!()
    };
    assert_eq!(verdict, TouchVerdict::TackFree);
    assert_eq!(picks[0].faces, Some(keys(&shop, 0)));
}

#[test]
fn a_sand_back() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    let kind = FormKind::SandBack {
        piece: piece_id(0),
        faces: vec![FaceKey::Top],
    };
    let mut form = open(kind.clone(), &shop);
    assert_eq!(
        form.form.choice("to"),
        Some("180"),
        "the finest the top carries"
    );
    assert_eq!(echo(&form, "to"), "takes back 1 coat on these faces");
    press(&mut form, &shop, "<enter><enter>a<F2>");
    assert_eq!(form.submit(&shop, now()), None);
    assert_eq!(errors(&form)[0].0, "reason");
    let action = act(
        kind,
        &shop,
        "<down><space><enter>120<enter>run by the sink<enter><enter>",
    );
    let expected = Action::SandBack {
        piece: piece_id(0),
        faces: vec![FaceKey::Top, FaceKey::Underside],
        to: Grit(120),
        reason: "run by the sink".into(),
        at: now(),
    };
    assert_eq!(action, expected);
}

#[test]
fn a_face_not_exposed() {
    let shop = two_tops();
    let kind = FormKind::Hidden { piece: piece_id(0) };
    let action = act(kind, &shop, "back<enter>glued to the ledger<enter>");
    let expected = Action::DeclareHidden {
        piece: piece_id(0),
        face: FaceKey::Back,
        reason: "glued to the ledger".into(),
    };
    assert_eq!(action, expected);
}

#[test]
fn the_hints_and_words_are_of_the_shops_units() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    shop.settings = Settings {
        ..crate::shop::metric().settings
    };
    let form = open(pass(&[0], CoatKind::Topcoat), &shop);
    assert_eq!(echo(&form, "faces"), "6 faces, 3.21 m2");
    assert_eq!(
        echo(&form, "amount"),
        "estimate 209 mL at the label's spread rate"
    );
    assert_eq!(
        Stage::Topcoats,
        tackfree::shop::Ticket::of(&shop.files[0]).stage
    );
}
