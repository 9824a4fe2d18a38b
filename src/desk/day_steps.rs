//! Steps begun and finished from the sheet: logged as the Bench logs them.

use super::action::{AmountDraft, FacePick, PassDraft};
use super::books::{Row, Scope};
use super::can_action::DrawnDraft;
use super::day_sheet::with_floor;
use super::error::DeskError;
use super::perform::{Desk, Done};
use crate::shop::day_sheet::{Todo, remaining};
use crate::shop::{
    CoatKind, SetItem, Stage, StepCode, StepKey, Ticket, TouchVerdict, UnderWay, What,
};
use chrono::{DateTime, Utc};

/// How a step from the sheet ended.
#[derive(Debug, Clone, PartialEq)]
pub struct StepEnd {
    /// When.
    pub at: DateTime<Utc>,
    /// How much a coat used.
    pub amount: AmountDraft,
    /// Which cans a coat came from, what was lost, how it was put on.
    pub drawn: DrawnDraft,
    /// What a touch test found.
    pub verdict: Option<TouchVerdict>,
}

impl Desk<'_> {
    /// Begins a step: the piece is moved along to its stage, and the gates are asked whether it may
    /// be done now.
    pub(super) fn start_step(
        &mut self,
        key: StepKey,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        if at > self.now {
            return Err(DeskError::StepAhead);
        }
        if let Some(under) = self.books.plan_book()?.under_way {
            let shop = self.shop(Scope::One(under.key.piece))?;
            let piece = shop.file(under.key.piece);
            let called = piece.map_or_else(String::new, |file| shop.called(file));
            return Err(DeskError::StepUnderWay(called));
        }
        let todo = self.next_step(key)?;
        let mut notes = self.along_to_stage(&todo)?;
        let mut opened = self.open(key.piece)?;
        if let Some(what) = self.tried(&todo, at) {
            // Only asked: what the gates say now they would say at its end.
            self.add(&mut opened, what, at);
        }
        let called = opened.called.clone();
        if !opened.refused.is_empty() {
            self.close("The step", vec![opened])?;
        }
        let under = UnderWay { key, since: at };
        self.books.put(Row::UnderWay(Some(&under)))?;
        if key.step == StepCode::Set {
            notes.push("Tick the lines of the set list on the ticket as they are done.".to_owned());
        }
        Ok(Done::said(format!("Began {} on {called}", key.step.words())).with_notes(notes))
    }

    /// Finishes the step under way and logs it.
    pub(super) fn finish_step(&mut self, end: &StepEnd) -> Result<Done, DeskError> {
        let under = self.books.plan_book()?.under_way.ok_or(DeskError::NoStep)?;
        let todo = self.next_step(under.key)?;
        self.books.put(Row::UnderWay(None))?;
        let (piece, at) = (under.key.piece, end.at);
        let picks = [FacePick {
            piece,
            faces: Some(todo.faces.clone()),
        }];
        match under.key.step {
            StepCode::Sand(grit) => self.tick(piece, &todo.faces, grit, at),
            StepCode::WipeDown => self.wipe(&picks, at),
            StepCode::Touch => {
                let verdict = end.verdict.ok_or(DeskError::Empty {
                    what: "What the touch test found",
                    cure: "say it, for example dry to recoat.",
                })?;
                self.touch(&picks, verdict, at)
            }
            StepCode::WipeOff => self.wipe_off(&picks, at),
            StepCode::Scuff(..) => {
                let means = todo.means.unwrap_or(crate::shop::ABRADES_WITH);
                self.scuff(&picks, means, at)
            }
            StepCode::Coat(kind, _) => {
                let draft = PassDraft {
                    picks: picks.to_vec(),
                    kind,
                    product: None,
                    started: under.since,
                    ended: at,
                    amount: end.amount,
                    air: None,
                    scuffed_first: None,
                    drawn: end.drawn.clone(),
                };
                let done = self.log_pass(&draft)?;
                if kind == CoatKind::Stain {
                    // A stain's step on the sheet is on and off.
                    let off = self.wipe_off(&picks, at)?;
                    let words = format!("{}; {}", done.words, off.words);
                    return Ok(Done { words, ..done }.with_notes(off.notes));
                }
                Ok(done)
            }
            StepCode::Set => self.set_done(piece),
        }
    }

    /// Puts the step under way down without logging anything.
    pub(super) fn drop_step(&mut self) -> Result<Done, DeskError> {
        let under = self.books.plan_book()?.under_way.ok_or(DeskError::NoStep)?;
        let shop = self.shop(Scope::One(under.key.piece))?;
        let called = shop
            .file(under.key.piece)
            .map_or_else(String::new, |file| shop.called(file));
        self.books.put(Row::UnderWay(None))?;
        Ok(Done::said(format!(
            "Put down {} on {called}; nothing was logged",
            under.key.step.words()
        )))
    }

    fn set_done(&mut self, piece: crate::shop::PieceId) -> Result<Done, DeskError> {
        let (shop, file) = self.piece_file(piece)?;
        let ticket = Ticket::of(&file);
        let (called, all) = (shop.called(&file), SetItem::ALL.len());
        let left: Vec<&str> = SetItem::ALL
            .into_iter()
            .filter(|item| !ticket.set_list.contains_key(item))
            .map(SetItem::words)
            .collect();
        let done = Done::said(format!(
            "Came back from setting {called}: set list {} of {all}",
            all - left.len()
        ));
        Ok(if left.is_empty() {
            done
        } else {
            done.with_notes(vec![format!("Still on its set list: {}.", left.join("; "))])
        })
    }

    /// The next step of a piece, if it is this one.
    fn next_step(&self, key: StepKey) -> Result<Todo, DeskError> {
        let (shop, file) = self.piece_file(key.piece)?;
        let called = shop.called(&file);
        let work = with_floor(&shop, self.now, |floor| {
            remaining(&file, &floor.gates, self.now)
        });
        let first = work.todos.into_iter().next();
        match first {
            Some(todo) if todo.key == key => Ok(todo),
            Some(todo) => Err(DeskError::OtherStep {
                piece: called,
                asked: key.step.words(),
                next: todo.key.step.words(),
            }),
            None => Err(DeskError::OtherStep {
                piece: called,
                asked: key.step.words(),
                next: "nothing".to_owned(),
            }),
        }
    }

    /// Moves the piece along to the stage the step is done in; the notes of the stages.
    fn along_to_stage(&mut self, todo: &Todo) -> Result<Vec<String>, DeskError> {
        let wants = match todo.key.step {
            StepCode::Coat(kind, _) => kind.stage(),
            StepCode::Set => Stage::Set,
            _ => return Ok(Vec::new()),
        };
        let mut notes = Vec::new();
        for _ in Stage::ALL {
            let (_, file) = self.piece_file(todo.key.piece)?;
            if Ticket::of(&file).stage >= wants {
                break;
            }
            notes.extend(self.move_along(&[todo.key.piece])?.notes);
        }
        Ok(notes)
    }

    /// The line of the log that the step would leave, for the gates to look at.
    fn tried(&mut self, todo: &Todo, at: DateTime<Utc>) -> Option<What> {
        let faces = todo.faces.clone();
        match todo.key.step {
            StepCode::Scuff(..) => Some(What::Scuff {
                faces,
                means: todo.means.unwrap_or(crate::shop::ABRADES_WITH),
            }),
            StepCode::Coat(kind, _) => Some(What::Coat {
                pass: crate::shop::PassId(self.id()),
                kind,
                product: todo.product?,
                faces: faces
                    .into_iter()
                    .map(|face| (face, crate::units::Area::ZERO))
                    .collect(),
                started: at,
                used: crate::units::Volume::from_ml(0.0),
            }),
            _ => None,
        }
    }
}
