//! What stands below a drawing where no finding is told, and the piece in figures.

use super::super::kit::text::wrap;
use super::super::kit::theme::Theme;
use super::super::screen::{Ctx, Wish};
use crate::papers::{not_checked, shape_figures, shape_words};
use crate::shop::PieceFile;
use ratatui::style::Style;

/// Lines below a drawing, each with its look.
pub(super) type Foot = Vec<(String, Style)>;

fn looking(words: &str, width: usize, look: Style) -> impl Iterator<Item = (String, Style)> {
    wrap(words, width).into_iter().map(move |line| (line, look))
}

/// That nothing was found, what was not looked at, and the figures of the piece.
pub(super) fn nothing_found(file: &PieceFile, width: usize, ctx: &Ctx<'_>) -> Foot {
    let theme: &Theme = ctx.theme;
    let mut out = vec![("The layout checks found nothing.".to_owned(), theme.good)];
    if let Some(words) = not_checked(ctx.shop, file) {
        out.extend(looking(&format!("{words} s notes it."), width, theme.warn));
    }
    for line in shape_figures(&file.piece, ctx.shop) {
        out.extend(looking(&line, width, theme.dim));
    }
    out
}

/// A piece in figures, as a page to read.
pub(super) fn figures(file: &PieceFile, ctx: &Ctx<'_>) -> Wish {
    let mut lines = shape_words(&file.piece.shape, &ctx.shop.settings);
    lines.push(String::new());
    lines.extend(shape_figures(&file.piece, ctx.shop));
    Wish::Read {
        title: format!("{} in figures", ctx.shop.called(file)),
        lines,
    }
}
