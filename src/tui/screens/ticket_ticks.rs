//! Ticks on a ticket: space ticks the cell under the cursor, as done now or so many minutes ago.

use super::super::forms::FormKind;
use super::super::screen::{Ctx, Wish};
use super::sheet::Column;
use super::ticket::TicketScreen;
use crate::desk::{Action, FacePick};
use crate::shop::{SetItem, Ticket};
use crate::units::moment::{show_moment, show_span};
use chrono::{DateTime, Duration, Utc};

/// How many minutes ago ticks can be said to have been done, one step a key.
const AGO: [i64; 10] = [0, 5, 10, 15, 20, 30, 45, 60, 90, 120];

impl TicketScreen {
    /// One step further back, or nearer to now.
    pub(super) fn step_ago(&mut self, earlier: bool) {
        self.ago = if earlier {
            (self.ago + 1).min(AGO.len() - 1)
        } else {
            self.ago.saturating_sub(1)
        };
    }

    fn back(&self) -> Duration {
        Duration::minutes(AGO.get(self.ago).copied().unwrap_or(0))
    }

    /// When what is ticked now was done.
    pub(super) fn done_at(&self, now: DateTime<Utc>) -> DateTime<Utc> {
        now - self.back()
    }

    /// That ticks are not of now, in a line.
    pub(super) fn ago_words(&self, ctx: &Ctx<'_>) -> Option<String> {
        (self.ago > 0 && !self.on_set_list).then(|| {
            format!(
                "ticks count as done {} ago, {}; + comes back to now",
                show_span(self.back()),
                show_moment(self.done_at(ctx.now), ctx.now, ctx.zone())
            )
        })
    }

    pub(super) fn tick(&self, ticket: &Ticket, ctx: &Ctx<'_>) -> Vec<Wish> {
        let (piece, at) = (self.piece, self.done_at(ctx.now));
        if self.on_set_list {
            let Some(item) = SetItem::ALL.get(self.item).copied() else {
                return Vec::new();
            };
            return vec![Wish::Act(Action::SetList {
                piece,
                item,
                done: true,
            })];
        }
        match self.cell(ticket) {
            Some((face, Column::Grit(grit))) => {
                vec![Wish::Act(Action::Tick {
                    piece,
                    faces: vec![face.key],
                    grit,
                    at,
                })]
            }
            Some((face, Column::Wipe)) => {
                let picks = vec![FacePick {
                    piece,
                    faces: Some(vec![face.key]),
                }];
                vec![Wish::Act(Action::Wipe { picks, at })]
            }
            Some((_, Column::Coat(kind))) => {
                vec![Wish::Form(FormKind::Pass {
                    pieces: vec![piece],
                    kind,
                })]
            }
            None => Vec::new(),
        }
    }

    pub(super) fn take_back(&self, ticket: &Ticket, ctx: &Ctx<'_>) -> Vec<Wish> {
        let piece = self.piece;
        if self.on_set_list {
            let Some(item) = SetItem::ALL.get(self.item).copied() else {
                return Vec::new();
            };
            return vec![Wish::Act(Action::SetList {
                piece,
                item,
                done: false,
            })];
        }
        match self.cell(ticket) {
            Some((face, Column::Grit(grit))) => {
                vec![Wish::Act(Action::Untick {
                    piece,
                    face: face.key,
                    grit,
                    at: ctx.now,
                })]
            }
            _ => vec![Wish::Tell(vec![
                "Only a grit's tick is taken back here. Press u to undo the last action, or b to \
                 sand back."
                    .to_owned(),
            ])],
        }
    }
}
