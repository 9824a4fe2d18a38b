//! The finishes whose moisture exclusion has been asked about, and for how long.

use serde::{Deserialize, Serialize};

/// A kind of finish, as the published tests divide them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FinishKind {
    /// Oil-modified urethane varnish: oil-based polyurethane.
    UrethaneVarnish,
    /// Two-component polyurethane paint, gloss.
    PolyurethanePaint,
    /// Two-component clear polyurethane.
    ClearPolyurethane,
    /// Water-borne polyurethane: no published figure was found.
    WaterbornePolyurethane,
    /// Spar varnish.
    SparVarnish,
    /// Shellac.
    Shellac,
    /// Nitrocellulose lacquer.
    Lacquer,
    /// Two-part clear epoxy.
    Epoxy,
    /// Gloss enamel.
    GlossEnamel,
    /// Tung oil.
    TungOil,
    /// Linseed oil.
    LinseedOil,
    /// Hardwax oil: no published figure was found.
    HardwaxOil,
    /// Furniture (paste) wax.
    FurnitureWax,
    /// Paraffin wax, dipped.
    ParaffinDipped,
    /// Paraffin wax, brushed.
    ParaffinBrushed,
    /// Water repellent.
    WaterRepellent,
    /// Alkyd (maleic-alkyd) house primer.
    AlkydPrimer,
    /// Alkyd flat wall paint.
    AlkydWallPaint,
    /// Acrylic latex house primer.
    LatexHousePrimer,
    /// Acrylic latex flat house paint.
    LatexHousePaint,
    /// Latex flat wall paint.
    LatexWallPaint,
    /// Butadiene-styrene latex primer.
    LatexPrimer,
    /// Solid-color oil stain.
    SolidOilStain,
    /// Solid-color latex stain.
    SolidLatexStain,
    /// Semitransparent oil stain.
    SemitransparentOilStain,
}

impl FinishKind {
    /// Every kind, clear finishes first.
    pub const ALL: [Self; 25] = [
        Self::UrethaneVarnish,
        Self::PolyurethanePaint,
        Self::ClearPolyurethane,
        Self::WaterbornePolyurethane,
        Self::SparVarnish,
        Self::Shellac,
        Self::Lacquer,
        Self::Epoxy,
        Self::GlossEnamel,
        Self::TungOil,
        Self::LinseedOil,
        Self::HardwaxOil,
        Self::FurnitureWax,
        Self::ParaffinDipped,
        Self::ParaffinBrushed,
        Self::WaterRepellent,
        Self::AlkydPrimer,
        Self::AlkydWallPaint,
        Self::LatexHousePrimer,
        Self::LatexHousePaint,
        Self::LatexWallPaint,
        Self::LatexPrimer,
        Self::SolidOilStain,
        Self::SolidLatexStain,
        Self::SemitransparentOilStain,
    ];

    /// The words on screen and paper.
    pub fn words(self) -> &'static str {
        match self {
            Self::UrethaneVarnish => "oil-based urethane varnish",
            Self::PolyurethanePaint => "two-part polyurethane paint",
            Self::ClearPolyurethane => "two-part clear polyurethane",
            Self::WaterbornePolyurethane => "water-borne polyurethane",
            Self::SparVarnish => "spar varnish",
            Self::Shellac => "shellac",
            Self::Lacquer => "nitrocellulose lacquer",
            Self::Epoxy => "two-part epoxy",
            Self::GlossEnamel => "gloss enamel",
            Self::TungOil => "tung oil",
            Self::LinseedOil => "linseed oil",
            Self::HardwaxOil => "hardwax oil",
            Self::FurnitureWax => "furniture wax",
            Self::ParaffinDipped => "paraffin wax, dipped",
            Self::ParaffinBrushed => "paraffin wax, brushed",
            Self::WaterRepellent => "water repellent",
            Self::AlkydPrimer => "alkyd house primer",
            Self::AlkydWallPaint => "alkyd wall paint",
            Self::LatexHousePrimer => "acrylic latex house primer",
            Self::LatexHousePaint => "acrylic latex house paint",
            Self::LatexWallPaint => "latex wall paint",
            Self::LatexPrimer => "butadiene-styrene latex primer",
            Self::SolidOilStain => "solid-color oil stain",
            Self::SolidLatexStain => "solid-color latex stain",
            Self::SemitransparentOilStain => "semitransparent oil stain",
        }
    }
}

/// How long the damp air had worked in the published tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Exposure {
    /// One day.
    Day1,
    /// Seven days.
    Day7,
    /// Fourteen days.
    Day14,
}

impl Exposure {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Day1, Self::Day7, Self::Day14];

    /// In days.
    pub fn days(self) -> u8 {
        match self {
            Self::Day1 => 1,
            Self::Day7 => 7,
            Self::Day14 => 14,
        }
    }
}
