//! Whatever is pressed or pasted, a form answers and never falls over.

use crate::hands::{open, piece_id, sealed, two_tops};
use crate::shop::{job_id, now};
use proptest::prelude::*;
use tackfree::desk::{Shop, Which};
use tackfree::shape::FaceKey;
use tackfree::shop::{ClientId, CoatKind, JobId, PassId, PieceId, RecipeId};
use tackfree::tui::forms::FormKind;
use tackfree::tui::kit::Key;
use tackfree::tui::kit::form::FormAction;
use uuid::Uuid;

fn kinds(shop: &Shop) -> Vec<FormKind> {
    let nobody = Uuid::from_u128(1);
    let both = vec![piece_id(0), piece_id(1)];
    let gone = vec![PieceId(nobody)];
    vec![
        FormKind::Client(Which::New),
        FormKind::Client(Which::This(ClientId(nobody))),
        FormKind::Job(Which::New, None),
        FormKind::Job(Which::This(JobId(nobody)), None),
        FormKind::Piece(Which::New, None),
        FormKind::Piece(Which::New, Some(job_id())),
        FormKind::Piece(Which::This(piece_id(0)), None),
        FormKind::Recipe(Which::New, Some(RecipeId(nobody))),
        FormKind::Recipe(Which::This(shop.recipes[1].id), None),
        FormKind::Product(Which::New),
        FormKind::Product(Which::This(shop.products[0].id)),
        FormKind::Settings,
        FormKind::Pass {
            pieces: both.clone(),
            kind: CoatKind::Topcoat,
        },
        FormKind::Pass {
            pieces: vec![piece_id(0)],
            kind: CoatKind::Topcoat,
        },
        FormKind::Pass {
            pieces: gone.clone(),
            kind: CoatKind::Stain,
        },
        FormKind::Pass {
            pieces: Vec::new(),
            kind: CoatKind::Seal,
        },
        FormKind::Wipe {
            pieces: both.clone(),
        },
        FormKind::WipeOff {
            pieces: vec![piece_id(1)],
        },
        FormKind::Scuff {
            pieces: both.clone(),
        },
        FormKind::Touch { pieces: gone },
        FormKind::Touch { pieces: both },
        FormKind::SandBack {
            piece: piece_id(0),
            faces: vec![FaceKey::Top, FaceKey::Hole(9)],
        },
        FormKind::SandBack {
            piece: PieceId(nobody),
            faces: Vec::new(),
        },
        FormKind::Hidden { piece: piece_id(0) },
        FormKind::CorrectPass(shop.passes[0].id),
        FormKind::CorrectPass(PassId(nobody)),
    ]
}

fn key() -> impl Strategy<Value = Key> {
    let named = prop::sample::select(vec![
        Key::Enter,
        Key::Tab,
        Key::BackTab,
        Key::Up,
        Key::Down,
        Key::Left,
        Key::Right,
        Key::Home,
        Key::End,
        Key::PageUp,
        Key::PageDown,
        Key::Backspace,
        Key::Delete,
        Key::Esc,
        Key::F(2),
        Key::Ctrl('u'),
        Key::Ctrl('w'),
        Key::Ctrl('s'),
        Key::WordLeft,
        Key::Char(' '),
        Key::Char('*'),
    ]);
    prop_oneof![
        3 => named,
        3 => prop::sample::select("0123456789/ x;:,.'\">-artyn".chars().collect::<Vec<_>>())
            .prop_map(Key::Char),
        1 => any::<char>().prop_map(Key::Char),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]
    #[test]
    fn any_keys(which in 0_usize..26, keys in prop::collection::vec(key(), 0..60), pasted in ".{0,30}") {
        let mut shop = two_tops();
        sealed(&mut shop, 0, 5);
        let all = kinds(&shop);
        let mut form = open(all[which].clone(), &shop);
        form.paste(&pasted, &shop, now());
        for key in keys {
            if form.key(&key, &shop, now()) == FormAction::Submit
                && form.submit(&shop, now()).is_none()
            {
                // Nothing is refused without a word.
                let told = form.form.first_error().is_some() || !form.trouble.is_empty();
                prop_assert!(told, "{:?}", form.kind);
            }
        }
    }
}

#[test]
fn every_kind_is_tried() {
    let mut shop = two_tops();
    sealed(&mut shop, 0, 5);
    assert_eq!(kinds(&shop).len(), 26);
}
