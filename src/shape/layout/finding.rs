//! One finding: what, where, how much is missing, what would cure it.

use super::rule::{Rule, SourceKind, Weight};
use super::rule_book::RuleBook;
use super::seen::Point;
use super::standing::{About, Accepted};
use crate::units::{Length, LengthStyle};

/// What a check found.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Which check.
    pub rule: Rule,
    /// About what.
    pub about: About,
    /// Where on the piece, from and to; nowhere for what concerns all of it.
    pub place: Option<(Point, Point)>,
    /// What there is.
    pub has: Option<Length>,
    /// What the check asks.
    pub asks: Option<Length>,
    /// How much is missing, or too much; nothing where the check asks whether, not how much.
    pub missing: Length,
    /// What would cure it.
    pub cure: String,
    /// How much it weighs in this shop.
    pub weight: Weight,
    /// What kind of source its figure has.
    pub kind: SourceKind,
    /// Why the person takes it as it is.
    pub accepted: Option<String>,
}

/// Half a micrometre: what reckoning in binary may be off.
const HAIR: f64 = 0.000_5;

impl Finding {
    /// Fills in what the person accepted.
    pub(super) fn settle(&mut self, accepted: &[Accepted]) {
        let taken = accepted.iter().find(|taken| {
            taken.rule == self.rule
                && taken.about == self.about
                && self.missing.mm() <= taken.missing.mm() + HAIR
                && self.weight <= taken.weight
        });
        self.accepted = taken.map(|taken| taken.reason.clone());
    }
}

/// Gathers findings while the checks are made.
pub(super) struct Notebook<'a> {
    pub rules: &'a RuleBook,
    /// How this shop writes lengths.
    pub style: LengthStyle,
    pub found: Vec<Finding>,
}

/// A length of so many millimetres, to the nanometre.
pub fn length(mm: f64) -> Length {
    Length::from_metres_rounded(mm / 1000.0)
}

impl Notebook<'_> {
    /// How a cure tells by how much: in the shop's own unit, rounded up, so that doing as it says
    /// is enough.
    pub fn by(&self) -> impl Fn(Length) -> String + Copy + use<> {
        let style = self.style;
        move |length: Length| length.up_to_step(style).show_inches(style)
    }

    /// There must be at least what the check asks.
    pub fn at_least(
        &mut self,
        rule: Rule,
        about: &[String],
        has_mm: f64,
        place: Option<(Point, Point)>,
        cure: impl FnOnce(Length) -> String,
    ) {
        let Some(asks) = self.rules.length(rule) else {
            return;
        };
        if has_mm + HAIR < asks.mm() {
            // Past the other thing counts as nothing there; what is missing is the whole way back.
            let (has, missing) = (length(has_mm.max(0.0)), asks - length(has_mm));
            self.write(rule, about, place, Some((has, asks)), missing, cure);
        }
    }

    /// There may be at most what the check asks.
    pub fn at_most(
        &mut self,
        rule: Rule,
        about: &[String],
        has: Length,
        place: Option<(Point, Point)>,
        cure: impl FnOnce(Length) -> String,
    ) {
        let Some(asks) = self.rules.length(rule) else {
            return;
        };
        if has > asks {
            self.write(rule, about, place, Some((has, asks)), has - asks, cure);
        }
    }

    /// Something must be, and is not; or must not be, and is.
    pub fn whether(
        &mut self,
        rule: Rule,
        about: &[String],
        place: Option<(Point, Point)>,
        cure: &str,
    ) {
        if self.rules.setting(rule).made {
            self.write(rule, about, place, None, Length::ZERO, |_| cure.to_owned());
        }
    }

    /// Writes one down.
    pub fn write(
        &mut self,
        rule: Rule,
        about: &[String],
        place: Option<(Point, Point)>,
        figures: Option<(Length, Length)>,
        missing: Length,
        cure: impl FnOnce(Length) -> String,
    ) {
        self.found.push(Finding {
            rule,
            about: About::of(about),
            place,
            has: figures.map(|(has, _)| has),
            asks: figures.map(|(_, asks)| asks),
            cure: cure(missing),
            missing,
            weight: self.rules.setting(rule).weight,
            kind: self.rules.kind(rule),
            accepted: None,
        });
    }
}
