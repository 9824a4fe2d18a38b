//! The store: where it lies, what it may be, what goes out and in.

use crate::bench::Bench;
use std::fs;
use std::path::Path;

const NOW: &str = "2026-11-25 14:00";

#[test]
fn the_path_is_the_option_then_the_environment_then_the_data_folder() {
    let bench = Bench::new();
    let place = |path: &Path| path.display().to_string();
    let by_environment = bench.json(NOW, &["where"]);
    assert_eq!(by_environment["store"], place(&bench.path("shop.tackfree")));
    assert_eq!(
        (
            by_environment["recipes"].as_u64(),
            by_environment["products"].as_u64()
        ),
        (Some(4), Some(7))
    );
    let other = bench.path("deep/er/other.tackfree");
    let by_option = bench.json(NOW, &["where", "--store", &place(&other)]);
    assert_eq!(by_option["store"], place(&other));
    assert!(other.exists());
    let output = bench
        .command(NOW, &["where", "--json"])
        .env_remove("TACKFREE_STORE")
        .output()
        .expect("the binary runs");
    let text = String::from_utf8(output.stdout).expect("text");
    // Where data lies differs from system to system; that it is under the home given does not.
    let home = bench.path("");
    assert!(
        text.contains(place(&home).trim_end_matches('/')) && text.contains("tackfree"),
        "{text}"
    );
}

#[cfg(unix)]
#[test]
fn folders_and_store_are_for_their_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    let store = bench.path("new/shop.tackfree");
    bench.ok(NOW, &["--store", &store.display().to_string(), "where"]);
    let mode = |path: &Path| fs::metadata(path).expect("there").permissions().mode() & 0o777;
    assert_eq!(mode(&bench.path("new")), 0o700);
    assert_eq!(mode(&store), 0o600);
    // A file made beforehand, by touch or by mktemp, becomes a store as well.
    let empty = bench.path("empty.tackfree");
    fs::write(&empty, "").expect("written");
    fs::set_permissions(&empty, fs::Permissions::from_mode(0o644)).expect("set");
    bench.ok(NOW, &["--store", &empty.display().to_string(), "where"]);
    assert_eq!(mode(&empty), 0o600);
}

#[test]
fn a_file_that_is_something_else_is_left_alone() {
    let bench = Bench::new();
    let path = bench.path("shop.tackfree");
    fs::write(
        &path,
        "a letter, and quite a long one, to nobody at all. ".repeat(40),
    )
    .expect("written");
    let ended = bench.run(NOW, &["ready"]);
    assert_eq!((ended.code, ended.out.as_str()), (1, ""));
    assert!(
        ended.err.contains("is not a tackfree store"),
        "{}",
        ended.err
    );
    assert_eq!(ended.err.lines().count(), 1);
    assert!(
        fs::read_to_string(&path)
            .expect("still text")
            .starts_with("a letter")
    );
}

#[test]
fn a_store_of_a_newer_version_is_refused_with_words() {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow"]);
    let conn = rusqlite::Connection::open(bench.path("shop.tackfree")).expect("opens");
    conn.pragma_update(None, "user_version", 9000)
        .expect("marked");
    drop(conn);
    let ended = bench.run(NOW, &["clients"]);
    assert_eq!((ended.code, ended.out.as_str()), (1, ""));
    assert!(
        ended.err.contains("written by a newer tackfree"),
        "{}",
        ended.err
    );
    assert!(ended.err.contains("9000"), "{}", ended.err);
}

#[test]
fn a_read_only_store_is_read_but_not_written() {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow"]);
    let path = bench.path("shop.tackfree");
    let mut permissions = fs::metadata(&path).expect("there").permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&path, permissions).expect("set");
    assert!(bench.ok(NOW, &["clients"]).contains("Nell Harrow"));
    let ended = bench.run(NOW, &["client", "Ida Sollen"]);
    assert_eq!((ended.code, ended.out.as_str()), (1, ""));
    assert!(ended.err.contains("read-only"), "{}", ended.err);
}

#[test]
fn the_whole_shop_goes_out_and_comes_back_the_same() {
    let bench = Bench::new();
    let (first, second) = (bench.path("first"), bench.path("second"));
    let text = |path: &Path| path.display().to_string();
    let out = bench.json(NOW, &["--demo", "export", &text(&first)]);
    assert_eq!(out["pieces"].as_u64(), Some(18), "{out}");
    let back = bench.json(NOW, &["import", &text(&first)]);
    assert_eq!(
        (back["pieces"].as_u64(), back["passes"].as_u64()),
        (Some(18), out["passes"].as_u64())
    );
    bench.ok(NOW, &["export", &text(&second)]);
    for file in fs::read_dir(&first).expect("the folder") {
        let name = file.expect("a file").file_name();
        let read = |folder: &Path| fs::read(folder.join(&name)).expect("read");
        assert_eq!(read(&first), read(&second), "{}", name.to_string_lossy());
    }
    let taken = bench.run(NOW, &["export", &text(&first)]);
    assert_eq!(taken.code, 1);
    assert!(
        taken.err.contains("nothing is overwritten"),
        "{}",
        taken.err
    );
    let full = bench.run(NOW, &["import", &text(&first)]);
    assert_eq!(full.code, 1);
    assert!(full.err.contains("has clients already"), "{}", full.err);
    let missing = bench.run(
        NOW,
        &[
            "--store",
            &text(&bench.path("new")),
            "import",
            &text(&bench.path("no")),
        ],
    );
    assert_eq!(
        (missing.code, missing.out.as_str()),
        (1, ""),
        "{}",
        missing.err
    );
}

#[test]
fn no_file_gets_a_piece_past_the_gates() {
    let bench = Bench::new();
    let folder = bench.path("shop");
    let text = folder.display().to_string();
    bench.ok(NOW, &["--demo", "export", &text]);
    // Every tick of 120 grit is struck from the log.
    let log = fs::read_to_string(folder.join("log.csv")).expect("the log");
    let (kept, struck): (Vec<&str>, Vec<&str>) = log
        .lines()
        .partition(|line| !(line.contains("tick") && line.contains(",120,")));
    assert!(struck.len() > 10, "{log}");
    fs::write(folder.join("log.csv"), kept.join("\n") + "\n").expect("written");
    let ended = bench.refused(NOW, &["import", &text]);
    assert!(ended.err.contains("120 grit not done"), "{}", ended.err);
    assert_eq!(
        bench.json(NOW, &["clients"])["clients"]
            .as_array()
            .map(Vec::len),
        Some(0)
    );
}

#[test]
fn a_shop_that_many_open_first_at_once_is_opened_once() {
    let bench = Bench::new();
    let names = ["Nell", "Ida", "Tomas", "Wren", "Aud", "Bo"];
    let started: Vec<_> = names
        .iter()
        .map(|name| {
            let mut command = bench.command(NOW, &["client", name]);
            command
                .stdout(std::process::Stdio::piped())
                .stderr(std::process::Stdio::piped());
            command.spawn().expect("the binary starts")
        })
        .collect();
    for child in started {
        let ended = child.wait_with_output().expect("it ends");
        assert!(ended.status.success(), "{ended:?}");
    }
    let there = bench.json(NOW, &["where"]);
    let count = |what: &str| there[what].as_u64();
    assert_eq!(
        (count("clients"), count("recipes"), count("products")),
        (Some(6), Some(4), Some(7))
    );
    // Each of the six can be undone, the beginning cannot.
    for _ in names {
        bench.ok(NOW, &["undo"]);
    }
    let ended = bench.run(NOW, &["undo"]);
    assert_eq!(ended.code, 1, "{ended:?}");
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_written_says_that_it_was_done() {
    let bench = Bench::new();
    let into_full = |args: &[&str]| {
        let full = fs::File::create("/dev/full").expect("the full device");
        let ended = bench.command(NOW, args).stdout(full).output();
        let ended = ended.expect("the binary runs");
        let said = String::from_utf8(ended.stderr).expect("text");
        assert_eq!(said.lines().count(), 1, "{said}");
        (ended.status.code(), said)
    };
    let (code, said) = into_full(&["client", "Nell Harrow"]);
    assert_eq!(code, Some(4));
    let begins = "It was done, but its answer could not be written: ";
    assert!(said.starts_with(begins), "{said}");
    assert!(bench.ok(NOW, &["clients"]).contains("Nell Harrow"));
    let (code, said) = into_full(&["clients"]);
    assert_eq!(code, Some(4));
    assert!(
        said.starts_with("The answer could not be written: "),
        "{said}"
    );
}

#[test]
fn a_variable_that_is_empty_counts_as_not_there() {
    let bench = Bench::new();
    let ended = bench.command("", &["where"]).output().expect("it runs");
    assert!(ended.status.success(), "{ended:?}");
}
