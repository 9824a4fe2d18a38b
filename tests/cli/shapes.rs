//! Shapes by commands: measured, echoed, refused, undone, changed after work has started.

use crate::bench::Bench;

const NOW: &str = "2026-11-02 08:00";

fn bench() -> Bench {
    let bench = Bench::new();
    bench.ok(NOW, &["client", "Nell Harrow", "--phone", "555 0100"]);
    bench.ok(NOW, &["job", "Nell Harrow", "kitchen", "--built", "1990"]);
    bench
}

fn add<'a>(size: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    let mut args = vec![
        "piece",
        "1",
        "corner top",
        "--size",
        size,
        "--species",
        "hard maple",
        "--construction",
        "face",
        "--recipe",
        "gel stain under a wiped film",
    ];
    args.extend(more);
    args
}

#[test]
fn an_l_with_a_sink_and_a_tap_is_measured_and_told() {
    let b = bench();
    let size = "L 120 x 96, run 25 1/2, leg 24, open front right";
    b.ok(
        NOW,
        &add(
            size,
            &[
                "--corner", "round 1 inside",
                "--cutout", "bowl 30 x 14 r 3/4 at 70, 84 sink undermount negative 3/8, overall 32 x 16, cabinet 36, walls 3/4",
                "--hole", "1 3/8 at cutout 1, 2 1/2 from back faucet",
                "--band", "2 round openings",
            ],
        ),
    );
    let paper = b.ok(NOW, &["ticket", "1A"]);
    for line in [
        "L, 10' 0\" x 8' 0\", run 2' 1 1/2\" deep, leg 2' 0\" wide, open at the front right",
        "negative reveal 3/8\" (wood over",
        "board feet",
        "moisture (assumed",
        "balances",
        "inner end, front right",
        "inside corner",
    ] {
        assert!(paper.contains(line), "{line}\n{paper}");
    }
    let json = b.json(NOW, &["ticket", "1A"]);
    let shape = &json["shape"];
    assert_eq!(shape["outline"], "l");
    assert_eq!(shape["corners"][0]["corner"], "inside");
    assert_eq!(shape["band_round_openings"], true);
    let sink = &shape["openings"][0]["sink"];
    assert_eq!(sink["mount"], "undermount");
    assert_eq!(sink["reveal"], "negative");
    assert_eq!(sink["bowl_mm"][0], 762.0);
    assert_eq!(shape["openings"][1]["purpose"], "faucet");
    let tap = shape["openings"][1]["centre_from_front_mm"]
        .as_f64()
        .unwrap();
    assert!((tap - 93.5 * 25.4).abs() < 0.001, "{tap}");
    let area = shape["area_m2"].as_f64().unwrap();
    let by_hand = 120.0 * 25.5 + 24.0 * 70.5 + 1.0 - std::f64::consts::PI / 4.0;
    assert!(
        (area / (by_hand * 0.000_645_16) - 1.0).abs() < 1e-5,
        "{area}"
    );
    let faces: Vec<&str> = json["faces"]
        .as_array()
        .unwrap()
        .iter()
        .map(|face| face["face"].as_str().unwrap())
        .collect();
    assert_eq!(
        faces,
        [
            "top",
            "band",
            "field",
            "front",
            "back",
            "left",
            "right",
            "inner-edge-front-right",
            "inner-end-front-right",
            "corner-inside",
            "cutout-1",
            "hole-1"
        ]
    );
    b.ok(NOW, &["undo"]);
    assert_ne!(b.run(NOW, &["ticket", "1A"]).code, 0);
}

#[test]
fn a_top_out_of_square_shows_its_closing_error() {
    let b = bench();
    b.ok(
        NOW,
        &add("quad 60, 25, 60, 25, diagonal 65, other 64 7/8", &[]),
    );
    let paper = b.ok(NOW, &["ticket", "1A"]);
    let flat = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("second diagonal 64 7/8\" measured, 65\" by the sides: closing error -1/8\""),
        "{paper}"
    );
    let json = b.json(NOW, &["ticket", "1A"]);
    let error = json["shape"]["second_diagonal"]["error_mm"]
        .as_f64()
        .unwrap();
    assert!((error + 3.175).abs() < 0.001, "{error}");
}

#[test]
fn bad_measures_are_told_and_nothing_is_kept() {
    let b = bench();
    for (size, more, said) in [
        (
            "quad 60, 25, 60, 25, diagonal 90",
            vec![],
            "60\" and 25\" do not make a triangle with 90\"",
        ),
        (
            "live both: 20 at 30, 24 at 10",
            vec![],
            "Station 2 is at 10\"",
        ),
        (
            "60 x 20",
            vec!["--corner", "round 21 front left"],
            "The round at the front left corner is 21\"",
        ),
        (
            "60 x 20",
            vec!["--cutout", "30 x 16 at 10, 10"],
            "Cutout 1 reaches 5\" past the left end",
        ),
        (
            "60 x 24",
            vec!["--cutout", "30 x 16 at 30, 12 sink undermount"],
            "The reveal of an undermount sink is not said",
        ),
    ] {
        let ended = b.run(NOW, &add(size, &more));
        assert_ne!(ended.code, 0, "{size}");
        assert!(ended.err.contains(said), "{size}: {}", ended.err);
    }
    assert_eq!(
        b.json(NOW, &["jobs"])["jobs"][0]["pieces"]
            .as_array()
            .map_or(0, Vec::len),
        0
    );
}

#[test]
fn a_corner_clipped_after_sanding_is_bare_and_the_rest_is_not() {
    let b = bench();
    b.ok(NOW, &add("60 x 20", &[]));
    b.ok("2026-11-02 09:00", &["tick", "1A", "80", "--faces", "all"]);
    let said = b.ok(
        "2026-11-02 10:00",
        &["piece", "--change", "1A", "--corner", "clip 3 front left"],
    );
    assert!(
        said.contains("Cut anew or filled, and so bare: front left corner."),
        "{said}"
    );
    let json = b.json("2026-11-02 10:00", &["ticket", "1A"]);
    for face in json["faces"].as_array().unwrap() {
        let ticked = !face["grits"][0]["done_at"].is_null();
        assert_eq!(ticked, face["face"] != "corner-front-left", "{face}");
    }
}
