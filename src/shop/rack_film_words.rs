//! The Rack's lines in words.

use super::dry_stage::DryStage;
use super::event::TouchVerdict;
use super::rack_film::{Film, Milestone};
use crate::coating::Recoat;
use crate::units::TemperatureStyle;
use crate::units::moment::show_moment;
use chrono::{DateTime, Duration, Utc};
use chrono_tz::Tz;

/// Moments closer than this are told as one.
const ALIKE: Duration = Duration::minutes(10);

impl Milestone {
    /// `tack-free 2:20 pm, likely 1:10 pm`; `tack-free since 2:20 pm`; both moments as one where
    /// they are alike.
    pub fn words(&self, now: DateTime<Utc>, zone: Tz) -> String {
        let at = |at| show_moment(at, now, zone);
        let (stage, times) = (self.stage.words(), self.times);
        if times.safe <= now {
            return format!("{stage} since {}", at(times.safe));
        }
        if !self.in_sight {
            return format!("{stage}: not in this air");
        }
        if times.safe - times.likely < ALIKE {
            return format!("{stage} {}", at(times.safe));
        }
        if times.likely <= now {
            return format!("{stage} {}, worth a test now", at(times.safe));
        }
        format!("{stage} {}, likely {}", at(times.safe), at(times.likely))
    }
}

impl Film {
    /// The stage it is in: `set to touch`, after a test `tack-free by touch test`, after one that
    /// found it soft `tack-free, still soft by touch test`.
    pub fn stage_words(&self) -> String {
        let shown = match self.stage {
            DryStage::LightUse => "ready for light use",
            DryStage::FullCure => "fully cured",
            stage => stage.words(),
        };
        match self.touch {
            Some((_, TouchVerdict::StillSoft)) => format!("{shown}, still soft by touch test"),
            Some((_, verdict)) if self.shows(verdict) => format!("{shown} by touch test"),
            _ => shown.to_owned(),
        }
    }

    /// Whether the stage is just what a test found.
    fn shows(&self, verdict: TouchVerdict) -> bool {
        use TouchVerdict as Found;
        matches!(
            (self.stage, verdict),
            (DryStage::Touch, Found::TouchDry)
                | (DryStage::TackFree, Found::TackFree)
                | (DryStage::Recoat, Found::DryToRecoat)
                | (DryStage::Handle, Found::DryToHandle)
        )
    }

    /// The window: `window shuts Thu 9:20 am`, `window shut 8:00 am: abrade with 320 fine paper
    /// first`, `a coat now would lift it; next window Nov 30, 9:00 am`; `no limit`.
    pub fn window_words(&self, now: DateTime<Utc>, zone: Tz) -> String {
        let at = |at| show_moment(at, now, zone);
        let scuff = if self.window.label.scuff {
            ", scuff first"
        } else {
            ""
        };
        match (self.window.state, self.window.shuts) {
            (Recoat::Missed { since }, _) => {
                let means = self.abrades_with.words();
                format!(
                    "window shut {}: abrade with {means} before the next coat",
                    at(since)
                )
            }
            (Recoat::Lifts { ready, .. }, _) => {
                format!("a coat now would lift it; next window {}", at(ready))
            }
            (_, Some(shuts)) => format!("window shuts {}{scuff}", at(shuts)),
            (_, None) => format!("window has no end{scuff}"),
        }
    }

    /// `6.2 of 12 label-hours to recoat`, past that `14 label-hours so far`; with the thickness
    /// where it counts: `6.2 of 15.6 label-hours to recoat, thick film takes 1.3 times as long`.
    pub fn hours_words(&self) -> String {
        let hours = |hours: f64| {
            let text = format!("{hours:.1}");
            text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
        };
        let film = if self.thickness > 1.02 {
            format!(", thick film takes {:.2} times as long", self.thickness)
        } else {
            String::new()
        };
        let had = hours(self.had);
        if self.had >= self.asked {
            return format!("{had} label-hours so far{film}");
        }
        format!("{had} of {} label-hours to recoat{film}", hours(self.asked))
    }

    /// Why it is slow now and which stretch cost it most, or on what its times rest where no reading holds; empty where there is
    /// nothing to say, as for a shop that logs no air.
    pub fn slow_words(&self, now: DateTime<Utc>, zone: Tz, style: TemperatureStyle) -> String {
        if self.speed.air.is_none() && !self.is_slow() {
            return String::new();
        }
        let mut parts = vec![self.speed.words(now, zone, style)];
        parts.extend(self.cost.map(|cost| cost.words(now, zone, style)));
        parts.retain(|part| !part.is_empty());
        parts.join("; ")
    }

    /// Whether it is slow enough to be said: now, or in a stretch that is over and cost it hours.
    pub fn is_slow(&self) -> bool {
        self.speed.is_slow() || self.cost.is_some()
    }

    /// What touch tests have taught of the product; that none counts, where this coat was tested.
    pub fn learned_words(&self) -> String {
        if self.learned.tests == 0 && self.touch.is_some() {
            return "the label's speed, no touch test that counts".to_owned();
        }
        self.learned.words()
    }

    /// What a test said last and when to test again: `touch test 2:10 pm: still soft, test again
    /// 3:00 pm`.
    pub fn touch_words(&self, now: DateTime<Utc>, zone: Tz) -> Option<String> {
        let (at, verdict) = self.touch?;
        let when = show_moment(at, now, zone);
        let said = format!("touch test {when}: {}", verdict.words());
        Some(match self.look_again {
            Some(again) if again > now => {
                format!("{said}, test again {}", show_moment(again, now, zone))
            }
            Some(_) => format!("{said}, test again now"),
            None => said,
        })
    }
}
