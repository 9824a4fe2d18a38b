//! What the books prove about one machine, and the whole truth about small shops.

use super::checker::Week;
use super::made::{Dice, shop};
use super::weeks::{judged, starts};
use serde_json::{Value, json};
use tackfree::plan::{Instance, OpId, Order, Sheet, replay};

/// One machine without an end of day: `(work, weight, due)` of each job.
fn one_machine(jobs: &[(i64, i64, i64)]) -> String {
    let total: i64 = jobs.iter().map(|job| job.0).sum();
    let row = |(id, &(_, weight, due)): (usize, &(i64, i64, i64))| json!({"id": id, "weight": weight, "due": due, "release": 0});
    let op = |(id, &(work, _, _)): (usize, &(i64, i64, i64))| json!({"id": id, "job": id, "work": work, "room": 0, "split": false, "dust": false});
    json!({
        "grid": 1, "now": 0, "horizon": total, "calendar": [[0, total]],
        "jobs": jobs.iter().enumerate().map(row).collect::<Vec<Value>>(),
        "ops": jobs.iter().enumerate().map(op).collect::<Vec<Value>>(),
    })
    .to_string()
}

fn made(dice: &mut Dice, count: i64) -> Vec<(i64, i64, i64)> {
    let job = |_| (1 + dice.to(99), 1 + dice.to(9), dice.to(count * 60));
    (0..count).map(job).collect()
}

fn run(text: &str, order: &[i64]) -> Sheet {
    let instance: Instance = serde_json::from_str(text).expect("an instance");
    let order = Order(order.iter().map(|&id| OpId(id)).collect());
    replay(&instance, &order).expect("a sheet")
}

/// W. E. Smith, "Various optimizers for single-stage production", Naval Research Logistics
/// Quarterly 3 (1956) 59-66: the weighted sum of ends is least in the order of work by weight.
/// With every promise at zero that sum is the weighted lateness.
#[test]
fn promises_at_zero_give_the_order_of_work_by_weight() {
    for seed in 0..12 {
        let mut dice = Dice::new(seed);
        let mut jobs = made(&mut dice, 14);
        for job in &mut jobs {
            job.2 = 0;
        }
        let (sheet, verdict) = judged(&one_machine(&jobs), 30_000);
        let mut rule = jobs.clone();
        rule.sort_by(|a, b| (a.0 * b.1).cmp(&(b.0 * a.1)));
        let (mut at, mut least) = (0, 0);
        for (work, weight, _) in rule {
            at += work;
            least += weight * at;
        }
        assert_eq!(verdict.lateness, least, "seed {seed}");
        for pair in sheet.lines.windows(2) {
            let [a, b] = [0, 1].map(|k| jobs[usize::try_from(pair[k].op.0).expect("small")]);
            assert!(a.0 * b.1 <= b.0 * a.1, "seed {seed}: not by work by weight");
        }
    }
}

/// J. R. Jackson, "Scheduling a production line to minimize maximum tardiness", Management Science
/// Research Project, Research Report 43, University of California, Los Angeles (1955): one machine's
/// greatest lateness is least in the order of due dates.
#[test]
fn no_order_has_a_smaller_greatest_lateness_than_that_of_due_dates() {
    let greatest = |sheet: &Sheet| sheet.jobs.iter().map(|job| -job.slack().0).max();
    for seed in 0..20 {
        let mut dice = Dice::new(seed + 100);
        let jobs = made(&mut dice, 6);
        let text = one_machine(&jobs);
        let mut by_due: Vec<i64> = (0..6).collect();
        let index = |id: i64| usize::try_from(id).expect("small");
        by_due.sort_by_key(|&id| jobs[index(id)].2);
        let least = greatest(&run(&text, &by_due));
        let mut best = None;
        each_order(&mut vec![], 6, &mut |order| {
            let here = greatest(&run(&text, order));
            best = best.min(here).or(here);
        });
        assert_eq!(best, least, "seed {seed}");
        let (sheet, _) = judged(&text, 5_000);
        assert!(greatest(&sheet) >= least, "seed {seed}");
    }
}

/// By the same theorem every promise can be kept when the order of due dates keeps them all.
#[test]
fn what_the_order_of_due_dates_keeps_is_kept() {
    for seed in 0..12 {
        let mut dice = Dice::new(seed + 300);
        let mut jobs = made(&mut dice, 30);
        let mut at = 0;
        for job in &mut jobs {
            at += job.0;
            job.2 = at + dice.to(2) * 5;
        }
        // Put about, so that the order they are given in tells nothing.
        for k in (1..jobs.len()).rev() {
            let other = usize::try_from(dice.to(i64::try_from(k).expect("small"))).expect("small");
            jobs.swap(k, other);
        }
        let (_, verdict) = judged(&one_machine(&jobs), 50_000);
        assert_eq!(verdict.lateness, 0, "seed {seed}");
    }
}

fn each_order(order: &mut Vec<i64>, count: i64, each: &mut dyn FnMut(&[i64])) {
    if i64::try_from(order.len()) == Ok(count) {
        return each(order);
    }
    for id in 0..count {
        if !order.contains(&id) {
            order.push(id);
            each_order(order, count, each);
            order.pop();
        }
    }
}

/// On shops small enough to try every order, none is better than the sheet.
#[test]
fn no_order_at_all_beats_the_sheet_of_a_small_shop() {
    let mut tried = 0;
    for seed in 0..700 {
        let text = shop(seed).to_string();
        let week = Week::read(&text);
        let todo: Vec<i64> = week
            .ops
            .iter()
            .filter(|op| op.done.is_none())
            .map(|op| op.id)
            .collect();
        if !(3..=6).contains(&todo.len()) {
            continue;
        }
        tried += 1;
        let (sheet, verdict) = judged(&text, 6_000);
        assert_eq!(verdict.faults, Vec::<String>::new(), "seed {seed}");
        each_order(
            &mut vec![],
            i64::try_from(todo.len()).expect("small"),
            &mut |order| {
                let order: Vec<i64> = order
                    .iter()
                    .map(|&k| todo[usize::try_from(k).expect("small")])
                    .collect();
                let other = run(&text, &order);
                if other.broken.is_empty() {
                    let judged = week.judge(&starts(&other));
                    assert_eq!(judged.faults, Vec::<String>::new(), "seed {seed}");
                    let (ours, theirs) =
                        ((sheet.lateness, sheet.ends), (judged.lateness, judged.ends));
                    assert!(
                        ours <= theirs,
                        "seed {seed}: {ours:?} against {theirs:?} by {order:?}"
                    );
                }
            },
        );
    }
    assert!(tried >= 10, "{tried}");
}
