//! What one face carries now: its grits, its wipe-down, its coats.

use super::event::{CoatKind, ScuffMeans, TouchVerdict};
use super::id::PassId;
use super::schedule::Grit;
use crate::coating::ProductId;
use crate::shape::{FaceGrain, FaceGroup, FaceKey};
use crate::units::Area;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// One coat as a face carries it.
#[derive(Debug, Clone, PartialEq)]
pub struct Coat {
    /// The pass it came from.
    pub pass: PassId,
    /// What kind.
    pub kind: CoatKind,
    /// Of what.
    pub product: ProductId,
    /// Start of the pass.
    pub started: DateTime<Utc>,
    /// End of the pass.
    pub ended: DateTime<Utc>,
    /// When it was wiped off (stain).
    pub wiped_off: Option<DateTime<Utc>>,
    /// The last scuff on it.
    pub scuffed: Option<(DateTime<Utc>, ScuffMeans)>,
    /// The last touch test of it.
    pub touch: Option<(DateTime<Utc>, TouchVerdict)>,
    /// First touch test that found it dry to recoat, unless a later one found it soft.
    pub recoat_tested: Option<DateTime<Utc>>,
    /// First touch test that found it dry to handle, unless a later one found it soft.
    pub handle_tested: Option<DateTime<Utc>>,
}

impl Coat {
    /// From when its drying counts: the wipe-off where there was one, else the end of the pass.
    pub fn dries_from(&self) -> DateTime<Utc> {
        self.wiped_off
            .map_or(self.ended, |wiped| wiped.max(self.ended))
    }

    pub(super) fn test(&mut self, at: DateTime<Utc>, verdict: TouchVerdict) {
        self.touch = Some((at, verdict));
        if verdict < TouchVerdict::DryToRecoat {
            self.recoat_tested = None;
            self.handle_tested = None;
        }
        if verdict >= TouchVerdict::DryToRecoat {
            self.recoat_tested.get_or_insert(at);
        }
        if verdict == TouchVerdict::DryToHandle {
            self.handle_tested.get_or_insert(at);
        }
    }
}

/// What one face carries now.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceState {
    /// Which face.
    pub key: FaceKey,
    /// Its grain.
    pub grain: FaceGrain,
    /// Its group in the schedule.
    pub group: FaceGroup,
    /// Its area now.
    pub area: Area,
    /// The grits it carries, and since when.
    pub ticks: BTreeMap<Grit, DateTime<Utc>>,
    /// When it was wiped down.
    pub wiped: Option<DateTime<Utc>>,
    /// Its coats, first to last.
    pub coats: Vec<Coat>,
    /// The written reason if it was declared not exposed.
    pub not_exposed: Option<String>,
    /// How often it was sanded back.
    pub sand_backs: u32,
    /// Time of the last work on it.
    pub last_work: Option<DateTime<Utc>>,
}

impl FaceState {
    pub(super) fn bare(key: FaceKey, grain: FaceGrain, group: FaceGroup, area: Area) -> Self {
        Self {
            key,
            grain,
            group,
            area,
            ticks: BTreeMap::new(),
            wiped: None,
            coats: Vec::new(),
            not_exposed: None,
            sand_backs: 0,
            last_work: None,
        }
    }

    /// How many coats of a kind it carries.
    pub fn count(&self, kind: CoatKind) -> u8 {
        let count = self.coats.iter().filter(|coat| coat.kind == kind).count();
        u8::try_from(count).unwrap_or(u8::MAX)
    }

    /// How many coats that build film.
    pub fn film_coats(&self) -> u8 {
        let count = self.coats.iter().filter(|coat| coat.kind.is_film()).count();
        u8::try_from(count).unwrap_or(u8::MAX)
    }

    /// Its last coat.
    pub fn last_coat(&self) -> Option<&Coat> {
        self.coats.last()
    }

    /// Whether it must be coated.
    pub fn is_exposed(&self) -> bool {
        self.not_exposed.is_none()
    }

    pub(super) fn sand_back(&mut self, to: Grit, at: DateTime<Utc>) {
        self.ticks.retain(|grit, _| *grit < to);
        self.ticks.insert(to, at);
        self.wiped = None;
        self.coats.clear();
        self.sand_backs += 1;
    }
}
