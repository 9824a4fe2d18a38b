//! A store of the first layout is brought up to the newest, its figures, sources and undo with it.

use crate::shop::all_read;
use rusqlite::Connection;
use std::path::Path;
use tackfree::coating::{Figure, FigureBasis, FigureSource, Product};
use tackfree::desk::Books;
use tackfree::store::Store;
use tackfree::units::Temperature;

/// A store of layout 1 with the rows that version wrote.
fn first_layout(path: &Path) {
    let conn = Connection::open(path).expect("a connection");
    conn.execute_batch(include_str!("../../src/store/migrations/001_start.sql"))
        .expect("the first layout");
    conn.execute_batch(include_str!("from_001.sql"))
        .expect("its rows");
    conn.pragma_update(None, "user_version", 1)
        .expect("the layout");
    // The letters tkfr.
    conn.pragma_update(None, "application_id", 0x746b_6672)
        .expect("the mark");
}

fn named(store: &Store, name: &str) -> Option<Product> {
    let products = store.products().expect("products");
    products.into_iter().find(|product| product.name == name)
}

#[test]
fn figures_take_the_source_their_product_had() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.store");
    first_layout(&path);
    let store = Store::open(&path).expect("it opens");
    all_read(&store).expect("it reads");

    let satin = named(&store, "satin varnish").expect("there");
    let label = &satin.label;
    assert_eq!(format!("{:.0}", label.spread.sq_ft_per_gal()), "650");
    assert_eq!(label.touch.as_minutes(), 120);
    assert_eq!(
        (
            label.wet_film,
            label.dry_film,
            label.voc,
            label.reference_humidity
        ),
        (None, None, None, None)
    );
    for figure in Figure::ALL {
        let source = match figure {
            Figure::Reference => FigureSource::FamilyRange,
            figure if label.has(figure) => FigureSource::Label,
            _ => FigureSource::NotGiven,
        };
        assert_eq!(label.source(figure), source, "{figure:?}");
    }
    assert_eq!(label.reference, Temperature::from_c(23.0));

    let stain = named(&store, "brown gel stain").expect("there");
    assert_eq!(stain.basis(), FigureBasis::FamilyRange);
    assert_eq!(stain.label.from(FigureSource::Label), []);
    assert_eq!(stain.price.cents(), 2_700);
}

#[test]
fn what_was_done_before_can_be_undone_and_done_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.store");
    first_layout(&path);
    let mut store = Store::open(&path).expect("it opens");
    let before = store.products().expect("products");
    let now = chrono::DateTime::from_timestamp(1_790_000_000, 0).expect("a moment");
    let undo = |store: &mut Store| store.undo(now).expect("undone").expect("something");

    assert_eq!(undo(&mut store), "Changed product brown gel stain");
    let stain = named(&store, "brown gel stain").expect("there");
    assert_eq!(stain.price.cents(), 2_600);
    assert_eq!(undo(&mut store), "Changed product satin varnish");
    let satin = named(&store, "satin varnish").expect("there");
    assert_eq!(format!("{:.0}", satin.label.spread.sq_ft_per_gal()), "600");
    assert_eq!(satin.label.source(Figure::Spread), FigureSource::Label);
    assert_eq!(undo(&mut store), "Added product satin varnish");
    assert_eq!(named(&store, "satin varnish"), None);

    for _ in 0..3 {
        store.redo(now).expect("done again").expect("something");
    }
    assert_eq!(store.products().expect("products"), before);
    drop(store);
    // Opened once more, it is at the newest layout and stays as it is.
    let store = Store::open(&path).expect("it opens again");
    assert_eq!(store.products().expect("products"), before);
}
