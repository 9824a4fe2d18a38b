//! One top from measure to set, by commands alone, trying the short cuts on the way.

use crate::bench::Bench;
use std::f64::consts::PI;

const M2_PER_SQ_IN: f64 = 0.000_645_16;

/// Square inches by hand: everything but the field of the underside, and the field.
fn by_hand() -> (f64, f64) {
    let openings = 30.0 * 16.0 - (4.0 - PI) * 0.75 * 0.75 + PI * 0.6875 * 0.6875;
    let top = 98.375 * 25.5 - openings;
    let field = (98.375 - 4.0) * (25.5 - 4.0) - openings;
    let band = 98.375 * 25.5 - (98.375 - 4.0) * (25.5 - 4.0);
    let edges = 2.0 * (98.375 + 25.5) * 1.5;
    let cutout = (2.0 * (30.0 + 16.0) - 8.0 * 0.75 + 2.0 * PI * 0.75) * 1.5;
    let hole = PI * 1.375 * 1.5;
    (top + band + edges + cutout + hole, field)
}

#[test]
fn from_measure_to_set_with_every_short_cut_refused() {
    let bench = Bench::with_top("2026-11-02 08:00");
    let b = &bench;

    // Moving early: two grits and the wipe-down on each of nine faces.
    let early = b.refused("2026-11-02 08:10", &["move", "1A"]);
    assert_eq!(early.reasons().len(), 27, "{}", early.err);
    assert!(
        early.err.contains("left end: 80 grit not done"),
        "{}",
        early.err
    );

    // A skipped grit.
    let skipped = b.refused("2026-11-02 08:10", &["tick", "1A", "120", "--faces", "all"]);
    assert_eq!(skipped.reasons().len(), 9, "{}", skipped.err);

    let ticked = b.ok("2026-11-02 09:00", &["tick", "1A", "80", "--faces", "all"]);
    assert!(
        ticked.starts_with("Ticked 80 grit on 9 faces of 1A galley top\n"),
        "{ticked}"
    );
    assert!(ticked.contains("Mind: Wood dust"), "{ticked}");
    let most = "top, underside, front, back, right, walls";
    b.ok("2026-11-02 10:00", &["tick", "1A", "120", "--faces", most]);
    let one_left = b.refused("2026-11-02 10:10", &["wipe", "1A"]);
    assert_eq!(one_left.reasons(), ["- left end: 120 grit not done"]);
    b.ok(
        "2026-11-02 10:20",
        &[
            "tick",
            "1A",
            "120",
            "--faces",
            "left end",
            "--at",
            "5 min ago",
        ],
    );
    b.ok("2026-11-02 11:00", &["wipe", "1A"]);
    b.ok("2026-11-02 11:05", &["move", "1A"]);

    // The wipe-down has not flashed off.
    let wet = b.refused("2026-11-02 11:10", &["pass", "1A"]);
    assert!(wet.err.contains("underside field"), "{}", wet.err);
    let seal = b.json("2026-11-02 12:00", &["pass", "1A", "--air", "73.4F 45%"]);
    assert!(
        seal["done"]
            .as_str()
            .is_some_and(|done| done.contains("underside field")),
        "{seal}"
    );
    assert_eq!(seal["made"].as_str().map(str::len), Some(36), "{seal}");
    b.ok("2026-11-02 12:05", &["move", "1A"]);
    b.ok("2026-11-02 13:00", &["pass", "1A", "--start", "20 min ago"]);
    let unwiped = b.refused("2026-11-02 13:05", &["move", "1A"]);
    assert_eq!(unwiped.reasons().len(), 8, "{}", unwiped.err);
    b.ok("2026-11-02 13:10", &["wiped-off", "1A"]);
    b.ok("2026-11-02 13:15", &["move", "1A"]);

    // Inside the stain's drying time: 24 label hours.
    let soon = b.refused("2026-11-03 08:00", &["pass", "1A"]);
    assert_eq!(soon.reasons().len(), 8, "{}", soon.err);
    assert!(soon.err.contains("top: "), "{}", soon.err);
    b.ok("2026-11-03 14:00", &["pass", "1A"]);
    let unscuffed = b.refused("2026-11-03 21:00", &["pass", "1A"]);
    assert_eq!(unscuffed.reasons().len(), 9, "{}", unscuffed.err);
    b.ok(
        "2026-11-03 21:00",
        &["pass", "1A", "--scuffed", "brown paper"],
    );
    b.ok("2026-11-04 08:00", &["scuff", "1A"]);
    b.ok("2026-11-04 08:10", &["pass", "1A"]);
    b.ok("2026-11-04 15:00", &["pass", "1A", "--scuffed", "pad"]);
    b.ok("2026-11-05 08:00", &["pass", "1A", "--scuffed", "320"]);
    let short = b.refused("2026-11-05 08:10", &["move", "1A"]);
    assert!(
        short.err.contains("top: coat 6 of 6 not done"),
        "{}",
        short.err
    );
    let last = b.ok(
        "2026-11-05 15:00",
        &["pass", "1A", "--scuffed", "brown paper"],
    );
    assert!(
        last.starts_with("Logged coat 6 on 8 faces of 1A galley top"),
        "{last}"
    );

    set_it(b);
    tally_is_the_hand_calculation(b);
}

/// The underside is not left bare by a word: it has its five coats, and the last must cure.
fn set_it(b: &Bench) {
    let cures = b.refused("2026-11-06 15:00", &["move", "1A"]);
    assert!(cures.reasons().len() >= 8, "{}", cures.err);
    b.ok("2026-11-08 15:30", &["move", "1A"]);
    for item in [
        "dry-fit",
        "field-cuts",
        "masked",
        "sealant",
        "clips",
        "slots",
        "care-sheet",
    ] {
        b.ok("2026-11-09 09:00", &["setlist", "1A", item]);
    }
    let ready = b.json("2026-11-09 09:00", &["ready"]);
    assert_eq!(ready["pieces"].as_array().map(Vec::len), Some(0));
    let ticket = b.json("2026-11-09 09:00", &["ticket", "1A"]);
    assert_eq!(
        (ticket["stage"].as_str(), ticket["shows"].as_str()),
        (Some("set"), Some("done"))
    );
    assert_eq!(ticket["faces"].as_array().map(Vec::len), Some(9));
}

fn tally_is_the_hand_calculation(bench: &Bench) {
    let (rest, field) = by_hand();
    // Coats by area, square metres; the spread rates are those of the products in the store.
    let products = bench.json("2026-11-09 09:00", &["products"]);
    let spread = |name: &str| {
        let all = products["products"].as_array().expect("products");
        let one = all
            .iter()
            .find(|product| product["name"] == name)
            .expect("the product");
        one["spread_m2_per_l"].as_f64().expect("its spread rate")
    };
    let tally = bench.json("2026-11-09 09:00", &["tally", "1"]);
    let rows = tally["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 3, "{tally}");
    for (row, name, kind, sq_in) in [
        (&rows[0], "dewaxed shellac sealer", "seal", field),
        (&rows[1], "brown gel stain", "stain", rest),
        (
            &rows[2],
            "clear wiping varnish",
            "topcoat",
            6.0 * rest + 5.0 * field,
        ),
    ] {
        assert_eq!(
            (row["product"].as_str(), row["used_as"].as_str()),
            (Some(name), Some(kind))
        );
        let area = sq_in * M2_PER_SQ_IN;
        let ml = area / spread(name) * 1000.0;
        let figure = |field: &str| row[field].as_f64().expect("a figure");
        assert!(
            (figure("coated_m2") - area).abs() < 1e-5,
            "{name}: {row}, by hand {area}"
        );
        assert!(
            (figure("used_ml") - ml).abs() < 0.01,
            "{name}: {row}, by hand {ml}"
        );
        assert!((figure("estimated_ml") - ml).abs() < 0.01, "{name}: {row}");
        assert!((figure("planned_ml") - ml).abs() < 0.01, "{name}: {row}");
        assert_eq!(row["measured_ml"].as_f64(), Some(0.0));
    }
    let paper = bench.ok("2026-11-09 09:00", &["tally", "galley counter"]);
    assert!(paper.contains("all of it estimated"), "{paper}");
}

#[test]
fn sanding_back_a_hidden_face_and_a_measured_pass() {
    let bench = Bench::with_top("2026-11-02 08:00");
    let b = &bench;
    let top_hidden = b.refused(
        "2026-11-02 08:00",
        &["hide", "1A", "top", "--reason", "in a hurry"],
    );
    assert!(
        top_hidden.err.contains("always exposed"),
        "{}",
        top_hidden.err
    );
    b.refused("2026-11-02 08:00", &["hide", "1A", "back", "--reason", "x"]);
    b.ok(
        "2026-11-02 08:05",
        &["hide", "1A", "back", "--reason", "glued to the splash"],
    );
    let paper = b.ok("2026-11-02 08:06", &["ticket", "1A"]);
    assert!(
        paper.contains("back edge not exposed: glued to the splash"),
        "{paper}"
    );
    b.ok("2026-11-02 08:07", &["show", "1A", "back"]);

    for grit in ["80", "120"] {
        b.ok("2026-11-02 09:00", &["tick", "1A", grit, "--faces", "all"]);
    }
    b.ok(
        "2026-11-02 09:05",
        &["untick", "1A", "120", "--face", "cutout-1"],
    );
    b.refused("2026-11-02 09:06", &["wipe", "1A"]);
    b.ok(
        "2026-11-02 09:10",
        &["tick", "1A", "120", "--faces", "cutout-1"],
    );
    b.ok("2026-11-02 09:20", &["wipe", "1A"]);
    b.ok("2026-11-02 10:00", &["move", "1A"]);
    let pass = b.json(
        "2026-11-02 10:10",
        &["pass", "1A", "--used", "1042 g > 960 g"],
    );
    let code = pass["called"].as_str().expect("a code");
    let weighed = b.json("2026-11-02 10:10", &["tally"])["rows"][0]["measured_ml"].as_f64();
    assert!(weighed.is_some_and(|ml| ml > 90.0), "{weighed:?}");
    b.ok("2026-11-02 10:15", &["amend", code, "--used", "100 mL"]);
    b.ok("2026-11-02 10:15", &["amend", "last", "--used", "101 mL"]);
    let tally = b.json("2026-11-02 10:15", &["tally"]);
    assert_eq!(tally["rows"][0]["measured_ml"].as_f64(), Some(101.0));

    let back = [
        "sandback",
        "1A",
        "80",
        "--faces",
        "field",
        "--reason",
        "run near the sink",
    ];
    b.ok("2026-11-02 13:00", &back);
    let after = b.json("2026-11-02 13:00", &["ticket", "1A"]);
    assert_eq!(after["stage"], "sanding");
    let faces = after["faces"].as_array().expect("faces");
    let field = faces
        .iter()
        .find(|face| face["face"] == "field")
        .expect("the field");
    assert_eq!(field["sanded_back"], 1);
    assert_eq!(field["coats"].as_array().map(Vec::len), Some(0));
    assert!(field["grits"][1]["done_at"].is_null() && field["grits"][0]["done_at"].is_string());
    let log = b.ok("2026-11-02 13:00", &["ticket", "1A"]);
    assert!(log.contains("101 mL") || log.contains("3.4 fl oz"), "{log}");
    assert!(log.contains("run near the sink"), "{log}");
    // What was used on a coat sanded off was used all the same.
    let tally = b.json("2026-11-02 13:00", &["tally"]);
    assert_eq!(tally["rows"][0]["measured_ml"].as_f64(), Some(101.0));
}

#[test]
fn a_touch_test_opens_and_shuts_the_window() {
    let bench = Bench::with_top("2026-11-02 08:00");
    let b = &bench;
    b.ok(
        "2026-11-02 08:00",
        &[
            "recipe",
            "oil both sides",
            "--like",
            "hardwax oil on all sides",
        ],
    );
    b.ok(
        "2026-11-02 08:00",
        &[
            "piece",
            "1",
            "shelf",
            "--size",
            "36 x 10",
            "--species",
            "ash",
            "--kind",
            "shelf",
            "--recipe",
            "oil both sides",
        ],
    );
    for grit in ["80", "120", "150", "180"] {
        b.ok("2026-11-02 09:00", &["tick", "1B", grit, "--faces", "all"]);
    }
    b.ok("2026-11-02 09:00", &["wipe", "1B"]);
    let moved = b.ok("2026-11-02 09:00", &["move", "1B"]);
    assert!(
        moved.contains("nothing asked in sealing, staining"),
        "{moved}"
    );
    b.ok("2026-11-02 10:00", &["pass", "1B"]);
    b.refused("2026-11-02 18:00", &["pass", "1B", "--scuffed", "pad"]);
    b.ok("2026-11-02 18:00", &["touch", "1B", "dry-to-recoat"]);
    b.ok("2026-11-02 18:05", &["touch", "1B", "still-soft"]);
    b.refused("2026-11-02 18:10", &["pass", "1B", "--scuffed", "pad"]);
    b.ok("2026-11-02 20:00", &["touch", "1B", "dry-to-recoat"]);
    b.ok("2026-11-02 20:10", &["pass", "1B", "--scuffed", "pad"]);
    let mixed = b.run("2026-11-02 20:10", &["pass", "1A", "1B"]);
    assert_eq!(mixed.code, 3, "{mixed:?}");
}
