//! The cans in plain files: out, in and out again the same bytes; what does not add up is refused
//! by file and line; files of shops from before there were cans are read.

use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use std::collections::BTreeMap;
use std::path::Path;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::{Books, Scope, Shop};
use tackfree::store::Store;
use tackfree::store::files::{CAN_NAMES, demo_files, export, import, load_demo};
use tempfile::TempDir;

const ZONE: Tz = chrono_tz::America::Denver;

fn now() -> DateTime<Utc> {
    "2026-06-10T15:00:00Z".parse().expect("a moment")
}

fn mint() -> Mint {
    Mint::new(uuid::Uuid::nil(), 11)
}

fn demo_store() -> Store {
    let mut store = Store::in_memory().expect("a store");
    load_demo(&mut store, now(), &mut mint(), ZONE, &LabelHours).expect("the demo");
    store
}

fn read(store: &Store) -> Shop {
    Shop::read(store, Scope::All, ZONE).expect("the shop")
}

/// The demo shop.
pub fn demo() -> Shop {
    read(&demo_store())
}

fn exported(store: &Store) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::remove_dir(folder.path()).expect("removed");
    export(store, folder.path(), ZONE).expect("an export");
    folder
}

fn all(folder: &Path) -> BTreeMap<String, String> {
    let files = std::fs::read_dir(folder).expect("the folder");
    files
        .map(|entry| {
            let entry = entry.expect("an entry");
            let name = entry.file_name().into_string().expect("a name");
            (name, std::fs::read_to_string(entry.path()).expect("text"))
        })
        .collect()
}

fn bring_in(folder: &Path) -> Result<Store, String> {
    let mut store = Store::in_memory().expect("a store");
    let done = import(&mut store, folder, now(), &mut mint(), ZONE, &LabelHours);
    match done {
        Ok(_) => Ok(store),
        Err(error) => {
            assert!(store.cans(Scope::All).expect("cans").cans.is_empty());
            Err(error.to_string())
        }
    }
}

/// The demo's own files, one passage of one of them replaced.
fn refusal(name: &str, from: &str, to: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    for (file, text) in demo_files() {
        let text = if file == name {
            assert!(text.contains(from), "{name} has no {from}");
            text.replacen(from, to, 1)
        } else {
            text.to_owned()
        };
        std::fs::write(folder.path().join(file), text).expect("written");
    }
    match bring_in(folder.path()) {
        Ok(_) => panic!("{name}: {to} was taken"),
        Err(words) => words,
    }
}

#[test]
fn the_shelf_goes_round() {
    let store = demo_store();
    let first = exported(&store);
    let second = bring_in(first.path()).expect("an import");
    assert_eq!(read(&store), read(&second));
    let (one, two) = (all(first.path()), all(exported(&second).path()));
    assert_eq!(one, two);
    for name in CAN_NAMES {
        assert!(one[name].lines().count() > 5, "{name}");
    }
}

#[test]
fn a_shop_without_cans_has_no_such_files_and_older_passes_are_read() {
    let folder = tempfile::tempdir().expect("a folder");
    for (file, text) in demo_files() {
        if CAN_NAMES.contains(&file) {
            continue;
        }
        let text = if file == "passes.csv" {
            // As files were before: without the columns of method and loss.
            let rows = text.lines().map(|line| {
                let cells: Vec<&str> = line.split(',').collect();
                cells[..cells.len() - 3].join(",")
            });
            rows.collect::<Vec<_>>().join("\n") + "\n"
        } else {
            text.to_owned()
        };
        std::fs::write(folder.path().join(file), text).expect("written");
    }
    let store = bring_in(folder.path()).expect("an import");
    let shop = read(&store);
    assert!(shop.cans.cans.is_empty());
    assert!(shop.passes.iter().all(|pass| pass.drawn.draws.is_empty()));
    let out = all(exported(&store).path());
    for name in CAN_NAMES {
        assert!(!out.contains_key(name), "{name}");
    }
}

/// File, what stands there, what is put in its place, and what is said of it.
const CASES: [(&str, &str, &str, &str); 20] = [
    (
        "cans.csv",
        "can-2,2,",
        "can-2,1,",
        "another can has that number",
    ),
    (
        "cans.csv",
        "603.176 mL",
        "603.177 mL",
        "is not what it held",
    ),
    (
        "cans.csv",
        "130 mL,K-2195",
        "2 pt,K-2195",
        "more than the can holds",
    ),
    ("cans.csv", "-48d", "+3d", "still to come"),
    ("cans.csv", "$24.00", "-$24.00", "nothing or more"),
    ("cans.csv", ",1,shellac", ",0,shellac", "numbered from 1"),
    ("cans.csv", "can-1,1,shellac", "can-1,1,no-such", "no-such"),
    (
        "can_log.csv",
        "-14d 09:55,opened",
        "-90d 09:55,opened",
        "before the can came",
    ),
    (
        "can_log.csv",
        "-14d 09:55,opened",
        "-14d 09:55,openned",
        "openned",
    ),
    (
        "can_log.csv",
        "130 mL,,,can-7",
        "131 mL,,,can-7",
        "is not what it held",
    ),
    (
        "can_log.csv",
        "473.176 mL,,,can-7",
        "473.176 mL,,,can-8",
        "was bought, not mixed",
    ),
    (
        "can_log.csv",
        ",,library,,,",
        ",,,,,",
        "for a client or for a job",
    ),
    (
        "can_log.csv",
        ",weighed,552 g,",
        ",weighed,,",
        "weight is empty",
    ),
    (
        "draws.csv",
        "stain-window,can-7,,,",
        "stain-window,can-3,,,",
        "another product",
    ),
    (
        "draws.csv",
        "stain-window,can-7,,,",
        "stain-window,can-7,20 mL,,",
        "is not what the pass used",
    ),
    (
        "draws.csv",
        "stain-window,can-7,,,",
        "stain-window,can-7,,600 g,610 g",
        "more after than before",
    ),
    (
        "draws.csv",
        "stain-window,can-7,,,",
        "stain-window,can-7,,,610 g",
        "both weights",
    ),
    (
        "draws.csv",
        "seal-service,can-1",
        "seal-shelves,can-1",
        "twice with this pass",
    ),
    (
        "passes.csv",
        ",9 g,",
        ",9 kg,",
        "more was lost than the pass used",
    ),
    ("passes.csv", ",brushed,", ",mopped,", "mopped"),
];

#[test]
fn what_does_not_add_up_is_refused() {
    for (file, from, to, words) in CASES {
        let said = refusal(file, from, to);
        assert!(said.contains(words), "{file}: {to}: {said}");
        // A mix that does not add up is told at the can.
        assert!(
            said.contains(file) || said.contains("cans.csv, line 8"),
            "{file}: {to}: {said}"
        );
        assert!(said.contains("line"), "{file}: {to}: {said}");
    }
}

#[test]
fn a_cell_that_looks_like_a_formula_is_guarded_and_comes_back() {
    let folder = tempfile::tempdir().expect("a folder");
    for (file, text) in demo_files() {
        let text = text.replace("S-0412", "'=HYPERLINK(1)");
        std::fs::write(folder.path().join(file), text).expect("written");
    }
    let store = bring_in(folder.path()).expect("an import");
    let shop = read(&store);
    assert!(
        shop.cans
            .cans
            .iter()
            .any(|state| state.can.batch == "=HYPERLINK(1)")
    );
    let out = all(exported(&store).path());
    assert!(out["cans.csv"].contains(",'=HYPERLINK(1),"));
}

#[test]
fn a_part_of_the_shop_knows_what_its_passes_cost() {
    let store = demo_store();
    let whole = read(&store);
    for job in &whole.jobs {
        let part = Shop::read(&store, Scope::Job(job.id), ZONE).expect("the shop");
        for pass in &part.passes {
            let (all, some) = (
                whole.cans.passes.get(&pass.id),
                part.cans.passes.get(&pass.id),
            );
            assert_eq!(some, all, "job {}", job.no);
            for draw in &pass.drawn.draws {
                assert_eq!(part.cans.can(draw.can), whole.cans.can(draw.can));
            }
        }
    }
    // Cans that were thrown away are left out where nothing asks for them.
    let open = Shop::read(&store, Scope::OpenSince(now()), ZONE).expect("the shop");
    assert!(open.cans.cans.len() < whole.cans.cans.len());
}
