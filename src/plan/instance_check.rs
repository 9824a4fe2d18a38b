//! What makes an instance one that can be planned at all.

use super::instance::{FamilyId, Instance, JobId, Minute, OpId, Window};
use std::collections::{HashMap, HashSet};
use thiserror::Error;

/// The farthest minute from zero that is reckoned with: more than a hundred years.
const FARTHEST: i64 = 1 << 26;
/// Most steps of one instance.
const MOST_OPS: usize = 5_000;

/// Why an instance cannot be planned.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum InstanceError {
    /// Starts lie on a grid of at least one minute.
    #[error("the grid is {} minutes; give at least 1", .0.0)]
    Grid(Minute),
    /// A window that closes before it opens, or opens before the one before has closed.
    #[error("the bench window {} to {} is empty or lies over the one before; give them ascending", .0.open.0, .0.close.0)]
    Window(Window),
    /// No window reaches past `now`.
    #[error("no bench hours are left after now; give a calendar that goes on")]
    NoBenchHours,
    /// More steps than are planned in one go.
    #[error("{0} steps are too many; plan up to {most} at once", most = MOST_OPS)]
    TooMany(usize),
    /// A figure so far from zero that sums of it make no sense.
    #[error("{what} is {} minutes, which is more than a hundred years from zero", .at.0)]
    TooFar {
        /// The figure.
        what: &'static str,
        /// What it was.
        at: Minute,
    },
    /// A span below zero.
    #[error("{what} of step {} is below zero; give zero or more", .op.0)]
    Negative {
        /// The figure.
        what: &'static str,
        /// The step.
        op: OpId,
    },
    /// A figure of a family below zero.
    #[error("the set-up of family {} is below zero; give zero or more", .0.0)]
    NegativeFamily(FamilyId),
    /// Weights count lateness, so none is below zero.
    #[error("the weight of job {} is below zero or above 10000", .0.0)]
    Weight(JobId),
    /// Two steps of one name.
    #[error("there are two steps called {}", .0.0)]
    TwoOps(OpId),
    /// Two jobs of one name.
    #[error("there are two jobs called {}", .0.0)]
    TwoJobs(JobId),
    /// Two families of one name.
    #[error("there are two families called {}", .0.0)]
    TwoFamilies(FamilyId),
    /// A rack given twice.
    #[error("there are two rooms called {0}")]
    TwoRooms(i64),
    /// A step of a job that is not listed.
    #[error("step {} is of job {}, which is not listed", .op.0, .job.0)]
    NoSuchJob {
        /// The step.
        op: OpId,
        /// The job.
        job: JobId,
    },
    /// A step of a family that is not listed.
    #[error("step {} is of family {}, which is not listed", .op.0, .family.0)]
    NoSuchFamily {
        /// The step.
        op: OpId,
        /// The family.
        family: FamilyId,
    },
    /// An arc to or from a step that is not listed.
    #[error("an arc names step {}, which is not listed", .0.0)]
    NoSuchOp(OpId),
    /// A job with nothing to do has no end.
    #[error("job {} has no steps, so it has no end", .0.0)]
    NoSteps(JobId),
    /// A longest lag below the shortest.
    #[error("from step {} to step {} the longest lag is below the shortest", .from.0, .to.0)]
    Lags {
        /// The step before.
        from: OpId,
        /// The step after.
        to: OpId,
    },
    /// Steps that wait for each other in a ring.
    #[error("step {} waits for itself, by way of others", .0.0)]
    Ring(OpId),
    /// A rack with no place for a coat that needs one.
    #[error("step {} needs a rack place in a room that has none", .0.0)]
    NoRack(OpId),
}

type Checked = Result<(), InstanceError>;

impl Instance {
    /// Whether it can be planned.
    ///
    /// # Errors
    /// The first [`InstanceError`] found.
    pub fn check(&self) -> Checked {
        if self.grid.0 < 1 {
            return Err(InstanceError::Grid(self.grid));
        }
        if self.ops.len() > MOST_OPS {
            return Err(InstanceError::TooMany(self.ops.len()));
        }
        near("the grid", self.grid)?;
        near("now", self.now)?;
        near("the horizon", self.horizon)?;
        near("the shortest part", self.min_chunk)?;
        self.check_calendar()?;
        self.check_names()?;
        self.check_figures()?;
        self.check_arcs()?;
        self.check_racks()
    }

    fn check_calendar(&self) -> Checked {
        let mut until = Minute(-FARTHEST);
        for &window in &self.calendar {
            near("a bench window", window.open)?;
            near("a bench window", window.close)?;
            if window.open < until || window.close <= window.open {
                return Err(InstanceError::Window(window));
            }
            until = window.close;
        }
        let work_left = self.ops.iter().any(|op| op.done.is_none());
        if work_left && until <= self.now {
            return Err(InstanceError::NoBenchHours);
        }
        Ok(())
    }

    fn check_names(&self) -> Checked {
        let (mut ops, mut jobs) = (HashSet::new(), HashSet::new());
        let (mut families, mut rooms) = (HashSet::new(), HashSet::new());
        for job in &self.jobs {
            if !jobs.insert(job.id) {
                return Err(InstanceError::TwoJobs(job.id));
            }
        }
        for family in &self.families {
            if !families.insert(family.id) {
                return Err(InstanceError::TwoFamilies(family.id));
            }
        }
        for room in &self.rooms {
            if !rooms.insert(room.id) {
                return Err(InstanceError::TwoRooms(room.id.0));
            }
        }
        let mut busy = HashSet::new();
        for op in &self.ops {
            let (id, job) = (op.id, op.job);
            if !ops.insert(id) {
                return Err(InstanceError::TwoOps(id));
            }
            if !jobs.contains(&job) {
                return Err(InstanceError::NoSuchJob { op: id, job });
            }
            if let Some(family) = op.family
                && !families.contains(&family)
            {
                return Err(InstanceError::NoSuchFamily { op: id, family });
            }
            busy.insert(job);
        }
        for arc in &self.arcs {
            for id in [arc.from, arc.to] {
                if !ops.contains(&id) {
                    return Err(InstanceError::NoSuchOp(id));
                }
            }
        }
        match self.jobs.iter().find(|job| !busy.contains(&job.id)) {
            Some(job) => Err(InstanceError::NoSteps(job.id)),
            None => Ok(()),
        }
    }

    fn check_figures(&self) -> Checked {
        for job in &self.jobs {
            near("a promised end", job.due)?;
            near("a job's release", job.release)?;
            if !(0..=10_000).contains(&job.weight) {
                return Err(InstanceError::Weight(job.id));
            }
        }
        for family in &self.families {
            near("a set-up", family.setup)?;
            near("how long a set-up stands", family.keep)?;
            if family.setup.0 < 0 || family.keep.0 < 0 {
                return Err(InstanceError::NegativeFamily(family.id));
            }
        }
        for op in &self.ops {
            near("a step's release", op.release)?;
            let spans = [
                ("the work", op.work, i64::from(op.done.is_none())),
                ("the settling of dust", op.settle, 0),
                ("the time open to dust", op.wet, 0),
                ("the time on the rack", op.hold, 0),
            ];
            for (what, span, least) in spans {
                near(what, span)?;
                if span.0 < least {
                    return Err(InstanceError::Negative { what, op: op.id });
                }
            }
            if let Some((start, end)) = op.done {
                near("a start", start)?;
                near("an end", end)?;
                if end < start {
                    let what = "the time taken";
                    return Err(InstanceError::Negative { what, op: op.id });
                }
            }
        }
        Ok(())
    }

    fn check_arcs(&self) -> Checked {
        for arc in &self.arcs {
            let (op, to) = (arc.from, arc.to);
            near("a lag", arc.min)?;
            near("extra work", arc.extra)?;
            for longest in [arc.max, arc.window].into_iter().flatten() {
                near("a lag", longest)?;
            }
            if arc.min.0 < 0 || arc.extra.0 < 0 {
                let what = "the lag or the extra work after it";
                return Err(InstanceError::Negative { what, op });
            }
            if arc.max.is_some_and(|max| max < arc.min) {
                return Err(InstanceError::Lags { from: op, to });
            }
        }
        match self.ring() {
            Some(op) => Err(InstanceError::Ring(op)),
            None => Ok(()),
        }
    }

    /// A step that waits for itself.
    fn ring(&self) -> Option<OpId> {
        let mut waits: HashMap<OpId, usize> = self.ops.iter().map(|op| (op.id, 0)).collect();
        let mut after: HashMap<OpId, Vec<OpId>> = HashMap::new();
        for arc in &self.arcs {
            *waits.entry(arc.to).or_default() += 1;
            after.entry(arc.from).or_default().push(arc.to);
        }
        let mut free: Vec<OpId> = self.ops.iter().map(|op| op.id).collect();
        free.retain(|id| waits.get(id) == Some(&0));
        while let Some(id) = free.pop() {
            waits.remove(&id);
            for next in after.remove(&id).unwrap_or_default() {
                if let Some(count) = waits.get_mut(&next) {
                    *count -= 1;
                    if *count == 0 {
                        free.push(next);
                    }
                }
            }
        }
        self.ops
            .iter()
            .map(|op| op.id)
            .find(|id| waits.contains_key(id))
    }

    fn check_racks(&self) -> Checked {
        let bare = |op: &&super::Op| {
            let none = |room: &super::Room| room.id == op.room && room.rack == Some(0);
            op.done.is_none() && op.hold.0 > 0 && self.rooms.iter().any(none)
        };
        match self.ops.iter().find(bare) {
            Some(op) => Err(InstanceError::NoRack(op.id)),
            None => Ok(()),
        }
    }
}

fn near(what: &'static str, at: Minute) -> Checked {
    if at.0.abs() > FARTHEST {
        return Err(InstanceError::TooFar { what, at });
    }
    Ok(())
}
