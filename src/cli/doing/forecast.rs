//! Types a forecast of the shop's air, takes it away, or tells it.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::reading::air as list;
use crate::cli::session::Session;
use crate::coating::ForecastStep;
use crate::desk::Action;
use crate::desk::typed::{read_ahead, read_shop_air};
use clap::Args;

/// Examples.
pub const MORE: &str = "Examples:\n  tackfree forecast 55F 60 --until 'tomorrow 7:00'\n  tackfree forecast 20C 40 --from 'fri 18:00' --until 'sat 8:00'\n  tackfree forecast --clear\n\nWhat the shop's air will be: it counts after the last reading, in the place of the shop's usual air.\nWhere it covers what was foretold before, the newer word stands. Without air the forecast is told,\nas by tackfree air.";

/// What was typed.
#[derive(Debug, Args)]
pub struct ForecastArgs {
    /// Temperature and humidity, like 55F 60.
    #[arg(num_args = 0.., value_name = "AIR")]
    pub air: Vec<String>,
    /// From when: now unless said.
    #[arg(long, value_name = "TIME")]
    pub from: Option<String>,
    /// Until when.
    #[arg(long, value_name = "TIME")]
    pub until: Option<String>,
    /// Takes the forecast away.
    #[arg(long, conflicts_with_all = ["air", "from", "until"])]
    pub clear: bool,
}

/// Does it.
pub fn run(args: &ForecastArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    if args.clear {
        return session.perform(&Action::ClearForecast);
    }
    let shop = session.shop()?;
    if args.air.is_empty() && args.until.is_none() && args.from.is_none() {
        return list::run(&shop, 0, session);
    }
    let air = read_shop_air(&args.air.join(" "), &shop.settings)
        .map_err(|error| Failure::said(error.message))?;
    let Some(until) = &args.until else {
        return Err(Failure::said(
            "Say until when with --until, like --until 'tomorrow 7:00'.",
        ));
    };
    let zone = shop.settings.zone;
    let from = args.from.as_deref().unwrap_or("");
    let step = ForecastStep {
        from: read_ahead("from", from, session.now, zone)?,
        until: read_ahead("until", until, session.now, zone)?,
        air,
    };
    session.perform(&Action::Foretell(step))
}
