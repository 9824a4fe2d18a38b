//! The shop's own view of the checks: figure and weight of each, and which are left out.

use super::rule::{Figure, Rule, SourceKind, Weight};
use crate::units::Length;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use thiserror::Error;

/// How one check is made in this shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct RuleSetting {
    /// The figure it goes by.
    pub figure: Figure,
    /// How much a finding weighs.
    pub weight: Weight,
    /// Whether it is made at all.
    pub made: bool,
}

/// A figure that a check cannot go by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum RuleError {
    /// A length is needed.
    #[error("{0} goes by a length: type one, for example 2 in or 50 mm.")]
    Length(&'static str),
    /// A share is needed.
    #[error("{0} goes by a share of a hundred: type 1 to 100.")]
    Percent(&'static str),
    /// No figure at all.
    #[error("{0} goes by no figure: only its weight can be changed, or whether it is made.")]
    None(&'static str),
}

/// The checks as the shop has them: where it says nothing, the figures they begin with.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct RuleBook {
    own: BTreeMap<Rule, RuleSetting>,
}

impl RuleSetting {
    /// What a check begins with.
    pub fn first(rule: Rule) -> Self {
        let facts = rule.facts();
        Self {
            figure: facts.figure,
            weight: facts.weight,
            made: true,
        }
    }

    /// Whether this setting suits the check: a length where it goes by one, and so on.
    ///
    /// # Errors
    /// [`RuleError`], naming the check.
    pub fn suits(&self, rule: Rule) -> Result<(), RuleError> {
        let word = rule.word();
        let good = match self.figure {
            Figure::Length(length) => length >= Length::ZERO && length <= Length::MAX,
            Figure::Percent(percent) => (1..=100).contains(&percent),
            Figure::None => true,
        };
        match (rule.facts().figure, self.figure) {
            (Figure::Length(_), Figure::Length(_)) | (Figure::Percent(_), Figure::Percent(_))
                if good =>
            {
                Ok(())
            }
            (Figure::None, Figure::None) => Ok(()),
            (Figure::Length(_), _) => Err(RuleError::Length(word)),
            (Figure::Percent(_), _) => Err(RuleError::Percent(word)),
            (Figure::None, _) => Err(RuleError::None(word)),
        }
    }
}

impl RuleBook {
    /// How the shop makes a check.
    pub fn setting(&self, rule: Rule) -> RuleSetting {
        self.own
            .get(&rule)
            .copied()
            .unwrap_or_else(|| RuleSetting::first(rule))
    }

    /// What kind of source the figure in force has: the shop's own once it was changed.
    pub fn kind(&self, rule: Rule) -> SourceKind {
        let facts = rule.facts();
        if self.setting(rule).figure == facts.figure {
            facts.kind
        } else {
            SourceKind::Shop
        }
    }

    /// Changes a check. What is as it began is not kept.
    ///
    /// # Errors
    /// A figure that the check cannot go by.
    pub fn set(&mut self, rule: Rule, setting: RuleSetting) -> Result<(), RuleError> {
        setting.suits(rule)?;
        if setting == RuleSetting::first(rule) {
            self.own.remove(&rule);
        } else {
            self.own.insert(rule, setting);
        }
        Ok(())
    }

    /// The checks the shop changed.
    pub fn own(&self) -> impl Iterator<Item = (Rule, RuleSetting)> + '_ {
        self.own.iter().map(|(rule, setting)| (*rule, *setting))
    }

    /// The length a check goes by, when it is made and goes by one.
    pub(super) fn length(&self, rule: Rule) -> Option<Length> {
        match self.setting(rule) {
            RuleSetting {
                figure: Figure::Length(length),
                made: true,
                ..
            } => Some(length),
            _ => None,
        }
    }
}
