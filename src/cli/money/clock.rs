//! The clock on a step, and hours typed later.

use super::{act, all_hours};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::{SpanUnit, read_span, read_step};
use crate::desk::{HoursDraft, MoneyAction, Shop, Which};
use crate::papers::{hours_code, hours_paper};
use crate::shop::{Break, HoursEntry, JobId, PieceId};
use chrono::{DateTime, Duration, Utc};
use clap::Args;
use serde::Serialize;

/// Examples.
pub const CLOCK_MORE: &str = "Examples:\n  tackfree clock sand 1A\n  tackfree clock topcoat 1A 1B --at \"10 min ago\"\n  tackfree clock travel --job 1\n  tackfree clock --pause telephone\n  tackfree clock --go-on\n  tackfree clock --stop\n  tackfree clock\n\nOne clock runs, also over a restart: starting one stops the other. Steps: measure, make, cutout, sand,\nsand-edges, wipe, seal, stain, topcoat, scuff, set, travel, rework, other. With --json and nothing to\ndo: hours as tackfree hourslog has them.";
/// Examples.
pub const HOURS_MORE: &str = "Examples:\n  tackfree hourslog\n  tackfree hourslog --job 1\n  tackfree hourslog --add sand --piece 1A --for 2h30m --ended \"17:00\" --break \"20 min telephone\"\n  tackfree hourslog --change 4f2a01 --for \"1 h\"\n\nAn interruption typed later counts by its length. With --json: hours [code, job_no, pieces, step,\nstarted, ended, worked_minutes, breaks [from, until, why]]; times RFC 3339 or null.";
/// What was typed.
#[derive(Debug, Args)]
pub struct ClockArgs {
    /// The step.
    pub step: Option<String>,
    /// The pieces, of one job.
    pub pieces: Vec<String>,
    /// The job, for work on it as a whole.
    #[arg(long, conflicts_with = "pieces")]
    pub job: Option<String>,
    /// Stops the clock.
    #[arg(long, conflicts_with_all = ["step", "pause", "go_on"])]
    pub stop: bool,
    /// The work is interrupted; may say why.
    #[arg(long, value_name = "WHY", num_args = 0..=1, default_missing_value = "", conflicts_with_all = ["step", "go_on"])]
    pub pause: Option<String>,
    /// The work goes on.
    #[arg(long, conflicts_with = "step")]
    pub go_on: bool,
    /// When: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub at: Option<String>,
}

/// What was typed.
#[derive(Debug, Args)]
pub struct HoursArgs {
    /// Only this job's; the job of --add for work on it as a whole.
    #[arg(long)]
    pub job: Option<String>,
    /// Types hours of this step.
    #[arg(long, value_name = "STEP", conflicts_with = "change")]
    pub add: Option<String>,
    /// Corrects the entry of this code.
    #[arg(long, value_name = "CODE")]
    pub change: Option<String>,
    /// The step instead, with --change.
    #[arg(long, requires = "change")]
    pub step: Option<String>,
    /// A piece it was done on.
    #[arg(long, value_name = "PIECE")]
    pub piece: Vec<String>,
    /// How long, interruptions included.
    #[arg(long = "for", value_name = "SPAN")]
    pub span: Option<String>,
    /// When it started.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub started: Option<String>,
    /// When it ended: now unless said.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    pub ended: Option<String>,
    /// An interruption: how long, and why.
    #[arg(long = "break", value_name = "SPAN WHY")]
    pub breaks: Vec<String>,
}

#[derive(Serialize)]
struct HoursJson {
    hours: Vec<EntryJson>,
}

#[derive(Serialize)]
struct EntryJson {
    code: String,
    job_no: u32,
    pieces: Vec<String>,
    step: &'static str,
    started: String,
    ended: Option<String>,
    worked_minutes: i64,
    breaks: Vec<BreakJson>,
}

#[derive(Serialize)]
struct BreakJson {
    from: String,
    until: Option<String>,
    why: String,
}

fn told(shop: &Shop, entries: &[&HoursEntry], now: DateTime<Utc>) -> Result<Answer, Failure> {
    let moment = |at: DateTime<Utc>| at.to_rfc3339_opts(chrono::SecondsFormat::Secs, true);
    let hours = entries
        .iter()
        .map(|entry| EntryJson {
            code: hours_code(entry.id),
            job_no: shop.job(entry.job).map_or(0, |job| job.no),
            pieces: entry
                .pieces
                .iter()
                .filter_map(|id| shop.file(*id))
                .map(|file| shop.ticket_no(file))
                .collect(),
            step: entry.step.word(),
            started: moment(entry.started),
            ended: entry.ended.map(moment),
            worked_minutes: entry.worked(now).num_minutes(),
            breaks: entry
                .breaks
                .iter()
                .map(|one| BreakJson {
                    from: moment(one.from),
                    until: one.until.map(moment),
                    why: one.why.clone(),
                })
                .collect(),
        })
        .collect();
    Answer::new(hours_paper(shop, entries, now), HoursJson { hours })
}

/// The job and pieces that work is on.
fn on(shop: &Shop, job: Option<&str>, pieces: &[String]) -> Result<(JobId, Vec<PieceId>), Failure> {
    let files = find::pieces(shop, pieces)?;
    let ids = files.iter().map(|file| file.piece.id).collect();
    match (files.first(), job) {
        (Some(first), _) => Ok((first.piece.job, ids)),
        (None, Some(job)) => Ok((find::job(shop, job)?.id, ids)),
        (None, None) => Err(Failure::said(
            "Say the pieces, like 1A, or --job for work on a job as a whole.",
        )),
    }
}

/// The clock.
pub fn clock(args: &ClockArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let at = session.when("at", args.at.as_deref(), &shop)?;
    if args.stop {
        return act(session, MoneyAction::StopClock { at });
    }
    if args.go_on {
        return act(session, MoneyAction::GoOn { at });
    }
    if let Some(why) = &args.pause {
        let why = why.clone();
        return act(session, MoneyAction::PauseClock { at, why });
    }
    let Some(step) = &args.step else {
        let running: Vec<&HoursEntry> = shop.running.iter().collect();
        if running.is_empty() {
            let lines = vec!["No clock runs.".to_owned()];
            return Answer::new(lines, HoursJson { hours: Vec::new() });
        }
        return told(&shop, &running, session.now);
    };
    let step = read_step(step)?;
    let (job, pieces) = on(&shop, args.job.as_deref(), &args.pieces)?;
    act(
        session,
        MoneyAction::StartClock {
            job,
            pieces,
            step,
            at,
        },
    )
}

/// Interruptions typed by their length, laid one after the other up to the end.
fn breaks(texts: &[String], ended: DateTime<Utc>) -> Result<Vec<Break>, Failure> {
    let mut out = Vec::new();
    for text in texts {
        // The span is as many words from the front as read as one.
        let words: Vec<&str> = text.split_whitespace().collect();
        let read = (1..=words.len()).rev().find_map(|count| {
            let span = read_span("break", &words[..count].join(" "), None).ok()?;
            Some((span.as_duration(), words[count..].join(" ")))
        });
        let Some((span, why)) = read else {
            let error = read_span("break", text, None).err();
            return Err(error.map_or_else(|| Failure::said("Say how long."), Failure::from));
        };
        out.push((span, why));
    }
    let mut from = ended
        - out
            .iter()
            .fold(Duration::zero(), |sum, (span, _)| sum + *span);
    Ok(out
        .into_iter()
        .map(|(span, why)| {
            let one = Break {
                from,
                until: Some(from + span),
                why,
            };
            from += span;
            one
        })
        .collect())
}

/// The hours log.
pub fn hours(args: &HoursArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let all = all_hours(session)?;
    if args.add.is_none() && args.change.is_none() {
        let job = args
            .job
            .as_deref()
            .map(|text| find::job(&shop, text))
            .transpose()?;
        let wanted: Vec<&HoursEntry> = all
            .iter()
            .filter(|entry| job.is_none_or(|job| job.id == entry.job))
            .collect();
        return told(&shop, &wanted, session.now);
    }
    let before = args
        .change
        .as_deref()
        .map(|code| entry(&all, code))
        .transpose()?;
    let step = args.add.as_deref().or(args.step.as_deref());
    let step = match (step, before) {
        (Some(text), _) => read_step(text)?,
        (None, Some(before)) => before.step,
        (None, None) => return Err(Failure::said("Say the step.")),
    };
    let (job, pieces) = match before {
        Some(before) if args.piece.is_empty() => (before.job, before.pieces.clone()),
        _ => on(&shop, args.job.as_deref(), &args.piece)?,
    };
    let when = |option, text: &Option<String>| {
        text.as_deref()
            .map(|text| session.when(option, Some(text), &shop))
            .transpose()
    };
    let (started, ended) = (when("started", &args.started)?, when("ended", &args.ended)?);
    let span = args
        .span
        .as_deref()
        .map(|text| read_span("for", text, Some(SpanUnit::Hours)))
        .transpose()?
        .map(crate::coating::Span::as_duration);
    let was_end = before.and_then(|of| of.ended);
    let (started, ended) = match (started, ended, span) {
        (Some(_), Some(_), Some(_)) => {
            let words = "Give two of --started, --ended and --for: the third follows.";
            return Err(Failure::said(words));
        }
        (Some(started), None, Some(span)) => (started, started + span),
        (None, ended, Some(span)) => {
            let ended = ended.or(was_end).unwrap_or(session.now);
            (ended - span, ended)
        }
        (started, ended, None) => {
            let started = started.or(before.map(|of| of.started));
            let missing = || Failure::said("Say how long it took (--for), or when it started.");
            let ended = ended.or(was_end).unwrap_or(session.now);
            (started.ok_or_else(missing)?, ended)
        }
    };
    let draft = HoursDraft {
        job,
        pieces,
        step,
        started,
        ended,
        breaks: match before {
            Some(before) if args.breaks.is_empty() => before.breaks.clone(),
            _ => breaks(&args.breaks, ended)?,
        },
    };
    let which = before.map_or(Which::New, |of| Which::This(of.id));
    act(session, MoneyAction::SaveHours(which, draft))
}

/// The entry of a code.
pub(super) fn entry<'h>(all: &'h [HoursEntry], code: &str) -> Result<&'h HoursEntry, Failure> {
    let code = code.trim().to_lowercase();
    let mut found = all
        .iter()
        .filter(|of| hours_code(of.id) == code || of.id.to_string() == code);
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one),
        _ => Err(Failure::said(
            "There is no entry of that code in the hours log: tackfree hourslog lists them.",
        )),
    }
}
