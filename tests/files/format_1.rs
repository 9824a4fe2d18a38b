//! Files of the first format, which say one word for all figures of a product.

use super::support::{bring_in, contents, demo_but, demo_with, exported, refusal};
use super::{goes_round, shop};
use tackfree::coating::{Figure, FigureBasis, FigureSource, Product, RecoatWindow, Span, Voc};
use tackfree::desk::{Books, Row};
use tackfree::store::Store;
use tackfree::units::{Humidity, Length, Temperature};

/// The products of the demo as the first format wrote them.
const OLD: &str = include_str!("products_format_1.toml");

fn old_shop(products: &str) -> Store {
    let folder = demo_with("products.toml", products.as_bytes());
    let path = folder.path().join("shop.toml");
    let settings = std::fs::read_to_string(&path).unwrap();
    assert!(settings.contains("format = 2"));
    std::fs::write(&path, settings.replace("format = 2", "format = 1")).unwrap();
    bring_in(folder.path()).unwrap().0
}

#[test]
fn files_of_the_first_format_come_in_and_go_round() {
    let store = old_shop(OLD);
    for product in shop(&store).products {
        assert_eq!(
            product.basis(),
            FigureBasis::FamilyRange,
            "{}",
            product.name
        );
        assert_eq!(product.label.reference, Temperature::from_c(23.0));
        assert_eq!(product.label.voc, None);
    }
    goes_round(&store);

    let store = old_shop(&OLD.replace("basis = \"family-range\"", "basis = \"label\""));
    for product in shop(&store).products {
        let family = product.label.from(FigureSource::FamilyRange);
        assert_eq!(family, [Figure::Reference], "{}", product.name);
    }
    goes_round(&store);
    let first = contents(exported(&store).path());
    assert!(first["shop.toml"].starts_with("format = 2"));
    assert!(!first["products.toml"].contains("basis"));
}

#[test]
fn every_figure_goes_round() {
    let store = old_shop(OLD);
    let mut store = store;
    let mut product: Product = shop(&store).products[2].clone();
    let label = &mut product.label;
    label.wet_film = Some(Length::from_nm(68_581));
    label.dry_film = Some(Length::from_nm(28_000));
    label.voc = Voc::from_g_per_l(445.754);
    label.reference = Temperature::from_f(77.0);
    label.reference_humidity = Humidity::from_tenths(655);
    let window = |opens, closes, scuff| RecoatWindow {
        opens,
        closes,
        scuff,
    };
    label.windows = vec![
        window(Span::minutes(0), Some(Span::hours(2)), false),
        window(Span::days(6), None, true),
    ];
    label.from_label = [
        Figure::WetFilm,
        Figure::Voc,
        Figure::Windows,
        Figure::ReferenceHumidity,
    ]
    .into_iter()
    .collect();
    store.begin().unwrap();
    store.put(Row::Product(&product)).unwrap();
    store
        .commit(super::utc(super::NOW), "a product by hand")
        .unwrap();
    goes_round(&store);
    let back = shop(&bring_in(exported(&store).path()).unwrap().0);
    assert!(back.products.contains(&product));
}

#[test]
fn what_is_said_of_figures_must_be_so() {
    for (from, to, said) in [
        (
            "\"spread\", ",
            "\"gloss\", ",
            "\"gloss\" is not one of spread, wet-film",
        ),
        (
            "\"spread\", ",
            "\"wet-film\", ",
            "wet-film is named, but not given.",
        ),
        (
            "from_label = []",
            "basis = \"label\"\nfrom_label = []",
            "leave basis out",
        ),
        (
            "from_label = []\n",
            "",
            "name the figures read off the label",
        ),
        (
            "voc = \"500 g/L\"",
            "voc = \"plenty\"",
            "does not read as a VOC",
        ),
        (
            "reference = \"23 C\"",
            "reference = \"warm\"",
            "does not read as a temperature",
        ),
    ] {
        let words = refusal(&demo_but("products.toml", from, to));
        assert!(words.contains(said), "{words}");
        assert!(words.contains("products.toml, line "), "{words}");
    }
}

/// Books from before stages were held to their order are taken, and told.
#[test]
fn an_odd_order_of_stages_is_told_not_refused() {
    let folder = demo_but(
        "products.toml",
        "tack_free = \"5 h\"",
        "tack_free = \"1 h\"",
    );
    let (_, report) = bring_in(folder.path()).unwrap();
    let told = report.notes.iter().any(|note| {
        note.contains("clear wiping varnish cannot be tack-free after 1 hour")
            && note.starts_with("products.toml, line ")
    });
    assert!(told, "{:?}", report.notes);
}
