//! The finish schedule: what is asked of each group of faces.

use super::event::{CoatKind, ScuffMeans};
use super::stage::Stage;
use crate::coating::{ProductId, Span};
use crate::shape::FaceGroup;
use serde::{Deserialize, Serialize};
use std::fmt;
use thiserror::Error;

/// A sanding grit by its number on the paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Grit(pub u16);

impl fmt::Display for Grit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// What is asked of one group of faces.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct GroupPlan {
    /// The grits, coarse to fine, none skipped.
    pub grits: Vec<Grit>,
    /// Seal coats before stain or topcoat.
    pub seal_coats: u8,
    /// Whether these faces are stained.
    pub stained: bool,
    /// Topcoats.
    pub topcoats: u8,
}

impl GroupPlan {
    /// Film coats in all: seal and top.
    pub fn film_coats(&self) -> u8 {
        self.seal_coats.saturating_add(self.topcoats)
    }
}

/// The wipe-down between sanding and the first coat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WipeDown {
    /// None asked.
    NotAsked,
    /// Dry: vacuum and a clean cloth.
    Dry,
    /// With a product that must flash off before the first coat.
    With(ProductId),
}

/// The ordered steps a piece goes through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Schedule {
    /// Top, long edges and stained band.
    pub show: GroupPlan,
    /// Ends, rim, cutout and hole walls.
    pub end_grain: GroupPlan,
    /// Underside, or its field when it has a band.
    pub underside: GroupPlan,
    /// The wipe-down after the last grit.
    pub wipe_down: WipeDown,
    /// Product of the seal coats.
    pub sealer: Option<ProductId>,
    /// Product of the stain.
    pub stain: Option<ProductId>,
    /// Product of the topcoats.
    pub topcoat: Option<ProductId>,
    /// How the film is keyed between topcoats, if it is.
    pub scuff: Option<ScuffMeans>,
    /// Wait after the last coat before the piece may be set.
    pub cure_before_set: Span,
    /// How many coats show side and underside may differ.
    pub balance_allowance: u8,
}

/// Why a schedule cannot stand.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ScheduleError {
    /// A group without grits.
    #[error("The {0} need at least one grit: type them coarse to fine, for example 80 120 150.")]
    NoGrits(&'static str),
    /// Grits not rising, or out of the range of paper.
    #[error(
        "The grits of the {group} must rise from coarse to fine and lie between 24 and 3000; {grit} does not fit."
    )]
    Grits {
        /// Which group.
        group: &'static str,
        /// The offending grit.
        grit: Grit,
    },
    /// A group that would stay bare.
    #[error(
        "The {0} would stay bare: ask for at least one seal coat or topcoat, so that every side is sealed."
    )]
    Bare(&'static str),
    /// Walls and ends treated worse than the show faces.
    #[error(
        "Ends, cutout walls and holes go through the same stain and at least as many coats as the show faces."
    )]
    Walls,
    /// Show side and underside too far apart.
    #[error(
        "Show faces get {show} coats and the underside {underside}: they may differ by at most {allowance}. Add coats to the poorer side."
    )]
    Balance {
        /// Coats on show faces.
        show: u8,
        /// Coats on the underside.
        underside: u8,
        /// Allowance.
        allowance: u8,
    },
    /// Allowance beyond what still means balanced.
    #[error("A difference of {0} coats between show side and underside is not balanced; the most that can be allowed is {max}.", max = Schedule::MAX_ALLOWANCE)]
    Allowance(u8),
    /// Coats asked without a product.
    #[error("The schedule asks for {0} but names no product for it: pick one.")]
    NoProduct(&'static str),
    /// More coats than anybody lays.
    #[error("{0} coats on one face is more than a schedule can ask; the most is {max}.", max = Schedule::MAX_COATS)]
    TooMany(u8),
    /// An absurd cure.
    #[error("A wait of more than 365 days before setting is not a schedule: type the days again.")]
    Cure,
}

impl Schedule {
    /// The widest balance allowance: beyond it the two sides no longer take up moisture alike.
    /// Moisture exclusion differs little from coat to coat after the third (FPL-GTR-190, Table
    /// 16-3: 44, 51, 57, 62 per cent at 14 days for 3 to 6 coats), so three is the most.
    pub const MAX_ALLOWANCE: u8 = 3;

    /// The most coats one face can be asked to carry.
    pub const MAX_COATS: u8 = 20;

    /// The three groups with their names.
    pub fn groups(&self) -> [(FaceGroup, &'static str, &GroupPlan); 3] {
        [
            (FaceGroup::Show, "show faces", &self.show),
            (FaceGroup::EndGrain, "ends and walls", &self.end_grain),
            (FaceGroup::Underside, "underside", &self.underside),
        ]
    }

    /// What is asked of a group.
    pub fn plan(&self, group: FaceGroup) -> &GroupPlan {
        match group {
            FaceGroup::Show => &self.show,
            FaceGroup::EndGrain => &self.end_grain,
            FaceGroup::Underside => &self.underside,
        }
    }

    /// Whether the schedule asks anything of a stage. Sanding and set always ask.
    pub fn asks(&self, stage: Stage) -> bool {
        let any =
            |test: fn(&GroupPlan) -> bool| self.groups().iter().any(|(_, _, plan)| test(plan));
        match stage {
            Stage::Sanding | Stage::Set => true,
            Stage::Sealing => any(|plan| plan.seal_coats > 0),
            Stage::Staining => any(|plan| plan.stained),
            Stage::Topcoats => any(|plan| plan.topcoats > 0),
        }
    }

    /// The stage after `stage` that asks something.
    pub fn next_stage(&self, stage: Stage) -> Option<Stage> {
        Stage::ALL
            .into_iter()
            .find(|next| *next > stage && self.asks(*next))
    }

    /// The product for a kind of coat.
    pub fn product_for(&self, kind: CoatKind) -> Option<ProductId> {
        match kind {
            CoatKind::Seal => self.sealer,
            CoatKind::Stain => self.stain,
            CoatKind::Topcoat => self.topcoat,
        }
    }

    /// Whether a wipe-down is asked.
    pub fn asks_wipe_down(&self) -> bool {
        self.wipe_down != WipeDown::NotAsked
    }

    /// Checks that the schedule leaves no face bare, no side behind, and asks for nothing it has
    /// no product for.
    pub fn check(&self) -> Result<(), ScheduleError> {
        for (_, name, plan) in self.groups() {
            check_grits(name, &plan.grits)?;
            if plan.film_coats() == 0 {
                return Err(ScheduleError::Bare(name));
            }
            if plan.film_coats() > Self::MAX_COATS {
                return Err(ScheduleError::TooMany(plan.film_coats()));
            }
        }
        let (show, ends, under) = (&self.show, &self.end_grain, &self.underside);
        if ends.stained != show.stained
            || ends.seal_coats < show.seal_coats
            || ends.topcoats < show.topcoats
        {
            return Err(ScheduleError::Walls);
        }
        if self.balance_allowance > Self::MAX_ALLOWANCE {
            return Err(ScheduleError::Allowance(self.balance_allowance));
        }
        if show.film_coats().abs_diff(under.film_coats()) > self.balance_allowance {
            return Err(ScheduleError::Balance {
                show: show.film_coats(),
                underside: under.film_coats(),
                allowance: self.balance_allowance,
            });
        }
        for (stage, product, words) in [
            (Stage::Sealing, self.sealer, "seal coats"),
            (Stage::Staining, self.stain, "stain"),
            (Stage::Topcoats, self.topcoat, "topcoats"),
        ] {
            if self.asks(stage) && product.is_none() {
                return Err(ScheduleError::NoProduct(words));
            }
        }
        if self.cure_before_set > Span::days(365) {
            return Err(ScheduleError::Cure);
        }
        Ok(())
    }

    /// Steps between grits wider than the usual rule, in words: warnings, not refusals. The rule
    /// as a number (ratio over 1.5 warns) is read off the common example 80, 120, 150; no text
    /// states it as a limit.
    pub fn wide_steps(&self) -> Vec<String> {
        let mut out = Vec::new();
        for (_, name, plan) in self.groups() {
            for pair in plan.grits.windows(2) {
                if f64::from(pair[1].0) > 1.5 * f64::from(pair[0].0) {
                    out.push(format!(
                        "{name}: {} to {} is a wide step; scratches of the {} may show under stain",
                        pair[0], pair[1], pair[0]
                    ));
                }
            }
        }
        out
    }
}

fn check_grits(group: &'static str, grits: &[Grit]) -> Result<(), ScheduleError> {
    if grits.is_empty() {
        return Err(ScheduleError::NoGrits(group));
    }
    let mut last = Grit(23);
    for &grit in grits {
        if grit <= last || grit.0 > 3000 {
            return Err(ScheduleError::Grits { group, grit });
        }
        last = grit;
    }
    Ok(())
}
