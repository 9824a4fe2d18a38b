//! Instances made by chance, with everything an instance can have.

use serde_json::{Value, json};

/// Chance from a seed, of the tests' own (a 64-bit linear congruence, Knuth's constants).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(2_862_933_555_777_941_757).wrapping_add(3))
    }

    pub fn to(&mut self, most: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = self.0.wrapping_add(1_442_695_040_888_963_407);
        i64::try_from((self.0 >> 33) % (u64::try_from(most).expect("positive") + 1)).expect("small")
    }

    pub fn hit(&mut self, percent: i64) -> bool {
        self.to(99) < percent
    }
}

/// A shop of a few jobs: splits, dust, coats, racks, set-ups, windows, longest lags, done steps.
pub fn shop(seed: u64) -> Value {
    let mut dice = Dice::new(seed);
    let grid = [1, 5, 5, 15][usize::try_from(dice.to(3)).expect("small")];
    let mut calendar = Vec::new();
    for day in 0..90 {
        if dice.hit(75) {
            let open = day * 1440 + 420 + dice.to(12) * 5;
            let noon = open + 150 + dice.to(20) * 5;
            calendar.push(json!([open, noon]));
            let again = noon + dice.to(6) * 5;
            calendar.push(json!([again, again + 160 + dice.to(20) * 5]));
        }
    }
    let rooms = [None, Some(1 + dice.to(3))].map(|rack| rack.filter(|_| dice.hit(80)));
    let (mut jobs, mut ops, mut arcs) = (Vec::new(), Vec::new(), Vec::new());
    let mut id = 10;
    for job in 0..2 + dice.to(4) {
        jobs.push(json!({
            "id": job, "weight": dice.to(5), "due": 1440 * dice.to(20),
            "release": if dice.hit(20) { 5 * dice.to(2000) } else { 0 },
        }));
        let (mut last, mut past) = (None, dice.hit(40));
        let mut clock = -4000;
        let bound = dice.hit(50);
        for step in 0..2 + dice.to(9) {
            past = past && dice.hit(60);
            let coat = step > 0 && dice.hit(50);
            let work = 5 * (1 + dice.to(11));
            let mut op = json!({
                "id": id, "job": job, "work": work, "room": dice.to(1),
                "split": !coat && dice.hit(60), "dust": !coat && dice.hit(70),
                "settle": if coat { 0 } else { 5 * dice.to(6) },
                "wet": if coat && dice.hit(80) { 5 * (1 + dice.to(60)) } else { 0 },
                "hold": if coat && dice.hit(80) { 5 * (1 + dice.to(90)) } else { 0 },
                "family": if coat && dice.hit(70) { Some(dice.to(1)) } else { None },
                "release": if dice.hit(5) { 5 * dice.to(1500) } else { 0 },
            });
            // What is done lies well back, so that no longest lag from it is missed already.
            if past {
                clock += 60 + dice.to(200);
                op["done"] = json!([clock, clock + work]);
            }
            // A stain and its wipe: neither makes dust, the first needs no place of its own.
            let quick = bound && !past && step % 3 == 1 && last.is_some();
            if quick {
                op["dust"] = json!(false);
                if let Some(stain) = ops
                    .last_mut()
                    .filter(|op: &&mut Value| op.get("done").is_none())
                {
                    for (key, value) in [
                        ("dust", json!(false)),
                        ("settle", json!(0)),
                        ("hold", json!(0)),
                    ] {
                        stain[key] = value;
                    }
                }
            }
            if let Some(from) = last {
                let min = 5 * dice.to(if quick { 3 } else { 60 });
                let window = (dice.hit(30) && !quick).then(|| min + 5 * dice.to(200));
                arcs.push(json!({
                    "from": from, "to": id, "min": min, "window": window,
                    "max": (quick && !op_done(&ops)).then(|| min + 5 * dice.to(3)),
                    "extra": if window.is_some() { 5 * dice.to(6) } else { 0 },
                }));
            }
            ops.push(op);
            last = Some(id);
            id += 1 + dice.to(2);
        }
    }
    json!({
        "grid": grid, "now": 0, "horizon": 90 * 1440, "min_chunk": 5 * dice.to(4),
        "calendar": calendar,
        "rooms": [{"id": 0, "rack": rooms[0]}, {"id": 1, "rack": rooms[1]}],
        "families": [{"id": 0, "setup": 15, "keep": 40}, {"id": 1, "setup": 5, "keep": 0}],
        "jobs": jobs, "ops": ops, "arcs": arcs,
    })
}

fn op_done(ops: &[Value]) -> bool {
    ops.last().is_some_and(|op| op.get("done").is_some())
}
