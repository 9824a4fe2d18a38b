//! What is written is read back as the same, and the notations read as meant.

use super::shop::{job_id, metric, shop, today};
use proptest::prelude::*;
use tackfree::coating::{
    Family, Figure, FigureSet, LabelFigures, Product, ProductId, ProductKind, RecoatWindow, Span,
    Voc,
};
use tackfree::desk::Shop;
use tackfree::desk::typed::{
    PieceTyped, ProductTyped, RecipeTyped, SettingsTyped, read_amount, read_faces, read_piece,
    read_product, read_promise, read_recipe, read_scuff, read_settings, read_span, read_verdict,
    read_windows, write_span,
};
use tackfree::shape::{
    Construction, EdgeProfile, FaceKey, Opening, OpeningKind, Outline, Place, Purpose, Shape,
};
use tackfree::shop::{Piece, PieceId, PieceKind, Stage};
use tackfree::units::{
    Density, Humidity, Length, LengthStyle, Money, SpreadRate, Temperature, Volume,
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
                purpose: Purpose::Plain,
                profile: EdgeProfile::Square,
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

type Optional = (
    Option<Length>,
    Option<Length>,
    Option<Voc>,
    Option<Humidity>,
    [bool; 16],
);

/// The figures a product need not have, and which of all are the label's.
fn optional() -> impl Strategy<Value = Optional> {
    let film = || {
        prop::option::of(prop_oneof![
            (1_000_i64..5_000_000).prop_map(Length::from_nm),
            (1_i64..1000).prop_map(|tenths| Length::from_nm(tenths * 2_540)),
        ])
    };
    let voc = (0_i64..3_000_000).prop_map(|mg| Voc::from_g_per_l(mg as f64 / 1000.0).unwrap());
    let humidity = (0_i32..=950).prop_map(|tenths| Humidity::from_tenths(tenths).unwrap());
    (
        film(),
        film(),
        prop::option::of(voc),
        prop::option::of(humidity),
        any::<[bool; 16]>(),
    )
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
    let temperature = || {
        prop_oneof![
            (30_i64..90).prop_map(|n| Temperature::from_f(n as f64)),
            (-5_i64..40).prop_map(|n| Temperature::from_c(n as f64)),
            (-20_000_i32..50_000).prop_map(Temperature::from),
        ]
    };
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
        [temperature(), temperature()],
        0_i32..=1000,
        optional(),
    )
        .prop_map(
            |(spread, solids, density, mut spans, windows, temperatures, humidity, optional)| {
                // In the order in which a film goes through them.
                spans.sort_unstable();
                let [touch, tack_free, handle, light_use, full_cure] = spans.map(Span::minutes);
                let [min_temp, reference] = temperatures;
                let (wet_film, dry_film, voc, reference_humidity, from_label) = optional;
                let mut label = LabelFigures {
                    spread: spread.unwrap(),
                    wet_film,
                    dry_film,
                    voc,
                    reference,
                    reference_humidity,
                    from_label: FigureSet::NONE,
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
                };
                label.from_label = Figure::ALL
                    .into_iter()
                    .zip(from_label)
                    .filter(|(figure, label_s)| *label_s && label.has(*figure))
                    .map(|(figure, _)| figure)
                    .collect();
                label
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
        cents in 0_i64..1_000_000,
    ) {
        for shop in shops() {
            let product = Product {
                id: ProductId(Uuid::nil()),
                name: "satin".to_owned(),
                kind: ProductKind::ALL[kind],
                family: Family::ALL[family],
                label: label.clone(),
                can: Volume::from_ul(can),
                price: Money::from_cents(cents),
            };
            let typed = ProductTyped::of(&product, &shop);
            let draft = read_product(&typed, &shop);
            let draft = draft.map_err(|errors| TestCaseError::fail(format!("{typed:?} {errors:?}")))?;
            prop_assert_eq!(&draft.label, &product.label);
            prop_assert_eq!((draft.kind, draft.family), (product.kind, product.family));
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
        let words = ["L ", "U ", "oval ", "quad ", "live both ", "round 1 ", "sink undermount ", "at "];
        let worded = words.map(|word| format!("{word}{odd}"));
        for text in [text, odd].into_iter().chain(worded) {
            let typed = PieceTyped {
                corners: text.clone(),
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
