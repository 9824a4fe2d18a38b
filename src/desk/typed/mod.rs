//! What a person types, as text, read into the desk's drafts, and drafts written back as text that
//! reads as exactly the same again. The screen's forms and the commands both come through here.
//!
//! Lives here: the notations of our own for sizes, cutouts, recoat windows and the like, what was
//! understood in words (`echo_*`), and which field an error belongs to. May not live here: the
//! screen, the store, a clock; the moment is passed in. Names and notes are handed on as typed;
//! the desk cleans them and says so.

mod air;
mod bench_figures;
mod can;
mod clauses;
mod corners;
mod day;
mod echo;
mod error;
mod figures;
mod layout_book;
mod lie;
mod lumber;
mod moisture;
mod money;
mod opening;
mod outline;
mod own_wood;
mod people;
mod piece;
mod place;
mod product;
mod product_figures;
mod product_text;
mod purpose;
mod recipe;
mod settings;
mod site;
mod size;
mod slots;
mod slots_time;
mod span;
mod use_book;
mod windows;
mod words;
mod work;

pub use air::{read_ahead, read_air_time, read_shop_air, write_shop_air};
pub use bench_figures::{read_bench_figure, read_interruptions, read_step_time, write_step_time};
pub use can::{read_can_no, read_keeps, read_method, read_take, read_weight, split_sure};
pub use corners::{read_corners, write_corners};
pub use day::{read_chore, read_day, read_rag_way};
mod standing;

pub use echo::{
    echo_air, echo_amount, echo_band, echo_closing, echo_corners, echo_cutouts, echo_faces,
    echo_holes, echo_length, echo_lines, echo_profile, echo_promise, echo_scuff, echo_shape,
    echo_size, echo_span, echo_when, echo_windows,
};
pub use error::{FieldError, field_of};
pub use layout_book::{
    RouterTyped, RuleTyped as CheckTyped, read_clean_up, read_depth, read_guide, read_router,
    read_rule as read_check,
};
pub use lie::{LieTyped, grain_words, held_choices, read_lie, situation_words};
pub use lumber::{LumberTyped, read_lumber};
pub use moisture::{ReadingTyped, read_reading};
pub use money::{
    read_count, read_line_kind, read_markup, read_money, read_parts, read_percent, read_share,
    read_signed_at, read_step, read_tax,
};
pub use opening::{read_cutouts, read_holes, write_cutouts, write_holes, write_opening};
pub use outline::write_outline;
pub use own_wood::{RuleTyped, WoodTyped, read_rule, read_wood};
pub use people::{JobTyped, read_client, read_job, read_promise, read_year};
pub use piece::{PieceTyped, read_piece};
pub use place::Onto;
pub use product::{ProductTyped, figure_field, read_product};
pub use product_figures::echo_figures;
pub use purpose::{read_purpose, write_purpose};
pub use recipe::{RecipeTyped, read_grits, read_recipe, write_grits, write_scuff};
pub use settings::{SettingsTyped, read_settings};
pub use site::{SiteTyped, echo_site, read_site, region_words};
pub use size::{read_length, read_profile, read_size, write_length, write_profile, write_size};
pub use slots::{SlotDraft, read_hours, read_slot, write_hours};
pub use span::{SpanUnit, read_span, write_span};
pub use standing::{StandingTyped, read_standing, read_yes};
pub use use_book::{
    UseRulesTyped, read_mix_by, read_on_shelf, read_part, read_price, read_use_rules, read_volume,
};
pub use windows::{read_windows, write_windows};
pub use words::{construction_words, kind_words, pick};
pub use work::{
    read_air, read_amount, read_faces, read_scuff, read_verdict, read_when, write_amount,
};
