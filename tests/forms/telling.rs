//! When errors show, where the desk's refusals go, and when they go away again.

use crate::hands::{errors, open, piece_id, press, two_tops};
use crate::shop::{job_id, now, shop};
use tackfree::desk::{DeskError, Refusal, Which};
use tackfree::shape::{FaceKey, OpeningName, ShapeError};
use tackfree::shop::{Blocker, CoatKind, Grit, ScheduleError};
use tackfree::tui::forms::FormKind;
use tackfree::units::Length;

#[test]
fn a_field_is_not_found_fault_with_while_it_is_typed() {
    let shop = shop();
    let mut form = open(FormKind::Piece(Which::New, Some(job_id())), &shop);
    press(&mut form, &shop, "top<enter>98 3/");
    assert_eq!(errors(&form), []);
    press(&mut form, &shop, "<enter>");
    assert_eq!(errors(&form).len(), 1, "left, so it is told");
    press(&mut form, &shop, "ash<up>");
    assert_eq!(errors(&form).len(), 1, "come back to, it still says why");
    press(&mut form, &shop, "8");
    assert_eq!(errors(&form), [], "typed at again");
    press(&mut form, &shop, " x 25<enter>");
    assert_eq!(errors(&form), []);
}

#[test]
fn a_submit_tells_every_error_and_goes_to_the_first() {
    let shop = shop();
    let mut form = open(FormKind::Piece(Which::New, Some(job_id())), &shop);
    press(&mut form, &shop, "<enter><enter>ash<F2>");
    assert_eq!(form.submit(&shop, now()), None);
    let fields: Vec<&str> = errors(&form).iter().map(|(field, _)| *field).collect();
    assert_eq!(fields, ["name", "size"]);
    assert_eq!(form.form.focused(), "name");
}

#[test]
fn a_cutout_over_the_edge_is_told_at_the_cutouts() {
    let shop = shop();
    let mut form = open(FormKind::Piece(Which::New, Some(job_id())), &shop);
    press(
        &mut form,
        &shop,
        "top<enter>60 x 24<enter>ash<pgdn><up><up>30 x 16 at 50, 12<F2>",
    );
    assert_eq!(form.submit(&shop, now()), None);
    assert_eq!(
        errors(&form),
        [(
            "cutouts",
            "Cutout 1 reaches 5\" past the right end: move it in, or make it smaller.".to_owned()
        )]
    );
}

#[test]
fn a_profile_too_high_is_told_where_its_size_is() {
    let shop = shop();
    let mut form = open(FormKind::Piece(Which::New, Some(job_id())), &shop);
    press(&mut form, &shop, "top<enter>60 x 24<enter>ash<F2>");
    form.form.focus("profile");
    press(&mut form, &shop, "chamf<enter>2<F2>");
    assert_eq!(form.submit(&shop, now()), None);
    assert_eq!(errors(&form)[0].0, "profile_size");
}

#[test]
fn what_the_desk_says_stays_until_the_field_is_changed() {
    let shop = shop();
    let mut form = open(FormKind::Recipe(Which::New, None), &shop);
    press(&mut form, &shop, "clear wiped film<F2>");
    assert!(form.submit(&shop, now()).is_some());
    let taken = DeskError::NameTaken {
        what: "recipe",
        name: "clear wiped film".into(),
    };
    form.refused(&taken, now(), shop.settings.zone);
    assert_eq!(form.form.focused(), "name");
    press(&mut form, &shop, "<down><down>");
    assert_eq!(errors(&form), [("name", taken.to_string())]);
    press(&mut form, &shop, "<up><up> 2<down>");
    assert_eq!(errors(&form), []);
}

#[test]
fn refusals_go_to_their_fields() {
    let shop = two_tops();
    let zone = shop.settings.zone;
    let at = |kind: FormKind, error: DeskError| {
        let mut form = open(kind, &shop);
        form.refused(&error, now(), zone);
        let fields: Vec<&'static str> = errors(&form).into_iter().map(|(field, _)| field).collect();
        (fields, form.trouble)
    };
    let piece = || FormKind::Piece(Which::New, Some(job_id()));
    let pass = || FormKind::Pass {
        pieces: vec![piece_id(0)],
        kind: CoatKind::Seal,
    };
    let none: Vec<String> = Vec::new();
    for (kind, error, field) in [
        (
            piece(),
            DeskError::Shape(ShapeError::Crossing {
                first: OpeningName::Cutout(1),
                second: OpeningName::Hole(1),
            }),
            "holes",
        ),
        (
            piece(),
            DeskError::Shape(ShapeError::TooThin {
                given: Length::ZERO,
                least: Length::ZERO,
            }),
            "thickness",
        ),
        (piece(), DeskError::Started("1A".into()), "recipe"),
        (
            FormKind::Client(Which::New),
            DeskError::TooLong {
                what: "The client's notes",
                most: 4000,
                has: 4001,
            },
            "notes",
        ),
        (
            FormKind::Recipe(Which::New, None),
            DeskError::Schedule(ScheduleError::Grits {
                group: "underside",
                grit: Grit(9),
            }),
            "under_grits",
        ),
        (pass(), DeskError::NothingUsed, "amount"),
        (
            pass(),
            DeskError::WrongProduct {
                product: "x".into(),
                is: "stain",
                needs: "sealer",
            },
            "product",
        ),
        (
            FormKind::Product(Which::New),
            DeskError::WrongProduct {
                product: "x".into(),
                is: "stain",
                needs: "sealer",
            },
            "kind",
        ),
    ] {
        assert_eq!(at(kind, error), (vec![field], none.clone()));
    }
    let refusals = vec![Refusal {
        piece: "1A sink top".into(),
        blockers: vec![Blocker::GritMissing {
            face: FaceKey::Left,
            grit: Grit(150),
        }],
        teaching: None,
    }];
    let refused = DeskError::Refused {
        what: "The pass".into(),
        refusals,
    };
    let (fields, trouble) = at(pass(), refused);
    assert!(fields.is_empty());
    assert_eq!(
        trouble,
        [
            "The pass was refused: 1A sink top, 1 reason",
            "- left end: 150 grit not done"
        ]
    );
}

#[test]
fn a_paste_that_does_not_belong_says_so() {
    let shop = two_tops();
    let mut form = open(
        FormKind::Wipe {
            pieces: vec![piece_id(0)],
        },
        &shop,
    );
    form.paste("top", &shop, now());
    assert_eq!(errors(&form)[0].0, "faces");
}

#[test]
fn pasted_control_characters_are_left_out() {
    let shop = shop();
    let mut form = open(FormKind::Client(Which::New), &shop);
    form.paste("Ada\u{1b}[31m\u{7} 山田\n", &shop, now());
    assert!(form.submit(&shop, now()).is_some());
    assert!(form.form.text("name").chars().all(|c| !c.is_control()));
}
