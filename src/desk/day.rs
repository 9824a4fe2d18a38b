//! The day's end: its chores ticked one by one, and the day closed.

use super::books::{BooksError, Key, Row, Scope};
use super::error::DeskError;
use super::perform::{Desk, Done};
use super::snapshot::Shop;
use crate::shop::{
    Call, Caution, Chore, ChoreDone, DayClosed, DayEnd, DayState, RagWay, day_end, day_of,
    rags_left,
};
use crate::units::moment::{show_date, show_moment};
use chrono::{DateTime, NaiveDate, Utc};

impl Shop {
    /// The end of a day: what it calls for, what is done of it.
    pub fn day_end(&self, day: NaiveDate) -> DayEnd {
        day_end(
            day,
            &self.files,
            &self.products,
            &self.days,
            self.settings.zone,
        )
    }

    /// The newest of the last days before one that is open with oily rags not logged as safe.
    pub fn rags_left(&self, day: NaiveDate) -> Option<DayEnd> {
        rags_left(
            day,
            &self.files,
            &self.products,
            &self.days,
            self.settings.zone,
        )
    }

    /// What called for a chore, in words: the products, else the pieces.
    pub fn causes_words(&self, call: &Call) -> String {
        let mut names: Vec<String> = Vec::new();
        for cause in &call.causes {
            let product = cause.product.and_then(|id| self.product(id));
            let name = match product {
                Some(product) => product.name.clone(),
                None => self
                    .file(cause.piece)
                    .map_or_else(String::new, |file| self.called(file)),
            };
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let rest = names.len().saturating_sub(3);
        names.truncate(3);
        let more = if rest == 0 {
            String::new()
        } else {
            format!(" and {rest} more")
        };
        format!("{}{more}", names.join(", "))
    }
}

impl Desk<'_> {
    /// A day as the journal says it: read later, too.
    fn day_words(&self, day: NaiveDate, shop: &Shop) -> String {
        show_date(day, day_of(self.now, shop.settings.zone))
    }

    pub(super) fn tick_chore(
        &mut self,
        day: NaiveDate,
        chore: Chore,
        way: Option<RagWay>,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let said = self.day_words(day, &shop);
        let when = |at| show_moment(at, self.now, shop.settings.zone);
        match (chore, way) {
            (Chore::OilyRags, None) => return Err(DeskError::RagsHow),
            (Chore::OilyRags, Some(_)) | (_, None) => {}
            (_, Some(_)) => return Err(DeskError::NoWay(chore)),
        }
        if at > self.now {
            return Err(DeskError::ChoreAhead(when(at)));
        }
        let end = shop.day_end(day);
        let call = end.call(chore).ok_or(DeskError::NotCalledFor {
            day: said.clone(),
            chore,
        })?;
        if at < call.last {
            return Err(DeskError::ChoreTooEarly {
                at: when(at),
                last: when(call.last),
            });
        }
        let done = ChoreDone {
            day,
            chore,
            way,
            at,
        };
        self.books.put(Row::Chore(&done))?;
        let of = shop.causes_words(call);
        Ok(Done::said(format!(
            "Day's end of {said}: {} ({of})",
            done.words()
        )))
    }

    pub(super) fn untick_chore(&mut self, day: NaiveDate, chore: Chore) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let said = self.day_words(day, &shop);
        match self.books.remove(Key::Chore(day, chore)) {
            Ok(()) => Ok(Done::said(format!(
                "Day's end of {said}: took back the tick of {}",
                chore.words()
            ))),
            Err(BooksError::Missing { .. }) => Err(DeskError::NotTicked { day: said, chore }),
            Err(error) => Err(error.into()),
        }
    }

    /// Closes a day. Oily rags that are not logged as safe hold it until the reason is written;
    /// those of a day before that is still open hold it until that day is seen to.
    pub(super) fn close_day(
        &mut self,
        day: NaiveDate,
        reason: Option<&str>,
    ) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let (said, zone) = (self.day_words(day, &shop), shop.settings.zone);
        let when = |at| show_moment(at, self.now, zone);
        if day > day_of(self.now, zone) {
            return Err(DeskError::DayAhead(said));
        }
        let end = shop.day_end(day);
        if let (DayState::Closed, Some(closed)) = (end.state(), &end.closed) {
            return Err(DeskError::DayIsClosed {
                day: said,
                at: when(closed.at),
            });
        }
        if let Some(left) = shop.rags_left(day)
            && let Some(rags) = left.rags()
        {
            return Err(DeskError::RagsLeft {
                day: said,
                left: self.day_words(left.day, &shop),
                of: shop.causes_words(rags),
                date: left.day,
            });
        }
        let mut notes = Vec::new();
        let reason = reason
            .map(|reason| super::people::line("The reason", reason, 200, &mut notes))
            .transpose()?
            .filter(|reason| !reason.is_empty());
        let kept = match end.rags() {
            Some(rags) => Some(
                reason
                    .filter(|reason| crate::shop::ReasonFor::Hiding.is_met_by(reason))
                    .ok_or_else(|| DeskError::RagsOpen {
                        day: said.clone(),
                        of: shop.causes_words(rags),
                        last: when(rags.last),
                    })?,
            ),
            // Nothing to give a reason for: what was typed is not kept.
            None => None,
        };
        let closed = DayClosed {
            day,
            at: self.now,
            reason: kept,
        };
        self.books.put(Row::DayClosed(&closed))?;
        let mut words = format!("Closed the day {said}");
        if let Some(reason) = &closed.reason {
            words = format!("{words} with oily rags not logged: {reason}");
            notes.push(Chore::OilyRags.caution().words());
        }
        let others: Vec<Chore> = end
            .to_do()
            .into_iter()
            .filter(|chore| *chore != Chore::OilyRags)
            .collect();
        if !others.is_empty() {
            let names: Vec<&str> = others.iter().map(|chore| chore.words()).collect();
            words = format!("{words}; not ticked: {}", names.join(", "));
            notes.extend(others.iter().map(|chore| Caution::words(&chore.caution())));
        }
        Ok(Done::said(words).with_notes(notes))
    }
}
