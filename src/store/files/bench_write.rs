//! Writes `bench.toml`; its reading is beside it.

use super::bench::order;
use super::times;
use super::tomls::quoted;
use crate::desk::typed::write_hours;
use crate::shop::{BenchBook, PlanBook, Range, Slot, SlotMeans, StepKey, WEEK};
use std::fmt::Write as _;

/// Writes it; none where nothing differs from the start.
pub(super) fn write(book: &PlanBook) -> Option<String> {
    if *book == PlanBook::default() {
        return None;
    }
    let mut out = String::new();
    let bench = &book.bench;
    let start = BenchBook {
        times: bench.times.clone(),
        ..BenchBook::default()
    };
    if *bench != start {
        let hours = WEEK.map(|day| quoted(&write_hours(bench.week.day(day))));
        let Range { low, likely, high } = bench.interruptions.minutes;
        let mut rows = vec![("hours", format!("[{}]", hours.join(", ")))];
        rows.extend(bench.rack.map(|rack| ("rack", rack.to_string())));
        rows.extend([
            ("settle", bench.settle.to_string()),
            ("settle_scuff", bench.settle_scuff.to_string()),
            ("keep", bench.keep.to_string()),
            ("interruptions", bench.interruptions.in_ten_days.to_string()),
            ("interruption", format!("[{low}, {likely}, {high}]")),
            ("seed", bench.seed.to_string()),
        ]);
        put(&mut out, "[bench]", &rows);
    }
    let three = |Range { low, likely, high }: Range| format!("[{low}, {likely}, {high}]");
    for (step, time) in bench.times.own() {
        let rows = [
            ("step", quoted(step.code())),
            ("fixed", three(time.fixed)),
            ("rate", three(time.rate)),
        ];
        put(&mut out, "[[time]]", &rows);
    }
    let mut slots: Vec<&Slot> = book.slots.iter().collect();
    slots.sort_by_key(|slot| order(slot));
    for slot in slots {
        let (means, span) = match slot.means {
            SlotMeans::DayOff => ("day-off", None),
            SlotMeans::Taken(span) => ("taken", Some(span)),
            SlotMeans::Added(span) => ("added", Some(span)),
        };
        let mut rows = vec![
            ("id", quoted(&slot.id.to_string())),
            ("day", quoted(&times::date(slot.day))),
            ("means", quoted(means)),
        ];
        rows.extend(span.map(|span| ("hours", quoted(&span.typed()))));
        rows.push(("what", quoted(&slot.what)));
        put(&mut out, "[[slot]]", &rows);
    }
    let step = |key: StepKey| {
        [
            ("piece", quoted(&key.piece.to_string())),
            ("step", quoted(&key.step.to_string())),
        ]
    };
    if let Some(under) = &book.under_way {
        let mut rows = step(under.key).to_vec();
        rows.push(("since", quoted(&times::moment(under.since))));
        put(&mut out, "[under_way]", &rows);
    }
    if let Some(kept) = &book.kept {
        let rows = [
            ("day", quoted(&times::date(kept.day))),
            ("at", quoted(&times::moment(kept.at))),
        ];
        put(&mut out, "[kept]", &rows);
        for line in &kept.lines {
            let mut rows = step(line.key).to_vec();
            rows.push(("start", quoted(&times::moment(line.start))));
            rows.push(("end", quoted(&times::moment(line.end))));
            put(&mut out, "[[kept_line]]", &rows);
        }
        for job in &kept.jobs {
            let rows = [
                ("job", quoted(&job.job.to_string())),
                ("end", quoted(&times::moment(job.end))),
            ];
            put(&mut out, "[[kept_job]]", &rows);
        }
    }
    for promise in &book.promises {
        let rows = [
            ("id", quoted(&promise.id.to_string())),
            ("job", quoted(&promise.job.to_string())),
            ("at", quoted(&times::moment(promise.at))),
            ("date", quoted(&times::date(promise.date))),
            ("odds", promise.odds.to_string()),
            ("even", quoted(&times::date(promise.even))),
            ("nine", quoted(&times::date(promise.nine))),
            ("open_pieces", promise.open_pieces.to_string()),
            ("basis", quoted(&promise.basis)),
        ];
        put(&mut out, "[[promise]]", &rows);
    }
    Some(out)
}

fn put(out: &mut String, head: &str, rows: &[(&str, String)]) {
    let gap = if out.is_empty() { "" } else { "\n" };
    // Writing to a String cannot fail.
    let _ = writeln!(out, "{gap}{head}");
    for (name, value) in rows {
        let _ = writeln!(out, "{name} = {value}");
    }
}
