//! How a top will stand: what the checks must know besides its shape.

use super::rule::Weight;
use crate::shape::FaceKey;
use crate::units::Length;
use serde::{Deserialize, Serialize};
use std::fmt;
use thiserror::Error;

/// Which way a joint runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JointWay {
    /// From front to back, so far from the left.
    Across,
    /// From left to right, so far from the front.
    Along,
}

/// A joint in the top (where two parts meet on site), seen as a straight line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Joint {
    /// Which way it runs.
    pub way: JointWay,
    /// How far from the left, or from the front.
    pub at: Length,
}

/// Brackets under an overhang.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Brackets {
    /// How far each reaches out under it.
    pub reach: Length,
    /// From one to the next.
    pub apart: Length,
}

/// What hangs out over nothing at one side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Overhang {
    /// Front, back, left or right.
    pub side: FaceKey,
    /// How far.
    pub out: Length,
    /// What is under it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub brackets: Option<Brackets>,
}

/// A machine below that gives off steam or warmth: dishwasher, washer, warm drawer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Appliance {
    /// From the left, along the top.
    pub from: Length,
    /// To here.
    pub to: Length,
    /// Whether a barrier is planned above it.
    pub barrier: bool,
}

/// All that is known of how a top will stand. Nothing said means nothing checked.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Standing {
    /// Joints.
    pub joints: Vec<Joint>,
    /// Overhangs, each side once at most.
    pub overhangs: Vec<Overhang>,
    /// The longest way between supports.
    pub span: Option<Length>,
    /// Dishwashers and their like.
    pub appliances: Vec<Appliance>,
    /// How far behind the front edge the drip groove runs; none means there is none.
    pub drip: Option<Length>,
    /// Top of the counter over the floor.
    pub height: Option<Length>,
    /// Whether accessibility is asked for.
    pub accessible: bool,
}

/// A standing that cannot be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum StandingError {
    /// A length that is none.
    #[error("{what} is {}: it must be more than nothing and at most 100 feet.", crate::shape::words::say(*.length))]
    Length {
        /// Which.
        what: &'static str,
        /// As given.
        length: Length,
    },
    /// A joint beside the top.
    #[error("Joint {no} at {} is not on the top, which reaches to {}.", crate::shape::words::say(*.at), crate::shape::words::say(*.to))]
    Joint {
        /// Which, from 1.
        no: usize,
        /// Where.
        at: Length,
        /// How far the top reaches.
        to: Length,
    },
    /// More than the top has room for.
    #[error("{what} is {}, but the top is only {} {way}: look at the number again.", crate::shape::words::say(*.length), crate::shape::words::say(*.top))]
    Over {
        /// Which.
        what: &'static str,
        /// As given.
        length: Length,
        /// How far the top reaches.
        top: Length,
        /// That way: "long" or "wide".
        way: &'static str,
    },
    /// Overhangs at both sides that leave nothing standing.
    #[error("The overhangs at the {one} and the {other} are {} together, but the top is only {} {way}: nothing would stand on anything.", crate::shape::words::say(*.both), crate::shape::words::say(*.top))]
    Both {
        /// One side.
        one: FaceKey,
        /// The side across from it.
        other: FaceKey,
        /// Both overhangs.
        both: Length,
        /// How far the top reaches.
        top: Length,
        /// That way: "long" or "wide".
        way: &'static str,
    },
    /// Brackets longer than what they hold.
    #[error("The brackets at the {side} reach {} under an overhang of {}: they would stand out past it.", crate::shape::words::say(*.reach), crate::shape::words::say(*.out))]
    Bracket {
        /// Which side.
        side: FaceKey,
        /// The brackets' reach.
        reach: Length,
        /// The overhang.
        out: Length,
    },
    /// An appliance that is not below the top.
    #[error("Appliance {no} runs from {} to {}, but the top reaches only to {}: say the part of it that is below the top.", crate::shape::words::say(*.from), crate::shape::words::say(*.to), crate::shape::words::say(*.end))]
    Beside {
        /// Which, from 1.
        no: usize,
        /// From.
        from: Length,
        /// To.
        to: Length,
        /// Where the top ends.
        end: Length,
    },
    /// An appliance back to front.
    #[error("Appliance {no} runs from {} to {}: its end must lie to the right of its beginning.", crate::shape::words::say(*.from), crate::shape::words::say(*.to))]
    Appliance {
        /// Which, from 1.
        no: usize,
        /// From.
        from: Length,
        /// To.
        to: Length,
    },
    /// A side that hangs out twice, or is no side.
    #[error("The overhang at the {0} cannot be kept: say front, back, left or right, each once.")]
    Side(FaceKey),
    /// Too many of a kind.
    #[error("{0} {1} are more than a top has: at most 20.")]
    Many(usize, &'static str),
}

/// The most joints, overhangs or appliances of one top.
const MOST: usize = 20;

impl Standing {
    /// Whether nothing is said.
    pub fn is_unsaid(&self) -> bool {
        *self == Self::default()
    }

    /// Whether it can be, on a top that reaches so far along and across.
    ///
    /// # Errors
    /// The first thing that cannot be, naming its number.
    pub fn check(&self, length: Length, width: Length) -> Result<(), StandingError> {
        let real = |what, length: Length| {
            if length > Length::ZERO && length <= Length::MAX {
                Ok(())
            } else {
                Err(StandingError::Length { what, length })
            }
        };
        for (count, what) in [
            (self.joints.len(), "joints"),
            (self.overhangs.len(), "overhangs"),
            (self.appliances.len(), "appliances"),
        ] {
            if count > MOST {
                return Err(StandingError::Many(count, what));
            }
        }
        for (no, joint) in (1..).zip(&self.joints) {
            let to = match joint.way {
                JointWay::Across => length,
                JointWay::Along => width,
            };
            if joint.at <= Length::ZERO || joint.at >= to {
                let at = joint.at;
                return Err(StandingError::Joint { no, at, to });
            }
        }
        for (at, overhang) in self.overhangs.iter().enumerate() {
            let side = overhang.side;
            let is_side = matches!(
                side,
                FaceKey::Front | FaceKey::Back | FaceKey::Left | FaceKey::Right
            );
            let twice = self.overhangs[..at].iter().any(|other| other.side == side);
            if !is_side || twice {
                return Err(StandingError::Side(side));
            }
            real("An overhang", overhang.out)?;
            if let Some(brackets) = overhang.brackets {
                real("A bracket's reach", brackets.reach)?;
                real("The way from bracket to bracket", brackets.apart)?;
                let (reach, out) = (brackets.reach, overhang.out);
                if reach > out {
                    return Err(StandingError::Bracket { side, reach, out });
                }
            }
        }
        self.hangs_over(FaceKey::Front, FaceKey::Back, width, "wide")?;
        self.hangs_over(FaceKey::Left, FaceKey::Right, length, "long")?;
        for (no, appliance) in (1..).zip(&self.appliances) {
            let (from, to) = (appliance.from, appliance.to);
            if from < Length::ZERO || to <= from || to > Length::MAX {
                return Err(StandingError::Appliance { no, from, to });
            }
            if to > length {
                let end = length;
                return Err(StandingError::Beside { no, from, to, end });
            }
        }
        for (what, length) in [
            ("The span", self.span),
            ("The drip groove's place", self.drip),
            ("The height", self.height),
        ] {
            if let Some(length) = length {
                real(what, length)?;
            }
        }
        let longest = length.max(width);
        let within = |what, given: Option<Length>, top, way| match given {
            Some(length) if length > top => Err(StandingError::Over {
                what,
                length,
                top,
                way,
            }),
            _ => Ok(()),
        };
        within("The span", self.span, longest, "long")?;
        within("The drip groove's place", self.drip, width, "wide")
    }

    /// Whether what hangs out at two sides across from each other leaves something standing.
    fn hangs_over(
        &self,
        one: FaceKey,
        other: FaceKey,
        top: Length,
        way: &'static str,
    ) -> Result<(), StandingError> {
        let out = |side: FaceKey| {
            let mut sides = self.overhangs.iter();
            sides.find(|hang| hang.side == side).map(|hang| hang.out)
        };
        for length in [out(one), out(other)].into_iter().flatten() {
            if length >= top {
                let what = "An overhang";
                return Err(StandingError::Over {
                    what,
                    length,
                    top,
                    way,
                });
            }
        }
        match (out(one), out(other)) {
            (Some(first), Some(second)) if first + second >= top => Err(StandingError::Both {
                one,
                other,
                both: first + second,
                top,
                way,
            }),
            _ => Ok(()),
        }
    }
}

/// What a finding is about: a stable code, and words.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct About(pub String);

impl About {
    /// Of some codes joined.
    pub(super) fn of(codes: &[String]) -> Self {
        Self(codes.join("+"))
    }
}

impl fmt::Display for About {
    /// `cutout 1 and hole 2`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0.replace('-', " ").replace('+', " and "))
    }
}

/// A finding the person takes as it is, with the reason.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Accepted {
    /// Which check.
    pub rule: super::rule::Rule,
    /// About what.
    pub about: About,
    /// How much was missing when it was taken: should more be missing later, it is open again.
    pub missing: Length,
    /// How much it weighed then.
    pub weight: Weight,
    /// Why.
    pub reason: String,
}
