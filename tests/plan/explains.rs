//! The sheet says what held each step, and what it says is so.

use super::made::shop;
use serde_json::{Value, json};
use tackfree::plan::{
    Broken, Held, Instance, Minute, OpId, Order, Plan, SearchSettings, Sheet, replay,
};

#[allow(clippy::needless_pass_by_value, reason = "the calls read better")]
fn op(id: i64, work: i64, more: Value) -> Value {
    let mut op = json!({
        "id": id, "job": 0, "work": work, "room": 0, "split": false, "dust": false, "settle": 0,
        "wet": 0, "hold": 0, "family": null, "release": 0,
    });
    for (key, value) in more.as_object().expect("an object") {
        op[key] = value.clone();
    }
    op
}

#[allow(clippy::needless_pass_by_value, reason = "the calls read better")]
fn sheet(ops: Vec<Value>, arcs: Value) -> Sheet {
    let order = Order(
        ops.iter()
            .map(|op| OpId(op["id"].as_i64().expect("an id")))
            .collect(),
    );
    let instance: Instance = serde_json::from_value(json!({
        "grid": 5, "now": 0, "horizon": 20000, "min_chunk": 15,
        "calendar": [[480, 720], [750, 990], [1920, 2160], [2190, 2430], [3360, 3600]],
        "rooms": [{"id": 0, "rack": 1}],
        "families": [{"id": 0, "setup": 10, "keep": 30}],
        "jobs": [{"id": 0, "weight": 1, "due": 900, "release": 0}],
        "ops": ops, "arcs": arcs,
    }))
    .expect("an instance");
    replay(&instance, &order).expect("a sheet")
}

fn held(sheet: &Sheet, id: i64) -> Held {
    sheet.line(OpId(id)).expect("a line").held
}

#[test]
fn each_cause_is_told() {
    let opens = Minute(480);
    let one = sheet(vec![op(1, 60, json!({}))], json!([]));
    assert_eq!(held(&one, 1), Held::Bench { until: opens });

    let hands = sheet(vec![op(1, 60, json!({})), op(2, 5, json!({}))], json!([]));
    let until = Minute(540);
    assert_eq!(
        held(&hands, 2),
        Held::Hands {
            with: OpId(1),
            until
        }
    );

    let lag = json!([{"from": 1, "to": 2, "min": 90, "window": 200, "extra": 15}]);
    let lag = sheet(vec![op(1, 60, json!({})), op(2, 5, json!({}))], lag);
    let until = Minute(630);
    assert_eq!(
        held(&lag, 2),
        Held::Lag {
            after: OpId(1),
            until
        }
    );
    let line = lag.line(OpId(2)).expect("a line");
    assert_eq!(line.window_shuts, Some(Minute(740)));
    assert_eq!(
        (line.start_by, line.extra, line.ready),
        (None, Minute(0), until)
    );

    let release = sheet(vec![op(1, 60, json!({"release": 505}))], json!([]));
    assert_eq!(held(&release, 1), Held::Release { until: Minute(505) });

    let coat = op(1, 20, json!({"wet": 100}));
    let dusty = op(2, 20, json!({"dust": true, "settle": 30}));
    let wet = sheet(vec![coat.clone(), dusty.clone()], json!([]));
    let until = Minute(600);
    assert_eq!(
        held(&wet, 2),
        Held::WetCoat {
            coat: OpId(1),
            until
        }
    );
    let dust = sheet(vec![dusty, coat], json!([]));
    let until = Minute(530);
    assert_eq!(
        held(&dust, 1),
        Held::Dust {
            from: OpId(2),
            until
        }
    );

    let full = vec![
        op(1, 20, json!({"hold": 200})),
        op(2, 20, json!({"hold": 200})),
    ];
    let full = sheet(full, json!([]));
    let until = Minute(700);
    assert_eq!(held(&full, 2), Held::Rack { by: OpId(1), until });
    assert_eq!(full.line(OpId(2)).map(|line| line.end), Some(until));
}

/// A step that does not fit what is left of the day waits for the next; sanding is cut.
#[test]
fn closing_time_cuts_sanding_and_moves_a_pass() {
    let first = op(1, 200, json!({}));
    let pass = sheet(vec![first.clone(), op(2, 60, json!({}))], json!([]));
    let line = pass.line(OpId(2)).expect("a line");
    assert_eq!(line.start, Minute(750));
    assert_eq!(line.held, Held::Bench { until: Minute(750) });
    let sanding = sheet(vec![first, op(2, 60, json!({"split": true}))], json!([]));
    let line = sanding.line(OpId(2)).expect("a line");
    let parts: Vec<(i64, i64)> = line.parts.iter().map(|&part| part.into()).collect();
    assert_eq!(parts, [(680, 720), (750, 770)]);
    // With fifty minutes forty go before noon and ten would be left: they start five later.
    let first = op(1, 200, json!({}));
    let short = sheet(vec![first, op(2, 50, json!({"split": true}))], json!([]));
    let line = short.line(OpId(2)).expect("a line");
    let parts: Vec<(i64, i64)> = line.parts.iter().map(|&part| part.into()).collect();
    assert_eq!(parts, [(685, 720), (750, 765)]);
}

/// A stain goes on only when it can be wiped off in time.
#[test]
fn a_stain_waits_for_its_wipe() {
    let arcs = json!([{"from": 2, "to": 3, "min": 5, "max": 15}]);
    let ops = vec![
        op(1, 205, json!({})),
        op(2, 15, json!({})),
        op(3, 20, json!({})),
    ];
    let sheet = sheet(ops, arcs);
    assert!(sheet.broken.is_empty());
    let stain = sheet.line(OpId(2)).expect("a line");
    assert_eq!(stain.start, Minute(750));
    assert_eq!(
        sheet.line(OpId(3)).map(|line| line.start_by),
        Some(Some(Minute(780)))
    );
    assert_eq!(
        sheet.line(OpId(3)).map(|line| line.start),
        Some(Minute(770))
    );
}

#[test]
fn a_stain_may_wait_inside_a_window_for_its_wipe() {
    let arcs = json!([{"from": 1, "to": 3, "min": 5, "max": 15}]);
    let late = op(3, 20, json!({"release": 600}));
    let sheet = sheet(vec![op(1, 15, json!({})), late], arcs);
    assert_eq!(
        sheet.line(OpId(1)).map(|line| line.start),
        Some(Minute(570))
    );
    assert_eq!(held(&sheet, 1), Held::Follower { follower: OpId(3) });
}

#[test]
fn set_up_is_shared_while_it_stands() {
    let family = json!({"family": 0});
    let ops = vec![
        op(1, 20, family.clone()),
        op(2, 20, family.clone()),
        op(3, 40, json!({})),
        op(4, 20, family),
    ];
    let sheet = sheet(ops, json!([]));
    let setups: Vec<i64> = sheet.lines.iter().map(|line| line.setup.0).collect();
    assert_eq!(setups, [10, 0, 0, 10]);
}

/// What cannot be kept is told, not hidden and not refused.
#[test]
fn a_lag_that_is_missed_already_is_told() {
    let arcs = json!([{"from": 1, "to": 2, "min": 5, "max": 15}]);
    let done = op(1, 15, json!({"done": [100, 115]}));
    let sheet = sheet(vec![done, op(2, 20, json!({}))], arcs);
    let (from, to) = (OpId(1), OpId(2));
    assert_eq!(
        sheet.broken,
        [Broken::TooLate {
            from,
            to,
            by: Minute(350)
        }]
    );
    assert_eq!(sheet.line(to).map(|line| line.start), Some(Minute(480)));
}

#[test]
fn work_beyond_the_calendar_is_told() {
    let ops = (1..=6).map(|id| op(id, 230, json!({}))).collect();
    let sheet = sheet(ops, json!([]));
    assert_eq!(sheet.broken, [Broken::BeyondCalendar(OpId(6))]);
}

/// A pass that is longer than any bench window is told too, and holds up nothing else.
#[test]
fn a_step_that_fits_no_window_is_told() {
    let sheet = sheet(vec![op(1, 20, json!({})), op(2, 300, json!({}))], json!([]));
    assert_eq!(sheet.broken, [Broken::BeyondCalendar(OpId(2))]);
    assert_eq!(
        sheet.line(OpId(1)).map(|line| line.start),
        Some(Minute(480))
    );
}

/// The cause lies at the start of the step, or lets go no later than it starts.
#[test]
fn no_cause_lies_after_the_start_it_explains() {
    for seed in 0..200 {
        let instance: Instance = serde_json::from_value(shop(seed)).expect("an instance");
        let settings = SearchSettings {
            iterations: 200,
            ..SearchSettings::default()
        };
        let sheet = Plan::search(&instance, &settings, None, &mut || false).expect("a sheet");
        for line in &sheet.lines {
            let exact = match line.held {
                Held::Free | Held::Follower { .. } => continue,
                Held::Rack { until, .. } => (until, line.end),
                Held::Bench { until }
                | Held::Release { until }
                | Held::Hands { until, .. }
                | Held::Lag { until, .. }
                | Held::WetCoat { until, .. }
                | Held::Dust { until, .. } => (until, line.start),
            };
            // Starts lie on the grid, a split step may start later for the sake of its last part.
            assert!(exact.0 <= exact.1, "seed {seed}: {line:?}");
            let op = instance
                .ops
                .iter()
                .find(|op| op.id == line.op)
                .expect("the step");
            if !op.split {
                assert!(
                    exact.1.0 - exact.0.0 < instance.grid.0,
                    "seed {seed}: {line:?}"
                );
            }
        }
    }
}
