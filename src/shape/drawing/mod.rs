//! Drawings of a piece: in signs for a terminal, to scale as SVG for paper, full size as a
//! template.
//!
//! Lives here: what is drawn and where, from a piece seen from above; all text escaped. May not
//! live here: who the piece is for (headings are handed in as text), files, colours of a screen.

mod measures;
mod picture;
mod plot;
mod plot_labels;
mod sheet;
mod svg;
mod template;
mod tiles;

pub use picture::{Anchor, Ink, Label, Picture, Stroke};
pub use plot::{Cell, Plot, Signs, View};
pub use sheet::sheet;
pub use svg::escape;
pub use template::{Extra, TemplateOf, full_size};
pub use tiles::{Page, Tile, print_page, tiles};
