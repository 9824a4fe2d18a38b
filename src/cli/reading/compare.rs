//! How the finishes of two pieces differ.

use super::moment;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::Shop;
use crate::papers::{difference_words, differences_paper, value_words};
use crate::shop::{FinishRecord, PassId, PieceFile, batches, differences, method_of};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree compare 1A 1B\n  tackfree compare 3C 3A --json\n\nCompare a piece with the sample the client signed, or with another piece. In a settled order: wood,\nfaces, grits, then for seal, stain and topcoat the number of coats, product, way, batch, film and air.\nFilms are told from 20 % apart, air from 3 C or 10 % humidity, wipe-offs from 2 minutes. With --json:\none and other [ticket, piece, species, faces [face, grits, hidden, coats [kind, product, method,\nbatch, ended, wiped_off_after_min, wet_um, dry_um, air_c, air_percent]]], differences [what, faces,\none, other, words].";

/// What was typed.
#[derive(Debug, Args)]
pub struct CompareArgs {
    /// The piece.
    pub piece: String,
    /// The piece or sample to hold it against.
    pub with: String,
}

#[derive(Serialize)]
struct CompareJson {
    one: RecordJson,
    other: RecordJson,
    differences: Vec<DifferenceJson>,
}

#[derive(Serialize)]
struct RecordJson {
    ticket: String,
    piece: String,
    species: String,
    faces: Vec<FaceJson>,
}

#[derive(Serialize)]
struct FaceJson {
    face: String,
    grits: Vec<u16>,
    hidden: bool,
    coats: Vec<CoatJson>,
}

#[derive(Serialize)]
struct CoatJson {
    kind: &'static str,
    product: String,
    method: &'static str,
    batch: Option<String>,
    ended: String,
    wiped_off_after_min: Option<i64>,
    wet_um: Option<f64>,
    dry_um: Option<f64>,
    air_c: Option<f64>,
    air_percent: Option<f64>,
}

#[derive(Serialize)]
struct DifferenceJson {
    what: String,
    faces: Vec<String>,
    one: String,
    other: String,
    words: String,
}

fn json(record: &FinishRecord, file: &PieceFile, shop: &Shop) -> RecordJson {
    let tenth = |value: f64| (value * 10.0).round() / 10.0;
    let faces = record.faces.iter().map(|face| FaceJson {
        face: face.key.to_string(),
        grits: face.grits.iter().map(|grit| grit.0).collect(),
        hidden: face.hidden,
        coats: face
            .coats
            .iter()
            .map(|coat| CoatJson {
                kind: coat.kind.word(),
                product: shop
                    .product(coat.product)
                    .map_or_else(String::new, |product| product.name.clone()),
                method: coat.method.word(),
                batch: coat.batch.clone(),
                ended: moment(coat.ended),
                wiped_off_after_min: coat.wiped_off_after,
                wet_um: coat.film.map(|film| tenth(film.0)),
                dry_um: coat.film.map(|film| tenth(film.1)),
                air_c: coat.air.map(|air| tenth(air.temperature.c())),
                air_percent: coat.air.map(|air| air.humidity.percent()),
            })
            .collect(),
    });
    RecordJson {
        ticket: shop.ticket_no(file),
        piece: file.piece.name.clone(),
        species: record.species.clone(),
        faces: faces.collect(),
    }
}

/// Compares them.
pub fn run(args: &CompareArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let one = find::piece(&shop, &args.piece)?;
    let other = find::piece(&shop, &args.with)?;
    if one.piece.id == other.piece.id {
        return Err(Failure::said(
            "That is the same piece twice: name the other one, or the sample.",
        ));
    }
    let batch_of = |id: PassId| {
        let pass = shop.passes.iter().find(|pass| pass.id == id)?;
        let batches = batches(pass, &shop.cans);
        (!batches.is_empty()).then(|| batches.join(" + "))
    };
    let record = |file| FinishRecord::of(file, &shop.passes, &shop.products, method_of, batch_of);
    let (a, b) = (record(one), record(other));
    let found = differences(&a, &b);
    let told = found.iter().map(|difference| DifferenceJson {
        what: difference.what.words(),
        faces: difference.faces.iter().map(ToString::to_string).collect(),
        one: value_words(&difference.one, &shop),
        other: value_words(&difference.other, &shop),
        words: difference_words(difference, &shop),
    });
    let json = CompareJson {
        one: json(&a, one, &shop),
        other: json(&b, other, &shop),
        differences: told.collect(),
    };
    Answer::new(differences_paper((one, other), &found, &shop), json)
}
