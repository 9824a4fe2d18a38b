//! What is wet, drying or ready, with everything the drying clock knows.

use super::rack_json::{FilmJson, RackJson, RowJson};
use super::{PieceJson, moment};
use crate::cli::answer::Answer;
use crate::cli::failure::Failure;
use crate::cli::session::Session;
use crate::coating::beyond_sight;
use crate::desk::Shop;
use crate::papers::PAPER_WIDTH;
use crate::papers::layout::wrap;
use crate::shop::{DryStage, Film, RackLine, RackState, rack_lines};
use crate::units::{show_moment, show_span};
use chrono::{DateTime, Utc};
use clap::Args;

/// Examples and fields.
pub const MORE: &str = "Examples:\n  tackfree rack\n  tackfree rack --line\n\nReady first, then missed windows, then what happens soonest; for each coat its stage, the safe and\nthe likely time of each stage to come, its window, its label-hours so far and why it is slow. The\nlikely time is when a touch test is worth making; the gates hold to the safe one, or to the test.\n--line prints one line, for a status bar.\n\nWith --json: now, basis, line, rows [ticket, id, piece, job_no, job, client, state, coat_kind,\ncoat_no, tack_free_at, recoat_at, window_shuts_at, full_cure_at, waits_for, until, film]; times RFC\n3339 or null. film (null for a wipe-down) [product, laid_at, stage, stages [stage, safe_at,\nlikely_at, in_sight, reached], window {state (wait, open, lifts or missed), shuts_at, scuff, words},\nabrade_with, label_hours, label_hours_asked, film_factor, speed (of the label's), slow,\ncostliest [from, until, label_hours_lost] (or null), air_basis,\ntemperature_c, humidity_percent, learned_factor, learned_tests, tested, tested_at, test_again_at].";

/// What was typed.
#[derive(Debug, Args)]
pub struct RackArgs {
    /// One line for a status bar: how many are ready, what is next and when.
    #[arg(long)]
    pub line: bool,
}

/// Reads it.
pub fn run(args: &RackArgs, session: &mut Session<'_>) -> Result<Answer, Failure> {
    let shop = session.shop()?;
    let now = session.now;
    let clock = shop.clock();
    let rows = rack_lines(&shop.files, &shop.gates(&clock), &clock, now);
    let basis = clock.basis();
    let line = one_line(&rows, &shop, now);
    let mut lines = vec![format!("RACK, by {basis}")];
    if rows.is_empty() {
        lines.push("  Nothing is drying.".to_owned());
    }
    let mut json = Vec::new();
    for row in &rows {
        let Some(file) = shop.file(row.row.piece) else {
            continue;
        };
        lines.extend(block(row, &shop, now));
        let zone = shop.settings.zone;
        json.push(RowJson {
            piece: PieceJson::of(&shop, file),
            state: row.row.state.words(),
            coat_kind: row.row.coat.map(|(kind, _)| kind.word()),
            coat_no: row.row.coat.map(|(_, no)| no),
            tack_free_at: row.row.tack_free.map(moment),
            recoat_at: row.row.recoat.map(moment),
            window_shuts_at: row.row.shuts.map(moment),
            full_cure_at: row.row.full_cure.map(moment),
            waits_for: row.row.waiting.words(now, zone),
            until: row.row.waiting.until().map(moment),
            film: row.film.as_ref().map(|film| FilmJson::of(film, &shop, now)),
        });
    }
    if args.line {
        lines = vec![line.clone()];
    }
    let json = RackJson {
        now: moment(now),
        basis,
        line,
        rows: json,
    };
    Answer::new(lines, json)
}

/// `2B bar top, coat 2: ready now`, then what is known of it, wrapped.
fn block(line: &RackLine, shop: &Shop, now: DateTime<Utc>) -> Vec<String> {
    let (row, zone) = (&line.row, shop.settings.zone);
    let called = shop
        .file(row.piece)
        .map_or_else(String::new, |file| shop.called(file));
    let head = format!("{called}, {}: {}", line.coat_words(), row.state.words());
    let mut parts = Vec::new();
    match &line.film {
        Some(film) => film_parts(&mut parts, film, line, shop, now),
        None => parts.extend(
            row.recoat
                .map(|ready| format!("flashes off {}", show_moment(ready, now, zone))),
        ),
    }
    // A coat that waits for the moment already told needs no second telling.
    if row.waiting.until().is_none() || row.waiting.until() != row.recoat {
        parts.push(format!("next: {}", row.waiting.words(now, zone)));
    }
    let mut lines: Vec<String> = wrap(&head, PAPER_WIDTH - 2, 2)
        .into_iter()
        .map(|text| format!("  {text}"))
        .collect();
    for part in parts.iter().filter(|part| !part.is_empty()) {
        let texts = wrap(part, PAPER_WIDTH - 6, 2).into_iter();
        lines.extend(texts.map(|text| format!("      {text}")));
    }
    lines
}

fn film_parts(
    parts: &mut Vec<String>,
    film: &Film,
    line: &RackLine,
    shop: &Shop,
    now: DateTime<Utc>,
) {
    let (settings, zone) = (&shop.settings, shop.settings.zone);
    parts.push(format!("{}; {}", film.stage_words(), film.hours_words()));
    parts.extend(film.touch_words(now, zone));
    // A window that is open or missed counts from its opening; else what comes next is told.
    let opened = film
        .milestone(DryStage::Recoat)
        .filter(|milestone| milestone.times.safe <= now);
    let ahead = film
        .to_come(now)
        .map(|milestone| milestone.words(now, zone));
    let stages: Vec<String> = opened
        .map(|milestone| milestone.words(now, zone))
        .into_iter()
        .chain(ahead)
        .collect();
    parts.push(stages.join("; "));
    if line.row.state != RackState::Curing {
        parts.push(film.window_words(now, zone));
    }
    parts.push(film.slow_words(now, zone, settings.temperature));
    if film.learned.tests > 0 {
        parts.push(format!("dries here at {}", film.learned.words()));
    }
}

/// `2 ready (2B bar top, 2C bar shelf), 1 missed, next 1C window counter dry to recoat in 1 h 20
/// min`: one line for a status bar, no longer than it must be.
fn one_line(rows: &[RackLine], shop: &Shop, now: DateTime<Utc>) -> String {
    let no = |line: &RackLine| {
        shop.file(line.row.piece)
            .map_or_else(String::new, |file| shop.ticket_no(file))
    };
    let in_state = |state: RackState| -> Vec<String> {
        let these = rows.iter().filter(|line| line.row.state == state);
        these.map(&no).collect()
    };
    let mut parts = Vec::new();
    for (state, word) in [
        (RackState::Ready, "ready"),
        (RackState::Missed, "window missed"),
        (RackState::Held, "held"),
    ] {
        let found = in_state(state);
        if !found.is_empty() {
            parts.push(format!("{word} {}", found.join(" ")));
        }
    }
    let next = rows
        .iter()
        .filter_map(|line| Some((line.row.waiting.until()?, line)))
        .filter(|(at, _)| *at > now && !beyond_sight(*at, now))
        .min_by_key(|(at, _)| *at);
    if let Some((at, line)) = next {
        let what = if line.film.is_none() {
            "flashed off"
        } else if Some(at) == line.row.recoat {
            "dry to recoat"
        } else {
            "due"
        };
        parts.push(format!("{} {what} in {}", no(line), show_span(at - now)));
    }
    if parts.is_empty() {
        return if rows.is_empty() {
            "nothing drying".to_owned()
        } else {
            "nothing due".to_owned()
        };
    }
    parts.join(", ")
}
