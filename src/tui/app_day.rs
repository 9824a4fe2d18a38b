//! The day's end on the way out and on the way in: one sentence, never in the way twice.

use super::app::{App, Effect};
use super::screen::{Ctx, Place};
use super::screens::day_end::{left_words, missing_words, open_before};
use crate::shop::{day_of, is_late};

impl App {
    fn day_ctx(&self) -> Ctx<'_> {
        Ctx {
            shop: &self.shop,
            journal: &self.journal,
            now: self.now,
            clock: &self.clock,
            theme: &self.theme,
        }
    }

    /// Leaves; late in a day that is not closed it says so once, and the same key again leaves.
    pub(super) fn quit(&mut self, asked: bool) -> Vec<Effect> {
        match self.day_is_open().filter(|_| !asked) {
            None => {
                let mut effects = self.leaving();
                effects.push(Effect::Quit);
                effects
            }
            Some(words) => {
                self.said.words = words;
                self.asked_to_leave = true;
                Vec::new()
            }
        }
    }

    /// Late in a day that is not closed: what to say of it.
    fn day_is_open(&self) -> Option<String> {
        let zone = self.shop.settings.zone;
        if !is_late(self.now, zone) {
            return None;
        }
        let end = self.shop.day_end(day_of(self.now, zone));
        let missing = missing_words(&end, &self.day_ctx());
        end.is_open().then(|| {
            format!("Today is not closed: {missing}. z opens the day's end; the same key leaves.")
        })
    }

    /// At the start: a day before that was left open.
    pub(super) fn say_what_was_left_open(&mut self) {
        let ctx = self.day_ctx();
        if let Some(end) = open_before(&ctx) {
            let words = format!("{} z opens the day's end.", left_words(&end, &ctx));
            self.said.words = words;
        }
    }

    /// To the day's end: today's, or the one left open before it while today has none.
    pub(super) fn go_to_day_end(&mut self) {
        let today = day_of(self.now, self.shop.settings.zone);
        let back = if self.shop.day_end(today).calls.is_empty() {
            open_before(&self.day_ctx()).map_or(0, |end| (today - end.day).num_days())
        } else {
            0
        };
        self.day_end.open(u64::try_from(back).unwrap_or(0));
        self.go(Place::DayEnd);
    }
}
