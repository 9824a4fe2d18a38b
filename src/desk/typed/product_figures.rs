//! The figures of a product as typed: each empty, marked as the family's, or the label's.

use super::error::{FieldError, keep};
use super::figures::{
    read_density, read_film, read_humidity, read_solids, read_temperature, read_voc, write_density,
    write_film, write_temperature, write_voc,
};
use super::product::{ProductTyped, family_words, said_words};
use super::product_text::{read_spread, write_spread};
use super::span::{SpanUnit, read_span, write_span};
use super::windows::{read_windows, write_windows};
use super::words::pick;
use crate::coating::families::usual_figures;
use crate::coating::{
    Family, Figure, FigureSource, LabelFigures, Span, after_windows, show_film, windows_words,
};
use crate::desk::Shop;
use crate::desk::product_sheet::{figure_value, source_words};
use crate::shop::Settings;
use crate::units::Length;

/// In front of a figure: the family's, not the label's.
const MARK: char = '~';

/// What a product's figures as a whole were said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Said {
    /// Each for itself: those marked are the family's.
    Each,
    /// All are the label's.
    Label,
    /// None is the label's.
    Family,
}

/// The field of a figure.
pub(super) fn field(figure: Figure) -> &'static str {
    match figure {
        Figure::Spread => "spread",
        Figure::WetFilm => "wet_film",
        Figure::DryFilm => "dry_film",
        Figure::Solids => "solids",
        Figure::Density => "density",
        Figure::Voc => "voc",
        Figure::Reference => "reference",
        Figure::ReferenceHumidity => "reference_humidity",
        Figure::Touch => "touch",
        Figure::TackFree => "tack_free",
        Figure::Windows => "windows",
        Figure::Handle => "handle",
        Figure::LightUse => "light_use",
        Figure::FullCure => "full_cure",
        Figure::MinTemp => "min_temp",
        Figure::MaxHumidity => "max_humidity",
    }
}

/// What stands behind the mark, and whether there was one.
fn unmarked(text: &str) -> (&str, bool) {
    let text = text.trim();
    match text.strip_prefix(MARK) {
        Some(rest) => (rest.trim_start(), true),
        None => (text, false),
    }
}

/// Whether this text is a figure of the label's.
fn is_label(text: &str, said: Said) -> bool {
    let (figure, marked) = unmarked(text);
    let given = !figure.is_empty();
    match said {
        Said::Each => given && !marked,
        Said::Label => given,
        Said::Family => false,
    }
}

/// The figures as they would be typed.
pub(super) fn write(label: &LabelFigures, figure: Figure, settings: &Settings) -> String {
    let text = match figure {
        Figure::Spread => write_spread(label.spread, settings),
        Figure::WetFilm => label.wet_film.map(write_film).unwrap_or_default(),
        Figure::DryFilm => label.dry_film.map(write_film).unwrap_or_default(),
        Figure::Solids => label.solids_pct.to_string(),
        Figure::Density => write_density(label.density),
        Figure::Voc => label.voc.map(write_voc).unwrap_or_default(),
        Figure::Reference => write_temperature(label.reference, settings),
        Figure::ReferenceHumidity => {
            let percent = label.reference_humidity.map(|h| h.percent().to_string());
            percent.unwrap_or_default()
        }
        Figure::Touch => write_span(label.touch),
        Figure::TackFree => write_span(label.tack_free),
        Figure::Windows => write_windows(&label.windows),
        Figure::Handle => write_span(label.handle),
        Figure::LightUse => write_span(label.light_use),
        Figure::FullCure => write_span(label.full_cure),
        Figure::MinTemp => write_temperature(label.min_temp, settings),
        Figure::MaxHumidity => label.max_humidity.percent().to_string(),
    };
    match label.source(figure) {
        FigureSource::FamilyRange => format!("{MARK}{text}"),
        _ => text,
    }
}

/// Reads the figures; none of them where one does not read or there is no family.
pub(super) fn read(
    typed: &ProductTyped,
    family: Option<Family>,
    said: Said,
    settings: &Settings,
    errors: &mut Vec<FieldError>,
) -> Option<LabelFigures> {
    let before = errors.len();
    // Without a family the figures are read all the same, for their own errors.
    let or = family.unwrap_or(Family::OilWipingVarnish);
    let figures = read_each(typed, or, said, settings, errors);
    (errors.len() == before && family.is_some()).then_some(figures)
}

/// Reads the figures; one that does not read is the family's, and its error is among the others.
fn read_each(
    typed: &ProductTyped,
    family: Family,
    said: Said,
    settings: &Settings,
    errors: &mut Vec<FieldError>,
) -> LabelFigures {
    let usual = usual_figures(family);
    let mut reader = Reader { errors };
    let days = Some(SpanUnit::Days);
    let span = |field, bare| move |text: &str| read_span(field, text, bare);
    let warmth = |field| move |text: &str| read_temperature(field, text, settings);
    let damp = |field| move |text: &str| read_humidity(field, text);
    let film = |field| move |text: &str| read_film(field, text);
    let time = |reader: &mut Reader<'_>, text: &str, usual: Span, field, bare| {
        reader.or_usual(text, usual, span(field, bare))
    };
    let touch = time(&mut reader, &typed.touch, usual.touch, "touch", None);
    let tack_free = time(
        &mut reader,
        &typed.tack_free,
        usual.tack_free,
        "tack_free",
        None,
    );
    let handle = time(&mut reader, &typed.handle, usual.handle, "handle", None);
    let light_use = time(
        &mut reader,
        &typed.light_use,
        usual.light_use,
        "light_use",
        days,
    );
    let full_cure = time(
        &mut reader,
        &typed.full_cure,
        usual.full_cure,
        "full_cure",
        days,
    );
    LabelFigures {
        spread: reader.or_usual(&typed.spread, usual.spread, read_spread),
        wet_film: reader.or_none(&typed.wet_film, film("wet_film")),
        dry_film: reader.or_none(&typed.dry_film, film("dry_film")),
        solids_pct: reader.or_usual(&typed.solids, usual.solids_pct, read_solids),
        density: reader.or_usual(&typed.density, usual.density, read_density),
        voc: reader.or_none(&typed.voc, read_voc),
        reference: reader.or_usual(&typed.reference, usual.reference, warmth("reference")),
        reference_humidity: reader.or_none(&typed.reference_humidity, damp("reference_humidity")),
        touch,
        tack_free,
        windows: reader.or_usual(&typed.windows, usual.windows, read_windows),
        handle,
        light_use,
        full_cure,
        min_temp: reader.or_usual(&typed.min_temp, usual.min_temp, warmth("min_temp")),
        max_humidity: reader.or_usual(
            &typed.max_humidity,
            usual.max_humidity,
            damp("max_humidity"),
        ),
        from_label: Figure::ALL
            .into_iter()
            .filter(|figure| is_label(typed.figure(*figure), said))
            .collect(),
    }
}

/// What was understood of each figure that reads, and where it came from: `from the label (its
/// family: 2 to 6 h)`.
pub fn echo_figures(typed: &ProductTyped, shop: &Shop) -> Vec<(&'static str, String)> {
    let settings = &shop.settings;
    let Ok(family) = pick("family", &typed.family, &family_words()) else {
        return Vec::new();
    };
    let said = pick("basis", &typed.basis, &said_words()).unwrap_or(Said::Each);
    let mut errors = Vec::new();
    let label = read_each(typed, family, said, settings, &mut errors);
    let mut echoes = Vec::new();
    for figure in Figure::ALL {
        let field = field(figure);
        let (text, _) = unmarked(typed.figure(figure));
        if errors.iter().any(|error| error.field == field) {
            continue;
        }
        let source = source_words(&label, family, figure, settings);
        let value = match figure {
            Figure::Windows => format!(
                "next coat {}{}",
                windows_words(&label.windows),
                after_windows(&label.windows)
            ),
            Figure::Spread => {
                let wet = Length::from_metres_rounded(label.spread.wet_film_um() * 1e-6);
                let spread = figure_value(&label, figure, settings);
                format!("{spread}, {} wet", show_film(wet, settings.area()))
            }
            figure => figure_value(&label, figure, settings),
        };
        let words = if value.is_empty() || value.trim_end_matches('%') == text {
            source
        } else {
            format!("{value}; {source}")
        };
        echoes.push((field, words));
    }
    echoes
}

struct Reader<'a> {
    errors: &'a mut Vec<FieldError>,
}

impl Reader<'_> {
    /// The figure typed, or the usual one where nothing is.
    fn or_usual<T>(
        &mut self,
        text: &str,
        usual: T,
        read: impl Fn(&str) -> Result<T, FieldError>,
    ) -> T {
        self.or_none(text, read).unwrap_or(usual)
    }

    /// The figure typed, or none where nothing is.
    fn or_none<T>(
        &mut self,
        text: &str,
        read: impl Fn(&str) -> Result<T, FieldError>,
    ) -> Option<T> {
        let (text, _) = unmarked(text);
        if text.is_empty() {
            return None;
        }
        keep(read(text), self.errors)
    }
}

/// The first figure of a product that was left empty though every product has it.
pub(super) fn left_empty(typed: &ProductTyped) -> Option<&'static str> {
    Figure::ALL
        .into_iter()
        .filter(|figure| {
            !matches!(
                figure,
                Figure::WetFilm | Figure::DryFilm | Figure::Voc | Figure::ReferenceHumidity
            )
        })
        .find(|figure| unmarked(typed.figure(*figure)).0.is_empty())
        .map(field)
}
