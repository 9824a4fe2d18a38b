//! The day sheet: what to do when and why, how the jobs come out, what would save a late one.

use super::moment;
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::desk::{ROUNDS, Shop, day_sheet, late_jobs};
use crate::papers::{SheetPaper, SheetWords, day_sheet_paper, load_lines};
use crate::shop::day_sheet::{LateJob, Line, Made, WeekLoad, load};
use clap::Args;
use serde::Serialize;
use std::sync::atomic::AtomicBool;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree daysheet\n  tackfree daysheet --days 5\n  tackfree daysheet --load\n\nIt is made from the schedules, what is logged, the drying clock, the bench hours and the promised\ndates; nothing is written. tackfree replan keeps it as the order of the day. With --json: now,\nlines [piece, ticket, step, start, end, minutes, what, why, setup_minutes, window_shuts,\nunder_way], jobs [job_no, job, promised, ends, late_minutes, slack_minutes, because, cures], pieces\n[ticket, waits, held], load [week, bench_minutes, planned_minutes, promised_minutes], doubts; times\nRFC 3339 or null.";

/// What was typed.
#[derive(Debug, Args)]
pub struct DaysheetArgs {
    /// How many days are printed, from today.
    #[arg(long, value_name = "COUNT", default_value_t = 2)]
    pub days: u64,
    /// Prints the load of the coming weeks instead.
    #[arg(long)]
    pub load: bool,
    /// How many orders are tried.
    #[arg(long, value_name = "COUNT", default_value_t = ROUNDS)]
    pub rounds: u64,
}

#[derive(Serialize)]
struct SheetJson {
    now: String,
    kept_order: bool,
    lines: Vec<LineJson>,
    jobs: Vec<JobJson>,
    pieces: Vec<PieceJson>,
    load: Vec<LoadJson>,
    doubts: Vec<String>,
}

#[derive(Serialize)]
struct LineJson {
    piece: String,
    ticket: String,
    step: String,
    start: String,
    end: String,
    minutes: i64,
    what: String,
    why: String,
    setup_minutes: i64,
    window_shuts: Option<String>,
    under_way: bool,
}

#[derive(Serialize)]
struct JobJson {
    job_no: u32,
    job: String,
    promised: Option<String>,
    ends: Option<String>,
    late_minutes: Option<i64>,
    slack_minutes: Option<i64>,
    because: Option<String>,
    cures: Vec<String>,
}

#[derive(Serialize)]
struct PieceJson {
    ticket: String,
    waits: String,
    held: Option<String>,
}

#[derive(Serialize)]
struct LoadJson {
    week: String,
    bench_minutes: i64,
    planned_minutes: i64,
    promised_minutes: i64,
}

/// Reads it.
pub fn run(args: &DaysheetArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let halt = AtomicBool::new(false);
    let made = day_sheet(&shop, session.now, args.rounds, &halt);
    let late = late_jobs(&shop, session.now, &made, args.rounds, &halt);
    let weeks = crate::desk::with_floor(&shop, session.now, |floor| load(floor, &made.sheet, 6));
    let words = SheetWords {
        shop: &shop,
        now: session.now,
    };
    let lines = if args.load {
        load_lines(&weeks, &words)
    } else {
        day_sheet_paper(&SheetPaper {
            shop: &shop,
            sheet: &made.sheet,
            late: &late,
            days: args.days.min(60),
        })
    };
    Answer::new(lines, json(&shop, &made, &late, &weeks, &words))
}

fn json(
    shop: &Shop,
    made: &Made,
    late: &[LateJob],
    weeks: &[WeekLoad],
    words: &SheetWords<'_>,
) -> SheetJson {
    let sheet = &made.sheet;
    let ticket = |id| {
        shop.file(id)
            .map_or_else(String::new, |file| shop.ticket_no(file))
    };
    let jobs = sheet.jobs.iter().map(|outlook| {
        let job = shop.job(outlook.job);
        let late = late.iter().find(|late| late.job == outlook.job);
        JobJson {
            job_no: job.map_or(0, |job| job.no),
            job: job.map_or_else(String::new, |job| job.title.clone()),
            promised: outlook.promised.map(|day| day.to_string()),
            ends: outlook.end.map(moment),
            late_minutes: outlook.late().map(|late| late.num_minutes()),
            slack_minutes: outlook.slack().map(|slack| slack.num_minutes()),
            because: late.map(|late| words.late(late)),
            cures: late
                .iter()
                .flat_map(|late| &late.cures)
                .map(|cure| words.cure(cure))
                .collect(),
        }
    });
    let line = |line: &Line| LineJson {
        piece: words.piece(line.key.piece),
        ticket: ticket(line.key.piece),
        step: line.key.step.to_string(),
        start: moment(line.start),
        end: moment(line.end),
        minutes: line
            .parts
            .iter()
            .map(|part| (part.to - part.from).num_minutes())
            .sum(),
        what: words.line(line),
        why: words.why(line),
        setup_minutes: line.setup,
        window_shuts: line.shuts.map(moment),
        under_way: line.under_way,
    };
    let zone = shop.settings.zone;
    SheetJson {
        now: moment(sheet.now),
        kept_order: sheet.kept_order,
        lines: sheet.lines.iter().map(line).collect(),
        jobs: jobs.collect(),
        pieces: sheet
            .pieces
            .iter()
            .map(|piece| PieceJson {
                ticket: ticket(piece.piece),
                waits: piece.waits.line(sheet.now, zone),
                held: piece.held.as_ref().map(|why| why.words(sheet.now, zone)),
            })
            .collect(),
        load: weeks
            .iter()
            .map(|week| LoadJson {
                week: week.monday.to_string(),
                bench_minutes: week.bench,
                planned_minutes: week.planned,
                promised_minutes: week.promised,
            })
            .collect(),
        doubts: sheet.doubts.clone(),
    }
}
