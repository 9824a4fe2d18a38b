//! Can sizes, prices, parts of a mix, what stands on the shelf: as typed.

use super::error::FieldError;
use super::words::quoted;
use crate::coating::Product;
use crate::shop::{MixBy, MixPart, OnShelf, Settings, UseRules};
use crate::units::{Density, Mass, Money, Volume};
use chrono::NaiveDate;

const PART_CURE: &str = "write what goes in, a colon and how many parts, like \"mineral spirits: \
    1.5\"; with its density in g/mL where it is known, like \"mineral spirits: 1.5 at 0.78\".";

const SHELF_CURE: &str = "write the product, what is left, and if known the batch and the last good \
    day, parted by commas, like \"brown gel stain, 12 oz, B-204, 2027-03-01\".";

/// A volume as typed at `field`.
///
/// # Errors
/// One sentence.
pub fn read_volume(
    field: &'static str,
    text: &str,
    settings: &Settings,
) -> Result<Volume, FieldError> {
    Volume::parse(text, settings.volume).map_err(|error| FieldError::said(field, &error))
}

/// A price as typed.
///
/// # Errors
/// One sentence.
pub fn read_price(text: &str) -> Result<Money, FieldError> {
    Money::parse(text).map_err(|error| FieldError::said("price", &error))
}

/// By weight or by volume.
///
/// # Errors
/// One sentence.
pub fn read_mix_by(text: &str) -> Result<MixBy, FieldError> {
    let choices = [MixBy::Weight, MixBy::Volume].map(|by| (by, by.word().to_owned()));
    super::words::pick("by", text, &choices)
}

/// A part of a mix: `mineral spirits: 1.5 at 0.78`.
///
/// # Errors
/// One sentence that says what would do.
pub fn read_part(text: &str) -> Result<MixPart, FieldError> {
    let wrong = || FieldError::new("part", format!("\"{}\": {PART_CURE}", quoted(text)));
    let (name, rest) = text.rsplit_once(':').ok_or_else(wrong)?;
    let (parts, density) = match rest.split_once(" at ") {
        Some((parts, density)) => (parts, Some(density)),
        None => (rest, None),
    };
    let density = match density {
        None => None,
        Some(text) => {
            let text = text.trim().trim_end_matches("g/mL").trim();
            let read = text.parse().ok().and_then(Density::from_g_per_ml);
            Some(read.ok_or_else(wrong)?)
        }
    };
    Ok(MixPart {
        name: name.trim().to_owned(),
        milliparts: thousandths(parts.trim()).ok_or_else(wrong)?,
        density,
    })
}

/// A number to the thousandth: `1.5` is 1500.
fn thousandths(text: &str) -> Option<u32> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if whole.is_empty() || !digits(whole) || !digits(part) || part.len() > 3 {
        return None;
    }
    format!("{whole}{part:0<3}").parse().ok()
}

/// What stands on the shelf: `brown gel stain, 12 oz, B-204, 2027-03-01`; product names may hold
/// commas.
///
/// # Errors
/// One sentence that says what would do.
pub fn read_on_shelf(
    text: &str,
    products: &[Product],
    settings: &Settings,
) -> Result<OnShelf, FieldError> {
    let wrong = || FieldError::new("have", format!("\"{}\": {SHELF_CURE}", quoted(text)));
    let named = |name: &str| {
        let name = name.trim().to_lowercase();
        products
            .iter()
            .find(|product| product.name.to_lowercase() == name)
    };
    // Names may hold commas, and one may begin with another: the longest that is one counts.
    let (product, rest) = text
        .match_indices(',')
        .filter_map(|(at, comma)| {
            let (name, rest) = (text.get(..at)?, text.get(at + comma.len()..)?);
            Some((named(name)?, rest))
        })
        .next_back()
        .ok_or_else(wrong)?;
    let mut parts = rest.split(',').map(str::trim);
    let left = read_volume("have", parts.next().unwrap_or(""), settings)?;
    let (mut batch, mut good_until) = (None, None);
    for part in parts.filter(|part| !part.is_empty()) {
        match NaiveDate::parse_from_str(part, "%Y-%m-%d") {
            Ok(date) if good_until.is_none() => good_until = Some(date),
            Err(_) if batch.is_none() => batch = Some(crate::units::clean_line(part).0),
            _ => return Err(wrong()),
        }
    }
    Ok(OnShelf {
        product: product.id,
        batch,
        left,
        good_until,
    })
}

/// What planning allows for, as typed; what was not typed stays.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct UseRulesTyped {
    /// Reserve, per cent.
    pub reserve: Option<String>,
    /// Loss, per cent.
    pub loss: Option<String>,
    /// Coverage on bare wood, per cent of a later coat's.
    pub bare: Option<String>,
    /// The scale's step.
    pub scale: Option<String>,
    /// The cup's step.
    pub cup: Option<String>,
}

/// Reads them over the rules in force.
///
/// # Errors
/// Every field that does not read, one sentence each.
pub fn read_use_rules(
    typed: &UseRulesTyped,
    before: UseRules,
    settings: &Settings,
) -> Result<UseRules, Vec<FieldError>> {
    let mut errors = Vec::new();
    let mut percent = |field, text: Option<&String>, before: u32| {
        let Some(text) = text else { return before };
        let number = text.trim().trim_end_matches('%').trim().parse::<u32>();
        number.unwrap_or_else(|_| {
            let said = format!(
                "\"{}\" is no whole number of per cent, like 10.",
                quoted(text)
            );
            errors.push(FieldError::new(field, said));
            before
        })
    };
    let mut rules = UseRules {
        reserve_percent: percent("reserve", typed.reserve.as_ref(), before.reserve_percent),
        loss_percent: percent("loss", typed.loss.as_ref(), before.loss_percent),
        bare_percent: percent("bare", typed.bare.as_ref(), before.bare_percent),
        ..before
    };
    if let Some(text) = &typed.scale {
        match Mass::parse(text) {
            Ok(step) => rules.scale = step,
            Err(error) => errors.push(FieldError::said("scale", &error)),
        }
    }
    if let Some(text) = &typed.cup {
        match read_volume("cup", text, settings) {
            Ok(step) => rules.cup = step,
            Err(error) => errors.push(error),
        }
    }
    if errors.is_empty() {
        Ok(rules)
    } else {
        Err(errors)
    }
}
