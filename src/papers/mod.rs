//! The papers: what is printed or handed over, as text.
//!
//! Lives here: turning what the shop knows into lines for paper. May not live here: the store,
//! the screen, a reading of the clock.

mod cautions;
mod cut_list;
mod cutting;
mod day;
mod drawings;
mod figures;
mod findings;
pub mod layout;
mod ready;
mod shapes;
mod tally;
mod ticket;
mod ticket_log;
pub mod wood;
mod words;

pub use cautions::ticket_cautions;
pub use cut_list::{PieceLumber, cut_list_paper, lumber_to_buy, piece_lumber};
pub use cutting::{CutOf, cut_cautions, cut_plan, cutting_paper, fine, template_lines};
pub use day::{call_words, day_paper, day_state_words};
pub use drawings::{TemplateFiles, drawing_paper, named_files, picture, sheet_svg, template_files};
pub use figures::{piece_weight, shape_figures};
pub use findings::{
    checks_paper, figure_words, finding_mark, finding_source, finding_words, findings_paper,
    not_checked,
};
pub use ready::{ReadyRow, ready_paper, ready_rows};
pub use shapes::{opening_words, shape_words};
pub use tally::{tally_paper, whole_tally_paper};
pub use ticket::ticket_paper;
pub use ticket_log::{line_code, pass_code};
pub use words::event_words;

/// Columns of a sheet of paper, and of the narrowest screen.
pub const PAPER_WIDTH: usize = 80;
