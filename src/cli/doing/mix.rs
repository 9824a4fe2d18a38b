//! What the shop mixes itself: noted, told, and scaled to what is needed.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::coating::Product;
use crate::desk::typed::{read_mix_by, read_part, read_volume};
use crate::desk::{Shop, UseAction};
use crate::papers::{mix_paper, scaled_notes, scaled_paper};
use crate::shop::{Mix, MixBy, Scaled};
use crate::units::{Density, Volume};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree mix \"island brown\" --by weight --part \"brown gel stain: 3\" --part \"walnut stain: 1\"\n  tackfree mix \"island brown\"\n  tackfree mix \"island brown\" --make \"12 oz\"\n  tackfree mix \"island brown\" --job 3\n  tackfree mix \"island brown\" --gone\n\nThe mix is a product like any other (tackfree product). A part may say its density in g/mL: \"mineral\nspirits: 1 at 0.78\"; with all of them a mix by volume can be weighed. Parts are rounded to the step\nof the scale or cup (tackfree allow), the sum never below the need. With --json: product, by, parts\n[name, parts, density (g/mL or null)]; scaled also makes_ml, worst_off (greatest deviation of a share,\n0.01 is 1 %), measured [name, grams or ml (the other null), exact (before rounding), off], notes.";

/// What was typed.
#[derive(Debug, Args)]
pub struct MixArgs {
    /// The product that is mixed.
    pub product: String,
    /// A part: what goes in, a colon, how many parts; may be said several times.
    #[arg(long, value_name = "PART")]
    pub part: Vec<String>,
    /// What the parts are parts of: weight, or volume.
    #[arg(long, requires = "part")]
    pub by: Option<String>,
    /// Scales it to this volume.
    #[arg(long, value_name = "VOLUME", conflicts_with_all = ["part", "job", "gone"])]
    pub make: Option<String>,
    /// Scales it to what a job still needs, with the reserve.
    #[arg(long, value_name = "JOB", conflicts_with_all = ["part", "gone"])]
    pub job: Option<String>,
    /// The shop mixes it no longer.
    #[arg(long, conflicts_with = "part")]
    pub gone: bool,
}

#[derive(Serialize)]
struct MixJson {
    product: String,
    by: &'static str,
    parts: Vec<PartJson>,
    #[serde(flatten)]
    scaled: Option<ScaledJson>,
}

#[derive(Serialize)]
struct PartJson {
    name: String,
    parts: f64,
    density: Option<f64>,
}

#[derive(Serialize)]
struct ScaledJson {
    makes_ml: f64,
    worst_off: f64,
    measured: Vec<MeasuredJson>,
    notes: Vec<String>,
}

#[derive(Serialize)]
struct MeasuredJson {
    name: String,
    grams: Option<f64>,
    ml: Option<f64>,
    exact: f64,
    off: f64,
}

/// Does it.
pub fn run(args: &MixArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let product = find::product(&shop, &args.product)?;
    if args.gone {
        return session.perform_use(UseAction::RemoveMix(product.id));
    }
    if !args.part.is_empty() {
        let by = match &args.by {
            Some(text) => read_mix_by(text)?,
            None => MixBy::Weight,
        };
        let parts: Vec<_> = args
            .part
            .iter()
            .map(|text| read_part(text))
            .collect::<Result<_, _>>()?;
        let product = product.id;
        return session.perform_use(UseAction::SaveMix(Mix { product, by, parts }));
    }
    let Some(mix) = shop.use_book.mix(product.id) else {
        return Err(Failure::said(format!(
            "How {} is mixed is not noted: give its parts with --part.",
            product.name
        )));
    };
    let Some(needed) = needed(args, product, &shop)? else {
        return Answer::new(mix_paper(product, mix), json(product, mix, None));
    };
    let rules = &shop.use_book.rules;
    let scaled = mix
        .scaled(needed, product.label.density, rules.scale, rules.cup)
        .map_err(|error| Failure::said(error.to_string()))?;
    let told = json(product, mix, Some(&scaled));
    Answer::new(scaled_paper(product, &scaled, &shop), told)
}

/// How much is to be mixed, if it was asked.
fn needed(args: &MixArgs, product: &Product, shop: &Shop) -> Result<Option<Volume>, Failure> {
    if let Some(text) = &args.make {
        return Ok(Some(read_volume("make", text, &shop.settings)?));
    }
    let Some(text) = &args.job else {
        return Ok(None);
    };
    let job = find::job(shop, text)?;
    let needs = shop.needs();
    let of = needs
        .iter()
        .filter(|need| need.job == job.id && need.product == product.id);
    let need: Volume = of.map(|need| need.volume).sum();
    if need <= Volume::ZERO {
        return Err(Failure::said(format!(
            "Job {} {} takes no more {}.",
            job.no, job.title, product.name
        )));
    }
    Ok(Some(shop.use_book.rules.with_reserve(need)))
}

fn json(product: &Product, mix: &Mix, scaled: Option<&Scaled>) -> MixJson {
    let tenth = |value: f64| (value * 10.0).round() / 10.0;
    let fine = |value: f64| (value * 1e6).round() / 1e6;
    MixJson {
        product: product.name.clone(),
        by: mix.by.word(),
        parts: mix
            .parts
            .iter()
            .map(|part| PartJson {
                name: part.name.clone(),
                parts: f64::from(part.milliparts) / 1000.0,
                density: part.density.map(Density::g_per_ml),
            })
            .collect(),
        scaled: scaled.map(|scaled| ScaledJson {
            makes_ml: tenth(scaled.makes.ml()),
            worst_off: fine(scaled.worst),
            measured: scaled
                .parts
                .iter()
                .map(|part| MeasuredJson {
                    name: part.name.clone(),
                    grams: part.weigh.map(crate::units::Mass::g),
                    ml: part.measure.map(Volume::ml),
                    exact: fine(part.exact / 1000.0),
                    off: fine(part.off),
                })
                .collect(),
            notes: scaled_notes(scaled),
        }),
    }
}
