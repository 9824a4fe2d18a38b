//! Sealing and cup in words.

use super::moves::capital;
use super::{Line, Weight};
use crate::shop::moving::{CupAnswer, FaceSealing, WoodSheet};
use crate::wood::Between;
use crate::wood::sealing::Exposure;

pub(super) fn lines(sheet: &WoodSheet, out: &mut Vec<Line>) {
    out.push((Weight::Heading, "SEALING AND CUP".to_owned()));
    out.push((
        Weight::Small,
        "How much of what bare wood takes up each face keeps out after 1, 7 and 14 days in damp air \
         (Wood Handbook Table 16-3, p. 16-14, and the tests behind it), from the coats on it now:"
            .to_owned(),
    ));
    for face in &sheet.faces {
        out.push((Weight::Body, format!("  {}", face_words(face))));
    }
    let mut told: Vec<&str> = Vec::new();
    for face in &sheet.faces {
        let inferred = face.seal.inferred.as_str();
        if !inferred.is_empty() && !told.contains(&inferred) {
            told.push(inferred);
            out.push((Weight::Small, format!("  {}.", capital(inferred))));
        }
    }
    if sheet.faces.iter().any(|face| face.uncounted > 0) {
        out.push((
            Weight::Small,
            "  Stain and conditioner are not counted: no published figure for them under a finish."
                .to_owned(),
        ));
    }
    cup(sheet, out);
    out.push((
        Weight::Body,
        "Seal the whole slab: top, underside, every edge, end and cutout wall (common practice, no \
         source for the one rule; unlike coatings on opposite faces cup, Forest Products Laboratory \
         Technical Note D-12, 1952)."
            .to_owned(),
    ));
    out.push((
        Weight::Small,
        "A coating slows moisture and changes nothing about where it ends (Wood Handbook p. 16-13); \
         a finishing columnist (2004) holds that one-sided finish does not cause warping for that \
         reason. So the cup is told as a passing risk, until both faces are even again."
            .to_owned(),
    ));
}

fn cup(sheet: &WoodSheet, out: &mut Vec<Line>) {
    let Ok(moves) = &sheet.moves else { return };
    let cup = &moves.cup;
    let (risk, one_more) = match &cup.answer {
        CupAnswer::Reckoned(reckoned) => (&reckoned.risk, &reckoned.one_more),
        CupAnswer::NoFaces => return,
        CupAnswer::UndersideHidden => {
            out.push((
                Weight::Body,
                "The underside is declared not exposed: how it takes up moisture there is not \
                 known, so no cup is reckoned."
                    .to_owned(),
            ));
            return;
        }
    };
    out.push((
        Weight::Body,
        format!(
            "When the room takes it from {} to {}: {}",
            cup.from.show(),
            cup.to.show(),
            risk.line()
        ),
    ));
    if risk.is_none() {
        return;
    }
    out.push((Weight::Small, format!("{}.", capital(&risk.basis()))));
    if let Some(more) = one_more {
        out.push((Weight::Body, more.line()));
    }
}

/// `top: 3 coats oil-based urethane varnish: 90 / 64 / 44 %`.
fn face_words(face: &FaceSealing) -> String {
    let days = Exposure::ALL.map(|exposure| range(face.seal.after(exposure)));
    let hidden = if face.hidden { ", not exposed" } else { "" };
    format!(
        "{}{hidden}: {}: {} % ({})",
        face.face,
        face.seal.coats_words(),
        days.join(" / "),
        face.seal.standing.words()
    )
}

fn range(percent: Between<f64>) -> String {
    if percent.is_single() {
        format!("{:.0}", percent.low())
    } else {
        format!("{:.0} to {:.0}", percent.low(), percent.high())
    }
}
