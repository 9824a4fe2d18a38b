//! Lines of a log without rhyme or reason, between sensible ones.

use proptest::prelude::*;
use tackfree::coating::ProductId;
use tackfree::coating::id::Mint;
use tackfree::shape::FaceKey;
use tackfree::shop::{
    CoatKind, Grit, PassId, ScuffMeans, SetItem, Stage, TouchVerdict, What, ready_products,
};
use tackfree::units::{Area, Volume};
use uuid::Uuid;

/// One step of a sequence.
#[derive(Debug, Clone)]
pub enum Step {
    /// What a sensible person would do next, on so many of a hundred faces.
    Sensible(usize),
    /// Nothing for so many minutes.
    Later(i64),
    /// Any line, at so many minutes from now.
    Wild(What, i64),
}

fn face() -> impl Strategy<Value = FaceKey> {
    use FaceKey as F;
    prop_oneof![
        12 => prop::sample::select(vec![
            F::Top, F::Band, F::Field, F::Front, F::Back, F::Left, F::Right, F::Cutout(1), F::Hole(1),
        ]),
        2 => prop::sample::select(vec![F::Underside, F::Rim, F::Cutout(2), F::Hole(2)]),
        1 => any::<u8>().prop_map(F::Hole),
    ]
}

/// Most often one of the same few, so that a declaration and its withdrawal meet.
fn hidable() -> impl Strategy<Value = FaceKey> {
    let few = vec![FaceKey::Back, FaceKey::Left, FaceKey::Field];
    prop_oneof![3 => prop::sample::select(few), 1 => face()]
}

fn faces() -> impl Strategy<Value = Vec<FaceKey>> {
    prop_oneof![
        8 => prop::collection::btree_set(face(), 1..4).prop_map(|set| set.into_iter().collect()),
        1 => prop::collection::vec(face(), 0..4),
        1 => Just(crate::support::NINE.to_vec()),
    ]
}

fn grit() -> impl Strategy<Value = Grit> {
    prop_oneof![
        9 => prop::sample::select(vec![80, 80, 120, 120, 150, 180, 220]),
        1 => any::<u16>(),
    ]
    .prop_map(Grit)
}

/// The products are made the same every time, so their identifiers are known here.
fn product() -> impl Strategy<Value = ProductId> {
    let known = ready_products(&mut Mint::new(Uuid::nil(), 7), 0);
    let known: Vec<ProductId> = known.iter().map(|product| product.id).collect();
    prop_oneof![
        9 => prop::sample::select(known),
        1 => any::<u128>().prop_map(|id| ProductId(Uuid::from_u128(id))),
    ]
}

fn stage() -> impl Strategy<Value = Stage> {
    prop::sample::select(Stage::ALL.to_vec())
}

fn reason() -> impl Strategy<Value = String> {
    prop_oneof![
        1 => prop::sample::select(vec!["", "  ", "--", "x"]),
        3 => prop::sample::select(vec!["glued to the wall rail", "run", "a scratch"]),
    ]
    .prop_map(str::to_owned)
}

fn means() -> impl Strategy<Value = ScuffMeans> {
    prop_oneof![
        grit().prop_map(ScuffMeans::FinePaper),
        Just(ScuffMeans::Pad),
        Just(ScuffMeans::BrownPaper),
    ]
}

fn coat() -> impl Strategy<Value = What> {
    let products = ready_products(&mut Mint::new(Uuid::nil(), 7), 0);
    let fitting = prop::sample::select(products).prop_map(|product| {
        let kind = CoatKind::ALL
            .into_iter()
            .find(|kind| kind.product_kind() == product.kind);
        (kind.unwrap_or(CoatKind::Stain), product.id)
    });
    let any_kind = prop::sample::select(CoatKind::ALL.to_vec());
    let laid = prop_oneof![2 => fitting, 1 => (any_kind, product())];
    let hours = prop_oneof![4 => Just(0_i64), 1 => -3_i64..3];
    (laid, faces(), hours, any::<u128>()).prop_map(|((kind, product), faces, hours, pass)| {
        What::Coat {
            pass: PassId(Uuid::from_u128(pass)),
            kind,
            product,
            faces: faces
                .into_iter()
                .map(|key| (key, Area::from_m2(1.0)))
                .collect(),
            started: crate::support::morning() + chrono::Duration::hours(hours),
            used: Volume::from_ul(1),
        }
    })
}

fn wild() -> impl Strategy<Value = What> {
    let reshape = (
        prop::collection::vec(face(), 0..3),
        prop::collection::vec(face(), 0..5),
    );
    let sound = prop::sample::select(vec![
        (vec![FaceKey::Hole(2)], vec![]),
        (vec![FaceKey::Hole(1)], vec![FaceKey::Hole(1)]),
        (vec![], vec![FaceKey::Hole(1)]),
        (
            vec![FaceKey::Underside],
            vec![FaceKey::Band, FaceKey::Field],
        ),
        (
            vec![FaceKey::Band, FaceKey::Field],
            vec![FaceKey::Underside],
        ),
        (
            vec![FaceKey::Rim],
            vec![FaceKey::Front, FaceKey::Back, FaceKey::Left, FaceKey::Right],
        ),
    ]);
    prop_oneof![
        4 => (face(), grit()).prop_map(|(face, grit)| What::Tick { face, grit }),
        5 => (face(), grit()).prop_map(|(face, grit)| What::Untick { face, grit }),
        2 => faces().prop_map(|faces| What::Wipe { faces }),
        24 => coat(),
        2 => faces().prop_map(|faces| What::WipeOff { faces }),
        2 => (faces(), means()).prop_map(|(faces, means)| What::Scuff { faces, means }),
        3 => (faces(), prop::sample::select(TouchVerdict::ALL.to_vec()))
            .prop_map(|(faces, verdict)| What::Touch { faces, verdict }),
        3 => (faces(), grit(), reason())
            .prop_map(|(faces, to, reason)| What::SandBack { faces, to, reason }),
        3 => (hidable(), reason()).prop_map(|(face, reason)| What::NotExposed { face, reason }),
        10 => hidable().prop_map(|face| What::Exposed { face }),
        1 => prop_oneof![reshape, sound]
            .prop_map(|(added, removed)| What::Reshaped { added, removed }),
        8 => (stage(), stage()).prop_map(|(from, to)| What::Moved { from, to }),
        1 => (prop::sample::select(SetItem::ALL.to_vec()), any::<bool>())
            .prop_map(|(item, done)| What::SetList { item, done }),
    ]
}

/// Sequences in which the sensible steps have the upper hand.
pub fn steps() -> impl Strategy<Value = Vec<Step>> {
    let reach = prop_oneof![3 => Just(100_usize), 1 => 0_usize..100];
    let minutes = prop_oneof![3 => Just(0_i64), 1 => -3_000_i64..0, 1 => 1_i64..3_000];
    let step = prop_oneof![
        6 => reach.prop_map(Step::Sensible),
        1 => (0_i64..20_000).prop_map(Step::Later),
        4 => (wild(), minutes).prop_map(|(what, minutes)| Step::Wild(what, minutes)),
    ];
    prop::collection::vec(step, 10..80)
}
