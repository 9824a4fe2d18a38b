//! The Bench: the stage board. Five columns, one for each stage; a piece is one card.

use super::super::forms::FormKind;
use super::super::kit::key::Key;
use super::super::screen::{Ctx, Place, Screen, Wish};
use super::bench_keys::{Do, KEYS};
use super::day_end::wants_day_end;
use crate::desk::{Action, Which};
use crate::shop::{CoatKind, PieceFile, PieceId, Stage, Ticket, Waiting, waiting};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// One card: a piece and what it waits for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Card {
    pub(super) piece: PieceId,
    pub(super) called: String,
    pub(super) stage: Stage,
    pub(super) waiting: Waiting,
}

/// The Bench.
#[derive(Debug, Default)]
pub struct Bench {
    pub(super) cards: Vec<Card>,
    pub(super) column: usize,
    pub(super) focus: Option<PieceId>,
    pub(super) picked: Vec<PieceId>,
}

impl Bench {
    /// The cards of one stage, those that want a hand first.
    pub(super) fn cards_of(&self, stage: Stage) -> Vec<&Card> {
        self.cards
            .iter()
            .filter(|card| card.stage == stage)
            .collect()
    }

    /// The stage whose column the selection is in.
    pub(super) fn stage(&self) -> Stage {
        Stage::ALL[self.column.min(Stage::ALL.len() - 1)]
    }

    /// The selected card.
    pub(super) fn selected(&self) -> Option<&Card> {
        let cards = self.cards_of(self.stage());
        let focus = self.focus;
        cards
            .iter()
            .find(|card| Some(card.piece) == focus)
            .or_else(|| cards.first())
            .copied()
    }

    /// Picked pieces, or the selected one.
    fn meant(&self) -> Vec<PieceId> {
        if self.picked.is_empty() {
            self.selected().map(|card| card.piece).into_iter().collect()
        } else {
            self.picked.clone()
        }
    }

    /// Puts the selection on a piece, wherever it stands now.
    pub fn focus_on(&mut self, piece: PieceId) {
        if let Some(card) = self.cards.iter().find(|card| card.piece == piece) {
            self.column = Stage::ALL
                .iter()
                .position(|stage| *stage == card.stage)
                .unwrap_or(0);
            self.focus = Some(piece);
        }
    }

    fn step(&mut self, by: isize) {
        let cards = self.cards_of(self.stage());
        let at = self
            .selected()
            .and_then(|card| cards.iter().position(|other| other.piece == card.piece))
            .unwrap_or(0);
        let last = cards.len().saturating_sub(1);
        let to = at.saturating_add_signed(by).min(last);
        self.focus = cards.get(to).map(|card| card.piece);
    }

    fn turn(&mut self, by: isize) {
        let last = Stage::ALL.len() - 1;
        self.column = self.column.saturating_add_signed(by).min(last);
        self.focus = self.selected().map(|card| card.piece);
    }

    fn pick(&mut self) {
        let Some(piece) = self.selected().map(|card| card.piece) else {
            return;
        };
        match self.picked.iter().position(|picked| *picked == piece) {
            Some(at) => {
                self.picked.remove(at);
            }
            None => self.picked.push(piece),
        }
    }

    fn form(&self, make: impl FnOnce(Vec<PieceId>) -> FormKind) -> Vec<Wish> {
        let pieces = self.meant();
        if pieces.is_empty() {
            nothing_here()
        } else {
            vec![Wish::Form(make(pieces))]
        }
    }

    fn pass(&self) -> Vec<Wish> {
        let stages: Vec<Stage> = self
            .meant()
            .iter()
            .filter_map(|piece| self.cards.iter().find(|card| card.piece == *piece))
            .map(|card| card.stage)
            .collect();
        let Some(first) = stages.first() else {
            return nothing_here();
        };
        if stages.iter().any(|stage| stage != first) {
            return vec![Wish::Tell(vec![
                "The picked pieces stand in different stages; one pass goes to pieces of one stage."
                    .to_owned(),
            ])];
        }
        match CoatKind::of_stage(*first) {
            Some(kind) => self.form(|pieces| FormKind::Pass { pieces, kind }),
            None => vec![Wish::Tell(vec![format!(
                "A pass belongs to sealing, staining or topcoats; this piece is in {first}."
            )])],
        }
    }

    fn wipe(&self) -> Vec<Wish> {
        let staining = self
            .selected()
            .is_some_and(|card| card.stage == Stage::Staining);
        self.form(|pieces| {
            if staining {
                FormKind::WipeOff { pieces }
            } else {
                FormKind::Wipe { pieces }
            }
        })
    }

    fn next(&self) -> Vec<Wish> {
        let Some(card) = self.selected() else {
            return nothing_here();
        };
        let pieces = vec![card.piece];
        next_step(card.piece, &card.waiting, pieces)
    }
}

/// The wish that does what a piece waits for.
pub fn next_step(piece: PieceId, waits: &Waiting, pieces: Vec<PieceId>) -> Vec<Wish> {
    let wish = match waits {
        Waiting::WipeDown { .. } => Wish::Form(FormKind::Wipe { pieces }),
        Waiting::MoveOn { .. } => Wish::Act(Action::MoveAlong(pieces)),
        Waiting::Lay { kind, .. } | Waiting::Abrade { kind, .. } => Wish::Form(FormKind::Pass {
            pieces,
            kind: *kind,
        }),
        Waiting::TestAgain { .. } | Waiting::Dry { .. } | Waiting::Cure { .. } => {
            Wish::Form(FormKind::Touch { pieces })
        }
        Waiting::Scuff => Wish::Form(FormKind::Scuff { pieces }),
        Waiting::WipeOff { .. } => Wish::Form(FormKind::WipeOff { pieces }),
        Waiting::Grit { .. }
        | Waiting::FlashOff { .. }
        | Waiting::NextWindow { .. }
        | Waiting::Held { .. }
        | Waiting::SetList { .. }
        | Waiting::Finished { .. } => Wish::Ticket(piece),
    };
    vec![wish]
}

/// The form of a touch test, if there is a coat to touch.
pub(super) fn touch_form(pieces: Vec<PieceId>, ctx: &Ctx<'_>) -> Vec<Wish> {
    if pieces.is_empty() {
        return nothing_here();
    }
    let coated = pieces
        .iter()
        .filter_map(|piece| ctx.shop.file(*piece))
        .any(|file| {
            Ticket::of(file)
                .faces
                .iter()
                .any(|face| !face.coats.is_empty())
        });
    if coated {
        vec![Wish::Form(FormKind::Touch { pieces })]
    } else {
        vec![Wish::Tell(vec![
            "There is no coat to touch on it yet.".to_owned(),
        ])]
    }
}

fn nothing_here() -> Vec<Wish> {
    vec![Wish::Tell(vec![
        "No piece stands here. Press n to enter one.".to_owned(),
    ])]
}

/// The card of a piece.
fn card(file: &PieceFile, ctx: &Ctx<'_>) -> Card {
    let ticket = Ticket::of(file);
    Card {
        piece: file.piece.id,
        called: ctx.shop.called(file),
        stage: ticket.stage,
        waiting: waiting(&ticket, &ctx.gates(), ctx.now),
    }
}

impl Screen for Bench {
    fn title(&self, _: &Ctx<'_>) -> String {
        "Bench".to_owned()
    }

    fn key(&mut self, key: &Key, ctx: &Ctx<'_>) -> Vec<Wish> {
        match KEYS.find(key) {
            Some(Do::Left) => self.turn(-1),
            Some(Do::Right) => self.turn(1),
            Some(Do::Up) => self.step(-1),
            Some(Do::Down) => self.step(1),
            Some(Do::First) => self.step(isize::MIN / 2),
            Some(Do::Last) => self.step(isize::MAX / 2),
            Some(Do::Pick) => self.pick(),
            Some(Do::Unpick) => self.picked.clear(),
            Some(Do::Open) => {
                return match self.selected() {
                    Some(card) => vec![Wish::Ticket(card.piece)],
                    None => nothing_here(),
                };
            }
            Some(Do::Next) => return self.next(),
            Some(Do::Move) => {
                let pieces = self.meant();
                return if pieces.is_empty() {
                    nothing_here()
                } else {
                    vec![Wish::Act(Action::MoveAlong(pieces))]
                };
            }
            Some(Do::Pass) => return self.pass(),
            Some(Do::Wipe) => return self.wipe(),
            Some(Do::Scuff) => return self.form(|pieces| FormKind::Scuff { pieces }),
            Some(Do::Touch) => return touch_form(self.meant(), ctx),
            Some(Do::DayEnd) => return vec![Wish::Go(Place::DayEnd)],
            Some(Do::NewPiece) => {
                let here = self.selected().and_then(|card| ctx.shop.file(card.piece));
                let job = here
                    .map(|file| file.piece.job)
                    .or_else(|| ctx.shop.jobs.last().map(|j| j.id));
                return vec![Wish::Form(match (job, ctx.shop.clients.is_empty()) {
                    (Some(_), _) => FormKind::Piece(Which::New, job),
                    (None, true) => FormKind::Client(Which::New),
                    (None, false) => FormKind::Job(Which::New, None),
                })];
            }
            None => {}
        }
        Vec::new()
    }

    fn settle(&mut self, ctx: &Ctx<'_>) {
        self.cards = ctx.shop.files.iter().map(|file| card(file, ctx)).collect();
        // Hands wanted first, then what turns soonest, then as numbered.
        self.cards
            .sort_by_key(|card| (card.waiting.shows(), card.waiting.until()));
        let known = |piece: &PieceId| self.cards.iter().any(|card| card.piece == *piece);
        self.picked.retain(known);
        if let Some(piece) = self.focus.filter(known) {
            self.focus_on(piece);
        } else if self.cards_of(self.stage()).is_empty()
            && let Some(first) = self.cards.first().map(|card| card.piece)
        {
            self.focus_on(first);
        }
    }

    fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        super::bench_view::draw(self, buf, area, ctx);
    }

    fn hints(&self, width: usize, ctx: &Ctx<'_>) -> String {
        let empty = self.cards.is_empty();
        let day_end = wants_day_end(ctx);
        KEYS.hint_line(width, |action| match action {
            Do::NewPiece => true,
            Do::DayEnd => day_end,
            _ => !empty,
        })
    }

    fn help(&self, width: usize) -> Vec<String> {
        KEYS.help_lines(width)
    }
}
