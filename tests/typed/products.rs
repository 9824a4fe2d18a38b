//! A product's figures: several windows in one line, where each figure came from, what is refused
//! and what is asked about.

use super::shop::{metric, shop};
use std::collections::HashMap;
use std::sync::Arc;
use tackfree::coating::{
    Family, Figure, FigureSource, Learned, Product, ProductId, RecoatWindow, Span, Tuning,
};
use tackfree::desk::typed::{
    ProductTyped, echo_figures, echo_windows, figure_field, read_product, read_windows,
    write_windows,
};
use tackfree::desk::{ProductDraft, SheetPart, Shop, learned, product_sheet};

fn window(opens: i64, closes: Option<i64>, scuff: bool) -> RecoatWindow {
    RecoatWindow {
        opens: Span::hours(opens),
        closes: closes.map(Span::hours),
        scuff,
    }
}

#[test]
fn several_windows_are_one_plain_line() {
    let lifts = vec![window(0, Some(2), false), window(144, None, false)];
    for text in [
        "within 2 h; after 6 days",
        "Within 2 hours, or after 6 days",
        "within 2h or 6 days on",
        "up to 2 h; from 6 days",
        "until 2 h ; 6 days or later",
        "0 h to 2 h; 6 days",
    ] {
        assert_eq!(read_windows(text), Ok(lifts.clone()), "{text}");
    }
    assert_eq!(write_windows(&lifts), "within 2 h; after 6 days");
    assert_eq!(
        echo_windows("within 2 h; after 6 days").unwrap(),
        "next coat within 2 hours, or after 6 days"
    );
    let scuffed = vec![window(6, Some(24), false), window(24, None, true)];
    for text in [
        "6 h to 24 h; scuff after 24 h",
        "from 6 to 24 h or scuff 24 h on",
        "between 6 and 24 h; after 24 h scuffed",
    ] {
        assert_eq!(read_windows(text), Ok(scuffed.clone()), "{text}");
    }
    assert_eq!(write_windows(&scuffed), "6 h to 24 h; scuff after 24 h");
    assert_eq!(
        echo_windows("6 h to 24 h").unwrap(),
        "next coat from 6 hours to 1 day, later abrade first"
    );
    for nonsense in [
        "within",
        "up 2 h",
        "between 2 h",
        "after",
        "soon",
        "6 h to",
        "-2 h to 6 h",
    ] {
        let error = read_windows(nonsense).unwrap_err();
        assert_eq!(error.field, "windows", "{nonsense}");
        assert!(error.message.ends_with('.'), "{}", error.message);
    }
}

fn typed(shop: &Shop) -> ProductTyped {
    ProductTyped {
        name: "satin".to_owned(),
        ..ProductTyped::starting(Family::OilWipingVarnish, shop)
    }
}

fn product(draft: ProductDraft) -> Product {
    Product {
        id: ProductId(uuid::Uuid::from_u128(5)),
        name: draft.name,
        kind: draft.kind,
        family: draft.family,
        label: draft.label,
        can: draft.can,
        price: draft.price,
    }
}

#[test]
fn what_is_typed_is_the_labels_and_what_is_marked_the_familys() {
    let shop = shop();
    let mut typed = typed(&shop);
    assert_eq!(typed.touch, "~3 h", "a family figure shows its mark");
    let start = read_product(&typed, &shop).unwrap();
    assert_eq!(start.label.from(FigureSource::Label), []);
    typed.touch = "3 h".into();
    typed.voc = "3.72 lb/gal".into();
    typed.reference = "77 F".into();
    typed.tack_free = "~ 4 h".into();
    typed.handle = String::new();
    let label = read_product(&typed, &shop).unwrap().label;
    assert_eq!(
        label.from(FigureSource::Label),
        [Figure::Voc, Figure::Reference, Figure::Touch]
    );
    assert_eq!(
        label.from(FigureSource::NotGiven),
        [Figure::WetFilm, Figure::DryFilm, Figure::ReferenceHumidity]
    );
    assert_eq!(label.tack_free, Span::hours(4));
    assert_eq!(label.handle, start.label.handle, "empty is the family's");
    assert_eq!(label.reference.milli_c(), 25_000);

    // All at once, either way.
    typed.basis = "label".into();
    typed.handle = "24 h".into();
    let label = read_product(&typed, &shop).unwrap().label;
    assert_eq!(label.from(FigureSource::FamilyRange), []);
    typed.basis = "family".into();
    let label = read_product(&typed, &shop).unwrap().label;
    assert_eq!(label.from(FigureSource::Label), []);
}

#[test]
fn each_field_says_where_its_figure_came_from() {
    let shop = shop();
    let mut typed = typed(&shop);
    typed.touch = "3 h".into();
    typed.tack_free = "300 min".into();
    typed.full_cure = "2 days".into();
    typed.light_use = "1 day".into();
    typed.handle = "soon".into();
    let said: HashMap<&str, String> = echo_figures(&typed, &shop).into_iter().collect();
    let is = |field: &str, words: &str| assert_eq!(said.get(field).unwrap(), words, "{field}");
    is("touch", "from the label (its family: 2 to 6 h)");
    is("tack_free", "5 h; from the label");
    is(
        "full_cure",
        "from the label, outside its family's 21 to 30 days",
    );
    is("voc", "family range 446 to 565 g/L, check the can label");
    is(
        "solids",
        "25% of volume; family range 20 to 30% (from memory), check the can label",
    );
    is(
        "spread",
        "623 sq ft/gal, 2.57 mil wet; family range 501 to 750 sq ft/gal, check the can label",
    );
    is("min_temp", "family range 50 to 61 F, check the can label");
    is("reference", "family range 68 to 77 F, check the can label");
    is("wet_film", "not given");
    assert!(
        !said.contains_key("handle"),
        "what does not read is not echoed"
    );
}

#[test]
fn wrong_orders_are_refused_in_words_at_their_field() {
    let shop = shop();
    let refused = |change: &dyn Fn(&mut ProductTyped)| {
        let mut typed = typed(&shop);
        change(&mut typed);
        let errors = read_product(&typed, &shop).unwrap_err();
        assert_eq!(errors.len(), 1, "{errors:?}");
        (errors[0].field, errors[0].message.clone())
    };
    let (field, words) = refused(&|t| t.tack_free = "2 h".into());
    assert_eq!(
        (field, words.as_str()),
        (
            "tack_free",
            "satin cannot be tack-free after 2 hours when it is set to touch only after 3 hours: look at both again."
        )
    );
    assert_eq!(refused(&|t| t.handle = "4 h".into()).0, "handle");
    assert_eq!(refused(&|t| t.light_use = "1 h".into()).0, "light_use");
    assert_eq!(
        refused(&|t| t.full_cure = "2 days".into()).1,
        "satin cannot be fully cured after 2 days when it is ready for light use only after 3 days: look at both again."
    );
    assert_eq!(
        refused(&|t| t.windows = "after 6 days; within 2 h".into()).0,
        "windows"
    );
    assert_eq!(
        refused(&|t| t.windows = "within 2 h; after 1 h".into()).0,
        "windows"
    );
    assert_eq!(
        refused(&|t| t.reference_humidity = "97".into()).0,
        "reference_humidity"
    );
    assert_eq!(refused(&|t| t.wet_film = "2.7".into()).0, "wet_film");
    assert_eq!(refused(&|t| t.dry_film = "9 m".into()).0, "dry_film");
    assert_eq!(refused(&|t| t.voc = "9000".into()).0, "voc");
    assert_eq!(refused(&|t| t.reference = "68 K".into()).0, "reference");
}

#[test]
fn likely_slips_are_asked_about() {
    let shop = shop();
    let doubts = |change: &dyn Fn(&mut ProductTyped)| -> Vec<String> {
        let mut typed = typed(&shop);
        change(&mut typed);
        let product = product(read_product(&typed, &shop).unwrap());
        let settings = &shop.settings;
        let words = |d: &tackfree::coating::Doubt| d.words(settings.area(), settings.temperature);
        product.doubts().iter().map(words).collect()
    };
    assert_eq!(doubts(&|_| ()), Vec::<String>::new());
    assert_eq!(
        doubts(&|t| t.min_temp = "80 F".into()),
        [
            "The coldest use, 80 F, is above the 73.4 F at which the drying times hold: look at both again."
        ]
    );
    assert_eq!(
        doubts(&|t| t.reference_humidity = "90".into()),
        [
            "The dampest use, 85%, is below the 90% in which the drying times hold: look at both again."
        ]
    );
    assert_eq!(
        doubts(&|t| t.windows = "after 20 min".into()),
        [
            "The next coat may go on for good after 20 minutes, but this one is set to touch only after 3 hours: look at both again."
        ]
    );
    assert_eq!(
        doubts(&|t| t.windows = "within 20 min; after 6 days".into()),
        Vec::<String>::new(),
        "wet on wet goes on before the film can be touched"
    );
    assert_eq!(
        doubts(&|t| {
            t.light_use = "1 day".into();
            t.full_cure = "2 days".into();
        })
        .len(),
        1
    );
    assert_eq!(
        doubts(&|t| t.voc = "900".into()),
        ["A VOC of 900 g/L is more than the 860 g/L the product weighs: look at both again."]
    );
}

fn part(sheet: &[SheetPart], source: FigureSource) -> Vec<(&'static str, String)> {
    sheet
        .iter()
        .filter(|part| part.source == source)
        .flat_map(|part| {
            part.lines
                .iter()
                .map(|line| (line.what, line.value.clone()))
        })
        .collect()
}

/// Every figure of a sheet stands once, under its source.
#[test]
fn a_sheet_shows_every_figure_under_its_source() {
    for shop in [shop(), metric()] {
        let mut typed = typed(&shop);
        typed.windows = "within 2 h; after 6 days".into();
        let product = product(read_product(&typed, &shop).unwrap());
        let sheet = product_sheet(&product, &shop);
        for figure in Figure::ALL {
            let at: Vec<FigureSource> = sheet
                .iter()
                .filter(|part| part.lines.iter().any(|line| line.what == figure.word()))
                .map(|part| part.source)
                .collect();
            assert_eq!(
                at,
                [product.label.source(figure)],
                "{}",
                figure_field(figure)
            );
        }
        assert_eq!(
            part(&sheet, FigureSource::Label),
            [("recoat", "within 2 hours, or after 6 days".to_owned())]
        );
        assert_eq!(part(&sheet, FigureSource::ShopTests), []);
    }
}

#[test]
fn touch_tests_stand_beside_the_drying_times() {
    let mut shop = shop();
    let product = product(read_product(&typed(&shop), &shop).unwrap());
    assert_eq!(learned(&product, &shop), None, "no test, nothing learned");
    let known = Learned {
        median: 0.75,
        low: 0.68,
        high: 0.83,
        tests: 6,
        coats: 4,
    };
    let tuning = Tuning {
        safe: known,
        ..Tuning::default()
    };
    shop.tuning = Arc::new(HashMap::from([(product.id, tuning)]));
    let sheet = product_sheet(&product, &shop);
    assert_eq!(
        part(&sheet, FigureSource::ShopTests),
        [("speed here", known.words())]
    );
    let family = part(&sheet, FigureSource::FamilyRange);
    assert!(
        family.contains(&("set to touch", "3 h, here 4 h".to_owned())),
        "{family:?}"
    );
}
