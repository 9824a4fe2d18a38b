//! Can sizes that can be bought.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::coating::Product;
use crate::desk::typed::{read_price, read_volume};
use crate::desk::{Shop, UseAction};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::Columns;
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree offer\n  tackfree offer \"brown gel stain\" \"1/2 pt\" 11\n  tackfree offer \"brown gel stain\" \"1/2 pt\" --gone\n\nThe can a product is priced by is always on offer; these are the sizes beside it, or another price\nfor it. With --json and nothing to save: products [product, product_id, sizes [holds_ml,\nprice_cents]].";

/// What was typed.
#[derive(Debug, Args)]
pub struct OfferArgs {
    /// The product; the sizes of all products unless said.
    pub product: Option<String>,
    /// What the can holds.
    pub size: Option<String>,
    /// What it costs.
    pub price: Option<String>,
    /// That size is no longer on offer.
    #[arg(long, requires = "size", conflicts_with = "price")]
    pub gone: bool,
}

#[derive(Serialize)]
struct OffersJson {
    products: Vec<ProductJson>,
}

#[derive(Serialize)]
struct ProductJson {
    product: String,
    product_id: String,
    sizes: Vec<SizeJson>,
}

#[derive(Serialize)]
struct SizeJson {
    holds_ml: f64,
    price_cents: i64,
}

/// Does it, or tells what is on offer.
pub fn run(args: &OfferArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let one = match &args.product {
        Some(text) => Some(find::product(&shop, text)?),
        None => None,
    };
    let (Some(product), Some(size)) = (one, &args.size) else {
        let products = one.map_or_else(|| shop.products.iter().collect(), |one| vec![one]);
        return list(&products, &shop);
    };
    let holds = read_volume("size", size, &shop.settings)?;
    let product = product.id;
    match &args.price {
        _ if args.gone => session.perform_use(UseAction::RemoveOffer { product, holds }),
        Some(price) => {
            let price = read_price(price)?;
            session.perform_use(UseAction::SaveOffer {
                product,
                holds,
                price,
            })
        }
        None => Err(Failure::said(
            "Say what that can costs, like 11 or 24.50; or --gone if it can no longer be bought.",
        )),
    }
}

fn list(products: &[&Product], shop: &Shop) -> Result<Answer, Failure> {
    let mut columns = Columns::at_most(&[30]);
    let mut json = Vec::new();
    for product in products {
        let sizes = shop.use_book.offers_of(product);
        let said: Vec<String> = sizes
            .iter()
            .map(|size| {
                format!(
                    "{} at {}",
                    size.holds.show(shop.settings.volume),
                    size.price.show()
                )
            })
            .collect();
        columns.row([product.name.as_str(), &said.join(", ")]);
        json.push(ProductJson {
            product: product.name.clone(),
            product_id: product.id.to_string(),
            sizes: sizes
                .iter()
                .map(|size| SizeJson {
                    holds_ml: size.holds.ml(),
                    price_cents: size.price.cents(),
                })
                .collect(),
        });
    }
    Answer::new(columns.lines(0, PAPER_WIDTH), OffersJson { products: json })
}
