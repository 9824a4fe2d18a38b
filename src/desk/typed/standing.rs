//! How a top will stand, as typed: joints `across 48; along 12`, overhangs `back 12, brackets 9
//! every 16; left 6`, appliances `24 to 48, barrier`, several separated by `;`.

use super::error::{FieldError, keep};
use super::size::{read_length, write_length};
use super::words::{pick, plain, quoted};
use crate::shape::layout::{Appliance, Brackets, Joint, JointWay, Overhang, Standing};
use crate::shape::{FaceKey, Say};
use crate::shop::Settings;
use crate::units::Length;

const JOINTS: &str = "joints";
const OVERHANGS: &str = "overhangs";
const APPLIANCES: &str = "appliances";
const JOINT_CURE: &str =
    "type across and how far from the left, or along and how far from the front: across 48.";
const OVERHANG_CURE: &str = "type the side and how far it hangs out, with brackets if there are any: back 12, brackets 9 every 16.";
const APPLIANCE_CURE: &str =
    "type from where to where along the front, with barrier if one is planned: 24 to 48, barrier.";

/// How a top will stand, field by field, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StandingTyped {
    /// Joints.
    pub joints: String,
    /// Overhangs.
    pub overhangs: String,
    /// The longest way between supports.
    pub span: String,
    /// Dishwashers and their like.
    pub appliances: String,
    /// How far behind the front edge the drip groove runs.
    pub drip: String,
    /// Over the floor.
    pub height: String,
    /// `yes` where accessibility is asked for.
    pub accessible: String,
}

impl StandingTyped {
    /// A standing as it would be typed.
    pub fn of(standing: &Standing, settings: &Settings) -> Self {
        Self::of_with(standing, &|length| write_length(length, settings))
    }

    /// The same with lengths written as asked.
    pub fn of_with(standing: &Standing, say: Say<'_>) -> Self {
        let maybe = |length: Option<Length>| length.map_or_else(String::new, say);
        let joints = standing.joints.iter().map(|joint| match joint.way {
            JointWay::Across => format!("across {}", say(joint.at)),
            JointWay::Along => format!("along {}", say(joint.at)),
        });
        let overhangs = standing.overhangs.iter().map(|hang| {
            let brackets = hang.brackets.map_or_else(String::new, |brackets| {
                format!(
                    ", brackets {} every {}",
                    say(brackets.reach),
                    say(brackets.apart)
                )
            });
            format!("{} {}{brackets}", hang.side.code(), say(hang.out))
        });
        let appliances = standing.appliances.iter().map(|appliance| {
            let barrier = if appliance.barrier { ", barrier" } else { "" };
            format!("{} to {}{barrier}", say(appliance.from), say(appliance.to))
        });
        Self {
            joints: joined(joints),
            overhangs: joined(overhangs),
            span: maybe(standing.span),
            appliances: joined(appliances),
            drip: maybe(standing.drip),
            height: maybe(standing.height),
            accessible: if standing.accessible { "yes" } else { "no" }.to_owned(),
        }
    }
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join("; ")
}

/// Reads how a top will stand; an empty field says nothing.
///
/// # Errors
/// Every field that does not read.
pub fn read_standing(
    typed: &StandingTyped,
    settings: &Settings,
) -> Result<Standing, Vec<FieldError>> {
    let mut errors = Vec::new();
    let joints = keep(
        list(&typed.joints, |part| joint(part, settings)),
        &mut errors,
    );
    let overhangs = list(&typed.overhangs, |part| overhang(part, settings));
    let overhangs = keep(overhangs, &mut errors);
    let appliances = list(&typed.appliances, |part| appliance(part, settings));
    let appliances = keep(appliances, &mut errors);
    let span = keep(maybe("span", &typed.span, settings), &mut errors);
    let drip = keep(maybe("drip", &typed.drip, settings), &mut errors);
    let height = keep(maybe("height", &typed.height, settings), &mut errors);
    let accessible = keep(read_yes("accessible", &typed.accessible), &mut errors);
    match (
        joints, overhangs, appliances, span, drip, height, accessible,
    ) {
        (
            Some(joints),
            Some(overhangs),
            Some(appliances),
            Some(span),
            Some(drip),
            Some(height),
            Some(accessible),
        ) => Ok(Standing {
            joints,
            overhangs,
            span,
            appliances,
            drip,
            height,
            accessible,
        }),
        _ => Err(errors),
    }
}

/// `yes` or `no`; nothing is no.
///
/// # Errors
/// Any other word.
pub fn read_yes(field: &'static str, text: &str) -> Result<bool, FieldError> {
    if text.trim().is_empty() {
        return Ok(false);
    }
    let words = [(true, "yes".to_owned()), (false, "no".to_owned())];
    pick(field, text, &words)
}

fn list<T>(text: &str, read: impl Fn(&str) -> Result<T, FieldError>) -> Result<Vec<T>, FieldError> {
    text.split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(read)
        .collect()
}

fn maybe(
    field: &'static str,
    text: &str,
    settings: &Settings,
) -> Result<Option<Length>, FieldError> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    read_length(field, text.trim(), settings).map(Some)
}

fn joint(part: &str, settings: &Settings) -> Result<Joint, FieldError> {
    let wrong = || {
        let message = format!("\"{}\" is no joint: {JOINT_CURE}", quoted(part));
        FieldError::new(JOINTS, message)
    };
    let (word, at) = part.split_once(' ').ok_or_else(wrong)?;
    let way = match plain(word).as_str() {
        "across" => JointWay::Across,
        "along" => JointWay::Along,
        _ => return Err(wrong()),
    };
    let at = at.trim().strip_prefix("at ").unwrap_or(at).trim();
    let at = read_length(JOINTS, at, settings)?;
    Ok(Joint { way, at })
}

fn overhang(part: &str, settings: &Settings) -> Result<Overhang, FieldError> {
    let wrong = || {
        let message = format!("\"{}\" is no overhang: {OVERHANG_CURE}", quoted(part));
        FieldError::new(OVERHANGS, message)
    };
    let (hang, brackets) = match part.split_once(',') {
        Some((hang, brackets)) => (hang, Some(brackets.trim())),
        None => (part, None),
    };
    let (side, out) = hang.trim().split_once(' ').ok_or_else(wrong)?;
    let side = match plain(side).as_str() {
        "front" => FaceKey::Front,
        "back" => FaceKey::Back,
        "left" => FaceKey::Left,
        "right" => FaceKey::Right,
        _ => return Err(wrong()),
    };
    let out = read_length(OVERHANGS, out.trim(), settings)?;
    let brackets = match brackets {
        None => None,
        Some(text) => {
            let figures = text.strip_prefix("brackets ").ok_or_else(wrong)?;
            let (reach, apart) = figures.split_once(" every ").ok_or_else(wrong)?;
            Some(Brackets {
                reach: read_length(OVERHANGS, reach.trim(), settings)?,
                apart: read_length(OVERHANGS, apart.trim(), settings)?,
            })
        }
    };
    Ok(Overhang {
        side,
        out,
        brackets,
    })
}

fn appliance(part: &str, settings: &Settings) -> Result<Appliance, FieldError> {
    let wrong = || {
        let message = format!("\"{}\" is no appliance: {APPLIANCE_CURE}", quoted(part));
        FieldError::new(APPLIANCES, message)
    };
    let (range, barrier) = match part.split_once(',') {
        Some((range, word)) if plain(word) == "barrier" => (range, true),
        Some(_) => return Err(wrong()),
        None => (part, false),
    };
    let (from, to) = range.split_once(" to ").ok_or_else(wrong)?;
    Ok(Appliance {
        from: read_length(APPLIANCES, from.trim(), settings)?,
        to: read_length(APPLIANCES, to.trim(), settings)?,
        barrier,
    })
}
