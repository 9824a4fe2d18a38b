//! The same by commands, through the real binary.

use crate::bench::Bench;

const NOW: &str = "2026-11-25 14:00";

#[test]
fn a_can_is_received_weighed_poured_from_and_thrown_away() {
    let bench = Bench::new();
    let out = bench.ok(
        NOW,
        &[
            "can",
            "receive",
            "clear wiping varnish",
            "--count",
            "2",
            "--batch",
            "V-7",
            "--price",
            "28.50",
            "--keeps",
            "3 years",
            "--keeps-open",
            "12 months",
            "--empty",
            "4.6 oz",
            "--place",
            "cabinet",
        ],
    );
    assert!(
        out.starts_with("Received 2 cans of clear wiping varnish (1, 2): 32 fl oz each, batch V-7, $57.00 in all\n"),
        "{out}"
    );
    assert!(out.contains("Write 1, 2 on the lids."), "{out}");
    bench.ok(NOW, &["can", "open", "1"]);
    let out = bench.ok(NOW, &["can", "weigh", "1", "2", "lb", "1", "oz"]);
    assert!(out.contains("935.5 g, so"), "{out}");
    let doubt = bench.run(NOW, &["can", "weigh", "1", "36.8 oz", "--at", "13:59"]);
    assert_eq!(doubt.code, 1, "{doubt:?}");
    assert!(doubt.err.contains("add --sure."), "{}", doubt.err);
    let out = bench.ok(NOW, &["client", "Ada Brook"]);
    assert!(out.contains("Ada Brook"));
    bench.ok(
        NOW,
        &["can", "jar", "1", "2 fl oz", "--client", "Ada Brook"],
    );
    let neither = bench.run(NOW, &["can", "jar", "1", "2 fl oz"]);
    assert_eq!(neither.code, 2, "{neither:?}");
    bench.ok(NOW, &["can", "move", "2", "van"]);
    bench.ok(NOW, &["can", "correct", "2", "--batch", "V-8"]);
    let list = bench.ok(NOW, &["cans"]);
    for words in [
        "V-7",
        "V-8",
        "open",
        "sealed",
        "by subtraction since it was weighed, 2:00 pm",
        "good until",
        "van",
    ] {
        assert!(list.contains(words), "{words}: {list}");
    }
    assert!(
        list.lines().all(|line| line.chars().count() <= 80),
        "{list}"
    );
    let json = bench.json(NOW, &["cans"]);
    let can = &json["cans"][0];
    assert_eq!(can["no"], 1);
    assert_eq!(can["known"], "subtracted");
    assert_eq!(can["empty_is"], "given");
    assert_eq!(can["moves"].as_array().map(Vec::len), Some(2));
    assert_eq!(json["cans"][1]["batch"], "V-8");
    let one = bench.ok(NOW, &["cans", "can 1"]);
    assert!(one.contains("jar of 2 fl oz for Ada Brook"), "{one}");
    bench.ok(NOW, &["can", "strike", "1", "last"]);
    assert!(!bench.ok(NOW, &["cans", "1"]).contains("jar of"));
    let out = bench.ok(NOW, &["can", "discard", "2", "leaks"]);
    assert!(
        out.contains("Mind: ") && out.contains("local rules"),
        "{out}"
    );
    assert!(!bench.ok(NOW, &["cans"]).contains("V-8"));
    assert!(bench.ok(NOW, &["cans", "--all"]).contains("discarded"));
    bench.ok(NOW, &["undo"]);
    assert!(bench.ok(NOW, &["cans"]).contains("V-8"));
    let used = bench.run(NOW, &["can", "remove", "1"]);
    assert!(used.err.contains("the can has work on record"), "{used:?}");
    bench.ok(NOW, &["can", "receive", "hardwax oil"]);
    bench.ok(NOW, &["can", "remove", "3"]);
    assert!(!bench.ok(NOW, &["cans", "--all"]).contains("hardwax"));
}

#[test]
fn what_does_not_read_is_said() {
    let bench = Bench::new();
    let cases: [(&[&str], &str); 8] = [
        (&["can", "open", "7"], "There is no can \"7\""),
        (&["can", "receive", "no such"], "There is no product"),
        (
            &["can", "receive", "clear wiping varnish", "--keeps", "long"],
            "--keeps: \"long\" does not read as how long it keeps",
        ),
        (
            &["can", "receive", "clear wiping varnish", "--price", "-3"],
            "--price: A can's price is nothing or more",
        ),
        (
            &["can", "receive", "clear wiping varnish", "--held", "2 gal"],
            "cannot have come with",
        ),
        (
            &["can", "receive", "clear wiping varnish", "--count", "0"],
            "Between 1 and 100",
        ),
        (
            &[
                "can",
                "receive",
                "clear wiping varnish",
                "--on",
                "2027-01-01",
            ],
            "is still to come",
        ),
        (&["tally", "--by", "week"], "possible values"),
    ];
    for (args, words) in cases {
        let ended = bench.run(NOW, args);
        assert_ne!(ended.code, 0, "{args:?}");
        assert!(ended.err.contains(words), "{args:?}: {}", ended.err);
    }
}

#[test]
fn a_pass_names_its_can_and_is_amended() {
    let bench = Bench::new();
    bench.ok(NOW, &["--demo", "cans"]);
    let export = bench.path("demo");
    let folder = export.to_string_lossy().into_owned();
    bench.ok(NOW, &["--demo", "export", &folder]);
    bench.ok(NOW, &["import", &folder]);
    let ticket = bench.ok(NOW, &["ticket", "1C"]);
    assert!(
        ticket.contains("brown gel stain as stain: batch K-2190 + K-2195 (can 7)"),
        "{ticket}"
    );
    assert!(ticket.contains("no can named for 1 pass"), "{ticket}");
    // The pickup shelf's coat: from the gallon, by its number.
    let pass = bench.ok(
        NOW,
        &[
            "amend", "last", "--can", "3", "--lost", "2 g", "--method", "brushed",
        ],
    );
    assert!(pass.contains("from can 3"), "{pass}");
    let doubt = bench.run(NOW, &["amend", "last", "--used", "2 gal"]);
    assert_eq!(doubt.code, 1);
    let json = bench.json(NOW, &["tally", "--by", "product"]);
    let groups = json["groups"].as_array().expect("groups");
    let varnish = groups
        .iter()
        .find(|group| group["group"] == "clear wiping varnish");
    let films = varnish.expect("the varnish")["rows"][0]["films"]
        .as_array()
        .expect("films")
        .len();
    assert_eq!(films, 2, "wiped and brushed side by side");
    bench.ok(NOW, &["undo"]);
}

#[test]
fn weights_and_words_are_read_as_they_are_typed() {
    use tackfree::desk::AmountDraft;
    use tackfree::desk::typed::{read_amount, read_keeps, read_method, read_weight, split_sure};
    use tackfree::shop::Settings;
    use tackfree::units::Mass;
    // Ounces and pounds avoirdupois: 28.349523125 g and 453.59237 g (NIST Handbook 44, Appendix C).
    for (text, mg) in [
        ("1042 g", 1_042_000),
        ("36.8 oz", 1_043_262),
        ("2 lb 4 oz", 1_020_583),
        ("1.2 kg", 1_200_000),
    ] {
        assert_eq!(read_weight(text), Ok(Mass::from_mg(mg)), "{text}");
    }
    for text in ["", "heavy", "12", "3 fl oz"] {
        assert!(read_weight(text).is_err(), "{text}");
    }
    let settings = Settings::starting(chrono_tz::America::Chicago);
    assert_eq!(
        read_amount("> 884 g", &settings),
        Ok(AmountDraft::WeighedAfter(Mass::from_mg(884_000)))
    );
    assert!(matches!(
        read_amount("36.8 oz > 31 oz", &settings),
        Ok(AmountDraft::Weighed { .. })
    ));
    assert_eq!(split_sure("4 oz sure"), ("4 oz", true));
    assert_eq!(split_sure("SURE"), ("", true));
    assert_eq!(split_sure("measure"), ("measure", false));
    assert_eq!(split_sure("\u{e9}sure"), ("\u{e9}sure", false));
    assert_eq!(read_keeps("keeps", "18 months"), Ok(Some(548)));
    assert_eq!(read_keeps("keeps", "3 years"), Ok(Some(1_095)));
    assert_eq!(read_keeps("keeps", ""), Ok(None));
    assert!(read_keeps("keeps", "200 years").is_err());
    assert!(read_method("mopped").is_err());
    assert_eq!(read_method(""), Ok(None));
}
