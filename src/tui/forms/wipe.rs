//! The forms for the wipe-down and for stain wiped off.

use super::context::Context;
use super::faces::{self, to_wipe, to_wipe_off};
use crate::desk::Action;
use crate::desk::typed::FieldError;
use crate::shape::FaceKey;
use crate::shop::{PieceId, Ticket};
use crate::tui::kit::form::Form;

/// Which of the two.
#[derive(Clone, Copy)]
pub(super) enum Wipe {
    /// The wipe-down before the first coat.
    Down,
    /// Stain wiped off.
    Off,
}

impl Wipe {
    fn due(self, ticket: &Ticket) -> Vec<FaceKey> {
        match self {
            Self::Down => to_wipe(ticket),
            Self::Off => to_wipe_off(ticket),
        }
    }

    pub(super) fn form(self, pieces: &[PieceId], ctx: &Context<'_>) -> Form {
        let title = match self {
            Self::Down => "Wipe down",
            Self::Off => "Wipe off the stain",
        };
        let fields = vec![faces::field(pieces, |ticket| self.due(ticket), ctx)];
        faces::log_form(title, pieces, fields, ctx)
    }

    pub(super) fn read(
        self,
        form: &Form,
        pieces: &[PieceId],
        ctx: &Context<'_>,
    ) -> Result<Action, Vec<FieldError>> {
        let (picks, at) = faces::both(
            faces::picks(form, pieces, ctx),
            faces::moment(form, "at", ctx),
        )?;
        Ok(match self {
            Self::Down => Action::Wipe { picks, at },
            Self::Off => Action::WipeOff { picks, at },
        })
    }

    pub(super) fn echo(
        self,
        form: &Form,
        pieces: &[PieceId],
        ctx: &Context<'_>,
    ) -> Vec<(&'static str, Option<String>)> {
        faces::log_echo(form, pieces, |ticket| self.due(ticket), ctx)
    }
}
