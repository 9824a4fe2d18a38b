//! Undo and redo lie on disk: each command here is a process of its own.

use crate::bench::Bench;

const NOW: &str = "2026-11-25 14:00";

#[test]
fn undo_and_redo_reach_across_processes() {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow"]);
    bench.ok(
        NOW,
        &[
            "client",
            "--change",
            "Nell Harrow",
            "Nell Harrow-Ide",
            "--email",
            "n@example.org",
        ],
    );
    assert_eq!(
        bench.ok(NOW, &["undo"]),
        "Undone: Changed client Nell Harrow-Ide: email none > n@example.org; name Nell Harrow > Nell \
         Harrow-Ide\n"
    );
    assert_eq!(
        bench.json(NOW, &["clients"])["clients"][0]["name"],
        "Nell Harrow"
    );
    assert_eq!(
        bench.ok(NOW, &["undo"]),
        "Undone: Added client Nell Harrow\n"
    );
    assert_eq!(
        bench.json(NOW, &["clients"])["clients"]
            .as_array()
            .map(Vec::len),
        Some(0)
    );
    assert_eq!(
        bench.ok(NOW, &["redo"]),
        "Done again: Added client Nell Harrow\n"
    );
    assert_eq!(
        bench.ok(NOW, &["redo"]),
        "Done again: Changed client Nell Harrow-Ide: email none > n@example.org; name Nell Harrow > Nell \
         Harrow-Ide\n"
    );
    assert_eq!(
        bench.json(NOW, &["clients"])["clients"][0]["email"],
        "n@example.org"
    );
    let nothing = bench.run(NOW, &["redo"]);
    assert_eq!(nothing.code, 1);
    assert!(
        nothing.err.starts_with("There is nothing to do again"),
        "{}",
        nothing.err
    );
    let journal = bench.json(NOW, &["journal"]);
    let lines = journal["lines"].as_array().expect("lines");
    assert!(
        lines.len() >= 3
            && lines
                .iter()
                .all(|line| line["at"] == "2026-11-25T20:00:00Z")
    );
}

#[test]
fn undoing_everything_leaves_a_store_that_still_opens() {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow"]);
    bench.ok(NOW, &["undo"]);
    // The shop's beginning is no action to be undone.
    let nothing = bench.run(NOW, &["undo"]);
    assert_eq!(nothing.code, 1);
    assert!(
        nothing.err.starts_with("There is nothing to undo"),
        "{}",
        nothing.err
    );
    assert_eq!(
        bench.json(NOW, &["recipes"])["recipes"]
            .as_array()
            .map(Vec::len),
        Some(4)
    );
}
