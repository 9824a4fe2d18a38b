//! The air goes out and in with the rest of the shop.

use crate::shop::{Trial, ZONE, air, utc};
use chrono::Duration;
use std::fs;
use std::path::Path;
use tackfree::coating::id::Mint;
use tackfree::coating::{Assumed, Care, ForecastStep, LabelHours};
use tackfree::desk::{Action, AirImport, AirSource, AirSpan, Books, DryingRules};
use tackfree::shop::TouchVerdict;
use tackfree::store::Store;
use tackfree::store::files::{AIR_NAMES, export, import};

const NOW: &str = "2026-11-25T20:00:00Z";

fn out(store: &Store) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    export(store, &folder.path().join("shop"), ZONE).expect("an export");
    folder
}

fn brought_in(folder: &Path) -> Result<Store, String> {
    let mut store = Store::in_memory().expect("a store");
    let mut mint = Mint::new(uuid::Uuid::nil(), 9);
    let now = utc(NOW) + Duration::days(1);
    match import(&mut store, folder, now, &mut mint, ZONE, &LabelHours) {
        Ok(_) => Ok(store),
        Err(error) => Err(error.to_string()),
    }
}

fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut all: Vec<_> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| {
            let path = entry.expect("an entry").path();
            let name = path
                .file_name()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            (name, fs::read(&path).expect("a file"))
        })
        .collect();
    all.sort();
    all
}

fn busy() -> Trial {
    let mut trial = Trial::at(NOW);
    trial.log_at(trial.now - Duration::hours(5), 17.123, 61.4);
    let sure = true;
    let at = trial.now - Duration::hours(4);
    trial.done(&Action::LogAir {
        at,
        air: air(-7.5, 80.0),
        sure,
    });
    let readings = (0..50)
        .map(|step| tackfree::coating::AirReading {
            at: trial.now - Duration::hours(3) + Duration::minutes(step),
            air: air(18.0 + step as f64 / 7.0, 50.0),
        })
        .collect();
    let report = tackfree::coating::LoggerReport {
        readings,
        ..tackfree::coating::LoggerReport::default()
    };
    let file = "log.csv".to_owned();
    trial.done(&Action::ImportAir(AirImport { file, report }));
    trial.done(&Action::Foretell(ForecastStep {
        from: trial.now,
        until: trial.now + Duration::hours(9),
        air: air(12.0, 70.0),
    }));
    let mut rules = DryingRules {
        assumed: Assumed::Air(air(16.0, 55.0)),
        ..DryingRules::default()
    };
    rules.law.safe = Care::Strict;
    rules.law.cap = 1200;
    rules.law.oil_humidity = false;
    trial.done(&Action::SetDrying(rules));
    let shelf = trial.shelf();
    trial.coat(shelf).expect("a coat");
    trial.now += Duration::hours(2);
    trial.test(shelf, TouchVerdict::StillSoft);
    let varnish = trial.varnish().id;
    trial.done(&Action::LearnAfresh(varnish));
    trial.now += Duration::hours(20);
    trial.test(shelf, TouchVerdict::DryToRecoat);
    trial
}

#[test]
fn the_air_goes_round_byte_for_byte() {
    let trial = busy();
    let first = out(&trial.store);
    let folder = first.path().join("shop");
    for name in AIR_NAMES {
        assert!(folder.join(name).exists(), "{name}");
    }
    let text = fs::read_to_string(folder.join("air.csv")).expect("air");
    assert!(
        text.starts_with("at,until,temperature,humidity,source\n"),
        "{text}"
    );
    assert!(
        text.contains("2026-11-25T15:00:00.000Z,,17.123 C,61.4 %,typed"),
        "{text}"
    );
    assert!(text.contains(",'-7.5 C,80 %,typed"), "{text}");
    let second = brought_in(&folder).expect("an import");
    assert_eq!(
        contents(&folder),
        contents(&out(&second).path().join("shop"))
    );
    let (mine, theirs) = (
        trial.shop(),
        tackfree::desk::Shop::read(&second, tackfree::desk::Scope::All, ZONE).expect("the shop"),
    );
    assert_eq!(mine.air, theirs.air);
    assert_eq!(mine.tuning, theirs.tuning);
    assert_eq!(mine.drying, theirs.drying);
    assert_eq!(mine.forecast, theirs.forecast);
    assert_eq!(mine.clock().tuning(trial.varnish().id).safe.tests, 1);
    let loggers = second
        .air(AirSpan {
            from: utc("2026-01-01T00:00:00Z"),
            to: None,
        })
        .expect("the log")
        .into_iter()
        .filter(|row| row.source == AirSource::Logger);
    assert_eq!(loggers.count(), 50);
}

#[test]
fn a_shop_without_air_writes_no_file_of_it() {
    let trial = Trial::at(NOW);
    let first = out(&trial.store);
    for name in AIR_NAMES {
        assert!(!first.path().join("shop").join(name).exists(), "{name}");
    }
    brought_in(&first.path().join("shop")).expect("an import");
}

#[test]
fn wrong_rows_are_refused_with_their_line() {
    let trial = busy();
    let head = "at,until,temperature,humidity,source\n";
    for (text, wants) in [
        (
            "2026-11-25T15:00:00Z,,20 K,50 %,typed\n",
            "air.csv, line 2: temperature",
        ),
        (
            "2026-11-25T15:00:00Z,,20 C,50,typed\n",
            "air.csv, line 2: humidity",
        ),
        (
            "2026-11-25T15:00:00Z,,20 C,50 %,guess\n",
            "air.csv, line 2: source",
        ),
        ("2027-11-25T15:00:00Z,,20 C,50 %,typed\n", "still to come"),
        (
            "2026-11-25T15:00:00Z,,20 C,50 %,forecast\n",
            "air.csv, line 2: until",
        ),
        (
            "2026-11-25T15:00:00Z,,20 C,50 %,typed\n2026-11-25T15:00:00.400Z,,21 C,50 %,typed\n",
            "air.csv, line 3: at: another reading has the same second",
        ),
        (
            "2026-11-25T15:00:00Z,2026-11-25T14:00:00Z,20 C,50 %,forecast\n",
            "must end after it starts",
        ),
    ] {
        let folder = out(&trial.store);
        let shop = folder.path().join("shop");
        fs::write(shop.join("air.csv"), format!("{head}{text}")).expect("written");
        let said = brought_in(&shop).expect_err(text);
        assert!(said.contains(wants), "{text}: {said}");
    }
    for (was, is, wants) in [
        ("\"strict\"", "\"brave\"", "drying.toml, line 1: care"),
        ("1200", "900", "drying.toml, line 2: cap_thousandths"),
        ("since = \"2026", "since = \"soon", "since"),
        ("assumed_humidity = \"55 %\"\n", "", "both or none"),
    ] {
        let folder = out(&trial.store);
        let shop = folder.path().join("shop");
        let text = fs::read_to_string(shop.join("drying.toml")).expect("rules");
        assert!(text.contains(was), "{text}");
        fs::write(shop.join("drying.toml"), text.replace(was, is)).expect("written");
        let said = brought_in(&shop).expect_err(was);
        assert!(said.contains(wants), "{was}: {said}");
    }
}
