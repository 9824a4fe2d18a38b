//! Strips for a glue-up: how many, how wide, how long.
//!
//! The blank is the outline's reach across the strips plus a trim on either side. Strips of the
//! chosen seen width fill it from the front; the last takes the rest. Each is as long as the
//! outline is within that strip, plus a trim at either end: a round or L-shaped top takes shorter
//! strips where it is shorter.

use super::LumberRules;
use super::boards::{LumberError, dressed};
use crate::shape::Construction;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// Which way the strips lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lay {
    /// Along the grain of the piece (its length).
    #[default]
    Length,
    /// Across the piece, from front to back.
    Width,
}

/// Strips that are alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Strip {
    /// How many.
    pub count: u32,
    /// Seen width in the top.
    pub seen: Length,
    /// Along the fibres, trims included.
    pub long: Length,
    /// What is ripped from the width of the board.
    pub rip: Length,
    /// Dressed thickness of the board it is ripped from.
    pub from: Length,
}

/// One strip in its place, from the front.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct StripRun {
    /// Its seen width.
    pub seen: Length,
    /// How far the outline runs within it.
    pub reach: Length,
}

/// The strips of one blank.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GlueUp {
    /// Strips, like ones together, in the order of the glue-up.
    pub strips: Vec<Strip>,
    /// The blank across the strips.
    pub blank: Length,
    /// The same number of strips all alike would be this wide.
    pub even: Length,
    /// What to mind, in words.
    pub minds: Vec<String>,
}

/// More strips than this are a slip of the pencil.
const STRIPS_MOST: i64 = 1_000;

/// Splits `across` (the outline's reach across the strips) into strips and asks `reach` how far
/// the outline runs between two places, measured across from its near side.
///
/// # Errors
/// A strip of nothing; more than a thousand strips; a board too thin for the top.
pub fn glue_up(
    across: Length,
    thickness: Length,
    construction: Construction,
    rules: &LumberRules,
    reach: impl Fn(Length, Length) -> Length,
) -> Result<GlueUp, LumberError> {
    if rules.strip <= Length::ZERO {
        return Err(LumberError::Strip(rules.strip));
    }
    let blank = across + rules.side_trim * 2;
    let board = dressed(rules.quarters)?;
    let wide = match construction {
        Construction::SolidSlab => blank,
        // On edge the board's thickness is what is seen: no strip is wider than that.
        Construction::EdgeGrain => rules.strip.min(board).min(blank),
        Construction::FaceGrain | Construction::EndGrain => rules.strip.min(blank),
    };
    let count = blank.nm() / wide.nm().max(1) + i64::from(blank.nm() % wide.nm().max(1) != 0);
    if count > STRIPS_MOST {
        return Err(LumberError::TooMany { count, each: wide });
    }
    let mut runs = Vec::new();
    let (mut blank, mut left_out) = (blank, None);
    for at in 0..count {
        let from = wide * at - rules.side_trim;
        let to = (from + wide).min(across + rules.side_trim);
        // Nobody glues on a strip that is all trimmed off again.
        if at > 0 && from >= across {
            blank = wide * at;
            left_out = Some(from - across);
            break;
        }
        // The first may begin in the trim, and be that alone.
        let within = |at: Length| at.clamp(Length::ZERO, across);
        let reach = reach(within(from), within(to));
        runs.push(StripRun {
            seen: to - from,
            reach,
        });
    }
    let strips = match construction {
        Construction::EndGrain => blocks(&runs, thickness, board),
        _ => sticks(&runs, thickness, construction, rules),
    };
    let mut minds = minds(thickness, construction, rules, board, &runs);
    if let Some(left) = left_out {
        let left = left.show_inches(crate::units::LengthStyle::Sixteenths);
        minds.push(format!(
            "One strip more would lie in the trim alone and is left out: that leaves {left} to trim at that side."
        ));
    }
    Ok(GlueUp {
        minds,
        even: Length::from_nm(blank.nm() / i64::try_from(runs.len()).unwrap_or(1).max(1)),
        strips,
        blank,
    })
}

fn sticks(
    runs: &[StripRun],
    thickness: Length,
    construction: Construction,
    rules: &LumberRules,
) -> Vec<Strip> {
    let mut out: Vec<Strip> = Vec::new();
    for run in runs {
        let (rip, from) = match construction {
            Construction::EdgeGrain => (thickness, run.seen),
            _ => (run.seen, thickness),
        };
        let strip = Strip {
            count: 1,
            seen: run.seen,
            long: run.reach + rules.end_trim * 2,
            rip,
            from,
        };
        push(&mut out, strip);
    }
    out
}

/// Blocks on end: as tall as the top is thick, as many to a row as the board's thickness goes
/// into its length.
fn blocks(runs: &[StripRun], thickness: Length, board: Length) -> Vec<Strip> {
    let mut out: Vec<Strip> = Vec::new();
    for run in runs {
        let whole = run.reach.nm() / board.nm().max(1);
        let row = whole + i64::from(run.reach.nm() % board.nm().max(1) != 0);
        let strip = Strip {
            count: u32::try_from(row).unwrap_or(u32::MAX),
            seen: run.seen,
            long: thickness,
            rip: run.seen,
            from: board,
        };
        push(&mut out, strip);
    }
    out
}

fn push(out: &mut Vec<Strip>, strip: Strip) {
    let like = |other: &&mut Strip| {
        (other.seen, other.long, other.rip, other.from)
            == (strip.seen, strip.long, strip.rip, strip.from)
    };
    match out.iter_mut().find(like) {
        Some(other) => other.count = other.count.saturating_add(strip.count),
        None => out.push(strip),
    }
}

fn minds(
    thickness: Length,
    construction: Construction,
    rules: &LumberRules,
    board: Length,
    runs: &[StripRun],
) -> Vec<String> {
    let mut out = Vec::new();
    let inches = |length: Length| length.show_inches(crate::units::LengthStyle::Sixteenths);
    if construction == Construction::EdgeGrain && rules.strip > board {
        out.push(format!(
            "On edge {}/4 lumber shows no more than it dresses to, about {}, so the strips are that wide and not {}.",
            rules.quarters,
            inches(board),
            inches(rules.strip)
        ));
    }
    let needed = match construction {
        Construction::EdgeGrain | Construction::EndGrain => Length::ZERO,
        Construction::FaceGrain | Construction::SolidSlab => thickness,
    };
    if needed > board {
        out.push(format!(
            "{}/4 lumber dresses to about {}, too thin for {}: buy thicker (from memory of the hardwood grading rules; ask the yard).",
            rules.quarters,
            inches(board),
            inches(needed)
        ));
    }
    let last = runs.last().map_or(rules.strip, |run| run.seen);
    let first = runs.first().map_or(last, |run| run.seen);
    if runs.len() > 1 && last.nm() * 3 < first.nm() {
        out.push(format!(
            "The last strip is only {} wide: even strips look better and hold better.",
            inches(last)
        ));
    }
    out
}
