//! Bad input: each with its sentence and its exit code, nothing lost, nothing half done.

use crate::bench::Bench;

const NOW: &str = "2026-11-25 14:00";

fn piece<'a>(more: &[&'a str]) -> Vec<&'a str> {
    let mut args = vec!["piece", "1", "trial", "--species", "oak"];
    args.extend(more);
    args
}

#[test]
fn each_bad_size_has_its_sentence() {
    let bench = Bench::with_top(NOW);
    for (more, says) in [
        (vec!["--size", "25 1/0 x 10"], "--size: "),
        (vec!["--size", "-4 x 10"], "--size: "),
        (vec!["--size", "98 3/8 ft lb x 10"], "--size: "),
        (vec!["--size", "300 ft x 25"], "--size: "),
        (vec!["--size", "25"], "one length alone"),
        (vec!["--size", "98 x 25", "--thickness", "0"], "thickness"),
        (
            vec!["--size", "98 x 25", "--cutout", "30 x 26 at 49, 12"],
            "--cutout: ",
        ),
        (
            vec!["--size", "98 x 25", "--cutout", "30 x 16 at 5, 12"],
            "--cutout: ",
        ),
        (
            vec![
                "--size",
                "98 x 25",
                "--cutout",
                "30 x 16 at 40, 12",
                "--cutout",
                "30 x 16 at 50, 12",
            ],
            "--cutout: ",
        ),
        (
            vec!["--size", "98 x 25", "--recipe", "no such thing"],
            "There is no recipe called",
        ),
        (
            vec!["--size", "98 x 25", "--kind", "throne"],
            "is not among them",
        ),
    ] {
        let ended = bench.run(NOW, &piece(&more));
        assert_eq!(
            (ended.code, ended.out.as_str()),
            (1, ""),
            "{more:?}: {ended:?}"
        );
        assert!(ended.err.contains(says), "{more:?}: {}", ended.err);
        assert_eq!(ended.err.lines().count(), 1, "{more:?}: {}", ended.err);
    }
    let two = bench.run(NOW, &piece(&["--size", "25 1/0 x 9", "--kind", "throne"]));
    assert_eq!(two.err.lines().count(), 2, "every field tells: {}", two.err);
    assert_eq!(bench.json(NOW, &["where"])["pieces"], 1);
}

#[test]
fn promises_years_and_names_are_checked() {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow"]);
    for (args, says) in [
        (
            vec!["job", "Nell Harrow", "bar", "--promised", "2026-11-01"],
            "cannot lie in the past",
        ),
        (
            vec!["job", "Nell Harrow", "bar", "--promised", "soonish"],
            "does not read as a date",
        ),
        (
            vec!["job", "Nell Harrow", "bar", "--built", "long ago"],
            "is no year",
        ),
        (
            vec!["job", "Nobody Known", "bar"],
            "There is no client \"Nobody Known\"",
        ),
        (vec!["job", "Nell Harrow", "  "], "title is empty"),
        (vec!["client", ""], "name is empty"),
        (vec!["ticket", "9Z"], "There is no piece \"9Z\""),
        (vec!["tally", "77"], "There is no job \"77\""),
        (vec!["shop", "--zone", "Atlantis"], "is no time zone"),
        (vec!["shop", "--length", "cubits"], "is not among them"),
        (
            vec!["amend", "last", "--used", "4 oz"],
            "No pass was logged yet",
        ),
        (
            vec![
                "recipe",
                "bare",
                "--show-grits",
                "80",
                "--end-grits",
                "80",
                "--under-grits",
                "80",
            ],
            "would stay bare",
        ),
        (
            vec!["product", "mystery", "--family", "moonshine"],
            "is not among them",
        ),
        (
            vec![
                "product",
                "odd",
                "--family",
                "shellac",
                "--windows",
                "tomorrow",
            ],
            "--windows: ",
        ),
    ] {
        let ended = bench.run(NOW, &args);
        assert_eq!(
            (ended.code, ended.out.as_str()),
            (1, ""),
            "{args:?}: {ended:?}"
        );
        assert!(ended.err.contains(says), "{args:?}: {}", ended.err);
    }
    let long = "n".repeat(300);
    let ended = bench.run(NOW, &["client", &long]);
    assert_eq!(ended.code, 1);
    assert!(
        ended.err.contains("up to 80 characters; this has 300"),
        "{}",
        ended.err
    );
    assert_eq!(bench.json(NOW, &["where"])["clients"], 1);
    assert_eq!(bench.json(NOW, &["where"])["jobs"], 0);
}

#[test]
fn names_are_kept_clean_and_wide_ones_fit() {
    let bench = Bench::new();
    let ended = bench.ok(NOW, &["client", "Nell\u{1b}[31m Harrow\u{7}\u{202e}"]);
    assert!(
        ended.starts_with("Added client Nell Harrow\nMind: The client's name: "),
        "{ended}"
    );
    assert!(
        !ended.chars().any(|c| c.is_control() && c != '\n'),
        "{ended:?}"
    );
    let wide = "木工房".repeat(20);
    bench.ok(NOW, &["client", &wide]);
    bench.ok(NOW, &["job", &wide, &wide]);
    bench.ok(
        NOW,
        &[
            "piece",
            "1",
            "天板のとても長い名前を書いてみる",
            "--size",
            "60 x 20",
            "--species",
            "桜",
        ],
    );
    for verb in ["ready", "bench", "jobs", "clients"] {
        assert_narrow(&bench.ok(NOW, &[verb]));
    }
    assert_narrow(&bench.ok(NOW, &["ticket", "1A"]));
    assert_narrow(&bench.ok(NOW, &["tally", "1"]));
    // What is only echoed is cleaned as well.
    for args in [
        ["ticket", "\u{1b}[2Jx"],
        ["fro\u{1b}[2Jb", "x"],
        ["tick", "\u{9b}31m"],
    ] {
        let ended = bench.run(NOW, &args);
        assert!(ended.code == 1 || ended.code == 2, "{ended:?}");
        assert!(
            !ended.err.chars().any(|c| c.is_control() && c != '\n'),
            "{:?}",
            ended.err
        );
    }
}

pub fn assert_narrow(text: &str) {
    for line in text.lines() {
        assert!(
            tackfree::units::display_width(line) <= 80,
            "too wide: {line}"
        );
    }
}

#[test]
fn work_that_cannot_be_is_refused_in_words() {
    let bench = Bench::with_top(NOW);
    for (args, code, says) in [
        (
            vec!["tick", "1A", "eighty", "--faces", "all"],
            1,
            "is no grit",
        ),
        (vec!["tick", "1A", "80", "--faces", "lid"], 1, "--faces: "),
        (
            vec!["tick", "1A", "80", "--faces", "all", "--at", "in 2 h"],
            1,
            "--at: ",
        ),
        (
            vec!["tick", "1A", "100", "--faces", "top"],
            3,
            "the schedule does not ask 100 grit",
        ),
        (vec!["touch", "1A", "crunchy"], 1, "is not among them"),
        (vec!["touch", "1A", "tack-free"], 3, "no face was picked"),
        (vec!["scuff", "1A", "--with", "axe"], 1, "--with: "),
        (vec!["pass", "1A", "--used", "4 oz > 5 oz"], 1, "--used: "),
        (vec!["pass", "1A", "--used", "500 g"], 1, "is one weight"),
        (vec!["pass", "1A", "--air", "balmy"], 1, "--air: "),
        (
            vec!["pass", "1A", "--product", "nothing"],
            1,
            "There is no product",
        ),
        (
            vec!["pass", "1A", "--start", "1 min ago", "--end", "5 min ago"],
            3,
            "ends before it starts",
        ),
        (vec!["setlist", "1A", "dry-fit"], 3, "belongs to set"),
        (vec!["setlist", "1A", "juggle"], 1, "is not among them"),
        (vec!["back", "1A"], 3, "sanding"),
        (
            vec!["remove", "client", "Nell Harrow"],
            1,
            "has work on record",
        ),
    ] {
        let ended = bench.run(NOW, &args);
        assert_eq!(
            (ended.code, ended.out.as_str()),
            (code, ""),
            "{args:?}: {ended:?}"
        );
        assert!(ended.err.contains(says), "{args:?}: {}", ended.err);
    }
    let ticket = bench.json(NOW, &["ticket", "1A"]);
    assert_eq!(ticket["log"].as_array().map(Vec::len), Some(0));
    bench.ok(NOW, &["remove", "piece", "1A"]);
}

#[test]
fn arguments_that_do_not_read_end_with_two() {
    let bench = Bench::new();
    for args in [
        vec!["dance"],
        vec!["ready", "--quickly"],
        vec!["move"],
        vec!["--demo", "--store", "x", "ready"],
        vec!["--json"],
        vec![],
        vec!["--demo"],
        vec!["job", "Nell Harrow"],
        vec!["remove", "grudge", "1"],
    ] {
        let ended = bench.run(NOW, &args);
        assert_eq!(
            (ended.code, ended.out.as_str()),
            (2, ""),
            "{args:?}: {ended:?}"
        );
        assert!(!ended.err.is_empty());
    }
    let no_terminal = bench.run(NOW, &[]);
    assert!(
        no_terminal.err.contains("tackfree ready"),
        "{}",
        no_terminal.err
    );
    for args in [
        vec!["--help"],
        vec!["help", "pass"],
        vec!["--version"],
        vec!["tick", "-h"],
    ] {
        assert!(!bench.ok(NOW, &args).is_empty());
    }
}

#[test]
fn a_moment_that_does_not_read_is_told() {
    let bench = Bench::new();
    for bad in ["teatime", "2026-13-40 14:00"] {
        let ended = bench.run(bad, &["ready"]);
        assert_eq!((ended.code, ended.out.as_str()), (1, ""), "{ended:?}");
        assert!(ended.err.contains("TACKFREE_NOW"), "{}", ended.err);
    }
    for good in [
        "2026-11-25 14:00",
        "2026-11-25T14:00:00-06:00",
        "2026-11-25T20:00:00Z",
    ] {
        assert_eq!(bench.json(good, &["ready"])["now"], "2026-11-25T20:00:00Z");
    }
}
