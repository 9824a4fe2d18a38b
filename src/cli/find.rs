//! Finding what an argument means: pieces, jobs, clients, recipes, products, passes, faces.

use super::failure::Failure;
use crate::coating::Product;
use crate::desk::typed::read_faces;
use crate::desk::{FacePick, Shop};
use crate::papers::{line_code, pass_code};
use crate::shape::FaceKey;
use crate::shop::{
    Client, EventId, Grit, Job, Pass, PassId, PieceFile, PieceId, Recipe, Ticket, What,
};
use crate::units::clean_line;

/// What was typed, fit for a sentence.
fn shown(text: &str) -> String {
    let (line, _) = clean_line(text);
    if line.chars().count() <= 40 {
        return line;
    }
    let mut short: String = line.chars().take(39).collect();
    short.push('…');
    short
}

fn none(what: &str, text: &str, cure: &str) -> Failure {
    Failure::said(format!(
        "There is no {what} \"{}\", or more than one: {cure}",
        shown(text)
    ))
}

/// The piece meant.
pub fn piece<'a>(shop: &'a Shop, text: &str) -> Result<&'a PieceFile, Failure> {
    shop.find_piece(text).ok_or_else(|| {
        none(
            "piece",
            text,
            "say its ticket number, like 1A (tackfree bench lists them).",
        )
    })
}

/// The pieces meant, each once, in the order typed.
pub fn pieces<'a>(shop: &'a Shop, texts: &[String]) -> Result<Vec<&'a PieceFile>, Failure> {
    let mut out: Vec<&PieceFile> = Vec::new();
    for text in texts {
        let file = piece(shop, text)?;
        if !out.iter().any(|known| known.piece.id == file.piece.id) {
            out.push(file);
        }
    }
    Ok(out)
}

/// Their identifiers.
pub fn piece_ids(shop: &Shop, texts: &[String]) -> Result<Vec<PieceId>, Failure> {
    Ok(pieces(shop, texts)?
        .into_iter()
        .map(|file| file.piece.id)
        .collect())
}

/// The job meant.
pub fn job<'a>(shop: &'a Shop, text: &str) -> Result<&'a Job, Failure> {
    shop.find_job(text)
        .ok_or_else(|| none("job", text, "say its number (tackfree jobs lists them)."))
}

/// The client meant.
pub fn client<'a>(shop: &'a Shop, text: &str) -> Result<&'a Client, Failure> {
    shop.find_client(text).ok_or_else(|| {
        none(
            "client",
            text,
            "say the whole name (tackfree clients lists them, --json with their identifiers).",
        )
    })
}

/// The recipe meant.
pub fn recipe<'a>(shop: &'a Shop, text: &str) -> Result<&'a Recipe, Failure> {
    shop.find_recipe(text).ok_or_else(|| {
        none(
            "recipe",
            text,
            "say its whole name (tackfree recipes lists them).",
        )
    })
}

/// The product meant.
pub fn product<'a>(shop: &'a Shop, text: &str) -> Result<&'a Product, Failure> {
    shop.find_product(text).ok_or_else(|| {
        none(
            "product",
            text,
            "say its whole name (tackfree products lists them).",
        )
    })
}

/// The pass meant: `last`, its code on the ticket, or its identifier.
pub fn pass<'a>(shop: &'a Shop, text: &str) -> Result<&'a Pass, Failure> {
    let typed = text.trim().to_lowercase();
    if typed == "last" {
        let newest = shop.passes.iter().max_by_key(|pass| pass.id);
        return newest.ok_or_else(|| Failure::said("No pass was logged yet."));
    }
    let mut found = shop
        .passes
        .iter()
        .filter(|pass| pass.id.to_string() == typed || pass_code(pass.id) == typed);
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one),
        _ => Err(none(
            "pass",
            text,
            "say last, or the code behind it in the log of the ticket.",
        )),
    }
}

/// The line of a piece's log meant: `last`, its code, its pass's code, or an identifier.
pub fn line(file: &PieceFile, text: &str) -> Result<EventId, Failure> {
    let typed = text.trim().to_lowercase();
    if typed == "last" {
        let newest = file.events.last().map(|event| event.id);
        return newest.ok_or_else(|| Failure::said("Nothing was logged on this piece yet."));
    }
    let mut found = file
        .events
        .iter()
        .filter(|event| {
            let of_pass = |pass: PassId| pass.to_string() == typed || pass_code(pass) == typed;
            event.id.to_string() == typed
                || line_code(event.id) == typed
                || matches!(event.what, What::Coat { pass, .. } if of_pass(pass))
        })
        .map(|event| event.id);
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one),
        _ => Err(none(
            "line of this log",
            text,
            "say last, or its code (tackfree log lists them).",
        )),
    }
}

/// The faces of one piece meant; none are those next in line.
pub fn faces(file: &PieceFile, text: Option<&str>) -> Result<Option<Vec<FaceKey>>, Failure> {
    Ok(read_faces(text.unwrap_or(""), &keys(file))?)
}

/// The one face meant.
pub fn face(file: &PieceFile, text: &str) -> Result<FaceKey, Failure> {
    let keys = keys(file);
    if let Some([one]) = read_faces(text, &keys).ok().flatten().as_deref() {
        return Ok(*one);
    }
    let names: Vec<String> = keys.iter().map(ToString::to_string).collect();
    Err(Failure::said(format!(
        "\"{}\" is not one face of this piece: it has {}.",
        shown(text),
        names.join(", ")
    )))
}

fn keys(file: &PieceFile) -> Vec<FaceKey> {
    file.piece
        .shape
        .faces(file.piece.construction)
        .iter()
        .map(|face| face.key)
        .collect()
}

/// The faces to tick or sand back with a grit: with `all`, those that the schedule asks it of and
/// that do not carry it yet, so that one word serves where groups are sanded to different grits.
pub fn faces_for_grit(file: &PieceFile, grit: Grit, text: &str) -> Result<Vec<FaceKey>, Failure> {
    let named = faces(file, Some(text))?.unwrap_or_else(|| keys(file));
    if !matches!(text.trim().to_lowercase().as_str(), "all" | "due" | "") {
        return Ok(named);
    }
    let ticket = Ticket::of(file);
    let wanting: Vec<FaceKey> = ticket
        .faces
        .iter()
        .filter(|face| ticket.plan(face).grits.contains(&grit) && !face.ticks.contains_key(&grit))
        .map(|face| face.key)
        .collect();
    // With nothing left to tick the desk says why, face by face.
    Ok(if wanting.is_empty() { named } else { wanting })
}

/// Pieces with the faces meant on each.
pub fn picks(shop: &Shop, texts: &[String], on: Option<&str>) -> Result<Vec<FacePick>, Failure> {
    pieces(shop, texts)?
        .into_iter()
        .map(|file| {
            Ok(FacePick {
                piece: file.piece.id,
                faces: faces(file, on)?,
            })
        })
        .collect()
}
