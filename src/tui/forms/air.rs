//! The form for a reading of the shop's air: one line, so that it is logged with one key, what was
//! read, and enter.

use super::context::Context;
use crate::coating::{AirReading, ShopAir};
use crate::desk::typed::{FieldError, read_air_time, read_shop_air, write_shop_air};
use crate::desk::{Action, Which};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::units::moment::show_moment;
use chrono::{DateTime, SecondsFormat, Utc};

fn stored(at: DateTime<Utc>, ctx: &Context<'_>) -> Option<AirReading> {
    ctx.shop
        .air
        .reading_before(at)
        .filter(|reading| reading.at == at)
}

pub(super) fn form(which: Which<DateTime<Utc>>, ctx: &Context<'_>) -> Form {
    let hint = match ctx.settings().temperature {
        crate::units::TemperatureStyle::Fahrenheit => {
            "68F 45 or 68 45; earlier: 68F 45 at 7:30, 68 45 20 min ago. If asked: sure behind it."
        }
        crate::units::TemperatureStyle::Celsius => {
            "20C 45 or 20 45; earlier: 20C 45 at 7:30, 20 45 20 min ago. If asked: sure behind it."
        }
    };
    let (title, start) = match which {
        Which::New => ("Shop air", String::new()),
        Which::This(at) => {
            let start = stored(at, ctx).map_or_else(String::new, |reading| {
                let local = reading.at.with_timezone(&ctx.zone);
                let when = local.to_rfc3339_opts(SecondsFormat::Secs, false);
                format!("{} {when}", write_shop_air(reading.air, ctx.settings()))
            });
            ("Correct a reading of the shop's air", start)
        }
    };
    let field = Field::text("air", "Temperature, humidity, time", &start).hint(hint);
    let mut form = Form::new(title, vec![field]);
    "log".clone_into(&mut form.submit_word);
    form
}

/// What one line says.
struct Line {
    air: ShopAir,
    when: String,
    sure: bool,
}

/// The longest beginning that reads as air is the air; the rest is the time.
fn split(text: &str, ctx: &Context<'_>) -> Result<Line, FieldError> {
    let mut words: Vec<&str> = text.split_whitespace().collect();
    let sure = words
        .pop_if(|last| last.eq_ignore_ascii_case("sure"))
        .is_some();
    for n in (1..=words.len()).rev() {
        if let Ok(air) = read_shop_air(&words[..n].join(" "), ctx.settings()) {
            return Ok(Line {
                air,
                when: words[n..].join(" "),
                sure,
            });
        }
    }
    read_shop_air(&words.join(" "), ctx.settings()).map(|air| Line {
        air,
        when: String::new(),
        sure,
    })
}

pub(super) fn read(
    form: &Form,
    which: Which<DateTime<Utc>>,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let line = split(form.text("air"), ctx).map_err(|error| vec![error.at("air")])?;
    let at = read_air_time(&line.when, ctx.now, ctx.zone).map_err(|error| vec![error.at("air")])?;
    let (air, sure) = (line.air, line.sure);
    Ok(match which {
        Which::New => Action::LogAir { at, air, sure },
        Which::This(reading) => Action::CorrectAir {
            reading,
            at,
            air,
            sure,
        },
    })
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    let words = split(form.text("air"), ctx).ok().map(|line| {
        let now = if line.when.is_empty() { "now, " } else { "" };
        let when = read_air_time(&line.when, ctx.now, ctx.zone).map_or_else(
            |_| "that time does not read".to_owned(),
            |at| show_moment(at, ctx.now, ctx.zone),
        );
        let air = crate::desk::show_air(line.air, ctx.settings());
        format!("{air}; {now}{when}")
    });
    vec![("air", words)]
}
