//! `use.toml`: what planning of use allows for, can sizes on offer, mixes, passes struck out. It may
//! be missing: a shop that has nothing to say in it writes none.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::shelf::Shelf;
use super::text::{self, LINE_MOST};
use super::tomls::{Read, quoted, value};
use super::words;
use crate::desk::{Books, BooksError, Row};
use crate::shop::{Mix, MixBy, MixPart, Offer, PassId, Struck, UseBook, UseRules};
use crate::units::{Density, Volume};
use serde::Deserialize;
use std::fmt::Write as _;
use toml::Spanned;

/// The file.
pub(super) const FILE: &str = "use.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    rules: Option<Spanned<RulesRow>>,
    #[serde(default)]
    offer: Vec<Spanned<OfferRow>>,
    #[serde(default)]
    mix: Vec<Spanned<MixRow>>,
    #[serde(default)]
    struck: Vec<Spanned<StruckRow>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RulesRow {
    reserve_percent: u32,
    loss_percent: u32,
    bare_percent: u32,
    scale: String,
    cup: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OfferRow {
    product: String,
    holds: String,
    price: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MixRow {
    product: String,
    by: String,
    part: Vec<PartRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PartRow {
    name: String,
    parts: String,
    density: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StruckRow {
    pass: String,
    reason: String,
}

/// Reads it; `pass` tells the pass of a key.
pub(super) fn read(
    reading: &mut Reading<'_>,
    shelf: &Shelf,
    pass: impl Fn(&str) -> Result<PassId, Fault>,
) -> Result<UseBook, FilesError> {
    let file = match Read::<File>::file(&reading.source, FILE) {
        Ok(file) => file,
        Err(FilesError::NoFile { .. }) => return Ok(UseBook::default()),
        Err(error) => return Err(error),
    };
    let mut book = UseBook::default();
    if let Some(row) = &file.what.rules {
        book.rules = rules(row.get_ref()).map_err(|fault| fault.at(FILE, file.line(row)))?;
    }
    for spanned in &file.what.offer {
        let (row, at) = (spanned.get_ref(), |f: Fault| f.at(FILE, file.line(spanned)));
        let offer = offer(row, shelf).map_err(at)?;
        let same = |other: &Offer| other.product == offer.product && other.holds == offer.holds;
        if book.offers.iter().any(same) {
            return Err(at(twice("can size", &row.holds)));
        }
        book.offers.push(offer);
    }
    for spanned in &file.what.mix {
        let line = file.line(spanned);
        let (row, at) = (spanned.get_ref(), |f: Fault| f.at(FILE, line));
        let product = shelf.ring.find(&row.product).map_err(at)?;
        if book.mix(product).is_some() {
            return Err(at(twice("mix", &row.product)));
        }
        let mut parts = Vec::new();
        for part in &row.part {
            let (name, left_out) = text::line("name", &part.name, LINE_MOST).map_err(at)?;
            reading.notes.left_out(FILE, line, "name", left_out);
            parts.push(self::part(name, part).map_err(at)?);
        }
        let by = match row.by.as_str() {
            "weight" => Ok(MixBy::Weight),
            "volume" => Ok(MixBy::Volume),
            _ => Err("write weight or volume.".to_owned()),
        };
        let mix = Mix {
            product,
            by: value("by", by).map_err(at)?,
            parts,
        };
        value("mix", mix.check().map_err(|error| error.to_string())).map_err(at)?;
        book.mixes.push(mix);
    }
    for spanned in &file.what.struck {
        let line = file.line(spanned);
        let (row, at) = (spanned.get_ref(), |f: Fault| f.at(FILE, line));
        let pass = pass(&row.pass).map_err(at)?;
        let (reason, left_out) = text::line("reason", &row.reason, LINE_MOST).map_err(at)?;
        reading.notes.left_out(FILE, line, "reason", left_out);
        if reason.is_empty() {
            let cure = "write why the pass teaches nothing".to_owned();
            return Err(at(Fault::Empty {
                what: "reason",
                cure,
            }));
        }
        if book.struck(pass).is_some() {
            return Err(at(twice("struck pass", &row.pass)));
        }
        book.struck.push(Struck { pass, reason });
    }
    Ok(book.in_order())
}

fn twice(what: &'static str, key: &str) -> Fault {
    Fault::Twice {
        what,
        key: super::table::short(key),
    }
}

fn rules(row: &RulesRow) -> Result<UseRules, Fault> {
    let rules = UseRules {
        reserve_percent: row.reserve_percent,
        loss_percent: row.loss_percent,
        bare_percent: row.bare_percent,
        scale: value("scale", words::read_mass(&row.scale))?,
        cup: value("cup", words::read_volume(&row.cup))?,
    };
    value("rules", rules.check().map_err(|error| error.to_string()))?;
    Ok(rules)
}

fn offer(row: &OfferRow, shelf: &Shelf) -> Result<Offer, Fault> {
    let holds = value("holds", words::read_volume(&row.holds))?;
    if holds <= Volume::ZERO {
        let why = "a can holds something.".to_owned();
        return Err(Fault::Value { what: "holds", why });
    }
    Ok(Offer {
        product: shelf.ring.find(&row.product)?,
        holds,
        price: value("price", words::read_money(&row.price))?,
    })
}

fn part(name: String, row: &PartRow) -> Result<MixPart, Fault> {
    let parts = words::undecimal(row.parts.trim(), 3).and_then(|n| u32::try_from(n).ok());
    let parts = parts.ok_or_else(|| "write a number like 2 or 0.5, to the thousandth.".to_owned());
    let density = |text: &String| {
        let read = text.trim().parse().ok().and_then(Density::from_g_per_ml);
        read.ok_or_else(|| "write the density in g/mL, like 0.91.".to_owned())
    };
    Ok(MixPart {
        name,
        milliparts: value("parts", parts)?,
        density: value("density", row.density.as_ref().map(density).transpose())?,
    })
}

/// Writes it; none where there is nothing to say.
pub(super) fn write(book: &UseBook) -> Option<String> {
    if *book == UseBook::default() {
        return None;
    }
    let book = book.clone().in_order();
    let rules = &book.rules;
    let mut out = String::new();
    // Writing to a String cannot fail.
    let _ = write!(
        out,
        "[rules]\nreserve_percent = {}\nloss_percent = {}\nbare_percent = {}\nscale = {}\ncup = {}\n",
        rules.reserve_percent,
        rules.loss_percent,
        rules.bare_percent,
        quoted(&words::mass(rules.scale)),
        quoted(&words::volume(rules.cup))
    );
    for offer in &book.offers {
        let _ = write!(
            out,
            "\n[[offer]]\nproduct = {}\nholds = {}\nprice = {}\n",
            quoted(&offer.product.to_string()),
            quoted(&words::volume(offer.holds)),
            quoted(&words::money(offer.price))
        );
    }
    for mix in &book.mixes {
        let _ = write!(
            out,
            "\n[[mix]]\nproduct = {}\nby = {}\n",
            quoted(&mix.product.to_string()),
            quoted(mix.by.word())
        );
        for part in &mix.parts {
            let _ = write!(
                out,
                "\n[[mix.part]]\nname = {}\nparts = {}\n",
                quoted(&part.name),
                quoted(&words::decimal(i64::from(part.milliparts), 3))
            );
            if let Some(density) = part.density {
                let density = density.g_per_ml().to_string();
                let _ = writeln!(out, "density = {}", quoted(&density));
            }
        }
    }
    for struck in &book.struck {
        let _ = write!(
            out,
            "\n[[struck]]\npass = {}\nreason = {}\n",
            quoted(&struck.pass.to_string()),
            quoted(&struck.reason)
        );
    }
    Some(out)
}

/// Writes everything into the store, as part of an action.
pub(super) fn put(book: &UseBook, books: &mut dyn Books) -> Result<(), BooksError> {
    if book.rules != UseRules::default() {
        books.put(Row::UseRules(&book.rules))?;
    }
    for offer in &book.offers {
        books.put(Row::Offer(offer))?;
    }
    for mix in &book.mixes {
        books.put(Row::Mix(mix))?;
    }
    for struck in &book.struck {
        books.put(Row::Struck(struck))?;
    }
    Ok(())
}
