//! When a coat is dry. The state of a coat is asked of a [`DryingClock`]: in the shop that is
//! [`super::ShopAirClock`]; [`LabelHours`], which takes the label's hours as plain hours, serves
//! records that are read in.

use super::figures::LabelFigures;
use super::product::{Product, Span};
use chrono::{DateTime, Utc};

/// Turns label time into moments.
pub trait DryingClock {
    /// The moment at which a coat laid (finished) at `laid` has had `span` of label time.
    fn reached(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc>;

    /// The moment at which a window of `span` after `laid` shuts: plain time or sooner, never
    /// later.
    fn shuts(&self, product: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc>;

    /// How the figures were reckoned, in words for the screen.
    fn basis(&self) -> &'static str;

    /// The same clock for a coat whose film factor is `k` (see [`super::model::film_factor`]);
    /// none where the clock takes every film for the label's.
    fn for_film(&self, k: f64) -> Option<Box<dyn DryingClock>> {
        let _ = k;
        None
    }
}

/// The label's hours as plain hours.
#[derive(Debug, Clone, Copy, Default)]
pub struct LabelHours;

impl DryingClock for LabelHours {
    fn reached(&self, _: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc> {
        laid + span.as_duration()
    }

    fn shuts(&self, _: &Product, laid: DateTime<Utc>, span: Span) -> DateTime<Utc> {
        laid + span.as_duration()
    }

    fn basis(&self) -> &'static str {
        "label hours"
    }
}

/// Whether the next coat may go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Recoat {
    /// Not yet: dry to recoat at `ready`.
    Wait {
        /// When it opens.
        ready: DateTime<Utc>,
    },
    /// Now.
    Open {
        /// Since when.
        since: DateTime<Utc>,
        /// When the window shuts, if it does.
        shuts: Option<DateTime<Utc>>,
        /// Whether this window asks for a scuff.
        scuff: bool,
    },
    /// Between two windows, where a coat would lift the one below.
    Lifts {
        /// When the earlier window shut.
        shut: DateTime<Utc>,
        /// When the next opens.
        ready: DateTime<Utc>,
    },
    /// The last window has shut: abrade, then go on.
    Missed {
        /// When it shut.
        since: DateTime<Utc>,
    },
}

/// State of a coat laid at `laid`, at the moment `now`. `tested` is when a touch test found it
/// dry to recoat: from then on the window counts as open whatever the clock says.
pub fn recoat_state(
    clock: &dyn DryingClock,
    product: &Product,
    laid: DateTime<Utc>,
    tested: Option<DateTime<Utc>>,
    now: DateTime<Utc>,
) -> Recoat {
    let figures: &LabelFigures = &product.label;
    let mut shut_before = None;
    for window in &figures.windows {
        let mut opens = clock.reached(product, laid, window.opens);
        let shuts = window.closes.map(|span| clock.shuts(product, laid, span));
        if let Some(tested) = tested
            && tested < opens
            && shut_before.is_none()
        {
            opens = tested;
        }
        if now < opens {
            return match shut_before {
                None => Recoat::Wait { ready: opens },
                Some(shut) => Recoat::Lifts { shut, ready: opens },
            };
        }
        match shuts {
            Some(shuts) if now > shuts => shut_before = Some(shuts.max(opens)),
            _ => {
                return Recoat::Open {
                    since: opens,
                    shuts,
                    scuff: window.scuff,
                };
            }
        }
    }
    match shut_before {
        Some(since) => Recoat::Missed { since },
        // A product always has a window (`Product::check`); with none, nothing is promised.
        None => Recoat::Wait {
            ready: laid + Span::days(3650).as_duration(),
        },
    }
}
