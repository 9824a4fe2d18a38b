//! The form for a sand-back: a run, a scratch, a holiday taken back.

use super::context::Context;
use super::faces;
use crate::desk::Action;
use crate::desk::typed::FieldError;
use crate::shape::FaceKey;
use crate::shop::{Grit, PieceId, ReasonFor, Ticket};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

/// The finest grit that all of these faces carry: the least work that takes the coats off.
fn finest(ticket: &Ticket, keys: &[FaceKey]) -> Option<Grit> {
    let carried = |grit: &Grit| {
        keys.iter()
            .filter_map(|key| ticket.face(*key))
            .all(|face| face.ticks.contains_key(grit))
    };
    ticket.grits().into_iter().rev().find(carried)
}

pub(super) fn form(piece: PieceId, start: &[FaceKey], ctx: &Context<'_>) -> Form {
    let opened = ctx.opened(&[piece]);
    let ticket = opened.first().map(|(_, ticket)| ticket);
    let list = ticket.map(|ticket| faces::list(ticket, start, ctx));
    let grits: Vec<Choice> = ticket
        .map(Ticket::grits)
        .unwrap_or_default()
        .iter()
        .map(|grit| Choice::new(grit.to_string(), format!("{grit} grit")))
        .collect();
    let grit = ticket.and_then(|ticket| finest(ticket, start));
    let grit = grit.map_or_else(String::new, |grit| grit.to_string());
    let fields = vec![
        list.unwrap_or_else(|| Field::many("faces", "Faces", Vec::new(), &[])),
        Field::choice("to", "Back to", grits, &grit)
            .hint("The grit they were sanded with now; finer grits and coats are to do again."),
        Field::text("reason", "Reason", "").hint("One word will do: run, scratch, holiday."),
        faces::when("at", "When"),
    ];
    let mut form = Form::new(&format!("Sand back: {}", ctx.called(&[piece])), fields);
    "sand back".clone_into(&mut form.submit_word);
    form
}

pub(super) fn read(
    form: &Form,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Result<Action, Vec<FieldError>> {
    let mut errors = Vec::new();
    let faces = faces::ticked(form);
    if faces.is_empty() {
        let message = "No face is ticked: tick those that were sanded back with space.";
        errors.push(FieldError::new("faces", message));
    }
    let to = form
        .choice("to")
        .and_then(|grit| grit.parse().ok())
        .map(Grit);
    if to.is_none() {
        errors.push(FieldError::new(
            "to",
            "No grit is picked: say which grit they stand at now.",
        ));
    }
    let reason = reason(form, ReasonFor::SandBack, &mut errors);
    let at = faces::moment(form, "at", ctx).map_err(|error| errors.push(error));
    match (to, at) {
        (Some(to), Ok(at)) if errors.is_empty() => Ok(Action::SandBack {
            piece,
            faces,
            to,
            reason,
            at,
        }),
        _ => Err(errors),
    }
}

/// The written reason, which stays on the ticket.
pub(super) fn reason(form: &Form, what: ReasonFor, errors: &mut Vec<FieldError>) -> String {
    let reason = form.text("reason").to_owned();
    if !what.is_met_by(&reason) {
        let message = format!("The reason is too short: {}.", what.asks());
        errors.push(FieldError::new("reason", message));
    }
    reason
}

pub(super) fn echo(
    form: &Form,
    piece: PieceId,
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    let keys = faces::ticked(form);
    let coats: usize = ctx
        .opened(&[piece])
        .iter()
        .flat_map(|(_, ticket)| keys.iter().filter_map(|key| ticket.face(*key)))
        .map(|face| face.coats.len())
        .sum();
    let takes = match coats {
        0 => "takes back no coats".to_owned(),
        1 => "takes back 1 coat on these faces".to_owned(),
        _ => format!("takes back {coats} coats on these faces"),
    };
    vec![
        faces::echo(form, &[piece], |_| Vec::new(), ctx),
        ("to", Some(takes)),
        faces::echo_moment(form, "at", ctx),
    ]
}
