//! Board feet and the boards to buy.

use super::LumberRules;
use super::strips::Strip;
use crate::units::Length;
use serde::Serialize;
use thiserror::Error;

/// Why a glue-up or a purchase cannot be reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum LumberError {
    /// A strip of nothing.
    #[error("A strip {} wide is no strip: give its seen width, for example 1 3/4.", inches(*.0))]
    Strip(Length),
    /// Too many strips.
    #[error("That would take {count} strips of {}: give a wider strip.", inches(*.each))]
    TooMany {
        /// So many.
        count: i64,
        /// Of this width.
        each: Length,
    },
    /// Waste that leaves nothing.
    #[error("Waste of {0} % is not possible: say from 0 to 90 of each hundred bought.")]
    Waste(u32),
    /// A rough thickness nobody sells.
    #[error("{0}/4 is no rough thickness: say 4, 5, 6, 8, 10, 12 or 16 quarters.")]
    Quarters(u32),
    /// A strip that no board yields.
    #[error("A piece {} by {} does not come out of a board {} by {}: buy wider or longer boards.", inches(*.rip), inches(*.long), inches(*.width), inches(*.length))]
    Board {
        /// Ripped width.
        rip: Length,
        /// Its length.
        long: Length,
        /// The board's width.
        width: Length,
        /// The board's length.
        length: Length,
    },
}

fn inches(length: Length) -> String {
    length.show_inches(crate::units::LengthStyle::ThirtySeconds)
}

/// Board feet to buy for `net` at this waste: `net / (1 - waste)`; 30 % waste is `net / 0.70`, not
/// `net x 1.30` (cabinetmakers' forum on waste from rough lumber).
///
/// # Errors
/// More than 90 % waste.
pub fn gross_board_feet(net: f64, waste_percent: u32) -> Result<f64, LumberError> {
    if waste_percent > 90 {
        return Err(LumberError::Waste(waste_percent));
    }
    Ok(net * 100.0 / f64::from(100 - waste_percent))
}

/// Up to the next quarter of a board foot. A hair over a quarter from reckoning in binary counts
/// as that quarter.
pub fn round_up_quarter(board_feet: f64) -> f64 {
    (board_feet * 4.0 - 1e-9).ceil().max(0.0) / 4.0
}

/// What rough lumber of so many quarters dresses to on two faces (hardwood grading rules, from
/// memory: ask the yard).
pub(super) fn dressed(quarters: u32) -> Result<Length, LumberError> {
    let sixteenths = match quarters {
        4 => 13,
        5 => 17,
        6 => 21,
        8 => 28,
        10 => 36,
        12 => 44,
        16 => 60,
        other => return Err(LumberError::Quarters(other)),
    };
    Ok(Length::from_64ths(4 * sixteenths))
}

/// What one board gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BoughtBoard {
    /// The pieces cut from it: ripped width and length of each.
    pub pieces: Vec<(Length, Length)>,
}

/// The boards to buy.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Boards {
    /// Each with what is cut from it.
    pub boards: Vec<BoughtBoard>,
    /// Their board feet as sold: nominal width, length and rough thickness.
    pub board_feet: f64,
}

struct Board {
    /// Ripped lanes: width, and length still free.
    lanes: Vec<(Length, Length)>,
    /// Width not ripped yet.
    free: Length,
    pieces: Vec<(Length, Length)>,
}

/// Lays the strips out on boards of the shop's size, the widest and longest first, each in the
/// first place it fits: a plan to cut by, not always the least there is. A saw cut is counted
/// between neighbours.
///
/// # Errors
/// A strip that no board yields; a rough thickness nobody sells.
pub fn boards(strips: &[Strip], rules: &LumberRules) -> Result<Boards, LumberError> {
    dressed(rules.quarters)?;
    let (width, length) = (rules.board_width, rules.board_length);
    let mut sorted: Vec<Strip> = strips.to_vec();
    sorted.sort_by_key(|strip| std::cmp::Reverse((strip.rip, strip.long)));
    let mut bought: Vec<Board> = Vec::new();
    for strip in &sorted {
        let (rip, long) = (strip.rip, strip.long);
        if rip > width || long > length {
            return Err(LumberError::Board {
                rip,
                long,
                width,
                length,
            });
        }
        for _ in 0..strip.count {
            let fits = bought
                .iter_mut()
                .any(|board| place(board, rip, long, length, rules.kerf));
            if !fits {
                let mut board = Board {
                    lanes: Vec::new(),
                    free: width,
                    pieces: Vec::new(),
                };
                place(&mut board, rip, long, length, rules.kerf);
                bought.push(board);
            }
        }
    }
    let each = f64::from(rules.quarters) / 4.0 * width.inches() * length.inches() / 144.0;
    Ok(Boards {
        board_feet: each * bought.len() as f64,
        boards: bought
            .into_iter()
            .map(|board| BoughtBoard {
                pieces: board.pieces,
            })
            .collect(),
    })
}

/// Puts a piece on a board, in a lane of its width or in a new one; whether it went.
fn place(board: &mut Board, rip: Length, long: Length, whole: Length, kerf: Length) -> bool {
    let lane = board
        .lanes
        .iter_mut()
        .find(|(width, free)| *width == rip && *free >= long);
    if let Some((_, free)) = lane {
        *free = *free - long - kerf;
    } else if board.free >= rip {
        board.free = board.free - rip - kerf;
        board.lanes.push((rip, whole - long - kerf));
    } else {
        return false;
    }
    board.pieces.push((rip, long));
    true
}
