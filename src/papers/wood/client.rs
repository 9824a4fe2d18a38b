//! The page for the client: what the top will do through the year and why the gap is there.

use super::html;
use super::moves::leg_places;
use crate::desk::Shop;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::wrap;
use crate::shop::PieceFile;
use crate::shop::moving::{FaceSealing, NoMoves, TodayBasis, WoodSheet};
use crate::units::Temperature;
use crate::wood::client_page::{ClientPage, ClientPageInput, PageLeg, Sealed, Topic, client_page};
use crate::wood::moisture::BandBasis;
use crate::wood::movement::Build;
use chrono::{DateTime, Utc};

/// The page with what stands above it.
struct Page {
    title: String,
    under: Vec<String>,
    parts: Vec<(String, Vec<String>)>,
}

fn heading(topic: Topic) -> &'static str {
    match topic {
        Topic::Why => "Why wood moves",
        Topic::Year => "Through the year",
        Topic::Gap => "Why the gap is there",
        Topic::Hold => "How it is held",
        Topic::Sealing => "Why it is sealed all round",
        Topic::Air => "The air to keep",
        Topic::Basis => "What this rests on",
    }
}

fn page(
    shop: &Shop,
    file: &PieceFile,
    sheet: &WoodSheet,
    now: DateTime<Utc>,
) -> Result<Page, NoMoves> {
    let moves = sheet.moves.as_ref().map_err(Clone::clone)?;
    let species = sheet
        .wood
        .as_ref()
        .map_err(|error| NoMoves::Wood(error.clone()))?;
    let main = &moves.parts.main;
    let places = leg_places(moves);
    let legs: Vec<PageLeg> = moves
        .legs
        .iter()
        .map(|leg| PageLeg {
            name: leg.part.name.words(),
            width: leg.part.width,
            this: places.this,
            opposite: places.opposite,
            gap_end: leg.fastening.gap_ends,
        })
        .collect();
    let hidden: Vec<String> = sheet
        .faces
        .iter()
        .filter(|face| face.hidden)
        .map(|face| face.face.to_string())
        .collect();
    // Stain seals nothing: a face without a counted coat is still to be sealed.
    let bare = |face: &FaceSealing| !face.hidden && face.seal.coats.is_empty();
    let sealed = Sealed {
        done: !sheet.faces.iter().any(bare),
        hidden: &hidden,
    };
    let notes = sheet.site.notes();
    let told: ClientPage = client_page(&ClientPageInput {
        piece: &file.piece.name,
        build: Build {
            species,
            construction: file.piece.construction,
            grain: sheet.lie.grain,
        },
        length: main.length,
        width: main.width,
        gap_ends: moves.fastening.main.gap_ends,
        legs: &legs,
        surroundings: moves.surroundings,
        sealed,
        today: sheet.today.content,
        band: sheet.band,
        notes: &notes,
        situations: &moves.fastening.situations,
        held: sheet.lie.held,
        cup: moves.cup.risk().cloned(),
        room: room(sheet),
        style: shop.settings.temperature,
    })?;
    let mut parts: Vec<(String, Vec<String>)> = Vec::new();
    let mut sentences = told.sentences;
    sentences.sort_by_key(|sentence| sentence.topic);
    for sentence in sentences {
        let words = heading(sentence.topic);
        match parts.last_mut().filter(|(known, _)| known == words) {
            Some((_, of)) => of.push(sentence.text),
            None => parts.push((words.to_owned(), vec![sentence.text])),
        }
    }
    if let Some((_, basis)) = parts.last_mut() {
        if sheet.assumed {
            basis.insert(
                0,
                "The air of your rooms is not known yet, so a usual year is taken.".to_owned(),
            );
        }
        match sheet.today.basis {
            TodayBasis::Read { .. } => {
                basis.push("The moisture of the top was measured with a meter.".to_owned());
            }
            TodayBasis::ShopAir | TodayBasis::MidYear => {
                basis.push("The moisture of the top is estimated, not measured yet.".to_owned());
            }
        }
        basis.push("All of it is an estimate and no promise to the last 1/32 in.".to_owned());
    }
    Ok(Page {
        title: format!("Your {} through the year", file.piece.name),
        under: under(shop, file, now),
        parts,
    })
}

/// Who writes, to whom, about what, when.
fn under(shop: &Shop, file: &PieceFile, now: DateTime<Utc>) -> Vec<String> {
    let settings = &shop.settings;
    let mut out = Vec::new();
    let from: Vec<&str> = [&settings.shop_name, &settings.shop_address]
        .into_iter()
        .map(String::as_str)
        .filter(|part| !part.is_empty())
        .collect();
    if !from.is_empty() {
        out.push(from.join(", "));
    }
    let job = shop.job(file.piece.job);
    let mut to: Vec<&str> = Vec::new();
    to.extend(shop.client_of(file).map(|client| client.name.as_str()));
    to.extend(
        job.map(|job| job.site.as_str())
            .filter(|site| !site.is_empty()),
    );
    if !to.is_empty() {
        out.push(format!("For {}", to.join(", ")));
    }
    let day = now.with_timezone(&settings.zone).format("%b %-d %Y");
    out.push(format!("Ticket {}, {day}", shop.ticket_no(file)));
    out
}

/// The temperature the rooms are kept at: midway between winter and summer where both are noted,
/// else 70 F.
fn room(sheet: &WoodSheet) -> Temperature {
    match sheet.band.basis {
        BandBasis::Typed { winter, summer, .. } => Temperature::from_c(f64::midpoint(
            winter.temperature.c(),
            summer.temperature.c(),
        )),
        BandBasis::Region(_) | BandBasis::Given => Temperature::from_f(70.0),
    }
}

/// The page as plain text, eighty columns.
///
/// # Errors
/// [`NoMoves`] when the wood is not found in the table or has no figures.
pub fn client_page_paper(
    shop: &Shop,
    file: &PieceFile,
    sheet: &WoodSheet,
    now: DateTime<Utc>,
) -> Result<Vec<String>, NoMoves> {
    let page = page(shop, file, sheet, now)?;
    let mut out = wrap(&page.title.to_uppercase(), PAPER_WIDTH, 0);
    for line in &page.under {
        out.extend(wrap(line, PAPER_WIDTH, 2));
    }
    for (heading, sentences) in &page.parts {
        out.push(String::new());
        out.push(heading.clone());
        for sentence in sentences {
            let lines = wrap(sentence, PAPER_WIDTH - 2, 0);
            out.extend(lines.into_iter().map(|line| format!("  {line}")));
        }
    }
    Ok(out)
}

/// The page as HTML.
///
/// # Errors
/// As for [`client_page_paper`].
pub fn client_page_html(
    shop: &Shop,
    file: &PieceFile,
    sheet: &WoodSheet,
    now: DateTime<Utc>,
) -> Result<String, NoMoves> {
    let page = page(shop, file, sheet, now)?;
    Ok(html::page(&page.title, &page.under, &page.parts))
}
