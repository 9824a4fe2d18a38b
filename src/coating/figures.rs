//! The figures of a product, each of which can say where it came from.

use super::product::{RecoatWindow, Span};
use crate::units::{Density, Humidity, Length, SpreadRate, Temperature};
use serde::{Deserialize, Serialize};

/// One figure of a product's label.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Figure {
    /// Spread rate.
    Spread,
    /// Wet film of one coat.
    WetFilm,
    /// Dry film of one coat.
    DryFilm,
    /// Volume solids.
    Solids,
    /// Weight per volume.
    Density,
    /// Volatile organic compounds.
    Voc,
    /// The temperature at which the drying times hold.
    Reference,
    /// The humidity at which they hold.
    ReferenceHumidity,
    /// Set to touch.
    Touch,
    /// Tack-free.
    TackFree,
    /// Recoat windows.
    Windows,
    /// Dry to handle.
    Handle,
    /// Light use.
    LightUse,
    /// Full cure.
    FullCure,
    /// Coldest air and wood.
    MinTemp,
    /// Dampest air.
    MaxHumidity,
}

impl Figure {
    /// Every figure, in the order in which a label is read.
    pub const ALL: [Self; 16] = [
        Self::Spread,
        Self::WetFilm,
        Self::DryFilm,
        Self::Solids,
        Self::Density,
        Self::Voc,
        Self::Reference,
        Self::ReferenceHumidity,
        Self::Touch,
        Self::TackFree,
        Self::Windows,
        Self::Handle,
        Self::LightUse,
        Self::FullCure,
        Self::MinTemp,
        Self::MaxHumidity,
    ];

    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Spread => "spread rate",
            Self::WetFilm => "wet film",
            Self::DryFilm => "dry film",
            Self::Solids => "volume solids",
            Self::Density => "weight per volume",
            Self::Voc => "VOC",
            Self::Reference => "times hold at",
            Self::ReferenceHumidity => "humidity of times",
            Self::Touch => "set to touch",
            Self::TackFree => "tack-free",
            Self::Windows => "recoat",
            Self::Handle => "dry to handle",
            Self::LightUse => "light use",
            Self::FullCure => "full cure",
            Self::MinTemp => "coldest use",
            Self::MaxHumidity => "dampest use",
        }
    }

    /// Of a drying stage: what a film that has reached it is.
    pub fn reached(self) -> &'static str {
        match self {
            Self::LightUse => "ready for light use",
            Self::FullCure => "fully cured",
            _ => self.word(),
        }
    }

    /// The word in files.
    pub fn code(self) -> &'static str {
        match self {
            Self::Spread => "spread",
            Self::WetFilm => "wet-film",
            Self::DryFilm => "dry-film",
            Self::Solids => "solids",
            Self::Density => "density",
            Self::Voc => "voc",
            Self::Reference => "reference",
            Self::ReferenceHumidity => "reference-humidity",
            Self::Touch => "touch",
            Self::TackFree => "tack-free",
            Self::Windows => "windows",
            Self::Handle => "handle",
            Self::LightUse => "light-use",
            Self::FullCure => "full-cure",
            Self::MinTemp => "min-temp",
            Self::MaxHumidity => "max-humidity",
        }
    }

    /// The figure of a word in files.
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|figure| figure.code() == code)
    }

    fn bit(self) -> u32 {
        // The number of a variant of a fieldless enum: 0 to 15.
        1 << self as u32
    }
}

/// Some of the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(from = "Vec<Figure>", into = "Vec<Figure>")]
pub struct FigureSet(u32);

impl FigureSet {
    /// None of them.
    pub const NONE: Self = Self(0);

    /// All of them.
    pub fn all() -> Self {
        Figure::ALL.into_iter().collect()
    }

    /// Whether this one is among them.
    pub fn has(self, figure: Figure) -> bool {
        self.0 & figure.bit() != 0
    }

    /// Puts this one in, or takes it out.
    pub fn set(&mut self, figure: Figure, is_in: bool) {
        if is_in {
            self.0 |= figure.bit();
        } else {
            self.0 &= !figure.bit();
        }
    }

    /// They, in the order of [`Figure::ALL`].
    pub fn iter(self) -> impl Iterator<Item = Figure> {
        Figure::ALL.into_iter().filter(move |f| self.has(*f))
    }
}

impl FromIterator<Figure> for FigureSet {
    fn from_iter<I: IntoIterator<Item = Figure>>(figures: I) -> Self {
        let mut set = Self::NONE;
        for figure in figures {
            set.set(figure, true);
        }
        set
    }
}

impl From<Vec<Figure>> for FigureSet {
    fn from(figures: Vec<Figure>) -> Self {
        figures.into_iter().collect()
    }
}

impl From<FigureSet> for Vec<Figure> {
    fn from(set: FigureSet) -> Self {
        set.iter().collect()
    }
}

/// Where one figure came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FigureSource {
    /// Read off the can's label or the data sheet.
    Label,
    /// The usual one of its family: to be checked against the can.
    FamilyRange,
    /// Learned from this shop's touch tests.
    ShopTests,
    /// Nobody gave it.
    NotGiven,
}

impl FigureSource {
    /// What the screen says beside the figure.
    pub fn words(self) -> &'static str {
        match self {
            Self::Label => "from the label",
            Self::FamilyRange => "family range, check the can label",
            Self::ShopTests => "this shop's touch tests",
            Self::NotGiven => "not given",
        }
    }

    /// The word in `--json`.
    pub fn code(self) -> &'static str {
        match self {
            Self::Label => "label",
            Self::FamilyRange => "family-range",
            Self::ShopTests => "shop-tests",
            Self::NotGiven => "not-given",
        }
    }
}

/// Volatile organic compounds, whole milligrams per litre of the wet product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Voc(u32);

impl Voc {
    /// Grams per litre in one pound per US gallon: 453.59237 / 3.785411784.
    const G_PER_L_OF_LB_PER_GAL: f64 = 453.592_37 / 3.785_411_784;

    /// From grams per litre, to the nearest milligram; `None` below nothing and above 3000 g/L,
    /// which no finish weighs.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 0 and 3 million on the line above"
    )]
    pub fn from_g_per_l(grams: f64) -> Option<Self> {
        (0.0..=3_000.0)
            .contains(&grams)
            .then(|| Self((grams * 1000.0).round() as u32))
    }

    /// From pounds per US gallon.
    pub fn from_lb_per_gal(pounds: f64) -> Option<Self> {
        Self::from_g_per_l(pounds * Self::G_PER_L_OF_LB_PER_GAL)
    }

    /// Milligrams per litre.
    pub fn mg_per_l(self) -> u32 {
        self.0
    }

    /// Grams per litre.
    pub fn g_per_l(self) -> f64 {
        f64::from(self.0) / 1000.0
    }

    /// `446 g/L`.
    pub fn show(self) -> String {
        format!("{:.0} g/L", self.g_per_l())
    }
}

/// The figures on the can.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LabelFigures {
    /// Area one coat covers per volume.
    pub spread: SpreadRate,
    /// Wet film of one coat, where the sheet states it.
    pub wet_film: Option<Length>,
    /// Dry film of one coat, where the sheet states it.
    pub dry_film: Option<Length>,
    /// Volume solids, per cent of the wet volume that stays as film.
    pub solids_pct: f64,
    /// Weight per volume.
    pub density: Density,
    /// Volatile organic compounds, where the label states them.
    pub voc: Option<Voc>,
    /// The temperature at which the drying times hold.
    pub reference: Temperature,
    /// The humidity at which they hold, where the label states it; without, half-damp air
    /// ([`LabelFigures::STANDARD_HUMIDITY`]).
    pub reference_humidity: Option<Humidity>,
    /// Set to touch.
    pub touch: Span,
    /// Tack-free.
    pub tack_free: Span,
    /// The allowed recoat windows, earliest first; at least one.
    pub windows: Vec<RecoatWindow>,
    /// Dry to handle.
    pub handle: Span,
    /// Light use.
    pub light_use: Span,
    /// Full cure.
    pub full_cure: Span,
    /// Coldest air and wood it may be used in.
    pub min_temp: Temperature,
    /// Dampest air it may be used in.
    pub max_humidity: Humidity,
    /// The figures that were read off the label; the others that are given are the family's.
    pub from_label: FigureSet,
}

impl LabelFigures {
    /// The humidity at which times hold on a label that names none, tenths of a per cent: 50 %
    /// (ASTM D3924, which D1640 refers to: 23 +/- 2 C, 50 +/- 5 % relative humidity).
    pub const STANDARD_HUMIDITY: i32 = 500;

    /// The humidity the drying times hold at: the label's own, or the standard one.
    ///
    /// # Panics
    /// Never: half-damp air is a humidity.
    pub fn humidity_of_times(&self) -> Humidity {
        self.reference_humidity.unwrap_or_else(|| {
            Humidity::from_tenths(Self::STANDARD_HUMIDITY).expect("50 % lies within 0 to 100 %")
        })
    }

    /// Whether this figure is given at all.
    pub fn has(&self, figure: Figure) -> bool {
        match figure {
            Figure::WetFilm => self.wet_film.is_some(),
            Figure::DryFilm => self.dry_film.is_some(),
            Figure::Voc => self.voc.is_some(),
            Figure::ReferenceHumidity => self.reference_humidity.is_some(),
            _ => true,
        }
    }

    /// Where this figure came from.
    pub fn source(&self, figure: Figure) -> FigureSource {
        match (self.has(figure), self.from_label.has(figure)) {
            (false, _) => FigureSource::NotGiven,
            (true, true) => FigureSource::Label,
            (true, false) => FigureSource::FamilyRange,
        }
    }

    /// The figures that are given and come from this source.
    pub fn from(&self, source: FigureSource) -> Vec<Figure> {
        let mut figures = Figure::ALL.to_vec();
        figures.retain(|figure| self.source(*figure) == source);
        figures
    }
}
