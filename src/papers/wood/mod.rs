//! What is told about wood: the sheet of a piece, the table of woods, and the client's page.
//!
//! Lives here: words and the text plot. May not live here: what is reckoned
//! ([`crate::shop::moving`]), the screen.

mod client;
mod html;
mod moves;
mod plot;
mod seals;
mod sheet;
mod species;

pub use client::{client_page_html, client_page_paper};
pub use moves::held_words;
pub use plot::plot;
pub use sheet::{reading_code, reading_line, wood_sheet_lines, wood_sheet_paper};
pub use species::{species_lines, species_paper, species_short};

/// How a line of the sheet is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// A heading.
    Heading,
    /// Ordinary text.
    Body,
    /// Sources and small print.
    Small,
    /// A line of a drawing: never broken.
    Figure,
}

/// A line with how it is set.
pub type Line = (Weight, String);

/// The lines on paper: headings with a rule behind them, text broken at the sheet's width.
fn on_paper(lines: &[Line]) -> Vec<String> {
    use super::PAPER_WIDTH;
    use super::layout::wrap;
    let mut out = Vec::new();
    for (weight, text) in lines {
        match weight {
            Weight::Heading => {
                if !out.is_empty() {
                    out.push(String::new());
                }
                let rule = PAPER_WIDTH.saturating_sub(text.len() + 1);
                out.push(format!("{text} {}", "-".repeat(rule)));
            }
            Weight::Figure => out.push(text.clone()),
            Weight::Body | Weight::Small => {
                let inside = text.trim_start_matches(' ');
                let margin = text.len() - inside.len();
                let blanks = " ".repeat(margin);
                let wrapped = wrap(inside, PAPER_WIDTH - margin, 2);
                out.extend(wrapped.into_iter().map(|line| format!("{blanks}{line}")));
            }
        }
    }
    out
}
