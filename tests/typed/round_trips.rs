//! What is written is read back as the same, and the notations read as meant.

use super::shop::{job_id, metric, now, shop, today};
use proptest::prelude::*;
use tackfree::coating::{
    Family, FigureBasis, LabelFigures, Product, ProductId, ProductKind, RecoatWindow, Span,
};
use tackfree::desk::typed::{
    PieceTyped, ProductTyped, RecipeTyped, SettingsTyped, SpanUnit, echo_amount, echo_cutouts,
    echo_promise, echo_size, echo_windows, read_amount, read_cutouts, read_faces, read_holes,
    read_piece, read_product, read_profile, read_promise, read_recipe, read_scuff, read_settings,
    read_size, read_span, read_verdict, read_when, read_windows, write_span,
};
use tackfree::desk::{AmountDraft, Shop};
use tackfree::shape::{
    Construction, EdgeProfile, FaceKey, Opening, OpeningKind, Outline, Place, Shape,
};
use tackfree::shop::{Grit, Piece, PieceId, PieceKind, ScuffMeans, Stage, TouchVerdict};
use tackfree::units::{
    Density, Humidity, Length, LengthStyle, Mass, Money, SpreadRate, Temperature, Volume,
};
use uuid::Uuid;

/// Lengths off the tape, off the metre, and from neither.
fn length(from: i64, to: i64) -> impl Strategy<Value = Length> {
    prop_oneof![
        (from * 64..to * 64).prop_map(Length::from_64ths),
        (from * 254..to * 254).prop_map(|tenths| Length::from_nm(tenths * 100_000)),
        (from * 25_400_000..to * 25_400_000).prop_map(Length::from_nm),
    ]
}

fn outline() -> impl Strategy<Value = Outline> {
    prop_oneof![
        3 => (length(40, 1200), length(40, 1200))
            .prop_map(|(length, width)| Outline::Rectangle { length, width }),
        1 => length(40, 1200).prop_map(|diameter| Outline::Circle { diameter }),
    ]
}

fn profile() -> impl Strategy<Value = EdgeProfile> {
    prop_oneof![
        Just(EdgeProfile::Square),
        length(0, 1).prop_map(|l| EdgeProfile::Eased(l + Length::from_nm(1))),
        length(0, 1).prop_map(|l| EdgeProfile::RoundOver(l + Length::from_nm(1))),
        length(0, 1).prop_map(|l| EdgeProfile::Chamfer(l + Length::from_nm(1))),
    ]
}

/// Up to two cutouts and two holes in a row near the middle, numbered anyhow.
fn openings() -> impl Strategy<Value = Vec<Opening>> {
    let cutout =
        (length(1, 2), length(1, 2), 0_i64..20).prop_map(|(width, depth, r)| OpeningKind::Cutout {
            width,
            depth,
            corner_radius: Length::from_64ths(r),
        });
    let hole = length(1, 2).prop_map(|diameter| OpeningKind::Hole { diameter });
    let cutouts = prop::collection::vec((any::<u8>(), cutout), 0..3);
    let holes = prop::collection::vec((any::<u8>(), hole), 0..3);
    (cutouts, holes, length(0, 1)).prop_map(|(cutouts, holes, off)| {
        let mut openings = Vec::new();
        for (i, (no, what)) in cutouts.into_iter().chain(holes).enumerate() {
            let x = Length::from_64ths(64 * (13 + 4 * i64::try_from(i).unwrap())) + off;
            let place = Place {
                x,
                y: Length::from_64ths(64 * 20) + off,
            };
            openings.push(Opening {
                no: no.max(1),
                place,
                what,
            });
        }
        openings
    })
}

fn shape() -> impl Strategy<Value = Shape> {
    let band = prop::option::of(length(1, 5));
    (outline(), length(1, 12), profile(), openings(), band).prop_filter_map(
        "a shape that can be cut",
        |(outline, thickness, profile, openings, band)| {
            Shape::new(outline, thickness, profile, openings, band).ok()
        },
    )
}

fn piece(shop: &Shop, shape: Shape, kind: usize, built: usize, recipe: usize) -> Piece {
    Piece {
        id: PieceId(Uuid::from_u128(1)),
        job: job_id(),
        no: 0,
        name: "top by the window".to_owned(),
        kind: PieceKind::ALL[kind],
        species: "white oak".to_owned(),
        construction: Construction::ALL[built],
        shape,
        recipe: shop.recipes[recipe].id,
        schedule: None,
        stage: Stage::Sanding,
        finished: false,
    }
}

fn shops() -> [Shop; 3] {
    let mut finer = shop();
    finer.settings.length = LengthStyle::ThirtySeconds;
    [shop(), finer, metric()]
}

fn figures() -> impl Strategy<Value = LabelFigures> {
    let minutes = || 0_i64..100_000;
    let spread = prop_oneof![
        (10_i64..5000).prop_map(|n| SpreadRate::from_sq_ft_per_gal(n as f64)),
        (10_i64..1200).prop_map(|n| SpreadRate::from_m2_per_l(n as f64 / 10.0)),
    ];
    let density = prop_oneof![
        (60_i64..140).prop_map(|n| Density::from_g_per_ml(n as f64 / 100.0)),
        (50_i64..120).prop_map(|n| Density::from_lb_per_gal(n as f64 / 10.0)),
    ];
    let temperature = prop_oneof![
        (30_i64..90).prop_map(|n| Temperature::from_f(n as f64)),
        (-5_i64..40).prop_map(|n| Temperature::from_c(n as f64)),
        (-20_000_i32..50_000).prop_map(Temperature::from),
    ];
    let windows = (minutes(), minutes(), any::<(bool, bool, bool)>(), minutes()).prop_map(
        |(opens, wide, (shuts, first, second), gap)| {
            let closes = shuts.then(|| Span::minutes(opens + wide + 1));
            let mut windows = vec![RecoatWindow {
                opens: Span::minutes(opens),
                closes,
                scuff: first,
            }];
            if shuts {
                let opens = Span::minutes(opens + wide + 1 + gap);
                windows.push(RecoatWindow {
                    opens,
                    closes: None,
                    scuff: second,
                });
            }
            windows
        },
    );
    let spans = prop::array::uniform5(minutes());
    (
        spread,
        0_i32..1000,
        density,
        spans,
        windows,
        temperature,
        0_i32..=1000,
    )
        .prop_map(
            |(spread, solids, density, spans, windows, min_temp, humidity)| {
                let [touch, tack_free, handle, light_use, full_cure] = spans.map(Span::minutes);
                LabelFigures {
                    spread: spread.unwrap(),
                    solids_pct: f64::from(solids) / 10.0,
                    density: density.unwrap(),
                    touch,
                    tack_free,
                    windows,
                    handle,
                    light_use,
                    full_cure,
                    min_temp,
                    max_humidity: Humidity::from_tenths(humidity).unwrap(),
                }
            },
        )
}

proptest! {
    #[test]
    fn a_piece_written_reads_back_the_same(
        shape in shape(), kind in 0_usize..8, built in 0_usize..4, recipe in 0_usize..4,
    ) {
        for shop in shops() {
            let piece = piece(&shop, shape.clone(), kind, built, recipe);
            let typed = PieceTyped::of(&piece, &shop);
            let draft = read_piece(&typed, piece.job, &shop);
            let draft = draft.map_err(|errors| TestCaseError::fail(format!("{typed:?} {errors:?}")))?;
            prop_assert_eq!(&draft.shape, &piece.shape);
            prop_assert_eq!(draft.kind, piece.kind);
            prop_assert_eq!(draft.construction, piece.construction);
            prop_assert_eq!(draft.recipe, piece.recipe);
            prop_assert_eq!((draft.name, draft.species), (piece.name, piece.species));
        }
    }

    #[test]
    fn a_product_written_reads_back_the_same(
        label in figures(), family in 0_usize..11, kind in 0_usize..4, can in 1_i64..208_197_648,
        cents in 0_i64..1_000_000, from_label in any::<bool>(),
    ) {
        for shop in shops() {
            let product = Product {
                id: ProductId(Uuid::nil()),
                name: "satin".to_owned(),
                kind: ProductKind::ALL[kind],
                family: Family::ALL[family],
                basis: if from_label { FigureBasis::Label } else { FigureBasis::FamilyRange },
                label: label.clone(),
                can: Volume::from_ul(can),
                price: Money::from_cents(cents),
            };
            let typed = ProductTyped::of(&product, &shop);
            let draft = read_product(&typed, &shop);
            let draft = draft.map_err(|errors| TestCaseError::fail(format!("{typed:?} {errors:?}")))?;
            prop_assert_eq!(&draft.label, &product.label);
            prop_assert_eq!((draft.kind, draft.family, draft.basis), (product.kind, product.family, product.basis));
            prop_assert_eq!((draft.can, draft.price), (product.can, product.price));
        }
    }

    #[test]
    fn spans_written_read_back_the_same(minutes in 0_i64..5_000_000) {
        let span = Span::minutes(minutes);
        prop_assert_eq!(read_span("touch", &write_span(span), None), Ok(span));
    }

    /// Whatever is typed anywhere: an answer, never a panic, and errors of one line.
    #[test]
    fn any_text_is_answered(text in "\\PC{0,40}", odd in "[0-9 x/.,;:'\"a-fr>-]{0,30}") {
        let shop = shop();
        for text in [text, odd] {
            let typed = PieceTyped {
                name: text.clone(), kind: text.clone(), species: text.clone(),
                construction: text.clone(), size: text.clone(), thickness: text.clone(),
                profile: text.clone(), cutouts: text.clone(), holes: text.clone(),
                band: text.clone(), recipe: text.clone(),
            };
            if let Err(errors) = read_piece(&typed, job_id(), &shop) {
                for error in errors {
                    prop_assert!(!error.message.contains('\n') && !error.message.is_empty());
                    prop_assert!(error.message.ends_with('.'), "{}", error.message);
                }
            }
            let _ = (read_amount(&text, &shop.settings), read_scuff(&text), read_windows(&text));
            let _ = (read_faces(&text, &[FaceKey::Top, FaceKey::Hole(1)]), read_verdict(&text));
            let _ = read_promise(&text, today(), None);
        }
    }
}

#[test]
fn starting_recipes_and_products_and_settings_come_back() {
    for shop in shops() {
        for recipe in &shop.recipes {
            let typed = RecipeTyped::of(&recipe.name, &recipe.schedule, &shop);
            let draft = read_recipe(&typed, &shop).unwrap();
            assert_eq!(
                (&draft.name, &draft.schedule),
                (&recipe.name, &recipe.schedule)
            );
        }
        for product in &shop.products {
            let draft = read_product(&ProductTyped::of(product, &shop), &shop).unwrap();
            assert_eq!(draft.label, product.label);
        }
        assert_eq!(
            read_settings(&SettingsTyped::of(&shop.settings)),
            Ok(shop.settings)
        );
    }
}

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
        assert_eq!(read_size(text, &settings), Ok(counter), "{text}");
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
        assert_eq!(read_size(text, &settings), Ok(counter), "{text}");
    }
    assert_eq!(read_size("2500 x 640", &metric), Ok(counter));
    let round = Outline::Circle {
        diameter: inches(36, 0, 1),
    };
    for text in ["round 36", "36 round", "dia 36\"", "Ø 36", "round: 3'"] {
        assert_eq!(read_size(text, &settings), Ok(round), "{text}");
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
        read_cutouts(text, &settings)
            .unwrap()
            .iter()
            .map(|opening| opening.no)
            .collect()
    };
    assert_eq!(numbers("20 x 10 at 20, 12; 20 x 10 at 60, 12"), [1, 2]);
    assert_eq!(numbers("2: 20 x 10 at 60, 12"), [2]);
    assert_eq!(numbers("2: 20 x 10 at 20, 12; 20 x 10 at 60, 12;"), [2, 3]);
    assert_eq!(numbers("30x16r3/4at49 1/4,12 3/4"), [1]);
    let holes = read_holes("1 3/8 at 60, 22 1/2; 35 mm @ 64, 22 1/2", &settings).unwrap();
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
        echo_cutouts("30 x 16 r 3/4 at 49 1/4, 12 3/4", &settings).unwrap(),
        "cutout 1: 30\" x 16\", r 3/4\", centre 49 1/4\" from left, 12 3/4\" from front"
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
