//! Enters or changes a product.

use super::put;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{ProductTyped, read_product};
use crate::desk::{Action, Which};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree product \"satin wiping varnish\" --family \"oil wiping varnish\" --can \"1 qt\" --price 31.50\n  tackfree product --change \"clear wiping varnish\" --spread \"125 sq ft/qt\" --windows \"4 h to 24 h\"\n  tackfree product --change \"brushing varnish\" --windows \"within 2 h; after 6 days\" --reference \"77 F\" --voc \"446 g/L\"\n\nThe label on the can wins: a figure you type is the label's. One you leave out, or type with ~ in front (\"~6 h\"), is the usual one of the family, to be checked against the can. Type \"\" to take an optional figure away. Figures that do not go together are said after saving.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ProductArgs {
    /// What the shop calls it.
    #[arg(value_name = "NAME", required_unless_present = "change")]
    pub name: Option<String>,
    /// Changes this product; what is not given stays. NAME then is the new name.
    #[arg(long, value_name = "PRODUCT", conflicts_with = "like")]
    pub change: Option<String>,
    /// Starts from the figures of this product.
    #[arg(long, value_name = "PRODUCT")]
    pub like: Option<String>,
    /// Its family: oil wiping varnish, oil gel stain, dewaxed shellac, hardwax oil...
    #[arg(long)]
    pub family: Option<String>,
    /// What it is for: wipe, sealer, stain or topcoat.
    #[arg(long)]
    pub kind: Option<String>,
    /// Where the figures came from: each (those with ~ in front, or not given, are the family's),
    /// label (all of them) or family (none is the label's).
    #[arg(long)]
    pub basis: Option<String>,
    /// Spread rate: 625 sq ft/gal, 15.3 m2/L.
    #[arg(long, value_name = "RATE", allow_hyphen_values = true)]
    pub spread: Option<String>,
    /// Wet film of one coat, if the sheet says: 2.7 mil, 69 um.
    #[arg(long, value_name = "FILM", allow_hyphen_values = true)]
    pub wet_film: Option<String>,
    /// Dry film of one coat, if the sheet says: 1.1 mil, 28 um.
    #[arg(long, value_name = "FILM", allow_hyphen_values = true)]
    pub dry_film: Option<String>,
    /// Volume solids in per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub solids: Option<String>,
    /// Density: 7.2 lb/gal, 0.86 g/mL.
    #[arg(long, allow_hyphen_values = true)]
    pub density: Option<String>,
    /// VOC: 446 g/L, 3.7 lb/gal.
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub voc: Option<String>,
    /// The temperature at which the drying times hold: 77 F.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub reference: Option<String>,
    /// The humidity at which they hold, in per cent, if the label says.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub reference_humidity: Option<String>,
    /// Set to touch: 2 h.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub touch: Option<String>,
    /// Tack-free: 4 h.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub tack_free: Option<String>,
    /// Recoat windows: 6 h to 24 h; or several: within 2 h; scuff after 6 days.
    #[arg(long, value_name = "TIMES", allow_hyphen_values = true)]
    pub windows: Option<String>,
    /// Dry to handle: 24 h.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub handle: Option<String>,
    /// Light use: 3 days.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub light_use: Option<String>,
    /// Full cure: 30 days.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub full_cure: Option<String>,
    /// Coldest air and wood: 55 F.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub min_temp: Option<String>,
    /// Dampest air, in per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pub max_humidity: Option<String>,
    /// Size of the can it is priced by: 1 qt, 1 L.
    #[arg(long, value_name = "SIZE", allow_hyphen_values = true)]
    pub can: Option<String>,
    /// Price of that can: 28.00.
    #[arg(long, allow_hyphen_values = true)]
    pub price: Option<String>,
}

/// Does it.
pub fn run(args: &ProductArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let (which, mut typed) = match (&args.change, &args.like) {
        (Some(text), _) => {
            let product = find::product(&shop, text)?;
            (Which::This(product.id), ProductTyped::of(product, &shop))
        }
        (None, Some(text)) => (
            Which::New,
            ProductTyped::of(find::product(&shop, text)?, &shop),
        ),
        (None, None) => {
            let start = ProductTyped {
                can: "1 qt".to_owned(),
                price: "0".to_owned(),
                ..ProductTyped::default()
            };
            (Which::New, start)
        }
    };
    put(&mut typed.name, args.name.as_ref());
    put(&mut typed.family, args.family.as_ref());
    put(&mut typed.kind, args.kind.as_ref());
    put(&mut typed.basis, args.basis.as_ref());
    put(&mut typed.spread, args.spread.as_ref());
    put(&mut typed.wet_film, args.wet_film.as_ref());
    put(&mut typed.dry_film, args.dry_film.as_ref());
    put(&mut typed.solids, args.solids.as_ref());
    put(&mut typed.density, args.density.as_ref());
    put(&mut typed.voc, args.voc.as_ref());
    put(&mut typed.reference, args.reference.as_ref());
    put(
        &mut typed.reference_humidity,
        args.reference_humidity.as_ref(),
    );
    put(&mut typed.touch, args.touch.as_ref());
    put(&mut typed.tack_free, args.tack_free.as_ref());
    put(&mut typed.windows, args.windows.as_ref());
    put(&mut typed.handle, args.handle.as_ref());
    put(&mut typed.light_use, args.light_use.as_ref());
    put(&mut typed.full_cure, args.full_cure.as_ref());
    put(&mut typed.min_temp, args.min_temp.as_ref());
    put(&mut typed.max_humidity, args.max_humidity.as_ref());
    put(&mut typed.can, args.can.as_ref());
    put(&mut typed.price, args.price.as_ref());
    session.perform(&Action::SaveProduct(which, read_product(&typed, &shop)?))
}
