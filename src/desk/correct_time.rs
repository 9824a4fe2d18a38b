//! Times corrected afterwards. What depends on them follows, since all of it is folded from the
//! log each time; the journal keeps both times.

use super::books::{BooksError, Row, Scope};
use super::error::{DeskError, Refusal};
use super::perform::{Desk, Done};
use super::snapshot::Shop;
use crate::shop::{
    Blocker, Event, EventId, Pass, PassId, PieceFile, PieceId, Retimed, Ticket, What, late_doubts,
    retime, waiting,
};
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

impl Desk<'_> {
    pub(super) fn correct_time(
        &mut self,
        piece: PieceId,
        lines: &[EventId],
        at: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::One(piece))?;
        let file = shop
            .file(piece)
            .ok_or(BooksError::Missing { what: "piece" })?;
        let meant: Vec<&Event> = file
            .events
            .iter()
            .filter(|event| lines.contains(&event.id))
            .collect();
        let Some(first) = meant.first() else {
            return Err(DeskError::NotOneLine);
        };
        if let (What::Coat { pass, started, .. }, [_]) = (&first.what, meant.as_slice()) {
            let started = at - (first.at - *started);
            return self.correct_pass_time(*pass, started, at);
        }
        // Only ticks are several lines of one action.
        let ticks =
            |event: &&Event| matches!(event.what, What::Tick { .. }) && event.at == first.at;
        if meant.len() != lines.len() || meant.len() > 1 && !meant.iter().all(ticks) {
            return Err(DeskError::NotOneLine);
        }
        let zone = shop.settings.zone;
        if first.at == at {
            return Err(DeskError::SameTime(stamp(at, zone)));
        }
        let times: Vec<Retimed> = meant
            .iter()
            .map(|event| Retimed {
                line: event.id,
                started: None,
                at,
            })
            .collect();
        let words = format!(
            "Corrected the time of {} on {} from {} to {}",
            first.what.brief(meant.len()),
            shop.called(file),
            stamp(first.at, zone),
            stamp(at, zone)
        );
        let notes = self.write_times(&shop, &[(file, times)])?;
        Ok(Done::said(words).with_notes(notes))
    }

    pub(super) fn correct_pass_time(
        &mut self,
        id: PassId,
        started: DateTime<Utc>,
        ended: DateTime<Utc>,
    ) -> Result<Done, DeskError> {
        let shop = self.shop(Scope::All)?;
        let mut pass = self
            .books
            .pass(id)?
            .ok_or(BooksError::Missing { what: "pass" })?;
        let zone = shop.settings.zone;
        if (pass.started, pass.ended) == (started, ended) {
            return Err(DeskError::SameTime(span(started, ended, zone)));
        }
        let of: Vec<(&PieceFile, Vec<Retimed>)> = shop
            .files
            .iter()
            .map(|file| (file, pass_times(file, &pass, started, ended)))
            .filter(|(_, times)| !times.is_empty())
            .collect();
        let names: Vec<String> = of.iter().map(|(file, _)| shop.called(file)).collect();
        let product = shop
            .product(pass.product)
            .map_or("a product", |product| product.name.as_str());
        let words = format!(
            "Corrected the time of the {} of {product} on {} from {} to {}",
            pass.kind.coat_word(),
            names.join(", "),
            span(pass.started, pass.ended, zone),
            span(started, ended, zone)
        );
        (pass.started, pass.ended) = (started, ended);
        self.books.put(Row::Pass(&pass))?;
        let notes = self.write_times(&shop, &of)?;
        Ok(Done::said(words).with_notes(notes))
    }

    /// Writes new times, or gives back every reason why not; what follows from them, in words.
    fn write_times(
        &mut self,
        shop: &Shop,
        of: &[(&PieceFile, Vec<Retimed>)],
    ) -> Result<Vec<String>, DeskError> {
        let clock = shop.clock();
        let gates = shop.gates(&clock);
        let (zone, now) = (shop.settings.zone, self.now);
        let (mut refusals, mut notes) = (Vec::new(), Vec::new());
        for (file, times) in of {
            let new = match retime(file, times, &gates, now) {
                Ok(new) => new,
                Err(blockers) => {
                    let piece = shop.called(file);
                    refusals.push(Refusal {
                        piece,
                        blockers,
                        teaching: None,
                    });
                    continue;
                }
            };
            for event in new
                .events
                .iter()
                .filter(|event| times.iter().any(|time| time.line == event.id))
            {
                self.books.put(Row::Event(file.piece.id, event))?;
            }
            let called = shop.called(file);
            let waits = |file: &PieceFile| waiting(&Ticket::of(file), &gates, now);
            let (before, after) = (waits(file), waits(&new));
            if before != after {
                notes.push(format!("{called} now: {}.", after.words(now, zone)));
            }
            let doubts = late_doubts(file, &new, &gates, now);
            if let Some(words) = doubt_words(&called, &new, &doubts, now, zone) {
                notes.push(words);
            }
        }
        if refusals.is_empty() {
            return Ok(notes);
        }
        Err(DeskError::Refused {
            what: "The new time".to_owned(),
            refusals,
        })
    }
}

/// The lines of one piece that a pass's time belongs to: the coat, and the scuff that was logged
/// with it in one go (recorded just before it in the same moment, timed at its start).
fn pass_times(
    file: &PieceFile,
    pass: &Pass,
    started: DateTime<Utc>,
    ended: DateTime<Utc>,
) -> Vec<Retimed> {
    let mut out = Vec::new();
    for (no, event) in file.events.iter().enumerate() {
        if !matches!(event.what, What::Coat { pass: of, .. } if of == pass.id) {
            continue;
        }
        let before = no.checked_sub(1).and_then(|no| file.events.get(no));
        let recorded = |id: EventId| id.0.as_u128() >> 80;
        if let Some(scuff) = before.filter(|before| {
            matches!(before.what, What::Scuff { .. })
                && before.at == pass.started
                && recorded(before.id) == recorded(event.id)
        }) {
            out.push(Retimed {
                line: scuff.id,
                started: None,
                at: started,
            });
        }
        out.push(Retimed {
            line: event.id,
            started: Some(started),
            at: ended,
        });
    }
    out
}

/// Work that went on too early if the new time is right: it is on the wood, so it is told.
fn doubt_words(
    called: &str,
    file: &PieceFile,
    doubts: &[(EventId, Blocker)],
    now: DateTime<Utc>,
    zone: Tz,
) -> Option<String> {
    let (line, ready) = doubts.iter().find_map(|(line, blocker)| match blocker {
        Blocker::NotDry { ready, .. }
        | Blocker::WouldLift { ready, .. }
        | Blocker::WipeWet { ready, .. }
        | Blocker::NotCured { ready, .. } => Some((line, ready)),
        _ => None,
    })?;
    let event = file.events.iter().find(|event| event.id == *line)?;
    Some(format!(
        "{called}: by the clock what lay below was ready {} only, and {} came {}; look at it \
         before the next step.",
        show_moment(*ready, now, zone),
        event.what.brief(1),
        show_moment(event.at, now, zone)
    ))
}

/// A moment that reads right in the journal years later.
fn stamp(at: DateTime<Utc>, zone: Tz) -> String {
    at.with_timezone(&zone)
        .format("%a %b %-d %Y %-I:%M %P")
        .to_string()
}

fn span(started: DateTime<Utc>, ended: DateTime<Utc>, zone: Tz) -> String {
    if started == ended {
        stamp(ended, zone)
    } else {
        format!("{} until {}", stamp(started, zone), stamp(ended, zone))
    }
}
