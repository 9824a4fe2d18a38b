//! Shapes in the files: every outline goes round, files from before still come in, and what does
//! not read is told.

use crate::support::{
    NOW, ZONE, bring_in, contents, demo_store, export_but, exported, mint, refusal, utc,
};
use tackfree::desk::{Action, Desk, PieceDraft, Scope, Shop, Which};
use tackfree::shape::{Outline, Shape};
use tackfree::store::Store;

#[path = "../store/shapes_made.rs"]
mod made;

fn shop(store: &Store) -> Shop {
    Shop::read(store, Scope::All, ZONE).unwrap()
}

fn with_shapes(shapes: Vec<Shape>) -> Store {
    let mut store = demo_store();
    let mut mint = mint(&store);
    let sample = shop(&store).files[0].piece.clone();
    for shape in shapes {
        let draft = PieceDraft {
            job: sample.job,
            name: shape.outline().word().to_owned(),
            kind: sample.kind,
            species: sample.species.clone(),
            construction: sample.construction,
            shape,
            recipe: sample.recipe,
        };
        let mut desk = Desk {
            books: &mut store,
            now: utc(NOW),
            mint: &mut mint,
            zone: ZONE,
        };
        desk.perform(&Action::SavePiece(Which::New, draft)).unwrap();
    }
    store
}

#[test]
fn every_outline_goes_round_to_the_byte() {
    let store = with_shapes(made::shapes());
    let first = exported(&store);
    let (second, _) = bring_in(first.path()).unwrap();
    assert_eq!(shop(&store), shop(&second));
    assert_eq!(contents(first.path()), contents(exported(&second).path()));
    let pieces = &contents(first.path())["pieces.csv"];
    for cell in [
        "\"L 120 in x 96 in, run 25 1/2 in, leg 24 in, open front left\",round 1 1/2 in inside,",
        "\"quad 120 in, 25 1/8 in, 119 7/8 in, 25 1/4 in, diagonal 122 1/2 in, other 122 5/8 in\"",
        "oval 120 in x 96 in",
    ] {
        assert!(pieces.contains(cell), "{cell}\n{pieces}");
    }
    let openings = &contents(first.path())["openings.csv"];
    let sink = "sink undermount negative 3/8 in, overall 22 in x 14 in, sink wall 1.2 mm, cabinet 27 in, walls 3/4 in, front rail 3 in, left 16 1/2 in, overhang 1 1/8 in, deep 24 in";
    let edge = format!("\"{sink}\",round-over,1/8 in");
    assert!(openings.contains(&edge), "{openings}");
}

#[test]
fn files_from_before_have_no_new_columns_and_come_in() {
    let drop = |rows: &mut crate::support::Rows| {
        for name in ["outline", "corners", "band_round"] {
            let at = crate::support::column(rows, name);
            for row in rows.iter_mut() {
                row.remove(at);
            }
        }
    };
    let folder = export_but("pieces.csv", drop);
    let (store, _) = bring_in(folder.path()).unwrap();
    let shapes = |store: &Store| -> Vec<(String, Shape)> {
        let files = shop(store).files.into_iter();
        files
            .map(|file| (file.piece.name, file.piece.shape))
            .collect()
    };
    assert_eq!(shapes(&store), shapes(&demo_store()));
    // Before openings had edges of their own.
    let folder = export_but("openings.csv", |rows| {
        let at = crate::support::column(rows, "edge");
        for row in rows.iter_mut() {
            row.truncate(at);
        }
    });
    let (store, _) = bring_in(folder.path()).unwrap();
    assert_eq!(shapes(&store), shapes(&demo_store()));
}

#[test]
fn shapes_that_do_not_read_are_told() {
    let said = |column: &'static str, text: &'static str| {
        refusal(&export_but("pieces.csv", |rows| {
            let at = crate::support::column(rows, column);
            let outline = crate::support::column(rows, "outline");
            rows[1][at] = text.to_owned();
            if at == outline {
                for name in ["length", "width", "diameter"] {
                    let at = crate::support::column(rows, name);
                    rows[1][at].clear();
                }
            }
        }))
    };
    for (column, text, sentence) in [
        (
            "outline",
            "oval 60 x 40 in",
            "\"oval 60\" has no unit; write in or mm behind each length.",
        ),
        ("outline", "blob 60 in", "outline:"),
        (
            "corners",
            "round 40 in front left",
            "The round at the front left corner is 40\"",
        ),
        (
            "corners",
            "bent 2 in front left",
            "\"bent\" is not a way to cut a corner",
        ),
        ("band_round", "perhaps", "\"perhaps\" is not yes"),
        (
            "edge",
            "wavy",
            "\"wavy\" is not one of square, eased, round-over, chamfer, ogee, cove, bullnose.",
        ),
    ] {
        let said = said(column, text);
        assert!(said.contains(sentence), "{said}");
    }
    let said = refusal(&export_but("openings.csv", |rows| {
        let at = crate::support::column(rows, "purpose");
        rows[1][at] = "sink undermount".to_owned();
    }));
    assert!(
        said.contains("The reveal of an undermount sink is not said"),
        "{said}"
    );
    let edge = |edge: &str, size: &str| {
        refusal(&export_but("openings.csv", |rows| {
            let at = crate::support::column(rows, "edge");
            rows[1][at] = edge.to_owned();
            rows[1][at + 1] = size.to_owned();
        }))
    };
    assert!(edge("wavy", "1/4 in").contains("edge:"));
    assert!(edge("cove", "").contains("edge_size"));
    assert!(edge("", "1/4 in").contains("edge_size"));
    assert!(edge("cove", "3 in").contains("The cove of cutout 1 is 3\""));
}

#[test]
fn outlines_in_the_files_are_those_of_the_store() {
    let words: Vec<&str> = made::outlines().iter().map(Outline::word).collect();
    assert_eq!(
        words,
        [
            "rectangle",
            "circle",
            "oval",
            "cornered",
            "l",
            "u",
            "quad",
            "live"
        ]
    );
}
