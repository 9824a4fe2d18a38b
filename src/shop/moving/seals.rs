//! What the coats on each face hold back, and the cup that unlike faces risk.

use super::{Parts, Records, Today, band_of, underside, wood_of};
use crate::coating::{Family, Product, ProductId};
use crate::shape::FaceKey;
use crate::shop::face_state::FaceState;
use crate::shop::ticket::Ticket;
use crate::wood::moisture::{MoistureContent, SeasonBand, emc};
use crate::wood::movement::{Build, MovementError};
use crate::wood::sealing::{
    Coats, CupRisk, Exposure, FaceSeal, Faces, FinishKind, OneMoreCoat, cup_risk, face_seal,
    one_more_coat,
};
use chrono::{DateTime, Utc};

/// The finish of the published tests that a product family is, if it is one of them. Oil-based
/// varnish, wiped or brushed, is taken as the oil-modified urethane varnish of the tests; stains,
/// conditioner and spirits are not taken as any.
pub fn finish_of(family: Family) -> Option<FinishKind> {
    match family {
        Family::OilWipingVarnish | Family::OilBrushingVarnish => Some(FinishKind::UrethaneVarnish),
        Family::WaterBorne => Some(FinishKind::WaterbornePolyurethane),
        Family::Shellac => Some(FinishKind::Shellac),
        Family::HardwaxOil => Some(FinishKind::HardwaxOil),
        Family::TungOil => Some(FinishKind::TungOil),
        Family::Lacquer => Some(FinishKind::Lacquer),
        Family::OilGelStain
        | Family::OilLiquidStain
        | Family::OilConditioner
        | Family::MineralSpirits => None,
    }
}

/// What one face holds back.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceSealing {
    /// Which face.
    pub face: FaceKey,
    /// What its coats hold back.
    pub seal: FaceSeal,
    /// Coats that are not counted: no published figure for stain under a finish.
    pub uncounted: usize,
    /// Whether it was declared not exposed.
    pub hidden: bool,
}

/// The coats on a face as the tests divide them, in the order they went on; and how many are not
/// counted.
fn coats(face: &FaceState, products: &[Product]) -> (Vec<Coats>, usize) {
    let family = |id: ProductId| products.iter().find(|of| of.id == id).map(|of| of.family);
    let (mut out, mut uncounted): (Vec<Coats>, usize) = (Vec::new(), 0);
    for coat in &face.coats {
        let Some(finish) = family(coat.product).and_then(finish_of) else {
            uncounted += 1;
            continue;
        };
        match out.iter_mut().find(|of| of.finish == finish) {
            Some(of) => of.coats = of.coats.saturating_add(1),
            None => out.push(Coats::new(finish, 1)),
        }
    }
    // What lies on top is last, whatever came back under it.
    let last = face
        .coats
        .iter()
        .rev()
        .find_map(|coat| family(coat.product).and_then(finish_of));
    if let Some(at) = out.iter().position(|of| Some(of.finish) == last) {
        let top = out.remove(at);
        out.push(top);
    }
    (out, uncounted)
}

pub(super) fn faces(ticket: &Ticket, products: &[Product]) -> Vec<FaceSealing> {
    ticket
        .faces
        .iter()
        .map(|face| {
            let (coats, uncounted) = coats(face, products);
            FaceSealing {
                face: face.key,
                seal: face_seal(&coats),
                uncounted,
                hidden: !face.is_exposed(),
            }
        })
        .collect()
}

/// The two faces of a top.
enum TwoFaces {
    /// With the coats they carry now.
    Open(Box<Faces>),
    /// The underside was declared not exposed: what it lets in is not that of its coats.
    UndersideHidden,
    /// It has no two faces.
    None,
}

fn show_and_under(ticket: &Ticket, products: &[Product]) -> TwoFaces {
    let Some((top, under)) = ticket.face(FaceKey::Top).zip(underside(ticket)) else {
        return TwoFaces::None;
    };
    if !under.is_exposed() {
        return TwoFaces::UndersideHidden;
    }
    let (top, under) = (coats(top, products).0, coats(under, products).0);
    TwoFaces::Open(Box::new(Faces::new(&top, &under)))
}

/// The cup that is risked, toward the end of the year that lies farther from today.
#[derive(Debug, Clone, PartialEq)]
pub struct CupSheet {
    /// The moisture content it is reckoned from.
    pub from: MoistureContent,
    /// The one it is reckoned to.
    pub to: MoistureContent,
    /// What came of it.
    pub answer: CupAnswer,
}

/// The cup, or why it is not reckoned.
#[derive(Debug, Clone, PartialEq)]
pub enum CupAnswer {
    /// Reckoned from the coats on both faces.
    Reckoned(Box<CupReckoned>),
    /// The underside was declared not exposed, and how it breathes there is not known.
    UndersideHidden,
    /// The piece has no two faces.
    NoFaces,
}

/// A cup that was reckoned.
#[derive(Debug, Clone, PartialEq)]
pub struct CupReckoned {
    /// The risk.
    pub risk: CupRisk,
    /// What one more coat on the poorer face would do, where it would do anything.
    pub one_more: Option<OneMoreCoat>,
}

impl CupSheet {
    /// The risk, where it was reckoned.
    pub fn risk(&self) -> Option<&CupRisk> {
        match &self.answer {
            CupAnswer::Reckoned(reckoned) => Some(&reckoned.risk),
            CupAnswer::UndersideHidden | CupAnswer::NoFaces => None,
        }
    }

    /// What one more coat would do, where it would do anything.
    pub fn one_more(&self) -> Option<&OneMoreCoat> {
        match &self.answer {
            CupAnswer::Reckoned(reckoned) => reckoned.one_more.as_ref(),
            CupAnswer::UndersideHidden | CupAnswer::NoFaces => None,
        }
    }
}

/// The end of the year that is farther from a moisture content.
fn farther(from: MoistureContent, band: &SeasonBand) -> MoistureContent {
    let (dry, wet) = (band.driest(), band.wettest());
    if from.points_to(dry).abs() > from.points_to(wet).abs() {
        dry
    } else {
        wet
    }
}

pub(super) fn cup(
    of: &Records<'_>,
    build: &Build<'_>,
    from: MoistureContent,
    band: &SeasonBand,
) -> Result<CupSheet, MovementError> {
    let to = farther(from, band);
    // Each part of a joined top cups by itself: the widest most.
    let width = Parts::of(of.piece, &of.book.lie(of.piece)).widest();
    let answer = match show_and_under(of.ticket, of.products) {
        TwoFaces::Open(faces) => {
            let risk = cup_risk(build, width, of.piece.shape.thickness(), *faces, from, to)?;
            let one_more = one_more_coat(build, &risk, from, to)?;
            CupAnswer::Reckoned(Box::new(CupReckoned { risk, one_more }))
        }
        TwoFaces::UndersideHidden => CupAnswer::UndersideHidden,
        TwoFaces::None => CupAnswer::NoFaces,
    };
    Ok(CupSheet { from, to, answer })
}

/// The cup of unlike faces in a line or two, for where the balance gate holds a piece: the figure,
/// what it was reckoned between, and what one more coat would do. Where the wood or its movement
/// is not known, what each face lets in.
pub fn cup_line(of: &Records<'_>, now: DateTime<Utc>) -> Option<String> {
    let TwoFaces::Open(faces) = show_and_under(of.ticket, of.products) else {
        return None;
    };
    let readings = of.readings(now);
    let (band, assumed) = band_of(&of.book.site(of.piece.job));
    let held = of.air.and_then(|air| emc(air.air).ok());
    let today = Today::of(&readings, &of.book.rule, held.as_ref(), &band);
    let reckoned = wood_of(of.piece, of.book).ok().and_then(|species| {
        let build = Build {
            species: &species,
            construction: of.piece.construction,
            grain: of.book.lie(of.piece).grain,
        };
        cup(of, &build, today.content, &band).ok()
    });
    let Some((risk, sheet)) = reckoned
        .as_ref()
        .and_then(|sheet| Some((sheet.risk()?, sheet)))
    else {
        let part = |face: &FaceSeal| {
            let day = face.lets_in(Exposure::Day1);
            format!("{:.0} to {:.0} %", day.low() * 100.0, day.high() * 100.0)
        };
        return Some(format!(
            "The top lets in {} of what bare wood takes up in a day, the underside {}; name the \
             wood from the table to see the cup.",
            part(&faces.top),
            part(&faces.underside)
        ));
    };
    let taken = if assumed {
        "; the site is not noted, so most of the United States is taken"
    } else {
        ""
    };
    let more = sheet
        .one_more()
        .map_or_else(String::new, |more| format!(" {}", more.line()));
    Some(format!(
        "{} Reckoned from {} to {}{taken}.{more}",
        risk.line(),
        sheet.from.show(),
        sheet.to.show()
    ))
}
