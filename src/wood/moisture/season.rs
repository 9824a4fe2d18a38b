//! The moisture a top goes through in a year at the client's address, and what it should have when
//! it goes in.

use serde::{Deserialize, Serialize};

use super::content::MoistureContent;
use super::emc::{Air, EmcError, emc};
use crate::units::TemperatureStyle;
use crate::wood::{Between, Standing};

/// Parts of the United States with a recommended moisture content at installation of interior
/// woodwork (Wood Handbook Table 13-2 and the map of Figure 13-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Region {
    /// Most of the United States.
    Most,
    /// The dry Southwest.
    DrySouthwest,
    /// The damp, warm coast.
    DampWarmCoast,
}

/// What a region asks for at installation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Installation {
    /// The average of the pieces.
    pub average: MoistureContent,
    /// Where the average comes from.
    pub average_standing: Standing,
    /// Within which single pieces may lie.
    pub pieces: Between<MoistureContent>,
    /// Where that range comes from.
    pub pieces_standing: Standing,
    /// Document and table.
    pub source: &'static str,
}

impl Region {
    /// Every region.
    pub const ALL: [Self; 3] = [Self::Most, Self::DrySouthwest, Self::DampWarmCoast];

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Most => "most of the United States",
            Self::DrySouthwest => "the dry Southwest",
            Self::DampWarmCoast => "the damp, warm coast",
        }
    }

    /// What it asks for at installation: the averages read second-hand, the ranges of single
    /// pieces from memory.
    pub fn installation(self) -> Installation {
        let (average, low, high) = match self {
            Self::Most => (8.0, 6.0, 10.0),
            Self::DrySouthwest => (6.0, 4.0, 9.0),
            Self::DampWarmCoast => (11.0, 8.0, 13.0),
        };
        let content = MoistureContent::from_percent_clamped;
        Installation {
            average: content(average),
            average_standing: Standing::SecondHand,
            pieces: Between::new(content(low), content(high)),
            pieces_standing: Standing::Memory,
            source: "Wood Handbook ch. 13, Table 13-2 and Figure 13-1",
        }
    }
}

/// What a band rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BandBasis {
    /// Winter and summer air indoors, typed.
    Typed {
        /// Indoor air in winter.
        winter: Air,
        /// Indoor air in summer.
        summer: Air,
        /// Whether one of them lies outside the printed table.
        rough: bool,
    },
    /// The range of single pieces at installation in a region, taken for the year.
    Region(Region),
    /// Two moisture contents typed by the shop.
    Given,
}

/// The driest and the wettest a top gets in a year, indoors at the client's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeasonBand {
    /// From driest to wettest.
    pub contents: Between<MoistureContent>,
    /// What it rests on.
    pub basis: BandBasis,
}

impl SeasonBand {
    /// From indoor air in winter and in summer, each held long enough for the wood to follow
    /// (eq. 4-5). Whichever is drier is the dry end.
    ///
    /// # Errors
    /// [`EmcError`] for air the equation does not cover.
    pub fn from_air(winter: Air, summer: Air) -> Result<Self, EmcError> {
        let (cold, warm) = (emc(winter)?, emc(summer)?);
        Ok(Self {
            contents: Between::new(cold.content, warm.content),
            basis: BandBasis::Typed {
                winter,
                summer,
                rough: !(cold.within_table && warm.within_table),
            },
        })
    }

    /// From a region of the handbook, for want of anything better.
    pub fn from_region(region: Region) -> Self {
        Self {
            contents: region.installation().pieces,
            basis: BandBasis::Region(region),
        }
    }

    /// From two moisture contents that the shop knows of.
    pub fn given(one: MoistureContent, other: MoistureContent) -> Self {
        Self {
            contents: Between::new(one, other),
            basis: BandBasis::Given,
        }
    }

    /// The driest.
    pub fn driest(&self) -> MoistureContent {
        self.contents.low()
    }

    /// The wettest.
    pub fn wettest(&self) -> MoistureContent {
        self.contents.high()
    }

    /// Midway: the best moisture content to install at (Forest Products Laboratory report R1655,
    /// 1955: close to the midpoint of what the wood will see in use).
    pub fn midpoint(&self) -> MoistureContent {
        MoistureContent::from_percent_clamped(f64::midpoint(
            self.driest().percent(),
            self.wettest().percent(),
        ))
    }

    /// How far the band's figures may be trusted.
    pub fn standing(&self) -> Standing {
        match self.basis {
            BandBasis::Typed { .. } => Standing::SecondHand,
            BandBasis::Region(region) => region.installation().pieces_standing,
            BandBasis::Given => Standing::ShopsOwn,
        }
    }

    /// `5.4% to 9.4%`.
    pub fn show(&self) -> String {
        format!("{} to {}", self.driest().show(), self.wettest().show())
    }

    /// What the band rests on, in words.
    pub fn basis_words(&self, style: TemperatureStyle) -> String {
        match self.basis {
            BandBasis::Typed {
                winter,
                summer,
                rough,
            } => format!(
                "estimated from winter air {} and summer air {} by Wood Handbook eq. 4-5, p. 4-3{}",
                winter.show(style),
                summer.show(style),
                if rough {
                    "; partly outside its table, so rough"
                } else {
                    ""
                }
            ),
            BandBasis::Region(region) => format!(
                "range of single pieces at installation for {}, {} ({}); the address itself may \
                 swing further: type its winter and summer air",
                region.words(),
                region.installation().source,
                region.installation().pieces_standing.words()
            ),
            BandBasis::Given => "your own figures".to_owned(),
        }
    }
}

impl SeasonBand {
    /// What the band rests on, as the client is told.
    pub fn basis_for_client(&self, style: TemperatureStyle) -> String {
        match self.basis {
            BandBasis::Typed { .. } => self.basis_words(style),
            BandBasis::Region(region) => format!(
                "what pieces are set at in {}, {} ({}); your own rooms may swing further",
                region.words(),
                region.installation().source,
                region.installation().pieces_standing.words()
            ),
            BandBasis::Given => "figures of the shop's own".to_owned(),
        }
    }
}

/// Something at the client's that makes the band uncertain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SiteNote {
    /// Heating in the floor.
    RadiantFloor,
    /// A new concrete slab.
    NewSlab,
}

impl SiteNote {
    /// Every note.
    pub const ALL: [Self; 2] = [Self::RadiantFloor, Self::NewSlab];

    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::RadiantFloor => "radiant floor",
            Self::NewSlab => "new concrete slab",
        }
    }

    /// What to do about it. No figure is changed by it.
    pub fn caution(self) -> &'static str {
        match self {
            Self::RadiantFloor => {
                "Floor heat dries a top from below: the dry end may lie under this band, so log the \
                 room's air in the heating season (a 49 x 96 in island over floor heat cupped \
                 within four months, trade forum 2010)."
            }
            Self::NewSlab => {
                "A new slab gives off water for months: log the room's air and meter the top on \
                 site before it is set (common practice, no source)."
            }
        }
    }

    /// The same, as the client is told.
    pub fn for_client(self) -> &'static str {
        match self {
            Self::RadiantFloor => {
                "Heat in the floor dries a top from below: it may shrink further than reckoned here, \
                 so keep the humidity up in the heating season."
            }
            Self::NewSlab => {
                "A new concrete slab gives off water for months (common practice, no source): until \
                 it has dried, the rooms may be damper than reckoned here."
            }
        }
    }
}
