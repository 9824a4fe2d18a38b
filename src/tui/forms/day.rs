//! The forms of the day's end: a chore ticked with its time, and a day closed although oily rags
//! are not logged.

use super::context::Context;
use super::faces;
use crate::desk::Action;
use crate::desk::typed::{FieldError, read_rag_way};
use crate::papers::call_words;
use crate::shop::{Chore, RagWay, ReasonFor};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;
use crate::units::moment::show_date;
use chrono::NaiveDate;

/// The chore's form. No way is picked to begin with: where the rags are is the person's to say.
pub(super) fn chore_form(day: NaiveDate, chore: Chore, ctx: &Context<'_>) -> Form {
    let mut fields = Vec::new();
    if chore == Chore::OilyRags {
        let ways = vec![
            Choice::new("flat", RagWay::FlatOutdoors.words()),
            Choice::new("can", RagWay::WaterCan.words()),
        ];
        fields.push(Field::choice("way", "They are", ways, "").hint(chore.caution().line));
    }
    fields.push(faces::when("at", "When"));
    let title = format!(
        "Day's end, {}: {}",
        show_date(day, ctx.today()),
        chore.words()
    );
    let mut form = Form::new(&title, fields);
    "tick".clone_into(&mut form.submit_word);
    form
}

pub(super) fn read_chore_form(
    form: &Form,
    (day, chore): (NaiveDate, Chore),
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let way = match (chore, form.choice("way")) {
        (Chore::OilyRags, Some(way)) => {
            read_rag_way(way).map(Some).map_err(|error| error.at("way"))
        }
        (Chore::OilyRags, None) => Err(FieldError::new(
            "way",
            "Nothing is picked: say how the oily rags were made safe.",
        )),
        _ => Ok(None),
    };
    let (way, at) = faces::both(way, faces::moment(form, "at", ctx))?;
    Ok(Action::TickChore {
        day,
        chore,
        way,
        at,
    })
}

pub(super) fn echo_chore(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    vec![faces::echo_moment(form, "at", ctx)]
}

/// The form that asks before a day is closed on oily rags.
pub(super) fn close_form(day: NaiveDate, ctx: &Context<'_>) -> Form {
    let end = ctx.shop.day_end(day);
    let mut told = Field::told("told", "Not logged");
    if let Some(rags) = end.rags() {
        told.tell(vec![
            (
                format!("oily rags {}", call_words(rags, ctx.shop, ctx.now)),
                true,
            ),
            (Chore::OilyRags.caution().words(), true),
        ]);
    }
    let hint = "Esc goes back to log them. To close all the same, write why, two words or more; it \
                stays in the log.";
    let reason = Field::text("reason", "Reason", "").hint(hint);
    let title = format!(
        "Close {} with oily rags not logged?",
        show_date(day, ctx.today())
    );
    let mut form = Form::new(&title, vec![told, reason]);
    form.focus("reason");
    "close the day".clone_into(&mut form.submit_word);
    form
}

pub(super) fn read_close(form: &Form, day: NaiveDate) -> Result<Action, Vec<FieldError>> {
    let reason = form.text("reason").trim().to_owned();
    if !ReasonFor::Hiding.is_met_by(&reason) {
        let message = "Write why they need no logging, two words or more, or press esc and log \
                       where they are.";
        return Err(vec![FieldError::new("reason", message)]);
    }
    Ok(Action::CloseDay {
        day,
        reason: Some(reason),
    })
}
