//! What the forms of work share: which faces of which pieces, and when.

use super::context::Context;
use crate::desk::FacePick;
use crate::desk::typed::{FieldError, echo_when, read_when};
use crate::shape::FaceKey;
use crate::shop::{CoatKind, FaceState, PieceId, Ticket, film_faces};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;
use chrono::{DateTime, Utc};

/// Every face of each piece, as a value of the list for several pieces.
const EVERY: &str = "every";

fn those(ticket: &Ticket, test: impl Fn(&FaceState) -> bool) -> Vec<FaceKey> {
    ticket
        .faces
        .iter()
        .filter(|face| test(face))
        .map(|face| face.key)
        .collect()
}

/// Faces to be wiped down.
pub(super) fn to_wipe(ticket: &Ticket) -> Vec<FaceKey> {
    those(ticket, |face| face.wiped.is_none() && face.coats.is_empty())
}

/// Faces with stain to be wiped off.
pub(super) fn to_wipe_off(ticket: &Ticket) -> Vec<FaceKey> {
    those(ticket, |face| {
        let last = face.last_coat();
        last.is_some_and(|coat| coat.kind == CoatKind::Stain && coat.wiped_off.is_none())
    })
}

/// Faces next in line for a coat that carry one already.
pub(super) fn to_scuff(ticket: &Ticket) -> Vec<FaceKey> {
    let due = CoatKind::of_stage(ticket.stage).map(|kind| ticket.due_faces(kind));
    let due = due.unwrap_or_default();
    those(ticket, |face| {
        due.contains(&face.key) && !face.coats.is_empty()
    })
}

/// Faces with the film of the piece's line on the Rack.
pub(super) fn to_touch(ticket: &Ticket, ctx: &Context<'_>) -> Vec<FaceKey> {
    let clock = ctx.shop.clock();
    film_faces(ticket, &ctx.shop.gates(&clock), ctx.now)
}

/// The faces of a ticket to tick, with their areas, those in `start` ticked.
pub(super) fn list(ticket: &Ticket, start: &[FaceKey], ctx: &Context<'_>) -> Field {
    let style = ctx.settings().area();
    let choices: Vec<Choice> = ticket
        .faces
        .iter()
        .map(|face| {
            Choice::new(
                face.key.code(),
                format!("{} ({})", face.key, face.area.show(style)),
            )
        })
        .collect();
    let codes: Vec<String> = start.iter().map(|key| key.code()).collect();
    let codes: Vec<&str> = codes.iter().map(String::as_str).collect();
    Field::many("faces", "Faces", choices, &codes)
}

/// The faces field: a list to tick for one piece; for several, those due on each, or every one.
pub(super) fn field(
    pieces: &[PieceId],
    due: impl Fn(&Ticket) -> Vec<FaceKey>,
    ctx: &Context<'_>,
) -> Field {
    if pieces.len() == 1 {
        let opened = ctx.opened(pieces);
        return opened.first().map_or_else(
            || Field::many("faces", "Faces", Vec::new(), &[]),
            |(_, ticket)| list(ticket, &due(ticket), ctx),
        );
    }
    let choices = vec![
        Choice::new("due", "the faces due on each"),
        Choice::new(EVERY, "every face of each"),
    ];
    Field::choice("faces", "Faces", choices, "due")
}

/// The keys ticked in a list of faces.
pub(super) fn ticked(form: &Form) -> Vec<FaceKey> {
    form.many("faces")
        .into_iter()
        .filter_map(|code| code.parse().ok())
        .collect()
}

/// The faces meant, piece by piece, for sums and echoes.
pub(super) fn meant(
    form: &Form,
    pieces: &[PieceId],
    due: impl Fn(&Ticket) -> Vec<FaceKey>,
    ctx: &Context<'_>,
) -> Vec<(PieceId, Ticket, Vec<FaceKey>)> {
    let one = pieces.len() == 1;
    ctx.opened(pieces)
        .into_iter()
        .map(|(file, ticket)| {
            let keys = if one {
                ticked(form)
            } else if form.choice("faces") == Some(EVERY) {
                ticket.faces.iter().map(|face| face.key).collect()
            } else {
                due(&ticket)
            };
            (file.piece.id, ticket, keys)
        })
        .collect()
}

/// The pieces and faces meant.
pub(super) fn picks(
    form: &Form,
    pieces: &[PieceId],
    ctx: &Context<'_>,
) -> Result<Vec<FacePick>, FieldError> {
    if let [piece] = pieces {
        let faces = ticked(form);
        if faces.is_empty() {
            let message = "No face is ticked: tick at least one with space, or all with *.";
            return Err(FieldError::new("faces", message));
        }
        return Ok(vec![FacePick {
            piece: *piece,
            faces: Some(faces),
        }]);
    }
    let every = match form.choice("faces") {
        Some(EVERY) => true,
        Some(_) => false,
        None => {
            return Err(FieldError::new(
                "faces",
                "Nothing is picked: say which faces.",
            ));
        }
    };
    let all = |piece: PieceId| {
        let opened = ctx.opened(&[piece]);
        opened
            .iter()
            .flat_map(|(_, ticket)| &ticket.faces)
            .map(|face| face.key)
            .collect()
    };
    let pick = |piece: &PieceId| FacePick {
        piece: *piece,
        faces: every.then(|| all(*piece)),
    };
    Ok(pieces.iter().map(pick).collect())
}

/// What the faces field means.
pub(super) fn echo(
    form: &Form,
    pieces: &[PieceId],
    due: impl Fn(&Ticket) -> Vec<FaceKey>,
    ctx: &Context<'_>,
) -> (&'static str, Option<String>) {
    let all = meant(form, pieces, due, ctx);
    let count: usize = all.iter().map(|(_, _, keys)| keys.len()).sum();
    let areas = all.iter().flat_map(|(_, ticket, keys)| {
        keys.iter()
            .filter_map(|key| ticket.face(*key))
            .map(|face| face.area)
    });
    let area: crate::units::Area = areas.sum();
    let faces = if count == 1 {
        "1 face".to_owned()
    } else {
        format!("{count} faces")
    };
    let words = if count == 0 {
        "no face".to_owned()
    } else {
        format!("{faces}, {}", area.show(ctx.settings().area()))
    };
    ("faces", Some(words))
}

/// A field for when something was done; nothing typed is now, and the echo says so.
pub(super) fn when(id: &'static str, label: &str) -> Field {
    Field::text(id, label, "").hint("Empty for now; 20 for 20 min ago, 7:30, yesterday 16:00.")
}

/// The moment typed.
pub(super) fn moment(
    form: &Form,
    id: &'static str,
    ctx: &Context<'_>,
) -> Result<DateTime<Utc>, FieldError> {
    read_when(form.text(id), ctx.now, ctx.zone).map_err(|error| error.at(id))
}

/// The moment understood.
pub(super) fn echo_moment(
    form: &Form,
    id: &'static str,
    ctx: &Context<'_>,
) -> (&'static str, Option<String>) {
    let text = form.text(id);
    let now = if text.trim().is_empty() { "now, " } else { "" };
    (
        id,
        echo_when(text, ctx.now, ctx.zone).map(|when| format!("{now}{when}")),
    )
}

/// Two answers, or every error of the two.
pub(super) fn both<A, B>(
    first: Result<A, FieldError>,
    second: Result<B, FieldError>,
) -> Result<(A, B), Vec<FieldError>> {
    match (first, second) {
        (Ok(first), Ok(second)) => Ok((first, second)),
        (Err(first), Err(second)) => Err(vec![first, second]),
        (Err(one), _) | (_, Err(one)) => Err(vec![one]),
    }
}

/// Three answers, or every error of the three.
pub(super) fn three<A, B, C>(
    first: Result<A, FieldError>,
    second: Result<B, FieldError>,
    third: Result<C, FieldError>,
) -> Result<(A, B, C), Vec<FieldError>> {
    match (both(first, second), third) {
        (Ok((first, second)), Ok(third)) => Ok((first, second, third)),
        (Ok(_), Err(error)) => Err(vec![error]),
        (Err(errors), third) => Err(errors.into_iter().chain(third.err()).collect()),
    }
}

/// A form that logs work on pieces: these fields, and when.
pub(super) fn log_form(
    title: &str,
    pieces: &[PieceId],
    mut fields: Vec<Field>,
    ctx: &Context<'_>,
) -> Form {
    fields.push(when("at", "When"));
    let mut form = Form::new(&format!("{title}: {}", ctx.called(pieces)), fields);
    "log".clone_into(&mut form.submit_word);
    form
}

/// What its faces and its moment mean.
pub(super) fn log_echo(
    form: &Form,
    pieces: &[PieceId],
    due: impl Fn(&Ticket) -> Vec<FaceKey>,
    ctx: &Context<'_>,
) -> Vec<(&'static str, Option<String>)> {
    vec![echo(form, pieces, due, ctx), echo_moment(form, "at", ctx)]
}
