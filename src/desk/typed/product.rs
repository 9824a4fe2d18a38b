//! A product as typed.

use super::error::{FieldError, keep, product_field};
use super::piece::text_needed;
use super::product_figures::{self, Said};
use super::product_text::{read_can, read_price, write_can};
use super::words::pick;
use crate::coating::families::{usual_figures, usual_kind};
use crate::coating::{Family, Figure, Product, ProductId, ProductKind};
use crate::desk::people::NAME_MOST;
use crate::desk::{ProductDraft, Shop};
use crate::units::{Money, Volume};
use serde::Serialize;

/// A product, field by field, as text.
///
/// A figure left empty is its family's usual one; with `~` in front it is the family's too, the
/// one that is shown to start from; any other is the label's. Films, VOC and the humidity of the
/// times are not given where nothing stands.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct ProductTyped {
    /// What the shop calls it.
    pub name: String,
    /// `oil wiping varnish`...
    pub family: String,
    /// `wipe`, `sealer`, `stain`, `topcoat`; empty for what its family is usually for.
    pub kind: String,
    /// `each` (or empty: those with `~` are the family's), `label` or `family`: where the figures
    /// came from.
    pub basis: String,
    /// `625 sq ft/gal`, `15.3 m2/L`.
    pub spread: String,
    /// Wet film of one coat: `2.7 mil`, `69 um`.
    pub wet_film: String,
    /// Dry film of one coat.
    pub dry_film: String,
    /// Volume solids in per cent.
    pub solids: String,
    /// `7.2 lb/gal`, `0.86 g/mL`.
    pub density: String,
    /// `446 g/L`.
    pub voc: String,
    /// The temperature at which the times hold: `77 F`.
    pub reference: String,
    /// The humidity at which they hold: `50`.
    pub reference_humidity: String,
    /// Set to touch: `2 h`.
    pub touch: String,
    /// Tack-free: `4 h`.
    pub tack_free: String,
    /// `6 h to 24 h`, `within 2 h; scuff after 6 days`.
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

pub(super) fn said_words() -> Vec<(Said, String)> {
    [
        (Said::Each, "each"),
        (Said::Label, "label"),
        (Said::Family, "family"),
    ]
    .map(|(said, word)| (said, word.to_owned()))
    .into()
}

impl ProductTyped {
    /// A product as it would be typed.
    pub fn of(product: &Product, shop: &Shop) -> Self {
        let draft = ProductDraft {
            name: product.name.clone(),
            kind: product.kind,
            family: product.family,
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
            label: usual_figures(family),
            can: Volume::from_ul(946_353),
            price: Money::ZERO,
        };
        Self::of_draft(&draft, shop)
    }

    fn of_draft(draft: &ProductDraft, shop: &Shop) -> Self {
        let settings = &shop.settings;
        let write = |figure| product_figures::write(&draft.label, figure, settings);
        Self {
            name: draft.name.clone(),
            family: draft.family.word().to_owned(),
            kind: draft.kind.word().to_owned(),
            basis: "each".to_owned(),
            spread: write(Figure::Spread),
            wet_film: write(Figure::WetFilm),
            dry_film: write(Figure::DryFilm),
            solids: write(Figure::Solids),
            density: write(Figure::Density),
            voc: write(Figure::Voc),
            reference: write(Figure::Reference),
            reference_humidity: write(Figure::ReferenceHumidity),
            touch: write(Figure::Touch),
            tack_free: write(Figure::TackFree),
            windows: write(Figure::Windows),
            handle: write(Figure::Handle),
            light_use: write(Figure::LightUse),
            full_cure: write(Figure::FullCure),
            min_temp: write(Figure::MinTemp),
            max_humidity: write(Figure::MaxHumidity),
            can: write_can(draft.can, settings),
            price: draft.price.show(),
        }
    }

    /// What was typed for a figure.
    pub fn figure(&self, figure: Figure) -> &str {
        match figure {
            Figure::Spread => &self.spread,
            Figure::WetFilm => &self.wet_film,
            Figure::DryFilm => &self.dry_film,
            Figure::Solids => &self.solids,
            Figure::Density => &self.density,
            Figure::Voc => &self.voc,
            Figure::Reference => &self.reference,
            Figure::ReferenceHumidity => &self.reference_humidity,
            Figure::Touch => &self.touch,
            Figure::TackFree => &self.tack_free,
            Figure::Windows => &self.windows,
            Figure::Handle => &self.handle,
            Figure::LightUse => &self.light_use,
            Figure::FullCure => &self.full_cure,
            Figure::MinTemp => &self.min_temp,
            Figure::MaxHumidity => &self.max_humidity,
        }
    }
}

/// The field of a figure in [`ProductTyped`], as errors name it.
pub fn figure_field(figure: Figure) -> &'static str {
    product_figures::field(figure)
}

/// Reads a product.
///
/// With the basis `label` an empty figure is refused, since a guess may not pass for a label.
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
    let said = if typed.basis.trim().is_empty() {
        Said::Each
    } else {
        keep(pick("basis", &typed.basis, &said_words()), &mut errors).unwrap_or(Said::Each)
    };
    if let (Said::Label, Some(field)) = (said, product_figures::left_empty(typed)) {
        let message = "No figure was given: type the label's, or say that the figures are those of the family.";
        errors.push(FieldError::new(field, message));
    }
    let label = product_figures::read(typed, family, said, &shop.settings, &mut errors);
    let can = keep(read_can(&typed.can, &shop.settings), &mut errors);
    let price = if typed.price.trim().is_empty() {
        Some(Money::ZERO)
    } else {
        keep(read_price(&typed.price), &mut errors)
    };
    let (Some(family), Some(kind), Some(label), Some(can), Some(price)) =
        (family, kind, label, can, price)
    else {
        return Err(errors);
    };
    let name = typed.name.clone();
    let product = Product {
        id: ProductId(uuid::Uuid::nil()),
        name,
        kind,
        family,
        label,
        can,
        price,
    };
    if errors.is_empty()
        && let Err(error) = product.check().and_then(|()| product.check_orders())
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
        label,
        can,
        price,
    })
}
