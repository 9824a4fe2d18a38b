//! The outline of the Job book: its rows and their words.

use super::super::screen::Ctx;
use super::list::{Cell, Entry, Line, MARK, Tone, beside, count};
use crate::shop::{ClientId, Job, JobId, PieceFile, PieceId, Shows, Stage, Ticket, waiting};
use crate::units::moment::show_date;
use chrono::NaiveDate;

/// What a row stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum RowKey {
    Client(ClientId),
    Job(JobId),
    Piece(PieceId),
}

/// What stands right under a row.
pub(super) fn children(row: RowKey, ctx: &Ctx<'_>) -> Vec<RowKey> {
    let shop = ctx.shop;
    match row {
        RowKey::Client(client) => {
            let jobs = shop.jobs.iter().filter(|job| job.client == client);
            jobs.map(|job| RowKey::Job(job.id)).collect()
        }
        RowKey::Job(job) => {
            let files = shop.files.iter().filter(|file| file.piece.job == job);
            files.map(|file| RowKey::Piece(file.piece.id)).collect()
        }
        RowKey::Piece(_) => Vec::new(),
    }
}

/// What a row stands under.
pub(super) fn parent(row: RowKey, ctx: &Ctx<'_>) -> Option<RowKey> {
    match row {
        RowKey::Client(_) => None,
        RowKey::Job(job) => ctx.shop.job(job).map(|job| RowKey::Client(job.client)),
        RowKey::Piece(piece) => ctx.shop.file(piece).map(|file| RowKey::Job(file.piece.job)),
    }
}

/// The client a row belongs to.
pub(super) fn client_of(row: RowKey, ctx: &Ctx<'_>) -> Option<ClientId> {
    match row {
        RowKey::Client(client) => Some(client),
        _ => client_of(parent(row, ctx)?, ctx),
    }
}

/// The rows in sight when these are folded.
pub(super) fn keys(folded: &[RowKey], ctx: &Ctx<'_>) -> Vec<RowKey> {
    let mut out = Vec::new();
    let mut stack: Vec<RowKey> = ctx
        .shop
        .clients
        .iter()
        .rev()
        .map(|client| RowKey::Client(client.id))
        .collect();
    while let Some(row) = stack.pop() {
        out.push(row);
        if !folded.contains(&row) {
            stack.extend(children(row, ctx).into_iter().rev());
        }
    }
    out
}

/// The rows drawn.
pub(super) fn entries(
    keys: &[RowKey],
    folded: &[RowKey],
    width: usize,
    ctx: &Ctx<'_>,
) -> Vec<Entry> {
    let width = width.saturating_sub(MARK);
    keys.iter()
        .map(|row| {
            let folded = folded.contains(row);
            Entry::row(match row {
                RowKey::Client(id) => client(*id, folded, ctx),
                RowKey::Job(id) => ctx
                    .shop
                    .job(*id)
                    .map_or_else(Vec::new, |j| job(j, folded, width, ctx)),
                RowKey::Piece(id) => ctx
                    .shop
                    .file(*id)
                    .map_or_else(Vec::new, |f| piece(f, width, ctx)),
            })
        })
        .collect()
}

/// `-` before what is unfolded, `+` before what is folded; the words say it too.
fn sign(folded: bool) -> char {
    if folded { '+' } else { '-' }
}

fn client(id: ClientId, folded: bool, ctx: &Ctx<'_>) -> Vec<Line> {
    let name = ctx.shop.client(id).map_or("", |client| &client.name);
    let under = children(RowKey::Client(id), ctx).len();
    let words = match (under, folded) {
        (0, _) => ": no job yet, press j".to_owned(),
        (n, true) => format!(": {} folded", count(n, "job")),
        (_, false) => String::new(),
    };
    vec![(Tone::Title, format!("{} {name}{words}", sign(folded)))]
}

fn job(job: &Job, folded: bool, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let under = children(RowKey::Job(job.id), ctx).len();
    let words = match (under, folded) {
        (0, _) => ": no piece yet, press n".to_owned(),
        (n, true) => format!(": {} folded", count(n, "piece")),
        (_, false) => String::new(),
    };
    let (promise, late) = promise(job, ctx);
    let title = format!("  {} {} {}{words}", sign(folded), job.no, job.title);
    let tone = if late { Tone::Warn } else { Tone::Text };
    indented(4, &title, &promise, width)
        .into_iter()
        .map(|line| (tone, line))
        .collect()
}

/// Two texts beside each other, the first going on under its own words `hang` cells in.
fn indented(hang: usize, left: &str, right: &str, width: usize) -> Vec<String> {
    let right_width = (width * 9 / 20).max(1);
    let left_width = width.saturating_sub(right_width + 2).max(1);
    let mut lines =
        super::super::kit::text::wrap(left.trim_start(), left_width.saturating_sub(hang));
    let lead = left.len() - left.trim_start().len();
    for (n, line) in lines.iter_mut().enumerate() {
        *line = format!("{}{line}", " ".repeat(if n == 0 { lead } else { hang }));
    }
    beside(&[
        Cell::left(lines.join("\n"), left_width),
        Cell::left(right, right_width),
    ])
}

/// When it was promised, in words, and whether it is late.
pub(super) fn promise(job: &Job, ctx: &Ctx<'_>) -> (String, bool) {
    let Some(day) = job.promised else {
        return ("no date promised".to_owned(), false);
    };
    let today: NaiveDate = ctx.now.with_timezone(&ctx.zone()).date_naive();
    let day_words = show_date(day, today);
    let mut files = ctx
        .shop
        .files
        .iter()
        .filter(|file| file.piece.job == job.id)
        .peekable();
    if files.peek().is_some() && files.all(|file| file.piece.finished) {
        return (format!("promised {day_words}: all set"), false);
    }
    let left = day.signed_duration_since(today).num_days();
    let days = |n: i64| count(usize::try_from(n).unwrap_or(0), "day");
    match left {
        0 => (format!("promised today, {day_words}"), false),
        1.. => (format!("promised {day_words}, {} left", days(left)), false),
        _ => (format!("promised {day_words}, {} late", days(-left)), true),
    }
}

fn piece(file: &PieceFile, width: usize, ctx: &Ctx<'_>) -> Vec<Line> {
    let ticket = Ticket::of(file);
    let waits = waiting(&ticket, &ctx.gates(), ctx.now);
    let tone = match waits.shows() {
        Shows::Ready | Shows::Done => Tone::Good,
        Shows::Missed | Shows::Held => Tone::Warn,
        Shows::Drying => Tone::Text,
    };
    let stage: Stage = ticket.stage;
    let words = waits.words(ctx.now, ctx.zone());
    let standing = match waits.shows() {
        Shows::Done => words,
        _ => format!("{stage}: {words}"),
    };
    let name = format!("      {}", ctx.shop.called(file));
    indented(8, &name, &standing, width)
        .into_iter()
        .map(|line| (tone, line))
        .collect()
}
