//! What the wood of one piece will do: reckoned from its readings, the site, its shape and build,
//! and the coats its faces carry.
//!
//! Lives here: bringing the shop's records to the rooms of wood, and what is taken where a record
//! is missing, said as taken. May not live here: formulas of wood, words for paper or screen.

mod fastening;
mod parts;
mod places;
mod seals;
mod surroundings;

pub use fastening::{CutoutRoom, Fastening, LegMoves, Lengthwise, PartFastening, ScrewRow};
pub use parts::{LegsAt, Part, PartName, Parts};
pub use places::{PlaceCurve, Today, TodayBasis};
pub use seals::{CupAnswer, CupReckoned, CupSheet, FaceSealing, cup_line, finish_of};

use super::face_state::FaceState;
use super::moisture::{PieceWood, Site, WoodBook};
use super::piece::Piece;
use super::ticket::Ticket;
use crate::coating::Product;
use crate::wood::moisture::{
    Air, Emc, EmcError, Readiness, Reading, ReadyFor, Region, SeasonBand, emc, judge,
};
use crate::wood::movement::{Axis, Build, MovementError, Surroundings, YearMovement};
use crate::wood::species::{LookUpError, Species};
use chrono::{DateTime, Utc};

/// The shop's air as wood meets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShopsAir {
    /// The air.
    pub air: Air,
    /// How it is known.
    pub basis: AirBasis,
}

/// How the shop's air is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AirBasis {
    /// Typed for this question.
    Typed,
    /// One reading, noted then.
    Noted(DateTime<Utc>),
    /// The mean of the shop's usual air, which rests on so many days.
    Usual {
        /// Days.
        days: u16,
    },
}

/// What is looked at to reckon a piece.
#[derive(Clone, Copy)]
pub struct Records<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// Its folded log.
    pub ticket: &'a Ticket,
    /// What is on record about wood.
    pub book: &'a WoodBook,
    /// The products on the shelf.
    pub products: &'a [Product],
    /// The shop's air, if it is known.
    pub air: Option<ShopsAir>,
}

/// Movement and fastening of a piece whose wood is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Moves {
    /// The top in words: wood, construction, grain.
    pub build: String,
    /// The whole top, or the run and legs it is joined from.
    pub parts: Parts,
    /// The whole top or the run across the grain, over the year.
    pub across: YearMovement,
    /// Along the grain.
    pub along: YearMovement,
    /// What to leave and how to hold.
    pub fastening: Fastening,
    /// What stands round it.
    pub surroundings: Surroundings,
    /// The legs of a joined L or U.
    pub legs: Vec<LegMoves>,
    /// What the overall width of a joined top would do if its boards all ran one way.
    pub one_way: Option<YearMovement>,
    /// The cup that its faces risk.
    pub cup: CupSheet,
}

/// Why movement is not reckoned.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoMoves {
    /// The wood is not found in the table.
    #[error(transparent)]
    Wood(#[from] LookUpError),
    /// Its row or a size does not serve.
    #[error(transparent)]
    Movement(#[from] MovementError),
}

/// All that is reckoned of a piece's wood.
#[derive(Debug, Clone, PartialEq)]
pub struct WoodSheet {
    /// The row of the table, when the wood is found there.
    pub wood: Result<Species, LookUpError>,
    /// How it lies and is held.
    pub lie: PieceWood,
    /// The site.
    pub site: Site,
    /// The year at the client's; assumed when `assumed`.
    pub band: SeasonBand,
    /// Whether the band is only taken, because nothing is known of the site.
    pub assumed: bool,
    /// The shop's air, and what it holds wood at.
    pub air: Option<(ShopsAir, Result<Emc, EmcError>)>,
    /// The moisture content that counts as today's.
    pub today: Today,
    /// Place by place: readings and curve.
    pub places: Vec<PlaceCurve>,
    /// Ready to mill, to finish, to set.
    pub ready: Vec<Readiness>,
    /// Movement, fastening, cup.
    pub moves: Result<Moves, NoMoves>,
    /// What each face holds back.
    pub faces: Vec<FaceSealing>,
}

/// The wood of a piece: as noted for it, else as the ticket's species names it.
///
/// # Errors
/// [`LookUpError`] when that names no row of the table, or several.
pub fn wood_of(piece: &Piece, book: &WoodBook) -> Result<Species, LookUpError> {
    let lie = book.lie(piece);
    let named = if lie.wood.is_empty() {
        &piece.species
    } else {
        &lie.wood
    };
    book.table().find(named).cloned()
}

/// The year at a job's site; when nothing is known of it, or its air is beyond the equation, that
/// of most of the United States, and `true`.
pub fn band_of(site: &Site) -> (SeasonBand, bool) {
    match site.band() {
        Ok(Some(band)) => (band, false),
        Ok(None) | Err(_) => (SeasonBand::from_region(Region::Most), true),
    }
}

impl Records<'_> {
    /// The readings of the piece that were taken by `now`.
    fn readings(&self, now: DateTime<Utc>) -> Vec<Reading> {
        let all = self.book.moisture(self.piece.id).iter();
        all.map(|of| &of.reading)
            .filter(|reading| reading.at <= now)
            .cloned()
            .collect()
    }

    /// Reckons everything.
    pub fn sheet(&self, now: DateTime<Utc>) -> WoodSheet {
        let (piece, book) = (self.piece, self.book);
        let readings = self.readings(now);
        let site = book.site(piece.job);
        let (band, assumed) = band_of(&site);
        let air = self.air.map(|air| (air, emc(air.air)));
        let held = air.as_ref().and_then(|(_, emc)| emc.as_ref().ok());
        let today = Today::of(&readings, &book.rule, held, &band);
        let known_band = (!assumed).then_some(&band);
        let ready = ReadyFor::ALL
            .into_iter()
            .map(|goal| judge(goal, &readings, &book.rule, known_band, now))
            .collect();
        let wood = wood_of(piece, book);
        let lie = book.lie(piece);
        let moves = self.moves(&wood, &lie, &today, &band);
        WoodSheet {
            places: places::curves(&readings, held),
            faces: seals::faces(self.ticket, self.products),
            wood,
            lie,
            site,
            band,
            assumed,
            air,
            today,
            ready,
            moves,
        }
    }

    fn moves(
        &self,
        wood: &Result<Species, LookUpError>,
        lie: &PieceWood,
        today: &Today,
        band: &SeasonBand,
    ) -> Result<Moves, NoMoves> {
        let species = wood.as_ref().map_err(Clone::clone)?;
        let build = Build {
            species,
            construction: self.piece.construction,
            grain: lie.grain,
        };
        let parts = Parts::of(self.piece, lie);
        let through = fastening::Through {
            build: &build,
            lie,
            today: today.content,
            band,
        };
        let one_way = match parts.main.name {
            PartName::Whole => None,
            _ => Some(through.year(Axis::Width, parts.overall)?),
        };
        Ok(Moves {
            build: build.words(),
            across: through.year(Axis::Width, parts.main.width)?,
            along: through.year(Axis::Length, parts.main.length)?,
            fastening: through.fastening(self.piece, &parts)?,
            surroundings: surroundings::of(self.piece, lie),
            legs: through.legs(&parts)?,
            one_way,
            cup: seals::cup(self, &build, today.content, band)?,
            parts,
        })
    }
}

/// The face that stands for the underside: all of it, or its field where it is split.
fn underside(ticket: &Ticket) -> Option<&FaceState> {
    use crate::shape::FaceKey::{Band, Field, Underside};
    [Underside, Field, Band]
        .into_iter()
        .find_map(|key| ticket.face(key))
}
