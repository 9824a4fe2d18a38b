//! The ticket of one piece: the sheet of faces and steps, and the set list.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::kit::text::{shorten, wrap};
use super::super::screen::{Ctx, Screen, Wish};
use super::bench::{next_step, touch_form};
use super::sheet::{Column, lacking, sheet_columns};
use super::ticket_keys::{Do, KEYS};
use super::ticket_log::{self, LogView};
use super::walk::{HELP, HINTS, Step, Walk};
use crate::desk::{Action, Which};
use crate::shop::{CoatKind, FaceState, PieceId, SetItem, Stage, Ticket, waiting};
use chrono::{DateTime, Utc};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// An opened ticket.
#[derive(Debug)]
pub struct TicketScreen {
    pub(super) piece: PieceId,
    pub(super) face: usize,
    pub(super) column: usize,
    pub(super) on_set_list: bool,
    pub(super) item: usize,
    pub(super) walk: Option<Walk>,
    pub(super) log: Option<LogView>,
    /// Steps back from now at which ticks are said to have been done.
    pub(super) ago: usize,
    stage_seen: Option<Stage>,
}

impl TicketScreen {
    /// Opens the ticket of a piece.
    pub fn new(piece: PieceId) -> Self {
        Self {
            piece,
            face: 0,
            column: 0,
            on_set_list: false,
            item: 0,
            walk: None,
            log: None,
            ago: 0,
            stage_seen: None,
        }
    }

    /// The piece.
    pub fn piece(&self) -> PieceId {
        self.piece
    }

    /// Whether the walk round the piece is under way, which takes every key.
    pub fn is_walking(&self) -> bool {
        self.walk.is_some()
    }

    /// What was said on a walk under way, as the action it would come to.
    pub fn said_on_the_walk(&self, at: DateTime<Utc>) -> Option<Action> {
        let walk = self.walk.as_ref().filter(|walk| !walk.said().is_empty())?;
        Some(Action::Tick {
            piece: self.piece,
            faces: walk.said().to_vec(),
            grit: walk.grit,
            at: self.done_at(at),
        })
    }

    /// The folded ticket, if the piece is there.
    pub(super) fn ticket(&self, ctx: &Ctx<'_>) -> Option<Ticket> {
        ctx.shop.file(self.piece).map(Ticket::of)
    }

    pub(super) fn cell<'t>(&self, ticket: &'t Ticket) -> Option<(&'t FaceState, Column)> {
        let columns = sheet_columns(ticket);
        Some((ticket.faces.get(self.face)?, *columns.get(self.column)?))
    }

    /// Starts the walk for the coarsest grit that is still missing on any face: the finer ones
    /// could not be ticked before it.
    fn whole_grit(&mut self, ticket: &Ticket) -> Vec<Wish> {
        let grit = ticket
            .grits()
            .into_iter()
            .find(|grit| !lacking(ticket, *grit).is_empty());
        match grit.and_then(|grit| Walk::new(grit, lacking(ticket, grit))) {
            Some(walk) => {
                let column = sheet_columns(ticket)
                    .iter()
                    .position(|c| *c == Column::Grit(walk.grit));
                self.column = column.unwrap_or(self.column);
                self.on_set_list = false;
                self.walk = Some(walk);
                Vec::new()
            }
            None => vec![Wish::Tell(vec![
                "Every face carries every grit.".to_owned(),
            ])],
        }
    }

    fn walk_key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let at = self.done_at(ctx.now);
        let Some(walk) = &mut self.walk else {
            return Vec::new();
        };
        let grit = walk.grit;
        match walk.key(key) {
            Step::On => Vec::new(),
            Step::Over(faces) => {
                self.walk = None;
                if faces.is_empty() {
                    return Vec::new();
                }
                vec![Wish::Act(Action::Tick {
                    piece: self.piece,
                    faces,
                    grit,
                    at,
                })]
            }
        }
    }

    fn pass(&self, ticket: &Ticket) -> Vec<Wish> {
        match CoatKind::of_stage(ticket.stage) {
            Some(kind) => vec![Wish::Form(FormKind::Pass {
                pieces: vec![self.piece],
                kind,
            })],
            None => vec![Wish::Tell(vec![format!(
                "A pass belongs to sealing, staining or topcoats; this piece is in {}.",
                ticket.stage
            )])],
        }
    }

    fn go(&mut self, action: Do, ticket: &Ticket) {
        if self.on_set_list {
            let last = SetItem::ALL.len() - 1;
            match action {
                Do::Up => self.item = self.item.saturating_sub(1),
                Do::Down => self.item = (self.item + 1).min(last),
                _ => {}
            }
            return;
        }
        let rows = ticket.faces.len().saturating_sub(1);
        let columns = sheet_columns(ticket).len().saturating_sub(1);
        match action {
            Do::Up => self.face = self.face.saturating_sub(1),
            Do::Down => self.face = (self.face + 1).min(rows),
            Do::Left => self.column = self.column.saturating_sub(1),
            Do::Right => self.column = (self.column + 1).min(columns),
            _ => {}
        }
    }
}

impl Screen for TicketScreen {
    fn title(&self, ctx: &Ctx<'_>) -> String {
        let what = if self.log.is_some() {
            "Log of"
        } else {
            "Ticket"
        };
        ctx.shop.file(self.piece).map_or_else(
            || "Ticket".to_owned(),
            |file| format!("{what} {}", ctx.shop.called(file)),
        )
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        let Some(ticket) = self.ticket(ctx) else {
            return vec![Wish::Back];
        };
        if self.walk.is_some() {
            return self.walk_key(key, ctx);
        }
        if let Some(log) = &mut self.log {
            let (wishes, stays) = log.key(key, self.piece, ctx);
            if !stays {
                self.log = None;
            }
            return wishes;
        }
        let pieces = vec![self.piece];
        let Some(action) = KEYS.find(key) else {
            return Vec::new();
        };
        match action {
            Do::Tick => self.tick(&ticket, ctx),
            Do::TakeBack => self.take_back(&ticket, ctx),
            Do::WholeGrit => self.whole_grit(&ticket),
            Do::Next => match waiting(&ticket, &ctx.gates(), ctx.now) {
                crate::shop::Waiting::Grit { .. } => self.whole_grit(&ticket),
                crate::shop::Waiting::SetList { .. } => {
                    self.on_set_list = true;
                    self.tick(&ticket, ctx)
                }
                waits => match next_step(self.piece, &waits, pieces).pop() {
                    Some(Wish::Ticket(_)) | None => {
                        vec![Wish::Tell(vec![waits.words(ctx.now, ctx.zone())])]
                    }
                    Some(wish) => vec![wish],
                },
            },
            Do::Move => vec![Wish::Act(Action::MoveAlong(pieces))],
            Do::MoveBack => vec![Wish::Act(Action::MoveBack(self.piece))],
            Do::Pass => self.pass(&ticket),
            Do::Wipe if ticket.stage == Stage::Staining => {
                vec![Wish::Form(FormKind::WipeOff { pieces })]
            }
            Do::Wipe => vec![Wish::Form(FormKind::Wipe { pieces })],
            Do::Scuff => vec![Wish::Form(FormKind::Scuff { pieces })],
            Do::Touch => touch_form(pieces, ctx),
            Do::SandBack => {
                let faces = ticket
                    .faces
                    .get(self.face)
                    .map(|face| face.key)
                    .into_iter()
                    .collect();
                vec![Wish::Form(FormKind::SandBack {
                    piece: self.piece,
                    faces,
                })]
            }
            Do::Hidden => match ticket
                .faces
                .get(self.face)
                .filter(|face| !face.is_exposed())
            {
                Some(face) => {
                    vec![Wish::Act(Action::WithdrawHidden {
                        piece: self.piece,
                        face: face.key,
                    })]
                }
                None => vec![Wish::Form(FormKind::Hidden { piece: self.piece })],
            },
            Do::Edit => vec![Wish::Form(FormKind::Piece(Which::This(self.piece), None))],
            Do::Log => {
                self.log = Some(LogView::of(ctx.shop.file(self.piece)));
                Vec::new()
            }
            Do::Earlier | Do::Later => {
                self.step_ago(action == Do::Earlier);
                Vec::new()
            }
            Do::Wood => vec![Wish::Wood(self.piece)],
            Do::Other => {
                self.on_set_list = !self.on_set_list && ticket.stage == Stage::Set;
                Vec::new()
            }
            Do::Back => vec![Wish::Back],
            Do::Up | Do::Down | Do::Left | Do::Right => {
                self.go(action, &ticket);
                Vec::new()
            }
        }
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        let Some(ticket) = self.ticket(ctx) else {
            return;
        };
        self.face = self.face.min(ticket.faces.len().saturating_sub(1));
        let columns = sheet_columns(&ticket);
        self.column = self.column.min(columns.len().saturating_sub(1));
        if self.stage_seen != Some(ticket.stage) {
            // The cursor follows the piece to where its next work is.
            self.stage_seen = Some(ticket.stage);
            self.on_set_list = ticket.stage == Stage::Set;
            let next = CoatKind::of_stage(ticket.stage).map(Column::Coat);
            if let Some(at) = next.and_then(|next| columns.iter().position(|c| *c == next)) {
                self.column = at;
            } else if ticket.stage == Stage::Sanding {
                let missing = ticket
                    .grits()
                    .into_iter()
                    .find(|g| !lacking(&ticket, *g).is_empty());
                let at = missing.and_then(|g| columns.iter().position(|c| *c == Column::Grit(g)));
                self.column = at.unwrap_or(0);
            }
        }
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        if let Some(log) = &self.log {
            return log.draw(buf, area, self.piece, ctx);
        }
        super::ticket_view::draw(self, buf, area, ctx);
        if let Some(walk) = &self.walk {
            walk.draw(buf, area, ctx);
        }
    }

    fn hints(&self, width: usize, _: &Ctx<'_>) -> String {
        if self.walk.is_some() {
            return shorten(HINTS, width);
        }
        if self.log.is_some() {
            return ticket_log::hints(width);
        }
        KEYS.hint_line(width, |_| true)
    }

    fn help(&self, width: usize) -> Vec<String> {
        let mut lines = KEYS.help_lines(width);
        lines.push(String::new());
        lines.extend(wrap(HELP, width));
        lines.push(String::new());
        lines.extend(ticket_log::help(width));
        lines
    }
}
