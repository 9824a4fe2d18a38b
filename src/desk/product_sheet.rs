//! A product's figures in words, under the source each came from.

use super::snapshot::Shop;
use crate::coating::family_ranges::{FamilyRange, Seen, measure, usual_closing, usual_range};
use crate::coating::{
    Family, Figure, FigureSource, LabelFigures, Learned, Product, ProductKind, Span, Voc,
    after_windows, show_film, windows_words,
};
use crate::shop::Settings;
use crate::units::{AreaStyle, Humidity, SpreadRate, Temperature, TemperatureStyle, show_span};

/// One figure of a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetLine {
    /// What it is: `set to touch`.
    pub what: &'static str,
    /// The figure in the shop's units.
    pub value: String,
    /// The range in which the labels of its family lie, if one was found.
    pub range: Option<String>,
}

/// The figures of one source.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetPart {
    /// Where they came from.
    pub source: FigureSource,
    /// The figures.
    pub lines: Vec<SheetLine>,
}

/// All figures of a product by source: the label's, this shop's, the family's, those not given.
pub fn product_sheet(product: &Product, shop: &Shop) -> Vec<SheetPart> {
    let settings = &shop.settings;
    let learned = learned(product, shop);
    let part = |source| {
        let lines = match source {
            FigureSource::ShopTests => learned
                .iter()
                .map(|learned| SheetLine {
                    what: "speed here",
                    value: learned.words(),
                    range: None,
                })
                .collect(),
            source => product
                .label
                .from(source)
                .into_iter()
                .filter(|figure| matters(product.kind, *figure))
                .map(|figure| SheetLine {
                    what: figure.word(),
                    value: with_here(product, figure, learned.as_ref(), settings),
                    range: range_words(product.family, figure, settings).or_else(|| {
                        let ours = source == FigureSource::FamilyRange;
                        ours.then(|| "none found, our own figure".to_owned())
                    }),
                })
                .collect(),
        };
        SheetPart { source, lines }
    };
    [
        FigureSource::Label,
        FigureSource::ShopTests,
        FigureSource::FamilyRange,
        FigureSource::NotGiven,
    ]
    .map(part)
    .into_iter()
    .filter(|part| !part.lines.is_empty())
    .collect()
}

/// What this shop's touch tests have shown of a product's speed, against the safe law; none
/// without a test.
pub fn learned(product: &Product, shop: &Shop) -> Option<Learned> {
    let tuning = shop.tuning.get(&product.id)?;
    (tuning.safe.tests > 0).then_some(tuning.safe)
}

/// A figure, and of a drying time what touch tests make of it here: `3 h, here 4 h 10 min`.
fn with_here(
    product: &Product,
    figure: Figure,
    learned: Option<&Learned>,
    settings: &Settings,
) -> String {
    let label = &product.label;
    let value = figure_value(label, figure, settings);
    let span = match figure {
        Figure::Touch => label.touch,
        Figure::TackFree => label.tack_free,
        Figure::Handle => label.handle,
        Figure::LightUse => label.light_use,
        Figure::FullCure => label.full_cure,
        _ => return value,
    };
    let Some(factor) = learned.map(Learned::cautious).filter(|f| *f > 0.0) else {
        return value;
    };
    // Factors lie between a sixth and four, spans below a century: no number here is large.
    #[allow(clippy::cast_possible_truncation)]
    let here = Span::minutes((span.as_minutes() as f64 / factor).round() as i64);
    format!("{value}, here {}", show_span(here.as_duration()))
}

/// Whether a figure says anything of a product of this kind: a wipe leaves no film.
fn matters(kind: ProductKind, figure: Figure) -> bool {
    kind != ProductKind::Wipe
        || !matches!(
            figure,
            Figure::Spread | Figure::WetFilm | Figure::DryFilm | Figure::Solids
        )
}

/// A figure in the shop's units; empty where it is not given.
pub fn figure_value(label: &LabelFigures, figure: Figure, settings: &Settings) -> String {
    let area = settings.area();
    let span = |span: Span| show_span(span.as_duration());
    let film = |film: Option<_>| film.map(|film| show_film(film, area)).unwrap_or_default();
    match figure {
        Figure::Spread => label.spread.show(area),
        Figure::WetFilm => film(label.wet_film),
        Figure::DryFilm => film(label.dry_film),
        Figure::Solids => format!("{}% of volume", label.solids_pct),
        Figure::Density => format!("{:.3} g/mL", label.density.g_per_ml()),
        Figure::Voc => label.voc.map(Voc::show).unwrap_or_default(),
        Figure::Reference => label.reference.show(settings.temperature),
        Figure::ReferenceHumidity => {
            let humidity = label.reference_humidity.map(Humidity::show);
            humidity.unwrap_or_default()
        }
        Figure::Touch => span(label.touch),
        Figure::TackFree => span(label.tack_free),
        Figure::Windows => {
            let late = after_windows(&label.windows);
            format!("{}{late}", windows_words(&label.windows))
        }
        Figure::Handle => span(label.handle),
        Figure::LightUse => span(label.light_use),
        Figure::FullCure => span(label.full_cure),
        Figure::MinTemp => label.min_temp.show(settings.temperature),
        Figure::MaxHumidity => label.max_humidity.show(),
    }
}

/// The range of a figure in its family: `2 to 6 h`, `20 to 30% (from memory)`.
pub fn range_words(family: Family, figure: Figure, settings: &Settings) -> Option<String> {
    let range = usual_range(family, figure)?;
    let mut words = ends(figure, range, settings);
    if figure == Figure::Windows {
        words = format!("opens after {words}");
        if let Some(closing) = usual_closing(family) {
            words = format!("{words}, shuts after {}", times(closing.low, closing.high));
        }
    }
    if range.seen == Seen::Memory {
        words.push_str(" (from memory)");
    }
    Some(words)
}

/// Where a figure came from, with the range of its family: `family range 2 to 6 h, check the can
/// label`; `from the label (its family: 2 to 6 h)`.
pub fn source_words(
    label: &LabelFigures,
    family: Family,
    figure: Figure,
    settings: &Settings,
) -> String {
    let range = range_words(family, figure, settings);
    let outside = match (measure(label, figure), usual_range(family, figure)) {
        (Some(is), Some(range)) => !range.holds(is),
        _ => false,
    };
    match (label.source(figure), range) {
        (FigureSource::Label, Some(range)) if outside => {
            format!("from the label, outside its family's {range}")
        }
        (FigureSource::Label, Some(range)) => format!("from the label (its family: {range})"),
        (FigureSource::FamilyRange, Some(range)) => {
            format!("family range {range}, check the can label")
        }
        (FigureSource::FamilyRange, None) => {
            "our own figure for its family, check the can label".to_owned()
        }
        (FigureSource::NotGiven, Some(range)) => format!("not given (its family: {range})"),
        (source, _) => source.words().to_owned(),
    }
}

fn ends(figure: Figure, range: FamilyRange, settings: &Settings) -> String {
    let FamilyRange { low, high, .. } = range;
    match figure {
        Figure::Spread => {
            let area = settings.area();
            let one = |rate: f64| match area {
                AreaStyle::SquareMetres => format!("{rate}"),
                AreaStyle::SquareFeet => SpreadRate::from_m2_per_l(rate)
                    .map_or_else(String::new, |rate| format!("{:.0}", rate.sq_ft_per_gal())),
            };
            let unit = match area {
                AreaStyle::SquareMetres => "m2/L",
                AreaStyle::SquareFeet => "sq ft/gal",
            };
            format!("{} {unit}", from_to(&one(low), &one(high)))
        }
        Figure::Solids | Figure::MaxHumidity | Figure::ReferenceHumidity => {
            format!("{}%", from_to(&format!("{low}"), &format!("{high}")))
        }
        Figure::Density => {
            let one = |density: f64| format!("{density:.2}");
            format!("{} g/mL", from_to(&one(low), &one(high)))
        }
        Figure::Voc => format!("{} g/L", from_to(&format!("{low}"), &format!("{high}"))),
        Figure::Reference | Figure::MinTemp => {
            let style = settings.temperature;
            let one = |c: f64| match style {
                TemperatureStyle::Celsius => format!("{c:.0}"),
                TemperatureStyle::Fahrenheit => format!("{:.0}", Temperature::from_c(c).f()),
            };
            let unit = match style {
                TemperatureStyle::Celsius => "C",
                TemperatureStyle::Fahrenheit => "F",
            };
            format!("{} {unit}", from_to(&one(low), &one(high)))
        }
        _ => times(low, high),
    }
}

/// `2 to 6 h`, `15 to 30 min`, `21 to 30 days`, `24 h`, from minutes.
fn times(low: f64, high: f64) -> String {
    let whole_days = low % 1440.0 == 0.0 && high % 1440.0 == 0.0;
    let (unit, size) = match high {
        high if high >= 2880.0 && whole_days => ("days", 1440.0),
        high if high >= 120.0 => ("h", 60.0),
        _ => ("min", 1.0),
    };
    let one = |minutes: f64| format!("{}", (minutes / size * 10.0).round() / 10.0);
    format!("{} {unit}", from_to(&one(low), &one(high)))
}

fn from_to(low: &str, high: &str) -> String {
    if low == high {
        return low.to_owned();
    }
    format!("{low} to {high}")
}
