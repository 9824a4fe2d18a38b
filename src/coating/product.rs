//! A product: what its label says, and where each figure came from.

use super::figures::{Figure, FigureSource, LabelFigures};
use super::id::ProductId;
use crate::units::{Money, Volume};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// A length of drying time, in whole minutes at the label's conditions. Written down as that
/// number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(from = "i64", into = "i64")]
pub struct Span(i64);

impl Span {
    /// The longest: a hundred years of 365 days, far beyond any label, and short enough that no
    /// moment plus a span runs off the calendar.
    pub const MAX: Self = Self(100 * 365 * 24 * 60);

    /// From whole minutes; a negative number counts as none, one beyond [`Span::MAX`] as that.
    pub fn minutes(minutes: i64) -> Self {
        Self(minutes.clamp(0, Self::MAX.0))
    }

    /// From whole hours.
    pub fn hours(hours: i64) -> Self {
        Self::minutes(hours.saturating_mul(60))
    }

    /// From whole days of 24 hours.
    pub fn days(days: i64) -> Self {
        Self::hours(days.saturating_mul(24))
    }

    /// Whole minutes.
    pub fn as_minutes(self) -> i64 {
        self.0
    }

    /// As a clock duration.
    pub fn as_duration(self) -> chrono::Duration {
        chrono::Duration::minutes(self.0)
    }
}

impl From<i64> for Span {
    fn from(minutes: i64) -> Self {
        Self::minutes(minutes)
    }
}

impl From<Span> for i64 {
    fn from(span: Span) -> Self {
        span.0
    }
}

/// What a product is for in the finish schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ProductKind {
    /// Wiped on and off before the first coat to lift dust and show scratches.
    Wipe,
    /// Seals bare wood under stain or topcoat.
    Sealer,
    /// Colours; builds no film that counts as a seal.
    Stain,
    /// The film, or the oil, that carries the wear.
    Topcoat,
}

impl ProductKind {
    /// Every kind, in the order of use.
    pub const ALL: [Self; 4] = [Self::Wipe, Self::Sealer, Self::Stain, Self::Topcoat];

    /// The word on screen and in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Wipe => "wipe",
            Self::Sealer => "sealer",
            Self::Stain => "stain",
            Self::Topcoat => "topcoat",
        }
    }

    /// Whether a product of this kind may be used where `needs` is asked: a topcoat may also
    /// seal, as thinned varnish does.
    pub fn fits(self, needs: Self) -> bool {
        self == needs || (self == Self::Topcoat && needs == Self::Sealer)
    }
}

/// The family a product belongs to: it sets how the product dries and which caution applies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// Oil-based wiping polyurethane or wiping varnish.
    OilWipingVarnish,
    /// Oil-based brushing polyurethane.
    OilBrushingVarnish,
    /// Oil-based gel stain.
    OilGelStain,
    /// Oil-based liquid stain.
    OilLiquidStain,
    /// Oil-based conditioner before stain.
    OilConditioner,
    /// Water-borne polyurethane.
    WaterBorne,
    /// Dewaxed shellac sealer.
    Shellac,
    /// Hardwax oil.
    HardwaxOil,
    /// Tung oil, thinned.
    TungOil,
    /// Nitrocellulose lacquer.
    Lacquer,
    /// Mineral spirits or another slow solvent.
    MineralSpirits,
}

impl Family {
    /// Every family, in the order of the ready-made list.
    pub const ALL: [Self; 11] = [
        Self::OilWipingVarnish,
        Self::OilBrushingVarnish,
        Self::OilGelStain,
        Self::OilLiquidStain,
        Self::OilConditioner,
        Self::WaterBorne,
        Self::Shellac,
        Self::HardwaxOil,
        Self::TungOil,
        Self::Lacquer,
        Self::MineralSpirits,
    ];

    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::OilWipingVarnish => "oil wiping varnish",
            Self::OilBrushingVarnish => "oil brushing varnish",
            Self::OilGelStain => "oil gel stain",
            Self::OilLiquidStain => "oil liquid stain",
            Self::OilConditioner => "oil conditioner",
            Self::WaterBorne => "water-borne polyurethane",
            Self::Shellac => "dewaxed shellac",
            Self::HardwaxOil => "hardwax oil",
            Self::TungOil => "tung oil, thinned",
            Self::Lacquer => "nitrocellulose lacquer",
            Self::MineralSpirits => "mineral spirits",
        }
    }

    /// Whether rags wet with it can heat by themselves. Unsure counts as yes (NFPA oily-rag tip
    /// sheet: treat the rag as oily).
    pub fn oily_rags(self) -> bool {
        !matches!(self, Self::WaterBorne | Self::Shellac)
    }

    /// Whether it gives off solvent vapour that can catch fire.
    pub fn solvent_vapour(self) -> bool {
        !matches!(self, Self::WaterBorne)
    }
}

/// Where a product's figures came from, taken together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FigureBasis {
    /// All typed from the can's label or data sheet.
    Label,
    /// Some from the label, the others the usual ones of its family.
    Mixed,
    /// The usual range of its family: to be checked against the can.
    FamilyRange,
}

impl FigureBasis {
    /// What the screen says beside the figures.
    pub fn words(self) -> &'static str {
        match self {
            Self::Label => "from the label",
            Self::Mixed => "label and family figures, check the can",
            Self::FamilyRange => "family figures, check the can label",
        }
    }
}

/// One span of time after a coat in which the next may go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct RecoatWindow {
    /// Earliest, in label time after the coat.
    pub opens: Span,
    /// Latest, or none where the label sets no limit.
    pub closes: Option<Span>,
    /// Whether the coat below must be scuffed inside this window too.
    pub scuff: bool,
}

/// A product the shop uses.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Product {
    /// Its identifier.
    pub id: ProductId,
    /// What the shop calls it.
    pub name: String,
    /// What it is for.
    pub kind: ProductKind,
    /// Its family.
    pub family: Family,
    /// The figures, each with where it came from.
    pub label: LabelFigures,
    /// Size of the can it is priced by.
    pub can: Volume,
    /// Price of that can.
    pub price: Money,
}

/// Why a product cannot be as typed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ProductError {
    /// No name.
    #[error("A product needs a name: type what the shop calls it.")]
    NoName,
    /// No window at all.
    #[error("{name} needs at least one recoat window: type from when the next coat may go on.")]
    NoWindow {
        /// The product.
        name: String,
    },
    /// Windows that overlap or run backwards.
    #[error(
        "The recoat windows of {name} must follow one another: each opens after the one before it \
         has closed, and closes after it opens."
    )]
    Windows {
        /// The product.
        name: String,
    },
    /// Stages in an order that no film goes through.
    #[error(
        "{name} cannot be {} after {later_time} when it is {} only after {earlier_time}: look at \
         both again.",
        .later.reached(), .earlier.reached()
    )]
    Order {
        /// The product.
        name: String,
        /// The stage that comes earlier.
        earlier: Figure,
        /// Its time.
        earlier_time: String,
        /// The stage that comes later.
        later: Figure,
        /// Its time.
        later_time: String,
    },
    /// Air so damp that nothing can be reckoned from it.
    #[error(
        "The drying times of {name} cannot hold in air of {humidity}: type the label's figure, \
         most often 50, or leave it empty."
    )]
    ReferenceHumidity {
        /// The product.
        name: String,
        /// What was given.
        humidity: String,
    },
    /// Solids outside 0 to 100.
    #[error("Volume solids of {name} must lie between 0 and 100 per cent.")]
    Solids {
        /// The product.
        name: String,
    },
    /// Can of no size.
    #[error("The can of {name} must hold something: type its size, for example 1 qt.")]
    NoCan {
        /// The product.
        name: String,
    },
    /// No spread rate.
    #[error("{name} needs a spread rate: type the label's figure, for example 625 ft2/gal.")]
    NoSpread {
        /// The product.
        name: String,
    },
}

impl Product {
    /// Where its figures came from, taken together.
    pub fn basis(&self) -> FigureBasis {
        let from = |source| {
            Figure::ALL
                .into_iter()
                .any(|f| self.label.source(f) == source)
        };
        match (from(FigureSource::Label), from(FigureSource::FamilyRange)) {
            (true, false) => FigureBasis::Label,
            (true, true) => FigureBasis::Mixed,
            (false, _) => FigureBasis::FamilyRange,
        }
    }

    /// Checks what the types alone cannot.
    pub fn check(&self) -> Result<(), ProductError> {
        let name = self.name.clone();
        if name.trim().is_empty() {
            return Err(ProductError::NoName);
        }
        if self.label.windows.is_empty() {
            return Err(ProductError::NoWindow { name });
        }
        let mut free_from = Some(Span::minutes(0));
        for window in &self.label.windows {
            let follows = free_from.is_some_and(|from| window.opens >= from);
            if !follows || window.closes.is_some_and(|closes| closes <= window.opens) {
                return Err(ProductError::Windows { name });
            }
            free_from = window.closes;
        }
        if !(0.0..=100.0).contains(&self.label.solids_pct) {
            return Err(ProductError::Solids { name });
        }
        if self.can.ul() <= 0 {
            return Err(ProductError::NoCan { name });
        }
        let rate = self.label.spread.m2_per_l();
        if self.kind != ProductKind::Wipe && !(rate.is_finite() && rate > 0.0) {
            return Err(ProductError::NoSpread { name });
        }
        Ok(())
    }

    /// What `used` of it costs at the can's price, rounded to the cent (half away from zero).
    pub fn cost_of(&self, used: Volume) -> Money {
        self.price.share(used.ul(), self.can.ul())
    }
}
