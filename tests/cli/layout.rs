//! Layout by commands: findings, acceptance, standing, checks, cutting, lumber, drawings.

use crate::bench::Bench;

const NOW: &str = "2026-11-02 08:00";

#[test]
fn findings_are_told_accepted_and_undone() {
    let b = Bench::with_top(NOW);
    b.ok(
        NOW,
        &[
            "stands",
            "1A",
            "--overhangs",
            "back 12",
            "--joints",
            "across 36",
        ],
    );
    let found = b.json(NOW, &["findings", "1A"]);
    let rules: Vec<&str> = found["findings"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|finding| finding["rule"].as_str())
        .collect();
    assert!(
        rules.contains(&"overhang-across") && rules.contains(&"joint-strip"),
        "{rules:?}"
    );
    let hang = found["findings"]
        .as_array()
        .expect("a list")
        .iter()
        .find(|finding| finding["rule"] == "overhang-across")
        .expect("it is there");
    // 12 in where 10 are the most.
    assert_eq!(hang["missing_mm"], 50.8);
    assert_eq!(hang["about"], "overhang-back");
    let accept = [
        "accept",
        "1A",
        "overhang-across:overhang-back",
        "--reason",
        "steel below",
    ];
    // Nobody has accepted it yet: it is open, not unknown.
    let open = b.run(NOW, &["reopen", "1A", "overhang-across:overhang-back"]);
    assert_eq!(open.code, 1);
    assert!(open.err.contains("is open already"), "{}", open.err);
    let unknown = b.run(NOW, &["reopen", "1A", "span:top"]);
    assert!(unknown.err.contains("no finding called"), "{}", unknown.err);
    let about = |found: &serde_json::Value| -> Vec<String> {
        let found = found["findings"].as_array().expect("a list");
        found
            .iter()
            .map(|finding| format!("{} {}", finding["rule"], finding["about"]))
            .collect()
    };
    let before = about(&b.json(NOW, &["findings", "1A"]));
    b.ok(NOW, &accept);
    // Its number and those of the others stand.
    assert_eq!(before, about(&b.json(NOW, &["findings", "1A"])));
    assert!(b.ok(NOW, &["ticket", "1A"]).contains("Accepted: steel"));
    b.ok(NOW, &["undo"]);
    assert!(!b.ok(NOW, &["ticket", "1A"]).contains("Accepted: steel"));
    let nobody = b.run(NOW, &["accept", "1A", "99", "--reason", "x"]);
    assert_eq!(nobody.code, 1);
    assert!(
        nobody.err.contains("no finding of this piece"),
        "{}",
        nobody.err
    );
}

#[test]
fn checks_router_and_boards_are_the_shops() {
    let b = Bench::with_top(NOW);
    b.ok(
        NOW,
        &[
            "checks",
            "end-strip",
            "--figure",
            "10 in",
            "--weight",
            "serious",
        ],
    );
    let checks = b.json(NOW, &["checks"]);
    let strip = checks["checks"]
        .as_array()
        .expect("a list")
        .iter()
        .find(|check| check["check"] == "end-strip")
        .expect("it is there")
        .clone();
    assert_eq!(strip["figure_mm"], 254.0);
    assert_eq!(strip["source_kind"], "the shop's own");
    b.ok(NOW, &["checks", "end-strip", "--first"]);
    b.ok(
        NOW,
        &["router", "--depth", "9 passes", "--clean-up", "none"],
    );
    let plan = b.json(NOW, &["cutplan", "1A", "cutout-1"]);
    assert_eq!(plan["passes"].as_array().map(Vec::len), Some(9));
    // A sixth of an inch (common practice for a 1 1/2 in top, no source).
    assert_eq!(plan["passes"][0]["takes_mm"], 4.233_333);
    assert_eq!(plan["template"]["length_mm"], 768.35);
    b.ok(NOW, &["boards", "--waste", "20"]);
    let list = b.json(NOW, &["cutlist", "1A"]);
    let (net, gross) = (
        list["net_board_feet"].as_f64().expect("net"),
        list["gross_board_feet"].as_f64().expect("gross"),
    );
    // 98 3/8 x 25 1/2 x 1 1/2 / 144.
    assert!(
        (net - 26.131).abs() < 0.001 && (gross - net / 0.8).abs() < 0.002,
        "{net} {gross}"
    );
    let wrong = b.run(NOW, &["router", "--bit", "2"]);
    assert_eq!(wrong.code, 1, "{wrong:?}");
}

#[test]
fn drawings_are_written_once_and_never_over_anything() {
    let b = Bench::with_top(NOW);
    assert!(b.ok(NOW, &["draw", "1A", "--signs", "plain"]).is_ascii());
    let sheet = b.path("sheet.svg").display().to_string();
    b.ok(NOW, &["sheet", "1A", "--to", &sheet]);
    let again = b.run(NOW, &["sheet", "1A", "--to", &sheet]);
    assert_eq!(again.code, 1);
    assert!(
        again.err.contains("nothing is overwritten"),
        "{}",
        again.err
    );
    let folder = b.path("sink").display().to_string();
    let args = [
        "template", "1A", "--of", "cutout-1", "--guide", "--page", "a4", "--to", &folder,
    ];
    let made = b.json(NOW, &args);
    assert_eq!(made["sheets"], 10);
    let all = std::fs::read_to_string(b.path("sink").join("all.svg")).expect("a file");
    assert!(all.contains("id=\"cutout-1-template\""));
    let none = b.run(NOW, &["template", "1A", "--of", "cutout-7", "--to", "x"]);
    assert!(
        none.err.contains("cutout-1 or hole-1 or outline"),
        "{}",
        none.err
    );
}

/// An L on paper: the longest face names keep a blank before their areas, its strips have lengths
/// that a tape shows, none lies in the trim alone, and what is bought follows its formula.
#[test]
fn an_l_and_a_round_top_read_well_on_paper() {
    let b = Bench::with_top(NOW);
    let piece = |name: &str, size: &str| {
        b.ok(
            NOW,
            &[
                "piece",
                "1",
                name,
                "--size",
                size,
                "--thickness",
                "1 1/2",
                "--species",
                "hard maple",
                "--construction",
                "edge",
                "--recipe",
                "gel stain under a wiped film",
            ],
        )
    };
    piece("ell", "L 120 x 96, run 25 1/2, leg 24, open front right");
    piece("disc", "circle 61");
    let ticket = b.ok(NOW, &["ticket", "1B"]);
    let named = ticket
        .lines()
        .find(|line| line.trim_start().starts_with("inner edge, front right "))
        .expect("the whole name, a blank behind it");
    assert!(named.contains(" sq ft"), "{named}");
    let times = ticket.matches("inner edge, front right").count();
    assert!(times >= 2, "the coats have it whole as well: {ticket}");
    assert!(ticket.lines().all(|line| line.chars().count() <= 80));

    let list = b.ok(NOW, &["cutlist", "1C"]);
    for line in list.lines().filter(|line| line.contains("[ ]")) {
        assert!(!line.contains('.') && !line.contains("1/4\" x"), "{line}");
    }
    let figures = list.lines().find(|line| line.contains("(net /"));
    let figures: Vec<f64> = figures
        .expect("the waste figure")
        .split([' ', ':', ',', '(', ')'])
        .filter_map(|word| word.parse().ok())
        .collect();
    // Net, gross, waste in percent, what net is divided by, what is bought.
    let [net, gross, _, part, buy] = figures[..] else {
        panic!("{list}");
    };
    assert!((net / part - gross).abs() < 0.02, "{list}");
    assert!(buy >= gross - 0.005 && buy - gross < 0.25, "{list}");
}

/// Small words: one sheet is not sheets, a caution for undermounts stands at undermounts, a band
/// round openings is understood as it is said, a figure below nothing is answered in words.
#[test]
fn small_words_fit_what_they_are_said_of() {
    let b = Bench::with_top(NOW);
    let caution = "Cut an undermount opening from the underside";
    assert!(!b.ok(NOW, &["cutplan", "1A", "outline"]).contains(caution));
    let cutout = "20 x 14 r 1 at 40, 12 profile round-over 1/4 sink undermount zero";
    let change = ["piece", "--change", "1A", "--cutout", cutout];
    b.ok(NOW, &change);
    assert!(b.ok(NOW, &["cutplan", "1A", "cutout-1"]).contains(caution));
    assert!(!b.ok(NOW, &["cutplan", "1A", "outline"]).contains(caution));
    b.ok(
        NOW,
        &["piece", "--change", "1A", "--band", "2 and round openings"],
    );
    assert!(
        b.ok(NOW, &["ticket", "1A"])
            .contains("round the openings too")
    );
    let below = b.run(NOW, &["checks", "span", "--figure", "-3"]);
    assert_eq!(below.code, 1);
    assert!(!below.err.contains("use '--"), "{}", below.err);
    let wrong = "20 x 14 r 1 at centre sink undermount zero";
    let wrong = b.run(NOW, &["piece", "--change", "1A", "--cutout", wrong]);
    assert!(
        wrong.err.contains("Only an apron-front sink"),
        "{}",
        wrong.err
    );
}
