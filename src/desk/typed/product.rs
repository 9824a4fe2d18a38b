//! A product as typed.

use super::error::{FieldError, keep, product_field};
use super::figures::{
    read_density, read_humidity, read_solids, read_temperature, write_density, write_temperature,
};
use super::piece::text_needed;
use super::product_text::{read_can, read_price, read_spread, write_can, write_spread};
use super::span::{SpanUnit, read_span, read_windows, write_span, write_windows};
use super::words::pick;
use crate::coating::families::{usual_figures, usual_kind};
use crate::coating::{Family, FigureBasis, LabelFigures, Product, ProductId, ProductKind};
use crate::desk::people::NAME_MOST;
use crate::desk::{ProductDraft, Shop};
use crate::units::{Money, Volume};
use serde::Serialize;

/// A product, field by field, as text. A figure left empty is its family's usual one.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct ProductTyped {
    /// What the shop calls it.
    pub name: String,
    /// `oil wiping varnish`...
    pub family: String,
    /// `wipe`, `sealer`, `stain`, `topcoat`; empty for what its family is usually for.
    pub kind: String,
    /// `label` or `family`: where the figures came from.
    pub basis: String,
    /// `625 sq ft/gal`, `15.3 m2/L`.
    pub spread: String,
    /// Volume solids in per cent.
    pub solids: String,
    /// `7.2 lb/gal`, `0.86 g/mL`.
    pub density: String,
    /// Set to touch: `2 h`.
    pub touch: String,
    /// Tack-free: `4 h`.
    pub tack_free: String,
    /// `6 h to 24 h`, `30 min to 2 h; scuff 6 days on`.
    pub windows: String,
    /// Dry to handle.
    pub handle: String,
    /// Light use.
    pub light_use: String,
    /// Full cure.
    pub full_cure: String,
    /// Coldest air and wood: `55 F`.
    pub min_temp: String,
    /// Dampest air: `85`.
    pub max_humidity: String,
    /// `1 qt`.
    pub can: String,
    /// `28.00`.
    pub price: String,
}

/// The families with their words.
pub(super) fn family_words() -> Vec<(Family, String)> {
    Family::ALL
        .into_iter()
        .map(|family| (family, family.word().to_owned()))
        .collect()
}

fn product_kind_words() -> Vec<(ProductKind, String)> {
    ProductKind::ALL
        .into_iter()
        .map(|kind| (kind, kind.word().to_owned()))
        .collect()
}

fn basis_words() -> Vec<(FigureBasis, String)> {
    [
        (FigureBasis::Label, "label"),
        (FigureBasis::FamilyRange, "family"),
    ]
    .map(|(basis, word)| (basis, word.to_owned()))
    .into()
}

impl ProductTyped {
    /// A product as it would be typed.
    pub fn of(product: &Product, shop: &Shop) -> Self {
        let draft = ProductDraft {
            name: product.name.clone(),
            kind: product.kind,
            family: product.family,
            basis: product.basis,
            label: product.label.clone(),
            can: product.can,
            price: product.price,
        };
        Self::of_draft(&draft, shop)
    }

    /// Where a new product of a family starts: its usual figures, a quart, no price.
    pub fn starting(family: Family, shop: &Shop) -> Self {
        let draft = ProductDraft {
            name: String::new(),
            kind: usual_kind(family),
            family,
            basis: FigureBasis::FamilyRange,
            label: usual_figures(family),
            can: Volume::from_ul(946_353),
            price: Money::ZERO,
        };
        Self::of_draft(&draft, shop)
    }

    fn of_draft(draft: &ProductDraft, shop: &Shop) -> Self {
        let (settings, label) = (&shop.settings, &draft.label);
        let basis = match draft.basis {
            FigureBasis::Label => "label",
            FigureBasis::FamilyRange => "family",
        };
        Self {
            name: draft.name.clone(),
            family: draft.family.word().to_owned(),
            kind: draft.kind.word().to_owned(),
            basis: basis.to_owned(),
            spread: write_spread(label.spread, settings),
            solids: label.solids_pct.to_string(),
            density: write_density(label.density),
            touch: write_span(label.touch),
            tack_free: write_span(label.tack_free),
            windows: write_windows(&label.windows),
            handle: write_span(label.handle),
            light_use: write_span(label.light_use),
            full_cure: write_span(label.full_cure),
            min_temp: write_temperature(label.min_temp, settings),
            max_humidity: label.max_humidity.percent().to_string(),
            can: write_can(draft.can, settings),
            price: draft.price.show(),
        }
    }

    fn figures(&self) -> [(&'static str, &String); 11] {
        [
            ("spread", &self.spread),
            ("solids", &self.solids),
            ("density", &self.density),
            ("touch", &self.touch),
            ("tack_free", &self.tack_free),
            ("windows", &self.windows),
            ("handle", &self.handle),
            ("light_use", &self.light_use),
            ("full_cure", &self.full_cure),
            ("min_temp", &self.min_temp),
            ("max_humidity", &self.max_humidity),
        ]
    }
}

/// Reads a product.
///
/// A figure left empty is taken from its family, and the product then says "family figures" of
/// itself unless the basis was left empty or is `family` anyway; with the basis `label` an empty
/// figure is refused, since a guess may not pass for a label.
///
/// # Errors
/// Every field that does not read, or the one in which the first thing that cannot stand is put
/// right.
pub fn read_product(typed: &ProductTyped, shop: &Shop) -> Result<ProductDraft, Vec<FieldError>> {
    let mut errors = Vec::new();
    let cure = "type what the shop calls it.";
    text_needed(
        "name",
        "The product's name",
        &typed.name,
        NAME_MOST,
        cure,
        &mut errors,
    );
    let family = keep(pick("family", &typed.family, &family_words()), &mut errors);
    let kind = if typed.kind.trim().is_empty() {
        family.map(usual_kind)
    } else {
        keep(
            pick("kind", &typed.kind, &product_kind_words()),
            &mut errors,
        )
    };
    let left_empty = typed
        .figures()
        .into_iter()
        .find(|(_, text)| text.trim().is_empty());
    let basis = match (typed.basis.trim().is_empty(), left_empty) {
        (true, None) => Some(FigureBasis::Label),
        (true, Some(_)) => Some(FigureBasis::FamilyRange),
        (false, empty) => {
            let basis = keep(pick("basis", &typed.basis, &basis_words()), &mut errors);
            if let (Some(FigureBasis::Label), Some((field, _))) = (basis, empty) {
                let message = "No figure was given: type the label's, or say that the figures are those of the family.";
                errors.push(FieldError::new(field, message));
            }
            basis
        }
    };
    let label = read_label(typed, family, shop, &mut errors);
    let can = keep(read_can(&typed.can, &shop.settings), &mut errors);
    let price = if typed.price.trim().is_empty() {
        Some(Money::ZERO)
    } else {
        keep(read_price(&typed.price), &mut errors)
    };
    let (Some(family), Some(kind), Some(basis), Some(label), Some(can), Some(price)) =
        (family, kind, basis, label, can, price)
    else {
        return Err(errors);
    };
    let name = typed.name.clone();
    let product = Product {
        id: ProductId(uuid::Uuid::nil()),
        name,
        kind,
        family,
        basis,
        label,
        can,
        price,
    };
    if errors.is_empty()
        && let Err(error) = product.check()
    {
        errors.push(FieldError::said(product_field(&error), &error));
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    let Product { name, label, .. } = product;
    Ok(ProductDraft {
        name,
        kind,
        family,
        basis,
        label,
        can,
        price,
    })
}

fn read_label(
    typed: &ProductTyped,
    family: Option<Family>,
    shop: &Shop,
    errors: &mut Vec<FieldError>,
) -> Option<LabelFigures> {
    // Without a family the other fields are read all the same, for their own errors.
    let usual = usual_figures(family.unwrap_or(Family::OilWipingVarnish));
    let before = errors.len();
    let mut span = |field, text: &str, bare, usual| {
        if text.trim().is_empty() {
            return usual;
        }
        keep(read_span(field, text, bare), errors).unwrap_or(usual)
    };
    let days = Some(SpanUnit::Days);
    let touch = span("touch", &typed.touch, None, usual.touch);
    let tack_free = span("tack_free", &typed.tack_free, None, usual.tack_free);
    let handle = span("handle", &typed.handle, None, usual.handle);
    let light_use = span("light_use", &typed.light_use, days, usual.light_use);
    let full_cure = span("full_cure", &typed.full_cure, days, usual.full_cure);
    let settings = &shop.settings;
    let figures = LabelFigures {
        spread: or_usual(&typed.spread, usual.spread, errors, read_spread),
        solids_pct: or_usual(&typed.solids, usual.solids_pct, errors, read_solids),
        density: or_usual(&typed.density, usual.density, errors, read_density),
        touch,
        tack_free,
        windows: or_usual(&typed.windows, usual.windows, errors, read_windows),
        handle,
        light_use,
        full_cure,
        min_temp: or_usual(&typed.min_temp, usual.min_temp, errors, |text| {
            read_temperature(text, settings)
        }),
        max_humidity: or_usual(
            &typed.max_humidity,
            usual.max_humidity,
            errors,
            read_humidity,
        ),
    };
    (errors.len() == before && family.is_some()).then_some(figures)
}

/// The figure typed, or the usual one where nothing is.
fn or_usual<T>(
    text: &str,
    usual: T,
    errors: &mut Vec<FieldError>,
    read: impl Fn(&str) -> Result<T, FieldError>,
) -> T {
    if text.trim().is_empty() {
        return usual;
    }
    keep(read(text), errors).unwrap_or(usual)
}
