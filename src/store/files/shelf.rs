//! `products.toml`.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{BASES, FAMILIES, OldBasis, pick, product_kind, word};
use super::table::short;
use super::text::{self, NAME_MOST};
use super::tomls::{Read, quoted, value};
use super::words;
use crate::coating::model::STANDARD_REFERENCE;
use crate::coating::{Figure, FigureSet, LabelFigures, Product, ProductId, RecoatWindow};
use crate::units::{Length, Temperature};
use serde::Deserialize;
use std::collections::HashSet;
use std::fmt::Write as _;
use toml::Spanned;

const FILE: &str = "products.toml";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    product: Vec<Spanned<Row>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    id: String,
    name: String,
    kind: String,
    family: String,
    /// Files of format 1: one word for all figures.
    basis: Option<String>,
    from_label: Option<Vec<String>>,
    spread: String,
    wet_film: Option<String>,
    dry_film: Option<String>,
    solids: String,
    density: String,
    voc: Option<String>,
    reference: Option<String>,
    reference_humidity: Option<String>,
    touch: String,
    tack_free: String,
    windows: Vec<WindowRow>,
    handle: String,
    light_use: String,
    full_cure: String,
    min_temperature: String,
    max_humidity: String,
    can: String,
    price: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WindowRow {
    opens: String,
    closes: Option<String>,
    #[serde(default)]
    scuff: bool,
}

/// The products of the files and their keys.
pub(super) struct Shelf {
    pub(super) products: Vec<Product>,
    pub(super) ring: Ring<ProductId>,
}

impl Shelf {
    /// A product by its identifier.
    pub(super) fn product(&self, id: ProductId) -> Option<&Product> {
        self.products.iter().find(|product| product.id == id)
    }
}

/// Reads the products. A key that is a word takes the identifier of the store's product of the
/// same name (`before`), if there is one.
pub(super) fn read(reading: &mut Reading<'_>, before: &[Product]) -> Result<Shelf, FilesError> {
    let file = Read::<File>::file(&reading.source, FILE)?;
    let mut shelf = Shelf {
        products: Vec::new(),
        ring: Ring::new("product"),
    };
    let mut names = HashSet::new();
    for spanned in &file.what.product {
        let line = file.line(spanned);
        let row = spanned.get_ref();
        let at = |fault: Fault| fault.at(FILE, line);
        let (name, left_out) = text::line("name", &row.name, NAME_MOST).map_err(at)?;
        reading.notes.left_out(FILE, line, "name", left_out);
        if !names.insert(name.to_ascii_lowercase()) {
            return Err(at(Fault::Twice {
                what: "product named",
                key: name,
            }));
        }
        let key = value("id", key_word(&row.id)).map_err(at)?;
        let same = before
            .iter()
            .find(|product| product.name.eq_ignore_ascii_case(&name));
        let id = reading.keys.of_or(&key, same.map(|product| product.id.0));
        let id = ProductId(id.ok_or_else(|| at(shelf.ring.twice(&key)))?);
        shelf.ring.hang(&key, id).map_err(at)?;
        let product = product(row, id, name).map_err(at)?;
        product.check().map_err(|error| at(error.into()))?;
        // Books written before stages were held to their order are taken as they are.
        if let Err(error) = product.check_orders() {
            reading.notes.say(format!("{FILE}, line {line}: {error}"));
        }
        shelf.products.push(product);
    }
    Ok(shelf)
}

fn product(row: &Row, id: ProductId, name: String) -> Result<Product, Fault> {
    let mut windows = Vec::new();
    for window in &row.windows {
        windows.push(RecoatWindow {
            opens: value("opens", words::read_span(&window.opens))?,
            closes: match &window.closes {
                Some(closes) => Some(value("closes", words::read_span(closes))?),
                None => None,
            },
            scuff: window.scuff,
        });
    }
    let mut label = LabelFigures {
        spread: value("spread", words::read_spread(&row.spread))?,
        wet_film: maybe("wet_film", row.wet_film.as_deref(), words::read_film)?,
        dry_film: maybe("dry_film", row.dry_film.as_deref(), words::read_film)?,
        solids_pct: value("solids", words::read_percent(&row.solids))?,
        density: value("density", words::read_density(&row.density))?,
        voc: maybe("voc", row.voc.as_deref(), words::read_voc)?,
        reference: maybe(
            "reference",
            row.reference.as_deref(),
            words::read_temperature,
        )?
        .unwrap_or(Temperature::from(STANDARD_REFERENCE)),
        reference_humidity: maybe(
            "reference_humidity",
            row.reference_humidity.as_deref(),
            words::read_humidity,
        )?,
        touch: value("touch", words::read_span(&row.touch))?,
        tack_free: value("tack_free", words::read_span(&row.tack_free))?,
        windows,
        handle: value("handle", words::read_span(&row.handle))?,
        light_use: value("light_use", words::read_span(&row.light_use))?,
        full_cure: value("full_cure", words::read_span(&row.full_cure))?,
        min_temp: value(
            "min_temperature",
            words::read_temperature(&row.min_temperature),
        )?,
        max_humidity: value("max_humidity", words::read_humidity(&row.max_humidity))?,
        from_label: FigureSet::NONE,
    };
    label.from_label = from_label(row, &label)?;
    Ok(Product {
        id,
        name,
        kind: value("kind", product_kind(&row.kind))?,
        family: value("family", pick(FAMILIES, &row.family))?,
        label,
        can: value("can", words::read_volume(&row.can))?,
        price: value("price", words::read_money(&row.price))?,
    })
}

/// A figure that may be left out.
fn maybe<T>(
    what: &'static str,
    text: Option<&str>,
    read: impl Fn(&str) -> Result<T, String>,
) -> Result<Option<T>, Fault> {
    text.map(|text| value(what, read(text))).transpose()
}

/// The figures that were read off the label. A file of format 1 says one word for all of them.
fn from_label(row: &Row, label: &LabelFigures) -> Result<FigureSet, Fault> {
    let given = |figure: &Figure| match figure {
        Figure::Reference => row.reference.is_some(),
        figure => label.has(*figure),
    };
    match (&row.from_label, &row.basis) {
        (Some(codes), None) => {
            let mut set = FigureSet::NONE;
            for code in codes {
                let figure = Figure::of_code(code).ok_or_else(|| {
                    let known = Figure::ALL.map(Figure::code).join(", ");
                    let code = short(code);
                    format!("\"{code}\" is not one of {known}.")
                });
                let figure = value("from_label", figure)?;
                if !given(&figure) {
                    let why = format!("{} is named, but not given.", figure.code());
                    return value("from_label", Err(why));
                }
                set.set(figure, true);
            }
            Ok(set)
        }
        (None, Some(word)) => match value("basis", pick(BASES, word))? {
            OldBasis::Label => Ok(Figure::ALL.into_iter().filter(given).collect()),
            OldBasis::FamilyRange => Ok(FigureSet::NONE),
        },
        (Some(_), Some(_)) => {
            let why = "from_label already says it figure by figure; leave basis out.".to_owned();
            value("basis", Err(why))
        }
        (None, None) => {
            let why = "name the figures read off the label, [] for none.".to_owned();
            value("from_label", Err(why))
        }
    }
}

/// Writes the products, in the order given.
pub(super) fn write(products: &[Product]) -> String {
    let mut out = String::new();
    for product in products {
        let label = &product.label;
        let windows: Vec<String> = label
            .windows
            .iter()
            .map(|window| {
                let closes = window.closes.map_or(String::new(), |closes| {
                    format!("closes = \"{}\", ", words::span(closes))
                });
                format!(
                    "{{ opens = \"{}\", {closes}scuff = {} }}",
                    words::span(window.opens),
                    window.scuff
                )
            })
            .collect();
        let codes: Vec<String> = label
            .from_label
            .iter()
            .filter(|figure| label.has(*figure))
            .map(|figure| quoted(figure.code()))
            .collect();
        let film = |film: Option<Length>| film.map(|film| quoted(&words::film(film)));
        let lines = [
            ("id", Some(quoted(&product.id.to_string()))),
            ("name", Some(quoted(&product.name))),
            ("kind", Some(quoted(product.kind.word()))),
            ("family", Some(quoted(word(FAMILIES, &product.family)))),
            ("from_label", Some(format!("[{}]", codes.join(", ")))),
            ("spread", Some(quoted(&words::spread(label.spread)))),
            ("wet_film", film(label.wet_film)),
            ("dry_film", film(label.dry_film)),
            ("solids", Some(quoted(&words::percent(label.solids_pct)))),
            ("density", Some(quoted(&words::density(label.density)))),
            ("voc", label.voc.map(|voc| quoted(&words::voc(voc)))),
            (
                "reference",
                Some(quoted(&words::temperature(label.reference))),
            ),
            (
                "reference_humidity",
                label
                    .reference_humidity
                    .map(|h| quoted(&words::humidity(h))),
            ),
            ("touch", Some(quoted(&words::span(label.touch)))),
            ("tack_free", Some(quoted(&words::span(label.tack_free)))),
            ("windows", Some(format!("[{}]", windows.join(", ")))),
            ("handle", Some(quoted(&words::span(label.handle)))),
            ("light_use", Some(quoted(&words::span(label.light_use)))),
            ("full_cure", Some(quoted(&words::span(label.full_cure)))),
            (
                "min_temperature",
                Some(quoted(&words::temperature(label.min_temp))),
            ),
            (
                "max_humidity",
                Some(quoted(&words::humidity(label.max_humidity))),
            ),
            ("can", Some(quoted(&words::volume(product.can)))),
            ("price", Some(quoted(&words::money(product.price)))),
        ];
        let lines: Vec<(&str, String)> = lines
            .into_iter()
            .filter_map(|(key, value)| Some((key, value?)))
            .collect();
        table(&mut out, "product", &lines);
    }
    out
}

/// Adds one `[[name]]` table.
pub(super) fn table(out: &mut String, name: &str, lines: &[(&str, String)]) {
    if !out.is_empty() {
        out.push('\n');
    }
    // Writing to a String cannot fail.
    let _ = writeln!(out, "[[{name}]]");
    for (key, value) in lines {
        let _ = writeln!(out, "{key} = {value}");
    }
}
