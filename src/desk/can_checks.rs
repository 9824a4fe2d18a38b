//! What is asked about cans before it is believed.

use super::can_error::{CanDoubt, CanRefusal};
use super::error::DeskError;
use super::perform::Desk;
use crate::coating::Product;
use crate::shop::{Age, CanStanding, CanState, EmptyWeight, KeepsDay, Known, Settings, Weights};
use crate::units::{Mass, Volume, show_date, show_moment};
use chrono::{DateTime, Utc};

/// Two readings of a kitchen scale differ by so much of themselves: one step of 1 g.
const SCALE_STEP: Mass = Mass::from_mg(1_000);
/// Volumes reckoned twice may differ by so much, in microlitres.
const ROUNDING: i64 = 2;

/// The questions about one action, gathered so that they are asked at once.
pub(super) struct Asking<'a> {
    settings: &'a Settings,
    now: DateTime<Utc>,
    doubts: Vec<CanDoubt>,
}

impl<'a> Asking<'a> {
    pub(super) fn new(desk: &Desk<'_>, settings: &'a Settings) -> Self {
        Self {
            settings,
            now: desk.now,
            doubts: Vec::new(),
        }
    }

    pub(super) fn ask(&mut self, doubt: CanDoubt) {
        if !self.doubts.contains(&doubt) {
            self.doubts.push(doubt);
        }
    }

    /// The doubts as things to mind, where nothing hangs on them.
    pub(super) fn told(self) -> Vec<String> {
        self.doubts.iter().map(ToString::to_string).collect()
    }

    /// Asks, unless the person is sure; who is sure is told once more what was doubtful.
    pub(super) fn answered(self, sure: bool) -> Result<Vec<String>, DeskError> {
        if self.doubts.is_empty() || sure {
            return Ok(self.told());
        }
        Err(CanRefusal::Doubtful(self.doubts).into())
    }

    fn moment(&self, at: DateTime<Utc>) -> String {
        show_moment(at, self.now, self.settings.zone)
    }

    fn volume(&self, volume: Volume) -> String {
        volume.show(self.settings.volume)
    }

    /// A can past its shelf life.
    pub(super) fn age(&mut self, state: &CanState, at: DateTime<Utc>) {
        let zone = self.settings.zone;
        let day = at.with_timezone(&zone).date_naive();
        if let Age::Past(end) = state.age(day, zone) {
            let today = self.now.with_timezone(&zone).date_naive();
            self.ask(CanDoubt::PastShelfLife {
                can: state.can.called(),
                why: match end {
                    KeepsDay::Sealed(_) => "which by the day it came ended",
                    KeepsDay::Open(_) => "which by the day it was opened ended",
                },
                until: show_date(end.day(), today),
            });
        }
    }

    /// A weight against the last one, the empty can and the full one.
    pub(super) fn weight(
        &mut self,
        state: &CanState,
        product: &Product,
        mass: Mass,
        at: DateTime<Utc>,
    ) {
        if let Some((when, last)) = state.weighed
            && when <= at
            && mass - last > SCALE_STEP
        {
            self.ask(CanDoubt::WeightRose {
                can: state.can.called(),
                now: mass.show(),
                last: last.show(),
                at: self.moment(when),
            });
        }
        self.above_empty(state, mass);
        if let Some(empty) = state.empty {
            let content = product.label.density.volume_of(mass - empty.mass());
            // The label's volume is what must be in it; cans are filled a little over.
            if content.ul() > state.can.size.ul() + state.can.size.ul() / 20 {
                self.ask(CanDoubt::MoreThanItHolds {
                    can: state.can.called(),
                    weight: mass.show(),
                    content: self.volume(content),
                    holds: self.volume(state.can.size),
                });
            }
        }
    }

    fn above_empty(&mut self, state: &CanState, mass: Mass) {
        let Some(empty) = state.empty else { return };
        if empty.mass() - mass > SCALE_STEP {
            self.ask(CanDoubt::BelowEmpty {
                can: state.can.called(),
                weight: mass.show(),
                empty: empty.mass().show(),
                reckoned: match empty {
                    EmptyWeight::Given(_) => "",
                    EmptyWeight::Reckoned(_) => ", reckoned",
                },
            });
        }
    }

    /// The weights of a pass.
    pub(super) fn weights(
        &mut self,
        state: &CanState,
        product: &Product,
        weights: Weights,
        at: DateTime<Utc>,
    ) {
        self.weight(state, product, weights.before, at);
        self.above_empty(state, weights.after);
    }

    /// More taken than was left.
    pub(super) fn left(&mut self, state: &CanState, taken: Volume, at: DateTime<Utc>) {
        let left = state.left_at(at);
        if (taken - left).ul() > ROUNDING {
            self.ask(CanDoubt::LessLeft {
                can: state.can.called(),
                left: self.volume(left),
                known: known_words(state, self.now, self.settings),
                taken: self.volume(taken),
            });
        }
    }

    /// A can used before it came, or after it was thrown away.
    pub(super) fn there(&mut self, state: &CanState, at: DateTime<Utc>) {
        let zone = self.settings.zone;
        let came = state.can.day(zone);
        if at.with_timezone(&zone).date_naive() < came {
            let today = self.now.with_timezone(&zone).date_naive();
            self.ask(CanDoubt::BeforeItCame {
                can: state.can.called(),
                on: show_date(came, today),
            });
        }
        if let CanStanding::Discarded(when) = state.standing
            && when <= at
        {
            self.ask(CanDoubt::Gone {
                can: state.can.called(),
                at: self.moment(when),
            });
        }
    }
}

/// How what is left in a can is known, in words.
pub fn known_words(state: &CanState, now: DateTime<Utc>, settings: &Settings) -> String {
    let at = |at| show_moment(at, now, settings.zone);
    match state.known {
        Known::AsItCame => "as it came".to_owned(),
        Known::Weighed(when) => format!("by weighing, {}", at(when)),
        Known::Subtracted(None) => "by subtraction".to_owned(),
        Known::Subtracted(Some(when)) => {
            format!("by subtraction since it was weighed, {}", at(when))
        }
    }
}
