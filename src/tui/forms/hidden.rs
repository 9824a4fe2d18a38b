//! The form that declares a face not exposed, with the written reason.

use super::context::Context;
use super::sand_back::reason;
use crate::desk::Action;
use crate::desk::typed::FieldError;
use crate::shape::FaceKey;
use crate::shop::{PieceId, ReasonFor};
use crate::tui::kit::field::Field;
use crate::tui::kit::form::Form;
use crate::tui::kit::options::Choice;

pub(super) fn form(piece: PieceId, ctx: &Context<'_>) -> Form {
    let opened = ctx.opened(&[piece]);
    let faces: Vec<Choice> = opened
        .iter()
        .flat_map(|(_, ticket)| &ticket.faces)
        .filter(|face| face.key != FaceKey::Top && face.is_exposed())
        .map(|face| Choice::new(face.key.code(), face.key.to_string()))
        .collect();
    let fields = vec![
        Field::choice("face", "Face", faces, "")
            .hint("It then needs no coats, and the record says why."),
        Field::text("reason", "Reason", "")
            .hint("Glued to another part, say. It stays on the ticket and the finish record."),
    ];
    let mut form = Form::new(
        &format!("Face not exposed: {}", ctx.called(&[piece])),
        fields,
    );
    "declare".clone_into(&mut form.submit_word);
    form
}

pub(super) fn read(form: &Form, piece: PieceId) -> Result<Action, Vec<FieldError>> {
    let mut errors = Vec::new();
    let face = form.choice("face").and_then(|code| code.parse().ok());
    if face.is_none() {
        errors.push(FieldError::new(
            "face",
            "No face is picked: say which one will be hidden.",
        ));
    }
    let reason = reason(form, ReasonFor::Hiding, &mut errors);
    match face {
        Some(face) if errors.is_empty() => Ok(Action::DeclareHidden {
            piece,
            face,
            reason,
        }),
        _ => Err(errors),
    }
}
