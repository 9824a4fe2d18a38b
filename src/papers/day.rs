//! A day's end as lines: what it calls for, what is done, how the day stands.

use super::PAPER_WIDTH;
use super::layout::wrap;
use crate::desk::Shop;
use crate::shop::{Call, DayEnd, DayState, day_of};
use crate::units::moment::{show_date, show_moment};
use chrono::{DateTime, Utc};

/// How a day stands, in words.
pub fn day_state_words(end: &DayEnd, shop: &Shop, now: DateTime<Utc>) -> String {
    let zone = shop.settings.zone;
    let closed = end.closed.as_ref().map_or_else(String::new, |closed| {
        let at = show_moment(closed.at, now, zone);
        match &closed.reason {
            Some(reason) => format!("closed {at} with oily rags not logged: {reason}"),
            None => format!("closed {at}"),
        }
    });
    match end.state() {
        DayState::Nothing => "nothing was logged that leaves a chore".to_owned(),
        DayState::Open => "not closed".to_owned(),
        DayState::OpenAgain => format!("{closed}; work was logged for after that"),
        DayState::Closed => closed,
    }
}

/// What called for a chore, and whether it is done: `of wiping varnish, last 3:40 pm; to do`.
pub fn call_words(call: &Call, shop: &Shop, now: DateTime<Utc>) -> String {
    let zone = shop.settings.zone;
    let when = |at| show_moment(at, now, zone);
    let state = match call.ticked {
        Some(done) if call.is_done() => {
            let how = done
                .way
                .map_or(call.chore.done_words(), crate::shop::RagWay::words);
            format!("{how} {}", when(done.at))
        }
        Some(done) => format!(
            "ticked {}, but there was more of it after that",
            when(done.at)
        ),
        None => "to do".to_owned(),
    };
    format!(
        "of {}, last {}; {state}",
        shop.causes_words(call),
        when(call.last)
    )
}

/// The whole day's end on paper.
pub fn day_paper(end: &DayEnd, shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let today = day_of(now, shop.settings.zone);
    let mut out = vec![format!(
        "DAY'S END, {}: {}",
        show_date(end.day, today),
        day_state_words(end, shop, now)
    )];
    for call in &end.calls {
        let tick = if call.is_done() { "[x]" } else { "[ ]" };
        let line = format!(
            "{tick} {}: {}",
            call.chore.words(),
            call_words(call, shop, now)
        );
        let lines = wrap(&line, PAPER_WIDTH - 2, 4);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
        if !call.is_done() {
            let caution = call.chore.caution().words();
            let lines = wrap(&caution, PAPER_WIDTH - 6, 0);
            out.extend(lines.into_iter().map(|line| format!("      {line}")));
        }
    }
    if let Some(left) = shop.rags_left(end.day)
        && let Some(rags) = left.rags()
    {
        let words = format!(
            "{} is still open: oily rags of {} are not logged (--day {}).",
            show_date(left.day, today),
            shop.causes_words(rags),
            left.day
        );
        let lines = wrap(&words, PAPER_WIDTH - 2, 2);
        out.extend(lines.into_iter().map(|line| format!("  {line}")));
    }
    out
}
