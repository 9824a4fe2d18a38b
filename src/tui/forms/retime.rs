//! The form that corrects when a line of a log was done.

use super::context::Context;
use super::faces;
use crate::desk::Action;
use crate::desk::typed::FieldError;
use crate::shop::{Event, EventId, PieceId, What, together};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use chrono::{DateTime, Utc};

fn event<'a>(piece: PieceId, line: EventId, ctx: &Context<'a>) -> Option<&'a Event> {
    let events = &ctx.shop.file(piece)?.events;
    events.iter().find(|event| event.id == line)
}

/// A moment as it would be typed, so that a field left alone means the same minute.
fn written(at: DateTime<Utc>, ctx: &Context<'_>) -> String {
    at.with_timezone(&ctx.zone)
        .format("%Y-%m-%d %H:%M")
        .to_string()
}

pub(super) fn form(piece: PieceId, line: EventId, ctx: &Context<'_>) -> Form {
    let (mut fields, mut what) = (Vec::new(), String::new());
    if let (Some(event), Some(file)) = (event(piece, line, ctx), ctx.shop.file(piece)) {
        what = event.what.brief(together(file, line).len());
        let hint = "20 for 20 min ago, 7:30, yesterday 16:00; all that depends on it follows.";
        if let What::Coat { started, .. } = &event.what {
            fields.push(Field::text("started", "Started", &written(*started, ctx)).hint(hint));
            fields.push(Field::text("ended", "Finished", &written(event.at, ctx)).hint(hint));
        } else {
            fields.push(Field::text("at", "When", &written(event.at, ctx)).hint(hint));
        }
    }
    let title = format!("Correct the time of {what}: {}", ctx.called(&[piece]));
    let mut form = Form::new(&title, fields);
    "correct".clone_into(&mut form.submit_word);
    form
}

/// The moment typed; a field left as it was keeps the very moment it stands for.
fn moment(
    form: &Form,
    id: &'static str,
    was: DateTime<Utc>,
    ctx: &Context<'_>,
) -> Result<DateTime<Utc>, FieldError> {
    if form.text(id) == written(was, ctx) {
        return Ok(was);
    }
    faces::moment(form, id, ctx)
}

pub(super) fn read(
    form: &Form,
    piece: PieceId,
    line: EventId,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let (Some(event), Some(file)) = (event(piece, line, ctx), ctx.shop.file(piece)) else {
        let message = "This line is no longer in the log: press esc.";
        return Err(vec![FieldError::new("at", message)]);
    };
    if let What::Coat { pass, started, .. } = &event.what {
        let (started, ended) = faces::both(
            moment(form, "started", *started, ctx),
            moment(form, "ended", event.at, ctx),
        )?;
        if ended < started {
            let message = "The pass ends before it starts: look at the two times again.";
            return Err(vec![FieldError::new("ended", message)]);
        }
        return Ok(Action::CorrectPassTime {
            pass: *pass,
            started,
            ended,
        });
    }
    let at = moment(form, "at", event.at, ctx).map_err(|error| vec![error])?;
    Ok(Action::CorrectTime {
        piece,
        lines: together(file, line),
        at,
    })
}

pub(super) fn echo(form: &Form, ctx: &Context<'_>) -> Vec<(&'static str, Option<String>)> {
    ["at", "started", "ended"]
        .into_iter()
        .filter(|id| form.field(id).is_some())
        .map(|id| faces::echo_moment(form, id, ctx))
        .collect()
}
