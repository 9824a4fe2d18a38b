//! Logs the shop's air, corrects and removes readings; without a reading it lists them.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::reading::air as list;
use crate::cli::session::Session;
use crate::coating::AirReading;
use crate::desk::typed::{FieldError, read_air_time, read_shop_air};
use crate::desk::{Action, AirSpan, Books, Shop};
use crate::units::show_moment;
use chrono::{DateTime, Duration, SubsecRound, Utc};
use clap::Args;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree air 68F 45\n  tackfree air 20C 45% at 7:30\n  tackfree air 66F 40 --in-place-of 7:30\n  tackfree air --remove 7:30\n  tackfree air --lines 40\n\nTemperature first, then relative humidity; without F or C the shop's own scale. A temperature that\nlooks like the wrong scale is questioned; --sure logs it. Without a reading the last ones are\nlisted, with the shop's usual day and the forecast. With --json that list is: now, basis,\ntemperature_c, humidity_percent (of this moment), readings [at, temperature_c, humidity_percent,\nsource], usual [hour, temperature_c, humidity_percent], usual_days, forecast [from, until,\ntemperature_c, humidity_percent].";

/// What was typed.
#[derive(Debug, Args)]
pub struct AirArgs {
    /// Temperature and humidity, like 68F 45.
    #[arg(num_args = 0.., value_name = "READING")]
    pub reading: Vec<String>,
    /// When it was read: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// Corrects the reading of this time instead of logging another.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub in_place_of: Option<String>,
    /// Takes the reading of this time out.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true, conflicts_with_all = ["reading", "at", "in_place_of"])]
    pub remove: Option<String>,
    /// Logs a temperature that was questioned.
    #[arg(long)]
    pub sure: bool,
    /// How many readings are listed.
    #[arg(long, value_name = "COUNT", default_value_t = 12)]
    pub lines: usize,
}

/// Does it.
pub fn run(args: &AirArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let zone = shop.settings.zone;
    if let Some(time) = &args.remove {
        let found = found(session, &shop, "remove", time)?;
        return session.perform(&Action::RemoveAir(found.at));
    }
    if args.reading.is_empty() {
        if args.at.is_some() || args.in_place_of.is_some() {
            return Err(Failure::said(
                "Say what was read, temperature and humidity, like: tackfree air 68F 45",
            ));
        }
        return list::run(&shop, args.lines, session);
    }
    // What was typed in two words or in one, with the time behind it or as an option.
    let typed = args.reading.join(" ");
    let (typed, behind) = match typed.split_once(" at ") {
        Some((reading, time)) => (reading, Some(time)),
        None => (typed.as_str(), None),
    };
    if behind.is_some() && args.at.is_some() {
        return Err(Failure::said(
            "The time is given twice, with at and with --at; give it once.",
        ));
    }
    let air = read_shop_air(typed, &shop.settings).map_err(|error| Failure::said(error.message))?;
    let sure = args.sure;
    let time = args.at.as_deref().or(behind);
    let typed_time = time.is_some();
    let at = read_air_time(time.unwrap_or(""), session.now, zone)?;
    let result = match &args.in_place_of {
        None => session.perform(&Action::LogAir { at, air, sure }),
        Some(time) => {
            let found = found(session, &shop, "in_place_of", time)?;
            let at = if typed_time { at } else { found.at };
            session.perform(&Action::CorrectAir {
                reading: found.at,
                at,
                air,
                sure,
            })
        }
    };
    result.map_err(|failure| match failure {
        // The way to insist has a name here.
        Failure::Said(lines) => Failure::Said(
            lines
                .into_iter()
                .map(|line| line.replace("say that you are sure", "add --sure"))
                .collect(),
        ),
        other => other,
    })
}

/// The reading of a time: at that second, or the only one within that minute.
fn found(
    session: &Session<'_>,
    shop: &Shop,
    option: &'static str,
    text: &str,
) -> Result<AirReading, Failure> {
    let zone = shop.settings.zone;
    let at = read_air_time(text, session.now, zone)
        .map_err(|error| error.at(option))?
        .trunc_subsecs(0);
    let span = AirSpan {
        from: at,
        to: at.checked_add_signed(Duration::seconds(59)),
    };
    let rows = session.store.air(span)?;
    match rows.as_slice() {
        [one] => Ok(one.reading),
        [first, ..] if first.reading.at == at => Ok(first.reading),
        [] => Err(FieldError::new(option, nothing_at(at, session, shop)?).into()),
        [first, ..] => {
            let example = super::super::reading::moment(first.reading.at);
            let message = format!(
                "There are {} readings within that minute; say which to the second, like {example}.",
                rows.len()
            );
            Err(FieldError::new(option, message).into())
        }
    }
}

/// That there is no reading then, with the nearest one before.
fn nothing_at(at: DateTime<Utc>, session: &Session<'_>, shop: &Shop) -> Result<String, Failure> {
    let told = |at| show_moment(at, session.now, shop.settings.zone);
    let before = match session.store.air_before(at)? {
        Some(row) => format!("; the last before it is of {}", told(row.reading.at)),
        None => String::new(),
    };
    Ok(format!(
        "There is no reading at {}{before}. tackfree air lists them.",
        told(at)
    ))
}
