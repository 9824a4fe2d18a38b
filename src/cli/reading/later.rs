//! What a coat would do if it went on at a moment to come.

use super::moment;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::read_ahead;
use crate::desk::{LaterPass, later_lines};
use clap::Args;
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree later 'Oil wiping varnish' --at 'tomorrow 7:00'\n  tackfree later 'Oil wiping varnish' --at 'in 3 h' --json\n\nSafe and likely times of a coat planned for later, by the forecast where one was typed, else by the\nshop's usual air of each hour. Nothing is logged. With --json: product, laid_at, stages [stage,\nlikely_at, safe_at, window_shuts_at], speed (1 is the label's); times RFC 3339 or null.";

/// What was typed.
#[derive(Debug, Args)]
pub struct LaterArgs {
    /// The product.
    pub product: String,
    /// When it would go on: now unless said.
    #[arg(long, value_name = "TIME")]
    pub at: Option<String>,
}

#[derive(Serialize)]
struct LaterJson {
    product: String,
    laid_at: String,
    stages: Vec<StageJson>,
    speed: f64,
}

#[derive(Serialize)]
struct StageJson {
    stage: &'static str,
    likely_at: String,
    safe_at: String,
    window_shuts_at: Option<String>,
}

/// Reads it.
pub fn run(args: &LaterArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let product = find::product(&shop, &args.product)?;
    let text = args.at.as_deref().unwrap_or("");
    let at = read_ahead("at", text, session.now, shop.settings.zone)?;
    let later = LaterPass::of(&shop, product, at);
    let stages = later.stages(product.kind).into_iter();
    Answer::new(
        later_lines(&shop, product, at, session.now),
        LaterJson {
            product: product.name.clone(),
            laid_at: moment(at),
            stages: stages
                .map(|stage| StageJson {
                    stage: stage.stage,
                    likely_at: moment(stage.times.likely),
                    safe_at: moment(stage.times.safe),
                    window_shuts_at: stage.shuts.map(moment),
                })
                .collect(),
            speed: super::rounded(later.speed.speed),
        },
    )
}
