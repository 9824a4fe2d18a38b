//! The shop's records about wood: moisture readings of pieces, the air at the client's, how a
//! piece's wood lies and is held, and the shop's own woods.

use super::id::{JobId, PieceId, ReadingId, WoodId};
use super::pass::Air as ShopAir;
use super::piece::{Piece, PieceKind};
use crate::units::Length;
use crate::wood::moisture::{
    Air, EmcError, MoistureContent, Reading, ReadyRule, Region, SeasonBand, SiteNote,
};
use crate::wood::movement::{Grain, HoldLine, Situation, SpacingRule};
use crate::wood::species::{OwnWood, SpeciesTable};

/// One moisture reading of one piece, on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moisture {
    /// Its identifier.
    pub id: ReadingId,
    /// The piece it was taken on.
    pub piece: PieceId,
    /// What was read.
    pub reading: Reading,
}

/// What is known of the air in the client's rooms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SiteAir {
    /// Indoor air in winter and in summer, typed.
    Air {
        /// In winter.
        winter: Air,
        /// In summer.
        summer: Air,
    },
    /// A region of the handbook.
    Region(Region),
    /// The driest and the wettest the wood gets, which the shop knows.
    Given {
        /// The driest.
        driest: MoistureContent,
        /// The wettest.
        wettest: MoistureContent,
    },
}

/// The client's site, as far as wood minds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Site {
    /// The job whose site it is.
    pub job: JobId,
    /// Its air, when anything is known of it.
    pub air: Option<SiteAir>,
    /// Heating in the floor.
    pub radiant_floor: bool,
    /// A new concrete slab.
    pub new_slab: bool,
}

impl Site {
    /// A site nothing is known of.
    pub fn unknown(job: JobId) -> Self {
        Self {
            job,
            air: None,
            radiant_floor: false,
            new_slab: false,
        }
    }

    /// The moisture of the year there, with its basis; none while nothing is known of the air.
    ///
    /// # Errors
    /// [`EmcError`] for air that the handbook's equation does not cover.
    pub fn band(&self) -> Result<Option<SeasonBand>, EmcError> {
        self.air
            .map(|air| match air {
                SiteAir::Air { winter, summer } => SeasonBand::from_air(winter, summer),
                SiteAir::Region(region) => Ok(SeasonBand::from_region(region)),
                SiteAir::Given { driest, wettest } => Ok(SeasonBand::given(driest, wettest)),
            })
            .transpose()
    }

    /// What makes the band uncertain.
    pub fn notes(&self) -> Vec<SiteNote> {
        let noted = [
            (self.radiant_floor, SiteNote::RadiantFloor),
            (self.new_slab, SiteNote::NewSlab),
        ];
        noted
            .into_iter()
            .filter_map(|(is, note)| is.then_some(note))
            .collect()
    }
}

/// How a piece's wood lies and how the piece will be held: what its movement and fastening follow
/// from, beside its shape and build.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceWood {
    /// The piece.
    pub piece: PieceId,
    /// The wood's name in the table; empty when the ticket's species names it well enough.
    pub wood: String,
    /// How its boards were sawn.
    pub grain: Grain,
    /// Where its width is held, as seen from the back edge, where the gap is.
    pub held: HoldLine,
    /// Diameter of the screws that hold it.
    pub screw: Length,
    /// How far apart the fasteners may stand.
    pub spacing: SpacingRule,
    /// Between the two holes of a figure-eight.
    pub eight: Length,
    /// What else is to be minded where it stands.
    pub situations: Vec<Situation>,
}

impl PieceWood {
    /// What counts while nothing was said: grain unknown, held at the front edge, so that the
    /// back edge takes all the movement; 1/4 in screws, 18 in apart at most, figure-eights of
    /// 3/4 in between the holes (common sizes, no source).
    pub fn unsaid(piece: PieceId) -> Self {
        let sixteenths = |n: i64| Length::from_nm(n * Length::NM_PER_INCH / 16);
        Self {
            piece,
            wood: String::new(),
            grain: Grain::Unknown,
            held: HoldLine::OppositeEdge,
            screw: sixteenths(4),
            spacing: SpacingRule::Close,
            eight: sixteenths(12),
            situations: Vec::new(),
        }
    }
}

/// A size of a fastener that cannot be.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{what} of {size} cannot be; it lies {range}.")]
pub struct FastenerError {
    /// Which size.
    pub what: &'static str,
    /// The size.
    pub size: String,
    /// Within which it lies.
    pub range: &'static str,
}

impl PieceWood {
    /// Whether its fasteners can be.
    ///
    /// # Errors
    /// [`FastenerError`] for a screw over 1 in, a figure-eight over 4 in, a spacing under 2 in or over 100 ft, or
    /// anything not above nothing.
    pub fn check(&self) -> Result<(), FastenerError> {
        let inches = |n: i64| Length::from_nm(n * Length::NM_PER_INCH);
        let within = |what, size: Length, least, most, range| {
            if size > Length::ZERO && size >= least && size <= most {
                return Ok(());
            }
            let size = crate::wood::movement::both(size);
            Err(FastenerError { what, size, range })
        };
        let none = Length::ZERO;
        let range = "above 0 and at most 1 in";
        within("A screw", self.screw, none, inches(1), range)?;
        let range = "above 0 and at most 4 in";
        within("A figure-eight", self.eight, none, inches(4), range)?;
        if let SpacingRule::Own(apart) = self.spacing {
            // Closer than their own length no blocks or clips go in (common practice, no source).
            let range = "at least 2 in and at most 100 ft";
            within("A spacing", apart, inches(2), Length::MAX, range)?;
        }
        Ok(())
    }
}

/// A wood of the shop's own, on record.
#[derive(Debug, Clone, PartialEq)]
pub struct ShopWood {
    /// Its identifier.
    pub id: WoodId,
    /// The wood.
    pub wood: OwnWood,
}

/// All that the shop has on record about wood.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WoodBook {
    /// Readings of the pieces read, by piece, then by moment.
    pub readings: Vec<Moisture>,
    /// Sites, by job.
    pub sites: Vec<Site>,
    /// How pieces lie and are held, by piece.
    pub pieces: Vec<PieceWood>,
    /// The shop's own woods, by name.
    pub own: Vec<ShopWood>,
    /// The rule by which a piece counts as ready.
    pub rule: ReadyRule,
}

impl WoodBook {
    /// The same with every list in its order.
    #[must_use]
    pub fn in_order(mut self) -> Self {
        self.readings
            .sort_by_key(|of| (of.piece, of.reading.at, of.id));
        self.sites.sort_by_key(|site| site.job);
        self.pieces.sort_by_key(|of| of.piece);
        self.own
            .sort_by_cached_key(|own| (own.wood.name.to_lowercase(), own.id));
        self
    }

    /// The readings of a piece, in order of time.
    pub fn moisture(&self, piece: PieceId) -> &[Moisture] {
        let from = self.readings.partition_point(|of| of.piece < piece);
        let to = self.readings.partition_point(|of| of.piece <= piece);
        self.readings.get(from..to).unwrap_or_default()
    }

    /// The site of a job; one nothing is known of when nothing was noted.
    pub fn site(&self, job: JobId) -> Site {
        self.sites
            .iter()
            .find(|site| site.job == job)
            .copied()
            .unwrap_or_else(|| Site::unknown(job))
    }

    /// How a piece lies and is held: as noted, or what counts while nothing was said; islands and
    /// tables are then held along the middle.
    pub fn lie(&self, piece: &Piece) -> PieceWood {
        if let Some(noted) = self.noted(piece.id) {
            return noted.clone();
        }
        let free = matches!(piece.kind, PieceKind::Island | PieceKind::Table);
        let mut lie = PieceWood::unsaid(piece.id);
        if free {
            lie.held = HoldLine::Middle;
        }
        lie
    }

    /// The same, only when something was noted.
    pub fn noted(&self, piece: PieceId) -> Option<&PieceWood> {
        self.pieces.iter().find(|of| of.piece == piece)
    }

    /// The built-in table of woods with the shop's own beside it. A wood of the shop's own whose
    /// name has come into the built-in table since is left out: the published row stands.
    pub fn table(&self) -> SpeciesTable {
        let mut table = SpeciesTable::new();
        for own in &self.own {
            let _ = table.add(own.wood.clone());
        }
        table
    }
}

impl From<ShopAir> for Air {
    fn from(air: ShopAir) -> Self {
        Self::new(air.temperature, air.humidity)
    }
}
