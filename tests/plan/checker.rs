//! Judges a sheet by the starts of its steps alone. Work, set-up, extra work and ends are reckoned
//! here again, another way than the planner does, and it shares no code with it: it reads the JSON
//! of the instance itself.

use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
pub struct Week {
    pub grid: i64,
    pub now: i64,
    #[serde(default)]
    pub min_chunk: i64,
    pub calendar: Vec<(i64, i64)>,
    #[serde(default)]
    pub rooms: Vec<Room>,
    #[serde(default)]
    pub families: Vec<Family>,
    pub jobs: Vec<Job>,
    pub ops: Vec<Op>,
    #[serde(default)]
    pub arcs: Vec<Arc>,
}

#[derive(Deserialize)]
pub struct Room {
    pub id: i64,
    pub rack: Option<usize>,
}

#[derive(Deserialize)]
pub struct Family {
    pub id: i64,
    pub setup: i64,
    pub keep: i64,
}

#[derive(Deserialize)]
pub struct Job {
    pub id: i64,
    pub weight: i64,
    pub due: i64,
    #[serde(default)]
    pub release: i64,
}

#[derive(Deserialize)]
pub struct Op {
    pub id: i64,
    pub job: i64,
    pub work: i64,
    pub room: i64,
    pub split: bool,
    pub dust: bool,
    #[serde(default)]
    pub settle: i64,
    #[serde(default)]
    pub wet: i64,
    #[serde(default)]
    pub hold: i64,
    #[serde(default)]
    pub family: Option<i64>,
    #[serde(default)]
    pub release: i64,
    #[serde(default)]
    pub done: Option<(i64, i64)>,
}

#[derive(Deserialize)]
pub struct Arc {
    pub from: i64,
    pub to: i64,
    pub min: i64,
    #[serde(default)]
    pub max: Option<i64>,
    #[serde(default)]
    pub window: Option<i64>,
    #[serde(default)]
    pub extra: i64,
}

/// What the starts come to.
pub struct Verdict {
    /// Every rule that is broken; none on a sheet that can be worked.
    pub faults: Vec<String>,
    /// Weight times minutes late, over all jobs.
    pub lateness: i64,
    /// Sum of the jobs' ends.
    pub ends: i64,
    /// The end of every step.
    pub end: BTreeMap<i64, i64>,
}

impl Week {
    pub fn read(text: &str) -> Self {
        serde_json::from_str(text).expect("an instance in JSON")
    }

    /// Judges the starts of the steps that are not done.
    pub fn judge(&self, start: &BTreeMap<i64, i64>) -> Verdict {
        let mut faults = Vec::new();
        let mut spans: BTreeMap<i64, (i64, i64)> = BTreeMap::new();
        for op in &self.ops {
            if let Some(done) = op.done {
                spans.insert(op.id, done);
            }
        }
        let mut todo: Vec<&Op> = Vec::new();
        for op in self.ops.iter().filter(|op| op.done.is_none()) {
            if start.contains_key(&op.id) {
                todo.push(op);
            } else {
                faults.push(format!("step {} has no start", op.id));
            }
        }
        todo.sort_by_key(|op| (start[&op.id], op.id));
        let mut before: Option<&Op> = None;
        for op in &todo {
            let at = start[&op.id];
            let job = self.jobs.iter().find(|job| job.id == op.job).expect("job");
            let earliest = self.now.max(op.release).max(job.release);
            if at < earliest || at.rem_euclid(self.grid) != 0 {
                faults.push(format!("step {} starts too soon or off the grid", op.id));
            }
            let mut work = op.work + self.extra(op, at, &spans, &mut faults);
            if let Some(family) = self.families.iter().find(|f| Some(f.id) == op.family) {
                let warm = before.is_some_and(|last| {
                    last.family == op.family && at <= spans[&last.id].1 + family.keep
                });
                work += if warm { 0 } else { family.setup };
            }
            if let Some(last) = before
                && spans[&last.id].1 > at
            {
                faults.push(format!("steps {} and {} at one time", last.id, op.id));
            }
            let end = self.walk(op, at, work, &mut faults);
            spans.insert(op.id, (at, end));
            before = Some(op);
        }
        self.judge_air(&spans, &mut faults);
        self.judge_racks(&spans, &mut faults);
        let (mut lateness, mut ends) = (0, 0);
        for job in &self.jobs {
            let of_job = self.ops.iter().filter(|op| op.job == job.id);
            let end = of_job.filter_map(|op| spans.get(&op.id)).map(|span| span.1);
            let end = end.max().expect("a step");
            lateness += job.weight * (end - job.due).max(0);
            ends += end;
        }
        Verdict {
            faults,
            lateness,
            ends,
            end: spans.iter().map(|(id, span)| (*id, span.1)).collect(),
        }
    }

    /// Extra work by the windows of the arcs into a step, and whether its lags are kept.
    fn extra(
        &self,
        op: &Op,
        at: i64,
        spans: &BTreeMap<i64, (i64, i64)>,
        faults: &mut Vec<String>,
    ) -> i64 {
        let mut extra = 0;
        for arc in self.arcs.iter().filter(|arc| arc.to == op.id) {
            let Some(&(_, end)) = spans.get(&arc.from) else {
                faults.push(format!("step {} comes before step {}", op.id, arc.from));
                continue;
            };
            if at < end + arc.min {
                faults.push(format!("step {} too soon after {}", op.id, arc.from));
            }
            if arc.max.is_some_and(|max| at > end + max) {
                faults.push(format!("step {} too late after {}", op.id, arc.from));
            }
            if arc.window.is_some_and(|window| at > end + window) {
                extra += arc.extra;
            }
        }
        extra
    }

    /// Walks through the bench hours until the work is done.
    fn walk(&self, op: &Op, at: i64, work: i64, faults: &mut Vec<String>) -> i64 {
        let (mut left, mut parts, mut end) = (work, Vec::new(), at);
        for &(open, close) in &self.calendar {
            if close <= at || left == 0 {
                continue;
            }
            if parts.is_empty() && open > at {
                break;
            }
            let part = left.min(close - open.max(at));
            parts.push(part);
            left -= part;
            end = open.max(at) + part;
        }
        if left > 0 {
            faults.push(format!(
                "step {} starts or goes on outside bench hours",
                op.id
            ));
        }
        if parts.len() > 1 && !op.split {
            faults.push(format!("step {} is cut by a break", op.id));
        }
        if parts.len() > 1 && parts.iter().any(|part| *part < self.min_chunk) {
            faults.push(format!("step {} has a part that is too short", op.id));
        }
        end
    }

    /// No dusty step while a coat in the room is open to dust, from either side.
    fn judge_air(&self, spans: &BTreeMap<i64, (i64, i64)>, faults: &mut Vec<String>) {
        for dusty in self.ops.iter().filter(|op| op.dust) {
            for coat in self.ops.iter().filter(|op| op.wet > 0) {
                let both_done = dusty.done.is_some() && coat.done.is_some();
                if dusty.room != coat.room || dusty.id == coat.id || both_done {
                    continue;
                }
                let (Some(d), Some(c)) = (spans.get(&dusty.id), spans.get(&coat.id)) else {
                    continue;
                };
                if d.0 < c.1 + coat.wet && c.0 < d.1 + dusty.settle {
                    faults.push(format!("dust of {} on the coat of {}", dusty.id, coat.id));
                }
            }
        }
    }

    /// Never more pieces on a rack than it has places, where a step still to do brings one.
    fn judge_racks(&self, spans: &BTreeMap<i64, (i64, i64)>, faults: &mut Vec<String>) {
        for room in &self.rooms {
            let Some(rack) = room.rack else { continue };
            let on = |op: &&Op| op.room == room.id && op.hold > 0 && spans.contains_key(&op.id);
            for op in self.ops.iter().filter(on) {
                let at = spans[&op.id].1;
                let there = |other: &&Op| {
                    let end = spans[&other.id].1;
                    end <= at && at < end + other.hold
                };
                let count = self.ops.iter().filter(on).filter(there).count();
                if at >= self.now && op.done.is_none() && count > rack {
                    faults.push(format!("rack of room {} too full at {at}", room.id));
                }
            }
        }
    }
}
