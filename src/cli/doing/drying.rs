//! Tells or sets what the shop reckons drying by.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::reading::rounded;
use crate::cli::session::Session;
use crate::coating::{Assumed, Care};
use crate::desk::typed::{FieldError, read_shop_air};
use crate::desk::{Action, rules_words};
use clap::{Args, ValueEnum};
use serde::Serialize;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree drying\n  tackfree drying --care strict\n  tackfree drying --most 1.2 --damp-slows-oil no\n  tackfree drying --before-log '60F 50'\n\nWithout an option it tells what holds. strict waits longer in the cold than every published table\nseen; --most lets a warm, dry shop shorten the label's hours, up to 1.5 times its speed (the safe\ntime still never comes before the label's hours). With --json: care, most_speed, damp_slows_oil,\nassumed_temperature_c, assumed_humidity_percent (null: the label's conditions).";

/// How careful safe times are.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum CareWord {
    /// As published rules have it: twice the time for every 10 C colder.
    Safe,
    /// Slower than every published table seen.
    Strict,
}

/// Yes or no.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum YesNo {
    /// Yes.
    Yes,
    /// No.
    No,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct DryingArgs {
    /// How careful safe times are.
    #[arg(long, value_enum)]
    pub care: Option<CareWord>,
    /// The greatest speed against the label, 1 to 1.5.
    #[arg(long, value_name = "SPEED")]
    pub most: Option<f64>,
    /// Whether damp air slows oil films.
    #[arg(long, value_enum)]
    pub damp_slows_oil: Option<YesNo>,
    /// The air before the first reading, like 60F 50; label for the label's conditions.
    #[arg(long, value_name = "AIR")]
    pub before_log: Option<String>,
}

#[derive(Serialize)]
struct DryingJson {
    care: &'static str,
    most_speed: f64,
    damp_slows_oil: bool,
    assumed_temperature_c: Option<f64>,
    assumed_humidity_percent: Option<f64>,
}

/// Does it.
pub fn run(args: &DryingArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let mut rules = shop.drying;
    if let Some(care) = args.care {
        rules.law.safe = match care {
            CareWord::Safe => Care::Safe,
            CareWord::Strict => Care::Strict,
        };
    }
    if let Some(most) = args.most {
        if !(1.0..=1.5).contains(&most) {
            let message = "The greatest speed lies between 1 and 1.5 times the label's.";
            return Err(FieldError::new("most", message).into());
        }
        #[allow(
            clippy::cast_possible_truncation,
            reason = "between 1000 and 1500, as was just checked"
        )]
        let thousandths = (most * 1000.0).round() as i32;
        rules.law.cap = thousandths;
    }
    if let Some(damp) = args.damp_slows_oil {
        rules.law.oil_humidity = damp == YesNo::Yes;
    }
    if let Some(air) = args.before_log.as_deref() {
        rules.assumed = if air.trim().eq_ignore_ascii_case("label") {
            Assumed::LabelConditions
        } else {
            let air = read_shop_air(air, &shop.settings);
            Assumed::Air(air.map_err(|error| error.at("before_log"))?)
        };
    }
    if rules != shop.drying {
        return session.perform(&Action::SetDrying(rules));
    }
    let assumed = match rules.assumed {
        Assumed::LabelConditions => None,
        Assumed::Air(air) => Some(air),
    };
    let json = DryingJson {
        care: rules.law.safe.word(),
        most_speed: f64::from(rules.law.cap) / 1000.0,
        damp_slows_oil: rules.law.oil_humidity,
        assumed_temperature_c: assumed.map(|air| rounded(air.temperature.c())),
        assumed_humidity_percent: assumed.map(|air| air.humidity.percent()),
    };
    let words = format!("DRYING: {}", rules_words(&rules, &shop.settings));
    Answer::new(vec![words], json)
}
