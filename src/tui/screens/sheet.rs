//! The sheet of a ticket as rows and columns: faces down, steps across.

use crate::shape::FaceKey;
use crate::shop::{CoatKind, Grit, Ticket};

/// One column of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    /// A grit.
    Grit(Grit),
    /// The wipe-down.
    Wipe,
    /// Coats of a kind.
    Coat(CoatKind),
}

/// The columns of a ticket's sheet: what its schedule asks, in order, and what was laid besides.
pub(super) fn sheet_columns(ticket: &Ticket) -> Vec<Column> {
    let mut out: Vec<Column> = ticket.grits().into_iter().map(Column::Grit).collect();
    if ticket.schedule.asks_wipe_down() {
        out.push(Column::Wipe);
    }
    for kind in CoatKind::ALL {
        let laid = ticket.faces.iter().any(|face| face.count(kind) > 0);
        if ticket.schedule.asks(kind.stage()) || laid {
            out.push(Column::Coat(kind));
        }
    }
    out
}

/// The faces that are asked a grit and lack it.
pub(super) fn lacking(ticket: &Ticket, grit: Grit) -> Vec<FaceKey> {
    ticket
        .faces
        .iter()
        .filter(|face| ticket.plan(face).grits.contains(&grit) && !face.ticks.contains_key(&grit))
        .map(|face| face.key)
        .collect()
}
