//! Money and hours by commands alone, through the real binary: one job from its first estimate to the
//! last receipt; JSON with units; bad input in clear words; the clock over a restart.

#![allow(clippy::unwrap_used, reason = "a test stops at once")]

#[path = "cli/bench.rs"]
#[allow(dead_code, reason = "made for more tests than these")]
mod bench;

use bench::Bench;

const DAY: &str = "2026-11-02 08:00";

fn cents(json: &serde_json::Value, field: &str) -> i64 {
    json[field].as_i64().unwrap()
}

#[test]
fn from_estimate_to_the_last_receipt() {
    let bench = Bench::with_top(DAY);
    let b = &bench;
    b.ok(
        DAY,
        &[
            "taxplace",
            "Alder County",
            "--rate",
            "4.5 %",
            "--on",
            "bought-in, other",
        ],
    );
    b.ok(
        DAY,
        &[
            "terms",
            "1",
            "--place",
            "alder county",
            "--cap",
            "california",
            "--sample",
            "yes",
        ],
    );
    b.ok(
        DAY,
        &[
            "item",
            "1",
            "undermount sink",
            "--each",
            "$240.00",
            "--markup",
            "15 %",
        ],
    );
    let made = b.json(DAY, &["estimate", "1"]);
    let lines = made["lines"].as_array().unwrap();
    let sum = |field: &str| lines.iter().map(|line| cents(line, field)).sum::<i64>();
    assert_eq!(sum("net_cents"), cents(&made, "net_cents"));
    assert_eq!(sum("tax_cents"), cents(&made, "tax_cents"));
    assert_eq!(cents(&made, "tax_cents"), 1_242);
    let steps = made["steps"].as_array().unwrap();
    let minutes: i64 = steps.iter().map(|step| cents(step, "minutes")).sum();
    assert_eq!(minutes, cents(&made, "likely_minutes"));
    let totals = made["totals"].as_array().unwrap();
    let totals: Vec<i64> = totals.iter().map(|at| cents(at, "total_cents")).collect();
    assert!(
        totals.windows(2).all(|pair| pair[0] < pair[1]),
        "{totals:?}"
    );
    let at_ninety = b.json(DAY, &["estimate", "1", "--confidence", "90"]);
    assert_eq!(cents(&at_ninety, "total_cents"), totals[3]);
    b.ok(DAY, &["estimate", "1", "--give"]);

    let said = b.ok(
        DAY,
        &[
            "sign", "1", "--at", "home", "--pay", "50/40/10", "--set", "dec 1",
        ],
    );
    // Signed on a Monday: Tuesday, Wednesday, Thursday.
    assert!(said.contains("until midnight of 2026-11-05"), "{said}");
    assert!(said.contains("above the most for California"), "{said}");
    let deal = b.json(DAY, &["deal", "1"]);
    let total = cents(&made, "total_cents");
    assert_eq!(cents(&deal, "total_cents"), total);
    assert_eq!(deal["notice_until"], "2026-11-05");
    let parts = deal["parts"].as_array().unwrap();
    assert_eq!(
        parts
            .iter()
            .map(|part| cents(part, "amount_cents"))
            .sum::<i64>(),
        total
    );

    let total = changed(b, total);
    paid_off(b, total, cents(&parts[0], "amount_cents"));
}

/// A change order, written and signed; the new total.
fn changed(b: &Bench, total: i64) -> i64 {
    b.ok(
        DAY,
        &[
            "change",
            "1",
            "round two corners",
            "--price",
            "100",
            "--days",
            "3",
        ],
    );
    let open = b.ok(DAY, &["deal", "1"]);
    assert!(open.contains("NOT SIGNED"), "{open}");
    b.ok(DAY, &["change", "1", "--no", "1", "--sign"]);
    let total = total + 10_450;
    let deal = b.json(DAY, &["deal", "1"]);
    assert_eq!(
        (cents(&deal, "total_cents"), &deal["promised"]),
        (total, &"2026-12-04".into())
    );
    let jobs = b.json(DAY, &["jobs"]);
    assert_eq!(jobs["jobs"][0]["promised"], "2026-12-04");
    total
}

/// Billed and paid, late at first, to the last cent.
fn paid_off(b: &Bench, total: i64, first: i64) {
    b.ok(DAY, &["invoice", "1", "deposit", "--due", "in 3 days"]);
    b.ok(DAY, &["paid", "1", "500", "--how", "check 7"]);
    let later = "2026-11-20 09:00";
    let owed = b.json(later, &["owed"]);
    assert_eq!(cents(&owed, "overdue_cents"), first - 50_000);
    assert_eq!(owed["jobs"][0]["overdue_since"], "2026-11-05");
    let letter = b.ok(later, &["remind", "1"]);
    assert!(
        letter.contains("past its due date") && letter.contains("$500.00 paid"),
        "{letter}"
    );

    b.ok(later, &["invoice", "1", "rest"]);
    let refused = b.run(later, &["invoice", "1", "0.01"]);
    assert_eq!(refused.code, 1);
    assert!(
        refused.err.contains("$0.01 more than its total"),
        "{}",
        refused.err
    );
    let left = cents(&b.json(later, &["deal", "1"]), "balance_cents");
    b.ok(
        later,
        &["paid", "1", &format!("{}.{:02}", left / 100, left % 100)],
    );
    let deal = b.json(later, &["deal", "1"]);
    assert_eq!(
        (cents(&deal, "balance_cents"), cents(&deal, "paid_cents")),
        (0, total)
    );
    let nothing = b.run(later, &["remind", "1"]);
    assert!(
        nothing.err.contains("Nothing is billed and open"),
        "{}",
        nothing.err
    );
}

#[test]
fn a_sample_is_noted_and_approved_once() {
    let bench = Bench::with_top(DAY);
    let b = &bench;
    b.ok(DAY, &["terms", "1", "--sample", "yes"]);
    let deal = b.ok(DAY, &["deal", "1"]);
    assert!(
        deal.contains("approved sample board before stain"),
        "{deal}"
    );
    b.ok(
        DAY,
        &[
            "sampleboard",
            "1",
            "maple, 150, gel stain",
            "--twin",
            "drawer 3",
        ],
    );
    b.ok(
        DAY,
        &["sampleboard", "1", "--no", "1", "--approve", "--by", "Ada"],
    );
    let deal = b.json(DAY, &["deal", "1"]);
    assert_eq!(deal["samples"][0]["approved_by"], "Ada");
    let again = b.run(DAY, &["sampleboard", "1", "--no", "1", "--approve"]);
    assert!(
        again.err.contains("approved on 2026-11-02 by Ada already"),
        "{}",
        again.err
    );
}

#[test]
fn the_clock_runs_over_restarts_and_hours_are_corrected() {
    let bench = Bench::with_top(DAY);
    let b = &bench;
    b.ok("2026-11-02 08:00", &["clock", "sand", "1A"]);
    b.ok("2026-11-02 08:30", &["clock", "--pause", "telephone"]);
    b.ok("2026-11-02 08:45", &["clock", "--go-on"]);
    let said = b.ok("2026-11-02 09:45", &["clock", "--stop"]);
    assert!(said.contains("after 1 h 30 min"), "{said}");
    b.ok(
        "2026-11-02 12:00",
        &[
            "hourslog",
            "--add",
            "cutout",
            "--piece",
            "1A",
            "--for",
            "1h",
            "--break",
            "10 min lunch bell",
        ],
    );
    let hours = b.json("2026-11-02 12:00", &["hourslog", "--job", "1"]);
    let hours = hours["hours"].as_array().unwrap();
    assert_eq!(cents(&hours[0], "worked_minutes"), 90);
    assert_eq!(cents(&hours[1], "worked_minutes"), 50);
    assert_eq!(hours[1]["breaks"][0]["why"], "lunch bell");
    let code = hours[1]["code"].as_str().unwrap();
    b.ok(
        "2026-11-02 12:05",
        &[
            "hourslog", "--change", code, "--for", "40 min", "--step", "rework",
        ],
    );
    let none = b.run(DAY, &["slip", "1"]);
    assert!(
        none.err.contains("No estimate was given for job 1"),
        "{}",
        none.err
    );
    b.ok(DAY, &["estimate", "1", "--give"]);
    let slip = b.json("2026-11-02 13:00", &["slip", "1"]);
    assert_eq!(slip["cause"], "rework");
    assert_eq!(cents(&slip, "over_minutes"), 30);
    b.ok("2026-11-02 13:00", &["remove", "hours", code]);
    b.ok("2026-11-02 13:00", &["undo"]);
    let hours = b.json("2026-11-02 13:00", &["hourslog"]);
    assert_eq!(hours["hours"].as_array().unwrap().len(), 2);
}

#[test]
fn what_does_not_read_is_told_with_its_option() {
    let bench = Bench::with_top(DAY);
    let b = &bench;
    for (args, says) in [
        (
            &["prices", "--pay", "a lot"][..],
            "--pay: \"a lot\" does not read as an amount",
        ),
        (&["prices", "--billable", "0"], "No billable hours are left"),
        (
            &["prices", "--profit", "100 %"],
            "--profit: A margin of 100 % cannot be",
        ),
        (&["prices", "--confidence", "99"], "from 5 to 95 %"),
        (
            &["prices", "--wood", "maple"],
            "--wood: write the wood and its price",
        ),
        (
            &["taxplace", "X", "--rate", "-1"],
            "is not between 0 and 1000 %",
        ),
        (&["cap", "Nowhere"], "needs a share or an amount"),
        (
            &["cap", "Nowhere", "--remove"],
            "There is no deposit cap of Nowhere",
        ),
        (
            &["terms", "1", "--place", "Mars"],
            "Mars is not in the table",
        ),
        (
            &["item", "1", "sink", "--each", "1", "--count", "0"],
            "--count: \"0\" is no count",
        ),
        (
            &["item", "1", "sink", "--each", "1.005"],
            "--each: \"1.005\" has parts of a cent",
        ),
        (
            &["sign", "1", "--at", "moon", "--pay", "50/50"],
            "is not among them",
        ),
        (
            &["sign", "1", "--at", "shop", "--pay", "half"],
            "--pay: \"half\" is no payment",
        ),
        (
            &["sign", "1", "--at", "shop", "--pay", "50/50"],
            "No estimate was given",
        ),
        (
            &["change", "1", "edge", "--price", "5"],
            "Nothing is signed for job 1",
        ),
        (&["invoice", "1", "deposit"], "has no deposit"),
        (&["invoice", "1", "-5"], "unexpected argument"),
        (&["paid", "1", "0"], "payment of nothing"),
        (&["paid", "9", "5"], "There is no job \"9\""),
        (&["clock", "fly", "1A"], "is not among them"),
        (&["clock", "sand"], "Say the pieces"),
        (&["clock", "--stop"], "No clock runs"),
        (
            &["hourslog", "--add", "sand", "--piece", "1A"],
            "Say how long it took",
        ),
        (
            &["hourslog", "--change", "zzz", "--for", "1h"],
            "no entry of that code",
        ),
        (&["remove", "invoice", "3"], "There is no invoice 3"),
        (&["remove", "change", "1"], "parted by a stroke"),
    ] {
        let ended = b.run(DAY, args);
        assert!((1..=2).contains(&ended.code), "{args:?}: {ended:?}");
        assert!(ended.err.contains(says), "{args:?}: {}", ended.err);
    }
    let clean = b.ok(DAY, &["item", "1", "\u{1b}[31msink\u{7}", "--each", "5"]);
    assert!(
        !clean.contains('\u{1b}') && clean.contains("control characters were left out"),
        "{clean}"
    );
}

#[test]
fn the_demo_shop_tells_its_money() {
    let bench = Bench::new();
    for args in [
        &["--demo", "owed"][..],
        &["--demo", "deal", "1"],
        &["--demo", "slip", "6"],
        &["--demo", "pace"],
        &["--demo", "prices"],
        &["--demo", "clock"],
        &["--demo", "hourslog"],
        &["--demo", "remind", "2"],
    ] {
        let said = bench.ok("2026-11-25 14:00", args);
        assert!(
            said.lines().all(|line| line.chars().count() <= 80),
            "{args:?}: {said}"
        );
    }
    let owed = bench.ok("2026-11-25 14:00", &["--demo", "owed"]);
    let owed = owed.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(owed.contains("overdue since"), "{owed}");
    let deal = bench.ok("2026-11-25 14:00", &["--demo", "deal", "1"]);
    assert!(
        deal.contains("NOT SIGNED") && deal.contains("approved"),
        "{deal}"
    );
}
