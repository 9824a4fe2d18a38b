//! The walk round a piece: one grit, face by face, each looked at before it is ticked.

use super::super::kit::draw::{clear, put};
use super::super::kit::key::Key;
use super::super::kit::text::wrap;
use super::super::screen::Ctx;
use crate::shape::FaceKey;
use crate::shop::Grit;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Its keys, for the hint line.
pub(super) const HINTS: &str = "space yes  n not yet  up one back  esc stop and keep what was said";

/// Its keys, for the help page.
pub(super) const HELP: &str = "While the ticket asks face by face (g): space or enter says yes, n \
     says not yet, up goes one face back, esc stops and keeps what was said.";

/// A walk under way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Walk {
    /// The grit.
    pub grit: Grit,
    faces: Vec<FaceKey>,
    yes: Vec<FaceKey>,
    at: usize,
}

/// What a key brought.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// The walk goes on.
    On,
    /// The walk is over: tick these faces, if there are any.
    Over(Vec<FaceKey>),
}

impl Walk {
    /// A walk over the faces that still lack a grit; none if there is no such face.
    pub fn new(grit: Grit, faces: Vec<FaceKey>) -> Option<Self> {
        (!faces.is_empty()).then_some(Self {
            grit,
            faces,
            yes: Vec::new(),
            at: 0,
        })
    }

    /// One key: space or enter for yes, `n` for not yet, esc to stop and keep what was said.
    pub fn key(&mut self, key: &Key) -> Step {
        match key {
            Key::Char(' ') | Key::Enter => {
                self.yes.extend(self.faces.get(self.at).copied());
                self.at += 1;
            }
            Key::Char('n') => self.at += 1,
            Key::Up | Key::Left if self.at > 0 => {
                self.at -= 1;
                let back = self.faces.get(self.at).copied();
                self.yes.retain(|face| Some(*face) != back);
            }
            Key::Esc => return Step::Over(self.yes.clone()),
            _ => {}
        }
        if self.at >= self.faces.len() {
            Step::Over(self.yes.clone())
        } else {
            Step::On
        }
    }

    /// The faces said yes to so far.
    pub fn said(&self) -> &[FaceKey] {
        &self.yes
    }

    /// Draws the question over the lower part of `area`.
    pub fn draw(&self, buf: &mut Buffer, area: Rect, ctx: &Ctx<'_>) {
        let Some(face) = self.faces.get(self.at) else {
            return;
        };
        let lines = [
            format!(
                "{} grit, face {} of {}",
                self.grit,
                self.at + 1,
                self.faces.len()
            ),
            format!(
                "Looked at the {face} in raking light: does it carry {} all over?",
                self.grit
            ),
        ];
        let width = usize::from(area.width);
        let wrapped: Vec<Vec<String>> = lines.iter().map(|line| wrap(line, width)).collect();
        let height: usize = wrapped.iter().map(Vec::len).sum();
        let rows = u16::try_from(height).unwrap_or(3).min(area.height);
        let strip = Rect {
            y: area.y + area.height - rows,
            height: rows,
            ..area
        };
        clear(buf, strip, ctx.theme);
        let styles = [ctx.theme.title, ctx.theme.banner];
        let mut row = 0;
        for (part, style) in wrapped.iter().zip(styles) {
            for line in part {
                put(buf, strip, 0, row, line, style);
                row += 1;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn walk() -> Walk {
        Walk::new(Grit(120), vec![FaceKey::Top, FaceKey::Front, FaceKey::Left]).unwrap()
    }

    #[test]
    fn only_faces_that_were_looked_at_are_ticked() {
        let mut walk = walk();
        assert_eq!(walk.key(&Key::Char(' ')), Step::On);
        assert_eq!(walk.key(&Key::Char('n')), Step::On);
        assert_eq!(
            walk.key(&Key::Enter),
            Step::Over(vec![FaceKey::Top, FaceKey::Left])
        );
    }

    #[test]
    fn stopping_keeps_what_was_said_and_back_takes_it_off() {
        let mut walk = walk();
        walk.key(&Key::Char(' '));
        walk.key(&Key::Char(' '));
        walk.key(&Key::Up);
        assert_eq!(walk.key(&Key::Esc), Step::Over(vec![FaceKey::Top]));
    }

    #[test]
    fn nothing_to_look_at_is_no_walk() {
        assert_eq!(Walk::new(Grit(80), Vec::new()), None);
    }
}
