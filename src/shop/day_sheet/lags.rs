//! How long a step waits for the one before it, in the air that is expected then.
//!
//! A coat laid in the evening of a cold shop dries longer than one laid at noon, so a lag depends on
//! when the step before it ends. It is reckoned for an expected end, the sheet is made, and where a
//! coat would go on sooner than the clock lets it, the lag is raised and the sheet is made again.

use super::floor::Floor;
use super::todo::{Before, Lag, PieceWork, Todo};
use crate::coating::{LabelFigures, Product, ProductId, Recoat, Span, beyond_sight, recoat_state};
use crate::shop::event::CoatKind;
use crate::shop::sheet_kept::StepCode;
use chrono::{DateTime, Duration, Utc};

/// What one step waits for, and what it leaves behind, in minutes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lagged {
    /// Per entry of [`Todo::after`]: the shortest wait.
    pub min: Vec<i64>,
    /// Per entry of [`Todo::after`]: how long until the window shuts.
    pub window: Vec<Option<i64>>,
    /// How long its coat is open to dust.
    pub wet: i64,
    /// How long it needs the rack.
    pub hold: i64,
    /// Whether it waits for a film that does not dry in the air expected.
    pub never: bool,
}

/// The steps of one piece with their lags.
pub type PieceLags = Vec<Lagged>;

/// Start and end of a step on a sheet.
pub type Times = (DateTime<Utc>, DateTime<Utc>);

/// The lags of a piece whose steps end when `times` says.
pub fn lags(floor: &Floor<'_>, work: &PieceWork, times: &[Times]) -> PieceLags {
    let mut out: PieceLags = Vec::new();
    for (at, todo) in work.todos.iter().enumerate() {
        let mut lagged = Lagged::default();
        for after in &todo.after {
            let (min, window) = match after.from {
                Before::Laid(_) => (Some(0), None),
                Before::Todo(before) => between(floor, after.lag, todo, times[before].1),
            };
            lagged.never |= min.is_none();
            lagged.min.push(min.unwrap_or(0));
            lagged.window.push(window);
        }
        if let Some(product) = coat_of(floor, todo) {
            let end = times[at].1;
            let last = !work.todos[at + 1..]
                .iter()
                .any(|later| matches!(later.key.step, StepCode::Coat(..)));
            let held = match (product.label.windows.first(), last) {
                (Some(window), false) => window.opens,
                _ => product.label.handle,
            };
            lagged.wet = minutes(floor, product, end, dust_free(&product.label)).unwrap_or(DAY);
            lagged.hold = minutes(floor, product, end, held).unwrap_or(DAY);
        }
        out.push(lagged);
    }
    out
}

/// When dust no longer sticks. Labels do not say it; it lies between set to touch and tack-free (in
/// the order of stages of ASTM D1640), and is taken half way (a judgement).
pub fn dust_free(label: &LabelFigures) -> Span {
    let both = label.touch.as_minutes() + label.tack_free.as_minutes();
    Span::minutes(both / 2)
}

const DAY: i64 = 24 * 60;

/// Raises every lag that this sheet shows to be too short; whether any was.
pub fn raise(floor: &Floor<'_>, work: &PieceWork, times: &[Times], lagged: &mut PieceLags) -> bool {
    let now = lags(floor, work, times);
    let mut raised = false;
    for (at, (had, has)) in lagged.iter_mut().zip(now).enumerate() {
        for (no, after) in work.todos[at].after.iter().enumerate() {
            let mut needs = has.min[no];
            if let (Before::Todo(before), Lag::Recoat(id)) = (after.from, after.lag)
                && let Some(product) = floor.gates.product(id)
            {
                // Between two windows the coat would lift the one below.
                let (laid, start) = (times[before].1, times[at].0);
                let state = recoat_state(floor.gates.clock, product, laid, None, start);
                if let Recoat::Wait { ready } | Recoat::Lifts { ready, .. } = state {
                    needs = needs.max(up(ready - laid));
                }
            }
            // A lag is raised only where the sheet runs into it: another may be the tighter one.
            let is_short = match after.from {
                Before::Todo(before) => times[at].0 - times[before].1 < Duration::minutes(needs),
                Before::Laid(_) => false,
            };
            if is_short && needs > had.min[no] {
                had.min[no] = needs;
                raised = true;
            }
            had.window[no] = match (had.window[no], has.window[no]) {
                (Some(had), Some(has)) => Some(had.min(has)),
                (had, has) => had.or(has),
            };
        }
        raised |= has.wet > had.wet || has.hold > had.hold;
        had.wet = had.wet.max(has.wet);
        had.hold = had.hold.max(has.hold);
    }
    raised
}

/// The shortest wait (none where the film never dries) and how long until the window shuts.
fn between(
    floor: &Floor<'_>,
    lag: Lag,
    todo: &Todo,
    end: DateTime<Utc>,
) -> (Option<i64>, Option<i64>) {
    let product = |id: ProductId| floor.gates.product(id);
    match lag {
        Lag::Order => (Some(0), None),
        Lag::Recoat(id) => {
            let Some(product) = product(id) else {
                return (Some(0), None);
            };
            let opens = product.label.windows.first().map(|window| window.opens);
            let closes = product
                .label
                .windows
                .last()
                .and_then(|window| window.closes);
            let min = opens.map_or(Some(0), |opens| minutes(floor, product, end, opens));
            let is_coat = matches!(todo.key.step, StepCode::Coat(..));
            let window = closes
                .filter(|_| is_coat)
                .map(|closes| (floor.gates.clock.shuts(product, end, closes) - end).num_minutes());
            (min, window)
        }
        Lag::Flash(id) => {
            let opens = product(id).and_then(|product| {
                let opens = product.label.windows.first()?.opens;
                minutes(floor, product, end, opens)
            });
            // As the gates have it: a day is long for any wipe.
            (Some(opens.unwrap_or(0).min(DAY)), None)
        }
        Lag::Cure(id, span) => match product(id) {
            Some(product) => (minutes(floor, product, end, span), None),
            None => (Some(span.as_minutes()), None),
        },
    }
}

/// Minutes until a coat laid at `laid` has had `span` of label time; none if it never does.
fn minutes(floor: &Floor<'_>, product: &Product, laid: DateTime<Utc>, span: Span) -> Option<i64> {
    let at = floor.gates.clock.reached(product, laid, span);
    (!beyond_sight(at, laid)).then(|| up(at - laid))
}

/// Whole minutes, rounded up.
fn up(span: Duration) -> i64 {
    (span.num_seconds() + 59).div_euclid(60)
}

/// The product of a step that lays a coat.
fn coat_of<'a>(floor: &Floor<'a>, todo: &Todo) -> Option<&'a Product> {
    match todo.key.step {
        StepCode::Coat(CoatKind::Seal | CoatKind::Stain | CoatKind::Topcoat, _)
        | StepCode::WipeOff => floor.product(todo.product?),
        _ => None,
    }
}

/// Times of the steps as if nothing else were to be done: what the first lags are reckoned for.
pub fn alone(floor: &Floor<'_>, work: &PieceWork, from: DateTime<Utc>) -> Vec<Times> {
    let mut times: Vec<Times> = Vec::new();
    for todo in &work.todos {
        let mut start = todo.ready.map_or(from, |ready| ready.max(from));
        for after in &todo.after {
            if let Before::Todo(before) = after.from {
                let end = times[before].1;
                let min = between(floor, after.lag, todo, end).0.unwrap_or(0);
                start = start.max(end + Duration::minutes(min));
            }
        }
        let work = floor.spread(todo).likely.ceil();
        // A step takes days at the most.
        #[allow(clippy::cast_possible_truncation)]
        let end = start + Duration::minutes(work.min(1e6) as i64);
        times.push((start, end));
    }
    times
}
