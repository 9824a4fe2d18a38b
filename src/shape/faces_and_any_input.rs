//! Keys, codes, words, groups and grain of faces, and any input at all.

use proptest::prelude::*;

use super::{
    Construction, EdgeProfile, FaceGrain, FaceGroup, FaceKey, Opening, OpeningKind, Outline, Place,
    Purpose, Shape, ShapeDraft, Way,
};
use crate::units::Length;

#[test]
fn keys_have_words_codes_and_an_order() {
    let table = [
        (FaceKey::Top, "top", "top", FaceGroup::Show),
        (
            FaceKey::Underside,
            "underside",
            "underside",
            FaceGroup::Underside,
        ),
        (FaceKey::Band, "underside band", "band", FaceGroup::Show),
        (
            FaceKey::Field,
            "underside field",
            "field",
            FaceGroup::Underside,
        ),
        (FaceKey::Front, "front edge", "front", FaceGroup::Show),
        (FaceKey::Back, "back edge", "back", FaceGroup::Show),
        (FaceKey::Left, "left end", "left", FaceGroup::EndGrain),
        (FaceKey::Right, "right end", "right", FaceGroup::EndGrain),
        (FaceKey::Rim, "rim", "rim", FaceGroup::EndGrain),
        (
            FaceKey::Cutout(1),
            "cutout 1 wall",
            "cutout-1",
            FaceGroup::EndGrain,
        ),
        (
            FaceKey::Cutout(12),
            "cutout 12 wall",
            "cutout-12",
            FaceGroup::EndGrain,
        ),
        (
            FaceKey::Hole(3),
            "hole 3 wall",
            "hole-3",
            FaceGroup::EndGrain,
        ),
    ];
    assert!(table.is_sorted_by_key(|row| row.0));
    for (key, words, code, group) in table {
        assert_eq!(
            (key.to_string().as_str(), key.code().as_str()),
            (words, code)
        );
        assert_eq!((code.parse(), key.group()), (Ok(key), group));
        let json = serde_json::to_string(&key).unwrap();
        assert_eq!(json, format!("\"{code}\""));
        assert_eq!(serde_json::from_str::<FaceKey>(&json).unwrap(), key);
    }
    for bad in [
        "", "Top", "hole", "hole-", "hole-01", "hole-+1", "hole-256", "rim-1", "cutout 1",
    ] {
        assert!(bad.parse::<FaceKey>().is_err(), "{bad}");
    }
}

#[test]
fn grain_follows_from_the_construction() {
    use FaceGrain::{EndGrain as End, Face as Wide, LongGrain as Long, Mixed};
    let ways = [Way::Flat, Way::Long, Way::Across, Way::Mixed];
    for (construction, want) in [
        (Construction::FaceGrain, [Wide, Long, End, Mixed]),
        (Construction::SolidSlab, [Wide, Long, End, Mixed]),
        (Construction::EdgeGrain, [Long, Wide, End, Mixed]),
        (Construction::EndGrain, [End, Long, Long, Long]),
    ] {
        assert_eq!(
            ways.map(|way| construction.grain_of(way)),
            want,
            "{construction}"
        );
    }
}

proptest! {
    #[test]
    fn nothing_typed_makes_it_stumble(draft in wild()) {
        let written = serde_json::to_string(&draft).unwrap();
        let read = serde_json::from_str::<Shape>(&written);
        match Shape::try_from(draft) {
            Ok(shape) => {
                for construction in Construction::ALL {
                    let faces = shape.faces(construction);
                    prop_assert!(faces.iter().all(|face| face.area.m2() > 0.0));
                }
                prop_assert!(shape.volume_board_feet() > 0.0 && shape.perimeter() > 0.0);
                prop_assert_eq!(read.unwrap(), shape);
            }
            Err(refusal) => {
                let words = refusal.to_string();
                prop_assert!(words.ends_with('.') && words.starts_with(char::is_uppercase));
                prop_assert!(read.is_err());
            }
        }
    }
}

/// Mostly a length in this range of 64ths; now and then any number at all, or one around nothing.
fn mostly(range: std::ops::Range<i64>) -> impl Strategy<Value = Length> {
    prop_oneof![
        1 => any::<i64>().prop_map(Length::from_nm),
        1 => (-3..4i64).prop_map(Length::from_nm),
        40 => range.prop_map(Length::from_64ths),
    ]
}

fn wild() -> impl Strategy<Value = ShapeDraft> {
    let outline = prop_oneof![
        (mostly(1500..6400), mostly(1500..6400))
            .prop_map(|(length, width)| Outline::Rectangle { length, width }),
        mostly(2000..6400).prop_map(|diameter| Outline::Circle { diameter }),
    ];
    let profile = prop_oneof![
        3 => Just(EdgeProfile::Square),
        1 => mostly(1..100).prop_map(EdgeProfile::Eased),
        1 => mostly(1..100).prop_map(EdgeProfile::RoundOver),
        1 => mostly(1..100).prop_map(EdgeProfile::Chamfer),
    ];
    let what = prop_oneof![
        mostly(10..500).prop_map(|diameter| OpeningKind::Hole { diameter }),
        (mostly(10..800), mostly(10..800), mostly(0..50)).prop_map(
            |(width, depth, corner_radius)| OpeningKind::Cutout {
                width,
                depth,
                corner_radius
            }
        ),
    ];
    let opening =
        (0..40u8, mostly(300..4000), mostly(300..2000), what).prop_map(|(no, x, y, what)| {
            Opening {
                no,
                place: Place { x, y },
                what,
                purpose: Purpose::Plain,
                profile: EdgeProfile::Square,
            }
        });
    let openings = prop::collection::vec(opening, 0..4);
    let band = prop::option::of(mostly(1..700));
    (outline, mostly(60..200), profile, openings, band).prop_map(
        |(outline, thickness, profile, openings, band)| ShapeDraft {
            outline,
            thickness,
            profile,
            openings,
            band,
            band_round_openings: false,
        },
    )
}
