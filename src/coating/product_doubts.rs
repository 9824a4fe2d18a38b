//! What looks like a slip in a product's figures: orders that no film goes through are refused,
//! figures that do not go together are asked about.

use super::figures::{Figure, LabelFigures};
use super::model::HumidityCurve;
use super::product::{Product, ProductError, ProductKind, Span};
use super::recoat_words::span_words;
use crate::units::{AreaStyle, Humidity, Length, SpreadRate, Temperature, TemperatureStyle};

/// Two figures of a sheet that differ by more than this do not go together. Judgement: published
/// sheets round their figures by up to a tenth, and those that contradict themselves are further
/// apart.
const APART: f64 = 1.2;

/// A figure, or two, that look like a slip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Doubt {
    /// The wet film does not go with the spread rate: wet film = 1 / spread rate.
    WetFilm {
        /// The wet film on the sheet.
        sheet: Length,
        /// The spread rate on the sheet.
        spread: SpreadRate,
    },
    /// The dry film does not go with the wet film and the solids: dry = wet x solids.
    DryFilm {
        /// The dry film on the sheet.
        sheet: Length,
        /// What wet film and solids leave.
        left: Length,
    },
    /// Too cold for the product at the temperature its own times hold at.
    ColdReference {
        /// Coldest use.
        coldest: Temperature,
        /// The times hold at.
        reference: Temperature,
    },
    /// Too damp for it in the air its own times hold in.
    DampReference {
        /// Dampest use.
        dampest: Humidity,
        /// The times hold in.
        reference: Humidity,
    },
    /// More of it leaves than it weighs.
    Voc {
        /// The VOC on the label, g/L.
        g_per_l: f64,
        /// Its weight, g/L.
        weighs: f64,
    },
    /// The next coat may go on for good before this one can be touched.
    RecoatBeforeTouch {
        /// When the last window opens.
        opens: Span,
        /// Set to touch.
        touch: Span,
    },
    /// A film that is said to have cured within two days.
    QuickCure(Span),
}

impl Doubt {
    /// The doubt in one sentence, with what to look at.
    pub fn words(&self, area: AreaStyle, style: TemperatureStyle) -> String {
        match *self {
            Self::WetFilm { sheet, spread } => format!(
                "A spread rate of {} lays {} wet, but the sheet says {} wet: more than 20% apart, \
                 look at both again.",
                spread.show(area),
                show_film(film(spread.wet_film_um()), area),
                show_film(sheet, area)
            ),
            Self::DryFilm { sheet, left } => format!(
                "Wet film and volume solids leave {} dry, but the sheet says {} dry: more than 20% \
                 apart, look at them again.",
                show_film(left, area),
                show_film(sheet, area)
            ),
            Self::ColdReference { coldest, reference } => format!(
                "The coldest use, {}, is above the {} at which the drying times hold: look at both \
                 again.",
                coldest.show(style),
                reference.show(style)
            ),
            Self::DampReference { dampest, reference } => format!(
                "The dampest use, {}, is below the {} in which the drying times hold: look at both \
                 again.",
                dampest.show(),
                reference.show()
            ),
            Self::Voc { g_per_l, weighs } => format!(
                "A VOC of {g_per_l:.0} g/L is more than the {weighs:.0} g/L the product weighs: \
                 look at both again."
            ),
            Self::RecoatBeforeTouch { opens, touch } => format!(
                "The next coat may go on for good after {}, but this one is set to touch only \
                 after {}: look at both again.",
                span_words(opens),
                span_words(touch)
            ),
            Self::QuickCure(cure) => format!(
                "Some cans say full cure for ready to use: a film that has cured after {} would be \
                 unusual, look at the data sheet.",
                span_words(cure)
            ),
        }
    }
}

/// A film thickness: `2.7 mil`, `69 micrometres`.
pub fn show_film(film: Length, area: AreaStyle) -> String {
    let nm = film.nm() as f64;
    match area {
        AreaStyle::SquareFeet => format!("{} mil", two_digits(nm / 25_400.0)),
        AreaStyle::SquareMetres => format!("{} micrometres", two_digits(nm / 1000.0)),
    }
}

/// `2.7`, `0.65`, `69`: two decimals below ten, one below a hundred, no trailing zeros.
fn two_digits(value: f64) -> String {
    let text = match value {
        v if v < 10.0 => format!("{v:.2}"),
        v if v < 100.0 => format!("{v:.1}"),
        v => return format!("{v:.0}"),
    };
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn film(micrometres: f64) -> Length {
    Length::from_metres_rounded(micrometres * 1e-6)
}

fn apart(one: f64, other: f64) -> bool {
    one.max(other) > APART * one.min(other)
}

impl Product {
    /// Checks the order of the stages (set to touch, tack-free, dry to handle, light use, full
    /// cure: ASTM D1640's order, as far as it names them) and the air the times hold in. Kept
    /// apart from [`Product::check`] because books written before it was asked may hold others.
    ///
    /// # Errors
    /// [`ProductError::Order`], [`ProductError::ReferenceHumidity`].
    pub fn check_orders(&self) -> Result<(), ProductError> {
        let label = &self.label;
        let stages = [
            (Figure::Touch, label.touch),
            (Figure::TackFree, label.tack_free),
            (Figure::Handle, label.handle),
            (Figure::LightUse, label.light_use),
            (Figure::FullCure, label.full_cure),
        ];
        for pair in stages.windows(2) {
            let [(earlier, before), (later, after)] = *pair else {
                continue;
            };
            if after < before {
                return Err(ProductError::Order {
                    name: self.name.clone(),
                    earlier,
                    earlier_time: span_words(before),
                    later,
                    later_time: span_words(after),
                });
            }
        }
        match label.reference_humidity {
            // Water leaves ever slower towards 100 %: beyond 95 % the law would run away.
            Some(humidity) if humidity.tenths() > HumidityCurve::MOST_REFERENCE => {
                Err(ProductError::ReferenceHumidity {
                    name: self.name.clone(),
                    humidity: humidity.show(),
                })
            }
            _ => Ok(()),
        }
    }

    /// What looks like a slip, though it can stand.
    pub fn doubts(&self) -> Vec<Doubt> {
        let label = &self.label;
        let mut doubts = film_doubts(label);
        if label.min_temp > label.reference {
            doubts.push(Doubt::ColdReference {
                coldest: label.min_temp,
                reference: label.reference,
            });
        }
        if let Some(reference) = label.reference_humidity
            && reference > label.max_humidity
        {
            doubts.push(Doubt::DampReference {
                dampest: label.max_humidity,
                reference,
            });
        }
        let weighs = label.density.g_per_ml() * 1000.0;
        if let Some(voc) = label.voc
            && voc.g_per_l() > weighs * 1.02
        {
            doubts.push(Doubt::Voc {
                g_per_l: voc.g_per_l(),
                weighs,
            });
        }
        if let Some(last) = label.windows.last()
            && self.kind != ProductKind::Wipe
            && last.opens < label.touch
            && last.closes.is_none()
        {
            doubts.push(Doubt::RecoatBeforeTouch {
                opens: last.opens,
                touch: label.touch,
            });
        }
        if self.kind == ProductKind::Topcoat && label.full_cure <= Span::days(2) {
            doubts.push(Doubt::QuickCure(label.full_cure));
        }
        doubts
    }
}

/// Wet film = 1 / spread rate and dry film = wet film x volume solids (published makers'
/// technical bulletins).
fn film_doubts(label: &LabelFigures) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let micrometres = |film: Length| film.nm() as f64 / 1000.0;
    let from_spread = label.spread.wet_film_um();
    if let Some(sheet) = label.wet_film
        && apart(micrometres(sheet), from_spread)
    {
        doubts.push(Doubt::WetFilm {
            sheet,
            spread: label.spread,
        });
    }
    if let Some(sheet) = label.dry_film {
        let wet = label.wet_film.map_or(from_spread, micrometres);
        let left = wet * label.solids_pct / 100.0;
        if apart(micrometres(sheet), left) {
            doubts.push(Doubt::DryFilm {
                sheet,
                left: film(left),
            });
        }
    }
    doubts
}
