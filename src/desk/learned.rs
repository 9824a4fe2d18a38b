//! What a touch test did: the coat's own times, and what the product's factor is now.

use super::action::FacePick;
use super::books::Scope;
use super::error::DeskError;
use super::perform::Desk;
use crate::shop::{Coat, Ticket, rack_lines};
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};

/// Why a test teaches nothing.
const BLIND: &str = "This test does not count for what is learned: the coat was laid before the first \
                     reading of the shop's air.";

impl Desk<'_> {
    /// Read after the test was written: when to test again, and what was learned of each product
    /// with how many tests stand behind it.
    pub(super) fn learned_notes(&self, picks: &[FacePick]) -> Result<Vec<String>, DeskError> {
        let mut notes: Vec<String> = Vec::new();
        let first = self.books.air_first()?;
        for pick in FacePick::once_each(picks) {
            let shop = self.shop(Scope::One(pick.piece))?;
            let clock = shop.clock();
            let gates = shop.gates(&clock);
            let again = |at: DateTime<Utc>| show_moment(at, self.now, shop.settings.zone);
            for line in rack_lines(&shop.files, &gates, &clock, self.now) {
                if let (Some(film), Some(file)) = (&line.film, shop.file(line.row.piece))
                    && let Some(at) = film.look_again
                {
                    notes.push(format!("{}: test again {}.", shop.called(file), again(at)));
                }
            }
            let Some(file) = shop.file(pick.piece) else {
                continue;
            };
            for face in &Ticket::of(file).faces {
                let meant = pick
                    .faces
                    .as_ref()
                    .is_none_or(|faces| faces.contains(&face.key));
                let coat = face.last_coat().filter(|_| meant);
                let blind = |coat: &Coat| first.is_some_and(|first| coat.dries_from() < first);
                if coat.is_some_and(blind) && !notes.iter().any(|note| note == BLIND) {
                    notes.push(BLIND.to_owned());
                }
                let product = coat.and_then(|coat| shop.product(coat.product));
                let Some(product) = product else {
                    continue;
                };
                let learned = clock.tuning(product.id).safe;
                if learned.tests > 0 {
                    let note = format!("{} dries here at {}.", product.name, learned.words());
                    if !notes.contains(&note) {
                        notes.push(note);
                    }
                }
            }
        }
        Ok(notes)
    }
}
