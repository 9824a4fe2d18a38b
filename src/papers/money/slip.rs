//! Hours logged, and held against the estimate.

use crate::desk::Shop;
use crate::money::{Slip, work_words};
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::{Columns, wrap};
use crate::shop::{HoursEntry, HoursId, Job};
use crate::units::show_moment;
use chrono::{DateTime, Utc};

/// A short code of an entry: the last six signs of its identifier.
pub fn hours_code(id: HoursId) -> String {
    let text = id.to_string();
    text[text.len().saturating_sub(6)..].to_owned()
}

fn signed(minutes: i64) -> String {
    let span = work_words(minutes.abs());
    match minutes {
        0 => "as estimated".to_owned(),
        minutes if minutes > 0 => format!("{span} over"),
        _ => format!("{span} under"),
    }
}

/// A job's slippage.
pub fn slip_paper(job: &Job, slip: &Slip) -> Vec<String> {
    let mut columns = Columns::default();
    columns.row(["", "estimated", "logged", ""]);
    let span = work_words;
    for step in &slip.steps {
        let state = if step.done && step.actual == 0 {
            "done, not logged".to_owned()
        } else if step.done {
            signed(step.over())
        } else if step.over() > 0 {
            format!("{} already, not done", signed(step.over()))
        } else {
            "not done".to_owned()
        };
        columns.row([
            step.step.words(),
            &span(step.estimated),
            &span(step.actual),
            &state,
        ]);
    }
    let mut out = vec![format!("Hours of job {} {}", job.no, job.title)];
    out.extend(columns.lines(2, PAPER_WIDTH));
    let percent = slip.percent.map_or_else(String::new, |percent| {
        format!(", {percent} % of the estimate")
    });
    let words = format!(
        "Estimated {}, logged {}; heads for {}: {}{percent}",
        span(slip.estimated),
        span(slip.actual),
        signed(slip.over),
        slip.dollars.show(),
    );
    out.extend(wrap(&words, PAPER_WIDTH, 2));
    if let Some(cause) = slip.cause {
        out.push(format!(
            "Most of it: {}, {}",
            cause.step.words(),
            signed(cause.over())
        ));
    }
    out
}

/// Entries of the hours log, newest last.
pub fn hours_paper(shop: &Shop, hours: &[&HoursEntry], now: DateTime<Utc>) -> Vec<String> {
    let zone = shop.settings.zone;
    let mut columns = Columns::default();
    for entry in hours {
        let state = match (entry.runs(), entry.paused()) {
            (true, Some(paused)) => {
                format!(
                    ", interrupted since {}",
                    show_moment(paused.from, now, zone)
                )
            }
            (true, None) => ", runs".to_owned(),
            (false, _) => String::new(),
        };
        let breaks = match entry.breaks.len() {
            0 => String::new(),
            count => format!(
                ", {}",
                crate::units::counted(count, "interruption", "interruptions")
            ),
        };
        columns.row([
            &hours_code(entry.id),
            &show_moment(entry.started, now, zone),
            &work_words(entry.worked(now).num_minutes()),
            &format!(
                "{}{state}{breaks}",
                shop.work_words(entry.step, entry.job, &entry.pieces)
            ),
        ]);
    }
    if columns.is_empty() {
        return vec!["No hours are logged yet. Start the clock: tackfree clock sand 1A".to_owned()];
    }
    columns.lines(0, PAPER_WIDTH)
}
