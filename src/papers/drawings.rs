//! The drawings of a piece with their headings: in signs, on a sheet, full size.

use super::findings::{finding_mark, finding_words};
use super::layout::wrap;
use super::shapes::shape_words;
use crate::desk::Shop;
use crate::desk::typed::echo_closing;
use crate::shape::drawing::{
    Extra, Page, Picture, Plot, Signs, TemplateOf, Tile, View, full_size, print_page, sheet, tiles,
};
use crate::shape::layout::Seen;
use crate::shop::PieceFile;

/// The picture of a piece with its findings.
pub fn picture(shop: &Shop, file: &PieceFile) -> Picture {
    let piece = &file.piece;
    let layout = shop.layout_of(piece.id);
    Picture::new(
        &piece.shape,
        piece.construction,
        &layout.standing,
        &shop.findings(file),
        shop.settings.length,
    )
}

/// A piece in signs, so many places wide and tall, and its findings below.
pub fn drawing_paper(
    shop: &Shop,
    file: &PieceFile,
    (cols, rows): (usize, usize),
    signs: Signs,
) -> Vec<String> {
    let plot = Plot::new(&picture(shop, file), View::default(), cols, rows, signs);
    let mut out = vec![format!(
        "{}, seen from above, front below; one sign is {:.0} mm wide",
        shop.called(file),
        plot.mm_per_col()
    )];
    let lines = plot.lines();
    // A long piece leaves much paper empty above and below.
    let first = lines.iter().position(|line| !line.is_empty()).unwrap_or(0);
    let last = lines.iter().rposition(|line| !line.is_empty());
    out.extend(
        lines
            .into_iter()
            .take(last.map_or(0, |last| last + 1))
            .skip(first),
    );
    out.extend(
        below(shop, file)
            .iter()
            .flat_map(|line| wrap(line, cols, 4)),
    );
    out
}

/// Size, openings and findings in words: what stands below a drawing.
fn below(shop: &Shop, file: &PieceFile) -> Vec<String> {
    let mut out = shape_words(&file.piece.shape, &shop.settings);
    out.extend(echo_closing(file.piece.shape.outline(), &shop.settings));
    for (no, finding) in (1..).zip(&shop.findings(file)) {
        let words = finding_words(finding, &shop.settings);
        out.push(format!("{} {words}", finding_mark(no, finding)));
    }
    out
}

/// Whose piece it is, for the head of a sheet.
fn heading(shop: &Shop, file: &PieceFile) -> Vec<String> {
    let piece = &file.piece;
    let job = shop.job(piece.job);
    let client = shop
        .client_of(file)
        .map_or("", |client| client.name.as_str());
    let title = job.map_or("", |job| job.title.as_str());
    let shop_name = &shop.settings.shop_name;
    let mut out = vec![format!(
        "{}: {}, {}",
        shop.called(file),
        piece.species,
        piece.construction
    )];
    out.push(format!("{title} for {client}"));
    if !shop_name.is_empty() {
        out.push(shop_name.clone());
    }
    out
}

/// The dimensioned sheet.
pub fn sheet_svg(shop: &Shop, file: &PieceFile, page: Page) -> String {
    // So many signs of the small text go across a sheet lying on its side.
    let words: Vec<String> = below(shop, file)
        .iter()
        .flat_map(|line| wrap(line, 150, 4))
        .collect();
    sheet(
        &picture(shop, file),
        &Seen::of(&file.piece.shape),
        shop.settings.length,
        page,
        &heading(shop, file),
        &words,
    )
}

/// A full-size template: in one piece, and over sheets of paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TemplateFiles {
    /// All of it, for a plotter.
    pub whole: String,
    /// Sheet by sheet.
    pub tiles: Vec<Tile>,
    /// Its heading.
    pub heading: String,
}

/// The template of a piece or of one opening; none when it has no such opening.
pub fn template_files(
    shop: &Shop,
    file: &PieceFile,
    of: TemplateOf,
    extra: Extra,
    page: Page,
) -> Option<TemplateFiles> {
    let what = match of {
        TemplateOf::Piece => String::new(),
        TemplateOf::Opening(name) => format!(", {name}"),
    };
    let heading = format!("{}{what}", shop.called(file));
    let shape = &file.piece.shape;
    Some(TemplateFiles {
        whole: full_size(shape, of, extra, &heading)?,
        tiles: tiles(shape, of, extra, page, &heading)?,
        heading,
    })
}

/// The files of a template, by name.
pub fn named_files(made: &TemplateFiles, page: Page) -> Vec<(String, String)> {
    let mut out = vec![("all.svg".to_owned(), made.whole.clone())];
    for tile in &made.tiles {
        if let Some(svg) = &tile.svg {
            let name = format!("sheet-row{}-column{}.svg", tile.row, tile.column);
            out.push((name, svg.clone()));
        }
    }
    let print = print_page(&made.tiles, page, &made.heading);
    out.push(("print.html".to_owned(), print));
    out
}
