//! When a job can be set, as odds; the promise pinned; how promises were kept.

use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::find;
use crate::cli::session::Session;
use crate::desk::typed::FieldError;
use crate::desk::{Action, PromiseAnswer, PromiseAsk, Shop, promise, promise_shares};
use crate::papers::SheetWords;
use crate::shop::promise::Answered;
use crate::units::moment::parse_future_date;
use chrono::NaiveDate;
use clap::Args;
use serde::Serialize;
use std::sync::atomic::AtomicBool;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree promise 7\n  tackfree promise 7 --what-if\n  tackfree promise --like 3\n  tackfree promise 7 --pin nine\n  tackfree promise 7 --pin 'Dec 18'\n  tackfree promise --kept\n\nThe work of the whole shop is simulated over drying, step times and interruptions. --pin promises\na date (even, nine or a date) and keeps the record of what it rests on; --kept tells the share of\npromises kept against the odds quoted. With --json: job_no, even, nine_in_ten, even_by,\nnine_in_ten_by, odds [day, in_thousand], open_pieces, basis, what_ifs [what, even, nine_in_ten]; of --kept: promises [job_no,\nmade, date, in_thousand, state, basis], shares [at, decided, kept, quoted].";

/// What was typed.
#[derive(Debug, Args)]
pub struct PromiseArgs {
    /// The job, by its number.
    #[arg(value_name = "JOB", required_unless_present_any = ["like", "kept"])]
    pub job: Option<String>,
    /// Another job like this one, with nothing done on it yet.
    #[arg(long, value_name = "JOB", conflicts_with_all = ["job", "pin"])]
    pub like: Option<String>,
    /// Also tells what would change the date: fewer coats, other recipes, Saturdays.
    #[arg(long)]
    pub what_if: bool,
    /// Promises this date: even, nine, or a date.
    #[arg(long, value_name = "DATE")]
    pub pin: Option<String>,
    /// Tells how promises were kept.
    #[arg(long, conflicts_with_all = ["job", "like", "what_if", "pin"])]
    pub kept: bool,
}

#[derive(Serialize)]
struct PromiseJson {
    job_no: u32,
    even: String,
    nine_in_ten: String,
    even_by: String,
    nine_in_ten_by: String,
    odds: Vec<OddsJson>,
    open_pieces: u32,
    basis: String,
    what_ifs: Vec<WhatIfJson>,
}

#[derive(Serialize)]
struct OddsJson {
    day: String,
    in_thousand: u16,
}

#[derive(Serialize)]
struct WhatIfJson {
    what: String,
    even: String,
    nine_in_ten: String,
}

/// Does it.
pub fn run(args: &PromiseArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    if args.kept {
        return kept(&shop, session);
    }
    let text = args.job.as_deref().or(args.like.as_deref()).unwrap_or("");
    let job = find::job(&shop, text)?;
    let ask = if args.like.is_some() {
        PromiseAsk::AnotherLike(job.id)
    } else {
        PromiseAsk::Job(job.id)
    };
    let halt = AtomicBool::new(false);
    let Some(answer) = promise(&shop, session.now, ask, args.what_if, &halt) else {
        return Err(Failure::said(format!(
            "Job {} has no end to promise: it has no open pieces, or something holds one of them \
             (tackfree daysheet says what).",
            job.no
        )));
    };
    if let Some(typed) = &args.pin {
        let date = pinned(typed, &answer, session.today(&shop))?;
        return session.perform(&Action::PinPromise(answer.draft(date)));
    }
    let words = SheetWords {
        shop: &shop,
        now: session.now,
    };
    let about = match ask {
        PromiseAsk::Job(_) => format!("Job {} {}", job.no, job.title),
        PromiseAsk::AnotherLike(_) => format!("Another like job {} {}", job.no, job.title),
    };
    let mut lines = vec![
        format!(
            "{about}: even odds {}, 9 in 10 {}",
            words.day(answer.even),
            words.day(answer.nine)
        ),
        format!(
            "  even odds by {}, 9 in 10 by {}",
            words.at(answer.even_by),
            words.at(answer.nine_by)
        ),
    ];
    for (day, odds) in answer.odds.table() {
        lines.push(format!(
            "  {:<12} {:>3} in 100",
            words.day(day),
            (odds + 5) / 10
        ));
    }
    let what = |one: &Answered| words.what_if(one.what);
    for one in &answer.what_ifs {
        lines.push(format!(
            "What if {}: even odds {}, 9 in 10 {}",
            what(one),
            words.day(one.even),
            words.day(one.nine)
        ));
    }
    lines.push(format!("Reckoned by {}.", answer.basis));
    Answer::new(
        lines,
        PromiseJson {
            job_no: job.no,
            even: answer.even.to_string(),
            nine_in_ten: answer.nine.to_string(),
            even_by: super::super::reading::moment(answer.even_by),
            nine_in_ten_by: super::super::reading::moment(answer.nine_by),
            odds: answer
                .odds
                .table()
                .into_iter()
                .map(|(day, odds)| OddsJson {
                    day: day.to_string(),
                    in_thousand: odds,
                })
                .collect(),
            open_pieces: answer.open_pieces,
            basis: answer.basis.clone(),
            what_ifs: answer
                .what_ifs
                .iter()
                .map(|one| WhatIfJson {
                    what: what(one),
                    even: one.even.to_string(),
                    nine_in_ten: one.nine.to_string(),
                })
                .collect(),
        },
    )
}

fn pinned(typed: &str, answer: &PromiseAnswer, today: NaiveDate) -> Result<NaiveDate, Failure> {
    match typed.trim().to_lowercase().as_str() {
        "even" => Ok(answer.even),
        "nine" | "9 in 10" | "nine-in-ten" => Ok(answer.nine),
        _ => parse_future_date(typed, today)
            .map_err(|error| FieldError::new("pin", error.to_string()).into()),
    }
}

#[derive(Serialize)]
struct KeptJson {
    promises: Vec<PromiseRowJson>,
    shares: Vec<ShareJson>,
}

#[derive(Serialize)]
struct PromiseRowJson {
    job_no: u32,
    made: String,
    date: String,
    in_thousand: u16,
    state: &'static str,
    basis: String,
}

#[derive(Serialize)]
struct ShareJson {
    at: &'static str,
    decided: u32,
    kept: u32,
    quoted: f64,
}

fn kept(shop: &Shop, session: &Session<'_>) -> Result<Answer, Failure> {
    let words = SheetWords {
        shop,
        now: session.now,
    };
    let today = session.today(shop);
    let (mut lines, mut rows) = (Vec::new(), Vec::new());
    for promise in &shop.plan.promises {
        let state = promise.state(shop.set_on(promise.job), today);
        let state = state.word();
        lines.push(format!(
            "{}: promised {} for {}, at {} in 100: {state}",
            words.job(promise.job),
            words.at(promise.at),
            words.day(promise.date),
            (promise.odds + 5) / 10,
        ));
        rows.push(PromiseRowJson {
            job_no: shop.job(promise.job).map_or(0, |job| job.no),
            made: super::super::reading::moment(promise.at),
            date: promise.date.to_string(),
            in_thousand: promise.odds,
            state,
            basis: promise.basis.clone(),
        });
    }
    let shares = promise_shares(shop, session.now);
    lines.extend(shares.iter().map(crate::shop::Share::words));
    if lines.is_empty() {
        lines.push("No promise was pinned yet: tackfree promise JOB --pin nine.".to_owned());
    }
    let shares = shares.iter().map(|share| ShareJson {
        at: share.band.words(),
        decided: share.decided,
        kept: share.kept,
        quoted: (share.quoted * 1000.0).round() / 1000.0,
    });
    Answer::new(
        lines,
        KeptJson {
            promises: rows,
            shares: shares.collect(),
        },
    )
}
