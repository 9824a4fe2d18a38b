//! `products.toml`.

use super::error::{Fault, FilesError};
use super::import::Reading;
use super::keys::{Ring, word as key_word};
use super::meaning::{BASES, FAMILIES, pick, product_kind, word};
use super::text::{self, NAME_MOST};
use super::tomls::{Read, quoted, value};
use super::words;
use crate::coating::{LabelFigures, Product, ProductId, RecoatWindow};
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
    basis: String,
    spread: String,
    solids: String,
    density: String,
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
    let label = LabelFigures {
        spread: value("spread", words::read_spread(&row.spread))?,
        solids_pct: value("solids", words::read_percent(&row.solids))?,
        density: value("density", words::read_density(&row.density))?,
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
    };
    Ok(Product {
        id,
        name,
        kind: value("kind", product_kind(&row.kind))?,
        family: value("family", pick(FAMILIES, &row.family))?,
        basis: value("basis", pick(BASES, &row.basis))?,
        label,
        can: value("can", words::read_volume(&row.can))?,
        price: value("price", words::read_money(&row.price))?,
    })
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
        let lines = [
            ("id", quoted(&product.id.to_string())),
            ("name", quoted(&product.name)),
            ("kind", quoted(product.kind.word())),
            ("family", quoted(word(FAMILIES, &product.family))),
            ("basis", quoted(word(BASES, &product.basis))),
            ("spread", quoted(&words::spread(label.spread))),
            ("solids", quoted(&words::percent(label.solids_pct))),
            ("density", quoted(&words::density(label.density))),
            ("touch", quoted(&words::span(label.touch))),
            ("tack_free", quoted(&words::span(label.tack_free))),
            ("windows", format!("[{}]", windows.join(", "))),
            ("handle", quoted(&words::span(label.handle))),
            ("light_use", quoted(&words::span(label.light_use))),
            ("full_cure", quoted(&words::span(label.full_cure))),
            (
                "min_temperature",
                quoted(&words::temperature(label.min_temp)),
            ),
            ("max_humidity", quoted(&words::humidity(label.max_humidity))),
            ("can", quoted(&words::volume(product.can))),
            ("price", quoted(&words::money(product.price))),
        ];
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
