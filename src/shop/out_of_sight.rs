//! Words for moments that the drying clock cannot see: a film that never dries in the air that is
//! known and expected.

use crate::coating::beyond_sight;
use crate::units::moment::show_moment;
use chrono::{DateTime, Utc};
use chrono_tz::Tz;

/// When: the moment, or `once the shop is warmer or drier`.
pub(super) fn when(at: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    if beyond_sight(at, now) {
        "once the shop is warmer or drier".to_owned()
    } else {
        show_moment(at, now, zone)
    }
}

/// Until when: the moment, or `the shop is warmer or drier`.
pub(super) fn until(at: DateTime<Utc>, now: DateTime<Utc>, zone: Tz) -> String {
    if beyond_sight(at, now) {
        "the shop is warmer or drier".to_owned()
    } else {
        show_moment(at, now, zone)
    }
}
