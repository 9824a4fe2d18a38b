//! Words for moments that the drying clock cannot see: a film that never dries in the air that is
//! known and expected.

use crate::units::moment::show_moment;
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;

/// Whether a moment lies so far ahead that the clock only says "not in this air": it looks ten
/// years ahead, and no label asks for five.
pub fn out_of_sight(at: DateTime<Utc>, now: DateTime<Utc>) -> bool {
    at - now > Duration::days(5 * 365)
}

/// When: the moment, or `once the shop is warmer or drier`.
pub(super) fn when(at: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    if out_of_sight(at, now) {
        "once the shop is warmer or drier".to_owned()
    } else {
        show_moment(at, now, zone)
    }
}

/// Until when: the moment, or `the shop is warmer or drier`.
pub(super) fn until(at: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    if out_of_sight(at, now) {
        "the shop is warmer or drier".to_owned()
    } else {
        show_moment(at, now, zone)
    }
}
