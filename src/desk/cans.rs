//! Cans: received, opened, weighed, mixed, poured off, thrown away, moved, corrected.

use super::books::{BooksError, Key, Row, Scope};
use super::can_action::{CanAction, CanDraft};
use super::can_error::CanRefusal;
use super::error::DeskError;
use super::people::{LINE_MOST, line};
use super::perform::{Desk, Done, Made};
use crate::coating::Product;
use crate::shop::{Came, Can, CanBook, CanId, CanLine, CanLineId, CanStanding, CanState, CanWhat};
use crate::units::{Volume, counted, show_date, show_moment};
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
    pub(super) fn at_hand(
        &self,
        id: CanId,
        at: DateTime<Utc>,
    ) -> Result<(CanState, Product), DeskError> {
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

    pub(super) fn note_line(
        &mut self,
        can: CanId,
        at: DateTime<Utc>,
        what: CanWhat,
    ) -> Result<(), DeskError> {
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

pub(super) fn next_no(book: &CanBook) -> Result<u32, DeskError> {
    let last = book
        .cans
        .iter()
        .map(|state| state.can.no)
        .max()
        .unwrap_or(0);
    Ok(last.checked_add(1).ok_or(CanRefusal::NoNumber)?)
}
