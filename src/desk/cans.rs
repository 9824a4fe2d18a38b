//! Cans: received, opened, weighed, mixed, poured off, thrown away, moved, corrected.

use super::books::{BooksError, Key, Row, Scope};
use super::can_action::{CanAction, CanDraft, MixDraft};
use super::can_checks::Asking;
use super::can_error::CanRefusal;
use super::error::DeskError;
use super::people::{LINE_MOST, line, needed};
use super::perform::{Desk, Done, Made};
use crate::coating::Product;
use crate::shop::{
    Came, Can, CanBook, CanId, CanLine, CanLineId, CanStanding, CanState, CanWhat, JarFor, Keeps,
    cautions_for_discard,
};
use crate::units::{Mass, Volume, counted, show_date, show_moment};
use chrono::{DateTime, Utc};

/// The most cans received in one go.
const MOST_AT_ONCE: u32 = 100;

impl Desk<'_> {
    pub(super) fn can_action(&mut self, action: &CanAction) -> Result<Done, DeskError> {
        match action {
            CanAction::Receive(draft, count) => self.receive(draft, *count),
            CanAction::Correct(can, draft) => self.correct_can(*can, draft),
            CanAction::Remove(can) => self.remove_can(*can),
            CanAction::Open { can, at } => self.open_can(*can, *at),
            CanAction::Weigh {
                can,
                mass,
                at,
                sure,
            } => self.weigh_can(*can, *mass, *at, *sure),
            CanAction::Mix { draft, at, sure } => self.mix(draft, *at, *sure),
            CanAction::Jar {
                can,
                volume,
                to,
                at,
                sure,
            } => self.pour_jar((*can, *volume), *to, *at, *sure),
            CanAction::Lose {
                can,
                volume,
                reason,
                at,
                sure,
            } => self.lose((*can, *volume), reason, *at, *sure),
            CanAction::Discard { can, reason, at } => self.discard(*can, reason, *at),
            CanAction::Move { can, place, at } => self.move_can(*can, place, *at),
            CanAction::Strike(line) => self.strike(*line),
        }
    }

    /// Every can that ever was, and the products.
    pub(super) fn can_book(&self) -> Result<(CanBook, Vec<Product>), BooksError> {
        let products = self.books.products()?;
        Ok((self.books.cans(Scope::All)?.fold(&products), products))
    }

    /// A can that is still there at that time, and its product.
    fn at_hand(&self, id: CanId, at: DateTime<Utc>) -> Result<(CanState, Product), DeskError> {
        let (book, products) = self.can_book()?;
        let state = book.can(id).ok_or(BooksError::Missing { what: "can" })?;
        let settings = self.settings()?;
        if at > self.now {
            return Err(CanRefusal::Ahead(show_moment(at, self.now, settings.zone)).into());
        }
        let today = self.now.with_timezone(&settings.zone).date_naive();
        let came = state.can.day(settings.zone);
        if at.with_timezone(&settings.zone).date_naive() < came {
            return Err(CanRefusal::TooEarly {
                can: called(&state.can, &products),
                on: show_date(came, today),
            }
            .into());
        }
        if let CanStanding::Discarded(when) = state.standing {
            return Err(CanRefusal::Discarded {
                can: called(&state.can, &products),
                at: show_moment(when, self.now, settings.zone),
            }
            .into());
        }
        let product = product_of(&state.can, &products)?.clone();
        Ok((state.clone(), product))
    }

    fn note_line(&mut self, can: CanId, at: DateTime<Utc>, what: CanWhat) -> Result<(), DeskError> {
        let id = CanLineId(self.id());
        Ok(self
            .books
            .put(Row::CanLine(&CanLine { id, can, at, what }))?)
    }

    fn receive(&mut self, draft: &CanDraft, count: u32) -> Result<Done, DeskError> {
        if !(1..=MOST_AT_ONCE).contains(&count) {
            return Err(CanRefusal::Count {
                most: MOST_AT_ONCE,
                has: count,
            }
            .into());
        }
        let (book, products) = self.can_book()?;
        let mut notes = Vec::new();
        let (mut next, mut made) = (next_no(&book)?, Made::Nothing);
        let (mut names, mut paid) = (Vec::new(), crate::units::Money::ZERO);
        for _ in 0..count {
            let id = CanId(self.id());
            notes.clear();
            let can = self.can_of(id, next, draft, &products, &mut notes)?;
            self.books.put(Row::Can(&can))?;
            if let Came::Bought { price, .. } = can.came {
                paid += price;
            }
            names.push(next.to_string());
            made = Made::Can(id);
            next = next.checked_add(1).ok_or(CanRefusal::NoNumber)?;
        }
        let product = product_named(draft.product, &products)?;
        let settings = self.settings()?;
        let (held, each) = (
            draft.held.unwrap_or(draft.size),
            counted(names.len(), "can", "cans"),
        );
        let batch = match line("The batch", &draft.batch, LINE_MOST, &mut Vec::new())? {
            batch if batch.is_empty() => String::new(),
            batch => format!(", batch {batch}"),
        };
        notes.push(format!(
            "Write {} on the {}.",
            names.join(", "),
            if count == 1 { "lid" } else { "lids" }
        ));
        let words = format!(
            "Received {each} of {} ({}): {} each{batch}, {} in all",
            product.name,
            names.join(", "),
            held.show(settings.volume),
            paid.show()
        );
        Ok(Done::made(words, made).with_notes(notes))
    }

    /// A can as typed, checked.
    fn can_of(
        &self,
        id: CanId,
        no: u32,
        draft: &CanDraft,
        products: &[Product],
        notes: &mut Vec<String>,
    ) -> Result<Can, DeskError> {
        let settings = self.settings()?;
        let product = product_named(draft.product, products)?;
        let held = draft.held.unwrap_or(draft.size);
        if draft.size <= Volume::ZERO {
            return Err(CanRefusal::Nothing("The size of a can").into());
        }
        if held <= Volume::ZERO {
            return Err(CanRefusal::Nothing("What was in the can").into());
        }
        if held > draft.size {
            return Err(CanRefusal::Overfull {
                size: draft.size.show(settings.volume),
                held: held.show(settings.volume),
            }
            .into());
        }
        let today = self.now.with_timezone(&settings.zone).date_naive();
        if draft.on > today {
            return Err(CanRefusal::Ahead(show_date(draft.on, today)).into());
        }
        Ok(Can {
            id,
            no,
            product: product.id,
            size: draft.size,
            held,
            batch: line("The batch", &draft.batch, LINE_MOST, notes)?,
            came: Came::Bought {
                on: draft.on,
                price: draft.price.unwrap_or_else(|| product.cost_of(held)),
            },
            keeps: draft.keeps,
            empty: draft.empty,
            place: line("The place", &draft.place, LINE_MOST, notes)?,
        })
    }

    fn correct_can(&mut self, id: CanId, draft: &CanDraft) -> Result<Done, DeskError> {
        let (book, products) = self.can_book()?;
        let state = book.can(id).ok_or(BooksError::Missing { what: "can" })?;
        let was = &state.can;
        let mut notes = Vec::new();
        let mut can = self.can_of(id, was.no, draft, &products, &mut notes)?;
        if let Came::Mixed { .. } = was.came {
            let same = (was.product, was.size, was.held) == (can.product, can.size, can.held);
            if !same || draft.price.is_some() {
                return Err(CanRefusal::OfMix(was.called()).into());
            }
            can.came = was.came;
        }
        if can.product != was.product && !state.moves.is_empty() {
            return Err(CanRefusal::Used(was.called()).into());
        }
        // A mix must still hold what was poured into it, so what was in this can may change, what
        // was poured may not: it stands in its own line.
        self.books.put(Row::Can(&can))?;
        let words = format!("Corrected {}", called(&can, &products));
        Ok(Done::said(words).with_notes(notes))
    }

    fn remove_can(&mut self, id: CanId) -> Result<Done, DeskError> {
        let (book, products) = self.can_book()?;
        let state = book.can(id).ok_or(BooksError::Missing { what: "can" })?;
        let words = format!("Took {} off the books", called(&state.can, &products));
        self.remove(Key::Can(id), words)
    }

    fn open_can(&mut self, id: CanId, at: DateTime<Utc>) -> Result<Done, DeskError> {
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

    fn weigh_can(
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

    fn mix(&mut self, draft: &MixDraft, at: DateTime<Utc>, sure: bool) -> Result<Done, DeskError> {
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

    fn pour_jar(
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

    fn lose(
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

    fn discard(&mut self, id: CanId, reason: &str, at: DateTime<Utc>) -> Result<Done, DeskError> {
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

    fn move_can(&mut self, id: CanId, place: &str, at: DateTime<Utc>) -> Result<Done, DeskError> {
        let (state, product) = self.at_hand(id, at)?;
        let mut notes = Vec::new();
        let cure = "say where it stands now, like flammables cabinet.";
        let place = needed("The place", place, LINE_MOST, cure, &mut notes)?;
        let words = format!("Put {} of {} at: {place}", state.can.called(), product.name);
        self.note_line(id, at, CanWhat::Moved { place })?;
        Ok(Done::said(words).with_notes(notes))
    }

    fn strike(&mut self, id: CanLineId) -> Result<Done, DeskError> {
        let (book, products) = self.can_book()?;
        let line = book
            .lines
            .iter()
            .find(|line| line.id == id)
            .ok_or(BooksError::Missing {
                what: "line of a can's log",
            })?;
        let can = book.can(line.can).map(|state| &state.can);
        let name = can.map_or_else(|| "a can".to_owned(), |can| called(can, &products));
        if let CanWhat::MixedInto { into, .. } = line.what {
            let mixed = book
                .can(into)
                .map_or_else(String::new, |to| to.can.called());
            return Err(CanRefusal::StandsOn(mixed).into());
        }
        let what = match line.what {
            CanWhat::Opened => "its opening",
            CanWhat::Weighed(_) => "a weighing",
            CanWhat::Jar { .. } => "a jar",
            CanWhat::Lost { .. } => "a loss",
            CanWhat::MixedInto { .. } => "a mix",
            CanWhat::Discarded { .. } => "that it was thrown away",
            CanWhat::Moved { .. } => "a move",
        };
        self.remove(
            Key::CanLine(id),
            format!("Struck from the log of {name}: {what}"),
        )
    }
}

/// `can 7 of brown gel stain`.
pub(super) fn called(can: &Can, products: &[Product]) -> String {
    products
        .iter()
        .find(|product| product.id == can.product)
        .map_or_else(
            || can.called(),
            |product| format!("{} of {}", can.called(), product.name),
        )
}

/// `batch B-114`, or that it was not read.
pub(super) fn batch_words(can: &Can) -> String {
    if can.batch.is_empty() {
        format!("{}, batch not read", can.called())
    } else {
        format!("batch {}", can.batch)
    }
}

fn product_named(
    id: crate::coating::ProductId,
    products: &[Product],
) -> Result<&Product, DeskError> {
    let found = products.iter().find(|product| product.id == id);
    Ok(found.ok_or(BooksError::Missing { what: "product" })?)
}

fn product_of<'a>(can: &Can, products: &'a [Product]) -> Result<&'a Product, DeskError> {
    product_named(can.product, products)
}

fn next_no(book: &CanBook) -> Result<u32, DeskError> {
    let last = book
        .cans
        .iter()
        .map(|state| state.can.no)
        .max()
        .unwrap_or(0);
    Ok(last.checked_add(1).ok_or(CanRefusal::NoNumber)?)
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
