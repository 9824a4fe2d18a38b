//! What the commands say: counts, faces, numbers out of reach, what the system refuses.

use crate::bench::Bench;
use std::fs;

const NOW: &str = "2026-11-25 14:00";

#[test]
fn an_import_counts_once_and_one_is_not_many() {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow"]);
    let folder = bench.path("out").display().to_string();
    let said = bench.ok(NOW, &["export", &folder]);
    assert_eq!(
        said,
        format!("Wrote the shop to {folder}: 1 client, 0 jobs, 0 pieces, 0 passes\n")
    );
    let other = bench.path("other.tackfree").display().to_string();
    let said = bench.ok(NOW, &["--store", &other, "import", &folder]);
    assert_eq!(
        said,
        "Brought in the shop from out: 1 client, 0 jobs, 0 pieces, 0 passes, 0 lines of work\n"
    );
}

#[test]
fn a_face_to_hide_that_is_none_is_told_by_the_faces_there_are() {
    let bench = Bench::with_top(NOW);
    for none in ["nowhere", "edges", ""] {
        let ended = bench.run(NOW, &["hide", "1A", none, "--reason", "glued to the wall"]);
        assert_eq!(ended.code, 1, "{ended:?}");
        let begins = format!("\"{none}\" is not one face of this piece: it has top, ");
        assert!(ended.err.starts_with(&begins), "{}", ended.err);
    }
}

#[test]
fn a_number_of_coats_out_of_reach_is_repeated_as_typed() {
    let bench = Bench::new();
    let like = ["recipe", "thick", "--like", "gel stain under a wiped film"];
    let mut args = like.to_vec();
    args.extend(["--show-topcoats", "256"]);
    let ended = bench.run(NOW, &args);
    assert_eq!(
        ended.err,
        "--show-topcoats: \"256\" is far more topcoats than can be asked: type a smaller number.\n"
    );
}

#[test]
fn cutouts_and_holes_are_taken_away_by_none() {
    let bench = Bench::with_top(NOW);
    let faces = || {
        bench.json(NOW, &["ticket", "1A"])["faces"]
            .as_array()
            .map(Vec::len)
    };
    let before = faces().expect("faces");
    bench.ok(NOW, &["piece", "--change", "1A", "--cutout", "none"]);
    assert_eq!(faces(), Some(before - 1));
    bench.ok(
        NOW,
        &[
            "piece", "--change", "1A", "--hole", "none", "--band", "none",
        ],
    );
    assert_eq!(faces(), Some(before - 3));
}

#[test]
fn what_the_system_refuses_ends_in_what_would_do() {
    let bench = Bench::new();
    let into = bench.path("no/such/folder").display().to_string();
    let ended = bench.run(NOW, &["export", &into]);
    assert_eq!(ended.code, 1);
    assert_eq!(
        ended.err,
        format!(
            "{into} cannot be written: No such file or directory; check how it is written, and that \
             its folder is there.\n"
        )
    );
    let file = bench.path("a-file").display().to_string();
    fs::write(&file, "x").expect("written");
    let ended = bench.run(NOW, &["import", &file]);
    assert!(
        ended.err.ends_with("; check how it is written.\n"),
        "{}",
        ended.err
    );
}

#[test]
fn a_piece_moved_back_from_set_tells_that_its_set_list_starts_anew() {
    let bench = Bench::new();
    let said = bench.ok(NOW, &["--demo", "where"]);
    assert!(said.contains("demo"), "{said}");
    let folder = bench.path("demo").display().to_string();
    bench.ok(NOW, &["--demo", "export", &folder]);
    bench.ok(NOW, &["import", &folder]);
    let said = bench.ok(NOW, &["back", "6A"]);
    assert!(
        said.contains("Mind: The set list starts anew: 4 ticks on it no longer count."),
        "{said}"
    );
}
