//! Depth per pass and number of passes.
//!
//! With thickness `t` and most depth `d`: `n = ceil(t / d)` passes of `t / n` each, so that no
//! pass is deeper than the rule allows and all are alike. A clean-up skims the wall afterwards.

use super::error::{CutError, half};
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// More passes than this are a slip of the pencil.
pub(super) const PASSES_MOST: u32 = 200;

/// What decides how deep one pass may go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DepthRule {
    /// At most this deep. 1/8 to 1/4 in for hard maple with a router alone; more than 1/4 in in
    /// several passes (woodworkers' forum; router tip on depth stops).
    AtMost(Length),
    /// At most half the bit's diameter: a light router (common practice, no source).
    HalfBit,
    /// At most the bit's diameter: a stiff machine (common practice, no source).
    WholeBit,
    /// So many passes, all alike.
    Passes(u32),
}

/// What is left for a last, light pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CleanUp {
    /// Nothing.
    None,
    /// The last so much of the depth is a pass of its own; 1/16 in leaves a clean wall (router
    /// tip on depth stops).
    LastDepth(Length),
    /// So much is left on the wall all round and taken in one pass at full depth; 1/4 in after a
    /// saw, and 1/2 in is too much at once (floor installers' forum).
    OnWall(Length),
}

/// One pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct CutPass {
    /// From 1.
    pub no: u32,
    /// How much deeper it goes than the one before; for a clean-up on the wall, its whole depth.
    pub takes: Length,
    /// How deep the bit then stands under the face it cuts from.
    pub depth: Length,
    /// Whether it is the clean-up.
    pub clean_up: bool,
}

/// The passes through `thickness` with a bit of `bit` diameter, in the order they are made. The
/// depths are rounded to the nanometre and the last is the thickness exactly.
///
/// # Errors
/// A thickness, bit, depth or number that is none; more than 200 passes; a clean-up that leaves
/// nothing to clean up after.
pub fn passes(
    thickness: Length,
    bit: Length,
    rule: DepthRule,
    clean_up: CleanUp,
) -> Result<Vec<CutPass>, CutError> {
    if thickness <= Length::ZERO {
        return Err(CutError::Thickness(thickness));
    }
    if bit <= Length::ZERO {
        return Err(CutError::Bit(bit));
    }
    let skim = match clean_up {
        CleanUp::LastDepth(kept) | CleanUp::OnWall(kept) if kept <= Length::ZERO => {
            return Err(CutError::Depth(kept));
        }
        CleanUp::LastDepth(kept) => kept,
        CleanUp::None | CleanUp::OnWall(_) => Length::ZERO,
    };
    if skim >= thickness {
        return Err(CutError::CleanUp {
            kept: skim,
            all: thickness,
        });
    }
    let rough = thickness - skim;
    let count = count(rough, bit, rule)?;
    let mut out = Vec::new();
    let mut before = Length::ZERO;
    for no in 1..=count {
        let depth = part(rough, no, count);
        out.push(CutPass {
            no,
            takes: depth - before,
            depth,
            clean_up: false,
        });
        before = depth;
    }
    if clean_up != CleanUp::None {
        let takes = if skim > Length::ZERO { skim } else { thickness };
        out.push(CutPass {
            no: count + 1,
            takes,
            depth: thickness,
            clean_up: true,
        });
    }
    Ok(out)
}

fn count(rough: Length, bit: Length, rule: DepthRule) -> Result<u32, CutError> {
    let most = match rule {
        DepthRule::Passes(count) if (1..=PASSES_MOST).contains(&count) => return Ok(count),
        DepthRule::Passes(count) => return Err(CutError::Passes(count)),
        DepthRule::AtMost(depth) => depth,
        DepthRule::HalfBit => half(bit),
        DepthRule::WholeBit => bit,
    };
    if most <= Length::ZERO {
        return Err(CutError::Depth(most));
    }
    let whole = rough.nm() / most.nm();
    let count = whole + i64::from(rough.nm() % most.nm() != 0);
    u32::try_from(count)
        .ok()
        .filter(|count| *count <= PASSES_MOST)
        .ok_or(CutError::TooMany { count, each: most })
}

/// `of` parts of `all`, `no` of them, to the nanometre.
fn part(all: Length, no: u32, of: u32) -> Length {
    let exact = i128::from(all.nm()) * i128::from(no);
    let of = i128::from(of.max(1));
    // A part of a length is no longer than the length, so it fits.
    Length::from_nm(i64::try_from((exact + of / 2) / of).unwrap_or(all.nm()))
}
