//! What is ready and what each piece waits for.

use super::PAPER_WIDTH;
use super::layout::{Columns, wrap};
use crate::coating::DryingClock;
use crate::desk::Shop;
use crate::shop::{PieceFile, Shows, Stage, Ticket, Waiting, waiting};
use crate::units::show_date;
use chrono::{DateTime, Utc};

/// One piece and what it waits for.
#[derive(Debug, Clone)]
pub struct ReadyRow<'a> {
    /// The piece.
    pub file: &'a PieceFile,
    /// Where it stands.
    pub stage: Stage,
    /// What it waits for.
    pub waiting: Waiting,
}

/// Every piece not yet finished: what wants a hand first, then missed windows, then what is held,
/// then what dries, soonest first; within each by promise and ticket number.
pub fn ready_rows<'a>(
    shop: &'a Shop,
    clock: &dyn DryingClock,
    now: DateTime<Utc>,
) -> Vec<ReadyRow<'a>> {
    let gates = shop.gates(clock);
    let mut rows: Vec<ReadyRow<'_>> = shop
        .files
        .iter()
        .map(|file| {
            let ticket = Ticket::of(file);
            ReadyRow {
                file,
                stage: ticket.stage,
                waiting: waiting(&ticket, &gates, now),
            }
        })
        .filter(|row| row.waiting.shows() != Shows::Done)
        .collect();
    rows.sort_by_key(|row| {
        let job = shop.job(row.file.piece.job);
        let promised = job.and_then(|job| job.promised);
        let until = row.waiting.until();
        let no = (job.map_or(0, |job| job.no), row.file.piece.no);
        (row.waiting.shows(), until, promised.is_none(), promised, no)
    });
    rows
}

fn heading(shows: Shows) -> &'static str {
    match shows {
        Shows::Ready => "Ready now",
        Shows::Missed => "Window missed",
        Shows::Held => "Held",
        Shows::Drying => "Drying",
        Shows::Done => "Set",
    }
}

/// The rows on paper.
pub fn ready_paper(rows: &[ReadyRow<'_>], shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let zone = shop.settings.zone;
    let today = now.with_timezone(&zone).date_naive();
    let mut out = Vec::new();
    for shows in [Shows::Ready, Shows::Missed, Shows::Held, Shows::Drying] {
        let mut columns = Columns::at_most(&[8, 22, 8]);
        let mut count = 0;
        for row in rows.iter().filter(|row| row.waiting.shows() == shows) {
            count += 1;
            let promised = shop.job(row.file.piece.job).and_then(|job| job.promised);
            let promised = match promised {
                Some(date) if date < today => {
                    format!("; promised {}, late", show_date(date, today))
                }
                Some(date) => format!("; promised {}", show_date(date, today)),
                None => String::new(),
            };
            columns.row([
                &shop.ticket_no(row.file),
                &row.file.piece.name,
                row.stage.word(),
                &format!("{}{promised}", row.waiting.words(now, zone)),
            ]);
        }
        if count > 0 {
            if !out.is_empty() {
                out.push(String::new());
            }
            out.push(format!("{} ({count})", heading(shows)));
            out.extend(columns.lines(2, PAPER_WIDTH));
        }
    }
    if out.is_empty() {
        let words = if shop.files.is_empty() {
            "There is no piece yet. Enter a client, a job and a piece first: tackfree client, \
             tackfree job, tackfree piece."
        } else {
            "Nothing waits: every piece is set."
        };
        out = wrap(words, PAPER_WIDTH, 0);
    }
    out
}
