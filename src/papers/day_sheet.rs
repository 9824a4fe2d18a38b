//! The day sheet on paper: boxes large enough for dusty hands.

use super::PAPER_WIDTH;
use super::day_sheet_words::SheetWords;
use super::layout::wrap;
use crate::desk::Shop;
use crate::shop::day_sheet::{LateJob, Line, Sheet, WeekLoad};
use crate::shop::{Slot, SlotMeans, day_of};
use crate::units::moment::show_span;
use chrono::{DateTime, Days, Duration, NaiveDate, Utc};

/// What goes on the paper.
#[derive(Clone, Copy)]
pub struct SheetPaper<'a> {
    /// The shop.
    pub shop: &'a Shop,
    /// The sheet.
    pub sheet: &'a Sheet,
    /// Its late jobs with their cures.
    pub late: &'a [LateJob],
    /// How many days from today are printed.
    pub days: u64,
}

/// The sheet of today and the next days, then the jobs, then what the pieces wait for.
pub fn day_sheet_paper(paper: &SheetPaper<'_>) -> Vec<String> {
    let (shop, sheet) = (paper.shop, paper.sheet);
    let words = SheetWords {
        shop,
        now: sheet.now,
    };
    let zone = shop.settings.zone;
    let today = day_of(sheet.now, zone);
    let mut out = vec![format!("DAY SHEET, made {}", words.at(sheet.now))];
    for doubt in &sheet.doubts {
        out.extend(wrap(&format!("Mind: {doubt}"), PAPER_WIDTH, 2));
    }
    for no in 0..paper.days {
        let Some(day) = today.checked_add_days(Days::new(no)) else {
            break;
        };
        one_day(&mut out, paper, &words, day);
    }
    out.push(String::new());
    out.push("JOBS".to_owned());
    out.extend(job_lines(sheet, paper.late, &words));
    let waiting = piece_lines(sheet, &words);
    if !waiting.is_empty() {
        out.push(String::new());
        out.push("PIECES".to_owned());
        out.extend(waiting);
    }
    out
}

fn one_day(out: &mut Vec<String>, paper: &SheetPaper<'_>, words: &SheetWords<'_>, day: NaiveDate) {
    let zone = paper.shop.settings.zone;
    let slots: Vec<&Slot> = paper
        .shop
        .plan
        .slots
        .iter()
        .filter(|slot| slot.day == day)
        .collect();
    let on_day = |line: &&Line| {
        let parts = || line.parts.iter().map(|part| day_of(part.from, zone));
        parts().any(|of| of == day)
    };
    let lines: Vec<&Line> = paper.sheet.lines.iter().filter(on_day).collect();
    let hours = crate::shop::hours_of(&paper.shop.plan.bench.week, &paper.shop.plan.slots, day);
    if lines.is_empty() && slots.is_empty() && hours.is_empty() {
        return;
    }
    out.push(String::new());
    let open: Vec<String> = hours.iter().map(|span| span.words()).collect();
    let open = if open.is_empty() {
        "no bench hours".to_owned()
    } else {
        open.join(", ")
    };
    out.push(format!("{} ({open})", words.day(day).to_uppercase()));
    // Other work and steps, in order of time.
    let mut rows: Vec<(DateTime<Utc>, Vec<String>)> = Vec::new();
    for slot in slots {
        let from = match slot.means {
            SlotMeans::DayOff => 0,
            SlotMeans::Taken(span) | SlotMeans::Added(span) => span.from(),
        };
        let at = crate::shop::instant(day, from, zone);
        rows.push((at, vec![format!("      {}", slot.words())]));
    }
    for line in lines {
        let here = line
            .parts
            .iter()
            .find(|part| day_of(part.from, zone) == day);
        let at = here.map_or(line.start, |part| part.from);
        let more = if day_of(line.start, zone) < day {
            " (goes on)"
        } else {
            ""
        };
        let mut text = wrap(&format!("{}{more}", words.line(line)), PAPER_WIDTH - 6, 2);
        if let Some(first) = text.first_mut() {
            first.insert_str(0, "[  ]  ");
        }
        for (no, line) in text.iter_mut().enumerate() {
            if no > 0 {
                line.insert_str(0, "      ");
            }
        }
        let why = words.why(line);
        let when = if why.is_empty() {
            words.times(line)
        } else {
            format!("{}; {why}", words.times(line))
        };
        text.extend(
            wrap(&when, PAPER_WIDTH - 8, 0)
                .into_iter()
                .map(|line| format!("        {line}")),
        );
        rows.push((at, text));
    }
    rows.sort_by_key(|(at, _)| *at);
    if rows.is_empty() {
        out.push("      nothing is planned".to_owned());
    }
    out.extend(rows.into_iter().flat_map(|(_, text)| text));
}

/// How the jobs come out: end, promise, slack or lateness with its cures.
pub fn job_lines(sheet: &Sheet, late: &[LateJob], words: &SheetWords<'_>) -> Vec<String> {
    let mut out = Vec::new();
    for outlook in &sheet.jobs {
        let name = words.job(outlook.job);
        let end = outlook.end.map(|end| words.at(end));
        let promised = outlook.promised.map(|day| words.day(day));
        let text = match (end, promised, outlook.slack(), outlook.late()) {
            (None, promised, ..) => {
                let promised = promised.map_or_else(String::new, |day| format!(", promised {day}"));
                format!("{name}: held, no end in sight{promised}")
            }
            (Some(end), None, ..) => format!("{name}: ends {end}; no date promised"),
            (Some(end), Some(day), Some(slack), _) => {
                format!(
                    "{name}: ends {end}, promised {day}, {} to spare",
                    show_span(slack)
                )
            }
            (Some(end), Some(day), None, by) => {
                let by = show_span(by.unwrap_or_else(Duration::zero));
                format!("{name}: ends {end}, promised {day}, LATE by {by}")
            }
        };
        out.extend(indented(&text, 2));
        if let Some(late) = late.iter().find(|late| late.job == outlook.job) {
            out.extend(indented(&words.late(late), 4));
            for cure in &late.cures {
                out.extend(indented(&format!("- {}", words.cure(cure)), 6));
            }
        }
    }
    out
}

/// What the open pieces wait for, those that something holds first.
pub fn piece_lines(sheet: &Sheet, words: &SheetWords<'_>) -> Vec<String> {
    let zone = words.shop.settings.zone;
    let mut out = Vec::new();
    for piece in &sheet.pieces {
        let mut text = format!(
            "{}: {}",
            words.piece(piece.piece),
            piece.waits.line(sheet.now, zone)
        );
        if let Some(line) = piece.next.and_then(|next| sheet.lines.get(next)) {
            let next = format!("; next {} {}", line.key.step.words(), words.at(line.start));
            text.push_str(&next);
        }
        if let Some(why) = &piece.held {
            text.push_str("; then held: ");
            text.push_str(&why.brief(sheet.now, zone));
        }
        if piece.never_dries {
            text.push_str("; then a coat that does not dry in the air expected");
        }
        out.extend(indented(&text, 2));
    }
    out
}

/// The load of the coming weeks.
pub fn load_lines(load: &[WeekLoad], words: &SheetWords<'_>) -> Vec<String> {
    load.iter()
        .map(|week| {
            let span = |minutes: i64| show_hours(minutes);
            format!(
                "week of {}: {} planned of {} at the bench; {} of work promised for it",
                words.day(week.monday),
                span(week.planned),
                span(week.bench),
                span(week.promised)
            )
        })
        .collect()
}

/// Minutes as hours: `7.5 h`.
pub fn show_hours(minutes: i64) -> String {
    let tenths = (minutes * 10 + 30).div_euclid(60);
    format!("{}.{} h", tenths / 10, tenths % 10)
}

fn indented(text: &str, by: usize) -> Vec<String> {
    let pad = " ".repeat(by);
    wrap(text, PAPER_WIDTH - by, 2)
        .into_iter()
        .map(|line| format!("{pad}{line}"))
        .collect()
}
