//! What every form looks things up in, and the small things they share.

use crate::desk::Shop;
use crate::shop::{PieceFile, PieceId, Settings, Ticket};
use crate::tui::kit::form::Form;
use crate::tui::kit::line_edit::LineEdit;
use crate::tui::kit::options::Choice;
use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;

/// The shop and the moment.
pub(super) struct Context<'a> {
    pub(super) shop: &'a Shop,
    pub(super) now: DateTime<Utc>,
    pub(super) zone: Tz,
}

impl<'a> Context<'a> {
    pub(super) fn new(shop: &'a Shop, now: DateTime<Utc>) -> Self {
        Self {
            shop,
            now,
            zone: shop.settings.zone,
        }
    }

    pub(super) fn settings(&self) -> &'a Settings {
        &self.shop.settings
    }

    /// The day on the shop's calendar.
    pub(super) fn today(&self) -> NaiveDate {
        self.now.with_timezone(&self.zone).date_naive()
    }

    /// The pieces with their folded logs; pieces no more in the shop are left out.
    pub(super) fn opened(&self, pieces: &[PieceId]) -> Vec<(&'a PieceFile, Ticket)> {
        let files = pieces.iter().filter_map(|id| self.shop.file(*id));
        files.map(|file| (file, Ticket::of(file))).collect()
    }

    /// What the pieces are called in a heading: `3A bar top`, or `3 pieces`.
    pub(super) fn called(&self, pieces: &[PieceId]) -> String {
        match pieces {
            [one] => self
                .shop
                .file(*one)
                .map_or_else(String::new, |file| self.shop.called(file)),
            several => format!("{} pieces", several.len()),
        }
    }
}

/// Choices out of words that mean themselves.
pub(super) fn words<S: Into<String>>(words: impl IntoIterator<Item = S>) -> Vec<Choice> {
    words
        .into_iter()
        .map(|word| {
            let word = word.into();
            Choice::new(word.clone(), word)
        })
        .collect()
}

/// The text of a note. The field holds one line; a note that was stored with several and was not
/// touched keeps them.
pub(super) fn note(form: &Form, id: &str, stored: &str) -> String {
    let text = form.text(id);
    if text == LineEdit::new(stored).text() {
        stored.to_owned()
    } else {
        text.to_owned()
    }
}
