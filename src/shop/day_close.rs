//! The day's end: which chores a day's log calls for, which are done, whether the day is closed.
//!
//! Nothing of this is kept but what was ticked and closed: what is called for follows from the
//! pieces' logs each time, so that a time corrected later moves its chores along.

use super::chore::{Chore, ChoreDone, DayClosed, DayLog};
use super::event::{CoatKind, Event, What};
use super::id::PieceId;
use super::piece::PieceFile;
use super::schedule::WipeDown;
use crate::coating::{Product, ProductId};
use crate::shape::FaceKey;
use chrono::{DateTime, Days, Duration, NaiveDate, Timelike, Utc};
use chrono_tz::Tz;

/// From this hour on the shop's clock a day that is not closed is worth a word on leaving.
const LATE_HOUR: u32 = 16;
/// How many days back a day that was left open is still told of.
const LOOK_BACK: u64 = 7;

/// What called for a chore.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cause {
    /// The piece.
    pub piece: PieceId,
    /// The product, where it was one.
    pub product: Option<ProductId>,
    /// When it was done.
    pub at: DateTime<Utc>,
}

/// One chore that a day calls for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    /// Which.
    pub chore: Chore,
    /// What called for it, oldest first; at least one.
    pub causes: Vec<Cause>,
    /// The last of them.
    pub last: DateTime<Utc>,
    /// The tick, if there is one.
    pub ticked: Option<ChoreDone>,
}

impl Call {
    /// Whether the tick covers all that called for it: rags used after they were taken out are
    /// other rags.
    pub fn is_done(&self) -> bool {
        self.ticked.is_some_and(|ticked| ticked.at >= self.last)
    }
}

/// How a day stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DayState {
    /// Nothing was done that leaves a chore, and nobody closed it.
    Nothing,
    /// Chores, and not closed.
    Open,
    /// Closed, but something that leaves a chore not done was logged for after it.
    OpenAgain,
    /// Closed.
    Closed,
}

/// A day's end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayEnd {
    /// The day on the shop's calendar.
    pub day: NaiveDate,
    /// What it calls for.
    pub calls: Vec<Call>,
    /// How it was closed, if it was.
    pub closed: Option<DayClosed>,
}

impl DayEnd {
    /// What is not done yet.
    pub fn to_do(&self) -> Vec<Chore> {
        self.calls
            .iter()
            .filter(|call| !call.is_done())
            .map(|call| call.chore)
            .collect()
    }

    /// The call for a chore.
    pub fn call(&self, chore: Chore) -> Option<&Call> {
        self.calls.iter().find(|call| call.chore == chore)
    }

    /// The call for oily rags, if they are not logged as made safe.
    pub fn rags(&self) -> Option<&Call> {
        self.call(Chore::OilyRags).filter(|call| !call.is_done())
    }

    /// How the day stands.
    pub fn state(&self) -> DayState {
        match &self.closed {
            None if self.calls.is_empty() => DayState::Nothing,
            None => DayState::Open,
            Some(closed) => {
                let after = |call: &&Call| !call.is_done() && call.last > closed.at;
                if self.calls.iter().any(|call| after(&call)) {
                    DayState::OpenAgain
                } else {
                    DayState::Closed
                }
            }
        }
    }

    /// Whether somebody should still see to it.
    pub fn is_open(&self) -> bool {
        matches!(self.state(), DayState::Open | DayState::OpenAgain)
    }
}

/// The day on the shop's calendar: clocks put forward or back make it 23 or 25 hours long, no
/// more.
pub fn day_of(at: DateTime<Utc>, zone: Tz) -> NaiveDate {
    at.with_timezone(&zone).date_naive()
}

/// Whether it is late enough to speak of the day's end.
pub fn is_late(now: DateTime<Utc>, zone: Tz) -> bool {
    now.with_timezone(&zone).hour() >= LATE_HOUR
}

/// The end of one day, from the logs of all pieces.
pub fn day_end(
    day: NaiveDate,
    files: &[PieceFile],
    products: &[Product],
    log: &DayLog,
    zone: Tz,
) -> DayEnd {
    let mut calls: Vec<Call> = Vec::new();
    // Noon in the zone, give or take: what lies further off is of another day without asking the
    // calendar, which is slow on a long log.
    let noon = day.and_hms_opt(12, 0, 0).map(|noon| noon.and_utc());
    let far = |at: DateTime<Utc>| noon.is_some_and(|noon| (at - noon).abs() > Duration::hours(40));
    for file in files {
        for (no, event) in file.events.iter().enumerate() {
            if far(event.at) || day_of(event.at, zone) != day {
                continue;
            }
            let before = &file.events[..no];
            let (chores, product) = leaves(event, before, file, products);
            for chore in chores {
                let cause = Cause {
                    piece: file.piece.id,
                    product,
                    at: event.at,
                };
                match calls.iter_mut().find(|call| call.chore == *chore) {
                    Some(call) => call.causes.push(cause),
                    None => calls.push(Call {
                        chore: *chore,
                        causes: vec![cause],
                        last: cause.at,
                        ticked: log.done(day, *chore).copied(),
                    }),
                }
            }
        }
    }
    for call in &mut calls {
        call.causes.sort_by_key(|cause| (cause.at, cause.piece));
        call.last = call
            .causes
            .iter()
            .map(|cause| cause.at)
            .fold(call.last, Ord::max);
    }
    calls.sort_by_key(|call| call.chore);
    DayEnd {
        day,
        calls,
        closed: log.closed(day).cloned(),
    }
}

/// The newest of the last days before `today` that was left open.
pub fn left_open(
    today: NaiveDate,
    files: &[PieceFile],
    products: &[Product],
    log: &DayLog,
    zone: Tz,
) -> Option<DayEnd> {
    before(today, files, products, log, zone).find(DayEnd::is_open)
}

/// The newest of the last days before `day` that is open with oily rags not logged as safe.
pub fn rags_left(
    day: NaiveDate,
    files: &[PieceFile],
    products: &[Product],
    log: &DayLog,
    zone: Tz,
) -> Option<DayEnd> {
    before(day, files, products, log, zone).find(|end| end.is_open() && end.rags().is_some())
}

/// The ends of the last days before one, newest first.
fn before(
    day: NaiveDate,
    files: &[PieceFile],
    products: &[Product],
    log: &DayLog,
    zone: Tz,
) -> impl Iterator<Item = DayEnd> {
    (1..=LOOK_BACK)
        .filter_map(move |back| day.checked_sub_days(Days::new(back)))
        .map(move |day| day_end(day, files, products, log, zone))
}

/// The chores that one line of a log leaves, and the product they come from.
fn leaves(
    event: &Event,
    before: &[Event],
    file: &PieceFile,
    products: &[Product],
) -> (&'static [Chore], Option<ProductId>) {
    let of_product = |id: ProductId| {
        let family = products.iter().find(|product| product.id == id);
        let chores = family.map_or(&[][..], |product| Chore::of_family(product.family));
        (chores, Some(id))
    };
    match &event.what {
        What::Coat { product, .. } => of_product(*product),
        What::Wipe { .. } => match file.schedule.wipe_down {
            WipeDown::With(product) => of_product(product),
            WipeDown::NotAsked | WipeDown::Dry => (&[], None),
        },
        What::WipeOff { faces } => stain_on(faces, before).map_or((&[], None), of_product),
        What::Scuff { means, .. } => (Chore::of_scuff(*means), None),
        What::SandBack { faces, .. } if has_coat(faces, before) => (&[Chore::FinishDust], None),
        What::Tick { .. } | What::SandBack { .. } => (&[Chore::WoodDust], None),
        What::Untick { .. }
        | What::Touch { .. }
        | What::NotExposed { .. }
        | What::Exposed { .. }
        | What::Reshaped { .. }
        | What::Moved { .. }
        | What::SetList { .. } => (&[], None),
    }
}

/// The stain laid last on any of these faces.
fn stain_on(faces: &[FaceKey], before: &[Event]) -> Option<ProductId> {
    before.iter().rev().find_map(|event| match &event.what {
        What::Coat {
            kind: CoatKind::Stain,
            product,
            faces: on,
            ..
        } if on.iter().any(|(face, _)| faces.contains(face)) => Some(*product),
        _ => None,
    })
}

/// Whether any of these faces was coated before.
fn has_coat(faces: &[FaceKey], before: &[Event]) -> bool {
    before.iter().any(|event| match &event.what {
        What::Coat { faces: on, .. } => on.iter().any(|(face, _)| faces.contains(face)),
        _ => false,
    })
}
