//! A product by command: every option, sources, doubts, and the JSON.

use super::bench::Bench;

const NOW: &str = "2026-03-02 09:00";

#[test]
fn every_figure_by_command_with_its_source() {
    let bench = Bench::new();
    let made = bench.run(
        NOW,
        &[
            "product",
            "satin alkyd",
            "--family",
            "oil brushing varnish",
            "--spread",
            "475 sq ft/gal",
            "--solids",
            "37.5",
            "--wet-film",
            "2.7 mil",
            "--dry-film",
            "1.3 mil",
            "--voc",
            "446 g/L",
            "--reference",
            "77 F",
            "--reference-humidity",
            "65",
            "--touch",
            "90 min",
            "--tack-free",
            "~3 h",
            "--windows",
            "within 2 h; scuff after 6 days",
        ],
    );
    assert_eq!(made.code, 0, "{made:?}");
    // The sheet's coverage and films contradict each other: said, not refused.
    assert!(
        made.out.contains("but the sheet says 2.7 mil wet"),
        "{}",
        made.out
    );
    assert!(
        made.out.contains("but the sheet says 1.3 mil dry"),
        "{}",
        made.out
    );

    let products = bench.json(NOW, &["products", "satin alkyd"]);
    let product = &products["products"][0];
    for (field, value) in [
        ("wet_film_um", 68.58),
        ("dry_film_um", 33.02),
        ("voc_g_per_l", 446.0),
        ("reference_c", 25.0),
        ("reference_humidity_pct", 65.0),
        ("touch_min", 90.0),
    ] {
        assert_eq!(product[field].as_f64(), Some(value), "{field}");
    }
    let windows = product["windows"].as_array().expect("windows");
    assert_eq!(windows[0]["closes_min"], 120);
    assert_eq!(windows[1]["opens_min"], 8640);
    assert_eq!(windows[1]["scuff"], true);
    for (figure, source) in [
        ("spread", "label"),
        ("windows", "label"),
        ("tack-free", "family-range"),
        ("full-cure", "family-range"),
    ] {
        assert_eq!(product["sources"][figure], source, "{figure}");
    }
    assert_eq!(product["ranges"]["touch"][0], 60.0);
    assert_eq!(product["ranges"]["touch"][2], "makers' sheets");
    assert_eq!(product["doubts"].as_array().map(Vec::len), Some(2));
    assert!(product["learned"].is_null());

    let sheet = bench.run(NOW, &["products", "satin alkyd"]).out;
    for words in [
        "from the label",
        "recoat: within 2 hours, or after 6 days, scuffed",
        "set to touch: 1 h 30 min (its family: 1 to 3 h)",
        "family range, check the can label",
        "full cure: 30 days (its family: 7 to 30 days)",
    ] {
        assert!(sheet.contains(words), "{words} is not in\n{sheet}");
    }
}

#[test]
fn an_optional_figure_is_taken_away_and_brought_back_by_undo() {
    let bench = Bench::new();
    let name = "brushing varnish";
    let of = || bench.json(NOW, &["products", name])["products"][0].clone();
    let change = |options: &[&str]| {
        let ended = bench.run(NOW, &[&["product", "--change", name], options].concat());
        assert_eq!(ended.code, 0, "{ended:?}");
    };
    change(&[
        "--voc",
        "446 g/L",
        "--wet-film",
        "2.0 mil",
        "--reference",
        "77 F",
    ]);
    assert_eq!(of()["doubts"].as_array().map(Vec::len), Some(1));
    // Typing nothing takes it away; what is not named stays.
    change(&["--voc", "", "--wet-film", ""]);
    assert!(of()["voc_g_per_l"].is_null());
    assert_eq!(of()["sources"]["voc"], "not-given");
    assert_eq!(of()["sources"]["reference"], "label");
    assert_eq!(of()["doubts"].as_array().map(Vec::len), Some(0));
    assert_eq!(bench.run(NOW, &["undo"]).code, 0);
    assert_eq!(of()["voc_g_per_l"].as_f64(), Some(446.0));
    assert_eq!(of()["sources"]["voc"], "label");
}

#[test]
fn a_wrong_order_is_refused_and_nothing_is_written() {
    let bench = Bench::new();
    let refused = bench.run(
        NOW,
        &[
            "product",
            "--change",
            "clear wiping varnish",
            "--touch",
            "6 h",
        ],
    );
    assert_ne!(refused.code, 0);
    assert!(
        refused.err.contains(
            "cannot be tack-free after 5 hours when it is set to touch only after 6 hours"
        ),
        "{}",
        refused.err
    );
    let product = &bench.json(NOW, &["products", "clear wiping varnish"])["products"][0];
    assert_eq!(product["touch_min"], 180);
    assert_eq!(bench.run(NOW, &["products", "no such thing"]).code, 1);
}
