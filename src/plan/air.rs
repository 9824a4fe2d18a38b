//! The rooms at a point of the order.

use super::model::{Model, NONE};

/// The rooms at a point of the order: until when there is dust, until when coats are open to dust,
/// and when the places of the racks come free.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Air {
    pub(super) dust_until: Vec<i64>,
    pub(super) wet_until: Vec<i64>,
    pub(super) places: Vec<i64>,
}

impl Air {
    pub(super) fn of(model: &Model) -> Self {
        Self {
            dust_until: model.dust_until.clone(),
            wet_until: model.wet_until.clone(),
            places: model.places.clone(),
        }
    }

    #[inline]
    pub(super) fn take(&mut self, other: &Self) {
        self.dust_until.copy_from_slice(&other.dust_until);
        self.wet_until.copy_from_slice(&other.wet_until);
        self.places.copy_from_slice(&other.places);
    }

    /// What a step that ends at `end` leaves behind.
    #[inline]
    pub(super) fn leave(&mut self, model: &Model, step: usize, end: i64) {
        let row = &model.steps[step];
        if row.dust {
            let until = &mut self.dust_until[row.room];
            *until = (*until).max(end + row.settle);
        }
        if row.wet > 0 {
            let until = &mut self.wet_until[row.room];
            *until = (*until).max(end + row.wet);
        }
        if row.rack != NONE {
            let free = end + row.hold;
            let places = &mut self.places[row.rack..row.rack + row.places];
            if free > places[0] {
                places[0] = free;
                let mut k = 1;
                while k < places.len() && places[k] < places[k - 1] {
                    places.swap(k, k - 1);
                    k += 1;
                }
            }
        }
    }
}
