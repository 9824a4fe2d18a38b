//! What came due: the bell and the held banner.

use super::app::{App, Effect};
use crate::shop::{PieceId, Shows, Ticket, waiting};
use chrono::{DateTime, Utc};

impl App {
    /// Pieces that wait for a moment still to come.
    pub(super) fn not_yet(&self) -> Vec<PieceId> {
        let gates = self.shop.gates(&self.clock);
        self.shop
            .files
            .iter()
            .filter(|file| waiting(&Ticket::of(file), &gates, self.now).shows() == Shows::Drying)
            .map(|file| file.piece.id)
            .collect()
    }

    /// Time went on: what came due rings the bell and holds the banner.
    pub fn tick(&mut self, now: DateTime<Utc>) -> Vec<Effect> {
        self.now = now;
        self.settle();
        let waits = self.not_yet();
        let gates = self.shop.gates(&self.clock);
        let came_due: Vec<PieceId> = self
            .shop
            .files
            .iter()
            .filter(|file| self.waiting.contains(&file.piece.id) && !waits.contains(&file.piece.id))
            .filter(|file| waiting(&Ticket::of(file), &gates, now).shows() == Shows::Ready)
            .map(|file| file.piece.id)
            .collect();
        self.waiting = waits;
        let rings = came_due.iter().any(|piece| !self.due.contains(piece));
        for piece in came_due {
            if !self.due.contains(&piece) {
                self.due.push(piece);
            }
        }
        if rings {
            vec![Effect::Ring]
        } else {
            Vec::new()
        }
    }
}
