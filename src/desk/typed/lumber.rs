//! Strips, lumber and paper as they are typed.

use super::error::{FieldError, keep};
use super::layout_book::whole;
use super::size::{read_length, write_length};
use super::words::{pick, plain};
use crate::shape::Say;
use crate::shape::drawing::Page;
use crate::shape::lumber::LumberRules;
use crate::shop::Settings;
use crate::units::Length;

/// Strips and lumber as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LumberTyped {
    /// Seen width of a strip.
    pub strip: String,
    /// Left on each end.
    pub end_trim: String,
    /// Left on each side of the blank.
    pub side_trim: String,
    /// Saw cut and jointing together.
    pub kerf: String,
    /// Percent of what is bought.
    pub waste: String,
    /// A board's width.
    pub board_width: String,
    /// Its length.
    pub board_length: String,
    /// Its rough thickness: 8 for 8/4.
    pub quarters: String,
    /// Paper: `a4` or `letter`.
    pub page: String,
}

fn pages() -> Vec<(Page, String)> {
    [Page::Letter, Page::A4]
        .map(|page| (page, page.word().to_owned()))
        .into()
}

impl LumberTyped {
    /// Strips, lumber and paper as they would be typed.
    pub fn of(lumber: &LumberRules, page: Page, settings: &Settings) -> Self {
        Self::of_with(lumber, page, &|length| write_length(length, settings))
    }

    /// The same with lengths written as asked.
    pub fn of_with(lumber: &LumberRules, page: Page, say: Say<'_>) -> Self {
        Self {
            strip: say(lumber.strip),
            end_trim: say(lumber.end_trim),
            side_trim: say(lumber.side_trim),
            kerf: say(lumber.kerf),
            waste: lumber.waste_percent.to_string(),
            board_width: say(lumber.board_width),
            board_length: say(lumber.board_length),
            quarters: lumber.quarters.to_string(),
            page: page.word().to_owned(),
        }
    }
}

/// Reads strips, lumber and paper.
///
/// # Errors
/// Every field that does not read.
pub fn read_lumber(
    typed: &LumberTyped,
    settings: &Settings,
) -> Result<(LumberRules, Page), Vec<FieldError>> {
    let mut errors = Vec::new();
    let length = |field, text: &str| read_length(field, text.trim(), settings);
    // Nothing left to trim is a figure too.
    let or_none = |field, text: &str| {
        if matches!(plain(text).as_str(), "0" | "0 in" | "0 mm") {
            Ok(Length::ZERO)
        } else {
            length(field, text)
        }
    };
    let strip = keep(length("strip", &typed.strip), &mut errors);
    let end_trim = keep(or_none("end_trim", &typed.end_trim), &mut errors);
    let side_trim = keep(or_none("side_trim", &typed.side_trim), &mut errors);
    let kerf = keep(or_none("kerf", &typed.kerf), &mut errors);
    let waste = whole("waste", typed.waste.trim().trim_end_matches('%'));
    let waste = keep(waste, &mut errors);
    let board_width = keep(length("board_width", &typed.board_width), &mut errors);
    let board_length = keep(length("board_length", &typed.board_length), &mut errors);
    let quarters = whole("quarters", typed.quarters.trim().trim_end_matches("/4"));
    let quarters = keep(quarters, &mut errors);
    let page = keep(pick("page", &typed.page, &pages()), &mut errors);
    let trims = (strip, end_trim, side_trim, kerf);
    match (trims, waste, board_width, board_length, quarters, page) {
        (
            (Some(strip), Some(end_trim), Some(side_trim), Some(kerf)),
            Some(waste_percent),
            Some(board_width),
            Some(board_length),
            Some(quarters),
            Some(page),
        ) => Ok((
            LumberRules {
                strip,
                end_trim,
                side_trim,
                kerf,
                waste_percent,
                board_width,
                board_length,
                quarters,
            },
            page,
        )),
        _ => Err(errors),
    }
}
