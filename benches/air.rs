//! How long the Rack takes over a store that has logged its air for twenty years, and what a
//! logger's file costs in time and in the journal.
//!
//! `cargo bench --bench air`: prints a table; nothing here passes or fails. With `-- small` a
//! twentieth of it, to see that it runs.

use chrono::{DateTime, Duration, TimeZone, Utc};
use chrono_tz::America::New_York;
use rusqlite::Connection;
use std::error::Error;
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;
use tackfree::coating::id::Mint;
use tackfree::coating::{AirReading, LabelHours, LoggerReport, ShopAir};
use tackfree::desk::{Action, AirImport, Desk, Scope, Shop};
use tackfree::shop::rack_lines;
use tackfree::store::Store;
use tackfree::store::files::load_demo;
use tackfree::units::{Humidity, Temperature};

fn readings(from: DateTime<Utc>, count: i64) -> Vec<AirReading> {
    (0..count)
        .filter_map(|row| {
            let hour = row as f64 / 6.0;
            let c = 17.0 + 6.0 * (hour * std::f64::consts::TAU / 24.0).sin();
            let percent = 55.0 + 25.0 * (hour * 0.0154).sin();
            Some(AirReading {
                at: from + Duration::minutes(row * 10),
                air: ShopAir {
                    temperature: Temperature::from_c(c),
                    humidity: Humidity::from_percent(percent)?,
                },
            })
        })
        .collect()
}

fn line(what: &str, start: Instant) {
    let millis = start.elapsed().as_secs_f64() * 1e3;
    println!("  {what:<52}{millis:>12.2} ms");
}

fn size(path: &Path) -> f64 {
    std::fs::metadata(path).map_or(0.0, |about| about.len() as f64 / 1e6)
}

fn bring(
    store: &mut Store,
    mint: &mut Mint,
    now: DateTime<Utc>,
    readings: Vec<AirReading>,
) -> Result<(), Box<dyn Error>> {
    let report = LoggerReport {
        readings,
        ..LoggerReport::default()
    };
    let file = "logger.csv".to_owned();
    act(
        store,
        mint,
        now,
        &Action::ImportAir(AirImport { file, report }),
    )
}

/// Puts readings in beside the journal.
fn long_past(path: &Path, readings: &[AirReading]) -> Result<(), Box<dyn Error>> {
    let mut conn = Connection::open(path)?;
    let work = conn.transaction()?;
    let triggers: Vec<(String, String)> = {
        let sql = "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'air'";
        let mut found = work.prepare(sql)?;
        let rows = found.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
        rows.collect::<Result<_, _>>()?
    };
    for (name, _) in &triggers {
        work.execute_batch(&format!("DROP TRIGGER \"{name}\""))?;
    }
    {
        let mut put = work.prepare("INSERT INTO air VALUES (?1, ?2, ?3, 'logger')")?;
        for reading in readings {
            put.execute((
                reading.at.timestamp(),
                reading.air.temperature.milli_c(),
                reading.air.humidity.tenths(),
            ))?;
        }
    }
    for (_, sql) in &triggers {
        work.execute_batch(sql)?;
    }
    Ok(work.commit()?)
}

fn act(
    store: &mut Store,
    mint: &mut Mint,
    now: DateTime<Utc>,
    action: &Action,
) -> Result<(), Box<dyn Error>> {
    let mut desk = Desk {
        books: store,
        now,
        mint,
        zone: New_York,
    };
    desk.perform(action)?;
    Ok(())
}

fn main() -> Result<(), Box<dyn Error>> {
    let part = if std::env::args().any(|word| word == "small") {
        20
    } else {
        1
    };
    let now = Utc
        .with_ymd_and_hms(2026, 11, 25, 19, 0, 0)
        .single()
        .ok_or("no such moment")?;
    let count = 1_051_920 / part;
    let all = readings(now - Duration::minutes(count * 10), count);
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("long.tackfree");
    let mut store = Store::open(&path)?;
    let mut mint = Mint::new(uuid::Uuid::nil(), 7);
    load_demo(&mut store, now, &mut mint, New_York, &LabelHours)?;
    println!("{} readings, every 10 minutes", all.len());

    // The long past is put in beside the journal: nobody logs twenty years in one action.
    let hundred = usize::try_from(100_000 / part)?;
    let (older, newest) = all.split_at(all.len() - hundred);
    drop(store);
    long_past(&path, older)?;

    let mut store = Store::open(&path)?;
    let before = size(&path);
    let start = Instant::now();
    bring(&mut store, &mut mint, now, newest.to_vec())?;
    line(&format!("bring in {hundred} readings, journalled"), start);
    drop(store);
    println!(
        "  {:<52}{:>12.2} MB",
        "the store grew by",
        size(&path) - before
    );
    let mut store = Store::open(&path)?;
    for (what, action) in [("undo it", Action::Undo), ("do it again", Action::Redo)] {
        let start = Instant::now();
        act(&mut store, &mut mint, now, &action)?;
        line(what, start);
    }

    let start = Instant::now();
    let times = 20;
    for _ in 0..times {
        let shop = Shop::read(&store, Scope::All, New_York)?;
        black_box(shop.air.len());
    }
    line(&format!("read the shop, {times} times"), start);
    let shop = Shop::read(&store, Scope::All, New_York)?;
    println!(
        "  {:<52}{:>12} rows",
        "of the log were read",
        shop.air.len()
    );
    let start = Instant::now();
    let clock = shop.clock();
    let lines = rack_lines(&shop.files, &shop.gates(&clock), &clock, now);
    line(
        &format!("the Rack, {} lines, first time", lines.len()),
        start,
    );
    let start = Instant::now();
    for _ in 0..times {
        let lines = rack_lines(&shop.files, &shop.gates(&clock), &clock, now);
        black_box(lines.len());
    }
    line(&format!("the Rack, {times} times more"), start);
    let at = now;
    let start = Instant::now();
    let (air, sure) = (all[0].air, true);
    act(
        &mut store,
        &mut mint,
        now,
        &Action::LogAir { at, air, sure },
    )?;
    line("log one reading", start);
    Ok(())
}
