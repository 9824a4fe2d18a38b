//! What happens to a can that is there: opened, weighed, mixed, poured from, thrown away, moved.

use super::books::{BooksError, Row};
use super::can_action::MixDraft;
use super::can_checks::Asking;
use super::can_error::CanRefusal;
use super::cans::{batch_words, called, next_no};
use super::error::DeskError;
use super::people::{LINE_MOST, line, needed};
use super::perform::{Desk, Done, Made};
use crate::coating::Product;
use crate::shop::{Came, Can, CanId, CanState, CanWhat, JarFor, Keeps, cautions_for_discard};
use crate::units::{Mass, Volume, show_moment};
use chrono::{DateTime, Utc};

impl Desk<'_> {
    pub(super) fn open_can(&mut self, id: CanId, at: DateTime<Utc>) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let settings = self.settings()?;
        if let Some(since) = state.opened {
            return Err(CanRefusal::IsOpen {
                can: state.can.called(),
                at: show_moment(since, self.now, settings.zone),
            }
            .into());
        }
        let mut asking = Asking::new(self, &settings);
        asking.age(&state, at);
        let notes = asking.told();
        self.note_line(id, at, CanWhat::Opened)?;
        let words = format!("Opened {} of {}", state.can.called(), product.name);
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn weigh_can(
        &mut self,
        id: CanId,
        mass: Mass,
        at: DateTime<Utc>,
        sure: bool,
    ) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let settings = self.settings()?;
        let mut asking = Asking::new(self, &settings);
        asking.weight(&state, &product, mass, at);
        let mut notes = asking.answered(sure)?;
        self.note_line(id, at, CanWhat::Weighed(mass))?;
        let (book, _) = self.can_book()?;
        let Some(now) = book.can(id) else {
            return Err(BooksError::Missing { what: "can" }.into());
        };
        let found = now.sums.found.volume - state.sums.found.volume;
        let show = |volume: Volume| volume.show(settings.volume);
        if found.ul() > 0 {
            notes.push(format!("{} less than by subtraction.", show(found)));
        } else if found.ul() < 0 {
            notes.push(format!("{} more than by subtraction.", show(-found)));
        }
        if matches!(now.empty, Some(crate::shop::EmptyWeight::Reckoned(_))) {
            notes.push(
                "What the empty can weighs is not known: from now on weighing tells what went, \
                 not whether it was full."
                    .to_owned(),
            );
        }
        let words = format!(
            "Weighed {} of {}: {}, so {} left",
            state.can.called(),
            product.name,
            mass.show(),
            show(now.left.volume)
        );
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn mix(
        &mut self,
        draft: &MixDraft,
        at: DateTime<Utc>,
        sure: bool,
    ) -> Result<Done, DeskError> {
        if draft.parts.len() < 2 {
            return Err(CanRefusal::MixOfOne.into());
        }
        let settings = self.settings()?;
        let mut parts: Vec<(CanState, Product, Volume)> = Vec::new();
        for part in &draft.parts {
            let (state, product) = self.at_hand(part.can, at)?;
            if parts.iter().any(|(known, ..)| known.can.id == part.can) {
                return Err(CanRefusal::Twice(state.can.called()).into());
            }
            if let Some((_, first, _)) = parts.first()
                && first.id != product.id
            {
                return Err(CanRefusal::OtherProduct {
                    can: state.can.called(),
                    is: product.name,
                    needs: first.name.clone(),
                }
                .into());
            }
            let volume = part.volume.unwrap_or_else(|| state.left_at(at));
            if volume <= Volume::ZERO {
                return Err(CanRefusal::Empty(state.can.called()).into());
            }
            parts.push((state, product, volume));
        }
        let mut asking = Asking::new(self, &settings);
        for (state, _, volume) in &parts {
            asking.age(state, at);
            asking.left(state, *volume, at);
        }
        let mut notes = asking.answered(sure)?;
        let Some((first, ..)) = parts.first() else {
            return Err(CanRefusal::MixOfOne.into());
        };
        let (book, products) = self.can_book()?;
        let held: Volume = parts.iter().map(|(.., volume)| *volume).sum();
        let size = draft.size.unwrap_or(held);
        if held > size {
            return Err(CanRefusal::Overfull {
                size: size.show(settings.volume),
                held: held.show(settings.volume),
            }
            .into());
        }
        let can = Can {
            id: CanId(self.id()),
            no: next_no(&book)?,
            product: first.can.product,
            size,
            held,
            batch: mixed_batch(&parts),
            came: Came::Mixed { at },
            keeps: mixed_keeps(&parts, at, settings.zone),
            empty: draft.empty,
            place: line("The place", &draft.place, LINE_MOST, &mut notes)?,
        };
        self.books.put(Row::Can(&can))?;
        for (state, _, volume) in &parts {
            let (into, volume) = (can.id, *volume);
            self.note_line(state.can.id, at, CanWhat::MixedInto { into, volume })?;
        }
        notes.push(format!(
            "Write {} on the lid. Stir the parts together until the colour is one.",
            can.no
        ));
        let from: Vec<String> = parts
            .iter()
            .map(|(state, _, volume)| {
                format!("{} of {}", volume.show(settings.volume), state.can.called())
            })
            .collect();
        let words = format!(
            "Mixed {} into {}, batch {}",
            from.join(" and "),
            called(&can, &products),
            can.batch
        );
        Ok(Done::made(words, Made::Can(can.id)).with_notes(notes))
    }

    pub(super) fn pour_jar(
        &mut self,
        (id, volume): (CanId, Volume),
        to: JarFor,
        at: DateTime<Utc>,
        sure: bool,
    ) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let settings = self.settings()?;
        let whom = match to {
            JarFor::Client(id) => {
                let clients = self.books.clients()?;
                let client = clients.into_iter().find(|client| client.id == id);
                client.ok_or(BooksError::Missing { what: "client" })?.name
            }
            JarFor::Job(id) => {
                let jobs = self.books.jobs()?;
                let job = jobs.into_iter().find(|job| job.id == id);
                let job = job.ok_or(BooksError::Missing { what: "job" })?;
                format!("job {} {}", job.no, job.title)
            }
        };
        let mut notes = self.taking(&state, volume, "A jar", at, sure)?;
        self.note_line(id, at, CanWhat::Jar { volume, to })?;
        notes.push(format!(
            "On the jar: {}, {}, the date, and the cautions of the can's label.",
            product.name,
            batch_words(&state.can)
        ));
        let words = format!(
            "Poured a jar of {} from {} of {} for {whom}",
            volume.show(settings.volume),
            state.can.called(),
            product.name
        );
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn lose(
        &mut self,
        (id, volume): (CanId, Volume),
        reason: &str,
        at: DateTime<Utc>,
        sure: bool,
    ) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let settings = self.settings()?;
        let mut notes = self.taking(&state, volume, "What was lost", at, sure)?;
        let cure = "say in a word or two, like spilled or skinned over.";
        let reason = needed("Why it was lost", reason, LINE_MOST, cure, &mut notes)?;
        let words = format!(
            "Lost {} from {} of {}: {reason}",
            volume.show(settings.volume),
            state.can.called(),
            product.name
        );
        self.note_line(id, at, CanWhat::Lost { volume, reason })?;
        Ok(Done::said(words).with_notes(notes))
    }

    /// What is asked before something is taken outside a pass.
    fn taking(
        &self,
        state: &CanState,
        volume: Volume,
        what: &'static str,
        at: DateTime<Utc>,
        sure: bool,
    ) -> Result<Vec<String>, DeskError> {
        if volume <= Volume::ZERO {
            return Err(CanRefusal::Nothing(what).into());
        }
        let settings = self.settings()?;
        let mut asking = Asking::new(self, &settings);
        asking.left(state, volume, at);
        asking.answered(sure)
    }

    pub(super) fn discard(
        &mut self,
        id: CanId,
        reason: &str,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let settings = self.settings()?;
        let mut notes = Vec::new();
        let cure = "say in a word or two, like empty, skinned over or past its shelf life.";
        let reason = needed("Why it goes", reason, LINE_MOST, cure, &mut notes)?;
        let left = state.left_at(at);
        let words = format!(
            "Threw away {} of {} with {} in it: {reason}",
            state.can.called(),
            product.name,
            left.show(settings.volume)
        );
        self.note_line(id, at, CanWhat::Discarded { reason })?;
        notes.extend(
            cautions_for_discard(&product)
                .iter()
                .map(crate::shop::Caution::words),
        );
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn move_can(
        &mut self,
        id: CanId,
        place: &str,
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let mut notes = Vec::new();
        let cure = "say where it stands now, like flammables cabinet.";
        let place = needed("The place", place, LINE_MOST, cure, &mut notes)?;
        let words = format!("Put {} of {} at: {place}", state.can.called(), product.name);
        self.note_line(id, at, CanWhat::Moved { place })?;
        Ok(Done::said(words).with_notes(notes))
    }
}

/// The batches of the parts, each once, joined: `B-114 + B-120`. A part whose batch was not read
/// stands there by its number.
fn mixed_batch(parts: &[(CanState, Product, Volume)]) -> String {
    let mut names: Vec<String> = Vec::new();
    for (state, ..) in parts {
        let name = if state.can.batch.is_empty() {
            format!("of {}", state.can.called())
        } else {
            state.can.batch.clone()
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names.join(" + ")
}

/// A mix keeps as long as the part that goes first.
fn mixed_keeps(
    parts: &[(CanState, Product, Volume)],
    at: DateTime<Utc>,
    zone: chrono_tz::Tz,
) -> Keeps {
    let day = at.with_timezone(&zone).date_naive();
    let first = parts
        .iter()
        .filter_map(|(state, ..)| {
            let opened = state.opened.map(|at| at.with_timezone(&zone).date_naive());
            state
                .can
                .keeps
                .until(state.can.day(zone), Some(opened.unwrap_or(day)))
        })
        .map(crate::shop::KeepsDay::day)
        .min();
    Keeps {
        sealed: first.map(|end| u32::try_from((end - day).num_days().max(0)).unwrap_or(0)),
        open: None,
    }
}
