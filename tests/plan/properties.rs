//! What holds of every sheet, on shops made by chance.

use super::checker::Week;
use super::made::{Dice, shop};
use super::weeks::{judged, open, starts};
use serde_json::Value;
use tackfree::plan::{
    Broken, Instance, Minute, OpId, Plan, Replayer, SearchSettings, Sheet, bound, replay,
};

fn read(value: &Value) -> Instance {
    serde_json::from_value(value.clone()).expect("an instance")
}

fn search(instance: &Instance, iterations: u64) -> Sheet {
    let settings = SearchSettings {
        iterations,
        ..SearchSettings::default()
    };
    Plan::search(instance, &settings, None, &mut || false).expect("a sheet")
}

/// Where no order was found that keeps every longest lag the sheet says so, and breaks nothing else.
/// Shops made by chance may leave no way to keep them all; how often it happens may not grow.
#[test]
fn no_sheet_breaks_a_rule_it_does_not_name() {
    let mut broken = 0;
    for seed in 0..600 {
        let text = shop(seed).to_string();
        let (sheet, verdict) = judged(&text, 300);
        let named = sheet.broken.iter().map(|broken| match broken {
            Broken::TooLate { from, to, .. } => format!("step {} too late after {}", to.0, from.0),
            Broken::BeyondCalendar(op) => format!("step {} beyond the calendar", op.0),
        });
        assert_eq!(verdict.faults, named.collect::<Vec<_>>(), "seed {seed}");
        broken += usize::from(!sheet.broken.is_empty());
        assert_eq!(
            (sheet.lateness, sheet.ends),
            (verdict.lateness, verdict.ends),
            "seed {seed}"
        );
        for line in &sheet.lines {
            assert_eq!(line.end.0, verdict.end[&line.op.0], "seed {seed}");
        }
    }
    assert!(
        broken <= 90,
        "{broken} of 600 sheets keep not every longest lag"
    );
}

#[test]
fn a_sheet_is_the_same_for_the_same_seed_and_count() {
    for seed in 0..40 {
        let instance = read(&shop(seed));
        assert_eq!(
            search(&instance, 2000),
            search(&instance, 2000),
            "seed {seed}"
        );
    }
}

#[test]
fn a_sheet_shows_its_order_and_the_order_its_sheet() {
    for seed in 0..100 {
        let instance = read(&shop(seed));
        let sheet = search(&instance, 300);
        assert_eq!(replay(&instance, &sheet.order()), Ok(sheet), "seed {seed}");
    }
}

#[test]
fn what_is_done_stays_where_it_is() {
    for seed in 0..150 {
        let value = shop(seed);
        let instance = read(&value);
        let sheet = search(&instance, 200);
        for op in &instance.ops {
            assert_eq!(
                sheet.line(op.id).is_some(),
                op.done.is_none(),
                "seed {seed}"
            );
        }
        let (_, verdict) = judged(&value.to_string(), 200);
        for op in instance.ops.iter().filter(|op| op.done.is_some()) {
            assert_eq!(
                op.done.map(|done| done.1.0),
                verdict.end.get(&op.id.0).copied()
            );
        }
    }
}

#[test]
fn a_sheet_planned_again_is_the_same_sheet() {
    let weeks = open().into_iter().map(|(_, text)| text);
    let made = (0..60).map(|seed| shop(seed).to_string());
    for text in weeks.chain(made) {
        let instance: Instance = serde_json::from_str(&text).expect("an instance");
        let first = search(&instance, 3000);
        let settings = SearchSettings {
            iterations: 3000,
            worth: Minute(1_000_000),
            ..SearchSettings::default()
        };
        let again = Plan::search(&instance, &settings, Some(&first.order()), &mut || false);
        let again = again.expect("a sheet");
        assert!(again.lateness <= first.lateness);
        if again.lateness == first.lateness {
            assert_eq!(again, first);
        }
    }
}

/// The first steps of a sheet done as planned: the rest stands.
#[test]
fn work_done_as_planned_leaves_the_rest_in_order() {
    for seed in 0..80 {
        let mut value = shop(seed);
        let first = search(&read(&value), 1500);
        let Some(line) = first.lines.first() else {
            continue;
        };
        // What is split stays in one piece here only if it was done in one.
        if line.parts.len() > 1 {
            continue;
        }
        let ops = value["ops"].as_array_mut().expect("steps");
        let op = ops
            .iter_mut()
            .find(|op| op["id"] == line.op.0)
            .expect("the step");
        op["done"] = serde_json::json!([line.start.0, line.end.0]);
        let again = replay(&read(&value), &first.order()).expect("a sheet");
        let rest: Vec<_> = first.lines[1..]
            .iter()
            .map(|line| (line.op, line.start))
            .collect();
        let now: Vec<_> = again
            .lines
            .iter()
            .map(|line| (line.op, line.start))
            .collect();
        // A set-up does not outlive the sheet: the next coat of the family is cold again.
        if first
            .lines
            .get(1)
            .is_none_or(|next| again.lines[0].setup == next.setup)
        {
            assert_eq!(rest, now, "seed {seed}");
        }
    }
}

/// A step that takes less never makes the sheet later by more than this share of the lateness and
/// a quarter of an hour a job: the order of before can be run again, and only set-ups that have
/// gone cold and windows that are missed by coming too soon can cost anything.
#[test]
fn less_work_never_costs_more_than_the_tolerance() {
    for seed in 0..150 {
        let instance = read(&shop(seed));
        let before = search(&instance, 1500);
        let mut dice = Dice::new(seed + 7000);
        let mut shorter = instance.clone();
        for op in shorter.ops.iter_mut().filter(|op| op.done.is_none()) {
            if dice.hit(40) {
                let grid = instance.grid.0;
                op.work = Minute((op.work.0 - grid).max(grid.min(op.work.0)));
            }
        }
        let settings = SearchSettings {
            iterations: 1500,
            ..SearchSettings::default()
        };
        let order = before.order();
        let after = Plan::search(&shorter, &settings, Some(&order), &mut || false);
        let after = after.expect("a sheet");
        let weights: i64 = instance.jobs.iter().map(|job| job.weight).sum();
        let most = before.lateness + before.lateness / 50 + 15 * weights;
        assert!(
            after.lateness <= most,
            "seed {seed}: {} then {}",
            before.lateness,
            after.lateness
        );
    }
}

#[test]
fn a_day_off_never_makes_the_bound_better() {
    let mut worse = 0;
    for seed in 0..150 {
        let instance = read(&shop(seed));
        let mut dice = Dice::new(seed);
        let bound_of = |instance: &Instance| bound(instance).expect("a bound");
        let before = bound_of(&instance);
        let mut off = instance.clone();
        let day = dice.to(15);
        off.calendar.retain(|window| window.open.0 / 1440 != day);
        let after = bound_of(&off);
        assert!(after.lateness >= before.lateness, "seed {seed}");
        assert!(after.ends >= before.ends, "seed {seed}");
        worse += i32::from(after.lateness > before.lateness);
        assert!(
            search(&instance, 300).lateness >= before.lateness,
            "seed {seed}"
        );
        assert!(search(&instance, 300).ends >= before.ends, "seed {seed}");
    }
    assert!(worse > 10, "{worse}");
}

#[test]
fn no_bound_lies_above_a_sheet_of_a_week() {
    for (name, text) in open() {
        let instance: Instance = serde_json::from_str(&text).expect("an instance");
        let bound = bound(&instance).expect("a bound");
        let sheet = search(&instance, 500);
        assert!(
            bound.lateness <= sheet.lateness && bound.ends <= sheet.ends,
            "{name}"
        );
    }
}

#[test]
fn a_replay_with_the_same_figures_gives_the_same_ends() {
    for seed in 0..100 {
        let instance = read(&shop(seed));
        let sheet = search(&instance, 200);
        let mut replayer = Replayer::new(&instance, &sheet.order()).expect("a replayer");
        for _ in 0..2 {
            let ends: Vec<_> = replayer.run().collect();
            let said: Vec<_> = sheet.jobs.iter().map(|job| (job.job, job.end)).collect();
            assert_eq!(ends, said, "seed {seed}");
        }
    }
}

/// A replay with other figures is the sheet of the instance with those figures.
#[test]
fn a_replay_with_other_figures_is_the_sheet_of_the_other_instance() {
    for seed in 0..150 {
        let instance = read(&shop(seed));
        let order = search(&instance, 200).order();
        let mut replayer = Replayer::new(&instance, &order).expect("a replayer");
        let mut dice = Dice::new(seed + 9000);
        let mut other = instance.clone();
        for op in other.ops.iter_mut().filter(|op| op.done.is_none()) {
            op.work = Minute(op.work.0 + dice.to(7));
            replayer.set_work(op.id, op.work);
            if op.wet.0 > 0 && op.hold.0 > 0 {
                (op.wet, op.hold) = (
                    Minute(op.wet.0 + dice.to(50)),
                    Minute(op.hold.0 + dice.to(50)),
                );
                replayer.set_drying(op.id, op.wet, op.hold);
            }
        }
        for arc in other.arcs.iter_mut().filter(|arc| arc.max.is_none()) {
            let later = dice.to(40);
            arc.min.0 += later;
            arc.window = arc.window.map(|window| Minute(window.0 + later));
            replayer.set_lag(arc.from, arc.to, arc.min);
        }
        let sheet = replay(&other, &order).expect("a sheet");
        let ends: Vec<_> = replayer.run().map(|(_, end)| end).collect();
        let said: Vec<_> = sheet.jobs.iter().map(|job| job.end).collect();
        assert_eq!(ends, said, "seed {seed}");
        if sheet.broken.is_empty() {
            let text = serde_json::to_string(&other).expect("json");
            let faults = Week::read(&text).judge(&starts(&sheet)).faults;
            assert_eq!(faults, Vec::<String>::new(), "seed {seed}");
        }
        for line in &sheet.lines {
            assert_eq!(replayer.times(line.op), Some((line.start, line.end)));
        }
        assert_eq!(replayer.times(OpId(-1)), None);
    }
}
