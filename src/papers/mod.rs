//! The papers: what is printed or handed over, as text.
//!
//! Lives here: turning what the shop knows into lines for paper. May not live here: the store,
//! the screen, a reading of the clock.

mod cans;
mod cautions;
mod cut_list;
mod cutting;
mod day;
mod day_sheet;
mod day_sheet_words;
mod drawings;
mod figures;
mod findings;
mod finish_record;
pub mod layout;
mod money;
mod ready;
mod shapes;
mod tally;
mod tally_by;
mod ticket;
mod ticket_log;
mod use_buy;
mod use_mix;
mod use_rates;
pub mod wood;
mod words;

pub use cans::{batches_used, can_paper, can_row_words, cans_paper, line_words, short_code};
pub use cautions::ticket_cautions;
pub use cut_list::{PieceLumber, cut_list_paper, lumber_to_buy, piece_lumber};
pub use cutting::{CutOf, cut_cautions, cut_plan, cutting_paper, fine, template_lines};
pub use day::{call_words, day_paper, day_state_words};
pub use day_sheet::{SheetPaper, day_sheet_paper, job_lines, load_lines, piece_lines, show_hours};
pub use day_sheet_words::SheetWords;
pub use drawings::{TemplateFiles, drawing_paper, named_files, picture, sheet_svg, template_files};
pub use figures::{piece_weight, shape_figures};
pub use findings::{
    checks_paper, figure_words, finding_mark, finding_source, finding_words, findings_paper,
    not_checked,
};
pub use finish_record::{difference_words, differences_paper, value_words};
pub use money::{
    deal_paper, estimate_paper, hours_code, hours_paper, hours_range, owed_paper, pace_paper,
    reminder_text, slip_paper,
};
pub use ready::{ReadyRow, ready_paper, ready_rows};
pub use shapes::{opening_words, shape_words};
pub use tally::{tally_paper, whole_tally_paper};
pub use tally_by::{
    TALLY_COLUMNS, cost_rate, faces_paper, film_words, group_name, groups_paper, tally_groups,
    tally_table,
};
pub use ticket::ticket_paper;
pub use ticket_log::{line_code, pass_code, slot_code};
pub use use_buy::{BUY_COLUMNS, SIGNED, buy_paper, buy_rows, job_words, short_words};
pub use use_mix::{mix_paper, scaled_notes, scaled_paper};
pub use use_rates::{ground_words, learned_words, rate_passes, rates_paper};
pub use words::event_words;

/// Columns of a sheet of paper, and of the narrowest screen.
pub const PAPER_WIDTH: usize = 80;
