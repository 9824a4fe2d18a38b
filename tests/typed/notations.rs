//! The notations read as meant, and what was understood is said.

use super::shop::{metric, now, shop, today};
use tackfree::coating::{FigureBasis, Product, ProductId, RecoatWindow, Span};
use tackfree::desk::AmountDraft;
use tackfree::desk::typed::{
    Onto, ProductTyped, SpanUnit, echo_amount, echo_cutouts, echo_promise, echo_size, echo_windows,
    read_amount, read_cutouts, read_faces, read_holes, read_product, read_profile, read_scuff,
    read_size, read_span, read_verdict, read_when, read_windows,
};
use tackfree::shape::{EdgeProfile, FaceKey, OpeningKind, Outline};
use tackfree::shop::{Grit, ScuffMeans, TouchVerdict};
use tackfree::units::{Length, Mass, Volume};
use uuid::Uuid;

#[test]
fn figures_come_back_as_a_label_gives_them() {
    let shop = shop();
    let typed = ProductTyped {
        name: "wiping varnish".into(),
        family: "oil wiping".into(),
        spread: "625 sq ft/gal".into(),
        density: "7.2 lb/gal".into(),
        min_temp: "55".into(),
        can: "1 qt".into(),
        ..ProductTyped::default()
    };
    let draft = read_product(&typed, &shop).unwrap();
    assert_eq!(
        draft.basis,
        FigureBasis::FamilyRange,
        "most figures were left empty"
    );
    let product = Product {
        id: ProductId(Uuid::nil()),
        name: draft.name,
        kind: draft.kind,
        family: draft.family,
        basis: draft.basis,
        label: draft.label,
        can: draft.can,
        price: draft.price,
    };
    let back = ProductTyped::of(&product, &shop);
    assert_eq!(
        (
            back.spread.as_str(),
            back.density.as_str(),
            back.min_temp.as_str(),
            back.can.as_str()
        ),
        ("625 sq ft/gal", "7.2 lb/gal", "55 F", "1 qt")
    );
    assert_eq!(back.windows, "6 h to 24 h");
}

fn inches(whole: i64, num: i64, den: i64) -> Length {
    Length::from_inches(whole, num, den).unwrap()
}

#[test]
fn sizes_are_read_in_every_way_of_writing() {
    let settings = shop().settings;
    let counter = Outline::Rectangle {
        length: inches(98, 3, 8),
        width: inches(25, 1, 2),
    };
    for text in [
        "98 3/8 x 25 1/2",
        "98-3/8x25-1/2",
        "8' 2 3/8\" X 2' 1 1/2\"",
        "8-2 3/8 × 2-1 1/2",
        "98.375in x 25.5in",
        "98 3/8 by 25 1/2 in",
        "98⅜ x 25½\"",
    ] {
        assert_eq!(read_size(text, &settings), Ok(counter.clone()), "{text}");
    }
    let metric = metric().settings;
    let counter = Outline::Rectangle {
        length: Length::from_mm(2500),
        width: Length::from_mm(640),
    };
    for text in [
        "2500mm x 640mm",
        "2500 x 640 mm",
        "250 cm x 64 cm",
        "2.5 x 0.64 m",
    ] {
        assert_eq!(read_size(text, &settings), Ok(counter.clone()), "{text}");
    }
    assert_eq!(read_size("2500 x 640", &metric), Ok(counter));
    let round = Outline::Circle {
        diameter: inches(36, 0, 1),
    };
    for text in ["round 36", "36 round", "dia 36\"", "Ø 36", "round: 3'"] {
        assert_eq!(read_size(text, &settings), Ok(round.clone()), "{text}");
    }
    assert_eq!(
        read_profile("Round over 1/4", &settings),
        Ok(EdgeProfile::RoundOver(inches(0, 1, 4)))
    );
    assert_eq!(
        read_profile("e 1/16", &settings),
        Ok(EdgeProfile::Eased(inches(0, 1, 16)))
    );
    assert_eq!(
        read_profile("chamfer-1/8", &settings)
            .map(EdgeProfile::reach)
            .ok(),
        None
    );
}

#[test]
fn openings_keep_their_numbers() {
    let settings = shop().settings;
    let numbers = |text: &str| -> Vec<u8> {
        read_cutouts(text, Onto::default(), &settings)
            .unwrap()
            .iter()
            .map(|opening| opening.no)
            .collect()
    };
    assert_eq!(numbers("20 x 10 at 20, 12; 20 x 10 at 60, 12"), [1, 2]);
    assert_eq!(numbers("2: 20 x 10 at 60, 12"), [2]);
    assert_eq!(numbers("2: 20 x 10 at 20, 12; 20 x 10 at 60, 12;"), [2, 3]);
    assert_eq!(numbers("30x16r3/4at49 1/4,12 3/4"), [1]);
    let holes = read_holes(
        "1 3/8 at 60, 22 1/2; 35 mm @ 64, 22 1/2",
        Onto::default(),
        &settings,
    )
    .unwrap();
    assert_eq!(
        holes[1].what,
        OpeningKind::Hole {
            diameter: Length::from_mm(35)
        }
    );
    assert_eq!(holes[1].no, 2);
}

#[test]
fn what_was_understood_is_said() {
    let settings = shop().settings;
    assert_eq!(
        echo_size("98 3/8 x 25 1/2", &settings).unwrap(),
        "8' 2 3/8\" x 2' 1 1/2\", 17.4 sq ft"
    );
    assert_eq!(
        echo_cutouts(
            "30 x 16 r 3/4 at 49 1/4, 12 3/4",
            Onto::default(),
            &settings
        )
        .unwrap(),
        "cutout 1: 30\" x 16\", corner radius 3/4\", centre 49 1/4\" from left, 12 3/4\" from front"
    );
    assert_eq!(
        echo_windows("30 min to 2 h; scuff 6 days on").unwrap(),
        "next coat 30 min to 2 h, or from 6 days on, scuffed"
    );
    assert_eq!(
        echo_amount("", Some(Volume::from_us_fl_oz(1.2)), &settings).unwrap(),
        "estimate 1.2 fl oz at the label's spread rate"
    );
    assert_eq!(
        echo_promise("Mar 20", today()).unwrap(),
        "Fri Mar 20, in 14 days"
    );
    assert_eq!(echo_size("25 1/0", &settings), None);
}

#[test]
fn work_is_read_as_meant() {
    let settings = shop().settings;
    let weighed = AmountDraft::Weighed {
        before: Mass::from_g(1042.0),
        after: Mass::from_g(884.0),
    };
    for text in [
        "1042 g > 884 g",
        "1042 > 884 g",
        "1042>884g",
        "1042 g -> 884 g",
        "1.042 kg > 884 g",
    ] {
        assert_eq!(read_amount(text, &settings), Ok(weighed), "{text}");
    }
    for text in ["", " estimate", "est"] {
        assert_eq!(read_amount(text, &settings), Ok(AmountDraft::Estimate));
    }
    assert_eq!(
        read_amount("120 mL", &settings),
        Ok(AmountDraft::Volume(Volume::from_ml(120.0)))
    );
    assert_eq!(read_when("", now(), settings.zone), Ok(now()));
    assert_eq!(
        read_scuff("320 fine paper"),
        Ok(Some(ScuffMeans::FinePaper(Grit(320))))
    );
    assert_eq!(read_scuff("brown"), Ok(Some(ScuffMeans::BrownPaper)));
    assert_eq!(read_scuff("none"), Ok(None));
    assert_eq!(read_verdict("dry to recoat"), Ok(TouchVerdict::DryToRecoat));
    assert_eq!(read_verdict("tack"), Ok(TouchVerdict::TackFree));
    let keys = [
        FaceKey::Top,
        FaceKey::Band,
        FaceKey::Field,
        FaceKey::Left,
        FaceKey::Right,
    ];
    assert_eq!(read_faces("all", &keys), Ok(Some(keys.to_vec())));
    assert_eq!(read_faces("", &keys), Ok(None));
    assert_eq!(
        read_faces("underside, Left end", &keys),
        Ok(Some(vec![FaceKey::Band, FaceKey::Field, FaceKey::Left]))
    );
    assert_eq!(
        read_faces("ri, top", &keys),
        Ok(Some(vec![FaceKey::Top, FaceKey::Right]))
    );
    assert_eq!(
        read_windows("6 to 24 h").unwrap(),
        [RecoatWindow {
            opens: Span::hours(6),
            closes: Some(Span::hours(24)),
            scuff: false
        }]
    );
    assert_eq!(
        read_span("full_cure", "3", Some(SpanUnit::Days)),
        Ok(Span::days(3))
    );
}
